"""The instructor's guide as pages: the day, the lessons, demonstrations, the table of mistakes, what research says, the machines.

>>> from anglelib.paper.page import A4
>>> pages = guide_pages(A4)
>>> pages[0].title, [page.bookmark for page in pages if page.bookmark][:2]
('For the instructor, sheet 1 of 2', ['For the instructor', 'Lessons'])
"""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Sequence

from anglelib.drawing.sheet import Item, Label, Sheet
from anglelib.paper.page import SMALL, Block, Column, Page, Paper, block, flow, heading, table, warning_sign
from anglelib.workshop import guide
from anglelib.workshop.guide import DEMONSTRATIONS, EVIDENCE, LESSONS, LessonGuide
from anglelib.workshop.mistake_table import WAYS, recognised
from anglelib.workshop.mistake_table import table as mistake_rows

TITLE = "For the instructor"
NAMES = 26.0
"""Room for the name of a row [mm]."""
LETTER = SMALL
MOST_REVEALED = 4


def guide_pages(on: Paper) -> list[Page]:
    """All pages of the guide, above their foot."""
    wide = on.room
    first = [
        *_said("Before, in and after the day", guide.DAY, wide),
        *_said("Whose work it is", guide.WHO, wide),
        *_said("At the machines", guide.SAFETY, wide, caution=True),
        *_said("The projector", guide.PROJECTOR, wide),
        *_said("Phones", guide.PHONES, wide),
        *_demonstrations(wide),
    ]
    mistakes = f"{recognised()} of {len(mistake_rows())} mistakes are recognised in a lesson; what is to be said stands beside each."
    return [
        *flow(TITLE, "A class of 6 to 20 for one day", first, on, "How the day is led: before, in and after it, at the machines, with the projector."),
        *flow("Lessons", "What to say first, what to ask, what wrong answers reveal, what to give up when late", [_lesson(g, wide) for g in LESSONS], on,
              f"The {len(LESSONS)} lessons, each with what to say first, the question to ask, what wrong answers reveal."),
        *flow("Mistakes by lesson", mistakes, _mistakes(wide), on, mistakes),
        *flow("What research says", "Averages over other subjects, as read in these sources; not measured on this course", _evidence(wide), on,
              f"{len(EVIDENCE)} findings about teaching with their numbers and sources."),
    ]  # fmt: skip


def sheets(on: Paper, date: str) -> list[Sheet]:
    """The pages with their foot."""
    pages = guide_pages(on)
    return [page.sheet(on, TITLE, date, number, len(pages)) for number, page in enumerate(pages, 1)]


def guide_pdf(on: Paper, date: datetime.date) -> bytes:
    """The guide as a PDF, its chapters among the bookmarks."""
    from anglelib.drawing.pdf import pdf

    pages = guide_pages(on)
    bookmarks = {number: page.bookmark for number, page in enumerate(pages) if page.bookmark}
    return pdf(sheets(on, date.isoformat()), TITLE, date=date, subject="Leading a class for one day", bookmarks=bookmarks)


# --- blocks ---------------------------------------------------------------------------------------------
def _said(title: str, lines: Iterable[str], wide: float, caution: bool = False) -> list[Block]:
    """A heading with paragraphs under it, all in one block."""
    left = 6.0 if caution else 0.0
    drawn, y = heading(left, 0, title, wide - left)
    items: list[Item] = [*(warning_sign(0, -3.9, 4.2) if caution else ()), *drawn]
    for line in lines:
        items.append(Label(0, y, "-", LETTER, "start", "top"))
        text, y = block(4, y, line, wide - 4, LETTER)
        items += text
        y -= 1.0
    return [(tuple(items), -y + 1.5)]


def _named(rows: Sequence[tuple[str, str]], y: float, wide: float) -> tuple[list[Item], float]:
    """Rows of a name and its text, from y down."""
    items: list[Item] = []
    for name, words in rows:
        head, low = block(0, y, name, NAMES - 2, LETTER)
        text, below = block(NAMES, y, words, wide - NAMES, LETTER)
        items += [*head, *text]
        y = min(low, below) - 0.9
    return items, y


def _lesson(lesson: LessonGuide, wide: float) -> Block:
    drawn, y = heading(0, 0, f"{lesson.number}  {lesson.title}", wide)
    shown = lesson.reveals[:MOST_REVEALED]
    more = len(lesson.reveals) - len(shown)
    known = "  ".join(shown) + (f"  And {more} more, in the table of mistakes." if more else "")
    rows = [
        ("minutes", f"{lesson.minutes}."), ("say first", f"“{lesson.say}”"), ("ask", f"“{lesson.ask}”"), ("they reveal", lesson.reveal),
        *([("known by name", known)] if known else []), ("late? give up", lesson.late), ("materials", f"{lesson.materials}."),
    ]  # fmt: skip
    items, y = _named(rows, y, wide)
    return (*drawn, *items), -y + 2.0


def _demonstrations(wide: float) -> list[Block]:
    drawn, y = heading(0, 0, "Demonstrations with a vote", wide)
    text, y = block(0, y, guide.VOTE, wide, LETTER)
    rows = [(f"lesson {d.lesson}", f"{d.title}. {d.metal}") for d in DEMONSTRATIONS]
    items, y = _named(rows, y - 1.5, wide)
    return [((*drawn, *text, *items), -y + 1.5)]


def _mistakes(wide: float) -> list[Block]:
    """The table on one page, how a lesson shows a mistake by letters."""
    widths = (11.0, 50.0, wide - 11 - 50 - 68, 68.0)
    heads = ("", "mistake", "in lesson", "what helps")
    columns = [Column(head, width, SMALL) for head, width in zip(heads, widths, strict=True)]
    rows = [[row.id, row.name, row.short, row.remedy] for row in mistake_rows()]
    items, y = table(0, 0, columns, rows, pad=0.8)
    key, y = block(0, y - 2, "; ".join(f"{letter}: {way}" for letter, way in WAYS.items()) + ".", wide)
    return [((*items, *key), -y)]


def _evidence(wide: float) -> list[Block]:
    """The findings in one table."""
    widths = (38.0, 44.0, 54.0, wide - 38 - 44 - 54)
    heads = ("claim", "found", "source", "so, in this class")
    columns = [Column(head, width, SMALL) for head, width in zip(heads, widths, strict=True)]
    items, y = table(0, 0, columns, [[row.claim, row.number, row.source, row.so] for row in EVIDENCE])
    return [(items, -y)]
