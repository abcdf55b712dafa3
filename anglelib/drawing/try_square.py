"""Light under a square: an end out of square, the square laid across one leg and then the other.

On the left the angle in space, leg A towards the reader and leg B on top, end 1 at the left, with the
square on it: its stock lies along the heel, its blade across the leg, beyond the end. On the right the
same leg seen square on. What the end is out of square is drawn ``MAGNIFIED`` times.

>>> from anglelib.section import Section
>>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
>>> print(light_sheet(stock, (Fraction(0), Fraction(1, 32)), "B").sentence)
Angle 1 1/4 x 1 1/4 x 1/8, end 1 at the left, the square on leg B: its stock along the heel, its blade across leg B. Light of 1/32 (0.031) at the heel: the toe stands out. On leg B the end is 1.4 degrees out of square. The light is drawn 6 times as wide.
>>> print(light_sheet(stock, (Fraction(0), Fraction(1, 32)), "A", Tried(both=False)).sentence)
Angle 1 1/4 x 1 1/4 x 1/8, end 1 at the left, the square on leg A: its stock along the heel, its blade across leg A. No light: leg A is square to the heel. Leg B has not been tried yet.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from anglelib.drawing.dimensions import linear_dimension
from anglelib.drawing.outline import section_outline
from anglelib.drawing.sheet import Group, Hatch, Item, Label, Line, Point, Polyline, Sheet, polygon
from anglelib.drawing.symbols import zigzag
from anglelib.geometry.squaring import End
from anglelib.lengths import both
from anglelib.section import Section, other_leg

WIDTH, HEIGHT = 234.0, 100.0
LETTER = 3.5
MAGNIFIED = 6
"""How many times as wide as it is the light is drawn."""
MOST = 16.0
"""How far out of square a predicted end is drawn at most [mm]."""
HEEL: Point = (34.0, 66.0)
"""Where the heel meets end 1 in the picture in space."""
DEPTH = (0.55 * math.cos(math.radians(40)), 0.55 * math.sin(math.radians(40)))
BLADE, STOCK, REACH = 7.0, 5.5, 40.0
"""Width of the blade, and thickness and length of the stock [mm]."""
EDGE_X = 158.0
"""Where a square end lies in the flat view."""


@dataclass(frozen=True)
class Tried:
    """What the picture shows.

    ``both``: whether the leg that the square is not on may be seen at the end; ``angle``: whether the
    angle out of square is said; ``silent``: not even what the light says of the toe; ``prediction`` [deg], drawn as a ghost;
    ``few`` labels, for a projector.
    """

    both: bool = True
    angle: bool = True
    silent: bool = False
    prediction: float | None = None
    few: bool = False


def light_sheet(section: Section, out: tuple[Fraction, Fraction], leg: str, shown: Tried = Tried()) -> Sheet:
    """The square on one leg of an end whose toes stand out by ``out`` (leg A, leg B) [in], negative where they fall back."""
    items = (*_in_space(section, out, leg, shown), *_flat(section, out, leg, shown))
    return Sheet(WIDTH, HEIGHT, items, f"The square on leg {leg}", light_sentence(section, out, leg, shown))


def _of(pair: tuple[Fraction, Fraction], leg: str) -> float:
    return float(pair["AB".index(leg)])


# --- in space -----------------------------------------------------------------------------------------
def _in_space(section: Section, out: tuple[Fraction, Fraction], leg: str, shown: Tried) -> Group:
    unit = min(30.0, 37.0 / float(max(section.leg_a, section.leg_b)))
    a, b, long = float(section.leg_a) * unit, float(section.leg_b) * unit, 66.0
    toe_a, toe_b = (-MAGNIFIED * float(v) * unit for v in out)

    def at(x: float, y: float, z: float) -> Point:
        """Along the heel, down leg A, back on leg B [mm]."""
        return HEEL[0] + x + DEPTH[0] * z, HEEL[1] - y + DEPTH[1] * z

    cut = tuple(at(long, y * unit, z * unit) for y, z in section_outline(section))
    items: list[Item] = [Hatch(cut, 45, 1.6), polygon(cut, "outline", "")]
    if shown.both or leg == "A":
        items.append(polygon((at(0, 0, 0), at(long, 0, 0), at(long, a, 0), at(toe_a, a, 0)), "outline", "paper"))
    if shown.both or leg == "B":
        items.append(polygon((at(0, 0, 0), at(long, 0, 0), at(long, 0, b), at(toe_b, 0, b)), "outline", "paper"))
    if not shown.both:  # the other leg is broken off before its end
        near = 14.0
        if leg == "A":
            items += [
                polygon((at(near, 0, 0), at(long, 0, 0), at(long, 0, b), at(near, 0, b)), "", "paper"),
                Polyline((at(near, 0, b), at(long, 0, b), at(long, 0, 0), at(0, 0, 0)), "outline"),
                Polyline((at(near, 0, 0), at(near + 1.6, 0, b * 0.45), at(near - 1.6, 0, b * 0.55), at(near, 0, b)), "break"),
            ]
    items += _square_in_space(leg, (a, toe_a) if leg == "A" else (b, toe_b), at)
    items.append(Label(*at(48, a / 2, 0), "leg A", LETTER, "middle", "middle"))
    items.append(Label(*at(52, 0, b * 0.5), "leg B", LETTER, "middle", "middle"))
    if not shown.few:
        items.append(Label(8, HEIGHT - 6, f"the square on leg {leg}", LETTER, "start", "middle"))
    return tuple(items)


def _square_in_space(leg: str, toe: tuple[float, float], at) -> Group:
    """The square with its light; the stock is held against the other leg's outer face."""
    wide, out = toe
    touch = min(0.0, out)
    reach = wide * 1.14

    def on(x: float, w: float) -> Point:
        return at(x, w, 0) if leg == "A" else at(x, 0, w)

    light = _light(wide, out)
    items: list[Item] = []
    if light:
        points = tuple(on(x, w) for x, w in light)
        items += [Hatch(points, 0 if leg == "A" else 90, 1.1, accent=True), polygon(points, "narrow", "", True)]
    items.append(polygon((on(touch, 0), on(touch, reach), on(touch - BLADE, reach), on(touch - BLADE, 0)), "outline", "paper"))
    left, right = touch - BLADE, touch - BLADE + REACH
    if leg == "A":
        top = (at(left, -STOCK, 0), at(right, -STOCK, 0), at(right, -STOCK, 10), at(left, -STOCK, 10))
        side = (at(right, 0, 0), at(right, -STOCK, 0), at(right, -STOCK, 10), at(right, 0, 10))
        front = (at(left, 0, 0), at(right, 0, 0), at(right, -STOCK, 0), at(left, -STOCK, 0))
        items += [polygon(top, "outline", "paper"), polygon(side, "outline", "paper"), polygon(front, "outline", "paper")]
    else:
        side = (at(right, STOCK, 0), at(right, STOCK, -8), at(right, 0, -8), at(right, 0, 0))
        front = (at(left, STOCK, -8), at(right, STOCK, -8), at(right, 0, -8), at(left, 0, -8))
        top = (at(left, 0, 0), at(right, 0, 0), at(right, 0, -8), at(left, 0, -8))
        items += [polygon(side, "outline", "paper"), polygon(front, "outline", "paper"), polygon(top, "outline", "paper")]
    return tuple(items)


