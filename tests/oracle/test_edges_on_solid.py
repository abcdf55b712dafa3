"""Edge distances, legal regions and largest runs, against slices of solids and shapely's distances and buffers.

A hole's edges are those of its leg's metal on both faces. Each part is made without the hole and
sliced just under the outer and just over the inner face; what lies along the heel is no edge.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from itertools import combinations, pairwise, product
from random import Random

import cutters
import numpy as np
import oracle_parts
import pytest
import solids
from cutters import slice_edges
from shapely import MultiLineString, Point, Polygon, box, unary_union
from shapely.ops import polygonize

from anglelib.errors import PartError
from anglelib.geometry.fasteners import close, facing, pitches
from anglelib.geometry.holes import (
    BEVEL,
    COPE,
    CORNER,
    END,
    TAPER,
    TOE,
    EdgeId,
    edge_distances,
    largest_run,
    least_edge,
    legal_region,
    row_band,
    worst_edge,
)
from anglelib.geometry.taper import TaperLine
from anglelib.part import Cope, Corner, Hole, Part, Taper
from anglelib.section import Section

STOCK = Section("1 1/2", "1 1/4", "1/8", "3/16", fillet="3/16")
SKIN = 1e-7


def made(section=STOCK, length=6, **features) -> Part:
    return Part("P1", "Trial", section, "6061-T6", length, **features)


# --- the metal of a leg, on its outer and its inner face --------------------------------------------------
def edges_of(part: Part, leg: str, metal: str, steps: int = 64) -> MultiLineString:
    """The edges of a leg's metal on both faces as (x, across the leg), without the heel's."""
    bare = Part("P1", "Trial", part.section, part.alloy, part.length, part.tapers, (), part.corners, part.copes)
    solid = cutters.finished(bare, metal, steps)
    thickness = float(part.section.thickness(leg))
    found = []
    for depth in (SKIN, thickness - SKIN):
        edges = slice_edges(solid, 2 if leg == "A" else 1, depth)
        edges = edges if leg == "A" else edges[:, :, ::-1]  # of (z, x), for a slice at y
        along_heel = np.all(edges[:, :, 1] < float(part.section.thickness("B" if leg == "A" else "A")) - 1e-6, axis=1)
        found += [edge for edge in edges[~along_heel].tolist() if edge[0] != edge[1]]
    return MultiLineString(found)


PARTS = {
    "taper": made(tapers=[Taper("A", 1, "3/8", run=2)]),
    "vertex tapers of both legs": made(tapers=[Taper("A", 1, run=2), Taper("B", 2, angle="25")]),
    "tapers at one end": made(tapers=[Taper("A", 1, run=1), Taper("B", 1, "1/16", run=3)]),
    "tapers of both ends cross": made(length=4, tapers=[Taper("A", 1, "1/4", run=3), Taper("A", 2, "1/4", run=2)]),
    "cope": made(copes=[Cope("A", 1, 2, "5/8", "1/4"), Cope("B", 2, 1, "1/2", "1/16")]),
    "square corners": made(corners=[Corner("A", 1, "3/4"), Corner("B", 2, "1/2")]),
    "tapered corner": made(tapers=[Taper("A", 1, "1/2", run=1)], corners=[Corner("A", 1, 1), Corner("A", 2, "5/8")]),
    "everything": made(
        tapers=[Taper("A", 1, "3/8", run=2), Taper("B", 2, run="3/2")],
        corners=[Corner("A", 1, "1/2"), Corner("B", 2, "1/4")],
        copes=[Cope("A", 2, 1, "7/16", "1/8"), Cope("B", 1, "1 1/2", "3/4", "1/4")],
    ),
}


@pytest.mark.parametrize("name", PARTS)
@pytest.mark.parametrize("leg", "AB")
def test_nearest_edge_of_holes_all_over_a_leg(name, leg):
    part, rng = PARTS[name], Random(name + leg)
    width, root = part.section.leg(leg), part.section.thickness("B" if leg == "A" else "A")
    less, more = (edges_of(part, leg, metal) for metal in (solids.LESS, solids.MORE))
    face = cutters.face_outline(part, leg, solids.LESS)
    checked = set()
    for _ in range(150):
        x, y = F(rng.randint(1, int(part.length * 64) - 1), 64), F(rng.randint(0, 64), 64) * (width - root) + root
        if not face.contains(Point(x, y)):
            continue
        diameter = F(1, 64)
        if y + diameter / 2 > width or y - diameter / 2 < root or not diameter <= x <= part.length - diameter:
            continue
        hole = Hole(leg, x, y, diameter)
        worst = worst_edge(part, hole)
        if worst.distance < 0:
            # Where the bevel has already taken the inner face there is no metal to measure in.
            assert worst.to.kind == BEVEL
            continue
        low, high = (edges.distance(Point(x, y)) for edges in (less, more))
        assert low - 1e-6 <= worst.distance <= high + 1e-6, (hole, worst, low, high)
        assert high - low < 1e-3
        checked.add(worst.to.kind)
    assert checked


def test_every_kind_of_edge_decides_somewhere():
    """The draws above are worth something only if each kind of edge is the nearest for some hole."""
    edges = set()
    for part in PARTS.values():
        for leg in "AB":
            for x in np.linspace(0.1, float(part.length) - 0.1, 40):
                for y in (F(1, 4), F(1, 2), F(3, 4), F(1)):
                    edges.add(worst_edge(part, Hole(leg, F(x).limit_denominator(64), y, "1/64")).to)
    assert {EdgeId(END, 1), EdgeId(END, 2)} < edges and {to.kind for to in edges} == {TOE, END, TAPER, BEVEL, COPE, CORNER}


def test_measured_along_the_heel_the_edge_looks_longer_than_it_is():
    """The naive distance, from the hole to the line along x, is too long by one over the sine."""
    part = made(tapers=[Taper("A", 1, run=3)])
    hole = Hole("A", 3, 1, "3/16")
    line = TaperLine.of(STOCK, part.tapers[0])
    naive = 3 - float(line.at(1))
    true = edges_of(part, "A", solids.ON).distance(Point(3, 1))
    found = {edge.to: edge.distance for edge in edge_distances(part, hole)}[EdgeId(TAPER, 1)]
    assert found == pytest.approx(true, abs=1e-6) and naive > 2 * true


def test_the_outer_face_alone_would_pass_a_hole_that_the_bevel_spoils():
    part = made(tapers=[Taper("B", 1, run=5)])
    hole = Hole("A", "3/4", "7/8", "1/8")
    worst = worst_edge(part, hole)
    assert worst.to == EdgeId(BEVEL, 1) and worst.to.face == "inner" and worst.short_by == 0
    nearer = Hole("A", "5/8", "7/8", "1/8")
    assert worst_edge(part, nearer).short_by > 0 and float(nearer.x) - 0.25 > 0.3


def random_part(seed: int) -> Part:
    part = oracle_parts.part(Random(f"edges {seed}"))
    return replace(part, section=replace(part.section, toe_radius=F(0)))  # the toe is measured outside


def _edges_of_random_parts(first: int, last: int) -> int:
    checked = 0
    for seed in range(first, last):
        part = random_part(seed)
        for hole in part.holes:
            worst = worst_edge(part, hole)
            face = cutters.face_outline(part, hole.leg, solids.LESS)
            if worst.distance <= 0 or not face.contains(Point(hole.x, hole.y)):
                continue
            low, high = (edges_of(part, hole.leg, metal, 32).distance(Point(hole.x, hole.y)) for metal in (solids.LESS, solids.MORE))
            assert low - 1e-6 <= worst.distance <= high + 1e-6, (seed, hole, worst, low, high)
            checked += 1
    return checked


def test_random_parts():
    assert _edges_of_random_parts(0, 60) > 15


@pytest.mark.slow
@pytest.mark.parametrize("block", range(10))
def test_a_thousand_random_parts(block):
    assert _edges_of_random_parts(100 + 100 * block, 200 + 100 * block) > 25


# --- the region in which a hole may lie ---------------------------------------------------------------------
def region_by_buffer(part: Part, leg: str, reach: float, lowest: float, metal: str) -> Polygon:
    """The leg's metal on both faces, drawn in by the edge distance, above the row that clears the fillet."""
    bare = Part("P1", "Trial", part.section, part.alloy, part.length, part.tapers, (), part.corners, part.copes)
    solid = cutters.finished(bare, metal, 64)
    legal = box(-9, lowest, 99, 99)
    for depth in (SKIN, float(part.section.thickness(leg)) - SKIN):
        edges = slice_edges(solid, 2 if leg == "A" else 1, depth)
        edges = (edges if leg == "A" else edges[:, :, ::-1]).round(12)
        lines = unary_union(MultiLineString([e for e in edges.tolist() if e[0] != e[1]]))
        face = max(polygonize(lines), key=lambda piece: piece.area)
        # Below the heel the metal goes on: it is no edge.
        low = min(x for x, y in face.exterior.coords if abs(y) < 1e-9), max(x for x, y in face.exterior.coords if abs(y) < 1e-9)
        legal = legal.intersection(face.union(box(low[0], -99, low[1], 1e-9)).buffer(-reach, quad_segs=256))
    return legal


