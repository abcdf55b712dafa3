"""The questions of lesson 04: marks from one datum, stepping off, the 1-inch start, the edge of the ink, the witness line.

>>> ask = off_by(Row(Fraction(3, 2), 8, Fraction(1, 64)))
>>> ask.answer_text, [wrong.mistake for wrong in ask.wrong][:2]
('1/8 (0.125)', ["one step's error taken for the last mark's", 'first step not counted'])
>>> print(set_mark(fresh_place("a seed"), "set").prompt)
A bar 5 long. A hole is wanted 2 19/64 from end 1. The rule's end lies on end 1. Set the mark.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from anglelib.drawing.ink import SIDES
from anglelib.drawing.stepping import Row
from anglelib.geometry.chain import from_one, running, stepping_error, stepping_scatter
from anglelib.geometry.layout import witness_line
from anglelib.inspection.mistakes import MISTAKES
from anglelib.inspection.numbers import misread
from anglelib.lengths import MM, both, decimal, exact, show
from anglelib.part import Hole, Part, Taper
from anglelib.questions import square_end
from anglelib.questions.fresh import Numbers
from anglelib.questions.marks_found import fresh_found, name_the_slip
from anglelib.questions.named import Asked, by_mistakes
from anglelib.questions.question import ChoiceQuestion, LengthQuestion, WrongAnswer
from anglelib.questions.series import Series
from anglelib.section import Section

ONE_INCH, MISREAD, FROM_INSIDE, DATUM, WRONG_END, PITCH, UNIT = (
    MISTAKES[id].name for id in ("M07", "M08", "M11", "M16", "M17", "M18", "M27")
)
HALF = Fraction(1, 128)
MISPRINT = Fraction(125, 10000)
"""The decimal that a handbook page prints for 1/8."""


@dataclass(frozen=True)
class Place:
    """A mark ``x`` from end 1 of a bar so long [in]."""

    length: Fraction
    x: Fraction


@dataclass(frozen=True)
class Gaps:
    """A row given as gaps: from end 1 to the first mark, then from mark to mark [in]."""

    name: str
    gaps: tuple[Fraction, ...]


# --- earlier lessons ------------------------------------------------------------------------------------
def twisted(id: str = "a twisted end") -> LengthQuestion:
    """Lesson 03: errors of opposite sense add."""
    end = square_end.Sawn(Section("1 1/4", "1 1/4", "1/8", fillet="1/8"), (Fraction(1, 64), Fraction(-1, 64)))
    full = square_end.trim(end, id)
    return replace(full, prompt=f"Lesson 03. {full.prompt}")


# --- stepping off -----------------------------------------------------------------------------------------
def off_by(row: Row, id: str = "how far off is the last") -> LengthQuestion:
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
            WrongAnswer("one step's error taken for the last mark's", e, f"That is the error of one step. Every step begins where the last one ended: there are {n}."),
            WrongAnswer("first step not counted", (n - 1) * e, "The first step too is too wide: it begins at end 1."),
            WrongAnswer("errors of one sense taken for independent", stepping_scatter(n, float(e)), "The root is for errors that are now long, now short. These are all the same."),
            WrongAnswer("errors taken to cancel", Fraction(0), "The dividers are too wide at every step: nothing takes it back."),
        ),
        hints=("How wide of its place is the first mark? The second?", f"{n} steps, {exact(e)} each."),
        working=f"{n} times {exact(e)}: {both(right)}.",
    )


def when_mixed(row: Row, id: str = "when errors are mixed") -> ChoiceQuestion:
    """How errors add that are now long, now short."""
    n, e = row.count, row.error
    names = (f"{n} times one", f"about {n**0.5:.0f} times one", "no error: they cancel")
    return ChoiceQuestion(
        id,
        f"Now each of {n} steps is read off a rule afresh, now {exact(e)} long, now {exact(e)} short, as it comes. What error of the last mark is usual?",
        names,
        names[1],
        wrong=(
            WrongAnswer("worst case taken for the usual", names[0], "That is the worst case, when all happen to be long. It can happen, and rarely does."),
            WrongAnswer("errors taken to cancel", names[2], "On the average over many rows, yes. In one row they rarely cancel: some error is left."),
        ),
        hints=("Between the worst and nothing.",),
        working=f"Independent errors add as the root of the sum of their squares: the root of {n}, {n**0.5:.1f}, times one, "
        f"{decimal(stepping_scatter(n, float(e)))}. The worst case stays {exact(Fraction(stepping_error(n, e)))}.",
    )


# --- sums --------------------------------------------------------------------------------------------------
def last_running(row: Gaps, id: str = "last running dimension") -> LengthQuestion:
    """The running dimension of the last mark of a row given as gaps."""
    marks = running(row.gaps)
    listed = ", ".join(exact(g) for g in row.gaps[1:])
    wrong = [
        WrongAnswer("measured from the first mark", marks[-1] - row.gaps[0], "That is from the first mark. The datum is end 1: its distance to the first mark belongs to it."),
        WrongAnswer("last gap left out", marks[-2], "That is the mark before the last."),
        WrongAnswer("a gap taken for a running dimension", row.gaps[-1], "That is the last gap alone. A running dimension reaches back to end 1."),
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


def last_step(row: Gaps, id: str = "last running dimension, last step") -> LengthQuestion:
    """The same with all sums but the last one done."""
    full = last_running(row, id)
    marks = running(row.gaps)
    done = ", ".join(exact(m) for m in marks[:-1])
    return replace(full, prompt=f"{full.prompt} Done: {done}. Your step is the last one.", hints=full.hints[:1])


# --- the rule ----------------------------------------------------------------------------------------------
def length_from_one(reading: Fraction, id: str = "length from the 1-inch start") -> LengthQuestion:
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


def set_mark(place: Place, id: str = "set the mark") -> LengthQuestion:
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


def set_from_one(place: Place, id: str = "set the mark from the 1-inch start") -> LengthQuestion:
    """A mark to be set where the rule's 1-inch mark lies on end 1: the answer is what the rule shows."""
    x, shows = place.x, from_one(place.x)
    wrong = [
        WrongAnswer(ONE_INCH, x, f"The rule shows {exact(x)} there, but it began at 1: the mark is an inch too near to end 1."),
        WrongAnswer(ONE_INCH, shows + 1, "That counts the inch twice."),
        *(WrongAnswer(MISREAD, 1 + value, "A fraction was misread: read it back as a decimal.") for value in misread(x)),
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


def by_misprint(id: str = "a mark set by the misprint") -> LengthQuestion:
    """How far off a mark is that is set by the printed decimal for 1/8."""
    right = Fraction(1, 8) - MISPRINT
    return LengthQuestion(
        id,
        "A handbook page prints “1/8 = 0.0125”. Somebody sets a caliper to 0.0125 to mark 1/8. By how much is the mark off?",
        right,
        tolerance=Fraction(1, 256),
        wrong=(
            WrongAnswer("misprint taken on trust", Fraction(0), "The print is wrong. 1 divided by 8 is 0.125: the nought behind the point is one too many."),
            WrongAnswer("misprint taken for the error", MISPRINT, "That is where the mark comes to lie, not how far off it is."),
            WrongAnswer("right place taken for the error", Fraction(1, 8), "That is where it should lie."),
        ),
        hints=("Divide 1 by 8.",),
        working=f"1/8 is 0.125, and 0.125 less 0.0125 is {float(right):.4f}. Check a decimal by dividing; a page can err.",
    )


def in_millimetres(mm: Fraction, id: str = "millimetres on an inch rule") -> LengthQuestion:
    """A dimension in millimetres, to be marked with an inch rule."""
    right = mm * MM
    return LengthQuestion(
        id,
        f"A drawing from abroad puts a hole {exact_number(mm)} mm from end 1. You have an inch rule. Where is the mark, in inches to 1/64?",
        right,
        wrong=(
            WrongAnswer(UNIT, mm / 16, "That takes a sixteenth for a millimetre. They are not alike: 1/16 in. is 1.59 mm."),
            *by_mistakes(Asked(right), "M27"),
            WrongAnswer("divided by 25", mm / 25, "25 is rough: an inch is 25.4 mm exactly."),
        ),
        hints=("An inch is 25.4 mm exactly.", f"{exact_number(mm)} divided by 25.4 is {float(right):.3f}."),
        working=f"{exact_number(mm)} divided by 25.4 is {float(right):.3f}, on the rule {show(right)}.",
    )


def exact_number(value: Fraction) -> str:
    """A number as a drawing writes it: whole, or with a decimal."""
    return str(value.numerator) if value.denominator == 1 else f"{float(value):g}"


# --- heel, ink, witness line ------------------------------------------------------------------------------
def hooked_inside(section: Section, y: Fraction, id: str = "a rule hooked inside") -> LengthQuestion:
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
            WrongAnswer("thickness counted the wrong way", y + t, "From inside there is less to measure, not more."),
            WrongAnswer("measured from the toe", section.leg_a - y, "That is what is left up to the toe. The rule stands at the other side."),
        ),
        hints=("How far is the inner face of leg B from the heel?",),
        working=f"{exact(y)} less the thickness of leg B, {exact(t)}: {both(y - t)}. Better: heights from the heel, the square hooked on the outside.",
    )


