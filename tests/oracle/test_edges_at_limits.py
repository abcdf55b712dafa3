"""Edge distances at the worst of the limits, against parts whose dimensions stray as far as they may, and shapely's distances.

Each dimension is moved to one end of its limits (the inch rule, written out here), the hole's place too; the faces are
polygons of the drawing's numbers. No way to stray brings the hole nearer to an edge than is said, and one comes as near.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from itertools import product
from random import Random

import bad_holes
import oracle_parts
import pytest
from shapely import Point, box, unary_union

from anglelib.errors import PartError
from anglelib.geometry.hole_check import EDGE, EDGE_AT_LIMITS, FACING, FILLET, PITCH_CLOSE, hole_edges, hole_warnings, worst_hole
from anglelib.geometry.holes import BEVEL, NONE, TOE, EdgeId
from anglelib.part import Cope, Corner, Hole, Part, Taper
from anglelib.section import Section
from anglelib.tolerances import Limits

STOCK = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")


def off(size) -> F:
    """The trade's rule for a job in inches."""
    return F(1, 64) if size <= 6 else F(1, 32) if size <= 24 else F(1, 16)


def strayed(part: Part, ways: tuple[int, ...], hole_ways: tuple[int, int]) -> Part:
    """The part with its length, its cuts' places along, what they leave, and its last hole moved each one way."""
    length, along, left = ways
    tapers = []
    for taper in part.tapers:
        width = part.section.leg(taper.leg)
        height = taper.width_left + left * off(taper.width_left or width / 2)
        tapers.append(replace(taper, run=taper.run - along * off(taper.run), width_left=max(height, F(0)), blunt=None))
    copes = [replace(c, length=c.length - along * off(c.length), width_left=c.width_left + left * off(c.width_left)) for c in part.copes]
    corners = [replace(c, radius=c.radius - left * F(1, 32)) for c in part.corners]
    hole = part.holes[-1]
    hole = replace(hole, x=hole.x + hole_ways[0] * off(hole.x), y=hole.y + hole_ways[1] * off(hole.y))
    return replace(part, length=part.length + length * off(part.length), tapers=tapers, copes=copes, corners=corners, holes=(hole,), hand=None)


def nearest(part: Part) -> float:
    """From the last hole's centre to the nearest edge on either face; the metal below the heel goes on."""
    hole, length = part.holes[-1], float(part.length)
    taken = bad_holes.waste(part, hole.leg)
    face = box(0, -9, length, float(part.section.leg(hole.leg))).difference(unary_union(list(taken.values())))
    # What a bevel takes, it takes of the inner face down to the fillet, where the other leg goes on.
    centre = Point(float(hole.x), float(hole.y))
    whole = max(getattr(face, "geoms", [face]), key=lambda piece: piece.area)
    lower = [p for p in whole.exterior.coords if p[1] < -8]
    bottom = box(min(x for x, _ in lower), -9, max(x for x, _ in lower), -8)
    rim = unary_union([whole, bottom]).exterior
    return rim.distance(centre) if whole.contains(centre) else -rim.distance(centre)


