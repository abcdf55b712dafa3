"""Slips: functions from a wanted part to the parts that a slip makes of it, one for each amount it may have.

Model of the work: end 1 is the datum; end 2 comes from the cut to length; what belongs to end 2 is
laid out from it afterwards, or was before, from the line that end 2 should have been cut to: both
are cases. Kerf and allowance are the shop's. An amount that is free goes in steps no coarser than
sound work scatters.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import fsum

from anglelib.inspection.made import Made, MadeHole, MadeTaper
from anglelib.job import Shop
from anglelib.part import Part
from anglelib.section import other_leg

SIXTEENTH = 1 / 16


@dataclass(frozen=True)
class Case:
    """One way that a slip may have gone: in words where and how much, the part it makes, its weight among the slip's cases."""

    words: str
    made: Made
    weight: float = 1.0


Cases = Iterator[Case]


# --- moving things ------------------------------------------------------------------------------------
def shorten(made: Made, by: float) -> Made:
    """End 2 cut short by so much; what is laid out from end 2 afterwards moves with it."""
    tapers = tuple(t.shifted(by) if t.end == 2 else t for t in made.tapers)
    return replace(made, stop=made.stop - by, tapers=tapers)


def shortened(words: str, made: Made, by: float, weight: float = 1.0) -> Cases:
    """End 2 cut short by so much, after or before its tapers were laid out."""
    if any(t.end == 2 for t in made.tapers):
        yield Case(words, shorten(made, by), weight / 2)
        yield Case(f"{words}, after its taper was laid out", replace(made, stop=made.stop - by), weight / 2)
    else:
        yield Case(words, shorten(made, by), weight)


def steps(low: float, high: float, count: int) -> tuple[float, ...]:
    """Evenly spaced amounts, the middles of so many equal steps."""
    return tuple(low + (high - low) * (i + 0.5) / count for i in range(count))


def both_signs(amounts: tuple[float, ...]) -> tuple[float, ...]:
    return tuple(-v for v in reversed(amounts)) + amounts


def with_taper(made: Made, old: MadeTaper, new: MadeTaper) -> Made:
    return replace(made, tapers=tuple(new if t is old else t for t in made.tapers))


def with_hole(made: Made, index: int, hole: MadeHole) -> Made:
    return replace(made, holes=tuple(hole if i == index else h for i, h in enumerate(made.holes)))


def left_by(made: Made, taper: MadeTaper) -> float:
    """Width left of a taper as drawn."""
    return float(made.wanted.section.leg(taper.leg)) - taper.at_toe / taper.slope


def relaid(made: Made, taper: MadeTaper, run: float, left: float) -> MadeTaper | None:
    """The same taper with another run or width left; None where that is no taper."""
    height = float(made.wanted.section.leg(taper.leg)) - left
    if run <= 0 or height <= 0 or left < -1e-9 or run >= float(made.wanted.length):
        return None
    return replace(taper, at_toe=run, slope=run / height)


def where(taper: MadeTaper) -> str:
    return f"leg {taper.leg} at end {taper.end}"


# --- lengths --------------------------------------------------------------------------------------------
def keep_side(part: Part, shop: Shop) -> Cases:
    yield from shortened("at one end", Made.as_wanted(part), float(shop.kerf))


def split_line(part: Part, shop: Shop) -> Cases:
    yield from shortened("at one end", Made.as_wanted(part), float(shop.kerf) / 2)


def both_ends(part: Part, shop: Shop) -> Cases:
    for words, lost in (("the whole kerf at both ends", float(shop.kerf)), ("half the kerf at both ends", float(shop.kerf) / 2)):
        yield from shortened(words, replace(Made.as_wanted(part), start=lost), lost)


def no_allowance(part: Part, shop: Shop) -> Cases:
    yield from shortened("at one end", Made.as_wanted(part), float(shop.allowance))
    yield from shortened("at both ends", Made.as_wanted(part), 2 * float(shop.allowance))


def allowance_left(part: Part, shop: Shop) -> Cases:
    for words, times in (("left on at one end", 1), ("left on at both ends, or counted twice", 2)):
        yield from shortened(words, Made.as_wanted(part), -times * float(shop.allowance))


