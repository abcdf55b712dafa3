"""The demo kit's parts as the lessons use them: from the project's job file, or the few that are needed from here.

>>> demo_part("C1L").name, demo_part("C1L").section.size
('Door hinge bracket, left', '1 1/4 x 1 1/4 x 1/8')
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

from anglelib.errors import BenchError
from anglelib.job import Job
from anglelib.part import Part, Taper
from anglelib.section import Section

JOB = Path(__file__).resolve().parents[2] / "notebooks" / "demo" / "job.toml"


@cache
def _job() -> Job | None:
    if not JOB.is_file():
        return None
    from anglelib.files.job_file import read_job

    try:
        return read_job(JOB)
    except BenchError:
        return None


def _spare() -> dict[str, Part]:
    """What the lessons need where the package is without its notebooks; a test holds it to the job file."""
    small = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
    thick = Section("1 1/2", "1 1/2", "3/16", fillet="3/16")
    unequal = Section("1 1/2", 1, "1/8", fillet="1/8")
    foot = [Taper("A", 1, run="1 5/8"), Taper("A", 2, run="1 5/8")]
    listed = (
        Part("C1L", "Door hinge bracket, left", small, "6061-T6", "4 3/4", [Taper("A", 1, run="2 1/8")]),
        Part("C2L", "Fairing angle, left", small, "6061-T6", "22 5/8", [Taper("A", 1, "3/16", run="2 3/8")]),
        Part("D2L", "Seat rail, left", unequal, "6061-T6", "31 1/4", [Taper("A", 1, "5/8", run="2 5/8")]),
        Part("E1", "Battery foot", thick, "6061-T6", "3 7/8", foot),
    )
    return {part.id: part for part in listed}


def demo_part(part_id: str) -> Part:
    """A part of the demo kit by its id."""
    job = _job()
    return job.part(part_id) if job is not None else _spare()[part_id]
