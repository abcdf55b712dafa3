"""Copes and rounded corners as cutters of the kernel, and the finished part with everything cut and drilled.

A cutter is a flat outline on a leg, drawn out across the whole angle. The outline is made with
shapely from what the drawing states: the leg before the cut is a polygon, its corners are found
where its edges meet, and an arc's centre where the edges moved inwards by the radius meet. As in
``solids``, an arc is drawn once with a little too much metal left and once with too little.
"""

from __future__ import annotations

from math import cos

import manifold3d
import numpy as np
import solids
from shapely import LineString, Point, Polygon, box
from shapely.affinity import scale
from shapely.ops import nearest_points
from straightedge import meet

WIDE = 50.0


def across(leg: str, outline: Polygon) -> manifold3d.Manifold:
    """An outline of (x, along the leg) drawn out through everything."""
    ring = list(outline.exterior.coords)[:-1]
    if not outline.exterior.is_ccw:
        ring.reverse()
    cutter = solids.prism(ring, -1.0, WIDE)
    if leg == "A":  # (through, x, y) -> (x, y, through)
        return cutter.transform([[0, 1, 0, 0], [0, 0, 1, 0], [1, 0, 0, 0]])
    return cutter.transform([[0, 1, 0, 0], [1, 0, 0, 0], [0, 0, 1, 0]])


def tapered_leg(part, leg: str) -> Polygon:
    """A leg's outer face as its tapers alone leave it, from lines through two points of the drawing each."""
    width, length = float(part.section.leg(leg)), float(part.length)
    face = box(0, 0, length, width)
    for taper in part.tapers:
        if taper.leg != leg:
            continue
        saw = solids.taper_saw(part.section, length, taper)
        # The saw's plane on the outer face, as a line; what it keeps is the face's side of it.
        nx, ny = saw.normal[0], saw.normal[1] if leg == "A" else saw.normal[2]
        foot, along = np.array([nx, ny]) * saw.offset, np.array([-ny, nx])
        corners = [foot + WIDE * along, foot - WIDE * along]
        kept = Polygon([*corners, *(c + 2 * WIDE * np.array([nx, ny]) for c in corners[::-1])])
        face = face.intersection(kept)
    return face


def arc(centre, start, end, radius: float, steps: int, metal: str, more_outside: bool) -> list:
    """Points from start to end round a centre, on the circle or, where that leaves more or less, on its tangents."""
    a0, a1 = (np.arctan2(p[1] - centre[1], p[0] - centre[0]) for p in (start, end))
    turn = (a1 - a0 + np.pi) % (2 * np.pi) - np.pi
    step = turn / steps
    outside = metal == (solids.MORE if more_outside else solids.LESS)
    if outside:
        angles = a0 + step * (np.arange(steps) + 0.5)
        radius /= cos(step / 2)
        middle = [(centre[0] + radius * np.cos(t), centre[1] + radius * np.sin(t)) for t in angles]
        return [start, *middle, end]
    return [(centre[0] + radius * np.cos(t), centre[1] + radius * np.sin(t)) for t in a0 + step * np.arange(steps + 1)]


def corner_arc(face: Polygon, width: float, end: int, radius: float, metal: str = solids.ON, steps: int = 64) -> tuple:
    """Where a leg's toe, cut by its tapers, ends in a sharp corner; the centre of its rounding; the points of the arc from edge to edge."""
    on_toe = [p for p in face.exterior.coords if abs(p[1] - width) < 1e-9]
    sharp = (min if end == 1 else max)(on_toe)
    ring = list(face.exterior.coords)[:-1]
    at = min(range(len(ring)), key=lambda i: Point(ring[i]).distance(Point(sharp)))
    edges = [LineString([sharp, neighbour]) for neighbour in (ring[at - 1], ring[(at + 1) % len(ring)])]
    # Each of the two edges moved inwards by the radius: the face lies on the side of its middle.
    moved = [min((e.offset_curve(side * radius) for side in (1, -1)), key=face.centroid.distance).coords for e in edges]
    centre = meet(*moved[0], *moved[1])
    touches = [nearest_points(scale(e, 9, 9, origin=sharp), Point(centre))[0].coords[0] for e in edges]
    return sharp, centre, arc(centre, touches[0], touches[1], radius, steps, metal, more_outside=True)