def which_side(id: str = "side of the square") -> ChoiceQuestion:
    """On which side of the line the square lies."""
    names = (*SIDES, "no matter")
    return ChoiceQuestion(
        id,
        "End 2 is to be marked: a line square across, 4 3/4 from end 1. A marker's line is about 1/64 wide. Its edge next to the part is to be the dimension. On "
        "which side of the line does the square lie?",
        names,
        SIDES[0],
        wrong=(
            WrongAnswer("square on the waste side", SIDES[1], "Then the ink lies on the part, and its edge next to the part is the ink's width short."),
            WrongAnswer("width of the ink forgotten", "no matter", "The ink lies beside the square, on one side of its edge. A whole 64th hangs on which."),
        ),
        hints=("The marker runs along the square, so the ink lies beside it, on the other side of its edge.",),
        working="With the square on the part its edge is the dimension, and so is the ink's edge next to the part. All the ink is waste.",
    )


def which_tool(id: str = "what to strike with") -> ChoiceQuestion:
    """What a line is struck with on metal that stays."""
    return ChoiceQuestion(
        id,
        "A line for a row of holes stays on the part, the holes sit on it. With what is it struck?",
        ("a marker", "a scriber", "a pencil"),
        "a marker",
        wrong=(
            WrongAnswer("scribed on metal that stays", "a scriber", "A scratch is a notch, and the holes lie in it. Only a line that the cut removes may be scribed."),
            WrongAnswer("graphite on aluminium", "a pencil", "Graphite left on aluminium helps it to corrode. Use ink, and take it off before primer."),
        ),
        hints=("What is left on the metal when the line is wiped off?",),
        working="Ink wipes off and leaves the metal as it was.",
    )


