"""Angles of a taper: a protractor with both its scales, the four places a taper may have, taper per foot.

>>> from anglelib.part import Taper
>>> from anglelib.section import Section
>>> line = TaperLine.of(Section("1 1/2", "1 1/2", "3/16", fillet="3/16"), Taper("B", 1, "9/16", run="2 7/8"))
>>> print(protractor_sheet(line).sentence)
A protractor on the line of leg B: it reads 18.1 degrees from the heel and 71.9 from square, together 90.
>>> print(foot_sheet(Fraction(6)).sentence)
Two tapers of 6 in a foot. On a leg one side slopes: 26.57 degrees from the heel. On round work both sides slope, and the angle between them is 28.07 degrees.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction

from anglelib.drawing.dimensions import angle_dimension, linear_dimension
from anglelib.drawing.outer_view import direction
from anglelib.drawing.sheet import Arc, Circle, Group, Item, Label, Line, Point, Polyline, Sheet
from anglelib.drawing.symbols import datum_sign, zigzag
from anglelib.geometry.lazy import formulas
from anglelib.geometry.taper import TaperLine
from anglelib.lengths import exact

WIDTH, HEIGHT = 226.0, 100.0
LETTER = 3.5
FOOT: Point = (62.0, 18.0)
RADIUS = 62.0
PLACES = (("A", 1), ("A", 2), ("B", 1), ("B", 2))
NAMES = ("P", "Q", "R", "S")


# --- the protractor ---------------------------------------------------------------------------------------
def protractor_sheet(line: TaperLine, *, answer: bool = True, prediction: Fraction | None = None, few: bool = False) -> Sheet:
    """A quarter of a dial on the end and the heel, the blade along the line; both readings of one angle."""
    angle = line.angle
    items: list[Item] = [
        Line(FOOT[0], FOOT[1], FOOT[0] + RADIUS + 18, FOOT[1], "outline"),
        Line(FOOT[0], FOOT[1], FOOT[0], FOOT[1] + RADIUS + 14, "outline"),
        Arc(*FOOT, RADIUS, 0, 90, "narrow"),
    ]
    for tick in range(0, 91, 5):
        a = math.radians(tick)
        deep = 4.0 if tick % 15 == 0 else 2.0
        items.append(_ray(a, RADIUS - deep, RADIUS))
    a = math.radians(angle)
    items += [_ray(a, 0, RADIUS + 10, "mark", True), Circle(*FOOT, 1.1, "", "accent", True)]
    items.append(Label(FOOT[0] + RADIUS + 20, FOOT[1], "along the heel", LETTER, "start", "middle"))
    items.append(Label(FOOT[0] - 3, FOOT[1] + RADIUS + 8, "square", LETTER, "end", "middle"))
    items += _reading(0, angle, 34, f"{angle:.1f}°", False)
    if answer:
        items += _reading(angle, 90, 22, f"{90 - angle:.1f}°", True)
        for x, text, accent in ((150.0, "from the heel", False), (150.0, "from square", True)):
            value = 90 - angle if accent else angle
            items.append(Label(x, 62 if accent else 74, f"{text}: {value:.1f}°", LETTER, "start", "middle", accent=accent))
        if not few:
            items.append(Label(150, 50, "together: 90°", LETTER, "start", "middle"))
    if prediction is not None:
        a = math.radians(90 - min(max(float(prediction), 0.0), 90.0))
        items.append(_ray(a, 6, RADIUS + 4, "ghost"))
        items.append(Label(150, 38, f"you: {float(prediction):.1f}° from square", LETTER, "start", "middle"))
    return Sheet(WIDTH, HEIGHT, tuple(items), "One angle, two readings", protractor_sentence(line, answer, prediction))


def _ray(a: float, start: float, end: float, kind: str = "narrow", accent: bool = False) -> Line:
    c, s = math.cos(a), math.sin(a)
    return Line(FOOT[0] + start * c, FOOT[1] + start * s, FOOT[0] + end * c, FOOT[1] + end * s, kind, accent)


def _reading(start: float, end: float, radius: float, text: str, accent: bool) -> Group:
    """An angle at the protractor's middle; a narrow one has its figure outside the arc."""
    return tuple(i for i in angle_dimension(FOOT, radius, start, end, text, letter=LETTER, accent=accent) if not isinstance(i, Label))


def protractor_sentence(line: TaperLine, answer: bool = True, prediction: Fraction | None = None) -> str:
    """What the picture shows, in words."""
    if not answer:
        return (
            f"A protractor on the line of leg {line.leg}, {line.angle:.1f} degrees from the heel. What it reads when its zero is square to the heel is "
            "not shown yet."
        )
    words = (
        f"A protractor on the line of leg {line.leg}: it reads {line.angle:.1f} degrees from the heel and {line.from_square:.1f} from square, together 90."
    )
    return words if prediction is None else f"{words} Your prediction from square is {float(prediction):.1f}."


