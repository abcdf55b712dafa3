"""Lesson 04, without a kernel: every control moved over its range, every slip named, the sums against rows walked step by step.

Published: ISO 2768-1 table 1, medium, 0.5 mm over 120 up to 400 mm; FAA-H-8083-30 p. 9-18 for the graduations and its misprint.
"""

import math
from fractions import Fraction
from functools import partial
from itertools import product
from statistics import pstdev

import pytest
from lesson_checks import EVERY, THEMES, Page, legible, move_all, named, some, texts

from anglelib.drawing.ink import PART, SIDES, UNIT, Ink, ink_sheet
from anglelib.drawing.rule import TICKS, rule, ruled_sheet
from anglelib.drawing.rule import UNIT as RULED
from anglelib.drawing.sheet import Circle, Hatch, Line
from anglelib.drawing.stepping import MIXED, MOST, SAME, SIGNS, WAYS, Row
from anglelib.drawing.witness import AFTER, BEFORE, STAGES, witness_sheet
from anglelib.geometry.layout import witness_line
from anglelib.lengths import MM, exact
from anglelib.lessons import mark_along_heel as lesson
from anglelib.lessons.ask_mark import AskMark
from anglelib.lessons.demo import demo_part
from anglelib.lessons.live import ROOM, View
from anglelib.questions import mark_along_heel as questions
from anglelib.questions import marks_found, on_the_rule
from anglelib.questions.grading import grade

PAGE = Page.of(lesson)
legible = partial(legible, longest=700)


# --- the pictures over the range of their controls ---------------------------------------------------------
@pytest.mark.parametrize("theme", THEMES)
def test_rows(theme):
    for count, error, way in product(range(1, MOST + 1), lesson.ERRORS, WAYS):
        legible(lesson.draw_row({"count": count, "error": error, "way": way}, View(theme)), theme)
    for guess in (0, Fraction(1, 8), 40):
        values = {"count": 8, "error": Fraction(1, 64), "way": SAME}
        legible(lesson.draw_row(values, View(theme, prediction=Fraction(guess))), theme)
        legible(lesson.draw_row(values, View(theme, revealed=False)), theme)


@pytest.mark.parametrize("theme", THEMES)
def test_across(theme):
    """A row that is wanted 1/2 from the heel; by hand: from the inside of a leg 1/8 thick it comes 5/8, beside a fillet of 1/8 it comes 3/4 from it."""
    picture = lesson.across()
    for place, fillet in product(picture.controls["place"].buttons.options, picture.controls["fillet"].buttons.options):
        values = {"y": Fraction(1, 2), "place": place[1], "fillet": fillet[1]}
        sheet, hidden = (lesson.draw_across(values, View(theme, revealed=revealed)) for revealed in (True, False))
        legible(sheet, theme)
        legible(hidden, theme)
        comes = {("inside", "0"): "5/8 (0.625)", ("fillet's edge", "1/8"): "3/4 (0.750)"}.get((place[0], fillet[0]))
        assert comes is None or f"it comes {comes} from the heel" in sheet.sentence
        assert "5/8" not in hidden.sentence and "3/8" not in hidden.sentence


@EVERY
@pytest.mark.parametrize("theme", THEMES)
def test_starts(theme, every):
    for start, shows in product((0, 1), some(lesson.SHOWS[::5], every)):
        for view in (View(theme), View(theme, revealed=False), View(theme, prediction=Fraction(27, 8)), View(theme, prediction=Fraction(90))):
            legible(lesson.draw_start({"start": start, "shows": shows}, view), theme)


@pytest.mark.parametrize("theme", THEMES)
def test_inks_and_witness_lines(theme):
    for side, width in product(SIDES, lesson.INKS):
        legible(lesson.draw_ink({"side": side, "width": width}, View(theme)), theme)
        legible(lesson.draw_ink({"side": side, "width": width}, View(theme, revealed=False)), theme)
    for stage in STAGES:
        for view in (View(theme), View(theme, revealed=False), View(theme, prediction=Fraction(5, 4)), View(theme, prediction=Fraction(60))):
            legible(lesson.draw_witness({"part": demo_part("C1L"), "stage": stage}, view), theme)
    with pytest.raises(ValueError, match="needs no witness line"):
        witness_sheet(demo_part("A3"), BEFORE)


