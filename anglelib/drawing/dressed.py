"""A hole laid out from an end that is dressed afterwards: the ink stays, the end comes nearer.

>>> print(dressed_sheet(Dressing(Fraction(17, 4), Fraction(1, 16))).sentence)
A hole is laid out 4 1/4 (4.250) from end 1 while the end is as sawn. Then 1/16 (0.063) is dressed off. From the squared end the mark is now at 4 3/16 (4.188), 1/16 (0.063) too near. Drawn larger at the end.
>>> print(dressed_sheet(Dressing(Fraction(17, 4), Fraction(1, 16), SQUARED)).sentence)
End 1 is squared first: 1/16 (0.063) comes off. Then the hole is laid out 4 1/4 (4.250) from the squared end, and there it stays. Drawn larger at the end.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from anglelib.drawing.dimensions import linear_dimension
from anglelib.drawing.sheet import Group, Hatch, Item, Label, Line, Polyline, Sheet
from anglelib.drawing.symbols import break_lines, hole, zigzag
from anglelib.lengths import both, exact

WIDTH, HEIGHT = 234.0, 104.0
LETTER = 3.5
WAYS = {"laid-out": "laid out first", "squared": "squared first"}
"""What is done first, by id, in words."""
LAID_OUT, SQUARED = WAYS
LEFT, RIGHT, HOLE = 62.0, 206.0, 158.0
LOW, HIGH = 34.0, 66.0
UNIT = 25.4 * 6
"""Millimetres an inch at the end: six times as large; along the leg not to scale."""
RAW = 3.2


@dataclass(frozen=True)
class Dressing:
    """A mark wanted ``at`` from end 1, what is ``taken`` off the end [in], and which is done first."""

    at: Fraction
    taken: Fraction
    way: str = LAID_OUT

    @property
    def comes_out(self) -> Fraction:
        """Where the mark is from the squared end [in]."""
        return self.at - self.taken if self.way == LAID_OUT else self.at


def dressed_sheet(view: Dressing, answer: bool = True, prediction: Fraction | None = None, few: bool = False) -> Sheet:
    """The leg with its sawn end, its squared end, and the hole; lengths that are asked for only with the answer."""
    taken = float(view.taken) * UNIT
    squared = answer and view.taken > 0
    first = LEFT if view.way == LAID_OUT else LEFT + taken
    items: list[Item] = [*_leg(taken, squared), *hole(HOLE, (LOW + HIGH) / 2, 5.0)]
    items += linear_dimension((first, HIGH), (HOLE, HIGH), HIGH + 14, f"laid out {exact(view.at) if few else both(view.at)}", letter=LETTER)
    if squared:
        text = f"comes out {exact(view.comes_out) if few else both(view.comes_out)}"
        items += linear_dimension((LEFT + taken, LOW), (HOLE, LOW), LOW - 14, text, letter=LETTER, accent=True)
        items += (i for i in linear_dimension((LEFT, HIGH), (LEFT + taken, HIGH), HIGH + 27, "", letter=LETTER) if not isinstance(i, Label))
        items.append(Label(LEFT + taken + 9, HIGH + 27, f"dressed off {exact(view.taken)}", LETTER, "start", "middle"))
    items.append(Label(LEFT - 8, (LOW + HIGH) / 2, "end 1", LETTER, "end", "middle"))
    if prediction is not None and not few:
        items.append(Label(LEFT, 4, f"you: {both(prediction)} from the squared end", LETTER, "start"))
    return Sheet(WIDTH, HEIGHT, tuple(items), "An end dressed after layout", dressed_sentence(view, answer, prediction))


def _leg(taken: float, squared: bool) -> Group:
    """The leg to its break; the sawn end wavy and, once dressed, dashed with its dust hatched."""
    steps = [LOW + (HIGH - LOW) * i / 6 for i in range(7)]
    wave = tuple((LEFT - (RAW if i % 2 else 0.6), y) for i, y in enumerate(steps))
    start = LEFT + taken if squared else LEFT - 0.6
    items: list[Item] = [Polyline(wave, "blank" if squared else "outline")]
    if squared:
        items.append(Hatch(((LEFT + taken, LOW), (LEFT + taken, HIGH), *reversed(wave)), 45, 1.6))
        items.append(Line(LEFT + taken, LOW, LEFT + taken, HIGH, "outline"))
    for y in (LOW, HIGH):
        items += [Line(start, y, 112, y, "outline"), Line(115, y, RIGHT, y, "outline")]
    items += break_lines(113.5, LOW, HIGH, 3)
    items.append(zigzag(RIGHT, LOW, HIGH))
    return tuple(items)


def dressed_sentence(view: Dressing, answer: bool = True, prediction: Fraction | None = None) -> str:
    """What the picture shows, in words."""
    if view.way == SQUARED and answer:
        words = f"End 1 is squared first: {both(view.taken)} comes off. Then the hole is laid out {both(view.at)} from the squared end, and there it stays."
    else:
        words = f"A hole is laid out {both(view.at)} from end 1 while the end is as sawn. Then {both(view.taken)} is dressed off."
        if answer:
            words += f" From the squared end the mark is now at {both(view.comes_out)}" + (f", {both(view.taken)} too near." if view.taken else ".")
        else:
            words += " Where the mark is then, from the squared end, is not shown yet."
    if prediction is not None:
        words += f" Your prediction is {both(prediction)}."
    return f"{words} Drawn larger at the end."
