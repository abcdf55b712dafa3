"""Left, right, turned and mirrored, judged by laying one solid over another.

A mirror image is the solid reflected; a part is handed when no way of laying its stock down brings
the reflected solid back on to it. The kernel says what metal belongs to only one of two solids.
"""

from __future__ import annotations

from dataclasses import replace
from random import Random

import manifold3d
import oracle_parts
import pytest
import solids

from anglelib.part import Hole, Part, Taper
from anglelib.section import Section

NOTHING = 1e-9  # in3
EQUAL = Section(1, 1, "1/8", fillet="1/8", toe_radius="1/16")
UNEQUAL = Section(1, "3/4", "1/8", fillet="1/8")


def made(section: Section, *tapers: Taper, holes=()) -> Part:
    return Part("P1", "Trial", section, "6061-T6", 4, tapers=tapers, holes=holes)


def solid_of(part: Part) -> manifold3d.Manifold:
    """The part with coarse arcs: the same polygon whichever way it lies, so nothing is lost by it."""
    return solids.part_solid(part, steps=8)


def reflected(part: Part) -> manifold3d.Manifold:
    """The part in a mirror that stands square across its length."""
    return solid_of(part).mirror((1, 0, 0)).translate((float(part.length), 0, 0))


def turned_end_for_end(solid: manifold3d.Manifold, length: float) -> manifold3d.Manifold:
    """The solid turned half a turn about the line midway between its legs: x, y, z become L - x, z, y."""
    return solid.transform([[-1, 0, 0, length], [0, 0, 1, 0], [0, 1, 0, 0]])


def same_metal(one: manifold3d.Manifold, two: manifold3d.Manifold, part: Part) -> bool:
    """Whether one solid can be laid on the other, both on the same stock."""
    ways = [one]
    if part.section.equal_legs:
        ways.append(turned_end_for_end(one, float(part.length)))
    return any(solids.differ(way, two) < NOTHING for way in ways)


def check(part: Part) -> bool:
    """Compare all that the library says of the part's hand with its solid; whether it is handed."""
    solid, mirror = solid_of(part), reflected(part)
    assert same_metal(mirror, solid_of(part.mirrored()), part)
    if part.section.equal_legs:
        assert solids.differ(turned_end_for_end(solid, float(part.length)), solid_of(part.turned())) < NOTHING
    assert part.handed is not same_metal(mirror, solid, part)
    assert part.mirrors(part.mirrored()) and part.mirrored().mirrors(part)
    return part.handed


T = Taper("A", 1, "1/4", run=1)
CASES = {
    "plain stick": (made(EQUAL), False),
    "one taper": (made(EQUAL, T), True),
    "both legs at one end": (made(EQUAL, T, replace(T, leg="B")), False),
    "one leg at both ends": (made(EQUAL, T, replace(T, end=2)), False),
    "opposite legs at opposite ends": (made(EQUAL, T, replace(T, leg="B", end=2)), True),
    "all four": (made(EQUAL, *(Taper(leg, end, "1/4", run=1) for leg in "AB" for end in (1, 2))), False),
    "unequal, one taper": (made(UNEQUAL, T), True),
    "unequal, both ends alike": (made(UNEQUAL, T, replace(T, end=2)), False),
    "unequal, both legs at one end": (made(UNEQUAL, T, Taper("B", 1, "1/4", run=1)), True),
    "a hole in the middle": (made(EQUAL, holes=[Hole("A", 2, "5/8", "1/8")]), False),
    "a hole off the middle": (made(EQUAL, holes=[Hole("A", "1 3/4", "5/8", "1/8")]), True),
    "unequal, a hole in the middle": (made(UNEQUAL, holes=[Hole("A", 2, "5/8", "1/8")]), False),
    "unequal, a hole off the middle": (made(UNEQUAL, holes=[Hole("A", "2 1/16", "5/8", "1/8")]), True),
}


@pytest.mark.parametrize("case", CASES.values(), ids=CASES)
def test_hand_of_a_part(case):
    part, handed = case
    assert check(part) is handed


def made_symmetric(part: Part, rng: Random) -> Part:
    """The part with its first taper only, if it has one, and that taper's mirror image."""
    both = []
    for first in part.tapers[:1]:
        image = replace(first, end=3 - first.end)
        if part.section.equal_legs and rng.random() < 0.5:
            image = replace(first, leg="B" if first.leg == "A" else "A")
        both = [first, image]
    return replace(part, tapers=both, holes=(), copes=(), corners=())


def test_hand_of_random_parts():
    found = []
    for seed in range(120):
        rng = Random(f"hand {seed}")
        part = oracle_parts.part(rng)
        found.append(check(made_symmetric(part, rng) if seed % 3 == 0 else part))
    assert found.count(False) >= 40 and found.count(True) >= 70


@pytest.mark.parametrize("section", [EQUAL, UNEQUAL], ids=["equal", "unequal"])
def test_symmetric_and_near_symmetric_parts(section):
    """Two tapers that differ by a sixty-fourth make a part handed; the solids tell it as well."""
    for run in ("1", "1 1/64"):
        both = [T, replace(T, leg="B", run=run)] if section.equal_legs else [T, replace(T, end=2, run=run)]
        part = made(section, *(replace(t, run=t.run) for t in both))
        assert check(part) is (run != "1")
