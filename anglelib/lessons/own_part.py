"""A part of one's own, described by controls: section, length, tapers, a row of holes in each leg; or taken from a job file.

``value`` is the part, or None where the controls contradict one another; then ``trouble`` says why. What
the controls cannot say of a part that was taken (copes, rounded corners, a second taper, uneven holes) is kept as
it came, and said under them in words; a control that does nothing is disabled with its reason.

>>> own = OwnPart()
>>> own.value.length, own.value.tapers[0].run
(Fraction(8, 1), Fraction(3, 2))
>>> own.controls["angle"].reason
'the run gives the slope'
>>> own.controls["run"].value = Fraction(12)
>>> print(own.value, own.trouble)
None The taper at end 1 runs 12 along leg A, but the part is only 8 long: shorten the run, or lengthen the part.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Any

import ipywidgets as widgets
import traitlets

from anglelib.errors import BenchError
from anglelib.lengths import labelled, own, read, writing
from anglelib.lessons.controls import ChoiceControl, FractionControl, NumberControl, Options, by_id, fractions, in_turn
from anglelib.lessons.own_values import (
    ANGLE,
    BOTH,
    END_1,
    END_2,
    KEPT,
    NONE,
    ROW,
    ROW_FIELDS,
    RUN,
    HoleRow,
    described,
    first_part,
    idle,
    not_shown,
    values_of,
)  # fmt: skip
from anglelib.lessons.unit_switch import UnitSwitch
from anglelib.lessons.words import paragraph, said
from anglelib.part import Part

ALLOYS = ("6061-T6", "6063-T5", "2024-T3")
RIVETS = {
    "in": {text: Fraction(text) for text in ("3/32", "1/8", "5/32", "3/16")},
    "mm": {text: read(text, unit="mm") for text in ("2.4", "3.2", "4", "4.8")},
}
"""Rivets by the unit of the part."""
TAPERS_AT = {NONE: "none", END_1: "end 1", END_2: "end 2", BOTH: "both ends", KEPT: "as it came"}
HOLES_ARE = {NONE: "none", ROW: "a row", KEPT: "as they came"}

WIDTHS = fractions("1/2", "3", "1/8")
THICKNESSES = fractions("1/16", "1/4", "1/32")
FILLETS = fractions("0", "1/4", "1/32")
LENGTHS = fractions("1", "96", "1/4")
RUNS = fractions("1/8", "12", "1/16")
ANGLES = fractions("3", "80", "1/2")
"""Angles from the heel [deg]."""
LEFTS = fractions("0", "2", "1/32")
PLACES = fractions("1/8", "48", "1/16")
HEIGHTS = fractions("1/8", "3", "1/32")
GROUPS = {
    "part": ("unit", "id", "name", "length", "quantity"),
    "stock": ("leg_a", "leg_b", "thickness", "fillet", "alloy"),
    "taper": ("tapers", "taper_leg", "slope", "run", "angle", "left"),
    "holes": ("hole_leg", "holes", "hole_count", "first", "pitch", "height", "diameter"),
}


GROUP_WORDS = {"part": "The part", "stock": "The stock", "taper": "The taper", "holes": "The holes"}


class _Typed(widgets.Text):
    """A word or two, with the label in the column of the others."""

    def __init__(self, label: str) -> None:
        super().__init__(
            description=label, continuous_update=False, style={"description_width": "10rem"},
            layout=widgets.Layout(width="27rem", max_width="100%"),
        )  # fmt: skip

    def take(self, value: str) -> None:
        """Puts words in."""
        self.value = value


class OwnPart(widgets.VBox):
    """Controls that describe a part: ``value`` is the Part, or None while ``trouble`` says what is wrong.

    To set ``value`` puts a part into the controls. ``part`` is the same as ``value``. The hole controls show the
    row of the leg that ``hole_leg`` has; both rows are in ``rows``.
    """

    value = traitlets.Instance(Part, allow_none=True)
    trouble = traitlets.Unicode("")

    def __init__(self, part: Part | None = None) -> None:
        self.base = part or first_part()
        self._quiet = False
        self.rows: dict[str, HoleRow] = {"A": HoleRow(), "B": HoleRow()}
        self.controls: dict[str, Any] = _controls()
        self.told, self.kept = widgets.HTML(said("", lines=2)), widgets.HTML()
        rows: list[widgets.Widget] = []
        for id_, names in GROUPS.items():
            rows += [widgets.HTML(paragraph(GROUP_WORDS[id_], bold=True)), *(self.controls[name] for name in names)]
        super().__init__([*rows, self.told, self.kept])
        self.controls["unit"].observe(self._rivets, "value")
        for name, control in self.controls.items():
            control.observe(self._other_leg if name == "hole_leg" else self._moved, "value")
            if control.has_trait("trouble"):
                control.observe(self._refused, "trouble")
        self.observe(self._put, "value")
        self.take(self.base)

    @property
    def part(self) -> Part | None:
        """The part that the controls describe; None where they contradict one another."""
        return self.value

    @property
    def values(self) -> dict[str, Any]:
        """The controls' values by name, and the row of holes of each leg."""
        return {**{name: control.value for name, control in self.controls.items()}, "rows": dict(self.rows)}

    @in_turn
    def take(self, part: Part) -> None:
        """Puts a part into the controls. It is the value as it came, until a control is moved."""
        self.base = part
        values = values_of(part)
        self._quiet = True
        try:
            self.rows = values.pop("rows")
            for name, value in values.items():
                self.controls[name].take(value)
            self._show_row()
            self._rivets()
        finally:
            self._quiet = False
        try:
            trouble = "" if described(self.values, part) == part else "These controls say something else than the part: look at what is listed below."
        except BenchError as error:
            trouble = f"As it came: {error}"
        self._is(part, "", trouble)

    def _show_row(self) -> None:
        row = self.rows[self.controls["hole_leg"].value]
        self.controls["holes"].take(row.kind)
        for name in ROW_FIELDS:
            value = getattr(row, name)
            self.controls[name].take(*((value, self._rivet(value)) if name == "diameter" else (value,)))

    def _rivet(self, diameter: Fraction) -> str:
        """A rivet that is not offered, in its own unit."""
        with writing(self.controls["unit"].value):
            return own(diameter)

    @in_turn
    def _rivets(self, change: dict | None = None) -> None:
        """The rivets in the unit of the lengths, and the one that is chosen whatever it is."""
        unit, control = self.controls["unit"].value, self.controls["diameter"]
        with writing(unit):
            label = labelled("Rivet")
        offered = dict(RIVETS[unit])
        if control.value not in offered.values():
            offered[self._rivet(control.value)] = control.value
        control.rename(label, offered)

    def _is(self, part: Part | None, trouble: str, caution: str = "") -> None:
        """The value and what is said of it; controls that do nothing say so."""
        self._quiet = True
        try:
            self.trouble, self.value = trouble, part
        finally:
            self._quiet = False
        words = trouble or caution
        self.told.value = said(words, "unreadable" if words else "", lines=2)
        reasons = idle(self.values, self.controls["hole_leg"].value)
        for name, control in self.controls.items():
            if hasattr(control, "idle"):
                control.idle(reasons.get(name, ""))
        left = not_shown(part or self.base, self.base, self.values)
        self.kept.value = paragraph(f"Not on these controls, and kept: {'; '.join(left)}.") if left else ""

    @in_turn
    def _put(self, change: dict) -> None:
        if not self._quiet and change["new"] is not None:
            self.take(change["new"])

    @in_turn
    def _refused(self, change: dict) -> None:
        if change["new"]:
            self.told.value = said(change["new"], "unreadable", lines=2)

    @in_turn
    def _other_leg(self, change: dict) -> None:
        """The row of the other leg comes into the controls; the part stays."""
        if self._quiet:
            return
        self._quiet = True
        try:
            self._show_row()
        finally:
            self._quiet = False
        self._moved()

    @in_turn
    def _moved(self, change: dict | None = None) -> None:
        if self._quiet:
            return
        row = {name: self.controls[name].value for name in ROW_FIELDS}
        leg = self.controls["hole_leg"].value
        self.rows[leg] = replace(self.rows[leg], kind=self.controls["holes"].value, **row)
        try:
            part, trouble = described(self.values, self.base), ""
        except BenchError as error:
            part, trouble = None, str(error)
        self._is(part, trouble)


