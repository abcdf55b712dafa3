"""Kits in millimetres, mixed kits, and a part in inches among metric ones: every page says its unit, and its numbers read back."""

from __future__ import annotations

import datetime
import re
import sys
from dataclasses import replace
from fractions import Fraction as F
from functools import cache
from pathlib import Path

import pytest
from printed_pages import PARTS, SMALL

from anglelib.drawing.checks import clipped, overlaps, struck
from anglelib.drawing.sheet import Label
from anglelib.geometry.mark_words import saw_written, written
from anglelib.geometry.work import operations
from anglelib.inspection.wanted import wanted_readings
from anglelib.job import Job, Shop
from anglelib.lengths import MM, read, unit_in_head, writing
from anglelib.paper.card_check import boxes
from anglelib.paper.card_marks import mark_rows
from anglelib.paper.cards import card_pages
from anglelib.paper.pack import Pack, make_pack
from anglelib.paper.page import A4, LETTER, Page
from anglelib.paper.template import template_pages
from anglelib.stock.rack import Rack, Stick

sys.path.append(str(Path(__file__).resolve().parents[1] / "drawing"))
from random_parts import part_in_mm  # noqa: E402

DAY = datetime.date(2024, 5, 1)
METRIC = [replace(part, quantity=n) for part, n in zip((p for p in PARTS.values() if p.unit == "mm"), (2, 1, 2, 1, 4, 9), strict=True)]
INCH = [replace(PARTS["flat"], quantity=3), PARTS["both"], PARTS["angle"]]
METRIC_SHOP = Shop(kerf="1.6 mm", allowance="1 mm", grain="25 mm", usable_minimum="75 mm", hand_minimum="150 mm")
KITS = {
    "metric": Job("Metric kit", METRIC_SHOP, METRIC, unit="mm"),
    "metric, inch shop": Job("Metric kit", Shop(), METRIC, unit="mm"),
    "mixed, in inches": Job("Mixed kit", Shop(), [*METRIC, *INCH]),
    "mixed, in mm": Job("Mixed kit", METRIC_SHOP, [*METRIC, *INCH], unit="mm"),
}


def rack(job: Job) -> Rack:
    """A long and a shorter stick of every section, listed as they are sold; one of them too short for all."""
    sections = dict.fromkeys((part.section, part.alloy) for part in job.parts)
    lengths = [("3000 mm", "1200 mm") if section.size.endswith("mm") else ("96", "24") for section, _ in sections]
    return Rack([Stick(f"S-{n}{m}", s, a, long, "6 mm", "1/4") for n, ((s, a), both) in enumerate(zip(sections, lengths, strict=True)) for m, long in enumerate(both)])


@cache
def pack(kit: str, on=LETTER) -> Pack:
    return make_pack(KITS[kit], rack(KITS[kit]), on, date=DAY)


def unit_of_plan(kit: str, title: str) -> str:
    """The unit of the page "Plan for 30 x 30 x 3 mm, 6061-T6": that of its parts, where they share one."""
    job = KITS[kit]
    return next(job.unit_for(part.section, part.alloy) for part in job.parts if title.startswith(f"Plan for {part.section.size}, {part.alloy}"))


def lines(sheet) -> list[str]:
    return [item.text for item in sheet.items if isinstance(item, Label)]


def of_page(page: Page, on=LETTER) -> list[str]:
    return lines(page.sheet(on, "Trial", "2024-05-01", 1, 1))


# --- what a page in millimetres may not say -------------------------------------------------------------------------
SOLD = re.compile(r"(?:\d+ )?[\d/]+(?: x (?:\d+ )?[\d/]+)+(?: and [\d/]+)? in\b")
"""A section that is sold in inches."""
FRACTION = re.compile(r"(?<![\d./])(?:\d+ )?\d+/\d+(?![\d/])(?P<unit> in\b| ounces)?")
INCHES = re.compile(r"(?<![\d.])\d+\.\d{3}(?!\d)(?P<unit> in\b| lb| \(| oz)?")
TWICE = re.compile(r"(?P<mm>\d+(?:\.\d+)?)(?: mm)? \((?P<inch>\d+\.\d+) in\)")
TWICE_INCH = re.compile(r"(?P<inch>(?:\d+ )?\d+/\d+|\d+) in \((?P<mm>\d+(?:\.\d+)?)(?: mm)?\)")


