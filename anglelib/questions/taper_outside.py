"""The questions of lesson 06: run, height and angle of a taper, what a foot of it falls; with :mod:`anglelib.questions.taper_made`.

>>> from anglelib.questions.fresh import fresh_part
>>> ask = angle(fresh_part("a seed", ends_in="flat"))
>>> print(ask.prompt)
Practice bracket, 1 1/2 x 1 1/2 x 1/8, fillet 3/16. Leg A is tapered at end 1: run 2 7/8, width left 3/8. How many degrees from the heel is its line?
>>> ask.answer_text
'21.4 degrees'
>>> per_foot(Fraction(6)).answer_text
'26.57 degrees'
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from math import asin, atan, degrees

from anglelib.drawing.angle_views import both_sides, one_side
from anglelib.drawing.triangle import LETTERS
from anglelib.geometry.sawing import MITER_REACH
from anglelib.geometry.taper import TaperLine, taper_lines
from anglelib.inspection.taper_mistakes import with_run_along_slope
from anglelib.lengths import both, decimal, exact, show
from anglelib.part import Part, Taper
from anglelib.questions.fresh import Numbers, fresh_part
from anglelib.questions.named import Asked, by_mistakes
from anglelib.questions.question import ChoiceQuestion, LengthQuestion, NumberQuestion, WrongAnswer
from anglelib.questions.series import Series
from anglelib.questions.taper_inside import described
from anglelib.questions.taper_made import SLIPS, MadeWrong, Placed, fresh_made, fresh_placed, which_line, which_slip
from anglelib.section import Section

FROM_INSIDE, ALONG, EXCHANGED = "M11", "M19", "M20"
FORGOTTEN = "no-width-left"
FARTHEST = 4
"""The longest run of an exercise whose mark is set on the drawing [in]."""
QUARTER = Fraction(1, 4)
"""How near an angle must come [deg]: about what a bench protractor shows."""


def _line(part: Part) -> TaperLine:
    return taper_lines(part)[0]


def _height(line: TaperLine) -> Fraction:
    return line.width - line.width_left


# --- the triangle -----------------------------------------------------------------------------------------
def which_is_the_run(part: Part, id: str = "which-is-the-run") -> ChoiceQuestion:
    """Which of three lengths is the run."""
    line = _line(part)
    p, q, r = LETTERS
    return ChoiceQuestion(
        id,
        f"A drawing says of leg {line.leg}: “run {show(line.run)}”. Which of the three lengths is meant?",
        LETTERS,
        p,
        (
            WrongAnswer(ALONG, q, "That is the tapered edge, and it is longer. A run is measured along the toe, where the rule lies on metal that stays."),
            WrongAnswer(EXCHANGED, r, "That is the height: how far the line falls across the leg."),
        ),
        hints=("Where can a rule lie before anything is cut?",),
        working="The run is along the toe: it is laid from the end, with the rule against the edge.",
    )


def height(part: Part, id: str = "height") -> LengthQuestion:
    """How far the line falls across the leg."""
    line = _line(part)
    high, t = _height(line), line.other_thickness
    wrong = [
        WrongAnswer(FORGOTTEN, line.width, f"That is the whole leg. {exact(line.width_left)} of it is left at the end."),
        WrongAnswer("width-left-as-height", line.width_left, "That is what stays. The height is what the line falls."),
        WrongAnswer(FROM_INSIDE, high - t, "That measures the width left from the inside face. It is measured from the heel."),
    ]
    return LengthQuestion(
        id,
        f"{described(part)} How high is the triangle that is cut off?",
        high,
        tolerance=Fraction(1, 128),
        wrong=tuple(w for w in wrong if w.answer > 0),
        hints=("The leg's width, less what is left at the end.",),
        working=f"{exact(line.width)} less {exact(line.width_left)}: {both(high)}.",
    )


def along_slope(part: Part, id: str = "along-the-slope") -> LengthQuestion:
    """Where the toe mark comes when the run is laid along the slope."""
    line = _line(part)
    wrong_line = with_run_along_slope(line)
    if wrong_line is None:
        raise ValueError("a run no longer than the height does not reach the toe along the slope")
    run, high = float(line.run), float(_height(line))
    return LengthQuestion(
        id,
        f"{described(part)} Somebody lays the run along the slope: from the mark on the end, {show(line.run)} of rule are swung round until they meet the toe. "
        f"How far from end {line.end} does that strike the toe?",
        wrong_line.run,
        wrong=(
            WrongAnswer("run-either-way", line.run, "That is where it belongs. Swung down on to the toe, the same length reaches less far along it."),
            WrongAnswer("right-line-length", (run * run + high * high) ** 0.5, "That is how long the right line is. Here the slope is as long as the run should be."),
            WrongAnswer(EXCHANGED, high * high / run, "That exchanges run and height."),
        ),
        hints=("A triangle with a right angle: the slope and the height are known, the side along the toe is not.",),
        working=f"{show(line.run)} is now the long side: squared, less the height squared, the root of it is {decimal(wrong_line.run)}.",
    )


# --- angles -------------------------------------------------------------------------------------------------
def _angle_mistakes(line: TaperLine, square: bool) -> tuple[WrongAnswer, ...]:
    run, high = float(line.run), float(_height(line))
    found: list[tuple[str, float, str]] = []
    if run > high:
        found.append((ALONG, degrees(asin(high / run)), "This comes out when the run is taken for the long side of the triangle: height over slope."))
    if line.width_left:
        found.append((FORGOTTEN, degrees(atan(float(line.width) / run)), f"This comes out when the {exact(line.width_left)} that is left is forgotten."))
    said = "That is from the heel. The protractor's zero is square to it." if square else "That is from square. Here it is asked from the heel."
    wrong = [WrongAnswer(EXCHANGED, line.angle if square else line.from_square, said)]
    return (*wrong, *(WrongAnswer(slip, 90 - value if square else value, sentence) for slip, value, sentence in found))


def angle(part: Part, id: str = "angle") -> NumberQuestion:
    """The angle from the heel, from run and height."""
    line = _line(part)
    return NumberQuestion(
        id,
        f"{described(part)} How many degrees from the heel is its line?",
        line.angle,
        "deg",
        QUARTER,
        _angle_mistakes(line, False),
        hints=("Height over run is the tangent of the angle.", f"Height: {exact(_height(line))}. Run: {show(line.run)}."),
        working=angle_step(line),
    )


def last_step(part: Part, id: str = "last-step") -> NumberQuestion:
    """The angle with the tangent worked already: a worked example whose last step is left out."""
    line = _line(part)
    return replace(
        angle(part, id),
        prompt=f"{described(part)} First step, done: the height is {both(_height(line))}. Second step, done: {exact(_height(line))} over {show(line.run)} is "
        f"{decimal(1 / line.slope)}. Your step: how many degrees from the heel is the line? (A pocket calculator has it as the inverse of tan; or measure it "
        "on a drawing, 10 along and that much times 10 up.)",
    )


def angle_step(line: TaperLine) -> str:
    """How the angle comes about."""
    return f"{exact(_height(line))} over {show(line.run)} is {decimal(1 / line.slope)}, the tangent of {line.angle:.1f} degrees."


def from_square(part: Part, id: str = "from-square") -> NumberQuestion:
    """What a protractor reads whose zero is square."""
    line = _line(part)
    return NumberQuestion(
        id,
        f"The line of leg {line.leg} is {line.angle:.1f} degrees from the heel. A protractor, and most saws, have their zero square to the work. What do they read?",
        line.from_square,
        "deg",
        QUARTER,
        (
            WrongAnswer(EXCHANGED, line.angle, "That is the angle from the heel. Square itself reads 0 there, not 90."),
            WrongAnswer("180-for-90", 180 - line.angle, "From the heel round to the other side it would be that. Square is a quarter of a turn, 90."),
            WrongAnswer("added-to-square", 90 + line.angle, "The line lies between heel and square: 90 less the angle, not more."),
        ),
        hints=("Heel and square are 90 degrees apart, and the line lies between them.",),
        working=f"90 less {line.angle:.1f} is {line.from_square:.1f}. Say both, and say from where.",
    )


def square_reading(part: Part, id: str = "square-reading") -> NumberQuestion:
    """What a protractor reads whose zero is square, from run and width left."""
    line = _line(part)
    return NumberQuestion(
        id,
        f"{described(part)} A protractor has its zero square to the heel. What does it read on the line?",
        line.from_square,
        "deg",
        QUARTER,
        _angle_mistakes(line, True),
        hints=("First from the heel: height over run. Then 90 less that.",),
        working=f"{angle_step(line)} 90 less that is {line.from_square:.1f}.",
    )


def toe_mark(part: Part, id: str = "toe-mark") -> LengthQuestion:
    """The run of a taper that the plans give by its angle."""
    line = _line(part)
    taper = part.tapers[0]
    run, high = float(line.run), float(_height(line))
    given = exact(Fraction(taper.angle)) if taper.angle is not None else f"{line.angle:.2f}"
    wrong = [*by_mistakes(Asked(run, run_of=(run, high)), "M19", "M20")]
    if line.width_left:
        wrong.append(WrongAnswer(FORGOTTEN, float(line.at(line.width + line.width_left)), f"This comes out with the leg's whole width. {exact(line.width_left)} of it is left."))
    return LengthQuestion(
        id,
        f"Leg {line.leg} of an angle {part.section.size} is tapered at end {line.end}: {given} degrees from the heel, width left {exact(line.width_left)}. Set the mark on "
        "the toe.",
        line.run,
        wrong=tuple(w for w in wrong if 0 <= float(w.answer) <= 4.5),
        hints=(f"Height: {exact(line.width)} less {exact(line.width_left)}.", f"Run is height over the tangent of {given} degrees, which is {decimal(1 / line.slope)}."),
        working=f"{exact(_height(line))} over {decimal(1 / line.slope)} is {both(line.run)}; the mark goes to the nearest graduation.",
        mark=True,
    )


def miter_saw(part: Part, id: str = "miter-saw") -> ChoiceQuestion:
    """Whether a miter saw turns far enough."""
    line = _line(part)
    can = line.from_square <= MITER_REACH
    return ChoiceQuestion(
        id,
        f"A miter saw turns {MITER_REACH:g} degrees from square. Can it saw this taper, {line.angle:.1f} degrees from the heel, the leg flat against its fence?",
        {"yes": "yes", "no": "no: band saw, hacksaw or disc, by the line"},
        "yes" if can else "no",
        (WrongAnswer(EXCHANGED, "no" if can else "yes", f"From square the line is {line.from_square:.1f} degrees. The saw's scale begins at square."),),
        hints=("Which of the two readings is on the saw?",),
        working=f"The saw would have to turn {line.from_square:.1f}.",
    )


def per_foot(fall: Fraction, id: str = "per-foot") -> NumberQuestion:
    """The angle of a leg that falls so much in a foot."""
    right, long = one_side(fall), 12 / float(fall)
    return NumberQuestion(
        id,
        f"A leg's taper falls {exact(fall)} in a foot. A handbook's table for round work, both sides tapered, says {both_sides(fall):.2f} degrees for {exact(fall)} in a foot. "
        "How many degrees from the heel is the leg's line?",
        right,
        "deg",
        Fraction(1, 5),
        (
            WrongAnswer("round-work-table", both_sides(fall), "That is the angle between both sides of round work. A leg has one sloping side, and all of the fall is on it."),
            WrongAnswer("half-round-work", both_sides(fall) / 2, "Half of it belongs to half of the fall. On a leg all of the fall is on one side."),
            WrongAnswer(EXCHANGED, 90 - right, "That is from square."),
        ),
        hints=(f"{exact(fall)} over 12 is the tangent.",),
        working=f"{exact(fall)} over 12 is {1 / long:.3f}, the tangent of {right:.2f} degrees. At small angles the two tables nearly agree; that is the trap.",
        places=2,
    )


# --- fresh numbers ----------------------------------------------------------------------------------------------
def fresh_by_angle(seed: str) -> Part:
    """A practice part whose taper is given by its angle, whole or half degrees."""
    numbers = Numbers(f"{seed}, angle")
    part = fresh_part(seed, ends_in="flat", legs="AB")
    taper = part.tapers[0]
    flattest = Fraction(round(degrees(atan(float(_height(_line(part))) / FARTHEST))) + 1)
    degree = numbers.length(max(Fraction(18), flattest), Fraction(42), Fraction(1, 2))
    return replace(part, tapers=(Taper(taper.leg, numbers.pick((1, 2)), taper.width_left, angle=degree),))


EXERCISES = {
    "angle": Series(angle, "06-angle", (EXCHANGED, ALONG, FORGOTTEN), ends_in="flat", legs="AB"),
    "toe-mark": Series(toe_mark, "06-toe-mark", (ALONG, EXCHANGED), fresh=fresh_by_angle),
    "line": Series(which_line, "06-line", fresh=fresh_placed),
    "slip": Series(which_slip, "06-slip", fresh=fresh_made),
}
"""The lesson's exercises by name, in order."""

_PART = Part(
    "P1", "Practice bracket", Section("1 1/2", "1 1/2", "3/16", fillet="3/16"), "6061-T6", Fraction(43, 8), [Taper("B", 1, "9/16", run="2 7/8")]
)
QUESTIONS = {
    "which_is_the_run": lambda: which_is_the_run(_PART),
    "height": lambda: height(_PART),
    "along_slope": lambda: along_slope(_PART),
    "angle": lambda: angle(_PART),
    "from_square": lambda: from_square(_PART),
    "square_reading": lambda: square_reading(_PART),
    "toe_mark": lambda: toe_mark(fresh_by_angle("a part by its angle")),
    "miter_saw": lambda: miter_saw(_PART),
    "per_foot": lambda: per_foot(Fraction(6)),
    "which_line": lambda: which_line(Placed("B", 1)),
    **{f"which_slip-{id_}": (lambda id_=id_: which_slip(MadeWrong(_PART, id_))) for id_ in SLIPS},
}
"""Every question of the lesson with default things, for the table of mistakes."""
