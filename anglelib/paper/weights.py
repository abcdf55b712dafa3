"""What a stick or a part should weigh, how near a scale can tell, and which alloys that rules out.

A thickness read to a thousandth decides more than the scale does; both are allowed for, and the rule
that the length is read with (:mod:`anglelib.geometry.weighing`).

>>> from anglelib.section import Section
>>> foot = Weight.of_length(Section("1 1/4", "1 1/4", "1/8", fillet="1/8"), "6061-T6", 12)
>>> foot.words
'0.351 lb (159 g ±2)'
>>> foot.rules_out
('2024', '7075')
>>> Weight.of_length(Section("3/4", "3/4", "1/8"), "8090-T8", 12) is None
True
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from anglelib.alloy import ALLOYS
from anglelib.geometry.solid import solid_of
from anglelib.geometry.weighing import POUND, Weighing
from anglelib.part import Part
from anglelib.section import Section

SCALE_ERROR = Fraction(1, 2)
"""Half a graduation of a kitchen scale [g]."""
CALIPER_ERROR = Fraction(1, 1000)
"""How near a caliper reads the thickness [in]."""


@dataclass(frozen=True)
class Weight:
    """The weight of a piece in an alloy: its plain length as it is weighed, and the share of that which its cuts leave."""

    length: Weighing
    alloy: str
    share: float = 1.0

    @classmethod
    def of_part(cls, part: Part) -> Weight | None:
        """The finished part's; None where the alloy's density is not in the table."""
        plain = cls.of_length(part.section, part.alloy, part.length)
        if plain is None:
            return None
        return cls(plain.length, plain.alloy, solid_of(part).volume / (part.section.area * float(part.length)))

    @classmethod
    def of_length(cls, section: Section, alloy: str, length: Fraction | int) -> Weight | None:
        """A plain length's; None where the alloy's density is not in the table."""
        if alloy[:4] not in ALLOYS:
            return None
        return cls(Weighing(section, Fraction(length), CALIPER_ERROR, SCALE_ERROR), alloy[:4])

    @property
    def grams(self) -> float:
        """The weight [g]."""
        return self.length.grams(self.alloy) * self.share

    @property
    def pounds(self) -> float:
        """The weight [lb]."""
        return self.grams / float(POUND)

    @property
    def within(self) -> float:
        """How far off the scale may be on a good piece [g]."""
        low, high = self._span(self.alloy)
        return (high - low) / 2

    def _span(self, alloy: str) -> tuple[float, float]:
        error = float(SCALE_ERROR)
        low, high = self.length.span(alloy)
        return (low + error) * self.share - error, (high - error) * self.share + error

    @property
    def in_grams(self) -> str:
        """The weight in grams as it is printed."""
        return f"{self.grams:.{1 if self.grams < 20 else 0}f} g"

    @property
    def off(self) -> str:
        """What a reading may be off, in grams, as it is printed."""
        return f"±{self.within:.{1 if self.within < 1.45 else 0}f}"

    @property
    def metric(self) -> str:
        """Both in a row."""
        return f"{self.in_grams} {self.off}"

    @property
    def words(self) -> str:
        """The weight as it is printed, in pounds and in grams."""
        return f"{self.pounds:.3f} lb ({self.metric})"

    @property
    def rules_out(self) -> tuple[str, ...]:
        """The other alloys of the table of which the same piece would weigh so much more or less that a reading tells."""
        low, high = self._span(self.alloy)
        return tuple(name for name in ALLOYS if name != self.alloy and (self._span(name)[0] > high or self._span(name)[1] < low))
