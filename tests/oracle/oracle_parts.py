"""Random sections, tapers and parts for the oracle tests: every one legal, every one repeatable.

Widths run from 1/2 to 3 in., thicknesses from 1/16 to 3/8, in sixty-fourths; legs and thicknesses
are equal in about a third of the sections, radii are zero in about a quarter.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from random import Random

from anglelib.errors import PartError
from anglelib.geometry.rounding import rounded_corners
from anglelib.part import Cope, Corner, Hole, Part, Taper
from anglelib.section import Section

GRAIN = 64


def _between(rng: Random, low: Fraction, high: Fraction) -> Fraction:
    """A sixty-fourth of an inch, from low to high."""
    return Fraction(rng.randint(-int(-low * GRAIN // 1), int(high * GRAIN)), GRAIN)


def section(rng: Random) -> Section:
    """A section with legs, thicknesses and radii of its own."""
    a, b = (_between(rng, Fraction(1, 2), Fraction(3)) for _ in "AB")
    ta, tb = (_between(rng, Fraction(1, 16), min(a, b, Fraction(3, 2)) / 4) for _ in "AB")
    if rng.random() < 0.35:
        b, tb = a, ta
    elif rng.random() < 0.5:
        tb = ta
    flat = min(a - tb, b - ta)
    toe = Fraction(0) if rng.random() < 0.25 else _between(rng, Fraction(0), min(ta, tb))
    fillet = Fraction(0) if rng.random() < 0.25 else _between(rng, Fraction(0), min(flat - toe, Fraction(3, 8)))
    heel = Fraction(0) if rng.random() < 0.6 else _between(rng, Fraction(0), min(ta, tb))
    return Section(a, b, ta, tb, fillet=fillet, toe_radius=toe, heel_radius=heel)


def taper(rng: Random, stock: Section, leg: str, end: int) -> Taper:
    """A taper that starts at the vertex, in the other leg, in the fillet, or on the flat."""
    width, root = stock.leg(leg), stock.thickness("B" if leg == "A" else "A")
    lows = {
        "vertex": (Fraction(0), Fraction(0)),
        "other-leg": (Fraction(0), root),
        "fillet": (root, root + stock.fillet),
        "flat": (root + stock.fillet, width - Fraction(1, GRAIN)),
    }
    low, high = lows[rng.choice(sorted(lows))]
    left = min(_between(rng, low, max(low, high)), width - Fraction(1, GRAIN))
    if rng.random() < 0.5:
        return Taper(leg, end, left, run=_between(rng, Fraction(1, 8), 4 * width))
    return Taper(leg, end, left, angle=Fraction(rng.randint(300, 8600), 100))


def part(rng: Random) -> Part:
    """A part with up to four tapers, and perhaps holes, copes and rounded corners, wherever they are legal.

    Holes may run into the fillet, into one another and over a taper's line: the metal is what it is.
    """
    stock = section(rng)
    length = _between(rng, Fraction(2), Fraction(20))
    places = [(leg, end) for leg in "AB" for end in (1, 2)]
    rng.shuffle(places)
    count = rng.choice((0, 1, 1, 1, 2, 2, 3, 4))
    tapers = [taper(rng, stock, leg, end) for leg, end in places[:count]]
    copes = [cope(rng, stock, length, leg, end) for leg, end in places[count:] if rng.random() < 0.25]
    holes = [found for leg in "AABB" if rng.random() < 0.25 and (found := hole(rng, stock, length, leg))]
    made = Part("P1", "Trial", stock, "6061-T6", length, tapers=tapers, holes=holes, copes=copes)
    for leg, end in places:
        if rng.random() < 0.2:
            rounded = replace(made, corners=(*made.corners, Corner(leg, end, _between(rng, Fraction(1, 32), Fraction(1, 2)))))
            made = rounded if _fits(rounded) else made
    return made


def hole(rng: Random, stock: Section, length: Fraction, leg: str) -> Hole | None:
    """A hole on a leg, clear of the other leg and of the toe; None where the leg is too narrow."""
    radius = Fraction(rng.choice((3, 4, 5, 6)), 64)
    low, high = stock.thickness("B" if leg == "A" else "A") + radius, stock.leg(leg) - radius
    if low > high:
        return None
    return Hole(leg, _between(rng, radius, length - radius), _between(rng, low, high), 2 * radius)


def cope(rng: Random, stock: Section, length: Fraction, leg: str, end: int) -> Cope:
    """A cope that leaves at least the other leg's thickness, so that the heel stays whole."""
    root, width = stock.thickness("B" if leg == "A" else "A"), stock.leg(leg)
    left = _between(rng, root, width - Fraction(1, 16))
    across = _between(rng, Fraction(1, 4), length / 2)
    return Cope(leg, end, across, left, _between(rng, Fraction(1, 64), min(across, width - left, Fraction(3, 8))))


def _fits(part: Part) -> bool:
    try:
        return bool(rounded_corners(part))
    except PartError:
        return False
