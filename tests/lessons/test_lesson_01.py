"""Lesson 01, without a kernel: every control moved over its range in both themes, every answer graded, its numbers against others."""

from fractions import Fraction as F
from itertools import product
from math import cos, pi, radians, sin, sqrt

import pytest
from lesson_checks import EVERY, THEMES, Page, hides, legible, move_all, named, some

from anglelib.drawing.checks import overlaps, struck
from anglelib.drawing.look_alikes import look_alikes_sheet
from anglelib.drawing.radius_gauge import gap, radius_gauge_sheet
from anglelib.drawing.sheet import Label
from anglelib.drawing.stick_ends import stick_ends_sheet
from anglelib.geometry.weighing import Weighing
from anglelib.lessons import identify_stock as lesson
from anglelib.lessons.demo import demo_rack
from anglelib.lessons.live import View
from anglelib.questions import identify_stock as ask
from anglelib.section import Section

PICTURES = {"trap": lesson.trap, "caliper": lesson.caliper, "gauge": lesson.gauge, "scale": lesson.scale}


# --- every control, both themes ---------------------------------------------------------------------------
@pytest.mark.parametrize("theme", THEMES)
@pytest.mark.parametrize("revealed", [False, True])
def test_the_trap(theme, revealed):
    for fillet, toe, mark in product(lesson.FILLETS.values(), lesson.TOES.values(), lesson.PRINTED):
        legible(lesson.draw_trap({"fillet": fillet, "toe": toe, "mark": mark}, View(theme, revealed)), theme)


@EVERY
@pytest.mark.parametrize("theme", THEMES)
def test_the_caliper(theme, every):
    for section, on, kind, off in product(lesson.STOCK.values(), lesson.ON, lesson.KINDS, (-8, -3, 0, 1, 8) if every else (-8, 1, 8)):
        values = {"section": section, "on": on, "kind": kind, "off": off}
        legible(lesson.draw_caliper(values, View(theme, True, F(3, 4))), theme)
        legible(lesson.draw_caliper(values, View(theme, False)), theme)


@pytest.mark.parametrize("theme", THEMES)
def test_the_gauge(theme):
    for section, gauge, fillet in product((ask.PLAIN, lesson.STOCK["thick"]), lesson.GAUGES.values(), lesson.FILLETS.values()):
        for revealed in (False, True):
            legible(lesson.draw_gauge({"section": section, "gauge": gauge, "fillet": fillet}, View(theme, revealed)), theme)


@EVERY
@pytest.mark.parametrize("theme", THEMES)
def test_the_scale(theme, every):
    for thick, scale, tenths in product(lesson.THICKNESS_ERRORS.values(), lesson.SCALE_ERRORS.values(), some((900, 925, 954, 990), every, 2)):
        values = {**lesson._piece(), "thick": thick, "scale": scale, "tenths": tenths}
        for revealed in (False, True):
            legible(lesson.draw_weights(values, View(theme, revealed)), theme)


@pytest.mark.parametrize("theme", THEMES)
def test_pictures_of_the_exercises(theme, monkeypatch):
    monkeypatch.setattr(lesson.ROOM, "theme", theme)
    legible(stick_ends_sheet(ask.SAMPLES, few=lesson._few()), theme)
    for name, series in ask.EXERCISES.items():
        if name != "weight":
            draw = lesson._asked_stock if name == "section" else lesson._asked_reading
            for number in range(6):
                legible(draw(series.thing(number)), theme)


@pytest.mark.parametrize(("name", "answers"), [
    ("trap", ("NOT TO BE USED", "architectural", "square inside")), ("caliper", ("97/128", "0.758")),
    ("gauge", ("fillet", "smaller", "light")), ("scale", ("cannot", "can be", "93.8")),
])  # fmt: skip
def test_the_answer_is_in_no_word_of_the_picture_before_the_prediction(name, answers):
    hides(PICTURES[name](), *answers)


