"""Noise at the saw and the sander: how long an ear may bear it.

The limit is the law for workplaces; whoever works at home does well to keep it too.

>>> hours_allowed(100), hours_allowed(92)
(2.0, 6.062866266041593)
>>> needs_hearing_protection(84), needs_hearing_protection(85)
(False, True)
>>> hours_allowed(116)
Traceback (most recent call last):
    ...
anglelib.errors.BenchError: 116 dBA is above 115, where no time at all is allowed: quieten the machine or stay away from it.
"""

from __future__ import annotations

from math import isfinite

from anglelib.errors import BenchError
from anglelib.geometry.lazy import formulas

ACTION_LEVEL = 85.0
"""Mean level over eight hours [dBA] from which hearing has to be looked after; 29 CFR 1910.95(c)."""
CEILING = 115.0
"""Level [dBA] above which no time is allowed; 29 CFR 1910.95 table G-16 ends here."""


def hours_allowed(level: float) -> float:
    """Hours a day that are allowed at a steady sound level [dBA], ears unprotected.

    29 CFR 1910.95 appendix A, table G-16a: eight hours at 90 dBA, half as long for every 5 dBA more.
    """
    if not isfinite(level):
        raise BenchError("The sound level is not a number: read the meter again, on scale A, slow.")
    if level > CEILING:
        raise BenchError(f"{level:g} dBA is above {CEILING:g}, where no time at all is allowed: quieten the machine or stay away from it.")
    return float(formulas().hours_allowed(L_A=float(level)))


def dose(stays: list[tuple[float, float]]) -> float:
    """A day's noise as a part of what is allowed, from (level [dBA], hours) pairs; more than 1 is too much.

    >>> dose([(95, 2), (90, 4)])
    1.0
    """
    return sum(hours / hours_allowed(level) for level, hours in stays)


def needs_hearing_protection(level: float) -> bool:
    """Whether a level [dBA] kept up for eight hours calls for a hearing conservation programme: 85 and more."""
    return level >= ACTION_LEVEL
