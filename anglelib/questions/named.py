"""Wrong answers from the table of mistakes: the number a mistake gives where it is asked for, with its sentence.

>>> from fractions import Fraction
>>> asked = Asked(Fraction(69, 16), blank_of=Fraction(17, 4), allowance=Fraction(1, 32), kerf=Fraction(1, 16))
>>> [(wrong.slip, str(wrong.answer)) for wrong in by_mistakes(asked, "M04")]
[('M04', '17/4'), ('M04', '137/32')]
>>> by_mistakes(asked, "M99")
Traceback (most recent call last):
    ...
ValueError: M99 is not in the table of mistakes
"""

from __future__ import annotations

from anglelib.inspection.mistakes import MISTAKES
from anglelib.inspection.numbers import Asked, wrong_numbers
from anglelib.questions.question import WrongAnswer

__all__ = ["Asked", "by_mistakes", "name_of", "named"]

GENERAL = ("M08", "M27")
"""What may happen to any number: a fraction misread, a unit exchanged."""


def by_mistakes(asked: Asked, *ids: str) -> tuple[WrongAnswer, ...]:
    """The wrong answers that the named mistakes give to a question (all that it allows, where none is named)."""
    for id_ in ids:
        name_of(id_)
    return tuple(WrongAnswer(wrong.id, wrong.value, wrong.sentence, general=wrong.id in GENERAL) for wrong in wrong_numbers(asked) if not ids or wrong.id in ids)


def name_of(id_: str) -> str:
    """A mistake's name."""
    if id_ not in MISTAKES:
        raise ValueError(f"{id_} is not in the table of mistakes")
    return MISTAKES[id_].name


def named(*ids: str) -> dict[str, str]:
    """Several mistakes as choices: their ids with their names.

    >>> named("M01", "M16")
    {'M01': 'cut on the keep side of the line', 'M16': 'datum lost'}
    """
    return {id_: name_of(id_) for id_ in ids}
