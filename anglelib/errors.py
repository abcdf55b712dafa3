"""Errors in bench language: one sentence that says what is wrong and what to do about it.

Everything a person can cause by typing or by a file raises a :class:`BenchError`. Whoever shows it
(a lesson, the command line) prints ``str(error)`` and never a traceback.

>>> raise SectionError("Leg A is 0: give the leg its width, for example 3/4.")
Traceback (most recent call last):
    ...
anglelib.errors.SectionError: Leg A is 0: give the leg its width, for example 3/4.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass


class BenchError(ValueError):
    """Something a person can put right; ``str()`` is the sentence to show."""


class LengthError(BenchError):
    """A typed length that cannot be read, or is not allowed where it was typed."""


class SectionError(BenchError):
    """A section that no extruder could make, or that this library does not cover; ``size`` is the field of it that is wrong, where one is."""

    def __init__(self, sentence: str, size: str = ""):
        self.size = size
        super().__init__(sentence)


class PartError(BenchError):
    """A part whose description contradicts itself or its section."""


class JobError(BenchError):
    """A job whose parts contradict one another."""


class RackError(BenchError):
    """A stick, or a rack of sticks, that cannot be as it is described."""


class PlanError(BenchError):
    """A plan that cannot be made, or that the checker refuses."""


class StorageError(BenchError):
    """A file that cannot be read, written or locked."""


class FileChanged(StorageError):
    """A file that somebody else has changed since it was read here: read again, and nothing is lost."""


class AnswerError(BenchError):
    """A learner's answer that cannot be read as what was asked for."""


@dataclass(frozen=True)
class Problem:
    """One thing wrong in one place of one file.

    >>> print(Problem("rack.csv", "row 4, length", "there is no length: write one, for example 92 1/8."))
    rack.csv, row 4, length: there is no length: write one, for example 92 1/8.
    """

    file: str
    place: str
    message: str

    def __str__(self) -> str:
        where = ", ".join(text for text in (self.file, self.place) if text)
        return f"{where}: {self.message}" if where else self.message


class FileProblems(BenchError):
    """Everything that is wrong in one or more files, found in one reading; one line a problem."""

    def __init__(self, problems: Iterable[Problem]):
        self.problems = tuple(problems)
        super().__init__("\n".join(str(problem) for problem in self.problems))
