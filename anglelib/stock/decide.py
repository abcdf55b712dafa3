"""Can these blanks be made and these remnants left? A plan, a proof that there is none, or "unknown".

The stages, cheapest first: price lists met before; column generation; a search among the patterns
it met; a short look at the counts alone (:mod:`anglelib.stock.counts`); all patterns that the price
lists leave (complete, hence a proof); and where those are too many, a dive: one pattern of the
fractional plan is settled, and the rest decided again.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from anglelib.stock.bound import Gap, Prices, Target
from anglelib.stock.columns import Column, Relaxation
from anglelib.stock.counts import counted
from anglelib.stock.effort import Effort
from anglelib.stock.instance import Instance
from anglelib.stock.patterns import worthwhile
from anglelib.stock.search import NO, UNKNOWN, YES, Answer, among

SHARES = tuple(2 ** -(k / 2) for k in range(12, -1, -1))
ENOUGH = 3_000
MOST = 20_000
LISTS = 3
DIVES = 6
COUNTED = 0.15


class Decider:
    """Decides targets for one instance and one demand; what it learns helps the next target."""

    def __init__(self, instance: Instance, demand: Sequence[int], effort: Effort, pool: Sequence[Column] = ()):
        self.instance, self.demand, self.effort = instance, tuple(demand), effort
        self.relaxation = Relaxation(instance, demand, effort, pool)
        self._sharpened: set[Target] = set()
        self.patience = 1.0

    def limit(self, target: Callable[[int], Target], low: int, high: int) -> int:
        """The largest number from ``low`` to ``high`` whose target is not proven out of reach.

        ``target(low)`` can be had; a larger number asks for more.
        """
        r = self.relaxation
        while high > low:
            if r.refutes(target(high)):
                good, bad = low, high
                while bad - good > 1:
                    middle = (good + bad) // 2
                    good, bad = (good, middle) if r.refutes(target(middle)) else (middle, bad)
                high = good
            elif r.solve(target(high)).refuted:
                high -= 1
            else:
                break
        return high

    def decide(self, target: Target, beyond: Target | None = None, patience: float = 1.0) -> Answer:
        """Whether there is a plan. ``beyond`` is a target known to be out of reach, just above this one.

        A larger ``patience`` searches longer, and among more patterns.
        """
        self.patience = patience
        r = self.relaxation
        if r.refutes(target):
            return Answer(NO)
        relaxed = r.solve(target)
        if relaxed.refuted:
            return Answer(NO)
        answer = self._among(target, list(r.pool), 0.3, relaxed.shares)
        if answer.verdict == YES:
            return answer
        answer = counted(self.instance, self.demand, target, self.effort, COUNTED * self.patience)
        if answer.verdict != UNKNOWN:
            return answer
        if beyond is not None and beyond not in self._sharpened:
            self._sharpened.add(beyond)
            r.sharpen(beyond)
        lists = self.lists(target)
        answer = self._listed(target, lists, relaxed.shares)
        if answer.verdict != UNKNOWN:
            return answer
        return self._dive(target, lists, relaxed.shares)

    def lists(self, target: Target) -> list[tuple[Prices, Gap]]:
        """The price lists that leave least to lose, with their gaps."""
        found = [(prices.gap(target), n, prices) for n, prices in enumerate(self.relaxation.prices)]
        priced = [sum(v > 0 for v in prices.values) for _, _, prices in found]
        order = sorted(range(len(found)), key=lambda n: (-(priced[n] >= 0.6 * max(priced)), found[n][0].value, n))
        return [(found[n][2], found[n][0]) for n in order[:LISTS]]

    def _among(self, target: Target, columns, limit: float, shares) -> Answer:
        limit *= self.patience
        return among(self.instance, self.demand, target, columns, self.effort, limit, shares)

    def _listed(self, target: Target, lists, shares) -> Answer:
        """Search the patterns that lose little, then more of them, then all that a plan can use."""
        known = 0
        for share in SHARES if lists else (1.0,):
            last = share == 1.0
            columns = worthwhile(
                self.instance, self.demand, target, lists, self.effort, int((MOST if last else ENOUGH) * self.patience), share
            )
            if columns is None:
                if not last:
                    columns = worthwhile(self.instance, self.demand, target, lists, self.effort, int(MOST * self.patience))
                    last = True
                if columns is None:
                    return Answer(UNKNOWN)
            if len(columns) == known and not last:
                continue
            known = len(columns)
            answer = self._among(target, columns, 2.0, shares)
            if answer.verdict == YES or last:
                return answer
        return Answer(UNKNOWN)

    def _dive(self, target: Target, lists, shares, width: int = DIVES) -> Answer:
        """Settle the pattern that the fractional plan is surest of, and decide what is left; then the next such pattern."""
        order = sorted(shares, key=lambda s: (-s[1], -s[0].load, s[0]))
        for column, _ in [s for s in order if s[0].load][:width]:
            rest, demand, pieces, used = settle(self.instance, self.demand, target, column)
            below = Decider(rest, demand, self.effort, list(self.relaxation.pool))
            below.patience = self.patience
            below.relaxation.prices = [prices.on(rest, demand) for prices, _ in lists]
            answer = below._deeper(pieces)
            if answer.verdict == YES:
                packing = list(answer.packing)
                packing.insert(used, column.pattern)
                return Answer(YES, tuple(packing))
        return Answer(UNKNOWN)

    def _deeper(self, target: Target) -> Answer:
        """What a dive does with the rest: search all of its patterns once they are few enough, else dive on."""
        r = self.relaxation
        if r.refutes(target):
            return Answer(NO)
        relaxed = r.solve(target)
        if relaxed.refuted:
            return Answer(NO)
        lists = self.lists(target)
        columns = worthwhile(self.instance, self.demand, target, lists, self.effort, int(ENOUGH * self.patience))
        if columns is not None:
            return self._among(target, columns, 1.0, relaxed.shares)
        return self._dive(target, lists, relaxed.shares, width=1)


def settle(instance: Instance, demand: Sequence[int], target: Target, column: Column):
    """What is left to decide once one space has its pattern: instance, demand, target, and the space."""
    used = instance.kinds[column.kind][0]
    spaces = tuple(s for n, s in enumerate(instance.spaces) if n != used)
    left = column.kind.length - column.load
    pieces = sorted(target, reverse=True)
    served = next((piece for piece in pieces if piece <= left), None)
    if served is not None:
        pieces.remove(served)
    rest = tuple(max(0, d - n) for d, n in zip(demand, column.pattern))
    return replace(instance, spaces=spaces, claims=(), ranks=()), rest, tuple(pieces), used
