"""Marks stepped off, each from the last, against marks laid out from the datum: where they come to lie, and how the error grows.

Above the leg with both sets of marks, drawn to scale; below it the error of each mark, as so many 64ths.

>>> print(stepping_sheet(Row(Fraction(3, 2), 8, Fraction(1, 64))).sentence)
A leg, end 1 (the datum) at the left, 8 marks 1 1/2 (1.500) apart. Stepped off from mark to mark, every step 1/64 (0.016) long, the last lies 1/8 (0.125) too far: 8 times the error of one step. Were the errors independent, now long, now short, 0.044 would be usual: the root of 8 times it. From the datum no mark is off by more than the one reading, 1/64 (0.016).
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from itertools import accumulate
from math import cos, pi, sin

from anglelib.drawing.dimensions import arrow, spread
from anglelib.drawing.sheet import Circle, Group, Item, Label, Line, Polyline, Sheet, move, polygon
from anglelib.drawing.symbols import datum_sign, zigzag
from anglelib.geometry.chain import running, stepping_error, stepping_scatter
from anglelib.lengths import both, decimal, exact

WIDTH, HEIGHT = 234.0, 112.0
LETTER = 3.5
LEFT, LONG = 36.0, 136.0
LEG, BACK = 79.0, 95.0
"""The leg's lower and upper edge [mm]."""
BASE, SIXTEENTH = 13.0, 9.4
"""Where the error is nought, and how high 1/16 of error is drawn [mm]."""
UNDER = LEG - 14
"""What lies under the leg: the errors."""
WAYS = {"same": "all the same way", "mixed": "now long, now short"}
"""How the steps err, by id, in words."""
SAME, MIXED = WAYS
SIGNS = (1, 1, -1, 1, -1, 1, 1, -1, 1, -1)
"""One row of steps that are now long, now short."""
MOST = len(SIGNS)
TOP = Fraction(5, 16)


@dataclass(frozen=True)
class Row:
    """So many marks a pitch apart [in], each step wrong by ``error`` [in], all the same way or now long, now short."""

    pitch: Fraction
    count: int
    error: Fraction
    way: str = SAME

    @property
    def errors(self) -> tuple[Fraction, ...]:
        """The error of every mark that is stepped off [in]."""
        signs = SIGNS[: self.count] if self.way == MIXED else (1,) * self.count
        return tuple(accumulate(sign * self.error for sign in signs))


@dataclass(frozen=True)
class Shown:
    """``answer``: whether stepped marks and their errors are drawn; ``prediction`` [in] of the last error; ``few`` labels."""

    answer: bool = True
    prediction: Fraction | None = None
    few: bool = False


def stepping_sheet(row: Row, shown: Shown = Shown()) -> Sheet:
    """The leg with its marks, and the errors under it."""
    if not shown.answer:  # no graph without its points
        return Sheet(WIDTH, HEIGHT - UNDER, move(_leg(row, shown), 0, -UNDER), "Stepping off", stepping_sentence(row, shown))
    items = (*_leg(row, shown), *_errors(row, shown))
    return Sheet(WIDTH, HEIGHT, items, "Stepping off", stepping_sentence(row, shown))


def _unit(row: Row) -> float:
    return LONG / float(row.pitch * row.count + TOP)


def _leg(row: Row, shown: Shown) -> Group:
    unit, places = _unit(row), running((row.pitch,) * row.count)
    far = LEFT + LONG + 8
    items: list[Item] = [
        Polyline(((far, BACK), (LEFT, BACK), (LEFT, LEG), (far, LEG)), "outline"),
        zigzag(far, LEG, BACK),
        *datum_sign(LEFT, (LEG + BACK) / 2, "end 1"),
    ]
    hops = [0.0, *(float(p + e) for p, e in zip(places, row.errors))] if shown.answer else [0.0, *map(float, places)]
    for one, two in zip(hops, hops[1:]):
        items.append(_hop(LEFT + one * unit, LEFT + two * unit, shown.answer))
    for place in places:
        x = LEFT + float(place) * unit
        items.append(Line(x, LEG, x, (LEG + BACK) / 2, "mark"))
    if shown.answer:
        for place in hops[1:]:
            items.append(Line(LEFT + place * unit, (LEG + BACK) / 2, LEFT + place * unit, BACK, "mark", True))
    items += _from_datum(places, unit)
    items.append(Label(far + 5, BACK, "stepped off", LETTER, "start", "middle", accent=shown.answer))
    items.append(Label(far + 5, LEG - 3, "from the datum", LETTER, "start", "middle"))
    return tuple(items)


def _hop(one: float, two: float, accent: bool) -> Polyline:
    """A step of the dividers, an arc from mark to mark over the leg."""
    middle, half = (one + two) / 2, (two - one) / 2
    rise = min(9.0, half)
    turns = [pi * i / 16 for i in range(17)]
    return Polyline(tuple((middle - half * cos(a), BACK + 1 + rise * sin(a)) for a in turns), "dimension", accent=accent)


