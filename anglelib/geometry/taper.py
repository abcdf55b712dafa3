"""The taper of one leg at one end: where its line lies on every face, and what the cut leaves.

The saw is square to the tapered leg's faces, so its plane meets the whole solid in one rule,
x = (y - s) c: x along the heel from the tapered end, y from the heel across the leg. On the other
leg, whose inner face lies at y = t, the cut is a line square across at x = (t - s) c: the
vertex-projection mark. In the fillet between them it is a quarter sine once the fillet is unrolled.

>>> from anglelib.section import Section
>>> stock = Section("1 1/2", "1 1/2", "1/8", fillet="3/16")
>>> line = TaperLine.of(stock, Taper("A", 1, run="2 1/8"))
>>> line.vertex_projection, line.first_flat
(Fraction(17, 96), Fraction(85, 192))
>>> TaperLine.of(stock, Taper("A", 1, run=2, width_left=2))
Traceback (most recent call last):
    ...
anglelib.errors.PartError: The taper leaves 2 of leg A, which is only 1 1/2 wide: nothing would be cut. Check the width left.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property, lru_cache

from anglelib.errors import PartError
from anglelib.geometry.ends import ends_in
from anglelib.geometry.lazy import formulas
from anglelib.lengths import exact
from anglelib.part import Part, Taper
from anglelib.section import Section, other_leg

Number = Fraction | float


@dataclass(frozen=True)
class TaperLine:
    """The line of one taper, in lengths from its own end; all [in], angles [deg].

    Everything is an exact Fraction where the drawing gives run and width left; as soon as an angle
    enters, and in the fillet, numbers are floats.
    """

    section: Section
    leg: str
    end: int
    width_left: Fraction
    slope: Number
    """Run for each inch of height: c = cot(angle)."""

    @classmethod
    def of(cls, section: Section, taper: Taper) -> TaperLine:
        """The line of a taper on a section. Raises PartError where nothing would be cut."""
        width = section.leg(taper.leg)
        if taper.width_left >= width:
            raise PartError(
                f"The taper leaves {exact(taper.width_left)} of leg {taper.leg}, which is only {exact(width)} wide: "
                "nothing would be cut. Check the width left."
            )
        if taper.run is not None:
            slope: Number = formulas().slope_from_run(X=taper.run, W=width, s=taper.width_left)
        else:
            slope = formulas().slope_from_angle(theta=float(taper.angle))  # type: ignore[arg-type]
        return cls(section, taper.leg, taper.end, taper.width_left, slope)

    # --- the section as this taper sees it ----------------------------------------------------
    @property
    def width(self) -> Fraction:
        """Width of the tapered leg."""
        return self.section.leg(self.leg)

    @property
    def other(self) -> str:
        """The leg that is not tapered."""
        return other_leg(self.leg)

    @property
    def other_thickness(self) -> Fraction:
        """Thickness of the leg that is not tapered: the one that the vertex-projection mark needs."""
        return self.section.thickness(self.other)

    @property
    def exact(self) -> bool:
        """Whether the marks are exact Fractions."""
        return isinstance(self.slope, Fraction)

    @property
    def to_vertex(self) -> bool:
        """Whether the line runs to the vertex, where the heel meets the end."""
        return self.width_left == 0

    @property
    def ends_in(self) -> str:
        """Where the line leaves through the end: "vertex", "other-leg", "fillet" or "flat"."""
        return ends_in(self.section, self.leg, self.width_left)

    # --- angle ------------------------------------------------------------------------------------
    @cached_property
    def angle(self) -> float:
        """Angle of the cut from the heel [deg]."""
        return formulas().angle_from_slope(c=self.slope)

    @property
    def from_square(self) -> float:
        """The same angle as a protractor set from square reads it [deg]."""
        return formulas().protractor_from_square(theta=self.angle)

    @property
    def taper_per_foot(self) -> Number:
        """Fall across the leg in a foot along the heel [in/ft], one side."""
        return formulas().taper_per_foot(c=self.slope)

    def fall_over(self, length: Number) -> Number:
        """Fall across the leg over a length along the heel [in], by its taper per foot."""
        return self.taper_per_foot * length / 12

    def sine_bar(self, bar: Number = Fraction(5)) -> float:
        """Gauge-block height under a sine bar of this length [in] that sets the angle."""
        return formulas().sine_bar(B=bar, theta=self.angle)

    # --- marks --------------------------------------------------------------------------------------
    def at(self, y: Number) -> Number:
        """x of the line at a height y from the heel. Negative: the line has left through the end."""
        return formulas().taper_mark(y=y, s=self.width_left, c=self.slope)

    @cached_property
    def run(self) -> Number:
        """The mark on the toe: the run of the taper."""
        return self.at(self.width)

    @cached_property
    def vertex_projection(self) -> Number | None:
        """The mark on the other leg's inner face; None where the cut does not reach that leg."""
        if self.width_left >= self.other_thickness:
            return None
        return formulas().vertex_projection(t=self.other_thickness, s=self.width_left, c=self.slope)

    @cached_property
    def first_flat(self) -> Number | None:
        """The first mark on the tapered leg's inner flat, beside the fillet; None where the line starts beyond it."""
        if self.ends_in == "flat":
            return None
        return formulas().first_flat_mark(
            t=self.other_thickness, r=self.section.fillet, s=self.width_left, c=self.slope
        )

    @cached_property
    def last_flat(self) -> Number | None:
        """The last mark on the inner flat, where a rounded toe begins; None where the line starts beyond it."""
        if self.width_left > self.width - self.section.toe_radius:
            return None
        return formulas().last_flat_mark(
            W=self.width, r2=self.section.toe_radius, s=self.width_left, c=self.slope
        )

    @cached_property
    def fillet_width(self) -> float:
        """The fillet unrolled, from the tapered leg's tangent to the other leg's."""
        return formulas().fillet_width(r=self.section.fillet)

    def in_fillet(self, u: float) -> float:
        """x of the line in the fillet at u, the way round from the tapered leg's tangent."""
        if not self.section.fillet:
            return float(self.at(self.other_thickness))
        return formulas().fillet_mark(
            t=float(self.other_thickness), r=float(self.section.fillet), s=float(self.width_left), u=u, c=float(self.slope)
        )  # fmt: skip

    def fillet_curve(self, steps: int = 24) -> list[tuple[float, float]]:
        """The line in the unrolled fillet as (u, x) points, from the tapered leg's tangent on.

        It stops at the end (x = 0) where the taper ends inside the fillet; it is empty where there
        is no fillet or the line does not enter it.
        """
        if not self.section.fillet or self.ends_in == "flat":
            return []
        last = self.fillet_width
        if self.ends_in == "fillet":
            last = formulas().fillet_place(
                t=float(self.other_thickness), r=float(self.section.fillet), y=float(self.width_left)
            )
        points = [(last * i / steps, self.in_fillet(last * i / steps)) for i in range(steps + 1)]
        if self.ends_in == "fillet":
            points[-1] = (last, 0.0)
        return points

    @property
    def straight_wrap_error(self) -> float:
        """How far along the heel a straight line carried over the unrolled fillet misses the true mark."""
        return formulas().straight_wrap_error(r=float(self.section.fillet), c=float(self.slope))

    # --- what the cut leaves ----------------------------------------------------------------------------
    @property
    def edge_length(self) -> float:
        """Length of the finished tapered edge."""
        return formulas().edge_length(W=float(self.width), s=float(self.width_left), theta=self.angle)

    @property
    def bevel_length(self) -> Number:
        """How far along the heel the other leg's end is bevelled; 0 where the cut misses that leg."""
        return self.vertex_projection if self.vertex_projection is not None else Fraction(0)

    @property
    def bevel_face(self) -> float:
        """Width of that bevelled face."""
        if self.vertex_projection is None:
            return 0.0
        return formulas().bevel_face(t=float(self.other_thickness), s=float(self.width_left), theta=self.angle)

    def blunting(self, thickness: Number = Fraction(1, 32)) -> Number:
        """Length that is lost along the heel when the feather edge of a vertex taper is blunted."""
        return formulas().blunting(h=thickness, c=self.slope)

    def clearance(self, x: Number, y: Number) -> float:
        """Distance of a point (x from this end, y from the heel) from the tapered edge; negative: cut away."""
        return formulas().taper_clearance(x=float(x), y=float(y), s=float(self.width_left), theta=self.angle)

    # --- the saw -----------------------------------------------------------------------------------------
    def shift_along(self, distance: Number) -> float:
        """How far a mark on the heel or the toe moves towards the end for a line moved off by a distance."""
        return formulas().shift_along(e_s=float(distance), theta=self.angle)

    def shift_across(self, distance: Number) -> float:
        """How far a mark on the end moves towards the toe for a line moved off by a distance."""
        return formulas().shift_across(e_s=float(distance), theta=self.angle)

    def offset(self, distance: Number) -> OffsetLine:
        """The parallel line at a distance on the waste side: the saw line, or a side of the kerf."""
        return OffsetLine(self, distance)


