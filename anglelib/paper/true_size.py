"""A page whose drawings are laid on the metal: its title strip, its blocks down the page, its check bars."""

from __future__ import annotations

from collections.abc import Sequence

from anglelib.drawing.sheet import Group, Item, Label, move
from anglelib.lengths import apart, exact
from anglelib.paper.page import FIGURE, SMALL, Block, Page, Paper, block, fitting, shortened
from anglelib.paper.print_scale import PrintScale, bars, corrected
from anglelib.part import Part

BARS = 14.0
"""Room for the check bars [mm]."""
GAP = 3.0
"""Least room between blocks [mm]."""
EDGE = 9.0
"""What the upright bar and its words take at the right [mm]."""


def room(on: Paper) -> float:
    """Breadth that a drawing may take [mm]."""
    return on.right - EDGE - on.left


def title_strip(part: Part, what: str, how: str, on: Paper, scale: PrintScale) -> tuple[float, Group]:
    """Name, what the page is, the part's facts, how it is used; and the height below it [mm]."""
    name, letter = fitting(part.name, on.room - 60)
    y = on.top
    items: list[Item] = [Label(on.left, y, name, letter, "start", "top")]
    items.append(Label(on.right, y, f"{what}, 1:1", FIGURE, "end", "top"))
    y -= 11
    hand = f", hand: {part.hand}" if part.hand else ""
    facts = f"{part.id}, {part.quantity} off{hand}, section {part.section.size}, {part.alloy}, {exact(part.length)} long{f'; {apart()}' if apart() else ''}"
    items.append(Label(on.left, y, shortened(facts, on.room, SMALL), SMALL, "start", "top"))
    y -= 6
    text, y = block(on.left, y, how, on.room)
    items += text
    if scale.words:
        text, y = block(on.left, y, scale.words, on.room, accent=True)
        items += text
    return y, tuple(items)


def true_size_pages(part: Part, what: str, sentence: str, head: Group, top: float, units: Sequence[Sequence[Block]], on: Paper, scale: PrintScale) -> list[Page]:
    """Blocks below a title strip, down as many pages as they need, each page with its bars and drawn for the printer.

    The blocks of a unit are kept on one page where they fit on one.
    """
    floor = on.bottom + BARS
    groups: list[list[Block]] = []
    y = 0.0
    for unit in units:
        whole = sum(deep + GAP for _, deep in unit) - GAP
        if y - whole < floor <= top - whole:
            y = floor  # the next page
        for items, deep in unit:
            if not groups or y - deep < floor:
                groups.append([])
                y = top
            groups[-1].append((items, deep))
            y -= deep + GAP
    pages = []
    for number, placed in enumerate(groups, 1):
        spare = min((top - floor - sum(deep for _, deep in placed)) / (len(placed) + 1), 10.0)
        drawn: list[Item] = [*head]
        y = top - spare
        for items, deep in placed:
            drawn += move(items, 0, y)
            y -= deep + spare
        count = f", sheet {number} of {len(groups)}" if len(groups) > 1 else ""
        if count:
            drawn.append(Label(on.right, on.top - 6, count[2:], FIGURE, "end", "top"))
        bookmark = f"{what.capitalize()} {part.id}" if number == 1 else ""
        page = Page(f"{what.capitalize()} of {part.name}{count}", sentence + count.replace(", sheet", " Sheet"), (*drawn, *bars(on)), bookmark)
        pages.append(corrected(page, scale, on))
    return pages
