"""The live picture: one SVG picture that controls change in place, with its sentence under it.

The picture is text made in Python and shown by an HTML widget: nothing is quicker, and nothing of
an earlier picture can be left standing. The box also offers what it shows as an ordinary image, so
that a notebook that has not been run, or is not trusted, still has its pictures and their sentences.
A picture with a prediction shows its answer only when the prediction is committed.

>>> from anglelib.drawing.sheet import Label, Sheet
>>> from anglelib.lessons.controls import NumberControl
>>> def draw(values, view):
...     return Sheet(60, 20, (Label(5, 5, str(values["turns"])),), "Turns", f"{values['turns']} turns.")
>>> picture = LivePicture(draw, {"turns": NumberControl("Turns", 0, 9, 2)})
>>> picture.controls["turns"].value = 5
>>> picture.sheet.sentence
'5 turns.'
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, NamedTuple

import ipywidgets as widgets

from anglelib.drawing.sheet import Sheet
from anglelib.drawing.svg import image, svg
from anglelib.lessons.ask import Predict
from anglelib.lessons.controls import ChoiceControl, PressButton, in_turn, leaves
from anglelib.lessons.look import BOX, PANEL, PICTURE, as_, page_style, projector_switch
from anglelib.lessons.room import ROOM
from anglelib.lessons.words import folded, said


@dataclass(frozen=True)
class View:
    """How a picture is looked at: its theme, whether its answer may show, and what was predicted."""

    theme: str = "screen"
    revealed: bool = True
    prediction: Fraction | None = None

    @property
    def few(self) -> bool:
        """Whether labels are to be few: a projector's picture is read from the back of the room."""
        return self.theme == "projector"


Draw = Callable[[Mapping[str, Any], View], Sheet]


class Preset(NamedTuple):
    """A job that a picture can be put to: what its button says, and the values that it sets, fixed ones too."""

    words: str
    sets: Mapping[str, Any]


class Still:
    """A picture without controls: an ordinary image with its sentence."""

    def __init__(self, sheet: Sheet) -> None:
        self.sheet = sheet

    def _repr_html_(self) -> str:
        return image(self.sheet)

    def __repr__(self) -> str:
        return self.sheet.sentence


