"""The largest and the least part that pass: nested, whole, with their corners, copes and broken edges."""

from dataclasses import replace
from fractions import Fraction

import pytest

from anglelib.geometry.at_limits import EVERY, at_limit, strayed
from anglelib.geometry.outlines import corners_of, face_edges
from anglelib.geometry.solid import solid_of
from anglelib.part import Cope, Corner, Part, Taper
from anglelib.section import Section
from anglelib.tolerances import Limits

STOCK = Section(1, 1, "1/8", fillet="1/8")


def coped(length: str, depth: str, radius: str) -> Part:
    cope = Cope("A", 2, length, Fraction(1) - Fraction(depth), radius)
    return Part("P1", "Trial", STOCK, "6061-T6", 4, copes=[cope])


@pytest.mark.parametrize("setting", ["m", "inch", "1/32", "1/8"])
@pytest.mark.parametrize(("length", "depth", "radius"), [("1/2", "3/16", "3/16"), ("3/16", "1/2", "3/16"), ("1/4", "1/4", "1/4"), ("1/16", "1/16", "1/16")])
def test_a_cope_as_small_as_its_radius_has_both_limits(length, depth, radius, setting):
    part = coped(length, depth, radius)
    most, least = (at_limit(part, Limits.named(setting), largest) for largest in (True, False))
    # compared at one length: only the cope is looked at
    volumes = [solid_of(replace(one, length=part.length)).volume for one in (least, part, most)]
    assert volumes == sorted(volumes) and volumes[0] < volumes[1] < volumes[2]
    for cope in most.copes:
        assert cope.radius <= cope.length and cope.radius <= Fraction(1) - cope.width_left


def test_a_cope_that_its_limits_take_away_is_not_on_the_largest_part():
    part = coped("1/16", "1/16", "1/16")
    assert at_limit(part, Limits.named("1/8"), True).copes == () and at_limit(part, Limits.named("1/8"), False).copes


def test_a_half_round_clip_keeps_its_corners_at_both_limits():
    """1 1/2 long with two corners of 3/4: on the least part the length falls and the radii grow, and what fits is kept."""
    clip = Part("P1", "Clip", Section("1 1/2", "1 1/2", "1/8"), "6061-T6", "1 1/2", corners=[Corner("A", 1, "3/4"), Corner("A", 2, "3/4")])
    for limits in (Limits(), Limits("iso-m"), Limits.named("1/16")):
        most, least = at_limit(clip, limits, True), at_limit(clip, limits, False)
        assert len(most.corners) == len(least.corners) == 2
        assert sum(corner.radius for corner in least.corners) <= least.length
        assert float(sum(corner.radius for corner in least.corners)) == pytest.approx(float(least.length), abs=1e-6)
        assert all(corner.radius < Fraction(3, 4) for corner in most.corners)


@pytest.mark.parametrize("part", [
    Part("P1", "Trial", STOCK, "6061-T6", 6, [Taper("A", 1, "3/8", run=2), Taper("B", 2, run="1 1/2")], corners=[Corner("B", 1, "1/4")], copes=[Cope("A", 2, 1, "1/2", "1/8")]),
    Part("P2", "Trial", STOCK, "6061-T6", 6, [Taper("A", 1, "3/8", angle="25"), Taper("A", 2, "1/4", angle="40")], corners=[Corner("A", 1, "3/8")]),
    Part("P3", "Trial", STOCK, "6061-T6", 3, [Taper("A", 1, blunt="1/32", run=2)], corners=[Corner("B", 1, "1/4"), Corner("B", 2, "1/4")]),
], ids=lambda part: part.id)  # fmt: skip
def test_the_least_lies_within_the_part_and_the_part_within_the_largest(part):
    """By shapely, each leg's outer face set against end 1: nothing of the smaller one lies outside the larger."""
    from shapely.geometry import Polygon

    limits = Limits()
    for leg in "AB":
        least, nominal, most = (Polygon(corners_of(face_edges(one, leg), 1.0)) for one in (at_limit(part, limits, False), part, at_limit(part, limits, True)))
        assert least.area < nominal.area < most.area
        assert nominal.difference(most.buffer(1e-4)).area < 1e-6 and least.difference(nominal.buffer(1e-4)).area < 1e-6


def test_a_taper_is_held_to_its_run_or_to_its_angle():
    by_run = Part("P1", "Trial", STOCK, "6061-T6", 6, [Taper("A", 1, "3/8", run=2)])
    by_angle = Part("P1", "Trial", STOCK, "6061-T6", 6, [Taper("A", 1, "3/8", angle="20")])
    for most, sign in ((True, 1), (False, -1)):
        one, two = at_limit(by_run, Limits(), most).tapers[0], at_limit(by_angle, Limits(), most).tapers[0]
        assert (one.run, one.angle) == (2 - sign * Fraction(1, 64), None)
        assert (two.run, two.angle) == (None, 20 + sign * Fraction(1, 2))  # half a degree, common practice
        assert one.width_left == two.width_left == Fraction(3, 8) + sign * Fraction(1, 64)


