"""Reasons, shortages, ways out, answers by their ids: each there is comes up once, and no other wording changes what is done."""

import re
from dataclasses import replace
from fractions import Fraction as F

import pytest

from anglelib.drawing.sheet import Label
from anglelib.drawing.stock_sheets import candidates_sheet, printed_on, traps_sheet
from anglelib.files import read_job, read_rack
from anglelib.job import Job, Shop
from anglelib.part import Part
from anglelib.section import Section
from anglelib.stock import (
    one,
    plan,
    plan_words,
    possible,
    purchase_words,
    reason_words,
    reasons,
    replan_words,
    robust,
    robust_words,
    shortage,
)
from anglelib.stock.fit import refusals
from anglelib.stock.one import one_now
from anglelib.stock.planner import plan as make_plan
from anglelib.stock.purchase import smallest_purchase
from anglelib.stock.rack import Rack, Stick
from anglelib.stock.reasons import Reason
from anglelib.stock.robust import robustness
from anglelib.stock.shortage import ways_out
from anglelib.stock.unused import unused_at
from anglelib.terminal.one_now import _against

ALLOY = "6061-T6"
STOCK = Section("3/4", "3/4", "1/8", fillet="1/8", toe_radius="1/16", heel_radius="1/16")
PART = Part("A1", "Bar", STOCK, ALLOY, 20)


def stick(**about) -> Stick:
    return replace(Stick("S-1", STOCK, ALLOY, 40), **about)


# --- why a stick may not serve ----------------------------------------------------------------------------------
AGAINST = {
    reasons.OTHER_STICK: (replace(PART, only_stick="S-9"), stick(), Reason("other-stick", "S-1", "A1", want="S-9")),
    reasons.BARRED: (replace(PART, not_from=("S-1",)), stick(), Reason("barred", "S-1", "A1")),
    reasons.HANDS_OFF: (PART, stick(hands_off=True), Reason("hands-off", "S-1")),
    reasons.NO_MARK: (PART, stick(alloy=""), Reason("no-mark", "S-1")),
    reasons.ALLOY: (PART, stick(alloy="2024-T3"), Reason("alloy", "S-1", have="2024-T3", want=ALLOY)),
    reasons.SIZE: (PART, stick(section=Section(1, 1, "1/8")), Reason("size", "S-1", have=Section(1, 1, "1/8"), want=STOCK)),
    reasons.THICKNESS: (
        PART,
        stick(section=replace(STOCK, thickness_a=F(3, 16), thickness_b=F(3, 16))),
        Reason("thickness", "S-1", have=replace(STOCK, thickness_a=F(3, 16), thickness_b=F(3, 16)), want=STOCK),
    ),
    reasons.FILLET: (PART, stick(section=replace(STOCK, fillet=F(3, 16))), Reason("fillet", "S-1", have=F(3, 16), want=F(1, 8))),
    reasons.TOE_RADIUS: (PART, stick(section=replace(STOCK, toe_radius=F(0))), Reason("toe-radius", "S-1", have=F(0), want=F(1, 16))),
    reasons.HEEL_RADIUS: (PART, stick(section=replace(STOCK, heel_radius=F(0))), Reason("heel-radius", "S-1", have=F(0), want=F(1, 16))),
    reasons.TOO_SHORT: (PART, stick(length=F(20)), Reason("too-short", "S-1", have=F(20), want=F(161, 8))),
}


@pytest.mark.parametrize("id_", reasons.OF_A_STICK)
def test_each_refusal_has_its_id_and_what_it_needs(id_):
    part, metal, wanted = AGAINST[id_]
    found = refusals(part, metal, Shop())
    assert found == (wanted,) and found[0].id == id_
    said, few = found[0].sentence, reason_words.brief(found[0])
    assert said[0].isupper() and said.endswith(".") and "S-1" in said and 0 < len(few) < len(said)


def test_all_that_speaks_against_a_stick_is_found_in_one_order():
    metal = stick(section=Section("3/4", "3/4", "3/16"), alloy="", hands_off=True, length=F(9))
    found = [reason.id for reason in refusals(replace(PART, only_stick="S-2"), metal, Shop())]
    assert found == ["other-stick", "hands-off", "no-mark", "thickness", "fillet", "toe-radius", "heel-radius", "too-short"]


def test_a_dent_is_named_where_a_stick_is_too_short_beside_it():
    (reason,) = refusals(PART, stick(dents=((15, 16),), length=F(34)), Shop())
    assert (reason.id, reason.dented, reason.have) == ("too-short", True, 18)
    assert "beside its dent" in reason.sentence and reason_words.brief(reason) == "too short beside its dent"


