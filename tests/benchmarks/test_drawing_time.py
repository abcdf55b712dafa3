"""How quickly a drawing becomes SVG text: against plain string formatting on the same machine, and against matplotlib."""

import time

from anglelib.drawing import mpl
from anglelib.drawing.sheet import Sheet, move
from anglelib.drawing.sheets import inner_sheet, outer_sheet
from anglelib.drawing.svg import svg
from anglelib.part import Hole, Part, Taper
from anglelib.section import Section

STOCK = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
BRACKET = Part("C1L", "Bracket", STOCK, "6061-T6", "4 3/4", tapers=[Taper("A", 1, run="2 1/8")], holes=[Hole("A", 3, "11/16", "3/16")])


def quickest(what, times=25):
    best = 1e9
    for _ in range(times):
        start = time.perf_counter()
        what()
        best = min(best, time.perf_counter() - start)
    return best


def yardstick():
    """A thousand short strings: a millisecond or less on any machine that runs the course."""
    return "".join([f"{i * 0.37:.2f} " for i in range(1000)])


def moved_sheets(count):
    """The same drawing at other places, so that no number is remembered from the one before."""
    sheet = inner_sheet(BRACKET, "A")
    return iter([Sheet(sheet.width, sheet.height, move(sheet.items, i * 0.0137, i * 0.0071), "t", "s") for i in range(count)])


def test_svg_text_takes_no_longer_than_a_few_thousand_strings():
    sheets = moved_sheets(30)
    taken = quickest(lambda: svg(next(sheets)))
    assert taken < 6 * quickest(yardstick), (taken, quickest(yardstick))


def test_svg_is_far_quicker_than_matplotlib():
    sheet = inner_sheet(BRACKET, "A")
    mpl.page(sheet)
    assert quickest(lambda: mpl.png(sheet, dpi=100), 3) > 30 * quickest(lambda: svg(sheet))


def test_a_new_drawing_of_a_face_is_quick():
    """Marks, views, figures kept apart, and the text: what a slider's move costs the kernel."""
    taken = quickest(lambda: svg(outer_sheet(BRACKET, "A", stage="layout")))
    assert taken < 25 * quickest(yardstick), (taken, quickest(yardstick))
