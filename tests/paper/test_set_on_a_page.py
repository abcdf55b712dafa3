"""What every page is set with: lines of text, tables, blocks down the pages, the foot, the warning sign; measured where the ink stands."""

from __future__ import annotations

import itertools

import pytest
from shapely import Polygon

from anglelib.drawing.checks import bounds, overlaps, struck
from anglelib.drawing.letters import box as box_of
from anglelib.drawing.letters import text_width
from anglelib.drawing.sheet import Item, Label, Line, Polyline, Sheet, move
from anglelib.paper.page import (
    A4,
    FIGURE,
    LETTER,
    NAME,
    SMALL,
    TITLE,
    Column,
    Page,
    block,
    box,
    clearest,
    fitting,
    flow,
    heading,
    shortened,
    table,
    warning_sign,
    wrapped,
)

TEXT = "Lay the angle on both toes, heel up, and clamp it 1 5/8 in. from the line; sand 0.8 mm off, then measure (twice) against 41.3 mm or 12.05 in. of the card."


def labels(items) -> list[Label]:
    return [item for item in items if isinstance(item, Label)]


def lines(items) -> list[Line]:
    return [item for item in items if isinstance(item, Line)]


def white(label: Label, above: float, below: float) -> tuple[float, float]:
    """The white between a label's capitals and a line above and one below it [mm]."""
    top = label.y if label.base == "top" else label.y + label.height
    return above - top, top - label.height - below


# --- text ------------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize("letter", [SMALL, FIGURE])
@pytest.mark.parametrize("width", [22, 30, 41, 60, 95, 400])
def test_text_is_wrapped_where_the_next_word_has_no_room(width, letter):
    found = wrapped(TEXT, width, letter)
    assert " ".join(found) == TEXT
    assert all(text_width(line, letter) <= width for line in found)
    for line, after in itertools.pairwise(found):
        word = after.split(" ")[0]
        rest = after.split(" ")[1:]
        if rest and rest[0].rstrip(".,") in ("mm", "in"):
            word += f" {rest[0]}"
        assert text_width(f"{line} {word}", letter) > width
    joined = [word for line in found for word in line.split(" ") if word in ("mm", "in.")]
    assert len(joined) == 4 and not any(line.split(" ")[0].rstrip(".,") in ("mm", "in") for line in found)


def test_a_word_wider_than_its_line_is_broken_where_it_has_to_be():
    long = "W" * 30
    found = wrapped(f"one {long} two", 40, SMALL)
    assert "".join(found).replace("one", "").replace("two", "").replace(" ", "") == long and found[0] == "one"
    full = found[1:-1]
    assert all(text_width(line, SMALL) <= 40 < text_width(line + "W", SMALL) for line in full) and len(full) > 1
    assert wrapped("WW", 0.5, SMALL) == ["W", "W"] and wrapped("", 10, SMALL) == wrapped("  ", 10, SMALL) == []


@pytest.mark.parametrize("width", [12, 25, 33, 60])
def test_what_is_cut_off_ends_with_dots_as_late_as_it_can(width):
    found = shortened(TEXT, width, SMALL)
    kept = found.removesuffix("...")
    assert found != kept and TEXT.startswith(kept) and text_width(found, SMALL) <= width
    assert text_width(TEXT[: len(kept) + 3].rstrip() + "...", SMALL) > width and kept[-1] not in " ,;"
    whole = text_width(TEXT, SMALL)
    assert shortened(TEXT, whole, SMALL) == TEXT


def test_the_largest_letter_that_fits_is_taken():
    name = "Floor cleat, left"
    for letter in (NAME, TITLE, FIGURE):
        assert fitting(name, text_width(name, letter)) == (name, letter)
    assert fitting(name, text_width(name, NAME) - 0.01) == (name, TITLE) and fitting(name, text_width(name, TITLE) - 0.01) == (name, FIGURE)
    cut, letter = fitting(name, text_width(name, FIGURE) - 0.01)
    assert letter == FIGURE and cut.endswith("...") and NAME > TITLE > FIGURE > SMALL >= 2.5  # the least that is read at the bench


