"""What could still be made, and what would free a short part, against every plan there is."""

import sys
from dataclasses import replace
from fractions import Fraction

import pytest
from brute import all_fit, best, met, pieces_wanted
from kits import kit
from small_jobs import ALLOY, small_job

from anglelib.errors import PlanError
from anglelib.job import Job, Shop
from anglelib.part import Part
from anglelib.section import Section
from anglelib.stock.after import rack_after
from anglelib.stock.planner import plan
from anglelib.stock.progress import Progress
from anglelib.stock.purchase import smallest_purchase
from anglelib.stock.rack import Rack, Stick
from anglelib.stock.shortage import ways_out
from anglelib.stock.what_if import spoiled_part, still_possible

STOCK = Section("3/4", "3/4", "1/8", fillet="1/8")
STEP = Fraction(1, 64)


def made_parts(job, made):
    """The parts of a job as often as a plan makes them."""
    short = {s.part_id: s.missing for s in made.shortages}
    return [replace(p, quantity=p.quantity - short.get(p.id, 0)) for p in job.parts if p.quantity > short.get(p.id, 0)]


def with_more(parts, part, number):
    found = {p.id: p for p in parts}
    found[part.id] = replace(part, quantity=(found[part.id].quantity if part.id in found else 0) + number)
    return list(found.values())


def test_one_more_of_each_part():
    yes = again = no = 0
    for seed in range(30):
        job, rack = small_job(seed)
        if seed % 2:
            job = replace(job, shop=replace(job.shop, grain=Fraction(24), usable_minimum=Fraction(20)))
        made = plan(job, rack)
        (group,) = made.groups
        for further in still_possible(job, rack, made).further:
            part = further.part
            anew = Job(job.name, job.shop, with_more(made_parts(job, made), part, 1))
            assert further.proven and further.replanned == all_fit(anew, rack, group.section, group.alloy), seed
            # from what is left: every piece that is made or held stays where it is
            now = rack_after(made, rack)
            if not any(p.later for p in job.parts) and not part.only_stick:
                for number in (further.after, further.after + 1):
                    if 0 < number <= 5:
                        alone = Job("More", job.shop, [replace(part, quantity=number)])
                        assert all_fit(alone, now, group.section, group.alloy) == (number <= further.after), (seed, part.id)
            yes, again, no = yes + bool(further.after), again + (not further.after and further.replanned), no + (not further.replanned)
    assert min(yes, again, no) > 2, (yes, again, no)


def test_what_is_held_is_not_given_away():
    job = Job("Test", Shop(), [Part("A1", "Bar", STOCK, ALLOY, 10, later=True), Part("A2", "Bar", STOCK, ALLOY, 12)])
    found = still_possible(job, Rack([Stick("S-1", STOCK, ALLOY, 24)]), plan(job, Rack([Stick("S-1", STOCK, ALLOY, 24)])))
    assert [(f.part.id, f.after, f.replanned) for f in found.further] == [("A2", 0, False), ("A1", 0, False)]
    assert found.sentence == "No plan makes one more of A2 and A1; proven."


def test_a_far_end_that_may_stay_unsawn_saves_a_cut():
    job = Job("Test", Shop(), [Part("A1", "Bar", STOCK, ALLOY, 10)])
    for good, more in ((True, 1), (False, 0)):
        rack = Rack([Stick("S-1", STOCK, ALLOY, "20 3/16", far_end_good=good)])
        (found,) = still_possible(job, rack, plan(job, rack)).further
        assert (found.after, found.replanned) == (more, bool(more))


def test_parts_that_are_not_listed_may_be_asked_for():
    job, rack = kit(3)
    made = plan(job, rack)
    longest = max(room for g in made.groups for room in g.left)
    asked = [replace(job.parts[0], id="Z1", length=Fraction(longest - 1)), replace(job.parts[0], id="Z2", length=Fraction(longest + 2))]
    found = still_possible(job, rack, made, asked)
    assert [(f.part.id, bool(f.after), f.replanned) for f in found.further] == [("Z2", False, False), ("Z1", True, True)]


def test_a_part_of_another_section_or_alloy_has_no_room():
    job, rack = kit(3)
    made = plan(job, rack)
    for odd in (replace(job.parts[0], alloy="2024-T3"), replace(job.parts[0], section=Section(1, 1, "1/8", fillet="1/8"))):
        (found,) = still_possible(job, rack, made, [odd]).further
        assert (found.after, found.replanned, found.proven) == (0, False, True)


# --- what would free a short part ------------------------------------------------------------------
def shorter(parts, part_id, by):
    return [replace(p, length=p.length - by) if p.id == part_id else p for p in parts]