def random_part(rng: Random) -> Part | None:
    stock = oracle_parts.section(rng)
    length = F(rng.randint(4 * 16, 30 * 16), 16)
    leg, end = rng.choice("AB"), rng.choice((1, 2))
    root = stock.thickness("B" if leg == "A" else "A")
    width = stock.leg(leg)
    cuts = {}
    kind = rng.choice(("taper", "vertex", "cope", "corner", "none"))
    if kind == "taper":
        cuts["tapers"] = [Taper(leg, end, F(rng.randint(2, int(width * 48)), 64), run=F(rng.randint(16, 48), 16))]
    elif kind == "vertex":
        cuts["tapers"] = [Taper(leg, end, run=F(rng.randint(16, 48), 16))]
    elif kind == "cope" and width - root > F(1, 2):
        cuts["copes"] = [Cope(leg, end, F(rng.randint(32, 100), 64), root + F(rng.randint(2, 16), 64), F(1, 8))]
    elif kind == "corner" and width - root > F(1, 2):
        largest = min(F(3, 4), width - root - F(1, 16))  # one that still fits where it has strayed
        cuts["corners"] = [Corner(leg, end, F(rng.randint(24, int(largest * 64)), 64))]
    hole = oracle_parts.hole(rng, stock, length, rng.choice((leg, leg, "A", "B")))
    if hole is None:
        return None
    if rng.random() < 0.7:
        x = F(rng.randint(int(hole.diameter * 32) + 2, 160), 64)
        hole = replace(hole, x=x if end == 1 else length - x)
    if "corners" in cuts and rng.random() < 0.7:  # beside the arc
        x, below = F(rng.randint(10, 32), 64) + hole.diameter / 2, F(rng.randint(10, 24), 64) + hole.diameter / 2
        hole = replace(hole, leg=leg, x=x if end == 1 else length - x, y=max(width - below, F(0)))
    try:
        return Part("P1", "Trial", stock, "6061-T6", length, holes=[hole], **cuts)
    except PartError:
        return None


def checked(first: int, many: int) -> set[str]:
    kinds, done, seed = set(), 0, first
    while done < many:
        part = random_part(Random(f"at limits {seed}"))
        seed += 1
        if part is None:
            continue
        try:
            (one,) = hole_edges(part, Limits())
            tries = {ways: nearest(strayed(part, ways[:3], ways[3:])) for ways in product((1, -1), repeat=5)}
            true = nearest(part)
        except PartError:  # a dimension has strayed beyond what a part can be
            continue
        if min(true, min(tries.values())) < 0.02:
            continue  # off the metal a distance is another number
        assert one.nominal.distance == pytest.approx(true, abs=3e-4), (part, one)
        worst = min(tries, key=tries.get)
        assert one.worst.distance == pytest.approx(tries[worst], abs=3e-4), (part, one, tries)
        assert one.worst.distance <= one.nominal.distance
        kinds.add(one.worst.to.kind)
        done += 1
    return kinds


def test_no_part_within_its_limits_brings_a_hole_nearer_to_an_edge():
    assert {"toe", "end", "taper", "bevel", "cope", "corner"} >= checked(0, 60) > {"toe", "end", "taper", "bevel"}


@pytest.mark.slow
@pytest.mark.parametrize("block", range(4))
def test_a_thousand_parts_within_their_limits(block):
    assert len(checked(10_000 * (block + 1), 250)) == 6


# --- worked out by hand -----------------------------------------------------------------------------------
def part_with(*holes: Hole, length="6", **cuts) -> Part:
    return Part("P1", "Trial", STOCK, "6061-T6", length, holes=holes, **cuts)


def test_the_toe_by_hand():
    """1/4 to the toe is 2 D of 1/8; the hole 1/64 too high leaves 15/64: 1.875 D. The leg's width is the mill's."""
    (one,) = hole_edges(part_with(Hole("A", 3, 1, "1/8")), Limits())
    assert (one.nominal.diameters, one.worst.diameters, one.worst.to) == (2.0, 1.875, EdgeId(TOE))
    (iso,) = hole_edges(part_with(Hole("A", 3, 1, "1/8")), Limits("iso-m"))
    assert iso.worst.distance == pytest.approx(0.25 - 0.2 / 25.4)  # 25.4 mm: 0.2 mm by ISO 2768-1 m


def test_the_far_end_by_hand():
    """1/2 from end 2 of a 30 in. part: the part 1/16 short, the hole 1/16 too far along: 3/8."""
    (one,) = hole_edges(part_with(Hole("A", "29 1/2", "5/8", "1/8"), length=30), Limits())
    assert one.worst.distance == 0.375 and one.nominal.distance == 0.5


