"""How far a taper may go, its run or its angle kept: the cut leg drawn by shapely, its edges measured, and the limit found by halving."""

from __future__ import annotations

from fractions import Fraction as F
from math import radians, tan
from random import Random

import pytest
from scipy.optimize import brentq
from shapely import LineString, Point, Polygon

from anglelib.errors import PartError
from anglelib.geometry.taper import TaperLine
from anglelib.geometry.taper_limits import largest_angle, largest_run_at_angle
from anglelib.part import Hole, Part, Taper
from anglelib.section import Section

STOCK = Section("1 1/2", "1 1/4", "1/8", "3/16", fillet="3/16")


def made(taper: Taper, *holes: Hole) -> tuple[Part, TaperLine]:
    return Part("P1", "Trial", STOCK, "6061-T6", 12, [taper], holes), TaperLine.of(STOCK, taper)


def to_the_taper(hole: Hole, run: float, angle: float, end: int = 1) -> float:
    """From the hole's centre to the tapered edge of leg A, or on leg B to where the taper's cut leaves the inner face."""
    width = float(STOCK.leg_a)
    left = width - run * tan(radians(angle))
    x = float(hole.x if end == 1 else 12 - hole.x)
    cut = LineString([(0, left), (run, width)])
    if hole.leg == "A":
        waste = Polygon([(0, left), (run, width), (0, width)])
        return -1.0 if waste.contains(Point(x, hole.y)) else cut.distance(Point(x, float(hole.y)))
    meets = cut.intersection(LineString([(-1, float(STOCK.thickness_b)), (99, float(STOCK.thickness_b))]))
    return x - meets.x if not meets.is_empty else x


def holes(rng: Random):
    """A hole of either leg that keeps its distance to the toe and to the end: only the taper can take it."""
    diameter = F(rng.randint(6, 14), 64)
    leg = rng.choice("AAB")
    low, high = int(2 * diameter * 64) + 1, int((STOCK.leg(leg) - 2 * diameter) * 64) - 1
    return Hole(leg, F(rng.randint(low, 5 * 64), 64), F(rng.randint(min(20, high), high), 64), diameter)


@pytest.mark.parametrize("end", [1, 2])
def test_the_largest_angle_of_a_run(end):
    limited = 0
    for seed in range(150):
        rng = Random(f"angle of a run {seed} {end}")
        hole = holes(rng)
        hole = hole if end == 1 else Hole(hole.leg, 12 - hole.x, hole.y, hole.diameter)
        run, reach = F(rng.randint(8, 320), 64), float(2 * hole.diameter)
        part, line = made(Taper("A", end, "1 1/4", run=run), hole)
        vertex = TaperLine.of(STOCK, Taper("A", end, run=run)).angle

        def kept(angle: float, hole=hole, run=run, reach=reach) -> float:
            return to_the_taper(hole, float(run), angle, end) - reach

        found = largest_angle(part, line)
        if kept(vertex) >= 0:
            assert found is None, (seed, part)
            continue
        if kept(1e-9) < 0:  # the mark on the toe lies too near already
            raise AssertionError(f"no angle at all: {part}")
        limited += 1
        assert found is not None and kept(found - 1e-6) > 0 > kept(found + 1e-6), (seed, part)
        if hole.leg == "A":
            assert found == pytest.approx(brentq(kept, 1e-9, vertex, xtol=1e-12), abs=1e-7)
    assert limited > 30


@pytest.mark.parametrize("end", [1, 2])
def test_the_largest_run_at_an_angle(end):
    limited = 0
    for seed in range(150):
        rng = Random(f"run at an angle {seed} {end}")
        hole = holes(rng)
        hole = hole if end == 1 else Hole(hole.leg, 12 - hole.x, hole.y, hole.diameter)
        angle, reach = F(rng.randint(600, 7500), 100), float(2 * hole.diameter)
        part, line = made(Taper("A", end, "1 1/4", angle=angle), hole)
        vertex = float(STOCK.leg_a) / tan(radians(angle))

        def kept(run: float, hole=hole, angle=float(angle), reach=reach) -> float:
            return to_the_taper(hole, run, angle, end) - reach

        found = largest_run_at_angle(part, line)
        if kept(vertex) >= 0:
            assert found is None, (seed, part)
            continue
        limited += 1
        assert found is not None and kept(found - 1e-6) > 0 > kept(found + 1e-6), (seed, part)
    assert limited > 30


def test_the_hole_that_decides_is_the_nearest():
    near, far = Hole("A", 1, "1/2", "1/8"), Hole("A", 4, "1/2", "1/8")
    both, line = made(Taper("A", 1, "3/4", run=2), near, far)
    one, _ = made(Taper("A", 1, "3/4", run=2), near)
    assert largest_angle(both, line) == largest_angle(one, line) and largest_run_at_angle(both, line) == largest_run_at_angle(one, line)
    none, _ = made(Taper("A", 1, "3/4", run=2))
    assert largest_angle(none, line) is None and largest_run_at_angle(none, line) is None


def test_a_hole_of_the_other_leg_too_near_to_the_end_bars_the_bevel_alone():
    """No cut may then reach leg B's inner face: its thickness is left on leg A."""
    part, line = made(Taper("A", 1, "3/8", run=2), Hole("B", "1/8", "3/4", "1/8"))
    assert 2 * tan(radians(largest_angle(part, line))) == pytest.approx(1.5 - 3 / 16)
    slope = float(line.slope)
    assert 1.5 - largest_run_at_angle(part, line) / slope == pytest.approx(3 / 16)


def test_a_steep_taper_is_barred_by_a_hole_of_the_other_leg_too():
    """Its mark on the toe is 1 from the end, and the bevel may come to 5/16 - 1/4: a line from there, 3/16 up, to the toe at 1 1/2, steeper than 45 degrees."""
    part, line = made(Taper("A", 1, "3/4", run=1), Hole("B", "5/16", "3/4", "1/8"))
    assert tan(radians(largest_angle(part, line))) == pytest.approx((1.5 - 3 / 16) / (1 - 1 / 16))
    free, line = made(Taper("A", 1, "3/4", run="1/2"), Hole("B", "13/16", "3/4", "1/8"))
    assert largest_angle(free, line) is None  # the mark lies before all that the hole bars


@pytest.mark.parametrize(
    "taper, hole, match",
    [
        (Taper("A", 1, "3/8", run=2), Hole("A", 2, "1 3/8", "1/8"), "mark on the toe: no angle keeps its edge. Shorten the run, or move"),
        (Taper("A", 1, "3/8", run=2), Hole("A", 1, "1 3/8", "1/8"), "to the toe before the taper: no angle keeps its edge. Move the hole"),
    ],
)
def test_holes_that_no_angle_keeps(taper, hole, match):
    part, line = made(taper, hole)
    with pytest.raises(PartError, match=match):
        largest_angle(part, line)


def test_a_hole_that_no_run_keeps():
    part, line = made(Taper("A", 1, "3/8", angle=20), Hole("A", "1/8", "1 7/16", "1/8"))
    with pytest.raises(PartError, match="leaves no room for a taper at 20.0 degrees: move the hole away"):
        largest_run_at_angle(part, line)
