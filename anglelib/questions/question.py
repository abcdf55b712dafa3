"""Questions: what is asked, the right answer, and the wrong answers that known mistakes give.

A question is made from a part by the library, so its answer is computed, never typed. Kinds: a free
length, and a choice (of a leg, a face, an end, a hand, a word).

>>> inside_corner = WrongAnswer("inside corner", Fraction(0), "0 is where the inside corner meets the end.")
>>> ask = LengthQuestion("vertex", "How far from the end?", Fraction(17, 80), wrong=[inside_corner])
>>> ask.answer_text
'7/32 (0.213)'
>>> LengthQuestion("vertex", "How far?", Fraction(1, 4), wrong=[WrongAnswer("slip", Fraction(1, 4), "Same.")]).wrong
()
>>> ChoiceQuestion("leg", "Which leg?", ("leg A", "leg B"), "leg C")
Traceback (most recent call last):
    ...
ValueError: question 'leg': the right choice 'leg C' is not offered
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from anglelib.geometry.taper import Number
from anglelib.lengths import both

TOLERANCE = Fraction(1, 64)
"""How near a length must come to count as right [in]: one graduation of a rule."""


@dataclass(frozen=True)
class WrongAnswer:
    """What a known mistake makes of a question: its number or choice, and the sentence that names it.

    ``mistake`` is the mistake's name. The sentence says how the number comes about, never "you did".
    """

    mistake: str
    answer: Number | str
    sentence: str


def told_apart(answer: Number, wrong: Iterable[WrongAnswer], tolerance: Fraction) -> tuple[WrongAnswer, ...]:
    """The mistakes whose number can be told from the right one; a mistake that costs nothing here is no mistake."""
    return tuple(w for w in wrong if abs(float(w.answer) - float(answer)) > float(tolerance))  # type: ignore[arg-type]


@dataclass(frozen=True)
class LengthQuestion:
    """A question whose answer is a length [in], graded to ``tolerance`` [in].

    ``rounding`` is how the answer is shown to 1/64: a mark goes "down", which leaves metal on the part.
    ``prompt`` is plain text; ``hints`` are steps, each telling more; ``working`` is how the answer
    comes about. Wrong answers that lie within the tolerance of the right one are left out.
    """

    id: str
    prompt: str
    answer: Number
    tolerance: Fraction = TOLERANCE
    wrong: tuple[WrongAnswer, ...] = ()
    hints: tuple[str, ...] = ()
    working: str = ""
    rounding: str = "nearest"

    def __post_init__(self) -> None:
        if self.tolerance <= 0:
            raise ValueError(f"question {self.id!r}: the tolerance must be above 0")
        object.__setattr__(self, "wrong", told_apart(self.answer, self.wrong, self.tolerance))
        object.__setattr__(self, "hints", tuple(self.hints))

    @property
    def answer_text(self) -> str:
        """The right answer as a drawing writes it."""
        return both(self.answer, 64, self.rounding)


@dataclass(frozen=True)
class ChoiceQuestion:
    """A question answered by choosing one of a few words."""

    id: str
    prompt: str
    choices: tuple[str, ...]
    answer: str
    wrong: tuple[WrongAnswer, ...] = ()
    hints: tuple[str, ...] = ()
    working: str = ""

    def __post_init__(self) -> None:
        for field in ("choices", "wrong", "hints"):
            object.__setattr__(self, field, tuple(getattr(self, field)))
        if len(set(self.choices)) < 2 or len(set(self.choices)) < len(self.choices):
            raise ValueError(f"question {self.id!r}: offer two or more choices, all different")
        if self.answer not in self.choices:
            raise ValueError(f"question {self.id!r}: the right choice {self.answer!r} is not offered")
        named = {w.answer for w in self.wrong}
        if self.answer in named or not named <= set(self.choices):
            raise ValueError(f"question {self.id!r}: a wrong answer must be one of the other choices")

    @property
    def answer_text(self) -> str:
        """The right choice."""
        return self.answer


Question = LengthQuestion | ChoiceQuestion
