"""Volume, centroid and cut face of the finished part, between a solid too small and one too large.

The kernel's parts have flat faces only, so an arc is bounded from both sides (see ``solids``); every
moment of the true part lies between those of the two, because all coordinates are positive. How
close the two are is asserted too: a bound that holds everything would prove nothing.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from itertools import pairwise
from math import radians, sin
from random import Random

import numpy as np
import oracle_parts
import pytest
import solids

from anglelib.geometry.solid import area_beyond, first_moment_beyond, metal_to_sand, solid_of
from anglelib.geometry.taper import TaperLine
from anglelib.geometry.volume import cuts_apart, volume
from anglelib.part import Cope, Corner, Hole, Part, Taper
from anglelib.section import Section

STOCK = Section("1 1/2", "1 1/2", "1/8", fillet="3/16")
UNEQUAL = Section(2, "1 1/4", "3/16", "1/8", fillet="1/4", toe_radius="1/16", heel_radius="1/32")


def made(section, length, *tapers, holes=()) -> Part:
    return Part("P1", "Trial", section, "6061-T6", length, tapers=tapers, holes=holes)


def check_between(part: Part, steps: int = 48, width: float = 2e-3) -> None:
    """Volume and the three first moments of the library, between the two solids' own."""
    solid = solid_of(part)
    ours = np.array([solid.volume, *(solid.volume * c for c in solid.centroid)])
    less, more = (solids.moments(solids.part_solid(part, metal, steps)) for metal in (solids.LESS, solids.MORE))
    room = 1e-10 * more
    assert np.all(less - room <= ours) and np.all(ours <= more + room), (part, less, ours, more)
    assert np.all(more - less < width * more), f"the bounds are too far apart to prove anything: {part}"


@pytest.mark.parametrize("angle", ["45", "30", "20", "10"])
@pytest.mark.parametrize("leg", ["A", "B"])
@pytest.mark.parametrize("end", [1, 2])
def test_one_taper(end, leg, angle):
    for section in (STOCK, UNEQUAL):
        for left in (F(0), F(1, 16), F(3, 16), F(1, 4), F(3, 4)):
            check_between(made(section, 6, Taper(leg, end, left, angle=angle)), steps=96, width=2e-4)


def test_two_vertex_tapers_at_one_end_do_not_take_the_root_twice():
    check_between(made(STOCK, 6, Taper("A", 1, run=3), Taper("B", 1, run="1 1/2")))


def test_tapers_of_both_ends_that_cross():
    check_between(made(STOCK, 3, Taper("A", 1, run=2), Taper("A", 2, "1/4", run="2 1/2"), Taper("B", 2, angle="60")))


def test_a_taper_longer_than_its_part():
    check_between(made(UNEQUAL, 2, Taper("A", 1, "3/8", run=5), Taper("B", 2, run="1/2")))


def test_a_hole_is_drilled_through_its_leg():
    holes = [Hole("A", 3, "1", "3/16"), Hole("B", "4 1/2", "3/4", "1/8")]
    part = made(STOCK, 6, Taper("A", 1, run=2), holes=holes)
    check_between(part)
    bare = solid_of(made(STOCK, 6, Taper("A", 1, run=2))).volume
    drilled = sum((solids.hole_bit(STOCK, hole) ^ solids.bar(STOCK, 6.0)).volume() for hole in holes)
    assert bare - solid_of(part).volume == pytest.approx(drilled, rel=0.005)


HOLES = {
    "into the fillet": [Hole("A", 3, "1/4", "3/16")],
    "into one another": [Hole("A", 3, "3/4", "3/16"), Hole("A", "3 1/8", "13/16", "3/16")],
    "over the taper's line": [Hole("A", "1 1/2", "3/4", "3/16")],
    "where the taper has taken the leg": [Hole("A", "1/2", "1 1/4", "1/8")],
    "in both legs, beside one another": [Hole("A", 4, "1/4", "3/16"), Hole("B", 4, "1/4", "3/16")],
}


