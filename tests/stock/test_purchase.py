"""The smallest purchase against every purchase there is (tests/stock/brute.py), and by hand."""

from dataclasses import replace
from fractions import Fraction

import pytest
from brute import all_fit, best, met, pieces_wanted, smallest
from kits import kit
from small_jobs import ALLOY, small_job

from anglelib.errors import PlanError
from anglelib.job import Job, Shop
from anglelib.part import Part
from anglelib.section import Section
from anglelib.stock import purchase_search
from anglelib.stock.checker import faults
from anglelib.stock.planner import plan
from anglelib.stock.purchase import smallest_purchase, usual_trims
from anglelib.stock.rack import Rack, Stick

STOCK = Section("3/4", "3/4", "1/8", fillet="1/8")
LENGTHS = (12, 18, 30)
TRIMS = (Fraction(1, 4), Fraction(1, 8))


def few(seed):
    """A small job that its rack mostly cannot make: the rack loses sticks, the job keeps at most 4 pieces."""
    job, rack = small_job(seed)
    parts, pieces = [], 0
    for part in job.parts:
        if pieces < 4:
            parts.append(replace(part, quantity=min(part.quantity, 4 - pieces)))
            pieces += parts[-1].quantity
    return Job(job.name, job.shop, parts), Rack(rack.sticks[: 1 + seed % 2])


def compare(seed):
    job, rack = few(seed)
    found = smallest_purchase(job, rack, LENGTHS, TRIMS)
    for group in found.groups:
        lost = {reason.part_id: reason.missing for reason in group.not_for_sale}
        # what no purchase helps is proven apart: it is pinned or too long, and the rack alone cannot make it
        for part_id in lost:
            part = job.part(part_id)
            usable = max(LENGTHS) - sum(TRIMS)
            assert part.only_stick or part.length + 2 * job.shop.allowance > usable
        left = [replace(p, quantity=p.quantity - lost.get(p.id, 0)) for p in job.parts if p.quantity > lost.get(p.id, 0)]
        if not left:
            assert group.inches == 0
            continue
        rest = Job(job.name, job.shop, left)
        assert smallest(rest, rack, group.section, group.alloy, LENGTHS, TRIMS, 4) == (group.inches, len(group.sticks)), seed
        assert group.proven and group.least == group.inches
        assert all_fit(rest, Rack([*rack.sticks, *group.sticks]), group.section, group.alloy)
        if lost:
            ours = [p for p in job.parts if p.only_stick or p.length + 2 * job.shop.allowance > usable]
            alone = Job(job.name, job.shop, ours)
            made = met(best(alone, rack, group.section, group.alloy))
            wanted = pieces_wanted(alone, group.section, group.alloy)
            assert sum(lost.values()) == len(wanted) - sum(made)
    return found


def test_no_purchase_is_smaller():
    found = [compare(seed) for seed in range(45)]
    assert sum(f.inches > 0 for f in found) > 12 and sum(len(f.sticks) > 1 for f in found) > 2
    assert sum(bool(g.not_for_sale) for f in found for g in f.groups) > 0


def test_the_search_finds_it_without_the_rules_of_thumb(monkeypatch):
    """From the worst start, one of the longest sticks for each blank, and with no rule to say yes."""
    supplier = purchase_search.Search
    monkeypatch.setattr(purchase_search, "RULES", ())
    monkeypatch.setattr(purchase_search, "_filled", lambda instance, start: False)
    monkeypatch.setattr(supplier, "_enough", lambda self: (0,) * (len(self.sold) - 1) + (sum(self.all.demand),))
    for seed in range(18):
        compare(seed)


@pytest.mark.slow
@pytest.mark.parametrize("block", range(20))
def test_no_purchase_is_smaller_in_two_thousand(block):
    for seed in range(1000 + 100 * block, 1100 + 100 * block):
        compare(seed)


def test_the_oracle_sees_a_purchase_that_is_not_the_smallest():
    job, rack = Job("Test", Shop(), [Part("A1", "Bar", STOCK, ALLOY, 10)]), Rack([])
    assert smallest(job, rack, STOCK, ALLOY, LENGTHS, TRIMS, 2) == (12, 1) != (18, 1)


@pytest.mark.parametrize("seed", [4, 14])
def test_a_plan_on_the_new_rack_makes_everything(seed):
    job, rack = kit(seed, "mixed" if seed % 2 else "eighths")
    rack = Rack(rack.sticks[::3])
    found = smallest_purchase(job, rack)
    assert found.proven and found.inches > 0
    made = plan(job, found.rack, budget=4)
    assert not made.shortages and faults(made, job, found.rack) == ()
    less = smallest_purchase(job, Rack([*rack.sticks, *found.sticks[1:]]))
    assert less.inches > 0  # what is bought is needed