def test_no_id_is_english():
    ids = [*reasons.OF_A_STICK, *reasons.OF_A_PART, reasons.NO_PART, plan.MADE, plan.LEFT, plan.STICKS, plan.CUTS, plan.TRIM, plan.CLEAR]
    ids += [plan.PART_OFF, one.ONLY, one.SHORTEST, one.NAMED, one.SPARES, one.LEAVES_MORE, one.NAMED_GONE, one.NAMED_UNFIT, one.NO_STOCK]
    ids += [one.TOO_LONG, robust.LEFT, robust.AGAIN, robust.NOT, robust.OPEN, shortage.SHORTER, shortage.SPLICED]
    assert len(set(ids)) == len(ids) - 1  # what is left of a plan, and what replaces a spoiled piece
    assert all(re.fullmatch(r"[\w.-]+", id_) for id_ in ids)


# --- why a part cannot be made, and what would free it -------------------------------------------------------------
def test_why_a_part_is_short():
    """Its stick is not there; there is no stick of it; earlier claims need the metal, and the rest is too short."""
    job = Job("Short", Shop(), [replace(PART, only_stick="S-9")])
    (lack,) = make_plan(job, Rack([stick()])).shortages
    assert lack.reasons == (Reason("not-there", "S-9", "A1"),) and (lack.missing, lack.of) == (1, 1)
    (lack,) = make_plan(Job("Short", Shop(), [PART]), Rack([Stick("S-1", Section(1, 1, "1/8"), ALLOY, 40)])).shortages
    assert lack.reasons == (Reason("no-stick", part="A1", have=STOCK, alloy=ALLOY),)
    (lack,) = make_plan(Job("Short", Shop(), [replace(PART, quantity=3)]), Rack([stick(), stick(id="S-2", length=F(9))])).shortages
    assert (lack.missing, lack.of, lack.proven) == (2, 3, True) and lack.short_by == 2 * F(161, 8) - 40
    assert [reason.id for reason in lack.reasons] == ["claimed", "too-short"]
    assert lack.reasons[0] == Reason("claimed", part="A1", sticks=("S-1",))
    assert "SHORT: 2 of 3 x Bar (A1)" in plan_words.shortage_words(lack, Job("Short", Shop(), [replace(PART, quantity=3)]))
    said = plan_words.shortage_words(lack, Job("Short", Shop(), [replace(PART, quantity=3)]), {lack.reasons[1]})
    assert "S-2 is too short" not in said and "S-1 could serve" in said


def test_ways_out_by_their_ids():
    """Bars of 30 and 25 1/2 from sticks of 40 and 25: of the 25, what a blank of 25 9/16 and its cut lack is 5/8."""
    parts = [Part("A1", "Bar", STOCK, ALLOY, 30, one_piece=True), Part("A2", "Bar", STOCK, ALLOY, "25 1/2")]
    job, rack = Job("Ways", Shop(), parts), Rack([stick(), stick(id="S-2", length=F(25))])
    ways = ways_out(job, rack, make_plan(job, rack))
    assert [(way.id, way.short, way.part_id) for way in ways] == [("shorter", "A2", "A2"), ("shorter", "A2", "A1"), ("spliced", "A2", "A2")]
    assert ways[0].by == F(5, 8) and ways[0].pieces == () and sum(ways[2].pieces) == F(51, 2)


def test_what_is_said_of_a_part_of_which_some_are_made(tmp_path):
    """The kit wants 4; 3 are cut, and the rack has no metal for the last: 1 of 4 is short, not 1 of 1."""
    from anglelib.stock.record import Mark, Record, pieces_from
    from anglelib.stock.standing import standing

    job = Job("Kit", Shop(), [replace(PART, quantity=4)])
    record = Record(Rack([stick(length=F(61)), stick(id="S-2", length=F(15))])).marked(Mark("S-1", pieces_from("3 x A1")), job)
    now = standing(job, record)
    (lack,) = now.printed.shortages
    assert (lack.missing, lack.of) == (1, 4) and plan_words.shortage_words(lack, now.job).startswith("SHORT: 1 of 4 x Bar (A1)")


# --- one part now --------------------------------------------------------------------------------------------------
def _asked(sticks, length=20, parts=(), only=""):
    job = Job("Now", Shop(), parts) if parts else None
    return one_now(STOCK, ALLOY, length, Rack(sticks), job, only_stick=only)


