"""Lesson 06, without a kernel: every control moved over its range, drawn in both themes, and every cell's box built.

Outside the project: shapely for the triangle and for the swung run, the sine bar of TC 9-524 (appendix C) and of
Walsh (chapter 4), the columns of taper per foot of Machinery's Handbook (from memory, recomputed).
"""

import math
import re
from fractions import Fraction
from itertools import product

import pytest
from lesson_checks import EVERY, THEMES, Page, legible, move_all, named, some, told
from shapely import LineString, Point
from shapely.affinity import rotate

from anglelib.drawing.angle_views import PLACES, both_sides, four_lines_sheet, one_side
from anglelib.drawing.checks import clipped, overlaps
from anglelib.drawing.sheet import Circle, Label
from anglelib.geometry.taper import TaperLine, taper_lines
from anglelib.lessons import demo
from anglelib.lessons import taper_outside as lesson
from anglelib.lessons.live import View
from anglelib.part import Taper
from anglelib.questions import taper_made
from anglelib.questions import taper_outside as ask
from anglelib.section import Section

GIVEN = lesson.given(demo.demo_part("E2R"))
PICTURES = {name: getattr(lesson, name) for name in ("triangle", "swung", "protractor", "per_foot")}


# --- the pictures ---------------------------------------------------------------------------------------
@EVERY
@pytest.mark.parametrize("theme", THEMES)
def test_runs_and_widths_on_every_job(theme, every):
    for _, values in lesson.triangle().presets.values():
        for run, left in product(some(lesson.RUNS[::4], every, 4), some((*lesson.LEFTS[::4], lesson.LEFTS[-1]), every, 3)):
            changed = {**values, "run": run, "left": left}
            for draw in (lesson.draw_triangle, lesson.draw_swung, lesson.draw_protractor):
                legible(draw(changed, View(theme)), theme)
        legible(lesson.draw_triangle(values, View(theme, revealed=False)), theme)


@pytest.mark.parametrize("theme", THEMES)
def test_every_step_of_run_and_of_width_left(theme):
    for draw in (lesson.draw_triangle, lesson.draw_swung):
        for run in lesson.RUNS:
            legible(draw({**GIVEN, "run": run}, View(theme)), theme)
        for left in lesson.LEFTS:
            legible(draw({**GIVEN, "left": left}, View(theme)), theme)


@pytest.mark.parametrize("theme", THEMES)
def test_any_prediction_is_drawn(theme):
    for sixteenths in (*range(0, 64, 3), 80, 2000):
        legible(lesson.draw_swung(GIVEN, View(theme, prediction=Fraction(sixteenths, 16))), theme)
    for degree in (0, 1, 18, 45, 72, 90, 162, 1000):
        legible(lesson.draw_protractor(GIVEN, View(theme, prediction=Fraction(degree))), theme)


@pytest.mark.parametrize("theme", THEMES)
def test_every_fall_in_a_foot(theme):
    for fall, revealed in product(lesson.FALLS.values(), (False, True)):
        legible(lesson.draw_foot({"fall": fall}, View(theme, revealed)), theme)


@pytest.mark.parametrize("which", [2, 3, 4])
def test_pictures_of_the_exercises(which):
    box = lesson.exercise(which)
    for number in range(12):
        if which == 2:
            for mark in (*lesson.MARKS[::32], lesson.MARKS[-1]):
                for revealed in (False, True):
                    legible(box.draw(number, mark, revealed), "screen")
        else:
            legible(box.draw(number), "screen")
    assert overlaps(lesson.stances().sheet) == [] and clipped(lesson.stances().sheet) == []


@pytest.mark.parametrize("name", PICTURES)
def test_the_answer_is_in_no_word_of_the_picture_before_the_prediction(name):
    live = PICTURES[name]()
    words = told(live.sheet)
    assert "not shown yet" in words
    question = live.ask.question
    if name == "triangle":
        assert not re.search(r"\brun [0-9]", words)
    else:
        assert f"{float(question.answer):.1f}" not in words and question.answer_text not in words


def test_the_mark_is_set_on_the_drawing():
    """Moved by its slider and checked; the line shows only once it is right."""
    box = lesson.exercise(2)
    first = box.picture.value
    box.entry.slider.value += 3
    assert box.picture.value != first and box.grade is None
    wrong = box.question.wrong[0]
    box.entry.value = Fraction(round(float(wrong.answer) * 64), 64)
    box.check.click()
    assert box.grade.status == "mistake" and wrong.slip in box.grade.slips
    box.entry.value = Fraction(int(float(box.question.answer) * 64), 64)
    box.check.click()
    assert box.grade.right
    for _ in range(10):  # every fresh part's mark can be set with this control
        box.other.click()
        assert box.entry.values[0] <= Fraction(int(float(box.question.answer) * 64), 64) <= box.entry.values[-1]


