"""The objective of a plan, level by level: parts made, longest remnants, then the plain economies.

Each level is settled before the next is looked at. Level 1 asks, claim by claim, whether one more
blank can be made; level 2, piece by piece, how long what remains can be. Both end in a proof or in
an honest bound.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from anglelib.stock.columns import Column
from anglelib.stock.decide import Decider
from anglelib.stock.effort import Effort, Stopped
from anglelib.stock.instance import Instance, Packing, count
from anglelib.stock.search import NO, YES

PATIENCE = 16


@dataclass
class Outcome:
    """The best packing found, and what is proven of it; numbers in the instance's integers.

    ``demand`` is what the packing makes; ``doubtful`` the claims that it does not make though no
    proof says that they cannot be; ``limits`` an upper limit for each remnant that is not proven the
    longest, by its place. ``settled`` are the levels that are proven.
    """

    packing: Packing
    demand: tuple[int, ...]
    refused: list[int] = field(default_factory=list)
    doubtful: list[int] = field(default_factory=list)
    left: list[tuple[int, int]] = field(default_factory=list)
    settled: set[int] = field(default_factory=set)
    pool: dict[Column, None] = field(default_factory=dict)
    interrupted: bool = False


def improve(instance: Instance, start: Sequence[Packing], effort: Effort) -> Outcome:
    """Settle the levels one after another, from the best of some packings to start with."""
    from anglelib.stock.economies import economise

    best = max(start, key=lambda packing: (instance.score(packing), packing))
    outcome = Outcome(best, instance.output(best))
    try:
        make(instance, outcome, effort)
        decider = Decider(instance, outcome.demand, effort, list(outcome.pool))
        for packing in (*start, outcome.packing):
            decider.relaxation.learn(packing)
        keep(instance, outcome, decider, effort)
        economise(instance, outcome, decider, effort)
    except Stopped:
        outcome.interrupted = True
    return outcome


# --- level 1 --------------------------------------------------------------------------------------
def make(instance: Instance, outcome: Outcome, effort: Effort) -> None:
    """Make as many blanks as can be, those with the first claim first."""
    if outcome.demand == instance.demand:
        outcome.settled.add(1)
        return
    effort.tell("Not everything is placed yet: looking for what can be made.")
    taken: list[int] = []
    waiting = list(instance.claims)
    doubtful: list[int] = []
    while waiting:
        able, verdict = _most(instance, taken, waiting, outcome, effort)
        taken += waiting[:able]
        if able == len(waiting):
            break
        size = waiting[able]
        if verdict != NO:
            doubtful.append(size)
        # blanks of one size are alike: where one cannot be made, nor can the next
        waiting = [claim for claim in waiting[able + 1 :] if claim != size]
    outcome.demand = instance.output(outcome.packing)
    made = instance.made(outcome.packing)
    outcome.refused = [claim for claim, done in zip(instance.claims, made) if not done]
    outcome.doubtful = [claim for claim in outcome.refused if claim in doubtful]
    if not outcome.doubtful:
        outcome.settled.add(1)


def _most(instance: Instance, taken: list[int], waiting: list[int], outcome: Outcome, effort: Effort) -> tuple[int, str]:
    """How many of the waiting claims, in order, can be made besides those taken; why not one more."""
    low, high, verdict = 0, len(waiting) + 1, NO
    middle = len(waiting)
    while high - low > 1:
        answer = _makes(instance, count(taken + waiting[:middle], len(instance.sizes)), outcome, effort)
        if answer == YES:
            low = middle
        else:
            high, verdict = middle, answer
        middle = (low + high) // 2
    return low, verdict


def _makes(instance: Instance, demand: tuple[int, ...], outcome: Outcome, effort: Effort) -> str:
    if all(d <= h for d, h in zip(demand, instance.output(outcome.packing))):
        return YES
    decider = Decider(instance, demand, effort, list(outcome.pool))
    answer = decider.decide(())
    outcome.pool.update(decider.relaxation.pool)
    if answer.verdict == YES:
        outcome.packing = max(outcome.packing, answer.packing, key=instance.score)
    return answer.verdict


# --- level 2 --------------------------------------------------------------------------------------
def keep(instance: Instance, outcome: Outcome, decider: Decider, effort: Effort) -> None:
    """Make what remains as long as can be: the longest piece first, then the next."""
    lengths = sorted((s.length for s in instance.spaces), reverse=True)
    fixed: list[int] = []
    outcome.left = []
    for place, length in enumerate(lengths):
        most = min([instance.graded(length), *fixed[-1:]])
        limit = _longest(instance, outcome, decider, effort, fixed, most)
        fixed.append(instance.left(outcome.packing)[place])
        outcome.left.append((fixed[-1], limit))
        said = ", ".join(str(v) for v in fixed)
        effort.tell(f"What remains, in steps of the grain: {said} ...")
        if limit == 0:
            outcome.left += [(0, 0)] * (len(lengths) - place - 1)
            break
    if all(found == limit for found, limit in outcome.left):
        outcome.settled.add(2)


def _longest(
    instance: Instance, outcome: Outcome, decider: Decider, effort: Effort, fixed: list[int], most: int
) -> int:
    """Make the next remnant as long as can be; what it is proven not to exceed."""

    def target(grades: int) -> tuple[int, ...]:
        return tuple(instance.threshold(v) for v in (*fixed, grades))

    place = len(fixed)
    have = instance.left(outcome.packing)[place]
    limit = decider.limit(target, have, most)
    patience = 1.0
    while have < limit and effort.left > 0:
        tried = limit
        while tried > have and effort.left > 0:
            answer = decider.decide(target(tried), target(limit + 1), patience)
            if answer.verdict == YES:
                outcome.packing = answer.packing
                decider.relaxation.learn(answer.packing)
                have = instance.left(answer.packing)[place]
                break
            if answer.verdict == NO:
                limit = min(limit, tried - 1)
                tried -= 1
            else:
                tried = (have + tried) // 2
        # what is still open is tried again, harder, while more than half of the work is left
        patience *= 4
        if patience > PATIENCE or effort.left < effort.budget / 2:
            break
    return limit
