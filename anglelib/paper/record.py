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

from anglelib.drawing.letters import text_width
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
PITCH_SMALL = 3.6
"""From line to line of the small words in a row; a row whose sticks take two lines is so much higher [mm]."""
MOST_LINES = 2
"""Into how many lines the sticks of a part go."""
HEADS = ("part", "what and how", "when", "where", "who", "pictures")
WIDE = (50.0, None, 20.0, 22.0, 24.0, 18.0)
"""Widths of the columns [mm]; what is left is the second's."""
EMPTY = 3
"""At least so many rows are left for what nobody foresaw."""


Row = tuple[Part | None, list[str]]
"""A row's part, None where it is left empty, and the lines that name its sticks."""


def record_pages(
    job: Job, on: Paper, sticks: Mapping[str, Sequence[str]] | None = None, lots: Mapping[str, Sequence[str]] | None = None
) -> list[Page]:
    """The record of a job, a row a part; ``sticks`` are those that a part's blanks come from, by its id, ``lots`` the lots of these."""
    sticks, lots = sticks or {}, lots or {}
    text, low = block(on.left, on.top - 9.8, FIRST, on.room)
    top = low - 1.5
    wide: float = WIDE[0] - 2  # type: ignore[operator]
    rows: list[Row] = [(part, from_lines(sticks.get(part.id, ()), wide) + from_lines(lots.get(part.id, ()), wide, "lot")) for part in job.parts]
    sheets = _sheets([*rows, *[(None, [])] * EMPTY], top - on.bottom - 5.2)
    pages = []
    for number, shown in enumerate(sheets, 1):
        title = TITLE_WORDS if len(sheets) == 1 else f"{TITLE_WORDS}, sheet {number} of {len(sheets)}"
        head: Group = (Label(on.left, on.top, title, TITLE, "start", "top"), Line(on.left, on.top - 8.0, on.right, on.top - 8.0, "outline"))
        parts = ", ".join(part.id for part, _ in shown if part is not None)
        sentence = f"Rows to be filled in by hand for {parts or 'other work'}: {', '.join(HEADS[1:])}."
        items = (*head, *text, *_table(shown, on, top))
        pages.append(Page(title, sentence, items, TITLE_WORDS if number == 1 else ""))
    return pages


def _deep(row: Row) -> float:
    """How high a row is [mm]."""
    return ROW + PITCH_SMALL * max(0, len(row[1]) - 1)


def _sheets(rows: Sequence[Row], room: float) -> list[list[Row]]:
    """The rows sheet by sheet, each filled up with empty ones."""
    sheets: list[list[Row]] = [[]]
    for row in rows:
        if sum(map(_deep, sheets[-1])) + _deep(row) > room:
            sheets.append([])
        sheets[-1].append(row)
    for sheet in sheets:
        sheet += [(None, [])] * int((room - sum(map(_deep, sheet))) / ROW)
    return sheets


def _table(rows: Sequence[Row], on: Paper, top: float) -> Group:
    wide = [room if room is not None else on.room - sum(w for w in WIDE if w is not None) for room in WIDE]
    items: list[Item] = []
    x = on.left
    low = top - 5.2 - sum(map(_deep, rows))
    for head, room in zip(HEADS, wide, strict=True):
        items.append(Label(x + 1, top - 3.8, head, SMALL, "start"))
        if x > on.left:
            items.append(Line(x, top - 5.2, x, low, "narrow"))
        x += room
    items.append(Line(on.left, top - 5.2, on.right, top - 5.2, "outline"))
    y = top - 5.2
    for row in rows:
        part, lines = row
        if part is not None:
            items += _part(part, lines, on.left + 1, y, wide[0] - 2)
        y -= _deep(row)
        items.append(Line(on.left, y, on.right, y, "narrow"))
    return tuple(items)


def _part(part: Part, lines: Sequence[str], x: float, y: float, room: float) -> Group:
    """What is known of a part before the work: id, pieces, alloy, name and sticks."""
    title, letter = fitting(f"{part.id}  {part.quantity} off, {part.alloy}", room, (FIGURE, SMALL))
    said = [shortened(part.name, room, SMALL), *lines]
    small = [Label(x, y - 5.8 - i * PITCH_SMALL, line, SMALL, "start", "top") for i, line in enumerate(said)]
    return (Label(x, y - 0.9, title, letter, "start", "top"), *small)


def from_lines(sticks: Sequence[str], room: float, first: str = "from") -> list[str]:
    """The sticks (or lots) of a part in at most two lines after a ``first`` word; those that find no room are counted, and stand in the plan.

    >>> from_lines(["S-02 (3)", "S-06 (1)", "S-07 (1)", "S-09 (1)"], 48.0)
    ['from S-02 (3), S-06 (1),', 'S-07 (1), S-09 (1)']
    >>> from_lines([f"S-{n:02} (1)" for n in range(1, 21)], 48.0)
    ['from S-01 (1), S-02 (1)', 'and 18 more: see the plan']
    """
    for shown in range(len(sticks), 0, -1):
        more = len(sticks) - shown
        lines = _filled([f"{stick}," for stick in sticks[: shown - 1]], sticks[shown - 1], more, room, first)
        if len(lines) <= MOST_LINES and all(text_width(line, SMALL) <= room for line in lines):
            return lines
    return [shortened(f"{first} {sticks[0]}" if len(sticks) == 1 else f"{first} {len(sticks)} of them: see the plan", room, SMALL)] if sticks else []


def _filled(before: Sequence[str], last: str, more: int, room: float, first: str) -> list[str]:
    """Sticks in lines, each with its number beside it."""
    lines = [first]
    for word in [*before, last, *([f"and {more} more: see the plan"] if more else [])]:
        if text_width(f"{lines[-1]} {word}", SMALL) > room and len(lines[-1]) > len(first):
            lines.append(word)
        else:
            lines[-1] += f" {word}"
    return lines
