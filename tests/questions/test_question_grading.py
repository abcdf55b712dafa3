"""Grading: how an answer may be typed, what it is understood as, and that nothing typed is a traceback."""

from fractions import Fraction
from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from anglelib.lengths import MM, writing
from anglelib.questions.grading import STATUSES, can_be_given, grade, understood
from anglelib.questions.question import Before, ChoiceQuestion, LengthQuestion, NumberQuestion, OrderQuestion, WrongAnswer

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
        ("0", "wrong", "too short"),
        ("-1/64", "wrong", "not below 0"),
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


# --- where one sentence ends and the next begins ------------------------------------------------------------------
@pytest.mark.parametrize(
    ("off", "says"),
    [
        (F(0), "Right."), (F(4, 10000), "Right."), (F(6, 10000), "Right, to 1/64 in.: it is 1 5/8 (1.625)."), (F(1, 64), "Right, to"), (F(1, 32), "Close, but a little too long"),
        (F(33, 1000), "That is too long."), (-F(1, 32), "Close, but a little too short"), (-F(33, 1000), "That is too short."),
    ],
)  # fmt: skip
def test_right_close_and_wrong(off, says):
    """Right to a sixty-fourth, as it stands to half a thousandth; close to twice a sixty-fourth."""
    assert grade(LengthQuestion("x", "?", F(13, 8)), str(float(F(13, 8) + off)) if off.denominator > 64 else str(F(13, 8) + off)).sentence.partition(". ")[2].startswith(says)


def test_a_mark_is_wanted_and_a_width_is_too_wide():
    mark = LengthQuestion("x", "?", F(13, 8), mark=True)
    assert "a mark is wanted to 1/64" in grade(mark, "1 21/32").sentence and mark.answer_text == "1 5/8 (1.625)"
    wide = LengthQuestion("x", "?", F(1, 16), sides=("wide", "narrow"))
    assert "too wide" in grade(wide, "1/2").sentence and "too narrow" in grade(wide, "1/64").sentence
    assert LengthQuestion("x", "?", F(17, 80)).answer_text == "about 7/32 (0.213)" and LengthQuestion("x", "?", F(17, 80), mark=True).answer_text == "7/32 (0.213)"


@pytest.mark.parametrize(
    ("unit", "answer", "typed", "status", "says"),
    [
        ("in", F(13, 8), "41.275", "unit", "write mm behind it"), ("in", F(13, 8), "41.275 in", "unit", "write mm behind it"), ("in", F(13, 8), "1.625 mm", "unit", "leave out the mm"),
        ("in", MM, "1", "wrong", "too long"), ("in", 2 * MM, "2", "unit", "write mm"),  # a bare 1 may be anything
        ("mm", 40 * MM, "40 in", "unit", "leave out the inches"), ("mm", 40 * MM, "40", "right", "Right."), ("mm", 50 * MM, "1.968", "unit", "write in behind it"),
        ("mm", 50 * MM, "1.968 in", "right", "Right"), ("mm", 50 * MM, "1.8", "wrong", "too short"), ("mm", 50 * MM, "60 in", "wrong", "too long"),
    ],
)  # fmt: skip
def test_the_right_number_in_the_other_unit(unit, answer, typed, status, says):
    with writing(unit):
        question = LengthQuestion("x", "?", answer)
    found = grade(question, typed)
    assert (found.status, found.slips) == (status, ("M27",) if status == "unit" else ()) and says in found.sentence, found


def test_in_millimetres_half_a_millimetre_is_right():
    with writing("mm"):
        question = LengthQuestion("x", "?", 50 * MM)
    assert [grade(question, typed).status for typed in ("50.5", "49.5", "50.6", "51.1")] == ["right", "right", "wrong", "wrong"]
    assert question.answer_text == "50 mm (1.969 in)" and grade(question, "60").understood == "60 mm (2.362 in)"


@pytest.mark.parametrize(
    ("typed", "echo"),
    [
        ("13/8", "1 5/8 (1.625) inches"), ("1.64", "1.640 inches (about 1 41/64)"), ("1/3 mm", "0.333 mm, which is 0.013 inches (about 1/64)"),
        ("6 cm", "60 mm, which is 2.362 inches (about 2 23/64)"), ("25.4 mm", "25.400 mm, which is 1 (1.000) inches"), ("2 ft", "24 (24.000) inches"),
    ],
)  # fmt: skip
def test_every_number_is_echoed(typed, echo):
    assert grade(LengthQuestion("x", "?", F(99)), typed).understood == echo


