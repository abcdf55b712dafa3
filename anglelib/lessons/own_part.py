"""A part of one's own, described by controls: section, length, tapers, a row of holes; or taken from a job file.

``value`` is the part, or None where the controls contradict one another; then ``trouble`` says why. What
the controls cannot say of a part that was taken (copes, rounded corners, a second taper) is kept as it came.

>>> own = OwnPart()
>>> own.value.length, own.value.tapers[0].run
(Fraction(8, 1), Fraction(3, 2))
>>> own.controls["run"].value = Fraction(12)
>>> print(own.value, own.trouble)
None The taper at end 1 runs 12 along leg A, but the part is only 8 long: shorten the run, or lengthen the part.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from typing import Any

import ipywidgets as widgets
import traitlets

from anglelib.errors import BenchError, PartError
from anglelib.geometry.hole_refusals import broken_words
from anglelib.geometry.taper import TaperLine
from anglelib.geometry.whole_holes import broken_holes
from anglelib.lengths import decimal, exact
from anglelib.lessons.controls import ChoiceControl, FractionControl, NumberControl, fractions, in_turn
from anglelib.lessons.words import paragraph, said
from anglelib.names import MOST_NAME_CHARACTERS
from anglelib.part import Hole, Part, Taper
from anglelib.section import Section

NONE, END_1, END_2, BOTH, KEPT = "none", "end 1", "end 2", "both ends", "as it came"
ROW = "a row"
ENDS = {NONE: (), END_1: (1,), END_2: (2,), BOTH: (1, 2)}
ALLOYS = ("6061-T6", "6063-T5", "2024-T3")
RIVETS = {text: Fraction(text) for text in ("3/32", "1/8", "5/32", "3/16")}

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


def first_part() -> Part:
    """What the controls show before anything is said: a plain bracket with one taper and four holes."""
    section = Section("1", "1", "1/8", fillet="1/8")
    holes = [Hole("B", Fraction(1) + n * Fraction(2), "9/16", "1/8") for n in range(4)]
    return Part("P1", "Bracket", section, "6061-T6", "8", [Taper("A", 1, "1/4", run="1 1/2")], holes)


# --- computed -------------------------------------------------------------------------------------------
def described(values: Mapping[str, Any], base: Part) -> Part:
    """The part that the controls' values describe; ``base`` gives whatever they do not say.

    Raises :class:`~anglelib.errors.BenchError` with the remedy where they contradict one another.
    """
    fillet_kept = {"toe_radius": base.section.toe_radius, "heel_radius": base.section.heel_radius}
    thickness_b = base.section.thickness_b if values["thickness"] == base.section.thickness_a else values["thickness"]
    section = Section(values["leg_a"], values["leg_b"], values["thickness"], thickness_b, values["fillet"], **fillet_kept)
    part = replace(
        base, id=values["id"].strip(), name=values["name"].strip(), section=section, alloy=values["alloy"],
        length=values["length"], quantity=values["quantity"], tapers=(), holes=(), hand=None, mirror_of="",
    )  # fmt: skip
    part = replace(part, tapers=_tapers(values, base))
    for taper in part.tapers:
        run = TaperLine.of(section, taper).run
        if run > part.length:
            long = exact(run) if isinstance(run, Fraction) else decimal(run)
            raise PartError(
                f"The taper at end {taper.end} runs {long} along leg {taper.leg}, but the part is only {exact(part.length)} long: "
                f"{'shorten the run' if taper.run is not None else 'take a larger angle'}, or lengthen the part."
            )
    part = replace(part, holes=_holes(values, base))
    if broken := broken_holes(part):
        raise PartError(broken_words(part, broken[0]))
    return _claimed(part, base)


def _tapers(values: Mapping[str, Any], base: Part) -> tuple[Taper, ...]:
    if values["tapers"] == KEPT:
        return base.tapers
    slope = {"run": values["run"]} if values["slope"] == "run" else {"angle": values["angle"]}
    return tuple(Taper(values["taper_leg"], end, values["left"], **slope) for end in ENDS[values["tapers"]])


def _holes(values: Mapping[str, Any], base: Part) -> tuple[Hole, ...]:
    if values["holes"] == KEPT:
        return base.holes
    number = values["hole_count"] if values["holes"] == ROW else 0
    places = [values["first"] + n * values["pitch"] for n in range(number)]
    return tuple(Hole(values["hole_leg"], x, values["height"], values["diameter"]) for x in places)


def _claimed(part: Part, base: Part) -> Part:
    """With the hand that the plans claimed, while the metal is the same."""
    if part.same_metal_as(base):
        return replace(part, hand=base.hand, mirror_of=base.mirror_of)
    return part


def values_of(part: Part) -> dict[str, Any]:
    """The controls' values that describe a part; what they cannot say is told to be as it came."""
    values: dict[str, Any] = {
        "id": part.id, "name": part.name, "alloy": part.alloy, "length": part.length, "quantity": part.quantity,
        "leg_a": part.section.leg_a, "leg_b": part.section.leg_b, "thickness": part.section.thickness_a, "fillet": part.section.fillet,
    }  # fmt: skip
    values |= _taper_values(part) | _hole_values(part)
    return values


