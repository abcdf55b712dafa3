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
from anglelib.inspection.verdict import can_become, clean_length, judge, outcome_of, sense_of
from anglelib.inspection.wanted import Wanted, toe_beyond_heel, wanted_readings
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


# --- one reading, in numbers that a float has exactly --------------------------------------------------------------
S, H = 1 / 64, 1 / 1024
LONG = Wanted("heel", 8.0, 8 - 4 * S, 8 + 4 * S, H)
ONE_SIDED = Wanted("toe.A", 8.0, 8 - 4 * S, 8.0, H)
"""A toe that follows from a run that may only be longer."""


@pytest.mark.parametrize(
    ("wanted", "value", "spread", "outcome"),
    [
        (LONG, 8 + 3 * S, S / 2, "accept"), (LONG, 8 + 3 * S + H, S / 2, "doubtful"), (LONG, 8 - 3 * S, S / 2, "accept"), (LONG, 8 - 3 * S - H, S / 2, "doubtful"),  # twice the uncertainty inside
        (LONG, 8 + 2 * S, 9, "accept"), (LONG, 8 + 2 * S + H, 9, "doubtful"), (LONG, 8 - 2 * S - H, 9, "doubtful"),  # in the middle half, however blunt the tool
        (LONG, 8 + 4 * S + H, S, "doubtful"), (LONG, 8 + 4 * S + 2 * H, S, "rework"), (LONG, 8 - 4 * S - H, S, "doubtful"), (LONG, 8 - 4 * S - 2 * H, S, "scrap"),  # on a limit, as it is printed
        (ONE_SIDED, 8.0, S, "accept"), (ONE_SIDED, 8 + H, S, "accept"), (ONE_SIDED, 8 - H, S, "accept"), (ONE_SIDED, 8 - 2 * H, S, "doubtful"), (ONE_SIDED, 8 - 2 * S, S, "accept"),
        (Wanted("start.A.1", 8.0, 7.5, 8.5), 7.0, S, "rework"), (Wanted("start.A.1", 8.0, 7.5, 8.5), 9.0, S, "scrap"), (Wanted("hole.1.x", 8.0, 7.5, 8.5), 9.0, S, "scrap"),
    ],
)  # fmt: skip
def test_one_reading_against_its_limits(wanted, value, spread, outcome):
    assert outcome_of(Reading(wanted.id, value, spread), wanted) == outcome


def test_whether_more_is_more_metal():
    senses = {"heel": 1, "toe.A": 1, "width.B.2": 1, "inside.A": 1, "mid.A.1": 1, "peak.A": 1, "start.A.1": -1, "cope.B.2": -1, "corner.A.1": -1, "thickness.A": 0, "hole.1.x": 0, "hole.2.y": 0, "weight": 0}
    assert {id_: sense_of(id_) for id_ in senses} == senses


# --- a toe and its heel ---------------------------------------------------------------------------------------------
BOTH = Part("L", "Long", STOCK, "6061-T6", 60)


def leaning(heel: float, toe: float, spread: float = 1e-6, part: Part = BOTH):
    return judge(part, [Reading("heel", 60 + heel, spread), Reading("toe.A", float(60 - part.tapers[0].run if part.tapers else 60) + toe, spread)])


def test_how_far_a_toe_may_run_out_of_its_heel():
    """A sixty-fourth at each end, and what both readings together are not sure of: twice the root of the sum of their squares."""
    assert leaning(-0.0155, 0.0155).square == () and leaning(0.0155, -0.0155).square == ()
    (toe_longer,), (heel_longer,) = leaning(-0.016, 0.016).square, leaning(0.016, -0.016).square
    assert (toe_longer.off, toe_longer.allowed, toe_longer.outcome) == (pytest.approx(0.032), pytest.approx(1 / 32), "rework")
    assert (heel_longer.off, heel_longer.allowed, heel_longer.outcome) == (pytest.approx(-0.032), pytest.approx(1 / 32), "rework")
    assert "shorter than the heel allows" in leaning(0.016, -0.016).sentence
    sure = 2 * 2**0.5 * 0.004
    assert leaning(-1 / 64 - sure / 2 + 1e-4, 1 / 64 + sure / 2 - 1e-4, 0.004).square == ()
    assert len(leaning(-1 / 64 - sure / 2 - 1e-4, 1 / 64 + sure / 2 + 1e-4, 0.004).square) == 1


