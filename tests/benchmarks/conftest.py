"""For what is measured by the clock: the machine must have nothing else to do."""

import time

import psutil
import pytest

BUSY = 25
"""Per cent of all cores; above it times by the clock say nothing."""


@pytest.fixture
def quiet() -> None:
    """Waits up to a minute until the machine rests; on one that does not, nothing is measured, and it is said."""
    until = time.monotonic() + 60
    while (busy := psutil.cpu_percent(interval=2)) > BUSY:
        if time.monotonic() > until:
            pytest.skip(f"This machine is busy ({busy:.0f} % of its cores): the clock was not read.")
