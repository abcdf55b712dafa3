"""Measures what each slow test takes of the processor, its children included, and writes slow_seconds.csv beside this file.

    python -m tests.slow_seconds                       all: hours
    python -m tests.slow_seconds --missing             those that have no measured row
    python -m tests.slow_seconds tests/stock           those of a folder, file or test; the options may stand before it
    python -m tests.slow_seconds --some 2              two cases of a function with more; the others' time is estimated by them

What ends early (Ctrl-C) keeps what was measured. What no turn has, has no row (turns.py).
"""

from __future__ import annotations

import argparse
import csv
import io
import json
import os
import subprocess
import sys
import tempfile
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

import psutil
import pytest

from tests.turns import PROJECT, TABLE, Row, by_function, committed

WRITES = "ANGLELIB_SLOW_SECONDS"
BROKEN_OFF: set[str] = set()
"""What failed or was skipped: its time says nothing."""


# --- inside pytest: the plugin -------------------------------------------------------------------------------
def used() -> float:
    """Processor time of this process and of all that it has started, those that have ended included [s]."""
    me, total = psutil.Process(), 0.0
    for process in [me, *me.children(recursive=True)]:
        with suppress(psutil.Error):
            times = process.cpu_times()
            total += times.user + times.system + getattr(times, "children_user", 0.0) + getattr(times, "children_system", 0.0)
    return total


def _write(**said: object) -> None:
    with open(os.environ[WRITES], "a", encoding="utf-8") as lines:
        lines.write(json.dumps(said) + "\n")


@pytest.hookimpl(trylast=True)
def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    rows, without = committed()
    names = [item.nodeid for item in items]
    _write(tests=names)
    measured = {name for name, row in rows.items() if row.how == "measured"} if os.environ.get(f"{WRITES}_MISSING") else set()
    items[:] = [item for item in items if item.nodeid.partition("[")[0] not in measured and not item.nodeid.startswith(tuple(without) or "\0")]
    if some := int(os.environ.get(f"{WRITES}_SOME") or 0):
        few = {name for cases in by_function([item.nodeid for item in items]).values() for name in spread(cases, some)}
        items[:] = [item for item in items if item.nodeid in few]


@pytest.hookimpl(wrapper=True)
def pytest_runtest_protocol(item: pytest.Item):
    before = used()
    result = yield
    if item.nodeid not in BROKEN_OFF:
        _write(test=item.nodeid, seconds=round(max(0.0, used() - before), 2))
    return result


def pytest_runtest_logreport(report: pytest.TestReport) -> None:
    if report.outcome != "passed":
        BROKEN_OFF.add(report.nodeid)


# --- the table -------------------------------------------------------------------------------------------------
def spread(cases: list[str], some: int) -> list[str]:
    """So many cases, as far apart as can be.

    >>> spread(["a", "b", "c", "d", "e"], 2), spread(["a"], 2)
    (['b', 'd'], ['a'])
    """
    return cases if len(cases) <= some else [cases[(2 * n + 1) * len(cases) // (2 * some)] for n in range(some)]


def merged(rows: Mapping[str, Row], tests: list[str], seconds: Mapping[str, float], everything: bool) -> dict[str, Row]:
    """The rows with what was measured; a function of which some cases were measured is estimated by them, unless it was measured before.

    Of all slow tests what there is no more is left out.

    >>> merged({"a::f": Row(9, 2), "b::g": Row(3, 1, "estimate")}, ["a::f[1]", "a::f[2]"], {"a::f[1]": 1, "a::f[2]": 2}, False)
    {'a::f': Row(seconds=3, cases=2, how='measured'), 'b::g': Row(seconds=3, cases=1, how='estimate')}
    >>> merged({"b::g": Row(3)}, ["a::f[1]", "a::f[2]"], {"a::f[1]": 50}, True)
    {'a::f': Row(seconds=100.0, cases=2, how='estimate')}
    """
    functions = by_function(tests)
    found = {name: row for name, row in rows.items() if not everything or name in functions}
    for name, cases in functions.items():
        taken = [seconds[test] for test in cases if test in seconds]
        if len(taken) == len(cases):
            found[name] = Row(round(sum(taken), 1), len(cases))
        elif taken and (name not in rows or rows[name].how == "estimate" or rows[name].cases != len(cases)):
            found[name] = Row(round(sum(taken) / len(taken) * len(cases), 1), len(cases), "estimate")
    return dict(sorted(found.items()))


def written(rows: Mapping[str, Row]) -> str:
    """The table as text.

    >>> print(written({"a::f": Row(9)}), end="")
    test,cases,seconds,how
    a::f,1,9,measured
    """
    text = io.StringIO()
    lines = csv.writer(text, lineterminator="\n")
    lines.writerow(("test", "cases", "seconds", "how"))
    lines.writerows((name, row.cases, f"{row.seconds:g}", row.how) for name, row in rows.items())
    return text.getvalue()


def main(words: list[str]) -> int:
    """Runs pytest, and writes the table with what came of it."""
    ask = argparse.ArgumentParser(prog="python -m tests.slow_seconds")
    ask.add_argument("--missing", action="store_true")
    ask.add_argument("--some", type=int, default=0, metavar="N")
    ask.add_argument("where", nargs="*")
    asked = ask.parse_args(words)
    where = asked.where
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder, "lines")
        environment = {**os.environ, WRITES: str(path), f"{WRITES}_MISSING": "1" if asked.missing else "", f"{WRITES}_SOME": str(asked.some)}
        command = [sys.executable, "-m", "pytest", "-q", "-m", "slow", "-p", "tests.slow_seconds", "-p", "no:cacheprovider", *where]
        process = subprocess.Popen(command, cwd=PROJECT, env=environment)
        try:
            code = process.wait()
        except KeyboardInterrupt:
            code = process.wait()
        said = [json.loads(line) for line in path.read_text(encoding="utf-8").splitlines()] if path.exists() else []
    tests = next((line["tests"] for line in said if "tests" in line), [])
    rows, without = committed()
    tests = [test for test in tests if not test.startswith(tuple(without) or "\0")]
    seconds = {line["test"]: line["seconds"] for line in said if "test" in line}
    TABLE.write_text(written(merged(rows, tests, seconds, everything=not where)), encoding="utf-8")
    print(f"{len(seconds)} tests were measured, {sum(seconds.values()):.0f} s of the processor.")
    return code


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
