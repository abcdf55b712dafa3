"""Lengths that somebody gave keep their own unit; lengths of both units in one sentence each say theirs."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction

from anglelib.lengths.numbers import decimal, fraction_text, in_mm, trimmed
from anglelib.lengths.units import MM, unit_in_head, unit_written, with_mm, writing
from anglelib.lengths.written import exact, with_unit


def own(value: Fraction | int) -> str:
    """A length that somebody gave, in the unit in which it was given as far as its number tells; what is whole in the unit written is in that.

    Where inches are written it is :func:`exact`; on a sheet in millimetres a shop fraction stays one, and says so.

    >>> own(Fraction(1, 16)), own(6), own(150 * MM)
    ('1/16', '6', '150 mm')
    >>> with writing("mm"):
    ...     own(Fraction(1, 16)), own(6), own(5), own(Fraction(8, 5) * MM)
    ('1/16 in', '6 in', '127 mm', '1.6 mm')
    """
    value = Fraction(value)
    if unit_written() == "mm" and 128 % value.denominator == 0 and 2 % (value / MM).denominator:
        return f"{fraction_text(value)} in"
    return exact(value)


def in_one_unit(values: Sequence[Fraction]) -> tuple[list[str], str]:
    """Lengths that belong together, all in the unit that all of them were given in, and that unit to be written behind them.

    >>> in_one_unit([30 * MM, 30 * MM, 3 * MM]), in_one_unit([Fraction(3, 4), Fraction(1, 8)])
    ((['30', '30', '3'], ' mm'), (['3/4', '1/8'], ''))
    >>> with writing("mm"):
    ...     in_one_unit([Fraction(3, 4), Fraction(1, 8)])
    (['3/4', '1/8'], ' in')
    """
    metric = unit_written() == "mm"
    fractions = all(128 % value.denominator == 0 for value in values)
    if fractions and not (metric and all(2 % (value / MM).denominator == 0 for value in values)):
        return [fraction_text(value) for value in values], " in" if metric else ""
    if all(100 % (value / MM).denominator == 0 for value in values):
        return [trimmed(value / MM) for value in values], " mm"
    with unit_in_head(False):
        return [exact(value) for value in values], ""


def given(value: Fraction | int) -> str:
    """The same with the other unit in brackets, or the decimal: how a kerf or an allowance is written.

    >>> given(Fraction(1, 16)), given(Fraction(8, 5) * MM), given(Fraction(1, 20)), given(0)
    ('1/16 (0.063)', '1.6 mm (0.063)', '0.05', '0 (0.000)')
    >>> with writing("mm"):
    ...     given(Fraction(1, 16)), given(Fraction(8, 5) * MM)
    ('1/16 in (1.59 mm)', '1.6 mm (0.063 in)')
    """
    value, text = Fraction(value), own(value)
    if unit_written() == "mm":
        return f"{text} ({decimal(value)} in)" if not text.endswith(" in") else f"{text} ({with_mm(trimmed(in_mm(value)))})"
    return f"{text} ({decimal(value)})" if text.endswith(" mm") or 128 % value.denominator == 0 else text


def spoken(value: Fraction | int) -> str:
    """A length in running text, always with its unit.

    >>> spoken(6), spoken(150 * MM)
    ('6 in.', '150 mm')
    >>> with writing("mm"), unit_in_head():
    ...     spoken(6), spoken(150 * MM)
    ('152.4 mm', '150 mm')
    """
    return _with_unit(value, exact)


def own_spoken(value: Fraction | int) -> str:
    """The same in the unit in which it was given (:func:`own`): a hand minimum, a length of the trade.

    >>> with writing("mm"), unit_in_head():
    ...     own_spoken(6), own_spoken(150 * MM)
    ('6 in.', '150 mm')
    """
    return _with_unit(value, own)


def _with_unit(value: Fraction | int | float, written: Callable[..., str]) -> str:
    with unit_in_head(False):
        text = written(value).removesuffix(" in")
    return text if text.endswith("mm") else f"{text} in."


def about(value: Fraction | int | float) -> str:
    """A length that was reckoned: as :func:`exact` has it where that is short, else to a thousandth of an inch or a hundredth of a millimetre.

    Lengths in both units, added up, come out even in neither.

    >>> about(Fraction(35, 2)), about(Fraction(173, 10)), about(40 + 85 * MM)
    ('17 1/2', '17.3', '43.346')
    >>> with writing("mm"):
    ...     about(40 + 85 * MM), about(Fraction(1, 64) + 85 * MM)
    ('1101 mm', '85.4 mm')
    """
    if unit_written() == "mm":
        return exact(Fraction(in_mm(value)) * MM)
    value = Fraction(value)
    return exact(value) if 128 % value.denominator == 0 or 1000 % value.denominator == 0 else decimal(value)


def in_unit(value: object, unit: str, how: Callable[..., str] = about) -> str:
    """A part's own length (or what ``how`` writes) among lengths in the job's unit: as ``how`` has it, with its unit where that is another one.

    >>> from anglelib.lengths.written import both
    >>> in_unit(Fraction(35, 16), "in"), in_unit(22 * MM, "mm")
    ('2 3/16', '22 mm')
    >>> from anglelib.lengths import marked
    >>> with writing("mm"):
    ...     in_unit(Fraction(35, 16), "in"), in_unit(22 * MM, "mm"), in_unit(Fraction(35, 16), "in", both)
    ...     in_unit(Fraction(221, 1000), "in", lambda value: marked(value, Fraction(1, 250)))
    ('2 3/16 in.', '22 mm', '2 3/16 (2.188) in.')
    '7/32 in. full'
    """
    if unit == unit_written():
        return how(value)
    with writing(unit):
        text = how(value)
        if unit == "mm" or text.endswith("mm"):
            return text
        return with_unit(text, "in.")
