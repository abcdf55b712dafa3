"""Counts how often the first cause is right: the library against the best method, on the same parts of the bench.

    python tests/diagnosis/diagnosis_count.py          2,000 parts in each of three runs; writes reliability.csv
    python tests/diagnosis/diagnosis_count.py 200      fewer
"""

from __future__ import annotations

import sys
from collections import defaultdict
from dataclasses import dataclass
from fractions import Fraction as F
from pathlib import Path
from random import Random

import bench_slips as bench
from best_method import Best

from anglelib.drawing.reliability import reliability_sheet
from anglelib.errors import BenchError
from anglelib.files import read_job
from anglelib.inspection.diagnosis import Reading, Workmanship, diagnose
from anglelib.inspection.reading_ids import chosen
from anglelib.part import Hole, Part, Taper
from anglelib.section import Section

PROJECT = Path(__file__).resolve().parents[2]


def demo():
    """The demo job."""
    return read_job(PROJECT / "notebooks" / "demo" / "job.toml")


def random_part(rng: Random, number: int) -> Part:
    """A part of random stock with none to two tapers and one to four holes, all legal.

    Both legs are never tapered at one end: the one taper bevels the inner face that the other's
    inside width is read on, and a caliper finds no edge there.
    """
    while True:
        legs = [F(rng.randint(5, 16), 8) for _ in "AB"]
        if rng.random() < 0.6:
            legs[1] = legs[0]
        thick = F(rng.choice((1, 2, 2, 3)), 16)
        length = F(rng.randint(20, 300), 8)
        tapers = []
        for end in rng.sample((1, 2), rng.choice((0, 1, 1, 1, 2))):
            leg = rng.choice("AB")
            width = legs["AB".index(leg)]
            left = F(0) if rng.random() < 0.25 else F(rng.randint(2, max(3, int(width * 8))), 16)
            tapers.append(Taper(leg, end, left, run=F(rng.randint(12, 48), 16)))
        holes = []
        for _ in range(rng.randint(1, 4)):
            leg = rng.choice("AB")
            holes.append(Hole(leg, F(rng.randint(6, int(length * 16) - 6), 16), legs["AB".index(leg)] / 2 + F(1, 16), F(1, 8)))
        try:
            stock = Section(legs[0], legs[1], thick, fillet=thick)
            part = Part(f"R{number}", "Random part", stock, "6061-T6", length, tapers=tapers, holes=holes)
            if all(float(t.run) < float(length) / 2 for t in tapers) and length >= 3:
                return part
        except BenchError:
            pass


@dataclass(frozen=True)
class Outcome:
    """One part, what the library and the best method made of it."""

    ids: tuple[str, ...]
    alike: frozenset[str]
    shares: dict[str, float]
    best: dict[str, float]
    named: tuple[tuple[str, ...], ...]
    probabilities: tuple[float, ...]
    cannot_tell: bool

    def first(self, shares: dict[str, float]) -> str:
        return max(shares, key=lambda id_: (shares[id_], id_))

    def three(self, shares: dict[str, float]) -> list[str]:
        return sorted(shares, key=lambda id_: (-shares[id_], id_))[:3]


def prepared(seed: int, kinds: int, two: float = 0.1, habit: bench.Habit = bench.USUAL):
    """Part types: the demo job's, and as many random ones; each with its ways, readings and best method."""
    rng = Random(seed)
    job = demo()
    parts = list(job.parts) if kinds >= len(job.parts) else rng.sample(list(job.parts), kinds)
    parts += [random_part(rng, n) for n in range(kinds)]
    kerf, allowance = float(job.shop.kerf), float(job.shop.allowance)
    found = []
    for part in parts:
        names, ways = chosen(part), bench.slips(part, kerf, allowance)
        found.append((part, names, ways, Best(part, names, ways, two, habit)))
    return job.shop, found


