"""Worked values of squaring, compound cuts and holes, computed apart from the library before it was written.

Status: derived, with exact solids, meshes and sampling. Those of the taper are in ``test_taper``.
"""

from __future__ import annotations

from fractions import Fraction as F
from math import radians, tan

import pytest

from anglelib.geometry.holes import row_band
from anglelib.geometry.sawing import CompoundCut
from anglelib.geometry.squaring import End, OpenLegs
from anglelib.section import Section

TO = 1e-6
SHARP = Section("1 1/2", "1 1/2", "1/8")


def test_trim_of_an_end_out_of_square():
    """Errors of one sense share the metal; errors of opposite sense add."""
    assert End(1, 1).trim(SHARP) == pytest.approx(0.028364, abs=TO)
    assert End(1, -1).trim(SHARP) == pytest.approx(0.052365, abs=TO)


def test_legs_that_are_not_at_90_degrees():
    """Legs at 92, a taper of 10 degrees: the mark moves by 0.024, and leg B's line is 11 degrees out of square."""
    legs = OpenLegs.of(2, 0.125, 0.125, 1 / tan(radians(10)))
    assert legs.vertex_projection == pytest.approx(0.6846, abs=5e-5)
    assert legs.other_leg_out == pytest.approx(-11.196, abs=5e-4)


@pytest.mark.parametrize(
    "way, miter, tilt", [("on-A", 30.000, 13.064), ("on-B", 15.000, 29.147), ("heel-up", 12.341, 30.281)]
)
def test_compound_cut_60_and_75(way, miter, tilt):
    (setting,) = (s for s in CompoundCut(60, 75).settings(Section(1, 1, "1/8")) if s.lies == way)
    assert (setting.miter, setting.tilt) == pytest.approx((miter, tilt), abs=5e-4)


def test_rest_angle_of_unequal_legs():
    """2 x 1 x 3/16, heel up: it rests on its inner toes, at 24.1455 degrees, not at the 26.57 of its legs."""
    from anglelib.geometry.formulas import heel_up_slope

    assert heel_up_slope(a=2, b=1, tA=F(3, 16), tB=F(3, 16)) == pytest.approx(24.1455, abs=5e-5)


@pytest.mark.parametrize("diameter, band", [(F(1, 8), F(1, 8)), (F(5, 32), F(1, 32)), (F(3, 16), F(-1, 16))], ids=str)
def test_band_for_a_row_of_rivets(diameter, band):
    """3/4 x 1/8 with a 1/8 fillet: below 0 there is no legal row."""
    low, high = row_band(Section("3/4", "3/4", "1/8", fillet="1/8"), "A", diameter)
    assert high - low == band and type(high) is F
