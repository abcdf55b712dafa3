"""Volume and centroid with copes, rounded corners and holes, between a solid too small and one too large."""

from __future__ import annotations

from fractions import Fraction as F
from itertools import pairwise
from math import radians, tan
from random import Random

import cutters
import numpy as np
import oracle_parts
import pytest
import solids
from shapely.geometry import Polygon, box

from anglelib.errors import PartError
from anglelib.geometry.along import section_at
from anglelib.geometry.solid import solid_of
from anglelib.geometry.volume import volume
from anglelib.part import Cope, Corner, Hole, Part, Taper
from anglelib.section import Section, largest_heel_radius

STOCK = Section("1 1/2", "1 1/2", "1/8", fillet="3/16")
ROUND = Section("1 1/2", "1 1/4", "1/8", "3/16", fillet="3/16", toe_radius="3/32", heel_radius="1/16")


def made(section=STOCK, length=6, **features) -> Part:
    return Part("P1", "Trial", section, "6061-T6", length, **features)


def check_between(part: Part, steps: int = 48, width: float = 1e-3) -> None:
    """Volume and the three first moments of the library, between the two solids' own."""
    solid = solid_of(part)
    ours = np.array([solid.volume, *(solid.volume * c for c in solid.centroid)])
    less, more = (solids.moments(cutters.finished(part, metal, steps)) for metal in (solids.LESS, solids.MORE))
    room = 1e-10 * more
    assert np.all(less - room <= ours) and np.all(ours <= more + room), (part, less, ours, more)
    assert np.all(more - less < width * more), f"the bounds are too far apart to prove anything: {part}"


def taken(part: Part) -> float:
    """What copes, corners and holes take off: the tapered stick less the finished part."""
    bare = Part("P1", "Trial", part.section, part.alloy, part.length, tapers=part.tapers)
    return solid_of(bare).volume - solid_of(part).volume


def check_taken(part: Part, steps: int = 128) -> None:
    """The same to the kernel, which may be too much or too little by the polygons of the arcs."""
    bare = Part("P1", "Trial", part.section, part.alloy, part.length, tapers=part.tapers)
    kernel = [
        solids.part_solid(bare, metal, steps).volume() - cutters.finished(part, metal, steps).volume()
        for metal in (solids.LESS, solids.MORE)
    ]
    assert taken(part) == pytest.approx(sum(kernel) / 2, rel=5e-3), (part, kernel)
    assert abs(kernel[0] - kernel[1]) < 0.05 * kernel[0], f"the bounds are too far apart to prove anything: {part}"


@pytest.mark.parametrize("section", [STOCK, ROUND], ids=["plain", "rounded toes"])
@pytest.mark.parametrize("leg", ["A", "B"])
@pytest.mark.parametrize("end", [1, 2])
def test_a_rounded_corner(section, leg, end):
    for taper in ((), (Taper(leg, end, "1/4", run=2),), (Taper(leg, end, run="1/2"),)):
        part = made(section, tapers=taper, corners=[Corner(leg, end, "3/8")])
        check_between(part)
        check_taken(part)


@pytest.mark.parametrize("section", [STOCK, ROUND], ids=["plain", "rounded toes"])
@pytest.mark.parametrize("leg", ["A", "B"])
@pytest.mark.parametrize("end", [1, 2])
def test_a_cope(section, leg, end):
    flush = section.thickness("B" if leg == "A" else "A")
    for left in (flush, flush + F(1, 16), F(3, 4)):
        part = made(section, copes=[Cope(leg, end, "1 1/2", left, "3/16")])
        check_between(part)
        check_taken(part)


def test_copes_of_both_legs_that_meet_in_the_fillet():
    copes = [Cope("A", 1, 1, "1/8", "1/8"), Cope("B", 1, "3/4", "5/32", "1/8")]
    check_between(made(copes=copes))
    check_taken(made(copes=copes))


