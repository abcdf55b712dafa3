"""What a stick or a part should weigh, how near a scale can tell, and which alloys that rules out.

The thickness decides the weight: an angle that is one thousandth thick weighs almost as much more in
proportion. So a caliper's thousandth is allowed for, and half a graduation of the scale.

>>> from anglelib.section import Section
>>> bracket = Weight.of_length(Section("1 1/4", "1 1/4", "1/8", fillet="1/8"), "6061-T6", 12)
>>> bracket.words
'0.351 lb (159 g ±1.8)'
>>> bracket.rules_out
('2024', '7075')
>>> bracket.sentence
'by weight 2024 and 7075 would show, 6063 would not'
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from anglelib.alloy import ALLOYS, density
from anglelib.geometry.solid import solid_of
from anglelib.part import Part
from anglelib.section import Section

POUND = 453.59237
"""Grams in a pound."""
SCALE = 1.0
"""Graduation of a kitchen scale [g]."""
CALIPER = 0.001
"""How near the thickness is known, by a caliper [in]."""


@dataclass(frozen=True)
class Weight:
    """A weight [lb] in an alloy, and the least thickness of the metal [in], to which a thousandth is compared."""

    pounds: float
    alloy: str
    thickness: Fraction

    @classmethod
    def of_part(cls, part: Part) -> Weight | None:
        """The finished part's; None where the alloy's density is not in the table."""
        if part.alloy[:4] not in ALLOYS:
            return None
        return cls(solid_of(part).weight(part.alloy), part.alloy, _thinnest(part.section))

    @classmethod
    def of_length(cls, section: Section, alloy: str, length: Fraction | int) -> Weight | None:
        """A plain length's; None where the alloy's density is not in the table."""
        if alloy[:4] not in ALLOYS:
            return None
        return cls(section.area * float(length) * density(alloy), alloy, _thinnest(section))

    @property
    def grams(self) -> float:
        """The weight in grams."""
        return self.pounds * POUND

    @property
    def within(self) -> float:
        """How far off the scale's reading may be on a good piece [g]: half a graduation, and the thickness's thousandth."""
        return SCALE / 2 + self.grams * CALIPER / float(self.thickness)

    @property
    def metric(self) -> str:
        """The weight in grams as it is printed, with what a reading may be off."""
        return f"{self.grams:.{1 if self.grams < 20 else 0}f} g ±{self.within:.{1 if self.within < 2 else 0}f}"

    @property
    def words(self) -> str:
        """The weight as it is printed, in pounds and in grams."""
        return f"{self.pounds:.3f} lb ({self.metric})"

    @property
    def rules_out(self) -> tuple[str, ...]:
        """Alloys of which the same piece would weigh so much more or less that a reading tells."""
        own = density(self.alloy)
        return tuple(
            name for name, other in ALLOYS.items() if abs(other.density / own - 1) * self.grams > 2 * self.within and name != self.alloy[:4]
        )

    @property
    def sentence(self) -> str:
        """Which alloys a reading tells apart."""
        would = self.rules_out
        others = tuple(name for name in ALLOYS if name not in would and name != self.alloy[:4])
        if not would:
            return "too light to tell the alloy by weight"
        return f"by weight {' and '.join(would)} would show, {' and '.join(others)} would not"


def _thinnest(section: Section) -> Fraction:
    return min(section.thickness_a, section.thickness("B"))
