"""Of the plans that are equally good, the one that changes least.

Equally good: the same blanks are made and the same remnants left (levels 1 and 2). A plan changes
less than another if more blanks come from the stick that the old plan took them from; a blank is its
length, so that two parts of one length may change names. Of those that change as little, the one with
the fewest full sticks opened, then fewest touched, then fewest cuts.

The old plan can keep at most all of its blanks; what it cannot is minimised over every pattern that a
plan as good could use, which is a proof, or over those met so far where they are too many.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from anglelib.stock.bound import Target
from anglelib.stock.columns import Column
from anglelib.stock.decide import SHARES
from anglelib.stock.economies import sticks_used
from anglelib.stock.effort import Effort, Stopped
from anglelib.stock.instance import Instance, Packing
from anglelib.stock.outcome import Outcome
from anglelib.stock.patterns import worthwhile
from anglelib.stock.search import YES, Choice

COLUMNS = 12_000
LIMIT = 1.5

Before = Mapping[tuple[int, int], int]
"""How many blanks of a size the old plan took from a stick: by (stick, size)."""


@dataclass(frozen=True)
class LeastChange:
    """The packing that changes least: how many blanks stay on their stick, and the most that can.

    ``kept`` equal to ``most``: proven. ``economies``: that its sticks and cuts are then the fewest is
    proven too.
    """

    packing: Packing
    kept: int
    most: int
    economies: bool


def kept(instance: Instance, packing: Packing, before: Before) -> int:
    """How many blanks a packing takes from the stick that the old plan took them from.

    >>> from anglelib.stock.instance import Size, Space
    >>> rack = Instance((Size(9), Size(4)), (Space(20, 0), Space(20, 1)), (0, 1, 1), kerf=1, grain=1, minimum=0)
    >>> kept(rack, ((1, 1), (0, 1)), {(0, 0): 1, (0, 1): 2})
    2
    """
    now: Counter[tuple[int, int]] = Counter()
    for pattern, space in zip(packing, instance.spaces):
        for size, number in enumerate(pattern):
            now[space.stick, size] += number
    return sum(min(number, now[place]) for place, number in before.items())


def carry_over(instance: Instance, old: Packing, first: Sequence[tuple[int, int]] = ()) -> Packing:
    """The old packing as far as it still fits, and the other blanks beside it, longest first, from the shortest piece that serves.

    ``first`` are blanks that have their place before all others: (space, size).
    """
    loads = [0] * len(instance.spaces)
    found = [[0] * len(instance.sizes) for _ in instance.spaces]
    rest = list(instance.demand)

    def place(n: int, size: int) -> None:
        loads[n] += instance.sizes[size].width
        found[n][size] += 1
        rest[size] -= 1

    def fits(n: int, size: int) -> bool:
        return instance.sizes[size].allows(instance.spaces[n].stick) and loads[n] + instance.sizes[size].width <= instance.capacity(instance.spaces[n])

    for n, size in first:
        place(n, size)
    for n, pattern in enumerate(old):
        for size, number in enumerate(pattern):
            for _ in range(number):
                if rest[size] > 0 and fits(n, size):
                    place(n, size)
    for size in sorted(range(len(rest)), key=lambda size: (-instance.sizes[size].width, size)):
        while rest[size] > 0:
            able = [n for n in range(len(loads)) if fits(n, size)]
            if not able:
                break
            place(min(able, key=lambda n: (instance.spaces[n].length - loads[n], n)), size)
    return tuple(tuple(pattern) for pattern in found)


def change_least(instance: Instance, outcome: Outcome, before: Before, others: list[Packing], effort: Effort) -> LeastChange:
    """The packing as good as the outcome's that keeps most of the old plan.

    The old plan's sticks must stand ``apart`` in the instance. ``others`` are further packings whose
    patterns may help.
    """
    all_old = sum(before.values())
    able = [p for p in (outcome.packing, *others) if instance.score(p)[:2] == instance.score(outcome.packing)[:2]]
    best = max(able, key=lambda p: (kept(instance, p, before), instance.score(p), p))
    found = LeastChange(best, kept(instance, best, before), _most(outcome, before), False)
    if outcome.decider is None:
        return found
    try:
        return _search(instance, outcome, before, [*others, *able], found, effort)
    except Stopped:
        return found if found.kept < all_old else LeastChange(found.packing, found.kept, found.kept, False)


def _most(outcome: Outcome, before: Before) -> int:
    """No plan keeps more of a size than it makes of it."""
    old: Counter[int] = Counter()
    for (_, size), number in before.items():
        old[size] += number
    return sum(min(number, outcome.demand[size]) for size, number in old.items())


def _search(instance: Instance, outcome: Outcome, before: Before, others: list[Packing], found: LeastChange, effort: Effort) -> LeastChange:
    effort.tell("Looking for the plan that changes least.")
    decider, demand = outcome.decider, outcome.demand
    target = tuple(instance.threshold(v) for v in instance.left(outcome.packing) if v)
    for packing in others:
        decider.relaxation.learn(packing)
    columns, complete = _columns(instance, demand, target, decider, effort)
    known = dict.fromkeys(columns)
    if not complete:
        known.update(dict.fromkeys(decider.relaxation.pool))
    known.update(dict.fromkeys(_of(instance, found.packing)))
    best, most = found.packing, found.most
    if found.kept < most:
        choice = _choice(instance, demand, target, list(known), best)
        choice.model.minimize(sum(before.values()) - _staying(choice, before))
        answer = choice.answer(effort, LIMIT)
        if answer.verdict == YES:
            if kept(instance, answer.packing, before) > kept(instance, best, before):
                best = answer.packing
            if complete:
                most = min(most, sum(before.values()) - answer.bound)
    found = LeastChange(best, kept(instance, best, before), most, False)
    proven = complete
    for goal in ("sticks", "cuts"):
        choice = _choice(instance, demand, target, list(known), best)
        choice.model.add(_staying(choice, before) >= found.kept)
        opened, touched = sticks_used(choice)
        score = instance.score(best)
        if goal == "sticks":
            choice.model.minimize(opened * (len(instance.spaces) + 1) + touched)
            spent = -score.opened * (len(instance.spaces) + 1) - score.touched
        else:
            choice.model.add(opened == -score.opened)
            choice.model.add(touched == -score.touched)
            choice.model.minimize(choice.total(lambda column: instance.cuts(column.pattern, column.kind)))
            spent = -score.cuts
        answer = choice.answer(effort, LIMIT)
        if answer.verdict == YES and instance.score(answer.packing) > score and kept(instance, answer.packing, before) >= found.kept:
            score = instance.score(answer.packing)
            best = answer.packing
            spent = -score.opened * (len(instance.spaces) + 1) - score.touched if goal == "sticks" else -score.cuts
        proven = proven and answer.bound is not None and answer.bound >= spent
    return LeastChange(best, kept(instance, best, before), most, proven)


def _columns(instance: Instance, demand, target: Target, decider, effort: Effort) -> tuple[list[Column], bool]:
    """Every pattern that a plan as good can use, and True; or those that lose little, and False."""
    lists = decider.lists(target)
    columns = worthwhile(instance, demand, target, lists, effort, COLUMNS, full=False, idle=True)
    if columns is not None:
        return columns, True
    some: list[Column] = []
    for share in SHARES[:-1]:
        columns = worthwhile(instance, demand, target, lists, effort, COLUMNS, share, full=False, idle=True)
        if columns is None:
            break
        some = columns
    return some, False


def _of(instance: Instance, packing: Packing) -> list[Column]:
    return [Column(instance.kind(s), p, instance.load(p)) for p, s in zip(packing, instance.spaces)]


def _choice(instance: Instance, demand, target: Target, columns: list[Column], best: Packing) -> Choice:
    choice = Choice(instance, demand, target, columns, exact=True)
    start = Counter(_of(instance, best))
    choice.near(start.items())
    return choice


def _staying(choice: Choice, before: Before):
    """How many blanks stay on their stick, as an expression of the model."""
    instance, staying = choice.instance, []
    sticks = {}
    for space in instance.spaces:
        sticks.setdefault(space.stick, set()).add(instance.kind(space))
    for (stick, size), number in before.items():
        terms = [(count, c.pattern[size]) for c, count in zip(choice.columns, choice.counts) if c.pattern[size] and c.kind in sticks[stick]]
        stays = choice.model.new_int_var(0, number, "")
        choice.model.add(stays <= sum(count * n for count, n in terms))
        staying.append(stays)
    return sum(staying)