def test_the_order_of_rows_changes_nothing():
    job, rack = kit(6)
    rack = Rack(rack.sticks[::2])
    first = smallest_purchase(job, rack)
    again = smallest_purchase(Job(job.name, job.shop, job.parts[::-1]), Rack(rack.sticks[::-1]))
    assert first.groups == again.groups and first.inches > 0


def test_a_budget_too_small_says_what_is_not_proven():
    job, rack = kit(7)
    found = smallest_purchase(job, Rack(rack.sticks[:2]), budget=0.0)
    (group,) = found.groups
    assert not found.proven and group.least < group.inches
    assert f"Less than {group.least} in all is proven not to be enough" in found.sentence
    assert not plan(job, found.rack, budget=1).shortages
    assert group.least <= smallest_purchase(job, Rack(rack.sticks[:2])).inches < group.inches


def test_held_parts_are_bought_for_and_each_section_by_itself():
    wide = Section(1, 1, "1/8", fillet="1/8")
    parts = [Part("A1", "Spar", STOCK, ALLOY, 80, later=True), Part("A2", "Bar", wide, ALLOY, 70)]
    found = smallest_purchase(Job("Test", Shop(), parts), Rack([]))
    assert [(g.section.size, g.bought) for g in found.groups] == [("3/4 x 3/4 x 1/8", ((96, 1),)), ("1 x 1 x 1/8", ((72, 1),))]
    assert [s.id for s in found.sticks] == ["NEW-1", "NEW-2"] and found.inches == 168
    assert found.sentence.splitlines()[1] == "1 x 1 x 1/8, 6061-T6: buy one 72; then everything can be made. Less is proven not to be enough."


def test_one_long_stick_is_not_two_short_ones():
    """Two bars of 71: two of 72 lose a trim too many, so that 144 is needed for two of 70 and two 96 for two of 71 3/4."""
    def bought(length):
        return smallest_purchase(Job("Test", Shop(), [Part("A1", "Bar", STOCK, ALLOY, length, quantity=2)]), Rack([])).groups[0].bought

    assert bought("71 3/8") == ((144, 1),)  # one stick of as many inches as two
    assert bought("71 3/4") == ((96, 2),)


def test_new_sticks_lose_what_the_full_sticks_on_the_rack_lose():
    sticks = [Stick("S-1", STOCK, ALLOY, 20, 1, 1), Stick("S-2", STOCK, ALLOY, 20, "1/2", 0), Stick("S-3", STOCK, ALLOY, 10, 2, 2, remnant=True)]
    assert usual_trims(sticks) == (1, 1) and usual_trims(sticks[2:]) is None
    job = Job("Test", Shop(), [Part("A1", "Bar", STOCK, ALLOY, "70 1/2")])
    assert smallest_purchase(job, Rack(sticks)).groups[0].bought == ((96, 1),)
    assert smallest_purchase(job, Rack(sticks), trims=("1/4", "1/4")).groups[0].bought == ((72, 1),)
    (new,) = smallest_purchase(job, Rack(sticks), trims=("1/4", "1/8")).sticks
    assert (new.trim_1, new.trim_2, new.remnant) == (Fraction(1, 4), Fraction(1, 8), False)


def test_a_pinned_part_is_not_for_sale():
    job = Job("Test", Shop(), [Part("A1", "Bar", STOCK, ALLOY, 30, only_stick="NEW-1"), Part("A2", "Bar", STOCK, ALLOY, 30)])
    found = smallest_purchase(job, Rack([Stick("NEW-1", STOCK, ALLOY, 20)]))
    assert found.groups[0].not_for_sale[0].part_id == "A1" and [s.id for s in found.sticks] == ["NEW-2"]
    assert "then everything but A1 can be made" in found.sentence and "the plans name NEW-1 for it" in found.sentence


@pytest.mark.parametrize(
    "wrong, said",
    [
        (dict(lengths=("six feet",)), "six feet"),
        (dict(lengths=(0,)), "above 0"),
        (dict(lengths=range(1, 9)), "at most 6"),
        (dict(trims=("1/4",)), "two lengths"),
        (dict(trims=("1/4", "x")), "trim at end 2"),
        (dict(trims=3), "two lengths"),
    ],
)
def test_bad_questions_get_a_sentence(wrong, said):
    job = Job("Test", Shop(), [Part("A1", "Bar", STOCK, ALLOY, 30)])
    with pytest.raises(PlanError, match=said):
        smallest_purchase(job, Rack([]), **wrong)


def test_lengths_shorter_than_their_trims_help_nothing():
    job = Job("Test", Shop(), [Part("A1", "Bar", STOCK, ALLOY, 30)])
    found = smallest_purchase(job, Rack([]), lengths=(2,), trims=(1, 1))
    assert found.inches == 0 and found.groups[0].not_for_sale[0].missing == 1
