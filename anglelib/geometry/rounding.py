"""Rounded corners, noses and the relief of a cope.

A corner of a leg lies where its toe meets the tapered edge or, without a taper, the square end. The
arc touches both edges.

>>> round(corner_loss(90, 0.25), 4), round(nose_loss(45, 1 / 32), 4)
(0.1036, 0.0442)
>>> corner_loss(0, 0.25)
Traceback (most recent call last):
    ...
anglelib.errors.PartError: A corner of 0 degrees cannot be rounded: its angle must lie between 0 and 180.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import cos, hypot, radians, sin

from anglelib.errors import PartError
from anglelib.geometry.lazy import formulas
from anglelib.geometry.taper import TaperLine
from anglelib.lengths import show
from anglelib.part import Cope, Part, other_end
from anglelib.section import other_leg

Point = tuple[float, float]


def _angle(angle: float) -> float:
    if not 0 < angle < 180:
        raise PartError(f"A corner of {angle:g} degrees cannot be rounded: its angle must lie between 0 and 180.")
    return float(angle)


def corner_loss(angle: float, radius: float) -> float:
    """From the sharp corner to the middle of the arc [in]."""
    return formulas().corner_loss(phi=_angle(angle), rho=float(radius))


def tangent_length(angle: float, radius: float) -> float:
    """From the sharp corner to where the arc begins, along either edge [in]."""
    return formulas().tangent_length(phi=_angle(angle), rho=float(radius))


def arc_length(angle: float, radius: float) -> float:
    """Length of the arc [in]."""
    return formulas().arc_length(phi=_angle(angle), rho=float(radius))


def area_lost(angle: float, radius: float) -> float:
    """Area of the metal that rounding takes off a leg's face [in2]; times the thickness it is the volume."""
    return formulas().area_lost(phi=_angle(angle), rho=float(radius))


def nose_loss(taper_angle: float, radius: float) -> float:
    """By how much the nose of a vertex taper gets shorter along the heel when it is rounded [in]."""
    return formulas().nose_loss(theta=_angle(taper_angle), rho=float(radius))


@dataclass(frozen=True)
class RoundedCorner:
    """A rounded corner as it lies on its leg: sharp corner, inner angle [deg], radius, and the arc's centre.

    ``corner`` and ``centre`` are (x from end 1, y from the heel) [in]; ``starts`` are the two places
    where the arc touches the edges: along the toe, and along the tapered edge or the end.
    """

    leg: str
    end: int
    angle: float
    radius: float
    corner: Point
    centre: Point
    starts: tuple[Point, Point]

    @property
    def lowest(self) -> float:
        """How near to the heel the arc comes: where it leaves the tapered edge or the end [in]."""
        return min(touch[1] for touch in self.starts)

    def from_end(self, length: float) -> float:
        """Distance of the arc's centre from the corner's own end of a part so long [in]."""
        return self.centre[0] if self.end == 1 else length - self.centre[0]

    def distance(self, x: float, y: float) -> float | None:
        """From a point to the arc [in]; None where another edge is nearer than the arc.

        The arc is the nearest edge for points on the corner's side of the centre, between the lines
        from the centre to where the arc begins.
        """
        (cx, cy), away = self.centre, (x - self.centre[0], y - self.centre[1])
        for touch in self.starts:
            other = self.starts[1] if touch is self.starts[0] else self.starts[0]
            ray, inward = (touch[0] - cx, touch[1] - cy), (other[0] - cx, other[1] - cy)
            # The point must lie on the same side of each ray as the other tangent point does.
            if _cross(ray, away) * _cross(ray, inward) < -1e-12:
                return None
        return self.radius - hypot(*away)

    def inner_half_planes(self, clearance: float, chords: int = 16) -> list[Callable[[float, float], float]]:
        """Half-planes whose common part keeps a clearance from the arc; none where the arc is no larger than it."""
        inner = self.radius - clearance
        if inner <= 0:
            return []
        (cx, cy) = self.centre
        a, b = ((touch[0] - cx) / self.radius for touch in self.starts), ((touch[1] - cy) / self.radius for touch in self.starts)
        (ux, vx), (uy, vy) = tuple(a), tuple(b)
        points = []
        for i in range(chords + 1):
            share = i / chords
            dx, dy = ux * (1 - share) + vx * share, uy * (1 - share) + vy * share
            size = hypot(dx, dy)
            points.append((cx + inner * dx / size, cy + inner * dy / size))
        planes = []
        for (x0, y0), (x1, y1) in zip(points, points[1:], strict=False):
            nx, ny = y1 - y0, x0 - x1
            if nx * (cx - x0) + ny * (cy - y0) < 0:
                nx, ny = -nx, -ny
            planes.append(lambda x, y, x0=x0, y0=y0, nx=nx, ny=ny: nx * (x - x0) + ny * (y - y0))
        return planes


