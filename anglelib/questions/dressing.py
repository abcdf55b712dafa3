"""Questions about an end that is dressed after layout, or is still to be: where a mark ends up, where it has to go.

>>> dressed_after().answer_text, before_dressing().answer_text
('4 3/16 (4.188)', '4 5/16 (4.313)')
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from anglelib.lengths import both, exact
from anglelib.questions.fresh import Numbers
from anglelib.questions.named import Asked, by_mistakes
from anglelib.questions.question import LengthQuestion, WrongAnswer

DATUM, WRONG_END = "M16", "M17"
HALF = Fraction(1, 128)


@dataclass(frozen=True)
class Dressed:
    """A mark wanted ``at`` from the squared end of a part so ``long``, laid out while ``dressing`` is still to come off [in]."""

    name: str
    long: Fraction
    at: Fraction
    dressing: Fraction


HINGE = Dressed("door hinge bracket", Fraction(19, 4), Fraction(17, 4), Fraction(1, 16))
"""The far hole of the lessons' hinge bracket."""


def dressed_after(thing: Dressed = HINGE, id: str = "dressed-after-layout") -> LengthQuestion:
    """Where a hole ends up when end 1 is dressed after layout."""
    right = thing.at - thing.dressing
    return LengthQuestion(
        id,
        f"A {thing.name}. A hole is laid out {exact(thing.at)} from end 1 while the end is still as sawn. Then the end is dressed: {exact(thing.dressing)} comes off. "
        "How far from the squared end is the hole's mark now?",
        right,
        tolerance=HALF,
        wrong=(
            WrongAnswer(DATUM, thing.at, "That is where it was wanted. The ink stays where it is, and the end has come nearer to it."),
            WrongAnswer("dressing-added", thing.at + thing.dressing, "What comes off the end brings the end nearer to the mark."),
            WrongAnswer(WRONG_END, thing.long - right, "That is from end 2."),
        ),
        hints=("The ink does not move. The end does.",),
        working=f"{exact(thing.at)} less {exact(thing.dressing)}: {both(right)}. Every length laid out from that end is off by as much: first the datum, then the layout.",
    )


def before_dressing(thing: Dressed = HINGE, id: str = "before-dressing") -> LengthQuestion:
    """Where a mark has to go from an end that is still to be dressed."""
    right = thing.at + thing.dressing
    return LengthQuestion(
        id,
        f"A {thing.name}. The hole is wanted {exact(thing.at)} from the squared end 1, but the end is not squared yet: {exact(thing.dressing)} is still to come off. "
        "If it must be marked now: how far from the end as it is?",
        right,
        tolerance=HALF,
        wrong=by_mistakes(Asked(right, dressed=thing.dressing), "M16")
        + (WrongAnswer(WRONG_END, thing.long - thing.at, "That is from end 2."),),
        hints=("The end will come nearer to the mark.",),
        working=f"{exact(thing.at)} and {exact(thing.dressing)}: {both(right)}. And it is only as good as the guess of what comes off. Square first, and nothing has to be guessed.",
    )


def fresh_dressed(seed: str) -> Dressed:
    """A mark and a dressing from a seed.

    >>> fresh_dressed("a seed") == fresh_dressed("a seed")
    True
    """
    numbers = Numbers(seed)
    name = numbers.pick(("hinge bracket", "tank strap", "seat clip", "shelf bar"))
    long = numbers.length(Fraction(5), Fraction(20), Fraction(1, 8))
    return Dressed(name, long, numbers.length(Fraction(1), long / 2 - Fraction(1, 2), Fraction(1, 16)), numbers.length(Fraction(1, 32), Fraction(3, 32), Fraction(1, 32)))
