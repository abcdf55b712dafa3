"""Teeth of a band saw's blade: a range for a cut, and the blades in it that can be bought.

Too coarse, and a tooth drops over the edge of thin metal, hooks and strips. Too fine, and in a leg that
the blade goes down as a whole the chips fill the gullets before a tooth is out again. So there are two
bounds, by the thinnest and by the highest metal of the cut.

>>> teeth_for(0.125)  # a leg of 1/8 flat on the table
Teeth(least=16.0, good=24.0, most=None)
>>> teeth_for(0.125).sold, teeth_for(0.125, standing=1.25).sold
((24, 32), (18,))
>>> teeth_for(0.125, standing=2).sold
()
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from anglelib.geometry.lazy import formulas
from anglelib.geometry.setup import Setup

TEETH_IN_METAL = 2
"""Teeth that must be in the thinnest metal at once; see the source of the formula ``least_teeth``."""
GOOD_IN_METAL = 3
"""Teeth that are aimed at there: the three-tooth rule of trade guides to band saw blades."""
MOST_IN_METAL = 24
"""Teeth that may be in the metal at once, or chips fill the gullets; the same guides."""
BLADES = (6, 8, 10, 14, 18, 24, 32)
"""Teeth to the inch of blades that are commonly sold: 6 to 32 (NAVEDTRA 14119, chapter 5); the steps are common practice."""


@dataclass(frozen=True)
class Teeth:
    """Bounds of the teeth to the inch for a cut: ``least``, three in the thinnest metal (``good``), ``most`` (None: no leg stands)."""

    least: float
    good: float
    most: float | None = None

    @property
    def sold(self) -> tuple[int, ...]:
        """Blades that are sold, coarsest first: with three teeth in the thinnest metal where some are, else with two; () where none is."""
        within = [blade for blade in BLADES if blade >= self.least and (self.most is None or blade <= self.most)]
        good = [blade for blade in within if blade >= self.good]
        # a leg that stands asks for the coarsest that will do; nothing is gained by more than the next finer one
        return tuple(good[:2] or within[-1:])

    @property
    def words(self) -> str:
        """The blades in English, as a card says them.

        >>> teeth_for(0.125, standing=2).words
        '18, fed slowly'
        """
        return " or ".join(map(str, self.sold)) or f"{self.least_sold}, fed slowly"

    @property
    def least_sold(self) -> int:
        """The coarsest blade that keeps two teeth in the thinnest metal; the finest there is if none is fine enough."""
        return next((blade for blade in BLADES if blade >= self.least), BLADES[-1])


@lru_cache(maxsize=64)
def teeth_for(metal: Fraction | float, standing: Fraction | float = 0) -> Teeth:
    """The range for the thinnest metal of a cut [in] and the height of a leg that the blade goes down as a whole [in] (0: none)."""
    f = formulas()
    most = float(f.most_teeth(h_o=standing, z_m=MOST_IN_METAL)) if standing else None
    return Teeth(least_teeth(metal), least_teeth(metal, GOOD_IN_METAL), most)


def teeth_of(setup: Setup) -> Teeth:
    """The range for a way of laying the angle.

    >>> from anglelib.geometry.setup import square_cut
    >>> from anglelib.section import Section
    >>> teeth_of(square_cut(Section("3/4", "3/4", "1/8"))).sold
    (18, 24)
    """
    return teeth_for(setup.metal, setup.standing)


def least_teeth(thickness: Fraction | float, teeth_in_metal: int = TEETH_IN_METAL) -> float:
    """The least teeth to the inch for a thickness of metal [in], as a floor."""
    return float(formulas().least_teeth(t=thickness, z_n=teeth_in_metal))
