"""What a plan proves, and what it cannot make and why, as data; :mod:`anglelib.stock.plan_words` puts it into words."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from anglelib.job import Shop
from anglelib.part import Part
from anglelib.stock.blank import Blank
from anglelib.stock.cutting import saw_order
from anglelib.stock.families import family, together
from anglelib.stock.fit import refusals
from anglelib.stock.instance import Score
from anglelib.stock.outcome import Outcome
from anglelib.stock.plan import CUTS, LEFT, MADE, SET_UPS, STICKS, TOGETHER, Proof, Shortage, StickPlan
from anglelib.stock.problem import Problem
from anglelib.stock.rack import Rack, Stick
from anglelib.stock.reasons import CLAIMED, NO_STICK, NOT_THERE, Reason
from anglelib.stock.set_ups import set_ups


def proofs(problem: Problem, outcome: Outcome, shop: Shop, sticks: Sequence[StickPlan]) -> tuple[Proof, ...]:
    """What is proven of each level of a plan of these ``sticks``."""
    score = problem.instance.score(outcome.packing)
    return (
        *remaining(problem, outcome, shop),
        used(score, sticks, 3 in outcome.settled),
        sawn(problem, score, sticks, 4 in outcome.settled, outcome.fewest_cuts),
    )


def remaining(problem: Problem, outcome: Outcome, shop: Shop) -> tuple[Proof, Proof]:
    """Of levels 1 and 2: how many blanks are made, and how long what remains is."""
    left = tuple((have * shop.grain, limit * shop.grain) for have, limit in outcome.left)
    return (
        Proof(1, MADE, 1 in outcome.settled, made=sum(outcome.demand), of=len(problem.blanks)),
        Proof(2, LEFT, 2 in outcome.settled, left=left, grain=shop.grain),
    )


def used(score: Score, sticks: Sequence[StickPlan], proven: bool, least_change: bool = False) -> Proof:
    """Of level 3: how many sticks give metal, how many of them are no remnants, and in how many of them it is only held for later."""
    held = sum(bool(planned.held) and not planned.touched for planned in sticks)
    return Proof(3, STICKS, proven, sticks=-score.touched, new=-score.opened, held=held, least_change=least_change)


def sawn(problem: Problem, score: Score, sticks: Sequence[StickPlan], proven: bool, fewest: bool = False, least_change: bool = False) -> Proof:
    """Of level 4: how many cuts the plan makes, and what is lost.

    The search counts the cuts that free one end of each usable length; those that free the other, where a stick is
    turned, are counted apart: nothing is proven of them. Nor is it where one cut may take away a scratch for both its sides.
    """
    kerf = problem.instance.kerf * problem.unit
    if any(end - begin <= kerf for stick in problem.sticks for begin, end in stick.dents if len(stick.intervals(kerf)) > 1):
        proven = fewest = False
    cuts, lost = sum(len(planned.cuts) for planned in sticks), -score.scrap * problem.unit
    lost += sum((placed.back for planned in sticks for placed in planned.placed), Fraction(0))  # the room for a hacksaw's wander
    turns = sum(_turns(planned, kerf) for planned in sticks)
    return Proof(4, CUTS, proven, cuts=cuts, turns=turns, lost=lost, fewest=fewest, least_change=least_change)


def _turns(planned: StickPlan, kerf: Fraction) -> int:
    """How many cuts free an end of a usable length besides the one that the search counts."""
    used = [i for i in planned.stick.intervals(kerf) if any(i.start <= placed.start < i.end for placed in planned.placed)]
    return max(0, sum(cut.blank is None for cut in planned.cuts) - sum(i.freed for i in used))


def arranged(sticks: Sequence[StickPlan], together_proven: bool, set_ups_proven: bool, least_change: bool = False) -> tuple[Proof, ...]:
    """Of levels 5 and 6: how far equal parts lie together, where there are any, and how few set-ups of the saw the sheets take."""
    ordered = sorted(sticks, key=saw_order)
    met = together([p.blank for p in planned.placed] for planned in ordered)
    counts = Counter(family(p.blank.part) for planned in ordered for p in planned.placed)
    several = any(number > 1 for number in counts.values())
    number = len(set_ups(ordered))
    said = [Proof(5, TOGETHER, together_proven, pairs=met.pairs, whole=met.whole, moves=met.moves, least_change=least_change)] if several else []
    return (*said, *([Proof(6, SET_UPS, set_ups_proven, set_ups=number, least_change=least_change)] if number else []))


# --- shortages ------------------------------------------------------------------------------------
def shortages(problem: Problem, outcome: Outcome, rack: Rack, shop: Shop) -> tuple[Shortage, ...]:
    """Each part of which not all can be made, in the order of claims."""
    made = problem.instance.made(outcome.packing)
    missing: dict[str, list[tuple[int, Blank]]] = {}
    for claim, blank, done in zip(problem.instance.claims, problem.blanks, made):
        if not done:
            missing.setdefault(blank.part.id, []).append((claim, blank))
    found = []
    for part_id, lacking in missing.items():
        claim, blank = lacking[0]
        sure = not any(each in outcome.doubtful for each, _ in lacking)  # its pieces may be of several sizes: those that a stick is to give apart
        reasons = _reasons(rack, shop, replace(blank.part, only_stick=blank.stick), sure)
        short = _short_by(problem, outcome, claim)
        found.append(Shortage(part_id, len(lacking), blank.whole or blank.part.quantity, blank.length, short, sure, reasons))
    return tuple(found)


def _short_by(problem: Problem, outcome: Outcome, claim: int) -> Fraction | None:
    """What the longest piece lacks for one more blank of a size, with only the earlier claims sawn from it."""
    instance = problem.instance
    earlier = {claim, *instance.claims[: instance.claims.index(claim)]}
    lacks = []
    for pattern, space in zip(outcome.packing, instance.spaces):
        if instance.sizes[claim].allows(space.stick):
            kept = [n if size in earlier else 0 for size, n in enumerate(pattern)]
            lacks.append(instance.load(kept) + instance.sizes[claim].width - instance.capacity(space))
    return max(0, min(lacks)) * problem.unit if lacks else None


def _reasons(rack: Rack, shop: Shop, part: Part, sure: bool) -> tuple[Reason, ...]:
    if part.only_stick and part.only_stick not in {stick.id for stick in rack.sticks}:
        return (Reason(NOT_THERE, part.only_stick, part.id),)
    found = []
    sticks = [s for s in rack.sticks if not part.only_stick or s.id == part.only_stick]
    serving = [stick for stick in sticks if not refusals(part, stick, shop)]
    if serving:
        found.append(Reason(CLAIMED, part=part.id, sticks=tuple(stick.id for stick in serving), sure=sure))
    for stick in sticks:
        if _near(part, stick):
            found += refusals(part, stick, shop)
    if not found:
        found.append(Reason(NO_STICK, part=part.id, have=part.section, alloy=part.alloy))
    return tuple(found)


def _near(part: Part, stick: Stick) -> bool:
    """Whether a stick is worth a word: its legs are the part's."""
    legs = {stick.section.leg_a, stick.section.leg_b}
    return legs == {part.section.leg_a, part.section.leg_b}
