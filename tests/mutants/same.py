"""The faults that change nothing: judged by hand, each with its reason, in ``same.txt`` beside this module."""

from __future__ import annotations

from pathlib import Path

LIST = Path(__file__).with_name("same.txt")


def same() -> dict[tuple[str, str, str], str]:
    """Module, what stands there and what is put in its place, with the reason."""
    rows = [line for line in LIST.read_text(encoding="utf-8").splitlines() if line and not line.startswith("#")]
    found = {}
    for row in rows:
        module, here, there, reason = (field.strip() for field in row.split(" | "))
        found[module, here, there] = reason
    return found
