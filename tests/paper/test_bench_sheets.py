"""Cut sheets, tags, receiving, record, safety, cards: what they must say, against numbers that come from elsewhere.

Running dimensions are worked out from the job file's own text, read here with the standard library;
weights from a solid of a general-purpose kernel; how often a cut crosses its line by drawing cuts.
"""

from __future__ import annotations

import math
import re
import sys
import tomllib
from collections import Counter
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import numpy as np
import pytest

from anglelib.drawing.checks import clipped, overlaps, struck
from anglelib.drawing.sheet import Circle, Label, Polyline
from anglelib.files import read_job, read_rack
from anglelib.geometry.whole_holes import broken_holes
from anglelib.job import Job, Shop
from anglelib.lessons.bench_facts import allowance_words
from anglelib.paper.cards import card_pages
from anglelib.paper.check_print import View
from anglelib.paper.pack import make_pack
from anglelib.paper.page import A4, LETTER
from anglelib.paper.plan_pages import plan_pages
from anglelib.paper.receiving import receiving_pages, straightness, twist
from anglelib.paper.record import record_pages
from anglelib.paper.safety_sheet import safety_pages
from anglelib.paper.tags import tag_pages, tags
from anglelib.paper.template import template_pages
from anglelib.paper.weights import Weight
from anglelib.part import Cope, Hole, Part, Taper
from anglelib.safety import CAUTIONS, PRACTICE
from anglelib.section import Section
from anglelib.stock.after import rack_after
from anglelib.stock.planner import plan
from anglelib.stock.rack import Rack, Stick
from anglelib.tolerances import Limits

PAPERS = (A4, LETTER)
GRAM = 453.59237  # grams in a pound, by definition
DENSITY = {"6061-T6": 0.0975, "6063-T5": 0.097}  # lb/in3, Aluminum Association tables
KERF, ALLOWANCE = Fraction(1, 16), Fraction(1, 32)  # of the demo's shop, as its file says


@pytest.fixture(scope="module")
def demo(project):
    folder = project / "notebooks" / "demo"
    job, rack = read_job(folder / "job.toml"), read_rack(folder / "rack.csv")
    return job, rack, plan(job, rack)


@pytest.fixture(scope="module")
def written(project) -> dict[str, dict]:
    """The parts as the job file spells them."""
    text = (project / "notebooks" / "demo" / "job.toml").read_text(encoding="utf-8")
    return {part["id"]: part for part in tomllib.loads(text)["part"]}


def inches(text: str) -> Fraction:
    return sum((Fraction(piece) for piece in text.split()), Fraction(0))


def shop_fraction(value: Fraction) -> str:
    """A length as a rule shows it, by hand."""
    whole, rest = divmod(value, 1)
    return f"{whole} {rest}" if whole and rest else str(rest if rest else whole)


def labels(pages) -> list[Label]:
    return [item for page in pages for item in page.items if isinstance(item, Label)]


def words(pages) -> str:
    return " ".join(label.text for label in labels(pages))


def faults(pages, on) -> list:
    found = []
    for number, page in enumerate(pages, 1):
        sheet = page.sheet(on, "Trial", "2024-05-01", number, len(pages), "0000-0000")
        found += [(page.title, one.text, two.text) for one, two in overlaps(sheet, "paper")]
        found += [(page.title, label.text, "struck") for label, _ in struck(sheet, "paper")]
        found += [(page.title, label.text, "clipped") for label in clipped(sheet, "paper", 5.0)]
    return found


# --- cut sheets -------------------------------------------------------------------------------------------
def test_every_line_of_a_cut_sheet_is_the_sum_of_what_lies_before_it(demo, written):
    """Blank after blank: the finished length and 1/32 at both ends, and 1/16 of kerf between two, from the job file's text."""
    job, rack, made = demo
    text = words(plan_pages(made, job, rack, LETTER))
    checked = 0
    for planned in made.sticks:
        if planned.stick.dents:
            continue
        x, turned = Fraction(0), False
        for cut in (cut for cut in planned.cuts if cut.blank is not None):
            if cut.turned and not turned:  # from here on the lines run from the stick's other end
                x, turned = Fraction(0), True
            x += inches(written[cut.blank.part.id]["length"]) + 2 * ALLOWANCE
            name = str(cut.blank)
            assert f"{name} {_both(x)}" in text, (planned.stick.id, name, x)
            x += KERF
            checked += 1
    assert checked > 60


