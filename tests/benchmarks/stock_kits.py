"""How many invented kits the planner proves, and how long it takes: python tests/benchmarks/stock_kits.py [N]

Writes the table tests/benchmarks/stock_kits.md. Wall clock, one thread; tests never look at it.
"""

from __future__ import annotations

import datetime
import os
import statistics
import subprocess
import sys
import time
from pathlib import Path

HERE = Path(__file__).parent
sys.path[:0] = [str(HERE.parents[1]), str(HERE.parent / "stock")]

from kits import kit  # noqa: E402

from anglelib.stock.checker import faults  # noqa: E402
from anglelib.stock.planner import plan  # noqa: E402

GROUPS = ((5, 20), (21, 35), (36, 60))


def measure(number: int, units: str) -> list[dict]:
    """One row a kit: pieces, sticks, seconds, levels proven."""
    rows = []
    for seed in range(number):
        job, rack = kit(seed, units)
        begun = time.perf_counter()
        made = plan(job, rack, budget=20.0)
        seconds = time.perf_counter() - begun
        assert faults(made, job, rack) == (), seed
        (group,) = made.groups
        proven = [proof.proven for proof in group.proofs]
        rows.append(
            {
                "seed": seed,
                "pieces": job.pieces,
                "sticks": len(rack.sticks),
                "seconds": seconds,
                "work": made.work,
                "proven": proven,
                "longest": proven[1] or "longest first: 0" in group.sentence or " proven; the next is " in group.sentence,
                "all": not group.shortages,
            }
        )
        if not all(proven[:2]):
            print(seed, job.pieces, len(rack.sticks), f"{seconds:.1f} s", group.sentence, flush=True)
    return rows


def table(rows: list[dict], units: str) -> list[str]:
    lines = [
        f"Parts in {units}, {len(rows)} kits; all parts can be made on {sum(r['all'] for r in rows)}.",
        "",
        "| pieces | kits | levels 1 and 2 proven | longest piece proven | level 3 | level 4 | median s | worst s |",
        "|---|---|---|---|---|---|---|---|",
    ]
    for low, high in (*GROUPS, (5, 60)):
        some = [r for r in rows if low <= r["pieces"] <= high]
        if not some:
            continue
        seconds = [r["seconds"] for r in some]
        lines.append(
            f"| {low}-{high} | {len(some)} | {sum(all(r['proven'][:2]) for r in some)} | {sum(bool(r['longest']) for r in some)} "
            f"| {sum(r['proven'][2] for r in some)} | {sum(r['proven'][3] for r in some)} "
            f"| {statistics.median(seconds):.2f} | {max(seconds):.1f} |"
        )
    return [*lines, ""]


def main() -> None:
    number = int(sys.argv[1]) if len(sys.argv) > 1 else 200
    lines = ["# Invented kits: what the planner proves", ""]
    lines += ["Made by `python tests/benchmarks/stock_kits.py`. The budget is 20 units of deterministic work a kit.", ""]
    plan(*kit(0))  # the solver is loaded before the clock starts
    for units in ("eighths", "mixed"):
        lines += table(measure(number, units), units)
    commit = subprocess.run(["git", "rev-parse", "--short", "HEAD"], cwd=HERE, capture_output=True, text=True).stdout.strip()
    lines.append(f"Machine: {os.cpu_count()} cores, Python {sys.version.split()[0]}; {datetime.date.today().isoformat()}, commit {commit}.")
    text = "\n".join(lines) + "\n"
    print(text)
    if number >= 200:
        (HERE / "stock_kits.md").write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
