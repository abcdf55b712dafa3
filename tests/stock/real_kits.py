"""Invented kits of real size: 12 to 25 pieces and 4 to 8 sticks, with everything a job and a rack can say that bears on what is made and what remains."""

from __future__ import annotations

import random
from dataclasses import replace
from fractions import Fraction

from anglelib.job import Job, Shop
from anglelib.lengths import MM
from anglelib.part import Part, Pinned, Taper
from anglelib.saw import Saw
from anglelib.section import Section
from anglelib.stock.rack import Rack, Stick

ALLOY, OTHER = "6061-T6", "6063-T5"
INCH, METRIC, MIXED = "in", "mm", "mixed"
SECTIONS = {
    INCH: (Section("3/4", "3/4", "1/8", fillet="1/8"), Section(1, "3/4", "1/8", fillet="1/8")),
    METRIC: (Section("20 mm", "20 mm", "2 mm", fillet="2 mm"), Section("30 mm", "20 mm", "3 mm", fillet="2 mm")),
}
SECTIONS[MIXED] = SECTIONS[INCH]
FULL = {INCH: (72, 96, 144), METRIC: (2000 * MM, 3000 * MM), MIXED: (72, 96, 2500 * MM)}


def real_kit(seed: int, pieces: tuple[int, int] = (12, 25), sticks: tuple[int, int] = (4, 8)) -> tuple[Job, Rack]:
    """A kit of so many pieces and sticks; on some of them not everything can be made."""
    rng = random.Random(f"real kit {seed}")
    unit = rng.choice([INCH, INCH, METRIC, METRIC, MIXED])
    shop = _shop(rng, unit)
    kinds = [(rng.choice(SECTIONS[unit]), ALLOY)]
    if rng.random() < 0.25:
        kinds.append(rng.choice([(SECTIONS[unit][kinds[0][0] == SECTIONS[unit][0]], ALLOY), (kinds[0][0], OTHER)]))
    rack = [_stick(rng, n, unit, rng.choice(kinds)) for n in range(rng.randint(*sticks))]
    if rng.random() < 0.4:  # equal sticks of one row take the places of two or three others
        number = rng.randint(2, 3)
        one = rng.choice(rack)
        rack = [stick for stick in rack if stick is not one][: max(0, len(rack) - number)]
        rack += [replace(one, id=f"S-9.{n}", one_of="S-9") for n in range(1, number + 1)]
    have = sum(stick.length for stick in rack if stick.alloy and not stick.hands_off)
    wanted = rng.randint(*pieces)
    mean = have * Fraction(rng.randint(45, 105), 100) / wanted
    parts: list[Part] = []
    while (rest := wanted - sum(part.quantity for part in parts)) > 0:
        parts.append(_part(rng, len(parts), unit, kinds, rack, mean, min(rest, rng.choice([1, 1, 1, 2, 2, 3, 4]))))
    if len(kinds) == 1 and wanted <= 16 and rng.random() < 0.6:  # of more pieces such a puzzle is too hard for an oracle
        parts = [replace(part, only_stick="", pinned=(), not_from=()) for part in parts]
        rack = _tight(rng, parts, shop, unit, kinds[0], rng.randint(*sticks))
    return Job(f"Kit {seed}", shop, parts, unit="mm" if unit == METRIC else "in"), Rack(rack)


def _shop(rng: random.Random, unit: str) -> Shop:
    if unit == METRIC:
        saw = Saw(rng.choice([250, 350]) * MM, hacksaw_allowance=2 * MM, hacksaw_kerf=Fraction(12, 10) * MM) if rng.random() < 0.15 else None
        kerf, allowance = rng.choice([Fraction(16, 10), Fraction(11, 10), Fraction(2)]) * MM, rng.choice([0, Fraction(8, 10)]) * MM
        return Shop(kerf=kerf, allowance=allowance, grain=10 * MM, usable_minimum=rng.choice([25, 75, 150]) * MM, saw=saw)
    kerf = rng.choice([Fraction(1, 16), Fraction(1, 16), Fraction(3, 64), Fraction(1, 8), Fraction(0)])
    saw = Saw(rng.choice([9, 14])) if rng.random() < 0.15 else None
    allowance, minimum = rng.choice([Fraction(1, 32), Fraction(0)]), Fraction(rng.choice([0, 3, 3, 6, 12]))
    return Shop(kerf=kerf, allowance=allowance, grain=Fraction(1), usable_minimum=minimum, saw=saw)


