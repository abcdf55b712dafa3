"""Column generation: which patterns matter, and whether a target can be had at all.

The linear program chooses, fractionally, a pattern for each usable space so that the blanks wanted
are made and the wanted remnants left. Its prices say which pattern is missing; a
:class:`~anglelib.stock.knapsack.Knapsack` finds it. It ends in a proof in integers that there is no
such plan (:mod:`anglelib.stock.bound`), or in a fractional plan whose patterns are what a whole plan
is then sought among.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from anglelib.stock.bound import Prices, Target, out_of_reach, scale
from anglelib.stock.effort import Effort
from anglelib.stock.instance import Instance, Kind, Packing, Pattern

TOLERANCE = 1e-7
ROUNDS = 200
KEPT = 12


class Column(NamedTuple):
    """A pattern for one kind of space, and the sum of its widths."""

    kind: Kind
    pattern: Pattern
    load: int


class Relaxed(NamedTuple):
    """What the linear program found: a proof that there is no plan, or a fractional plan."""

    refuted: bool
    shares: tuple[tuple[Column, float], ...] = ()


class Relaxation:
    """The linear program for one instance and demand, with the patterns and prices met so far."""

    def __init__(self, instance: Instance, demand: Sequence[int], effort: Effort, pool: Iterable[Column] = ()):
        self.instance, self.demand, self.effort = instance, tuple(demand), effort
        self.scale = scale(instance)
        self.prices: list[Prices] = []
        self.pool: dict[Column, None] = {}
        empty = (0,) * len(instance.sizes)
        for kind in instance.kinds:
            self.pool[Column(kind, empty, 0)] = None
        for column in pool:
            if column.kind in instance.kinds and all(n <= d for n, d in zip(column.pattern, self.demand)):
                self.pool[column] = None

    def learn(self, packing: Packing) -> None:
        """Remember the patterns of a packing."""
        for pattern, space in zip(packing, self.instance.spaces):
            column = Column(self.instance.kind(space), pattern, self.instance.load(pattern))
            if all(n <= d for n, d in zip(pattern, self.demand)):
                self.pool[column] = None

    def keep(self, prices: Prices) -> None:
        """Remember a price list; the oldest is forgotten."""
        self.prices = [*self.prices[1 - KEPT :], prices]

    # --- proofs -------------------------------------------------------------------------------
    def refutes(self, target: Target) -> bool:
        """Whether a price list met so far proves that the target cannot be had."""
        if out_of_reach(self.instance, target):
            return True
        return any(prices.refutes(target) for prices in reversed(self.prices))

    def solve(self, target: Target) -> Relaxed:
        """Prove that the target cannot be had, or find it fractionally."""
        if out_of_reach(self.instance, target):
            return Relaxed(True)
        program = _Program(self, target)
        for _ in range(ROUNDS):
            duals = program.solve()
            if duals.missing <= TOLERANCE:
                break
            prices = self._rounded(duals)
            if prices.refutes(target):
                self.keep(prices)
                return Relaxed(True)
            new = self._missed(prices, target, duals)
            if not new:
                break
            program.extend(new)
        return Relaxed(False, program.shares())

    def sharpen(self, target: Target, rounds: int = 40) -> None:
        """Carry on with a target that cannot be had until the prices prove as much as they can.

        They then leave little to lose for a target that is only just within reach.
        """
        if out_of_reach(self.instance, target):
            return
        program = _Program(self, target)
        best = None
        for _ in range(rounds):
            duals = program.solve()
            prices = self._rounded(duals)
            value = prices.gap(target).value
            if best is None or value < best[0]:
                best = value, prices
            new = self._missed(prices, target, duals)
            if not new:
                break
            program.extend(new)
        if best and best[0] < 0:
            self.keep(best[1])

    def _rounded(self, duals: _Duals) -> Prices:
        values = [max(0, round(price * self.scale)) for price in duals.sizes]
        return Prices(self.instance, self.demand, values)

    def _missed(self, prices: Prices, target: Target, duals: _Duals) -> list[Column]:
        """For each kind of space the pattern that the linear program misses most."""
        instance, new = self.instance, []
        pieces = sorted(set(target))
        for kind in instance.kinds:
            table = prices.table(kind)
            capacities = [instance.capacity(kind), *(kind.length - p for p in pieces if p <= kind.length)]
            bonus = [0.0]
            for reward in duals.pieces:
                bonus.append(bonus[-1] + reward)
            gains = [float(e) / self.scale + b for e, b in zip(table.bests(capacities), bonus)]
            at = max(range(len(gains)), key=gains.__getitem__)
            if gains[at] > duals.kinds[kind] + 1e-9:
                pattern = table.pattern(capacities[at])
                column = Column(kind, pattern, instance.load(pattern))
                if column not in self.pool:
                    self.pool[column] = None
                    new.append(column)
        return new


class _Duals(NamedTuple):
    """How much is missing, and the prices of sizes, kinds of space and wanted pieces."""

    missing: float
    sizes: list[float]
    kinds: dict[Kind, float]
    pieces: list[float]


class _Program:
    """The linear program of one target, in GLOP: the least that is missing."""

    def __init__(self, relaxation: Relaxation, target: Target):
        from ortools.linear_solver import pywraplp

        instance = relaxation.instance
        self.effort = relaxation.effort
        self.pieces = sorted(set(target))
        self.solver = solver = pywraplp.Solver.CreateSolver("GLOP")
        self.aim = solver.Objective()
        self.aim.SetMinimization()
        endless = solver.infinity()
        self.kind_rows = {k: solver.Constraint(-endless, len(m)) for k, m in instance.kinds.items()}
        self.size_rows, self.piece_rows = [], []
        for size, wanted in zip(instance.sizes, relaxation.demand):
            self.size_rows.append(self._row(wanted, size.width / instance.largest))
        for piece in self.pieces:
            self.piece_rows.append(self._row(sum(t >= piece for t in target), 1.5))
        self.columns: list[tuple[Column, object]] = []
        self.extend(relaxation.pool)

    def _row(self, wanted: int, cost: float):
        row = self.solver.Constraint(wanted, self.solver.infinity())
        slack = self.solver.NumVar(0, self.solver.infinity(), "")
        row.SetCoefficient(slack, 1)
        self.aim.SetCoefficient(slack, cost)
        return row

    def extend(self, columns: Iterable[Column]) -> None:
        for column in columns:
            share = self.solver.NumVar(0, self.solver.infinity(), "")
            self.kind_rows[column.kind].SetCoefficient(share, 1)
            for n, row in zip(column.pattern, self.size_rows):
                if n:
                    row.SetCoefficient(share, n)
            left = column.kind.length - column.load
            for piece, row in zip(self.pieces, self.piece_rows):
                if piece <= left:
                    row.SetCoefficient(share, 1)
            self.columns.append((column, share))

    def solve(self) -> _Duals:
        self.effort.spend(0.001 + 2e-6 * len(self.columns))
        status = self.solver.Solve()
        if status != self.solver.OPTIMAL:
            raise ArithmeticError(f"the linear program ended with status {status}")
        return _Duals(
            self.aim.Value(),
            [row.dual_value() for row in self.size_rows],
            {kind: -row.dual_value() for kind, row in self.kind_rows.items()},
            [row.dual_value() for row in self.piece_rows],
        )

    def shares(self) -> tuple[tuple[Column, float], ...]:
        found = ((column, share.solution_value()) for column, share in self.columns)
        return tuple((column, value) for column, value in found if value > TOLERANCE)
