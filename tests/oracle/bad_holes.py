"""Random parts with one random hole, and what the hole runs into, from shapely's polygons of the drawing's numbers.

What a cut takes of a leg's face is a polygon: the leg's rectangle beyond a saw's plane (through three points of the drawing),
a cope's rectangle with its rounded corner, a rounded corner beyond its arc; on the inner face also what the saw of the
other leg's taper takes there. A hole is a disc. It runs into what its disc meets; a hole into another where their discs meet.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction as F
from random import Random

import cutters
import oracle_parts
import solids
from shapely import Point, Polygon, box

from anglelib.errors import PartError
from anglelib.geometry.rounding import rounded_corners
from anglelib.geometry.taper import TaperLine
from anglelib.part import Corner, Part, Taper

NEAR = 2e-3
"""What is nearer to touching than this is drawn again: an arc is a polygon here [in]."""
KINDS = ("taper", "bevel", "cope", "corner", "hole")


@dataclass(frozen=True)
class Drawn:
    """A part whose last hole is in question: what it runs into, by (kind, end), the number of another hole for an end."""

    part: Part
    runs_into: frozenset[tuple[str, int]]
    clearance: float
    """From the hole's rim to what is nearest of all that it does not run into, or how deep it runs into the least of what it does [in]."""


def waste(part: Part, leg: str) -> dict[tuple[str, int], Polygon]:
    """What each cut takes of a leg, on the outer face, and what the other leg's tapers take of its inner face."""
    width, length = float(part.section.leg(leg)), float(part.length)
    face = box(0, 0, length, width)
    found = {}
    for taper in part.tapers:
        if taper.leg == leg:
            alone = replace(part, tapers=(taper,), holes=(), corners=(), copes=(), hand=None)
            found["taper", taper.end] = face.difference(cutters.tapered_leg(alone, leg))
            continue
        saw = solids.taper_saw(part.section, length, taper)
        depth = float(part.section.thickness(leg))
        # The saw's plane is square to the other leg, so that it crosses this one's inner face at one x.
        at = (saw.offset - saw.normal[2 if leg == "A" else 1] * depth) / saw.normal[0]
        low, high = (0.0, at) if taper.end == 1 else (at, length)
        if high - low > 0:
            found["bevel", taper.end] = box(low, 0, high, width)
    for cope in part.copes:
        if cope.leg == leg:
            found["cope", cope.end] = cutters.cope_outline(part, cope)
    for corner in part.corners:
        if corner.leg == leg:
            found["corner", corner.end] = cutters.corner_outline(part, corner)
    return found


def looked_at(part: Part) -> Drawn | None:
    """What the part's last hole runs into; None where it only just does, or only just does not."""
    *others, hole = part.holes
    centre, radius = Point(float(hole.x), float(hole.y)), float(hole.diameter) / 2
    runs, rooms, depths = set(), [], []
    for place, taken in waste(part, hole.leg).items():
        apart = taken.distance(centre) if not taken.contains(centre) else -taken.exterior.distance(centre)
        (depths if apart < radius else rooms).append(abs(apart - radius))
        if apart < radius:
            runs.add(place)
    for number, other in enumerate(others, 1):
        if other.leg == hole.leg:
            apart = Point(float(other.x), float(other.y)).distance(centre) - radius - float(other.diameter) / 2
            (depths if apart < 0 else rooms).append(abs(apart))
            if apart < 0:
                runs.add(("hole", number))
    if min(rooms + depths, default=1.0) < NEAR:
        return None
    return Drawn(part, frozenset(runs), min(depths or rooms, default=1.0))


def random_part(rng: Random) -> Part | None:
    """A part with cuts of every kind and with one hole more than it should have; None where the hole is not on the leg."""
    stock = oracle_parts.section(rng)
    length = F(rng.randint(3 * 16, 9 * 16), 16)
    places = [(leg, end) for leg in "AB" for end in (1, 2)]
    rng.shuffle(places)
    made = Part("P1", "Trial", stock, "6061-T6", length)
    for leg, end in places:
        kind, cuts = rng.choice(("taper", "taper", "vertex", "cope", "corner", "", "")), {}
        if kind == "taper":
            cuts["tapers"] = (*made.tapers, oracle_parts.taper(rng, stock, leg, end))
        elif kind == "vertex":
            cuts["tapers"] = (*made.tapers, Taper(leg, end, run=F(rng.randint(8, 48), 16), blunt=rng.choice((None, F(1, 64), F(1, 32)))))
        elif kind == "cope":
            cuts["copes"] = (*made.copes, oracle_parts.cope(rng, stock, length, leg, end))
        elif kind == "corner":
            cuts["corners"] = (*made.corners, Corner(leg, end, F(rng.randint(8, 64), 64)))
        made = _fitting(replace(made, **cuts)) or made
    holes = []
    for _ in range(rng.choice((0, 1, 3))):
        holes.append(oracle_parts.hole(rng, stock, length, rng.choice("AB")))
    last = oracle_parts.hole(rng, stock, length, rng.choice("AB"))
    if last is None:
        return None
    if rng.random() < 0.6:  # near an end, where the cuts are; anywhere else most holes are good
        x = F(rng.randint(int(last.diameter * 32), 96), 64)
        last = replace(last, x=x if rng.random() < 0.5 else length - x)
    if made.corners and rng.random() < 0.6:  # in the corner that is rounded off, or beside its arc
        corner, width = made.corners[0], stock.leg(made.corners[0].leg)
        at = 0 if (taper := made.taper_at(corner.leg, corner.end)) is None else F(TaperLine.of(stock, taper).run).limit_denominator(64)
        x = last.diameter / 2 + at + F(rng.randint(0, 24), 64)
        last = replace(last, leg=corner.leg, x=x if corner.end == 1 else max(F(0), length - x), y=width - last.diameter / 2 - F(rng.randint(0, 24), 64))
    if holes and holes[0] is not None and rng.random() < 0.3:  # near another
        beside = F(rng.randint(-20, 20), 64)
        last = replace(last, leg=holes[0].leg, x=max(last.diameter / 2, holes[0].x + beside), y=holes[0].y)
    try:
        return replace(made, holes=(*(hole for hole in holes if hole is not None), last))
    except PartError:
        return None


def _fitting(part: Part) -> Part | None:
    try:
        rounded_corners(part)
    except PartError:
        return None
    return part


def drawn(first: int):
    """Parts without end, from a seed on; each with what its last hole runs into."""
    seed = first
    while True:
        part = random_part(Random(f"bad hole {seed}"))
        seed += 1
        if part is not None and (found := looked_at(part)) is not None:
            yield found
