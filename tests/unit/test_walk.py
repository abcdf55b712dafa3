"""Any order of work, walked through by hand: what is in the hand, what a slip costs, and what cannot come right.

The hinge: 4 3/4 long, end 1 to the vertex in a run of 2 1/8; kerf 1/16, allowance 1/32; a stick of 24. One more blank takes
4 3/4 + 2/32 + 1/16 = 4 7/8 of it, a fresh start behind the run 2 1/8 + 1/16 + 1/32 = 2 7/32.
"""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from anglelib.errors import PartError
from anglelib.geometry.ends import ends_in, first_end, from_other_end, hardness, lies_reversed, made_on_stick, off_stick, short_piece
from anglelib.geometry.order import Work, cards, cut_back, unsquared, walk, whole
from anglelib.geometry.taper import TaperLine
from anglelib.geometry.work import fixes_datum, operations, reading_from_datum
from anglelib.job import Shop
from anglelib.part import Cope, Corner, Hole, Part, Taper
from anglelib.saw import Saw
from anglelib.section import Section

STOCK = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
SHOP, STICK = Shop(), F(24)
E, K = F(1, 32), F(1, 16)


def made(*tapers, length="4 3/4", **features) -> Part:
    return Part("P1", "Trial", STOCK, "6061-T6", length, tapers=tapers, **features)


HINGE = made(Taper("A", 1, run="2 1/8"), holes=[Hole("A", "2 7/16", "11/16", "3/16"), Hole("B", "4 1/4", "11/16", "1/8")])
TURNED = made(Taper("A", 2, run="2 1/8"), holes=[Hole("A", "5/8", "11/16", "3/16"), Hole("B", 2, "11/16", "1/8")])
"""Its harder end is end 2: that lies at the stick's free end."""
COPED = made(copes=[Cope("B", 1, "3/4", "1/2", "1/8"), Cope("A", 2, 1, "1/2", "1/8"), Cope("B", 2, "3/4", "1/2", "1/8")], length=8)
ROUNDED = made(Taper("A", 1, "1/2", run=1), corners=[Corner("B", 2, "1/4"), Corner("B", 1, "1/4")], length=8)
BLANK, BACK = F(39, 8), F(71, 32)


def told(part: Part, order: str = "") -> list[tuple]:
    """Each card's fault or dearness, what is held, and what its failing costs."""
    return [(step.card.id, step.fault or step.dear, step.held, step.metal, step.again) for step in walk(part, SHOP, STICK, order.split())]


def blamed(part: Part, order: str) -> dict[str, str]:
    return {step.card.id: step.fault or step.dear for step in walk(part, SHOP, STICK, order.split()) if step.wrong}


def test_the_order_of_work_card_by_card():
    """The taper is four operations: mark, saw, sand, break the edge."""
    assert told(HINGE) == [
        ("square-1", "", 24, E, 1), ("witness", "", 24, 0, 1), ("taper-A-1", "", 24, BACK, 6), ("length", "", 24 - BLANK, BLANK, 7), ("square-2", "", F(19, 4), BLANK, 8),
        ("drill", "", F(19, 4), BLANK, 9), ("finish", "", F(19, 4), BLANK, 10),
    ]  # fmt: skip
    assert [step.clamped for step in walk(HINGE, SHOP, STICK)] == [False] * 4 + [True] * 3  # under 6 in. nothing is held by hand
    assert [step.clamped for step in walk(HINGE, SHOP, BLANK + 6)][:4] == [False] * 4 and walk(HINGE, SHOP, BLANK + F(95, 16))[3].clamped
    assert [step.work.datum for step in walk(HINGE, SHOP, STICK)] == ["end-1", "end-1", *["witness"] * 5]


def test_a_short_taper_costs_no_more_than_its_run():
    short = made(Taper("A", 1, "1/2", run="1/2"), length=8)
    assert told(short, "square-1 taper-A-1 length square-2 finish")[1][3] == F(1, 2) + K + E


