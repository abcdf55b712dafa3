"""Rounded corners, noses and reliefs, against outlines that shapely moves, rounds and measures."""

from __future__ import annotations

from fractions import Fraction as F
from math import dist, hypot
from random import Random

import cutters
import numpy as np
import oracle_parts
import pytest
import shapely
import solids
from shapely import Point, Polygon
from shapely.affinity import rotate

from anglelib.errors import PartError
from anglelib.geometry.holes import largest_radius, least_edge, worst_edge
from anglelib.geometry.rounding import arc_length, area_lost, corner_loss, largest_nose, nose_loss, relief, rounded_corners, tangent_length
from anglelib.part import Cope, Corner, Hole, Part, Taper
from anglelib.section import Section

STOCK = Section("1 1/2", "1 1/4", "1/8", "3/16", fillet="3/16")


def made(section=STOCK, length=6, **features) -> Part:
    return Part("P1", "Trial", section, "6061-T6", length, **features)


def wedge(angle: float, size: float = 40.0) -> Polygon:
    """A corner at the origin: one side along x, the other turned up by its angle."""
    far = rotate(Point(size, 0), angle, origin=(0, 0))
    middle = rotate(Point(2 * size, 0), angle / 2, origin=(0, 0))
    return Polygon([(0, 0), (size, 0), (middle.x, middle.y), (far.x, far.y)])


def opened(shape: Polygon, radius: float, fine: int) -> Polygon:
    """Every convex corner rounded: drawn in with mitres, let out again with arcs."""
    return shape.buffer(-radius, join_style="mitre", mitre_limit=1e9).buffer(radius, quad_segs=fine)


@pytest.mark.parametrize("angle", [25, 60, 90, 120, 135, 155])
@pytest.mark.parametrize("radius", [0.125, 0.5, 1.3])
def test_what_a_rounded_corner_loses(angle, radius):
    corner = wedge(angle)
    rounded = opened(corner, radius, 4000)
    tip = Point(0, 0)
    assert corner_loss(angle, radius) == pytest.approx(rounded.distance(tip), abs=2e-6 * radius)
    # Only what is lost near this corner: the others are far away.
    lost = corner.difference(rounded).intersection(tip.buffer(15 * radius + 1))
    assert area_lost(angle, radius) == pytest.approx(lost.area, rel=2e-5)
    # The arc is what of the outline near the corner does not lie on the sides; it begins where it leaves them.
    arc = rounded.exterior.intersection(tip.buffer(15 * radius + 1)).difference(corner.exterior.buffer(1e-8))
    assert arc_length(angle, radius) == pytest.approx(arc.length, abs=2e-3 * radius)
    on_side = min(shapely.get_coordinates(arc), key=lambda p: abs(p[1]))
    assert tangent_length(angle, radius) == pytest.approx(on_side[0], abs=1e-3 * radius)


@pytest.mark.parametrize("angle", [10, 20, 45])
@pytest.mark.parametrize("radius", [1 / 32, 1 / 8])
def test_nose_of_a_vertex_taper(angle, radius):
    """The nose is the corner of the heel and the tapered edge: rounded, how far from the vertex does metal begin?"""
    rounded = opened(wedge(angle), radius, 4000)
    assert nose_loss(angle, radius) == pytest.approx(rounded.bounds[0], abs=1e-6)
    # The naive loss, along the bisector as for other corners, is another length.
    assert abs(corner_loss(angle, radius) - nose_loss(angle, radius)) > 0.004 * radius


@pytest.mark.parametrize("angle", [5, 20, 45, 80])
@pytest.mark.parametrize("width", [0.75, 2])
def test_a_nose_that_uses_up_the_tapered_edge(angle, width):
    """A corner rounded by shapely: with the largest radius the arc reaches from the heel to the toe's height."""
    most, corner = largest_nose(angle, width), wedge(angle, 400.0)
    arc = opened(corner, most, 4000).exterior.difference(corner.exterior.buffer(1e-9)).intersection(Point(0, 0).buffer(100))
    assert arc.bounds[3] == pytest.approx(width, rel=2e-3) and nose_loss(angle, most, width) > 0
    with pytest.raises(PartError, match=r"choose a radius from 0 to \d"):
        nose_loss(angle, most * 1.001, width)


