"""The receiving sheet: every stick that should be there, and room to write what is.

A stick is taken for what its mark says and what a caliper and a scale confirm; what carries no mark
is set aside. One row a stick, since each is accepted for itself.

>>> from anglelib.job import Job, Shop
>>> from anglelib.paper.page import A4
>>> from anglelib.section import Section
>>> from anglelib.stock.rack import Rack, Stick
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> rack = Rack([Stick("S-1", stock, "6061-T6", 144), Stick("S-2", stock, "", 36, remnant=True)])
>>> [page.title for page in receiving_pages(rack, A4)]
['Receiving the stock']
>>> straightness(stock), twist(stock)
(Fraction(1, 80), (1.0, 7.0))
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction

from anglelib.drawing.letters import text_width
from anglelib.drawing.sheet import Item, Label, Line, move
from anglelib.geometry.stock_faults import twist_rises
from anglelib.lengths import decimal, exact, own, unit_in_head, unit_written
from anglelib.paper.page import FIGURE, SMALL, Block, Page, Paper, block, box, fitting, flow, heading
from anglelib.paper.weights import Weight
from anglelib.section import Section
from anglelib.stock.equal_sticks import runs
from anglelib.stock.rack import Rack, Stick

TITLE = "Receiving the stock"
FIRST = (
    "Count, then take each stick for itself: read the mark, measure, weigh, sign. A stick without a mark, or with another one, is set "
    "aside until a marking or a certificate says what it is: a weight or a fillet is a clue, never proof. Weights are of the listed "
    "section; multiply by the thickness measured over the thickness listed. What comes after ± is half a gram of a 1 g scale and a "
    "thousandth of thickness. Straightness and twist: ANSI H35.2, as an extruders' council prints it."
)
ROW = 7.6
"""Height of a row, to be written in with a pen [mm]."""
WIDE = (17.0, 22.0, 31.0, 16.0, 23.0, 20.0, 20.0, 20.0)
"""Widths of the columns but the last [mm]."""
HEADS = {
    "in": ("stick", "length", "should weigh", "", "alloy mark", "length", "thickness", "weight", "accepted by"),
    "mm": ("stick", "length, mm", "should weigh", "", "alloy mark", "mm long", "mm thick", "weight", "accepted by"),
}
"""The heads of the columns, by the unit of the job."""
FLOW = 2.5
"""What :func:`anglelib.paper.page.flow` leaves between blocks [mm]."""
FEET = 1000 / 304.8
"""Feet in a metre."""
OPEN = 4
"""The column from which on there is room to write."""


def receiving_pages(rack: Rack, on: Paper) -> list[Page]:
    """The sheet of every stick on a rack, section by section; the page of the first has a bookmark."""
    width = on.room
    text, low = block(0, 0, FIRST, width)
    blocks: list[Block] = [(text, -low)]
    groups: dict[tuple[Section, str], list[Stick]] = {}
    for stick in rack.sticks:
        groups.setdefault((stick.section, stick.alloy), []).append(stick)
    for (section, alloy), sticks in groups.items():
        blocks += _group(section, alloy, sticks, width)
    counts = "; ".join(f"{len(sticks)} of {section.size}, {alloy or 'alloy unknown'}" for (section, alloy), sticks in groups.items())
    return flow(TITLE, "", blocks, on, f"Sticks to be counted, measured, weighed and accepted: {counts}.")


def circle(section: Section) -> float:
    """Diameter of the smallest circle round the section [in]: its toes are the farthest points."""
    return math.hypot(float(section.leg_a), float(section.leg_b))


def straightness(section: Section) -> Fraction:
    """How far a stick may be out of straight for each foot of its length [in].

    Standard tolerance of extruded shapes, ANSI H35.2, as an extruders' council prints it.
    """
    thin = min(section.thickness_a, section.thickness("B")) <= Fraction(94, 1000)
    return Fraction(50, 1000) if thin and circle(section) < 1.5 else Fraction(125, 10000)


def twist(section: Section) -> tuple[float, float]:
    """How far a stick may be twisted for each foot of its length, and at most [deg]; the same source."""
    size = circle(section)
    return (1.0, 7.0) if size < 1.5 else (0.5, 5.0) if size < 3 else (0.25, 3.0)


# --- one section -----------------------------------------------------------------------------------------
def _group(section: Section, alloy: str, sticks: Sequence[Stick], width: float) -> list[Block]:
    """The heading with the count, the rows, and what is to be noticed."""
    new = sum(not stick.remnant for stick in sticks)
    inside = f"fillet {own(section.fillet)}" if section.fillet else "square inside"
    title = f"{section.size}, {inside}, {alloy or 'alloy unknown'}"
    old = len(sticks) - new
    kinds = ((new, "new"), (old, "remnant" if old == 1 else "remnants"))
    count = ", ".join(f"{number} {word}" for number, word in kinds if number)
    words = f"expected {len(sticks)}: {count}; counted"
    at = width - 16
    _, y = heading(0, 0, title, width)
    name, letter = fitting(title, at - 3 - text_width(words, SMALL), (FIGURE, SMALL))
    drawn: list[Item] = [Label(0, -FIGURE, name, letter, "start"), Line(0, y + 1.6, width, y + 1.6, "narrow")]
    drawn.append(Label(at - 1.5, -0.6, words, SMALL, "end", "top"))
    drawn.append(box(at, -4.5, 14, 5.2))
    text, y = block(0, y, _limits(section), width)
    drawn += text
    heads, low = _row(HEADS[unit_written()], width, top=True)
    named, first = _row(_cells(sticks[0]), width)
    drawn += move(heads, 0, y) + move(named, 0, y - low)
    rows: list[Block] = [(tuple(drawn), low + first - y)]
    rows += [_row(_cells(stick), width) for stick in sticks[1:]]
    noticed: dict[str, list[str]] = {}
    for stick in sticks:
        noticed.setdefault(_noticed(stick), []).append(stick.id)
    for said, ids in noticed.items():
        if said:
            text, low = block(1, -1.2, f"{', '.join(runs(ids))}: {said}", width - 1)
            rows.append((text, -low))
    return [(made, deep - (FLOW if made is not rows[-1][0] else 0)) for made, deep in rows]


def _row(cells: Sequence[str], width: float, top: bool = False) -> Block:
    """A row over its rule, the columns to be written in parted by lines; a row of heads is lower."""
    high = 5.0 if top else ROW
    kind = "outline" if top else "narrow"
    items: list[Item] = [Line(0, -high, width, -high, kind)]
    x = 0.0
    for number, (cell, wide) in enumerate(zip(cells, (*WIDE, width - sum(WIDE)), strict=True)):
        if number >= OPEN and not top:
            items.append(Line(x, 0, x, -high, "narrow"))
        letter = FIGURE if number in (1, 2) and not top else SMALL
        text, letter = fitting(cell, wide - 1.4, (letter, SMALL))
        if text:
            items.append(Label(x + 1, -high / 2 + (0.2 if top else 0), text, letter, "start", "middle"))  # tails clear of the wide rule
        x += wide
    return tuple(items), high


def _cells(stick: Stick) -> list[str]:
    weight = Weight.of_length(stick.section, stick.alloy, stick.length)
    said = ("not in the table" if stick.alloy else "", "") if weight is None else (weight.metric, f"{weight.pounds:.3f} lb")
    with unit_in_head():
        return [stick.id, exact(stick.length), *said, *[""] * 5]


def _limits(section: Section) -> str:
    foot, most = twist(section)
    if unit_written() == "mm":
        lifts = _lifts("a metre", [f"{decimal(rise * 25.4, 1)} mm" for rise in twist_rises(section, foot, FEET * 12)])
        return f"straight within {decimal(straightness(section) / 12 * 1000, 1)} mm a metre, twisted by no more than {foot * FEET:.1f}° a metre and {most:g}° in all{lifts}"
    straight = decimal(straightness(section), 4)
    lifts = _lifts("a foot", [f"{decimal(rise)} in." for rise in twist_rises(section, foot, 12)])
    return f"straight within {straight} in. a foot, twisted by no more than {foot:g}° a foot and {most:g}° in all{lifts}"


def _lifts(each: str, rises: Sequence[str]) -> str:
    """What so much twist lifts the toes off a table on which the near end lies flat."""
    on_a, on_b = rises
    return f": {each} of it lifts a toe {on_a} off a flat table" if on_a == on_b else f": {each} of it lifts toe A {on_a} and toe B {on_b} off a flat table"


def _noticed(stick: Stick) -> str:
    """What the rack says of a stick besides its size."""
    said = ["hands off"] if stick.hands_off else []
    said += [f"dent from {exact(a)} to {exact(b)}" for a, b in stick.dents]
    said += [f"lot {stick.lot}, by the rack file: it must be the one on its mark or certificate"] if stick.lot else []
    said += [stick.note] if stick.note else []
    if not stick.alloy and not stick.note:
        said.append("no mark of its alloy: not to be used until it is identified")
    return "; ".join(said)

