"""Random parts as a shop is asked for them, with every feature, and with those that stand in each other's way.

A part is drawn from a family, so that what is rare is there too: crossing tapers, a cope and a rounded corner at opposite ends
of one leg, a taper and a rounded corner at one toe, a cope beside the other leg's taper, parts of 3/4 in. and of 60. Some are in
millimetres. Every hole is whole: its disc lies in the polygon of its leg's face (``caliper``), clear of its edges and of the other holes.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction as F
from random import Random

import caliper
from shapely import Point

from anglelib.errors import BenchError
from anglelib.geometry.rounding import rounded_corners
from anglelib.part import Cope, Corner, Hole, Part, Taper
from anglelib.section import Section

MM = F(10, 254)
STEP = {"in": F(1, 64), "mm": MM / 2}
CLEAR = 0.04
"""From a hole's rim to the nearest edge or rim, at least [in]."""


def between(rng: Random, low: F, high: F, unit: str) -> F:
    """A length on the unit's grid, from low to high (low where there is none)."""
    step = STEP[unit]
    first, last = -(-F(low) // step), F(high) // step
    return rng.randint(int(first), int(last)) * step if last >= first else F(low)


def section(rng: Random, unit: str) -> Section:
    """Legs of 1/2 to 3 in., a sixteenth to 3/8 thick; alike in a third, toes and heel rounded in some."""
    if unit == "mm":
        a, b, t = rng.choice(((30, 30, 3), (25, 25, 2), (40, 20, 3), (50, 30, 5), (20, 20, 2), (60, 40, 4)))
        legs, thick = (a * MM, b * MM), (t * MM, t * MM if rng.random() < 0.7 else (t + 1) * MM)
    else:
        legs = tuple(between(rng, F(1, 2), F(3), unit) for _ in "AB")
        thick = tuple(between(rng, F(1, 16), min(*legs, F(3, 2)) / 4, unit) for _ in "AB")
        if rng.random() < 0.35:
            legs, thick = (legs[0], legs[0]), (thick[0], thick[0])
    flat = min(legs[0] - thick[1], legs[1] - thick[0])
    toe = between(rng, F(0), min(thick) / 2, unit) if rng.random() < 0.5 else F(0)
    fillet = between(rng, F(0), min(flat - toe, F(1, 4)) / 2, unit) if rng.random() < 0.75 else F(0)
    heel = between(rng, F(0), min(thick), unit) if rng.random() < 0.25 else F(0)
    return Section(*legs, *thick, fillet=fillet, toe_radius=toe, heel_radius=heel)


def other(leg: str) -> str:
    return "B" if leg == "A" else "A"


def taper(rng: Random, stock: Section, length: F, leg: str, end: int, unit: str, left: F | None = None, most: F = F(3)) -> Taper:
    """A taper of any width left, a third of them to the vertex; by its run or by its angle; blunted where the plans say so."""
    width, blunt = stock.leg(leg), None
    if left is None:
        left = F(0) if rng.random() < 0.35 else between(rng, F(1, 32), width - F(1, 8), unit)
    if not left and rng.random() < 0.4:
        blunt = rng.choice((F(1, 32), F(3, 64), F(1, 64))) if unit == "in" else rng.choice((MM / 2, MM))
    if rng.random() < 0.3:
        return Taper(leg, end, left, angle=F(rng.randint(16, 150), 2), blunt=blunt)
    return Taper(leg, end, left, run=between(rng, F(1, 8), min(most, max(F(1, 4), length * F(7, 10))), unit), blunt=blunt)


def cope(rng: Random, stock: Section, length: F, leg: str, end: int, unit: str) -> Cope:
    """A cope that leaves at least the other leg's thickness."""
    root, width = stock.thickness(other(leg)), stock.leg(leg)
    left = between(rng, root, width - F(1, 8), unit)
    back = between(rng, F(1, 8), min(length / 2, F(3)), unit)
    return Cope(leg, end, back, left, between(rng, F(1, 32), min(back, width - left, F(3, 8)), unit))


def corner(rng: Random, stock: Section, leg: str, end: int, unit: str) -> Corner:
    return Corner(leg, end, between(rng, F(1, 16), min(F(1), stock.leg(leg) - stock.thickness(other(leg))), unit))


# --- families -----------------------------------------------------------------------------------------------
Cuts = dict[str, tuple]


def anything(rng: Random, stock: Section, length: F, unit: str) -> Cuts:
    cuts: dict[str, list] = {"tapers": [], "copes": [], "corners": []}
    for leg in "AB":
        for end in (1, 2):
            kind = rng.choice(("", "", "taper", "cope", "corner", "taper and corner"))
            if "taper" in kind:
                cuts["tapers"].append(taper(rng, stock, length, leg, end, unit))
            if kind == "cope":
                cuts["copes"].append(cope(rng, stock, length, leg, end, unit))
            if "corner" in kind:
                cuts["corners"].append(corner(rng, stock, leg, end, unit))
    return {key: tuple(found) for key, found in cuts.items()}


def cope_and_corner(rng: Random, stock: Section, length: F, unit: str) -> Cuts:
    leg, end = rng.choice("AB"), rng.choice((1, 2))
    return {"copes": (cope(rng, stock, length, leg, end, unit),), "corners": (corner(rng, stock, leg, 3 - end, unit),)}


def crossing(rng: Random, stock: Section, length: F, unit: str) -> Cuts:
    leg = rng.choice("AB")
    runs = [between(rng, length / 2, length * F(3, 2), unit) for _ in "12"]
    left = [F(0) if rng.random() < 0.3 else between(rng, F(1, 16), stock.leg(leg) * F(3, 4), unit) for _ in "12"]
    return {"tapers": tuple(Taper(leg, end, left[end - 1], run=runs[end - 1]) for end in (1, 2))}


def taper_and_corner(rng: Random, stock: Section, length: F, unit: str) -> Cuts:
    leg, end = rng.choice("AB"), rng.choice((1, 2))
    more = (corner(rng, stock, other(leg), end, unit),) if rng.random() < 0.5 else ()
    return {"tapers": (taper(rng, stock, length, leg, end, unit),), "corners": (corner(rng, stock, leg, end, unit), *more)}


def cope_beside_taper(rng: Random, stock: Section, length: F, unit: str) -> Cuts:
    leg, end = rng.choice("AB"), rng.choice((1, 2))
    more = (taper(rng, stock, length, leg, 3 - end, unit),) if rng.random() < 0.5 else ()
    return {"copes": (cope(rng, stock, length, leg, end, unit),), "tapers": (taper(rng, stock, length, other(leg), end, unit), *more)}


def cope_and_taper(rng: Random, stock: Section, length: F, unit: str) -> Cuts:
    """A cope and a taper at opposite ends of one leg, which may meet; or both on one leg at one end."""
    leg, end = rng.choice("AB"), rng.choice((1, 2))
    where = end if rng.random() < 0.25 else 3 - end
    return {"copes": (cope(rng, stock, length, leg, end, unit),), "tapers": (taper(rng, stock, length, leg, where, unit, most=length * F(3, 2)),)}


def half_round(rng: Random, stock: Section, length: F, unit: str) -> Cuts:
    leg = rng.choice("AB")
    radius = min(length / 2, stock.leg(leg) - stock.thickness(other(leg)))
    return {"corners": tuple(Corner(leg, end, radius) for end in (1, 2))}


FAMILIES: tuple[tuple[str, Callable, tuple[F, F]], ...] = (
    ("anything", anything, (F(2), F(20))),
    ("cope and corner", cope_and_corner, (F(1), F(9))),
    ("crossing", crossing, (F(2), F(9))),
    ("taper and corner", taper_and_corner, (F(3, 2), F(12))),
    ("cope beside taper", cope_beside_taper, (F(3, 2), F(12))),
    ("short", anything, (F(3, 4), F(3, 4))),
    ("long", anything, (F(60), F(60))),
    ("cope and taper", cope_and_taper, (F(3, 2), F(12))),
    ("anything", anything, (F(2), F(20))),
    ("half round", half_round, (F(3, 4), F(3))),
)


def holes(rng: Random, part: Part) -> tuple[Hole, ...]:
    """Up to four holes that are whole in the metal of a part."""
    metal, found = caliper.made(part, edge=1 / 64), []
    unit = part.unit
    for _ in range(12):
        leg = rng.choice("AB")
        diameter = rng.choice((F(1, 8), F(5, 32), F(3, 16))) if unit == "in" else rng.choice((3, 4)) * MM
        root = part.section.thickness(other(leg))
        x, y = between(rng, diameter, part.length - diameter, unit), between(rng, root + diameter / 2, part.section.leg(leg) - diameter / 2, unit)
        rim = Point(float(x), float(y)).buffer(float(diameter / 2) + CLEAR)
        apart = all(leg != one.leg or Point(float(one.x), float(one.y)).distance(rim) > float(one.diameter / 2) for one in found)
        whole = all(face.buffer(1e-9).contains(rim) for face in (metal.outer[leg], metal.inner[leg]))
        if apart and whole:
            found.append(Hole(leg, x, y, diameter))
        if len(found) == 4:
            break
    return tuple(found[: rng.randint(0, 4)])


def drawn(seed: int) -> tuple[str, Part]:
    """The part of a number, and the family that it is of."""
    name, cuts, (low, high) = FAMILIES[seed % len(FAMILIES)]
    rng = Random(f"whole part {seed}")
    while True:
        unit = "mm" if rng.random() < 0.3 else "in"
        try:
            stock = section(rng, unit)
            length = between(rng, low, high, unit)
            if unit == "mm" and low == high:
                length = round(low / MM) * MM
            part = Part(f"P{seed}", "Trial", stock, "6061-T6", length, **cuts(rng, stock, length, unit), unit=unit)
            rounded_corners(part)
            if min(face.area for face in caliper.made(part, edge=1 / 64).outer.values()) < 0.02:
                continue
            return name, replace(part, holes=holes(rng, part))
        except BenchError:
            continue
