"""The shop's band saw, as far as it says which cuts it can make; and the hacksaw for those that it cannot.

A small upright saw: the blade runs down through the table, the column stands at the left of it, seen from where the
work is fed. Whatever lies on the column's side of the blade has to pass the column.

>>> saw = Saw("9", table="8")
>>> saw.sawn_across(Fraction(28), Fraction(40)), saw.sawn_across(Fraction(28), Fraction(9))
(False, True)
>>> Saw("9 mm")
Traceback (most recent call last):
    ...
anglelib.errors.JobError: The throat of the saw is 9 mm: no band saw has less than 2 in.; check the unit.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from anglelib.errors import JobError, LengthError
from anglelib.hashed import hashed_once
from anglelib.lengths import inches, own_spoken

LEAST_THROAT, MOST_THROAT = Fraction(2), Fraction(60)
"""No band saw is smaller or larger [in]; a typed unit that was slipped is out of this range."""
MOST_WANDER = Fraction(1, 2)
"""A hacksaw that wanders more is held wrongly [in]."""
HACKSAW_ALLOWANCE = Fraction(1, 16)
"""What a rough cut by hacksaw leaves outside the line where nobody said [in]; common practice."""
HACKSAW_KERF = Fraction(1, 16)
"""What a hacksaw's blade takes where nobody said [in]; from memory: measure it."""


@hashed_once
@dataclass(frozen=True)
class Saw:
    """The shop's saw; all [in]. A length of 0 is one that nobody gave, and nothing is said of it.

    ``throat`` is from the blade to the column. ``column`` is the column's own depth along the feed, the blade in its middle:
    0 takes it as endless, so that nothing passes in front of it or behind. ``table`` is from the blade to the table's edge
    away from the column, ``table_front`` to its front edge, and as far to the rear one; ``fence`` how far from the blade the
    fence can be set. ``hacksaw_allowance`` is what a rough cut by hacksaw leaves outside the line, because it wanders so far
    (never less than the sanding allowance); ``hacksaw_kerf`` what its blade takes.
    """

    throat: Fraction
    column: Fraction = Fraction(0)
    table: Fraction = Fraction(0)
    table_front: Fraction = Fraction(0)
    fence: Fraction = Fraction(0)
    hacksaw_allowance: Fraction = HACKSAW_ALLOWANCE
    hacksaw_kerf: Fraction = HACKSAW_KERF

    def __post_init__(self) -> None:
        for field, what in WORDS.items():
            try:
                object.__setattr__(self, field, inches(getattr(self, field), what, zero=field != "throat"))
            except LengthError as error:
                raise JobError(str(error)) from None
        if self.throat < LEAST_THROAT:
            raise JobError(f"The {WORDS['throat']} is {own_spoken(self.throat)}: no band saw has less than {own_spoken(LEAST_THROAT)}; check the unit.")
        for field in ("throat", "column", "table", "table_front", "fence"):
            if getattr(self, field) > MOST_THROAT:
                raise JobError(f"The {WORDS[field]} is {own_spoken(getattr(self, field))}: no band saw has more than {own_spoken(MOST_THROAT)}; check the unit.")
        for field in ("hacksaw_allowance", "hacksaw_kerf"):
            if getattr(self, field) > MOST_WANDER:
                raise JobError(f"The {WORDS[field]} is over {own_spoken(MOST_WANDER)}: check the unit.")

    def sawn_across(self, one: Fraction, other: Fraction) -> bool:
        """Whether a stick may be sawn square across where a piece ``one`` long lies on one side of the blade and ``other`` on the other [in].

        The piece can be turned end for end, so that the shorter one lies on the column's side.
        """
        return min(one, other) <= self.throat


WORDS = {
    "throat": "throat of the saw",
    "column": "depth of the column",
    "table": "table beside the blade",
    "table_front": "table in front of the blade",
    "fence": "reach of the fence",
    "hacksaw_allowance": "allowance of the hacksaw",
    "hacksaw_kerf": "kerf of the hacksaw",
}
"""What each length of the saw is called."""
