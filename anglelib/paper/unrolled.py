"""The finished part's outer or inner faces unrolled in one piece: exact on the flats, a fine chain over a bend.

Across the sheet v [in] runs from leg B's toe over the fold to leg A's toe, as in
:mod:`anglelib.paper.development`; along it x [in] from end 1. On a bend, the metal begins where the
cuts of either leg leave it at that place of the arc; the chain that stands for the curve stays
within ERROR of it.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

from anglelib.geometry.edges import Bend, Edge, Point, Straight, backwards, carried, chain, joined_up
from anglelib.geometry.leg_shape import LegShape
from anglelib.geometry.outlines import flank, top_of
from anglelib.paper.development import Zone, inside, outside
from anglelib.part import Hole, Part
from anglelib.section import other_leg

ERROR = 0.0005
"""How far a chain of straight pieces may be off a developed curve [in]."""


@dataclass(frozen=True)
class Piece:
    """Metal between two places across the sheet, with its edges at end 1 and end 2, both from low v to high v."""

    low: float
    high: float
    one: tuple[Edge, ...]
    two: tuple[Edge, ...]

    def then(self, other: Piece) -> Piece:
        """This piece and the next one across the sheet."""
        return Piece(self.low, other.high, joined_up((*self.one, *other.one)), joined_up((*self.two, *other.two)))

    @property
    def outline(self) -> tuple[Edge, ...]:
        """Its closed outline."""
        around = (
            Straight(self.one[0].first, self.two[0].first),
            *self.two,
            Straight(self.two[-1].last, self.one[-1].last),
            *backwards(self.one),
        )
        return tuple(edge for edge in around if math.dist(edge.first, edge.last) > 1e-9)


@dataclass(frozen=True)
class Unrolled:
    """A part's outer (or inner) faces laid flat."""

    part: Part
    inner: bool

    @cached_property
    def zones(self) -> tuple[Zone, ...]:
        return inside(self.part.section) if self.inner else outside(self.part.section)

    @cached_property
    def shapes(self) -> dict[str, LegShape]:
        return {leg: LegShape.of(self.part, leg) for leg in ("A", "B")}

    @property
    def extent(self) -> tuple[float, float]:
        """v at leg B's toe and at leg A's."""
        return self.zones[0].start, self.zones[-1].end

    @cached_property
    def pieces(self) -> tuple[Piece, ...]:
        """The metal; one piece, unless cuts part it on this sheet."""
        found: list[Piece] = []
        for zone in self.zones:
            for piece in self._flat(zone) if zone.leg else self._bent(zone):
                if found and abs(found[-1].high - piece.low) < 1e-9:
                    found[-1] = found[-1].then(piece)
                else:
                    found.append(piece)
        return tuple(found)

    # --- flat faces -------------------------------------------------------------------------------
    def _flat(self, zone: Zone) -> list[Piece]:
        shape, across = self.shapes[zone.leg], self.shapes[other_leg(zone.leg)]
        depth = float(self.part.section.thickness(zone.leg)) if self.inner else 0.0
        least = across.taken(1, depth), across.taken(2, depth)
        low, high = zone.rise, zone.rise + zone.end - zone.start
        top = top_of(shape, low, high, least)
        if top is None:
            return []
        sides = []
        for end in (1, 2):
            edges = carried(flank(shape, end, low, top, least[end - 1]), lambda p: (p[0], zone.place(p[1])), zone.leg == "B")
            sides.append(edges if zone.leg == "A" else backwards(edges))
        v = sorted((zone.place(low), zone.place(top)))
        return [Piece(v[0], v[1], *sides)]

    # --- bends ------------------------------------------------------------------------------------
    def place_on_bend(self, zone: Zone, v: float) -> Point:
        """(y, z) in the section of a place on a bend."""
        radius, (cy, cz) = self._circle
        angle = (zone.end - v) / radius
        return cy - radius * math.sin(angle), cz - radius * math.cos(angle)

    @property
    def _circle(self) -> tuple[float, Point]:
        section = self.part.section
        if not self.inner:
            radius = float(section.heel_radius)
            return radius, (radius, radius)
        radius = float(section.fillet)
        return radius, (float(section.thickness("B")) + radius, float(section.thickness_a) + radius)

    def _taken(self, zone: Zone, end: int, v: float) -> float:
        y, z = self.place_on_bend(zone, v)
        return max(self.shapes["A"].taken(end, y), self.shapes["B"].taken(end, z))

    def _bent(self, zone: Zone) -> list[Piece]:
        length = float(self.part.length)

        def room(v: float) -> float:
            return length - self._taken(zone, 1, v) - self._taken(zone, 2, v)

        found: list[Piece] = []
        for low, high in _where(room, self._breaks(zone)):
            breaks = [low, *(v for v in self._breaks(zone) if low + 1e-7 < v < high - 1e-7), high]
            one = _curve(lambda v: self._taken(zone, 1, v), breaks)
            two = _curve(lambda v: length - self._taken(zone, 2, v), breaks)
            found.append(Piece(low, high, chain(one), chain(two)))
        return found

    def _breaks(self, zone: Zone) -> list[float]:
        """Places on a bend where a cut begins or ends, both ends of the bend included."""
        radius, (cy, cz) = self._circle
        found = {zone.start, zone.end}
        for height in self.shapes["A"].bends:
            if 0 < cy - height < radius:
                found.add(zone.end - radius * math.asin((cy - height) / radius))
        for height in self.shapes["B"].bends:
            if 0 < cz - height < radius:
                found.add(zone.end - radius * math.acos((cz - height) / radius))
        return sorted(v for v in found if zone.start <= v <= zone.end)

    # --- holes ------------------------------------------------------------------------------------
    def rim(self, hole: Hole) -> tuple[Edge, ...] | None:
        """A hole's edge on the sheet where it is no whole circle: it runs into a bend or a rounded toe. None: a circle."""
        zone = self.zones[-1] if hole.leg == "A" else self.zones[0]
        high = zone.rise + zone.end - zone.start
        x, y, r = float(hole.x), float(hole.y), float(hole.diameter) / 2
        if y - r >= zone.rise - 1e-12 and y + r <= high + 1e-12:
            return None
        arcs = arcs_between((x, y), r, zone.rise, high)
        edges = carried(arcs, lambda p: (p[0], zone.place(p[1])), hole.leg == "B")
        if y - r < zone.rise - 1e-12 and len(self.zones) == 3:
            low = max(math.asin(max(-1.0, min(1.0, (zone.rise - y) / r))), -math.pi / 2)
            steps = max(8, math.ceil((2 * low + math.pi) / math.radians(2)))
            points = []
            for i in range(steps + 1):
                a = math.pi - low + (math.pi + 2 * low) * i / steps
                points.append((x + r * math.cos(a), self._on_bend(hole.leg, min(zone.rise, y + r * math.sin(a)))))
            edges = (*edges, *chain(points))
        return edges

    def _on_bend(self, leg: str, height: float) -> float:
        """v of a height on a leg, on the bend."""
        radius, (cy, cz) = self._circle
        end = self.zones[1].end
        if leg == "A":
            return end - radius * math.asin(min(1.0, (cy - height) / radius))
        return end - radius * math.acos(min(1.0, (cz - height) / radius))


