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
from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from anglelib.errors import PlanError, RackError
from anglelib.job import Job
from anglelib.lengths import exact
from anglelib.section import Section
from anglelib.stock.plan import Plan
from anglelib.stock.price import Currency
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

    ``before`` is how many sticks had come by purchases until then, so that the same purchase a second time is another one.
    """

    job_name: str
    job_id: str
    job_version: str
    sections: tuple[OfSection, ...]
    currency: Currency = Currency()
    made_on: str = ""
    sent: str = ""
    before: int = 0
    number: str = field(default="", compare=False)

    def __post_init__(self) -> None:
        said = [self.job_name, self.job_id, self.job_version, [written(section) for section in self.sections], self.currency, self.before]
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


def to_buy(purchase: Purchase, plan: Plan, job: Job, made_on: str = "", before: int = 0) -> ToBuy:
    """The purchase in hand from a purchase and the plan that is made with it."""
    sections, number = [], 0
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
        left = [(s.stick.id in new, r.stick.length) for s in planned for r in s.remnants]
        left += [(s.stick.id in new, s.stick.length) for s in planned if not s.touched and not s.remnants]
        money = int(group.least * HUNDREDTHS) if group.priced else None
        sections.append(
            OfSection(
                group.section, group.alloy, tuple(lines), group.not_for_sale, group.smallest, group.sure, group.priced, (0, 1) if group.priced else group.least.as_integer_ratio(),
                money, *(tuple(sorted((length for one, length in left if one is fresh), reverse=True)) for fresh in (True, False)),
            )
        )  # fmt: skip
    return ToBuy(job.name, job.id, job_version(job), tuple(sections), purchase.currency, made_on, before=before)


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


def came(record: Record, purchase: ToBuy, number: int, lengths: Sequence[Fraction] | None, on: str) -> Record:
    """The record once sticks of a line have come: of these ``lengths`` [in]; None: what has not come yet, as it was ordered.

    Raises RackError where all of the line has come already and no lengths say what came besides.
    """
    line = purchase.line(number)
    if lengths is None:
        here = have_come(purchase, record).get(number, ())
        missing = still_to_come(purchase, record).get(number, 0)
        if not missing:
            raise RackError(f"Line {number} of purchase {purchase.number} has come already ({and_more(here)}): if more has come, say how long, like {number}: {exact(line.length)}.")
        lengths = [line.length] * missing
    names = next_names(record, len(lengths))
    sticks = [Stick(name, line.section, line.alloy, length, *line.trims) for name, length in zip(names, lengths, strict=True)]
    return record.with_bought(sticks, on, purchase.number, number)


def taken_back(record: Record, purchase: ToBuy, which: int | str) -> Record:
    """The record without what was said by mistake to have come: of a line, or one stick. RackError where nothing of it did, or it is cut."""
    if isinstance(which, str):
        return record.without_bought([which])
    names = have_come(purchase, record).get(purchase.line(which).number, ())
    if not names:
        raise RackError(f"Nothing of line {which} of purchase {purchase.number} has come: there is nothing to take back.")
    return record.without_bought(names)


def with_what_comes(purchase: ToBuy, record: Record) -> Rack:
    """The rack once all that has not come yet is there."""
    for number in still_to_come(purchase, record):
        record = came(record, purchase, number, None, "")
    return record.rack


def next_names(record: Record, number: int) -> list[str]:
    """Ids for new sticks: on from the highest of the kind that most full sticks have.

    >>> stock = Section("3/4", "3/4", "1/8")
    >>> next_names(Record(Rack([Stick("S-09", stock, "6061-T6", 96), Stick("R7", stock, "6061-T6", 9, remnant=True)])), 2), next_names(Record(Rack()), 1)
    (['S-10', 'S-11'], ['S-01'])
    """
    # equal sticks of one row are one name, that of their row: S-04.7 would be read as one of them
    full = dict.fromkeys(stick.one_of or stick.id for stick in (*record.rack.sticks, *(old.stick for old in record.cut)) if not stick.remnant)
    found = [match for name in full if (match := _NUMBERED.fullmatch(name)) is not None]
    stems = Counter(match[1] for match in found)
    stem = max(stems, key=lambda stem: (stems[stem], stem), default=None)
    ours = [match[2] for match in found if match[1] == stem] or [FIRST_NAME[-2:]]
    stem, digits = (stem, len(ours[-1])) if stem is not None else (FIRST_NAME[:-2], 2)
    at, taken, names = max(map(int, ours)) if found else 0, {name.lower() for name in (*record.order, *full)}, []
    while len(names) < number:
        at += 1
        if (name := f"{stem}{at:0{digits}}").lower() not in taken:
            names.append(name)
    return names
