"""A round shank laid in the inside corner, as a gauge of the fillet: where it touches, and where light shows.

>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> light(stock, Fraction(3, 16)), light(stock, Fraction(1, 16)), light(stock, Fraction(1, 8))
('corner', 'both-sides', 'nowhere')
>>> print(radius_gauge_sheet(stock, Fraction(3, 16)).sentence)
The inside corner of angle 3/4 x 3/4 x 1/8, enlarged, a round shank of radius 3/16 laid in it. It touches both faces, and light shows in the corner, 0.026 in. wide: the fillet, 1/8, is smaller than the shank.
"""

from __future__ import annotations

import math
from fractions import Fraction

from anglelib.drawing.dimensions import leader
from anglelib.drawing.outline import section_outline
from anglelib.drawing.sheet import Circle, Group, Hatch, Item, Label, Line, Point, Polyline, Sheet, polygon
from anglelib.lengths import decimal, exact
from anglelib.section import Section

WIDTH, HEIGHT = 176.0, 112.0
LETTER = 3.5
_HEEL = (26.0, 20.0)
_ACROSS, _UP = 112.0, 80.0
"""How much of both legs is drawn [mm]."""
_UNIT = 120.0
"""Millimetres an inch."""


def light(section: Section, gauge: Fraction) -> str:
    """Where light shows behind a shank of radius ``gauge`` [in] laid in the corner: "corner", "both-sides" or "nowhere"."""
    if gauge == section.fillet:
        return "nowhere"
    return "corner" if gauge > section.fillet else "both-sides"


def gap(section: Section, gauge: Fraction) -> float:
    """How wide the light is at its widest [in]: in the corner behind a large shank, over each face beside a small one."""
    r, g = float(section.fillet), float(gauge)
    return (math.sqrt(2) - 1) * (g - r) if g > r else (1 - math.sqrt(0.5)) * (r - g)


def centre(section: Section, gauge: Fraction) -> Point:
    """Where the shank's middle comes to lie, across leg A and across leg B from the heel [in]."""
    r, g = float(section.fillet), float(gauge)
    away = g if g > r else r - (r - g) * math.sqrt(0.5)
    return float(section.thickness("B")) + away, float(section.thickness_a) + away


def radius_gauge_sheet(section: Section, gauge: Fraction, *, revealed: bool = True, few: bool = False) -> Sheet:
    """The corner with the shank in it; until it is revealed the fillet is not drawn."""
    items: list[Item] = [*_metal(section, revealed)]
    y, z = centre(section, gauge) if revealed else (float(section.thickness("B") + gauge), float(section.thickness_a + gauge))
    cx, cy = _at(y, z)
    radius = float(gauge) * _UNIT
    items += [Circle(cx, cy, radius, "outline"), Line(cx - 2, cy, cx + 2, cy, "narrow"), Line(cx, cy - 2, cx, cy + 2, "narrow")]
    rim = (cx + radius * 0.82, cy + radius * 0.57)
    items += leader(rim, (rim[0] + 9, rim[1] + 9), f"shank, radius {exact(gauge)}", letter=LETTER)
    if revealed:
        items += _light(section, gauge, (cx, cy), few)
        words = f"fillet {exact(section.fillet)}" if section.fillet else "square inside"
        items.append(Label(WIDTH - 6, 9, words, LETTER, "end", "middle"))
    else:
        corner = _at(float(section.thickness("B")), float(section.thickness_a))
        items += [Circle(corner[0] + 4, corner[1] + 4, 6.5, "narrow", "paper"), Label(corner[0] + 4, corner[1] + 4, "?", 5.0, "middle", "middle", halo=True)]
    return Sheet(WIDTH, HEIGHT, tuple(items), "A shank in the corner", _sentence(section, gauge, revealed))


def _at(y: float, z: float) -> Point:
    return _HEEL[0] + y * _UNIT, _HEEL[1] + z * _UNIT


