"""Which holes of a part are not whole in its metal: in the air of a cut, through an edge, in another hole.

A drawing with such a hole is wrong and is refused, with the remedy (:mod:`anglelib.geometry.hole_refusals`). A hole
that is whole and lies too near to an edge is said and never refused: that is for the plans to decide
(:mod:`anglelib.geometry.hole_check`).

A :class:`~anglelib.part.Part` itself takes such holes: it stands above the geometry, and a slip may well have drilled
one (the mistakes make such parts, and lesson 09 lets a hole be moved over an edge). So whatever makes something of a part
that is wanted asks here: the job file, hole by hole, the planner, the shop pack, the exports, the check of made parts and
the builder's bench.

>>> from anglelib.part import Cope, Hole
>>> from anglelib.section import Section
>>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
>>> post = Part("P1", "Post", stock, "6061-T6", 6, copes=[Cope("A", 1, 1, "1/2", "1/8")], holes=[Hole("A", "1/2", "7/8", "1/8")])
>>> [(str(one.to), one.beyond) for one in broken_holes(post)]
[('cope.1', True)]
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from anglelib.geometry.fasteners import near_pairs
from anglelib.geometry.holes import NONE, EdgeId, edge_distances
from anglelib.part import Part

HOLE = "hole"
"""The kind of edge that another hole has."""
KEPT_PARTS = 1024


@dataclass(frozen=True)
class BrokenHole:
    """A hole that is not whole: its number (from 1), the edge that it runs into, and how.

    ``beyond``: its centre lies where there is no metal at all. ``other`` is the number of the hole that it runs into, 0
    where it is an edge.
    """

    number: int
    to: EdgeId
    beyond: bool
    other: int = 0


@lru_cache(maxsize=KEPT_PARTS)
def broken_holes(part: Part) -> tuple[BrokenHole, ...]:
    """The holes that are not whole in the metal, each with every edge that it runs into; a rim that only touches one is not whole.

    Raises :class:`~anglelib.errors.PartError` where a rounded corner does not fit on its edges.
    """
    found = []
    for number, hole in enumerate(part.holes, 1):
        for edge in edge_distances(part, hole):
            if edge.outcome == NONE:
                found.append(BrokenHole(number, edge.to, edge.distance <= 0))
    for one, two in near_pairs(part, Fraction(1)):
        first, second = part.holes[one], part.holes[two]
        if (first.x - second.x) ** 2 + (first.y - second.y) ** 2 <= ((first.diameter + second.diameter) / 2) ** 2:
            found.append(BrokenHole(two + 1, EdgeId(HOLE), (first.x, first.y) == (second.x, second.y), one + 1))
    return tuple(sorted(found, key=lambda one: one.number))
