"""Squaring an end: how far it is out on both legs, what trimming it costs, and what spoils a square.

An end out of square is the plane x = p y + q z, with p and q the slopes along leg A and leg B.

>>> from anglelib.section import Section
>>> stock = Section("1 1/2", "1 1/2", "1/8")
>>> round(End(1, 1).trim(stock), 6), round(End(1, -1).trim(stock), 6)
(0.028364, 0.052365)
>>> End(60, 0)
Traceback (most recent call last):
    ...
anglelib.errors.PartError: An end 60 degrees out of square is a cut at an angle: give at most 45.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot, isfinite

from anglelib.errors import PartError
from anglelib.geometry.lazy import formulas
from anglelib.section import Section

MOST_OUT = 45.0


@dataclass(frozen=True)
class End:
    """An end as the saw left it: out of square by ``on_a`` and ``on_b`` [deg].

    Positive: that leg's toe stands out beyond the heel. Errors of opposite sense add when the end
    is trimmed, because one toe stands out while the other falls back.
    """

    on_a: float
    on_b: float

    def __post_init__(self) -> None:
        for angle in (self.on_a, self.on_b):
            if not isfinite(angle):
                raise PartError("The angle by which the end is out of square is not a number: measure it again.")
            if abs(angle) > MOST_OUT:
                raise PartError(f"An end {abs(angle):g} degrees out of square is a cut at an angle: give at most 45.")

    @classmethod
    def from_gaps(cls, section: Section, on_a: float, on_b: float) -> End:
        """The end from the gap of light at each toe [in], positive where the toe stands out."""
        f = formulas()
        return cls(f.out_of_square(g=float(on_a), W=float(section.leg_a)), f.out_of_square(g=float(on_b), W=float(section.leg_b)))

    @property
    def slopes(self) -> tuple[float, float]:
        """(p, q): how far the end runs out along the heel for each inch of leg A and of leg B."""
        f = formulas()
        return f.end_slope(e_A=self.on_a), f.end_slope(e_A=self.on_b)

    def gaps(self, section: Section) -> tuple[float, float]:
        """Light under a true square laid across each leg, at the toe or, where the toe stands out, at the heel [in]."""
        f = formulas()
        return (
            abs(f.light_gap(W=float(section.leg_a), e_A=self.on_a)),
            abs(f.light_gap(W=float(section.leg_b), e_A=self.on_b)),
        )

    def toe_lengths(self, section: Section, heel_length: float) -> tuple[float, float]:
        """Length along toe A and along toe B of a part whose heel is so long, the other end square [in]."""
        f = formulas()
        return (
            heel_length + f.light_gap(W=float(section.leg_a), e_A=self.on_a),
            heel_length + f.light_gap(W=float(section.leg_b), e_A=self.on_b),
        )

    def trim(self, section: Section) -> float:
        """What must come off along the heel to clean the end up square [in]: its highest less its lowest point."""
        p, q = self.slopes
        return _reach(section, p, q) + _reach(section, -p, -q)

    @property
    def opposite(self) -> bool:
        """Whether one toe stands out and the other falls back: then the two errors add."""
        return self.on_a * self.on_b < 0


def _reach(section: Section, p: float, q: float) -> float:
    """The largest p y + q z over the section, its rounded corners included."""
    a, b, ta, tb, r2, rh = (
        float(v)
        for v in (
            section.leg_a, section.leg_b, section.thickness_a, section.thickness_b, section.toe_radius, section.heel_radius,
        )
    )  # fmt: skip
    places = [a * p, b * q, rh * p, rh * q]
    if p > 0 and q > 0:
        # The inner toes stand out furthest, on their arcs.
        places += [(a - r2) * p + (ta - r2) * q + r2 * hypot(p, q), (tb - r2) * p + (b - r2) * q + r2 * hypot(p, q)]
    elif p < 0 and q < 0:
        places.append(rh * p + rh * q + rh * hypot(p, q))
    else:
        # One slope is nought or they differ in sign: an outer corner or the flat beside it.
        places += [a * p + (ta - r2) * max(q, 0), b * q + (tb - r2) * max(p, 0)]
    return max(places)


def flip_gap(height: float, blade_error: float) -> float:
    """How far apart the two lines of the flip test lie, so far above the edge [in]: twice the square's error [deg]."""
    return formulas().flip_gap(h_q=float(height), e_q=float(blade_error))


@dataclass(frozen=True)
class OpenLegs:
    """What legs at 90 + ``opening`` degrees do to the marks of a taper sawn square to its own leg.

    ``inside_corner`` [in] is where the inside corner lies on the tapered leg, from the heel;
    ``vertex_projection`` [in] the mark on the other leg; ``other_leg_out`` [deg] how far the line on
    the other leg is out of square, negative where it runs out towards the end at the toe. A square
    cut is immune: its slope is nought.
    """

    inside_corner: float
    vertex_projection: float
    other_leg_out: float

    @classmethod
    def of(cls, opening: float, own_thickness: float, other_thickness: float, slope: float, width_left: float = 0) -> OpenLegs:
        """For legs that open ``opening`` degrees beyond 90, and a taper of that slope."""
        f = formulas()
        corner = f.inside_corner(tB=float(other_thickness), tA=float(own_thickness), beta=float(opening))
        return cls(
            corner,
            f.taper_mark(y=corner, s=float(width_left), c=float(slope)),
            -f.angularity_error(c=float(slope), beta=float(opening)),
        )


@dataclass(frozen=True)
class RolledStock:
    """What stock rolled about the heel at the saw does to a taper set by the fence, not by the line.

    ``roll`` [deg] lifts the tapered leg's toe off the table, ``fence`` is the slope that the fence
    is set for. A square cut is immune: its slope is nought.

    >>> rolled = RolledStock(roll=2, fence=5.671)
    >>> round(rolled.slope, 3), round(rolled.other_leg_out, 2), round(rolled.vertex_projection(0.125, 0.125), 4)
    (5.668, -11.2, 0.6837)
    """

    roll: float
    fence: float

    @property
    def slope(self) -> float:
        """The slope of the taper that comes out."""
        return formulas().roll_slope(c=float(self.fence), psi=float(self.roll))

    @property
    def other_leg_out(self) -> float:
        """How far the line on the other leg is out of square [deg]; negative: it runs out towards the end at the toe."""
        return -formulas().roll_error(c=float(self.fence), psi=float(self.roll))

    def vertex_projection(self, own_thickness: float, other_thickness: float) -> float:
        """Where the cut leaves the inside corner, from the vertex along the heel [in]."""
        return formulas().roll_mark(c=float(self.fence), psi=float(self.roll), tA=float(own_thickness), tB=float(other_thickness))


def twist_roll(twist_per_foot: float, distance: float) -> float:
    """Roll [deg] that a twist [deg/ft] makes between two places on a stick, ``distance`` [in] apart."""
    return formulas().twist_roll(omega=float(twist_per_foot), x=float(distance))