@EVERY
@pytest.mark.parametrize("which", ("set", "from-one"))
@pytest.mark.parametrize("theme", THEMES)
def test_the_rule_of_an_exercise(which, theme, every, monkeypatch):
    monkeypatch.setattr(ROOM, "theme", theme)
    for number, place in product(range(3), some(lesson.fractions("0", "4", "5/64"), every, 10)):
        legible(lesson.draw_set(number, place, False, which), theme)
        legible(lesson.draw_set(number, place, True, which), theme) if place > 1 + Fraction(1, 8) else None


# --- what is drawn is what is said ---------------------------------------------------------------------------
def test_the_errors_are_drawn_where_the_steps_walk():
    """Walked step by step with dividers, and read off the drawing's dots."""
    for count, way in product((1, 3, 10), WAYS):
        row, at, walked = Row(Fraction(3, 2), count, Fraction(1, 64), way), Fraction(0), []
        for n in range(count):
            at += Fraction(3, 2) + (SIGNS[n] if way == MIXED else 1) * Fraction(1, 64)
            walked.append(at - Fraction(3, 2) * (n + 1))
        sheet = lesson.draw_row({"count": count, "error": Fraction(1, 64), "way": way}, View())
        dots = [item for item in sheet.items if isinstance(item, Circle) and item.accent]
        base = min(item.y1 for item in sheet.items if isinstance(item, Line) and item.kind == "narrow")
        per = 16 * 9.4  # mm an inch: 1/16 is drawn 9.4 high
        assert [round((dot.y - base) / per * 64) for dot in dots] == [round(w * 64) for w in walked] == [round(e * 64) for e in row.errors]


def test_worst_and_usual_by_counting_every_row():
    """All rows of nine steps that are each 1/64 long or short: the largest, and the standard deviation of the last mark."""
    ends = [sum(signs) for signs in product((1, -1), repeat=9)]
    question = questions.when_mixed(Row(Fraction(3, 2), 9, Fraction(1, 64)))
    assert max(ends) == 9 and pstdev(ends) == pytest.approx(3)
    assert question.answer_text == "about 3 times one" and f"{3 / 64:.3f}" in question.working and "stays 9/64" in question.working
    assert 0.31 < math.erfc(1 / math.sqrt(2)) < 0.34  # one row in three beyond a standard error, bell-shaped


def test_the_rule_halves_the_inch():
    """FAA-H-8083-30 p. 9-18: an inch is halved down to 1/64. Each halving is drawn shorter, and all are there once."""
    lines = [item for item in rule(0, 0, 64, 0, 1) if isinstance(item, Line)]
    assert [line.x1 for line in lines] == pytest.approx(list(range(65)))
    counts = {size: sum(line.y2 == size for line in lines) for size in TICKS.values()}
    assert list(counts.values()) == [2, 1, 2, 4, 8, 16, 32] and sorted(TICKS.values(), reverse=True) == list(TICKS.values())


def test_the_mark_stands_where_the_rule_shows_it():
    for start, mark in product((0, 1), (Fraction(5, 4), Fraction(139, 64))):
        sheet = ruled_sheet("Wanted", mark, start, True)
        line = next(item for item in sheet.items if isinstance(item, Line) and item.kind == "mark" and item.y2 == 36)
        zero = next(item for item in sheet.items if isinstance(item, Line) and item.kind == "narrow").x1
        assert (line.x1 - zero) / RULED == pytest.approx(float(mark))
        assert f"That is {exact(mark - start)} (" in sheet.sentence


def test_the_ink_lies_beside_the_square():
    for side, width in product(SIDES, lesson.INKS):
        ink = Ink(Fraction(19, 4), width, side)
        sheet = ink_sheet(ink)
        xs = [x for x, _ in next(item for item in sheet.items if isinstance(item, Hatch)).points]
        wide = float(width) * UNIT
        assert max(xs) - min(xs) == pytest.approx(wide)
        # the part is at the left: the ink's left edge is the one next to it
        assert min(xs) - 117 == pytest.approx(0 if side == PART else -wide)
        assert float(ink.edge - ink.at) * UNIT == pytest.approx(min(xs) - 117)


def test_the_witness_line_is_clear_of_cut_and_holes():
    part = demo_part("C1L")
    at = witness_line(part)
    assert at == 3 and at > part.tapers[0].run and all(abs(at - hole.x) > hole.diameter for hole in part.holes)
    assert "hole 1 1/4 (1.250), end 2 1 3/4 (1.750)" in witness_sheet(part, AFTER).sentence
    assert grade(questions.from_witness(part), "1 1/4").right and grade(questions.from_witness(part), "4 1/4").slips == (questions.DATUM,)