def test_each_cut_has_a_box_to_tick_and_clamped_ones_say_so(demo):
    job, rack, made = demo
    pages = plan_pages(made, job, rack, A4)
    boxes = [item for page in pages for item in page.items if isinstance(item, Polyline) and _is_square(item, 3.2)]
    cuts = [cut for planned in made.sticks for cut in planned.cuts]
    assert len(boxes) == len(cuts)
    few = [cut for planned in made.sticks if len(planned.cuts) <= 12 for cut in planned.cuts if cut.clamp]
    assert len([label for label in labels(pages) if label.text == "clamp"]) == len(few) > 0


def _is_square(item: Polyline, side: float) -> bool:
    xs, ys = zip(*item.points)
    return len(item.points) == 4 and abs(max(xs) - min(xs) - side) < 1e-6 and abs(max(ys) - min(ys) - side) < 1e-6


def test_a_remnant_is_drawn_with_the_id_of_its_tag(demo):
    job, rack, made = demo
    drawn = {label.text for label in labels(plan_pages(made, job, rack, A4))}
    for stick in rack_after(made, rack).sticks:
        if stick.id not in {old.id for old in rack.sticks}:
            assert any(text.startswith(f"{stick.id}: ") for text in drawn), stick.id


# --- tags --------------------------------------------------------------------------------------------------
def test_there_is_one_tag_for_each_piece_of_the_job_and_each_new_remnant(demo, written):
    job, rack, made = demo
    found = tags(made, job)
    pieces = Counter((tag.id, tag.number) for tag in found)
    assert set(pieces.values()) == {1}
    wanted = {
        (name, f"{n} of {part['quantity']}" if part.get("quantity", 1) > 1 else "")
        for name, part in written.items()
        for n in range(1, part.get("quantity", 1) + 1)
    }
    remnants = {stick.id for stick in rack_after(made, rack).sticks} - {stick.id for stick in rack.sticks}
    assert set(pieces) == wanted | {(name, "") for name in remnants}
    assert len(wanted) == 79 and len(remnants) == 2


def test_a_tag_says_what_the_metal_cannot(demo, written):
    job, _, made = demo
    for tag in tags(made, job):
        if tag.id not in written:
            continue
        part = written[tag.id]
        said = " ".join(tag.lines)
        for word in (part["name"], part["section"], part["alloy"], part["length"]):
            assert word in said, (tag.id, word)
        assert tag.word == part["hand"]
        assert f"blank {shop_fraction(inches(part['length']) + 2 * ALLOWANCE)}" in tag.small


@pytest.mark.parametrize("on", PAPERS, ids=lambda on: on.name)
def test_all_that_a_tag_says_is_printed_whole(demo, on):
    """Which end is squared first decides how a blank with unequal legs is held: it must not fall off the tag's edge."""
    job, _, made = demo
    printed = words(tag_pages(made, job, on))
    assert "..." not in printed
    for tag in tags(made, job):
        assert all(phrase in printed for phrase in tag.small), tag


@pytest.mark.parametrize("on", PAPERS, ids=lambda on: on.name)
def test_every_tag_is_printed_once_with_a_ring_for_its_wire(demo, on):
    job, _, made = demo
    pages = tag_pages(made, job, on)
    rings = [item for page in pages for item in page.items if isinstance(item, Circle)]
    assert len(rings) == len(tags(made, job)) == 81
    assert all(ring.radius >= 2 for ring in rings)
    large = [label for label in labels(pages) if label.height >= 3.5]
    assert sum(label.text == "C1L" for label in large) == 4


def test_what_cannot_be_made_has_no_tag_and_what_is_held_keeps_its_stick():
    stock = Section("3/4", "3/4", "1/8", fillet="1/8")
    parts = [
        Part("L1", "Long bar", stock, "6061-T6", 40, quantity=2),
        Part("L2", "Later bar", stock, "6061-T6", 20, later=True),
    ]
    job = Job("Trial", Shop(), parts)
    made = plan(job, Rack([Stick("S-1", stock, "6061-T6", 48), Stick("S-2", stock, "6061-T6", 30)]))
    found = {(tag.id, tag.number): tag for tag in tags(made, job)}
    assert ("L1", "1 of 2") in found and ("L1", "2 of 2") not in found
    (keeper,) = (tag for tag in found.values() if tag.word == "keep")
    assert any("20 1/16 for L2" in line for line in keeper.small)
    assert ("L2", "") not in found


