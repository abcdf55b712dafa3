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

from collections.abc import Iterable
from dataclasses import dataclass
from math import fsum, sqrt

from anglelib.errors import PartError
from anglelib.geometry.leg_shape import LegShape, Span
from anglelib.geometry.quadrature import Vector
from anglelib.geometry.strips import crossings, over_section
from anglelib.part import Part
from anglelib.section import PrincipalAxes, SecondMoments, principal_axes


@dataclass(frozen=True)
class SectionAt:
    """What is left at one x: area [in2], centroid (y, z) [in], second moments about it [in4]."""

    area: float
    centroid: tuple[float, float]
    second_moments: SecondMoments

    @property
    def principal(self) -> PrincipalAxes:
        """Largest and smallest second moment [in4] and the major axis from leg A's direction [deg]."""
        return principal_axes(self.second_moments)

    @property
    def least_gyration(self) -> float:
        """The smallest radius of gyration [in]; 0 where no metal is left."""
        return sqrt(max(0.0, self.principal.minor) / self.area) if self.area > 0 else 0.0


def limits(part: Part, x: float) -> tuple[float, float]:
    """How high each leg stands at x, by its tapers, copes and rounded corners: (y on leg A, z on leg B) [in]."""
    return LegShape.of(part, "A").height(x), LegShape.of(part, "B").height(x)


def section_at(part: Part, x: float, net: bool = True) -> SectionAt:
    """What is left at x from end 1. ``net``: less the chord of every hole that x passes through."""
    x = float(x)
    if not 0 <= x <= float(part.length):
        raise PartError(f"There is no metal at x = {x:g}: the part ends at {float(part.length):g}.")
    a, b = LegShape.of(part, "A"), LegShape.of(part, "B")
    high_a, high_b = a.height(x), b.height(x)
    gaps_a, gaps_b = (a.gaps_at(x), b.gaps_at(x)) if net else ((), ())

    def strip(y: float, z0: float, z1: float) -> Vector:
        if any(low < y < high for low, high in gaps_a):
            return (0.0,) * 6
        found = [0.0] * 6
        for low, high in _pieces(z0, min(z1, high_b), gaps_b):
            height, middle, square = high - low, (low + high) / 2, (high**3 - low**3) / 3
            moments = (height, height * y, height * middle, height * y * y, square, height * middle * y)
            found = [fsum(pair) for pair in zip(found, moments, strict=True)]
        return tuple(found)

    edges_b = [high_b, *(z for gap in gaps_b for z in gap)]
    kinks = [*(y for gap in gaps_a for y in gap), *(y for z in edges_b for y in crossings(part.section, z))]
    if high_a <= 0 or high_b <= 0:
        return SectionAt(0.0, (0.0, 0.0), SecondMoments(0.0, 0.0, 0.0))
    area, y1, z1, yy, zz, yz = over_section(part.section, strip, kinks, high=high_a)
    if area <= 1e-15:
        return SectionAt(0.0, (0.0, 0.0), SecondMoments(0.0, 0.0, 0.0))
    y, z = y1 / area, z1 / area
    return SectionAt(area, (y, z), SecondMoments(zz - area * z * z, yy - area * y * y, yz - area * y * z))


def _pieces(low: float, high: float, gaps: Iterable[Span]) -> list[Span]:
    """What is left of a strip from ``low`` to ``high`` where holes interrupt it."""
    pieces = []
    for first, last in gaps:
        if low < first < high:
            pieces.append((low, first))
        low = max(low, last) if first < high else low
    if low < high:
        pieces.append((low, high))
    return pieces


def weakest_place(part: Part, steps: int = 200) -> tuple[float, float]:
    """(x, area) where the least metal is left between the squared ends, looked for at evenly spaced places and at every hole."""
    length = float(part.length)
    places = [length * i / steps for i in range(1, steps)] + [float(hole.x) for hole in part.holes]
    return min(((x, section_at(part, x).area) for x in places), key=lambda found: found[1])
