"""A hole's rim on the unrolled sheet, also where it runs into a bend: every point of it, laid back on the metal, lies on the drill.

The sheet is laid back with the section's own numbers, by the length of the arc that a point has run round; the drill is a
cylinder straight through its leg.
"""

from __future__ import annotations

import math

import pytest

from anglelib.geometry.edges import Straight, points_along
from anglelib.paper.hole_rims import middle, on_flats, rim
from anglelib.paper.unrolled import Unrolled
from anglelib.part import Hole, Part
from anglelib.section import Section


def laid_back(section: Section, inner: bool, v: float) -> tuple[float, float]:
    """Where a place across the sheet, from the middle of its bend, lies in the section: (y, z) from the heel [in]."""
    ta, tb = (float(section.thickness(leg)) if inner else 0.0 for leg in "AB")
    bend = float(section.fillet if inner else section.heel_radius)
    along = v + math.pi * bend / 4  # from leg B's tangent on
    if along <= 0:
        return tb, ta + bend - along
    if along < math.pi * bend / 2:
        round_ = along / bend
        return tb + bend - bend * math.cos(round_), ta + bend - bend * math.sin(round_)
    return tb + bend + along - math.pi * bend / 2, ta


PLAIN = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
ROUND = Section("1 1/2", 1, "3/16", "1/8", fillet="3/16", toe_radius="1/16", heel_radius="3/32")
HEEL = Section(1, "1 1/4", "1/8", fillet="1/16", heel_radius="1/4")
WIDE = Section("1 1/2", "1 1/2", "1/8", fillet="5/8")
SHARP = Section("3/4", "3/4", "1/8")
HOLES = {  # section, inner, hole, whether it is a whole circle on the sheet, whether on its flat face
    "clear of everything": (PLAIN, True, Hole("A", 1, "3/4", "1/4"), True),
    "it just touches the fillet": (PLAIN, True, Hole("A", 1, "3/8", "1/4"), True),
    "it just touches the toe": (PLAIN, True, Hole("A", 1, "1 1/8", "1/4"), True),
    "into the fillet": (PLAIN, True, Hole("A", 1, "5/16", "1/4"), False),
    "into the fillet of leg B": (PLAIN, True, Hole("B", 2, "5/16", "1/4"), False),
    "deep into a fillet of unequal legs": (ROUND, True, Hole("A", 2, "13/32", "3/8"), False),
    "the same of leg B": (ROUND, True, Hole("B", 2, "15/32", "3/8"), False),
    "over the rounded toe": (ROUND, True, Hole("A", 2, "1 5/16", "5/16"), False),
    "into a rounded heel": (HEEL, False, Hole("A", 2, "3/8", "5/16"), False),
    "the same of leg B ": (HEEL, False, Hole("B", 2, "3/8", "5/16"), False),
    "all of it in a wide fillet": (WIDE, True, Hole("A", 2, "3/8", "1/8"), False),
    "no fillet": (SHARP, True, Hole("B", 1, "3/8", "1/4"), True),
}


@pytest.mark.parametrize("name", HOLES)
def test_every_point_of_a_rim_lies_on_the_drill(name):
    section, inner, hole, whole = HOLES[name]
    sheet = Unrolled(Part("P1", "Trial", section, "6061-T6", 4, holes=[hole]), inner)
    edges = rim(sheet, hole)
    assert (edges is None) == whole
    x, v = middle(sheet, hole)
    assert (x, laid_back(section, inner, v)["AB".index(hole.leg)]) == pytest.approx((float(hole.x), float(hole.y)))
    if edges is None:
        [(of, (x, v), clear)] = on_flats(sheet)
        assert (of, x, clear) == (hole, float(hole.x), True)
        y, z = laid_back(section, inner, v)
        assert (y if hole.leg == "A" else z) == pytest.approx(float(hole.y))
        return
    radius = float(hole.diameter) / 2
    points = points_along(edges, 1.0)
    heights = []
    for x, v in points:
        y, z = laid_back(section, inner, v)
        heights.append(y if hole.leg == "A" else z)
        assert math.hypot(x - float(hole.x), heights[-1] - float(hole.y)) == pytest.approx(radius, abs=1e-6)
    # it is closed but for what runs over a toe, and nowhere is a piece of it left out
    low = float(section.thickness("B" if hole.leg == "A" else "A")) if inner else 0.0
    high = float(section.leg(hole.leg) - section.toe_radius) if inner else float(section.leg(hole.leg))
    seen = sorted(math.degrees(math.atan2(h - float(hole.y), x - float(hole.x))) for (x, _), h in zip(points, heights))
    gaps = [(a, b) for a, b in zip(seen, [*seen[1:], seen[0] + 360]) if b - a > 4]
    for a, b in gaps:
        between = float(hole.y) + radius * math.sin(math.radians((a + b) / 2))
        assert between > high - 1e-9 or between < low + 1e-9, (a, b)
    assert max(b - a for a, b in zip(seen, seen[1:])) < 181 and min(heights) >= low - 1e-9 and max(heights) <= high + 1e-9
    step = max((math.dist(edge.first, edge.last) for edge in edges if isinstance(edge, Straight)), default=0.0)
    assert step < radius * math.radians(10)  # on the bend it is a fine chain


@pytest.mark.parametrize("section, inner, hole, there, whole", [
    (PLAIN, True, Hole("A", 1, "3/4", "1/4"), True, True),
    (PLAIN, True, Hole("A", 1, "3/8", "1/4"), True, True),  # it touches the tangent
    (PLAIN, True, Hole("A", 1, "23/64", "1/4"), True, False),
    (PLAIN, True, Hole("B", 1, "1/4", "1/8"), False, False),  # its centre is on the tangent
    (WIDE, True, Hole("A", 1, "1/2", "1/8"), False, False),  # its centre is in the fillet
    (WIDE, False, Hole("A", 1, "1/2", "1/8"), True, True),  # and outside it is on the leg
    (ROUND, True, Hole("A", 2, "1 7/16", "1/16"), False, False),  # on the rounding of the toe, from 1 7/16 on
    (ROUND, True, Hole("A", 2, "1 27/64", "1/16"), True, True),
    (ROUND, False, Hole("A", 2, "1 7/16", "1/16"), True, True),
])  # fmt: skip
def test_which_holes_are_on_a_flat_face(section, inner, hole, there, whole):
    found = on_flats(Unrolled(Part("P1", "Trial", section, "6061-T6", 4, holes=[hole]), inner))
    assert [(of, clear) for of, _, clear in found] == ([(hole, whole)] if there else [])
    for _, (x, v), _ in found:
        assert (x, laid_back(section, inner, v)["AB".index(hole.leg)]) == pytest.approx((float(hole.x), float(hole.y)))
