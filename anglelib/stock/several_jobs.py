"""Several jobs that are cut from one rack: one of them planned with the metal of the others held, or all of them planned together.

The jobs become one, whose parts have different ids: those of another job have its label before theirs, wing.A3, a label being the name
of its file. What is recorded of a cut has a part's own id and its job (:mod:`anglelib.stock.record`), so that each job finds what was
made of it, however it is planned next.

**Held**: what of the other jobs is not made yet is a claim on the rack. Parts of theirs that may not be spliced come before everything,
since no plan of this job may make one of them impossible; then this job's own parts; then what else of theirs finds room.
**Together**: the job that is named first has the first claim, whatever the priorities in it; within a job everything is as ever.

>>> from anglelib.section import Section
>>> from anglelib.job import Shop
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> tail = Job("Tail", Shop(), [Part("A3", "Bar", stock, "6061-T6", 10)], id="T1")
>>> wing = Job("Wing", Shop(), [Part("A3", "Spar", stock, "6061-T6", 30, one_piece=True)], id="W1")
>>> [(part.id, part.later, part.claim) for part in holding(tail, [("wing", wing)]).parts]
[('A3', False, 0), ('wing.A3', True, 1)]
>>> both = together([("tail", tail), ("wing", wing)])
>>> both.name, [(part.id, part.claim) for part in both.parts], own_parts(holding(tail, [("wing", wing)])) == tail
('Tail + Wing', [('tail.A3', 2), ('wing.A3', 1)], True)
>>> together([("tail", tail), ("wing", replace(wing, id=""))])
Traceback (most recent call last):
    ...
anglelib.errors.JobError: wing (Wing) has no id of its own, by which the record could tell its pieces from another job's: write id = "wing-1" under its name, or another word that no other job has.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from anglelib.errors import JobError
from anglelib.job import Job, Member
from anglelib.lengths import exact
from anglelib.names import MOST_NAME_CHARACTERS, check_id
from anglelib.part import Part

MOST_LABEL_CHARACTERS = 12
MOST_ID_CHARACTERS = 32
_NO_LABEL = re.compile(r"[^A-Za-z0-9_-]+")
RULES = {"kerf": "kerf", "allowance": "sanding allowance"}
"""What must be the same of all jobs that are cut from one rack: one saw cuts them."""

Labelled = tuple[str, Job]


def labels(stems: Sequence[str], jobs: Sequence[Job], own: Job | None = None) -> list[str]:
    """A label for each job, from the name of its file: short, different from the others, and no beginning of an id of the job's ``own`` parts.

    >>> labels(["wing", "Wing kit.2", "wing"], [], None)
    ['wing', 'Wing-kit-2', 'wing-2']
    """
    found: list[str] = []
    taken = {part.id.partition(".")[0].lower() for part in own.parts if "." in part.id} if own is not None else set()
    for n, stem in enumerate(stems):
        longest = max((len(part.id) for part in jobs[n].parts), default=0) if n < len(jobs) else 0
        room = min(MOST_LABEL_CHARACTERS, MOST_ID_CHARACTERS - 1 - longest)
        if room < 3:
            part = max(jobs[n].parts, key=lambda part: len(part.id))
            raise JobError(f"The part id {part.id} of {jobs[n].name} leaves no room for the name of its job before it: shorten it to {MOST_ID_CHARACTERS - 4} characters.")
        base, number = _NO_LABEL.sub("-", stem).strip("-_")[:room] or "job", 1
        name = base
        while name.lower() in taken or not _usable(name):
            number += 1
            name = f"{base[: room - len(str(number)) - 1]}-{number}"
        taken.add(name.lower())
        found.append(name)
    return found


def _usable(label: str) -> bool:
    try:
        check_id(f"{label}.1", "label", JobError)
    except JobError:
        return False
    return True


def holding(job: Job, others: Sequence[Labelled]) -> Job:
    """The job with the parts of the others held for later; JobError where they cannot be cut by one saw."""
    if not others:
        return job
    _check(job, others)
    members = (Member("", job.name, job.id), *(Member(label, other.name, other.id, held=True) for label, other in others))
    kept = [replace(part, later=True, claim=1 if part.one_piece else -1) for labelled in others for part in _parts(labelled)]
    return replace(job, parts=(*job.parts, *kept), members=members)


def together(jobs: Sequence[Labelled]) -> Job:
    """One job of several, the first one with the first claim; JobError where they cannot be told apart or be cut by one saw."""
    (_, first), *others = jobs
    _check(first, others)
    seen: dict[str, str] = {}
    for label, job in jobs:
        if not job.id:
            raise JobError(
                f"{label} ({job.name}) has no id of its own, by which the record could tell its pieces from another job's: "
                f'write id = "{label}-1" under its name, or another word that no other job has.'
            )
        if job.id in seen:
            raise JobError(f"{seen[job.id]} and {label} have the same id, {job.id}: give one of them another, unless they are the same job.")
        seen[job.id] = label
    for label, job in others:
        if job.limits != first.limits:
            raise JobError(f"{label} has other limits ({job.limits.name}) than {jobs[0][0]} ({first.limits.name}): write the same limits in both, or plan one with the other held (--hold).")
    members = tuple(Member(label, job.name, job.id) for label, job in jobs)
    parts = [replace(part, claim=len(jobs) - n) for n, labelled in enumerate(jobs) for part in _parts(labelled)]
    name = " + ".join(job.name for _, job in jobs)
    short = name if len(name) <= MOST_NAME_CHARACTERS else " + ".join(label for label, _ in jobs)[:MOST_NAME_CHARACTERS]
    return replace(first, name=short, id="", parts=tuple(parts), members=members)


def own_parts(job: Job) -> Job:
    """The job without what is only held for others: what is printed, counted and judged."""
    if not any(member.held for member in job.members):
        return job
    members = tuple(member for member in job.members if not member.held)
    return replace(job, parts=tuple(part for part in job.parts if job.held_for(part.id) is None), members=members if any(m.label for m in members) else ())


def _parts(labelled: Labelled) -> list[Part]:
    label, job = labelled
    member = Member(label, job.name)
    return [replace(part, id=member.part_id(part.id), mirror_of=member.part_id(part.mirror_of) if part.mirror_of else "") for part in job.parts]


def _check(first: Job, others: Sequence[Labelled]) -> None:
    for label, job in others:
        if job.name == first.name and job.id == first.id:
            raise JobError(f"{label} is the same job as the first one ({job.name}): name another, or give it an id and a name of its own.")
        for field, what in RULES.items():
            here, there = getattr(first.shop, field), getattr(job.shop, field)
            if here != there:
                raise JobError(
                    f"{label} has a {what} of {exact(there, job.unit)}, and {first.name} one of {exact(here, first.unit)}: sticks of one rack are "
                    f"planned for one saw. Write the same [shop] in both."
                )