def test_a_feather_edge_is_sharp_on_the_largest_part_and_broken_on_the_least():
    part = Part("P1", "Trial", STOCK, "6061-T6", 6, [Taper("A", 1, run=2)])
    assert at_limit(part, Limits(), False).tapers[0].blunt == Fraction(1, 64)
    assert at_limit(part, Limits(), True).tapers[0].width_left == Fraction(1, 64)  # no edge at all
    blunted = replace(part, tapers=(Taper("A", 1, run=2, blunt="1/16"),))
    assert at_limit(blunted, Limits(), False).tapers[0].blunt == Fraction(5, 64)


def test_every_corner_of_the_limits_is_another_part():
    part = Part("P1", "Trial", STOCK, "6061-T6", 6, [Taper("A", 1, "3/8", run=2)])
    assert len({strayed(part, Limits(), ways) for ways in EVERY}) == 8


def only(taper: Taper, largest: bool, limits: Limits = Limits.named("1/32"), stock: Section = STOCK) -> Taper:
    return at_limit(Part("P1", "Trial", stock, "6061-T6", 4, [taper]), limits, largest).tapers[0]


@pytest.mark.parametrize(
    ("taper", "largest", "run", "left", "blunt"),
    [
        (Taper("A", 1, "3/8", run=2), True, "63/32", "13/32", None), (Taper("A", 1, "3/8", run=2), False, "65/32", "11/32", None),
        (Taper("A", 1, "1/64", run="1/32"), True, "1/64", "3/64", None), (Taper("A", 1, "31/32", run=1), True, "31/32", "63/64", None),  # half of a run, half of what is cut stays
        (Taper("A", 1, run=2), True, "63/32", "1/32", None), (Taper("A", 1, run=2), False, "65/32", 0, "1/64"),  # broken as far as it may be
        (Taper("A", 1, "1/64", run=2), False, "65/32", 0, "1/64"),  # so little is left that it may be none
        (Taper("A", 1, run=2, blunt="1/16"), True, "63/32", "1/32", None), (Taper("A", 1, run=2, blunt="1/16"), False, "65/32", 0, "3/32"),
        (Taper("A", 1, run=2, blunt="3/32"), False, "65/32", 0, "7/64"),  # seven eighths of the other leg, never all of it
    ],
)  # fmt: skip
def test_a_taper_at_its_limits_by_hand(taper, largest, run, left, blunt):
    """Every length 1/32 either way."""
    found = only(taper, largest)
    assert (found.run, found.width_left, found.blunt) == (Fraction(run), Fraction(left), None if blunt is None else Fraction(blunt))


def test_a_taper_that_is_held_to_its_angle():
    """ISO 2768-1 m, table 3: up to 10 mm of the shorter side 1 degree either way, to 50 mm half a degree; never beyond half of it, nor half of the rest to 90."""
    for width_left, angle, most, least in (("1/2", 30, "30.5", "29.5"), ("3/4", 30, 31, 29), ("1/2", "0.8", "1.3", "0.4"), ("3/4", "89.5", "89.75", "88.5")):
        taper = Taper("A", 1, width_left, angle=str(angle))
        assert [float(only(taper, largest, Limits("iso-m")).angle) for largest in (True, False)] == pytest.approx([float(most), float(least)]), (width_left, angle)


def test_a_cope_at_its_limits_by_hand():
    """1/32 less long and 1/32 higher, or the other way; the inside radius no larger than what is left; never into the other leg."""
    part = coped("1/2", "1/4", "1/8")
    most, least = (at_limit(part, Limits.named("1/32"), largest).copes[0] for largest in (True, False))
    assert (most.length, most.width_left, most.radius) == (Fraction(15, 32), Fraction(25, 32), Fraction(1, 8)) and (least.length, least.width_left) == (Fraction(17, 32), Fraction(23, 32))
    deep = at_limit(coped("1/2", "7/8", "1/8"), Limits.named("1/32"), False).copes[0]
    assert deep.width_left == Fraction(1, 8)
    long = at_limit(coped("3 3/4", "1/4", "1/8"), Limits.named("1/8"), False)
    assert long.length == Fraction(31, 8) and long.copes[0].length == (Fraction(15, 4) + long.length) / 2  # half-way to the length there is
    tiny = at_limit(coped("1/2", "1/32", "1/32"), Limits.named("1/64"), True).copes[0]
    assert tiny.radius == Fraction(1, 64) and at_limit(coped("1/2", "1/32", "1/32"), Limits.named("1/32"), True).copes == ()
