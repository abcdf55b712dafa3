"""What a plan bears, and which part may not be spoiled: against the saw and against every plan there is."""

from dataclasses import replace
from fractions import Fraction

import pytest
from brute import all_fit, sound
from small_jobs import ALLOY, small_job

from anglelib.job import Job, Shop
from anglelib.part import Part
from anglelib.section import Section
from anglelib.stock.planner import plan
from anglelib.stock.progress import Progress, job_left, rack_after_cuts
from anglelib.stock.rack import Rack, Stick
from anglelib.stock.robust import AGAIN, LEFT, NOT, robustness

STOCK = Section("3/4", "3/4", "1/8", fillet="1/8")
HAIR = Fraction(1, 10**7)


def still_holds(planned, stick, kerf):
    """Whether each usable length that the plan takes blanks from still holds them: (from, to) are the oracle's own."""
    was = sound(planned.stick, planned.kerf)
    now = sound(stick, kerf)
    for begin, end, _, _ in was:
        lengths = [p.blank.length for p in planned.lying if begin <= p.start < end]
        if not lengths:
            continue
        # the same usable length is the one that ends at the same dent, or at the end of the stick
        last = end == planned.stick.length - planned.stick.trim_2
        same = [e for e in now if (e[1] == stick.length - stick.trim_2 if last or end > stick.length - stick.trim_2 else e[1] == end)]
        if not same:
            return False
        a, b, _, unsawn = same[0]
        if a > begin and stick.length != planned.stick.length:
            return False
        if sum(lengths) + (len(lengths) - (1 if unsawn else 0)) * kerf > b - a:
            return False
    return True


class Seen:
    def __init__(self, planned, kerf):
        self.stick, self.kerf, self.lying = planned.stick, kerf, (*planned.placed, *planned.held)


def cropped(stick, short):
    length = stick.length - short
    return replace(stick, length=length, dents=tuple((a, min(b, length)) for a, b in stick.dents if a < length))


def test_the_kerf_and_the_shortfall_are_the_last_that_hold():
    """At the limit every blank still fits; a hair beyond it one does not; below it every kerf will do."""
    limits = dented = 0
    for seed in range(60):
        job, rack = small_job(seed)
        made = plan(job, rack)
        for bears in robustness(job, rack, made, budget=0).sticks:
            seen = Seen(made.stick(bears.stick.id), job.shop.kerf)
            if bears.kerf is not None:
                limits += 1
                dented += bool(bears.stick.dents)
                steps = [job.shop.kerf + (bears.kerf - job.shop.kerf) * n / 12 for n in range(12)]
                assert all(still_holds(seen, bears.stick, kerf) for kerf in steps), seed
                assert not still_holds(seen, bears.stick, bears.kerf + HAIR), seed
            else:
                assert all(still_holds(seen, bears.stick, job.shop.kerf + n) for n in range(1, 5))
            assert bears.short >= 0
            assert still_holds(seen, cropped(bears.stick, bears.short), job.shop.kerf), seed
            assert not still_holds(seen, cropped(bears.stick, bears.short + HAIR), job.shop.kerf), seed
    assert limits > 50 and dented > 5


def again(job, rack, made, planned, part_id):
    """Whether all can still be made when a piece is spoiled at its cut (its last of the stick), by trying every plan."""
    last = max((n for n, c in enumerate(planned.cuts, 1) if c.blank is not None and c.blank.part.id == part_id), default=0)
    if any(p.blank.part.id == part_id and not p.sawn for p in planned.placed):
        last = len(planned.cuts)
    done = Progress({planned.stick.id: last}).spoil(part_id)
    left, now = job_left(job, made, done), rack_after_cuts(made, rack, done)
    short = {s.part_id: s.missing for s in made.shortages}
    parts = [replace(p, quantity=p.quantity - short.get(p.id, 0)) for p in left.parts if p.quantity > short.get(p.id, 0)]
    (group,) = made.groups
    return all_fit(Job(job.name, job.shop, parts), now, group.section, group.alloy)


def test_which_part_may_not_be_spoiled():
    count = {LEFT: 0, AGAIN: 0, NOT: 0}
    for seed in range(60):
        job, rack = small_job(seed)
        if seed % 2:  # coarse grains: the plan need not leave the longest piece to the inch
            job = replace(job, shop=replace(job.shop, grain=Fraction(24), usable_minimum=Fraction(20)))
        made = plan(job, rack)
        for bears in robustness(job, rack, made).parts:
            part_id = bears.part.id
            sticks = [s for s in made.sticks if any(p.blank.part.id == part_id for p in s.placed)]
            possible = all(again(job, rack, made, s, part_id) for s in sticks)
            assert possible == (bears.replaced in (LEFT, AGAIN)), (seed, part_id, bears.replaced)
            # from what is left: one more piece beside everything that the plan has where it has it
            fits = False
            for planned in made.groups[0].sticks:
                if bears.part.only_stick not in ("", planned.stick.id):
                    continue
                for r in planned.remnants:
                    for x, y, _, unsawn in sound(r.stick, job.shop.kerf):
                        here = [p.blank.length for p in planned.held if r.start + x <= p.start < r.start + y]
                        lengths = [*here, bears.part.length + 2 * job.shop.allowance]
                        fits |= sum(lengths) + (len(lengths) - (1 if unsawn else 0)) * job.shop.kerf <= y - x
            assert fits == (bears.replaced == LEFT), (seed, part_id)
            count[bears.replaced] += 1
    assert min(count.values()) > 1, count


