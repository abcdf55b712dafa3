"""What depends on how busy the machine is stands in tests/benchmarks alone: no clock is held elsewhere, and no property test has one of its own."""

import re
from pathlib import Path

import pytest

TESTS = Path(__file__).resolve().parent
LEAST = 0.05
"""Processor time below which its own grain decides [s]."""


def complaints(source: str) -> list[str]:
    """What a file of tests says that a busy machine may fail, or that is the profile's to say (conftest.py)."""
    found = re.findall(r"\bperf_counter\b|\bderandomize=|\bdeadline=", source)
    found += re.findall(r"^ *assert .*\b(?:monotonic|time\.time)\(\) *-.*$", source, re.MULTILINE)
    return found + [number for number in re.findall(r"process_time\(\) - \w+ < ([\d.]+)", source) if float(number) < LEAST]


def test_no_clock_is_held_outside_the_benchmarks():
    files = [path for path in TESTS.rglob("*.py") if "benchmarks" not in path.parts and path.name not in ("conftest.py", "test_clocks.py")]
    assert len(files) > 200
    assert {path.name: found for path in files if (found := complaints(path.read_text(encoding="utf-8")))} == {}


@pytest.mark.parametrize("line", [
    "start = time.perf_counter()", "@settings(deadline=400)", "many = settings(max_examples=5, derandomize=True)",
    "    assert time.monotonic() - begun < 2", "    assert time.process_time() - start < 0.02",
])  # fmt: skip
def test_each_is_seen(line):
    assert len(complaints(f"def test_it():\n{line}\n")) == 1
