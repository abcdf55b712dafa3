"""Whole plans among known patterns: CP-SAT with one worker and a fixed seed, hence the same every time."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from math import ceil
from typing import NamedTuple

from anglelib.stock.bound import Target
from anglelib.stock.columns import Column
from anglelib.stock.effort import Effort
from anglelib.stock.instance import Instance, Packing

YES, NO, UNKNOWN = "yes", "no", "unknown"


class Answer(NamedTuple):
    """Whether there is a plan, and the plan; with an objective, also the least that it can be."""

    verdict: str
    packing: Packing | None = None
    bound: int | None = None


class Choice:
    """The choice of a column for every space, as a CP-SAT model: each column gets a count.

    With ``exact`` the blanks wanted are made and no more; else more may be made, and the surplus is
    left out of the packing afterwards.
    """

    def __init__(self, instance: Instance, demand: Sequence[int], target: Target, columns: Sequence[Column], exact: bool = False):
        from ortools.sat.python import cp_model

        self.instance, self.demand, self.columns, self.exact = instance, demand, columns, exact
        self.model = model = cp_model.CpModel()
        self.counts = [model.new_int_var(0, len(instance.kinds[c.kind]), "") for c in columns]
        pieces = sorted(set(target))
        by_kind = {kind: [] for kind in instance.kinds}
        by_size: list[list] = [[] for _ in instance.sizes]
        by_piece: list[list] = [[] for _ in pieces]
        for column, count in zip(columns, self.counts):
            by_kind[column.kind].append(count)
            for terms, n in zip(by_size, column.pattern):
                if n:
                    terms.append((count, n))
            left = column.kind.length - column.load
            for terms, piece in zip(by_piece, pieces):
                if piece <= left:
                    terms.append(count)
        for kind, members in instance.kinds.items():
            model.add(cp_model.LinearExpr.sum(by_kind[kind]) == len(members))
        for terms, wanted in zip(by_size, demand):
            made = cp_model.LinearExpr.weighted_sum([v for v, _ in terms], [n for _, n in terms])
            if exact:
                model.add(made == wanted)
            elif wanted:
                model.add(made >= wanted)
        for terms, piece in zip(by_piece, pieces):
            model.add(cp_model.LinearExpr.sum(terms) >= sum(t >= piece for t in target))

    def near(self, shares: Iterable[tuple[Column, float]]) -> None:
        """Start the search near a (fractional) plan."""
        start = dict(shares)
        for column, count in zip(self.columns, self.counts):
            self.model.add_hint(count, round(start.get(column, 0)))

    def total(self, cost: Callable[[Column], int]):
        """The sum of a cost over the columns chosen, as an expression of the model."""
        from ortools.sat.python import cp_model

        return cp_model.LinearExpr.weighted_sum(self.counts, [cost(c) for c in self.columns])

    def answer(self, effort: Effort, limit: float) -> Answer:
        """Search, within a limit of deterministic work."""
        from ortools.sat.python import cp_model

        effort.spend(5e-5 * len(self.columns))
        solver, status = solve(self.model, effort, limit)
        if status == cp_model.INFEASIBLE:
            return Answer(NO)
        if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            return Answer(UNKNOWN)
        todo = {kind: list(members) for kind, members in self.instance.kinds.items()}
        packing = [()] * len(self.instance.spaces)
        for column, count in zip(self.columns, self.counts):
            for _ in range(solver.value(count)):
                packing[todo[column.kind].pop(0)] = column.pattern
        bound = ceil(solver.best_objective_bound - 1e-6) if self.model.has_objective() else None
        return Answer(YES, trimmed(self.instance, self.demand, packing), bound)


def among(
    instance: Instance,
    demand: Sequence[int],
    target: Target,
    columns: Sequence[Column],
    effort: Effort,
    limit: float,
    shares: Sequence[tuple[Column, float]] = (),
) -> Answer:
    """A plan whose every pattern is one of the columns; ``NO`` means that there is none among them.

    ``shares`` is a fractional plan to start near.
    """
    choice = Choice(instance, demand, target, columns)
    if shares:
        choice.near(shares)
    return choice.answer(effort, limit)


def solve(model, effort: Effort, limit: float):
    """Run CP-SAT on a model within a limit of deterministic work; the solver and its status.

    Without presolve: on set-covering models like these presolve costs the search its bearings (some
    take a hundred times as long with it).
    """
    from ortools.sat.python import cp_model

    effort.check()
    solver = cp_model.CpSolver()
    solver.parameters.catch_sigint_signal = False  # Ctrl-C belongs to whoever asked
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 1
    solver.parameters.cp_model_presolve = False
    solver.parameters.linearization_level = 2
    solver.parameters.max_deterministic_time = max(0.001, min(limit, effort.left))
    with effort.watching(solver.stop_search):
        status = solver.solve(model)
    effort.spend(2 * solver.deterministic_time)
    return solver, status


def trimmed(instance: Instance, demand: Sequence[int], packing: Sequence[Sequence[int]]) -> Packing:
    """The packing less the blanks that nobody wants, each taken from where most is left already."""
    found = [list(p) for p in packing]
    for size, wanted in enumerate(demand):
        for _ in range(sum(p[size] for p in found) - wanted):
            having = [n for n, p in enumerate(found) if p[size]]
            n = max(having, key=lambda n: (instance.remains(found[n], instance.spaces[n]), n))
            found[n][size] -= 1
    return tuple(tuple(p) for p in found)
