"""A slip is matched by its own number, rounded as a person rounds it, in every question of every lesson and on every page.

Oracle: plain rounding of decimals and sixty-fourths; what a random number lies near is worked out from the slips' numbers alone.
"""

import random
import re
from fractions import Fraction as F
from functools import cache

import pytest

from anglelib.questions.as_typed import level, read_as
from anglelib.questions.grading import Grade, grade
from anglelib.questions.question import ChoiceQuestion, LengthQuestion, NumberQuestion, WrongAnswer
from anglelib.questions.square_end import Lit, angle
from tests.questions.beginner_forms import dec, mm, rule

SLOPE = angle(Lit(F(5, 4), F(1, 32)))


def ask(*wrong: WrongAnswer, right: F = F(1), **how) -> LengthQuestion:
    return LengthQuestion("x", "?", right, wrong=wrong, **how)


def slip(number: float | F, id_: str = "a", **how) -> WrongAnswer:
    return WrongAnswer(id_, number, f"{id_}.", **how)


# --- the rule, one case each -----------------------------------------------------------------------------------
@pytest.mark.parametrize("typed", ["0", "0.1", "1/32", "0.02", "0.03"])
def test_a_slope_of_a_fortieth_is_that_number_and_no_other(typed):
    """Within the answer's tenth of a degree they all lie near it, and near one another."""
    assert grade(SLOPE, typed).slips == ()
    assert grade(SLOPE, "0.025").slips == ("slope-as-degrees",)


@pytest.mark.parametrize(
    ("typed", "named"),
    [
        ("2.336", True), ("2.34", True), ("2.3360", True), ("2.3359", False), ("2 11/32", True), ("2.3", False), ("2.33", False), ("2.337", False), ("2", False),
        ("2 21/64", False), ("2 3/8", False), ("59.33 mm", True), ("59.3 mm", True), ("59.5 mm", True), ("59 mm", False), ("60 mm", False), ("59.35 mm", False),
        ("5.93 cm", True), ('2.336"', True), ("2.336 in.", True), ("2.3350", False),
    ],
)  # fmt: skip
def test_a_number_is_named_as_it_is_rounded(typed, named):
    """2.336: 2 21.5/64 lies nearest to 2 22/64; 59.334 mm. The answer's tolerance would take all from 2.32 to 2.35."""
    assert (grade(ask(slip(2.336)), typed).slips == ("a",)) is named


def test_a_thirty_second_is_a_rounding_too_where_nothing_finer_is_meant():
    assert grade(ask(slip(2.324)), "2 5/16").slips == ("a",)  # 2 20.7/64, on a rule of thirty-seconds 2 10.4/32
    assert grade(ask(slip(2.324), slip(F(37, 16), "b")), "2 5/16").slips == ("b",)
    assert grade(ask(slip(2.324), tolerance=F(1, 128)), "2 5/16").slips == ()  # coarser than is asked for


@pytest.mark.parametrize(
    ("typed", "step"),
    [("11/128", 1 / 128), ("11/64", 1 / 64), ("1 1/64", 1 / 64), ("2", 1 / 64), ("0.37", 1 / 100), ("1.6", 1 / 10), ("9.5 mm", 0.1 / 25.4), ("12.25 mm", 0.01 / 25.4), ("1.25 cm", 0.1 / 25.4), *((f"0.37{inch}", 1 / 100) for inch in (" in", " inch", " inches", '"', "″", "”", "''", " in."))],
)  # fmt: skip
def test_the_finest_step_that_a_number_may_have_been_rounded_to(typed, step):
    """A hair less than half of it away it is that number, a hair more and it is another, or one rounded to the next coarser step."""
    read = read_as(typed)
    assert [level(read, float(read.value) + way * step / 2 * share) for way in (1, -1) for share in (0.99, 1.02)] == [1, 2 if len(read.steps) > 1 else None] * 2
    assert level(read, float(read.value)) == 0