def test_another_edge_may_decide_at_the_limits():
    """As drawn the toe is nearer, 9/32 to 5/16; the length's limits are larger, and at the worst end 2 is as near as 3/16."""
    (one,) = hole_edges(part_with(Hole("A", F(30) - F(5, 16), F(5, 4) - F(9, 32), "1/8"), length=30), Limits())
    assert one.nominal.to == EdgeId(TOE) and str(one.worst.to) == "end.2" and one.worst.distance == pytest.approx(3 / 16)


def test_the_bevel_decides_on_the_inner_face():
    """Leg A's taper to the vertex, 2 in 1 1/4: the bevel reaches 0.2 in. of leg B, as drawn; with a run of 2 1/64, a little more."""
    (one,) = hole_edges(part_with(Hole("B", "1/2", "3/4", "1/8"), tapers=[Taper("A", 1, run=2)]), Limits())
    assert one.nominal.to == EdgeId(BEVEL, 1) and one.nominal.to.face == "inner" and one.nominal.distance == pytest.approx(0.3)
    assert one.worst.distance == pytest.approx(0.5 - 1 / 64 - 0.125 * (2 + 1 / 64) / 1.25)


def test_at_the_limits_a_hole_may_break_through():
    (one,) = hole_edges(part_with(Hole("A", 3, F(5, 4) - F(9, 128), "1/8")), Limits())
    assert one.nominal.outcome == "short" and one.worst.outcome == NONE


# --- warnings -----------------------------------------------------------------------------------------------
def ids(*holes: Hole, limits=Limits(), **cuts) -> list[tuple[str, tuple[int, ...]]]:
    return [(one.id, one.holes) for one in hole_warnings(part_with(*holes, **cuts), limits)]


def test_each_warning_at_its_rule():
    """AL0992: 2 D, flush 2.5 D, pitch 3 D; derived: head clear of the fillet from t + r + D = 3/8."""
    fine = Hole("A", 3, "11/16", "1/8")
    assert ids(fine) == []
    assert ids(fine, Hole("A", "4", "31/32", "1/8")) == []  # 9/32: 2.25 D, and 2.125 D at the limits
    assert ids(fine, Hole("A", "4", 1, "1/8")) == [(EDGE_AT_LIMITS, (2,))]
    assert ids(fine, Hole("A", "4", "1 1/64", "1/8")) == [(EDGE, (2,))]
    assert ids(fine, Hole("A", "4", "31/32", "1/8", flush=True)) == [(EDGE, (2,))]  # 2.25 D is too little for a flush head
    assert ids(fine, Hole("A", "3 3/8", "11/16", "1/8")) == []
    assert ids(fine, Hole("A", "3 23/64", "11/16", "1/8")) == [(PITCH_CLOSE, (1, 2))]
    assert ids(fine, Hole("B", "5", "3/8", "1/8")) == []
    assert ids(fine, Hole("B", "5", "23/64", "1/8")) == [(FILLET, (2,))]
    assert ids(fine, Hole("B", "3 1/4", "11/16", "1/8")) == []
    assert ids(fine, Hole("B", "3 15/64", "11/16", "1/8")) == [(FACING, (1, 2))]


def test_the_shortest_edge_comes_first_and_is_the_worst():
    part = part_with(Hole("A", 3, "1 1/16", "1/8"), Hole("B", 4, "1 1/8", "1/8"), Hole("A", 5, "3/4", "1/8"))
    assert [one.holes for one in hole_warnings(part, Limits())] == [(2,), (1,)]
    assert worst_hole(part, Limits()).number == 2
    assert worst_hole(part_with(), Limits()) is None and hole_warnings(part_with(), Limits()) == ()


def test_wider_limits_warn_of_more():
    hole = Hole("A", 3, "15/16", "1/8")
    assert ids(hole) == [] and ids(hole, limits=Limits.named("1/8")) == [(EDGE_AT_LIMITS, (1,))]
