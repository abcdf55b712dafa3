"""Ways out of a shortage, by hand: where a joint is tried, what of a plan counts, in what order the ways come."""

from dataclasses import replace
from fractions import Fraction as F

from anglelib.job import Job, Shop
from anglelib.lengths import MM
from anglelib.part import Part
from anglelib.section import Section
from anglelib.stock import shortage
from anglelib.stock.planner import plan
from anglelib.stock.rack import Rack, Stick
from anglelib.stock.search import NO
from anglelib.stock.shortage import SHORTER, SPLICED, ways_out

STOCK = Section("3/4", "3/4", "1/8", fillet="1/8")
ALLOY = "6061-T6"
BARE = Shop(kerf=0, allowance=0, hand_minimum=0, usable_minimum=0, grain=1)


def rack(*lengths) -> Rack:
    return Rack([Stick(f"S-{n}", STOCK, ALLOY, length) for n, length in enumerate(lengths, 1)])


def bar(id_: str, length, **more) -> Part:
    return Part(id_, "Bar", STOCK, ALLOY, length, **more)


def found(parts, sticks, shop=BARE, lap=0, **more):
    job = Job("Trial", shop, parts)
    return [(way.id, way.short, way.part_id, way.by or way.pieces, way.proven) for way in ways_out(job, sticks, plan(job, sticks), lap, **more)]


def test_without_blade_or_sanding_the_two_pieces_fill_the_two_sticks():
    """A bar of 50, sticks of 30 and 20: short by 20, which is more than a quarter of it; spliced from just these two."""
    assert found([bar("A1", 50)], rack(30, 20)) == [(SPLICED, "A1", "A1", (30, 20), False)]
    assert found([bar("A1", 50)], rack(30, "19 63/64")) == []
    assert found([bar("A1", 50)], rack(30, 22), lap=2) == [(SPLICED, "A1", "A1", (30, 22), False)]
    assert found([bar("A1", 50)], rack(30, "21 63/64"), lap=2) == []


def test_the_blade_and_the_sanding_of_each_piece_are_reckoned():
    """Blade 1/16 and twice 1/32 for each piece: of 30 and 20 in. pieces of 29 7/8 and 19 7/8 can be made at most."""
    shop = replace(BARE, kerf=F(1, 16), allowance=F(1, 32))
    assert found([bar("A1", "49 3/4")], rack(30, 20), shop) == [(SPLICED, "A1", "A1", (F(239, 8), F(159, 8)), False)]
    assert found([bar("A1", F(3185, 64))], rack(30, 20), shop) == []


def test_no_piece_is_shorter_than_a_hand_may_hold():
    """A bar of 33 from a stick of 30 and one of 3: the piece of 3 is under 6 in.; with 6 in. of room the longer one is as long as may be, 27."""
    shop = replace(BARE, hand_minimum=F(6))
    assert [way for way in found([bar("A1", 33)], rack(30, 3), shop) if way[0] == SPLICED] == []
    assert [way for way in found([bar("A1", 33)], rack(30, 6), shop) if way[0] == SPLICED] == [(SPLICED, "A1", "A1", (27, 6), False)]
    assert [way for way in found([bar("A1", 33)], rack(30, 3)) if way[0] == SPLICED] == [(SPLICED, "A1", "A1", (30, 3), False)]


def test_the_least_that_a_part_is_shortened_by_is_proven_and_is_a_step_of_its_unit():
    """A bar of 40 in a stick of 39 1/3: by 43/64 (2/3 is 42.67/64); in a job in mm by 17 mm, of 16.93 in steps of a half."""
    assert found([bar("A1", 40, one_piece=True)], rack(F(118, 3))) == [(SHORTER, "A1", "A1", F(43, 64), True)]
    assert found([bar("A1", 40, one_piece=True)], rack(40 - F(1, 64))) == [(SHORTER, "A1", "A1", F(1, 64), True)]
    job = Job("Trial", BARE, [bar("A1", 40, one_piece=True)], unit="mm")
    [way] = ways_out(job, rack(F(118, 3)), plan(job, rack(F(118, 3))))
    assert (way.by, way.proven) == (17 * MM, True)


def test_no_part_is_shortened_by_more_than_a_quarter():
    """A bar of 40 and a stick of 30: just a quarter; a hair less metal, and it would be another part."""
    assert found([bar("A1", 40, one_piece=True)], rack(30)) == [(SHORTER, "A1", "A1", 10, True)]
    assert found([bar("A1", 40, one_piece=True)], rack(30 - F(1, 64))) == []


def test_of_several_parts_the_least_shortening_comes_first_and_at_one_length_the_short_part_itself():
    """20 and 20 from 39: either by 1, the short one said first; the first of three, from 42, too: C is short, and by an inch of any it could be made."""
    assert found([bar("B", 20, one_piece=True), bar("A", 20, one_piece=True)], rack(39)) == [(SHORTER, "B", "B", 1, True), (SHORTER, "B", "A", 1, True)]
    three = [bar("B", 20, one_piece=True), bar("A", 19, one_piece=True), bar("C", 4, one_piece=True)]
    assert [way[1:4] for way in found(three, rack(42))] == [("C", "C", 1), ("C", "A", 1), ("C", "B", 1)]
    assert [way[2] for way in found(three, rack(42), few=2)] == ["C", "A"]


def test_only_what_the_plan_makes_has_to_be_made_beside_the_short_part():
    """B is short too: A may be made without it, as the plan makes none of B."""
    parts = [bar("A", 30, one_piece=True), bar("B", 200, one_piece=True)]
    assert found(parts, rack("29 1/2")) == [(SHORTER, "A", "A", F(1, 2), True)]


def test_where_time_is_out_nothing_is_said():
    assert found([bar("A1", 50)], rack(30, 20), budget=0) == [] and found([bar("A1", 50)], rack(30, 20), seconds=0.0) == []


def test_another_section_and_alloy_are_no_matter():
    other = Section(1, 1, "1/8", fillet="1/8")
    parts = [bar("A1", 50), Part("X", "Other", other, ALLOY, 70), Part("Y", "Other", STOCK, "6063-T5", 70)]
    sticks = Rack([*rack(30, 20).sticks, Stick("T-1", other, ALLOY, 70), Stick("T-2", STOCK, "6063-T5", 70)])
    assert found(parts, sticks) == [(SPLICED, "A1", "A1", (30, 20), False)]


def test_each_question_takes_its_share_of_the_work(monkeypatch):
    """However quickly it is answered: with work for five questions no more are asked."""
    asked = []
    monkeypatch.setattr(shortage, "can_be_made", lambda *_: asked.append(1) or NO)
    assert found([bar("A1", 50), bar("A2", 49), bar("A3", 48)], rack(30, 20), budget=0.0099) == [] and len(asked) == 5


def test_a_part_of_which_a_quarter_is_one_step_may_be_shortened_by_it():
    """2 mm in steps of half a millimetre; of 1.9 mm a quarter is less than a step."""
    for length, more in ((2, [(SHORTER, MM / 2, True)]), (F(19, 10), [])):
        job, sticks = Job("Trial", BARE, [bar("A1", length * MM, one_piece=True)], unit="mm"), rack((length - F(1, 2)) * MM)
        assert [(way.id, way.by, way.proven) for way in ways_out(job, sticks, plan(job, sticks))] == more
