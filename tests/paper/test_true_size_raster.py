"""Random parts printed at 300 dpi and measured: fold sheets, check prints, bars, and what makes up for a printer.

Where an edge must lie is taken from outlines that shapely cuts from the drawing's own numbers
(``tests/oracle/cutters.py``); nothing of the library's formulas is used.
"""

from __future__ import annotations

import datetime
import io
import math
import sys
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from random import Random

import pypdfium2
import pytest
from PIL import Image
from printed_pages import PARTS, Raster
from pypdf import PdfReader
from shapely import LineString

from anglelib.drawing.checks import clipped, overlaps, struck
from anglelib.drawing.letters import box
from anglelib.drawing.sheet import Circle, Label, Polyline
from anglelib.errors import BenchError
from anglelib.files import read_job, read_rack
from anglelib.job import Shop
from anglelib.paper.check_print import FINE, SIDE, View, check_pages
from anglelib.paper.fold_strip import FoldStrip
from anglelib.paper.pack import make_pack
from anglelib.paper.page import A4, LETTER, Page
from anglelib.paper.print_scale import PrintScale, measured
from anglelib.paper.template import template_pages
from anglelib.paper.tiles import in_rows, marked, sides, tiles
from anglelib.paper.true_size import EDGE
from anglelib.part import Cope, Corner, Hole, Part, Taper
from anglelib.tolerances import Limits

sys.path.insert(0, str(Path(__file__).parents[1] / "oracle"))
import cutters  # noqa: E402
import oracle_parts  # noqa: E402

sys.path.pop(0)

INCH = 25.4
NEAR = 0.1
"""How far off a printed mark may be [mm]."""


def random_part(seed: int) -> Part:
    return oracle_parts.part(Random(f"printed {seed}"))


def legible(page: Page, y: float, x: float, reach: float) -> bool:
    """Whether no word or leader of the page is in the way round a place."""
    for item in page.items:
        if isinstance(item, Label):
            xs, ys = zip(*box(item), strict=True)
        elif isinstance(item, Polyline) and item.kind == "dimension":
            xs, ys = zip(*item.points, strict=True)
        elif isinstance(item, Circle):
            xs, ys = (item.x - item.radius - 1.5, item.x + item.radius + 1.5), (item.y - item.radius - 1.5, item.y + item.radius + 1.5)
        else:
            continue
        if min(xs) - reach < x < max(xs) + reach and min(ys) - 0.5 < y < max(ys) + 0.5:
            return False
    return True


def blocks(part: Part, pages: list[Page], on) -> list[tuple[Page, float, bool, object, float]]:
    """Each tile on its page: (page, x of its low edge, inner, tile, height of its caption)."""
    room = on.right - EDGE - on.left
    order = []
    for row in in_rows(part, tiles(part, room), room):
        for inner in (False, True):
            left = on.left
            for tile, wide in row:
                order.append((left + sides(part, tile.low, tile.high)[0], inner, tile))
                left += wide
    captions = [(page, item) for page in pages for item in page.items if isinstance(item, Label) and item.text.split(":")[0] in ("outside", "inside")]
    assert len(captions) == len(order)
    return [(page, x0, inner, tile, item.y) for (page, item), (x0, inner, tile) in zip(captions, order, strict=True)]


def under(page: Page, caption: float, deep: float) -> float:
    """How far down the page a sheet under a caption may reach: to the next caption, or the lines of the sheet there may lie ``deep`` apart too."""
    captions = [item.y for item in page.items if isinstance(item, Label) and item.text.split(":")[0] in ("outside", "inside")]
    return max([caption - deep - 75, 4.0, *(y for y in captions if y < caption - deep)])


