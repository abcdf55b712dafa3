"""Sanding allowance: how much metal to leave outside the line, what it risks, what heat does.

A cut strays by an error of position and by an error of angle about some point along it. The gap
between cut and line is linear along the edge, so it is enough to look at the edge's two ends - but
at both: looking at one end only halves the true risk of a cut that is set from its middle.

>>> saw = Saw(position=0.0114, angle=0.2, edge=2.5, pivot=0.5)
>>> round(saw.risk(1 / 32), 4), round(saw.least_allowance(0.02), 4)
(0.009, 0.0276)
>>> Saw(position=-1, angle=0, edge=1)
Traceback (most recent call last):
    ...
anglelib.errors.PartError: The uncertainty of position is below 0: give what the saw wanders, for example 0.009.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from math import erfc, exp, fsum, isfinite, pi, sqrt

from anglelib.errors import PartError
from anglelib.geometry.lazy import formulas
from anglelib.geometry.quadrature import integrate

EXPANSION = 23.6e-6
"""Growth of aluminium for each kelvin; 6061, Aluminum Association typical value, read in suppliers' data sheets."""
SPECIFIC_HEAT = 896.0
"""Specific heat of 6061 [J/(kg K)]; read in suppliers' data sheets (0.214 Btu/(lb F))."""

# Guesses, every one, until a shop has measured its own by test cuts: whatever rests on them says so.
READING, INK, WANDER = Fraction(1, 128), Fraction(20, 1000), Fraction(15, 1000)
"""Shop guesses [in]: the rule is read to half of 1/64; the ink is so wide; the saw wanders so far to either side."""
SQUARE = 0.0002
"""Standard uncertainty of a combination square's blade [in], a shop guess; makers' catalogues give its limits."""
SANDED = Fraction(10, 1000)
"""How far to either side of the ink's edge sanding to a line ends [in], a shop guess."""
TURN = 0.2
"""By how much a cut turns out of its direction, as a standard uncertainty [deg]; a shop guess."""
PLACE = 0.011
"""Standard uncertainty of where a sawn line lies [in]: what :func:`sawn_end` makes of these guesses, to three places."""


FARTHEST = 9.0
"""Standard deviations beyond which no turn is counted: two in 10^19 lie there."""
STEP = (0.0, 2.0, 9.0)
"""Where a steep step is cut up, in standard deviations of position from its middle."""


def _beyond(z: float) -> float:
    """How much of the normal distribution lies beyond z; small numbers keep their digits."""
    return erfc(z / sqrt(2)) / 2


@dataclass(frozen=True)
class Saw:
    """How a cut of this shop strays: standard uncertainties of position [in] and angle [deg].

    ``edge`` [in] is the length of the cut; ``pivot`` says where along it an angle error turns the
    cut, from 0 (its start) to 1 (its end).
    """

    position: float
    angle: float
    edge: float
    pivot: float = 0.5

    def __post_init__(self) -> None:
        if not (isfinite(self.position) and self.position >= 0):
            raise PartError("The uncertainty of position is below 0: give what the saw wanders, for example 0.009.")
        if not (isfinite(self.angle) and 0 <= self.angle < 45):
            raise PartError("The uncertainty of angle is not between 0 and 45 degrees: give what the cut turns, for example 0.3.")
        if not (isfinite(self.edge) and self.edge > 0):
            raise PartError("The edge has no length: give the length of the cut.")
        if not 0 <= self.pivot <= 1:
            raise PartError("The pivot lies off the cut: give 0 for its start, 1 for its end, or between.")

    @property
    def _arms(self) -> tuple[float, float]:
        return -self.pivot * self.edge, (1 - self.pivot) * self.edge

    @property
    def _turn(self) -> float:
        """The uncertainty of angle as a slope."""
        return formulas().stray(l_p=1.0, delta=float(self.angle))

    def deviations(self) -> tuple[float, float]:
        """Standard uncertainty of the gap at the start and at the end of the edge [in]."""
        f = formulas()
        start, end = (f.gap_deviation(sigma_p=float(self.position), l_p=arm, sigma_a=self._turn) for arm in self._arms)
        return start, end

    def worst_case(self, position: float, angle: float) -> float:
        """The allowance [in] that no cut crosses whose errors stay within these limits [in], [deg]."""
        return formulas().least_allowance(e_p=float(position), f_p=float(self.pivot), l_e=float(self.edge), delta=float(angle))

    def risk(self, allowance: float) -> float:
        """Probability that a cut set so far outside the line crosses it somewhere along its edge.

        Given the turn, the position decides: the probability is one integral over the turn, split
        where the worse end changes, and about the turns that bring an end to the line: where the
        position strays little, the risk goes from none to certain within a hair there. It is the
        bivariate normal of the gaps at both ends.

        >>> round(Saw(position=1.384037e-4, angle=2, edge=10.880587, pivot=0.32544).risk(0.2873956), 5)
        0.14114
        """
        if not isfinite(allowance):
            raise PartError("The allowance is not a length: give what is left outside the line, for example 0.031.")
        start, end = self._arms
        turn, position, room = self._turn, float(self.position), float(allowance)
        if turn == 0:
            return _beyond(room / position) if position else float(allowance < 0)
        # The turns, in standard deviations, that bring an end to the line.
        back, forth = (room / (arm * turn) if arm else None for arm in (start, end))
        if position == 0:
            # Only the turn strays: each end allows so much of it, one to either side.
            if allowance < 0:
                return 1.0
            return fsum(_beyond(abs(z)) for z in (back, forth) if z is not None)

        def crossed(z: float) -> tuple[float]:
            return (exp(-z * z / 2) / sqrt(2 * pi) * _beyond((room - max(start * turn * z, end * turn * z)) / position),)

        breaks = {-FARTHEST, 0.0, FARTHEST}
        for arm, step in ((start, back), (end, forth)):
            if step is not None:
                width = position / (abs(arm) * turn)
                breaks |= {z for share in STEP for z in (step - share * width, step + share * width) if abs(z) < FARTHEST}
        places = sorted(breaks)
        parts = (integrate(crossed, low, high, 1.0)[0] for low, high in zip(places, places[1:], strict=False))
        return min(1.0, fsum(parts))

    def least_allowance(self, risk: float) -> float:
        """The allowance [in] at which the risk of crossing the line is so much."""
        if not 0 < risk < 1:
            raise PartError(f"A risk of {risk:g} cannot be aimed at: give a number between 0 and 1, for example 0.01.")
        low, high = -1.0, 1.0
        while self.risk(high) > risk:
            high *= 2
        while self.risk(low) < risk:
            low *= 2
        for _ in range(60):
            middle = (low + high) / 2
            low, high = (middle, high) if self.risk(middle) > risk else (low, middle)
        return (low + high) / 2


