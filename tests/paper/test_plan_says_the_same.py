"""The plan and the card of one part, read back from the words of the printed pages: one order of work, one line, one clamp.

Whoever cuts by the plan marks a line from the stick's datum end; whoever follows the card saws at another number, from
the end just squared or from the witness line. Both are worked out here from what is printed, by adding and taking away.
"""

import re
from dataclasses import replace
from functools import cache

import pytest
from read_back import ALLOWANCE, HAND, Said, flat, labels, of_card, of_plan

from anglelib.drawing.checks import clipped, overlaps, struck
from anglelib.drawing.pdf import pdf
from anglelib.drawing.sheet import Polyline
from anglelib.geometry.layout import length_mark, plan_line
from anglelib.job import Job, Shop
from anglelib.lengths import writing
from anglelib.paper.cards import card_pages
from anglelib.paper.page import A4, LETTER
from anglelib.paper.plan_pages import plan_pages
from anglelib.paper.tags import tags
from anglelib.part import Cope, Corner, Part, Taper
from anglelib.section import Section
from anglelib.stock import cut_words
from anglelib.stock.checker import faults
from anglelib.stock.planner import plan
from anglelib.stock.rack import Rack, Stick
from anglelib.stock.record import Record
from anglelib.stock.standing import standing
from anglelib.terminal.words import plan_lines, stick_lines

ALLOY = "6061-T6"
EQUAL = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
UNEQUAL = Section("1 1/2", 1, "1/8", fillet="1/8")
THIN = Section("3/4", "3/4", "1/16", fillet="1/16")


def _pair(part: Part, other: str) -> list[Part]:
    mirror = replace(part.mirrored(), id=other, name=f"{part.name} R", hand="right", mirror_of=part.id)
    return [replace(part, name=f"{part.name} L", hand="left", mirror_of=other), mirror]


PARTS = [
    Part("P1", "Post", EQUAL, ALLOY, 5, [Taper("A", 1, "3/4", run=1)], copes=[Cope("A", 2, 1, "1/2", "1/8")], quantity=2),
    Part("P2", "Rail", EQUAL, ALLOY, "14 1/2", [Taper("A", 1, "1/2", run="1 1/2"), Taper("B", 2, run="2")], quantity=2),
    Part("P3", "Strut", EQUAL, ALLOY, 11, copes=[Cope("B", 2, "1 1/2", "5/8", "1/8")]),
    Part("P4", "Rounded clip", EQUAL, ALLOY, "2 1/2", corners=[Corner("A", 1, "3/8")], quantity=3),
    Part("P5", "Brace", EQUAL, ALLOY, 20, [Taper("A", 2, run="2 1/2")]),
    Part("P6", "Foot", EQUAL, ALLOY, "5 1/2", [Taper("B", 1, run="1 5/8"), Taper("B", 2, run="1 5/8")]),
    *_pair(Part("Q1L", "Cleat", EQUAL, ALLOY, "3 3/4", [Taper("A", 1, "3/8", run="1 1/4")], quantity=2), "Q1R"),
    *_pair(Part("U1L", "Stop", UNEQUAL, ALLOY, 4, [Taper("B", 1, "3/8", run="1 1/4")], quantity=2), "U1R"),
    *_pair(Part("U2L", "Seat rail", UNEQUAL, ALLOY, "12 3/4", copes=[Cope("A", 1, 2, "3/4", "1/8")]), "U2R"),
    Part("K1", "Clip", THIN, ALLOY, "3/4", quantity=14),
    Part("K2", "Skin angle", THIN, ALLOY, "30 mm", [Taper("A", 2, "10 mm", run="12 mm")], unit="mm", quantity=2),
]
RACK = Rack([
    Stick("S-1", EQUAL, ALLOY, 144, "1/4", "1/4"), Stick("S-2", UNEQUAL, ALLOY, 72, "1/4", "1/4"), Stick("S-3", THIN, ALLOY, 40, "1/16", "1/16"),
])  # fmt: skip
JOB = Job("Every feature", Shop(), PARTS)
def texts(pages, on) -> list[str]:
    """What a person can select on each page, in the order in which it is printed."""
    sheets = [page.sheet(on, "Trial", "2024-05-01", n, len(pages)) for n, page in enumerate(pages, 1)]
    return [flat(page) for page in labels(pdf(sheets, "Trial"))]


