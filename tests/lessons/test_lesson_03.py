"""Lesson 03, without a kernel: every control moved over its range, every slip named, the numbers against the metal and the standards.

Published: ISO 2768-1 table 3 (second-hand) for the half degree; a maker's catalogue for the combination square, 0.001 in. in 6 in.
"""

import math
from fractions import Fraction
from itertools import product

import pytest
from lesson_checks import EVERY, THEMES, Page, legible, move_all, named, some, texts, told

from anglelib.drawing.end_trim import MAGNIFIED as TRIM_DRAWN
from anglelib.drawing.end_trim import Shown, heights, trim_of, trim_sheet
from anglelib.drawing.flipped import MAGNIFIED as FLIP_DRAWN
from anglelib.drawing.flipped import UNIT, flip_gap_at
from anglelib.drawing.sheet import Hatch, Line
from anglelib.drawing.try_square import degrees, light_sheet, seen
from anglelib.drawing.turned_square import WIDE, Tried, turned_sheet
from anglelib.lengths import MM
from anglelib.lessons import square_end as lesson
from anglelib.lessons.ask_picture import AskPicture
from anglelib.lessons.live import View
from anglelib.questions import square_end as questions
from anglelib.questions.grading import grade
from anglelib.questions.question import NumberQuestion
from anglelib.section import Section

PICTURES = {"light": lesson.light, "angle": lesson.angle, "trim": lesson.trim, "flip": lesson.flip, "turned": lesson.turned}
PAGE = Page.of(lesson)
OUTS = range(-lesson.MOST, lesson.MOST + 1)


# --- the pictures over the range of their controls ---------------------------------------------------------
@EVERY
@pytest.mark.parametrize("theme", THEMES)
@pytest.mark.parametrize("name", lesson.SECTIONS)
def test_light_on_either_leg_of_every_section(name, theme, every):
    section = lesson.SECTIONS[name]
    for a, b, leg in product(some(OUTS, every, 3), (-4, -1, 0, 3, 4) if every else (-4, 0, 3), lesson.LEGS):
        one, two = (a, b) if leg == "A" else (b, a)
        legible(lesson.draw_light({"section": section, "leg": leg, "toe_a": one, "toe_b": two}, View(theme)), theme)
    legible(lesson.draw_light({"section": section, "leg": "B", "toe_a": 4, "toe_b": 4}, View(theme, revealed=False)), theme)


@pytest.mark.parametrize("theme", THEMES)
@pytest.mark.parametrize("name", lesson.SECTIONS)
def test_angles_and_predictions(name, theme):
    section = lesson.SECTIONS[name]
    for a, guess in product(OUTS, (None, Fraction(0), Fraction(1, 2), Fraction(143, 100), Fraction(89), Fraction(400))):
        legible(lesson.draw_angle({"section": section, "toe_a": a}, View(theme, prediction=guess)), theme)
        legible(lesson.draw_angle({"section": section, "toe_a": a}, View(theme, revealed=False)), theme)


@EVERY
@pytest.mark.parametrize("theme", THEMES)
@pytest.mark.parametrize("name", lesson.SECTIONS)
def test_trims(name, theme, every):
    section = lesson.SECTIONS[name]
    for a, b in product(some(OUTS, every, 4), repeat=2):
        legible(lesson.draw_trim({"section": section, "toe_a": a, "toe_b": b}, View(theme)), theme)
    for guess in (0, Fraction(1, 16), 5):
        values = {"section": section, "toe_a": 2, "toe_b": -2}
        legible(lesson.draw_trim(values, View(theme, prediction=Fraction(guess))), theme)
        legible(lesson.draw_trim(values, View(theme, revealed=False)), theme)


@pytest.mark.parametrize("theme", THEMES)
def test_flips(theme):
    for error, position, height in product(range(lesson.MOST + 1), lesson.POSITIONS, lesson.fractions("1", "6", "1/2")):
        values = {"error": error, "position": position, "height": height}
        for guess in (None, Fraction(0), Fraction(1, 32), Fraction(3)):
            legible(lesson.draw_flip(values, View(theme, prediction=guess)), theme)
        legible(lesson.draw_flip(values, View(theme, revealed=False)), theme)


@EVERY
@pytest.mark.parametrize("theme", THEMES)
def test_turned_over_on_the_end(theme, every):
    for out, lean, section in product(some(OUTS, every, 3), some(range(-2, 3), every, 2), lesson.SECTIONS.values()):
        for view in (View(theme), View(theme, revealed=False), View(theme, prediction=Fraction(1, 32)), View(theme, prediction=Fraction(9))):
            legible(lesson.draw_turned({"section": section, "toe_a": out, "lean": lean}, view), theme)


