"""How long a plan takes on the terminal, from the command to its last line: processor time, with a budget near what is wished for."""

import pytest
from processor_time import least

BUDGETS = {"--help": 0.15, "plan": 1.25}
"""The most that each may take [s]. On two idle cores the plan of the demo is there in about a second."""


@pytest.mark.parametrize("words", BUDGETS)
def test_a_plan_is_said_in_its_budget(words, project):
    assert least(["-m", "anglelib", words], project) < BUDGETS[words]
