"""The finished part as a closed mesh in millimetres, through a general-purpose kernel, and as an STL file.

A mesh has flat faces only: an arc becomes a chain of chords with their ends on it, none further than
``error`` from it. Everything else is exact: the part is its section drawn out, cut by both legs'
outlines square to their faces.

>>> from anglelib.geometry.solid import solid_of
>>> from anglelib.part import Taper
>>> from anglelib.section import Section
>>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
>>> bracket = Part("C1L", "Bracket", stock, "6061-T6", "4 3/4", tapers=[Taper("A", 1, run="2 1/8")])
>>> abs(part_mesh(bracket).volume() / 25.4**3 / solid_of(bracket).volume - 1) < 1e-4
True
>>> part_mesh(bracket, error=0)
Traceback (most recent call last):
    ...
anglelib.errors.BenchError: The error of the mesh's arcs is 0 mm: give it between 0.00001 and 1 mm, for example 0.005.
"""

from __future__ import annotations

import struct
from collections.abc import Sequence
from typing import TYPE_CHECKING

from anglelib.errors import BenchError
from anglelib.geometry.edges import Bend, Edge, Point, step_within
from anglelib.geometry.leg_shape import LegShape
from anglelib.geometry.outlines import face_edges, section_edges
from anglelib.part import Hole, Part
from anglelib.section import LEGS

if TYPE_CHECKING:
    import numpy
    from manifold3d import Manifold

MM = 25.4
ERROR = 0.005
"""How far a chord may be off its arc, where nothing else is asked for [mm]."""
SHORTEST = 2e-6
"""The shortest edge in a file, as a part of the mesh's length: single precision tells points a tenth of that apart."""


def kernel():
    """The kernel, or a sentence that says how it is installed."""
    try:
        import manifold3d
    except ImportError:
        raise BenchError(
            "A mesh needs the package manifold3d: install it with pip install manifold3d, or leave mesh and saddle out of --what."
        ) from None
    return manifold3d


def part_mesh(part: Part, error: float = ERROR) -> Manifold:
    """The finished part: x from end 1, y along leg A, z along leg B [mm]. ``error`` [mm]: of the chords of arcs."""
    check_error(error)
    for leg in LEGS:
        shape = LegShape.of(part, leg)
        if shape.start(0.0) >= shape.stop(0.0):
            raise BenchError(f"Nothing is left of leg {leg} of {part.id}: there is no mesh of it.")
    solid = drawn_out(polygon(section_edges(part.section), error), 0.0, float(part.length) * MM)
    for leg in LEGS:
        face = polygon(face_edges(part, leg), error)
        top = MM * float(max(part.section.leg_a, part.section.leg_b)) + 1
        solid = solid ^ through(leg, _widened(face, part, leg), -1.0, top)
        for hole in part.holes_in(leg):
            solid = solid - _drill(part, leg, hole, error)
    return solid


def check_error(error: float) -> None:
    """BenchError where the error of the chords makes no sense."""
    if not 1e-5 <= error <= 1.0:
        raise BenchError(f"The error of the mesh's arcs is {error:g} mm: give it between 0.00001 and 1 mm, for example 0.005.")


def polygon(edges: Sequence[Edge], error: float) -> list[Point]:
    """A closed outline [in] as the corners of a polygon [mm]."""
    found: list[Point] = []
    for edge in edges:
        step = step_within(getattr(edge, "radius", 0.0) * MM, error)
        found += [(x * MM, y * MM) for x, y in edge.points(step)[:-1]]
    return found


def drawn_out(outline: Sequence[Point], start: float, stop: float) -> Manifold:
    """A polygon of (y, z) drawn out along x [mm]."""
    solid = kernel().CrossSection([list(outline)]).extrude(stop - start)
    return solid.transform([[0, 0, 1, start], [1, 0, 0, 0], [0, 1, 0, 0]])  # (y, z, x) -> (x, y, z)


