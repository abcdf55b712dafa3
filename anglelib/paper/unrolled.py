"""The finished part's outer or inner faces unrolled in one piece: exact on the flats, a fine chain over a bend.

A place is (x, v): x [in] along the heel from end 1, v [in] across the sheet from its middle, from leg
B's toe over the fold to leg A's, as in :mod:`anglelib.paper.development`. The edge at an end is where
the metal begins, whatever cut it: tapers, copes, rounded corners. The printed fold sheets and the
exported ones are both made of this.

>>> from anglelib.geometry.edges import corners_of
>>> from anglelib.part import Taper
>>> from anglelib.section import Section
>>> stock = Section(1, 1, "1/8")
>>> part = Part("P1", "Trial", stock, "6061-T6", 4, tapers=[Taper("A", 1, "1/2", run=1)])
>>> [corners_of(piece.outline)[3:6] for piece in Unrolled(part, inner=False).pieces]
[[(4.0, 1.0), (1.0, 1.0), (0.0, 0.5)]]
>>> Unrolled(part, inner=False).cuts(1)  # from the end, not from end 1
[[(0.0, 0.5), (1.0, 1.0)]]
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

from anglelib.geometry.edges import Edge, Point, Straight, backwards, carried, chain, joined_up, points_along
from anglelib.geometry.leg_shape import LegShape
from anglelib.geometry.outlines import flank, top_of
from anglelib.geometry.taper import TaperLine, taper_lines
from anglelib.paper.development import Zone, inside, outside
from anglelib.part import Part
from anglelib.section import other_leg

ERROR = 0.0005
"""How far a chain of straight pieces may be off a developed curve [in]."""
FINE = 5.0
"""How finely an arc is made into straight pieces for the paper [deg]: on a radius of 1/2 in. within 0.012 mm."""


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
        """The faces across the sheet, leg B's first."""
        return inside(self.part.section) if self.inner else outside(self.part.section)

    @cached_property
    def shapes(self) -> dict[str, LegShape]:
        """What the cuts leave of each leg."""
        return {leg: LegShape.of(self.part, leg) for leg in ("A", "B")}

    @property
    def length(self) -> float:
        """Length along the heel [in]."""
        return float(self.part.length)

    @property
    def extent(self) -> tuple[float, float]:
        """v at leg B's toe and at leg A's."""
        return self.zones[0].start, self.zones[-1].end

    def toe(self, leg: str) -> float:
        """v at the toe of a leg."""
        return self.extent[leg == "A"]

    def flat(self, leg: str) -> Zone:
        """The flat face of a leg."""
        return self.zones[-1] if leg == "A" else self.zones[0]

    def lines(self, end: int) -> tuple[TaperLine, ...]:
        """The tapers of an end."""
        return tuple(line for line in taper_lines(self.part) if line.end == end)

    # --- the metal --------------------------------------------------------------------------------
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

    def taken(self, end: int, v: float, zone: Zone) -> float:
        """How far from an end the cuts of that end have taken the metal at a place across the sheet; 0 on the square end [in]."""
        y, z = self._in_section(zone, v)
        return max(self.shapes["A"].taken(end, y), self.shapes["B"].taken(end, z))

    def _in_section(self, zone: Zone, v: float) -> Point:
        place = self._places.get((zone.name, v))
        if place is None:  # asked for again for either end
            place = self._places[(zone.name, v)] = zone.place_in_section(v)
        return place

    @cached_property
    def _places(self) -> dict[tuple[str, float], Point]:
        return {}

    def edge(self, end: int) -> tuple[Edge, ...]:
        """What the cuts of an end leave, whatever the other end's take, from leg B's toe to leg A's; x from end 1."""
        found: list[Edge] = []
        for zone in self.zones:
            found += self._flank(zone, end, zone.rise + zone.end - zone.start) if zone.leg else self._curved(zone, end, self._breaks(zone))
        return joined_up(found)

    @cached_property
    def _cuts(self) -> dict[int, list[list[Point]]]:
        return {}

    def cuts(self, end: int) -> list[list[Point]]:
        """The stretches of the finished edge that are not the square end, as (distance from the end, v), from low v to high v."""
        if end not in self._cuts:
            self._cuts[end] = [run for piece in self.pieces for run in _off_the_end(self._path(piece, end))]
        return self._cuts[end]

    def _path(self, piece: Piece, end: int) -> list[Point]:
        """A piece's edge at an end; where the metal stops short of a toe, on over what closes it there."""
        near, far = (piece.one, piece.two) if end == 1 else (piece.two, piece.one)
        points = points_along(near, FINE)
        if piece.low > self.extent[0] + 1e-6:
            points.insert(0, far[0].first)
        if piece.high < self.extent[1] - 1e-6:
            points.append(far[-1].last)
        kept = [p for before, p in zip([None, *points], points, strict=False) if before is None or math.dist(before, p) > 1e-7]
        return [(x if end == 1 else self.length - x, v) for x, v in kept]

    # --- flat faces -------------------------------------------------------------------------------
    def _flat(self, zone: Zone) -> list[Piece]:
        low, high = zone.rise, zone.rise + zone.end - zone.start
        top = top_of(self.shapes[zone.leg], low, high, (self._across(zone, 1), self._across(zone, 2)))
        if top is None:
            return []
        v = sorted((zone.place(low), zone.place(top)))
        return [Piece(v[0], v[1], self._flank(zone, 1, top), self._flank(zone, 2, top))]

    def _across(self, zone: Zone, end: int) -> float:
        """What the other leg's cuts take of a flat face at an end: square across."""
        depth = float(self.part.section.thickness(zone.leg)) if self.inner else 0.0
        return self.shapes[other_leg(zone.leg)].taken(end, depth)

    def _flank(self, zone: Zone, end: int, top: float) -> tuple[Edge, ...]:
        """The edge of a flat face at an end up to a height, from low v to high v."""
        found = flank(self.shapes[zone.leg], end, zone.rise, top, self._across(zone, end))
        edges = carried(found, lambda p: (p[0], zone.place(p[1])), zone.leg == "B")
        return edges if zone.leg == "A" else backwards(edges)

    # --- bends ------------------------------------------------------------------------------------
    @property
    def circle(self) -> tuple[float, Point]:
        """Radius [in] and centre (y, z) of the bend in the section."""
        section = self.part.section
        if not self.inner:
            radius = float(section.heel_radius)
            return radius, (radius, radius)
        radius = float(section.fillet)
        return radius, (float(section.thickness("B")) + radius, float(section.thickness_a) + radius)

    def _bent(self, zone: Zone) -> list[Piece]:
        def room(v: float) -> float:
            return self.length - self.taken(1, v, zone) - self.taken(2, v, zone)

        found: list[Piece] = []
        for low, high in _where(room, self._breaks(zone)):
            breaks = [low, *(v for v in self._breaks(zone) if low + 1e-7 < v < high - 1e-7), high]
            found.append(Piece(low, high, self._curved(zone, 1, breaks), self._curved(zone, 2, breaks)))
        return found

    def _curved(self, zone: Zone, end: int, breaks: list[float]) -> tuple[Edge, ...]:
        """The edge of a bend at an end."""

        def at(v: float) -> float:
            taken = self.taken(end, v, zone)
            return taken if end == 1 else self.length - taken

        return chain(_curve(at, breaks))

    def _breaks(self, zone: Zone) -> list[float]:
        """Places on a bend where a cut begins or ends, both ends of the bend included."""
        radius, (cy, cz) = self.circle
        found = {zone.start, zone.end}
        for height in self.shapes["A"].bends:
            if 0 < cy - height < radius:
                found.add(zone.end - radius * math.asin((cy - height) / radius))
        for height in self.shapes["B"].bends:
            if 0 < cz - height < radius:
                found.add(zone.end - radius * math.acos((cz - height) / radius))
        return sorted(v for v in found if zone.start <= v <= zone.end)


def _off_the_end(path: list[Point]) -> list[list[Point]]:
    """The stretches of a path that leave the square end."""
    runs: list[list[Point]] = []
    going = False
    for before, here in zip(path, path[1:], strict=False):
        out = max(before[0], here[0]) > 1e-9
        if out and not going:
            runs.append([before])
        if out:
            runs[-1].append(here)
        going = out
    return runs


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
