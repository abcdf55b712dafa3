"""The steps on a card as somebody reads them who cuts by them: in order, each beside its number, its caution on the same line, all inside the card."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import pytest
from printed_pages import PARTS

from anglelib.drawing.checks import bounds, overlaps, struck
from anglelib.drawing.letters import box
from anglelib.drawing.sheet import Item, Label, Line, Polyline, Sheet, move
from anglelib.geometry.work import operations
from anglelib.geometry.work_words import said
from anglelib.job import Shop
from anglelib.lengths import writing
from anglelib.paper.card_room import LARGE, Room
from anglelib.paper.card_steps import step_lines, step_list

WIDE = 192.0
COLUMNS, LINES = Room(steps="columns"), Room()
NAMES = ("both", "two-legs", "mm-both", "mm-cope", "bare", "vertex-B-2")


@dataclass
class Row:
    """A number with the lines of words beside it, the lines of its caution and whether a sign stands by it."""

    number: Label
    words: list[Label]
    caution: list[Label]
    signs: int


def laid(name: str, room: Room) -> tuple[tuple[Item, ...], float, int]:
    part, shop = PARTS[name], Shop()
    with writing(part.unit):
        steps = operations(part, shop)
        items, deep = step_list(part, shop, steps, WIDE, room)
        count = len(steps) if room.steps == "columns" else len(step_lines(part, shop, steps, room.brief))
    return items, deep, count


def is_number(item: Item) -> bool:
    return isinstance(item, Label) and item.text.isdigit() and item.anchor == "middle"


def signs(items: Sequence[Item]) -> list[tuple[float, float]]:
    """The middle of every warning triangle."""
    return [(sum(x for x, _ in item.points) / 3, sum(y for _, y in item.points) / 3) for item in items if isinstance(item, Polyline) and len(item.points) == 3]


def rows(items: Sequence[Item], middle: float) -> list[Row]:
    """What belongs to each number: what stands right of it in its column, from its own line down to above the next; ``middle``: where cautions begin."""
    numbers = [item for item in items if is_number(item)]
    found = []
    for number in numbers:
        below = [other.y for other in numbers if other.x == number.x and other.y < number.y]
        right = min((other.x for other in numbers if other.x > number.x + 1), default=WIDE)
        low = max(below, default=-1e9)
        mine = [item for item in items if isinstance(item, Label) and item.anchor == "start" and number.x < item.x < right and low + 0.01 < item.y <= number.y + 0.01]
        signed = [1 for x, y in signs(items) if number.x < x < right and low < y <= number.y + 0.5]
        found.append(Row(number, [one for one in mine if one.x < middle + number.x], [one for one in mine if one.x >= middle + number.x], len(signed)))
    return found


def sound(items: tuple[Item, ...], deep: float) -> None:
    """Nothing hides anything, all is inside the card's breadth, and the block is as deep as what stands in it, and no deeper than a line."""
    left, bottom, right, top = bounds(items)
    assert left >= -1e-6 and right <= WIDE + 1e-6 and top <= 1e-6
    assert -bottom <= deep <= -bottom + 3.0
    sheet = Sheet(WIDE + 20, deep + 20, move(items, 10, deep + 10), "steps", "The steps.")
    assert overlaps(sheet, "paper") == [] and struck(sheet, "paper") == []


@pytest.mark.parametrize("name", NAMES)
def test_in_columns(name):
    items, deep, count = laid(name, COLUMNS)
    sound(items, deep)
    found = rows(items, WIDE)
    assert [row.number.text for row in found] == [str(n) for n in range(1, count + 1)]
    # down the left column, then down the right one, as evenly as they go; both begin at one height below the heading's rule
    lefts = sorted({row.number.x for row in found})
    columns = [[row for row in found if row.number.x == x] for x in lefts]
    assert len(columns) == 2 and 0 <= len(columns[0]) - len(columns[1]) <= 1 and columns[0] + columns[1] == found
    assert columns[0][0].number.y == columns[1][0].number.y
    [rule] = [item for item in items if isinstance(item, Line)]
    assert 0 < rule.y1 - columns[0][0].number.y < 3 and (rule.x1, rule.x2) == (0.0, WIDE)
    assert lefts[1] - lefts[0] == pytest.approx(WIDE / 2) and lefts[0] < 5
    part, shop = PARTS[name], Shop()
    with writing(part.unit):
        told = [said(step, part, shop) for step in operations(part, shop)]
    for column in columns:
        for row, below in zip(column, [*column[1:], None]):
            words = told[int(row.number.text) - 1]
            assert " ".join(line.text for line in row.words) == words.title
            assert row.signs == bool(words.watch)
            in_line(row, row.words, below)
            edge = row.number.x + WIDE / 2 - 3
            ends = max(box(line)[1][0] for line in row.words)
            beside = [x for x, y in signs(items) if row.number.x < x < edge + 3 and (below.number.y if below else -1e9) < y <= row.number.y + 0.5]
            levels = [sum(y for _, y in (bounds((item,))[:2], bounds((item,))[2:])) / 2 for item in items if isinstance(item, Polyline) and len(item.points) == 3]
            assert not words.watch or min(abs(y - (row.number.y - row.number.height / 2)) for y in levels) < 0.4  # level with its line
            assert ends < edge and all(x > ends for x in beside)  # the sign stands clear of the words, in the column's own breadth