def rounded_off(face: Polygon, width: float, end: int, radius: float, metal: str = solids.ON, steps: int = 64) -> Polygon:
    """What rounding takes from a leg's face: between the sharp corner and the arc, and beyond."""
    sharp, centre, bent = corner_arc(face, width, end, radius, metal, steps)
    # Out past the corner, so that no sliver stays.
    far = [tuple(np.array(p) + 1e-3 * (np.array(sharp) - np.array(centre)) / radius) for p in (bent[-1], bent[0])]
    tip = tuple(np.array(sharp) + 2.0 * (np.array(sharp) - np.array(centre)))
    return Polygon([*bent, far[0], tip, far[1]]).buffer(0)


def corner_outline(part, corner, metal: str = solids.ON, steps: int = 64) -> Polygon:
    """What a rounded corner takes from its leg's face."""
    return rounded_off(tapered_leg(part, corner.leg), float(part.section.leg(corner.leg)), corner.end, float(corner.radius), metal, steps)


def notch(length: float, end: int, deep: float, left: float, radius: float, width: float, metal: str = solids.ON, steps: int = 64) -> Polygon:
    """A rectangle at an end whose inside corner is rounded."""
    centre = (deep - radius, left + radius)
    bent = arc(centre, (deep - radius, left), (deep, left + radius), radius, steps, metal, more_outside=False)
    shape = Polygon([(-1.0, left), *bent, (deep, width + 1.0), (-1.0, width + 1.0)])
    return shape if end == 1 else Polygon([(length - x, y) for x, y in shape.exterior.coords])


def cope_outline(part, cope, metal: str = solids.ON, steps: int = 64) -> Polygon:
    """What a cope takes from its leg's face."""
    numbers = (float(value) for value in (cope.length, cope.width_left, cope.radius, part.section.leg(cope.leg)))
    return notch(float(part.length), cope.end, *numbers, metal, steps)


def finished(part, metal: str = solids.ON, steps: int = 32) -> manifold3d.Manifold:
    """The finished part: sawn, coped, rounded and drilled."""
    solid = solids.bar(part.section, float(part.length), metal, steps)
    for taper in part.tapers:
        solid = solids.taper_saw(part.section, float(part.length), taper).cut(solid)
    for hole in part.holes:
        solid = solid - solids.hole_bit(part.section, hole, metal)
    for cope in part.copes:
        solid = solid - across(cope.leg, cope_outline(part, cope, metal, steps))
    for corner in part.corners:
        solid = solid - across(corner.leg, corner_outline(part, corner, metal, steps))
    return solid


def face_outline(part, leg: str, metal: str = solids.ON, steps: int = 64, holes: bool = False) -> Polygon:
    """A leg's finished outer face: tapers, copes, rounded corners and, if asked for, holes."""
    face = tapered_leg(part, leg)
    for cope in part.copes:
        if cope.leg == leg:
            face = face.difference(cope_outline(part, cope, metal, steps))
    for corner in part.corners:
        if corner.leg == leg:
            face = face.difference(corner_outline(part, corner, metal, steps))
    for hole in part.holes if holes else ():
        if hole.leg == leg:
            face = face.difference(Point(float(hole.x), float(hole.y)).buffer(float(hole.diameter) / 2, quad_segs=steps))
    return face


def slice_edges(solid: manifold3d.Manifold, axis: int, at: float) -> np.ndarray:
    """The edges (from, to) of a solid's slice square to an axis, metal on the left: one from each face that it passes.

    The two other coordinates follow the axis in turn: a slice at x is of (y, z), one at z of (x, y).
    The kernel's own slicing rounds to single precision; here each face is cut by proportion.
    """
    faces = np.roll(solids.triangles(solid), -axis, axis=2)
    faces = faces[(faces[:, :, 0].min(axis=1) < at) & (faces[:, :, 0].max(axis=1) > at)]
    ends = []
    for i, j in ((0, 1), (1, 2), (2, 0)):
        p, q = faces[:, i], faces[:, j]
        met = (p[:, 0] < at) != (q[:, 0] < at)
        share = (at - p[:, 0]) / np.where(met, q[:, 0] - p[:, 0], 1.0)
        ends.append(np.where(met[:, None], p[:, 1:] + share[:, None] * (q - p)[:, 1:], np.nan))
    points = np.stack(ends, axis=1)
    edges = points[~np.isnan(points[:, :, 0])].reshape(-1, 2, 2)
    outward = np.cross(faces[:, 1] - faces[:, 0], faces[:, 2] - faces[:, 0])[:, 1:]
    along = edges[:, 1] - edges[:, 0]
    backward = along[:, 0] * -outward[:, 1] + along[:, 1] * outward[:, 0] < 0
    edges[backward] = edges[backward][:, ::-1]
    return edges
