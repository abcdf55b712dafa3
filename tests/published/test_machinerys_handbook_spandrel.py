"""The metal in an inside fillet.

Source: Machinery's Handbook, 31st edition, "Dimensions of plane figures", page 80, "Spandrel or fillet": area 0.215 r^2, or 0.1075 c^2 by the chord c; worked
examples: r 0.7 in., 0.105 in2; c 2.2 in., 0.520 in2. Status: seen in a copy of the page.
"""

from __future__ import annotations

from fractions import Fraction as F
from math import sqrt

import pytest

from anglelib.section import Section


def gained(radius: F) -> float:
    """What a section's area gains by a fillet of a radius [in2]."""
    return Section(4, 5, "1/4", fillet=radius).area - Section(4, 5, "1/4").area


@pytest.mark.parametrize("radius", [F(1, 16), F(1, 8), F(1, 4), F(7, 10), F(2)], ids=str)
def test_area_by_the_radius_and_by_the_chord(radius):
    chord = sqrt(2) * float(radius)
    assert gained(radius) / float(radius) ** 2 == pytest.approx(0.215, abs=5e-4)
    assert gained(radius) / chord**2 == pytest.approx(0.1075, abs=5e-4)


def test_worked_examples():
    """The handbook reckons with its rounded 0.215 and 0.1075: half a unit and the two tenths of a per cent of those."""
    assert gained(F(7, 10)) == pytest.approx(0.105, abs=5e-4 + 0.002 * 0.105)
    assert gained(F(22, 10) / F(sqrt(2)).limit_denominator(10**6)) == pytest.approx(0.520, abs=5e-4 + 0.002 * 0.520)


def test_toes_and_heel_lose_as_much():
    square = Section(4, 5, "1/4")
    assert square.area - Section(4, 5, "1/4", toe_radius="1/8").area == pytest.approx(2 * 0.215 / 64, rel=0.003)
    assert square.area - Section(4, 5, "1/4", heel_radius="1/8").area == pytest.approx(0.215 / 64, rel=0.003)
