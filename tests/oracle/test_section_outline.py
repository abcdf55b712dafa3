"""Area, centroid, moments and perimeter of the section, against polygons of general-purpose libraries.

Shapely draws the outline, sectionproperties meshes and integrates it. The arcs are polygons, so each
quantity is bounded by a polygon with too little metal and one with too much; the library must lie
between the two, and the two must be close.
"""

from __future__ import annotations

from dataclasses import fields, replace
from fractions import Fraction
from random import Random
from types import SimpleNamespace

import oracle_parts
import pytest
import solids
from shapely.geometry import Polygon

from anglelib.errors import SectionError
from anglelib.section import Section, largest_heel_radius

SECTIONS = {
    "equal": Section("1 1/2", "1 1/2", "1/8", fillet="3/16"),
    "rounded toes": Section(2, 2, "1/8", fillet="1/4", toe_radius="1/8"),
    "unequal": Section(2, "1 1/4", "3/16", "1/8", fillet="1/4", toe_radius="1/16", heel_radius="1/32"),
    "unequal, swapped": Section("1 1/4", 2, "1/8", "3/16", fillet="1/4", toe_radius="1/16", heel_radius="1/32"),
    "sharp": Section("3/4", 1, "1/8", "3/32"),
    "no flat left": Section("3/4", "3/4", "1/8", fillet="1/2", toe_radius="1/8"),
    "bent": Section(1, "3/4", "1/16", fillet="1/8", heel_radius="3/16"),
    "heel over thickness plus fillet": Section(1, "3/4", "1/8", heel_radius="27/64"),
    "the same, unequal, with a fillet": Section(1, "7/8", "1/8", "1/16", fillet="1/16", heel_radius="23/64"),
}


def polygons(section: Section, steps: int) -> tuple[Polygon, Polygon]:
    """The outline with too little metal and with too much."""
    return tuple(Polygon(solids.outline(section, metal, steps)) for metal in (solids.LESS, solids.MORE))


def check_outline(section: Section, steps: int, room: float) -> None:
    less, more = polygons(section, steps)
    assert less.is_valid and more.is_valid
    assert less.area - 1e-12 <= section.area <= more.area + 1e-12
    assert more.area - less.area <= room * more.area
    for i, ours in enumerate(section.centroid):
        low, high = (p.area * p.centroid.coords[0][i] for p in (less, more))
        assert low - 1e-12 <= section.area * ours <= high + 1e-12
    # Chords are shorter than their arcs, tangents longer.
    chords = Polygon(solids.outline(section, solids.ON, steps)).exterior.length
    assert chords - 1e-12 <= section.perimeter <= chords * (1 + room) + 1e-12


@pytest.mark.parametrize("section", SECTIONS.values(), ids=SECTIONS)
def test_area_centroid_and_perimeter(section):
    check_outline(section, steps=256, room=1e-5)


@pytest.mark.parametrize("block", range(5))
def test_random_outlines(block):
    for seed in range(100 * block, 100 * (block + 1)):
        check_outline(oracle_parts.section(Random(f"outline {seed}")), steps=64, room=1e-3)


def round_heeled(rng: Random) -> Section:
    """A random section whose heel is rounder than thickness plus fillet, up to what the section takes."""
    stock = oracle_parts.section(rng)
    sizes = stock.leg_a, stock.leg_b, stock.thickness_a, stock.thickness_b
    most = largest_heel_radius(*sizes, stock.fillet)
    low = min(stock.thickness_a, stock.thickness_b) + stock.fillet
    heel = low + (most - low) * Fraction(rng.choice((97, rng.randint(1, 96))), 100) if low < most else most
    return replace(stock, heel_radius=heel)


@pytest.mark.parametrize("block", range(2))
def test_random_outlines_with_a_round_heel(block):
    for seed in range(100 * block, 100 * (block + 1)):
        section = round_heeled(Random(f"round heel {seed}"))
        check_outline(section, steps=64, room=3e-3)
        assert polygons(section, 64)[1].is_valid


@pytest.mark.parametrize("seed", range(40))
def test_beyond_the_largest_heel_radius_the_outline_crosses_itself(seed):
    """A hair more, and shapely finds the heel's arc through the fillet, or past a toe; a hair less, and it is one piece of metal."""
    rng = Random(f"heel limit {seed}")
    stock = oracle_parts.section(rng)
    most = largest_heel_radius(stock.leg_a, stock.leg_b, stock.thickness_a, stock.thickness_b, stock.fillet)
    drawn = {}
    for way in (-1, 1):
        shape = SimpleNamespace(**{f.name: getattr(stock, f.name) for f in fields(stock)})
        shape.heel_radius = most * (1 + way * Fraction(1, 1000))
        drawn[way] = Polygon(solids.outline(shape, solids.ON, 400)).is_valid
    with pytest.raises(SectionError, match="It may be up to"):
        replace(stock, heel_radius=most * (1 + Fraction(1, 1000)))
    assert replace(stock, heel_radius=most).area > 0
    assert drawn == {-1: True, 1: False}, (stock, most)


@pytest.mark.slow
def test_five_thousand_random_outlines():
    for seed in range(500, 5000):
        check_outline(oracle_parts.section(Random(f"outline {seed}")), steps=64, room=1e-3)


# --- second moments -----------------------------------------------------------------------------------
def about_heel(section: Section) -> dict[str, float]:
    """The library's moments, carried from the centroid to the heel, where all of them are positive."""
    y, z = section.centroid
    yy, zz, yz = section.second_moments
    area = section.area
    return {
        "A": area,
        "Qy": area * z,
        "Qz": area * y,
        "Iyy": yy + area * z * z,
        "Izz": zz + area * y * y,
        "Iyz": yz + area * y * z,
    }


def meshed(outline: Polygon):
    """The outline as sectionproperties' section, meshed; skipped in words where its mesher is missing."""
    try:
        from sectionproperties.analysis import Section as Meshed
        from sectionproperties.pre import Geometry
    except ImportError as missing:
        pytest.skip(f"sectionproperties, or its mesher, has no wheel for this Python: {missing}")
    section = Meshed(Geometry(outline).create_mesh(mesh_sizes=[0]))
    section.calculate_geometric_properties()
    return section


def of_mesh(outline: Polygon) -> dict[str, float]:
    section = meshed(outline)
    ixx, iyy, ixy = section.get_ig()
    qx, qy = section.get_q()
    return {"A": section.get_area(), "Qy": qx, "Qz": qy, "Iyy": ixx, "Izz": iyy, "Iyz": ixy}


@pytest.mark.parametrize("section", SECTIONS.values(), ids=SECTIONS)
def test_second_moments_lie_between_two_meshed_polygons(section):
    less, more = (of_mesh(p) for p in polygons(section, 48))
    for name, ours in about_heel(section).items():
        assert less[name] * (1 - 1e-9) <= ours <= more[name] * (1 + 1e-9), name
        assert more[name] - less[name] < 1e-3 * more[name], name


@pytest.mark.parametrize("section", SECTIONS.values(), ids=SECTIONS)
def test_principal_axes_and_least_gyration_of_a_mesh(section):
    mesh = meshed(polygons(section, 64)[0])
    major, minor = mesh.get_ip()
    ours = section.principal
    assert (ours.major, ours.minor) == pytest.approx((major, minor), rel=3e-4)
    assert section.least_gyration == pytest.approx(min(mesh.get_rp()), rel=2e-4)
    # An axis has no sense: its angle is known up to half a turn.
    off = (ours.angle - mesh.get_phi() + 90) % 180 - 90
    assert off == pytest.approx(0, abs=0.02)
