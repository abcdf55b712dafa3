"""What the stock decides: plans, plans made again, one part now, what a plan bears, what to buy, ways out, what the checker finds."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Any

from tests.outcomes.facts import facts
from tests.outcomes.kit import ALLOY, EQUAL, JOB, RACK


def plans() -> list[Any]:
    """The plan of the kit, what is proven of it, what it does not use, its runner-ups and set-ups; a list with more of each part, which is short, and its ways out."""
    from anglelib.stock.after import rack_after
    from anglelib.stock.planner import plan
    from anglelib.stock.runner_up import runner_ups, with_picks
    from anglelib.stock.set_ups import set_ups
    from anglelib.stock.shortage import ways_out
    from anglelib.stock.unused import unused_at

    made = plan(JOB, RACK)
    more = replace(JOB, parts=tuple(replace(part, quantity=part.quantity + 2) for part in JOB.parts))
    short = plan(more, RACK)
    others = runner_ups(JOB, RACK, made)
    set_ = [set_ups(group.sticks) for group in made.groups]
    found = [made, others, [one.sentence for one in others], with_picks(made, others), set_, unused_at(made, JOB, RACK), rack_after(made, RACK), short, ways_out(more, RACK, short)]
    return [facts(one) for one in (*found, [group.sentence for group in made.groups])]


def rough() -> list[Any]:
    """What the stock and the bench decide where the saw has a throat: rough cuts by hacksaw, what passes the column, marks, which steps."""
    from anglelib.geometry.taper import taper_lines
    from anglelib.geometry.throat import cope_at_saw, taper_at_saw
    from anglelib.geometry.work import operations
    from anglelib.saw import Saw
    from anglelib.stock.checker import faults
    from anglelib.stock.in_hand import in_hand
    from anglelib.stock.planner import plan

    job = replace(JOB, shop=replace(JOB.shop, saw=Saw(9, 2, 8, 6, 4, hacksaw_allowance="1/8")))
    made = plan(job, RACK)
    spoiled = [faults(replace(made, shop=job.shop), replace(job, shop=replace(job.shop, saw=Saw(throat))), RACK) for throat in (3, 40)]
    at_saw = [found(feature, part) for part in job.parts for found, features in _cuts(part, job.shop, taper_at_saw, taper_lines, cope_at_saw) for feature in features]
    steps = [[(step.id, [mark.saw for mark in step.marks]) for step in operations(part, job.shop)] for part in job.parts]
    return [facts(one) for one in (made, in_hand(made, job).number, [[fault.id for fault in found] for found in spoiled], at_saw, steps)]


def _cuts(part: Any, shop: Any, taper: Any, lines: Any, cope: Any) -> list[Any]:
    return [(lambda line, _: taper(line, shop), lines(part)), (lambda one, of: cope(one, of, shop), part.copes)]


def again() -> list[Any]:
    """The plan made again: after cuts, a spoiled piece, a shorter stick, a thicker blade; and as the rack's record has it."""
    from anglelib.stock.planner import plan
    from anglelib.stock.progress import Progress, job_left, rack_after_cuts
    from anglelib.stock.record import Mark, Record, pieces_from, pieces_of
    from anglelib.stock.standing import standing
    from anglelib.stock.what_if import shorter_stick, spoiled_part, wider_kerf

    made = plan(JOB, RACK)
    stick = next(s for s in made.sticks if len(s.cuts) > 2)
    number, cut = next((n, cut) for n, cut in enumerate(stick.cuts, 1) if cut.blank is not None)
    done = Progress({stick.stick.id: number})
    ways = [
        spoiled_part(JOB, RACK, made, cut.blank.part.id, done),
        shorter_stick(JOB, RACK, made, "S-3", 36),
        wider_kerf(JOB, RACK, made, "3/32", done),
    ]
    record = Record(RACK).marked(Mark(stick.stick.id, pieces_of(stick), stick), JOB, on="2024-05-01")
    record = record.marked(Mark("S-5", pieces_from("P4 at 13/16 spoiled")), JOB, on="2024-05-02")
    found = [rack_after_cuts(made, RACK, done), job_left(JOB, made, done), *([way, way.sentence, way.lost] for way in ways), record, standing(JOB, record)]
    return [facts(one) for one in found]


