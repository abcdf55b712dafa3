"""Planning again from where the builder stands, with the least change from the old plan.

The new plan is as good as any at levels 1 and 2 (parts made, longest remnants); of those it is one
that changes least: the most blanks come from the stick that the old plan took them from
(:mod:`anglelib.stock.least_change`). A section in which nothing has changed keeps its old plan.
"""

from __future__ import annotations

import threading
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction

from anglelib.errors import PlanError
from anglelib.job import Job, Shop
from anglelib.lengths import writing
from anglelib.section import Section
from anglelib.stock.cutting import lay_out
from anglelib.stock.effort import Effort
from anglelib.stock.instance import Packing, Size
from anglelib.stock.least_change import LeastChange, carry_over, change_least, kept
from anglelib.stock.levels import settle_claims, settle_lengths
from anglelib.stock.outcome import Outcome
from anglelib.stock.plan import GroupPlan, Plan
from anglelib.stock.problem import Problem, problems
from anglelib.stock.progress import Lying, Progress, job_left, planned_from, rack_after_cuts
from anglelib.stock.proofs import arranged, remaining, sawn, shortages, used
from anglelib.stock.rack import Rack
from anglelib.stock.rules import RULES
from anglelib.stock.settle import settle

BUDGET = 20.0
"""Deterministic work for a whole job, about seconds of one core."""
SHARE = 0.6
"""How much of it goes into levels 1 and 2; the rest into the least change."""


@dataclass(frozen=True)
class Move:
    """One blank that comes from another stick than the old plan said, by the ids on the rack as it now stands.

    ``was`` is "" for a blank that the old plan did not make; ``now`` is "" for one that can no longer be made.
    """

    part_id: str
    was: str
    now: str


@dataclass(frozen=True)
class Stays:
    """That the same parts can be made of one section with no blank moved, and what is then left in one piece, instead of ``now`` [in]."""

    section: Section
    then: Fraction
    now: Fraction


@dataclass(frozen=True)
class Replanned:
    """A plan for what is still to make, from the rack as it now stands, and how it differs from the old one.

    ``job`` and ``rack`` are what ``plan`` plans. ``kept`` counts the blanks that stay on their stick (of
    parts of one length, whichever); ``proven``: no plan as good keeps more. ``moves`` are the changes
    part by part; ``stays`` says of which sections nothing need move.
    """

    job: Job
    rack: Rack
    plan: Plan
    moves: tuple[Move, ...]
    kept: int
    proven: bool
    stays: tuple[Stays, ...] = ()

    @property
    def sentence(self) -> str:
        """The changes in words."""
        from anglelib.stock.replan_words import sentence

        return sentence(self)

    @property
    def lost(self) -> tuple[str, ...]:
        """The parts of which the old plan made more."""
        return tuple(dict.fromkeys(move.part_id for move in self.moves if not move.now))


def replan(
    job: Job,
    rack: Rack,
    plan: Plan,
    done: Progress = Progress(),
    *,
    job_now: Callable[[Job], Job] | None = None,
    rack_now: Callable[[Rack], Rack] | None = None,
    changed: Callable[[Problem], bool] | None = None,
    budget: float = BUDGET,
    seconds: float | None = None,
    stop: threading.Event | None = None,
) -> Replanned:
    """Plan what is left to do, with the least change.

    ``job_now`` and ``rack_now`` change what is still to make and what there is; ``changed`` says of
    which sections (of all, without it). ``seconds`` and ``stop`` are those of :func:`~anglelib.stock.planner.plan`. What is
    said is in the job's unit.
    """
    with writing(job.unit):
        return _replan(job, rack, plan, done, job_now, rack_now, changed, Effort(budget, seconds, stop))


