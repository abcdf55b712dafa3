"""Templates as they are printed: rendered at 300 dpi and measured.

Where a mark must lie is worked out here from the drawing's own numbers, by similar triangles and by
points on the bent faces; nothing of the library's formulas is used. "The edge of the ink next to the
part is the dimension", so the edge of the finished line that faces the part is what is measured.
"""

from __future__ import annotations

import math
import statistics
from collections.abc import Callable
from dataclasses import replace

import pytest
from printed_pages import PAPERS, PARTS, Raster

from anglelib.drawing.sheet import Label
from anglelib.job import Shop
from anglelib.paper.page import A4, LETTER, Paper
from anglelib.paper.template import template_pages
from anglelib.paper.tiles import in_rows, marked, sides, tiles
from anglelib.paper.true_size import EDGE
from anglelib.part import Part, Taper
from anglelib.section import Section

INCH = 25.4
NARROW_INK = 0.175
"""Breadth of a joint's line [mm]."""
NEAR = 0.1
"""How far off a printed mark may be [mm]."""


def line_of(part: Part, taper: Taper) -> Callable[[float], float]:
    """Distance from the end at a height on the tapered leg [mm to mm], by similar triangles."""
    width, left = float(part.section.leg(taper.leg)) * INCH, float(taper.width_left) * INCH
    run = float(taper.run) * INCH if taper.run else (width - left) / math.tan(math.radians(float(taper.angle)))
    return lambda height: run * (height - left) / (width - left)


class Printed:
    """One tile of a printed fold sheet: found on the raster from its edges, measured from an end of the part."""

    def __init__(self, part: Part, end: int, on: Paper, inner: bool, shop: Shop | None = None, tile: int | None = None) -> None:
        self.part, self.end, self.on = part, end, on
        room = on.right - EDGE - on.left
        laid = tiles(part, room)
        number = tile if tile is not None else 0 if end == 1 else len(laid) - 1
        self.tile = laid[number]
        order = [(laid.index(t), i) for row in in_rows(part, laid, room) for i in (False, True) for t, _ in row]
        pages = template_pages(part, shop or Shop(), on)
        captions = [
            (page, item) for page in pages for item in page.items
            if isinstance(item, Label) and item.text.split(":")[0] in ("outside", "inside")
        ]  # fmt: skip
        self.page, caption = captions[order.index((number, inner))]
        self.caption = caption.y
        self.raster = Raster(self.page, on)
        self.way = 1 if end == 1 else -1
        left = caption.x + sides(part, self.tile.low, self.tile.high)[0]
        self.edge = left if end == 1 else left + (self.tile.high - self.tile.low) * INCH

    def edges(self, apart: float, far: float) -> tuple[float, float]:
        """Upper and lower edge of a sheet, the inner sides of its ink: of all that a column crosses, the two so far apart.

        The column stands ``far`` from the tapered end [mm]; leaders and figures may cross it too.
        """
        x = self.edge + self.way * far
        crossed = self.raster.column(x, self.caption + 1, self.caption - apart - 45)
        runs = [run for run in crossed if abs(run[0] - run[1] - 0.35) < 0.06]  # a narrow line's ink, no letter's
        pairs = [(upper[1], lower[0]) for upper in runs for lower in runs if lower[0] < upper[1]]
        self.top, self.bottom = min(pairs, key=lambda pair: abs(pair[0] - pair[1] - apart))
        return self.top, self.bottom

    def end_edge(self) -> float:
        """The inner side of the end's edge, as most rows over the sheet have it where nothing touches it."""
        heights = [self.bottom + share / 40 * (self.top - self.bottom) for share in range(1, 40)]
        rows = [self.raster.row(y, self.edge - self.way, self.edge + self.way) for y in heights]
        return statistics.median(far for runs in rows for near, far in runs if abs(abs(far - near) - 0.35) < 0.06)

    def mark(self, y: float, far: float, arrows: bool = False) -> float:
        """Where the first ink lies on the way from the part towards the end, as a distance from the end's edge [mm].

        A leader's thin line may cross the way; an ink as broad as the finished line's, cut slanting, is what is looked for.
        """
        runs = self.raster.row(y, self.edge + self.way * far, self.edge - self.way * 1.0)
        broad = [run for run in runs if abs(run[0] - run[1]) > 0.345]
        places = [(run[0] - self.end_edge()) * self.way for run in broad]
        return min(places, key=lambda place: abs(place - far + 1.5)) if arrows else places[0]


