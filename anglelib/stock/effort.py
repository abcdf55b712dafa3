"""How long the planner may work: a deterministic budget, a clock, and a stop button.

Work is counted, not timed: the same job and rack spend the same work on any machine, so a plan
limited by its budget is the same plan every time. A clock or a stop ends it sooner, and is
remembered, so that the plan can say so.
"""

from __future__ import annotations

import threading
import time
from collections.abc import Callable
from contextlib import contextmanager


class Stopped(Exception):
    """The clock ran out, or someone pressed stop; the best plan so far stands."""


class Exhausted(Stopped):
    """The deterministic budget is spent; this happens at the same point on every run."""


class Effort:
    """A budget of work [about a second of one core each], with an optional clock and stop event.

    >>> effort = Effort(budget=2)
    >>> effort.spend(1.5); effort.left
    0.5
    """

    def __init__(
        self,
        budget: float = 20.0,
        seconds: float | None = None,
        stop: threading.Event | None = None,
        progress: Callable[[str], None] | None = None,
    ):
        self.budget, self.spent, self.ceiling = budget, 0.0, budget
        self.deadline = None if seconds is None else time.monotonic() + seconds
        self.stop, self.progress = stop, progress

    def part(self, budget: float, progress: Callable[[str], None] | None = None) -> Effort:
        """A share of the budget, under the same clock and stop."""
        share = Effort(budget, None, self.stop, progress)
        share.deadline = self.deadline
        return share

    @property
    def left(self) -> float:
        """Work that may still be spent, in the present stage."""
        return max(0.0, self.ceiling - self.spent)

    @contextmanager
    def up_to(self, share: float):
        """A stage that ends, without an error, when a share of the whole budget is spent."""
        self.ceiling = self.budget * share
        try:
            yield
        except Exhausted:
            pass
        finally:
            self.ceiling = self.budget

    def spend(self, work: float) -> None:
        """Count work done. Raises :class:`Exhausted` when the budget is spent, and :class:`Stopped`
        when the clock has run out or stop was pressed."""
        self.spent += work
        self.check()
        if self.spent > self.ceiling:
            raise Exhausted

    def over(self, work: float) -> bool:
        """Whether nothing more is to be begun; else the work is counted that the next question takes besides its search."""
        if self.ended() or self.spent > self.budget:
            return True
        self.spent += work
        return False

    def check(self) -> None:
        """Raise :class:`Stopped` when the clock has run out or stop was pressed."""
        if self.ended():
            raise Stopped

    def ended(self) -> bool:
        """Whether the clock has run out or stop was pressed."""
        if self.stop is not None and self.stop.is_set():
            return True
        return self.deadline is not None and time.monotonic() > self.deadline

    def tell(self, sentence: str) -> None:
        """Report progress, in words."""
        if self.progress is not None:
            self.progress(sentence)

    @contextmanager
    def watching(self, halt: Callable[[], None]):
        """Call ``halt`` as soon as the clock runs out or stop is pressed, while the block runs."""
        if self.stop is None and self.deadline is None:
            yield
            return
        done = threading.Event()

        def watch() -> None:
            while not done.wait(0.05):
                if self.ended():
                    halt()
                    return

        watcher = threading.Thread(target=watch, daemon=True)
        watcher.start()
        try:
            yield
        finally:
            done.set()
            watcher.join()
