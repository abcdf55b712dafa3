"""Where each mistake is shown by name, gathered from the lessons' questions and from the diagnosis.

A mistake counts for a lesson where a wrong answer to one of its questions carries the mistake's id, where the right
answer to "which slip is this?" is the mistake, or where the readings of a part made with it point to it. ``python -m tests.mistakes_shown``
writes it down as :mod:`~anglelib.workshop.mistakes_shown`, since it takes a second.

>>> "M13" in diagnosed(), "M06" in diagnosed()  # M06 shows in a batch only
(True, False)
"""

from __future__ import annotations

from functools import cache

from anglelib.inspection.by_amount import by_amount, one_way
from anglelib.inspection.diagnosis import GOOD, Reading, diagnose
from anglelib.inspection.made import readings_of
from anglelib.inspection.mistakes import MISTAKES
from anglelib.inspection.reading_ids import chosen
from anglelib.questions.question import ChoiceQuestion, OrderQuestion
from anglelib.workshop.lesson_questions import here, questions_of
from anglelib.workshop.mistake_table import CHOICE, MADE, NAMED, NUMBER, ORDER, WAYS

DIAGNOSIS = "10"


def gathered() -> dict[str, dict[str, str]]:
    """For each mistake by lesson the letters of the ways in which it is shown there, in the order of WAYS."""
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
    return {id_: {lesson: "".join(way for way in WAYS if way in ways) for lesson, ways in sorted(lessons.items())} for id_, lessons in found.items()}


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
