"""What a lesson was about, in a few sentences with their numbers, and what to carry from it to the bench; it waits for the page's questions.

>>> learned_in("07_taper_inside").lines[0]
'Where the line comes out on the other leg goes by the thickness of that other leg: for the bracket of this page 7/32 (0.213) from the end.'
"""

from __future__ import annotations

from collections.abc import Iterable

from anglelib.after import fold
from anglelib.lessons.words import listed, paragraph
from anglelib.workshop.own_questions import OWN

SUMMARY = "All questions of this page answered? What you have learned"


class Learned:
    """The sentences, and what to carry; ``after`` are the questions for which they wait."""

    def __init__(self, lines: Iterable[str], carry: str, after: Iterable[str] = ()) -> None:
        self.lines, self.carry, self.after = tuple(lines), carry, tuple(after)

    def _repr_html_(self) -> str:
        return fold(self.after, listed(self.lines) + paragraph(f"To the bench: {self.carry}"), SUMMARY)

    def __repr__(self) -> str:
        return "\n".join([*self.lines, f"To the bench: {self.carry}"])


def learned_in(lesson: str) -> Learned:
    """What a lesson was about, by its id; it waits for the questions of its page, but not for the exercises."""
    from anglelib.lessons.learned_words import LEARNED  # its numbers need the parts and formulas of every lesson

    lines, carry = LEARNED[lesson]()
    return Learned(lines, carry, OWN[lesson].page)
