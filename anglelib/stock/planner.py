"""The planner: which stick each blank of a job comes from, by the four levels, with what is proven.

1. As many parts as can be made, those with the first claim first (priority, then the longest blank);
   of equal claims as many as can be.
2. The longest remnants: what remains, longest first, in whole grains; no long stick for a short part.
3. Fewest full sticks opened, then fewest sticks touched.
4. Fewest cuts, then least scrap.
5. Left and right pairs whole from one stick, equal parts from as few as can be.
6. Fewest set-ups of the saw.

The last two (:mod:`anglelib.stock.arrange`) change nothing of what the first four come to.

>>> from anglelib.job import Shop
>>> from anglelib.section import Section
>>> from anglelib.part import Part
>>> from anglelib.stock.rack import Stick
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> rack = Rack([Stick("S-1", stock, "6061-T6", 96), Stick("S-2", stock, "6061-T6", 30)])
>>> made = plan(Job("Demo", Shop(), [Part("A1", "Bar", stock, "6061-T6", 28)]), rack)
>>> [(s.stick.id, [str(p.blank) for p in s.placed]) for s in made.sticks]
[('S-2', ['A1'])]
>>> print(made.groups[0].sentence)
The piece can be made. What remains, longest first: 96; proven the longest there can be. 1 stick is cut into, 1 of them new: proven the fewest. 1 saw cut: proven the fewest. The blade and ends too short to keep take 1 15/16: proven the least. 1 set-up of the saw: proven the fewest.
"""

from __future__ import annotations

import threading
from collections.abc import Callable

from anglelib.geometry.hole_refusals import refuse_broken
from anglelib.job import Job, Shop
from anglelib.lengths import writing
from anglelib.stock.apart import apart
from anglelib.stock.arrange import arrange
from anglelib.stock.cutting import lay_out, saw_order
from anglelib.stock.effort import Effort
from anglelib.stock.instance import Instance
from anglelib.stock.outcome import Outcome
from anglelib.stock.plan import GroupPlan, Plan
from anglelib.stock.problem import Problem, problems, smooth
from anglelib.stock.proofs import arranged, proofs, shortages
from anglelib.stock.rack import Rack
from anglelib.stock.rules import RULES
from anglelib.stock.settle import settle

EASY = 2_500
"""How many sizes times kinds of stick are planned at full length."""
BUDGET = 20.0
"""Deterministic work for a whole job, about seconds of one core; most jobs need far less."""

ARRANGED = 1.0
"""Deterministic work for levels 5 and 6 of a section, at the most."""


@apart
def plan(
    job: Job,
    rack: Rack,
    *,
    budget: float = BUDGET,
    seconds: float | None = None,
    progress: Callable[[float, str], None] | None = None,
    stop: threading.Event | None = None,
) -> Plan:
    """The plan for a job on a rack.

    ``budget`` limits the work in a way that is the same on every machine; ``seconds`` is a clock, and
    ``stop`` an event that a button may set: they end the search early, with the best plan so far, and
    the plan says so. ``progress`` is called with the share done (0 to 1) and a sentence, from the
    thread that plans. What the plan says in words is in the job's unit. A part with a hole that is not whole in its
    metal is refused (:class:`~anglelib.errors.PartError`).
    """
    with writing(job.unit):
        refuse_broken(job.parts)
        return _plan(job, rack, budget, seconds, progress, stop)


def _plan(
    job: Job, rack: Rack, budget: float, seconds: float | None, progress: Callable[[float, str], None] | None, stop: threading.Event | None
) -> Plan:
    asked = problems(job, rack)
    total = Effort(budget, seconds, stop)
    groups, names, interrupted = [], {stick.id for stick in rack.sticks}, False
    for n, problem in enumerate(asked):
        tell = _teller(progress, n, len(asked), problem)
        # what a section does not use goes to those after it
        effort = total.part(total.left / (len(asked) - n) * pace(problem.instance), tell)
        tell("planning")
        group, stopped = settled_section(problem, effort, rack, job.shop, names, total.part(ARRANGED))
        total.spent += effort.spent
        interrupted |= stopped
        names |= {remnant.stick.id for stick in group.sticks for remnant in stick.remnants}
        groups.append(group)
    if progress is not None:
        progress(1.0, "The plan is made.")
    return Plan(job.name, job.shop, tuple(groups), interrupted, total.spent)


def settled_section(problem: Problem, effort: Effort, rack: Rack, shop: Shop, names: set[str], arranging: Effort) -> tuple[GroupPlan, bool]:
    """The plan of one section, and whether its search was stopped.

    Room for rough cuts by hacksaw is kept where any is needed: it is first planned as if none were.
    """
    free = smooth(problem, shop)
    if free is not None:
        half = effort.part(effort.left / 2)
        outcome = settle_problem(free, half)
        effort.spent += half.spent
        group = _group(free, outcome, rack, shop, names, arranging)
        if not any(cut.rough and cut.blank is not None for stick in group.sticks for cut in stick.cuts):
            return group, outcome.interrupted
    outcome = settle_problem(problem, effort)
    return _group(problem, outcome, rack, shop, names, arranging), outcome.interrupted


def pace(instance: Instance) -> float:
    """The share of its work that a section of so many sizes and kinds of stick gets: each step of a large one takes longer than is counted.

    So 500 parts on 200 sticks have their answer, with its bounds, in about the time that a small job may take.
    """
    return min(1.0, EASY / max(1, len(instance.sizes) * len(instance.kinds)))


def settle_problem(problem: Problem, effort: Effort) -> Outcome:
    """The best packing of one section, from the best rule of thumb on."""
    return settle(problem.instance, [rule.pack(problem.instance) for rule in RULES], effort)


def _teller(progress, n: int, number: int, problem: Problem) -> Callable[[str], None]:
    def tell(sentence: str) -> None:
        if progress is not None:
            progress(n / number, f"{problem.section.size}, {problem.alloy}: {sentence}")

    return tell


def _group(problem: Problem, outcome: Outcome, rack: Rack, shop: Shop, names: set[str], effort: Effort) -> GroupPlan:
    arranged_ = arrange(problem, outcome.packing, shop, effort)
    outcome.packing = arranged_.packing
    sticks = lay_out(problem, outcome.packing, shop, names, lots=arranged_.lots)
    proven = proofs(problem, outcome, shop, sticks)
    sound = all(proof.proven for proof in proven)  # of plans that are better before, nothing is known
    return GroupPlan(
        problem.section,
        problem.alloy,
        tuple(sorted(sticks, key=saw_order)),
        shortages(problem, outcome, rack, shop),
        problem.instance.left(outcome.packing),
        (
            *proven,
            *arranged(sticks, sound and arranged_.together_proven, sound and arranged_.set_ups_proven),
        ),
    )
