"""Measures what each slow test takes of the processor, its children included, and writes slow_seconds.csv beside this file.

    python -m tests.slow_seconds                       all: hours
    python -m tests.slow_seconds --missing             those that have no measured row
    python -m tests.slow_seconds tests/stock           those of a folder, file or test; --missing may stand before it

What ends early (Ctrl-C) keeps what was measured. A function whose cases are short together has one row; what no turn has, has none (turns.py).
"""

from __future__ import annotations

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

from tests.turns import PROJECT, TABLE, Row, committed, piece

WRITES = "ANGLELIB_SLOW_SECONDS"
TOGETHER = 45.0
"""Cases of one function that take no more have one row [s]."""


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
    items[:] = [item for item in items if piece(item.nodeid, rows) not in measured and not item.nodeid.startswith(tuple(without) or "\0")]


@pytest.hookimpl(wrapper=True)
def pytest_runtest_protocol(item: pytest.Item):
    before = used()
    result = yield
    _write(test=item.nodeid, seconds=round(max(0.0, used() - before), 2))
    return result


# --- the table -------------------------------------------------------------------------------------------------
def merged(rows: Mapping[str, Row], tests: list[str], seconds: Mapping[str, float], everything: bool) -> dict[str, Row]:
    """The rows with what was measured; of all slow tests what there is no more is left out.

    >>> merged({"a::f": Row(9), "b::g": Row(3, "estimate")}, ["a::f[1]", "a::f[2]"], {"a::f[1]": 1, "a::f[2]": 2}, False)
    {'a::f': Row(seconds=3, how='measured'), 'b::g': Row(seconds=3, how='estimate')}
    >>> merged({}, ["a::f[1]", "a::f[2]"], {"a::f[1]": 50, "a::f[2]": 1}, False)
    {'a::f[1]': Row(seconds=50, how='measured'), 'a::f[2]': Row(seconds=1, how='measured')}
    """
    cases: dict[str, list[str]] = {}
    for test in tests:
        cases.setdefault(test.partition("[")[0], []).append(test)
    found = dict(rows)
    if everything:
        found = {name: row for name, row in found.items() if name in cases or name in tests}
    for function, all_cases in cases.items():
        taken = {test: seconds[test] for test in all_cases if test in seconds}
        if len(taken) == len(all_cases) and (sum(taken.values()) <= TOGETHER or len(all_cases) == 1):
            for test in all_cases:
                found.pop(test, None)
            found[all_cases[0] if len(all_cases) == 1 else function] = Row(round(sum(taken.values()), 1))
        elif taken and function not in (rows if len(taken) < len(all_cases) else ()):
            found.pop(function, None)
            found |= {test: Row(round(took, 1)) for test, took in taken.items()}
    return dict(sorted(found.items()))


def written(rows: Mapping[str, Row]) -> str:
    """The table as text.

    >>> print(written({"a::f": Row(9)}), end="")
    test,seconds,how
    a::f,9,measured
    """
    text = io.StringIO()
    lines = csv.writer(text, lineterminator="\n")
    lines.writerow(("test", "seconds", "how"))
    lines.writerows((name, f"{row.seconds:g}", row.how) for name, row in rows.items())
    return text.getvalue()


def main(words: list[str]) -> int:
    """Runs pytest, and writes the table with what came of it."""
    missing, where = "--missing" in words, [word for word in words if word != "--missing"]
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder, "lines")
        environment = {**os.environ, WRITES: str(path), f"{WRITES}_MISSING": "1" if missing else ""}
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
