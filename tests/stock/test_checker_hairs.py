"""No number in a plan is free: each, a hair off, is found, and found for what it is; and the plan as it was made is sound.

Nothing here knows how the checker walks: plans of small jobs are made, one number or flag at a time is changed, and what the
checker has to say of it is written down by what the number means.
"""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

import pytest
from small_jobs import ALLOY, EQUAL, small_job

from anglelib.job import Job, Shop
from anglelib.part import Cope, Part, Taper
from anglelib.saw import Saw
from anglelib.section import Section
from anglelib.stock import checker as c
from anglelib.stock.checker import faults
from anglelib.stock.plan import Plan, StickPlan
from anglelib.stock.planner import plan
from anglelib.stock.rack import Rack, Stick

HAIR = Fraction(1, 64)
RAIL = Section("1 1/2", 1, "1/8", fillet="1/8")


def rails() -> tuple[Job, Rack]:
    """Handed parts of unequal legs from both ends of a stick, one tapered first and one coped first, one held for later."""
    parts = [
        Part("L", "Rail, left", RAIL, ALLOY, 10, [Taper("A", 1, "5/8", run=2)], quantity=2),
        Part("R", "Rail, right", RAIL, ALLOY, 10, [Taper("A", 2, "5/8", run=2)], quantity=2),
        Part("C", "Stop", RAIL, ALLOY, 4, copes=[Cope("A", 1, 1, "5/8", "1/8")]),
        Part("H", "Later", RAIL, ALLOY, 6, later=True),
    ]
    return Job("Rails", Shop(), parts), Rack([Stick("S-1", RAIL, ALLOY, 62, "1/4", "1/4")])


def rough() -> tuple[Job, Rack]:
    """A saw with a throat: cuts in the middle of a stick are rough ones, and a dent far in is cleared by one."""
    parts = [Part("A", "Bar", EQUAL, ALLOY, 12, quantity=2), Part("B", "Clip", EQUAL, ALLOY, 3), Part("D", "Spar", EQUAL, ALLOY, 36, quantity=1)]
    rack = Rack([Stick("S-1", EQUAL, ALLOY, 60, "1/4"), Stick("S-2", EQUAL, ALLOY, 62, dents=[(20, 21)])])
    return Job("Rough", Shop(saw=Saw(9, hacksaw_allowance="1/8", hacksaw_kerf="1/32")), parts), rack


def small(seed: int) -> tuple[Job, Rack]:
    job, rack = small_job(seed)
    if seed % 3 == 0:
        rng = random.Random(f"hairs {seed}")
        job = replace(job, shop=replace(job.shop, saw=Saw(rng.choice([4, 9]), hacksaw_allowance=rng.choice([0, Fraction(1, 8)]))))
    return job, rack


JOBS = {"rails": rails(), "rough": rough(), **{f"small {seed}": small(seed) for seed in range(16)}}


@pytest.fixture(scope="module")
def made() -> dict[str, Plan]:
    return {name: plan(*of) for name, of in JOBS.items()}


def put(items: tuple, at: int, **changes) -> tuple:
    return tuple(replace(item, **changes) if n == at else item for n, item in enumerate(items))


def with_stick(of: Plan, old: StickPlan, **changes) -> Plan:
    return replace(of, groups=tuple(replace(g, sticks=tuple(replace(s, **changes) if s is old else s for s in g.sticks)) for g in of.groups))


