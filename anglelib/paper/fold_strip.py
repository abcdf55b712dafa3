"""One tile of an unrolled sheet on the page: its edges, lines, bands, waste, holes, joints; nothing written.

The outside sheet has leg A hanging from the heel, the inside one has it standing on the fillet: each
as it is seen when it lies where it belongs, end 1 at the left. The fold lies at height 0.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property, lru_cache

from anglelib.drawing.face import clip
from anglelib.drawing.sheet import Circle, Group, Hatch, Item, Line, Point, polygon
from anglelib.drawing.style import NARROW, WIDE
from anglelib.drawing.symbols import zigzag
from anglelib.geometry.layout import witness_line
from anglelib.job import Shop
from anglelib.lengths import MM
from anglelib.paper.development import inked
from anglelib.paper.fold_saw import saw_path, waste_path
from anglelib.paper.hole_rims import on_flats
from anglelib.paper.tiles import INCH, Tile
from anglelib.paper.unrolled import Unrolled
from anglelib.part import Part

TICKS = {"in": Fraction(1, 2), "mm": 10 * MM}
"""The ticks of a joint stand so far before and behind it, by the unit of the part [in]."""
_HALF = NARROW / 2
_unrolled = lru_cache(maxsize=4)(Unrolled)


@dataclass(frozen=True)
class FoldStrip:
    """A tile with its low edge at ``x0`` on the page [mm]."""

    part: Part
    shop: Shop
    inner: bool
    tile: Tile
    x0: float

    @cached_property
    def sheet(self) -> Unrolled:
        """The whole part unrolled, made once for all its tiles."""
        return _unrolled(self.part, self.inner)

    @property
    def up(self) -> int:
        """Whether leg A stands (1) or hangs (-1)."""
        return 1 if self.inner else -1

    def at(self, x: float, v: float) -> Point:
        """A place on the page [mm]."""
        return self.x0 + (x - self.tile.low) * INCH, self.up * v * INCH

    def out(self, leg: str) -> int:
        """Up (1) or down (-1) from the fold to a leg's toe."""
        return (1 if leg == "A" else -1) * self.up

    def from_end(self, end: int, d: float) -> float:
        """A distance from an end as x."""
        return d if end == 1 else self.sheet.length - d

    def has_end(self, end: int) -> bool:
        """Whether the tile reaches to an end of the part."""
        return self.tile.low == 0 if end == 1 else abs(self.tile.high - self.sheet.length) < 1e-9

    def shows(self, x: float) -> bool:
        return self.tile.low - 1e-9 <= x <= self.tile.shown + 1e-9

    def clipped(self, end: int, points: Sequence[Point]) -> list[Point]:
        """A polygon of (distance from the end, v) within the tile, on the page [mm]."""
        moved = [(self.from_end(end, d), v) for d, v in points]
        kept = clip(clip(moved, lambda x, v: x - self.tile.low), lambda x, v: self.tile.shown - x)
        return [self.at(x, v) for x, v in kept] if len(kept) > 2 else []

    @cached_property
    def frame(self) -> tuple[float, float, float, float]:
        """Left, bottom, right and top of the paper [mm]."""
        bottom, top = sorted((self.at(0, self.sheet.toe("A"))[1], self.at(0, self.sheet.toe("B"))[1]))
        return self.x0, bottom, self.at(self.tile.shown, 0)[0], top

    # --- what is drawn ------------------------------------------------------------------------------
    @cached_property
    def drawn(self) -> Group:
        items: list[Item] = [*self._paper()]
        reached = [end for end in (1, 2) if self._reaches(end)]
        for end in reached:
            items += self._bands(end)
        items += self._holes() + self._witness()
        for end in reached:
            items += self._finished(end)
        return tuple(items)

    def _reaches(self, end: int) -> bool:
        """Whether the cuts at an end come into this tile."""
        deepest = max((d for run in self.sheet.cuts(end) for d, _ in run), default=0.0)
        near = self.tile.low if end == 1 else self.sheet.length - self.tile.shown
        return deepest > 0 and near < deepest + 0.1

    def _paper(self) -> Group:
        """The paper's edges, their ink outside; where it folds; its joints."""
        left, bottom, right, top = self.frame
        items: list[Item] = [edge_ink((left, bottom), (right, bottom), (0, -1)), edge_ink((left, top), (right, top), (0, 1))]
        if not self.tile.joint_before:  # an end of the part, or a place that is said
            items.append(edge_ink((left, bottom), (left, top), (-1, 0)))
        else:
            items += self._joint(left, 1)
        if self.has_end(2):
            items.append(edge_ink((right, bottom), (right, top), (1, 0)))
        elif self.tile.joint_after:
            items += self._joint(self.at(self.tile.high, 0)[0], -1)
            items.append(edge_ink((right, bottom), (right, top), (1, 0)))
        else:
            items.append(zigzag(right, bottom, top))
        for zone in self.sheet.zones:
            if not zone.leg:
                items += [Line(left, y, right, y, "tangent") for y in (self.at(0, zone.start)[1], self.at(0, zone.end)[1])]
        if not self.inner or not self.part.section.fillet:
            items.append(Line(left, 0, right, 0, "fold"))
        return tuple(items)

    def _joint(self, x: float, into: int) -> Group:
        """Where two tiles meet: half a mark at either toe, and a tick within this tile.

        Both tiles have the joint's line; pasted up, the halves make whole marks and the ticks stand twice that apart.
        """
        _, bottom, _, top = self.frame
        items: list[Item] = [_upright(x, bottom - 4, top + 4)]
        tick = x + into * float(TICKS[self.part.unit]) * INCH
        for y, way in ((bottom, -1), (top, 1)):
            items.append(polygon(((x, y + way * 0.6), (x + into * 2.4, y + way * 4.0), (x, y + way * 4.0)), "", "ink"))
            items.append(_upright(tick, *sorted((y, y + way * 3.0))))
        return tuple(items)

    def _bands(self, end: int) -> Group:
        """The metal to sand, hatched; the band that the saw removes; the waste, hatched wide the other way."""
        allowance, kerf = float(self.shop.allowance), float(self.shop.kerf)
        items: list[Item] = []
        slant = 45 if end == 1 else -45
        if self.sheet.lines(end):
            lean = self._lean(end)
            start = NARROW / 2 / INCH  # from within the line's ink: a hatch line's corners would stick out on the part's side

            def path(off: float) -> list[Point]:
                return saw_path(self.sheet, end, off)

            sand = self.clipped(end, [*path(start), *reversed(path(allowance))]) if allowance else []
            if sand:
                items.append(Hatch(tuple(sand), lean, 1.2))
            far = allowance + kerf + _HALF / INCH
            if kerf:
                band = self.clipped(end, [*path(allowance + _HALF / INCH), *reversed(path(far))])
                if band:
                    items.append(polygon(band, "cut", "paper"))
        else:
            lean, far = -slant * self.up, 0.0
        return (*items, *self._waste(end, waste_path(self.sheet, end, far), -lean))

    def _lean(self, end: int) -> float:
        """The slope of the hatch that shows the metal to sand: across the tapered edge."""
        line = self.sheet.lines(end)[0]
        return 45.0 * self.out(line.leg) * (-1 if end == 1 else 1)

    def _waste(self, end: int, path: Sequence[Point], slant: float) -> Group:
        """What falls off between a path and the end."""
        beyond = [(-1.0, path[-1][1]), (-1.0, path[0][1])]
        fallen = clip([*path, *beyond], lambda d, v: d)
        points = self.clipped(end, fallen) if len(fallen) > 2 else []
        return (Hatch(tuple(points), slant, 3.6),) if points else ()

    def _finished(self, end: int) -> Group:
        """The finished edge; the side of its ink next to the part is the dimension."""
        allowance = float(self.shop.allowance) * INCH
        width = WIDE if allowance >= 2 * WIDE or not allowance else NARROW
        items: list[Item] = []
        for run in self.sheet.cuts(end):
            points = self.clipped(end, inked(run, width / INCH))
            if points:
                items.append(polygon(points, "", "accent"))
        return tuple(items)

    def _holes(self) -> Group:
        items: list[Item] = []
        _, bottom, _, top = self.frame
        for hole, (hx, v), whole in on_flats(self.sheet):
            r = float(hole.diameter) / 2 * INCH
            if not self.tile.low + r / INCH <= hx <= self.tile.shown - r / INCH:
                continue
            x, y = self.at(hx, v)
            over = r + 1.4
            if whole:  # one that runs into the fillet would be no circle on the paper
                items.append(Circle(x, y, r, "narrow"))
            items += [Line(x - over, y, x + over, y, "narrow"), Line(x, max(y - over, bottom), x, min(y + over, top), "narrow")]
        return tuple(items)

    def witness(self) -> float | None:
        """Where the witness line lies if this tile shows it [in from end 1]."""
        witness = witness_line(self.part)
        return float(witness) if witness is not None and self.shows(float(witness)) else None

    def _witness(self) -> Group:
        x = self.witness()
        if x is None:
            return ()
        _, bottom, _, top = self.frame
        at = self.at(x, 0)[0]
        return (Line(at, bottom, at, top, "mark"),)


