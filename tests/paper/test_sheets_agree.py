"""One kit with every feature, read from its files: plan, card, tag, fold sheet, check print, cover, form, lesson 10 and table say the same.

Everything is read back from the words of the printed PDF and from the files beside it (``read_back.py``), and laid side by
side by ``agree.py``; the sheets are spoiled one at a time to see that it is found.
"""

from __future__ import annotations

import re
import subprocess
import sys
from dataclasses import replace
from functools import cache

import pytest
from agree import Said, disagreements
from read_back import flat, of_checks, of_tags, whole_card
from whole_kit import RACK, job_text, whole_job, whole_rack

from anglelib.drawing.checks import clipped, overlaps, struck
from anglelib.inspection.wanted import wanted_readings
from anglelib.job import Job
from anglelib.lessons import own_readings
from anglelib.lessons.own_readings import OwnReadings, PartOfJob
from anglelib.paper import card_check, card_marks, card_steps, check_print, coordinates, cover, fold_figures, pack, tags
from anglelib.paper import cards as card_sheets
from anglelib.paper.coordinates import coordinates_csv
from anglelib.paper.page import A4, LETTER, Page, Paper
from anglelib.tolerances import Limits
from anglelib.workshop import readings_file

IDS = tuple(part.id for part in whole_job().parts)


# --- what is laid side by side -------------------------------------------------------------------------------------
def with_parts(job: Job, ids: tuple[str, ...]) -> Job:
    """The job with some of its parts."""
    kept = [part if part.mirror_of in ids else replace(part, mirror_of="") for part in job.parts if part.id in ids]
    return replace(job, parts=tuple(kept))


def entries_of(job: Job) -> dict[str, list[tuple[str, str]]]:
    """What lesson 10 asks for of each part: the names of its entries and what stands in them."""
    box, found = OwnReadings(PartOfJob("A1L")), {}
    box.source.job = job
    for part in job.parts:
        box.source.value = part
        found[part.id] = [(entry.description, entry.placeholder) for entry in box.entries.values()]
    return found


def said_of(made: pack.Pack) -> Said:
    """All that is printed and written of a job."""
    job = made.job
    tables = {part.id: coordinates_csv(part, job.shop, job.limits) for part in job.parts}
    return Said.of(job, made.pdf(), readings_file.form(job, ["K01"]), tables, entries_of(job))


SHEETS = ("cover", "plan", "tags", "cards", "templates", "checks")


@cache
def packed(unit: str, on: Paper, limits: str) -> pack.Pack:
    """The whole kit, from its files, every sheet that there is."""
    return pack.make_pack(whole_job(unit, limits), whole_rack(), on)


@cache
def whole(unit: str, on: Paper, limits: str) -> Said:
    """What it says."""
    return said_of(packed(unit, on, limits))


QUICK = [("in", LETTER, ""), ("mm", A4, "")]
SLOW = [("in", A4, ""), ("mm", LETTER, ""), ("in", LETTER, "1/32"), ("mm", A4, "0.5 mm"), ("in", A4, "ISO 2768-1 m"), ("mm", LETTER, "inch"), ("in", LETTER, "ISO 2768-1 f")]
KITS = [*QUICK, *(pytest.param(*kit, marks=pytest.mark.slow) for kit in SLOW)]


@pytest.mark.parametrize(("unit", "on", "limits"), KITS)
def test_every_sheet_says_the_same(unit, on, limits):
    said = whole(unit, on, limits)
    assert disagreements(said) == []
    assert tuple(said.pack.cards) == tuple(said.pack.checks) == tuple(said.pack.folds) == IDS and len(said.pack.plans) >= 4
    assert sum(map(len, of_tags(said.pack.tags).values())) == whole_job().pieces
    in_unit = {id_: whole_card(page).unit for id_, page in said.pack.cards.items()}
    assert in_unit == {id_: "mm" if id_[0] == "M" else "in" if id_ == "I1" else unit for id_ in IDS}