def test_what_is_no_rounding_of_anything():
    assert [read_as(typed).steps for typed in ("1/256", "1/3", "0.4", "5 ft 3 in", "12.3 mm x"[:7])] == [(), (), (), (), (F(1, 10) * F(5, 127),)]


def test_a_rounding_that_takes_too_much_is_another_number():
    assert grade(ask(slip(0.072)), "1/16").slips == () and grade(ask(slip(0.072)), "5/64").slips == ()
    assert grade(ask(slip(0.0765)), "5/64").slips == ("a",)


def test_one_figure_is_no_rounding():
    assert grade(ask(slip(0.0976)), "0.1").slips == () and grade(ask(slip(0.1)), "0.1").slips == ("a",) and grade(ask(slip(0.0976)), "0.098").slips == ("a",)


def test_a_slip_of_nought_is_named_only_where_it_says_nothing_at_all():
    assert grade(ask(slip(F(0))), "0").slips == () and ask(slip(F(0))).wrong == ()
    says = ask(slip(F(0), nothing=True))
    assert [grade(says, typed).slips for typed in ("0", "0.00", "0 mm", "1/128", "0.001")] == [("a",), ("a",), ("a",), (), ()]


def test_a_slip_inside_the_answer_s_tolerance_is_none():
    assert ask(slip(F(65, 64))).wrong == () and grade(ask(slip(F(65, 64))), "1.016").slips == ()


def test_what_is_nearer_to_the_right_answer_is_a_near_miss():
    assert grade(ask(slip(1.0332)), "1 1/64").right and grade(ask(slip(1.036), tolerance=F(1, 100)), "1 1/32").slips == ("a",)
    assert grade(ask(slip(1.039), right=F(1025, 1000), tolerance=F(1, 200)), "1 1/32").slips == ()


def test_numbers_alike_within_what_was_typed_are_both_said():
    both = ask(slip(2.336), slip(2.341, "b"))
    assert grade(both, "2 11/32").slips == ("a", "b") and grade(both, "2 11/32").sentence.endswith("a. Or: b.")
    assert grade(both, "2.34").slips == ("a", "b") and grade(both, "2.336").slips == ("a",) and grade(both, "2.341").slips == ("b",)


def test_where_one_of_two_is_rounded_too_far_neither_is_named():
    """3/32 is 0.0937 to the nearest sixty-fourth, and 0.101 too, though that takes more than a sixteenth of it."""
    two = ask(slip(0.0937), slip(0.101, "b"))
    assert grade(two, "3/32").slips == () and grade(two, "0.094").slips == ("a",) and grade(two, "0.101").slips == ("b",)


def test_what_may_happen_to_any_number_is_named_where_nothing_else_is():
    general = slip(F(5, 8), "M08", general=True)
    assert grade(ask(slip(F(5, 8)), general), "5/8").slips == ("a",) and grade(ask(general), "5/8").slips == ("M08",)
    assert [w.slip for w in ask(slip(F(5, 8)), general).wrong] == ["a"]
    near = ask(slip(F(5, 8)), slip(0.6275, "M08", general=True))
    assert [grade(near, typed).slips for typed in ("0.63", "5/8", "0.628", "0.625")] == [("a",), ("a",), ("M08",), ("a",)]


@pytest.mark.parametrize(
    ("typed", "value", "echo"),
    [
        ("66", F(66, 1000), "66 thousandths, 0.066 inches"), ("66 thou", F(66, 1000), "66 thousandths"), ("66 thousandths", F(66, 1000), "66 thousandths"), ("23.5", F(235, 10000), "23.5 thousandths"),
        (".066", F(66, 1000), "0.066"), ("0.066", F(66, 1000), "0.066"), ("66/1000", F(66, 1000), "0.066"), ("3.028", F(3028, 1000), "3.028"), ("66 mm", F(660, 254), "66 mm"), ("1 in", F(1), "1 (1.000) inches"),
        ("1 1/2", F(3, 2), "1 1/2"), ("0", F(0), "0"), ("1", F(1, 1000), "1 thousandths"), ("1.0", F(1, 1000), "1 thousandths"), ("0.9", F(9, 10), "0.900"), ("0.9 thou", F(9, 10000), "0.9 thousandths"),
    ],
)  # fmt: skip
def test_a_whole_number_is_of_thousandths_where_they_are_asked_for(typed, value, echo):
    found = grade(ask(thousandths=True), typed)
    assert found.value == value and echo in found.understood, found


