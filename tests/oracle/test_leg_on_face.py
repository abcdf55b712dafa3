"""A leg's shape at a height and at a place, against lines laid through its face as shapely cuts it."""

from __future__ import annotations

from math import sqrt
from random import Random

import cutters
import oracle_parts
import pytest
import solids
from shapely import LineString, Point, Polygon

from anglelib.geometry.along import _pieces
from anglelib.geometry.leg_shape import LegShape, blunted, edge_loss, edges_at, joined, root
from anglelib.geometry.strips import crossings
from anglelib.part import Cope, Corner, Hole, Part, Taper
from anglelib.section import Section

FINE, NEAR = 600, 2e-5
"""Chords to an arc, and how far a leg of 3 in. with such arcs may be off."""


def on_face(part: Part, leg: str, rng: Random, count: int = 12) -> None:
    face, shape = cutters.face_outline(part, leg, solids.ON, FINE), LegShape.of(part, leg)
    if face.is_empty or not isinstance(face, Polygon):
        return
    x0, y0, x1, y1 = face.bounds
    for _ in range(count):
        y = rng.uniform(y0, y1)
        row = face.intersection(LineString([(-99, y), (99, y)]))
        if row.length > 1e-6:
            assert (shape.start(y), shape.stop(y)) == (pytest.approx(row.bounds[0], abs=50 * NEAR), pytest.approx(row.bounds[2], abs=50 * NEAR)), (part, leg, y)
        x = rng.uniform(x0, x1)
        column = face.intersection(LineString([(x, -99), (x, 99)]))
        if column.length > 1e-6:
            assert shape.height(x) == pytest.approx(column.bounds[3], abs=50 * NEAR), (part, leg, x)


def test_random_legs():
    """Near the top of an arc a line grazes it: then only half of the digits are its place."""
    for seed in range(60):
        rng = Random(f"leg {seed}")
        part = oracle_parts.part(rng)
        for leg in "AB":
            on_face(part, leg, rng)


STOCK = Section(2, "1 1/2", "1/8", "3/16", fillet="1/4")


def made(*tapers, **features) -> Part:
    return Part("P1", "Trial", STOCK, "6061-T6", 8, tapers=tapers, **features)


def test_every_cut_at_either_end_by_hand():
    cope, arc = Cope("A", 2, 1, "3/4", "1/4"), Corner("B", 1, "1/2")
    part = made(Taper("A", 1, "1/2", run=3), copes=[cope], corners=[arc])
    a, b = LegShape.of(part, "A"), LegShape.of(part, "B")
    assert [a.start(y) for y in (0, 0.5, 1.25, 2)] == [0, 0, 1.5, 3] and [a.stop(y) for y in (0, 0.75, 1.5, 2)] == [8, 8, 7, 7]
    assert a.stop(0.875) == pytest.approx(8 - 0.75 - sqrt(1 / 16 - 1 / 64)) and a.height(7.125) == pytest.approx(1 - sqrt(1 / 16 - 1 / 64))
    assert [a.height(x) for x in (0, 1.5, 3, 5, 6.999, 7.3, 8)] == pytest.approx([0.5, 1.25, 2, 2, 2, 0.75, 0.75])
    assert b.start(1.25) == pytest.approx(0.5 - sqrt(1 / 4 - 1 / 16)) and [b.start(y) for y in (0, 1, 1.5)] == pytest.approx([0, 0, 0.5]) and b.stop(1.5) == 8
    assert b.height(0.25) == pytest.approx(1 + sqrt(1 / 4 - 1 / 16)) and b.height(0.75) == 1.5
    assert set(a.arcs) == {0.75, 1.0} and b.arcs == pytest.approx((1.0,))
    assert sorted(a.levels(1.5, 4.5)) == [1.25, 2.75]  # where the taper passes those places
    assert sorted(LegShape.of(made(Taper("A", 1, 0, run=6), Taper("A", 2, "1/2", run=3)), "A").levels())[0] == pytest.approx((8 + 1) / 5)  # 3 y from one end, 2 (y - 1/2) from the other


def test_holes_interrupt_a_leg():
    part = made(holes=[Hole("A", 3, 1, "1/2"), Hole("A", "3 3/8", 1, "1/2"), Hole("A", 6, "1 1/2", "1/4"), Hole("B", 3, 1, "1/2")])
    shape = LegShape.of(part, "A")
    assert shape.gaps(1.0) == ((2.75, 3.625),) and shape.gaps(1.5) == ((5.875, 6.125),) and shape.gaps(0.75) == () and shape.gaps(1.25) == ()
    half = sqrt(1 / 16 - 1 / 64)
    assert shape.gaps(1.125) == (pytest.approx((3 - half, 3.375 + half)),) and shape.gaps_at(3.125) == (pytest.approx((1 - half, 1 + half)),)
    assert shape.gaps_at(3.5) == (pytest.approx((1 - half, 1 + half)),) and shape.gaps_at(2.75) == shape.gaps_at(4) == ()
    assert set(shape.arcs) == {0.75, 1.0, 1.25, 1.375, 1.5, 1.625}
    for y in (0.8, 0.95, 1.1, 1.2):
        row = LineString([(0, y), (8, y)]).intersection(Point(3, 1).buffer(0.25, 2000).union(Point(3.375, 1).buffer(0.25, 2000)))
        assert sum(high - low for low, high in shape.gaps(y)) == pytest.approx(row.length, abs=1e-5)


