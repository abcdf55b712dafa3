"""Parts as solids of a general-purpose kernel (manifold3d), built from given numbers only.

Nothing here is computed by the library: its sections and tapers are read for the numbers that a
drawing gives (legs, thicknesses, radii, run or angle, width left), and every cut is a plane through
three points on the metal. A kernel knows only flat faces, so an arc is drawn twice: as a polygon
that gives the part a little too much metal and as one that gives it too little. The true part lies
between them, whatever is cut off it, because one body always contains the other.
"""

from __future__ import annotations

from math import cos, pi, radians, sin

import manifold3d
import numpy as np

LESS, MORE, ON = "less", "more", "on"
"""Too little metal, too much, or (ON) every corner of the polygon on the true surface."""

Point = tuple[float, float, float]


def _arc(centre: tuple[float, float], radius: float, start: float, turn: float, steps: int, outside: bool) -> list:
    """Points along a quarter circle: on it (its chords), or outside it where its tangents meet."""
    if radius == 0:
        return [centre]
    step = turn / steps
    if outside:
        reach = radius / cos(step / 2)
        middle = [(reach, start + (i + 0.5) * step) for i in range(steps)]
        polar = [(radius, start), *middle, (radius, start + turn)]
    else:
        polar = [(radius, start + i * step) for i in range(steps + 1)]
    return [(centre[0] + rho * cos(angle), centre[1] + rho * sin(angle)) for rho, angle in polar]


def outline(section, metal: str = ON, steps: int = 32) -> list[tuple[float, float]]:
    """The section as a polygon of (y, z), anticlockwise from the heel.

    A polygon outside the fillet's circle leaves less metal; one outside a rounded toe leaves more.
    """
    a, b, ta, tb = (float(v) for v in (section.leg_a, section.leg_b, section.thickness_a, section.thickness_b))
    fillet, toe, heel = float(section.fillet), float(section.toe_radius), float(section.heel_radius)
    # One step more than the fillet: where a toe runs straight into the fillet, two equal chords would
    # lie in one line and the kernel would drop the corner between them.
    convex = {"steps": steps + 1, "outside": metal == MORE}
    points = [
        *_arc((heel, heel), heel, pi, pi / 2, **convex),
        (a, 0.0),
        *_arc((a - toe, ta - toe), toe, 0.0, pi / 2, **convex),
        *_arc((tb + fillet, ta + fillet), fillet, 3 * pi / 2, -pi / 2, steps, metal == LESS),
        *_arc((tb - toe, b - toe), toe, 0.0, pi / 2, **convex),
        (0.0, b),
    ]
    kept = [p for i, p in enumerate(points) if max(abs(p[0] - points[i - 1][0]), abs(p[1] - points[i - 1][1])) > 1e-12]
    return kept


def bar(section, length: float, metal: str = ON, steps: int = 32) -> manifold3d.Manifold:
    """A stick: the outline drawn out along x from 0 to the length."""
    return prism(outline(section, metal, steps), 0.0, length)


def prism(points: list[tuple[float, float]], x0: float, x1: float) -> manifold3d.Manifold:
    """The polygon of (y, z), anticlockwise, drawn out from x0 to x1."""
    n = len(points)
    flat = np.array(points)
    vertices = np.vstack([np.column_stack([np.full(n, x), flat]) for x in (x0, x1)])
    cap = np.asarray(manifold3d.triangulate([flat]))
    i = np.arange(n)
    j = (i + 1) % n
    sides = np.vstack([np.column_stack([i, j, j + n]), np.column_stack([i, j + n, i + n])])
    triangles = np.vstack([cap[:, ::-1], cap + n, sides]).astype(np.uint64)
    solid = manifold3d.Manifold(manifold3d.Mesh64(vert_properties=vertices, tri_verts=triangles))
    assert solid.status() == manifold3d.Error.NoError and solid.volume() > 0, solid.status()
    return solid


def place(leg: str, x: float, along: float, through: float) -> Point:
    """A point on a leg in space: along the leg from the heel, through it from the outer face."""
    return (x, along, through) if leg == "A" else (x, through, along)


