"""Lesson 12: a part of one's own by the whole chain: described, predicted, marked, sawn, checked, its stick found, its pack printed.

The lesson's boxes belong together: what is described in one is predicted, shown, saved and packed in the next.

>>> work = Work()
>>> work.part.id, work.part.length
('P1', Fraction(5, 1))
>>> work.known
False
"""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from dataclasses import replace

import ipywidgets as widgets

from anglelib.drawing.part_sheet import part_sheet
from anglelib.drawing.sheet import Sheet
from anglelib.drawing.svg import image, svg
from anglelib.errors import BenchError
from anglelib.files import open_job, read_rack
from anglelib.geometry import work_words
from anglelib.geometry.taper import taper_lines
from anglelib.geometry.work import operations
from anglelib.inspection.reading_words import reading_words
from anglelib.inspection.wanted import wanted_readings
from anglelib.job import Job, Shop
from anglelib.lengths import both, exact, fine, own, writing
from anglelib.lessons.ask import Ask, Predict, Questions
from anglelib.lessons.ask_order import AskOrder
from anglelib.lessons.bench_facts import Fact, facts, stick_in_short
from anglelib.lessons.bench_out import Packing, Saving
from anglelib.lessons.bench_views import VIEW_WORDS, draw, templates, whole_sheet
from anglelib.lessons.builders_bench import placed, shop_words
from anglelib.lessons.controls import ChoiceControl, FractionControl, PressButton, by_id, fractions, in_turn
from anglelib.lessons.demo import demo_job, demo_part, demo_rack
from anglelib.lessons.formula_card import Written
from anglelib.lessons.learned import Learned, learned_in
from anglelib.lessons.look import BELOW, BOX, DO, PICTURE, WIDE, as_, page_style, when_there
from anglelib.lessons.not_here import NotHere
from anglelib.lessons.openings import opening, own_first
from anglelib.lessons.own_part import OwnPart
from anglelib.lessons.piece import Piece
from anglelib.lessons.room import ROOM
from anglelib.lessons.table import Table
from anglelib.lessons.taper_inside import write
from anglelib.lessons.words import Worked, folded, listed, paragraph, said
from anglelib.paper.check_print import check_pages
from anglelib.paper.page import LETTER
from anglelib.part import Part, in_its_unit
from anglelib.questions import make_part as ask
from anglelib.questions.answers import AnswerBook
from anglelib.questions.question import OrderQuestion
from anglelib.stock.rack import Rack
from anglelib.tolerances import Limits
from anglelib.visiting import visiting

LESSON = "12_make_part"
KERFS, ALLOWANCES = fractions("0", "1/4", "1/64"), fractions("0", "1/8", "1/64")
PREVIEWS = {"sheet": whole_sheet, "fold": templates, "check-print": lambda part, shop, limits: checks(part, limits)}
"""What may be looked at before it is printed, by id."""
PREVIEW_WORDS = {"none": "none", "sheet": "whole sheet", "fold": "fold sheets", "check-print": "check print"}
FIRST = "Commit the marks above first. Then everything is shown here."
READY = "Predict the marks of this part"
NOT_YET, NO_JOB = "commit the marks first", "no job file is open"


# --- computed -----------------------------------------------------------------------------------------
@in_its_unit
def drawing(part: Part, known: bool = False) -> Sheet:
    """The part on its sheet; without hidden lines until its marks are known, because one of them is a mark that is asked for."""
    sheet = part_sheet(part, glass=True)
    if known:
        return sheet
    return replace(sheet, items=tuple(item for item in sheet.items if getattr(item, "kind", "") != "hidden"))


def checks(part: Part, limits: Limits | None = None) -> list[Sheet]:
    """The pages of a part's check print, by the job's ``limits``."""
    pages = check_pages(part, LETTER, limits=limits)
    return [page.sheet(LETTER, "preview", "not for the bench", n, len(pages)) for n, page in enumerate(pages, 1)]


@in_its_unit
def chain(part: Part, shop: Shop, rack: Rack, limits: Limits | None = None) -> tuple[Fact, ...]:
    """The whole chain in rows of words: blank, marks, edges, saw, weight, stick, and what is read at the end.

    ``limits`` are the job's (else those usual for the part's unit).
    """
    limits = limits or Limits.usual(part.unit)
    blank = part.length + 2 * shop.allowance
    rows = [Fact("blank", "blank", f"{both(blank)}: {exact(part.length)} and {own(shop.allowance)} at each end; the stick loses {own(shop.kerf)} more at each cut")]
    rows += facts(part, shop, rack, limits)
    for want in wanted_readings(part, limits):
        rows.append(Fact(f"read-{want.id}", f"read: {reading_words(want.id, part)}", f"{fine(want.value)}, from {fine(want.low)} to {fine(want.high)}"))
    return tuple(rows)