def from_witness(part: Part, id: str = "from the witness line") -> LengthQuestion:
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
            WrongAnswer("witness line's distance added", x + at, "Both lie on the same side of end 1: take one from the other."),
            WrongAnswer("witness line's own distance", at, "That is from end 1 to the witness line."),
        ),
        hints=("How far does the witness line itself stand from end 1?",),
        working=f"{exact(x)} less {exact(at)}: {both(x - at)}.",
    )


# --- with fresh numbers ----------------------------------------------------------------------------------
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


EXERCISES = {
    "set": Series(set_mark, "04 set", (ONE_INCH, MISREAD, WRONG_END), fresh=fresh_place),
    "from one": Series(set_from_one, "04 from one", (ONE_INCH, MISREAD), fresh=fresh_place, most=Fraction(23, 8)),
    "name": Series(name_the_slip, "04 name", (), fresh=fresh_found),
    "millimetres": Series(in_millimetres, "04 millimetres", (UNIT,), fresh=fresh_millimetres),
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
    "off by": lambda: off_by(_ROW),
    "when mixed": lambda: when_mixed(_ROW),
    "last running": lambda: last_running(_GAPS),
    "last step": lambda: last_step(_GAPS),
    "length from one": lambda: length_from_one(Fraction(27, 8)),
    "set": lambda: set_mark(_PLACE),
    "from one": lambda: set_from_one(_PLACE),
    "misprint": by_misprint,
    "millimetres": lambda: in_millimetres(Fraction(41)),
    "hooked inside": lambda: hooked_inside(_SQUARE_INSIDE, Fraction(3, 8)),
    "which side": which_side,
    "which tool": which_tool,
    "from witness": lambda: from_witness(_TAPERED),
    "name": lambda: name_the_slip(fresh_found("a seed")),
}
"""Every question of the lesson with usual things."""
