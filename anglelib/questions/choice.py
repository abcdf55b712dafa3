"""What can be chosen, or put in order: an id, which is kept and compared, and the words that a person sees.

>>> offered({"heel": "the heel", "toe": "the toe"})[0].words
'the heel'
>>> [choice.id for choice in offered(["left", "right"])]  # one word is its own id
['left', 'right']
>>> number_id(Fraction(39, 64)), number_id(Fraction(72))
('39-64', '72')
>>> offered(["the heel"])
Traceback (most recent call last):
    ...
ValueError: 'the heel' is no id: letters, digits, points, dashes and underscores only; give an id and its words
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

_ID = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]*", re.ASCII)


def is_id(text: object) -> bool:
    """Whether a text can be an id: one word, without a space."""
    return isinstance(text, str) and _ID.fullmatch(text) is not None


@dataclass(frozen=True)
class Choice:
    """One of what is offered."""

    id: str
    words: str

    def __post_init__(self) -> None:
        if not is_id(self.id):
            raise ValueError(f"{self.id!r} is no id: letters, digits, points, dashes and underscores only; give an id and its words")


def offered(choices: Mapping[str, str] | Iterable[Choice | str]) -> tuple[Choice, ...]:
    """What is offered, from ids with their words, in their order; a single word is its own id."""
    if isinstance(choices, Mapping):
        return tuple(Choice(id_, words) for id_, words in choices.items())
    return tuple(choice if isinstance(choice, Choice) else Choice(choice, choice) for choice in choices)


def words_of(choices: Iterable[Choice]) -> tuple[str, ...]:
    """What a person sees of them."""
    return tuple(choice.words for choice in choices)


def number_id(value: Fraction) -> str:
    """The id of a choice that is a number: 39-64 for 39/64."""
    return str(value).replace("/", "-")
