"""The smallest purchase: which standard lengths to buy so that every part can be made.

Fewest inches first, then fewest sticks; what is bought is planned together with the rack
(:mod:`anglelib.stock.purchase_search`). A purchase is proven the smallest once all smaller ones are
proven too little.

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
"""

from __future__ import annotations

import threading
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from anglelib.errors import LengthError, PlanError
from anglelib.job import Job
from anglelib.lengths import inches
from anglelib.section import Section
from anglelib.stock.effort import Effort
from anglelib.stock.problem import Problem, problems
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

    ``bought`` has (length [in], how many), the shortest first; ``least`` is a length that is proven
    to be needed in all [in], equal to ``inches`` where the purchase is the ``smallest``. ``sure``: it is proven that the rack
    gives no more of what is not for sale. ``sticks`` are the new sticks as the rack will list them.
    """

    section: Section
    alloy: str
    bought: tuple[tuple[Fraction, int], ...]
    sticks: tuple[Stick, ...]
    not_for_sale: tuple[NotForSale, ...]
    least: Fraction
    smallest: bool
    sure: bool

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
    budget: float = BUDGET,
    seconds: float | None = None,
    stop: threading.Event | None = None,
) -> Purchase:
    """The smallest purchase with which every part can be made, those that are held too.

    ``lengths`` are those that can be bought [in]; ``trims`` what a new stick loses at end 1 and end 2
    when it is squared [in]: without it, what the full sticks on the rack usually lose. A part that the
    plans name for a stick cannot be bought for. ``seconds`` and ``stop`` are those of
    :func:`~anglelib.stock.planner.plan`: what was found by then is enough, and said not to be proven. Raises :class:`~anglelib.errors.PlanError` for
    lengths that cannot be.
    """
    sold = _sold(lengths)
    asked = problems(job, rack)
    total = Effort(budget, seconds, stop)
    taken = {stick.id.lower() for stick in rack.sticks}
    groups = []
    for n, group in enumerate(asked):
        effort = total.part(total.left / (len(asked) - n))
        ends = _trims(trims, group, rack)
        try:
            groups.append(_bought(Search(group, job.shop, sold, ends, effort), group, taken))
        except ImportError:
            raise PlanError(
                "The solver (ortools) is not in this Python, and the smallest purchase needs it: install the project's requirements."
            ) from None
        total.spent += effort.spent
    return Purchase(tuple(groups), Rack((*rack.sticks, *(stick for group in groups for stick in group.sticks))))


def _bought(search: Search, group: Problem, taken: set[str]) -> GroupPurchase:
    best, least, proven = search.smallest()
    bought = tuple((length, number) for length, number in sorted(zip(search.sold, best)) if number)
    sticks = []
    for length, number in bought:
        for _ in range(number):
            sticks.append(Stick(new_name(taken), group.section, group.alloy, length, *search.trims, note="to buy"))
    return GroupPurchase(group.section, group.alloy, bought, tuple(sticks), search.not_for_sale, least, proven, search.sure)


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
