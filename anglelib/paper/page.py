"""The page of a shop pack: its paper, its head and foot, text and tables set on it.

A :class:`Page` is what one page shows, above its foot; :meth:`Page.sheet` adds the foot, which knows
how many pages there are.

>>> page = Page("Trial", "A page with one word.", (Label(20, 200, "Cleat"),))
>>> page.sheet(A4, "Demo", "2024-05-01", 2, 9).items[-1].text
'page 2 of 9'
>>> paper("foolscap")
Traceback (most recent call last):
    ...
anglelib.errors.BenchError: There is no paper "foolscap" here: choose a4 or letter.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from anglelib.drawing.checks import INTO, Drawn, bounds
from anglelib.drawing.frame import CAUTION
from anglelib.drawing.letters import text_width
from anglelib.drawing.sheet import Group, Item, Label, Line, Sheet, move, polygon
from anglelib.drawing.style import NARROW
from anglelib.errors import BenchError
from anglelib.near import did_you_mean

MARGIN = 9.0
"""White edge of a page, which no printer needs for itself [mm]."""
FOOT = 9.4
"""Height of a page's foot above the margin [mm]."""
PITCH = 1.6
"""From line to line of a text, in letter heights."""
Block = tuple[Group, float]
"""Items whose top left corner is (0, 0), and how deep they are [mm]."""
SMALL, FIGURE, TITLE, NAME = 2.5, 3.5, 5.0, 7.0
"""Letter heights: notes, numbers that are used at the saw, headings, the name of a part [mm]."""


@dataclass(frozen=True, slots=True)
class Paper:
    """A paper: its name, and its size upright [mm]."""

    name: str
    width: float
    height: float

    @property
    def left(self) -> float:
        """Where what is printed begins [mm]."""
        return MARGIN

    @property
    def right(self) -> float:
        """Where what is printed ends [mm]."""
        return self.width - MARGIN

    @property
    def top(self) -> float:
        """The upper edge of what is printed [mm]."""
        return self.height - MARGIN

    @property
    def bottom(self) -> float:
        """The lowest place above the foot [mm]."""
        return MARGIN + FOOT + 1.5

    @property
    def room(self) -> float:
        """Width of what is printed [mm]."""
        return self.width - 2 * MARGIN


A4 = Paper("A4", 210.0, 297.0)
LETTER = Paper("Letter", 215.9, 279.4)
PAPERS = {"a4": A4, "letter": LETTER}


def paper(name: str) -> Paper:
    """The paper of this name."""
    found = PAPERS.get(name.strip().lower())
    if found is None:
        raise BenchError(f'There is no paper "{name}" here: {did_you_mean(str(name), PAPERS) or "choose " + " or ".join(PAPERS) + "."}')
    return found


@dataclass(frozen=True, slots=True)
class Page:
    """What one page shows above its foot, its sentence, and its name among the bookmarks ("": none)."""

    title: str
    sentence: str
    items: Group
    bookmark: str = ""

    def sheet(self, on: Paper, job: str, date: str, number: int, total: int, version: str = "", plan: str = "") -> Sheet:
        """The page with its foot: whose job, of which day and version, by which plan, the caution, page x of y."""
        y = MARGIN + FOOT
        pages = f"page {number} of {total}"
        about = f", {date}" + (f", version {version}" if version else "") + (f", plan {plan}" if plan else "")
        room = on.room - text_width(pages, SMALL) - 6 - text_width(about, SMALL)
        left = shortened(job, room, SMALL) + about  # a long name is cut off, never the day, the version and the plan
        foot: Group = (
            Line(on.left, y, on.right, y, "narrow"),
            Label(on.left, y - 4.3, left, SMALL, "start"),
            Label(on.left, y - 8.3, CAUTION, SMALL, "start"),
            Label(on.right, y - 4.3, pages, SMALL, "end"),
        )
        return Sheet(on.width, on.height, self.items + foot, self.title, self.sentence)


# --- text ---------------------------------------------------------------------------------------------
def shortened(text: str, width: float, letter: float) -> str:
    """The text, cut off with dots where it is wider than ``width`` [mm].

    >>> shortened("Floor cleat, left", 25, 3.5)
    'Floor...'
    """
    if text_width(text, letter) <= width:
        return text
    while text and text_width(text.rstrip() + "...", letter) > width:
        text = text[:-1]
    return text.rstrip(" ,;") + "..."


