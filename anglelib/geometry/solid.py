"""The solid that is left: volume, weight and centroid of a finished part.

The part is its section swept along the heel, less what each taper takes: at (y, z) of the section
the metal runs from the later of the two lines at end 1 to the earlier at end 2. That length is
integrated over the section, fillet and radii included; two tapers that overlap are not counted
twice. Located holes are taken off at the fastener's diameter. Rounded corners and copes are not
taken off here.

>>> from anglelib.part import Taper
>>> from anglelib.section import Section
>>> stick = Part("P1", "Trial", Section("1 1/2", "1 1/2", "1/8", fillet="3/16"), "6061-T6", 12)
>>> abs(solid_of(stick).volume - 12 * stick.section.area) < 1e-12
True
>>> solid_of(Part("P1", "Trial", stick.section, "alu", 12)).weight("alu")
Traceback (most recent call last):
    ...
anglelib.errors.SectionError: The density of alu is not in the table (6061, 6063, 2024, 7075): weigh a measured length instead.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import fsum, pi

from anglelib.alloy import density
from anglelib.geometry.quadrature import Vector
from anglelib.geometry.strips import over_section
from anglelib.geometry.taper import TaperLine, taper_lines
from anglelib.part import Part
from anglelib.section import Section


@dataclass(frozen=True)
class Solid:
    """Volume [in3] of a part and its centroid (x from end 1, y along leg A, z along leg B) [in]."""

    volume: float
    centroid: tuple[float, float, float]

    def weight(self, alloy: str) -> float:
        """What the part weighs in an alloy [lb]."""
        return self.volume * density(alloy)


def solid_of(part: Part) -> Solid:
    """The finished part as a solid: tapers and holes taken off its section times its length."""
    extent = _extent(part)
    swept = _over_section(part.section, extent)
    bored = [_hole(part, hole) for hole in part.holes]
    volume, x, y, z = (fsum([swept[i], *(-hole[i] for hole in bored)]) for i in range(4))
    return Solid(volume, (x / volume, y / volume, z / volume))


def first_moment_beyond(section: Section, leg: str, height: float) -> float:
    """First moment of the section's area beyond a height on a leg, about that height [in3].

    It is what a taper that starts at this height takes from the part, for each unit of slope.

    >>> round(first_moment_beyond(Section(1, 1, "1/8"), "A", 1), 12)
    0.0
    """

    def beyond(y: float, z0: float, z1: float) -> Vector:
        return (max(0.0, y - height) * (z1 - z0),)

    return over_section(section if leg == "A" else section.swapped(), beyond, kinks=(height,))[0]


def area_beyond(section: Section, leg: str, height: float) -> float:
    """Area of the section beyond a height on a leg [in2]; over the sine of the angle it is the cut face."""

    def beyond(y: float, z0: float, z1: float) -> Vector:
        return ((z1 - z0) if y > height else 0.0,)

    return over_section(section if leg == "A" else section.swapped(), beyond, kinks=(height,))[0]


def metal_to_sand(line: TaperLine, distance: float) -> float:
    """Volume between a taper's finished line and a saw line at a distance outside it [in3].

    The saw line leaves through the end where it is further from the vertex than the metal reaches.
    """
    along, start, slope = line.shift_along(distance), float(line.width_left), float(line.slope)

    def strip(y: float, z0: float, z1: float) -> Vector:
        return (max(0.0, min(along, (y - start) * slope)) * (z1 - z0),)

    section = line.section if line.leg == "A" else line.section.swapped()
    return over_section(section, strip, kinks=(start, line.offset(distance).end_height))[0]


# --- the extent of the metal along x ------------------------------------------------------------------
@dataclass(frozen=True)
class _Extent:
    """Where metal starts and stops along x at (y, z): planes x = x0 + p y + q z at either end."""

    starts: tuple[tuple[float, float, float], ...]
    stops: tuple[tuple[float, float, float], ...]
    kinks: tuple[float, ...]

    def at(self, y: float, z: float) -> tuple[float, float]:
        start = max(x0 + p * y + q * z for x0, p, q in self.starts)
        stop = min(x0 + p * y + q * z for x0, p, q in self.stops)
        return start, max(start, stop)

    def breaks(self, y: float, z0: float, z1: float) -> list[float]:
        """z0, z1, and every z between them where another plane takes over."""
        planes = (*self.starts, *self.stops)
        found = {z0, z1}
        for i, (x0, p, q) in enumerate(planes):
            for x0_other, p_other, q_other in planes[i + 1 :]:
                if q != q_other:
                    z = ((x0_other - x0) + (p_other - p) * y) / (q - q_other)
                    if z0 < z < z1:
                        found.add(z)
        return sorted(found)


def _extent(part: Part) -> _Extent:
    length = float(part.length)
    starts, stops, kinks = [(0.0, 0.0, 0.0)], [(length, 0.0, 0.0)], []
    for line in taper_lines(part):
        slope, lost = float(line.slope), float(line.width_left) * float(line.slope)
        p, q = (slope, 0.0) if line.leg == "A" else (0.0, slope)
        if line.end == 1:
            starts.append((-lost, p, q))
        else:
            stops.append((length + lost, -p, -q))
        if line.leg == "A":
            kinks.append(float(line.width_left))
    return _Extent(tuple(starts), tuple(stops), tuple(kinks))


def _over_section(section: Section, extent: _Extent) -> Vector:
    """Volume and its first moments (x, y, z) over the section."""

    def strip(y: float, z0: float, z1: float) -> Vector:
        zs = extent.breaks(y, z0, z1)
        return tuple(
            fsum(terms)
            for terms in zip(*(_simpson(extent, y, low, high) for low, high in zip(zs, zs[1:], strict=False)), strict=True)
        )

    kinks = list(extent.kinks)
    planes = [*extent.starts, *extent.stops]
    for i, (x0, p, q) in enumerate(planes):
        # Two planes of one leg meet at a fixed height: the crossing tapers of both ends.
        kinks += [(x0o - x0) / (p - po) for x0o, po, qo in planes[i + 1 :] if q == qo and p != po]
    return over_section(section, strip, tuple(kinks))


def _simpson(extent: _Extent, y: float, z0: float, z1: float) -> Vector:
    """The strip's integrals between two breaks: at most quadratic in z, so Simpson's rule is exact."""
    total = [0.0, 0.0, 0.0, 0.0]
    for z, weight in ((z0, 1 / 6), ((z0 + z1) / 2, 4 / 6), (z1, 1 / 6)):
        start, stop = extent.at(y, z)
        length = (stop - start) * weight * (z1 - z0)
        total[0] += length
        total[1] += length * (start + stop) / 2
        total[2] += length * y
        total[3] += length * z
    return tuple(total)


def _hole(part: Part, hole) -> Vector:
    thickness = float(part.section.thickness(hole.leg))
    volume = pi / 4 * float(hole.diameter) ** 2 * thickness
    along, through = float(hole.y), thickness / 2
    y, z = (along, through) if hole.leg == "A" else (through, along)
    return volume, volume * float(hole.x), volume * y, volume * z
