"""The sticks of a rack that no part of a job may be cut from, and why, as data.

>>> from anglelib.job import Shop
>>> from anglelib.part import Part
>>> from anglelib.section import Section
>>> from anglelib.stock.planner import plan
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> job = Job("Demo", Shop(), [Part("A1", "Bar", stock, "6061-T6", 28)])
>>> rack = Rack([Stick("S-1", stock, "6061-T6", 96), Stick("S-2", stock, "6063-T5", 30)])
>>> [(name, [reason.id for reason in reasons]) for name, reasons in refused(plan(job, rack), job, rack)]
[('S-2', ['alloy'])]
"""

from __future__ import annotations

from anglelib.job import Job
from anglelib.stock.fit import refusals
from anglelib.stock.plan import GroupPlan, Plan
from anglelib.stock.rack import Rack, Stick
from anglelib.stock.reasons import NO_PART, Reason

Unused = tuple[str, tuple[Reason, ...], GroupPlan | None]
"""A stick's id, why it is not used, and the section of the plan that it resembles most."""


def refused(plan: Plan, job: Job, rack: Rack) -> list[tuple[str, tuple[Reason, ...]]]:
    """The sticks that no part of the job may be cut from, each with every reason."""
    return [(name, reasons) for name, reasons, _ in unused_at(plan, job, rack)]


def unused_at(plan: Plan, job: Job, rack: Rack) -> list[Unused]:
    """The same with the section of the plan that the stick resembles most: its legs are alike, the fewest reasons speak against it."""
    usable = {planned.stick.id for group in plan.groups for planned in group.sticks}
    found: list[Unused] = []
    for stick in rack.sticks:
        if stick.id in usable:
            continue
        best: tuple[int, int] | None = None
        chosen: tuple[tuple[Reason, ...], GroupPlan | None] = ((), None)
        for number, group in enumerate(plan.groups):
            if {stick.section.leg_a, stick.section.leg_b} != {group.section.leg_a, group.section.leg_b}:
                continue
            reasons = _reasons(stick, group, job)
            if reasons and (best is None or (len(reasons), number) < best):
                best, chosen = (len(reasons), number), (reasons, group)
        if best is None:
            chosen = ((Reason(NO_PART, stick.id, have=stick.section, alloy=stick.alloy),), None)
        found.append((stick.id, *chosen))
    return found


def _reasons(stick: Stick, group: GroupPlan, job: Job) -> tuple[Reason, ...]:
    """Why no part of a section may be cut from a stick."""
    parts = [part for part in job.parts if part.section == group.section and part.alloy == group.alloy]
    parts += [part for part in job.parts if part.alloy == group.alloy and part.section.swapped() == group.section]
    free = [part for part in parts if not part.only_stick] or parts
    return refusals(free[0], stick) if free else ()
