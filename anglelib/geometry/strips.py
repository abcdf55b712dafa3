"""Integrals over the cross-section, strip by strip along leg A, its fillet and radii included."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import cos, fsum, pi, sin, sqrt

from anglelib.geometry.quadrature import Vector, integrate
from anglelib.section import Section


def over_section(section: Section, strip: Callable[[float, float, float], Vector], kinks: Sequence[float]) -> Vector:
    """The sum of ``strip(y, z0, z1)`` over the section's strips along leg A, to about 1e-12 of itself.

    Each interval between the section's corners is run through y = middle - half cos(phi): that
    takes the square roots of the arcs off its ends, and the rest is smooth.
    """
    a, b = float(section.leg_a), float(section.leg_b)
    ta, tb = float(section.thickness_a), float(section.thickness_b)
    fillet, toe, heel = float(section.fillet), float(section.toe_radius), float(section.heel_radius)

    def bounds(y: float) -> tuple[float, float]:
        low = heel - sqrt(max(0.0, heel**2 - (heel - y) ** 2)) if y < heel else 0.0
        if y <= tb:
            high = b - toe + sqrt(max(0.0, toe**2 - (y - tb + toe) ** 2)) if y > tb - toe else b
        elif y < tb + fillet:
            high = ta + fillet - sqrt(max(0.0, fillet**2 - (tb + fillet - y) ** 2))
        elif y > a - toe:
            high = ta - toe + sqrt(max(0.0, toe**2 - (y - a + toe) ** 2))
        else:
            high = ta
        return low, high

    corners = {0.0, heel, tb - toe, tb, tb + fillet, a - toe, a, *kinks}
    ys = sorted(y for y in corners if 0.0 <= y <= a)
    totals: list[Vector] = []
    for y0, y1 in zip(ys, ys[1:], strict=False):
        middle, half = (y0 + y1) / 2, (y1 - y0) / 2
        if half == 0.0:
            continue

        def slice_at(phi: float, middle: float = middle, half: float = half) -> Vector:
            y = middle - half * cos(phi)
            scale = half * sin(phi)
            return tuple(scale * value for value in strip(y, *bounds(y)))

        totals.append(integrate(slice_at, 0.0, pi, section.area))
    return tuple(fsum(values) for values in zip(*totals, strict=True))
