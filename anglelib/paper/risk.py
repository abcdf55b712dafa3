"""How often a saw set outside the line crosses it all the same, on the cuts of a part.

What a sawn end is uncertain by is added up as root sum of squares (GUM, 5.1.2) in
:mod:`anglelib.geometry.allowance`, from shop guesses: measure your own.

>>> from anglelib.part import Taper
>>> from anglelib.section import Section
>>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
>>> bracket = Part("C1L", "Bracket", stock, "6061-T6", "4 3/4", tapers=[Taper("A", 1, run="2 1/8")])
>>> once_in(taper_risk(bracket, Shop())), once_in(square_risk(bracket, Shop()))
(120, 200)
"""

from __future__ import annotations

from functools import lru_cache
from math import hypot

from anglelib.geometry.allowance import TURN, Saw, sawn_end
from anglelib.geometry.taper import taper_lines
from anglelib.job import Shop
from anglelib.lengths import fine
from anglelib.part import Part


def taper_risk(part: Part, shop: Shop) -> float:
    """The chance that the saw crosses the finished line of the part's longest taper; 0 where it has none."""
    edges = [hypot(float(line.run), float(line.width - line.width_left)) for line in taper_lines(part)]
    return _risk(max(edges), float(shop.allowance)) if edges else 0.0


def square_risk(part: Part, shop: Shop) -> float:
    """The same for the cut to length, along the longer leg."""
    edge = float(max(part.section.leg_a, part.section.leg_b))
    return _risk(edge, float(shop.allowance))


@lru_cache(maxsize=64)
def _risk(edge: float, allowance: float) -> float:
    """Of an edge so long [in]: an integral, which a part's length and its holes do not change."""
    return Saw(sawn_end().standard, TURN, edge).risk(allowance)


def once_in(risk: float) -> int:
    """A chance as one in so many, to two figures.

    >>> once_in(0.0123), once_in(0.5), once_in(0.00003)
    (81, 2, 33000)
    """
    number = 1 / max(risk, 1e-6)
    step = 10 ** max(len(str(int(number))) - 2, 0)
    return max(1, round(number / step) * step)


def basis() -> str:
    """What the allowance rests on, for the cover."""
    return f"What a cut strays is a guess (uncertain by {fine(sawn_end().standard)} and {TURN:g}°): measure yours by test cuts, and set the allowance by them."
