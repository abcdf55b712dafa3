"""A printer that does not print 1:1: what its bars measured, and the drawing that makes up for it.

Printed at actual size, a page may still come out a little large or small, and not by the same amount
across and up the page. Measure the check bars of one print; the next is drawn by the inverse, so that
its bars, and all else that is 1:1, measure what they say.

>>> scale = measured("99.2 mm")
>>> round(scale.across, 3), round(scale.up, 3)
(0.992, 0.992)
>>> measured("99.2 mm, 100.3 mm").words
'Drawn for a printer that prints 100 mm as 99.2 mm across the page and 100.3 mm up: on any other this print is wrong. Measure the bars.'
>>> measured("3 31/32 in").across == 127 / 128
True
>>> measured("94 mm")
Traceback (most recent call last):
    ...
anglelib.errors.BenchError: A bar of 94 mm instead of 100 mm is a page fitted to the paper: print at actual size (100 %), then measure again.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction

from anglelib.drawing.sheet import Arc, Circle, Group, Hatch, Item, Label, Line, Polyline, polygon
from anglelib.drawing.symbols import check_bar
from anglelib.errors import BenchError, LengthError
from anglelib.lengths import MM, decimal, named_unit, read
from anglelib.names import visible
from anglelib.paper.fold_strip import ink
from anglelib.paper.page import SMALL, Page, Paper

MOST = Fraction(2, 100)
"""A printer may be off by this share; more is a page that was fitted."""


@dataclass(frozen=True, slots=True)
class PrintScale:
    """How long the printer makes what should be 1: across the page, and up it."""

    across: float = 1.0
    up: float = 1.0

    @property
    def words(self) -> str:
        """What a corrected page says of itself; "" where nothing is corrected."""
        if self == AS_PRINTED:
            return ""
        across, up = (f"{100 * value:.2f}".rstrip("0").rstrip(".") for value in (self.across, self.up))
        how = f"{across} mm" if across == up else f"{across} mm across the page and {up} mm up"
        return f"Drawn for a printer that prints 100 mm as {how}: on any other this print is wrong. Measure the bars."


AS_PRINTED = PrintScale()


def measured(text: str) -> PrintScale:
    """From what the bars measured: "99.2 mm" (the 100 mm bar) or "3.97 in" (the 4 in. bar); two, with a comma: across, up."""
    parts = [part.strip() for part in text.split(",")]
    if not 1 <= len(parts) <= 2 or not all(parts):
        raise BenchError(f'"{visible(text)[:30]}" is no measured bar: write it like 99.2 mm, or "99.2 mm, 99.8 mm" for across and up the page.')
    if re.search(r"(?<![./0-9])[0-9]+,[0-9]+(?![.0-9])", text):  # two bars, or the decimals of one
        raise BenchError(
            f'The measured bar "{visible(text)[:30]}" has a comma inside a number: write the decimal with a point, like 99.2 mm, and two bars '
            'like "99.2 mm, 99.8 mm".'
        )
    found = [_factor(part) for part in parts]
    return PrintScale(found[0], found[-1])


def _factor(text: str) -> float:
    metric = named_unit(text) in ("mm", "cm", "m")
    try:
        length = read(text, what="measured bar", zero=False)
    except LengthError as error:
        raise BenchError(str(error)) from None
    nominal = 100 * MM if metric else 4
    share = length / nominal
    if abs(share - 1) > MOST:
        shown, wanted = (f"{float(length / MM):g} mm", "100 mm") if metric else (f"{decimal(length)} in.", "4 in.")
        if not metric and abs(length / 100 - 1) <= MOST:  # typed without its unit
            raise BenchError(f"A bar of {shown} is not near 4 in.: if it is the 100 mm bar, write {decimal(length).rstrip('0').rstrip('.')} mm.")
        raise BenchError(f"A bar of {shown} instead of {wanted} is a page fitted to the paper: print at actual size (100 %), then measure again.")
    return float(share)


def bars(on: Paper) -> Group:
    """The check bars: two across the page, one up its edge, for a printer that stretches one way only."""
    wide, x, y = 2.0, on.right, on.bottom
    items: list[Item] = [
        ink(x - wide, y, x - wide + 0.25, y + 100),
        ink(x - 0.25, y, x, y + 100),
        ink(x - wide, y, x, y + 0.25),
        ink(x - wide, y + 99.75, x, y + 100),
    ]
    items += [ink(x - wide, y + 10 * i, x, y + 10 * (i + 1)) for i in range(0, 10, 2)]
    items.append(Label(x - wide - 1, y + 50, "this bar is 100 mm too", SMALL, "middle", "bottom", 90))
    return (*check_bar(on.left, y), *items)


def corrected(page: Page, scale: PrintScale, on: Paper) -> Page:
    """The page drawn by the inverse of what the printer does, about the foot's middle."""
    if scale == AS_PRINTED:
        return page
    return replace(page, items=stretched(page.items, 1 / scale.across, 1 / scale.up, on.width / 2, on.bottom))


def stretched(items: Iterable[Item], fx: float, fy: float, x0: float, y0: float) -> Group:
    """The items stretched about a point; a circle becomes the outline that the printer makes round again."""

    def point(x: float, y: float) -> tuple[float, float]:
        return x0 + (x - x0) * fx, y0 + (y - y0) * fy

    found: list[Item] = []
    for item in items:
        if isinstance(item, Line):
            found.append(replace(item, **dict(zip(("x1", "y1", "x2", "y2"), (*point(item.x1, item.y1), *point(item.x2, item.y2)), strict=True))))
        elif isinstance(item, (Polyline, Hatch)):
            found.append(replace(item, points=tuple(point(*p) for p in item.points)))
        elif isinstance(item, Circle):
            ring = Arc(item.x, item.y, item.radius, 0, 360).points(72)[:-1]
            found.append(polygon((point(*p) for p in ring), item.kind, item.fill, item.accent))
        elif isinstance(item, Arc):
            found.append(Polyline(tuple(point(*p) for p in item.points(72)), item.kind, accent=item.accent))
        else:
            x, y = point(item.x, item.y)
            found.append(replace(item, x=x, y=y, height=item.height * min(fx, fy)))  # as large on the print as on any other
    return tuple(found)
