"""The time that a command is given: its plan has most of it, the questions after the plan what is left.

>>> Clock(None).left() is None
True
>>> clock = Clock(10.0)
>>> 9 < clock.left() <= 10, 5 < clock.left(0.6) <= 6, clock.over
(True, True, False)
"""

from __future__ import annotations

import time

LATE = "The time given is over: what is said to be open here may be settled with more of it."


class Clock:
    """So many seconds from now on; None: as long as it takes."""

    def __init__(self, seconds: float | None):
        self._end = None if seconds is None else time.monotonic() + seconds

    def left(self, share: float = 1.0) -> float | None:
        """A share of the seconds that are left; None where there is no end."""
        return None if self._end is None else max(0.0, self._end - time.monotonic()) * share

    @property
    def over(self) -> bool:
        """Whether nothing is left."""
        return self.left() == 0
