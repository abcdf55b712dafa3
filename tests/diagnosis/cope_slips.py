"""The bench: what each mistake does to copes and rounded corners, in the trade's words; the ways of :mod:`bench_slips` are without them.

A cope has two lines, one across the leg and one along it; each is sawn, each is read off the drawing.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

import bench_slips as bench
from bench_slips import Way
from sawn_metal import AXIS, Work


def _lines(work: Work, change: Callable[[float], float], back: bool = True, beside: bool = True) -> Iterator[Way]:
    """One line of one cope elsewhere: how far back it goes, or what it leaves beside it."""
    for i, notch in enumerate(work.notches):
        if back:
            yield _way(bench._nth(work, "notches", i, length=change(notch.length)))
        if beside:
            yield _way(bench._nth(work, "notches", i, left=change(notch.left)))


def _way(made: Work, weight: float = 1.0) -> Way:
    return Way(weight, "cope", lambda u: made)


def cope_ways(part, work: Work, kerf: float, allowance: float, misread=bench._misread, start: float = 1.0, ratio: float = 16 / 25.4) -> dict[str, list[Way]]:
    """The further ways of each mistake on a part with copes or rounded corners.

    ``misread`` gives the numbers that one may be taken for, ``start`` where a rule is begun [in], ``ratio`` what another unit makes of it.
    """
    found: dict[str, list[Way]] = {}
    for id_, lost in (("M01", kerf), ("M02", kerf / 2), ("M04", allowance), ("M05", -allowance)):
        # What is sawn away too much lengthens the cope and narrows what it leaves.
        found[id_] = [*_lines(work, lambda v, d=lost: v + d, beside=False), *_lines(work, lambda v, d=lost: v - d, back=False)]
    found["M07"] = [way for by in (-start, start) for way in _lines(work, lambda v, d=by: v + d, beside=False)]
    found["M27"] = list(_lines(work, lambda v: v * ratio, beside=False))
    found["M11"] = [
        _way(bench._nth(work, "notches", i, left=notch.left + work.thick[2 - AXIS[notch.leg]])) for i, notch in enumerate(work.notches)
    ]
    found["M08"] = []
    for kind, names in (("notches", ("length", "left")), ("arcs", ("radius",))):
        for i, cut in enumerate(getattr(work, kind)):
            for name in names:
                wrong = misread(getattr(cut, name))
                total = sum(weight for _, weight in wrong)
                found["M08"] += [_way(bench._nth(work, kind, i, **{name: value}), weight / total) for value, weight in wrong]
    if len(work.notches) == 1 and not work.lines:
        found["M10"] = [_way(bench._nth(work, "notches", 0, end=3 - work.notches[0].end))]
    return {id_: ways for id_, ways in found.items() if ways}


def turned_ways(part, work: Work) -> list[Way]:
    """The cuts on the other leg; all features as on the other hand: what M09 is on a part with copes or rounded corners."""
    other = {"A": "B", "B": "A"}

    def turned(*kinds: str) -> Work:
        return replace(work, **{kind: tuple(replace(cut, leg=other[cut.leg]) for cut in getattr(work, kind)) for kind in kinds})

    ways = []
    if work.lines or work.notches:
        ways.append(_way(turned("lines", "notches")))
    if work.width[0] == work.width[1] and work.thick[0] == work.thick[1] and part.handed:
        ways.append(_way(turned("lines", "notches", "arcs", "dots")))
    return ways
