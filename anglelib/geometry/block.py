"""The block under a leg that is sawn outside up while the other leg hangs beside it.

It must be so high that the hanging toe does not touch the table, else the angle rocks on that toe; and its
edge must stay off the fillet, else it stands on the fillet and not on the flat. The clearance and the
rest are common practice; the heights are geometry.

>>> block = Block.under("A", Section("3/4", "3/4", "1/8", fillet="1/8"))
>>> block.reach, block.height, block.width, block.relief
(Fraction(5, 8), Fraction(11, 16), Fraction(5, 8), Fraction(1, 8))
>>> block.top
Fraction(13, 16)
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from anglelib.geometry import setup_words as say
from anglelib.geometry.lazy import formulas
from anglelib.lengths import own, show
from anglelib.section import Section, other_leg

CLEARANCE = Fraction(1, 16)
"""What the hanging toe must clear the table by at least [in]; common practice."""


@dataclass(frozen=True)
class Block:
    """A block for one leg of a section; all [in].

    ``hangs``: the leg that hangs beside it. ``reach``: how far the hanging leg reaches below the block's top. ``height``: the least height of the
    block. ``width``: how wide the leg is beside the hanging leg, and so wide is the block, that the leg
    lies on it up to its toe. ``relief``: the edge beside the hanging leg is taken off by more than this
    (the fillet). ``top``: the highest metal above the table where the block is just so high.
    """

    hangs: str
    reach: Fraction
    height: Fraction
    width: Fraction
    relief: Fraction
    top: Fraction

    @classmethod
    def under(cls, leg: str, section: Section) -> Block:
        """The block that carries a leg by its inner face."""
        f, other = formulas(), other_leg(leg)
        thickness = section.thickness(leg)
        reach = f.hanging_reach(b=section.leg(other), tA=thickness)
        height = f.block_height(b=section.leg(other), tA=thickness, c_b=CLEARANCE)
        width, top = section.leg(leg) - section.thickness(other), f.block_top(h_b=height, tA=thickness)
        return cls(other, reach, height, width, section.fillet, top)

    @property
    def words(self) -> str:
        """What the block must be, in English.

        >>> print(Block.under("A", Section(1, 1, "1/8")).words)
        The block is 15/16 high or more, so that the toe of leg B hangs 1/16 clear of the table; square; 7/8 wide, as the leg is beside leg B.
        """
        relief = say.RELIEF.format(fillet=show(self.relief, 64, "up")) if self.relief else ""
        height, width, clear = show(self.height, 64, "up"), show(self.width, 64), own(CLEARANCE)
        return say.BLOCK.format(height=height, hangs=self.hangs, clear=clear, width=width) + relief + "."
