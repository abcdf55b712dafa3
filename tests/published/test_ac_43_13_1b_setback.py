"""Setback of a bend: the distance from the mold point to the bend's tangent line, as a rounding.

Source: AC 43.13-1B, 4-56b: worked example (0.064 in. sheet, radius 0.25: 0.130 in. for a bend of
45 degrees, 0.758 in. for one of 135 degrees) and table 4-7, K-chart. Status: seen. A bend through
an angle is a corner of 180 degrees less that angle, rounded on its outside with radius plus
thickness.

The table cuts off instead of rounding in places (60 degrees: 0.5773 for 0.57735), and two rows that
were seen are misprinted: 159 degrees (5.399 for 5.396) and 176 degrees (26.63 for 28.64).
"""

from __future__ import annotations

import pytest

from anglelib.geometry.rounding import tangent_length

# Bend [deg]: K, as printed.
K_CHART = {
    5: "0.0436", 10: "0.0874", 15: "0.1316", 20: "0.1763", 25: "0.2216", 30: "0.2679", 35: "0.3153", 36: "0.3249",
    40: "0.3639", 45: "0.4142", 50: "0.4663", 55: "0.5205", 59: "0.5657", 60: "0.5773", 65: "0.6370", 70: "0.7002",
    72: "0.7265", 75: "0.7673", 80: "0.8391", 85: "0.9163", 90: "1.000", 95: "1.091", 100: "1.191", 105: "1.303",
    110: "1.428", 115: "1.569", 120: "1.732", 125: "1.921", 130: "2.144", 135: "2.414", 140: "2.747", 144: "3.077",
    145: "3.171", 150: "3.732", 155: "4.510", 165: "7.595", 170: "11.43", 175: "22.90", 178: "57.29", 179: "114.59",
}  # fmt: skip
MISPRINTED = {159: ("5.399", 5.396), 176: ("26.63", 28.64)}


def setback(bend: float, radius: float, thickness: float) -> float:
    return tangent_length(180 - bend, radius + thickness)


@pytest.mark.parametrize("bend, printed", [(45, 0.130), (135, 0.758)])
def test_worked_example(bend, printed):
    assert setback(bend, 0.25, 0.064) == pytest.approx(printed, abs=5e-4)


@pytest.mark.parametrize("bend, printed", K_CHART.items())
def test_k_chart(bend, printed):
    """To one unit of the last figure."""
    unit = 10.0 ** -len(printed.partition(".")[2])
    assert tangent_length(180 - bend, 1) == pytest.approx(float(printed), abs=unit)


@pytest.mark.parametrize("bend", MISPRINTED)
def test_a_misprint_is_told_from_the_truth(bend):
    printed, true = MISPRINTED[bend]
    assert tangent_length(180 - bend, 1) == pytest.approx(true, abs=5e-3 if true > 10 else 5e-4)
    assert abs(tangent_length(180 - bend, 1) - float(printed)) > 3e-3


def test_a_bend_taken_for_the_corner_is_caught():
    """45 degrees of bend is a corner of 135: exchanged, the worked example comes out as the other one."""
    assert tangent_length(45, 0.314) == pytest.approx(0.758, abs=5e-4)
    assert abs(tangent_length(45, 0.314) - 0.130) > 0.6
