"""The section along x: a leg over the curve of the metal that a square cut would meet, and the weight that a taper saves.

>>> from anglelib.section import Section
>>> from anglelib.part import Hole, Taper
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> cleat = Part("A1L", "Floor cleat, left", stock, "6061-T6", "2 1/8", [Taper("A", 1, "3/8", run="1 1/4")], [Hole("A", "1 7/16", "7/16", "1/8")])
>>> print(along_sheet(Along(cleat, Fraction(1, 2))).sentence)
Floor cleat, 2 1/8 long: the section is 0.175 in2 where it is whole. At x = 1/2 (0.500) 0.147 in2 is left. Least: 0.128 in2 near x = 0. The taper of leg A saves 1.3 of 16.5 grams. Every dip is a hole, on either leg. Geometry only: what it carries is the plans' business.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache

from anglelib.drawing.outer_view import direction
from anglelib.drawing.sheet import Item, Label, Line, Polyline, Sheet
from anglelib.drawing.symbols import hole as hole_sign
from anglelib.geometry.along import section_at
from anglelib.geometry.leg_shape import LegShape
from anglelib.geometry.solid import solid_of
from anglelib.geometry.taper import taper_lines
from anglelib.geometry.weighing import POUND
from anglelib.lengths import area, area_sign, both, exact, show, unit_written
from anglelib.part import Part

WIDTH, HEIGHT = 234.0, 116.0
LETTER = 3.5
LEFT, RIGHT = 32.0, 212.0
BASE, TALL, HEEL = 14.0, 46.0, 108.0


@dataclass(frozen=True)
class Along:
    """A part, and the place along it that is looked at [in]."""

    part: Part
    at: Fraction

    @property
    def leg(self) -> str:
        """The tapered leg."""
        return next((line.leg for line in taper_lines(self.part)), "A")

    def saved(self) -> tuple[float, float]:
        """What the tapers save, and what the part weighs without them [g]."""
        return _saved(self.part)

    def curve(self) -> tuple[tuple[float, float], ...]:
        """(x, area) [in, in2] from end to end wherever it bends, finer across every hole; in the fillet to the width of a line."""
        return _curve(self.part)


# Kept, since moving along a part changes none of these.
@lru_cache(maxsize=32)
def _grams(part: Part) -> float:
    return solid_of(part).weight(part.alloy) * float(POUND)


@lru_cache(maxsize=32)
def _saved(part: Part) -> tuple[float, float]:
    cut = replace(part, holes=(), hand=None, mirror_of="")
    heavy = _grams(replace(cut, tapers=(), name="whole"))
    return heavy - _grams(cut), heavy


@lru_cache(maxsize=32)
def _curve(part: Part) -> tuple[tuple[float, float], ...]:
    """The whole section where it bends, straight between; every hole takes its chord times the leg's thickness."""
    long, places, rims = float(part.length), {0.0, float(part.length)}, set()
    for line in taper_lines(part):
        root = line.other_thickness + part.section.fillet
        heights = (line.width, root, root - part.section.fillet / 2, line.other_thickness, line.other_thickness / 2)
        bends = {float(line.at(height)) for height in heights if height > line.width_left}
        places |= {x if line.end == 1 else long - x for x in bends if 0 < x < long}
    for hole in part.holes:
        rims |= {float(hole.x) + float(hole.diameter) / 2 * step for step in (-1, -0.95, -0.6, 0, 0.6, 0.95, 1)}
    whole = [(x, section_at(part, x, net=False).area) for x in sorted(places)]
    shapes = [(LegShape.of(part, leg), float(part.section.thickness(leg))) for leg in ("A", "B")]
    found = []
    for x in sorted(places | {x for x in rims if 0 < x < long}):
        (x0, a0), (x1, a1) = next(pair for pair in zip(whole, whole[1:]) if pair[0][0] <= x <= pair[1][0])
        gone = sum(thick * max(0.0, min(high, shape.height(x)) - low) for shape, thick in shapes for low, high in shape.gaps_at(x))
        found.append((x, a0 + (a1 - a0) * (x - x0) / (x1 - x0) - gone))
    return tuple(found)


