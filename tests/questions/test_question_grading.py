"""Grading: how an answer may be typed, what it is understood as, and that nothing typed is a traceback."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from anglelib.lengths import MM
from anglelib.questions.grading import STATUSES, grade, understood
from anglelib.questions.question import ChoiceQuestion, LengthQuestion, WrongAnswer

ASK = LengthQuestion(
    "run",
    "What is the run?",
    Fraction(13, 8),
    wrong=(
        WrongAnswer("slope", Fraction(2), "Two comes out along the slope."),
        WrongAnswer("twin", Fraction(2), "Two comes out of the twin."),
        WrongAnswer("harmless", Fraction(13, 8), "This one costs nothing."),
    ),
)
LEG = ChoiceQuestion("leg", "Which leg?", {"A": "leg A", "B": "leg B"}, "B", wrong=[WrongAnswer("own", "A", "Not that one.")])


@pytest.mark.parametrize(
    "typed",
    ["1 5/8", "1-5/8", "13/8", "1.625", " 1 5/8 ", '1 5/8"', "1 5/8 in", "1⅝", "41.275 mm", "41.275mm", "4.1275 cm", "1.61", "1.64", "1 39/64"],
)
def test_every_way_of_writing_it_is_right(typed):
    assert grade(ASK, typed).status == "right", grade(ASK, typed)


def test_a_bare_decimal_point_is_read():
    assert grade(LengthQuestion("x", "?", Fraction(5, 8)), ".625").right


@pytest.mark.parametrize(
    ("typed", "status", "says"),
    [
        ("", "blank", "Not answered yet"),
        ("   ", "blank", "Not answered yet"),
        (None, "blank", "Not answered yet"),
        ("1,625", "unreadable", "write the decimal with a point, 1.625"),
        ("one and a half", "unreadable", "is not a length"),
        ("1/0", "unreadable", "divides by 0"),
        ("9" * 5000, "unreadable", "characters"),
        ("30°", "unreadable", "That is an angle"),
        ("30.5 deg", "unreadable", "That is an angle"),
        ("41.275", "unit", "write mm behind it"),
        ("1.625 mm", "unit", "leave out the mm"),
        ("-1 5/8", "wrong", "not below 0"),
        ("1 21/32", "wrong", "Close, but a little too long: it is wanted to 1/64."),
        ("3", "wrong", "too long"),
        ("1", "wrong", "too short"),
        ("2", "mistake", "along the slope. Or: Two comes out of the twin."),
        ("inf", "unreadable", "is not a length"),
        ("1e999999999", "unreadable", "is not a length"),
        ("<img src=x onerror=alert(1)>", "unreadable", "is not a length"),
    ],
)
def test_what_is_said(typed, status, says):
    found = grade(ASK, typed)
    assert found.status == status and says in found.sentence, found


def test_the_echo_says_how_it_was_read():
    assert grade(ASK, "13/8").understood == "1 5/8 (1.625) inches"
    assert "Understood as 1.640 inches (about 1 41/64)" in grade(ASK, "1.64").sentence
    assert understood(40 * MM, "40 mm") == "40 mm, which is 1.575 inches (about 1 37/64)"


def test_right_to_the_tolerance_and_no_further():
    for off, status in ((Fraction(1, 64), "right"), (Fraction(1, 63), "wrong"), (Fraction(-1, 64), "right")):
        assert grade(ASK, str(ASK.answer + off)).status == status


def test_a_near_miss_names_the_exact_answer():
    assert "it is 1 5/8 (1.625)" in grade(ASK, "1.63").sentence
    assert grade(ASK, "1.625").sentence.endswith("Right.")


def test_a_mistake_that_costs_nothing_is_left_out():
    assert [w.slip for w in ASK.wrong] == ["slope", "twin"]


def test_choices():
    assert [grade(LEG, typed).status for typed in ("B", "A", "", None, "C", "leg B")] == ["right", "mistake", "blank", "blank", "unreadable", "unreadable"]
    assert (grade(LEG, "A").sentence, grade(LEG, "A").slips, grade(LEG, "A").understood) == ("Not that one.", ("own",), "leg A")
    assert grade(LEG, "C").sentence == "Choose one of: leg A, leg B."


def test_slips_that_one_number_cannot_part_travel_as_ids():
    assert grade(ASK, "2").slips == ("slope", "twin") and grade(ASK, "41.275").slips == ("M27",) and grade(ASK, "3").slips == ()


@given(st.text(max_size=60))
def test_whatever_is_typed_gets_a_grade(typed):
    for question in (ASK, LEG):
        found = grade(question, typed)
        assert found.status in STATUSES and found.sentence


@pytest.mark.parametrize(
    ("make", "says"),
    [
        (lambda: LengthQuestion("x", "?", Fraction(1), tolerance=Fraction(0)), "tolerance"),
        (lambda: ChoiceQuestion("x", "?", ("a",), "a"), "two or more"),
        (lambda: ChoiceQuestion("x", "?", ("a", "a"), "a"), "all different"),
        (lambda: ChoiceQuestion("x", "?", {"a": "the same", "b": "the same"}, "a"), "all different"),
        (lambda: ChoiceQuestion("x", "?", ("a word", "b"), "b"), "is no id"),
        (lambda: ChoiceQuestion("no id", "?", ("a", "b"), "b"), "is no id of a question"),
        (lambda: LengthQuestion("x", "?", Fraction(1), wrong=(WrongAnswer("a sentence", Fraction(2), "s"),)), "is no id of a slip"),
        (lambda: ChoiceQuestion("x", "?", ("a", "b"), "a", wrong=[WrongAnswer("m", "a", "s")]), "other choices"),
        (lambda: ChoiceQuestion("x", "?", ("a", "b"), "a", wrong=[WrongAnswer("m", "c", "s")]), "other choices"),
    ],
)
def test_a_question_that_cannot_be_is_refused(make, says):
    with pytest.raises(ValueError, match=says):
        make()