# --- what is drawn is what is said ---------------------------------------------------------------------------
def test_the_trim_line_is_as_far_from_the_highest_place_as_the_sentence_says():
    for a, b in product(OUTS, OUTS):
        out = (Fraction(a, 64), Fraction(b, 64))
        section = lesson.SECTIONS["middle"]
        sheet = trim_sheet(section, out)
        line = next(item for item in sheet.items if isinstance(item, Line) and item.kind == "mark")
        for waste in (item for item in sheet.items if isinstance(item, Hatch) and item.accent):
            assert max(x for x, _ in waste.points) == pytest.approx(line.x1)
        outline = next(item for item in sheet.items if getattr(item, "kind", "") == "outline")
        left = min(x for x, _ in outline.points)
        unit = 32.0  # 40 mm for a leg of 1 1/4
        drawn = (line.x1 - left) / unit / TRIM_DRAWN
        trim = trim_of(section, out)
        if out[0] <= 0 or out[1] <= 0:  # else the highest place is an inner edge, behind the outline
            assert drawn == pytest.approx(trim, abs=float(min(abs(out[0]), abs(out[1]))) / 8 + 1e-9)
        assert drawn <= trim + 1e-9


def test_what_the_trim_is_worked_by_hand():
    """On the drawing: a leg of 1 1/4, 1/8 thick; the inner edge of a toe stands out a tenth of the other leg's error further."""
    section, g = lesson.SECTIONS["middle"], Fraction(1, 32)
    assert trim_of(section, (g, -g)) == pytest.approx(1 / 16)
    assert trim_of(section, (g, g)) == pytest.approx(11 / 320) == pytest.approx(trim_of(section, (-g, -g)))
    assert trim_of(section, (g, Fraction(0))) == pytest.approx(1 / 32)
    assert max(h for h, _ in heights(section, (g, g))) == pytest.approx(11 / 320)


def test_the_trim_on_the_outline_of_another_library():
    """Shapely's outline of the section, its places measured along the end's plane."""
    from shapely.geometry import box

    for name, a, b in product(lesson.SECTIONS, (-3, 1, 4), (-2, 0, 3)):
        s, out = lesson.SECTIONS[name], (a / 64, b / 64)
        metal = box(0, 0, float(s.leg_a), float(s.thickness_a)).union(box(0, 0, float(s.thickness("B")), float(s.leg_b)))
        along = [y * out[0] / float(s.leg_a) + z * out[1] / float(s.leg_b) for y, z in metal.exterior.coords]
        assert trim_of(s, (Fraction(a, 64), Fraction(b, 64))) == pytest.approx(max(along) - min(along), abs=1e-9)


def test_the_lines_of_the_flip_test_lie_where_the_square_leans():
    """The gap read off the drawing, between the two lines at a height."""
    for error, height in product((1, 2, 4), (Fraction(2), Fraction(6))):
        sheet = lesson.draw_flip({"error": error, "position": lesson.OVER, "height": height}, View())
        one, two = (item for item in sheet.items if isinstance(item, Line) and item.kind == "mark")
        gap = (two.x2 - one.x2) * float(height) / 6 / UNIT / FLIP_DRAWN
        assert gap == pytest.approx(float(flip_gap_at(Fraction(error, 64), height)))
        assert gap / 2 == pytest.approx(error / 64 * float(height) / 6)


def test_the_light_on_either_side_is_what_lies_between_the_blade_and_the_end():
    """Measured on the drawing: the widest gap along the blade, in the first view and in the second."""
    for out, lean in product(OUTS, range(-2, 3)):
        tried = Tried(Fraction(5, 4), Fraction(out, 64), Fraction(lean, 64))
        sheet = turned_sheet(tried)
        legible(sheet, "screen")
        hatched = [item for item in sheet.items if isinstance(item, Hatch)]
        lit = [turned for turned in (False, True) if tried.light(turned)]
        assert len(hatched) == len(lit)
        for hatch, turned in zip(hatched, lit):
            (top, _), (heel, _), (toe, _), (foot, _) = hatch.points
            gaps = (heel - top, toe - foot)
            assert min(gaps) == pytest.approx(0, abs=1e-9)  # it touches, and nowhere lies in the metal
            wide = (gaps[1] - gaps[0]) * 1.25 / WIDE / 6
            assert wide == pytest.approx(float(tried.light(turned)))
        assert (tried.light(False) + tried.light(True)) / 2 == -tried.out


def test_along_the_blade_and_above_the_edge_no_rule_parts_the_gaps():
    lean = math.atan(1 / 32 / 6)
    assert abs(2 * 6 * math.tan(lean) - 2 * 6 * math.sin(lean)) < 1 / 64 / 100


