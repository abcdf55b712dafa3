"""Compound cuts, protractor readings and kerf.

A compound cut is the plane x = x0 + p y + q z, given by the angles of its lines on both legs. What
the saw is set to depends on how the angle lies: on leg A, on leg B, or heel up on both toes.

>>> from anglelib.section import Section
>>> cut = CompoundCut(60, 75)
>>> [f"{s.miter:.3f}/{s.tilt:.3f}" for s in cut.settings(Section(1, 1, "1/8"))]
['30.000/13.064', '15.000/29.147', '12.341/30.281']
>>> CompoundCut(0, 75)
Traceback (most recent call last):
    ...
anglelib.errors.PartError: The line on leg A is at 0 degrees to the heel: it must lie between 0 and 180 (90 is square).
"""

from __future__ import annotations

from dataclasses import dataclass
from math import isfinite, sqrt

from anglelib.errors import PartError
from anglelib.geometry.lazy import formulas
from anglelib.section import Section

LIES = ON_A, ON_B, HEEL_UP = "on-A", "on-B", "heel-up"
"""How the angle lies at a miter saw."""
MITER_REACH = 50.0
"""What a miter saw usually turns from square [deg]; a setting, look at your own saw."""
TILT_REACH = 45.0
"""What a miter saw usually tilts [deg]; a setting, look at your own saw."""


@dataclass(frozen=True)
class SawSetting:
    """What to set a miter saw to: how the angle lies (an id: on-A, on-B, heel-up), miter from square [deg], tilt from upright [deg]."""

    lies: str
    miter: float
    tilt: float

    def beyond(self, miter_reach: float = MITER_REACH, tilt_reach: float = TILT_REACH) -> str:
        """Why a miter saw cannot make this cut, as a sentence; empty where it can.

        >>> SawSetting("on-A", 80, 0).beyond()
        'A miter of 80.0 degrees is beyond the 50 that the saw turns: saw it on a band saw, or sand to the line.'
        """
        if abs(self.miter) > miter_reach:
            return (
                f"A miter of {abs(self.miter):.1f} degrees is beyond the {miter_reach:g} that the saw turns: "
                "saw it on a band saw, or sand to the line."
            )
        if abs(self.tilt) > tilt_reach:
            return (
                f"A tilt of {abs(self.tilt):.1f} degrees is beyond the {tilt_reach:g} that the saw tilts: "
                "lay the angle another way, or sand to the line."
            )
        return ""


