"""The shop pack: all that is printed for a job, in one PDF, and the rack after cutting.

>>> from anglelib.job import Shop
>>> from anglelib.paper.page import A4
>>> from anglelib.part import Part, Taper
>>> from anglelib.section import Section
>>> from anglelib.stock.rack import Stick
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> cleat = Part("A1", "Cleat", stock, "6061-T6", "2 1/8", tapers=[Taper("A", 1, "3/8", run="1 1/4")])
>>> pack = make_pack(Job("Demo", Shop(), [cleat]), Rack([Stick("S-1", stock, "6061-T6", 30)]), A4)
>>> len(pack.sheets), pack.made
(11, 'The piece is planned, from 1 stick.')
"""

from __future__ import annotations

import datetime
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from anglelib.drawing.pdf import pdf
from anglelib.drawing.sheet import Sheet
from anglelib.errors import BenchError
from anglelib.geometry.hole_lines import warned, worst_of
from anglelib.geometry.hole_refusals import refuse_broken
from anglelib.geometry.hole_words import holes_summary, rules_words
from anglelib.geometry.rough_words import ROUGH, outside_by_hacksaw, sentence_of, throat_words
from anglelib.job import Job
from anglelib.lengths import writing
from anglelib.paper.cards import card_pages
from anglelib.paper.chapters import SHEETS, Chapter
from anglelib.paper.check_print import check_pages
from anglelib.paper.cover import cover_pages
from anglelib.paper.page import Page, Paper
from anglelib.paper.plan_pages import lots_of, plan_pages, sticks_of
from anglelib.paper.print_scale import AS_PRINTED, PrintScale
from anglelib.paper.receiving import receiving_pages
from anglelib.paper.record import record_pages
from anglelib.paper.safety_sheet import safety_pages
from anglelib.paper.tags import tag_pages
from anglelib.paper.template import template_pages
from anglelib.paper.unprinted import unprinted, unprinted_words
from anglelib.paper.version import version
from anglelib.part import Part
from anglelib.stock.after import rack_after
from anglelib.stock.checker import check
from anglelib.stock.cut_words import place_words
from anglelib.stock.plan import Plan
from anglelib.stock.plan_words import made_words, short_words
from anglelib.stock.planner import plan as make_plan
from anglelib.stock.rack import Rack
from anglelib.stock.reason_words import sentences
from anglelib.stock.several_jobs import own_parts
from anglelib.tolerances import Limits
from anglelib.whole_sets import write_set

PDF_NAME, RACK_NAME = "shop-pack.pdf", "rack-after.csv"

Progress = Callable[[float, str], None]
PartChapters = tuple[Part, tuple[Chapter, ...]]


@dataclass(frozen=True)
class Pack:
    """A pack that is made and not yet written: its sheets, its plan, the rack once every cut is done."""

    job: Job
    plan: Plan
    after: Rack
    sheets: tuple[Sheet, ...]
    bookmarks: dict[int, str]
    date: datetime.date
    holes: tuple[str, ...] = ()
    """What is said of the holes: the worst edge distance, then what is warned of."""

    @property
    def made(self) -> str:
        """How many pieces are planned, in words."""
        return made_words(self.job, self.plan)

    @property
    def short(self) -> str:
        """What is short, in words; empty where nothing is."""
        with writing(self.job.unit):
            return short_words(self.job, self.plan)

    @property
    def unprinted(self) -> str:
        """Which names the print cannot show, in words; empty where it shows all."""
        return unprinted_words(unprinted(self.job, self.after))

    @property
    def title(self) -> str:
        """The title of the PDF."""
        return f"Shop pack: {self.job.name}"

    def pdf(self, drawn: Callable[[int], None] | None = None) -> bytes:
        """The pack as PDF."""
        subject = f"{self.made} {self.short}".strip()
        return pdf(self.sheets, self.title, date=self.date, subject=subject, bookmarks=self.bookmarks, drawn=drawn)


