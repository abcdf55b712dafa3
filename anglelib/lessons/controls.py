"""Controls: exact fractions on a slider with a typed entry beside it, whole numbers, choices, buttons.

Dragging is never the only way: every slider has an entry that takes what a person types. All wiring
is by ``observe``, which lets an error through to whoever tests it. A control that does nothing as things
stand is disabled by ``idle``, with the reason in its place; a value from a file is put in by ``take``,
and the range reaches to it: nothing is clamped.

>>> run = FractionControl("Run (in.)", fractions("1", "3 1/2", "1/8"), Fraction(17, 8))
>>> run.slider.value = 0
>>> run.value, run.entry.value
(Fraction(1, 1), '1')
>>> run.entry.value = "41.275 mm"
>>> run.value
Fraction(13, 8)
>>> run.entry.value = "9"
>>> run.value, run.trouble
(Fraction(13, 8), 'Run (in.): 9 is outside 1 to 3 1/2.')
>>> run.take(Fraction(9))
>>> run.value, run.entry.value, run.slider.value == run.slider.max
(Fraction(9, 1), '9', True)
>>> run.idle("no taper is chosen")
>>> run.entry.disabled, run.reason
(True, 'no taper is chosen')

In millimetres it offers round ones, a bare number typed is in them, and the value stays what it is.

>>> run.take(Fraction(13, 8))
>>> run.speak("mm")
>>> run.entry.description, run.entry.value, str(run.value)
('Run (mm)', '41.28', '13/8')
>>> run.entry.value = "50"
>>> run.value == 50 * MM, run.slider.max
(True, 62)
"""

from __future__ import annotations

import functools
import threading
from bisect import bisect_left
from collections.abc import Callable, Iterator, Mapping, Sequence
from fractions import Fraction
from math import ceil
from typing import Any, TypeVar

import ipywidgets as widgets
import traitlets

from anglelib.drawing.escape import escape
from anglelib.errors import LengthError
from anglelib.lengths import MM, about, exact, inches, labelled, typed, unit_in_head, writing
from anglelib.lessons.look_style import CHOICE, ROW, TOOL
from anglelib.lessons.words import TEXT

_TURN = threading.RLock()
_Method = TypeVar("_Method", bound=Callable[..., Any])


def in_turn(method: _Method) -> _Method:
    """Whatever a widget sends is handled to its end before the next is begun.

    JupyterLab delivers messages of one page on more than one thread of the kernel (its "subshells"),
    so a slider and a button may call at once.
    """

    @functools.wraps(method)
    def wait(*args: Any, **kwargs: Any) -> Any:
        with _TURN:
            return method(*args, **kwargs)

    return wait  # type: ignore[return-value]


_COLUMN = {"description_width": "10rem"}
"""Labels in one column, so that the entries stand under one another."""
_ROW = widgets.Layout(width="100%", align_items="center")


def fractions(first: str, last: str, step: str) -> tuple[Fraction, ...]:
    """Ready-made lengths from first to last [in], exactly a step apart.

    >>> [str(value) for value in fractions("0", "1/4", "1/16")]
    ['0', '1/16', '1/8', '3/16', '1/4']
    """
    low, high, by = inches(first), inches(last), inches(step)
    return tuple(low + by * i for i in range(int((high - low) / by) + 1))


FINEST, FINE, COARSE = Fraction(1, 500), Fraction(1, 64), Fraction(1, 32)
"""Steps of a slider in inches [in], up to which it has hundredths, tenths (within an inch), halves of a millimetre; else whole ones."""


def in_millimetres(values: Sequence[Fraction]) -> tuple[Fraction, ...]:
    """Round millimetres between the first and the last of ready-made lengths [in], about as many.

    >>> [str(value / MM) for value in in_millimetres(fractions("0", "1/8", "1/32"))]
    ['0', '1/2', '1', '3/2', '2', '5/2', '3']
    """
    between = values[1] - values[0]
    near = values[-1] - values[0] < 1
    step = MM / 100 if between <= FINEST else MM / 10 if between <= FINE and near else MM / 2 if between <= COARSE else MM
    low, high = ceil(values[0] / step), int(values[-1] / step)
    return tuple(n * step for n in range(low, high + 1))


