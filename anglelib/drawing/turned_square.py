"""A square tried on the part itself: its stock at the heel, then turned over, its stock at the toe.

Turned over, the square's own error lies the other way, and the end's does not: half of the sum of both
readings is the end, half of the difference the square. Light is drawn ``MAGNIFIED`` times as wide.

>>> print(turned_sheet(Tried(Fraction(5, 4), Fraction(-1, 64), Fraction(1, 64))).sentence)
Leg A, 1 1/4 (1.250) wide, outer face, end 1 at the left, a square on it twice. Stock at the heel: light of 1/32 (0.031) at the toe. Turned over, stock at the toe: no light. Half of the sum: the toe falls back 1/64 (0.016). Half of the difference: over this leg the square is out by 1/64 (0.016). The light is drawn 6 times as wide.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from anglelib.drawing.dimensions import linear_dimension
from anglelib.drawing.sheet import Group, Hatch, Item, Label, Line, Point, Polyline, Sheet, polygon
from anglelib.drawing.symbols import zigzag
from anglelib.drawing.try_square import MAGNIFIED
from anglelib.lengths import both

WIDTH, HEIGHT = 234.0, 100.0
LETTER = 3.5
HEEL, WIDE = 70.0, 42.0
EDGES = (46.0, 160.0)
"""Where a square end lies in either view."""
BLADE, STOCK, REACH = 9.0, 6.5, 46.0
MOST = 22.0


@dataclass(frozen=True)
class Tried:
    """A leg so wide, whose toe stands out by ``out`` (negative: falls back), and a square whose blade leans out by ``lean`` over the leg [in]."""

    width: Fraction
    out: Fraction
    lean: Fraction

    def light(self, turned: bool) -> Fraction:
        """What the light says: how far the toe seems to fall back; negative: to stand out, light at the heel [in]."""
        return -self.out + (-self.lean if turned else self.lean)


@dataclass(frozen=True)
class Shown:
    """``answer``: whether the square is turned over; ``prediction`` [in] of how far the end is out; ``few`` labels."""

    answer: bool = True
    prediction: Fraction | None = None
    few: bool = False


def turned_sheet(tried: Tried, shown: Shown = Shown()) -> Sheet:
    """The leg with the square on it, at the left from the heel, at the right turned over."""
    items: Group = _view(tried, EDGES[0], False, shown)
    if shown.answer:
        items += _view(tried, EDGES[1], True, shown)
    if not shown.few:
        items += (Label(8, HEIGHT - 6, f"stock at the heel; light drawn {MAGNIFIED} times", LETTER, "start", "middle"),)
        if shown.answer:
            items += (Label(138, HEIGHT - 6, "turned over: stock at the toe", LETTER, "start", "middle"),)
    return Sheet(WIDTH, HEIGHT, items, "The square turned over", turned_sentence(tried, shown))


def _view(tried: Tried, edge: float, turned: bool, shown: Shown) -> Group:
    """One view: the leg, heel at the top, and the square where it touches."""
    per = MAGNIFIED * WIDE / float(tried.width)
    toe = -float(tried.out) * per
    lean = -float(tried.lean) * per  # the blade's far end, along the heel
    blade_heel, blade_toe = (lean, 0.0) if turned else (0.0, lean)
    shift = min(0.0 - blade_heel, toe - blade_toe)  # the blade comes up to the end until it touches

    def at(x: float, w: float) -> Point:
        return edge + x, HEEL - w * WIDE

    far = edge + 57
    items: list[Item] = [
        Polyline(((far, at(0, 0)[1]), at(0, 0), at(toe, 1), (far, at(0, 1)[1])), "outline"),
        zigzag(far, at(0, 1)[1], at(0, 0)[1]),
    ]
    top, foot = blade_heel + shift, blade_toe + shift
    light = (at(top, 0), at(0, 0), at(toe, 1), at(foot, 1))
    gap = tried.light(turned)
    if gap:
        items += [Hatch(light, 0, 1.4, accent=True), Polyline((at(0, 0), at(toe, 1)), "narrow", accent=True)]
    if shown.prediction is not None and not turned:
        x = float(shown.prediction) * per * (1 if tried.out <= 0 else -1)
        items.append(Line(*at(0, 0), *at(max(-MOST, min(MOST, x)), 1), "ghost"))
    items += _square(at, top, foot, turned)
    if gap:
        w, end, blade = (1.0, toe, foot) if gap > 0 else (0.0, 0.0, top)
        level = HEEL - WIDE - 7 - (STOCK if turned else 5) if gap > 0 else HEEL + (8 if turned else STOCK + 3)
        items += linear_dimension(*sorted((at(blade, w), at(end, w))), level, both(abs(gap)), letter=LETTER, accent=True)
    middle = HEEL - WIDE / 2
    items.append(Label(edge + 38, middle, "no light" if not gap else "leg A", LETTER, "middle", "middle", accent=not gap))
    items.append(Label(far + 4, HEEL, "heel", LETTER, "start", "middle"))
    if not (shown.few and turned):
        items.append(Label(far + 4, HEEL - WIDE, "toe", LETTER, "start", "middle"))
    return tuple(items)


def _square(at, top: float, foot: float, turned: bool) -> Group:
    """The square's outline: the blade along the end, the stock along the heel, or along the toe."""
    over = (foot - top) * 0.12
    if turned:
        inner = (at(foot, 1), at(top - over, -0.12))
        line, way = foot, 1.0
    else:
        inner = (at(top, 0), at(foot + over, 1.12))
        line, way = top, 0.0
    (x1, y1), (x2, y2) = inner
    blade = ((x1, y1), (x2, y2), (x2 - BLADE, y2), (x1 - BLADE, y1))
    out = -STOCK if turned else STOCK
    x, y = at(line, way)
    stock = ((x - BLADE, y), (x - BLADE + REACH, y), (x - BLADE + REACH, y + out), (x - BLADE, y + out))
    return (polygon(blade, "outline", "paper"), polygon(stock, "outline", "paper"))


def _said(gap: Fraction) -> str:
    return "no light" if not gap else f"light of {both(abs(gap), 128)} at the {'toe' if gap > 0 else 'heel'}"


def turned_sentence(tried: Tried, shown: Shown = Shown()) -> str:
    """What the picture shows, in words."""
    first, second = tried.light(False), tried.light(True)
    words = f"Leg A, {both(tried.width)} wide, outer face, end 1 at the left, a square on it {'twice' if shown.answer else 'once'}. "
    words += f"Stock at the heel: {_said(first)}."
    if shown.prediction is not None:
        words += f" Your prediction for the end is {both(shown.prediction)}."
    if not shown.answer:
        return f"{words} It has not been turned over yet."
    words += f" Turned over, stock at the toe: {_said(second)}. Half of the sum: "
    words += "the end is square." if not tried.out else f"the toe {'stands out' if tried.out > 0 else 'falls back'} {both(abs(tried.out), 128)}."
    words += " Half of the difference: "
    words += "the square is true." if not tried.lean else f"over this leg the square is out by {both(abs(tried.lean), 128)}."
    return f"{words} The light is drawn {MAGNIFIED} times as wide." if first or second else words
