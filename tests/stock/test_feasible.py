"""n blanks fit a usable length iff the blades fit too: one 64th more or less decides.

Feasibility by hand: sum(b) + n k <= E, or sum(b) + (n - 1) k <= E where the far end may end a blank.
"""

from dataclasses import replace
from fractions import Fraction

import pytest

from anglelib.job import Job, Shop
from anglelib.lengths import MM
from anglelib.part import Part
from anglelib.section import Section
from anglelib.stock.checker import faults
from anglelib.stock.plan import PART_OFF
from anglelib.stock.planner import plan
from anglelib.stock.rack import Rack, Stick
from anglelib.stock.reasons import ALLOY, NO_MARK, NOT_THERE, Reason

STOCK = Section("3/4", "3/4", "1/8", fillet="1/8")
HAIR = Fraction(1, 64)


def planned(length, parts, shop=None, **stick):
    job = Job("Test", shop or Shop(), parts)
    rack = Rack([Stick("S-1", STOCK, "6061-T6", length, **stick)])
    made = plan(job, rack)
    assert faults(made, job, rack) == ()
    return made


def bars(n, length=10, **how):
    return [Part("A1", "Bar", STOCK, "6061-T6", length, quantity=n, **how)]


BLANK = 10 + Fraction(1, 16)  # two allowances of 1/32
KERF = Fraction(1, 16)


@pytest.mark.parametrize("n", [1, 2, 5])
@pytest.mark.parametrize("good", [False, True])
def test_one_hair_decides(n, good):
    exact = n * BLANK + (n - 1 if good else n) * KERF
    assert planned(exact, bars(n), far_end_good=good).made == n
    assert planned(exact - HAIR, bars(n), far_end_good=good).made == n - 1


def test_an_unsawn_end_has_no_cut_and_may_be_a_little_long():
    made = planned(2 * BLANK + KERF + HAIR, bars(2), far_end_good=True)
    stick = made.stick("S-1")
    assert [cut.kind for cut in stick.cuts] == [PART_OFF]
    assert stick.placed[1].surplus == HAIR and not stick.placed[1].sawn


def test_trims_are_lost_at_both_ends():
    """The cut that parts the last blank off is the one that trims end 2: it takes none of what can be used."""
    length = BLANK + Fraction(3, 4)
    assert planned(length, bars(1), trim_1="1/4", trim_2="1/2").made == 1
    assert planned(length - HAIR, bars(1), trim_1="1/4", trim_2="1/2").made == 0


def test_a_dent_splits_a_stick():
    # one blank before the dent, into which its cut may run, and one beyond it, with its cut
    ends = dict(dents=[("10 1/16", 11)])
    assert planned(11 + BLANK + KERF, bars(2), **ends).made == 2
    assert planned(11 + BLANK + KERF - HAIR, bars(2), **ends).made == 1
    assert planned(11 + BLANK + KERF, bars(2), dents=[(BLANK - HAIR, 11)]).made == 1
    assert planned(30, bars(2), dents=[(10, 20)]).made == 0


def test_an_end_with_a_trim_is_trimmed_whatever_is_said_of_it():
    """A blank that ends where the sound metal does is parted off there: what is to be trimmed does not stay on it."""
    made = planned(2 * BLANK + KERF + Fraction(1, 4), bars(2), trim_2="1/4", far_end_good=True)
    last = made.stick("S-1").placed[-1]
    assert last.sawn and last.end == 2 * BLANK + KERF and [cut.x for cut in made.stick("S-1").cuts] == [BLANK, last.end]


def test_the_last_cut_may_run_out_of_the_stick_where_less_than_a_blade_is_trimmed():
    """A trim of 1/64: the blade takes it, and no more than there is."""
    made = planned(BLANK + HAIR, bars(1), trim_2=HAIR)
    (cut,) = made.stick("S-1").cuts
    assert (cut.kerf, cut.stays, made.stick("S-1").remnants) == (HAIR, 0, ())
    assert planned(BLANK + HAIR, bars(1)).made == 0  # a rough end of which nothing is said to be lost has to be sawn off


def test_a_scratch_is_gone_with_one_cut_for_both_its_sides():
    """One blank ends where the scratch begins, the next begins where that cut ends: two cuts, not three."""
    scratch = dict(dents=[(BLANK, BLANK + Fraction(1, 1000))])
    made = planned(2 * (BLANK + KERF), bars(2), **scratch)
    assert made.made == 2 and [cut.kind for cut in made.stick("S-1").cuts] == [PART_OFF, PART_OFF]
    assert planned(2 * (BLANK + KERF) - HAIR, bars(2), **scratch).made == 1


