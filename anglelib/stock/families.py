"""Which blanks belong together at the saw: the pieces of one part, and a left part with its right one.

Both are of one length, so that one stop serves; a pair whose halves come from one stick lies in it one after the other.

>>> from anglelib.part import Part, Taper
>>> from anglelib.section import Section
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> left = Part("A1L", "Cleat", stock, "6061-T6", 2, [Taper("A", 1, "3/8", run=1)], quantity=2)
>>> right = Part("A1R", "Cleat", stock, "6061-T6", 2, [Taper("B", 1, "3/8", run=1)], quantity=2, mirror_of="A1L")
>>> l1, l2, r1, r2 = (Blank(part, n, part.length) for part in (left, right) for n in (1, 2))
>>> [str(blank) for blank in sorted([l2, r2, r1, l1], key=side_by_side([l1, l2, r1, r2]))]
['A1L (1 of 2)', 'A1R (1 of 2)', 'A1L (2 of 2)', 'A1R (2 of 2)']
>>> together([[l1, r1], [l2, r2]]), together([[l1, l2], [r1, r2]]), together([[l1, l2, r1, r2]])
(Together(pairs=2, whole=2, moves=1), Together(pairs=2, whole=0, moves=1), Together(pairs=2, whole=2, moves=0))
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from typing import NamedTuple

from anglelib.part import Part
from anglelib.stock.blank import Blank


class Together(NamedTuple):
    """How many left and right pairs are sawn, how many of them come whole from one stick, and how often equal parts go on to another stick."""

    pairs: int
    whole: int
    moves: int

    @property
    def value(self) -> tuple[int, int]:
        """For the search: the larger is the better."""
        return self.whole, -self.moves


def family(part: Part) -> str:
    """What a part and its mirror image have in common: the first of their ids."""
    return min(part.id, part.mirror_of or part.id)


def together(lots: Iterable[Sequence[Blank]]) -> Together:
    """What comes together from the sticks, for the blanks that are sawn from each of them."""
    sides: dict[str, Counter[str]] = {}
    whole, sources = 0, Counter[str]()
    for lot in lots:
        here: dict[str, Counter[str]] = {}
        for blank in lot:
            here.setdefault(family(blank.part), Counter())[blank.part.id] += 1
        for name, count in here.items():
            sides.setdefault(name, Counter()).update(count)
            sources[name] += 1
            whole += min(count.values()) if len(count) == 2 else 0
    pairs = sum(min(count.values()) for count in sides.values() if len(count) == 2)
    return Together(pairs, whole, sum(number - 1 for number in sources.values()))


def side_by_side(lot: Sequence[Blank]) -> Callable[[Blank], tuple]:
    """The order of blanks of one length: those with a taper to be sawn first, a part beside its mirror image, then by number.

    Setting the saw back from a taper sets the stop too; so the stop is set once for all of one length.
    """
    from anglelib.stock.set_ups import tapered

    ranks: dict[tuple[str, int], int] = {}
    counts: Counter[str] = Counter()
    for blank in sorted(lot, key=lambda b: (b.part.id, b.number)):
        ranks[blank.part.id, blank.number] = counts[blank.part.id]
        counts[blank.part.id] += 1
    tapers = {family(blank.part) for blank in lot if tapered(blank.part)}
    return lambda b: (family(b.part) not in tapers, family(b.part), ranks[b.part.id, b.number], b.part.id)