def test_before_the_prediction_no_picture_shows_its_answer():
    for make, answers in ((lesson.stepping, ("1/8", "0.125")), (lesson.mixed, ("0.04", "3/64")), (lesson.start, ("2 3/8", "2.375")),
                          (lesson.ink, ("short", "on the part", "on the waste")), (lesson.witness, ("1 1/4 (", "1.250"))):  # fmt: skip
        sheet = make().sheet
        words = [*texts(sheet), sheet.sentence]
        if make is lesson.stepping:  # the scale of the errors is there, nothing on it
            words = [sheet.sentence]
        assert not any(answer in text for text in words for answer in answers), (make, words)


# --- the questions -------------------------------------------------------------------------------------
def test_the_mistakes_of_this_lesson_are_those_of_the_table():
    assert {"M07", "M08", "M11", "M16", "M17", "M18", "M27"} <= named(questions, 12)


def test_every_slip_is_to_be_named_sooner_or_later_and_only_one_fits():
    seen = set()
    for number in range(60):
        case = marks_found.fresh_found(f"case {number}")
        seen.add(case.mistake)
        off = [f - w for w, f in zip(case.wanted, case.found)]
        fits = {
            "M07": all(o == -1 for o in off),
            "M16": len(set(off)) == 1 and -Fraction(1, 4) < off[0] < 0,
            "M17": all(f + w == case.length for w, f in zip(case.wanted, case.found)),
            "M18": all(o == (i + 1) * off[0] for i, o in enumerate(off)) and off[0] > 0,
        }
        assert [id_ for id_, so in fits.items() if so] == [case.mistake]
        assert all(0 < f < case.length for f in case.found)
    assert seen == set(fits)


def test_a_mark_is_set_by_moving_it():
    box = lesson.exercise(1)
    assert isinstance(box, AskMark)
    place = questions.EXERCISES["set"].thing(0)
    box.entry.value = place.x
    assert box.answer().right and "from end 1" in box.question.prompt
    other = lesson.exercise(2)
    place = questions.EXERCISES["from-one"].thing(0)
    before = other.picture.value
    other.entry.value = place.x
    assert other.answer().slips == (questions.ONE_INCH,) and other.picture.value != before
    other.entry.value = place.x + 1
    assert other.answer().right
    for control in (box.entry, other.entry):
        assert control.values[1] - control.values[0] == Fraction(1, 64)
    assert len(box.picture.value) < 24_000


def test_the_misprint():
    """The page's decimal against the division itself."""
    assert Fraction(1, 8) == Fraction("0.125") and on_the_rule.MISPRINT == Fraction("0.0125")
    question = questions.by_misprint()
    assert grade(question, "0.1125").right and grade(question, "0").slips == ("misprint-trusted",)


# --- the numbers of the page -----------------------------------------------------------------------------------
def test_numbers_in_the_prose():
    medium = Fraction(1, 2) * MM  # ISO 2768-1 table 1, medium, over 120 up to 400 mm
    assert 120 * MM < 12 < 400 * MM and f"0.5 mm, {float(medium):.3f} in." in PAGE.prose
    assert "six times that" in PAGE.prose and 6 < Fraction(8, 64) / medium < 7
    assert f"then {exact(lesson_shop().allowance)} to sand" in PAGE.prose and f"with under {lesson_shop().hand_minimum} in. in the hand" in PAGE.prose
    assert '"1/8 = 0.0125"' in PAGE.prose and "thirty times as large" in PAGE.prose and UNIT == pytest.approx(25.4 * 30)
    assert Fraction(3, 10) * MM < Fraction(1, 64) < Fraction(5, 10) * MM  # the marker's line, 0.3 to 0.5 mm, from memory


def lesson_shop():
    from anglelib.job import Shop

    return Shop()


def test_the_worked_row_by_hand():
    said = repr(lesson.worked())
    assert "3/4, 2 1/16, 3 3/8, 4 11/16, 6" in said and "1 3/4, 3 1/16, 4 3/8, 5 11/16, 7" in said and "5/64 (0.078) off" in said
    assert grade(lesson.last_step().question, "3 9/16").right
    boxes = lesson.all_steps().children
    assert grade(boxes[0].question, "5 1/4").right and grade(boxes[1].question, "3/32").right


def test_formulas_with_any_numbers():
    card = lesson.formula()
    move_all(card)
    lines, sentence = card.write({"n_s": Fraction(9), "e_1": Fraction(1, 64)})
    assert len(lines) == 2 and "9/64 (0.141) where all err the same way, 0.047 usual" in sentence
