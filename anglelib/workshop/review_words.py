"""What comes back and why, in words: a line for each thing of :mod:`anglelib.workshop.review`.

>>> item = Item("07_taper_inside", "07-project", 1, "07-project", ("offset-as-thickness",), 0, 0)
>>> why_words(item)
'It comes back because the last answer to it was not right: offset taken to be the thickness.'
>>> why_words(Item("07_taper_inside", "07-project", 1, "07-project", ("offset-as-thickness",), 2, 0))
'It comes back 3 days after it was right. What went wrong before: offset taken to be the thickness.'
>>> why_words(Item("07_taper_inside", "07-project", 1, "predict-the-mark", (), 0, 0))
'It comes back because of an answer in the lesson that was not right.'
"""

from __future__ import annotations

from datetime import datetime, timedelta

from anglelib.questions.slips import slip_names
from anglelib.workshop.review import DAYS, NIGHT, Item, Reviewed

WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December")


def why_words(item: Item) -> str:
    """Why an exercise comes back."""
    slips = slip_names(item.slips) if item.slips else ""
    if item.step:
        before = f" What went wrong before: {slips}." if slips else ""
        return f"It comes back {_of_days(DAYS[item.step - 1])} after it was right.{before}"
    what = "the last answer to it was not right" if item.by == item.question else "of an answer in the lesson that was not right"
    return f"It comes back because {what}{f': {slips}' if slips else ''}."


def due_words(found: Reviewed, now: datetime) -> str:
    """How many are due; where none is, when the next comes back."""
    if found.due:
        many = len(found.due)
        return "One question is due." if many == 1 else f"{many} questions are due."
    if not found.later:
        return "Nothing is due. An exercise that goes wrong comes back here until it has been right often enough."
    return f"Nothing is due. The next question comes back {_on(found.later[0].days, now)}."


def _of_days(days: int) -> str:
    return "1 day" if days == 1 else f"{days} days"


def _on(days: int, now: datetime) -> str:
    """On which day that is."""
    if days == 1:
        return "tomorrow"
    day = (now - NIGHT).date() + timedelta(days=days)
    return f"on {WEEKDAYS[day.weekday()]}, {day.day} {MONTHS[day.month - 1]}"