def _controls() -> dict[str, Any]:
    row = HoleRow()

    def length(label: str, values: tuple[Fraction, ...], at: Fraction) -> FractionControl:
        return FractionControl(label, values, at)

    def one_of(label: str, options: Options, at: Any) -> ChoiceControl:
        return ChoiceControl(label, options, at)

    controls = {
        "unit": None,
        "id": _Typed("Part id"),
        "name": _Typed("Name"),
        "length": length("Length (in.)", LENGTHS, Fraction(8)),
        "quantity": NumberControl("How many", 1, 50, 1),
        "leg_a": length("Leg A (in.)", WIDTHS, Fraction(1)),
        "leg_b": length("Leg B (in.)", WIDTHS, Fraction(1)),
        "thickness": length("Thickness (in.)", THICKNESSES, Fraction(1, 8)),
        "fillet": length("Fillet (in.)", FILLETS, Fraction(1, 8)),
        "alloy": one_of("Alloy", ALLOYS, ALLOYS[0]),
        "tapers": one_of("Taper at", by_id(TAPERS_AT), NONE),
        "taper_leg": one_of("Tapered leg", ("A", "B"), "A"),
        "slope": one_of("Slope given by", by_id({RUN: "run", ANGLE: "angle"}), RUN),
        "run": length("Run (in.)", RUNS, Fraction(3, 2)),
        "angle": length("Angle (deg.)", ANGLES, Fraction(20)),
        "left": length("Width left (in.)", LEFTS, Fraction(1, 4)),
        "hole_leg": one_of("Holes of leg", ("A", "B"), "B"),
        "holes": one_of("Holes", by_id(HOLES_ARE), row.kind),
        "hole_count": NumberControl("How many holes", 1, 8, row.hole_count),
        "first": length("First from end 1", PLACES, row.first),
        "pitch": length("Pitch (in.)", PLACES, row.pitch),
        "height": length("From the heel", HEIGHTS, row.height),
        "diameter": one_of("Rivet (in.)", RIVETS["in"], row.diameter),
    }
    controls["unit"] = UnitSwitch(control for name, control in controls.items() if isinstance(control, FractionControl) and name != "angle")
    return controls