class Saw:
    """A saw plane: through three points on the metal, keeping the side of a fourth."""

    def __init__(self, p: Point, q: Point, r: Point, keep: Point):
        p, q, r, keep = (np.array(v, dtype=float) for v in (p, q, r, keep))
        normal = np.cross(q - p, r - p)
        normal /= np.linalg.norm(normal)
        self.normal = normal if normal @ (keep - p) > 0 else -normal
        self.offset = float(self.normal @ p)

    def moved_into_waste(self, distance: float) -> Saw:
        """The parallel plane at a distance on the waste side."""
        other = object.__new__(Saw)
        other.normal, other.offset = self.normal, self.offset - distance
        return other

    def cut(self, solid: manifold3d.Manifold) -> manifold3d.Manifold:
        """The metal that is kept."""
        return solid.trim_by_plane(tuple(self.normal), self.offset)

    def holds(self, points: np.ndarray) -> np.ndarray:
        """Which points lie in the plane."""
        return np.abs(points @ self.normal - self.offset) < 1e-8


def taper_saw(section, length: float, taper) -> Saw:
    """The saw of one taper, from what the drawing gives.

    Two points are on the leg's outer face: the width left at the end, and the toe where the run
    ends (or one inch further at the given angle from the heel). The third is straight above the
    first, because the saw is square to the leg. The heel's far end is kept.
    """
    width, left = float(section.leg(taper.leg)), float(taper.width_left)
    end, inward = (0.0, 1.0) if taper.end == 1 else (length, -1.0)
    start = place(taper.leg, end, left, 0.0)
    if taper.run is not None:
        second = place(taper.leg, end + inward * float(taper.run), width, 0.0)
    else:
        angle = radians(float(taper.angle))
        second = place(taper.leg, end + inward * cos(angle), left + sin(angle), 0.0)
    return Saw(start, second, place(taper.leg, end, left, 1.0), keep=(end + inward * length, 0.0, 0.0))


def hole_bit(section, hole, metal: str = ON, steps: int = 48) -> manifold3d.Manifold:
    """The path of a drill: a cylinder square to the leg, in at its outer face and out inside the angle."""
    radius = float(hole.diameter) / 2
    if metal == LESS:
        radius /= cos(pi / steps)
    x, y = float(hole.x), float(hole.y)
    ring = [(x + radius * cos(2 * pi * i / steps), y + radius * sin(2 * pi * i / steps)) for i in range(steps)]
    return punch(hole.leg, ring, float(section.thickness(hole.leg)) + 0.5)


def punch(leg: str, points: list[tuple[float, float]], depth: float) -> manifold3d.Manifold:
    """A polygon of (x, y across the leg), anticlockwise, driven square through a leg from outside."""
    tool = prism(points, -0.01, depth)
    if leg == "A":
        return tool.transform([[0, 1, 0, 0], [0, 0, 1, 0], [1, 0, 0, 0]])
    return tool.transform([[0, 1, 0, 0], [1, 0, 0, 0], [0, 0, 1, 0]])


def from_end(points: list[tuple[float, float]], end: int, length: float) -> list[tuple[float, float]]:
    """Points measured from an end as points measured from end 1, still anticlockwise."""
    return points if end == 1 else [(length - x, y) for x, y in reversed(points)]


def cope_waste(section, length: float, cope, metal: str = ON, steps: int = 32) -> manifold3d.Manifold:
    """What a cope takes: a rectangle at the end with one round corner, through everything behind it."""
    across, left, radius = float(cope.length), float(cope.width_left), float(cope.radius)
    top = float(section.leg(cope.leg)) + 0.1
    arc = _arc((across - radius, left + radius), radius, -pi / 2, pi / 2, steps, metal == LESS)
    points = from_end([(-0.1, left), *arc, (across, top), (-0.1, top)], cope.end, length)
    return punch(cope.leg, points, float(section.leg("B" if cope.leg == "A" else "A")) + 0.1)


