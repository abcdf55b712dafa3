"""Holes in words: the edges by name, how an edge distance comes out, what is warned of.

What :mod:`anglelib.geometry.holes` and :mod:`~anglelib.geometry.hole_check` know by ids; why a hole is refused is in
:mod:`~anglelib.geometry.hole_refusals`. Lengths are written in the unit of :func:`anglelib.lengths.writing`; D is the
fastener's diameter.

>>> from anglelib.section import Section
>>> from anglelib.tolerances import Limits
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> clip = Part("P1", "Clip", stock, "6061-T6", 3, holes=[Hole("A", 1, "7/16", "1/8"), Hole("B", "5/8", "17/32", "1/8")])
>>> for line in (*edge_lines(clip, Limits()), *warning_lines(clip, Limits())): print(line)
hole B at 5/8: 1.75 D to the toe, 1.63 D at the limits
hole A at 1: 2.50 D to the toe, 2.38 D at the limits
hole B at 5/8: 1.75 D to the toe, 1.63 D at the limits: under 2 D; the plans decide
"""

from __future__ import annotations

from collections.abc import Container, Iterable, Sequence

from anglelib.geometry import hole_check as check
from anglelib.geometry import holes
from anglelib.geometry.fasteners import PITCH
from anglelib.geometry.hole_check import HoleEdge, HoleWarning, hole_edges, hole_warnings, worst_hole
from anglelib.geometry.holes import BEVEL, CORNER, KEPT, NONE, SHORT, EdgeDistance, EdgeId, least_diameters
from anglelib.lengths import decimal, exact, show
from anglelib.part import Hole, Part
from anglelib.section import LEGS
from anglelib.tolerances import Limits

_NAMES = {
    holes.TOE: "toe",
    holes.END: "end {end}",
    holes.TAPER: "taper at end {end}",
    BEVEL: "bevel of the inner face at end {end}",
    holes.COPE: "cope at end {end}",
    CORNER: "rounded corner at end {end}",
}
RULES = "Rules for rivets (US Army AL0992, Rivet Spacing and Edge Distance); a bolt's may differ."
_HEADS = " Heads, nuts and tails are taken twice as wide as the rivet: measure yours."


# --- edges and how they come out --------------------------------------------------------------------------------
def edge_name(to: EdgeId) -> str:
    """An edge's name.

    >>> edge_name(EdgeId("bevel", 2)), edge_words(EdgeId("end", 1)), edge_words(EdgeId("toe"))
    ('bevel of the inner face at end 2', 'end 1', 'the toe')
    """
    return _NAMES[to.kind].format(end=to.end)


def edge_words(to: EdgeId) -> str:
    """An edge in a sentence."""
    return edge_name(to) if to.kind == holes.END else f"the {edge_name(to)}"


def diameters(edge: EdgeDistance) -> str:
    """How many diameters an edge distance is, to two places; one that is short never reads as if it were kept."""
    said = decimal(edge.diameters, 2)
    if edge.outcome != KEPT and float(said) >= least_diameters(edge.hole):
        return decimal(float(least_diameters(edge.hole)) - 0.01, 2)
    return said


def outcome_words(edge: EdgeDistance) -> str:
    """How an edge distance comes out, never by a colour alone."""
    if edge.outcome == SHORT:
        return f"EDGE SHORT by {show(edge.short_by, 64, 'up')}"
    return "NO EDGE" if edge.outcome == NONE else "edge kept"


def verdict_words(edge: EdgeDistance) -> str:
    """The same with its diameters."""
    if edge.outcome == NONE:
        return "NO EDGE: the hole reaches it"
    said = f"{diameters(edge)} diameters"
    return f"{outcome_words(edge)} ({said})" if edge.outcome == SHORT else f"{outcome_words(edge)}, {said}"


def verdict_sentence(edge: EdgeDistance) -> str:
    """The same to begin a sentence with, and the edge; a hole that its edge has reached is no hole any more."""
    if edge.outcome == NONE:
        return f"NO EDGE: the hole reaches {edge_words(edge.to)}"
    said = verdict_words(edge)
    return f"{said[0].upper()}{said[1:]}, to {edge_words(edge.to)}"


# --- holes by name -------------------------------------------------------------------------------------------------
def hole_names(part: Part, numbers: Iterable[int]) -> str:
    """Holes by leg and place along the heel; with their height where two stand one over the other.

    >>> from anglelib.section import Section
    >>> stock = Section(1, 1, "1/8")
    >>> part = Part("P1", "Trial", stock, "6061-T6", 3, holes=[Hole("A", 1, "1/2", "1/8"), Hole("B", "5/8", "1/2", "1/8"), Hole("A", 2, "1/2", "1/8")])
    >>> hole_names(part, (1,)), hole_names(part, (1, 2, 3))
    ('hole A at 1', 'holes A at 1, 2 and B at 5/8')
    """
    listed = sorted({number: part.holes[number - 1] for number in numbers}.values(), key=lambda hole: (hole.leg, hole.x, hole.y))
    legs = []
    for leg in LEGS:
        places = [_place(part, hole) for hole in listed if hole.leg == leg]
        if places:
            legs.append(f"{leg} at {', '.join(places)}")
    flush = "flush " if all(hole.flush for hole in listed) else ""
    return f"{flush}hole{'s' if len(listed) > 1 else ''} {' and '.join(legs)}"


