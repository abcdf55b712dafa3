"""Plan and purchase as JSON and back: every noun as it was, every length exactly; what is none is refused, whatever of the file is spoiled."""

from __future__ import annotations

import json
import re
import sys
from dataclasses import replace
from fractions import Fraction as F
from pathlib import Path

import pytest

from anglelib.errors import BenchError, PlanError
from anglelib.files.plan_codec import length_of, length_text, made, plain
from anglelib.files.plan_file import ENDING, laid_out, parse_plan, plan_path, plans_beside, read_plan, render_plan, write_plan
from anglelib.files.purchase_file import parse_purchase, purchase_path, purchases_beside, read_purchase, render_purchase, write_purchase
from anglelib.job import Job, Shop
from anglelib.part import Part
from anglelib.saw import Saw
from anglelib.section import Section
from anglelib.stock.in_hand import in_hand
from anglelib.stock.plan import Proof, Trade
from anglelib.stock.planner import plan
from anglelib.stock.purchase import smallest_purchase
from anglelib.stock.rack import Rack, Stick
from anglelib.stock.reasons import ALLOY, FILLET, SIZE, Reason
from anglelib.stock.to_buy import to_buy

sys.path.insert(0, str(Path(__file__).parents[1] / "stock"))
from small_jobs import small_job  # noqa: E402

sys.path.pop(0)
STOCK = Section("3/4", "3/4", "1/8", fillet="1/8")
MM = F(5, 127)

LENGTHS = [F(0), F(1, 64), F(27, 16), F(1, 3), F(-1, 7), F(-3), 10 * MM, F(254, 127), 3000 * MM, F(1, 10**12), F(10**9, 7), F(987654321, 123456789), F(43, 1000)]


@pytest.mark.parametrize("length", LENGTHS, ids=str)
def test_a_length_comes_back_exactly_and_with_its_unit(length):
    text = length_text(length)
    assert length_of(text) == length and text.endswith((" in", " mm"))
    assert text[0] in "-0123456789" and text.isascii()
    by_hand = {F(27, 16): "1 11/16 in", 10 * MM: "10 mm", F(-3): "-3/1 in", F(43, 1000): "0.043 in"}
    assert by_hand.get(length, text) == text


def plans():
    for seed in range(16):
        job, rack = small_job(seed)
        if seed % 2:
            job = replace(job, shop=replace(job.shop, saw=Saw(4, hacksaw_allowance=F(1, 8))))
        yield job, plan(job, rack)


def as_said(hand) -> str:
    """All that is in a plan in hand; of how many pieces a blank is one may be left to its part to say."""
    return re.sub(r"whole=\d+", "whole", repr(hand))


def test_every_plan_comes_back_as_it_was():
    shortages = held = rough = reasons = 0
    for job, now in plans():
        hand = in_hand(now, job)
        against = (("S-9", (Reason(ALLOY, "S-9", have="6063-T5", want="6061-T6"), Reason(FILLET, "S-9", have=F(0), want=F(1, 8)), Reason(SIZE, "S-9", have=STOCK, want=STOCK.swapped()))),)
        text = render_plan(hand, against)
        again = parse_plan(text, job)
        assert as_said(again) == as_said(hand) and render_plan(again, against) == text and parse_plan(text, job) == again
        said = json.loads(text)
        assert [tuple(made(tuple[Reason, ...], row["reasons"])) for row in said["not_used"]] == [against[0][1]]
        shortages, held = shortages + len(again.plan.shortages), held + sum(len(s.held) for s in again.plan.sticks)
        rough += sum(cut.rough for s in again.plan.sticks for cut in s.cuts)
        reasons += sum(len(s.reasons) for s in again.plan.shortages)
    assert min(shortages, held, rough, reasons) > 3, (shortages, held, rough, reasons)


def test_a_blank_stays_one_of_so_many():
    """One of the four that the kit wants, though three are made and the job that is planned wants one."""
    job, rack = job_of()
    hand = in_hand(plan(job, rack), job)
    [stick] = hand.plan.sticks
    for whole, wanted in ((4, {4}), (0, {1, 2})):  # 0: as many as the part says
        lying = tuple(replace(one, blank=replace(one.blank, whole=whole)) for one in stick.placed)
        groups = (replace(hand.plan.groups[0], sticks=(replace(stick, placed=lying),)),)
        again = parse_plan(render_plan(replace(hand, plan=replace(hand.plan, groups=groups))), job)
        assert {one.blank.whole for one in again.plan.sticks[0].placed} == wanted


