"""Levels 3 and 4: of the plans that leave the same remnants, the one with the least sawing.

Fewest full sticks opened, then fewest sticks touched; then fewest cuts, then least scrap. The made
blanks and the remnants are settled by then, so that often few patterns are left: a search among all
of them is a proof. Where they are too many, the search is among those met so far, and the result is
said to be unproven.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from anglelib.stock.columns import Column
from anglelib.stock.decide import MOST, Decider
from anglelib.stock.effort import Effort
from anglelib.stock.instance import ANY, Instance, Packing
from anglelib.stock.patterns import worthwhile
from anglelib.stock.search import YES, Choice

if TYPE_CHECKING:
    from anglelib.stock.levels import Outcome

LIMIT = 4.0


def economise(instance: Instance, outcome: Outcome, decider: Decider, effort: Effort) -> None:
    """Settle levels 3 and 4 as far as the work left allows."""
    target = tuple(instance.threshold(v) for v in instance.left(outcome.packing) if v)
    decider.relaxation.learn(outcome.packing)
    lists = decider.lists(target)
    for level in (3, 4):
        effort.tell(f"Level {level}: {'fewest sticks opened' if level == 3 else 'fewest cuts, least scrap'}.")
        columns = worthwhile(instance, outcome.demand, target, lists, effort, MOST, full=level == 3, idle=True)
        complete = columns is not None
        known = dict.fromkeys(columns if complete else decider.relaxation.pool)
        known.update(dict.fromkeys(_columns(instance, outcome.packing)))
        bound = _seek(instance, outcome, target, list(known), level, effort)
        if complete and level - 1 in outcome.settled and bound is not None:
            if bound >= _spent(instance, outcome.packing, level):
                outcome.settled.add(level)


def _columns(instance: Instance, packing: Packing) -> list[Column]:
    return [Column(instance.kind(s), p, instance.load(p)) for p, s in zip(packing, instance.spaces)]


def _seek(instance: Instance, outcome: Outcome, target, columns: list[Column], level: int, effort: Effort) -> int | None:
    """Better the packing at one level, the levels before it kept; the least that the level can be."""
    choice = Choice(instance, outcome.demand, target, columns, exact=level == 4)
    start = _columns(instance, outcome.packing)
    choice.near([(column, start.count(column)) for column in set(start)])
    opened, touched = _sticks(choice)
    score = instance.score(outcome.packing)
    if level == 3:
        choice.model.minimize(opened * (len(instance.spaces) + 1) + touched)
    else:
        choice.model.add(opened == -score.opened)
        choice.model.add(touched == -score.touched)
        unit = _scrap_unit(instance)
        choice.model.minimize(choice.total(lambda c: instance.cuts(c.pattern, c.kind) * unit + instance.scrap(c.pattern, c.kind)))
    answer = choice.answer(effort, LIMIT)
    if answer.verdict == YES and instance.score(answer.packing) > score:
        outcome.packing = answer.packing
    return answer.bound


def _sticks(choice: Choice):
    """Full sticks opened and sticks touched, as expressions of the model."""
    model, opened, touched = choice.model, [], []
    shared: dict[int, list] = {}
    full = {}
    for column, count in zip(choice.columns, choice.counts):
        if not column.load:
            continue
        if column.kind.twin != ANY:
            shared.setdefault(column.kind.twin, []).append(count)
            full[column.kind.twin] = column.kind.full
            continue
        touched.append(count)
        if column.kind.full:
            opened.append(count)
    for stick, counts in shared.items():
        used = model.new_bool_var("")
        model.add(sum(counts) <= len(choice.instance.spaces) * used)
        touched.append(used)
        if full[stick]:
            opened.append(used)
    return sum(opened), sum(touched)


def _spent(instance: Instance, packing: Packing, level: int) -> int:
    """What the objective of a level comes to for a packing."""
    score = instance.score(packing)
    if level == 3:
        return -score.opened * (len(instance.spaces) + 1) - score.touched
    return -score.cuts * _scrap_unit(instance) - score.scrap


def _scrap_unit(instance: Instance) -> int:
    """More than all the scrap there can be, so that one cut outweighs it."""
    return sum(space.length + instance.kerf for space in instance.spaces) + 1