_WITH_UNIT = re.compile(r"\s+(?!(?:mm|in[.)])(?:\W|$))")
"""Between words, but not between a number and its unit."""


def wrapped(text: str, width: float, letter: float) -> list[str]:
    """The text in lines not wider than ``width`` [mm]; a word that is wider alone is broken, a number stays with its unit."""
    lines: list[str] = []
    line = ""
    for word in _WITH_UNIT.split(text.strip()):
        if line and text_width(f"{line} {word}", letter) <= width:
            line = f"{line} {word}"
            continue
        if line:
            lines.append(line)
        while text_width(word, letter) > width and len(word) > 1:
            end = next(n for n in range(len(word) - 1, 0, -1) if n == 1 or text_width(word[:n], letter) <= width)
            lines.append(word[:end])
            word = word[end:]
        line = word
    return [*lines, line] if line else lines


def block(x: float, y: float, text: str, width: float, letter: float = SMALL, accent: bool = False) -> tuple[Group, float]:
    """Text from its top left corner down, and the y below it [mm]."""
    lines = wrapped(text, width, letter)
    items = tuple(
        Label(x, y - i * PITCH * letter, line, letter, "start", "top", accent=accent) for i, line in enumerate(lines)
    )
    return items, y - len(lines) * PITCH * letter


def fitting(text: str, width: float, letters: Sequence[float] = (NAME, TITLE, FIGURE)) -> tuple[str, float]:
    """The text and the largest letter in which it fits the width; cut off in the smallest if it must be."""
    for letter in letters:
        if text_width(text, letter) <= width:
            return text, letter
    return shortened(text, width, letters[-1]), letters[-1]


def heading(x: float, y: float, text: str, width: float, letter: float = FIGURE) -> tuple[Group, float]:
    """A heading over a narrow line, from its top down, and the y below it."""
    low = y - letter - 1.4
    return (Label(x, y, text, letter, "start", "top"), Line(x, low, x + width, low, "narrow")), low - 1.6


def flow(title: str, under: str, blocks: Sequence[Block], on: Paper, sentence: str) -> list[Page]:
    """Blocks under a title, down as many pages as they need; the first page has a bookmark."""
    groups: list[list[Item]] = []
    y = 0.0
    for items, deep in blocks:
        reach = max(deep, -bounds(items)[1] if items else 0.0)  # what is to stand close to the next one may say that it is less deep than it is
        if not groups or y - reach < on.bottom - 1e-9:
            y = on.top
            drawn: list[Item] = []
            text, letter = fitting(title, on.room, (TITLE, FIGURE))
            drawn.append(Label(on.left, y, text, letter, "start", "top"))
            y -= 8.2
            if under:
                drawn.append(Label(on.left, y, shortened(under, on.room, SMALL), SMALL, "start", "top"))
                y -= 4.6
            drawn.append(Line(on.left, y, on.right, y, "outline"))
            y -= 3.0
            groups.append(drawn)
        groups[-1] += move(items, on.left, y)
        y -= deep + 2.5
    pages = []
    for number, drawn in enumerate(groups, 1):
        name = title if len(groups) == 1 else f"{title}, sheet {number} of {len(groups)}"
        pages.append(Page(name, sentence, tuple(drawn), title if number == 1 else ""))
    return pages


def clearest(drawn: Sequence[Item], ways: Iterable[Group]) -> Group:
    """Of several ways to write something on a drawing the first that hides nothing and is not hidden, else the least bad."""
    ready = Drawn(drawn)
    found: tuple[tuple[int, int], Group] | None = None
    for way in ways:
        near = ready.faults(way)
        if not near:
            return way
        bad = ready.faults(way, INTO), near  # where nothing is well clear, better near than struck
        if found is None or bad < found[0]:
            found = (bad, way)
    assert found is not None
    return found[1]


