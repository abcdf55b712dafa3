"""The pictures of the builder's bench by id, each drawn from a part, a shop and a rack.

>>> from anglelib.lessons.demo import demo_part, demo_rack
>>> draw("saw", demo_part("C1L"), Shop(), demo_rack()).title
'How the angle sits at the saw'
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from anglelib.drawing.area_along import area_sheet
from anglelib.drawing.checks import bounds
from anglelib.drawing.edges_view import edges_sheet
from anglelib.drawing.frame import wrap
from anglelib.drawing.part_sheet import part_sheet
from anglelib.drawing.section_view import section_sheet
from anglelib.drawing.sheet import Circle, Item, Label, Polyline, Sheet, move, scale
from anglelib.drawing.sheets import FOOT, inner_sheet, outer_sheet
from anglelib.drawing.stock_sheets import candidates_sheet, near
from anglelib.errors import BenchError
from anglelib.geometry.layout import taper_marks
from anglelib.geometry.mark_words import brief, short_number
from anglelib.geometry.setup import square_cut, taper_cut
from anglelib.geometry.taper import taper_lines
from anglelib.job import Shop
from anglelib.lengths import exact, unit_in_head, unit_word, unit_written, writing
from anglelib.lessons.bench_facts import stick_for
from anglelib.paper.page import LETTER
from anglelib.paper.stance import square_picture, taper_picture
from anglelib.paper.template import template_pages
from anglelib.part import Part, in_its_unit
from anglelib.stock.rack import Rack, Stick
from anglelib.tolerances import Limits

LARGE = 4.0
MOST_STICKS = 9


FEWEST = 6
"""How many lines of words a projector's picture bears."""


def _bare(sheet: Sheet, few: bool, words: Sequence[str] = ()) -> Sheet:
    """The same sheet; on a projector the metal and its lines alone, with a few words under them in large letters."""
    if not few:
        return sheet
    metal = [item for item in sheet.items if not isinstance(item, Label) and not _of_figures(item)]
    left, low, right, high = bounds(metal)
    room = (sheet.width - 12) / (right - left), (sheet.height - 7.0 * len(words) - 12) / (high - low)
    metal = list(scale(metal, min(room)))
    left, low, right, high = bounds(metal)
    items = move(metal, (sheet.width - left - right) / 2, (sheet.height + 7.0 * len(words) - low - high) / 2)
    said = tuple(Label(6, 4 + 7.0 * n, text, LARGE, "start") for n, text in enumerate(reversed(words[:FEWEST])))
    return Sheet(sheet.width, sheet.height, (*items, *said), sheet.title, sheet.sentence)


def _of_figures(item: Item) -> bool:
    """Whether an item belongs to the figures: dimension lines, arrows, the datum's sign, the foot of the sheet."""
    if bounds([item])[3] <= FOOT:
        return True
    kind = getattr(item, "kind", "")
    origin = isinstance(item, Circle) and kind == "dimension"
    sign = isinstance(item, Polyline) and item.closed and len(item.points) == 4 and kind == "narrow" and item.fill == "paper"
    return origin or sign or kind == "dimension" or (kind == "" and getattr(item, "fill", "") in ("ink", "accent"))


def _marked(part: Part, leg: str, shop: Shop, limits: Limits) -> list[str]:
    """The marks of a leg's tapers as a projector's picture says them."""
    found = []
    for line in taper_lines(part):
        if line.leg == leg:
            marks = taper_marks(line, shop)
            said = [f"{brief(m)} {short_number(m.wanted, limits)}" for m in marks]
            found.append(f"leg {leg}, end {line.end}: {', '.join(said)}")
    return found


def _edges(part: Part, shop: Shop, rack: Rack, few: bool, limits: Limits) -> Sheet:
    return edges_sheet(part, few=few)


def _marks(leg: str) -> Callable[..., Sheet]:
    def face(part: Part, shop: Shop, rack: Rack, few: bool, limits: Limits) -> Sheet:
        return _bare(outer_sheet(part, leg, stage="layout", shop=shop), few, _marked(part, leg, shop, limits) or [f"leg {leg}: no taper"])

    return face


def _inside(part: Part, shop: Shop, rack: Rack, few: bool, limits: Limits) -> Sheet:
    lines = taper_lines(part)
    leg = lines[0].leg if lines else "A"
    return _bare(inner_sheet(part, leg, shop=shop), few, [f"leg {leg} and the unrolled fillet, from inside", *_marked(part, leg, shop, limits)])


def _along(part: Part, shop: Shop, rack: Rack, few: bool, limits: Limits) -> Sheet:
    return area_sheet(part, few=few)


