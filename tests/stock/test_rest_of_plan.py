"""What is left of the plan in hand: what it bears is held against the saw and against every plan there is, at whatever row a stick has stopped."""

from collections import Counter
from dataclasses import replace
from fractions import Fraction
from random import Random

from small_jobs import small_job
from test_robust import HAIR, Seen, again, cropped, still_holds

from anglelib.stock.in_hand import in_hand
from anglelib.stock.part_way import rows_of
from anglelib.stock.planner import plan
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