@dataclass(frozen=True)
class OffsetLine:
    """A line parallel to a taper's, at a distance [in] on the waste side of it."""

    line: TaperLine
    distance: Number

    def at(self, y: Number) -> float:
        """x at a height y from the heel; negative: the line has left through the end."""
        return float(self.line.at(y)) - self.line.shift_along(self.distance)

    @property
    def toe(self) -> float:
        """The mark on the toe."""
        return self.at(self.line.width)

    @property
    def end_height(self) -> float:
        """Height from the heel at which the line leaves through the end."""
        return float(self.line.width_left) + self.line.shift_across(self.distance)

    @property
    def vertex_projection(self) -> float | None:
        """The mark on the other leg's inner face; None where the line leaves through the end before it."""
        if self.line.vertex_projection is None:
            return None
        place = self.at(self.line.other_thickness)
        return place if place > 0 else None


@lru_cache(maxsize=256)
def taper_lines(part: Part) -> tuple[TaperLine, ...]:
    """The lines of all tapers of a part, end 1 first, leg A first."""
    return tuple(
        TaperLine.of(part.section, taper) for taper in sorted(part.tapers, key=lambda t: (t.end, t.leg))
    )


def from_end_1(part: Part, end: int, distance: Number) -> Number:
    """A distance from an end as x from end 1, the datum."""
    return distance if end == 1 else part.length - distance


def warnings(part: Part) -> tuple[str, ...]:
    """What is legal but deserves a second look: long runs, crossing tapers, very flat angles."""
    said = []
    for line in taper_lines(part):
        place = f"the taper of leg {line.leg} at end {line.end}"
        if line.run > part.length:
            said.append(f"The run of {place} is longer than the part: the toe is cut away over the whole length.")
        if line.angle < 3:
            said.append(f"The angle of {place} is only {line.angle:.1f} degrees: a mark that is off moves the line far.")
    for leg in ("A", "B"):
        ends = [line for line in taper_lines(part) if line.leg == leg]
        if len(ends) == 2 and ends[0].run + ends[1].run > part.length:
            said.append(f"The tapers of leg {leg} at both ends meet: the leg never reaches its full width.")
    return tuple(said)
