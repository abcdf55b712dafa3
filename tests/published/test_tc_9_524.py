"""Sine-bar setting of the Army's machinist manual.

Source: TC 9-524, Fundamentals of Machine Tools, appendix C, "Sine bar or sine plate setting": the
height for 23 deg 41 min on a 5 in. bar is 5 x 0.40168 = 2.0084. Status: seen.
"""

from __future__ import annotations

import pytest

from anglelib.geometry.formulas import sine_bar
from anglelib.geometry.taper import TaperLine
from anglelib.part import Taper
from anglelib.section import Section


def test_height_for_the_angle():
    assert sine_bar(B=5, theta=23 + 41 / 60) == pytest.approx(2.0084, abs=5e-5)


def test_angle_for_the_height():
    assert sine_bar.solved_for("theta")(B=5, H=2.0084) == pytest.approx(23 + 41 / 60, abs=1 / 60)


def test_a_taper_prints_the_same_height():
    line = TaperLine.of(Section(1, 1, "1/8"), Taper("A", 1, angle="23.683333"))
    assert line.sine_bar(5) == pytest.approx(2.0084, abs=5e-5)