def _length(rng: random.Random, unit: str, low: Fraction, high: Fraction) -> Fraction:
    """A length between two [in], as a rule shows it: eighths, 64ths now and then; whole and half millimetres."""
    step = rng.choice([MM, MM, MM / 2]) if unit == METRIC or (unit == MIXED and rng.random() < 0.4) else rng.choice([Fraction(1, 8)] * 4 + [Fraction(1, 64)])
    return rng.randint(max(1, int(low / step)), max(1, int(high / step))) * step


def _stick(rng: random.Random, number: int, unit: str, kind: tuple[Section, str]) -> Stick:
    new = rng.random() < 0.4
    length = Fraction(rng.choice(FULL[unit])) if new else _length(rng, unit, Fraction(14), Fraction(90))
    trims = [_length(rng, unit, Fraction(1, 16), Fraction(1)) if rng.random() < 0.4 else Fraction(0) for _ in range(2)]
    dents = []
    if rng.random() < 0.25:
        for _ in range(rng.choice([1, 1, 1, 2])):
            at = _length(rng, unit, Fraction(0), length - 1)
            dents.append((at, min(length, at + rng.choice([Fraction(1, 32), Fraction(1, 2), Fraction(3)]))))
    section, alloy = kind
    return Stick(
        f"S-{number}",
        section if rng.random() < 0.8 else section.swapped(),
        alloy if rng.random() < 0.95 else "",
        length,
        *trims,
        dents,
        far_end_good=rng.random() < 0.35,
        remnant=not new,
        hands_off=rng.random() < 0.04,
    )


def _tight(rng: random.Random, parts: list[Part], shop: Shop, unit: str, kind: tuple[Section, str], number: int) -> list[Stick]:
    """Sticks as long as their share of the pieces with all its kerfs, or all but the last, or a hair shorter: every kerf, trim and dent decides."""
    hair = MM / 10 if unit == METRIC else Fraction(1, 64)
    pieces = [part.length + 2 * shop.allowance for part in parts for _ in range(part.quantity)]
    rng.shuffle(pieces)
    found = []
    for n in range(number):
        share = pieces[n::number]
        trims = [_length(rng, unit, Fraction(1, 16), Fraction(1)) if rng.random() < 0.3 else Fraction(0) for _ in range(2)]
        end = trims[0] + sum(share) + (len(share) - rng.choice([0, 1])) * shop.kerf - rng.choice([0, 0, hair])
        rest = rng.choice([0, 0, 0, Fraction(9)])  # beyond a dent
        dents = [(end, end + Fraction(1, 2))] if rest else []
        found.append(Stick(f"S-{n}", *kind, end + rest + trims[1], *trims, dents, far_end_good=rng.random() < 0.3, remnant=rng.random() < 0.7))
    return found


def _part(rng: random.Random, number: int, unit: str, kinds: list, rack: list[Stick], mean: Fraction, quantity: int) -> Part:
    section, alloy = rng.choice(kinds)
    factor = rng.choice([Fraction(1, 4), Fraction(1, 2), 1, 1, Fraction(3, 2), Fraction(5, 2)])
    ids = [stick.id for stick in rack]
    only = rng.choice(ids) if rng.random() < 0.06 else ""
    barred = {rng.choice([*ids, *(stick.one_of for stick in rack if stick.one_of)])} - {only} if rng.random() < 0.1 else set()
    pins: list[Pinned] = []
    if not only and rng.random() < 0.12:
        free = [stick.id for stick in rack if not {stick.id, stick.one_of} & barred]
        pins = [Pinned(rng.choice(free), rng.randint(1, quantity))] if free else []
    length = _length(rng, unit, mean * factor * Fraction(2, 3), mean * factor * Fraction(4, 3))
    # of unequal legs a tapered part has a hand, and its stick may be turned for it
    tapers = [Taper(rng.choice("AB"), rng.choice([1, 2]), Fraction(3, 8), run=Fraction(1))] if length > 3 and rng.random() < 0.2 else []
    return Part(
        f"P{number:02}",
        "Bar",
        section if rng.random() < 0.8 else section.swapped(),
        alloy,
        length,
        tapers,
        quantity=quantity,
        later=rng.random() < 0.12,
        one_piece=rng.random() < 0.15,
        priority=rng.choice([0] * 8 + [1, -1]),
        only_stick=only,
        pinned=tuple(pins),
        not_from=tuple(barred),
        claim=1 if rng.random() < 0.04 else 0,
    )
