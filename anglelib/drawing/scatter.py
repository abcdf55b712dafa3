"""A hundred cuts beside one line: how many of them cross it.

The line of the part's edge lies level, much enlarged across it; every cut is drawn as the near side of
its kerf. The cuts are set apart evenly over what a saw of such scatter does, so that their count is
near the probability of :meth:`anglelib.geometry.allowance.Saw.risk`, which is exact.

>>> saw = Saw(position=0.0114, angle=0.2, edge=1.25)
>>> crossing(saw, Fraction(0)), crossing(saw, Fraction(1, 32))
(57, 1)
>>> print(scatter_sheet(saw, Fraction(0)).sentence)
A hundred cuts along an edge 1 1/4 long, set on the line with no allowance; they scatter by 0.011 in. and turn by 0.20 degrees. 57 of them cross the line, in the long run 56.0 of a hundred.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from math import radians, tan
from statistics import NormalDist

from anglelib.drawing.dimensions import linear_dimension
from anglelib.drawing.sheet import Group, Hatch, Item, Label, Line, Sheet
from anglelib.geometry.allowance import Saw
from anglelib.lengths import both, exact, show

WIDTH, HEIGHT = 220.0, 108.0
LETTER = 3.5
LEFT, RIGHT, LINE = 24.0, 160.0, 38.0
UNIT = 760.0
"""Millimetres of paper an inch, across the line."""
BOTTOM, TOP = 9.0, 100.0
"""Between these heights cuts are drawn [mm]."""
CUTS = 100


@cache
def throws() -> tuple[tuple[float, float], ...]:
    """A hundred pairs of standard normal numbers, evenly spread: where a cut lies, and how far it is turned."""
    normal = NormalDist()
    # 37 has no factor in common with 100, and spreads the second number over the first
    return tuple((normal.inv_cdf((i + 0.5) / CUTS), normal.inv_cdf(((37 * i + 11) % CUTS + 0.5) / CUTS)) for i in range(CUTS))


def gaps(saw: Saw, allowance: Fraction) -> tuple[tuple[float, float], ...]:
    """The gap between line and cut at the start and at the end of the edge, for each of the hundred [in]; below 0: crossed."""
    turn = tan(radians(saw.angle))
    start, end = -saw.pivot * saw.edge, (1 - saw.pivot) * saw.edge
    set_at = float(allowance)
    return tuple((set_at + saw.position * z + start * turn * a, set_at + saw.position * z + end * turn * a) for z, a in throws())


def crossing(saw: Saw, allowance: Fraction) -> int:
    """How many of the hundred cross the line somewhere along the edge."""
    return sum(min(pair) < 0 for pair in gaps(saw, allowance))


def scatter_sheet(saw: Saw, allowance: Fraction, *, answer: bool = True, prediction: Fraction | None = None, few: bool = False) -> Sheet:
    """The edge's line, the metal to sand, and a hundred cuts; those that cross the line stand out."""
    high = LINE + float(allowance) * UNIT
    items: list[Item] = [Hatch(((LEFT, BOTTOM), (RIGHT, BOTTOM), (RIGHT, LINE), (LEFT, LINE)), 45, 6.0)]
    if answer:
        items += _cuts(saw, allowance)
    items += [Line(LEFT - 4, LINE, RIGHT + 4, LINE, "mark", True)]
    items.append(Label(RIGHT + 7, LINE, "the line", LETTER, "start", "middle", accent=True))
    items.append(Label((LEFT + RIGHT) / 2, BOTTOM - 3, "part", LETTER, "middle", "top"))
    items.append(Label((LEFT + RIGHT) / 2, HEIGHT - 3, "waste", LETTER, "middle", "top"))
    if allowance:
        dimension = linear_dimension((LEFT, LINE), (LEFT, high), LEFT - 8, "", "y", letter=LETTER)
        items += [i for i in dimension if not isinstance(i, Label)]
        items.append(Label(3, max(high, LINE + 12) + 3, exact(allowance), LETTER, "start"))
        items.append(Line(LEFT - 4, high, RIGHT + 4, high, "hidden"))
        if high > LINE + 4.5:
            items.append(Label(RIGHT + 7, min(high, TOP - 12), "where it is set", LETTER, "start", "middle"))
    if answer:
        count = crossing(saw, allowance)
        items.append(Label(RIGHT + 7, LINE - 14, f"{count} of {CUTS}", 5.0, "start", "middle"))
        items.append(Label(RIGHT + 7, LINE - 22, "OVER THE LINE" if count else "none over it", LETTER, "start", "middle"))
    if prediction is not None:
        items.append(Label(RIGHT + 7, TOP - 4, f"you: {float(prediction):g} of {CUTS}", LETTER, "start", "middle"))
    return Sheet(WIDTH, HEIGHT, tuple(items), "A hundred cuts", scatter_sentence(saw, allowance, answer, prediction))


def _cuts(saw: Saw, allowance: Fraction) -> Group:
    """The cuts, those that stay outside first."""
    safe: list[Item] = []
    over: list[Item] = []
    for start, end in gaps(saw, allowance):
        y1, y2 = LINE + start * UNIT, LINE + end * UNIT
        drawn = _within(y1, y2)
        if drawn is None:
            continue
        if min(start, end) < 0:
            over.append(Line(*drawn, "narrow"))
        else:
            safe.append(Line(*drawn, "narrow", True))
    return (*safe, *over)


def _within(y1: float, y2: float) -> tuple[float, float, float, float] | None:
    """What lies between the heights that are drawn, of a cut from y1 at the left to y2 at the right."""
    if y1 == y2:
        return (LEFT, y1, RIGHT, y2) if BOTTOM <= y1 <= TOP else None
    low, high = sorted(((BOTTOM - y1) / (y2 - y1), (TOP - y1) / (y2 - y1)))
    low, high = max(0.0, low), min(1.0, high)
    if low >= high:
        return None
    return LEFT + low * (RIGHT - LEFT), y1 + low * (y2 - y1), LEFT + high * (RIGHT - LEFT), y1 + high * (y2 - y1)


def scatter_sentence(saw: Saw, allowance: Fraction, answer: bool = True, prediction: Fraction | None = None) -> str:
    """What the picture shows, in words."""
    place = f"{both(allowance)} outside the line" if allowance else "on the line with no allowance"
    words = (
        f"A hundred cuts along an edge {show(Fraction(saw.edge))} long, set {place}; they scatter by {saw.position:.3f} in. and turn by "
        f"{saw.angle:.2f} degrees."
    )
    if prediction is not None:
        words += f" Your prediction for the saw set on the line is {float(prediction):g} of a hundred."
    if not answer:
        return f"{words} How many cross the line is not shown yet."
    return f"{words} {crossing(saw, allowance)} of them cross the line, in the long run {100 * saw.risk(float(allowance)):.1f} of a hundred."
