"""What is said of a part's holes: the edge distance of each as drawn and at the worst of the limits, and what is too close.

At the worst the hole is off by its limits and the part is the least that passes (:func:`~anglelib.geometry.at_limits.least_parts`):
both together, on the face that decides. Everything here is data; its English is :mod:`anglelib.geometry.hole_words`'s.

The rules are for rivets and are said, never enforced: 2 diameters to an edge, 2.5 with a flush head, a pitch of 3
(AL0992, "Rivet Spacing and Edge Distance"; the pitch also NAVEDTRA 14018, ch. 13); a head that stands on the fillet and
fasteners that face each other across the heel follow from the section (derived, for a head 2 diameters wide).

>>> from anglelib.section import Section
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> clip = Part("P1", "Clip", stock, "6061-T6", 3, holes=[Hole("A", 1, "7/16", "1/8"), Hole("B", "5/8", "17/32", "1/8")])
>>> for one in hole_edges(clip, Limits()):
...     print(one.number, one.nominal.to, round(one.nominal.diameters, 2), one.worst.to, round(one.worst.diameters, 3))
1 toe 2.5 toe 2.375
2 toe 1.75 toe 1.625
>>> [(warning.id, warning.holes) for warning in hole_warnings(clip, Limits())]
[('edge', (2,))]
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from anglelib.geometry.at_limits import least_parts
from anglelib.geometry.fasteners import close, facing, on_fillet
from anglelib.geometry.holes import KEPT, EdgeDistance, EdgeId, distances, worst_edge
from anglelib.part import Hole, Part
from anglelib.tolerances import Limits

EDGE, EDGE_AT_LIMITS, PITCH_CLOSE, FILLET, FACING = "edge", "edge-at-limits", "pitch", "fillet", "facing"
"""What is warned of: an edge that is short as drawn, or only at the limits; a close pitch; a head on the fillet; heads that face each other."""
KEPT_PARTS = 256


@dataclass(frozen=True)
class HoleEdge:
    """A hole by its number (from 1), and the edge distance that decides: as drawn, and at the worst of the limits."""

    number: int
    nominal: EdgeDistance
    worst: EdgeDistance

    @property
    def hole(self) -> Hole:
        """The hole as it is drawn."""
        return self.nominal.hole

    @property
    def kept(self) -> bool:
        """Whether the least edge distance is kept, at the limits too."""
        return self.worst.outcome == KEPT


@dataclass(frozen=True)
class HoleWarning:
    """What is too close: its id, the numbers of the holes that it is about, and a number.

    ``value``: the pitch in diameters, how far a head stands on the fillet [in], the room between heads [in]; of an edge
    its diameters as drawn.
    """

    id: str
    holes: tuple[int, ...]
    value: float


@lru_cache(maxsize=KEPT_PARTS)
def hole_edges(part: Part, limits: Limits) -> tuple[HoleEdge, ...]:
    """Every hole of a part with its edge distance as drawn and at the worst of the limits, in the order of its holes."""
    if not part.holes:
        return ()
    least = least_parts(part, limits)
    return tuple(HoleEdge(number, worst_edge(part, hole), _at_worst(least, hole, limits)) for number, hole in enumerate(part.holes, 1))


def _at_worst(least: Sequence[Part], hole: Hole, limits: Limits) -> EdgeDistance:
    """The edge that comes nearest on the least part, or on one whose arcs are larger, the hole off by its limits.

    Every cut takes the more the higher on the leg and the nearer to its end, so that the worst place is one of the two
    where the hole is as high as it may be.
    """
    y = float(hole.y + limits.length(hole.y))
    off = limits.length(hole.x)
    found: list[tuple[EdgeId, float]] = [distances(one, hole.leg, float(hole.x + way * off), y)[0] for one in least for way in (-1, 1)]
    return EdgeDistance(hole, *min(found, key=lambda one: one[1]))


def worst_hole(part: Part, limits: Limits) -> HoleEdge | None:
    """The hole whose edge distance at the limits is shortest of what it should be, or nearest to it; None without holes."""
    return min(hole_edges(part, limits), key=lambda one: (one.worst.margin, one.nominal.margin), default=None)


@lru_cache(maxsize=KEPT_PARTS)
def hole_warnings(part: Part, limits: Limits) -> tuple[HoleWarning, ...]:
    """Everything about a part's holes that deserves a look before they are drilled; the shortest edge first."""
    number = {hole: n for n, hole in enumerate(part.holes, 1)}
    found = []
    for one in sorted(hole_edges(part, limits), key=lambda one: one.worst.margin):
        if not one.kept:
            found.append(HoleWarning(EDGE if one.nominal.outcome != KEPT else EDGE_AT_LIMITS, (one.number,), one.nominal.diameters))
    found += [HoleWarning(PITCH_CLOSE, (number[one], number[two]), pitch) for one, two, pitch in close(part)]
    for hole in part.holes:
        if (over := on_fillet(part, hole)) > 0:
            found.append(HoleWarning(FILLET, (number[hole],), float(over)))
    found += [HoleWarning(FACING, (number[one.on_a], number[one.on_b]), one.room) for one in facing(part)]
    return tuple(found)
