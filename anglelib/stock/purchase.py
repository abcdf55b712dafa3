"""The smallest purchase: which standard lengths to buy so that every part can be made.

Fewest inches first, then fewest sticks; what is bought is planned together with the rack. Candidates
are tried from the smallest on, so that the first with a plan is the least once all before it are
proven too little. Price lists met on the way refute most of them without a search.

>>> from anglelib.section import Section
>>> from anglelib.job import Shop
>>> from anglelib.part import Part
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> rack = Rack([Stick("S-1", stock, "6061-T6", 40, "1/4", "1/4")])
>>> bars = Job("Demo", Shop(), [Part("A1", "Bar", stock, "6061-T6", 38), Part("A2", "Long bar", stock, "6061-T6", 75)])
>>> print(smallest_purchase(bars, rack).sentence)
3/4 x 3/4 x 1/8, 6061-T6: buy one 96; then everything can be made. Less is proven not to be enough.
>>> print(smallest_purchase(Job("Demo", Shop(), [Part("A3", "Spar", stock, "6061-T6", 150)]), rack).sentence)
3/4 x 3/4 x 1/8, 6061-T6: no purchase helps A3: its blank with its cut takes 150 1/8, and of the longest length sold, 144, 143 1/2 can be used.
>>> smallest_purchase(bars, rack, lengths=())
Traceback (most recent call last):
    ...
anglelib.errors.PlanError: No length to buy is given: write those that the supplier has, for example 72, 96 and 144.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil

from anglelib.errors import LengthError, PlanError
from anglelib.job import Job, Shop
from anglelib.lengths import exact, inches
from anglelib.section import Section
from anglelib.stock.bound import Prices
from anglelib.stock.decide import Decider
from anglelib.stock.effort import Effort, Stopped
from anglelib.stock.instance import ANY, Instance, Packing
from anglelib.stock.levels import improve
from anglelib.stock.problem import Problem, problem, problems
from anglelib.stock.rack import Rack, Stick
from anglelib.stock.rules import RULES
from anglelib.stock.search import NO, YES

LENGTHS = (72, 96, 144)
"""Lengths in which angle is commonly sold [in]; common practice, ask the supplier."""
BUDGET = 20.0
"""Deterministic work for a whole job, about seconds of one core."""
MOST_LENGTHS = 6
USUAL_TRIM = Fraction(1, 4)
"""What each end of a new stick loses where the rack has nothing to go by [in]; common practice."""


@dataclass(frozen=True)
class NotForSale:
    """A part that no purchase helps: how many pieces stay impossible, and why, in words."""

    part_id: str
    missing: int
    sentence: str


@dataclass(frozen=True)
class GroupPurchase:
    """What to buy of one section and alloy.

    ``bought`` has (length [in], how many), the shortest first; ``least`` is a length that is proven
    to be needed in all [in], equal to ``inches`` where the purchase is ``proven`` the smallest.
    ``sticks`` are the new sticks as the rack will list them.
    """

    section: Section
    alloy: str
    bought: tuple[tuple[Fraction, int], ...]
    sticks: tuple[Stick, ...]
    not_for_sale: tuple[NotForSale, ...]
    least: Fraction
    proven: bool
    sentence: str

    @property
    def inches(self) -> Fraction:
        """How much is bought [in]."""
        return sum((length * number for length, number in self.bought), Fraction(0))


@dataclass(frozen=True)
class Purchase:
    """What to buy for a job: one entry for each section and alloy, and the rack with it.

    A plan of the job on ``rack`` makes every part but those that are not for sale.
    """

    groups: tuple[GroupPurchase, ...]
    rack: Rack

    @property
    def sticks(self) -> tuple[Stick, ...]:
        """The new sticks."""
        return tuple(stick for group in self.groups for stick in group.sticks)

    @property
    def inches(self) -> Fraction:
        """How much is bought [in]."""
        return sum((group.inches for group in self.groups), Fraction(0))

    @property
    def proven(self) -> bool:
        """Whether nothing smaller would do, for every section."""
        return all(group.proven for group in self.groups)

    @property
    def sentence(self) -> str:
        """What to buy, in words."""
        needing = [group for group in self.groups if group.bought or group.not_for_sale or not group.proven]
        if not needing:
            return "Nothing need be bought: everything can be made from the rack."
        return "\n".join(f"{group.section.size}, {group.alloy}: {group.sentence}" for group in needing)


def smallest_purchase(
    job: Job,
    rack: Rack,
    lengths: Sequence[object] = LENGTHS,
    trims: tuple[object, object] | None = None,
    *,
    budget: float = BUDGET,
) -> Purchase:
    """The smallest purchase with which every part can be made, those that are held too.

    ``lengths`` are those that can be bought [in]; ``trims`` what a new stick loses at end 1 and end 2
    when it is squared [in]: without it, what the full sticks on the rack usually lose. A part that the
    plans name for a stick cannot be bought for. Raises :class:`~anglelib.errors.PlanError` for
    lengths that cannot be.
    """
    sold = _sold(lengths)
    asked = problems(job, rack)
    total = Effort(budget)
    taken = {stick.id.lower() for stick in rack.sticks}
    groups = []
    for n, group in enumerate(asked):
        effort = total.part(total.left / (len(asked) - n))
        ends = _trims(trims, group, rack)
        shop = _Supplier(group, job.shop, sold, ends, effort)
        groups.append(shop.buy(taken))
        total.spent += effort.spent
    return Purchase(tuple(groups), Rack((*rack.sticks, *(stick for group in groups for stick in group.sticks))))


class _Supplier:
    """The search for one section and alloy."""

    def __init__(self, group: Problem, shop: Shop, sold: Sequence[Fraction], trims: tuple[Fraction, Fraction], effort: Effort):
        self.group, self.effort, self.trims = group, effort, trims
        self.sold = tuple(length for length in sold if length > sum(trims))
        self.usable = max((length - sum(trims) for length in self.sold), default=Fraction(0))
        self.kerf = shop.kerf
        self.from_rack: Packing = ()
        self.not_for_sale, self.sure = self._not_for_sale(max(sold))
        lost = Counter({reason.part_id: reason.missing for reason in self.not_for_sale})
        wanted = [b for b in group.blanks if b.number <= b.part.quantity - lost[b.part.id]]
        names = {stick.id.lower() for stick in group.sticks}
        new = [Stick(_name(names), group.section, group.alloy, length, *trims) for length in self.sold]
        both = problem(group.section, group.alloy, wanted, (*group.sticks, *new), shop)
        self.all = both.instance
        self.rack, self.pieces = self.all.spaces[: len(group.places)], self.all.spaces[len(group.places) :]
        self.sticks = len(group.sticks)
        self.start = self._translated(both)
        self.bars: list[tuple[int, tuple[int, ...]]] = []
        self.pool: dict = {}

    # --- what cannot be bought for ------------------------------------------------------------
    def _for_sale(self, blank) -> bool:
        return not blank.part.only_stick and blank.length + self.kerf <= self.usable

    def _not_for_sale(self, longest: Fraction) -> tuple[tuple[NotForSale, ...], bool]:
        """The parts that must come from the rack and cannot; whether that is proven."""
        instance = self.group.instance
        ours = [n for n, blank in enumerate(self.group.blanks) if not self._for_sale(blank)]
        if not ours:
            return (), True
        rack = replace(instance, claims=tuple(instance.claims[n] for n in ours))
        outcome = improve(rack, [rule.pack(rack) for rule in RULES], self.effort, levels=1)
        self.from_rack = outcome.packing
        lost: Counter[str] = Counter()
        parts = {}
        for n, made in zip(ours, rack.made(outcome.packing)):
            if not made:
                part = self.group.blanks[n].part
                parts[part.id] = self.group.blanks[n]
                lost[part.id] += 1
        found = tuple(NotForSale(part_id, number, self._why(parts[part_id], longest)) for part_id, number in lost.items())
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

    def _why(self, blank, longest: Fraction) -> str:
        part = blank.part
        if part.only_stick:
            return f"no purchase helps {part.id}: the plans name {part.only_stick} for it."
        return (
            f"no purchase helps {part.id}: its blank with its cut takes {exact(blank.length + self.kerf)}, and of the longest "
            f"length sold, {exact(longest)}, {exact(max(Fraction(0), longest - sum(self.trims)))} can be used."
        )

    # --- what to buy ---------------------------------------------------------------------------
    def buy(self, taken: set[str]) -> GroupPurchase:
        best, least, proven = self._search()
        bought = tuple((length, number) for length, number in sorted(zip(self.sold, best)) if number)
        sticks = []
        for length, number in bought:
            for _ in range(number):
                sticks.append(Stick(_name(taken), self.group.section, self.group.alloy, length, *self.trims, note="to buy"))
        proven = proven and self.sure
        sentence = self._sentence(bought, least, proven)
        return GroupPurchase(self.group.section, self.group.alloy, bought, tuple(sticks), self.not_for_sale, least, proven, sentence)

    def _search(self) -> tuple[tuple[int, ...], Fraction, bool]:
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
        found = [0] * len(self.sold)
        able = sum(self._served())
        while not self._by_rule(found):
            found[longest] += 1
            if found[longest] > able:
                break
        best = tuple(found)
        for n in sorted(range(len(self.sold)), key=lambda n: -self.sold[n]):
            for shorter in (None, *sorted(range(len(self.sold)), key=lambda m: self.sold[m])):
                while best[n]:
                    changed = list(best)
                    changed[n] -= 1
                    if shorter is not None:
                        changed[shorter] += 1
                    if self._key(changed) >= self._key(best) or not self._by_rule(changed):
                        break
                    best = tuple(changed)
        return best

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

    # --- in words --------------------------------------------------------------------------------
    def _sentence(self, bought: Sequence[tuple[Fraction, int]], least: Fraction, proven: bool) -> str:
        said = []
        lost = [reason.part_id for reason in self.not_for_sale]
        if bought:
            what = _and([f"{_word(number)} {exact(length)}" for length, number in bought])
            then = f"everything but {_and(lost)}" if lost else "everything"
            said.append(f"buy {what}; then {then} can be made.")
            total = sum(length * number for length, number in bought)
            if proven:
                said.append("Less is proven not to be enough.")
            elif least < total:
                said.append(f"Less than {exact(least)} in all is proven not to be enough; something between is not ruled out.")
            else:
                said.append("A purchase of as many inches in fewer sticks is not ruled out.")
        elif not lost:
            said.append("nothing need be bought.")
        said += [reason.sentence for reason in self.not_for_sale]
        if not self.sure:
            said.append("That no more of these can be made is not proven.")
        return " ".join(text if n == 0 else text[0].upper() + text[1:] for n, text in enumerate(said))


def _filled(instance: Instance, start: Packing) -> bool:
    """Whether the blanks that are not in ``start`` go beside it, longest first, from the shortest piece that serves."""
    packing = (*start, *[(0,) * len(instance.sizes)] * (len(instance.spaces) - len(start)))
    loads = [instance.load(pattern) for pattern in packing]
    rest = [wanted - have for wanted, have in zip(instance.demand, instance.output(packing))]
    for size, number in enumerate(rest):  # sizes stand longest first
        width, pin = instance.sizes[size]
        for _ in range(number):
            able = [n for n, s in enumerate(instance.spaces) if pin in (ANY, s.stick) and loads[n] + width <= instance.capacity(s)]
            if not able:
                return False
            loads[min(able, key=lambda n: (instance.spaces[n].length - loads[n], n))] += width
    return True


# --- what is given ------------------------------------------------------------------------------------
def _sold(lengths: Sequence[object]) -> tuple[Fraction, ...]:
    try:
        found = sorted({inches(length, "length to buy", zero=False) for length in lengths})  # type: ignore[arg-type]
    except LengthError as error:
        raise PlanError(str(error)) from None
    if not found:
        raise PlanError("No length to buy is given: write those that the supplier has, for example 72, 96 and 144.")
    if len(found) > MOST_LENGTHS:
        raise PlanError(f"{len(found)} lengths to choose from are too many: give at most {MOST_LENGTHS}.")
    return tuple(found)


def _trims(given: tuple[object, object] | None, group: Problem, rack: Rack) -> tuple[Fraction, Fraction]:
    """What a new stick loses at its ends: as given, or as the full sticks on the rack usually do."""
    if given is not None:
        try:
            first, second = given
            return inches(first, "trim at end 1 of a new stick"), inches(second, "trim at end 2 of a new stick")  # type: ignore[arg-type]
        except LengthError as error:
            raise PlanError(str(error)) from None
        except (TypeError, ValueError):
            raise PlanError("The trims of a new stick are two lengths: what end 1 and what end 2 loses.") from None
    return usual_trims(group.sticks) or usual_trims(rack.sticks) or (USUAL_TRIM, USUAL_TRIM)


def usual_trims(sticks: Sequence[Stick]) -> tuple[Fraction, Fraction] | None:
    """What full sticks mostly lose at end 1 and end 2; of equally usual trims the larger; None without a full stick."""
    found = Counter((stick.trim_1, stick.trim_2) for stick in sticks if not stick.remnant)
    return max(found, key=lambda trims: (found[trims], sum(trims), trims), default=None)


def _name(taken: set[str]) -> str:
    n = 1
    while f"new-{n}" in taken:
        n += 1
    taken.add(f"new-{n}")
    return f"NEW-{n}"


WORDS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


def _word(number: int) -> str:
    return WORDS[number] if number < len(WORDS) else str(number)


def _and(names: Sequence[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