def test_an_end_out_of_square_is_scrap_where_the_short_side_is():
    assert leaning(-0.07, 0.03).square[0].outcome == "scrap" and leaning(0.03, -0.07).square[0].outcome == "scrap"
    assert leaning(-0.03, 0.07).square[0].outcome == "rework" and leaning(-0.07, 0.03).outcome == "scrap"


def test_what_a_tapered_toe_may_run_out_by_besides():
    """Its run may be off by a sixty-fourth of its own."""
    tapered = Part("L", "Long", STOCK, "6061-T6", 60, tapers=[Taper("A", 1, "3/8", run=2)])
    low, high = toe_beyond_heel(tapered, Limits(), "A")
    assert (low, high) == (pytest.approx(-2 - 3 / 64), pytest.approx(-2 + 3 / 64)) and toe_beyond_heel(tapered, Limits(), "B") == (pytest.approx(-1 / 32), pytest.approx(1 / 32))
    assert leaning(-0.023, 0.023, part=tapered).square == () and len(leaning(-0.024, 0.024, part=tapered).square) == 1


def test_between_which_limits_readings_lie():
    """By hand: 1/64 below 6 in., 1/16 for 60, and what a place is read from adds its own; a weight 2 % and what a part of that length may."""
    part = Part("L", "Long", STOCK, "6061-T6", 60, tapers=[Taper("A", 1, run=2), Taper("B", 2, run=2)], holes=[Hole("A", 4, "3/8", "1/8"), Hole("B", 5, "3/8", "1/8")])
    by = {one.id: (one.value - one.low, one.high - one.value) for one in wanted_readings(part, Limits(), ("hole.1.y", "thickness.A", "width.A.2", "inside.B", "weight"))}
    assert by.pop("weight") == pytest.approx([(0.02 + 1 / 16 / 60) * one.value for one in wanted_readings(part, Limits(), ("weight",)) * 2])
    assert all(off == pytest.approx((1 / 64, 1 / 64)) for id_, off in by.items() if id_ != "inside.B"), by
    plain = Part("L", "Long", STOCK, "6061-T6", 60, holes=[Hole("A", 4, "3/8", "1/8"), Hole("B", 50, "3/8", "1/8")])
    one, two = wanted_readings(plain, Limits(), ("hole.1.x", "hole.2.x"))
    assert (one.value, one.within, two.value, two.within) == (4, pytest.approx(1 / 64), 50, pytest.approx(1 / 16))


def test_a_clean_stretch_between_holes_and_cuts():
    """10 long, tapered for 2 at end 1, coped for 1 at end 2: clean from 2 to 9 but for the holes' rims, as far as it was cut."""
    from anglelib.part import Cope

    part = Part("P", "P", STOCK, "6061-T6", 10, tapers=[Taper("A", 1, "3/8", run=2)], copes=[Cope("A", 2, 1, "3/8", "1/8")])
    assert [clean_length(part, length) for length in (10.0, 9.0, 8.5, 2.0, 1.0)] == [7, 7, 6.5, 0, 0]
    from dataclasses import replace

    drilled = replace(part, holes=(Hole("B", 6, "3/8", "1/4"), Hole("A", 3, "9/16", "1/4"), Hole("B", "1/2", "3/8", "1/4")))
    assert [clean_length(drilled, length) for length in (10.0, 8.0, 5.0, 3.0)] == [pytest.approx(v) for v in (9 - 6.125, 5.875 - 3.125, 5 - 3.125, 0.875)]
