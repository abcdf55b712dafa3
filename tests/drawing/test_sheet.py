"""The drawing as data: hatching, moving, rounding, what a sheet refuses."""

import math
from dataclasses import fields

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LineString, MultiLineString, Polygon

from anglelib.drawing.checks import bounds
from anglelib.drawing.sheet import (
    Arc,
    Circle,
    Hatch,
    Label,
    Line,
    Polyline,
    Sheet,
    coordinate,
    hundredths,
    move,
    polygon,
    scale,
)

L_SHAPE = ((0, 0), (40, 0), (40, 5), (5, 5), (5, 30), (0, 30))


def test_inch_fractions_round_alike_whether_the_float_is_below_or_above_the_tie():
    # 1/16 in. is 1.5875 mm; sums of it land on either side of ...5 in the third place
    for n in range(1, 4000):
        exact = n * 15875  # in 1/10000 mm
        want = (exact + 50) // 100
        for value in (n * 25.4 / 16, math.fsum([25.4 / 16] * n), sum([25.4 / 16] * n)):
            assert hundredths(value) == want
    assert str(coordinate(-0.004)) == "0.0"


@pytest.mark.parametrize("angle", [0, 30, 45, 90, 135, 17.3])
def test_hatch_lines_are_those_that_a_geometry_library_clips(angle):
    """Against shapely's intersection of long parallel lines with the polygon: equal total length, none outside."""
    hatch = Hatch(L_SHAPE, angle, 1.7)
    metal = Polygon(L_SHAPE)
    lines = hatch.lines()
    assert len(lines) > 8
    c, s = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    long = []
    for step in range(-60, 61):
        x, y = -s * 1.7 * step, c * 1.7 * step
        long.append(LineString([(x - 99 * c, y - 99 * s), (x + 99 * c, y + 99 * s)]))
    inside = MultiLineString(long).intersection(metal)
    edge = metal.exterior.buffer(1e-6)
    total = math.fsum(math.hypot(l.x2 - l.x1, l.y2 - l.y1) for l in lines)
    assert total == pytest.approx(inside.difference(edge).length, rel=1e-5)
    for line in lines:
        assert LineString([(line.x1, line.y1), (line.x2, line.y2)]).difference(metal.buffer(1e-9)).length < 1e-6


def test_hatch_moves_with_its_polygon():
    moved = move([Hatch(L_SHAPE, 45, 1.7)], 3.21, -4.5)[0].lines()
    for one, two in zip(Hatch(L_SHAPE, 45, 1.7).lines(), moved, strict=True):
        assert two.x1 - one.x1 == pytest.approx(3.21) and two.y2 - one.y2 == pytest.approx(-4.5)


def test_move_and_scale_every_kind_of_item():
    group = (
        Line(1, 2, 3, 4),
        Polyline(((1, 2), (3, 4))),
        Arc(1, 2, 3, 0, 90),
        Circle(1, 2, 3),
        Label(1, 2, "toe"),
        Hatch(L_SHAPE),
    )
    moved = move(scale(group, 2), 10, 20)
    assert moved[0] == Line(12, 24, 16, 28)
    assert moved[1].points == ((12, 24), (16, 28))
    assert moved[2] == Arc(12, 24, 6, 0, 90)
    assert moved[3] == Circle(12, 24, 6)
    assert moved[4] == Label(12, 24, "toe")  # letters keep their height
    assert bounds(move(group[:4], 5, 0))[0] == pytest.approx(bounds(group[:4])[0] + 5)


SHIFTED = {"x", "y", "x1", "y1", "x2", "y2", "points", "radius"}


@pytest.mark.parametrize(
    "item",
    [
        Line(1, 2, 3, 4, "mark", True), Polyline(((1, 2), (3, 4)), "cut", True, "paper", True), Arc(1, 2, 3, 5, 90, "fold", True),
        Circle(1, 2, 3, "mark", "ink", True), Label(1, 2, "toe", 5.0, "end", "top", 30.0, True, True), Hatch(L_SHAPE, 30.0, 1.0, "cut", True),
    ],
    ids=lambda item: type(item).__name__,
)  # fmt: skip
def test_what_is_no_place_stays_as_it_is(item):
    """Also a field that somebody adds: its value here has to differ from its default."""
    (moved,) = move([item], 10, 20)
    for field in fields(item):
        if field.name not in SHIFTED:
            assert getattr(item, field.name) != field.default and getattr(moved, field.name) == getattr(item, field.name), field.name


def test_a_sheet_refuses_to_be_nameless_or_to_use_an_unknown_line():
    with pytest.raises(ValueError, match="title"):
        Sheet(10, 10, (), " ", "A sentence.")
    with pytest.raises(ValueError, match="no line kind 'thick'"):
        Sheet(10, 10, (Line(0, 0, 1, 1, "thick"),), "t", "A sentence.")


def test_items_are_frozen():
    with pytest.raises(AttributeError):
        Line(0, 0, 1, 1).x1 = 5  # type: ignore[misc]
    with pytest.raises(AttributeError):
        polygon(((0, 0), (1, 0), (0, 1))).fill = "ink"  # type: ignore[misc]


@given(st.floats(-1e6, 1e6), st.floats(-1e6, 1e6))
def test_rounding_keeps_order(one, two):
    if one <= two:
        assert hundredths(one) <= hundredths(two)
