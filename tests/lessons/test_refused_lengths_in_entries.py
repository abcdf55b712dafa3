"""A length typed into a lesson is refused under the entry, by its name and with what to type instead; the picture stays."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from anglelib.lengths import MM
from anglelib.lessons.controls import FractionControl, fractions
from anglelib.questions.blade import TestCut, cold_length, metal_heel_up
from anglelib.questions.blade import test_cut as kerf_from
from anglelib.questions.grading import grade
from anglelib.questions.question import LengthQuestion
from anglelib.questions.units import UNITS
from tests.unit.refused_lengths import REMEDIES


def test_a_control_names_itself_and_the_remedy():
    run = FractionControl("Run (in.)", fractions("1", "100", "1"), F(2))
    for text, remedy in REMEDIES.items():
        run.entry.value = text
        assert run.trouble.startswith(f'The Run (in.) "{text[0]}') and run.trouble.isprintable(), (text, run.trouble)
        assert remedy in run.trouble and run.value == 2, (text, run.trouble)
    for text, value in (("1/2 ft", 6), ("½'", 6), ("50.8 mm.", 2), ("3000 thou", 3)):
        run.entry.value = text
        assert (run.value, run.trouble) == (value, ""), text


def test_an_answer_is_unreadable_with_the_remedy():
    ask = LengthQuestion("run", "What is the run?", F(13, 8))
    for text, remedy in REMEDIES.items():
        found = grade(ask, text)
        if text.startswith(("-", "−")) and "below 0" in remedy:
            assert found.status == "wrong" and "not below 0" in found.sentence
        else:
            assert found.status == "unreadable" and found.sentence.startswith("The answer ") and remedy in found.sentence, (text, found)


# --- thousandths ----------------------------------------------------------------------------------------------
KERF = kerf_from(TestCut(F(6), (F("2.972"), F("2.962"))))


@pytest.mark.parametrize("text", ["66", "66 thou", "0.066", "0.066 in", ".066", '0.066"', "66.0", "66 thou.", "66 thousandths", "1.6764 mm", "0.066 in."])
def test_thousandths_may_be_typed_as_they_are_said(text):
    found = grade(KERF, text)
    assert (found.status, found.value, found.sentence) == ("right", F(66, 1000), found.sentence) and found.sentence.endswith("Right.")
    assert "0.066" in found.understood


@pytest.mark.parametrize(
    ("text", "status", "value"),
    [
        ("33", "mistake", F(33, 1000)), ("132", "mistake", F(132, 1000)), ("3.028", "mistake", F(3028, 1000)), ("3028", "mistake", F(3028, 1000)),
        ("10", "mistake", F(10, 1000)), ("0.010", "mistake", F(10, 1000)), ("80", "wrong", F(80, 1000)), ("0.66", "wrong", F(66, 100)),
        ("1.68", "unit", F(168, 100)), ("66 in", "wrong", F(66)), ("66 mm", "wrong", 66 * MM), ("1/16", "wrong", F(1, 16)), ("0.066 thou", "wrong", F(66, 10**6)),
    ],
)  # fmt: skip
def test_what_is_near_thousandths_is_told_apart(text, status, value):
    found = grade(KERF, text)
    assert (found.status, found.value) == (status, value), found


def test_a_length_to_thousandths_that_is_many_inches_long():
    cold = cold_length(F(18), 40)  # 17.983
    for text, status, value in (("17.983", "right", F(17983, 1000)), ("18", "mistake", F(18)), ("17", "wrong", F(17))):
        assert (grade(cold, text).status, grade(cold, text).value) == (status, value)
    assert grade(cold, "9" * 20).status == "unreadable"


def test_a_question_that_asks_for_no_thousandths_reads_inches():
    assert grade(LengthQuestion("run", "?", F(66, 1000)), "66").value == 66
    assert metal_heel_up.__name__ and grade(LengthQuestion("run", "?", F(66, 1000)), "66 thou").status == "right"


# --- numbers of another unit ----------------------------------------------------------------------------------
def test_a_full_stop_behind_another_unit_and_a_number_over_a_hundred_feet():
    """1500 g were no number, because a length of 1500 is over 100 ft."""
    assert UNITS["lb"].read("2 lb.") == 2 and UNITS["deg"].read("25 deg.") == 25 and UNITS["oz"].read("8 oz.") == 8
    assert UNITS["g"].read("1500") == UNITS["g"].read("1500 g.") == UNITS["g"].read("1.5 kg") == 1500


@pytest.mark.parametrize("text", ["½5", "30 -1/4", "1--1/2", "5½0"])
def test_a_number_of_another_unit_is_no_guess_either(text):
    from anglelib.errors import AnswerError

    with pytest.raises(AnswerError, match="is not a number: write it like 12 1/2 or 12.5, in pounds"):
        UNITS["lb"].read(text)


@pytest.mark.parametrize("text", ["6 thou", "6 ft.", "6 in.", "6 feet"])
def test_a_length_where_an_angle_is_asked_for(text):
    from anglelib.errors import AnswerError

    with pytest.raises(AnswerError, match="That is a length. An angle in degrees is asked for."):
        UNITS["deg"].read(text)
