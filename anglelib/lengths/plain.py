"""What was typed as a length, in plain characters: the marks of a word processor, a phone or another country made plain."""

from __future__ import annotations

import re
import unicodedata

from anglelib.errors import LengthError

MOST_CHARACTERS = 40
_VULGAR = {
    "½": "1/2", "⅓": "1/3", "⅔": "2/3", "¼": "1/4", "¾": "3/4", "⅕": "1/5", "⅖": "2/5", "⅗": "3/5",
    "⅘": "4/5", "⅙": "1/6", "⅚": "5/6", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "⅐": "1/7",
    "⅑": "1/9", "⅒": "1/10",
}  # fmt: skip
# What a word processor or a phone makes of the plain marks.
_PLAIN = str.maketrans(
    {
        "″": '"', "”": '"', "“": '"', "„": '"', "˝": '"', "＂": '"',
        "′": "'", "’": "'", "‘": "'", "ʹ": "'", "´": "'", "`": "'",
        "⁄": "/", "∕": "/", "−": "-", "–": "-", "—": "-", "‐": "-", "‑": "-", "‒": "-",
    }
)  # fmt: skip
_SIGNS = "".join(_VULGAR)
# A sign takes the place of a fraction: a space parts it from what stands before, but for the dash of 1-⅝.
_SIGN = re.compile(rf"(?<![-–—−‐‑‒])([{_SIGNS}])")
_SIGN_THEN_MORE = re.compile(rf"([{_SIGNS}])\s*[0-9{_SIGNS}]")
_BREAK = re.compile("[\n\r\v\f\x1c\x1d\x1e\x85\u2028\u2029]")


def quoted(text: str) -> str:
    """The text as it was typed, shortened, with anything unprintable made visible.

    >>> quoted("1" * 50)
    '"1111111111111111111111111111111111111111..."'
    """
    shown = "".join(c if c.isprintable() else " " if c == "\t" or unicodedata.category(c) == "Zs" else "?" for c in text[:MOST_CHARACTERS])
    return f'"{shown}{"..." if len(text) > MOST_CHARACTERS else ""}"'


def plain(text: str, what: str) -> str:
    """The text in small letters, plain marks and single spaces; refused where its characters already leave a doubt.

    >>> plain(" 5’ 3⅛″ ", "run")
    '5\\' 3 1/8"'
    >>> plain("½5", "run")
    Traceback (most recent call last):
        ...
    anglelib.errors.LengthError: The run "½5" goes on behind the sign ½: write the whole number first and the fraction last, like 5½.
    """
    if len(text) > MOST_CHARACTERS:
        raise LengthError(f"The {what} {quoted(text)} is {len(text)} characters long: write it in at most {MOST_CHARACTERS}.")
    said, text = f"The {what} {quoted(text)}", text.strip()
    if not text:
        raise LengthError(f"The {what} is empty: write a length, for example 1 5/8 or 41.3 mm.")
    if _BREAK.search(text):
        raise LengthError(f"{said} has a line break in it: write one length, on one line.")
    if any(unicodedata.category(c) in ("Cc", "Cf") and c != "\t" for c in text):
        raise LengthError(f"{said} has a character in it that cannot be seen: type it again, without copying.")
    if any(c.isdigit() and c not in "0123456789" for c in text):
        raise LengthError(f"{said} is not a length: write it with the digits 0 to 9.")
    if found := _SIGN_THEN_MORE.search(text):
        raise LengthError(
            f"{said} goes on behind the sign {found[1]}: write the whole number first and the fraction last, like 5{found[1]}."
        )
    text = _SIGN.sub(r" \1", text)
    for sign, fraction in _VULGAR.items():
        text = text.replace(sign, fraction)
    return " ".join(text.translate(_PLAIN).lower().split())
