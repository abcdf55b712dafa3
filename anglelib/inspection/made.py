"""A made part: where its cuts and holes really lie, and what a rule, a caliper and a scale read on it.

Places are in the wanted part's frame, x from where end 1 ought to be. Readings are taken as at the
bench (:mod:`anglelib.inspection.reading_ids`): lengths from edges that are there, heights from the heel.

>>> from anglelib.section import Section
>>> from anglelib.part import Taper
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> cleat = Part("A1L", "Cleat", stock, "6061-T6", "2 1/8", tapers=[Taper("A", 1, "3/8", run="1 1/4")])
>>> read = readings_of(Made.as_wanted(cleat))
>>> {name: round(read[name], 4) for name in ("toe.A", "start.A.1", "toe.B")}
{'toe.A': 0.875, 'start.A.1': 1.25, 'toe.B': 2.125}
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache
from math import atan, sin
from typing import NamedTuple

from anglelib.alloy import ALLOYS, density
from anglelib.geometry.layout import witness_line
from anglelib.geometry.solid import solid_of
from anglelib.geometry.taper import taper_lines
from anglelib.hashed import hashed_once
from anglelib.inspection import reading_ids as ids
from anglelib.inspection.reading_edges import below_corner, sharp_start
from anglelib.inspection.reading_ids import Origin, ReadingId, origin, takeable
from anglelib.part import BROKEN, Part, Taper
from anglelib.section import LEGS, Section, other_leg
from anglelib.when_asked import WhenAsked


@dataclass(frozen=True)
class MadeTaper:
    """A taper as it was cut: ``at_toe`` [in] from its wanted end, at the wanted toe; slope c; and the tilt of its face.

    ``tilt`` is the slope of the sawn face through the leg: the metal that stands farther out on the
    inside edge than on the outside one, at right angles to the line, for an inch of thickness. ``edge`` [in] is to what
    thickness the feather edge that it leaves was broken or blunted (0: as sawn, or none).
    """

    leg: str
    end: int
    at_toe: float
    slope: float
    tilt: float = 0.0
    edge: float = 0.0

    def at(self, y: float, width: float, depth: float = 0.0) -> float:
        """Distance of the sawn face from its wanted end, at a height from the heel and a depth behind the outer face [in].

        ``width`` is the leg's wanted one.
        """
        return self.at_toe - (width - y) * self.slope - self.tilt * depth / sin(atan(1 / self.slope))

    def shifted(self, along: float) -> MadeTaper:
        """The line moved along the heel, away from its end for a positive distance [in]."""
        return replace(self, at_toe=self.at_toe + along)


@dataclass(frozen=True)
class MadeCope:
    """A cope as it was cut: how far back from its wanted end, and the width left beside it [in]."""

    leg: str
    end: int
    length: float
    left: float

    def shifted(self, along: float) -> MadeCope:
        """Its face moved along the heel, away from its end for a positive distance [in]."""
        return replace(self, length=self.length + along)


@dataclass(frozen=True)
class MadeCorner:
    """A rounded corner as it was filed: its radius [in]."""

    leg: str
    end: int
    radius: float


@dataclass(frozen=True)
class MadeHole:
    """A hole where it was drilled."""

    leg: str
    x: float
    y: float


def usual_edge(taper: Taper) -> float:
    """How thick the feather edge that a taper leaves is on a well-made part [in]: as the plans have it blunted, or half of what it may be broken by."""
    if taper.width_left:
        return 0.0
    return float(BROKEN) / 2 if taper.blunt is None else float(taper.blunt)


@hashed_once
@dataclass(frozen=True)
class Made:
    """The part as made. ``start`` and ``stop`` [in] are where its ends lie on the heel.

    ``out_1`` and ``out_2`` are the slopes (p, q) by which each end runs out along leg A and leg B;
    ``filed`` how much each toe was over-filed; ``scale`` what heat or a wrong unit did to all lengths along the heel.
    """

    wanted: Part
    section: Section
    alloy: str
    start: float
    stop: float
    tapers: tuple[MadeTaper, ...]
    holes: tuple[MadeHole, ...]
    copes: tuple[MadeCope, ...] = ()
    corners: tuple[MadeCorner, ...] = ()
    out_1: tuple[float, float] = (0.0, 0.0)
    out_2: tuple[float, float] = (0.0, 0.0)
    filed: tuple[float, float] = (0.0, 0.0)
    scale: float = 1.0

    @classmethod
    def as_wanted(cls, part: Part) -> Made:
        """A perfect part, its feather edges blunted as the plans say, or broken by half of what is allowed."""
        return cls(
            part,
            part.section,
            part.alloy,
            0.0,
            float(part.length),
            tuple(
                MadeTaper(line.leg, line.end, float(line.run), float(line.slope), edge=usual_edge(part.taper_at(line.leg, line.end)))  # type: ignore[arg-type]
                for line in taper_lines(part)
            ),
            tuple(MadeHole(hole.leg, float(hole.x), float(hole.y)) for hole in part.holes),
            tuple(MadeCope(cope.leg, cope.end, float(cope.length), float(cope.width_left)) for cope in part.copes),
            tuple(MadeCorner(corner.leg, corner.end, float(corner.radius)) for corner in part.corners),
        )

    @property
    def can_be(self) -> bool:
        """Whether there is metal for it: every hole on the part, every cut within its length."""
        length, wanted = self.stop - self.start, self.wanted.section
        holes = all(self.start < h.x < self.stop and 0 < h.y < self.width(h.leg) for h in self.holes)
        copes = all(0 < c.length < length and 0 < c.left < self.width(c.leg) for c in self.copes)
        return length > 0 and holes and copes and all(t.at(self.width(t.leg), wanted.widths[t.leg]) < length for t in self.tapers)

    # --- the metal at a place ---------------------------------------------------------------------
    @cached_property
    def _length(self) -> float:
        """The wanted part's length [in]."""
        return float(self.wanted.length)

    def width(self, leg: str) -> float:
        """Width of a leg as made, away from its tapers [in]."""
        return self.section.widths[leg] - self.filed[LEGS.index(leg)]

    def _out(self, leg: str, end: int) -> float:
        return (self.out_1 if end == 1 else self.out_2)[LEGS.index(leg)]

    def taper(self, leg: str, end: int) -> MadeTaper | None:
        """The taper that was cut on a leg at an end."""
        return next((t for t in self.tapers if (t.leg, t.end) == (leg, end)), None)

    def cope(self, leg: str, end: int) -> MadeCope | None:
        """The cope that was cut on a leg at an end."""
        return next((c for c in self.copes if (c.leg, c.end) == (leg, end)), None)

    def corner(self, leg: str, end: int) -> MadeCorner | None:
        """The corner that was rounded on a leg at an end."""
        return next((c for c in self.corners if (c.leg, c.end) == (leg, end)), None)

    def line_x(self, taper: MadeTaper, y: float, depth: float = 0.0) -> float:
        """x of a taper's sawn face at a height, and at a depth behind the leg's outer face."""
        distance = taper.at(y, self.wanted.section.widths[taper.leg], depth)
        return distance if taper.end == 1 else self._length - distance

    @cached_property
    def _bounds(self) -> dict[tuple[str, int], tuple[tuple[float, float, float], ...]]:
        return {}

    def _edges(self, leg: str, end: int) -> tuple[tuple[float, float, float], ...]:
        """The edges of a leg towards an end: every reading asks for them again."""
        if (leg, end) not in self._bounds:
            self._bounds[leg, end] = tuple(self._cut_edges(leg, end))
        return self._bounds[leg, end]

    def _cut_edges(self, leg: str, end: int) -> Iterator[tuple[float, float, float]]:
        """What bounds a leg's outer face towards an end, without rounded corners: lines (at the heel, its slope, from which height up).

        Distances are into the part, from the wanted end 1 or the wanted end 2. A taper cuts the whole angle: of the other leg
        it takes what lies beyond its line.
        """
        way, wanted = (1.0, 0.0) if end == 1 else (-1.0, self._length)
        yield way * ((self.start if end == 1 else self.stop) - wanted), way * self._out(leg, end), 0.0
        for taper in self.tapers:
            if taper.end == end:
                width = self.wanted.section.widths[taper.leg]
                # Metal thinner than the broken edge is gone, over the whole height of the other leg.
                gone = taper.at(taper.edge, width)
                yield gone, (taper.at(taper.edge, width, 1.0) - gone if taper.leg != leg else 0.0), 0.0
                if taper.leg == leg:
                    yield taper.at(0.0, width), taper.slope, 0.0
        for cope in self.copes:
            if cope.end == end and cope.leg == leg:
                yield cope.length, 0.0, cope.left

    def end_x(self, end: int, leg: str, height: float) -> float:
        """Where the metal ends, towards an end, at a height on the outer face of a leg [in]; a rounded corner is not looked at."""
        deep = max(at + slope * height for at, slope, low in self._edges(leg, end) if height > low or not low)
        return deep if end == 1 else self._length - deep

    def span(self, leg: str, height: float) -> tuple[float, float]:
        """From where to where along x there is metal at a height on the outer face of a leg [in]."""
        return self.end_x(1, leg, height), self.end_x(2, leg, height)

    @cached_property
    def heel(self) -> tuple[float, float]:
        """From where to where along x the heel goes [in]."""
        return self.span("A", 0.0)

    @cached_property
    def holes_from(self) -> float:
        """x of what the places of holes are read from [in]."""
        return _origin_x(self, origin(self.wanted), *self.heel)

    def height_at_end(self, leg: str, end: int, inside: bool = False) -> float:
        """Height of a leg at an end, from the heel, on the outer or the inner face [in]."""
        width, taper, cope = self.width(leg), self.taper(leg, end), self.cope(leg, end)
        if cope is not None and cope.length > 0:
            width = min(width, cope.left)
        if taper is None:
            return width
        # Where the line meets the end's plane: both run along the leg with a slope.
        depth = float(self.section.thickness(leg)) if inside else 0.0
        lean = self._out(other_leg(leg), end) * depth
        foot = taper.at(0.0, self.wanted.section.widths[leg], depth)
        if end == 1:
            y = (self.start + lean - foot) / (taper.slope - self._out(leg, end))
        else:
            y = (self._length - self.stop - lean - foot) / (taper.slope + self._out(leg, end))
        return min(width, max(0.0, y))

    def peak(self, leg: str) -> float:
        """How high a leg stands where it is highest: its width, or where the cuts of both ends meet below it [in]."""
        top, length = self.width(leg), self._length
        for at_1, slope_1, low_1 in self._edges(leg, 1):
            for at_2, slope_2, low_2 in self._edges(leg, 2):
                low = max(low_1, low_2)
                if length - at_1 - at_2 - (slope_1 + slope_2) * top < 0 and low < top:
                    meet = (length - at_1 - at_2) / (slope_1 + slope_2) if slope_1 + slope_2 > 0 else low
                    top = max(low, meet, 0.0)
        return top


