"""The fold sheets against a solid: where a general-purpose kernel cut the metal, the paper has its line.

The solid is sawn by planes through three points of the drawing, and coped and rounded by cutters whose
arcs are found with shapely (``tests/oracle``); the points of its cut edges are unrolled here, by the
arc they have run round, and must lie on the line as it is drawn on the page.
"""

from __future__ import annotations

import math
import sys
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from random import Random

import numpy as np
import pytest
from printed_pages import PARTS
from shapely import LineString, MultiLineString, Point, Polygon
from shapely.ops import unary_union

from anglelib.job import Shop
from anglelib.paper.fold_strip import FoldStrip
from anglelib.paper.tiles import Tile
from anglelib.part import Cope, Corner, Part, Taper

sys.path.insert(0, str(Path(__file__).parents[1] / "oracle"))
import cutters  # noqa: E402
import oracle_parts  # noqa: E402
import solids  # noqa: E402

sys.path.pop(0)

INCH = 25.4
NEAR = 0.1
"""How far a point of the solid may lie off the printed line [mm]."""
ON = 1e-7


class Unrolled:
    """A way to unroll one side of the section, from the section's numbers alone: (y, z) to the place across the paper."""

    def __init__(self, part: Part, inner: bool) -> None:
        section = part.section
        self.inner = inner
        self.a, self.b = float(section.leg_a), float(section.leg_b)
        self.ta, self.tb = float(section.thickness("A")), float(section.thickness("B"))
        self.toe = float(section.toe_radius) if inner else 0.0
        self.bend = float(section.fillet if inner else section.heel_radius)
        corner = (self.tb, self.ta) if inner else (0.0, 0.0)
        self.centre = (corner[0] + self.bend, corner[1] + self.bend)
        half = math.pi * self.bend / 4
        self.high, self.low = half + self.a - self.toe - self.centre[0], -half - (self.b - self.toe - self.centre[1])
        self.plane = {"A": self.ta if inner else 0.0, "B": self.tb if inner else 0.0}

    def __call__(self, y: float, z: float) -> float | None:
        """The place [in] across the paper; None for a point that is not on this side's skin."""
        half = math.pi * self.bend / 4
        cy, cz = self.centre
        if abs(z - self.plane["A"]) < ON and cy - ON <= y <= self.a - self.toe + ON:
            return half + y - cy
        if abs(y - self.plane["B"]) < ON and cz - ON <= z <= self.b - self.toe + ON:
            return -half - (z - cz)
        if self.bend and y < cy and z < cz and abs(math.hypot(y - cy, z - cz) - self.bend) < ON:
            return self.bend * (math.atan2(cz - z, cy - y) - math.pi / 4)  # from leg B's tangent, 0, to leg A's
        return None


def cut_edges(part: Part, solid, inner: bool) -> list[list[tuple[float, float]]]:
    """The solid's edges between this side's skin and a cut, unrolled: straight pieces of (x, v) [in], some of them points."""
    unroll = Unrolled(part, inner)
    faces = solids.triangles(solid)
    length = float(part.length)
    edges: dict[tuple, list[bool]] = {}
    corners: dict[tuple, tuple] = {}
    for face in faces:
        keys = [tuple(np.round(corner, 9)) for corner in face]
        places = [unroll(corner[1], corner[2]) for corner in face]
        flat = {"A": np.abs(face[:, 2] - unroll.plane["A"]).max() < ON, "B": np.abs(face[:, 1] - unroll.plane["B"]).max() < ON}
        normal = np.cross(face[1] - face[0], face[2] - face[0])
        along = abs(normal[0]) < 1e-6 * np.linalg.norm(normal)  # the skin runs along x; a cut does not
        skin = all(place is not None for place in places) and (any(flat.values()) or along)
        for i in range(3):
            j = (i + 1) % 3
            edge = tuple(sorted((keys[i], keys[j])))
            edges.setdefault(edge, []).append(skin)
            corners[keys[i]] = (face[i], places[i])
    found = []
    for (p, q), skins in edges.items():
        if sorted(skins) != [False, True]:
            continue
        (one, v1), (two, v2) = corners[p], corners[q]
        xs = (one[0], two[0])
        half = math.pi * unroll.bend / 4
        at_toe = abs(v1 - v2) < 1e-9 and any(abs(v1 - v) < 1e-9 for v in (unroll.high, unroll.low, half, -half))
        if max(xs) < 1e-9 or min(xs) > length - 1e-9 or at_toe:
            continue  # the square end; the stock's own edges and tangents
        found.append([(one[0], v1), (two[0], v2)])
    return found


def printed_line(part: Part, inner: bool) -> MultiLineString:
    """The edge of the finished line's ink that faces the part, on a page without tiles [mm]: where ink and metal meet."""
    strip = FoldStrip(part, Shop(), inner, Tile(0.0, float(part.length)), 0.0)
    inks = [Polygon(item.points).buffer(0) for item in strip.drawn if getattr(item, "fill", "") == "accent"]
    return unary_union(inks).boundary


