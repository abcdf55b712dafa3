"""Several jobs on one rack: what is held for another job, what all of them make together, and which job each piece is recorded for.

The oracles are every plan there is (tests/stock/brute.py) and an integer program of scipy's that knows neither claims nor sizes: it says
whether some blanks can all be sawn.
"""

import random
from collections import Counter
from dataclasses import replace
from fractions import Fraction as F

import numpy as np
import pytest
from brute import best, reached
from scipy.optimize import Bounds, LinearConstraint, milp
from small_jobs import ALLOY, EQUAL

from anglelib.errors import BenchError
from anglelib.files.rack_file import parse_record
from anglelib.files.rack_text import render_record
from anglelib.job import Job, Shop
from anglelib.lengths import MM
from anglelib.part import Part, Pinned
from anglelib.stock.anew import plan_anew
from anglelib.stock.checker import faults
from anglelib.stock.in_hand import HELD, differences, in_hand
from anglelib.stock.planner import plan
from anglelib.stock.rack import Rack, Stick
from anglelib.stock.record import Mark, Record, pieces_from
from anglelib.stock.several_jobs import holding, labels, own_parts, together
from anglelib.tolerances import Limits

SHOP = Shop(allowance=0)


def job(name, *parts, own="", unit="in") -> Job:
    """A job of (id, length, quantity, what else)."""
    return Job(name, SHOP, [Part(id_, f"{id_} of {name}", EQUAL, ALLOY, length, quantity=number, unit=unit, **what) for id_, length, number, what in parts], unit, id=own)


def rack(*lengths) -> Rack:
    return Rack([Stick(f"S-{n}", EQUAL, ALLOY, length) for n, length in enumerate(lengths, 1)])


def kits(seed: int) -> tuple[Job, Job, Rack]:
    """Two jobs of a few lengths that are all different, with the same ids, and a rack that is too small for both as often as not."""
    rng = random.Random(f"kits {seed}")
    lengths = rng.sample(range(6, 40), 5)
    unit = rng.choice([1, 1, 10 * MM])  # the other job is in millimetres now and then
    one = job("One", *((f"P{n}", length, rng.choice([1, 1, 2]), {"one_piece": rng.random() < 0.3}) for n, length in enumerate(lengths[:2])), own="ONE")
    two = job(
        "Two", *((f"P{n}", length * unit, 1, {"one_piece": rng.random() < 0.6}) for n, length in enumerate(lengths[2:])), own="TWO", unit="in" if unit == 1 else "mm"
    )
    return one, two, rack(*(rng.randint(15, 60) for _ in range(rng.randint(1, 3))))


def can_be_sawn(blanks, sticks: Rack) -> bool:
    """Whether all blanks can be sawn, each with its kerf: by scipy's integer program."""
    if not blanks:
        return True
    number, many = len(blanks), len(sticks.sticks)
    widths = np.array([float((blank + SHOP.kerf) * 6400) for blank in blanks])
    rows, low, high = [], [], []
    for b in range(number):
        row = np.zeros((number, many))
        row[b] = 1
        rows, low, high = [*rows, row.ravel()], [*low, 1], [*high, 1]
    for s, stick in enumerate(sticks.sticks):
        row = np.zeros((number, many))
        row[:, s] = widths
        rows, low, high = [*rows, row.ravel()], [*low, -np.inf], [*high, float(stick.length * 6400) + 1e-4]
    found = milp(np.zeros(number * many), constraints=LinearConstraint(np.array(rows), low, high), integrality=np.ones(number * many), bounds=Bounds(0, 1))
    return found.status == 0


def made_of(plan_, part_id) -> int:
    return sum(p.blank.part.id == part_id for s in plan_.sticks for p in (*s.placed, *s.held))


def by_claims(one: Job, two: Job, stock: Rack) -> Counter:
    """How many of each part are made where claims are met one after the other, as long as all that are met can be sawn."""
    classes = [
        [("two.", part) for part in two.parts if part.one_piece],
        [("", part) for part in one.parts],
        [("two.", part) for part in two.parts if not part.one_piece],
    ]
    taken, met = [], Counter()
    for claims in classes:
        for prefix, part in sorted(claims, key=lambda claim: -claim[1].length):
            for _ in range(part.quantity):
                if can_be_sawn([*taken, part.length], stock):
                    taken.append(part.length)
                    met[prefix + part.id] += 1
    return met


def test_no_part_of_a_held_job_that_is_one_piece_becomes_impossible():
    """As many of everything as the integer program says, claim by claim; on some racks this job has to give way, on some the other."""
    gave_way = Counter()
    for seed in range(40):
        one, two, stock = kits(seed)
        both = holding(one, [("two", two)])
        made = plan(both, stock)
        assert faults(made, both, stock) == (), seed
        met = by_claims(one, two, stock)
        assert {part.id: made_of(made, part.id) for part in both.parts} == {part.id: met[part.id] for part in both.parts}, seed
        assert not any(p.blank.part.id.startswith("two.") for s in made.sticks for p in s.placed), "nothing of the other job is cut"
        alone = plan(one, stock)
        gave_way["own"] += any(made_of(alone, part.id) > met[part.id] for part in one.parts)
        gave_way["theirs"] += any(met[f"two.{part.id}"] < part.quantity for part in two.parts)
    assert gave_way["own"] > 3 and gave_way["theirs"] > 3


