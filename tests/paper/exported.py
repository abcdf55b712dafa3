"""Exported files measured without the library: DXF through ezdxf, SVG through the XML parser, solids through the kernel."""

from __future__ import annotations

import io
import math
import re
import sys
from dataclasses import replace
from pathlib import Path
from xml.etree import ElementTree

import ezdxf
import numpy as np
from shapely import LineString, Polygon, box
from shapely.ops import unary_union

for folder in ("oracle", "drawing"):
    sys.path.insert(0, str(Path(__file__).parents[1] / folder))
import cutters  # noqa: E402
import oracle_parts  # noqa: E402
import solids  # noqa: E402

sys.path.pop(0)
sys.path.pop(0)
__all__ = ["cutters", "oracle_parts", "solids"]

NAMESPACE = "{http://www.w3.org/2000/svg}"
FACTORS = {"in": 1.0, "mm": 25.4}


# --- DXF ----------------------------------------------------------------------------------------------
def opened(content: bytes) -> ezdxf.document.Drawing:
    """The file as ezdxf reads it, audited."""
    document = ezdxf.read(io.StringIO(content.decode("utf-8")))
    audit = document.audit()
    assert not audit.errors and not audit.fixes, [error.message for error in audit.errors]
    return document


def polygon_on(document, layer: str, factor: float = 1.0) -> Polygon:
    """The closed polylines of a layer as one area in inches, arcs in pieces within 2e-6."""
    found = []
    for entity in document.modelspace().query(f'LWPOLYLINE[layer=="{layer}"]'):
        assert entity.closed
        x, y = entity.get_points("xy")[0]
        points = [(x / factor, y / factor)]
        for piece in entity.virtual_entities():  # LINE and ARC, in order, an arc always anticlockwise
            if piece.dxftype() == "ARC":
                bent = [(p.x / factor, p.y / factor) for p in piece.flattening(2e-6 * factor)]
                points += bent if math.dist(points[-1], bent[0]) < math.dist(points[-1], bent[-1]) else bent[::-1]
            else:
                points += [(p.x / factor, p.y / factor) for p in (piece.dxf.start, piece.dxf.end)]
        found.append(Polygon(points).buffer(0))
    return unary_union(found)


def circles(document, factor: float = 1.0) -> list[tuple[float, float, float]]:
    """Centre and diameter of every CIRCLE on HOLES [in]."""
    found = document.modelspace().query('CIRCLE[layer=="HOLES"]')
    return sorted((c.dxf.center.x / factor, c.dxf.center.y / factor, 2 * c.dxf.radius / factor) for c in found)


def measured(dimension) -> float:
    """What a dimension measures by its own points, in the file's unit; of an ordinate dimension the part along its axis."""
    found = dimension.get_measurement()
    if dimension.dimtype == 6:
        return abs(found.x if dimension.dxf.dimtype & 64 else found.y)
    return abs(found)


def ordinates(document, axis: str, factor: float = 1.0) -> list[float]:
    """What the ordinate dimensions along an axis measure [in]."""
    found = [d for d in document.modelspace().query("DIMENSION") if d.dimtype == 6 and bool(d.dxf.dimtype & 64) == (axis == "x")]
    return sorted(measured(dimension) / factor for dimension in found)


# --- SVG -----------------------------------------------------------------------------------------------
def svg_layers(text: str) -> dict[str, ElementTree.Element]:
    """The groups of an SVG file by their names."""
    return {group.get("id"): group for group in ElementTree.fromstring(text).iter(f"{NAMESPACE}g")}


def svg_scale(text: str) -> tuple[str, float]:
    """The unit of the file's size, and how many of its coordinates go into one of them."""
    root = ElementTree.fromstring(text)
    number, unit = re.fullmatch(r"([\d.]+)(in|mm)", root.get("width")).groups()
    left, low, wide, high = map(float, root.get("viewBox").split())
    tall = float(root.get("height").removesuffix(unit))
    assert math.isclose(wide / float(number), high / tall, rel_tol=1e-9)
    return unit, wide / float(number)


def svg_polygons(group: ElementTree.Element, factor: float) -> list[Polygon]:
    """The closed paths of a group in inches, y up; arcs are drawn anew from radius, flags and end points."""
    found = []
    for element in group.findall(f"{NAMESPACE}path"):
        words = element.get("d")
        if not words.endswith("Z"):
            continue
        points: list[tuple[float, float]] = []
        for command, numbers in re.findall(r"([MLA])([^MLAZ]*)", words):
            values = [float(v) for v in numbers.split()]
            end = (values[-2] / factor, -values[-1] / factor)
            points += _arc(points[-1], end, values[0] / factor, int(values[3]), int(values[4])) if command == "A" else [end]
        found.append(Polygon(points).buffer(0))
    return found


