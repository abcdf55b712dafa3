"""A length as a sheet or a drawing has it, in the unit that :func:`~anglelib.lengths.units.writing` says."""

from __future__ import annotations

from fractions import Fraction
from math import floor

from anglelib.lengths.numbers import decimal, fraction_text, in_mm, printed, trimmed
from anglelib.lengths.units import MM, unit_written, with_mm

MOST_DECIMALS = 6
FULL, BARE = "full", "bare"
"""A line struck a hair beyond its graduation, a hair short of it."""
LAST_PLACE = {"in": Fraction(1, 1000), "mm": MM / 100}
"""The last place in which :func:`fine` writes a length, by the unit that is written [in]."""


def show(value: Fraction | int | float, graduation: int = 64, rounding: str = "nearest") -> str:
    """The length as a shop fraction; in millimetres to a tenth, rounded the same way.

    >>> show(Fraction(13, 8)), show(Fraction(1, 3), 16), show(Fraction(1, 3), 16, "up")
    ('1 5/8', '5/16', '3/8')
    """
    if unit_written() == "mm":
        return with_mm(_steps_of_mm(value, rounding))
    return printed(value, graduation, rounding).text


def _steps_of_mm(value: Fraction | int | float, rounding: str = "nearest", steps: int = 10) -> str:
    """A number of millimetres in whole steps (tenths, halves), without noughts behind the point."""
    scaled = in_mm(value) * steps
    count = {"nearest": floor(scaled + Fraction(1, 2)), "up": -floor(-scaled), "down": floor(scaled)}[rounding]
    return trimmed(Fraction(count, steps))


def both(value: Fraction | int | float, graduation: int = 64, rounding: str = "nearest", places: int = 3) -> str:
    """Fraction first, decimal in brackets: how a dimension is written on a drawing.

    Millimetres are to a hundredth (rounded up or down: to a tenth), and the inches stand in the brackets.

    >>> both(Fraction(13, 8)), both(0.2165063509)
    ('1 5/8 (1.625)', '7/32 (0.217)')
    >>> from anglelib.lengths import writing
    >>> with writing("mm"):
    ...     both(Fraction(9, 4)), both(Fraction(9, 4), 64, "up")
    ('57.15 mm (2.250 in)', '57.2 mm (2.250 in)')
    """
    if unit_written() == "mm":
        shown = with_mm(trimmed(in_mm(value))) if rounding == "nearest" else show(value, graduation, rounding)
        return f"{shown} ({decimal(value, places)} in)"
    return f"{show(value, graduation, rounding)} ({decimal(value, places)})"


def fine(value: Fraction | int | float, places: int = 3) -> str:
    """The length as a caliper shows it: a decimal inch with so many places, or millimetres with one place fewer.

    >>> fine(Fraction(13, 8))
    '1.625'
    """
    return with_mm(decimal(in_mm(value), places - 1)) if unit_written() == "mm" else decimal(value, places)


def place(value: Fraction | int | float) -> str:
    """A place that something is measured at: a fraction where a rule has it, else as a caliper is set.

    >>> place(Fraction(13, 16)), place(0.65), place(Fraction(73, 128))
    ('13/16', '0.650', '0.570')
    """
    if unit_written() == "mm":
        return with_mm(trimmed(in_mm(value)))
    return show(value) if not printed(value).lost else fine(value)


def marked(value: Fraction | int | float, off: Fraction, graduation: int = 64) -> str:
    """A mark as it is struck by a rule: its nearest graduation, with "full" or "bare" where that is off by more than half of ``off``.

    ``off`` [in] is how far the dimension may be off either way. *Full*: the line is struck a hair beyond the
    graduation; *bare*: a hair short of it (the trade's words). A metric rule has half millimetres.

    >>> marked(0.2125, Fraction(1, 64)), marked(0.2125, Fraction(4, 1000)), marked(0.2165, Fraction(4, 1000))
    ('7/32', '7/32 bare', '7/32 bare')
    >>> marked(Fraction(221, 1000), Fraction(4, 1000))
    '7/32 full'
    """
    if unit_written() == "mm":
        true = in_mm(value)
        count = Fraction(floor(true * 2 + Fraction(1, 2)), 2)
        text, lost, half = with_mm(trimmed(count)), true - count, off / MM / 2
    else:
        nearest = printed(value, graduation)
        text, lost, half = nearest.text, nearest.lost, off / 2
    # A hair of slack: a mark from an angle is a float.
    if abs(lost) <= half + Fraction(1, 10**9):
        return text
    return f"{text} {FULL if lost > 0 else BARE}"


def with_unit(mark: str, unit: str) -> str:
    """A mark with its unit beside the number, before what says how it is struck.

    >>> with_unit("7/32 bare", "in"), with_unit("7/32", "in.")
    ('7/32 in bare', '7/32 in.')
    """
    word = next((f" {word}" for word in (FULL, BARE) if mark.endswith(f" {word}")), "")
    return f"{mark.removesuffix(word)} {unit}{word}"


def marked_both(value: Fraction | int | float, off: Fraction, graduation: int = 64) -> str:
    """A mark with the number it stands for in brackets: "7/32 bare (0.213)".

    >>> marked_both(Fraction(17, 80), Fraction(1, 64))
    '7/32 (0.213)'
    >>> from anglelib.lengths import writing
    >>> with writing("mm"):
    ...     marked_both(Fraction(113, 254), Fraction(2, 254))
    '11.5 mm bare (11.3)'
    """
    if unit_written() == "mm":
        text, number = marked(value, off), trimmed(in_mm(value))
        return text if text == with_mm(number) else f"{text} ({number})"
    return f"{marked(value, off, graduation)} ({decimal(value)})"


def exact(value: Fraction | int, unit: str | None = None) -> str:
    """The length with nothing lost: a shop fraction if a rule can show it, else millimetres, else a decimal.

    Where millimetres are written they are to a hundredth. What a file keeps is written with its ``unit`` named, and loses
    nothing in either: in "mm" millimetres come first, and a length in inches says so.

    >>> exact(Fraction(13, 8)), exact(50 * MM), exact(Fraction(43, 1000)), exact(Fraction(35, 100)), exact(Fraction(1, 16), "mm")
    ('1 5/8', '50 mm', '0.043', '0.35', '1/16 in')
    """
    value = Fraction(value)
    if unit is None and unit_written() == "mm":
        return with_mm(trimmed(in_mm(value)))
    metric = unit == "mm"
    if metric and 100 % (value / MM).denominator == 0:
        return f"{trimmed(value / MM)} mm"
    inch = " in" if metric else ""
    if 128 % value.denominator == 0:
        return fraction_text(value) + inch
    # 0.35 in. is 8.89 mm: what both have in as many places was given in the unit that is written.
    pairs = ((value / MM, " mm"), (value, inch)) if metric else ((value, inch), (value / MM, " mm"))
    for places in range(MOST_DECIMALS + 1):
        for number, behind in pairs:
            if 10**places % number.denominator == 0:
                return decimal(number, places) + behind
    return fraction_text(value) + inch


def figure(value: Fraction | int | float) -> str:
    """A length as a drawing has it whose foot says the unit: fraction and decimal, or millimetres to a hundredth.

    >>> figure(Fraction(13, 8))
    '1 5/8 (1.625)'
    >>> from anglelib.lengths import writing
    >>> with writing("mm"):
    ...     figure(85 * MM), figure(0.4753)
    ('85', '12.07')
    """
    return trimmed(in_mm(value)) if unit_written() == "mm" else both(value)