def _replan(
    job: Job,
    rack: Rack,
    plan: Plan,
    done: Progress,
    job_now: Callable[[Job], Job] | None,
    rack_now: Callable[[Rack], Rack] | None,
    changed: Callable[[Problem], bool] | None,
    total: Effort,
) -> Replanned:
    left, now = job_left(job, plan, done), rack_after_cuts(plan, rack, done)
    if left is None:
        raise PlanError("Every part is made: nothing is left to plan.")
    left = job_now(left) if job_now else left
    now = rack_now(now) if rack_now else now
    lying = planned_from(plan, done)
    asked = problems(left, now)
    names = {stick.id for stick in now.sticks}
    groups, least, stays, interrupted = [], [], [], False
    for n, problem in enumerate(asked):
        old = _Old(problem, lying)
        effort = total.part(total.left / (len(asked) - n))
        before = _group_of(plan, problem)
        kept_pick = _as_picked(old, before, effort)
        outcome, change = kept_pick or _settle(old, before, changed is None or changed(problem), effort)
        total.spent += effort.spent
        interrupted |= outcome.interrupted
        group = _group(old, outcome, change, now, left.shop, names)
        if kept_pick is not None and before is not None:
            said = tuple(replace(proof, picked=True, proven=False) for proof in group.proofs[1:])
            group = replace(group, picked=before.picked, proofs=(group.proofs[0], *said))
        names |= {remnant.stick.id for stick in group.sticks for remnant in stick.remnants}
        groups.append(group)
        least.append(change)
        stays += _stays(old, outcome, left.shop)
    made = Plan(left.name, left.shop, tuple(groups), interrupted, total.spent)
    moves = _moves(made, lying, left)
    proven = all(change.kept == change.most for change in least)
    return Replanned(left, now, made, moves, sum(change.kept for change in least), proven, tuple(stays))


class _Old:
    """One section as it now stands, and the old plan in it."""

    def __init__(self, problem: Problem, lying: dict[str, tuple[Lying, ...]]):
        sizes: dict[str, Counter[int]] = {}
        for blank, size in zip(problem.blanks, problem.instance.claims):
            sizes.setdefault(blank.part.id, Counter())[size] += 1
        ids = {stick.id: n for n, stick in enumerate(problem.sticks)}
        here = {stick_id: blanks for stick_id, blanks in lying.items() if stick_id in ids and blanks}
        instance = replace(problem.instance, apart=frozenset(ids[stick_id] for stick_id in here))
        self.problem = replace(problem, instance=instance)
        self.before: Counter[tuple[int, int]] = Counter()
        packing = [[0] * len(instance.sizes) for _ in instance.spaces]
        self.parts: dict[str, list[str]] = {}
        for stick_id, blanks in here.items():
            for blank, start in blanks:
                if blank.part.id not in sizes:
                    continue
                size = _size(problem, sizes[blank.part.id], ids[stick_id])
                sizes[blank.part.id][size] -= 1
                self.before[ids[stick_id], size] += 1
                self.parts.setdefault(stick_id, []).append(blank.part.id)
                place = next((n for n, (s, i) in enumerate(problem.places) if s.id == stick_id and i.end > start), None)
                if place is not None:
                    packing[place][size] += 1
        self.packing: Packing = tuple(tuple(pattern) for pattern in packing)


def _size(problem: Problem, left: Counter[int], stick: int) -> int:
    """Which size of a part's blanks lies in a stick: one that the stick is named for, as long as it is wanted; else one that it may give."""
    every = problem.instance.sizes
    return min(left, key=lambda size: (not every[size].allows(stick), left[size] <= 0, every[size].pin != stick, size))


def _group_of(plan: Plan, problem: Problem) -> GroupPlan | None:
    return next((g for g in plan.groups if (g.section, g.alloy) == (problem.section, problem.alloy)), None)


def _settle(old: _Old, group: GroupPlan | None, changed: bool, effort: Effort) -> tuple[Outcome, LeastChange]:
    """The best packing of one section that changes least."""
    instance = old.problem.instance
    carried = carry_over(instance, old.packing)
    proven = group is not None and all(proof.proven for proof in group.proofs[:2])
    if not changed and proven and carried == old.packing:
        # what is left of a plan that nothing beats is beaten by nothing
        outcome = Outcome(carried, instance.output(carried), ruled_out=set(range(len(instance.sizes))), settled={1, 2})
        settle_claims(instance, outcome)
        outcome.left = [(v, v) for v in instance.left(carried)]
        stay = sum(old.before.values())
        return outcome, LeastChange(carried, stay, stay, False)
    first = effort.part(effort.left * SHARE)
    outcome = settle(instance, [carried, *(rule.pack(instance) for rule in RULES)], first, levels=2)
    effort.spent += first.spent
    second = effort.part(effort.left)
    change = change_least(instance, outcome, old.before, [carried], second)
    effort.spent += second.spent
    better = instance.score(change.packing)[:2] > instance.score(outcome.packing)[:2]
    outcome.packing = change.packing
    if better:
        settle_claims(instance, outcome)
        outcome.left = [(have, max(have, limit)) for have, (_, limit) in zip(instance.left(change.packing), outcome.left)]
        settle_lengths(instance, outcome)
    return outcome, change