def in_line(row: Row, lines: list[Label], below: Row | None) -> None:
    """Lines are set as text: the first level with the number, a line and a half each, the next number well clear."""
    assert lines[0].y == row.number.y and 0.6 < (lines[0].x - box(row.number)[1][0]) / lines[0].height < 1.35
    for one, other in zip(lines, lines[1:]):
        assert other.x == one.x and 1.4 < (one.y - other.y) / one.height < 1.65
    if below is not None:
        gap = lines[-1].y - lines[-1].height - below.number.y
        assert 0.4 < gap / lines[-1].height < 1.0 or max(len(row.words), len(row.caution)) > len(lines)


def test_in_narrow_columns_long_titles_take_two_lines_and_keep_to_their_column():
    part, shop, wide = PARTS["two-legs"], Shop(), 96.0
    steps = operations(part, shop)
    items, deep = step_list(part, shop, steps, wide, COLUMNS)
    assert -bounds(items)[1] <= deep
    first = next(item for item in items if isinstance(item, Line)).y1
    words = [item for item in items if isinstance(item, Label) and item.y < first and not is_number(item)]
    assert len(words) > len(steps)
    for line in words:
        assert box(line)[1][0] <= (wide / 2 if line.x < wide / 2 else wide) - 5.0  # room for the sign
    level = {(item.x > wide / 2, item.y) for item in items if is_number(item)}
    for column in (False, True):
        lines = sorted((line for line in words if (line.x > wide / 2) == column), key=lambda line: -line.y)
        for above, line in zip(lines, lines[1:]):
            assert (column, line.y) in level or 1.4 < (above.y - line.y) / line.height < 1.6
    assert overlaps(Sheet(wide + 20, deep + 20, move(tuple(one for one in items if one in words or is_number(one)), 10, deep + 10), "steps", "The steps."), "paper") == []


@pytest.mark.parametrize("room", [LINES, LARGE, Room(brief=True)], ids=["usual", "large", "brief"])
@pytest.mark.parametrize("name", NAMES)
def test_in_lines(name, room):
    items, deep, count = laid(name, room)
    sound(items, deep)
    part, shop = PARTS[name], Shop()
    with writing(part.unit):
        told = step_lines(part, shop, operations(part, shop), room.brief)
    begins = [box_[0][0] for item in items if isinstance(item, Label) and item.anchor == "start" and item.height == room.letter and (box_ := box(item))[0][0] > WIDE / 2]
    watch = min(begins, default=WIDE)
    found = rows(items, watch - 1.2 * room.letter - 0.1)
    assert [row.number.text for row in found] == [str(n) for n in range(1, count + 1)] and len(told) == count
    for row, below, (brief, caution) in zip(found, [*found[1:], None], told):
        assert " ".join(line.text for line in row.words) == brief and " ".join(line.text for line in row.caution) == caution
        assert row.signs == bool(caution) and {line.height for line in (*row.words, *row.caution)} == {room.letter}
        in_line(row, row.words, below)
        ends = max(box(line)[1][0] for line in row.words)
        if caution:
            assert row.caution[0].y == row.number.y
            [sign] = [x for x, y in signs(items) if x > row.number.x and (below.number.y if below else -1e9) < y <= row.number.y]
            assert ends + 0.5 * room.letter < sign < row.caution[0].x - 0.5 * room.letter
            for one, other in zip(row.caution, row.caution[1:]):
                assert other.x == one.x and 1.4 < (one.y - other.y) / one.height < 1.65
        if below is not None:
            last = min(line.y for line in (*row.words, *row.caution))
            assert 0.4 < (last - room.letter - below.number.y) / room.letter < 1.0
    # where cautions stand, they have what they need and at most two fifths of the card
    assert WIDE - watch <= 0.42 * WIDE
