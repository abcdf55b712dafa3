"""The largest and the least part that pass: every length at the end of its tolerance that leaves most, or least, metal.

>>> from anglelib.part import Part, Taper
>>> from anglelib.section import Section
>>> from anglelib.paper.readings import tolerance
>>> stock = Section(1, 1, "1/8")
>>> part = Part("P1", "Trial", stock, "6061-T6", 4, tapers=[Taper("A", 1, "1/2", run=1)])
>>> largest, least = (limit_of(part, tolerance("1/32"), most) for most in (True, False))
>>> largest.tapers[0].run, largest.tapers[0].width_left, largest.length
(Fraction(31, 32), Fraction(17, 32), Fraction(129, 32))
>>> least.tapers[0].run, least.tapers[0].width_left, least.length
(Fraction(33, 32), Fraction(15, 32), Fraction(127, 32))
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from anglelib.errors import BenchError
from anglelib.geometry.rounding import rounded_corners
from anglelib.geometry.taper import TaperLine
from anglelib.paper.readings import Tolerance
from anglelib.part import Cope, Part


def limit_of(part: Part, allowed: Tolerance, most: bool) -> Part:
    """The part, without its holes, with most or least metal; widths of the stock are the mill's, and stay.

    The width left of a taper to the vertex has no tolerance below 0: the least part's line still runs to the vertex.
    """
    way = 1 if most else -1
    tapers = []
    for taper in part.tapers:
        line = TaperLine.of(part.section, taper)
        run = Fraction(line.run).limit_denominator(10**6)
        left = max(taper.width_left + way * _off(allowed, taper.width_left or line.width / 2), Fraction(0))
        left = min(left, (taper.width_left + line.width) / 2)
        tapers.append(replace(taper, run=max(run - way * _off(allowed, run), run / 2), width_left=left, angle=None))
    copes = [cope for cope in (_cope(part, cope, allowed, way) for cope in part.copes) if cope is not None]
    corners = [replace(corner, radius=max(corner.radius - way * _off(allowed, corner.radius), corner.radius / 2)) for corner in part.corners]
    length = part.length + way * _off(allowed, part.length)
    bare = replace(part, length=length, tapers=tuple(tapers), copes=tuple(copes), corners=(), holes=(), hand=None, mirror_of="")
    for rounded in (corners, part.corners):
        try:
            limit = replace(bare, corners=tuple(rounded))
            rounded_corners(limit)
        except BenchError:  # a larger radius than the edge is long
            continue
        return limit
    return bare


def _cope(part: Part, cope: Cope, allowed: Tolerance, way: int) -> Cope | None:
    """A cope at the end of its tolerances; its inside radius is no larger than it is deep or long. None where nothing of it is left."""
    other = part.section.thickness("B" if cope.leg == "A" else "A")
    length = cope.length - way * _off(allowed, cope.length)
    left = max(cope.width_left + way * _off(allowed, cope.width_left), other)
    depth = part.section.leg(cope.leg) - left
    if length <= 0 or depth <= 0:
        return None
    return replace(cope, length=length, width_left=left, radius=min(cope.radius, length, depth))


def _off(allowed: Tolerance, value: Fraction) -> Fraction:
    return allowed.of(value) or Fraction(0)
