"""A table of answers that beginners type, and what must be named of each: the slip that was made, or nothing.

Oracle: arithmetic. The numbers come from the questions' own words, each slip worked out in the table; nothing of the library's slips is called.
"""

from functools import cache
from importlib import import_module

import pytest

from anglelib.questions.grading import grade
from anglelib.questions.question import LengthQuestion, NumberQuestion
from anglelib.workshop.lesson_questions import MODULES
from tests.questions.beginner_forms import NONE, RIGHT, UNIT
from tests.questions.beginners_00_to_04 import ROWS as FIRST
from tests.questions.beginners_05_to_08 import ROWS as SECOND
from tests.questions.beginners_09_to_13 import ROWS as THIRD

TABLE = {**FIRST, **SECOND, **THIRD}


@cache
def asked() -> dict:
    """Every question with a number for its answer, by its lesson and its name there."""
    found = {}
    for lesson, name in {**MODULES, "13_behind_the_pictures": "behind_the_pictures"}.items():
        for key, make in import_module(f"anglelib.questions.{name}").QUESTIONS.items():
            question = make()
            if isinstance(question, LengthQuestion | NumberQuestion):
                found[lesson[:2], key] = question
    return found


def test_the_table_has_every_question_and_three_hundred_answers():
    assert sum(map(len, TABLE.values())) >= 300
    prompts = {asked()[key].prompt for key in TABLE}
    assert [key for key, question in asked().items() if question.prompt not in prompts] == []


@pytest.mark.parametrize("key", TABLE, ids=" ".join)
def test_the_slip_that_is_named_is_the_slip_that_was_made(key):
    question = asked()[key]
    for typed, wanted in TABLE[key]:
        found = grade(question, typed)
        assert found.status not in ("unreadable", "blank"), (typed, found)
        if wanted in (RIGHT, UNIT):
            assert found.status == wanted, (typed, found)
        else:
            assert set(found.slips) == set(filter(None, wanted.split("|"))), (typed, wanted, found)
            assert (found.status == "mistake") is (wanted != NONE), (typed, found)


@pytest.mark.parametrize("key", TABLE, ids=" ".join)
def test_each_slip_of_each_question_is_named_at_least_once(key):
    named = {slip for typed, _ in TABLE[key] for slip in grade(asked()[key], typed).slips}
    assert {wrong.slip for wrong in asked()[key].wrong} <= named
