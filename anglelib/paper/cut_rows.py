"""The cuts of one stick as a list: a row each, with its line, the same line on the card, what is made first, what is clamped.

>>> from anglelib.job import Job
>>> from anglelib.part import Part, Taper
>>> from anglelib.section import Section
>>> from anglelib.stock.planner import plan
>>> from anglelib.stock.rack import Rack, Stick
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> cleat = Part("A1", "Cleat", stock, "6061-T6", "2 1/8", [Taper("A", 1, "3/8", run="1 1/4")])
>>> planned = plan(Job("Demo", Shop(), [cleat]), Rack([Stick("S-1", stock, "6061-T6", 40)])).sticks[0]
>>> for row in listed(planned, Shop(), Limits()): print(row.what, "|", row.line, "|", row.minded, "|", row.clamp)
A1 | 2 3/16 (2.188) | ('its card: 2 5/32 from end 1, squared', 'end 1 first: taper A') | clamp: the piece that comes off is 2 3/16
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from anglelib.drawing.letters import text_width
from anglelib.drawing.sheet import Item, Label, Line, move
from anglelib.geometry.rough_words import begins_rough
from anglelib.job import Shop
from anglelib.lengths import both, own, unit_in_head
from anglelib.paper.page import FIGURE, PITCH, SMALL, Block, block, box, shortened, warning_sign, wrapped
from anglelib.stock.blank import Blank
from anglelib.stock.cut_words import by_hacksaw, card_line, clamped, first_letters, lies, minded, not_sawn, short_alone
from anglelib.stock.plan import CLEAR, TRIM, Cut, StickPlan
from anglelib.stock.rack import Stick
from anglelib.stock.set_up_words import at_row
from anglelib.stock.set_ups import SetUp
from anglelib.tolerances import Limits

HIGH = 5.2
"""Height of a row's first line [mm]."""
TICK = 3.2
"""A box to tick when the cut is done [mm]."""
MANY = 12
"""A stick with more rows lists them in two columns."""
GUTTER = 3.0
"""Clear space between two columns [mm]."""
DEEPEST = 100.0
"""A list that is deeper goes on in another block, so that it may go on on another page [mm]."""

NEAR, NEAR_BRIEF = "the saw on the near side of this line: the next blank begins at it", "saw on the near side"
"""What is minded where a dent is cleared: elsewhere the saw runs on a line's far side."""


@dataclass(frozen=True)
class CutRow:
    """One row: what is parted off, its part's name, its line from the datum end, what is minded, in full and briefly.

    ``head`` stands over it: that the stick is turned before this cut. ``set_up`` says what is set at the saw for this row ("": nothing).
    """

    what: str
    name: str
    line: str
    minded: tuple[str, ...] = ()
    brief: tuple[str, ...] = ()
    clamp: str = ""
    clamp_brief: str = ""
    head: str = ""
    set_up: str = ""
    set_up_brief: str = ""


def listed(planned: StickPlan, shop: Shop, limits: Limits, made: Sequence[SetUp] = ()) -> list[CutRow]:
    """The rows of a stick: its cuts in order, then a blank that ends where the stick does. ``made`` are the set-ups of the saw for its section."""
    rows = [_cut(cut, planned, shop, limits) for cut in planned.cuts]
    for n in range(1, len(planned.cuts)):
        turned = planned.cuts[n].turned
        if turned != planned.cuts[n - 1].turned:
            rows[n] = replace(rows[n], head=turn_words(planned.stick, turned))
    for placed in planned.placed:
        if not placed.sawn:
            part = placed.blank.part
            begins = _begins(placed.blank, planned, shop)
            said, brief = (not_sawn(placed), *begins, *minded(part, shop, limits)), ("it ends where the stick does", *begins, *_brief(placed.blank, shop, limits))
            clamp = short_alone(placed.blank, shop)
            rows.append(CutRow(str(placed.blank), part.name, "not sawn", said, brief, clamp, clamp))
    for n, row in enumerate(rows, 1):
        here = [one for one in made if (one.stick_id, one.row) == (planned.stick.id, n)]
        rows[n - 1] = replace(row, set_up=at_row(here), set_up_brief=at_row(here, brief=True))
    return rows


def _cut(cut: Cut, planned: StickPlan, shop: Shop, limits: Limits) -> CutRow:
    clamp = clamped(cut, shop), clamped(cut, shop, brief=True)
    if cut.blank is None:
        said, brief = ((NEAR,), (NEAR_BRIEF,)) if cut.kind == CLEAR else ((), ())
        return CutRow(what_is_cut(cut, planned), "", line_words(cut), (*by_hacksaw(cut, shop), *said), (*by_hacksaw(cut, shop, True), *brief), *clamp)
    part = cut.blank.part
    said = (*by_hacksaw(cut, shop), *_begins(cut.blank, planned, shop), *minded(part, shop, limits, cut.rough))
    brief = (*by_hacksaw(cut, shop, True), *_begins(cut.blank, planned, shop), *_brief(cut.blank, shop, limits, cut.rough))
    return CutRow(str(cut.blank), part.name, line_words(cut), said, brief, *clamp)


def _begins(blank: Blank, planned: StickPlan, shop: Shop) -> tuple[str, ...]:
    """That a rough cut has left the near end of a blank; nothing else."""
    return (begins_rough(shop),) if any(placed.before for placed in planned.placed if placed.blank == blank) else ()


def _brief(blank: Blank, shop: Shop, limits: Limits, rough: bool = False) -> tuple[str, ...]:
    words = card_line(blank.part, shop.by_hacksaw if rough else shop, limits, brief=True), first_letters(blank.part), lies(blank.part, brief=True)
    return tuple(word for word in words if word)


