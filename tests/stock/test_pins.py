"""Pieces that a stick is to give, and sticks that a part may not come from: the planner against every plan there is, and what is done with them since.

A part of which two pieces are to come from S-1 is, to the oracle, two parts: one of two pieces that only S-1 may give, and one of the rest.
"""

import random
from collections import Counter
from dataclasses import replace

import pytest
from brute import best, reached, scratched
from small_jobs import ALLOY, EQUAL, small_job

from anglelib.errors import FileProblems
from anglelib.files.job_file import parse_job
from anglelib.files.job_text import render_job
from anglelib.files.pairing import check_job_against_rack
from anglelib.files.plan_file import parse_plan, render_plan
from anglelib.job import Job, Shop
from anglelib.part import Part, Pinned
from anglelib.stock.anew import plan_anew, renamed
from anglelib.stock.checker import BARRED, ELSEWHERE, faults
from anglelib.stock.effort import Effort
from anglelib.stock.in_hand import in_hand
from anglelib.stock.one import one_now
from anglelib.stock.planner import plan, settle_problem
from anglelib.stock.problem import problems
from anglelib.stock.progress import Progress, job_left, rack_after_cuts
from anglelib.stock.proofs import shortages
from anglelib.stock.rack import Rack, Stick
from anglelib.stock.record import Mark, Record, pieces_from
from anglelib.stock.robust import NOT, robustness
from anglelib.stock.runner_up import runner_ups, with_picks
from anglelib.stock.what_if import still_possible


def pinned_job(seed: int) -> tuple[Job, Rack]:
    """A small job in which some parts have pieces pinned to sticks, and sticks from which they may not come."""
    job, rack = small_job(seed)
    rng, ids = random.Random(f"pins {seed}"), [stick.id for stick in rack.sticks]
    parts = []
    for part in job.parts:
        barred = rng.sample(ids, rng.choice([0, 0, 1, 1, 2]) if len(ids) > 1 else 0)
        able = [name for name in ids if name not in barred]
        pins, left = [], part.quantity
        for name in rng.sample(able, len(able)):
            if left and not part.only_stick and rng.random() < 0.5:
                pins.append(Pinned(name, rng.randint(1, left)))
                left -= pins[-1].quantity
        parts.append(replace(part, pinned=tuple(pins), not_from=tuple(name for name in barred if name != part.only_stick)))
    return replace(job, parts=tuple(parts)), rack


def as_parts(job: Job) -> Job:
    """The same job without pins: each number of pieces that a stick is to give is a part of its own."""
    found = []
    for part in job.parts:
        rest = part.quantity - sum(pin.quantity for pin in part.pinned)
        found += [replace(part, id=f"{part.id}{n}", quantity=pin.quantity, only_stick=pin.stick, pinned=()) for n, pin in enumerate(part.pinned)]
        found += [replace(part, id=f"{part.id}z", quantity=rest, pinned=())] if rest else []
    return replace(job, parts=tuple(found))


def said_as_parts(made, job: Job, split: Job):
    """The plan in the parts of :func:`as_parts`."""
    numbers: Counter[str] = Counter()
    named: dict = {}

    def blank(old):
        key = old.part.id, old.number
        if key not in named:
            at = next((n for n, pin in enumerate(old.part.pinned) if pin.stick == old.pin), "z")
            part = split.part(f"{old.part.id}{at}")
            numbers[part.id] += 1
            named[key] = replace(old, part=part, number=numbers[part.id], pin="")
        return named[key]

    return renamed(made, blank, {})


def compare(seed: int) -> int:
    job, rack = pinned_job(seed)
    made, split = plan(job, rack), as_parts(job)
    assert faults(made, job, rack) == (), seed
    for group, told in zip(made.groups, said_as_parts(made, job, split).groups, strict=True):
        assert reached(told, split, rack) == best(split, rack, group.section, group.alloy), seed
        clear = not scratched(job, rack, group.section, group.alloy)
        assert [proof.proven for proof in group.proofs[:4]] == [True, True, True, clear], seed
    return sum(len(part.pinned) + len(part.not_from) for part in job.parts)


def test_no_plan_with_pins_is_better():
    assert sum(map(compare, range(60))) > 100


@pytest.mark.slow
@pytest.mark.parametrize("block", range(20))
def test_no_plan_with_pins_is_better_in_two_thousand(block):
    for seed in range(1000 + 100 * block, 1100 + 100 * block):
        compare(seed)


def bar(quantity=4, **what) -> Part:
    return Part("A3", "Bar", EQUAL, ALLOY, 10, quantity=quantity, **what)


