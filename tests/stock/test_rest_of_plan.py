"""What is left of the plan in hand: what it bears is held against the saw and against every plan there is, at whatever row a stick has stopped."""

from collections import Counter
from dataclasses import replace
from fractions import Fraction
from random import Random

import pytest
from small_jobs import small_job
from test_robust import HAIR, Seen, again, cropped, still_holds

from anglelib.job import Job, Shop
from anglelib.part import Part, Pinned, Taper
from anglelib.saw import Saw
from anglelib.section import Section
from anglelib.stock.checker import DATUM, LINE, faults
from anglelib.stock.in_hand import in_hand
from anglelib.stock.part_way import rows_of
from anglelib.stock.planner import plan
from anglelib.stock.rack import Rack, Stick
from anglelib.stock.record import Record
from anglelib.stock.rest_of_plan import rest_of
from anglelib.stock.robust import AGAIN, LEFT, NOT, robustness


def lives(seeds):
    """Plans of small kits, some of their sticks cut to some row; what is left."""
    for seed in seeds:
        job, rack = small_job(seed)
        if seed % 2:  # coarse grains: the plan need not leave the longest piece to the inch
            job = replace(job, shop=replace(job.shop, grain=Fraction(24), usable_minimum=Fraction(20)))
        hand, record, dice = in_hand(plan(job, rack), job), Record(rack), Random(f"rest {seed}")
        marked = Counter()
        for planned in hand.sticks:
            rows = dice.randint(0, rows_of(planned))
            if rows:
                record = record.marked(hand.mark(planned.stick.id, rows), job)
                marked += Counter(piece.part_id for piece in hand.mark(planned.stick.id, rows).pieces for _ in range(piece.number))
        yield seed, job, hand, record, rest_of(hand, job, record), marked


def test_what_is_left_bears_what_the_metal_bears():
    count, part_way = Counter(), 0
    for seed, job, hand, record, rest, marked in lives(range(60)):
        planned = Counter(p.blank.part.id for s in hand.plan.sticks for p in (*s.placed, *s.held))
        if rest is None:
            assert not planned - marked - Counter(p.blank.part.id for s in hand.plan.sticks for p in s.held), seed
            continue
        assert Counter({p.id: p.quantity for p in rest.job.parts}) == planned - marked, seed
        here = {s.id: s for s in record.rack.sticks}
        assert all(here[s.stick.id] == s.stick for s in rest.plan.sticks), seed
        part_way += any(old.rows for old in record.cut)
        found = robustness(rest.job, rest.rack, rest.plan)
        for bears in found.sticks:
            seen = Seen(rest.plan.stick(bears.stick.id), job.shop.kerf)
            if not seen.lying:
                continue
            assert still_holds(seen, cropped(bears.stick, bears.short), job.shop.kerf), seed
            assert not still_holds(seen, cropped(bears.stick, bears.short + HAIR), job.shop.kerf), seed
            if bears.kerf is not None:
                assert still_holds(seen, bears.stick, bears.kerf) and not still_holds(seen, bears.stick, bears.kerf + HAIR), seed
        for bears in found.parts:
            sticks = [s for s in rest.plan.sticks if any(p.blank.part.id == bears.part.id for p in s.placed)]
            assert all(again(rest.job, rest.rack, rest.plan, s, bears.part.id) for s in sticks) == (bears.replaced in (LEFT, AGAIN)), (seed, bears.part.id)
            count[bears.replaced] += 1
    assert min(count[how] for how in (LEFT, AGAIN, NOT)) > 0 and part_way > 10, (count, part_way)


def test_before_the_first_cut_it_is_the_plan():
    for seed in range(12):
        job, rack = small_job(seed)
        made = plan(job, rack)
        rest = rest_of(in_hand(made, job), job, Record(rack))
        if rest is None:
            assert not made.made
            continue
        ours, first = robustness(rest.job, rest.rack, rest.plan), robustness(job, rack, made)
        assert (ours.sticks, ours.kerf, ours.short) == (first.sticks, first.kerf, first.short), seed
        assert [(b.part.id, b.replaced) for b in ours.parts] == [(b.part.id, b.replaced) for b in first.parts], seed


@pytest.mark.parametrize("saw", [None, Saw("9")])
def test_what_is_left_of_a_stick_that_is_turned_has_its_lines_from_the_ends_that_it_has_now(saw):
    """Unequal legs, both hands, a dent, a held piece, a stick that is named: at whatever row it has stopped, the checker finds datum, lines and what is left."""
    legs = Section("1 1/2", "1", "1/8", fillet="1/8")
    left = Part("L", "Left", legs, "6061-T6", "7 1/4", [Taper("B", 1, "3/8", run="1 1/2")], quantity=2, hand="left", mirror_of="R")
    right = Part("R", "Right", legs, "6061-T6", "7 1/4", [Taper("B", 2, "3/8", run="1 1/2")], quantity=2, hand="right", mirror_of="L")
    bar = Part("B", "Bar", legs, "6061-T6", 12, quantity=2, pinned=[Pinned("S-2", 1)])
    job = Job("Turned", Shop(saw=saw), [left, right, bar, Part("H", "Held", legs, "6061-T6", 11, later=True)])
    trims = {"trim_1": "1/8", "trim_2": "1/8"}
    rack = Rack([Stick("S-1", legs, "6061-T6", 62, dents=[("20", "20 1/2")], lot="L1", **trims), Stick("S-2", legs, "6061-T6", 40, lot="L2", **trims)])
    hand, turned = in_hand(plan(job, rack), job), 0
    for sheet in hand.plan.sticks:
        for row in range(1, len(sheet.cuts)):
            rest = rest_of(hand, job, Record(rack).marked(hand.mark(sheet.stick.id, row), job))
            (moved,) = [s for s in rest.plan.sticks if s.stick.id not in ("S-1", "S-2")]
            found = [one for one in faults(rest.plan, rest.job, rest.rack) if one.stick == moved.stick.id]
            assert not {one.id for one in found} & {DATUM, LINE, "left"}, (row, found)
            assert moved.stick.lot == sheet.stick.lot and [c.rough for c in moved.cuts] == [c.rough for c in sheet.cuts[row:]]
            turned += moved.turned_datum is not None
    assert turned > 4
