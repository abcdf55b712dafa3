"""The purchase in hand: what is to be bought, line by line, which parts each line serves, what has come.

It is a thing of its own, as the plan in hand is: what was sent to the supplier does not change when the job or the rack does. Its
``number`` is computed from what it says and stands on its sheet. What has come is in the rack's record, nowhere else.

>>> from anglelib.job import Shop
>>> from anglelib.part import Part
>>> from anglelib.section import Section
>>> from anglelib.stock.planner import plan
>>> from anglelib.stock.purchase import smallest_purchase
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> job = Job("Demo", Shop(), [Part("A1", "Bar", stock, "6061-T6", 60, quantity=3)])
>>> record = Record(Rack([Stick("S-07", stock, "6061-T6", 64, "1/4", "1/4")]))
>>> bought = smallest_purchase(job, record.rack)
>>> purchase = to_buy(bought, plan(job, bought.rack), job)
>>> [(line.number, line.count, str(line.length), line.serves) for line in purchase.lines]
[(1, 1, '144', (('A1', 2),))]
>>> record = came(record, purchase, 1, [Fraction(144)], "2024-05-01")
>>> [stick.id for stick in record.rack.sticks], still_to_come(purchase, record)
(['S-07', 'S-08'], {})
>>> taken_back(record, purchase, 1).rack.sticks[-1].id
'S-07'
>>> purchase.line(2)
Traceback (most recent call last):
    ...
anglelib.errors.PlanError: Purchase NFWCYC has no line 2: it has 1.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from anglelib.errors import PlanError, RackError
from anglelib.job import Job, Shop
from anglelib.lengths import exact
from anglelib.section import Section
from anglelib.stock.bought_for import HeldShort
from anglelib.stock.equal_sticks import names, runs
from anglelib.stock.plan import Plan, StickPlan
from anglelib.stock.price import Currency
from anglelib.stock.progress import all_cuts, planned_from
from anglelib.stock.purchase import GroupPurchase, Purchase
from anglelib.stock.purchase_search import NotForSale
from anglelib.stock.rack import Rack, Stick
from anglelib.stock.record import Record
from anglelib.stock.versions import job_version, short, written
from anglelib.stock.wording import and_more

HUNDREDTHS = 100
"""Money is kept in hundredths of its currency, which is as fine as it is read."""
_NUMBERED = re.compile(r"(.*?)(\d{1,6})")
FIRST_NAME = "S-01"


@dataclass(frozen=True)
class Line:
    """So many of one length [in] of a section and alloy; the ``price`` of one in hundredths (None: not known).

    ``trims`` is what a new stick is reckoned to lose at its ends [in], ``serves`` the parts that come from it, with how many.
    """

    number: int
    section: Section
    alloy: str
    length: Fraction
    count: int
    trims: tuple[Fraction, Fraction]
    price: int | None = None
    serves: tuple[tuple[str, int], ...] = ()

    @property
    def sum(self) -> int | None:
        """What the line costs, in hundredths."""
        return None if self.price is None else self.price * self.count


@dataclass(frozen=True)
class OfSection:
    """What is to be bought of one section and alloy, what is proven of it, and what is left once all is made.

    ``least`` is the metal [in, as numerator and denominator: more than any one length], ``least_price`` the money that is proven to be needed; ``left_new`` and ``left_old`` are what is then left of
    what is bought and of what the rack has [in], the longest first.
    """

    section: Section
    alloy: str
    lines: tuple[Line, ...]
    not_for_sale: tuple[NotForSale, ...]
    smallest: bool
    sure: bool
    priced: bool
    least: tuple[int, int]
    least_price: int | None
    left_new: tuple[Fraction, ...]
    left_old: tuple[Fraction, ...]

    def group(self, currency: Currency) -> GroupPurchase:
        """The same as it was found."""
        prices = tuple((line.length, Fraction(line.price, HUNDREDTHS)) for line in self.lines if line.price is not None)
        least = Fraction(*self.least) if self.least_price is None else Fraction(self.least_price, HUNDREDTHS)
        bought = tuple((line.length, line.count) for line in self.lines)
        return GroupPurchase(self.section, self.alloy, bought, (), self.not_for_sale, least, self.smallest, self.sure, self.priced, prices, currency)


@dataclass(frozen=True)
class ToBuy:
    """A purchase with what it was made for; ``sent`` is the day on which its sheet was printed ("": not yet), ``made_on`` its own day.

    ``short`` are the pieces of jobs that are only held for which the rack has no metal: nothing is bought for them. ``earlier`` are
    the purchases in whose place it is and by which something came. ``before`` is how many sticks had come by purchases until then, so that the same purchase a second time is another one.
    """

    job_name: str
    job_id: str
    job_version: str
    sections: tuple[OfSection, ...]
    currency: Currency = Currency()
    made_on: str = ""
    sent: str = ""
    before: int = 0
    short: tuple[HeldShort, ...] = ()
    earlier: tuple[str, ...] = ()
    number: str = field(default="", compare=False)

    def __post_init__(self) -> None:
        said = [self.job_name, self.job_id, self.job_version, [written(section) for section in self.sections], self.currency, self.before, *([self.short, self.earlier] if self.short or self.earlier else [])]
        object.__setattr__(self, "number", short(written(said)))

    @property
    def lines(self) -> tuple[Line, ...]:
        """All its lines, in the order of their numbers."""
        return tuple(line for section in self.sections for line in section.lines)

    @property
    def price(self) -> int | None:
        """What all of it costs, in hundredths; None where not every price is known."""
        sums = [line.sum for line in self.lines]
        return None if None in sums else sum(sums)  # type: ignore[arg-type]

    def line(self, number: int) -> Line:
        """The line with this number; PlanError naming those there are."""
        found = next((line for line in self.lines if line.number == number), None)
        if found is None:
            raise PlanError(f"Purchase {self.number} has no line {number}: it has {and_more([str(line.number) for line in self.lines]) or 'none'}.")
        return found

    def money(self, amount: int | None) -> str:
        """An amount in hundredths, with its sign; "" where it is not known."""
        return "" if amount is None else self.currency.written(Fraction(amount, HUNDREDTHS))


def to_buy(purchase: Purchase, plan: Plan, job: Job, made_on: str = "", before: int = 0, short: tuple[HeldShort, ...] = (), earlier: tuple[str, ...] = ()) -> ToBuy:
    """The purchase in hand from a purchase and the plan that is made with it; ``job`` is what is bought for, without what is only held."""
    sections, number, lying = [], 0, planned_from(plan, all_cuts(plan))
    for group in purchase.needing:
        prices, new = dict(group.prices), {stick.id for stick in group.sticks}
        planned = [s for g in plan.groups if (g.section, g.alloy) == (group.section, group.alloy) for s in g.sticks]
        lines = []
        for length, count in group.bought:
            number += 1
            ours = {stick.id: stick for stick in group.sticks if stick.length == length}
            parts = Counter(p.blank.part.id for s in planned if s.stick.id in ours for p in (*s.placed, *s.held))
            stick, price = next(iter(ours.values())), prices.get(length)
            cents = None if price is None else int(price * HUNDREDTHS)
            lines.append(Line(number, group.section, group.alloy, length, count, (stick.trim_1, stick.trim_2), cents, tuple(sorted(parts.items()))))
        left = [(s.stick.id in new, length) for s in planned for length in _left(s, lying.get, plan.shop)]
        money = int(group.least * HUNDREDTHS) if group.priced else None
        sections.append(
            OfSection(
                group.section, group.alloy, tuple(lines), group.not_for_sale, group.smallest, group.sure, group.priced, (0, 1) if group.priced else group.least.as_integer_ratio(),
                money, *(tuple(sorted((length for one, length in left if one is fresh), reverse=True)) for fresh in (True, False)),
            )
        )  # fmt: skip
    return ToBuy(job.name, job.id, job_version(job), tuple(sections), purchase.currency, made_on, before=before, short=short, earlier=earlier)


def _left(planned: StickPlan, lying: Callable, shop: Shop) -> list[Fraction]:
    """What is left of a stick once all is made [in], what is only held in it too."""
    found = []
    for piece in [remnant.stick for remnant in planned.remnants] or ([] if planned.touched else [planned.stick]):
        held = lying(piece.id, ())
        for interval in piece.intervals(shop.kerf) if held else ():
            rest = interval.length - sum((p.blank.length + shop.kerf for p in held if interval.start <= p.start < interval.end), Fraction(0))
            found += [rest] if rest >= shop.usable_minimum else []
        found += [] if held else [piece.length]
    return found


# --- what has come ---------------------------------------------------------------------------------------------
def have_come(purchase: ToBuy, record: Record) -> dict[int, tuple[str, ...]]:
    """The sticks that have come by each line, cut or not."""
    found: dict[int, tuple[str, ...]] = {}
    for one in record.bought:
        if one.purchase == purchase.number:
            found[one.line] = (*found.get(one.line, ()), one.stick_id)
    return found


def still_to_come(purchase: ToBuy, record: Record) -> dict[int, int]:
    """Of each line how many have not come yet; lines that have come are left out."""
    here = have_come(purchase, record)
    return {line.number: line.count - len(here.get(line.number, ())) for line in purchase.lines if line.count > len(here.get(line.number, ()))}


def came(record: Record, purchase: ToBuy, number: int, lengths: Sequence[Fraction] | None, on: str, lot: str = "", given: Collection[str] = ()) -> Record:
    """The record once sticks of a line have come: of these ``lengths`` [in]; None: what has not come yet, as it was ordered.

    Equal ones are one row of the rack (:mod:`anglelib.stock.equal_sticks`): three are S-09.1 to S-09.3. ``lot`` is the lot or heat number
    that stands on them or in their certificate ("": none is known), ``given`` names that sticks had that have another one now: none is given twice.
    Raises RackError where all of the line has come already and no lengths
    say what came besides.
    """
    line = purchase.line(number)
    if lengths is None:
        here = have_come(purchase, record).get(number, ())
        missing = still_to_come(purchase, record).get(number, 0)
        if not missing:
            raise RackError(f"Line {number} of purchase {purchase.number} has come already ({and_more(runs(here))}): if more has come, say how long, like {number}: {exact(line.length)}.")
        lengths = [line.length] * missing
    equal = Counter(lengths)
    sticks = []
    for row, (length, count) in zip(next_names(record, len(equal), given), equal.items(), strict=True):
        first = Stick(row, line.section, line.alloy, length, *line.trims, lot=lot)
        taken = {name.lower() for name in record.order}
        sticks += [first] if count == 1 else [replace(first, id=name, one_of=row) for name in names(row, count, taken)]
    return record.with_bought(sticks, on, purchase.number, number)


def taken_back(record: Record, purchase: ToBuy, which: int | str) -> Record:
    """The record without what was said by mistake to have come: of a line, one stick, or a row of equal ones. RackError where nothing of it did, or it is cut."""
    if isinstance(which, str):
        came_by = {one.stick_id for one in record.bought}
        sticks = (*record.rack.sticks, *(old.stick for old in record.cut))
        return record.without_bought([stick.id for stick in sticks if stick.one_of == which and stick.id in came_by] or [which])
    names = have_come(purchase, record).get(purchase.line(which).number, ())
    if not names:
        raise RackError(f"Nothing of line {which} of purchase {purchase.number} has come: there is nothing to take back.")
    return record.without_bought(names)


def earlier(purchase: ToBuy | None, record: Record) -> tuple[str, ...]:
    """The numbers of a purchase and those before it by which something came: what a new one in its place has to know."""
    came_by = {one.purchase for one in record.bought}
    return tuple(number for number in (*purchase.earlier, purchase.number) if number in came_by) if purchase is not None else ()


def without_what_came(purchase: ToBuy | None, record: Record) -> Rack:
    """The rack without what came by a purchase or those that it takes the place of, and what is left of it."""
    numbers = (purchase.number, *purchase.earlier) if purchase is not None else ()
    ours = {one.stick_id for one in record.bought if one.purchase in numbers}
    ours |= {stick.id for stick_id in ours for stick in record.left_of(stick_id)}
    return Rack(tuple(stick for stick in record.rack.sticks if stick.id not in ours))


def with_what_comes(purchase: ToBuy, record: Record) -> Rack:
    """The rack once all that has not come yet is there."""
    for number in still_to_come(purchase, record):
        record = came(record, purchase, number, None, "")
    return record.rack


def next_names(record: Record, number: int, given: Collection[str] = ()) -> list[str]:
    """Ids for new sticks, or rows of equal ones: on from the highest of the kind that most rows of full sticks have, without those that were ``given``.

    >>> stock = Section("3/4", "3/4", "1/8")
    >>> next_names(Record(Rack([Stick("S-09", stock, "6061-T6", 96), Stick("R7", stock, "6061-T6", 9, remnant=True)])), 2), next_names(Record(Rack()), 1)
    (['S-10', 'S-11'], ['S-01'])
    """
    # equal sticks of one row are one name, that of their row: S-04.7 would be read as one of them
    sticks = (*record.rack.sticks, *(old.stick for old in record.cut))
    full = dict.fromkeys(stick.one_of or stick.id for stick in sticks if not stick.remnant)
    found = [match for name in full if (match := _NUMBERED.fullmatch(name)) is not None]
    stems = Counter(match[1] for match in found)
    stem = max(stems, key=lambda stem: (stems[stem], stem), default=None)
    ours = [match[2] for match in found if match[1] == stem] or [FIRST_NAME[-2:]]
    stem, digits = (stem, len(ours[-1])) if stem is not None else (FIRST_NAME[:-2], 2)
    taken = {name.lower() for name in (*record.order, *(stick.one_of for stick in sticks), *given)}
    at, new = max(map(int, ours)) if found else 0, []
    while len(new) < number:
        at += 1
        if (name := f"{stem}{at:0{digits}}").lower() not in taken:
            new.append(name)
    return new
