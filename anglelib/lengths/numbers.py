"""A length as a number: the graduations of a rule and what rounding to them lost, decimals, millimetres."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import floor, isfinite

from anglelib.errors import LengthError
from anglelib.lengths.units import MM

GRADUATIONS = (1, 2, 4, 8, 16, 32, 64, 128)
"""Marks to the inch that a rule may carry (halving down to 1/64; 1/128 to print what a rule cannot show)."""


@dataclass(frozen=True)
class Printed:
    """A length as a rule shows it, and what the rounding lost.

    ``text`` is the shop fraction; ``value`` [in] is what the text says; ``lost`` [in] is the true
    length minus ``value`` (positive: the print is short of the truth).
    """

    text: str
    value: Fraction
    lost: Fraction
    graduation: int
    rounding: str


def as_fraction(value: Fraction | int | float, graduation: int) -> Fraction:
    """The value as a Fraction; a float within 1e-9 of a graduation is that graduation.

    A trigonometric 0.12500000000000003 is 1/8, and rounding it "up" must not make it 9/64.
    """
    if isinstance(value, float):
        if not isfinite(value):
            raise LengthError("This length has no end: the angle is too near 0 or 90 degrees to draw.")
        near = Fraction(round(value * graduation), graduation)
        return near if abs(near - Fraction(value)) < Fraction(1, 10**9) else Fraction(value)
    return Fraction(value)


def printed(value: Fraction | int | float, graduation: int = 64, rounding: str = "nearest") -> Printed:
    """A length to the nearest, next higher ("up") or next lower ("down") graduation of a rule.

    Halves of a graduation go up. ``graduation`` is the marks to the inch.

    >>> printed(Fraction(2165, 10000), 64, "up")
    Printed(text='7/32', value=Fraction(7, 32), lost=Fraction(-9, 4000), graduation=64, rounding='up')
    >>> printed(1, 10)
    Traceback (most recent call last):
        ...
    anglelib.errors.LengthError: A rule has no 1/10 in. graduation here: choose one of 1, 2, 4, 8, 16, 32, 64, 128.
    """
    if graduation not in GRADUATIONS:
        raise LengthError(
            f"A rule has no 1/{graduation} in. graduation here: choose one of {', '.join(map(str, GRADUATIONS))}."
        )
    exact = as_fraction(value, graduation)
    scaled = exact * graduation
    if rounding == "nearest":
        steps = floor(scaled + Fraction(1, 2))
    elif rounding == "up":
        steps = -floor(-scaled)
    elif rounding == "down":
        steps = floor(scaled)
    else:
        raise LengthError(f'Rounding "{rounding}" is unknown: choose nearest, up or down.')
    shown = Fraction(steps, graduation)
    return Printed(fraction_text(shown), shown, exact - shown, graduation, rounding)


def fraction_text(value: Fraction) -> str:
    whole, rest = divmod(abs(value), 1)
    sign = "-" if value < 0 else ""
    if not rest:
        return f"{sign}{whole}"
    return f"{sign}{whole} {rest}" if whole else f"{sign}{rest}"


def in_mm(value: Fraction | int | float) -> Fraction:
    """Millimetres as a Fraction; a float within 1e-8 of a hundredth is that hundredth."""
    if isinstance(value, float):
        found = Fraction(as_fraction(value, 64)) / MM
        near = Fraction(round(found * 100), 100)
        return near if abs(near - found) < Fraction(1, 10**8) else found
    return Fraction(value) / MM


def trimmed(value: Fraction, places: int = 2) -> str:
    text = decimal(value, places)
    return text.rstrip("0").rstrip(".") if "." in text else text


def decimal(value: Fraction | int | float, places: int = 3) -> str:
    """The length as a decimal inch with so many places, halves up; never "-0.000".

    >>> decimal(Fraction(13, 8)), decimal(Fraction(-1, 4000)), decimal(0.2165063509)
    ('1.625', '0.000', '0.217')
    """
    scale = 10**places
    steps = floor(abs(as_fraction(value, 64)) * scale + Fraction(1, 2))
    sign = "-" if value < 0 and steps else ""
    whole, rest = divmod(steps, scale)
    return f"{sign}{whole}.{rest:0{places}d}" if places else f"{sign}{whole}"


def millimetres(value: Fraction | int | float, places: int = 1) -> str:
    """The length in millimetres as text, halves up.

    >>> millimetres(Fraction(13, 8)), millimetres(Fraction(13, 8), 3)
    ('41.3', '41.275')
    """
    exact = as_fraction(value, 64) / MM
    return decimal(exact, places)


def to_mm(value: Fraction | int | float) -> float:
    """The length in millimetres as a number for drawing.

    >>> to_mm(Fraction(13, 8))
    41.275
    """
    return float(Fraction(value) / MM) if not isinstance(value, float) else value * 25.4
