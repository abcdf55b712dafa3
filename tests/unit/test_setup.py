"""How the angle sits: heights against the convex hull of the section, which rests on the table by its longest slope."""

from math import hypot

import pytest

from anglelib.geometry.setup import heel_up_height, inside_up, outside_up, square_cut, taper_cut
from anglelib.geometry.taper import TaperLine
from anglelib.part import Taper
from anglelib.section import Section

shapely = pytest.importorskip("shapely", reason="shapely is an oracle of the tests: pip install -r tests/requirements.txt")
from shapely.geometry import LineString, Point, Polygon, box  # noqa: E402

SECTIONS = [
    Section("3/4", "3/4", "1/8", fillet="1/8"),
    Section("1 1/2", 1, "1/8", fillet="1/8"),
    Section(2, 1, "3/16"),
    Section(2, "1 1/2", "1/4", "3/16", fillet="1/4", toe_radius="1/8"),
    Section("1 1/2", "1 1/2", "3/16", fillet="3/16", toe_radius="3/32"),
]


def _outline(section: Section) -> Polygon:
    """The L with its rounded inner toes, from rectangles and discs; the fillet is out of the way of the hull."""
    a, b, ta, tb, r = (
        float(v) for v in (section.leg_a, section.leg_b, section.thickness_a, section.thickness_b, section.toe_radius)
    )
    shape = box(0, 0, a, ta).union(box(0, 0, tb, b))
    if r:
        for x0, y0, x1, y1, cx, cy in ((a - r, ta - r, a, ta, a - r, ta - r), (tb - r, b - r, tb, b, tb - r, b - r)):
            shape = shape.difference(box(x0, y0, x1, y1)).union(
                Point(cx, cy).buffer(r, quad_segs=512).intersection(box(x0, y0, x1, y1))
            )
    return shape


@pytest.mark.parametrize("section", SECTIONS, ids=lambda s: s.size)
def test_the_heel_stands_as_high_as_the_hull_says(section):
    corners = list(_outline(section).convex_hull.exterior.coords)
    edges = zip(corners, corners[1:], strict=False)
    slope = max((e for e in edges if e[0][0] != e[1][0] and e[0][1] != e[1][1]), key=lambda e: hypot(e[0][0] - e[1][0], e[0][1] - e[1][1]))
    (x0, y0), (x1, y1) = slope
    height = abs(x0 * y1 - x1 * y0) / hypot(x1 - x0, y1 - y0)
    assert heel_up_height(section) == pytest.approx(height, abs=2e-6)


@pytest.mark.parametrize("section", SECTIONS[:3], ids=lambda s: s.size)
def test_the_teeth_are_in_as_much_metal_as_a_plumb_line_through_a_leg(section):
    from shapely import affinity

    shape = _outline(section)
    a, b, ta, tb = (float(v) for v in (section.leg_a, section.leg_b, section.thickness_a, section.thickness_b))
    from math import atan2, degrees

    # Turn the section until the line from one inner toe to the other is level and the heel is up.
    turn = degrees(atan2(b - ta, tb - a))
    level = affinity.rotate(shape, -turn, origin=(0, 0))
    x0, _, x1, _ = level.bounds
    depths = set()
    for i in range(1, 400):
        x = x0 + (x1 - x0) * i / 400
        depths.add(round(level.intersection(LineString([(x, -9), (x, 9)])).length, 5))
    assert any(abs(square_cut(section).metal - depth) < 2e-5 for depth in depths)
    heel = max(depths)
    assert square_cut(section).metal < heel


def test_two_by_one_rests_at_the_published_angle_of_the_frame():
    # geometry check value: 2 x 1 x 3/16 point up rests at 24.1455 degrees.
    from anglelib.geometry.formulas import heel_up_slope

    assert heel_up_slope(a=2, b=1, tA=3 / 16, tB=3 / 16) == pytest.approx(24.1455, abs=5e-5)


@pytest.mark.parametrize(
    ("width_left", "stance", "faces"),
    [
        (0, "inside up", ("leg A, inner face", "fillet", "leg B, inner face")),
        ("1/16", "inside up", ("leg A, inner face", "fillet", "leg B, inner face")),
        ("3/16", "inside up", ("leg A, inner face", "fillet")),
        ("1/4", "outside up", ("leg A, outer face",)),
        ("3/8", "outside up", ("leg A, outer face",)),
    ],
)
def test_the_line_is_on_the_face_that_is_up(width_left, stance, faces):
    line = TaperLine.of(SECTIONS[0], Taper("A", 1, width_left, run="1 1/4"))
    setup = taper_cut(line)
    assert (setup.stance, setup.faces) == (stance, faces)
    assert "inner" not in " ".join(setup.faces) if stance == "outside up" else "outer" not in " ".join(setup.faces)


def test_the_guide_clears_the_standing_leg_and_the_block_lets_the_hanging_leg_clear_the_table():
    section = Section("1 1/2", 1, "1/8", fillet="1/8")
    up = inside_up(TaperLine.of(section, Taper("B", 2, 0, run=2)))
    assert up.height == section.leg_a
    block = outside_up(TaperLine.of(section, Taper("B", 2, "1/2", run=2)))
    # Leg A hangs below the face on the block by its width less leg B's thickness.
    assert block.block == section.leg_a - section.thickness_b
    assert block.height == block.block + section.thickness_b
