"""The area of metal along x: how much is left from end 1 to end 2, quick enough for a slider. Geometry, never strength.

>>> from anglelib.part import Part, Taper
>>> from anglelib.section import Section
>>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
>>> bracket = Part("C1L", "Bracket", stock, "6061-T6", "4 3/4", tapers=[Taper("A", 1, "1/4", run="2 1/8")])
>>> least_words(bracket)
'least 0.175 square inches of 0.300, at x = 0'
"""

from __future__ import annotations

from functools import lru_cache

from anglelib.drawing.sheet import Group, Item, Label, Line, Polyline, Sheet
from anglelib.geometry.along import limits, section_at
from anglelib.geometry.taper import taper_lines
from anglelib.lengths import about, area_word, exact, unit_written
from anglelib.lengths import area as written
from anglelib.part import Hole, Part, in_its_unit
from anglelib.section import other_leg

WIDTH, HEIGHT = 220.0, 100.0
LETTER = 3.5
_LEFT, _RIGHT, _LOW, _HIGH = 30.0, 210.0, 22.0, 82.0


@lru_cache(maxsize=64)
def areas(part: Part) -> tuple[tuple[float, float], ...]:
    """(x, area) [in], [in2] at every place where the area bends, and in the middle of every hole; straight between on the flat."""
    length, full = float(part.length), part.section.area
    cut = [(0.0, float(line.run)) if line.end == 1 else (length - float(line.run), length) for line in taper_lines(part)]
    cut += [(0.0, float(c.length)) if c.end == 1 else (length - float(c.length), length) for c in part.copes]
    cut += [(0.0, 2 * float(c.radius)) if c.end == 1 else (length - 2 * float(c.radius), length) for c in part.corners]
    places = {0.0, length}
    for line in taper_lines(part):
        knots = [float(line.run) * i / 3 for i in range(4)] + [float(v) for v in (line.first_flat, line.vertex_projection) if v is not None]
        places |= {x if line.end == 1 else length - x for x in knots}
    for cope in part.copes:
        reach = float(cope.length)
        places |= {abs((0.0 if cope.end == 1 else length) - v) for v in (reach - float(cope.radius), reach)}
    found = {x: _area(part, x) if any(low - 1e-9 <= x <= high + 1e-9 for low, high in cut) else full for x in places if 0 <= x <= length}
    for hole in part.holes:
        x, r = float(hole.x), float(hole.diameter) / 2
        if not _plain(part, hole, cut):
            found |= {x - r: section_at(part, x - r, net=False).area, x: section_at(part, x).area, x + r: section_at(part, x + r, net=False).area}
            continue
        found |= {x - r: full, x + r: full}
        found[x] = min(found.get(x, full), full) - 2 * r * float(part.section.thickness(hole.leg))
    return tuple(sorted(found.items()))


def _area(part: Part, x: float) -> float:
    """The area where no hole is: on the flat of a leg its taper takes a rectangle; elsewhere the whole section is integrated."""
    section, high = part.section, dict(zip("AB", limits(part, x), strict=True))
    taken = 0.0
    for leg in "AB":
        width, flat = float(section.leg(leg)), float(section.thickness(other_leg(leg)) + section.fillet)
        if high[leg] < width and (high[leg] < flat or section.toe_radius):
            return section_at(part, x, net=False).area
        taken += (width - min(high[leg], width)) * float(section.thickness(leg))
    return section.area - taken


def _plain(part: Part, hole: Hole, cut: list[tuple[float, float]]) -> bool:
    """Whether a hole is alone in its stretch, on the flat, and away from every cut."""
    section, x, r = part.section, float(hole.x), float(hole.diameter) / 2
    flat = float(section.thickness(other_leg(hole.leg)) + section.fillet)
    on_flat = float(hole.y) - r >= flat and float(hole.y) + r <= float(section.leg(hole.leg) - section.toe_radius)
    others = [o for o in part.holes if o is not hole and abs(float(o.x) - x) < r + float(o.diameter) / 2]
    return on_flat and not others and not any(low < x + r and x - r < high for low, high in cut)


def least(part: Part) -> tuple[float, float]:
    """(x, area) where the least metal is left [in], [in2]."""
    return min(areas(part), key=lambda at: (round(at[1], 9), at[0]))


@lru_cache(maxsize=64)
@in_its_unit
def least_words(part: Part) -> str:
    """The least section in words."""
    x, area = least(part)
    words = f"least {written(area)} {area_word()} of {written(part.section.area)}, at x = {_place(x)}"
    if area < 1e-6 and part.holes:  # a taper to the vertex leaves nothing at its end, which is no news
        found = dict(areas(part))
        hole = min(part.holes, key=lambda hole: (found[float(hole.x)], hole.x))
        words += f"; at a hole {written(found[float(hole.x)])}, at x = {exact(hole.x)}"
    return words


def _place(x: float) -> str:
    return about(x) if unit_written() == "mm" else f"{x:.3f}".rstrip("0").rstrip(".") or "0"


@in_its_unit
def area_sheet(part: Part, *, few: bool = False) -> Sheet:
    """The curve of the area over the part's length, the whole section dashed above it."""
    found, full, length = areas(part), part.section.area, float(part.length)
    x0, area = least(part)

    def at(x: float, value: float) -> tuple[float, float]:
        return _LEFT + (_RIGHT - _LEFT) * x / length, _LOW + (_HIGH - _LOW) * value / full

    curve = tuple(at(x, value) for x, value in found)
    items: list[Item] = [
        Line(_LEFT, _LOW, _RIGHT, _LOW, "narrow"),
        Line(_LEFT, _LOW, _LEFT, _HIGH + 3, "narrow"),
        Line(*at(0, full), *at(length, full), "hidden"),
        Line(*at(x0, 0), *at(x0, area), "dimension", True),
        Polyline(curve, "outline"),
        Label(_LEFT - 2, _HIGH, written(full), LETTER, "end", "middle"),
        Label(_LEFT - 2, _LOW, "0", LETTER, "end", "middle"),
    ]
    items += _words(part, few)
    return Sheet(WIDTH, HEIGHT, tuple(items), "The section along x", area_sentence(part))


def _words(part: Part, few: bool) -> Group:
    items: list[Item] = [Label(6, HEIGHT - 4, least_words(part), LETTER, "start", "top", accent=True)]
    items.append(Label(_LEFT, _LOW - 3, "end 1", LETTER, "start", "top"))
    items.append(Label(_RIGHT, _LOW - 3, f"end 2, {exact(part.length)}", LETTER, "end", "top"))
    if not few:
        items.append(Label(6, 4, f"area of metal square to the heel, in {area_word()}; holes as notches; geometry, not strength", 2.5, "start"))
    return tuple(items)


@in_its_unit
def area_sentence(part: Part) -> str:
    """What the picture shows, in words."""
    return f"Area of metal along {part.name} ({part.id}), {exact(part.length)} long: {least_words(part)}. Geometry, not strength."
