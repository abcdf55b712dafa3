"""The plan as it stands: what is not cut yet stays as it was planned, whatever was cut first, and however much of it."""

from random import Random

import pytest
from kits import kit
from small_jobs import small_job

from anglelib.stock.checker import check
from anglelib.stock.planner import plan
from anglelib.stock.record import Mark, Piece, Record, pieces_from, pieces_of
from anglelib.stock.standing import standing


def printed(planned) -> list[tuple]:
    """What stands on paper of a stick."""
    rows = [(cut.kind, cut.line, str(cut.blank) if cut.blank else "", cut.clamp) for cut in planned.cuts]
    return rows + [(str(p.blank), p.start) for p in planned.held] + [(r.stick.id, r.stick.length) for r in planned.remnants]


def cut_up(job, rack, seed: int) -> tuple[int, int]:
    """Cuts stick after stick of what stands, in a random order, sometimes half of a stick; how many marks, how many changes."""
    dice, record, marks, changes = Random(seed), Record(rack), 0, 0
    first = plan(job, rack)
    lacking = {(s.part_id, s.missing) for s in first.shortages}
    while (now := standing(job, record)) is not None:
        check(now.plan, now.job, now.rack)
        check(now.printed, now.job, now.rack)
        assert {(s.part_id, s.missing) for s in now.plan.shortages} == lacking
        changes += bool(now.changed)
        for planned in now.printed.sticks:  # to the letter, the numbers of the pieces too
            assert "-R" in planned.stick.id or now.changed or printed(planned) == printed(first.stick(planned.stick.id))
        able = [s for s in now.printed.sticks if s.placed]
        if not able:
            break
        planned = dice.choice(able)
        pieces, layout = pieces_of(planned), planned
        if len(planned.placed) > 2 and not planned.stick.dents and dice.random() < 0.5:
            half = planned.placed[: len(planned.placed) // 2]
            pieces, layout = tuple(Piece(p.blank.part.id, 1, p.blank.length) for p in half), None
        record, marks = record.marked(Mark(planned.stick.id, pieces, layout), job), marks + 1
    return marks, changes


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(4))
def test_a_kit_cut_as_planned_never_changes(seed):
    marks, changes = cut_up(*kit(31 + seed), seed)
    assert marks >= 4 and changes == 0


def test_small_jobs_cut_as_planned_never_change():
    marks = 0
    for seed in range(30):
        found, changes = cut_up(*small_job(seed), seed)
        marks += found
        assert changes == 0, seed
    assert marks > 30


def test_a_cut_that_was_not_planned_is_planned_around():
    job, rack = kit(31)
    first = plan(job, rack)
    longest = max((s for s in first.sticks if s.placed), key=lambda s: len(s.placed))
    shortest = min(job.parts, key=lambda part: part.length)
    record = Record(rack).marked(Mark(longest.stick.id, pieces_from(f"{shortest.id} spoiled")), job)
    now = standing(job, record)
    check(now.plan, now.job, now.rack)
    fresh = plan(now.job, now.rack)
    assert [g.left for g in fresh.groups] == [g.left for g in now.plan.groups]
    assert {(s.part_id, s.missing) for s in fresh.shortages} == {(s.part_id, s.missing) for s in now.plan.shortages}


def test_what_another_job_cut_from_a_remnant_bars_the_way_back():
    """The first plan cannot be found again; what is left is planned as it is."""
    job, rack = kit(31)
    planned = next(s for s in plan(job, rack).sticks if s.placed and s.remnants)
    record = Record(rack).marked(Mark(planned.stick.id, pieces_of(planned), planned), job)
    child = record.left_of(planned.stick.id)[0]
    record = record.marked(Mark(child.id, pieces_from("X at 1")))
    now = standing(job, record)
    check(now.plan, now.job, now.rack)
    assert now.changed == ()