def _place(part: Part, hole: Hole) -> str:
    over = sum(other.leg == hole.leg and other.x == hole.x for other in part.holes) > 1
    return f"{exact(hole.x)} ({exact(hole.y)} up)" if over else exact(hole.x)


# --- edge distances of a part ----------------------------------------------------------------------------------------
def edge_lines(part: Part, limits: Limits, without: Container[int] = ()) -> list[str]:
    """The edge distance of every hole, as drawn and at the worst of the limits, the worst first; holes that are alike in one line.

    Holes ``without`` are left out, by their numbers.
    """
    found: dict[tuple[str, bool], list[int]] = {}
    for one in sorted(hole_edges(part, limits), key=lambda one: (one.worst.margin, one.nominal.margin, one.number)):
        if one.number not in without:
            found.setdefault((_distances(one), one.hole.flush), []).append(one.number)
    return [f"{hole_names(part, numbers)}: {said}" for (said, _), numbers in found.items()]


def _distances(one: HoleEdge) -> str:
    nominal, worst = one.nominal, one.worst
    said = f"{diameters(nominal)} D to {edge_words(nominal.to)}"
    if worst.outcome == NONE:
        return f"{said}; at the limits the hole breaks through {edge_words(worst.to)}"
    other = f" to {edge_words(worst.to)}" if worst.to != nominal.to else ""
    return f"{said}, {diameters(worst)} D{other} at the limits"


def worst_line(part: Part, limits: Limits) -> str:
    """The worst hole of a part, as drawn and at the worst of the limits; "" without holes."""
    one = worst_hole(part, limits)
    return "" if one is None else f"{hole_names(part, (one.number,))}: {_distances(one)}"


def in_figures(one: HoleEdge) -> str:
    """A hole's edge distance as drawn and at the worst of the limits, in figures alone.

    >>> from anglelib.section import Section
    >>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
    >>> clip = Part("P1", "Clip", stock, "6061-T6", 3, holes=[Hole("A", 1, "7/16", "1/8")])
    >>> in_figures(hole_edges(clip, Limits())[0])
    '2.50, 2.38'
    """
    return f"{diameters(one.nominal)}, {diameters(one.worst)}"


def limits_words(part: Part, limits: Limits) -> str:
    """The hole that is worst at the limits, and how many are short there; "" without holes.

    >>> from anglelib.section import Section
    >>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
    >>> clip = Part("P1", "Clip", stock, "6061-T6", 3, holes=[Hole("A", 1, "7/16", "1/8"), Hole("B", "5/8", "1/2", "1/8")])
    >>> limits_words(clip, Limits())
    'at the limits hole B at 5/8: 1.88 D to the toe, 1 EDGE SHORT'
    """
    one = worst_hole(part, limits)
    if one is None:
        return ""
    short = sum(not hole.kept for hole in hole_edges(part, limits))
    said = f"at the limits {hole_names(part, (one.number,))}: {diameters(one.worst)} D to {edge_words(one.worst.to)}"
    return f"{said}, {short} EDGE SHORT" if short else said


# --- what is warned of ---------------------------------------------------------------------------------------------
def warning_lines(part: Part, limits: Limits) -> list[str]:
    """What deserves a look before the holes are drilled; those that differ in their place alone in one line."""
    edges = {one.number: one for one in hole_edges(part, limits)}
    found: dict[tuple[str, str], list[int]] = {}
    for warning in hole_warnings(part, limits):
        found.setdefault((warning.id, _warned(warning, edges)), []).extend(warning.holes)
    return [f"{hole_names(part, numbers)}{said}; the plans decide" for (_, said), numbers in found.items()]


def _warned(warning: HoleWarning, edges: dict[int, HoleEdge]) -> str:
    if warning.id == check.PITCH_CLOSE:
        return f": pitch {decimal(min(warning.value, float(PITCH) - 0.01), 2)} D, under {PITCH} D"
    if warning.id == check.FILLET:
        return f": a head, nut or tail inside stands {show(warning.value, 64, 'up')} on the fillet"
    if warning.id == check.FACING:
        room = f"{show(warning.value, 64, 'down')} between their heads inside" if warning.value > 0 else "and their heads meet inside"
        return f" face each other across the heel, {room}"
    one = edges[warning.holes[0]]
    least = f"{float(least_diameters(one.hole)):g} D"
    return f": {_distances(one)}: under {least}{' at the limits' if warning.id == check.EDGE_AT_LIMITS else ''}"


def rules_words(parts: Iterable[Part], limits: Limits) -> str:
    """Whose rules the warnings of some parts are; "" where there is nothing to warn of."""
    ids = {warning.id for part in parts for warning in hole_warnings(part, limits)}
    return RULES + (_HEADS if ids & {check.FILLET, check.FACING} else "") if ids else ""


def holes_summary(parts: Sequence[Part], limits: Limits) -> str:
    """Of how many holes of some parts something is warned, and which parts they are of; "" where it is of none."""
    warned = [part for part in parts if hole_warnings(part, limits)]
    if not warned:
        return ""
    count = sum(len({number for warning in hole_warnings(part, limits) for number in warning.holes}) for part in warned)
    return f"{count} hole{'' if count == 1 else 's'} to look at before drilling, of {', '.join(part.id for part in warned)}"
