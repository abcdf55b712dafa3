"""The runner-up in words: what it gives and takes, in one sentence, and what is proven of it.

>>> from fractions import Fraction as F
>>> print(trade(Trade((("S-03", F(96), F(68), True),), (), (("S-07", F(20), F(21)),), (), 0, True)))
it opens S-03 (96, of which 68 is left) and keeps 1 more of S-07 (21 instead of 20)
>>> print(trade(Trade((("S-05", F(60), F(0), False),), (("S-07", F(54), F(3), False),), (), (("S-01", F(20), F(12)),), -1, True)))
it cuts into S-05 (60), leaves S-07 (54) whole and takes 1 saw cut fewer, but keeps 8 less of S-01 (12 instead of 20)
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
    does, but = [], []
    for word, sticks in (("opens", [one for one in found.cuts_into if one[3]]), ("cuts into", [one for one in found.cuts_into if not one[3]])):
        if sticks:
            does.append(f"{word} {and_([_stick(*one) for one in sticks])}")
    if found.leaves:
        does.append(f"leaves {and_([f'{name} ({exact(length)})' for name, length, _, _ in found.leaves])} whole")
    if found.more:
        does.append(f"keeps {and_([_kept(then - was, 'more', name, then, was) for name, was, then in found.more])}")
    if found.less:
        but.append(f"{'' if found.more else 'keeps '}{and_([_kept(was - then, 'less', name, then, was) for name, was, then in found.less])}")
    if found.cuts:
        (but if found.cuts > 0 else does).append(f"takes {counted(abs(found.cuts), 'saw cut')} {'more' if found.cuts > 0 else 'fewer'}")
    return f"it {and_(does) if does else 'cuts the same sticks'}{f', but {and_(but)}' if but else ''}"


def _kept(by: Fraction, word: str, name: str, then: Fraction, was: Fraction) -> str:
    return f"{exact(by)} {word} of {name} ({exact(then)} instead of {exact(was)})"


def _stick(name: str, length: Fraction, left: Fraction, new: bool) -> str:
    rest = f", of which {exact(left)} is left" if left else ""
    return f"{name} ({exact(length)}{rest})"


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

