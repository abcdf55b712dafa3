"""Dimensions: their lines end where they say, their figures keep apart."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from matplotlib.font_manager import FontProperties
from matplotlib.textpath import TextPath

from anglelib.drawing.checks import bounds, overlaps
from anglelib.drawing.dimensions import (
    Stop,
    angle_dimension,
    arrow,
    leader,
    linear_dimension,
    running_dimensions,
    spread,
)
from anglelib.drawing.sheet import Label, Line, Polyline, Sheet
from anglelib.drawing.symbols import check_bar, datum_sign, hole, kerf_band, third_angle


def tips(items):
    return [item.points[0] for item in items if isinstance(item, Polyline) and item.closed and len(item.points) == 3]


def texts(items):
    return [item.text for item in items if isinstance(item, Label)]


@given(st.lists(st.floats(0, 200), min_size=1, max_size=12), st.floats(1, 9))
def test_spread_keeps_order_and_gaps_and_moves_no_more_than_it_must(places, gap):
    places = sorted(places)
    apart = spread(places, [gap] * (len(places) - 1), -1e9, 1e9)
    assert all(b - a >= gap - 1e-6 for a, b in zip(apart, apart[1:]))
    if all(b - a >= gap for a, b in zip(places, places[1:])):
        assert apart == pytest.approx(places)
    # least squares: shifting the whole row cannot help, so the mean is kept
    assert math.fsum(apart) == pytest.approx(math.fsum(places), abs=1e-6)


def test_spread_stays_on_the_sheet():
    assert spread([1, 2], [6], 5, 100) == [5, 11]
    assert spread([98, 99], [6], 0, 100) == [94, 100]


@pytest.mark.parametrize("length", [1.0, 4.0, 9.0, 20.0, 80.0])
@pytest.mark.parametrize("along", ["x", "y", "line"])
def test_the_arrows_of_a_linear_dimension_stand_on_what_it_measures(length, along):
    q = {"x": (20 + length, 35), "y": (33, 20 + length), "line": (20 + 0.6 * length, 20 + 0.8 * length)}[along]
    items = linear_dimension((20, 20), q, {"x": 60, "y": 70, "line": 8}[along], "1 5/8 (1.625)", along)
    first, second = tips(items)
    assert math.dist(first, second) == pytest.approx(length)
    assert texts(items) == ["1 5/8 (1.625)"]


@pytest.mark.parametrize("text", ["3", "kerf 1/16", "1 5/8 (1.625)", "gap, 3/64"])
def test_figures_stand_clear_of_the_arrows_below_them(text):
    """The ink of the letters as the font has them (matplotlib's outlines of DejaVu Sans), not as the drawing counts on."""
    letter = 3.5
    items = linear_dimension((20, 20), (80, 20), 40, text, letter=letter)
    label = next(item for item in items if isinstance(item, Label))
    font = FontProperties(family="DejaVu Sans")
    capital = TextPath((0, 0), "H", size=100, prop=font).get_extents().height
    hangs = TextPath((0, 0), text, size=100 * letter / capital, prop=font).get_extents().y0
    arrows = max(y for item in items if isinstance(item, Polyline) for _, y in item.points)
    assert label.base == "bottom" and label.y + hangs > arrows + 0.3


def test_running_dimensions_all_start_at_the_datum():
    stops = [Stop(50, 20, "a"), Stop(90, 20, "b (1.0)"), Stop(52, 20, "c")]
    items = running_dimensions(10, stops, 30)
    assert sorted(x for x, y in tips(items)) == [50, 90]  # 52 is too near 50 for an arrow: a dot
    long = max((i for i in items if isinstance(i, Line) and i.y1 == i.y2 == 30), key=lambda i: i.x2)
    assert long.x2 == 90 and long.x1 < 12
    assert texts(items).count("(1.0)") == 1 and "b" in texts(items)


@settings(max_examples=60)
@given(
    st.lists(st.integers(1, 300), min_size=1, max_size=14, unique=True),
    st.sampled_from([(30, "x"), (-20, "x"), (40, "y"), (-40, "y")]),
)
def test_the_figures_of_a_running_dimension_never_collide(places, way):
    at, along = way
    stops = [Stop(40 + n / 2, 10 if at > 0 else 0, f"{n}/64 ({n / 64:.4f})") for n in places]
    items = running_dimensions(40, stops, at, along)
    assert overlaps(Sheet(1000, 1000, items, "t", "s")) == []
    shown = "".join(texts(items))
    assert all(f"{n}/64" in shown for n in places)


def test_an_angle_is_measured_between_its_arrows():
    items = angle_dimension((10, 10), 30, 0, 26.57, "26.6°")
    angles = [math.degrees(math.atan2(y - 10, x - 10)) for x, y in tips(items)]
    assert angles == pytest.approx([0, 26.57])
    narrow = angle_dimension((10, 10), 30, 0, 3, "3°", beside="end")
    arc = narrow[0]
    assert arc.start < 0 and arc.end > 3  # the arrows stand outside


def test_an_arrow_points_where_it_should():
    tip, one, two = arrow(5, 5, 90).points
    assert tip == (5, 5) and one[1] < 5 and two[1] < 5 and one[0] == pytest.approx(10 - two[0])


def test_leader_reads_away_from_its_tip():
    assert leader((0, 0), (10, 10), "heel")[-1].anchor == "start"
    assert leader((0, 0), (-10, 10), "heel")[-1].anchor == "end"


def test_symbols_are_where_they_are_put():
    left, low, right, high = bounds(check_bar(20, 10))
    assert (left, low) == (20, 10) and right == pytest.approx(121.6) and high < 24
    assert bounds(datum_sign(50, 20))[2] == 50
    left, low, right, high = bounds(third_angle(50, 20))
    assert (left + right) / 2 == pytest.approx(50, abs=1.5) and right - left < 25
    assert bounds(kerf_band((0, 0), (0, 10), 1.6, 1))[:3] == pytest.approx((-1.6, 0, 0))
    assert len(hole(5, 5, 2)) == 3
