"""The unit that a page's lengths are written and typed in: a switch for the controls beside it, inches or millimetres.

>>> from fractions import Fraction
>>> from anglelib.lessons.controls import FractionControl, fractions
>>> controls = with_unit({"run": FractionControl("Run (in.)", fractions("1", "3", "1/8"), Fraction(2))})
>>> controls["unit"].value = "mm"
>>> controls["run"].label, controls["run"].entry.value
('Run (mm)', '50.8')
"""

from __future__ import annotations

import functools
from collections.abc import Iterable, Mapping
from typing import Any

import ipywidgets as widgets

from anglelib.drawing.sheet import Sheet
from anglelib.lengths import writing
from anglelib.lessons.controls import ChoiceControl, FractionControl, in_turn
from anglelib.lessons.live import Draw, View

UNIT = "unit"
"""The switch's name among the controls of a picture."""
UNITS = {"inches": "in", "millimetres": "mm"}


class UnitSwitch(ChoiceControl):
    """Inches or millimetres; the length controls that it was given follow it."""

    def __init__(self, lengths: Iterable[FractionControl] = (), unit: str = "in") -> None:
        super().__init__("Lengths in", UNITS, unit)
        self.lengths = tuple(lengths)
        self.observe(self._spoken, "value")
        self._spoken()

    @in_turn
    def _spoken(self, change: dict | None = None) -> None:
        for control in self.lengths:
            control.speak(self.value)


def with_unit(controls: Mapping[str, widgets.Widget]) -> dict[str, widgets.Widget]:
    """The controls of a picture, all their lengths in the unit of a switch that comes last."""
    return {**controls, UNIT: UnitSwitch(control for control in controls.values() if isinstance(control, FractionControl))}


def in_unit(draw: Draw) -> Draw:
    """A picture whose lengths are in the unit that its switch says, inches where it has none."""

    @functools.wraps(draw)
    def drawn(values: Mapping[str, Any], view: View) -> Sheet:
        with writing(values.get(UNIT, "in")):
            return draw(values, view)

    return drawn
