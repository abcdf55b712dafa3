"""Legs not at 90 degrees, drawn by shapely and sawn by the kernel; twisted sticks and sloping toes, turned and measured."""

from __future__ import annotations

from math import radians, sqrt, tan
from random import Random

import numpy as np
import pytest
import shapely
import solids
from scipy.spatial.transform import Rotation
from shapely.affinity import rotate
from shapely.geometry import LineString, Polygon, box
from shapely.geometry.polygon import orient
from straightedge import at_height, turned

from anglelib.errors import PartError
from anglelib.geometry.leaning_legs import LeaningLegs
from anglelib.geometry.stock_faults import BevelledToe, twist_from_rise, twist_rises
from anglelib.geometry.taper import TaperLine
from anglelib.paper.receiving import twist
from anglelib.part import Taper
from anglelib.section import Section

STOCK = Section("1 1/2", "1 1/4", "1/8", "3/16", fillet="3/16")
ROUND = Section("1 1/2", "1 1/4", "1/8", "3/16", fillet="1/4", toe_radius="3/32")
OPENINGS = [-12.0, -2.0, -0.5, 0.0, 1.5, 2.0, 9.0]


def leg(width: float, thick: float, toe: float, corner_up: bool) -> Polygon:
    """A leg along y (corner_up: along z) with its inner toe rounded."""
    arc = [turned((toe, 0), angle) for angle in np.linspace(0, 90, 721)] if toe else [(0.0, 0.0)]
    points = [(0, 0), (width, 0), *((width - toe + x, thick - toe + y) for x, y in arc), (0, thick)]
    return Polygon([(y, x) for x, y in points] if corner_up else points)


def leaning(section: Section, opening: float, fine: int = 4000) -> Polygon:
    """The section with leg B leaned about the heel, its inside corner filled by closing the shape with a disc of the fillet."""
    a, b, ta, tb, r, toe = (
        float(v) for v in (section.leg_a, section.leg_b, section.thickness_a, section.thickness("B"), section.fillet, section.toe_radius)
    )
    bare = leg(a, ta, toe, False).union(rotate(leg(b, tb, toe, True), opening, origin=(0, 0)))
    closed = bare.buffer(r, join_style="mitre", mitre_limit=99).buffer(-r, quad_segs=fine)
    # Only the fillet is meant: what the disc fills elsewhere is none.
    return bare.union(closed.intersection(box(-9, -9, min(a, b) / 1.6, min(a, b) / 1.6)))


def flat_from(shape: Polygon, section: Section, opening: float, on: str) -> float:
    """Where the straight inner face begins on a leg: the outline's piece that lies on the face's line."""
    thick, wide = float(section.thickness(on)), float(section.leg(on))
    face = LineString([(0.1, thick), (wide, thick)]) if on == "A" else rotate(LineString([(thick, 0.1), (thick, wide)]), opening, origin=(0, 0))
    on_it = shape.exterior.intersection(face.buffer(1e-8))
    points = shapely.get_coordinates(on_it)
    back = [turned(p, -opening if on == "B" else 0) for p in points]
    return min(p[0] if on == "A" else p[1] for p in back)


@pytest.mark.parametrize("opening", OPENINGS)
@pytest.mark.parametrize("section", [STOCK, ROUND], ids=["sharp toes", "round toes"])
def test_where_the_fillet_begins(section, opening):
    legs, shape = LeaningLegs(section, opening), leaning(section, opening)
    r = float(section.fillet)
    for on in "AB":
        # The face's buffer of 1e-8 also holds the first of the arc, sqrt(2 r 1e-8) long.
        assert legs.fillet_start(on) == pytest.approx(flat_from(shape, section, opening, on), abs=2 * sqrt(2 * r * 1e-8))
        # Naive: thickness and fillet of legs at 90.
        naive = float(section.thickness("B" if on == "A" else "A")) + r
        assert opening == 0 or abs(legs.fillet_start(on) - naive) > 2e-3 * abs(opening)
    arc = [p for p in shapely.get_coordinates(shape.exterior) if np.hypot(*p) < 0.9 and p[0] > 0.05 and p[1] > 0.05]
    centre_y = legs.fillet_start("A")
    centre = np.array([centre_y, float(section.thickness_a) + r])
    on_arc = [p for p in arc if abs(np.hypot(*(p - centre)) - r) < 1e-6]
    assert legs.fillet_width == pytest.approx(LineString(sorted(map(tuple, on_arc), key=lambda p: np.arctan2(*(centre - p)))).length, rel=2e-3)


