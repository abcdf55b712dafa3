"""The cuts of one stick as they are drawn on a plan's page: the rows of :mod:`~anglelib.stock.cut_list`, in one column or two."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from anglelib.drawing.letters import text_width
from anglelib.drawing.sheet import Item, Label, Line, move
from anglelib.paper.page import FIGURE, PITCH, SMALL, Block, block, box, shortened, warning_sign, wrapped
from anglelib.stock.cut_list import CutRow

HIGH = 5.2
"""Height of a row's first line [mm]."""
TICK = 3.2
"""A box to tick when the cut is done [mm]."""
MANY = 12
"""A stick with more rows lists them in two columns."""
GUTTER = 3.0
"""Clear space between two columns [mm]."""
DEEPEST = 100.0
"""A list that is deeper goes on in another block, so that it may go on on another page [mm]."""


def row_blocks(rows: Sequence[CutRow], width: float, stick_id: str) -> list[Block]:
    """The rows as blocks, one column or two where there are many; a list that is deep goes on in another block."""
    columns = 2 if len(rows) > MANY else 1
    room = (width - GUTTER * (columns - 1)) / columns
    place = _Places.of(rows, room, columns == 2)
    blocks = []
    for start, stop in _pieces([_row(0, row, place, rows[n - 1] if n else None)[1] for n, row in enumerate(rows)], columns):
        items: list[Item] = []
        top = 0.0
        if start:
            items.append(Label(0, 0, f"{stick_id}, its cuts from {start + 1} on", SMALL, "start", "top"))
            top = PITCH * SMALL + 1.0
        low = top
        half = (stop - start + columns - 1) // columns
        for column in range(columns):
            y, before = top, None
            for number in range(start + column * half, min(stop, start + (column + 1) * half)):
                group, deep = _row(number + 1, rows[number], place, before)
                items += move(group, column * (room + GUTTER), -y)
                y, before = y + deep, rows[number]
            low = max(low, y)
        blocks.append((tuple(items), low))
    return blocks


def _pieces(deep: Sequence[float], columns: int) -> list[tuple[int, int]]:
    """From which row to which a block goes."""
    found, start = [], 0
    while start < len(deep):
        stop = start + 1
        while stop < len(deep) and sum(deep[start : stop + 1]) <= DEEPEST * columns:
            stop += 1
        found.append((start, stop))
        start = stop
    return found


@dataclass(frozen=True)
class _Places:
    """Where the columns of a list are [mm], and whether its words are brief."""

    width: float
    figure: float
    brief: bool

    @classmethod
    def of(cls, rows: Sequence[CutRow], width: float, brief: bool) -> _Places:
        figure = max((text_width(row.line, FIGURE) for row in rows), default=0.0)
        return cls(width, min(96.0, width - figure - (6.0 if brief else 18.0)), brief)


def _row(number: int, row: CutRow, place: _Places, before: CutRow | None) -> Block:
    """One row, from its upper left corner: what is cut, its line, the clamp sign; below what is minded, where the row ``before`` does not say it."""
    items: list[Item] = []
    width, y = place.width, 0.0
    if row.head:
        text, y = block(0, -1.0, row.head, width)
        items += text
        y -= 0.8
    items.append(box(0.3, y - 4.2, TICK, TICK))
    items.append(Label(9, y - 1.4, str(number), SMALL, "end", "top"))
    room = place.figure - 12.0
    words = row.what
    if row.name and not place.brief:
        words = f"{shortened(row.name, room - text_width(f'  {row.what}', SMALL), SMALL)}  {row.what}"
    items.append(Label(11, y - 1.4, shortened(words, room, SMALL), SMALL, "start", "top"))
    items.append(Label(place.figure, y - 0.7, row.line, FIGURE, "start", "top"))
    new = before is None or row.head or (row.name, row.minded) != (before.name, before.minded)
    said = list(row.brief if place.brief else row.minded) if new else []
    if row.clamp:
        items += warning_sign(width - (4.4 if place.brief else 16.5), y - 4.2, 3.2)
        items.append(Label(width, y - 1.4, "" if place.brief else "clamp", SMALL, "end", "top"))
        if new or row.clamp != before.clamp:  # type: ignore[union-attr]
            said.append(row.clamp_brief if place.brief else row.clamp)
    if row.set_up and place.brief:
        said.append(row.set_up_brief)
    y -= HIGH
    for line in (*wrapped("; ".join(said), width - 11, SMALL), *wrapped("" if place.brief else row.set_up, width - 11, SMALL)):
        items.append(Label(11, y - 0.4, line, SMALL, "start", "top"))
        y -= 1.5 * SMALL
    y -= 0.4
    items.append(Line(0, y, width, y, "narrow"))
    return tuple(item for item in items if not isinstance(item, Label) or item.text), -y
