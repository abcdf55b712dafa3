"""The plan as it stands once some sticks are cut: what is not cut yet stays as it was planned, as far as it can.

The first plan is found again from the record: the rack as it was before the job's first cut gives the
same plan every time. Then the rest is planned with the least change from it, so that a printed plan
holds while it is followed, and what has changed is said.

>>> from anglelib.section import Section
>>> from anglelib.job import Shop
>>> from anglelib.part import Part
>>> from anglelib.stock.rack import Stick
>>> from anglelib.stock.record import Mark, pieces_from
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> job = Job("Demo", Shop(), [Part("A", "Bar", stock, "6061-T6", 20, quantity=3)])
>>> record = Record(Rack([Stick("S-1", stock, "6061-T6", 41), Stick("S-2", stock, "6061-T6", 42), Stick("S-3", stock, "6061-T6", 21)]))
>>> first = standing(job, record)
>>> [(s.stick.id, len(s.placed)) for s in first.plan.sticks]
[('S-1', 2), ('S-3', 1)]
>>> now = standing(job, record.marked(Mark("S-3", pieces_from("A")), job))
>>> [(s.stick.id, len(s.placed)) for s in now.plan.sticks], now.changed
([('S-1', 2)], ())
>>> now = standing(job, record.marked(Mark("S-1", pieces_from("A")), job))
>>> [(s.stick.id, len(s.placed)) for s in now.plan.sticks], now.changed
([('S-1-R1', 1), ('S-3', 1)], ())
"""

from __future__ import annotations

import threading
import time
from collections import Counter
from collections.abc import Callable, Collection
from dataclasses import dataclass, replace

from anglelib.errors import RackError
from anglelib.job import Job
from anglelib.stock.blank import Blank
from anglelib.stock.plan import GroupPlan, Plan, StickPlan
from anglelib.stock.planner import plan as make_plan
from anglelib.stock.rack import Rack
from anglelib.stock.record import Record
from anglelib.stock.replan import replan
from anglelib.stock.versions import part_version


@dataclass(frozen=True)
class Standing:
    """What is still to make, the rack as it is, and the plan for it.

    ``plan`` counts the pieces of the ``job`` that is left; ``printed`` is the same plan as it stands on
    paper: sticks that give what they gave have their order of cuts and their numbers of pieces. ``changed``
    are the sticks, not cut yet, from which something else comes than in the first plan.
    """

    job: Job
    rack: Rack
    plan: Plan
    printed: Plan
    changed: tuple[str, ...] = ()


def standing(
    job: Job,
    record: Record,
    *,
    seconds: float | None = None,
    progress: Callable[[float, str], None] | None = None,
    stop: threading.Event | None = None,
) -> Standing | None:
    """The plan for what is not made yet of a job; None where everything is.

    ``seconds``, ``progress`` and ``stop`` are those of :func:`~anglelib.stock.planner.plan`.
    """
    wanted, rack, begun = record.still_wanted(job), record.rack, time.monotonic()
    if wanted is None:
        return None
    before = _before(record, job.name)
    if before is not None:
        first = make_plan(job, before.rack, seconds=seconds, progress=progress, stop=stop)
        seconds = None if seconds is None else max(0.0, seconds - (time.monotonic() - begun))
        if not first.interrupted:
            made = replan(job, before.rack, first, job_now=lambda _: wanted, rack_now=lambda _: rack, seconds=seconds, stop=stop).plan
            return Standing(wanted, rack, made, as_printed(job, wanted, first, made), _changed(first, made, rack))
    made = make_plan(wanted, rack, seconds=seconds, progress=progress, stop=stop)
    return Standing(wanted, rack, made, made)


def _before(record: Record, job: str) -> Record | None:
    """The record before the first cut of a job; None where there is none, or where it cannot be had any more."""
    ours = [old.stick.id for old in record.cut if old.job == job]
    if not ours:
        return None
    try:
        for stick_id in reversed(ours):
            record = record.undone(stick_id)
    except RackError:  # what was left of a stick is cut for another job
        return None
    return record


def _changed(first: Plan, made: Plan, rack: Rack) -> tuple[str, ...]:
    there = {stick.id for stick in rack.sticks}
    ids = sorted({s.stick.id for s in (*first.sticks, *made.sticks)} & there)
    known = {s.stick.id for group in first.groups for s in group.sticks}
    return tuple(name for name in ids if name in known and _given(first.stick(name)) != _given(made.stick(name)))


def _given(planned: StickPlan | None) -> Counter[str]:
    return Counter(p.blank.part.id for p in (*planned.placed, *planned.held)) if planned is not None else Counter()


def _as_sawn(planned: StickPlan) -> Counter[tuple]:
    """What a stick gives, as it is sawn: a revised part is another one."""
    return Counter((p.blank.part.id, p.blank.length, part_version(p.blank.part)) for p in (*planned.placed, *planned.held))


def as_printed(job: Job, wanted: Job, first: Plan, made: Plan, done: Collection[tuple[str, int]] = ()) -> Plan:
    """The plan with every stick that gives what it gave as it was: the same order of cuts, the same numbers of pieces.

    The pieces of other sticks get numbers that are not on paper yet, out of the job's whole quantity, those that are ``done`` last; a
    shortage counts in it too.
    """
    kept = {}
    for planned in made.sticks:
        old = first.stick(planned.stick.id)
        if old is not None and first.shop == made.shop and old.stick == planned.stick and _as_sawn(old) == _as_sawn(planned):
            kept[planned.stick.id] = old
    taken = {(p.blank.part.id, p.blank.number) for old in kept.values() for p in (*old.placed, *old.held)}
    free = {
        part.id: iter(sorted((n for n in range(1, part.quantity + 1) if (part.id, n) not in taken), key=lambda n, id_=part.id: ((id_, n) in done, n)))
        for part in job.parts
    }

    def numbered(planned: StickPlan) -> StickPlan:
        stays = planned.stick.id in kept
        named: dict[Blank, Blank] = {}

        def name(blank: Blank) -> Blank:
            if blank not in named:
                part = wanted.part(blank.part.id)
                number = blank.number if stays else next(free[part.id])
                named[blank] = replace(blank, part=part, number=number, whole=job.part(part.id).quantity)
            return named[blank]

        planned = kept.get(planned.stick.id, planned)
        return replace(
            planned,
            placed=tuple(replace(p, blank=name(p.blank)) for p in planned.placed),
            held=tuple(replace(p, blank=name(p.blank)) for p in planned.held),
            cuts=tuple(replace(cut, blank=name(cut.blank)) if cut.blank is not None else cut for cut in planned.cuts),
            remnants=tuple(replace(r, holds=tuple(map(name, r.holds))) for r in planned.remnants),
        )

    def counted(group: GroupPlan) -> GroupPlan:
        short = tuple(replace(shortage, of=job.part(shortage.part_id).quantity) for shortage in group.shortages)
        return replace(group, sticks=tuple(map(numbered, group.sticks)), shortages=short)

    return replace(made, groups=tuple(map(counted, made.groups)))