@pytest.mark.parametrize("opening", OPENINGS)
@pytest.mark.parametrize("section", [STOCK, ROUND], ids=["sharp toes", "round toes"])
def test_the_light_beside_a_square(section, opening):
    """A blade square to leg A is pushed against leg B's inner face between fillet and round toe: the widest light left."""
    legs = LeaningLegs(section, opening)
    low, high = legs.fillet_start("B"), float(section.leg_b - section.toe_radius)
    face = rotate(LineString([(float(section.thickness("B")), low), (float(section.thickness("B")), high)]), opening, origin=(0, 0))
    blade = max(y for y, _ in face.coords)
    assert legs.square_gap("B") == pytest.approx(max(blade - y for y, _ in face.coords), abs=1e-12)


def sawn(outline: Polygon, slope: float, left: float):
    ring = list(orient(outline).exterior.coords)[:-1]
    saw = solids.Saw((0, left, 0), (slope, left + 1, 0), (0, left, 1), keep=(1e3, 0, 0))
    return saw.cut(solids.prism(ring, -20, 20))


@pytest.mark.parametrize("opening", [-6.0, -2.0, -0.5, 2.0])
@pytest.mark.parametrize("angle", [45, 10])
@pytest.mark.parametrize("left", ["0", "3/16", "1/2"])
@pytest.mark.parametrize("section", [STOCK, ROUND], ids=["sharp toes", "round toes"])
def test_the_nick_of_closed_legs(section, opening, angle, left):
    """The stick sawn square to leg A: how far from the end has leg B's toe lost metal, on the half of it next to the toe?"""
    legs, line = LeaningLegs(section, opening), TaperLine.of(section, Taper("A", 1, left, angle=angle))
    slope = 1 / tan(radians(angle))
    corners = solids.vertices(sawn(leaning(section, opening, 16), slope, float(line.width_left)))
    along = [(turned((y, z), -opening), x) for x, y, z in corners if x < 19]
    near_toe = [x for (_, z), x in along if z > 0.6 * float(section.leg_b)]
    cut = max(0.0, max(near_toe)) if near_toe else 0.0
    if opening < 0:
        assert legs.nick(line) == pytest.approx(cut, abs=1e-6 * slope)
        naive = line.vertex_projection or 0
        assert legs.nick(line) >= float(naive)  # a mark for legs at 90 does not show it
    else:
        assert legs.nick(line) == 0
    # The mark on the tapered leg's flat, beside the fillet, on the straight line of the outer face.
    start = at_height((0, float(line.width_left)), (slope, float(line.width_left) + 1), legs.fillet_start("A"))
    assert legs.first_flat(line) == pytest.approx(start, abs=1e-9)


def test_at_90_degrees_all_is_as_the_taper_says():
    legs, line = LeaningLegs(STOCK, 0), TaperLine.of(STOCK, Taper("A", 1, run=2))
    assert legs.first_flat(line) == pytest.approx(float(line.first_flat)) and legs.mark_off(line) == 0 == legs.square_gap("A")
    assert legs.fillet_width == pytest.approx(line.fillet_width) and legs.inside_corner("A") == float(STOCK.thickness("B"))
    # Two degrees at ten: the mark of the vertex projection is 24 thousandths off.
    flat = TaperLine.of(Section("1 1/2", "1 1/2", "1/8", fillet="3/16"), Taper("A", 1, angle=10))
    assert LeaningLegs(flat.section, 2).mark_off(flat) == pytest.approx(0.6846 - 0.7089, abs=1e-4)


@pytest.mark.parametrize(
    "section, opening, match",
    [
        (STOCK, float("nan"), "measure it again"),
        (STOCK, -46, "from -45 to 45"),
        (Section(1, 1, "1/8", fillet="3/4"), -10, "does not fit between legs that close by 10 degrees"),
    ],
)
def test_legs_that_are_none(section, opening, match):
    with pytest.raises(PartError, match=match):
        LeaningLegs(section, opening)


