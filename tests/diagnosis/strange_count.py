"""Counts how good the diagnosis is on a bench that it does not know, and how sure of itself it then is.

    python tests/diagnosis/strange_count.py            400 parts in each run, two at a time; writes the tables of strange.md, and strange.csv
    python tests/diagnosis/strange_count.py 100        the same with fewer
    python tests/diagnosis/strange_count.py 400 rule   one run, printed only
"""

from __future__ import annotations

import subprocess
import sys
from collections import defaultdict
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from random import Random

import diagnosis_count as counting
import strange_bench as strange
from strange_best import StrangeBest
from strange_parts import rare_parts

from anglelib.inspection.diagnosis import Reading, diagnose
from anglelib.inspection.reading_ids import chosen

HERE = Path(__file__).parent
TABLE, CURVE = HERE / "strange.md", HERE / "strange.csv"
BELOW = "<!-- What follows is written by strange_count.py. -->"
FULL = 400
ENOUGH = 10
"""A mistake that befell fewer parts is not called the worst."""


@dataclass(frozen=True)
class Outcome:
    """One part, and what was made of it: ``best`` is empty where the bench's own likelihood is not worked out."""

    ids: tuple[str, ...]
    alike: frozenset[str]
    shares: dict[str, float]
    best: dict[str, float]
    named: tuple[tuple[tuple[str, ...], tuple[str, ...]], ...]
    """The causes: what cannot be parted, and for two slips together what cannot be parted from the second."""
    probabilities: tuple[float, ...]
    decided: bool
    nothing: bool = False
    """Whether it says that the readings fit nothing."""

    def right(self, place: int) -> bool:
        """Whether a cause that is named is just what befell the part: one slip for one, two for two."""
        one, two = self.named[place]
        if not two:
            return len(self.ids) == 1 and self.ids[0] in one
        return len(self.ids) == 2 and any(a in one and b in two for a, b in (self.ids, self.ids[::-1]))


def kinds_of(run: str, seed: int, kinds: int):
    """The shop, and kinds of part at this bench, each with its best method."""
    it, rng, job = strange.RUNS[run], Random(seed), counting.demo()
    if it.rare:
        parts = rare_parts(rng, 2 * kinds, it.rare)
    else:
        parts = rng.sample(list(job.parts), min(kinds, len(job.parts))) + [counting.random_part(rng, n) for n in range(kinds)]
    kerf, allowance = float(job.shop.kerf), float(job.shop.allowance)
    found = [strange.kind_of(rng, part, chosen(part), it, kerf, allowance) for part in parts]
    return job.shop, [(kind, StrangeBest(kind, it)) for kind in found]


