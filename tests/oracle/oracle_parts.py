"""Random sections, tapers and parts for the oracle tests: every one legal, every one repeatable.

Widths run from 1/2 to 3 in., thicknesses from 1/16 to 3/8, in sixty-fourths; legs and thicknesses
are equal in about a third of the sections, radii are zero in about a quarter.
"""

from __future__ import annotations

from fractions import Fraction
from random import Random

from anglelib.part import Hole, Part, Taper
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
        "other leg": (Fraction(0), root),
        "fillet": (root, root + stock.fillet),
        "flat": (root + stock.fillet, width - Fraction(1, GRAIN)),
    }
    low, high = lows[rng.choice(sorted(lows))]
    left = min(_between(rng, low, max(low, high)), width - Fraction(1, GRAIN))
    if rng.random() < 0.5:
        return Taper(leg, end, left, run=_between(rng, Fraction(1, 8), 4 * width))
    return Taper(leg, end, left, angle=Fraction(rng.randint(300, 8600), 100))


def part(rng: Random, holes: bool = True) -> Part:
    """A part with one to four tapers and, perhaps, a hole that clears the fillet and every taper."""
    stock = section(rng)
    places = [(leg, end) for leg in "AB" for end in (1, 2)]
    chosen = rng.sample(places, rng.choice((1, 1, 1, 2, 2, 3, 4)))
    tapers = [taper(rng, stock, leg, end) for leg, end in chosen]
    length = _between(rng, Fraction(2), Fraction(20))
    bored = []
    if holes:
        diameter = Fraction(rng.choice((3, 4, 5, 6)), 32)
        for leg in "AB":
            other = "B" if leg == "A" else "A"
            low = stock.thickness(other) + stock.fillet + diameter / 2
            high = stock.leg(leg) - stock.toe_radius - diameter / 2
            tapered = any(t.leg == leg for t in tapers) or any(t.width_left < stock.thickness(leg) for t in tapers)
            if low < high and not tapered:
                bored.append(Hole(leg, length / 2, _between(rng, low, high), diameter))
    return Part("P1", "Trial", stock, "6061-T6", length, tapers=tapers, holes=bored)
