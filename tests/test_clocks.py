"""What depends on how busy the machine is stands in tests/benchmarks alone: no clock is held elsewhere, and no property test has one of its own."""

import re
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

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


def test_property_tests_are_the_same_every_time_only_where_ci_runs_the_quick_ones(monkeypatch, request):
    """One profile: no clock ends a test, and the slow tier is by lot everywhere."""
    spec = spec_from_file_location("the_tests_own", TESTS / "conftest.py")
    own = module_from_spec(spec)
    spec.loader.exec_module(own)
    try:
        for ci, which, same in (("1", "not slow", True), ("", "not slow", False), ("1", "slow", False), ("", "slow", False)):
            monkeypatch.setenv("ANGLELIB_CI", ci)
            own.by_lot_or_not(which)
            assert (settings.default.derandomize, settings.default.deadline) == (same, None)
            assert HealthCheck.too_slow in settings.default.suppress_health_check
    finally:
        monkeypatch.undo()
        own.by_lot_or_not(request.config.option.markexpr)