@pytest.mark.parametrize("angle, radius", [(20, 5), (120, 0.25), (90, 0.25), (20, 4.2), (20, -0.1), (20, float("nan")), (float("inf"), 0.1)])
def test_noses_that_are_none(angle, radius):
    with pytest.raises(PartError, match="between 0 and|as 0 or more|from 0 to"):
        nose_loss(angle, radius)
    with pytest.raises(PartError, match="give it as more than 0"):
        nose_loss(20, 0.1, width=0)


@pytest.mark.parametrize("function", [corner_loss, tangent_length, arc_length, area_lost, nose_loss])
def test_radii_and_angles_out_of_sight(function):
    """Neither a division by nothing nor an endless length comes out: of each, the range is named."""
    for angle, radius in ((5e-324, 0.1), (1e-9, 0.1), (60, 1e308), (60, 1300)):
        with pytest.raises(PartError, match="between 0 and 180|0 to the width of the leg"):
            function(angle, radius)


def test_where_rounded_corners_lie():
    """Centre, tangent points and angle of the library against the cutter's outline on the leg, all ends and legs."""
    checked = 0
    for seed in range(200):
        part = oracle_parts.part(Random(f"corner {seed}"))
        for corner, found in zip(part.corners, rounded_corners(part), strict=True):
            face = cutters.tapered_leg(part, corner.leg)
            assert face.exterior.distance(Point(found.corner)) < 1e-9
            assert all(face.exterior.distance(Point(touch)) < 1e-9 for touch in found.starts)
            assert [dist(touch, found.centre) for touch in found.starts] == pytest.approx([float(corner.radius)] * 2)
            ring = cutters.corner_outline(part, corner, solids.ON, 400)
            middle = np.mean(found.starts, axis=0) - np.array(found.centre)
            on_arc = np.array(found.centre) + middle / hypot(*middle) * found.radius
            assert ring.exterior.distance(Point(on_arc)) < 2e-5
            checked += 1
    assert checked > 20


def test_relief_of_a_cope_is_drilled_where_its_arc_is_struck_from():
    for radius in ("1/16", "1/4", "1/2"):
        cope = Cope("A", 1, 2, "3/4", radius)
        drill = relief(cope)
        outline = cutters.cope_outline(made(copes=[cope]), cope, steps=2000)
        bit = Point(drill.x, drill.y).buffer(drill.radius, quad_segs=2000)
        # The drill takes nothing but what the cope takes, and reaches both of its edges.
        assert bit.difference(outline).area < 1e-6
        assert drill.y - drill.radius == pytest.approx(0.75) and drill.x + drill.radius == pytest.approx(2)


# --- the largest radius -----------------------------------------------------------------------------------------
CORNERS = {
    "square end": ((), Hole("A", "1/2", 1, "1/8")),
    "square end, far from the end": ((), Hole("A", 1, "1 1/8", "1/8")),
    "taper": ((Taper("A", 1, "1/4", run=1),), Hole("A", "3/2", 1, "1/8")),
    "taper, flush": ((Taper("A", 1, "1/4", run=1),), Hole("A", "2", 1, "1/8", flush=True)),
    "steep taper": ((Taper("A", 1, "1/2", run="1/4"),), Hole("A", "3/4", 1, "5/32")),
}


def longest_by_growing(part: Part, hole: Hole) -> float:
    """Let the radius grow until the outline, rounded by the kernel's cutter, comes too near to the hole or fits no more."""

    def keeps(radius: float) -> bool:
        exact = F(radius).limit_denominator(10**7)
        rounded = Part("P1", "Trial", part.section, part.alloy, part.length, part.tapers, (), [Corner("A", 1, exact)])
        try:
            rounded_corners(rounded)
        except PartError:
            return False
        face = cutters.face_outline(rounded, "A", solids.ON, 512)
        return face.union(Polygon([(0, -9), (6, -9), (6, 0), (0, 0)])).exterior.distance(Point(hole.x, hole.y)) >= float(least_edge(hole))

    low, high = 0.01, 40.0
    for _ in range(30):
        middle = (low + high) / 2
        low, high = (middle, high) if keeps(middle) else (low, middle)
    return low


@pytest.mark.parametrize("name", CORNERS)
def test_largest_radius(name):
    tapers, hole = CORNERS[name]
    part = made(tapers=tapers, holes=[hole])
    found = largest_radius(part, "A", 1)
    assert found == pytest.approx(longest_by_growing(part, hole), rel=2e-4)
    just = Part("P1", "T", STOCK, "6061-T6", 6, tapers, [hole], [Corner("A", 1, F(found * (1 - 1e-9)))])
    assert worst_edge(just, hole).short_by < 1e-6


