"""The sheets of a shop pack: what there is to choose from, in the order in which the bench needs it.

>>> chosen("tags, plan")
('plan', 'tags')
>>> chosen("plan, stickers")
Traceback (most recent call last):
    ...
anglelib.errors.BenchError: There are no sheets called "stickers": choose from cover, safety, receiving, plan, tags, cards, templates, checks, record.
"""

from __future__ import annotations

from dataclasses import dataclass

from anglelib.errors import BenchError
from anglelib.names import visible
from anglelib.near import did_you_mean
from anglelib.paper.page import Page

SHEETS = {
    "cover": "the cover with the contents",
    "safety": "what to mind at each step",
    "receiving": "to count and accept the sticks by",
    "plan": "the sticks, their cuts in order, what remains",
    "tags": "to cut out, for blanks and remnants",
    "cards": "one for each part",
    "templates": "fold sheets at 1:1, outside and inside",
    "checks": "finished outlines at 1:1, to lay the part on",
    "record": "for the builder's own file",
}
"""The sheets by name, in the order of the bench, with what they are."""


@dataclass(frozen=True)
class Chapter:
    """Pages that belong together, and their line in the contents."""

    what: str
    pages: tuple[Page, ...]

    @property
    def count(self) -> int:
        """How many pages it has."""
        return len(self.pages)


def chosen(words: str) -> tuple[str, ...]:
    """The sheets that somebody names, in the order of the bench; "" or "all" names every one."""
    named = [word for word in words.replace(",", " ").lower().split() if word]
    if not named or named == ["all"]:
        return tuple(SHEETS)
    strange = [word for word in named if word not in SHEETS]
    if strange:
        remedy = did_you_mean(strange[0], SHEETS) or f"choose from {', '.join(SHEETS)}."
        raise BenchError(f'There are no sheets called "{visible(strange[0])[:20]}": {remedy}')
    return tuple(name for name in SHEETS if name in named)
