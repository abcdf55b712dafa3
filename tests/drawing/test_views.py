"""The views: marks where geometry puts them, true hands, labels apart on parts of every shape."""

import math
import xml.etree.ElementTree as ET
from fractions import Fraction as F

import pytest
from random_parts import part as random_part

from anglelib.drawing.checks import clipped, overlaps, struck
from anglelib.drawing.face import Axis, clip
from anglelib.drawing.inner_view import inner_view
from anglelib.drawing.outer_view import outer_view
from anglelib.drawing.outline import leg_outline, section_outline
from anglelib.drawing.part_sheet import part_sheet
from anglelib.drawing.pictorial import pictorial_sheet
from anglelib.drawing.section_view import section_sheet
from anglelib.drawing.sheet import Hatch, Label, Line, Polyline
from anglelib.drawing.sheets import inner_sheet, outer_sheet
from anglelib.drawing.svg import svg
from anglelib.job import Shop
from anglelib.part import Corner, Hole, Part, Taper
from anglelib.section import Section

STOCK = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
BRACKET = Part(
    "C1L", "Door hinge bracket, left", STOCK, "6061-T6", "4 3/4",
    tapers=[Taper("A", 1, 0, run="2 1/8")], holes=[Hole("A", "2 7/16", "11/16", "3/16"), Hole("B", "5/8", "11/16", "3/16")],
)  # fmt: skip
SEEDS = range(16)
MANY = [*SEEDS, *(pytest.param(seed, marks=pytest.mark.slow) for seed in range(16, 200))]


def legible(sheet):
    """No label hidden, off the sheet, or struck through; the SVG parses."""
    assert [(a.text, b.text) for a, b in overlaps(sheet)] == []
    assert [label.text for label in clipped(sheet)] == []
    assert [(label.text, item) for label, item in struck(sheet)] == []
    ET.fromstring(svg(sheet))
    assert sheet.sentence.endswith(".") and "None" not in sheet.sentence


# --- on parts of every shape --------------------------------------------------------------------------
@pytest.mark.parametrize("seed", MANY)
def test_outer_sheets_are_legible(seed):
    part = random_part(seed)
    for leg in "AB":
        for stage in ("finished", "layout"):
            legible(outer_sheet(part, leg, stage=stage))


@pytest.mark.parametrize("seed", MANY)
def test_inner_sheets_are_legible(seed):
    part = random_part(seed)
    for leg in "AB":
        for stage in ("finished", "layout"):
            legible(inner_sheet(part, leg, stage=stage, straight_wrap=True))


@pytest.mark.parametrize("seed", MANY)
def test_sections_pictorials_and_part_sheets_are_legible(seed):
    part = random_part(seed)
    legible(section_sheet(part.section))
    legible(pictorial_sheet(part, side="inside"))
    legible(pictorial_sheet(part, side="outside"))
    legible(part_sheet(part))


@pytest.mark.parametrize("stage", ["finished", "layout"])
def test_sheets_with_large_letters_are_legible_on_a_projector(stage):
    for sheet in (
        outer_sheet(BRACKET, "A", stage=stage, letter=5.0, height=150),
        inner_sheet(BRACKET, "A", stage=stage, letter=5.0, height=160),
    ):
        assert sheet.height <= 166
        assert overlaps(sheet, "projector") == [] and clipped(sheet, "projector") == []
        sizes = [float(t.get("font-size")) for t in ET.fromstring(svg(sheet, "projector")).iter() if t.get("font-size")]
        assert min(sizes) * 0.729 >= 0.03 * sheet.height - 0.02


# --- where the marks are --------------------------------------------------------------------------------
def accent_lines(items):
    return [i for i in items if isinstance(i, (Line, Polyline)) and i.accent and i.kind in ("mark", "fine-mark")]


def test_the_edge_of_the_ink_next_to_the_part_is_the_dimension():
    axis = Axis.fit(4.75, (), 1000, 50.8)
    items = outer_view(BRACKET, "A", axis, 0.0, stage="layout", shop=Shop(allowance=F(1, 8)), dimensions=False)
    taper, end = sorted(accent_lines(items), key=lambda i: i.x1)
    # leg A hangs from its heel at y = 0: the line runs from the vertex to (2 1/8, 1 1/4) in.
    to = (2.125 * 50.8, -1.25 * 50.8)
    nx, ny = to[1] / math.hypot(*to), -to[0] / math.hypot(*to)
    for x, y in ((taper.x1, taper.y1), (taper.x2, taper.y2)):
        assert abs(x * nx + y * ny) == pytest.approx(0.35, abs=1e-6)  # half of a wide line, off the true line
    assert taper.x2 < to[0]  # on the waste side, which for end 1 lies to the left
    assert end.x1 - 0.35 == pytest.approx(4.75 * 50.8)


def test_the_inside_marks_are_those_of_the_similar_triangles():
    """x = X (t - s) / (W - s) on the other leg, X (t + r - s) / (W - s) beside the fillet: worked by hand, not by the library."""
    axis = Axis.fit(4.75, (), 1000, 25.4)
    items = inner_view(BRACKET, "A", axis, 0.0, shop=Shop(allowance=0, kerf=0), dimensions=False)
    mark = [i for i in accent_lines(items) if isinstance(i, Polyline)][0]
    ink = mark.points[-1][0] + 0.35
    assert ink == pytest.approx(25.4 * 2.125 * 0.125 / 1.25)
    assert mark.points[0][0] + 0.35 == pytest.approx(25.4 * 2.125 * 0.25 / 1.25)
    # in the fillet the line is a quarter sine: half way round it is at t + r - r sin 45
    half = mark.points[12][0] + 0.35
    assert half == pytest.approx(25.4 * 2.125 / 1.25 * (0.25 - 0.125 * math.sin(math.pi / 4)))
    texts = [i.text for i in inner_view(BRACKET, "A", axis, 0.0) if isinstance(i, Label)]
    assert "7/32" in texts and "(0.213)" in texts and "27/64" in texts and "(0.425)" in texts