@pytest.mark.parametrize("name", PARTS)
@pytest.mark.parametrize("leg", "AB")
@pytest.mark.parametrize("flush", [False, True])
def test_legal_region_is_the_metal_drawn_in(name, leg, flush):
    part, diameter = PARTS[name], F(1, 8)
    reach = (2.5 if flush else 2) * 0.125
    lowest = float(part.section.thickness("B" if leg == "A" else "A") + part.section.fillet) + 0.125
    ours = Polygon(legal_region(part, leg, diameter, flush) or [(0, 0)] * 3)
    edges = edges_of(part, leg, solids.LESS, 128)
    for place in np.linspace(0, ours.length, 400):
        on_rim = ours.exterior.interpolate(place)
        assert ours.is_empty or (edges.distance(on_rim) >= reach - 2e-5 and on_rim.y >= lowest - 1e-9), on_rim
    # Straight pieces inside the arcs give a little of the region away, nothing else. (GEOS draws in to about a
    # thousandth of the distance.)
    shrunk = region_by_buffer(part, leg, reach, lowest, solids.LESS)
    largest = max(getattr(shrunk, "geoms", [shrunk]), key=lambda piece: piece.area)
    assert largest.difference(ours).area < 3e-3 and ours.difference(largest).area < 3e-3
    assert largest.area > 0.3 or leg == "B"