def _bar(x1: float, y1: float, x2: float, y2: float) -> tuple[Point, ...]:
    return (x1, y1), (x2, y1), (x2, y2), (x1, y2)


def _upright(x: float, low: float, high: float) -> Item:
    """A thin upright line, its middle at x; pointed, so that no renderer takes it for a rectangle and moves it to whole dots."""
    half = _HALF / 2
    return polygon(((x - half, low), (x, low - half), (x + half, low), (x + half, high), (x, high + half), (x - half, high)), "", "ink")


def ink(x1: float, y1: float, x2: float, y2: float) -> Item:
    """A filled bar between two corners."""
    return polygon(_bar(x1, y1, x2, y2), "", "ink")


def edge_ink(p: Point, q: Point, out: Point) -> Item:
    """The ink along an edge of the paper, wholly outside it, its ends mitred.

    Renderers move straight lines and rectangles to whole dots; a mitred bar stays where it belongs.
    """
    long = math.dist(p, q)
    ux, uy = (q[0] - p[0]) / long * NARROW, (q[1] - p[1]) / long * NARROW
    (ox, oy) = out[0] * NARROW, out[1] * NARROW
    return polygon((p, q, (q[0] + ux + ox, q[1] + uy + oy), (p[0] - ux + ox, p[1] - uy + oy)), "", "ink")