def along_sheet(view: Along, answer: bool = True, few: bool = False) -> Sheet:
    """The leg above; under it, once it may show, the area that is left at every x."""
    part = view.part
    unit = min((RIGHT - LEFT) / float(part.length), 34.0 / float(part.section.leg(view.leg)))
    curve = view.curve() if answer else ()
    items: list[Item] = [*_leg(view, unit)]
    full, right = part.section.area, LEFT + float(part.length) * unit
    up = TALL / full
    items += [Line(LEFT, BASE, right, BASE, "narrow"), Line(LEFT, BASE, LEFT, BASE + TALL + 3, "narrow")]
    items.append(Line(LEFT, BASE + TALL, right, BASE + TALL, "blank"))
    items.append(Label(LEFT - 2, BASE + TALL, area(full), LETTER, "end", "middle"))
    x = LEFT + float(view.at) * unit
    if answer:
        items.append(Polyline(tuple((LEFT + at * unit, BASE + metal * up) for at, metal in curve), "outline"))
        here = section_at(part, float(view.at)).area
        items.append(Line(x, BASE, x, HEEL + 3, "fine-mark", True))
        side = "start" if x < (LEFT + right) / 2 else "end"
        items.append(Label(x + (3 if side == "start" else -3), BASE + 5, f"{area(here)} {area_sign()} at {exact(view.at)}", LETTER, side, "middle", halo=True, accent=True))
    if not few:
        items.append(Label(LEFT, 4, f"metal that a square cut meets, {area_sign()}, along the part", LETTER, "start"))
        items.append(Label(LEFT - 2, BASE, "0", LETTER, "end", "middle"))
        items.append(Label(LEFT - 2, HEEL, "end 1", LETTER, "end", "middle"))
    if answer and not few:
        saved, _ = view.saved()
        items.append(Label(WIDTH - 3, 4, f"weight saved {saved:.1f} g", LETTER, "end"))
    return Sheet(WIDTH, HEIGHT, tuple(items), "The section along the part", along_sentence(view, answer, curve))


def _leg(view: Along, unit: float) -> list[Item]:
    """The tapered leg, heel at the top for leg A, with its holes."""
    part, shape = view.part, LegShape.of(view.part, view.leg)
    up = direction(view.leg)
    wide = shape.width * unit
    heel = HEEL if up < 0 else HEEL - wide
    places = sorted({0.0, float(part.length), *(float(one.run) if one.end == 1 else float(part.length - Fraction(one.run)) for one in taper_lines(part) if one.leg == view.leg)})
    places = [place for place in places if 0 <= place <= float(part.length)]
    points = [(LEFT, heel), *((LEFT + p * unit, heel + up * shape.height(p) * unit) for p in places), (LEFT + float(part.length) * unit, heel)]
    items: list[Item] = [Polyline(tuple(points), "outline", True)]
    for hole in part.holes_in(view.leg):
        items += hole_sign(LEFT + float(hole.x) * unit, heel + up * float(hole.y) * unit, float(hole.diameter) / 2 * unit)
    return items


def _near(x: float) -> str:
    return show(x) if unit_written() == "mm" else f"{x:.3g}"


def along_sentence(view: Along, answer: bool, curve: Sequence[tuple[float, float]]) -> str:
    """What the picture shows, in words."""
    part = view.part
    words = f"{part.name.split(',')[0]}, {exact(part.length)} long: the section is {area(part.section.area)} {area_sign()} where it is whole."
    if not answer:
        return f"{words} Where the least of it is left is not shown yet."
    here = section_at(part, float(view.at)).area
    x, least = min(curve, key=lambda place: place[1])
    saved, heavy = view.saved()
    return (
        f"{words} At x = {both(view.at)} {area(here)} {area_sign()} is left. Least: {area(least)} {area_sign()} near x = {_near(x)}. The taper of leg {view.leg} saves "
        f"{saved:.1f} of {heavy:.1f} grams. Every dip is a hole, on either leg. Geometry only: what it carries is the plans' business."
    )
