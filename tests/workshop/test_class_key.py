"""Every key of a class recomputed by another path; no two worksheets alike."""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

import pytest
from recomputed import AGAIN

from anglelib.questions.grading import grade
from anglelib.questions.question import LengthQuestion
from anglelib.workshop.class_plan import ClassWanted
from anglelib.workshop.learner_parts import learners
from anglelib.workshop.worksheet_questions import Asked, Worksheet, worksheets_of


def sheets_of(number: int, seed: str = "1") -> tuple[Worksheet, ...]:
    wanted = ClassWanted(number, seed=seed)
    return worksheets_of(wanted, learners(wanted))


def wrong_keys(sheets: Sequence[Worksheet]) -> list[str]:
    """The keys that another path does not find."""
    found = []
    for sheet in sheets:
        for asked in sheet.asked:
            again = AGAIN[asked.name](asked.thing, asked.question.prompt)
            answer = asked.question.answer
            same = again == answer if isinstance(again, str) else abs(float(again) - float(answer)) < 1e-6
            if not same:
                found.append(f"{sheet.learner.name}, {asked.name}: {answer} in the key, {again} recomputed: {asked.question.prompt}")
    return found


def test_every_key_of_six_learners_comes_out_again():
    assert wrong_keys(sheets_of(6)) == []


@pytest.mark.slow
@pytest.mark.parametrize("number", [12, 20, 40])
@pytest.mark.parametrize("seed", ["1", "autumn", "2031"])
def test_every_key_of_larger_classes_comes_out_again(number, seed):
    assert wrong_keys(sheets_of(number, seed)) == []


@pytest.mark.parametrize("place", range(18))
def test_a_wrong_key_is_found(place):
    sheet = sheets_of(1)[0]
    asked = sheet.asked[place]
    question = asked.question
    if isinstance(question.answer, str):
        other = next(id_ for id_ in question.words if id_ != question.answer)
        spoiled = replace(question, answer=other, wrong=())
    else:
        spoiled = replace(question, answer=question.answer + Fraction(1, 1000), wrong=())
    bad = Asked(asked.lesson, asked.name, spoiled, asked.thing)
    assert len(wrong_keys([replace(sheet, own=(bad,), lessons=())])) == 1


def alike(sheets: Sequence[Worksheet]) -> list[tuple[str, str]]:
    """Pairs of learners who share a question of the lessons."""
    return [
        (one.learner.name, two.learner.name)
        for n, one in enumerate(sheets)
        for two in sheets[n + 1 :]
        if {a.question.prompt for a in one.lessons} & {a.question.prompt for a in two.lessons}
    ]


def test_no_two_worksheets_share_a_question():
    sheets = sheets_of(20)
    assert alike(sheets) == []
    assert len(alike([*sheets[:3], sheets[0]])) == 1


def test_the_key_is_graded_right_and_its_slip_wrong():
    for sheet in sheets_of(2):
        for asked in sheet.asked:
            if isinstance(asked.question, LengthQuestion):
                assert grade(asked.question, asked.question.answer_text.removeprefix("about ").partition(" (")[0]).status == "right", asked.name
                for wrong in asked.question.wrong[:1]:
                    assert grade(asked.question, f"{float(wrong.answer):.4f}").status in ("mistake", "wrong"), asked.name


def test_another_seed_asks_other_numbers():
    one, two = sheets_of(2), sheets_of(2, "2")
    assert not {a.question.prompt for s in one for a in s.lessons} & {a.question.prompt for s in two for a in s.lessons}
    assert [s.asked for s in one] == [s.asked for s in sheets_of(2)]