def _table(part: Part, shop: Shop, rack: Rack, limits: Limits | None = None) -> Table:
    return Table(("what", "of this part"), [fact.row for fact in chain(part, shop, rack, limits)])


@in_its_unit
def formulas_of(part: Part) -> tuple[tuple[str, Written], ...]:
    """The formulas of the inside marks of each taper, with the part's own numbers put in."""
    found = []
    for line in taper_lines(part):
        numbers = {"X": line.run, "W": line.width, "s": line.width_left, "t": line.other_thickness, "r": part.section.fillet}
        found.append((f"The formulas of leg {line.leg} at end {line.end}, with its numbers", write(numbers)))
    return tuple(found)


def _math(lines: Sequence[str]) -> str:
    return "".join(f'<div style="margin:0.6em 0">$\\displaystyle {line}$</div>' for line in lines)


@in_its_unit
def order_of_work(part: Part, shop: Shop) -> tuple[str, ...]:
    """The steps in order, each with its cautions."""
    told = [work_words.said(step, part, shop) for step in operations(part, shop)]
    return tuple(f"{step.title}: {step.text}" + (f" Caution: {' '.join(step.cautions)}" if step.cautions else "") for step in told)


def stem(part: Part, shop: Shop) -> str:
    """A short name for these very numbers, so that a prediction belongs to the part that it was made for."""
    said_ = repr((part.section, part.length, part.tapers, part.holes, part.copes, shop.allowance, shop.kerf))
    said_ = said_.replace(", blunt=None", "")  # what was predicted before a taper could be blunted is still of the same part
    said_ += part.unit if part.unit != "in" else ""  # what was typed in another unit is another answer
    return f"own-{hashlib.sha256(said_.encode()).hexdigest()[:8]}"


def figures() -> dict[str, Sheet]:
    """The lesson's ordinary pictures by file name: what lies on the bench, and as it is laid out."""
    part = own_first()
    return {f"{LESSON}.png": opening(LESSON), f"{LESSON}_layout.png": part_sheet(part, stage="layout", shop=Shop())}


# --- wired: the part that runs through the lesson ---------------------------------------------------------
def _book() -> AnswerBook:
    return AnswerBook(LESSON)