@cache
def cards(on) -> dict[str, tuple[Said, float]]:
    """What every card says: they are the same whatever is planted into the plan."""
    return {part.id: of_card(" ".join(texts(card_pages(part, JOB.shop, on, limits=JOB.limits), on))) for part in JOB.parts}


def disagreements(on) -> list[str]:
    """Everything in which plan and cards differ, part by part."""
    made = plan(JOB, RACK)
    assert faults(made, JOB, RACK) == () and not made.shortages
    rows = [row for page in texts(plan_pages(made, JOB, RACK, on), on) for row in of_plan(page)]
    assert len(rows) == JOB.pieces
    found = []
    for part in JOB.parts:
        card, far = cards(on)[part.id]
        mine = [(blank, said) for name, blank, said in rows if name == part.id]
        assert len(mine) == part.quantity and card.clamp == (part.length < HAND), part.id
        for blank, said in mine:
            if said != card:
                found.append(f"{part.id}: the plan says {said}, the card {card}")
            if abs(blank - ALLOWANCE - far) > 0.0021:  # four numbers of three decimals, or of a hundredth of a millimetre
                found.append(f"{part.id}: the plan's line is {blank} from the blank's end as sawn, the card's {far} from the squared one")
    return found


@pytest.mark.parametrize("on", (A4, LETTER), ids=lambda on: on.name)
def test_the_plan_and_the_cards_say_the_same(on):
    assert disagreements(on) == []


def test_what_the_plan_says_of_some_parts():
    """By hand: the harder end first, tapers before copes, a square end 1 where both are alike."""
    rows = {name: said for page in texts(plan_pages(plan(JOB, RACK), JOB, RACK, LETTER), LETTER) for name, _, said in of_plan(page)}
    assert rows["P1"] == Said(1, frozenset({"taper"}), True, "5 1/32", "end 1")
    assert rows["P3"] == Said(2, frozenset({"cope"}), False, "11 1/32", "end 2")
    assert rows["P5"].first == 2 and rows["P5"].origin == "witness line"
    assert rows["Q1L"] == rows["Q1R"] == Said(1, frozenset({"taper"}), True, "3 25/32", "end 1")
    assert rows["U1L"].first == 1 and rows["U1R"] == Said(2, frozenset({"taper"}), True, "4 1/32", "end 2")
    assert rows["U2R"] == Said(2, frozenset({"cope"}), False, "12 25/32", "end 2")
    assert rows["K1"] == Said(1, frozenset(), True, "25/32", "end 1")


PLANTED = {
    "the other end first": ("first_end", lambda part: 1),
    "nothing on the stick": ("made_on_stick", lambda part: False),
    "never reversed": ("lies_reversed", lambda part: False),
    "the blank's own number": ("length_mark", lambda part, end, shop: replace(length_mark(part, end, shop), saw=plan_line(part, shop))),
}


@pytest.mark.parametrize("what", PLANTED)
def test_a_plan_that_says_something_else_is_found(what, monkeypatch):
    name, wrong = PLANTED[what]
    monkeypatch.setattr(cut_words, name, wrong)
    assert disagreements(LETTER)


# --- signs, tags, the terminal ------------------------------------------------------------------------------------
def test_every_cut_that_is_clamped_has_its_sign():
    made = plan(JOB, RACK)
    pages = plan_pages(made, JOB, RACK, LETTER)
    triangles = [i for page in pages for i in page.items if isinstance(i, Polyline) and i.kind == "narrow" and len(i.points) == 3 and i.closed]
    clamped = [cut for planned in made.sticks for cut in planned.cuts if cut.clamp]
    assert len(triangles) == len(clamped) + 1 > 20  # and the one that is explained
    assert {cut.blank.part.id for cut in clamped} == {part.id for part in PARTS if part.length < HAND}