def wrong(texts: list[str]) -> list[str]:
    """What a page in millimetres says that is, or may be, in inches without saying so, or that is not the same in both units."""
    found = []
    for text in texts:
        if "CFR" in text or re.search("Limits:? ±1/64 to 6 in., ", text):
            continue  # sources; limits that a job gives in inches
        text = SOLD.sub("", text)
        found += [text for match in FRACTION.finditer(text) if not match["unit"] and ":" not in text[max(0, match.start() - 2) : match.start()]]
        # a thousandth is an inch's, with its unit; a scale says kilograms and pounds, a stack of gauge blocks is built to it
        found += [text for match in INCHES.finditer(text) if not match["unit"] and not text.startswith("weight") and not text.strip() == match[0]]
        for match in (*TWICE.finditer(text), *TWICE_INCH.finditer(text)):
            inch = sum((F(piece) for piece in match["inch"].split()), F(0))
            if abs(F(match["mm"]) * MM - inch) > F(1, 2000) + (MM / 20 if "." in match["mm"] else F(0)):
                found.append(text)
    return found


def test_the_guard_sees_inches():
    assert wrong(["85 mm (3.346 in)", "1/16 in (1.59 mm)", "30 (1.181 in)", "Break edges 1/64 in, deburr", "0.100 lb"]) == []
    for text in ("3 11/32 (3.346)", "the run is 1/4", "85 mm (3.366 in)", "1/8 in (3.38 mm)", "it is 3.346 long", "take 1 1/2 off"):
        assert wrong([text]) == [text] or len(wrong([text])) > 1, text


@pytest.mark.parametrize("kit", KITS)
def test_every_page_of_a_metric_job_and_every_sheet_of_a_metric_part_says_its_unit(kit):
    job = KITS[kit]
    others = [part.name for part in job.parts if part.unit == "in"]
    looked = 0
    for sheet in pack(kit).sheets:
        own = next((part for part in job.parts if sheet.title.startswith((f"Card of {part.name}", f"Fold sheet of {part.name}", f"Check print of {part.name}", part.name))), None)
        unit = own.unit if own else unit_of_plan(kit, sheet.title) if sheet.title.startswith("Plan for") else job.unit
        if unit != "mm":
            continue
        texts = [text for text in lines(sheet) if own or not any(name in text for name in others)]
        if kit == "mixed, in mm" and own is None:
            # a part's own lengths stand there in inches and say so in words
            texts = [re.sub(r"(?:\d+ )?\d+/\d+ \(\d+\.\d+\) in\.|(?:\d+ )?\d+/\d+ in\.", "", text) for text in texts]
        bad = [text for text in wrong(texts) if not (own is None and any(part.id in text for part in INCH))]
        assert bad == [], (sheet.title, bad)
        assert sheet.title.startswith("Safety") or any(re.search(r"\bmm\b|millimetre", text) for text in lines(sheet)), sheet.title
        looked += 1
    assert looked > 12


@pytest.mark.parametrize("seed", range(8))
def test_random_parts_say_their_unit(seed):
    part = part_in_mm(seed)
    for shop in (METRIC_SHOP, Shop()):
        for page in (*card_pages(part, shop, LETTER), *template_pages(part, shop, LETTER)):
            assert wrong(of_page(page)) == [], page.title


# --- nothing hides another --------------------------------------------------------------------------------------------
def faults(sheet) -> list:
    return [*overlaps(sheet), *struck(sheet), *clipped(sheet)]


@pytest.mark.parametrize("kit", KITS)
@pytest.mark.parametrize("on", [LETTER, pytest.param(A4, marks=pytest.mark.slow)], ids=lambda on: on.name)
def test_nothing_hides_another(kit, on):
    for sheet in pack(kit, on).sheets:
        assert faults(sheet) == [], sheet.title