def _in_a_bevel(part: Part, leg: str, point: Point) -> bool:
    """Whether a taper of the other leg has already taken the inner face here: the saw's plane there keeps the other side."""
    thickness = float(part.section.thickness(leg))
    place = solids.place(leg, point.x, point.y, thickness)
    saws = [solids.taper_saw(part.section, float(part.length), t) for t in part.tapers if t.leg != leg]
    return any(saw.normal @ np.array(place) < saw.offset for saw in saws)


def _regions_of_random_parts(first: int, last: int) -> int:
    """Points thrown on the legs of random parts: in the region exactly where every edge is far enough and the head is clear."""
    inside = 0
    for seed in range(first, last):
        part, rng = random_part(seed), Random(f"region {seed}")
        for leg in "AB":
            reach, width, length = 0.25, float(part.section.leg(leg)), float(part.length)
            lowest = float(part.section.thickness("B" if leg == "A" else "A") + part.section.fillet) + 0.125
            region = Polygon(legal_region(part, leg, F(1, 8)) or [(0, 0)] * 3)
            edges, face = edges_of(part, leg, solids.ON, 32), cutters.face_outline(part, leg)
            for _ in range(40):
                point = Point(rng.uniform(0, length), rng.uniform(lowest, max(width, lowest + 0.01)))
                room = edges.distance(point) - reach if face.contains(point) else -1.0
                bevelled = _in_a_bevel(part, leg, point)
                if region.contains(point):
                    assert room > -1e-3 and not bevelled, (seed, leg, point, room)
                    inside += 1
                else:
                    assert room <= 5e-3 or bevelled, (seed, leg, point, room)
    return inside


def test_regions_of_random_parts():
    assert _regions_of_random_parts(0, 30) > 100


@pytest.mark.slow
@pytest.mark.parametrize("block", range(5))
def test_regions_of_five_hundred_random_parts(block):
    assert _regions_of_random_parts(100 + 100 * block, 200 + 100 * block) > 300