def _taper_values(part: Part) -> dict[str, Any]:
    if not part.tapers:
        return {"tapers": NONE}
    alike = {(t.leg, t.width_left, t.run, t.angle) for t in part.tapers}
    if len(alike) > 1:
        return {"tapers": KEPT}
    leg, left, run, angle = alike.pop()
    ends = next(name for name, ends in ENDS.items() if set(ends) == {t.end for t in part.tapers})
    values = {"tapers": ends, "taper_leg": leg, "left": left, "slope": "run" if run is not None else "angle"}
    return values | ({"run": run} if run is not None else {"angle": angle})


def _hole_values(part: Part) -> dict[str, Any]:
    if not part.holes:
        return {"holes": NONE}
    holes = sorted(part.holes, key=lambda hole: hole.x)
    alike = {(hole.leg, hole.y, hole.diameter, hole.flush) for hole in holes}
    pitches = {two.x - one.x for one, two in zip(holes, holes[1:])}
    if len(alike) > 1 or len(pitches) > 1 or 0 in pitches:
        return {"holes": KEPT}
    leg, y, diameter, flush = alike.pop()
    if flush or diameter not in RIVETS.values():
        return {"holes": KEPT}
    values = {"holes": ROW, "hole_leg": leg, "height": y, "diameter": diameter, "hole_count": len(holes), "first": holes[0].x}
    return values | ({"pitch": pitches.pop()} if pitches else {})


# --- wired ------------------------------------------------------------------------------------------------
class _Typed(widgets.Text):
    """A word or two, with the label in the column of the others."""

    def __init__(self, label: str, value: str) -> None:
        super().__init__(
            value, description=label, continuous_update=False, style={"description_width": "10rem"},
            layout=widgets.Layout(width="27rem", max_width="100%"),
        )  # fmt: skip


class OwnPart(widgets.VBox):
    """Controls that describe a part: ``value`` is the Part, or None while ``trouble`` says what is wrong.

    To set ``value`` puts a part into the controls. ``part`` is the same as ``value``.
    """

    value = traitlets.Instance(Part, allow_none=True)
    trouble = traitlets.Unicode("")

    def __init__(self, part: Part | None = None) -> None:
        self.base = part or first_part()
        self._quiet = False
        start = {**_defaults(), **values_of(self.base)}
        self.controls: dict[str, widgets.Widget] = _controls(start)
        self.told = widgets.HTML(said("", lines=2))
        c = self.controls
        groups = (
            ("The part", ("id", "name", "length", "quantity")),
            ("The stock", ("leg_a", "leg_b", "thickness", "fillet", "alloy")),
            ("The taper", ("tapers", "taper_leg", "slope", "run", "angle", "left")),
            ("The holes", ("holes", "hole_leg", "hole_count", "first", "pitch", "height", "diameter")),
        )
        rows: list[widgets.Widget] = []
        for title, names in groups:
            rows += [widgets.HTML(paragraph(title, bold=True)), *(c[name] for name in names)]
        super().__init__([*rows, self.told], value=self.base)
        for control in c.values():
            control.observe(self._moved, "value")
            if control.has_trait("trouble"):
                control.observe(self._refused, "trouble")
        self.observe(self._put, "value")

    @property
    def part(self) -> Part | None:
        """The part that the controls describe; None where they contradict one another."""
        return self.value

    @property
    def values(self) -> dict[str, Any]:
        """The controls' values by name."""
        return {name: control.value for name, control in self.controls.items()}

    @in_turn
    def take(self, part: Part) -> None:
        """Puts a part into the controls."""
        self.base = part
        self._quiet = True
        try:
            for name, value in values_of(part).items():
                _reach(self.controls[name], value)
                self.controls[name].value = value
        finally:
            self._quiet = False
        self._moved()

    @in_turn
    def _put(self, change: dict) -> None:
        if not self._quiet and change["new"] is not None:
            self.take(change["new"])

    @in_turn
    def _refused(self, change: dict) -> None:
        if change["new"]:
            self.told.value = said(change["new"], "unreadable", lines=2)

    @in_turn
    def _moved(self, change: dict | None = None) -> None:
        if self._quiet:
            return
        try:
            part, trouble = described(self.values, self.base), ""
        except BenchError as error:
            part, trouble = None, str(error)
        self._quiet = True
        try:
            self.trouble, self.value = trouble, part
        finally:
            self._quiet = False
        self.told.value = said(trouble, "unreadable" if trouble else "", lines=2)