def test_holes_in_the_fillet_and_in_the_rounded_toe():
    """A hole may run into the fillet, where the metal is thicker, and into a rounded toe, where it is thinner."""
    for part in (
        made(ROUND, holes=[Hole("A", 2, "9/32", "3/16"), Hole("B", 4, "1 9/64", "3/16")]),
        made(holes=[Hole("A", 2, "7/32", "3/16"), Hole("B", 2, "7/32", "3/16")]),
    ):
        check_between(part)
        check_taken(part)


def test_a_hole_that_breaks_through_a_taper_is_taken_once():
    part = made(tapers=[Taper("A", 1, "3/8", run=2)], holes=[Hole("A", 1, "15/16", "1/4")])
    check_between(part)
    check_taken(part)
    assert taken(part) < 0.8 * 0.125 * 3.14159 / 64


def test_holes_that_run_into_each_other_are_taken_once():
    part = made(holes=[Hole("A", 2, 1, "1/4"), Hole("A", "2 1/8", "1 1/16", "3/16")])
    check_between(part)
    check_taken(part)


def test_everything_at_once():
    check_between(
        made(
            ROUND,
            tapers=[Taper("A", 1, "3/8", run=2), Taper("B", 1, run=1)],
            corners=[Corner("A", 1, "1/4"), Corner("B", 2, "1/8")],
            copes=[Cope("A", 2, 1, "3/8", "1/8")],
            holes=[Hole("A", 3, 1, "3/16"), Hole("B", 4, "3/4", "1/8")],
        )
    )


def test_fine_polygons_close_in_on_the_part():
    part = made(tapers=[Taper("A", 1, "3/8", run=2)], corners=[Corner("A", 1, "1/2")], copes=[Cope("B", 2, 1, "1/2", "1/4")])
    gaps = []
    for steps in (16, 32, 64):
        less, more = (cutters.finished(part, metal, steps).volume() for metal in (solids.LESS, solids.MORE))
        assert less < solid_of(part).volume < more
        gaps.append(more - less)
    assert all(3.8 < wide / close < 4.2 for wide, close in pairwise(gaps))


def test_what_rounding_takes_is_its_area_times_the_thickness():
    """Away from a rounded toe: area lost (of the cutter's outline, by shapely) times 1/8 in."""
    part = made(tapers=[Taper("A", 1, "1/4", run=2)], corners=[Corner("A", 1, "3/8")])
    lost = [cutters.tapered_leg(part, "A").area - cutters.face_outline(part, "A", m, 512).area for m in (solids.LESS, solids.MORE)]
    assert lost[1] / 8 < taken(part) < lost[0] / 8


def _fuzz(first: int, last: int) -> None:
    for seed in range(first, last):
        try:
            check_between(oracle_parts.part(Random(f"finished {seed}")), steps=16, width=0.2)
        except AssertionError as error:
            raise AssertionError(f"seed {seed}: {error}") from None


def test_random_parts():
    _fuzz(0, 60)


@pytest.mark.slow
@pytest.mark.parametrize("block", range(20))
def test_two_thousand_random_parts(block):
    _fuzz(100 + 100 * block, 200 + 100 * block)


# --- parts of which little or nothing is left -----------------------------------------------------------
def thin(rng: Random) -> Part:
    """A thin, round-heeled section, short, with two to four long tapers: often a sliver, sometimes nothing."""
    a, b = (F(rng.randint(250, 900), 1000) for _ in "AB")
    ta, tb = (F(rng.randint(15, 120), 1000) for _ in "AB")
    toe = F(rng.randint(0, int(min(ta, tb) * 1000)), 1000)
    fillet = F(rng.randint(0, int((min(a - tb, b - ta) - toe) * 1000)), 1000)
    most = largest_heel_radius(a, b, ta, tb, fillet)
    stock = Section(a, b, ta, tb, fillet, toe, most * F(rng.randint(0, 95), 100))
    places = [(leg, end) for leg in "AB" for end in (1, 2)]
    rng.shuffle(places)
    tapers = []
    for leg, end in places[: rng.randint(2, 4)]:
        left = F(rng.choice((0, rng.randint(0, 60), rng.randint(0, int(stock.leg(leg) * 1000) - 1))), 1000)
        slope = {"run": F(rng.randint(300, 15000), 1000)} if rng.random() < 0.6 else {"angle": F(rng.randint(80, 4000), 100)}
        tapers.append(Taper(leg, end, left, **slope))
    return Part("P1", "Thin", stock, "6061-T6", F(rng.randint(300, 3000), 1000), tapers=tapers)