def asked() -> list[Any]:
    """What is asked beside a plan: one part now, what the plan bears, what could still be made, what to buy, what it is worth."""
    from anglelib.stock.compare import by_rules
    from anglelib.stock.offers import Offer, Offers
    from anglelib.stock.one import one_now
    from anglelib.stock.planner import plan
    from anglelib.stock.possible import still_possible
    from anglelib.stock.price import Currency
    from anglelib.stock.purchase import smallest_purchase
    from anglelib.stock.record import Record
    from anglelib.stock.robust import robustness
    from anglelib.stock.to_buy import came, to_buy

    made = plan(JOB, RACK)
    more = replace(JOB, parts=tuple(replace(part, quantity=part.quantity + 2) for part in JOB.parts))
    now = [one_now(EQUAL, ALLOY, length, RACK, job, only_stick=only) for length, job, only in ((5, None, ""), (5, JOB, ""), (40, JOB, ""), (5, None, "S-5"), (5, None, "S-9"), (200, None, ""))]
    now += [one_now(JOB.part("P1").section, ALLOY, 5, RACK, JOB, part_id="P1", extra="1/2")]
    stock = JOB.part("P1").section
    offers = Offers(tuple(Offer(stock, ALLOY, length, price, most) for length, price, most in ((40, Fraction(7), 1), (72, Fraction(9), None))), Currency("$"))
    priced = smallest_purchase(more, RACK, offers=offers)
    in_hand = to_buy(priced, plan(more, priced.rack), more)
    found = [*([one, one.sentence] for one in now), robustness(JOB, RACK, made), still_possible(JOB, RACK, made), smallest_purchase(more, RACK), by_rules(JOB, RACK)]
    found += [in_hand, came(Record(RACK), in_hand, 1, None, "2024-05-01")]
    return [facts(one) for one in found]


def doubted() -> list[Any]:
    """What the checker finds where the rack, the job or the plan is another."""
    from anglelib.stock.checker import faults
    from anglelib.stock.planner import plan
    from anglelib.stock.rack import Rack

    made = plan(JOB, RACK)
    other = [
        Rack([replace(stick, length=stick.length - 3) for stick in RACK.sticks]),
        Rack([replace(stick, alloy="6063-T5") for stick in RACK.sticks]),
        Rack([replace(stick, hands_off=True) for stick in RACK.sticks]),
        Rack(RACK.sticks[1:]),
    ]
    bent = []
    for group in made.groups:
        for changes in ({"cuts": ()}, {"placed": ()}, {"left": (Fraction(1),)}, {"remnants": ()}):
            sticks = tuple(replace(one, **changes) for one in group.sticks)
            bent.append(replace(made, groups=(replace(group, sticks=sticks),)))
        for changes in ({"line": Fraction(1)}, {"clamp": True}, {"kerf": Fraction(1, 2)}, {"leading_end": 2}, {"still_on": Fraction(1)}):
            sticks = tuple(replace(one, cuts=tuple(replace(cut, **changes) for cut in one.cuts)) for one in group.sticks)
            bent.append(replace(made, groups=(replace(group, sticks=sticks),)))
    found = [faults(made, JOB, rack) for rack in other] + [faults(one, JOB, RACK) for one in bent]
    return [facts((one, [fault.sentence for fault in one])) for one in (faults(made, JOB, RACK), *found)]


def shared() -> list[Any]:
    """Several jobs on one rack, with sticks that a part names, equal sticks in a row, lots: plans, marks, the file, what is recorded for which job."""
    from anglelib.files.rack_text import render_record
    from anglelib.part import Pinned
    from anglelib.stock.in_hand import differences, in_hand
    from anglelib.stock.planner import plan
    from anglelib.stock.rack import Rack
    from anglelib.stock.record import Record
    from anglelib.stock.several_jobs import holding, own_parts, together

    post, *rest = JOB.parts
    one = replace(JOB, id="K1", parts=(replace(post, quantity=2, pinned=(Pinned("S-1", 1),), not_from=("S-2",)), *rest))
    two = replace(JOB, id="K2", name="Second kit", parts=tuple(replace(part, later=False) for part in rest))
    first, *others = RACK.sticks
    rack = Rack([first, *(replace(first, id=f"E.{n}", one_of="E", lot="4711") for n in (1, 2)), *others])
    held, both = holding(one, [("two", two)]), together([("one", one), ("two", two)])
    record, found = Record(rack), []
    for job in (held, both):
        made = plan(job, rack)
        hand = in_hand(made, job)
        found += [made, differences(hand, own_parts(one), record), hand.number]
    for planned in hand.sticks:
        record = record.marked(hand.mark(planned.stick.id), both, on="2024-05-01")
    found += [record, *(dict(record.made(job)) for job in (one, two, both)), record.still_wanted(both)]
    return [facts(one) for one in found] + [render_record(record).count("job ")]