def found_edges(raster: Raster, left: float, right: float, caption: float, floor: float, deep: float) -> tuple[float, float] | None:
    """The inner sides of a sheet's upper and lower edge, ``deep`` apart, where most columns see them; figures stand in the way of some."""
    pairs: list[tuple[float, float]] = []
    for step in range(1, 24):
        runs = raster.column(left + (right - left) * step / 24, caption + 1, floor)
        narrow = [run for run in runs if abs(run[0] - run[1] - 0.35) < 0.07]
        pairs += [(upper[1], lower[0]) for upper in narrow for lower in narrow if abs(upper[1] - lower[0] - deep) < NEAR]
    if len(pairs) < 3:
        return None
    return max(pairs, key=lambda pair: sum(abs(pair[0] - other[0]) < 0.05 for other in pairs))


def row(face, part: Part, height: float) -> tuple[float, float] | None:
    """From where to where a leg has metal at a height [in]."""
    cut = LineString([(-1, height), (float(part.length) + 1, height)]).intersection(face)
    return None if cut.is_empty else (cut.bounds[0], cut.bounds[2])


def check_fold_sheet(part: Part, on, off: float = 0.0) -> int:
    """The finished line and the hole centres on the outer faces, measured on the raster; how many places were measured."""
    pages = template_pages(part, Shop(), on)
    rasters = {id(page): Raster(page, on) for page in pages}
    faces = {leg: cutters.face_outline(part, leg, steps=128) for leg in "AB"}
    heel = float(part.section.heel_radius) * INCH
    seen = 0
    for page, x0, inner, tile, caption in blocks(part, pages, on):
        if inner:
            continue
        raster = rasters[id(page)]
        a, b = (float(part.section.leg(leg)) * INCH - heel for leg in "AB")
        deep = a + b + heel * math.pi / 2
        sheet_edges = found_edges(raster, x0 + 1.0, x0 + (tile.high - tile.low) * INCH - 1.0, caption, under(page, caption, deep), deep)
        if sheet_edges is None:  # figures stand in the way of every column
            continue
        top, bottom = sheet_edges
        for leg, toe, inwards in (("A", bottom, 1), ("B", top, -1)):
            width = float(part.section.leg(leg)) * INCH
            for share in (0.06, 0.25, 0.45, 0.65, 0.85):
                y = raster.level(toe + inwards * share * (width - heel))
                height = width - (y - toe) * inwards
                cut = row(faces[leg], part, height / INCH)
                if cut is None or (cut[1] - cut[0]) * INCH < 4:
                    continue
                for end, place in ((1, cut[0]), (2, cut[1])):
                    away = place if end == 1 else float(part.length) - place
                    if away * INCH < 1 or not tile.low + 0.1 < place < tile.high - 0.1:
                        continue
                    way = 1 if end == 1 else -1
                    x = x0 + (place - tile.low) * INCH
                    if not legible(page, y, x, 2.5):
                        continue
                    across = [row(faces[leg], part, height / INCH + dy) for dy in (-0.01, 0.01)]
                    if any(cut is None for cut in across):
                        continue
                    # the miss is measured square to the edge: along a row it is longer, the flatter the edge runs
                    slope = (across[1][end - 1] - across[0][end - 1]) / 0.02
                    slack = NEAR * math.hypot(1, slope)
                    crossing = raster.row(y, x + way * (1.2 + slack), x - way * (1.2 + slack))
                    if not crossing:
                        raise AssertionError(f"no line at {place}, {height / INCH} of leg {leg}")
                    found = min((run[0] for run in crossing if abs(run[0] - run[1]) > 0.25), key=lambda at: abs(at - x - off), default=1e9)
                    assert found == pytest.approx(x + off, abs=slack), (leg, end, height / INCH)
                    seen += 1
        for hole in part.holes:
            x, leg = float(hole.x), hole.leg
            radius = float(hole.diameter) / 2
            if not tile.low + radius < x < tile.high - radius or part.tapers or part.copes:
                continue
            width = float(part.section.leg(leg)) * INCH
            y = (bottom + width - float(hole.y) * INCH) if leg == "A" else (top - width + float(hole.y) * INCH)
            centre = x0 + (x - tile.low) * INCH
            arms = raster.row(raster.level(y + radius * INCH * 0.5), centre - 0.6, centre + 0.6)
            assert (arms[0][0] + arms[0][1]) / 2 == pytest.approx(centre, abs=NEAR), hole
            seen += 1
    return seen


