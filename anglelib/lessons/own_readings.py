"""A finished part's readings, typed as its card asks for them: judged against their limits, and what they point to.

>>> from anglelib.lessons.demo import demo_part
>>> from anglelib.tolerances import Limits
>>> part = demo_part("C1L")
>>> first = wanted_readings(part, Limits())[0]
>>> [row.off > 0 for row in rows((first,), {first.id: first.value + 0.01}, part, 0.004)]
[True]
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

import ipywidgets as widgets
import traitlets

from anglelib.drawing.deviations import STEP, Row, deviation_rows, rows_sentence
from anglelib.drawing.diagnosis_sheets import cause_name
from anglelib.drawing.sheet import Sheet
from anglelib.drawing.svg import image, svg
from anglelib.errors import BenchError, LengthError
from anglelib.inspection.diagnosis import GOOD, Diagnosis, Reading, diagnose
from anglelib.inspection.reading_words import reading_words
from anglelib.inspection.verdict import ACCEPT, Judged, Verdict, judge
from anglelib.inspection.wanted import Wanted, wanted_readings
from anglelib.job import Job
from anglelib.lengths import fine, typed, writing
from anglelib.lessons.controls import ChoiceControl, FractionControl, PressButton, fractions, in_turn
from anglelib.lessons.demo import demo_job
from anglelib.lessons.look import BOX, DO, PICTURE, as_, page_style, when_there
from anglelib.lessons.room import ROOM
from anglelib.lessons.words import listed, paragraph, said
from anglelib.part import Part
from anglelib.visiting import visiting

WIDTH = 200.0
NOTHING_READ = "it matters once a reading is typed in"
UNSURE = fractions("0.001", "0.016", "0.001")
"""Standard uncertainties of a reading [in]."""


# --- what is drawn and said -----------------------------------------------------------------------------------
def rows(asked: Sequence[Wanted], values: Mapping[str, float], part: Part, unsure: float) -> tuple[Row, ...]:
    """What was typed against its limits."""
    return tuple(Row.of(a, reading_words(a.id, part), values[a.id], unsure) for a in asked if a.id in values)


def rows_sheet(found: Sequence[Row], part: Part, few: bool = False) -> Sheet:
    """The readings against their limits, in the part's unit."""
    with writing(part.unit):
        return _rows_sheet(found, part, few)


def _rows_sheet(found: Sequence[Row], part: Part, few: bool) -> Sheet:
    height = STEP * max(1, len(found)) + 16
    items = deviation_rows(found, 4, WIDTH - 4, height - 6, few=few) if found else ()
    said_ = rows_sentence(found) if found else "No reading was typed yet."
    return Sheet(WIDTH, height, items, f"Readings of {part.id}", f"Readings of {part.name}, {part.id}. {said_}")


def told(verdict: Verdict, found: Diagnosis, asked: Sequence[Wanted]) -> tuple[str, ...]:
    """The verdict, the causes and what to read next, in sentences; never that somebody did it."""
    lines, part = [verdict.sentence], verdict.part
    unproven = [reading_words(j.reading.id, part) for j in verdict.judged if j.outcome == ACCEPT and not _proven(j)]
    if unproven:
        lines.append(f"Within as read, not proven: at {', '.join(unproven)} the whisker reaches over the limit. Measure with less uncertainty.")
    if len(verdict.judged) < len(asked):
        lines.append(f"Only {len(verdict.judged)} of {len(asked)} readings {'was' if len(verdict.judged) == 1 else 'were'} taken: of the rest nothing is known.")
    if found.misfit:
        return (*lines, found.doubt)
    for number, cause in enumerate(found.leaders, 1):
        lines.append(f"Cause {number}, {_percent(cause.probability)}: {cause_name(cause)}" + (f" ({cause.words})" if cause.words else "") + ".")
    if found.cannot_tell:
        lines.append("These readings do not decide between the first two.")
    if found.causes[0].ids != (GOOD,) and GOOD in found.causes[0].ids:
        lines.append("A good part reads like this too: what is listed beside it cannot be told from it by these readings.")
    best = found.next_reading
    lines.append(f"The next best reading: {reading_words(best, part)}." if best else "No further reading of this part would part the first two.")
    return tuple(lines)


def _proven(judged: Judged) -> bool:
    """Whether a reading lies within its limits by more than it is unsure of."""
    unsure, value = 2 * judged.reading.spread, judged.reading.value
    return judged.wanted.low + unsure <= value <= judged.wanted.high - unsure


def _percent(probability: float) -> str:
    percent = round(100 * probability)
    return "over 99 percent" if percent > 99 else f"{max(1, percent)} percent"


# --- wired -----------------------------------------------------------------------------------------------------
class PartOfJob(widgets.VBox):
    """A part of the demo kit, or of a job file of one's own: ``value`` is the Part, ``job`` the Job."""

    value = traitlets.Instance(Part)

    def __init__(self, part_id: str, offered: Sequence[str] | None = None) -> None:
        self.job: Job = demo_job()
        self._quiet = False
        self.offered = tuple(offered or (part.id for part in self.job.parts))
        self.which = ChoiceControl("Part", self.offered, part_id)
        self.words = widgets.HTML(said("", lines=1))
        files = [] if visiting() else [self._file()]
        super().__init__([*files, self.which, self.words], value=self.job.part(part_id))
        self.which.observe(self._choose, "value")

    def _file(self) -> widgets.Text:
        self.file = widgets.Text(
            description="Job file", placeholder="empty: the demo kit", continuous_update=False,
            style={"description_width": "10rem"}, layout=widgets.Layout(width="27rem", max_width="100%"),
        )  # fmt: skip
        self.file.observe(self._open, "value")
        return self.file

    @in_turn
    def _open(self, change: dict) -> None:
        from anglelib.files.job_file import read_job
        from anglelib.lessons.builders_bench import placed

        name = change["new"].strip()
        try:
            job = read_job(placed(name)) if name else demo_job()
        except BenchError as error:
            self.words.value = said(str(error), "unreadable")
            return
        self.job = job
        parts = [part.id for part in job.parts] if name else list(self.offered)
        self._quiet = True
        try:
            self.which.buttons.options = parts
            self.which.buttons.value = parts[0]
        finally:
            self._quiet = False
        self.words.value = said(f"{job.name}: {len(parts)} part{'s' if len(parts) > 1 else ''}." if name else "", lines=1)
        self.value = job.part(parts[0])

    @in_turn
    def _choose(self, change: dict) -> None:
        if change["new"] is not None and not self._quiet:
            self.value = self.job.part(change["new"])


