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
from anglelib.stock.rack import Rack

JOB = Path(__file__).resolve().parents[2] / "notebooks" / "demo" / "job.toml"
BESIDE = Path("demo", "job.toml")
"""The same beside the notebook that runs, where the package has none of its own."""


@cache
def _job() -> Job | None:
    from anglelib.files.job_file import read_job

    for path in (JOB, BESIDE):
        try:
            return read_job(path)
        except BenchError:
            continue
    return None


def demo_job() -> Job:
    """The demo kit's whole list of parts."""
    job = _job()
    if job is None:
        raise BenchError("The demo kit is not beside the notebooks: get the folder notebooks/demo of the project again.")
    return job


@cache
def demo_rack() -> Rack:
    """The demo kit's rack."""
    from anglelib.files.rack_file import read_rack

    for path in (JOB, BESIDE):
        if path.with_name("rack.csv").is_file():
            return read_rack(path.with_name("rack.csv"))
    raise BenchError("The demo kit's rack is not beside the notebooks: get the folder notebooks/demo of the project again.")


def _spare() -> dict[str, Part]:
    """What the lessons need where the package is without its notebooks; a test holds it to the job file."""
    small = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
    thick = Section("1 1/2", "1 1/2", "3/16", fillet="3/16")
    foot = [Taper("A", 1, run="1 5/8"), Taper("A", 2, run="1 5/8")]
    listed = (
        Part("C1L", "Door hinge bracket, left", small, "6061-T6", "4 3/4", [Taper("A", 1, run="2 1/8")]),
        Part("C1R", "Door hinge bracket, right", small, "6061-T6", "4 3/4", [Taper("B", 1, run="2 1/8")]),
        Part("C2R", "Fairing angle, right", small, "6061-T6", "22 5/8", [Taper("B", 1, "3/16", run="2 3/8")]),
        Part("E1", "Battery foot", thick, "6061-T6", "3 7/8", foot),
        Part("E2R", "Step bracket, right", thick, "6061-T6", "5 3/8", [Taper("B", 1, "9/16", run="2 7/8")]),
    )
    return {part.id: part for part in listed}


def demo_part(part_id: str) -> Part:
    """A part of the demo kit by its id."""
    job = _job()
    if job is None and part_id in _spare():
        return _spare()[part_id]
    return demo_job().part(part_id)