# --- readings -------------------------------------------------------------------------------------------------
class _Asked(NamedTuple):
    """A reading as it is taken on one wanted part: its id, taken apart, and where its ends are read [in]."""

    id: str
    kind: str
    leg: str
    end: int
    number: int
    low: float | None = None
    high: float | None = None
    """Of a toe: the heights on end 1 and end 2 that its length is read at; None: at the toe."""
    half: float = 0.0
    """Of a width half-way along a taper: half its run [in]."""
    from_corner: bool = False


@lru_cache(maxsize=256)
def _asked(part: Part) -> dict[str, _Asked]:
    found = {}
    runs = {(line.leg, line.end): float(line.run) for line in taper_lines(part)}
    for id_ in takeable(part):
        one = ReadingId.of(id_)
        row = _Asked(id_, *one)
        if one.kind == ids.TOE:
            row = row._replace(low=below_corner(part, one.leg, 1), high=below_corner(part, one.leg, 2))
        elif one.kind == ids.MID:
            row = row._replace(half=runs[one.leg, one.end] / 2, from_corner=sharp_start(part, one.leg, one.end))
        found[id_] = row
    return found


def readings_of(made: Made) -> Mapping[str, float]:
    """Everything that can be read on the made part: id -> value [in], and the weight [lb]; each is worked out when it is asked for."""
    asked = _asked(made.wanted)
    if made.alloy[:4] not in ALLOYS:
        asked = {id_: one for id_, one in asked.items() if one.kind != ids.WEIGHT}
    return WhenAsked(asked, lambda id_: _reading(made, asked[id_]))


