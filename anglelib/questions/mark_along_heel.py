"""The questions of lesson 04: marks from one datum, stepping off, the 1-inch start, the edge of the ink, the witness line.

>>> ask = off_by(Row(Fraction(3, 2), 8, Fraction(1, 64)))
>>> ask.answer_text, [wrong.slip for wrong in ask.wrong][:2]
('1/8 (0.125)', ['one-step-error', 'first-step-missed'])
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from anglelib.drawing.ink import PART, SIDES, WASTE
from anglelib.drawing.stepping import Row
from anglelib.geometry.chain import running, stepping_error, stepping_scatter
from anglelib.geometry.layout import witness_line
from anglelib.lengths import both, decimal, exact
from anglelib.part import Hole, Part, Taper
from anglelib.questions import square_end
from anglelib.questions.marks_found import fresh_found, name_the_slip
from anglelib.questions.named import Asked, by_mistakes
from anglelib.questions.on_the_rule import (
    MISREAD,
    ONE_INCH,
    UNIT,
    WRONG_END,
    Place,
    by_misprint,
    fresh_millimetres,
    fresh_place,
    in_millimetres,
    length_from_one,
    set_from_one,
    set_mark,
)
from anglelib.questions.question import MUCH, ChoiceQuestion, LengthQuestion, WrongAnswer
from anglelib.questions.series import Series
from anglelib.section import Section

FROM_INSIDE, DATUM = "M11", "M16"
HALF = Fraction(1, 128)


@dataclass(frozen=True)
class Gaps:
    """A row given as gaps: from end 1 to the first mark, then from mark to mark [in]."""

    name: str
    gaps: tuple[Fraction, ...]


# --- earlier lessons ------------------------------------------------------------------------------------
def twisted(id: str = "a-twisted-end") -> LengthQuestion:
    """Lesson 03: errors of opposite sense add."""
    end = square_end.Sawn(Section("1 1/4", "1 1/4", "1/8", fillet="1/8"), (Fraction(1, 64), Fraction(-1, 64)))
    full = square_end.trim(end, id)
    return replace(full, prompt=f"Lesson 03. {full.prompt}")


# --- stepping off -----------------------------------------------------------------------------------------
def off_by(row: Row, id: str = "how-far-off-is-the-last") -> LengthQuestion:
    """The error of the last of so many steps, all wrong by the same amount."""
    n, e = row.count, row.error
    right = Fraction(stepping_error(n, e))
    return LengthQuestion(
        id,
        f"{n} marks {exact(row.pitch)} apart are stepped off with dividers, each from the last. The dividers are {exact(e)} too wide. "
        "How far off is the last mark?",
        right,
        tolerance=HALF,
        wrong=(
            WrongAnswer("one-step-error", e, f"That is the error of one step. Every step begins where the last one ended: there are {n}."),
            WrongAnswer("first-step-missed", (n - 1) * e, "The first step too is too wide: it begins at end 1."),
            WrongAnswer("errors-as-independent", stepping_scatter(n, float(e)), "The root is for errors that are now long, now short. These are all the same."),
            WrongAnswer("errors-cancel", Fraction(0), "The dividers are too wide at every step: nothing takes it back.", nothing=True),
        ),
        hints=("How wide of its place is the first mark? The second?", f"{n} steps, {exact(e)} each."),
        working=f"{n} times {exact(e)}: {both(right)}.",
        sides=MUCH,
    )


def when_mixed(row: Row, id: str = "when-errors-are-mixed") -> ChoiceQuestion:
    """How errors add that are now long, now short."""
    n, e = row.count, row.error
    names = {"all": f"{n} times one", "root": f"about {n**0.5:.0f} times one", "none": "no error: they cancel"}
    return ChoiceQuestion(
        id,
        f"Now each of {n} steps is read off a rule afresh, now {exact(e)} long, now {exact(e)} short, as it comes. What error of the last mark is usual?",
        names,
        "root",
        wrong=(
            WrongAnswer("worst-as-usual", "all", "That is the worst case, when all happen to be long. It can happen, and rarely does."),
            WrongAnswer("errors-cancel", "none", "On the average over many rows, yes. In one row they rarely cancel: some error is left."),
        ),
        hints=("Between the worst and nothing.",),
        working=f"Independent errors add as the root of the sum of their squares: the root of {n}, {n**0.5:.1f}, times one, "
        f"{decimal(stepping_scatter(n, float(e)))}. The worst case stays {exact(Fraction(stepping_error(n, e)))}.",
    )


# --- sums --------------------------------------------------------------------------------------------------
def last_running(row: Gaps, id: str = "last-running-dimension") -> LengthQuestion:
    """The running dimension of the last mark of a row given as gaps."""
    marks = running(row.gaps)
    listed = ", ".join(exact(g) for g in row.gaps[1:])
    wrong = [
        WrongAnswer("from-first-mark", marks[-1] - row.gaps[0], "That is from the first mark. The datum is end 1: its distance to the first mark belongs to it."),
        WrongAnswer("last-gap-missed", marks[-2], "That is the mark before the last."),
        WrongAnswer("gap-as-running", row.gaps[-1], "That is the last gap alone. A running dimension reaches back to end 1."),
        *by_mistakes(Asked(marks[-1], measured=True), "M07", "M08"),
    ]
    return LengthQuestion(
        id,
        f"{row.name}. From end 1 to the first hole {exact(row.gaps[0])}; then from hole to hole {listed}. Which running dimension has the last hole?",
        marks[-1],
        tolerance=HALF,
        wrong=tuple(wrong),
        hints=("Add from end 1 on.", "Running: " + ", ".join(exact(m) for m in marks[:-1]) + ", ..."),
        working="Running: " + ", ".join(exact(m) for m in marks) + ".",
    )


def last_step(row: Gaps, id: str = "last-running-dimension-last-step") -> LengthQuestion:
    """The same with all sums but the last one done."""
    full = last_running(row, id)
    marks = running(row.gaps)
    done = ", ".join(exact(m) for m in marks[:-1])
    return replace(full, prompt=f"{full.prompt} Done: {done}. Your step is the last one.", hints=full.hints[:1])


# --- heel, ink, witness line ------------------------------------------------------------------------------
def hooked_inside(section: Section, y: Fraction, id: str = "a-rule-hooked-inside") -> LengthQuestion:
    """What a rule shows that stands on the other leg's inner face, for a height from the heel; the angle is square inside."""
    t = section.thickness("B")
    return LengthQuestion(
        id,
        f"Angle {section.size}, square inside. A row of holes in leg A is wanted {exact(y)} from the heel. The rule lies on the inside of leg A, its end against "
        "the inner face of leg B. What does it show at the row?",
        y - t,
        tolerance=HALF,
        wrong=(
            WrongAnswer(FROM_INSIDE, y, f"{exact(y)} is from the heel. The inner face of leg B is {exact(t)} inside of it: the row would come {exact(t)} too far."),
            WrongAnswer("thickness-wrong-way", y + t, "From inside there is less to measure, not more."),
            WrongAnswer("from-toe", section.leg_a - y, "That is what is left up to the toe. The rule stands at the other side."),
        ),
        hints=("How far is the inner face of leg B from the heel?",),
        working=f"{exact(y)} less the thickness of leg B, {exact(t)}: {both(y - t)}. Better: heights from the heel, the square hooked on the outside.",
    )


