"""The eye itself: on pages and pictures written here by hand it finds each fault that is planted, by its kind, and nothing on the one without."""

import io

import judges
import page_reader
import pytest
import svg_reader

MM = 72 / 25.4


# --- a page, by reportlab's own hand --------------------------------------------------------------------------
def page(*more, wide=120.0, high=80.0, clear=page_reader.PRINTER):
    """A page with three words, a frame and a ruled line, and what more is done to it."""
    from reportlab.pdfgen.canvas import Canvas

    out = io.BytesIO()
    canvas = Canvas(out, pagesize=(wide * MM, high * MM), invariant=1)
    canvas.scale(MM, MM)
    canvas.setLineWidth(0.35)
    canvas.rect(10, 10, 100, 60)
    canvas.line(20, 28, 100, 28)
    write(20, 30, "Cleat (1 of 6)")(canvas)
    write(20, 50, "heel")(canvas)
    write(60, 40, "toe, turned", turn=40)(canvas)
    write(105, 20, "upward", turn=90)(canvas)
    for do in more:
        do(canvas)
    canvas.showPage()
    canvas.save()
    (look,) = page_reader.looks(out.getvalue(), clear=clear)
    return look


def write(x, y, text, size=3.6, turn=0.0, grey=0.0):
    def do(canvas):
        canvas.saveState()
        canvas.setFillGray(grey)
        canvas.translate(x, y)
        canvas.rotate(turn)
        canvas.setFont("Helvetica", size)
        canvas.drawString(0, 0, text)
        canvas.restoreState()

    return do


def line(*ends, wide=0.35, grey=0.0):
    def do(canvas):
        canvas.setStrokeGray(grey)
        canvas.setLineWidth(wide)
        canvas.line(*ends)

    return do


def filled(x, y, wide, high, grey):
    def do(canvas):
        canvas.saveState()
        canvas.setFillGray(grey)
        canvas.rect(x, y, wide, high, stroke=0, fill=1)
        canvas.restoreState()

    return do


PLANTED = {
    "a word over another": (write(24, 50.5, "datum"), {"overlap"}),
    "a word that touches the one above it": (write(20, 47.6, "dot"), {"overlap"}),
    "a turned word over another": (write(60, 44, "datum", turn=10), {"overlap"}),
    "a number close behind a word": (write(27.0, 50, "17"), {"together"}),
    "a white box on a word": (filled(19, 49, 20, 5, 1.0), {"hidden"}),
    "a white box on half of a letter": (filled(19, 51.3, 3, 3, 1.0), {"hidden"}),
    "a dark box on a word": (filled(19, 49, 20, 5, 0.2), {"struck", "touched", "faint"}),
    "a line through a word": (line(15, 51, 40, 51), {"struck", "touched"}),
    "a plumb line between two letters": (line(22.35, 45, 22.35, 60, wide=0.3), {"struck", "touched"}),
    "a line that touches a word from below": (line(15, 49.785, 40, 49.785), {"touched"}),
    "a line through a turned word": (line(62, 55, 90, 42), {"struck", "touched"}),
    "a line through an upward word": (line(100, 24, 108, 24), {"struck", "touched"}),
    "small letters": (write(20, 60, "small", 2.9), {"small"}),
    "small letters by a matrix": (lambda canvas: (canvas.translate(20, 60), canvas.scale(0.7, 0.7), write(0, 0, "small")(canvas)), {"small"}),
    "pale letters": (write(20, 60, "pale", grey=0.5), {"faint"}),
    "letters on grey": (lambda canvas: (filled(18, 58, 30, 8, 0.4)(canvas), write(20, 60, "grey")(canvas)), {"faint", "struck", "touched"}),
    "a word over the edge": (write(112, 60, "cut off"), {"cut", "outside"}),
    "a word beyond the edge": (write(130, 60, "gone"), {"cut"}),
    "a word in the printer's edge": (write(20, 3, "foot"), {"cut", "outside"}),
    "a line in the printer's edge": (line(3, 20, 3, 60), {"outside"}),
    "a white word": (write(20, 60, "white", grey=1.0), {"cut", "faint"}),
}


def test_nothing_is_found_on_a_clean_page():
    look = page()
    assert judges.faults(look) == []
    assert [word.text for word in look.words] == ["Cleat", "(1", "of", "6)", "heel", "toe,", "turned", "upward"]
    assert all(abs(word.capital - 2.6) < 0.1 for word in look.words)  # Helvetica's capitals are 0.718 of its size


@pytest.mark.parametrize("what", PLANTED)
def test_what_is_planted_on_a_page_is_found(what):
    do, kinds = PLANTED[what]
    assert {fault.kind for fault in judges.faults(page(do))} == kinds


def test_what_may_stand_on_a_page():
    """A ruled line under a word, a line behind a patch of paper, a paragraph, a caution in white on nothing."""
    may = (
        line(20, 49, 40, 49), line(50, 62.2, 90, 62.2), filled(59, 60, 22, 5, 1.0), write(60, 61, "on paper"),
        *(write(20, 24 - 5 * n, "A paragraph's line") for n in range(2)),
    )  # fmt: skip
    assert judges.faults(page(*may)) == []


