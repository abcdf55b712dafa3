"""The list of a stick's cuts, measured where it stands: a box to tick, its number, what it frees, the line, the clamp; in order, one column or two."""

from __future__ import annotations

import itertools

import pytest

from anglelib.drawing.checks import bounds, overlaps, struck
from anglelib.drawing.letters import box
from anglelib.drawing.sheet import Item, Label, Line, Polyline, Sheet, move
from anglelib.paper.cut_rows import CutRow, row_blocks
from anglelib.paper.page import FIGURE, SMALL

WIDE = 192.0
LONG = ("its card: 2 5/32 from end 1, squared", "end 1 first: taper A", "then square the end that the stick keeps, and lay the next blank against it with end 2 leading")


def listed(number: int) -> list[CutRow]:
    """Rows of every kind: a trim, cleats that are clamped, one like the one before it, a long name, a head where the stick is turned, a set-up."""
    kinds = [
        CutRow("trim 1/4 in., square", "", "0"),
        CutRow("A1 (1 of 3)", "Floor cleat", "2 3/16 (2.188)", LONG, ("card: 2 5/32 from end 1", "T1"), "clamp: the piece that comes off is 2 3/16", "clamp: 2 3/16"),
        CutRow("A1 (2 of 3)", "Floor cleat", "4 7/16 (4.438)", LONG, ("card: 2 5/32 from end 1", "T1"), "clamp: the piece that comes off is 2 3/16", "clamp: 2 3/16"),
        CutRow("C12 (1 of 2)", "A name that is a good deal longer than its column can be made for it by anybody", "131 15/16 (131.938)", ("its card: 2 from end 1",), ("card: 2",), set_up="stop at 2 3/16", set_up_brief="stop 2 3/16"),
        CutRow("R1", "Rail", "10 1/16 (10.063)", head="Turn the stick end for end, heel down, its leg of 1 1/2 now towards you: the end at the left is the datum end of the lines below."),
    ]
    return [kinds[n % len(kinds)] for n in range(number)]


def labels(items) -> list[Label]:
    return [item for item in items if isinstance(item, Label)]


def ticks(items) -> list[tuple[float, float, float, float]]:
    found = []
    for item in items:
        if isinstance(item, Polyline) and item.closed and len(item.points) == 4 and item.fill == "paper":
            xs, ys = [x for x, _ in item.points], [y for _, y in item.points]
            found.append((min(xs), min(ys), max(xs), max(ys)))
    return found


def triangles(items) -> list[tuple[float, float, float, float]]:
    return [bounds((item,)) for item in items if isinstance(item, Polyline) and len(item.points) == 3]


@pytest.mark.parametrize("number", [1, 5, 12, 13, 24, 60])
def test_rows_are_read_down_the_page(number):
    rows = listed(number)
    blocks = row_blocks(rows, WIDE, "S-04")
    two = number > 12
    half = WIDE / 2
    told: list[str] = []
    for which, (items, deep) in enumerate(blocks):
        left, bottom, right, top = bounds(items)
        assert left >= -1e-6 and right <= WIDE + 1e-6 and top <= 0.1 and -bottom <= deep <= -bottom + 0.6 and deep <= 115
        sheet = Sheet(WIDE + 20, deep + 20, move(items, 10, deep + 10), "cuts", "Cuts.")
        assert overlaps(sheet, "paper") == [] and struck(sheet, "paper") == []
        if which:
            head = labels(items)[0]
            assert head.text == f"S-04, its cuts from {len(told) + 1} on" and (head.x, head.y) == (0, 0)
        columns = [[item for item in items if (bounds((item,))[0] > half - 1) == bool(side)] for side in (0, 1)] if two else [list(items)]
        starts = [max(tick[3] for tick in ticks(column)) for column in columns if column]
        assert which == 0 or rows[len(told)].head or 0.5 < -SMALL - starts[0] < 4
        counts = []
        for side, column in enumerate(columns):
            begin, breadth = (0.0 if side == 0 else half + 1.5), (half - 1.5 if two else WIDE)
            counts.append(len(ticks(column)))
            rules = [line for line in column if isinstance(line, Line)]
            assert len(rules) == counts[-1] and all((line.x1, line.x2) == (pytest.approx(begin), pytest.approx(begin + breadth)) for line in rules)
            top_ = -SMALL if which else 0.0
            for tick, rule in zip(sorted(ticks(column), key=lambda one: -one[3]), rules):
                row = rows[len(told)]
                one_row(len(told) + 1, row, column, tick, rule, top_, begin, breadth, two)
                told.append(row.what)
                top_ = rule.y1
        if len(counts) == 2:
            assert 0 <= counts[0] - counts[1] <= 1  # as even as they go
    assert told == [row.what for row in rows]
    if number == 60:
        assert len(blocks) > 1


