"""The learners' parts and their stock: no two alike, edges kept, tapers sawn on 10 in., enough of everything."""

from dataclasses import replace

import pytest
from recomputed import leg
from shapely import LineString, Point

from anglelib.errors import BenchError, PlanError
from anglelib.files import parse_job, parse_rack, render_job, render_rack
from anglelib.job import Job
from anglelib.stock.checker import check, faults
from anglelib.stock.planner import plan
from anglelib.stock.rack import Rack
from anglelib.workshop.class_plan import ClassWanted
from anglelib.workshop.learner_parts import learners
from anglelib.workshop.stock_to_buy import as_listed, shopping_csv, stock_for

SIZES = (1, 2, 3, 6, 7, 12, 20, 40)


def people_of(number, seed="1"):
    return learners(ClassWanted(number, seed=seed))


def edge_in_diameters(part, hole):
    """From a hole's centre to the free edges of its leg, the heel left out, in diameters."""
    corners = leg(part, hole.leg).exterior.coords
    edges = [LineString(pair) for pair in zip(corners, corners[1:]) if not all(y == 0 for _, y in pair)]
    return min(edge.distance(Point(float(hole.x), float(hole.y))) for edge in edges) / float(hole.diameter)


@pytest.mark.parametrize("number", SIZES)
@pytest.mark.parametrize("seed", ["1", "autumn"])
def test_parts_are_long_handed_legal_and_in_pairs(number, seed):
    people = people_of(number, seed)
    assert [one.number for one in people] == list(range(1, number + 1))
    for one in people:
        part = one.part
        assert part.length >= 4 and part.section.leg_a > 1
        assert part.handed and part.hand == ("left" if one.number % 2 else "right")
        assert part.tapers[0].width_left > part.section.thickness("A") + part.section.fillet  # end 1 stays the datum
        for hole in part.holes:
            assert edge_in_diameters(part, hole) >= 2.5
            assert hole.y - hole.diameter >= part.section.thickness("A") + part.section.fillet  # the head clears the fillet
    for one, two in zip(people[::2], people[1::2]):
        assert one.partner == two.number and two.partner == one.number and one.part.mirrors(two.part)
    runs = [one.part.tapers[0].run for one in people[::2]]
    widths = [one.part.tapers[0].width_left for one in people[::2]]
    assert len(set(runs)) == len(set(widths)) == len(runs)
    assert not any(one.part.same_metal_as(two.part) for n, one in enumerate(people) for two in people[n + 1 :])


def test_a_short_edge_would_be_seen():
    part = people_of(1)[0].part
    near = replace(part.holes[0], x=part.length - part.holes[0].diameter)
    assert edge_in_diameters(part, near) < 2


def test_the_seed_decides():
    assert people_of(6) == people_of(6)
    assert people_of(6) != people_of(6, "2")


@pytest.mark.parametrize("number", SIZES)
def test_the_stock_is_enough_by_the_checker(number):
    wanted = ClassWanted(number)
    stock = stock_for(wanted, learners(wanted))
    assert faults(stock.sawn, stock.pieces, stock.rack) == () == faults(stock.cuts, stock.job, stock.pieces_rack)
    assert not stock.sawn.shortages and not stock.cuts.shortages
    assert stock.cuts.made == number
    tapered = [cut for stick in stock.cuts.sticks for cut in stick.cuts if cut.made_first]
    assert len(tapered) == number and min(cut.still_on for cut in tapered) >= 10
    parted = [cut for stick in stock.cuts.sticks for cut in stick.cuts if cut.blank is not None]
    assert min(cut.stays for cut in parted) >= 6  # 6 in. stay in the hand
    assert all(cut.clamp == (cut.blank.part.length < 6) for cut in parted)  # a short cleat is clamped, as its card says
    spares = stock.pieces.part("KX")
    assert spares.quantity * 4 >= wanted.pairs and spares.length == max(p.length for p in stock.pieces.parts)
    assert stock.pieces.part("Q1").quantity == stock.pieces.part("Q2").quantity == -(-number // 4)
    assert not stock.pieces.part("Q1").section.fillet and stock.pieces.part("Q2").section.fillet


def test_less_stock_is_seen_to_be_too_little():
    wanted = ClassWanted(12)
    stock = stock_for(wanted, learners(wanted))
    less = Rack(stock.rack.sticks[:-1])
    assert plan(stock.pieces, less).shortages
    with pytest.raises(PlanError, match="does not hold"):
        check(stock.sawn, stock.pieces, less)


def test_the_files_are_read_back_and_planned():
    wanted = ClassWanted(6)
    stock = stock_for(wanted, learners(wanted))
    assert parse_job(render_job(stock.job)) == stock.job and parse_job(render_job(stock.pieces)) == stock.pieces
    assert parse_rack(render_rack(stock.pieces_rack)) == stock.pieces_rack and parse_rack(render_rack(stock.rack)) == stock.rack
    free: Job = as_listed(stock.job)
    assert not plan(free, stock.pieces_rack).shortages
    lines = shopping_csv(stock).splitlines()
    assert lines[0].startswith("number,length_in") and len(lines) == 3


@pytest.mark.parametrize(
    "asked, words",
    [
        (dict(learners=0), "needs learners"), (dict(learners=500), "at most 40"), (dict(learners="six"), "not a whole number"),
        (dict(learners=True), "not a whole number"), (dict(learners=6, hours="long"), "not a number"), (dict(learners=6, hours=0), "3 to 12"),
        (dict(learners=6, hours="1e400"), "not a number"), (dict(learners=6, hours="7/0"), "not a number"),
        (dict(learners=6, saws=0), "0 saws"), (dict(learners=6, competent=0), "0 competent"), (dict(learners=6, places=99), "99 places"),
        (dict(learners=6, paper="a9"), "no paper"), (dict(learners=6, seed=" "), "seed is a word"), (dict(learners=6, date="1 May"), "not a day"),
        (dict(learners=6, start="noon"), "not a time"), (dict(learners=6, minutes={"lathe": 4}), "no station"), (dict(learners=6, minutes={"saw": 0}), "3 to 60"),
        (dict(learners=6, bar_measured="much"), "measured bar"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused_in_a_sentence(asked, words):
    with pytest.raises(BenchError, match=words) as refused:
        ClassWanted(**asked)
    assert "\n" not in str(refused.value)


def test_lengths_that_are_too_short_to_buy_are_refused():
    wanted = ClassWanted(6, lengths=(12,))
    with pytest.raises(BenchError, match="too short for a class"):
        stock_for(wanted, learners(wanted))
