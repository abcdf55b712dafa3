"""Readings of a class's parts, typed into a grid or loaded from a file: what to rework, and the class's mistakes without names.

What each part is is shown only on a press, for it carries codes; what the class sees does not.

>>> grid = ReadingsGrid("K01 A1L, K02 A3")
>>> grid.cells["K01", "A1L"]["print"].value = "inside"
>>> grid.cells["K02", "A3"]["heel"].value = "17.32"
>>> grid.check.click()
>>> grid.found.sentence
'2 parts: 1 pass, 1 to rework.'
"""

from __future__ import annotations

from collections.abc import Sequence

import ipywidgets as widgets
import traitlets

from anglelib.errors import BenchError
from anglelib.files.job_file import read_job
from anglelib.inspection.reading_words import reading_words
from anglelib.inspection.wanted import wanted_readings
from anglelib.job import Job
from anglelib.lengths import fine, writing
from anglelib.lessons.controls import PressButton, in_turn
from anglelib.lessons.demo import demo_job
from anglelib.lessons.look import DO, SWITCH, as_
from anglelib.lessons.table import Table
from anglelib.lessons.words import listed, paragraph, said
from anglelib.part import Part
from anglelib.workshop.check_parts import ClassCheck, check_parts, refuse_empty
from anglelib.workshop.readings_file import ON_PRINT, PRINT, Measured, from_entries, read_readings

MOST_PARTS = 40
_WIDE = widgets.Layout(width="40rem", max_width="100%")
_CELL = widgets.Layout(width="6.85rem")


def made_from(text: str, job: Job) -> list[tuple[str, Part]]:
    """Who made what, "K01 A1L, K02 A1R"; raises BenchError with the remedy.

    >>> [(code, part.id) for code, part in made_from("K01 A1L, K02 a1r", demo_job())]
    [('K01', 'A1L'), ('K02', 'A1R')]
    >>> made_from("K01", demo_job())
    Traceback (most recent call last):
        ...
    anglelib.errors.BenchError: "K01" is no code with its part: write who made what like K01 A1L, K02 A1R.
    """
    ids = {part.id.lower(): part.id for part in job.parts}
    found: dict[tuple[str, str], tuple[str, Part]] = {}
    for one in filter(None, (piece.strip() for piece in text.split(","))):
        words = one.split()
        if len(words) != 2:
            raise BenchError(f'"{one[:40]}" is no code with its part: write who made what like K01 A1L, K02 A1R.')
        part = job.part(ids.get(words[1].lower(), words[1]))
        found[words[0], part.id] = words[0], part
    if not 1 <= len(found) <= MOST_PARTS:
        raise BenchError(f"{len(found)} parts do not go into one grid: write 1 to {MOST_PARTS}, or load them from a file.")
    return list(found.values())


def of_card(part: Part, job: Job) -> list[tuple[str, str, str]]:
    """The readings that a part's card asks for: id, name, what is wanted."""
    with writing(part.unit):
        return [(want.id, reading_words(want.id, part), fine(want.value)) for want in wanted_readings(part, job.limits)]  # type: ignore[arg-type]


