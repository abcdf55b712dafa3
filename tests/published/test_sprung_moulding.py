"""Compound cut of a sprung moulding at a right-angled corner.

Source: the settings 31.62 (miter) and 33.86 (tilt) for a moulding that springs 38 degrees from the
wall and 52 from the ceiling, printed alike on several pages and in saw manuals. Status: seen.
"""

from __future__ import annotations

import pytest
from leaning_frame import lines_on_board

from anglelib.geometry.sawing import CompoundCut
from anglelib.section import Section

MOULDING = Section(4, 1, "3/4")


def settings(from_ceiling: float, corner: float) -> tuple[float, float]:
    flat, _, _ = CompoundCut(*lines_on_board(from_ceiling, corner)).settings(MOULDING)
    return abs(flat.miter), abs(flat.tilt)


def test_spring_of_38_and_52_degrees():
    assert settings(52, 90) == pytest.approx((31.62, 33.86), abs=0.005)


def test_the_two_spring_angles_exchanged_are_told_apart():
    miter, _ = settings(38, 90)
    assert miter == pytest.approx(38.24, abs=0.005)


@pytest.mark.parametrize("corner, printed", [(60, (46.84, 43.04)), (120, (19.57, 23.20))])
def test_other_corners(corner, printed):
    """Printed examples of a builders' calculator for the same spring (seen)."""
    assert settings(52, corner) == pytest.approx(printed, abs=0.006)
