"""A plan made by hand: each part given to a stick, what fits, what is too long, what is left.

>>> from anglelib.job import Job
>>> from anglelib.part import Part
>>> from anglelib.section import Section
>>> from anglelib.stock.problem import problems
>>> from anglelib.stock.rack import Rack, Stick
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> rack = Rack([Stick("S-1", stock, "6061-T6", 96), Stick("S-2", stock, "6061-T6", 30)])
>>> asked = problems(Job("Demo", Shop(), [Part("A1", "Bar", stock, "6061-T6", "29 15/16")]), rack)[0]
>>> [(hand.stick.id, exact(hand.left)) for hand in by_hand(asked, {0: "S-1"}, Shop())]
[('S-1', '65 15/16'), ('S-2', '30')]
>>> exact(by_hand(asked, {0: "S-2"}, Shop())[1].over)
'1/16'
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from anglelib.errors import PlanError
from anglelib.job import Shop
from anglelib.lengths import exact
from anglelib.near import did_you_mean
from anglelib.stock.blank import Blank
from anglelib.stock.cutting import cut_order
from anglelib.stock.instance import Packing
from anglelib.stock.problem import Problem
from anglelib.stock.rack import Stick


@dataclass(frozen=True)
class HandStick:
    """One stick as it is given out: the blanks with where each begins and ends along it [in].

    ``left`` is the usable length that remains, ``over`` what the blanks and their cuts are too long by.
    """

    stick: Stick
    placed: tuple[tuple[Blank, Fraction, Fraction], ...]
    left: Fraction
    over: Fraction


def by_hand(problem: Problem, given: Mapping[int, str], shop: Shop) -> tuple[HandStick, ...]:
    """Every stick of a problem with the blanks that were given to it.

    ``given`` names a stick's id for a blank's place in ``problem.blanks``; blanks that it lacks are
    not placed. Only sticks without a dent may stand in the problem.
    """
    if len(problem.places) > len(problem.sticks):
        raise PlanError("A stick with a dent has two usable lengths: say which one a part comes from, or leave the stick out.")
    known = {stick.id for stick in problem.sticks}
    strange = [name for name in given.values() if name not in known]
    if strange:
        remedy = did_you_mean(strange[0], sorted(known)) or f"choose one of {', '.join(sorted(known))}."
        raise PlanError(f"There is no stick {strange[0]} on the table: {remedy}")
    found = []
    for stick, interval in problem.places:
        blanks = cut_order([problem.blanks[n] for n, name in given.items() if name == stick.id])
        placed, at = [], interval.start
        for blank in blanks:
            placed.append((blank, at, at + blank.length))
            at += blank.length + shop.kerf
        over = max(Fraction(0), at - interval.start - interval.holds(shop.kerf))
        found.append(HandStick(stick, tuple(placed), max(Fraction(0), interval.end - at), over))
    return tuple(found)


def packing_of(problem: Problem, hands: Sequence[HandStick]) -> Packing:
    """The same as the planner counts it, to be scored by the problem's instance."""
    sizes = {id(blank): size for blank, size in zip(problem.blanks, problem.instance.claims)}
    found = []
    for hand in hands:
        pattern = [0] * len(problem.instance.sizes)
        for blank, _, _ in hand.placed:
            pattern[sizes[id(blank)]] += 1
        found.append(tuple(pattern))
    return tuple(found)


def lefts(problem: Problem, packing: Packing) -> tuple[Fraction, ...]:
    """The usable lengths that a packing leaves, longest first [in]."""
    instance = problem.instance
    rests = (instance.remains(pattern, space) * problem.unit for pattern, space in zip(packing, instance.spaces))
    return tuple(sorted(rests, reverse=True))


def told(lengths: Sequence[Fraction], least: Fraction = Fraction(0)) -> str:
    """Lengths in a sentence, without those below ``least``.

    >>> told([Fraction(77, 2), Fraction(5), Fraction(1, 8)], Fraction(3)), told([])
    ('38 1/2 and 5', 'nothing')
    """
    kept = [exact(length) for length in lengths if length >= least and length]
    return " and ".join(filter(None, [", ".join(kept[:-1]), kept[-1]])) if kept else "nothing"
