"""One answer as it was given, by ids: nothing of it is a sentence.

>>> Answer("07-project", 0, "1/8", "mistake", ("offset-as-thickness",)).slips
('offset-as-thickness',)
"""

from __future__ import annotations

from dataclasses import dataclass, field

ANSWERED = frozenset({"right", "wrong", "mistake", "unit"})
"""The grades of what was understood as an answer; what could not be read is none."""
PUT_BACK = "put-back"
"""Not a grade: from here on the question waits for an answer once more. What was answered before stays in the file."""


@dataclass(frozen=True)
class Answer:
    """The question's id, which of its fresh numbers, what was given, its grade, and the slips behind it.

    ``typed`` is the text of a number as it was typed, the id of a choice, or the ids of an order; ``slips``
    are ids (:mod:`anglelib.questions.slips`). ``at`` is when, as :mod:`anglelib.questions.moments` writes it; "" where nobody
    knows, as in files of earlier. Two answers at two times are the same answer.
    """

    question: str
    variant: int
    typed: str | tuple[str, ...]
    status: str
    slips: tuple[str, ...] = ()
    at: str = field(default="", compare=False, repr=False)
