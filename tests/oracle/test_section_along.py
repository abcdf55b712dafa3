"""The section along x, against slices of the finished solid.

The kernel slices a part with a little too little metal and one with a little too much. Area and
moments about the heel, where all of them grow with the metal, lie between those of the two slices;
the slices' own are line integrals along their outlines.
"""

from __future__ import annotations

from fractions import Fraction as F
from itertools import pairwise
from random import Random

import cutters
import numpy as np
import oracle_parts
import pytest
import solids
from cutters import slice_edges
from shapely import LineString, Polygon
from shapely.ops import polygonize

from anglelib.errors import PartError
from anglelib.geometry.along import limits, section_at, weakest_place
from anglelib.geometry.rounding import rounded_corners
from anglelib.geometry.solid import solid_of
from anglelib.geometry.taper import taper_lines
from anglelib.part import Cope, Corner, Hole, Part, Taper
from anglelib.section import Section

STOCK = Section("1 1/2", "1 1/4", "1/8", "3/16", fillet="3/16", toe_radius="3/32", heel_radius="1/16")
PART = Part(
    "P1", "Trial", STOCK, "6061-T6", 8,
    tapers=[Taper("A", 1, "1/4", run=2), Taper("B", 1, run="3/2")],
    corners=[Corner("A", 1, "3/8"), Corner("B", 2, "1/4")],
    copes=[Cope("A", 2, "1 1/4", "7/32", "1/8")],
    holes=[Hole("A", 3, 1, "3/16"), Hole("B", "49/16", "5/8", "1/8"), Hole("A", 4, "9/32", "3/16")],
)  # fmt: skip
NAMES = ("A", "Qz", "Qy", "Izz", "Iyy", "Iyz")


def of_edges(edges: np.ndarray) -> np.ndarray:
    """Area, first and second moments about the heel, summed along the outline (Green's theorem)."""
    (y0, z0), (y1, z1) = edges[:, 0].T, edges[:, 1].T
    turn = y0 * z1 - y1 * z0
    return np.array(
        [
            turn.sum() / 2,
            (turn * (y0 + y1)).sum() / 6,
            (turn * (z0 + z1)).sum() / 6,
            (turn * (y0**2 + y0 * y1 + y1**2)).sum() / 12,
            (turn * (z0**2 + z0 * z1 + z1**2)).sum() / 12,
            (turn * (y0 * z1 + 2 * y0 * z0 + 2 * y1 * z1 + y1 * z0)).sum() / 24,
        ]
    )


def about_heel(part, x: float) -> np.ndarray:
    at = section_at(part, x)
    (y, z), area, (about_y, about_z, product) = at.centroid, at.area, at.second_moments
    return np.array([area, area * y, area * z, about_z + area * y * y, about_y + area * z * z, product + area * y * z])


def check_slice(part, x: float, steps: int, width: float) -> None:
    x += 1e-10  # off the kernel's corners
    less, more = (of_edges(slice_edges(cutters.finished(part, metal, steps), 0, x)) for metal in (solids.LESS, solids.MORE))
    ours = about_heel(part, x)
    room = 1e-9 * more[0]
    for name, low, value, high in zip(NAMES, less, ours, more, strict=True):
        assert low - room <= value <= high + room, (name, x, low, value, high)
        assert high - low <= width * high + room, f"{name} at {x}: the bounds are too far apart to prove anything"


@pytest.mark.parametrize("x", [0.01, 0.2, 0.9, 1.499, 1.6, 1.9, 2.05, 2.5, 3, 3.06, 3.09, 4, 4.05, 5, 6.7, 6.82, 7.2, 7.9])
def test_slices_of_one_part(x):
    check_slice(PART, x, steps=96, width=4e-3)


def test_slices_of_random_parts():
    for seed in range(40):
        rng = Random(f"slice {seed}")
        part = oracle_parts.part(rng)
        for _ in range(3):
            x = rng.uniform(0.02, 0.98) * float(part.length)
            try:
                check_slice(part, x, steps=24, width=0.2)
            except AssertionError as error:
                raise AssertionError(f"seed {seed}: {error}") from None


@pytest.mark.slow
@pytest.mark.parametrize("block", range(10))
def test_slices_of_a_thousand_random_parts(block):
    for seed in range(100 + 100 * block, 200 + 100 * block):
        rng = Random(f"slice {seed}")
        part = oracle_parts.part(rng)
        for _ in range(4):
            check_slice(part, rng.uniform(0.01, 0.99) * float(part.length), steps=24, width=0.2)


