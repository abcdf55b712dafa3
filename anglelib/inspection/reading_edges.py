"""Which edges of a finished part a rule or a caliper finds: what is left of its toes, starts of tapers, faces of copes, arcs.

A drawing may have edges that the metal has not: the cuts of both ends take a leg's toe away, a feather edge that is blunted
takes the start of the other leg's taper, an arc reaches down to where a width would be read. An edge counts as there only
where it is there by a margin, so that it is on every part within its limits.

>>> from anglelib.part import Taper
>>> from anglelib.section import Section
>>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
>>> bracket = Part("C1L", "Bracket", stock, "6061-T6", "4 3/4", tapers=[Taper("A", 1, run="2 1/8"), Taper("A", 2, "1/2", run=2)])
>>> toe_left(bracket, "A"), toe_is_left(bracket, "A"), sharp_start(bracket, "A", 1), stands(bracket, 1)
(0.625, True, True, False)
"""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

from anglelib.geometry.cuts import TAPER, cuts_of
from anglelib.geometry.layout import datum_lost
from anglelib.geometry.leg_shape import LegShape, edges_at, root
from anglelib.geometry.outlines import top_of
from anglelib.geometry.rounding import RoundedCorner, rounded_corners
from anglelib.geometry.taper import taper_lines
from anglelib.part import BROKEN, Part, other_end
from anglelib.section import other_leg

LEAST_TOE = 1 / 8
"""So much of a toe must be left for its length to be read [in]."""
CLEAR = 1 / 16
"""So far from another cut an edge must be for something to be read on it [in]."""
MOST_TURNED = 1
"""By so much an angle may be off at most, by any rule that there is [deg]."""


def stands(part: Part, end: int) -> bool:
    """Whether an end is still square, to be read from."""
    return not datum_lost(part, end)


def edge_gone(part: Part, end: int) -> float:
    """How far from an end the metal may begin where a feather edge is broken or blunted [in]: 0 where the end stands."""
    edges = [float(line.blunting(taper.edge + (BROKEN if taper.blunt is not None else 0))) for line, taper in edges_at(part, end)]
    return max(edges, default=0.0)


# --- toes ---------------------------------------------------------------------------------------------------
def toe_left(part: Part, leg: str) -> float:
    """How much of a leg's toe the cuts of both ends leave, rounded corners not counted; below 0 where they meet below it [in]."""
    flat = _flattest(part)
    taken = (max([edge_gone(part, end), *(float(cut.reach) for cut in cuts_of(flat, leg, end))]) for end in (1, 2))
    return float(part.length) - sum(taken)


@lru_cache(maxsize=256)
def _flattest(part: Part) -> Part:
    """The part without corners and holes, each taper that is held to its angle as flat as it may be: its run is then much longer."""
    tapers = tuple(t if t.angle is None else replace(t, angle=max(t.angle - MOST_TURNED, t.angle / 2)) for t in part.tapers)
    return replace(part, tapers=tapers, corners=(), holes=(), hand=None, mirror_of="")


def toe_is_left(part: Part, leg: str) -> bool:
    """Whether a length can be read on a leg's toe, and its full width be found."""
    return toe_left(part, leg) >= LEAST_TOE


def toe_ends(part: Part, leg: str, end: int) -> bool:
    """Whether a leg's toe has an edge at an end that its length can be read to."""
    if part.taper_at(leg, end) is not None:
        return sharp_start(part, leg, end)
    return _cope(part, leg, end) is None or cope_is_left(part, leg, end)  # else the end, or the other leg's broken edge


def sharp_start(part: Part, leg: str, end: int) -> bool:
    """Whether a taper meets its toe in a corner that can be read from: it is not rounded, and the leg has a toe there."""
    tapers = cuts_of(part, leg, end)
    if [cut.kind for cut in tapers] != [TAPER] or _arc(part, leg, end) is not None or not toe_is_left(part, leg):
        return False
    return float(tapers[0].reach) >= edge_gone(part, end) + CLEAR


def below_corner(part: Part, leg: str, end: int) -> float | None:
    """How high on an end a length is read where the toe's corner is rounded: below the arc [in]; None where it is sharp."""
    arc = _arc(part, leg, end)
    return None if arc is None else max(arc.lowest - 1 / 16, arc.lowest / 2)


