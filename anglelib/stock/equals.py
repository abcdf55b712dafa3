"""Of blanks with equal claims on the metal, as many as can be made.

They are of one length, but not every stick may serve each of them: what is taken for one may be the
only metal of another. So it is not the first of them that decides, but how many are made in all;
only between those that are as many the first does.

>>> def able(sizes): return YES if sizes.count(0) <= 2 and sizes.count(0) + 2 * sizes.count(1) <= 4 else NO
>>> most_of_equals([1, 1, 0, 0], able), most_of_equals([0, 1], able)
(([1, 0, 0], True), ([0, 1], True))
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import product
from math import prod

from anglelib.stock.search import NO, YES

MOST = 400
"""Most ways to choose among the sizes but the last that are looked at."""

Way = tuple[int, ...]


def most_of_equals(claims: Sequence[int], able: Callable[[list[int]], str]) -> tuple[list[int], bool]:
    """Which of some equal claims, each a size, to make, and whether it is proven that no more can be.

    ``able`` says of a list of sizes whether they can be made: yes, no, or unknown. Who can make a list
    can make a part of it.
    """
    search = _Search(claims, able)
    best = search.best()
    rest = dict(zip(search.sizes, best))
    made = []
    for size in claims:
        if rest[size]:
            made.append(size)
            rest[size] -= 1
    return made, search.sure


class _Search:
    """What is known of each way: how many of each size are made."""

    def __init__(self, claims: Sequence[int], able: Callable[[list[int]], str]):
        self.claims, self.able = claims, able
        self.sizes = list(dict.fromkeys(claims))
        self.good: list[Way] = [(0,) * len(self.sizes)]
        self.bad: list[Way] = []
        self.sure = True

    def best(self) -> Way:
        counts = [self.claims.count(size) for size in self.sizes]
        most = [self._most(lambda n, k=k: tuple(n if at == k else 0 for at in range(len(counts))), number) for k, number in enumerate(counts)]
        heads = [range(n, -1, -1) for n in most[:-1]]
        best = max(self.good, key=self._value)
        if prod(map(len, heads)) > MOST:
            self.sure = False
            return self._in_order(counts)
        for head in product(*heads):
            if sum(head) + most[-1] >= sum(best) and self._can((*head, 0)):
                best = max(best, (*head, self._most(lambda n, head=head: (*head, n), most[-1])), key=self._value)
        return best

    def _value(self, way: Way) -> tuple:
        """How many, then the first claims first."""
        rest, met = dict(zip(self.sizes, way)), []
        for size in self.claims:
            met.append(rest[size] > 0)
            rest[size] -= 1
        return sum(way), met

    def _most(self, way: Callable[[int], Way], high: int) -> int:
        """The largest number whose way can be had; 0 can."""
        if self._can(way(high)):
            return high
        low = 0
        while high - low > 1:
            middle = (low + high) // 2
            low, high = (middle, high) if self._can(way(middle)) else (low, middle)
        return low

    def _can(self, way: Way) -> bool:
        if any(all(n <= m for n, m in zip(way, good)) for good in self.good):
            return True
        if any(all(n >= m for n, m in zip(way, bad)) for bad in self.bad):
            return False
        verdict = self.able([size for size, number in zip(self.sizes, way) for _ in range(number)])
        if verdict == YES:
            self.good.append(way)
            return True
        self.sure = self.sure and verdict == NO
        self.bad.append(way)
        return False

    def _in_order(self, counts: Sequence[int]) -> Way:
        """The first claims first, where the ways are too many to look at."""
        found = [0] * len(counts)
        for size in self.claims:
            at = self.sizes.index(size)
            more = tuple(n + (k == at) for k, n in enumerate(found))
            if self._can(more):
                found[at] += 1
        return tuple(found)
