"""Names and notes: what may stand in an id, and what may stand in text that is printed.

An id becomes a file name, so it is short and plain; names and notes are any text that a printer
can show. Neither is ever read as anything but text.
"""

from __future__ import annotations

import re
import unicodedata

from anglelib.errors import BenchError

_ID = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]{0,31}", re.ASCII)
_DEVICES = {"CON", "PRN", "AUX", "NUL"} | {f"{port}{n}" for port in ("COM", "LPT") for n in range(1, 10)}
MOST_NAME_CHARACTERS = 60
MOST_NOTE_CHARACTERS = 400


def check_id(text: object, what: str, error: type[BenchError] = BenchError) -> str:
    """The id itself, if it can also be a file name on every machine.

    >>> check_id("A1L", "part id")
    'A1L'
    >>> check_id("../x", "part id")
    Traceback (most recent call last):
        ...
    anglelib.errors.BenchError: The part id "../x" cannot be used: write 1 to 32 letters, digits, points, dashes or underscores, starting with a letter or digit.
    """
    shown = visible(str(text))[:40]
    if not isinstance(text, str) or not _ID.fullmatch(text):
        raise error(
            f'The {what} "{shown}" cannot be used: write 1 to 32 letters, digits, points, dashes or underscores, '
            "starting with a letter or digit."
        )
    if text.split(".")[0].upper() in _DEVICES or text.endswith("."):
        raise error(f'The {what} "{shown}" cannot name a file on every computer: choose another.')
    return text


def check_text(text: object, what: str, error: type[BenchError] = BenchError, most: int = MOST_NOTE_CHARACTERS) -> str:
    """The text itself, if it is short enough and holds nothing invisible.

    >>> check_text("Floor cleat, left", "name")
    'Floor cleat, left'
    >>> check_text("Cleat\\u202e", "name")
    Traceback (most recent call last):
        ...
    anglelib.errors.BenchError: The name "Cleat?" holds a character that cannot be printed: type it again by hand.
    """
    if not isinstance(text, str):
        raise error(f"The {what} is not text: write it in quotes.")
    if len(text) > most:
        raise error(f"The {what} is {len(text)} characters long: shorten it to {most}.")
    if visible(text) != text:
        raise error(
            f'The {what} "{visible(text)[:40]}" holds a character that cannot be printed: type it again by hand.'
        )
    return text


def visible(text: str) -> str:
    """The text with control, direction and other invisible characters shown as "?"."""
    return "".join("?" if unicodedata.category(c) in ("Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp") else c for c in text)
