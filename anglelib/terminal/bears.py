"""What the plan in hand bears for what is still to be cut, on the terminal: nothing is planned for it."""

from __future__ import annotations

from anglelib.job import Job
from anglelib.lines import wrapped
from anglelib.stock.in_hand import InHand
from anglelib.stock.record import Record

BEARS = "Which part may not be spoiled?"
BUDGET = 0.5
"""Counted work for a plan that is followed, about half a second: what is not settled by then is said to be open."""


def still_bears(hand: InHand, job: Job, record: Record, seconds: float | None = None) -> list[str]:
    """Which part may not be spoiled of what is still to be cut, what blade and tape its sheets bear; nothing where they do not hold or all is cut."""
    from anglelib.stock.rest_of_plan import rest_of
    from anglelib.stock.robust import robustness

    rest = rest_of(hand, job, record)
    if rest is None:
        return []
    return wrapped(robustness(rest.job, rest.rack, rest.plan, budget=BUDGET, seconds=seconds).sentence, "  ")
