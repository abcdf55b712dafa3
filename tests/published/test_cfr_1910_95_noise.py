"""Hours allowed at a sound level.

Source: 29 CFR 1910.95, table G-16 (permissible noise exposures) and appendix A, table G-16a
(reference durations). Status: seen; of table G-16a the rows 80 to 86 were seen, the others follow
from the formula in its footnote and are not repeated here.
"""

from __future__ import annotations

import pytest

from anglelib.errors import BenchError
from anglelib.geometry.formulas import hours_allowed as formula
from anglelib.safety import dose, hours_allowed, needs_hearing_protection

# Level [dBA]: hours.
TABLE_G_16 = {90: 8, 92: 6, 95: 4, 97: 3, 100: 2, 102: 1.5, 105: 1, 110: 0.5, 115: 0.25}
TABLE_G_16A = {80: 32, 81: 27.9, 82: 24.3, 83: 21.1, 84: 18.4, 85: 16, 86: 13.9}


@pytest.mark.parametrize("level, hours", TABLE_G_16A.items())
def test_reference_durations(level, hours):
    assert hours_allowed(level) == pytest.approx(hours, abs=0.05)


@pytest.mark.parametrize("level, hours", TABLE_G_16.items())
def test_permissible_exposures(level, hours):
    """Table G-16 is rounded to half hours (and quarters): exact where the level is a multiple of 5."""
    if level % 5 == 0:
        assert hours_allowed(level) == hours
    else:
        assert hours_allowed(level) == pytest.approx(hours, abs=0.1)


@pytest.mark.parametrize("level, hours", TABLE_G_16.items())
def test_level_for_the_hours(level, hours):
    assert formula.solved_for("L_A")(T_h=float(hours)) == pytest.approx(level, abs=0.25)


def test_dose_of_a_mixed_day():
    """Appendix A, I(1)(ii): the parts of the allowed time add up."""
    assert dose([(90, 4), (95, 1), (100, 0.5)]) == pytest.approx(4 / 8 + 1 / 4 + 0.5 / 2)


def test_action_level_and_ceiling():
    assert not needs_hearing_protection(84.9) and needs_hearing_protection(85)
    with pytest.raises(BenchError, match="no time at all is allowed: quieten"):
        hours_allowed(115.1)
    with pytest.raises(BenchError, match="read the meter again"):
        hours_allowed(float("nan"))
