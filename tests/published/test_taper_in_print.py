"""Taper per foot as handbooks print it: on one side, as on a leg, and over both, as on round work.

Sources, seen in copies of the pages:
- Machinery's Handbook, 31st edition, "Angles and tapers", page 701, worked examples of two disks that touch both sides of a taper: diameters 1 and 1.5
  in., centres 5 in. apart, 1.2015 in. per foot measured square to the middle line; diameters 2 and 3 in., 5 in. apart, 2.4367 in. per foot measured square
  to one side. Both disks give the included angle, 2 asin((D - d) / (2 C)).
- Turning and boring tapers, Derry Collard, 1902, table "Equivalent tapers of degrees in inches": total taper per inch and per foot for an included angle.
  Its taper per foot is twelve times the rounded taper per inch. Of its 14 rows two could not be read with certainty in the copy (4 and 15 degrees), and 55 and 60 are not there.
"""

from __future__ import annotations

from math import asin, degrees

import pytest

from anglelib.geometry.formulas import angle_from_slope, taper_per_foot
from anglelib.geometry.taper import TaperLine
from anglelib.part import Taper
from anglelib.section import Section

STOCK = Section(8, 8, "1/4")

# Included angle [deg]: taper per inch, per foot [in].
TURNING_AND_BORING = {
    1: (".01746", ".20952"), 2: (".03490", ".41880"), 3: (".05236", ".62832"), 5: (".08732", ""), 10: (".17498", ""), 20: (".35266", ""),
    25: (".44338", ""), 30: (".53590", ""), 35: (".63060", ""), 40: (".72794", ""), 45: (".82842", ""), 50: (".93262", ""),
}  # fmt: skip


def on_one_side(angle: float) -> float:
    """What a leg loses in a foot whose taper has this angle [in]: the library's, by a part."""
    return float(TaperLine.of(STOCK, Taper("A", 1, angle=f"{angle:.9f}", width_left=1)).taper_per_foot)


def over_both_sides(included: float) -> float:
    """The taper of round work [in per foot]: each side falls half of it."""
    return 2 * on_one_side(included / 2)


@pytest.mark.parametrize("small, large, apart, printed", [(2, 3, 5, 2.4367)])
def test_disks_on_a_taper_measured_from_one_side(small, large, apart, printed):
    included = 2 * degrees(asin((large - small) / (2 * apart)))
    assert on_one_side(included) == pytest.approx(printed, abs=5e-5)
    assert angle_from_slope(c=taper_per_foot.solved_for("c")(T=printed)) == pytest.approx(included, abs=3e-4)
    assert abs(over_both_sides(included) - printed) > 0.02


@pytest.mark.parametrize("small, large, apart, printed", [(1, 1.5, 5, 1.2015)])
def test_disks_on_a_taper_measured_over_both_sides(small, large, apart, printed):
    included = 2 * degrees(asin((large - small) / (2 * apart)))
    assert over_both_sides(included) == pytest.approx(printed, abs=5e-5)
    assert abs(on_one_side(included) - printed) > 0.002


@pytest.mark.parametrize("included, printed", TURNING_AND_BORING.items())
def test_turning_and_boring(included, printed):
    """To one and a half units of the fifth decimal: the book doubles a tangent of five decimals."""
    per_inch, per_foot = printed
    assert over_both_sides(included) / 12 == pytest.approx(float(per_inch), abs=1.5e-5)
    if per_foot:
        assert over_both_sides(included) == pytest.approx(float(per_foot), abs=12 * 1.5e-5)
        assert round(12 * float(per_inch), 5) == float(per_foot)
    assert abs(on_one_side(included) / 12 - float(per_inch)) > (2e-5 if included > 5 else 0)