def through(leg: str, outline: Sequence[Point], start: float, stop: float) -> Manifold:
    """A polygon of (x, height on the leg) driven square through it, from one depth to another [mm]."""
    solid = kernel().CrossSection([list(outline)]).extrude(stop - start).translate([0, 0, start])
    if leg == "A":
        return solid
    return solid.rotate([90, 0, 0]).mirror([0, 1, 0])  # (x, height, depth) -> (x, depth, height)


def _widened(outline: list[Point], part: Part, leg: str) -> list[Point]:
    """A face's polygon with the edges that are the blank's own moved outwards by 1 mm: they are no cuts."""
    length, width = float(part.length) * MM, float(part.section.leg(leg)) * MM
    found: list[Point] = []
    for p, q in zip(outline, [*outline[1:], outline[0]], strict=True):
        out = (0.0, 0.0)
        for axis, at, way in ((0, 0.0, -1.0), (0, length, 1.0), (1, 0.0, -1.0), (1, width, 1.0)):
            if abs(p[axis] - at) < 1e-9 and abs(q[axis] - at) < 1e-9:
                out = (way, 0.0) if axis == 0 else (0.0, way)
        found += [p, (p[0] + out[0], p[1] + out[1]), (q[0] + out[0], q[1] + out[1])] if any(out) else [p]
    return found


def _drill(part: Part, leg: str, hole: Hole, error: float) -> Manifold:
    """The path of a drill through one leg and the fillet inside it."""
    ring = polygon((Bend((float(hole.x), float(hole.y)), float(hole.diameter) / 2, 0.0, 360.0),), error)
    deep = MM * float(part.section.thickness(leg) + part.section.fillet) + 1
    return through(leg, ring, -1.0, deep)


def stl(solid: Manifold, name: str) -> bytes:
    """A mesh as a binary STL file; the file's unit is the millimetre, which its first line says."""
    import numpy

    shortest = max(map(abs, solid.bounding_box())) * SHORTEST
    mesh = solid.as_original().simplify(shortest).to_mesh64()
    corners, faces = _without_slivers(
        numpy.asarray(mesh.vert_properties)[:, :3], numpy.asarray(mesh.tri_verts, dtype=numpy.int64), shortest
    )
    faces = corners.astype(numpy.float32)[faces]
    normals = numpy.cross(faces[:, 1] - faces[:, 0], faces[:, 2] - faces[:, 0]).astype(numpy.float64)
    long = numpy.linalg.norm(normals, axis=1, keepdims=True)
    normals = (normals / numpy.where(long > 0, long, 1)).astype(numpy.float32)
    rows = numpy.zeros(len(faces), dtype=[("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("spare", "<u2")])
    rows["normal"], rows["corners"] = normals, faces
    head = f"{name}, unit mm".encode("ascii", "replace")[:80].ljust(80)
    return head + struct.pack("<I", len(rows)) + rows.tobytes()


def _without_slivers(corners: numpy.ndarray, faces: numpy.ndarray, shortest: float) -> tuple[numpy.ndarray, numpy.ndarray]:
    """The mesh with corners nearer than ``shortest`` made one, and without what that closes.

    Single precision would close them anyway, and leave two faces back to back or a rim open.
    """
    import numpy

    _, first, same = numpy.unique(numpy.round(corners / shortest), axis=0, return_index=True, return_inverse=True)
    faces = first[same.reshape(-1)][faces]
    faces = faces[(faces[:, 0] != faces[:, 1]) & (faces[:, 1] != faces[:, 2]) & (faces[:, 2] != faces[:, 0])]
    # Two faces of the same corners are back to back: both go.
    kept: dict[tuple[int, ...], int] = {}
    for n, face in enumerate(numpy.sort(faces, axis=1).tolist()):
        if kept.pop(tuple(face), None) is None:
            kept[tuple(face)] = n
    return corners, faces[sorted(kept.values())]
