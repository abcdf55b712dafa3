"""Which sheets a pack has, in which order, named where; the version of the job on each of them."""

from __future__ import annotations

import datetime
import io
import re
import shutil
from dataclasses import replace
from fractions import Fraction

import pytest
from pypdf import PdfReader

from anglelib.__main__ import main
from anglelib.drawing.sheet import Label
from anglelib.errors import BenchError
from anglelib.job import Job, Shop
from anglelib.paper.chapters import SHEETS
from anglelib.paper.pack import make_pack
from anglelib.paper.page import A4, LETTER, Page
from anglelib.paper.version import version
from anglelib.part import Hole, Part, Taper
from anglelib.section import Section
from anglelib.stock.rack import Rack, Stick
from anglelib.tolerances import Limits

STOCK = Section("3/4", "3/4", "1/8", fillet="1/8")
CLEAT = Part("A1", "Cleat", STOCK, "6061-T6", "2 1/8", tapers=[Taper("A", 1, "3/8", run="1 1/4")], quantity=2)
BAR = Part("A2", "Bar", STOCK, "6061-T6", "17 1/4", holes=[Hole("A", 1, "3/8", "1/8")])
RACK = Rack([Stick("S-1", STOCK, "6061-T6", 60, "1/4", "1/4"), Stick("S-2", STOCK, "", 30)])
DAY = datetime.date(2024, 5, 1)
FIRST_WORDS = {
    "cover": "Shop pack",
    "safety": "Safety at each step",
    "receiving": "Receiving the stock",
    "plan": "Plan for",
    "tags": "Tags",
    "cards": "Card of",
    "checks": "Check print",
    "record": "Record for the builder's file",
}
"""How the titles of the sheets begin; all others are templates."""


def job(*parts: Part, shop: Shop | None = None) -> Job:
    return Job("Trial", shop or Shop(), parts or (CLEAT, BAR))


def kinds(sheets) -> list[str]:
    """The kind of each page by its title, runs of one kind once."""
    found = [next((kind for kind, words in FIRST_WORDS.items() if sheet.title.startswith(words)), "templates") for sheet in sheets]
    return [kind for i, kind in enumerate(found) if not i or found[i - 1] != kind]


def text_of(sheet) -> list[str]:
    return [item.text for item in sheet.items if isinstance(item, Label)]


def test_without_a_wish_everything_comes_in_the_order_of_the_bench():
    found = kinds(make_pack(job(), RACK, A4, date=DAY).sheets)
    assert found[:6] == ["cover", "safety", "receiving", "plan", "tags", "cards"]
    assert found[-1] == "record" and set(found) == set(SHEETS)


@pytest.mark.parametrize("name", SHEETS)
def test_each_kind_can_be_had_alone(name):
    assert kinds(make_pack(job(), RACK, LETTER, date=DAY, sheets=(name,)).sheets) == [name]


def test_the_order_of_the_wishes_does_not_matter():
    found = kinds(make_pack(job(), RACK, A4, date=DAY, sheets=("tags", "cover", "plan")).sheets)
    assert found == ["cover", "plan", "tags"]


@pytest.mark.parametrize("sheets", [tuple(SHEETS), ("cover", "cards", "record"), ("cover", "templates")], ids=["all", "cards", "templates"])
def test_the_contents_name_the_pages_that_are_there(sheets):
    pack = make_pack(job(), RACK, A4, date=DAY, sheets=sheets)
    texts = text_of(pack.sheets[0])
    for name in ("safety", "receiving", "plan", "tags", "record"):
        row = next((i for i, text in enumerate(texts) if text.startswith(f"{name.capitalize()}: ")), None)
        assert (row is not None) == (name in sheets), name
        if row is not None:
            first = int(re.match(r"\d+", texts[row + 1])[0])
            assert pack.sheets[first - 1].title.startswith(FIRST_WORDS[name])
    if "cards" in sheets:
        row = texts.index("Cleat")
        assert pack.sheets[int(texts[row + 3]) - 1].title == "Card of Cleat"  # name, id, pieces (no hand is given), page
    assert f"page 1 of {len(pack.sheets)}" in texts


