"""Purchases for a saw with a throat, with sticks that parts name, and with millimetres among inches: against every purchase and every plan there is.

A purchase without room for rough cuts is never more than is needed; with that room for every long blank it always does. Which of the two
holds is the plan's to say, and plans are sawn by tests of their own.
"""

import random
from dataclasses import replace
from fractions import Fraction

import pytest
from brute import all_fit, smallest
from small_jobs import ALLOY, EQUAL, small_job
from test_rough_cuts import shop_with_saw, strip, without_saw

from anglelib.job import Job, Shop
from anglelib.part import Part, Pinned
from anglelib.saw import Saw
from anglelib.stock.planner import plan
from anglelib.stock.purchase import smallest_purchase
from anglelib.stock.rack import Rack, Stick

LENGTHS, TRIMS = (14, 20, Fraction(8000, 254)), (Fraction(1, 4), Fraction(1, 8))
"""The longest is 800 mm."""


def few(job: Job, most: int = 4) -> Job:
    """At most so many pieces of a job."""
    parts, pieces = [], 0
    for part in job.parts:
        if pieces < most:
            parts.append(replace(part, quantity=min(part.quantity, most - pieces), later=False, pinned=(), priority=0))
            pieces += parts[-1].quantity
    return replace(job, parts=tuple(parts))


def compare(seed: int) -> tuple[bool, bool]:
    """One random job; whether something is bought, and whether the room for rough cuts was kept for it."""
    job, rack = shop_with_saw(seed)
    job, rack = few(job), Rack(rack.sticks[: seed % 2])
    found, kept = smallest_purchase(job, rack, LENGTHS, TRIMS), False
    made = plan(job, found.rack)
    for group, planned in zip(found.groups, made.groups, strict=True):
        lost = {reason.part_id: reason.missing for reason in group.not_for_sale}
        assert all(short.missing <= lost.get(short.part_id, 0) for short in planned.shortages), seed
        rest = [replace(part, quantity=part.quantity - lost.get(part.id, 0)) for part in job.parts if part.quantity > lost.get(part.id, 0)]
        if lost or not rest:
            continue
        least, enough = (smallest(without_saw(replace(job, parts=tuple(rest)), room), rack, group.section, group.alloy, LENGTHS, TRIMS, 4) for room in (0, strip(job.shop)))
        have = (group.inches, len(group.sticks))
        assert have in (least, enough) and (least is None or least <= have), (seed, have, least, enough)
        if group.smallest:
            assert have == least, seed
        kept |= have != least
    return found.inches > 0, kept


def test_no_purchase_with_a_throat_is_smaller():
    found = [compare(seed) for seed in range(24)]
    assert sum(bought for bought, _ in found) > 12


@pytest.mark.slow
@pytest.mark.parametrize("block", range(10))
def test_no_purchase_with_a_throat_is_smaller_in_five_hundred(block):
    for seed in range(1000 + 50 * block, 1050 + 50 * block):
        compare(seed)


def spar(length: object, **more: object) -> Job:
    return Job("Trial", Shop(saw=Saw(9, hacksaw_allowance="1/8")), [Part("A", "Spar", EQUAL, ALLOY, length, **more)])


def test_the_end_of_a_long_blank_goes_into_the_throat():
    """95 3/8 from a 96 that loses 1/4 at each end: what is sawn off at the end is short, so that no hacksaw is needed."""
    found = smallest_purchase(spar("95 3/8"), Rack([]), (96, 144), ("1/4", "1/4"))
    assert found.groups[0].bought == ((96, 1),) and found.proven
    assert not plan(spar("95 3/8"), found.rack).shortages


def test_between_two_long_blanks_the_room_is_bought():
    """Two of 47 5/8 go into a 96 with one kerf between them, not with a rough cut there: of more than that nothing is claimed to be proven."""
    job = spar("47 5/8", quantity=2)
    assert smallest_purchase(replace(job, shop=Shop()), Rack([]), (96, 144), ("1/4", "1/4")).groups[0].bought == ((96, 1),)
    found = smallest_purchase(job, Rack([]), (96, 144), ("1/4", "1/4"))
    assert found.groups[0].bought == ((144, 1),) and not found.proven and found.groups[0].least == 96
    assert "Less than 96 in all is proven not to be enough" in found.sentence
    assert plan(job, Rack([Stick("N", EQUAL, ALLOY, 96, "1/4", "1/4")])).shortages and not plan(job, found.rack).shortages


# --- sticks that parts name ------------------------------------------------------------------------------------
def named(seed: int) -> tuple[Job, Rack]:
    """A small job of which some parts name sticks for some pieces, and others from which none may come."""
    rng, (job, rack) = random.Random(f"named {seed}"), small_job(seed)
    job, rack = few(replace(job, shop=replace(job.shop, saw=None))), Rack(rack.sticks[: 1 + seed % 3])
    parts = []
    for part in job.parts:
        ours = [stick for stick in rack.sticks if stick.alloy == part.alloy and stick.section in (part.section, part.section.swapped()) and not stick.hands_off]
        stick, kind = rng.choice(ours) if ours else None, rng.choice(["pin", "bar", "free"])
        part = replace(part, only_stick="")
        if stick is not None and kind == "pin":
            part = replace(part, pinned=(Pinned(stick.id, rng.randint(1, part.quantity)),))
        elif stick is not None and kind == "bar":
            part = replace(part, not_from=(stick.id,))
        parts.append(part)
    return replace(job, parts=tuple(parts)), rack


def piece_by_piece(job: Job) -> Job:
    """The same with each piece that a stick is named for as a part of its own, which may come from that alone."""
    parts = []
    for part in job.parts:
        number = sum(pin.quantity for pin in part.pinned)
        parts += [replace(part, id=f"{part.id}-{n}", quantity=pin.quantity, pinned=(), only_stick=pin.stick, mirror_of="") for n, pin in enumerate(part.pinned)]
        parts += [replace(part, quantity=part.quantity - number, pinned=(), mirror_of="")] if part.quantity > number else []
    return replace(job, parts=tuple(parts))


def test_no_purchase_beside_named_sticks_is_smaller():
    bought = pinned = 0
    for seed in range(24):
        job, rack = named(seed)
        found = smallest_purchase(job, rack, LENGTHS, TRIMS)
        for group in found.groups:
            if group.not_for_sale:
                continue
            least = smallest(piece_by_piece(job), rack, group.section, group.alloy, LENGTHS, TRIMS, 4)
            assert least == (group.inches, len(group.sticks)) and group.proven, seed
            assert all_fit(piece_by_piece(job), Rack([*rack.sticks, *group.sticks]), group.section, group.alloy)
            bought += bool(group.bought)
            pinned += bool(group.bought) and any(part.pinned or part.not_from for part in job.parts)
        assert all(short.part_id in {r.part_id for g in found.groups for r in g.not_for_sale} for short in plan(job, found.rack).shortages)
    assert bought > 6 and pinned > 3


def test_a_new_stick_is_never_one_that_a_part_may_not_come_from():
    job = Job("Trial", Shop(), [Part("A", "Bar", EQUAL, ALLOY, 12, not_from=["NEW-1"])])
    found = smallest_purchase(job, Rack([]), LENGTHS, TRIMS)
    assert [stick.id for stick in found.sticks] == ["NEW-2"] and found.groups[0].bought == ((14, 1),) and not plan(job, found.rack).shortages
