"""The rack's record: tags are given once, what is made is counted, metal is neither lost nor won."""

from fractions import Fraction as F
from random import Random

import pytest

from anglelib.errors import JobError, LengthError, RackError
from anglelib.job import Job, Shop
from anglelib.part import Part
from anglelib.section import Section
from anglelib.stock.checker import check
from anglelib.stock.planner import plan
from anglelib.stock.rack import Rack, Stick
from anglelib.stock.record import Mark, Record, mark_from, pieces_from, pieces_of

STOCK = Section("3/4", "3/4", "1/8", fillet="1/8")


def stick(name: str, length, **more) -> Stick:
    return Stick(name, STOCK, "6061-T6", length, **more)


def job(*parts: tuple, **shop) -> Job:
    return Job("Demo", Shop(**shop), [Part(id_, id_, STOCK, "6061-T6", length, quantity=n, **more) for id_, length, n, more in parts])


BARS = job(("A", 10, 4, {}), ("B", 20, 2, {"one_piece": True}))


def test_a_tag_is_given_once_also_when_its_stick_is_gone():
    record = Record(Rack([stick("S-1", 100)]))
    seen = {"S-1"}
    for _ in range(6):
        (here,) = record.rack.sticks
        record = record.marked(Mark(here.id, pieces_from("P at 10")))
        new = {s.id for s in record.rack.sticks}
        assert not new & seen
        seen |= new
    assert [s.id for s in record.rack.sticks] == ["S-1-R6"]
    assert [s.id for s in record.left_of("S-1")] == ["S-1-R6"] and record.left_of("S-9") == ()


def test_a_tag_on_another_stick_or_in_a_plan_of_yesterday_is_stepped_over():
    record = Record(Rack([stick("S-1", 100), stick("s-1-r1", 20)]))
    planned = plan(BARS, Rack([stick("S-1", 100)])).stick("S-1")
    assert planned.remnants[0].stick.id == "S-1-R1"
    after = record.marked(Mark("S-1", pieces_of(planned), planned), BARS)
    assert [s.id for s in after.rack.sticks] == ["S-1-R2", "s-1-r1"]


def test_what_is_made_is_wanted_no_more_and_what_is_spoiled_is_wanted_again():
    record = Record(Rack([stick("S-1", 130)])).marked(Mark("S-1", pieces_from("3 x A, B, B spoiled")), BARS, on="Monday")
    assert record.made("Demo") == {"A": 3, "B": 1} and record.made("Other") == {}
    left = record.still_wanted(BARS)
    assert [(p.id, p.quantity) for p in left.parts] == [("A", 1), ("B", 1)]
    again = record.spoiled("S-1", "A")
    assert again.made("Demo") == {"A": 2, "B": 1} and str(again.cut[0]).endswith("2 x A at 10 1/16, A at 10 1/16 spoiled, B at 20 1/16, B at 20 1/16 spoiled")
    assert again.rack == record.rack
    rest = again.marked(Mark("S-1-R1", pieces_from("2 x A")), BARS)
    with pytest.raises(RackError, match="Of A 4 are wanted, and 4 marked as made: 1 more is too many"):
        rest.marked(Mark("S-1-R2", pieces_from("A")), BARS)
    assert rest.marked(Mark("S-1-R2", pieces_from("A spoiled")), BARS).made("Demo")["A"] == 4


def test_a_job_that_is_done_and_a_pair_of_which_one_is():
    taper = {"tapers": (), "hand": "neither"}
    pair = job(("L", 10, 1, taper), ("R", 10, 1, {**taper, "mirror_of": "L"}))
    record = Record(Rack([stick("S-1", 100)])).marked(Mark("S-1", pieces_from("L")), pair)
    assert [(p.id, p.mirror_of) for p in record.still_wanted(pair).parts] == [("R", "")]
    assert record.marked(Mark("S-1-R1", pieces_from("R")), pair).still_wanted(pair) is None


def test_a_part_that_the_plans_give_to_a_stick_follows_what_is_left_of_it():
    pinned = job(("A", 10, 2, {"only_stick": "S-1"}))
    record = Record(Rack([stick("S-1", 100), stick("S-2", 12)])).marked(Mark("S-1", pieces_from("A")), pinned)
    assert record.still_wanted(pinned).parts[0].only_stick == "S-1-R1"
    made = plan(record.still_wanted(pinned), record.rack)
    assert [s.stick.id for s in made.sticks] == ["S-1-R1"] and not made.shortages


