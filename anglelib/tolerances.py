"""General tolerances: how far off a dimension may be where the drawing gives no limits of its own.

ISO 2768-1:1989, table 1 (linear dimensions) and table 3 (angles), grades f (fine) and m (medium).
Table 1 was read in a copy; table 3 is second-hand and stops here at 400 mm. The kit's own plans
outrank both. The standard's millimetres are kept exactly, as inches.

>>> linear("2 1/8", "m") == Fraction(3, 10) * MM
True
>>> linear("0.01", "m")
Traceback (most recent call last):
    ...
anglelib.errors.LengthError: The dimension 0.01 is below 0.5 mm, where ISO 2768-1 gives no general tolerance: write its limits beside it.
"""

from __future__ import annotations

from fractions import Fraction
from math import isfinite

from anglelib.errors import LengthError
from anglelib.lengths import MM, decimal, exact, inches

SOURCE = "ISO 2768-1:1989, table 1"
ANGLE_SOURCE = "ISO 2768-1:1989, table 3 (second-hand)"
GRADES = {"f": "fine", "m": "medium"}

_SMALLEST = Fraction(1, 2)  # mm
# Up to this size [mm], the deviation either way [hundredths of a mm] in grades f and m; None: no value.
_LINEAR = (
    (3, {"f": 5, "m": 10}),
    (6, {"f": 5, "m": 10}),
    (30, {"f": 10, "m": 20}),
    (120, {"f": 15, "m": 30}),
    (400, {"f": 20, "m": 50}),
    (1000, {"f": 30, "m": 80}),
    (2000, {"f": 50, "m": 120}),
    (4000, {"f": None, "m": 200}),
)
# Up to this length of the angle's shorter leg [mm], the deviation either way [minutes]; f and m alike.
_ANGULAR = ((10, 60), (50, 30), (120, 20), (400, 10))


def linear(nominal: Fraction | int | str | float, grade: str = "m") -> Fraction:
    """How far a length may be off, either way [in], exactly: ISO 2768-1 table 1.

    ``nominal`` [in] is what the drawing says; a float (a mark that comes from an angle) is taken as
    it is. Raises :class:`~anglelib.errors.LengthError` outside the table or for another grade.

    >>> linear(12, "f") / MM, linear("3 mm") / MM
    (Fraction(1, 5), Fraction(1, 10))
    """
    size, shown = _millimetres(nominal, "dimension", grade)
    if size < _SMALLEST:
        raise LengthError(
            f"The dimension {shown} is below 0.5 mm, where ISO 2768-1 gives no general tolerance: write its limits beside it."
        )
    for most, deviation in _LINEAR:
        if size <= most and deviation[grade] is not None:
            return Fraction(deviation[grade], 100) * MM
    longest = max(most for most, deviation in _LINEAR if deviation[grade] is not None)
    raise LengthError(
        f"The dimension {shown} is over {longest} mm, where ISO 2768-1 grade {grade} ends: write its limits beside it."
    )


def angular(shorter_leg: Fraction | int | str | float, grade: str = "m") -> Fraction:
    """How far an angle may be off, either way [deg], exactly, by the length of its shorter leg [in]: table 3.

    >>> angular("1 1/4"), angular(6)
    (Fraction(1, 2), Fraction(1, 6))
    """
    size, shown = _millimetres(shorter_leg, "shorter leg of the angle", grade)
    if size == 0:
        raise LengthError("The shorter leg of the angle is 0: give its length.")
    for most, minutes in _ANGULAR:
        if size <= most:
            return Fraction(minutes, 60)
    raise LengthError(f"The shorter leg of the angle, {shown}, is over 400 mm: write the angle's limits beside it.")


def _millimetres(value: Fraction | int | str | float, what: str, grade: str) -> tuple[Fraction, str]:
    """The size in millimetres, exactly, and as it is shown in a refusal."""
    if grade not in GRADES:
        raise LengthError(f'There is no grade "{grade}" here: choose f (fine) or m (medium).')
    if isinstance(value, float):
        if not (isfinite(value) and value >= 0):
            raise LengthError(f"The {what} is not a length of metal: give a length above 0.")
        return Fraction(value) / MM, decimal(value)
    value = inches(value, what)
    return value / MM, exact(value)
