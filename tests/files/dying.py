"""A process that dies of SIGKILL at its N-th call to the system, for the tests of what is written to the disk."""

from __future__ import annotations

import os
import signal
from collections.abc import Sequence


def die_at(at: int, names: Sequence[str]) -> None:
    """From here on the functions of ``os`` with these names are counted together, and the N-th call of them is the last."""
    calls = 0

    def deadly(call):
        def counted(*args, **kwargs):
            nonlocal calls
            calls += 1
            if calls == at:
                os.kill(os.getpid(), signal.SIGKILL)
            return call(*args, **kwargs)

        return counted

    for name in names:
        setattr(os, name, deadly(getattr(os, name)))
