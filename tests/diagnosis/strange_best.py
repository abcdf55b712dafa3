"""The best that any method could make of the readings of the strange bench, where its likelihood can be worked out.

As :mod:`best_method`, with the worker's own habits as prior: errors of reading are normals of several widths, taken over all combinations of
at most two wide ones; a part's work is of one of several widths; what drifts is integrated in equal steps. Student's t and
gross misreadings have no such likelihood here; then only the classes are worked out, from the metal with its usual scatter.
"""

from __future__ import annotations

from itertools import combinations, product
from math import erf, sqrt

import bench_slips as bench
import numpy as np
import strange_bench as strange
from best_method import COARSE, FINE, Best
from sawn_metal import as_drawn, measure

FEW = 1e-3
"""Combinations rarer than that are left out."""
STEPS = 5
"""Steps for what drifts."""


class StrangeBest(Best):
    """The bench's likelihood for one kind of part."""

    def __init__(self, kind: strange.Kind, bench_: strange.Strange) -> None:
        self.names, self.bench, self.kind_of_part = kind.names, bench_, kind
        often = kind.worker.often
        self.ids = sorted(id_ for id_ in kind.ways if often.get(id_, 0) > 0)
        wanted = as_drawn(kind.part)
        self.work = wanted
        self.wanted = np.array(measure(wanted, self.names))
        self.spread = np.array(strange.spreads(self.names, list(self.wanted)))
        cases = list(self._nodes(FINE))
        self.owner = np.array([self.ids.index(id_) for id_, *_ in cases])
        self.weight = np.array([w for _, w, *_ in cases])
        self.means = np.array([measure(work, self.names) for _, _, work, _ in cases])
        # Work scatters alike where its cuts are alike, wherever its holes and ends are.
        cuts = [(typical.lines, typical.notches, typical.width, typical.thick) for *_, typical in cases]
        known = {cut: typical for cut, (*_, typical) in zip(cuts, cases)}
        spread = {cut: self._scatter(typical, 1.0) for cut, typical in known.items()}
        scatter = np.array([spread[cut] for cut in cuts])
        kinds, self.kind = np.unique(np.round(scatter.reshape(len(cases), -1), 9), axis=0, return_inverse=True)
        self.scatter = kinds.reshape(-1, len(self.names), len(self.names))
        self.good = int(self.kind[np.flatnonzero(self.owner == self.ids.index(bench.GOOD))[0]])
        if not bench_.known:
            return
        coarse = [c for c in self._nodes(COARSE) if c[0] != bench.GOOD]
        self.pair_owner = np.array([self.ids.index(id_) for id_, *_ in coarse])
        self.pair_weight = np.array([w for _, w, *_ in coarse])
        self.pair_shift = np.array([measure(work, self.names) for _, _, work, _ in coarse]) - self.wanted
        self.often = np.array([often[id_] for id_ in self.ids])
        self.mixture = self._mixture()

    def _nodes(self, count: int):
        """(mistake, weight, work, work that scatters alike) for every way and amount."""
        worker = self.kind_of_part.worker
        for id_ in self.ids:
            ways = self.kind_of_part.ways[id_]
            for way, weight in zip(ways, worker.ways(ways, id_)):
                if not way.free:
                    yield id_, weight, way.make(0.5), way.make(0.5)
                    continue
                nodes = worker.amounts.nodes(count)
                for part_of, amount in nodes:
                    work = way.make(amount)
                    if bench.sound(work):
                        middle = way.make((amount[0], (worker.amounts.low + worker.amounts.high) / 2))
                        yield id_, weight * part_of, work, middle if bench.sound(middle) else work

    def _scatter(self, work, times: float):
        h, rows = 1e-3, []
        for kind, stray in bench.strays(work):
            up, down = (np.array(measure(stray(work, v), self.names)) for v in (h, -h))
            rows.append((up - down) / (2 * h) * strange.scatter_of(kind) * times)
        rows = np.array(rows)
        return rows.T @ rows

    def _offsets(self) -> list[tuple[float, np.ndarray]]:
        """What drifts, in equal steps: (weight, how far all readings of a part move)."""
        drift, plain = self.bench.drift, list(self.wanted)
        middles = [(n + 0.5) / STEPS for n in range(STEPS)]
        if drift.stop or drift.lead:
            return [(1 / STEPS, np.array(measure(strange.worn(self.work, drift, place), self.names)) - self.wanted) for place in middles]
        if drift.zero:
            by = np.array(strange.by_caliper(self.names, plain))
            return [(1 / len(NORMAL_STEPS), by * drift.zero * v) for v in NORMAL_STEPS]
        if drift.worn:
            return [(1 / STEPS, np.array(strange.by_rule(self.names, plain)) * drift.worn * place) for place in middles]
        return [(1.0, np.zeros(len(self.names)))]

    def _mixture(self):
        """(log weight, offset, whitening matrices by kind of scatter) for each combination of widths and drift."""
        usual, *wide = self.bench.reading.normals
        n, found = len(self.names), []
        combos = [((), usual[0] ** n)]
        for count in range(1, min(2, n) * bool(wide) + 1):
            for places in combinations(range(n), count):
                for widths in product(wide, repeat=count):
                    weight = usual[0] ** (n - count) * float(np.prod([w for w, _ in widths]))
                    combos.append((tuple(zip(places, (width for _, width in widths))), weight))
        for offset_weight, offset in self._offsets():
            for day_weight, day in self.bench.work.normals:
                for wider, weight in combos:
                    if (weight := weight * offset_weight * day_weight) < FEW * offset_weight:
                        continue
                    scale = np.ones(n) * usual[1]
                    for place, width in wider:
                        scale[place] = width
                    inverse = np.linalg.inv(np.linalg.cholesky(self.scatter * day**2 + np.diag((self.spread * scale) ** 2)))
                    found.append((np.log(weight) + np.log(np.abs(np.einsum("kii->ki", inverse))).sum(axis=1), offset, inverse))
        return found

    def shares(self, values, tails: str = "") -> dict[str, float]:
        """How likely it is that each mistake took part; "good" that none did."""
        values = np.asarray(values)
        logs = np.full(len(self.means), -np.inf)
        for log_weight, offset, inverse in self.mixture:
            white = np.matmul(inverse[self.kind], (values - offset - self.means)[:, :, None])[:, :, 0]
            logs = np.logaddexp(logs, log_weight[self.kind] - 0.5 * (white**2).sum(axis=1))
        good, n = self.ids.index(bench.GOOD), len(self.ids)
        alone = np.where(np.arange(n) == good, 1.0, 1 - self.bench.two) * self.often
        with np.errstate(divide="ignore"):
            single = logs + np.log(self.weight) + np.log(alone[self.owner])
        first, second, pair = self._pairs(values, 1 - self.often[good])
        top = max(single.max(), pair.max())
        ones, twos = np.exp(single - top), np.exp(pair - top)
        found = np.bincount(self.owner, ones, n) + np.bincount(self.pair_owner[first], twos, n) + np.bincount(self.pair_owner[second], twos, n)
        return dict(zip(self.ids, found / (ones.sum() + twos.sum())))

    def _pairs(self, values, slips: float):
        """Two slips: all pairs of cases within reach of the best, and their log scores."""
        inverse = min((m for m in self.mixture), key=lambda m: float(np.abs(m[2][self.good]).sum()))[2][self.good]
        centre = np.mean([offset for _, offset, _ in self.mixture], axis=0)
        reach, moved = (values - centre - self.wanted) @ inverse.T, self.pair_shift @ inverse.T
        first, second = np.triu_indices(len(moved), 1)
        keep = self.pair_owner[first] != self.pair_owner[second]
        first, second = first[keep], second[keep]
        lone, gram = ((reach - moved) ** 2).sum(axis=1), moved @ moved.T
        distance = lone[first] + lone[second] - reach @ reach + 2 * gram[first, second]
        near = np.argsort(distance)[:1500]
        near = near[distance[near] < distance[near[0]] + 60]
        first, second = first[near], second[near]
        score = np.full(len(near), -np.inf)
        for log_weight, offset, matrix in self.mixture:
            off = values - offset - self.wanted - self.pair_shift[first] - self.pair_shift[second]
            score = np.logaddexp(score, log_weight[self.good] - 0.5 * ((off @ matrix[self.good].T) ** 2).sum(axis=1))
        a, b = self.often[self.pair_owner[first]], self.often[self.pair_owner[second]]
        # Either was the first of the two.
        chance = self.bench.two * a * b * (1 / (slips - a) + 1 / (slips - b))
        with np.errstate(divide="ignore"):
            return first, second, score + np.log(self.pair_weight[first] * self.pair_weight[second]) + np.log(chance)


def _normal_steps(count: int) -> list[float]:
    """The middles of so many equally likely steps of a normal."""
    grid = np.linspace(-5, 5, 20001)
    below = np.array([0.5 * (1 + erf(v / sqrt(2))) for v in grid])
    return [float(np.interp((n + 0.5) / count, below, grid)) for n in range(count)]


NORMAL_STEPS = _normal_steps(9)