# --- every question ---------------------------------------------------------------------------------------
def test_the_mistakes_of_this_lesson_are_named():
    assert {ask.MISREAD, ask.FROM_INSIDE, ask.SECTION, ask.ALLOY} <= named(ask)


def test_the_sticks_of_the_question_are_those_of_the_rack():
    rack = {stick.id: stick for stick in demo_rack().sticks}
    for stick in ask.SAMPLES:
        kept = rack[stick.id]
        assert (stick.section, stick.alloy, stick.length) == (kept.section, kept.alloy, kept.length)


# --- one metal, two instruments ----------------------------------------------------------------------------
def test_a_vernier_and_a_dial_read_one_metal_alike():
    """Each to half of its finest step: 1/256 by the vernier, half a thousandth by the dial. Only the instrument changes the reading."""
    for section, (on, (leg, wide)), off in product(lesson.STOCK.values(), lesson.MEASURES.items(), range(-8, 9)):
        metal = (section.leg(leg) if wide else section.thickness(leg)) + F(off, 128)
        read = {kind: lesson.reading({"section": section, "on": on, "kind": kind, "off": off}).read for kind in lesson.KINDS}
        assert abs(read["fraction"] - metal) <= F(1, 256) and abs(read["decimal"] - metal) <= F(1, 2000), (on, off, read)


def test_the_picture_s_two_calipers_say_one_number():
    picture = lesson.caliper()
    picture.ask.entry.value = "97/128"
    picture.ask.check.click()
    told = []
    for kind in lesson.KINDS:
        picture.controls["kind"].value = kind
        told.append(picture.sheet.sentence)
    assert "It reads 97/128 (0.758)." in told[0] and "It reads 0.758." in told[1]


def test_an_off_cut_has_one_reading():
    """A tag stands for one piece of metal: in the first forty sets none has two."""
    seen = {}
    for name in ("vernier", "dial"):
        for number in range(40):
            thing = ask.EXERCISES[name].thing(number)
            assert abs(seen.setdefault(thing.on, thing.caliper.read) - thing.caliper.read) <= F(1, 256), thing.on


# --- numbers against others -------------------------------------------------------------------------------
def test_a_foot_weighs_what_a_grid_of_small_squares_weighs():
    """3/4 x 3/4 x 1/8, fillet 1/8, by counting squares of 1/2000 in. of the drawn shape."""
    n, count = 1500, 0
    fine = 1 / 2000
    for i in range(n):
        y = (i + 0.5) * fine
        for low, high in ((0.0, 0.125), (0.125, 0.25), (0.25, 0.75)):
            if low <= y < high:
                if y < 0.125:
                    count += n
                else:
                    edge = 0.125 if y >= 0.25 else 0.25 - sqrt(max(0.0, 0.125**2 - (0.25 - y) ** 2))
                    count += round(edge / fine)
    assert count * fine**2 * 12 * 0.0975 == pytest.approx(ask.PLAIN.weight_per_foot("6061"), rel=2e-4)


def test_printed_areas_agree_to_half_a_percent():
    """The rows are those of the sources named beside them (Aluminum Association, EN 10056-1); see tests/published."""
    for _, section, printed, _ in lesson.PUBLISHED:
        assert section.area == pytest.approx(printed, rel=0.005)
    assert "0.0 percent" in repr(lesson.published()) and "0.3 percent" in repr(lesson.published())


