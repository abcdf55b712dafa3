"""The best blanks for one length, for every length at once, in integers.

Given a price for each blank size, a :class:`Knapsack` knows the dearest pattern that fits any
capacity. The table runs over lengths while they are coarse enough, else over prices (the shortest
length that reaches each price): both are exact in any unit, and nothing is rounded.

>>> table = Knapsack(widths=[3, 5], counts=[4, 1], prices=[3, 6], largest=11)
>>> table.best(11), table.pattern(11)
(12, (2, 1))
"""

from __future__ import annotations

from collections.abc import Sequence
from math import gcd

CELLS = 12_000
"""Longest table over lengths; beyond it the table runs over prices."""


class Knapsack:
    """The dearest pattern of at most ``counts`` blanks for every capacity up to ``largest``.

    ``widths`` are positive integers, ``prices`` non-negative ones. Sizes without a price, or too
    wide, are left out of every pattern.
    """

    def __init__(self, widths: Sequence[int], counts: Sequence[int], prices: Sequence[int], largest: int):
        self.kinds = len(widths)
        self.lots = _lots(widths, counts, prices, largest)
        self.step = gcd(*(lot[2] for lot in self.lots)) or 1
        self.by_length = largest // self.step <= CELLS
        if self.by_length:
            self._over_lengths(largest // self.step)
        else:
            self._over_prices(largest)

    def _over_lengths(self, cells: int) -> None:
        import numpy as np

        best = np.zeros(cells + 1, dtype=np.int64)
        self.taken = []
        for _, _, width, price in self.lots:
            w = width // self.step
            tried = best[: cells + 1 - w] + price
            better = tried > best[w:]
            best[w:] = np.where(better, tried, best[w:])
            self.taken.append(better)
        self.table = best

    def _over_prices(self, largest: int) -> None:
        import numpy as np

        dearest = max((price / width for _, _, width, price in self.lots), default=0)
        top = min(sum(lot[3] for lot in self.lots), int(dearest * largest) + 1)
        least = np.full(top + 1, largest + 1, dtype=np.int64)
        least[0] = 0
        self.taken = []
        for _, _, width, price in self.lots:
            tried = np.empty_like(least)
            tried[:price] = width
            tried[price:] = least[: top + 1 - price] + width
            better = tried < least
            least = np.where(better, tried, least)
            self.taken.append(better)
        self.table = least

    def best(self, capacity: int) -> int:
        """The price of the dearest pattern that fits a capacity (0 for a negative one)."""
        return int(self.bests([capacity])[0])

    def bests(self, capacities: Sequence[int]):
        """:meth:`best` for many capacities: an integer array."""
        import numpy as np

        wanted = np.maximum(np.asarray(capacities, dtype=np.int64), 0)
        if self.by_length:
            return self.table[wanted // self.step]
        return np.searchsorted(self.table, wanted, side="right") - 1

    def pattern(self, capacity: int) -> tuple[int, ...]:
        """The dearest pattern that fits a capacity."""
        found = [0] * self.kinds
        at = max(capacity, 0) // self.step if self.by_length else self.best(capacity)
        for (size, number, width, price), taken in zip(reversed(self.lots), reversed(self.taken)):
            if self.by_length:
                w = width // self.step
                if at >= w and taken[at - w]:
                    found[size] += number
                    at -= w
            elif at > 0 and taken[at]:
                found[size] += number
                at = max(0, at - price)
        return tuple(found)


def _lots(widths, counts, prices, largest) -> list[tuple[int, int, int, int]]:
    """(size, how many, width, price) of lots of 1, 2, 4 ... blanks, from which every count can be made."""
    lots = []
    for size, (width, number, price) in enumerate(zip(widths, counts, prices)):
        if price <= 0 or width > largest:
            continue
        rest, lot = min(number, largest // width), 1
        while rest > 0:
            take = min(lot, rest)
            if take * width <= largest:
                lots.append((size, take, take * width, take * price))
            rest, lot = rest - take, lot * 2
    return lots
