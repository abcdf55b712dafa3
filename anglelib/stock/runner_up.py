"""The runner-up: of all plans that make the same parts and gain something on the plan by the rule, the best one by the same rule.

To gain something is to leave a stick whole that the plan by the rule cuts into, or to leave a longer piece somewhere: the second longest longer than its second
longest, and so on, in whole grains. So equal pieces that change places are none, nor is a plan that is merely a little worse. The search leaves
out one kind of stick after another, and then asks for each piece to be longer, and settles the levels again each time; what cannot be
better than the best met so far is not looked at further, by proven limits.

>>> from anglelib.part import Part
>>> from anglelib.section import Section
>>> from anglelib.stock.planner import plan
>>> from anglelib.stock.rack import Stick
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> rack = Rack([Stick("S-1", stock, "6061-T6", 96), Stick("S-2", stock, "6061-T6", 60, remnant=True), Stick("S-3", stock, "6061-T6", 42, remnant=True)])
>>> job = Job("Demo", Shop(), [Part("A1", "Bar", stock, "6061-T6", 40), Part("A2", "Bar", stock, "6061-T6", 20)])
>>> made = plan(job, rack)
>>> (found,) = runner_ups(job, rack, made)
>>> made.groups[0].left, found.group.left, found.group.picked.proven
((96, 39, 0), (96, 21, 19), True)
>>> print(found.group.picked.sentence)
it keeps 21 more of S-3 (21 instead of 0), but 20 less of S-2 (19 instead of 39)
"""

from __future__ import annotations

import threading
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from anglelib.errors import PlanError
from anglelib.job import Job, Shop
from anglelib.lengths import writing
from anglelib.stock.apart import apart
from anglelib.stock.arrange import arrange
from anglelib.stock.cutting import lay_out, saw_order
from anglelib.stock.decide import Decider
from anglelib.stock.economies import economise
from anglelib.stock.effort import Effort, Stopped
from anglelib.stock.instance import Instance, Packing, Score
from anglelib.stock.levels import keep, settle_claims, settle_lengths
from anglelib.stock.outcome import Outcome
from anglelib.stock.plan import GroupPlan, Plan, StickPlan, Trade
from anglelib.stock.problem import Problem, problems
from anglelib.stock.proofs import arranged, remaining, sawn, shortages, used
from anglelib.stock.rack import Rack
from anglelib.stock.rules import RULES
from anglelib.stock.search import NO, YES

LEAST, MOST = 0.5, 2.0
"""Deterministic work for a whole job: as much as its plan took, between these."""
ARRANGED = 0.5
"""How much of it is for levels 5 and 6 of a section."""


@dataclass(frozen=True)
class RunnerUp:
    """The runner-up of one section: the ``number`` of the section in its plan, from 1 on; its plan, which has what it trades.

    ``group`` is None where there is none, or where none was found; ``proven`` then says that there is none.
    """

    number: int
    title: str
    group: GroupPlan | None
    proven: bool

    @property
    def sentence(self) -> str:
        """What it trades, and what is proven."""
        from anglelib.stock.runner_up_words import NONE, NOT_FOUND, offered

        if self.group is None or self.group.picked is None:
            return NONE if self.proven else NOT_FOUND
        return offered(self.group.picked)


@apart
def runner_ups(
    job: Job, rack: Rack, plan: Plan, *, budget: float | None = None, seconds: float | None = None, stop: threading.Event | None = None,
    only: Sequence[int] | None = None,
) -> tuple[RunnerUp, ...]:  # fmt: skip
    """The runner-up of each section of a plan, as it is planned and nothing is sawn of it; of the sections ``only`` of these numbers.

    A section whose runner-up is picked already has none here. ``seconds`` and ``stop`` are those of :func:`~anglelib.stock.planner.plan`. What is said
    is in the job's unit.
    """
    work = budget if budget is not None else max(LEAST, min(MOST, plan.work))
    total = Effort(work, seconds, stop)
    known = {s.stick.id for group in plan.groups for s in group.sticks}
    taken = {stick.id for stick in rack.sticks}
    rack = Rack(tuple(stick for stick in rack.sticks if stick.id in known))  # what came onto the rack since is not weighed
    asked = {(p.section, p.alloy): p for p in problems(job, rack)}
    numbers = [n for n, group in enumerate(plan.groups, 1) if group.picked is None and (only is None or n in only)]
    found = []
    with writing(job.unit):
        for number in numbers:
            group = plan.groups[number - 1]
            # each has its own share, so that what is picked is what was shown
            effort = total.part(work / len(plan.groups))
            found.append(_of(asked[group.section, group.alloy], number, group, plan, rack, job.shop, taken, effort))
    return tuple(found)


def with_picks(plan: Plan, found: Sequence[RunnerUp]) -> Plan:
    """The plan with runner-ups in the place of the sections that they are of."""
    by = {one.number: one.group for one in found if one.group is not None}
    return replace(plan, groups=tuple(by.get(n) or group for n, group in enumerate(plan.groups, 1)))