def test_no_plan_with_held_parts_is_better():
    for seed in range(20):
        one, two, stock = kits(seed)
        two = replace(two, limits=one.limits)
        for both in (holding(one, [("two", two)]), together([("one", one), ("two", two)])):
            made = plan(both, stock)
            for group in made.groups:
                assert reached(group, both, stock) == best(both, stock, group.section, group.alloy), seed


def test_together_the_first_job_has_the_first_claim():
    one, two = job("One", ("A", 20, 1, {}), own="ONE"), job("Two", ("A", 30, 1, {"priority": 9}), own="TWO")
    stock = rack(31)
    first, second = together([("one", one), ("two", two)]), together([("two", two), ("one", one)])
    assert [made_of(plan(first, stock), name) for name in ("one.A", "two.A")] == [1, 0]
    assert [made_of(plan(second, stock), name) for name in ("one.A", "two.A")] == [0, 1]


# --- one id in two jobs -----------------------------------------------------------------------------------------
ONE = job("One", ("A3", 10, 2, {}), ("B", 5, 1, {}), own="ONE")
TWO = job("Two", ("A3", 12, 2, {}), own="TWO")
BOTH = together([("one", ONE), ("two", TWO)])


def test_each_job_finds_what_was_made_of_it_and_nothing_else():
    record = Record(rack(40, 40))
    hand = in_hand(plan(BOTH, record.rack), BOTH)
    shared = next(s.stick.id for s in hand.sticks if len({p.blank.part.id.split(".")[0] for p in s.placed}) == 2)
    for planned in hand.sticks:
        record = record.marked(hand.mark(planned.stick.id), BOTH)
    record = parse_record(render_record(record))
    assert record.made(ONE) == Counter(A3=2, B=1) and record.made(TWO) == Counter(A3=2)
    assert record.made(BOTH) == Counter({"one.A3": 2, "one.B": 1, "two.A3": 2})
    assert record.still_wanted(ONE) is record.still_wanted(TWO) is record.still_wanted(BOTH) is None
    with pytest.raises(BenchError, match="gave A3 for several jobs"):
        record.spoiled(shared, "A3")
    for given in (record.spoiled(shared, "A3", job=ONE), record.spoiled(shared, "one.A3", job=BOTH)):
        assert (given.made(ONE)["A3"], given.made(TWO)["A3"]) == (1, 2)
    assert record.undone(shared).made(TWO)["A3"] < 2


def test_a_stick_of_one_job_is_recorded_as_that_jobs_own():
    record = Record(rack("24 1/4", 26))
    hand = in_hand(plan(together([("two", TWO), ("one", ONE)]), record.rack), together([("two", TWO), ("one", ONE)]))
    alone = next(s.stick.id for s in hand.sticks if {p.blank.part.id.split(".")[0] for p in s.placed} == {"two"})
    old = record.marked(hand.mark(alone), together([("two", TWO), ("one", ONE)])).cut[0]
    assert (old.job, old.job_id, {piece.part_id for piece in old.pieces}, {piece.job for piece in old.pieces}) == ("Two", "TWO", {"A3"}, {""})


def test_part_way_through_a_stick_of_two_jobs_each_row_counts_for_its_job():
    record = Record(rack(60))
    hand = in_hand(plan(BOTH, record.rack), BOTH)
    (planned,) = hand.sticks
    for row in range(1, len(planned.cuts) + 1):
        record = parse_record(render_record(record.marked(hand.mark("S-1", row), BOTH)))
        sawn = Counter(cut.blank.part.id for cut in planned.cuts[:row] if cut.blank is not None)
        assert {f"one.{name}": number for name, number in record.made(ONE).items()} | {f"two.{name}": number for name, number in record.made(TWO).items()} == dict(sawn)
    assert render_record(record.undone("S-1")) == render_record(Record(rack(60)))


def test_typed_marks_say_the_job_too():
    record = Record(rack(60)).marked(Mark("S-1", pieces_from("one.A3, 2 x two.A3")), BOTH)
    assert record.made(ONE) == Counter(A3=1) and record.made(TWO) == Counter(A3=2)
    assert record.cut[0].pieces[0].job == "ONE" and parse_record(render_record(record)) == record


