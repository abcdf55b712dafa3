"""The running dimensions of a flat view: from end 1 along the heel, and from the heel across the face.

>>> placed([0.0, 0.25, 2.0], 0.5)
[-0.125, 0.375, 2.0]
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import NamedTuple

from anglelib.drawing.dimensions import spread
from anglelib.geometry.taper import Number
from anglelib.job import Shop
from anglelib.paper.flat import LETTER, Item, Ordinate
from anglelib.part import Part

CLEAR = 1.7 * LETTER
"""Between one figure and the next [in]."""


class Mark(NamedTuple):
    """A feature with a figure: its distance from the datum (or the heel), where it is across."""

    at: Number
    across: float


def placed(places: Sequence[float], gap: float) -> list[float]:
    """Where figures stand so that none touches the next, each moved as little as can be."""
    return spread(places, [gap] * (len(places) - 1), -1e9, 1e9)


def figures(
    part: Part,
    shop: Shop,
    marks: Iterable[Mark],
    heights: Iterable[Mark],
    up: int,
    reach: float,
    written: Callable[[Number], str],
) -> list[Item]:
    """The figures: those along the heel beyond the toe, ``reach`` from the heel; the heights beyond end 2, those at end 1 before it."""
    items: list[Item] = []
    along = _once(marks, keep=max)
    beyond = up * (reach + 3 * LETTER)
    for mark, x in zip(along, placed([float(mark.at) for mark in along], CLEAR), strict=True):
        items.append(Ordinate("x", (float(mark.at), up * mark.across), (x, beyond), written(mark.at)))
    edge = float(part.length + shop.allowance + shop.kerf) + 4 * LETTER
    listed = list(heights)
    for rows, foot in ((_once([m for m in listed if m.across > 0], keep=max), edge), (_once([m for m in listed if m.across <= 0], keep=max), -3 * LETTER)):
        for mark, y in zip(rows, placed([float(mark.at) for mark in rows], CLEAR), strict=True):
            items.append(Ordinate("y", (mark.across, up * float(mark.at)), (foot, up * y), written(mark.at)))
    return items


def _once(marks: Iterable[Mark], keep: Callable) -> list[Mark]:
    """One mark for each distance, in order; of several at one place the one nearest to the figures."""
    found: dict[float, Mark] = {}
    for mark in marks:
        key = round(float(mark.at), 9)
        found[key] = keep(found[key], mark, key=lambda m: m.across) if key in found else mark
    return [found[key] for key in sorted(found)]