def test_why_a_stick_is_the_one_to_cut():
    short, long = stick(id="S-1", length=F(30)), stick(id="S-2", length=F(96))
    assert _asked([short]).why == one.ONLY
    assert _asked([short, long]).why == one.SHORTEST
    assert _asked([short, long], only="S-2").why == one.NAMED
    listed = Part("B1", "Bar", STOCK, ALLOY, 29, only_stick="S-1")
    spared = _asked([short, stick(id="S-2", length=F(45))], parts=(listed,))
    assert spared.why == one.SPARES and spared.stick.id == "S-2" and spared.shorter.costs == one.Lost(("B1",))
    # 20 and 25 from 30 and 50: 20 from the 30 leaves 24 and 9 whole inches, from the 50 it leaves 29 and 4
    less = _asked([short, stick(id="S-2", length=F(50))], parts=(Part("B1", "Bar", STOCK, ALLOY, 25),))
    assert less.why == one.LEAVES_MORE and less.stick.id == "S-2" and not less.shorter.costs
    both = _asked([short], parts=(Part("B1", "Bar", STOCK, ALLOY, 9, quantity=2),))
    assert both.lost == one.Lost(("B1",), ("B1",)) and "not all of B1 can be made" in both.sentence


def test_why_no_stick_is():
    assert _asked([stick(length=F(12))]).why == one.TOO_LONG
    assert _asked([stick(alloy="")]).why == one.NO_STOCK
    assert _asked([stick()], only="S-9").why == one.NAMED_GONE
    unfit = _asked([stick(id="S-9", length=F(12))], only="S-9")
    assert unfit.why == one.NAMED_UNFIT and [reason.id for reason in unfit.against] == ["too-short"]


# --- another wording changes nothing -------------------------------------------------------------------------------
@pytest.fixture
def reworded(monkeypatch):
    """Every sentence of the stock said otherwise, at its source."""
    for table in (reason_words._SENTENCES, reason_words._BRIEF, plan_words._PROOFS):
        for id_, say in table.items():
            monkeypatch.setitem(table, id_, lambda thing, say=say: f"Otherwise: {say(thing)[::-1]}")
    for module, name in ((replan_words, "move"), (purchase_words, "group"), (robust_words, "blade")):
        say = getattr(module, name)
        monkeypatch.setattr(module, name, lambda *given, say=say: f"Otherwise, {say(*given)[::-1]}")


def _facts(job: Job, rack: Rack) -> list:
    """What programs make of a job and a rack: no words of it."""
    made = make_plan(job, rack)
    facts: list = [made.groups, unused_at(made, job, rack)]
    more = replace(job, parts=tuple(replace(part, quantity=part.quantity + 3) for part in job.parts))
    short = make_plan(more, rack)
    facts += [[(lack.part_id, lack.missing, [reason.id for reason in lack.reasons]) for lack in short.shortages]]
    bears = robustness(job, rack, made, budget=0.5)
    facts += [[(b.part.id, b.replaced) for b in bears.parts], bears.kerf, bears.short]
    facts += [[(group.bought, group.proven) for group in smallest_purchase(more, rack, budget=0.5).groups]]
    facts += [[(f.part.id, f.after, f.replanned) for f in possible.still_possible(job, rack, made).further]]
    return facts


def _shown(job: Job, rack: Rack) -> list:
    """What pictures and the terminal make of it: which rows stand where, not what they say."""
    part = job.part("A5L")  # for which some sticks are only too short
    sticks = [s for s in rack.sticks if s.section.leg_a == part.section.leg_a]
    now = one_now(part.section, part.alloy, part.length, rack, shop=job.shop)
    lines = _against(part.section, now, rack)
    picture = candidates_sheet(sticks, part, job.shop, now)
    refused = [s.id for s in sticks if refusals(part, s, job.shop)]
    traps = traps_sheet([(rack.stick("S-11"), part), (rack.stick("S-01"), part)], job.shop)
    not_used = [item.text.endswith(": not used") for item in picture.items if isinstance(item, Label)]
    return [len(lines), [line for line in lines if line.startswith("Too short:")], refused, not_used, len(traps.items) > 0]


def test_other_words_change_nothing_that_is_done(project, request):
    folder = project / "notebooks" / "demo"
    job, rack = read_job(folder / "job.toml"), read_rack(folder / "rack.csv")
    few = replace(job, parts=tuple(part for part in job.parts if part.section == job.part("A3").section))
    facts, shown, words = _facts(few, rack), _shown(few, rack), make_plan(few, rack).groups[0].sentence
    request.getfixturevalue("reworded")
    assert _facts(few, rack) == facts and _shown(few, rack) == shown
    assert make_plan(few, rack).groups[0].sentence != words and "Otherwise" in printed_on(rack.stick("S-12"), few.part("A3"))