def test_a_radius_up_to_the_edge_distance_costs_nothing():
    """No hole that keeps its straight edges is nearer to the arc."""
    reach = F(1, 4)
    for seed in range(60):
        rng = Random(f"free {seed}")
        taper = () if rng.random() < 0.3 else (Taper("A", 1, F(rng.randint(0, 60), 64), run=F(rng.randint(16, 128), 64)),)
        hole = Hole("A", F(rng.randint(20, 320), 64), F(rng.randint(30, 80), 64), F(1, 8))
        sharp = made(tapers=taper, holes=[hole])
        if worst_edge(sharp, hole).distance < reach:
            continue
        for radius in (reach / 2, reach):
            try:
                rounded = made(tapers=taper, holes=[hole], corners=[Corner("A", 1, radius)])
                worst = worst_edge(rounded, hole)
            except PartError:
                continue
            assert worst.distance >= float(reach) - 1e-9
            assert largest_radius(sharp, "A", 1) > float(radius) - 1e-9


# --- what is refused ------------------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    "features, match",
    [
        (dict(corners=[Corner("A", 1, "1 3/8")]), "needs 1 3/8 of edge and there is 1 5/16: choose a smaller radius"),
        (dict(length=1, corners=[Corner("A", 1, "5/8"), Corner("A", 2, "5/8")]), "and there is 3/8: choose a smaller radius"),
        (dict(tapers=[Taper("A", 1, "1 1/4", run="1/4")], corners=[Corner("A", 1, 1)]), "needs 27/64 of edge and there is 11/32"),
        (dict(length=2, tapers=[Taper("A", 1, run="3/2"), Taper("A", 2, run=1)], corners=[Corner("A", 1, "1/8")]), "there is none left"),
        (dict(length=2, copes=[Cope("A", 2, "1 1/2", "1/2", "1/8")], corners=[Corner("A", 1, "5/8")]), "needs 5/8 of edge and there is 1/2"),
        (dict(length=2, copes=[Cope("A", 2, "1/4", "1/2", "1/8")], tapers=[Taper("A", 2, "1/2", run="1 1/2")], corners=[Corner("A", 1, "5/8")]), "there is 1/2"),
        (dict(copes=[Cope("A", 1, 1, "1/2", "1/8")], corners=[Corner("A", 1, "1/8")]), "drop the rounded corner, or the cope"),
    ],
)
def test_arcs_that_do_not_fit(features, match):
    with pytest.raises(PartError, match=match):
        rounded_corners(made(**features))


def test_what_other_cuts_leave_to_an_arc():
    """The toe of leg A is 2 long; its own cope at the far end takes 1 1/2 of it, one of leg B nothing, nor a taper of leg B."""
    for features, room in (
        (dict(copes=[Cope("A", 2, "1 1/2", "1/2", "1/8")]), "1/2"),
        (dict(copes=[Cope("B", 2, "1 1/2", "1/2", "1/8")]), "1 5/16"),
        (dict(copes=[Cope("B", 1, "1 1/2", "1/2", "1/8")]), "1 5/16"),
        (dict(tapers=[Taper("B", 2, "1/2", run="1 1/2")]), "1 5/16"),
        (dict(tapers=[Taper("A", 2, "1/2", run=1)]), "1"),
    ):
        assert rounded_corners(made(length=2, corners=[Corner("A", 1, room)], **features))
        with pytest.raises(PartError, match=f"and there is {room}: choose a smaller radius"):
            rounded_corners(made(length=2, corners=[Corner("A", 1, F(sum(map(F, room.split()))) + F(1, 64))], **features))


def test_an_arc_that_just_fits():
    """The tangent length equal to the edge it lies on is legal: leg A is 1 1/2, leg B 3/16 thick."""
    (corner,) = rounded_corners(made(corners=[Corner("A", 1, "1 5/16")]))
    assert corner.lowest == pytest.approx(3 / 16)


@pytest.mark.parametrize("angle", [0, 180, -10, 200])
def test_angles_that_are_no_corners(angle):
    for function in (corner_loss, tangent_length, arc_length, area_lost, nose_loss):
        with pytest.raises(PartError, match="its angle must lie between 0 and 180"):
            function(angle, 0.1)


def test_a_hole_too_near_for_any_radius():
    with pytest.raises(PartError, match="move the hole first"):
        largest_radius(made(holes=[Hole("A", "1/4", "1 3/8", "1/8")]), "A", 1)
    assert largest_radius(made(), "A", 1) == pytest.approx(1.5 - 3 / 16)