# --- a stick that is twisted ------------------------------------------------------------------------------
@pytest.mark.parametrize("per_foot, distance", [(1, 12), (0.5, 72), (-0.25, 144), (3, 60)])
def test_rise_of_a_twisted_stick(per_foot, distance):
    """Sections an eighth of an inch apart, each turned a little more than the last, about the heel: how high is the last one's toe?"""
    steps = int(8 * distance)
    turn = Rotation.identity()
    for _ in range(steps):
        turn = Rotation.from_euler("x", abs(per_foot) / 96, degrees=True) * turn
    rises = turn.apply([0, 1.5, 0])[2], turn.apply([0, 1.25, 0])[2]
    assert twist_rises(STOCK, per_foot, distance) == pytest.approx(rises, rel=1e-9)
    assert twist_from_rise(1.25, rises[1], distance) == pytest.approx(abs(per_foot), rel=1e-9)


def test_what_the_published_limit_of_twist_lifts():
    """ANSI H35.2 as an extruders' council prints it: a circle of 1.5 to 2.999 in. may twist 1/2 degree a foot."""
    per_foot, most = twist(STOCK)
    assert (per_foot, most) == (0.5, 5.0)
    by_triangle = rotate(LineString([(0, 0), (1.5, 0)]), per_foot, origin=(0, 0)).bounds[3]
    assert twist_rises(STOCK, per_foot, 12)[0] == pytest.approx(by_triangle, rel=1e-12)


@pytest.mark.parametrize(
    "ask, match",
    [
        (lambda: twist_rises(STOCK, 10, 144), "cannot turn over 90 degrees"),
        (lambda: twist_rises(STOCK, float("nan"), 12), "give its twist for each foot"),
        (lambda: twist_rises(STOCK, 1, -12), "give it as 0 or more"),
        (lambda: twist_from_rise(0.75, 0.9, 24), "measure the gap under the toe again"),
        (lambda: twist_from_rise(0.75, -0.1, 24), "measure the gap under the toe again"),
        (lambda: twist_from_rise(0.75, 0.1, 0), "must be lengths above 0"),
        (lambda: BevelledToe(STOCK, "A", 60), "from 0 to 45"),
        (lambda: BevelledToe(STOCK, "A", -1), "from 0 to 45"),
        (lambda: BevelledToe(STOCK, "A", float("inf")), "measure it again"),
        (lambda: BevelledToe(Section("3/4", "3/4", "23/32"), "A", 45.0).mark_short(TaperLine.of(STOCK, Taper("B", 1, run=1))), "give the toe of the tapered leg"),
    ],
)
def test_twists_and_toes_that_are_none(ask, match):
    with pytest.raises(PartError, match=match):
        ask()


# --- a toe that slopes ----------------------------------------------------------------------------------------
@pytest.mark.parametrize("seed", range(40))
def test_a_toe_that_slopes(seed):
    """A block that goes on below the leg, its edge sloped, its corners rounded by shapely: where does the inner face on top of it end?"""
    rng = Random(f"toe {seed}")
    slope, section = rng.uniform(0, 30), Section("1 1/2", "1 1/4", "1/8", "3/16", toe_radius=rng.choice(("0", "1/32", "3/32", "1/8")))
    t, r2 = 0.125, float(section.toe_radius)
    lean = tan(radians(slope))
    bare = Polygon([(0, -2), (1.5 + 2 * lean, -2), (1.5 - t * lean, t), (0, t)])
    soft = bare.buffer(-r2, join_style="mitre", mitre_limit=99).buffer(r2, quad_segs=4000) if r2 else bare
    top = soft.exterior.intersection(box(-9, t - 1e-9, 9, t + 1e-9))
    toe = BevelledToe(section, "A", slope)
    assert toe.inner_width == pytest.approx(top.bounds[2], abs=2 * sqrt(2 * max(r2, 1e-9) * 1e-9) + 1e-6)
    line = TaperLine.of(section, Taper("A", 1, "1/4", run=3))
    short = 3 - at_height((0, 0.25), (3, 1.5), toe.inner_width)
    assert toe.mark_short(line) == pytest.approx(short, abs=1e-9)
    if not slope:
        assert toe.inner_width == 1.5 - r2
