"""Whole plans without patterns: how many blanks of each size come from each space, and nothing else.

Where patterns are too many to list, this small model often answers at once, yes or no; in integers,
so that its "no" is a proof. Spaces of a kind may change places: the one that holds more comes later.

>>> from anglelib.stock.effort import Effort
>>> from anglelib.stock.instance import Size, Space
>>> rack = Instance((Size(29), Size(11)), (Space(60, 0), Space(60, 1)), (0, 0, 1), kerf=1, grain=1, minimum=0)
>>> counted(rack, (2, 1), (49,), Effort(), 1.0), counted(rack, (2, 1), (50,), Effort(), 1.0)
(Answer(verdict='yes', packing=((0, 1), (2, 0)), bound=None), Answer(verdict='no', packing=None, bound=None))
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from anglelib.stock.bound import Target
from anglelib.stock.effort import Effort
from anglelib.stock.instance import Instance
from anglelib.stock.search import NO, UNKNOWN, YES, Answer, solve

MOST = 4_000
"""Most counts (sizes times spaces) that are looked at."""


def counted(instance: Instance, demand: Sequence[int], target: Target, effort: Effort, limit: float) -> Answer:
    """Whether there is a plan, within a limit of deterministic work."""
    from ortools.sat.python import cp_model

    if len(instance.sizes) * len(instance.spaces) > MOST:
        return Answer(UNKNOWN)
    model, pieces = cp_model.CpModel(), sorted(set(target))
    counts, loads = [], []
    leaves: dict[int, list] = {piece: [] for piece in pieces}
    for space in instance.spaces:
        row = [
            model.new_int_var(0, min(wanted, instance.capacity(space) // size.width) if size.allows(space.stick) else 0, "")
            for size, wanted in zip(instance.sizes, demand)
        ]
        load = cp_model.LinearExpr.weighted_sum(row, [size.width for size in instance.sizes])
        model.add(load <= instance.capacity(space))
        for piece in pieces:
            if piece <= space.length:
                left = model.new_bool_var("")
                model.add(load <= space.length - piece).only_enforce_if(left)
                leaves[piece].append(left)
        counts.append(row)
        loads.append(load)
    for size, wanted in enumerate(demand):
        model.add(sum(row[size] for row in counts) == wanted)
    for piece in pieces:
        model.add(sum(leaves[piece]) >= sum(t >= piece for t in target))
    for members in instance.kinds.values():
        for one, other in pairwise(members):
            model.add(loads[one] <= loads[other])
    effort.spend(2e-6 * sum(map(len, counts)))
    solver, status = solve(model, effort, limit)
    if status == cp_model.INFEASIBLE:
        return Answer(NO)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return Answer(UNKNOWN)
    return Answer(YES, tuple(tuple(solver.value(count) for count in row) for row in counts))
