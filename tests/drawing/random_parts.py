"""Parts of every shape for the drawing tests, the same ones each time."""

from __future__ import annotations

import random
from dataclasses import replace
from fractions import Fraction

from anglelib.errors import BenchError
from anglelib.geometry.rounding import rounded_corners
from anglelib.lengths import MM
from anglelib.part import Cope, Corner, Hole, Part, Taper
from anglelib.section import Section

F = Fraction


def section(rng: random.Random) -> Section:
    a = F(rng.randint(8, 40), 16)
    b = a if rng.random() < 0.6 else F(rng.randint(8, 40), 16)
    t = F(rng.choice((1, 2, 3, 4)), 16)
    tb = t if rng.random() < 0.8 else F(rng.choice((1, 2, 3, 4)), 16)
    fillet = rng.choice((F(0), t, t / 2, F(3, 16)))
    toe = rng.choice((F(0), F(0), t / 2, t))
    heel = rng.choice((F(0), F(0), t / 2))
    return Section(a, b, t, tb, fillet, toe, heel)


def part(seed: int) -> Part:
    """A legal part; every seventh has tapers on both legs at one end, some are longer than any sheet."""
    rng = random.Random(seed)
    while True:
        try:
            return _try(rng, seed)
        except BenchError:
            continue


def part_in_mm(seed: int) -> Part:
    """A legal part in millimetres, all its numbers on a metric rule: the same kinds of parts."""
    return _on_a_rule(seed, MM / 2, MM / 10, "mm")


def part_on_64ths(seed: int) -> Part:
    """A legal part, all its numbers on 64ths of an inch, so that six decimals of a millimetre say them exactly (25.4 / 64 = 0.396875)."""
    return _on_a_rule(seed, F(1, 64), F(1, 64), "in")


def _on_a_rule(number: int, step: F, finest: F, unit: str) -> Part:
    def whole(value: F, step: F = step) -> F:
        return max(round(value / step), 1) * step if value else value

    while True:
        one = part(number)
        s = one.section
        try:
            stock = Section(*(whole(v) for v in (s.leg_a, s.leg_b, s.thickness_a, s.thickness_b, s.fillet, s.toe_radius, s.heel_radius)))
            found = replace(
                one, section=stock, length=whole(one.length), unit=unit,
                tapers=tuple(replace(t, width_left=whole(t.width_left), run=t.run and whole(t.run)) for t in one.tapers),
                holes=tuple(replace(h, x=whole(h.x), y=whole(h.y), diameter=whole(h.diameter, finest)) for h in one.holes),
                corners=tuple(replace(c, radius=whole(c.radius)) for c in one.corners),
                copes=tuple(replace(c, length=whole(c.length), width_left=whole(c.width_left), radius=whole(c.radius)) for c in one.copes),
            )  # fmt: skip
            rounded_corners(found)
            return found
        except BenchError:
            number += 1000


def _try(rng: random.Random, seed: int) -> Part:
    stock = section(rng)
    length = F(rng.choice((rng.randint(24, 100), rng.randint(100, 400), rng.randint(400, 2000))), 16)
    tapers, holes, corners, copes = [], [], [], []
    for end in (1, 2):
        for leg in "AB":
            width = stock.leg(leg)
            what = rng.random()
            if what < 0.45:
                left = rng.choice((F(0), F(0), stock.thickness("A") / 2, F(rng.randint(1, 15), 16) * width))
                if rng.random() < 0.7:
                    tapers.append(Taper(leg, end, left, run=F(rng.randint(8, 64), 16)))
                else:
                    tapers.append(Taper(leg, end, left, angle=F(rng.randint(20, 140), 2)))
                if rng.random() < 0.15:
                    corners.append(Corner(leg, end, F(rng.randint(1, 3), 16)))
            elif what < 0.5:
                copes.append(Cope(leg, end, F(rng.randint(6, 20), 16), width * F(rng.randint(3, 6), 8), F(1, 8)))
            elif what < 0.6:
                corners.append(Corner(leg, end, F(1, 8)))
    for leg in "AB":
        row = F(rng.randint(20, 60), 64) * stock.leg(leg)
        for _ in range(rng.choice((0, 0, 1, 2, 3, 7))):
            y = row if rng.random() < 0.8 else F(rng.randint(20, 60), 64) * stock.leg(leg)
            holes.append(Hole(leg, F(rng.randint(4, int(length * 16) - 4), 16), y, F(rng.choice((3, 4, 5, 6)), 32)))
    part = Part(f"P{seed}", f"Trial part {seed}", stock, "6061-T6", length, tapers, holes, corners, copes)
    rounded_corners(part)  # refuses what does not fit
    return part