def which_side(id: str = "side-of-the-square") -> ChoiceQuestion:
    """On which side of the line the square lies."""
    names = {**SIDES, "either": "no matter"}
    return ChoiceQuestion(
        id,
        "End 2 is to be marked: a line square across, 4 3/4 from end 1. A marker's line is about 1/64 wide. Its edge next to the part is to be the dimension. On "
        "which side of the line does the square lie?",
        names,
        PART,
        wrong=(
            WrongAnswer("square-on-waste", WASTE, "Then the ink lies on the part, and its edge next to the part is the ink's width short."),
            WrongAnswer("no-ink-width", "either", "The ink lies beside the square, on one side of its edge. A whole 64th hangs on which."),
        ),
        hints=("The marker runs along the square, so the ink lies beside it, on the other side of its edge.",),
        working="With the square on the part its edge is the dimension, and so is the ink's edge next to the part. All the ink is waste.",
    )


def which_tool(id: str = "what-to-strike-with") -> ChoiceQuestion:
    """What a line is struck with on metal that stays."""
    return ChoiceQuestion(
        id,
        "A line for a row of holes stays on the part, the holes sit on it. With what is it struck?",
        {"marker": "a marker", "scriber": "a scriber", "pencil": "a pencil"},
        "marker",
        wrong=(
            WrongAnswer("scribed-to-stay", "scriber", "A scratch is a notch, and the holes lie in it. Only a line that the cut removes may be scribed."),
            WrongAnswer("graphite", "pencil", "Graphite left on aluminium helps it to corrode. Use ink, and take it off before primer."),
        ),
        hints=("What is left on the metal when the line is wiped off?",),
        working="Ink wipes off and leaves the metal as it was.",
    )


