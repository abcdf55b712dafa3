"""Pages through matplotlib, measured on the raster and in the PDF."""

import datetime
import io

import pypdfium2
import pytest
from PIL import Image
from pypdf import PdfReader

from anglelib.drawing import mpl
from anglelib.drawing.escape import clean
from anglelib.drawing.sheet import Label, Line, Sheet, polygon
from anglelib.drawing.svg import fingerprint
from anglelib.drawing.symbols import check_bar

A4 = Sheet(210, 297, check_bar(40, 100) + (Line(40, 200, 140, 200, "outline"),), "Check bar", "A check bar, 100 mm.")
LETTER = Sheet(215.9, 279.4, check_bar(40, 100), "Check bar", "A check bar, 100 mm.")


def rows(image, high, y, dpi):
    """First and last dark pixel of the row at height y [mm], as millimetres."""
    row = round((high - y) / 25.4 * dpi)
    dark = [x for x in range(image.width) if image.getpixel((x, row)) < 128]
    return dark[0] * 25.4 / dpi, (dark[-1] + 1) * 25.4 / dpi


@pytest.mark.parametrize("sheet", [A4, LETTER])
@pytest.mark.parametrize("y, length", [(100.12, 100.0), (107.12, 101.6)])
def test_the_check_bar_measures_what_it_says_at_300_dpi(sheet, y, length):
    document = pypdfium2.PdfDocument(mpl.pdf([sheet], "Check"))
    image = document[0].render(scale=300 / 72).to_pil().convert("L")
    left, right = rows(image, sheet.height, y, 300)
    assert right - left == pytest.approx(length, abs=0.1)
    assert left == pytest.approx(40, abs=0.1)


def test_a_wide_line_is_as_long_as_it_says():
    image = pypdfium2.PdfDocument(mpl.pdf([A4], "Check"))[0].render(scale=300 / 72).to_pil().convert("L")
    left, right = rows(image, 297, 200, 300)
    assert right - left == pytest.approx(100, abs=0.1)


def test_pages_have_the_size_of_their_sheets_and_are_not_to_be_scaled():
    reader = PdfReader(io.BytesIO(mpl.pdf([A4, LETTER], "Shop pack", date=datetime.datetime(2024, 5, 1))))
    for made, sheet in zip(reader.pages, (A4, LETTER), strict=True):
        assert float(made.mediabox.width) == pytest.approx(sheet.width / 25.4 * 72, abs=0.01)
        assert float(made.mediabox.height) == pytest.approx(sheet.height / 25.4 * 72, abs=0.01)
    assert reader.trailer["/Root"]["/ViewerPreferences"]["/PrintScaling"] == "/None"
    assert reader.metadata.title == "Shop pack" and "A check bar" in reader.metadata.subject
    assert reader.metadata["/CreationDate"] == "D:20240501000000"
    fonts = reader.pages[0]["/Resources"]["/Font"]
    assert {font.get_object()["/Subtype"] for font in fonts.values()} <= {"/TrueType", "/Type0"}  # embedded, not outlines


def test_the_same_sheets_make_the_same_file():
    assert mpl.pdf([A4], "Check") == mpl.pdf([A4], "Check")
    assert "/CreationDate" not in (PdfReader(io.BytesIO(mpl.pdf([A4], "Check"))).metadata or {})


def test_a_png_carries_its_words_and_fingerprint(tmp_path):
    path = tmp_path / "bar.png"
    mpl.save_png(A4, path, dpi=100)
    assert mpl.png_fingerprint(path) == fingerprint(A4)
    with Image.open(path) as image:
        assert image.text["Description"] == A4.sentence and "Software" not in image.text
        assert image.size == (826, 1169)  # 210 x 297 mm, whole dots
    Image.new("L", (2, 2)).save(path)
    assert mpl.png_fingerprint(path) == ""


@pytest.mark.parametrize("name", ['"><img src=x onerror=alert(1)>', "Cleat $a_{$", "$\\frac{1}{0}$", "a\x00b\u202ec \\ \n d"])
def test_a_name_is_never_read_as_mathematics(name):
    sheet = Sheet(100, 30, (Label(50, 10, name),), name, f"Part {name}.")
    figure = mpl.page(sheet)
    assert [text.get_text() for text in figure.axes[0].texts] == [clean(name)]
    assert mpl.png(sheet, dpi=72).startswith(b"\x89PNG")
    text = pypdfium2.PdfDocument(mpl.pdf([sheet], name))[0].get_textpage().get_text_range()
    assert text.replace("\r\n", "").replace(" ", "") == clean(name).replace(" ", "")


def test_draw_is_pure_and_keeps_the_drawings_proportions():
    from matplotlib import rcParams
    from matplotlib.figure import Figure

    before = dict(rcParams)
    figure = Figure(figsize=(4, 4))
    axes = figure.subplots()
    mpl.draw(axes, Sheet(200, 100, (Line(0, 0, 9, 9, "outline"), Label(50, 50, "heel")), "t", "s"))
    assert dict(rcParams) == before
    assert len(figure.axes) == 1 and not axes.axison
    width = axes.collections[0].get_linewidth()[0]
    assert width < 0.7 * 72 / 25.4  # smaller than on the sheet itself
    assert axes.texts[0].get_fontsize() / width == pytest.approx(3.5 / 0.729 / 0.7)


def test_dashes_are_as_long_as_the_style_says():
    sheet = Sheet(100, 20, (Line(10, 10, 90, 10, "hidden"),), "t", "s")
    image = pypdfium2.PdfDocument(mpl.pdf([sheet], "t"))[0].render(scale=20 * 25.4 / 72).to_pil().convert("L")
    row = [image.getpixel((x, image.height // 2)) < 128 for x in range(image.width)]
    start = row.index(True)
    dash = row.index(False, start) - start
    assert dash / 20 == pytest.approx(2.8, abs=0.1)


def test_filled_shapes_without_an_edge_have_their_exact_size():
    sheet = Sheet(60, 40, (polygon(((10, 10), (40, 10), (40, 20), (10, 20)), "", "ink"),), "t", "s")
    image = pypdfium2.PdfDocument(mpl.pdf([sheet], "t"))[0].render(scale=300 / 72).to_pil().convert("L")
    left, right = rows(image, 40, 15, 300)
    assert right - left == pytest.approx(30, abs=0.1)
