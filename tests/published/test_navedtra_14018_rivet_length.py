"""Length of a rivet.

Source: NAVEDTRA 14018, Aviation Structural Mechanic, chapter 13, "Rivet selection" and figure 13-43:
the grip plus one and a half diameters. Status: seen. Its table 13-2 (drill sizes) could not be read:
the drills of ``holes.DRILLS`` are from memory, only their sizes are checked here.
"""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from anglelib.geometry.fasteners import DRILLS, drill_for, rivet_length
from anglelib.geometry.formulas import rivet_length as formula


@pytest.mark.parametrize(
    "grip, diameter, length", [(F(1, 8), F(1, 8), F(5, 16)), (F(1, 4), F(3, 16), F(17, 32)), (F(1, 10), F(5, 32), F(107, 320))]
)
def test_grip_plus_one_and_a_half_diameters(grip, diameter, length):
    assert rivet_length(grip, diameter) == length
    assert formula.solved_for("G")(l_r=length, D=diameter) == grip


# Number drill: thousandths of an inch (ASME B94.11M, from memory; the same in every printed drill chart).
NUMBER_DRILLS = {"no. 40": 98.0, "no. 30": 128.5, "no. 21": 159.0, "no. 11": 191.0, "no. 51": 67.0}


@pytest.mark.parametrize("fastener", DRILLS, ids=str)
def test_a_drill_clears_its_rivet_a_little_and_its_pilot_is_smaller(fastener):
    """Chapter 13, "Drilling rivet holes": a slight clearance in each case (seen)."""
    drill = drill_for(fastener)
    assert float(drill.size) * 1000 == NUMBER_DRILLS[drill.drill]
    assert 0 < drill.size - fastener < F(1, 200)
    assert NUMBER_DRILLS[drill.pilot] / 1000 < fastener


def test_a_fastener_without_a_row_has_no_drill():
    assert drill_for(F(1, 4)) is None
