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

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache

from anglelib.geometry.at_limits import EVERY, strayed
from anglelib.geometry.cuts import cuts_of
from anglelib.inspection import reading_ids as ids
from anglelib.inspection.made import Made, MadeHole, readings_of
from anglelib.inspection.reading_ids import Origin, ReadingId, chosen, origin
from anglelib.lengths import LAST_PLACE
from anglelib.part import ENDS, Part
from anglelib.section import other_leg
from anglelib.tolerances import Limits
from anglelib.when_asked import WhenAsked

WEIGHT_SHARE = 0.02
"""How far off a weight may be; common practice."""
GOES_ON = 1e-9


@dataclass(frozen=True)
class Wanted:
    """A reading: its id, what it should be, and its limits [in] (a weight: [lb]).

    All three are printed rounded to a last place; ``grain`` is half of it. A number that is met as it is printed is met.
    """

    id: str
    value: float
    low: float
    high: float
    grain: float = GOES_ON

    @property
    def within(self) -> float:
        """Half of what lies between its limits."""
        return (self.high - self.low) / 2

    def keeps(self, value: float) -> bool:
        """Whether a value lies within the limits; on a limit, as it is printed, is within."""
        return self.low - self.grain <= value <= self.high + self.grain


def wanted_readings(part: Part, limits: Limits, which: Sequence[str] | None = None) -> tuple[Wanted, ...]:
    """Those readings of a part that are named (else the ones that its card asks for), in their order."""
    every = all_wanted(part, limits)
    return tuple(every[id_] for id_ in (chosen(part) if which is None else which))


@lru_cache(maxsize=256)
def all_wanted(part: Part, limits: Limits) -> Mapping[str, Wanted]:
    """Every reading of a part by its id; each is worked out when it is asked for."""
    perfect = readings_of(Made.as_wanted(part))
    seen = [readings_of(made) for made in _made_at_limits(part, limits)]

    def wanted(id_: str) -> Wanted:
        one, value = ReadingId.of(id_), perfect[id_]
        values = [value, *(read[id_] for read in seen if id_ in read)]
        off = float(_own(part, limits, one, value))
        if one.kind == ids.CORNER:  # a radius goes by itself, and may be as small as what fits where everything else is at its limit
            low, high = min(value - off, *values), value + off
        else:
            low, high = min(values) - off, max(values) + off
        grain = GOES_ON if one.kind == ids.WEIGHT else float(LAST_PLACE[part.unit] / 2) + GOES_ON
        return Wanted(id_, value, max(0.0, low), high, grain)

    return WhenAsked(tuple(perfect), wanted)


def toe_beyond_heel(part: Part, limits: Limits, leg: str) -> tuple[float, float]:
    """By how much a leg's toe is longer than the heel on parts that pass, from and to [in]: by their cuts, and by how far both ends may lean."""
    lean = 2 * float(limits.square(part.section.leg(leg)))
    low, high = -lean, lean
    for end in ENDS:
        gone = [_gone(made, leg, end) for made in (Made.as_wanted(part), *_made_at_limits(part, limits))]
        toes, heels = zip(*gone, strict=True)
        if cuts_of(part, leg, end):  # what is cut off the toe strays for itself
            low, high = low + min(heels) - max(toes), high + max(heels) - min(toes)
        else:
            apart = [heel - toe for toe, heel in gone]
            low, high = low + min(apart), high + max(apart)
    return low, high


def _gone(made: Made, leg: str, end: int) -> tuple[float, float]:
    """How much is gone of a leg's toe and of the heel at an end, from where the end was cut to [in]."""
    toe, heel = (abs(made.end_x(end, leg, height) - (made.start if end == 1 else made.stop)) for height in (made.width(leg), 0.0))
    return toe, heel


@lru_cache(maxsize=256)
def _made_at_limits(part: Part, limits: Limits) -> tuple[Made, ...]:
    """The parts at every corner of what the limits allow, as they are made: read by the ids of the wanted part."""
    found = []
    for ways in EVERY:
        limit = strayed(part, limits, ways)
        made = Made.as_wanted(limit)
        # Its places are in its own frame, its holes where the drawing has them; an edge that is not blunted there is sharp.
        edges = {(t.leg, t.end): float(t.blunt or 0) for t in limit.tapers}
        tapers = tuple(replace(t, edge=edges[t.leg, t.end]) for t in made.tapers)
        bare = replace(made, wanted=part, tapers=tapers, holes=tuple(MadeHole(h.leg, float(h.x), float(h.y)) for h in part.holes))
        found.append(_in_frame(bare, limit, part))
    return tuple(found)


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
    if one.kind == ids.CORNER:
        return limits.radius(next(c.radius for c in part.corners if (c.leg, c.end) == (one.leg, one.end)))
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
    return off + limits.length(part.holes[place.number - 1].x) if place.kind == ids.HOLE else off