@dataclass(frozen=True)
class CompoundCut:
    """A plane through lines at ``on_a`` and ``on_b`` degrees to the heel on the two outer faces (90: square)."""

    on_a: float
    on_b: float

    def __post_init__(self) -> None:
        for leg, angle in (("A", self.on_a), ("B", self.on_b)):
            if not isfinite(angle):
                raise PartError(f"The angle of the line on leg {leg} is not a number: measure it again, from the heel.")
            if not 0 < angle < 180:
                raise PartError(
                    f"The line on leg {leg} is at {angle:g} degrees to the heel: it must lie between 0 and 180 (90 is square)."
                )

    @classmethod
    def from_setting(cls, setting: SawSetting, section: Section) -> CompoundCut:
        """The lines that a saw leaves on the outer faces of a section, set so, the stock lying as the setting says.

        >>> stock = Section(1, 1, "1/8")
        >>> cut = CompoundCut.from_setting(SawSetting("heel-up", 12.341, 30.281), stock)
        >>> round(cut.on_a, 2), round(cut.on_b, 2)
        (60.0, 75.0)
        >>> [round(mark, 3) for mark in cut.toe_marks(stock)]
        [0.577, 0.268]
        >>> CompoundCut.from_setting(SawSetting("heel-up", 95, 30), stock)
        Traceback (most recent call last):
            ...
        anglelib.errors.PartError: A miter of 95 degrees cannot be set: it must lie between -90 and 90, from square.
        """
        for what, angle, zero in (("miter", setting.miter, "square"), ("tilt", setting.tilt, "upright")):
            if not isfinite(angle):
                raise PartError(f"The {what} is not a number: read it off the saw again.")
            if not -90 < angle < 90:
                raise PartError(f"A {what} of {angle:g} degrees cannot be set: it must lie between -90 and 90, from {zero}.")
        if setting.lies not in LIES:
            raise PartError(f'"{setting.lies}" is no way for the angle to lie: give one of {", ".join(LIES)}.')
        f, miter, tilt = formulas(), float(setting.miter), float(setting.tilt)
        if setting.lies == HEEL_UP:
            gamma = _rest(section)
            p, q = f.slope_a_heel_up(mu=miter, nu=tilt, gamma=gamma), f.slope_b_heel_up(mu=miter, nu=tilt, gamma=gamma)
        else:
            p = f.miter_flat.solved_for("p")(mu=miter)
            q = f.tilt_flat.solved_for("q")(nu=tilt, mu=miter)
            p, q = (p, q) if setting.lies == ON_A else (q, p)
        return cls(f.line_angle(p=p), f.line_angle(p=q))

    def toe_marks(self, section: Section) -> tuple[float, float]:
        """Where the lines meet toe A and toe B, from where they meet at the heel, along the heel [in]; negative: the other way."""
        f = formulas()
        p, q = self.slopes
        return f.run_from_slope(W=float(section.leg_a), s=0.0, c=p), f.run_from_slope(W=float(section.leg_b), s=0.0, c=q)

    @property
    def slopes(self) -> tuple[float, float]:
        """(p, q): how far the plane runs along the heel for each inch of leg A and of leg B."""
        f = formulas()
        return f.plane_slope(theta_A=self.on_a), f.plane_slope(theta_A=self.on_b)

    def settings(self, section: Section) -> tuple[SawSetting, SawSetting, SawSetting]:
        """The saw settings with the stock on leg A, on leg B, and heel up on both toes."""
        f = formulas()
        p, q = self.slopes
        miter_a, miter_b = f.miter_flat(p=p), f.miter_flat(p=q)
        slope = _rest(section)
        return (
            SawSetting(ON_A, miter_a, f.tilt_flat(q=q, mu=miter_a)),
            SawSetting(ON_B, miter_b, f.tilt_flat(q=p, mu=miter_b)),
            SawSetting(HEEL_UP, f.miter_heel_up(p=p, q=q, gamma=slope), f.tilt_heel_up(p=p, q=q, gamma=slope)),
        )


def _rest(section: Section) -> float:
    """The slope of leg A on the table, heel up on both toes [deg]."""
    return formulas().heel_up_slope(a=section.leg_a, b=section.leg_b, tA=section.thickness_a, tB=section.thickness_b)


def protractor(angle_from_heel: float) -> tuple[float, float]:
    """The two readings of one angle [deg]: from the heel, and from square."""
    return angle_from_heel, formulas().protractor_from_square(theta=angle_from_heel)


@dataclass(frozen=True)
class Kerf:
    """A kerf [in] measured by a test cut, and its standard uncertainty [in]."""

    width: float
    uncertainty: float

    @classmethod
    def from_test_cut(cls, before: float, pieces: tuple[float, ...], reading: float) -> Kerf:
        """From the length before, the lengths of the pieces after, and the standard uncertainty of one reading.

        Each of ``len(pieces) - 1`` cuts took the same; errors of the readings are independent.

        >>> kerf = Kerf.from_test_cut(8.0, (2.94, 2.0, 2.935), reading=0.001)
        >>> round(kerf.width, 4), round(kerf.uncertainty, 4)
        (0.0625, 0.001)
        """
        cuts = len(pieces) - 1
        if cuts < 1:
            raise PartError("A test cut leaves at least two pieces: measure both.")
        width = (before - sum(pieces)) / cuts
        if width <= 0:
            raise PartError("The pieces together are as long as the stick was: measure them again, a saw takes metal.")
        return cls(width, reading * sqrt(len(pieces) + 1) / cuts)
