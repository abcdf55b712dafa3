"""The questions of lesson 03: an end squared on both legs, what the light says, what the trim costs, the datum.

>>> ask = trim(fresh_end("a seed"), "trim")
>>> print(ask.prompt)
Angle 1 1/2 x 1 1/2 x 1/8. The square on leg A shows light of 1/32 at the toe, on leg B of 1/64 at the toe. How much must come off along the heel to clean the end up on both legs?
>>> ask.answer_text
'about 1/32 (0.033)'
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from anglelib.drawing.end_trim import trim_of, trim_text
from anglelib.drawing.try_square import degrees
from anglelib.drawing.turned_square import Tried
from anglelib.job import Shop
from anglelib.lengths import both, exact
from anglelib.questions.fresh import Numbers, fresh_part
from anglelib.questions.question import MUCH, ChoiceQuestion, LengthQuestion, NumberQuestion, WrongAnswer
from anglelib.questions.series import Series
from anglelib.questions.square_itself import TWICE, Parted, fresh_lines, lean, lines_part, two_readings
from anglelib.section import Section
from anglelib.tolerances import angular

SQUARE, DATUM = "M21", "M16"
CANCEL, LARGER, SUMMED = "errors-cancel", "larger-error-only", "errors-added"
HALF = Fraction(1, 128)


@dataclass(frozen=True)
class Sawn:
    """An end as sawn: the section, and by how much each toe stands out (leg A, leg B) [in], negative where it falls back."""

    section: Section
    out: tuple[Fraction, Fraction]


@dataclass(frozen=True)
class Lit:
    """Light under a square on one leg: the leg's width and the gap [in]."""

    width: Fraction
    gap: Fraction


@dataclass(frozen=True)
class Dressed:
    """A mark struck ``x`` from end 1 of a part before ``u`` was taken off that end [in]."""

    name: str
    x: Fraction
    u: Fraction


# --- earlier lessons ------------------------------------------------------------------------------------
def turned_end_for_end(id: str = "turned-end-for-end") -> ChoiceQuestion:
    """Lesson 02: turning does not change the hand."""
    return ChoiceQuestion(
        id,
        "Lesson 02. A left-hand part, tapered on one leg at one end, is turned end for end on the bench. Which hand is it now?",
        ("left", "right", "neither"),
        "left",
        wrong=(
            WrongAnswer("turned-as-other-hand", "right", "Turning moves the part, not its metal. Only a mirror makes the other hand."),
            WrongAnswer("turned-as-neither", "neither", "It is the same metal as before, and that was handed."),
        ),
        hints=("Has anything been cut?",),
        working="Turned or rolled, a part keeps its hand.",
    )


# --- two legs -------------------------------------------------------------------------------------------
def is_it_square(id: str = "is-it-square") -> ChoiceQuestion:
    """What the square on one leg says of the end."""
    return ChoiceQuestion(
        id,
        "The square lies on leg A, its stock along the heel. No light anywhere along the blade. Is the end square?",
        {"yes": "yes", "no": "no", "unknown": "not known yet"},
        "unknown",
        wrong=(
            WrongAnswer(SQUARE, "yes", "The blade has touched leg A only. The saw may have leaned the other way, across leg B."),
            WrongAnswer("square-leg-as-fault", "no", "Nothing says that it is out; half of the check is still to do."),
        ),
        hints=("Along how many of the two legs has the blade been laid?",),
        working="Square to one leg is not square: the end is a plane, and two lines on it, one on each leg, are needed to know how it lies.",
    )


def where_light(end: Sawn, id: str = "where-the-light-is") -> ChoiceQuestion:
    """What light at the heel says of the toe; the picture shows leg A."""
    out = end.out[0]
    names = {"out": "the toe stands out", "back": "the toe falls back", "worn": "the heel is worn"}
    right, other = ("out", "back") if out > 0 else ("back", "out")
    place, touch = ("heel", "toe") if out > 0 else ("toe", "heel")
    return ChoiceQuestion(
        id,
        f"The blade touches leg A at the {touch} and shows light of {exact(abs(out))} at the {place}. What does that say of the end?",
        names,
        right,
        wrong=(
            WrongAnswer("light-as-high", other, f"Light is where metal is missing. The metal touches at the {touch}, so there it stands out further."),
            WrongAnswer("light-as-wear", "worn", "The heel is only the place to measure from: light says which of two places stands out further."),
        ),
        hints=("Metal that touches the blade stands out; where light comes through, it falls back.",),
        working=f"It touches at the {touch}: {names[right]}.",
    )


