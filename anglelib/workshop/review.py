"""What is worth being asked again, and when: what went wrong comes back with fresh numbers, at growing distances in time.

The rule is common practice, without a source: what was wrong is due at once, and after each right answer 1, 3, 7 and 21 days later;
a wrong answer sends it back to the start, and what was right after the 21 days is not asked any more. A right answer before its day
changes nothing: to practise three times in one evening is not to remember for a week. Only exercises are asked, since they have other
numbers; a slip in a prediction brings the exercise of its lesson in which the same slip may be made.

A day ends at 4 in the morning, so that an evening at the bench is one day. Answers carry their moment in UTC, and days are counted where
the learner is now. A moment that is not known, or that lies in the future because the clock was put back, counts as long ago: the
question comes too soon rather than never.

>>> from datetime import UTC
>>> given = Answer("07-project", 0, "1/8", "mistake", ("offset-as-thickness",), "2026-12-01T09:00:00Z")
>>> right = Answer("07-project", 1, "13/64", "right", (), "2026-12-01T09:05:00Z")
>>> found = review({"07_taper_inside": (given, right)}, datetime(2026, 12, 1, 20, tzinfo=UTC))
>>> found.due, found.later[0].days, found.later[0].slips
((), 1, ('offset-as-thickness',))
>>> [(one.question, one.number) for one in review({"07_taper_inside": (given, right)}, datetime(2026, 12, 2, 8, tzinfo=UTC)).due]
[('07-project', 2)]
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta

from anglelib.questions.answer import ANSWERED, Answer
from anglelib.questions.moments import read
from anglelib.questions.slips import NAMES
from anglelib.workshop.own_questions import OWN

DAYS = (1, 3, 7, 21)
"""So many days after a right answer a question comes back: after the first, the second ..."""
NIGHT = timedelta(hours=4)
"""A day ends so long after midnight."""
SLACK = timedelta(days=1)
"""A moment further in the future than this was written by another clock."""
MOST_NUMBERS = 50
"""So many sets of numbers of an exercise are asked before they begin again."""


@dataclass(frozen=True)
class Item:
    """An exercise that comes back.

    ``question`` is its id, ``number`` which fresh numbers, ``by`` the question that went wrong (the exercise itself, or a prediction of
    its lesson), ``slips`` what went wrong, where that is known. ``step`` is how many of the right answers that count it has had since,
    ``days`` how many days are left: 0, and it is due.
    """

    lesson: str
    question: str
    number: int
    by: str
    slips: tuple[str, ...]
    step: int
    days: int


@dataclass(frozen=True)
class Reviewed:
    """What is due, and what comes back later, the soonest first."""

    due: tuple[Item, ...]
    later: tuple[Item, ...]


@dataclass
class _Course:
    """How an exercise stands while its answers are gone through: ``since`` is the moment of its last step, None where that is not known."""

    by: str
    slips: tuple[str, ...]
    step: int = 0
    since: datetime | None = None


def review(answers: Mapping[str, tuple[Answer, ...]], now: datetime) -> Reviewed:
    """What comes back of the answers of a learner, by lesson, as things stand at a moment with its zone."""
    items = [item for lesson in OWN if answers.get(lesson) for item in _of_lesson(lesson, answers[lesson], now)]
    later = sorted((item for item in items if item.days), key=lambda item: item.days)
    return Reviewed(tuple(item for item in items if not item.days), tuple(later))


def _of_lesson(lesson: str, answers: tuple[Answer, ...], now: datetime) -> Iterator[Item]:
    courses: dict[str, _Course] = {}
    own = OWN[lesson]
    given = [answer for answer in answers if answer.status in ANSWERED]
    numbers = {id_: 0 for id_ in own.exercises}
    for answer in given:
        exercise = answer.question if answer.question in own.exercises else _exercise_for(lesson, answer)
        if exercise is None:
            continue
        if exercise == answer.question:
            numbers[exercise] = max(numbers[exercise], answer.variant)
        _go_on(courses, exercise, answer, now)
    for id_ in own.exercises:
        if (course := courses.get(id_)) is not None:
            left = 0 if course.step == 0 else max(0, DAYS[course.step - 1] - _days(course.since, now, now))
            yield Item(lesson, id_, (numbers[id_] + 1) % MOST_NUMBERS, course.by, course.slips, course.step, left)


def _go_on(courses: dict[str, _Course], exercise: str, answer: Answer, now: datetime) -> None:
    """What one more answer does to an exercise."""
    at = _moment(answer, now)
    if answer.status != "right":
        slips = answer.slips if all(slip in NAMES for slip in answer.slips) else ()
        courses[exercise] = _Course(answer.question, slips, 0, at)
        return
    course = courses.get(exercise)
    if course is None or exercise != answer.question:
        return
    if course.step == 0 or (at is not None and _days(course.since, at, now) >= DAYS[course.step - 1]):
        course.step, course.since = course.step + 1, at
        if course.step > len(DAYS):
            del courses[exercise]
    elif at is not None and course.since is not None and at < course.since:  # the clock was put back: from now on this one counts
        course.since = at


def _moment(answer: Answer, now: datetime) -> datetime | None:
    """When an answer was given; None where that is not known."""
    at = read(answer.at)
    return None if at is None or at > now + SLACK else at


def _days(since: datetime | None, until: datetime, now: datetime) -> int:
    """How many nights lie between two moments, as one counts where ``now`` is; very many where the first is not known."""
    if since is None:
        return max(DAYS)
    here = now.tzinfo
    return ((until.astimezone(here) - NIGHT).date() - (since.astimezone(here) - NIGHT).date()).days


def _exercise_for(lesson: str, answer: Answer) -> str | None:
    """The exercise of a lesson in which the slip of a prediction may be made again; None where there is none, or nothing went wrong."""
    if answer.question not in OWN[lesson].page or not answer.slips:
        return None
    from anglelib.workshop.lesson_questions import find_question

    for id_ in OWN[lesson].exercises:
        question = find_question(lesson, id_, 0)
        if question is not None and {wrong.slip for wrong in question.wrong} & set(answer.slips):
            return id_
    return None