@pytest.mark.parametrize("x", [0.9, 2.2, 6.82])
def test_principal_moments_of_a_meshed_slice(x):
    """sectionproperties meshes the slice; the angle of an axis is known up to half a turn."""
    try:
        from sectionproperties.analysis import Section as Meshed
        from sectionproperties.pre import Geometry
    except ImportError as missing:
        pytest.skip(f"sectionproperties, or its mesher, has no wheel for this Python: {missing}")
    edges = slice_edges(cutters.finished(PART, solids.ON, 64), 0, x + 1e-10)
    (outline,) = polygonize([LineString(edge) for edge in edges.round(12)])
    mesh = Meshed(Geometry(outline).create_mesh(mesh_sizes=[0]))
    mesh.calculate_geometric_properties()
    at = section_at(PART, x)
    assert at.area == pytest.approx(mesh.get_area(), rel=1e-3)
    assert at.centroid == pytest.approx(mesh.get_c(), rel=1e-3)
    assert at.principal[:2] == pytest.approx(mesh.get_ip(), rel=4e-3)
    assert (at.principal.angle - mesh.get_phi() + 90) % 180 - 90 == pytest.approx(0, abs=0.1)
    assert at.least_gyration == pytest.approx(min(mesh.get_rp()), rel=3e-3)


@pytest.mark.parametrize("part", [PART, *(oracle_parts.part(Random(f"integral {seed}")) for seed in range(4))], ids=range(5))
def test_areas_along_x_add_up_to_the_volume(part):
    """Summed along x the sections make the solid, which is summed the other way, over the section."""
    length = float(part.length)
    places = {0.0, length, *np.linspace(0, length, 25).tolist()}
    for hole in part.holes:
        places |= {float(hole.x + side * hole.diameter / 2) for side in (-1, -F(1, 2), 0, F(1, 2), 1)}
    for cope in part.copes:
        reach = [float(cope.length), float(cope.length - cope.radius)]
        places |= {x if cope.end == 1 else length - x for x in reach}
    # The library's own marks, only as places to divide the sum at.
    places |= {touch[0] for corner in rounded_corners(part) for touch in corner.starts}
    for line in taper_lines(part):
        marks = [float(line.at(y)) for y in (line.other_thickness, line.other_thickness + part.section.fillet, line.width)]
        places |= {x if line.end == 1 else length - x for x in marks}
    nodes, weights = np.polynomial.legendre.leggauss(8)
    volume = moment = 0.0
    for low, high in pairwise(sorted(p for p in places if 0 <= p <= length)):
        for node, weight in zip(nodes, weights, strict=True):
            x = (low + high + node * (high - low)) / 2
            piece = weight * (high - low) / 2 * section_at(part, x).area
            volume, moment = volume + piece, moment + x * piece
    solid = solid_of(part)
    assert volume == pytest.approx(solid.volume, rel=1e-4)
    assert moment == pytest.approx(solid.volume * solid.centroid[0], rel=1e-4)


def test_net_section_is_less_by_the_chord_and_gross_is_not():
    part = Part("P1", "Trial", Section(1, 1, "1/8"), "6061-T6", 4, holes=[Hole("A", 2, "1/2", "1/4")])
    full = section_at(part, 2, net=False).area
    assert full - section_at(part, 2).area == pytest.approx(0.25 * 0.125)
    # 0.06 off the middle of a 0.25 hole: the chord is the base of a 3-4-5 kind of triangle, 2 sqrt(0.125^2 - 0.06^2).
    ring = Polygon([(np.cos(a) * 0.125, np.sin(a) * 0.125) for a in np.linspace(0, 2 * np.pi, 4001)])
    chord = ring.intersection(Polygon([(0.0599, -1), (0.0601, -1), (0.0601, 1), (0.0599, 1)])).area / 0.0002
    assert full - section_at(part, 2.06).area == pytest.approx(chord * 0.125, rel=1e-4)


def test_how_high_the_legs_stand():
    """Heights of the legs' outer faces, read off the cutters' outlines."""
    faces = {leg: cutters.face_outline(PART, leg, steps=1024) for leg in "AB"}
    for x in np.linspace(0.05, 7.95, 80):
        for leg, high in zip("AB", limits(PART, x), strict=True):
            face = faces[leg]
            column = face.intersection(Polygon([(x - 1e-7, -1), (x + 1e-7, -1), (x + 1e-7, 9), (x - 1e-7, 9)]))
            assert high == pytest.approx(column.bounds[3], abs=2e-6), (leg, x)


def test_weakest_place_is_no_stronger_than_any_other_looked_at():
    x, area = weakest_place(PART)
    assert 0 < x < 8
    assert all(area <= section_at(PART, float(other)).area + 1e-12 for other in np.linspace(0.04, 7.96, 199))


def test_nothing_is_left_at_the_vertex_and_beyond_the_part_there_is_no_metal():
    part = Part("P1", "Trial", STOCK, "6061-T6", 4, tapers=[Taper("A", 1, run=2)])
    assert section_at(part, 0).area == 0 and section_at(part, 0).least_gyration == 0
    for x in (-0.1, 4.1):
        with pytest.raises(PartError, match="the part ends at 4"):
            section_at(part, x)