class OwnReadings(widgets.VBox):
    """Entries for a part's readings; what they say is drawn and told as they are typed, causes on a press."""

    verdict = traitlets.Instance(Verdict, allow_none=True)
    found = traitlets.Instance(Diagnosis, allow_none=True)

    def __init__(self, source: PartOfJob) -> None:
        self.source = source
        self.entries: dict[str, widgets.Text] = {}
        self.unsure = FractionControl("Unsure by u (in.)", UNSURE, Fraction(1, 250))
        self.rows_box = widgets.VBox()
        self.button = PressButton(DO, description="What fits?", tooltip="Judge the readings and rank the causes")
        self.picture, self.words = as_(PICTURE, widgets.HTML()), widgets.HTML(said(""))
        note = paragraph("u: how much your readings of one place scatter (standard deviation of ten). The whiskers are twice that.")
        super().__init__(
            [source, self.rows_box, self.unsure, widgets.HTML(note), self.button, self.picture, self.words, page_style()],
            layout=widgets.Layout(margin="0 0 1rem 0"),
        )
        when_there(as_(BOX, self), self.picture)
        source.observe(self._new_part, "value")
        self.unsure.observe(self._typed, "value")
        self.button.on_press(self.judge)
        ROOM.observe(self._typed, "theme")
        self._new_part()

    @property
    def part(self) -> Part:
        """The part that is read."""
        return self.source.value

    @in_turn
    def _new_part(self, change: dict | None = None) -> None:
        self.unsure.speak(self.part.unit)
        self.asked = wanted_readings(self.part, self.source.job.limits)
        self.entries = {
            a.id: widgets.Text(
                description=self.name(a), placeholder=self.range_of(a), continuous_update=False,
                style={"description_width": "14rem"}, layout=widgets.Layout(width="32rem", max_width="100%"),
            )
            for a in self.asked
        }  # fmt: skip
        for entry in self.entries.values():
            entry.observe(self._typed, "value")
        self.rows_box.children = tuple(self.entries.values())
        self._typed()

    def name(self, asked: Wanted) -> str:
        """What a reading is called at the bench."""
        with writing(self.part.unit):
            return reading_words(asked.id, self.part)

    def range_of(self, asked: Wanted) -> str:
        """What a reading should be, between its limits, in the part's unit."""
        with writing(self.part.unit):
            return f"wanted {fine(asked.value)}, {fine(asked.low)} to {fine(asked.high)}"

    def typed(self) -> dict[str, float]:
        """What was typed, by the readings' ids [in]; raises LengthError with the reading's name."""
        found = {}
        for asked in self.asked:
            text = self.entries[asked.id].value
            if text.strip():
                found[asked.id] = float(typed(text, self.part.unit, what=f"reading of {self.name(asked)}"))
        return found

    @in_turn
    def _typed(self, change: dict | None = None) -> None:
        self.verdict = self.found = None
        try:
            values = self.typed()
        except LengthError as error:
            self.words.value = said(str(error), "unreadable")
            return
        self.unsure.idle("" if values else NOTHING_READ)
        shown = rows(self.asked, values, self.part, float(self.unsure.value))
        sheet = rows_sheet(shown, self.part, ROOM.theme == "projector")
        self.picture.value = svg(sheet, ROOM.theme) if shown else ""
        self.words.value = said(sheet.sentence)

    @in_turn
    def judge(self) -> None:
        """The verdict and the causes."""
        try:
            values = self.typed()
            taken = [Reading(a.id, values[a.id], float(self.unsure.value)) for a in self.asked if a.id in values]
            self.verdict = judge(self.part, taken, self.source.job.limits, self.source.job)
            self.found = diagnose(self.part, self.source.job.shop, taken)
        except BenchError as error:
            self.words.value = said(str(error), "unreadable")
            return
        with writing(self.part.unit):
            sentences = told(self.verdict, self.found, self.asked)
        self.words.value = said("These are numbers; the kit's plans and whoever inspects decide.", lines=1) + listed(sentences)

    def fill(self, values: Sequence[str]) -> None:
        """Types readings, in the card's order."""
        for entry, text in zip(self.entries.values(), values, strict=False):
            entry.value = text

    @property
    def snapshot(self) -> str:
        """As it stands in a saved notebook: the readings that the card asks for."""
        asked = listed(f"{self.name(a)}: {self.range_of(a)}" for a in self.asked)
        return paragraph(f"Readings of {self.part.name}, {self.part.id}", bold=True) + asked + image(rows_sheet((), self.part))

    def _repr_mimebundle_(self, **kwargs: object) -> dict:
        asked = "\n".join(f"{self.name(a)}: {self.range_of(a)}" for a in self.asked)
        return {**super()._repr_mimebundle_(**kwargs), "text/html": self.snapshot, "text/plain": f"Readings of {self.part.id}\n{asked}"}
