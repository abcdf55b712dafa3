"""Whether a stick may serve a part, and every reason why it may not.

>>> from anglelib.section import Section
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> square = Section("3/4", "3/4", "1/8")
>>> part = Part("A3", "Floor bar", stock, "6061-T6", "17 1/4")
>>> for reason in refusals(part, Stick("S-12", square, "unknown", 36)): print(reason.id, "|", reason.sentence)
no-mark | S-12 carries no mark of its alloy: identify it first.
fillet | S-12 has a square inside corner; the part wants a fillet of 1/8.
>>> refusals(part, Stick("S-01", stock, "6061-T6", 144))
()
"""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache

from anglelib.job import Shop
from anglelib.part import Part
from anglelib.section import Section
from anglelib.stock.pins import barred
from anglelib.stock.rack import Stick
from anglelib.stock.reasons import (
    ALLOY,
    BARRED,
    FILLET,
    HANDS_OFF,
    HEEL_RADIUS,
    NO_MARK,
    OTHER_STICK,
    SIZE,
    THICKNESS,
    TOE_RADIUS,
    TOO_SHORT,
    Reason,
)


@lru_cache(maxsize=1024)
def alike(one: Section, other: Section) -> bool:
    """Whether two sections are the same metal: an L may be turned so that its legs change names."""
    return one == other or one.swapped() == other


def refusals(part: Part, stick: Stick, shop: Shop | None = None) -> tuple[Reason, ...]:
    """Every reason why a stick cannot serve a part; none where it can.

    With a ``shop`` also whether one blank of the part is too long for it, with nothing else cut.
    """
    found = []
    if part.only_stick and part.only_stick != stick.id:
        found.append(Reason(OTHER_STICK, stick.id, part.id, want=part.only_stick))
    if barred(part, stick):
        found.append(Reason(BARRED, stick.id, part.id))
    if stick.hands_off:
        found.append(Reason(HANDS_OFF, stick.id))
    if not stick.identified:
        found.append(Reason(NO_MARK, stick.id))
    elif stick.alloy != part.alloy:
        found.append(Reason(ALLOY, stick.id, have=stick.alloy, want=part.alloy))
    if not alike(part.section, stick.section):
        found += _sections(part, stick)
    if shop is not None:
        found += _too_short(part, stick, shop)
    return tuple(found)


def _sections(part: Part, stick: Stick) -> list[Reason]:
    """How the sections of a part and a stick differ."""
    wanted, have = part.section, stick.section
    if (wanted.leg_a, wanted.leg_b) != (have.leg_a, have.leg_b):
        have = have.swapped()
    if (wanted.leg_a, wanted.leg_b) != (have.leg_a, have.leg_b):
        return [Reason(SIZE, stick.id, have=have, want=wanted)]
    found = []
    if (have.thickness_a, have.thickness_b) != (wanted.thickness_a, wanted.thickness_b):
        found.append(Reason(THICKNESS, stick.id, have=have, want=wanted))
    for what, got, want in (
        (FILLET, have.fillet, wanted.fillet),
        (TOE_RADIUS, have.toe_radius, wanted.toe_radius),
        (HEEL_RADIUS, have.heel_radius, wanted.heel_radius),
    ):
        if got != want:
            found.append(Reason(what, stick.id, have=got, want=want))
    return found


def _too_short(part: Part, stick: Stick, shop: Shop) -> list[Reason]:
    blank = shop.takes(part.length)
    intervals = stick.intervals(shop.kerf)
    if any(blank + shop.kerf <= i.holds(shop.kerf) for i in intervals):
        return []
    longest = max(intervals, key=lambda i: i.holds(shop.kerf), default=None)
    have, cut = (longest.length, shop.kerf + longest.length - longest.holds(shop.kerf)) if longest else (Fraction(0), shop.kerf)
    return [Reason(TOO_SHORT, stick.id, have=have, want=blank + cut, dented=bool(stick.dents), alone=not cut)]
