"""What a stick that is twisted, or whose toe is not square, does to a reading and to a mark.

A stick is twisted by so many degrees a foot: with one end flat on the table the far end's toe stands
off it. A toe's edge may slope, or be round, as rolling leaves it: then the inner face shows less of
the leg than the outer one, and a mark struck from the toe there lies short.

>>> from anglelib.section import Section
>>> [round(rise, 4) for rise in twist_rises(Section("1 1/2", 2, "1/8"), twist_per_foot=0.5, distance=72)]
[0.0785, 0.1047]
>>> twist_from_rise(0.75, 0.9, 24)
Traceback (most recent call last):
    ...
anglelib.errors.PartError: A rise of 0.9 is more than the leg is wide, 0.75: measure the gap under the toe again, in the unit of the leg.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import isfinite

from anglelib.errors import PartError
from anglelib.geometry.lazy import formulas
from anglelib.geometry.squaring import MOST_OUT, twist_roll
from anglelib.geometry.taper import TaperLine
from anglelib.lengths import own
from anglelib.section import Section

MOST_TURN = 90.0
"""A stick that turns further than this between two places stands on its other leg there [deg]."""


def twist_rises(section: Section, twist_per_foot: float, distance: float) -> tuple[float, float]:
    """How far the far end's toe stands off a flat table, lying on leg A and lying on leg B [in].

    The near end lies flat, ``distance`` [in] away; ``twist_per_foot`` in degrees. The heel lies on the table.
    """
    if not (isfinite(distance) and distance >= 0):
        raise PartError("The distance along the stick is not a length: give it as 0 or more, in inches.")
    if not isfinite(twist_per_foot) or abs(twist_roll(twist_per_foot, distance)) > MOST_TURN:
        raise PartError(f"The stick cannot turn over {MOST_TURN:g} degrees between two places: give its twist for each foot, for example 0.5.")
    f, way = formulas(), {"omega": abs(float(twist_per_foot)), "x": float(distance)}
    return f.twist_rise(W=float(section.leg_a), **way), f.twist_rise(W=float(section.leg_b), **way)


def twist_from_rise(width: float, rise: float, distance: float) -> float:
    """The twist in degrees a foot, from the gap under the toe of a leg so wide, so far from the end that lies flat; all [in].

    >>> round(twist_from_rise(1.5, 0.0785, 72), 3)
    0.5
    """
    if not (isfinite(width) and isfinite(distance) and width > 0 and distance > 0):
        raise PartError("The leg and the distance along the stick must be lengths above 0: measure both again.")
    if not 0 <= rise <= width:
        raise PartError(f"A rise of {rise:g} is more than the leg is wide, {width:g}: measure the gap under the toe again, in the unit of the leg.")
    return formulas().twist_rise.solved_for("omega")(z_w=float(rise), W=float(width), x=float(distance))


@dataclass(frozen=True)
class BevelledToe:
    """A leg whose toe's edge slopes back towards the heel, from the outer face to the inner, by ``slope`` [deg].

    The outer corner is sharp and gives the leg its width; at the inner one the section's toe radius rounds
    what the slope leaves. A slope of 0 is a square edge. PartError where the slope is none, or leaves no inner face.

    >>> toe = BevelledToe(Section("1 1/2", "1 1/2", "1/8", toe_radius="1/16"), "A", 8)
    >>> round(toe.lost, 4), round(toe.inner_width, 4)
    (0.0719, 1.4281)
    >>> BevelledToe(Section(1, 1, "1/8"), "A", 60)
    Traceback (most recent call last):
        ...
    anglelib.errors.PartError: A toe that slopes by 60 degrees is a cut: give its edge's slope from square, from 0 to 45.
    """

    section: Section
    leg: str
    slope: float

    def __post_init__(self) -> None:
        width = self.section.leg(self.leg)
        if not isfinite(self.slope):
            raise PartError("The slope of the toe's edge is not a number: measure it again, from square.")
        if not 0 <= self.slope <= MOST_OUT:
            raise PartError(f"A toe that slopes by {self.slope:g} degrees is a cut: give its edge's slope from square, from 0 to {MOST_OUT:g}.")
        if self.lost >= width:
            raise PartError(f"A toe that slopes by {self.slope:g} degrees leaves nothing of leg {self.leg}'s {own(width)}: measure it again.")

    @property
    def lost(self) -> float:
        """How much less of the leg the inner face shows than the outer one: so much a reading there is short [in]."""
        return formulas().bevelled_toe(tA=float(self.section.thickness(self.leg)), r2=float(self.section.toe_radius), kappa=float(self.slope))

    @property
    def inner_width(self) -> float:
        """From the heel to where the inner face ends [in]."""
        return float(self.section.leg(self.leg)) - self.lost

    def mark_short(self, line: TaperLine) -> float:
        """How far the taper's last mark on the inner face lies short of the run, along the heel [in]."""
        if line.leg != self.leg:
            raise PartError(f"The taper is on leg {line.leg}, the toe is leg {self.leg}'s: give the toe of the tapered leg.")
        f, rest = formulas(), {"s": float(line.width_left), "c": float(line.slope)}
        return f.taper_mark(y=float(line.width), **rest) - f.taper_mark(y=self.inner_width, **rest)
