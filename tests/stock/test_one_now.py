"""One part now: the stick, why, what is left, and what another choice costs."""

from fractions import Fraction

import pytest

from anglelib.errors import JobError, PlanError
from anglelib.files.job_file import read_job
from anglelib.files.rack_file import read_rack
from anglelib.stock.one import one_now
from anglelib.stock.planner import plan
from anglelib.stock.rack import Rack


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
    assert "S-10 is 6063-T5; the part wants 6061-T6." in found.refused


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
