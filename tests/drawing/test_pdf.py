"""The PDF writer: every kind of item where the sheet says, on the raster; text that can be selected; the same bytes twice."""

from __future__ import annotations

import datetime
import io

import pypdfium2
import pytest
from pypdf import PdfReader

from anglelib.drawing.letters import text_width
from anglelib.drawing.pdf import font_file, pdf, save_pdf
from anglelib.drawing.sheet import Arc, Circle, Hatch, Label, Line, Sheet, polygon

DPI = 300


def raster(*items, width=60.0, height=40.0, theme="paper"):
    sheet = Sheet(width, height, items, "Trial", "A trial.")
    page = pypdfium2.PdfDocument(io.BytesIO(pdf([sheet], "Trial", theme=theme)))[0]
    image = page.render(scale=DPI / 72).to_pil().convert("L")
    across, down = image.width / width, image.height / height
    return lambda x, y: image.getpixel((int(x * across), int((height - y) * down)))


def test_each_kind_of_item_is_where_the_sheet_says():
    dark = raster(
        Line(5, 5, 55, 5),
        polygon([(10, 10), (20, 10), (20, 20), (10, 20)], "", "ink"),
        polygon([(12, 12), (18, 12), (18, 18), (12, 18)], "", "paper"),
        Circle(30, 15, 5),
        Arc(45, 15, 5, 0, 90),
        Hatch(((5, 25), (25, 25), (25, 35), (5, 35)), 45, 2.0),
    )
    assert dark(30, 5) < 60 and dark(30, 6) > 200
    assert dark(11, 15) < 60 and dark(15, 15) > 200  # the paper lies over the ink
    assert dark(35, 15) < 60 and dark(30, 20) < 60 and dark(30, 15) > 200
    assert dark(49.99, 15.3) < 128 and dark(45.3, 19.99) < 128 and dark(40, 15) > 200  # a quarter, anticlockwise from the right
    shades = [dark(5 + i / 4, 30) for i in range(4, 76)]
    assert min(shades) < 90 and max(shades) > 200


@pytest.mark.parametrize("anchor, x", [("start", 10.0), ("middle", 30.0), ("end", 50.0)])
def test_letters_stand_where_the_layout_measured_them(anchor, x):
    wide = text_width("HHHH", 5.0)
    left = {"start": x, "middle": x - wide / 2, "end": x - wide}[anchor]
    dark = raster(Label(x, 20, "HHHH", 5.0, anchor))
    row = [i / 10 for i in range(0, 600) if dark(i / 10, 22.5) < 128]
    # the letter H has a little air at either side
    assert row[0] == pytest.approx(left + 0.098 * 5.0 / 0.729, abs=0.2)
    assert row[-1] == pytest.approx(left + wide - 0.098 * 5.0 / 0.729, abs=0.2)
    column = [i / 10 for i in range(1, 400) if dark(row[0] + 0.2, i / 10) < 128]
    assert column[-1] - column[0] == pytest.approx(5.0, abs=0.2)  # capitals as high as they say


def test_a_turned_label_turns_about_its_point():
    dark = raster(Label(30, 10, "HHHH", 3.5, "start", rotation=90))
    assert any(dark(28, 10 + i / 5) < 128 for i in range(0, 60)) and not any(dark(32, 10 + i / 5) < 128 for i in range(0, 60))


def test_a_halo_clears_what_was_drawn_before():
    assert raster(Line(5, 20, 55, 20), Label(30, 20, "I  I", 3.5, base="middle", halo=True))(30, 20) > 200


def test_the_file_says_what_it_is_and_is_the_same_twice(tmp_path):
    sheets = [Sheet(210, 297, (Label(20, 20, f"page {n}"),), "Trial", "A trial.") for n in (1, 2)]
    drawn: list[int] = []
    made = pdf(sheets, "A title ü", date=datetime.date(2024, 5, 1), subject="words", bookmarks={1: "second"}, drawn=drawn.append)
    assert drawn == [1, 2]
    assert made == pdf(sheets, "A title ü", date=datetime.date(2024, 5, 1), subject="words", bookmarks={1: "second"})
    reader = PdfReader(io.BytesIO(made))
    assert (reader.metadata.title, reader.metadata.subject) == ("A title ü", "words")
    assert reader.metadata["/CreationDate"].startswith("D:20240501")
    assert [mark.title for mark in reader.outline] == ["second"]
    assert [page.extract_text().strip() for page in reader.pages] == ["page 1", "page 2"]
    save_pdf(sheets, tmp_path / "trial.pdf", "A title ü", date=datetime.date(2024, 5, 1), subject="words", bookmarks={1: "second"})
    assert (tmp_path / "trial.pdf").read_bytes() == made


def test_the_font_is_the_one_that_is_measured():
    assert font_file().name == "DejaVuSans.ttf" and font_file().is_file()


def test_each_page_is_tagged_with_its_sentence_and_its_words():
    """ISO 32000-1, 14.7 and 14.8: the catalog is marked, the tree has each page's figure with its alternative text, and its text."""
    drawing = (Line(5, 5, 55, 5), Label(10, 10, "Cleat"), Line(5, 30, 55, 30), Label(10, 20, "Toe"))
    sheets = [Sheet(60, 40, drawing, f"Trial {n}", f"A trial, number {n} ±.") for n in (1, 2)]
    reader = PdfReader(io.BytesIO(pdf(sheets, "Trial")))
    root = reader.trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"] is True or root["/MarkInfo"]["/Marked"].value is True
    tree = root["/StructTreeRoot"]
    document = tree["/K"].get_object()
    assert document["/S"] == "/Document" and len(document["/K"]) == 2
    for number, section in enumerate(document["/K"]):
        section = section.get_object()
        figure, words = (kid.get_object() for kid in section["/K"])
        assert (section["/S"], figure["/S"], words["/S"]) == ("/Sect", "/Figure", "/P")
        assert section["/T"] == f"Trial {number + 1}" and figure["/Alt"] == f"A trial, number {number + 1} ±."
        page = reader.pages[number]
        assert figure["/Pg"].get_object()["/StructParents"] == number == page["/StructParents"] and page["/Tabs"] == "/S"
        content = page.get_contents().get_data().decode("latin-1")
        marks = [line.split() for line in content.splitlines() if line.endswith("BDC")]
        assert [mark[0] for mark in marks] == ["/Figure", "/P", "/Figure", "/P"] and content.count("EMC") == 4
        assert list(figure["/K"]) == [0, 2] and list(words["/K"]) == [1, 3]
        key, parents = tree["/ParentTree"]["/Nums"][2 * number : 2 * number + 2]
        assert key == number and [parent.get_object()["/S"] for parent in parents.get_object()] == ["/Figure", "/P", "/Figure", "/P"]


def test_the_tags_hide_no_words():
    sheet = Sheet(60, 40, (Label(10, 10, "Cleat"), Line(5, 5, 55, 5), Label(10, 20, "Toe")), "Trial", "A trial.")
    text = pypdfium2.PdfDocument(io.BytesIO(pdf([sheet], "Trial")))[0].get_textpage().get_text_range()
    assert "Cleat" in text and "Toe" in text
