"""A made part: where its cuts and holes really lie, and what a rule, a caliper and a scale read on it.

Places are in the wanted part's frame, x from where end 1 ought to be. Readings are taken as at the
bench: lengths from the made ends, heights from the heel.

>>> from anglelib.section import Section
>>> from anglelib.part import Taper
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> cleat = Part("A1L", "Cleat", stock, "6061-T6", "2 1/8", tapers=[Taper("A", 1, "3/8", run="1 1/4")])
>>> made = Made.as_wanted(cleat)
>>> {name: round(value, 4) for name, value in readings_of(made).items() if name.startswith(("toe", "taper"))}
{'toe A length': 0.875, 'taper start A at end 1': 1.25, 'toe B length': 2.125}
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from math import atan, sin

from anglelib.alloy import ALLOYS, density
from anglelib.geometry.solid import solid_of
from anglelib.geometry.taper import taper_lines
from anglelib.part import Part
from anglelib.section import LEGS, Section, other_leg


@dataclass(frozen=True)
class MadeTaper:
    """A taper as it was cut: ``at_toe`` [in] from its wanted end, at the wanted toe; slope c; and the tilt of its face.

    ``tilt`` is the slope of the sawn face through the leg: the metal that stands farther out on the
    inside edge than on the outside one, at right angles to the line, for an inch of thickness.
    """

    leg: str
    end: int
    at_toe: float
    slope: float
    tilt: float = 0.0

    def at(self, y: float, width: float, depth: float = 0.0) -> float:
        """Distance of the sawn face from its wanted end, at a height from the heel and a depth behind the outer face [in].

        ``width`` is the leg's wanted one.
        """
        return self.at_toe - (width - y) * self.slope - self.tilt * depth / sin(atan(1 / self.slope))

    def shifted(self, along: float) -> MadeTaper:
        """The line moved along the heel, away from its end for a positive distance [in]."""
        return replace(self, at_toe=self.at_toe + along)


@dataclass(frozen=True)
class MadeHole:
    """A hole where it was drilled."""

    leg: str
    x: float
    y: float


@dataclass(frozen=True)
class Made:
    """The part as made. ``start`` and ``stop`` [in] are where its ends lie on the heel.

    ``out_1`` and ``out_2`` are the slopes (p, q) by which each end runs out along leg A and leg B;
    ``filed`` how much each toe was over-filed; ``scale`` what heat or a wrong unit did to all lengths
    along the heel.
    """

    wanted: Part
    section: Section
    alloy: str
    start: float
    stop: float
    tapers: tuple[MadeTaper, ...]
    holes: tuple[MadeHole, ...]
    out_1: tuple[float, float] = (0.0, 0.0)
    out_2: tuple[float, float] = (0.0, 0.0)
    filed: tuple[float, float] = (0.0, 0.0)
    scale: float = 1.0

    @classmethod
    def as_wanted(cls, part: Part) -> Made:
        """A perfect part."""
        return cls(
            part,
            part.section,
            part.alloy,
            0.0,
            float(part.length),
            tuple(MadeTaper(line.leg, line.end, float(line.run), float(line.slope)) for line in taper_lines(part)),
            tuple(MadeHole(hole.leg, float(hole.x), float(hole.y)) for hole in part.holes),
        )

    @property
    def can_be(self) -> bool:
        """Whether there is metal for it: every hole on the part, every taper within its length."""
        length = self.stop - self.start
        holes = all(self.start < h.x < self.stop and 0 < h.y < self.width(h.leg) for h in self.holes)
        wanted = self.wanted.section
        return length > 0 and holes and all(t.at(self.width(t.leg), float(wanted.leg(t.leg))) < length for t in self.tapers)

    # --- the metal at a place ---------------------------------------------------------------------
    def width(self, leg: str) -> float:
        """Width of a leg as made, away from its tapers [in]."""
        return float(self.section.leg(leg)) - self.filed[LEGS.index(leg)]

    def _out(self, leg: str, end: int) -> float:
        return (self.out_1 if end == 1 else self.out_2)[LEGS.index(leg)]

    def taper(self, leg: str, end: int) -> MadeTaper | None:
        return next((t for t in self.tapers if (t.leg, t.end) == (leg, end)), None)

    def line_x(self, taper: MadeTaper, y: float, depth: float = 0.0) -> float:
        """x of a taper's sawn face at a height, and at a depth behind the leg's outer face."""
        distance = taper.at(y, float(self.wanted.section.leg(taper.leg)), depth)
        return distance if taper.end == 1 else float(self.wanted.length) - distance

    def span(self, leg: str, height: float) -> tuple[float, float]:
        """From where to where along x there is metal at a height on the outer face of a leg [in].

        A taper cuts the whole angle: of the other leg it takes what lies beyond its line.
        """
        low = self.start + self._out(leg, 1) * height
        high = self.stop + self._out(leg, 2) * height
        for taper in self.tapers:
            x = self.line_x(taper, height) if taper.leg == leg else self.line_x(taper, 0.0, height)
            low, high = (max(low, x), high) if taper.end == 1 else (low, min(high, x))
        return low, high

    def height_at_end(self, leg: str, end: int, inside: bool = False) -> float:
        """Height of a leg at an end, from the heel, on the outer or the inner face [in]."""
        width, taper = self.width(leg), self.taper(leg, end)
        if taper is None:
            return width
        # Where the line meets the end's plane: both run along the leg with a slope.
        depth = float(self.section.thickness(leg)) if inside else 0.0
        lean = self._out(other_leg(leg), end) * depth
        foot = taper.at(0.0, float(self.wanted.section.leg(leg)), depth)
        if end == 1:
            y = (self.start + lean - foot) / (taper.slope - self._out(leg, end))
        else:
            y = (float(self.wanted.length) - self.stop - lean - foot) / (taper.slope + self._out(leg, end))
        return min(width, max(0.0, y))


def readings_of(made: Made) -> dict[str, float]:
    """Everything that can be read on the made part: name -> value [in], and the weight [lb].

    Places along x are read from where the heel begins, which a taper cut too far has shortened.
    """
    first, last = made.span("A", 0.0)
    found = {"heel length": (last - first) * made.scale}
    for leg in LEGS:
        low, high = made.span(leg, made.width(leg))
        found[f"toe {leg} length"] = max(0.0, high - low) * made.scale
        for end in (1, 2):
            height = made.height_at_end(leg, end)
            found[f"width {leg} at end {end}"] = height
            if made.wanted.taper_at(leg, end) is not None:
                if has_inside_edge(made.wanted, leg, end):
                    thickness = float(made.section.thickness(other_leg(leg)))
                    found[f"inside width {leg} at end {end}"] = max(0.0, made.height_at_end(leg, end, inside=True) - thickness)
                found[f"taper start {leg} at end {end}"] = (low - first if end == 1 else last - high) * made.scale
        found[f"thickness {leg}"] = float(made.section.thickness(leg))
        middle = made.width(leg) - float(made.section.thickness(other_leg(leg)))
        found[f"inside width {leg}"] = middle
    for number, hole in enumerate(made.holes, start=1):
        found[f"hole {number} x"] = (hole.x - first) * made.scale
        found[f"hole {number} y"] = hole.y
    if made.alloy[:4] in ALLOYS:
        found["weight"] = _weight(made)
    return found


def has_inside_edge(part: Part, leg: str, end: int) -> bool:
    """Whether a caliper finds an edge to read a tapered leg's inside width on, at the end.

    Where the other leg is tapered there too, its cut bevels the inner face that the reading is taken from.
    """
    return part.taper_at(leg, end) is not None and part.taper_at(other_leg(leg), end) is None


def _weight(made: Made) -> float:
    """Weight [lb]: the wanted part's, scaled by the made section, length and alloy; a scale shows no more."""
    ratio = made.section.area / made.wanted.section.area * (made.stop - made.start) / float(made.wanted.length)
    return _volume(made.wanted) * ratio * density(made.alloy)


