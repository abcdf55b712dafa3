"""Sine-bar settings of a machinist's handbook.

Source: R. A. Walsh, Handbook of Machining and Metalworking Calculations, chapter 4, "Sine bar
procedures": 34 deg 25 min on a 5 in. bar is 2.826 in. (seen); 20 deg on a 2.5 in. bar is 0.8551 in.
(second-hand).
"""

from __future__ import annotations

import pytest

from anglelib.geometry.formulas import sine_bar


@pytest.mark.parametrize(
    "bar, angle, height, unit", [(5, 34 + 25 / 60, 2.826, 5e-4), (2.5, 20, 0.8551, 5.1e-5)], ids=["5 in.", "2.5 in."]
)
def test_height_for_the_angle(bar, angle, height, unit):
    assert sine_bar(B=bar, theta=angle) == pytest.approx(height, abs=unit)
