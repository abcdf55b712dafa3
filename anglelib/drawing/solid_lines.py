"""The edges of a finished part in space, and which of their pieces can be seen.

The part is its section swept along the heel between the planes of its cuts, so its faces are flat
polygons (the fillet a row of narrow ones). An edge is cut wherever, on the paper, it crosses another;
each piece is then behind some face or it is not. Arcs are rows of narrow planes: the fillet, rounded corners, the
radius of a cope.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace

from anglelib.drawing.face import clip
from anglelib.drawing.outline import arc_points, section_outline
from anglelib.drawing.sheet import Point
from anglelib.geometry.rounding import RoundedCorner, rounded_corners
from anglelib.geometry.taper import taper_lines
from anglelib.part import Cope, Part

Place = tuple[float, float, float]
Plane = tuple[float, float, float]
_STEP = 15.0
_CREASE = math.cos(math.radians(20))


@dataclass(frozen=True)
class Edge:
    """A straight edge in space, with the outward normals of the faces that meet in it."""

    start: Place
    end: Place
    normals: tuple[Place, ...]
    kind: str = "outline"


@dataclass(frozen=True)
class Camera:
    """A direction to look from: turned ``around`` the upright and ``above`` the level [deg]. z comes towards the viewer."""

    around: float = 28.0
    above: float = 24.0

    def paper(self, place: Place) -> Place:
        """Right and up on the paper, and towards the viewer."""
        x, y, z = place
        a, b = math.radians(self.around), math.radians(self.above)
        ca, sa, cb, sb = math.cos(a), math.sin(a), math.cos(b), math.sin(b)
        return x * ca + z * sa, x * sa * sb + y * cb - z * ca * sb, -x * sa * cb + y * sb + z * ca * cb


@dataclass(frozen=True)
class _Column:
    """A part of the section that is swept between the same planes: it starts at the latest, stops at the earliest."""

    outline: list[Point]
    starts: tuple[Plane, ...]
    stops: tuple[Plane, ...]

    def span(self, place: Point) -> tuple[float, float]:
        """From where to where along the heel there is metal at (y, z)."""
        low = max(_at(plane, *place) for plane in self.starts)
        return low, max(low, min(_at(plane, *place) for plane in self.stops))


def _at(plane: Plane, y: float, z: float) -> float:
    return plane[0] + plane[1] * y + plane[2] * z


def _columns(part: Part) -> list[_Column]:
    """The section in columns: one, unless a cope ends part of it further in; its radius is a stair of columns."""
    length = float(part.length)
    starts, stops = [(0.0, 0.0, 0.0)], [(length, 0.0, 0.0)]
    for line in taper_lines(part):
        foot, slope = float(line.at(0)), float(line.slope)
        p, q = (slope, 0.0) if line.leg == "A" else (0.0, slope)
        if line.end == 1:
            starts.append((foot, p, q))
        else:
            stops.append((length - foot, -p, -q))
    columns = [_Column(section_outline(part.section, _STEP), tuple(starts), tuple(stops))]
    for cope in part.copes:
        steps = _cope_planes(cope, length)
        lower = tuple(plane for _, plane in steps)
        for level, plane in steps:
            columns = [piece for column in columns for piece in _notched(column, cope, level, plane, lower)]
    for corner in rounded_corners(part) if part.corners else ():
        planes = tuple(_corner_planes(corner))
        columns = [
            replace(c, starts=(*c.starts, *planes)) if corner.end == 1 else replace(c, stops=(*c.stops, *planes)) for c in columns
        ]
    planes = list(dict.fromkeys(plane for column in columns for plane in (*column.starts, *column.stops)))
    return [_Column(_split(column.outline, planes), column.starts, column.stops) for column in columns]


def _plane(leg: str, one: Point, two: Point) -> Plane:
    """The plane square to a leg's faces through two points of them, (x, h)."""
    slope = (two[0] - one[0]) / (two[1] - one[1])
    foot = one[0] - slope * one[1]
    return (foot, slope, 0.0) if leg == "A" else (foot, 0.0, slope)


def _cope_planes(cope: Cope, length: float) -> list[tuple[float, Plane]]:
    """A cope's faces across the leg from the lowest up, each with the height it begins at: its radius, then its square end."""
    long, left, r = float(cope.length), float(cope.width_left), float(cope.radius)
    arc = arc_points(long - r, left + r, r, -90, 0, _STEP)
    if cope.end == 2:
        arc = [(length - x, h) for x, h in arc]
    planes = [(one[1], _plane(cope.leg, one, two)) for one, two in zip(arc, arc[1:])]
    return [*planes, (left + r, (arc[-1][0], 0.0, 0.0))]


def _notched(column: _Column, cope: Cope, level: float, plane: Plane, lower: tuple[Plane, ...]) -> list[_Column]:
    """A column cut in two at a height: above it the metal ends at the plane, and no more at those of the steps below."""
    axis = "AB".index(cope.leg)
    below = clip(column.outline, lambda y, z: level - (y, z)[axis])
    above = clip(column.outline, lambda y, z: (y, z)[axis] - level)
    found = [replace(column, outline=below)] if len(below) > 2 else []
    if len(above) > 2:
        kind = "starts" if cope.end == 1 else "stops"
        planes = (*(p for p in getattr(column, kind) if p not in lower), plane)
        found.append(replace(column, outline=above, **{kind: planes}))
    return found


