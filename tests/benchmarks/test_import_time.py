"""How quickly the package is there: against an empty Python on the same machine, best of several."""

import subprocess
import sys
import time


def seconds(code: str, times: int = 7) -> float:
    """The quickest of several new Pythons that run the code."""

    def once() -> float:
        start = time.perf_counter()
        subprocess.run([sys.executable, "-c", code], check=True, stdout=subprocess.DEVNULL)
        return time.perf_counter() - start

    return min(once() for _ in range(times))


def test_import_is_quick():
    empty, full = seconds("pass"), seconds("import anglelib")
    assert full < 3 * empty and full - empty < 0.1, (empty, full)


def test_the_model_and_the_marks_are_quick():
    """What a lesson imports before its first formula: the part, its geometry, the drawing as SVG."""
    empty = seconds("pass")
    full = seconds("import anglelib.part, anglelib.job, anglelib.geometry.taper, anglelib.drawing.svg")
    assert full < 12 * empty, (empty, full)


def test_help_is_quick():
    code = "import sys; from anglelib.__main__ import main; sys.argv[1:] = ['--help']; main()"
    empty, full = seconds("import argparse"), seconds(code)
    assert full < 3 * empty, (empty, full)
