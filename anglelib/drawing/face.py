"""One face of a part on the paper: inches along and across it to millimetres, long parts broken.

A face's points are (x, h): x along the heel from end 1, h from the heel, both [in]. A part too long
for its place is drawn in stretches with a break between them; each stretch is to scale.

>>> axis = Axis.fit(90, features=[0.5, 89.5], room=180, unit=25.4, left=10)
>>> axis.broken, len(axis.stretches), round(axis.right - axis.left)
(True, 2, 180)
>>> axis.at(0)
10.0
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from anglelib.drawing.sheet import Group, Hatch, Item, Line, Point, Polyline, polygon
from anglelib.drawing.symbols import zigzag

GAP = 5.0
"""Paper between the two lines of a break [mm]."""
_LEAST = 0.3
"""What is shown at least on either side of a feature of a broken part [in]."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """A piece of the part that is shown, from ``start`` to ``end`` [in], its start at ``left`` on the paper [mm]."""

    start: float
    end: float
    left: float


@dataclass(frozen=True, slots=True)
class Axis:
    """The way from x on the part [in] to x on the paper [mm]; ``unit`` is millimetres an inch."""

    stretches: tuple[Stretch, ...]
    unit: float

    @classmethod
    def fit(cls, length: float, features: Iterable[float | Point], room: float, unit: float, left: float = 0.0) -> Axis:
        """The whole length if the room [mm] allows, else as much as it allows round both ends and each feature.

        A feature is a place x or a pair (from, to) that is never broken, such as a taper. If even that
        does not fit the axis comes out longer than the room: a smaller scale is needed.
        """
        if length * unit <= room:
            return cls((Stretch(0.0, length, left),), unit)
        whole = [(f, f) if isinstance(f, (int, float)) else f for f in (0.0, length, *features)]
        places = sorted((min(max(float(a), 0.0), length), min(max(float(b), 0.0), length)) for a, b in whole)

        def shown(margin: float) -> list[tuple[float, float]]:
            spans: list[tuple[float, float]] = []
            for first, last in places:
                start, end = max(0.0, first - margin), min(length, last + margin)
                if spans and start - spans[-1][1] < 2 * GAP / unit:  # a break must save more than it costs
                    spans[-1] = (spans[-1][0], max(end, spans[-1][1]))
                else:
                    spans.append((start, end))
            return spans

        def width(spans: list[tuple[float, float]]) -> float:
            return math.fsum((end - start) * unit for start, end in spans) + GAP * (len(spans) - 1)

        low, high = _LEAST, length
        if width(shown(low)) <= room:
            for _ in range(24):
                middle = (low + high) / 2
                low, high = (middle, high) if width(shown(middle)) <= room else (low, middle)
        stretches, at = [], left
        for start, end in shown(low):
            stretches.append(Stretch(start, end, at))
            at += (end - start) * unit + GAP
        return cls(tuple(stretches), unit)

    @property
    def broken(self) -> bool:
        """Whether something is left out."""
        return len(self.stretches) > 1

    @property
    def left(self) -> float:
        """Where end 1 lies [mm]."""
        return self.stretches[0].left

    @property
    def right(self) -> float:
        """Where end 2 lies [mm]."""
        last = self.stretches[-1]
        return last.left + (last.end - last.start) * self.unit

    def at(self, x: float) -> float:
        """x on the paper [mm]; what a break leaves out is squeezed into its gap."""
        x = float(x)
        before = self.stretches[0]
        for stretch in self.stretches:
            if x < stretch.start and stretch is not before:
                edge = before.left + (before.end - before.start) * self.unit
                return edge + (x - before.end) / (stretch.start - before.end) * GAP
            if x <= stretch.end:
                return stretch.left + (x - stretch.start) * self.unit
            before = stretch
        return before.left + (x - before.start) * self.unit


def clip(points: Sequence[Point], inside: Callable[[float, float], float]) -> list[Point]:
    """The part of a polygon where a linear function is not negative (Sutherland and Hodgman, one edge)."""
    kept: list[Point] = []
    for (x1, h1), (x2, h2) in zip(points, [*points[1:], *points[:1]]):
        f1, f2 = inside(x1, h1), inside(x2, h2)
        if f1 >= 0:
            kept.append((x1, h1))
        if (f1 > 0 > f2) or (f1 < 0 < f2):
            t = f1 / (f1 - f2)
            kept.append((x1 + t * (x2 - x1), h1 + t * (h2 - h1)))
    return [p for i, p in enumerate(kept) if math.dist(p, kept[i - 1]) > 1e-9] if len(kept) > 1 else kept


@dataclass(frozen=True, slots=True)
class Face:
    """A face laid on the paper: its heel at height ``heel`` [mm], h running up (1) or down (-1)."""

    axis: Axis
    heel: float
    up: int = 1

    def h(self, h: float) -> float:
        """A distance from the heel [in] as a height on the paper [mm]."""
        return self.heel + self.up * float(h) * self.axis.unit

    def at(self, x: float, h: float) -> Point:
        """A point of the face on the paper [mm]."""
        return self.axis.at(x), self.h(h)

    def _pieces(self, points: Sequence[Point]) -> Iterable[tuple[Stretch, list[Point]]]:
        """The polygon's part in each stretch that is shown, in inches."""
        stretches = self.axis.stretches
        for i, stretch in enumerate(stretches):
            piece = list(points)
            if i > 0:
                piece = clip(piece, lambda x, h, s=stretch: x - s.start)
            if i < len(stretches) - 1:
                piece = clip(piece, lambda x, h, s=stretch: s.end - x)
            if len(piece) > 2:
                yield stretch, piece

    def region(self, points: Sequence[Point], kind: str = "outline", fill: str = "", accent: bool = False) -> Group:
        """A polygon on the face, open where a break cuts it."""
        if not self.axis.broken:
            return (polygon([self.at(x, h) for x, h in points], kind, fill, accent),)
        items: list[Item] = []
        for stretch, piece in self._pieces(points):
            paper = [self.at(x, h) for x, h in piece]
            if fill:
                items.append(polygon(paper, "", fill, accent))
            cut = {stretch.start if stretch is not self.axis.stretches[0] else None,
                   stretch.end if stretch is not self.axis.stretches[-1] else None}  # fmt: skip
            chains = _chains(piece, paper, cut)
            items += [Polyline(tuple(chain), kind, accent=accent) for chain in chains]
        return tuple(items)

    def hatch(self, points: Sequence[Point], angle: float = 45, spacing: float = 1.4) -> Group:
        """Hatching over a polygon on the face, left out where it would be too fine to print."""
        shown = []
        for _, piece in self._pieces(points):
            paper = tuple(self.at(x, h) for x, h in piece)
            if max(p[0] for p in paper) - min(p[0] for p in paper) > 0.3:
                shown.append(Hatch(paper, angle, spacing))
        return tuple(shown)

    def path(self, points: Sequence[Point], kind: str = "outline", accent: bool = False) -> Group:
        """A chain of straight pieces on the face; what a break leaves out is not drawn."""
        items: list[Item] = []
        for i, stretch in enumerate(self.axis.stretches):
            low = -math.inf if i == 0 else stretch.start
            high = math.inf if i == len(self.axis.stretches) - 1 else stretch.end
            chain: list[Point] = []
            for (x1, h1), (x2, h2) in zip(points, points[1:]):
                ends = _within(x1, x2, low, high)
                if ends is None:
                    if chain:
                        items.append(_chain_item(chain, kind, accent))
                        chain = []
                    continue
                a, b = ((x1 + t * (x2 - x1), h1 + t * (h2 - h1)) for t in ends)
                if not chain:
                    chain = [self.at(*a)]
                chain.append(self.at(*b))
            if chain:
                items.append(_chain_item(chain, kind, accent))
        return tuple(items)

    def breaks(self, low: float, high: float) -> Group:
        """The break lines over the heights low to high [in]."""
        bottom, top = sorted((self.h(low), self.h(high)))
        items: list[Item] = []
        for before, after in zip(self.axis.stretches, self.axis.stretches[1:]):
            items.append(zigzag(before.left + (before.end - before.start) * self.axis.unit, bottom, top))
            items.append(zigzag(after.left, bottom, top))
        return tuple(items)