def _metal(section: Section, fillet: bool) -> Group:
    """The corner of the section, both legs broken off."""
    far, top = _ACROSS / _UNIT, _UP / _UNIT
    ta, tb = float(section.thickness_a), float(section.thickness("B"))
    if fillet and section.fillet:
        inner = [p for p in section_outline(section) if tb <= p[0] <= tb + float(section.fillet) + 1e-9 and ta <= p[1] <= ta + float(section.fillet) + 1e-9]
    else:
        inner = [(tb, ta)]
    inside = [_at(far, ta), *(_at(*p) for p in inner), _at(tb, top)]
    ends = (_at(far, 0), _at(0, top))
    return (
        Hatch((_at(0, 0), ends[0], *inside, ends[1]), 45, 2.6),
        Polyline((ends[1], _at(0, 0), ends[0]), "outline"),
        Polyline(tuple(inside), "outline"),
        Polyline((ends[1], ((ends[1][0] + inside[-1][0]) / 2, ends[1][1] + 1.5), inside[-1]), "break"),
        Polyline((ends[0], (ends[0][0] + 1.5, (ends[0][1] + inside[0][1]) / 2), inside[0]), "break"),
    )


def _light(section: Section, gauge: Fraction, middle: Point, few: bool) -> Group:
    """Where the shank touches, dots; where light shows, in the accent and with its width."""
    cx, cy = middle
    r, g = float(section.fillet), float(gauge)
    k = math.sqrt(0.5)
    corner, left, low = (cx - k * g * _UNIT, cy - k * g * _UNIT), (cx - g * _UNIT, cy), (cx, cy - g * _UNIT)
    if g == r:
        return tuple(Circle(*p, 1.0, "", "ink") for p in (left, corner, low))
    words = "light" if few else f"light, {decimal(gap(section, gauge))}"
    wide = gap(section, gauge) * _UNIT
    if g > r:
        wedges = [_between(section, middle, g, 180, 270)]
        touching, tip = (left, low), (corner[0] - wide * k / 2, corner[1] - wide * k / 2)
    else:
        wedges = [_between(section, middle, g, 225, 270), _between(section, middle, g, 180, 225)]
        touching, tip = (corner,), (low[0], low[1] - wide / 2)
    return (
        *wedges,
        *(Circle(*p, 1.0, "", "ink") for p in touching),
        *leader(tip, (max(tip[0] + 10, 50.0), 9.0), words, letter=LETTER, end="", accent=True),
    )


def _between(section: Section, middle: Point, g: float, first: float, last: float) -> Polyline:
    """The light between two directions [deg] of the shank's rim, and the metal that it does not touch."""
    r = float(section.fillet)
    steps = range(11)
    rim = [_round(middle, g, first + (last - first) * i / 10) for i in steps]
    heart = _at(float(section.thickness("B")) + r, float(section.thickness_a) + r)
    if g < r:  # the rim ends over the fillet: up to the place that is level with its end
        over = math.degrees(math.asin(min(1.0, (r - g) * math.sqrt(0.5) / r)))
        first, last = (first, last - over) if last == 270 else (first + over, last)
    metal = [_round(heart, r, first + (last - first) * i / 10) for i in steps]
    return polygon([*rim, *reversed(metal)], "", "accent", True)


def _round(middle: Point, radius: float, turn: float) -> Point:
    return middle[0] + radius * _UNIT * math.cos(math.radians(turn)), middle[1] + radius * _UNIT * math.sin(math.radians(turn))


def _sentence(section: Section, gauge: Fraction, revealed: bool) -> str:
    words = f"The inside corner of angle {section.size}, enlarged, a round shank of radius {exact(gauge)} laid in it."
    if not revealed:
        return f"{words} It touches both faces; what the corner behind it looks like is not drawn."
    fillet = f"the fillet, {exact(section.fillet)}," if section.fillet else "the corner is square: it"
    where = light(section, gauge)
    if where == "nowhere":
        return f"{words} It touches all the way round: the fillet is {exact(section.fillet)}."
    wide = f"{decimal(gap(section, gauge))} in. wide"
    if where == "corner":
        return f"{words} It touches both faces, and light shows in the corner, {wide}: {fillet} is smaller than the shank."
    return f"{words} It touches in the corner, and light shows over both faces, {wide}: {fillet} is larger than the shank."
