"""Doubts about what was typed as a length: what it may have meant, as texts that can be read, and the sentence that says so.

Each doubt is looked for in plain characters (:func:`~anglelib.lengths.plain.plain`), and knows what to write instead. Nothing
is guessed: where two lengths may be meant, both are named.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from anglelib.lengths.numbers import fraction_text
from anglelib.lengths.written import BARE, FULL

Reads = Callable[[str], object]
"""Whether a text can be read here as a length, and if so its form; else None."""

_COMMAS = re.compile(r"[0-9.]*,[0-9.,]*")
_THOUSANDS = r"[1-9][0-9]{0,2}"
_QUOTE = re.compile(rf"(?:[+-] ?)?(?P<first>{_THOUSANDS})(?P<groups>(?:'[0-9]{{3}})+|' [0-9]{{3}})(?P<rest>(?![0-9]| ?/).*)")
_STRAY = re.compile(r"(?:[+-] ?)?([0-9]+) ?'(\.[0-9]+).*")
_SPACE = re.compile(rf"(?P<sign>[+-]? ?)(?P<first>{_THOUSANDS})(?P<groups>(?: [0-9]{{3}})+)(?P<rest>(?![0-9/]).*)")
_DASHES = re.compile(r"(?<=[0-9'.a-z\"])(?: ?-){2,} ?(?=[.0-9])")
_MINUS = re.compile(r"(?<=[0-9'.a-z\"]) -(?=[.0-9])")
_TWICE = re.compile(r"(?P<first>[^()]+?) ?\((?P<second>[^()]+)\)(?P<behind>[^()]*)")
_MARK = re.compile(rf"(?P<number>.*?)\.? ?\b(?P<word>{FULL}|{BARE})\b.*")


def before_reading(plain: str, reads: Reads) -> str:
    """What is doubtful about a text although it could be read: the end of a sentence, or "".

    >>> print(before_reading("1'000", bool))
    has ' inside a number: write 1000, or 1' 0" for feet and inches.
    """
    if found := _STRAY.fullmatch(plain):
        whole, decimals = found.groups()
        return f"has a point right behind the foot mark: write {whole}{decimals}, or {whole}' 0{decimals}\" for feet and inches."
    found = _QUOTE.fullmatch(plain)
    if found is None:
        return ""
    number, feet = found["first"] + re.sub("[^0-9]", "", found["groups"]) + found["rest"], f"{found['first']}' 0\" for feet and inches"
    return f"has ' inside a number: write {f'{number}, or ' if reads(number) is not None else ''}{feet}."


def after_reading(plain: str, reads: Reads) -> str:
    """What may have been meant by a text that has no form of a length: the end of a sentence, or "" where nobody can say.

    >>> from anglelib.lengths.form import form_of
    >>> def reads(text): return form_of(text, "It")
    >>> after_reading("41,3 mm", reads)
    'has a comma: write the decimal with a point, 41.3 mm.'
    >>> after_reading("1,250 mm", reads)
    'may be 1.250 mm or 1250 mm: write the one that is meant, without a comma.'
    >>> after_reading("30 -1/4", reads)
    'has a minus sign inside: write 30 1/4, or 29 3/4 where 1/4 is to be taken off.'
    """
    for doubt in (_comma, _dashes, _minus, _space, _mark, _twice, _full_stop):
        if sentence := doubt(plain, reads):
            return sentence
    return ""


def _comma(plain: str, reads: Reads) -> str:
    found = _COMMAS.search(plain)
    if found is None:
        return ""
    token, point, whole = found[0], "", ""
    if re.fullmatch(r"[0-9]*,[0-9]+", token):
        point = token.replace(",", ".")
    elif re.fullmatch(rf"{_THOUSANDS}(?:\.[0-9]{{3}})+,[0-9]+", token):
        point = token.replace(".", "").replace(",", ".")
    if re.fullmatch(rf"{_THOUSANDS}(?:,[0-9]{{3}})+(?:\.[0-9]*)?", token):
        whole = token.replace(",", "")
    meant = [plain.replace(token, number, 1) for number in (point, whole) if number]
    meant = [text for text in meant if reads(text) is not None]
    if len(meant) == 2:
        return f"may be {meant[0]} or {meant[1]}: write the one that is meant, without a comma."
    if not meant:
        return "has a comma: write one length, with a point for its decimals, like 1.625."
    if "." in token:
        return f"has a comma and a point: write {meant[0]}."
    return f"has a comma: write the decimal with a point, {meant[0]}." if point else f"has a comma: leave it out, {meant[0]}."


def _dashes(plain: str, reads: Reads) -> str:
    text = _DASHES.sub(" ", plain)
    return f"has two dashes: write {text}." if text != plain and reads(text) is not None else ""


def _minus(plain: str, reads: Reads) -> str:
    text = _MINUS.sub(" ", plain)
    form = reads(text) if text != plain else None
    if form is None:
        return ""
    whole, _, fraction = plain.rpartition(" -")
    simple = re.fullmatch(r"([0-9]+)/([0-9]+)", fraction)
    if not whole.isdigit() or simple is None:
        return f"has a minus sign inside: write {text}, or the length that is left after taking off."
    number = form.number  # type: ignore[attr-defined]
    return f"has a minus sign inside: write {text}, or {fraction_text(2 * int(whole) - number)} where {fraction} is to be taken off."


def _space(plain: str, reads: Reads) -> str:
    found = _SPACE.fullmatch(plain)
    if found is None:
        return ""
    text = f"{found['sign']}{found['first']}{found['groups'].replace(' ', '')}{found['rest']}"
    return f"has a space inside a number: write {text}." if reads(text) is not None else ""


def _mark(plain: str, reads: Reads) -> str:
    found = _MARK.fullmatch(plain)
    if found is None or reads(found["number"]) is None:
        return ""
    return f'is a mark, and "{found["word"]}" is no number: write {found["number"]}, or the decimal that is meant.'


def _twice(plain: str, reads: Reads) -> str:
    found = _TWICE.fullmatch(plain)
    if found is None or any(reads(found[name]) is None for name in ("first", "second")):
        return ""
    return f"says a length twice: write one, {found['first']}{found['behind']} or {found['second']}."


def _full_stop(plain: str, reads: Reads) -> str:
    text = plain.rstrip(". ")
    return f"ends in a full stop: write {text}." if text != plain and reads(text) is not None else ""