@pytest.mark.parametrize("letter", [SMALL, FIGURE])
def test_a_block_of_text_runs_down_from_its_corner(letter):
    items, low = block(12, 200, TEXT, 60, letter)
    assert [item.text for item in items] == wrapped(TEXT, 60, letter)
    assert all((item.x, item.height, item.anchor, item.base, item.accent) == (12, letter, "start", "top", False) for item in items) and items[0].y == 200
    pitches = {round((one.y - other.y) / letter, 6) for one, other in itertools.pairwise(items)}
    assert len(pitches) == 1 and 1.5 <= pitches.pop() <= 1.7  # a line and a half: tails and capitals keep clear
    assert 0.3 * letter < items[-1].y - letter - low < letter  # what follows keeps clear of the last line
    assert all(item.accent for item in block(0, 0, TEXT, 60, accent=True)[0])


def test_a_heading_stands_over_its_rule():
    (name, rule), low = heading(6, 100, "Steps", 80)
    assert (name.x, name.y, name.height, rule.x1, rule.x2, rule.y1) == (6, 100, FIGURE, 6, 86, rule.y2)
    assert 1.0 < 100 - FIGURE - rule.y1 < 2.0 and 1.0 < rule.y1 - low < 2.0  # its tails are clear of the rule, what follows too


# --- tables ------------------------------------------------------------------------------------------------------------
COLUMNS = [Column("what", 46), Column("wanted [mm]", 16, FIGURE), Column("middle", 20, SMALL, "middle"), Column("at the right end of a narrow column", 22, FIGURE, "end")]
ROWS = [["run", "54", "a", "7"], ["a name that takes two lines of its column or three", "31.5", "b", "12"], ["", "8", "", "1"]]


@pytest.mark.parametrize("pad", [0.35, 0.9, 1.1])
def test_a_table_is_ruled_and_its_cells_stand_in_the_middle_of_their_rows(pad):
    items, low = table(10, 150, COLUMNS, ROWS, pad=pad)
    ruled = lines(items)
    wide = sum(column.width for column in COLUMNS)
    assert all((line.x1, line.x2, line.y1) == (10, 10 + wide, line.y2) for line in ruled)
    levels = [line.y1 for line in ruled]
    assert len(levels) == 2 + len(ROWS) and levels == sorted(levels, reverse=True) and levels[0] == 150 and levels[-1] == low
    assert [line.kind for line in ruled] == ["narrow", "outline"] + ["narrow"] * len(ROWS)  # the head is set off from the rows
    edges = [10 + sum(column.width for column in COLUMNS[:n]) for n in range(len(COLUMNS) + 1)]
    for n, (above, below) in enumerate(itertools.pairwise(levels)):
        for k, column in enumerate(COLUMNS):
            inside = [label for label in labels(items) if below < label.y <= above and edges[k] <= label.x <= edges[k + 1]]
            assert " ".join(label.text for label in inside) == (column.head if n == 0 else ROWS[n - 1][k])
            for label in inside:
                left, right = box_of(label)[0][0], box_of(label)[1][0]
                assert (label.height, label.anchor) == (SMALL if n == 0 else column.letter, column.anchor)
                assert edges[k] + 0.5 <= left and right <= edges[k + 1] - 0.5
                if column.anchor == "middle":
                    assert label.x == pytest.approx((edges[k] + edges[k + 1]) / 2)
                else:
                    assert (left - edges[k] if column.anchor == "start" else edges[k + 1] - right) == pytest.approx(1.0)
            if inside:
                over, under = white(inside[0], above, below)[0], white(inside[-1], above, below)[1]
                assert min(over, under) > pad - 1e-9
                if n:
                    higher = 0.35 if pad < 1 else 0.25  # with little room a row stands higher, so that tails are clear of its line
                    assert abs(over - under) < higher * column.letter, (n, k, over, under)
            for one, other in itertools.pairwise(inside):
                assert 1.5 <= (one.y - other.y) / one.height <= 1.7
    heads = [min(label.y for label in labels(items) if label.y > levels[1] and edges[k] <= label.x <= edges[k + 1]) for k in range(len(COLUMNS))]
    assert len(set(heads)) == 1  # heads of several lines end on one line
    # no row is higher than its highest cell needs
    for n, (above, below) in enumerate(itertools.pairwise(levels)):
        whites = [white(label, above, below) for label in labels(items) if below < label.y <= above]
        assert min(over for over, _ in whites) < pad + 1.2 and min(under for _, under in whites) < pad + 2.2, n
    sheet = Sheet(200, 200, items, "table", "A table.")
    assert overlaps(sheet, "paper") == [] and struck(sheet, "paper") == []


