"""The width table, held to the font; and the checks for hidden, clipped and struck-through labels."""

import io
import pathlib

import pytest
from PIL import Image

from anglelib.drawing import advances, measure_font
from anglelib.drawing.checks import clipped, overlaps, struck
from anglelib.drawing.letters import CAPITAL, box, halo, text_width
from anglelib.drawing.mpl import MM, page
from anglelib.drawing.sheet import Label, Line, Sheet, polygon

TEXTS = ("1 5/8 (1.625)", "leg A, outer face, seen from outside", "WAVE To. Yes", "θ 26.6°, Ø 3/16", "kerf 1/16")


def sheet(*items):
    return Sheet(100, 60, items, "t", "A trial sheet.")


def ink(items):
    """Where there is ink on a page drawn by matplotlib [mm]: left, bottom, right, top."""
    made = page(sheet(*items))
    out = io.BytesIO()
    made.savefig(out, format="png", dpi=508)  # 20 dots a millimetre
    grey = Image.open(io.BytesIO(out.getvalue())).convert("L").point(lambda v: 255 if v < 128 else 0)
    left, top, right, bottom = grey.getbbox()
    return left / 20, 60 - bottom / 20, right / 20, 60 - top / 20


def test_the_table_is_that_of_the_font():
    assert pathlib.Path(advances.__file__).read_text(encoding="utf-8") == measure_font.source()


@pytest.mark.parametrize("text", TEXTS)
def test_a_rendered_line_is_as_wide_as_the_table_says(text):
    left, _, right, _ = ink([Label(5, 20, text, 3.5, "start")])
    # the renderer draws some pairs closer (kerning) and leaves the side bearings white: never wider
    assert 0.92 * text_width(text, 3.5) - 0.8 < right - left <= text_width(text, 3.5)


def test_letter_height_is_the_height_of_the_capitals():
    _, bottom, _, top = ink([Label(5, 20, "HEEL", 7, "start")])
    assert top - bottom == pytest.approx(7, abs=0.06)
    assert bottom == pytest.approx(20, abs=0.06)
    assert CAPITAL == pytest.approx(1493 / 2048, abs=1e-5)  # the font's own capital height


@pytest.mark.parametrize("rotation", [0, 90, -30])
@pytest.mark.parametrize("anchor", ["start", "middle", "end"])
@pytest.mark.parametrize("base", ["bottom", "middle", "top"])
def test_the_box_holds_the_ink(rotation, anchor, base):
    label = Label(50, 30, "toe gap (1)", 3.5, anchor, base, rotation)
    corners = box(label)
    left, bottom, right, top = ink([label])
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    assert min(xs) - 0.15 <= left and right <= max(xs) + 0.15
    assert min(ys) - 0.15 <= bottom and top <= max(ys) + 0.35  # a bracket rises a little over the capitals


def test_overlap_clip_and_strike_are_found():
    one, two = Label(50, 30, "heel"), Label(52, 31, "toe")
    assert overlaps(sheet(one, two)) == [(one, two)]
    assert overlaps(sheet(one, Label(50, 35.2, "toe"))) == []
    assert overlaps(sheet(Label(50, 30, "heel", rotation=45), Label(58, 28, "toe"))) == []
    assert clipped(sheet(Label(2, 30, "heel"))) and not clipped(sheet(one))
    line = Line(0, 31, 99, 31)
    assert struck(sheet(line, one)) == [(one, line)]
    assert struck(sheet(line, Label(50, 30, "heel", halo=True))) == []
    assert struck(sheet(Label(50, 30, "heel", halo=True), line))  # a halo clears only what lies under it
    frame = polygon(((40, 28), (60, 28), (60, 36), (40, 36)), "narrow", "paper")
    assert struck(sheet(line, frame, one)) == []


def test_the_projector_theme_enlarges_small_letters_and_the_check_follows():
    tall = Sheet(200, 200, (Label(50, 100, "heel"), Label(50, 105.5, "toe")), "t", "A tall sheet.")
    assert overlaps(tall) == [] and len(overlaps(tall, "projector")) == 1


def test_the_halo_is_the_box_and_a_margin():
    label = Label(50, 30, "HEEL", 4, "start")
    (x1, y1), _, (x2, y2), _ = halo(label)
    assert (x1, y1) == pytest.approx((49, 29)) and y2 == pytest.approx(35)
    assert x2 == pytest.approx(51 + text_width("HEEL", 4))
    assert MM == 25.4
