"""A job and a rack side by side: what one says about the other and cannot be."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Sequence
from os import PathLike
from pathlib import Path

from anglelib.errors import BenchError, FileProblems, Problem
from anglelib.files.job_file import read_job
from anglelib.files.plan_file import JOINED
from anglelib.files.rack_file import read_record, row_of
from anglelib.job import Job
from anglelib.lengths import exact, in_unit
from anglelib.near import did_you_mean
from anglelib.part import Part
from anglelib.stock.fit import alike
from anglelib.stock.pins import barred
from anglelib.stock.rack import Rack, Stick
from anglelib.stock.record import Record
from anglelib.stock.several_jobs import holding, labels, together
from anglelib.storage import shown


def read_both(
    job_file: str | PathLike, rack_file: str | PathLike, hold: Sequence[str | PathLike] = (), beside: Sequence[str | PathLike] = ()
) -> tuple[Job, Record]:
    """The whole job, and the rack with what was cut from it; raises BenchError with what is wrong in either, at once.

    ``hold`` are the files of other jobs whose parts are held for later, ``beside`` those of jobs that are planned together with it. What
    the plans name a stick for is looked for among the parts that are still wanted.
    """
    wrong: list[str] = []
    found: list = []
    for read, file in ((read_job, job_file), (read_record, rack_file), *((read_job, file) for file in (*beside, *hold))):
        try:
            found.append(read(file))
        except BenchError as error:
            wrong.append(str(error))
    if wrong:
        raise BenchError("\n".join(wrong))
    first, record, *others = found
    jobs = [first, *others]
    gone, rests = {name for old in record.cut for name in (old.stick.id, old.stick.one_of)}, [rest for rest, _ in record.origins]
    for job, file in zip(jobs, (job_file, *beside, *hold), strict=True):
        check_made(job, record, rack_file)
        wanted = record.still_wanted(job)
        if wanted is not None:
            check_job_against_rack(wanted, record.rack, shown(file), gone, rests)
    return put_together(jobs, (job_file, *beside, *hold), len(beside)), record


def put_together(jobs: Sequence[Job], files: Sequence[str | PathLike], beside: int) -> Job:
    """One job of those that were read: the first with so many after it planned together, the rest held."""
    stems = [Path(file).stem for file in files]
    same = Counter(Path(file).resolve() for file in files)
    if twice := next((file for file in files if same[Path(file).resolve()] > 1), None):
        raise BenchError(f"{shown(twice)} is named twice: name each job once.")
    if len(jobs) == 1:
        return jobs[0]
    if not beside:
        return holding(jobs[0], list(zip(labels(stems[1:], jobs[1:], jobs[0]), jobs[1:], strict=True)))
    if len(jobs) > beside + 1:
        raise BenchError("Jobs are planned together (--together), or others are held (--hold): give one of the two.")
    return together(list(zip(labels(stems, jobs), jobs, strict=True)))


def plan_home(job_file: str | PathLike, beside: Sequence[str | PathLike] = ()) -> str:
    """The job file beside which a plan is kept; of several jobs planned together a name made of theirs, beside the first.

    >>> plan_home("kit/tail.toml"), plan_home("kit/tail.toml", ["wing.toml"]).replace("\\\\", "/")
    ('kit/tail.toml', 'kit/tail+wing.toml')
    """
    if not beside:
        return str(job_file)
    return str(Path(job_file).with_name(JOINED.join(Path(file).stem for file in (job_file, *beside))[:120] + Path(job_file).suffix))


def check_made(job: Job, record: Record, rack_file: str | PathLike) -> None:
    """Raise FileProblems, by row, where more pieces of a part are marked as made than the job asks for."""
    made, problems = record.made(job), []
    for part in job.parts:
        if made[part.id] <= part.quantity:
            continue
        last = next(old.stick.id for old in reversed(record.cut) if any(old.id_in(p, job) == part.id and not p.spoiled for p in old.pieces))
        message = (
            f"{made[part.id]} of {part.id} are marked as made, and {part.quantity} {'is' if part.quantity == 1 else 'are'} wanted: put the quantity in "
            "the job right, or the pieces here."
        )
        problems.append(Problem(shown(rack_file), f"row {row_of(rack_file, last)}, cut_into", message))
    if problems:
        raise FileProblems(problems)


def _able(part: Part, stick: Stick, job: Job) -> int:
    """How many blanks of a part a stick gives, with nothing else cut from it."""
    kerf, blank = job.shop.kerf, part.length + 2 * job.shop.allowance
    return sum(int(interval.holds(kerf) // (blank + kerf)) for interval in stick.intervals(kerf))


def check_job_against_rack(job: Job, rack: Rack, file: str = "job.toml", gone: Collection[str] = (), rests: Collection[str] = ()) -> None:
    """Raise FileProblems for every part that asks for a stick that is not there or cannot be used for it.

    A stick that is to give a number of pieces must be able to, with nothing else cut from it. What is merely short besides is no problem of
    the files: the plan says so. ``gone`` are sticks that were cut: what is asked of them is asked in vain, and not wrong.
    ``rests`` are what is left of sticks that were cut: where such a rest cannot give what its stick was to give, the plan says so.
    """
    sticks = {stick.id: stick for stick in rack.sticks}
    problems = []
    named = [(part, "only_stick", part.only_stick, 0) for part in job.parts if part.only_stick]
    named += [(part, f"pinned {number}", pin.stick, pin.quantity) for part in job.parts for number, pin in enumerate(part.pinned, 1)]
    for part, key, stick_id, wanted in named:
        stick = sticks.get(stick_id)
        if stick is None and stick_id in gone:
            continue  # all of it is cut: the plan says what is short
        if stick is None:
            row = [name for name, one in sticks.items() if one.one_of == stick_id]
            plural = f"name one of them, like {row[0]}." if row else ""
            remedy = plural or did_you_mean(stick_id, sticks) or f"check its id, or leave {key.split()[0]} out."
            message = f"{stick_id} lists {len(row)} equal sticks: {remedy}" if row else f"the stick {stick_id} is not on the rack: {remedy}"
        elif barred(part, stick):
            message = f"{stick.id} is to give pieces of it, and none may come from {stick.one_of if stick.id not in part.not_from else 'there'}: leave one of the two out."
        elif not alike(stick.section, part.section):
            message = f"the stick {stick.id} is another section than the part: choose another stick."
        elif stick.alloy != part.alloy:
            message = f"the stick {stick.id} is {stick.alloy or 'of no known alloy'}, the part {part.alloy}: choose another stick."
        elif stick.hands_off:
            message = f"the stick {stick.id} is marked hands-off: choose another stick, or clear the mark on the rack."
        elif wanted and stick.id not in rests and (able := _able(part, stick, job)) < wanted:
            blank = in_unit(part.length + 2 * job.shop.allowance, part.unit, exact)
            message = f"{stick.id} is too short: of blanks of {blank} it gives {able or 'none'}, and {wanted} {'is' if wanted == 1 else 'are'} to come from it. Name fewer, or another stick."
        else:
            continue
        problems.append(Problem(file, f"part {part.id}, {key}", message))
    known = {*sticks, *(stick.one_of for stick in rack.sticks), *gone}
    for part in job.parts:
        for stick_id in part.not_from:
            if stick_id not in known:
                remedy = did_you_mean(stick_id, sorted(known - {""})) or "check its id, or leave it out."
                problems.append(Problem(file, f"part {part.id}, not_from", f"there is no stick {stick_id} on the rack: {remedy}"))
    if problems:
        raise FileProblems(problems)
