"""What if: what could still be made, a stick is shorter than listed, the blade is thicker, a part is spoiled.

Each plans again from where the builder stands, with the least change from the old plan.

>>> from anglelib.section import Section
>>> from anglelib.job import Shop
>>> from anglelib.stock.planner import plan
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> rack = Rack([Stick("S-1", stock, "6061-T6", 60), Stick("S-2", stock, "6061-T6", 39)])
>>> job = Job("Demo", Shop(), [Part("A1", "Bar", stock, "6061-T6", 20), Part("A2", "Bar", stock, "6061-T6", 18)])
>>> made = plan(job, rack)
>>> again = spoiled_part(job, rack, made, "A2", Progress({"S-2": 1}))
>>> print(again.sentence)
Every blank that can still be made stays on its stick. Besides, A2 comes from S-1. No plan that makes as much and leaves as long remnants changes less; proven.
>>> print(still_possible(job, rack, made).sentence)
From what is left one more could be made of A1 and A2.
>>> spoiled_part(job, rack, made, "A1", Progress())
Traceback (most recent call last):
    ...
anglelib.errors.PlanError: 1 of A1 are said to be spoiled, and none of it is sawn: mark its cut first.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from anglelib.errors import JobError, LengthError, PlanError
from anglelib.job import Job
from anglelib.lengths import exact, inches
from anglelib.part import Part
from anglelib.stock.cutting import remnant_name
from anglelib.stock.fit import alike
from anglelib.stock.plan import Plan
from anglelib.stock.possible import Further, Possible, still_possible
from anglelib.stock.problem import Problem
from anglelib.stock.progress import Progress, blanks_sawn, check_progress, rack_after_cuts
from anglelib.stock.rack import Rack, Stick
from anglelib.stock.replan import BUDGET, Replanned, replan

__all__ = ["Further", "Possible", "shorter_stick", "spoiled_part", "still_possible", "wider_kerf"]

# --- planning again -------------------------------------------------------------------------------
def spoiled_part(
    job: Job, rack: Rack, plan: Plan, part_id: str, done: Progress, rest: object = 0, *, budget: float = BUDGET
) -> Replanned:
    """The plan once a piece of a part is sawn and spoiled, ``done`` being the cuts done, its own too.

    ``rest`` is how much of the spoiled piece is sound and goes back on the rack [in]. Raises
    :class:`~anglelib.errors.PlanError` where no piece of the part is sawn.
    """
    part = job.part(part_id)
    done = done.spoil(part_id)
    sound = _length(rest, f"sound rest of {part_id}", zero=True)
    check_progress(plan, done)
    blank = job.shop.takes(part.length)
    if sound > blank:
        raise PlanError(f"The sound rest of {part_id} is {exact(sound)}, and its blank is only {exact(blank)}: measure it again.")
    source = next(
        plan.stick(stick_id).stick for stick_id, n in done.done if part_id in {b.part.id for b in blanks_sawn(plan, Progress({stick_id: n}))}
    )

    def with_rest(now: Rack) -> Rack:
        if not sound:
            return now
        names = {stick.id.lower() for stick in (*rack.sticks, *now.sticks)} | {r.stick.id.lower() for s in plan.sticks for r in s.remnants}
        piece = Stick(remnant_name(source.id, names), source.section, source.alloy, sound, remnant=True, note=f"left of a spoiled {part_id}"[:400], lot=source.lot)
        return Rack((*now.sticks, piece))

    return replan(job, rack, plan, done, rack_now=with_rest, changed=_wanting(part), budget=budget)


def shorter_stick(
    job: Job, rack: Rack, plan: Plan, stick_id: str, length: object, done: Progress = Progress(), *, budget: float = BUDGET
) -> Replanned:
    """The plan once a stick turns out to be ``length`` long [in], measured as it now lies on the rack.

    Its dents are where they were, from end 1; its trims as they were.
    """
    now = rack_after_cuts(plan, rack, done)
    stick = now.stick(stick_id)
    measured = _length(length, f"length of {stick_id}")
    if measured > stick.length:
        raise PlanError(f"{stick_id} is listed as {exact(stick.length)} and measures {exact(measured)}: it is not shorter. Correct the rack.")
    if measured <= stick.trim_1 + stick.trim_2:
        raise PlanError(f"{stick_id} measures {exact(measured)}, and its trims take that: take it off the rack.")
    dents = tuple((a, min(b, measured)) for a, b in stick.dents if a < measured)
    short = replace(stick, length=measured, dents=dents)

    def shortened(rack_now: Rack) -> Rack:
        return Rack(tuple(short if s.id == stick_id else s for s in rack_now.sticks))

    def changed(group: Problem) -> bool:
        return group.alloy == stick.alloy and alike(group.section, stick.section)

    return replan(job, rack, plan, done, rack_now=shortened, changed=changed, budget=budget)


def wider_kerf(job: Job, rack: Rack, plan: Plan, kerf: object, done: Progress = Progress(), *, budget: float = BUDGET) -> Replanned:
    """The plan once the blade turns out to take ``kerf`` [in], for what is not sawn yet."""
    try:
        shop = replace(job.shop, kerf=inches(kerf, "kerf"))  # type: ignore[arg-type]
    except (LengthError, JobError) as error:
        raise PlanError(str(error)) from None
    return replan(job, rack, plan, done, job_now=lambda left: replace(left, shop=shop), budget=budget)


def _wanting(part: Part):
    return lambda group: group.alloy == part.alloy and alike(group.section, part.section)


def _length(value: object, what: str, zero: bool = False) -> Fraction:
    try:
        return inches(value, what, zero=zero)  # type: ignore[arg-type]
    except LengthError as error:
        raise PlanError(str(error)) from None
