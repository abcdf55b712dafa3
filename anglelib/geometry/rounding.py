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
from math import cos, floor, hypot, isfinite, radians, sin

from anglelib.errors import PartError
from anglelib.geometry.lazy import formulas
from anglelib.geometry.taper import TaperLine
from anglelib.lengths import LONGEST, own, show
from anglelib.part import Cope, Corner, Part, other_end
from anglelib.section import other_leg

Point = tuple[float, float]


NARROWEST = 1e-6
"""The narrowest corner that has numbers [deg]; below it the arc would begin out of sight."""
WIDEST = 8
"""The widest leg that angle usually comes with [in]: common practice, where a leg's own width is not given."""


def _angle(angle: float) -> float:
    if not isfinite(angle):
        raise PartError("The angle of the corner is not a number: measure it again, it must lie between 0 and 180.")
    if not NARROWEST <= angle < 180:
        raise PartError(f"A corner of {angle:g} degrees cannot be rounded: its angle must lie between 0 and 180.")
    return float(angle)


def _radius(radius: float) -> float:
    if not (isfinite(radius) and radius >= 0):
        raise PartError("The rounding radius is not a length: give it as 0 or more, for example 0.125.")
    if radius > LONGEST:
        raise PartError(f"The rounding radius is over {LONGEST // 12} ft: give it as 0 to the width of the leg, for example 0.125.")
    return float(radius)


def corner_loss(angle: float, radius: float) -> float:
    """From the sharp corner to the middle of the arc [in]."""
    return formulas().corner_loss(phi=_angle(angle), rho=_radius(radius))


def tangent_length(angle: float, radius: float) -> float:
    """From the sharp corner to where the arc begins, along either edge [in]."""
    return formulas().tangent_length(phi=_angle(angle), rho=_radius(radius))


def arc_length(angle: float, radius: float) -> float:
    """Length of the arc [in]."""
    return formulas().arc_length(phi=_angle(angle), rho=_radius(radius))


def area_lost(angle: float, radius: float) -> float:
    """Area of the metal that rounding takes off a leg's face [in2]; times the thickness it is the volume."""
    return formulas().area_lost(phi=_angle(angle), rho=_radius(radius))


def largest_nose(taper_angle: float, width: float = WIDEST) -> float:
    """The largest radius that the nose of a vertex taper takes on a leg so wide: there the arc uses up the whole tapered edge [in].

    >>> round(largest_nose(20, 1.5), 4)
    0.7733
    """
    if not (isfinite(width) and width > 0):
        raise PartError("The width of the tapered leg is not a length: give it as more than 0, for example 1.5.")
    return formulas().largest_nose(theta=_nose(taper_angle), W=float(width))


def nose_loss(taper_angle: float, radius: float, width: float = WIDEST) -> float:
    """By how much the nose of a vertex taper gets shorter along the heel when it is rounded [in].

    ``width`` is that of the tapered leg, whose edge the arc must not use up.

    >>> nose_loss(20, 5)
    Traceback (most recent call last):
        ...
    anglelib.errors.PartError: A nose of radius 5 at 20 degrees needs a leg 9.698 wide, and this is 8: choose a radius from 0 to 4.124.
    >>> nose_loss(120, 0.25)
    Traceback (most recent call last):
        ...
    anglelib.errors.PartError: A taper of 120 degrees has no nose: its angle from the heel must lie between 0 and 90.
    """
    angle, radius, most = _nose(taper_angle), _radius(radius), largest_nose(taper_angle, width)
    if radius > most:
        need = formulas().largest_nose.solved_for("W")(rho=radius, theta=angle)
        raise PartError(
            f"A nose of radius {radius:g} at {angle:g} degrees needs a leg {need:.3f} wide, and this is {float(width):g}: "
            f"choose a radius from 0 to {floor(most * 1000) / 1000:g}."
        )
    return formulas().nose_loss(theta=angle, rho=radius)


def _nose(angle: float) -> float:
    if _angle(angle) >= 90:
        raise PartError(f"A taper of {angle:g} degrees has no nose: its angle from the heel must lie between 0 and 90.")
    return float(angle)


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


