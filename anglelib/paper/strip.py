"""One unrolled sheet of a template: its edges, marks and figures, in a window along the heel.

The outside sheet has leg A hanging from the heel, the inside one has it standing on the fillet: each
as it is seen when it lies where it belongs, end 1 at the left.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from anglelib.drawing.face import clip
from anglelib.drawing.outline import leg_outline
from anglelib.drawing.sheet import Circle, Group, Hatch, Item, Line, Point, polygon
from anglelib.drawing.style import NARROW, WIDE
from anglelib.drawing.symbols import zigzag
from anglelib.geometry.layout import witness_line
from anglelib.geometry.taper import Number, TaperLine, taper_lines
from anglelib.job import Shop
from anglelib.paper.development import Zone, inked, inside, outside, taper_path
from anglelib.part import Part

INCH = 25.4
MARGIN = Fraction(1, 2)
"""What is shown of the whole leg beyond the longest run [in]."""
TILE = 140.0
"""Metal shown on one page at most, along the heel [mm]."""
_HALF = NARROW / 2


def reach(part: Part, end: int) -> float:
    """How much of the part its template shows from the tapered end [in]; the witness line too if it is near."""
    longest = max(float(line.run) for line in taper_lines(part) if line.end == end) + float(MARGIN)
    witness = witness_line(part)
    if witness is not None:
        away = float(witness if end == 1 else part.length - witness) + 0.3
        if away * INCH <= TILE or away < longest:
            longest = max(longest, away)
    for hole in sorted(part.holes, key=lambda hole: hole.x if end == 1 else -hole.x):  # no hole on the paper's edge
        away, clear = float(hole.x if end == 1 else part.length - hole.x), float(hole.diameter) / 2 + 0.15
        if away - clear < longest < away + clear:
            longest = away + clear
    return min(longest, float(part.length))


@dataclass(frozen=True)
class Strip:
    """One unrolled sheet on the page: ``x0`` the end's edge, ``fold`` the height of its middle [mm]."""

    part: Part
    end: int
    shop: Shop
    inner: bool
    x0: float
    fold: float
    low: float
    high: float
    """The window along the heel that this page shows [in]."""

    @property
    def way(self) -> int:
        return 1 if self.end == 1 else -1

    @property
    def zones(self) -> tuple[Zone, ...]:
        return inside(self.part.section) if self.inner else outside(self.part.section)

    @property
    def lines(self) -> tuple[TaperLine, ...]:
        return tuple(line for line in taper_lines(self.part) if line.end == self.end)

    def at(self, d: float, v: float) -> Point:
        """A place on the paper [mm]: leg A hangs from the heel outside, and stands on the fillet inside."""
        up = 1 if self.inner else -1
        return self.x0 + self.way * (d - self.low) * INCH, self.fold + up * v * INCH

    def edge(self, leg: str) -> float:
        """v at the toe of a leg [in]."""
        return self.zones[-1].end if leg == "A" else self.zones[0].start

    def out(self, leg: str) -> int:
        """Up (1) or down (-1) from the fold to a leg's toe on the paper."""
        return (1 if leg == "A" else -1) * (1 if self.inner else -1)

    def shows(self, d: float) -> bool:
        return self.low - 1e-9 <= d <= self.high + 1e-9

    def clipped(self, points: Sequence[Point]) -> list[Point]:
        """A polygon within the window, on the paper [mm]."""
        kept = clip(clip(points, lambda d, v: d - self.low), lambda d, v: self.high - d)
        return [self.at(d, v) for d, v in kept] if len(kept) > 2 else []

    # --- what is drawn --------------------------------------------------------------------------
    def draw(self) -> Group:
        items: list[Item] = [*self._paper()]
        for line in self.lines:
            items += self._bands(line)
        items += self._shaped() + self._holes() + self._witness()
        for line in self.lines:
            items += self._finished(line)
        return tuple(items)

    def _paper(self) -> Group:
        """The sheet's edges, its ink outside, and where it folds."""
        zones = self.zones
        bottom, top = sorted((self.at(0, zones[0].start)[1], self.at(0, zones[-1].end)[1]))
        left, right = self.at(self.low, 0)[0], self.at(self.high, 0)[0]
        items: list[Item] = [_edge((left, bottom), (right, bottom), (0, -1)), _edge((left, top), (right, top), (0, 1))]
        if self.low == 0:
            items.append(_edge((left, bottom), (left, top), (-self.way, 0)))
        else:
            items += self._joint(left, bottom, top)
        if abs(self.high - float(self.part.length)) < 1e-9:
            items.append(_edge((right, bottom), (right, top), (self.way, 0)))
        elif abs(self.high - reach(self.part, self.end)) < 1e-9:
            items.append(zigzag(right, bottom, top))
        else:
            items += self._joint(right, bottom, top)
        for zone in zones:
            if not zone.leg:
                items += [Line(left, y, right, y, "tangent") for y in (self.at(0, zone.start)[1], self.at(0, zone.end)[1])]
        if not self.inner or not self.part.section.fillet:
            items.append(Line(left, self.fold, right, self.fold, "fold"))
        return tuple(items)

    def _joint(self, x: float, bottom: float, top: float) -> Group:
        """Where this page's paper meets the next page's: the line, and half a mark on either edge."""
        items: list[Item] = [Line(x, bottom - 4, x, top + 4, "cut")]
        for y, way in ((bottom, -1), (top, 1)):
            items.append(polygon(((x, y), (x - 2, y + way * 3.4), (x + 2, y + way * 3.4)), "", "ink"))
        return tuple(items)

    def _bands(self, line: TaperLine) -> Group:
        """The metal to sand, hatched, and the band that the saw removes."""
        allowance, kerf = float(self.shop.allowance), float(self.shop.kerf)
        items: list[Item] = []
        if allowance:
            # from within the line's ink: the corners of a hatch line's end would stick out on the part's side
            start = NARROW / 2 / INCH
            sand = self.clipped([*taper_path(self.zones, line, start), *reversed(taper_path(self.zones, line, allowance))])
            if sand:
                items.append(Hatch(tuple(sand), 45 * self.out(line.leg) * -self.way, 1.2))
        if kerf:
            near, far = (off + _HALF / INCH for off in (allowance, allowance + kerf))  # the inks' edges towards the part
            band = [*taper_path(self.zones, line, near), *reversed(taper_path(self.zones, line, far))]
            points = self.clipped(band)
            if points:
                items.append(polygon(points, "cut", "paper"))
        return tuple(items)

    def _finished(self, line: TaperLine) -> Group:
        allowance = float(self.shop.allowance) * INCH
        width = WIDE if allowance >= 2 * WIDE or not allowance else NARROW
        points = self.clipped(inked(taper_path(self.zones, line), width / INCH))
        return (polygon(points, "", "accent"),) if points else ()

    def _flat(self, leg: str) -> Zone:
        return self.zones[-1] if leg == "A" else self.zones[0]

    def _shaped(self) -> Group:
        """The finished outline where an end also has a cope or a rounded corner."""
        if self.inner:
            return ()
        items: list[Item] = []
        for leg in ("A", "B"):
            if any((f.leg, f.end) == (leg, self.end) for f in (*self.part.corners, *self.part.copes)):
                zone, length = self._flat(leg), float(self.part.length)
                outline = [(x if self.end == 1 else length - x, zone.place(h)) for x, h in leg_outline(self.part, leg)]
                points = self.clipped(outline)
                if points:
                    items.append(polygon(points, "fine mark", accent=True))
        return tuple(items)

    def _holes(self) -> Group:
        items: list[Item] = []
        for hole in self.part.holes:
            zone = self._flat(hole.leg)
            d = float(hole.x if self.end == 1 else self.part.length - hole.x)
            if not (self.shows(d) and zone.rise < hole.y):
                continue
            x, y = self.at(d, zone.place(float(hole.y)))
            r = float(hole.diameter) / 2 * INCH
            over = r + 1.4
            low, high = sorted((self.at(d, self.zones[0].start)[1], self.at(d, self.zones[-1].end)[1]))
            items += [
                Circle(x, y, r, "narrow"),
                Line(x - over, y, x + over, y, "narrow"),
                Line(x, max(y - over, low), x, min(y + over, high), "narrow"),
            ]
        return tuple(items)

    def witness(self) -> Number | None:
        """The witness line's distance from this end if this page shows it [in]."""
        witness = witness_line(self.part)
        if witness is None:
            return None
        d = witness if self.end == 1 else self.part.length - witness
        return d if self.shows(float(d)) else None

    def _witness(self) -> Group:
        d = self.witness()
        if d is None:
            return ()
        d = float(d)
        x = self.at(d, 0)[0]
        (_, bottom), (_, top) = sorted((self.at(d, self.edge("A")), self.at(d, self.edge("B"))), key=lambda p: p[1])
        return (Line(x, bottom, x, top, "mark"),)


def ink(x1: float, y1: float, x2: float, y2: float) -> Item:
    """A filled bar between two corners."""
    return polygon(((x1, y1), (x2, y1), (x2, y2), (x1, y2)), "", "ink")


def _edge(p: Point, q: Point, out: Point) -> Item:
    """The ink along an edge of the sheet, wholly outside it, its ends mitred.

    Renderers move straight lines and rectangles to whole dots; a mitred bar stays where it belongs.
    """
    long = math.dist(p, q)
    ux, uy = (q[0] - p[0]) / long * NARROW, (q[1] - p[1]) / long * NARROW
    (ox, oy) = out[0] * NARROW, out[1] * NARROW
    return polygon((p, q, (q[0] + ux + ox, q[1] + uy + oy), (p[0] - ux + ox, p[1] - uy + oy)), "", "ink")
