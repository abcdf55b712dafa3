"""The volume of a usual part at once: straight stock less its tapers and holes, by the formula of one taper.

The general solid (:mod:`anglelib.geometry.solid`) is right for every part and takes a slider's whole time. Where no
cut meets another, the cuts can be taken off one by one; where one does, the general solid is asked.

>>> from anglelib.part import Taper
>>> from anglelib.section import Section
>>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
>>> bracket = Part("C1L", "Bracket", stock, "6061-T6", "4 3/4", tapers=[Taper("A", 1, run="2 1/8")])
>>> abs(volume(bracket) / solid_of(bracket).volume - 1) < 1e-9, cuts_apart(bracket)
(True, True)
"""

from __future__ import annotations

from functools import lru_cache
from math import fsum, pi

from anglelib.geometry.lazy import formulas
from anglelib.geometry.solid import first_moment_beyond, solid_of
from anglelib.geometry.taper import taper_lines
from anglelib.part import Hole, Part
from anglelib.section import Section, other_leg


@lru_cache(maxsize=256)
def _first_moment(section: Section, leg: str, height: float) -> float:
    return first_moment_beyond(section, leg, height)


def cuts_apart(part: Part) -> bool:
    """Whether no cut of a part meets another: at most one taper an end, holes on the flat and clear of every taper."""
    if part.copes or part.corners or any(taper.blunt for taper in part.tapers) or len({taper.end for taper in part.tapers}) < len(part.tapers):
        return False
    lines = taper_lines(part)
    if fsum(float(line.run) for line in lines) > part.length:
        return False
    return all(_clear(part, hole, lines) for hole in part.holes)


def _clear(part: Part, hole: Hole, lines) -> bool:
    """Whether a hole lies on the flat of its leg, and all of it in metal that no taper takes."""
    section, radius = part.section, float(hole.diameter) / 2
    flat = float(section.thickness(other_leg(hole.leg)) + section.fillet)
    if float(hole.y) - radius < flat or float(hole.y) + radius > float(section.leg(hole.leg) - section.toe_radius):
        return False
    for line in lines:
        x = float(hole.x if line.end == 1 else part.length - hole.x)
        if line.leg == hole.leg and line.clearance(x, hole.y) < radius:
            return False
        if line.leg != hole.leg and line.vertex_projection is not None and x - radius < line.vertex_projection:
            return False
    others = [other for other in part.holes if other is not hole and other.leg == hole.leg]
    return all((hole.x - o.x) ** 2 + (hole.y - o.y) ** 2 >= ((hole.diameter + o.diameter) / 2) ** 2 for o in others)


def volume(part: Part) -> float:
    """The metal of the finished part [in3]."""
    if not cuts_apart(part):
        return solid_of(part).volume
    f, section = formulas(), part.section
    straight = section.area * float(part.length)
    tapers = (
        straight - f.tapered_volume(A=section.area, L=float(part.length), c=float(line.slope), Q=_first_moment(section, line.leg, float(line.width_left)))
        for line in taper_lines(part)
    )
    holes = (pi * float(hole.diameter / 2) ** 2 * float(section.thickness(hole.leg)) for hole in part.holes)
    return straight - fsum((*tapers, *holes))
