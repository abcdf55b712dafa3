"""The slow tier by turns: each run of CI takes one of them, and a round of turns is all of it.

    python -m tests.turns              the number of this commit's turn
    python -m pytest --turn 3          the tests of turn 3

What a test takes of the processor stands in slow_seconds.csv, a row a test or a function with all its cases (``python -m tests.slow_seconds``
measures it). What no turn has, and why, stands in not_in_turns.txt: it is run by hand.
"""

from __future__ import annotations

import csv
import datetime
import statistics
import subprocess
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

PROJECT = Path(__file__).resolve().parent.parent
TABLE, LEFT_OUT = Path(__file__).with_name("slow_seconds.csv"), Path(__file__).with_name("not_in_turns.txt")
TURNS = 10
FULL = 600
"""Processor time of a turn at most [s]: five minutes of two cores."""
TOO_LONG = 240
"""Processor time of a test that no turn has room for [s]."""
HOW = ("measured", "estimate")


@dataclass(frozen=True)
class Row:
    """What a test, or a function with all its cases, takes of the processor [s], and whether that was measured."""

    seconds: float
    how: str = "measured"


def table(text: str) -> dict[str, Row]:
    """The rows of slow_seconds.csv by test.

    >>> table("test,seconds,how\\ntests/test_a.py::test_it,2.5,measured\\n")
    {'tests/test_a.py::test_it': Row(seconds=2.5, how='measured')}
    """
    return {row["test"]: Row(float(row["seconds"]), row["how"]) for row in csv.DictReader(text.splitlines())}


def left_out(text: str) -> dict[str, str]:
    """The lines of not_in_turns.txt: the start of a test's id, and why no turn has it.

    >>> left_out("# why\\ntests/hub/test_hub.py | needs JupyterHub\\n")
    {'tests/hub/test_hub.py': 'needs JupyterHub'}
    """
    lines = (line.split("#", 1)[0].strip() for line in text.splitlines())
    return dict(tuple(map(str.strip, line.split("|", 1))) for line in lines if line)


def piece(test: str, known: Iterable[str]) -> str:
    """What is dealt as one with a test: the test itself where it has a row, else its function with all cases.

    >>> piece("tests/test_a.py::test_it[1]", {"tests/test_a.py::test_it"}), piece("tests/test_a.py::test_it[2]", {"tests/test_a.py::test_it[2]"})
    ('tests/test_a.py::test_it', 'tests/test_a.py::test_it[2]')
    """
    return test if test in known else test.partition("[")[0]


def deal(seconds: Mapping[str, float], new: Iterable[str] = (), turns: int = TURNS) -> dict[str, int]:
    """The turn of each piece: the longest first, each to the turn that has least; then the new ones, which count as the middle one of those known.

    So a new test moves no other one.

    >>> deal({"a": 5, "b": 4, "c": 3, "d": 1}, turns=2)
    {'a': 0, 'b': 1, 'c': 1, 'd': 0}
    >>> deal({"a": 5, "b": 4, "c": 3, "d": 1}, ["aa"], turns=2)
    {'a': 0, 'b': 1, 'c': 1, 'd': 0, 'aa': 0}
    """
    middle = statistics.median(seconds.values()) if seconds else 1.0
    loads, dealt = [0.0] * turns, {}
    for name, takes in [*sorted(seconds.items(), key=lambda row: (-row[1], row[0])), *((name, middle) for name in sorted(set(new) - seconds.keys()))]:
        turn = min(range(turns), key=lambda n: (loads[n], n))
        dealt[name] = turn
        loads[turn] += takes
    return dealt


def of_turn(turn: int, tests: Sequence[str], rows: Mapping[str, Row], without: Iterable[str], turns: int = TURNS) -> list[str]:
    """The tests of a turn, in their order, out of all slow ones.

    >>> of_turn(1, ["a::b[1]", "a::b[2]", "c::d", "e::f"], {"a::b": Row(1), "c::d": Row(2)}, ["e::"], turns=2)
    ['a::b[1]', 'a::b[2]']
    """
    out = tuple(without)
    pieces = {test: piece(test, rows) for test in tests if not test.startswith(out or "\0")}
    dealt = deal({name: row.seconds for name, row in rows.items()}, pieces.values(), turns)
    return [test for test, name in pieces.items() if dealt[name] == turn]


def loads(rows: Mapping[str, Row], turns: int = TURNS) -> list[float]:
    """What each turn takes of the processor [s].

    >>> loads({"a": Row(5), "b": Row(4), "c": Row(3)}, turns=2)
    [5.0, 7.0]
    """
    found = [0.0] * turns
    for name, turn in deal({name: row.seconds for name, row in rows.items()}, turns=turns).items():
        found[turn] += rows[name].seconds
    return found


def committed() -> tuple[dict[str, Row], dict[str, str]]:
    """The table and the list as they are in the project."""
    return table(TABLE.read_text(encoding="utf-8")), left_out(LEFT_OUT.read_text(encoding="utf-8"))


def _git(*words: str) -> str:
    return subprocess.run(["git", *words], cwd=PROJECT, capture_output=True, text=True, check=True).stdout.strip()


def of_commit(git=_git, today: datetime.date | None = None, turns: int = TURNS) -> int:
    """The turn of the commit that is checked out: by how many commits there are, in a clone without them all by its id, without git by the day.

    >>> of_commit(lambda *words: "false" if "--is-shallow-repository" in words else "744", turns=10)
    4
    """
    try:
        if git("rev-parse", "--is-shallow-repository") == "false":
            return int(git("rev-list", "--count", "HEAD")) % turns
        return int(git("rev-parse", "HEAD"), 16) % turns
    except (OSError, subprocess.CalledProcessError, ValueError):
        return (today or datetime.date.today()).toordinal() % turns


if __name__ == "__main__":
    print(of_commit())