def from_witness(part: Part, id: str = "from-the-witness-line") -> LengthQuestion:
    """Where a hole is, measured from the witness line."""
    at: Fraction = witness_line(part)  # type: ignore[assignment]
    x = max(hole.x for hole in part.holes_in("A"))
    return LengthQuestion(
        id,
        f"{part.name}: the taper to the vertex has taken end 1 away. A witness line was struck {exact(at)} from end 1. The drawing puts a hole {exact(x)} "
        "from end 1. How far from the witness line is it?",
        x - at,
        tolerance=HALF,
        wrong=(
            WrongAnswer(DATUM, x, "That is the drawing's figure, laid off from the witness line: the datum has moved, and the figure has not."),
            WrongAnswer("witness-added", x + at, "Both lie on the same side of end 1: take one from the other."),
            WrongAnswer("witness-own", at, "That is from end 1 to the witness line."),
        ),
        hints=("How far does the witness line itself stand from end 1?",),
        working=f"{exact(x)} less {exact(at)}: {both(x - at)}.",
    )


# --- with fresh numbers ----------------------------------------------------------------------------------
EXERCISES = {
    "set": Series(set_mark, "04-set", (ONE_INCH, MISREAD, WRONG_END), fresh=fresh_place),
    "from-one": Series(set_from_one, "04-from-one", (ONE_INCH, MISREAD), fresh=fresh_place, most=Fraction(23, 8)),
    "name": Series(name_the_slip, "04-name", (), fresh=fresh_found),
    "millimetres": Series(in_millimetres, "04-millimetres", (UNIT,), fresh=fresh_millimetres),
}
"""The lesson's exercises by name, in order."""

_ROW = Row(Fraction(3, 2), 8, Fraction(1, 64))
_GAPS = Gaps("Practice bar", (Fraction(3, 4), Fraction(21, 16), Fraction(21, 16), Fraction(21, 16)))
_PLACE = Place(Fraction(27, 4), Fraction(139, 64))
_SQUARE_INSIDE = Section("1 1/4", "1 1/4", "1/8")
_ANGLE = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
_TAPERED = Part("P1", "Practice bracket", _ANGLE, "6061-T6", "4 3/4", [Taper("A", 1, run="2 1/8")], [Hole("A", "4 1/4", "11/16", "3/16")])
QUESTIONS = {
    "twisted": twisted,
    "off-by": lambda: off_by(_ROW),
    "when-mixed": lambda: when_mixed(_ROW),
    "last-running": lambda: last_running(_GAPS),
    "last-step": lambda: last_step(_GAPS),
    "length-from-one": lambda: length_from_one(Fraction(27, 8)),
    "set": lambda: set_mark(_PLACE),
    "from-one": lambda: set_from_one(_PLACE),
    "misprint": by_misprint,
    "millimetres": lambda: in_millimetres(Fraction(41)),
    "hooked-inside": lambda: hooked_inside(_SQUARE_INSIDE, Fraction(3, 8)),
    "which-side": which_side,
    "which-tool": which_tool,
    "from-witness": lambda: from_witness(_TAPERED),
    "name": lambda: name_the_slip(fresh_found("a seed")),
}
"""Every question of the lesson with usual things."""
