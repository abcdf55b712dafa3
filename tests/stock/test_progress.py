"""Cuts done: the rack as it then stands, and what is left to make, on racks with every trap."""

from collections import Counter

import pytest
from brute import best, how_many
from small_jobs import ALLOY, small_job

from anglelib.errors import PlanError, RackError
from anglelib.job import Job, Shop
from anglelib.part import Part, Taper
from anglelib.section import Section
from anglelib.stock.after import rack_after
from anglelib.stock.checker import faults, zones
from anglelib.stock.planner import plan
from anglelib.stock.progress import Progress, all_cuts, blanks_sawn, job_left, planned_from, rack_after_cuts
from anglelib.stock.rack import Rack, Stick

STOCK = Section("3/4", "3/4", "1/8", fillet="1/8")


def states(made):
    """A few states of a plan: nothing done, one cut more and more on each stick, everything."""
    yield Progress()
    for planned in made.sticks:
        for n in range(1, len(planned.cuts) + 1):
            yield Progress({planned.stick.id: n})
    yield Progress({s.stick.id: (len(s.cuts) + 1) // 2 for s in made.sticks if s.touched})
    yield all_cuts(made)


@pytest.mark.parametrize("block", range(3))
def test_what_is_left_is_still_possible_and_nothing_more_is(block):
    """From every state the best plan for the rest is the rest of the plan: what remains at the end is the same."""
    for seed in range(14 * block, 14 * block + 14):
        job, rack = small_job(seed)
        made = plan(job, rack)
        for done in states(made):
            left, now = job_left(job, made, done), rack_after_cuts(made, rack, done)
            sawn = Counter(blank.part.id for blank in blanks_sawn(made, done))
            assert sum(sawn.values()) + (left.pieces if left else 0) == job.pieces, seed
            if left is None:
                continue
            (group,) = made.groups
            top = best(left, now, group.section, group.alloy)
            short = sum(s.missing for s in made.shortages)
            able, wanted = how_many(top)
            assert wanted - able == short, (seed, done)
            kept = [v for v in group.left if v]
            assert [v for v in top[1] if v] == kept, (seed, done)


def test_every_cut_done_is_the_rack_that_the_plan_promised():
    for seed in range(40):
        job, rack = small_job(seed)
        made = plan(job, rack)
        assert rack_after_cuts(made, rack, all_cuts(made)) == rack_after(made, rack)
        assert rack_after_cuts(made, rack, Progress()) == rack


def test_metal_is_neither_lost_nor_made():
    """Piece by piece along each stick: what is now on the rack is sound where the old stick was, and lies in no cut."""
    for seed in range(30):
        job, rack = small_job(seed)
        made = plan(job, rack)
        for planned in made.sticks:
            for n in range(1, len(planned.cuts) + 1):
                now = rack_after_cuts(made, rack, Progress({planned.stick.id: n}))
                piece = next((s for s in now.sticks if s.id == planned.stick.id), None)
                if piece is None:
                    continue
                at = planned.stick.length - piece.length  # what is still whole ends where the old stick did
                cut = planned.cuts[n - 1]
                assert at == cut.x + (cut.kerf if cut.blank is not None else 0)
                old = [(max(a, at) - at, b - at) for a, b in zones(planned.stick, job.shop.kerf) if b > at]
                assert zones(piece, job.shop.kerf) == old and piece.remnant


def one(length, *parts, **stick):
    job = Job("Test", Shop(), parts)
    rack = Rack([Stick("S-1", STOCK, ALLOY, length, **stick)])
    made = plan(job, rack)
    return job, rack, made


def test_a_blank_that_ends_unsawn_is_made_with_the_last_cut_before_it():
    job, rack, made = one("20 3/16", Part("A1", "Bar", STOCK, ALLOY, 10, quantity=2), far_end_good=True)
    assert len(made.stick("S-1").cuts) == 1
    assert rack_after_cuts(made, rack, Progress({"S-1": 1})).sticks == () and job_left(job, made, Progress({"S-1": 1})) is None


def test_a_stick_that_serves_whole_is_done_when_it_is_named():
    job, rack, made = one("10 1/16", Part("A1", "Bar", STOCK, ALLOY, 10), far_end_good=True)
    assert made.stick("S-1").cuts == ()
    assert job_left(job, made, Progress()) == job
    assert job_left(job, made, Progress({"S-1": 0})) is None
    assert rack_after_cuts(made, rack, Progress({"S-1": 0})) == Rack([])


def test_what_is_held_stays_in_its_piece_and_the_pin_follows():
    parts = [Part("A1", "Bar", STOCK, ALLOY, 10), Part("A2", "Spar", STOCK, ALLOY, 20, later=True, only_stick="S-1")]
    job, rack, made = one(40, *parts)
    done = all_cuts(made)
    left, now = job_left(job, made, done), rack_after_cuts(made, rack, done)
    assert [(p.id, p.only_stick) for p in left.parts] == [("A2", "S-1-R1")] and now.sticks[0].id == "S-1-R1"
    assert planned_from(made, done)["S-1-R1"][0].blank.part.id == "A2"
    again = plan(left, now)
    assert faults(again, left, now) == () and not again.shortages


def test_a_partner_that_is_made_is_no_longer_named():
    left = Part("A1", "Clip", STOCK, ALLOY, 10, [Taper("A", 1, "3/8", run=2)], hand="left", mirror_of="A2")
    right = Part("A2", "Clip", STOCK, ALLOY, 10, [Taper("B", 1, "3/8", run=2)], hand="right", mirror_of="A1")
    job, rack, made = one(40, left, right)
    rest = job_left(job, made, Progress({"S-1": 1}))
    assert [(p.id, p.mirror_of) for p in rest.parts] == [("A2", "")]


def test_spoiled_pieces_are_still_to_make():
    job, rack, made = one(60, Part("A1", "Bar", STOCK, ALLOY, 10, quantity=3))
    done = Progress({"S-1": 2}).spoil("A1")
    assert job_left(job, made, done).parts[0].quantity == 2 and done == Progress([("S-1", 2)], ["A1"])
    assert done.mark("S-1", 3).of("S-1") == 3


@pytest.mark.parametrize(
    "done, said",
    [
        (lambda: Progress({"S-1": -1}), "write 0 or more"),
        (lambda: Progress({"S-1": True}), "write 0 or more"),
        (lambda: Progress([("S-1", 1), ("S-1", 2)]), "two numbers"),
        (lambda: Progress({"S-1": 9}), "has 3 cuts on S-1, and 9"),
        (lambda: Progress({"S-7": 1}), 'no stick "S-7"'),
        (lambda: Progress({"S-1": 1}, ("A1", "A1")), "2 of A1 are said to be spoiled, and 1 of it is sawn"),
        (lambda: Progress((), ("A7",)), "1 of A7 are said to be spoiled, and none"),
    ],
)
def test_what_cannot_be_done_is_refused_in_words(done, said):
    job, rack, made = one(60, Part("A1", "Bar", STOCK, ALLOY, 10, quantity=3))
    with pytest.raises(PlanError, match=said):
        rack_after_cuts(made, rack, done())
    with pytest.raises(PlanError, match=said):
        job_left(job, made, done())


def test_another_job_or_rack_is_refused():
    job, rack, made = one(60, Part("A1", "Bar", STOCK, ALLOY, 10, quantity=3))
    with pytest.raises(PlanError, match="take the job that was planned"):
        job_left(Job("Other", Shop(), [Part("B1", "Bar", STOCK, ALLOY, 10)]), made, Progress())
    with pytest.raises(RackError, match='no stick "S-1"'):
        rack_after_cuts(made, Rack([]), Progress())
