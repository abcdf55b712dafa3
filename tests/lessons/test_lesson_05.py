"""Lesson 05, without a kernel: every control moved over its range, drawn in both themes, and every cell's box built.

Outside the project: the worked stack of one sawn end (GUM, JCGM 100:2008, 5.1.2), shapely for what a saw leaves
of a stick, and cuts thrown by Python's own random numbers.
"""

import re
from fractions import Fraction
from itertools import product
from random import Random

import pytest
from lesson_checks import THEMES, Page, legible, move_all, named, told
from shapely import LineString, box
from shapely.affinity import rotate, translate
from shapely.ops import unary_union

from anglelib.drawing import scatter
from anglelib.drawing.blade_view import UNIT
from anglelib.drawing.saw_line import ALONG, KEEP, OUTSIDE, SPLIT, WAYS, SawLine, crosses
from anglelib.drawing.sheet import Label, Line, Polyline
from anglelib.lessons import kerf_and_allowance as lesson
from anglelib.lessons.live import View
from anglelib.questions import kerf_and_allowance as ask
from anglelib.questions.question import ChoiceQuestion

PICTURES = {name: getattr(lesson, name) for name in ("beside_the_line", "blade", "blank", "scatter", "batch", "teeth")}


# --- the pictures ---------------------------------------------------------------------------------------
@pytest.mark.parametrize("theme", THEMES)
def test_every_way_kerf_and_allowance(theme):
    for way, kerf, allowance, wander in product(WAYS, lesson.KERFS, lesson.ALLOWANCES[::2], lesson.WANDERS[::3]):
        values = {"line": Fraction(19, 4), "kerf": kerf, "allowance": allowance, "way": way, "wander": wander}
        legible(lesson.draw_line(values, View(theme)), theme)
    for off in range(-40, 41, 4):
        values = {"line": Fraction(19, 4), "kerf": Fraction(1, 16), "allowance": Fraction(1, 32), "way": SPLIT, "wander": Fraction(1, 64)}
        legible(lesson.draw_line(values, View(theme, prediction=Fraction(19, 4) + Fraction(off, 64))), theme, most=8)  # a prediction beside seven


@pytest.mark.parametrize("theme", THEMES)
def test_every_blank(theme):
    for sawn, kerf, allowance in product((1, 2), lesson.KERFS, lesson.ALLOWANCES):
        values = {"length": Fraction(19, 4), "sawn": sawn, "kerf": kerf, "allowance": allowance}
        legible(lesson.draw_blank(values, View(theme)), theme)
        legible(lesson.draw_blank(values, View(theme, prediction=Fraction(19, 4) + allowance)), theme)
    for off in range(-20, 40):
        values = {"length": Fraction(19, 4), "sawn": 2, "kerf": ask.BY_HAND.kerf, "allowance": Fraction(1, 16)}
        legible(lesson.draw_blank(values, View(theme, prediction=Fraction(19, 4) + Fraction(off, 32))), theme)


@pytest.mark.parametrize("theme", THEMES)
def test_every_saw_that_scatters(theme):
    for set_at, spread, turn in product(lesson.SET_AT, lesson.SCATTERS[::3], lesson.TURNS):
        legible(lesson.draw_scatter({"set_at": set_at, "scatter": spread, "turn": turn}, View(theme, prediction=Fraction(50))), theme, most=8)


@pytest.mark.parametrize("theme", THEMES)
def test_every_batch(theme):
    for count, kerf in product(lesson.COUNTS.values(), lesson.KERFS):
        values = {"blank": Fraction(63, 16), "asked": 4, "count": count, "kerf": kerf}
        legible(lesson.draw_batch(values, View(theme)), theme)
        for off in (-9, -1, 0, 1, 9):
            legible(lesson.draw_batch(values, View(theme, prediction=Fraction(15 + off))), theme)


@pytest.mark.parametrize("theme", THEMES)
def test_every_blade(theme):
    for gauge, out in product(lesson.GAUGES, lesson.SETS):
        legible(lesson.draw_blade({"gauge": gauge, "set": out}, View(theme)), theme)
        legible(lesson.draw_blade({"gauge": gauge, "set": out}, View(theme, prediction=gauge + out)), theme)
    for per_inch, thickness in product(lesson.BLADES.values(), lesson.THICKNESSES.values()):
        legible(lesson.draw_teeth({"per_inch": per_inch, "thickness": thickness}, View(theme)), theme)


@pytest.mark.parametrize("theme", THEMES)
def test_the_test_cut(theme):
    legible(lesson.measured_kerf().draw(0), theme)
    assert ask.test_cut(ask.TEST).answer_text not in lesson.measured_kerf().draw(0).sentence


@pytest.mark.parametrize("theme", THEMES)
def test_every_slip_is_drawn(theme):
    for id_, (kerf, allowance) in product(ask._SAID, ask.SHOPS):
        legible(lesson._made(ask.Slip(ask.Cut(Fraction(19, 4), kerf, allowance), id_)), theme)


