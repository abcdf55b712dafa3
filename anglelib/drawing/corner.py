"""The corner that is four places: a height across leg A, measured from the wrong one of them.

Leg A lies flat, leg B stands at its left. A hole is wanted so far from the heel; a rule laid at
another place puts it somewhere else.

>>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
>>> corner_sheet(stock, Fraction(11, 16), "inside-corner").sentence.split(". ")[-1]
'Measured from the inside corner it comes 13/16 (0.813) from the heel: 1/8 (0.125) too far.'
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from anglelib.drawing.dimensions import leader, linear_dimension
from anglelib.drawing.letters import text_width
from anglelib.drawing.outline import section_outline
from anglelib.drawing.sheet import Circle, Group, Hatch, Item, Label, Line, Point, Polyline, Sheet
from anglelib.lengths import both, exact
from anglelib.section import Section

WIDTH, HEIGHT = 234.0, 98.0
LETTER = 3.5
HEEL: Point = (50.0, 37.0)
LEG = 140.0
"""How wide leg A is drawn, whatever its size [mm]."""
STANDING = 52.0
"""How much of leg B is drawn [mm]."""
RULE = 44.0
"""How high over the heel the wrong measure is drawn [mm]."""

PLACES = {"heel": "the heel", "inside-corner": "the inside corner", "fillet-edge": "the fillet's edge", "toe": "the toe"}
"""Where somebody may lay the end of a rule to measure across leg A, by id, in words."""
HEEL_PLACE, CORNER_PLACE, EDGE_PLACE, TOE_PLACE = PLACES


def lands(section: Section, y: Fraction, place: str) -> Fraction:
    """How far from the heel a height comes out that was measured across leg A from a place [in].

    >>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
    >>> [str(lands(stock, Fraction(11, 16), place)) for place in PLACES]
    ['11/16', '13/16', '15/16', '9/16']
    """
    t, r = section.thickness("B"), section.fillet
    return {HEEL_PLACE: y, CORNER_PLACE: y + t, EDGE_PLACE: y + t + r, TOE_PLACE: section.leg_a - y}[place]


def off(section: Section, y: Fraction, place: str) -> str:
    """By how much a measure from a place is wrong, in words; "" where it is right."""
    error = lands(section, y, place) - y
    return "" if not error else f"{both(abs(error))} too {'far' if error > 0 else 'near'}"


@dataclass(frozen=True)
class Measured:
    """What the picture shows: ``answer``, whether the hole and where it comes out are drawn;
    ``prediction`` [in] from the heel, kept as a ghost; ``few`` labels, for a projector."""

    answer: bool = True
    prediction: Fraction | None = None
    few: bool = False


def corner_sheet(section: Section, y: Fraction, place: str, shown: Measured = Measured()) -> Sheet:
    """The section with its four places, the hole that is wanted, and the one that a rule at ``place`` gives."""
    unit = LEG / float(section.leg_a)
    items: list[Item] = [*_metal(section, unit)]
    if shown.answer:
        items += _holes(section, y, place, unit)
    if shown.prediction is not None:
        items += _ghost(section, shown.prediction, unit)
    items += _names(section, place, unit, shown.few)
    return Sheet(WIDTH, HEIGHT, tuple(items), "Four corners", corner_sentence(section, y, place, shown))


def _at(unit: float, y: float, z: float) -> Point:
    return HEEL[0] + y * unit, HEEL[1] + z * unit


def _metal(section: Section, unit: float) -> Group:
    """The section; leg B is broken off."""
    top = STANDING / unit
    ta, tb, a = float(section.thickness_a), float(section.thickness("B")), float(section.leg_a)
    points = [_at(unit, y, min(z, top)) for y, z in section_outline(section) if z < top or y <= tb]
    inside = [_at(unit, y, z) for y, z in section_outline(section) if tb <= y <= a and ta <= z < top]
    outline = (_at(unit, 0, top), _at(unit, 0, 0), _at(unit, a, 0), *inside, _at(unit, tb, top))
    left, right = _at(unit, 0, top), _at(unit, tb, top)
    return (
        Hatch(tuple(points), 45, 3.0),
        Polyline(outline, "outline"),
        Polyline(((left[0] - 2, left[1]), ((left[0] + right[0]) / 2, left[1] + 1.2), (right[0] + 2, right[1])), "break"),
        # where the inner faces would meet, inside the metal of the fillet
        *((Line(*_at(unit, tb, ta), *_at(unit, tb + float(section.fillet), ta), "hidden"),
           Line(*_at(unit, tb, ta), *_at(unit, tb, ta + float(section.fillet)), "hidden")) if section.fillet else ()),
    )  # fmt: skip


def _place(section: Section, place: str) -> tuple[float, float]:
    """A place on the section, (y, z) [in]."""
    ta, tb, r = float(section.thickness_a), float(section.thickness("B")), float(section.fillet)
    a = float(section.leg_a)
    return {HEEL_PLACE: (0, 0), CORNER_PLACE: (tb, ta), EDGE_PLACE: (tb + r, ta), TOE_PLACE: (a, ta)}[place]


def _names(section: Section, place: str, unit: float, few: bool) -> Group:
    """The four places by name; with few labels, those beside the one that is meant."""
    points = {place: _at(unit, *_place(section, place)) for place in PLACES}
    items: list[Item] = [Circle(*point, 1.0, "", "ink") for point in points.values()]
    heel, corner, edge, toe = points.values()
    items += leader(heel, (heel[0] - 8, heel[1] - 6), "heel", letter=LETTER, end="")
    items += leader(corner, (HEEL[0] - 8, HEEL[1] + 32), "inside corner", letter=LETTER, end="")
    if not few or place != TOE_PLACE:
        words = "fillet's edge" if section.fillet else "no fillet"
        items += leader(edge, (edge[0] + 7, HEEL[1] + 32), words, letter=LETTER, end="")
    if not few or place == TOE_PLACE:
        items += leader(toe, (toe[0] + 6, toe[1] + 6), "toe", letter=LETTER, end="")
    return tuple(items)


def _holes(section: Section, y: Fraction, place: str, unit: float) -> Group:
    """The hole that is wanted, and the one that the rule gives."""
    thick = float(section.thickness_a)
    wanted, got = float(y), float(lands(section, y, place))
    items: list[Item] = [_centre(unit, wanted, thick, False)]
    rows = (HEEL[1] - 13, HEEL[1] - 27)
    if got < wanted:  # the nearer row to the shorter reach: no line then runs through the other's figures
        rows = rows[::-1]
    items += linear_dimension(_at(unit, 0, 0), _at(unit, wanted, 0), rows[0], f"wanted {both(y)}", letter=LETTER)
    if place == HEEL_PLACE:
        return tuple(items)
    items.append(_centre(unit, got, thick, True))
    start = _at(unit, *_place(section, place))
    one, two = sorted((start, _at(unit, got, thick)))
    side = "start" if place == TOE_PLACE else "end"
    items += linear_dimension(one, two, HEEL[1] + RULE, f"measured {both(y)}", letter=LETTER, outside=side, accent=True)
    low, high = sorted((wanted, got))
    words = off(section, y, place)
    if words:
        items += linear_dimension(_at(unit, low, 0), _at(unit, high, 0), rows[1], words, letter=LETTER, accent=True)
    return tuple(items)


def _centre(unit: float, y: float, thick: float, accent: bool) -> Line:
    """A hole's centre line through leg A."""
    x, low = _at(unit, y, 0)
    return Line(x, low - 5, x, low + thick * unit + 5, "centre", accent)


