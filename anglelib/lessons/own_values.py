"""What the controls of a part of one's own say: from a part to their values, and from their values to a part.

Each leg has its row of holes. What the controls cannot say of a part that came from a file is kept as it came, and
:func:`not_shown` says in words what that is: nothing of a part is dropped, clamped or replaced in silence.

>>> part = first_part()
>>> values = values_of(part)
>>> values["rows"]["B"].kind, values["rows"]["A"].kind
('row', 'none')
>>> described(values, part) == part
True
>>> idle(values, "A")["pitch"], idle(values, "B").get("pitch")
('leg A has no holes', None)
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from anglelib.errors import PartError
from anglelib.geometry.hole_refusals import broken_words
from anglelib.geometry.taper import TaperLine
from anglelib.geometry.whole_holes import broken_holes
from anglelib.lengths import exact, fine, own, writing
from anglelib.part import Hole, Part, Taper, in_its_unit
from anglelib.section import Section
from anglelib.section_sizes import section_given

NONE, KEPT, ROW = "none", "as-it-came", "row"
END_1, END_2, BOTH = "end-1", "end-2", "both-ends"
ENDS = {NONE: (), END_1: (1,), END_2: (2,), BOTH: (1, 2)}
RUN, ANGLE = "run", "angle"
TAPER_FIELDS = ("taper_leg", "slope", "run", "angle", "left")
ROW_FIELDS = ("hole_count", "first", "pitch", "height", "diameter")


@dataclass(frozen=True)
class HoleRow:
    """The holes of one leg as controls say them: ``kind`` is none, row (evenly spaced, at one height) or as-it-came; all [in]."""

    kind: str = NONE
    hole_count: int = 4
    first: Fraction = Fraction(1)
    pitch: Fraction = Fraction(2)
    height: Fraction = Fraction(9, 16)
    diameter: Fraction = Fraction(1, 8)


def first_part() -> Part:
    """What the controls show before anything is said: a plain bracket with one taper and four holes."""
    section = Section("1", "1", "1/8", fillet="1/8")
    holes = [Hole("B", Fraction(1) + n * Fraction(2), "9/16", "1/8") for n in range(4)]
    return Part("P1", "Bracket", section, "6061-T6", "8", [Taper("A", 1, "1/4", run="1 1/2")], holes)


# --- from values to a part --------------------------------------------------------------------------------
def described(values: Mapping[str, Any], base: Part) -> Part:
    """The part that the controls' values describe; ``base`` gives whatever they do not say.

    Raises :class:`~anglelib.errors.BenchError` with the remedy, in the part's unit, where they contradict one another.
    """
    with writing(values["unit"]):
        return _described(values, base)


def _described(values: Mapping[str, Any], base: Part) -> Part:
    radii = {"toe_radius": base.section.toe_radius, "heel_radius": base.section.heel_radius}
    thickness_b = base.section.thickness_b if values["thickness"] == base.section.thickness_a else values["thickness"]
    section = section_given(values["leg_a"], values["leg_b"], values["thickness"], thickness_b, values["fillet"], **radii)
    part = replace(
        base, id=values["id"].strip(), name=values["name"].strip(), section=section, alloy=values["alloy"], unit=values["unit"],
        length=values["length"], quantity=values["quantity"], tapers=(), holes=(), hand=None, mirror_of="",
    )  # fmt: skip
    part = replace(part, tapers=_tapers(values, base))
    for taper in part.tapers:
        run = TaperLine.of(section, taper).run
        if run > part.length:
            long = exact(run) if isinstance(run, Fraction) else fine(run)
            raise PartError(
                f"The taper at end {taper.end} runs {long} along leg {taper.leg}, but the part is only {exact(part.length)} long: "
                f"{'shorten the run' if taper.run is not None else 'take a larger angle'}, or lengthen the part."
            )
    part = replace(part, holes=_holes(values, base))
    if broken := broken_holes(part):
        raise PartError(broken_words(part, broken[0]))
    if part.same_metal_as(base):  # the hand that the plans claim is claimed while the metal is the same
        return replace(part, hand=base.hand, mirror_of=base.mirror_of)
    return part


def _tapers(values: Mapping[str, Any], base: Part) -> tuple[Taper, ...]:
    if values["tapers"] == KEPT:
        return base.tapers
    slope = {"run": values["run"]} if values["slope"] == RUN else {"angle": values["angle"]}
    tapers = tuple(Taper(values["taper_leg"], end, values["left"], **slope) for end in ENDS[values["tapers"]])
    return base.tapers if Counter(tapers) == Counter(base.tapers) else tapers


def _holes(values: Mapping[str, Any], base: Part) -> tuple[Hole, ...]:
    holes: list[Hole] = []
    for leg, row in values["rows"].items():
        if row.kind == KEPT:
            holes += base.holes_in(leg)
        elif row.kind == ROW:
            holes += [Hole(leg, row.first + n * row.pitch, row.height, row.diameter) for n in range(row.hole_count)]
    return base.holes if Counter(holes) == Counter(base.holes) else tuple(holes)


# --- from a part to values --------------------------------------------------------------------------------
def values_of(part: Part) -> dict[str, Any]:
    """The controls' values that describe a part; what they cannot say is told to be as it came."""
    values: dict[str, Any] = {
        "unit": part.unit, "id": part.id, "name": part.name, "alloy": part.alloy, "length": part.length, "quantity": part.quantity,
        "leg_a": part.section.leg_a, "leg_b": part.section.leg_b, "thickness": part.section.thickness_a, "fillet": part.section.fillet,
    }  # fmt: skip
    rows = {leg: _row(part, leg) for leg in "AB"}
    for leg, other in (("A", "B"), ("B", "A")):  # a leg without holes offers what the other leg has
        if rows[leg].kind == NONE and rows[other].kind != NONE:
            rows[leg] = replace(rows[other], kind=NONE)
    return values | _taper_values(part) | {"rows": rows, "hole_leg": "B" if not part.holes_in("A") else "A"}