def rack_of(**lengths) -> Rack:
    return Rack([Stick(name.replace("_", "-"), EQUAL, ALLOY, length) for name, length in lengths.items()])


def test_the_checker_sees_a_piece_from_another_stick():
    """The guard: the plan of the same job without its pins is found out."""
    rack = rack_of(S_1=22, S_2=40)
    free = Job("Pins", Shop(), [bar(2)])
    asked = replace(free, parts=(bar(2, pinned=(Pinned("S-2", 1),)),))
    barred = replace(free, parts=(bar(2, not_from=("S-1",)),))
    made = plan(free, rack)

    def told(job):
        return [fault.id for fault in faults(renamed(made, lambda old: replace(old, part=job.parts[0]), {}), job, rack)]

    assert told(asked) == [ELSEWHERE] and set(told(barred)) == {BARRED}
    assert faults(plan(asked, rack), asked, rack) == faults(plan(barred, rack), barred, rack) == ()


def test_what_is_proven_of_the_pieces_of_one_stick_is_not_said_of_the_others():
    job, rack = Job("Pins", Shop(), [bar(pinned=(Pinned("S-1", 2),))]), rack_of(S_1=12, S_2=12)
    (asked,) = problems(job, rack)
    outcome = settle_problem(asked, Effort(5.0))
    (said,) = shortages(asked, outcome, rack, job.shop)
    assert (said.missing, said.proven) == (2, True)
    outcome.doubtful = [asked.instance.claims[-1]]  # one that any stick may give: its search was ended
    (said,) = shortages(asked, outcome, rack, job.shop)
    assert (said.missing, said.proven) == (2, False)


def test_what_is_asked_of_a_stick_is_asked_of_what_is_left_of_it():
    job = Job("Pins", Shop(), [bar(pinned=(Pinned("S-1", 2),), not_from=("S-2",))])
    record = Record(rack_of(S_1=40, S_2=60, S_3=60))
    record = record.marked(Mark("S-1", pieces_from("A3")), job).marked(Mark("S-2", pieces_from("other at 5")), job)
    left = record.still_wanted(job).parts[0]
    assert (left.quantity, left.pinned, left.not_from) == (3, (Pinned("S-1-R1", 1),), ("S-2", "S-2-R1"))
    made = plan(record.still_wanted(job), record.rack)
    assert not made.stick("S-2-R1").touched and sum(p.blank.pin == "S-1-R1" for p in made.stick("S-1-R1").placed) == 1
    spoiled = record.spoiled("S-1", "A3")
    assert spoiled.still_wanted(job).parts[0].pinned == (Pinned("S-1-R1", 2),)
    elsewhere = record.marked(Mark("S-3", pieces_from("3 x A3")), job)
    assert elsewhere.still_wanted(job) is None, "what was made elsewhere is made: no more is wanted than is wanted"


def test_part_way_and_anew_keep_the_pins():
    job = Job("Pins", Shop(), [bar(5, pinned=(Pinned("S-1", 3),), not_from=("S-3",))])
    record = Record(rack_of(S_1=40, S_2=30, S_3=21))
    made = plan(job, record.rack)
    hand = in_hand(made, job)
    again = parse_plan(render_plan(hand), job)
    assert again.number == hand.number
    assert [p.blank.pin for s in again.sticks for p in s.placed] == [p.blank.pin for s in hand.sticks for p in s.placed], "a kept plan knows which was pinned"
    left = job_left(job, made, Progress({"S-1": 1}))
    assert left.parts[0].pinned[0].quantity == 2
    assert faults(plan(left, rack_after_cuts(made, record.rack, Progress({"S-1": 1}))), left, rack_after_cuts(made, record.rack, Progress({"S-1": 1}))) == ()
    record = record.marked(hand.mark("S-1", 1), job)
    now = plan_anew(hand, job, record)
    wanted = record.still_wanted(job)
    assert faults(now.standing.plan, wanted, record.rack) == ()
    assert not now.standing.printed.stick("S-3").touched


def test_what_the_plan_bears_and_what_is_possible_ask_the_same_sticks():
    job = Job("Pins", Shop(), [bar(2, pinned=(Pinned("S-1", 2),))])
    tight, wide = rack_of(S_1=21, S_2=60), rack_of(S_1=32, S_2=60)
    assert [bears.replaced for bears in robustness(job, tight, plan(job, tight)).parts] == [NOT]
    assert robustness(job, wide, plan(job, wide)).not_spoiled == ()
    barred = Job("Pins", Shop(), [bar(2, not_from=("S-2",))])
    assert not still_possible(barred, tight, plan(barred, tight)).further[0].replanned
    assert one_now(EQUAL, ALLOY, 10, tight, barred, part_id="A3").stick.id == "S-1"


