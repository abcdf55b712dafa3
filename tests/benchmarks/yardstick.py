"""What machines differ by: the processor's time of a fixed piece of plain Python. What a command takes is held as so many of it."""

from __future__ import annotations

import os
import subprocess
import sys
import time
from collections.abc import Callable


def work() -> int:
    """A tenth of a second or so: numbers, text, a dictionary."""
    seen: dict[str, int] = {}
    for n in range(150_000):
        text = f"{(n * 7919 % 1009) / 64:.4f}"
        seen[text] = seen.get(text, 0) + len(text)
    return sum(seen.values())


def yardstick(times: int = 5) -> float:
    """The least processor time of some goes [s].

    >>> 0.01 < yardstick(1) < 10
    True
    """
    return min(_taken(work) for _ in range(times))


def _taken(do: Callable[[], object]) -> float:
    begun = time.process_time()
    do()
    return time.process_time() - begun


def command(*words: str, times: int = 2) -> float:
    """The least processor time of ``python -m anglelib`` with these words, all that it starts included [s]."""

    def once() -> float:
        before = os.times()
        subprocess.run([sys.executable, "-m", "anglelib", *words], check=True, stdout=subprocess.DEVNULL)
        after = os.times()
        return after.children_user + after.children_system - before.children_user - before.children_system

    return min(once() for _ in range(times))