def test_elsewhere_a_whole_number_is_of_inches():
    assert grade(ask(), "66").value == 66 and grade(ask(), "66 thou").value == F(66, 1000)


# --- every question -------------------------------------------------------------------------------------------
@cache
def numbered() -> tuple:
    """Every question with a number for its answer: those of the lessons, four fresh ones of each exercise, those on the pages."""
    from tests.questions.graded import questions

    found = {}
    for lesson, _, question in questions():
        if isinstance(question, LengthQuestion | NumberQuestion):
            found.setdefault((lesson, question.id, question.prompt), question)
    return tuple(found.values())


@cache
def lessons_own() -> tuple:
    """The same without the pages: for the quick tests."""
    from tests.questions.test_beginners import asked

    return tuple(asked().values())


def forms(question: LengthQuestion | NumberQuestion, number: float) -> list[str]:
    """A number as five people type it."""
    if isinstance(question, NumberQuestion):
        unit = question.of.words
        return [dec(number), dec(number, 4), dec(number, 1), f"{dec(number)} {unit}", f"  {dec(number)}  "]
    if question.unit == "mm":
        return [dec(number * 25.4), dec(number * 25.4, 1), mm(number), f" {dec(number * 25.4)} ", f"{dec(number)} in"]
    return [dec(number), rule(number), mm(number), f"{dec(number)} in", f"   {rule(number)} "]


def names_it_or_none(question: LengthQuestion | NumberQuestion, wrong: WrongAnswer) -> bool:
    """Fails where a form of a slip's number names other slips alone; whether the plain decimal names it.

    What may happen to any number gives way to a slip of the question's own that the same text may be the rounding of.
    """
    for typed in forms(question, float(wrong.answer)):
        found = grade(question, typed)
        assert found.status in ("mistake", "wrong", "right", "unit"), (question.prompt, typed, found)
        gives_way = wrong.general and all(not w.general for w in question.wrong if w.slip in found.slips)
        assert not found.slips or wrong.slip in found.slips or gives_way, (question.prompt, wrong, typed, found)
    return wrong.slip in grade(question, f"{float(wrong.answer):.6f}").slips


def test_each_slip_s_number_names_it_or_none():
    assert all(names_it_or_none(question, wrong) for question in lessons_own() for wrong in question.wrong)


@pytest.mark.slow
def test_each_slip_s_number_names_it_or_none_on_every_page():
    assert len(numbered()) > 250
    assert all(names_it_or_none(question, wrong) for question in numbered() for wrong in question.wrong)


def near_none(question: LengthQuestion | NumberQuestion, rolled: random.Random) -> tuple[str, bool]:
    """A random number, and whether it lies further from every slip than half of its own last place."""
    numbers = [float(w.answer) for w in question.wrong]
    most = 1.5 * max([abs(float(question.answer)), *numbers])
    value, form = rolled.uniform(0, most), rolled.choice(("dec", "rule", "mm"))
    if isinstance(question, NumberQuestion) or form == "dec":
        typed, off, value = dec(value), 0.0006, float(dec(value))
    elif form == "rule":
        typed, off, value = rule(value), 1 / 64 + 1e-6, round(value * 64) / 64
    else:
        typed, off, value = mm(value), 0.26 / 25.4, round(value * 2540) / 2540
    return typed, all(abs(value - number) > off for number in numbers)