def angle(lit: Lit, id: str = "angle-of-the-light") -> NumberQuestion:
    """The angle out of square from the gap of light."""
    right = degrees(lit.gap, lit.width)
    allowed = float(angular(lit.width))
    return NumberQuestion(
        id,
        f"A leg {exact(lit.width)} wide shows light of {exact(lit.gap)}. By how many degrees is the end out of square on it?",
        right,
        "deg",
        tolerance=Fraction(1, 10),
        wrong=(
            WrongAnswer("M20", 90 - right, "That is the angle from the heel, 90 less the error: gap and width changed places."),
            WrongAnswer("slope-as-degrees", float(lit.gap / lit.width), "That is gap over width, a slope. Its arctangent is the angle; for small angles, times 57.3."),
            WrongAnswer("both-sides", 2 * right, "That is twice it: the light is at one place of the leg, and its whole width is the run."),
        ),
        hints=(
            "It is a long thin triangle: the leg's width along the blade, the gap across its end.",
            f"Gap over width: {exact(lit.gap)} over {exact(lit.width)} is {float(lit.gap / lit.width):.4f}.",
            "That slope is the angle's tangent. For so small an angle: degrees are 57.3 times the slope.",
        ),
        working=f"The arctangent of {exact(lit.gap)} over {exact(lit.width)}: {right:.2f} degrees. The general tolerance for so short a leg is "
        f"{allowed * 60:.0f} minutes, {allowed:.1f} degrees.",
        places=2,
    )


# --- the trim --------------------------------------------------------------------------------------------
def light_words(end: Sawn) -> str:
    """Where the square shows light, on both legs, in a sentence without its stop."""
    a, b = (f"of {exact(abs(out))} at the {'heel' if out > 0 else 'toe'}" if out else "" for out in end.out)
    return f"The square on leg A shows {f'light {a}' if a else 'no light'}, on leg B {b or 'no light'}"


def trim_step(end: Sawn) -> str:
    """How the trim comes about."""
    a, b = end.out
    whole = trim_of(end.section, end.out)
    if a * b < 0:
        up, down = ("A", "B") if a > 0 else ("B", "A")
        return (
            f"Toe {up} stands out {exact(max(a, b))}, toe {down} falls back {exact(-min(a, b))}: opposite senses, so the trim reaches from one "
            f"toe to the other and they add, {trim_text(whole)}."
        )
    large = max(abs(a), abs(b))
    if a * b == 0:
        return f"One leg is square, so the other's error is the whole trim: {both(large)}."
    sense = "stand out" if a > 0 else "fall back"
    return (
        f"Both toes {sense}: the heel is the {'lowest' if a > 0 else 'highest'} place and the larger error, {exact(large)}, is what counts; "
        f"the thickness of the leg adds a hair, {trim_text(whole)} in all."
    )


def trim(end: Sawn, id: str = "trim") -> LengthQuestion:
    """What must come off along the heel to clean up an end."""
    a, b = (abs(v) for v in end.out)
    opposite = end.out[0] * end.out[1] < 0
    wrong = [
        WrongAnswer(CANCEL, abs(a - b), "That takes one error from the other. They lie on different legs: one does not mend the other.", nothing=True),
    ]
    if opposite:
        wrong.append(
            WrongAnswer(LARGER, max(a, b), "That is the larger error alone. One toe stands out and the other falls back: from one toe to the other they add.")
        )
    else:
        wrong.append(
            WrongAnswer(SUMMED, a + b, "That adds both. Here both toes lie on the same side of the heel, and one trim as deep as the larger cleans up both.")
        )
    return LengthQuestion(
        id,
        f"Angle {end.section.size}. {light_words(end)}. How much must come off along the heel to clean the end up on both legs?",
        trim_of(end.section, end.out),
        tolerance=HALF,
        wrong=tuple(wrong),
        hints=(
            "For each leg: does the toe stand out (light at the heel) or fall back (light at the toe)?",
            "Find the place that stands out furthest and the place that falls back furthest; the heel is at nought.",
        ),
        working=trim_step(end),
        sides=MUCH,
    )


def last_step(end: Sawn, id: str = "trim-last-step") -> LengthQuestion:
    """The trim with the reading of the light already done."""
    full = trim(end, id)
    words = [f"toe {leg} {'stands out' if out > 0 else 'falls back'} {exact(abs(out))}" for leg, out in zip("AB", end.out)]
    return LengthQuestion(
        id,
        f"Angle {end.section.size}. First step, done: {words[0]}, {words[1]}. Your step: how much must come off along the heel?",
        full.answer,
        full.tolerance,
        full.wrong,
        full.hints[1:],
        full.working,
        sides=MUCH,
    )


