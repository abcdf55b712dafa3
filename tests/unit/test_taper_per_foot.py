"""Taper per foot and its angle: one tapered side, as on a leg, and both sides, as on round work.

Status: derived; the angles were worked out apart from the library, in degrees, minutes and seconds. The two-sided column is laid out like Machinery's Handbook's
"Tapers per foot and corresponding angles" (from memory). What was read in print is in ``tests/published/test_taper_in_print.py``.

The taper of a leg has one side: its angle is atan(T/12). On round work the taper is measured over the diameter and the included angle is
2 atan(T/24). The two columns must not be confused: at 6 in. per foot they are a degree and a half apart.
"""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from anglelib.geometry.formulas import angle_from_slope, taper_per_foot
from anglelib.geometry.taper import TaperLine
from anglelib.part import Taper
from anglelib.section import Section

# Taper per foot [in]: degrees, minutes, seconds.
ONE_SIDE = {
    F(1, 4): (1, 11, 36),
    F(1, 2): (2, 23, 9),
    F(3, 4): (3, 34, 35),
    F(1): (4, 45, 49),
    F(2): (9, 27, 44),
    F(3): (14, 2, 10),
    F(6): (26, 33, 54),
}
BOTH_SIDES = {
    F(1, 2): (2, 23, 13),
    F(1): (4, 46, 19),
    F(2): (9, 31, 38),
    F(3): (14, 15, 0),
    F(6): (28, 4, 21),
}


def seconds(angle: tuple[int, int, int]) -> int:
    return 3600 * angle[0] + 60 * angle[1] + angle[2]


@pytest.mark.parametrize("fall, by_hand", ONE_SIDE.items(), ids=str)
def test_one_tapered_side(fall, by_hand):
    slope = taper_per_foot.solved_for("c")(T=fall)
    assert type(slope) is F
    assert 3600 * angle_from_slope(c=slope) == pytest.approx(seconds(by_hand), abs=1)


@pytest.mark.parametrize("fall, by_hand", ONE_SIDE.items(), ids=str)
def test_a_leg_tapered_so_much_a_foot_reads_so_much(fall, by_hand):
    """A 12 in. run on a leg that loses so much, the way a part states it."""
    stock = Section(8, 8, "1/4")
    line = TaperLine.of(stock, Taper("A", 1, width_left=8 - fall, run=12))
    assert line.taper_per_foot == fall and type(line.taper_per_foot) is F
    assert 3600 * line.angle == pytest.approx(seconds(by_hand), abs=1)


@pytest.mark.parametrize("fall, by_hand", BOTH_SIDES.items(), ids=str)
def test_both_sides_are_twice_the_angle_of_half_the_taper(fall, by_hand):
    half = angle_from_slope(c=taper_per_foot.solved_for("c")(T=fall / 2))
    assert 3600 * 2 * half == pytest.approx(seconds(by_hand), abs=1)


@pytest.mark.parametrize("fall, apart", [(F(1, 2), 4), (F(1), 30), (F(2), 234), (F(3), 770), (F(6), 5427)], ids=str)
def test_the_two_columns_are_different_things(fall, apart):
    """Setting a leg by the round-work column is wrong by this many seconds, and the library does not."""
    assert seconds(BOTH_SIDES[fall]) - seconds(ONE_SIDE[fall]) == pytest.approx(apart, abs=1)
    ours = 3600 * angle_from_slope(c=taper_per_foot.solved_for("c")(T=fall))
    assert abs(ours - seconds(BOTH_SIDES[fall])) > apart - 2
