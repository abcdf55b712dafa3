"""Why a stick may not serve a part, and why a part cannot be made: by ids and data.

What a reason says is looked up in :mod:`anglelib.stock.reason_words`, when somebody reads it.

>>> reason = Reason(TOO_SHORT, "S-2", have=Fraction(30), want=Fraction(241, 8))
>>> reason.id, reason.sentence
('too-short', 'S-2 is too short: 30 of it can be used, and the blank with its cut takes 30 1/8.')
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from anglelib.section import Section

OTHER_STICK, BARRED, HANDS_OFF, NO_MARK, ALLOY, TOO_SHORT = "other-stick", "barred", "hands-off", "no-mark", "alloy", "too-short"
SIZE, THICKNESS, FILLET, TOE_RADIUS, HEEL_RADIUS = "size", "thickness", "fillet", "toe-radius", "heel-radius"
SECTION = (SIZE, THICKNESS, FILLET, TOE_RADIUS, HEEL_RADIUS)
"""In what the metal of a stick may differ from the part's."""
OF_A_STICK = (OTHER_STICK, BARRED, HANDS_OFF, NO_MARK, ALLOY, *SECTION, TOO_SHORT)
"""Why a stick may not serve a part."""
NO_PART = "no-part"
"""No part of the job is of this stick's section and alloy."""
NOT_THERE, CLAIMED, NO_STICK = "not-there", "claimed", "no-stick"
OF_A_PART = (NOT_THERE, CLAIMED, NO_STICK)
"""Why a part cannot be made: its stick is not on the rack; sticks could serve, but earlier claims need them; there is no stick."""


@dataclass(frozen=True)
class Reason:
    """One reason: its id, the stick it is about (the part, where it is about one part alone), what there is and what is wanted.

    ``have`` and ``want`` are alloys, sections or lengths [in], as the id needs them; ``alloy`` goes with a section.
    ``sticks`` are those that could serve; ``sure``: it is proven; ``dented``: the stick has a dent;
    ``alone``: the length wanted is the blank's, without its cut.
    """

    id: str
    stick: str = ""
    part: str = ""
    have: Fraction | Section | str = ""
    want: Fraction | Section | str = ""
    alloy: str = ""
    sticks: tuple[str, ...] = ()
    sure: bool = True
    dented: bool = False
    alone: bool = False

    @property
    def sentence(self) -> str:
        """What it says."""
        from anglelib.stock.reason_words import sentence

        return sentence(self)