def test_in_words():
    parts = [Part("A1", "Spar", STOCK, ALLOY, 66), Part("A2", "Clip", STOCK, ALLOY, 2)]
    rack = Rack([Stick("S-1", STOCK, ALLOY, 72)])
    job = Job("Test", Shop(), parts)
    found = robustness(job, rack, plan(job, rack))
    assert found.not_spoiled == ("A1",)
    assert found.sentence == (
        "A1 may not be spoiled: there is no metal for another. One piece of any other part can be replaced from what is left. "
        "The plan holds with every blade that there is, and its stick may be 3 3/4 shorter than listed."
    )
    assert found.parts[1].sentence == "One A2 may be spoiled: what is left when all is sawn gives another."


def test_by_hand():
    """Two bars of 10 with allowances of 1/32 on 24 in. with trims of 1/4: all that 24 - 1/2 - 20 1/8 leaves may go into the cut between them.

    The second cut may run into what is trimmed off.
    """
    job = Job("Test", Shop(), [Part("A1", "Bar", STOCK, ALLOY, 10, quantity=2)])
    rack = Rack([Stick("S-1", STOCK, ALLOY, 24, "1/4", "1/4")])
    found = robustness(job, rack, plan(job, rack))
    assert found.kerf == 24 - Fraction(1, 2) - (20 + Fraction(1, 8))
    assert found.short == 24 - Fraction(1, 2) - (20 + Fraction(1, 8)) - Fraction(1, 16)


def test_a_far_end_that_needs_no_cut_bears_any_kerf():
    job = Job("Test", Shop(), [Part("A1", "Bar", STOCK, ALLOY, 10)])
    rack = Rack([Stick("S-1", STOCK, ALLOY, "10 1/8", far_end_good=True)])
    found = robustness(job, rack, plan(job, rack))
    assert found.kerf is None and found.sticks[0].sentence == "S-1 may be 1/16 shorter than listed, and serves with every blade that there is."


def test_a_thicker_blade_outgrows_a_dent():
    """The dent is 1/16 wide: a thicker blade starts the second length later, so that the kerf counts twice there."""
    job = Job("Test", Shop(), [Part("A1", "Bar", STOCK, ALLOY, 10, quantity=2)])
    rack = Rack([Stick("S-1", STOCK, ALLOY, "31 1/2", dents=[(20, "20 1/16")])])
    made = plan(job, rack)
    assert sorted(len([p for p in made.stick("S-1").placed if p.start > n]) for n in (-1, 20)) == [1, 2]
    # beyond the dent: 31 1/2 - 20 less the blank, shared by the cut in the dent and the blank's own
    assert robustness(job, rack, made).kerf == (Fraction("11.5") - (10 + Fraction(1, 16))) / 2
    # a dent 1/2 wide hides a blade up to 1/2; beyond that the kerf counts twice: 3/4, not 1
    lone = Job("Test", Shop(), [Part("A1", "Bar", STOCK, ALLOY, 10)])
    for length, limit in (("31 9/16", Fraction(3, 4)), ("30 13/16", Fraction(1, 4))):
        rack = Rack([Stick("S-1", STOCK, ALLOY, length, dents=[(1, 2), (20, "20 1/2")], trim_1=19)])
        assert robustness(lone, rack, plan(lone, rack)).kerf == limit


@pytest.mark.parametrize("nothing", [Part("A1", "Bar", STOCK, ALLOY, 90), Part("A1", "Bar", STOCK, ALLOY, 10, later=True)])
def test_nothing_sawn(nothing):
    job, rack = Job("Test", Shop(), [nothing]), Rack([Stick("S-1", STOCK, ALLOY, 24)])
    found = robustness(job, rack, plan(job, rack))
    assert found.parts == () and found.not_spoiled == ()
    assert bool(found.sticks) == nothing.later  # what is held is lost by a short stick too


def test_a_stick_that_may_not_be_shorter_is_to_be_measured_first():
    job = Job("Test", Shop(allowance=0), [Part("A1", "Bar", STOCK, ALLOY, 10)])
    rack = Rack([Stick("S-1", STOCK, ALLOY, 10, far_end_good=True)])
    assert robustness(job, rack, plan(job, rack)).sentence.endswith("; S-1 may not be shorter than listed: measure it first.")