def _arc(start, end, radius: float, large: int, sweep: int) -> list[tuple[float, float]]:
    """An SVG arc (sweep 1: clockwise once y points up) as points, from its end points."""
    (x1, y1), (x2, y2) = start, end
    half = math.dist(start, end) / 2
    rise = math.sqrt(max(0.0, radius**2 - half**2)) * (1 if large != sweep else -1)
    ux, uy = (x2 - x1) / (2 * half), (y2 - y1) / (2 * half)
    cx, cy = (x1 + x2) / 2 + rise * uy, (y1 + y2) / 2 - rise * ux
    a, b = math.atan2(y1 - cy, x1 - cx), math.atan2(y2 - cy, x2 - cx)
    turn = (b - a) % (2 * math.pi)
    turn = turn - 2 * math.pi if sweep else turn
    return [(cx + radius * math.cos(a + turn * i / 64), cy + radius * math.sin(a + turn * i / 64)) for i in range(1, 65)]


# --- the part, from the kernel ---------------------------------------------------------------------------
def bare(part):
    """The part without its holes."""
    return replace(part, holes=(), hand=None, mirror_of="")


def inner_face(part, leg: str) -> Polygon:
    """A finished inner face in (x, height): a slice of the kernel's solid just under it, between fillet and rounded toe."""
    section, other = part.section, "B" if leg == "A" else "A"
    low, high = float(section.thickness(other) + section.fillet), float(section.leg(leg) - section.toe_radius)
    solid = cutters.finished(bare(part), solids.ON, 180)
    if leg == "B":  # a turn that lays leg B flat
        solid = solid.transform([[1, 0, 0, 0], [0, 0, -1, 0], [0, 1, 0, 0]])
    rings = solid.slice(float(section.thickness(leg)) - 5e-7).to_polygons()
    return unary_union([Polygon(ring if leg == "A" else ring * (1, -1)) for ring in rings]).intersection(box(-1, low, 100, high))


def on_sheet(section, inner: bool, v: float, deep: float = 5e-6) -> tuple[float, float] | None:
    """(y, z) of a place on the unrolled outside or inside, ``deep`` under the surface; v grows towards leg A. None: off the sheet."""
    ta, tb = float(section.thickness_a), float(section.thickness("B"))
    if inner:
        r, (cy, cz) = float(section.fillet), (tb + float(section.fillet), ta + float(section.fillet))
        ends = {"A": float(section.leg_a - section.toe_radius), "B": float(section.leg_b - section.toe_radius)}
    else:
        r = float(section.heel_radius)
        cy, cz, ends, ta, tb = r, r, {"A": float(section.leg_a), "B": float(section.leg_b)}, 0.0, 0.0
    half, inwards = math.pi * r / 4, -deep if inner else deep
    if v > half:
        y = cy + v - half
        return (y, ta + inwards) if y < ends["A"] else None
    if v < -half:
        z = cz - v - half
        return (tb + inwards, z) if z < ends["B"] else None
    turn = math.pi / 4 - v / r if r else 0.0
    away = r + deep if inner else r - deep
    return cy - away * math.sin(turn), cz - away * math.cos(turn)


def reach_along(faces: np.ndarray, y: float, z: float) -> tuple[float, float] | None:
    """Where a line along x enters a solid's faces first and leaves them last."""
    a, b, c = (faces[:, i, 1:] for i in range(3))
    (u, v), w = (b - a).T, c - a
    area = u * w[:, 1] - v * w[:, 0]
    ok = np.abs(area) > 1e-18
    p, q = y - a[:, 0], z - a[:, 1]
    with np.errstate(all="ignore"):
        s, t = (p * w[:, 1] - q * w[:, 0]) / area, (u * q - v * p) / area
        hit = ok & (s >= -1e-12) & (t >= -1e-12) & (s + t <= 1 + 1e-12)
    if not hit.any():
        return None
    x = faces[hit, 0, 0] + s[hit] * (faces[hit, 1, 0] - faces[hit, 0, 0]) + t[hit] * (faces[hit, 2, 0] - faces[hit, 0, 0])
    return float(x.min()), float(x.max())


def span_at(area: Polygon, v: float) -> tuple[float, float] | None:
    """From where to where an area on a sheet reaches along x at a height v."""
    cut = area.intersection(LineString([(-10, v), (1000, v)]))
    return None if cut.is_empty else (cut.bounds[0], cut.bounds[2])
