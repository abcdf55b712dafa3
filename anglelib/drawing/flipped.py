"""The flip test of a square: a line along its blade, the square turned over, and a second line from the same foot.

The lines part by twice the square's own error. What the blade leans is drawn ``MAGNIFIED`` times.

>>> print(flip_sheet(Flip(Fraction(1, 32))).sentence)
The stock of a square lies along the straight edge of a board, turned over: the first line, struck along the blade before, leans to the left, the blade now to the right. Light of 1/16 (0.063) between the line and the blade 6 in. above the edge: the square itself is out by half of it, 1/32 (0.031). Drawn 16 times as far out as it is.
>>> flip_gap_at(Fraction(1, 32), Fraction(3)), flip_gap_at(Fraction(0), Fraction(6))
(Fraction(1, 32), Fraction(0, 1))
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from anglelib.drawing.dimensions import linear_dimension, upright_dimension
from anglelib.drawing.sheet import Group, Hatch, Item, Label, Line, Point, Sheet, polygon
from anglelib.lengths import both, decimal, exact

WIDTH, HEIGHT = 234.0, 112.0
LETTER = 3.5
MAGNIFIED = 16
BLADE = Fraction(6)
"""How high over the edge the square's error is stated [in]."""
UNIT = 12.0
"""Millimetres an inch."""
FOOT: Point = (112.0, 25.0)
THICK, WIDE, REACH = 8.0, 9.0, 46.0
POSITIONS = {"as-it-is": "as it is", "over": "turned over"}
"""How the square lies, by id, in words."""
AS_IT_IS, OVER = POSITIONS
MOST = 24.0


@dataclass(frozen=True)
class Flip:
    """The test: by how much the blade leans 6 in. above the edge (``error`` [in], to the left before it is turned over),
    how the square lies, the height [in] at which the lines are compared."""

    error: Fraction
    position: str = OVER
    height: Fraction = BLADE


@dataclass(frozen=True)
class Shown:
    """``answer``: whether the second line and the gap are drawn; ``prediction`` [in]: a gap that is expected; ``few`` labels."""

    answer: bool = True
    prediction: Fraction | None = None
    few: bool = False


def flip_gap_at(error: Fraction, height: Fraction) -> Fraction:
    """How far the two lines lie apart at a height over the edge, for an error at 6 in. [in]: twice the error there."""
    return 2 * error * height / BLADE


def flip_sheet(flip: Flip, shown: Shown = Shown()) -> Sheet:
    """The board's edge, the line or lines, the square, and the gap."""
    return Sheet(WIDTH, HEIGHT, (*_board(shown), *_lines(flip, shown)), "The flip test", flip_sentence(flip, shown))


def _at(x: float, h: float) -> Point:
    """So far to the right of the foot, so high over the edge [in]."""
    return FOOT[0] + MAGNIFIED * x * UNIT, FOOT[1] + h * UNIT


def _board(shown: Shown) -> Group:
    edge = FOOT[1]
    items: list[Item] = [Line(14, edge, 220, edge, "outline")]
    items += [Line(*_at(0, 0), *_at(0, float(BLADE) + 0.35), "centre")]
    if not shown.few:
        items.append(Label(216, edge + 3, "a board; its straight edge", LETTER, "end"))
    return tuple(items)


def _lines(flip: Flip, shown: Shown) -> Group:
    tall = float(BLADE)
    error = float(flip.error)
    over = shown.answer and flip.position == OVER
    first, second = _at(-error, tall), _at(error, tall)
    items: list[Item] = [*_square(error if over else -error, over), Line(*FOOT, *first, "mark")]
    if not shown.answer:
        if shown.prediction is not None:
            items += _ghost(flip, shown.prediction)
        return (*items, *_names(flip, first, None, shown))
    if over:
        items.append(Line(*FOOT, *second, "mark", True))
        gap = flip_gap_at(flip.error, flip.height)
        if gap:
            items += _light(flip)
            level = FOOT[1] + tall * UNIT + 6
            h = float(flip.height)
            left, right = sorted((_at(-error * h / tall, h), _at(error * h / tall, h)))
            side = "end" if right[0] < 170 else "start"
            items += linear_dimension(left, right, level, _said(gap), letter=LETTER, accent=True, outside=side)
    if shown.prediction is not None:
        items += _ghost(flip, shown.prediction)
    return (*items, *_names(flip, first, second if over and flip.error else None, shown))


