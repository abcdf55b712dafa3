"""The table of mistakes: for each of M01 to M27, in which lessons a wrong answer, an order or a made part shows it by name.

It is gathered from the questions of the lessons and from the diagnosis, never typed: a mistake counts
for a lesson where a wrong answer to one of its questions carries the mistake's id, where the right
answer to "which slip is this?" is the mistake, or where the readings of a part made with it point to it.

>>> row = next(row for row in table() if row.id == "M12")
>>> row.name, "07" in row.lessons
('inside line aimed at the inside corner', True)
>>> recognised() >= 24
True
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from anglelib.inspection.by_amount import by_amount, one_way
from anglelib.inspection.diagnosis import GOOD, Reading, diagnose
from anglelib.inspection.made import readings_of
from anglelib.inspection.mistakes import MISTAKES
from anglelib.inspection.reading_ids import chosen
from anglelib.questions.question import ChoiceQuestion, OrderQuestion
from anglelib.workshop.lesson_questions import here, questions_of

WAYS = {"n": "a number", "c": "a choice", "o": "an order", "s": "the slip is to be named", "p": "a made part"}
"""How a lesson shows a mistake, by a letter each, which stands where room is short."""
NUMBER, CHOICE, ORDER, NAMED, MADE = WAYS
DIAGNOSIS = "10"


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
    found: dict[str, dict[str, set[str]]] = {id_: {} for id_ in MISTAKES}
    for lesson in here():
        for question in questions_of(lesson).values():
            way = ORDER if isinstance(question, OrderQuestion) else CHOICE if isinstance(question, ChoiceQuestion) else NUMBER
            if isinstance(question, ChoiceQuestion) and question.answer in MISTAKES:  # "which slip made this part?"
                found[question.answer].setdefault(lesson[:2], set()).add(NAMED)
            for wrong in question.wrong:
                if wrong.slip in MISTAKES:
                    found[wrong.slip].setdefault(lesson[:2], set()).add(way)
    for id_ in diagnosed():
        found[id_].setdefault(DIAGNOSIS, set()).add(MADE)
    return tuple(
        MistakeRow(
            mistake.id, mistake.name, mistake.sentence, mistake.remedy,
            {lesson: tuple(sorted(ways, key=tuple(WAYS).index)) for lesson, ways in sorted(found[mistake.id].items())},
        )
        for mistake in MISTAKES.values()
    )  # fmt: skip

def recognised() -> int:
    """How many of the mistakes are recognised in one lesson or more."""
    return sum(bool(row.lessons) for row in table())


@cache
def diagnosed() -> frozenset[str]:
    """The mistakes that the seven readings of a class part made with them point to, among the likeliest class of causes."""
    from anglelib.workshop.class_plan import ClassWanted
    from anglelib.workshop.learner_parts import learners

    part, shop = learners(ClassWanted(2))[0].part, ClassWanted(2).shop
    found = set()
    for mistake in MISTAKES.values():
        if "P" not in mistake.kinds or not mistake.cases(part, shop):
            continue
        read = readings_of(by_amount(one_way(mistake.id, part, shop), 1))
        causes = diagnose(part, shop, [Reading(name, read[name]) for name in chosen(part)]).causes
        if mistake.id in causes[0].ids and GOOD not in causes[0].ids:
            found.add(mistake.id)
    return frozenset(found)
