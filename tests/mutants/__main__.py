"""Plants faults by lot and says how many the tests find.

    python -m tests.mutants                       a sample over all areas, as a table
    python -m tests.mutants stock --count 40      one area
    python -m tests.mutants --module anglelib/stock/checker.py --line 80    every fault of a line, or of a module
    python -m tests.mutants stock --measure       what each of the area's test files costs, into seconds.txt: the quick ones go first
"""

from __future__ import annotations

import argparse
import random
import subprocess
import sys
import tempfile
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

from tests.mutants.faults import Fault, faults
from tests.mutants.nearest import AREAS, modules, nearest, test_files
from tests.mutants.same import same
from tests.mutants.trial import Trial, copied, tried

PROJECT = Path(__file__).resolve().parents[2]
COUNT = 43
"""Faults of an area, by the way: seven areas make three hundred."""


def sample(area: str, count: int, seed: int) -> list[tuple[str, Fault]]:
    """Faults of an area by lot, those that change nothing (``same``) left out."""
    known = same()
    all_ = []
    for path in modules(area, PROJECT):
        name = path.relative_to(PROJECT).as_posix()
        all_ += [(name, fault) for fault in faults(path.read_text(encoding="utf-8")) if (name, fault.here, fault.there) not in known]
    return random.Random(f"{area} {seed}").sample(all_, min(count, len(all_)))


def _of(module: str, line: int | None) -> list[tuple[str, Fault]]:
    return [(module, fault) for fault in faults(PROJECT.joinpath(module).read_text(encoding="utf-8")) if line in (None, fault.line)]


def _try(some: Sequence[tuple[str, Fault]]) -> list[Trial]:
    """Trials in a copy of their own."""
    done = []
    with tempfile.TemporaryDirectory(prefix="anglelib-mutants-") as folder:
        copy = copied(PROJECT, Path(folder, "copy"))
        for module, fault in some:
            area = Path(module).parts[1]
            one = tried(copy, module, fault, nearest(PROJECT / module, area, PROJECT))
            print(f"{one.outcome:6} {one.seconds:5.1f} s  {module}:{fault.line}  {fault.here}  ->  {fault.there}  {one.test}", flush=True)
            done.append(one)
    return done


def _measured(areas: Sequence[str]) -> int:
    files = sorted({str(path) for area in areas for path in test_files(area, PROJECT)})
    return subprocess.run([sys.executable, "-m", "pytest", "-q", "-p", "tests.mutants.costs", *files], cwd=PROJECT, check=False).returncode


def _rows(trials: Sequence[Trial]) -> Iterator[str]:
    yield "| area | planted | found | not within 90 s | lived | found of a hundred | processor time of one, the median [s] |"
    yield "|---|---|---|---|---|---|---|"
    areas = sorted({Path(trial.module).parts[1] for trial in trials})
    for area in [*areas, "all"]:
        some = [trial for trial in trials if area in ("all", Path(trial.module).parts[1])]
        killed, over, lived = (sum(trial.outcome == outcome for trial in some) for outcome in ("killed", "over", "lived"))
        middle = sorted(trial.seconds for trial in some)[len(some) // 2]
        yield f"| {area} | {len(some)} | {killed} | {over} | {lived} | {100 * killed / len(some):.0f} | {middle:.0f} |"


def main(arguments: Sequence[str] | None = None) -> int:
    """The command; 0, or 1 where a fault was not found."""
    parser = argparse.ArgumentParser(prog="python -m tests.mutants", description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("area", nargs="*", choices=[[], *AREAS], default=[])
    parser.add_argument("--count", type=int, default=COUNT, help="faults of each area")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--module")
    parser.add_argument("--line", type=int)
    parser.add_argument("--processes", type=int, default=2)
    parser.add_argument("--measure", action="store_true")
    wanted = parser.parse_args(arguments)
    if wanted.measure:
        return _measured(wanted.area or list(AREAS))
    if wanted.module:
        chosen = _of(wanted.module, wanted.line)
    else:
        chosen = [one for area in wanted.area or AREAS for one in sample(area, wanted.count, wanted.seed)]
    hands = max(1, min(wanted.processes, len(chosen)))
    with ProcessPoolExecutor(hands) as pool:
        trials = [trial for some in pool.map(_try, [chosen[n::hands] for n in range(hands)]) for trial in some]
    print("\n".join(_rows(trials)))
    return int(any(trial.outcome != "killed" for trial in trials))


if __name__ == "__main__":
    sys.exit(main())