# --- receiving ------------------------------------------------------------------------------------------------
def test_every_stick_has_a_row_with_its_length_and_its_weight(demo):
    """Weights by the area of the drawn outline (shoelace, the fillet as a fine polygon) times length and density."""
    _, rack, _ = demo
    on = LETTER
    pages = receiving_pages(rack, on)
    assert faults(pages, on) == []
    for stick in rack.sticks:
        page, name = next((page, item) for page in pages for item in page.items if isinstance(item, Label) and item.text == stick.id)
        row = {item.text for item in page.items if isinstance(item, Label) and abs(item.y - name.y) < 0.5}
        assert shop_fraction(stick.length) in row
        if stick.alloy:
            grams = _shoelace(stick.section) * float(stick.length) * DENSITY[stick.alloy] * GRAM
            printed = next(float(text.split(" g ")[0]) for text in row if " g ±" in text)
            assert printed == pytest.approx(grams, abs=0.6), stick.id
        else:
            assert not any(" g " in text for text in row)


def _shoelace(section: Section) -> float:
    a, b, ta, tb = (float(v) for v in (section.leg_a, section.leg_b, section.thickness_a, section.thickness("B")))
    r = float(section.fillet)
    turn = [math.pi * 1.5 - math.pi / 2 * i / 400 for i in range(401)]
    arc = [(tb + r + r * math.cos(t), ta + r + r * math.sin(t)) for t in turn]
    points = [(0, 0), (a, 0), (a, ta), *arc, (tb, b), (0, b)]
    return abs(sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in zip(points, points[1:] + points[:1]))) / 2


def test_the_sticks_of_each_section_are_counted(demo):
    _, rack, _ = demo
    text = words(receiving_pages(rack, A4))
    # read off the demo's table: S-01 to S-09 are the kit's section, of which three are new
    assert "expected 9: 3 new, 6 remnants; counted" in text
    assert "expected 1: 1 new; counted" in text and text.count("alloy unknown") == 2
    assert "S-30: dent from 29 1/2 to 31" in text and "clue, never proof" in text


@pytest.mark.parametrize(
    "legs, thickness, straight, turned",
    [
        # a 3/4 angle has toes sqrt(2) 3/4 = 1.06 apart; a 1 1/4 one 1.77; 2 1/2 x 2: 3.20
        (("3/4", "3/4"), "1/8", Fraction(125, 10000), (1, 7)),
        (("3/4", "3/4"), "1/16", Fraction(5, 100), (1, 7)),
        (("1 1/4", "1 1/4"), "1/16", Fraction(125, 10000), (0.5, 5)),
        (("2 1/2", "2"), "1/8", Fraction(125, 10000), (0.25, 3)),
    ],
)
def test_straightness_and_twist_are_those_of_ansi_h35_2(legs, thickness, straight, turned):
    """As an extruders' council prints them: 0.0125 in. a foot, 0.050 for thin ones within a circle of 1.5 in.; 1, 1/2, 1/4 degree
    a foot and 7, 5, 3 in all."""
    section = Section(*legs, thickness)
    assert straightness(section) == straight and twist(section) == turned


# --- weights ----------------------------------------------------------------------------------------------------
@pytest.fixture(scope="module")
def solids(project):
    sys.path.insert(0, str(project / "tests" / "oracle"))
    try:
        import solids
    finally:
        sys.path.pop(0)
    return solids


def test_the_weight_on_a_card_is_that_of_the_kernels_solid(demo, solids):
    job, _, _ = demo
    for part in job.parts:
        texts = [label.text for label in labels(card_pages(part, job.shop, A4))]
        grams = solids.part_solid(part, solids.ON, 64).volume() * DENSITY[part.alloy] * GRAM
        place = texts.index("weight")
        printed = next(float(text.removesuffix(" g")) for text in texts[place:] if re.fullmatch(r"[\d.]+ g", text))
        assert printed == pytest.approx(grams, abs=0.06 if grams < 20 else 0.6), part.id