def _reading(made: Made, one: _Asked) -> float:
    kind, leg, end = one.kind, one.leg, one.end
    if kind == ids.HEEL:
        first, last = made.heel
        return (last - first) * made.scale
    if kind == ids.TOE:
        width = made.width(leg)
        low = made.end_x(1, leg, width if one.low is None else one.low)
        high = made.end_x(2, leg, width if one.high is None else one.high)
        return max(0.0, high - low) * made.scale
    if kind == ids.WIDTH:
        return made.height_at_end(leg, end)
    if kind == ids.INSIDE:
        thickness = float(made.section.thickness(other_leg(leg)))
        return made.width(leg) - thickness if not end else max(0.0, made.height_at_end(leg, end, inside=True) - thickness)
    if kind in (ids.START, ids.COPE):
        x, (first, last) = made.end_x(end, leg, made.width(leg)), made.heel
        return (x - first if end == 1 else last - x) * made.scale
    if kind == ids.MID:
        return _half_way(made, one, *made.heel)
    if kind == ids.PEAK:
        return made.peak(leg)
    if kind == ids.THICKNESS:
        return float(made.section.thickness(leg))
    if kind == ids.HOLE_X:
        return abs(made.holes[one.number - 1].x - made.holes_from) * made.scale
    if kind == ids.HOLE_Y:
        return made.holes[one.number - 1].y
    if kind == ids.CORNER:
        corner = made.corner(leg, end)
        return corner.radius if corner is not None else 0.0
    return _weight(made)