@pytest.mark.parametrize("name", PICTURES)
def test_the_answer_is_in_no_word_of_the_picture_before_the_prediction(name):
    live = PICTURES[name]()
    words = told(live.sheet)
    assert "not shown yet" in words
    question = live.ask.question
    assert question.answer_text not in words
    if name != "scatter":
        assert f"{float(question.answer):.3f}" not in words
    if name in ("beside_the_line", "blank"):  # nor seen: the band is not drawn
        assert not any(getattr(item, "kind", "") == "cut" for item in live.sheet.items)


def test_formulas_with_any_numbers():
    card = lesson.formula()
    move_all(card)
    for name, value in {"L": "4 3/4", "e_s": "1/32", "n_e": "2", "k": "1/16", "n_p": "3"}.items():
        card.controls[name].entry.value = value
    assert "The blank is 4 13/16 (4.813)" in card.words.value and "mark 3 of a batch stands at 14 9/16 (14.563)" in card.words.value


def test_growth_with_any_numbers():
    """23.6 millionths a kelvin (6061, Aluminum Association typical value), by hand: 17.25 in. by 40 K."""
    card = lesson.heat()
    assert f"{23.6e-6 * 17.25 * 40:.3f} longer warm than cold" in card.words.value
    move_all(card)


def test_no_prompt_tells_the_answer_of_the_one_before():
    for group in (lesson.all_steps(), lesson.recall()):
        asked = [one.question for one in group.children]
        for before, after in zip(asked, asked[1:], strict=False):
            assert before.answer_text.split(" (")[0] not in after.prompt


# --- against something outside ----------------------------------------------------------------------------
@pytest.mark.parametrize("kerf", lesson.KERFS)
def test_what_the_saw_leaves_is_what_is_left_of_the_stick(kerf):
    """shapely: the stick as a strip, the blade's band taken off it."""
    line, e = Fraction(19, 4), Fraction(1, 32)
    stick = box(0, 0, 10, 1)
    near = {OUTSIDE: float(line + e), ALONG: float(line), SPLIT: float(line - kerf / 2), KEEP: float(line - kerf)}
    for way in WAYS:
        left = stick.difference(box(near[way], -1, near[way] + float(kerf), 2))
        piece = min(left.geoms, key=lambda piece: piece.bounds[0])
        cut = SawLine(line, kerf, e)
        assert float(cut.length(way)) == pytest.approx(piece.bounds[2], abs=1e-12)
        for wander in lesson.WANDERS:  # a strip moved to the worst side, does it touch the finished part?
            part, band = box(0, 0, float(line), 1), box(near[way] - float(wander), -1, near[way] - float(wander) + float(kerf), 2)
            assert crosses(cut, way, wander) == (part.intersection(band).area > 1e-12)


@pytest.mark.parametrize(("count", "kerf"), list(product((2, 3, 4), lesson.KERFS)))
def test_batches_on_the_stick(count, kerf):
    """The same strip, cut at the marks that the picture shows: every piece is as long as the figure under it says."""
    blank = Fraction(63, 16)
    sheet = lesson.draw_batch({"blank": blank, "asked": 4, "count": count, "kerf": kerf}, View())
    chained = [float(blank) * n for n in range(1, count)]
    bands = [box(x - float(kerf) / 2, -1, x + float(kerf) / 2, 2) for x in chained]
    left = box(0, 0, float(blank) * count, 1).difference(unary_union(bands))
    said = [sum(Fraction(word) for word in text.split()) for text in re.search(r"come out (.*?) long", sheet.sentence)[1].split(", ")]
    pieces = [piece.bounds[2] - piece.bounds[0] for piece in left.geoms]
    assert [float(length) for length in said] == pytest.approx(pieces)
    under = sorted((item.x, item.text) for item in sheet.items if isinstance(item, Label) and item.y == pytest.approx(64 - 6.3))
    assert [float(sum(Fraction(word) for word in text.split())) for _, text in under] == pytest.approx(pieces)
    marks = [sum(Fraction(word) for word in text.split()) for text in re.search(r"stand at (.*?), and all", sheet.sentence)[1].split(", ")]
    bands = [box(float(x), -1, float(x + kerf), 2) for x in marks]
    left = box(0, 0, float(marks[-1] + kerf), 1).difference(unary_union(bands))
    assert [piece.bounds[2] - piece.bounds[0] for piece in left.geoms] == pytest.approx([float(blank)] * count)


def test_the_answers_on_strips_of_metal():
    """The right answers of the questions, cut out of strips with shapely or measured by hand."""
    cut, answers = ask._CUT, {name: float(make().answer) for name, make in ask.QUESTIONS.items() if hasattr(make(), "tolerance")}
    band = box(float(cut.length), -1, float(cut.length + cut.kerf), 2)
    split = box(0, 0, 9, 1).difference(translate(band, -float(cut.kerf) / 2))
    assert answers["splits"] == pytest.approx(min(piece.bounds[2] for piece in split.geoms))
    assert answers["blank"] == pytest.approx(4.75 + 2 * 0.0625)
    assert answers["blank-one-end"] == pytest.approx(4.75 + 0.046875)
    assert answers["kerf_of_blade"] == pytest.approx(0.059) and answers["test_cut"] == pytest.approx(0.066)
    assert answers["batch_mark"] == pytest.approx(4 * 3.9375 + 3 * 0.0625) and answers["middle_piece"] == pytest.approx(3.875)
    leg = rotate(box(-9, -1 / 16, 9, 1 / 16), 45)
    assert answers["metal_heel_up"] == pytest.approx(leg.intersection(LineString([(0, -9), (0, 9)])).length)
    assert answers["cold_length"] == pytest.approx(17.25 * (1 - 23.6e-6 * 40), abs=1e-6)


