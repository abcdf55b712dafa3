"""Combining uncertainties: the worked stack of one sawn end.

Source: JCGM 100:2008 (GUM): root sum of squares of uncorrelated contributions, coverage factor 2
for about 95 %, standard uncertainty half-width / sqrt(3) when only limits are known (5.1.2, 6.2.1,
4.3.7; clause numbers from memory). The numbers of the stack are shop guesses, and its results follow
from them (derived): measure your own.
"""

from __future__ import annotations

from random import Random
from statistics import pstdev

import pytest

from anglelib.geometry.allowance import Budget, Contribution

RULE = Contribution.from_limits("rule, read to half of 1/64", 1 / 128)
LINE = Contribution.from_line("line 0.020 wide", 0.020)
SQUARE = Contribution("square", 0.0002)
SAW = Contribution.from_limits("saw wander +-0.015", 0.015)
STACK = Budget.of([RULE, LINE, SQUARE, SAW])


@pytest.mark.parametrize("contribution, printed", [(RULE, 0.0045), (LINE, 0.0058), (SQUARE, 0.0002), (SAW, 0.0087)])
def test_each_contribution(contribution, printed):
    assert contribution.standard == pytest.approx(printed, abs=5e-5)


def test_combined_and_expanded():
    """The stack's printed u, 0.0114, is the root sum of the contributions as printed; unrounded it is 0.01135."""
    as_printed = Budget.of(Contribution(c.name, round(c.standard, 4)) for c in STACK.contributions)
    assert as_printed.standard == pytest.approx(0.0114, abs=5e-5)
    assert STACK.standard == pytest.approx(0.01135, abs=5e-6)
    assert STACK.expanded == pytest.approx(0.023, abs=5e-4)
    assert STACK.largest is SAW


def test_worst_case_of_the_limits_is_half_as_much_again():
    """Plain addition of the limits: 1/128 + 0.010 + 0.0002 + 0.015 = 0.033 in."""
    worst = 1 / 128 + 0.010 + 0.0002 + 0.015
    assert worst == pytest.approx(0.033, abs=5e-4)
    assert worst > 1.4 * STACK.expanded
    # The naive sum of standard uncertainties is neither of the two.
    assert abs(sum(c.standard for c in STACK.contributions) - STACK.standard) > 0.007


def test_stack_by_drawing_lots():
    """The same stack thrown 200,000 times: its scatter, and the share within the expanded uncertainty."""
    rng = Random("stack")
    throws = [
        rng.uniform(-1 / 128, 1 / 128) + rng.uniform(-0.010, 0.010) + rng.gauss(0, 0.0002) + rng.uniform(-0.015, 0.015)
        for _ in range(200_000)
    ]
    assert pstdev(throws) == pytest.approx(STACK.standard, rel=0.006)
    assert 0.95 < sum(abs(t) <= STACK.expanded for t in throws) / len(throws) < 0.98
