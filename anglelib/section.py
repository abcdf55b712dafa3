"""The L-section: its legs, thicknesses and radii, and the properties of its area.

Frame of the section: y runs along leg A from the heel (the outside corner) to leg A's toe, z along
leg B. Leg A's outer face is z = 0, leg B's is y = 0.

>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> stock.size
'3/4 x 3/4 x 1/8'
>>> round(stock.area, 6)
0.175228
>>> Section("3/4", "3/4", "3/4")
Traceback (most recent call last):
    ...
anglelib.errors.SectionError: Leg A is 3/4 thick but leg B is only 3/4 wide: a thickness must be below the other leg.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from math import atan2, degrees, fsum, hypot, isqrt, pi, sqrt
from typing import NamedTuple

from anglelib.alloy import density
from anglelib.errors import LengthError, SectionError
from anglelib.hashed import hashed_once
from anglelib.lengths import exact, in_one_unit, inches, show

LEGS = ("A", "B")


class SecondMoments(NamedTuple):
    """Second moments of area about axes through the centroid [in4].

    ``about_y`` is the integral of z squared (bending about the axis along leg A), ``about_z`` that
    of y squared, ``product`` that of y z.
    """

    about_y: float
    about_z: float
    product: float


class PrincipalAxes(NamedTuple):
    """Principal second moments [in4] and the angle [deg] from leg A's direction to the major axis."""

    major: float
    minor: float
    angle: float


def principal_axes(moments: SecondMoments) -> PrincipalAxes:
    """The largest and the smallest second moment of an area [in4] and where the major axis lies [deg]."""
    about_y, about_z, product = moments
    mean, half = (about_y + about_z) / 2, hypot((about_y - about_z) / 2, product)
    return PrincipalAxes(mean + half, mean - half, degrees(atan2(-2 * product, about_y - about_z)) / 2)


class _Piece(NamedTuple):
    """A rectangle or spandrel: sign, area and moments about the heel."""

    area: float
    y: float
    z: float
    yy: float
    zz: float
    yz: float


def _rectangle(y0: float, z0: float, width: float, height: float) -> _Piece:
    area = width * height
    y, z = y0 + width / 2, z0 + height / 2
    return _Piece(
        area,
        area * y,
        area * z,
        area * (y * y + width * width / 12),
        area * (z * z + height * height / 12),
        area * y * z,
    )


def _spandrel(y0: float, z0: float, radius: float, towards: int, sign: int) -> _Piece:
    """The metal between a square corner at (y0, z0) and the arc that touches both of its sides.

    ``towards`` is +1 when it lies on the +y, +z side of its corner, -1 on the other; ``sign`` is +1
    for metal added (a fillet), -1 for metal taken off (a rounded toe or heel). Moments about the
    corner are those of a square less a quarter circle.
    """
    p = radius
    area = (1 - pi / 4) * p**2
    first = towards * (5 / 6 - pi / 4) * p**3
    square = (1 - 5 * pi / 16) * p**4
    product = (19 / 24 - pi / 4) * p**4
    return _Piece(
        sign * area,
        sign * (area * y0 + first),
        sign * (area * z0 + first),
        sign * (area * y0 * y0 + 2 * y0 * first + square),
        sign * (area * z0 * z0 + 2 * z0 * first + square),
        sign * (area * y0 * z0 + (y0 + z0) * first + product),
    )


def largest_heel_radius(
    leg_a: Fraction, leg_b: Fraction, thickness_a: Fraction, thickness_b: Fraction, fillet: Fraction = Fraction(0)
) -> Fraction:
    """The largest heel radius of a section [in], to a millionth below it: there the outer arc touches the fillet, or reaches a toe.

    With legs equally thick and a square inside corner it is t (2 + sqrt 2), 3.41 t. It is the formula ``largest_heel``,
    drawn as a fraction so that a section's sizes stay exact.

    >>> t = Fraction(1, 8)
    >>> round(float(largest_heel_radius(Fraction(1), Fraction(1), t, t) / t), 4)
    3.4142
    >>> largest_heel_radius(Fraction(3, 8), Fraction(1), t, t)
    Fraction(3, 8)
    """
    square = 2 * thickness_a * thickness_b
    root = Fraction(isqrt(square.numerator * square.denominator * 10**12) - 1, square.denominator * 10**6)
    inside = fillet + thickness_a + thickness_b + root
    return min(leg_a, leg_b, inside)


