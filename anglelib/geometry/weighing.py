"""What weighing a piece of stock can say about its alloy: between which weights it lies for all that was measured.

A piece is weighed and its length and thickness are measured, each to within an error. For one alloy that gives the
lightest and the heaviest it may be; two alloys whose spans overlap cannot be told apart.

>>> from anglelib.section import Section
>>> piece = Weighing(Section("3/4", "3/4", "1/8", fillet="1/8"), Fraction(12), Fraction(1, 1000), Fraction(1, 2))
>>> [round(piece.grams(alloy), 1) for alloy in ("6063", "6061", "2024", "7075")]
[92.5, 93.0, 95.4, 96.3]
>>> piece.parts("6061", "6063"), piece.parts("6061", "7075")
(False, True)
>>> piece.can_be(95.4)
('2024', '7075')
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from anglelib.alloy import ALLOYS, density
from anglelib.section import Section, largest_heel_radius

POUND = Fraction(45359237, 100000)
"""The avoirdupois pound [g], by definition."""
LENGTH_ERROR = Fraction(1, 64)
"""How well a sawn piece's length is known [in]: a graduation of the rule."""


@dataclass(frozen=True)
class Weighing:
    """A piece of a section, so long [in], its thickness read to ``thickness_error`` [in], its weight to ``scale_error`` [g]."""

    section: Section
    length: Fraction
    thickness_error: Fraction
    scale_error: Fraction

    def grams(self, alloy: str) -> float:
        """What the piece weighs in an alloy [g], if it is as it was measured."""
        return self.section.area * float(self.length * POUND) * density(alloy)

    def span(self, alloy: str) -> tuple[float, float]:
        """The least and the most that the scale may show for an alloy [g], every error at its worst."""
        low, high = (
            replace(self, section=_thicker(self.section, way * self.thickness_error), length=self.length + way * LENGTH_ERROR).grams(alloy)
            for way in (-1, 1)
        )
        return low - float(self.scale_error), high + float(self.scale_error)

    def parts(self, one: str, two: str) -> bool:
        """Whether two alloys can be told apart: their spans do not overlap."""
        (low_1, high_1), (low_2, high_2) = self.span(one), self.span(two)
        return high_1 < low_2 or high_2 < low_1

    def can_be(self, grams: float) -> tuple[str, ...]:
        """The alloys of the table that a piece of this weight can be, the lightest first."""
        found = [alloy for alloy in ALLOYS if self.span(alloy)[0] <= grams <= self.span(alloy)[1]]
        return tuple(sorted(found, key=density))

    def faked_by(self, one: str, two: str) -> float:
        """How much thicker a piece of ``one`` weighs as much as ``two`` [in].

        >>> piece = Weighing(Section("3/4", "3/4", "1/8", fillet="1/8"), Fraction(12), Fraction(0), Fraction(0))
        >>> round(piece.faked_by("6061", "2024"), 4)
        0.0036
        """
        wanted, low, high = self.grams(two), 0.0, float(min(self.section.leg_a, self.section.leg_b)) / 8
        for _ in range(50):
            middle = (low + high) / 2
            thick = replace(self, section=_thicker(self.section, Fraction(middle).limit_denominator(10**9)))
            low, high = (middle, high) if thick.grams(one) < wanted else (low, middle)
        return (low + high) / 2


def _thicker(section: Section, by: Fraction) -> Section:
    """The section with thicker legs; radii that would no longer fit give way by as much.

    >>> _thicker(Section(1, 1, "1/16", toe_radius="1/16"), Fraction(-1, 100)).toe_radius
    Fraction(21, 400)
    """
    a, b = section.thickness_a + by, section.thickness("B") + by
    toe = min(section.toe_radius, a, b)
    fillet = min(section.fillet, min(section.leg_a - b, section.leg_b - a) - toe)
    heel = min(section.heel_radius, largest_heel_radius(section.leg_a, section.leg_b, a, b, fillet))
    return replace(section, thickness_a=a, thickness_b=b, toe_radius=toe, fillet=fillet, heel_radius=heel)