def test_random_fold_sheets_measure_right():
    assert sum(check_fold_sheet(random_part(seed), (A4, LETTER)[seed % 2]) for seed in (2, 3, 12, 37, 42)) > 40


def test_a_line_a_quarter_of_a_millimetre_off_would_be_found():
    with pytest.raises(AssertionError):
        check_fold_sheet(PARTS["vertex"], A4, off=0.25)
    assert check_fold_sheet(PARTS["vertex"], A4) >= 3


def test_hole_centres_measure_right():
    holes = [Hole("A", "3/4", "1/2", "1/8"), Hole("B", "2 1/2", "5/8", "3/16"), Hole("A", "3 1/4", "11/16", "1/4")]
    part = Part("H1", "Trial", PARTS["vertex"].section, "6061-T6", 4, holes=holes)
    assert check_fold_sheet(part, A4) == 3


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(50))
def test_more_random_fold_sheets_measure_right(seed):
    check_fold_sheet(random_part(seed), (A4, LETTER)[seed % 2])


# --- check prints ---------------------------------------------------------------------------------------
CLEAT = Part("A1L", "Floor cleat", PARTS["flat"].section, "6061-T6", "2 1/8", tapers=[Taper("A", 1, "3/8", run="1 1/4")],
             holes=[Hole("B", "7/16", "7/16", "1/8")])  # fmt: skip


def test_the_check_print_has_its_limits_where_the_tolerances_put_them():
    """Grade m of ISO 2768-1, table 1: 2 1/8 in. is 54.0 mm, +-0.3; 1 1/4 is 31.8, +-0.3; 3/8 is 9.5, +-0.2; 7/16 is 11.1, +-0.2."""
    (page,) = check_pages(CLEAT, A4, limits=Limits("iso-m"))
    raster = Raster(page, A4)
    x0 = A4.left + SIDE
    name = next(item for item in page.items if isinstance(item, Label) and item.text == "heel")
    heel = name.y + 4.5  # the legs' heels lie 9 mm apart, the word between them
    # end 2: the white between the two lines
    y = raster.level(heel + 5.0)
    runs = raster.row(y, x0 + 50, x0 + 58)
    assert [run[1] - run[0] for run in runs] == pytest.approx([FINE, FINE], abs=0.06)
    assert (runs[0][1], runs[1][0]) == (pytest.approx(x0 + 53.975 - 0.3, abs=NEAR / 2), pytest.approx(x0 + 53.975 + 0.3, abs=NEAR / 2))
    # the taper: at x = 10 mm the largest is (9.525 + 0.2) high at the end and ends at 31.75 - 0.3 along the toe at 19.05
    for far in (6.0, 14.0, 22.0):
        x = (int((x0 + far) * raster.across) + 0.5) / raster.across
        far = x - x0
        wanted = [9.525 + off + (19.05 - 9.525 - off) * far / (31.75 - run) for off, run in ((0.2, 0.3), (-0.2, -0.3))]
        runs = raster.column(x, heel + 20.4, heel + 1)
        assert runs[0][1] == pytest.approx(heel + wanted[0], abs=NEAR), far  # the outer ink's lower edge
        assert runs[1][0] == pytest.approx(heel + wanted[1], abs=NEAR), far
    # the hole in leg B: 11.11 from end 1 and the heel; rings 0.2 either side of 1/8 in.
    y = raster.level(heel - 9.0 - 11.1125)
    runs = raster.row(y, x0 + 11.1125 + 1.0, x0 + 11.1125 + 3.0)
    assert (runs[0][1], runs[1][0]) == (pytest.approx(x0 + 11.1125 + 1.3875, abs=NEAR / 2), pytest.approx(x0 + 11.1125 + 1.7875, abs=NEAR / 2))


