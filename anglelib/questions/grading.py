"""Grading: what a typed answer was understood as, and what it says about the way it was found.

Nothing that a learner types raises: every answer gets a grade with a sentence.

>>> from anglelib.questions.question import WrongAnswer
>>> ask = LengthQuestion("run", "What is the run?", Fraction(13, 8), wrong=[WrongAnswer("M19", Fraction(2), "Along the slope.")])
>>> grade(ask, "1-5/8").status, grade(ask, " 41.275 mm").status, grade(ask, "").sentence
('right', 'right', 'Not answered yet.')
>>> grade(ask, "2").slips
('M19',)
>>> grade(ask, "41.275").sentence
'Understood as 41.275 inches (about 41 9/32). That is the right number in millimetres: write mm behind it.'
>>> grade(ask, "1,625").sentence
'The answer "1,625" has a comma: write the decimal with a point, 1.625.'
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from anglelib.errors import AnswerError, LengthError
from anglelib.lengths import MM, MOST_CHARACTERS, about, decimal, exact, named_unit, printed, spoken, unit_written, writing
from anglelib.questions.as_typed import Typed as AsTyped
from anglelib.questions.as_typed import close, level, of_unit, read_as
from anglelib.questions.choice import words_of
from anglelib.questions.question import ChoiceQuestion, LengthQuestion, NumberQuestion, OrderQuestion, Question, WrongAnswer
from anglelib.questions.slips import WRONG_UNIT

_ANGLE = re.compile(r"[0-9./ ]+(?:°|º|deg\b|degs?\b|degrees?\b).*", re.IGNORECASE)
_METRIC = ("mm", "cm", "m")
INCH_FOR_MM = "M27"
GRADUATION = 1 / 128 + 1e-9
"""Two numbers that a rule of sixty-fourths may show as one are no further apart than this from what it shows [in]."""
STATUSES = ("blank", "unreadable", "unit", "right", "mistake", "wrong")


@dataclass(frozen=True)
class Grade:
    """The outcome for one answer.

    ``status``: "blank" (nothing typed), "unreadable", "unit" (right number, wrong unit), "right",
    "mistake" (a known slip gives this answer) or "wrong". ``slips`` are the ids of the slips behind it:
    several where one number cannot part them. ``understood`` echoes how the answer was read; ``sentence``
    is all that a learner is told, in plain text.
    """

    status: str
    sentence: str
    understood: str = ""
    value: Fraction | None = None
    slips: tuple[str, ...] = ()

    @property
    def right(self) -> bool:
        """Whether the answer counts."""
        return self.status == "right"


BLANK = Grade("blank", "Not answered yet.")
_Judged = tuple[str, str, tuple[str, ...]]
"""Status, sentence, slips."""


Typed = str | Sequence[str] | None
"""An answer as it is given: what was typed, the id of a choice, the ids of an order; None: nothing."""


def grade(question: Question, typed: Typed) -> Grade:
    """The grade of what was typed, chosen or put in order."""
    if isinstance(question, ChoiceQuestion):
        return _grade_choice(question, typed)
    if isinstance(question, OrderQuestion):
        return _grade_order(question, typed)
    if isinstance(question, NumberQuestion):
        return _grade_number(question, typed)
    with writing(question.unit):
        return _grade_length(question, typed)


def understood(value: Fraction, typed: str, thousandths: bool = False) -> str:
    """How a typed length was read: the shop fraction, the decimal, and millimetres or thousandths where they were typed.

    >>> understood(Fraction(13, 8), "13/8"), understood(30 * MM, "30 mm")
    ('1 5/8 (1.625) inches', '30 mm, which is 1.181 inches (about 1 3/16)')
    """
    if unit_written() == "mm":
        return f"{about(value)} ({decimal(value)} in)"
    if thousandths:
        return f"{float(value * 1000):g} thousandths, {decimal(value, 3 if value * 1000 % 1 == 0 else 4)} inches"
    shown = printed(value)
    if shown.lost:
        inches = f"{decimal(value)} inches (about {shown.text})"
    else:
        inches = f"{shown.text} ({decimal(value)}) inches"
    if named_unit(typed) not in _METRIC:
        return inches
    mm = exact(value) if exact(value).endswith("mm") else f"{decimal(value / MM)} mm"
    return f"{mm}, which is {inches}"


def can_be_given(question: Question, typed: object) -> bool:
    """Whether what a file keeps can stand in the entry of a question: a choice or an order that it offers, or any text.

    >>> from anglelib.questions.question import ChoiceQuestion
    >>> ask = ChoiceQuestion("leg", "Which leg?", ("A", "B"), "A")
    >>> can_be_given(ask, "B"), can_be_given(ask, "C"), can_be_given(ask, ("A", "B"))
    (True, False, False)
    """
    if isinstance(question, ChoiceQuestion):
        return isinstance(typed, str) and typed in question.words
    if isinstance(question, OrderQuestion):
        return isinstance(typed, tuple) and sorted(typed) == sorted(question.words)
    return isinstance(typed, str)


# --- a free length --------------------------------------------------------------------------------
def _grade_length(question: LengthQuestion, typed: Typed) -> Grade:
    text = "" if typed is None else str(typed)
    if not text.strip():
        return BLANK
    if len(text) <= MOST_CHARACTERS and _ANGLE.fullmatch(text.strip()):
        return Grade("unreadable", "That is an angle. A length is asked for: write it like 1 5/8, 1.625 or 41.3 mm.")
    try:
        read = read_as(text, question.unit, thousandths=question.thousandths)
    except LengthError as error:
        return Grade("unreadable", str(error))
    echo = understood(read.value, text, read.thousandths)
    status, sentence, slips = _judge(question, read, text)
    return Grade(status, f"Understood as {echo}. {sentence}", echo, read.value, slips)


def _near(value: Fraction, target: float, tolerance: Fraction) -> bool:
    # A hair of slack: the answer may be a float, and a mark one graduation off must still count.
    return abs(float(value) - target) <= float(tolerance) + 1e-9


def _judge(question: LengthQuestion, read: AsTyped, typed: str) -> _Judged:
    value, answer, tolerance = read.value, float(question.answer), question.tolerance
    if _near(value, answer, tolerance):
        return "right", _how_right(question, value), ()
    if found := _slips_behind(question, read):
        return found
    if not read.thousandths and (remedy := _wrong_unit(question, value, typed)):
        return "unit", remedy, (INCH_FOR_MM,)
    if value < 0:
        return "wrong", "A length on the metal is not below 0.", ()
    word = question.sides[value < answer]
    if not _near(value, answer, 2 * tolerance):
        return "wrong", f"That is too {word}.", ()
    wanted = "a mark is wanted" if question.mark else "it is wanted"
    return "wrong", f"Close, but a little too {word}: {wanted} to {about(tolerance)}.", ()


def _how_right(question: LengthQuestion, value: Fraction) -> str:
    if abs(float(value) - float(question.answer)) < 0.0005:
        return "Right."
    return f"Right, to {spoken(question.tolerance)}: it is {question.answer_text}."


def _slips_behind(question: LengthQuestion | NumberQuestion, read: AsTyped) -> _Judged | None:
    """What is said of a number that slips give, with their ids; None where none does."""
    found = _meant(question, read)
    if not found:
        return None
    return "mistake", " Or: ".join(dict.fromkeys(w.sentence for w in found)), tuple(dict.fromkeys(w.slip for w in found))


def _meant(question: LengthQuestion | NumberQuestion, read: AsTyped) -> tuple[WrongAnswer, ...]:
    """The wrong answers whose number was typed, rounded as it was typed (:mod:`anglelib.questions.as_typed`): all that it cannot tell apart.

    The tolerance of the answer makes nothing a slip. It only bars a rounding that is coarser than the question asks for: then the
    number may still be that slip's, or another's, and nobody is named. The question's own slips go before those that any number may have.
    """
    near: dict[int, list[tuple[WrongAnswer, bool]]] = {}
    for wrong in question.wrong:
        number, most = float(wrong.answer), float(question.tolerance)  # type: ignore[arg-type]
        if isinstance(question, NumberQuestion) and question.answer:  # its tolerance is a share of the number that is asked for
            most *= max(1.0, abs(number / float(question.answer)))
        at, off = level(read, number), abs(float(read.value) - number)
        if at is not None and off <= max(most, GRADUATION):
            near.setdefault(max(at, 1), []).append((wrong, close(read, number, most)))
    for at in (1, 2):
        for general in (False, True) if at == 1 else (False,):
            alike = [(wrong, sure) for wrong, sure in near.get(at, ()) if wrong.general is general]
            found = tuple(wrong for wrong, sure in alike if sure)
            if found:
                return found if {wrong.slip for wrong, _ in alike} == {wrong.slip for wrong in found} else ()
    return ()


def _wrong_unit(question: LengthQuestion, value: Fraction, typed: str) -> str:
    answer, tolerance = float(question.answer), question.tolerance
    if question.unit == "mm":
        inches = named_unit(typed) == "in"
        if not inches and _near(value / MM, answer, tolerance):
            return "That is the right number in inches: write in behind it."
        return "That is the right number in millimetres: leave out the inches." if inches and _near(value * MM, answer, tolerance) else ""
    if named_unit(typed) not in _METRIC and _near(value * MM, answer, tolerance) and value > 1:
        return "That is the right number in millimetres: write mm behind it."
    if named_unit(typed) in _METRIC and _near(value / MM, answer, tolerance):
        return "That is the right number in inches: leave out the mm."
    return ""


# --- a number with another unit ---------------------------------------------------------------------
def _grade_number(question: NumberQuestion, typed: Typed) -> Grade:
    text = "" if typed is None else str(typed)
    if not text.strip():
        return BLANK
    try:
        value = question.of.read(text)
    except AnswerError as error:
        return Grade("unreadable", str(error))
    # what was typed decides how many decimals are echoed
    echo = question.of.show(value, max(question.places, 3) if value.denominator > 1 else 0)
    status, sentence, slips = _judge_number(question, AsTyped(value, of_unit(text, question.of.worth(text))), text)
    return Grade(status, f"Understood as {echo}. {sentence}", echo, value, slips)


def _judge_number(question: NumberQuestion, read: AsTyped, typed: str) -> _Judged:
    value, answer, tolerance = read.value, float(question.answer), question.tolerance
    if _near(value, answer, tolerance):
        exactly = abs(float(value) - answer) < 0.5 * 10.0 ** -(question.places + 1)
        return "right", "Right." if exactly else f"Right: it is {question.answer_text}.", ()
    if found := _slips_behind(question, read):
        return found
    if typed.strip()[-1:].isdigit():
        for word, factor in question.of.sisters.items():
            if factor != 1 and _near(value * factor, answer, tolerance):
                return "unit", f"That is the right number with another unit: write {word} behind it.", (WRONG_UNIT,)
    if question.unit == "deg" and _near(90 - value, answer, tolerance):
        return "wrong", "That is the angle from square. Angles here are from the heel: 90 minus it.", ()
    return "wrong", f"That is too {'large' if value > answer else 'small'}.", ()


# --- an order ---------------------------------------------------------------------------------------
def _grade_order(question: OrderQuestion, typed: Typed) -> Grade:
    if not typed or isinstance(typed, str) and not typed.strip():
        return BLANK
    order, words = tuple(typed), question.words
    if isinstance(typed, str) or len(order) != len(words) or set(order) != set(words):
        return Grade("unreadable", "Put each of the operations into the order once.")
    broken, told = question.broken(order), question.told(order)
    if broken is None:
        return Grade("right", "Right.", told)
    status, slips = ("mistake", (broken.slip,)) if broken.slip else ("wrong", ())
    return Grade(status, f"Not yet: {words[broken.first]} comes before {words[broken.then]}. {broken.sentence}", told, slips=slips)


# --- a choice ---------------------------------------------------------------------------------------
def _grade_choice(question: ChoiceQuestion, typed: Typed) -> Grade:
    if typed is None or not str(typed).strip():
        return BLANK
    chosen = str(typed).strip()
    if chosen not in question.words:
        return Grade("unreadable", f"Choose one of: {', '.join(words_of(question.choices))}.")
    words = question.words[chosen]
    if chosen == question.answer:
        return Grade("right", "Right.", words)
    for wrong in question.wrong:
        if wrong.answer == chosen:
            return Grade("mistake", wrong.sentence, words, slips=(wrong.slip,))
    return Grade("wrong", f"Not {words}.", words)
