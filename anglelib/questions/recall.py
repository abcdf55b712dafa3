"""Questions of earlier lessons in their shortest form, to be asked again at the head of later ones.

>>> from anglelib.questions.fresh import fresh_part
>>> ask = height_on_line(fresh_part("a seed"))
>>> print(ask.prompt)
Lesson 06. On the outer face of leg A the taper runs from the vertex to a toe mark 3 3/4 from end 1; the leg is 1 1/2 wide. How far from end 1 is the line where it is 1/2 from the heel?
>>> ask.answer_text
'1 1/4 (1.250)'
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import TypeVar

from anglelib.geometry.taper import taper_lines
from anglelib.inspection.taper_mistakes import with_run_along_slope, with_run_and_height_exchanged
from anglelib.job import Shop
from anglelib.lengths import both, decimal, exact, own, show
from anglelib.part import Part
from anglelib.questions.question import ChoiceQuestion, LengthQuestion, Question, WrongAnswer
from anglelib.questions.taken_for import slip_of
from anglelib.questions.wrong_answers import ALONG, EXCHANGED

Q = TypeVar("Q", bound=Question)


def of_lesson(number: str) -> str:
    """Where a question comes from that is asked again: before its prompt."""
    return f"Lesson {number}. " if number else ""


def name_of_vertex(id: str = "name-of-the-vertex") -> ChoiceQuestion:
    """Lesson 00: where the heel meets the end."""
    return ChoiceQuestion(
        id,
        f"{of_lesson('00')}What is the point called where the heel meets an end?",
        {"vertex": "the vertex", "toe": "the toe", "fillet": "the fillet", "datum": "the datum"},
        "vertex",
        wrong=(
            WrongAnswer(slip_of("toe", "vertex"), "toe", "The toe is a leg's free edge, away from the heel."),
            WrongAnswer(slip_of("fillet", "vertex"), "fillet", "The fillet is the rounded inside corner. The heel is outside."),
            WrongAnswer(slip_of("datum", "vertex"), "datum", "The datum is the whole end that lengths are measured from."),
        ),
        hints=("It is on the outside of the angle.",),
        working="The vertex is the one point of an end that lies on the heel.",
    )


def height_on_line(part: Part, id: str = "height-on-the-line") -> LengthQuestion:
    """Lesson 06: a taper's line on the outer face, a third of the way up."""
    line = taper_lines(part)[0]
    y = (line.width * 2 / 3 // Fraction(1, 4) or 1) * Fraction(1, 4) / 2
    x = line.at(y)
    wrong = [
        WrongAnswer(
            EXCHANGED,
            with_run_and_height_exchanged(line).at(y),
            "This comes out when run and height change places.",
        )
    ]
    along = with_run_along_slope(line)
    if along is not None:
        wrong.append(
            WrongAnswer(ALONG, along.at(y), "The run is measured along the toe, not along the slope.")
        )
    wrong.append(
        WrongAnswer("from-toe-mark", line.run - x, "That is from the toe mark. Measure from the end, the datum.")
    )
    step = f"The line climbs {show(line.width)} in a run of {show(line.run)}, {decimal(line.slope)} along for each inch up"
    return LengthQuestion(
        id,
        f"{of_lesson('06')}On the outer face of leg {line.leg} the taper runs from the vertex to a toe mark {show(line.run)} from end "
        f"{line.end}; the leg is {exact(line.width)} wide. How far from end {line.end} is the line where it is "
        f"{exact(y)} from the heel?",
        x,
        wrong=tuple(wrong),
        hints=("Similar triangles: the same slope holds all along the line.", f"{step}."),
        working=f"{step}: {exact(y)} up is {both(x)}.",
    )


def blank_length(part: Part, shop: Shop, id: str = "blank-length", lesson: str = "05") -> LengthQuestion:
    """The length to saw, with the sanding allowance at both sawn ends; of ``lesson``, where one is named."""
    e, k = shop.allowance, shop.kerf
    blank = part.length + 2 * e
    return LengthQuestion(
        id,
        f"{of_lesson(lesson)}A part is to be {exact(part.length)} long. Both ends are sawn, and each gets {own(e)} to sand. "
        "How long is its blank?",
        blank,
        tolerance=Fraction(1, 128),
        wrong=(
            WrongAnswer("M04", part.length, "Then nothing is left to sand: the part comes out short."),
            WrongAnswer("allowance-one-end", part.length + e, "Both ends are sawn: each gets its allowance."),
            WrongAnswer("M05", part.length + 4 * e, "That counts the allowance twice at each end."),
            WrongAnswer(
                "kerf-in-blank",
                blank + k,
                "The kerf comes off the stick, not out of the blank: it lies on the waste side.",
            ),
            WrongAnswer("allowance-off", part.length - 2 * e, "The allowance is left on, outside the line."),
        ),
        hints=(f"Two sawn ends, {own(e)} each.",),
        working=f"{exact(part.length)} and twice {own(e)}: {both(blank)}.",
    )


def datum_end(id: str = "datum-end") -> ChoiceQuestion:
    """Lesson 00: from where lengths are measured."""
    return ChoiceQuestion(
        id,
        f"{of_lesson('00')}A drawing has running dimensions 3, 16 and 30 1/2. Where does each of them begin?",
        {"datum": "at end 1, the datum", "before": "at the figure before", "nearer": "at the nearer end"},
        "datum",
        wrong=(
            WrongAnswer("running-as-chain", "before", "Then a slip at one place would move all that follow."),
            WrongAnswer("two-datums", "nearer", "One part has one datum: with two, the length's own error lies between."),
        ),
        hints=("They are called running dimensions because they run on from one place.",),
        working="That is why a slip at one hole stays at that hole.",
    )


def turned_hand(id: str = "turned-hand") -> ChoiceQuestion:
    """Lesson 02: turning a part does not change its hand."""
    return ChoiceQuestion(
        id,
        f"{of_lesson('02')}A left bracket, equal legs, leg A tapered at end 1. You turn it end for end. What is it now?",
        {"right": "a right one", "left": "still a left one", "neither": "neither"},
        "left",
        wrong=(
            WrongAnswer("M26", "right", "Turned, leg and end have both changed; in a mirror only one of them does. Two such parts are one hand."),
            WrongAnswer("neither-as-handed", "neither", "Neither is a part that lies like its mirror image. A turn cannot make it one."),
        ),
        hints=("Has any metal changed?",),
        working="Leg A at end 1 has become leg B at end 2: the same metal. Its other hand has the taper on leg B at end 1.",
    )


def again(question: Q, lesson: str) -> Q:
    """A question asked again at the head of a later lesson, which says where it comes from."""
    return replace(question, prompt=f"{of_lesson(lesson)}{question.prompt}")


def what_weight_tells(id: str = "what-weight-tells") -> ChoiceQuestion:
    """Lesson 01: weight cannot tell 6061 from 6063."""
    return ChoiceQuestion(
        id,
        f"{of_lesson('01')}Two sticks look alike. One is 6061-T6, the other 6063-T5. What tells them apart in the shop?",
        {"mark": "the printed mark", "weighing": "weighing them", "filing": "filing a corner"},
        "mark",
        wrong=(
            WrongAnswer("weight-tells-alloy", "weighing", "Their densities differ by half a percent: less than a section may differ."),
            WrongAnswer("filing-as-test", "filing", "Both file alike enough to fool anybody; and a temper cannot be filed out."),
        ),
        hints=("6061: 0.0975 pounds a cubic inch. 6063: 0.097.",),
        working="So a stick without its mark stays where it is until somebody identifies it.",
    )