def test_bookmarks_name_the_first_page_of_each_kind():
    pack = make_pack(job(), RACK, A4, date=DAY)
    reader = PdfReader(io.BytesIO(pack.pdf()))
    marks = {mark.title: reader.get_destination_page_number(mark) for mark in reader.outline}
    for words in ("Shop pack", "Safety at each step", "Receiving the stock", "Tags", "Record for the builder's file"):
        assert pack.sheets[marks[words]].title.startswith(words)
    assert any(title.startswith("Card A1 Cleat") for title in marks)


def test_progress_rises_from_nothing_to_all():
    heard: list[float] = []
    pack = make_pack(job(), RACK, A4, date=DAY, progress=lambda share, words: heard.append(share))
    pack.pdf(lambda page: heard.append(0.8 + 0.2 * page / len(pack.sheets)))
    assert heard == sorted(heard) and heard[-1] == 1.0 and len(heard) > len(pack.sheets)


def test_the_command_takes_names_and_says_which_there_are(tmp_path, capsys, project):
    files = [shutil.copy(project / "notebooks" / "demo" / name, tmp_path) for name in ("job.toml", "rack.csv")]  # the plan is kept beside them
    files = list(map(str, files))
    assert main(["pack", *files, "--out", str(tmp_path / "few"), "--sheets", "tags, plan"]) == 0
    pages = PdfReader(tmp_path / "few" / "shop-pack.pdf").pages
    assert pages[0].extract_text().startswith("Plan for") and "Tags, sheet 4 of 4" in pages[-1].extract_text()
    capsys.readouterr()
    assert main(["pack", *files, "--out", str(tmp_path / "none"), "--sheets", "stickers"]) == 2
    said = capsys.readouterr().err
    assert "stickers" in said and "receiving" in said and not (tmp_path / "none").exists()


# --- the version -----------------------------------------------------------------------------------------------
def test_the_version_stands_on_every_page():
    trial = job()
    for sheet in make_pack(trial, RACK, LETTER, date=DAY).sheets:
        assert f"Trial, 2024-05-01, version {version(trial)}" in text_of(sheet), sheet.title


def test_other_limits_on_the_command_line_are_another_version():
    trial, wide = job(), Limits.named("1/32")
    sheet = make_pack(trial, RACK, LETTER, date=DAY, limits=wide, sheets=("cards",)).sheets[0]
    said = " ".join(text_of(sheet))
    assert f"version {version(replace(trial, limits=wide))}" in said and version(trial) not in said


def test_the_same_numbers_are_the_same_version_and_any_other_number_is_another():
    known = version(job())
    assert re.fullmatch(r"[0-9a-f]{4}-[0-9a-f]{4}", known)
    same = [job(BAR, CLEAT), job(replace(CLEAT, length=Fraction("2.125")), BAR), job(shop=Shop(kerf="0.0625"))]
    assert {version(one) for one in same} == {known}
    other = [
        job(shop=Shop(kerf="1/32")),
        job(shop=Shop(allowance=0)),
        job(replace(CLEAT, length=Fraction(2)), BAR),
        job(replace(CLEAT, quantity=3), BAR),
        job(replace(CLEAT, tapers=(Taper("A", 2, "3/8", run="1 1/4"),)), BAR),
        job(CLEAT, replace(BAR, holes=(Hole("A", 1, "3/8", "5/32"),))),
        job(CLEAT),
        Job("Another", Shop(), (CLEAT, BAR)),
        replace(job(), unit="mm"),
        replace(job(), limits=Limits.named("1/32")),
        job(CLEAT, replace(BAR, unit="mm")),
    ]
    assert len({known, *(version(one) for one in other)}) == len(other) + 1


def test_a_long_name_gives_way_to_the_day_and_the_version():
    page = Page("Trial", "One word.", (Label(20, 100, "Cleat"),))
    foot = text_of(page.sheet(A4, "W" * 60, "2024-05-01", 1, 1, "1234-abcd"))
    assert any(text.endswith("..., 2024-05-01, version 1234-abcd") for text in foot)


def test_nothing_to_print_is_a_sentence(monkeypatch):
    monkeypatch.setattr("anglelib.paper.pack.template_pages", lambda *_, **__: [])
    with pytest.raises(BenchError, match="nothing to print"):
        make_pack(job(BAR), RACK, A4, date=DAY, sheets=("templates",))