def _corner_planes(corner: RoundedCorner) -> list[Plane]:
    """The planes through the chords of a rounded corner."""
    (cx, cy), (first, last) = corner.centre, corner.starts
    start, stop = (math.degrees(math.atan2(y - cy, x - cx)) for x, y in (first, last))
    turn = (stop - start + 180) % 360 - 180
    arc = arc_points(cx, cy, corner.radius, start, start + turn, _STEP)
    return [_plane(corner.leg, one, two) for one, two in zip(arc, arc[1:]) if abs(two[1] - one[1]) > 1e-12]


def faces_of(part: Part) -> list[list[Place]]:
    """The faces of the finished part, tapers and copes cut; each anticlockwise seen from outside."""
    columns = _columns(part)
    beside = {_edge_key(two, one): column for column in columns for one, two in _edges(column.outline)}
    corners: dict[Point, set[float]] = {}
    for column in columns:
        for place in column.outline:
            corners.setdefault(_rounded(place), set()).update(column.span(place))
    faces: list[list[Place]] = []
    for column in columns:
        for one, two in _edges(column.outline):
            (a1, b1), (a2, b2) = column.span(one), column.span(two)
            other = beside.get(_edge_key(one, two))
            spans = [(a1, b1, a2, b2)]
            if other is not None:  # only what sticks out before and behind the neighbour is a face
                (c1, d1), (c2, d2) = other.span(one), other.span(two)
                spans = [(a1, min(b1, c1), a2, min(b2, c2)), (max(a1, d1), b1, max(a2, d2), b2)]
            for s1, e1, s2, e2 in spans:
                if e1 - s1 + e2 - s2 > 1e-9:
                    first = [(x, *one) for x in _between(corners, one, s1, e1)]
                    last = [(x, *two) for x in _between(corners, two, s2, e2)]
                    ring = [*last, *reversed(first)]
                    faces.append([p for i, p in enumerate(ring) if math.dist(p, ring[i - 1]) > 1e-9])
        faces += _caps(column, column.starts, column.stops, 1)
        faces += _caps(column, column.stops, column.starts, -1)
    return faces


def _caps(column: _Column, planes: tuple[Plane, ...], others: tuple[Plane, ...], sign: int) -> list[list[Place]]:
    """The faces of one end (sign 1: where the metal starts), one for each plane that cuts there."""
    faces = []
    for plane in dict.fromkeys(planes):
        region = column.outline
        for rival in planes:
            if rival != plane and len(region) > 2:
                region = clip(region, lambda y, z, a=plane, b=rival: sign * (_at(a, y, z) - _at(b, y, z)))
        for other in others:
            if len(region) > 2:
                region = clip(region, lambda y, z, a=plane, b=other: sign * (_at(b, y, z) - _at(a, y, z)))
        if len(region) > 2 and abs(_area(region)) > 1e-9:
            face = [(_at(plane, y, z), y, z) for y, z in region]
            faces.append(face[::-1] if sign > 0 else face)
    return faces


def _edges(outline: list[Point]) -> list[tuple[Point, Point]]:
    return list(zip(outline, [*outline[1:], outline[0]], strict=True))


def _rounded(place: Point) -> Point:
    return round(place[0], 9) + 0.0, round(place[1], 9) + 0.0


def _edge_key(one: Point, two: Point) -> tuple[Point, Point]:
    return _rounded(one), _rounded(two)


def _between(corners: dict[Point, set[float]], place: Point, low: float, high: float) -> list[float]:
    """low, high, and every corner that another column has between them on this lengthwise line."""
    found = [x for x in corners[_rounded(place)] if low + 1e-9 < x < high - 1e-9]
    return [low, *sorted(found), high]


def _area(points: list[Point]) -> float:
    return math.fsum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in _edges(points)) / 2


def _split(outline: list[Point], planes: list[Plane]) -> list[Point]:
    """The outline with more corners: wherever two of the planes change places."""
    points: list[Point] = []
    for (y1, z1), (y2, z2) in _edges(outline):
        points.append((y1, z1))
        cuts = set()
        for i, one in enumerate(planes):
            for two in planes[i + 1 :]:
                f1 = _at(one, y1, z1) - _at(two, y1, z1)
                f2 = _at(one, y2, z2) - _at(two, y2, z2)
                if f1 * f2 < 0:
                    cuts.add(round(f1 / (f1 - f2), 12))
        points += [(y1 + t * (y2 - y1), z1 + t * (z2 - z1)) for t in sorted(cuts) if 1e-9 < t < 1 - 1e-9]
    return points


