"""What a person reads off a caliper: the beam's division, and the finest steps beyond it.

>>> Caliper("7")
Traceback (most recent call last):
    ...
anglelib.errors.LengthError: The reading 7 is longer than the caliper, which opens to 6 in.: use the rule.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from anglelib.errors import LengthError
from anglelib.lengths import decimal, exact, inches

KINDS = ("fraction", "decimal")
OPENS = Fraction(6)
"""How far the caliper opens [in]."""
SIXTEENTH, LINE = Fraction(1, 16), Fraction(1, 128)
TENTH, THOUSANDTH = Fraction(1, 10), Fraction(1, 1000)
LINES = 8
"""Divisions of the vernier; they lie on seven sixteenths."""


@dataclass(frozen=True)
class Caliper:
    """A caliper closed at ``reading`` [in], of kind "fraction" or "decimal"."""

    reading: Fraction
    kind: str = "fraction"

    def __post_init__(self) -> None:
        object.__setattr__(self, "reading", inches(self.reading, "reading"))
        if self.kind not in KINDS:
            raise ValueError(f"a caliper is one of {', '.join(KINDS)}, not {self.kind!r}")
        if self.reading > OPENS:
            raise LengthError(f"The reading {exact(self.reading)} is longer than the caliper, which opens to {OPENS} in.: use the rule.")

    @property
    def finest(self) -> Fraction:
        """The smallest step that can be read [in]."""
        return LINE if self.kind == "fraction" else THOUSANDTH

    @property
    def read(self) -> Fraction:
        """What a person reads: the reading to the finest step [in].

        >>> Caliper("0.1257", "decimal").read, Caliper("0.1257").read
        (Fraction(63, 500), Fraction(1, 8))
        """
        return math.floor(self.reading / self.finest + Fraction(1, 2)) * self.finest

    @property
    def beam(self) -> Fraction:
        """What the beam alone shows: the last division that the zero has passed [in]."""
        step = SIXTEENTH if self.kind == "fraction" else TENTH
        return self.read // step * step

    @property
    def steps(self) -> int:
        """How many finest steps lie beyond the beam's division: the vernier's line, or the dial's thousandths."""
        return int((self.read - self.beam) / self.finest)

    @property
    def words(self) -> str:
        """The reading as it is added up.

        >>> Caliper("99/128").words, Caliper("3/4").words, Caliper("0.723", "decimal").words
        ('3/4 and 3/128 is 99/128 (0.773)', '3/4 (0.750)', '0.7 and 0.023 is 0.723')
        """
        if self.kind == "decimal":
            whole = decimal(self.read)
            return f"{decimal(self.beam, 1)} and {decimal(self.read - self.beam)} is {whole}" if self.steps and self.beam else whole
        whole = f"{exact(self.read)} ({decimal(self.read)})"
        if not self.steps or not self.beam:
            return whole
        return f"{exact(self.beam)} and {self.steps}/128 is {whole}"