def _saw(part: Part, shop: Shop, rack: Rack, few: bool, limits: Limits) -> Sheet:
    """How the angle sits for a square cut and for at most two tapers, with the saw's settings."""
    lines = taper_lines(part)[:2]
    square = square_cut(part.section)
    with unit_in_head():  # a note says it
        pictures = [square_picture(square, part.section), *(taper_picture(taper_cut(line), line) for line in lines)]
    columns: list[tuple[Any, str, str]] = [(pictures[0], "square cuts", square.words)]
    for line, picture in zip(lines, pictures[1:], strict=True):
        setup = taper_cut(line)
        columns.append((picture, f"leg {line.leg}, end {line.end}: {line.angle:.1f}°", f"{line.from_square:.1f}° from square; {setup.words}"))
    items: list[Any] = []
    for number, (picture, title, words) in enumerate(columns):
        x = 30.0 + 72 * number
        items += move(scale(tuple(i for i in picture if not few or not isinstance(i, Label)), 1.35), x, 24)
        items.append(Label(x - 24, 84, title, 3.5, "start", "top"))
        if not few:
            items += [Label(x - 24, 77 - 4.4 * n, row, 2.5, "start", "top") for n, row in enumerate(wrap(words, 66, 2.5))]
    if not few and unit_written() == "mm":
        items.append(Label(6, 2, f"Figures are in {unit_word()}.", 2.5, "start"))
    said = "; ".join(f"{title}, {words}" for _, title, words in columns)
    return Sheet(220, 88, tuple(items), "How the angle sits at the saw", f"{part.name} ({part.id}), seen along the heel. {said}.")


def _shelf(part: Part, rack: Rack) -> list[Stick]:
    """The sticks that could be taken for one that serves, the shortest first, as many as a picture bears."""
    return sorted((stick for stick in rack.sticks if near(stick, part)), key=lambda stick: (stick.length, stick.id))


def _stick(part: Part, shop: Shop, rack: Rack, few: bool, limits: Limits) -> Sheet:
    now, sticks = stick_for(part, shop, rack), _shelf(part, rack)
    if not sticks:
        sheet = section_sheet(part.section)
        return Sheet(sheet.width, sheet.height, _bare(sheet, few, [f"wanted: {part.section.size}"]).items, "Which stick", f"The section that is wanted, {part.section.size}. {now.sentence}")
    chosen = [stick for stick in sticks if now.stick == stick]
    shown = sorted([*chosen, *(s for s in sticks if s not in chosen)][:MOST_STICKS], key=sticks.index)
    return candidates_sheet(shown, part, shop, now, few=few)


VIEWS: dict[str, Callable[..., Sheet]] = {
    "edges": _edges,
    "marks-A": _marks("A"),
    "marks-B": _marks("B"),
    "inside": _inside,
    "section": _along,
    "saw": _saw,
    "stick": _stick,
}
"""Pictures that follow a slider, by id."""
VIEW_WORDS = {
    "edges": "edges", "marks-A": "marks on A", "marks-B": "marks on B", "inside": "inside", "section": "section along x", "saw": "saw", "stick": "stick"
}  # fmt: skip
"""The same in the words on their buttons."""


def draw(view: str, part: Part, shop: Shop, rack: Rack, *, few: bool = False, limits: Limits | None = None) -> Sheet:
    """One of the pictures, in the part's unit; ``limits`` are the job's (else those usual for that unit)."""
    with writing(part.unit):
        return VIEWS[view](part, shop, rack, few, limits or Limits.usual(part.unit))


def whole_sheet(part: Part, shop: Shop, limits: Limits | None = None) -> list[Sheet]:
    """All that is needed to make the part, on one sheet."""
    return [part_sheet(part, stage="layout", shop=shop)]


@in_its_unit
def templates(part: Part, shop: Shop, limits: Limits | None = None) -> list[Sheet]:
    """The fold sheets as they will be printed by the job's ``limits``; raises BenchError where the part needs none."""
    pages = template_pages(part, shop, LETTER, limits=limits)
    if not pages:
        raise BenchError(f"{part.name} has no taper, cope, rounded corner or hole within reach of a fold sheet: measure along the heel, {exact(part.length)}.")
    return [page.sheet(LETTER, "preview", "not for the bench", n, len(pages)) for n, page in enumerate(pages, 1)]


HEAVY: dict[str, Callable[..., list[Sheet]]] = {"sheet": whole_sheet, "fold": templates}
"""Pictures that are made on demand, by id: they take longer than a slider may."""
HEAVY_WORDS = {"sheet": "Whole sheet", "fold": "Fold sheets"}
"""The same in the words on their buttons."""
