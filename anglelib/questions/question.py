"""Questions: what is asked, the right answer, and the wrong answers that known mistakes give.

A question is made from a part by the library, so its answer is computed, never typed. Kinds: a free
length, a free number with another unit, a choice (of a leg, a face, an end, a hand, a word), and an
order of operations. Questions, choices and slips have ids, by which answers are graded, kept and counted;
their words are for a person, and can be improved without changing what is right.

>>> inside_corner = WrongAnswer("M12", Fraction(0), "0 is where the inside corner meets the end.")
>>> inside_corner.name
'inside line aimed at the inside corner'
>>> ask = LengthQuestion("vertex", "How far from the end?", Fraction(17, 80), wrong=[inside_corner])
>>> ask.answer_text  # no rule shows 0.2125
'about 7/32 (0.213)'
>>> LengthQuestion("vertex", "How far?", Fraction(1, 4), wrong=[WrongAnswer("slip", Fraction(1, 4), "Same.")]).wrong
()
>>> ChoiceQuestion("leg", "Which leg?", {"A": "leg A", "B": "leg B"}, "B").answer_text
'leg B'
>>> ChoiceQuestion("leg", "Which leg?", {"A": "leg A", "B": "leg B"}, "C")
Traceback (most recent call last):
    ...
ValueError: question 'leg': the right choice 'C' is not offered
"""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from anglelib.geometry.taper import Number
from anglelib.lengths import MM, about, both, decimal, printed, unit_written, writing
from anglelib.questions.as_typed import HAIR
from anglelib.questions.choice import Choice, is_id, offered, words_of
from anglelib.questions.slips import slip_name
from anglelib.questions.units import UNITS, Unit

TOLERANCE = Fraction(1, 64)
"""How near a length must come to count as right [in]: one graduation of a rule."""
MUCH, WIDE, HIGH = ("much", "little"), ("wide", "narrow"), ("high", "low")
"""Words for a number above the right one and below it, where it is no length of a part: an error or a trim, a width, a reading."""
TOLERANCES = {"in": TOLERANCE, "mm": MM / 2}
"""The same by the unit of the question [in]."""


@dataclass(frozen=True)
class WrongAnswer:
    """What a known slip makes of a question: its number, the id of its choice or the ids of its order, and the sentence that names it.

    ``slip`` is the slip's id (:mod:`anglelib.questions.slips`). The sentence says how the number comes about, never "you did".
    ``general``: any number may go wrong so (a sixteenth misread), so it is named only where none of the question's own slips gives
    the number. ``nothing``: the slip says that there is nothing at all, and 0 is its answer; any other slip whose number happens to
    be 0 names nobody.
    """

    slip: str
    answer: Number | str | tuple[str, ...]
    sentence: str
    general: bool = False
    nothing: bool = False

    def __post_init__(self) -> None:
        if not is_id(self.slip):
            raise ValueError(f"{self.slip!r} is no id of a slip")

    @property
    def name(self) -> str:
        """What the slip is called."""
        return slip_name(self.slip)


def check_question_id(text: str) -> None:
    """Fails where a question's id is none: answers are kept by it."""
    if not is_id(text):
        raise ValueError(f"{text!r} is no id of a question: one word, of letters, digits, points, dashes and underscores")


def told_apart(answer: Number, wrong: Iterable[WrongAnswer], tolerance: Fraction) -> tuple[WrongAnswer, ...]:
    """The mistakes whose number can be told from the right one; a mistake that costs nothing here is no mistake."""
    return tuple(w for w in wrong if abs(float(w.answer) - float(answer)) > float(tolerance))  # type: ignore[arg-type]


def named_by(wrong: Iterable[WrongAnswer]) -> tuple[WrongAnswer, ...]:
    """Those that a number can name, each once.

    A number of 0 is left out where it only happens to be 0, and a general mistake's where one of the question's own gives it.
    """
    found: list[WrongAnswer] = []
    for one in sorted(wrong, key=lambda w: w.general):  # the question's own first
        number = float(one.answer)  # type: ignore[arg-type]
        if abs(number) <= HAIR and not one.nothing:
            continue
        alike = [w for w in found if abs(float(w.answer) - number) <= HAIR]  # type: ignore[arg-type]
        if not any(one.general or w.slip == one.slip for w in alike):
            found.append(one)
    return tuple(found)