def none_named(questions: tuple, count: int) -> None:
    rolled, done = random.Random("near no slip"), 0
    while done < count:
        question = questions[int(rolled.random() * len(questions))]
        typed, free = near_none(question, rolled)
        if not free:
            continue
        found = grade(question, typed)
        if found.status == "unit":
            assert found.slips in (("M27",), ("wrong-unit",))
        else:
            assert found.slips == () and found.status in ("right", "wrong"), (question.prompt, question.wrong, typed, found)
        done += 1


def test_a_number_near_no_slip_names_none():
    none_named(lessons_own(), 400)


@pytest.mark.slow
def test_two_thousand_numbers_near_no_slip_name_none():
    none_named(numbered(), 2000)


def spurious(question: LengthQuestion | NumberQuestion) -> list:
    """Slips that any number may have, named beside one of the question's own."""
    general = {w.slip for w in question.wrong if w.general} - {w.slip for w in question.wrong if not w.general}
    own = {w.slip for w in question.wrong if not w.general}
    found = (grade(question, f"{float(w.answer):.6f}") for w in question.wrong)
    return [(question.prompt, each.slips) for each in found if set(each.slips) & general and set(each.slips) & own]


def test_no_slip_of_any_number_stands_beside_the_question_s_own():
    assert [row for question in lessons_own() for row in spurious(question)] == []


WORKED_OTHERWISE = {("04", "misprint"), ("05", "crossing_at_the_line"), ("08", "done-again"), ("09", "edge-to-end-2"), ("09", "metal-beyond"), ("10", "cold-length")}
"""Whose working says how to come to the number, and not the number."""


def test_the_working_comes_to_the_answer():
    from tests.questions.test_beginners import asked

    for key, question in asked().items():
        text = question.answer_text.removeprefix("about ")
        numbers = [text.removesuffix(f" {question.of.words}")] if isinstance(question, NumberQuestion) else [text.split(" (")[0], text.rstrip(")").split("(")[-1]]
        assert any(number in question.working for number in numbers) is (key not in WORKED_OTHERWISE), (key, text, question.working)


# --- words ----------------------------------------------------------------------------------------------------
ENGINE = ("known slip", "numerator", "denominator", "this number", "gives this", "mistake m", "tolerance of", "try other numbers", "matched", "engine")


def engine_talk(found: Grade) -> list[str]:
    return [word for word in ENGINE if word in found.sentence.lower()]


def test_what_is_said_is_about_the_metal():
    for question in lessons_own():
        for number in (*(float(w.answer) for w in question.wrong), 1.9 * float(question.tolerance) + float(question.answer), 7.77):
            found = grade(question, f"{number:.6f}")
            assert engine_talk(found) == [], found
            assert "mark is wanted" not in found.sentence or question.mark, (question.prompt, found)


def test_a_kerf_is_too_wide_and_a_trim_too_much():
    own = {question.id: question for question in lessons_own()}
    assert "Close, but a little too wide: it is wanted to" in grade(own["kerf-from-a-test-cut"], "70").sentence
    assert "too narrow" in grade(own["kerf-from-a-test-cut"], "20").sentence and "too much" in grade(own["trim-last-step"], "1").sentence
    assert "too long" in grade(own["blank"], "9").sentence and "a mark is wanted to 1/64" in grade(own["toe-mark"], "1 13/16").sentence


def test_the_first_hint_does_not_hold_the_answer():
    for question in lessons_own():
        for hint in question.hints[:1]:
            for text in question.answer_text.removeprefix("about ").rstrip(")").split(" ("):
                plain = text.removesuffix(f" {getattr(getattr(question, 'of', None), 'words', '')}")
                if len(plain) > 1 and plain not in question.prompt and question.id not in ("10-off-by",):  # the hand's own reading is not the answer
                    assert not re.search(rf"(?<![\d/.]){re.escape(plain)}(?![\d/])", hint), (question.prompt, hint)


def test_choices_name_their_slips_as_before():
    leg = ChoiceQuestion("leg", "Which leg?", {"A": "leg A", "B": "leg B"}, "B", wrong=[WrongAnswer("own", "A", "Not that one.")])
    assert grade(leg, "A").slips == ("own",)
