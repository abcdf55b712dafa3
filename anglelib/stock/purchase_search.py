"""The search for the smallest purchase of one section and alloy, planned together with the rack.

Candidates are tried from the smallest on: least money where every length that may serve has a price, then fewest inches, then fewest
sticks. What blanks are worth, met on the way, refutes most of them without a search: at some worths the rack and what is bought cannot
earn what the blanks are worth together.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import combinations_with_replacement
from math import ceil, gcd, lcm

from anglelib.job import Shop
from anglelib.stock.blank import Blank
from anglelib.stock.bound import Prices
from anglelib.stock.decide import Decider
from anglelib.stock.effort import Effort, Stopped
from anglelib.stock.instance import ANY, Instance, Packing
from anglelib.stock.levels import improve
from anglelib.stock.offers import Offer
from anglelib.stock.problem import Problem, problem
from anglelib.stock.rack import Stick
from anglelib.stock.rules import RULES, longest_first
from anglelib.stock.search import NO, YES


@dataclass(frozen=True)
class NotForSale:
    """A part that no purchase helps: how many pieces stay impossible, and why.

    ``named`` is the stick that the plans name for it; without one its blank (and cut, where a new stick is not trimmed) takes ``needs``, and of the ``longest``
    length sold ``usable`` can be used [in]; ``alone``: without a cut. ``scarce``: some length sold would serve it, but there are too few of
    those. ``longest`` is 0 where nothing of its section and alloy is sold.
    """

    part_id: str
    missing: int
    named: str
    needs: Fraction
    longest: Fraction
    usable: Fraction
    alone: bool = False
    scarce: bool = False

    @property
    def sentence(self) -> str:
        """Why, in words."""
        from anglelib.stock.purchase_words import not_for_sale

        return not_for_sale(self)


class Search:
    """The search for one section and alloy, over what is on offer, less the ``trims`` of a new stick.

    ``not_for_sale`` is what no purchase helps; ``sure`` whether it is proven that neither the rack nor what is scarce can serve it.
    ``offers`` are the lengths that may serve at all, and ``priced`` says that the least money is sought.
    """

    def __init__(self, group: Problem, shop: Shop, offers: Sequence[Offer], trims: tuple[Fraction, Fraction], effort: Effort):
        self.group, self.effort, self.trims = group, effort, trims
        self.kerf = Fraction(0) if trims[1] else shop.kerf  # the last cut may run into what is trimmed off
        least = min((b.length for b in group.blanks if not b.stick), default=Fraction(0))
        self.offers = tuple(o for o in offers if o.length > sum(trims) and o.length - sum(trims) >= least + self.kerf)
        self.sold = tuple(offer.length for offer in self.offers)
        self.priced = bool(self.offers) and all(offer.price is not None for offer in self.offers)
        self.measures = tuple(o.price if self.priced and o.price is not None else o.length for o in self.offers)
        self.names = {stick.id.lower() for stick in group.sticks} | {name.lower() for blank in group.blanks for name in (blank.stick, *blank.part.not_from)}
        names = set(self.names)
        self.new = [Stick(new_name(names), group.section, group.alloy, length, *trims) for length in self.sold]
        self.begun: tuple[Problem, Packing, list[int]] | None = None
        self.lost: set[tuple[str, int]] = set()
        self.not_for_sale, self.sure = self._not_for_sale(shop, max((o.length for o in offers), default=Fraction(0)))
        wanted = [b for b in group.blanks if (b.part.id, b.number) not in self.lost]
        both = problem(group.section, group.alloy, wanted, (*group.sticks, *self.new), shop)
        self.all = both.instance
        self.rack, self.pieces = self.all.spaces[: len(group.places)], self.all.spaces[len(group.places) :]
        self.sticks = len(group.sticks)
        self.start, self.scarce = self._translated(both)
        self.bars: list[tuple[int, tuple[int, ...]]] = []
        self.pool: dict = {}

    # --- what cannot be bought for ------------------------------------------------------------
    def _holds(self, offer: Offer, blank: Blank) -> bool:
        return not blank.stick and blank.length + self.kerf <= offer.length - sum(self.trims)

    def _for_sale(self, blank: Blank) -> bool:
        """Whether as many sticks as one likes can be bought for a blank."""
        return any(offer.most is None and self._holds(offer, blank) for offer in self.offers)

    def _not_for_sale(self, shop: Shop, longest: Fraction) -> tuple[tuple[NotForSale, ...], bool]:
        """The parts that must come from the rack, or from what there is little of, and cannot; whether that is proven."""
        group = self.group
        ours = [n for n, blank in enumerate(group.blanks) if not self._for_sale(blank)]
        if not ours:
            return (), True
        wanted = [group.blanks[n] for n in ours]
        number = [min(o.most or 0, sum(self._holds(o, blank) for blank in wanted)) for o in self.offers]
        names = set(self.names)
        few = [replace(stick, id=new_name(names)) for stick, count in zip(self.new, number) for _ in range(count)]
        this = problem(group.section, group.alloy, wanted, (*group.sticks, *few), shop)
        outcome = improve(this.instance, [longest_first(this.instance, this.instance.claims)], self.effort, levels=1)
        self.begun = this, outcome.packing, number
        lost: Counter[str] = Counter()
        parts = {}
        for blank, made in zip(wanted, this.instance.made(outcome.packing)):
            if not made:
                parts[blank.part.id] = blank
                self.lost.add((blank.part.id, blank.number))
                lost[blank.part.id] += 1
        usable = max(Fraction(0), longest - sum(self.trims))
        found = tuple(
            NotForSale(
                part_id, count, parts[part_id].stick, parts[part_id].length + self.kerf, longest, usable, not self.kerf,
                any(self._holds(offer, parts[part_id]) for offer in self.offers),
            )
            for part_id, count in lost.items()
        )  # fmt: skip
        return found, not outcome.doubtful

    def _translated(self, both: Problem) -> tuple[Packing, list[list[tuple[int, ...]]]]:
        """What must come from the rack, and from what is scarce, as it was placed there, in the sizes of the larger problem."""
        nothing = (0,) * len(both.instance.sizes)
        if self.begun is None:
            return (nothing,) * len(self.rack), [[] for _ in self.offers]
        this, packing, number = self.begun
        new = {(b.part.id, b.number): size for b, size in zip(both.blanks, both.instance.claims)}
        sizes = {size: new[b.part.id, b.number] for b, size in zip(this.blanks, this.instance.claims) if (b.part.id, b.number) in new}

        def row(pattern: Sequence[int]) -> tuple[int, ...]:
            found = list(nothing)
            for size, count in enumerate(pattern):
                if count:
                    found[sizes[size]] += count
            return tuple(found)

        rest = iter(packing[len(self.rack) :])
        taken = [[pattern for pattern in (next(rest) for _ in range(count)) if any(pattern)] for count in number]
        return tuple(row(pattern) for pattern in packing[: len(self.rack)]), [[row(pattern) for pattern in patterns] for patterns in taken]

    # --- what to buy ---------------------------------------------------------------------------
    def smallest(self) -> tuple[tuple[int, ...], Fraction, bool]:
        """The purchase, how many of each length; what is needed at the least (money where ``priced``, else inches); whether they are equal for certain."""
        best = (0,) * len(self.offers)
        if self._by_rule(best):
            return best, Fraction(0), True
        best = self._enough()
        least: Fraction | None = None
        tried = Fraction(0)
        try:
            self._learn([size.width * (1 << 20) // self.all.largest for size in self.all.sizes])
            tried = self._at_least()
            for candidate in self._smaller(best):
                tried = max(tried, self._measure(candidate))
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
        if least is not None:
            least = max(least, self._at_least())
        return best, self._measure(best) if least is None else min(least, self._measure(best)), least is None

    def _measure(self, candidate: Sequence[int]) -> Fraction:
        """What a purchase comes to: money, or inches."""
        return sum((one * number for one, number in zip(self.measures, candidate)), Fraction(0))

    def _inches(self, candidate: Sequence[int]) -> Fraction:
        return sum((length * number for length, number in zip(self.sold, candidate)), Fraction(0))

    def _key(self, candidate: Sequence[int]) -> tuple:
        return self._measure(candidate), self._inches(candidate), sum(candidate), tuple(candidate)

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
        begun = self._begun(candidate)
        return begun is not None and _filled(instance, begun)

    def _begun(self, candidate: Sequence[int]) -> Packing | None:
        """What must come from the rack and from what is scarce, in the spaces of a candidate; None where it buys too little of that."""
        if any(len(patterns) > number for patterns, number in zip(self.scarce, candidate)):
            return None
        nothing = (0,) * len(self.all.sizes)
        new = [pattern for patterns, n in zip(self.scarce, candidate) for pattern in (*patterns, *[nothing] * (n - len(patterns)))]
        return (*self.start, *new)

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
        free = [n for n, offer in enumerate(self.offers) if offer.most is None]
        best = self._longest_only(max(free, key=lambda n: self.sold[n]) if free else None)
        for n in sorted(range(len(self.offers)), key=lambda n: -self.sold[n]):
            for others in self._instead():
                while best[n] and not self.effort.ended():
                    changed = list(best)
                    changed[n] -= 1
                    for other in others:
                        changed[other] += 1
                    if not all(self._there(other, changed[other]) for other in others) or self._key(changed) >= self._key(best) or not self._by_rule(changed):
                        break
                    best = tuple(changed)
        return best

    def _instead(self) -> Iterator[tuple[int, ...]]:
        """What may be bought in the place of one length: nothing, one of another; where money counts also two, since one long length may be dear."""
        shortest_first = sorted(range(len(self.offers)), key=lambda n: self.sold[n])
        for number in range(3 if self.priced else 2):
            yield from combinations_with_replacement(shortest_first, number)

    def _there(self, n: int, number: int) -> bool:
        return self.offers[n].most is None or number <= self.offers[n].most  # type: ignore[operator]

    def _longest_only(self, longest: int | None) -> tuple[int, ...]:
        """What is scarce and needed, and so many of the longest length that a rule of thumb makes everything; where the time is over, as many as were counted so far."""
        base = [len(patterns) for patterns in self.scarce]

        def buying(number: int) -> tuple[int, ...]:
            return tuple(count + (number if n == longest else 0) for n, count in enumerate(base))

        if longest is None:
            return tuple(base)
        # whatever is for sale, from new sticks alone: by that rule it is enough, whatever the rack gives
        room, sticks = self.all.capacity(self.pieces[longest]), []
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

    def _at_least(self) -> Fraction:
        """What any purchase comes to at the least, by the worths that are known."""
        best = Fraction(0)
        for need, gains in self.bars:
            dearest = max((gain / one for gain, one in zip(map(Fraction, gains), self.measures)), default=Fraction(0))
            if need > 0 and dearest:
                best = max(best, need / dearest)
        step = _measuring(self.measures)
        return ceil(best / step) * step if step else best

    def _smaller(self, best: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
        """Every purchase smaller than ``best`` that the first worths leave open, the smallest first."""
        need, gains = self.bars[0]
        limit, found = self._measure(best), []
        order = sorted(range(len(self.offers)), key=lambda n: -self.sold[n])

        def count(place: int, chosen: list[int], need: int, room: Fraction) -> None:
            if place == len(order):
                if need <= 0:
                    found.append(tuple(chosen))
                return
            rest = order[place:]
            if need > 0 and not any(gains[n] for n in rest):
                return
            # the most that the room left can add, whatever is chosen
            if need > room * max(Fraction(gains[n]) / self.measures[n] for n in rest):
                return
            n = order[place]
            first, most = 0, int(room // self.measures[n])
            if self.offers[n].most is not None:
                most = min(most, self.offers[n].most)  # type: ignore[type-var]
            if place == len(order) - 1 and need > 0:
                if not gains[n]:
                    return
                first = ceil(Fraction(need, gains[n]))
            for number in range(first, most + 1):
                chosen[n] = number
                self.effort.spend(2e-6)
                count(place + 1, chosen, need - number * gains[n], room - number * self.measures[n])
            chosen[n] = 0

        count(0, [0] * len(self.offers), need, limit)
        yield from sorted((c for c in found if self._key(c) < self._key(best)), key=self._key)


def _measuring(amounts: Sequence[Fraction]) -> Fraction:
    """The largest amount of which all of these are multiples: so is every sum of them."""
    together = lcm(*(amount.denominator for amount in amounts))
    return Fraction(gcd(*(int(amount * together) for amount in amounts)), together)


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