def test_an_alloy_is_told_by_weight_only_where_its_densities_lie_farther_apart_than_the_readings():
    """6061 and 2024 differ by 0.0025 in 0.0975, 2.6 %; 1/1000 of 1/8 is 0.8 % either way, so a light piece tells nothing."""
    stock = Section("3/4", "3/4", "1/8", fillet="1/8")
    assert Weight.of_length(stock, "6061-T6", 96).rules_out == ("2024", "7075")
    assert Weight.of_length(stock, "6061-T6", 2).rules_out == ()
    thin = Section("3/4", "3/4", "1/16", fillet="1/16")  # 1/1000 of 1/16 is 1.6 % either way
    assert "2024" not in Weight.of_length(thin, "6061-T6", 96).rules_out


# --- cards -----------------------------------------------------------------------------------------------------
def test_the_running_dimensions_of_a_card_are_the_job_files_numbers(demo, written):
    job, _, _ = demo
    checked = 0
    for part in job.parts:
        texts = {label.text for label in labels(card_pages(part, job.shop, A4))}
        told = written[part.id]
        if any(taper["width_left"] == "0" for taper in told.get("tapers", [])):
            continue  # read from the witness line: see the next test
        for hole in told.get("holes", []):
            assert shop_fraction(inches(hole["x"])) in texts and _both(inches(hole["y"])) in texts, (part.id, hole)
            checked += 1
        assert shop_fraction(inches(told["length"])) in texts
    assert checked > 30


def _both(value: Fraction) -> str:
    return f"{shop_fraction(value)} ({math.floor(float(value) * 1000 + 0.5) / 1000:.3f})"


def test_where_the_datum_is_lost_the_running_dimensions_start_at_the_witness_line(demo, written):
    """C1L: its witness line is struck 3 from end 1, so a hole at 2 7/16 is 9/16 from it."""
    job, _, _ = demo
    for name, witness in (("C1L", Fraction(3)), ("C1R", Fraction(3)), ("E1", Fraction(27, 16))):
        texts = {label.text for label in labels(card_pages(job.part(name), job.shop, A4))}
        assert "witness line" in " ".join(texts) and _both(witness) in texts
        for hole in written[name]["holes"]:
            assert shop_fraction(abs(inches(hole["x"]) - witness)) in texts, (name, hole)


def test_the_steps_say_when_the_datum_is_fixed_and_where_the_alloy_goes(demo):
    job, _, _ = demo
    for part in job.parts:
        text = words(card_pages(part, job.shop, LETTER))
        assert text.count("now the datum") == 1, part.id
        assert "alloy on both" in text and "alloy on the part; tag" in text
    assert "lay it against A1R" in words(card_pages(job.part("A1L"), job.shop, A4))


@pytest.mark.parametrize("on", PAPERS, ids=lambda on: on.name)
def test_a_card_of_a_crowded_part_takes_two_pages_and_leaves_nothing_out(on):
    """Tapers on both legs at both ends, and ten holes: marks and readings on the first page, saw and steps on the second."""
    stock = Section("1 1/2", "1 1/2", "1/8", fillet="1/8")
    places = (("A", 1, "2 1/4"), ("B", 1, "2 1/2"), ("A", 2, "3 1/8"), ("B", 2, "3 3/4"))
    tapers = [Taper(leg, end, "3/8", run=run) for leg, end, run in places]
    holes = [Hole(leg, Fraction(9 + 2 * n), "3/4", "1/8") for leg in "AB" for n in range(5)]
    part = Part("P1", "Crowded bracket", stock, "6061-T6", 30, tapers, holes)
    pages = card_pages(part, Shop(), on)
    assert [page.title for page in pages] == ["Card of Crowded bracket, sheet 1 of 2", "Card of Crowded bracket, sheet 2 of 2"]
    first, second = (words([page]) for page in pages)
    assert "finished line" in first and "Readings" in first and "How the angle sits" in second and "Steps" in second
    for _, _, run in places:
        assert _both(inches(run)) in first
    for mark in ("Square end", "Cut end", "Mark, punch, pilot", "Break edges", "Take the readings"):
        assert mark in second, mark
    assert second.count("taper of leg") >= 4 and faults(pages, on) == []
    assert [page.bookmark for page in pages] == ["Card P1 Crowded bracket", ""]


def test_the_datum_is_fixed_late_where_the_other_end_is_made_first(demo):
    """A5L is tapered at end 2: that end comes first, and end 1 is the datum when it is squared after the cut."""
    job, _, _ = demo
    steps = [label.text for label in labels(card_pages(job.part("A5L"), job.shop, A4))]
    first = next(text for text in steps if text.startswith("Square end 2 on the stick"))
    assert "datum" not in first
    assert re.search(r"Cut end 1 to length[^.]*square it: now the datum\.", " ".join(steps))