def test_a_table_without_heads_or_rules():
    items, low = table(0, 50, [Column("", 30), Column("", 20)], [["a", "b"], ["c", "d"]], row_lines=False)
    assert [line.y1 for line in lines(items)] == [50, low] and [line.kind for line in lines(items)] == ["outline", "narrow"]
    assert [label.text for label in labels(items)] == ["a", "b", "c", "d"]
    assert len(lines(table(0, 50, [Column("", 30), Column("x", 20)], [["a", "b"]])[0])) == 3


# --- blocks down the pages -------------------------------------------------------------------------------------------------
def bar(deep: float, name: str) -> tuple[tuple[Item, ...], float]:
    return (Line(0, 0, 10, 0), Line(0, -deep, 10, -deep), Label(2, -deep / 2, name, SMALL, "start", "middle")), deep


@pytest.mark.parametrize("on", [A4, LETTER], ids=lambda on: on.name)
@pytest.mark.parametrize("under", ["", "Who is where"])
def test_blocks_fill_a_page_before_the_next_begins(on, under):
    blocks = [bar(30 + 7 * n % 40, f"block {n}") for n in range(17)]
    pages = flow("Trial", under, blocks, on, "Blocks.")
    assert [page.bookmark for page in pages] == ["Trial"] + [""] * (len(pages) - 1) and len(pages) > 1
    assert [page.title for page in pages] == [f"Trial, sheet {n} of {len(pages)}" for n in range(1, len(pages) + 1)]
    assert [item.text for page in pages for item in labels(page.items) if item.text.startswith("block")] == [f"block {n}" for n in range(17)]
    told = iter(blocks)
    ends = []
    for page in pages:
        heads = [item for item in labels(page.items) if not item.text.startswith("block")]
        assert [head.text for head in heads] == ["Trial", *([under] if under else [])]
        assert all(head.x == on.left for head in heads) and (heads[0].y, heads[0].height) == (on.top, TITLE)
        rule = next(line for line in lines(page.items) if line.x2 == on.right)
        assert rule.x1 == on.left and 1.0 < heads[-1].y - heads[-1].height - rule.y1 < 3.5
        if under:
            assert 2.0 < on.top - TITLE - heads[1].y < 4.5 and heads[1].height == SMALL
        bars = [line for line in lines(page.items) if line is not rule]
        y = None
        for top, foot in zip(bars[::2], bars[1::2]):
            deep = next(told)[1]
            assert top.y1 - foot.y1 == pytest.approx(deep) and top.x1 == on.left
            assert 2.0 < (rule.y1 if y is None else y) - top.y1 < 3.5
            y = foot.y1
        assert y >= on.bottom - 1e-9
        ends.append(y)
    # the first block of the next page had no room on the one before it
    firsts = [next(label.text for label in labels(page.items) if label.text.startswith("block")) for page in pages[1:]]
    for end, first in zip(ends, firsts):
        assert end - blocks[int(first.split()[1])][1] < on.bottom + 3.5
    [alone] = flow("Trial", "", blocks[:2], on, "Blocks.")
    assert (alone.title, alone.bookmark, alone.sentence) == ("Trial", "Trial", "Blocks.")


def test_a_title_or_a_line_under_it_that_is_too_long_is_cut_off():
    [page] = flow("Trial " * 60, "under " * 90, [bar(10, "block")], A4, "Blocks.")
    assert all(box_of(label)[1][0] <= A4.right + 1e-6 for label in labels(page.items)) and sum(label.text.endswith("...") for label in labels(page.items)) == 2