def enough(end: Sawn, shop: Shop, id: str = "is-the-allowance-enough") -> ChoiceQuestion:
    """Whether the sanding allowance covers the trim."""
    need, has = trim_of(end.section, end.out), float(shop.allowance)
    names = {"sand": "sand it", "saw": "saw it again", "leave": "leave it"}
    right, other = ("sand", "saw") if need <= has + 1e-9 else ("saw", "sand")
    return ChoiceQuestion(
        id,
        f"Angle {end.section.size}. {light_words(end)}. The blank has {exact(shop.allowance)} to sand at this end. What now?",
        names,
        right,
        wrong=(
            WrongAnswer("allowance-not-compared", other, f"The trim is {trim_text(need)}, and there is {exact(shop.allowance)} to sand."),
            WrongAnswer(SQUARE, "leave", "An end out of square is no datum: every mark would depend on the leg it was measured along."),
        ),
        hints=("First the trim. Is it more than the allowance?",),
        working=f"{trim_step(end)} The allowance is {both(shop.allowance)}.",
    )


# --- the datum -------------------------------------------------------------------------------------------
def mark_moves(dressed: Dressed, id: str = "the-mark-after-dressing") -> LengthQuestion:
    """Where a mark comes to lie when end 1 is dressed after layout."""
    x, u = dressed.x, dressed.u
    return LengthQuestion(
        id,
        f"{dressed.name}. A hole was marked {exact(x)} from end 1. Then the square showed light, and {exact(u)} was taken off end 1 to "
        "square it. How far from end 1 is the mark now?",
        x - u,
        tolerance=HALF,
        wrong=(
            WrongAnswer(DATUM, x, f"The mark has stayed where it was; end 1 has not. It is {exact(u)} nearer: the datum is lost for every mark on the part."),
            WrongAnswer("dressing-wrong-way", x + u, "Metal came off, so what is left between the end and the mark is less."),
        ),
        hints=("The ink stays on the metal. What has moved?",),
        working=f"{exact(x)} less {exact(u)}: {both(x - u)}. So the end is squared first, on both legs, and then it is the datum and is dressed no more.",
    )


# --- with fresh numbers ----------------------------------------------------------------------------------
_GAPS = tuple(Fraction(n, 64) for n in (1, 2, 3, 4))


def fresh_end(seed: str) -> Sawn:
    """A practice angle with an end out of square on both legs, in one sense or in opposite ones."""
    numbers = Numbers(seed)
    section = fresh_part(seed).section
    a, b = numbers.pick(_GAPS), numbers.pick(_GAPS)
    way, second = numbers.pick((1, -1)), numbers.pick((1, -1))
    return Sawn(section, (way * a, way * second * b))


def fresh_dressing(seed: str) -> Dressed:
    """A mark, and a dressing of end 1."""
    numbers = Numbers(seed)
    return Dressed("Practice bracket", numbers.length(Fraction(1), Fraction(6), Fraction(1, 16)), numbers.length(Fraction(1, 32), Fraction(5, 64), Fraction(1, 64)))


EXERCISES = {
    "light": Series(where_light, "03-light", (), fresh=fresh_end),
    "trim": Series(trim, "03-trim", (), fresh=fresh_end),
    "error-of-the-square": Series(lean, "03-error-of-the-square", (TWICE,), fresh=fresh_lines),
    "datum": Series(mark_moves, "03-datum", (DATUM,), fresh=fresh_dressing),
}
"""The lesson's exercises by name, in order."""

_END = Sawn(Section("1 1/4", "1 1/4", "1/8", fillet="1/8"), (Fraction(1, 32), Fraction(-1, 32)))
QUESTIONS = {
    "turned-end-for-end": turned_end_for_end,
    "is-it-square": is_it_square,
    "where-the-light-is": lambda: where_light(_END),
    "angle": lambda: angle(Lit(Fraction(5, 4), Fraction(1, 32))),
    "trim": lambda: trim(_END),
    "trim-of-one-sense": lambda: trim(Sawn(_END.section, (Fraction(1, 32), Fraction(1, 32)))),
    "last-step": lambda: last_step(_END),
    "enough": lambda: enough(_END, Shop()),
    "lines-part": lambda: lines_part(Fraction(1, 32)),
    "error-of-the-square": lambda: lean(Parted(Fraction(1, 32), Fraction(6))),
    "two-readings": lambda: two_readings(Tried(Fraction(5, 4), Fraction(-3, 64), Fraction(1, 64))),
    "datum": lambda: mark_moves(Dressed("Practice bracket", Fraction(5, 4), Fraction(1, 32))),
}
"""Every question of the lesson with usual things."""