def test_what_was_reached_before_is_lost_too():
    """Holes drilled on the stick reach as far as the farther one's rim, from the free end; what fails after them costs that much."""
    free_1 = told(HINGE, "square-1 drill witness taper-A-1 length square-2 finish")
    assert free_1[1] == ("drill", "cut-to-come", 24, F(17, 4) + F(1, 16) + K + E, 2)
    assert free_1[3] == ("taper-A-1", "", 24, F(17, 4) + F(1, 16) + K + E, 7)
    free_2 = told(TURNED, "square-2 drill witness taper-A-2 length square-1 finish")
    assert free_2[1][3] == F(19, 4) - F(5, 8) + F(3, 32) + K + E  # from end 2 the farther hole is the one near end 1
    # A taper laid on the end inside the stick is worked on through the whole part.
    inside = told(HINGE, "square-2 taper-A-1 length square-1 witness drill finish")
    assert inside[1] == ("taper-A-1", "inside-stick", 24, F(19, 4) + K + E, 5)
    assert whole(HINGE, SHOP) == BLANK and cut_back(F(17, 8), SHOP) == BACK
    rough = Shop(saw=Saw("4", hacksaw_allowance="1/8"))
    assert whole(HINGE, rough) == BLANK + rough.rough_room(F(77, 16)) > BLANK


FAULTS = [
    (HINGE, "square-1 length square-2 witness taper-A-1 drill finish", {"taper-A-1": "off-stick"}),
    (HINGE, "taper-A-1 square-1 witness length square-2 drill finish", {"taper-A-1": "not-square", "square-1": "dressed-after", "witness": "no-datum"}),
    (HINGE, "witness square-1 taper-A-1 length square-2 drill finish", {"witness": "no-datum"}),
    (HINGE, "square-1 taper-A-1 witness length square-2 drill finish", {"taper-A-1": "no-witness", "witness": "no-datum"}),
    (HINGE, "square-1 length square-2 taper-A-1 witness drill finish", {"taper-A-1": "no-witness", "witness": "datum-gone"}),
    (HINGE, "square-2 square-1 witness taper-A-1 length drill finish", {"square-1": "inside-stick", "taper-A-1": "inside-stick"}),
    (HINGE, "length square-1 witness taper-A-1 square-2 drill finish", {"length": "no-datum", "taper-A-1": "off-stick"}),
    (HINGE, "square-1 witness taper-A-1 length drill square-2 finish", {"drill": "cut-to-come"}),
    (HINGE, "square-1 witness taper-A-1 length square-2 finish drill", {"finish": "work-to-come"}),
    (HINGE, "drill square-1 witness taper-A-1 length square-2 finish", {"drill": "no-datum"}),
    (COPED, "square-2 cope-A-2 cope-B-2 length square-1 cope-B-1 finish", {}),
    (COPED, "cope-A-2 square-2 cope-B-2 length square-1 cope-B-1 finish", {"cope-A-2": "not-square", "square-2": "dressed-after"}),
    (COPED, "square-2 cope-A-2 length square-1 cope-B-2 cope-B-1 finish", {"cope-B-2": "off-stick"}),
    (COPED, "square-2 cope-A-2 cope-B-2 length cope-B-1 square-1 finish", {"cope-B-1": "not-square", "square-1": "dressed-after"}),
    (ROUNDED, "square-1 taper-A-1 length square-2 round finish", {}),
    (ROUNDED, "square-1 taper-A-1 round length square-2 finish", {"round": "inside-stick"}),
    (ROUNDED, "round square-1 taper-A-1 length square-2 finish", {"round": "not-square"}),
    (ROUNDED, "square-1 taper-A-1 length round square-2 finish", {"round": "not-square"}),
    (ROUNDED, "square-1 length square-2 round taper-A-1 finish", {"round": "cut-to-come", "taper-A-1": "off-stick"}),
]  # fmt: skip


@pytest.mark.parametrize(("part", "order", "wrong"), FAULTS)
def test_what_cannot_come_right_and_what_costs_more(part, order, wrong):
    assert blamed(part, order) == wrong


def test_holes_may_be_drilled_before_arcs_and_arcs_before_holes():
    part = made(corners=[Corner("B", 2, "1/4")], holes=[Hole("A", 3, "11/16", "1/8")], length=8)
    assert blamed(part, "square-1 length square-2 round drill finish") == {}
    assert blamed(part, "square-1 length square-2 drill round finish") == {"drill": "cut-to-come"}
    assert blamed(part, "square-1 length square-2 drill finish round") == {"drill": "cut-to-come", "finish": "work-to-come"}


