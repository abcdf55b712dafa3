"""One answer as it was given, by ids: nothing of it is a sentence.

>>> Answer("07-project", 0, "1/8", "mistake", ("offset-as-thickness",)).slips
('offset-as-thickness',)
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Answer:
    """The question's id, which of its fresh numbers, what was given, its grade, and the slips behind it.

    ``typed`` is the text of a number as it was typed, the id of a choice, or the ids of an order; ``slips``
    are ids (:mod:`anglelib.questions.slips`).
    """

    question: str
    variant: int
    typed: str | tuple[str, ...]
    status: str
    slips: tuple[str, ...] = ()
