"""Readings that fit nothing: no mistake, no two together, not a good part; and which of them to take again first.

Something always fits best. Where even that lies farther off than one set of readings in ten thousand would, by scatter and
errors of reading alone, no cause is named: something was misread, or is not in the table of mistakes.

>>> from anglelib.inspection.likelihood import CALIPER, Workmanship, model_of
>>> from anglelib.job import Shop
>>> from anglelib.part import Part
>>> from anglelib.section import Section
>>> bar = Part("A3", "Floor bar", Section("3/4", "3/4", "1/8", fillet="1/8"), "6061-T6", "17 1/4")
>>> model = model_of(bar, Shop(), ("heel", "toe.A", "toe.B"), (CALIPER,) * 3, Workmanship())
>>> read_again(model, (17.25, 17.85, 17.25), ()), read_again(model, (17.19, 17.18, 17.19), ())
('toe.A', '')
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import fsum, sqrt

from anglelib.inspection.likelihood import Model

RARE = 3.719
"""Beyond so many standard deviations of a normal lies one in ten thousand."""


def farthest(count: int) -> float:
    """The square of the distance that one set of so many readings in ten thousand exceeds: Wilson and Hilferty's formula for chi-square.

    >>> [round(farthest(count), 1) for count in (1, 7)]  # tables have 15.1 and 29.9: a little on the safe side
    [16.2, 30.4]
    """
    part = 2 / (9 * count)
    return count * (1 - part + RARE * sqrt(part)) ** 3


def read_again(model: Model, values: Sequence[float], likeliest: Iterable[tuple[int, ...]]) -> str:
    """The reading to take again first, where the readings fit none of these, the likeliest first, nor any candidate; "" where one fits.

    Each is one candidate, or two together, by their places.
    """
    fits = []
    for places in (*likeliest, *((place,) for place in model.nearest(values))):
        kind = places[0] if len(places) == 1 else 0
        rest = [value - mean for value, mean in zip(values, model.predicted(*places), strict=True)]
        distance = fsum(v * v for v in model.white(rest, kind))
        if distance <= farthest(len(values)):
            return ""
        fits.append((distance, kind, rest))
    _, kind, rest = min(fits)
    return model.names[model.oddest(rest, kind)]