@dataclass(frozen=True)
class LengthQuestion:
    """A question whose answer is a length [in], graded to ``tolerance`` [in].

    It is shown to 1/``graduation``; a ``mark`` is struck at its nearest graduation, so that no "about" stands before it.
    ``prompt`` is plain text; ``hints`` are steps, each telling more; ``working`` is how the answer
    comes about. Wrong answers that lie within the tolerance of the right one are left out. ``unit`` is what a bare
    number means and its texts are in: the one that lengths are written in where it is made; ``thousandths``: a bare whole number
    is of thousandths of an inch. ``sides`` are the words for a number above the right one and below it ("too long").
    """

    id: str
    prompt: str
    answer: Number
    tolerance: Fraction = dataclasses.field(default_factory=lambda: TOLERANCES[unit_written()])
    wrong: tuple[WrongAnswer, ...] = ()
    hints: tuple[str, ...] = ()
    working: str = ""
    mark: bool = False
    graduation: int = 64
    unit: str = dataclasses.field(default_factory=unit_written)
    thousandths: bool = False
    sides: tuple[str, str] = ("long", "short")
    apart: tuple[WrongAnswer, ...] = dataclasses.field(default=(), init=False, repr=False, compare=False)
    """All wrong answers that are apart from the right one; ``wrong`` are those of them that a number can name."""

    def __post_init__(self) -> None:
        check_question_id(self.id)
        if self.tolerance <= 0:
            raise ValueError(f"question {self.id!r}: the tolerance must be above 0")
        object.__setattr__(self, "apart", told_apart(self.answer, self.wrong, self.tolerance))
        object.__setattr__(self, "wrong", named_by(self.apart))
        object.__setattr__(self, "hints", tuple(self.hints))

    @property
    def answer_text(self) -> str:
        """The right answer as a drawing writes it; "about" before a nearest fraction that is another number than the decimal."""
        with writing(self.unit):
            return self._answer_text()

    def _answer_text(self) -> str:
        if self.unit == "mm":
            return f"{about(self.answer)} ({decimal(self.answer)} in)"
        text, near = both(self.answer, self.graduation), printed(self.answer, self.graduation)
        # a mark is struck at its fraction: that is no approximation of it
        return text if self.mark or decimal(near.value) == decimal(self.answer) else f"about {text}"


@dataclass(frozen=True)
class ChoiceQuestion:
    """A question answered by choosing one of a few.

    ``choices`` are given as ids with their words, in their order; ``answer`` and the wrong answers are ids.
    """

    id: str
    prompt: str
    choices: tuple[Choice, ...]
    answer: str
    wrong: tuple[WrongAnswer, ...] = ()
    hints: tuple[str, ...] = ()
    working: str = ""

    def __post_init__(self) -> None:
        check_question_id(self.id)
        for field in ("wrong", "hints"):
            object.__setattr__(self, field, tuple(getattr(self, field)))
        object.__setattr__(self, "choices", offered(self.choices))
        if len(self.choices) < 2 or len(self.words) < len(self.choices) or len(set(words_of(self.choices))) < len(self.choices):
            raise ValueError(f"question {self.id!r}: offer two or more choices, all different")
        if self.answer not in self.words:
            raise ValueError(f"question {self.id!r}: the right choice {self.answer!r} is not offered")
        named = {w.answer for w in self.wrong}
        if self.answer in named or not named <= set(self.words):
            raise ValueError(f"question {self.id!r}: a wrong answer must be one of the other choices")

    @property
    def words(self) -> dict[str, str]:
        """What a person sees of each choice, by its id."""
        return {choice.id: choice.words for choice in self.choices}

    @property
    def answer_text(self) -> str:
        """The right choice."""
        return self.words[self.answer]


