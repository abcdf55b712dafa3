"""The ink of a mark under a glass: the square on the part's side of it, or on the waste's.

The edge of the ink next to the part is the dimension. With the square on the waste side the ink lies
on the part, and that edge is too near to end 1 by the ink's own width.

>>> print(ink_sheet(Ink(Fraction(19, 4), Fraction(1, 64), WASTE)).sentence)
The place 4 3/4 (4.750) from end 1 under a glass, the part at the left, the waste at the right. The square lies on the waste: its edge is at 4 3/4 (4.750), and the ink, 1/64 (0.016) wide, lies on the part. Its edge next to the part is at 4 47/64 (4.734): a part sawn and sanded to it comes out 1/64 (0.016) short.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from anglelib.drawing.dimensions import linear_dimension
from anglelib.drawing.rule import tick
from anglelib.drawing.sheet import Circle, Group, Hatch, Item, Label, Line, Polyline, Sheet, polygon
from anglelib.lengths import both, exact

WIDTH, HEIGHT = 234.0, 108.0
LETTER = 3.5
UNIT = 25.4 * 30
"""Millimetres an inch: thirty times as large as it is."""
MIDDLE = 117.0
LOW, HIGH, BLADE = 22.0, 66.0, 78.0
"""The leg's toe, and its heel, under the glass; the upper edge of the blade [mm]."""
SIDES = {"part": "on the part", "waste": "on the waste"}
"""On which side of its line the square lies, by id, in words."""
PART, WASTE = SIDES


@dataclass(frozen=True)
class Ink:
    """A mark wanted ``at`` from end 1 [in], the ink's width [in], and the side that the square lies on."""

    at: Fraction
    width: Fraction
    side: str = PART

    @property
    def edge(self) -> Fraction:
        """Where the edge of the ink next to the part is, from end 1 [in]."""
        return self.at if self.side == PART else self.at - self.width


@dataclass(frozen=True)
class Shown:
    """``answer``: whether square and ink are drawn; ``few`` labels, for a projector."""

    answer: bool = True
    few: bool = False


def ink_sheet(ink: Ink, shown: Shown = Shown()) -> Sheet:
    """The rule, the leg under it, the square and its ink."""
    items = (*_rule(ink, shown), *(_struck(ink, shown) if shown.answer else ()), *_words(ink, shown))
    return Sheet(WIDTH, HEIGHT, items, "The edge of the ink", ink_sentence(ink, shown))


def _rule(ink: Ink, shown: Shown) -> Group:
    """The leg, broken off at both sides, and the graduations of the rule above it."""
    items: list[Item] = [Line(8, HIGH, 226, HIGH, "outline"), Line(8, LOW, 226, LOW, "outline")]
    for n in range(-8, 9):
        place = ink.at + Fraction(n, 64)
        x = MIDDLE + n / 64 * UNIT
        if 8 <= x <= 226:
            items.append(Line(x, BLADE + 4, x, BLADE + 4 + 1.3 * tick(Fraction(round(place * 64), 64)), "narrow"))
    items.append(Line(8, BLADE + 4, 226, BLADE + 4, "narrow"))
    items.append(Line(MIDDLE, LOW - 12, MIDDLE, BLADE + 4, "centre"))
    return tuple(items)


def _struck(ink: Ink, shown: Shown) -> Group:
    wide = float(ink.width) * UNIT
    way = -1 if ink.side == PART else 1
    blade = ((MIDDLE, LOW - 4), (MIDDLE, BLADE), (MIDDLE + way * 42, BLADE), (MIDDLE + way * 42, LOW - 4))
    one, two = sorted((MIDDLE, MIDDLE - way * wide))
    items: list[Item] = [
        Hatch(((one, LOW), (two, LOW), (two, HIGH), (one, HIGH)), 45, 0.9, accent=True),
        polygon(((one, LOW), (two, LOW), (two, HIGH), (one, HIGH)), "narrow", "", True),
        polygon(blade, "outline", "paper"),
        Label(MIDDLE + way * 21, (LOW + HIGH) / 2, "square", LETTER, "middle", "middle"),
    ]
    edge = MIDDLE + float(ink.edge - ink.at) * UNIT
    if ink.edge != ink.at:
        items += linear_dimension((edge, LOW), (MIDDLE, LOW), LOW - 10, f"{both(ink.width, 128)} short", letter=LETTER, accent=True, outside="start")
    else:
        items += [Circle(edge, LOW, 1.2, "", "accent", True), Label(edge - 3, LOW - 10, "the edge next to the part", LETTER, "end", "middle", accent=True)]
    return tuple(items)


def _words(ink: Ink, shown: Shown) -> Group:
    items: list[Item] = [
        Label(30, (LOW + HIGH) / 2, "part", LETTER, "middle", "middle"),
        Label(204, (LOW + HIGH) / 2, "waste", LETTER, "middle", "middle"),
        *(Polyline(((190, y1), (218, y2)), "narrow") for y1, y2 in ((LOW + 6, LOW + 16), (LOW + 16, LOW + 6))),
        Label(MIDDLE, HEIGHT - 5, exact(ink.at), LETTER, "middle", "middle"),
    ]
    if not shown.few:
        items.append(Label(8, HEIGHT - 5, "to end 1", LETTER, "start", "middle"))
        items.append(Label(226, HEIGHT - 5, "a rule to 1/64; 30 times as large", LETTER, "end", "middle"))
    return tuple(items)


def ink_sentence(ink: Ink, shown: Shown = Shown()) -> str:
    """What the picture shows, in words."""
    words = f"The place {both(ink.at)} from end 1 under a glass, the part at the left, the waste at the right."
    if not shown.answer:
        return f"{words} The square and its ink are not shown yet."
    where = "waste" if ink.side == PART else "part"
    words += f" The square lies {SIDES[ink.side]}: its edge is at {both(ink.at)}, and the ink, {both(ink.width, 128)} wide, lies on the {where}."
    if ink.edge == ink.at:
        return f"{words} Its edge next to the part is the dimension."
    return (
        f"{words} Its edge next to the part is at {both(ink.edge, 128)}: a part sawn and sanded to it comes out {both(ink.width, 128)} short."
    )