@pytest.mark.parametrize("tapers", [(), (Taper("A", 2, "1/4", run=6),), (Taper("A", 2, "1/2", run=7),)])
@pytest.mark.parametrize("copes", [(Cope("A", 1, 2, "1/2", "1/8"),), (Cope("A", 1, 3, "3/4", "1/8"), Cope("A", 2, 3, "3/4", "1/8"))])
def test_cuts_from_both_ends_leave_one_region(copes, tapers):
    """Every place of a grid on the leg: legal, by its own distances, exactly where the one region says so."""
    part = Part("P1", "Trial", Section(2, 1, "1/8", fillet="1/8"), "6061-T6", 8, tapers=tapers, copes=copes)
    region = Polygon(legal_region(part, "A", F(1, 8)))
    for i, j in product(range(1, 160, 2), range(1, 40, 2)):
        hole = Hole("A", F(i, 20), F(j, 20), F(1, 8))
        point = Point(float(hole.x), float(hole.y))
        legal = worst_edge(part, hole).distance >= 0.25 and hole.y >= F(3, 8)
        assert region.boundary.distance(point) < 2e-3 or region.contains(point) == legal, hole


def test_every_corner_of_the_region_keeps_its_edge():
    for part in PARTS.values():
        for leg in "AB":
            for x, y in legal_region(part, leg, F(1, 8)):
                hole = Hole(leg, F(x).limit_denominator(10**7), F(y).limit_denominator(10**7), F(1, 8))
                assert worst_edge(part, hole).short_by < 1e-6


def test_an_empty_region_is_an_answer():
    small = made(Section("3/4", "3/4", "1/8", fillet="1/8"))
    assert legal_region(small, "A", F(3, 16)) == () and len(legal_region(small, "A", F(1, 8))) >= 4
    assert legal_region(made(length=F(1, 2)), "A", F(1, 8)) == ()


@pytest.mark.parametrize("diameter, band", [("1/8", F(1, 8)), ("5/32", F(1, 32)), ("3/16", F(-1, 16))])
def test_band_for_a_row(diameter, band):
    """The head, a disc, pushed up the leg from the fillet; the hole, pushed down from the toe."""
    low, high = row_band(Section("3/4", "3/4", "1/8", fillet="1/8"), "A", F(diameter))
    assert high - low == band
    head = Point(0, float(low)).buffer(float(F(diameter)))
    assert head.bounds[1] == pytest.approx(0.25)  # it touches the fillet's tangent, 1/8 + 1/8 from the heel
    assert Point(0, float(high)).distance(Point(0, 0.75)) == pytest.approx(2 * float(F(diameter)))


# --- the longest run ------------------------------------------------------------------------------------------
def longest_by_bisection(part: Part, taper: Taper, holes) -> float:
    """Lengthen the run until a hole is nearer to the metal's edge than it may be."""

    def keeps(run: float) -> bool:
        exact = F(run).limit_denominator(10**9)
        trial = made(part.section, part.length, tapers=[Taper(taper.leg, taper.end, taper.width_left, run=exact)])
        return all(
            edges_of(trial, hole.leg, solids.ON, 8).distance(Point(hole.x, hole.y)) >= float(least_edge(hole)) - 1e-7 for hole in holes
        )

    high = 0.5
    while keeps(high):  # in small steps: beyond, the saw has passed the hole
        low, high = high, 1.1 * high
        assert high < 30
    for _ in range(24):
        middle = (low + high) / 2
        low, high = (middle, high) if keeps(middle) else (low, middle)
    return low


@pytest.mark.parametrize(
    "taper, holes",
    [
        (Taper("A", 1, "3/8", run=1), [Hole("A", 3, 1, "1/8")]),
        (Taper("A", 1, run=1), [Hole("A", 2, "3/4", "1/8"), Hole("A", 4, "1 1/8", "3/16")]),
        (Taper("A", 2, "1/4", run=1), [Hole("A", 3, 1, "1/8", flush=True)]),
        (Taper("B", 1, "1/8", run=1), [Hole("B", 3, "3/4", "5/32")]),
        (Taper("A", 1, run=1), [Hole("B", 1, "3/4", "1/8")]),
        (Taper("B", 2, "1/16", run=1), [Hole("A", "5 1/4", "3/4", "1/8"), Hole("B", 1, "3/4", "1/8")]),
    ],
    ids=range(6),
)
def test_longest_run_that_keeps_every_edge(taper, holes):
    part = made(tapers=[taper], holes=holes)
    found = largest_run(part, TaperLine.of(STOCK, taper))
    assert found == pytest.approx(longest_by_bisection(part, taper, holes), abs=1e-5)
    # At the longest run the nearest edge is just kept.
    at_most = made(tapers=[Taper(taper.leg, taper.end, taper.width_left, run=F(found).limit_denominator(10**9))])
    slack = [worst_edge(at_most, hole).distance - float(least_edge(hole)) for hole in holes]
    assert min(slack) == pytest.approx(0, abs=1e-6)