def _light(wide: float, out: float) -> tuple[Point, ...]:
    """The triangle of light as (along, across) [mm]; ``out`` is where the toe's end lies along the heel."""
    if out == 0:
        return ()
    touch = min(0.0, out)
    return ((touch, 0.0), (0.0, 0.0), (out, wide)) if out < 0 else ((0.0, 0.0), (touch, wide), (out, wide))


# --- the leg seen square on ------------------------------------------------------------------------------
def _flat(section: Section, out: tuple[Fraction, Fraction], leg: str, shown: Tried) -> Group:
    width, gap = float(section.leg(leg)), abs(out["AB".index(leg)])
    unit = min(36.0, 43.0 / float(max(section.leg_a, section.leg_b)))
    wide, toe = width * unit, -MAGNIFIED * _of(out, leg) * unit
    way = -1.0 if leg == "A" else 1.0  # from outside, end 1 at the left: the heel is at the top of leg A, at the bottom of leg B
    heel, far = 46.0 - way * wide / 2, 216.0

    def at(x: float, w: float) -> Point:
        return EDGE_X + x, heel + way * w

    touch = min(0.0, toe)
    low, high = sorted((at(0, 0)[1], at(0, wide)[1]))
    items: list[Item] = [
        Polyline(((far, at(0, 0)[1]), at(0, 0), at(toe, wide), (far, at(0, wide)[1])), "outline"),
        zigzag(far, low, high),
    ]
    light = tuple(at(x, w) for x, w in _light(wide, toe))
    if light:
        items += [Hatch(light, 0, 1.4, accent=True), polygon(light, "narrow", "", True)]
    if shown.prediction is not None:
        lean = -math.copysign(MAGNIFIED * math.tan(math.radians(min(abs(shown.prediction), 60.0))) * wide, _of(out, leg) or 1.0)
        x = max(-MOST, min(MOST, lean))
        items.append(Line(*at(0, 0), *at(x, wide * (x / lean if lean else 1.0)), "ghost"))
    left, right = touch - BLADE - 2, touch - BLADE - 2 + 1.2 * REACH
    items += [
        polygon((at(touch, 0), at(touch, wide * 1.1), at(left, wide * 1.1), at(left, 0)), "outline", "paper"),
        polygon((at(left, 0), at(right, 0), at(right, -STOCK - 1), at(left, -STOCK - 1)), "outline", "paper"),
    ]
    items += _words(leg, at, (wide, toe), gap, width, shown)
    return tuple(items)


