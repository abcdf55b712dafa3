"""Densities of the alloys.

Sources, seen: "Density of aluminum", table "Room temperature density of aluminum alloys" (amesweb.info), g/cm3 and lb/in3; a materials data base's
sheets of 6061-T6 and 7075-T6, marked "AA; typical": 2.70 g/cm3, 0.0975 lb/in3, and 2.81 g/cm3, 0.102 lb/in3 (which is 0.1015).
"""

from __future__ import annotations

import pytest

from anglelib.alloy import ALLOYS, density

# g/cm3, lb/in3 as the table prints them
TABLE = {"2024": ("2.780", "0.100"), "6061": ("2.700", "0.098"), "6063": ("2.700", "0.097"), "7075": ("2.810", "0.101")}
POUND, INCH = 453.59237, 2.54  # grams, centimetres


@pytest.mark.parametrize("digits", ALLOYS)
def test_the_librarys_density_is_the_tables(digits):
    """To half a unit of the printed lb/in3, and to 0.6 % of the g/cm3, two of which are rounded to 2.70."""
    metric, inches = TABLE[digits]
    assert abs(density(digits) - float(inches)) < 0.00051
    assert density(digits) == pytest.approx(float(metric) * INCH**3 / POUND, rel=0.006)


def test_the_data_sheets():
    assert density("6061") == 0.0975
    assert 0 < 0.102 - density("7075") <= 0.001


def test_none_is_left_out_and_the_alloys_are_told_apart():
    assert set(ALLOYS) == set(TABLE)
    assert density("6063") < density("6061") < density("2024") < density("7075")