class PressButton(widgets.Button):
    """A button whose presses are counted in a trait: an error in what it starts is not swallowed. Its look says what kind it is."""

    presses = traitlets.Int(0)

    def __init__(self, look: str = TOOL, **how: Any) -> None:
        super().__init__(**how)
        self.add_class(look)
        if self.layout.align_self is None:  # as wide as its words, also below other controls
            self.layout.align_self = "flex-start"

    def click(self) -> None:
        """One press."""
        self.presses += 1

    def on_press(self, do: Callable[[], None]) -> None:
        """Calls ``do`` at every press."""
        self.observe(lambda change: do(), "presses")


class _Row(widgets.HBox):
    """A control in its row: it can be idle, and ``reason`` then says why, in the place of its slider."""

    reason = traitlets.Unicode("")

    def __init__(self, *inside: Any, **how: Any) -> None:
        super().__init__(*inside, **how)
        self.add_class(ROW)

    def idle(self, reason: str) -> None:
        """Disables the control and shows why; an empty reason makes it work again."""
        if reason == self.reason:
            return
        self.reason = reason
        if not hasattr(self, "_note"):  # made when first needed: most controls never are idle
            self._note = widgets.HTML(layout=widgets.Layout(flex="1 1 8rem"))
            self.children = (*self.children, self._note)
        for leaf in leaves(self):
            leaf.disabled = bool(reason)
            leaf.tooltip = reason or None
        if hasattr(self, "slider"):
            self.slider.layout.display = "none" if reason else ""
        self._note.value = f'<div style="{TEXT}"><i>{escape(reason)}</i></div>' if reason else ""
        self._note.layout.display = "" if reason else "none"


class FractionControl(_Row):
    """A length [in]: a slider over ready-made fractions, and an entry for any length between them.

    ``value`` is the exact Fraction; ``trouble`` the sentence about a typed length that was refused. ``unit`` is
    the one that it is shown and typed in; a label's "(in.)" goes with it.
    """

    value = traitlets.Instance(Fraction)
    trouble = traitlets.Unicode("")

    def __init__(self, label: str, values: Sequence[Fraction], value: Fraction) -> None:
        self.label, self.values, self.unit = label, tuple(values), "in"
        self._inches = self._offered = self.values
        self._taking = False
        if not self.values[0] <= value <= self.values[-1]:
            raise ValueError(f"{label}: {value} is outside {self.values[0]} to {self.values[-1]}")
        self.entry = widgets.Text(
            self._text(value),
            description=label,
            continuous_update=False,
            style=_COLUMN,
            layout=widgets.Layout(width="17rem"),
        )
        self.slider = widgets.IntSlider(
            self._nearest(value), 0, len(self.values) - 1, readout=False, layout=widgets.Layout(flex="1 1 12rem")
        )
        super().__init__([self.entry, self.slider], value=value, layout=_ROW)
        self.slider.observe(self._slid, "value")
        self.entry.observe(self._typed, "value")
        self.observe(self._show, "value")

    def _text(self, value: Fraction) -> str:
        """A length as the entry has it; its label says the unit."""
        with writing(self.unit), unit_in_head():
            return exact(value) if self.unit == "in" else about(value)

    @in_turn
    def speak(self, unit: str) -> None:
        """Shows and takes lengths in this unit, "in" or "mm"; the value stays."""
        if unit != self.unit:
            self.label = self.label.replace(_in_brackets(self.unit), _in_brackets(unit))
            self.unit, self.entry.description = unit, self.label
            self._offered = self._inches if unit == "in" else in_millimetres(self._inches)
            self.take(self.value)

    def _nearest(self, value: Fraction) -> int:
        after = bisect_left(self.values, value, 1, len(self.values) - 1)
        return after if self.values[after] - value < value - self.values[after - 1] else after - 1

    @in_turn
    def take(self, value: Fraction) -> None:
        """Puts a value in, whatever it is: the range reaches to it, and is the control's own again with the next one within."""
        within = self._offered[0] <= value <= self._offered[-1]
        values = self._offered if within else tuple(sorted((*self._offered, value)))
        self._taking = True
        try:
            if values != self.values:
                self.values, self.slider.max = values, len(values) - 1
            self.trouble = ""
            self.value = value
            self._show()
        finally:
            self._taking = False

    @in_turn
    def _slid(self, change: dict) -> None:
        # a typed length between two steps has moved the slider to the nearest: that is not a drag
        if not self._taking and change["new"] != self._nearest(self.value):
            self.trouble = ""
            self.value = self.values[change["new"]]

    @in_turn
    def _typed(self, change: dict) -> None:
        if change["new"] == self._text(self.value):
            return
        try:
            value = typed(change["new"], self.unit, what=self.label)
        except LengthError as error:
            self.trouble = str(error)
            return
        if not self.values[0] <= value <= self.values[-1]:
            self.trouble = f"{self.label}: {self._text(value)} is outside {self._text(self.values[0])} to {self._text(self.values[-1])}."
            return
        self.trouble = ""
        self.value = value
        self._show()

    @in_turn
    def _show(self, change: dict | None = None) -> None:
        self.slider.value = self._nearest(self.value)
        self.entry.value = self._text(self.value)


