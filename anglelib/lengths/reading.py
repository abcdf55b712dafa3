"""A length that a person typed, read exactly or refused with its remedy.

What was typed goes three ways: made plain (:mod:`~anglelib.lengths.plain`), given a form (:mod:`~anglelib.lengths.form`), or
questioned (:mod:`~anglelib.lengths.doubt`).
"""

from __future__ import annotations

from fractions import Fraction
from math import isfinite

from anglelib.errors import LengthError
from anglelib.lengths.doubt import after_reading, before_reading
from anglelib.lengths.form import Form, form_of
from anglelib.lengths.plain import plain, quoted
from anglelib.lengths.units import MM

LONGEST = Fraction(1200)
"""The longest length that is read [in]: 100 ft. No stick is that long, so a longer one is a slip of the unit."""

_INCH = {"in": Fraction(1), "mm": MM, "cm": 10 * MM, "m": 1000 * MM, "thou": Fraction(1, 1000), "ft": Fraction(12)}


def read(
    text: str,
    *,
    what: str = "length",
    unit: str = "in",
    negative: bool = False,
    zero: bool = True,
) -> Fraction:
    """The length that a person typed [in], exactly.

    ``what`` names the quantity in a refusal; ``unit`` ("in" or "mm") is what a bare number means;
    ``negative`` and ``zero`` say whether such a value makes sense there. Anything else than a
    length raises :class:`~anglelib.errors.LengthError` with what to type instead.

    >>> read("5' 3 1/4\\""), read("1⅝"), read(".625"), read("6 cm") == 60 * MM
    (Fraction(253, 4), Fraction(13, 8), Fraction(5, 8), True)
    >>> read("1/2 ft."), read("66 thou")
    (Fraction(6, 1), Fraction(33, 500))
    >>> read("0", what="run", zero=False)
    Traceback (most recent call last):
        ...
    anglelib.errors.LengthError: The run is 0: give a length above 0.
    """
    return _read(text, what, unit, negative, zero)[0]


def _read(text: str, what: str, unit: str, negative: bool, zero: bool) -> tuple[Fraction, Form]:
    """The length and the form in which it was typed."""
    if not isinstance(text, str):
        raise LengthError(f"The {what} is not text: write it in quotes, for example \"1 5/8\" or \"41.3 mm\".")
    form = _form(text, what, unit)
    value, said = _value(form, unit), f"The {what} {quoted(text)}"
    if value < 0 and not negative:
        raise LengthError(f"{said} is below 0: leave out the minus sign.")
    if value == 0 and not zero:
        raise LengthError(f"The {what} is 0: give a length above 0.")
    if abs(value) > LONGEST:
        raise LengthError(f"{said} is over {LONGEST // 12} ft: no stick is that long; check the number and its unit.")
    return value, form


def _form(text: str, what: str, unit: str) -> Form:
    said, clear = f"The {what} {quoted(text)}", plain(text, what)

    def reads(other: str) -> Form | None:
        try:
            form = form_of(other, said)
        except LengthError:
            return None
        return form if form is not None and abs(_value(form, unit)) <= LONGEST else None

    if doubt := before_reading(clear, reads):
        raise LengthError(f"{said} {doubt}")
    form = form_of(clear, said)
    if form is None:
        doubt = after_reading(clear, reads) or "is not a length: write it like 1 5/8, 1.625, 5' 3 1/4\" or 41.3 mm."
        raise LengthError(f"{said} {doubt}")
    return form


def _value(form: Form, unit: str) -> Fraction:
    """The length [in]; ``unit`` is what a number means that names none."""
    value = 12 * (form.feet or 0) + form.number * _INCH[form.unit or unit]
    return -value if form.negative else value


def typed(text: str, unit: str, *, what: str = "length", negative: bool = False, zero: bool = True) -> Fraction:
    """The length that a person typed where ``unit`` is usual [in]: as :func:`read`, but of a bare fraction it asks which unit it is in.

    >>> typed("85", "mm") == 85 * MM, typed("1/8 in", "mm"), typed("1/8", "in")
    (True, Fraction(1, 8), Fraction(1, 8))
    >>> typed("1/8", "mm", what="run")
    Traceback (most recent call last):
        ...
    anglelib.errors.LengthError: The run "1/8" is a fraction without a unit, in millimetres: write in or mm behind it.
    """
    value, form = _read(text, what, unit, negative, zero)
    if unit == "mm" and form.fraction and not form.unit:
        raise LengthError(f"The {what} {quoted(text)} is a fraction without a unit, in millimetres: write in or mm behind it.")
    return value


def number(text: str) -> Fraction | None:
    """The number that was typed without any unit, however large; None for anything else.

    >>> number("66"), number("-1 5/8"), number("66 thou")
    (Fraction(66, 1), Fraction(-13, 8), None)
    """
    form = _clear(text)
    if form is None or form.unit:
        return None
    return -form.number if form.negative else form.number


def named_unit(text: str) -> str:
    """The unit that a typed length names: "in", "mm", "cm", "m", "thou", "ft", or "" where it names none or is no length.

    >>> named_unit("99.2 MM."), named_unit("5' 3"), named_unit("66"), named_unit("some mm")
    ('mm', 'in', '', '')
    """
    form = _clear(text)
    return form.unit if form is not None else ""


def _clear(text: str) -> Form | None:
    try:
        return form_of(plain(text, "length"), "It")
    except LengthError:
        return None


def inches(value: int | str | Fraction, what: str = "length", **allowed: bool) -> Fraction:
    """A length [in] from what a program may hold: a Fraction, a whole number, or text to read.

    A float is refused: 0.1 is not a tenth of an inch, and a mark must come back exact.

    >>> inches("3/4"), inches(2)
    (Fraction(3, 4), Fraction(2, 1))
    >>> inches(0.1)
    Traceback (most recent call last):
        ...
    anglelib.errors.LengthError: The length 0.1 is a floating number: write it as text, for example "0.1".
    """
    if isinstance(value, str):
        return read(value, what=what, **allowed)
    if isinstance(value, bool) or not isinstance(value, (int, Fraction)):
        if isinstance(value, float) and isfinite(value):
            raise LengthError(f'The {what} {value!r} is a floating number: write it as text, for example "{value!r}".')
        raise LengthError(f'The {what} is not a length: write it as text, for example "1 5/8" or "41.3 mm".')
    value = Fraction(value)
    if value < 0 and not allowed.get("negative", False):
        raise LengthError(f"The {what} is below 0: it must be a length of metal.")
    if value == 0 and not allowed.get("zero", True):
        raise LengthError(f"The {what} is 0: give a length above 0.")
    if abs(value) > LONGEST:
        raise LengthError(f"The {what} is over {LONGEST // 12} ft: no stick is that long; check the number and its unit.")
    return value
