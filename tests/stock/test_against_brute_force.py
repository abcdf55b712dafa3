"""The planner against every plan there is (tests/stock/brute.py), and every plan against the checker."""

import random

import pytest
from brute import best, every, how_many, met, reached, scratched
from small_jobs import ALLOY, EQUAL, small_job

from anglelib.job import Job, Shop
from anglelib.part import Part
from anglelib.stock.checker import faults
from anglelib.stock.planner import plan
from anglelib.stock.rack import Rack, Stick


def compare(seed: int) -> None:
    job, rack = small_job(seed)
    made = plan(job, rack)
    assert faults(made, job, rack) == (), seed
    for group in made.groups:
        assert reached(group, job, rack) == best(job, rack, group.section, group.alloy), seed
        # where one cut takes a scratch away for both its sides, cuts are not proven the fewest
        clear = not scratched(job, rack, group.section, group.alloy)
        assert [proof.proven for proof in group.proofs[:4]] == [True, True, True, clear], seed


@pytest.mark.parametrize("block", range(10))
def test_no_plan_is_better(block):
    for seed in range(50 * block, 50 * block + 50):
        compare(seed)


def equal_claims(seed: int) -> tuple[Job, Rack]:
    """Two sticks, a part or two that either of them may serve, and parts of one shorter length that only one of them may."""
    rng = random.Random(f"equal claims {seed}")
    sticks = [Stick(f"S-{n}", EQUAL, ALLOY, rng.randint(18, 44), far_end_good=rng.random() < 0.5) for n in range(2)]
    parts = [Part("L", "Long", EQUAL, ALLOY, rng.randint(12, 24), quantity=rng.choice([1, 1, 2]))]
    for n in range(rng.randint(2, 3)):
        parts.append(Part(f"P{n}", "Bar", EQUAL, ALLOY, 10, quantity=rng.randint(1, 2), only_stick=rng.choice(["S-0", "S-1", "S-1", ""])))
    return Job("Equal claims", Shop(), parts), Rack(sticks)


def test_of_equal_claims_as_many_are_made_as_can_be():
    """The same, and on some racks the first ids first would make fewer: what the guard guards against is there."""
    fewer = 0
    for seed in (*range(40), 56, 58, 84):
        job, rack = equal_claims(seed)
        made = plan(job, rack)
        assert faults(made, job, rack) == (), seed
        for group in made.groups:
            top = best(job, rack, group.section, group.alloy)
            assert reached(group, job, rack) == top, seed
            assert all(proof.proven for proof in group.proofs[:3]), seed
            first = max(tuple(at is not None for at in way) for way, _, _ in every(job, rack, group.section, group.alloy))
            fewer += sum(first) < sum(met(top))
    assert fewer >= 3


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
            if how_many(top)[0] and len(top[1]) > 1:
                spoiled = (top[0], tuple(sorted((max(0, top[1][0] - 1), *top[1][1:]), reverse=True)), *top[2:])
                worse += spoiled < top
    assert worse > 50