@pytest.mark.parametrize(
    "words_at_step",
    ["disc runs down", "Wet fines", "Soft wheel", "Marker, no scriber", "eyes and ears covered", "no gloves", "clamp it"],
)
def test_a_card_warns_at_its_steps(demo, words_at_step):
    job, _, _ = demo
    assert words_at_step in words(card_pages(job.part("C1L"), job.shop, LETTER))


def test_how_often_a_cut_crosses_its_line_is_what_drawn_cuts_do(demo):
    """200,000 sawn lines, their place uncertain by the worked stack's 0.0114 in. and their direction by 0.2 degrees."""
    job, _, _ = demo
    rng = np.random.default_rng(5)
    part = job.part("E2L")
    long = math.hypot(2.875, 1.5 - 0.5625)
    place, turn = rng.normal(0, 0.0114, 200_000), np.tan(np.radians(rng.normal(0, 0.2, 200_000)))
    gap = np.minimum(1 / 32 + place + turn * long / 2, 1 / 32 + place - turn * long / 2)
    said = int(re.search(r"1 taper in (\d+)", allowance_words(part, job.shop))[1])
    assert said == pytest.approx(1 / np.mean(gap < 0), rel=0.12)
    wider = allowance_words(part, replace(job.shop, allowance=Fraction(3, 64)))
    assert int(re.search(r"1 taper in (\d+)", wider)[1]) > 3 * said


# --- safety -------------------------------------------------------------------------------------------------------
ROWS = {
    "kerf": "set on both sides", "teeth": "two teeth in the thinnest metal", "disc": "half of the disc that runs down",
    "gap": "as close to the disc as runs clear", "set again": "again after the table was tilted", "thin edge": "Never point a thin edge into the gap",
    "insert": "A close insert round the blade", "bare blade": "the blade runs bare above the flat leg", "block": "clears the table by 1/16",
    "power": "before a blade is changed", "brush": "brushed away, never by hand", "chuck key": "The chuck key is out",
    "soft wheel": "not a grinding wheel", "small pieces": "is clamped, never hand-held", "guide": "just clear of the work",
    "snips": "stay 1/32 off the line", "guard": "guard stands close", "rests": "within 1/8 in. of the wheel", "noise": "85 dBA",
    "gloves": "No gloves at a running blade", "eyes": "Z87.1", "heating": "50 watts", "fines": "420 um",
    "warm": "dip it in water", "wet fines": "Wet fines never in a closed bin", "edges": "edges broken 1/64", "hand route": "Hacksaw, vise",
    "grey wheel": "Never a grey wheel", "heat": "No heat to ease a bend", "scribing": "scribe only a line that the cut takes away",
}  # fmt: skip


@pytest.mark.parametrize("row", ROWS)
def test_the_safety_sheet_has_every_row(demo, row):
    job, _, _ = demo
    assert ROWS[row] in words(safety_pages(job, LETTER))


NUMBERS = {
    "Z87.1": "29 CFR 1910.133", "85 dBA": "29 CFR 1910.95", "1/32 off": "FAA-H-8083-30", "2 in. off": "manuals of disc sanders",
    "1/8 in. of the wheel": "29 CFR 1910.215(a)(4)", "over 24": "trade guides to blades", "64 hours at 350 F": "Cal Poly", "420 um": "brochure F-1",
    "50 watts": "derived", "clears the table by 1/16": PRACTICE, "{hand}": PRACTICE, "broken 1/64": PRACTICE,
}  # fmt: skip
"""Each number that a caution says, and where it was read; the shop's own {hand}, the block's clearance and the finish of edges are common practice."""


def test_a_caution_names_its_source_or_is_marked_as_common_practice():
    """Nothing from memory, nothing second-hand; and no number without its line above: a gap of 1/8 to 1/4 in. has none."""
    for caution in CAUTIONS:
        assert caution.source or PRACTICE in caution.origin, caution
        assert caution.status in ("seen", "derived") and "memory" not in caution.origin and "second-hand" not in caution.origin, caution
        said = caution.said("{hand}")
        if re.search(r"\d|\{", said):
            sources = [source for number, source in NUMBERS.items() if number in said]
            assert sources and all(source in caution.origin for source in sources), caution
    assert not [caution for caution in CAUTIONS if "1/4" in caution.words]


