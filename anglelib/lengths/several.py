"""Several lengths in one text, with commas between them."""

from __future__ import annotations

import re
from fractions import Fraction

from anglelib.errors import LengthError
from anglelib.lengths.plain import quoted
from anglelib.lengths.reading import named_unit, typed

_THOUSANDS = re.compile(r"(?<![0-9.])([0-9]),([0-9]{3})(?![0-9])")
_DECIMALS = re.compile(r"(?<![0-9.])([0-9](?:\.[0-9]{3})+),([0-9]+)(?![0-9.])")


def several(text: str, unit: str, *, what: str) -> list[Fraction]:
    """Lengths above 0 with commas between them [in], none for a text that names none; ``unit`` is what a bare number means.

    A comma parts lengths here, so that what looks like the comma inside one number is questioned.

    >>> several("72, 96, 1 1/2 ft", "in", what="length")
    Traceback (most recent call last):
        ...
    anglelib.errors.LengthError: The length "72, 96, 1 1/2 ft" has a unit behind some lengths and none behind others: write it behind each, and decimals with a point.
    >>> several("96,144 in,90", "in", what="length")
    [Fraction(96, 1), Fraction(144, 1), Fraction(90, 1)]
    >>> several("1,250 mm", "mm", what="length")
    Traceback (most recent call last):
        ...
    anglelib.errors.LengthError: The length "1,250 mm" may be one number: write 1250 or 1.250 for one length, 1, 250 for two.
    """
    said, words = f"The {what} {quoted(text)}", [word.strip() for word in text.split(",") if word.strip()]
    if found := _THOUSANDS.search(text):
        one, more = found.groups()
        raise LengthError(f"{said} may be one number: write {one}{more} or {one}.{more} for one length, {one}, {more} for two.")
    if found := _DECIMALS.search(text):
        one, more = found.groups()
        raise LengthError(f"{said} may be one number: write {one.replace('.', '')}.{more} for one length, {one}, {more} for two.")
    lengths = [typed(word, unit, what=what, zero=False) for word in words]
    units = {named_unit(word) for word in words}
    if "" in units and not units <= {"", unit}:
        raise LengthError(f"{said} has a unit behind some lengths and none behind others: write it behind each, and decimals with a point.")
    return lengths