@pytest.mark.parametrize("holes", HOLES.values(), ids=HOLES)
def test_a_hole_takes_the_metal_that_is_there(holes):
    check_between(made(STOCK, 6, Taper("A", 1, run=3), holes=holes))


@pytest.mark.parametrize("leg", ["A", "B"])
@pytest.mark.parametrize("end", [1, 2])
def test_copes_and_rounded_corners(end, leg):
    for section in (STOCK, UNEQUAL):
        cope = Cope(leg, end, "1 1/4", "5/8", "1/8")
        deep = Cope(leg, end, 2, section.thickness("B" if leg == "A" else "A"), "1/4")
        other = Taper("B" if leg == "A" else "A", end, "1/16", run=2)
        for part in (
            replace(made(section, 6), copes=(cope,)),
            replace(made(section, 6, other), copes=(deep,)),
            replace(made(section, 6), corners=(Corner(leg, end, "3/8"),)),
            replace(made(section, 6, Taper(leg, end, "1/4", angle="35")), corners=(Corner(leg, end, "1/2"),)),
            replace(made(section, 6, Taper(leg, end, "1/4", run="1/2")), corners=(Corner(leg, end, "1/4"), Corner(leg, 3 - end, "1/4"))),
        ):
            check_between(part)


def test_fine_polygons_close_in_on_the_stick():
    """The two bounds draw together as the square of the polygon's steps, with the library between them.

    A chord leaves twice as much beside a small arc as a tangent does, so the true volume lies a third
    of the way from the one bound (tangents: too little metal in the fillet) to the other.
    """
    part = made(STOCK, 12, Taper("A", 1, angle="10"))
    gaps = []
    for steps in (16, 32, 64, 128):
        less, more = (solids.part_solid(part, metal, steps).volume() for metal in (solids.LESS, solids.MORE))
        assert less < solid_of(part).volume < more
        gaps.append(more - less)
    assert all(3.9 < wide / close < 4.1 for wide, close in pairwise(gaps))
    assert solid_of(part).volume == pytest.approx(less + gaps[-1] / 3, abs=2e-9)


@pytest.mark.parametrize("leg", ["A", "B"])
@pytest.mark.parametrize("left", [F(0), F(1, 16), F(3, 16), F(1, 4), F(3, 4)])
def test_the_sawn_face_and_what_the_taper_takes(left, leg):
    for section in (STOCK, UNEQUAL):
        taper = Taper(leg, 1, left, angle="25")
        line = TaperLine.of(section, taper)
        length = float(line.run) + 1.0
        saw = solids.taper_saw(section, length, taper)
        faces, taken = [], []
        for metal in (solids.LESS, solids.MORE):
            stick = solids.bar(section, length, metal, 96)
            kept = saw.cut(stick)
            faces.append(solids.face_area(kept, saw))
            taken.append(stick.volume() - kept.volume())
        face = area_beyond(section, leg, float(left)) / sin(radians(25))
        assert faces[0] - 1e-10 <= face <= faces[1] + 1e-10 and faces[1] - faces[0] < 1e-3 * faces[1]
        moved = float(line.slope) * first_moment_beyond(section, leg, float(left))
        assert taken[0] - 1e-10 <= moved <= taken[1] + 1e-10 and taken[1] - taken[0] < 1e-3 * taken[1]


@pytest.mark.parametrize("allowance", ["1/32", "1/8", "1/2"])
@pytest.mark.parametrize("leg", ["A", "B"])
@pytest.mark.parametrize("left", [F(0), F(1, 16), F(3, 16), F(3, 4)])
def test_metal_to_sand(left, leg, allowance):
    """What lies between the finished face and the saw's, end face and all."""
    for section in (STOCK, UNEQUAL):
        taper = Taper(leg, 1, left, angle="10")
        line = TaperLine.of(section, taper)
        length = float(line.run) + 1.0
        saw = solids.taper_saw(section, length, taper)
        sanded = []
        for metal in (solids.LESS, solids.MORE):
            stick = solids.bar(section, length, metal, 96)
            sanded.append(saw.moved_into_waste(float(F(allowance))).cut(stick).volume() - saw.cut(stick).volume())
        ours = metal_to_sand(line, F(allowance))
        assert sanded[0] - 1e-10 <= ours <= sanded[1] + 1e-10 and sanded[1] - sanded[0] < 2e-3 * sanded[1]


