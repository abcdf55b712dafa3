"""What a plan takes of the processor on the terminal, from the command to its last line: as a ratio to plain Python, since machines differ."""

import pytest
from processor_time import least
from yardstick import yardstick

MOST = {"--help": 2.0, "plan": 31.0}
"""Yardsticks: of 49 ms each the plan has a second and a half; 24 were measured on a machine as busy as can be, 20 on one that was not."""


@pytest.mark.parametrize("words", MOST)
def test_a_plan_is_said_in_its_budget(words, project):
    one = yardstick()
    taken = least(["-m", "anglelib", words], project)
    print(f"\n{words} {taken:.2f} s, the yardstick {one * 1000:.0f} ms, ratio {taken / one:.1f}")
    assert taken < MOST[words] * one, (taken, one)
