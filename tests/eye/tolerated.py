"""What the eye finds and may stand, as data, each with its reason; a line that nothing needs any more is a failure of the slow tests."""

from __future__ import annotations

import re
from dataclasses import dataclass

from judges import Fault


@dataclass(frozen=True)
class Tolerated:
    """Faults that may stand: their kind, patterns of where, of the word and of what it has to do with, up to how much, and why."""

    kind: str
    where: str
    word: str
    other: str
    why: str
    most: float = float("inf")

    def takes(self, where: str, fault: Fault) -> bool:
        """Whether a fault is one of these."""
        return (
            fault.kind == self.kind
            and fault.much <= self.most
            and all(re.search(pattern, text) for pattern, text in ((self.where, where), (self.word, fault.word), (self.other, fault.other)))
        )


TOLERATED = (
    Tolerated("together", r"^notation: ", r"^\w$", r"^\w$", "a letter with its index, which stands lower and belongs to it"),
    Tolerated("cut", r"printer that shrinks", "", "^edge$", "drawn larger by as much as the printer makes it smaller: on the paper it is where the others are", 2.5),
    Tolerated("touched", r"", r"^(high|slowly)$", "", "a row of a table with letters of full height: at 600 dots to the inch there is white over and under them", 0.1),
    Tolerated("outside", r"printer that shrinks", "", "", "the same"),
)
"""A new line needs a reason that a reader of the page would take."""


def not_tolerated(where: str, found: list[Fault]) -> list[Fault]:
    """The faults that have no reason to stand."""
    return [fault for fault in found if not any(one.takes(where, fault) for one in TOLERATED)]
