"""Which readings a finished part has: their ids, and from which edge each is taken.

A reading is taken from an edge that is there: an end, the corner where a taper meets the toe, the face of a cope, a
hole. The witness line serves to mark by; lengths are read from it only where nothing else is left. Which of the
readings a card asks for is :func:`chosen`'s to say; what they come to on a made part is
:func:`anglelib.inspection.made.readings_of`'s, and what they are called :mod:`anglelib.inspection.reading_words`'s.

>>> from anglelib.part import Taper
>>> from anglelib.section import Section
>>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
>>> bracket = Part("C1L", "Bracket", stock, "6061-T6", "4 3/4", tapers=[Taper("A", 1, run="2 1/8")])
>>> chosen(bracket)
('toe.A', 'toe.B', 'mid.A.1', 'width.A.2', 'heel', 'width.B.1', 'inside.A')
>>> origin(bracket)
Origin(kind='end', end=2, leg='', number=0)
"""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from anglelib.geometry.layout import witness_line
from anglelib.inspection import reading_edges as edges
from anglelib.part import ENDS, Part, other_end
from anglelib.section import LEGS

HEEL, TOE, WIDTH, INSIDE, START, MID, PEAK = "heel", "toe", "width", "inside", "start", "mid", "peak"
THICKNESS, HOLE_X, HOLE_Y, COPE, CORNER, WEIGHT = "thickness", "hole.x", "hole.y", "cope", "corner", "weight"
USUAL, MOST = 7, 10
"""How many readings a card asks for, and at most where copes and corners add theirs."""
END, TOE_CORNER, HOLE, WITNESS = "end", "toe-corner", "hole", "witness"


class ReadingId(NamedTuple):
    """A reading taken apart: its kind, the leg and the end it belongs to, the number of the hole (from 1).

    >>> ReadingId.of("hole.2.x"), str(ReadingId("width", "A", 1))
    (ReadingId(kind='hole.x', leg='', end=0, number=2), 'width.A.1')
    """

    kind: str
    leg: str = ""
    end: int = 0
    number: int = 0

    @classmethod
    def of(cls, id_: str) -> ReadingId:
        """The parts of an id."""
        words = id_.split(".")
        if words[0] == "hole":
            return cls(f"hole.{words[2]}", number=int(words[1]))
        return cls(words[0], words[1] if len(words) > 1 else "", int(words[2]) if len(words) > 2 else 0)

    def __str__(self) -> str:
        if self.number:
            return f"hole.{self.number}.{self.kind[-1]}"
        return ".".join(str(word) for word in (self.kind, self.leg, self.end) if word)


class Origin(NamedTuple):
    """What places along the heel are read from: an end, a toe's corner at a taper, a hole (from 1), or the witness line."""

    kind: str
    end: int = 0
    leg: str = ""
    number: int = 0


# --- what is there to read from -----------------------------------------------------------------------------
def origin(part: Part) -> Origin:
    """What the places of holes are read from: the first of these that is there: end 1, end 2, a toe's corner, the witness line."""
    for end in ENDS:
        if edges.stands(part, end):
            return Origin(END, end)
    for end in ENDS:
        for leg in LEGS:
            if edges.sharp_start(part, leg, end):
                return Origin(TOE_CORNER, end, leg)
    if len(part.holes) > 1:
        return Origin(HOLE, number=1 + min(range(len(part.holes)), key=lambda i: (part.holes[i].x, i)))
    return Origin(WITNESS)


