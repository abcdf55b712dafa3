"""Fasteners beside one another and beside the fillet: pitch, heads that face each other across the heel, what is drilled, how long a rivet is.

Nothing here is an error against a part: what is too close is said, and the plans decide. A hole that is not whole in
the metal is refused elsewhere (:mod:`anglelib.geometry.whole_holes`).

>>> from anglelib.section import Section
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> row = Part("P1", "Trial", stock, "6061-T6", 6, holes=[Hole("A", x, "7/16", "1/8") for x in (1, "1 1/4", 3)])
>>> [round(pitch, 2) for _, _, pitch in pitches(row, "A")], [(str(one.x), str(two.x)) for one, two, _ in close(row)]
([2.0, 14.0], [('1', '5/4')])
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations
from math import hypot

from anglelib.geometry.lazy import formulas
from anglelib.part import Hole, Part
from anglelib.section import LEGS, Section, other_leg

HEAD = Fraction(2)
"""Diameter of a universal head in rivet diameters (from memory: MS20470); a bolt's head or nut is about as wide."""
TAIL = Fraction(1, 2)
"""Height of a driven rivet's tail in diameters; common practice. (An aircraft's repair manual gives 0.063 in. for 1/8 rivets.)"""
PITCH = Fraction(3)
"""Least pitch in diameters: AL0992, "Rivet Spacing and Edge Distance", and NAVEDTRA 14018 ch. 13, "Spacing and Edge Distance"; both seen."""


# --- pitch ------------------------------------------------------------------------------------------------------
def pitches(part: Part, leg: str) -> tuple[tuple[Hole, Hole, float], ...]:
    """Neighbouring holes of a leg with the distance of their centres in diameters of the larger. Information, no verdict.

    All pairs of the leg are looked at, not only those that follow one another along the heel: two holes are neighbours
    where no third is nearer to both of them than they are to each other.
    """
    row = part.holes_in(leg)
    found = []
    for one, two in combinations(row, 2):
        apart = _apart(one, two)
        others = (third for third in row if third is not one and third is not two)
        if all(max(_apart(one, third), _apart(two, third)) >= apart for third in others):
            found.append((one, two, _in_diameters(one, two)))
    return tuple(found)


def close(part: Part) -> tuple[tuple[Hole, Hole, float], ...]:
    """Every pair of holes of one leg nearer to each other than the least pitch, with its pitch in diameters of the larger."""
    pairs = ((part.holes[one], part.holes[two]) for one, two in near_pairs(part, PITCH))
    found = ((one, two, _in_diameters(one, two)) for one, two in pairs)
    return tuple((one, two, pitch) for one, two, pitch in found if pitch < PITCH - 1e-9)


def near_pairs(part: Part, diameters: Fraction) -> list[tuple[int, int]]:
    """The pairs of holes of one leg that lie within so many diameters of the larger along the heel, by their places in the part's list."""
    found = []
    for leg in LEGS:
        row = sorted((n for n, hole in enumerate(part.holes) if hole.leg == leg), key=lambda n: (part.holes[n].x, n))
        reach = diameters * max((part.holes[n].diameter for n in row), default=Fraction(0))
        for i, one in enumerate(row):
            for two in row[i + 1 :]:
                if part.holes[two].x - part.holes[one].x > reach:
                    break
                found.append((min(one, two), max(one, two)))
    return found


def _apart(one: Hole, two: Hole) -> float:
    return hypot(float(two.x - one.x), float(two.y - one.y))


def _in_diameters(one: Hole, two: Hole) -> float:
    return _apart(one, two) / float(max(one.diameter, two.diameter))


# --- heads ------------------------------------------------------------------------------------------------------
def head_clear(section: Section, leg: str, diameter: Fraction) -> Fraction:
    """How far from the heel's outside a hole's centre must be for its head to clear the fillet [in].

    >>> head_clear(Section("3/4", "3/4", "1/8", fillet="1/8"), "A", Fraction(1, 8))
    Fraction(3, 8)
    """
    return formulas().row_start(t=section.thickness(other_leg(leg)), r=section.fillet, H_d=HEAD * diameter)


def on_fillet(part: Part, hole: Hole) -> Fraction:
    """How far a head, a nut or a tail inside would stand on the fillet [in]; 0 where it clears it.

    A hole that is off by its limits is not looked at: a hair over its edge the fillet is flat.
    """
    return max(Fraction(0), head_clear(part.section, hole.leg, hole.diameter) - hole.y)


@dataclass(frozen=True)
class Facing:
    """Two fasteners that face each other across the heel, and the room [in] between their heads or tails inside.

    Negative room: they collide. It says nothing of the room that a tool needs.
    """

    on_a: Hole
    on_b: Hole
    room: float


def facing(part: Part) -> tuple[Facing, ...]:
    """Fasteners of leg A and leg B near enough along the heel for their heads to meet inside the angle."""
    found = []
    for one, two in combinations(part.holes, 2):
        if one.leg == two.leg:
            continue
        on_a, on_b = (one, two) if one.leg == "A" else (two, one)
        radii = [float(HEAD * hole.diameter) / 2 for hole in (on_a, on_b)]
        if abs(float(on_a.x - on_b.x)) >= sum(radii):
            continue
        tails = [float(TAIL * hole.diameter) for hole in (on_a, on_b)]
        across = float(on_a.y) - radii[0] - (float(part.section.thickness("B")) + tails[1])
        along = float(on_b.y) - radii[1] - (float(part.section.thickness("A")) + tails[0])
        found.append(Facing(on_a, on_b, hypot(across, along) if across > 0 and along > 0 else max(across, along)))
    return tuple(found)


# --- what is drilled, what is driven -----------------------------------------------------------------------------
@dataclass(frozen=True)
class DrillSize:
    """What is drilled for a fastener: the number drill for the hole and the pilot drilled first; sizes [in]."""

    fastener: Fraction
    drill: str
    size: Fraction
    pilot: str


_NUMBER_DRILLS = "number drill sizes; pairing with rivets from memory, the plans rule"
DRILLS = {
    drill.fastener: drill
    for drill in (
        DrillSize(Fraction(3, 32), "no. 40", Fraction(98, 1000), "no. 51"),
        DrillSize(Fraction(1, 8), "no. 30", Fraction(1285, 10000), "no. 40"),
        DrillSize(Fraction(5, 32), "no. 21", Fraction(159, 1000), "no. 30"),
        DrillSize(Fraction(3, 16), "no. 11", Fraction(191, 1000), "no. 21"),
    )
}


def drill_for(diameter: Fraction) -> DrillSize | None:
    """What to drill for a fastener; None where the table has no row: then the plans say."""
    return DRILLS.get(diameter)


def rivet_length(grip: Fraction, diameter: Fraction) -> Fraction:
    """Length of a rivet for a grip [in]: grip plus one and a half diameters.

    >>> rivet_length(Fraction(1, 4), Fraction(1, 8))
    Fraction(7, 16)
    """
    return formulas().rivet_length(G=grip, D=diameter)
