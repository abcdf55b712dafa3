"""How far a learner is, in words: a line for each thing of :mod:`anglelib.workshop.so_far`.

>>> standing_words(Standing("07_taper_inside", 3, 10)), standing_words(Standing("07_taper_inside", 10, 10))
('3 of 10 answered', 'done: all 10 answered')
>>> again_words([Again("07_taper_inside", "07-project", ("offset-as-thickness",)), Again("07_taper_inside", "07-in-the-fillet", ())])
'offset taken to be the thickness; one more answer that was not right'
>>> unread_words(("07_taper_inside.json",))
'07_taper_inside.json in the folder answers cannot be read as answers and is not counted: move it out of the folder, or delete it. Nothing else is lost.'
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from anglelib.questions.slips import slip_names
from anglelib.workshop.so_far import BEGUN, DONE, NOT_BEGUN, Again, Standing

STATES = {NOT_BEGUN: "not begun", BEGUN: "{answered} of {asked} answered", DONE: "done: all {asked} answered"}


def standing_words(standing: Standing) -> str:
    """How far a lesson is."""
    return STATES[standing.state].format(answered=standing.answered, asked=standing.asked)


def count_words(standing: Standing) -> str:
    """The same as a bare count.

    >>> count_words(Standing("07_taper_inside", 0, 10))
    '0 of 10 answered'
    """
    return STATES[BEGUN].format(answered=standing.answered, asked=standing.asked)


def again_words(of: Iterable[Again]) -> str:
    """What went wrong in the exercises of one lesson: each slip once, and how many answers have none that is known."""
    of = list(of)
    slips = list(dict.fromkeys(slip_names(one.slips) for one in of if one.slips))
    others = sum(not one.slips for one in of)
    if others:
        many = "one" if others == 1 else str(others)
        slips.append(f"{many}{' more' if slips else ''} answer{'' if others == 1 else 's'} that {'was' if others == 1 else 'were'} not right")
    return "; ".join(slips)


def unread_words(names: Sequence[str]) -> str:
    """Which files are not counted, and what to do; "" where all can be read."""
    if not names:
        return ""
    one = len(names) == 1
    listed = names[0] if one else f"{', '.join(names[:-1])} and {names[-1]}"
    verbs = ("is", "it", "it") if one else ("are", "them", "them")
    return (
        f"{listed} in the folder answers cannot be read as answers and {verbs[0]} not counted: move {verbs[1]} out of the folder, "
        f"or delete {verbs[2]}. Nothing else is lost."
    )
