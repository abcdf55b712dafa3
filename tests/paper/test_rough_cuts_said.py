"""Rough cuts by hacksaw, read back from a printed pack and from the terminal: the same blanks on plan, card, tag and screen, one line in two numbers."""

import re
from dataclasses import replace
from functools import cache

import pytest
from read_back import flat, labels, length, sorted_pages
from test_plan_says_the_same import JOB, PARTS, RACK

from anglelib.drawing.checks import clipped, overlaps, struck
from anglelib.geometry.work import operations
from anglelib.geometry.work_words import said
from anglelib.job import Job, Shop
from anglelib.lengths import writing
from anglelib.paper.pack import make_pack
from anglelib.paper.page import A4, LETTER
from anglelib.paper.tags import tags
from anglelib.saw import Saw
from anglelib.stock.plan import Plan
from anglelib.stock.planner import plan
from anglelib.stock.record import Record
from anglelib.stock.standing import standing
from anglelib.terminal.words import plan_lines, stick_lines

SAW = Saw("9", table="8", table_front="6", fence="4", hacksaw_allowance="1/8")
KERF, HACKSAW_KERF, SANDED, WANDER = 1 / 16, 1 / 16, 1 / 32, 1 / 8
ROUGH = "rough cut by hacksaw"
FEW = ("P1", "P2", "P5", "Q1L", "Q1R", "U2L", "U2R")


@cache
def job_in(unit: str) -> Job:
    parts = [replace(part, unit=unit) for part in PARTS if part.id in FEW]
    return replace(JOB, shop=Shop(saw=SAW), parts=tuple(parts), unit=unit, limits=None)


@cache
def made(unit: str) -> Plan:
    return plan(job_in(unit), RACK)


def rough_of(found: Plan) -> set[str]:
    return {str(cut.blank) for stick in found.sticks for cut in stick.cuts if cut.rough}


ROW = re.compile(r"(?P<id>[A-Z]\d[LR]?(?: \(\d+ of \d+\))?) (?P<line>[\d /.]+) \([\d.]+(?: in)?\)")
TRIM = re.compile(r"trim [\d /.]+(?: in| mm)?, square 0")


def rows_of(text: str, unit: str):
    """The rows of a page: the blank, its line from the datum end [in], and what is said of it, which a row like the one before it leaves out."""
    marks = sorted((*TRIM.finditer(text), *ROW.finditer(text)), key=lambda mark: mark.start())
    stops = [mark.start() for mark in marks[1:]] + [text.find("Back on the rack") if "Back on the rack" in text else len(text)]
    words = ""
    for mark, stop in zip(marks, stops, strict=True):
        if mark.re is TRIM:
            yield "", 0.0, ""
            continue
        own = text[mark.end() : stop]
        words = own if "card: " in own else words
        yield mark["id"], length(f"{mark['line']} mm" if unit == "mm" else mark["line"].strip())[0], words


def on_plan(pages, unit: str) -> tuple[set[str], int]:
    """The rough cuts of a plan's pages; how many lines agree with their card's, by the printed numbers alone."""
    found, agreed = set(), 0
    for page in pages:
        begin = 0.0
        for name, line, words in rows_of(flat(page), unit):
            if not name:
                begin = 0.0
                continue
            rough = ROUGH in words
            if rough:
                found.add(name)
            card = re.search(r"card: (?P<saw>[\d /.]+?)(?: mm)?(?: bare| full)?(?: mm)? from (?:the )?(?:end \d|witness)", words)
            takes = re.search(r"squaring takes (?P<off>[\d/.]+)(?: in| mm)? off", words)
            off = WANDER if takes else SANDED
            if "witness line" not in words:
                saw = length(f"{card['saw']} mm" if unit == "mm" else card["saw"].strip())[0]
                assert line - begin - off == pytest.approx(saw, abs=0.017), (name, line, begin, words)
                agreed += 1
            begin = line + (HACKSAW_KERF if rough else KERF)
    return found, agreed




@cache
def pages(unit: str, on):
    pack = make_pack(job_in(unit), RACK, on, plan=made(unit), sheets=("plan", "tags", "cards"))
    return sorted_pages(labels(pack.pdf()))


