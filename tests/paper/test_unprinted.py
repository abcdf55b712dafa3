"""Names in letters that the print's font lacks: said in words before anybody prints, and no empty box on the paper."""

import io

import pypdf
import pytest
from fontTools.ttLib import TTFont

from anglelib.drawing.pdf import as_printed, font_file, lacking, pdf
from anglelib.drawing.sheet import Label, Sheet
from anglelib.job import Job, Shop
from anglelib.lessons.demo import demo_job, demo_rack
from anglelib.paper.pack import make_pack
from anglelib.paper.page import A4
from anglelib.paper.unprinted import unprinted, unprinted_words
from anglelib.part import Part
from anglelib.section import Section
from anglelib.stock.rack import Rack, Stick

STOCK = Section("3/4", "3/4", "1/8", fillet="1/8")
PRINTED = ("Cleat, left", "Winkel für Träger", "Кронштейн", "Γωνία", "Tấm đỡ", "Łącznik", "3/4 × 3/4, 30°")
NOT = {"床のキット": "?????", "कोण": "???", "مشبك": "????", "תפס 2": "??? 2", "cleat 床": "cleat ?"}


def bar(name: str, note: str = "") -> Part:
    return Part("A1", name, STOCK, "6061-T6", 6, note=note)


@pytest.mark.parametrize("name", PRINTED)
def test_what_the_font_has_is_printed_as_it_is(name):
    with TTFont(font_file()) as font:  # the font itself, by another reader
        assert set(map(ord, name)) <= set(font.getBestCmap())
    assert lacking(name) == "" and as_printed(name) == name
    assert unprinted(Job("Demo", Shop(), [bar(name)]), Rack([])) == ()


@pytest.mark.parametrize("name", NOT)
def test_what_it_lacks_is_a_question_mark_and_said(name):
    assert as_printed(name) == NOT[name]
    texts = unprinted(Job("Demo", Shop(), [bar(name)]), Rack([]))
    assert texts == (name,) and name in unprinted_words(texts)


def test_no_box_on_the_paper_and_the_pack_says_so():
    job = Job("床のキット", Shop(), [bar("कोण", note="मोड़")])
    pack = make_pack(job, Rack([Stick("S-1", STOCK, "6061-T6", 30, note="棚")]), A4, sheets=("cards", "receiving"))
    for text in ("床のキット", "कोण", "मोड़"):
        assert text in pack.unprinted
    assert "and 1 more" in pack.unprinted
    read = "".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(pack.pdf())).pages)
    assert "???" in read and not set("".join(("床のキット", "कोण", "मोड़", "棚"))) & set(read)
    assert "\x00" not in read and "\ufffd" not in read


def test_nothing_is_said_of_the_demo_kit():
    assert unprinted_words(unprinted(demo_job(), demo_rack())) == ""


def test_a_letter_on_the_paper_is_what_was_written():
    sheet = Sheet(80, 20, (Label(5, 5, "Кронштейн 床"),), "T", "S")
    assert pypdf.PdfReader(io.BytesIO(pdf([sheet], "T"))).pages[0].extract_text().strip() == "Кронштейн ?"