@lru_cache(maxsize=64)
def _volume(part: Part) -> float:
    return solid_of(part).volume


def seven_readings(part: Part) -> tuple[str, ...]:
    """The seven readings that tell most with fewest, as far as this part has them.

    Taper start on the toe, both toe lengths, far hole x, inside width at the tapered end, leg width
    at the other end, near hole y; parts without tapers or holes give widths and lengths instead. Where
    both legs are tapered at the end, the width is read outside.
    """
    chosen = []
    taper = next(iter(sorted(part.tapers, key=lambda t: (t.end, t.leg))), None)
    if taper is not None:
        chosen.append(f"taper start {taper.leg} at end {taper.end}")
    chosen += ["toe A length", "toe B length"]
    if part.holes:
        far = max(range(len(part.holes)), key=lambda i: part.holes[i].x)
        near = min(range(len(part.holes)), key=lambda i: part.holes[i].x)
        chosen += [f"hole {far + 1} x", f"hole {near + 1} y"]
    if taper is not None:
        inside = "inside " if has_inside_edge(part, taper.leg, taper.end) else ""
        chosen += [f"{inside}width {taper.leg} at end {taper.end}", f"width {taper.leg} at end {3 - taper.end}"]
    spare = ["heel length", "width A at end 1", "width B at end 1", "inside width A", "inside width B", "thickness A", "thickness B"]
    for name in spare:
        if len(chosen) >= 7:
            break
        if name not in chosen:
            chosen.append(name)
    return tuple(chosen)