def normal(face: list[Place]) -> Place:
    """The outward normal of a face, of length 1 (Newell's sum)."""
    nx = ny = nz = 0.0
    for (x1, y1, z1), (x2, y2, z2) in zip(face, face[1:] + face[:1]):
        nx += (y1 - y2) * (z1 + z2)
        ny += (z1 - z2) * (x1 + x2)
        nz += (x1 - x2) * (y1 + y2)
    long = math.sqrt(nx * nx + ny * ny + nz * nz) or 1.0
    return nx / long, ny / long, nz / long


def edges_of(faces: Iterable[list[Place]]) -> list[Edge]:
    """Every edge once, with the normals of its faces."""
    found: dict[frozenset, tuple[Place, Place, list[Place]]] = {}
    for face in faces:
        n = normal(face)
        at = [(round(x, 6) + 0.0, round(y, 6) + 0.0, round(z, 6) + 0.0) for x, y, z in face]
        for one, two, here, there in zip(face, face[1:] + face[:1], at, at[1:] + at[:1]):
            if here != there:
                found.setdefault(frozenset((here, there)), (one, two, []))[2].append(n)
    return [Edge(one, two, tuple(normals)) for one, two, normals in found.values()]


def drawn(edge: Edge, camera: Camera) -> bool:
    """Whether an edge is a line of the drawing: a crease, or where the metal turns away from the viewer."""
    if len(edge.normals) != 2:
        return True
    one, two = edge.normals
    if one[0] * two[0] + one[1] * two[1] + one[2] * two[2] < _CREASE:
        return True
    return (camera.paper(one)[2] > 1e-9) != (camera.paper(two)[2] > 1e-9)


class Hider:
    """Faces on the paper, asked which pieces of a line lie behind them."""

    def __init__(self, faces: Iterable[list[Place]], camera: Camera) -> None:
        self.camera = camera
        self.front: list[tuple[list[Point], Place, tuple[float, float, float, float]]] = []
        for face in faces:
            n = camera.paper(normal(face))
            if n[2] <= 1e-9:
                continue  # behind a face that is turned away lies the metal itself
            flat = [camera.paper(place) for place in face]
            x0, y0, d0 = flat[0]
            plane = (-n[0] / n[2], -n[1] / n[2], d0 + (n[0] * x0 + n[1] * y0) / n[2])
            xs, ys = [p[0] for p in flat], [p[1] for p in flat]
            self.front.append(([(p[0], p[1]) for p in flat], plane, (min(xs), max(xs), min(ys), max(ys))))

    def hides(self, x: float, y: float, depth: float) -> bool:
        """Whether a point of the paper at this depth has a face before it."""
        for polygon, (p, q, d), (left, right, low, high) in self.front:
            if left < x < right and low < y < high and p * x + q * y + d > depth + 1e-6 and _inside(polygon, x, y):
                return True
        return False

    def pieces(self, start: Place, end: Place) -> list[tuple[Point, Point, bool]]:
        """The line from start to end on the paper, cut into pieces that are seen (True) or hidden."""
        a, b = self.camera.paper(start), self.camera.paper(end)
        cuts = {0.0, 1.0}
        left, right = min(a[0], b[0]), max(a[0], b[0])
        low, high = min(a[1], b[1]), max(a[1], b[1])
        for polygon, _, box in self.front:
            if box[0] > right or box[1] < left or box[2] > high or box[3] < low:
                continue
            for c, d in zip(polygon, polygon[1:] + polygon[:1]):
                t = _crossing(a, b, c, d)
                if t is not None:
                    cuts.add(t)
        ordered = sorted(cuts)
        found: list[tuple[Point, Point, bool]] = []
        for t1, t2 in zip(ordered, ordered[1:]):
            if t2 - t1 < 1e-7:
                continue
            t = (t1 + t2) / 2
            seen = not self.hides(*(u + t * (v - u) for u, v in zip(a, b)))
            one = (a[0] + t1 * (b[0] - a[0]), a[1] + t1 * (b[1] - a[1]))
            two = (a[0] + t2 * (b[0] - a[0]), a[1] + t2 * (b[1] - a[1]))
            if found and found[-1][2] == seen:
                found[-1] = (found[-1][0], two, seen)
            else:
                found.append((one, two, seen))
        return found


def _crossing(a: Place, b: Place, c: Point, d: Point) -> float | None:
    """Where on the way from a to b it crosses c-d on the paper."""
    ux, uy, vx, vy = b[0] - a[0], b[1] - a[1], d[0] - c[0], d[1] - c[1]
    det = ux * vy - uy * vx
    if abs(det) < 1e-12:
        return None
    wx, wy = c[0] - a[0], c[1] - a[1]
    t, s = (wx * vy - wy * vx) / det, (wx * uy - wy * ux) / det
    return t if 1e-9 < t < 1 - 1e-9 and -1e-9 <= s <= 1 + 1e-9 else None


def _inside(polygon: list[Point], x: float, y: float) -> bool:
    odd = False
    for (x1, y1), (x2, y2) in zip(polygon, polygon[1:] + polygon[:1]):
        if (y1 > y) != (y2 > y) and x < x1 + (y - y1) / (y2 - y1) * (x2 - x1):
            odd = not odd
    return odd
