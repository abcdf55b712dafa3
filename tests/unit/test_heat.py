"""Heat: temperature rise at the sander and growth of a length.

Status: derived, from the thermal values of 6061 that ``tests/published/test_6061_data_sheet_heat.py`` names the source of.
"""

from __future__ import annotations

import pytest

from anglelib.errors import PartError
from anglelib.geometry.allowance import growth, warming


def test_worked_rise():
    """0.0437 kg that takes 50 W for 60 s with no loss: m c dT."""
    assert warming(power=50, seconds=60, mass=0.0437) == pytest.approx(77, abs=0.5)


def test_the_rise_by_counting_joules():
    """One joule at a time: each warms the part by one over its heat capacity."""
    capacity = 43.7 * 0.896  # grams, J/(g K)
    temperature = 0.0
    for _ in range(50 * 60):
        temperature += 1 / capacity
    assert warming(power=50, seconds=60, mass=0.0437) == pytest.approx(temperature)


def test_a_foot_that_is_too_hot_to_hold_is_ten_thousandths_long():
    """40 K on 12 in.: 0.011 in., under half of a 1/32: a part measured hot comes out that much short."""
    assert growth(12, 40) == pytest.approx(0.0113, abs=5e-5)


def test_a_part_without_weight_is_refused():
    with pytest.raises(PartError, match="give its mass in kilograms"):
        warming(50, 60, 0)
