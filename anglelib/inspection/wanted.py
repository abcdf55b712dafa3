"""What every reading of a part should be, and between which limits it may lie: from the limits of the job, in one place.

A reading that follows from several dimensions (a toe is the length less the taper's run) may lie wherever parts lie
that keep all of those: the largest and the least part that pass (:mod:`anglelib.geometry.at_limits`) are read like any
other. So no part that keeps its dimensions is called bad by a reading, and card, check print, form and verdict agree.

>>> from anglelib.part import Taper
>>> from anglelib.section import Section
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> cleat = Part("A1L", "Cleat", stock, "6061-T6", "2 1/8", tapers=[Taper("A", 1, "3/8", run="1 1/4")])
>>> for want in wanted_readings(cleat, Limits(), ("toe.A", "toe.B", "start.A.1")):
...     print(want.id, round(want.value, 3), round(want.low, 4), round(want.high, 4))
toe.A 0.875 0.8438 0.9062
toe.B 2.125 2.1094 2.1406
start.A.1 1.25 1.2344 1.2656
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache

from anglelib.geometry.at_limits import EVERY, strayed
from anglelib.geometry.layout import witness_line
from anglelib.inspection import reading_ids as ids
from anglelib.inspection.made import Made, MadeHole, readings_of
from anglelib.inspection.reading_ids import Origin, ReadingId, chosen, origin
from anglelib.part import ENDS, Part
from anglelib.section import other_leg
from anglelib.tolerances import Limits

WEIGHT_SHARE = 0.02
"""How far off a weight may be; common practice."""
GOES_ON = 1e-9


@dataclass(frozen=True)
class Wanted:
    """A reading: its id, what it should be, and its limits [in] (a weight: [lb])."""

    id: str
    value: float
    low: float
    high: float

    @property
    def within(self) -> float:
        """Half of what lies between its limits."""
        return (self.high - self.low) / 2

    def keeps(self, value: float) -> bool:
        """Whether a value lies within the limits; on a limit is within."""
        return self.low - GOES_ON <= value <= self.high + GOES_ON


def wanted_readings(part: Part, limits: Limits, which: Sequence[str] | None = None) -> tuple[Wanted, ...]:
    """Those readings of a part that are named (else the ones that its card asks for), in their order."""
    every = all_wanted(part, limits)
    return tuple(every[id_] for id_ in (chosen(part) if which is None else which))


@lru_cache(maxsize=256)
def all_wanted(part: Part, limits: Limits) -> dict[str, Wanted]:
    """Every reading of a part by its id."""
    perfect = readings_of(Made.as_wanted(part))
    seen = [perfect, *(readings_of(made) for made in _extremes(part, limits))]
    found = {}
    for id_, value in perfect.items():
        lows = [read[id_] for read in seen if id_ in read]
        low, high = min(lows), max(lows)
        off = float(_own(part, limits, ReadingId.of(id_), value))
        low, high = min(low, value) - off, max(high, value) + off
        found[id_] = Wanted(id_, value, max(0.0, low), high)
    return found


def _extremes(part: Part, limits: Limits) -> list[Made]:
    """The parts at every corner of what the limits allow, as they are made: read by the ids of the wanted part."""
    found = []
    for ways in EVERY:
        limit = strayed(part, limits, ways)
        made = Made.as_wanted(limit)
        # Its places are in its own frame, and its holes where the drawing has them.
        edges = tuple(max((float(t.blunt) for t in limit.tapers if t.end == end and t.blunt is not None), default=0.0) for end in ENDS)
        bare = replace(made, wanted=part, broken=edges, holes=tuple(MadeHole(h.leg, float(h.x), float(h.y)) for h in part.holes))
        found.append(_in_frame(bare, limit, part))
    return found


def _in_frame(made: Made, limit: Part, part: Part) -> Made:
    """A limit part's cuts in the frame of the wanted part: those of end 2 keep their distance from its own end 2."""
    grown = float(limit.length - part.length)
    widths = {leg: float(part.section.leg(leg)) for leg in ("A", "B")}
    assert widths == {leg: float(limit.section.leg(leg)) for leg in widths}
    tapers = tuple(replace(t, at_toe=t.at_toe - grown) if t.end == 2 else t for t in made.tapers)
    copes = tuple(replace(c, length=c.length - grown) if c.end == 2 else c for c in made.copes)
    return replace(made, stop=float(limit.length), tapers=tapers, copes=copes)


def _own(part: Part, limits: Limits, one: ReadingId, value: float) -> Fraction | float:
    """What a reading may be off by besides what the part's outline is: a hole's place, the stock's sizes."""
    if one.kind == ids.WEIGHT:
        return WEIGHT_SHARE * value
    if one.kind == ids.HOLE_Y:
        return limits.length(part.holes[one.number - 1].y)
    if one.kind == ids.HOLE_X:
        return _along(part, limits, origin(part), one.number)
    if one.kind in (ids.THICKNESS, ids.INSIDE):  # the mill's sizes; held as the plans' dimensions are
        size = part.section.thickness(one.leg) if one.kind == ids.THICKNESS else part.section.leg(one.leg) - part.section.thickness(other_leg(one.leg))
        return limits.length(size) if not one.end else 0
    if one.kind == ids.WIDTH and part.taper_at(one.leg, one.end) is None and not any((c.leg, c.end) == (one.leg, one.end) for c in part.copes):
        return limits.length(part.section.leg(one.leg))
    return 0


def _along(part: Part, limits: Limits, place: Origin, number: int) -> Fraction:
    """How far off the distance of a hole from the origin may be for the hole's own sake, and for another hole's."""
    off = limits.length(part.holes[number - 1].x)
    if place.kind == ids.HOLE:
        off += limits.length(part.holes[place.number - 1].x)
    if place.kind == ids.WITNESS and witness_line(part) is not None:
        off = limits.length(abs(part.holes[number - 1].x - witness_line(part)))  # type: ignore[operator]
    return off
