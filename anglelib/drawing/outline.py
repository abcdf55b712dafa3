"""Outlines of the metal in inches: the section, a leg's finished face, its blank, and strips along a taper.

Where the edges lie comes from :mod:`anglelib.geometry.outlines` and :mod:`anglelib.geometry.taper`; here they only
become polygons.

>>> from anglelib.section import Section
>>> from anglelib.part import Part, Taper
>>> stock = Section(1, 1, "1/8")
>>> leg_outline(Part("P1", "Trial", stock, "6061-T6", 4, tapers=[Taper("A", 1, "1/2", run=1)]), "A")
[(0.0, 0.0), (4.0, 0.0), (4.0, 1.0), (1.0, 1.0), (0.0, 0.5)]
"""

from __future__ import annotations

from collections.abc import Callable

from anglelib.drawing.face import clip
from anglelib.drawing.sheet import Point
from anglelib.geometry.edges import ARC_STEP, Bend
from anglelib.geometry.outlines import corners_of, face_edges, section_edges
from anglelib.geometry.taper import TaperLine
from anglelib.part import Part
from anglelib.section import Section


def arc_points(x: float, y: float, radius: float, start: float, end: float, step: float = ARC_STEP) -> list[Point]:
    """Points on an arc from ``start`` to ``end`` [deg], either way round, ends included."""
    return Bend((x, y), radius, start, end - start).points(step) if radius > 0 else [(x, y)]


def section_outline(section: Section, step: float = ARC_STEP) -> list[Point]:
    """The cross-section's outline as (y, z), anticlockwise from the heel, arcs as short straight pieces [in]."""
    return corners_of(section_edges(section), step)


def inner_profile(section: Section) -> list[Point]:
    """The inside of the section from leg A's toe round the fillet to leg B's toe, as (y, z) [in]."""
    ta, tb, r = float(section.thickness_a), float(section.thickness("B")), float(section.fillet)
    return [(float(section.leg_a), ta), *arc_points(tb + r, ta + r, r, 270, 180), (tb, float(section.leg_b))]


def beyond(part: Part, line: TaperLine, shift: float = 0.0) -> Callable[[float, float], float]:
    """A function of (x, h) on the tapered leg's face: how far along the heel the point lies on the part's side of the line.

    ``shift`` [in]: the same for the line moved so far along the heel to the waste side.
    """
    at_heel, slope = float(line.at(0)), float(line.slope)
    length = float(part.length)
    if line.end == 1:
        return lambda x, h: x + shift - (at_heel + slope * h)
    return lambda x, h: length - x + shift - (at_heel + slope * h)


def rectangle(start: float, end: float, low: float, high: float) -> list[Point]:
    """A rectangle on a face, from ``start`` to ``end`` along the heel and ``low`` to ``high`` from it."""
    return [(start, low), (end, low), (end, high), (start, high)]


def leg_outline(part: Part, leg: str) -> list[Point]:
    """The outer face of a finished leg, as (x, h) from end 1 and from the heel [in]."""
    return corners_of(face_edges(part, leg))


def inner_outline(part: Part, leg: str) -> list[Point]:
    """The inner face of a finished leg from its tangent to the fillet to the toe, as (x, h); empty where nothing of it is left.

    A taper of the *other* leg cuts this face square across; the leg's own tapers as on the outer face.
    """
    points = corners_of(face_edges(part, leg, inner=True, to_toe=True))
    return [*points[1:], *points[:1]]  # from end 2 on, as the saved pictures have it


def strip(part: Part, line: TaperLine, near: float, far: float, low: float = 0.0, reach: float = 0.0) -> list[Point]:
    """What lies between two lines on the waste side of a taper, on its leg's face, as (x, h) [in].

    ``near`` and ``far`` are normal distances from the finished line: (0, allowance) is the metal to
    sand, (allowance, allowance + kerf) the saw's band. Empty where both have left the metal. The face
    is taken from ``low`` up and ``reach`` past the toe.
    """
    metal = rectangle(0.0, float(part.length), low, float(line.width) + reach)
    inner, outer = (beyond(part, line, line.shift_along(d)) for d in (near, far))
    points = clip(metal, lambda x, h: -inner(x, h))
    return clip(points, outer) if len(points) > 2 else []
