"""The largest and the least part that pass: every dimension at the end of its limits that leaves most, or least, metal.

The one place that holds a part's outline at its limits: the readings' low and high, the check print's two lines and the
worst edge distances of the holes are all read off it. A taper is held to its run, or to its angle where the plans
give that; never to both. The section's own sizes are the mill's, and stay.

>>> from anglelib.section import Section
>>> stock = Section(1, 1, "1/8")
>>> part = Part("P1", "Trial", stock, "6061-T6", 4, tapers=[Taper("A", 1, "1/2", run=1)])
>>> largest, least = (at_limit(part, Limits.named("1/32"), most) for most in (True, False))
>>> largest.tapers[0].run, largest.tapers[0].width_left, largest.length
(Fraction(31, 32), Fraction(17, 32), Fraction(129, 32))
>>> least.tapers[0].run, least.tapers[0].width_left, least.length
(Fraction(33, 32), Fraction(15, 32), Fraction(127, 32))
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import product
from typing import NamedTuple

from anglelib.geometry.leg_shape import LegShape
from anglelib.geometry.rounding import SharpCorner, arc_at, tangent_length
from anglelib.geometry.taper import TaperLine
from anglelib.part import ENDS, Cope, Corner, Part, Taper, other_end
from anglelib.section import other_leg
from anglelib.tolerances import Limits

FINE = 10**6
"""A number from an angle is taken to this denominator [1/in]."""


class Ways(NamedTuple):
    """Which way each kind of dimension strays: 1 leaves more metal, -1 less. ``along``: runs, angles, copes' lengths; ``left``: widths left, radii, edges."""

    length: int
    along: int
    left: int


MOST, LEAST = Ways(1, 1, 1), Ways(-1, -1, -1)
EVERY = tuple(Ways(*ways) for ways in product((1, -1), repeat=3))
"""All corners of what the limits allow: a reading that several dimensions move is at its low and high in two of them."""


def at_limit(part: Part, limits: Limits, most: bool, first: int = 1) -> Part:
    """The part, without its holes, with the most or the least metal that its limits allow.

    A feather edge: most, it is sharp, least, it is broken or blunted as far as it may be. The line of a taper to the
    vertex runs to the vertex on the least part too. A rounding radius that no longer fits its edges is the largest that
    does; where the two of a toe do not fit together, the one at the end ``first`` is kept and the other gives way.
    """
    return strayed(part, limits, MOST if most else LEAST, first)


def strayed(part: Part, limits: Limits, ways: Ways, first: int = 1) -> Part:
    """The part, without its holes, with each kind of dimension at one end of its limits."""
    length = part.length + ways.length * limits.length(part.length)
    tapers = tuple(_taper(part, taper, limits, ways) for taper in part.tapers)
    copes = tuple(cope for cope in (_cope(part, cope, limits, ways, length) for cope in part.copes) if cope is not None)
    bare = replace(part, length=length, tapers=tapers, copes=copes, corners=(), holes=(), hand=None, mirror_of="")
    smallest = {(c.leg, c.end): _radius(c, limits, 1) for c in part.corners}
    return replace(bare, corners=_fitted(bare, [replace(c, radius=_radius(c, limits, ways.left)) for c in part.corners], smallest, first))


def least_parts(part: Part, limits: Limits) -> tuple[Part, ...]:
    """The least part, and those of as little metal on which an arc has more room: none that passes is nearer to a hole than all of these."""
    ways = (LEAST, LEAST._replace(length=1)) if part.corners else (LEAST,)
    return tuple(dict.fromkeys(strayed(part, limits, way, first) for way in ways for first in (ENDS if part.corners else (1,))))


