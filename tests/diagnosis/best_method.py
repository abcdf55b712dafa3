"""The best that any method could make of the readings: the bench's own likelihood.

Given a mistake, its way and its amount, the readings follow the scatter of the work almost linearly;
so each case is a normal cloud whose slopes are taken off the bench by finite differences (once for
each sign of an amount). Amounts are integrated by the midpoint rule over the bench's own ranges. Student's t is a mixture of two
normals for each reading, taken over all combinations. Two slips are all pairs of cases, added up.
"""

from __future__ import annotations

from itertools import product
from math import erf, pi, sqrt

import bench_slips as bench
import numpy as np
from sawn_metal import as_drawn, measure

FINE, COARSE = 20, 6
"""Nodes for a free amount, for one slip and for pairs."""
PARTED = 2 * 1.645
"""Two cases so many standard deviations apart are told apart nineteen times in twenty."""
STUDENT = ((0.878, 1.088), (0.122, 3.777))
"""Student's t with three degrees of freedom as normals: (weight, standard deviation); see ``worst_gap``."""


def worst_gap() -> float:
    """The largest difference between the two normals' distribution function and Student's own."""
    x = np.linspace(-12, 12, 2401)
    student = 0.5 + (np.arctan(x / sqrt(3)) + sqrt(3) * x / (3 + x * x)) / pi
    normals = sum(w * np.array([0.5 * (1 + erf(v / s / sqrt(2))) for v in x]) for w, s in STUDENT)
    return float(np.abs(student - normals).max())