def test_what_is_left_out_is_what_is_at_its_default():
    proof = Proof(4, "cuts", True, cuts=7, lost=F(1, 4))
    assert plain(proof) == {"level": 4, "id": "cuts", "proven": True, "cuts": 7, "lost": "1/4 in"} and made(Proof, plain(proof)) == proof
    trade = Trade((("S-1", F(96), F(3), True),), (), (("S-2", F(1), F(2)),), (), -1, False)
    assert made(Trade, json.loads(json.dumps(plain(trade)))) == trade
    assert made(Proof, plain(proof) | {"nobody": "knows it"}) == proof  # of a newer version: passed over


def test_a_value_of_another_kind_is_refused():
    for type_, value in (
        (int, True), (int, "3"), (int, 2.5), (str, 3), (str, None), (bool, 1), (F, 3), (Proof, [1]), (tuple[int, ...], {"a": 1}), (tuple[int, ...], [1, "x"]),
        (tuple[str, int], ["a", 1, 2]), (tuple[str, int], ["a"]), (F | str, 3), (F | None, 3), (Section, {"leg_a": "1 in", "leg_b": 2, "thickness_a": "1/8 in"}),
    ):  # fmt: skip
        with pytest.raises((ValueError, BenchError)):
            made(type_, value)
    assert made(F | None, None) is None and made(F | None, "1/4 in") == F(1, 4) and made(float, 2) == 2.0 and isinstance(made(float, 2), float)
    assert made(F | Section | str, {"length": "1/4 in"}) == F(1, 4) and made(F | Section | str, "1/4 in") == "1/4 in"
    assert made(F | Section | str, {"section": plain(STOCK)}) == STOCK and made(tuple[int, ...], []) == ()
    for value in ({"length": "1 in", "section": {}}, {"section": 3}, {"width": "1 in"}):
        with pytest.raises((ValueError, BenchError)):
            made(F | Section | str, value)


# --- the file as it is laid out ------------------------------------------------------------------------------------------
def test_the_file_has_a_line_for_what_holds_no_list_of_its_own():
    said = {"a": 1, "b": [1, 2], "c": {"d": "é", "e": []}, "f": [{"g": 1}, {"h": [2]}], "k": [[1], [2]], "w": {"s": 1, "y": [{"x": [1]}]}, "z": {"y": [{"x": [1]}]}}
    text = laid_out(said)
    assert json.loads(text) == said and text.endswith("}\n")
    assert text.splitlines() == [
        "{", '  "a": 1,', '  "b": [1, 2],', '  "c": {"d": "é", "e": []},', '  "f": [', '    {"g": 1},', '    {"h": [2]}', "  ],", '  "k": [[1], [2]],',
        '  "w": {', '    "s": 1,', '    "y": [', '      {"x": [1]}', "    ]", "  },",
        '  "z": {', '    "y": [', '      {"x": [1]}', "    ]", "  }", "}",
    ]  # fmt: skip


# --- spoiled files ---------------------------------------------------------------------------------------------------------
def job_of(name: str = "Kit") -> tuple[Job, Rack]:
    return Job(name, Shop(), [Part("A1", "Bar", STOCK, "6061-T6", 30, quantity=2), Part("A2", "Clip", STOCK, "6061-T6", 5)]), Rack([Stick("S-1", STOCK, "6061-T6", 72)])


def places(value, at=()):
    """The place of every value in a JSON text that is none of the lists and tables."""
    for key, item in value.items() if isinstance(value, dict) else enumerate(value):
        if isinstance(item, dict | list) and item:
            yield from places(item, (*at, key))
        else:
            yield (*at, key)


def changed(said, place, new):
    if not place:
        return new
    inside = dict(said) if isinstance(said, dict) else list(said)
    inside[place[0]] = changed(said[place[0]], place[1:], new)
    return inside


DERIVED = {
    "what", "not_used", "made_on", "printed", "unit", "rack", "work", "version", "picked", "left", "proven", "datum", "comes_off", "stays", "clamp", "whole", "remnants",
}  # fmt: skip
"""What the number of a plan is not made of: words, days, what follows from the lines of the cuts, and what is proven of them."""


