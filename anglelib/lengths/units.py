"""The unit in which lengths are written: a context that steers words alone, and the words for the unit itself."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from fractions import Fraction

from anglelib.errors import LengthError

MM = Fraction(5, 127)
"""One millimetre [in]: 1/25.4, exactly."""

UNITS = ("in", "mm")
"""The units in which a job, or a part, may be given and written."""
_WRITTEN: ContextVar[str] = ContextVar("unit in which lengths are written", default="in")
_APART: ContextVar[bool] = ContextVar("whether inches are written among millimetres", default=False)
_IN_HEAD: ContextVar[bool] = ContextVar("whether a head says that unit", default=False)


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

    >>> from anglelib.lengths import both, fine, own, show
    >>> with writing("mm"), unit_in_head():
    ...     show(85 * MM), both(85 * MM), fine(85 * MM), own(Fraction(1, 16))
    ('85', '85 (3.346 in)', '85.00', '1/16 in')
    """
    before = _IN_HEAD.set(said)
    try:
        yield
    finally:
        _IN_HEAD.reset(before)


def with_mm(number: str) -> str:
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
