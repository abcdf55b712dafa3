"""How the angle sits: heights against the convex hull of the section, which rests on the table by its longest slope."""

import re
from dataclasses import replace
from math import hypot

import pytest

from anglelib.geometry import setup_words
from anglelib.geometry.setup import FILLET, INSIDE_UP, OUTSIDE_UP, heel_up_height, inside_up, outside_up, square_cut, taper_cut
from anglelib.geometry.taper import TaperLine
from anglelib.geometry.teeth import teeth_of
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
        (0, INSIDE_UP, ("A-inner", FILLET, "B-inner")),
        ("1/16", INSIDE_UP, ("A-inner", FILLET, "B-inner")),
        ("3/16", INSIDE_UP, ("A-inner", FILLET)),
        ("1/4", OUTSIDE_UP, ("A-outer",)),
        ("3/8", OUTSIDE_UP, ("A-outer",)),
    ],
)
def test_the_line_is_on_the_face_that_is_up(width_left, stance, faces):
    line = TaperLine.of(SECTIONS[0], Taper("A", 1, width_left, run="1 1/4"))
    setup = taper_cut(line)
    assert (setup.stance, setup.faces) == (stance, faces)


LINES = [
    TaperLine.of(section, Taper(leg, 2, left, run=2)) for section in SECTIONS for leg in "AB" for left in (0, "1/16", "7/32", "5/8")
]


def test_ids_are_one_word_and_english_only_says_them(monkeypatch):
    """Facts travel as ids. Whatever sentence stands in the tables, a setup and what it is used for stay as they are."""
    setups = [square_cut(section) for section in SECTIONS] + [way(line) for line in LINES for way in (inside_up, outside_up)]
    for setup in setups:
        for id in (setup.stance, setup.way_in, setup.way_out, setup.reason, *setup.faces):
            assert re.fullmatch(r"[A-Za-z0-9._-]+", id), id
        assert {" " in text for text in (setup.words, setup.enters, setup.leaves, setup.because)} == {True}
    before = [(replace(s), teeth_of(s)) for s in setups]
    for name in ("STANCES", "WAYS_IN", "WAYS_OUT", "REASONS"):
        table = getattr(setup_words, name)
        monkeypatch.setattr(setup_words, name, {id: f"qq {id}" for id in table})
    again = [square_cut(section) for section in SECTIONS] + [way(line) for line in LINES for way in (inside_up, outside_up)]
    assert [(replace(s), teeth_of(s)) for s in again] == before
    assert all(s.words == f"qq {s.stance}" for s in again)


def test_the_guide_clears_the_standing_leg():
    section = Section("1 1/2", 1, "1/8", fillet="1/8")
    assert inside_up(TaperLine.of(section, Taper("B", 2, 0, run=2))).height == section.leg_a


@pytest.mark.parametrize("section", SECTIONS, ids=lambda s: s.size)
@pytest.mark.parametrize("leg", "AB")
def test_on_its_block_the_hanging_toe_clears_the_table_and_the_guide_the_work(section, leg):
    """The outline itself, laid outside up on a block of the least height: what is lowest, what is highest, what it lies on."""
    from shapely import affinity

    setup = outside_up(TaperLine.of(section, Taper(leg, 1, "5/8", run=2)))
    block = setup.block
    seen = section if leg == "A" else section.swapped()
    shape = affinity.scale(_outline(seen), 1, -1, origin=(0, 0))  # the flat leg's outer face up, the other leg hanging
    laid = affinity.translate(shape, 0, float(block.height + seen.thickness_a))
    low, high = laid.bounds[1], laid.bounds[3]
    assert low == pytest.approx(1 / 16, abs=1e-9)  # common practice: 1/16 clear
    assert float(setup.height) == pytest.approx(high, abs=1e-9)
    top = box(float(seen.thickness("B")), 0, float(seen.leg_a), float(block.height))
    assert laid.intersection(top).area == pytest.approx(0, abs=1e-9)  # the block stands beside the hanging leg
    assert laid.distance(top) == pytest.approx(0, abs=1e-9)
    assert float(block.width) == pytest.approx(top.bounds[2] - top.bounds[0])
    assert block.relief == section.fillet
    # lower by more than the clearance, and the angle stands on the hanging toe instead
    assert affinity.translate(laid, 0, -1 / 16 - 0.001).bounds[1] < 0
