"""Answers of the first format, told by ids: it kept what a choice, an operation or a slip was called.

The words are those of the day that format was left, written down in :mod:`anglelib.questions.format_1_words`;
what the course says now is never asked. Words that come of numbers are known by their pattern.

>>> from_format_1("07_taper_inside", "07 project", 0, "1/8", "mistake", "offset taken to be the thickness")
(Answer(question='07-project', variant=0, typed='1/8', status='mistake', slips=('offset-as-thickness',)), True)
>>> from_format_1("01_identify_stock", "behind the shank", 0, "larger than 3/16", "mistake", "light read the wrong way")[0].typed
'larger'
>>> from_format_1("08_order_of_work", "trim link, order", 0, "Square end 2 | Cut to length", "unreadable", "")[0].typed
('square-2', 'length')
>>> from_format_1("07_taper_inside", "no such question", 0, "a word", "right", "")
(Answer(question='no such question', variant=0, typed='a word', status='right', slips=()), False)
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction

from anglelib.questions.answer import Answer
from anglelib.questions.choice import is_id, number_id
from anglelib.questions.format_1_words import CHOICES, OF_OWN_PARTS, OPERATIONS, ORDERS, QUESTION_IDS, SLIPS

SEPARATOR, OR = " | ", " or "
UNKNOWN = "unknown"
"""Stands for a slip that was never so called."""
MOST = 200
"""No words of the course were longer."""
_OWN = re.compile(r"own ([0-9a-f]{8}) (.+)")


def from_format_1(lesson: str, question: str, variant: int, typed: str, status: str, mistake: str) -> tuple[Answer, bool]:
    """The answer by ids, and whether all of it could be told; what could not is left as it was."""
    id_ = _question(question[:MOST])
    given = typed if id_ is None else _given(lesson, id_, typed)
    slips = _slips(mistake) if len(mistake) <= 10 * MOST else None
    whole = None not in (id_, given, slips)
    return Answer(id_ or question, variant, typed if given is None else given, status, (UNKNOWN,) if slips is None else slips), whole


def _question(text: str) -> str | None:
    """The id of a question: those of one's own part had a digest of the part in their name."""
    own = _OWN.fullmatch(text)
    if own and own[2] in OF_OWN_PARTS:
        return f"own-{own[1]}-{OF_OWN_PARTS[own[2]]}"
    return QUESTION_IDS.get(text)


def _given(lesson: str, question: str, typed: str) -> str | tuple[str, ...] | None:
    """What was given, by ids; a number as it was typed; None for a choice or an operation that was never so called."""
    if question in ORDERS:
        order = tuple(_id(OPERATIONS, words) for words in typed.split(SEPARATOR))
        return None if None in order else order  # type: ignore[return-value]
    words = CHOICES.get(f"{lesson[:2]}/{question}") or CHOICES.get(question)
    return typed if words is None else _id(words, typed)


def _id(known: Mapping[str, str], words: str) -> str | None:
    """The id of some words; a key between two slashes is a pattern, and numbers in its id are written as ids are."""
    if words in known:
        return known[words]
    for key, id_ in known.items():
        if len(words) <= MOST and key.startswith("/") and (found := re.fullmatch(key[1:-1], words)):
            return _told(found.expand(id_))
    return None


def _told(text: str) -> str | None:
    """An id with the numbers in it written as ids are; None where there is no such number."""
    try:
        id_ = _NUMBER.sub(lambda number: number_id(_sum(number[0])), text) if " " in text or "/" in text else text
    except (ValueError, ZeroDivisionError):
        return None
    return id_ if is_id(id_) else None


_NUMBER = re.compile(r"\d+/\d+|\d+(?: \d+/\d+)?")


def _sum(text: str) -> Fraction:
    return sum((Fraction(word) for word in text.split()), Fraction(0))


def _slips(text: str) -> tuple[str, ...] | None:
    """The slips that a text names, joined by "or", which some names have in themselves; None where one is not known."""
    if not text:
        return ()
    if text in SLIPS:
        return (SLIPS[text],)
    for found in re.finditer(OR, text[:MOST]):
        first, rest = text[: found.start()], text[found.end() :]
        if first in SLIPS and (others := _slips(rest)):
            return (SLIPS[first], *others)
    return None
