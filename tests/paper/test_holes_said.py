"""What is said of holes on paper and on the terminal, read back: every edge distance, the worst, and what is too close; nothing where all is well.

Two kits, one in inches and one in millimetres, each with a part that warns of everything and one that warns of nothing. The
numbers were worked out by hand from the parts.
"""

from __future__ import annotations

import io
import re
from fractions import Fraction as F
from random import Random

import pypdfium2
import pytest

from anglelib.__main__ import main
from anglelib.drawing.checks import clipped, overlaps, struck
from anglelib.files import save_job, save_rack
from anglelib.geometry.hole_check import hole_warnings
from anglelib.job import Job, Shop
from anglelib.lessons.bench_facts import facts
from anglelib.paper.cards import card_pages
from anglelib.paper.pack import make_pack
from anglelib.paper.page import A4, LETTER, PAPERS
from anglelib.part import Cope, Corner, Hole, Part, Taper
from anglelib.section import Section
from anglelib.stock.rack import Rack, Stick
from anglelib.tolerances import Limits

INCH = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
METRIC = Section("30 mm", "30 mm", "3 mm", fillet="3 mm")
CROWDED = Part(
    "S2", "Crowded bracket", INCH, "6061-T6", "4 3/4",
    tapers=[Taper("A", 1, "1/2", run="1 1/2")],
    copes=[Cope("B", 2, 1, "1/2", "1/8")],
    corners=[Corner("A", 2, "1/2")],
    holes=[
        Hole("B", "1/2", "1", "3/16"),  # 1/4 to the toe, 1.33 D; 15/64 at the limits, 1.25 D
        Hole("B", "7/8", "1", "3/16"),  # 3/8 from it, 2 D
        Hole("A", 3, "5/16", "1/8"),  # 1/16 less than t + r + D
        Hole("B", 3, "5/16", "1/8", flush=True),
        Hole("B", "3 1/2", "3/4", "3/16"),  # 1/4 to the cope, 1.33 D; at the limits 1/4 less 3/64, 1.08 D
    ],
)  # fmt: skip
FINE = Part("G1", "Good bar", INCH, "6061-T6", "17 1/4", holes=[Hole("A", "1/2", "11/16", "1/8"), Hole("B", 16, "11/16", "1/8")])
SHORT_MM = Part(
    "M1", "Metric angle", METRIC, "6061-T6", "85 mm", unit="mm",
    tapers=[Taper("A", 1, "12 mm", run="30 mm")],
    holes=[Hole("A", "50 mm", "24 mm", "4 mm"), Hole("B", "20 mm", "15 mm", "4 mm"), Hole("B", "29 mm", "15 mm", "4 mm")],
)  # fmt: skip
FINE_MM = Part("M2", "Plain angle", METRIC, "6061-T6", "120 mm", unit="mm", holes=[Hole("A", "60 mm", "15 mm", "4 mm")])
KITS = {
    "in": (Job("Edges kit", Shop(), (CROWDED, FINE)), Rack([Stick("K-1", INCH, "6061-T6", 36)])),
    "mm": (Job("Kanten", Shop(), (SHORT_MM, FINE_MM), unit="mm"), Rack([Stick("K-3", METRIC, "6061-T6", "400 mm")])),
}
WARNED = {
    "in": (
        "hole B at 3 1/2: 1.33 D to the cope at end 2, 1.08 D at the limits: under 2 D; the plans decide.",
        "holes B at 1/2, 7/8: 1.33 D to the toe, 1.25 D at the limits: under 2 D; the plans decide.",
        "holes B at 1/2, 7/8: pitch 2.00 D, under 3 D; the plans decide.",
        "holes A at 3 and B at 3: a head, nut or tail inside stands 1/16 on the fillet; the plans decide.",
        "holes A at 3 and B at 3 face each other across the heel, and their heads meet inside; the plans decide.",
    ),
    # ISO 2768-1 m: 0.2 mm up to 30 mm: 6 mm to the toe are 1.50 D, 5.8 mm are 1.45.
    "mm": (
        "hole A at 50 mm: 1.50 D to the toe, 1.45 D at the limits: under 2 D; the plans decide.",
        "holes B at 20 mm, 29 mm: pitch 2.25 D, under 3 D; the plans decide.",
    ),
}
FINE_SAYS = {"in": "hole A at 1/2: 4.00 D to end 1, 3.88 D at the limits", "mm": "hole A at 60 mm: 3.75 D to the toe, 3.70 D at the limits"}
RULES = "Rules for rivets (US Army AL0992, Rivet Spacing and Edge Distance); a bolt's may differ."
TELLTALE = ("under 2", "pitch", "fillet; the plans", "face each other", "Rules for rivets")


