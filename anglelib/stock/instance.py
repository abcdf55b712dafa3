"""The planner's problem in whole numbers: blank sizes, usable spaces, and how good a packing is.

Everything here is an ``int`` in one exact unit (a 64th of an inch, or finer where millimetres or
decimals are mixed in), so that a plan is feasible or it is not, and no tolerance decides it. The
problem is one section and one alloy; sections never share metal.

A blank with its kerf takes ``width`` = blank + kerf. In a space of usable length E, n blanks fit
iff the sum of widths is at most E, or at most E + kerf where the far end may end a blank unsawn, or
where the last cut may run into metal that is lost in any case. What is left is max(0, E - sum of widths).
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import groupby
from math import gcd
from typing import NamedTuple

Pattern = tuple[int, ...]
"""How many blanks of each size come from one space."""

Packing = tuple[Pattern, ...]
"""One pattern a space, in the order of the spaces."""

ANY = -1


class Size(NamedTuple):
    """A blank size: its width (blank + kerf), the stick it must come from (``ANY``: no matter) and those it may not come from."""

    width: int
    pin: int = ANY
    barred: tuple[int, ...] = ()

    def allows(self, stick: int) -> bool:
        """Whether it may come from a stick (``ANY``: from one that no size names)."""
        return self.pin in (ANY, stick) and stick not in self.barred


class Space(NamedTuple):
    """A usable length of one stick: between its trims, its dents, its ends."""

    length: int
    stick: int
    unsawn: bool = False  # its far end may end a blank
    full: bool = False  # its stick is not a remnant
    facing: int = 0  # saw cuts that free its near end
    spare: bool = False  # the last cut may run out beyond its far end


class Kind(NamedTuple):
    """All that tells one space from another: spaces of a kind may change places in any plan."""

    length: int
    unsawn: bool
    pin: int  # its stick, if sizes are pinned to it or may not come from it
    full: bool
    facing: int
    twin: int  # its stick, if the stick has several spaces
    spare: bool


class Score(NamedTuple):
    """The four levels of a packing; a larger tuple is a better packing.

    ``made`` has a 1 for each claim that is met, in order, and before claims that are equal how many of them are; ``left`` is what remains, in whole
    grades, longest first; then full sticks opened, sticks touched, cuts and scrap, negated.
    """

    made: tuple[int, ...]
    left: tuple[int, ...]
    opened: int
    touched: int
    cuts: int
    scrap: int


@dataclass(frozen=True)
class Instance:
    """One section and alloy to plan: the sizes, the spaces, and the shop's settings; all integers.

    ``grain`` is the step in which a remnant counts (an inch, or 10 mm), ``minimum`` the usable
    minimum, below which it counts nothing. ``claims`` lists the size of every blank wanted, the one
    with the first claim on the metal first; claims of one number in ``ranks`` are equal (none of them: without). ``apart`` are sticks that are told from equal ones, because
    it matters which of them is cut.
    """

    sizes: tuple[Size, ...]
    spaces: tuple[Space, ...]
    claims: tuple[int, ...]
    kerf: int
    grain: int
    minimum: int
    apart: frozenset[int] = frozenset()
    ranks: tuple[int, ...] = ()

    # --- what fits ----------------------------------------------------------------------------
    @cached_property
    def demand(self) -> tuple[int, ...]:
        """How many blanks of each size are wanted."""
        return count(self.claims, len(self.sizes))

    def kind(self, space: Space) -> Kind:
        """The kind of a space."""
        pin = space.stick if space.stick in self._pinned else ANY
        twin = space.stick if self._spaces_of[space.stick] > 1 else ANY
        return Kind(space.length, space.unsawn, pin, space.full, space.facing, twin, space.spare)

    @cached_property
    def _pinned(self) -> frozenset[int]:
        return self.named | self.apart

    @cached_property
    def named(self) -> frozenset[int]:
        """The sticks that a size must come from, or may not."""
        return frozenset(stick for size in self.sizes for stick in (size.pin, *size.barred) if stick != ANY)

    @cached_property
    def _spaces_of(self) -> Counter[int]:
        return Counter(space.stick for space in self.spaces)

    @cached_property
    def kinds(self) -> dict[Kind, tuple[int, ...]]:
        """The kinds of space, and which spaces are of that kind, by number."""
        members: dict[Kind, list[int]] = {}
        for n, space in enumerate(self.spaces):
            members.setdefault(self.kind(space), []).append(n)
        return {kind: tuple(found) for kind, found in members.items()}

    @cached_property
    def largest(self) -> int:
        """The largest capacity of a space; 1 where there is none."""
        return max((self.capacity(s) for s in self.spaces), default=1)

    def capacity(self, space: Space | Kind) -> int:
        """The largest sum of widths that fits a space."""
        return space.length + (self.kerf if space.unsawn or space.spare else 0)

    def load(self, pattern: Sequence[int]) -> int:
        """The sum of widths of a pattern."""
        return sum(n * size.width for n, size in zip(pattern, self.sizes) if n)

    def fits(self, pattern: Sequence[int], space: Space) -> bool:
        """Whether a pattern can be sawn from a space."""
        return self.load(pattern) <= self.capacity(space) and all(
            size.allows(space.stick) for n, size in zip(pattern, self.sizes) if n
        )

    # --- what is left -------------------------------------------------------------------------
    def remains(self, pattern: Sequence[int], space: Space) -> int:
        """The usable length left in a space."""
        return max(0, space.length - self.load(pattern))

    def graded(self, length: int) -> int:
        """A remnant in whole grades; 0 below the usable minimum."""
        return length // self.grain if length >= self.minimum else 0

    def threshold(self, grades: int) -> int:
        """The shortest remnant that counts as this many grades."""
        return max(grades * self.grain, self.minimum)

    def left(self, packing: Packing) -> tuple[int, ...]:
        """What remains, in whole grades, longest first: one entry a space."""
        pieces = (self.graded(self.remains(p, s)) for p, s in zip(packing, self.spaces))
        return tuple(sorted(pieces, reverse=True))

    # --- how good -----------------------------------------------------------------------------
    def score(self, packing: Packing) -> Score:
        """The four levels of a packing."""
        used = [(p, s) for p, s in zip(packing, self.spaces) if any(p)]
        return Score(
            self.claimed(packing),
            self.left(packing),
            -len({s.stick for _, s in used if s.full}),
            -len({s.stick for _, s in used}),
            -sum(self.cuts(p, s) for p, s in used),
            -sum(self.scrap(p, s) for p, s in used),
        )

    def output(self, packing: Packing) -> tuple[int, ...]:
        """How many blanks of each size a packing makes."""
        return tuple(sum(pattern[size] for pattern in packing) for size in range(len(self.sizes)))

    def made(self, packing: Packing) -> tuple[int, ...]:
        """1 or 0 for each claim, in order: a size's blanks go to the first claims on it."""
        stock, made = list(self.output(packing)), []
        for size in self.claims:
            made.append(1 if stock[size] > 0 else 0)
            stock[size] -= 1
        return tuple(made)

    @cached_property
    def equals(self) -> tuple[tuple[int, int], ...]:
        """From and to which claim those are equal that want different sizes: one size is made in order in any case."""
        found, begin = [], 0
        for _, same in groupby(self.ranks):
            end = begin + len(list(same))
            if len(set(self.claims[begin:end])) > 1:
                found.append((begin, end))
            begin = end
        return tuple(found)

    def claimed(self, packing: Packing) -> tuple[int, ...]:
        """:meth:`made`, and before equal claims how many of them are: as many as can be come before the order of their ids."""
        made = self.made(packing)
        if not self.equals:
            return made
        counts = {begin: sum(made[begin:end]) for begin, end in self.equals}
        return tuple(n for at, done in enumerate(made) for n in ((counts[at], done) if at in counts else (done,)))

    def among(self, claims: Sequence[int]) -> Instance:
        """The same with some of the claims, by their numbers."""
        ranks = tuple(self.ranks[n] for n in claims) if self.ranks else ()
        return replace(self, claims=tuple(self.claims[n] for n in claims), ranks=ranks)

    def cuts(self, pattern: Sequence[int], space: Space) -> int:
        """Saw cuts in a space: what frees its near end, then one a blank, less one that ends unsawn."""
        n = sum(pattern)
        if not n:
            return 0
        return space.facing + n - (1 if space.unsawn and self.load(pattern) > space.length else 0)

    def scrap(self, pattern: Sequence[int], space: Space) -> int:
        """What an opened space loses: its usable length less its blanks and its usable remnant."""
        if not any(pattern):
            return 0
        rest = self.remains(pattern, space)
        blanks = self.load(pattern) - self.kerf * sum(pattern)
        return space.length - blanks - (rest if rest >= self.minimum else 0)

    @cached_property
    def step(self) -> int:
        """The largest unit that measures every width: sums of widths are multiples of it."""
        return gcd(*(size.width for size in self.sizes)) or 1


def count(sizes: Sequence[int], kinds: int) -> tuple[int, ...]:
    """How often each of ``kinds`` sizes occurs in a list of sizes.

    >>> count([2, 0, 2], 3)
    (1, 0, 2)
    """
    found = [0] * kinds
    for size in sizes:
        found[size] += 1
    return tuple(found)
