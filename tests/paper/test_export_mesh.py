"""Exported meshes and marking saddles: opened by trimesh, weighed, put on the stock by the kernel, held against the saw's plane."""

from __future__ import annotations

import io
import math
from dataclasses import replace
from fractions import Fraction as F
from random import Random

import manifold3d
import numpy as np
import pytest
import trimesh
from exported import bare, cutters, oracle_parts, solids
from shapely import MultiPoint, Point

from anglelib.errors import BenchError, PartError
from anglelib.geometry.along import section_at
from anglelib.geometry.solid import solid_of
from anglelib.paper import mesh
from anglelib.paper.mesh import part_mesh, polygon, stl
from anglelib.paper.saddle import Saddle, saddles
from anglelib.part import Cope, Corner, Hole, Part, Taper
from anglelib.section import Section

MM = 25.4
STOCK = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
BRACKET = Part(
    "C1L", "Bracket", STOCK, "6061-T6", "4 3/4", tapers=[Taper("A", 1, run="2 1/8")], holes=[Hole("A", "2 7/16", "11/16", "3/16")], hand="left"
)
BUSY = Part(
    "Q1", "Busy", Section("1 1/2", "1 1/4", "1/8", "3/16", fillet="3/16", toe_radius="3/32", heel_radius="1/16"), "6061-T6", 6,
    tapers=[Taper("A", 1, "1/8", run=2), Taper("B", 1, run=1), Taper("B", 2, "3/4", run=1)],
    corners=[Corner("A", 1, "1/4"), Corner("B", 2, "1/8")], copes=[Cope("A", 2, 1, "1/2", "1/8")],
    holes=[Hole("A", 3, 1, "3/16"), Hole("A", "3 1/8", "5/16", "3/16"), Hole("B", 4, "3/4", "1/8")],
)  # fmt: skip


def read_again(content: bytes) -> trimesh.Trimesh:
    """The STL file as trimesh reads it: closed, its faces turned outwards."""
    found = trimesh.load(io.BytesIO(content), file_type="stl")
    edges = np.sort(found.faces[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2), axis=1)
    # Watertight; where a hole just touches another edge of the part four faces meet in one line.
    assert not (np.unique(edges, axis=0, return_counts=True)[1] % 2).any(), "the mesh has a rim"
    assert found.is_winding_consistent and found.volume > 0
    return found


def check_part(part: Part, error: float = mesh.ERROR) -> trimesh.Trimesh:
    """Volume and size against the library's solid and the kernel's, made from the drawing's numbers."""
    found = read_again(stl(part_mesh(part, error), part.id))
    less, more = (cutters.finished(part, metal, 48).volume() for metal in (solids.LESS, solids.MORE))
    wide = mesh_room(part, error)
    assert less * MM**3 - wide <= found.volume <= more * MM**3 + wide, (part, less * MM**3, found.volume, more * MM**3)
    assert found.volume == pytest.approx(solid_of(part).volume * MM**3, abs=wide), part
    return found


def mesh_room(part: Part, error: float) -> float:
    """What the chords can make of the volume at most [mm3]: the error times the faces that are bent, and single precision."""
    section, length = part.section, float(part.length)
    bent = math.pi / 2 * length * float(section.fillet + 2 * section.toe_radius + section.heel_radius)
    bent += sum(math.pi * float(h.diameter) * float(section.thickness(h.leg) + section.fillet) for h in part.holes)
    bent += sum(math.pi * float(c.radius) * float(max(section.leg_a, section.leg_b)) for c in (*part.corners, *part.copes))
    size = length * MM
    return error * bent * MM**2 + 2e-6 * size * 2 * length * float(section.leg_a + section.leg_b) * MM**2


