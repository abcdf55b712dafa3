"""In what the files differ from the plan in hand, and what planning anew changes, in words.

>>> from anglelib.stock.anew import Change
>>> print(difference(Difference("rule", "kerf", "1/16", "1/8")))
the kerf was 1/16 and is 1/8
>>> print(change(Change("S-07", (("A3", 2),), (("A4", 1), ("A3", 1)))))
S-07: 2 x A3 until now, now A4, A3
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import TYPE_CHECKING

from anglelib.lengths import exact
from anglelib.saw import WORDS
from anglelib.stock import in_hand as h
from anglelib.stock.in_hand import Difference, InHand
from anglelib.stock.wording import MOST, counted

if TYPE_CHECKING:
    from anglelib.stock.anew import Change

_RULES = {
    "kerf": "kerf", "allowance": "sanding allowance", "hand_minimum": "hand minimum", "usable_minimum": "usable minimum", "grain": "grain",
    "throat": WORDS["throat"], "hacksaw_allowance": WORDS["hacksaw_allowance"], "hacksaw_kerf": WORDS["hacksaw_kerf"],
}  # fmt: skip
_SAYS = {
    h.OTHER_JOB: "it was made for {0.was}, and this job is {0.now}",
    h.REVISED: "{0.about} is another part now (version {0.now}, it was {0.was})",
    h.PART_GONE: "{0.about} is not in the job any more",
    h.PART_NEW: "{0.about} is new in the job",
    h.QUANTITY: "{0.was} of {0.about} were wanted, now {0.now}",
    h.STICK_GONE: "{0.about} is not on the rack any more",
    h.STICK_NEW: "{0.about} is new on the rack",
    h.OTHERWISE: "{0.about} was cut otherwise than its sheet says",
}


def difference(found: Difference) -> str:
    """One difference."""
    if found.id == h.RULE:
        was, now = (exact(Fraction(said)) if said else "not given" for said in (found.was, found.now))
        return f"the {_RULES[found.about]} was {was} and is {now}"
    if found.id == h.HELD:
        return f"metal is held for {found.about}, which was not planned with" if not found.was else (
            f"other parts of {found.about} are held" if found.now else f"it holds metal for {found.about}, which is not named now (--hold)"
        )
    if found.id == h.OTHERWISE and found.now:
        return f"{found.about} was cut for {found.now}"
    if found.id == h.STICK:
        return f"{found.about}: {', '.join(found.said)}"
    return _SAYS[found.id].format(found)


def differences(found: Sequence[Difference]) -> str:
    """What differs, one after the other."""
    said = [difference(one) for one in found[:MOST]]
    more = len(found) - len(said)
    return "; ".join([*said, *([f"and {more} more"] if more else [])])


def holds_no_more(hand: InHand, found: Sequence[Difference]) -> str:
    """That the plan in hand does not hold, and what to do."""
    return (
        f"Plan {hand.number}, which is in hand, was made of other things: {differences(found)}. Put that back, or plan anew with --anew: what is "
        "started stays as it is, and every stick that changes is named. Until then cuts can be marked from its sheets where they still agree."
    )


def not_from_the_sheet(hand: InHand, stick_id: str, found: Sequence[Difference]) -> str:
    """That a stick cannot be marked from its sheet as things stand, and what to do."""
    return (
        f"{stick_id} is not marked from plan {hand.number}: {differences(found)}. If it was cut as its sheet says, say so with --as-printed; if it was "
        f'cut otherwise, say what was cut, like --done "{stick_id}: 2 x A3"; if it is not cut yet, plan anew with --anew.'
    )


def another_number(hand: InHand, number: str, stick_id: str) -> str:
    """That the paper has another number than the plan that is kept."""
    return (
        f"The sheet of {stick_id} is of plan {number}, and the plan in hand is {hand.number}, in which {stick_id} is cut otherwise or not at all: take the "
        f'sheet of plan {hand.number}. If the stick is cut already, say what was cut, like --done "{stick_id}: 2 x A3".'
    )


def two_plans(hand: InHand, stick_id: str, number: str, file: str) -> str:
    """That a stick has a sheet in two plans that are in hand, of one job and of several together."""
    return (
        f"{stick_id} has a sheet in two plans: {hand.number}, and {number} ({file}), which is printed. Say which of them was followed: "
        f"--plan {hand.number} here; for the other name its jobs (--together where it is of several)."
    )


def change(found: Change) -> str:
    """What planning anew changes on one stick."""
    was, now = _given(found.was), _given(found.now)
    if found.was == found.now:
        return f"{found.stick_id}: {was} as before, but at other lines"
    return f"{found.stick_id}: {was} until now, now {now}"


def _given(parts: Sequence[tuple[str, int]]) -> str:
    return ", ".join(f"{number} x {name}" if number > 1 else name for name, number in parts) or "nothing"


def changes(found: Sequence[Change]) -> str:
    """How much planning anew changes against the sheets in hand."""
    if not found:
        return "No stick changes against the sheets in hand."
    return f"{counted(len(found), 'stick')} {'changes' if len(found) == 1 else 'change'} against the sheets in hand: lay those sheets away."
