"""The exported flat views: opened again by ezdxf and the XML parser, and measured against the drawing and a solid."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction as F
from random import Random

import numpy as np
import pytest
from exported import (
    FACTORS,
    NAMESPACE,
    bare,
    circles,
    cutters,
    inner_face,
    measured,
    on_sheet,
    opened,
    oracle_parts,
    ordinates,
    polygon_on,
    reach_along,
    solids,
    span_at,
    svg_layers,
    svg_polygons,
    svg_scale,
)
from shapely import Point, Polygon
from shapely.affinity import scale

from anglelib.job import Shop
from anglelib.paper.flat import LAYERS
from anglelib.paper.flat_dxf import dxf
from anglelib.paper.flat_svg import flat_svg
from anglelib.paper.flat_views import face_view, flat_views, unrolled_view
from anglelib.part import Cope, Corner, Hole, Part, Taper
from anglelib.section import Section

SHOP = Shop()
STATED = 0.001
"""What a developed curve may be off, as the module says [in]."""
AREA = 3e-5
STOCK = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
BRACKET = Part(
    "C1L", "Bracket", STOCK, "6061-T6", "4 3/4", tapers=[Taper("A", 1, run="2 1/8")], holes=[Hole("A", "2 7/16", "11/16", "3/16")]
)
BUSY = Part(
    "Q1", "Busy <bracket> & \"trial\" %%d", Section("1 1/2", "1 1/4", "1/8", "3/16", fillet="3/16", toe_radius="3/32", heel_radius="1/16"),
    "6061-T6", 6,
    tapers=[Taper("A", 1, "1/8", run=2), Taper("B", 1, run=1), Taper("B", 2, "3/4", run=1)],
    corners=[Corner("A", 1, "1/4"), Corner("B", 2, "1/8")], copes=[Cope("A", 2, 1, "1/2", "1/8")],
    holes=[Hole("A", 3, 1, "3/16"), Hole("A", "3 1/8", "5/16", "3/16"), Hole("B", 4, "3/4", "1/8")],
)  # fmt: skip
MIRROR = {("A", False): -1, ("B", False): 1, ("A", True): 1, ("B", True): -1}
"""Seen from its own side with end 1 at the left, whether a face runs up or down from the heel."""


def upright(area: Polygon, leg: str, inner: bool) -> Polygon:
    """A face as exported, with its heights from the heel positive."""
    return scale(area, 1, MIRROR[leg, inner], origin=(0, 0))


def check_face(part: Part, leg: str, inner: bool, unit: str) -> None:
    """The finished outline against the kernel's or shapely's; the holes against the drawing's numbers."""
    factor = FACTORS[unit]
    document = opened(dxf(face_view(part, leg, inner, SHOP, unit), unit))
    area = upright(polygon_on(document, "FINISHED", factor), leg, inner)
    wanted = inner_face(part, leg) if inner else cutters.face_outline(part, leg, solids.ON, 200)
    assert area.symmetric_difference(wanted).area < AREA, (part, leg, inner)
    if not inner:
        drawn = [(x, y * MIRROR[leg, inner], d) for x, y, d in circles(document, factor)]
        wanted = sorted((float(h.x), float(h.y), float(h.diameter)) for h in part.holes_in(leg))
        assert len(drawn) == len(wanted) and np.allclose(sorted(drawn), wanted, rtol=0, atol=1e-9), (drawn, wanted)


def check_sheet(part: Part, inner: bool, places: int = 40) -> None:
    """Lines along the part at many places round the section: where the sheet says the metal begins and ends, the solid does."""
    part = bare(part)
    document = opened(dxf(unrolled_view(part, inner, SHOP), "in"))
    area = scale(polygon_on(document, "FINISHED"), 1, 1 if inner else -1, origin=(0, 0))
    faces = solids.triangles(cutters.finished(part, solids.ON, 256))
    rng, section = Random(1), part.section
    low, high = -float(section.leg_b) - 0.1, float(section.leg_a) + 0.1
    bend = float(section.fillet if inner else section.heel_radius) * 0.78
    for n in range(places):
        v = rng.uniform(low, high) if n % 2 or not bend else rng.uniform(-bend, bend)
        place = on_sheet(section, inner, v)
        solid = place and reach_along(faces, *place)
        sheet = span_at(area, v)
        if solid is None or sheet is None:
            assert (solid is None or solid[1] - solid[0] < 2 * STATED) and (sheet is None or sheet[1] - sheet[0] < 2 * STATED), (part, v)
        else:
            assert sheet == pytest.approx(solid, abs=STATED), (part, inner, v)


@pytest.mark.parametrize("part", [BRACKET, BUSY], ids=["bracket", "busy"])
@pytest.mark.parametrize("unit", ["in", "mm"])
def test_faces_are_the_finished_metal(part, unit):
    for leg in "AB":
        for inner in (False, True):
            check_face(part, leg, inner, unit)