def _taper_values(part: Part) -> dict[str, Any]:
    if not part.tapers:
        return {"tapers": NONE}
    first = part.tapers[0]
    values = {"taper_leg": first.leg, "left": first.width_left, "slope": RUN if first.run is not None else ANGLE}
    values |= {"run": first.run} if first.run is not None else {"angle": first.angle}
    if len({(t.leg, t.width_left, t.run, t.angle) for t in part.tapers}) > 1:
        return values | {"tapers": KEPT}
    return values | {"tapers": next(name for name, ends in ENDS.items() if set(ends) == {t.end for t in part.tapers})}


def _row(part: Part, leg: str) -> HoleRow:
    holes = part.holes_in(leg)
    if not holes:
        return HoleRow()
    first = holes[0]
    pitches = {two.x - one.x for one, two in zip(holes, holes[1:], strict=False)}
    even = len(pitches) <= 1 and 0 not in pitches and len({(hole.y, hole.diameter, hole.flush) for hole in holes}) == 1
    row = HoleRow(ROW if even and not first.flush else KEPT, len(holes), first.x, HoleRow.pitch, first.y, first.diameter)
    return replace(row, pitch=pitches.pop()) if even and pitches else row


# --- what does nothing, and what is not shown ---------------------------------------------------------------
def idle(values: Mapping[str, Any], leg: str) -> dict[str, str]:
    """The controls that do nothing as things stand, each with the reason; ``leg`` is the one whose holes are shown."""
    found = {}
    if values["tapers"] in (NONE, KEPT):
        why = "no taper is chosen" if values["tapers"] == NONE else "the tapers stay as they came"
        found |= dict.fromkeys(TAPER_FIELDS, why)
    elif values["slope"] == RUN:
        found["angle"] = "the run gives the slope"
    else:
        found["run"] = "the angle gives the slope"
    row = values["rows"][leg]
    if row.kind != ROW:
        why = f"leg {leg} has no holes" if row.kind == NONE else f"the holes of leg {leg} stay as they came"
        found |= dict.fromkeys(ROW_FIELDS, why)
    elif row.hole_count == 1:
        found["pitch"] = "one hole has no pitch"
    return found


@in_its_unit
def not_shown(part: Part, base: Part, values: Mapping[str, Any]) -> tuple[str, ...]:
    """What a part has that its controls do not show, in words; all of it is kept."""
    said = []
    if values["tapers"] == KEPT:
        said += [f"taper of leg {t.leg} at end {t.end}: {_slope(t)}, width left {exact(t.width_left)}" for t in part.tapers]
    for leg, row in values["rows"].items():
        if row.kind == KEPT and (holes := part.holes_in(leg)):
            places = "; ".join(f"{own(h.diameter)}{' flush' if h.flush else ''} at {exact(h.x)}, {exact(h.y)} from the heel" for h in holes)
            said.append(f"holes of leg {leg}, from end 1: {places}")
    said += [f"cope of leg {c.leg} at end {c.end}: {exact(c.length)} back, {exact(c.width_left)} left, radius {exact(c.radius)}" for c in part.copes]
    said += [f"corner of leg {c.leg} at end {c.end} rounded, radius {exact(c.radius)}" for c in part.corners]
    section = part.section
    if section.thickness("B") != section.thickness_a:
        said.append(f"leg B {exact(section.thickness('B'))} thick (the control is leg A's)")
    said += [f"{what} {exact(r)}" for what, r in (("toe radius", section.toe_radius), ("heel radius", section.heel_radius)) if r]
    said += _claims(part, base)
    return tuple(said)


def _slope(taper: Taper) -> str:
    return f"run {exact(taper.run)}" if taper.run is not None else f"{float(taper.angle):g} degrees from the heel"  # type: ignore[arg-type]


def _claims(part: Part, base: Part) -> list[str]:
    said = []
    if part.hand or part.mirror_of:
        partner = f"mirror image of {part.mirror_of}" if part.mirror_of else ""
        said.append("the plans say: " + ", ".join(filter(None, (f"hand {part.hand}" if part.hand else "", partner))))
    elif base.hand or base.mirror_of:
        said.append("no hand and no partner any more: what the plans say was of other metal")
    said += [words for on, words in ((part.one_piece, "one piece, never spliced"), (part.later, "its length reserved for later")) if on]
    if part.priority:
        said.append(f"priority {part.priority}")
    if part.only_stick:
        said.append(f"only from stick {part.only_stick}")
    said += [f"{pin.quantity} of it from stick {pin.stick}" for pin in part.pinned]
    said += [f"not from stick {' or '.join(part.not_from)}"] if part.not_from else []
    if part.note:
        said.append(f"note: {part.note}")
    return said
