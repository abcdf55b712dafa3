"""Whole plans among known patterns: CP-SAT with one worker and a fixed seed, hence the same every time."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

from anglelib.stock.bound import Target
from anglelib.stock.columns import Column
from anglelib.stock.effort import Effort
from anglelib.stock.instance import Instance, Packing

YES, NO, UNKNOWN = "yes", "no", "unknown"


class Answer(NamedTuple):
    """Whether there is a plan, and the plan; with a cost, also the least cost there can be."""

    verdict: str
    packing: Packing | None = None
    bound: int | None = None


def among(
    instance: Instance,
    demand: Sequence[int],
    target: Target,
    columns: Sequence[Column],
    effort: Effort,
    limit: float,
    shares: Sequence[tuple[Column, float]] = (),
    cost: Callable[[Column], int] | None = None,
) -> Answer:
    """A plan whose every pattern is one of the columns; ``NO`` means that there is none among them.

    ``shares`` is a fractional plan to start near. With a ``cost`` a column, the cheapest such plan.
    """
    from ortools.sat.python import cp_model

    if not columns:
        return Answer(NO)
    model = cp_model.CpModel()
    counts = [model.new_int_var(0, len(instance.kinds[c.kind]), "") for c in columns]
    pieces = sorted(set(target))
    by_kind = {kind: [] for kind in instance.kinds}
    by_size: list[list] = [[] for _ in instance.sizes]
    by_piece: list[list] = [[] for _ in pieces]
    for column, count in zip(columns, counts):
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
        if wanted:
            model.add(cp_model.LinearExpr.weighted_sum([v for v, _ in terms], [n for _, n in terms]) >= wanted)
    for terms, piece in zip(by_piece, pieces):
        model.add(cp_model.LinearExpr.sum(terms) >= sum(t >= piece for t in target))
    if cost is not None:
        model.minimize(cp_model.LinearExpr.weighted_sum(counts, [cost(c) for c in columns]))
    if shares:
        near = dict(shares)
        for column, count in zip(columns, counts):
            model.add_hint(count, round(near.get(column, 0)))
    solver, status = solve(model, effort, limit)
    if status == cp_model.INFEASIBLE:
        return Answer(NO)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return Answer(UNKNOWN)
    todo = {kind: list(members) for kind, members in instance.kinds.items()}
    packing = [()] * len(instance.spaces)
    for column, count in zip(columns, counts):
        for _ in range(solver.value(count)):
            packing[todo[column.kind].pop(0)] = column.pattern
    bound = None if cost is None else int(solver.best_objective_bound)
    return Answer(YES, trimmed(instance, demand, packing), bound)


def solve(model, effort: Effort, limit: float):
    """Run CP-SAT on a model within a limit of deterministic work; the solver and its status.

    Without presolve: on set-covering models like these presolve costs the search its bearings (some
    take a hundred times as long with it).
    """
    from ortools.sat.python import cp_model

    effort.check()
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 1
    solver.parameters.cp_model_presolve = False
    solver.parameters.linearization_level = 2
    solver.parameters.max_deterministic_time = max(0.001, min(limit, effort.left))
    with effort.watching(solver.stop_search):
        status = solver.solve(model)
    effort.spend(solver.deterministic_time)
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