@pytest.mark.parametrize("part", [BRACKET, BUSY], ids=["bracket", "busy"])
def test_a_part_is_watertight_and_weighs_what_it_should(part):
    found = check_part(part)
    assert found.is_watertight
    low, high = found.bounds
    assert low == pytest.approx([0, 0, 0], abs=1e-5)
    assert high == pytest.approx([float(v) * MM for v in (part.length, part.section.leg_a, part.section.leg_b)], abs=1e-4)


def test_its_volume_is_the_integral_of_its_sections():
    """Simpson's rule over the sections of the library, which the mesh knows nothing of."""
    part, steps = BRACKET, 600
    length = float(part.length)
    areas = [section_at(part, length * i / steps).area for i in range(steps + 1)]
    integral = length / steps / 3 * math.fsum(a * (1 if i in (0, steps) else 4 if i % 2 else 2) for i, a in enumerate(areas))
    assert part_mesh(part).volume() == pytest.approx(integral * MM**3, rel=1e-4)


def test_the_chords_keep_their_error():
    """Every chord of the fillet against its circle; finer for a smaller error."""
    from anglelib.geometry.outlines import section_edges

    counts = []
    for error in (0.1, 0.01, 0.001):
        points = np.array(polygon(section_edges(BUSY.section), error))
        centre, radius = np.array([3 / 16 + 3 / 16, 1 / 8 + 3 / 16]) * MM, 3 / 16 * MM
        on = points[np.abs(np.hypot(*(points - centre).T) - radius) < 1e-9]
        sag = radius - np.hypot(*((on[1:] + on[:-1]) / 2 - centre).T)
        assert len(on) > 1 and sag.max() <= error * (1 + 1e-9)
        counts.append(len(on))
    assert counts == sorted(counts) and counts[2] > 5 * counts[0]


def test_a_hole_goes_through_where_the_drawing_says():
    found = read_again(stl(part_mesh(BRACKET), "x"))
    x, y, r = 2.4375 * MM, 0.6875 * MM, 3 / 32 * MM
    rim = found.vertices[np.abs(np.hypot(found.vertices[:, 0] - x, found.vertices[:, 1] - y) - r) < 1e-4]
    assert sorted(set(rim[:, 2].round(4))) == [0.0, 3.175] and len(rim) > 24


def test_the_file_says_its_unit():
    content = stl(part_mesh(BRACKET), "C1L-part-left")
    assert content[:80].rstrip() == b"C1L-part-left, unit mm" and not content.startswith(b"solid")
    assert len(content) == 84 + 50 * int.from_bytes(content[80:84], "little")


def fuzz(first: int, last: int) -> None:
    for seed in range(first, last):
        part = oracle_parts.part(Random(f"mesh {seed}"))
        try:
            check_part(part)
            for saddle in saddles(part):
                check_saddle(saddle)
        except AssertionError as error:
            raise AssertionError(f"seed {seed}: {error}") from None


# --- saddles -------------------------------------------------------------------------------------------------
def stick(section: Section, length: float) -> manifold3d.Manifold:
    """The stock, longer than the saddle at both ends, drawn a little too large where the heel and the fillet are round [mm]."""
    return solids.bar(section, length + 80, solids.MORE, 64).translate([-40, 0, 0]).scale([MM] * 3)


def check_saddle(saddle: Saddle) -> None:
    """It fits on the stock, its end lies in the saw's planes, and it begins at the toe and reaches as far as it says."""
    part, solid = saddle.part, saddle.solid()
    length = float(part.length)
    assert not solid.is_empty()
    assert (solid ^ stick(part.section, length)).volume() < 1e-6 * solid.volume(), "it cuts into the metal"
    corners = solids.vertices(solid)
    saws = [solids.taper_saw(part.section, length, taper) for taper in part.tapers if taper.end == saddle.end]
    # Distance of every corner on the part's side of each saw plane [mm].
    depths = [corners @ saw.normal - saw.offset * MM for saw in saws]
    assert min(depth.min() for depth in depths) > -0.01, "it reaches into the waste"
    from_end = corners[:, 0] if saddle.end == 1 else length * MM - corners[:, 0]
    far, flush = abs(from_end - float(saddle.length) * MM) < 1e-6, abs(from_end) < 1e-6
    in_a_plane = np.min(np.abs(depths), axis=0) < 0.01
    assert np.all(far | flush | in_a_plane), "its end is not in the saw's plane"
    assert far.any() and in_a_plane.any()
    for taper, depth in zip((t for t in part.tapers if t.end == saddle.end), depths, strict=True):
        check_line(saddle, taper, corners[np.abs(depth) < 0.01], from_end[np.abs(depth) < 0.01])
    check_printed(saddle)


