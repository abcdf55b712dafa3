"""Questions about the square itself: the flip test, and two readings of one end.

>>> lean(Parted(Fraction(1, 16), Fraction(6))).answer_text, lines_part(Fraction(1, 32)).answer_text
('1/32 (0.031)', '1/16 (0.063)')
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from anglelib.drawing.turned_square import Tried
from anglelib.lengths import both, exact
from anglelib.questions.fresh import Numbers
from anglelib.questions.question import MUCH, LengthQuestion, WrongAnswer

TWICE = "gap-as-error"
HALF = Fraction(1, 128)


@dataclass(frozen=True)
class Parted:
    """The lines of a flip test: how far apart [in], so high above the edge [in]."""

    gap: Fraction
    height: Fraction


def _twice(error: Fraction) -> tuple[WrongAnswer, ...]:
    return (
        WrongAnswer(
            "error-as-gap",
            error,
            "That is the square's own error. The first line leans one way by it, the second the other way: between them it is twice.",
        ),
        WrongAnswer("flip-cancels", Fraction(0), "They would coincide only if the square were true.", nothing=True),
        WrongAnswer("gap-doubled-twice", 4 * error, "That doubles it twice: there are two lines, each out by the error once."),
    )


def lines_part(error: Fraction, id: str = "how-far-the-lines-part") -> LengthQuestion:
    """The gap of the flip test for a square that is out by so much at 6 in."""
    return LengthQuestion(
        id,
        f"A square is out by {exact(error)} in 6 in. A line is struck along its blade, the square is turned over, and a second line is struck "
        "from the same foot. How far apart are the two lines 6 in. up?",
        2 * error,
        tolerance=HALF,
        wrong=_twice(error),
        hints=("On which side of true square does the second line lie?",),
        working=f"Each line is out by {exact(error)}, one to each side: {both(2 * error)} between them. The flip test shows twice the error.",
        sides=MUCH,
    )


def lean(parted: Parted, id: str = "error-of-the-square") -> LengthQuestion:
    """The square's error from the lines of the flip test, at the height at which they were compared."""
    return LengthQuestion(
        id,
        f"Two lines struck by the flip test lie {exact(parted.gap)} apart {exact(parted.height)} in. above the edge. By how much is the square "
        "itself out of square there?",
        parted.gap / 2,
        tolerance=Fraction(1, 256),
        wrong=(
            WrongAnswer(TWICE, parted.gap, "That is the gap between the lines. Each leans by half of it, one to each side."),
            WrongAnswer("gap-doubled", 2 * parted.gap, "The gap is already twice the error; halve it."),
        ),
        hints=("True square lies midway between the two lines.",),
        working=f"Half of {exact(parted.gap)}: {both(parted.gap / 2, 128)}.",
        sides=MUCH,
    )


def two_readings(tried: Tried, id: str = "two-readings") -> LengthQuestion:
    """How far an end is out, from the light with the square's stock at the heel and, turned over, at the toe."""
    first, second = tried.light(False), tried.light(True)
    seen = [f"light of {exact(abs(gap))} at the {'toe' if gap > 0 else 'heel'}" if gap else "no light" for gap in (first, second)]
    return LengthQuestion(
        id,
        f"On a leg {exact(tried.width)} wide a square shows {seen[0]} with its stock at the heel. Turned over, with its stock at the toe, {seen[1]}. "
        "The square is not true. How far is the end itself out, at the toe?",
        abs(tried.out),
        tolerance=Fraction(1, 256),
        wrong=(
            WrongAnswer("first-reading", abs(first), "That trusts the first reading, with the square's own error in it."),
            WrongAnswer("second-reading", abs(second), "That trusts the second reading, with the square's own error in it, the other way."),
            WrongAnswer("readings-not-halved", abs(first + second), "The end is in both readings: their sum holds it twice."),
        ),
        hints=("The end leans the same way in both readings, the square once this way and once that way.",),
        working=f"Half of the sum of both: {both(abs(tried.out))}. Half of the difference, {both(abs(tried.lean))}, is the square's over this leg.",
        sides=MUCH,
    )


def fresh_lines(seed: str) -> Parted:
    """The two lines of a flip test."""
    numbers = Numbers(seed)
    return Parted(numbers.length(Fraction(1, 64), Fraction(1, 8), Fraction(1, 64)), numbers.length(Fraction(3), Fraction(9), Fraction(1, 2)))