def plain(text: str) -> str:
    return re.sub(r"\s+", " ", text)


def faults(sheet) -> list:
    found = [[item.text for item in pair] for pair in overlaps(sheet, "paper")]
    found += [(label.text, item) for label, item in struck(sheet, "paper")]
    return found + [label.text for label in clipped(sheet, "paper", 5.0)]


@pytest.fixture(scope="module", params=[("in", "letter"), ("in", "a4"), ("mm", "letter"), ("mm", "a4")], ids="-".join)
def packed(request):
    unit, paper = request.param
    pack = make_pack(*KITS[unit], PAPERS[paper], sheets=("cover", "plan", "cards"))
    document = pypdfium2.PdfDocument(io.BytesIO(pack.pdf()))
    return unit, pack, [plain(document[i].get_textpage().get_text_range()) for i in range(len(document))]


def of_card(pack, texts, part: Part) -> str:
    return " ".join(text for sheet, text in zip(pack.sheets, texts, strict=True) if sheet.title.startswith(f"Card of {part.name}"))


def test_the_card_of_a_part_that_warns_says_every_number(packed):
    unit, pack, texts = packed
    card = of_card(pack, texts, pack.job.parts[0])
    for words in WARNED[unit]:
        assert words[0].upper() + words[1:] in card
    assert RULES in card


def test_the_card_of_a_part_that_does_not_says_only_its_distance(packed):
    unit, pack, texts = packed
    card = of_card(pack, texts, pack.job.parts[1])
    assert FINE_SAYS[unit] in card and not any(word in card for word in TELLTALE)


def test_the_plans_pages_say_every_hole_and_the_worst(packed):
    unit, pack, texts = packed
    (page,) = [text for sheet, text in zip(pack.sheets, texts, strict=True) if sheet.title.startswith("Plan for")]
    for words in WARNED[unit]:
        assert f"{pack.job.parts[0].id}, {words}" in page
    for part in pack.job.parts:
        assert f"{part.id} {part.name}: " in page
    assert FINE_SAYS[unit] in page and RULES in page
    if unit == "in":
        assert "S2 Crowded bracket: worst hole B at 3 1/2: 1.33 D to the cope at end 2, 1.08 D at the limits;" in page
        assert "hole A at 3: 7.50 D to the toe, 7.38 D at the limits" in page


def test_the_cover_and_the_packs_words_count_them(packed):
    unit, pack, texts = packed
    count = {"in": "5 holes", "mm": "3 holes"}[unit]
    assert f"{count} to look at before drilling, of {pack.job.parts[0].id}: the plan's pages and the cards say why." in texts[0]
    assert pack.holes[1:-1] == tuple(f"{pack.job.parts[0].id}, {words}" for words in WARNED[unit])


def test_nothing_on_these_pages_hides_another_or_is_cut_off(packed):
    unit, pack, _ = packed
    for sheet in pack.sheets:
        found = faults(sheet)
        if unit == "mm" and sheet.title.startswith("Card"):  # a metric card's figures at the saw are another matter
            found = [fault for fault in found if any(words in str(fault) for words in (" D to ", " D, ", "Rules for", "Worst edge"))]
        assert found == [], sheet.title


@pytest.mark.parametrize("unit", KITS)
def test_where_nothing_is_too_close_nothing_is_said(unit):
    job, rack = KITS[unit]
    pack = make_pack(Job("Fine", Shop(), job.parts[1:], job.unit), rack, LETTER, sheets=("cover", "plan", "cards"))
    document = pypdfium2.PdfDocument(io.BytesIO(pack.pdf()))
    text = plain(" ".join(document[i].get_textpage().get_text_range() for i in range(len(document))))
    assert not any(word in text for word in (*TELLTALE, "to look at"))
    assert pack.holes == (f"Worst edge distance: {job.parts[1].id}, {FINE_SAYS[unit]}.",)


