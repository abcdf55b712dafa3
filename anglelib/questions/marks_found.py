"""Marks found against marks wanted: which slip leads from one row to the other.

>>> case = fresh_found("a seed")
>>> len(case.wanted) == len(case.found), name_the_slip(case).answer in MISTAKES
(True, True)
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from anglelib.inspection.mistakes import MISTAKES
from anglelib.lengths import exact
from anglelib.questions.fresh import Numbers
from anglelib.questions.named import named
from anglelib.questions.question import ChoiceQuestion, WrongAnswer


@dataclass(frozen=True)
class Found:
    """Marks wanted and marks found on a bar so long [in], and the mistake that led from one to the other."""

    length: Fraction
    wanted: tuple[Fraction, ...]
    found: tuple[Fraction, ...]
    mistake: str


_SIGNS = {
    "M07": "that would put every mark off by a whole inch, alike",
    "M16": "that would put every mark off by the same small amount",
    "M17": "then each mark would lie as far from end 2 as it should from end 1",
    "M18": "then the error would grow from mark to mark",
}


def name_the_slip(case: Found, id: str = "name-the-slip") -> ChoiceQuestion:
    """Which slip makes of the wanted marks those that were found."""
    wanted, found = (", ".join(exact(x) for x in row) for row in (case.wanted, case.found))
    return ChoiceQuestion(
        id,
        f"A bar {exact(case.length)} long. Marks wanted from end 1: {wanted}. Measured on the metal: {found}. Which slip fits best?",
        named(*_SIGNS),
        case.mistake,
        wrong=tuple(WrongAnswer(id_, id_, f"Not that: {sign}.") for id_, sign in _SIGNS.items() if id_ != case.mistake),
        hints=("Take each wanted figure from the one found: is the difference the same everywhere?",),
        working=f"Differences: {', '.join(signed(f - w) for w, f in zip(case.wanted, case.found))}. {MISTAKES[case.mistake].sentence} {MISTAKES[case.mistake].remedy}",
    )


def signed(value: Fraction) -> str:
    """A difference with its sign."""
    return "0" if not value else f"{'+' if value > 0 else '-'}{exact(abs(value))}"


def fresh_found(seed: str) -> Found:
    """A row of marks and what one slip made of it."""
    numbers = Numbers(seed)
    count, pitch = numbers.pick((4, 5)), numbers.length(Fraction(5, 4), Fraction(2), Fraction(1, 16))
    first = numbers.length(Fraction(9, 8), Fraction(7, 4), Fraction(1, 16))
    wanted = tuple(first + i * pitch for i in range(count))
    length = wanted[-1] + numbers.length(Fraction(5, 2), Fraction(4), Fraction(1, 8))
    mistake = numbers.pick(tuple(_SIGNS))
    off = numbers.pick((Fraction(1, 64), Fraction(1, 32)))
    found = {
        "M07": tuple(x - 1 for x in wanted),
        "M16": tuple(x - 2 * off for x in wanted),
        "M17": tuple(length - x for x in wanted),
        "M18": tuple(x + (i + 1) * off for i, x in enumerate(wanted)),
    }[mistake]
    return Found(length, wanted, found, mistake)
