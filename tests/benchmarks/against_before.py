"""What a change costs: this commit against an earlier one, turn by turn on one machine in one run.

    python tests/benchmarks/against_before.py COMMIT        writes the table against_before.md beside this file

Both commits are checked out into a folder of their own and run by the same Python. What is taken is the processor's time of each
run, children included, so that another program on the machine weighs little; the ratio of the medians is what is held: at most
1.10.
"""

from __future__ import annotations

import datetime
import os
import platform
import resource
import statistics
import subprocess
import sys
import tempfile
from pathlib import Path

PROJECT = Path(__file__).resolve().parents[2]
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
TASKS = {
    "import anglelib": (21, ["-c", "import anglelib"]),
    "import what lesson 07 needs": (15, ["-c", "from anglelib.lessons import taper_inside"]),
    "lesson 07's slider, 400 pictures": (9, ["-c", DRAW.format(module="taper_inside", picture="slopes", name="run", places="RUNS", moves=400)]),
    "the demo's shop pack": (7, ["-m", "anglelib", "pack", "--date", "2024-05-01", "--paper", "letter", "--out", "{out}"]),
    "the demo's plan": (7, ["-m", "anglelib", "plan"]),
}
"""What is run: how often, and the words after ``python``."""


def seconds(tree: Path, words: list[str]) -> float:
    """The processor's time of one run from a tree [s]."""
    with tempfile.TemporaryDirectory() as out:
        before = resource.getrusage(resource.RUSAGE_CHILDREN)
        command = [sys.executable, *(word.replace("{out}", out) for word in words)]
        subprocess.run(command, cwd=tree, env={**os.environ, "PYTHONPATH": str(tree)}, check=True, stdout=subprocess.DEVNULL)
        after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def measured(before: Path, now: Path) -> dict[str, tuple[float, float]]:
    """The medians of every task, before and now [s]; the two take turns, and the first of each is not counted."""
    found = {}
    for name, (times, words) in TASKS.items():
        taken: tuple[list[float], list[float]] = ([], [])
        for turn in range(times + 1):
            for tree, row in zip((before, now), taken, strict=True):
                used = seconds(tree, words)
                if turn:
                    row.append(used)
        found[name] = (statistics.median(taken[0]), statistics.median(taken[1]))
        print(f"{name}: {found[name][0]:.3f} s, {found[name][1]:.3f} s", file=sys.stderr)
    return found


def git(*words: str) -> str:
    return subprocess.run(["git", *words], cwd=PROJECT, check=True, capture_output=True, text=True).stdout.strip()


def table(found: dict[str, tuple[float, float]], before: str, now: str) -> str:
    rows = [f"| {name} | {a:.3f} | {b:.3f} | {b / a:.2f} |" for name, (a, b) in found.items()]
    head = f"""# This commit against an earlier one

Made by `python tests/benchmarks/against_before.py {before}`: the processor's time of a run, children included, the median of
{min(times for times, _ in TASKS.values())} to {max(times for times, _ in TASKS.values())} runs, the two commits taking turns.

- machine: {platform.system()} {platform.machine()}, {os.cpu_count()} cores, Python {platform.python_version()}
- date: {datetime.date.today().isoformat()}; commits {before} and {now}

| what | before, s | now, s | ratio |
|---|---|---|---|
"""
    return head + "\n".join(rows) + "\n"


def main() -> int:
    before, now = git("rev-parse", "--short", sys.argv[1]), git("rev-parse", "--short", "HEAD")
    with tempfile.TemporaryDirectory() as folder:
        trees = []
        for commit in (before, now):
            tree = Path(folder) / commit
            git("worktree", "add", "--detach", str(tree), commit)
            trees.append(tree)
        try:
            found = measured(*trees)
        finally:
            for tree in trees:
                git("worktree", "remove", "--force", str(tree))
    TABLE.write_text(table(found, before, now), encoding="utf-8")
    print(TABLE.read_text(encoding="utf-8"))
    return 0 if all(b <= MOST * a for a, b in found.values()) else 1


if __name__ == "__main__":
    sys.exit(main())
