"""A made part laid on its check print, as a person sees it at the bench: heel and end 1 against the bars.

>>> from anglelib.inspection.made import Made
>>> from anglelib.lessons.demo import demo_part
>>> on_print(Made.as_wanted(demo_part("E2L"))).sentence[-37:]
'Its edge lies in the white all round.'
"""

from __future__ import annotations

from fractions import Fraction

from anglelib.drawing.checks import bounds
from anglelib.drawing.made_view import made_outline
from anglelib.drawing.sheet import Group, Item, Label, Sheet, move, polygon, scale
from anglelib.inspection.made import Made
from anglelib.inspection.reading_ids import HOLE_Y, ReadingId, chosen
from anglelib.paper.check_print import View as OnPrint
from anglelib.questions import made_slips as slips
from anglelib.tolerances import Limits

LIMIT = "1/32"
"""Wide enough that the white between the lines is seen on a screen."""


def on_print(piece: Made) -> Sheet:
    """A made part laid on its check print, set against end 1."""
    part, factor, left = piece.wanted, 1.25, 21.0
    view = OnPrint(part, Limits.named(LIMIT), 0.0, float(part.length), 1, 0.0)
    items: list[Item] = [*view.drawn()]
    start = piece.span("A", 0.0)[0]
    for leg in ("A", "B"):
        items.append(polygon([view.at(leg, x - start, h) for x, h in made_outline(piece, leg)], "mark", "", True))
    shown: Group = scale(items, factor)
    low = bounds(shown)[1]
    placed = move(shown, left, 6 - low)
    height = bounds(placed)[3] + 6
    tall, wide = float(part.section.leg_a) * 25.4 * factor, float(part.length) * 25.4 * factor
    heel = 6 - low
    words = [Label(left + wide * 0.7, heel + at, f"leg {leg}, outer face down", 3.5) for leg, at in (("A", tall * 0.22), ("B", -tall * 0.45))]
    words.append(Label(left - 4, heel - 4, "end 1", 3.5, "end", "top"))
    placed = (*placed, *words)
    return Sheet(200, height, tuple(placed), "On the check print", _print_sentence(piece))


def _print_sentence(piece: Made) -> str:
    rows = slips.rows_of(piece, tuple(dict.fromkeys(("heel", *chosen(piece.wanted)))))
    limit = float(Fraction(LIMIT))
    off = [row.name for row in rows if abs(row.off) > limit and ReadingId.of(row.id).kind != HOLE_Y]
    said = f"Its edge leaves the white: {', '.join(off[:4])}" if off else "Its edge lies in the white all round"
    return f"{piece.wanted.name} laid on its check print, limits {LIMIT} either way, heel and end 1 against the bars. {said}."
