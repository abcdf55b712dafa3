"""The pictures of the builder's bench by the words on their buttons, each drawn from a part, a shop and a rack.

>>> from anglelib.lessons.demo import demo_part, demo_rack
>>> draw("saw", demo_part("C1L"), Shop(), demo_rack()).title
'How the angle sits at the saw'
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from anglelib.drawing.area_along import area_sheet
from anglelib.drawing.edges_view import edges_sheet
from anglelib.drawing.frame import wrap
from anglelib.drawing.part_sheet import part_sheet
from anglelib.drawing.section_view import section_sheet
from anglelib.drawing.sheet import Label, Sheet, move, scale
from anglelib.drawing.sheets import inner_sheet, outer_sheet
from anglelib.drawing.stock_sheets import candidates_sheet, near
from anglelib.errors import BenchError
from anglelib.geometry.setup import square_cut, taper_cut
from anglelib.geometry.taper import taper_lines
from anglelib.job import Shop
from anglelib.lengths import exact
from anglelib.lessons.bench_facts import stick_for
from anglelib.paper.page import LETTER
from anglelib.paper.stance import square_picture, taper_picture
from anglelib.paper.template import template_pages
from anglelib.part import Part
from anglelib.stock.rack import Rack, Stick

MOST_STICKS = 9


def _bare(sheet: Sheet, few: bool) -> Sheet:
    """The same sheet; on a projector its figures are for the page beside it, so only the metal is drawn."""
    if not few:
        return sheet
    kept = tuple(item for item in sheet.items if not isinstance(item, Label))
    return Sheet(sheet.width, sheet.height, kept, sheet.title, sheet.sentence)


def _edges(part: Part, shop: Shop, rack: Rack, few: bool) -> Sheet:
    return edges_sheet(part, few=few)


def _marks(leg: str) -> Callable[..., Sheet]:
    def face(part: Part, shop: Shop, rack: Rack, few: bool) -> Sheet:
        return _bare(outer_sheet(part, leg, stage="layout", shop=shop), few)

    return face


def _inside(part: Part, shop: Shop, rack: Rack, few: bool) -> Sheet:
    lines = taper_lines(part)
    return _bare(inner_sheet(part, lines[0].leg if lines else "A", shop=shop), few)


def _along(part: Part, shop: Shop, rack: Rack, few: bool) -> Sheet:
    return area_sheet(part, few=few)


def _saw(part: Part, shop: Shop, rack: Rack, few: bool) -> Sheet:
    """How the angle sits for a square cut and for at most two tapers, with the saw's settings."""
    lines = taper_lines(part)[:2]
    square = square_cut(part.section)
    columns: list[tuple[Any, str, str]] = [(square_picture(square, part.section), "square cuts", square.words)]
    for line in lines:
        setup = taper_cut(line)
        columns.append((taper_picture(setup, line), f"leg {line.leg}, end {line.end}: {line.angle:.1f}°", f"{line.from_square:.1f}° from square; {setup.words}"))
    items: list[Any] = []
    for number, (picture, title, words) in enumerate(columns):
        x = 30.0 + 72 * number
        items += move(scale(tuple(i for i in picture if not few or not isinstance(i, Label)), 1.35), x, 24)
        items.append(Label(x - 24, 84, title, 3.5, "start", "top"))
        if not few:
            items += [Label(x - 24, 77 - 4.4 * n, row, 2.5, "start", "top") for n, row in enumerate(wrap(words, 66, 2.5))]
    said = "; ".join(f"{title}, {words}" for _, title, words in columns)
    return Sheet(220, 88, tuple(items), "How the angle sits at the saw", f"{part.name} ({part.id}), seen along the heel. {said}.")


def _shelf(part: Part, rack: Rack) -> list[Stick]:
    """The sticks that could be taken for one that serves, the shortest first, as many as a picture bears."""
    return sorted((stick for stick in rack.sticks if near(stick, part)), key=lambda stick: (stick.length, stick.id))


def _stick(part: Part, shop: Shop, rack: Rack, few: bool) -> Sheet:
    now, sticks = stick_for(part, shop, rack), _shelf(part, rack)
    if not sticks:
        sheet = section_sheet(part.section)
        return Sheet(sheet.width, sheet.height, _bare(sheet, few).items, "Which stick", f"The section that is wanted, {part.section.size}. {now.sentence}")
    chosen = [stick for stick in sticks if now.stick == stick]
    shown = sorted([*chosen, *(s for s in sticks if s not in chosen)][:MOST_STICKS], key=sticks.index)
    return candidates_sheet(shown, part, shop, now, few=few)


VIEWS: dict[str, Callable[..., Sheet]] = {
    "edges": _edges,
    "marks on A": _marks("A"),
    "marks on B": _marks("B"),
    "inside": _inside,
    "section along x": _along,
    "saw": _saw,
    "stick": _stick,
}
"""Pictures that follow a slider."""


def draw(view: str, part: Part, shop: Shop, rack: Rack, *, few: bool = False) -> Sheet:
    """One of the pictures."""
    return VIEWS[view](part, shop, rack, few)


def whole_sheet(part: Part, shop: Shop) -> list[Sheet]:
    """All that is needed to make the part, on one sheet."""
    return [part_sheet(part, stage="layout", shop=shop)]


def templates(part: Part, shop: Shop) -> list[Sheet]:
    """The fold sheets as they will be printed; raises BenchError where the part needs none."""
    pages = template_pages(part, shop, LETTER)
    if not pages:
        raise BenchError(f"{part.name} has no taper, cope, rounded corner or hole within reach of a fold sheet: measure along the heel, {exact(part.length)}.")
    return [page.sheet(LETTER, "preview", "not for the bench", n, len(pages)) for n, page in enumerate(pages, 1)]


HEAVY: dict[str, Callable[[Part, Shop], list[Sheet]]] = {"Whole sheet": whole_sheet, "Fold sheets": templates}
"""Pictures that are made on demand: they take longer than a slider may."""