def _in_brackets(unit: str) -> str:
    """The unit as a label has it."""
    with writing(unit):
        return labelled("").strip()


class NumberControl(_Row):
    """A whole number: a slider with an entry that takes it typed; ``of`` = 10 shows it in tenths, 95.4 for 954."""

    value = traitlets.Int()

    def __init__(self, label: str, low: int, high: int, value: int, step: int = 1, of: int = 1) -> None:
        self.label, self.of = label, of
        text = widgets.BoundedIntText if of == 1 else widgets.BoundedFloatText
        self.entry = text(
            self._shown(value), min=self._shown(low), max=self._shown(high), step=self._shown(step), description=label, style=_COLUMN,
            layout=widgets.Layout(width="17rem"),
        )  # fmt: skip
        self.slider = widgets.IntSlider(
            value, low, high, step=step, readout=False, layout=widgets.Layout(flex="1 1 12rem")
        )
        super().__init__([self.entry, self.slider], value=value, layout=_ROW)
        self.slider.observe(self._moved, "value")
        self.entry.observe(self._typed, "value")
        self.observe(self._show, "value")

    @in_turn
    def take(self, value: int) -> None:
        """Puts a value in, whatever it is: the range reaches to it."""
        low, high = min(self.slider.min, value), max(self.slider.max, value)
        self.slider.min, self.slider.max = low, high
        self.entry.min, self.entry.max = self._shown(low), self._shown(high)
        self.value = value

    def _shown(self, number: int) -> int | float:
        return number if self.of == 1 else number / self.of

    @in_turn
    def _moved(self, change: dict) -> None:
        self.value = change["new"]

    @in_turn
    def _typed(self, change: dict) -> None:
        self.value = round(change["new"] * self.of)
        self.entry.value = self._shown(self.value)

    @in_turn
    def _show(self, change: dict) -> None:
        self.slider.value, self.entry.value = self.value, self._shown(self.value)


Options = Sequence[str] | Sequence[tuple[str, Any]] | Mapping[str, Any]
"""What may be chosen: ids that are shown as they are, words with the value that each stands for, numbers as text with theirs."""


def by_id(words: Mapping[Any, str]) -> list[tuple[str, Any]]:
    """Options that show words and carry ids, or other values.

    >>> by_id({"split": "splitting the line", "keep": "on the keep side"})
    [('splitting the line', 'split'), ('on the keep side', 'keep')]
    """
    return [(text, id_) for id_, text in words.items()]


