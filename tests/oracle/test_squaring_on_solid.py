"""Ends out of square, legs that are not at 90 degrees and stock rolled at the saw, on solids of the kernel.

The plane of each cut is laid through points on the metal; lines and lengths are read off the cut solid.
"""

from __future__ import annotations

from math import cos, radians
from random import Random

import numpy as np
import oracle_parts
import pytest
import solids
from scipy.spatial.transform import Rotation
from shapely.affinity import rotate
from shapely.geometry import LineString, Polygon, box
from shapely.geometry.polygon import orient
from straightedge import between, meet, turned

from anglelib.errors import PartError
from anglelib.geometry.squaring import End, OpenLegs, RolledStock, flip_gap, twist_roll
from anglelib.geometry.taper import TaperLine
from anglelib.part import Taper
from anglelib.section import Section

LENGTH = 10.0


# --- an end out of square -------------------------------------------------------------------------------
def out_of_square(section, on_a: float, on_b: float, metal: str = solids.ON):
    """A stick whose far end leaves the heel at 10 in.; each leg's toe stands out by its angle."""
    heel = (LENGTH, 0.0, 0.0)
    # One inch up each leg the square line, turned by the error; in the plane (x, along the leg).
    xa, ya = turned((0.0, 1.0), -on_a)
    xb, zb = turned((0.0, 1.0), -on_b)
    saw = solids.Saw(heel, (LENGTH + xa, ya, 0.0), (LENGTH + xb, 0.0, zb), keep=(0.0, 0.0, 0.0))
    return saw.cut(solids.bar(section, LENGTH + 5.0, metal, 64)), saw


def toe_length(solid, y: float, z: float) -> float:
    corners = solids.vertices(solid)
    return float(corners[np.hypot(corners[:, 1] - y, corners[:, 2] - z) < 1e-9][:, 0].max())


def ends():
    for seed in range(60):
        rng = Random(f"end {seed}")
        section = oracle_parts.section(rng)
        yield section, rng.choice((-1, 1)) * rng.uniform(0.05, 12), rng.choice((-1, 1)) * rng.uniform(0.05, 12)


def test_toe_lengths_gaps_and_trim():
    for section, on_a, on_b in ends():
        end = End(on_a, on_b)
        solid, saw = out_of_square(section, on_a, on_b)
        toes = toe_length(solid, float(section.leg_a), 0.0), toe_length(solid, 0.0, float(section.leg_b))
        assert end.toe_lengths(section, LENGTH) == pytest.approx(toes, abs=1e-9)
        assert end.gaps(section) == pytest.approx([abs(toe - LENGTH) for toe in toes], abs=1e-9)
        assert End.from_gaps(section, *(toe - LENGTH for toe in toes)).slopes == pytest.approx(end.slopes)
        assert end.opposite is ((toes[0] - LENGTH) * (toes[1] - LENGTH) < 0)
        # Trim: the sawn face from its lowest corner to its highest, with the arcs once too small and once too large.
        reach = []
        for metal in (solids.LESS, solids.MORE):
            solid, saw = out_of_square(section, on_a, on_b, metal)
            sawn = solids.vertices(solid)
            sawn = sawn[saw.holds(sawn)][:, 0]
            reach.append(sawn.max() - sawn.min())
        assert reach[0] - 1e-9 <= end.trim(section) <= reach[1] + 1e-9
        assert reach[1] - reach[0] < 1e-3 * reach[1]


def test_opposite_errors_add_and_the_larger_one_alone_is_not_enough():
    """The naive trim, the larger of the two gaps, leaves metal out of square wherever the senses differ."""
    stock = Section("1 1/2", "1 1/2", "1/8")
    assert End(1, -1).trim(stock) == pytest.approx(sum(End(1, -1).gaps(stock)))
    assert max(End(1, -1).gaps(stock)) < 0.6 * End(1, -1).trim(stock)
    # Also errors of one sense need more than the larger gap: the inner toes stand out furthest.
    assert max(End(1, 1).gaps(stock)) < End(1, 1).trim(stock)


@pytest.mark.parametrize("error, length", [(0.1, 6), (-0.5, 4), (1.5, 12)])
def test_flip_test(error, length):
    """A square with a false blade: strike a line, turn the square over, strike again from the same point."""
    first = turned((length / cos(radians(error)), 0.0), 90 - error)
    again = -first[0], first[1]  # turned over
    apart = LineString([first, again]).length
    assert abs(flip_gap(length, error)) == pytest.approx(apart, rel=1e-12)
    # Taken for the error itself the gap condemns a good square: it shows the error twice.
    off = abs(meet((0, 0), first, (0, length), (1, length))[0])
    assert apart == pytest.approx(2 * off)


def test_ends_that_are_no_ends():
    for on_a, match in ((46, "give at most 45"), (float("nan"), "measure it again"), (float("inf"), "measure it again")):
        with pytest.raises(PartError, match=match):
            End(on_a, 0)


