"""Rules of thumb, to start from and to compare with: each blank is put somewhere and stays there.

They are what is done at a bench without a plan. Applied blank by blank none of them is the best
plan; the planner starts from the best of them, so that its plan is never worse than a rule.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

from anglelib.stock.bound import scale
from anglelib.stock.instance import Instance, Packing
from anglelib.stock.knapsack import Knapsack


class Rule(NamedTuple):
    """A rule of thumb: its name, in words, and the packing it makes of an instance.

    ``listed``: it takes the blanks in the order in which they are listed.
    """

    name: str
    place: Callable[[Instance, Sequence[int]], Packing]
    listed: bool = False

    def pack(self, instance: Instance, order: Sequence[int] | None = None) -> Packing:
        """The packing, of blanks listed in some order of sizes; without one, of the claims in order."""
        return self.place(instance, instance.claims if order is None else order)


def _one_by_one(instance: Instance, order: Sequence[int], tight: bool) -> Packing:
    """Place the blanks of an order one by one: in the shortest piece that serves, or the first."""
    loads = [0] * len(instance.spaces)
    found = [[0] * len(instance.sizes) for _ in instance.spaces]
    for size in order:
        width, allows = instance.sizes[size].width, instance.sizes[size].allows
        able = [n for n, space in enumerate(instance.spaces) if allows(space.stick) and loads[n] + width <= instance.capacity(space)]
        if not able:
            continue
        at = min(able, key=lambda n: (instance.spaces[n].length - loads[n], n)) if tight else able[0]
        loads[at] += width
        found[at][size] += 1
    return tuple(tuple(pattern) for pattern in found)


def _by_width(instance: Instance, order: Sequence[int], longest: bool) -> list[int]:
    """The blanks, longest or shortest first; of one size, those that must come from a stick before the others."""
    sign = -1 if longest else 1
    return sorted(order, key=lambda c: (sign * instance.sizes[c].width, -instance.sizes[c].pin, -len(instance.sizes[c].barred), c))


def in_list_order(instance: Instance, order: Sequence[int]) -> Packing:
    """Each blank, in the order listed, from the shortest piece that serves."""
    return _one_by_one(instance, order, tight=True)


def first_that_fits(instance: Instance, order: Sequence[int]) -> Packing:
    """Each blank, in the order listed, from the first stick that serves."""
    return _one_by_one(instance, order, tight=False)


def longest_first(instance: Instance, order: Sequence[int]) -> Packing:
    """The longest blank first, each from the shortest piece that serves (best fit decreasing)."""
    return _one_by_one(instance, _by_width(instance, order, True), tight=True)


def first_fit(instance: Instance, order: Sequence[int]) -> Packing:
    """The longest blank first, each from the first stick that serves (first fit decreasing)."""
    return _one_by_one(instance, _by_width(instance, order, True), tight=False)


def small_first(instance: Instance, order: Sequence[int]) -> Packing:
    """The shortest blank first, each from the shortest piece that serves."""
    return _one_by_one(instance, _by_width(instance, order, False), tight=True)


def fill_short_sticks(instance: Instance, order: Sequence[int]) -> Packing:
    """The shortest stick first, each filled as full as the blanks allow."""
    found = [(0,) * len(instance.sizes)] * len(instance.spaces)
    rest = list(instance.demand)
    # a price for each length; in a fine unit rounded, which may cost the rule a hair, never a fit
    worth = [max(1, size.width * min(scale(instance), instance.largest) // instance.largest) for size in instance.sizes]
    for n in sorted(range(len(instance.spaces)), key=lambda n: (instance.spaces[n].length, n)):
        space = instance.spaces[n]
        widths = [size.width for size in instance.sizes]
        prices = [w if size.allows(space.stick) else 0 for w, size in zip(worth, instance.sizes)]
        capacity = instance.capacity(space)
        found[n] = Knapsack(widths, rest, prices, capacity).pattern(capacity)
        rest = [have - used for have, used in zip(rest, found[n])]
    return tuple(found)


RULES = (
    Rule("shortest piece that serves, in list order", in_list_order, True),
    Rule("longest part first, from the shortest piece that serves", longest_first),
    Rule("longest part first, from the first stick that serves", first_fit),
    Rule("small parts first, from the shortest piece that serves", small_first),
    Rule("shortest stick first, filled as full as it goes", fill_short_sticks),
)
FIRST_THAT_FITS = Rule("first stick that serves, in list order", first_that_fits, True)
"""What is done where nobody thinks of the rest: to compare with, no start for a plan."""
