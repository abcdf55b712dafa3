"""The drills for rivets. Status: number drills and their pairing with rivets from memory; an aircraft's repair manual that was read
(section VI, paragraph 16, "Rivet clearance") pairs 1/8 with no. 30, 0.1285 in., and takes the next smaller drill for 3/32, 5/32 and 3/16.
"""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from anglelib.geometry.fasteners import DRILLS, drill_for

# Number drill: thousandths of an inch (ASME B94.11M, from memory).
NUMBER_DRILLS = {"no. 40": 98.0, "no. 30": 128.5, "no. 21": 159.0, "no. 11": 191.0, "no. 51": 67.0}
# The repair manual's drills [thousandths of an inch].
REPAIR_MANUAL = {F(3, 32): 96.0, F(1, 8): 128.5, F(5, 32): 157.0, F(3, 16): 189.0}


@pytest.mark.parametrize("fastener", DRILLS, ids=str)
def test_a_drill_has_its_numbers_size_and_its_pilot_is_smaller(fastener):
    drill = drill_for(fastener)
    assert float(drill.size) * 1000 == NUMBER_DRILLS[drill.drill]
    assert NUMBER_DRILLS[drill.pilot] / 1000 < fastener


@pytest.mark.parametrize("fastener", DRILLS, ids=str)
def test_a_drill_is_the_repair_manuals_or_the_next_larger(fastener):
    assert 0 <= float(drill_for(fastener).size) * 1000 - REPAIR_MANUAL[fastener] <= 2.0


def test_a_fastener_without_a_row_has_no_drill():
    assert drill_for(F(1, 4)) is None
