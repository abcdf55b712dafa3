"""The marks on a card, in the order of striking: on which face, from what, where the finished and the saw line lie.

>>> from anglelib.geometry.work import operations
>>> from anglelib.job import Shop
>>> from anglelib.part import Taper
>>> from anglelib.section import Section
>>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
>>> bracket = Part("C1L", "Bracket", stock, "6061-T6", "4 3/4", tapers=[Taper("A", 1, run="2 1/8")])
>>> for row in mark_rows(operations(bracket, Shop())):
...     print(row.mark.kind, row.ends, row.mark.wanted)
witness (1,) 5/2
run (1,) 17/8
first-flat (1,) 17/40
vertex (1,) 17/80
length (2,) 9/4
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from anglelib.drawing.letters import text_width
from anglelib.drawing.sheet import Line
from anglelib.geometry import layout
from anglelib.geometry.layout import Mark, plan_line
from anglelib.geometry.mark_words import face_words, name, off, origin, saw_written, written
from anglelib.geometry.rough_words import ROUGH
from anglelib.geometry.work import Operation
from anglelib.geometry.work_words import long_blank
from anglelib.job import Shop
from anglelib.lengths import both, given, head, marked, own, unit_in_head
from anglelib.paper.card_room import Room
from anglelib.paper.page import FIGURE, SMALL, Block, Column, block, heading, table
from anglelib.part import Part
from anglelib.tolerances import Limits

BOTH_ENDS = (1, 2)


@dataclass(frozen=True)
class MarkRow:
    """A row of the marks: a mark, and the ends that it is struck at alike."""

    mark: Mark
    ends: tuple[int, ...]


def mark_rows(steps: Sequence[Operation]) -> list[MarkRow]:
    """The marks of the steps in order; what is struck alike at both ends is one row."""
    found: dict[tuple, list[int]] = {}
    marks: dict[tuple, Mark] = {}
    for step in steps:
        for mark in step.marks:
            alone = mark.kind in (layout.LENGTH, layout.WITNESS)
            key = (mark.kind, mark.face, mark.wanted, mark.y, mark.saw, mark.radius, mark.leg, mark.end if alone else 0)
            marks.setdefault(key, mark)
            found.setdefault(key, []).append(mark.end)
    return [MarkRow(marks[key], tuple(ends)) for key, ends in found.items()]


def from_words(row: MarkRow) -> str:
    """What a row is measured from, in words."""
    mark = row.mark
    if len(row.ends) == 1:
        return origin(mark)
    return "heel, at both ends" if mark.across else "end 1, end 2"


def marks_block(part: Part, shop: Shop, limits: Limits, steps: Sequence[Operation], width: float, room: Room) -> Block:
    """The marks as a table under a line that says how they are meant."""
    found = mark_rows(steps)
    with unit_in_head():
        rows = [
            [str(number), name(row.mark), face_words(row.mark.face), from_words(row), written(row.mark, limits), saw_written(row.mark, limits)]
            for number, row in enumerate(found, 1)
        ]
    first = 8.0
    heads = head("finished line"), head("saw line")
    figure = max(*(text_width(text, room.figure) for row in rows for text in row[4:]), *(text_width(text, SMALL) for text in heads)) + 2.4
    rest = width - first - 2 * figure
    columns = [
        Column("", first, SMALL, "middle"),
        Column("mark", 0.40 * rest),
        Column("on", 0.33 * rest),
        Column("from", 0.27 * rest),
        *(Column(text, figure, room.figure) for text in heads),
    ]
    title = "Marks"
    items, y = heading(0, 0, title, width)
    at = text_width(title, FIGURE) + 6
    text, low = block(at, 0, how_meant(part, shop, limits, found), width - at)
    rule = min(y, low - 0.4)
    drawn, y = table(0, rule, columns, rows, pad=room.pad)
    return (items[0], Line(0, rule, width, rule, "narrow"), *text, *drawn), -y


def how_meant(part: Part, shop: Shop, limits: Limits, found: Sequence[MarkRow]) -> str:
    """How the marks are meant: where the saw runs, what full and bare say, which of the plan's lines the cut to length is."""
    saw = f"{given(shop.allowance)} outside the line, sand to it" if shop.allowance else "along the line, on its waste side"
    words = f"Saw {saw}; kerf {given(shop.kerf)}. The edge of the ink next to the part is the dimension."
    if any(_off_the_rule(row.mark, limits) for row in found):
        words += " Full: a hair beyond the rule's graduation; bare: a hair short of it."
    if shop.allowance:
        words += f" The cut to length is the plan's line, {both(plan_line(part, shop))} from the blank's near end as sawn."
    if long_blank(part, shop):
        words += f" A {ROUGH} there: {own(shop.by_hacksaw.allowance)} outside the finished line instead."
    if part.section.toe_radius and part.tapers:
        words += " The toe is rounded inside: the run goes on the toe's edge, carried to the face that is up."
    return words


def _off_the_rule(mark: Mark, limits: Limits) -> bool:
    """Whether a mark, or its saw line, is written full or bare."""
    allowed = off(mark.wanted, limits)
    return any(value is not None and marked(value, allowed) != marked(value, Fraction(1)) for value in (mark.wanted, mark.saw))
