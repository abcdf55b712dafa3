"""The same plan whatever the order of rows; a budget, a clock and a stop that are honest."""

import threading

import pytest
from kits import kit, shuffled

from anglelib.stock.checker import faults
from anglelib.stock.planner import plan
from anglelib.stock.problem import problems
from anglelib.stock.rules import RULES

SLOW = pytest.mark.slow


@pytest.mark.parametrize("seed", [3, 6, 10, pytest.param(14, marks=SLOW), pytest.param(19, marks=SLOW)])
@pytest.mark.parametrize("units", ["eighths", "mixed"])
def test_rows_in_another_order_give_the_same_plan(seed, units):
    job, rack = kit(seed, units)
    first = plan(job, rack)
    for again in range(2):
        assert plan(*shuffled(job, rack, again)) == first


def test_a_plan_cut_short_by_its_budget_is_the_same_every_time():
    job, rack = kit(1)
    first = plan(job, rack, budget=0.3)
    assert faults(first, job, rack) == ()
    assert not first.interrupted
    assert plan(*shuffled(job, rack, 1), budget=0.3) == first
    second = next(proof for proof in first.groups[0].proofs if proof.level == 2)
    assert not second.proven and "cannot exceed" in second.sentence


@pytest.mark.parametrize("budget", [0.0, 0.05, 0.5])
@pytest.mark.parametrize("seed", [1, 12, 24])
def test_whatever_the_budget_no_rule_is_better(seed, budget):
    job, rack = kit(seed)
    made = plan(job, rack, budget=budget)
    assert faults(made, job, rack) == ()
    (problem,) = problems(job, rack)
    (group,) = made.groups
    lacking = sum(shortage.missing for shortage in group.shortages)
    for rule in RULES:
        packing = rule.pack(problem.instance)
        done = problem.instance.made(packing)
        assert (len(done) - lacking >= sum(done)) or problem.instance.made(packing) <= _made(problem, group)
        if lacking == 0 and all(done):
            assert group.left >= problem.instance.left(packing)


def _made(problem, group):
    placed = {(p.blank.part.id, p.blank.number) for s in group.sticks for p in (*s.placed, *s.held)}
    return tuple(int((b.part.id, b.number) in placed) for b in problem.blanks)


def test_stop_ends_the_search_with_a_sound_plan():
    job, rack = kit(1)
    stop = threading.Event()
    said = []

    def press(share, sentence):
        assert 0 <= share <= 1
        said.append(sentence)
        if "What remains" in sentence:
            stop.set()

    made = plan(job, rack, progress=press, stop=stop)
    assert made.interrupted and said
    assert faults(made, job, rack) == ()
    assert not all(proof.proven for proof in made.groups[0].proofs)


def test_a_clock_that_has_run_out_leaves_the_best_rule():
    job, rack = kit(1)
    made = plan(job, rack, seconds=0.0)
    assert made.interrupted
    assert faults(made, job, rack) == ()


@pytest.mark.parametrize("seed, units", [(32, "eighths"), (35, "mixed")])
def test_the_remnants_prove_how_few_sticks_can_be_used(seed, units):
    """Where patterns are too many for a search, level 3 is still proven."""
    made = plan(*kit(seed, units), budget=4)
    assert [proof.proven for proof in made.groups[0].proofs[:3]] == [True, True, True]
