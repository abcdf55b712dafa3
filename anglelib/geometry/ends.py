"""Which end of a part is made first, and what is done to it while its blank is still on the stick.

Harder end first: a spoiled taper then costs a re-cut end, not the part, and a taper is sawn on a long piece. A cope is
cut by hand as well on a short piece, so that it decides only where tapers do not. All common practice; where the kit's
plans give an order, they come first. The plan of the rack, its cut sheets, the cards and lesson 08 all ask here.

>>> from anglelib.part import Cope, Part, Taper
>>> from anglelib.section import Section
>>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
>>> post = Part("P1", "Post", stock, "6061-T6", 5, [Taper("A", 1, "3/4", run=1)], copes=[Cope("A", 2, 1, "1/2", "1/8")])
>>> first_end(post), made_on_stick(post)
(1, True)
>>> lies_reversed(Part("P2", "Strut", stock, "6061-T6", 7, [Taper("B", 2, "1/2", run=1)]))
True
"""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache

from anglelib.job import Shop
from anglelib.part import Part, other_end
from anglelib.section import Section, other_leg

_HARD = {"flat": 1, "fillet": 2, "other-leg": 3, "vertex": 4}


def ends_in(section: Section, leg: str, width_left: Fraction) -> str:
    """Where the line of a taper leaves through the end: "vertex", "other-leg", "fillet" or "flat"."""
    root = section.thickness(other_leg(leg))
    if not width_left:
        return "vertex"
    if width_left < root:
        return "other-leg"
    return "fillet" if width_left < root + section.fillet else "flat"


def hardness(part: Part, end: int) -> tuple[int, int]:
    """How hard an end is to make, its tapers first: (0, 0) for a square end, 4 for a taper to the vertex, one for each cope."""
    tapers = sum(_HARD[ends_in(part.section, taper.leg, taper.width_left)] for taper in part.tapers if taper.end == end)
    return tapers, sum(cope.end == end for cope in part.copes)


def first_end(part: Part) -> int:
    """The end that is made first: the harder one; end 1 where both are alike."""
    return 2 if hardness(part, 2) > hardness(part, 1) else 1


def made_on_stick(part: Part) -> bool:
    """Whether the first end is tapered or coped, which is done while its blank is still on the stick."""
    return hardness(part, first_end(part)) > (0, 0)


def lies_reversed(part: Part) -> bool:
    """Whether the blank lies in its stick with end 2 towards the datum end, so that end 2 can be made first."""
    return first_end(part) == 2


@lru_cache(maxsize=1024)
def from_other_end(part: Part, stock: Section) -> bool:
    """Whether a part is sawn from its stick's end 2, because the legs are unequal and its first end must lie there.

    ``stock`` is the section of the stick as it is listed: with end 1 at the left, the heel down and seen from outside, its
    leg B is towards you. Where the legs are unequal, which end of the metal is which of the part's is settled by its legs,
    so that the two hands are sawn from the two ends of a stick. An angle with equal legs lies as one likes, and so does a
    part that is its own mirror image.

    >>> from anglelib.part import Taper
    >>> stock = Section("1 1/2", 1, "1/8", fillet="1/8")
    >>> left = Part("D2L", "Rail", stock, "6061-T6", "31 1/4", [Taper("A", 1, "5/8", run=2)])
    >>> right = Part("D2R", "Rail", stock, "6061-T6", "31 1/4", [Taper("A", 2, "5/8", run=2)])
    >>> from_other_end(left, stock), from_other_end(right, stock), from_other_end(right, stock.swapped())
    (False, True, False)
    """
    if stock.equal_legs or not part.handed:
        return False
    return first_end(part) != (1 if part.section == stock else 2)


def off_stick(part: Part) -> int:
    """The end that is made after the cut to length."""
    return other_end(first_end(part))


def short_piece(part: Part, shop: Shop) -> bool:
    """Whether a part is too short for the hand: from its cut to length on it is clamped.

    >>> from anglelib.section import Section
    >>> short_piece(Part("P1", "Clip", Section(1, 1, "1/8"), "6061-T6", 2), Shop())
    True
    """
    return part.length < shop.hand_minimum
