"""What could still be made beside a plan: from what it leaves, or if the job is planned again before cutting.

>>> from anglelib.section import Section
>>> from anglelib.job import Shop
>>> from anglelib.stock.planner import plan
>>> from anglelib.stock.rack import Stick
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> rack = Rack([Stick("S-1", stock, "6061-T6", 60), Stick("S-2", stock, "6061-T6", 39)])
>>> job = Job("Demo", Shop(), [Part("A1", "Bar", stock, "6061-T6", 20), Part("A2", "Bar", stock, "6061-T6", 18)])
>>> bar = Part("A3", "Long bar", stock, "6061-T6", 70)
>>> print(still_possible(job, rack, plan(job, rack), [*job.parts, bar]).sentence)
From what is left one more could be made of A1 and A2. No plan makes one more of A3; proven.
"""

from __future__ import annotations

import threading
from collections.abc import Sequence
from dataclasses import dataclass

from anglelib.job import Job
from anglelib.part import Part
from anglelib.section import Section
from anglelib.stock.blank import Blank, blank_for, with_room
from anglelib.stock.decide import Decider
from anglelib.stock.effort import Effort, Stopped
from anglelib.stock.fit import alike
from anglelib.stock.pins import may_come_from
from anglelib.stock.plan import Plan
from anglelib.stock.problem import problem, upright, usable
from anglelib.stock.rack import Rack
from anglelib.stock.room import Rooms
from anglelib.stock.rules import RULES
from anglelib.stock.search import NO, UNKNOWN, YES
from anglelib.stock.settle import settle

QUICK = 5.0
"""Deterministic work for what could still be made."""
OVERHEAD = 1e-4
"""Work for each piece of a job that a question takes besides its search: its blanks are sorted and placed by the rules of thumb."""

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
        from anglelib.stock.possible_words import sentence

        return sentence(self)


def still_possible(
    job: Job,
    rack: Rack,
    plan: Plan,
    further: Sequence[Part] | None = None,
    *,
    budget: float = QUICK,
    seconds: float | None = None,
    stop: threading.Event | None = None,
) -> Possible:
    """Which further pieces could still be made after a plan, and which if it is made anew before cutting.

    ``further`` are the parts asked for, one piece of each by itself; without it, one more of every
    part of the job. What is held is not touched. ``seconds`` and ``stop`` are those of
    :func:`~anglelib.stock.planner.plan`: what is not looked at by then is not proven.
    """
    asked = tuple(job.parts if further is None else further)
    effort = Effort(budget, seconds, stop)
    left = Rooms(rack, plan, job.shop.kerf)
    found = [_further(part, job, rack, plan, left, effort) for part in asked]
    return Possible(tuple(sorted(found, key=lambda f: (-f.part.length, f.part.id))))


def _further(part: Part, job: Job, rack: Rack, plan: Plan, left: Rooms, effort: Effort) -> Further:
    if effort.ended():
        return Further(part, 0, False, False)
    blank = job.shop.takes(part.length)
    able = left.of(part.section, part.alloy)
    after = sum(room.holds(blank, job.shop.kerf) for room in able if may_come_from(part, room.stick))
    if after:
        return Further(part, after, True, True)
    verdict = one_more(part, job, rack, plan, effort)
    return Further(part, 0, verdict == YES, verdict != UNKNOWN)


def one_more(part: Part, job: Job, rack: Rack, plan: Plan, effort: Effort) -> str:
    """Whether everything that a plan makes, and one more of a part, can be made."""
    if effort.over(OVERHEAD * job.pieces):
        return UNKNOWN
    made = [with_room(p.blank, job.shop) for s in plan.sticks for p in (*s.placed, *s.held)]
    mine = [b for b in made if b.part.alloy == part.alloy and alike(b.part.section, part.section)]
    extra = blank_for(part, part.quantity + 1, job.shop)
    return can_be_made([*mine, extra], part.section, part.alloy, rack, job, effort)


def can_be_made(wanted: Sequence[Blank], section: Section, alloy: str, rack: Rack, job: Job, effort: Effort) -> str:
    """Whether some blanks of one section and alloy can all be made: yes, no, or unknown."""
    order = sorted(wanted, key=lambda b: (-b.length, b.part.id, b.number))
    asked = problem(upright(section), alloy, order, usable(rack, section, alloy), job.shop)
    instance = asked.instance
    try:
        for rule in RULES:
            effort.check()
            if instance.output(rule.pack(instance)) == instance.demand:
                return YES
        return Decider(instance, instance.demand, effort).decide(()).verdict
    except Stopped:
        return UNKNOWN
    except ImportError:  # no solver: a handful of blanks is tried in every way
        return YES if all(instance.made(settle(instance, [rule.pack(instance) for rule in RULES], effort, 1).packing)) else NO
