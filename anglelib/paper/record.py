"""The record for the builder's own file: who did what, when, where and how, a row a part.

AC 20-27G asks that a builder's records show this; it names acceptable means and obliges nobody. The
rows carry what is known before the work; the rest is written by hand.

>>> from anglelib.job import Job, Shop
>>> from anglelib.paper.page import A4
>>> from anglelib.part import Part
>>> from anglelib.section import Section
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> pages = record_pages(Job("Demo", Shop(), [Part("A1", "Bar", stock, "6061-T6", 28)]), A4)
>>> [page.title for page in pages]
["Record for the builder's file"]
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from anglelib.drawing.sheet import Group, Item, Label, Line
from anglelib.job import Job
from anglelib.paper.page import FIGURE, SMALL, TITLE, Page, Paper, block, fitting, shortened
from anglelib.part import Part

TITLE_WORDS = "Record for the builder's file"
FIRST = (
    "Who did what, when, where and how: AC 20-27G says that a builder's records show it (acceptable means, not an obligation). One "
    "row a part; pictures and the spoiled pieces belong in the file too. Write how: by saw or by hand, what was measured, what "
    "departs from the plans and who agreed to it. A signature here says that the work was done, not that a part may fly."
)
ROW = 13.0
"""Height of a row, two lines of handwriting [mm]."""
HEADS = ("part", "what and how", "when", "where", "who", "pictures")
WIDE = (50.0, None, 20.0, 22.0, 24.0, 18.0)
"""Widths of the columns [mm]; what is left is the second's."""
EMPTY = 3
"""At least so many rows are left for what nobody foresaw."""


def record_pages(job: Job, on: Paper, sticks: Mapping[str, Sequence[str]] | None = None) -> list[Page]:
    """The record of a job, a row a part; ``sticks`` are those that a part's blanks come from, by its id."""
    sticks = sticks or {}
    text, low = block(on.left, on.top - 9.8, FIRST, on.room)
    top = low - 1.5
    fits = int((top - on.bottom - 5.2) / ROW)
    rows: list[Part | None] = [*job.parts, *[None] * EMPTY]
    count = -(-len(rows) // fits)
    rows += [None] * (count * fits - len(rows))
    pages = []
    for number in range(count):
        title = TITLE_WORDS if count == 1 else f"{TITLE_WORDS}, sheet {number + 1} of {count}"
        head: Group = (Label(on.left, on.top, title, TITLE, "start", "top"), Line(on.left, on.top - 8.0, on.right, on.top - 8.0, "outline"))
        shown = rows[number * fits : (number + 1) * fits]
        parts = ", ".join(part.id for part in shown if part is not None)
        sentence = f"Rows to be filled in by hand for {parts or 'other work'}: {', '.join(HEADS[1:])}."
        items = (*head, *text, *_table(shown, sticks, on, top))
        pages.append(Page(title, sentence, items, TITLE_WORDS if not number else ""))
    return pages


def _table(rows: Sequence[Part | None], sticks: Mapping[str, Sequence[str]], on: Paper, top: float) -> Group:
    wide = [room if room is not None else on.room - sum(w for w in WIDE if w is not None) for room in WIDE]
    items: list[Item] = []
    x = on.left
    low = top - 5.2 - len(rows) * ROW
    for head, room in zip(HEADS, wide, strict=True):
        items.append(Label(x + 1, top - 3.8, head, SMALL, "start"))
        if x > on.left:
            items.append(Line(x, top - 5.2, x, low, "narrow"))
        x += room
    items.append(Line(on.left, top - 5.2, on.right, top - 5.2, "outline"))
    for number, part in enumerate(rows):
        y = top - 5.2 - number * ROW
        if part is not None:
            items += _part(part, sticks.get(part.id, ()), on.left + 1, y, wide[0] - 2)
        items.append(Line(on.left, y - ROW, on.right, y - ROW, "narrow"))
    return tuple(items)


def _part(part: Part, sticks: Sequence[str], x: float, y: float, room: float) -> Group:
    """What is known of a part before the work: id, pieces, alloy, name and sticks."""
    title, letter = fitting(f"{part.id}  {part.quantity} off, {part.alloy}", room, (FIGURE, SMALL))
    from_ = f"from {', '.join(sticks)}" if sticks else ""
    lines = [shortened(line, room, SMALL) for line in (part.name, from_) if line]
    small = [Label(x, y - 5.8 - i * 3.6, line, SMALL, "start", "top") for i, line in enumerate(lines)]
    return (Label(x, y - 0.9, title, letter, "start", "top"), *small)