def make_pack(
    job: Job,
    rack: Rack,
    on: Paper,
    *,
    date: datetime.date | None = None,
    limits: Limits | None = None,
    sheets: Sequence[str] = tuple(SHEETS),
    scale: PrintScale = AS_PRINTED,
    progress: Progress | None = None,
    plan: Plan | None = None,
    whole: Job | None = None,
    number: str = "",
) -> Pack:
    """Plan a job on a rack, check the plan, and lay out every page; ``progress`` hears the share done and a word.

    A ``plan`` that is made already is printed as it is. ``whole`` is the job as its file has it, where some pieces of it are
    made: its version and its partners stand on the sheets of every day alike. ``number`` is the plan's, on every sheet ("": it is not kept).
    ``sheets`` are those of :data:`anglelib.paper.chapters.SHEETS` that are wanted; they come in the order of the bench.
    ``scale`` is what the printer was measured to do; what is drawn at 1:1 makes up for it.
    """
    with writing(job.unit):  # what is the job's; a part's own sheets are in the part's unit
        return _make_pack(job, rack, on, date, limits or job.limits, sheets, scale, progress, plan, whole or job, number)


def _make_pack(
    job: Job,
    rack: Rack,
    on: Paper,
    date: datetime.date | None,
    limits: Limits,
    sheets: Sequence[str],
    scale: PrintScale,
    progress: Progress | None,
    plan: Plan | None,
    whole: Job,
    number: str,
) -> Pack:
    tell = progress or (lambda share, words: None)
    date = date or datetime.date.today()
    refuse_broken(job.parts)
    every, job, whole = job, own_parts(job), own_parts(whole)  # what is only held for another job has its sheets with that one
    made = plan or make_plan(every, rack, progress=lambda share, words: tell(0.5 * share, "planning"))
    check(made, every, rack)
    words = {"made": made_words(job, made), "short": short_words(every, made), "holes": holes_words(job, limits)}
    sticks = {part.id: sticks_of(made, part.id) for part in job.parts}
    partners = {part.id: part.mirror_of for part in whole.parts}
    parts: list[PartChapters] = []
    for n, part in enumerate(replace(part, mirror_of=partners[part.id]) for part in job.parts):
        tell(0.5 + 0.3 * n / len(job.parts), "cards and templates")
        cards, templates, checks = [], [], []
        if "cards" in sheets:
            cards = card_pages(part, job.shop, on, blanks=sticks[part.id], limits=limits, note=_note(part, made, limits), job=_of(part, job))
        if "templates" in sheets:
            templates = template_pages(part, job.shop, on, limits=limits, scale=scale)
        if "checks" in sheets:
            checks = check_pages(part, on, limits=limits, scale=scale)
        chapters = (Chapter("card", tuple(cards)), Chapter("templates", tuple(templates)), Chapter("check print", tuple(checks)))
        parts.append((part, chapters))
    tell(0.8, "tags and lists")
    makers: dict[str, Callable[[], list[Page]]] = {
        "safety": lambda: safety_pages(job, on),
        "receiving": lambda: receiving_pages(rack, on),
        "plan": lambda: plan_pages(made, every, rack, on, limits),
        "tags": lambda: tag_pages(made, job, on, partners),
        "record": lambda: record_pages(job, on, {part.id: sticks_of(made, part.id, lots=False) for part in job.parts}, {part.id: lots_of(made, part.id) for part in job.parts}),
    }
    lists = [(name, Chapter(f"{name.capitalize()}: {SHEETS[name]}", tuple(make()))) for name, make in makers.items() if name in sheets]
    front = [chapter for name, chapter in lists if name != "record"]
    back = [chapter for name, chapter in lists if name == "record"]
    pages = [page for chapter in front for page in chapter.pages]
    pages += [page for _, chapters in parts for chapter in chapters for page in chapter.pages]
    pages += [page for chapter in back for page in chapter.pages]
    if "cover" in sheets:
        pages = [*_cover(job, on, front, parts, back, limits, words), *pages]
    if not pages:
        raise BenchError("There is nothing to print: no part of this job has a cut or a hole, so there are no templates. Choose other sheets.")
    about = (job.name, date.isoformat())
    this = version(replace(whole, limits=limits))  # other limits are other sheets
    if whole.pieces > job.pieces:
        this += f", {whole.pieces - job.pieces} of {whole.pieces} made"
    printed = tuple(page.sheet(on, *about, n, len(pages), this, number) for n, page in enumerate(pages, 1))
    bookmarks = {n: page.bookmark for n, page in enumerate(pages) if page.bookmark}
    return Pack(every, made, rack_after(made, rack), printed, bookmarks, date, holes_lines(job, limits))


