"""Which cuts an upright band saw can make: where the piece lies on its table while it is fed, and whether it passes the column.

Seen from above, the blade at (0, 0), the work is fed along +y, the table's free side is +x. The column stands at x <= -throat, over
half its depth before and behind the blade (an endless one: at every y). The piece moves on by the length of the cut, so all that comes
between the column's front, that much earlier, and its back must stay nearer than the throat. A cut goes into the piece at either of
its ends where it goes right through: turned round, the piece has its other side at the column.

>>> from anglelib.saw import Saw
>>> saw = Saw("9", table="8", table_front="6")
>>> stick = [(-40.0, 0.0), (20.0, 0.0), (20.0, 1.0), (-40.0, 1.0)]  # along the heel and from it, the cut square across at 0
>>> for way in ways(saw, stick, (0.0, 1.0), (0.0, 0.0)): print(way.id, way.reach, way.passes, way.off_table)
as-laid 40.0 False 12.0
turned 20.0 False 32.0
>>> [round(way.reach, 2) for way in ways(saw, stick, (0.5774, 1.0), (0.0, 0.0))]  # swung by 30 degrees
[35.14, 17.32]
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise

from anglelib.geometry.ends import first_end
from anglelib.geometry.lazy import formulas
from anglelib.geometry.setup import OUTSIDE_UP, taper_cut
from anglelib.geometry.taper import TaperLine
from anglelib.job import Shop
from anglelib.part import Cope, Part
from anglelib.saw import Saw

Point = tuple[float, float]
AS_LAID, TURNED = "as-laid", "turned"
"""How the piece is fed: as its setup says, or turned round in the plane of the table, so that the blade goes in where it came out."""
LONG = 240.0
"""A stick whose length is not known yet: longer than any that is sold [in]."""


@dataclass(frozen=True)
class Way:
    """One way of feeding a cut; all [in].

    ``reach`` is how far the metal comes towards the column while it is beside it (0: none of it does); ``passes`` whether that is within
    the throat. ``off_table`` is how far the piece reaches beyond the table's edge at the worst, ``tips`` whether its middle does (None
    and False where the table is not known).
    """

    id: str
    reach: float
    passes: bool
    off_table: float | None = None
    tips: bool = False


def ways(saw: Saw, outline: Sequence[Point], into: Point, out: Point, mirrored: bool = False, through: bool = True) -> tuple[Way, ...]:
    """The ways of feeding a cut from ``into`` to ``out`` in a piece of a convex ``outline``, points (along the heel, from it) [in].

    ``mirrored``: seen from above the heel's direction is at the other hand: (1, 0) to the right has (0, 1) towards the viewer. ``through``:
    the cut goes right through the piece, which can be turned round; one that ends in a corner cannot.
    """
    found = [_way(saw, AS_LAID, outline, into, out, mirrored)]
    if through:
        found.append(_way(saw, TURNED, outline, out, into, mirrored))
    return tuple(found)


def _way(saw: Saw, name: str, outline: Sequence[Point], into: Point, out: Point, mirrored: bool) -> Way:
    f, length = formulas(), math.dist(into, out)
    angle = math.degrees(math.atan2(out[1] - into[1], out[0] - into[0]))
    side = -1.0 if mirrored else 1.0

    def beside(point: Point, theta: float) -> float:
        """How far a corner lies beside a line through the place where the blade goes in."""
        return f.taper_clearance(x=point[0] - into[0], y=point[1] - into[1], s=0.0, theta=theta)

    # each corner by how far it lies along the cut, the way the blade goes, and how far towards the column
    laid = [(beside(point, angle + 90), side * beside(point, angle)) for point in outline]
    half = float(saw.column) / 2 if saw.column else math.inf
    passing = [towards for _, towards in _between(laid, -half, half + length)]
    reach = round(max([0.0, *passing]), 9)
    return Way(name, reach, reach <= saw.throat, *_on_table(saw, laid, length))


def _between(laid: Sequence[Point], low: float, high: float) -> list[Point]:
    """The corners of what of a convex outline lies between two places along the cut."""
    found = [point for point in laid if low <= point[0] <= high]
    for (a, p), (b, q) in pairwise([*laid, laid[0]]):
        for edge in (low, high):
            if min(a, b) < edge < max(a, b):
                found.append((edge, p + (q - p) * (edge - a) / (b - a)))
    return found


def _on_table(saw: Saw, laid: Sequence[Point], length: float) -> tuple[float | None, bool]:
    """How far the piece reaches beyond the table, and whether its middle does: at the right always alike, in front at the start, behind at the end."""
    if not saw.table and not saw.table_front:
        return None, False
    middle = _middle(laid)
    over, tips = 0.0, False
    for edge, corners, centre in (
        (saw.table, [-towards for _, towards in laid], -middle[1]),
        (saw.table_front, [along for along, _ in laid], middle[0]),
        (saw.table_front, [length - along for along, _ in laid], length - middle[0]),
    ):
        if edge:
            over = max(over, max(corners) - float(edge))
            tips = tips or centre > edge
    return round(over, 9), tips


def _middle(outline: Sequence[Point]) -> Point:
    """The centre of area of an outline."""
    area = x = y = 0.0
    (x0, y0) = outline[0]
    for (a, b), (c, d) in pairwise([*outline, outline[0]]):
        cross = (a - x0) * (d - y0) - (c - x0) * (b - y0)
        area, x, y = area + cross, x + (a + c + x0) * cross, y + (b + d + y0) * cross
    return x / (3 * area), y / (3 * area)


def off_the_table(saw: Saw, one: Fraction, other: Fraction) -> Fraction | None:
    """How much of a stick lies off the table at a square cut, where it would tip; None where it does not, or the table is not known [in].

    The shorter of its two pieces lies on the column's side.

    >>> off_the_table(Saw("9", table="8"), Fraction(3), Fraction(61)), off_the_table(Saw("9", table="8"), Fraction(3), Fraction(12))
    (Fraction(53, 1), None)
    """
    free, short = max(one, other), min(one, other)
    if not saw.table or free - short <= 2 * saw.table:
        return None
    return free - saw.table


def across_at_saw(saw: Saw, one: float, other: float, wide: float, swing: float = 0.0) -> tuple[Way, ...]:
    """A cut right across a stick, swung by so many degrees from square, with so much of it on either side of where the cut meets the heel [in].

    >>> [(way.id, round(way.reach, 3), way.passes) for way in across_at_saw(Saw("9"), 40, 9, 1, 30)]
    [('as-laid', 35.141, False), ('turned', 7.794, True)]
    """
    f = formulas()
    skew = f.run_from_slope(W=wide, s=0.0, c=f.miter_flat.solved_for("p")(mu=swing)) if swing else 0.0
    outline = [(-one, 0.0), (other, 0.0), (other, wide), (-one, wide)]
    return ways(saw, outline, (skew, wide), (0.0, 0.0))


# --- the cuts of a part ---------------------------------------------------------------------------------------------
@dataclass(frozen=True)
class AtSaw:
    """A cut of a part at the saw: the ways that there are, each of its strokes by itself, and the one that is taken (None: no way passes)."""

    strokes: tuple[tuple[Way, ...], ...]
    fence: float | None = None
    """Where the fence stands from the blade for the stroke along the heel [in]; None where it does not reach so far, or is not known."""

    @property
    def rough(self) -> bool:
        """Whether one of its strokes passes the column no way: it is a rough cut by hacksaw."""
        return any(not any(way.passes for way in found) for found in self.strokes)

    @property
    def turned(self) -> bool:
        """Whether it passes only turned round."""
        return not self.rough and any(not found[0].passes for found in self.strokes)

    @property
    def taken(self) -> tuple[Way, ...]:
        """The way of each stroke that passes, as laid where it does so; () for a rough cut."""
        return () if self.rough else tuple(next(way for way in found if way.passes) for found in self.strokes)


def mirrored(leg: str, end: int, stance: str) -> bool:
    """Whether a leg that lies flat is seen from above at the other hand: lengths from its end to the right, heights towards the viewer.

    The outer face of leg A and the inner one of leg B are; what is measured from end 2 runs the other way.

    >>> [mirrored(leg, end, "inside-up") for leg, end in (("A", 1), ("B", 1), ("A", 2))], mirrored("A", 1, "outside-up")
    ([False, True, True], True)
    """
    return ((leg == "A") == (stance == OUTSIDE_UP)) != (end == 2)


def taper_at_saw(line: TaperLine, shop: Shop, length: float = LONG) -> AtSaw | None:
    """A taper at the saw, its piece ``length`` long [in]; None where the saw is not known."""
    if shop.saw is None:
        return None
    wide, saw_line = float(line.width), line.offset(shop.allowance)
    setup = taper_cut(line)
    # from the end to the toe; a run that is longer than the piece leaves it through its other end
    into = (0.0, saw_line.end_height) if saw_line.end_height >= 0 else (saw_line.at(0), 0.0)
    out = (saw_line.toe, wide)
    return AtSaw((ways(shop.saw, _blank(length, wide), into, out, mirrored(line.leg, line.end, setup.stance)),))


def cope_at_saw(cope: Cope, part: Part, shop: Shop, length: float = LONG) -> AtSaw | None:
    """A cope at the saw, outside up as its lines are struck: the stroke from the toe and the one from the end, each up to the drilled corner."""
    if shop.saw is None:
        return None
    wide, off = float(part.section.leg(cope.leg)), float(shop.allowance)
    back, left = max(float(cope.length) - off, 0.0), float(cope.width_left) + off
    hand = mirrored(cope.leg, cope.end, OUTSIDE_UP)
    blank = _blank(length, wide)
    across = ways(shop.saw, blank, (back, wide), (back, left), hand, through=False)
    along = ways(shop.saw, blank, (0.0, left), (back, left), hand, through=False)
    beside = wide - left if hand else left  # what lies on the free side, where the fence stands: the heel's side, or the toe's
    return AtSaw((across, along), beside if beside <= shop.saw.fence else None)


def toe_first(part: Part, line: TaperLine, shop: Shop) -> bool:
    """Whether a taper of a part is sawn turned round, because only so it passes the column."""
    found = taper_at_saw(line, shop, piece_length(part, line.end == first_end(part)))
    return found is not None and found.turned


def _blank(length: float, wide: float) -> list[Point]:
    return [(0.0, 0.0), (length, 0.0), (length, wide), (0.0, wide)]


def piece_length(part: Part, on_stick: bool) -> float:
    """How long the piece is in which a part's end is worked [in]: the part, or a stick that is as long as it may be."""
    return LONG if on_stick else float(part.length)


@lru_cache(maxsize=256)
def shop_for_cope(cope: Cope, part: Part, shop: Shop) -> Shop:
    """The shop as a cope is sawn in it: with the hacksaw's allowance and kerf where the cope is a rough cut by hacksaw."""
    found = cope_at_saw(cope, part, shop, piece_length(part, cope.end == first_end(part)))
    return shop.by_hacksaw if found is not None and found.rough else shop


