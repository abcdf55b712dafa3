"""Outlines of the metal in inches: the section, a leg's finished face, its blank, and strips along a taper.

Where a taper's line lies comes from :mod:`anglelib.geometry.taper`; here its marks only become polygons.

>>> from anglelib.section import Section
>>> from anglelib.part import Part, Taper
>>> stock = Section(1, 1, "1/8")
>>> leg_outline(Part("P1", "Trial", stock, "6061-T6", 4, tapers=[Taper("A", 1, "1/2", run=1)]), "A")
[(0.0, 0.0), (4.0, 0.0), (4.0, 1.0), (1.0, 1.0), (0.0, 0.5)]
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from anglelib.drawing.face import clip
from anglelib.drawing.sheet import Point
from anglelib.geometry.rounding import RoundedCorner, rounded_corners
from anglelib.geometry.taper import TaperLine, taper_lines
from anglelib.part import Part
from anglelib.section import Section, other_leg

ARC_STEP = 7.5
"""How finely an arc is drawn as straight pieces [deg]."""


def arc_points(x: float, y: float, radius: float, start: float, end: float, step: float = ARC_STEP) -> list[Point]:
    """Points on an arc from ``start`` to ``end`` [deg], either way round, ends included."""
    if radius <= 0:
        return [(x, y)]
    count = max(2, math.ceil(abs(end - start) / step))
    angles = [math.radians(start + (end - start) * i / count) for i in range(count + 1)]
    return [(x + radius * math.cos(a), y + radius * math.sin(a)) for a in angles]


def section_outline(section: Section, step: float = ARC_STEP) -> list[Point]:
    """The cross-section's outline as (y, z), anticlockwise from the heel, arcs as short straight pieces [in]."""
    a, b = float(section.leg_a), float(section.leg_b)
    ta, tb = float(section.thickness_a), float(section.thickness("B"))
    r, toe, heel = float(section.fillet), float(section.toe_radius), float(section.heel_radius)
    return [
        *arc_points(heel, heel, heel, 180, 270, step),
        (a, 0.0),
        *arc_points(a - toe, ta - toe, toe, 0, 90, step),
        *arc_points(tb + r, ta + r, r, 270, 180, step),
        *arc_points(tb - toe, b - toe, toe, 0, 90, step),
        (0.0, b),
    ]


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
    width, length = float(part.section.leg(leg)), float(part.length)
    points = _coped(part, leg, length, width)
    for line in taper_lines(part):
        if line.leg == leg:
            points = clip(points, beyond(part, line))
    for corner in rounded_corners(part) if part.corners else ():
        if corner.leg == leg:
            points = _rounded(points, corner)
    return points


def inner_outline(part: Part, leg: str, low: float | None = None) -> list[Point]:
    """The inner face of a finished leg from ``low`` [in] (else from its tangent to the fillet) to the toe, as (x, h).

    A taper of the *other* leg cuts this face square across; the leg's own tapers as on the outer face.
    """
    points = leg_outline(part, leg)
    section = part.section
    start = float(section.thickness(other_leg(leg)) + section.fillet) if low is None else low
    points = clip(points, lambda x, h: h - start)
    length = float(part.length)
    for line in taper_lines(part):
        if line.other == leg and line.vertex_projection is not None:
            mark = float(line.vertex_projection)
            if line.end == 1:
                points = clip(points, lambda x, h, m=mark: x - m)
            else:
                points = clip(points, lambda x, h, m=mark: length - m - x)
    return points


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


def _coped(part: Part, leg: str, length: float, width: float) -> list[Point]:
    """The leg's rectangle with its copes taken out, inside corners rounded."""
    copes = {cope.end: cope for cope in part.copes if cope.leg == leg}
    points: list[Point] = [(0.0, 0.0), (length, 0.0)]
    if 2 in copes:
        c, w, r = float(copes[2].length), float(copes[2].width_left), float(copes[2].radius)
        points += [(length, w), *arc_points(length - c + r, w + r, r, 270, 180), (length - c, width)]
    else:
        points.append((length, width))
    if 1 in copes:
        c, w, r = float(copes[1].length), float(copes[1].width_left), float(copes[1].radius)
        points += [(c, width), *arc_points(c - r, w + r, r, 0, -90), (0.0, w)]
    else:
        points.append((0.0, width))
    return [p for i, p in enumerate(points) if p != points[i - 1]]


def _rounded(points: Sequence[Point], corner: RoundedCorner) -> list[Point]:
    """The polygon with one sharp corner replaced by its arc."""
    i = min(range(len(points)), key=lambda k: math.dist(points[k], corner.corner))
    before = points[i - 1]
    first, last = sorted(corner.starts, key=lambda touch: math.dist(touch, before))
    (cx, cy), radius = corner.centre, corner.radius
    start = math.degrees(math.atan2(first[1] - cy, first[0] - cx))
    turn = math.degrees(math.atan2(last[1] - cy, last[0] - cx)) - start
    turn = (turn + 180) % 360 - 180
    return [*points[:i], *arc_points(cx, cy, radius, start, start + turn), *points[i + 1 :]]
