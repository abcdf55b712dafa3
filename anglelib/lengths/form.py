"""The form of a typed length: which of its numbers are feet, which a fraction, and which unit is named."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from anglelib.errors import LengthError
from anglelib.lengths.numbers import fraction_text, trimmed
from anglelib.lengths.written import MOST_DECIMALS

LARGEST_DENOMINATOR = 1024
NUMBER = (
    # A dash may stand close to both numbers, or away from both; close to the fraction alone it is a minus sign.
    r"(?:(?P<{p}whole>[0-9]+)(?: - | |- ?)(?P<{p}n>[0-9]+) ?/ ?(?P<{p}d>[0-9]+)|(?P<{p}num>[0-9]+) ?/ ?(?P<{p}den>[0-9]+)"
    r"|(?P<{p}dec>[0-9]+\.?[0-9]*|\.[0-9]+))"
)
_FEET = r"(?:'(?!')|(?:ft|feet|foot)\.?)"
_INCHES = r"(?:\"|''|(?:in|inch|inches)\.?)"
_UNIT = rf"(?:(?P<inch>{_INCHES})|(?P<foot>{_FEET})|(?P<unit>mm|cm|m|thou|thousandths?)\.?)"
_ONE = re.compile(rf"(?P<sign>[+-]?) ?{NUMBER.format(p='')}(?: ?{_UNIT})?", re.ASCII)
_FEET_AND_INCHES = re.compile(
    rf"(?P<sign>[+-]?) ?{NUMBER.format(p='ft')} ?{_FEET}(?: - | |- ?|){NUMBER.format(p='')}(?: ?(?:(?P<inch>{_INCHES})|(?P<unit>mm|cm|m|thou|thousandths?)\.?))?",
    re.ASCII,
)


@dataclass(frozen=True)
class Form:
    """A length as it was typed: ``number`` in ``unit`` ("in", "mm", "cm", "m", "thou", "ft"; "" where none is named).

    ``feet`` stand before inches, else None; ``fraction`` says that the number was typed with a bar.
    """

    negative: bool
    feet: int | None
    number: Fraction
    fraction: bool
    unit: str


def form_of(plain: str, said: str) -> Form | None:
    """The form of a text in plain characters, or None where it has none of a length.

    ``said`` begins the refusal of a number that no rule has, or of feet and inches that do not go together.

    >>> form_of("5' 3 1/4\\"", "It")
    Form(negative=False, feet=5, number=Fraction(13, 4), fraction=True, unit='in')
    >>> form_of("1/2 ft.", "It"), form_of("3 feet 1", "It").feet, form_of("one", "It")
    (Form(negative=False, feet=None, number=Fraction(1, 2), fraction=True, unit='ft'), 3, None)
    >>> form_of("5' 15", "It")
    Traceback (most recent call last):
        ...
    anglelib.errors.LengthError: It has 12 in. or more beside the feet: write 6' 3" or 75".
    """
    if match := _ONE.fullmatch(plain):
        number, unit = _number(match, said), _unit(match)
        if unit == "m" and match["dec"] is None:
            # an m that should have been mm, or an inch that lost its n: nobody has a fraction of a metre
            body = plain.rstrip(".").removesuffix("m").strip()
            raise LengthError(f"{said} is a fraction in metres: write {body} mm, {body} in or a decimal of a metre.")
        return Form(match["sign"] == "-", None, number, match["dec"] is None, unit)
    if match := _FEET_AND_INCHES.fullmatch(plain):
        return _feet_and_inches(match, said)
    return None


def _unit(match: re.Match) -> str:
    if match["inch"]:
        return "in"
    if match["foot"]:
        return "ft"
    unit = match["unit"] or ""
    return "thou" if unit.startswith("thou") else unit


def _feet_and_inches(match: re.Match, said: str) -> Form:
    if match["unit"]:
        raise LengthError(f"{said} mixes feet with {match['unit']}: use one or the other.")
    feet, number = _number(match, said, "ft"), _number(match, said)
    if not (match["ftdec"] or "").isdigit():
        raise LengthError(f"{said} has a part of a foot beside inches: write whole feet and inches, like 5' 3\", or feet alone, like 5.25 ft.")
    together = int(feet) * 12 + number
    much = "12 in. or more" if number >= 12 else "three digits" if len(re.match("[0-9]*", match["whole"] or match["dec"] or "")[0]) > 2 else ""  # type: ignore[index]
    if much:
        inches, all_of_it = (trimmed(n, MOST_DECIMALS) if match["dec"] else fraction_text(n) for n in (together % 12, together))
        raise LengthError(f"{said} has {much} beside the feet: write {together // 12}' {inches}\" or {all_of_it}\".")
    return Form(match["sign"] == "-", int(feet), number, match["dec"] is None, "in")


def _number(match: re.Match, said: str, p: str = "") -> Fraction:
    if match[f"{p}dec"] is not None:
        return _decimal(match[f"{p}dec"], said)
    whole = int(match[f"{p}whole"] or 0)
    top, bottom = int(match[f"{p}n"] or match[f"{p}num"]), int(match[f"{p}d"] or match[f"{p}den"])
    if bottom == 0:
        raise LengthError(f"{said} divides by 0: check the number under the bar.")
    if bottom > LARGEST_DENOMINATOR:
        raise LengthError(f"{said} has {bottom} under the bar: no rule is that fine; write a decimal.")
    if match[f"{p}whole"] is not None and top >= bottom:
        raise LengthError(
            f"{said} is a whole number and a fraction that is not below 1: write {top}/{bottom} or {fraction_text(whole + Fraction(top, bottom))}."
        )
    return whole + Fraction(top, bottom)


def _decimal(digits: str, said: str) -> Fraction:
    whole, _, tail = digits.partition(".")
    if len(tail) > MOST_DECIMALS:
        raise LengthError(f"{said} has {len(tail)} decimals: at most {MOST_DECIMALS} mean anything at a bench.")
    return Fraction(int((whole or "0") + tail), 10 ** len(tail))