def _cross(one: Point, two: Point) -> float:
    return one[0] * two[1] - one[1] * two[0]


def rounded_corners(part: Part) -> tuple[RoundedCorner, ...]:
    """The rounded corners of a part where they lie. PartError where an arc does not fit on its edges."""
    found, reaches = [], {}
    for corner in part.corners:
        leg, end, radius = corner.leg, corner.end, float(corner.radius)
        width, length = float(part.section.leg(leg)), float(part.length)
        root = float(part.section.thickness(other_leg(leg)))
        place = f"the toe of leg {leg}, end {end}"
        if any((cope.leg, cope.end) == (leg, end) for cope in part.copes):
            raise PartError(f"The cope takes away the corner at {place}: drop the rounded corner, or the cope.")
        taper = part.taper_at(leg, end)
        if taper is None:
            angle, at, edge, along = 90.0, 0.0, width - root, (0.0, -1.0)
        else:
            line = TaperLine.of(part.section, taper)
            angle, at = 180 - line.angle, float(line.run)
            along = (-cos(radians(line.angle)), -sin(radians(line.angle)))
            # Below the other leg's inner face an arc would cut into that leg.
            edge = line.edge_length * min(1.0, (width - root) / (width - float(line.width_left)))
        reach = tangent_length(angle, radius)
        reaches[leg] = reaches.get(leg, 0.0) + reach
        # The toe's edge is what the cuts of both ends leave of it, and both ends' arcs lie on it.
        toe = length - at - _toe_taken(part, leg, other_end(end)) - (reaches[leg] - reach)
        if reach > min(edge, toe) + 1e-12:
            there_is = f"there is {show(min(edge, toe), 64, 'down')}" if min(edge, toe) > 0 else "there is none left"
            raise PartError(
                f"The {show(corner.radius)} radius at {place}, needs {show(reach, 64, 'up')} of edge and {there_is}: "
                "choose a smaller radius."
            )
        on_toe, on_edge = (at + reach, width), (at + along[0] * reach, width + along[1] * reach)
        centre = (on_toe[0], width - radius)

        def placed(point: Point, end: int = end, length: float = length) -> Point:
            return point if end == 1 else (length - point[0], point[1])

        found.append(
            RoundedCorner(leg, end, angle, radius, placed((at, width)), placed(centre), (placed(on_toe), placed(on_edge)))
        )
    return tuple(found)


def _toe_taken(part: Part, leg: str, end: int) -> float:
    """How much of a leg's toe the cuts at an end take away [in]."""
    taper = part.taper_at(leg, end)
    taken = [float(cope.length) for cope in part.copes if (cope.leg, cope.end) == (leg, end)]
    return max([0.0, *taken, *([float(TaperLine.of(part.section, taper).run)] if taper else [])])


def largest_radius(angle: float, centre_distance: float, edge_distance: float) -> float:
    """The largest radius [in] that keeps a hole's edge distance, the hole on the corner's bisector.

    ``centre_distance`` is from the sharp corner to the hole's centre. A radius up to the edge
    distance costs nothing as long as both straight edges keep it.
    """
    half = radians(_angle(angle)) / 2
    # Distance from hole to arc: radius - |hole - centre|, the centre at radius / sin(half) from the corner.
    if centre_distance * sin(half) < edge_distance:
        raise PartError("The hole is nearer to the straight edges than its edge distance: move the hole first.")
    return (centre_distance - edge_distance) / (1 / sin(half) - 1)


@dataclass(frozen=True)
class Relief:
    """The inside corner of a cope: centre of the drill (x from the coped end, y from the heel) and radius [in]."""

    x: float
    y: float
    radius: float


def relief(cope: Cope) -> Relief:
    """Where to drill the inside corner of a cope before it is sawn: the arc touches both of its edges."""
    return Relief(float(cope.length - cope.radius), float(cope.width_left + cope.radius), float(cope.radius))
