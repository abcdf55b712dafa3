"""Two sections that a caliper cannot tell apart: the same legs, the same thickness, another corner.

>>> plain, structural = Section("3/4", "3/4", "1/8"), Section("3/4", "3/4", "1/8", fillet="1/8")
>>> print(look_alikes_sheet(plain, structural, revealed=False).sentence)
Two pieces of angle on the bench, P and Q, seen on their ends. On both the caliper reads 3/4 (0.750) across each leg and 1/8 (0.125) through each. Neither has a mark.
>>> clue(plain), clue(structural)
('square inside: usually architectural', 'fillet 1/8: usually structural')
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from anglelib.drawing.dimensions import leader, linear_dimension, upright_dimension
from anglelib.drawing.outline import section_outline
from anglelib.drawing.sheet import Group, Hatch, Item, Label, Point, Sheet, polygon
from anglelib.lengths import both, decimal, exact
from anglelib.section import Section

WIDTH, HEIGHT = 216.0, 108.0
LETTER = 3.5
_LEG = 50.0
"""How wide the wider leg is drawn [mm]."""
_HEELS = ((34.0, 36.0), (134.0, 36.0))


def clue(section: Section) -> str:
    """What the inside of a section suggests: a clue, never proof."""
    return f"{_inside(section)}: {_suggests(section)}"


def _inside(section: Section, few: bool = False) -> str:
    """Its inside corner, and its toes where there is room for them."""
    if not section.fillet:
        return "square inside"
    toes = f", toes {exact(section.toe_radius)}" if section.toe_radius and not few else ""
    return f"fillet {exact(section.fillet)}{toes}"


def _suggests(section: Section) -> str:
    if not section.fillet:
        return "usually architectural"
    return "structural shape" if section.toe_radius else "usually structural"


@dataclass(frozen=True)
class Wanted:
    """What the plans ask for: the fillet [in] and the alloy; the legs and the thickness agree."""

    fillet: Fraction = Fraction(1, 8)
    alloy: str = "6061-T6"


def look_alikes_sheet(
    p: Section, q: Section, marks: tuple[str, str] = ("", ""), wanted: Wanted = Wanted(), *, revealed: bool = True, few: bool = False
) -> Sheet:
    """Both sections at one scale, with what the caliper reads; ``revealed`` adds what the corners suggest and what the marks prove.

    ``marks`` are what is printed on each stick, "" for nothing.
    """
    unit = _LEG / float(max(p.leg_a, p.leg_b, q.leg_a, q.leg_b))
    items: list[Item] = []
    for name, section, mark, heel in zip("PQ", (p, q), marks, _HEELS, strict=True):
        items += _piece(name, section, heel, unit, few, sized=not (few and revealed))
        if revealed:
            items += _clue(section, heel, unit, few)
            items.append(Label(heel[0] - 22, 6, f"{name}: {verdict(section, mark, wanted)}", LETTER, "start", accent=True))
    return Sheet(WIDTH, HEIGHT, tuple(items), "The same size twice", _sentence(p, q, marks, wanted, revealed))


def verdict(section: Section, mark: str, wanted: Wanted = Wanted()) -> str:
    """What the corner and the mark of a stick say together, beside what is wanted.

    >>> [verdict(Section("3/4", "3/4", "1/8", fillet=r), mark) for r, mark in (("1/8", "6061-T6"), ("0", "6061-T6"), ("1/8", "6063-T5"))]
    ['6061-T6, as the plans say', '6061-T6: NOT THIS SECTION', '6063-T5: NOT THIS ALLOY']
    """
    if not mark:
        return "no mark: NOT TO BE USED"
    if mark != wanted.alloy:
        return f"{mark}: NOT THIS ALLOY"
    return f"{mark}, as the plans say" if section.fillet == wanted.fillet else f"{mark}: NOT THIS SECTION"


def _piece(name: str, section: Section, heel: Point, unit: float, few: bool, sized: bool) -> Group:
    x0, y0 = heel
    a, b, tb = (float(v) * unit for v in (section.leg_a, section.leg_b, section.thickness("B")))
    points = tuple((x0 + y * unit, y0 + z * unit) for y, z in section_outline(section))
    items: list[Item] = [Hatch(points, 45, 2.0), polygon(points, "outline"), Label(x0 - 22, HEIGHT - 6, name, 5.0, "start", "top")]
    if not sized:
        return tuple(items)
    items += linear_dimension((x0, y0), (x0 + a, y0), y0 - 9, _said(section.leg_a, few), letter=LETTER)
    items += linear_dimension((x0, y0 + b), (x0 + tb, y0 + b), y0 + b + 6, _said(section.thickness("B"), few), letter=LETTER)
    if not few:
        items += upright_dimension((x0, y0), (x0, y0 + b), x0 - 9, both(section.leg_b), -1, LETTER)
    return tuple(items)


def _said(value, few: bool) -> str:
    return decimal(value) if few else both(value)


def _clue(section: Section, heel: Point, unit: float, few: bool) -> Group:
    """The corner pointed at."""
    k = float(section.fillet) * (1 - math.sqrt(0.5))
    tip = (heel[0] + (float(section.thickness("B")) + k) * unit, heel[1] + (float(section.thickness_a) + k) * unit)
    elbow = (tip[0] + 9, tip[1] + 16)
    items = list(leader(elbow=elbow, tip=tip, text=_inside(section, few), letter=LETTER, accent=True))
    if not few:
        items.append(Label(elbow[0] + 2.8, elbow[1] - 6.2, _suggests(section), LETTER, "start", "middle", accent=True))
    return tuple(items)


def _sentence(p: Section, q: Section, marks: tuple[str, str], wanted: Wanted, revealed: bool) -> str:
    size = f"{both(p.leg_a)} across each leg and {both(p.thickness_a)} through each"
    words = f"Two pieces of angle on the bench, P and Q, seen on their ends. On both the caliper reads {size}."
    if not revealed:
        return f"{words} {_printed(marks)}"
    for name, section, mark in zip("PQ", (p, q), marks, strict=True):
        words += f" {name} has a {clue(section)}." if section.fillet else f" {name} is {clue(section)}."
        words += f" On it is printed {verdict(section, mark, wanted)}." if mark else " It has no mark, so it is not to be used."
    return words


def _printed(marks: tuple[str, str]) -> str:
    if not any(marks):
        return "Neither has a mark."
    return " ".join(f"{name} carries the mark {mark}." if mark else f"{name} has no mark." for name, mark in zip("PQ", marks, strict=True))
