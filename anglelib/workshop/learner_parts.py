"""The learners and their parts: a left and a right cleat for each two neighbours, no two learners alike.

Two neighbours make the two hands of one cleat, from one piece, so that they can lay them together as a
pair; every pair has a run and a width left of its own. A part is 4 in. long or more. The tapered end
keeps a flat beside the heel, so end 1 stays the datum.

>>> from anglelib.workshop.class_plan import ClassWanted
>>> one, two = learners(ClassWanted(2))
>>> one.part.id, one.part.hand, two.part.hand, one.part.mirrors(two.part)
('C01', 'left', 'right', True)
>>> one.part.same_metal_as(two.part)
False
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from anglelib.part import Hole, Part, Taper
from anglelib.questions.fresh import Numbers
from anglelib.section import Section
from anglelib.workshop.class_plan import ClassWanted

SECTION = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
SQUARE_INSIDE = Section("1 1/4", "1 1/4", "1/8")
ALLOY, OTHER_ALLOY = "6061-T6", "6063-T5"
"""The class's stock; the square inside of lesson 01 mostly comes with the other alloy (common practice, no proof)."""
LEAST, MOST = Fraction(4), Fraction(5)
"""How long a class part is [in]."""
RIVET = Fraction(1, 8)


@dataclass(frozen=True)
class Learner:
    """One place in the class: its number, its part, and the number of the neighbour with the other hand (None: alone)."""

    number: int
    part: Part
    partner: int | None

    @property
    def name(self) -> str:
        """How a learner is called on paper: there are no names in a pack."""
        return f"Learner {self.number:02d}"

    @property
    def first(self) -> bool:
        """Whether this one has the pair's piece first."""
        return self.number % 2 == 1


def learners(wanted: ClassWanted) -> tuple[Learner, ...]:
    """Every learner with a part of its own."""
    found: list[Learner] = []
    for pair, (left, run) in enumerate(_widths_and_runs(wanted.seed, wanted.pairs)):
        one, two = 2 * pair + 1, 2 * pair + 2
        both = two <= wanted.learners
        part = _cleat(Numbers(f"{wanted.seed}, cleat {pair}"), one, left, run, two if both else None)
        found.append(Learner(one, part, two if both else None))
        if both:
            other = replace(part.mirrored(), id=_id(two), name=f"Class cleat {two:02d}, right", hand="right", mirror_of=part.id, only_stick=part.only_stick)
            found.append(Learner(two, other, one))
    return tuple(found)


def piece_id(pair: int) -> str:
    """The id of the piece that a pair's two cleats are cut from; pairs are counted from 1."""
    return f"K{pair:02d}"


def _id(number: int) -> str:
    return f"C{number:02d}"


def _cleat(numbers: Numbers, number: int, left: Fraction, run: Fraction, partner: int | None) -> Part:
    """A left cleat: leg A tapered at end 1, a hole in each leg."""
    sixteenth = Fraction(1, 16)
    length = numbers.length(max(LEAST, run + Fraction(9, 4)), MOST, sixteenth)
    # 2 1/2 to 4 diameters from the toe and from end 2; the rivets of the two legs are an inch and more apart
    near, far = numbers.length(Fraction(5, 16), Fraction(1, 2), sixteenth), numbers.length(Fraction(5, 4), Fraction(3, 2), sixteenth)
    low, high = SECTION.leg_a - Fraction(1, 2), SECTION.leg_a - Fraction(5, 16)
    holes = (
        Hole("A", length - near, numbers.length(low, high, sixteenth), RIVET),
        Hole("B", length - far, numbers.length(low, high, sixteenth), RIVET),
    )
    return Part(
        _id(number), f"Class cleat {number:02d}, left", SECTION, ALLOY, length, (Taper("A", 1, left, run=run),), holes,
        hand="left", mirror_of=_id(partner) if partner else "", only_stick=piece_id((number + 1) // 2),
    )  # fmt: skip


def _widths_and_runs(seed: str, pairs: int) -> list[tuple[Fraction, Fraction]]:
    """A width left and a run for each pair, no width and no run twice; the angle lies between 18 and 50 degrees.

    Widths come in sixteenths while there are enough, so that a small class reads none finer.
    """
    numbers = Numbers(f"{seed}, tapers")
    coarse = [Fraction(n, 16) for n in range(5, 16)]
    fine = [Fraction(n, 32) for n in range(11, 30, 2)]
    widths = (_shuffled(coarse, numbers) + _shuffled(fine, numbers))[:pairs]
    runs: dict[Fraction, Fraction] = {}
    for left in sorted(widths, reverse=True):  # the lowest height first: it has the fewest runs to choose from
        height = SECTION.leg_a - left
        low, high = max(Fraction(5, 8), Fraction(7, 8) * height), min(3 * height, Fraction(9, 4))
        free = [Fraction(n, 16) for n in range(10, 37) if low <= Fraction(n, 16) <= high and Fraction(n, 16) not in runs.values()]
        runs[left] = numbers.pick(free)
    return [(left, runs[left]) for left in widths]


def _shuffled(values: Sequence[Fraction], numbers: Numbers) -> list[Fraction]:
    rest, found = list(values), []
    while rest:
        found.append(numbers.pick(rest))
        rest.remove(found[-1])
    return found