@dataclass(frozen=True)
class Contribution:
    """One thing that makes a mark or a cut uncertain: its name and its standard uncertainty [in]."""

    name: str
    standard: float

    @classmethod
    def from_limits(cls, name: str, half_width: float) -> Contribution:
        """When only limits are known, and anything within them is equally likely."""
        return cls(name, formulas().limits_deviation(a_l=float(half_width)))

    @classmethod
    def from_line(cls, name: str, width: float) -> Contribution:
        """The width of a drawn line: the edge meant lies anywhere across it."""
        return cls.from_limits(name, width / 2)


@dataclass(frozen=True)
class Budget:
    """Uncorrelated contributions, combined by root sum of squares (GUM)."""

    contributions: tuple[Contribution, ...]

    @classmethod
    def of(cls, contributions: Iterable[Contribution]) -> Budget:
        return cls(tuple(contributions))

    @property
    def standard(self) -> float:
        """Combined standard uncertainty [in]."""
        return sqrt(fsum(c.standard**2 for c in self.contributions))

    @property
    def expanded(self) -> float:
        """Expanded uncertainty for about 95 % [in]: twice the standard one."""
        return 2 * self.standard

    @property
    def largest(self) -> Contribution:
        """The contribution that would repay most to improve."""
        return max(self.contributions, key=lambda c: c.standard)


def sawn_end() -> Budget:
    """What makes the place of one sawn end uncertain, from the shop guesses above.

    >>> round(sawn_end().standard, 3) == PLACE, sawn_end().largest.name
    (True, "the saw's wander")
    """
    return Budget.of(
        (
            Contribution.from_limits("reading the rule", float(READING)),
            Contribution.from_line("the width of the ink", float(INK)),
            Contribution("the square", SQUARE),
            Contribution.from_limits("the saw's wander", float(WANDER)),
        )
    )


def finished_edge() -> Budget:
    """What makes the place of an edge uncertain that is marked by a rule and sanded to the line, from the shop guesses above.

    >>> round(finished_edge().expanded, 3)
    0.019
    """
    return Budget.of(
        (
            Contribution.from_limits("reading the rule", float(READING)),
            Contribution.from_line("the width of the ink", float(INK)),
            Contribution("the square", SQUARE),
            Contribution.from_limits("sanding to the line", float(SANDED)),
        )
    )


def growth(length: float, warming: float, expansion: float = EXPANSION) -> float:
    """How much longer a warm part is [in], for a warming in kelvin."""
    return formulas().growth(alpha=float(expansion), L=float(length), dT=float(warming))


def warming(power: float, seconds: float, mass: float, specific_heat: float = SPECIFIC_HEAT) -> float:
    """Temperature rise [K] of a part that takes so many watts for so many seconds, nothing lost.

    An upper bound: air, table and fingers take heat away. ``mass`` in kilograms.
    """
    if mass <= 0:
        raise PartError("The part weighs nothing: give its mass in kilograms.")
    return formulas().heating(P_w=float(power), t_s=float(seconds), m_k=float(mass), c_p=float(specific_heat))
