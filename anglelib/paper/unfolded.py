"""The whole part unrolled: its outer faces flat on both sides of the heel, or its inner ones beside the fillet.

A place is (x, v): x [in] along the heel from end 1, v [in] across the paper from its middle, as in
:mod:`anglelib.paper.development`. The finished edge at an end is where the metal begins, whatever cut
it: tapers, copes, rounded corners. This is the geometry alone; :mod:`anglelib.paper.fold_strip` draws it.

>>> from anglelib.part import Taper
>>> from anglelib.section import Section
>>> stock = Section(1, 1, "1/8")
>>> part = Part("P1", "Trial", stock, "6061-T6", 4, tapers=[Taper("A", 1, "1/2", run=1)])
>>> Unfolded(part, inner=False).outline()
[(0.0, -1.0), (0.0, 0.5), (1.0, 1.0), (4.0, 1.0), (4.0, -1.0)]
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from anglelib.drawing.sheet import Point
from anglelib.geometry.leg_shape import LegShape
from anglelib.geometry.taper import TaperLine, taper_lines
from anglelib.paper.development import Zone, inside, outside
from anglelib.part import Hole, Part

ROUND = 16
"""Straight pieces in which a quarter of a circle is drawn."""
_NEXT = 1e-9


@dataclass(frozen=True)
class Unfolded:
    """The outer faces of a part laid flat, or its inner ones (``inner``)."""

    part: Part
    inner: bool

    @cached_property
    def zones(self) -> tuple[Zone, ...]:
        """The faces across the paper, leg B's toe first."""
        return inside(self.part.section) if self.inner else outside(self.part.section)

    @cached_property
    def _shapes(self) -> tuple[LegShape, LegShape]:
        return LegShape.of(self.part, "A"), LegShape.of(self.part, "B")

    @cached_property
    def _section_places(self) -> dict[tuple[str, float], Point]:
        return {}

    @property
    def length(self) -> float:
        """Length along the heel [in]."""
        return float(self.part.length)

    def edge(self, leg: str) -> float:
        """v at the toe of a leg."""
        return self.zones[-1].end if leg == "A" else self.zones[0].start

    def flat(self, leg: str) -> Zone:
        """The flat face of a leg."""
        return self.zones[-1] if leg == "A" else self.zones[0]

    def zone_at(self, v: float) -> Zone:
        """The face that a place across the paper lies on."""
        return next((zone for zone in self.zones if v <= zone.end), self.zones[-1])

    # --- the finished edge ------------------------------------------------------------------------
    def taken(self, end: int, v: float, zone: Zone | None = None) -> float:
        """How far from an end the finished metal begins at v [in]; 0 on the square end."""
        return max(self._taken_by(end, v, zone or self.zone_at(v)))

    def _taken_by(self, end: int, v: float, zone: Zone) -> tuple[float, float]:
        """The same by the cuts of leg A alone, and of leg B."""
        place = self._section_places.get((zone.name, v))
        if place is None:  # asked for again for either end and every path
            place = self._section_places[(zone.name, v)] = zone.place_in_section(v)
        (y, z), (a, b) = place, self._shapes
        if end == 1:
            return a.start(y), b.start(z)
        return self.length - a.stop(y), self.length - b.stop(z)

    @cached_property
    def _laid(self) -> tuple[tuple[Zone, list[float]], ...]:
        """The faces, each with the places between which the edges are straight."""
        return tuple((zone, self._places(zone)) for zone in self.zones)

    def edge_path(self, end: int) -> list[Point]:
        """The finished edge at an end as (distance from that end, v), from leg B's toe to leg A's, where metal is left."""
        kept = [(zone, v) for zone, places in self._laid for v in places if self._left(v, zone)]
        points = [(self.taken(end, v, zone), v) for zone, v in kept]
        if not kept:
            return []
        for place, edge, at in ((kept[0], self.zones[0].start, 0), (kept[-1], self.zones[-1].end, len(points))):
            if abs(place[1] - edge) > 1e-6:  # what is left ends before the toe: on a cope's floor that runs to the other end's cut
                points.insert(at, (self.length - self.taken(3 - end, place[1], place[0]), place[1]))
        return _straightened(points)

    def _left(self, v: float, zone: Zone) -> bool:
        """Whether the cuts of both ends leave metal between them."""
        return self.taken(1, v, zone) + self.taken(2, v, zone) <= self.length + 1e-9

    def outline(self) -> list[Point]:
        """The finished metal on the paper as (x, v): up the edge at end 1, back down the edge at end 2."""
        left: list[Point] = []
        right: list[Point] = []
        for zone, places in self._laid:
            for v in places:
                if self._left(v, zone):  # tapers that meet leave nothing of the leg beyond
                    left.append((self.taken(1, v, zone), v))
                    right.append((self.length - self.taken(2, v, zone), v))
        return [*_straightened(left), *reversed(_straightened(right))]

    def _places(self, zone: Zone) -> list[float]:
        """Places across a face between which its edge is straight, or nearly."""
        places = zone.samples()
        if zone.leg:
            shape = self._shapes["AB".index(zone.leg)]
            low, high = sorted((zone.height(zone.start), zone.height(zone.end)))
            heights = {*shape.levels(0.0, self.length), *self._arcs(shape)}
            places = [zone.start, *sorted(zone.place(h) for h in heights if low < h < high), zone.end]
        found = {*places}
        for end in (1, 2) if self._shaped else ():

            def before(v: float, end: int = end) -> bool:
                a, b = self._taken_by(end, v, zone)
                return a > b

            def left(v: float) -> bool:
                return self._left(v, zone)

            def within(v: float, end: int = end) -> bool:
                return max(self._taken_by(end, v, zone)) > 0

            for low, high in zip(places, places[1:], strict=False):
                for side in (before, within, left):
                    if side(low) != side(high):
                        found.update(_turn(low, high, side))
        return sorted(found)

    @cached_property
    def _shaped(self) -> bool:
        return bool(self.part.tapers or self.part.copes or self.part.corners)

    @staticmethod
    def _arcs(shape: LegShape) -> list[float]:
        """Heights at which the arcs of copes and rounded corners are drawn."""
        found: list[float] = []
        for cope in shape.copes:
            found += [cope.left, cope.left + _NEXT]
            found += [cope.left + cope.radius * (1 - math.cos(math.pi / 2 * i / ROUND)) for i in range(1, ROUND + 1)]
        for corner in shape.corners:
            starts = [math.atan2(y - corner.centre[1], x - corner.centre[0]) for x, y in corner.starts]
            turn = (starts[1] - starts[0] + math.pi) % (2 * math.pi) - math.pi
            found += [corner.centre[1] + corner.radius * math.sin(starts[0] + turn * i / ROUND) for i in range(ROUND + 1)]
        return found

    def cuts(self, end: int) -> list[list[Point]]:
        """The stretches of the finished edge that are not the square end, as (distance from the end, v)."""
        return self._cuts[end - 1]

    @cached_property
    def _cuts(self) -> tuple[list[list[Point]], list[list[Point]]]:
        return self._cuts_of(1), self._cuts_of(2)

    def _cuts_of(self, end: int) -> list[list[Point]]:
        runs: list[list[Point]] = []
        path = self.edge_path(end)
        open_run = False
        for before, here in zip(path, path[1:], strict=False):
            if max(before[0], here[0]) > 1e-9:
                if not open_run:
                    runs.append([before])
                runs[-1].append(here)
            open_run = max(before[0], here[0]) > 1e-9
        return runs

    # --- the saw -----------------------------------------------------------------------------------
    def lines(self, end: int) -> tuple[TaperLine, ...]:
        """The tapers of an end."""
        return tuple(line for line in taper_lines(self.part) if line.end == end)

    @cached_property
    def _saw_paths(self) -> dict[tuple[int, float], list[Point]]:
        return {}

    def saw_path(self, end: int, off: float) -> list[Point]:
        """The tapers of an end moved ``off`` [in] into the waste, as (distance from the end, v); below 0 outside the metal."""
        if (end, off) in self._saw_paths:
            return self._saw_paths[end, off]
        lines = self.lines(end)
        shifts = [line.shift_along(off) if off else 0.0 for line in lines]
        points: list[Point] = []
        for zone in self.zones:

            def far(v: float, zone: Zone = zone) -> list[float]:
                return [zone.distance(line, v) - shift for line, shift in zip(lines, shifts, strict=True)]

            points += [(max(far(v)), v) for v in _with_crossing(zone.samples(), far)]
        path = [p for i, p in enumerate(points) if i == 0 or math.dist(p, points[i - 1]) > 1e-12]
        return self._saw_paths.setdefault((end, off), path)

    def waste_path(self, end: int, off: float) -> list[Point]:
        """From where on the metal at an end falls off: the tapers moved ``off`` [in], and what copes and rounded corners take."""
        bare = replace(self.part, tapers=(), holes=(), hand=None, mirror_of="", corners=()) if self.lines(end) else self.part
        others = Unfolded(bare, self.inner)
        lines = self.lines(end)
        points: list[Point] = []
        bends = [v for _, v in self.saw_path(end, off)] if lines else []
        for zone, places in others._laid:
            for v in sorted({*places, *zone.samples(), *(v for v in bends if zone.start < v < zone.end)}):
                saw = [zone.distance(line, v) - line.shift_along(off) for line in lines]
                other = others.taken(end, v, zone)
                points.append((max([*saw, other] if other or not saw else saw), v))  # not cut off at the end, or a line would bend between places
        return _straightened(points)

    # --- holes ---------------------------------------------------------------------------------------
    def holes(self) -> list[tuple[Hole, Point, bool]]:
        """The holes whose centre lies on a flat face: hole, place, and whether all of it does."""
        found = []
        for hole in self.part.holes:
            zone = self.flat(hole.leg)
            if zone.rise < hole.y and (not self.inner or hole.y < self.part.section.leg(hole.leg) - self.part.section.toe_radius):
                whole = float(hole.y - hole.diameter / 2) >= zone.rise - 1e-9
                found.append((hole, (float(hole.x), zone.place(float(hole.y))), whole))
        return found


