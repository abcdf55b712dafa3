"""The section along x: what is left of the L at each place of a tapered, coped and drilled part.

Area, centroid, second moments and the smallest radius of gyration of the metal that a plane square
to the heel meets. Geometry, never strength: what it means is the plans' business.

>>> from anglelib.section import Section
>>> from anglelib.part import Taper
>>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
>>> bracket = Part("C1L", "Bracket", stock, "6061-T6", "4 3/4", tapers=[Taper("A", 1, run="2 1/8")])
>>> abs(section_at(bracket, 4).area - stock.area) < 1e-12, section_at(bracket, 1).area < stock.area
(True, True)
>>> section_at(bracket, 5)
Traceback (most recent call last):
    ...
anglelib.errors.PartError: There is no metal at x = 5: the part ends at 4.75.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, degrees, fsum, hypot, sqrt

from anglelib.errors import PartError
from anglelib.geometry.quadrature import Vector
from anglelib.geometry.strips import over_section
from anglelib.geometry.taper import taper_lines
from anglelib.part import Part
from anglelib.section import PrincipalAxes, SecondMoments


@dataclass(frozen=True)
class SectionAt:
    """What is left at one x: area [in2], centroid (y, z) [in], second moments about it [in4]."""

    area: float
    centroid: tuple[float, float]
    second_moments: SecondMoments

    @property
    def principal(self) -> PrincipalAxes:
        """Largest and smallest second moment [in4] and the major axis from leg A's direction [deg]."""
        about_y, about_z, product = self.second_moments
        mean, half = (about_y + about_z) / 2, hypot((about_y - about_z) / 2, product)
        return PrincipalAxes(mean + half, mean - half, degrees(atan2(-2 * product, about_y - about_z)) / 2)

    @property
    def least_gyration(self) -> float:
        """The smallest radius of gyration [in]; 0 where no metal is left."""
        return sqrt(max(0.0, self.principal.minor) / self.area) if self.area > 0 else 0.0


def limits(part: Part, x: float) -> tuple[float, float]:
    """How high each leg stands at x, by its tapers and copes: (y on leg A, z on leg B) [in]."""
    high = {"A": float(part.section.leg_a), "B": float(part.section.leg_b)}
    for line in taper_lines(part):
        from_end = x if line.end == 1 else float(part.length) - x
        high[line.leg] = min(high[line.leg], float(line.width_left) + from_end / float(line.slope))
    for cope in part.copes:
        from_end = x if cope.end == 1 else float(part.length) - x
        length, left, radius = float(cope.length), float(cope.width_left), float(cope.radius)
        if from_end < length - radius:
            high[cope.leg] = min(high[cope.leg], left)
        elif from_end < length:
            # On the arc of the inside corner, which lies on the air's side of both edges.
            across = from_end - (length - radius)
            high[cope.leg] = min(high[cope.leg], left + radius - sqrt(radius**2 - across**2))
    return high["A"], high["B"]


def section_at(part: Part, x: float, net: bool = True) -> SectionAt:
    """What is left at x from end 1. ``net``: less the chord of every hole that x passes through."""
    x = float(x)
    if not 0 <= x <= float(part.length):
        raise PartError(f"There is no metal at x = {x:g}: the part ends at {float(part.length):g}.")
    high_a, high_b = limits(part, x)

    def strip(y: float, z0: float, z1: float) -> Vector:
        z1 = min(z1, high_b)
        if y > high_a or z1 <= z0:
            return (0.0,) * 6
        height, middle = z1 - z0, (z0 + z1) / 2
        square = (z1**3 - z0**3) / 3
        return height, height * y, height * middle, height * y * y, square, height * middle * y

    moments = list(over_section(part.section, strip, kinks=(high_a, *_bends(part, high_b))))
    if net:
        for hole in part.holes:
            reach = float(hole.diameter) ** 2 / 4 - (x - float(hole.x)) ** 2
            if reach > 0:
                taken = _slot(part, hole, 2 * sqrt(reach))
                moments = [fsum((one, -two)) for one, two in zip(moments, taken, strict=True)]
    area, y1, z1, yy, zz, yz = moments
    if area <= 1e-15:
        return SectionAt(0.0, (0.0, 0.0), SecondMoments(0.0, 0.0, 0.0))
    y, z = y1 / area, z1 / area
    return SectionAt(area, (y, z), SecondMoments(zz - area * z * z, yy - area * y * y, yz - area * y * z))


def _bends(part: Part, high_b: float) -> tuple[float, ...]:
    """Heights on leg A at which leg B's limit crosses the fillet: the strips bend there."""
    section = part.section
    fillet, ta, tb = float(section.fillet), float(section.thickness_a), float(section.thickness_b)
    if not (fillet and ta < high_b < ta + fillet):
        return ()
    return (tb + fillet - sqrt(fillet**2 - (ta + fillet - high_b) ** 2),)


def _slot(part: Part, hole, width: float) -> Vector:
    """The moments of the rectangle that a hole takes out of its leg at this x."""
    thickness = float(part.section.thickness(hole.leg))
    along, through = float(hole.y), thickness / 2
    area = width * thickness
    own_along, own_through = along**2 + width**2 / 12, through**2 + thickness**2 / 12
    if hole.leg == "A":
        return area, area * along, area * through, area * own_along, area * own_through, area * along * through
    return area, area * through, area * along, area * own_through, area * own_along, area * along * through


def weakest_place(part: Part, steps: int = 200) -> tuple[float, float]:
    """(x, area) where the least metal is left between the squared ends, looked for at evenly spaced places and at every hole."""
    length = float(part.length)
    places = [length * i / steps for i in range(1, steps)] + [float(hole.x) for hole in part.holes]
    return min(((x, section_at(part, x).area) for x in places), key=lambda found: found[1])