def arcs_between(centre: Point, radius: float, low: float, high: float) -> tuple[Bend, ...]:
    """What of a circle lies between two heights, as arcs."""
    cuts = [180 / math.pi * math.asin(max(-1.0, min(1.0, (level - centre[1]) / radius))) for level in (low, high)]
    bottom, top = cuts
    if bottom <= -90 and top >= 90:
        return (Bend(centre, radius, 0.0, 360.0),)
    if top >= 90:
        return (Bend(centre, radius, bottom, 180 - 2 * bottom),)
    if bottom <= -90:
        return (Bend(centre, radius, 180 - top, 180 + 2 * top),)
    return Bend(centre, radius, bottom, top - bottom), Bend(centre, radius, 180 - top, top - bottom)


def _where(room: Callable[[float], float], breaks: list[float]) -> list[tuple[float, float]]:
    """The stretches where there is room, found between the breaks and at sixteen places of each stretch."""
    places = [a + (b - a) * i / 16 for a, b in zip(breaks, breaks[1:], strict=False) for i in range(16)] + [breaks[-1]]
    found: list[tuple[float, float]] = []
    for a, b in zip(places, places[1:], strict=False):
        first, last = a, b
        here, there = room(a + 1e-9 * (b - a)) > 0, room(b - 1e-9 * (b - a)) > 0
        if not (here or there):
            continue
        if here != there:
            full, empty = (a, b) if here else (b, a)
            for _ in range(50):
                middle = (full + empty) / 2
                full, empty = (middle, empty) if room(middle) > 0 else (full, middle)
            first, last = (a, full) if here else (full, b)
        if found and abs(found[-1][1] - first) < 1e-12:
            found[-1] = (found[-1][0], last)
        else:
            found.append((first, last))
    return found


def _curve(at: Callable[[float], float], breaks: list[float]) -> list[Point]:
    """Points (x, v) along a curve, so dense that the straight pieces between them stay within ERROR of it."""
    points: list[Point] = []

    def refine(a: Point, b: Point, depth: int) -> None:
        (x1, v1), (x2, v2) = a, b
        checks = [(at(v1 + (v2 - v1) * share), x1 + (x2 - x1) * share) for share in (0.25, 0.5, 0.75)]
        if depth and any(abs(x - straight) > ERROR / 2 for x, straight in checks):
            middle = (checks[1][0], (v1 + v2) / 2)
            refine(a, middle, depth - 1)
            refine(middle, b, depth - 1)
        else:
            points.append(b)

    for low, high in zip(breaks, breaks[1:], strict=False):
        inset = min(1e-9, (high - low) / 4)  # a cope begins with a step
        first, last = (at(low + inset), low), (at(high - inset), high)
        points.append(first)
        refine(first, last, 12)
    return points
