"""One part now: the stick, why, what is left, and what another choice costs."""

from dataclasses import replace
from fractions import Fraction

import pytest
from brute import best, met, pieces_wanted
from small_jobs import small_job

from anglelib.errors import JobError, PlanError
from anglelib.files.job_file import read_job
from anglelib.files.rack_file import read_rack
from anglelib.job import Job, Shop
from anglelib.part import Part
from anglelib.section import Section
from anglelib.stock.one import one_now
from anglelib.stock.planner import plan
from anglelib.stock.rack import Rack, Stick
from anglelib.stock.reasons import ALLOY, TOO_SHORT, Reason


@pytest.fixture(scope="module")
def kit(project):
    folder = project / "notebooks" / "demo"
    return read_job(folder / "job.toml"), read_rack(folder / "rack.csv")


def ask(kit, part_id, with_job=True):
    job, rack = kit
    part = job.part(part_id)
    return one_now(part.section, part.alloy, part.length, rack, job if with_job else None, part_id=part_id if with_job else "")


def test_without_a_job_the_shortest_piece_that_serves(kit):
    found = ask(kit, "A3", with_job=False)
    assert found.stick.id == "S-09"
    assert found.line == found.blank == Fraction("17.3125") and found.left == Fraction("15.125")
    assert "it is the shortest piece that serves" in found.sentence
    assert Reason(ALLOY, "S-10", have="6063-T5", want="6061-T6") in found.refused


def test_with_the_job_the_choice_keeps_every_part_possible(kit):
    job, rack = kit
    for part in job.parts:
        found = ask(kit, part.id)
        assert found.stick is not None and "Every listed part of the section can still be made." in found.sentence
        assert all(stick_is_right(found.stick, part))


def stick_is_right(stick, part):
    return stick.alloy == part.alloy, stick.section == part.section, not stick.hands_off


def test_another_choice_names_what_it_makes_impossible(kit):
    """S-04 is just long enough for a longeron: a bar cut from it costs A5L or A5R, as a full plan confirms."""
    found = ask(kit, "A3")
    other = next(o for o in found.others if o.stick.id == "S-04")
    assert other.lost and set(other.lost) <= {"A5L", "A5R"} and other.sentence.endswith(("A5L could then not be made.", "A5R could then not be made."))
    job, rack = kit
    shorter = [s for s in rack.sticks if s.id != "S-04"]
    assert {s.part_id for s in plan(job, Rack(shorter)).shortages} & {"A5L", "A5R"}


def test_nothing_serves(kit):
    job, rack = kit
    part = job.part("A6L")
    found = one_now(part.section, part.alloy, 150, rack)
    assert found.stick is None and found.sentence.startswith("No stick on the rack serves: the longest piece is 143 1/2")
    found = one_now(part.section, "2024-T3", 10, rack)
    assert found.stick is None and "there is none of 3/4 x 3/4 x 1/8, 2024-T3" in found.sentence


def test_bad_questions_get_a_sentence(kit):
    job, rack = kit
    part = job.part("A3")
    with pytest.raises(PlanError, match="comma"):
        one_now(part.section, part.alloy, "17,25", rack)
    with pytest.raises(JobError, match='no part "Z9"'):
        one_now(part.section, part.alloy, 10, rack, job, part_id="Z9")


STOCK = Section("3/4", "3/4", "1/8", fillet="1/8")


def lost_by(job, rack, part, stick_id):
    """The other parts that lack a piece when one of a part must come from a stick, by trying every plan."""
    pinned = replace(part, id="this-part", quantity=1, only_stick=stick_id, priority=1000, later=False)
    rest = [replace(p, quantity=p.quantity - (p.id == part.id)) if p.quantity > (p.id == part.id) else None for p in job.parts]
    anew = Job(job.name, job.shop, [pinned, *[p for p in rest if p is not None]])
    made = met(best(anew, rack, part.section, part.alloy))
    return {p.id for (_, p), done in zip(pieces_wanted(anew, part.section, part.alloy), made, strict=True) if not done}


def test_what_another_choice_costs_against_every_plan():
    """The chosen stick costs the job no part that another would spare, and each other stick costs what it is said to."""
    asked = costs = 0
    for seed in range(250):
        job, rack = small_job(seed)
        part = job.parts[seed % len(job.parts)]
        if any(p.only_stick or abs(p.priority) for p in job.parts):
            continue
        found = one_now(part.section, part.alloy, part.length, rack, job, part_id=part.id)
        if found.stick is None:
            continue
        asked += 1
        here = lost_by(job, rack, part, found.stick.id)
        for other in found.others:
            there = lost_by(job, rack, part, other.stick.id)
            assert set(other.lost) == there - here, (seed, other.sentence)
            costs += bool(other.lost)
    assert asked > 15 and costs > 2


def bench(*lengths):
    return Rack([Stick(f"S-{n}", STOCK, "6061-T6", length) for n, length in enumerate(lengths, 1)])


def test_length_left_for_trimming_is_reserved():
    found = one_now(STOCK, "6061-T6", 28, bench(96, 30), extra=2)
    assert found.stick.id == "S-1" and found.blank == found.line == 30 + Fraction(1, 16)
    assert "The 2 left for trimming is in the blank of 30 1/16." in found.sentence
    assert Reason(TOO_SHORT, "S-2", have=Fraction(30), want=Fraction(241, 8)) in found.refused
    with pytest.raises(PlanError, match="left for trimming"):
        one_now(STOCK, "6061-T6", 28, bench(96), extra="-1")


def test_the_stick_that_the_plans_name_outranks_all():
    rack = bench(96, 30)
    listed = Job("Test", Shop(), [Part("A1", "Bar", STOCK, "6061-T6", 28, only_stick="S-1"), _bar()])
    for found in (
        one_now(STOCK, "6061-T6", 28, rack, only_stick="S-1"),
        one_now(STOCK, "6061-T6", 28, rack, listed, part_id="A1"),
    ):
        assert found.stick.id == "S-1" and "the plans name it for this part" in found.sentence and found.others == ()
    gone = one_now(STOCK, "6061-T6", 28, rack, only_stick="S-9")
    assert gone.stick is None and gone.sentence == "The plans name S-9 for it, and S-9 is not on the rack: nothing else may serve."
    short = one_now(STOCK, "6061-T6", 29, bench(96, 20), only_stick="S-2")
    assert short.stick is None and "S-2 is too short" in short.sentence


def test_what_is_lost_is_said_piece_by_piece():
    parts = [_bar("B1", 60, 1), _bar("B2", 20, 3)]
    job = Job("Test", Shop(), parts)
    found = one_now(STOCK, "6061-T6", 60, bench("60 1/8", "60 1/4", "60 1/4"), job)
    assert "Every" not in found.sentence and "not all of B2 can be made" in found.sentence
    found = one_now(STOCK, "6061-T6", 10, bench(61, 30), Job("Test", Shop(), parts[:1]))
    assert [other.sentence for other in found.others] == ["S-1 would leave 50 7/8 of 61, and B1 could then not be made."]


def _bar(part_id="A2", length=10, quantity=1):
    return Part(part_id, "Bar", STOCK, "6061-T6", length, quantity=quantity)
