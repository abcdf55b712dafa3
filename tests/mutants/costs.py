"""For pytest: what each test file costs of processor time, written down for :mod:`tests.mutants.nearest` (``-p tests.mutants.costs``)."""

from __future__ import annotations

import resource
from collections import Counter

import pytest

from tests.mutants.nearest import SECONDS, seconds

HEAD = "# What each test file costs of processor time [s], start and imports aside, as python -m tests.mutants --measure has found it.\n"
_found: Counter[str] = Counter()


@pytest.hookimpl(wrapper=True)
def pytest_runtest_protocol(item):
    before = _spent()
    try:
        return (yield)
    finally:
        _found[item.location[0]] += _spent() - before


def pytest_sessionfinish() -> None:
    """Those that were not run now stay as they were, as long as they are there."""
    costs = {name: cost for name, cost in seconds().items() if SECONDS.parents[2].joinpath(name).is_file()} | _found
    SECONDS.write_text(HEAD + "".join(f"{cost:.1f} {name}\n" for name, cost in sorted(costs.items())), encoding="utf-8")


def _spent() -> float:
    """Of this process and of those that it has waited for."""
    used = [resource.getrusage(who) for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)]
    return sum(one.ru_utime + one.ru_stime for one in used)
