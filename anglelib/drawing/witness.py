"""A witness line: where a taper to the vertex takes end 1 away, the datum that is left.

Leg A's outer face, end 1 at the left, heel at the top. Before the cut everything is measured from end 1,
the witness line too; after it, from the witness line.

>>> from anglelib.section import Section
>>> from anglelib.part import Hole, Part, Taper
>>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
>>> bracket = Part("C1L", "Bracket", stock, "6061-T6", "4 3/4", [Taper("A", 1, run="2 1/8")], [Hole("A", "4 1/4", "11/16", "3/16")])
>>> print(witness_sheet(bracket, AFTER).sentence)
Leg A of the bracket, outer face, end 1 at the left, after the cut: the taper to the vertex has taken end 1 away, and the feather edge that is left is broken. The witness line is square across, 2 1/2 (2.500) from where end 1 was. From it: hole 1 3/4 (1.750), end 2 2 1/4 (2.250).
"""

from __future__ import annotations

from fractions import Fraction

from anglelib.drawing.dimensions import Stop, linear_dimension, running_dimensions
from anglelib.drawing.running import called
from anglelib.drawing.sheet import Group, Hatch, Item, Label, Line, Polyline, Sheet
from anglelib.drawing.symbols import datum_sign, hole
from anglelib.geometry.layout import witness_line
from anglelib.geometry.taper import taper_lines
from anglelib.lengths import both, exact
from anglelib.part import Part

WIDTH, HEIGHT = 234.0, 100.0
LETTER = 3.5
LEFT, LONG, HEEL = 44.0, 140.0, 76.0
STAGES = {"before": "before the cut", "after": "after the cut"}
"""The part before and after its taper is sawn, by id, in words."""
BEFORE, AFTER = STAGES


def places(part: Part) -> tuple[tuple[str, Fraction], ...]:
    """What leg A's running dimensions lead to: name, and x from end 1 [in]."""
    rows = [("hole", h.x) for h in sorted(part.holes_in("A"), key=lambda h: h.x)]
    return (*rows, ("end 2", part.length))


def witness_sheet(part: Part, stage: str, few: bool = False, answer: bool = True, prediction: Fraction | None = None) -> Sheet:
    """The leg before or after its taper is cut; ``answer``: whether lengths from the witness line are said.

    ``prediction`` [in] from the witness line is kept as a ghost. Raises ValueError for a part that needs no witness line.
    """
    at = witness_line(part)
    if at is None:
        raise ValueError(f"part {part.id} keeps its ends: it needs no witness line")
    unit = LONG / float(part.length)
    cut = stage == AFTER
    items = (*_metal(part, unit, cut), *_line(at, unit, part, few))
    origin = at if cut and answer else Fraction(0)
    low = HEEL - float(part.section.leg_a) * unit
    if answer or not cut:
        stops = [Stop(LEFT + float(x) * unit, low, (exact if few else both)(abs(x - origin)), cut) for _, x in places(part)]
        items += running_dimensions(LEFT + float(origin) * unit, stops, low - 9, letter=LETTER, low=14, high=WIDTH - 10, foot=low)
    if not cut:
        items += datum_sign(LEFT, low - 9, "end 1")
    if prediction is not None:
        x = min(LEFT + float(at + prediction) * unit, WIDTH - 8)
        items += (Line(x, low - 4, x, HEEL + 3, "ghost"),)
    return Sheet(WIDTH, HEIGHT, items, "A witness line", witness_sentence(part, stage, answer, prediction))


def _metal(part: Part, unit: float, cut: bool) -> Group:
    """The leg; before the cut with the metal that the taper will take."""
    line = taper_lines(part)[0]
    wide, run = float(part.section.leg_a) * unit, float(line.run) * unit
    right, low = LEFT + float(part.length) * unit, HEEL - wide
    items: list[Item] = []
    if cut:
        blunt = 2.0
        items.append(Polyline(((LEFT + blunt * run / wide, HEEL), (right, HEEL), (right, low), (LEFT + run, low), (LEFT + blunt * run / wide, HEEL - blunt)), "outline", True))
        items.append(Polyline(((LEFT + blunt * run / wide, HEEL), (LEFT, HEEL), (LEFT, low), (LEFT + run, low)), "blank"))
    else:
        items.append(Hatch(((LEFT, HEEL), (LEFT + run, low), (LEFT, low)), 45, 3.0))
        items.append(Polyline(((LEFT, HEEL), (right, HEEL), (right, low), (LEFT, low)), "outline", True))
        items.append(Line(LEFT, HEEL, LEFT + run, low, "mark", True))
    for drilled in part.holes_in("A"):
        items += hole(LEFT + float(drilled.x) * unit, HEEL - float(drilled.y) * unit, float(drilled.diameter) / 2 * unit)
    return tuple(items)


def _line(at: Fraction, unit: float, part: Part, few: bool) -> Group:
    """The witness line with its place from end 1."""
    x, low = LEFT + float(at) * unit, HEEL - float(part.section.leg_a) * unit
    items: list[Item] = [Line(x, low, x, HEEL, "mark", True)]
    items += linear_dimension((LEFT, HEEL), (x, HEEL), HEEL + 7, (exact if few else both)(at), letter=LETTER)
    items.append(Label(x + 3, HEEL + 6.5, "witness line", LETTER, "start", accent=True))
    if not few:
        items.append(Label(LEFT + float(part.length) * unit + 3, (HEEL + low) / 2, "end 2", LETTER, "start", "middle"))
        items.append(Label(LEFT + float(part.length) * unit + 3, HEEL, "heel", LETTER, "start", "middle"))
    return tuple(items)


def witness_sentence(part: Part, stage: str, answer: bool = True, prediction: Fraction | None = None) -> str:
    """What the picture shows, in words."""
    at: Fraction = witness_line(part)  # type: ignore[assignment]
    words = f"Leg A of the {called(part)}, outer face, end 1 at the left, {STAGES[stage]}: "
    if stage == BEFORE:
        rows = ", ".join(f"{name} {both(x)}" for name, x in places(part))
        words += f"the taper runs to the vertex, so it will take end 1 away. A witness line is struck {both(at)} from end 1. From end 1: {rows}."
    else:
        words += (
            f"the taper to the vertex has taken end 1 away, and the feather edge that is left is broken. The witness line is square across, {both(at)} "
            "from where end 1 was."
        )
        if answer:
            rows = ", ".join(f"{name} {both(abs(x - at))}{' towards end 1' if x < at else ''}" for name, x in places(part))
            words += f" From it: {rows}."
    return words + (f" Your prediction is {both(prediction)} from the witness line." if prediction is not None else "")
