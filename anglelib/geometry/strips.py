"""Integrals over the cross-section, strip by strip along leg A, its fillet and radii included."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import fsum, sqrt

from anglelib.geometry.quadrature import Vector, integrate_between_arcs
from anglelib.section import Section


def over_section(
    section: Section,
    strip: Callable[[float, float, float], Vector],
    kinks: Sequence[float],
    low: float = 0.0,
    high: float | None = None,
    scale: float = 0.0,
) -> Vector:
    """The sum of ``strip(y, z0, z1)`` over the section's strips along leg A, to about 1e-12 of ``scale`` (else of the area).

    Only strips from ``low`` to ``high`` (else the toe) are taken; between the section's corners and
    the ``kinks`` they are smooth.
    """
    a, b = float(section.leg_a), float(section.leg_b)
    ta, tb = float(section.thickness_a), float(section.thickness_b)
    fillet, toe, heel = float(section.fillet), float(section.toe_radius), float(section.heel_radius)

    def bounds(y: float) -> tuple[float, float]:
        bottom = heel - sqrt(max(0.0, heel**2 - (heel - y) ** 2)) if y < heel else 0.0
        if y <= tb:
            top = b - toe + sqrt(max(0.0, toe**2 - (y - tb + toe) ** 2)) if y > tb - toe else b
        elif y < tb + fillet:
            top = ta + fillet - sqrt(max(0.0, fillet**2 - (tb + fillet - y) ** 2))
        elif y > a - toe:
            top = ta - toe + sqrt(max(0.0, toe**2 - (y - a + toe) ** 2))
        else:
            top = ta
        return bottom, top

    high = a if high is None else min(a, high)
    corners = {low, high, heel, tb - toe, tb, tb + fillet, a - toe, *kinks}
    ys = sorted(y for y in corners if low <= y <= high)
    totals = [
        integrate_between_arcs(lambda y: strip(y, *bounds(y)), y0, y1, scale or section.area)
        for y0, y1 in zip(ys, ys[1:], strict=False)
        if y0 < y1
    ]
    return tuple(fsum(values) for values in zip(*totals, strict=True))


def crossings(section: Section, z: float) -> tuple[float, ...]:
    """Heights on leg A at which the outline's arcs pass a height on leg B: strips cut off there bend."""
    a, b = float(section.leg_a), float(section.leg_b)
    ta, tb = float(section.thickness_a), float(section.thickness_b)
    fillet, toe, heel = float(section.fillet), float(section.toe_radius), float(section.heel_radius)
    # Of each arc: centre (y, z), radius, on which side of its centre it lies, and the height it rises or falls to.
    arcs = [
        (heel, heel, heel, -1, 0.0),
        (tb - toe, b - toe, toe, 1, b),
        (tb + fillet, ta + fillet, fillet, -1, ta),
        (a - toe, ta - toe, toe, 1, ta),
    ]
    return tuple(
        y0 + side * sqrt(max(0.0, radius**2 - (z - z0) ** 2))
        for y0, z0, radius, side, bound in arcs
        if radius and min(z0, bound) <= z <= max(z0, bound)
    )
