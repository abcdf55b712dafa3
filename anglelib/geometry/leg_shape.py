"""The shape of one leg in its own plane: what its tapers, copes, rounded corners and holes leave of it.

Every cut of a leg is square to the leg, so each takes the metal between two places along x at a
height y, whatever the depth. The part is what both legs' shapes leave of its section.

>>> from anglelib.part import Cope, Taper
>>> from anglelib.section import Section
>>> stock = Section("1 1/2", "1 1/2", "1/8", fillet="3/16")
>>> part = Part("P1", "Trial", stock, "6061-T6", 6, tapers=[Taper("A", 1, run=3)], copes=[Cope("A", 2, 1, "3/4", "1/8")])
>>> shape = LegShape.of(part, "A")
>>> shape.start(1.0), shape.stop(1.0), shape.height(1.5), shape.height(5.5)
(2.0, 5.0, 0.75, 0.75)
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import sqrt
from typing import NamedTuple

from anglelib.geometry.lazy import formulas
from anglelib.geometry.rounding import RoundedCorner, rounded_corners
from anglelib.geometry.taper import TaperLine, taper_lines
from anglelib.part import Part, Taper
from anglelib.section import other_leg

Span = tuple[float, float]


# The cuts in plain floats: an integral asks for them at thousands of places.
class _Taper(NamedTuple):
    end: int
    left: float
    slope: float


class _Cope(NamedTuple):
    end: int
    length: float
    left: float
    radius: float


class _Hole(NamedTuple):
    x: float
    y: float
    radius: float


@dataclass(frozen=True)
class LegShape:
    """What is left of a leg: x from end 1, y from the heel across the leg [in]."""

    width: float
    length: float
    tapers: tuple[_Taper, ...]
    copes: tuple[_Cope, ...]
    corners: tuple[RoundedCorner, ...]
    holes: tuple[_Hole, ...]
    dressed: tuple[float, float] = (0.0, 0.0)
    """How much of each end is gone where the plans have a feather edge blunted [in]; it goes through both legs."""

    @classmethod
    def of(cls, part: Part, leg: str) -> LegShape:
        """The shape of a part's leg. PartError where a rounded corner does not fit."""
        lines = taper_lines(part)
        return cls(
            float(part.section.leg(leg)),
            float(part.length),
            tuple(_Taper(t.end, float(t.width_left), float(t.slope)) for t in lines if t.leg == leg),
            tuple(_Cope(c.end, float(c.length), float(c.width_left), float(c.radius)) for c in part.copes if c.leg == leg),
            tuple(corner for corner in rounded_corners(part) if corner.leg == leg),
            tuple(_Hole(float(h.x), float(h.y), float(h.diameter) / 2) for h in part.holes_in(leg)),
            (blunted(part, 1), blunted(part, 2)),
        )

    # --- along x, at a height -----------------------------------------------------------------------
    def start(self, y: float) -> float:
        """Where metal begins at a height, by this leg's cuts at end 1."""
        return self.taken(1, y)

    def stop(self, y: float) -> float:
        """Where it ends, by this leg's cuts at end 2."""
        return self.length - self.taken(2, y)

    def taken(self, end: int, y: float) -> float:
        """How far along from an end its cuts have taken the metal at a height."""
        taken = self.dressed[end - 1]
        for taper in self.tapers:
            if taper.end == end:
                # The formula ``taper_mark``, inlined: an integral asks for it thousands of times.
                taken = max(taken, (y - taper.left) * taper.slope)
        for cope in self.copes:
            if cope.end == end and y > cope.left:
                below = max(0.0, cope.left + cope.radius - y)
                taken = max(taken, cope.length - cope.radius + sqrt(max(0.0, cope.radius**2 - below**2)))
        for corner in self.corners:
            if corner.end == end and y > corner.lowest:
                arc = sqrt(max(0.0, corner.radius**2 - (y - corner.centre[1]) ** 2))
                taken = max(taken, self._from(end, corner.centre[0]) - arc)
        return taken

    def gaps(self, y: float) -> tuple[Span, ...]:
        """Where holes interrupt the metal at a height: spans of x, in order, none overlapping."""
        return joined(_chord(hole.x, hole.radius, y - hole.y) for hole in self.holes if abs(y - hole.y) < hole.radius)

    # --- across the leg, at an x ----------------------------------------------------------------------
    def height(self, x: float) -> float:
        """How high the leg stands at an x, by its tapers, copes and rounded corners."""
        high = self.width
        if x < self.dressed[0] or self.length - x < self.dressed[1]:
            return 0.0
        for taper in self.tapers:
            high = min(high, taper.left + self._from(taper.end, x) / taper.slope)
        for cope in self.copes:
            across = self._from(cope.end, x) - (cope.length - cope.radius)
            if across < 0:
                high = min(high, cope.left)
            elif across < cope.radius:
                # On the arc of the inside corner, whose centre lies in the air.
                high = min(high, cope.left + cope.radius - sqrt(cope.radius**2 - across**2))
        for corner in self.corners:
            low, far = sorted(touch[0] for touch in corner.starts)
            if low < x < far:
                high = min(high, corner.centre[1] + sqrt(max(0.0, corner.radius**2 - (x - corner.centre[0]) ** 2)))
        return high

    def gaps_at(self, x: float) -> tuple[Span, ...]:
        """Where holes interrupt the leg at an x: spans of y, in order, none overlapping."""
        return joined(_chord(hole.y, hole.radius, x - hole.x) for hole in self.holes if abs(x - hole.x) < hole.radius)

    # --- where its edge bends ---------------------------------------------------------------------------
    @property
    def arcs(self) -> tuple[float, ...]:
        """Heights at which anything but a taper begins or ends to cut this leg."""
        found = [corner.lowest for corner in self.corners]
        for cope in self.copes:
            found += [cope.left, cope.left + cope.radius]
        for hole in self.holes:
            found += [hole.y - hole.radius, hole.y, hole.y + hole.radius]
        return tuple(found)

    @property
    def bends(self) -> tuple[float, ...]:
        """Heights at which the leg's edge bends, begins or ends."""
        return (*self.levels(self.dressed[0], self.length - self.dressed[1]), *self.arcs)

    def levels(self, *places: float) -> list[float]:
        """Heights at which this leg's tapers pass places along x, or one another."""
        found = [taper.left + self._from(taper.end, place) / taper.slope for taper in self.tapers for place in places]
        if len(self.tapers) == 2:
            one, two = self.tapers
            peak = formulas().tapers_cross(s_1=one.left, s_2=two.left, c_1=one.slope, c_2=two.slope, L=self.length)
            found.append(one.left + peak / one.slope)
        return found

    def _from(self, end: int, x: float) -> float:
        return x if end == 1 else self.length - x


