"""The planner against every plan there is (tests/stock/brute.py), and every plan against the checker."""

import pytest
from brute import best, reached
from small_jobs import small_job

from anglelib.stock.checker import faults
from anglelib.stock.planner import plan


def compare(seed: int) -> None:
    job, rack = small_job(seed)
    made = plan(job, rack)
    assert faults(made, job, rack) == (), seed
    for group in made.groups:
        assert reached(group, job, rack) == best(job, rack, group.section, group.alloy), seed
        assert [proof.proven for proof in group.proofs] == [True] * 4, seed


@pytest.mark.parametrize("block", range(10))
def test_no_plan_is_better(block):
    for seed in range(50 * block, 50 * block + 50):
        compare(seed)


@pytest.mark.slow
@pytest.mark.parametrize("block", range(100))
def test_no_plan_is_better_in_ten_thousand(block):
    for seed in range(100 * block, 100 * block + 100):
        compare(seed)


def test_the_oracle_sees_a_worse_plan():
    """The guard itself: a plan with a blank moved to a longer stick is not the best."""
    worse = 0
    for seed in range(200):
        job, rack = small_job(seed)
        made = plan(job, rack)
        for group in made.groups:
            top = best(job, rack, group.section, group.alloy)
            if any(top[0]) and len(top[1]) > 1:
                spoiled = (top[0], tuple(sorted((max(0, top[1][0] - 1), *top[1][1:]), reverse=True)), *top[2:])
                worse += spoiled < top
    assert worse > 50
