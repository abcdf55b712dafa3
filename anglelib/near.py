"""What somebody meant who typed a name that there is not: the same but for capitals, dashes or a leading 0, or one a letter away.

>>> near("a1l", ["A1L", "A1R", "A2L"]), near("S-5", ["S-05", "S-15"]), near("AlL", ["A1L", "A2L"])
(('A1L',), ('S-05',), ('A1L',))
>>> near("A9L", ["A1L", "A2L"]), near("lenght", ["width", "length"])
((), ('length',))
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable

MOST = 3
"""How many names are offered."""

_CLOSE, _CLOSE_SHORT, _SHORT = 0.75, 0.66, 3
"""How much of two names must be alike: a letter in four may be another, of a short name one in three."""
_MOST_CHARACTERS = 60
_LOOK_ALIKE = str.maketrans({"o": "0", "i": "1", "l": "1"})
"""Letters that are read as figures on a tag."""


def near(word: str, known: Iterable[str], most: int = MOST, close: float | None = None) -> tuple[str, ...]:
    """The known names that were meant, at most so many: those that differ least; none where another number is named.

    ``close`` is the share that must be alike, where it is another than usual.
    """
    close = close or (_CLOSE_SHORT if len(word) <= _SHORT else _CLOSE)
    word, names = word[:_MOST_CHARACTERS], tuple(known)
    for alike in (str.lower, _squashed, lambda text: _squashed(text).translate(_LOOK_ALIKE)):
        if same := [name for name in names if alike(name) == alike(word)]:
            return tuple(same[:most])
    same_numbers = {name.lower(): name for name in names if _numbers(name) == _numbers(word)}
    return tuple(same_numbers[found] for found in difflib.get_close_matches(word.lower(), same_numbers, n=most, cutoff=close))


def did_you_mean(word: str, known: Iterable[str], mark: str = "") -> str:
    """The question that offers what was meant, each between ``mark``; "" where nothing is near.

    >>> did_you_mean("A1l", ["A1L", "A1R"]), did_you_mean("tapper", ["taper", "tapers"], '"'), did_you_mean("x", ["y"])
    ('did you mean A1L?', 'did you mean "taper" or "tapers"?', '')
    """
    offered = [f"{mark}{name}{mark}" for name in near(word, known)]
    if not offered:
        return ""
    *others, last = offered
    return f"did you mean {', '.join(others)}{' or ' if others else ''}{last}?"


def _squashed(text: str) -> str:
    return re.sub(r"0*(\d+)", r"\1", re.sub(r"[\W_]+", "", text.lower()))


def _numbers(text: str) -> list[int]:
    return [int(number) for number in re.findall(r"[0-9]+", text)]