# --- the readings of a part -----------------------------------------------------------------------------------
@lru_cache(maxsize=256)
def takeable(part: Part) -> tuple[str, ...]:
    """Every reading that can be taken on a finished part, by id."""
    found = [ReadingId(HEEL)]
    for leg in LEGS:
        if edges.peak_is_left(part, leg):
            found.append(ReadingId(PEAK, leg))
        if edges.toe_is_left(part, leg) and all(edges.toe_ends(part, leg, end) for end in ENDS):
            found.append(ReadingId(TOE, leg))
        for end in ENDS:
            found += _at_end(part, leg, end)
        found.append(ReadingId(THICKNESS, leg))
        if edges.has_inside_width(part, leg):
            found.append(ReadingId(INSIDE, leg))
    place = origin(part)
    for number in range(1, len(part.holes) + 1):
        if place != Origin(HOLE, number=number) and not (place.kind == WITNESS and witness_line(part) is None):
            found.append(ReadingId(HOLE_X, number=number))
        found.append(ReadingId(HOLE_Y, number=number))
    return (*(str(one) for one in found), WEIGHT)


def _at_end(part: Part, leg: str, end: int) -> list[ReadingId]:
    there = {
        WIDTH: edges.width_is_left(part, leg, end),
        INSIDE: edges.has_inside_edge(part, leg, end),
        MID: edges.mid_is_left(part, leg, end),
        START: edges.sharp_start(part, leg, end) and edges.stands(part, end),
        COPE: edges.cope_is_left(part, leg, end) and edges.toe_is_left(part, leg) and edges.stands(part, end) and edges.toe_ends(part, leg, end),
        CORNER: edges.arc_is_left(part, leg, end),
    }
    return [ReadingId(kind, leg, end) for kind, is_there in there.items() if is_there]


# --- those that a card asks for -------------------------------------------------------------------------------
@lru_cache(maxsize=256)
def chosen(part: Part) -> tuple[str, ...]:
    """The readings that tell most with fewest, as far as this part has them, in the order in which they are taken.

    Where a taper starts, both toes, the far hole along and the near hole across, the width at the tapered end and at the
    other; what each cope and each rounding radius came to. Parts without them give lengths and widths instead.
    """
    there = takeable(part)
    wanted: list[ReadingId] = []
    taper = next(iter(sorted(part.tapers, key=lambda t: (t.end, t.leg))), None)
    if taper is not None:
        wanted.append(ReadingId(START, taper.leg, taper.end))
    wanted += [ReadingId(TOE, "A"), ReadingId(TOE, "B"), ReadingId(PEAK, "A"), ReadingId(PEAK, "B")]
    more: list[ReadingId] = []
    for cope in part.copes:
        more += [ReadingId(COPE, cope.leg, cope.end), ReadingId(WIDTH, cope.leg, cope.end)]
    radii = {}
    for corner in part.corners:
        if str(one := ReadingId(CORNER, corner.leg, corner.end)) in there:
            radii.setdefault(corner.radius, one)
    more += radii.values()
    wanted += more
    if part.holes:
        place = origin(part)
        far = max(range(len(part.holes)), key=lambda i: part.holes[i].x if place.end != 2 else -part.holes[i].x)
        near = min(range(len(part.holes)), key=lambda i: part.holes[i].x)
        wanted += [ReadingId(HOLE_X, number=far + 1), ReadingId(HOLE_Y, number=near + 1)]
    if taper is not None:
        ways = [ReadingId(kind, taper.leg, taper.end) for kind in (INSIDE, MID, WIDTH)]
        wanted += [way for way in ways if str(way) in there][:1]
        if str(ReadingId(START, taper.leg, taper.end)) not in there:  # the slope is read half-way
            wanted.append(ReadingId(MID, taper.leg, taper.end))
        wanted.append(ReadingId(WIDTH, taper.leg, other_end(taper.end)))
    spare = [ReadingId(HEEL), *(ReadingId(WIDTH, leg, 1) for leg in LEGS), *(ReadingId(kind, leg) for kind in (INSIDE, THICKNESS) for leg in LEGS)]
    room = min(MOST, USUAL + len(more))
    found = [id_ for id_ in dict.fromkeys(str(one) for one in wanted) if id_ in there]
    for one in spare:
        if len(found) >= USUAL:
            break
        if (id_ := str(one)) in there and id_ not in found:
            found.append(id_)
    return tuple(found[:room])
