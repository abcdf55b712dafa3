"""What every file that a person keeps has in common: limits before parsing, and all problems at once."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from os import PathLike
from typing import Generic, NoReturn, TypeVar

from anglelib.errors import BenchError, FileProblems, Problem
from anglelib.lengths import MOST_CHARACTERS
from anglelib.names import visible
from anglelib.near import near
from anglelib.part import MOST_QUANTITY
from anglelib.storage import MOST_BYTES, Source, read_text

FORMAT = 1
"""The version of both file forms that this library reads and writes."""

MOST_LINE_CHARACTERS = 1000
MOST_PIECES = MOST_QUANTITY
"""The most pieces of a job, parts of a job, and sticks of a rack."""

MOST_PROBLEMS = 50
"""How many problems are listed; a file with more is usually the wrong file."""

_LINE_END = re.compile(r"\r\n|\r|\n")
Noun = TypeVar("Noun")


@dataclass(frozen=True)
class Opened(Generic[Noun]):
    """A file as it was read: the job or rack in it, and the text and stamp that a save will need."""

    value: Noun
    source: Source


def read_source(path: str | PathLike, kind: str) -> Source:
    """The text of a file of this kind (a job, a rack, readings); raises StorageError for what is no such file."""
    return read_text(path, MOST_BYTES, kind)


class Report:
    """Collects what is wrong in one file, in the order in which it is found."""

    def __init__(self, file: str):
        self.file = visible(file)[:80]
        self.problems: list[Problem] = []

    def add(self, place: str, message: object) -> None:
        """One more problem; a newline would look like a second one."""
        problem = Problem(self.file, visible(place), visible(str(message)))
        if problem not in self.problems[-3:]:
            self.problems.append(problem)

    def close(self) -> None:
        """Raise :class:`~anglelib.errors.FileProblems` if anything is wrong."""
        if self.problems:
            raise FileProblems(self._listed())

    def stop(self, place: str, message: object) -> NoReturn:
        """One problem after which nothing further can be read."""
        self.add(place, message)
        raise FileProblems(self._listed())

    def _listed(self) -> list[Problem]:
        listed = self.problems[:MOST_PROBLEMS]
        more = len(self.problems) - len(listed)
        if more:
            listed.append(Problem(self.file, "", f"there are {more} more problems: put these right first."))
        return listed

    def check_limits(self, text: str, empty: str, most: int = MOST_LINE_CHARACTERS) -> list[str]:
        """The lines of a text that is neither empty nor too large, none longer than ``most``; ``empty`` is the remedy for an empty one."""
        if not text.strip():
            self.stop("", f"the file is empty: {empty}")
        if len(text) > MOST_BYTES:
            self.stop("", f"the text is larger than {MOST_BYTES // 1000:,} kB: check that it is the right file.")
        lines = _LINE_END.split(text)
        for number, line in enumerate(lines, 1):
            if len(line) > most:
                self.add(
                    f"line {number}",
                    f"the line is {len(line):,} characters long: at most {most:,}; "
                    "break it, or shorten what stands in it.",
                )
        self.close()
        return lines

    def unknown(self, found: Iterable[str], known: Iterable[str], place: str, kind: str) -> set[str]:
        """A problem for every name that this kind of file does not have; returns the names that were meant."""
        known, found = tuple(known), tuple(found)
        free = [name for name in known if name not in found]
        meant = set()
        for name in found:
            if name in known:
                continue
            offered = near(name, free, most=1, close=0.6)
            meant.update(offered)
            remedy = f"did you mean {offered[0]}?" if offered else f"take it out; known here are {', '.join(known)}."
            self.add(place, f"unknown {kind} {quoted(name)}: {remedy}")
        return meant


def quoted(value: object) -> str:
    """What was read, shortened, as it is quoted in a message.

    >>> quoted("Floor cleat")
    '"Floor cleat"'
    >>> print(quoted(True), quoted([1]), quoted('name = "Tail'))
    true a list [...] 'name = "Tail'
    """
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, dict):
        return "a table {...}"
    if isinstance(value, list):
        return "a list [...]"
    text = visible(str(value))
    mark = "'" if '"' in text else '"'
    return f"{mark}{text[:MOST_CHARACTERS]}{'...' if len(text) > MOST_CHARACTERS else ''}{mark}"


def sentence(error: BenchError) -> str:
    """An error's sentence, as it follows a colon."""
    text = str(error)
    return "t" + text[1:] if text.startswith("The ") else text