def test_an_order_that_is_none():
    for order in ("square-1", "square-1 square-1 witness taper-A-1 length square-2 drill finish", "square-9 witness taper-A-1 length square-2 drill finish"):
        with pytest.raises(PartError, match="An order names each operation of part P1 once: square-1, witness"):
            walk(HINGE, SHOP, STICK, order.split())


def test_the_cards_hold_every_operation_but_the_inspection():
    assert [(card.id, len(card.operations), card.end, card.leg) for card in cards(COPED, SHOP)] == [
        ("square-2", 1, 2, ""), ("cope-A-2", 2, 2, "A"), ("cope-B-2", 2, 2, "B"), ("length", 1, 0, ""), ("square-1", 1, 1, ""), ("cope-B-1", 2, 1, "B"), ("finish", 1, 0, ""),
    ]  # fmt: skip
    for part in (HINGE, TURNED, COPED, ROUNDED):
        assert [o for card in cards(part, SHOP) for o in card.operations if o.kind != "mark"] == [o for o in operations(part, SHOP)[:-1] if o.kind != "mark"]
    assert [card.squares for card in cards(HINGE, SHOP)] == [True, False, False, False, True, False, False]
    (taper,) = (card for card in cards(HINGE, SHOP) if card.line is not None)
    assert taper.line.to_vertex and taper.cope is None and cards(COPED, SHOP)[1].cope == COPED.copes[1]


def test_the_bench_knows_what_it_measures_from():
    line = TaperLine.of(STOCK, Taper("A", 1, run=2))
    assert Work(1).datum == "" and Work(2, squared=frozenset({1, 2})).datum == "end-2" and Work(1, squared=frozenset({2})).datum == "end-2"
    assert Work(1, squared=frozenset({1, 2}), tapers=(line,)).datum == "end-2" and Work(1, squared=frozenset({1}), tapers=(line,), witness=True).datum == "witness"
    assert Work(1, squared=frozenset({1}), witness=True).datum == "end-1"
    done = walk(ROUNDED, SHOP, STICK)[-1].work
    assert done.cut and done.squared == {1, 2} and unsquared(ROUNDED, done) == 0 and unsquared(ROUNDED, Work(1)) == 1 and unsquared(ROUNDED, Work(1, squared=frozenset({1}))) == 2
    assert unsquared(HINGE, Work(1)) == 0 and walk(HINGE, SHOP, STICK)[-1].work.holes and len(walk(COPED, SHOP, STICK)[-1].work.copes) == 3


# --- which end is first -----------------------------------------------------------------------------------------
def test_where_a_line_leaves_and_how_hard_that_is():
    """1/8 thick with a fillet of 1/8: on the other leg below 1/8, in the fillet from there, on the flat from 1/4 on."""
    places = {F(0): "vertex", F(1, 64): "other-leg", F(7, 64): "other-leg", F(1, 8): "fillet", F(15, 64): "fillet", F(1, 4): "flat", F(1): "flat"}
    assert {left: ends_in(STOCK, "A", left) for left in places} == places
    two = Section(2, 2, "1/4", "1/8")
    assert ends_in(two, "A", F(3, 16)) == "flat" and ends_in(two, "B", F(3, 16)) == "other-leg"  # it is the other leg's thickness
    for left, hard in ((0, 4), ("1/16", 3), ("1/8", 2), ("1/2", 1)):
        part = made(Taper("A", 2, left, run=1), Taper("B", 2, "1/2", run=1), copes=[Cope("B", 1, "3/4", "1/2", "1/8")])
        assert hardness(part, 2) == (hard + 1, 0) and hardness(part, 1) == (0, 1)
    assert hardness(COPED, 2) == (0, 2) and hardness(COPED, 1) == (0, 1) and hardness(made(), 1) == (0, 0)