def one_inch(part: Part, shop: Shop) -> Cases:
    made = Made.as_wanted(part)
    # Forgetting to take the inch off is the usual way; adding it is the rarer.
    for step, words, weight in ((-1.0, "an inch short", 1.0), (1.0, "an inch long", 0.5)):
        if made.stop + step > 1:
            yield from shortened(f"length {words}", made, -step, weight)
        for taper in made.tapers:
            new = relaid(made, taper, taper.at_toe + step, left_by(made, taper))
            if new is not None:
                yield Case(f"run of {where(taper)} {words}", with_taper(made, taper, new), weight)
        if made.holes and all(0 < hole.x + step < made.stop for hole in made.holes):
            yield Case(f"holes {words}", replace(made, holes=tuple(replace(h, x=h.x + step) for h in made.holes)), weight)


def _misread(value: float) -> list[tuple[float, str, float]]:
    """What a fraction may be misread as, in words, and how likely: sixteenths beside it, twice or half its fraction."""
    found = [
        (value + n * SIXTEENTH, f"{abs(n)}/16 {'less' if n < 0 else 'more'}", 1 / abs(n)) for n in (-4, -3, -2, -1, 1, 2, 3, 4)
    ]
    whole, rest = divmod(value, 1.0)
    if rest:
        found.append((whole + rest / 2, "the fraction halved", 1.0))
        if rest <= 0.5:
            found.append((whole + 2 * rest, "the fraction doubled", 1.0))
    total = fsum(weight for _, _, weight in found)
    return [(new, words, weight / total) for new, words, weight in found]


def misread(part: Part, shop: Shop) -> Cases:
    made = Made.as_wanted(part)
    for value, words, weight in _misread(made.stop):
        if value > 0:
            yield from shortened(f"length, {words}", made, made.stop - value, weight)
    for taper in made.tapers:
        left = left_by(made, taper)
        for value, words, weight in _misread(taper.at_toe):
            new = relaid(made, taper, value, left)
            if new is not None:
                yield Case(f"run of {where(taper)}, {words}", with_taper(made, taper, new), weight)
        for value, words, weight in _misread(left):
            new = relaid(made, taper, taper.at_toe, value)
            if left > 1e-9 and new is not None:
                yield Case(f"width left of {where(taper)}, {words}", with_taper(made, taper, new), weight)
    for index, hole in enumerate(made.holes):
        for value, words, weight in _misread(hole.x):
            if 0 < value < made.stop:
                yield Case(f"x of hole {index + 1}, {words}", with_hole(made, index, replace(hole, x=value)), weight)
        for value, words, weight in _misread(hole.y):
            if 0 < value < float(part.section.leg(hole.leg)):
                yield Case(f"y of hole {index + 1}, {words}", with_hole(made, index, replace(hole, y=value)), weight)


# --- hand and end -------------------------------------------------------------------------------------------
def _of_part(part: Part, features: Part) -> Made:
    """The wanted part made with another part's features."""
    other = Made.as_wanted(features)
    return replace(Made.as_wanted(part), tapers=other.tapers, holes=other.holes)


def wrong_leg(part: Part, shop: Shop) -> Cases:
    if part.tapers:
        moved = []
        for taper in part.tapers:
            leg = other_leg(taper.leg)
            if taper.width_left < part.section.leg(leg):
                moved.append(replace(taper, leg=leg))
        if len(moved) == len(part.tapers):
            yield Case("taper on the other leg", _of_part(part, replace(part, tapers=tuple(moved), hand=None, mirror_of="")))
    if part.section.equal_legs and part.handed:
        yield Case("the other hand", _of_part(part, part.mirrored()))


def other_end_slip(part: Part, shop: Shop) -> Cases:
    if len(part.tapers) == 1:
        taper = part.tapers[0]
        moved = replace(part, tapers=(replace(taper, end=3 - taper.end),), hand=None, mirror_of="")
        yield Case("", _of_part(part, moved))


def both_one_hand(part: Part, shop: Shop) -> Cases:
    if part.handed:
        yield Case("", _of_part(part, part.mirrored()))
