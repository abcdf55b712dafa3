"""The search for the smallest purchase of one section and alloy, planned together with the rack.

Candidates are tried from the smallest on: fewest inches, then fewest sticks. Price lists met on the
way refute most of them without a search: at some prices the rack and what is bought cannot earn what
the blanks are worth.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil

from anglelib.job import Shop
from anglelib.stock.blank import Blank
from anglelib.stock.bound import Prices
from anglelib.stock.decide import Decider
from anglelib.stock.effort import Effort, Stopped
from anglelib.stock.instance import ANY, Instance, Packing
from anglelib.stock.levels import improve
from anglelib.stock.problem import Problem, problem
from anglelib.stock.rack import Stick
from anglelib.stock.rules import RULES, longest_first
from anglelib.stock.search import NO, YES


@dataclass(frozen=True)
class NotForSale:
    """A part that no purchase helps: how many pieces stay impossible, and why.

    ``named`` is the stick that the plans name for it; without one its blank (and cut, where a new stick is not trimmed) takes ``needs``, and of the ``longest``
    length sold ``usable`` can be used [in]; ``alone``: without a cut.
    """

    part_id: str
    missing: int
    named: str
    needs: Fraction
    longest: Fraction
    usable: Fraction
    alone: bool = False

    @property
    def sentence(self) -> str:
        """Why, in words."""
        from anglelib.stock.purchase_words import not_for_sale

        return not_for_sale(self)


class Search:
    """The search for one section and alloy, over the lengths ``sold``, less the ``trims`` of a new stick.

    ``not_for_sale`` is what no purchase helps; ``sure`` whether it is proven that the rack cannot serve it.
    """

    def __init__(self, group: Problem, shop: Shop, sold: Sequence[Fraction], trims: tuple[Fraction, Fraction], effort: Effort):
        self.group, self.effort, self.trims = group, effort, trims
        self.sold = tuple(length for length in sold if length > sum(trims))
        self.usable = max((length - sum(trims) for length in self.sold), default=Fraction(0))
        self.kerf = Fraction(0) if trims[1] else shop.kerf  # the last cut may run into what is trimmed off
        self.from_rack: Packing = ()
        self.lost: set[tuple[str, int]] = set()
        self.not_for_sale, self.sure = self._not_for_sale(max(sold))
        wanted = [b for b in group.blanks if (b.part.id, b.number) not in self.lost]
        names = {stick.id.lower() for stick in group.sticks}
        new = [Stick(new_name(names), group.section, group.alloy, length, *trims) for length in self.sold]
        both = problem(group.section, group.alloy, wanted, (*group.sticks, *new), shop)
        self.all = both.instance
        self.rack, self.pieces = self.all.spaces[: len(group.places)], self.all.spaces[len(group.places) :]
        self.sticks = len(group.sticks)
        self.start = self._translated(both)
        self.bars: list[tuple[int, tuple[int, ...]]] = []
        self.pool: dict = {}

    # --- what cannot be bought for ------------------------------------------------------------
    def _for_sale(self, blank: Blank) -> bool:
        return not blank.stick and blank.length + self.kerf <= self.usable

    def _not_for_sale(self, longest: Fraction) -> tuple[tuple[NotForSale, ...], bool]:
        """The parts that must come from the rack and cannot; whether that is proven."""
        instance = self.group.instance
        ours = [n for n, blank in enumerate(self.group.blanks) if not self._for_sale(blank)]
        if not ours:
            return (), True
        rack = instance.among(ours)
        outcome = improve(rack, [longest_first(rack, rack.claims)], self.effort, levels=1)
        self.from_rack = outcome.packing
        lost: Counter[str] = Counter()
        parts = {}
        for n, made in zip(ours, rack.made(outcome.packing)):
            if not made:
                part = self.group.blanks[n].part
                parts[part.id] = self.group.blanks[n]
                self.lost.add((part.id, self.group.blanks[n].number))
                lost[part.id] += 1
        usable = max(Fraction(0), longest - sum(self.trims))
        found = tuple(
            NotForSale(part_id, number, parts[part_id].stick, parts[part_id].length + self.kerf, longest, usable, not self.kerf)
            for part_id, number in lost.items()
        )
        return found, not outcome.doubtful

    def _translated(self, both: Problem) -> Packing:
        """What must come from the rack, as it was placed there, in the sizes of the larger problem."""
        new = {(b.part.id, b.number): size for b, size in zip(both.blanks, both.instance.claims)}
        old = {(b.part.id, b.number): size for b, size in zip(self.group.blanks, self.group.instance.claims)}
        sizes = {old[piece]: size for piece, size in new.items()}
        found = []
        for pattern in self.from_rack or [()] * len(self.rack):
            row = [0] * len(both.instance.sizes)
            for size, number in enumerate(pattern):
                if number:
                    row[sizes[size]] += number
            found.append(tuple(row))
        return tuple(found)

    # --- what to buy ---------------------------------------------------------------------------
    def smallest(self) -> tuple[tuple[int, ...], Fraction, bool]:
        """The purchase, how many of each length; what is needed at the least; whether they are equal for certain."""
        best = (0,) * len(self.sold)
        if self._by_rule(best):
            return best, Fraction(0), True
        best = self._enough()
        least: Fraction | None = None
        tried = Fraction(0)
        try:
            self._learn([size.width * (1 << 20) // self.all.largest for size in self.all.sizes])
            for candidate in self._smaller(best):
                tried = self._inches(candidate)
                if self._too_little(candidate):
                    continue
                verdict = self._enough_with(candidate)
                if verdict == YES:
                    best = candidate
                    break
                if verdict != NO and least is None:
                    least = tried
        except Stopped:
            least = tried if least is None else least
        return best, self._inches(best) if least is None else least, least is None

    def _inches(self, candidate: Sequence[int]) -> Fraction:
        return sum((length * number for length, number in zip(self.sold, candidate)), Fraction(0))

    def _key(self, candidate: Sequence[int]) -> tuple:
        return self._inches(candidate), sum(candidate), tuple(candidate)

    def _with(self, candidate: Sequence[int]) -> Instance:
        """The instance with what a candidate buys."""
        spaces = list(self.rack)
        for piece, number in zip(self.pieces, candidate):
            spaces += [piece._replace(stick=self.sticks + len(spaces) + n) for n in range(number)]
        return replace(self.all, spaces=tuple(spaces))

    def _by_rule(self, candidate: Sequence[int]) -> bool:
        instance = self._with(candidate)
        if any(instance.output(rule.pack(instance)) == instance.demand for rule in RULES):
            return True
        return _filled(instance, self.start)

    def _enough_with(self, candidate: Sequence[int]) -> str:
        """Whether a candidate is enough."""
        self.effort.spend(0.002)
        if self._by_rule(candidate):
            return YES
        decider = Decider(self._with(candidate), self.all.demand, self.effort, list(self.pool))
        try:
            answer = decider.decide(())
        finally:
            self.pool.update(decider.relaxation.pool)
        for prices in decider.relaxation.prices:
            self._learn(prices.values)
        return answer.verdict

    def _enough(self) -> tuple[int, ...]:
        """A purchase that is enough, by the rules of thumb: what the search starts from."""
        longest = max(range(len(self.sold)), key=lambda n: self.sold[n])
        best = self._longest_only(longest)
        for n in sorted(range(len(self.sold)), key=lambda n: -self.sold[n]):
            for shorter in (None, *sorted(range(len(self.sold)), key=lambda m: self.sold[m])):
                while best[n] and not self.effort.ended():
                    changed = list(best)
                    changed[n] -= 1
                    if shorter is not None:
                        changed[shorter] += 1
                    if self._key(changed) >= self._key(best) or not self._by_rule(changed):
                        break
                    best = tuple(changed)
        return best

    def _longest_only(self, longest: int) -> tuple[int, ...]:
        """So many of the longest length that a rule of thumb makes everything; where the time is over, as many as were counted so far."""

        def buying(number: int) -> tuple[int, ...]:
            return tuple(number if n == longest else 0 for n in range(len(self.sold)))

        # whatever is for sale, from new sticks alone: by that rule it is enough, whatever the rack gives
        room, sticks = self.all.capacity(self.pieces[longest]) if self.pieces else 0, []
        for size in sorted((self.all.sizes[size].width for size, ours in zip(self.all.claims, self._served()) if ours), reverse=True):
            if size <= room:
                at = next((n for n, used in enumerate(sticks) if used + size <= room), None)
                if at is None:
                    sticks.append(size)
                else:
                    sticks[at] += size
        low, high = -1, len(sticks)
        while high - low > 1 and not self.effort.ended():
            middle = (low + high) // 2
            low, high = (low, middle) if self._by_rule(buying(middle)) else (middle, high)
        return buying(high)

    def _served(self) -> list[bool]:
        return [self.all.sizes[size].pin == ANY for size in self.all.claims]

    # --- what is too little ---------------------------------------------------------------------
    def _learn(self, values: Sequence[int]) -> None:
        """Remember a price list: what the rack can earn, what each length adds, and what is owed."""
        prices = Prices(self.all, self.all.demand, values)
        most = prices.gap(()).most
        earned = sum(most[self.all.kind(space)] for space in self.rack)
        bar = prices.owed - earned, tuple(most[self.all.kind(space)] for space in self.pieces)
        if bar not in self.bars:
            self.bars.append(bar)

    def _too_little(self, candidate: Sequence[int]) -> bool:
        """Whether a price list proves that a candidate is not enough."""
        return any(sum(n * gain for n, gain in zip(candidate, gains)) < need for need, gains in self.bars)

    def _smaller(self, best: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
        """Every purchase smaller than ``best`` that the first price list leaves open, the smallest first."""
        need, gains = self.bars[0]
        limit, found = self._inches(best), []
        order = sorted(range(len(self.sold)), key=lambda n: -self.sold[n])

        def count(place: int, chosen: list[int], need: int, room: Fraction) -> None:
            if place == len(order):
                if need <= 0:
                    found.append(tuple(chosen))
                return
            rest = order[place:]
            if need > 0 and not any(gains[n] for n in rest):
                return
            # the most that the room left can add, whatever is chosen
            if need > room * max(Fraction(gains[n]) / self.sold[n] for n in rest):
                return
            n = order[place]
            first = 0
            if place == len(order) - 1 and need > 0:
                first = ceil(Fraction(need, gains[n]))
            for number in range(first, int(room // self.sold[n]) + 1):
                chosen[n] = number
                self.effort.spend(2e-6)
                count(place + 1, chosen, need - number * gains[n], room - number * self.sold[n])
            chosen[n] = 0

        count(0, [0] * len(self.sold), need, limit)
        yield from sorted((c for c in found if self._key(c) < self._key(best)), key=self._key)


def _filled(instance: Instance, start: Packing) -> bool:
    """Whether the blanks that are not in ``start`` go beside it, longest first, from the shortest piece that serves."""
    packing = (*start, *[(0,) * len(instance.sizes)] * (len(instance.spaces) - len(start)))
    loads = [instance.load(pattern) for pattern in packing]
    rest = [wanted - have for wanted, have in zip(instance.demand, instance.output(packing))]
    for size, number in enumerate(rest):  # sizes stand longest first
        width, allows = instance.sizes[size].width, instance.sizes[size].allows
        for _ in range(number):
            able = [n for n, s in enumerate(instance.spaces) if allows(s.stick) and loads[n] + width <= instance.capacity(s)]
            if not able:
                return False
            loads[min(able, key=lambda n: (instance.spaces[n].length - loads[n], n))] += width
    return True


def new_name(taken: set[str]) -> str:
    """An id for a new stick; it is added to those taken.

    >>> new_name({"new-1"})
    'NEW-2'
    """
    n = 1
    while f"new-{n}" in taken:
        n += 1
    taken.add(f"new-{n}")
    return f"NEW-{n}"