def test_thousandths_are_echoed_to_the_place_that_was_typed():
    ask = LengthQuestion("x", "?", F(99), thousandths=True)
    assert grade(ask, "66").understood == "66 thousandths, 0.066 inches" and grade(ask, "23.5").understood == "23.5 thousandths, 0.0235 inches"
    two = LengthQuestion("x", "?", 2 * MM, thousandths=True, tolerance=F(1, 1000))
    assert (grade(two, "2000").status, grade(two, "2.00").status) == ("wrong", "unit")  # who counts thousandths means no millimetres


# --- numbers that are no lengths ------------------------------------------------------------------------------------
DEGREES = NumberQuestion("angle", "How steep?", 76 / 3, "deg", F(1, 4))


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("25.3333", "Understood as 25.333 degrees. Right."), ("25 1/3", "Understood as 25.333 degrees. Right."), ("25.338", "Right."), ("25.339", "Right: it is 25.3 degrees."), ("25.5", "Right: it is 25.3 degrees."),
        ("25.6", "too large"), ("25", "Understood as 25 degrees. That is too small."), ("25 20' 30\"", "Understood as 25.342 degrees. Right: it is"), ("25° 20' 15\"", "25.337 degrees. Right."),
        ("64.6667", "from square"), ("64.95", "too large"), ("2 lb", "That is a weight"), ("3 mm", "That is a length"), ("5 %", "That is a share"), ("3 boxes", 'The word "boxes"'), ("-25", "too small"),
    ],
)  # fmt: skip
def test_an_angle(typed, says):
    assert says in grade(DEGREES, typed).sentence, grade(DEGREES, typed)


@pytest.mark.parametrize(
    ("unit", "answer", "typed", "status"),
    [
        ("lb", 0.5, "226.796 g", "right"), ("lb", 0.5, "0.226796 kg", "right"), ("lb", 0.5, "8 ounces", "right"), ("lb", 0.5, "226.796", "unit"), ("lb", 0.5, "226.796 lb", "wrong"),
        ("g", 93.0, "3.2805", "unit"), ("g", 93.0, "3.2805 oz", "right"), ("oz", 8, "0.5 lb", "right"), ("lb/ft", 0.672, "1 kg/m", "right"), ("lb/ft", 0.672, "1000 g/m", "right"), ("lb/ft", 0.672, "1000", "unit"),
        ("count", 3, "3 cuts", "right"), ("count", 3, "4", "wrong"), ("D", 2.5, "2 1/2 diameters", "right"), ("D", 2.5, "2.5 d", "right"), ("percent", 12, "12 %", "right"), ("percent", 12, "12 per cent", "right"),
        ("hours", 2, "2 h", "right"), ("minutes", 30, "30 min.", "right"), ("K", 40, "40 k", "right"), ("deg", 30, "30 degrees", "right"), ("deg", 30, "60", "wrong"), ("K", 40, "50", "wrong"),
    ],
)  # fmt: skip
def test_a_number_with_its_unit(unit, answer, typed, status):
    """1959: the pound is 453.59237 g, the foot 0.3048 m."""
    tolerance = F(0) if unit == "count" else F(answer).limit_denominator(1000) / 1000
    found = grade(NumberQuestion("x", "?", answer, unit, tolerance, places=2), typed)
    assert (found.status, found.slips) == (status, ("wrong-unit",) if status == "unit" else ()), found


def test_a_number_s_slip_may_be_off_by_its_own_share():
    """Asked for to a hundredth of 10, a slip of 40 is known to four hundredths: within 0.04, not 0.05."""
    ask = NumberQuestion("x", "?", 10, "D", F(1, 100), wrong=(WrongAnswer("a", 40.04, "a."), WrongAnswer("b", 2.004, "b.")), places=2)
    assert grade(ask, "40.0").slips == ("a",) and grade(ask, "40.1").slips == () and grade(ask, "2.0").slips == ("b",)
    far = NumberQuestion("x", "?", 10, "D", F(1, 100), wrong=(WrongAnswer("a", 40.05, "a."),), places=2)
    assert grade(far, "40.0").slips == () and grade(far, "40.1").slips == ()


def test_what_can_stand_in_an_entry():
    order = OrderQuestion("o", "?", ("a", "b", "c"), (Before("b", "a", ""),))
    assert [can_be_given(ASK, "x"), can_be_given(ASK, ("x",)), can_be_given(LEG, "A"), can_be_given(LEG, "x"), can_be_given(LEG, ("A", "B"))] == [True, False, True, False, False]
    assert [can_be_given(order, given) for given in (("b", "a", "c"), ("c", "b", "a"), ("a", "b"), "abc", ("a", "a", "b"))] == [True, True, False, False, False]
