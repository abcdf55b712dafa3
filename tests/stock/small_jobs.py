"""Small jobs and racks at random: every trap of a rack, in exact lengths of mixed units."""

from __future__ import annotations

import random
from fractions import Fraction

from anglelib.job import Job, Shop
from anglelib.lengths import MM
from anglelib.part import Part
from anglelib.section import Section
from anglelib.stock.rack import Rack, Stick

EQUAL = Section("3/4", "3/4", "1/8", fillet="1/8")
UNEQUAL = Section(1, "3/4", "1/8", fillet="1/8")
ALLOY = "6061-T6"
MOST_WAYS = 12_000


def length(rng: random.Random, low: int, high: int) -> Fraction:
    """A length [in]: mostly eighths, sometimes 64ths, decimals or millimetres."""
    kind = rng.random()
    if kind < 0.6:
        return Fraction(rng.randint(low * 8, high * 8), 8)
    if kind < 0.75:
        return Fraction(rng.randint(low * 64, high * 64), 64)
    if kind < 0.9:
        return Fraction(rng.randint(low * 1000, high * 1000), 1000)
    return rng.randint(int(low * 25.4) + 1, int(high * 25.4)) * MM


def small_job(seed: int) -> tuple[Job, Rack]:
    """A job of at most 7 pieces and a rack of at most 4 sticks."""
    rng = random.Random(f"small job {seed}")
    section = rng.choice([EQUAL, EQUAL, UNEQUAL])
    plain = rng.random() < 0.4  # whole eighths only, where ties and exact fits are frequent
    shop = Shop(
        kerf=rng.choice([Fraction(1, 16), Fraction(1, 16), Fraction(43, 1000), Fraction(0), Fraction(1, 8)]),
        allowance=rng.choice([Fraction(1, 32), Fraction(0), Fraction(1, 32)]),
        grain=rng.choice([Fraction(1), Fraction(1), 10 * MM]),
        usable_minimum=rng.choice([Fraction(3), Fraction(1), Fraction(6), Fraction(0)]),
    )
    if plain:
        shop = Shop(kerf=Fraction(1, 8), allowance=Fraction(0), usable_minimum=Fraction(rng.choice([0, 2])))
    sticks = []
    for n in range(rng.randint(1, 4)):
        whole = Fraction(rng.randint(8, 40)) if plain else length(rng, 8, 40)
        dents = []
        if rng.random() < 0.2:
            at = length(rng, 2, int(whole) - 2)
            dents.append((at, min(whole, at + rng.choice([Fraction(1), Fraction(1, 32), Fraction(3)]))))
        sticks.append(
            Stick(
                f"S-{n}",
                section if rng.random() < 0.8 else section.swapped(),
                rng.choice([ALLOY] * 8 + ["", "6063-T5"]),
                whole,
                rng.choice([0, 0, Fraction(1, 16), Fraction(1, 4)]) if not plain else 0,
                rng.choice([0, 0, Fraction(1, 16), Fraction(1, 4)]) if not plain else 0,
                dents,
                far_end_good=rng.random() < 0.4,
                remnant=rng.random() < 0.5,
                hands_off=rng.random() < 0.07,
            )
        )
    parts, pieces = [], 0
    places = sum(1 + len(s.dents) for s in sticks)
    while pieces < 7 and (places + 1) ** (pieces + 1) <= MOST_WAYS and (not parts or rng.random() < 0.85):
        quantity = min(rng.choice([1, 1, 1, 2, 3]), 7 - pieces)
        while (places + 1) ** (pieces + quantity) > MOST_WAYS and quantity > 1:
            quantity -= 1
        parts.append(
            Part(
                f"P{len(parts)}",
                "Bar",
                section if rng.random() < 0.8 else section.swapped(),
                ALLOY,
                Fraction(rng.randint(1, 24)) if plain else length(rng, 1, 20),
                quantity=quantity,
                later=rng.random() < 0.15,
                one_piece=rng.random() < 0.2,
                priority=rng.choice([0] * 6 + [1, -1]),
                only_stick=rng.choice([""] * 9 + [rng.choice(sticks).id]),
            )
        )
        pieces += quantity
    return Job("Small", shop, parts), Rack(sticks)
