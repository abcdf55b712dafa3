"""A slip by more or less: what the pictures show at half of it, at all of it and at twice, worked by hand from the readings."""

from __future__ import annotations

from dataclasses import replace
from math import atan, degrees, radians, tan

import pytest

from anglelib.errors import PartError
from anglelib.geometry.taper import TaperLine
from anglelib.inspection.by_amount import all_or_nothing, by_amount, one_way
from anglelib.inspection.made import Made, readings_of
from anglelib.inspection.mistakes import MISTAKES
from anglelib.inspection.slips import Case
from anglelib.inspection.taper_mistakes import (
    inside_corner_line,
    own_thickness,
    straight_over_fillet,
    with_run_along_slope,
    with_run_and_height_exchanged,
    with_width_left_forgotten,
)
from anglelib.job import Shop
from anglelib.part import Cope, Corner, Hole, Part, Taper
from anglelib.section import Section

SHOP = Shop()
STOCK = Section("3/4", "3/4", "1/8", fillet="1/8")
PART = Part(
    "E9L", "Everything", Section("1 1/2", "1 1/2", "1/8", fillet="1/8"), "6061-T6", 6, tapers=[Taper("A", 1, "3/8", run="1 1/2")],
    holes=[Hole("B", 3, "3/4", "1/8"), Hole("A", 2, "5/8", "1/8"), Hole("A", 4, "5/8", "1/8")], copes=[Cope("A", 2, 1, "3/4", "1/8")], corners=[Corner("B", 2, "1/4")],
)  # fmt: skip
K, E = 1 / 16, 1 / 32


def read(made: Made) -> dict[str, float]:
    return {id_: value for id_, value in readings_of(made).items() if id_ != "weight"}


def changed(id_: str, share: float = 1.0, part: Part = PART) -> dict[str, float]:
    """What a slip's one way does to each reading at a share of it."""
    made, wanted = read(by_amount(one_way(id_, part, SHOP), share)), read(Made.as_wanted(part))
    return {name: made[name] - wanted[name] for name in wanted if abs(made[name] - wanted[name]) > 1e-9}


SLOPE = 1.5 / 1.125  # run over height
ONE_WAY = [  # what is shown of each, at 100 %: as a shop makes it
    ("M01", {"heel": -K, "toe.A": -K, "toe.B": -K}),
    ("M02", {"heel": -K / 2, "toe.A": -K / 2, "toe.B": -K / 2}),
    ("M04", {"heel": -E, "toe.A": -E, "toe.B": -E}),
    ("M05", {"heel": 2 * E, "toe.A": 2 * E, "toe.B": 2 * E}),  # counted twice
    ("M06", {"heel": -K, "toe.A": -K, "toe.B": -K}),  # a middle piece of the batch
    ("M22", {"width.A.2": 0.0, "inside.A": -0.06}),
    ("M25", {"heel": -6 * 23.6e-6 * 58}),
]


@pytest.mark.parametrize(("id_", "shifts"), ONE_WAY)
def test_the_way_that_is_shown(id_, shifts):
    found = changed(id_)
    for name, by in shifts.items():
        assert found.get(name, 0.0) == pytest.approx(by, abs=4e-3 if id_ == "M22" else 1e-4), (name, found)


def test_both_ends_lose_the_whole_kerf():
    found = changed("M03")
    assert found["heel"] == pytest.approx(-2 * K) and found["hole.1.x"] == pytest.approx(-K)


def test_the_amounts_that_are_shown_are_a_shop_s():
    """Three degrees of drift from the toe mark, a lean of seven, a dressed end of 1/16, an end 2.4 degrees back on leg B, 1/32 a step."""
    taper = one_way("M14", PART, SHOP)
    new = taper.made.tapers[0]
    assert new.at_toe == 1.5 and degrees(atan(1 / new.slope)) - degrees(atan(1 / SLOPE)) == pytest.approx(3.08, abs=0.3)
    assert degrees(atan(one_way("M15", PART, SHOP).made.tapers[0].tilt)) == pytest.approx(7.4, abs=0.6)
    assert one_way("M16", PART, SHOP).made.start == pytest.approx(0.067, abs=0.006)
    assert one_way("M21", PART, SHOP).made.out_2 == pytest.approx((0.0, tan(radians(-2.4))), abs=5e-3)
    assert one_way("M18", PART, SHOP).amount == pytest.approx(0.03, abs=4e-3)
    assert one_way("M24", PART, SHOP).made.alloy == "2024"