def outline_at_limit(part: Part, limits: Limits, most: bool, leg: str) -> LegShape:
    """A leg without its holes that no part which passes stands out of, or (the least) that lies in all of them, end for end.

    Its arcs are what each end may have for itself: a half-round clip passes with one radius large and the other small, and
    a part that is long has room for a larger one.
    """
    limit = at_limit(part, limits, most)
    roomy = strayed(part, limits, Ways(1, 1, 1 if most else -1))
    arcs = []
    for corner in part.corners:
        if corner.leg == leg:
            sharp = SharpCorner.of(limit, leg, corner.end)
            room = min(sharp.edge, SharpCorner.of(roomy, leg, corner.end).toe)
            radius = _radius(corner, limits, 1 if most else -1)
            reach = tangent_length(sharp.angle, float(radius))
            fitted = replace(corner, radius=Fraction(min(1.0, room / reach) * float(radius)).limit_denominator(10**9))
            arcs.append(arc_at(sharp, fitted, float(limit.length)))
    return replace(LegShape.of(replace(limit, corners=()), leg), corners=tuple(arcs))


def _taper(part: Part, taper: Taper, limits: Limits, ways: Ways) -> Taper:
    way = ways.left
    line = TaperLine.of(part.section, taper)
    # A line to the vertex has no width left to hold: half-way up is as near as it can be measured.
    off = limits.length(taper.width_left or float(line.width / 2))
    left = min(max(taper.width_left + way * off, Fraction(0)), (taper.width_left + line.width) / 2)
    blunt = None
    if not left and way < 0:
        blunt = taper.edge if taper.blunt is None else taper.blunt + limits.length(taper.blunt)
        blunt = min(blunt, line.other_thickness * Fraction(7, 8))
    if taper.angle is not None:
        height = float(line.width - taper.width_left)
        off_angle = limits.angle(min(height, float(line.run)))
        angle = min(max(taper.angle + ways.along * off_angle, taper.angle / 2), (taper.angle + 90) / 2)
        return replace(taper, angle=angle, width_left=left, blunt=blunt)
    run = Fraction(line.run)
    return replace(taper, run=max(run - ways.along * limits.length(run), run / 2), width_left=left, blunt=blunt)


def _cope(part: Part, cope: Cope, limits: Limits, ways: Ways, length: Fraction) -> Cope | None:
    """A cope at the end of its limits; its inside radius is no larger than it is deep or long. None where nothing of it is left."""
    other = part.section.thickness(other_leg(cope.leg))
    back = min(cope.length - ways.along * limits.length(cope.length), (cope.length + length) / 2)
    left = max(cope.width_left + ways.left * limits.length(cope.width_left), other)
    depth = part.section.leg(cope.leg) - left
    if back <= 0 or depth <= 0:
        return None
    return replace(cope, length=back, width_left=left, radius=min(cope.radius, back, depth))


def _radius(corner: Corner, limits: Limits, way: int) -> Fraction:
    return max(corner.radius - way * limits.radius(corner.radius), corner.radius / 2)


def _fitted(bare: Part, corners: list[Corner], smallest: dict[tuple[str, int], Fraction], first: int) -> tuple[Corner, ...]:
    """The corners with the largest radii up to their own that fit; of the two of a toe the one at the end ``first`` before the other.

    It leaves room for the smallest radius that the other one passes with.
    """
    sharp = {(c.leg, c.end): SharpCorner.of(bare, c.leg, c.end) for c in corners}
    kept = {place: tangent_length(sharp[place].angle, float(radius)) for place, radius in smallest.items()}
    found = {}
    for corner in sorted(corners, key=lambda one: one.end != first):
        place, other = (corner.leg, corner.end), (corner.leg, other_end(corner.end))
        room = min(sharp[place].edge, sharp[place].toe - kept.get(other, 0.0))
        reach = tangent_length(sharp[place].angle, float(corner.radius))
        if reach > room:  # a hair inside, so that it fits
            radius = Fraction(max(0.0, room) / reach * float(corner.radius) * (1 - 1e-9)).limit_denominator(10**9)
            if radius <= 0:
                del kept[place]
                continue
            corner, reach = replace(corner, radius=radius), room
        found[place], kept[place] = corner, reach
    return tuple(found[corner.leg, corner.end] for corner in corners if (corner.leg, corner.end) in found)
