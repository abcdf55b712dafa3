"""The class pack: all that a class for a day is printed from, in three PDFs, with the files to plan its stock from.

>>> from anglelib.workshop.class_plan import ClassWanted
>>> pack = make_class_pack(ClassWanted(2, date="2024-05-01"))
>>> sorted(pack.files())[:4]
['class-job.toml', 'class-pack.pdf', 'class-rack.csv', 'key.pdf']
>>> print(pack.made)
2 learners, 2 parts of their own. The day takes 5 h 42 min, 2 h 18 min less than the 8 h 00 min there are.
"""

from __future__ import annotations

import datetime
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from anglelib.drawing.pdf import pdf
from anglelib.drawing.sheet import Item, Label, Sheet
from anglelib.errors import BenchError
from anglelib.paper.cover import PRINTING
from anglelib.paper.page import SMALL, TITLE, Block, Column, Page, block, flow, heading, table
from anglelib.paper.version import version
from anglelib.whole_sets import refuse_folder, write_set
from anglelib.workshop.class_plan import ClassWanted
from anglelib.workshop.day import Day, day_of
from anglelib.workshop.handouts import handouts, lines, marked
from anglelib.workshop.learner_parts import Learner, learners
from anglelib.workshop.rotation import rotation
from anglelib.workshop.sheets_to_sign import briefing_pages, inspection_pages, sign_off_pages
from anglelib.workshop.stock_pages import stock_pages
from anglelib.workshop.stock_to_buy import ClassStock, shopping_csv, stock_for
from anglelib.workshop.timetable import timetable_pages
from anglelib.workshop.worksheet_questions import Worksheet, worksheets_of
from anglelib.workshop.worksheets import key_pages, learner_pages

PACK, WORKSHEETS, KEY = "class-pack.pdf", "worksheets.pdf", "key.pdf"
CLASS_JOB, CLASS_RACK, PIECES_JOB, PIECES_RACK, SHOPPING = "class-job.toml", "class-rack.csv", "pieces-job.toml", "pieces-rack.csv", "stock-to-buy.csv"
Progress = Callable[[float, str], None]


@dataclass(frozen=True)
class Printed:
    """One PDF: its title, its sheets, its bookmarks by page from 0."""

    title: str
    sheets: tuple[Sheet, ...]
    bookmarks: dict[int, str]


@dataclass(frozen=True)
class ClassPack:
    """A class pack that is made and not yet written."""

    wanted: ClassWanted
    people: tuple[Learner, ...]
    day: Day
    stock: ClassStock
    worksheets: tuple[Worksheet, ...]
    printed: dict[str, Printed]

    @property
    def date(self) -> datetime.date:
        """The day on the pages."""
        assert self.wanted.date is not None
        return self.wanted.date

    @property
    def made(self) -> str:
        """What was made, in a sentence or two."""
        n = len(self.people)
        who = "1 learner, 1 part of their own" if n == 1 else f"{n} learners, {n} parts of their own"
        return f"{who}. {self.day.sentence}"

    @property
    def pages(self) -> int:
        """Pages in all."""
        return sum(len(printed.sheets) for printed in self.printed.values())

    def files(self, progress: Progress | None = None) -> dict[str, bytes]:
        """Every file by name."""
        from anglelib.files import render_job, render_rack

        tell = progress or (lambda share, words: None)
        found: dict[str, bytes] = {}
        done = 0
        for name, printed in self.printed.items():
            before = done
            found[name] = pdf(
                printed.sheets, printed.title, date=self.date, subject=self.made, bookmarks=printed.bookmarks,
                drawn=lambda page, before=before: tell(0.7 + 0.3 * (before + page) / self.pages, "printing"),
            )  # fmt: skip
            done += len(printed.sheets)
        stock = self.stock
        texts = {
            CLASS_JOB: render_job(stock.job), CLASS_RACK: render_rack(stock.pieces_rack),
            PIECES_JOB: render_job(stock.pieces), PIECES_RACK: render_rack(stock.rack), SHOPPING: shopping_csv(stock),
        }  # fmt: skip
        for name, text in texts.items():
            # a spreadsheet takes text without this mark for an old code page
            marked_text = text if text.isascii() or name.endswith(".toml") else "\ufeff" + text
            found[name] = marked_text.encode("utf-8")
        return found


def make_class_pack(wanted: ClassWanted, progress: Progress | None = None) -> ClassPack:
    """Make everything of a class: parts, stock, rotation, pages; ``progress`` hears the share done and a word."""
    tell = progress or (lambda share, words: None)
    wanted = wanted if wanted.date is not None else wanted.with_date(datetime.date.today())
    tell(0.0, "parts and stock")
    people = learners(wanted)
    stock = stock_for(wanted, people)
    tell(0.05, "timetable")
    day = day_of(wanted, rotation(wanted))
    tell(0.35, "worksheets")
    sheets = worksheets_of(wanted, people)
    own: list[Page] = []
    for number, sheet in enumerate(sheets):
        tell(0.4 + 0.25 * number / len(sheets), "worksheets")
        own += learner_pages(sheet, day)
    tell(0.65, "handouts and lists")
    printed = {
        PACK: _printed("Class pack", _class_pages(wanted, people, day, stock), wanted, stock),
        WORKSHEETS: _printed("Worksheets", own, wanted, stock),
        KEY: _printed("Key to the worksheets", key_pages(sheets, wanted.on), wanted, stock),
    }
    return ClassPack(wanted, people, day, stock, sheets, printed)