# --- legs that are not at 90 degrees ------------------------------------------------------------------------
def opened(a, b, ta, tb, opening) -> tuple[list, tuple, tuple]:
    """An L whose leg B leans out by the opening: its outline, its inside corner, the outer corner of leg B's toe."""
    leg_a, leg_b = box(0, 0, a, ta), rotate(box(0, 0, tb, b), opening, origin=(0, 0))
    crossings = leg_a.exterior.intersection(leg_b.exterior)
    corner = max((p.coords[0] for p in crossings.geoms if p.geom_type == "Point"), key=sum)
    return list(leg_a.union(leg_b).exterior.coords)[:-1], corner, turned((0.0, b), opening)


def sawn_by_fence(outline, slope: float, left: float):
    """A stick of that outline, sawn by the upright plane whose line on the table rises one inch in ``slope``."""
    ring = list(orient(Polygon(outline)).exterior.coords)[:-1]
    saw = solids.Saw((0, left, 0), (slope, left + 1, 0), (0, left, 1), keep=(1e3, 0, 0))
    return saw.cut(solids.prism(ring, -20, 20))


def start(solid, point) -> float:
    return solids.starts_at(solid, 0.0, 1, *point)


@pytest.mark.parametrize("opening", [2.0, 0.5, -1.5, -2.0])
@pytest.mark.parametrize("angle", [45, 20, 10])
@pytest.mark.parametrize("left", [0.0, 0.05])
def test_open_legs(opening, angle, left):
    a, b, ta, tb = 1.5, 1.25, 0.125, 0.1875
    slope = 1 / np.tan(radians(angle))
    outline, corner, toe_b = opened(a, b, ta, tb, opening)
    solid = sawn_by_fence(outline, slope, left)
    legs = OpenLegs.of(opening, ta, tb, slope, left)
    assert legs.inside_corner == pytest.approx(corner[0], abs=1e-9)
    assert legs.vertex_projection == pytest.approx(start(solid, corner), abs=1e-9)
    # The line on leg B's outer face, from the heel to the toe.
    line = (start(solid, toe_b) - start(solid, (0.0, 0.0)), b)
    out = between(line, (0, 1)) * np.sign(line[0])
    assert legs.other_leg_out == pytest.approx(out, abs=1e-7)
    # Naive: taking the legs for square puts the mark elsewhere.
    naive = float(TaperLine.of(Section("3/2", "5/4", "1/8", "3/16"), Taper("A", 1, angle=angle)).vertex_projection) - left * slope
    assert abs(naive - legs.vertex_projection) > 1e-3 * abs(opening)


def test_two_degrees_of_angularity_at_ten_degrees():
    """Worked: legs at 92, a taper of 10 degrees: leg B's line is 11.2 degrees out of square, the mark at 0.6846."""
    outline, corner, toe_b = opened(1.5, 1.5, 0.125, 0.125, 2)
    solid = sawn_by_fence(outline, 1 / np.tan(radians(10)), 0.0)
    assert start(solid, corner) == pytest.approx(0.6846, abs=5e-5)
    assert between((start(solid, toe_b), 1.5), (0, 1)) == pytest.approx(11.196, abs=5e-4)


# --- stock rolled at the saw --------------------------------------------------------------------------------
@pytest.mark.parametrize("roll", [2.0, -3.0, 8.0])
@pytest.mark.parametrize("angle", [45, 20, 10])
def test_rolled_stock(roll, angle):
    section = Section("3/2", "5/4", "1/8", "3/16")
    fence = 1 / np.tan(radians(angle))
    flat = [(0, 0), (1.5, 0), (1.5, 0.125), (0.1875, 0.125), (0.1875, 1.25), (0, 1.25)]
    rolled = list(rotate(Polygon(flat), roll, origin=(0, 0)).exterior.coords)[:-1]
    solid = sawn_by_fence(rolled, fence, 0.0)
    heel, toe_a, _, corner, _, toe_b = rolled
    stock = RolledStock(roll, fence)
    at_heel = start(solid, heel)
    assert stock.slope == pytest.approx((start(solid, toe_a) - at_heel) / 1.5, abs=1e-9)
    assert stock.vertex_projection(section.thickness_a, section.thickness_b) == pytest.approx(start(solid, corner) - at_heel, abs=1e-9)
    line = (start(solid, toe_b) - at_heel, 1.25)
    assert stock.other_leg_out == pytest.approx(between(line, (0, 1)) * np.sign(line[0]), abs=1e-7)


def test_square_cuts_are_immune():
    """A plane square to the heel stays square however the stock lies: turn it about the heel and it is the same plane."""
    for angle in (-5, 3):
        normal = Rotation.from_euler("x", angle, degrees=True).apply([1.0, 0.0, 0.0])
        assert normal == pytest.approx([1, 0, 0])
        assert RolledStock(angle, 0).other_leg_out == 0 == RolledStock(angle, 0).slope
        assert OpenLegs.of(angle, 0.125, 0.125, 0).other_leg_out == 0 == OpenLegs.of(angle, 0.125, 0.125, 0).vertex_projection


def test_twist_adds_up_along_the_stick():
    """A stick twisted 1 degree a foot: square lines laid from table to table are turned by it, place by place."""
    turn = Rotation.identity()
    for _ in range(30):  # 30 slices of an inch
        turn = Rotation.from_euler("x", 1 / 12, degrees=True) * turn
    assert twist_roll(1, 30) == pytest.approx(np.degrees(turn.magnitude()))