def _from_datum(places: tuple[Fraction, ...], unit: float) -> Group:
    """The running dimensions: one line from the datum's ring, an arrow at every mark."""
    y, last = LEG - 6, LEFT + float(places[-1]) * unit
    items: list[Item] = [Circle(LEFT, y, 1.05, "dimension"), Line(LEFT + 1.05, y, last, y, "dimension"), Line(LEFT, LEG - 1, LEFT, y + 1.05, "dimension")]
    for place in places:
        x = LEFT + float(place) * unit
        items += [Line(x, LEG - 1, x, y - 1.5, "dimension"), arrow(x, y, 0)]
    return tuple(items)


# --- the errors -----------------------------------------------------------------------------------------
def _errors(row: Row, shown: Shown) -> Group:
    unit, places = _unit(row), running((row.pitch,) * row.count)
    far = LEFT + LONG

    def at(place: Fraction | float, error: Fraction | float) -> tuple[float, float]:
        return LEFT + float(place) * unit, BASE + float(error) * 16 * SIXTEENTH

    items: list[Item] = [Line(LEFT, BASE, far, BASE, "narrow"), Line(LEFT, BASE, LEFT, BASE + 5 * SIXTEENTH, "narrow")]
    for n in range(0, 6):
        y = BASE + n * SIXTEENTH
        items.append(Line(LEFT - 1.5, y, LEFT, y, "narrow"))
        if not shown.few and n:
            items.append(Label(LEFT - 3, y, exact(Fraction(n, 16)), LETTER, "end", "middle"))
    if not shown.few:
        items.append(Label(LEFT, BASE - 5, "how far each mark is off, in.", LETTER, "start", "top"))
    last = places[-1]
    if shown.prediction is not None:
        y = at(0, min(shown.prediction, TOP + Fraction(1, 64)))[1]
        items.append(Line(LEFT, y, far, y, "ghost"))
    count = row.count
    items.append(polygon((at(0, 0), at(last, stepping_error(count, row.error)), at(last, 0)), "narrow"))
    root = [at(last * i / 24, stepping_scatter(1, float(row.error)) * (count * i / 24) ** 0.5) for i in range(25)]
    items += [Polyline(tuple(root), "hidden"), Line(*at(0, row.error), *at(last, row.error), "centre")]
    walk = [(0, Fraction(0)), *zip(places, row.errors)]
    items.append(Polyline(tuple(at(place, error) for place, error in walk), "mark", accent=True))
    items += [Circle(*at(place, error), 1.0, "", "accent", True) for place, error in walk[1:]]
    return (*items, *_called(row, at, last))


def _called(row: Row, at, last: Fraction) -> Group:
    """What each line is, beside its end."""
    rows = [
        (stepping_error(row.count, row.error), f"worst: {exact(stepping_error(row.count, row.error))}"),
        (stepping_scatter(row.count, float(row.error)), f"usual: {decimal(stepping_scatter(row.count, float(row.error)))}"),
        (row.error, f"datum: {exact(row.error)}"),
    ]
    rows = sorted(rows, key=lambda pair: float(pair[0]))
    levels = spread([at(0, value)[1] for value, _ in rows], [1.7 * LETTER] * 2, BASE, BASE + 5.2 * SIXTEENTH)
    items: list[Item] = []
    x = at(last, 0)[0]
    for (value, text), level in zip(rows, levels):
        y = at(0, value)[1]
        items += [Polyline(((x + 2, y), (LEFT + LONG + 4, level), (LEFT + LONG + 6, level)), "dimension")]
        items.append(Label(LEFT + LONG + 7.5, level, text, LETTER, "start", "middle"))
    return tuple(items)


# --- in words -------------------------------------------------------------------------------------------
def stepping_sentence(row: Row, shown: Shown = Shown()) -> str:
    """What the picture shows, in words."""
    marks = f"{row.count} marks {both(row.pitch)} apart" if row.count > 1 else f"1 mark {both(row.pitch)} from it"
    words = f"A leg, end 1 (the datum) at the left, {marks}."
    if not shown.answer:
        return f"{words} Where they lie when they are stepped off, each from the last, is not shown yet."
    if not row.error:
        return f"{words} With no error in a step the marks that are stepped off lie where they should."
    worst, usual = stepping_error(row.count, row.error), stepping_scatter(row.count, float(row.error))
    times = f"{row.count} times the error of one step"
    if row.way == SAME:
        words += (
            f" Stepped off from mark to mark, every step {both(row.error, 128)} long, the last lies {both(worst, 128)} too far: {times}. Were the errors "
            f"independent, now long, now short, {decimal(usual)} would be usual: the root of {row.count} times it."
        )
    else:
        words += (
            f" Stepped off with errors of {both(row.error, 128)}, now long, now short, the last of this row lies {both(row.errors[-1], 128)} off; "
            f"{decimal(usual)} is usual (the root of {row.count} times it), {both(worst, 128)} the worst ({times})."
        )
    if shown.prediction is not None:
        words += f" Your prediction is {both(shown.prediction)}."
    return f"{words} From the datum no mark is off by more than the one reading, {both(row.error, 128)}."
