"""The fold sheet of a part at 1:1, and its inside twin: paper that lies on the metal and shows the cut.

The outside sheet is folded along the heel and lies on both outer faces; the inside sheet is pressed
into the fillet and taped. Both carry the finished line (the edge of its ink next to the part is the
dimension), the metal to sand, the saw's band, the waste, the holes. Stretches with nothing to mark are
left out; what is longer than a page is tiled. Every page has bars to check the print by.

>>> from anglelib.job import Shop
>>> from anglelib.paper.page import A4
>>> from anglelib.part import Part, Taper
>>> from anglelib.section import Section
>>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
>>> bracket = Part("C1L", "Bracket", stock, "6061-T6", "4 3/4", tapers=[Taper("A", 1, run="2 1/8")])
>>> [page.title for page in template_pages(bracket, Shop(), A4)]
['Fold sheet of Bracket']
>>> template_pages(Part("A3", "Bar", stock, "6061-T6", 38), Shop(), A4)
[]
"""

from __future__ import annotations

from collections.abc import Sequence

from anglelib.drawing.checks import bounds
from anglelib.drawing.sheet import Item, move
from anglelib.geometry.taper import taper_lines
from anglelib.geometry.throat import shop_for_cope
from anglelib.job import Shop
from anglelib.lengths import both, exact, own, spoken, writing
from anglelib.paper.fold_figures import WrittenFold, exactly
from anglelib.paper.fold_strip import TICKS
from anglelib.paper.page import Block, Page, Paper
from anglelib.paper.print_scale import AS_PRINTED, PrintScale
from anglelib.paper.template_key import key
from anglelib.paper.tiles import Tile, in_rows, marked, sides, tiles
from anglelib.paper.true_size import room, title_strip, true_size_pages
from anglelib.part import Part
from anglelib.tolerances import Limits

HOW = (
    "Cut the paper at its edges, tiles pasted up first: flap under the next, letters matching, ticks {apart} apart. Outside: fold on the heel, "
    "print outwards, glue. Inside: press into the fillet, print towards you, tape. Set the end edge on the squared end. Saw in the band, sand to the line: "
    "the edge of the ink next to the part is the dimension. Widths are from the heel."
)
MILLIMETRES = " Figures are in millimetres."


def template_pages(
    part: Part, shop: Shop, on: Paper, *, limits: Limits | None = None, scale: PrintScale = AS_PRINTED, whole: bool = False
) -> list[Page]:
    """The pages of a part's fold sheet and its inside twin; none where nothing on the part needs one.

    ``limits`` are the job's, by which a mark is written full or bare (else those usual for the part's unit); ``whole`` draws
    the bare stretches too; ``scale`` is what the printer was measured to do.
    """
    with writing(part.unit):
        return _template_pages(part, shop, on, limits or Limits.usual(part.unit), scale, whole)


def _template_pages(part: Part, shop: Shop, on: Paper, limits: Limits, scale: PrintScale, whole: bool) -> list[Page]:
    if not marked(part):
        return []
    laid = tiles(part, room(on), whole)
    rows = in_rows(part, laid, room(on))
    units = [[_block(part, shop, limits, inner, row, on) for inner in (False, True)] for row in rows]
    how = HOW.format(apart=spoken(2 * TICKS[part.unit])) + (MILLIMETRES if part.unit == "mm" else "")
    y, head = title_strip(part, "fold sheet", how + _coped(part, shop) + _left_out(part, laid), on, scale)
    head += key(on.left, y - 4.4, shop)
    return true_size_pages(part, "fold sheet", _sentence(part), head, y - 7, units, on, scale)


def _block(part: Part, shop: Shop, limits: Limits, inner: bool, row: Sequence[tuple[Tile, float]], on: Paper) -> Block:
    """A row of tiles of one sheet with its top at 0."""
    items: list[Item] = []
    left = on.left
    for number, (tile, wide) in enumerate(row, 1):
        right = left + wide if number < len(row) else on.left + room(on)
        items += WrittenFold(part, shop, inner, tile, left + sides(part, tile.low, tile.high)[0], left, right, limits).items()
        left = right
    _, bottom, _, top = bounds(items)
    return move(items, 0, -top), top - bottom


def _sentence(part: Part) -> str:
    words = [
        f"leg {line.leg} tapered at end {line.end} over a run of {both(line.run)} to "
        + (f"a width left of {both(line.width_left)}" if line.width_left else "the vertex")
        for line in taper_lines(part)
    ]
    words += [f"leg {cope.leg} coped at end {cope.end}, {exact(cope.length)} long" for cope in part.copes]
    words += [f"leg {corner.leg} rounded at end {corner.end}, radius {exact(corner.radius)}" for corner in part.corners]
    if part.holes:
        words.append(f"{len(part.holes)} hole{'' if len(part.holes) == 1 else 's'}")
    return f"Fold sheet at 1:1 of {part.name} ({part.id}), outside and inside: {'; '.join(words)}."


def _coped(part: Part, shop: Shop) -> str:
    """Where the saw runs at a cope, which is drawn without a band: as its card says."""
    if not part.copes or not shop.allowance:
        return ""
    off = {shop_for_cope(cope, part, shop).allowance for cope in part.copes}
    if off != {shop.allowance}:  # some of them are rough cuts
        return f" A cope has no band: saw it {own(shop.allowance)} outside its line, by hacksaw {own(max(off))}, to the drilled corner, and file to the line."
    return f" A cope has no band: saw it {own(shop.allowance)} outside its line, to the drilled corner, and file to the line."


def _left_out(part: Part, laid: Sequence[Tile]) -> str:
    """Which bare stretches are not drawn."""
    gaps = []
    at = 0.0
    for tile in laid:
        if tile.low > at + 1e-9:
            gaps.append((at, tile.low))
        at = tile.high
    if at < float(part.length) - 1e-9:
        gaps.append((at, float(part.length)))
    if not gaps:
        return ""
    words = ", ".join(f"{exact(exactly(low))} to {exact(exactly(high))}" for low, high in gaps)
    return f" Nothing is marked from {words}; that is left out."