def _chain_item(chain: list[Point], kind: str, accent: bool) -> Item:
    if len(chain) == 2:
        return Line(*chain[0], *chain[1], kind, accent)
    return Polyline(tuple(chain), kind, accent=accent)


def _within(x1: float, x2: float, low: float, high: float) -> tuple[float, float] | None:
    """The part of the way from x1 to x2 that lies between low and high, as fractions of the way."""
    if x1 == x2:
        return (0.0, 1.0) if low <= x1 <= high else None
    a, b = (low - x1) / (x2 - x1), (high - x1) / (x2 - x1)
    first, last = max(0.0, min(a, b)), min(1.0, max(a, b))
    return (first, last) if first < last else None


def _chains(piece: list[Point], paper: list[Point], cut: set) -> list[list[Point]]:
    """The polygon's edges on the paper without those that lie on a break."""

    def on_break(i: int) -> bool:
        j = (i + 1) % len(piece)
        return any(c is not None and abs(piece[i][0] - c) < 1e-9 and abs(piece[j][0] - c) < 1e-9 for c in cut)

    count = len(piece)
    starts = [i for i in range(count) if on_break(i)]
    if not starts:
        return [[*paper, paper[0]]]
    chains = []
    for start in starts:
        chain = [paper[(start + 1) % count]]
        i = (start + 1) % count
        while not on_break(i):
            i = (i + 1) % count
            chain.append(paper[i])
        if len(chain) > 1:
            chains.append(chain)
    return chains