# --- the page --------------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize("on, wide, high", [(A4, 210, 297), (LETTER, 8.5 * 25.4, 11 * 25.4)], ids=lambda one: getattr(one, "name", ""))
def test_the_foot_of_a_page(on, wide, high):
    assert (on.width, on.height) == (pytest.approx(wide), pytest.approx(high))
    assert on.left == on.width - on.right == on.height - on.top and on.room == on.right - on.left
    assert 6.5 <= on.left <= 12  # a printer's own white edge is a quarter of an inch at most, and the paper is used
    sheet = Page("Trial", "A page.", (Label(20, 200, "Cleat"),)).sheet(on, "A job " * 40, "2024-05-01", 2, 9, "0a1b", "K-7")
    assert (sheet.width, sheet.height, sheet.items[0].text) == (on.width, on.height, "Cleat")
    [rule] = lines(sheet.items)
    assert (rule.x1, rule.x2, rule.y1) == (on.left, on.right, rule.y2) and 1 < on.bottom - rule.y1 < 3
    job, caution, number = labels(sheet.items)[1:]
    assert job.text.endswith("..., 2024-05-01, version 0a1b, plan K-7") and "approves nothing" in caution.text and number.text == "page 2 of 9"
    assert (job.x, caution.x, number.x, number.anchor, job.y) == (on.left, on.left, on.right, "end", number.y)
    assert 2 < box_of(number)[0][0] - box_of(job)[1][0]
    for label in (job, caution, number):
        low, top = box_of(label)[0][1], box_of(label)[2][1]
        assert on.left - 1 <= low and top <= rule.y1 - 1.0 and label.height == SMALL
    assert 1.4 <= (job.y - caution.y) / SMALL <= 1.75 and overlaps(sheet, "paper") == [] and struck(sheet, "paper") == []
    plain = Page("Trial", "A page.", ()).sheet(on, "Kit", "2024-05-01", 1, 1)
    assert labels(plain.items)[0].text == "Kit, 2024-05-01"


# --- signs -------------------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize("high", [2.7, 3.4, 4.2])
def test_a_warning_sign_is_a_triangle_with_a_stroke_over_a_dot(high):
    edge, stroke, dot = (Polygon(item.points) for item in warning_sign(5, 7, high))
    assert edge.bounds[:2] == (5, 7) and edge.bounds[3] == pytest.approx(7 + high)
    sides = [((x1 - x2) ** 2 + (y1 - y2) ** 2) ** 0.5 for (x1, y1), (x2, y2) in itertools.pairwise(edge.exterior.coords)]
    assert max(sides) / min(sides) < 1.05  # equal sides, near enough
    middle = (edge.bounds[0] + edge.bounds[2]) / 2
    for mark in (stroke, dot):
        assert mark.is_valid and edge.contains(mark) and mark.centroid.x == pytest.approx(middle) and edge.exterior.distance(mark) > 0.08 * high
    assert stroke.bounds[1] - dot.bounds[3] > 0.05 * high and stroke.bounds[3] - stroke.bounds[1] > 0.25 * high > 2 * (dot.bounds[3] - dot.bounds[1])
    assert stroke.bounds[2] - stroke.bounds[0] == pytest.approx(dot.bounds[2] - dot.bounds[0], rel=0.1)
    around, *marks = warning_sign(5, 7, high)
    assert around.fill == "" and all(mark.fill == "ink" and not mark.kind for mark in marks)


def test_a_box_to_write_in():
    item = box(3, 4, 20, 8)
    assert isinstance(item, Polyline) and item.closed and Polygon(item.points).bounds == (3, 4, 23, 12) and len(item.points) == 4


# --- ways ----------------------------------------------------------------------------------------------------------------------
def test_of_several_ways_the_first_clear_one_is_taken_else_the_least_bad():
    drawn = (Line(0, 0, 60, 0), Label(5, 3, "taken", SMALL, "start"), Line(0, 9, 60, 9))
    over, on_line, clear, also = ((Label(x, y, "word", SMALL, "start"),) for x, y in ((6, 3), (30, -1), (30, 3), (45, 3)))
    assert clearest(drawn, (over, on_line, clear, also)) == clear and clearest(drawn, (also, clear)) == also
    both = (Label(6, 8, "word word word", SMALL, "start"), Label(6, 3, "word", SMALL, "start"))
    assert clearest(drawn, (both, over)) == over and clearest(drawn, (over, on_line)) == over
    assert clearest(move(drawn, -400, -900), (move(over, -400, -900), move(clear, -400, -900))) == move(clear, -400, -900)
    assert bounds(clear)[0] == 30