@dataclass(frozen=True)
class SharpCorner:
    """A corner before it is rounded, in lengths from its own end: at ``at`` on the toe, its inner angle [deg].

    ``down`` is the direction of its other edge, from the toe towards the heel; ``edge`` and ``toe``
    are how much of that edge and of the toe there is for an arc [in].
    """

    at: float
    width: float
    angle: float
    down: Point
    edge: float
    toe: float

    @classmethod
    def of(cls, part: Part, leg: str, end: int) -> SharpCorner:
        """The corner of a part's leg at an end. PartError where a cope has taken it away."""
        width, root = float(part.section.leg(leg)), float(part.section.thickness(other_leg(leg)))
        if any((cope.leg, cope.end) == (leg, end) for cope in part.copes):
            raise PartError(f"The cope takes away the corner at the toe of leg {leg}, end {end}: drop the rounded corner, or the cope.")
        at, angle, edge = 0.0, 90.0, width - root
        taper = part.taper_at(leg, end)
        if taper:
            line = TaperLine.of(part.section, taper)
            at, angle = float(line.run), 180 - line.angle
            # Below the other leg's inner face an arc would cut into that leg.
            edge = line.edge_length * min(1.0, (width - root) / (width - float(line.width_left)))
        down = (cos(radians(angle)), -sin(radians(angle)))
        return cls(at, width, angle, down, edge, float(part.length) - at - _toe_taken(part, leg, other_end(end)))

    @property
    def largest_fit(self) -> float:
        """The largest radius whose arc begins and ends on the corner's edges, the leg's other corner left sharp [in]."""
        return formulas().tangent_length.solved_for("rho")(t_r=max(0.0, min(self.edge, self.toe)), phi=self.angle)

    def distances(self, x: float, y: float) -> tuple[float, float]:
        """How far inside of the toe and of the other edge a point lies [in]."""
        x, y = x - self.at, y - self.width
        return -y, y * self.down[0] - x * self.down[1]


def _toe_taken(part: Part, leg: str, end: int) -> float:
    """How much of a leg's toe the cuts at an end take away [in]."""
    taper = part.taper_at(leg, end)
    taken = [float(cope.length) for cope in part.copes if (cope.leg, cope.end) == (leg, end)]
    return max([0.0, *taken, *([float(TaperLine.of(part.section, taper).run)] if taper else [])])


def arc_at(sharp: SharpCorner, corner: Corner, length: float) -> RoundedCorner:
    """The arc of a corner on its two edges, on a part so long [in], however far they reach."""
    radius = float(corner.radius)
    reach = tangent_length(sharp.angle, radius)
    places = (
        (sharp.at, sharp.width),
        (sharp.at + reach, sharp.width - radius),
        (sharp.at + reach, sharp.width),
        (sharp.at + sharp.down[0] * reach, sharp.width + sharp.down[1] * reach),
    )
    at, centre, on_toe, on_edge = places if corner.end == 1 else [(length - x, y) for x, y in places]
    return RoundedCorner(corner.leg, corner.end, sharp.angle, radius, at, centre, (on_toe, on_edge))


def rounded_corners(part: Part) -> tuple[RoundedCorner, ...]:
    """The rounded corners of a part where they lie. PartError where an arc does not fit on its edges."""
    found, reached = [], {"A": 0.0, "B": 0.0}
    for corner in part.corners:
        leg, end = corner.leg, corner.end
        sharp = SharpCorner.of(part, leg, end)
        reach = tangent_length(sharp.angle, float(corner.radius))
        # The arcs of both ends share the toe.
        room = min(sharp.edge, sharp.toe - reached[leg])
        reached[leg] += reach
        if reach > room + 1e-12:
            there_is = f"there is {show(room, 64, 'down')}" if room > 0 else "there is none left"
            raise PartError(
                f"The {own(corner.radius)} radius at the toe of leg {leg}, end {end}, needs {show(reach, 64, 'up')} of edge "
                f"and {there_is}: choose a smaller radius."
            )
        found.append(arc_at(sharp, corner, float(part.length)))
    return tuple(found)


@dataclass(frozen=True)
class Relief:
    """The inside corner of a cope: centre of the drill (x from the coped end, y from the heel) and radius [in]."""

    x: float
    y: float
    radius: float


def relief(cope: Cope) -> Relief:
    """Where to drill the inside corner of a cope before it is sawn: the arc touches both of its edges."""
    return Relief(float(cope.length - cope.radius), float(cope.width_left + cope.radius), float(cope.radius))
