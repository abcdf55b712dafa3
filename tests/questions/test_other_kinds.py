"""Numbers with other units, orders, and wrong answers from the table of mistakes."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from anglelib.inspection.mistakes import MISTAKES
from anglelib.questions.grading import STATUSES, grade
from anglelib.questions.named import Asked, by_mistakes
from anglelib.questions.question import Before, NumberQuestion, OrderQuestion, WrongAnswer
from anglelib.questions.units import UNITS

ANGLE = NumberQuestion(
    "angle", "How steep?", 25.3333, "deg", Fraction(1, 4), wrong=(WrongAnswer("M19", 30, "Thirty comes out along the slope."),)
)
WEIGHT = NumberQuestion("weight", "How heavy?", 0.5, "lb", Fraction(1, 100), places=2)
ORDER = OrderQuestion(
    "order",
    "In which order?",
    {"length": "cut to length", "taper": "taper", "square": "square end 1", "drill": "drill"},
    (
        Before("square", "length", "No datum, no length.", "M16"),
        Before("taper", "length", "The long piece is the handle."),
    ),
)


@pytest.mark.parametrize(
    ("ask", "typed"),
    [
        (ANGLE, "25.3"), (ANGLE, "25 1/3"), (ANGLE, "25.3 deg"), (ANGLE, "25.3°"), (ANGLE, "25° 20'"), (ANGLE, "25 deg 20 min"), (ANGLE, "25 20'"),
        (WEIGHT, ".5"), (WEIGHT, "0.5 lb"), (WEIGHT, "8 oz"), (WEIGHT, "227 g"), (WEIGHT, "1/2 pounds"),
    ],
)  # fmt: skip
def test_every_way_of_writing_it_is_right(ask, typed):
    assert grade(ask, typed).right, grade(ask, typed)


@pytest.mark.parametrize(
    ("ask", "typed", "status", "says"),
    [
        (ANGLE, "", "blank", "Not answered yet"),
        (ANGLE, "25,3", "unreadable", "with a point"),
        (ANGLE, "2 in", "unreadable", "That is a length. An angle in degrees is asked for."),
        (ANGLE, "steep", "unreadable", "is not a number"),
        (ANGLE, "1/0", "unreadable", "is not a number"),
        (ANGLE, "9" * 500, "unreadable", "at most"),
        (ANGLE, "30", "mistake", "along the slope"),
        (ANGLE, "64.7", "wrong", "from square"),
        (ANGLE, "3", "wrong", "too small"),
        (ANGLE, "80", "wrong", "too large"),
        (WEIGHT, "8", "unit", "write oz behind it"),
        (WEIGHT, "8 stone", "unreadable", "is not understood"),
        (ORDER, "length", "unreadable", "once"),
        (ORDER, ("length",), "unreadable", "once"),
        (ORDER, ("length", "length", "taper", "drill"), "unreadable", "once"),
        (ORDER, None, "blank", "Not answered yet"),
        (ORDER, (), "blank", "Not answered yet"),
        (ORDER, ("length", "taper", "square", "drill"), "mistake", "square end 1 comes before cut to length. No datum, no length."),
        (ORDER, ("square", "length", "taper", "drill"), "wrong", "The long piece is the handle."),
        (ORDER, ("square", "taper", "length", "drill"), "right", "Right."),
        (ORDER, ["drill", "taper", "square", "length"], "right", "Right."),
    ],
)
def test_what_is_said(ask, typed, status, says):
    found = grade(ask, typed)
    assert found.status == status and says in found.sentence, found


@given(st.text(max_size=60))
def test_nothing_typed_is_a_traceback(text):
    for ask in (ANGLE, WEIGHT, ORDER):
        assert grade(ask, text).status in STATUSES


def test_weights_are_those_of_the_pound():
    """1959 agreement: the pound is 453.59237 g, the ounce a sixteenth of it."""
    assert UNITS["g"].read("1 lb") == Fraction("453.59237") and UNITS["oz"].read("1 lb") == 16
    assert float(UNITS["lb/ft"].read("1 kg/m")) == pytest.approx(0.671969, abs=1e-6)  # NIST SP 811, appendix B.8: 1 lb/ft = 1.488164 kg/m


def test_the_answer_of_an_order_keeps_its_rules():
    assert ORDER.broken(ORDER.answer) is None and ORDER.broken(tuple(ORDER.words)) is not None
    assert [(wrong.slip, wrong.name) for wrong in ORDER.wrong] == [("M16", MISTAKES["M16"].name)]
    for wrong in ORDER.wrong:
        assert grade(ORDER, wrong.answer).slips == (wrong.slip,)
    assert ORDER.answer_text == "taper; then square end 1; then cut to length; then drill"


@pytest.mark.parametrize(
    ("items", "rules", "says"),
    [
        (("one", "one"), (), "all different"),
        (("one", "two three"), (), "is no id"),
        (("one", "two"), (Before("one", "three", ""),), "not offered"),
        (("one", "two"), (Before("one", "two", ""),), "must not be a right one"),
        (("one", "two"), (Before("two", "one", ""), Before("one", "two", "")), "no order keeps all rules"),
    ],
)
def test_an_order_that_cannot_be_asked(items, rules, says):
    with pytest.raises(ValueError, match=says):
        OrderQuestion("bad", "?", items, rules)


def test_wrong_answers_carry_the_mistakes_ids():
    found = by_mistakes(Asked(Fraction(3), place_on=Fraction(10)), "M07", "M17")
    assert {(w.slip, w.answer) for w in found} == {("M07", Fraction(2)), ("M07", Fraction(4)), ("M17", Fraction(7))}
