"""What a search comes to: the best packing found, and what is proven of it."""

from __future__ import annotations

from dataclasses import dataclass, field

from anglelib.stock.columns import Column
from anglelib.stock.decide import Decider
from anglelib.stock.instance import Packing


@dataclass
class Outcome:
    """The best packing found, and what is proven of it; numbers in the instance's integers.

    ``demand`` is what the packing makes, ``refused`` the claims that it does not make; of sizes
    ``ruled_out`` no plan makes more without giving up an earlier claim, of those ``doubtful`` that is
    not proven. ``left`` has for each remnant its grains and the most they can be while those before it
    stand. ``settled`` are the levels that are proven; ``decider`` knows what was met on the way.
    """

    packing: Packing
    demand: tuple[int, ...]
    refused: list[int] = field(default_factory=list)
    ruled_out: set[int] = field(default_factory=set)
    doubtful: list[int] = field(default_factory=list)
    left: list[tuple[int, int]] = field(default_factory=list)
    settled: set[int] = field(default_factory=set)
    pool: dict[Column, None] = field(default_factory=dict)
    fewest_cuts: bool = False
    interrupted: bool = False
    decider: Decider | None = None