def check(part: Part, shift: float = 0.0) -> float:
    """Every point of the solid's cut edges on the printed line; the largest miss [mm]."""
    bare = Part(part.id, part.name, part.section, part.alloy, part.length, part.tapers, (), part.corners, part.copes)
    solid = cutters.finished(bare, solids.ON, 48)
    worst = 0.0
    for inner in (False, True):
        edges = cut_edges(bare, solid, inner)
        up = 1 if inner else -1
        if not edges:
            continue
        line = printed_line(bare, inner)
        for (x1, v1), (x2, v2) in edges:
            bent = abs((v1 + v2) / 2) < math.pi * float(part.section.fillet if inner else part.section.heel_radius) / 4
            for share in (0.0, 1.0) if bent else (0.0, 0.3, 0.7, 1.0):
                x, v = x1 + (x2 - x1) * share, v1 + (v2 - v1) * share
                if bent and not 1e-9 < x < float(part.length) - 1e-9:
                    continue  # a chord of the bend that runs along the stock
                x += shift / INCH
                worst = max(worst, line.distance(Point(x * INCH, up * v * INCH)))
    return worst


CASES = {name: part for name, part in PARTS.items() if part.tapers}
STOCK = PARTS["round"].section
CASES["coped"] = Part("coped", "Trial", STOCK, "6061-T6", 6, copes=[Cope("A", 1, 1, "3/8", "1/8"), Cope("B", 2, "1 1/4", "1/2", "1/4")])
CASES["rounded"] = Part(
    "rounded", "Trial", STOCK, "6061-T6", 7, tapers=[Taper("A", 1, "1/4", run=2)], corners=[Corner("A", 1, "3/8"), Corner("B", 2, "1/4")]
)
CASES["all"] = Part(
    "all", "Trial", STOCK, "6061-T6", 8, tapers=[Taper("A", 1, run=2), Taper("B", 1, "3/16", run=1)],
    copes=[Cope("A", 2, 1, "3/8", "1/8")], corners=[Corner("A", 1, "1/8"), Corner("B", 2, "1/8")],
)  # fmt: skip


@pytest.mark.parametrize("name", CASES)
def test_the_printed_line_lies_where_the_solid_is_cut(name):
    part = CASES[name]
    assert check(part) < NEAR


def test_a_line_that_is_off_would_be_found():
    """A fifth of a millimetre along the heel; and the wrong leg's thickness, on the inside."""
    assert check(CASES["vertex"], shift=0.2) > NEAR
    wrong = CASES["round"]
    section = wrong.section
    swapped = type(section)(section.leg_a, section.leg_b, section.thickness_b, section.thickness_a, section.fillet, section.toe_radius, section.heel_radius)
    lines = printed_line(Part("w", "Trial", swapped, "6061-T6", wrong.length, wrong.tapers), True)
    edges = cut_edges(wrong, cutters.finished(wrong, solids.ON, 48), True)
    assert max(lines.distance(Point(x * INCH, v * INCH)) for edge in edges for x, v in edge) > 1.0


def test_the_solid_has_cut_edges_on_both_sides_and_round_both_bends():
    part = CASES["round"]
    solid = cutters.finished(part, solids.ON, 48)
    for inner, bend, lowest in ((False, part.section.heel_radius, -0.07), (True, part.section.fillet, -0.3)):
        places = [v for edge in cut_edges(part, solid, inner) for _, v in edge]
        within = [v for v in places if abs(v) < math.pi * float(bend) / 4 - 1e-6]
        assert len(within) > 40 and min(places) < lowest and max(places) > 0.5, inner


def test_no_line_is_printed_where_the_solid_is_not_cut():
    """The other way round: each corner of the printed line on some edge of the solid, or where ink ends."""
    for name in ("vertex", "coped", "rounded"):
        part = CASES[name]
        solid = cutters.finished(Part("b", "Trial", part.section, "6061-T6", part.length, part.tapers, (), part.corners, part.copes), solids.ON, 48)
        edges = unary_union([LineString([(x * INCH, -v * INCH) for x, v in edge]) for edge in cut_edges(part, solid, False)])
        line = printed_line(part, False)
        assert max(edges.distance(Point(p)) for piece in getattr(line, "geoms", [line]) for p in piece.coords) < 0.8, name


def random_part(seed: int) -> Part:
    """A random part; a cope whose floor would lie in an inner face's own plane leaves 1/64 more: the kernel makes one face of the two."""
    part = oracle_parts.part(Random(f"fold sheet {seed}"))
    copes = []
    for cope in part.copes:
        flush = cope.width_left == part.section.thickness("B" if cope.leg == "A" else "A")
        copes.append(replace(cope, width_left=cope.width_left + Fraction(flush, 64), radius=cope.radius - Fraction(flush and cope.radius > Fraction(1, 64), 64)))
    return replace(part, copes=tuple(copes))


@pytest.mark.parametrize("seed", range(6))
def test_random_parts(seed):
    assert check(random_part(seed)) < NEAR, seed


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(6, 500))
def test_many_more_random_parts(seed):
    assert check(random_part(seed)) < NEAR, seed