def check_line(saddle: Saddle, taper: Taper, edge: np.ndarray, from_end: np.ndarray) -> None:
    """The edge that is scribed along lies on the face itself, and at the toe it begins at the run."""
    section, leg = saddle.part.section, taper.leg
    across, through = (1, 2) if leg == "A" else (2, 1)
    face = 0.0 if saddle.side == "outside" else float(section.thickness(leg)) * MM
    touching = np.abs(edge[:, through] - face) < 1e-6
    if len([t for t in saddle.part.tapers if t.end == saddle.end]) > 1:
        return  # where both legs are cut the other plane may take this one's toe
    assert touching.any(), "nothing touches the face"
    top = float(section.leg(leg)) if saddle.side == "outside" else float(section.leg(leg) - section.toe_radius)
    highest = from_end[touching][np.argmax(edge[touching, across])]
    # By proportion along the line that the drawing gives.
    if taper.run is not None:
        run = float(taper.run) * (top - float(taper.width_left)) / float(section.leg(leg) - taper.width_left)
    else:
        run = (top - float(taper.width_left)) / math.tan(math.radians(float(taper.angle)))
    if run > 0:
        assert edge[touching, across].max() == pytest.approx(top * MM, abs=1e-6) and highest == pytest.approx(run * MM, abs=0.01)


def check_printed(saddle: Saddle) -> None:
    """As printed it lies on a flat wall and does not tip over, in one closed piece."""
    found = read_again(stl(saddle.printed(), saddle.name))
    assert found.bounds[0] == pytest.approx([0, 0, 0], abs=1e-4)
    base = found.triangles[(np.abs(found.triangles[:, :, 2]) < 1e-4).all(axis=1)]
    assert len(base), "it has no flat base"
    hull = MultiPoint(base[:, :, :2].reshape(-1, 2)).convex_hull
    assert hull.distance(Point(found.center_mass[:2])) < 1e-6, "it tips over"
    assert found.volume == pytest.approx(saddle.solid().volume(), rel=1e-3)


def test_saddles_of_the_bracket():
    made = saddles(BRACKET)
    assert [saddle.name for saddle in made] == ["C1L-saddle-end-1-outside-left", "C1L-saddle-end-1-inside-left"]
    for saddle in made:
        check_saddle(saddle)
        assert saddle.length == F(11, 4)  # 1/2 in past the run of 2 1/8, on a quarter
    inside = solids.vertices(made[1].solid())
    # the vertex-projection mark: the line at leg B's inner face, 1/8 of the way up a line of 2 1/8 in 1 1/4
    on_b = inside[np.abs(inside[:, 1] - 3.175) < 1e-6]
    assert on_b[:, 0].min() == pytest.approx(0.2125 * MM, abs=1e-6)


def test_sizes_are_obeyed():
    for side in ("outside", "inside"):
        saddle = Saddle.of(BRACKET, 1, side, wall=5, clearance=1, length=F(4))
        check_saddle(saddle)
        thick = saddle.section_edges()
        xs = [p[0] for edge in thick for p in (edge.first, edge.last)]
        assert (min(xs) if side == "outside" else min(xs) - 0.125) == pytest.approx(-5 / MM if side == "outside" else 0, abs=1e-9)
        assert saddle.solid().bounding_box()[3] == pytest.approx(4 * MM)


