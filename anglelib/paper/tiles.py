"""Which stretches of a part are printed at 1:1, and how a long stretch is laid over several papers.

Only metal with something to mark is worth paper: ends that are cut, and holes. The bare length
between is left out and said. A stretch that is longer than the paper is tiled; two tiles meet at a
joint, which has a letter, and the first has a flap on which the second is pasted.

>>> from anglelib.part import Hole, Taper
>>> from anglelib.section import Section
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> rail = Part("R1", "Rail", stock, "6061-T6", 30, tapers=[Taper("A", 1, "3/8", run=9)], holes=[Hole("A", 20, "1/2", "1/8")])
>>> [(t.low, t.high, t.joint_before, t.joint_after) for t in tiles(rail, 184)]
[(0.0, 4.75, '', 'A'), (4.75, 9.75, 'A', ''), (19.0, 21.0, '', '')]
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from anglelib.geometry.layout import witness_line
from anglelib.geometry.taper import taper_lines
from anglelib.part import Part

INCH = 25.4
MARGIN = 0.75
"""What is shown of the whole leg beside a cut or a hole [in]."""
NEAR_END = 2.5
"""A stretch that comes so near to an end is carried on to it, so that the paper can be set on the end [in]."""
BRIDGED = 2.0
"""Bare metal shorter than this is not left out [in]."""
GRID = {"in": 0.25, "mm": 5 / INCH}
"""Where a stretch or a tile may end, by the unit of the part: on quarters of an inch, on 5 mm [in]."""
FLAP = 8.0
"""What a tile shows beyond its joint, for the paste [mm]."""
SIDE, PLAIN = 40.0, 8.0
"""Room beside an end with figures, and beside any other edge [mm]."""


@dataclass(frozen=True, slots=True)
class Tile:
    """A stretch on one paper, from x = ``low`` to ``high`` [in]; the letters of its joints, "" for none."""

    low: float
    high: float
    joint_before: str = ""
    joint_after: str = ""

    @property
    def shown(self) -> float:
        """How far the paper reaches, its flap included [in]."""
        return self.high + (FLAP / INCH if self.joint_after else 0.0)


def marked(part: Part) -> bool:
    """Whether there is anything on the part for which a template helps."""
    return bool(part.tapers or part.holes or part.corners or part.copes)


def features(part: Part) -> list[tuple[float, float]]:
    """From where to where along the heel each cut and hole reaches [in]."""
    length = float(part.length)
    spans: list[tuple[float, float]] = []
    for end, deep in (
        [(line.end, float(line.run)) for line in taper_lines(part)]
        + [(cope.end, float(cope.length)) for cope in part.copes]
        + [(corner.end, 2 * float(corner.radius)) for corner in part.corners]
    ):
        deep = min(deep, length)
        spans.append((0.0, deep) if end == 1 else (length - deep, length))
    spans += [(float(hole.x - hole.diameter / 2), float(hole.x + hole.diameter / 2)) for hole in part.holes]
    witness = witness_line(part)
    if witness is not None:
        spans.append((float(witness) - 0.1, float(witness) + 0.1))
    return spans


def stretches(part: Part, whole: bool = False) -> list[tuple[float, float]]:
    """The stretches that are worth paper, or the whole part; their ends on the grid where no end of the part is."""
    length = float(part.length)
    if whole:
        return [(0.0, length)]
    found: list[tuple[float, float]] = []
    for low, high in sorted(features(part)):
        grid = GRID[part.unit]
        low, high = math.floor((low - MARGIN) / grid + 1e-9) * grid, math.ceil((high + MARGIN) / grid - 1e-9) * grid
        low, high = (0.0 if low < NEAR_END else low), (length if high > length - NEAR_END else high)
        if found and low - found[-1][1] < BRIDGED:
            found[-1] = (found[-1][0], max(high, found[-1][1]))
        else:
            found.append((low, high))
    return found


def cut_at(part: Part, end: int) -> bool:
    """Whether anything but the square cut is made at an end."""
    return any(feature.end == end for feature in (*part.tapers, *part.copes, *part.corners))


def sides(part: Part, low: float, high: float) -> tuple[float, float]:
    """Room for figures left and right of a tile [mm]."""
    left = SIDE if low == 0 else PLAIN
    return left, SIDE if high == float(part.length) and cut_at(part, 2) else PLAIN


def tiles(part: Part, room: float, whole: bool = False) -> tuple[Tile, ...]:
    """The tiles of all stretches on a paper with so much room across [mm]."""
    found: list[Tile] = []
    letters = _letters()
    for low, high in stretches(part, whole):
        joints = _joints(part, low, high, room)
        names = ["", *(next(letters) for _ in joints), ""]
        edges = [low, *joints, high]
        found += [Tile(edges[i], edges[i + 1], names[i], names[i + 1]) for i in range(len(edges) - 1)]
    return tuple(found)


def in_rows(part: Part, laid: Sequence[Tile], room: float) -> list[list[tuple[Tile, float]]]:
    """The tiles side by side where they fit, each with its breadth on the page [mm]."""
    rows: list[list[tuple[Tile, float]]] = []
    left = 0.0
    for tile in laid:
        wide = (tile.shown - tile.low) * INCH + sum(sides(part, tile.low, tile.high))
        if not rows or wide > left:
            rows.append([])
            left = room
        rows[-1].append((tile, wide))
        left -= wide
    return rows


def _joints(part: Part, low: float, high: float, room: float) -> list[float]:
    """Where a stretch is cut into the fewest tiles of about one length, on the grid."""
    count, grid = 1, GRID[part.unit]
    while True:
        joints = [math.floor((low + (high - low) * i / count) / grid + 1e-9) * grid for i in range(1, count)]
        edges = [low, *joints, high]
        if all(_fits(part, edges[i], edges[i + 1], i < count - 1, room) for i in range(count)):
            return joints
        count += 1


def _fits(part: Part, low: float, high: float, jointed: bool, room: float) -> bool:
    return (high - low) * INCH + (FLAP if jointed else 0.0) + sum(sides(part, low, high)) <= room


def _letters():
    """A, B, ... Z, AA, AB, ..."""
    count = 0
    while True:
        name, n = "", count
        while True:
            name = chr(65 + n % 26) + name
            n = n // 26 - 1
            if n < 0:
                break
        yield name
        count += 1