def _chord(middle: float, radius: float, off: float) -> Span:
    half = sqrt(radius**2 - off**2)
    return middle - half, middle + half


def joined(spans: Iterable[Span]) -> tuple[Span, ...]:
    """Spans in order, those that overlap made one."""
    found: list[Span] = []
    for low, high in sorted(spans):
        if found and low <= found[-1][1]:
            found[-1] = (found[-1][0], max(high, found[-1][1]))
        else:
            found.append((low, high))
    return tuple(found)


def blunted(part: Part, end: int) -> float:
    """How much shorter a part is at an end where the plans have its feather edge blunted; 0 where they do not [in]."""
    return max((float(line.blunting(taper.blunt)) for line, taper in edges_at(part, end) if taper.blunt is not None), default=0.0)


def edge_loss(part: Part, end: int) -> float:
    """How much shorter a part may be at an end once its feather edge is broken, or blunted as the plans say; 0 without one [in]."""
    return max((float(line.blunting(taper.edge)) for line, taper in edges_at(part, end)), default=0.0)


def edges_at(part: Part, end: int) -> list[tuple[TaperLine, Taper]]:
    """The tapers that leave a feather edge at an end."""
    return [(TaperLine.of(part.section, taper), taper) for taper in part.tapers if taper.end == end and not taper.width_left]


def root(part: Part, leg: str) -> float:
    """Height on a leg at which it comes clear of the other leg and of the fillet [in]."""
    return float(part.section.thickness(other_leg(leg)) + part.section.fillet)
