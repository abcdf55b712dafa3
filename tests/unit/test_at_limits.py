"""The largest and the least part that pass, where a cope is hardly larger than its inside radius."""

from dataclasses import replace
from fractions import Fraction

import pytest

from anglelib.geometry.solid import solid_of
from anglelib.paper.limits_of_part import limit_of
from anglelib.paper.readings import tolerance
from anglelib.part import Cope, Part
from anglelib.section import Section

STOCK = Section(1, 1, "1/8", fillet="1/8")


def coped(length: str, depth: str, radius: str) -> Part:
    cope = Cope("A", 2, length, Fraction(1) - Fraction(depth), radius)
    return Part("P1", "Trial", STOCK, "6061-T6", 4, copes=[cope])


@pytest.mark.parametrize("setting", ["m", "1/32", "1/8"])
@pytest.mark.parametrize(("length", "depth", "radius"), [("1/2", "3/16", "3/16"), ("3/16", "1/2", "3/16"), ("1/4", "1/4", "1/4"), ("1/16", "1/16", "1/16")])
def test_a_cope_as_small_as_its_radius_has_both_limits(length, depth, radius, setting):
    part = coped(length, depth, radius)
    most, least = (limit_of(part, tolerance(setting), largest) for largest in (True, False))
    # compared at one length: only the cope is looked at
    volumes = [solid_of(replace(one, length=part.length)).volume for one in (least, part, most)]
    assert volumes == sorted(volumes) and volumes[0] < volumes[1] < volumes[2]
    for cope in most.copes:
        assert cope.radius <= cope.length and cope.radius <= Fraction(1) - cope.width_left


def test_a_cope_that_its_tolerance_takes_away_is_not_drawn_on_the_largest_part():
    part = coped("1/16", "1/16", "1/16")
    assert limit_of(part, tolerance("1/8"), True).copes == () and limit_of(part, tolerance("1/8"), False).copes