# --- a picture, by hand ---------------------------------------------------------------------------------------
FRAME = '<path stroke="#161616" stroke-width="0.35" d="M10 10H110V70H10Z"/>'
WORDS = (
    '<text x="20" y="50" font-size="3.6" fill="#161616">Cleat (1 of 6)</text><text x="40" y="30" font-size="3.6" fill="#161616" text-anchor="middle">heel</text>'
    '<text x="60" y="50" font-size="3.6" fill="#161616" transform="rotate(-40 60 50)">toe, turned</text>'
)


def picture(more: str = "", before: str = ""):
    text = (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 120 80" fill="none"><title>t</title><path fill="#ffffff" d="M0 0H120V80H0Z"/>'
        f"{FRAME}{before}{WORDS}{more}</svg>"
    )
    return svg_reader.look(text)


def text(x, y, words, size=3.6, more=""):
    return f'<text x="{x}" y="{y}" font-size="{size}" fill="#161616" {more}>{words}</text>'


DRAWN = {
    "a word over another": (text(36, 31, "datum"), {"overlap"}),
    "a number close behind a word": (text(43.9, 30, "17"), {"together"}),
    "a white box on a word": ('<path fill="#ffffff" d="M30 25H50V35H30Z"/>', {"hidden"}),
    "a line through a word": ('<path stroke="#161616" stroke-width="0.35" d="M30 29L50 29"/>', {"struck", "touched"}),
    "an arc through a word": ('<path stroke="#161616" stroke-width="0.35" d="M30 29A10 10 0 0 0 50 29"/>', set()),
    "an arc the other way": ('<path stroke="#161616" stroke-width="0.35" d="M30 38A14 14 0 0 1 50 38M30 38A12 12 0 0 0 50 38"/>', set()),
    "an arc into a word": ('<path stroke="#161616" stroke-width="0.35" d="M30 33A11.5 11.5 0 0 1 50 33"/>', {"struck", "touched"}),
    "small letters": (text(20, 20, "small", 3), {"small"}),
    "a squeezed word": (text(20, 20, "squeezed", more='textLength="14"'), {"stretched"}),
    "a word over the edge": (text(112, 60, "cut off"), {"cut"}),
    "a word half under the edge": (text(60, 81, "low"), {"cut"}),
    "a pale word": ('<text x="20" y="20" font-size="3.6" fill="#999999">pale</text>', {"faint"}),
    "a turned word over another": (text(38, 36, "datum", more='transform="rotate(-60 38 36)"'), {"overlap"}),
}


def test_nothing_is_found_on_a_clean_picture():
    look = picture()
    assert judges.faults(look) == []
    assert [word.text for word in look.words] == ["Cleat", "(1", "of", "6)", "heel", "toe,", "turned"]


@pytest.mark.parametrize("what", DRAWN)
def test_what_is_planted_in_a_picture_is_found(what):
    more, kinds = DRAWN[what]
    assert {fault.kind for fault in judges.faults(picture(more))} == kinds


def test_a_line_behind_a_patch_of_paper_strikes_nothing():
    assert judges.faults(picture(before='<path stroke="#161616" stroke-width="0.35" d="M30 29L50 29"/><path fill="#ffffff" d="M32 25H48V35H32Z"/>')) == []


@pytest.mark.parametrize("strange", ["<rect/>", '<path stroke="#161616" stroke-width="1" d="M1 1Q2 2 3 3"/>', '<path stroke="#161616" stroke-width="1" d="M1 1A1 2 0 0 0 3 3"/>'])
def test_what_the_reader_does_not_know_it_does_not_pass_over(strange):
    with pytest.raises(ValueError, match="no reader"):
        picture(strange)


def test_an_arc_goes_the_way_that_the_standard_says():
    """SVG 2, 9.3.8: from (0, 0) to (10, 0) by a radius of 5: with sweep it goes clockwise, y being down, so over the top."""
    (over, _), = svg_reader._lines("M0 0A5 5 0 0 1 10 0")
    (under, _), = svg_reader._lines("M0 0A5 5 0 0 0 10 0")
    assert min(y for _, y in over) == pytest.approx(-5, abs=0.05) and max(y for _, y in under) == pytest.approx(5, abs=0.05)
    (most, _), = svg_reader._lines("M10 0A10 10 0 1 1 0 -10")
    assert len(most) > 40 and max(y for _, y in most) == pytest.approx(10, abs=0.1)


def test_contrast_is_that_of_the_definition():
    """Black on white is 21 to 1; #767676 is the best known grey at 4.54 to 1 (WCAG 2.2, understanding 1.4.3)."""
    assert judges.contrast(0, 255) == pytest.approx(21) and judges.contrast(0x76, 255) == pytest.approx(4.54, abs=0.01)