def test_the_height_that_is_read_from_the_inside_is_the_first_hole_s():
    """Hole 2, on leg A, is nearest to end 1: the holes of leg A lie 1/8 too high, and no other."""
    assert changed("M11") == pytest.approx({"hole.2.y": 1 / 8, "hole.3.y": 1 / 8})
    assert changed("M11", part=replace(PART, holes=())).keys() <= {"width.A.1", "inside.A.1", "mid.A.1"}


def test_of_a_pair_the_one_made_wrong_is_the_other_hand():
    made = one_way("M26", replace(PART, corners=()), SHOP).made
    assert [(t.leg, t.end) for t in made.tapers] == [("B", 1)] and [(c.leg, c.end) for c in made.copes] == [("B", 2)] and [h.leg for h in made.holes] == ["A", "B", "B"]
    bar = Part("A3", "Bar", STOCK, "6061-T6", "17 1/4")
    with pytest.raises(PartError, match="cannot be made on part A3"):
        one_way("M26", bar, SHOP)
    with pytest.raises(PartError, match="no mistake"):
        one_way("M99", bar, SHOP)


@pytest.mark.parametrize("share", [0.25, 0.5])
@pytest.mark.parametrize("id_", ["M01", "M03", "M05", "M16", "M18", "M22", "M25"])
def test_half_a_slip_does_half_of_it_to_lengths_and_places(id_, share):
    whole, part = changed(id_), changed(id_, share)
    assert set(part) <= set(whole)
    for name in whole:
        if not name.startswith(("width.A.1", "inside.A.1", "mid")):  # these are read on a slope
            assert part.get(name, 0.0) == pytest.approx(share * whole[name], abs=2e-6), name


def test_half_of_every_feature_lies_half_way():
    """A part on which everything is off by a number of its own."""
    wanted = Made.as_wanted(PART)
    made = replace(
        wanted, start=0.1, stop=5.8, tapers=(replace(wanted.tapers[0], at_toe=1.6, slope=1.5, tilt=0.2),), copes=(replace(wanted.copes[0], length=1.2, left=0.65),),
        corners=(replace(wanted.corners[0], radius=0.35),), holes=tuple(replace(h, x=h.x + 0.3, y=h.y + 0.07) for h in wanted.holes),
        out_1=(0.01, 0.02), out_2=(0.03, 0.04), filed=(0.05, 0.06), scale=0.99,
    )  # fmt: skip
    half = by_amount(Case("", made), 0.5)
    assert (half.start, half.stop, half.scale) == pytest.approx((0.05, 5.9, 0.995))
    assert (half.tapers[0].at_toe, half.tapers[0].slope, half.tapers[0].tilt) == pytest.approx((1.55, (SLOPE + 1.5) / 2, 0.1))
    assert (half.copes[0].length, half.copes[0].left, half.corners[0].radius) == pytest.approx((1.1, 0.7, 0.3))
    assert [(h.x, h.y) for h in half.holes] == [pytest.approx((float(h.x) + 0.15, float(h.y) + 0.035)) for h in PART.holes]
    assert (*half.out_1, *half.out_2, *half.filed) == pytest.approx((0.005, 0.01, 0.015, 0.02, 0.025, 0.03))
    assert by_amount(Case("", made), 1) == made and by_amount(Case("", made), 0) == by_amount(Case("", made), -1) == wanted


def test_twice_a_slip_is_twice_while_there_is_metal_for_it():
    assert changed("M01", 2.0) == pytest.approx({"heel": -2 * K, "toe.A": -2 * K, "toe.B": -2 * K})
    # A hole 5/8 from the heel may move up to the toe of 3/4, not beyond: from 1/8 too high on, there is no more.
    low = Part("P1", "Strip", STOCK, "6061-T6", 6, holes=[Hole("A", 3, "9/16", "1/8")])
    shown = by_amount(one_way("M11", low, SHOP), 3.0)
    assert shown.can_be and 0.6875 <= shown.holes[0].y < 0.75
    more = replace(shown, holes=(replace(shown.holes[0], y=shown.holes[0].y + 0.05 / 8),))  # a step of a twentieth more
    assert not more.can_be