# --- an inch part among metric sheets -------------------------------------------------------------------------------------
def test_a_part_in_inches_in_a_metric_job_says_so_on_each_of_its_sheets():
    for kit, said in (("mixed, in mm", True), ("mixed, in inches", False)):
        sheets = [sheet for sheet in pack(kit).sheets if any(part.name in sheet.title for part in INCH)]
        assert len(sheets) > 6
        for sheet in sheets:
            assert ("all lengths in inches" in " ".join(lines(sheet))) is said, (kit, sheet.title)


def test_a_part_in_inches_is_carded_as_ever():
    """But for that note, which may take a line more than there is on one sheet, a metric job changes nothing on an inch part's sheets."""
    for part in INCH[:2]:
        plain = [of_page(page) for page in (*card_pages(part, Shop(), LETTER), *template_pages(part, Shop(), LETTER))]
        with writing("mm"), unit_in_head():
            again = [of_page(page) for page in (*card_pages(part, Shop(), LETTER), *template_pages(part, Shop(), LETTER))]
        words = [" ".join(page) for page in again]
        assert [re.sub(r"[;,]? ?all lengths in inches", "", page) for page in words] == [" ".join(page) for page in plain]


# --- numbers read back -------------------------------------------------------------------------------------------------
def both(cell: str) -> list[F]:
    """A cell's number and the one in its brackets, as a person reads them in millimetres."""
    cell = re.sub(r", [\d.]+ high$", "", cell)  # a cope's centre has its height too
    return [read(re.sub(r" (?:full|bare)$", "", piece), unit="mm", negative=True) for piece in re.fullmatch(r"([^(]*?)(?: \((.*)\))?", cell).groups() if piece]


@pytest.mark.parametrize("part", METRIC, ids=lambda part: part.id)
@pytest.mark.parametrize("shop", [METRIC_SHOP, Shop()], ids=["metric shop", "inch shop"])
def test_every_mark_on_a_card_reads_back(part, shop):
    """On the rule within half its graduation, in brackets within the hundredth that is printed; "full" and "bare" the right way."""
    limits = KITS["metric"].limits
    said = " | ".join(text for page in card_pages(part, shop, LETTER, limits=limits) for text in of_page(page))
    rows = mark_rows(operations(part, shop))
    for row in rows:
        mark = row.mark
        for text, value in ((written, mark.wanted), (saw_written, mark.saw)):
            if value is None:
                continue
            with writing("mm"), unit_in_head():
                cell = text(mark, limits)
            assert cell in said, (part.id, cell)
            struck_at, *close = both(cell)
            assert abs(struck_at - F(value)) <= MM / 4 + F(1, 10**9), cell
            assert all(abs(number - F(value)) <= MM / 200 + F(1, 10**9) for number in close), cell
            assert ("full" in cell) <= (F(value) > struck_at) and ("bare" in cell) <= (F(value) < struck_at), cell
    assert part.id == "mm-short" or len(rows) > 1


@pytest.mark.parametrize("part", METRIC, ids=lambda part: part.id)
def test_every_reading_on_a_card_reads_back(part):
    """What a caliper should show and its limits, within half a hundredth of a millimetre, and nothing in inches."""
    limits = KITS["metric"].limits
    said = " | ".join(text for page in card_pages(part, METRIC_SHOP, LETTER, limits=limits) for text in of_page(page))
    with writing("mm"), unit_in_head():
        asked = boxes(part, limits)
    for (_, figure, between), wanted in zip(asked, wanted_readings(part, limits), strict=True):
        if wanted.id == "weight":
            continue
        for text, value in zip((figure, *between), (wanted.value, wanted.low, wanted.high), strict=True):
            assert text in said and abs(float(read(text, unit="mm")) - value) <= float(MM) / 200 + 1e-9, (wanted.id, text, value)


