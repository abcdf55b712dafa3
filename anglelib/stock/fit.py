"""Whether a stick may serve a part, and every reason why it may not, in words.

>>> from anglelib.section import Section
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> square = Section("3/4", "3/4", "1/8")
>>> part = Part("A3", "Floor bar", stock, "6061-T6", "17 1/4")
>>> for reason in refusals(part, Stick("S-12", square, "unknown", 36)): print(reason)
S-12 carries no mark of its alloy: identify it first.
S-12 has a square inside corner; the part wants a fillet of 1/8.
>>> refusals(part, Stick("S-01", stock, "6061-T6", 144))
()
"""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache

from anglelib.job import Shop
from anglelib.lengths import about, own
from anglelib.part import Part
from anglelib.section import Section
from anglelib.stock.rack import Stick


@lru_cache(maxsize=1024)
def alike(one: Section, other: Section) -> bool:
    """Whether two sections are the same metal: an L may be turned so that its legs change names."""
    return one == other or one.swapped() == other


def refusals(part: Part, stick: Stick, shop: Shop | None = None) -> tuple[str, ...]:
    """Every reason why a stick cannot serve a part, as sentences; none where it can.

    With a ``shop`` also whether one blank of the part is too long for it, with nothing else cut.
    """
    found = []
    if part.only_stick and part.only_stick != stick.id:
        found.append(f"The plans name {part.only_stick} for {part.id}, not {stick.id}.")
    if stick.hands_off:
        found.append(f"{stick.id} is marked hands-off: it is kept for something else.")
    if not stick.identified:
        found.append(f"{stick.id} carries no mark of its alloy: identify it first.")
    elif stick.alloy != part.alloy:
        found.append(f"{stick.id} is {stick.alloy}; the part wants {part.alloy}.")
    if not alike(part.section, stick.section):
        found += _sections(part.section, stick.section, stick.id)
    if shop is not None:
        found += _too_short(part, stick, shop)
    return tuple(found)


def _sections(wanted: Section, have: Section, name: str) -> list[str]:
    """How two sections differ, in words."""
    if (wanted.leg_a, wanted.leg_b) != (have.leg_a, have.leg_b):
        have = have.swapped()
    if (wanted.leg_a, wanted.leg_b) != (have.leg_a, have.leg_b):
        return [f"{name} is {have.size}; the part wants {wanted.size}."]
    found = []
    thick, need = (have.thickness_a, have.thickness_b), (wanted.thickness_a, wanted.thickness_b)
    if thick != need:
        more = "thicker" if thick > need else "thinner"
        found.append(f"{name} looks alike but is {more}: {have.size}; the part wants {wanted.size}.")
    for what, got, want in (
        ("fillet", have.fillet, wanted.fillet),
        ("toe radius", have.toe_radius, wanted.toe_radius),
        ("heel radius", have.heel_radius, wanted.heel_radius),
    ):
        if got != want:
            found.append(f"{name} has {_radius(what, got)}; the part wants {_radius(what, want)}.")
    return found


def _radius(what: str, value: Fraction) -> str:
    if value:
        return f"a {what} of {own(value)}"
    return {"fillet": "a square inside corner", "toe radius": "square toes", "heel radius": "a square heel"}[what]


def _too_short(part: Part, stick: Stick, shop: Shop) -> list[str]:
    blank = part.length + 2 * shop.allowance
    intervals = stick.intervals(shop.kerf)
    if any(blank + (0 if i.unsawn else shop.kerf) <= i.length for i in intervals):
        return []
    longest = max((i.length for i in intervals), default=Fraction(0))
    beside = " beside its dent" if stick.dents else ""
    return [
        f"{stick.id} is too short: {about(longest)} of it can be used{beside}, and the blank with its cut takes {about(blank + shop.kerf)}."
    ]
