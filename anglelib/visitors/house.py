"""How many visitors' pages there may be, and whose is which: who comes in, and which page makes room.

>>> house = House(most=2)
>>> [house.admit("ann", {}, 0.0), house.admit("bob", {}, 0.0)]
[Admitted(ends=()), Admitted(ends=())]
>>> house.began("k1", "ann", 1.0); house.began("k2", "bob", 1.0)
>>> house.admit("cyd", {"k1": 1, "k2": 1}, 99.0) is None  # both are connected
True
>>> house.left("k1", 100.0); house.admit("cyd", {"k1": 0, "k2": 1}, 101.0) is None  # perhaps only asleep
True
>>> house.admit("cyd", {"k1": 0, "k2": 1}, 100.0 + GONE)
Admitted(ends=('k1',))
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

IDLE = 30
"""So long a page is kept that nobody touches [min]."""
GONE = 60
"""So long a page without a connection is kept from one who waits for a place [s]: a phone that sleeps has none either."""
EACH = 4
"""So many pages one visitor has at once."""
A_PAGE = 150 * 2**20
"""What a page's Python is reckoned with [byte]."""
A_CORE = 8
"""So many pages a core bears, since few are moved at one time."""
MOST = 60


@dataclass(frozen=True)
class Admitted:
    """A visitor may have a page once these kernels are ended."""

    ends: tuple[str, ...] = ()


class House:
    """The pages that are open, by their kernels."""

    def __init__(self, most: int) -> None:
        self.most = most
        self.starting = 0
        self.of: dict[str, str] = {}
        self.seen: dict[str, float] = {}

    def admit(self, visitor: str, connected: Mapping[str, int], now: float) -> Admitted | None:
        """Room for one more page of a visitor, or None; ``connected`` says of each kernel that lives how many connections it has."""
        for gone in set(self.of) - set(connected):
            self.forget(gone)
        own = sorted((id_ for id_ in self.of if self.of[id_] == visitor), key=lambda id_: (connected[id_] > 0, self.seen[id_]))
        ends = own[: max(0, len(own) - EACH + 1)]
        if len(self.of) + self.starting - len(ends) >= self.most:
            left = [id_ for id_ in self.of if not connected[id_] and id_ not in ends and (now - self.seen[id_] >= GONE or self.of[id_] == visitor)]
            if not left:
                return None
            ends.append(min(left, key=lambda id_: self.seen[id_]))
        self.starting += 1
        return Admitted(tuple(ends))

    def began(self, id_: str, visitor: str, now: float) -> None:
        """A kernel was started for one who was admitted."""
        self.starting -= 1
        self.of[id_], self.seen[id_] = visitor, now

    def failed(self) -> None:
        """None was started."""
        self.starting -= 1

    def left(self, id_: str, now: float) -> None:
        """A page has lost its connection."""
        if id_ in self.of:
            self.seen[id_] = now

    def forget(self, id_: str) -> None:
        """A kernel has ended."""
        self.of.pop(id_, None)
        self.seen.pop(id_, None)

    def owns(self, visitor: str, id_: str) -> bool:
        """Whether a kernel is this visitor's."""
        return bool(visitor) and self.of.get(id_) == visitor


def bearable(available: int, cores: int | None) -> int:
    """How many pages a computer bears, with so much memory free [byte]: half of it is left to others.

    >>> bearable(8 * 2**30, 4), bearable(2**30, 8), bearable(0, None)
    (27, 3, 1)
    """
    return max(1, min(available // 2 // A_PAGE, A_CORE * (cores or 1), MOST))