@pytest.mark.parametrize(("gauge", "out"), list(product(lesson.GAUGES[::3], lesson.SETS[1::4])))
def test_the_slot_is_as_wide_as_the_teeth_stand(gauge, out):
    """The slot's walls lie where the drawn teeth reach farthest, and the figure says so."""
    sheet = lesson.draw_blade({"gauge": gauge, "set": out}, View())
    walls = sorted(item.x1 for item in sheet.items if isinstance(item, Line) and item.kind == "outline" and item.x1 == item.x2)
    tips = [x for item in sheet.items if isinstance(item, Polyline) and item.closed and item.fill == "paper" for x, y in item.points if y == 16.0]
    assert (walls[0], walls[-1]) == (pytest.approx(min(tips)), pytest.approx(max(tips)))
    assert f"kerf {(walls[-1] - walls[0]) / UNIT:.3f}" in [item.text for item in sheet.items if isinstance(item, Label)]


def test_the_worked_scatter_is_the_published_rule():
    """GUM 5.1.2 and 4.3.7: the contributions of the stack as printed, 0.0045, 0.0058, 0.0002, 0.0087; U 0.023."""
    text = repr(lesson.budget())
    for printed in ("0.0045", "0.0058", "0.0002", "0.0087", "u = 0.011", "0.023"):
        assert printed in text
    by_hand = (0.0045**2 + 0.0058**2 + 0.0002**2 + 0.0087**2) ** 0.5
    assert lesson.sawn_end().standard == pytest.approx(by_hand, abs=1e-4)
    assert ask.SAW.position == pytest.approx(by_hand, abs=5e-4)


@pytest.mark.parametrize("allowance", [0, 1 / 64, 1 / 32])
def test_the_hundred_cuts_are_near_what_thrown_cuts_do(allowance):
    rng = Random("lesson 05")
    turn = 0.00349  # a fifth of a degree as a slope
    over = 0
    for _ in range(40_000):
        middle, slope = allowance + rng.gauss(0, 0.011), rng.gauss(0, turn)
        over += min(middle - 0.625 * slope, middle + 0.625 * slope) < 0
    drawn = scatter.crossing(ask.SAW, Fraction(allowance))
    assert drawn == pytest.approx(over / 400, abs=1.5)
    assert 100 * ask.SAW.risk(allowance) == pytest.approx(over / 400, abs=1)
    sheet = scatter.scatter_sheet(ask.SAW, Fraction(allowance))
    low = [i for i in sheet.items if isinstance(i, Line) and i.kind == "narrow" and min(i.y1, i.y2) < scatter.LINE]
    assert len(low) == pytest.approx(drawn, abs=1)  # the cuts that are seen to cross are those that are counted


# --- the questions ----------------------------------------------------------------------------------------


def test_the_mistakes_of_this_lesson_are_all_named():
    assert {"M01", "M02", "M03", "M04", "M05", "M06", "M13", "M25"} <= named(ask)


def test_no_two_slips_look_alike_in_any_shop():
    for kerf, allowance in ask.SHOPS[:1] + ask.SHOPS[3:]:
        offs = [ask.Slip(ask.Cut(Fraction(5), kerf, allowance), id_).off for id_ in ask._SAID if id_ != "M13"]
        assert len(set(offs)) == len(offs) and min(abs(a - b) for a in offs for b in offs if a != b) >= Fraction(1, 128)


def test_a_question_answers_a_slip_when_it_is_made_here():
    """A choice with the right answer among the wrong ones is refused: the guard that these tests lean on."""
    with pytest.raises(ValueError, match="wrong answer must be one of the other"):
        ChoiceQuestion("x", "Which?", ("a", "b"), "a", wrong=(ask.WrongAnswer("slip", "a", "No."),))


# --- the notebook ---------------------------------------------------------------------------------------


def test_numbers_of_the_prose():
    text = Page.of(lesson).prose
    assert "With 1/64 one in ten goes over, with 1/32 four in a thousand" in text
    assert ask.SAW.risk(1 / 64) == pytest.approx(0.1, abs=0.01) and ask.SAW.risk(1 / 32) == pytest.approx(0.004, abs=0.0005)
    assert "1.41 times" in text and 2**0.5 == pytest.approx(1.41, abs=0.005)
    assert "a sixteenth of an inch" in text and lesson._line().kerf == Fraction(1, 16)
    assert "23.6 millionths" in text and "23.6 millionths" in ask.QUESTIONS["cold_length"]().prompt
