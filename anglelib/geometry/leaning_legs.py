"""Legs that are not at 90 degrees to each other, open or closed within angularity, and what that does inside the angle.

The fillet's arc touches both inner faces wherever they are, so it begins further from the heel where
the legs close and nearer where they open; a square set in the inside stands off one end of its face; and a
saw that is square to the tapered leg nicks the toe of a leg that leans over it.

>>> from anglelib.part import Taper
>>> from anglelib.section import Section
>>> stock = Section("1 1/2", "1 1/2", "1/8", fillet="3/16")
>>> line = TaperLine.of(stock, Taper("A", 1, "1/8", angle=10))
>>> closed, open_ = LeaningLegs(stock, -2), LeaningLegs(stock, 2)
>>> [round(legs.fillet_start("A"), 4) for legs in (closed, open_)]
[0.3236, 0.3018]
>>> round(closed.nick(line), 4), open_.nick(line)
(0.2965, 0.0)
>>> LeaningLegs(stock, 50)
Traceback (most recent call last):
    ...
anglelib.errors.PartError: Legs 50 degrees off square are another shape: give how far they open beyond 90 degrees, from -45 to 45.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import isfinite

from anglelib.errors import PartError
from anglelib.geometry.lazy import formulas
from anglelib.geometry.squaring import MOST_OUT
from anglelib.geometry.taper import TaperLine
from anglelib.lengths import own
from anglelib.section import LEGS, Section, other_leg


@dataclass(frozen=True)
class LeaningLegs:
    """A section whose legs stand at 90 + ``opening`` degrees; below 0 they close.

    Widths and thicknesses are those of the section, each measured on its own leg. PartError where the
    legs are no angle any more, or where the fillet no longer fits between them.
    """

    section: Section
    opening: float

    def __post_init__(self) -> None:
        if not isfinite(self.opening):
            raise PartError("The angle between the legs is not a number: measure it again.")
        if abs(self.opening) > MOST_OUT:
            raise PartError(
                f"Legs {abs(self.opening):g} degrees off square are another shape: give how far they open beyond 90 degrees, from -45 to 45."
            )
        for leg in LEGS:
            if self.fillet_start(leg) > self.last_flat(leg):
                raise PartError(
                    f"The fillet {own(self.section.fillet)} does not fit between legs that close by {-self.opening:g} degrees: "
                    f"it would run past the toe of leg {leg}; measure the fillet and the angle again."
                )

    # --- on the inner face of a leg ---------------------------------------------------------------
    def _seen_from(self, leg: str) -> dict[str, float]:
        return {
            "tA": float(self.section.thickness(leg)), "tB": float(self.section.thickness(other_leg(leg))), "beta": float(self.opening),
        }  # fmt: skip

    def inside_corner(self, leg: str) -> float:
        """Where both inner faces would meet without the fillet, from the heel on a leg [in]."""
        return formulas().inside_corner(**self._seen_from(leg))

    def fillet_start(self, leg: str) -> float:
        """Where the fillet begins on a leg's inner face, from the heel [in]: the arc's tangent point."""
        return formulas().open_tangent(r=float(self.section.fillet), **self._seen_from(leg))

    def last_flat(self, leg: str) -> float:
        """Where a leg's inner face ends: at the toe, or where a round toe begins, from the heel [in]."""
        return float(self.section.leg(leg) - self.section.toe_radius)

    @property
    def fillet_width(self) -> float:
        """The fillet unrolled, from one tangent point to the other [in]: what a paper carried over it must cover."""
        return formulas().arc_length(phi=90 + float(self.opening), rho=float(self.section.fillet))

    def square_gap(self, leg: str) -> float:
        """Light between a leg's inner face and a true square that stands on the other leg's [in].

        Where the legs open it is widest at the toe and the blade touches beside the fillet; where they
        close it is the other way round. The square's own corner must clear the fillet.
        """
        return abs(formulas().inside_gap(y=self.last_flat(leg), y_t=self.fillet_start(leg), beta=float(self.opening)))

    # --- a taper that is sawn square to its own leg -------------------------------------------------
    def first_flat(self, line: TaperLine) -> float:
        """The first mark on the tapered leg's inner flat, beside the fillet, along the heel [in]."""
        return formulas().taper_mark(y=self.fillet_start(line.leg), s=float(line.width_left), c=float(line.slope))

    def mark_off(self, line: TaperLine) -> float:
        """How much further along the heel the cut leaves the inside corner than the mark for legs at 90 says [in]."""
        f, rest = formulas(), {"s": float(line.width_left), "c": float(line.slope)}
        return f.taper_mark(y=self.inside_corner(line.leg), **rest) - f.taper_mark(y=float(line.other_thickness), **rest)

    def nick(self, line: TaperLine) -> float:
        """How far along from the end the saw cuts into the toe of the leg that leans over the taper [in]; 0: not at all.

        Where the legs close, that toe is reached before the inside corner: a taper that leaves the other leg
        whole on legs at 90 nicks it here. Legs at 90 or more have no such nick.
        """
        if self.opening >= 0:
            return 0.0
        reach = formulas().closed_nick(
            c=float(line.slope), tB=float(line.other_thickness), b=float(self.section.leg(line.other)), r2=float(self.section.toe_radius),
            chi=-float(self.opening), s=float(line.width_left),
        )  # fmt: skip
        return max(0.0, reach)