@pytest.mark.parametrize("kit", ["metric", "mixed, in mm"])
def test_every_line_of_a_plan_in_millimetres_reads_back(kit):
    """The large number of each row, from the datum end, and what goes back on the rack."""
    made = pack(kit).plan
    in_mm = [sheet for sheet in pack(kit).sheets if sheet.title.startswith("Plan for") and unit_of_plan(kit, sheet.title) == "mm"]
    said = [text for sheet in in_mm for text in lines(sheet)]
    numbers = [both(text) for text in said if TWICE.fullmatch(text)]
    read_back = sorted(mm for mm, _ in numbers)
    sticks = [stick for stick in made.sticks if KITS[kit].unit_for(stick.stick.section, stick.stick.alloy) == "mm"]
    planned = sorted(cut.line for stick in sticks for cut in stick.cuts if cut.line)
    assert len(read_back) == len(planned) > 15
    for (mm, line) in zip(read_back, planned, strict=True):
        assert abs(mm - line) <= MM / 20 + F(1, 10**9)
    rest = [re.search(r"Back on the rack: (\S+), ([\d.]+) mm long", text) for text in said]
    found = {match[1]: read(match[2], unit="mm") for match in rest if match}
    for stick in sticks:
        for remnant in stick.remnants:
            assert 0 <= remnant.stick.length - found[remnant.stick.id] < MM / 10  # never more than there is


@pytest.mark.parametrize("part", METRIC, ids=lambda part: part.id)
def test_a_fold_sheet_s_figures_are_the_part_s_own_numbers(part):
    """Length, runs and widths left stand on it as the plans give them (holes are drawn, not dimensioned); the unit is said once."""
    pages = [page for page in template_pages(part, METRIC_SHOP, LETTER) if "Fold sheet" in page.title]
    said = [text for page in pages for text in of_page(page)]
    numbers = {text.removesuffix(" mm") for text in said} | {word for text in said for word in re.findall(r"\d+(?:\.\d+)?", text)}
    asked = [part.length, *(t.run for t in part.tapers if t.run), *(t.width_left for t in part.tapers if t.width_left)]
    read_back = {F(number) * MM for number in numbers if re.fullmatch(r"\d+(?:\.\d+)?", number)}
    assert set(asked) <= read_back, part.id
    assert pages and all(any("millimetres" in text for text in of_page(page)) for page in pages)


# --- titles, tags, limits -------------------------------------------------------------------------------------------------
def test_titles_and_labels_follow_the_unit():
    words, seen = {"mm": "millimetres", "in": "inches"}, set()
    for kit in ("metric", "mixed, in inches"):
        for sheet in pack(kit).sheets:
            if sheet.title.startswith("Plan for"):
                unit, text = unit_of_plan(kit, sheet.title), " ".join(lines(sheet))
                (other,) = words.keys() - {unit}
                assert f"heights not to scale; {words[unit]}, from the datum end" in text and words[other] not in text, sheet.title
                seen.add((kit, unit))
    assert seen == {("metric", "mm"), ("mixed, in inches", "mm"), ("mixed, in inches", "in")}
    cards = [" ".join(lines(sheet)) for sheet in pack("metric").sheets if sheet.title.startswith("Card of")]
    assert all("ISO 2768-1 m" in text for text in cards if "Limits" in text) and sum("Limits" in text for text in cards) >= len(METRIC)
    tags = " ".join(text for sheet in pack("metric").sheets if sheet.title.startswith("Tags") for text in lines(sheet))
    assert "30 x 30 x 3 mm" in tags and "40 x 25 x 4 mm" in tags


@pytest.mark.parametrize("kit", KITS)
def test_no_tag_is_cut_off(kit):
    """Where a blank comes from, how long it is and which end is squared: all of it is read in the shop."""
    said = [text for sheet in pack(kit).sheets if sheet.title.startswith("Tags") for text in lines(sheet)]
    assert sum("squared" in text for text in said) == KITS[kit].pieces and not [text for text in said if text.endswith("...")]


def test_a_section_keeps_the_unit_in_which_it_is_sold():
    assert SMALL.size == "3/4 x 3/4 x 1/8" and METRIC[0].section.size == "30 x 30 x 3 mm"
    with writing("mm"), unit_in_head():
        assert (SMALL.size, METRIC[0].section.size) == ("3/4 x 3/4 x 1/8 in", "30 x 30 x 3 mm")
