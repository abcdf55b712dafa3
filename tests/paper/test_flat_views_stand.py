"""The exported views as they are looked at: figures and words clear of the metal and of one another, holes of the unrolled sheets where the drill goes, a saddle turned and not mirrored."""

from __future__ import annotations

import itertools
import math
import re
from xml.etree import ElementTree

import numpy as np
import pytest
from exported import NAMESPACE, circles, opened, ordinates, solids
from shapely import LineString, box

from anglelib.drawing.letters import text_width
from anglelib.job import Shop
from anglelib.paper.flat import LETTER, Linear, Ordinate, Outline, Words
from anglelib.paper.flat_dxf import dxf
from anglelib.paper.flat_svg import flat_svg
from anglelib.paper.flat_views import face_view, flat_views, section_view, unrolled_view
from anglelib.paper.saddle import Saddle, saddles
from anglelib.part import Cope, Corner, Hole, Part, Taper
from anglelib.section import Section

STOCK = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
ROUND = Section("1 1/2", "1 1/4", "1/8", "3/16", fillet="3/16", toe_radius="3/32", heel_radius="1/16")
BRACKET = Part("C1L", "Bracket", STOCK, "6061-T6", "4 3/4", tapers=[Taper("A", 1, run="2 1/8")], holes=[Hole("A", "2 7/16", "11/16", "3/16")], hand="left")
BUSY = Part(
    "Q1", "Busy", ROUND, "6061-T6", 6, tapers=[Taper("A", 1, "1/8", run=2), Taper("B", 2, "3/4", run=1)], corners=[Corner("B", 1, "1/8")],
    copes=[Cope("A", 2, 1, "1/2", "1/8")], holes=[Hole("A", 3, 1, "3/16"), Hole("B", 4, "3/4", "1/8")],
)  # fmt: skip
SHOP = Shop()


def cover(item) -> object:
    """What the letters of a figure or of words cover [in]: of an ordinate beyond its foot, of a dimension beside its line."""
    wide = text_width(item.text, LETTER)
    if isinstance(item, Words):
        return box(item.at[0], item.at[1], item.at[0] + wide, item.at[1] + LETTER)
    if isinstance(item, Ordinate):
        (u, v), half = item.foot, LETTER / 2
        out = 1 if (item.foot[1] > item.feature[1] if item.axis == "x" else item.foot[0] > item.feature[0]) else -1
        return box(u - half, min(v, v + out * (wide + half)), u + half, max(v, v + out * (wide + half))) if item.axis == "x" else box(min(u, u + out * (wide + half)), v - half, max(u, u + out * (wide + half)), v + half)
    raise TypeError(item)


@pytest.mark.parametrize("part", [BRACKET, BUSY], ids=["bracket", "busy"])
def test_holes_of_the_unrolled_sheets_are_the_drawings(part):
    """Across the sheet from the middle of its bend: its half, and what the hole is beyond the tangent."""
    for inner, up in ((False, -1), (True, 1)):
        document = opened(dxf(unrolled_view(part, inner, SHOP), "in"))
        section, wanted = part.section, []
        for hole in part.holes:
            bend = float(section.fillet if inner else section.heel_radius)
            tangent = float(section.thickness("B" if hole.leg == "A" else "A")) + bend if inner else bend
            v = math.pi * bend / 4 + float(hole.y) - tangent
            wanted.append((float(hole.x), up * (v if hole.leg == "A" else -v), float(hole.diameter)))
        assert np.allclose(sorted(circles(document)), sorted(wanted), atol=1e-9)
        crosses = [line for line in document.modelspace().query('LINE[layer=="CENTRES"]')]
        assert len(crosses) == 2 * len(part.holes)
        for line in crosses:  # each through a centre, a little beyond the rim
            a, b = np.array(line.dxf.start)[:2], np.array(line.dxf.end)[:2]
            middle, long = (a + b) / 2, np.hypot(*(b - a))
            [diameter] = [d for x, y, d in wanted if np.hypot(middle[0] - x, middle[1] - y) < 1e-9]
            assert 0.08 < long - diameter < 0.2 and min(abs(b - a)) < 1e-12


def test_heights_of_the_faces_by_hand():
    """Of the bracket: the toe 1 1/4, the hole 11/16, inside the end of the fillet 1/4; of the busy part where its fillet ends, its flat, its hole, its cope, its taper."""
    def heights(part, leg, inner):
        return ordinates(opened(dxf(face_view(part, leg, inner, SHOP), "in")), "y")

    assert heights(BRACKET, "A", False) == pytest.approx([11 / 16, 1.25]) and heights(BRACKET, "A", True) == pytest.approx([0.25, 11 / 16, 1.25])
    assert heights(BRACKET, "B", False) == pytest.approx([1.25]) and heights(BRACKET, "B", True) == pytest.approx([0.25, 1.25])
    assert heights(BUSY, "A", False) == pytest.approx([0.125, 0.5, 1.0, 1.5])
    assert heights(BUSY, "A", True) == pytest.approx([0.375, 0.5, 1.0, 1.5 - 3 / 32])  # 1/8 is left within the fillet: it is not on this face
    assert heights(BUSY, "B", True) == pytest.approx([5 / 16, 0.75, 1.25 - 3 / 32])  # the width left and the hole are at one height
    assert ordinates(opened(dxf(face_view(BUSY, "A", False, SHOP), "in")), "x") == pytest.approx([2, 3, 5, 6])