class LivePicture(widgets.VBox):
    """A picture with its controls.

    ``draw(values, view)`` makes the sheet: pure, from the controls' values by name, and from those
    that are ``fixed`` (a section, say). ``presets`` are jobs by id; the first is shown first. ``ask`` is a prediction: until it is committed the
    controls are out of reach and the view is not revealed. ``waits`` names the controls whose place
    would tell its answer: they are out of sight as long. ``aside`` is said under the picture as long, where its
    own sentence would read it out; for those who cannot see it the picture itself keeps that sentence.
    ``idle(values)`` says by name which controls do nothing as the others stand, and why.
    """

    def __init__(
        self,
        draw: Draw,
        controls: Mapping[str, widgets.Widget],
        *,
        fixed: Mapping[str, Any] | None = None,
        presets: Mapping[str, Preset] | None = None,
        ask: Predict | None = None,
        waits: Sequence[str] = (),
        aside: str = "",
        idle: Callable[[Mapping[str, Any]], Mapping[str, str]] | None = None,
    ) -> None:
        self.draw, self.controls, self.presets, self.ask = draw, dict(controls), dict(presets or {}), ask
        self.given: dict[str, Any] = dict(fixed or {})
        self._quiet = self.locked = False
        self.waits, self.aside, self.idle = tuple(waits), aside, idle
        for name in self.waits:  # controls share one layout
            self.controls[name].layout = widgets.Layout(width="100%", align_items="center", display="")
        self.picture = as_(PICTURE, widgets.HTML())
        self.caption = widgets.HTML()
        self.reset = PressButton(description="Reset", layout=widgets.Layout(width="auto"))
        self.projector = projector_switch()
        self.job = ChoiceControl("Job", [(job.words, id_) for id_, job in self.presets.items()], next(iter(self.presets))) if self.presets else None
        self.panel = as_(PANEL, widgets.VBox(self._panel(), layout=widgets.Layout(padding="0 0 0.5rem 0")))
        parts = [part for part in (ask, self.picture, self.panel, self.caption) if part is not None]
        super().__init__(parts, layout=widgets.Layout(margin="0 0 1rem 0"))
        self.add_class(BOX)
        if self.job is not None:
            self._put(self.presets[self.job.value].sets)
        self.start = self.values
        self._wire()
        self.redraw()

    def _panel(self) -> list[widgets.Widget]:
        tools = widgets.HBox([self.reset, self.projector, page_style()], layout=widgets.Layout(flex_flow="row wrap"))
        return [*([self.job] if self.job else []), *self.controls.values(), tools]

    def _wire(self) -> None:
        for control in self.controls.values():
            control.observe(self._changed, "value")
            if control.has_trait("trouble"):
                control.observe(self._refused, "trouble")
        if self.job is not None:
            self.job.observe(self._take_job, "value")
        self.reset.on_press(self.go_back)
        ROOM.observe(self._room_changed, "theme")
        if self.ask is not None:
            self.ask.observe(self._asked, "committed")

    # --- what is shown --------------------------------------------------------------------------
    @property
    def values(self) -> dict[str, Any]:
        """The controls' values by name."""
        return {**self.given, **{name: control.value for name, control in self.controls.items()}}

    @property
    def view(self) -> View:
        """How the picture is looked at now."""
        if self.ask is None:
            return View(ROOM.theme)
        return View(ROOM.theme, self.ask.committed, self.ask.value)

    @property
    def sheet(self) -> Sheet:
        """The drawing as it stands."""
        return self.draw(self.values, self.view)

    @in_turn
    def redraw(self) -> None:
        """Draws the picture and its sentence afresh."""
        view = self.view
        sheet = self.draw(self.values, view)
        self.picture.value = svg(sheet, view.theme)
        self.caption.value = said(sheet.sentence if view.revealed else self.aside or sheet.sentence)
        if self.locked is view.revealed:
            self.locked = not view.revealed
            self._rest({})
            for part in leaves(self.panel):
                part.disabled = self.locked and part is not self.projector
            for name in self.waits:
                self.controls[name].layout.display = "none" if self.locked else ""
        if self.idle is not None and not self.locked:
            self._rest(self.idle(self.values))

    def _rest(self, reasons: Mapping[str, str]) -> None:
        """Controls that do nothing now are out of reach, and say why."""
        for name, control in self.controls.items():
            if hasattr(control, "idle"):
                control.idle(reasons.get(name, ""))

    # --- what happens ---------------------------------------------------------------------------
    @in_turn
    def _asked(self, change: dict) -> None:
        """A prediction shows the truth; one that is put back hides it, with what was made of it by the controls."""
        if change["new"]:
            self.redraw()
        else:
            self.go_back()

    @in_turn
    def _changed(self, change: dict) -> None:
        if not self._quiet:
            self.redraw()

    @in_turn
    def _refused(self, change: dict) -> None:
        if change["new"]:
            self.caption.value = said(change["new"], "unreadable")

    def _put(self, values: Mapping[str, Any]) -> None:
        for name, value in values.items():
            if name in self.controls:
                self.controls[name].value = value
            else:
                self.given[name] = value

    @in_turn
    def take(self, values: Mapping[str, Any]) -> None:
        """Sets several values and draws once."""
        self._quiet = True
        try:
            self._put(values)
        finally:
            self._quiet = False
        self.redraw()

    def _take_job(self, change: dict) -> None:
        self.take(self.presets[change["new"]].sets)

    @in_turn
    def go_back(self) -> None:
        """The job's own numbers again, or those at first; a committed prediction stays committed."""
        self.take({**self.start, **(self.presets[self.job.value].sets if self.job is not None else {})})

    @in_turn
    def _room_changed(self, change: dict) -> None:
        self.redraw()

    # --- where nothing runs -----------------------------------------------------------------------
    def _still(self, view: View) -> Sheet:
        return self.draw(self.start, view)

    @property
    def snapshot(self) -> str:
        """The picture as it stands in a saved notebook: as it first shows, its answer folded away."""
        if self.ask is None:
            return image(self._still(View()))
        before, after = self._still(View(revealed=False)), self._still(View())
        return (
            self.ask.snapshot
            + image(before)
            + folded("Predicted? The picture with its answer", image(after))
        )

    def _repr_mimebundle_(self, **kwargs: object) -> dict:
        sentence = self._still(View(revealed=self.ask is None)).sentence
        words = f"{self.ask.question.prompt}\n{sentence}" if self.ask is not None else sentence
        return {**super()._repr_mimebundle_(**kwargs), "text/html": self.snapshot, "text/plain": words}