def _reach(control: widgets.Widget, value: Any) -> None:
    """Makes room in a control for a value that a part came with."""
    if isinstance(control, FractionControl) and not control.values[0] <= value <= control.values[-1]:
        control.values = tuple(sorted((*control.values, value)))
        control.slider.max = len(control.values) - 1
        control.slider.value = control._nearest(control.value)
    elif isinstance(control, NumberControl):
        control.slider.max = control.entry.max = max(control.slider.max, value)
    elif isinstance(control, ChoiceControl):
        offered = [kept for _, kept in control.buttons._options_full]
        if value not in offered:
            control.buttons.options = [*control.buttons.options, value]


def _defaults() -> dict[str, Any]:
    """What stands in the controls of a feature that a part does not have."""
    return {
        "taper_leg": "A", "slope": "run", "run": Fraction(3, 2), "angle": Fraction(20), "left": Fraction(1, 4),
        "hole_leg": "B", "hole_count": 4, "first": Fraction(1), "pitch": Fraction(2), "height": Fraction(9, 16), "diameter": Fraction(1, 8),
    }  # fmt: skip


def _controls(start: Mapping[str, Any]) -> dict[str, widgets.Widget]:
    def length(name: str, label: str, values: tuple[Fraction, ...]) -> FractionControl:
        return FractionControl(label, values, start[name])

    alloys = ALLOYS if start["alloy"] in ALLOYS else (*ALLOYS, start["alloy"])
    controls = {
        "id": _Typed("Part id", start["id"]),
        "name": _Typed("Name", start["name"][:MOST_NAME_CHARACTERS]),
        "length": length("length", "Length (in.)", LENGTHS),
        "quantity": NumberControl("How many", 1, 50, start["quantity"]),
        "leg_a": length("leg_a", "Leg A (in.)", WIDTHS),
        "leg_b": length("leg_b", "Leg B (in.)", WIDTHS),
        "thickness": length("thickness", "Thickness (in.)", THICKNESSES),
        "fillet": length("fillet", "Fillet (in.)", FILLETS),
        "alloy": ChoiceControl("Alloy", alloys, start["alloy"]),
        "tapers": ChoiceControl("Taper at", (*ENDS, KEPT), start["tapers"]),
        "taper_leg": ChoiceControl("Tapered leg", ("A", "B"), start["taper_leg"]),
        "slope": ChoiceControl("Slope given by", ("run", "angle"), start["slope"]),
        "run": length("run", "Run (in.)", RUNS),
        "angle": length("angle", "Angle (deg.)", ANGLES),
        "left": length("left", "Width left (in.)", LEFTS),
        "holes": ChoiceControl("Holes", (NONE, ROW, KEPT), start["holes"]),
        "hole_leg": ChoiceControl("Leg of the holes", ("A", "B"), start["hole_leg"]),
        "hole_count": NumberControl("How many holes", 1, 8, start["hole_count"]),
        "first": length("first", "First from end 1", PLACES),
        "pitch": length("pitch", "Pitch (in.)", PLACES),
        "height": length("height", "From the heel", HEIGHTS),
        "diameter": ChoiceControl("Rivet (in.)", RIVETS, start["diameter"]),
    }
    return controls
