"""Length of a rivet, and what its hole is drilled with.

Source: NAVEDTRA 14018, Aviation Structural Mechanic, chapter 13, "Rivet selection" and figure 13-43: the grip plus one and a half diameters;
"Drilling rivet holes" (page 548 of the copy): a slight clearance in each case. Status: seen. Its table 13-2, the drill sizes, could not be read:
the drills themselves are from memory, and in ``tests/unit/test_drills.py``.
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


@pytest.mark.parametrize("fastener", DRILLS, ids=str)
def test_a_drill_clears_its_rivet_slightly(fastener):
    assert 0 < drill_for(fastener).size - fastener < F(1, 200)
