"""The worked stack of one sawn end, from shop guesses: what each contributes, together, and at worst.

Status: derived, by hand from the guesses; the rule itself is checked against the GUM's own example in ``tests/published``.
"""

from __future__ import annotations

import pytest

from anglelib.geometry.allowance import Budget, Contribution, sawn_end

RULE = Contribution.from_limits("rule, read to half of 1/64", 1 / 128)
LINE = Contribution.from_line("line 0.020 wide", 0.020)
SQUARE = Contribution("square", 0.0002)
SAW = Contribution.from_limits("saw wander +-0.015", 0.015)
STACK = Budget.of([RULE, LINE, SQUARE, SAW])


@pytest.mark.parametrize("contribution, by_hand", [(RULE, 0.0045), (LINE, 0.0058), (SQUARE, 0.0002), (SAW, 0.0087)])
def test_each_contribution(contribution, by_hand):
    assert contribution.standard == pytest.approx(by_hand, abs=5e-5)


def test_combined_and_expanded():
    """The root sum of the rounded contributions is 0.0114; unrounded it is 0.01135."""
    rounded = Budget.of(Contribution(c.name, round(c.standard, 4)) for c in STACK.contributions)
    assert rounded.standard == pytest.approx(0.0114, abs=5e-5)
    assert STACK.standard == pytest.approx(0.01135, abs=5e-6) == sawn_end().standard
    assert STACK.expanded == pytest.approx(0.023, abs=5e-4)
    assert STACK.largest is SAW


def test_worst_case_of_the_limits_is_half_as_much_again():
    """Plain addition of the limits: 1/128 + 0.010 + 0.0002 + 0.015 = 0.033 in."""
    worst = 1 / 128 + 0.010 + 0.0002 + 0.015
    assert worst == pytest.approx(0.033, abs=5e-4)
    assert worst > 1.4 * STACK.expanded
    # The naive sum of standard uncertainties is neither of the two.
    assert abs(sum(c.standard for c in STACK.contributions) - STACK.standard) > 0.007
