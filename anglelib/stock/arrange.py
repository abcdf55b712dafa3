"""Levels 5 and 6: of the plans that are equal so far, the one in which equal parts lie together, then the one with the fewest set-ups of the saw.

5. Most left and right pairs whole from one stick; then equal parts (and their mirror images) go on to another stick as seldom as can be.
6. Fewest set-ups (:mod:`anglelib.stock.set_ups`), the sticks cut in the order of the plan, and each in its order of cuts.

What levels 1 to 4 come to is kept to the number. First equal pieces change places; where a plain bound does not show that nothing is better, every
way is tried where there are few, else a small model in integers is asked within a small limit. What is held for later stays where it is.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import groupby
from math import comb, prod

from anglelib.job import Shop
from anglelib.stock.blank import Blank
from anglelib.stock.cutting import hand_out, lay_out, saw_order
from anglelib.stock.effort import Effort, Stopped
from anglelib.stock.families import Together, family, together
from anglelib.stock.instance import Packing
from anglelib.stock.problem import Problem
from anglelib.stock.set_ups import SQUARE, Setting, after, changed, set_ups, settings, tapered

FEW = 300
"""So many ways are tried one by one."""
MOST = 160
"""With more counts (parts times usable lengths) the model finds nothing in its time, and is not asked."""
LIMIT = 0.06
"""How long the model is searched, in deterministic work."""

Lots = tuple[tuple[Blank, ...], ...]
"""The blanks of each place of a problem."""


@dataclass(frozen=True)
class Arrangement:
    """Which blank comes from which place, and what is proven of levels 5 and 6 among the plans that are equal at levels 1 to 4."""

    packing: Packing
    lots: Lots
    together: Together
    set_ups: int
    together_proven: bool
    set_ups_proven: bool


def arrange(problem: Problem, packing: Packing, shop: Shop, effort: Effort, same_sticks: bool = False) -> Arrangement:
    """The blanks of a packing handed out, and the packing exchanged for an equal one where that is better at levels 5 and 6.

    ``same_sticks``: what is not cut into stays so.
    """
    asked = Arranging(problem, packing, shop, same_sticks)
    found = asked.found(asked.start())
    if found.together_proven and found.set_ups_proven:
        return found
    if asked.ways <= FEW:
        return asked.tried()
    try:
        effort.check()
        return _modelled(asked, found, effort)
    except (Stopped, ImportError):
        return found


class Arranging:
    """One section whose packing stands at levels 1 to 4: its parts that are sawn, where they may lie, and the plain bounds."""

    def __init__(self, problem: Problem, packing: Packing, shop: Shop, same_sticks: bool = False):
        self.problem, self.packing, self.shop = problem, packing, shop
        self.instance = problem.instance
        self.score = self.instance.score(packing)
        used = {space.stick for space, pattern in zip(self.instance.spaces, packing) if any(pattern)}
        self.open = [n for n, space in enumerate(self.instance.spaces) if space.stick in used or not same_sticks]
        handed = hand_out(problem, packing)
        self.held: Lots = tuple(tuple(b for b in lot if b.held) for lot in handed)
        sizes = {(b.part.id, b.number): size for b, size in zip(problem.blanks, self.instance.claims)}
        sawn = sorted(((b, sizes[b.part.id, b.number]) for lot in handed for b in lot if not b.held), key=lambda one: (-one[0].length, one[0].part.id, one[1], one[0].number))
        self.parts = [(size, [b for b, _ in same]) for (_, size), same in groupby(sawn, key=lambda one: (one[0].part.id, one[1]))]
        """Each part that is sawn, pieces for which a stick is named apart: its size, and its blanks in the order of their numbers."""
        self._runs: dict[tuple, list[Setting]] = {}

    def able(self, size: int) -> list[int]:
        """The places from which a size may come."""
        return [n for n in self.open if self.instance.sizes[size].allows(self.instance.spaces[n].stick)]

    # --- where the search begins -----------------------------------------------------------------------------
    def start(self) -> list[list[int]]:
        """How many of each part come from each place: the packing handed out, the largest family first, from the place that just holds it."""
        found = [[0] * len(self.instance.spaces) for _ in self.parts]
        for size in sorted({size for size, _ in self.parts}):
            free = [pattern[size] for pattern in self.packing]
            for n, lot in enumerate(self.held):
                free[n] -= sum(self.size_of(b) == size for b in lot)
            families: dict[str, list[int]] = {}
            for c, (own, lot) in enumerate(self.parts):
                if own == size:
                    families.setdefault(family(lot[0].part), []).append(c)
            for members in sorted(families.values(), key=lambda members: (-sum(len(self.parts[c][1]) for c in members), members)):
                _hand(members, {c: len(self.parts[c][1]) for c in members}, free, found)
        return found

    def size_of(self, blank: Blank) -> int:
        """The size of a blank."""
        return self._sizes[blank.part.id, blank.number]

    @cached_property
    def _sizes(self) -> dict[tuple[str, int], int]:
        return {(b.part.id, b.number): size for b, size in zip(self.problem.blanks, self.instance.claims)}

    # --- what an arrangement comes to ------------------------------------------------------------------------
    def lots(self, counts: Sequence[Sequence[int]]) -> Lots:
        """The blanks of each place; their numbers go up with the sticks."""
        found = [list(lot) for lot in self.held]
        for (_, lot), row in zip(self.parts, counts):
            rest = iter(lot)
            for n in self.order:
                found[n] += [next(rest) for _ in range(row[n])]
        return tuple(map(tuple, found))

    @cached_property
    def order(self) -> list[int]:
        """The places in the order in which their sticks are cut."""
        holding = {self.instance.spaces[n].stick for n, lot in enumerate(self.held) if lot}
        return sorted(range(len(self.instance.spaces)), key=lambda n: (self.instance.spaces[n].stick not in holding, self.instance.spaces[n].stick, n))

    def packed(self, counts: Sequence[Sequence[int]]) -> Packing:
        """The packing of an arrangement."""
        found = [[0] * len(self.instance.sizes) for _ in self.instance.spaces]
        for (size, _), row in zip(self.parts, counts):
            for n, number in enumerate(row):
                found[n][size] += number
        for n, lot in enumerate(self.held):
            for blank in lot:
                found[n][self.size_of(blank)] += 1
        return tuple(map(tuple, found))

    def sticks_of(self, lots: Lots) -> list[list[Blank]]:
        """What is sawn from each stick."""
        found: dict[int, list[Blank]] = {space.stick: [] for space in self.instance.spaces}
        for space, lot in zip(self.instance.spaces, lots):
            found[space.stick] += [b for b in lot if not b.held]
        return list(found.values())

    def number_of_set_ups(self, packing: Packing, lots: Lots) -> int:
        """How many set-ups the sheets of this arrangement take."""
        sticks = lay_out(self.problem, packing, self.shop, (), lots=lots)
        return len(set_ups(sorted(sticks, key=saw_order)))

    def found(self, counts: Sequence[Sequence[int]], together_proven: bool = False, set_ups_proven: bool = False, least: int = 0) -> Arrangement:
        """An arrangement with what it comes to; proven by the bounds, or where it is known otherwise. ``least``: no fewer set-ups are possible."""
        packing, lots = self.packed(counts), self.lots(counts)
        met = together(self.sticks_of(lots))
        number = self.number_of_set_ups(packing, lots)
        joined = together_proven or (met.whole == met.pairs and met.moves == self.fewest_moves)
        rough = any(blank.rough for _, lot in self.parts for blank in lot)  # what the hacksaw cuts needs no set-up: the bounds count one
        fewest = set_ups_proven or not rough and number <= max(least, self.fewest_set_ups)
        return Arrangement(packing, lots, met, number, joined, joined and fewest)

    # --- the plain bounds --------------------------------------------------------------------------------------
    @cached_property
    def fewest_moves(self) -> int:
        """Equal parts go on to another stick at least so often: each stick holds only so many of them."""
        wanted: dict[tuple[str, int], int] = {}
        homes: dict[str, set[int]] = {}
        for size, lot in self.parts:
            name = family(lot[0].part)
            homes.setdefault(name, set()).add(size)
            wanted[name, size] = wanted.get((name, size), 0) + len(lot)
        found = 0
        for (name, size), number in wanted.items():
            if len(homes[name]) > 1:
                continue  # a pair whose halves must come from sticks that are named
            most: dict[int, int] = {}
            for n in self.able(size):
                space = self.instance.spaces[n]
                most[space.stick] = most.get(space.stick, 0) + self.instance.capacity(space) // max(1, self.instance.sizes[size].width)
            for one in sorted(most.values(), reverse=True):
                number -= one
                if number <= 0:
                    break
                found += 1
        return found

    @cached_property
    def tapers(self) -> int:
        """So many set-ups are for tapers, and for the parting cut after each, wherever the blanks lie."""
        return sum((_changes(lot[0]) + 1) * len(lot) for _, lot in self.parts if tapered(lot[0].part))

    @cached_property
    def fewest_set_ups(self) -> int:
        """No arrangement takes fewer set-ups: the tapers', and one for each other length; where a blank may end unsawn it needs no stop."""
        plain = {lot[0].length for _, lot in self.parts} - {lot[0].length for _, lot in self.parts if tapered(lot[0].part)}
        return self.tapers + len(plain) - sum(space.unsawn for space in self.instance.spaces)

    # --- every way tried -----------------------------------------------------------------------------------------
    @cached_property
    def ways(self) -> int:
        """How many ways there are to put the parts into the places, whether they fit or not."""
        return prod(comb(len(lot) + len(self.able(size)) - 1, len(lot)) for size, lot in self.parts)

    def tried(self) -> Arrangement:
        """The best of all ways; a proof."""
        best: list = []
        for counts in self._every():
            packing = self.packed(counts)
            if self.instance.score(packing) != self.score:
                continue
            lots = self.lots(counts)
            value = together(self.sticks_of(lots)).value, -self._quickly(packing, lots)
            if not best or value > best[0]:
                best = [value, [list(row) for row in counts]]
        free = not any(map(len, self.held))  # what is held might lie elsewhere
        return self.found(best[1], free, free)

    def _every(self) -> Iterator[list[list[int]]]:
        counts = [[0] * len(self.instance.spaces) for _ in self.parts]
        rooms = [self.instance.capacity(space) - sum(self.instance.sizes[self.size_of(b)].width for b in lot) for space, lot in zip(self.instance.spaces, self.held)]

        def part(c: int) -> Iterator[list[list[int]]]:
            if c == len(self.parts):
                yield counts
                return
            size, lot = self.parts[c]
            yield from place(c, self.instance.sizes[size].width, self.able(size), 0, len(lot))

        def place(c: int, width: int, able: list[int], at: int, rest: int) -> Iterator[list[list[int]]]:
            if not rest:
                yield from part(c + 1)
                return
            if at == len(able):
                return
            n = able[at]
            for number in range(min(rest, rooms[n] // width if width else rest), -1, -1):
                counts[c][n] += number
                rooms[n] -= number * width
                yield from place(c, width, able, at + 1, rest - number)
                rooms[n] += number * width
                counts[c][n] -= number

        return part(0)

    def _quickly(self, packing: Packing, lots: Lots) -> int:
        """:meth:`number_of_set_ups`, each stick laid out once for the parts that come from it."""
        now, number = SQUARE, 0
        for _, places in groupby(self.order, key=lambda n: self.instance.spaces[n].stick):
            held = list(places)
            stick = self.instance.spaces[held[0]].stick
            key = stick, tuple(tuple(sorted(b.part.id for b in lots[n])) for n in sorted(held))
            if key not in self._runs:
                only = tuple(lot if n in held else () for n, lot in enumerate(lots))
                alone = tuple(p if n in held else (0,) * len(p) for n, p in enumerate(packing))
                planned = lay_out(self.problem, alone, self.shop, (), lots=only)[stick]
                self._runs[key] = [one for _, _, one in settings(planned)]
            for setting in self._runs[key]:
                number += bool(changed(now, setting))
                now = after(now, setting)
        return number


def _changes(blank: Blank) -> int:
    """How many set-ups the tapers of a blank take."""
    now, number = SQUARE, 0
    for _, setting in tapered(blank.part):
        number += bool(changed(now, setting))
        now = after(now, setting)
    return number


def _hand(members: list[int], rest: dict[int, int], free: list[int], found: list[list[int]]) -> None:
    """A family handed out: to the place that just holds what is left of it, else to the roomiest; pairs before odd ones."""
    while left := sum(rest.values()):
        holds = [n for n, room in enumerate(free) if room >= left]
        n = min(holds, key=lambda n: (free[n], n)) if holds else max(range(len(free)), key=lambda n: (free[n], -n))
        number = min(left, free[n])
        assert number, "the packing holds fewer pieces of this length than are sawn"
        take = dict.fromkeys(members, 0)
        if len(members) == 2:
            pairs = min(number // 2, *rest.values())
            take = dict.fromkeys(members, pairs)
        for c in sorted(members, key=lambda c: (-(rest[c] - take[c]), c)):
            more = min(number - sum(take.values()), rest[c] - take[c])
            take[c] += more
        for c, taken in take.items():
            found[c][n] += taken
            rest[c] -= taken
        free[n] -= number


# --- the model ------------------------------------------------------------------------------------------------------
def _modelled(asked: Arranging, start: Arrangement, effort: Effort) -> Arrangement:
    """The better of an arrangement and what the model finds within its limit."""
    if len(asked.parts) * len(asked.instance.spaces) > MOST:
        return start
    from anglelib.stock.arrange_model import Model

    model = Model(asked)
    answer = model.answer(asked.start(), effort, LIMIT)
    best = start
    if answer.counts is not None and asked.instance.score(asked.packed(answer.counts)) == asked.score:
        better = asked.found(answer.counts)
        best = max(start, better, key=lambda one: (one.together.value, -one.set_ups))
    counts = answer.counts if best is not start else asked.start()
    joined = not any(map(len, asked.held)) and model.level_5(best.together) <= answer.bound
    least = answer.bound - model.level_5(best.together) + asked.tapers if joined and model.exact else 0
    return asked.found(counts, joined, False, least)