def test_a_part_lies_on_its_check_print_with_its_outer_face_down():
    """Seen from above, a leg that lies on its outer face shows its inner one: leg A's toe is up, leg B's down, end 1 at the left."""
    view = View(CLEAT, Limits(), 0.0, 2.125, 1, 0.0)
    assert view.at("A", 0, 0.75)[1] > view.at("A", 0, 0)[1] > view.at("B", 0, 0)[1] > view.at("B", 0, 0.75)[1]
    assert view.at("A", 2, 0)[0] > view.at("A", 0, 0)[0]
    # the inside fold sheet shows the same faces, and lies the same way
    strip = FoldStrip(CLEAT, Shop(), True, tiles(CLEAT, 150)[0], 0.0)
    assert strip.out("A") == 1 and strip.out("B") == -1


@pytest.mark.parametrize("name", PARTS)
def test_check_prints_of_every_shape_are_clean(name):
    for on in (A4, LETTER):
        assert_clean(check_pages(PARTS[name], on), on)


def test_check_prints_of_random_parts_are_clean():
    for seed in range(20):
        part = random_part(seed)
        assert_clean(check_pages(part, (A4, LETTER)[seed % 2], limits=Limits.named("1/32")), (A4, LETTER)[seed % 2])


@pytest.mark.slow
@pytest.mark.parametrize("block", range(25))
def test_check_prints_of_500_random_parts_are_clean(block):
    for seed in range(20 * block, 20 * block + 20):
        for on in (A4, LETTER):
            assert_clean(check_pages(random_part(seed), on), on)


def assert_clean(pages: list[Page], on) -> None:
    for page in pages:
        sheet = page.sheet(on, "Trial", "2024-05-01", 1, 1)
        assert [[item.text for item in pair] for pair in overlaps(sheet, "paper")] == [], page.title
        assert [label.text for label, _ in struck(sheet, "paper")] == [], page.title
        assert [label.text for label in clipped(sheet, "paper", 5.0)] == [], page.title


# --- what the printer does ------------------------------------------------------------------------------
def bar_lengths(page: Page, on, scale: PrintScale) -> tuple[float, float, float]:
    """The three bars of a page as a printer puts them that stretches by ``scale`` [mm]."""
    raster = Raster(page, on)
    wide, high = raster.image.size
    raster.image = raster.image.resize((round(wide * scale.across), round(high * scale.up)), Image.Resampling.BICUBIC)
    raster.high = raster.image.height / raster.down
    lengths = []
    low = {"100 mm": 0.0, "4 in.": 7.0}
    for text in low:
        label = next(item for item in page.items if isinstance(item, Label) and f"bar is {text} from" in item.text)
        # the bar's middle lies 1.9 mm below its words
        y = (label.y - 1.9 / scale.up) * scale.up + raster.high - on.height * scale.up
        runs = [run for step in (-0.9, 0.9) for run in raster.row(y + step, 2.0, 125.0)]
        lengths.append(max(b for _, b in runs) - min(a for a, _ in runs))
    label = next(item for item in page.items if isinstance(item, Label) and item.text == "this bar is 100 mm too")
    x = (label.x + 2.8 / scale.across) * scale.across
    y = label.y * scale.up + raster.high - on.height * scale.up
    runs = raster.column(x, y - 51.2, y + 51.2)
    lengths.append(max(b for _, b in runs) - min(a for a, _ in runs))
    return tuple(lengths)


@pytest.mark.parametrize("text", ["99.2 mm", "3.97 in", "99.2 mm, 100.5 mm", "101.4mm,98.7mm"])
def test_a_printer_that_is_off_prints_right_once_it_was_measured(text):
    scale = measured(text)
    for page in (template_pages(PARTS["vertex"], Shop(), A4, scale=scale)[0], check_pages(CLEAT, A4, scale=scale)[0]):
        assert bar_lengths(page, A4, scale) == pytest.approx((100.0, 101.6, 100.0), abs=0.15)
        assert "on any other this print is wrong" in " ".join(getattr(item, "text", "") for item in page.items)
        assert_clean([page], A4)


