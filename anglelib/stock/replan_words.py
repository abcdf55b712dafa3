"""What changes when a plan is made again, in words; the changes are data in :mod:`anglelib.stock.replan`.

>>> from anglelib.stock.replan import Move
>>> print(move(Move("A3", "S-05", "S-06")), move(Move("A3", "", "S-06")), move(Move("A3", "S-05", "")), sep=" | ")
A3 from S-06 instead of S-05 | A3 comes from S-06 | A3 from S-05 can no longer be made
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from anglelib.lengths import exact
from anglelib.stock.wording import counted

if TYPE_CHECKING:
    from anglelib.stock.replan import Move, Replanned, Stays

NAMED = 6
"""How many changes are named in the sentence."""


def sentence(again: Replanned) -> str:
    """What comes from another stick, what is new, what is lost, and whether less change is ruled out."""
    moves = again.moves
    moved = [move for move in moves if move.was and move.now]
    said = []
    if moved:
        said.append(f"{counted(len(moved), 'blank')} from another stick than before: {_some(moved)}.")
    else:
        said.append("Every blank that can still be made stays on its stick.")
    if new := [move for move in moves if not move.was]:
        said.append(f"Besides, {_some(new)}.")
    if lost := [move for move in moves if not move.now]:
        said.append(f"What the old plan made: {_some(lost)}.")
    least = "No plan that makes as much and leaves as long remnants changes less; proven."
    said.append(least if again.proven else "Less change is not ruled out.")
    return " ".join([*said, *map(_stays, again.stays)])


def move(move: Move) -> str:
    """One change."""
    if not move.was:
        return f"{move.part_id} comes from {move.now}"
    if not move.now:
        return f"{move.part_id} from {move.was} can no longer be made"
    return f"{move.part_id} from {move.now} instead of {move.was}"


def _some(moves: Sequence[Move]) -> str:
    shown = [move(each) for each in moves[:NAMED]]
    return "; ".join(shown) + (f"; and {len(moves) - NAMED} more" if len(moves) > NAMED else "")


def _stays(stays: Stays) -> str:
    pieces = f"{exact(stays.then)} instead of {exact(stays.now)}"
    return f"The same parts can be made with no blank moved; of {stays.section.size} {pieces} would then be left in one piece."
