"""A plan that has lost its job: the job file was renamed, and the plan in hand beside it still has the old name.

Whoever then plans would get another plan than the one on paper, without a word.
"""

from __future__ import annotations

import json
from os import PathLike
from pathlib import Path

from anglelib.contents_words import PLAN
from anglelib.errors import BenchError, PlanError
from anglelib.files.plan_file import ENDING, JOINED, MOST_BYTES, plan_path
from anglelib.job import Job
from anglelib.storage import read_text, shown

MOST = 100
"""So many plan files of a folder are looked at."""


def astray(job_file: str | PathLike, job: Job) -> Path | None:
    """A printed plan of this job beside its file under the name of a job file that is not there; None where the job has its plan, or there is none."""
    own = plan_path(job_file)
    if own.exists():
        return None
    for path in sorted(own.parent.glob(f"*{ENDING}"))[:MOST]:
        if JOINED in path.name:
            continue  # of several jobs together: no job file has its name
        if not path.with_name(path.name.removesuffix(ENDING) + Path(job_file).suffix).exists() and _is_of(path, job):
            return path
    return None


def refuse_astray(job_file: str | PathLike, job: Job) -> None:
    """PlanError where the plan in hand of a job lies beside it under another name, with how to put it right."""
    found = astray(job_file, job)
    if found is not None:
        raise PlanError(
            f"{shown(found)} has a printed plan of {job.name}, and no job file of that name is beside it: if {shown(job_file)} was renamed, rename that one to "
            f"{shown(plan_path(job_file))} too. To plan without it: --anew."
        )


def _is_of(path: Path, job: Job) -> bool:
    try:
        said = json.loads(read_text(path, MOST_BYTES, PLAN).text)
        name, id_ = said["job"]["name"], said["job"]["id"]
        return bool(said["printed"]) and (id_ == job.id if id_ and job.id else name == job.name)
    except (BenchError, ValueError, KeyError, TypeError):
        return False