def test_a_print_for_another_printer_would_be_found():
    scale = measured("99.2 mm")
    page = template_pages(PARTS["vertex"], Shop(), A4, scale=scale)[0]
    lengths = bar_lengths(page, A4, PrintScale())
    assert lengths == pytest.approx((100 / 0.992, 101.6 / 0.992, 100 / 0.992), abs=0.15)
    plain = template_pages(PARTS["vertex"], Shop(), A4)[0]
    assert bar_lengths(plain, A4, scale)[0] == pytest.approx(99.2, abs=0.15)


def test_a_hole_that_is_stretched_is_drawn_as_the_ring_that_prints_round():
    scale = measured("99 mm, 101 mm")
    page = check_pages(CLEAT, A4, scale=scale)[0]
    assert not any(isinstance(item, Circle) and item.radius > 1 for item in page.items)
    fold = template_pages(CLEAT, Shop(), A4, scale=scale)[0]
    rings = [item for item in fold.items if isinstance(item, Polyline) and item.closed and len(item.points) == 72]
    for ring in rings:
        xs, ys = zip(*ring.points, strict=True)
        assert (max(xs) - min(xs)) * 0.99 == pytest.approx((max(ys) - min(ys)) * 1.01, rel=1e-6)
    assert rings


@pytest.mark.parametrize("text, words", [("94 mm", "actual size"), ("100", "is not near 4 in.: if it is the 100 mm bar, write 100 mm"), ("80", "actual size"), ("", "no measured bar"), ("1 mm, 2 mm, 3 mm", "no measured bar"), ("wide", "measured bar")])
def test_a_bar_that_cannot_be_is_refused(text, words):
    with pytest.raises(BenchError, match=words):
        measured(text)


# --- in the pack ------------------------------------------------------------------------------------------
@pytest.fixture(scope="module")
def pack(project):
    folder = project / "notebooks" / "demo"
    job = read_job(folder / "job.toml")
    some = replace(job, parts=tuple(part for part in job.parts if part.id[:2] in ("A1", "A3", "C1", "D1")))
    wanted = ("templates", "checks")
    return make_pack(some, read_rack(folder / "rack.csv"), A4, date=datetime.date(2024, 5, 1), sheets=wanted, scale=measured("99.8 mm"))


def test_every_sheet_of_a_measured_printer_says_so_and_has_its_bars(pack):
    document = pypdfium2.PdfDocument(io.BytesIO(pack.pdf()))
    texts = [document[i].get_textpage().get_text_range() for i in range(len(document))]
    assert len(texts) > 8
    for text in texts:
        flowing = " ".join(text.split())
        assert "prints 100 mm as 99.8 mm" in flowing and "this bar is 100 mm from end to end" in flowing and "this bar is 4 in." in flowing


def test_the_printer_is_asked_not_to_scale_and_the_pages_are_named(pack):
    reader = PdfReader(io.BytesIO(pack.pdf()))
    assert reader.trailer["/Root"]["/ViewerPreferences"]["/PrintScaling"] == "/None"
    names = [mark.title for mark in reader.outline]
    for part in pack.job.parts:
        assert (f"Fold sheet {part.id}" in names) == marked(part)
        assert f"Check print {part.id}" in names


def test_a_check_print_shows_both_ends_of_a_long_part_and_says_what_it_leaves_out():
    part = Part(
        "L1", "Longeron", PARTS["flat"].section, "6061-T6", "91 3/4", tapers=[Taper("A", 2, "3/8", run=2)], holes=[Hole("A", 40, "7/16", "1/8")],
        copes=[Cope("B", 1, 1, "3/8", "1/8")], corners=[Corner("A", 1, "1/4")],
    )  # fmt: skip
    texts = " ".join(item.text for page in check_pages(part, LETTER, limits=Limits("iso-m")) for item in page.items if isinstance(item, Label))
    assert "end 1; 91 3/4 (91.750) ±0.079 long: measure it" in texts and "end 2; 91 3/4" in texts
    assert "Not shown, measured from end 1: leg A 40." in texts
    assert Limits("iso-m").length(part.length) == Fraction(10, 127)  # 2 mm for 2000 to 4000 mm, table 1
