"""Every pattern that a plan could still use, once price lists have left little to lose.

At some prices all spaces together can earn little more than the blanks and remnants wanted are
worth. A plan can then lose no more than that gap in all, hence a pattern no more than that gap in
its own space. Where the gap is small, few patterns are left, and a search among them is complete.
Several price lists at once leave fewer still.
"""

from __future__ import annotations

from collections.abc import Sequence

from anglelib.stock.bound import Gap, Prices, Target
from anglelib.stock.columns import Column
from anglelib.stock.effort import Effort
from anglelib.stock.instance import Instance
from anglelib.stock.knapsack import CELLS

STATES = 300_000
"""Most half-made patterns of one kind of space that are carried on."""


def worthwhile(
    instance: Instance,
    demand: Sequence[int],
    target: Target,
    lists: Sequence[tuple[Prices, Gap]],
    effort: Effort,
    most: int,
    share: float = 1.0,
    full: bool = True,
    idle: bool = False,
) -> list[Column] | None:
    """The patterns that a plan within every gap can use; None where they are too many.

    With ``full`` only full patterns are kept: those beside which nothing wanted fits without
    spoiling the remnant they leave. A plan with other patterns stays a plan when they are filled up,
    so that none is missed. ``idle`` keeps the empty pattern besides, of an untouched space. With a ``share`` below 1 only the patterns that lose no more than that
    share of each gap are kept, and a search among them proves nothing.
    """
    found: dict[Column, None] = {}
    pieces = sorted(set(target))
    rests = _Rests(instance, demand, [prices.values for prices, _ in lists], effort)
    for kind in instance.kinds:
        sizes = [i for i, s in enumerate(instance.sizes) if demand[i] and s.allows(kind.pin)]
        values = [[prices.values[i] for i in sizes] for prices, _ in lists]
        rest = rests.of(tuple(sizes), instance.capacity(kind))
        able = [piece for piece in pieces if piece <= kind.length]
        for role in range(len(able) + 1):
            capacity = kind.length - able[role - 1] if role else instance.capacity(kind)
            least = [gap.most[kind] - int(gap.value * share) - gap.bonus[role] for _, gap in lists]
            patterns = _patterns(instance, demand, sizes, values, rest, capacity, least, effort, full, idle, most)
            if patterns is None:
                return None
            for pattern, load in zip(*patterns):
                found[Column(kind, tuple(pattern), load)] = None
            if len(found) > most:
                return None
    return list(found)


def _patterns(
    instance: Instance,
    demand: Sequence[int],
    sizes: Sequence[int],
    values: Sequence[Sequence[int]],
    rest: list,
    capacity: int,
    least: Sequence[int],
    effort: Effort,
    full: bool,
    idle: bool,
    most: int,
) -> tuple[list[list[int]], list[int]] | None:
    """All patterns of one space that earn ``least`` on every price list, and their loads."""
    import numpy as np

    widths = [instance.sizes[i].width for i in sizes]
    price = np.array(values, dtype=np.int64).reshape(len(least), len(sizes))
    bar = np.array(least, dtype=np.int64)[:, None]
    room = np.array([capacity], dtype=np.int64)
    worth = np.zeros((len(least), 1), dtype=np.int64)
    counts = np.zeros((1, len(instance.sizes)), dtype=np.int16)
    for k, (i, w) in enumerate(zip(sizes, widths)):
        parts = []
        for n in range(min(demand[i], capacity // w) + 1):
            keep = np.flatnonzero(room >= n * w)
            left, value = room[keep] - n * w, worth[:, keep] + n * price[:, k : k + 1]
            good = (value + rest[k + 1](left) >= bar).all(axis=0)
            if good.any():
                rows = counts[keep[good]]
                rows[:, i] = n
                parts.append((left[good], value[:, good], rows))
        if not parts:
            return [], []
        room = np.concatenate([p[0] for p in parts])
        worth = np.concatenate([p[1] for p in parts], axis=1)
        counts = np.concatenate([p[2] for p in parts])
        effort.spend(1.5e-7 * len(room) + 2e-5)
        if len(room) > STATES:
            return None
    good = (worth >= bar).all(axis=0)
    if full:
        kept = good & (counts.sum(axis=1) == 0) if idle else False
        for i, w in zip(sizes, widths):
            good &= (counts[:, i] >= demand[i]) | (room < w)
        good |= kept
    if int(good.sum()) > most:
        return None
    return counts[good].tolist(), (capacity - room[good]).tolist()


class _Rests:
    """For each size, what it and the narrower sizes can still earn in a given length, per price list.

    On a grid that is coarser than the unit, widths and lengths are both rounded down: what fits
    still fits, so that nothing that could be earned is overlooked. Spaces of about one length share
    a grid and its tables.
    """

    def __init__(self, instance: Instance, demand: Sequence[int], values: Sequence[Sequence[int]], effort: Effort):
        self.instance, self.demand, self.values, self.effort = instance, demand, values, effort
        self.tables: dict[tuple, list] = {}

    def of(self, sizes: tuple[int, ...], capacity: int) -> list:
        """The tables, as functions of the length left, for some sizes in spaces of a capacity."""
        step, largest = self.instance.step, self.instance.largest
        while largest // 2 >= capacity and largest // step > CELLS:
            largest //= 2
        # what is halved is rounded down, what fits may not be
        largest = max(largest, capacity)
        grid = step if largest // step <= CELLS else largest // CELLS + 1
        if (sizes, grid) not in self.tables:
            self.tables[sizes, grid] = self._made(sizes, grid, largest // grid)
        return [lambda left, table=table: table[:, left // grid] for table in self.tables[sizes, grid]]

    def _made(self, sizes: tuple[int, ...], grid: int, cells: int) -> list:
        import numpy as np

        price = np.array([[row[i] for i in sizes] for row in self.values], dtype=np.int64).reshape(len(self.values), len(sizes))
        table = np.zeros((len(price), cells + 1), dtype=np.int64)
        tables = [table]
        for k in reversed(range(len(sizes))):
            width, rest, lot = self.instance.sizes[sizes[k]].width // grid, self.demand[sizes[k]], 1
            while rest > 0:
                take = min(lot, rest)
                w = take * width
                if w <= cells:
                    table = table.copy()
                    table[:, w:] = np.maximum(table[:, w:], table[:, : cells + 1 - w] + take * price[:, k : k + 1])
                    self.effort.spend(4e-9 * table.size)
                rest, lot = rest - take, lot * 2
            tables.append(table)
        tables.reverse()
        return tables
