"""The order of cuts on a stick: one-piece parts first, then so that the piece in the hand stays as long as it can."""

from fractions import Fraction as F
from itertools import permutations
from random import Random

from anglelib.job import Job, Shop
from anglelib.part import Part
from anglelib.section import Section
from anglelib.stock.cut_list import NEAR, listed
from anglelib.stock.plan import CLEAR
from anglelib.stock.planner import plan
from anglelib.stock.rack import Rack, Stick
from anglelib.terminal.words import stick_lines

STOCK = Section("3/4", "3/4", "1/8", fillet="1/8")


def in_hand(lengths, usable: F, kerf: F) -> list[F]:
    """What is left of the stick after each cut, for blanks sawn in this order."""
    left, found = usable, []
    for length in lengths:
        left -= length + kerf
        found.append(left)
    return found


def test_no_other_order_keeps_more_in_the_hand():
    """Every order that saws the one-piece parts first is tried: after no cut is there more left in the hand than as planned."""
    dice, shop = Random(3), Shop()
    for _ in range(40):
        parts = []
        for n in range(dice.randint(2, 6)):
            parts.append(Part(f"P{n}", "Bar", STOCK, "6061-T6", F(dice.randint(8, 120), 8), one_piece=dice.random() < 0.3))
        rack = Rack([Stick("S-1", STOCK, "6061-T6", 144)])
        (planned,) = plan(Job("Order", shop, parts), rack).sticks
        order = [placed.blank for placed in planned.placed]
        single = [blank.part.one_piece for blank in order]
        assert single == sorted(single, reverse=True) and len(order) == len(parts)
        rest = [blank.length for blank in order if not blank.part.one_piece]
        start = 144 - sum(blank.length + shop.kerf for blank in order if blank.part.one_piece)
        best = in_hand(rest, start, shop.kerf)
        for other in permutations(rest):
            assert all(ours >= theirs for ours, theirs in zip(best, in_hand(other, start, shop.kerf)))
        first = [blank.length for blank in order if blank.part.one_piece]
        assert first == sorted(first, reverse=True)  # the one that is hardest to replace before the others


def test_the_order_on_the_demo_kit(project):
    """By its job file: on each stick the longeron comes first, and no blank after a longer one that may be spliced."""
    from anglelib.files import read_job, read_rack

    made = plan(read_job(project / "notebooks/demo/job.toml"), read_rack(project / "notebooks/demo/rack.csv"))
    for stick in made.sticks:
        if stick.stick.dents:
            continue  # a dent parts a stick: each side has an order of its own
        order = [(not p.blank.part.one_piece, p.blank.length if not p.blank.part.one_piece else -p.blank.length) for p in stick.placed]
        assert order == sorted(order), stick.stick.id
        assert [cut.blank for cut in stick.cuts if cut.blank] == [p.blank for p in stick.placed if p.sawn]


def test_where_a_dent_is_cleared_the_sheets_say_on_which_side_the_saw_runs():
    """Every other line is sawn on its far side; there the next blank begins at the line, and the far side would make it a kerf short."""
    job = Job("Trial", Shop(), [Part("A", "Bar", STOCK, "6061-T6", 10, quantity=2)])
    planned = plan(job, Rack([Stick("S-1", STOCK, "6061-T6", 26, trim_1="1/4", dents=[("12", "13")])])).sticks[0]
    cut = next(cut for cut in planned.cuts if cut.kind == CLEAR)
    after = next(placed for placed in planned.placed if placed.start >= cut.x)
    assert after.start == cut.x and cut.dust[1] == cut.x  # the dust lies before the line
    row = next(row for row in listed(planned, job.shop, job.limits) if "dent" in row.what)
    assert row.minded == (NEAR,) and row.brief
    assert any("near side of this line" in line for line in stick_lines(planned, job.shop, job.limits))