def test_metal_to_sand_of_the_worked_example():
    """10 degrees, 1/32 allowance on 1 1/2 x 1 1/2 x 1/8 with a 3/16 fillet; found by a kernel and by sampling."""
    assert metal_to_sand(TaperLine.of(STOCK, Taper("A", 1, angle="10")), F(1, 32)) == pytest.approx(0.061749, abs=1e-6)


def _fuzz(first: int, last: int) -> None:
    for seed in range(first, last):
        try:
            check_between(oracle_parts.part(Random(f"volume {seed}")), steps=16, width=0.15)
        except AssertionError as error:
            raise AssertionError(f"seed {seed}: {error}") from None


@pytest.mark.parametrize("block", range(5))
def test_random_parts(block):
    _fuzz(100 * block, 100 * (block + 1))


@pytest.mark.slow
@pytest.mark.parametrize("block", range(45))
def test_five_thousand_random_parts(block):
    _fuzz(500 + 100 * block, 600 + 100 * block)


MEET = {
    "a cope": replace(made(STOCK, 6, holes=[Hole("A", 3, "1", "3/16")]), copes=[Cope("A", 1, "1 1/2", "3/4", "3/16")]),
    "a rounded corner": replace(made(STOCK, 6), corners=[Corner("B", 2, "3/8")]),
    "a blunted feather edge": made(STOCK, 6, Taper("A", 1, run=2, blunt="1/16")),
    "two tapers of one end": made(STOCK, 6, Taper("A", 1, run=3), Taper("B", 1, run="1 1/2")),
    "tapers of both ends that cross": made(STOCK, 3, Taper("A", 1, run=2), Taper("A", 2, run="1 1/2")),
    "a hole over the heel's side of the taper's line": made(STOCK, 6, Taper("A", 1, run=2), holes=[Hole("A", 1, "11/16", "3/16")]),
    "a hole past the toe end of a taper": made(STOCK, 6, Taper("A", 2, run=2), holes=[Hole("A", "4 5/16", "1 5/16", "1/8")]),
    "a hole where the other leg's vertex taper has cut": made(STOCK, 6, Taper("A", 1, run="1/2"), holes=[Hole("B", "3/32", "3/4", "3/16")]),
    "a hole over a toe's radius": made(UNEQUAL, 6, holes=[Hole("A", 3, "1 7/8", "3/16")]),
    "a hole into the fillet": made(STOCK, 6, holes=HOLES["into the fillet"]),
    "holes into one another": made(STOCK, 6, holes=HOLES["into one another"]),
}


@pytest.mark.parametrize("name", MEET)
def test_where_cuts_meet_they_are_not_taken_off_one_by_one(name):
    """The short way would take the same metal twice: it must not be gone, and the general solid is asked."""
    part = MEET[name]
    assert volume(part) == solid_of(part).volume and not cuts_apart(part)
    if not any(taper.blunt for taper in part.tapers):  # those are held to solids of their own in test_finished_solid
        check_between(part)


def test_the_short_way_is_the_general_solids():
    """Where no cut meets another both ways give the metal, a hair before they meet too."""
    for holes, tapers in (
        ([], [Taper("A", 1, run=2), Taper("B", 2, "1/4", run=2)]),
        ([Hole("A", 3, "1", "3/16"), Hole("A", "3 3/16", "1", "3/16")], []),  # rim to rim
        ([Hole("A", 3, "13/32", "3/16")], []),  # rim at the end of the fillet
        ([Hole("B", 3, "1 13/32", "3/16")], []),  # rim at the toe
        ([], [Taper("A", 1, run=3), Taper("A", 2, run=3)]),  # they touch
    ):
        part = made(STOCK, 6, *tapers, holes=holes)
        assert cuts_apart(part)
        assert volume(part) == pytest.approx(solid_of(part).volume, rel=1e-9)