@hashed_once
@dataclass(frozen=True)
class Section:
    """An extruded L: two legs, their thicknesses, and the radii of its corners; all [in], exact.

    ``thickness_b`` is leg A's when it is not given. ``fillet`` is the radius of the inside corner,
    ``toe_radius`` that of each toe's inside edge, ``heel_radius`` that of the outside corner, up to
    :func:`largest_heel_radius`.
    Lengths may be given as Fractions, whole numbers or text. Raises
    :class:`~anglelib.errors.SectionError` for a shape that cannot be extruded; what sizes a stick may have is asked
    where it is read (:mod:`anglelib.section_sizes`).
    """

    leg_a: Fraction
    leg_b: Fraction
    thickness_a: Fraction
    thickness_b: Fraction | None = None
    fillet: Fraction = Fraction(0)
    toe_radius: Fraction = Fraction(0)
    heel_radius: Fraction = Fraction(0)

    def __post_init__(self) -> None:
        if self.thickness_b is None:
            object.__setattr__(self, "thickness_b", self.thickness_a)
        sizes = {  # what each is called, and whether it may be 0
            "leg_a": ("width of leg A", False),
            "leg_b": ("width of leg B", False),
            "thickness_a": ("thickness of leg A", False),
            "thickness_b": ("thickness of leg B", False),
            "fillet": ("fillet radius", True),
            "toe_radius": ("toe radius", True),
            "heel_radius": ("heel radius", True),
        }
        for field, (what, zero) in sizes.items():
            try:
                value = inches(getattr(self, field), what, zero=zero)
            except LengthError as error:
                raise SectionError(str(error), field) from None
            object.__setattr__(self, field, value)
        self._check()

    def _check(self) -> None:
        a, b, ta, tb = self.leg_a, self.leg_b, self.thickness_a, self.thickness_b
        for leg, t, other, width in (("A", ta, "B", b), ("B", tb, "A", a)):
            if t >= width:
                raise SectionError(
                    f"Leg {leg} is {exact(t)} thick but leg {other} is only {exact(width)} wide: "
                    "a thickness must be below the other leg.",
                    "thickness_a" if leg == "A" or ta == tb else "thickness_b",
                )
        flat = min(a - tb, b - ta)
        if self.toe_radius > min(ta, tb):
            raise SectionError(
                f"The toe radius {exact(self.toe_radius)} is more than the thickness {exact(min(ta, tb))}: "
                "it would cut the toe's outer face. Some printed tables carry such rows; measure the toe.",
                "toe_radius",
            )
        if self.fillet + self.toe_radius > flat:
            raise SectionError(
                f"The fillet {exact(self.fillet)} and the toe radius {exact(self.toe_radius)} need more than the "
                f"{exact(flat)} of inside width there is: measure both radii again.",
                "fillet",
            )
        # The outer arc meets the fillet's where (R - r - tB)^2 + (R - r - tA)^2 = (R - r)^2: exact, so no root is drawn.
        over = self.heel_radius - self.fillet - ta - tb
        if self.heel_radius > min(a, b) or (over >= 0 and over * over >= 2 * ta * tb):
            least = show(largest_heel_radius(a, b, ta, tb, self.fillet), 64, "down")
            why = "it would run past a toe" if self.heel_radius > min(a, b) else "it would cut through to the inside corner"
            raise SectionError(
                f"The heel radius {exact(self.heel_radius)} is more than this section takes: {why}. It may be up to {least}; measure it again.",
                "heel_radius",
            )

    # --- by leg -------------------------------------------------------------------------------
    def leg(self, leg: str) -> Fraction:
        """The width of a leg from heel to toe, measured outside [in]."""
        return self.leg_a if _known(leg) == "A" else self.leg_b

    def thickness(self, leg: str) -> Fraction:
        """The thickness of a leg [in]."""
        return self.thickness_a if _known(leg) == "A" else self.thickness_b

    @cached_property
    def widths(self) -> dict[str, float]:
        """The width of each leg as a number to compute with [in]."""
        return {"A": float(self.leg_a), "B": float(self.leg_b)}

    @property
    def equal_legs(self) -> bool:
        """Whether leg A and leg B cannot be told apart."""
        return self.leg_a == self.leg_b and self.thickness_a == self.thickness_b

    def swapped(self) -> Section:
        """The same section with leg A and leg B exchanged."""
        return self if self.equal_legs else self._swapped

    @cached_property
    def _swapped(self) -> Section:
        return Section(
            self.leg_b,
            self.leg_a,
            self.thickness_b,
            self.thickness_a,
            self.fillet,
            self.toe_radius,
            self.heel_radius,
        )

    @property
    def size(self) -> str:
        """The size as a supplier writes it: leg A x leg B x thickness, in the unit of the stock.

        >>> Section(2, "1 1/2", "3/16", "1/8").size, Section("50 mm", "50 mm", "5 mm").size
        ('2 x 1 1/2 x 3/16 and 1/8', '50 x 50 x 5 mm')
        """
        sizes = (self.leg_a, self.leg_b, self.thickness_a, *((self.thickness_b,) if self.thickness_b != self.thickness_a else ()))
        texts, unit = in_one_unit(sizes)
        return f"{' x '.join(texts[:3])}{f' and {texts[3]}' if len(texts) > 3 else ''}{unit}"

    # --- the area and its moments ---------------------------------------------------------------
    @cached_property
    def _pieces(self) -> tuple[_Piece, ...]:
        a, b, ta, tb = (float(v) for v in (self.leg_a, self.leg_b, self.thickness_a, self.thickness_b))
        fillet, toe, heel = (float(v) for v in (self.fillet, self.toe_radius, self.heel_radius))
        return (
            _rectangle(0.0, 0.0, a, ta),
            _rectangle(0.0, ta, tb, b - ta),
            _spandrel(tb, ta, fillet, +1, +1),
            _spandrel(a, ta, toe, -1, -1),
            _spandrel(tb, b, toe, -1, -1),
            _spandrel(0.0, 0.0, heel, +1, -1),
        )

    def _total(self, moment: str) -> float:
        return fsum(getattr(piece, moment) for piece in self._pieces)

    @cached_property
    def area(self) -> float:
        """Area of the cross-section [in2], fillet and radii included."""
        return self._total("area")

    @property
    def perimeter(self) -> float:
        """Length of the outline of the cross-section [in]: what a coat of primer has to cover, per inch."""
        corners = self.fillet + 2 * self.toe_radius + self.heel_radius
        return float(2 * (self.leg_a + self.leg_b)) - (2 - pi / 2) * float(corners)

    @cached_property
    def centroid(self) -> tuple[float, float]:
        """Where the cross-section balances: (y, z) from the outer faces of leg B and leg A [in]."""
        return self._total("y") / self.area, self._total("z") / self.area

    @cached_property
    def second_moments(self) -> SecondMoments:
        """Second moments of area about axes through the centroid, parallel to the legs [in4]."""
        y, z = self.centroid
        return SecondMoments(
            self._total("zz") - self.area * z * z,
            self._total("yy") - self.area * y * y,
            self._total("yz") - self.area * y * z,
        )

    @property
    def principal(self) -> PrincipalAxes:
        """The largest and the smallest second moment [in4] and where the major axis lies [deg].

        >>> round(Section(2, 2, "1/8", fillet="1/4", toe_radius="1/8").principal.angle, 9)
        45.0
        """
        return principal_axes(self.second_moments)

    @property
    def least_gyration(self) -> float:
        """The smallest radius of gyration [in], about the minor principal axis. Geometry, not strength."""
        return sqrt(self.principal.minor / self.area)

    def weight_per_foot(self, alloy: str) -> float:
        """What a foot of this section weighs in an alloy [lb/ft].

        >>> round(Section(2, 2, "1/8", fillet="1/4", toe_radius="1/8").weight_per_foot("6061-T6"), 2)
        0.57
        """
        return 12 * self.area * density(alloy)


def _known(leg: str) -> str:
    if leg not in LEGS:
        raise SectionError(f'There is no leg "{leg}": a section has leg A and leg B.')
    return leg


def other_leg(leg: str) -> str:
    """The leg that is not this one.

    >>> other_leg("A")
    'B'
    """
    return "B" if _known(leg) == "A" else "A"
