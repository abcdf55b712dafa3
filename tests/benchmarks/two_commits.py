"""An earlier commit beside this one, for what is measured before and now in one run."""

from __future__ import annotations

import contextlib
import json
import statistics
import subprocess
import tempfile
from collections.abc import Iterator
from pathlib import Path

PROJECT = Path(__file__).resolve().parents[2]


def git(*words: str) -> str:
    """What git says of the project."""
    return subprocess.run(["git", *words], cwd=PROJECT, check=True, capture_output=True, text=True).stdout.strip()


@contextlib.contextmanager
def earlier(commit: str) -> Iterator[Path]:
    """The project as it was at a commit, in a folder that is taken away afterwards."""
    with tempfile.TemporaryDirectory() as folder:
        tree = Path(folder) / commit
        git("worktree", "add", "--detach", str(tree), commit)
        try:
            yield tree
        finally:
            git("worktree", "remove", "--force", str(tree))


def pages(names: list[str]) -> list[Path]:
    """The notebooks of this commit, all or those that are named."""
    return sorted(path for path in (PROJECT / "notebooks").glob("*.ipynb") if not names or path.stem in names)


def code(notebook: Path) -> list[str]:
    """What a page's code cells say."""
    cells = json.loads(notebook.read_text(encoding="utf-8"))["cells"]
    return ["".join(cell["source"]) for cell in cells if cell["cell_type"] == "code"]


def cell_name(source: str) -> str:
    """A cell in a row of a table: what its last line calls.

    >>> cell_name("lesson.exercise(2)"), cell_name("import anglelib\\nLivePicture(draw, {})"), cell_name("work.describe")
    ('exercise(2)', 'LivePicture(draw, {})', 'work.describe')
    """
    last = source.strip().splitlines()[-1].removeprefix("lesson.")
    return last if len(last) < 40 and last != source else f"{last.partition('(')[0]}(...)" if "(" in last else last


def part(times: list[float], hundredth: int) -> float:
    """So many hundredths of the times are at most this."""
    return statistics.quantiles(times, n=100, method="inclusive")[hundredth - 1] if len(times) > 1 else times[0]