def _words(leg: str, at, toe: tuple[float, float], gap: Fraction, width: float, shown: Tried) -> Group:
    wide, out = toe
    items: list[Item] = []
    if gap:
        side = wide if out > 0 else 0.0
        beyond = wide * 1.1 + 7 if out > 0 else -STOCK - 9.5
        one, two = sorted((at(0, side), at(out, side)))
        items += linear_dimension(one, two, at(0, beyond)[1], both(gap), letter=LETTER, outside="end", accent=True)
    rows = [f"leg {leg}, outer face" if not shown.few else f"leg {leg}"]
    if shown.angle and shown.both:
        rows.append(f"{degrees(gap, width):.1f}° out" if gap else "square")
    for i, text in enumerate(rows):
        items.append(Label(192, at(0, wide / 2)[1] + 3.2 - i * 6.4, text, LETTER, "middle", "middle", accent=bool(i)))
    touch = min(0.0, out)
    if not shown.few:
        items.append(Label(*at(touch - BLADE / 2 - 1, wide / 2), "blade", LETTER, "middle", "middle", 90))
        items.append(Label(*at(touch + 24, -STOCK / 2 - 0.5), "stock", LETTER, "middle", "middle"))
    items.append(Label(219, at(0, 0)[1], "heel", LETTER, "start", "middle"))
    items.append(Label(219, at(0, wide)[1], "toe", LETTER, "start", "middle"))
    if not shown.few:
        items.append(Label(124, HEIGHT - 6, f"seen square on; light drawn {MAGNIFIED} times", LETTER, "start", "middle"))
    return tuple(items)


def degrees(gap: Fraction, width: Fraction | float) -> float:
    """The angle that a gap of light at one end of a leg stands for [deg]."""
    return End.from_gaps(Section(Fraction(width), Fraction(width), Fraction(width) / 10), float(gap), 0.0).on_a


# --- in words -------------------------------------------------------------------------------------------
def light_sentence(section: Section, out: tuple[Fraction, Fraction], leg: str, shown: Tried = Tried()) -> str:
    """What the picture shows, in words."""
    words = (
        f"Angle {section.size}, end 1 at the left, the square on leg {leg}: its stock along the heel, its blade across leg {leg}. "
        f"{seen(out['AB'.index(leg)], leg, shown.silent)}"
    )
    if not shown.both:
        return f"{words} Leg {other_leg(leg)} has not been tried yet."
    gap = abs(out["AB".index(leg)])
    if gap and shown.angle:
        words += f" On leg {leg} the end is {degrees(gap, section.leg(leg)):.1f} degrees out of square."
    if shown.prediction is not None:
        words += f" Your prediction is {shown.prediction:.1f} degrees."
    return words + (f" The light is drawn {MAGNIFIED} times as wide." if gap else "")


def seen(out: Fraction, leg: str, silent: bool = False) -> str:
    """What the light says of a leg whose toe stands out by so much [in]; ``silent``: not what follows from it.

    >>> seen(Fraction(-1, 64), "A")
    'Light of 1/64 (0.016) at the toe: the toe falls back.'
    """
    if not out:
        return f"No light: leg {leg} is square to the heel."
    follows = "" if silent else ": the toe stands out" if out > 0 else ": the toe falls back"
    return f"Light of {both(abs(out))} at the {'heel' if out > 0 else 'toe'}{follows}."
