"""The instructor's page: the class pack, the lessons and how to lead them, votes, made parts checked, who is stuck.

>>> len(mistakes().rows), stuck().count.sentence
(27, 'No folder was looked at yet.')
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import ipywidgets as widgets

from anglelib.drawing.escape import escape
from anglelib.drawing.sheet import Sheet
from anglelib.errors import BenchError
from anglelib.lessons.class_pack_box import ClassPackBox
from anglelib.lessons.controls import PressButton, in_turn
from anglelib.lessons.look import DO, page_style, projector_switch
from anglelib.lessons.readings_grid import ReadingsGrid
from anglelib.lessons.room import ROOM
from anglelib.lessons.table import Table
from anglelib.lessons.vote import Vote
from anglelib.lessons.words import TEXT, folded, paragraph, said
from anglelib.questions.answers import home
from anglelib.workshop import guide
from anglelib.workshop.stuck_command import numbers, shortened
from anglelib.workshop.who_is_stuck import Stuck, look

LESSON = "instructor"
EXAMPLE = "K01 A1L, K02 A1R, K03 A1L, K04 A1R"
NOT_YET = "No folder was looked at yet."


# --- what is read -------------------------------------------------------------------------------------------
class Folded:
    """Paragraphs with a heading each, folded away under their titles."""

    def __init__(self, entries: Sequence[tuple[str, Sequence[tuple[str, str]]]]) -> None:
        self.entries = tuple((title, tuple(rows)) for title, rows in entries)

    def _repr_html_(self) -> str:
        def rows(of: Sequence[tuple[str, str]]) -> str:
            return f'<ul style="{TEXT}">' + "".join(f"<li><b>{escape(name)}:</b> {escape(words)}</li>" for name, words in of) + "</ul>"

        return "".join(folded(title, rows(of)) for title, of in self.entries)

    def __repr__(self) -> str:
        return "\n".join(f"{title}\n" + "\n".join(f"  {name}: {words}" for name, words in of) for title, of in self.entries)


def day() -> Table:
    """What is done before, in and after the day, at the machines, with the projector and with phones."""
    kinds = (("the day", guide.DAY), ("at the machines", guide.SAFETY), ("the projector", guide.PROJECTOR), ("phones", guide.PHONES), ("whose work it is", guide.WHO))
    return Table(("", ""), [(name if not n else "", line) for name, lines in kinds for n, line in enumerate(lines)])


def lessons() -> Folded:
    """Every lesson: minutes, what to say first, what to ask, what wrong answers reveal, what to give up, materials."""
    return Folded([
        (f"{lesson.number} {lesson.title}", (
            ("Minutes", f"{lesson.minutes}."), ("Say first", f"“{lesson.say}”"), ("Ask", f"“{lesson.ask}”"), ("Wrong answers reveal", lesson.reveal),
            ("Known by name", " ".join(lesson.reveals[:4]) or "choices only"), ("Late? Give up", lesson.late), ("Materials", f"{lesson.materials}."),
        ))
        for lesson in guide.LESSONS
    ])  # fmt: skip


def evidence() -> Table:
    """What research on teaching says, and what it means for the day."""
    return Table(("claim", "found", "source", "so, in this class"), [(e.claim, e.number, e.source, e.so) for e in guide.EVIDENCE])


def mistakes() -> Table:
    """Every mistake and the lessons that recognise it by name."""
    from anglelib.workshop.mistake_table import table

    return Table(("", "mistake", "in lesson, shown by", "what helps"), [(row.id, row.name, row.where, row.remedy) for row in table()])


# --- what is done ---------------------------------------------------------------------------------------------
def pack() -> ClassPackBox:
    """The class pack from controls."""
    return ClassPackBox()


def vote(which: int) -> Vote:
    """A demonstration with a vote: 1 to 6."""
    from importlib import import_module

    shown = guide.DEMONSTRATIONS[which - 1]
    make = getattr(import_module(f"anglelib.lessons.{shown.module}"), shown.function)
    return Vote(f"{which}. {shown.title} (lesson {shown.lesson})", make, shown.metal)


def readings() -> ReadingsGrid:
    """Readings of made parts, typed or from a file."""
    return ReadingsGrid(EXAMPLE)


class Switch(widgets.VBox):
    """The projector's switch for all pages."""

    def __init__(self) -> None:
        self.button = projector_switch()
        self.words = widgets.HTML()
        super().__init__([widgets.HBox([self.button, page_style()]), self.words])
        ROOM.observe(self._show, "theme")
        self._show()

    @in_turn
    def _show(self, change: dict | None = None) -> None:
        on = ROOM.theme == "projector"
        self.words.value = said("Drawn for the back of the room." if on else "Drawn for a screen.", lines=1)

    def _repr_mimebundle_(self, **kwargs: object) -> dict:
        words = "A switch here draws every picture for a projector, once the page has been run."
        return {**super()._repr_mimebundle_(**kwargs), "text/html": paragraph(words), "text/plain": words}