def test_random_cuts_of_two_jobs_are_counted_once_each():
    """Whatever is marked, from the sheets, typed, alone or together, spoiled, taken back: each job's count is the test's own."""
    for seed in range(6):
        rng = random.Random(f"two jobs {seed}")
        one, two = (replace(kit, parts=tuple(replace(part, quantity=60) for part in kit.parts)) for kit in (ONE, TWO))
        both, stock = together([("one", one), ("two", two)]), rack(*(rng.randint(30, 60) for _ in range(6)))
        record, ledger = Record(stock), {}
        for _ in range(14):
            on_hand = [stick for stick in record.rack.sticks if stick.length > 13]
            if ledger and rng.random() < 0.25:
                able = [name for name in ledger if not any(child in ledger for child in record.children(name))]
                name = rng.choice(able)
                record, _ = record.undone(name), ledger.pop(name)
            elif ledger and rng.random() < 0.25:
                name = rng.choice(list(ledger))
                if good := [part for part, number in ledger[name].items() if number]:
                    part = rng.choice(good)
                    record = record.spoiled(name, part, job=both)
                    ledger[name][part] -= 1
            elif on_hand:
                stick = rng.choice(on_hand)
                pieces = Counter(rng.choices(["one.A3", "one.B", "two.A3"], k=int(stick.length // 13)))
                who = rng.choice([both, one, two])
                if who is not both:
                    own = "one." if who is one else "two."
                    pieces = Counter({part: number for part, number in pieces.items() if part.startswith(own)}) or Counter({f"{own}A3": 1})
                typed = ", ".join(f"{number} x {part if who is both else part[4:]}" for part, number in pieces.items())
                record = record.marked(Mark(stick.id, pieces_from(typed)), who)
                ledger[stick.id] = pieces
            record = parse_record(render_record(record))
            total = sum(ledger.values(), Counter())
            assert record.made(both) == total, seed
            assert {f"one.{p}": n for p, n in record.made(one).items()} | {f"two.{p}": n for p, n in record.made(two).items()} == dict(total), seed


# --- the plan in hand ---------------------------------------------------------------------------------------------
def test_parts_of_the_other_job_that_are_made_are_not_held():
    record = Record(rack(60, 60)).marked(Mark("S-1", pieces_from("2 x A3")), TWO)
    both = holding(ONE, [("two", TWO)])
    assert {part.id for part in record.still_wanted(both).parts} == {"A3", "B"}
    assert record.spoiled("S-1", "A3", job=TWO).still_wanted(both).part("two.A3").quantity == 1


def test_a_mark_needs_the_other_job_no_more_and_a_changed_hold_is_told():
    record = Record(rack(60, 60))
    both = holding(ONE, [("two", TWO)])
    hand = in_hand(plan(both, record.rack), both)
    assert differences(hand, both, record) == ()
    assert [one.id for one in differences(hand, ONE, record)] == [HELD]
    more = holding(ONE, [("two", replace(TWO, parts=(replace(TWO.parts[0], quantity=3),)))])
    assert [one.id for one in differences(hand, more, record)] == [HELD]
    assert [one.id for one in differences(in_hand(plan(ONE, record.rack), ONE), both, record)] == [HELD]
    (first, *_) = [stick.stick.id for stick in hand.sticks]
    record = record.marked(hand.mark(first), ONE)
    assert record.made(ONE) and not record.made(TWO)
    now = plan_anew(hand, both, record)
    assert now is None or faults(now.standing.plan, record.still_wanted(both), record.rack) == ()


def test_pins_of_a_held_job_hold_there():
    two = job("Two", ("A3", 12, 2, {"pinned": (Pinned("S-2", 1),), "not_from": ("S-1",)}), own="TWO")
    both, stock = holding(ONE, [("two", two)]), rack(40, 40)
    made = plan(both, stock)
    assert faults(made, both, stock) == () and not any(p.blank.part.id == "two.A3" for p in made.stick("S-1").held)


# --- what cannot be -----------------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("other", "words"),
    [
        (replace(TWO, shop=Shop(allowance=0, kerf="1/8")), "kerf of 1/8, and One one of 1/16"),
        (replace(TWO, shop=Shop(allowance=F(1, 32))), "sanding allowance of 1/32"),
        (replace(ONE, parts=TWO.parts), "the same job"),
        (replace(TWO, limits=Limits.named("1/32", "in")), "other limits"),
    ],
)
def test_jobs_that_one_saw_cannot_cut_are_refused(other, words):
    with pytest.raises(BenchError, match=words):
        together([("one", ONE), ("two", other)])
    if other.limits == ONE.limits:  # of what is only held no limit is asked
        with pytest.raises(BenchError, match=words):
            holding(ONE, [("two", other)])


def test_jobs_that_cannot_be_told_apart_are_refused():
    with pytest.raises(BenchError, match="no id of its own"):
        together([("one", replace(ONE, id="")), ("two", TWO)])
    with pytest.raises(BenchError, match="have the same id, ONE"):
        together([("one", ONE), ("two", replace(TWO, id="ONE"))])
    with pytest.raises(BenchError, match="needs the id of each"):
        both = holding(replace(ONE, id=""), [("two", replace(TWO, id=""))])
        Record(rack(60)).marked(Mark("S-1", pieces_from("A3, two.A3")), both)


def test_no_label_is_the_beginning_of_an_own_id():
    own = job("Own", ("two.A", 5, 1, {}))
    assert labels(["two", "CON", "a kit, rev. 2"], [], own) == ["two-2", "CON-2", "a-kit-rev-2"]
    with pytest.raises(BenchError, match="leaves no room"):
        labels(["two"], [job("Two", ("A" * 30, 5, 1, {}))])


def test_own_parts_are_the_job_again():
    assert own_parts(holding(ONE, [("two", TWO)])) == ONE and own_parts(BOTH) is BOTH