def test_a_slope_and_a_radius_stay_above_nought_at_twice():
    wanted = Made.as_wanted(PART)
    made = replace(wanted, tapers=(replace(wanted.tapers[0], slope=0.1),), corners=(replace(wanted.corners[0], radius=0.1),))
    twice = by_amount(Case("", made), 2.0)
    assert 0 < twice.tapers[0].slope < 0.01 and twice.corners[0].radius == 0


ALL_OR_NOTHING = {"M09", "M10", "M23", "M24", "M26"}


@pytest.mark.parametrize("id_", MISTAKES)
def test_what_goes_by_degrees_and_what_does_not(id_):
    """A leg, an end, a section, an alloy is right or wrong; all else can be so much of it."""
    part = replace(PART, corners=()) if id_ == "M26" else Part("A1L", "Cleat", STOCK, "6061-T6", "4 1/8", tapers=[Taper("A", 1, run="1 1/4")], holes=[Hole("A", 2, "1/4", "1/8"), Hole("B", 3, "3/8", "1/8")])
    case = one_way(id_, part, SHOP)
    assert all_or_nothing(case) is (id_ in ALL_OR_NOTHING)
    if id_ in ALL_OR_NOTHING:
        assert by_amount(case, 0.3) == case.made


def test_a_hole_on_the_other_leg_is_no_matter_of_degrees():
    wanted = Made.as_wanted(PART)
    assert all_or_nothing(Case("", replace(wanted, holes=tuple(replace(h, leg="B") for h in wanted.holes))))
    assert all_or_nothing(Case("", replace(wanted, copes=(replace(wanted.copes[0], end=1),))))
    assert all_or_nothing(Case("", replace(wanted, corners=(replace(wanted.corners[0], leg="A"),))))
    assert not all_or_nothing(Case("", wanted))


# --- mistakes in laying out a taper, by hand ---------------------------------------------------------------------
STEEP = TaperLine.of(Section("3 1/4", 2, "1/4", "3/16", fillet="1/4"), Taper("A", 1, "1/4", run=5))
"""Run 5, height 3: laid along the slope it reaches 4, a 3-4-5 triangle; the other leg is 3/16 thick."""


def test_the_wrong_lines_by_a_3_4_5_triangle():
    assert with_run_along_slope(STEEP).slope == pytest.approx(4 / 3)
    assert with_run_and_height_exchanged(STEEP).slope == pytest.approx(3 / 5)
    forgotten = with_width_left_forgotten(STEEP)
    assert (forgotten.width_left, forgotten.slope) == (0, pytest.approx(5 / 3.25))
    corner = inside_corner_line(STEEP)
    assert float(corner.width_left) == 3 / 16 and corner.slope == pytest.approx(5 / (3.25 - 3 / 16))
    assert all(float(line.run) == 5 for line in (forgotten, corner))


def test_lines_on_which_a_mistake_cannot_be_made():
    square = TaperLine.of(STOCK, Taper("A", 1, run="3/4"))
    assert with_run_along_slope(square) is None and with_width_left_forgotten(square) is None
    assert with_run_along_slope(TaperLine.of(STOCK, Taper("A", 1, run="1/2"))) is None
    sharp = TaperLine.of(Section("3/4", "3/4", "1/8"), Taper("A", 1, run=1))
    assert straight_over_fillet(sharp) is None


def test_the_wrong_marks():
    """Leg A 1/4 thick, leg B 3/16: through B at 25 degrees the line is 3/16 over tan from the end, with A's own thickness 1/4 over tan."""
    line = TaperLine.of(Section(2, 2, "1/4", "3/16", fillet="1/4"), Taper("A", 1, angle=25))
    assert float(own_thickness(line)) == pytest.approx(0.25 / tan(radians(25)))
    # Over the fillet the straight line goes on by the quarter circle's length at the line's own slope: too near to the end by that less its depth.
    slope = 1 / tan(radians(25))
    wanted = float(line.first_flat) - slope * 0.25 * 1.5707963267948966
    assert straight_over_fillet(line) == (pytest.approx(wanted) if wanted > 0 else None)
    low = TaperLine.of(Section(2, 2, "1/4", fillet="1/4"), Taper("A", 1, "3/16", angle=25))  # 1/16 below the face: the mark is near to the end, the straight line beyond it
    assert straight_over_fillet(low) is None
