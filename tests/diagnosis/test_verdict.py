"""The verdict, with limits worked by hand: 1/32 either way from 6 to 24 in., 1/64 below (the trade's, common practice).

By ISO 2768-1 table 1 the bar of 17 1/4 in. (438 mm) has 0.8 mm, which is 0.0315 in., and a leg width of 3/4 in. (19 mm)
0.2 mm, 0.0079 in.
"""

from __future__ import annotations

from fractions import Fraction as F

import diagnosis_count as counting
import pytest

from anglelib.errors import PartError
from anglelib.inspection.diagnosis import Reading
from anglelib.inspection.verdict import can_become, clean_length, judge
from anglelib.part import Hole, Part, Taper
from anglelib.section import Section
from anglelib.tolerances import Limits

STOCK = Section("3/4", "3/4", "1/8", fillet="1/8")
BAR = Part("A3", "Floor bar", STOCK, "6061-T6", "17 1/4")
CLEAT = Part("A1L", "Cleat", STOCK, "6061-T6", "2 1/8", tapers=[Taper("A", 1, "3/8", run="1 1/4")], holes=[Hole("A", "1 7/16", "7/16", "1/8")])


@pytest.mark.parametrize(
    ("length", "outcome"),
    [(17.25, "accept"), (17.27, "accept"), (17.275, "doubtful"), (17.281, "doubtful"), (17.283, "rework"), (17.5, "rework"),
     (17.23, "accept"), (17.222, "doubtful"), (17.217, "scrap"), (16.0, "scrap")],
)  # fmt: skip
def test_length_against_its_limits(length, outcome):
    """Surely inside, inside by less than the reading is sure, too long, too short."""
    assert judge(BAR, [Reading("heel", length)]).outcome == outcome


def test_a_surer_reading_settles_a_doubt():
    assert judge(BAR, [Reading("heel", 17.275, 0.005)]).outcome == "doubtful"
    assert judge(BAR, [Reading("heel", 17.275, 0.002)]).outcome == "accept"


@pytest.mark.parametrize(
    ("name", "value", "outcome"),
    [
        ("start.A.1", 1.20, "rework"),  # the taper begins too early: more metal stands
        ("start.A.1", 1.30, "scrap"),
        ("width.A.1", 0.42, "rework"),
        ("width.A.1", 0.33, "scrap"),
        ("hole.1.x", 1.50, "scrap"),  # a hole can be moved neither way
        ("hole.1.x", 1.37, "scrap"),
        ("hole.1.y", 0.44, "accept"),
        ("thickness.A", 0.1875, "scrap"),
    ],
)
def test_only_metal_that_stands_can_come_off(name, value, outcome):
    assert judge(CLEAT, [Reading(name, value)]).outcome == outcome


def test_rework_says_by_how_much_and_the_worst_reading_decides():
    verdict = judge(CLEAT, [Reading("heel", 2.185), Reading("width.A.1", 0.375), Reading("hole.1.y", 0.4375)])
    assert verdict.sentence == "Rework: length along the heel, take off 1/16 (0.060)."
    worse = judge(CLEAT, [Reading("heel", 2.185), Reading("width.A.1", 0.30)])
    assert worse.outcome == "scrap" and "leg A width, end 1 is short by 5/64 (0.075)" in worse.sentence
    assert judge(CLEAT, [Reading("heel", 2.125)]).sentence == "Pass: every reading is within its limits."


def test_what_a_spoiled_stiffener_can_become():
    """Cut to 20 in., A2L is clean from its hole at 2 1/4 (edge 2 5/16) to 20: 17 11/16.

    A3 needs 17 1/4 and at each end an allowance and a kerf, 17 7/16: it fits. Cut to 19 1/2 it does not; the cleats still do.
    """
    job = counting.demo()
    part = job.part("A2L")
    assert clean_length(part, 20.0) == pytest.approx(17 + 11 / 16)
    assert can_become(part, 20.0, job) == ("A3", "A1L", "A1R")
    assert can_become(part, 19.5, job) == ("A1L", "A1R")
    assert can_become(part, 3.0, job) == ()
    told = judge(part, [Reading("heel", 20.0)], job=job).sentence
    assert told.startswith("Scrap as A2L: length along the heel is short by 6 1/2") and told.endswith("It can still become A3 or A1L or A1R.")


def test_only_the_same_section_and_alloy_will_do():
    job = counting.demo()
    thin = job.part("B2")
    assert set(can_become(thin, float(thin.length), job)) <= {"B1"}
    from dataclasses import replace

    other = replace(job.part("A2L"), alloy="2024-T3", mirror_of="")
    assert can_become(other, 20.0, job) == ()


def test_a_blank_that_just_fits_is_taken_and_one_a_hair_longer_is_not():
    job = counting.demo()
    part = Part("P", "Plain", STOCK, "6061-T6", 30)
    need = float(job.part("A3").length + 2 * (job.shop.allowance + job.shop.kerf))
    assert need == float(F(279, 16))
    assert "A3" in can_become(part, need, job) and "A3" not in can_become(part, need - 1e-6, job)


def test_refusals():
    with pytest.raises(PartError, match="choose one that its card names"):
        judge(BAR, [Reading("shoe size", 9)])
    with pytest.raises(PartError, match="measure the length"):
        judge(BAR, [])


def test_the_limits_are_the_jobs():
    """0.0079 in. of a leg's width by the standard, 1/64 by the trade's rule, 1/8 by a shop's own."""
    read = [Reading("width.A.1", 0.763, 0.0001)]
    bar = Part("P", "Plain", STOCK, "6061-T6", "17 1/4")
    assert [judge(bar, read, limits).outcome for limits in (Limits("iso-m"), Limits(), Limits.named("1/8"))] == ["rework", "accept", "accept"]


def test_a_length_that_follows_from_two_dimensions_may_be_off_by_both():
    """The toe is the length less the run: 1/64 of each makes 1/32."""
    for toe, outcome in ((0.875 + 1 / 32 - 1e-4, "accept"), (0.875 + 1 / 32 + 0.001, "rework"), (0.875 - 1 / 32 + 1e-4, "accept"), (0.875 - 1 / 32 - 0.001, "scrap")):
        assert judge(CLEAT, [Reading("toe.A", toe, 1e-6)]).outcome == outcome, toe


def test_an_end_out_of_square_is_named_though_both_lengths_keep_their_limits():
    """Bar of 60 in.: lengths may be off by 1/16, but an end may lean 1/64 over a leg, so two ends 1/32."""
    bar = Part("L", "Long", STOCK, "6061-T6", 60)
    leaning = [Reading("heel", 60 - 0.03, 0.001), Reading("toe.A", 60 + 0.03, 0.001)]
    verdict = judge(bar, leaning)
    assert all(j.outcome == "accept" for j in verdict.judged) and verdict.outcome == "rework"
    assert verdict.sentence == "Rework: square the ends: leg A's toe is 1/16 (0.060) longer than the heel allows."
    assert judge(bar, [Reading("heel", 60 - 0.01, 0.001), Reading("toe.A", 60 + 0.01, 0.001)]).outcome == "accept"