# --- which leg, which end -----------------------------------------------------------------------------------
def four_lines_sheet(order: Sequence[int] = (0, 1, 2, 3), *, few: bool = False) -> Sheet:
    """Both outer faces unfolded about the heel, with the four tapers that one may mean; ``order`` gives each place its letter."""
    left, right, heel, wide, run = 40.0, 196.0, 50.0, 28.0, 46.0
    middle = (left + right) / 2
    items: list[Item] = [
        Polyline(((middle - 4, heel + wide), (left, heel + wide), (left, heel - wide), (middle - 4, heel - wide)), "outline"),
        Polyline(((middle + 4, heel + wide), (right, heel + wide), (right, heel - wide), (middle + 4, heel - wide)), "outline"),
        Line(left, heel, middle - 4, heel, "fold"),
        Line(middle + 4, heel, right, heel, "fold"),
        zigzag(middle - 4, heel - wide, heel + wide),
        zigzag(middle + 4, heel - wide, heel + wide),
        *datum_sign(left, heel, "end 1"),
    ]
    if not few:
        items += [Label(right + 3, heel, "end 2", LETTER, "start", "middle"), Label(middle - 12, heel + 2.5, "heel", LETTER, "end")]
        items.append(Label(left, 8, "the outside unfolded about the heel", LETTER, "start", "middle"))
    for place, (leg, end) in enumerate(PLACES):
        up = direction(leg)
        x, way = (left, 1) if end == 1 else (right, -1)
        foot, toe = (x, heel + up * 0.35 * wide), (x + way * run, heel + up * wide)
        items.append(Line(*foot, *toe, "mark", True))
        items.append(Label(x + way * 0.62 * run, heel + up * 0.45 * wide, NAMES[order.index(place)], 5.0, "middle", "middle"))
    for leg in "AB":
        up = direction(leg)
        items.append(Label(middle, heel + up * (wide + 7), f"leg {leg}, outer face", LETTER, "middle", "middle"))
    sentence = (
        "The outside of an angle unfolded about its heel, end 1, the datum, at the left, end 2 at the right; leg B above the heel, leg A below. "
        f"Four lines of tapers, one in each corner, with the letters {', '.join(NAMES)}; 1 of them is meant."
    )
    return Sheet(WIDTH, HEIGHT, tuple(items), "Which leg, which end", sentence)


# --- taper per foot -----------------------------------------------------------------------------------------
def one_side(fall: Fraction) -> float:
    """Angle of a taper that falls so much in a foot on one side [deg]."""
    f = formulas()
    return f.angle_from_slope(c=f.taper_per_foot.solved_for("c")(T=fall))


def both_sides(fall: Fraction) -> float:
    """Angle between the sides of round work whose diameter falls so much in a foot [deg]."""
    return 2 * one_side(fall / 2)


def foot_sheet(fall: Fraction, *, answer: bool = True, few: bool = False) -> Sheet:
    """A leg and a round bar, each with the same taper per foot, to one scale."""
    unit, long = 6.0, 72.0
    drop = float(fall) * unit
    items: list[Item] = []
    left, heel = 20.0, 26.0
    foot = (left, heel + 8)
    toe = (left + long, foot[1] + drop)
    items.append(Polyline(((left + long + 10, heel), (left, heel), foot, toe, (left + long + 10, toe[1])), "outline"))
    items.append(zigzag(left + long + 10, heel, toe[1]))
    items.append(Line(*foot, left + long, foot[1], "narrow"))
    middle, axis, back = 134.0, heel + 23.0, 8.0
    low, high = axis - back - drop / 2, axis + back + drop / 2
    items.append(Polyline(((middle + long + 6, low), (middle + long, low), (middle, axis - back), (middle, axis + back), (middle + long, high), (middle + long + 6, high)), "outline"))
    items.append(zigzag(middle + long + 6, low, high))
    items.append(Line(middle - 6, axis, middle + long + 12, axis, "centre"))
    items.append(Label(left, HEIGHT - 8, f"a leg: {exact(fall)} in a foot", LETTER, "start"))
    items.append(Label(middle, HEIGHT - 8, f"round work: {exact(fall)} in a foot", LETTER, "start"))
    if not few:
        items += linear_dimension((left, heel), (left + long, heel), heel - 10, "12", letter=LETTER)
        items += linear_dimension((middle, low), (middle + long, low), heel - 10, "12", letter=LETTER)
    if answer:
        items.append(Label(left, 4, f"one side: {one_side(fall):.2f}°", LETTER, "start", accent=True))
        items.append(Label(middle, 4, f"between both sides: {both_sides(fall):.2f}°", LETTER, "start", accent=True))
    return Sheet(WIDTH, HEIGHT, tuple(items), "Taper per foot", foot_sentence(fall, answer))


def foot_sentence(fall: Fraction, answer: bool = True) -> str:
    """What the picture shows, in words."""
    if not answer:
        return f"A leg with one sloping side and a round bar with both sides sloping, each {exact(fall)} in a foot. The angles are not shown yet."
    return (
        f"Two tapers of {exact(fall)} in a foot. On a leg one side slopes: {one_side(fall):.2f} degrees from the heel. On round work both sides slope, and the "
        f"angle between them is {both_sides(fall):.2f} degrees."
    )
