"""What passes a band saw's column, against shapely: the piece laid on the table and fed in small steps, column and table as polygons.

The oracle turns and moves polygons; it reckons with no angle of a corner. Which hand a leg is seen at from above is held
against cross products of the part's own three axes.
"""

from __future__ import annotations

import random
from fractions import Fraction
from math import degrees, dist, tan

import numpy as np
import pytest
from shapely import LineString, Polygon, box
from shapely.affinity import rotate, scale, translate

from anglelib.geometry.taper import taper_lines
from anglelib.geometry.throat import LONG, AtSaw, across_at_saw, cope_at_saw, mirrored, off_the_table, taper_at_saw, ways
from anglelib.job import Shop
from anglelib.part import Cope, Part, Taper
from anglelib.saw import Saw
from anglelib.section import Section

STEPS = 400
FAR = 1000.0


def laid(outline, into, out, hand: bool) -> tuple[Polygon, float]:
    """The piece as it lies when the blade, at (0, 0), touches it, the cut towards the operator (-y); and how far it is fed."""
    piece, cut = Polygon(outline), LineString([into, out])
    if hand:
        piece, cut = (scale(shape, -1, 1, origin=(0, 0)) for shape in (piece, cut))
    (x, y), (u, v) = cut.coords
    turn = -90 - degrees(np.arctan2(v - y, u - x))
    piece, cut = (rotate(translate(shape, -x, -y), turn, origin=(0, 0)) for shape in (piece, cut))
    assert abs(cut.coords[1][0]) < 1e-9 and cut.coords[1][1] < 0
    return piece, cut.length


def swept(saw: Saw, piece: Polygon, fed: float) -> tuple[float, float | None, bool]:
    """How near the column the piece comes while it is fed, how far it reaches off the table, whether its middle leaves it."""
    depth = float(saw.column) / 2 if saw.column else FAR
    beside = box(-FAR, -depth, 0, depth)  # all that the column's depth covers, up to the blade
    side = float(saw.table) if saw.table else FAR
    front = float(saw.table_front) if saw.table_front else FAR
    reach, over, tips = 0.0, 0.0, False
    for step in np.linspace(0, fed, STEPS + 1):
        now = translate(piece, 0, step)
        there = now.intersection(beside)
        if not there.is_empty:
            reach = max(reach, -there.bounds[0])
        low_x, low_y, high_x, high_y = now.bounds
        over = max(over, high_x - side, -low_y - front, high_y - front)
        tips = tips or not box(-FAR, -front, side, front).covers(now.centroid)
    return reach, over if saw.table or saw.table_front else None, tips


def agree(saw: Saw, outline, into, out, hand: bool, through: bool = True) -> None:
    found = ways(saw, outline, into, out, hand, through)
    for way, (begin, end) in zip(found, ((into, out), (out, into)), strict=False):
        piece, fed = laid(outline, begin, end, hand)
        reach, over, tips = swept(saw, piece, fed)
        slack = 1e-6 if not saw.column else 3 * fed / STEPS * max(1.0, abs(tan_of(piece)))
        assert way.reach == pytest.approx(reach, abs=slack), (way, outline, into, out, hand, saw)
        if abs(reach - float(saw.throat)) > slack:
            assert way.passes == (reach < float(saw.throat))
        if over is None:
            assert way.off_table is None and not way.tips
        else:
            assert way.off_table == pytest.approx(max(over, 0.0), abs=1e-6)
            middle = (piece.centroid.x, piece.centroid.y, piece.centroid.y + fed)
            clear = min(abs(middle[0] - float(saw.table)), *(abs(abs(y) - float(saw.table_front)) for y in middle[1:])) > 1e-6
            assert not clear or way.tips == tips


def tan_of(piece: Polygon) -> float:
    """How fast an edge of the piece comes nearer to the column, by the feed: the steepest of them."""
    edges = zip(piece.exterior.coords, piece.exterior.coords[1:], strict=False)
    return max((abs((b[0] - a[0]) / (b[1] - a[1])) for a, b in edges if abs(b[1] - a[1]) > 1e-6), default=0.0)


def saw_at_random(rng: random.Random) -> Saw:
    return Saw(
        rng.choice([4, 6, 9, 14]), rng.choice([0, 0, 1, 2, 3]), rng.choice([0, 5, 8]), rng.choice([0, 4, 6]),
    )  # fmt: skip


