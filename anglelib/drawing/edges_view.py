"""Edge distance at a glance: both outer faces, round each hole a circle of the least edge distance, and where a rivet may lie.

A circle that stays on the metal keeps its edge. The worst hole of the part is drawn in the accent and named.

>>> from anglelib.part import Hole, Part, Taper
>>> from anglelib.section import Section
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> cleat = Part("A1", "Cleat", stock, "6061-T6", "2 1/8", [Taper("A", 1, "3/8", run="1 1/4")], [Hole("A", "1 7/16", "7/16", "1/8")])
>>> worst_words(cleat)
'worst: leg A, x = 1 7/16, to the toe: edge kept, 2.50 diameters'
"""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from functools import lru_cache

from anglelib.drawing.checks import bounds
from anglelib.drawing.face import Axis, Face
from anglelib.drawing.outer_view import direction, features_along, outer_view
from anglelib.drawing.sheet import Circle, Group, Item, Label, Sheet, move
from anglelib.drawing.symbols import datum_sign
from anglelib.geometry.hole_words import edge_name, edge_words, outcome_words, verdict_words
from anglelib.geometry.holes import KEPT, SHORT, EdgeDistance, least_edge, legal_region, worst_edge
from anglelib.lengths import exact, own
from anglelib.part import Part, in_its_unit

WIDTH, HEIGHT = 220.0, 124.0
LETTER = 3.5
_HEAD, _FOOT, _SIDE, _BETWEEN = 17.0, 14.0, 30.0, 12.0
USUAL = Fraction(1, 8)
"""The rivet for which a part without holes shows the region [in]."""


@lru_cache(maxsize=64)
def nearest_edges(part: Part) -> tuple[EdgeDistance, ...]:
    """The edge that decides, of every hole."""
    return tuple(worst_edge(part, hole) for hole in part.holes)


def short(part: Part) -> int:
    """How many holes are nearer to an edge than they may be."""
    return sum(edge.outcome != KEPT for edge in nearest_edges(part))


@lru_cache(maxsize=64)
def worst(part: Part) -> EdgeDistance | None:
    """The edge distance that decides: the most short of what it is compared with, or the nearest to it."""
    return min(nearest_edges(part), key=lambda edge: edge.margin, default=None)


@in_its_unit
def worst_words(part: Part) -> str:
    """The worst hole in words."""
    return "no holes" if worst(part) is None else f"worst: {worst_hole_words(part)}"


@lru_cache(maxsize=64)
@in_its_unit
def worst_hole_words(part: Part) -> str:
    """The same without the word."""
    edge = worst(part)
    return "no holes" if edge is None else f"{_place(edge)}, to {edge_words(edge.to)}: {verdict_words(edge)}"


def _place(edge: EdgeDistance) -> str:
    return f"leg {edge.hole.leg}, x = {exact(edge.hole.x)}"


@in_its_unit
def worst_in_few_words(part: Part, bare: bool = False) -> str:
    """The same without the edge; ``bare``: an edge that is short without its diameters.

    >>> from anglelib.section import Section
    >>> worst_in_few_words(Part("P1", "Trial", Section(1, 1, "1/8"), "6061-T6", 3))
    'no holes'
    """
    edge = worst(part)
    if edge is None:
        return "no holes"
    return f"worst: {_place(edge)}: {outcome_words(edge) if bare and edge.outcome == SHORT else verdict_words(edge)}"


@lru_cache(maxsize=64)
def rivet_of(part: Part) -> Fraction:
    """The fastener that most of a part's holes are for; a usual one where it has none [in]."""
    counted = Counter(hole.diameter for hole in part.holes)
    return max(counted, key=lambda d: (counted[d], d)) if counted else USUAL


