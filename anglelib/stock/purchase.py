"""The smallest purchase: which lengths to buy so that every part can be made, each in one piece.

Least money where the lengths have prices, else fewest inches, then fewest sticks; what is bought is planned together with the rack
(:mod:`anglelib.stock.purchase_search`). Where a saw has a throat, it is first sought as if no rough cut by hacksaw needed room, as a plan is;
only where the plan with it is then short, with that room. A purchase is proven the smallest once all smaller ones are
proven too little. Sections share no metal, so that the purchase of all is the purchases of each.

>>> from anglelib.section import Section
>>> from anglelib.job import Shop
>>> from anglelib.part import Part
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> rack = Rack([Stick("S-1", stock, "6061-T6", 40, "1/4", "1/4")])
>>> bars = Job("Demo", Shop(), [Part("A1", "Bar", stock, "6061-T6", 38), Part("A2", "Long bar", stock, "6061-T6", 75)])
>>> print(smallest_purchase(bars, rack).sentence)
3/4 x 3/4 x 1/8, 6061-T6: buy one 96; then everything can be made. Less is proven not to be enough.
>>> print(smallest_purchase(Job("Demo", Shop(), [Part("A3", "Spar", stock, "6061-T6", 150)]), rack).sentence)
3/4 x 3/4 x 1/8, 6061-T6: no purchase helps A3: its blank takes 150 1/16, and of the longest length sold, 144, 143 1/2 can be used.
>>> smallest_purchase(bars, rack, lengths=())
Traceback (most recent call last):
    ...
anglelib.errors.PlanError: No length to buy is given: write those that the supplier has, for example 72, 96 and 144.

Where a supplier's list has prices (:class:`~anglelib.stock.offers.Offers`), the least money is sought:

>>> dear = Offers((Offer(stock, "6061-T6", 72, Fraction(20)), Offer(stock, "6061-T6", 96, Fraction(50))), Currency("$"))
>>> ties = Job("Demo", Shop(), [Part("A1", "Bar", stock, "6061-T6", 45, quantity=2)])
>>> print(smallest_purchase(ties, Rack([]), offers=dear).sentence)
3/4 x 3/4 x 1/8, 6061-T6: buy two 72, $40.00; then everything can be made. For less money there is proven not to be enough.
"""

from __future__ import annotations

import threading
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from anglelib.errors import LengthError, PlanError
from anglelib.job import Job, Shop
from anglelib.lengths import inches
from anglelib.section import Section
from anglelib.stock.effort import Effort
from anglelib.stock.offers import MOST_LENGTHS as MOST_OFFERED
from anglelib.stock.offers import Offer, Offers
from anglelib.stock.planner import ARRANGED, settled_section
from anglelib.stock.price import Currency
from anglelib.stock.problem import Problem, problem, problems, smooth
from anglelib.stock.purchase_search import NotForSale, Search, new_name
from anglelib.stock.rack import Rack, Stick

LENGTHS = (72, 96, 144)
"""Lengths in which angle is commonly sold [in]; common practice, ask the supplier."""
BUDGET = 20.0
"""Deterministic work for a whole job, about seconds of one core."""
MOST_LENGTHS = 6
USUAL_TRIM = Fraction(1, 4)
"""What each end of a new stick loses where the rack has nothing to go by [in]; common practice."""


@dataclass(frozen=True)
class GroupPurchase:
    """What to buy of one section and alloy.

    ``bought`` has (length [in], how many), the shortest first; ``least`` is what is proven to be needed in all: money where the least money
    was sought (``priced``), else a length [in]; it is equal to ``price`` or ``inches`` where the purchase is the ``smallest``. ``sure``: it is
    proven that the rack gives no more of what is not for sale. ``sticks`` are the new sticks as the rack will list them; ``prices`` has the
    price of one of each length that has one.
    """

    section: Section
    alloy: str
    bought: tuple[tuple[Fraction, int], ...]
    sticks: tuple[Stick, ...]
    not_for_sale: tuple[NotForSale, ...]
    least: Fraction
    smallest: bool
    sure: bool
    priced: bool = False
    prices: tuple[tuple[Fraction, Fraction], ...] = ()
    currency: Currency = Currency()

    @property
    def price(self) -> Fraction | None:
        """What it costs; None where the price of a length that is bought is not known."""
        prices = dict(self.prices)
        if any(length not in prices for length, _ in self.bought):
            return None
        return sum((prices[length] * number for length, number in self.bought), Fraction(0))

    @property
    def proven(self) -> bool:
        """Whether nothing smaller would do."""
        return self.smallest and self.sure

    @property
    def sentence(self) -> str:
        """What to buy, in words, without the section."""
        from anglelib.stock.purchase_words import group

        return group(self)

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
    currency: Currency = Currency()

    @property
    def price(self) -> Fraction | None:
        """What all of it costs; None where not every price is known."""
        prices = [group.price for group in self.groups]
        return None if None in prices else sum(prices, Fraction(0))  # type: ignore[arg-type]

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
        """What to buy, in words, a line a section."""
        from anglelib.stock.purchase_words import lines

        return "\n".join(lines(self))

    @property
    def needing(self) -> tuple[GroupPurchase, ...]:
        """The sections for which something is to be bought, or could not be."""
        return tuple(group for group in self.groups if group.bought or group.not_for_sale or not group.proven)