def sizes(section: Section) -> tuple[float, float]:
    """Breadth of the outside sheet and of the inside one, toe to toe over the bent middle [mm]."""
    a, b = float(section.leg_a), float(section.leg_b)
    ta, tb = float(section.thickness_a), float(section.thickness("B"))
    r, toe, heel = float(section.fillet), float(section.toe_radius), float(section.heel_radius)
    outer = a + b - 2 * heel + heel * math.pi / 2
    inner = (a - tb - r - toe) + (b - ta - r - toe) + r * math.pi / 2
    return outer * INCH, inner * INCH


CASES = [(name, taper.end) for name, part in PARTS.items() for taper in part.tapers if name not in ("angle", "two-legs")]


def far_edge(part: Part, sheet: Printed) -> float:
    """A column of the sheet with few figures: near the edge that is not the end [mm from the end]."""
    return (sheet.tile.high - sheet.tile.low) * INCH - 1.2


@pytest.mark.parametrize("place", range(len(CASES)))
def test_the_line_on_the_outer_face_lies_where_the_triangle_says(place):
    check_outer(*CASES[place], PAPERS[place % 2])


@pytest.mark.slow
@pytest.mark.parametrize("place", range(len(CASES)))
def test_the_line_on_the_outer_face_lies_there_on_the_other_paper_too(place):
    check_outer(*CASES[place], PAPERS[1 - place % 2])


def check_outer(name: str, end: int, on: Paper) -> None:
    part = PARTS[name]
    (taper,) = [t for t in part.tapers if t.end == end]
    sheet = Printed(part, end, on, inner=False)
    outer, _ = sizes(part.section)
    top, bottom = sheet.edges(outer, far_edge(part, sheet))
    assert top - bottom == pytest.approx(outer, abs=NEAR)
    width = float(part.section.leg(taper.leg)) * INCH
    line = line_of(part, taper)
    # leg A hangs from the heel, leg B stands on it: the toe is the sheet's edge
    toe, inwards = (bottom, 1) if taper.leg == "A" else (top, -1)
    beyond = float(taper.width_left) * INCH
    heights = [width - 0.6, width - 0.3 * (width - beyond), width - 0.6 * (width - beyond)]
    for height in heights:
        y = sheet.raster.level(toe + inwards * (width - height))
        height = width - (y - toe) * inwards
        # only as far as the line may be: holes and the witness line lie beyond
        assert sheet.mark(y, line(height) + 2.0) == pytest.approx(line(height), abs=NEAR), height


