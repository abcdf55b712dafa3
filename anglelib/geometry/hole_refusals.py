"""Why a hole is refused, in words with the remedy: what :mod:`anglelib.geometry.whole_holes` knows by ids.

>>> from anglelib.part import Cope, Hole
>>> from anglelib.section import Section
>>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
>>> post = Part("P1", "Post", stock, "6061-T6", 6, copes=[Cope("A", 1, 1, "1/2", "1/8")], holes=[Hole("A", "1/2", "7/8", "1/8")])
>>> refuse_broken([post])
Traceback (most recent call last):
    ...
anglelib.errors.PartError: Part P1: the 1/8 hole in leg A at x = 1/2, y = 7/8 lies in the air of the cope at end 1: move the hole, or shorten the cope.
"""

from __future__ import annotations

from collections.abc import Iterable

from anglelib.errors import PartError
from anglelib.geometry import holes
from anglelib.geometry.hole_words import edge_words
from anglelib.geometry.holes import BEVEL, CORNER
from anglelib.geometry.whole_holes import HOLE, BrokenHole, broken_holes
from anglelib.lengths import exact, writing
from anglelib.part import Part
from anglelib.section import other_leg

MOST_TOLD = 3
"""So many sentences are told at once where several parts are refused."""

_BROKEN = {
    holes.TOE: "reaches {edge}: check its y",
    holes.END: "reaches {edge}: check its x",
    holes.TAPER: "breaks through the tapered edge at end {end}: check its x and y, and the taper's run",
    BEVEL: "breaks through the bevel that leg {other}'s taper makes on the inner face of leg {leg} at end {end}: move it away from that end, "
    "or shorten the taper's run",
    holes.COPE: "breaks through the edge of the cope at end {end}: move the hole, or shorten the cope",
    CORNER: "breaks through the rounded corner at end {end}: move the hole, or take a smaller radius",
    HOLE: "runs into the {size} hole at x = {x}, y = {y}: no metal is left between them; move one of them",
}
_BEYOND = {
    **_BROKEN,
    holes.TAPER: "lies in what the taper at end {end} cuts away: check its x and y, and the taper's run",
    holes.COPE: "lies in the air of the cope at end {end}: move the hole, or shorten the cope",
    CORNER: "lies in the corner that is rounded off at end {end}: move the hole, or take a smaller radius",
    HOLE: "is there twice: keep one of the two",
}


def broken_words(part: Part, one: BrokenHole) -> str:
    """Why a hole is refused, and what to do about it."""
    hole = part.holes[one.number - 1]
    numbers = {"edge": "", "leg": hole.leg, "other": other_leg(hole.leg), "end": one.to.end}
    if one.other:
        other = part.holes[one.other - 1]
        numbers |= {"size": exact(other.diameter), "x": exact(other.x), "y": exact(other.y)}
    else:
        numbers["edge"] = edge_words(one.to)
    why = (_BEYOND if one.beyond else _BROKEN)[one.to.kind].format(**numbers)
    return f"The {exact(hole.diameter)} hole in leg {hole.leg} at x = {exact(hole.x)}, y = {exact(hole.y)} {why}."


def refuse_broken(parts: Iterable[Part]) -> None:
    """Raise :class:`~anglelib.errors.PartError` with the sentences of every hole that is not whole, part by part; at most three of them."""
    told = []
    for part in parts:
        with writing(part.unit):
            told += [f"Part {part.id}: {_small(broken_words(part, one))}" for one in broken_holes(part)]
    if told:
        more = len(told) - MOST_TOLD
        raise PartError(" ".join([*told[:MOST_TOLD], *([f"And {more} more."] if more > 0 else [])]))


def _small(sentence: str) -> str:
    return sentence[0].lower() + sentence[1:]