def test_spans_that_touch_or_overlap_are_one():
    assert joined([(3, 4), (1, 2), (2, 2.5), (3.5, 3.75)]) == ((1, 2.5), (3, 4)) and joined([]) == () and joined([(1, 2), (2.0001, 3)]) == ((1, 2), (2.0001, 3))


@pytest.mark.parametrize(
    ("low", "high", "gaps", "left"),
    [
        (0, 4, [], [(0, 4)]), (0, 4, [(1, 2)], [(0, 1), (2, 4)]), (0, 4, [(4, 5)], [(0, 4)]), (0, 4, [(3, 5)], [(0, 3)]), (0, 4, [(-1, 1)], [(1, 4)]), (0, 4, [(-1, 0)], [(0, 4)]),
        (0, 4, [(0, 1), (2, 3)], [(1, 2), (3, 4)]), (0, 4, [(-1, 5)], []), (2, 2, [], []), (3, 2, [], []), (0, 4, [(5, 6)], [(0, 4)]), (0, 4, [(3, 4)], [(0, 3)]), (2, 4, [(0, 1), (3, 3.5)], [(2, 3), (3.5, 4)]),
    ],
)  # fmt: skip
def test_what_gaps_leave_of_a_strip(low, high, gaps, left):
    """A hole whose rim only touches the strip's end takes nothing of it, and leaves nothing of it twice."""
    assert _pieces(low, high, gaps) == left


def test_a_feather_edge_is_broken_or_blunted():
    """Run to height 3 : 2: broken by 1/64 the part is 3/128 shorter, blunted to 1/16 3/32; where two edges are, the longer loss."""
    plain, blunt = Taper("A", 1, run=3), Taper("A", 1, run=3, blunt="1/16")
    assert (blunted(made(plain), 1), edge_loss(made(plain), 1)) == (0, 3 / 128) and (blunted(made(blunt), 1), edge_loss(made(blunt), 1)) == (3 / 32, 3 / 32)
    assert edge_loss(made(plain), 2) == edge_loss(made(Taper("A", 1, "1/64", run=3)), 1) == 0 and edges_at(made(Taper("A", 1, "1/64", run=3)), 1) == []
    both = made(blunt, Taper("B", 1, run=6, blunt="1/32"))
    assert blunted(both, 1) == 1 / 8 and len(edges_at(both, 1)) == 2
    dressed = LegShape.of(made(blunt), "B")
    assert (dressed.start(0), dressed.stop(0), dressed.height(0.09), dressed.height(0.1)) == (3 / 32, 8, 0, 1.5)
    other = LegShape.of(made(Taper("A", 2, run=3, blunt="1/16")), "B")
    assert (other.start(0), other.stop(0), other.height(7.95), other.height(7.9)) == (0, 8 - 3 / 32, 0, 1.5)


ROUND = Section("1 1/2", "1 1/4", "1/8", "3/16", fillet="1/4", toe_radius="1/16", heel_radius="3/32")


@pytest.mark.parametrize(("z", "arcs"), [(1.22, 1), (1.19, 1), (1.1, 0), (0.37, 1), (0.2, 1), (0.13, 1), (0.1, 1), (0.07, 2), (0.05, 1), (0.01, 1), (0.0, 1)])
def test_where_the_outline_s_arcs_pass_a_height_of_leg_b(z, arcs):
    """Toe B from 1 3/16 up, the fillet from 1/8 to 3/8, toe A from 1/16 to 1/8, the heel below 3/32: each place lies on the outline, where it bends."""
    ring = Polygon(solids.outline(ROUND, solids.ON, 4000)).exterior
    found = crossings(ROUND, z)
    assert len(found) == arcs
    for y in found:
        assert ring.distance(Point(y, z)) < 1e-5
        assert 0 < y < 1.5 and (y < 3 / 32 + 1e-9 or 1 / 8 <= y <= 7 / 16 or y >= 1.5 - 1 / 16)
    assert crossings(Section(1, 1, "1/16"), z) == ()


def test_where_a_leg_comes_clear_of_the_other():
    """1/4 of fillet on the other leg's thickness: 3/16 for leg A, 1/8 for leg B."""
    assert (root(made(), "A"), root(made(), "B")) == (7 / 16, 3 / 8)
