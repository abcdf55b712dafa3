"""The solid that is left: volume, weight and centroid of a finished part.

The part is its section swept along the heel, less what its cuts take: at (y, z) of the section the
metal runs along x from the later of what both legs' shapes allow at end 1 to the earlier at end 2,
and holes interrupt it. That length is integrated over the section, fillet and radii included, so
cuts that overlap are not counted twice. Holes are taken off at the fastener's diameter.

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

from collections.abc import Iterable
from dataclasses import dataclass
from math import fsum

from anglelib.alloy import density
from anglelib.errors import PartError
from anglelib.geometry.leg_shape import LegShape, Span, joined, root
from anglelib.geometry.quadrature import Vector, integrate_between_arcs
from anglelib.geometry.strips import crossings, over_section
from anglelib.geometry.taper import TaperLine
from anglelib.part import Part
from anglelib.section import Section

NO_METAL = 1e-12
"""The part of a stick that no integral can tell from nothing: a part that is left with less has no metal."""


@dataclass(frozen=True)
class Solid:
    """Volume [in3] of a part and its centroid (x from end 1, y along leg A, z along leg B) [in]."""

    volume: float
    centroid: tuple[float, float, float]

    def weight(self, alloy: str) -> float:
        """What the part weighs in an alloy [lb]."""
        return self.volume * density(alloy)


def solid_of(part: Part) -> Solid:
    """The finished part as a solid: everything its cuts and holes take is off its section times its length.

    PartError where a rounded corner does not fit on its edges, and where the cuts leave no metal.

    >>> from anglelib.part import Taper
    >>> stock = Section(1, 1, "1/16", fillet="1/4", heel_radius="3/8")
    >>> cuts = [Taper("A", 1, run=60), Taper("A", 2, run=60), Taper("B", 1, run=60)]
    >>> solid_of(Part("P1", "Sliver", stock, "6061-T6", 1, tapers=cuts))
    Traceback (most recent call last):
        ...
    anglelib.errors.PartError: The cuts of part P1 leave no metal: shorten a run, leave more width, or make the part longer.
    """
    regions = _regions(part)
    volume, x, y, z = (fsum(region[i] for region in regions) for i in range(4))
    if volume <= NO_METAL * part.section.area * float(part.length):
        raise PartError(f"The cuts of part {part.id} leave no metal: shorten a run, leave more width, or make the part longer.")
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


# --- what is left, by regions of the section ----------------------------------------------------------
def _regions(part: Part) -> list[Vector]:
    """Volume and first moments (x, y, z) of leg A's flat, leg B's flat, and the root where they meet.

    On a leg's flat the other leg cuts with nothing but its tapers, whose planes go through both.
    """
    section, swapped = part.section, part.section.swapped()
    a, b = LegShape.of(part, "A"), LegShape.of(part, "B")
    root_a, root_b = root(part, "A"), root(part, "B")
    regions = []
    if root_a < a.width:
        regions.append(_strips(section, a, b, (root_a, a.width), b.width))
    if root_b < b.width:
        regions.append(_exchanged(_strips(swapped, b, a, (root_b, b.width), a.width)))
    if _clear(b, root_b) or not _clear(a, root_a):
        regions.append(_strips(section, a, b, (0.0, root_a), root_b))
    else:
        regions.append(_exchanged(_strips(swapped, b, a, (0.0, root_b), root_a)))
    return regions


def _clear(shape: LegShape, height: float) -> bool:
    """Whether below a height nothing but tapers cuts the leg."""
    return min(shape.arcs, default=height) >= height


def _exchanged(moments: Vector) -> Vector:
    volume, x, y, z = moments
    return volume, x, z, y


def _strips(section: Section, along: LegShape, across: LegShape, heights: Span, top: float) -> Vector:
    """The moments of the strips between two heights on the leg ``along``, up to ``top`` on the other."""
    straight = heights[0] > 0 or _clear(across, top)
    bends = () if straight else across.arcs
    # To 1e-12 of the part; where copes or holes of both legs run into the fillet, to 1e-8.
    accuracy = section.area * along.length * (1 if straight else 1000)
    # Where the planes of both legs meet at a corner of the section.
    rims = (0.0, float(section.thickness_a), top)
    kinks = along.levels(*(place for z in rims for place in (across.start(z), across.stop(z))))

    def strip(y: float, z0: float, z1: float) -> Vector:
        z1 = min(z1, top)
        start, stop, gaps = along.start(y), along.stop(y), along.gaps(y)
        if z1 <= z0 or stop <= start:
            return (0.0,) * 4

        def metal(z: float) -> Vector:
            first, last = max(start, across.start(z)), min(stop, across.stop(z))
            length, moment = _left(first, last, gaps if straight else joined((*gaps, *across.gaps(z))))
            return length, moment, length * y, length * z

        breaks = (*bends, *across.levels(start, stop, *(place for gap in gaps for place in gap)))
        zs = sorted({z0, z1, *(z for z in breaks if z0 < z < z1)})
        pieces = [
            _simpson(metal, low, high) if straight else integrate_between_arcs(metal, low, high, accuracy / 10)
            for low, high in zip(zs, zs[1:], strict=False)
        ]
        return pieces[0] if len(pieces) == 1 else tuple(fsum(values) for values in zip(*pieces, strict=True))

    return over_section(section, strip, (*along.bends, *kinks, *crossings(section, top)), *heights, scale=accuracy)


def _left(first: float, last: float, gaps: Iterable[Span]) -> tuple[float, float]:
    """Length and first moment of the metal from ``first`` to ``last``, less the gaps."""
    if last <= first:
        return 0.0, 0.0
    length, moment = last - first, (last - first) * (last + first) / 2
    for low, high in gaps:
        low, high = max(low, first), min(high, last)
        if low < high:
            length, moment = length - (high - low), moment - (high - low) * (high + low) / 2
    return length, moment


def _simpson(metal, low: float, high: float) -> Vector:
    """An integral between two breaks: at most quadratic there, so Simpson's rule is exact."""
    thirds = (metal(low), metal((low + high) / 2), metal(high))
    return tuple((high - low) / 6 * (f0 + 4 * f1 + f2) for f0, f1, f2 in zip(*thirds, strict=True))