def test_before_the_prediction_leg_b_is_not_to_be_seen():
    live = lesson.light()
    words = [*texts(live.sheet), live.sheet.sentence]
    assert not any("1/32" in text or "out" in text.split() for text in words) and "has not been tried" in live.sheet.sentence
    for make, answer in ((lesson.angle, "1.4"), (lesson.trim, "1/16"), (lesson.flip, "1/16"), (lesson.turned, "3/64")):
        shown = make().sheet
        assert answer not in told(shown), make
    assert not any(getattr(item, "kind", "") == "mark" for item in lesson.trim().sheet.items)


def test_light_means_metal_that_is_missing():
    assert seen(Fraction(1, 32), "A").endswith("at the heel: the toe stands out.")
    assert seen(Fraction(-1, 32), "A").endswith("at the toe: the toe falls back.")
    for out in (Fraction(1, 32), Fraction(-1, 32)):
        sheet = light_sheet(lesson.SECTIONS["middle"], (out, Fraction(0)), "A")
        assert seen(out, "A") in sheet.sentence


# --- the questions -------------------------------------------------------------------------------------
def test_the_mistakes_of_this_lesson_are_those_of_the_table():
    assert {"M16", "M21", "M20"} <= named(questions)


def test_the_larger_error_alone_and_the_sum():
    end = questions.Sawn(lesson.SECTIONS["middle"], (Fraction(1, 32), Fraction(-1, 32)))
    assert grade(questions.trim(end), "1/16").right and grade(questions.trim(end), "1/32").slips == (questions.LARGER,)
    same = questions.Sawn(end.section, (Fraction(1, 32), Fraction(1, 32)))
    assert grade(questions.trim(same), "1/32").right and grade(questions.trim(same), "1/16").slips == (questions.SUMMED,)
    assert grade(questions.trim(same), "0").slips == (questions.CANCEL,)


def test_angles_are_typed_in_degrees_and_minutes():
    question = questions.angle(questions.Lit(Fraction(5, 4), Fraction(1, 32)))
    assert isinstance(question, NumberQuestion) and grade(question, "1.43").right and grade(question, "1° 26'").right
    assert "angle" in grade(question, "1/32 in").sentence


def test_the_exercise_with_a_picture_does_not_say_what_the_light_means():
    box = lesson.exercise(1)
    assert isinstance(box, AskPicture)
    for number in range(12):
        sheet = lesson.draw_exercise(questions.EXERCISES["light"].thing(number))
        for theme in THEMES:
            legible(sheet, theme)
        assert "stands out" not in sheet.sentence and "falls back" not in sheet.sentence


# --- the numbers of the page -----------------------------------------------------------------------------------
def test_numbers_in_the_prose():
    half = 0.5  # degrees, ISO 2768-1 table 3: shorter leg over 10 up to 50 mm (second-hand)
    assert 10 * MM < Fraction(5, 4) < 50 * MM
    at_the_toe = 1.25 * math.tan(math.radians(half))
    assert f"{at_the_toe:.3f} in. at the toe" in PAGE.prose and at_the_toe < 1 / 64 and "30 minutes, half a degree" in PAGE.prose
    square = Fraction(1, 1000) * Fraction(5, 4) / 6
    assert lesson.square_is_out() == square and f"that is {float(square):.4f}" in PAGE.prose
    assert f"by the sanding allowance, {lesson.exact(lesson.Shop().allowance)}" in PAGE.prose
    assert f"with under {lesson.Shop().hand_minimum} in. in the hand" in PAGE.prose


def test_the_worked_end():
    said = repr(lesson.worked())
    assert f"{math.degrees(math.atan(1 / 80)):.1f} degrees" in said and f"{math.degrees(math.atan(1 / 40)):.1f} degrees" in said
    assert "they add, 3/64 (0.047)" in said and "saw it again" in said
    assert degrees(Fraction(1, 64), Fraction(5, 4)) == pytest.approx(math.degrees(math.atan(1 / 80)))
    last = lesson.last_step().question
    assert grade(last, "1/32").right and "stands out 1/64" in last.prompt
    boxes = lesson.all_steps().children
    assert grade(boxes[0].question, "1.19").right and grade(boxes[2].question, "sand").right


def test_formulas_with_any_numbers():
    card = lesson.formula()
    move_all(card)
    numbers = {"g": Fraction(1, 32), "W": Fraction(5, 4), "g_f": Fraction(1, 16), "h_q": Fraction(6)}
    lines, sentence = card.write(numbers)
    assert len(lines) == 2 and "1.43 degrees out of square" in sentence and "out by 0.031 there, 0.30 degrees" in sentence


def test_an_uneven_section_is_drawn_as_it_is():
    sheet = trim_sheet(Section("2", "1", "3/16", "1/8", fillet="1/8"), (Fraction(1, 64), Fraction(-1, 32)), Shown())
    legible(sheet, "screen")
