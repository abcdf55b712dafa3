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

from anglelib.errors import PartError
from anglelib.inspection.made import Made, MadeCope, MadeCorner, MadeHole, MadeTaper
from anglelib.job import Shop
from anglelib.lengths import unit_written
from anglelib.part import Part, other_end
from anglelib.section import other_leg

SIXTEENTH = 1 / 16


@dataclass(frozen=True)
class Case:
    """One way that a slip may have gone: in words where and how much, the part it makes, its weight among the slip's cases.

    ``way`` is an id of how it went, where a slip goes in several ways, and ``amount`` how much of it there is: inches, degrees, kelvin.
    """

    words: str
    made: Made
    weight: float = 1.0
    way: str = ""
    amount: float = 0.0


Cases = Iterator[Case]


# --- moving things ------------------------------------------------------------------------------------
def shorten(made: Made, by: float) -> Made:
    """End 2 cut short by so much; what is laid out from end 2 afterwards moves with it."""
    tapers = tuple(t.shifted(by) if t.end == 2 else t for t in made.tapers)
    copes = tuple(c.shifted(by) if c.end == 2 else c for c in made.copes)
    return replace(made, stop=made.stop - by, tapers=tapers, copes=copes)


def shortened(words: str, made: Made, by: float, weight: float = 1.0, way: str = "") -> Cases:
    """End 2 cut short by so much, after or before its tapers and copes were laid out."""
    if any(cut.end == 2 for cut in (*made.tapers, *made.copes)):
        yield Case(words, shorten(made, by), weight / 2, way)
        what = "taper" if any(t.end == 2 for t in made.tapers) else "cope"
        yield Case(f"{words}, after its {what} was laid out", replace(made, stop=made.stop - by), weight / 2, way)
    else:
        yield Case(words, shorten(made, by), weight, way)


def steps(low: float, high: float, count: int) -> tuple[float, ...]:
    """Evenly spaced amounts, the middles of so many equal steps."""
    return tuple(low + (high - low) * (i + 0.5) / count for i in range(count))


def both_signs(amounts: tuple[float, ...]) -> tuple[float, ...]:
    return tuple(-v for v in reversed(amounts)) + amounts


def with_taper(made: Made, old: MadeTaper, new: MadeTaper) -> Made:
    return replace(made, tapers=tuple(new if t is old else t for t in made.tapers))


def with_hole(made: Made, index: int, hole: MadeHole) -> Made:
    return replace(made, holes=tuple(hole if i == index else h for i, h in enumerate(made.holes)))


def with_cope(made: Made, old: MadeCope, **change: float) -> Made:
    return replace(made, copes=tuple(replace(c, **change) if c is old else c for c in made.copes))


def with_corner(made: Made, old: MadeCorner, radius: float) -> Made:
    return replace(made, corners=tuple(replace(c, radius=radius) if c is old else c for c in made.corners))


def cope_cases(made: Made, words: str, deeper: float, weight: float = 0.5) -> Cases:
    """Each line of each cope cut so much farther into the part (less than 0: not far enough) [in]."""
    for cope in made.copes:
        if cope.length + deeper > 0:
            yield Case(f"cope of {where(cope)}, {words} its length", with_cope(made, cope, length=cope.length + deeper), weight)
        if cope.left - deeper > 0:
            yield Case(f"cope of {where(cope)}, {words} its width left", with_cope(made, cope, left=cope.left - deeper), weight)


def left_by(made: Made, taper: MadeTaper) -> float:
    """Width left of a taper as drawn."""
    return float(made.wanted.section.leg(taper.leg)) - taper.at_toe / taper.slope


def relaid(made: Made, taper: MadeTaper, run: float, left: float) -> MadeTaper | None:
    """The same taper with another run or width left; None where that is no taper."""
    height = float(made.wanted.section.leg(taper.leg)) - left
    if run <= 0 or height <= 0 or left < -1e-9 or run >= float(made.wanted.length):
        return None
    return replace(taper, at_toe=run, slope=run / height)


def where(cut: MadeTaper | MadeCope | MadeCorner) -> str:
    return f"leg {cut.leg} at end {cut.end}"


# --- lengths --------------------------------------------------------------------------------------------
def keep_side(part: Part, shop: Shop) -> Cases:
    yield from shortened("at one end", Made.as_wanted(part), float(shop.kerf))
    yield from cope_cases(Made.as_wanted(part), "the kerf on", float(shop.kerf))


def split_line(part: Part, shop: Shop) -> Cases:
    yield from shortened("at one end", Made.as_wanted(part), float(shop.kerf) / 2)
    yield from cope_cases(Made.as_wanted(part), "half the kerf on", float(shop.kerf) / 2)