@pytest.mark.parametrize("name, end", CASES)
def test_the_line_on_the_inside_bends_through_the_fillet(name, end):
    part = PARTS[name]
    (taper,) = [t for t in part.tapers if t.end == end]
    sheet = Printed(part, end, A4, inner=True)
    section = part.section
    other = "B" if taper.leg == "A" else "A"
    t, r, toe = float(section.thickness(other)) * INCH, float(section.fillet) * INCH, float(section.toe_radius) * INCH
    _, inner = sizes(section)
    top, bottom = sheet.edges(inner, far_edge(part, sheet))
    assert top - bottom == pytest.approx(inner, abs=NEAR)
    width = float(section.leg(taper.leg)) * INCH
    line = line_of(part, taper)
    edge, inwards = (top, -1) if taper.leg == "A" else (bottom, 1)
    flat = width - toe - t - r
    arc = r * math.pi / 2
    high_b = float(section.leg(other)) * INCH - float(section.thickness(taper.leg)) * INCH - r - toe
    ways = [0.6, 0.4 * flat, 0.9 * flat, *(flat + share * arc for share in (0.2, 0.5, 0.8))]
    ways += [flat + arc + share * high_b for share in (0.2, 0.5, 0.9)]

    def height_at(way: float) -> float:
        """Height above the heel at a way from the toe's edge: down the flat, round the fillet, up the other leg."""
        if way <= flat:
            return width - toe - way
        return t + r - r * math.sin(min((way - flat) / r, math.pi / 2))

    seen = 0
    for way in ways:
        y = sheet.raster.level(edge + inwards * way)
        way = (y - edge) * inwards
        height = height_at(way)
        wanted = line(height)
        if wanted < 0.7:  # the line has left through the end, or runs into the end's own edge
            continue
        assert sheet.mark(y, wanted + 1.5, arrows=True) == pytest.approx(wanted, abs=NEAR), (height, way)
        seen += 1
    assert seen >= (2 if taper.width_left > section.thickness(other) + section.fillet else 4)


@pytest.mark.parametrize("name", ["round", "round-B"])
def test_a_rounded_heel_is_unrolled_too(name):
    """On the heel's arc at angle phi from the tapered leg's tangent a point is Rh (1 - cos phi) high."""
    part = PARTS[name]
    (taper,) = part.tapers
    sheet = Printed(part, taper.end, A4, inner=False)
    outer, _ = sizes(part.section)
    top, bottom = sheet.edges(outer, far_edge(part, sheet))
    heel = float(part.section.heel_radius) * INCH
    width = float(part.section.leg(taper.leg)) * INCH
    toe, inwards = (bottom, 1) if taper.leg == "A" else (top, -1)
    line = line_of(part, taper)
    for angle in (60, 72, 82):  # from leg B's tangent, clear of the lines along the heel
        way = width - heel + heel * (math.pi / 2 - math.radians(angle))
        y = sheet.raster.level(toe + inwards * way)
        phi = math.pi / 2 - ((y - toe) * inwards - (width - heel)) / heel
        height = heel * (1 - math.cos(phi))
        assert sheet.mark(y, line(height) + 2.0) == pytest.approx(line(height), abs=NEAR)


def test_the_saw_stays_outside_the_line_by_the_allowance_and_takes_the_kerf():
    part = PARTS["vertex"]
    sheet = Printed(part, 1, A4, inner=False, shop=Shop(allowance="1/16", kerf="1/8"))
    outer, _ = sizes(part.section)
    _, bottom = sheet.edges(outer, far_edge(part, sheet))
    width = 1.25 * INCH
    sine = math.sin(math.atan2(1.25, 2.125))
    line = line_of(part, part.tapers[0])
    misses: dict[float, list[float]] = {1 / 16: [], 1 / 16 + 1 / 8: []}
    for step in range(40):  # on some rows the hatching touches the band; on others it does not
        y = sheet.raster.level(bottom + 0.25 * width + step * 0.1)
        finished = line(width - (y - bottom))
        runs = sheet.raster.row(y, sheet.edge + finished + 2.0, sheet.edge - 1.0)
        for off, missed in misses.items():
            wanted = finished - off * INCH / sine
            missed.append(min(abs(abs(near - sheet.end_edge()) - wanted) for near, _ in runs))
    assert all(sorted(missed)[5] < NEAR for missed in misses.values())


