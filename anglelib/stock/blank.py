"""Blanks: the pieces, sawn over-length, that a job's parts are made from.

>>> from anglelib.section import Section
>>> from anglelib.job import Shop
>>> from anglelib.lengths import exact
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> bar = Part("A3", "Baggage floor bar", stock, "6061-T6", "17 1/4", quantity=4)
>>> first = blanks(Job("Demo", Shop(), [bar]))[0]
>>> str(first), exact(first.length)
('A3 (1 of 4)', '17 5/16')
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction

from anglelib.job import Job, Shop
from anglelib.part import Part
from anglelib.stock.pins import pins


@dataclass(frozen=True)
class Blank:
    """One piece to saw for a part: the ``number``-th of its quantity, and its sawn ``length`` [in].

    The length is the finished length and a sanding allowance at each sawn end. ``whole`` is the
    quantity that it is counted in where some pieces are made already; 0: the part's. ``pin`` is the stick that
    this piece is to come from, where the part names one for some of its pieces. ``rough`` [in] is what of the length
    is only room, for the hacksaw that may have to part it off (:meth:`~anglelib.job.Shop.rough_room`).
    """

    part: Part
    number: int
    length: Fraction
    whole: int = 0
    pin: str = ""
    rough: Fraction = Fraction(0)

    @property
    def stick(self) -> str:
        """The stick that it must come from; "" where it may come from any."""
        return self.pin or self.part.only_stick

    @property
    def held(self) -> bool:
        """Whether its length is only reserved: the part is made later."""
        return self.part.later

    def __str__(self) -> str:
        whole = self.whole or self.part.quantity
        return f"{self.part.id} ({self.number} of {whole})" if whole > 1 else self.part.id


def blank_for(part: Part, number: int, shop: Shop) -> Blank:
    """The ``number``-th blank of a part, with the room that a rough cut of it would need."""
    nominal = part.length + 2 * shop.allowance
    room = shop.rough_room(nominal)
    return Blank(part, number, nominal + room, rough=room)


def with_room(blank: Blank, shop: Shop) -> Blank:
    """The same with that room, where its plan found that no rough cut of it is needed, and kept none."""
    room = Fraction(0) if blank.rough else shop.rough_room(blank.length)
    return replace(blank, length=blank.length + room, rough=room) if room else blank


def without_room(blank: Blank) -> Blank:
    """The same without it."""
    return replace(blank, length=blank.length - blank.rough, rough=Fraction(0)) if blank.rough else blank


def blanks(job: Job) -> tuple[Blank, ...]:
    """Every blank of a job, the one with the first claim on the metal first.

    A larger priority goes first, then the longer blank: a rack that cannot serve all gives up clips
    before it gives up a longeron. Between equals the id decides, so that the order of rows does not;
    but of equals as many are made as can be, whatever their ids.
    """
    found = []
    for part in job.parts:
        named = pins(part) if part.pinned else ()
        for number in range(1, part.quantity + 1):
            blank = blank_for(part, number, job.shop)
            found.append(replace(blank, pin=named[number - 1]) if number <= len(named) else blank)
    return tuple(sorted(found, key=lambda b: (-b.part.claim, -b.part.priority, -b.length, b.part.id, b.number)))


def made_of(wanted: Iterable[Blank], lying: Iterable[Blank]) -> tuple[Blank, ...]:
    """Of the blanks that are wanted those that a plan makes: of each part and stick named for it so many as lie there, the first ones."""
    have = Counter((b.part.id, b.pin) for b in lying)
    found = []
    for blank in wanted:
        if have[blank.part.id, blank.pin] > 0:
            have[blank.part.id, blank.pin] -= 1
            found.append(blank)
    return tuple(found)
