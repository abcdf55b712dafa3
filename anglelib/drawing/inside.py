"""Where the inside of a leg lies on the paper: its face, and the strip of fillet and other leg unrolled beside it.

Both share one axis along the heel. On the strip a height is the way round from the tapered leg's
tangent to the fillet. All marks come from :mod:`anglelib.geometry.taper`.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from anglelib.drawing.face import Axis, Face
from anglelib.drawing.outer_view import direction
from anglelib.drawing.sheet import Point
from anglelib.geometry.taper import TaperLine, taper_lines
from anglelib.part import Part
from anglelib.section import other_leg

GAP = 9.0
"""Paper between the leg and the unrolled fillet [mm]."""


@dataclass(frozen=True, slots=True)
class Inside:
    """Where the two pictures of the inside lie: the leg's face, and the unrolled strip, both on one axis."""

    part: Part
    leg: str
    axis: Axis
    heel: float
    shown: float
    """How much of the other leg's inner face is drawn, from the fillet on [in]."""

    @property
    def up(self) -> int:
        return direction(self.leg, inner=True)

    @property
    def face(self) -> Face:
        """The tapered leg, from the heel to its toe."""
        return Face(self.axis, self.heel, self.up)

    @property
    def root(self) -> float:
        """Height of the other leg's inner face from the heel [in]."""
        return float(self.part.section.thickness(other_leg(self.leg)))

    @property
    def tangent(self) -> float:
        """Height at which the fillet begins [in]."""
        return self.root + float(self.part.section.fillet)

    @property
    def unrolled(self) -> Face:
        """The strip: h is the way round from this leg's tangent, on over the other leg's inner face."""
        return Face(self.axis, self.heel - self.up * GAP, -self.up)

    @property
    def fillet_width(self) -> float:
        """Width of the unrolled fillet [in]."""
        lines = taper_lines(self.part)
        return lines[0].fillet_width if lines and self.part.section.fillet else 0.0

    @property
    def other_flat(self) -> float:
        """Height of the other leg's inner flat above its own heel, where the fillet ends [in]."""
        return float(self.part.section.thickness(self.leg) + self.part.section.fillet)

    @property
    def strip_end(self) -> float:
        """How far the strip goes, from this leg's tangent [in]."""
        return self.fillet_width + self.shown

    @property
    def whole(self) -> bool:
        """Whether the other leg is drawn to its toe."""
        return self.shown >= float(self.part.section.leg(other_leg(self.leg))) - self.other_flat - 1e-9

    @property
    def lines(self) -> tuple[TaperLine, ...]:
        """The tapers of the leg that is seen."""
        return tuple(line for line in taper_lines(self.part) if line.leg == self.leg)

    def x(self, line: TaperLine, distance: float) -> float:
        """A distance from a taper's own end as x from end 1 [in]."""
        return distance if line.end == 1 else float(self.part.length) - distance

    def edge(self, end: int) -> float:
        """An end as x from end 1 [in]."""
        return 0.0 if end == 1 else float(self.part.length)


def inner_extent(part: Part, leg: str, shown: float | None = None) -> float:
    """How much of the other leg's inner face can be drawn [in]: all of it, or as much as is asked for."""
    section = part.section
    flat = float(section.leg(other_leg(leg)) - section.thickness(leg) - section.fillet)
    return flat if shown is None else min(flat, shown)


def span_at(inside: Inside, h: float) -> tuple[float, float]:
    """From where to where the finished leg has metal at a height [in]."""
    start, stop = 0.0, float(inside.part.length)
    for line in inside.lines:
        cut = max(0.0, float(line.at(h)))
        if line.end == 1:
            start = max(start, cut)
        else:
            stop = min(stop, float(inside.part.length) - cut)
    return start, max(start, stop)


@lru_cache(maxsize=64)  # asked for again by the line, the bands and every scale that is tried
def _fillet(line: TaperLine) -> tuple[Point, ...]:
    """The line in the unrolled fillet, as (x from its own end, way round) [in]."""
    return tuple((x, u) for u, x in line.fillet_curve())


def curve(inside: Inside, line: TaperLine, shift: float = 0.0) -> list[Point]:
    """The taper's line on the unrolled strip, as (x, way round) [in], moved ``shift`` along the heel to the waste side."""
    points = list(_fillet(line))
    if line.vertex_projection is not None:
        points.append((float(line.vertex_projection), inside.fillet_width))
        points.append((float(line.vertex_projection), inside.strip_end))
    moved = [(x - shift, u) for x, u in points]
    kept: list[Point] = []
    for (x, u), after in zip(moved, [*moved[1:], None]):
        if x >= 0:
            kept.append((x, u))
        if after is not None and (x > 0 > after[0]):
            t = x / (x - after[0])
            kept.append((0.0, u + t * (after[1] - u)))
    return [(inside.x(line, x), u) for x, u in kept]


def wrong_points(inside: Inside, line: TaperLine) -> tuple[list[Point], Point]:
    """The line carried straight on over the unrolled fillet, and a place on it to name it at."""
    first = float(line.first_flat or 0)
    at_leg = first - inside.fillet_width * float(line.slope)
    if at_leg < 0:
        tip = (0.0, first / float(line.slope))
        points = [(first, 0.0), tip]
    else:
        tip = (at_leg, inside.fillet_width + inside.shown * 0.7)
        points = [(first, 0.0), (at_leg, inside.fillet_width), (at_leg, inside.strip_end)]
    return [(inside.x(line, x), u) for x, u in points], (inside.x(line, tip[0]), tip[1])