def spoiled(stick: StickPlan, shop: Shop, way: int) -> Iterator[tuple[str, dict, set[str]]]:
    """What is changed, how, and what has to be said of it (any of these)."""
    hair = way * HAIR
    for n, cut in enumerate(stick.cuts):
        for name, ids in (
            ("line", {c.LINE}), ("comes_off", {c.IN_HAND}), ("stays", {c.IN_HAND}), ("back", {c.STRUCK}),
            ("x", {c.LINE}), ("kerf", {c.KERF} if cut.blank is not None else {c.IN_HAND, c.CUT_TWICE}),
        ):  # fmt: skip
            yield f"cut {n}: {name}", {"cuts": put(stick.cuts, n, **{name: getattr(cut, name) + hair})}, ids
        yield f"cut {n}: clamp", {"cuts": put(stick.cuts, n, clamp=not cut.clamp)}, {c.IN_HAND}
        yield f"cut {n}: rough", {"cuts": put(stick.cuts, n, rough=not cut.rough)}, {c.NOT_ROUGH} if shop.saw is not None else set()
        if cut.blank is not None:
            yield f"cut {n}: made first", {"cuts": put(stick.cuts, n, made_first=not cut.made_first)}, {c.MADE_LATE}
            if cut.rough and cut.blank.rough:
                smooth = replace(cut.blank, rough=Fraction(0))
                lying = tuple(replace(p, blank=smooth) if p.blank == cut.blank else p for p in stick.placed)
                yield f"cut {n}: no room for the hacksaw", {"cuts": put(stick.cuts, n, blank=smooth), "placed": lying}, {c.NO_WANDER}
            yield f"cut {n}: none", {"cuts": (*stick.cuts[:n], *stick.cuts[n + 1 :])}, {c.NOT_PARTED}
        if cut.made_first:
            yield f"cut {n}: still on", {"cuts": put(stick.cuts, n, still_on=cut.still_on + hair)}, {c.STILL_ON}
            yield f"cut {n}: the other end leads", {"cuts": put(stick.cuts, n, leading_end=3 - cut.leading_end)}, {c.MADE_LATE}
        yield f"cut {n}: twice", {"cuts": (*stick.cuts[: n + 1], *stick.cuts[n:])}, {c.CUT_TWICE} if cut.kerf else set()
    for key in ("placed", "held"):
        lying = getattr(stick, key)
        for n, placed in enumerate(lying):
            yield f"{key} {n}: start", {key: put(lying, n, start=placed.start + hair)}, {c.LENGTH}
            yield f"{key} {n}: end", {key: put(lying, n, end=placed.end + hair)}, {c.LENGTH}
            yield f"{key} {n}: surplus", {key: put(lying, n, surplus=placed.surplus + hair)}, {c.LENGTH}
            yield f"{key} {n}: twice", {key: (*lying, placed)}, {c.MADE_TWICE}
            yield f"{key} {n}: the other way", {"placed" if key == "held" else "held": (placed,), key: ()}, {c.SAWN_HELD if key == "placed" else c.HELD_SAWN}
            if key == "held" and stick.placed:
                there = stick.placed[0].start
                yield f"held {n}: where another is sawn", {key: put(lying, n, start=there, end=there + placed.end - placed.start)}, {c.HELD_CUT}
            if key == "placed":
                yield f"placed {n}: sawn", {key: put(lying, n, sawn=not placed.sawn)}, set() if placed.sawn else {c.NOT_PARTED}
    for n, remnant in enumerate(stick.remnants if stick.touched else ()):
        longer = replace(remnant.stick, length=remnant.stick.length + HAIR)
        yield f"remnant {n}: length", {"remnants": put(stick.remnants, n, stick=longer)}, {c.REMNANT_OTHER}
        yield f"remnant {n}: alloy", {"remnants": put(stick.remnants, n, stick=replace(remnant.stick, alloy="6063-T5"))}, {c.REMNANT_OTHER}
        yield f"remnant {n}: twice", {"remnants": (*stick.remnants, remnant)}, {c.REMNANT_PLACE, c.REMNANT_NAME}
        sides = {"start": remnant.start - HAIR, "end": remnant.end + HAIR}  # into the dust, a blank, or out of the stick
        for name, place in sides.items():
            grown = {name: place, "stick": longer}
            yield f"remnant {n}: {name}", {"remnants": put(stick.remnants, n, **grown)}, {c.REMNANT_USED, c.REMNANT_PLACE, c.REMNANT_SOUND}
    for n, left in enumerate(stick.left):
        yield f"left {n}", {"left": (*stick.left[:n], left + hair, *stick.left[n + 1 :])}, {c.WAS_LEFT}
    if stick.turned_datum is not None:
        yield "turned datum", {"turned_datum": stick.turned_datum + hair}, {c.DATUM}


@pytest.mark.parametrize("name", JOBS)
def test_a_plan_is_sound_and_each_of_its_numbers_counts(made, name):
    of, (job, rack) = made[name], JOBS[name]
    assert faults(of, job, rack) == ()
    for group in of.groups:
        for stick in group.sticks:
            for way in (1, -1):
                for what, changes, ids in spoiled(stick, job.shop, way):
                    if ids:
                        found = {fault.id for fault in faults(with_stick(of, stick, **changes), job, rack)}
                        assert found & ids, (stick.stick.id, what, way, found)


def test_a_stick_that_lies_with_its_legs_the_other_way_round_makes_the_other_hand(made):
    """The same cuts in a stick whose legs are listed the other way round: every handed part is sawn as its mirror image."""
    (job, rack), of = JOBS["rails"], made["rails"]
    [stick] = rack.sticks
    found = faults(of, job, Rack([replace(stick, section=stick.section.swapped())]))
    wrong = {fault.what for fault in found if fault.id == c.WRONG_WAY}
    assert wrong == {str(p.blank) for p in of.stick("S-1").placed if p.blank.part.handed} and len(wrong) > 3