def test_tags_say_which_end_is_squared_already():
    for tag in tags(plan(JOB, RACK), JOB):
        if tag.id in {part.id for part in PARTS}:
            assert f"end {cards(A4)[tag.id][0].first} squared" in tag.small


def test_a_blank_that_is_not_sawn_or_not_now_says_what_a_sawn_one_does():
    """Three blanks of one part: one sawn, one that ends where the stick does, one held for later."""
    brace = Part("B1", "Brace", EQUAL, ALLOY, "5 1/2", [Taper("A", 2, "1/2", run=1)], quantity=2, only_stick="S-1")
    later = replace(brace, id="B2", quantity=1, later=True, only_stick="S-2")
    job = Job("Three", Shop(), [brace, later])
    rack = Rack([Stick("S-1", EQUAL, ALLOY, "11 3/16", far_end_good=True), Stick("S-2", EQUAL, ALLOY, 9, "1/16", "1/16")])
    made = plan(job, rack)
    card = "its card: 5 17/32 from end 2, squared; end 2 first: taper A; lies reversed: end 2 at the datum end"
    lines = re.sub(r"\s+", " ", " ".join(line for planned in made.sticks for line in stick_lines(planned, job.shop, job.limits)))
    printed = " ".join(texts(plan_pages(made, job, rack, LETTER), LETTER))
    for text in (lines, printed):
        assert f"(1 of 2) 5 9/16 (5.563) clamp {card}; clamp: the piece that comes off is 5 9/16, what stays is 5 9/16" in text or (
            f"5 9/16 (5.563) CLAMP {card}; clamp: the piece that comes off is 5 9/16, what stays is 5 9/16" in text
        )
        assert re.search(rf"not sawn (?:clamp|CLAMP) it ends where the stick does; {card}; clamp: the piece is 5 9/16", text)
        assert f"Hold 5 9/16 (5.563) for B2: not cut now. When it is cut, {card}; clamp: the piece is 5 9/16." in text


@pytest.mark.parametrize("on", (A4, LETTER), ids=lambda on: on.name)
def test_nothing_hides_another_on_these_sheets(on):
    for page in plan_pages(plan(JOB, RACK), JOB, RACK, on):
        sheet = page.sheet(on, "Trial", "2024-05-01", 1, 1)
        assert not overlaps(sheet, "paper") and not struck(sheet, "paper") and not clipped(sheet, "paper", 5.0), page.title


@pytest.mark.parametrize("unit", ("in", "mm"))
def test_a_section_whose_parts_are_all_in_another_unit_is_planned_in_that_unit(unit):
    """What is drawn in mm is carded, tagged and planned in mm, whatever the job's unit, and the other way round."""
    other, written = ("mm", "millimetres") if unit == "in" else ("in", "inches")
    thirty = Section("30 mm", "30 mm", "3 mm")
    bracket = Part("M1", "Bracket", thirty, ALLOY, "87.3 mm", [Taper("A", 1, "10 mm", run="33.7 mm")], unit=other, quantity=2)
    job = Job("Mixed", Shop(), [replace(PARTS[2], unit=unit), bracket], unit)
    rack = Rack([Stick("S-1", EQUAL, ALLOY, 40), Stick("M-1", thirty, ALLOY, "1000 mm", "5 mm", "5 mm")])
    made = plan(job, rack)
    page = next(text for text in texts(plan_pages(made, job, rack, LETTER), LETTER) if "M1" in text)
    line = plan_line(bracket, job.shop)
    shown = f"{float(line * 254 / 10):.2f}".rstrip("0") + f" ({float(line):.3f} in)" if other == "mm" else f"({float(line):.3f})"
    assert f"{written}, from the datum end" in page and shown in page
    left = next(tag for tag in tags(made, job) if tag.id == "M-1-R1")
    assert left.lines[1].endswith(" mm") == (other == "mm")
    long = left.lines[1].rpartition(", ")[2].removesuffix(" in.")
    with writing(unit):
        said = plan_lines(standing(job, Record(rack)), Record(rack))
    assert f"  {written.capitalize()} in this section." in said
    assert f"M-1-R1, {long} long" in page and any(f"M-1-R1, {long} long" in line for line in said)