def test_from_the_files_by_the_command_line(tmp_path):
    """Other limits than the job's: the pack, the form and the job that names them agree, and their version is another one."""
    (tmp_path / "job.toml").write_text(job_text("in"), encoding="utf-8")
    (tmp_path / "rack.csv").write_text(RACK, encoding="utf-8")

    def run(*words: str) -> str:
        done = subprocess.run([sys.executable, "-m", "anglelib", *words], cwd=tmp_path, capture_output=True, text=True, check=False)
        assert done.returncode == 0, done.stderr
        return done.stdout

    assert "19 of 19 pieces are planned" in run("pack", "job.toml", "rack.csv", "--out", "out", "--limits", "1/32", "--sheets", "cover,tags,cards,checks")
    run("check", "--form", "form.csv", "--job", "job.toml", "--codes", "K01", "--limits", "1/32")
    job = whole_job("in", "1/32")
    form = (tmp_path / "form.csv").read_text(encoding="utf-8")
    said = Said.of(job, (tmp_path / "out" / "shop-pack.pdf").read_bytes(), form, {}, entries_of(job))
    assert disagreements(said) == []
    assert whole_card(said.pack.cards["R60"]).limits == "±1/32, this shop's own"
    assert _version(said) != _version(whole(*QUICK[0]))


def _version(said: Said) -> str:
    return re.search(r"version (\S+)", said.pack.cover)[1]


def test_what_the_sheets_say_of_some_parts():
    """By hand: 60 in. at +-1/16, 3/4 at +-1/64; 85 mm at +-0.3 (ISO 2768-1, table 1, 30 to 120 mm); the half-round clip's radius at +-1/32, as far as it fits."""
    inch, metric = (whole(*kit).pack for kit in QUICK)

    def reading(found, id_, name):
        return next(row[1:] for row in whole_card(found.cards[id_]).readings if row[0].startswith(name))

    assert of_checks(inch.checks["R60"]).off == 0.063 and of_checks(inch.checks["K34"]).off == 0.016
    assert reading(inch, "K34", "length along the heel") == ("0.750", "0.734", "0.766")
    assert reading(inch, "C1", "corner radius A") == ("0.500", "0.469", "0.531")
    assert reading(metric, "M2", "toe B") == ("85.00", "84.70", "85.30")
    assert reading(metric, "K34", "length along the heel") == ("19.05", "18.85", "19.25")
    assert whole_card(inch.cards["T4"]).datums == ("witness line",) and whole_card(inch.cards["I1"]).datums == ("end 1",)
    assert [tag.end for tag in of_tags(inch.tags)["U1R"]] == [2, 2] and of_tags(metric.tags)["I1"][0].length == (22.625, "in")


# --- every page ----------------------------------------------------------------------------------------------------
UNITS = re.compile(r"\b(?:mm|in\.?) (?:mm\b|in\.)|\bmm in\b(?! 30 F)|\bin\.\.")
BARE = re.compile(r"(?<![\w/.])\d+/\d+(?![\w/]| in\b| x |\d)")
"""A shop fraction that says no unit: on a sheet in millimetres it could be anything."""


@pytest.mark.parametrize(("unit", "on", "limits"), KITS)
def test_units_are_said_once_and_never_left_out(unit, on, limits):
    said = whole(unit, on, limits).pack
    for number, page in enumerate(said.pages, 1):
        assert not UNITS.search(flat(page)), f"page {number}: {flat(page)}"
        assert not re.search(r"\d[\d.]*\.\.\.|\w\.\.\.", flat(page)), f"page {number} cuts something off: {flat(page)}"
    if unit == "mm" and "inch" not in limits:
        in_mm = [page for id_ in IDS if id_ != "I1" for page in (said.cards[id_], *said.folds[id_], *said.checks[id_])]
        for page in in_mm:
            text = re.sub(r"sheet \d+ of \d+|page \d+ of \d+|29 CFR[\d.() /]*", "", flat(page))
            text = re.sub(r"\d[\d /]* x \d[\d /]* x \d[\d /]* in", "", text)
            assert not BARE.search(text), (BARE.search(text), text)