def test_a_plan_file_that_was_spoiled_anywhere_is_refused():
    job, rack = job_of()
    said = json.loads(render_plan(in_hand(plan(job, rack), job)))
    assert parse_plan(laid_out(said), job)
    refused = 0
    for place in places(said):
        here = said
        for key in place:
            here = here[key]
        for new in ({"odd": 1}, "9/8 in" if isinstance(here, str) else 977 if not isinstance(here, bool) else not here):
            try:
                parse_plan(laid_out(changed(said, place, new)), job)
            except PlanError as error:
                refused += 1
                assert "job.plan.json" in str(error) and str(error).endswith("plan anew (--anew).")
            else:
                assert DERIVED & set(place), place
                assert not isinstance(new, dict) or place[0] in ("what", "not_used") or place[-1] in ("version", "plan", "rack"), place  # nor is what is no text or number taken for one
    assert refused > 60
    for text in ("", "[]", "3", "{}", '{"format": 1}', laid_out(said)[:-9], "[" * 9000):
        with pytest.raises(PlanError, match="no plan file, or only part of one"):
            parse_plan(text, job)
    with pytest.raises(PlanError, match="is of format 7, and this library reads 1"):
        parse_plan(laid_out(said | {"format": 7}), job)


def purchase():
    job, rack = job_of()
    more = replace(job, parts=(replace(job.parts[0], quantity=6), job.parts[1]))
    bought = smallest_purchase(more, rack)
    return to_buy(bought, plan(more, bought.rack), more)


def test_a_purchase_comes_back_and_a_spoiled_one_is_refused():
    bought = purchase()
    text = render_purchase(bought, "rack.csv")
    said = json.loads(text)
    assert parse_purchase(text) == bought and said["rack"] == "rack.csv" and "rack" not in json.loads(render_purchase(bought))
    assert list(said)[:3] == ["what", "format", "number"] and said["number"] == bought.number and text.endswith("}\n")
    refused = 0
    for place in places(said):
        for new in ({"odd": 1}, 977, "9/8 in", False):
            try:
                found = parse_purchase(json.dumps(changed(said, place, new)))
            except PlanError as error:
                refused += 1
                assert str(error).endswith("(--anew).")
            else:
                assert found.number == bought.number
    assert refused > 30
    for part in ("", "[]", "{}", '{"format": 1}', text[:-9], "[" * 9000):
        with pytest.raises(PlanError, match="no purchase file, or only part of one"):
            parse_purchase(part)
    with pytest.raises(PlanError, match="is of format 7, and this library reads 1"):
        parse_purchase(json.dumps(said | {"format": 7}))


# --- beside a job -------------------------------------------------------------------------------------------------------------
def test_what_is_kept_beside_a_job_and_beside_others_of_the_same_jobs(tmp_path):
    job, rack = job_of()
    hand, bought = in_hand(plan(job, rack), job), purchase()
    alone, both, other = (tmp_path / name for name in ("tail.toml", "tail+wing.toml", "keel.toml"))
    assert read_plan(alone, job) is None and read_purchase(alone) is None and plans_beside(alone) == () and purchases_beside(alone) == []
    for path in (both, other):
        write_plan(path, hand)
        write_purchase(path, bought)
    kept, sent = write_plan(alone, hand), write_purchase(alone, bought, rack="rack.csv")
    assert plan_path(alone).name == f"tail{ENDING}" and purchase_path(alone).name == "tail.purchase.json" and plan_path(alone).parent == tmp_path
    assert as_said(read_plan(alone, job).hand) == as_said(kept.hand) == as_said(hand) and read_purchase(alone).purchase == sent.purchase == bought
    assert [(one.file, one.number, one.printed, one.sticks) for one in plans_beside(alone)] == [("tail+wing.plan.json", hand.number, hand.printed, ("S-1",))]
    assert plans_beside(tmp_path / "wing.toml")[0].file == "tail+wing.plan.json" and len(plans_beside(tmp_path / "wing.toml")) == 1
    assert [one.file for one in plans_beside(both)] == ["tail.plan.json"] and plans_beside(other) == ()
    assert [name for name, _ in purchases_beside(alone)] == ["tail+wing.purchase.json"] and purchases_beside(alone)[0][1] == bought and purchases_beside(other) == []
    plan_path(both).write_text("no plan", encoding="utf-8")
    purchase_path(both).write_text("no purchase", encoding="utf-8")
    assert plans_beside(alone) == () and purchases_beside(alone) == []  # whoever marks from it is told
    # in the place of what was kept, which is noticed where it is not that any more
    assert write_plan(alone, hand, kept=kept).hand == hand and write_purchase(alone, bought, sent).purchase == bought
    plan_path(alone).write_text("changed by hand", encoding="utf-8")
    purchase_path(alone).write_text("changed by hand", encoding="utf-8")
    for write in (lambda: write_plan(alone, hand, kept=kept), lambda: write_purchase(alone, bought, sent)):
        with pytest.raises(BenchError):
            write()
