"""What a plan proves and what it cannot make, in words a builder would use."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import groupby

from anglelib.job import Shop
from anglelib.lengths import about, exact, own, unit_written, writing
from anglelib.stock.fit import refusals
from anglelib.stock.instance import ANY
from anglelib.stock.outcome import Outcome
from anglelib.stock.plan import Proof, Shortage
from anglelib.stock.problem import Problem
from anglelib.stock.rack import Rack

NAMED = 3
"""How many remnants are named before "and n more"."""


def proofs(problem: Problem, outcome: Outcome, shop: Shop) -> tuple[Proof, ...]:
    """What is proven of each level."""
    return (
        Proof(1, 1 in outcome.settled, _made(problem, outcome)),
        Proof(2, 2 in outcome.settled, _left(outcome, shop)),
        Proof(3, 3 in outcome.settled, _sticks(problem, outcome)),
        Proof(4, 4 in outcome.settled, _cuts(problem, outcome)),
    )


def _made(problem: Problem, outcome: Outcome) -> str:
    made, wanted = sum(outcome.demand), len(problem.blanks)
    if made == wanted:
        return f"All {wanted} pieces can be made." if wanted > 1 else "The piece can be made."
    if 1 in outcome.settled:
        return f"{made} of {wanted} pieces can be made; it is proven that the others cannot, by their order of claim."
    return f"{made} of {wanted} pieces are placed; it is not proven that the others cannot be."


def _left(outcome: Outcome, shop: Shop) -> str:
    """ "143, 96, 55 proven; the next is 3 and cannot exceed 7"."""
    unit = f" in steps of {own(shop.grain)}" if shop.grain != 1 or unit_written() != "in" else ""
    found = outcome.left
    proven = next((n for n, (have, limit) in enumerate(found) if have != limit), len(found))
    sure = [exact(have * shop.grain) for have, _ in found[:proven] if have]
    if not found:
        return "No stick may be used."
    if proven == len(found):
        if not sure:
            return "Nothing remains that is worth keeping; proven."
        return f"What remains{unit}, longest first: {runs(sure)}; proven the longest there can be."
    have, limit = (exact(n * shop.grain) for n in found[proven])
    start = f"{runs(sure)} proven; the next is" if sure else "the first is"
    return f"What remains{unit}, longest first: {start} {have} and cannot exceed {limit}."


def runs(lengths: Sequence[str]) -> str:
    """Lengths in words, with equal ones counted.

    >>> runs(["143", "143", "143", "99", "95"])
    '3 x 143, 99, 95'
    """
    grouped = [(text, len(list(same))) for text, same in groupby(lengths)]
    return ", ".join(text if n == 1 else f"{n} x {text}" for text, n in grouped)


def _sticks(problem: Problem, outcome: Outcome) -> str:
    score = problem.instance.score(outcome.packing)
    if not score.touched:
        return "No stick is used."
    full = -score.opened
    said = f"{counted(-score.touched, 'stick')} used, {full or 'none'} of them full"
    return f"{said}; proven the fewest." if 3 in outcome.settled else f"{said}; fewer are not ruled out."


def _cuts(problem: Problem, outcome: Outcome) -> str:
    score = problem.instance.score(outcome.packing)
    if not score.cuts:
        return "Nothing is sawn."
    said = counted(-score.cuts, "saw cut")
    if 4 in outcome.settled:
        return f"{said}, and {about(-score.scrap * problem.unit)} lost to the blade and in short ends; proven the least."
    if outcome.fewest_cuts:
        return f"{said}, proven the fewest; a smaller loss in short ends is not ruled out."
    return f"{said}; fewer are not ruled out."


def counted(n: int, noun: str) -> str:
    return f"{n or 'no'} {noun}{'' if n == 1 else 's'}"


# --- shortages ------------------------------------------------------------------------------------
def shortages(problem: Problem, outcome: Outcome, rack: Rack, shop: Shop) -> tuple[Shortage, ...]:
    """Each part of which not all can be made, in the order of claims."""
    made = problem.instance.made(outcome.packing)
    missing: dict[str, list] = {}
    for claim, blank, done in zip(problem.instance.claims, problem.blanks, made):
        if not done:
            missing.setdefault(blank.part.id, []).append((claim, blank))
    found = []
    for part_id, lacking in missing.items():
        claim, blank = lacking[0]
        reasons = _reasons(problem, outcome, rack, shop, blank, claim)
        with writing(blank.part.unit):
            on_card = _reasons(problem, outcome, rack, shop, blank, claim)
        short = _short_by(problem, outcome, claim)
        found.append(Shortage(part_id, len(lacking), blank.length, short, claim not in outcome.doubtful, reasons, on_card))
    return tuple(found)


def _short_by(problem: Problem, outcome: Outcome, claim: int) -> Fraction | None:
    """What the longest piece lacks for one more blank of a size, with only the earlier claims sawn from it."""
    instance = problem.instance
    earlier = {claim, *instance.claims[: instance.claims.index(claim)]}
    lacks = []
    for pattern, space in zip(outcome.packing, instance.spaces):
        if instance.sizes[claim].pin in (ANY, space.stick):
            kept = [n if size in earlier else 0 for size, n in enumerate(pattern)]
            lacks.append(instance.load(kept) + instance.sizes[claim].width - instance.capacity(space))
    return max(0, min(lacks)) * problem.unit if lacks else None


def _reasons(problem: Problem, outcome: Outcome, rack: Rack, shop: Shop, blank, claim: int) -> tuple[str, ...]:
    part = blank.part
    if part.only_stick and part.only_stick not in {stick.id for stick in rack.sticks}:
        return (f"The plans name {part.only_stick} for {part.id}, and it is not on the rack.",)
    found = []
    sticks = [s for s in rack.sticks if not part.only_stick or s.id == part.only_stick]
    serving = [stick for stick in sticks if not refusals(part, stick, shop)]
    if serving:
        names = _names([stick.id for stick in serving])
        doubt = "" if claim not in outcome.doubtful else " in the plan found; a better one is not ruled out"
        found.append(f"{names} could serve, but parts with an earlier claim need the metal{doubt}.")
    for stick in sticks:
        reasons = refusals(part, stick, shop)
        if reasons and _near(part, stick):
            found += reasons
    if not found:
        found.append(f"The rack has no stick of {part.section.size}, {part.alloy}.")
    return tuple(found)


def _near(part, stick) -> bool:
    """Whether a stick is worth a word: its legs are the part's."""
    legs = {stick.section.leg_a, stick.section.leg_b}
    return legs == {part.section.leg_a, part.section.leg_b}


def _names(ids: Sequence[str]) -> str:
    shown = list(ids[:NAMED])
    if len(ids) > NAMED:
        return f"{', '.join(shown)} and {len(ids) - NAMED} more"
    return " and ".join(filter(None, [", ".join(shown[:-1]), shown[-1]]))