def _as_picked(old: _Old, group: GroupPlan | None, effort: Effort) -> tuple[Outcome, LeastChange] | None:
    """Where the runner-up was picked: every blank stays on its stick, and the levels settle the rest; None where nothing was picked, or where fewer parts could be made so."""
    if group is None or group.picked is None:
        return None
    instance = old.problem.instance
    carried = carry_over(instance, old.packing)
    stays: Counter[tuple[int, int]] = Counter()
    rest = list(instance.demand)
    for (stick, size), number in sorted(old.before.items()):
        lies = sum(p[size] for p, space in zip(carried, instance.spaces) if space.stick == stick)
        stays[stick, size] = min(number, lies, rest[size])
        rest[size] -= stays[stick, size]
    pins = [place for place, number in sorted(stays.items()) if number]
    sizes = (*instance.sizes, *(Size(instance.sizes[size].width, stick) for stick, size in pins))
    turn = {size: [len(instance.sizes) + n for n, (_, own) in enumerate(pins) if own == size for _ in range(stays[pins[n]])] for size in range(len(instance.sizes))}
    claims = tuple(turn[size].pop(0) if turn[size] else size for size in instance.claims)
    pinned = replace(instance, sizes=sizes, claims=claims, ranks=())
    first = effort.part(effort.left * SHARE)
    found = settle(pinned, [rule.pack(pinned) for rule in RULES], first)
    effort.spent += first.spent

    def own(pattern: tuple[int, ...]) -> tuple[int, ...]:
        row = list(pattern[: len(instance.sizes)])
        for n, (_, size) in enumerate(pins):
            row[size] += pattern[len(instance.sizes) + n]
        return tuple(row)

    packing = tuple(map(own, found.packing))
    outcome = Outcome(packing, instance.output(packing), settled={1})
    if outcome.demand != instance.demand:
        second = effort.part(effort.left)
        free = settle(instance, [rule.pack(instance) for rule in RULES], second, levels=1)
        effort.spent += second.spent
        if instance.claimed(free.packing) > instance.claimed(packing):
            return None
        outcome.ruled_out, outcome.settled = free.ruled_out, free.settled & {1}
    settle_claims(instance, outcome)
    settle_lengths(instance, outcome)
    stay = kept(instance, packing, old.before)
    return outcome, LeastChange(packing, stay, stay, False)


def _stays(old: _Old, outcome: Outcome, shop: Shop) -> list[Stays]:
    """That nothing need move to make the same parts; nothing where that is not so, or where as much is left."""
    instance = old.problem.instance
    carried = carry_over(instance, old.packing)
    if instance.made(carried) != instance.made(outcome.packing) or kept(instance, carried, old.before) < sum(old.before.values()):
        return []
    for then, now in zip(instance.left(carried), instance.left(outcome.packing)):
        if then != now:
            return [Stays(old.problem.section, then * shop.grain, now * shop.grain)]
    return []


def _group(old: _Old, outcome: Outcome, change: LeastChange, rack: Rack, shop: Shop, names: set[str]) -> GroupPlan:
    problem = old.problem
    sticks = lay_out(problem, outcome.packing, shop, names, old.parts)
    score = problem.instance.score(outcome.packing)
    said = (
        *remaining(problem, outcome, shop),
        used(score, sticks, change.economies or not score.touched, True),
        sawn(problem, score, sticks, change.economies or not score.touched, least_change=True),
        *arranged(sticks, False, False, least_change=True),
    )
    return GroupPlan(
        problem.section,
        problem.alloy,
        tuple(sorted(sticks, key=lambda s: (not s.touched, not s.held, s.stick.id))),
        shortages(problem, outcome, rack, shop),
        problem.instance.left(outcome.packing),
        said,
    )


def _moves(made: Plan, lying: dict[str, tuple[Lying, ...]], left: Job) -> tuple[Move, ...]:
    """What comes from another stick than before, part by part, the longest first."""
    was: dict[str, Counter[str]] = {part.id: Counter() for part in left.parts}
    now: dict[str, Counter[str]] = {part.id: Counter() for part in left.parts}
    for stick_id, blanks in lying.items():
        for each in blanks:
            if each.blank.part.id in was:
                was[each.blank.part.id][stick_id] += 1
    for planned in made.sticks:
        for placed in (*planned.placed, *planned.held):
            now[placed.blank.part.id][planned.stick.id] += 1
    moves = []
    for part in sorted(left.parts, key=lambda part: (-part.length, part.id)):
        gone = sorted((was[part.id] - now[part.id]).elements())
        new = sorted((now[part.id] - was[part.id]).elements())
        for n in range(max(len(gone), len(new))):
            moves.append(Move(part.id, gone[n] if n < len(gone) else "", new[n] if n < len(new) else ""))
    return tuple(moves)
