"""Questions about a rule: marks to be set on it, its 1-inch start, a decimal in print, millimetres.

>>> print(set_mark(fresh_place("a seed"), "set").prompt)
A bar 5 long. A hole is wanted 2 19/64 from end 1. The rule's end lies on end 1. Set the mark.
>>> length_from_one(Fraction(27, 8)).answer_text
'2 3/8 (2.375)'
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from anglelib.geometry.chain import from_one
from anglelib.inspection.numbers import misreadings
from anglelib.lengths import MM, both, exact, show
from anglelib.questions.fresh import Numbers
from anglelib.questions.named import Asked, by_mistakes
from anglelib.questions.question import MUCH, LengthQuestion, WrongAnswer

ONE_INCH, MISREAD, WRONG_END, UNIT = "M07", "M08", "M17", "M27"
HALF = Fraction(1, 128)
MISPRINT = Fraction(125, 10000)
"""The decimal that a handbook page prints for 1/8."""


@dataclass(frozen=True)
class Place:
    """A mark ``x`` from end 1 of a bar so long [in]."""

    length: Fraction
    x: Fraction


def length_from_one(reading: Fraction, id: str = "length-from-the-1-inch-start") -> LengthQuestion:
    """How far a mark is from end 1 when the rule begins at its 1-inch mark."""
    return LengthQuestion(
        id,
        f"The end of the rule is worn, so its 1-inch mark lies on end 1. The mark stands where the rule shows {exact(reading)}. How far from end 1 is it?",
        reading - 1,
        tolerance=HALF,
        wrong=by_mistakes(Asked(reading - 1, measured=True), "M07", "M08"),
        hints=("What does the rule show at end 1 itself?",),
        working=f"{exact(reading)} less the 1 that it began with: {both(reading - 1)}.",
    )


def set_mark(place: Place, id: str = "set-the-mark") -> LengthQuestion:
    """A mark to be set where the rule begins at its own end."""
    x = place.x
    return LengthQuestion(
        id,
        f"A bar {exact(place.length)} long. A hole is wanted {exact(x)} from end 1. The rule's end lies on end 1. Set the mark.",
        x,
        tolerance=HALF,
        wrong=by_mistakes(Asked(x, place_on=place.length), "M07", "M08", "M17", "M27"),
        hints=(
            "First the whole inches, then the largest fraction that fits, then what is left.",
            f"{exact(x)} is {_halved(x)}.",
        ),
        working=f"{exact(x)} is {_halved(x)}.",
    )


def _halved(x: Fraction) -> str:
    """A length as whole inches and halved fractions, the way the eye goes along a rule.

    >>> _halved(Fraction(139, 64))
    '2, and 1/8, and 1/32, and 1/64'
    """
    whole, rest = divmod(x, 1)
    words, step = [str(whole)] if whole else [], Fraction(1, 2)
    while rest:
        if step <= rest:
            words.append(exact(step))
            rest -= step
        step /= 2
    return ", and ".join(words)


def set_from_one(place: Place, id: str = "set-the-mark-from-the-1-inch-start") -> LengthQuestion:
    """A mark to be set where the rule's 1-inch mark lies on end 1: the answer is what the rule shows."""
    x, shows = place.x, from_one(place.x)
    wrong = [
        WrongAnswer(ONE_INCH, x, f"The rule shows {exact(x)} there, but it began at 1: the mark is an inch too near to end 1."),
        WrongAnswer(ONE_INCH, shows + 1, "That counts the inch twice."),
        *(WrongAnswer(MISREAD, 1 + value, why, general=True) for value, why in misreadings(x)),
    ]
    return LengthQuestion(
        id,
        f"The rule's 1-inch mark lies on end 1. A hole is wanted {exact(x)} from end 1. Set the mark; the entry says what the rule shows there.",
        shows,
        tolerance=HALF,
        wrong=tuple(wrong),
        hints=("What does the rule show at end 1?", f"It shows 1 at end 1, so {exact(x)} further it shows more by 1."),
        working=f"{exact(x)} and the inch it begins with: the rule shows {exact(shows)}.",
    )


def by_misprint(id: str = "a-mark-set-by-the-misprint") -> LengthQuestion:
    """How far off a mark is that is set by the printed decimal for 1/8."""
    right = Fraction(1, 8) - MISPRINT
    return LengthQuestion(
        id,
        "A handbook page prints “1/8 = 0.0125”. Somebody sets a caliper to 0.0125 to mark 1/8. By how much is the mark off?",
        right,
        tolerance=Fraction(1, 256),
        wrong=(
            WrongAnswer("misprint-trusted", Fraction(0), "The print is wrong. 1 divided by 8 is 0.125: the nought behind the point is one too many.", nothing=True),
            WrongAnswer("misprint-as-error", MISPRINT, "That is where the mark comes to lie, not how far off it is."),
            WrongAnswer("place-as-error", Fraction(1, 8), "That is where it should lie."),
        ),
        hints=("Divide 1 by 8.",),
        working=f"1/8 is 0.125, and 0.125 less 0.0125 is {float(right):.4f}. Check a decimal by dividing; a page can err.",
        sides=MUCH,
    )


def in_millimetres(mm: Fraction, id: str = "millimetres-on-an-inch-rule") -> LengthQuestion:
    """A dimension in millimetres, to be marked with an inch rule."""
    right = mm * MM
    return LengthQuestion(
        id,
        f"A drawing from abroad puts a hole {exact_number(mm)} mm from end 1. You have an inch rule. Where is the mark, in inches to 1/64?",
        right,
        wrong=(
            WrongAnswer(UNIT, mm / 16, "That takes a sixteenth for a millimetre. They are not alike: 1/16 in. is 1.59 mm."),
            *by_mistakes(Asked(right), "M27"),
            WrongAnswer("divided-by-25", mm / 25, "25 is rough: an inch is 25.4 mm exactly."),
        ),
        hints=("An inch is 25.4 mm exactly.", f"{exact_number(mm)} divided by 25.4 is {float(right):.3f}."),
        working=f"{exact_number(mm)} divided by 25.4 is {float(right):.3f}, on the rule {show(right)}.",
    )


def exact_number(value: Fraction) -> str:
    """A number as a drawing writes it: whole, or with a decimal."""
    return str(value.numerator) if value.denominator == 1 else f"{float(value):g}"


def fresh_place(seed: str, most: Fraction = Fraction(31, 8)) -> Place:
    """A bar, and a mark that is no round figure."""
    numbers = Numbers(seed)
    x = numbers.length(Fraction(5, 4), most, Fraction(1, 64))
    if x.denominator < 16:
        x += Fraction(1, 64)
    return Place(numbers.length(Fraction(5), Fraction(9), Fraction(1, 4)), x)


def fresh_millimetres(seed: str) -> Fraction:
    """A dimension in whole millimetres."""
    return Numbers(seed).length(Fraction(18), Fraction(240), Fraction(1))