def test_the_harder_end_is_first_and_end_1_where_both_are_alike():
    assert [first_end(part) for part in (HINGE, TURNED, COPED, ROUNDED, made())] == [1, 2, 2, 1, 1]
    assert [off_stick(part) for part in (HINGE, TURNED)] == [2, 1] and [lies_reversed(part) for part in (HINGE, TURNED)] == [False, True]
    assert [made_on_stick(part) for part in (HINGE, TURNED, COPED, made())] == [True, True, True, False]
    assert made_on_stick(made(copes=[Cope("B", 2, "3/4", "1/2", "1/8")]))
    assert not short_piece(made(length=6), SHOP) and short_piece(made(length="5 15/16"), SHOP)


def test_which_end_of_the_stick_a_hand_comes_from():
    """Unequal legs: a left part's tapered end and its mirror image's lie at two ends of one stick; equal legs, and what is its own mirror image, lie as one likes."""
    rail = Section("1 1/2", 1, "1/8", fillet="1/8")

    def part(*tapers, section=rail):
        return Part("D2", "Rail", section, "6061-T6", 12, tapers=tapers)

    one, two = part(Taper("A", 1, "5/8", run=2)), part(Taper("A", 2, "5/8", run=2))
    assert [from_other_end(p, s) for p in (one, two) for s in (rail, rail.swapped())] == [False, True, True, False]
    both = part(Taper("A", 1, "5/8", run=2), Taper("A", 2, "5/8", run=2))
    assert not both.handed and not from_other_end(both, rail.swapped())
    assert not from_other_end(part(Taper("A", 2, "5/8", run=2), section=STOCK), STOCK)


# --- operations -------------------------------------------------------------------------------------------------
def test_what_is_clamped_and_what_is_done_on_the_stick():
    """Under 6 in. everything from the cut to length on is clamped but the finish; drilling always is."""
    short, long = operations(HINGE, SHOP), operations(made(Taper("A", 1, run="2 1/8"), corners=[Corner("B", 2, "1/4")], holes=HINGE.holes, length=12), SHOP)
    assert [(o.id, o.clamped) for o in short] == [
        ("square-1", False), ("witness", False), ("mark-taper-A-1", False), ("saw-taper-A-1", False), ("sand-taper-A-1", False), ("edge-taper-A-1", False),
        ("length-2", True), ("square-2", True), ("drill", True), ("finish", False), ("inspect", False),
    ]  # fmt: skip
    assert [o.id for o in long if o.clamped] == ["drill"] and "round" in [o.id for o in long]
    assert [o.id for o in short if not o.on_stick] == ["square-2", "drill", "finish", "inspect"]
    both = operations(made(Taper("A", 1, run=2), Taper("A", 2, "1/2", run=1)), SHOP)
    assert [o.clamped for o in both if o.end == 2] == [True] * 5 and [o.on_stick for o in both if o.end == 2] == [True] + [False] * 4


def test_how_thick_an_edge_is_left_and_who_says_so():
    edges = [next(o for o in operations(made(Taper("A", 1, run=2, blunt=blunt)), SHOP) if o.kind == "edge") for blunt in (None, "1/32")]
    assert [(o.thick, o.by_plans) for o in edges] == [(F(1, 64), False), (F(1, 32), True)]
    assert not any(o.kind == "edge" for o in operations(made(Taper("A", 1, "1/64", run=2)), SHOP))


def test_which_squaring_makes_the_datum():
    """End 1, while no cut takes an end away: then it is the witness line, whatever is squared."""
    plain, lost_1, lost_2 = made(Taper("A", 1, "1/2", run=2)), HINGE, TURNED
    assert [o.id for o in operations(plain, SHOP) if fixes_datum(plain, o)] == ["square-1"]
    assert not any(fixes_datum(part, o) for part in (lost_1, lost_2) for o in operations(part, SHOP))


def test_a_place_on_the_witness_line_is_nought_from_it():
    part, witness = made(Taper("A", 1, run="2 1/8")), F(5, 2)
    assert reading_from_datum(part, witness) == ("witness line", "0 (0.000)")
    assert reading_from_datum(part, witness + F(1, 64)) == ("witness line", "1/64 (0.016) towards end 2")
    assert reading_from_datum(part, witness - F(1, 64)) == ("witness line", "1/64 (0.016) towards end 1")