def test_no_page_says_a_gap_that_no_source_gives_or_cites_a_memory_for_safety(demo, project):
    """Every page of the course and of the pack: the disc's table has no number."""
    job, _, _ = demo
    texts = {path.name: path.read_text(encoding="utf-8") for path in (project / "notebooks").glob("*.ipynb")}
    texts |= {path.name: path.read_text(encoding="utf-8") for path in (project / "anglelib").rglob("*.py")}
    texts["safety sheet"] = words(safety_pages(job, LETTER))
    for name, text in texts.items():
        assert "1/8 to 1/4 in" not in text, name
        assert not re.search(r"(1910\.\d+|OSHA \d+|Grey wheels?: [^.]*|[Ss]oft wheel: [^.]*) ?[(,]? ?(from memory|second-hand)", text), name


def test_hours_of_noise_and_teeth_are_printed(demo):
    """29 CFR 1910.95 table G-16: 90, 95, 100, 105 dBA for 8, 4, 2, 1 hours. In 3/16 of metal three teeth are 16 to the inch, so 18 or
    24 are taken; heel up the blade is in sqrt(2) times as much, 11.3, so 14 or 18; a leg of 1 1/2 that stands bears 24 in all, 16 to the inch:
    14 puts 2.6 into the 3/16. In 1/16 two teeth are 32 to the inch, the finest that is sold."""
    job, _, _ = demo
    texts = [label.text for label in labels(safety_pages(job, A4))]
    place = texts.index("hours a day")
    assert texts[place + 1 : place + 5] == ["8", "4", "2", "1"]
    place = texts.index("1 1/2 x 1 1/2 x 3/16")
    assert texts[place + 1 : place + 4] == ["14 or 18", "18 or 24", "14"]
    place = texts.index("3/4 x 3/4 x 1/16")
    assert texts[place + 1 : place + 4] == ["32", "32", "32"]


# --- record --------------------------------------------------------------------------------------------------------
def test_the_record_has_a_row_a_part_and_asks_who_what_when_where_and_how(demo, written):
    job, _, _ = demo
    pages = record_pages(job, LETTER, {"A1L": ("S-02 (3)",)})
    text = words(pages)
    for head in ("what and how", "when", "where", "who", "AC 20-27G"):
        assert head in text
    for name, part in written.items():
        assert f"{name}  {part.get('quantity', 1)} off, {part['alloy']}" in text
    assert "from S-02 (3)" in text


# --- nothing hides another ---------------------------------------------------------------------------------------
@pytest.mark.parametrize("on", PAPERS, ids=lambda on: on.name)
def test_nothing_hides_another_on_the_sheets_of_the_demo(demo, on):
    job, rack, made = demo
    for pages in (
        safety_pages(job, on),
        receiving_pages(rack, on),
        plan_pages(made, job, rack, on),
        tag_pages(made, job, on),
        record_pages(job, on, {part.id: ("S-01 (18)", "S-02 (3)") for part in job.parts}),
    ):
        assert pages and faults(pages, on) == []
        assert min(label.height for label in labels(pages)) >= 2.5


def random_kit(seed: int) -> tuple[Job, Rack]:
    """A job of shapes of every kind with the longest ids and names there can be, and a rack that may be short."""
    sys.path.insert(0, str(Path(__file__).parents[1] / "drawing"))
    try:
        from random_parts import part as random_part
    finally:
        sys.path.pop(0)
    rng = np.random.default_rng(seed)
    parts, sticks = [], []
    for n in range(6):
        part = random_part(seed * 6 + n)
        broken = {one.number for one in broken_holes(part)}  # which no plan is made of
        part = replace(part, holes=[hole for number, hole in enumerate(part.holes, 1) if number not in broken])
        letters = int(rng.integers(2, 33))
        name = "W" * 60 if n == 0 else f"{part.name} {'with a long name' * int(rng.integers(0, 3))}"[:60]
        parts.append(replace(part, id=f"{n}{'M' * (letters - 1)}", name=name, quantity=int(rng.integers(1, 14)), later=n == 5))
        length = Fraction(int(rng.integers(16, 2400)), 16)
        dents = [(length / 3, length / 3 + Fraction(1, 2))] if n % 2 else []
        note = "kept " * int(rng.integers(0, 79))
        name, alloy = f"S{n}-{'Q' * int(rng.integers(1, 29))}", ("6061-T6", "", "2024-T3511")[n % 3 if n > 2 else 0]
        about = {"dents": dents, "remnant": n % 2 == 0, "hands_off": n == 4, "note": note}
        sticks.append(Stick(name, part.section, alloy, length, "1/4", "1/4", **about))
    return Job("Trial " + "W" * 54, Shop(), parts), Rack(sticks)


