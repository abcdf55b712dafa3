"""A length that a person typed, read exactly or refused with its remedy."""

from __future__ import annotations

import re
from fractions import Fraction
from math import isfinite

from anglelib.errors import LengthError
from anglelib.lengths.units import MM
from anglelib.lengths.written import MOST_DECIMALS, exact

LONGEST = Fraction(1200)
"""The longest length that is read [in]: 100 ft. No stick is that long, so a longer one is a slip of the unit."""

MOST_CHARACTERS = 40
LARGEST_DENOMINATOR = 1024
_INCH = {"in": Fraction(1), "mm": MM, "cm": 10 * MM, "m": 1000 * MM, "ft": Fraction(12)}
_VULGAR = {
    "½": "1/2", "⅓": "1/3", "⅔": "2/3", "¼": "1/4", "¾": "3/4", "⅕": "1/5", "⅖": "2/5", "⅗": "3/5",
    "⅘": "4/5", "⅙": "1/6", "⅚": "5/6", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "⅐": "1/7",
    "⅑": "1/9", "⅒": "1/10",
}  # fmt: skip
# What a word processor or a phone makes of the plain marks.
_PLAIN = str.maketrans(
    {
        "″": '"', "”": '"', "“": '"', "„": '"', "˝": '"', "＂": '"',
        "′": "'", "’": "'", "‘": "'", "ʹ": "'", "´": "'", "`": "'",
        "⁄": "/", "∕": "/", "−": "-", "–": "-", "—": "-", "‐": "-", "‑": "-", "‒": "-",
        "\u00a0": " ", "\u2007": " ", "\u2009": " ", "\u200a": " ", "\u202f": " ", "\t": " ",
    }
)  # fmt: skip

_NUMBER = r"(?:(?P<{p}whole>[0-9]+)[ -]+(?P<{p}n>[0-9]+) ?/ ?(?P<{p}d>[0-9]+)|(?P<{p}num>[0-9]+) ?/ ?(?P<{p}den>[0-9]+)|(?P<{p}dec>[0-9]+\.?[0-9]*|\.[0-9]+))"
_PATTERN = re.compile(
    r"(?P<sign>[+-]?) ?"
    r"(?:(?P<feet>[0-9]+(?:\.[0-9]*)?) ?(?:'(?!')|ft\.?|feet|foot)(?: ?-? ?(?=[0-9.]))?)?"
    r"(?:" + _NUMBER.format(p="") + r" ?(?P<unit>\"|''|in\.?|inch(?:es)?|mm|cm|m)?)?",
    re.ASCII,
)