def test_a_dented_stick_is_marked_as_planned_or_as_it_lies():
    """Dent from 30 to 31: the 28 lies before it, the 60 behind it, and both ends of the rest are counted by hand."""
    dented = stick("S-1", 100, trim_1="1/4", trim_2="1/4", dents=[(30, 31)])
    after = Record(Rack([dented])).marked(Mark("S-1", pieces_from("P at 28, Q at 60")))
    assert [(s.length, s.trim_1, s.trim_2) for s in after.rack.sticks] == [(100 - 31 - 60 - F(1, 16), 0, F(1, 4))]
    with pytest.raises(RackError, match="cannot have given Q at 70: .* and of the stick 29 3/4 and 68 3/4 can be used"):
        Record(Rack([dented])).marked(Mark("S-1", pieces_from("Q at 70")))
    with pytest.raises(RackError, match="has a dent, and 12 pieces lie about it in too many ways"):
        Record(Rack([dented])).marked(Mark("S-1", pieces_from("12 x P at 1")))


def test_a_stick_cut_up_leaves_nothing_and_a_sound_end_ends_a_blank():
    record = Record(Rack([stick("S-1", "20 1/8", far_end_good=True)]))
    whole = record.marked(Mark("S-1", pieces_from("B")), BARS)
    assert whole.rack.sticks == () and whole.undone("S-1") == record
    exact = Record(Rack([stick("S-1", "20 1/16", far_end_good=True)])).marked(Mark("S-1", pieces_from("B")), BARS)
    assert exact.rack.sticks == ()
    with pytest.raises(RackError, match="nothing is left of it: check the stick's tag, or undo those cuts first"):
        whole.marked(Mark("S-1", pieces_from("A")), BARS)


def test_a_cut_can_be_taken_back_from_the_last_one_on():
    first = Record(Rack([stick("S-0", 30), stick("S-1", 100), stick("S-2", 30)]))
    second = first.marked(Mark("S-1", pieces_from("A")), BARS)
    third = second.marked(Mark("S-1-R1", pieces_from("A")), BARS)
    with pytest.raises(RackError, match="S-1-R1, which was left of S-1, is cut too .*: undo that first"):
        third.undone("S-1")
    assert third.undone("S-1-R1") == second and second.undone("S-1") == first
    with pytest.raises(RackError, match='No cut of a stick "S-2" is marked: the one that is cut is S-1'):
        second.undone("S-2")


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ("S-9: A", 'There is no stick "S-9": the rack has S-1'),
        ("S-1: Z", 'no part "Z"'),
        ("S-1: 5 x A", "Of A 4 are wanted, and 0 marked as made: 5 more is too many"),
        ("S-1: 0 x A", "0 x A cannot be cut"),
        ("S-1:", "No part is named"),
        ("S-1: two of A", "says of no part how many"),
        ("S-1: A/B", "cannot be used"),
        (": A", "does not begin with a stick"),
        ("S-1: A at -3", "A"),
    ],
)
def test_what_cannot_be_meant_is_a_sentence(words, says):
    with pytest.raises((RackError, JobError, LengthError)) as told:
        name, pieces = mark_from(words)
        Record(Rack([stick("S-1", 100)])).marked(Mark(name, pieces), BARS)
    assert says in str(told.value) and "\n" not in str(told.value)


def test_a_stick_without_a_mark_was_cut_all_the_same():
    """Whether it should have been is another question: the rack says what is there."""
    record = Record(Rack([Stick("S-1", STOCK, "unknown", 100)])).marked(Mark("S-1", pieces_from("A")), BARS)
    assert [(s.id, s.alloy) for s in record.rack.sticks] == [("S-1-R1", "")]


@pytest.mark.parametrize(
    ("section", "alloy", "words", "says"),
    [
        (Section("3/4", "3/4", "1/16", fillet="1/16"), "6061-T6", "A", "No A comes from S-1: S-1 looks alike but is thinner"),
        (Section(1, 1, "1/8", fillet="1/8"), "6061-T6", "A", "No A comes from S-1: S-1 is 1 x 1 x 1/8; the part wants 3/4 x 3/4 x 1/8"),
        (STOCK, "6063-T5", "A", "No A comes from S-1: S-1 is 6063-T5; the part wants 6061-T6"),
        (STOCK, "6061-T6", "A at 3", "A is 10 long when finished, and 3 was sawn"),
    ],
)
def test_a_piece_that_cannot_be_the_part_does_not_count_as_made(section, alloy, words, says):
    record = Record(Rack([Stick("S-1", section, alloy, 100, hands_off=True)]))
    with pytest.raises(RackError, match=says):
        record.marked(Mark("S-1", pieces_from(words)), BARS)
    spoiled = record.marked(Mark("S-1", pieces_from(f"{words} spoiled")), BARS)
    assert not spoiled.made("Demo")["A"] and record.marked(Mark("S-1", pieces_from("X at 3")), BARS).cut