def toggles(options: Options, value: Any = None) -> widgets.ToggleButtons:
    """One of a few, side by side; nothing is chosen where ``value`` is None."""
    made = widgets.ToggleButtons(
        options=list(options.items()) if isinstance(options, Mapping) else list(options),
        value=value,
        style={"button_width": "auto"},
        layout=widgets.Layout(width="auto"),
    )
    made.add_class(CHOICE)
    return made


def _aside(label: str) -> str:
    """A label at the right of its column."""
    return f'<div style="text-align:right">{escape(label)}</div>'


class ChoiceControl(_Row):
    """One of a few, with its label in the column of the other controls' labels."""

    value = traitlets.Any()

    def __init__(self, label: str, options: Options, value: Any) -> None:
        self.label = label
        self.name = widgets.HTML(_aside(label), layout=widgets.Layout(flex="0 0 10rem", margin="2px 8px 2px 2px"))
        self.buttons = toggles(options, value)
        self.buttons.layout.flex = "0 1 auto"
        super().__init__([self.name, self.buttons], value=value, layout=_ROW)
        self.buttons.observe(self._pressed, "value")
        self.observe(self._show, "value")
        self._taking = False

    @property
    def offered(self) -> tuple[Any, ...]:
        """The values that can be chosen."""
        return tuple(value for _, value in self.buttons._options_full)

    @in_turn
    def take(self, value: Any, label: str = "") -> None:
        """Chooses a value, whatever it is: one that is not offered is added, under a label of its own."""
        if value not in self.offered:
            self._taking = True  # new options choose the first of them
            try:
                self.buttons.options = [*self.buttons._options_full, (label or str(value), value)]
                self.buttons.value = self.value
            finally:
                self._taking = False
        self.value = value

    @in_turn
    def rename(self, label: str, options: Mapping[str, Any]) -> None:
        """Another label and other options; the value stays, and is offered in any case by whoever renames."""
        self.label, self.name.value = label, _aside(label)
        self._taking = True
        try:
            self.buttons.options = list(options.items())
            self.buttons.value = self.value
        finally:
            self._taking = False

    @in_turn
    def _pressed(self, change: dict) -> None:
        if not self._taking:
            self.value = change["new"]

    @in_turn
    def _show(self, change: dict) -> None:
        self.buttons.value = self.value


class Groups(widgets.VBox):
    """Controls in groups by id, with their words, one group shown at a time; its place keeps its height.

    >>> groups = Groups("Change", {"taper": [widgets.HTML("run")], "holes": [widgets.HTML("pitch")]}, {"taper": "Taper", "holes": "Holes"})
    >>> groups.choice.value = "holes"
    >>> [box.layout.display for box in groups.boxes.values()]
    ['none', '']
    """

    def __init__(self, label: str, groups: Mapping[str, Sequence[widgets.Widget]], words: Mapping[str, str], height: str = "") -> None:
        self.choice = ChoiceControl(label, [(words[id_], id_) for id_ in groups], next(iter(groups)))
        self.boxes = {name: widgets.VBox(list(inside)) for name, inside in groups.items()}
        place = widgets.VBox(list(self.boxes.values()), layout=widgets.Layout(min_height=height) if height else widgets.Layout())
        super().__init__([self.choice, place])
        self.choice.observe(self._show, "value")
        self._show()

    @in_turn
    def _show(self, change: dict | None = None) -> None:
        for name, box in self.boxes.items():
            box.layout.display = "" if name == self.choice.value else "none"


def leaves(widget: widgets.Widget) -> Iterator[widgets.Widget]:
    """The widgets inside a box that a person uses: whatever can be disabled."""
    for child in getattr(widget, "children", ()):
        yield from leaves(child)
    if widget.has_trait("disabled"):
        yield widget
