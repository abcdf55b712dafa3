"""Thermal values of 6061: specific heat and expansion.

Sources, seen: "Aluminum 6061-T6 data sheet", a workshop's: specific heat 0.896 J/(g C), 0.214 Btu/(lb F); linear expansion 23.6 micrometres a metre and
degree C from 20 to 100 C, 13.1 microinches an inch and degree F from 68 to 212 F. "6061-T6 aluminum, material notes", a supplier's, which mark
the expansion "AA; typical": a value of the Aluminum Association. A tube supplier's table of 6061 has the same four. What is computed
with them is in ``tests/unit/test_heat.py``.
"""

from __future__ import annotations

import pytest

from anglelib.geometry.allowance import EXPANSION, SPECIFIC_HEAT, growth, warming


def test_the_librarys_constants_are_those_of_the_sheet():
    assert (SPECIFIC_HEAT, EXPANSION) == (896, 23.6e-6)


def test_both_systems_of_units_of_the_sheet_agree():
    """0.214 Btu/(lb F) is 896 J/(kg K), 13.1e-6 a degree F is 23.6e-6 a kelvin: to a unit of the last figure."""
    joules_a_btu, kilograms_a_pound = 1055.056, 0.45359237
    assert SPECIFIC_HEAT == pytest.approx(0.214 * joules_a_btu / kilograms_a_pound * 1.8, abs=0.001 / 0.214 * 896)
    assert EXPANSION == pytest.approx(13.1e-6 * 1.8, abs=0.1e-6)


def test_an_inch_of_metal_by_the_sheet():
    """A foot from 68 to 212 F by the sheet's 13.1e-6, a kilogram by its 896 J."""
    assert growth(12, 80) == pytest.approx(12 * 13.1e-6 * 144, rel=0.002)
    assert warming(power=896, seconds=1, mass=1) == pytest.approx(1)
