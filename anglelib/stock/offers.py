"""What a supplier has: the lengths of each section and alloy that can be bought, what one of each costs, and how many there are.

>>> from anglelib.section import Section
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> offers = Offers((Offer(stock, "6061-T6", 96, price=Fraction(18)), Offer(stock, "6061-T6", 72, most=2)))
>>> [str(offer.length) for offer in offers.of(stock, "6061-T6")], offers.of(stock, "6063-T5")
(['72', '96'], ())
>>> Offer(stock, "6061-T6", 72, most=0)
Traceback (most recent call last):
    ...
anglelib.errors.PlanError: There are 0 of 72: leave that length out, or say how many there are.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from anglelib.errors import LengthError, PlanError
from anglelib.lengths import exact, inches
from anglelib.section import Section
from anglelib.stock.fit import alike
from anglelib.stock.price import Currency

MOST_LENGTHS = 8
"""Among how many lengths of one section the search chooses."""


@dataclass(frozen=True)
class Offer:
    """One length of a section and alloy that can be bought [in]: the price of one (None: not known), how many at most (None: as many as wanted).

    ``row`` is where its file has it (0: in none). Raises :class:`~anglelib.errors.PlanError` for what cannot be.
    """

    section: Section
    alloy: str
    length: Fraction
    price: Fraction | None = None
    most: int | None = None
    row: int = 0

    def __post_init__(self) -> None:
        try:
            object.__setattr__(self, "length", inches(self.length, "length to buy", zero=False))
        except LengthError as error:
            raise PlanError(str(error)) from None
        if self.price is not None and self.price <= 0:
            raise PlanError(f"A length of {exact(self.length)} costs something: give its price, or none.")
        if self.most is not None and self.most < 1:
            raise PlanError(f"There are {self.most} of {exact(self.length)}: leave that length out, or say how many there are.")


@dataclass(frozen=True)
class Offers:
    """What can be bought, with the currency of all its prices, and the file that says so ("": none)."""

    rows: tuple[Offer, ...]
    currency: Currency = Currency()
    file: str = ""

    def of(self, section: Section, alloy: str) -> tuple[Offer, ...]:
        """The lengths of a section and alloy that can be bought, the shortest first; an L may lie either way round."""
        return tuple(sorted((o for o in self.rows if o.alloy == alloy and alike(o.section, section)), key=lambda o: o.length))

    def sizes_like(self, section: Section, alloy: str) -> tuple[Offer, ...]:
        """Offers of the same size of section that are not it: another inside radius, another alloy."""
        size = section.size, section.swapped().size
        return tuple(o for o in self.rows if o.section.size in size and not (o.alloy == alloy and alike(o.section, section)))