def _turn(low: float, high: float, side: Callable[[float], bool]) -> tuple[float, float]:
    """Where a condition changes between two places: just before it, and just beyond, where a cope's edge may jump."""
    start = side(low)
    for _ in range(26):
        middle = (low + high) / 2
        low, high = (middle, high) if side(middle) == start else (low, middle)
    return low, high


def _with_crossing(places: Sequence[float], far: Callable[[float], list[float]]) -> list[float]:
    """The places, and those between them where one of two lines takes over from the other."""
    found = [places[0]]
    for low, high in zip(places, places[1:], strict=False):
        (a, *b), (c, *d) = far(low), far(high)
        if b and (a - b[0]) * (c - d[0]) < 0:
            found.append(low + (high - low) * (a - b[0]) / ((a - b[0]) - (c - d[0])))
        found.append(high)
    return found


def _straightened(points: Sequence[Point], near: float = 1e-7) -> list[Point]:
    """The path without doubled points and without points on a straight way."""
    kept: list[Point] = []
    for point in points:
        if kept and math.dist(point, kept[-1]) < near:
            continue
        while len(kept) > 1 and _off(kept[-2], kept[-1], point) < near:
            kept.pop()
        kept.append(point)
    return kept


def _off(p: Point, q: Point, r: Point) -> float:
    """How far q lies off the straight way from p to r, where it lies between them."""
    long = math.dist(p, r)
    if long < 1e-12 or (q[0] - p[0]) * (r[0] - q[0]) + (q[1] - p[1]) * (r[1] - q[1]) < 0:
        return math.inf
    return abs((r[0] - p[0]) * (q[1] - p[1]) - (r[1] - p[1]) * (q[0] - p[0])) / long