def _square(lean: float, over: bool) -> Group:
    """The square's outline, its blade leaning so far at 6 in. [in]: blade left of the line, stock below the edge to the right.

    Turned over about the blade it lies the other way round: blade right of the line, stock to the left.
    """
    way = -1.0 if over else 1.0
    top = float(BLADE) + 0.2
    x = lean * top / float(BLADE)
    inner, outer = _at(x, top), _at(x, top)
    blade = (FOOT, inner, (outer[0] - way * WIDE, outer[1]), (FOOT[0] - way * WIDE, FOOT[1]))
    left = FOOT[0] - way * WIDE
    stock = ((left, FOOT[1]), (left + way * REACH, FOOT[1]), (left + way * REACH, FOOT[1] - THICK), (left, FOOT[1] - THICK))
    return (polygon(blade, "outline", "paper"), polygon(stock, "outline", "paper"))


def _light(flip: Flip) -> Group:
    tall = float(BLADE)
    points = (FOOT, _at(-float(flip.error), tall), _at(float(flip.error), tall))
    return (Hatch(points, 0, 1.8, accent=True),)


def _ghost(flip: Flip, prediction: Fraction) -> Group:
    """Where the second line would be if the lines parted by the prediction: dotted, from the first one's foot."""
    tall, h = float(BLADE), float(flip.height)
    x = -float(flip.error) + float(prediction) * tall / h
    most = MOST * 2 / MAGNIFIED / UNIT  # a wild guess still stays on the sheet
    return (Line(*FOOT, *_at(max(-most, min(x, most)), tall), "ghost"),)


def _names(flip: Flip, first: Point, second: Point | None, shown: Shown) -> Group:
    level = FOOT[1] + (30 if 3.2 < flip.height < 4.5 else 46)
    items: list[Item] = []
    text = "first line" if second is not None or not shown.answer else "line along the blade"
    items.append(Label(FOOT[0] - WIDE - 15, level, text, LETTER, "end", "middle", halo=True))
    if second is not None:
        items.append(Label(FOOT[0] + WIDE + 15, level, "second line", LETTER, "start", "middle", halo=True, accent=True))
    over = shown.answer and flip.position == OVER
    stock = FOOT[0] + (REACH - WIDE - 3 if not over else -(REACH - WIDE - 3))
    items.append(Label(stock, FOOT[1] - THICK / 2, "stock", LETTER, "end" if not over else "start", "middle"))
    if not shown.few:
        high = FOOT[1] + float(flip.height) * UNIT
        items += upright_dimension((40, FOOT[1]), (40, high), 30, exact(flip.height), -1, LETTER)
        items.append(Line(39, high, min(first[0], FOOT[0]) - WIDE - 3, high, "dimension"))
        items.append(Label(8, HEIGHT - 5, f"the square {POSITIONS[flip.position if shown.answer else AS_IT_IS]}", LETTER, "start", "middle"))
        items.append(Label(226, HEIGHT - 5, f"lean drawn {MAGNIFIED} times", LETTER, "end", "middle"))
    return tuple(items)


def _said(value: Fraction) -> str:
    """A gap as a fraction where a rule has it, else as a decimal alone."""
    return decimal(value) if 64 % value.denominator else both(value)


def flip_sentence(flip: Flip, shown: Shown = Shown()) -> str:
    """What the picture shows, in words."""
    if not shown.answer or flip.position == AS_IT_IS:
        lean = f"leans by {both(flip.error)} in 6 in., drawn {MAGNIFIED} times as far." if flip.error else "stands square to the edge, from 0 to 6 in."
        words = f"The stock of a square lies along the straight edge of a board. A line is struck along its blade, which {lean}"
        return words + ("" if shown.answer else " The square has not been turned over yet.")
    words = "The stock of a square lies along the straight edge of a board, turned over: "
    if not flip.error:
        return f"{words}the line struck before and the blade lie on each other from 0 to 6 in. The square is true."
    gap = flip_gap_at(flip.error, flip.height)
    words += "the first line, struck along the blade before, leans to the left, the blade now to the right."
    words += f" Light of {_said(gap)} between the line and the blade {exact(flip.height)} in. above the edge: the square itself is out by half of it, {_said(gap / 2)}."
    if shown.prediction is not None:
        words += f" Your prediction is {both(shown.prediction)}."
    return f"{words} Drawn {MAGNIFIED} times as far out as it is."
