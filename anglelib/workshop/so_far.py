"""How far a learner is, from the answers in the learner's own folder: which lesson was last, what is done, what is worth another try.

Nothing is graded: a lesson is done when each question of its own has been answered, rightly or not. What is
read (:func:`kept`) and what follows from it (:func:`so_far`) are two things; the words come last
(:mod:`anglelib.workshop.so_far_words`).

>>> given = (Answer("07-project", 0, "1/8", "mistake", ("offset-as-thickness",)),)
>>> found = so_far(Kept({"07_taper_inside": given}, "07_taper_inside"))
>>> found.last, found.next
('07_taper_inside', '07_taper_inside')
>>> found.again
(Again(lesson='07_taper_inside', question='07-project', slips=('offset-as-thickness',)),)
>>> found.of("07_taper_inside")
Standing(lesson='07_taper_inside', answered=1, asked=10)
>>> found.of("07_taper_inside").state, found.of("06_taper_outside").state
('begun', 'not-begun')
"""

from __future__ import annotations

import os
import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from anglelib.contents_words import ANSWERS
from anglelib.errors import StorageError
from anglelib.questions.answer import ANSWERED, Answer
from anglelib.questions.answer_file import Row, joined, parsed
from anglelib.questions.slips import NAMES
from anglelib.storage import read_text
from anglelib.workshop.own_questions import OWN

NOT_BEGUN, BEGUN, DONE = "not-begun", "begun", "done"
_FILE = re.compile(r"([0-9a-z_]+?)(?:-(\d+))?\.json")


@dataclass(frozen=True)
class Kept:
    """What lies in the learner's folder: the answers by lesson, the lesson that was answered last, the files that cannot be read."""

    answers: Mapping[str, tuple[Answer, ...]] = field(default_factory=dict)
    last: str = ""
    unread: tuple[str, ...] = ()


@dataclass(frozen=True)
class Standing:
    """How many of a lesson's own questions have an answer."""

    lesson: str
    answered: int
    asked: int

    @property
    def state(self) -> str:
        """Not begun, begun or done: an id."""
        return (DONE if self.answered == self.asked else BEGUN) if self.answered else NOT_BEGUN


@dataclass(frozen=True)
class Again:
    """An exercise whose last answer was not right, with the slips behind it where they are known."""

    lesson: str
    question: str
    slips: tuple[str, ...]


@dataclass(frozen=True)
class SoFar:
    """Where a learner is. ``last`` is the lesson with the latest answer, ``next`` where to go on: "" where there is none."""

    last: str
    next: str
    lessons: tuple[Standing, ...]
    again: tuple[Again, ...]
    unread: tuple[str, ...] = ()

    def of(self, lesson: str) -> Standing | None:
        """A lesson's standing; None for a page that asks nothing."""
        return next((standing for standing in self.lessons if standing.lesson == lesson), None)


def so_far(found: Kept) -> SoFar:
    """What follows from the answers. On goes the lesson that was last, or when it is done the first after it that is not, or any other."""
    latest = {lesson: {a.question: a for a in found.answers.get(lesson, ()) if a.status in ANSWERED} for lesson in OWN}
    standing = tuple(Standing(lesson, sum(id in latest[lesson] for id in own.asked), len(own.asked)) for lesson, own in OWN.items())
    # only an exercise: it has other numbers, while a prediction is made once, and being wrong there is part of the lesson
    again = tuple(
        Again(lesson, id, given.slips if all(slip in NAMES for slip in given.slips) else ())
        for lesson, own in OWN.items()
        for id in own.exercises
        if (given := latest[lesson].get(id)) is not None and given.status != "right"
    )
    names = list(OWN)
    last = found.last if found.last in OWN else ""
    at = names.index(last) if last else 0
    onward = (*standing[at:], *standing[:at])
    return SoFar(last, next((one.lesson for one in onward if one.state != DONE), ""), standing, again, found.unread)


def kept(folder: str | os.PathLike) -> Kept:
    """Reads the files of answers in a folder; without the folder there are none. Whatever cannot be read is named, and left as it is."""
    rows: dict[str, list[tuple[Row, ...]]] = {}
    times: dict[str, int] = {}
    unread = []
    for lesson, path in _files(Path(folder)):
        try:
            of, read = parsed(read_text(path, kind=ANSWERS).text)
            if of != lesson:
                raise ValueError
            rows.setdefault(lesson, []).append(read)
            times[lesson] = max(times.get(lesson, 0), path.stat().st_mtime_ns)
        except (StorageError, OSError, ValueError):
            unread.append(path.name)
    answers = {lesson: tuple(row.answer for row in joined(files)) for lesson, files in rows.items()}
    given = [lesson for lesson in answers if answers[lesson]]
    return Kept(answers, max(given, key=lambda lesson: (times[lesson], lesson), default=""), tuple(unread))


def _files(folder: Path) -> list[tuple[str, Path]]:
    """The lessons' files, each lesson's first file first."""
    try:
        names = os.listdir(folder)
    except OSError:
        return []
    matches = [(match[1], int(match[2] or 1), name) for name in names if (match := _FILE.fullmatch(name)) and match[1] in OWN]
    return [(lesson, folder / name) for lesson, _, name in sorted(matches)]
