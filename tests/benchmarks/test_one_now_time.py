"""How quickly one part now is answered on the command line, start of Python and all: against what it cannot do without."""

import subprocess
import sys
import time
from pathlib import Path

DEMO = Path(__file__).resolve().parents[2] / "notebooks" / "demo"
BAR = ["--one", "3/4 x 3/4 x 1/8", "6061-T6", "17 1/4"]
SOLVER = "from ortools.sat.python import cp_model; from anglelib.geometry import ready_formulas"
"""The solver, and the formulas that a job is read with."""


def seconds(*words: str, times: int = 5) -> float:
    """The quickest of several new Pythons."""

    def once() -> float:
        start = time.perf_counter()
        subprocess.run([sys.executable, *words], check=True, stdout=subprocess.DEVNULL)
        return time.perf_counter() - start

    return min(once() for _ in range(times))


def test_without_a_list_it_needs_no_solver():
    empty, full = seconds("-c", "pass"), seconds("-m", "anglelib", "plan", *BAR)
    assert full < 25 * empty and full < 0.6, (empty, full)


def test_with_the_whole_list_it_is_under_a_second():
    base = seconds("-c", SOLVER)
    full = seconds("-m", "anglelib", "plan", str(DEMO / "job.toml"), str(DEMO / "rack.csv"), *BAR, "--part", "A3")
    assert full < 3 * base and full < 1 + 2 * max(0.0, base - 0.5), (base, full)
