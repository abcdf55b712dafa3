"""A template at 1:1 of each tapered end: paper for the outside, and its twin for the inside.

The outside sheet is folded along the heel and lies on both outer faces; the inside sheet is pressed
into the fillet. Both carry the finished line (the edge of its ink next to the part is the dimension),
the metal to sand, and the saw's band on the waste side. Only the tapered end is drawn; what is longer
than the page runs over several, with marks that match. Every page has bars to check the print by.

>>> from anglelib.job import Shop
>>> from anglelib.paper.page import A4
>>> from anglelib.part import Part, Taper
>>> from anglelib.section import Section
>>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
>>> bracket = Part("C1L", "Bracket", stock, "6061-T6", "4 3/4", tapers=[Taper("A", 1, run="2 1/8")])
>>> [page.title for page in template_pages(bracket, 1, Shop(), A4)]
['Template of Bracket, end 1']
"""

from __future__ import annotations

import math

from anglelib.drawing.letters import text_width
from anglelib.drawing.sheet import Group, Hatch, Item, Label, move, polygon
from anglelib.drawing.style import NARROW
from anglelib.drawing.symbols import check_bar
from anglelib.geometry.taper import taper_lines
from anglelib.job import Shop
from anglelib.lengths import both
from anglelib.paper.page import FIGURE, SMALL, Page, Paper, block, fitting, shortened
from anglelib.paper.strip import INCH, TILE, ink, reach
from anglelib.paper.strip_figures import WrittenStrip
from anglelib.part import Part

SIDE = 42.0
"""Room beside the tapered end for figures [mm]."""
BARS = 14.0
"""Room for the check bars [mm]."""


def tapered_ends(part: Part) -> tuple[int, ...]:
    """The ends that have a taper, end 1 first."""
    return tuple(sorted({taper.end for taper in part.tapers}))


def template_pages(part: Part, end: int, shop: Shop, on: Paper) -> list[Page]:
    """The pages of one tapered end's template: one, or more where the run is longer than a page."""
    whole = reach(part, end)
    windows = _windows(whole * INCH)
    pages: list[Page] = []
    for number, (low, high) in enumerate(windows, 1):
        piece = f"piece {number} of {len(windows)}" if len(windows) > 1 else ""
        sheets = [_sheet(part, end, shop, inner, low / INCH, high / INCH, on) for inner in (False, True)]
        top, items = _head(part, end, shop, on, piece)
        floor = on.bottom + BARS + 2
        (outer, outer_deep), (inner, inner_deep) = sheets
        if top - outer_deep - inner_deep >= floor:
            spare = min((top - outer_deep - inner_deep - floor) / 3, 10.0)
            drawn = move(outer, 0, top - spare) + move(inner, 0, top - 2 * spare - outer_deep)
            pages.append(_page(part, end, items + drawn + _bars(on), piece, "outside and inside"))
        else:
            pages.append(_page(part, end, items + move(outer, 0, top) + _bars(on), piece, "outside"))
            pages.append(_page(part, end, items + move(inner, 0, top) + _bars(on), piece, "inside"))
    return pages


def _windows(long: float) -> list[tuple[float, float]]:
    """The stretches along the heel that the pages show [mm], all of one length."""
    count = math.ceil(long / TILE - 1e-9)
    return [(long * i / count, long * (i + 1) / count) for i in range(count)]


def _page(part: Part, end: int, items: Group, piece: str, faces: str) -> Page:
    lines = [line for line in taper_lines(part) if line.end == end]
    words = "; ".join(
        f"leg {line.leg} tapered over a run of {both(line.run, 64, 'down')} to "
        + (f"a width left of {both(line.width_left, 64, 'up')}" if line.width_left else "the vertex")
        for line in lines
    )
    title = f"Template of {part.name}, end {end}" + (f", {piece}" if piece else "")
    sentence = f"Template at 1:1 of the {faces} of {part.name} ({part.id}), end {end}: {words}."
    return Page(title, sentence, items, f"Template {part.id}, end {end}")


