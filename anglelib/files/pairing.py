"""A job and a rack side by side: what one says about the other and cannot be."""

from __future__ import annotations

from os import PathLike

from anglelib.errors import BenchError, FileProblems, Problem
from anglelib.files.job_file import read_job
from anglelib.files.rack_file import read_record, row_of
from anglelib.job import Job
from anglelib.near import did_you_mean
from anglelib.stock.fit import alike
from anglelib.stock.rack import Rack
from anglelib.stock.record import Record
from anglelib.storage import shown


def read_both(job_file: str | PathLike, rack_file: str | PathLike) -> tuple[Job, Record]:
    """The whole job, and the rack with what was cut from it; raises BenchError with what is wrong in either, at once.

    What the plans name a stick for is looked for among the parts that are still wanted.
    """
    wrong: list[str] = []
    found: list = []
    for read, file in ((read_job, job_file), (read_record, rack_file)):
        try:
            found.append(read(file))
        except BenchError as error:
            wrong.append(str(error))
    if wrong:
        raise BenchError("\n".join(wrong))
    job, record = found
    check_made(job, record, rack_file)
    wanted = record.still_wanted(job)
    if wanted is not None:
        check_job_against_rack(wanted, record.rack, shown(job_file))
    return job, record


def check_made(job: Job, record: Record, rack_file: str | PathLike) -> None:
    """Raise FileProblems, by row, where more pieces of a part are marked as made than the job asks for."""
    made, problems = record.made(job), []
    for part in job.parts:
        if made[part.id] <= part.quantity:
            continue
        last = next(old.stick.id for old in reversed(record.cut) if old.belongs(job) and any(p.part_id == part.id and not p.spoiled for p in old.pieces))
        message = (
            f"{made[part.id]} of {part.id} are marked as made, and {part.quantity} {'is' if part.quantity == 1 else 'are'} wanted: put the quantity in "
            "the job right, or the pieces here."
        )
        problems.append(Problem(shown(rack_file), f"row {row_of(rack_file, last)}, cut_into", message))
    if problems:
        raise FileProblems(problems)


def check_job_against_rack(job: Job, rack: Rack, file: str = "job.toml") -> None:
    """Raise FileProblems for every part that asks for a stick that is not there or cannot be used for it.

    What is merely short is no problem of the files: the plan says so.
    """
    sticks = {stick.id: stick for stick in rack.sticks}
    problems = []
    for part in job.parts:
        if not part.only_stick:
            continue
        stick = sticks.get(part.only_stick)
        if stick is None:
            remedy = did_you_mean(part.only_stick, sticks) or "check its id, or leave only_stick out."
            message = f"the stick {part.only_stick} is not on the rack: {remedy}"
        elif not alike(stick.section, part.section):
            message = f"the stick {stick.id} is another section than the part: choose another stick."
        elif stick.alloy != part.alloy:
            message = f"the stick {stick.id} is {stick.alloy or 'of no known alloy'}, the part {part.alloy}: choose another stick."
        elif stick.hands_off:
            message = f"the stick {stick.id} is marked hands-off: choose another stick, or clear the mark on the rack."
        else:
            continue
        problems.append(Problem(file, f"part {part.id}, only_stick", message))
    if problems:
        raise FileProblems(problems)
