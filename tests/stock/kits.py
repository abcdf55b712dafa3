"""Invented kits of 5 to 60 parts and 4 to 30 sticks, of one section: what the planner is measured on."""

from __future__ import annotations

import random
from fractions import Fraction

from anglelib.job import Job, Shop
from anglelib.lengths import MM
from anglelib.part import Part
from anglelib.section import Section
from anglelib.stock.rack import Rack, Stick

SECTION = Section("3/4", "3/4", "1/8", fillet="1/8")
ALLOY = "6061-T6"
FULL = (72, 96, 144, 144)


def kit(seed: int, units: str = "eighths") -> tuple[Job, Rack]:
    """A kit: clips, brackets, stiffeners, a few longerons; full sticks and remnants.

    ``units`` is "eighths" of an inch with a kerf of 1/16, or "mixed": a kerf of 0.043 in., decimals
    and whole millimetres among the parts.
    """
    rng = random.Random(f"kit {seed}")
    lengths: list[Fraction] = []
    wanted = rng.randint(5, 60)
    quantities = []
    while sum(quantities) < wanted:
        kind = rng.random()
        low, high = (1, 8) if kind < 0.4 else (8, 30) if kind < 0.75 else (30, 60) if kind < 0.93 else (60, 140)
        lengths.append(_length(rng, low, high, units))
        quantities.append(min(rng.choice([1, 1, 1, 2, 2, 2, 3, 4]), wanted - sum(quantities)))
    parts = [
        Part(f"P{n:02}", "Bar", SECTION, ALLOY, length, quantity=quantity)
        for n, (length, quantity) in enumerate(zip(lengths, quantities, strict=True))
    ]
    need = sum(part.length * part.quantity for part in parts)
    slack = Fraction(rng.randint(110, 220), 100)
    sticks: list[Stick] = []
    number = rng.randint(4, 30)
    while len(sticks) < number or (sum(s.length for s in sticks) < slack * need and len(sticks) < 30):
        full = len(sticks) >= number or rng.random() < 0.35
        length = Fraction(rng.choice(FULL) if len(sticks) < number else 144) if full else Fraction(rng.randint(48, 800), 8)
        trim = Fraction(1, 4) if full else Fraction(1, 16)
        sticks.append(Stick(f"S-{len(sticks):02}", SECTION, ALLOY, length, trim, trim, remnant=not full))
    kerf = Fraction(1, 16) if units == "eighths" else Fraction(43, 1000)
    return Job(f"Kit {seed}", Shop(kerf=kerf), parts), Rack(sticks)


def _length(rng: random.Random, low: int, high: int, units: str) -> Fraction:
    eighths = Fraction(rng.randint(low * 8, high * 8), 8)
    if units == "eighths":
        return eighths
    kind = rng.random()
    if kind < 0.5:
        return eighths
    if kind < 0.8:
        return round(eighths / MM) * MM
    return Fraction(round(eighths * 1000), 1000) + Fraction(rng.randint(0, 9), 1000)


def shuffled(job: Job, rack: Rack, seed: int) -> tuple[Job, Rack]:
    """The same job and rack with their rows in another order."""
    rng = random.Random(f"rows {seed}")
    parts, sticks = list(job.parts), list(rack.sticks)
    rng.shuffle(parts)
    rng.shuffle(sticks)
    return Job(job.name, job.shop, parts), Rack(sticks)
