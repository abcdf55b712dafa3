"""Proofs that a set of blanks and remnants cannot be had from the spaces there are.

A *target* asks for remnants: so many pieces at least so long. A price for each blank size bounds
what any plan can earn: one knapsack table gives the most that every space can earn, with whatever it
must leave for the target. If all spaces together cannot earn the price of the blanks wanted, there
is no such plan. All of it is in integers: the linear programs only suggest prices and rewards, so
their tolerances prove nothing and spoil nothing.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property
from typing import NamedTuple

from anglelib.stock.instance import ANY, Instance, Kind
from anglelib.stock.knapsack import CELLS, Knapsack

Target = tuple[int, ...]
"""Remnants wanted, one length each, longest first."""

FINE = 1 << 20
COARSE = 1 << 14
"""Price of a blank as long as the longest space, where tables run over lengths, and over prices."""


def scale(instance: Instance) -> int:
    """What a blank as long as the longest space may cost, so that no table grows too long."""
    return FINE if instance.largest // instance.step <= CELLS else COARSE


def out_of_reach(instance: Instance, target: Target) -> bool:
    """Whether there are too few spaces long enough for the target, before anything is sawn."""
    lengths = sorted((s.length for s in instance.spaces), reverse=True)
    wanted = sorted(target, reverse=True)
    return len(wanted) > len(lengths) or any(w > have for w, have in zip(wanted, lengths))


class Gap(NamedTuple):
    """What a price list proves about a target: a plan can lose at most ``value``; below 0 there is none.

    ``bonus[r]`` is what a space earns besides its blanks for leaving ``pieces[r - 1]`` or more;
    ``most`` is the most that a space of each kind can earn.
    """

    value: int
    pieces: tuple[int, ...]
    bonus: tuple[int, ...]
    most: dict[Kind, int]


class Prices:
    """Whole-number prices of the sizes, and what every space can earn with them."""

    def __init__(self, instance: Instance, demand: Sequence[int], values: Sequence[int]):
        self.instance, self.demand, self.values = instance, tuple(demand), tuple(values)
        self.owed = sum(p * d for p, d in zip(self.values, self.demand))

    @cached_property
    def _tables(self) -> dict[int, Knapsack]:
        i, tables = self.instance, {}
        alike: dict[tuple[int, ...], list[int]] = {}
        for pin in {ANY: None} | {kind.pin: None for kind in i.kinds if kind.pin in i.named}:
            alike.setdefault(tuple(p if size.allows(pin) else 0 for p, size in zip(self.values, i.sizes)), []).append(pin)
        for allowed, pins in alike.items():
            largest = max((i.capacity(kind) for kind in i.kinds if ANY in pins or kind.pin in pins), default=0)
            tables |= dict.fromkeys(pins, Knapsack([s.width for s in i.sizes], self.demand, allowed, largest))
        return tables

    def table(self, kind: Kind) -> Knapsack:
        """The table that serves a kind of space, with the sizes pinned to its stick."""
        return self._tables.get(kind.pin) or self._tables[ANY]

    def on(self, instance: Instance, demand: Sequence[int]) -> Prices:
        """The same prices for other spaces, or other blanks."""
        return Prices(instance, demand, self.values)

    def gap(self, target: Target) -> Gap:
        """How much more all spaces can earn, at these prices, than the blanks and remnants wanted."""
        instance = self.instance
        pieces = sorted(set(target))
        number = [sum(t >= piece for t in target) for piece in pieces]
        earned = {}
        for kind in instance.kinds:
            capacities = [instance.capacity(kind), *(kind.length - p for p in pieces if p <= kind.length)]
            earned[kind] = [int(e) for e in self.table(kind).bests(capacities)]
        members = [len(m) for m in instance.kinds.values()]
        bonus = [0]
        for reward in _rewards(members, list(earned.values()), number):
            bonus.append(bonus[-1] + reward)
        most = {kind: max(e + b for e, b in zip(row, bonus)) for kind, row in earned.items()}
        total = sum(n * m for n, m in zip(members, most.values()))
        owed = self.owed + sum(n * (b - a) for n, a, b in zip(number, bonus, bonus[1:]))
        return Gap(total - owed, tuple(pieces), tuple(bonus), most)

    def refutes(self, target: Target) -> bool:
        """Whether these prices prove that no plan makes the blanks wanted and leaves the target."""
        return self.gap(target).value < 0


def _rewards(members: Sequence[int], earned: Sequence[Sequence[int]], number: Sequence[int]) -> list[int]:
    """Whole rewards for leaving each wanted piece, chosen so that the gap is smallest.

    Any rewards of 0 or more give a valid bound; a small linear program finds the best (the dual of an
    assignment problem, hence whole numbers but for rounding).
    """
    if not number:
        return []
    from ortools.linear_solver import pywraplp

    solver = pywraplp.Solver.CreateSolver("GLOP")
    rewards = [solver.NumVar(0, solver.infinity(), "") for _ in number]
    aim = solver.Objective()
    for n, reward in zip(number, rewards):
        aim.SetCoefficient(reward, -n)
    for n, row in zip(members, earned):
        most = solver.NumVar(row[0], solver.infinity(), "")
        aim.SetCoefficient(most, n)
        for r in range(1, len(row)):
            limit = solver.Constraint(row[r], solver.infinity())
            limit.SetCoefficient(most, 1)
            for reward in rewards[:r]:
                limit.SetCoefficient(reward, -1)
    aim.SetMinimization()
    if solver.Solve() != solver.OPTIMAL:
        return [0] * len(number)
    return [max(0, round(reward.solution_value())) for reward in rewards]