@pytest.mark.parametrize("unit", KITS)
def test_the_terminal_says_the_same(unit, tmp_path, capsys):
    job, rack = KITS[unit]
    files = [str(tmp_path / "job.toml"), str(tmp_path / "rack.csv")]
    save_job(job, files[0])
    save_rack(rack, files[1])
    assert main(["plan", *files]) == 0
    said = plain(capsys.readouterr().out)
    for words in WARNED[unit]:
        assert f"LOOK: {job.parts[0].id}, {words}" in said
    assert FINE_SAYS[unit] in said and RULES in said
    assert main(["pack", *files, "--out", str(tmp_path), "--sheets", "plan"]) == 0
    said = plain(capsys.readouterr().out)
    for words in (*WARNED[unit], "Worst edge distance: ", RULES):
        assert words in said


def test_the_terminal_says_nothing_of_the_demo(capsys):
    assert main(["plan"]) == 0
    said = plain(capsys.readouterr().out)
    assert "C1L Door hinge bracket, left: worst hole B at 5/8: 2.20 D to the bevel of the inner face at end 1, 2.11 D at the limits" in said
    assert "LOOK" not in said and "Rules for rivets" not in said


def test_other_limits_on_the_command_line_reach_the_words():
    job, rack = KITS["in"]
    wide = make_pack(job, rack, A4, sheets=("cards",), limits=Limits.named("1/32"))
    assert "S2, holes B at 1/2, 7/8: 1.33 D to the toe, 1.17 D at the limits: under 2 D; the plans decide." in wide.holes


def test_the_bench_says_it_too():
    found = facts(CROWDED, Shop(), KITS["in"][1])
    rows = {fact.id: fact.words for fact in found}
    assert rows["edges"].startswith("5 holes, 3 EDGE SHORT; worst: leg B, x = 1/2, to the toe: EDGE SHORT by 1/8 (1.33 diameters)")
    assert rows["edges"].endswith("at the limits hole B at 3 1/2: 1.08 D to the cope at end 2, 3 EDGE SHORT")
    told = [fact.words for fact in found if fact.id.startswith("look-at")]
    assert [f"{words}." for words in told] == list(WARNED["in"])
    assert not any(fact.id.startswith("look-at") for fact in facts(FINE, Shop(), KITS["in"][1]))


# --- many holes --------------------------------------------------------------------------------------------
def crowded(count: int, seed: int) -> Part:
    """A long part with so many holes in no order, some of them short of edge."""
    rng = Random(seed)
    holes = [Hole("AB"[n % 2], F(1) + F(n * 3, 8), F(rng.randint(24, 70), 64), "1/8", rng.random() < 0.2) for n in range(count)]
    cut = rng.choice(([Taper("A", 1, "1/2", run=1)], [Taper("B", 2, run="3/4")], []))
    return Part("P1", "Many", INCH, "6061-T6", F(count * 3, 8) + 3, tapers=cut, holes=holes)


def check_many(count: int, seed: int, on) -> None:
    part = crowded(count, seed)
    pages = card_pages(part, Shop(), on)
    sheets = [page.sheet(on, "Trial", "2024-05-01", n, len(pages)) for n, page in enumerate(pages, 1)]
    text = plain(" ".join(item.text for sheet in sheets for item in sheet.items if hasattr(item, "text")))
    for sheet in sheets:
        assert faults(sheet) == [], (count, seed, sheet.title)
        assert len(sheet.items) > 8, sheet.title  # more than its foot
    assert "Readings" in text and "Marks" in text and "Steps" in text
    for warning in hole_warnings(part, Limits()):
        assert {"edge": "under 2", "edge-at-limits": "at the limits: under 2", "fillet": "on the fillet"}.get(warning.id, "") in text.replace("at the limits; the", "at the limits: under 2")
        for number in warning.holes:
            hole = part.holes[number - 1]
            assert re.search(rf"[Hh]oles? .*\b{hole.leg} at .*{re.escape(str(hole.x.numerator // hole.x.denominator))}", text)


@pytest.mark.parametrize("count", [5, 24, 70])
def test_a_card_finds_room_for_many_holes(count):
    check_many(count, count, LETTER)


@pytest.mark.slow
@pytest.mark.parametrize("count", [1, 3, 5, 9, 14, 20, 30, 40, 55, 70, 100, 200])
@pytest.mark.parametrize("on", [A4, LETTER], ids=lambda on: on.name)
def test_cards_of_many_holes(count, on):
    for seed in range(3):
        check_many(count, seed, on)