def test_formulas_with_any_numbers():
    card = lesson.formula()
    move_all(card)
    for name, value in {"W": "1 1/2", "s": "9/16", "X": "2 7/8"}.items():
        card.controls[name].entry.value = value
    lines, sentence = card.write(card.values)
    assert sentence.startswith("18.06 degrees from the heel, 71.94 from square; the tapered edge is 3 1/32 (3.024) long")
    assert r"90^{\circ} - \theta" in lines[1] and r"\pi" not in "".join(lines)
    card.controls["s"].entry.value, card.controls["W"].entry.value = "3/4", "3/4"
    assert "nothing is cut" in card.words.value


def test_the_run_by_its_angle():
    """The toe mark of a line turned by a protractor, and the same angle laid from the end: built with shapely."""
    card = lesson.by_angle()
    move_all(card)
    for name, value in {"theta": "25", "W": "1 1/2", "s": "9/16"}.items():
        card.controls[name].entry.value = value
    toe = LineString([(-1, 1.5), (9, 1.5)])
    found = [rotate(LineString([(0, 0.5625), (9, 0.5625)]), angle, origin=(0, 0.5625)).intersection(toe).x for angle in (25, 65)]
    assert all(f"({x:.3f})" in card.words.value for x in found)
    card.controls["s"].entry.value, card.controls["W"].entry.value = "3/4", "3/4"
    assert "nothing is cut" in card.words.value


def test_no_prompt_tells_the_answer_of_the_one_before():
    asked = [box.question for box in lesson.all_steps().children]
    for before, after in zip(asked, asked[1:], strict=False):
        assert before.answer_text.split(" ")[0] not in after.prompt.replace("1 5/8, width", "")


def test_pictures_of_questions_keep_to_seven_labels_on_a_projector(monkeypatch):
    monkeypatch.setattr(lesson.ROOM, "theme", "projector")
    legible(lesson.which_leg().draw(0), "projector")
    for which in (3, 4):
        legible(lesson.exercise(which).draw(0), "projector")


# --- against something outside ----------------------------------------------------------------------------
def drawn(values) -> tuple[LineString, LineString]:
    """The taper's line and the toe, as a drafter lays them."""
    run, left, width = (float(v) for v in (values["run"], values["left"], values["section"].leg(values["leg"])))
    return LineString([(0, left), (run, width)]), LineString([(-9, width), (9, width)])


@pytest.mark.parametrize("id_", ["E2R", "E2L", "C2R", "A5R", "A1R", "A2R"])
def test_the_triangle_of_the_drawing(id_):
    """shapely: slope length by measuring, the swung run by meeting a circle with the toe, the angle by turning."""
    values = lesson.given(demo.demo_part(id_))
    line, toe = drawn(values)
    found = lesson.compute(values)
    assert found.edge_length == pytest.approx(line.length)
    (x0, y0), (x1, y1) = line.coords
    flat = rotate(line, -found.angle, origin=(x0, y0))
    assert flat.coords[1][1] == pytest.approx(y0, abs=1e-9)
    arc = Point(x0, y0).buffer(float(values["run"]), quad_segs=20000).exterior
    struck_at = max(p.x for p in arc.intersection(toe).geoms)
    assert float(ask.along_slope(demo.demo_part(id_)).answer) == pytest.approx(struck_at, abs=1e-6)
    assert float(ask.height(demo.demo_part(id_)).answer) == pytest.approx(y1 - y0)
    assert float(ask.from_square(demo.demo_part(id_)).answer) == pytest.approx(math.degrees(math.atan2(x1 - x0, y1 - y0)))


def test_wrong_angles_by_construction():
    part = demo.demo_part("E2R")
    line, toe = drawn(GIVEN)
    (x0, y0), (x1, y1) = line.coords
    made = {w.slip: float(w.answer) for w in ask.angle(part).wrong}
    arc = Point(x0, y0).buffer(x1, quad_segs=20000).exterior.intersection(toe)
    x = max(p.x for p in arc.geoms)
    assert made[ask.ALONG] == pytest.approx(math.degrees(math.atan2(y1 - y0, x)), abs=1e-5)
    assert made[ask.FORGOTTEN] == pytest.approx(math.degrees(math.atan2(y1, x1)))
    assert made[ask.EXCHANGED] == pytest.approx(math.degrees(math.atan2(x1 - x0, y1 - y0)))


def test_where_the_drawing_puts_the_taper():
    """The dots of the line on the paper: end 1 at the left, leg A's heel at the top, leg B's at the bottom."""
    for leg, end in PLACES:
        values = {**GIVEN, "leg": leg, "end": end}
        dots = [item for item in lesson.draw_triangle(values, View()).items if isinstance(item, Circle) and item.fill]
        foot, toe = dots
        assert (toe.x > foot.x) == (end == 1) and (toe.y > foot.y) == (leg == "B")
        assert abs(toe.y - foot.y) / abs(toe.x - foot.x) == pytest.approx(float(Fraction(15, 16) / Fraction(23, 8)))


