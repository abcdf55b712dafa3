"""Levels 3 and 4: of the plans that leave the same remnants, the one with the least sawing.

Fewest full sticks opened, then fewest sticks touched; then fewest cuts, then least scrap. The made
blanks and the remnants are settled by then. The remnants alone mostly prove how few sticks can be
used; and often few patterns are left, so that a search among all of them is a proof. Where they are
too many, the search is among those met so far, and the result is said to be unproven.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence

from anglelib.stock.bound import Target
from anglelib.stock.columns import Column
from anglelib.stock.decide import Decider
from anglelib.stock.effort import Effort
from anglelib.stock.instance import ANY, Instance, Packing
from anglelib.stock.outcome import Outcome
from anglelib.stock.patterns import worthwhile
from anglelib.stock.search import YES, Choice

LIMIT = 1.2
COLUMNS = 8_000

STICKS, CUTS, SCRAP = "sticks", "cuts", "scrap"
GOALS = ((3, STICKS), (4, CUTS), (4, SCRAP))
_WORDS = {STICKS: "fewest full sticks opened, then fewest touched", CUTS: "fewest cuts", SCRAP: "least scrap"}


def economise(instance: Instance, outcome: Outcome, decider: Decider, effort: Effort) -> None:
    """Settle levels 3 and 4 as far as the work left allows."""
    target = tuple(instance.threshold(v) for v in instance.left(outcome.packing) if v)
    decider.relaxation.learn(outcome.packing)
    lists = decider.lists(target)
    columns: list[Column] | None = None
    sound = {1, 2} <= outcome.settled  # of plans that make more, or leave more, nothing is known
    for level, goal in GOALS:
        effort.tell(f"Level {level}: {_WORDS[goal]}.")
        score = instance.score(outcome.packing)
        if level == 3 and (-score.opened, -score.touched) == fewest_sticks(instance, score.left):
            complete = True
        elif goal == CUTS and _alike(instance):
            complete = True
        else:
            if goal != SCRAP or columns is None:
                columns = worthwhile(instance, outcome.demand, target, lists, effort, COLUMNS, full=level == 3, idle=True)
            known = dict.fromkeys(decider.relaxation.pool if columns is None else columns)
            known.update(dict.fromkeys(_columns(instance, outcome.packing)))
            least = _seek(instance, outcome, target, list(known), goal, effort)
            complete = columns is not None and least is not None and least >= _spent(instance, outcome.packing, goal)
            if level == 3:
                score = instance.score(outcome.packing)
                complete = complete or (-score.opened, -score.touched) == fewest_sticks(instance, score.left)
                columns = None
        sound = sound and complete
        if sound and goal == CUTS:
            outcome.fewest_cuts = True
        elif sound:
            outcome.settled.add(level)


def fewest_sticks(instance: Instance, left: Sequence[int]) -> tuple[int, int]:
    """No plan that leaves these remnants opens fewer full sticks, or touches fewer sticks.

    A stick that is not touched leaves all that there was of it: of the sticks whose longest usable
    length has so many grains, no more stay whole than remnants have as many.

    >>> from anglelib.stock.instance import Size, Space
    >>> rack = Instance((Size(9),), (Space(40, 0, full=True), Space(40, 1, full=True), Space(20, 2)), (0, 0), kerf=1, grain=1, minimum=0)
    >>> fewest_sticks(rack, (40, 31, 11)), fewest_sticks(rack, (40, 40, 2))
    ((1, 2), (0, 1))
    """
    longest: dict[int, int] = {}
    for space in instance.spaces:
        longest[space.stick] = max(longest.get(space.stick, 0), instance.graded(space.length))
    full = {space.stick for space in instance.spaces if space.full}
    remnants = Counter(left)

    def touched(sticks: Iterable[int]) -> int:
        there = Counter(longest[stick] for stick in sticks)
        return sum(max(0, number - remnants[grains]) for grains, number in there.items())

    return touched(full), touched(longest)


def _alike(instance: Instance) -> bool:
    """Whether every space costs the same cuts, so that blanks and touched sticks alone decide their number."""
    twins = any(kind.twin != ANY for kind in instance.kinds)
    return not twins and len({(space.facing, space.unsawn) for space in instance.spaces}) == 1 and not instance.spaces[0].unsawn


def _columns(instance: Instance, packing: Packing) -> list[Column]:
    return [Column(instance.kind(s), p, instance.load(p)) for p, s in zip(packing, instance.spaces)]


def _seek(instance: Instance, outcome: Outcome, target: Target, columns: list[Column], goal: str, effort: Effort) -> int | None:
    """Better the packing towards one goal, what is settled before kept; the least that the goal can come to."""
    choice = Choice(instance, outcome.demand, target, columns, exact=goal in (CUTS, SCRAP))
    start = _columns(instance, outcome.packing)
    choice.near([(column, start.count(column)) for column in set(start)])
    opened, touched = sticks_used(choice)
    score = instance.score(outcome.packing)
    cuts = choice.total(lambda column: instance.cuts(column.pattern, column.kind))
    if choice.exact:
        choice.model.add(opened == -score.opened)
        choice.model.add(touched == -score.touched)
    if goal == CUTS:
        choice.model.minimize(cuts)
    elif goal == SCRAP:
        choice.model.add(cuts == -score.cuts)
        choice.model.minimize(choice.total(lambda column: instance.scrap(column.pattern, column.kind)))
    else:
        choice.model.minimize(opened * (len(instance.spaces) + 1) + touched)
    answer = choice.answer(effort, LIMIT)
    if answer.verdict == YES and instance.score(answer.packing) > score:
        outcome.packing = answer.packing
    return answer.bound


def sticks_used(choice: Choice):
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


def _spent(instance: Instance, packing: Packing, goal: str) -> int:
    """What a packing comes to, measured by a goal."""
    score = instance.score(packing)
    if goal == CUTS:
        return -score.cuts
    if goal == SCRAP:
        return -score.scrap
    return -score.opened * (len(instance.spaces) + 1) - score.touched
