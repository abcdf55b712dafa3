"""The demo kit: read without a problem, complete, and as hard as its README says."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

import anglelib
from anglelib.files import check_job_against_rack, read_job, read_rack, render_job, render_rack
from anglelib.geometry.hole_check import hole_warnings
from anglelib.geometry.taper import taper_lines, warnings
from anglelib.geometry.whole_holes import broken_holes
from anglelib.job import Shop
from anglelib.section import Section

DEMO = Path(anglelib.__file__).parents[1] / "notebooks" / "demo"


@pytest.fixture(scope="module")
def job():
    return read_job(DEMO / "job.toml")


@pytest.fixture(scope="module")
def rack():
    return read_rack(DEMO / "rack.csv")


def test_is_complete_and_agrees_with_itself(job, rack):
    assert (len(job.parts), job.pieces, len(rack.sticks)) == (22, 79, 24)
    assert len({part.section for part in job.parts}) == 5
    assert job.shop == Shop(kerf="1/16", allowance="1/32")
    check_job_against_rack(job, rack)
    readme = (DEMO / "README.md").read_text(encoding="utf-8")
    assert "22 parts (79 pieces) in five sections" in readme and "24 sticks" in readme


def test_is_written_as_a_save_writes_it(job, rack):
    for name, text in (("job.toml", render_job), ("rack.csv", render_rack)):
        kept = (DEMO / name).read_text(encoding="utf-8")
        assert (text(job, kept) if name == "job.toml" else text(rack)) == kept


def test_no_taper_is_doubtful_and_no_hole_is_cut_or_warned_of(job):
    for part in job.parts:
        assert warnings(part) == () and broken_holes(part) == () and hole_warnings(part, job.limits) == ()


def test_carries_every_kind_of_taper(job):
    ends = {part.id: {line.ends_in for line in taper_lines(part)} for part in job.parts}
    assert ends["A1L"] == ends["A5R"] == ends["D2L"] == {"flat"}
    assert ends["C1L"] == ends["C1R"] == ends["E1"] == {"vertex"}
    assert ends["C2L"] == ends["C2R"] == {"fillet"}
    assert ends["A3"] == ends["B1"] == ends["D1"] == set()


def test_no_part_is_three_inches_of_one_by_one_by_an_eighth(job):
    assert not any(part.section == Section(1, 1, "1/8") for part in job.parts)
    assert 3 not in {part.length for part in job.parts}


def test_the_traps_are_on_the_rack(job, rack):
    heavy, medium = job.part("A1L").section, job.part("C1L").section
    stick = rack.stick
    assert stick("S-10").section == heavy and stick("S-10").alloy == "6063-T5"
    assert stick("S-11").section == heavy and not stick("S-11").identified
    assert stick("S-12").section.size == heavy.size and stick("S-12").section.fillet == 0 and not stick("S-12").identified
    assert stick("S-30").section == medium and stick("S-30").dents == ((Fraction(59, 2), Fraction(31)),)
    assert stick("S-33").section.leg_a == medium.leg_a and stick("S-33").section.thickness_a == Fraction(3, 16)
    usable = {s.id for s in rack.sticks if any((s.section, s.alloy) == (p.section, p.alloy) for p in job.parts)}
    assert {s.id for s in rack.sticks} - usable == {"S-10", "S-11", "S-12", "S-33"}


def test_one_piece_parts_fit_few_sticks(job, rack):
    for part_id, sticks in {"A6L": 3, "A5L": 4, "D2L": 2}.items():
        part = job.part(part_id)
        assert part.one_piece
        long = [s for s in rack.sticks if (s.section, s.alloy) == (part.section, part.alloy) and s.length > part.length]
        assert len(long) == sticks