class Best:
    """The bench's likelihood for one part and its readings."""

    def __init__(self, part, names, ways, two: float = 0.1, habit: bench.Habit = bench.USUAL) -> None:
        self.names, self.ids, self.two = names, sorted(ways), two
        wanted = as_drawn(part)
        self.wanted = np.array(measure(wanted, names))
        self.spread = np.array(bench.spreads(list(self.wanted)))
        cases = list(self._cases(ways, FINE, habit))
        self.owner = np.array([self.ids.index(id_) for id_, *_ in cases])
        self.weight = np.array([w for _, w, *_ in cases])
        self.means = np.array([measure(work, names) for _, _, work, _ in cases])
        known: dict[tuple, np.ndarray] = {}
        for _, _, _, typical in cases:
            if typical not in known:
                known[typical] = self._scatter(typical, habit.times)
        scatter = np.array([known[typical] for *_, typical in cases])
        kinds, self.kind = np.unique(np.round(scatter.reshape(len(cases), -1), 9), axis=0, return_inverse=True)
        self.scatter = kinds.reshape(-1, len(names), len(names))
        self.good = int(self.kind[np.flatnonzero(self.owner == self.ids.index(bench.GOOD))[0]])
        coarse = [c for c in self._cases(ways, COARSE, habit) if c[0] != bench.GOOD]
        self.pair_owner = np.array([self.ids.index(id_) for id_, *_ in coarse])
        self.pair_weight = np.array([w for _, w, *_ in coarse])
        self.pair_shift = np.array([measure(work, names) for _, _, work, _ in coarse]) - self.wanted
        self._kept: dict = {}

    @staticmethod
    def _cases(ways, nodes, habit):
        for id_, of in sorted(ways.items()):
            weights = habit.weights(of)
            for way, weight in zip(of, weights):
                count = nodes if way.free else 1
                for n in range(count):
                    # Equal steps of the amount, each as likely as the bench draws it.
                    chance = ((n + 1) / count) ** (1 / habit.power) - (n / count) ** (1 / habit.power)
                    yield id_, weight / sum(weights) * chance, way.make((n + 0.5) / count), way.make(0.25 if 2 * n < count else 0.75)

    def _scatter(self, work, times):
        h, rows = 1e-3, []
        for kind, stray in bench.strays(work):
            up, down = (np.array(measure(stray(work, v), self.names)) for v in (h, -h))
            rows.append((up - down) / (2 * h) * bench.SCATTER[kind] * times)
        rows = np.array(rows)
        return rows.T @ rows

    def _whiteners(self, tails: str):
        """For each combination of the readings' spreads: its weight, and whitening matrices by kind of scatter."""
        if tails not in self._kept:
            scales = ((1.0, 1.0),) if tails == "normal" else STUDENT
            found = []
            for combination in product(scales, repeat=len(self.names)):
                weight = float(np.prod([w for w, _ in combination]))
                reading = np.diag((self.spread * np.array([s for _, s in combination])) ** 2)
                lower = np.linalg.cholesky(self.scatter + reading)
                inverse = np.linalg.inv(lower)
                found.append((np.log(weight) + np.log(np.abs(np.einsum("kii->ki", inverse))).sum(axis=1), inverse))
            self._kept[tails] = found
        return self._kept[tails]

    def shares(self, values, tails: str) -> dict[str, float]:
        """How likely it is that each mistake took part, given the readings; "good" that none did."""
        off = np.asarray(values) - self.means
        logs = np.full(len(off), -np.inf)
        shifts = self.wanted + self.pair_shift
        near = None
        for log_weight, inverse in self._whiteners(tails):
            white = np.matmul(inverse[self.kind], off[:, :, None])[:, :, 0]
            logs = np.logaddexp(logs, log_weight[self.kind] - 0.5 * (white**2).sum(axis=1))
        single = logs + np.log(self.weight)
        n = len(self.ids)
        alone = np.array([1.0 if id_ == bench.GOOD else 1 - self.two for id_ in self.ids]) / n
        single += np.log(alone[self.owner])
        # Two slips: all pairs within reach of the best, by the widest spreads, then by every combination.
        _, inverse = self._whiteners(tails)[-1]
        reach = (np.asarray(values) - self.wanted) @ inverse[self.good].T
        moved = (shifts - self.wanted) @ inverse[self.good].T
        first, second = np.triu_indices(len(moved), 1)
        keep = self.pair_owner[first] != self.pair_owner[second]
        first, second = first[keep], second[keep]
        gram = moved @ moved.T
        lone = ((reach - moved) ** 2).sum(axis=1)
        distance = lone[first] + lone[second] - reach @ reach + 2 * gram[first, second]
        near = np.flatnonzero(distance < distance.min() + (60 if tails == "normal" else 20))[:20000]
        if tails != "normal" and len(near) > 1500:
            near = near[np.argsort(distance[near])[:1500]]
        first, second = first[near], second[near]
        off = np.asarray(values) - self.wanted - self.pair_shift[first] - self.pair_shift[second]
        pair = np.full(len(off), -np.inf)
        for log_weight, inverse in self._whiteners(tails):
            pair = np.logaddexp(pair, log_weight[self.good] - 0.5 * ((off @ inverse[self.good].T) ** 2).sum(axis=1))
        pair += np.log(self.pair_weight[first] * self.pair_weight[second]) + np.log(self.two * 2 / (n * max(1, n - 2)))
        top = max(single.max(), pair.max())
        ones, twos = np.exp(single - top), np.exp(pair - top)
        total = ones.sum() + twos.sum()
        found = np.bincount(self.owner, ones, n)
        found += np.bincount(self.pair_owner[first], twos, n) + np.bincount(self.pair_owner[second], twos, n)
        return dict(zip(self.ids, found / total))

    def alike(self, works) -> set[str]:
        """The mistakes that could as well have made this metal: some case of theirs lies within reach of its readings."""
        found: set[str] = set()
        reading = np.diag(self.spread**2)
        lower = np.linalg.inv(np.linalg.cholesky(self.scatter + reading))
        for work in works:
            off = self.means - np.array(measure(work, self.names))
            white = np.matmul(lower[self.kind], off[:, :, None])[:, :, 0]
            found |= {self.ids[i] for i in self.owner[(white**2).sum(axis=1) < PARTED**2]}
        return found
