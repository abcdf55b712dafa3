"""What is printed: pages through matplotlib and through the PDF writer, measured on the raster."""

import io

import pypdfium2
import pytest
from PIL import Image
from pypdf import PdfReader

from anglelib.drawing import mpl
from anglelib.drawing.escape import clean
from anglelib.drawing.pdf import pdf
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


def through_mpl(sheet):
    out = io.BytesIO()
    mpl.page(sheet).savefig(out, format="pdf")
    return out.getvalue()


def through_pdf(sheet):
    return pdf([sheet], "Check")


WRITERS = (through_mpl, through_pdf)


def raster(write, sheet, dots=300 / 25.4):
    """The page in grey, so many dots a millimetre."""
    return pypdfium2.PdfDocument(write(sheet))[0].render(scale=dots * 25.4 / 72).to_pil().convert("L")


@pytest.mark.parametrize("write", WRITERS)
@pytest.mark.parametrize("sheet", [A4, LETTER])
@pytest.mark.parametrize("y, length", [(100.12, 100.0), (107.12, 101.6)])
def test_the_check_bar_measures_what_it_says_at_300_dpi(write, sheet, y, length):
    left, right = rows(raster(write, sheet), sheet.height, y, 300)
    assert right - left == pytest.approx(length, abs=0.1)
    assert left == pytest.approx(40, abs=0.1)


@pytest.mark.parametrize("write", WRITERS)
def test_a_wide_line_is_as_long_as_it_says(write):
    left, right = rows(raster(write, A4), 297, 200, 300)
    assert right - left == pytest.approx(100, abs=0.1)


@pytest.mark.parametrize("write", WRITERS)
@pytest.mark.parametrize("sheet", [A4, LETTER])
def test_pages_have_the_size_of_their_sheets(write, sheet):
    (made,) = PdfReader(io.BytesIO(write(sheet))).pages
    assert float(made.mediabox.width) == pytest.approx(sheet.width / 25.4 * 72, abs=0.01)
    assert float(made.mediabox.height) == pytest.approx(sheet.height / 25.4 * 72, abs=0.01)


def test_text_is_text_in_an_embedded_font():
    (made,) = PdfReader(io.BytesIO(through_pdf(A4))).pages
    fonts = [font.get_object() for font in made["/Resources"]["/Font"].values()]
    assert {font["/Subtype"] for font in fonts} <= {"/TrueType", "/Type0"}
    assert "this bar is 100 mm" in made.extract_text()


def test_the_same_sheets_make_the_same_file_and_are_not_to_be_scaled():
    one = pdf([A4, LETTER], "Shop pack")
    assert one == pdf([A4, LETTER], "Shop pack")
    reader = PdfReader(io.BytesIO(one))
    assert reader.trailer["/Root"]["/ViewerPreferences"]["/PrintScaling"] == "/None"
    assert reader.metadata.title == "Shop pack" and len(reader.pages) == 2


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
    for write in WRITERS:
        text = pypdfium2.PdfDocument(write(sheet))[0].get_textpage().get_text_range()
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


@pytest.mark.parametrize("write", WRITERS)
def test_dashes_are_as_long_as_the_style_says(write):
    image = raster(write, Sheet(100, 20, (Line(10, 10, 90, 10, "hidden"),), "t", "s"), 20)
    row = [image.getpixel((x, image.height // 2)) < 128 for x in range(image.width)]
    start = row.index(True)
    dash = row.index(False, start) - start
    assert dash / 20 == pytest.approx(2.8, abs=0.1)


@pytest.mark.parametrize("write", WRITERS)
def test_filled_shapes_without_an_edge_have_their_exact_size(write):
    sheet = Sheet(60, 40, (polygon(((10, 10), (40, 10), (40, 20), (10, 20)), "", "ink"),), "t", "s")
    left, right = rows(raster(write, sheet), 40, 15, 300)
    assert right - left == pytest.approx(30, abs=0.1)
