"""A date in a cell where a length was typed: a spreadsheet takes 3/4 for the third or fourth of some month.

It may come back as a date in any country's form, or as the spreadsheet's own number of a day. Which
fraction was typed is told where only one of the two ways round is a fraction of a rule.

>>> date_said("3. Apr")
'"3. Apr" is a spreadsheet\\'s date, made of a fraction that was typed (3/4 perhaps): format the column as text, then write 3/4 in.'
>>> date_said("45355"), typed_fraction("45355"), date_said("17 1/4"), date_said("3 inches")
('"45355" is a spreadsheet\\'s date, made of a fraction that was typed (3/4 perhaps): format the column as text, then write 3/4 in.', '3/4', '', '')
"""

from __future__ import annotations

import datetime
import re
import unicodedata

_MONTHS = (  # how months begin in the languages of spreadsheets with our letters, accents taken off
    ("jan", "ene", "gen"), ("feb", "fev"), ("mar", "mrz", "maa", "mae"), ("apr", "avr", "abr"), ("may", "mai", "mag", "mei", "maj"), ("jun", "juin", "giu"),
    ("jul", "juil", "lug"), ("aug", "aou", "ago"), ("sep", "set"), ("oct", "okt", "out", "ott"), ("nov",), ("dec", "dez", "dic"),
)  # fmt: skip
_MONTH = r"[^\W\d_]{3,10}"
_TIME = r"(?:[ T]\d{1,2}:\d{2}(?::\d{2})?)?"
_WORDED = (
    re.compile(rf"(?P<day>\d{{1,2}})(?:\.? |[-./])(?P<month>{_MONTH})\.?(?:[-./, ]+(?P<year>\d{{2,4}}))?{_TIME}"),
    re.compile(rf"(?P<month>{_MONTH})\.?(?: |[-./])(?P<day>\d{{1,4}})(?:[-./, ]+(?P<year>\d{{2,4}}))?{_TIME}"),
)
_FIGURES = re.compile(rf"(?=.*\d\d)(\d{{1,4}})([-/.])(\d{{1,2}})\2(\d{{1,4}}){_TIME}")  # a year has two figures at least
_DAY_NUMBER = re.compile(r"\d{5}(?:[.,]0+)?")
_FIRST, _LAST = 36526, 73050
"""Days since 1899-12-30, as spreadsheets count them: from 2000 to 2099."""

_GRADUATIONS = (2, 4, 8, 16, 32, 64)


def typed_fraction(text: str) -> str | None:
    """The fraction that a date was made of, "" where it is not certain; None for what is no date."""
    plain = "".join(sign for sign in unicodedata.normalize("NFD", text.strip().lower()) if not unicodedata.combining(sign))
    for pattern in _WORDED:
        if (found := pattern.fullmatch(plain)) is not None and (month := _month(found["month"])):
            # Mar-64 and Mrz 16: a day that the month does not have is taken for a year, which may come back in full
            return _fraction(int(found["day"]) % 100, month)
    if (found := _FIGURES.fullmatch(plain)) is not None:
        numbers = [int(found[1]), int(found[3]), int(found[4])]
        day_and_month = numbers[1:] if numbers[0] > 31 else numbers[:2]
        return _fraction(*day_and_month)
    if _DAY_NUMBER.fullmatch(plain) and _FIRST <= int(plain[:5]) <= _LAST:
        day = datetime.date(1899, 12, 30) + datetime.timedelta(int(plain[:5]))
        return _fraction(day.day, day.month)
    return None


def date_said(text: str, cells: bool = True) -> str:
    """What is said of a cell that holds a date where a length is wanted; "" where it holds none. Without ``cells`` it is no table."""
    fraction = typed_fraction(text)
    if fraction is None:
        return ""
    perhaps = f" ({fraction} perhaps)" if fraction else ""
    example = f"{fraction or '3/4'} in"
    remedy = f"format the column as text, then write {example}." if cells else f'write the length again with its unit, "{example}".'
    return f'"{text.strip()[:40]}" is a spreadsheet\'s date, made of a fraction that was typed{perhaps}: {remedy}'


def _month(word: str) -> int:
    return next((number for number, begins in enumerate(_MONTHS, 1) if word.startswith(begins)), 0)


def _fraction(one: int, other: int) -> str:
    """The one way round that is a fraction of a rule."""
    ways = [(a, b) for a, b in ((one, other), (other, one)) if 0 < a < b and b in _GRADUATIONS]
    return f"{ways[0][0]}/{ways[0][1]}" if len(ways) == 1 else ""