def _half_way(made: Made, one: _Asked, first: float, last: float) -> float:
    """Width of a leg half-way along a taper: half its run from where it starts on the toe, or from the end."""
    taper, width = made.taper(one.leg, one.end), made.width(one.leg)
    if taper is None:
        return width
    wanted, from_end = made.wanted.section.widths[one.leg], first if one.end == 1 else made._length - last
    if one.from_corner:
        there = taper.at(width, wanted) - from_end > one.half - 1e-9  # else the place lies beyond the end
        return max(0.0, width - one.half / taper.slope) if there else 0.0
    return max(0.0, min(width, wanted - (taper.at_toe - from_end - one.half) / taper.slope))


def _origin_x(made: Made, place: Origin, first: float, last: float) -> float:
    """x of what the places of holes are read from."""
    if place.kind == ids.END:
        return first if place.end == 1 else last
    if place.kind == ids.TOE_CORNER:
        return made.end_x(place.end, place.leg, made.width(place.leg))
    if place.kind == ids.HOLE:
        return made.holes[place.number - 1].x
    return float(witness_line(made.wanted) or 0)


def _weight(made: Made) -> float:
    """Weight [lb]: the wanted part's, scaled by the made section, length and alloy; a scale shows no more."""
    ratio = made.section.area / made.wanted.section.area * (made.stop - made.start) / made._length
    return _volume(made.wanted) * ratio * density(made.alloy)


@lru_cache(maxsize=64)
def _volume(part: Part) -> float:
    return solid_of(part).volume
