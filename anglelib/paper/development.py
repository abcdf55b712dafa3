"""The faces of an angle unrolled flat: the outside round the heel, the inside round the fillet.

Paper folded along the heel lies on both outer faces; paper pressed into the fillet lies on both
inner ones. A place on the paper is (d, v): d [in] along the heel from the end in question, v [in]
across the paper from its middle, which is the heel (or the middle of its arc) outside and the middle
of the fillet inside; v grows towards leg A. Where a taper's line lies on each face comes from
:mod:`anglelib.geometry.taper`.

>>> from anglelib.part import Taper
>>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
>>> line = TaperLine.of(stock, Taper("A", 1, run="2 1/8"))
>>> [(zone.name, round(zone.start, 4), round(zone.end, 4)) for zone in inside(stock)]
[('leg B, inner face', -1.0982, -0.0982), ('fillet', -0.0982, 0.0982), ('leg A, inner face', 0.0982, 1.0982)]
>>> round(inside(stock)[0].distance(line, -0.5), 4)  # the vertex-projection mark
0.2125
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from anglelib.drawing.sheet import Point
from anglelib.geometry.lazy import formulas
from anglelib.geometry.taper import TaperLine
from anglelib.section import Section

STEPS = 48
"""Pieces in which a bent face is drawn: an arc of 1/4 in. then misses its chord by less than 0.001 mm."""


@dataclass(frozen=True, slots=True)
class Zone:
    """One face on the unrolled paper, from ``start`` to ``end`` [in] across it.

    ``leg`` is the leg of a flat face, "" for the heel's arc and the fillet; ``rise`` the height from
    the heel of a flat face at the end next to the fold.
    """

    name: str
    leg: str
    inner: bool
    start: float
    end: float
    rise: float
    section: Section

    def height(self, v: float) -> float:
        """Distance from the heel of a place on a flat face [in]."""
        return self.rise + (v - self.start if self.leg == "A" else self.end - v)

    def place(self, height: float) -> float:
        """v of a distance from the heel on a flat face [in]."""
        return self.start + (height - self.rise) if self.leg == "A" else self.end - (height - self.rise)

    def distance(self, line: TaperLine, v: float) -> float:
        """d of a taper's line at v [in]; negative where it has left through the end before."""
        way = v if line.leg == "A" else -v
        if self.leg == line.leg:
            return float(line.at(self.height(v)))
        if self.leg:
            return float(line.at(line.other_thickness if self.inner else 0))
        if self.inner:
            return line.in_fillet(min(max(line.fillet_width / 2 - way, 0.0), line.fillet_width))
        return float(
            formulas().heel_mark(
                Rh=float(self.section.heel_radius), s=float(line.width_left), v=way, c=float(line.slope)
            )
        )

    def place_in_section(self, v: float) -> Point:
        """A place across the paper as (y, z) in the section [in]: y from the heel along leg A, z along leg B."""
        if self.leg:
            through = float(self.section.thickness(self.leg)) if self.inner else 0.0
            return (self.height(v), through) if self.leg == "A" else (through, self.height(v))
        # a line at 45 degrees from the vertex is as far along the heel as it is high
        y, z = (self.distance(TaperLine(self.section, leg, 1, Fraction(0), Fraction(1)), v) for leg in ("A", "B"))
        return y, z

    def samples(self) -> list[float]:
        """Places across the face that its lines are drawn through."""
        pieces = 1 if self.leg else STEPS
        return [self.start + (self.end - self.start) * i / pieces for i in range(pieces + 1)]


def outside(section: Section) -> tuple[Zone, ...]:
    """The outer faces with the heel between them, leg B first."""
    arc = math.pi * float(section.heel_radius) / 2
    legs = {leg: (f"leg {leg}, outer face", float(section.heel_radius), float(section.leg(leg))) for leg in ("A", "B")}
    return _zones(section, False, "heel", arc, legs)


def inside(section: Section) -> tuple[Zone, ...]:
    """The inner faces with the fillet between them, leg B first; each ends where a rounded toe begins."""
    arc = math.pi * float(section.fillet) / 2
    legs = {}
    for leg, other in (("A", "B"), ("B", "A")):
        low = float(section.thickness(other) + section.fillet)
        legs[leg] = (f"leg {leg}, inner face", low, float(section.leg(leg) - section.toe_radius))
    return _zones(section, True, "fillet", arc, legs)


def _zones(
    section: Section, inner: bool, middle: str, arc: float, legs: dict[str, tuple[str, float, float]]
) -> tuple[Zone, ...]:
    (name_b, low_b, high_b), (name_a, low_a, high_a) = legs["B"], legs["A"]
    zones = [Zone(name_b, "B", inner, -arc / 2 - (high_b - low_b), -arc / 2, low_b, section)]
    if arc:
        zones.append(Zone(middle, "", inner, -arc / 2, arc / 2, 0.0, section))
    zones.append(Zone(name_a, "A", inner, arc / 2, arc / 2 + (high_a - low_a), low_a, section))
    return tuple(zones)


def taper_path(zones: Sequence[Zone], line: TaperLine, off: float = 0.0) -> list[Point]:
    """The line on the unrolled paper as (d, v), ``off`` [in] on the waste side of the finished line."""
    shift = line.shift_along(off) if off else 0.0
    points: list[Point] = []
    for zone in zones:
        points += [(zone.distance(line, v) - shift, v) for v in zone.samples()]
    return [p for i, p in enumerate(points) if i == 0 or math.dist(p, points[i - 1]) > 1e-12]


def inked(path: Sequence[Point], width: float) -> list[Point]:
    """The outline of a line's ink, wholly on the waste side: towards the end (smaller d)."""
    normals = []
    for (d1, v1), (d2, v2) in zip(path, path[1:], strict=False):
        long = math.hypot(d2 - d1, v2 - v1)
        # v grows along the path, so the end lies to its left, across (-dv, dd)
        normals.append((-(v2 - v1) / long, (d2 - d1) / long))
    edge = []
    for i, (d, v) in enumerate(path):
        before, after = normals[max(i - 1, 0)], normals[min(i, len(normals) - 1)]
        n, m = before[0] + after[0], before[1] + after[1]
        scale = 2 / (n * n + m * m)  # a mitred corner
        edge.append((d + n * scale * width, v + m * scale * width))
    return [*path, *reversed(edge)]
