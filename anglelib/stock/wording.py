"""Small pieces of wording that sentences about the stock share.

>>> and_(["A1"]), and_(["A1", "A2", "A3"])
('A1', 'A1, A2 and A3')
>>> and_more(["S-1", "S-2"]), and_more([f"S-{n}" for n in range(1, 30)], 3)
('S-1, S-2', 'S-1, S-2, S-3 and 26 more')
>>> counted(0, "cut"), counted(1, "cut"), counted(2, "cut")
('no cuts', '1 cut', '2 cuts')
>>> runs(["143", "143", "143", "99", "95"])
'3 x 143, 99, 95'
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

MOST = 12
"""How many names of a list are said."""


def and_(names: Sequence[str]) -> str:
    """Names in a row, "and" before the last."""
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def and_more(names: Sequence[str], most: int = MOST) -> str:
    """The first names of a list, and how many more there are."""
    more = len(names) - most
    return ", ".join(names) if more <= 1 else f"{', '.join(names[:most])} and {more} more"


def counted(n: int, noun: str) -> str:
    """So many of a thing."""
    return f"{n or 'no'} {noun}{'' if n == 1 else 's'}"


def runs(lengths: Sequence[str]) -> str:
    """Lengths in words, with equal ones counted."""
    grouped = [(text, len(list(same))) for text, same in groupby(lengths)]
    return ", ".join(text if n == 1 else f"{n} x {text}" for text, n in grouped)