def what_is_cut(cut: Cut, planned: StickPlan) -> str:
    """What a cut frees."""
    if cut.blank is not None:
        return str(cut.blank)
    trim = planned.stick.length - cut.x if cut.turned else planned.datum
    return {TRIM: f"trim {own(trim)}, square", CLEAR: "clear the dent"}[cut.kind]


def line_words(cut: Cut) -> str:
    """Where a cut's line is, from the datum end; in which unit stands above the list."""
    with unit_in_head():
        return "0" if cut.kind == TRIM and not cut.back else both(cut.mark)


# --- how a stick with unequal legs lies ---------------------------------------------------------------------
def laid_words(planned: StickPlan) -> str:
    """How a stick with unequal legs is laid, so that its datum end is at the left; "" where the legs are equal."""
    stick = planned.stick
    if stick.section.equal_legs:
        return ""
    return f"heel down, {_leg(stick, bool(planned.cuts) and planned.cuts[0].turned)} towards you"


def turn_words(stick: Stick, turned: bool) -> str:
    """That a stick is turned end for end, to be sawn from its end 2; or back."""
    if turned:
        return (
            f"Turn the stick end for end, heel down, {_leg(stick, True)} now towards you: the end at the left is the datum end of "
            "the lines below. With unequal legs the other hand is sawn from this end."
        )
    return f"Turn it again, {_leg(stick, False)} towards you: the lines below were marked, before the first cut, from the end at the left."


def _leg(stick: Stick, turned: bool) -> str:
    """The leg towards you by its width, or by its thickness where the legs are equally wide."""
    leg, section = "A" if turned else "B", stick.section
    if section.leg_a == section.leg_b:
        return f"its {own(section.thickness(leg))} thick leg"
    return f"its leg of {own(section.leg(leg))}"


# --- drawn ----------------------------------------------------------------------------------------------------
def row_blocks(rows: Sequence[CutRow], width: float, stick_id: str) -> list[Block]:
    """The rows as blocks, one column or two where there are many; a list that is deep goes on in another block."""
    columns = 2 if len(rows) > MANY else 1
    room = (width - GUTTER * (columns - 1)) / columns
    place = _Places.of(rows, room, columns == 2)
    blocks = []
    for start, stop in _pieces([_row(0, row, place, rows[n - 1] if n else None)[1] for n, row in enumerate(rows)], columns):
        items: list[Item] = []
        top = 0.0
        if start:
            items.append(Label(0, 0, f"{stick_id}, its cuts from {start + 1} on", SMALL, "start", "top"))
            top = PITCH * SMALL + 1.0
        low = top
        half = (stop - start + columns - 1) // columns
        for column in range(columns):
            y, before = top, None
            for number in range(start + column * half, min(stop, start + (column + 1) * half)):
                group, deep = _row(number + 1, rows[number], place, before)
                items += move(group, column * (room + GUTTER), -y)
                y, before = y + deep, rows[number]
            low = max(low, y)
        blocks.append((tuple(items), low))
    return blocks


def _pieces(deep: Sequence[float], columns: int) -> list[tuple[int, int]]:
    """From which row to which a block goes."""
    found, start = [], 0
    while start < len(deep):
        stop = start + 1
        while stop < len(deep) and sum(deep[start : stop + 1]) <= DEEPEST * columns:
            stop += 1
        found.append((start, stop))
        start = stop
    return found


@dataclass(frozen=True)
class _Places:
    """Where the columns of a list are [mm], and whether its words are brief."""

    width: float
    figure: float
    brief: bool

    @classmethod
    def of(cls, rows: Sequence[CutRow], width: float, brief: bool) -> _Places:
        figure = max((text_width(row.line, FIGURE) for row in rows), default=0.0)
        return cls(width, min(96.0, width - figure - (6.0 if brief else 18.0)), brief)


def _row(number: int, row: CutRow, place: _Places, before: CutRow | None) -> Block:
    """One row, from its upper left corner: what is cut, its line, the clamp sign; below what is minded, where the row ``before`` does not say it."""
    items: list[Item] = []
    width, y = place.width, 0.0
    if row.head:
        text, y = block(0, -1.0, row.head, width)
        items += text
        y -= 0.8
    items.append(box(0.3, y - 4.2, TICK, TICK))
    items.append(Label(9, y - 1.4, str(number), SMALL, "end", "top"))
    room = place.figure - 12.0
    words = row.what
    if row.name and not place.brief:
        words = f"{shortened(row.name, room - text_width(f'  {row.what}', SMALL), SMALL)}  {row.what}"
    items.append(Label(11, y - 1.4, shortened(words, room, SMALL), SMALL, "start", "top"))
    items.append(Label(place.figure, y - 0.7, row.line, FIGURE, "start", "top"))
    new = before is None or row.head or (row.name, row.minded) != (before.name, before.minded)
    said = list(row.brief if place.brief else row.minded) if new else []
    if row.clamp:
        items += warning_sign(width - (4.4 if place.brief else 16.5), y - 4.2, 3.2)
        items.append(Label(width, y - 1.4, "" if place.brief else "clamp", SMALL, "end", "top"))
        if new or row.clamp != before.clamp:  # type: ignore[union-attr]
            said.append(row.clamp_brief if place.brief else row.clamp)
    if row.set_up and place.brief:
        said.append(row.set_up_brief)
    y -= HIGH
    for line in (*wrapped("; ".join(said), width - 11, SMALL), *wrapped("" if place.brief else row.set_up, width - 11, SMALL)):
        items.append(Label(11, y - 0.4, line, SMALL, "start", "top"))
        y -= 1.5 * SMALL
    y -= 0.4
    items.append(Line(0, y, width, y, "narrow"))
    return tuple(item for item in items if not isinstance(item, Label) or item.text), -y
