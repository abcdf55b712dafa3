"""Parts that a count seldom has: both legs tapered at one end, tapers at both ends, copes, rounded corners; in inches or millimetres.

Every other one that is handed is its left or right partner, as a pair is made.
"""

from __future__ import annotations

from fractions import Fraction as F
from math import ceil, floor
from random import Random

from anglelib.errors import BenchError
from anglelib.inspection.reading_ids import chosen
from anglelib.part import Cope, Corner, Hole, Part, Taper
from anglelib.section import Section

MM = F(5, 127)
READ = {"heel", "toe", "width", "inside", "start", "mid", "thickness", "cope", "corner", "hole"}
"""The kinds of reading that the bench's metal can be measured for."""
KINDS = ("both legs", "both ends", "copes", "corners")


def rare_part(rng: Random, number: int, unit: str, kind: str) -> Part:
    """A legal part of one of these kinds, with one to three holes in the middle."""
    while True:
        try:
            part = _drawn(rng, number, unit, kind)
        except BenchError:
            continue
        if {id_.split(".")[0] for id_ in chosen(part)} <= READ:
            return part.mirrored() if part.handed and rng.random() < 0.5 else part


def _drawn(rng: Random, number: int, unit: str, kind: str) -> Part:
    step = F(1, 16) if unit == "in" else MM

    def size(low: float, high: float) -> F:
        """A round length between two [in]."""
        return rng.randint(ceil(low / float(step)), floor(high / float(step))) * step

    legs = [size(0.75, 2), size(0.75, 2)]
    if rng.random() < 0.6:
        legs[1] = legs[0]
    thick = rng.choice((F(1, 8), F(3, 16))) if unit == "in" else rng.choice((3, 5)) * MM
    length = size(5, 30)
    widths = dict(zip("AB", legs))

    def taper(leg: str, end: int) -> Taper:
        left = F(0) if rng.random() < 0.2 else size(0.2, float(widths[leg]) - 0.2)
        return Taper(leg, end, left, run=size(0.75, min(3, float(length) / 2 - 1)))

    def cope(leg: str, end: int) -> Cope:
        return Cope(leg, end, size(0.4, 1.25), size(float(thick) + 0.2, float(widths[leg]) - 0.2), thick)

    one, two = rng.choice("AB"), rng.choice("AB")
    tapers, copes, corners = [], [], []
    if kind == "both legs":
        end = rng.choice((1, 2))
        tapers = [taper("A", end), taper("B", end)] + ([taper(one, 3 - end)] if rng.random() < 0.3 else [])
    elif kind == "both ends":
        tapers = [taper(one, 1), taper(two, 2)]
    elif kind == "copes":
        end = rng.choice((1, 2))
        copes = [cope(one, end)] + ([cope(two, 3 - end)] if rng.random() < 0.5 else [])
        tapers = [taper(two, 3 - end)] if len(copes) == 1 and rng.random() < 0.5 else []
    else:
        end = rng.choice((1, 2))
        corners = [Corner(one, end, size(0.12, 0.5))] + ([Corner({"A": "B", "B": "A"}[one], end, size(0.12, 0.5))] if rng.random() < 0.5 else [])
        tapers = [taper(two, 3 - end)] if rng.random() < 0.5 else []
    holes = []
    for _ in range(rng.randint(1, 3)):
        leg = rng.choice("AB")
        holes.append(Hole(leg, size(float(length) * 0.4, float(length) * 0.6), (widths[leg] + thick) / 2, F(1, 8)))
    section = Section(legs[0], legs[1], thick, fillet=thick)
    return Part(f"S{number}", "Strange part", section, "6061-T6", length, tapers=tapers, holes=holes, copes=copes, corners=corners, unit=unit)


def rare_parts(rng: Random, count: int, units: tuple[str, ...] = ("in",)) -> list[Part]:
    """So many, of each kind as many."""
    return [rare_part(rng, n, units[n % len(units)], KINDS[n // len(units) % len(KINDS)]) for n in range(count)]