TEXT = '''format = 1
name = "Pins"
{unit}
[section.s]
leg_a = "20 mm"
leg_b = "20 mm"
thickness_a = "3 mm"
fillet = "3 mm"
[[part]]
id = "A3"
name = "Bar"
section = "s"
alloy = "6061-T6"
length = "{length}"
quantity = 4
{sticks}
'''


@pytest.mark.parametrize(
    ("sticks", "place", "words"),
    [
        ('pinned = [{stick = "S-1", quantity = 5}]', "part A3, pinned", "5 are to come"),
        ('pinned = [{stick = "S-1"}, {stick = "S-1"}]', "part A3, pinned", "stands here 2 times"),
        ('pinned = [{stick = "S-1"}]\nonly_stick = "S-1"', "part A3, pinned", "only_stick"),
        ('pinned = [{stick = "S-1"}]\nnot_from = ["S-1"]', "part A3, not_from", "leave one of the two out"),
        ('only_stick = "S-1"\nnot_from = ["S-1"]', "part A3, not_from", "leave one of the two out"),
        ('pinned = [{stick = "S-1", quantity = 0}]', "part A3, pinned 1, quantity", "out of range"),
        ('pinned = [{quantity = 1}]', "part A3, pinned 1, stick", "missing"),
        ('pinned = ["S-1"]', "part A3, pinned", "no list of entries"),
        ('not_from = "S-1"', "part A3, not_from", "no list of ids"),
        ('not_from = [7]', "part A3, not_from", "no list of ids"),
        ('not_from = ["../x"]', "part A3, not_from", "cannot be used"),
        ('pinned = [{stick = "S-9"}]', "part A3, pinned 1", "not on the rack"),
        ('pinned = [{stick = "S-2", quantity = 2}]', "part A3, pinned 1", "too short"),
        ('pinned = [{stick = "S-4"}]', "part A3, pinned 1", "name one of them, like S-4.1"),
        ('pinned = [{stick = "S-4.1"}]\nnot_from = ["S-4"]', "part A3, pinned 1", "none may come from S-4"),
        ('not_from = ["S-9"]', "part A3, not_from", "there is no stick S-9"),
    ],
)  # fmt: skip
@pytest.mark.parametrize(("unit", "length"), [("", "10 1/4"), ('unit = "mm"', "260 mm")])
def test_what_cannot_be_is_refused_by_its_place(sticks, place, words, unit, length):
    with pytest.raises(FileProblems) as found:
        job = parse_job(TEXT.format(unit=unit, length=length, sticks=sticks))
        one = Stick("S-1", job.parts[0].section, ALLOY, 60)
        equal = [replace(one, id=f"S-4.{n}", one_of="S-4") for n in (1, 2)]
        check_job_against_rack(job, Rack([one, replace(one, id="S-2", length="15"), *equal]))
    assert [(problem.place, words in problem.message) for problem in found.value.problems] == [(place, True)], found.value


def test_sticks_are_written_back_as_they_were_typed():
    text = TEXT.format(unit="", length="10 1/4", sticks='pinned = [{stick = "S-1", quantity = 2}]  # the straight ones\nnot_from = ["S-2"]')
    job = parse_job(text)
    assert render_job(job, text) == text
    other = replace(job, parts=(replace(job.parts[0], pinned=(Pinned("S-1", 2), Pinned("S-3")), not_from=("S-2", "S-5")),))
    again = render_job(other, text)
    assert parse_job(again) == other and "# the straight ones" in again


@pytest.mark.parametrize("seed", range(6))
def test_the_runner_up_keeps_the_pins(seed):
    """What is offered makes every piece, those from the sticks that are named too: the checker counts them from the job by itself."""
    rng = random.Random(f"runner-up {seed}")
    first, more = rng.randint(8, 14), rng.randint(8, 20)
    parts = [replace(bar(4, pinned=(Pinned("S-3", 2),)), length=first), replace(bar(2), length=more, id="A4", name="Rail")]
    job, rack = Job("Pins", Shop(), parts), rack_of(S_1=50, S_2=70, S_3=60, S_4=44)
    made = plan(job, rack)
    (found,) = runner_ups(job, rack, made)
    assert found.group is not None
    picked = with_picks(made, [found])
    assert faults(picked, job, rack) == () and picked.made == 6
