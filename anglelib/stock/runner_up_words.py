"""The runner-up in words: what it gives and takes, in one sentence, and what is proven of it.

>>> from fractions import Fraction as F
>>> print(trade(Trade((("S-03", F(96), True),), (), (("S-07", F(20), F(21)),), (), 0, True)))
it opens S-03 (96) and keeps 1 more of S-07 (21 instead of 20)
>>> print(trade(Trade((("S-05", F(60), False),), (("S-07", F(54), False),), (), (("S-01", F(20), F(12)),), -1, True)))
it cuts into S-05 (60) and leaves S-07 (54) whole; of S-01 it keeps 8 less (12 instead of 20), and it takes 1 saw cut fewer
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from anglelib.lengths import exact
from anglelib.stock.plan import Trade
from anglelib.stock.wording import and_, counted

PROVEN = "Proven: of the plans that leave something longer, or a stick whole that is cut by the rule, none is better by the rule."
OPEN = "That there is none better is not proven."
NONE = "No plan leaves anything longer, or a stick whole that is cut by the rule: proven."
GIVEN_UP = "It was not looked for: the time given is over."
HOW = "To cut by one of them say --pick and its number."
NOT_FOUND = "None was found; that there is none is not proven."


def trade(found: Trade) -> str:
    """What it trades, to stand in a sentence."""
    gains, costs = [], []
    new = [one for one in found.cuts_into if one[2]]
    old = [one for one in found.cuts_into if not one[2]]
    if new:
        gains.append(f"opens {_sticks(new)}")
    if old:
        gains.append(f"cuts into {_sticks(old)}")
    if found.leaves:
        gains.append(f"leaves {_sticks(found.leaves)} whole")
    if found.more:
        gains.append(f"keeps {and_([f'{exact(then - was)} more of {name} ({exact(then)} instead of {exact(was)})' for name, was, then in found.more])}")
    if found.less:
        costs += [f"of {name} it keeps {exact(was - then)} less ({exact(then)} instead of {exact(was)})" for name, was, then in found.less]
    if found.cuts:
        costs.append(f"it takes {counted(abs(found.cuts), 'saw cut')} {'more' if found.cuts > 0 else 'fewer'}")
    words = f"it {and_(gains)}" if gains else "it cuts the same sticks"
    return f"{words}; {', and '.join(costs)}" if costs else words


def picked(found: Trade) -> str:
    """That it was picked."""
    return f"The runner-up is picked here: against the plan by the rule {trade(found)}."


def on_sheets(number: str, picked: Sequence[int], of: int) -> str:
    """The number of a plan as it stands on every sheet.

    >>> on_sheets("K7M2PX", (), 2), on_sheets("K7M2PX", (1,), 1), on_sheets("K7M2PX", (2,), 3)
    ('K7M2PX', 'K7M2PX (runner-up)', 'K7M2PX (runner-up in section 2)')
    """
    if not picked:
        return number
    if of == 1:
        return f"{number} (runner-up)"
    return f"{number} (runner-up in section{'' if len(picked) == 1 else 's'} {and_([str(n) for n in picked])})"


def offered(found: Trade) -> str:
    """That it may be picked, and what is proven."""
    words = trade(found)
    return f"{words[0].upper()}{words[1:]}. {PROVEN if found.proven else OPEN}"


def _sticks(sticks: Sequence[tuple[str, Fraction, bool]]) -> str:
    return and_([f"{name} ({exact(length)})" for name, length, _ in sticks])