def test_the_four_lines_have_their_letters():
    for n in range(20):
        placed = ask.EXERCISES["line"].thing(n)
        sheet = four_lines_sheet(placed.order)
        label = next(item for item in sheet.items if isinstance(item, Label) and item.text == placed.letter)
        assert (label.x < sheet.width / 2) == (placed.end == 1) and (label.y > sheet.height / 2) == (placed.leg == "B")


# minutes and seconds, derived, as in tests/unit/test_taper_per_foot.py; what is in print: tests/published/test_taper_in_print.py
@pytest.mark.parametrize(
    ("fall", "one", "two"),
    [("1/2", (2, 23, 9), (2, 23, 13)), ("1", (4, 45, 49), (4, 46, 19)), ("2", (9, 27, 44), (9, 31, 38)), ("3", (14, 2, 10), (14, 15, 0)), ("6", (26, 33, 54), (28, 4, 21))],
)
def test_taper_per_foot_as_the_picture_says_it(fall, one, two):
    def degrees(parts):
        return parts[0] + parts[1] / 60 + parts[2] / 3600

    t = lesson.FALLS[fall]
    assert one_side(t) == pytest.approx(degrees(one), abs=1 / 3600) and both_sides(t) == pytest.approx(degrees(two), abs=1 / 3600)
    sentence = lesson.draw_foot({"fall": t}, View()).sentence
    assert f"{degrees(one):.2f} degrees from the heel" in sentence and f"{degrees(two):.2f} degrees." in sentence


def test_the_checks_of_the_worked_part():
    """Sine bars of TC 9-524, appendix C (23 deg 41 min on 5 in.: 2.0084), and of Walsh, chapter 4 (34 deg 25 min: 2.826)."""
    for angle, printed in ((23 + 41 / 60, 2.0084), (34 + 25 / 60, 2.826)):
        line = TaperLine.of(Section(1, 1, "1/8"), Taper("A", 1, angle=str(round(angle, 6))))
        assert line.sine_bar(lesson.BAR) == pytest.approx(printed, abs=5e-4)
    text = repr(lesson.checks())
    line, _ = drawn(GIVEN)
    (x0, y0), (x1, y1) = line.coords
    assert f"{5 * (y1 - y0) / line.length:.4f} of gauge blocks" in text
    assert f"{12 * (y1 - y0) / (x1 - x0):.3f}." in text and f"{line.length:.3f} by the caliper" in text
    assert "18° 04'" in text and "71° 56'" in text
    assert 18 + 4 / 60 == pytest.approx(math.degrees(math.atan2(y1 - y0, x1 - x0)), abs=1 / 120)


def test_the_worked_saw_line_is_the_parallel():
    line, toe = drawn(GIVEN)
    saw = line.parallel_offset(1 / 32, "left").coords
    (x0, y0), (x1, y1) = saw
    at_toe = x0 + (1.5 - y0) * (x1 - x0) / (y1 - y0)
    at_end = y0 - x0 * (y1 - y0) / (x1 - x0)
    text = repr(lesson.worked())
    assert f"on the toe 2 25/32 ({at_toe:.3f})" in text and f"on the end 19/32 ({at_end:.3f})" in text


# --- the questions ----------------------------------------------------------------------------------------
def test_the_mistakes_of_this_lesson_are_all_named():
    assert {"M09", "M10", "M11", "M13", "M14", "M15", "M19", "M20"} <= named(ask)


def test_slips_read_differently():
    for n in range(15):
        part = ask.EXERCISES["slip"].thing(n).part
        read = [taper_made.readings(part, taper_made.made_by(part, id_)) for id_ in ask.SLIPS]
        assert len(set(read)) == len(read)
        line = taper_lines(part)[0]
        made = taper_made.made_by(part, "M14")
        assert made.at_toe == pytest.approx(float(line.run)) and made.slope != pytest.approx(float(line.slope))


# --- the notebook ---------------------------------------------------------------------------------------
def test_numbers_of_the_prose():
    text = Page.of(lesson).prose
    assert "leg B, end 1, run 2 7/8, width left 9/16" in text
    assert (GIVEN["leg"], GIVEN["end"], GIVEN["run"], GIVEN["left"]) == ("B", 1, Fraction(23, 8), Fraction(9, 16))
    assert "agree to a fraction of a second of arc; at 6 they are a degree and a half apart" in text
    assert 0 < 3600 * (both_sides(Fraction(1, 4)) - one_side(Fraction(1, 4))) < 1
    assert both_sides(Fraction(6)) - one_side(Fraction(6)) == pytest.approx(1.5, abs=0.05)
    assert "Not from the inside face: that leaves a thickness too much" in text