@pytest.mark.parametrize(("unit", "on", "limits"), KITS)
def test_nothing_hides_another_on_any_page(unit, on, limits):
    for sheet in packed(unit, on, limits).sheets:
        assert not overlaps(sheet, "paper") and not struck(sheet, "paper") and not clipped(sheet, "paper", 5.0), sheet.title


# --- planted -------------------------------------------------------------------------------------------------------
OTHER = Limits("iso-f")


def _of_other_hand(part, on, **more):
    return check_print.check_pages(replace(part, hand={"left": "right", "right": "left"}.get(part.hand, part.hand), mirror_of=""), on, **more)


def _another_version(self, on, job, date, number, total, version="", plan=""):
    return SHEET(self, on, job, date, number, total, version if number % 2 else "0000-0000", plan)


SHEET = Page.sheet
PLANTED = {
    "a tag with the other end": (("T4",), tags, "first_end", lambda part: 1, "the tag says that end 1 is squared"),
    "a tag in the job's unit": (("mm", "I1", "U1L", "U1R"), tags, "in_unit", lambda value, unit, how=tags.about: how(value), "I1: the tag's length"),
    "a card with other limits": (("C1",), card_check, "wanted_readings", lambda part, limits: wanted_readings(part, OTHER), "C1: the card reads"),
    "a card that names other limits": (("C1",), card_sheets, "check_block", lambda part, limits, width: card_check.check_block(part, OTHER, width), "C1: limits"),
    "a second datum": (("T4",), card_steps, "fixes_datum", lambda part, step: step.end == 1, "('end 1', 'witness line') as its datum"),
    "a form with other limits": (("M2",), readings_file, "wanted_readings", lambda part, limits: wanted_readings(part, OTHER), "M2: the card reads"),
    "a form in another unit": (("M2",), readings_file, "writing", lambda unit: WRITING("in"), "M2: the form is not in mm"),
    "an entry with other limits": (("F1",), own_readings, "wanted_readings", lambda part, limits: wanted_readings(part, OTHER), "lesson 10"),
    "a mark that is full on one sheet": (("M1L",), fold_figures, "marked_both", lambda value, off: MARKED(value, off / 4), "inside at end 1 the fold sheet has"),
    "a fold sheet without widths": (("F1",), fold_figures.WrittenFold, "_across", lambda self, end: [], "outside at end 1 the fold sheet has"),
    "a run off the saw line": (("I1",), card_marks, "written", lambda mark, limits: card_marks.saw_written(mark, limits), "the table has no run"),
    "a table without the allowance": (("F1",), coordinates, "taper_marks", lambda line, shop: TAPER_MARKS(line, replace(shop, allowance=shop.kerf)), "no saw line"),
    "a check print of the other hand": (("U1L",), pack, "check_pages", _of_other_hand, 'hand "left" on the card, "right" on the check print'),
    "a check print by other limits": (("K34",), pack, "check_pages", lambda part, on, limits, scale: check_print.check_pages(part, on, limits=OTHER, scale=scale), "lets the length be"),
    "a cover by other limits": (("K34",), pack, "cover_pages", lambda job, on, rows, limits, words: cover.cover_pages(job, on, rows, OTHER, words), "the cover has the limits"),
    "a page of another version": (("K34",), Page, "sheet", _another_version, "versions"),
}
WRITING, MARKED, WRITTEN, TAPER_MARKS = readings_file.writing, fold_figures.marked_both, card_marks.written, coordinates.taper_marks


@cache
def some_parts(ids: tuple[str, ...]) -> list[str]:
    """In what the sheets of some parts differ."""
    job = with_parts(whole_job("mm" if "mm" in ids else "in"), ids)
    return disagreements(said_of(pack.make_pack(job, whole_rack(), LETTER, sheets=SHEETS)))


@pytest.mark.parametrize("what", PLANTED)
def test_a_sheet_that_says_something_else_is_found(what, monkeypatch):
    ids, module, name, wrong, found = PLANTED[what]
    assert some_parts(ids) == []
    monkeypatch.setattr(module, name, wrong)
    assert any(found in words for words in some_parts.__wrapped__(ids)), some_parts.__wrapped__(ids)