def check_kit(seed: int) -> None:
    job, rack = random_kit(seed)
    made = plan(job, rack)
    sticks = {part.id: tuple(f"{stick.id} (12)" for stick in rack.sticks) for part in job.parts}
    for on in PAPERS:
        for pages in (
            safety_pages(job, on),
            receiving_pages(rack, on),
            plan_pages(made, job, rack, on),
            tag_pages(made, job, on),
            record_pages(job, on, sticks),
        ):
            assert faults(pages, on) == [], (seed, on.name)


@pytest.mark.parametrize("seed", range(4))
def test_nothing_hides_another_on_sheets_of_any_kit(seed):
    check_kit(seed)


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(4, 84))
def test_nothing_hides_another_on_sheets_of_many_more_kits(seed):
    check_kit(seed)


def test_a_fault_would_be_found(demo):
    job, _, made = demo
    page = tag_pages(made, job, A4)[0]
    label = next(item for item in page.items if isinstance(item, Label) and item.text == "B1")
    assert faults([replace(page, items=(*page.items, replace(label, text="B2")))], A4)


# --- what a sheet says must be there ---------------------------------------------------------------------------------
def test_a_card_sends_to_its_templates_only_for_ends_that_are_cut_to_a_shape():
    stock = Section(1, 1, "1/8", fillet="1/8")
    holes = [Hole("AB"[n % 2], Fraction(1, 2) + n * Fraction(3, 5), "1/2", "1/8") for n in range(40)]
    plain = Part("H1", "Many holes", stock, "6061-T6", 25, holes=holes)
    said = " ".join(words(card_pages(plain, Shop(), LETTER)).split())
    assert "more on this part than a card has room to draw." in said and "templates" not in said
    tapered = " ".join(words(card_pages(replace(plain, length=Fraction(30), tapers=(Taper("A", 2, "1/4", run=1),)), Shop(), LETTER)).split())
    assert "room to draw: its cut ends are on its templates." in tapered


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_a_hand_minimum_of_nothing_is_not_said_as_a_length(unit):
    stock = Section("3/4", "3/4", "1/8", fillet="1/8")
    job = Job("Trial", Shop(hand_minimum=0), [Part("L1", "Bar", stock, "6061-T6", 5)], unit)
    rack = Rack([Stick("S-1", stock, "6061-T6", 48)])
    said = words([*make_pack(job, rack, LETTER, sheets=("cover", "safety", "plan")).sheets])
    assert "0 in." not in said.replace("10 in.", "") and "a hand's breadth" in " ".join(said.split())


def test_the_note_of_a_feather_edge_points_at_metal():
    """Another taper leaves 3/8 of the leg there: four fifths of its whole width would be in the air."""
    part = Part("X1", "Crossing", Section(1, 1, "1/8", fillet="1/8"), "6061-T6", 6, [Taper("A", 1, run="1 3/8"), Taper("B", 1, "3/8", run="1 1/8")])
    view = View(part, Limits(), 0.0, 6.0, 2, 40.0)
    toe = view.at("B", 0, 3 / 8)[1]
    (note,) = (ways[0] for ways in view._notes(0, 200) if any("feather edge" in getattr(item, "text", "") for item in ways[0]))
    tip = next(item.points[0] for item in note if isinstance(item, Polyline))
    assert toe <= tip[1] <= view.at("B", 0, 0)[1]


def test_the_fold_sheet_says_of_a_cope_what_the_card_says():
    """A taper has the saw's band drawn; of a cope only the finished line is, and the card's saw line lies 1/32 outside it."""
    part = Part("P1", "Post", Section(1, 1, "1/8", fillet="1/8"), "6061-T6", 5, [Taper("A", 1, "1/2", run=1)], copes=[Cope("A", 2, 1, "1/2", "1/8")])
    said = " ".join(words(template_pages(part, Shop(), LETTER)).split())
    assert "A cope has no band: saw it 1/32 outside its line" in said
    assert "no band" not in words(template_pages(replace(part, copes=()), Shop(), LETTER))