class Work:
    """All boxes of the part of one's own: ``describe``, ``predict``, ``everything``, ``saving``, ``packing``."""

    def __init__(self) -> None:
        self.job: Job = demo_job()
        self.rack: Rack = demo_rack()
        self.own = OwnPart(own_first())
        self._part = own_first()
        self._quiet = False
        self.asked: tuple[Predict, ...] = ()
        self.describe = self._describe()
        self.ready = PressButton(DO, description=READY, layout=widgets.Layout(width="auto"))
        self.predict = Piece([self.ready], self._marks_html, self._marks_words)
        self.everything = self._everything()
        self.saving, self.packing = self._going_out()
        self._wire()
        self._new_part()

    @property
    def part(self) -> Part:
        """The part: the last that could be described."""
        return self._part

    @property
    def shop(self) -> Shop:
        """How this shop cuts, by the two controls."""
        return replace(self.job.shop, kerf=self.kerf.value, allowance=self.allowance.value)

    @property
    def limits(self) -> Limits:
        """The limits of the job file that is open; of a part of one's own, those usual for its unit."""
        return self.job.limits if not self.which.reason else Limits.usual(self.part.unit)  # type: ignore[return-value]

    @property
    def known(self) -> bool:
        """Whether every mark of this part was predicted: then all of it may be shown."""
        return bool(self.asked) and all(box.committed for box in self.asked)

    # --- made -------------------------------------------------------------------------------------------
    def _describe(self) -> Piece:
        wide = {"style": {"description_width": "10rem"}, "layout": widgets.Layout(width="36rem", max_width="100%"), "continuous_update": False}
        self.opened = widgets.HTML(said("", lines=1))
        self.which = ChoiceControl("Part of it", ("own",), "own")
        self.kerf = FractionControl("Kerf (in.)", KERFS, self.job.shop.kerf)
        self.allowance = FractionControl("Allowance (in.)", ALLOWANCES, self.job.shop.allowance)
        self.picture, self.caption = as_(PICTURE, widgets.HTML()), widgets.HTML()
        saw = widgets.HTML(paragraph("The saw", bold=True))
        self.which.idle(NO_JOB)
        self.saw_words = widgets.HTML()
        files = [] if visiting() else self._files(wide)
        box = [self.picture, self.caption, self.own, saw, self.kerf, self.allowance, self.saw_words, *files, page_style()]
        return as_(WIDE, as_(BOX, Piece(box, lambda: image(drawing(own_first())), lambda: drawing(own_first()).sentence)))

    def _files(self, wide: dict) -> list[widgets.Widget]:
        """What is typed to open files of one's own; a visitor's page has none of it."""
        self.file = widgets.Text("", description="Or a job file", placeholder="my-parts.toml; empty: your own controls", **wide)
        self.rack_file = widgets.Text("", description="Your rack", placeholder="my-rack.csv; empty: the demo rack", **wide)
        self.open = PressButton(DO, description="Open", layout=widgets.Layout(width="auto"))
        self.open.on_press(self.read)
        return [self.file, self.rack_file, self.open, self.opened, self.which]

    def _going_out(self) -> tuple[Piece, Piece]:
        if visiting():
            return NotHere(), NotHere()
        saving = Saving(self)
        saving.save.description = "Save this part"
        return saving, Packing(self)

    def _everything(self) -> Piece:
        self.view = ChoiceControl("Show", by_id(VIEW_WORDS), "edges")
        self.preview = ChoiceControl("Preview", by_id(PREVIEW_WORDS), "none")
        self.words = widgets.HTML()
        self.shown = as_(PICTURE, widgets.HTML())
        self.table, self.steps, self.paper = (as_(BELOW, widgets.HTML()) for _ in range(3))
        self.formulas = as_(BELOW, widgets.HTMLMath())
        box = [self.view, self.shown, self.words, self.table, self.formulas, self.steps, as_(BELOW, self.preview), self.paper, page_style()]
        return as_(WIDE, when_there(as_(BOX, Piece(box, self._everything_html, lambda: FIRST)), self.shown))

    def _marks_html(self) -> str:
        boxes = self._asks(own_first(), Shop())
        return "<hr>".join(box.snapshot for box in boxes)

    def _marks_words(self) -> str:
        return "\n".join(question.prompt for question in ask.three_marks(own_first(), Shop(), "own"))

    def _everything_html(self) -> str:
        table = _table(own_first(), Shop(), demo_rack())._repr_html_()
        return paragraph(FIRST) + folded("Predicted? The whole chain of the first part", table + listed(order_of_work(own_first(), Shop()), ordered=True))

    @staticmethod
    def _asks(part: Part, shop: Shop) -> tuple[Predict, ...]:
        book = _book()
        with writing(part.unit):
            questions = ask.three_marks(part, shop, stem(part, shop))
        return tuple(Predict(lambda n, q=question: q, book) for question in questions)

    def _wire(self) -> None:
        self.own.observe(self._described, "value")
        for control in (self.kerf, self.allowance):
            control.observe(self._changed, "value")
        for control in (self.view, self.preview):
            control.observe(lambda change: self.show(), "value")
        self.ready.on_press(self.ask)
        self.which.observe(self._choose, "value")
        ROOM.observe(self._changed, "theme")

    # --- what happens -----------------------------------------------------------------------------------
    @in_turn
    def _described(self, change: dict) -> None:
        if self.own.value is not None and self.own.value != self._part:
            self._part = self.own.value
            self._quiet = True
            try:
                for control in (self.kerf, self.allowance):
                    control.speak(self._part.unit)
            finally:
                self._quiet = False
            self._new_part()

    @in_turn
    def _changed(self, change: dict) -> None:
        if not self._quiet:
            self._new_part()

    def _new_part(self) -> None:
        """Another part, or another shop: it is drawn; its marks are not known yet."""
        few = ROOM.theme == "projector"
        sheet = draw("edges", self.part, self.shop, self.rack, few=True, limits=self.limits) if few else drawing(self.part)
        self.picture.value, self.caption.value = svg(sheet, ROOM.theme), said(sheet.sentence, lines=2)
        with writing(self.part.unit):
            self.saw_words.value = said(f"The saw takes {own(self.shop.kerf)} at each cut; {own(self.shop.allowance)} stays outside each line.")
        self.asked = ()
        self.predict.children = (self.ready,)
        self.show()

    @in_turn
    def ask(self) -> None:
        """The marks of this very part, to be predicted; what was committed for it before stands."""
        self.asked = self._asks(self.part, self.shop)
        for box in self.asked:
            box.observe(lambda change: self.show(), "committed")
        self.predict.children = (self.ready, *self.asked)
        self.show()

    @in_turn
    def show(self) -> None:
        """Everything of the part, once its marks are predicted."""
        for control in (self.view, self.preview):
            control.idle("" if self.known else NOT_YET)
        if not self.known:
            self.shown.value, self.words.value = "", said(FIRST)
            self.table.value = self.formulas.value = self.steps.value = self.paper.value = ""
            return
        sheet = draw(self.view.value, self.part, self.shop, self.rack, few=ROOM.theme == "projector", limits=self.limits)
        self.shown.value, self.words.value = svg(sheet, ROOM.theme), said(sheet.sentence, lines=2)
        self.table.value = _table(self.part, self.shop, self.rack, self.limits)._repr_html_()
        self.formulas.value = "".join(folded(title, _math(lines) + paragraph(words)) for title, (lines, words) in formulas_of(self.part))
        self.steps.value = folded("The order of work", listed(order_of_work(self.part, self.shop), ordered=True))
        if self.preview.value == "none":
            self.paper.value = ""
            return
        try:
            self.paper.value = "".join(svg(page, "screen") for page in PREVIEWS[self.preview.value](self.part, self.shop, self.limits))
        except BenchError as error:
            self.paper.value = said(str(error), "unreadable")

    @in_turn
    def read(self) -> None:
        """Opens the files that are typed; where one cannot be read everything stays as it was, and the sentence says why."""
        try:
            job = open_job(placed(self.file.value)).value if self.file.value.strip() else None
            rack = read_rack(placed(self.rack_file.value)) if self.rack_file.value.strip() else demo_rack()
        except BenchError as error:
            self.opened.value = said(str(error), "unreadable")
            return
        from_file = not self.which.reason
        self.rack, self.job = rack, job or demo_job()
        self._quiet = True
        try:
            self.which.buttons.options = [part.id for part in job.parts] if job else ["own"]
            self.which.buttons.value = self.which.value = None if job else "own"
            self.kerf.take(self.job.shop.kerf)
            self.allowance.take(self.job.shop.allowance)
            self.which.idle("" if job else NO_JOB)
        finally:
            self._quiet = False
        opened = f"{job.name}; {len(rack.sticks)} sticks. Choose a part. {shop_words(job)}" if job else f"Your own controls; {len(rack.sticks)} sticks."
        self.opened.value = said(opened, "right")
        if from_file and job is None:  # the part on the controls was the file's
            self.own.value = own_first()
        self._new_part()

    @in_turn
    def _choose(self, change: dict) -> None:
        if change["new"] is not None and not self._quiet:
            self.own.value = own_first() if change["new"] == "own" else self.job.part(change["new"])