def _of(problem: Problem, number: int, group: GroupPlan, plan: Plan, rack: Rack, shop: Shop, taken: set[str], effort: Effort) -> RunnerUp:
    search = Search(problem.instance, packing_of(problem, group), effort)
    try:
        search.go()
    except (Stopped, ImportError):
        search.sure = False
    if search.best is None:
        return RunnerUp(number, group.title, None, search.sure)
    names = {stick.id for stick in rack.sticks} | taken
    names |= {r.stick.id for other in plan.groups if other is not group for s in other.sticks for r in s.remnants}
    return RunnerUp(number, group.title, _planned(problem, search, group, rack, shop, names, effort), search.sure)


def packing_of(problem: Problem, group: GroupPlan) -> Packing:
    """How many blanks of each size a plan takes from each place. Raises PlanError for a plan of another rack."""
    sizes = {(blank.part.id, blank.pin): size for blank, size in zip(problem.blanks, problem.instance.claims)}  # a stick named for a piece makes it another size
    found = [[0] * len(problem.instance.sizes) for _ in problem.places]
    for planned in group.sticks:
        for placed in (*planned.placed, *planned.held):
            place = next((n for n, (s, i) in enumerate(problem.places) if s.id == planned.stick.id and i.start <= placed.start < i.end), None)
            if place is None or (placed.blank.part.id, placed.blank.pin) not in sizes:
                raise PlanError("The plan is of another job or rack: plan again.")
            found[place][sizes[placed.blank.part.id, placed.blank.pin]] += 1
    return tuple(map(tuple, found))