def piece_at_random(rng: random.Random):
    """A stick or a blank, square or tapered off at an end, and a cut right across it at any angle."""
    long, wide = rng.choice([rng.uniform(1, 6), rng.uniform(6, 40), rng.uniform(40, 144)]), rng.uniform(0.5, 3)
    left = rng.choice([wide, rng.uniform(0.2, wide)])
    outline = [(0.0, 0.0), (long, 0.0), (long, wide), (rng.uniform(0, long / 2) if left < wide else 0.0, wide), (0.0, left)]
    place = rng.uniform(0.05, 0.95) * long
    skew = wide * tan(np.radians(rng.choice([0, 30, -30, rng.uniform(-75, 75)])))
    if not 0 < place + skew < long:
        skew = 0.0
    line = Polygon(outline).intersection(LineString([(place - 9 * skew, -9 * wide), (place + 9 * skew, 9 * wide)]))
    (a, b) = line.coords
    return outline, a, b


@pytest.mark.parametrize("block", range(2))
def test_a_piece_passes_as_its_sweep_does(block):
    rng = random.Random(f"column {block}")
    for _ in range(20):
        outline, into, out = piece_at_random(rng)
        agree(saw_at_random(rng), outline, into, out, rng.random() < 0.5, rng.random() < 0.8)


@pytest.mark.slow
@pytest.mark.parametrize("block", range(40))
def test_a_thousand_pieces_pass_as_their_sweeps_do(block):
    rng = random.Random(f"columns {block}")
    for _ in range(50):
        outline, into, out = piece_at_random(rng)
        agree(saw_at_random(rng), outline, into, out, rng.random() < 0.5, rng.random() < 0.8)


# --- across a stick -----------------------------------------------------------------------------------------------
def test_square_across_the_planner_asks_the_same():
    """The plan's exact question, and how much lies off the table, are those of the piece on its table."""
    rng = random.Random("across")
    for _ in range(200):
        saw = Saw(rng.choice([4, 9, 12]), table=rng.choice([5, 8]))
        one, other = (Fraction(rng.randint(1, 60 * 16), 16) for _ in "12")
        found = across_at_saw(saw, float(one), float(other), 1.0)
        assert saw.sawn_across(one, other) == any(way.passes for way in found)
        by_short = found[0] if one <= other else found[1]  # the shorter piece towards the column
        over = off_the_table(saw, one, other)
        assert (over is not None) == by_short.tips and (over is None or float(over) == pytest.approx(by_short.off_table))


def test_a_twelve_foot_stick_swung_meets_the_column():
    """By trigonometry of the workshop: 48 of 144 at 30 degrees come 48 cos 30 near, and the stick's width times sin 30."""
    saw = Saw("9")
    near, far = across_at_saw(saw, 48, 96, 1, 30)
    assert (round(near.reach, 3), round(far.reach, 3)) == (round(48 * 0.8660254 + 0.5, 3), round(96 * 0.8660254, 3)) and not near.passes and not far.passes
    # a stick that lies almost along the feed passes in front of a column of 2 in., never of an endless one
    assert [way.passes for way in across_at_saw(Saw("9", column="2"), 48, 1, 1, 75)] != [way.passes for way in across_at_saw(saw, 48, 1, 1, 75)]


# --- which hand -----------------------------------------------------------------------------------------------------
AXES = {"x": np.array([1, 0, 0]), "A": np.array([0, 1, 0]), "B": np.array([0, 0, 1])}  # the heel, up leg A, up leg B: right-handed


@pytest.mark.parametrize("end", [1, 2])
@pytest.mark.parametrize("leg", ["A", "B"])
@pytest.mark.parametrize("stance", ["inside-up", "outside-up"])
def test_the_hand_from_above_is_that_of_the_axes(leg, end, stance):
    other = "B" if leg == "A" else "A"
    up = AXES[other] if stance == "inside-up" else -AXES[other]
    along = AXES["x"] if end == 1 else -AXES["x"]
    # seen from above, along to the right: heights run away from the viewer where right, away and up are right-handed
    away = np.cross(up, along)
    assert mirrored(leg, end, stance) == (np.dot(away, AXES[leg]) < 0)