def test_a_long_run_goes_on_where_the_page_before_ended():
    """On both tiles the joint's line stands at the same place of the part: the finished line is measured from it."""
    part = PARTS["angle"]
    laid = tiles(part, A4.right - EDGE - A4.left)
    assert [(t.joint_before, t.joint_after) for t in laid] == [("", "A"), ("A", "")]
    line = line_of(part, part.tapers[0])
    outer, _ = sizes(part.section)
    width = 1.5 * INCH
    for number, tile in enumerate(laid):
        for low, joint in ((True, tile.joint_before), (False, tile.joint_after)):
            if not joint:
                continue
            sheet = Printed(part, 1, A4, inner=False, tile=number)
            there = 0.0 if low else (tile.high - tile.low) * INCH
            top, bottom = sheet.edges(outer, 30.0)
            assert top - bottom == pytest.approx(outer, abs=NEAR)
            rows = [sheet.raster.row(bottom - 0.48, sheet.edge + there - 1.5, sheet.edge + there + 1.5)]
            near, far = min((run for runs in rows for run in runs), key=lambda run: abs((run[0] + run[1]) / 2 - sheet.edge - there))
            joint_at = near + NARROW_INK / 2
            place = tile.low if low else tile.high
            # a height at which the line lies 10 mm within the tile from the joint
            wanted = place * INCH + (12 if low else -12)
            slope = line(width) / width
            height = wanted / slope
            y = sheet.raster.level(bottom + width - height)
            wanted = line(width - (y - bottom))
            start = joint_at + wanted - place * INCH
            runs = sheet.raster.row(y, start + 1.5, start - 3)
            assert runs[0][0] == pytest.approx(start, abs=NEAR), (number, joint)


@pytest.mark.parametrize("unit, apart_by", [("in", INCH), ("mm", 20.0)])
def test_the_ticks_of_a_joint_stand_as_far_apart_as_the_sheet_says(unit, apart_by):
    """An inch, and 20 mm on a sheet in millimetres: a round number of its own rule either way."""
    part = replace(PARTS["angle"], unit=unit)
    page = template_pages(part, Shop(), A4)[0]
    assert any(f"ticks {'1 in.' if unit == 'in' else '20 mm'} apart" in item.text for item in page.items if isinstance(item, Label))
    outer, _ = sizes(part.section)
    apart = []
    for number, into in ((0, -1), (1, 1)):
        sheet = Printed(part, 1, A4, inner=False, tile=number)
        there = sheet.edge + (0.0 if into > 0 else (sheet.tile.high - sheet.tile.low) * INCH)
        _, bottom = sheet.edges(outer, 30.0)
        runs = sheet.raster.row(bottom - 2.0, there + into * 8, there + into * (apart_by / 2 + 3))
        (near, far) = min(runs, key=lambda run: abs((run[0] + run[1]) / 2 - there - into * apart_by / 2))
        joint = min(sheet.raster.row(bottom - 0.48, there - 1, there + 1), key=lambda run: abs(run[0] - there))
        apart.append(abs((near + far) / 2 - sum(joint) / 2))
    assert sum(apart) == pytest.approx(apart_by, abs=NEAR)


@pytest.mark.parametrize("on", PAPERS, ids=lambda on: on.name)
def test_every_page_carries_bars_that_measure_what_they_say(on):
    part = PARTS["vertex"]
    raster = Raster(template_pages(part, Shop(), on)[0], on)
    for y, wanted in ((on.bottom + 0.12, 100.0), (on.bottom + 7.12, 101.6)):
        runs = raster.row(y, on.left - 3, on.left + 110)
        assert runs[-1][1] - runs[0][0] == pytest.approx(wanted, abs=NEAR)
        assert runs[0][0] == pytest.approx(on.left, abs=NEAR)
    runs = raster.column(on.right - 0.12, on.bottom - 0.8, on.bottom + 102)
    assert runs[-1][1] - runs[0][0] == pytest.approx(100.0, abs=NEAR)


@pytest.mark.parametrize("on", [pytest.param(A4, marks=pytest.mark.slow), LETTER], ids=lambda on: on.name)
@pytest.mark.parametrize("name", PARTS)
def test_each_page_of_a_fold_sheet_has_its_bars(name, on):
    part = PARTS[name]
    pages = template_pages(part, Shop(), on)
    assert bool(pages) == marked(part) == (name != "bare")
    for page in pages:
        texts = [getattr(item, "text", "") for item in page.items]
        assert sum("from end to end" in text for text in texts) == 2
        assert any("100 mm" in text for text in texts) and any("4 in." in text for text in texts)