def _leg(part: Part, leg: str, axis: Axis, heel: float, edge: EdgeDistance | None) -> Group:
    face = Face(axis, heel, direction(leg))
    region = legal_region(part, leg, rivet_of(part))
    items: list[Item] = [*outer_view(part, leg, axis, heel, dimensions=False, notes=False)]
    if len(region) > 2:
        items += face.region(region, "hidden", accent=True)
    for hole in part.holes_in(leg):
        x, y = face.at(float(hole.x), float(hole.y))
        is_worst = edge is not None and hole == edge.hole
        kind = "outline" if is_worst else "narrow"
        items.append(Circle(x, y, float(least_edge(hole)) * axis.unit, kind, accent=is_worst))
    return tuple(items)


@lru_cache(maxsize=64)
@in_its_unit
def _faces(part: Part) -> tuple[tuple[Item, ...], Axis, float]:
    """Both faces as large as the sheet takes them, their axis, and how far they are moved up [mm]: alike for few words and many."""
    edge = worst(part)
    a, b = float(part.section.leg_a), float(part.section.leg_b)
    unit = min((HEIGHT - _HEAD - _FOOT - _BETWEEN) / (a + b), 60.0)
    room = WIDTH - 2 * _SIDE
    whole = room / float(part.length)
    unit = whole if 0.4 * unit <= whole <= unit else unit
    while True:
        axis = Axis.fit(float(part.length), features_along(part), room, unit, _SIDE)
        items = _leg(part, "B", axis, 0.0, edge) + _leg(part, "A", axis, -_BETWEEN, edge)
        left, low, right, high = bounds(items)
        if axis.right - axis.left <= room + 0.01 and high - low <= HEIGHT - _HEAD - _FOOT and left >= 2 and right <= WIDTH - 2:
            break
        unit *= 0.88
    shift = (_FOOT + (HEIGHT - _HEAD) - low - high) / 2
    return move(items, 0, shift), axis, shift


@lru_cache(maxsize=64)
@in_its_unit
def edges_sheet(part: Part, *, few: bool = False) -> Sheet:
    """Both outer faces with their circles and regions; leg B above, the heels facing, end 1 at the left."""
    edge = worst(part)
    items, axis, shift = _faces(part)
    words: list[Item] = list(datum_sign(_SIDE, shift - _BETWEEN / 2, "datum", letter=LETTER))
    middle = shift - _BETWEEN / 2
    words.append(Label(axis.left + 4, middle, "heel", LETTER, "start", "middle"))
    words.append(Label(6, HEIGHT - 4, worst_in_few_words(part, few), LETTER, "start", "top", accent=edge is not None and edge.outcome != KEPT))
    rivet = own(rivet_of(part))
    if not few:
        nearest = f"nearest to it: {edge_name(edge.to)}; " if edge is not None else ""
        words.append(Label(6, HEIGHT - 10, f"{nearest}circles: the least edge distance, 2 diameters (2.5 with a flush head)", 2.5, "start", "top"))
    sides = "" if few else f"leg B above, leg A below, {exact(part.length)} long; "
    words.append(Label(6, 4, f"{sides}dashed: where a {rivet} rivet's centre may lie", LETTER if few else 2.5, "start"))
    return Sheet(WIDTH, HEIGHT, items + tuple(words), "Edge distance", edges_sentence(part))


@lru_cache(maxsize=64)
@in_its_unit
def edges_sentence(part: Part) -> str:
    """What the picture shows, in words."""
    rivet = rivet_of(part)
    none = [leg for leg in "AB" if len(legal_region(part, leg, rivet)) < 3]
    words = [f"Both outer faces of {part.name} ({part.id}), {exact(part.length)} long, end 1 at the left, the heels facing"]
    many = short(part)
    if part.holes:
        words.append(f"{len(part.holes)} holes, {many} of them EDGE SHORT" if many else f"{len(part.holes)} holes, all keep their edge")
    words.append(worst_words(part))
    words.append(f"a {own(rivet)} rivet has room on " + {0: "both legs", 1: f"leg {'B' if 'A' in none else 'A'} alone", 2: "neither leg"}[len(none)])
    return "; ".join(words) + "."