def check_thin(part: Part) -> str:
    """Nothing where both solids are nothing; else the moments between theirs. What came out."""
    less, more = (solids.part_solid(part, metal, 24) for metal in (solids.LESS, solids.MORE))
    stick = part.section.area * float(part.length)
    if more.volume() <= 1e-13 * stick:
        with pytest.raises(PartError, match="leave no metal"):
            solid_of(part)
        return "none"
    if less.volume() <= 1e-9 * stick:
        try:
            assert 0 < solid_of(part).volume <= more.volume() * (1 + 1e-9)
        except PartError as error:
            assert "leave no metal" in str(error)
        return "a speck"
    check_between(part, steps=24, width=9)
    return "metal"


def _thin(first: int, last: int) -> dict[str, int]:
    found: dict[str, int] = {}
    for seed in range(first, last):
        try:
            came = check_thin(thin(Random(f"thin {seed}")))
        except AssertionError as error:
            raise AssertionError(f"thin part {seed}: {error}") from None
        found[came] = found.get(came, 0) + 1
    return found


def test_thin_parts():
    found = _thin(0, 90)
    assert found["none"] >= 3 and found["metal"] > 50


@pytest.mark.slow
@pytest.mark.parametrize("block", range(10))
def test_two_thousand_thin_parts(block):
    _thin(150 + 200 * block, 350 + 200 * block)


@pytest.mark.parametrize("seed", range(30))
def test_sections_along_thin_parts_with_round_heels(seed):
    """The outline of the section clipped to what each taper leaves of its leg at a place: its area and centroid."""
    rng = Random(f"thin section {seed}")
    part = thin(rng)
    x = rng.uniform(0.05, 0.95) * float(part.length)
    highest = {"A": 9.0, "B": 9.0}
    for taper in part.tapers:
        rise = 1 / (float(taper.run) / float(part.section.leg(taper.leg) - taper.width_left)) if taper.run else tan(radians(taper.angle))
        highest[taper.leg] = min(highest[taper.leg], float(taper.width_left) + (x if taper.end == 1 else float(part.length) - x) * rise)
    window = box(-1, -1, highest["A"], highest["B"])
    less, more = (Polygon(solids.outline(part.section, metal, 400)).buffer(0).intersection(window) for metal in (solids.LESS, solids.MORE))
    found = section_at(part, x)
    assert less.area - 1e-12 <= found.area <= more.area + 1e-12
    if less.area > 1e-3:
        assert found.centroid == pytest.approx(less.centroid.coords[0], abs=2e-3)
    bare = Part("P1", "Thin", part.section, "6061-T6", 40, tapers=part.tapers[:1])
    assert volume(bare) == pytest.approx(solid_of(bare).volume, rel=1e-9)


def test_tapers_that_leave_no_metal_are_refused_in_a_sentence():
    """A heel so round that three tapers take all of what stands behind it: both solids of the kernel are nothing."""
    stock = Section(F(399, 500), F(27, 50), F(13, 250), F(27, 250), fillet=F(89, 200), toe_radius=F(43, 1000), heel_radius=F(497, 1000))
    tapers = [Taper("B", 2, F(19, 500), run=F(131, 125)), Taper("A", 2, 0, angle=F(59, 50)), Taper("B", 1, F(9, 250), run=F(4017, 1000))]
    part = made(stock, F(569, 200), tapers=tapers)
    assert check_thin(part) == "none"
    with pytest.raises(PartError, match="The cuts of part P1 leave no metal: shorten a run"):
        volume(part)
