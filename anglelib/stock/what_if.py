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

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from anglelib.errors import JobError, LengthError, PlanError
from anglelib.job import Job
from anglelib.lengths import exact, inches
from anglelib.part import Part
from anglelib.stock.blank import Blank
from anglelib.stock.cutting import remnant_name
from anglelib.stock.decide import Decider
from anglelib.stock.effort import Effort, Stopped
from anglelib.stock.fit import alike
from anglelib.stock.plan import Plan
from anglelib.stock.problem import Problem, problem, upright, usable
from anglelib.stock.progress import Progress, blanks_sawn, check_progress, rack_after_cuts
from anglelib.stock.rack import Rack, Stick
from anglelib.stock.replan import BUDGET, Replanned, replan
from anglelib.stock.room import rooms
from anglelib.stock.rules import RULES
from anglelib.stock.search import UNKNOWN, YES

QUICK = 5.0
"""Deterministic work for what could still be made."""


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
    blank = part.length + 2 * job.shop.allowance
    if sound > blank:
        raise PlanError(f"The sound rest of {part_id} is {exact(sound)}, and its blank is only {exact(blank)}: measure it again.")
    source = next(
        plan.stick(stick_id).stick for stick_id, n in done.done if part_id in {b.part.id for b in blanks_sawn(plan, Progress({stick_id: n}))}
    )

    def with_rest(now: Rack) -> Rack:
        if not sound:
            return now
        names = {stick.id.lower() for stick in (*rack.sticks, *now.sticks)} | {r.stick.id.lower() for s in plan.sticks for r in s.remnants}
        piece = Stick(remnant_name(source.id, names), source.section, source.alloy, sound, remnant=True, note=f"left of a spoiled {part_id}"[:400])
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


# --- what could still be made -----------------------------------------------------------------------
@dataclass(frozen=True)
class Further:
    """Whether more of a part could be made.

    ``after`` is how many more pieces, of this part alone, what the plan leaves still gives;
    ``replanned``: whether one more can be made if the job is planned again before cutting, every part
    that the plan makes being made; ``proven``: whether the answer "no" is certain.
    """

    part: Part
    after: int
    replanned: bool
    proven: bool


@dataclass(frozen=True)
class Possible:
    """What could still be made beside a plan, part by part, the longest first."""

    further: tuple[Further, ...]

    @property
    def sentence(self) -> str:
        """In words."""
        after = [f.part.id for f in self.further if f.after]
        again = [f.part.id for f in self.further if not f.after and f.replanned]
        never = [f.part.id for f in self.further if not f.replanned and f.proven]
        open_ = [f.part.id for f in self.further if not f.replanned and not f.proven]
        said = []
        if after:
            said.append(f"From what is left one more could be made of {_and(after)}.")
        if again:
            said.append(f"Only if planned again before cutting, of {_and(again)}.")
        if never:
            said.append(f"No plan makes one more of {_and(never)}; proven.")
        if open_:
            said.append(f"Of {_and(open_)} no plan with one more was found; that there is none is not proven.")
        return " ".join(said)


def still_possible(job: Job, rack: Rack, plan: Plan, further: Sequence[Part] | None = None, *, budget: float = QUICK) -> Possible:
    """Which further pieces could still be made after a plan, and which if it is made anew before cutting.

    ``further`` are the parts asked for, one piece of each by itself; without it, one more of every
    part of the job. What is held is not touched.
    """
    asked = tuple(job.parts if further is None else further)
    effort = Effort(budget)
    found = [_further(part, job, rack, plan, effort) for part in asked]
    return Possible(tuple(sorted(found, key=lambda f: (-f.part.length, f.part.id))))


def _further(part: Part, job: Job, rack: Rack, plan: Plan, effort: Effort) -> Further:
    blank = part.length + 2 * job.shop.allowance
    able = rooms(part.section, part.alloy, rack, plan, job.shop.kerf)
    after = sum(room.holds(blank, job.shop.kerf) for room in able if part.only_stick in ("", room.stick.id))
    if after:
        return Further(part, after, True, True)
    verdict = one_more(part, job, rack, plan, effort)
    return Further(part, 0, verdict == YES, verdict != UNKNOWN)


def one_more(part: Part, job: Job, rack: Rack, plan: Plan, effort: Effort) -> str:
    """Whether everything that a plan makes, and one more of a part, can be made."""
    made = [p.blank for s in plan.sticks for p in (*s.placed, *s.held)]
    mine = [b for b in made if b.part.alloy == part.alloy and alike(b.part.section, part.section)]
    extra = Blank(part, part.quantity + 1, part.length + 2 * job.shop.allowance)
    return can_be_made([*mine, extra], part.section, part.alloy, rack, job, effort)


def can_be_made(wanted: Sequence[Blank], section, alloy: str, rack: Rack, job: Job, effort: Effort) -> str:
    """Whether some blanks of one section and alloy can all be made: yes, no, or unknown."""
    order = sorted(wanted, key=lambda b: (-b.length, b.part.id, b.number))
    asked = problem(upright(section), alloy, order, usable(rack, section, alloy), job.shop)
    instance = asked.instance
    if any(instance.output(rule.pack(instance)) == instance.demand for rule in RULES):
        return YES
    try:
        return Decider(instance, instance.demand, effort).decide(()).verdict
    except Stopped:
        return UNKNOWN


def _and(names: Sequence[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"