def _quoted(text: str) -> str:
    """The text as it was typed, shortened, with anything unprintable made visible."""
    shown = "".join(c if c.isprintable() else "?" for c in text[:MOST_CHARACTERS])
    return f'"{shown}{"..." if len(text) > MOST_CHARACTERS else ""}"'


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
    >>> read("0", what="run", zero=False)
    Traceback (most recent call last):
        ...
    anglelib.errors.LengthError: The run is 0: give a length above 0.
    """
    if not isinstance(text, str):
        raise LengthError(f"The {what} is not text: write it in quotes, for example \"1 5/8\" or \"41.3 mm\".")
    if len(text) > MOST_CHARACTERS:
        raise LengthError(
            f"The {what} {_quoted(text)} is {len(text)} characters long: write it in at most {MOST_CHARACTERS}."
        )
    plain = text.translate(_PLAIN)
    for mark, fraction_text in _VULGAR.items():
        plain = plain.replace(mark, " " + fraction_text)
    plain = " ".join(plain.lower().split())
    if not plain:
        raise LengthError(f"The {what} is empty: write a length, for example 1 5/8 or 41.3 mm.")
    if "," in plain:
        tail = plain.replace(",", ".") if plain.count(",") == 1 and "." not in plain else plain.replace(",", "")
        if _PATTERN.fullmatch(tail):
            raise LengthError(f"The {what} {_quoted(text)} has a comma: write the decimal with a point, {tail}.")
    match = _PATTERN.fullmatch(plain)
    if match is None or (match["feet"] is None and not _has_number(match)):
        raise LengthError(
            f"The {what} {_quoted(text)} is not a length: write it like 1 5/8, 1.625, 5' 3 1/4\" or 41.3 mm."
        )
    if match["feet"] is not None and match["unit"] in ("mm", "cm", "m"):
        raise LengthError(f"The {what} {_quoted(text)} mixes feet with {match['unit']}: use one or the other.")
    value = _value(match, text, what, unit)
    if match["sign"] == "-":
        value = -value
    if value < 0 and not negative:
        raise LengthError(f"The {what} {_quoted(text)} is below 0: leave out the minus sign.")
    if value == 0 and not zero:
        raise LengthError(f"The {what} is 0: give a length above 0.")
    if abs(value) > LONGEST:
        raise LengthError(
            f"The {what} {_quoted(text)} is over {LONGEST // 12} ft: no stick is that long; check the number and its unit."
        )
    return value


def _has_number(match: re.Match) -> bool:
    return any(match[name] is not None for name in ("whole", "num", "dec"))


def _decimal(digits: str, text: str, what: str) -> Fraction:
    whole, _, tail = digits.partition(".")
    if len(tail) > MOST_DECIMALS:
        raise LengthError(
            f"The {what} {_quoted(text)} has {len(tail)} decimals: at most {MOST_DECIMALS} mean anything at a bench."
        )
    return Fraction(int((whole or "0") + tail), 10 ** len(tail))


def _value(match: re.Match, text: str, what: str, unit: str) -> Fraction:
    inches_of_feet = 12 * _decimal(match["feet"], text, what) if match["feet"] is not None else Fraction(0)
    if not _has_number(match):
        return inches_of_feet
    if match["dec"] is not None:
        number = _decimal(match["dec"], text, what)
    else:
        whole = int(match["whole"] or 0)
        top = int(match["n"] or match["num"])
        bottom = int(match["d"] or match["den"])
        if bottom == 0:
            raise LengthError(f"The {what} {_quoted(text)} divides by 0: check the number under the bar.")
        if bottom > LARGEST_DENOMINATOR:
            raise LengthError(
                f"The {what} {_quoted(text)} has {bottom} under the bar: no rule is that fine; write a decimal."
            )
        if match["whole"] is not None and top >= bottom:
            raise LengthError(
                f"The {what} {_quoted(text)} is a whole number and a fraction that is not below 1: "
                f"write {top}/{bottom} or {exact(whole + Fraction(top, bottom))}."
            )
        number = whole + Fraction(top, bottom)
    if match["feet"] is not None:
        return inches_of_feet + number
    name = {'"': "in", "''": "in", "in.": "in", "inch": "in", "inches": "in", None: unit}.get(
        match["unit"], match["unit"]
    )
    return number * _INCH[name]


_BARE_FRACTION = re.compile(r"[0-9 -]*[0-9] ?[/⁄∕] ?[0-9]+|[0-9]* ?[¼-¾⅐-⅞]")


def typed(text: str, unit: str, *, what: str = "length", negative: bool = False, zero: bool = True) -> Fraction:
    """The length that a person typed where ``unit`` is usual [in]: as :func:`read`, but of a bare fraction it asks which unit it is in.

    >>> typed("85", "mm") == 85 * MM, typed("1/8 in", "mm"), typed("1/8", "in")
    (True, Fraction(1, 8), Fraction(1, 8))
    >>> typed("1/8", "mm", what="run")
    Traceback (most recent call last):
        ...
    anglelib.errors.LengthError: The run "1/8" is a fraction without a unit, in millimetres: write in or mm behind it.
    """
    if unit == "mm" and isinstance(text, str) and len(text) <= MOST_CHARACTERS and _BARE_FRACTION.fullmatch(text.strip()):
        raise LengthError(f"The {what} {_quoted(text)} is a fraction without a unit, in millimetres: write in or mm behind it.")
    return read(text, what=what, unit=unit, negative=negative, zero=zero)


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