# --- wired: a function a cell ---------------------------------------------------------------------------------
def _again(*numbers: str) -> Questions:
    questions, book = ask.of_every_lesson(), _book()
    made = []
    for number in numbers:
        question = questions[number]
        box = AskOrder if isinstance(question, OrderQuestion) else Ask
        made.append(box(lambda n, q=question: q, book))
    return Questions(*made)


def recall() -> Questions:
    """Three questions of earlier lessons."""
    return _again("02", "05", "07")


def before_the_saw() -> Questions:
    """One question of each of the other lessons, in the order of the work."""
    return _again("01", "00", "03", "04", "06", "08", "09", "10", "11")


def worked() -> Worked:
    """A part of the demo kit by the whole chain, every step with its numbers."""
    part, shop, rack = demo_part("C1L"), demo_job().shop, demo_rack()
    rows = {fact.id: fact.words for fact in chain(part, shop, rack)}
    line = taper_lines(part)[0]
    place = f"{line.leg}{line.end}"
    steps = (
        f"Read it: {rows['part']}.",
        f"Blank: {rows['blank']}.",
        f"Witness line, before the end is gone: {rows['witness']}.",
        f"Marks: {rows[f'marks-{place}']}.",
        f"Edges: {rows['edges']}.",
        f"Saw: {rows[f'saw-{place}']}.",
        f"Weight: {rows['weight']}.",
        f"Stick: {stick_in_short(part, shop, rack)}.",
    )
    order = operations(part, shop)
    first, last = (work_words.title(step, part, shop) for step in (order[0], order[-1]))
    return Worked(f"Worked part: {part.name}", steps, f"Order: from \"{first}\" to \"{last}\", {len(order)} steps; the check is lesson 10's.")


def last_step() -> Ask:
    """Another part with the last mark left out: the saw line at the toe."""
    return Ask(lambda n: ask.saw_toe(demo_part("E2R"), demo_job().shop, "step-bracket-saw-line"), _book())


def all_steps() -> Questions:
    """A part with every step left out: blank, saw line, inside mark."""
    book = _book()
    return Questions(*(Ask(lambda n, q=question: q, book) for question in ask.three_marks(demo_part("C2R"), demo_job().shop, "fairing-angle")))


def exercise(which: int) -> Ask:
    """A checked exercise with fresh numbers on demand: 1, 2 or 3."""
    series = list(ask.EXERCISES.values())[which - 1]
    return Ask(series.__getitem__, _book(), fresh=True, title=f"Exercise {which}")


def learned() -> Learned:
    """What the lesson was about, and what to carry to the bench."""
    return learned_in(LESSON)