def corner_waste(part, corner, metal: str = ON, steps: int = 32) -> manifold3d.Manifold:
    """What rounding a corner takes: between the corner's two edges and a circle that touches both."""
    section, length, radius = part.section, float(part.length), float(corner.radius)
    width = float(section.leg(corner.leg))
    taper = next((t for t in part.tapers if (t.leg, t.end) == (corner.leg, corner.end)), None)
    if taper is None:
        at, edge = np.array([0.0, width]), np.array([0.0, -1.0])
    elif taper.run is not None:
        at = np.array([float(taper.run), width])
        edge = np.array([0.0, float(taper.width_left)]) - at
    else:
        rise = np.array([cos(radians(float(taper.angle))), sin(radians(float(taper.angle)))])
        at = np.array([0.0, float(taper.width_left)]) + rise * (width - float(taper.width_left)) / rise[1]
        edge = -rise
    toe, edge = np.array([1.0, 0.0]), edge / np.linalg.norm(edge)
    bisector = (toe + edge) / np.linalg.norm(toe + edge)
    # The centre is on the bisector, one radius below the toe.
    centre = at + bisector * radius / abs(bisector[1])
    touches = [at + direction * (direction @ (centre - at)) for direction in (toe, edge)]
    start, end = (np.arctan2(*(touch - centre)[::-1]) for touch in touches)
    arc = _arc(tuple(centre), radius, start, (end - start) % (2 * pi), steps, metal == MORE)
    # A little beyond the corner, so that the tool's sides do not lie in the part's faces.
    points = [(float(x), float(y)) for x, y in (at - 0.05 * bisector * 2, *reversed(arc))]
    tool = punch(corner.leg, from_end(points, corner.end, length), float(section.leg("B" if corner.leg == "A" else "A")) + 0.1)
    return tool


def part_solid(part, metal: str = ON, steps: int = 32) -> manifold3d.Manifold:
    """The finished part: its stick, sawn at every taper, coped, rounded and drilled."""
    length = float(part.length)
    solid = bar(part.section, length, metal, steps)
    for taper in part.tapers:
        solid = taper_saw(part.section, length, taper).cut(solid)
    tools = [cope_waste(part.section, length, cope, metal, steps) for cope in part.copes]
    tools += [corner_waste(part, corner, metal, steps) for corner in part.corners]
    tools += [hole_bit(part.section, hole, metal, 2 * steps) for hole in part.holes]
    for tool in tools:
        assert tool.volume() > 0
        solid = solid - tool
    return solid


def vertices(solid: manifold3d.Manifold) -> np.ndarray:
    """The corners of a solid, one row (x, y, z) each."""
    return np.asarray(solid.to_mesh64().vert_properties)[:, :3]


def triangles(solid: manifold3d.Manifold) -> np.ndarray:
    """The faces of a solid: an array of triangles (n, 3 corners, 3 coordinates)."""
    mesh = solid.to_mesh64()
    return np.asarray(mesh.vert_properties)[:, :3][np.asarray(mesh.tri_verts).astype(int)]


def moments(solid: manifold3d.Manifold) -> np.ndarray:
    """Volume and first moments (V, Mx, My, Mz), summed over tetrahedra from the origin."""
    faces = triangles(solid)
    volumes = np.einsum("ij,ij->i", faces[:, 0], np.cross(faces[:, 1], faces[:, 2])) / 6
    middles = faces.sum(axis=1) / 4
    return np.array([volumes.sum(), *(volumes @ middles)])


def face_area(solid: manifold3d.Manifold, saw: Saw) -> float:
    """Area of the sawn face."""
    faces = triangles(solid)
    cut = faces[np.all([saw.holds(faces[:, i]) for i in range(3)], axis=0)]
    return float(np.linalg.norm(np.cross(cut[:, 1] - cut[:, 0], cut[:, 2] - cut[:, 0]), axis=1).sum() / 2)


def starts_at(solid: manifold3d.Manifold, length: float, end: int, y: float, z: float) -> float | None:
    """How far from an end the metal of one corner line of the stock begins; None where none is left.

    The corner line is the line along x through (y, z); it must pass through corners of the solid.
    """
    corners = vertices(solid)
    here = corners[np.hypot(corners[:, 1] - y, corners[:, 2] - z) < 1e-9]
    if not len(here):
        return None
    return float(here[:, 0].min() if end == 1 else length - here[:, 0].max())


def differ(one: manifold3d.Manifold, two: manifold3d.Manifold) -> float:
    """Volume that belongs to only one of two solids."""
    return abs((one - two).volume()) + abs((two - one).volume())


