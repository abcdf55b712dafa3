"""A page whose drawings are laid on the metal: what belongs together on one page, evenly down it, over its bars; its strip says whose it is."""

import itertools

import pytest
from printed_pages import PARTS

from anglelib.drawing.letters import box
from anglelib.drawing.sheet import Label, Line
from anglelib.errors import BenchError
from anglelib.paper.page import A4, FIGURE, LETTER, SMALL
from anglelib.paper.print_scale import AS_PRINTED, measured
from anglelib.paper.true_size import room, title_strip, true_size_pages

ON = pytest.mark.parametrize("on", [A4, LETTER], ids=lambda on: on.name)
PART = PARTS["flat-B-2"]
HEAD = (Label(20, 250, "head"),)


def bar(deep: float, name: str):
    return (Line(20, 0, 60, 0, "fold"), Line(20, -deep, 60, -deep, "fold"), Label(22, -deep / 2, name, SMALL, "start")), deep


def laid(on, units, scale=AS_PRINTED, top=220.0):
    return true_size_pages(PART, "fold sheet", "A fold sheet.", HEAD, top, units, on, scale)


def spans(page) -> list[tuple[str, float, float]]:
    rules = [item.y1 for item in page.items if isinstance(item, Line) and item.kind == "fold"]
    names = [item.text for item in page.items if isinstance(item, Label) and item.text.startswith("block")]
    return [(name, high, low) for name, high, low in zip(names, rules[::2], rules[1::2], strict=True)]


def bars_top(page) -> float:
    """How high the bars across the foot of the page reach, with their words."""
    return max(box(item)[2][1] for item in page.items if isinstance(item, Label) and item.text.startswith("check on the print"))


@ON
@pytest.mark.parametrize("depths", [[[30]], [[80, 80]], [[60, 60], [60, 60]], [[90, 90], [20, 20], [100], [150]], [[60, 60, 60, 60, 60]], [[186.0]], [[91.5, 91.5]], [[92, 91.1], [10]]])
def test_what_belongs_together_stays_on_one_page_evenly_over_its_bars(on, depths):
    number = itertools.count()
    units = [[bar(deep, f"block {next(number)}") for deep in unit] for unit in depths]
    pages = laid(on, units)
    place = {name: n for n, page in enumerate(pages) for name, _, _ in spans(page)}
    assert [name for page in pages for name, _, _ in spans(page)] == [f"block {n}" for n in range(next(number))]
    at = 0
    for unit in depths:
        if sum(unit) + 3 * (len(unit) - 1) <= 220 - on.bottom - 14:  # it has room on one page
            assert len({place[f"block {n}"] for n in range(at, at + len(unit))}) == 1, unit
        at += len(unit)
    for n, page in enumerate(pages):
        assert page.items[0] == HEAD[0]  # whose it is, on each
        here = spans(page)
        gaps = [220 - here[0][1], *(a[2] - b[1] for a, b in itertools.pairwise(here))]
        assert max(gaps) - min(gaps) < 1e-6 and -1e-9 <= gaps[0] <= 10 + 1e-6
        assert here[-1][2] >= on.bottom + 14 - 1e-6 and here[-1][2] > bars_top(page)
        left = here[-1][2] - on.bottom - 14
        assert left >= gaps[0] - 1e-6 and (gaps[0] > 10 - 1e-6 or left < gaps[0] + 1e-6)  # as much below as between, up to a centimetre
        assert page.bookmark == ("Fold sheet flat-B-2" if n == 0 else "")
        count = [item for item in page.items if isinstance(item, Label) and item.text.startswith("sheet ")]
        if len(pages) == 1:
            assert not count and page.title == "Fold sheet of Trial flat-B-2" and page.sentence == "A fold sheet."
        else:
            assert count[0].text == f"sheet {n + 1} of {len(pages)}" and (count[0].x, count[0].anchor, count[0].height) == (on.right, "end", FIGURE)
            assert page.title.endswith(f", sheet {n + 1} of {len(pages)}") and page.sentence == f"A fold sheet. Sheet {n + 1} of {len(pages)}"
        if n:  # the next page begins where there was no more room
            over = spans(pages[n - 1])
            used = sum(high - low + 3 for _, high, low in over)
            unit = next(unit for unit, first in zip(depths, itertools.accumulate([0, *map(len, depths)])) if first <= int(here[0][0].split()[1]) < first + len(unit))
            assert used + min(here[0][1] - here[0][2], sum(unit)) > 220 - on.bottom - 14 - 1e-6 or used + sum(unit) + 3 * (len(unit) - 1) > 220 - on.bottom - 14


@ON
def test_the_strip_says_whose_it_is_and_how_it_is_used(on):
    y, items = title_strip(PART, "fold sheet", "Lay it on. " * 30, on, AS_PRINTED)
    name, what, facts, *how = items
    assert (name.text, name.x, name.y, name.anchor) == ("Trial flat-B-2", on.left, on.top, "start") and (what.text, what.x, what.y, what.anchor) == ("fold sheet, 1:1", on.right, on.top, "end")
    assert box(name)[1][0] < box(what)[0][0] - 3 and facts.text.startswith("flat-B-2, 1 off") and "91 3/4 long" in facts.text
    assert 2 < name.y - name.height - facts.y < 5 and 2.5 < facts.y - SMALL - how[0].y < 4.5 and {one.x for one in (facts, *how)} == {on.left}
    assert 0.5 < how[-1].y - SMALL - y < 2.5 and all(box(one)[1][0] <= on.right for one in how)
    low, more = title_strip(PART, "fold sheet", "Lay it on. " * 30, on, measured("99.2 mm"))
    assert low < y and any(one.accent and "99.2 mm" in one.text for one in more) and [one for one in more if not one.accent] == list(items)
    long = title_strip(PARTS["mm-both"], "check print", "x", on, AS_PRINTED)[1]
    assert box(long[0])[1][0] < box(long[1])[0][0] - 3


@ON
def test_a_drawing_leaves_room_for_the_bar_at_the_right_edge(on):
    [page] = laid(on, [[bar(30, "block 0")]])
    upright = [item for item in page.items if isinstance(item, Label) and item.rotation]
    assert len(upright) == 1 and min(x for x, _ in box(upright[0])) > on.left + room(on) + 0.5 and 5 < on.right - on.left - room(on) < 12


@pytest.mark.parametrize("text", ["102 mm", "98 mm", "4.08 in", "3.92 in"])
def test_a_printer_may_be_off_by_two_in_a_hundred_and_no_more(text):
    assert abs(measured(text).up - 1) == pytest.approx(0.02)
    number, unit = text.split()
    with pytest.raises(BenchError, match="a page fitted to the paper"):
        measured(f"{float(number) + (0.01 if float(number) > (100 if unit == 'mm' else 4) else -0.01):.2f} {unit}")


def test_a_printer_that_stretches_has_its_page_drawn_smaller():
    [page], [made_up] = laid(A4, [[bar(30, "block 0")]]), laid(A4, [[bar(30, "block 0")]], measured("102 mm, 98 mm"))
    (_, high, low), (_, up, down) = spans(page)[0], spans(made_up)[0]
    assert (up - down) * 0.98 == pytest.approx(high - low)
    wide = [next(item.x2 - item.x1 for item in one.items if isinstance(item, Line) and item.kind == "fold") for one in (page, made_up)]
    assert wide[1] * 1.02 == pytest.approx(wide[0])
