"""The holes of a part on its card: the edge distance of each, as drawn and at the worst of the limits, and what is warned of.

What is warned of is always there, and without a warning the worst hole; the other holes where there is room.

>>> from anglelib.part import Hole, Part
>>> from anglelib.section import Section
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> clip = Part("P1", "Clip", stock, "6061-T6", 3, holes=[Hole("A", 1, "7/16", "1/8"), Hole("B", "5/8", "17/32", "1/8")])
>>> said = holes_said(clip, Limits(), 190)
>>> for item in said.brief[0]:
...     if isinstance(item, Label): print(item.text)
Hole B at 5/8: 1.75 D to the toe, 1.63 D at the limits: under 2 D; the plans decide.
Rules for rivets (US Army AL0992, Rivet Spacing and Edge Distance); a bolt's may differ.
>>> said.full[1] > said.brief[1] > 0
True
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from anglelib.drawing.letters import text_width
from anglelib.drawing.sheet import Group, Item, Label, move
from anglelib.geometry.hole_check import EDGE, EDGE_AT_LIMITS, hole_edges, hole_warnings
from anglelib.geometry.hole_words import edge_lines, in_figures, rules_words, warning_lines
from anglelib.geometry.layout import witness_line
from anglelib.geometry.work import reading_from_datum
from anglelib.lengths import both, exact, head, own, unit_in_head
from anglelib.paper.page import SMALL, Block, block, warning_sign
from anglelib.part import Part
from anglelib.tolerances import Limits

NAMED = "Holes are named by their place from end 1, as the plans have them."
"""Said where the card measures from the witness line."""
_ROW = 3.8
_BELOW = 0.9
"""White below a last line that is nobody's [mm]."""


class HolesSaid(NamedTuple):
    """What a card says of its holes: what it always says, and with every hole."""

    brief: Block
    full: Block

    def fitting(self, spare: float) -> Block:
        """Every hole, where so many millimetres more are there for it."""
        return self.full if self.full[1] - self.brief[1] <= spare else self.brief


NOTHING = HolesSaid(((), 0.0), ((), 0.0))


def holes_said(part: Part, limits: Limits, width: float) -> HolesSaid:
    """What is said of a part's holes, so wide [mm]."""
    if not part.holes:
        return NOTHING
    short = {number for one in hole_warnings(part, limits) if one.id in (EDGE, EDGE_AT_LIMITS) for number in one.holes}
    others = edge_lines(part, limits, without=short)
    if short:  # their warnings have said so already
        first, full = "", f"Other holes, edge distance in diameters D: {'; '.join(others)}." if others else ""
    else:
        worst = "Worst edge" if len(others) > 1 else "Edge"
        first, full = f"{worst} distance, in diameters D: {others[0]}.", f"Edge distance in diameters D, the worst first: {'; '.join(others)}."
        full = full if len(others) > 1 else first
    return HolesSaid(*(_laid(part, limits, width, line) for line in (first, full)))


def _laid(part: Part, limits: Limits, width: float, line: str) -> Block:
    named = NAMED if witness_line(part) is not None else ""
    drawn, y = _stacked([*_warned(part, limits, width), *_paragraphs(width, f"{line} {named}".strip())])
    return drawn, -y - _BELOW


def _warned(part: Part, limits: Limits, width: float) -> list[Block]:
    """What is warned of, each with its sign, and whose rules those are."""
    blocks = []
    for words in warning_lines(part, limits):
        text, low = block(4.6, 0, f"{words[0].upper()}{words[1:]}.", width - 4.6)
        blocks.append(((*warning_sign(0, -2.9, 3.0), *text), 0.3 - low))
    return blocks + _paragraphs(width, rules_words([part], limits))


def _paragraphs(width: float, *texts: str) -> list[Block]:
    laid = (block(0, 0, words, width) for words in texts if words)
    return [(items, -low) for items, low in laid]


def _stacked(blocks: Sequence[Block]) -> tuple[Group, float]:
    """Blocks under one another, and the y below them."""
    drawn: list[Item] = []
    y = 0.0
    for items, deep in blocks:
        drawn += move(items, 0, y)
        y -= deep
    return tuple(drawn), y


# --- where the drawing has no room for the holes ------------------------------------------------------------
def hole_list(part: Part, limits: Limits, width: float, pictured: bool) -> Block:
    """The holes in words, in columns, where the drawing has no room for their figures or the page none for the drawing."""
    blocks = [] if pictured else no_drawing(part, width)
    if part.holes:
        introduced, words, columns = _listed(part, limits, width)
        rows = -(-len(words) // columns)
        items = (Label((i // rows) * width / columns, -(i % rows) * _ROW, said, SMALL, "start", "top") for i, said in enumerate(words))
        blocks += [*_paragraphs(width, introduced), (tuple(items), rows * _ROW)]
    drawn, low = _stacked(blocks)
    return drawn, -low


def hole_sheets(part: Part, limits: Limits, width: float, height: float) -> list[Group]:
    """All that is said of the holes, on as many sheets of their own as it needs, each so high [mm]: for a part with more of them than a card holds."""
    introduced, words, columns = _listed(part, limits, width)
    rows = [words[i : i + columns] for i in range(0, len(words), columns)]
    listed: list[Block] = [(tuple(Label(i * width / columns, 0, said, SMALL, "start", "top") for i, said in enumerate(row)), _ROW) for row in rows]
    sheets: list[list[Block]] = [[]]
    for one in (*_warned(part, limits, width), *_paragraphs(width, introduced), *listed):
        if sum(deep for _, deep in sheets[-1]) + one[1] > height:
            sheets.append([])
        sheets[-1].append(one)
    return [_stacked(blocks)[0] for blocks in sheets]


def _listed(part: Part, limits: Limits, width: float) -> tuple[str, list[str], int]:
    """What stands over the list, its entries, and in how many columns they find room."""
    named = witness_line(part) is not None
    places = f"x from {'the witness line' if named else 'end 1'}, y from the heel, fastener"
    introduced = f"Holes: {head(places)}; edge distance in diameters, as drawn and at the limits."
    words = []
    for one in sorted(hole_edges(part, limits), key=lambda one: (one.hole.leg, one.hole.x, one.hole.y)):
        hole = one.hole
        with unit_in_head():
            x = reading_from_datum(part, hole.x)[1]
            name = f"{hole.leg} at {exact(hole.x)}" if named else hole.leg
            words.append(f"{name}: {x}; {both(hole.y)}; {own(hole.diameter)}{' flush' if hole.flush else ''}; {in_figures(one)}")
    return introduced, words, max(1, min(3, int(width / (max(text_width(text, SMALL) for text in words) + 1.5))))


def no_drawing(part: Part, width: float, holes: str = "") -> list[Block]:
    """That the drawing is missing, where the ends that are cut to a shape are drawn, and where its holes are (``holes``)."""
    where = [words for words, there in (("its cut ends are on its templates", part.tapers or part.copes or part.corners), (holes, holes)) if there]
    return _paragraphs(width, f"There is more on this part than a card has room to draw{': ' if where else ''}{', '.join(where)}.")