def both_ends(part: Part, shop: Shop) -> Cases:
    for way, words, lost in (("whole", "the whole kerf at both ends", float(shop.kerf)), ("half", "half the kerf at both ends", float(shop.kerf) / 2)):
        yield from shortened(words, replace(Made.as_wanted(part), start=lost), lost, way=way)


def no_allowance(part: Part, shop: Shop) -> Cases:
    yield from shortened("at one end", Made.as_wanted(part), float(shop.allowance))
    yield from shortened("at both ends", Made.as_wanted(part), 2 * float(shop.allowance))
    yield from cope_cases(Made.as_wanted(part), "the allowance on", float(shop.allowance))


def allowance_left(part: Part, shop: Shop) -> Cases:
    for way, words, times in (("once", "left on at one end", 1), ("twice", "left on at both ends, or counted twice", 2)):
        yield from shortened(words, Made.as_wanted(part), -times * float(shop.allowance), way=way)
    yield from cope_cases(Made.as_wanted(part), "the allowance left on", -float(shop.allowance))


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
        for cope in made.copes:
            if cope.length + step > 0:
                yield Case(f"cope of {where(cope)} {words}", with_cope(made, cope, length=cope.length + step), weight)
        if made.holes and all(0 < hole.x + step < made.stop for hole in made.holes):
            yield Case(f"holes {words}", replace(made, holes=tuple(replace(h, x=h.x + step) for h in made.holes)), weight)


def _misread(value: float) -> list[tuple[float, str, float]]:
    """What a fraction may be misread as, in words, and how likely: sixteenths beside it, twice or half its fraction."""
    unit, whose = (" in", " of an inch") if unit_written() == "mm" else ("", "")
    found = [
        (value + n * SIXTEENTH, f"{abs(n)}/16{unit} {'less' if n < 0 else 'more'}", 1 / abs(n)) for n in (-4, -3, -2, -1, 1, 2, 3, 4)
    ]
    whole, rest = divmod(value, 1.0)
    if rest:
        found.append((whole + rest / 2, f"the fraction{whose} halved", 1.0))
        if rest <= 0.5:
            found.append((whole + 2 * rest, f"the fraction{whose} doubled", 1.0))
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
    for cope in made.copes:
        for value, words, weight in _misread(cope.length):
            if value > 0:
                yield Case(f"length of the cope of {where(cope)}, {words}", with_cope(made, cope, length=value), weight)
        for value, words, weight in _misread(cope.left):
            if value > 0:
                yield Case(f"width left of the cope of {where(cope)}, {words}", with_cope(made, cope, left=value), weight)
    for corner in made.corners:
        for value, words, weight in _misread(corner.radius):
            if value > 0:
                yield Case(f"radius of {where(corner)}, {words}", with_corner(made, corner, value), weight)
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
    return replace(Made.as_wanted(part), tapers=other.tapers, holes=other.holes, copes=other.copes, corners=other.corners)


def _on(part: Part, **cuts: tuple) -> Part | None:
    """The part with other cuts, its corners and holes left out; None where it cannot be."""
    try:
        return replace(part, corners=(), holes=(), hand=None, mirror_of="", **cuts)
    except PartError:
        return None


def wrong_leg(part: Part, shop: Shop) -> Cases:
    if part.tapers or part.copes:
        moved = _on(part, tapers=tuple(_other_leg(t) for t in part.tapers), copes=tuple(_other_leg(c) for c in part.copes))
        if moved is not None:
            made, other = Made.as_wanted(part), Made.as_wanted(moved)
            what = "taper" if part.tapers else "cope"
            yield Case(f"{what} on the other leg", replace(made, tapers=other.tapers, copes=other.copes), way="leg")
    if part.section.equal_legs and part.handed:
        yield Case("the other hand", _of_part(part, part.mirrored()), way="hand")


def _other_leg(cut):
    return replace(cut, leg=other_leg(cut.leg))


def _other_end(cut):
    return replace(cut, end=other_end(cut.end))


def other_end_slip(part: Part, shop: Shop) -> Cases:
    """Of a part with one taper, or else with one cope: the cut at the other end."""
    if len(part.tapers) == 1:
        moved = _on(part, tapers=tuple(_other_end(t) for t in part.tapers))
    elif not part.tapers and len(part.copes) == 1:
        moved = _on(part, copes=tuple(_other_end(c) for c in part.copes))
    else:
        return
    if moved is not None:
        made, other = Made.as_wanted(part), Made.as_wanted(moved)
        yield Case("", replace(made, tapers=other.tapers, copes=other.copes))


def both_one_hand(part: Part, shop: Shop) -> Cases:
    if part.handed:
        yield Case("", _of_part(part, part.mirrored()))