def test_without_a_job_a_length_is_asked_for():
    with pytest.raises(RackError, match="How long A was sawn is not said: write it like A at 17 5/16"):
        Record(Rack([stick("S-1", 100)])).marked(Mark("S-1", pieces_from("A")))


def test_a_plan_of_another_stick_is_not_marked():
    planned = plan(BARS, Rack([stick("S-1", 101)])).stick("S-1")
    with pytest.raises(RackError, match="S-1 is not any more as it was when its cuts were planned: it was 101 long, and is 100"):
        Record(Rack([stick("S-1", 100)])).marked(Mark("S-1", pieces_of(planned), planned), BARS)


def test_no_spoiled_piece_where_there_is_no_good_one():
    record = Record(Rack([stick("S-1", 100)])).marked(Mark("S-1", pieces_from("A spoiled")), BARS)
    with pytest.raises(RackError, match="No good piece of A is marked on S-1"):
        record.spoiled("S-1", "A")


def test_metal_is_neither_lost_nor_won():
    """Random sticks, marked in random pieces until nothing fits: length by length, in 64ths, against a walk of its own."""
    dice = Random(5)
    for trial in range(30):
        whole = dice.randint(2000, 9000)
        trims = dice.randint(0, 32), dice.randint(0, 32)
        record = Record(Rack([stick("S-1", F(whole, 64), trim_1=F(trims[0], 64), trim_2=F(trims[1], 64))]))
        first, at, cuts = record, 0, 0
        while record.rack.sticks:
            (here,) = record.rack.sticks
            near, room = int(here.trim_1 * 64), int((here.length - here.trim_1 - here.trim_2) * 64)
            sizes = []
            while room >= 70 and len(sizes) < dice.randint(1, 4):
                sizes.append(dice.randint(64, min(room - 4, 1200)))
                room -= sizes[-1] + 4
            if not sizes:
                break
            record = record.marked(Mark(here.id, pieces_from(", ".join(f"P at {size}/64" for size in sizes))), shop=Shop(kerf="1/16", usable_minimum=1))
            at += near + sum(sizes) + 4 * len(sizes)
            cuts += len(sizes)
            left = sum(int(s.length * 64) for s in record.rack.sticks)
            assert left == whole - at or (left == 0 and whole - at - trims[1] < 64), (trial, left, whole - at)
        assert sum(piece.number for old in record.cut for piece in old.pieces) == cuts
        while record.cut:
            record = record.undone(record.cut[-1].stick.id)
        assert record == first


def test_a_plan_marked_stick_by_stick_in_any_order_makes_the_job():
    """The rest is planned again after every mark, and checked; all parts are made in the end."""
    wanted = job(("A", 10, 6, {}), ("B", "31 1/4", 3, {"one_piece": True}), ("C", "2 3/4", 5, {}))
    rack = Rack([stick("S-1", 96, trim_1="1/4", trim_2="1/4"), stick("S-2", 40), stick("S-3", 62, dents=[(20, 22)])])
    for seed in range(3):
        dice, record, left = Random(seed), Record(rack), wanted
        while left is not None:
            made = plan(left, record.rack)
            check(made, left, record.rack)
            assert not made.shortages
            planned = dice.choice([s for s in made.sticks if s.placed])
            record = record.marked(Mark(planned.stick.id, pieces_of(planned), planned), wanted)
            left = record.still_wanted(wanted)
        assert record.made("Demo") == {"A": 6, "B": 3, "C": 5}


def test_every_stick_stays_where_it_lay_in_whatever_order_sticks_are_cut_and_cuts_undone():
    """Four sticks in a row; what is left of one lies behind it, nothing is left of S-1; undone, all lies as before."""
    from itertools import permutations

    stock = Section("3/4", "3/4", "1/8", fillet="1/8")
    whole = [f"S-{n}" for n in range(1, 5)]
    for cut in permutations(whole):
        record, done = Record(Rack([Stick(name, stock, "6061-T6", 40) for name in whole])), []
        states = [record]
        for name in cut:
            record = record.marked(Mark(name, pieces_from("1 x P at 39" if name == "S-1" else "1 x P at 10")))
            done.append(name)
            states.append(record)
            rows = [row for one in whole for row in ([one, f"{one}-R1"] if one in done and one != "S-1" else [one])]
            assert list(record.order) == rows
            assert [stick.id for stick in record.rack.sticks] == [row for row in rows if row not in done]
        for name, before in zip(reversed(cut), reversed(states[:-1])):
            record = record.undone(name)
            assert record.order == before.order and record.rack == before.rack
