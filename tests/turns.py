"""The slow tier by turns: each run of CI takes one of them, and a round of turns is all of it.

    python -m tests.turns              the number of this commit's turn
    python -m tests.turns --loads      what each turn takes of the processor
    python -m pytest --turn 3          the tests of turn 3

What the tests take of the processor stands in slow_seconds.csv, a row a function (``python -m tests.slow_seconds`` measures it). A function that takes
long is dealt in shares of its cases. What no turn has, and why, stands in not_in_turns.txt: it is run by hand.
"""

from __future__ import annotations

import csv
import datetime
import math
import statistics
import subprocess
import sys
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

PROJECT = Path(__file__).resolve().parent.parent
TABLE, LEFT_OUT = Path(__file__).with_name("slow_seconds.csv"), Path(__file__).with_name("not_in_turns.txt")
TURNS = 20
FULL = 330.0
"""Processor time of a turn at most [s]: under three minutes of two cores, so that CI as a whole stays under twelve."""
SHARE = 45.0
"""A function that takes longer is dealt in shares, if it has cases [s]."""
TOO_LONG = 240.0
"""Processor time of a case that no turn has room for [s]."""
HOW = ("measured", "estimate")


@dataclass(frozen=True)
class Row:
    """What a function takes of the processor with all its cases [s], how many they are, and whether all were measured."""

    seconds: float
    cases: int = 1
    how: str = "measured"

    @property
    def shares(self) -> int:
        """In so many shares it is dealt.

        >>> Row(100, 10).shares, Row(100, 2).shares, Row(30, 10).shares, Row(0, 1).shares
        (3, 2, 1, 1)
        """
        return max(1, min(self.cases, math.ceil(self.seconds / SHARE)))


def table(text: str) -> dict[str, Row]:
    """The rows of slow_seconds.csv by function.

    >>> table("test,cases,seconds,how\\ntests/test_a.py::test_it,4,2.5,measured\\n")
    {'tests/test_a.py::test_it': Row(seconds=2.5, cases=4, how='measured')}
    """
    return {row["test"]: Row(float(row["seconds"]), int(row["cases"]), row["how"]) for row in csv.DictReader(text.splitlines())}


def left_out(text: str) -> dict[str, str]:
    """The lines of not_in_turns.txt: the start of a test's id, and why no turn has it.

    >>> left_out("# why\\ntests/hub/test_hub.py | needs JupyterHub\\n")
    {'tests/hub/test_hub.py': 'needs JupyterHub'}
    """
    lines = (line.split("#", 1)[0].strip() for line in text.splitlines())
    return dict(tuple(map(str.strip, line.split("|", 1))) for line in lines if line)


def may_be_slow(source: str) -> bool:
    """Whether a file of tests may have a slow one: by its words alone, which is quick (``EVERY`` is tests/lessons/lesson_checks.py's).

    >>> may_be_slow("@pytest.mark.slow"), may_be_slow("@EVERY"), may_be_slow("def test_it(): pass")
    (True, True, False)
    """
    return "slow" in source or "EVERY" in source


def by_function(tests: Iterable[str]) -> dict[str, list[str]]:
    """The cases of each function.

    >>> by_function(["a::f[1]", "a::f[2]", "b::g"])
    {'a::f': ['a::f[1]', 'a::f[2]'], 'b::g': ['b::g']}
    """
    cases: dict[str, list[str]] = {}
    for test in tests:
        cases.setdefault(test.partition("[")[0], []).append(test)
    return cases


def deal(rows: Mapping[str, Row], new: Iterable[str] = (), turns: int = TURNS) -> dict[tuple[str, int], int]:
    """The turn of each share of each function: the longest first, each to the turn that has least; then the new functions, which count as the middle one.

    So a new test moves no other one.

    >>> deal({"a": Row(5), "b": Row(4), "c": Row(3), "d": Row(1)}, turns=2)
    {('a', 0): 0, ('b', 0): 1, ('c', 0): 1, ('d', 0): 0}
    >>> deal({"a": Row(80, 2), "b": Row(5)}, ["new"], turns=2)
    {('a', 0): 0, ('a', 1): 1, ('b', 0): 0, ('new', 0): 1}
    """
    middle = statistics.median(row.seconds for row in rows.values()) if rows else 1.0
    known = [((name, share), row.seconds / row.shares) for name, row in rows.items() for share in range(row.shares)]
    full, dealt = [0.0] * turns, {}
    for piece, takes in [*sorted(known, key=lambda one: (-one[1], one[0])), *(((name, 0), middle) for name in sorted(set(new) - rows.keys()))]:
        dealt[piece] = min(range(turns), key=lambda n: (full[n], n))
        full[dealt[piece]] += takes
    return dealt


def of_turn(turn: int, tests: Sequence[str], rows: Mapping[str, Row], without: Iterable[str], turns: int = TURNS) -> list[str]:
    """The tests of a turn, in their order, out of all slow ones.

    >>> of_turn(1, ["a::b[1]", "a::b[2]", "c::d", "e::f"], {"a::b": Row(1, 2), "c::d": Row(2)}, ["e::"], turns=2)
    ['a::b[1]', 'a::b[2]']
    """
    out = tuple(without)
    functions = by_function(test for test in tests if not test.startswith(out or "\0"))
    dealt = deal(rows, functions, turns)
    return [
        test for name, cases in functions.items() for n, test in enumerate(cases)
        if dealt[name, n * (rows[name].shares if name in rows else 1) // len(cases)] == turn
    ]  # fmt: skip


def loads(rows: Mapping[str, Row], turns: int = TURNS) -> list[float]:
    """What each turn takes of the processor [s].

    >>> loads({"a": Row(5), "b": Row(4), "c": Row(3)}, turns=2)
    [5.0, 7.0]
    """
    found = [0.0] * turns
    for (name, _), turn in deal(rows, turns=turns).items():
        found[turn] += rows[name].seconds / rows[name].shares
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
    if sys.argv[1:] == ["--loads"]:
        print("\n".join(f"turn {n}: {taken:.0f} s" for n, taken in enumerate(loads(committed()[0]))))
    else:
        print(of_commit())
