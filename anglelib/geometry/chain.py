"""Running dimensions against stepping off, the 1-inch start, and batches of like parts.

>>> running([Fraction(1, 2), Fraction(3, 4), Fraction(3, 4)])
(Fraction(1, 2), Fraction(5, 4), Fraction(2, 1))
>>> chained_pieces(2, 3, Fraction(1, 16))
(Fraction(63, 32), Fraction(31, 16), Fraction(63, 32))
>>> chained_pieces(2, 0, Fraction(1, 16))
Traceback (most recent call last):
    ...
anglelib.errors.PartError: A batch of 0 pieces needs no marks: give at least 1.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import accumulate

from anglelib.errors import PartError
from anglelib.geometry.lazy import formulas
from anglelib.lengths import inches


def running(steps: Sequence[Fraction]) -> tuple[Fraction, ...]:
    """Steps from mark to mark as running dimensions: every mark from the one datum [in]."""
    return tuple(accumulate(steps))


def stepped_off(steps: Sequence[Fraction], error: Fraction) -> tuple[Fraction, ...]:
    """Where the marks come to lie when each step is laid off from the last mark, all with the same error [in]."""
    return tuple(place + n * error for n, place in enumerate(running(steps), start=1))


def stepping_error(steps: int, error: Fraction | float) -> Fraction | float:
    """The error of the last of so many steps, every step wrong by the same amount [in]."""
    return formulas().stepped_error(n_s=steps, e_1=error)


def stepping_scatter(steps: int, uncertainty: float) -> float:
    """The standard uncertainty of the last of so many independent steps [in]."""
    return formulas().stepped_scatter(n_s=steps, e_1=float(uncertainty))


def from_one(length: Fraction | int | str) -> Fraction:
    """What the rule shows at a length when the 1-inch mark lies on the datum [in]: one more than the length."""
    return inches(length) + 1


def _batch(count: int) -> int:
    if count < 1:
        raise PartError(f"A batch of {count} pieces needs no marks: give at least 1.")
    return count


def batch_marks(length: Fraction | int, count: int, kerf: Fraction) -> tuple[Fraction, ...]:
    """Running dimensions, from the stick's squared end, of the saw's near side for a batch of blanks [in].

    Each mark is a whole blank beyond the far side of the last kerf.
    """
    mark = formulas().batch_mark
    return tuple(mark(n_p=n, L_b=Fraction(length), k=Fraction(kerf)) for n in range(1, _batch(count) + 1))


def chained_pieces(length: Fraction | int, count: int, kerf: Fraction) -> tuple[Fraction, ...]:
    """What comes off a stick just long enough when a batch is marked end to end, no kerf between, and the saw splits every line [in].

    The first and the last piece keep one of the stick's squared ends and lose half a kerf, the ones
    between lose a whole one.
    """
    length, half = Fraction(length), kerf / 2
    if _batch(count) == 1:
        return (length,)
    return (length - half, *(length - kerf for _ in range(count - 2)), length - half)


def ganged_pieces(length: Fraction | int, count: int, mark_error: Fraction) -> tuple[Fraction, ...]:
    """What comes of blanks clamped side by side and marked with one line: all alike, with that line's error [in].

    >>> set(ganged_pieces(2, 4, Fraction(1, 64)))
    {Fraction(129, 64)}
    """
    return (Fraction(length) + mark_error,) * _batch(count)


def stopped_pieces(length: Fraction | int, count: int, stop_error: Fraction, chip: Fraction = Fraction(0)) -> tuple[Fraction, ...]:
    """What comes off against a stop block [in]: all alike, with the stop's error; the kerf never enters.

    ``chip`` is a chip caught at the stop before the last piece: it shortens that piece alone.
    """
    pieces = [Fraction(length) + stop_error] * _batch(count)
    pieces[-1] -= chip
    return tuple(pieces)