def test_the_corner_stays_clear_of_heel_and_fillet():
    for saddle in saddles(BUSY, clearance=1.0):
        grown = bare(BUSY).section
        corner = np.array([0.0, 0.0]) if saddle.side == "outside" else np.array([float(grown.thickness("B")), float(grown.thickness_a)]) * MM
        points = solids.vertices(saddle.solid())[:, 1:]
        assert np.hypot(*(points - corner).T).min() >= 1.0 - 1e-6


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ({"end": 2}, "no taper at end 2"),
        ({"side": "upside"}, "outside or inside"),
        ({"wall": 0.3}, "thinner than 0.8 mm"),
        ({"wall": math.nan}, "between 0 and 50"),
        ({"clearance": 2.0}, "below half the wall"),
        ({"length": F(1, 4)}, "at least 1/2 long"),
    ],
)
def test_a_saddle_that_cannot_be_is_a_sentence(words, says):
    with pytest.raises(PartError, match=says):
        Saddle.of(BRACKET, **{"end": 1, **words})


def test_no_room_inside():
    tight = replace(BRACKET, section=Section("1/2", "1 1/4", "1/8", fillet="5/16"), holes=())
    with pytest.raises(PartError, match="no flat inside"):
        Saddle.of(tight, 1, "inside")
    assert [saddle.side for saddle in saddles(tight)] == ["outside"]


def test_a_taper_of_the_rounded_toe_alone_has_no_line_inside():
    toe = replace(BRACKET, section=Section("1 1/4", "1 1/4", "1/8", fillet="1/8", toe_radius="1/8"), tapers=[Taper("A", 1, "1 3/16", run=1)])
    with pytest.raises(PartError, match="does not reach the inner face"):
        Saddle.of(toe, 1, "inside")
    check_saddle(*saddles(toe))


def test_a_mesh_that_cannot_be_is_a_sentence():
    for error in (0.0, -1.0, 5.0, math.nan):
        with pytest.raises(BenchError, match="error of the mesh"):
            part_mesh(BRACKET, error)


def test_random_parts():
    fuzz(0, 8)


@pytest.mark.slow
@pytest.mark.parametrize("block", range(10))
def test_five_hundred_random_parts(block):
    fuzz(8 + 50 * block, 58 + 50 * block)


# --- the checks see what is wrong -----------------------------------------------------------------------------
def test_a_missing_fillet_is_noticed(monkeypatch):
    monkeypatch.setitem(globals(), "part_mesh", lambda part, error: part_mesh_of(replace(part, section=replace(part.section, fillet=F(0))), error))
    with pytest.raises(AssertionError):
        check_part(BRACKET)


part_mesh_of = part_mesh


def test_a_missing_face_is_noticed():
    content = stl(part_mesh(BRACKET), "x")
    count = int.from_bytes(content[80:84], "little")
    with pytest.raises(AssertionError, match="rim"):
        read_again(content[:80] + (count - 1).to_bytes(4, "little") + content[84:-50])


@pytest.mark.parametrize(
    ("spoil", "says"),
    [
        (lambda solid: solid.translate([0.05, 0, 0]), "saw's plane"),
        (lambda solid: solid.translate([-0.05, 0, 0]), "into the waste"),
        (lambda solid: solid.translate([0, 0.02, 0.02]), "into the metal"),
        (lambda solid: solid.mirror([0, 1, -1]), "into the waste"),
    ],
    ids=["late", "early", "too tight", "other hand"],
)
def test_a_wrong_saddle_is_noticed(monkeypatch, spoil, says):
    right = Saddle.solid
    monkeypatch.setattr(Saddle, "solid", lambda self, error=mesh.ERROR: spoil(right(self, error)))
    with pytest.raises(AssertionError, match=says):
        check_saddle(Saddle.of(BRACKET, 1, "outside"))
