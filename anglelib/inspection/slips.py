"""Slips: functions from a wanted part to the parts that a slip makes of it, one for each amount it may have.

Model of the work: end 1 is the datum; end 2 comes from the cut to length; what belongs to end 2 is
laid out from it afterwards. Kerf and allowance are the shop's.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from math import atan, radians, sin, sqrt, tan

from anglelib.alloy import ALLOYS
from anglelib.errors import BenchError
from anglelib.geometry.allowance import EXPANSION
from anglelib.inspection.made import Made, MadeHole, MadeTaper
from anglelib.job import Shop
from anglelib.part import Part
from anglelib.section import LEGS, other_leg

SIXTEENTH = 1 / 16


@dataclass(frozen=True)
class Case:
    """One way that a slip may have gone: in words where and how much, and the part it makes."""

    words: str
    made: Made


Cases = Iterator[Case]


# --- moving things ------------------------------------------------------------------------------------
def shorten(made: Made, by: float) -> Made:
    """End 2 cut short by so much; what is laid out from end 2 afterwards moves with it."""
    tapers = tuple(t.shifted(by) if t.end == 2 else t for t in made.tapers)
    return replace(made, stop=made.stop - by, tapers=tapers)


def _with_taper(made: Made, old: MadeTaper, new: MadeTaper) -> Made:
    return replace(made, tapers=tuple(new if t is old else t for t in made.tapers))


def _with_hole(made: Made, index: int, hole: MadeHole) -> Made:
    return replace(made, holes=tuple(hole if i == index else h for i, h in enumerate(made.holes)))


def _left(made: Made, taper: MadeTaper) -> float:
    """Width left of a taper as drawn."""
    return float(made.wanted.section.leg(taper.leg)) - taper.at_toe / taper.slope


def _line(made: Made, taper: MadeTaper, run: float, left: float) -> MadeTaper | None:
    """The same taper with another run or width left; None where that is no taper."""
    height = float(made.wanted.section.leg(taper.leg)) - left
    if run <= 0 or height <= 0 or left < 0 or run >= float(made.wanted.length):
        return None
    return replace(taper, at_toe=run, slope=run / height)


def _where(taper: MadeTaper) -> str:
    return f"leg {taper.leg} at end {taper.end}"


# --- lengths --------------------------------------------------------------------------------------------
def keep_side(part: Part, shop: Shop) -> Cases:
    yield Case("at one end", shorten(Made.as_wanted(part), float(shop.kerf)))


def split_line(part: Part, shop: Shop) -> Cases:
    yield Case("at one end", shorten(Made.as_wanted(part), float(shop.kerf) / 2))


def both_ends(part: Part, shop: Shop) -> Cases:
    made = Made.as_wanted(part)
    for words, lost in (("the whole kerf at both ends", float(shop.kerf)), ("half the kerf at both ends", float(shop.kerf) / 2)):
        yield Case(words, replace(made, start=lost, stop=made.stop - lost))


def no_allowance(part: Part, shop: Shop) -> Cases:
    yield Case("at one end", shorten(Made.as_wanted(part), float(shop.allowance)))
    yield Case("at both ends", shorten(Made.as_wanted(part), 2 * float(shop.allowance)))


def allowance_left(part: Part, shop: Shop) -> Cases:
    for words, times in (("left on at one end", 1), ("left on at both ends, or counted twice", 2)):
        yield Case(words, shorten(Made.as_wanted(part), -times * float(shop.allowance)))


def one_inch(part: Part, shop: Shop) -> Cases:
    made = Made.as_wanted(part)
    for step, words in ((-1.0, "an inch short"), (1.0, "an inch long")):
        if made.stop + step > 1:
            yield Case(f"length {words}", shorten(made, -step))
        for taper in made.tapers:
            new = _line(made, taper, taper.at_toe + step, _left(made, taper))
            if new is not None:
                yield Case(f"run of {_where(taper)} {words}", _with_taper(made, taper, new))
        if made.holes and all(0 < hole.x + step < made.stop for hole in made.holes):
            yield Case(f"holes {words}", replace(made, holes=tuple(replace(h, x=h.x + step) for h in made.holes)))


def _misread(value: float) -> Iterator[tuple[float, str]]:
    """What a fraction may be misread as: sixteenths beside it, twice or half its fraction."""
    for n in (-4, -3, -2, -1, 1, 2, 3, 4):
        yield value + n * SIXTEENTH, f"{abs(n)}/16 {'less' if n < 0 else 'more'}"
    whole, rest = divmod(value, 1.0)
    if rest:
        yield whole + rest / 2, "the fraction halved"
        if rest <= 0.5:
            yield whole + 2 * rest, "the fraction doubled"


def misread(part: Part, shop: Shop) -> Cases:
    made = Made.as_wanted(part)
    for value, words in _misread(made.stop):
        yield Case(f"length, {words}", shorten(made, made.stop - value))
    for taper in made.tapers:
        left = _left(made, taper)
        for value, words in _misread(taper.at_toe):
            new = _line(made, taper, value, left)
            if new is not None:
                yield Case(f"run of {_where(taper)}, {words}", _with_taper(made, taper, new))
        for value, words in _misread(left):
            new = _line(made, taper, taper.at_toe, value)
            if left > 1e-9 and new is not None:
                yield Case(f"width left of {_where(taper)}, {words}", _with_taper(made, taper, new))
    for index, hole in enumerate(made.holes):
        for value, words in _misread(hole.x):
            if 0 < value < made.stop:
                yield Case(f"x of hole {index + 1}, {words}", _with_hole(made, index, replace(hole, x=value)))
        for value, words in _misread(hole.y):
            if 0 < value < float(part.section.leg(hole.leg)):
                yield Case(f"y of hole {index + 1}, {words}", _with_hole(made, index, replace(hole, y=value)))


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
            if taper.width_left >= part.section.leg(leg) or part.taper_at(leg, taper.end):
                return
            moved.append(replace(taper, leg=leg))
        yield Case("taper on the other leg", _of_part(part, replace(part, tapers=tuple(moved), holes=part.holes, hand=None)))
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


# --- marks ------------------------------------------------------------------------------------------------
def from_inside(part: Part, shop: Shop) -> Cases:
    made = Made.as_wanted(part)
    for leg in LEGS:
        t, r = float(part.section.thickness(other_leg(leg))), float(part.section.fillet)
        for by, words in ((t, "from the inside face"), (t + r, "from the fillet's edge")):
            if any(hole.leg == leg for hole in made.holes):
                holes = tuple(replace(h, y=h.y + by) if h.leg == leg else h for h in made.holes)
                if all(h.y < float(part.section.leg(h.leg)) for h in holes):
                    yield Case(f"holes of leg {leg} {words}", replace(made, holes=holes))
            if by == t + r and not r:
                break
    for taper in made.tapers:
        new = _line(made, taper, taper.at_toe, _left(made, taper) + float(part.section.thickness(other_leg(taper.leg))))
        if new is not None:
            yield Case(f"width left of {_where(taper)}", _with_taper(made, taper, new))


def inside_corner(part: Part, shop: Shop) -> Cases:
    made = Made.as_wanted(part)
    for taper in made.tapers:
        t = float(part.section.thickness(other_leg(taper.leg)))
        if _left(made, taper) < t:
            new = _line(made, taper, taper.at_toe, t)
            if new is not None:
                yield Case(_where(taper), _with_taper(made, taper, new))


def wrong_side(part: Part, shop: Shop) -> Cases:
    made = Made.as_wanted(part)
    for taper in made.tapers:
        yield Case(_where(taper), _with_taper(made, taper, taper.shifted(float(shop.kerf) / sin(atan(1 / taper.slope)))))


def drifted(part: Part, shop: Shop) -> Cases:
    made = Made.as_wanted(part)
    for taper in made.tapers:
        angle, left = atan(1 / taper.slope), _left(made, taper)
        height = float(part.section.leg(taper.leg)) - left
        for degree in (-6, -5, -4, -3, -2, -1.5, 1.5, 2, 3, 4, 5, 6):
            turned = angle + radians(degree)
            if not 0.02 < turned < 1.5:
                continue
            yield Case(f"{_where(taper)}, from the toe, {degree:+g} degrees", _with_taper(made, taper, replace(taper, slope=1 / tan(turned))))
            # From the end: the height there is right, the toe is missed.
            run = height / tan(turned)
            if run < made.stop:
                yield Case(
                    f"{_where(taper)}, from the end, {degree:+g} degrees",
                    _with_taper(made, taper, replace(taper, at_toe=run, slope=1 / tan(turned))),
                )


def tilted(part: Part, shop: Shop) -> Cases:
    made = Made.as_wanted(part)
    for taper in made.tapers:
        t = float(part.section.thickness(taper.leg))
        for degree in (-15, -12, -9, -6, -4, 4, 6, 9, 12, 15):
            new = replace(taper, tilt=t * tan(radians(degree)))
            yield Case(f"{_where(taper)}, {degree:+g} degrees", _with_taper(made, taper, new))


def datum_dressed(part: Part, shop: Shop) -> Cases:
    made = Made.as_wanted(part)
    for n in (1, 2, 3, 4, 6):
        yield Case(f"by {n}/32", replace(made, start=n / 32))


def wrong_end(part: Part, shop: Shop) -> Cases:
    made = Made.as_wanted(part)
    for index, hole in enumerate(made.holes):
        if abs(made.stop - 2 * hole.x) > 1e-9:
            yield Case(f"hole {index + 1}", _with_hole(made, index, replace(hole, x=made.stop - hole.x)))
    if len(made.holes) > 1:
        yield Case("all holes", replace(made, holes=tuple(replace(h, x=made.stop - h.x) for h in made.holes)))


def wrong_pitch(part: Part, shop: Shop) -> Cases:
    made = Made.as_wanted(part)
    order = sorted(range(len(made.holes)), key=lambda i: made.holes[i].x)
    if len(order) < 2:
        return
    for n in (-4, -3, -2, -1, 1, 2, 3, 4):
        step = n / 64
        holes = list(made.holes)
        for place, index in enumerate(order):
            # The first hole is laid off from the end, so it carries one step's error already.
            holes[index] = replace(holes[index], x=holes[index].x + (place + 1) * step)
        yield Case(f"{n:+d}/64 a step", replace(made, holes=tuple(holes)))


def along_slope(part: Part, shop: Shop) -> Cases:
    made = Made.as_wanted(part)
    for taper in made.tapers:
        height = taper.at_toe / taper.slope
        if taper.at_toe > height:
            new = _line(made, taper, sqrt(taper.at_toe**2 - height**2), _left(made, taper))
            if new is not None:
                yield Case(_where(taper), _with_taper(made, taper, new))


def exchanged(part: Part, shop: Shop) -> Cases:
    made = Made.as_wanted(part)
    for taper in made.tapers:
        height = taper.at_toe / taper.slope
        new = _line(made, taper, height**2 / taper.at_toe, _left(made, taper))
        if new is not None and abs(new.at_toe - taper.at_toe) > 1e-6:
            yield Case(_where(taper), _with_taper(made, taper, new))


# --- metal ------------------------------------------------------------------------------------------------
def out_of_square(part: Part, shop: Shop) -> Cases:
    made = Made.as_wanted(part)
    for end in (1, 2):
        for degree in (-4, -3, -2, 2, 3, 4):
            slope = tan(radians(degree))
            for words, out in (("on leg A", (slope, 0.0)), ("on leg B", (0.0, slope)), ("on both, like senses", (slope, slope)), ("on both, opposite senses", (slope, -slope))):
                changed = replace(made, out_1=out) if end == 1 else replace(made, out_2=out)
                yield Case(f"end {end} {words}, {degree:+g} degrees", changed)


def over_filed(part: Part, shop: Shop) -> Cases:
    made = Made.as_wanted(part)
    for n in (1, 2, 3, 4):
        yield Case(f"leg A by {n}/32", replace(made, filed=(n / 32, 0.0)))
        yield Case(f"leg B by {n}/32", replace(made, filed=(0.0, n / 32)))


def wrong_section(part: Part, shop: Shop) -> Cases:
    s, sixteenth, quarter = part.section, Fraction(1, 16), Fraction(1, 4)
    wrong = [(f"{sign:+d}/16 thick", {"thickness_a": s.thickness_a + sign * sixteenth, "thickness_b": s.thickness_b + sign * sixteenth}) for sign in (1, -1)]
    wrong += [(f"{'+' if d > 0 else '-'}1/4 wide", {"leg_a": s.leg_a + d, "leg_b": s.leg_b + d}) for d in (quarter, -quarter)]
    for words, change in wrong:
        try:
            section = replace(s, **change)
        except BenchError:
            continue
        made = Made.as_wanted(part)
        tapers = []
        for taper in made.tapers:
            left, extra = _left(made, taper), float(section.leg(taper.leg) - s.leg(taper.leg))
            height = float(section.leg(taper.leg)) - left
            if height <= 0:
                break
            slope = taper.at_toe / height
            tapers.append(replace(taper, at_toe=taper.at_toe - extra * slope, slope=slope))
        else:
            yield Case(words, replace(made, section=section, tapers=tuple(tapers)))


def wrong_alloy(part: Part, shop: Shop) -> Cases:
    for digits in ALLOYS:
        if digits != part.alloy[:4]:
            yield Case(digits, replace(Made.as_wanted(part), alloy=digits))


def measured_hot(part: Part, shop: Shop) -> Cases:
    for kelvin in (20, 40, 60):
        yield Case(f"{kelvin} K warm", replace(Made.as_wanted(part), scale=1 - EXPANSION * kelvin))


def inch_for_mm(part: Part, shop: Shop) -> Cases:
    made, ratio = Made.as_wanted(part), 16 / 25.4
    for taper in made.tapers:
        new = _line(made, taper, taper.at_toe * ratio, _left(made, taper))
        if new is not None:
            yield Case(f"run of {_where(taper)}: 1 mm for 1/16", _with_taper(made, taper, new))
    yield Case("length: 1 mm for 1/16", shorten(made, made.stop * (1 - ratio)))
    if made.holes:
        yield Case("holes: 1 mm for 1/16", replace(made, holes=tuple(replace(h, x=h.x * ratio) for h in made.holes)))

