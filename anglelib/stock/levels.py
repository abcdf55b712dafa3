"""The objective of a plan, level by level: parts made, longest remnants, then the plain economies.

Each level is settled before the next is looked at. Level 1 asks, claim by claim, whether one more
blank can be made; level 2, piece by piece, how long what remains can be. Both end in a proof or in
an honest bound.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import zip_longest

from anglelib.stock.decide import Decider
from anglelib.stock.economies import economise
from anglelib.stock.effort import Effort, Stopped
from anglelib.stock.equals import most_of_equals
from anglelib.stock.instance import Instance, Packing, count
from anglelib.stock.outcome import Outcome
from anglelib.stock.search import NO, YES

PATIENCE = 16


def improve(instance: Instance, start: Sequence[Packing], effort: Effort, levels: int = 4) -> Outcome:
    """Settle the levels (the first one, the first two, or all) in order, from the best of some packings."""
    best = max(start, key=lambda packing: (instance.score(packing), packing))
    outcome = Outcome(best, instance.output(best))
    try:
        with effort.up_to(0.5):
            make(instance, outcome, effort)
        settle_claims(instance, outcome)
        outcome.decider = decider = Decider(instance, outcome.demand, effort, list(outcome.pool))
        for packing in (*start, outcome.packing):
            decider.relaxation.learn(packing)
        if levels > 1:
            with effort.up_to(0.9):
                keep(instance, outcome, decider, effort)
        if levels > 2:
            with effort.up_to(1.0):
                economise(instance, outcome, decider, effort)
    except Stopped:
        outcome.interrupted = True
    settle_claims(instance, outcome)
    settle_lengths(instance, outcome)
    return outcome


# --- level 1 --------------------------------------------------------------------------------------
def make(instance: Instance, outcome: Outcome, effort: Effort) -> None:
    """Make as many blanks as can be, those with the first claim first."""
    if outcome.demand == instance.demand:
        outcome.settled.add(1)
        return
    effort.tell("Not everything is placed yet: looking for what can be made.")
    taken: list[int] = []
    waiting = list(range(len(instance.claims)))
    while waiting:
        sizes = [instance.claims[n] for n in waiting]
        able, verdict = _most(instance, taken, sizes, outcome, effort)
        if able == len(waiting):
            break
        equal = next((range(*pair) for pair in instance.equals if waiting[able] in range(*pair)), None)
        if equal is None:
            taken += sizes[:able]
            if verdict == NO:
                outcome.ruled_out.add(sizes[able])
            # blanks of one size are alike: where one cannot be made, nor can the next
            waiting = [n for n in waiting[able + 1 :] if instance.claims[n] != sizes[able]]
            continue
        taken += [instance.claims[n] for n in waiting[:able] if n < equal.start]
        claims = [instance.claims[n] for n in waiting if n in equal]
        made, sure = most_of_equals(claims, _maker(instance, taken, outcome, effort))
        taken += made
        lacking = {size for size in claims if claims.count(size) > made.count(size)}
        if sure:
            outcome.ruled_out |= lacking
        waiting = [n for n in waiting if n >= equal.stop and instance.claims[n] not in lacking]


def settle_claims(instance: Instance, outcome: Outcome) -> None:
    """Say which claims the packing refuses, and which of them without proof."""
    outcome.demand = instance.output(outcome.packing)
    made = instance.made(outcome.packing)
    outcome.refused = [claim for claim, done in zip(instance.claims, made) if not done]
    outcome.doubtful = [claim for claim in outcome.refused if claim not in outcome.ruled_out]
    if not outcome.doubtful:
        outcome.settled.add(1)


def settle_lengths(instance: Instance, outcome: Outcome) -> None:
    """Give a limit to the remnants that were not looked at: what there was before anything was sawn."""
    lengths = sorted((instance.graded(s.length) for s in instance.spaces), reverse=True)
    found = instance.left(outcome.packing)
    limits = [limit for _, limit in outcome.left]
    outcome.left = list(zip(found, limits + lengths[len(limits) :]))


def _most(instance: Instance, taken: list[int], waiting: list[int], outcome: Outcome, effort: Effort) -> tuple[int, str]:
    """How many of the waiting claims, in order, can be made besides those taken; why not one more."""
    low, high, verdict = 0, len(waiting) + 1, NO
    barred, patience = high, 1.0
    middle = len(waiting)
    while True:
        while high - low > 1:
            answer = _makes(instance, count(taken + waiting[:middle], len(instance.sizes)), outcome, effort, patience)
            if answer == YES:
                low = middle
            else:
                high, verdict = middle, answer
                barred = middle if answer == NO else barred
            middle = (low + high) // 2
        # what is still open is tried again, harder, from all that is not barred on
        patience *= 4
        if low + 1 == barred or patience > PATIENCE:
            return low, verdict
        high = barred
        middle = high - 1


def _maker(instance: Instance, taken: list[int], outcome: Outcome, effort: Effort) -> Callable[[list[int]], str]:
    """Whether some sizes can be made besides those taken."""
    earlier = tuple(taken)
    return lambda sizes: _makes(instance, count((*earlier, *sizes), len(instance.sizes)), outcome, effort, 4.0)


def _makes(instance: Instance, demand: tuple[int, ...], outcome: Outcome, effort: Effort, patience: float) -> str:
    if all(d <= h for d, h in zip(demand, instance.output(outcome.packing))):
        return YES
    decider = Decider(instance, demand, effort, list(outcome.pool))
    answer = decider.decide((), patience=patience)
    outcome.pool.update(decider.relaxation.pool)
    if answer.verdict == YES:
        outcome.packing = max(outcome.packing, answer.packing, key=instance.score)
    return answer.verdict


# --- level 2 --------------------------------------------------------------------------------------
def keep(
    instance: Instance,
    outcome: Outcome,
    decider: Decider,
    effort: Effort,
    floor: Sequence[int] = (),
    beaten: Callable[[Sequence[int]], bool] | None = None,
) -> None:
    """Make what remains as long as can be: the longest piece first, then the next.

    ``floor`` is what of each piece, in grains, longest first, has to remain in any case; the packing leaves it. ``beaten`` says of the most that the
    pieces looked at can be whether the rest need not be looked at.
    """
    lengths = sorted((s.length for s in instance.spaces), reverse=True)
    fixed: list[int] = []
    outcome.left = []
    for length in lengths:
        most = min([instance.graded(length), *fixed[-1:]])
        _longest(instance, outcome, decider, effort, fixed, most, floor)
        fixed.append(outcome.left[-1][0])
        if beaten is not None and beaten([limit for _, limit in outcome.left]):
            return
        effort.tell(f"What remains: {len(fixed)} of {len(lengths)} pieces looked at, the last is {fixed[-1]}.")
        if outcome.left[-1][1] == 0:
            outcome.left += [(0, 0)] * (len(lengths) - len(fixed))
            break
    if all(found == limit for found, limit in outcome.left):
        outcome.settled.add(2)


def _longest(
    instance: Instance, outcome: Outcome, decider: Decider, effort: Effort, fixed: list[int], most: int, floor: Sequence[int] = ()
) -> None:
    """Make the next remnant as long as can be, and find what it cannot exceed."""

    def target(grains: int) -> tuple[int, ...]:
        wanted = zip_longest((*fixed, grains), floor, fillvalue=0)
        return tuple(instance.threshold(max(pair)) for pair in wanted)

    place = len(fixed)
    have, limit = instance.left(outcome.packing)[place], most
    outcome.left.append((have, limit))
    limit = decider.limit(target, have, most)
    outcome.left[place] = have, limit
    patience = 1.0
    while have < limit:
        tried = limit
        while tried > have:
            answer = decider.decide(target(tried), target(limit + 1), patience)
            if answer.verdict == YES:
                outcome.packing = answer.packing
                decider.relaxation.learn(answer.packing)
                have = instance.left(answer.packing)[place]
            elif answer.verdict == NO:
                limit = min(limit, tried - 1)
                tried -= 1
            else:
                tried = (have + tried) // 2
            outcome.left[place] = have, limit
        # what is still open is tried again, harder, while enough of the work is left
        patience *= 4
        if patience > PATIENCE or effort.left < 0.4 * effort.budget:
            break
