"""What a change costs: this commit against an earlier one, turn by turn on one machine in one run.

    python tests/benchmarks/against_before.py COMMIT        writes the table against_before.md beside this file

Both commits are checked out into a folder of their own and run by the same Python, which keeps what it has compiled of them. What is
taken is the processor's time of each run, children included, so that another program on the machine weighs little; the ratio of the
medians is what is held: at most 1.10. The load of the machine stands beside the table: what it is busy with otherwise makes both slower.
"""

from __future__ import annotations

import datetime
import os
import platform
import shutil
import statistics
import sys
import tempfile
from contextlib import ExitStack
from pathlib import Path

import big_job
from processor_time import seconds
from two_commits import earlier, git

TABLE = Path(__file__).with_suffix(".md")
MOST = 1.10
DRAW = """
from anglelib.drawing.svg import svg
from anglelib.lessons import {module} as lesson
from anglelib.lessons.live import View
live = lesson.{picture}()
for move in range({moves}):
    values = dict(live.values, **{{{name!r}: lesson.{places}[move % len(lesson.{places})]}})
    svg(live.draw(values, View()), "screen")
"""
PAGE = """
import json
from pathlib import Path
for cell in json.loads(Path("notebooks/{page}.ipynb").read_text(encoding="utf-8"))["cells"]:
    if cell["cell_type"] == "code":
        *lines, last = "".join(cell["source"]).splitlines()
        exec("\\n".join(lines))
        if " import " in last:
            exec(last)
        else:
            shown = eval(last)
            getattr(shown, "_repr_mimebundle_", getattr(shown, "_repr_html_", shown.__repr__))()
"""
TASKS = {
    "import anglelib": (21, ["-c", "import anglelib"]),
    "import what lesson 07 needs": (15, ["-c", "from anglelib.lessons import taper_inside"]),
    "lesson 07's slider, 400 pictures": (9, ["-c", DRAW.format(module="taper_inside", picture="slopes", name="run", places="RUNS", moves=400)]),
    "--help": (21, ["-m", "anglelib", "--help"]),
    "the demo's plan": (7, ["-m", "anglelib", "plan"]),
    "the demo's shop pack": (7, ["-m", "anglelib", "pack", "--date", "2024-05-01", "--paper", "letter", "--out", "{out}/pack"]),
    "the shop pack of 500 pieces": (3, ["-m", "anglelib", "pack", "{out}/job.toml", "{out}/rack.csv", "--date", "2024-05-01", "--paper", "letter", "--out", "{out}/pack"]),
    "the class pack of 20 learners": (3, ["-m", "anglelib", "class", "--learners", "20", "--hours", "12", "--date", "2024-05-01", "--out", "{out}/class"]),
    "the instructor's page, its cells": (7, ["-c", PAGE.format(page="instructor")]),
}
"""What is run: how often, and the words after ``python``; ``{out}`` is a new folder each time, with the files of a job of 500 pieces."""


def taken(tree: Path, words: list[str], big: Path) -> float:
    """The processor's time of one run from a tree [s]."""
    with tempfile.TemporaryDirectory() as out:
        shutil.copytree(big, out, dirs_exist_ok=True)
        return seconds([word.replace("{out}", out) for word in words], tree)


def measured(before: Path, now: Path) -> dict[str, tuple[float, float]]:
    """The medians of every task, before and now [s]; the two take turns, and the first of each is not counted."""
    found = {}
    with tempfile.TemporaryDirectory() as big:
        big_job.write(Path(big))
        for name, (times, words) in TASKS.items():
            rows: tuple[list[float], list[float]] = ([], [])
            for turn in range(times + 1):
                for tree, row in zip((before, now), rows, strict=True):
                    used = taken(tree, words, Path(big))
                    if turn:
                        row.append(used)
            found[name] = (statistics.median(rows[0]), statistics.median(rows[1]))
            print(f"{name}: {found[name][0]:.3f} s, {found[name][1]:.3f} s", file=sys.stderr)
    return found


def table(found: dict[str, tuple[float, float]], before: str, now: str, load: float) -> str:
    rows = [f"| {name} | {a:.3f} | {b:.3f} | {b / a:.2f} |" for name, (a, b) in found.items()]
    head = f"""# This commit against an earlier one

Made by `python tests/benchmarks/against_before.py {before}`: the processor's time of a run, children included, the median of
{min(times for times, _ in TASKS.values())} to {max(times for times, _ in TASKS.values())} runs, the two commits taking turns.

- machine: {platform.system()} {platform.machine()}, {os.cpu_count()} cores, Python {platform.python_version()}; load {load:.1f} when it began
- date: {datetime.date.today().isoformat()}; commits {before} and {now}

| what | before, s | now, s | ratio |
|---|---|---|---|
"""
    return head + "\n".join(rows) + "\n"


def main() -> int:
    before, now, load = git("rev-parse", "--short", sys.argv[1]), git("rev-parse", "--short", "HEAD"), os.getloadavg()[0]
    with ExitStack() as trees:
        found = measured(*(trees.enter_context(earlier(commit)) for commit in (before, now)))
    TABLE.write_text(table(found, before, now, load), encoding="utf-8")
    print(TABLE.read_text(encoding="utf-8"))
    return 0 if all(b <= MOST * a for a, b in found.values()) else 1


if __name__ == "__main__":
    sys.exit(main())
