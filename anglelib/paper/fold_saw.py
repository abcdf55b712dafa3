"""Where the saw runs on an unrolled sheet, and from where on the metal falls off.

Paths are (distance from the end, v) [in], from leg B's toe to leg A's.

>>> from anglelib.part import Part, Taper
>>> from anglelib.section import Section
>>> stock = Section(1, 1, "1/8")
>>> part = Part("P1", "Trial", stock, "6061-T6", 4, tapers=[Taper("A", 1, "1/2", run=1)])
>>> [(round(d, 3), v) for d, v in saw_path(Unrolled(part, inner=False), 1, 0)]  # below 0: beyond the end
[(-1.0, -1.0), (-1.0, 0.0), (1.0, 1.0)]
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import lru_cache

from anglelib.geometry.edges import Point
from anglelib.paper.development import Zone
from anglelib.paper.unrolled import Unrolled

_NEXT = 1e-9
"""Just beside a place, where a cope begins with a step [in]."""


@lru_cache(maxsize=64)
def saw_path(sheet: Unrolled, end: int, off: float) -> list[Point]:
    """The tapers of an end moved ``off`` [in] into the waste; below 0 outside the metal."""
    lines = sheet.lines(end)
    shifts = [line.shift_along(off) if off else 0.0 for line in lines]
    points: list[Point] = []
    for zone in sheet.zones:

        def far(v: float, zone: Zone = zone) -> list[float]:
            return [zone.distance(line, v) - shift for line, shift in zip(lines, shifts, strict=True)]

        places = zone.samples() if len(lines) == 1 else _with_crossing(zone.samples(), far)
        points += [(max(far(v)), v) for v in places]
    return [p for i, p in enumerate(points) if i == 0 or math.dist(p, points[i - 1]) > 1e-12]


def waste_path(sheet: Unrolled, end: int, off: float) -> list[Point]:
    """From where on the metal at an end falls off: the tapers moved ``off`` [in], and what copes and rounded corners take."""
    lines = sheet.lines(end)
    bare = replace(sheet.part, tapers=(), holes=(), hand=None, mirror_of="", corners=()) if lines else sheet.part
    others = Unrolled(bare, sheet.inner)
    bends = {v for _, v in saw_path(sheet, end, off)} if lines else set()
    for edge in others.edge(end):
        bends |= {v + near for _, v in edge.points() for near in (-_NEXT, 0.0, _NEXT)}
    points: list[Point] = []
    for zone in sheet.zones:
        for v in sorted({zone.start, zone.end, *(v for v in bends if zone.start < v < zone.end)}):
            saw = [zone.distance(line, v) - line.shift_along(off) for line in lines]
            other = others.taken(end, v, zone)
            points.append((max([*saw, other] if other or not saw else saw), v))  # not cut off at the end, or a line would bend between places
    return points


def _with_crossing(places: Sequence[float], far: Callable[[float], list[float]]) -> list[float]:
    """The places, and those between them where one of two lines takes over from the other."""
    found = [places[0]]
    for low, high in zip(places, places[1:], strict=False):
        (a, *b), (c, *d) = far(low), far(high)
        if b and (a - b[0]) * (c - d[0]) < 0:
            found.append(low + (high - low) * (a - b[0]) / ((a - b[0]) - (c - d[0])))
        found.append(high)
    return found