def one_row(number: int, row: CutRow, column: list[Item], tick, rule: Line, top: float, begin: float, breadth: float, brief: bool) -> None:
    mine = [item for item in labels(column) if rule.y1 < item.y and item.y <= top and item.y <= tick[3] + (20 if row.head else 0.6)]
    line = [item for item in mine if tick[1] - 0.5 < item.y <= tick[3] + 1]
    assert tick[2] - tick[0] == pytest.approx(3.2) == pytest.approx(tick[3] - tick[1]) and 0 < tick[0] - begin < 1  # a box to tick by pen
    figures = {item.text: item for item in line}
    # number, what it frees, line: on the level of the box, in that order, clear of one another
    assert figures[str(number)].anchor == "end" and figures[row.line].height == FIGURE
    what = next(item for item in line if item.text.endswith(row.what) or item.text.endswith("..."))
    inks = [(tick[0], tick[2]), *((box(item)[0][0], box(item)[1][0]) for item in (figures[str(number)], what, figures[row.line]))]
    assert all(b[0] - a[1] > 1.0 for a, b in itertools.pairwise(inks))
    middle = (tick[1] + tick[3]) / 2
    assert all(abs(item.y - item.height / 2 - middle) < 0.6 for item in (figures[str(number)], what, figures[row.line]))
    assert inks[1][0] - inks[0][1] < 5.0 and box(what)[0][0] - inks[1][1] < 3
    if row.name and not brief:
        assert row.name[:10] in what.text
    # a clamp's sign at the right, and the word where there is room
    signs = [one for one in triangles(column) if rule.y1 < one[1] < tick[3] + 1 and one[3] < top + 0.1]
    assert len(signs) == bool(row.clamp) == (figures.get("clamp") is not None or (brief and bool(row.clamp)))
    if row.clamp:
        assert signs[0][0] > inks[3][1] + 1 and abs((signs[0][1] + signs[0][3]) / 2 - middle) < 0.6
        assert box(figures["clamp"])[1][0] == pytest.approx(begin + breadth) and 1 < box(figures["clamp"])[0][0] - signs[0][2] < 4 if not brief else begin + breadth - signs[0][2] < 1.5
    # what is minded: below, set in under what it frees, line by line, clear of the rule
    below = [item for item in mine if item.y < tick[1] - 0.5]
    assert all(item.x == what.x and item.height == SMALL for item in below)
    if below:
        assert 0.3 < what.y - SMALL - below[0].y < 2.4 and below[-1].y - SMALL - rule.y1 > 0.8
    last = below[-1] if below else what
    assert 0.8 < last.y - SMALL - rule.y1 < 3.0
    for one, other in itertools.pairwise(below):
        assert 1.4 < (one.y - other.y) / SMALL < 1.6
    said = " ".join(item.text for item in below)
    if row.set_up and not brief:
        assert said.endswith(row.set_up)
    if row.set_up and brief:
        assert row.set_up_brief in said
    if number in (2, 4):
        for words in row.brief if brief else row.minded:
            assert words in said
        assert (row.clamp_brief if brief else row.clamp) in said
    if number == 3:
        assert said == ""  # as the row before it says
    over = [item for item in mine if item.y > tick[3] + 0.6]
    assert " ".join(item.text for item in over) == row.head
    if over:
        assert over[0].x == begin and over[-1].y - SMALL - tick[3] > 0.8
