"""The table of mistakes: for each of M01 to M27, in which lessons a wrong answer, an order or a made part shows it by name.

Where each is shown is gathered from the questions of the lessons and from the diagnosis (:mod:`~anglelib.workshop.mistakes_gathered`), never typed;
that takes a second, so it is written down once, in :mod:`~anglelib.workshop.mistakes_shown`.

>>> row = next(row for row in table() if row.id == "M12")
>>> row.name, "07" in row.lessons
('inside line aimed at the inside corner', True)
>>> recognised() >= 24
True
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from anglelib.inspection.mistakes import MISTAKES
from anglelib.workshop.mistakes_shown import SHOWN

WAYS = {"n": "a number", "c": "a choice", "o": "an order", "s": "the slip is to be named", "p": "a made part"}
"""How a lesson shows a mistake, by a letter each, which stands where room is short."""
NUMBER, CHOICE, ORDER, NAMED, MADE = WAYS


@dataclass(frozen=True)
class MistakeRow:
    """One mistake: its number, name, what to say, and by lesson how it is recognised there, by the letters of WAYS."""

    id: str
    name: str
    sentence: str
    remedy: str
    lessons: dict[str, tuple[str, ...]]

    @property
    def where(self) -> str:
        """The lessons in words, for a cell of the table."""
        return "; ".join(f"{lesson} ({', '.join(WAYS[way] for way in ways)})" for lesson, ways in self.lessons.items()) or "in no lesson yet"

    @property
    def short(self) -> str:
        """The same by letters."""
        return "; ".join(f"{lesson} {' '.join(ways)}" for lesson, ways in self.lessons.items()) or "none yet"


@cache
def table() -> tuple[MistakeRow, ...]:
    """Every mistake with the lessons that recognise it."""
    return tuple(
        MistakeRow(mistake.id, mistake.name, mistake.sentence, mistake.remedy, {lesson: tuple(ways) for lesson, ways in SHOWN[mistake.id].items()})
        for mistake in MISTAKES.values()
    )


def recognised() -> int:
    """How many of the mistakes are recognised in one lesson or more."""
    return sum(bool(row.lessons) for row in table())
