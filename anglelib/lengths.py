"""Lengths: shop fractions, decimals, feet and millimetres, read and printed exactly.

A length is a :class:`~fractions.Fraction` of an inch everywhere in the library (1 in = 25.4 mm
exactly). This module is the only one that reads a person's lengths and the only one that prints
them, so that a rounding always states its direction and what it lost.

>>> read('1 5/8'), read('1-5/8'), read('13/8'), read('1.625"')
(Fraction(13, 8), Fraction(13, 8), Fraction(13, 8), Fraction(13, 8))
>>> read("41.275 mm")
Fraction(13, 8)
>>> read("1,625")
Traceback (most recent call last):
    ...
anglelib.errors.LengthError: The length "1,625" has a comma: write the decimal with a point, 1.625.

Lengths are written in inches, or inside :func:`writing` in millimetres: a part that its plans give in
millimetres is carded, planned and read in them.

>>> show(85 * MM), both(85 * MM), fine(85 * MM)
('3 11/32', '3 11/32 (3.346)', '3.346')
>>> with writing("mm"):
...     show(85 * MM), both(85 * MM), fine(85 * MM), exact(Fraction(1, 16)), exact(Fraction(1, 16), "mm")
('85 mm', '85 mm (3.346 in)', '85.00 mm', '1.59 mm', '1/16 in')

Where a head or a note says the unit, :func:`unit_in_head` leaves it out of the millimetres below; whatever is in inches
says so there too.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass
from fractions import Fraction
from math import floor, isfinite

from anglelib.errors import LengthError

MM = Fraction(5, 127)
"""One millimetre [in]: 1/25.4, exactly."""

LONGEST = Fraction(1200)
"""The longest length that is read [in]: 100 ft. No stick is that long, so a longer one is a slip of the unit."""

MOST_CHARACTERS = 40
MOST_DECIMALS = 6
LARGEST_DENOMINATOR = 1024
GRADUATIONS = (1, 2, 4, 8, 16, 32, 64, 128)
"""Marks to the inch that a rule may carry (halving down to 1/64; 1/128 to print what a rule cannot show)."""

UNITS = ("in", "mm")
"""The units in which a job, or a part, may be given and written."""
_WRITTEN: ContextVar[str] = ContextVar("unit in which lengths are written", default="in")
_APART: ContextVar[bool] = ContextVar("whether inches are written among millimetres", default=False)
_IN_HEAD: ContextVar[bool] = ContextVar("whether a head says that unit", default=False)

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


# --- in which unit lengths are written ----------------------------------------------------------------
@contextmanager
def writing(unit: str) -> Iterator[None]:
    """Inside it lengths are written in this unit, "in" or "mm": :func:`show`, :func:`both`, :func:`exact`, :func:`fine`, :func:`marked`.

    Like a locale it steers words alone; nothing that is computed or stored depends on it.

    >>> with writing("ell"): pass
    Traceback (most recent call last):
        ...
    anglelib.errors.LengthError: Lengths are written in in or mm here, not in ell.
    """
    if unit not in UNITS:
        raise LengthError(f"Lengths are written in {' or '.join(UNITS)} here, not in {unit}.")
    apart = _APART.set(unit == "in" and (_APART.get() or _WRITTEN.get() == "mm"))
    before, head = _WRITTEN.set(unit), _IN_HEAD.set(False)
    try:
        yield
    finally:
        _IN_HEAD.reset(head)
        _WRITTEN.reset(before)
        _APART.reset(apart)


@contextmanager
def unit_in_head(said: bool = True) -> Iterator[None]:
    """Inside it a length in millimetres is written without "mm": the head of its column, its label or a note says the unit.

    Nothing changes where inches are written: there a bare number is inches, and millimetres say so.

    >>> with writing("mm"), unit_in_head():
    ...     show(85 * MM), both(85 * MM), fine(85 * MM), own(Fraction(1, 16))
    ('85', '85 (3.346 in)', '85.00', '1/16 in')
    """
    before = _IN_HEAD.set(said)
    try:
        yield
    finally:
        _IN_HEAD.reset(before)


def _mm(number: str) -> str:
    """Millimetres with their unit where it is to stand: always where inches are written."""
    return number if _IN_HEAD.get() and _WRITTEN.get() == "mm" else f"{number} mm"


def unit_written() -> str:
    """The unit in which lengths are written now.

    >>> unit_written()
    'in'
    """
    return _WRITTEN.get()


def apart() -> str:
    """That inches are meant, where they are written among sheets in millimetres and a bare number would not say so; else "".

    >>> with writing("mm"), writing("in"):
    ...     apart()
    'all lengths in inches'
    >>> apart()
    ''
    """
    return "all lengths in inches" if _APART.get() else ""


def head(words: str) -> str:
    """The words at the head of a column, with the unit that :func:`unit_in_head` then leaves out below; inches need none.

    >>> head("saw line")
    'saw line'
    >>> with writing("mm"):
    ...     head("saw line")
    'saw line, mm'
    """
    return f"{words}, mm" if _WRITTEN.get() == "mm" else words


def labelled(words: str) -> str:
    """The words of a control, with the unit of what is typed there.

    >>> labelled("Run")
    'Run (in.)'
    """
    return f"{words} ({'mm' if _WRITTEN.get() == 'mm' else 'in.'})"


def unit_word(one: bool = False) -> str:
    """The unit in which lengths are written now, in full, many of them or one.

    >>> unit_word(), unit_word(one=True)
    ('inches', 'inch')
    """
    inch, mm = ("inch", "millimetre") if one else ("inches", "millimetres")
    return mm if _WRITTEN.get() == "mm" else inch


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


def _exact(value: Fraction | int | float, graduation: int) -> Fraction:
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
    exact = _exact(value, graduation)
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
    return Printed(_fraction_text(shown), shown, exact - shown, graduation, rounding)


def _fraction_text(value: Fraction) -> str:
    whole, rest = divmod(abs(value), 1)
    sign = "-" if value < 0 else ""
    if not rest:
        return f"{sign}{whole}"
    return f"{sign}{whole} {rest}" if whole else f"{sign}{rest}"


def show(value: Fraction | int | float, graduation: int = 64, rounding: str = "nearest") -> str:
    """The length as a shop fraction; in millimetres to a tenth, rounded the same way.

    >>> show(Fraction(13, 8)), show(Fraction(1, 3), 16), show(Fraction(1, 3), 16, "up")
    ('1 5/8', '5/16', '3/8')
    """
    if _WRITTEN.get() == "mm":
        return _mm(_metric(value, rounding))
    return printed(value, graduation, rounding).text


def _metric(value: Fraction | int | float, rounding: str = "nearest", steps: int = 10) -> str:
    """A number of millimetres in whole steps (tenths, halves), without noughts behind the point."""
    scaled = _in_mm(value) * steps
    count = {"nearest": floor(scaled + Fraction(1, 2)), "up": -floor(-scaled), "down": floor(scaled)}[rounding]
    return _trimmed(Fraction(count, steps))


def _in_mm(value: Fraction | int | float) -> Fraction:
    """Millimetres as a Fraction; a float within 1e-8 of a hundredth is that hundredth."""
    if isinstance(value, float):
        found = Fraction(_exact(value, 64)) / MM
        near = Fraction(round(found * 100), 100)
        return near if abs(near - found) < Fraction(1, 10**8) else found
    return Fraction(value) / MM


def _trimmed(value: Fraction, places: int = 2) -> str:
    text = decimal(value, places)
    return text.rstrip("0").rstrip(".") if "." in text else text


def decimal(value: Fraction | int | float, places: int = 3) -> str:
    """The length as a decimal inch with so many places, halves up; never "-0.000".

    >>> decimal(Fraction(13, 8)), decimal(Fraction(-1, 4000)), decimal(0.2165063509)
    ('1.625', '0.000', '0.217')
    """
    scale = 10**places
    steps = floor(abs(_exact(value, 64)) * scale + Fraction(1, 2))
    sign = "-" if value < 0 and steps else ""
    whole, rest = divmod(steps, scale)
    return f"{sign}{whole}.{rest:0{places}d}" if places else f"{sign}{whole}"


def millimetres(value: Fraction | int | float, places: int = 1) -> str:
    """The length in millimetres as text, halves up.

    >>> millimetres(Fraction(13, 8)), millimetres(Fraction(13, 8), 3)
    ('41.3', '41.275')
    """
    exact = _exact(value, 64) / MM
    return decimal(exact, places)


def both(value: Fraction | int | float, graduation: int = 64, rounding: str = "nearest", places: int = 3) -> str:
    """Fraction first, decimal in brackets: how a dimension is written on a drawing.

    Millimetres are to a hundredth (rounded up or down: to a tenth), and the inches stand in the brackets.

    >>> both(Fraction(13, 8)), both(0.2165063509)
    ('1 5/8 (1.625)', '7/32 (0.217)')
    >>> with writing("mm"):
    ...     both(Fraction(9, 4)), both(Fraction(9, 4), 64, "up")
    ('57.15 mm (2.250 in)', '57.2 mm (2.250 in)')
    """
    if _WRITTEN.get() == "mm":
        shown = _mm(_trimmed(_in_mm(value))) if rounding == "nearest" else show(value, graduation, rounding)
        return f"{shown} ({decimal(value, places)} in)"
    return f"{show(value, graduation, rounding)} ({decimal(value, places)})"


def fine(value: Fraction | int | float, places: int = 3) -> str:
    """The length as a caliper shows it: a decimal inch with so many places, or millimetres with one place fewer.

    >>> fine(Fraction(13, 8))
    '1.625'
    """
    return _mm(decimal(_in_mm(value), places - 1)) if _WRITTEN.get() == "mm" else decimal(value, places)


def marked(value: Fraction | int | float, off: Fraction, graduation: int = 64) -> str:
    """A mark as it is struck by a rule: its nearest graduation, with "full" or "bare" where that is off by more than half of ``off``.

    ``off`` [in] is how far the dimension may be off either way. *Full*: the line is struck a hair beyond the
    graduation; *bare*: a hair short of it (the trade's words). A metric rule has half millimetres.

    >>> marked(0.2125, Fraction(1, 64)), marked(0.2125, Fraction(4, 1000)), marked(0.2165, Fraction(4, 1000))
    ('7/32', '7/32 bare', '7/32 bare')
    >>> marked(Fraction(221, 1000), Fraction(4, 1000))
    '7/32 full'
    """
    if _WRITTEN.get() == "mm":
        true = _in_mm(value)
        count = Fraction(floor(true * 2 + Fraction(1, 2)), 2)
        text, lost, half = _mm(_trimmed(count)), true - count, off / MM / 2
    else:
        nearest = printed(value, graduation)
        text, lost, half = nearest.text, nearest.lost, off / 2
    # A hair of slack: a mark from an angle is a float.
    if abs(lost) <= half + Fraction(1, 10**9):
        return text
    return f"{text} {'full' if lost > 0 else 'bare'}"


def marked_both(value: Fraction | int | float, off: Fraction, graduation: int = 64) -> str:
    """A mark with the number it stands for in brackets: "7/32 bare (0.213)".

    >>> marked_both(Fraction(17, 80), Fraction(1, 64))
    '7/32 (0.213)'
    >>> with writing("mm"):
    ...     marked_both(Fraction(113, 254), Fraction(2, 254))
    '11.5 mm bare (11.3)'
    """
    if _WRITTEN.get() == "mm":
        text, number = marked(value, off), _trimmed(_in_mm(value))
        return text if text == _mm(number) else f"{text} ({number})"
    return f"{marked(value, off, graduation)} ({decimal(value)})"


def exact(value: Fraction | int, unit: str | None = None) -> str:
    """The length with nothing lost: a shop fraction if a rule can show it, else millimetres, else a decimal.

    Where millimetres are written they are to a hundredth. What a file keeps is written with its ``unit`` named, and loses
    nothing in either: in "mm" millimetres come first, and a length in inches says so.

    >>> exact(Fraction(13, 8)), exact(50 * MM), exact(Fraction(43, 1000)), exact(Fraction(1, 16), "mm")
    ('1 5/8', '50 mm', '0.043', '1/16 in')
    """
    value = Fraction(value)
    if unit is None and _WRITTEN.get() == "mm":
        return _mm(_trimmed(_in_mm(value)))
    metric = unit == "mm"
    if metric and 100 % (value / MM).denominator == 0:
        return f"{_trimmed(value / MM)} mm"
    inch = " in" if metric else ""
    if 128 % value.denominator == 0:
        return _fraction_text(value) + inch
    for places in range(MOST_DECIMALS + 1):
        for number, behind in ((value / MM, " mm"), (value, inch)):
            if 10**places % number.denominator == 0:
                return decimal(number, places) + behind
    return _fraction_text(value) + inch


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
    if _WRITTEN.get() == "mm" and 128 % value.denominator == 0 and 2 % (value / MM).denominator:
        return f"{_fraction_text(value)} in"
    return exact(value)


def in_one_unit(values: Sequence[Fraction]) -> tuple[list[str], str]:
    """Lengths that belong together, all in the unit that all of them were given in, and that unit to be written behind them.

    >>> in_one_unit([30 * MM, 30 * MM, 3 * MM]), in_one_unit([Fraction(3, 4), Fraction(1, 8)])
    ((['30', '30', '3'], ' mm'), (['3/4', '1/8'], ''))
    >>> with writing("mm"):
    ...     in_one_unit([Fraction(3, 4), Fraction(1, 8)])
    (['3/4', '1/8'], ' in')
    """
    metric = _WRITTEN.get() == "mm"
    fractions = all(128 % value.denominator == 0 for value in values)
    if fractions and not (metric and all(2 % (value / MM).denominator == 0 for value in values)):
        return [_fraction_text(value) for value in values], " in" if metric else ""
    if all(100 % (value / MM).denominator == 0 for value in values):
        return [_trimmed(value / MM) for value in values], " mm"
    with unit_in_head(False):
        return [exact(value) for value in values], ""


def given(value: Fraction | int) -> str:
    """The same with the other unit in brackets, or the decimal: how a kerf or an allowance is written.

    >>> given(Fraction(1, 16)), given(Fraction(8, 5) * MM), given(0)
    ('1/16 (0.063)', '1.6 mm (0.063)', '0 (0.000)')
    >>> with writing("mm"):
    ...     given(Fraction(1, 16)), given(Fraction(8, 5) * MM)
    ('1/16 in (1.59 mm)', '1.6 mm (0.063 in)')
    """
    value, text = Fraction(value), own(value)
    if _WRITTEN.get() == "mm":
        return f"{text} ({decimal(value)} in)" if not text.endswith(" in") else f"{text} ({_mm(_trimmed(_in_mm(value)))})"
    return f"{text} ({decimal(value)})" if text.endswith(" mm") else both(value)


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
    if _WRITTEN.get() == "mm":
        return exact(Fraction(_in_mm(value)) * MM)
    value = Fraction(value)
    return exact(value) if 128 % value.denominator == 0 or 1000 % value.denominator == 0 else decimal(value)


def in_unit(value: object, unit: str, how: Callable[..., str] = about) -> str:
    """A part's own length (or what ``how`` writes) among lengths in the job's unit: as ``how`` has it, with its unit where that is another one.

    >>> in_unit(Fraction(35, 16), "in"), in_unit(22 * MM, "mm")
    ('2 3/16', '22 mm')
    >>> with writing("mm"):
    ...     in_unit(Fraction(35, 16), "in"), in_unit(22 * MM, "mm"), in_unit(Fraction(35, 16), "in", both)
    ('2 3/16 in.', '22 mm', '2 3/16 (2.188) in.')
    """
    if unit == _WRITTEN.get():
        return how(value)
    with writing(unit):
        text = how(value)
        return text if unit == "mm" or text.endswith("mm") else f"{text} in."


def figure(value: Fraction | int | float) -> str:
    """A length as a drawing has it whose foot says the unit: fraction and decimal, or millimetres to a hundredth.

    >>> figure(Fraction(13, 8))
    '1 5/8 (1.625)'
    >>> with writing("mm"):
    ...     figure(85 * MM), figure(0.4753)
    ('85', '12.07')
    """
    return _trimmed(_in_mm(value)) if _WRITTEN.get() == "mm" else both(value)


def area(value: float) -> str:
    """An area [in2] as a number in square inches, or in square millimetres.

    >>> area(0.3)
    '0.300'
    >>> with writing("mm"):
    ...     area(0.3), area_word()
    ('193.5', 'square millimetres')
    """
    return f"{value * 645.16:.1f}" if _WRITTEN.get() == "mm" else f"{value:.3f}"


def area_word() -> str:
    """What :func:`area` counts.

    >>> area_word()
    'square inches'
    """
    return f"square {unit_word()}"


def area_sign() -> str:
    """The same, short.

    >>> area_sign()
    'in2'
    """
    return "mm2" if _WRITTEN.get() == "mm" else "in2"


def to_mm(value: Fraction | int | float) -> float:
    """The length in millimetres as a number for drawing.

    >>> to_mm(Fraction(13, 8))
    41.275
    """
    return float(Fraction(value) / MM) if not isinstance(value, float) else value * 25.4