def smallest_purchase(
    job: Job,
    rack: Rack,
    lengths: Sequence[object] = LENGTHS,
    trims: tuple[object, object] | None = None,
    *,
    offers: Offers | None = None,
    budget: float = BUDGET,
    seconds: float | None = None,
    stop: threading.Event | None = None,
) -> Purchase:
    """The smallest purchase with which every part can be made, those that are held too.

    ``lengths`` are those that can be bought of every section [in]; with ``offers`` they are not asked. ``trims`` are what a new stick loses
    at end 1 and end 2 when it is squared [in]: without it, what the full sticks on the rack usually lose. A part that the
    plans name for a stick cannot be bought for. ``seconds`` and ``stop`` are those of
    :func:`~anglelib.stock.planner.plan`: what was found by then is enough, and said not to be proven. Raises :class:`~anglelib.errors.PlanError` for
    lengths that cannot be.
    """
    on_offer = _listed(offers) if offers is not None else _everywhere(_sold(lengths))
    currency = offers.currency if offers is not None else Currency()
    return purchase_for(problems(job, rack), rack, job.shop, on_offer, trims, Effort(budget, seconds, stop), currency)


def purchase_for(
    asked: Sequence[Problem],
    rack: Rack,
    shop: Shop,
    on_offer: Callable[[Section, str], Sequence[Offer]],
    trims: tuple[object, object] | None,
    total: Effort,
    currency: Currency = Currency(),
) -> Purchase:
    """The smallest purchase for the claims of some sections, whoever has them, each with the sticks of the ``rack`` that may serve it."""
    barred = {name.lower() for group in asked for blank in group.blanks for name in blank.part.not_from}
    taken, groups = {stick.id.lower() for stick in rack.sticks} | barred, []
    for n, group in enumerate(asked):
        effort = total.part(total.left / (len(asked) - n))
        ends = _trims(trims, group, rack)
        try:
            groups.append(_smallest(group, rack, shop, on_offer(group.section, group.alloy), ends, effort, taken, currency))
        except ImportError:
            raise PlanError(
                "The solver (ortools) is not in this Python, and the smallest purchase needs it: install the project's requirements."
            ) from None
        total.spent += effort.spent
    return Purchase(tuple(groups), Rack((*rack.sticks, *(stick for group in groups for stick in group.sticks))), currency)


def _smallest(
    group: Problem, rack: Rack, shop: Shop, offers: Sequence[Offer], ends: tuple[Fraction, Fraction], effort: Effort, taken: set[str], currency: Currency
) -> GroupPurchase:
    """The purchase for one section: without room for rough cuts where a plan with it makes the same, else with it."""
    free = smooth(group, shop)
    if free is None:
        return _bought(Search(group, shop, offers, ends, effort), group, taken, currency)
    half, names = effort.part(effort.left / 2), set(taken)
    less = _bought(Search(free, shop, offers, ends, half), free, names, currency)
    effort.spent += half.spent
    if _planned_so(less, group, rack, shop, effort):
        taken |= names
        return less
    more = _bought(Search(group, shop, offers, ends, effort), group, taken, currency)
    return _proven_by(less, more)


def _planned_so(bought: GroupPurchase, group: Problem, rack: Rack, shop: Shop, effort: Effort) -> bool:
    """Whether a plan with what is bought is short of nothing but what is not for sale."""
    whole = problem(group.section, group.alloy, group.blanks, (*group.sticks, *bought.sticks), shop)
    part = effort.part(effort.left / 2)
    planned, _ = settled_section(whole, part, rack, shop, {stick.id for stick in whole.sticks}, effort.part(ARRANGED))
    effort.spent += part.spent
    lost = {reason.part_id: reason.missing for reason in bought.not_for_sale}
    return all(short.missing <= lost.get(short.part_id, 0) for short in planned.shortages)


def _proven_by(less: GroupPurchase, more: GroupPurchase) -> GroupPurchase:
    """A purchase with room for rough cuts, of which no more is proven than what one without that room needs too."""
    if more.not_for_sale != less.not_for_sale:
        more = replace(more, sure=False)  # that room may be had for one of them
    if less.priced != more.priced:
        return replace(more, least=Fraction(0), smallest=False)
    least, mine = min(less.least, more.least), more.price if more.priced else more.inches
    return replace(more, least=least, smallest=less.smallest and more.smallest and less.bought == more.bought and least == mine)


def _bought(search: Search, group: Problem, taken: set[str], currency: Currency) -> GroupPurchase:
    best, least, proven = search.smallest()
    bought = tuple((length, number) for length, number in sorted(zip(search.sold, best)) if number)
    prices = tuple((offer.length, offer.price) for offer in search.offers if offer.price is not None)
    sticks = []
    for length, number in bought:
        for _ in range(number):
            sticks.append(Stick(new_name(taken), group.section, group.alloy, length, *search.trims, note="to buy"))
    return GroupPurchase(
        group.section, group.alloy, bought, tuple(sticks), search.not_for_sale, least, proven, search.sure, search.priced, prices, currency
    )


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


def _everywhere(lengths: Sequence[Fraction]) -> Callable[[Section, str], Sequence[Offer]]:
    """The same lengths of every section and alloy, at no known price."""
    return lambda section, alloy: tuple(Offer(section, alloy, length) for length in lengths)


def _listed(offers: Offers) -> Callable[[Section, str], Sequence[Offer]]:
    """What a supplier's list has of a section and alloy."""

    def of(section: Section, alloy: str) -> Sequence[Offer]:
        found = offers.of(section, alloy)
        if len(found) > MOST_OFFERED:
            raise PlanError(f"{len(found)} lengths of {section.size}, {alloy} to choose from are too many: keep at most {MOST_OFFERED}.")
        return found

    return of


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