class Search:
    """The search of one section; ``best`` is the runner-up as far as it is known, ``sure`` whether nothing better is left open."""

    def __init__(self, instance: Instance, base: Packing, effort: Effort):
        made = instance.made(base)
        self.instance = instance.among([n for n, done in enumerate(made) if done])
        self.base, self.effort = base, effort
        self.score = self.instance.score(base)
        self.best: Packing | None = None
        self.outcome: Outcome | None = None
        self.sure = True

    def go(self) -> None:
        """Every way to gain something."""
        if not any(map(any, self.base)):
            return
        for spaces in self._cut_into():
            self._without(spaces)
        left = self.score.left
        for place in range(1, len(left)):
            if left[place] < left[place - 1]:
                more = max(left[place] + 1, -(-self.instance.minimum // self.instance.grain))
                self._with_floor((more,) * (place + 1))

    def _cut_into(self) -> Iterator[tuple[int, ...]]:
        """The spaces of one stick of each kind that is cut into."""
        sticks: dict[int, list[int]] = {}
        for n, space in enumerate(self.instance.spaces):
            sticks.setdefault(space.stick, []).append(n)
        known = set()
        for members in sticks.values():
            kind = tuple(self.instance.kind(self.instance.spaces[n]) for n in members)
            if any(any(self.base[n]) for n in members) and kind not in known:
                known.add(kind)
                yield tuple(members)

    def _without(self, spaces: tuple[int, ...]) -> None:
        """The best plan that leaves a stick whole: one more of its kind than the plan by the rule does."""
        instance = self.instance
        kind = [instance.kind(instance.spaces[n]) for n in spaces]
        idle = []
        if len(spaces) == 1:  # of equal sticks so many more stay whole
            idle = [n for n in instance.kinds[kind[0]] if not any(self.base[n])]
        gone = {*spaces, *idle}
        rest = [n for n in range(len(instance.spaces)) if n not in gone]
        whole = [instance.graded(instance.spaces[n].length) for n in gone]
        below = replace(instance, spaces=tuple(instance.spaces[n] for n in rest), apart=instance.apart)

        def back(packing: Packing) -> Packing:
            found = [(0,) * len(instance.sizes)] * len(instance.spaces)
            for n, pattern in zip(rest, packing):
                found[n] = pattern
            return tuple(found)

        self._settle(below, whole, (), back)

    def _with_floor(self, floor: tuple[int, ...]) -> None:
        """The best plan that leaves so long pieces."""
        self._settle(self.instance, [], floor, lambda packing: packing)

    def _settle(self, instance: Instance, whole: list[int], floor: tuple[int, ...], back: Callable[[Packing], Packing]) -> None:
        """The best of such plans, if it is better than the best so far."""
        self.effort.check()
        decider = Decider(instance, instance.demand, self.effort)
        target = tuple(instance.threshold(grains) for grains in floor)
        starts = [rule.pack(instance) for rule in RULES] if instance.spaces else []
        starts = [p for p in starts if instance.output(p) == instance.demand and _leaves(instance.left(p), floor)]
        if not starts:
            if not instance.spaces:
                return
            answer = decider.decide(target, patience=2.0)
            if answer.verdict == NO:
                return
            if answer.verdict != YES or answer.packing is None:
                self.sure = False
                return
            starts = [answer.packing]
        packing = max(starts, key=lambda p: (instance.score(p), p))
        outcome = Outcome(packing, instance.demand, settled={1})
        outcome.decider = decider
        for start in starts:
            decider.relaxation.learn(start)

        def beaten(limits: Sequence[int]) -> bool:
            if self.best is None:
                return False
            tail = [limits[-1]] * (len(instance.spaces) - len(limits))
            return tuple(sorted([*limits, *tail, *whole], reverse=True)) < self._best_score().left

        try:
            keep(instance, outcome, decider, self.effort, floor, beaten)
            if beaten([limit for _, limit in outcome.left]):
                return
            settle_claims(instance, outcome)
            economise(instance, outcome, decider, self.effort)
        finally:
            self._take(back(outcome.packing), outcome)
        if not outcome.settled >= {1, 2, 3}:
            self.sure = False

    def _best_score(self) -> Score:
        assert self.best is not None
        return self.instance.score(self.best)

    def _take(self, packing: Packing, outcome: Outcome) -> None:
        packing = alike(self.instance, packing, self.base)
        if self.best is None or (self.instance.score(packing), packing) > (self._best_score(), self.best):
            self.best, self.outcome = packing, outcome


def _leaves(left: Sequence[int], floor: Sequence[int]) -> bool:
    return all(have >= least for have, least in zip(left, floor)) and len(left) >= len(floor)


def alike(instance: Instance, packing: Packing, base: Packing) -> Packing:
    """The packing with equal spaces exchanged so that it is as like another as can be.

    >>> from anglelib.stock.instance import Size, Space
    >>> rack = Instance((Size(9),), (Space(20, 0), Space(20, 1)), (0,), kerf=1, grain=1, minimum=0)
    >>> alike(rack, ((1,), (0,)), ((0,), (1,)))
    ((0,), (1,))
    """
    found = list(packing)
    for members in instance.kinds.values():
        loose = sorted((packing[n] for n in members), key=lambda p: (-instance.load(p), p))
        places = sorted(members, key=lambda n: (-instance.load(base[n]), n))
        for n in list(places):
            if base[n] in loose:
                found[n] = base[n]
                loose.remove(base[n])
                places.remove(n)
        for n, pattern in zip(places, loose):
            found[n] = pattern
    return tuple(found)


# --- as a plan --------------------------------------------------------------------------------------------------
def _planned(problem: Problem, search: Search, group: GroupPlan, rack: Rack, shop: Shop, names: set[str], effort: Effort) -> GroupPlan:
    assert search.best is not None and search.outcome is not None
    arrangement = arrange(problem, search.best, shop, Effort(ARRANGED, None, effort.stop), same_sticks=True)
    sticks = tuple(sorted(lay_out(problem, arrangement.packing, shop, names, lots=arrangement.lots), key=saw_order))
    outcome = Outcome(arrangement.packing, problem.instance.output(arrangement.packing), settled=set())
    settle_claims(problem.instance, outcome)
    settle_lengths(problem.instance, outcome)
    score = problem.instance.score(arrangement.packing)
    proofs = (*remaining(problem, outcome, shop), used(score, sticks, False), sawn(problem, score, sticks, False), *arranged(sticks, False, False))
    return GroupPlan(
        group.section,
        group.alloy,
        sticks,
        shortages(problem, outcome, rack, shop) if group.shortages else (),
        problem.instance.left(arrangement.packing),
        (group.proofs[0], *(replace(proof, picked=True, proven=False) for proof in proofs[1:])),
        traded(group, sticks, shop, search.sure),
    )


def traded(rule: GroupPlan, sticks: Sequence[StickPlan], shop: Shop, proven: bool) -> Trade:
    """What a plan of a section gives and takes against the one by the rule."""
    was = {s.stick.id: s for s in rule.sticks}
    now = {s.stick.id: s for s in sticks}

    def used_(planned: StickPlan) -> bool:
        return planned.touched or bool(planned.held)

    def graded(planned: StickPlan) -> Fraction:
        longest = max(planned.left, default=Fraction(0))
        return Fraction(longest // shop.grain * shop.grain) if longest >= shop.usable_minimum else Fraction(0)

    def named(names: list[str], cut: dict[str, StickPlan]) -> tuple[tuple[str, Fraction, Fraction, bool], ...]:
        return tuple((name, now[name].stick.length, graded(cut[name]), not now[name].stick.remnant) for name in names)

    both = [name for name in sorted(now) if used_(was[name]) and used_(now[name])]
    kept = [(name, graded(was[name]), graded(now[name])) for name in both]
    return Trade(
        named([name for name in sorted(now) if used_(now[name]) and not used_(was[name])], now),
        named([name for name in sorted(now) if used_(was[name]) and not used_(now[name])], was),
        tuple(one for one in kept if one[2] > one[1]),
        tuple(one for one in kept if one[2] < one[1]),
        sum(len(s.cuts) for s in sticks) - sum(len(s.cuts) for s in rule.sticks),
        proven,
    )



