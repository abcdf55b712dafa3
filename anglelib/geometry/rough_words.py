"""What is said of a cut that the saw cannot make: the one place, so that plan, cut sheet, card, tag and terminal say it alike.

>>> from anglelib.job import Shop
>>> from anglelib.saw import Saw
>>> shop = Shop(saw=Saw("9", hacksaw_allowance="1/8"))
>>> print(rough_cut(shop))
rough cut by hacksaw, 1/8 outside the line, then file or disc to the line: neither piece goes into the throat of 9
>>> rough_brief(shop), begins_rough(shop)
('rough cut by hacksaw, 1/8 outside', 'its near end is rough: squaring takes 1/8 off it')
"""

from __future__ import annotations

from anglelib.job import Shop
from anglelib.lengths import own
from anglelib.saw import WORDS

ROUGH = "rough cut by hacksaw"
NEAR_END_ROUGH = "its near end is rough"
FINISH = "file or disc to the line"
WATCH = "In soft jaws, both pieces held; no fingers in line."
"""What is minded at a rough cut."""


def sentence_of(words: str) -> str:
    """Such words as a sentence."""
    return f"{words[0].upper()}{words[1:]}."


def outside_by_hacksaw(shop: Shop) -> str:
    """How far outside the line the hacksaw runs, and what is done then."""
    return f"{own(shop.by_hacksaw.allowance)} outside the line, then {FINISH}"


def rough_brief(shop: Shop) -> str:
    """A rough cut in a few words."""
    return f"{ROUGH}, {own(shop.by_hacksaw.allowance)} outside"


def throat_words(shop: Shop) -> str:
    """Why a cut across a stick is a rough one."""
    assert shop.saw is not None
    return f"neither piece goes into the throat of {own(shop.saw.throat)}"


def rough_cut(shop: Shop) -> str:
    """A rough cut across a stick, and why."""
    return f"{ROUGH}, {outside_by_hacksaw(shop)}: {throat_words(shop)}"


def past_the_column(shop: Shop, cope: bool = False) -> str:
    """Why a cut of a part is a rough one."""
    assert shop.saw is not None
    return f"{'from the toe' if cope else 'either way round'} it does not pass the column, {own(shop.saw.throat)} from the blade"


def begins_rough(shop: Shop) -> str:
    """Of a blank whose near end a rough cut has left: the plan's line and its card's are one only where so much is taken off."""
    return f"{NEAR_END_ROUGH}: squaring takes {own(shop.by_hacksaw.allowance)} off it"


def saw_words(shop: Shop) -> str:
    """What is known of the saw, as a sentence; "" where nothing is.

    >>> from anglelib.saw import Saw
    >>> saw_words(Shop(saw=Saw("9", table="8", hacksaw_allowance="1/8")))
    'Throat of the saw 9; table beside the blade 8; allowance of the hacksaw 1/8; kerf of the hacksaw 1/16.'
    """
    if shop.saw is None:
        return ""
    known = [f"{what} {own(getattr(shop.saw, field))}" for field, what in WORDS.items() if getattr(shop.saw, field)]
    return sentence_of("; ".join(known))


def how_rough(shop: Shop) -> str:
    """How the plan's rough cuts are meant; "" where no saw is known."""
    if shop.saw is None:
        return ""
    saw = shop.saw
    return (
        f"At the saw the shorter of the two pieces lies on the column's side: its throat is {own(saw.throat)}. Where neither goes in, the plan has a "
        f"{ROUGH}: its line is struck {own(shop.by_hacksaw.allowance)} outside the finished one, because a hacksaw wanders; beyond its kerf, "
        f"{own(saw.hacksaw_kerf)}, the next blank has as much. {FINISH.capitalize()}, in the vise with soft jaws, eyes covered."
    )