@pytest.mark.parametrize("part", [BRACKET, BUSY], ids=["bracket", "busy"])
def test_sheets_folded_back_lie_on_the_solid(part):
    for inner in (False, True):
        check_sheet(part, inner, 150)


def fuzz(first: int, last: int) -> None:
    for seed in range(first, last):
        part = oracle_parts.part(Random(f"export {seed}"))
        try:
            for inner in (False, True):
                check_face(part, "AB"[seed % 2], inner, ("in", "mm")[seed // 2 % 2])
                check_sheet(part, inner)
        except AssertionError as error:
            raise AssertionError(f"seed {seed}: {error}") from None


def test_random_parts():
    fuzz(0, 3)


@pytest.mark.slow
@pytest.mark.parametrize("block", range(10))
def test_five_hundred_random_parts(block):
    fuzz(3 + 50 * block, 53 + 50 * block)


# --- the checks see what is wrong --------------------------------------------------------------------------
def test_a_face_seen_from_the_wrong_side_is_noticed(monkeypatch):
    monkeypatch.setitem(MIRROR, ("A", False), 1)
    with pytest.raises(AssertionError):
        check_face(BRACKET, "A", False, "in")


def test_a_wrong_unit_is_noticed(monkeypatch):
    monkeypatch.setitem(FACTORS, "mm", 25.0)
    with pytest.raises(AssertionError):
        check_face(BRACKET, "A", False, "mm")


def test_a_straight_line_over_the_unrolled_fillet_is_noticed(monkeypatch):
    """The wrong way to carry a line round the fillet: off by up to (pi/2 - 1) r c = 0.12 in here."""
    from anglelib.paper import unrolled

    monkeypatch.setattr(unrolled, "_curve", lambda at, breaks: [(at(v), v) for v in (breaks[0] + 1e-9, breaks[-1] - 1e-9)])
    with pytest.raises(AssertionError):
        check_sheet(BRACKET, True, 60)


def test_a_taper_on_the_wrong_leg_is_noticed(monkeypatch):
    def mixed_up(part):
        return replace(part, tapers=[Taper("B", 1, run="2 1/8")])

    right = unrolled_view
    monkeypatch.setitem(globals(), "unrolled_view", lambda part, *rest: right(mixed_up(part), *rest))
    with pytest.raises(AssertionError):
        check_sheet(BRACKET, False)


# --- dimensions, units, layers -------------------------------------------------------------------------------
@pytest.mark.parametrize("unit", ["in", "mm"])
def test_dimensions_measure_the_drawings_numbers(unit):
    factor = FACTORS[unit]
    files = {view.name: opened(dxf(view, unit)) for view in flat_views(BRACKET, SHOP, unit)}
    outer, inner_a, inner_b = (files[name] for name in ("leg-A-outer", "leg-A-inner", "leg-B-inner"))
    # run 2 1/8, hole 2 7/16, witness line 3, length 4 3/4
    assert ordinates(outer, "x", factor) == pytest.approx([2.125, 2.4375, 3.0, 4.75])
    assert ordinates(outer, "y", factor) == pytest.approx([0.6875, 1.25])
    # by similar triangles: the line climbs 1 1/4 in 2 1/8, so at 1/4 and at 1/8 from the heel it is at
    assert ordinates(inner_a, "x", factor)[0] == pytest.approx(0.25 * 2.125 / 1.25)
    assert ordinates(inner_b, "x", factor)[0] == pytest.approx(0.125 * 2.125 / 1.25)
    linear = [measured(d) / factor for d in files["section"].modelspace().query("DIMENSION")]
    assert sorted(linear) == pytest.approx([0.125, 0.125, 1.25, 1.25])
    for document in files.values():
        assert document.header["$INSUNITS"] == (1 if unit == "in" else 4)
        assert document.header["$MEASUREMENT"] == (0 if unit == "in" else 1)


def test_a_figure_says_what_its_dimension_measures():
    for part, unit, pattern in ((BRACKET, "mm", r"^([\d.]+)$"), (BUSY, "in", r"\(([\d.]+)\)")):
        for view in flat_views(part, SHOP, unit):
            for dimension in opened(dxf(view, unit)).modelspace().query("DIMENSION"):
                said = float(re.search(pattern, dimension.dxf.text).group(1))
                assert said == pytest.approx(measured(dimension), abs=6e-4 if unit == "in" else 6e-3), view.name


def test_every_thing_is_on_a_layer_of_ours_and_arcs_are_arcs():
    for view in flat_views(BUSY, SHOP):
        document = opened(dxf(view, "in"))
        used = {entity.dxf.layer for entity in document.modelspace()}
        assert used <= set(LAYERS) and {"FINISHED", "DIMENSIONS", "TEXT"} <= used
        assert {layer.dxf.name for layer in document.layers} >= set(LAYERS)
    document = opened(dxf(face_view(BUSY, "A", False, SHOP), "in"))
    (outline,) = document.modelspace().query('LWPOLYLINE[layer=="FINISHED"]')
    assert sum(bool(bulge) for *_, bulge in outline.get_points("xyb")) == 2  # the rounded corner and the cope's inside corner
    assert len(document.modelspace().query('CIRCLE[layer=="HOLES"]')) == 2


def test_saw_line_kerf_and_waste():
    """Distances from the finished line by shapely; the waste is what the blank has more than the finished face."""
    document = opened(dxf(face_view(BRACKET, "A", False, SHOP), "in"))
    space = document.modelspace()
    finished, blank, waste = (polygon_on(document, layer) for layer in ("FINISHED", "BLANK", "WASTE"))
    assert waste.symmetric_difference(blank.difference(finished)).area < 1e-9
    for layer, off in (("SAW_LINE", SHOP.allowance), ("KERF", SHOP.allowance + SHOP.kerf)):
        lines = space.query(f'LINE[layer=="{layer}"]')
        assert len(lines) == 2  # the taper's, and the square one at end 2
        for line in lines:
            for point in (line.dxf.start, line.dxf.end):
                edge = finished.exterior if point.x > 4.7 else Polygon([(-9, 9 * 1.25 / 2.125), (2.125, -1.25), (9, -1.25), (9, 9)]).exterior
                assert Point(point.x, point.y).distance(edge) == pytest.approx(float(off), abs=1e-9)


@pytest.mark.parametrize("part", [BRACKET, BUSY], ids=["bracket", "busy"])
def test_waste_and_finished_make_the_blank(part):
    for view in flat_views(part, SHOP)[:6]:
        document = opened(dxf(view, "in"))
        finished, blank, waste = (polygon_on(document, layer) for layer in ("FINISHED", "BLANK", "WASTE"))
        assert waste.symmetric_difference(blank.difference(finished)).area < 1e-6, view.name


# --- SVG --------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize("unit", ["in", "mm"])
def test_svg_is_the_same_at_true_size(unit):
    factor = FACTORS[unit]
    for view in flat_views(BUSY, SHOP, unit):
        text, document = flat_svg(view, unit), opened(dxf(view, unit))
        assert svg_scale(text) == (unit, pytest.approx(1.0))
        layers = svg_layers(text)
        assert set(layers) <= set(LAYERS)
        (area,) = svg_polygons(layers["FINISHED"], factor)
        assert area.symmetric_difference(polygon_on(document, "FINISHED", factor)).area < AREA, view.name
        rounds = [
            (float(c.get("cx")) / factor, -float(c.get("cy")) / factor, 2 * float(c.get("r")) / factor)
            for c in (layers["HOLES"].iter(f"{NAMESPACE}circle") if "HOLES" in layers else ())
        ]
        drawn = circles(document, factor)
        assert len(rounds) == len(drawn) and np.allclose(sorted(rounds), drawn, rtol=0, atol=1e-6)


def test_svg_text_is_inert_and_nothing_lies_outside():
    from xml.etree import ElementTree

    for view in flat_views(BUSY, SHOP):
        root = ElementTree.fromstring(flat_svg(view))
        left, low, wide, high = map(float, root.get("viewBox").split())
        assert BUSY.name in root.find(f"{NAMESPACE}title").text
        for text in root.iter(f"{NAMESPACE}text"):
            x, y, long = float(text.get("x")), float(text.get("y")), float(text.get("textLength"))
            way = {"start": 1, "end": -1, "middle": 0}[text.get("text-anchor")]
            dx, dy = (0, -long * way) if text.get("transform") else (long * way, 0)
            for px, py in ((x, y), (x + dx, y + dy)):
                assert left <= px <= left + wide and low <= py <= low + high, (view.name, text.text)


def test_figures_do_not_touch_one_another():
    """Fifteen holes a sixteenth apart: their figures stand clear of one another."""
    part = Part("P1", "Row", STOCK, "6061-T6", 6, holes=[Hole("A", 1 + F(n, 16), "3/4", "1/32") for n in range(15)])
    document = opened(dxf(face_view(part, "A", False, SHOP), "in"))
    figures = sorted(d.dxf.defpoint3.x for d in document.modelspace().query("DIMENSION") if d.dxf.dimtype & 64)
    assert len(figures) == 16 and min(b - a for a, b in zip(figures, figures[1:], strict=False)) > 0.19


def test_nothing_left_is_still_a_view():
    part = Part("P1", "Trial", Section("1 1/2", "1 1/2", "1/4"), "6061-T6", 1, tapers=[Taper("B", 1, angle=5)])
    document = opened(dxf(face_view(part, "A", True, SHOP), "in"))
    assert polygon_on(document, "FINISHED").is_empty and polygon_on(document, "WASTE").area == pytest.approx(1.25)


def test_a_fillet_that_takes_the_whole_flat_is_still_a_view():
    stock = Section(1, 1, "1/8", fillet="7/8")
    part = Part("P1", "Trial", stock, "6061-T6", 3, tapers=[Taper("A", 1, run=1)])
    for view in flat_views(part, SHOP):
        opened(dxf(view, "in"))
        flat_svg(view)
    check_sheet(part, True)
