"""An inch rule as a drafter draws it: graduations that halve the inch down to 1/64, longer where the fraction is coarser.

>>> lines = [item for item in rule(10, 20, 50, 0, 2) if isinstance(item, Line)]
>>> len(lines), tick(Fraction(1, 2)), tick(Fraction(3, 64))
(129, 7.0, 1.5)
"""

from __future__ import annotations

from fractions import Fraction
from math import ceil, floor

from anglelib.drawing.dimensions import arrow, linear_dimension
from anglelib.drawing.sheet import Group, Item, Label, Line, Polyline, Sheet, polygon
from anglelib.drawing.symbols import zigzag
from anglelib.lengths import both, exact

TICKS = {1: 9.0, 2: 7.0, 4: 5.6, 8: 4.4, 16: 3.4, 32: 2.4, 64: 1.5}
"""How long a graduation is drawn [mm], by the denominator of its place."""
LETTER = 3.5
WIDTH, HEIGHT = 234.0, 88.0
LEFT, UNIT = 20.0, 50.0
"""Where the window of a rule begins, and millimetres an inch, at which 1/64 can still be told."""
SHOWN = 4
"""How many inches of a rule fit [in]."""
RULE, TALL = 36.0, 15.0
"""Where the edge of the rule lies that touches the part, and how wide the rule is drawn [mm]."""
PART = 18.0
"""How much of the leg is drawn under the rule [mm]."""


LENS, LOW, HIGH = 30.0, 57.0, 75.0
"""The lens over the mark: half its width, its lower and its upper edge [mm]."""
ENLARGED = 4.4


def tick(place: Fraction) -> float:
    """How long the graduation at a place is [mm].

    >>> tick(Fraction(5, 8)) > tick(Fraction(9, 16)) > tick(Fraction(1, 64))
    True
    """
    return TICKS[place.denominator]


def rule(x: float, y: float, unit: float, first: int, last: int, finest: int = 64, tall: float = TALL, figures: bool = True) -> Group:
    """A rule from ``first`` to ``last`` inches, its graduated edge at y, ``unit`` mm an inch, rising ``tall`` mm from it."""
    right = x + (last - first) * unit
    items: list[Item] = [polygon(((x, y), (right, y), (right, y + tall), (x, y + tall)), "narrow", "paper")]
    steps = (last - first) * finest
    for i in range(steps + 1):
        place = Fraction(first) + Fraction(i, finest)
        here = x + float(place - first) * unit
        items.append(Line(here, y, here, y + tick(place), "narrow"))
    if figures:
        for inch in range(first, last + 1):
            where = x + (inch - first) * unit
            side = {first: "start", last: "end"}.get(inch, "middle")
            shift = {"start": 1.2, "end": -1.2, "middle": 0.0}[side]
            items.append(Label(where + shift, y + tall - 1.6, str(inch), LETTER, side, "top"))
    return tuple(items)


def ruled_sheet(wanted: str, mark: Fraction, start: int = 0, shown: bool = False, ghost: Fraction | None = None, few: bool = False) -> Sheet:
    """A rule on a part, and a mark on the part where the rule shows ``mark``; ``start`` of the rule lies on end 1.

    ``shown``: the mark is right, and its place is said; ``ghost``: a predicted distance from end 1 [in]; ``few`` labels, for a projector.
    """
    where = LEFT + float(mark) * UNIT
    end = LEFT + start * UNIT
    right = LEFT + SHOWN * UNIT + 4
    items: list[Item] = [
        *rule(LEFT, RULE, UNIT, 0, SHOWN),
        Polyline(((right, RULE), (end, RULE), (end, RULE - PART), (right, RULE - PART)), "outline"),
        zigzag(right, RULE - PART, RULE),
        Line(where, RULE - PART, where, RULE, "mark", True),
        *_lens(where, mark),
        arrow(where, RULE - PART - 0.5, 90, accent=True),
    ]
    if ghost is not None:
        x = min(end + float(ghost) * UNIT, right)
        items.append(Line(x, RULE - PART - 3, x, RULE, "ghost"))
    items.append(Label(end + 2.5, RULE - PART / 2, "end 1", LETTER, "start", "middle", halo=True))
    if not few:
        items.append(Label(LEFT, HEIGHT - 6, wanted, LETTER, "start", "middle"))
    if shown:
        length = mark - start
        items += linear_dimension((end, RULE - PART), (where, RULE - PART), RULE - PART - 9, both(length), letter=LETTER, accent=True)
    return Sheet(WIDTH, HEIGHT, tuple(items), "A mark on the rule", ruled_sentence(wanted, mark, start, shown))


def _lens(where: float, mark: Fraction) -> Group:
    """What lies round the mark, enlarged: an eighth of an inch to either side."""
    middle = min(max(where, LEFT + LENS), LEFT + SHOWN * UNIT - LENS)
    edge = LOW + 6.0
    left, right = middle - LENS, middle + LENS
    items: list[Item] = [polygon(((left, LOW), (right, LOW), (right, HIGH), (left, HIGH)), "narrow", "paper")]
    half = LENS / (UNIT * ENLARGED)
    for side in (-1, 1):
        items.append(Line(middle + side * LENS, LOW, min(max(where + side * half * UNIT, LEFT), LEFT + SHOWN * UNIT), RULE + TALL + 0.5, "dimension"))
    low, high = max(float(mark) - half, 0), min(float(mark) + half, SHOWN)
    items.append(Line(middle + (low - float(mark)) * UNIT * ENLARGED, edge, middle + (high - float(mark)) * UNIT * ENLARGED, edge, "outline"))
    for n in range(ceil(low * 64), floor(high * 64) + 1):
        x = middle + (n / 64 - float(mark)) * UNIT * ENLARGED
        items.append(Line(x, edge, x, edge + 1.2 * tick(Fraction(n, 64)), "narrow"))
    items.append(Line(middle, LOW, middle, edge, "mark", True))
    return tuple(items)


def ruled_sentence(wanted: str, mark: Fraction, start: int = 0, shown: bool = False) -> str:
    """What the drawing shows, in words."""
    lies = "The rule's end lies on end 1" if not start else f"The rule's {start}-inch mark lies on end 1"
    words = f"{lies}; it is graduated to 1/64. {wanted}. The mark stands where the rule shows {exact(mark)}."
    return f"{words} That is {both(mark - start)} from end 1." if shown else words