def test_of_equal_claims_as_many_are_made_as_can_be():
    """By hand: S-1 gives the spar or two bars, S-2 the spar and one bar, or three bars; A1 may come from S-1 only, A2 from S-2 only.

    With the spar from S-2 A1 and one A2 are made; with the spar from S-1 no A1, but all three A2: three of four bars instead of two.
    """
    parts = [
        Part("A0", "Spar", STOCK, "6061-T6", 20),
        Part("A1", "Bar", STOCK, "6061-T6", 10, only_stick="S-1"),
        Part("A2", "Bar", STOCK, "6061-T6", 10, quantity=3, only_stick="S-2"),
    ]
    rack = Rack([Stick("S-1", STOCK, "6061-T6", 21), Stick("S-2", STOCK, "6061-T6", 31)])
    made = plan(Job("Test", Shop(), parts), rack)
    assert {s.part_id: s.missing for s in made.shortages} == {"A1": 1} and made.groups[0].proofs[0].proven
    # the ids do not matter: named the other way round, the same three are made
    renamed = [parts[0], *(replace(part, id=f"{'Z' if part.id == 'A1' else 'B'}-{part.id}") for part in parts[1:])]
    again = plan(Job("Test", Shop(), renamed), rack)
    assert {s.part_id: s.missing for s in again.shortages} == {"Z-A1": 1}


def test_a_dent_narrower_than_the_blade_takes_a_kerf():
    start = BLANK + KERF
    ends = dict(dents=[(start, start + Fraction(1, 1000))])
    assert planned(start + KERF + BLANK + KERF, bars(2), **ends).made == 2
    assert planned(start + KERF + BLANK + KERF - HAIR, bars(2), **ends).made == 1


def test_millimetres_and_decimals_are_exact():
    shop = Shop(kerf="0.043", allowance=0)
    parts = [Part("A1", "Bar", STOCK, "6061-T6", 100 * MM), Part("A2", "Bar", STOCK, "6061-T6", "3.937")]
    exact = 100 * MM + Fraction("3.937") + 2 * Fraction("0.043")
    assert planned(exact, parts, shop).made == 2
    assert planned(exact - Fraction(1, 10**6), parts, shop).made == 1


def test_what_is_held_is_not_sawn_but_takes_its_length():
    parts = [*bars(1, later=True), Part("A2", "Bar", STOCK, "6061-T6", 10)]
    made = planned(2 * (BLANK + KERF), parts)
    stick = made.stick("S-1")
    assert [str(p.blank) for p in stick.placed] == ["A2"] and [str(p.blank) for p in stick.held] == ["A1"]
    (remnant,) = stick.remnants
    assert remnant.holds == (stick.held[0].blank,) and "holds 10 1/16 for A1" in remnant.stick.note
    short = planned(2 * (BLANK + KERF) - HAIR, parts)
    assert [s.part_id for s in short.shortages] == ["A2"]


def test_a_stick_with_nothing_but_held_blanks_stays_whole():
    made = planned(30, bars(2, later=True))
    stick = made.stick("S-1")
    assert not stick.touched and len(stick.held) == 2 and stick.remnants[0].stick.id == "S-1"


def test_hands_off_and_unknown_alloy_are_not_used():
    assert planned(100, bars(1), hands_off=True).made == 0
    job = Job("Test", Shop(), bars(1))
    for alloy, reason in (("", Reason(NO_MARK, "S-1")), ("6063-T5", Reason(ALLOY, "S-1", have="6063-T5", want="6061-T6"))):
        made = plan(job, Rack([Stick("S-1", STOCK, alloy, 100)]))
        assert made.made == 0 and made.shortages[0].reasons == (reason,)


def test_a_pin_outranks_a_better_stick():
    job = Job("Test", Shop(), [Part("A1", "Bar", STOCK, "6061-T6", 10, only_stick="S-1")])
    rack = Rack([Stick("S-1", STOCK, "6061-T6", 96), Stick("S-2", STOCK, "6061-T6", 12)])
    assert [s.stick.id for s in plan(job, rack).sticks] == ["S-1"]
    gone = Rack([Stick("S-2", STOCK, "6061-T6", 12)])
    assert plan(job, gone).shortages[0].reasons == (Reason(NOT_THERE, "S-1", "A1"),)


def test_a_longeron_is_not_given_up_for_clips():
    parts = [Part("A1", "Clip", STOCK, "6061-T6", 2, quantity=9), Part("A2", "Longeron", STOCK, "6061-T6", 90, one_piece=True)]
    made = planned(94, parts)
    assert [(s.part_id, s.missing) for s in made.shortages] == [("A1", 8)]
    first = [parts[0].__class__(**{**_fields(parts[0]), "priority": 1}), parts[1]]
    assert [(s.part_id, s.missing) for s in planned(94, first).shortages] == [("A2", 1)]


def test_a_shortage_says_by_how_much():
    """Three bars on a stick for two: the third lacks its length and cut less what the two leave."""
    (short,) = planned(25, bars(3)).shortages
    assert short.missing == 1 and short.proven
    assert short.short_by == 3 * (BLANK + KERF) - 25


def _fields(part):
    return {name: getattr(part, name) for name in part.__dataclass_fields__}


def test_unequal_legs_may_lie_either_way():
    section = Section("1 1/2", 1, "1/8", fillet="1/8")
    job = Job("Test", Shop(), [Part("A1", "Bar", section, "6061-T6", 10)])
    rack = Rack([Stick("S-1", section.swapped(), "6061-T6", 12)])
    made = plan(job, rack)
    assert made.made == 1 and faults(made, job, rack) == ()