@pytest.mark.parametrize(("gauge", "fillet"), [(F(3, 16), F(1, 8)), (F(1, 4), F(0)), (F(1, 16), F(3, 16)), (F(1, 8), F(1, 4))])
def test_the_light_is_as_wide_as_a_search_says(gauge, fillet):
    """Roll the shank in from far along the diagonal until it touches something; then measure what it leaves open."""
    section = Section(2, 2, "1/8", fillet=fillet)
    r, g = float(fillet), float(gauge)
    metal = [(r + r * cos(radians(a / 20)), r + r * sin(radians(a / 20))) for a in range(3600, 5401)]
    metal += [(x / 2000 + r, 0.0) for x in range(2000)] + [(0.0, x / 2000 + r) for x in range(2000)]
    low, high = 0.0, 2.0
    for _ in range(60):
        m = (low + high) / 2
        low, high = (m, high) if min((m - x) ** 2 + (m - y) ** 2 for x, y in metal) < g * g else (low, m)
    c = low
    if gauge > fillet:
        found = min(sqrt((c - x) ** 2 + (c - y) ** 2) for x, y in metal if abs(x - y) < 2e-3) - g if r else c * sqrt(2) - g
    else:
        found = c - g  # over the face, under the shank's middle
    assert gap(section, gauge) == pytest.approx(found, abs=2e-3)


def test_what_the_scale_parts_is_what_worst_cases_say():
    """Independently: every error at either end, all sixteen corners of the box, by hand-made areas."""

    def grams(t, length, density):
        return (0.75 * t + (0.75 - t) * t + (1 - pi / 4) / 64) * length * density * 453.59237

    spans = {}
    for alloy, density in (("6063", 0.097), ("6061", 0.0975), ("2024", 0.100), ("7075", 0.101)):
        shown = [grams(0.125 + dt, 12 + dl, density) + dg for dt, dl, dg in product((-0.001, 0.001), (-1 / 64, 1 / 64), (-0.5, 0.5))]
        spans[alloy] = (min(shown), max(shown))
    piece = Weighing(ask.PLAIN, F(12), F(1, 1000), F(1, 2))
    for alloy, span in spans.items():
        assert piece.span(alloy) == pytest.approx(span, abs=1e-6)
    assert piece.faked_by("6061", "2024") == pytest.approx(0.0036, abs=5e-5)
    assert grams(0.1286, 12, 0.0975) == pytest.approx(grams(0.125, 12, 0.100), rel=5e-4)


def test_the_worked_stick():
    text = repr(lesson.worked())
    assert "0.5349" in text and "0.626 pounds" in text and "0.652 pounds" in text
    scale = Weighing(lesson.STOCK["thick"], F(25, 2), F(1, 1000), F(2))
    assert set(scale.can_be(0.65 * 453.59237)) == {"6061", "6063"}


def test_formula_with_any_numbers():
    card = lesson.formula()
    move_all(card)
    for name, value in {"a": "2", "b": "2", "t": "1/8", "r": "1/4", "r2": "1/8"}.items():
        card.controls[name].value = F(value)
    assert "0.4911 square inches" in card.words.value  # printed: 0.491
    card.controls["r2"].value = F(1, 4)
    assert "radii need more metal" in card.words.value


# --- the notebook ---------------------------------------------------------------------------------------
def test_numbers_of_the_prose():
    text = Page.of(lesson).prose
    piece = Weighing(ask.PLAIN, F(12), F(0), F(0))
    heavier = [100 * (piece.grams(alloy) / piece.grams("6061") - 1) for alloy in ("7075", "2024", "6063")]
    assert f"They are {heavier[0]:.1f} and {heavier[1]:.1f} percent heavier" in text and abs(heavier[2]) == pytest.approx(0.5, abs=0.05)
    assert f"A stick that is {piece.faked_by('6061', '2024'):.4f} in. too thick" in text
    assert f"is {1 - pi / 4:.4f} of the square" in text


def test_the_checks_see_a_picture_gone_wrong():
    sheet = look_alikes_sheet(ask.SQUARE, ask.PLAIN)
    bad = sheet.with_items(Label(40, 60, "over the metal", 3.5), Label(40, 61, "twice", 3.5))
    assert overlaps(bad) and struck(bad)
    assert not struck(radius_gauge_sheet(ask.PLAIN, F(1, 8)))