def _head(part: Part, end: int, shop: Shop, on: Paper, piece: str) -> tuple[float, Group]:
    """Name, what it is, how it is used, the key; and the height below it."""
    name, letter = fitting(part.name, on.room - 60)
    y = on.top
    items: list[Item] = [Label(on.left, y, name, letter, "start", "top")]
    items.append(Label(on.right, y, f"template 1:1, end {end}", FIGURE, "end", "top"))
    if piece:
        items.append(Label(on.right, y - 6, piece, FIGURE, "end", "top"))
    y -= 11
    hand = f", hand: {part.hand}" if part.hand else ""
    facts = f"{part.id}, {part.quantity} off{hand}, section {part.section.size}, {part.alloy}"
    items.append(Label(on.left, y, shortened(facts, on.room, SMALL), SMALL, "start", "top"))
    y -= 6
    how = (
        f"Cut the paper at its edges. Outside: fold on the heel, print outwards, end edge on the squared end {end}. Inside: "
        "press into the fillet, print towards you. Saw in the band, sand to the line: the edge of the ink next to the part "
        "is the dimension. Widths are from the heel; fractions are rounded so that metal is left. Print at actual size and measure the bars first."
    )
    text, y = block(on.left, y, how, on.room)
    items += text
    items += _key(on.left, y - 4.2, shop)
    return y - 8, tuple(items)


def _key(x: float, y: float, shop: Shop) -> Group:
    """What the lines are, in one row; x, y is its lower left corner."""
    items: list[Item] = [polygon(((x, y + 1), (x + 9, y + 1), (x + 9, y + 1 + NARROW), (x, y + 1 + NARROW)), "", "accent")]
    items.append(Label(x + 11, y, "finished line", SMALL, "start"))
    at = x + 38
    if shop.allowance:
        patch = ((at, y), (at + 9, y), (at + 9, y + 2.5), (at, y + 2.5))
        text = f"metal to sand, {both(shop.allowance)}"
        items += [Hatch(patch, 45, 1.2), polygon(patch, "cut"), Label(at + 11, y, text, SMALL, "start")]
        at += 15 + text_width(text, SMALL)
    if shop.kerf:
        items += [
            polygon(((at, y), (at + 9, y), (at + 9, y + 2.5), (at, y + 2.5)), "cut", "paper"),
            Label(at + 11, y, f"saw, kerf {both(shop.kerf)}", SMALL, "start"),
        ]
    return tuple(items)


def _bars(on: Paper) -> Group:
    """The check bars: two across the page, one up its edge, for a printer that stretches one way only."""
    wide, x, y = 2.0, on.right, on.bottom

    items = [
        ink(x - wide, y, x - wide + 0.25, y + 100),
        ink(x - 0.25, y, x, y + 100),
        ink(x - wide, y, x, y + 0.25),
        ink(x - wide, y + 99.75, x, y + 100),
    ]
    items += [ink(x - wide, y + 10 * i, x, y + 10 * (i + 1)) for i in range(0, 10, 2)]
    items.append(Label(x - wide - 1, y + 50, "this bar is 100 mm too", SMALL, "middle", "bottom", 90))
    return (*check_bar(on.left, y), *items)


def _sheet(part: Part, end: int, shop: Shop, inner: bool, low: float, high: float, on: Paper) -> tuple[Group, float]:
    """One unrolled sheet with its top at y = 0, and how deep it is with its figures [mm]."""
    x0 = on.left + SIDE if end == 1 else on.right - SIDE - 8
    strip = WrittenStrip(part, end, shop, inner, x0, 0.0, low, high)
    upper, lower = ("A", "B") if inner else ("B", "A")
    left, right = on.left, on.right - 8  # the upright bar and its words stand at the right
    high_up = strip.at(0, strip.edge(upper))[1] + strip.head(left, right)
    bottom = strip.at(0, strip.edge(lower))[1] - strip.depth(lower)
    drawn = strip.draw() + strip.figures(left, right)
    return move(drawn, 0, -high_up), high_up - bottom