def kinds_for(number: int) -> int:
    """Half of how many kinds of part so many parts are: some fifteen of each."""
    return max(1, number // 30)


def count(run: str, number: int, seed: int = 11, kinds: int = 0, best: bool = True) -> list[Outcome]:
    """So many parts off the bench, and what was made of each; the library is told nothing of the bench but its readings."""
    it = strange.RUNS[run]
    shop, types = kinds_of(run, seed, kinds or kinds_for(number))
    rng, outcomes = Random(seed + 1), []
    for n in range(number):
        kind, method = types[n * len(types) // number]
        trial = strange.trial(rng, kind, it, n)
        readings = [Reading(name, value) for name, value in zip(kind.names, trial.values)]
        found = diagnose(kind.part, shop, readings, prior=kind.worker.often if it.told else None)
        outcomes.append(
            Outcome(
                trial.ids,
                frozenset(method.alike(trial.works) | set(trial.ids)),
                dict(found.shares),
                method.shares(trial.values) if best and it.known else {},
                tuple((cause.ids, cause.second) for cause in found.leaders),
                tuple(cause.probability for cause in found.leaders),
                not (found.cannot_tell or found.misfit),
                bool(found.misfit),
            )
        )
    return outcomes


# --- how good it is ------------------------------------------------------------------------------------------
def ranked(shares: dict[str, float]) -> list[str]:
    return sorted(shares, key=lambda id_: (shares[id_], id_), reverse=True)[:3]


def rates(outcomes: list[Outcome], who: str = "shares") -> dict[str, float]:
    """[%]: first by mistake, first by class, in the first three by class."""
    n, found = len(outcomes), [(o, ranked(getattr(o, who))) for o in outcomes]
    return {
        "id": 100 * sum(three[0] in o.ids for o, three in found) / n,
        "class": 100 * sum(three[0] in o.alike for o, three in found) / n,
        "three": 100 * sum(bool(set(three) & o.alike) for o, three in found) / n,
    }


def said(outcomes: list[Outcome]) -> list[tuple[float, bool]]:
    """Every cause that was named: its probability, and whether it was right."""
    return [(p, o.right(i)) for o in outcomes for i, p in enumerate(o.probabilities)]


def tenths(pairs: list[tuple[float, bool]]) -> list[tuple[float, float, int]]:
    """Said against so, by tenths of what was said."""
    bins: list[list[tuple[float, bool]]] = [[] for _ in range(10)]
    for p, right in pairs:
        bins[min(9, int(10 * p))].append((p, right))
    return [(sum(p for p, _ in of) / len(of), sum(right for _, right in of) / len(of), len(of)) for of in bins if of]


def calibration(outcomes: list[Outcome]) -> dict[str, float]:
    """Expected calibration error and Brier score of the causes named; of those that it did not call undecided: how sure, how often right [%]."""
    pairs = said(outcomes)
    sure = [o for o in outcomes if o.decided]
    return {
        "error": 100 * sum(abs(p - f) * n for p, f, n in tenths(pairs)) / len(pairs),
        "brier": sum((p - right) ** 2 for p, right in pairs) / len(pairs),
        "nothing": 100 * sum(o.nothing for o in outcomes) / len(outcomes),
        "sure": 100 * len(sure) / len(outcomes),
        "said": 100 * sum(o.probabilities[0] for o in sure) / max(1, len(sure)),
        "right": 100 * sum(o.right(0) for o in sure) / max(1, len(sure)),
    }


def by_truth(outcomes: list[Outcome]) -> dict[str, list[Outcome]]:
    """Single slips by their mistake, and all parts with two."""
    groups: dict[str, list[Outcome]] = defaultdict(list)
    for o in outcomes:
        groups[o.ids[0] if len(o.ids) == 1 else "two slips"].append(o)
    return groups


def worst(outcomes: list[Outcome]) -> tuple[str, float, int]:
    """The mistake that is named least often by class, among those that befell enough parts: (mistake, [%], parts)."""
    found = [(rates(of)["class"], id_, len(of)) for id_, of in by_truth(outcomes).items() if len(of) >= ENOUGH and id_ != "two slips"]
    rate, id_, parts = min(found)
    return id_, rate, parts


# --- tables ----------------------------------------------------------------------------------------------------
def summary(runs: dict[str, list[Outcome]]) -> list[str]:
    """One row a run: how good; then one row a run: how sure."""
    lines = [
        "| run | parts | first, by class | best | in first three, by class | best | first, by mistake | best | worst mistake, by class |",
        "|---|---|---|---|---|---|---|---|---|",
    ]
    for name, of in runs.items():
        r, b = rates(of), rates(of, "best") if of[0].best else None
        cells = [f"{r[key]:.1f} | {b[key]:.1f}" if b else f"{r[key]:.1f} | - " for key in ("class", "three", "id")]
        id_, rate, parts = worst(of)
        lines.append(f"| {name} | {len(of)} | {' | '.join(cells)} | {id_} {rate:.0f} (of {parts}) |")
    lines += ["", "| run | calibration error | Brier | fits nothing | decided | then said | then right |", "|---|---|---|---|---|---|---|"]
    for name, of in runs.items():
        c = calibration(of)
        lines.append(f"| {name} | {c['error']:.1f} | {c['brier']:.3f} | {c['nothing']:.1f} | {c['sure']:.1f} | {c['said']:.1f} | {c['right']:.1f} |")
    return lines


def table(outcomes: list[Outcome]) -> list[str]:
    """Rows of one run: each mistake as a single slip, then two slips."""
    lines = ["| truth | parts | first, by mistake | best | first, by class | best | in first three, by class | best |", "|---|---|---|---|---|---|---|---|"]
    groups = by_truth(outcomes)
    for name in sorted(groups, key=lambda name: (name == "two slips", name)):
        of = groups[name]
        r, b = rates(of), rates(of, "best") if of[0].best else None
        cells = [f"{r[key]:.1f} | {b[key]:.1f}" if b else f"{r[key]:.1f} | - " for key in ("id", "class", "three")]
        lines.append(f"| {name} | {len(of)} | {' | '.join(cells)} |")
    return lines


def curve(runs: dict[str, list[Outcome]]) -> list[str]:
    """The reliability of the causes named, by tenths: rows of a csv file."""
    rows = [f"{name},{p:.4f},{f:.4f},{n}" for name, of in runs.items() for p, f, n in tenths(said(of))]
    return ["run,said,right,number", *rows]


def report(runs: dict[str, list[Outcome]]) -> str:
    """All tables."""
    text = [*summary(runs)]
    for name, of in runs.items():
        text += ["", f"## {name}: {strange.RUNS[name].words}", "", *table(of), "", "Said, by tenths: " + "; ".join(
            f"{100 * p:.0f} % was right {100 * f:.0f} % of {n}" for p, f, n in tenths(said(of))) + "."]
    return "\n".join(text)


def main(words: list[str]) -> None:
    number = int(words[0]) if words else FULL
    names = words[1:] or list(strange.RUNS)
    runs = {}
    with ProcessPoolExecutor(2) as processes:
        for name, of in zip(names, processes.map(count, names, [number] * len(names))):
            runs[name] = of
            print(name, rates(of), calibration(of), file=sys.stderr, flush=True)
    if words[1:]:
        print(report(runs))
        return
    commit = subprocess.run(["git", "rev-parse", "--short", "HEAD"], cwd=HERE, capture_output=True, text=True, check=True).stdout.strip()
    head = f"Counted on {date.today():%-d %B %Y} at commit {commit} with `python tests/diagnosis/strange_count.py {number}`: {number} parts in a run, {2 * kinds_for(number)} kinds of part."
    above = TABLE.read_text(encoding="utf-8").split(BELOW)[0]
    TABLE.write_text(f"{above}{BELOW}\n\n{head}\n\n{report(runs)}\n", encoding="utf-8")
    CURVE.write_text("\n".join(curve(runs)) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main(sys.argv[1:])