@pytest.mark.parametrize("part", [BRACKET, BUSY], ids=["bracket", "busy"])
@pytest.mark.parametrize("unit", ["in", "mm"])
def test_figures_and_words_stand_clear(part, unit):
    for view in flat_views(part, SHOP, unit):
        letters = [(item, cover(item)) for item in view.items if isinstance(item, Words | Ordinate)]
        for (one, a), (two, b) in itertools.combinations(letters, 2):
            assert a.intersection(b).area < 1e-9, (view.name, one.text, two.text)
        if view.name == "section":
            continue
        blank = box(*LineString([p for item in view.on("BLANK") for p in item.points]).bounds)
        for item, area in letters:
            away = area.distance(blank)
            assert away > 0.5 * LETTER, (view.name, item.text)  # nothing is written on the metal
            if isinstance(item, Ordinate):
                assert away < 12 * LETTER  # and not far from it
        words = [item for item in view.items if isinstance(item, Words)]
        lines = [item for item in words if item.text != "end 1"]
        [end] = [item for item in words if item.text == "end 1"]
        assert lines[0].text == view.title and lines[0].at[0] == 0 and {round(a.at[1] - b.at[1], 9) for a, b in itertools.pairwise(lines)} == {round(2 * LETTER, 9)}
        assert cover(end).bounds[2] < blank.bounds[0] - 0.2 * LETTER and abs(cover(end).centroid.y - blank.centroid.y) < LETTER / 2 + 1e-9
        others = [y for item in view.items if not (isinstance(item, Words) and item in lines) for _, y in item.points]
        gap = lines[-1].at[1] - max(others) if lines[-1].at[1] > 0 else min(others) - lines[0].at[1] - LETTER
        assert 0.8 * LETTER < gap < 3.2 * LETTER  # beyond everything else, and near it


def test_the_section_has_its_four_widths_and_its_radii():
    for part in (BRACKET, BUSY):
        view, section = section_view(part), part.section
        found = {(item.axis, item.text): item for item in view.items if isinstance(item, Linear)}
        assert len(found) == 4
        a, b, ta, tb = (float(v) for v in (section.leg_a, section.leg_b, section.thickness_a, section.thickness("B")))
        spans = sorted((item.axis, *sorted((item.first, item.last))) for item in found.values())
        assert spans == sorted([("x", (0, 0), (a, 0)), ("y", (0, 0), (0, b)), ("y", (a, 0), (a, ta)), ("x", (0, b), (tb, b))])
        for item in found.values():  # its line runs outside the metal, by a few letters
            x, y = item.base
            out = {"x": max(-y, y - b), "y": max(-x, x - a)}[item.axis]
            assert 2 * LETTER < out < 6 * LETTER
            middle = x if item.axis == "x" else y
            assert middle == pytest.approx((item.first[0] + item.last[0]) / 2 if item.axis == "x" else (item.first[1] + item.last[1]) / 2)
        words = [item.text for item in view.items if isinstance(item, Words)]
        radii = [word for word in words if word.startswith(("fillet", "toe radius", "heel radius"))]
        assert len(radii) == (3 if part is BUSY else 1) and radii[0].startswith("fillet")
        inside = [item for item in view.items if isinstance(item, Words) and item.text in radii]
        for item in inside:  # in the angle's own corner, clear of its metal
            x, y = item.at
            assert x > tb + float(section.fillet) and y > ta + float(section.fillet) and x < tb + float(section.fillet) + 3 * LETTER
        assert all(round(b.at[1] - a.at[1], 9) == round(2 * LETTER, 9) for a, b in itertools.pairwise(inside))


def test_dxf_letters_ticks_and_gaps_are_those_of_a_drawing():
    """Arrows shorter than the letters are high, extension lines clear of the metal, figures clear of their line; all in the file's unit."""
    for unit, factor in (("in", 1.0), ("mm", 25.4)):
        document = opened(dxf(section_view(BUSY, unit), unit))
        [style] = [style for style in document.dimstyles if style.dxf.name in {d.dxf.dimstyle for d in document.modelspace().query("DIMENSION")}]
        high = LETTER * factor
        assert style.dxf.dimtxt == pytest.approx(high)
        assert 0.5 * high < style.dxf.dimasz < high and 0.2 * high < style.dxf.dimexo < 0.7 * high and 0.3 * high < style.dxf.dimexe < 0.8 * high and 0.2 * high < style.dxf.dimgap < 0.7 * high
        assert (style.dxf.dimlunit, style.dxf.dimdec) == (2, 4 if unit == "in" else 3) and style.dxf.dimtih == style.dxf.dimtoh == 0
        assert all(text.dxf.height == pytest.approx(high) for text in document.modelspace().query("TEXT"))


