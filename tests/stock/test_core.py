"""The integer core against plain enumeration: tables, bounds, patterns."""

import itertools
import random

import pytest

import anglelib.stock.knapsack as knapsack
from anglelib.stock.bound import Prices, out_of_reach
from anglelib.stock.columns import Relaxation
from anglelib.stock.decide import Decider
from anglelib.stock.effort import Effort
from anglelib.stock.instance import Instance, Size, Space
from anglelib.stock.knapsack import Knapsack
from anglelib.stock.patterns import worthwhile
from anglelib.stock.search import NO, YES


def every_pattern(widths, counts, capacity):
    for pattern in itertools.product(*(range(c + 1) for c in counts)):
        if sum(n * w for n, w in zip(pattern, widths, strict=True)) <= capacity:
            yield pattern


@pytest.mark.parametrize("cells", [12_000, 0], ids=["over lengths", "over prices"])
@pytest.mark.parametrize("seed", range(40))
def test_knapsack_is_the_best_pattern(seed, cells, monkeypatch):
    monkeypatch.setattr(knapsack, "CELLS", cells)
    rng = random.Random(seed)
    kinds = rng.randint(1, 4)
    widths = [rng.randint(1, 30) for _ in range(kinds)]
    counts = [rng.randint(1, 4) for _ in range(kinds)]
    prices = [rng.randint(0, 20) for _ in range(kinds)]
    table = Knapsack(widths, counts, prices, 60)
    assert table.by_length == bool(cells)
    for capacity in (0, 1, 7, 23, 41, 60):
        best = max(sum(n * p for n, p in zip(q, prices, strict=True)) for q in every_pattern(widths, counts, capacity))
        assert table.best(capacity) == best
        pattern = table.pattern(capacity)
        assert sum(n * p for n, p in zip(pattern, prices, strict=True)) == best
        assert pattern in set(every_pattern(widths, counts, capacity))


def random_instance(seed):
    rng = random.Random(f"core {seed}")
    sizes = sorted({Size(rng.randint(3, 20)) for _ in range(rng.randint(1, 4))}, reverse=True)
    claims = tuple(rng.randrange(len(sizes)) for _ in range(rng.randint(1, 6)))
    spaces = tuple(Space(rng.randint(8, 40), n, unsawn=rng.random() < 0.3, full=True) for n in range(rng.randint(1, 3)))
    return Instance(tuple(sizes), spaces, claims, kerf=rng.randint(0, 2), grain=rng.randint(1, 3), minimum=rng.randint(0, 4))


def every_packing(instance):
    demand = instance.demand
    ways = [[p for p in every_pattern([s.width for s in instance.sizes], demand, instance.capacity(space))] for space in instance.spaces]
    for packing in itertools.product(*ways):
        if instance.output(packing) == demand:
            yield packing


@pytest.mark.parametrize("seed", range(60))
def test_decisions_and_proofs_are_right(seed):
    instance = random_instance(seed)
    rng = random.Random(seed)
    remnants = [
        sorted((instance.remains(p, s) for p, s in zip(q, instance.spaces, strict=True)), reverse=True) for q in every_packing(instance)
    ]
    decider = Decider(instance, instance.demand, Effort(5))
    for _ in range(6):
        target = tuple(sorted((rng.randint(1, 30) for _ in range(rng.randint(0, len(instance.spaces)))), reverse=True))
        possible = any(all(t <= r for t, r in zip(target, left, strict=False)) for left in remnants)
        answer = decider.decide(target)
        assert answer.verdict == (YES if possible else NO), target
        prices = Prices(instance, instance.demand, [rng.randint(0, 9) for _ in instance.sizes])
        if possible and not out_of_reach(instance, target):
            assert not prices.refutes(target)


@pytest.mark.parametrize("seed", range(40))
def test_no_pattern_of_a_plan_is_missed(seed):
    """Every plan that leaves a target uses only patterns that the price lists leave."""
    instance = random_instance(seed)
    packings = list(every_packing(instance))
    if not packings:
        return
    relaxation = Relaxation(instance, instance.demand, Effort(5))
    best = max(sorted((instance.remains(p, s) for p, s in zip(q, instance.spaces, strict=True)), reverse=True) for q in packings)
    target = tuple(r for r in best[:1] if r)
    relaxation.sharpen((target[0] + 1,) if target else ())
    rng = random.Random(seed)
    mixed = Prices(instance, instance.demand, [s.width * 100 + rng.randint(-50, 50) for s in instance.sizes])
    lists = [(prices, prices.gap(target)) for prices in [*relaxation.prices, mixed]]
    columns = worthwhile(instance, instance.demand, target, lists, Effort(5), 10**6, full=False)
    known = {(c.kind, c.pattern) for c in columns}
    for packing in packings:
        left = [instance.remains(p, s) for p, s in zip(packing, instance.spaces, strict=True)]
        if all(t <= r for t, r in zip(target, sorted(left, reverse=True), strict=False)):
            assert all((instance.kind(s), p) in known for p, s in zip(packing, instance.spaces, strict=True))


def test_a_price_list_that_asks_too_much_refutes_nothing():
    """The guard: a bound that forgot the kerf at an unsawn end would refute what can be had."""
    instance = Instance((Size(11),), (Space(10, 0, unsawn=True),), (0,), kerf=1, grain=1, minimum=0)
    assert not Prices(instance, (1,), [11]).refutes(())
    sawn = Instance((Size(11),), (Space(10, 0),), (0,), kerf=1, grain=1, minimum=0)
    assert Prices(sawn, (1,), [11]).refutes(())
