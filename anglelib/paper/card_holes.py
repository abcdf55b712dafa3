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

from typing import NamedTuple

from anglelib.drawing.letters import text_width
from anglelib.drawing.sheet import Item, Label
from anglelib.geometry.hole_check import EDGE, EDGE_AT_LIMITS, hole_edges, hole_warnings
from anglelib.geometry.hole_words import edge_lines, in_figures, rules_words, warning_lines
from anglelib.geometry.layout import witness_line
from anglelib.geometry.work import reading_from_datum
from anglelib.lengths import both, exact
from anglelib.paper.page import SMALL, Block, block, warning_sign
from anglelib.part import Part
from anglelib.tolerances import Limits

NAMED = "Holes are named by their place from end 1, as the plans have them."
"""Said where the card measures from the witness line."""
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
    drawn: list[Item] = []
    y = 0.0
    for words in warning_lines(part, limits):
        text, low = block(4.6, y, f"{words[0].upper()}{words[1:]}.", width - 4.6)
        drawn += [*warning_sign(0, y - 2.9, 3.0), *text]
        y = low - 0.3
    named = NAMED if witness_line(part) is not None else ""
    for words in (rules_words([part], limits), f"{line} {named}".strip()):
        text, y = block(0, y, words, width)
        drawn += text
    return tuple(drawn), -y - _BELOW


# --- where the drawing has no room for the holes ------------------------------------------------------------
def hole_list(part: Part, limits: Limits, width: float, pictured: bool) -> Block:
    """The holes in words, in columns, where the drawing has no room for their figures or the page none for the drawing."""
    items, low = ((), 0.0) if pictured else _no_drawing(width)
    if not part.holes:
        return items, low
    named = witness_line(part) is not None
    place = "the witness line" if named else "end 1"
    text, y = block(0, -low, f"Holes: x from {place}, y from the heel, fastener; edge distance in diameters, as drawn and at the limits.", width)
    drawn: list[Item] = [*items, *text]
    words = []
    for one in sorted(hole_edges(part, limits), key=lambda one: (one.hole.leg, one.hole.x, one.hole.y)):
        hole = one.hole
        x = reading_from_datum(part, hole.x)[1]
        name = f"{hole.leg} at {exact(hole.x)}" if named else hole.leg
        words.append(f"{name}: {x}; {both(hole.y)}; {exact(hole.diameter)}{' flush' if hole.flush else ''}; {in_figures(one)}")
    columns = max(1, min(3, int(width / (max(text_width(text, SMALL) for text in words) + 3))))
    rows = -(-len(words) // columns)
    for i, said in enumerate(words):
        x0 = (i // rows) * width / columns
        drawn.append(Label(x0, y - (i % rows) * 3.8, said, SMALL, "start", "top"))
    return tuple(drawn), -y + rows * 3.8


def _no_drawing(width: float) -> Block:
    text, low = block(0, 0, "There is more on this part than a card has room to draw: its tapered ends are on its templates.", width)
    return text, -low