def numbers(path: str) -> list[list[tuple[float, float]]]:
    """The straight pieces of an SVG path, y up."""
    return [[(float(x), -float(y)) for x, y in re.findall(r"(-?[\d.]+) (-?[\d.]+)", run)] for run in path.split("M")[1:]]


@pytest.mark.parametrize("part", [BRACKET, BUSY], ids=["bracket", "busy"])
def test_svg_figures_stand_at_their_lines(part):
    """Each figure beyond its dimension line or at the end of its leader, on its middle, clear of it and nearer than a letter and a half."""
    for view in flat_views(part, SHOP):
        root = ElementTree.fromstring(flat_svg(view))
        left, top, wide, high = map(float, root.get("viewBox").split())
        edges = np.array([-left, -top, left + wide, top + high]) + np.array([view.box[0], -view.box[3], -view.box[2], view.box[1]])
        assert np.ptp(edges) < 1e-4 and 0.5 * LETTER < edges[0] < 4 * LETTER  # as much white on every side, and little
        [group] = [g for g in root.iter(f"{NAMESPACE}g") if g.get("id") == "DIMENSIONS"]
        children = list(group)
        pairs = [(path, text) for path, text in itertools.pairwise(children) if path.tag.endswith("path") and text.tag.endswith("text")]
        assert len(pairs) == sum(isinstance(item, Linear | Ordinate) for item in view.items)
        for path, text in pairs:
            x, y, wide = float(text.get("x")), -float(text.get("y")), float(text.get("textLength"))
            upright = text.get("transform") is not None
            shift = {"start": 0.0, "middle": -wide / 2, "end": -wide}[text.get("text-anchor")]
            letters = box(x - LETTER, y + shift, x, y + shift + wide) if upright else box(x + shift, y, x + shift + wide, y + LETTER)
            line = LineString([p for run in numbers(path.get("d")) for p in run]) if len(numbers(path.get("d"))) == 1 else None
            runs = [LineString(run) for run in numbers(path.get("d")) if len(run) > 1]
            assert 0 < min(run.distance(letters) for run in runs) < 1.5 * LETTER, (view.name, text.text)
            if line is not None:  # a leader: the figure goes on where it ends, on its middle
                u, v = line.coords[-1]
                centre = letters.centroid
                assert abs((centre.x - u) if upright else (centre.y - v)) < 0.2 * LETTER, (view.name, text.text)
            else:
                long = max(runs, key=lambda run: run.length)
                assert len(runs) == 5 and long.length > 0
                base = runs[2]  # two extension lines, the dimension line, two ticks
                ticks = [run.length for run in runs[3:]]
                assert all(0.5 * LETTER < tick < 1.5 * LETTER for tick in ticks) and all(run.distance(base) < 1e-5 for run in runs[3:])
                (x1, y1), (x2, y2) = base.coords
                middle, centre = ((x1 + x2) / 2, (y1 + y2) / 2), letters.centroid
                assert abs(centre.x - middle[0] if y1 == y2 else centre.y - middle[1]) < 0.2 * LETTER
                metal = LineString([p for item in view.on("FINISHED") for p in item.points])
                assert letters.distance(metal) > base.distance(metal) - 1e-9 or view.name != "section"  # beyond its line, seen from the metal


# --- saddles ---------------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize("part", [BRACKET, BUSY], ids=["bracket", "busy"])
def test_a_saddle_is_printed_turned_and_never_mirrored(part):
    """The points of the print are those of the saddle under one turn: best fit by its singular values, whose sign says a mirror."""
    for saddle in saddles(part):
        one, two = (np.unique(solids.vertices(solid).round(6), axis=0) for solid in (saddle.solid(0.05), saddle.printed(0.05)))
        assert len(one) == len(two)
        from anglelib.paper.saddle import _TURNS

        fits = []
        for turn in _TURNS.values():
            matrix = np.array(turn)[:, :3]
            assert np.linalg.det(matrix) == pytest.approx(1) and matrix @ matrix.T == pytest.approx(np.eye(3))
            moved = one @ matrix.T
            moved -= moved.min(axis=0)
            fits.append(np.abs(np.sort(moved.round(4), axis=0) - np.sort(two.round(4), axis=0)).max() < 1e-3)
        assert any(fits)


def test_a_long_wall_lies_on_the_bed_where_it_does_not_tip():
    """The tapered leg's wall: its line then stands upright. The saddle of the bracket does not tip on it."""
    saddle = Saddle.of(BRACKET, 1, "outside")
    low, high = np.array(saddle.printed().bounding_box()).reshape(2, 3)
    assert (high - low)[0] == pytest.approx(float(saddle.length) * 25.4, abs=1e-6) and (high - low)[2] == pytest.approx((1.25 * 25.4 + 3), abs=1e-6)
    bottom = solids.vertices(saddle.printed())
    assert (np.abs(bottom[:, 2]) < 1e-9).sum() >= 4


def test_every_outline_is_on_a_sheet():
    assert all(isinstance(item, Outline) for item in face_view(BRACKET, "A", False, SHOP).on("WASTE"))