def test_holes_that_limit_no_run_or_leave_none():
    line = TaperLine.of(STOCK, Taper("A", 1, "3/8", run=1))
    assert largest_run(made(), line) is None
    # Low on the leg: the line may run as flat as it likes over it.
    assert largest_run(made(holes=[Hole("A", 3, "3/8", "1/32")]), TaperLine.of(STOCK, Taper("A", 1, "3/4", run=1))) is None
    with pytest.raises(PartError, match="Leave more width, or move the hole"):
        largest_run(made(holes=[Hole("A", "1/8", "1/2", "1/8")]), line)
    with pytest.raises(PartError, match="leaves no room for a taper: move the hole"):
        largest_run(made(holes=[Hole("A", "1/8", "1 1/4", "1/8")]), line)
    with pytest.raises(PartError, match="no run keeps its edge. Move the hole"):
        largest_run(made(holes=[Hole("B", "3/16", "3/4", "1/8")]), TaperLine.of(STOCK, Taper("A", 1, run=1)))


# --- holes with one another ---------------------------------------------------------------------------------------
def test_room_between_fasteners_that_face_each_other():
    """Seen along the heel, heads and tails are rectangles on the inner faces: the room is their distance."""
    for seed in range(200):
        rng = Random(f"facing {seed}")
        sizes = [F(rng.choice((3, 4, 5, 6)), 32) for _ in range(2)]
        ya = F(rng.randint(24, 80), 64)
        zb = F(rng.randint(20, 64), 64)
        if ya + sizes[0] > F(3, 2) or zb + sizes[1] > F(5, 4):
            continue
        part = made(holes=[Hole("A", 3, ya, sizes[0]), Hole("B", 3, zb, sizes[1])])
        (met,) = facing(part)
        da, db = map(float, sizes)
        on_a = box(float(ya) - da, 0.125, float(ya) + da, 0.125 + da / 2)
        on_b = box(0.1875, float(zb) - db, 0.1875 + db / 2, float(zb) + db)
        if on_a.intersects(on_b):
            assert met.room <= 0
        else:
            assert met.room == pytest.approx(on_a.distance(on_b), abs=1e-12)
    apart = made(holes=[Hole("A", 2, "3/4", "1/8"), Hole("B", "2 1/4", "3/4", "1/8")])
    assert facing(apart) == ()  # a quarter inch apart along the heel: the heads pass each other


def test_pitch_is_measured_straight_from_centre_to_centre():
    holes = [Hole("A", 1, "3/4", "1/8"), Hole("A", 2, "1 1/4", "3/16"), Hole("A", 4, "1 1/4", "1/8")]
    points = [Point(h.x, h.y) for h in holes]
    found = [pitch for _, _, pitch in pitches(made(holes=holes), "A")]
    assert found == pytest.approx([one.distance(two) / (3 / 16) for one, two in pairwise(points)])


def test_every_pair_of_a_leg_that_is_too_close_is_found():
    """Two rows, one over the other: along the heel their holes alternate, and the near ones are not neighbours there."""
    upper, lower = [[Hole("A", x, y, "1/8") for x in xs] for xs, y in ((("1", "1 1/2", "3"), "1"), (("1 1/16", "1 3/8", "1 11/16"), "11/16"))]
    part = made(holes=[*upper, *lower, Hole("B", 1, "3/4", "1/8")])
    points = {hole: Point(hole.x, hole.y) for hole in part.holes_in("A")}
    near = {frozenset((one, two)) for one, two in combinations(points, 2) if points[one].distance(points[two]) < 3 / 8 - 1e-12}
    assert {frozenset((one, two)) for one, two, _ in close(part)} == near and len(near) > 3
    row = part.holes_in("A")
    assert not near <= {frozenset(pair) for pair in pairwise(row)}  # neighbours along the heel are not enough
    # Each hole's nearest other is among the pitches that are shown.
    shown = {frozenset((one, two)) for one, two, _ in pitches(part, "A")}
    for hole in row:
        nearest = min((other for other in row if other != hole), key=lambda other: points[hole].distance(points[other]))
        assert any(frozenset((hole, other)) in shown for other in row if points[hole].distance(points[other]) <= points[hole].distance(points[nearest]) + 1e-12)
