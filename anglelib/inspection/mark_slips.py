"""Slips with marks and with metal: heights, lines, the saw, holes, squareness, the stock, the unit.

The model of the work is that of :mod:`anglelib.inspection.slips`.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from math import atan, ceil, radians, sin, sqrt, tan

from anglelib.alloy import ALLOYS
from anglelib.errors import BenchError
from anglelib.geometry.allowance import EXPANSION
from anglelib.inspection.made import Made
from anglelib.inspection.slips import Case, Cases, both_signs, left_by, relaid, shortened, steps, where, with_cope, with_hole, with_taper
from anglelib.job import Shop
from anglelib.lengths import fine, own
from anglelib.part import Part
from anglelib.section import LEGS, other_leg

SIXTEENTH = Fraction(1, 16)
"""A graduation of a rule that is taken for a millimetre, or miscounted [in]."""


# --- marks ------------------------------------------------------------------------------------------------
def from_inside(part: Part, shop: Shop) -> Cases:
    made = Made.as_wanted(part)
    for leg in LEGS:
        t, r = float(part.section.thickness(other_leg(leg))), float(part.section.fillet)
        for by, words, weight in ((t, "from the inside face", 1.0), (t + r, "from the fillet's edge", 0.5)):
            if any(hole.leg == leg for hole in made.holes):
                holes = tuple(replace(h, y=h.y + by) if h.leg == leg else h for h in made.holes)
                if all(h.y < float(part.section.leg(h.leg)) for h in holes):
                    yield Case(f"holes of leg {leg} {words}", replace(made, holes=holes), weight, f"holes-{leg}")
            if by == t + r and not r:
                break
    for taper in made.tapers:
        new = relaid(made, taper, taper.at_toe, left_by(made, taper) + float(part.section.thickness(other_leg(taper.leg))))
        if new is not None:
            yield Case(f"width left of {where(taper)}", with_taper(made, taper, new))
    for cope in made.copes:
        left = cope.left + float(part.section.thickness(other_leg(cope.leg)))
        yield Case(f"width left of the cope of {where(cope)}", with_cope(made, cope, left=left))


def inside_corner(part: Part, shop: Shop) -> Cases:
    made = Made.as_wanted(part)
    for taper in made.tapers:
        t = float(part.section.thickness(other_leg(taper.leg)))
        if left_by(made, taper) < t:
            new = relaid(made, taper, taper.at_toe, t)
            if new is not None:
                yield Case(where(taper), with_taper(made, taper, new))


def wrong_side(part: Part, shop: Shop) -> Cases:
    made = Made.as_wanted(part)
    for taper in made.tapers:
        yield Case(where(taper), with_taper(made, taper, taper.shifted(float(shop.kerf) / sin(atan(1 / taper.slope)))))


def drifted(part: Part, shop: Shop) -> Cases:
    made = Made.as_wanted(part)
    for taper in made.tapers:
        angle, left = atan(1 / taper.slope), left_by(made, taper)
        height = float(part.section.leg(taper.leg)) - left
        # The flatter the taper, the farther a degree moves its toe mark.
        moved = radians(6 - 1.5) * height / sin(angle) ** 2
        for degree in both_signs(steps(1.5, 6, min(30, max(9, ceil(moved / 0.025))))):
            turned = angle + radians(degree)
            if not 0.02 < turned < 1.5:
                continue
            new = replace(taper, slope=1 / tan(turned))
            yield Case(f"{where(taper)}, from the toe, {degree:+.1f} degrees", with_taper(made, taper, new), way="toe", amount=degree)
            # From the end: the height there is right, the toe is missed.
            run = height / tan(turned)
            if run < made.stop:
                new = replace(taper, at_toe=run, slope=1 / tan(turned))
                yield Case(f"{where(taper)}, from the end, {degree:+.1f} degrees", with_taper(made, taper, new), way="end", amount=degree)


def tilted(part: Part, shop: Shop) -> Cases:
    made = Made.as_wanted(part)
    for taper in made.tapers:
        for degree in both_signs(steps(3, 15, 12)):
            new = replace(taper, tilt=tan(radians(degree)))
            yield Case(f"{where(taper)}, {degree:+.1f} degrees", with_taper(made, taper, new), amount=degree)


def datum_dressed(part: Part, shop: Shop) -> Cases:
    made = Made.as_wanted(part)
    for lost in steps(1 / 32, 6 / 32, 15):
        yield Case(f"by {fine(lost)}", replace(made, start=lost), amount=lost)


def wrong_end(part: Part, shop: Shop) -> Cases:
    made = Made.as_wanted(part)
    for index, hole in enumerate(made.holes):
        if abs(made.stop - 2 * hole.x) > 1e-9:
            yield Case(f"hole {index + 1}", with_hole(made, index, replace(hole, x=made.stop - hole.x)))
    if len(made.holes) > 1:
        yield Case("all holes", replace(made, holes=tuple(replace(h, x=made.stop - h.x) for h in made.holes)))


def wrong_pitch(part: Part, shop: Shop) -> Cases:
    made = Made.as_wanted(part)
    every = [[i for i, hole in enumerate(made.holes) if hole.leg in legs] for legs in (LEGS, "A", "B")]
    for number, row in enumerate(every):
        if len(row) < 2 or (number and len(row) == len(made.holes)):
            continue
        order = sorted(row, key=lambda i: made.holes[i].x)
        # The first hole is laid off from the end like the others, or is right and the next ones are stepped off from it.
        for first, words in ((1, "from the end on"), (0, "from the first hole on")):
            for step in both_signs(steps(1 / 64, 4 / 64, 8)):
                holes = list(made.holes)
                for place, index in enumerate(order):
                    holes[index] = replace(holes[index], x=holes[index].x + (place + first) * step)
                yield Case(f"{'+' if step > 0 else '-'}{fine(abs(step))} a step {words}", replace(made, holes=tuple(holes)), amount=step)


def along_slope(part: Part, shop: Shop) -> Cases:
    made = Made.as_wanted(part)
    for taper in made.tapers:
        height = taper.at_toe / taper.slope
        if taper.at_toe > height:
            new = relaid(made, taper, sqrt(taper.at_toe**2 - height**2), left_by(made, taper))
            if new is not None:
                yield Case(where(taper), with_taper(made, taper, new))


def exchanged(part: Part, shop: Shop) -> Cases:
    made = Made.as_wanted(part)
    for taper in made.tapers:
        height = taper.at_toe / taper.slope
        new = relaid(made, taper, height**2 / taper.at_toe, left_by(made, taper))
        if new is not None and abs(new.at_toe - taper.at_toe) > 1e-6:
            yield Case(where(taper), with_taper(made, taper, new))


# --- metal ------------------------------------------------------------------------------------------------
def out_of_square(part: Part, shop: Shop) -> Cases:
    made = Made.as_wanted(part)
    for end in (1, 2):
        for degree in both_signs(steps(1.5, 4, 6)):
            slope = tan(radians(degree))
            ways = (
                ("A", "on leg A", (slope, 0.0)), ("B", "on leg B", (0.0, slope)),
                ("like", "on both, like senses", (slope, slope)), ("opposite", "on both, opposite senses", (slope, -slope)),
            )  # fmt: skip
            for way, words, out in ways:
                changed = replace(made, out_1=out) if end == 1 else replace(made, out_2=out)
                yield Case(f"end {end} {words}, {degree:+.1f} degrees", changed, way=f"{end}-{way}", amount=degree)


def over_filed(part: Part, shop: Shop) -> Cases:
    made = Made.as_wanted(part)
    for lost in steps(1 / 32, 4 / 32, 14):
        yield Case(f"leg A by {fine(lost)}", replace(made, filed=(lost, 0.0)), way="A", amount=lost)
        yield Case(f"leg B by {fine(lost)}", replace(made, filed=(0.0, lost)), way="B", amount=lost)


def wrong_section(part: Part, shop: Shop) -> Cases:
    s, sixteenth, quarter = part.section, SIXTEENTH, Fraction(1, 4)
    wrong = [(f"{'+' if sign > 0 else '-'}{own(sixteenth)} thick", {"thickness_a": s.thickness_a + sign * sixteenth, "thickness_b": s.thickness_b + sign * sixteenth}) for sign in (1, -1)]
    wrong += [(f"{'+' if d > 0 else '-'}{own(quarter)} wide", {"leg_a": s.leg_a + d, "leg_b": s.leg_b + d}) for d in (quarter, -quarter)]
    for words, change in wrong:
        try:
            section = replace(s, **change)
        except BenchError:
            continue
        made = Made.as_wanted(part)
        tapers = []
        for taper in made.tapers:
            left, extra = left_by(made, taper), float(section.leg(taper.leg) - s.leg(taper.leg))
            height = float(section.leg(taper.leg)) - left
            if height <= 0:
                break
            slope = taper.at_toe / height
            tapers.append(replace(taper, at_toe=taper.at_toe - extra * slope, slope=slope))
        else:
            yield Case(words, replace(made, section=section, tapers=tuple(tapers)))


def wrong_alloy(part: Part, shop: Shop) -> Cases:
    known = ALLOYS.get(part.alloy[:4])
    # Lengths fit all alike; the one that a weighing tells best stands for them.
    for digits in sorted(ALLOYS, key=lambda digits: -abs(ALLOYS[digits].density - known.density) if known else 0):
        if digits != part.alloy[:4]:
            yield Case(digits, replace(Made.as_wanted(part), alloy=digits), way=digits)


def measured_hot(part: Part, shop: Shop) -> Cases:
    for kelvin in steps(20, 60, 8):
        yield Case(f"{kelvin:.0f} K warm", replace(Made.as_wanted(part), scale=1 - EXPANSION * kelvin), amount=kelvin)


def inch_for_mm(part: Part, shop: Shop) -> Cases:
    made, ratio = Made.as_wanted(part), 16 / 25.4
    for taper in made.tapers:
        new = relaid(made, taper, taper.at_toe * ratio, left_by(made, taper))
        if new is not None:
            yield Case(f"run of {where(taper)}: 1 mm for {own(SIXTEENTH)}", with_taper(made, taper, new))
    yield from shortened(f"length: 1 mm for {own(SIXTEENTH)}", made, made.stop * (1 - ratio))
    for cope in made.copes:
        yield Case(f"cope of {where(cope)}: 1 mm for {own(SIXTEENTH)}", with_cope(made, cope, length=cope.length * ratio))
    if made.holes:
        yield Case(f"holes: 1 mm for {own(SIXTEENTH)}", replace(made, holes=tuple(replace(h, x=h.x * ratio) for h in made.holes)))