def test_the_least_shortening_that_frees_a_part():
    freed = others = spliced = 0
    for seed in range(45):
        job, rack = small_job(seed)
        made = plan(job, rack)
        if not made.shortages:
            continue
        (group,) = made.groups
        ways = ways_out(job, rack, made, few=99)
        for short in made.shortages:
            wanted = with_more(made_parts(job, made), job.part(short.part_id), short.missing)

            def possible(part_id, by, wanted=wanted, group=group, job=job, rack=rack):
                return all_fit(Job(job.name, job.shop, shorter(wanted, part_id, by)), rack, group.section, group.alloy)

            said = {way.part_id: way.by for way in ways if way.short == short.part_id and not way.pieces}
            for part in wanted:
                most = part.length / 4 // STEP * STEP
                if part.id in said:
                    by = said[part.id]
                    assert by > 0 and possible(part.id, by) and not possible(part.id, by - STEP), (seed, part.id)
                    freed += 1
                    others += part.id != short.part_id
                elif most > 0:
                    assert not possible(part.id, most), (seed, part.id)
            for way in ways:
                if way.short == short.part_id and way.pieces:
                    part = job.part(way.part_id)
                    assert not part.one_piece and sum(way.pieces) == part.length
                    rest = with_more(wanted, part, -1) if next(p for p in wanted if p.id == part.id).quantity > 1 else [
                        p for p in wanted if p.id != part.id
                    ]
                    pieces = [replace(part, id=f"{part.id}-{n}", quantity=1, length=length) for n, length in enumerate(way.pieces)]
                    anew = Job(job.name, job.shop, [*rest, *pieces])
                    assert all(met(best(anew, rack, group.section, group.alloy))), seed
                    assert len(pieces_wanted(anew, group.section, group.alloy)) == sum(p.quantity for p in wanted) + 1
                    spliced += 1
    assert freed > 5 and others > 1 and spliced > 1, (freed, others, spliced)


def test_a_part_in_one_piece_is_never_spliced_and_a_lap_is_counted():
    rack = Rack([Stick("S-1", STOCK, ALLOY, 40), Stick("S-2", STOCK, ALLOY, 40)])

    def ways(one_piece, lap=0):
        job = Job("Test", Shop(), [Part("A1", "Spar", STOCK, ALLOY, 60, one_piece=one_piece)])
        return [way for way in ways_out(job, rack, plan(job, rack), lap) if way.pieces]

    assert ways(True) == []
    assert sum(ways(False)[0].pieces) == 60 and sum(ways(False, 4)[0].pieces) == 64
    assert "by the plans' leave" in ways(False)[0].sentence
    with pytest.raises(PlanError, match="lap of a splice"):
        ways(False, "x")


def test_nothing_short_needs_no_way_out():
    job, rack = kit(3)
    assert ways_out(job, rack, plan(job, rack)) == ()


def test_only_the_few_least_ways_are_given():
    parts = [Part(f"A{n}", "Bar", STOCK, ALLOY, 20 + n) for n in range(6)]
    job = Job("Test", Shop(), parts)
    rack = Rack([Stick(f"S-{n}", STOCK, ALLOY, "41 1/4") for n in range(3)])
    made = plan(job, rack)
    assert made.shortages
    all_ways, some = ways_out(job, rack, made, few=99), ways_out(job, rack, made)
    for short in made.shortages:
        shorter_ones = [way for way in all_ways if way.short == short.part_id and not way.pieces]
        assert [way for way in some if way.short == short.part_id and not way.pieces] == shorter_ones[:3]
    assert ways_out(job, rack, made, budget=0) == ()


def test_without_a_solver_a_small_rack_has_its_answers_and_a_large_one_a_sentence(monkeypatch):
    parts = [Part("A1", "Bar", STOCK, ALLOY, 20), Part("A2", "Bar", STOCK, ALLOY, 15)]
    job, rack = Job("Test", Shop(), parts), Rack([Stick("S-1", STOCK, ALLOY, 40), Stick("S-2", STOCK, ALLOY, 30)])
    made = plan(job, rack)
    # three of 72 hold the length of all, and not the blanks: no rule and no single price list says so
    many = Job("Test", Shop(), [Part("A1", "Bar", STOCK, ALLOY, "23 7/8", quantity=7), Part("A2", "Bar", STOCK, ALLOY, "23 1/4")])
    assert [g.bought for g in smallest_purchase(many, Rack([]), (72,), ("1/4", "1/4")).groups] == [((72, 4),)]
    for name in [name for name in sys.modules if name.split(".")[0] == "ortools"]:
        monkeypatch.setitem(sys.modules, name, None)
    assert spoiled_part(job, rack, made, "A1", Progress({"S-1": 2})).plan.shortages == ()
    assert [f.replanned for f in still_possible(job, rack, made).further] == [True, True]
    (odd,) = still_possible(job, rack, made, [Part("A3", "Bar", STOCK, ALLOY, 31)]).further
    assert not odd.replanned and odd.proven
    with pytest.raises(PlanError, match="smallest purchase needs it"):
        smallest_purchase(many, Rack([]), (72,), ("1/4", "1/4"))