def _cover(
    job: Job,
    on: Paper,
    front: Sequence[Chapter],
    parts: Sequence[PartChapters],
    back: Sequence[Chapter],
    limits: Limits,
    words: dict[str, str],
) -> list[Page]:
    """The cover with the contents; how long it is moves the pages that it names, so it is laid out until it agrees."""
    length = 1
    while True:
        rows: list[tuple[str, ...]] = []
        number = length + 1
        for chapter in front:
            rows.append((chapter.what, "", "", "", _pages(number, chapter.count), "", ""))
            number += chapter.count
        for part, chapters in parts:
            pages = []
            for chapter in chapters:
                pages.append(_pages(number, chapter.count))
                number += chapter.count
            if any(pages):
                rows.append((part.name, part.id, str(part.quantity), part.hand or "", *pages))
        for chapter in back:
            rows.append((chapter.what, "", "", "", _pages(number, chapter.count), "", ""))
            number += chapter.count
        cover = cover_pages(job, on, rows, limits, words)
        if len(cover) == length:
            return cover
        length = len(cover)


def _pages(first: int, count: int) -> str:
    return "" if not count else str(first) if count == 1 else f"{first} to {first + count - 1}"


# --- what is said of the holes ----------------------------------------------------------------------------
def holes_words(job: Job, limits: Limits) -> str:
    """Of how many holes something is warned, and of which parts; empty where of none."""
    found = holes_summary(job.parts, limits)
    return f"{found}: the plan's pages and the cards say why." if found else ""


def holes_lines(job: Job, limits: Limits) -> tuple[str, ...]:
    """The worst edge distance of a job, what is warned of its holes, and whose rules those are."""
    found = (worst_of(job.parts, limits), *warned(job.parts, limits), rules_words(job.parts, limits))
    return tuple(words for words in found if words)


def _of(part: Part, job: Job) -> str:
    """The job that a part is of, where several are planned together."""
    member = job.member(part.id)[0]
    return member.name if member is not None and member.label else ""


def _note(part: Part, made: Plan, limits: Limits) -> str:
    """What a card says of the plan below its head: that the part is held for later, that it is short and why."""
    words = []
    if part.later:
        words.append("Made later: its length is held on the rack, nothing is cut for it now.")
    words += rough_of(part, made, limits)
    for shortage in made.shortages:
        if shortage.part_id == part.id:
            with writing(part.unit):
                why = sentences(shortage.reasons[:2])
            words.append(f"{shortage.missing} of {shortage.of} cannot be made from this rack. {why}")
    return " ".join(words)


def rough_of(part: Part, made: Plan, limits: Limits) -> list[str]:
    """Which blanks of a part the plan parts off by hacksaw, as its card says it; nothing where none."""
    with writing(part.unit):
        cuts = [(cut.blank, planned.stick.id) for planned in made.sticks for cut in planned.cuts if cut.rough and cut.blank is not None and cut.blank.part.id == part.id]
        if not cuts:
            return []
        named = ", ".join(f"{blank} from {stick}" for blank, stick in cuts)
        at = place_words(part, made.shop.by_hacksaw, limits)
        return [sentence_of(f"{ROUGH}: {named}; saw line {at}; {outside_by_hacksaw(made.shop)}: {throat_words(made.shop)}")]


# --- writing ----------------------------------------------------------------------------------------------
def write_pack(pack: Pack, folder: Path, progress: Progress | None = None) -> tuple[Path, Path]:
    """Write the PDF and the rack after cutting, both or neither; an older pack in the folder is kept as the previous version."""
    from anglelib.files import render_rack

    tell = progress or (lambda share, words: None)
    rack = render_rack(pack.after)
    content = pack.pdf(lambda page: tell(0.8 + 0.2 * page / len(pack.sheets), "printing"))
    # A spreadsheet takes text without this mark for an old code page.
    listed = (rack if rack.isascii() else "\ufeff" + rack).encode("utf-8")
    printed, after = write_set(folder, {PDF_NAME: content, RACK_NAME: listed})
    return printed, after