def class_name(wanted: ClassWanted) -> str:
    """What stands in the foot of every page."""
    return f"Class of {wanted.learners}, seed {wanted.seed}"


def _printed(title: str, pages: Sequence[Page], wanted: ClassWanted, stock: ClassStock) -> Printed:
    about, this = (class_name(wanted), wanted.date.isoformat() if wanted.date else ""), version(stock.job)
    sheets = tuple(page.sheet(wanted.on, *about, n, len(pages), this) for n, page in enumerate(pages, 1))
    return Printed(f"{title}: {class_name(wanted)}", sheets, {n: page.bookmark for n, page in enumerate(pages) if page.bookmark})


# --- the pages of the class -----------------------------------------------------------------------------------
def _class_pages(wanted: ClassWanted, people: Sequence[Learner], day: Day, stock: ClassStock) -> list[Page]:
    """The cover, then what the instructor needs, then the handouts, whose fronts lie on odd pages."""
    chapters = [
        ("Timetable, rotation, queues", timetable_pages(day), "one for the wall, one for the instructor"),
        ("Stock to buy, plan, tags", stock_pages(wanted, stock), "one; the tags cut out"),
        ("Safety briefing", briefing_pages(wanted), "one, signed"),
        ("Sign-off", sign_off_pages(wanted, people), "one"),
        ("Inspection of the parts", inspection_pages(wanted, people), "one"),
    ]
    front = [page for _, pages, _ in chapters for page in pages]
    notes = [] if len(front) % 2 else [_notes(wanted)]  # the cover is a page too
    sheets = handouts(wanted.on)
    rows, number = [], 2
    for what, pages, copies in chapters:
        rows.append((what, _span(number, len(pages)), copies))
        number += len(pages)
    rows.append(("Handouts 00 to 12, a sheet each, two sides", _span(number + len(notes), len(sheets)), f"{wanted.learners}, on both sides, grey"))
    rows.append((WORKSHEETS, "", f"one, on one side, at actual size: it holds {wanted.learners} learners' worksheets, cards, fold sheets and check prints"))
    rows.append((KEY, "", "one, kept by the instructor"))
    return [*_cover(wanted, day, rows), *front, *notes, *sheets]


def _span(first: int, count: int) -> str:
    return str(first) if count == 1 else f"{first} to {first + count - 1}"


def _cover(wanted: ClassWanted, day: Day, rows: Sequence[tuple[str, str, str]]) -> list[Page]:
    width = wanted.on.room
    items, y = heading(0, 0, "What to print", width)
    drawn, y = table(0, y, [Column("what", 72), Column("pages", 20), Column("how many", width - 92)], rows, pad=0.9)
    blocks: list[Block] = [((*items, *drawn), -y)]
    for title, words in (
        ("Printing", (PRINTING, "What is drawn is read in grey. Check prints and fold sheets are of use at actual size only.")),
        ("The day in a few sentences", (
            day.sentence,
            "Neighbours make the left and the right hand of one cleat, from one piece, one after the other; every pair has numbers of its own.",
            "A part is judged on its check print first; calipers and lesson 10 are for those that miss. 09, 12 and what is left are for home.",
            "Readings of parts that miss may be typed or kept in a file, and looked at for the whole class: python -m anglelib check.",
        )),
        ("Before the day", (
            "Saw the pieces and the off-cuts, tag them, write the alloy on each; measure the kerf of the saw with a test cut.",
            "Print one check print, and measure its bars. Print the rest only when they are right.",
            f"Lay out tables of four: {wanted.tables}. Two off-cuts on each, one square inside, one with a fillet.",
            "The class's own files plan its stock again, on another rack too: python -m anglelib plan pieces-job.toml pieces-rack.csv.",
        )),
        ("What it does not claim", (
            "The class computes geometry and stock, and practises hands. It approves nothing, qualifies nobody, and no part of it is for flight. "
            "The machines' manuals, local rules and the kit's plans come first; where the work can hurt, the sheet of the safety briefing says so.",
        )),
    ):  # fmt: skip
        items, y = heading(0, 0, title, width)
        drawn = items
        for sentence in words:
            text, y = marked(0, y, sentence, width)
            drawn += text
        blocks.append((drawn, -y))
    pages = flow(f"Class pack for {wanted.learners} learner{'' if wanted.learners == 1 else 's'}", f"seed {wanted.seed}: the same one gives the same pack",
                 blocks, wanted.on, f"Cover of the class pack. {day.sentence} What to print: {'; '.join(what for what, _, _ in rows)}.")  # fmt: skip
    if len(pages) != 1:
        raise BenchError("The cover of the class pack does not fit its page: choose the other paper.")
    return pages


def _notes(wanted: ClassWanted) -> Page:
    """A page to write on, so that the handouts' fronts come on odd pages."""
    on = wanted.on
    items: list[Item] = [Label(on.left, on.top, "Notes of the instructor", TITLE, "start", "top")]
    text, y = block(on.left, on.top - 9, "What took longer than planned, which slips came, what to say next time.", on.room, SMALL)
    return Page("Notes of the instructor", "A page to write on.", (*items, *text, *lines(on, y, int((y - 3 - on.bottom) / 8.6))))


# --- writing --------------------------------------------------------------------------------------------------
def write_class_pack(pack: ClassPack, folder: Path, progress: Progress | None = None) -> tuple[Path, ...]:
    """Write every file or none; older ones in the folder are kept as the previous version. All is made before anything is written."""
    refuse_folder(folder)
    return write_set(folder, pack.files(progress))