@pytest.mark.parametrize("unit, on", [("in", A4), ("mm", LETTER)])
def test_plan_card_tag_and_terminal_name_the_same_rough_cuts(unit, on):
    wanted = rough_of(made(unit))
    assert len(wanted) >= 4 and any("(2 of 2)" in name for name in wanted)
    found = pages(unit, on)
    on_paper, agreed = on_plan(found.plans, unit)
    assert on_paper == wanted and agreed >= len(wanted)
    on_cards = set()
    for page in found.cards.values():
        text = flat(page)
        note = re.search(r"Rough cut by hacksaw: (.+?); saw line", text)
        on_cards |= set(re.findall(r"([A-Z]\d[LR]?(?: \(\d+ of \d+\))?) from S-\d", note[1])) if note else set()
    assert on_cards == wanted
    tagged = set()
    for page in found.tags:
        for one in re.split(r"(?=\b[A-Z]\d[LR]? (?:\d+ of \d+ )?(?:left |right )?[A-Z][a-z])", flat(page)):
            if ROUGH in one:
                number = re.match(r"([A-Z]\d[LR]?)(?: (\d+ of \d+))?", one)
                tagged.add(f"{number[1]} ({number[2]})" if number[2] else number[1])
    assert tagged == wanted
    job, screen = job_in(unit), set()
    for stick in made(unit).sticks:
        with writing(job.unit_for(stick.stick.section, stick.stick.alloy)):
            text = re.sub(r"\s+", " ", " ".join(stick_lines(stick, job.shop, job.limits)))
        names = [(str(cut.blank), cut.rough) for cut in stick.cuts if cut.blank is not None]
        screen |= {name for name, rough in names if rough and name in text}
        assert (ROUGH in text) == any(rough for _, rough in names)
        assert "At the saw a stand carries the stick" in text
    assert screen == wanted


def test_the_screen_says_how_a_rough_cut_is_meant():
    text = " ".join(plan_lines(standing(job_in("in"), Record(RACK)), Record(RACK)))
    assert "its line is struck 1/8 outside the finished one" in text and text.count("its throat is 9") == 1


def test_without_a_saw_no_sheet_says_a_word_of_it():
    job = replace(job_in("in"), shop=Shop())
    pack = make_pack(job, RACK, A4, sheets=("plan", "tags", "cards"))
    text = " ".join(flat(page) for page in labels(pack.pdf())).lower()
    assert not any(word in text for word in (ROUGH, "hacksaw", "throat", "toe first", "carries the stick"))


def test_a_mirrored_pair_is_coped_by_different_saws():
    """U2L and U2R are each other's mirror image: on the stick the body of one lies at the column, of the other on the free side."""
    job = job_in("in")
    steps = {part.id: [said(step, part, job.shop).text for step in operations(part, job.shop) if step.cope is not None and not step.marks] for part in job.parts if part.id in ("U2L", "U2R")}
    rough = {name: any(ROUGH in words for words in found) for name, found in steps.items()}
    assert sorted(rough.values()) == [False, True]
    marks = {name: [mark.saw for step in operations(job.part(name), job.shop) if step.cope is not None for mark in step.marks if mark.saw is not None] for name in rough}
    for name, by_hacksaw in rough.items():
        off = WANDER if by_hacksaw else SANDED
        assert sorted(map(float, marks[name])) == sorted([2 - off, 0.75 + off])


def test_a_tag_gives_the_length_as_it_is_sawn():
    """By hand: 20 and 1/32 and 1/8."""
    job = Job("One", Shop(saw=SAW), [part for part in PARTS if part.id == "P5"])
    found = tags(plan(job, RACK), job)
    assert "blank 20 5/32" in found[0].small and ROUGH in found[0].small


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_nothing_hides_another_where_a_saw_is_known(unit):
    """Every card, plan and tag: the note of rough cuts, a taper that is fed toe first, a stand."""
    for sheet in make_pack(job_in(unit), RACK, A4, plan=made(unit), sheets=("plan", "tags", "cards")).sheets:
        assert not overlaps(sheet, "paper") and not struck(sheet, "paper") and not clipped(sheet, "paper", 5.0), sheet.title
    assert any(said(step, part, job_in(unit).shop).brief.count("toe first") for part in job_in(unit).parts for step in operations(part, job_in(unit).shop))
