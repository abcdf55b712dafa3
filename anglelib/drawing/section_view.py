"""The section: the L with its names and sizes.

>>> from anglelib.section import Section
>>> section_sheet(Section("3/4", "3/4", "1/8", fillet="1/8")).sentence
'Section 3/4 x 3/4 x 1/8, drawn 3:1: leg A 3/4 in. wide and 1/8 thick, leg B 3/4 wide and 1/8 thick, fillet radius 1/8.'
"""

from __future__ import annotations

import math
from fractions import Fraction

from anglelib.drawing.dimensions import leader, linear_dimension, upright_dimension
from anglelib.drawing.frame import FINE_SCALES, footer, largest_scale, scale_text
from anglelib.drawing.letters import text_width
from anglelib.drawing.outline import section_outline
from anglelib.drawing.sheet import Group, Hatch, Item, Label, Point, Sheet, move, polygon
from anglelib.lengths import exact, figure, spoken, to_mm, unit_word
from anglelib.section import Section


def section_shape(section: Section, unit: float, hatched: bool = True) -> Group:
    """The cut section, heel at the origin, leg A to the right and leg B up; ``unit`` is millimetres an inch."""
    points = tuple((y * unit, z * unit) for y, z in section_outline(section))
    items: list[Item] = [Hatch(points, 45, 2.0)] if hatched else []
    return (*items, polygon(points, "outline"))


def section_view(section: Section, scale: Fraction, heel: Point, right: float, *, names: bool = True, letter: float = 3.5) -> Group:
    """The section with its dimensions; ``names`` adds heel, toes, faces and fillet, in a column that starts at ``right``."""
    unit = 25.4 * float(scale)
    x0, y0 = heel
    a, b = float(section.leg_a) * unit, float(section.leg_b) * unit
    ta, tb = float(section.thickness_a) * unit, float(section.thickness("B")) * unit
    r, toe = float(section.fillet) * unit, float(section.toe_radius) * unit

    def p(y: float, z: float) -> Point:
        return x0 + y, y0 + z

    items: list[Item] = []
    items += move(section_shape(section, unit), x0, y0)
    far = 18.0 if names else 9.0
    items += linear_dimension(p(0, 0), p(a, 0), y0 - far, figure(section.leg_a), letter=letter)
    items += upright_dimension(p(0, 0), p(0, b), x0 - far, figure(section.leg_b), -1, letter)
    items += linear_dimension(p(0, b), p(tb, b), y0 + b + 6, figure(section.thickness("B")), letter=letter, outside="start")
    items += upright_dimension(p(a, 0), p(a, ta), x0 + a + 6, figure(section.thickness_a), 1, letter)
    if names:
        items += _names(section, p, (a, b, ta, tb, r, toe), right, letter)
    return tuple(items)


def _names(section: Section, p, sizes: tuple[float, ...], right: float, letter: float) -> Group:
    a, b, ta, tb, r, toe = sizes
    x0, y0 = p(0, 0)
    items: list[Item] = [
        Label(x0 + a / 2, y0 - 3.2, _fitting("A", a, letter), letter, "middle", "top"),
        Label(x0 - 3.2, y0 + b / 2, _fitting("B", b, letter), letter, "middle", "bottom", 90),
    ]
    round_toe, round_root = toe * (1 - math.sqrt(0.5)), r * (1 - math.sqrt(0.5))
    fillet = f"fillet, radius {figure(section.fillet)}" if r else "no fillet"
    notes = (
        (p(tb - round_toe, b - round_toe) if toe else p(tb, 0.94 * b), "toe of leg B"),
        (p(tb, 0.62 * b), "leg B, inner face"),
        (p(tb + round_root, ta + round_root), fillet),
        (p(0.72 * a, ta), "leg A, inner face"),
        (p(a - round_toe, ta - round_toe) if toe else p(0.97 * a, ta), "toe of leg A"),
    )
    low = y0 + ta + 5.5 + letter
    step = max(1.7 * letter, (b - 2 - (low - y0)) / (len(notes) - 1))
    for i, (tip, text) in enumerate(notes):
        items += leader(tip, (right - 4, low + (len(notes) - 1 - i) * step), text, letter=letter)
    items += leader(p(0, 0), (x0 - 8, y0 - 8), "heel", letter=letter)
    return tuple(items)


def _fitting(leg: str, room: float, letter: float) -> str:
    """The name of an outer face, shortened to its leg where the face is drawn too short for it."""
    name = f"leg {leg}, outer face"
    return name if text_width(name, letter) + 2 <= room else f"leg {leg}"


def section_sheet(section: Section, width: float = 200, height: float = 116, letter: float = 3.5) -> Sheet:
    """A sheet with the section, named and dimensioned."""
    scale = largest_scale((to_mm(section.leg_a), 0.385 * width), (to_mm(section.leg_b), height - 55), scales=FINE_SCALES)
    unit = 25.4 * float(scale)
    heel = (55.0, 35.0)
    right = min(heel[0] + float(section.leg_a) * unit + 22, width - 65)
    items = section_view(section, scale, heel, right, letter=letter)
    items += footer(width, f"section {section.size}, scale {scale_text(scale)}, dimensions in {unit_word()}", projection=False)
    return Sheet(width, height, items, f"Section {section.size}", section_sentence(section, scale))


def section_sentence(section: Section, scale: Fraction) -> str:
    """What the section's drawing shows, in words."""
    words = (
        f"Section {section.size}, drawn {scale_text(scale)}: leg A {spoken(section.leg_a)} wide and "
        f"{exact(section.thickness_a)} thick, leg B {exact(section.leg_b)} wide and {exact(section.thickness('B'))} thick, "
    )
    words += f"fillet radius {exact(section.fillet)}" if section.fillet else "no fillet"
    if section.toe_radius:
        words += f", toe radius {exact(section.toe_radius)}"
    return words + "."
