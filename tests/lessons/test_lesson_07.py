"""Lesson 07, without a kernel: every control moved over its range, drawn in both themes, and every cell's box built."""

import re
from fractions import Fraction
from itertools import product

import pytest
from lesson_checks import EVERY, THEMES, legible, move_all, same_in_the_kit, some, texts

from anglelib.drawing.checks import clipped, overlaps
from anglelib.drawing.sheet import Circle, Line
from anglelib.lessons import demo
from anglelib.lessons import taper_inside as lesson
from anglelib.lessons.live import View

MOST = 8
"""Labels on a projector's picture: one more than elsewhere, each of which the lesson is about."""
GIVEN = lesson.given(demo.demo_part("C1R"))
PICTURES = {"project": lesson.project, "thicknesses": lesson.thicknesses, "slopes": lesson.slopes, "inside_corner": lesson.inside_corner}


@EVERY
@pytest.mark.parametrize("theme", THEMES)
def test_runs_and_widths_on_every_job(theme, every):
    for _, values in lesson.slopes().presets.values():
        for run, left in product(some(lesson.RUNS[::4], every, 4), some(lesson.LEFTS[::2], every, 4)):
            legible(lesson.draw({**values, "run": run, "left": left}, View(theme)), theme, most=MOST)


@pytest.mark.parametrize("theme", THEMES)
def test_every_step_of_run_and_of_width_left(theme):
    for run in lesson.RUNS:
        legible(lesson.draw({**GIVEN, "run": run}, View(theme)), theme, most=MOST)
    for left in lesson.LEFTS:
        legible(lesson.draw({**GIVEN, "left": left}, View(theme)), theme, most=MOST)


@pytest.mark.parametrize("theme", THEMES)
def test_thicknesses_and_unrolling(theme):
    thick = lesson.THICKNESSES.values()
    for own, other, opened in product(thick, thick, (0, 40, 100)):
        legible(lesson.draw({**GIVEN, "own": own, "other": other, "opened": opened}, View(theme)), theme, most=MOST)
    for opened in range(0, 101, 5):
        legible(lesson.draw({**GIVEN, "opened": opened}, View(theme)), theme, most=MOST)


@pytest.mark.parametrize("theme", THEMES)
def test_any_prediction_is_drawn(theme):
    for sixteenths in (*range(0, 64), 80, 200, 2000):
        view = View(theme, prediction=Fraction(sixteenths, 16))
        legible(lesson.draw({**GIVEN, "opened": 40}, view), theme, most=MOST)
    legible(lesson.draw(GIVEN, View(theme, revealed=False)), theme, most=MOST)


@pytest.mark.parametrize("theme", THEMES)
def test_both_wrong_lines(theme):
    for mistake, run in product(lesson.MISTAKES, lesson.RUNS):
        legible(lesson.draw_mistake({**GIVEN, "run": run, "mistake": mistake}, View(theme)), theme, most=MOST)


@pytest.mark.parametrize(("leg", "end"), [("A", 1), ("A", 2), ("B", 1), ("B", 2)])
def test_the_picture_has_the_hand_of_the_metal(leg, end):
    """x from end 1, y on leg A, z on leg B turn right-handed; on the paper: right, up, towards the viewer.

    Where the tapered end lies on the paper is read off the drawing: the vertex is its only large dot.
    """
    for draw, extra in ((lesson.draw, {}), (lesson.draw_mistake, {"mistake": lesson.CORNER}), (lesson.draw_mistake, {"mistake": "straight"})):
        sheet = draw({**GIVEN, "leg": leg, "end": end, **extra}, View())
        legible(sheet, "screen")
        dot = next(item for item in sheet.items if isinstance(item, Circle) and item.fill)
        hidden = next(item for item in sheet.items if isinstance(item, Line) and item.kind == "hidden" and item.y1 == item.y2)
        along = 1 if abs(dot.x - min(hidden.x1, hidden.x2)) < 1 else -1  # from the tapered end into the part, on the paper
        x, y, z = (1, 0, 0), (0, 1, 0), (0, 0, 1)
        into = x if end == 1 else (-1, 0, 0)
        flat, standing = (y, z) if leg == "A" else (z, y)
        metal = volume(into, flat, standing)
        paper = volume((along, 0, 0), (0, 0, 1), (0, 1, 0))  # the flat leg comes towards the viewer, the other goes up
        assert metal == paper, (leg, end)
        where = "left" if along > 0 else "right"
        assert extra or f"end {end} is at the {where}" in sheet.sentence


def volume(a, b, c) -> int:
    """1 for a right-handed, -1 for a left-handed set of directions."""
    return (
        a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0]) + a[2] * (b[0] * c[1] - b[1] * c[0])
    )


def test_the_way_the_angle_sits():
    sheet = lesson.ways().sheet
    assert overlaps(sheet) == [] and clipped(sheet) == []


@pytest.mark.parametrize("name", PICTURES)
def test_the_answer_is_in_no_word_of_the_picture_before_the_prediction(name):
    """The mark, 7/32 (0.213), and what the corner leaves must not be read off the drawing."""
    live = PICTURES[name]()
    words = [*texts(live.sheet), live.sheet.sentence]
    assert not any("7/32" in text or "0.213" in text or "0.425" in text or "left standing" in text for text in words)
    accents = [item for item in live.sheet.items if getattr(item, "kind", "") == "mark"]
    assert len(accents) == 2  # the toe's edge and the toe mark on the unrolled inside


def test_the_unrolled_line_bends_where_the_solid_says():
    """The fillet's curve: points of the tilted plane on the fillet's cylinder, met by bisection on the plane's equation."""
    from anglelib.drawing.lining import Lining

    line = lesson.compute(GIVEN)
    lining = Lining(line)
    (x0, y0), (x1, y1) = (0.0, 0.0), (float(line.run), float(line.width))
    for w, x in lining.path:
        y, _ = lining.folded(w, opened=0)
        assert (x - x0) * (y1 - y0) - (y - y0) * (x1 - x0) == pytest.approx(0, abs=1e-9)  # on the saw's plane
    for opened in (0, 0.3, 0.7, 1):  # paper keeps its length, however it is folded
        steps = [lining.folded(lining.width * i / 4000, opened) for i in range(4001)]
        along = sum(((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) ** 0.5 for a, b in zip(steps, steps[1:], strict=False))
        assert along == pytest.approx(lining.width, rel=1e-6)


def test_formulas_with_any_numbers():
    card = lesson.formula()
    move_all(card)
    for name, control in card.controls.items():
        control.value = {"X": Fraction(17, 8), "W": Fraction(5, 4), "s": Fraction(0), "t": Fraction(1, 8), "r": Fraction(1, 8)}[name]
    lines, sentence = card.write(card.values)
    assert lines[1] == r"x_v = c \left(t - s\right) = {1.700} \times \left({\tfrac{1}{8}} - {0}\right) = 0.213"
    assert "the mark on the other leg at 7/32 (0.213)" in sentence
    card.controls["s"].value = Fraction(3, 4)
    assert "does not reach the other leg" in card.words.value
    card.controls["W"].value = Fraction(3, 4)
    assert "nothing is cut" in card.words.value


def test_the_worked_part_says_what_the_drawing_says():
    text = repr(lesson.worked())
    assert "2 1/8 (2.125)" in text and "struck at 7/32" in text and "struck at 27/64" in text
    assert text == "\n".join(re.sub(r"^\d\. ", lambda m: m[0], line) for line in text.split("\n"))


def test_the_spare_parts_are_those_of_the_demo_kit():
    for spare in demo._spare().values():
        same_in_the_kit(spare, "holes", "handed")