STOCK = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")


def corner_of(leg: str, end: int, stance: str, cut) -> str:
    """On which side of the blade the body of a long piece lies, by the axes alone: the blade goes ``cut`` (along the heel, up the leg)."""
    other = "B" if leg == "A" else "A"
    up = AXES[other] if stance == "inside-up" else -AXES[other]
    along = AXES["x"] if end == 1 else -AXES["x"]
    forward = -(cut[0] * along + cut[1] * AXES[leg])  # the piece goes where the blade comes from
    right = np.cross(forward, up)
    return "column" if np.dot(right, along) < 0 else "free"


@pytest.mark.parametrize("end", [1, 2])
@pytest.mark.parametrize("leg", ["A", "B"])
def test_a_cope_of_a_long_piece_passes_only_with_its_body_away_from_the_column(leg, end):
    """Both hands and both ends: on a stick half of the copes cannot be sawn, on a short piece all can."""
    shop = Shop(saw=Saw("9", fence="4"))
    cope = Cope(leg, end, 1, "1/4", "1/8")
    part = Part("P1", "Clip", STOCK, "6061-T6", 20, copes=[cope])
    at_saw = cope_at_saw(cope, part, shop)
    assert at_saw.rough == (corner_of(leg, end, "outside-up", (0, -1)) == "column")
    assert not cope_at_saw(cope, part, shop, 8.0).rough
    mirror = Cope("B" if leg == "A" else "A", end, 1, "1/4", "1/8")
    assert cope_at_saw(mirror, part, shop).rough != at_saw.rough


@pytest.mark.parametrize("left", ["0", "1/2"])
@pytest.mark.parametrize("end", [1, 2])
@pytest.mark.parametrize("leg", ["A", "B"])
def test_a_taper_of_a_long_stick_passes_turned_round_or_as_it_is(leg, end, left):
    shop = Shop(saw=Saw("9"))
    part = Part("P1", "Clip", STOCK, "6061-T6", 6, tapers=[Taper(leg, end, left, run=2)])
    [line] = taper_lines(part)
    at_saw = taper_at_saw(line, shop)
    stance = "outside-up" if line.ends_in == "flat" else "inside-up"
    assert not at_saw.rough and at_saw.turned == (corner_of(leg, end, stance, (0.8, 0.6)) == "column")
    # and that the body lies there: nearly all of a 20 ft stick is far beyond the throat on the one way
    assert max(way.reach for way in at_saw.strokes[0]) > 50 > 2 > min(way.reach for way in at_saw.strokes[0])


def test_tapers_and_copes_are_swept_too():
    rng = random.Random("parts")
    for _ in range(12):
        leg, end, long = rng.choice("AB"), rng.choice([1, 2]), rng.choice([8.0, 30.0, LONG])
        saw = saw_at_random(rng)
        part = Part("P1", "Clip", STOCK, "6061-T6", 8, tapers=[Taper(leg, end, rng.choice([0, "1/2"]), run=rng.choice([1, 3]))])
        [line] = taper_lines(part)
        found: AtSaw = taper_at_saw(line, Shop(saw=saw), long)
        struck = line.offset(Fraction(1, 32))
        into, out, wide = (0.0, struck.end_height), (struck.toe, 1.25), 1.25
        hand = mirrored(leg, end, "outside-up" if line.ends_in == "flat" else "inside-up")
        for way, ends in zip(found.strokes[0], ((into, out), (out, into)), strict=True):
            piece, fed = laid([(0, 0), (long, 0), (long, wide), (0, wide)], *ends, hand)
            assert fed == pytest.approx(dist(into, out))
            reach = swept(saw, piece, fed)[0]
            assert way.reach == pytest.approx(reach, abs=1e-6 if not saw.column else 3 * fed / STEPS * max(1.0, tan_of(piece)))


def test_the_sweep_sees_a_wrong_hand():
    """The guard itself."""
    outline = [(0.0, 0.0), (40.0, 0.0), (40.0, 1.0), (0.0, 1.0)]
    piece, fed = laid(outline, (2.0, 1.0), (1.0, 0.0), True)
    assert swept(Saw("9"), piece, fed)[0] != pytest.approx(ways(Saw("9"), outline, (2.0, 1.0), (1.0, 0.0), False)[0].reach)
