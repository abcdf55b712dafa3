"""One trial: a fault is planted in a copy of the project, and its area's quick tests run until one fails."""

from __future__ import annotations

import os
import resource
import shutil
import signal
import subprocess
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import count
from pathlib import Path

from tests.mutants.faults import Fault, planted

MOST = 90
"""Processor time that an area's tests have for a fault [s]."""
PATIENCE = 600
"""After so long by the clock a trial hangs [s]."""
LEFT_OUT = shutil.ignore_patterns(".*", "__pycache__", "*.egg-info")


_moments = count(1_000_000_000)


@dataclass(frozen=True)
class Trial:
    """What came of a fault: ``killed``, ``lived`` or ``over`` (not found within its time); the test that found it; processor time [s]."""

    module: str
    fault: Fault
    outcome: str
    test: str
    seconds: float


def copied(project: Path, place: Path) -> Path:
    """A copy in which faults can be planted."""
    return Path(shutil.copytree(project, place, ignore=LEFT_OUT))


def tried(copy: Path, module: str, fault: Fault, tests: Sequence[str]) -> Trial:
    """Plants a fault in the copy, runs the tests, and takes it out again."""
    path = copy / module
    source = path.read_text(encoding="utf-8")
    path.write_text(planted(source, fault.number), encoding="utf-8")
    # what is compiled is kept from trial to trial, and never taken for a fault's of the same second and size
    moment = next(_moments)
    os.utime(path, (moment, moment))
    try:
        code, said, seconds = _run(copy, [module, *tests])
    finally:
        path.write_text(source, encoding="utf-8")
    outcome = {0: "lived", -signal.SIGXCPU: "over"}.get(code, "killed")
    if outcome == "killed" and seconds > MOST:
        outcome = "over"
    failed = [line.split(" ")[1] for line in said.splitlines() if line.startswith(("FAILED ", "ERROR "))]
    return Trial(module, fault, outcome, failed[0] if failed and outcome == "killed" else "", seconds)


def _run(copy: Path, what: Sequence[str]) -> tuple[int, str, float]:
    """pytest's code, what it said and what it took, its own processes with it."""
    before = _spent()
    process = subprocess.Popen(
        [sys.executable, "-m", "pytest", "-x", "-q", "--no-header", "-rfE", "-p", "no:cacheprovider", "-p", "tests.mutants.limit", "--doctest-modules", *what],
        cwd=copy, env={**os.environ, "PYTHONPATH": str(copy)}, text=True,
        stdout=subprocess.PIPE, stderr=subprocess.STDOUT, start_new_session=True,
        preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_CPU, (MOST, MOST + 5)),
    )  # fmt: skip
    try:
        said, _ = process.communicate(timeout=PATIENCE)
    except subprocess.TimeoutExpired:
        os.killpg(process.pid, signal.SIGKILL)
        said, _ = process.communicate()
    return process.returncode, said, _spent() - before


def _spent() -> float:
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime
