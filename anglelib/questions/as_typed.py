"""A number as a person types it: what it may be the rounding of.

Nobody types 0.171853. It is 11/64 off a rule, 0.172, 0.17 or 4.4 mm; and 0.1 or 1/4 is another number. So a typed number is
a slip's number only where it is that number rounded as it was typed, and never because it lies near it:

- a fraction is rounded to the rule's 1/64 (to 1/128 where it shows one), or else to its 1/32;
- a decimal to the places that were typed, of which two figures at least say something;
- millimetres to the places that were typed, or else to half a millimetre.

A rounding that takes more than a sixteenth of the number leaves another number.

>>> roundings("11/64", Fraction(11, 64)) == (Fraction(1, 64),), roundings("3/16", Fraction(3, 16)) == (Fraction(1, 64), Fraction(1, 32))
(True, True)
>>> [level(typed, 0.171853) for typed in (read_as("11/64"), read_as("0.17"), read_as("0.1719"), read_as("3/16"), read_as("0.2"), read_as("4.37 mm"))]
[1, 1, 1, None, None, 1]
>>> read_as("66", thousandths=True).value, read_as("0.066", thousandths=True).value, read_as("66 mm", thousandths=True).value
(Fraction(33, 500), Fraction(33, 500), Fraction(330, 127))
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from anglelib.lengths import MM
from anglelib.lengths import typed as read_typed

COARSEST = Fraction(1, 16)
"""The part of a number that a rounding may take."""
HAIR = 1e-9
"""Two numbers so near are one: an answer may be a float."""
THOUSANDTH = Fraction(1, 1000)
_FRACTION = re.compile(r"[/⁄∕½⅓⅔¼¾⅕-⅚⅛-⅞⅐⅑⅒]")
_PLAIN = re.compile(r"[+-]?\s*([0-9]*)(?:(\.)([0-9]*))?\s*(.*)", re.DOTALL)
_EACH = {"mm": MM, "cm": 10 * MM, "": None, "in": Fraction(1), "inch": Fraction(1), "inches": Fraction(1), '"': Fraction(1), "″": Fraction(1), "”": Fraction(1), "''": Fraction(1)}
_THOUSANDTHS = re.compile(r"([0-9]+(?:\.[0-9]?)?)\s*(?:thou|thousandths?)?\.?", re.IGNORECASE)
"""A bare number that may be of thousandths: whole, or with one decimal."""
_NAMED = re.compile(r".*thou(?:sandths?)?\.?", re.IGNORECASE)


@dataclass(frozen=True)
class Typed:
    """What was typed: its number, and the steps that it may have been rounded to, the likeliest first."""

    value: Fraction
    steps: tuple[Fraction, ...] = ()
    thousandths: bool = False


def read_as(text: str, unit: str = "in", *, thousandths: bool = False) -> Typed:
    """A typed length [in] with its steps; ``thousandths``: a bare whole number counts thousandths of an inch. Raises LengthError."""
    if thousandths and (counted := _counted(text)) is not None:
        number = Fraction(counted)
        return Typed(number * THOUSANDTH, _figures(counted, THOUSANDTH), True)
    value = read_typed(text, unit, what="answer", negative=True)
    return Typed(value, roundings(text, value, unit))


def _counted(text: str) -> str | None:
    """The thousandths that a text counts; None where it is a length with its own unit, a fraction, or a decimal of an inch."""
    found = _THOUSANDTHS.fullmatch(text.strip())
    if found is None or (Fraction(found[1]) < 1 and not _NAMED.fullmatch(text)):
        return None
    return found[1]


def roundings(text: str, value: Fraction, unit: str = "in") -> tuple[Fraction, ...]:
    """The steps [in] that a typed length may have been rounded to; none where it can only be meant as it stands."""
    if _FRACTION.search(text):
        return _graduations(value)
    found = _PLAIN.fullmatch(text.strip().lower())
    if found is None or (word := found[4].rstrip(".")) not in _EACH:
        return ()
    each = _EACH[word] or (MM if unit == "mm" else Fraction(1))
    if each == 1 and not found[3]:
        return _graduations(value)  # whole inches are on the rule
    half = (MM / 2,) if each == MM and value % (MM / 2) == 0 else ()
    if not found[3]:
        return half
    return (*_figures(f"{found[1]}.{found[3]}", each), *half)


def _figures(number: str, each: Fraction) -> tuple[Fraction, ...]:
    """The step of the last place that was typed; one figure alone is no rounding of anything."""
    whole, _, places = number.partition(".")
    return (each / 10 ** len(places),) if len((whole + places).lstrip("0")) > 1 else ()


def _graduations(value: Fraction) -> tuple[Fraction, ...]:
    rule = tuple(step for step in (Fraction(1, 64), Fraction(1, 32)) if value % step == 0)
    return rule or ((Fraction(1, 128),) if value % Fraction(1, 128) == 0 else ())


def of_unit(text: str, factor: Fraction) -> tuple[Fraction, ...]:
    """The steps of a number that is no length, such as degrees: the places that were typed, each worth ``factor``.

    >>> of_unit("18.1", Fraction(1)), of_unit("18", Fraction(1)), of_unit("18 1/2", Fraction(1)), of_unit("0.1", Fraction(1))
    ((Fraction(1, 10),), (Fraction(1, 1),), (), ())
    """
    found = _PLAIN.fullmatch(text.strip())
    if found is None or _FRACTION.search(text) or re.search("[0-9]", found[4]):
        return ()
    return _figures(f"{found[1]}.{found[3] or ''}", factor)


def level(typed: Typed, number: float) -> int | None:
    """How a typed number may be another one: 0 just as it stands, 1 rounded to its likeliest step, 2 to the next; None: it is another number."""
    off = abs(float(typed.value) - number)
    return 0 if off <= HAIR else next((at for at, step in enumerate(typed.steps, 1) if off <= float(step) / 2 + HAIR), None)


def close(typed: Typed, number: float, most: float) -> bool:
    """Whether a rounding takes so little that the number is still the same: a sixteenth of it, and ``most`` whatever the step."""
    off = abs(float(typed.value) - number)
    return off <= HAIR or off <= min(most, abs(number) * float(COARSEST)) + HAIR