def _ghost(section: Section, prediction: Fraction, unit: float) -> Group:
    """A predicted place of the hole, dotted."""
    a, thick = float(section.leg_a) * unit, float(section.thickness_a) * unit
    x = HEEL[0] + min(max(float(prediction) * unit, 0.0), a)
    row = HEEL[1] + thick + 7
    text = f"you: {exact(prediction)}"
    half = text_width(text, LETTER) / 2
    edge = HEEL[0] + float(section.thickness("B") + section.fillet) * unit
    middle = min(max(x, edge + half + 5), HEEL[0] + a - half - 4)
    lines = [Line(x, HEEL[1] - 5, x, row - 1, "ghost")]
    if abs(middle - x) > half - 1:
        lines.append(Line(x, row - 1, middle + (half if middle < x else -half), row + 1, "ghost"))
    return (*lines, Label(middle, row, text, LETTER, halo=True))


def corner_sentence(section: Section, y: Fraction, place: str, shown: Measured = Measured()) -> str:
    """What the picture shows, in words."""
    t, r = section.thickness("B"), section.fillet
    edge = f"the fillet's edge {exact(t + r)} from it" if r else "no fillet"
    words = (
        f"Angle {section.size}, leg A flat, leg B standing. Along leg A lie the heel, the inside corner {exact(t)} from it, "
        f"{edge}, and the toe {exact(section.leg_a)} from it."
    )
    if shown.prediction is not None:
        words += f" Your prediction is {both(shown.prediction)} from the heel."
    if not shown.answer:
        return f"{words} Where the hole comes out is not shown yet."
    if place == HEEL_PLACE:
        return f"{words} A hole is wanted {both(y)} from the heel, and measured from there it is where it should be."
    return (
        f"{words} A hole is wanted {both(y)} from the heel. Measured from {PLACES[place]} it comes {both(lands(section, y, place))} from "
        f"the heel: {off(section, y, place) or 'by chance where it should be'}."
    )