# --- what a width is read on ----------------------------------------------------------------------------------
def width_is_left(part: Part, leg: str, end: int) -> bool:
    """Whether a caliper finds what the cuts of an end leave of a leg: the end's own width where nothing cuts it."""
    cuts = cuts_of(part, leg, end)
    if not cuts:
        return toe_is_left(part, leg)
    if len(cuts) > 1:
        return False  # what is left there is read on neither edge alone
    if cuts[0].kind == TAPER and not (cuts[0].left and stands(part, end)):
        return False
    cope = _cope(part, leg, end)
    # A cope's edge is straight only as far as its inside corner, and may be broken off as far as that.
    there = cope is None or (cope_is_left(part, leg, end) and float(cope.length - cope.radius) >= edge_gone(part, end))
    # The cuts of the other end stay clear of it.
    taken = LegShape.of(_flattest(part), leg).taken(other_end(end), float(cuts[0].left))
    return there and taken <= float(part.length) - edge_gone(part, end) - CLEAR


def peak_is_left(part: Part, leg: str) -> bool:
    """Whether the cuts of both ends meet on a leg below its toe, in a corner that a caliper can be laid on: not in a cope's arc."""
    if toe_is_left(part, leg):
        return False
    shape = LegShape.of(part, leg)
    top = top_of(shape, 0.0, shape.width) or 0.0
    return all(top >= cope.left + cope.radius + CLEAR for cope in shape.copes)


def has_inside_edge(part: Part, leg: str, end: int) -> bool:
    """Whether a caliper finds an edge to read a tapered leg's inside width on, at the end.

    Where the other leg is tapered there too, its cut bevels the inner face that the reading is taken from, and a cope
    may leave nothing of that face; in the fillet there is no flat to read on.
    """
    taper, other = part.taper_at(leg, end), other_leg(leg)
    if taper is None or part.taper_at(other, end) is not None or not width_is_left(part, leg, end):
        return False
    cope = _cope(part, other, end)
    rests = cope is None or float(cope.width_left) >= root(part, other) + CLEAR
    return rests and float(taper.width_left) > root(part, leg)


def has_inside_width(part: Part, leg: str) -> bool:
    """Whether somewhere along a leg there is its whole inside width to read: its toe, and the other leg's inner face under it."""
    first, last = (_inner_toe(part, leg, end) for end in (1, 2))
    if float(part.length) - first - last < LEAST_TOE:
        return False
    other, places = other_leg(leg), (first, (first + float(part.length) - last) / 2, float(part.length) - last)
    return max(map(LegShape.of(part, other).height, places)) >= root(part, other) + CLEAR


def _inner_toe(part: Part, leg: str, end: int) -> float:
    """How far from an end the toe begins on the inner face, which the other leg's taper bevels [in]."""
    depth, flat = part.section.thickness(leg), _flattest(part)
    bevels = [float(line.at(depth)) for line in taper_lines(flat) if (line.leg, line.end) == (other_leg(leg), end)]
    arc = _arc(part, leg, end)
    arcs = [] if arc is None else [x if end == 1 else float(part.length) - x for x, _ in arc.starts]
    return max([edge_gone(part, end), *(float(cut.reach) for cut in cuts_of(flat, leg, end)), *bevels, *arcs])


def mid_is_left(part: Part, leg: str, end: int) -> bool:
    """Whether half-way along a taper the leg has its edge: neither the toe is gone, nor is the place broken off or rounded."""
    cuts = cuts_of(part, leg, end)
    if [cut.kind for cut in cuts] != [TAPER] or not toe_is_left(part, leg):
        return False
    if sharp_start(part, leg, end):
        return float(cuts[0].reach) / 2 >= edge_gone(part, end) + CLEAR
    arc, width = _arc(part, leg, end), float(part.section.leg(leg))
    return stands(part, end) and arc is not None and arc.lowest >= (width + float(cuts[0].left)) / 2 + CLEAR


# --- copes and corners ----------------------------------------------------------------------------------------
def cope_is_left(part: Part, leg: str, end: int) -> bool:
    """Whether a feather edge of the other leg leaves anything of a cope."""
    cope = _cope(part, leg, end)
    return cope is not None and float(cope.length) >= edge_gone(part, end) + CLEAR


def arc_is_left(part: Part, leg: str, end: int) -> bool:
    """Whether enough of a rounded corner's arc is there to lay a gauge on."""
    arc = _arc(part, leg, end)
    if arc is None:
        return False
    near, far = sorted(x if end == 1 else float(part.length) - x for x, _ in arc.starts)
    return edge_gone(part, end) <= near + (far - near) / 4


def _cope(part: Part, leg: str, end: int):
    return next((cope for cope in part.copes if (cope.leg, cope.end) == (leg, end)), None)


def _arc(part: Part, leg: str, end: int) -> RoundedCorner | None:
    if not any((corner.leg, corner.end) == (leg, end) for corner in part.corners):
        return None
    return next((arc for arc in rounded_corners(part) if (arc.leg, arc.end) == (leg, end)), None)
