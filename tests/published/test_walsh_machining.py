"""Sine-bar settings of handbooks.

Sources: R. A. Walsh, Handbook of Machining and Metalworking Calculations, chapter 4, "Sine bar procedures": 34 deg 25 min on a 5 in. bar is 2.826 in. (seen).
A tool seller's page, "How is the necessary gauge block height calculated when using sine bars and sine plates?": 27 deg on 5 in. is 2.270 in. (seen).
TC 9-524's own example is in :mod:`test_tc_9_524`.
"""

from __future__ import annotations

import pytest

from anglelib.geometry.formulas import sine_bar


@pytest.mark.parametrize("angle, height", [(34 + 25 / 60, 2.826), (27, 2.270)], ids=["34 25", "27"])
def test_height_for_the_angle_on_a_five_inch_bar(angle, height):
    assert sine_bar(B=5, theta=angle) == pytest.approx(height, abs=5e-4)