@dataclass(frozen=True)
class NumberQuestion:
    """A question whose answer is a number with a unit that is no length; see :mod:`anglelib.questions.units`.

    ``answer`` and ``tolerance`` are in ``unit``; ``places`` how many decimals the answer is shown with.

    >>> ask = NumberQuestion("angle", "How steep is it?", 30.963757, "deg", tolerance=Fraction(1, 4))
    >>> ask.answer_text
    '31.0 degrees'
    >>> NumberQuestion("angle", "How steep?", 31, "furlong", tolerance=Fraction(1))
    Traceback (most recent call last):
        ...
    ValueError: question 'angle': the unit 'furlong' is not one of deg, lb, oz, g, lb/ft, count, D, percent, hours, minutes, K
    """

    id: str
    prompt: str
    answer: Number
    unit: str
    tolerance: Fraction
    wrong: tuple[WrongAnswer, ...] = ()
    hints: tuple[str, ...] = ()
    working: str = ""
    places: int = 1
    apart: tuple[WrongAnswer, ...] = dataclasses.field(default=(), init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        check_question_id(self.id)
        if self.unit not in UNITS:
            raise ValueError(f"question {self.id!r}: the unit {self.unit!r} is not one of {', '.join(UNITS)}")
        if self.tolerance < 0 or (self.tolerance == 0 and self.unit != "count"):
            raise ValueError(f"question {self.id!r}: the tolerance must be above 0")
        object.__setattr__(self, "apart", told_apart(self.answer, self.wrong, self.tolerance))
        object.__setattr__(self, "wrong", named_by(self.apart))
        object.__setattr__(self, "hints", tuple(self.hints))

    @property
    def of(self) -> Unit:
        """The unit."""
        return UNITS[self.unit]

    @property
    def answer_text(self) -> str:
        """The right answer with its unit."""
        return self.of.show(self.answer, self.places)


@dataclass(frozen=True)
class Before:
    """A rule of an order: ``first`` comes before ``then``, by their ids; the sentence says why, ``slip`` is the id of what breaks it."""

    first: str
    then: str
    sentence: str
    slip: str = ""


@dataclass(frozen=True)
class OrderQuestion:
    """Operations to be put in order; every order that keeps all rules is right.

    ``items`` are the operations as they are offered, ids with their words. The first rule that an order breaks names it.

    >>> ask = OrderQuestion("order", "In which order?", {"length": "cut to length", "square-1": "square end 1"},
    ...     (Before("square-1", "length", "Without a datum there is no length."),))
    >>> ask.answer, ask.answer_text
    (('square-1', 'length'), 'square end 1; then cut to length')
    """

    id: str
    prompt: str
    items: tuple[Choice, ...]
    rules: tuple[Before, ...]
    hints: tuple[str, ...] = ()
    working: str = ""

    def __post_init__(self) -> None:
        check_question_id(self.id)
        for field in ("rules", "hints"):
            object.__setattr__(self, field, tuple(getattr(self, field)))
        object.__setattr__(self, "items", offered(self.items))
        if len(self.words) < max(2, len(self.items)):
            raise ValueError(f"question {self.id!r}: offer two or more operations, all different")
        for rule in self.rules:
            if rule.first not in self.words or rule.then not in self.words:
                raise ValueError(f"question {self.id!r}: the rule {rule.first!r} before {rule.then!r} is about what is not offered")
        if not self.broken(tuple(self.words)):
            raise ValueError(f"question {self.id!r}: the order that is offered must not be a right one")
        self.answer  # noqa: B018 - raises where the rules contradict each other

    @property
    def words(self) -> dict[str, str]:
        """What a person sees of each operation, by its id; in the order in which they are offered."""
        return {item.id: item.words for item in self.items}

    @property
    def answer(self) -> tuple[str, ...]:
        """A right order: the rules kept, else as offered."""
        left, found = list(self.words), []
        while left:
            free = next((item for item in left if not any(r.then == item and r.first in left for r in self.rules)), None)
            if free is None:
                raise ValueError(f"question {self.id!r}: no order keeps all rules")
            left.remove(free)
            found.append(free)
        return tuple(found)

    def broken(self, order: Sequence[str]) -> Before | None:
        """The first rule that an order breaks; None where it is right."""
        return next((rule for rule in self.rules if order.index(rule.first) > order.index(rule.then)), None)

    @property
    def wrong(self) -> tuple[WrongAnswer, ...]:
        """One wrong order for each rule that has a slip: the answer with its two operations the wrong way round."""
        found = []
        for rule in self.rules:
            order = list(self.answer)
            order.remove(rule.first)
            order.insert(order.index(rule.then) + 1, rule.first)
            if rule.slip and self.broken(order) == rule:
                found.append(WrongAnswer(rule.slip, tuple(order), rule.sentence))
        return tuple(found)

    @property
    def answer_text(self) -> str:
        """A right order in words."""
        return self.told(self.answer)

    def told(self, order: Iterable[str]) -> str:
        """An order in words."""
        return "; then ".join(self.words[id_] for id_ in order)


Question = LengthQuestion | NumberQuestion | ChoiceQuestion | OrderQuestion