def count(number: int, tails: str, seed: int = 1, kinds: int = 20, two: float = 0.1, habit: bench.Habit = bench.USUAL):
    """So many parts off the bench, and what was made of each."""
    shop, types = prepared(seed, kinds, two, habit)
    rng = Random(seed + 1)
    s = bench.SCATTER
    work = Workmanship(length=s["length"], taper=s["run"], hole=s["hole"], square=s["square"], width=s["toe"], lean=s["lean"])
    outcomes = []
    for n in range(number):
        part, names, ways, best = types[n * len(types) // number]
        trial = bench.trial(rng, part, names, ways, tails, two, habit)
        readings = [Reading(*triple) for triple in zip(names, trial.values, trial.spreads)]
        found = diagnose(part, shop, readings, workmanship=work)
        outcomes.append(
            Outcome(
                trial.ids,
                frozenset(best.alike(trial.works) | set(trial.ids)),
                dict(found.shares),
                best.shares(trial.values, tails),
                tuple((*cause.ids, *cause.second) for cause in found.causes[:3]),
                tuple(cause.probability for cause in found.causes[:3]),
                found.cannot_tell,
            )
        )
    return outcomes


def rates(outcomes: list[Outcome]) -> dict[str, float]:
    """First-right and in-first-three [%], by mistake and by class, of the library and of the best method."""
    n = max(1, len(outcomes))
    found = {}
    for who in ("shares", "best"):
        ranked = [(o, getattr(o, who)) for o in outcomes]
        found[f"{who} id"] = sum(o.first(s) in o.ids for o, s in ranked) / n
        found[f"{who} class"] = sum(o.first(s) in o.alike for o, s in ranked) / n
        found[f"{who} three"] = sum(bool(set(o.three(s)) & o.alike) for o, s in ranked) / n
        found[f"{who} three id"] = sum(bool(set(o.three(s)) & set(o.ids)) for o, s in ranked) / n
    found["cause"] = sum(any(id_ in o.named[0] for id_ in o.ids) for o in outcomes) / n
    found["size"] = sum(len(o.alike) for o in outcomes) / n
    return {key: 100 * value if key != "size" else value for key, value in found.items()}


def table(outcomes: list[Outcome]) -> list[str]:
    """Rows of a table: each mistake as a single slip, then all, then two slips."""
    groups: dict[str, list[Outcome]] = defaultdict(list)
    for o in outcomes:
        groups[o.ids[0] if len(o.ids) == 1 else "two slips"].append(o)
    order = [id_ for id_ in sorted(groups) if id_ != "two slips"]
    rows = [(id_, groups[id_]) for id_ in order]
    rows.append(("one slip or none", [o for o in outcomes if len(o.ids) == 1]))
    rows.append(("two slips", groups["two slips"]))
    lines = [
        "| truth | parts | first, by mistake | best | first, by class | best | in first three, by class | best | mistakes alike |",
        "|---|---|---|---|---|---|---|---|---|",
    ]
    for name, of in rows:
        if of:
            r = rates(of)
            lines.append(
                f"| {name} | {len(of)} | {r['shares id']:.1f} | {r['best id']:.1f} | {r['shares class']:.1f} | {r['best class']:.1f} "
                f"| {r['shares three']:.1f} | {r['best three']:.1f} | {r['size']:.1f} |"
            )
    return lines


def calibration(outcomes: list[Outcome], steps: int = 10) -> list[tuple[float, float, int]]:
    """Predicted against observed: over all mistakes of all parts, in equal steps of the library's probability."""
    bins: list[list[tuple[float, bool]]] = [[] for _ in range(steps)]
    for o in outcomes:
        for id_, share in o.shares.items():
            bins[min(steps - 1, int(share * steps))].append((share, id_ in o.ids))
    return [(sum(p for p, _ in of) / len(of), sum(hit for _, hit in of) / len(of), len(of)) for of in bins if of]


RUNS = {
    "normal": ("normal errors of reading", "normal", bench.USUAL),
    "heavy": ("heavy-tailed errors of reading (Student t, 3 degrees of freedom)", "heavy", bench.USUAL),
    "other bench": (
        "heavy-tailed errors on another bench: small amounts prevail, the ways of a mistake are all alike, work scatters half as much again",
        "heavy",
        bench.OTHER,
    ),
}


CURVES = {
    "normal": "normal readings",
    "heavy": "heavy-tailed readings",
    "other bench": "another bench",
}


def figures() -> dict:
    """The reliability curve, from the rows on record."""
    runs: dict[str, list] = {words: [] for words in CURVES.values()}
    for row in Path(__file__).with_name("reliability.csv").read_text(encoding="utf-8").splitlines()[1:]:
        run, predicted, observed, number = row.split(",")
        runs[CURVES[run]].append((float(predicted), float(observed), int(number)))
    return {"10_reliability.png": reliability_sheet(runs)}


def report(total: int) -> tuple[str, list[str]]:
    """The tables in words, and the reliability curve's rows (run, predicted, observed, number)."""
    text, rows = [], ["run,predicted,observed,number"]
    for name, (words, tails, habit) in RUNS.items():
        outcomes = count(total, tails, habit=habit)
        text += ["", f"## {total} parts, {words}", "", *table(outcomes)]
        rows += [f"{name},{p:.4f},{f:.4f},{n}" for p, f, n in calibration(outcomes)]
    return "\n".join(text), rows


if __name__ == "__main__":
    tables, curve = report(int(sys.argv[1]) if len(sys.argv) > 1 else 2000)
    print(tables)
    Path(__file__).with_name("reliability.csv").write_text("\n".join(curve) + "\n", encoding="utf-8")
