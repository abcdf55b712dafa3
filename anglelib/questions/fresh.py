"""Fresh numbers on demand: practice parts from a seed, with fractions that a shop would use.

The same seed gives the same part on every Python. Parts are never degenerate (a fillet that fills
its leg, a taper too flat to mark) and are long enough for a class (4 in. and more).

>>> fresh_part("lesson 07, exercise 1, 0").section.size
'1 x 1 x 3/16'
>>> fresh_part("lesson 07, exercise 1, 0") == fresh_part("lesson 07, exercise 1, 0")
True
>>> fresh_part("any", ends_in="toe")
Traceback (most recent call last):
    ...
ValueError: a taper ends in one of vertex, other-leg, fillet, flat, not 'toe'
"""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import TypeVar

from anglelib.part import Part, Taper
from anglelib.section import Section, other_leg

VERTEX, OTHER_LEG, FILLET, FLAT = ENDINGS = ("vertex", "other-leg", "fillet", "flat")
"""Where a taper's line leaves through the end (see :class:`anglelib.geometry.taper.TaperLine`)."""


_T = TypeVar("_T")
# leg A, leg B, thickness, fillet: structural angle as it is stocked, small sizes
_STOCK = (
    ("1", "1", "3/16", "1/8"),
    ("1 1/4", "1 1/4", "1/8", "1/8"),
    ("1 1/4", "1 1/4", "3/16", "3/16"),
    ("1 1/2", "1 1/2", "1/8", "3/16"),
    ("1 1/2", "1 1/2", "3/16", "3/16"),
    ("1 1/2", "1", "1/8", "1/8"),
    ("1 3/4", "1 1/4", "1/8", "1/8"),
    ("2", "1 1/2", "3/16", "3/16"),
    ("2", "2", "1/4", "1/4"),
)
# thickness of leg A, of leg B
_TWO_THICKNESSES = (("1/8", "3/16"), ("3/16", "1/8"), ("1/8", "1/4"), ("1/4", "1/8"), ("3/16", "1/4"), ("1/4", "3/16"))


class Numbers:
    """Choices drawn from a seed; only ``random()`` is used, which Python keeps the same for ever."""

    def __init__(self, seed: str) -> None:
        self._random = random.Random(seed)

    def pick(self, choices: Sequence[_T]) -> _T:
        """One of the choices."""
        return choices[int(self._random.random() * len(choices))]

    def length(self, low: Fraction, high: Fraction, step: Fraction) -> Fraction:
        """A multiple of ``step`` from low to high, both included [in]."""
        first, last = -(-low // step), high // step
        if last < first:
            raise ValueError(f"no multiple of {step} from {low} to {high}")
        return step * (first + int(self._random.random() * (last - first + 1)))


def fresh_part(seed: str, *, ends_in: str = "vertex", two_thicknesses: bool = False, legs: str = "A") -> Part:
    """A practice part with one taper at end 1, whose line leaves through the end at ``ends_in``.

    ``legs`` are those that may be tapered: "AB" gives either hand. ``two_thicknesses``: leg A and
    leg B differ, so that the wrong one shows. The angle lies between 18 and 50 degrees.
    """
    if ends_in not in ENDINGS:
        raise ValueError(f"a taper ends in one of {', '.join(ENDINGS)}, not {ends_in!r}")
    numbers = Numbers(seed)
    # the first is too small for two thicknesses
    a, b, t, r = (_sum(text) for text in numbers.pick(_STOCK[1:] if two_thicknesses else _STOCK))
    t_a, t_b = (Fraction(text) for text in numbers.pick(_TWO_THICKNESSES)) if two_thicknesses else (t, t)
    section = Section(a, b, t_a, t_b, fillet=r)
    leg = numbers.pick(legs) if len(legs) > 1 else legs
    left = _width_left(numbers, section, leg, ends_in)
    height = section.leg(leg) - left
    run = numbers.length(height * Fraction(7, 8), height * 3, Fraction(1, 8))
    length = numbers.length(max(Fraction(4), 2 * run), max(Fraction(8), 2 * run + 2), Fraction(1, 8))
    return Part("P1", "Practice bracket", section, "6061-T6", length, [Taper(leg, 1, left, run=run)])


def _width_left(numbers: Numbers, section: Section, leg: str, ends_in: str) -> Fraction:
    t, r = section.thickness(other_leg(leg)), section.fillet
    low, high, step = {
        VERTEX: (Fraction(0), Fraction(0), Fraction(1, 16)),
        OTHER_LEG: (Fraction(1, 16), t - Fraction(1, 16), Fraction(1, 16)),
        FILLET: (t + Fraction(1, 32), t + r - Fraction(1, 32), Fraction(1, 32)),
        FLAT: (t + r + Fraction(1, 16), section.leg(leg) / 2, Fraction(1, 16)),
    }[ends_in]
    return numbers.length(low, high, step)


def seeds(stem: str) -> Iterator[str]:
    """One seed after another for the same question: 'stem, 0', 'stem, 1', ..."""
    count = 0
    while True:
        yield f"{stem}, {count}"
        count += 1


def _sum(text: str) -> Fraction:
    return sum((Fraction(word) for word in text.split()), Fraction(0))