def test_the_wrong_line_misses_by_the_straight_wrap_error():
    axis = Axis.fit(4.75, (), 1000, 25.4)
    items = inner_view(BRACKET, "A", axis, 0.0, straight_wrap=True, dimensions=False)
    wrong = [i for i in items if isinstance(i, Polyline) and i.kind == "ghost"][0].points[-1][0]
    right = 25.4 * 2.125 * 0.125 / 1.25
    assert right - wrong == pytest.approx(25.4 * (math.pi / 2 - 1) * 0.125 * 2.125 / 1.25)


def test_metal_to_sand_and_the_kerf_have_their_widths():
    shop = Shop(kerf=F(1, 16), allowance=F(1, 32))
    axis = Axis.fit(4.75, (), 1000, 25.4)
    items = outer_view(BRACKET, "A", axis, 0.0, stage="layout", shop=shop, dimensions=False)
    angle = math.atan2(1.25, 2.125)
    kerfs = [i for i in items if isinstance(i, Polyline) and i.kind == "cut"]
    sands = [i for i in items if isinstance(i, Hatch)]
    assert len(kerfs) == len(sands) == 2
    for polygon, width in ((kerfs[0], 1 / 16), (sands[0], 1 / 32)):
        distances = [abs(x * math.sin(angle) + y * math.cos(angle)) for x, y in polygon.points]
        near, far = min(distances), max(distances)
        assert near == pytest.approx(25.4 / 32 if width == 1 / 16 else 0, abs=1e-6)
        assert far <= near + 25.4 * width + 1e-6


# --- true shape, true hand ---------------------------------------------------------------------------------
def test_a_mirrored_part_is_drawn_as_the_mirror_image():
    """Leg A of a left part and leg B of its right partner are mirror images: one hangs, the other stands."""
    axis = Axis.fit(4.75, (), 1000, 25.4)
    left = outer_view(BRACKET, "A", axis, 0.0, dimensions=False)
    right = outer_view(BRACKET.mirrored(), "B", axis, 0.0, dimensions=False)
    shape = [i for i in left if isinstance(i, Polyline) and i.kind == "outline"][0].points
    mirror = [i for i in right if isinstance(i, Polyline) and i.kind == "outline"][0].points
    assert len(shape) == len(mirror) == 4
    for (x1, y1), (x2, y2) in zip(shape, mirror):
        assert (x1, -y1) == pytest.approx((x2, y2))


def test_the_outline_of_a_leg():
    points = leg_outline(BRACKET, "A")
    for point, want in zip(points, [(0, 0), (4.75, 0), (4.75, 1.25), (2.125, 1.25)], strict=True):
        assert point == pytest.approx(want)
    square = Part("P", "P", STOCK, "6061-T6", 4, corners=[Corner("B", 2, "1/4")])
    p = leg_outline(square, "B")
    area = abs(sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in zip(p, p[1:] + p[:1]))) / 2
    assert area == pytest.approx(5 - (1 - math.pi / 4) / 16, abs=2e-4)


def test_the_section_outline_has_the_area_of_the_section():
    for seed in SEEDS:
        section = random_part(seed).section
        p = section_outline(section)
        area = sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in zip(p, p[1:] + p[:1])) / 2
        assert area == pytest.approx(section.area, rel=2e-3)


# --- long parts -----------------------------------------------------------------------------------------------
@pytest.mark.parametrize("length", [3.0, 12.0, 91.75, 200.0])
def test_a_broken_axis_keeps_its_scale_in_every_stretch(length):
    axis = Axis.fit(length, [0.5, (length - 1.875, length), length / 2], 130, 25.4, 40)
    assert axis.at(0) == 40 and axis.right - 40 <= 130 + 1e-6
    for stretch in axis.stretches:
        for x in (stretch.start, (stretch.start + stretch.end) / 2, stretch.end):
            assert axis.at(x) == pytest.approx(stretch.left + (x - stretch.start) * 25.4)
    places = [axis.at(length * i / 500) for i in range(501)]
    assert places == sorted(places)
    assert any(s.start <= length / 2 <= s.end for s in axis.stretches)
    assert any(s.start <= length - 1.875 and s.end == length for s in axis.stretches)


def test_a_break_leaves_no_edge_along_itself():
    part = Part("L", "Longeron", STOCK, "6061-T6", 90)
    axis = Axis.fit(90, (), 130, 25.4)
    items = outer_view(part, "A", axis, 0.0, dimensions=False)
    cuts = {axis.at(axis.stretches[0].end), axis.at(axis.stretches[1].start)}
    for item in items:
        if isinstance(item, Polyline) and item.kind == "outline":
            for (x1, _), (x2, _) in zip(item.points, item.points[1:]):
                assert not (x1 == pytest.approx(x2) and any(x1 == pytest.approx(c) for c in cuts))


def test_clip_keeps_the_half_of_a_square():
    assert clip([(0, 0), (2, 0), (2, 2), (0, 2)], lambda x, y: 1 - x) == [(0, 0), (1, 0), (1, 2), (0, 2)]
    assert clip([(0, 0), (2, 0), (2, 2)], lambda x, y: -1) == []


def test_an_unknown_stage_is_refused():
    with pytest.raises(ValueError, match="stage is one of finished, layout"):
        outer_view(BRACKET, "A", Axis.fit(4.75, (), 100, 25.4), 0, stage="raw")
