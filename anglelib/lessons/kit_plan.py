"""The demo kit's first section for lesson 11: cut by rules of thumb, and by the planner, each once in a session.

>>> made_by("first-that-fits")[1]
('A6L', 'A6R', 'A5R')
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from functools import cache

from anglelib.drawing.rack_rows import Row
from anglelib.drawing.stock_sheets import planned_rows
from anglelib.errors import PlanError
from anglelib.job import Job
from anglelib.lessons.demo import demo_job, demo_part, demo_rack
from anglelib.section import Section
from anglelib.stock.apart import apart
from anglelib.stock.by_hand import lefts
from anglelib.stock.cutting import lay_out
from anglelib.stock.one import OneNow, one_now
from anglelib.stock.plan import GroupPlan, Plan
from anglelib.stock.problem import Problem, problems
from anglelib.stock.rules import FIRST_THAT_FITS, Rule, longest_first, small_first
from anglelib.stock.runner_up import RunnerUp, runner_ups

RULES = {
    "first-that-fits": FIRST_THAT_FITS._replace(name="first that fits"),
    "longest-first": Rule("longest part first", longest_first),
    "small-first": Rule("small parts first", small_first),
}
"""Rules of thumb by id; what each is called stands in it."""
NO_SOLVER = "The solver is not in this Python, so the plan is not shown: start the course with the command line in README.md."


@cache
def listed() -> Job:
    """The demo kit's parts of its first section, in the order of their drawing."""
    job = demo_job()
    return replace(job, parts=tuple(part for part in job.parts if part.section == job.parts[0].section))


@cache
def asked() -> Problem:
    """The same with the sticks that may serve it."""
    return problems(listed(), demo_rack())[0]


@cache
def made_by(rule: str) -> tuple[tuple[Row, ...], tuple[str, ...], Fraction]:
    """What a rule of thumb makes of the list: its rows, the ids of the parts that it does not make, the longest piece left [in]."""
    problem, job = asked(), listed()
    row = {part.id: n for n, part in enumerate(job.parts)}
    order = sorted(range(len(problem.blanks)), key=lambda n: row[problem.blanks[n].part.id])
    packing = RULES[rule].pack(problem.instance, [problem.instance.claims[n] for n in order])
    missing = tuple(b.part.id for b, done in zip(problem.blanks, problem.instance.made(packing)) if not done)
    shown = planned_rows(lay_out(problem, packing, job.shop, ()), job.shop.usable_minimum)
    return shown, missing, lefts(problem, packing)[0]


@cache
def whole_plan() -> Plan | None:
    """The proven plan of the list; None where there is no solver."""
    try:
        from anglelib.stock.planner import plan

        return plan(listed(), demo_rack())
    except (ImportError, PlanError):
        return None


def planned() -> GroupPlan | None:
    """The same, of its one section."""
    made = whole_plan()
    return made.groups[0] if made is not None else None


@cache
def runner_up() -> RunnerUp | None:
    """The runner-up of that section; None where there is no solver."""
    made = whole_plan()
    return runner_ups(listed(), demo_rack(), made)[0] if made is not None else None


def longest_left(group: GroupPlan) -> Fraction:
    """The longest piece that a plan leaves [in]."""
    return max((length for stick in group.sticks for length in stick.left), default=Fraction(0))


@cache
def now_besides(part_id: str) -> OneNow | None:
    """One piece of a listed part now, the rest of the list later; None where there is no solver."""
    part = demo_part(part_id)
    try:
        return apart(one_now)(part.section, part.alloy, part.length, demo_rack(), listed(), part_id=part_id)
    except (ImportError, PlanError):
        return None


@cache
def now_for(section: Section, alloy: str, length: Fraction, with_list: bool) -> OneNow | None:
    """One part now, with nothing else to make or with the kit's whole list; None where the list needs the solver and there is none.

    With the list, a part of the same section, alloy and length counts as one piece of it.
    """
    job = demo_job()
    if not with_list:
        return one_now(section, alloy, length, demo_rack(), shop=job.shop)
    same = (part.id for part in job.parts if (part.section, part.alloy, part.length) == (section, alloy, length))
    try:
        return apart(one_now)(section, alloy, length, demo_rack(), job, part_id=next(same, ""))
    except (ImportError, PlanError):
        return None