# --- tables -------------------------------------------------------------------------------------------
@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table: its head, its width [mm], its letters [mm], where its text stands."""

    head: str
    width: float
    letter: float = SMALL
    anchor: str = "start"


_HEAD_PAD = 0.8
"""Under the heads of a table, so that the tails of their letters are clear of the wide line [mm]."""


def _lift(letter: float, pad: float, first: bool) -> float:
    """By how much a row with little pad stands higher, so that tails are clear of the line under it, as far as tall letters stay clear of the one above [mm].

    Tails reach 0.29 of the letters' height down, the tallest 0.05 over it; the line over the first row is wide.
    """
    line, clear = NARROW / 2, 0.12
    under = (0.29 - 0.18) * letter + line + clear - pad
    over = pad + (0.14 - 0.05) * letter - (2 * line if first else line) - clear
    return max(0.0, min(under, over))


def table(
    x: float, y: float, columns: Sequence[Column], rows: Sequence[Sequence[str]], *, pad: float = 1.1, row_lines: bool = True
) -> tuple[Group, float]:
    """A ruled table from its top left corner down, and the y below it [mm].

    Text that is wider than its column is wrapped, and the row grows. A head of a table without heads
    is left out.
    """
    items: list[Item] = []
    wide = sum(column.width for column in columns)
    inset = 1.0
    if any(column.head for column in columns):
        items.append(Line(x, y, x + wide, y, "narrow"))
        heads = [wrapped(c.head, c.width - 2 * inset, SMALL) for c in columns]
        deep = max(len(lines) for lines in heads)
        at = x
        for column, lines in zip(columns, heads, strict=True):
            for i, line in enumerate(lines):
                low = y - max(pad, 0.5) - (i + deep - len(lines)) * PITCH * SMALL
                items.append(Label(_place(column, at, inset), low, line, SMALL, column.anchor, "top"))
            at += column.width
        y -= deep * PITCH * SMALL + pad + max(pad, _HEAD_PAD) - (PITCH - 1) * SMALL * 0.6
    items.append(Line(x, y, x + wide, y, "outline"))
    for row in rows:
        cells = [wrapped(cell, c.width - 2 * inset, c.letter) or [""] for c, cell in zip(columns, row, strict=True)]
        high = max((len(lines) - 1) * PITCH * c.letter + c.letter for c, lines in zip(columns, cells, strict=True))
        at = x
        for column, lines in zip(columns, cells, strict=True):
            deep = (len(lines) - 1) * PITCH * column.letter + column.letter
            first = y - pad - (high - deep) / 2 - 0.14 * column.letter + _lift(column.letter, pad, row is rows[0])
            for i, line in enumerate(lines):
                if line:
                    low = first - i * PITCH * column.letter
                    items.append(Label(_place(column, at, inset), low, line, column.letter, column.anchor, "top"))
            at += column.width
        y -= high + 2 * pad + 0.32 * max(c.letter for c in columns)
        if row_lines:
            items.append(Line(x, y, x + wide, y, "narrow"))
    if not row_lines:
        items.append(Line(x, y, x + wide, y, "narrow"))
    return tuple(items), y


def _place(column: Column, at: float, inset: float) -> float:
    return {"start": at + inset, "middle": at + column.width / 2, "end": at + column.width - inset}[column.anchor]


def box(x: float, y: float, width: float, height: float) -> Item:
    """An empty box to write in, from its lower left corner."""
    return polygon(((x, y), (x + width, y), (x + width, y + height), (x, y + height)), "narrow", "paper")


def warning_sign(x: float, y: float, high: float = 3.4) -> Group:
    """A triangle with a stroke in it, its lower left corner at x, y: a caution follows."""
    wide = high * 1.12
    middle = x + wide / 2
    thin = 0.09 * high
    return (
        polygon(((x, y), (x + wide, y), (middle, y + high)), "narrow"),
        polygon(
            (
                (middle - thin, y + 0.62 * high),
                (middle + thin, y + 0.62 * high),
                (middle + 0.6 * thin, y + 0.32 * high),
                (middle - 0.6 * thin, y + 0.32 * high),
            ),
            "",
            "ink",
        ),
        polygon(
            (
                (middle - thin, y + 0.14 * high),
                (middle + thin, y + 0.14 * high),
                (middle + thin, y + 0.24 * high),
                (middle - thin, y + 0.24 * high),
            ),
            "",
            "ink",
        ),
    )