class ReadingsGrid(widgets.VBox):
    """Entries for the check print and the seven readings of each part; ``found`` is what they say."""

    found = traitlets.Instance(ClassCheck, allow_none=True)

    def __init__(self, made: str) -> None:
        self.job = demo_job()
        self.job_file = self._text("Job file", "empty: the demo kit")
        self.made = self._text("Who made what", "K01 A1L, K02 A1R", made)
        self.file = self._text("Or a readings file", "readings.csv")
        self.check = PressButton(DO, description="Check")
        self.each = as_(SWITCH, widgets.ToggleButton(False, description="Each part (with codes)", layout=widgets.Layout(width="auto")))
        self.words, self.of_class, self.of_parts = widgets.HTML(said("", lines=1)), widgets.HTML(), widgets.HTML()
        self.grid = widgets.VBox()
        self.cells: dict[tuple[str, str], dict[str, widgets.Text]] = {}
        super().__init__(
            [self.job_file, self.made, self.file, self.grid, widgets.HBox([self.check, self.each]), self.words, self.of_class, self.of_parts],
            layout=widgets.Layout(margin="0 0 1rem 0"),
        )
        self.job_file.observe(self._new_job, "value")
        self.made.observe(self._build, "value")
        self.each.observe(self._show, "value")
        self.check.on_press(self.judge)
        self._build()

    @staticmethod
    def _text(label: str, placeholder: str, value: str = "") -> widgets.Text:
        return widgets.Text(
            value, description=label, placeholder=placeholder, continuous_update=False, style={"description_width": "10rem"}, layout=_WIDE
        )

    @in_turn
    def _new_job(self, change: dict) -> None:
        name = change["new"].strip()
        try:
            self.job = read_job(name) if name else demo_job()
        except BenchError as error:
            self._say(str(error))
            return
        self._build()

    @in_turn
    def _build(self, change: dict | None = None) -> None:
        """One grid for each part: a row a code, a column a reading; what was typed stays."""
        try:
            made = made_from(self.made.value, self.job)
        except BenchError as error:
            self._say(str(error))
            return
        before = {(key, name): entry.value for key, of in self.cells.items() for name, entry in of.items()}
        self.cells, groups = {}, []
        for part in dict.fromkeys(part for _, part in made):
            asked = [(PRINT, ON_PRINT, "inside / misses"), *of_card(part, self.job)]
            heads = [widgets.HTML(paragraph(text)) for text in (part.id, *(name for _, name, _ in asked))]
            rows: list[widgets.Widget] = []
            for code in [code for code, of in made if of is part]:
                entries = {
                    id_: widgets.Text(
                        before.get(((code, part.id), id_), ""), placeholder=text, tooltip=f"{code}, {part.id}, {name}",
                        continuous_update=False, layout=_CELL,
                    )
                    for id_, name, text in asked
                }  # fmt: skip
                self.cells[code, part.id] = entries
                rows += [widgets.HTML(paragraph(code)), *entries.values()]
            layout = widgets.Layout(grid_template_columns=f"4rem repeat({len(asked)}, 7rem)", overflow="auto")
            groups.append(widgets.GridBox([*heads, *rows], layout=layout))
        self.grid.children = tuple(groups)
        self._say("")

    def _say(self, *sentences: str) -> None:
        self.found = None
        self.words.value = said(" ".join(sentences), "unreadable" if sentences[0] else "", lines=1) if len(sentences) == 1 else listed(sentences)
        self.of_class.value = self.of_parts.value = ""

    def measured(self) -> tuple[Measured, ...]:
        """What is in the file, where one is named, else what was typed; raises FileProblems with every sentence."""
        if self.file.value.strip():
            return read_readings(self.file.value.strip(), self.job)
        typed = [
            (f"{code} {part}, {self._called(part, id_)}", {"code": code, "part": part, "id": id_, "read": entry.value.strip()})
            for (code, part), of in self.cells.items()
            for id_, entry in of.items()
        ]
        return from_entries(typed, self.job)

    def _called(self, part_id: str, id_: str) -> str:
        part = self.job.part(part_id)
        with writing(part.unit):
            return ON_PRINT if id_ == PRINT else reading_words(id_, part)

    @in_turn
    def judge(self) -> None:
        """Checks everything; all that is wrong is said at once."""
        try:
            measured = self.measured()
            refuse_empty(measured)
            found = check_parts([one for one in measured if one.taken], self.job)
        except BenchError as error:
            self._say(*str(error).splitlines())
            return
        self.found = found
        self.words.value = said(found.sentence, lines=1)
        self._show()

    @in_turn
    def _show(self, change: dict | None = None) -> None:
        if self.found is None:
            return
        self.of_class.value = class_table(self.found)._repr_html_()
        self.of_parts.value = part_table(self.found)._repr_html_() if self.each.value else ""

    def fill(self, rows: Sequence[tuple[str, str, str, str]]) -> None:
        """Types (code, part, reading's id, value)."""
        for code, part, id_, value in rows:
            self.cells[code, part][id_].value = value

    def _repr_mimebundle_(self, **kwargs: object) -> dict:
        parts = dict.fromkeys(part for _, part in made_from(self.made.value, self.job))
        words = "A grid of entries, once the page has been run: a row for each part made, a column for each of its readings."
        asked = "".join(
            paragraph(f"{part.name}, {part.id}", bold=True) + listed(f"{name}: wanted {text}" for _, name, text in of_card(part, self.job))
            for part in parts
        )
        return {**super()._repr_mimebundle_(**kwargs), "text/html": paragraph(words) + asked, "text/plain": words}


def class_table(found: ClassCheck) -> Table:
    """The class's mistakes: how many parts, which, what to say. Nobody is named."""
    rows = [(str(mistake.count), mistake.name, mistake.to_say) for mistake in found.mistakes]
    return Table(("parts", "their readings fit", "to say to the class"), rows or [("0", "no mistake", found.sentence)])


def part_table(found: ClassCheck) -> Table:
    """Every part with its code: for the instructor alone."""
    return Table(
        ("code", "part", "what to do", "what to say"),
        [(one.measured.code, one.measured.part.id, one.sentence, " ".join(one.to_say)) for one in found.parts],
    )