def projector() -> Switch:
    """One switch for the room."""
    return Switch()


class StuckBox(widgets.VBox):
    """Folders of learners looked at: counts by question and mistake, and what to say. Nobody is named here."""

    def __init__(self) -> None:
        self.folder = widgets.Text(
            description="Learners' folders", placeholder="the folder with the learners' folders", continuous_update=False,
            style={"description_width": "10rem"}, layout=widgets.Layout(width="40rem", max_width="100%"),
        )  # fmt: skip
        self.button = PressButton(DO, description="Look")
        self.words, self.table = widgets.HTML(said(NOT_YET, lines=2)), widgets.HTML()
        self.count: Any = _Unseen()
        self.button.on_press(self.look)
        super().__init__([self.folder, self.button, self.words, self.table])

    @in_turn
    def look(self) -> None:
        """Counts again."""
        self.table.value = ""
        folders = [folder.strip() for folder in self.folder.value.split(";") if folder.strip()]
        try:
            if not folders:
                raise BenchError("Name the folder with the learners' folders: its path.")
            self.count = look(folders)
        except BenchError as error:
            self.count = _Unseen()
            self.words.value = said(str(error), "unreadable", lines=2)
            return
        self.words.value = said(" ".join(filter(None, (self.count.sentence, self.count.strange_words))), lines=1) + (
            paragraph("To say to the class", bold=True) + paragraph(self.count.to_say) if self.count.to_say else ""
        )
        self.table.value = stuck_table(self.count)._repr_html_()

    def _repr_mimebundle_(self, **kwargs: object) -> dict:
        words = "Name a folder here, once the page has been run; or on the command line: python -m anglelib stuck FOLDER."
        return {**super()._repr_mimebundle_(**kwargs), "text/html": paragraph(words), "text/plain": words}


class _Unseen:
    sentence = NOT_YET


def stuck_table(found: Stuck) -> Table:
    """A row a question, those with most learners stuck first."""
    rows = [
        (q.lesson[:2], shortened(q, 160), numbers(q), "; ".join(f"{n} x {name}" for name, n in q.mistakes) or "none that is known")
        for q in found.questions
        if q.stuck or q.mistakes
    ]
    return Table(("lesson", "question", "right by now", "mistakes"), rows)


def stuck() -> StuckBox:
    """Who is stuck, by question."""
    return StuckBox()


class GuideBox(widgets.VBox):
    """The guide as a PDF, written into the learner's own folder on a press."""

    def __init__(self) -> None:
        self.buttons = {
            name: PressButton(DO, description=f"Write the guide, {words}", layout=widgets.Layout(width="auto"))
            for name, words in (("letter", "Letter"), ("a4", "A4"))
        }
        self.words = widgets.HTML(said("", lines=1))
        for name, button in self.buttons.items():
            button.on_press(lambda name=name: self.write(name))
        super().__init__([widgets.HBox(list(self.buttons.values())), self.words])

    @in_turn
    def write(self, paper_name: str) -> None:
        """Writes guide.pdf."""
        import datetime

        from anglelib.paper.page import paper
        from anglelib.storage import write_made
        from anglelib.workshop.guide_pages import guide_pdf

        try:
            made = write_made(home() / "guide.pdf", guide_pdf(paper(paper_name), datetime.date.today()))
        except BenchError as error:
            self.words.value = said(str(error), "unreadable", lines=1)
            return
        self.words.value = said(f"Written: {made.name}, in your own folder, {made.parent}.", lines=1)

    def _repr_mimebundle_(self, **kwargs: object) -> dict:
        words = "Buttons here write this guide as a PDF, once the page has been run; or: python -m anglelib guide --out guide.pdf."
        return {**super()._repr_mimebundle_(**kwargs), "text/html": paragraph(words), "text/plain": words}


def print_guide() -> GuideBox:
    """The guide as a PDF."""
    return GuideBox()


def figures() -> dict[str, Sheet]:
    """The page's ordinary picture: the first demonstration as it is before the vote."""
    return {f"{LESSON}.png": vote(4)._sheet(False)}
