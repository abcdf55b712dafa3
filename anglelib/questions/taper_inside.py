"""The questions of lesson 07: a taper's line on the inside of the angle, made from any part.

>>> from anglelib.questions.fresh import fresh_part
>>> ask = vertex_projection(fresh_part("a seed"))
>>> print(ask.prompt)
Practice bracket, 1 1/2 x 1 1/2 x 1/8, fillet 3/16. Leg A is tapered at end 1: run 3 3/4, to the vertex. How far from end 1 is the mark on the inner face of leg B?
>>> ask.answer_text
'5/16 (0.313)'
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from anglelib.geometry.taper import Number, TaperLine, taper_lines
from anglelib.lengths import about, both, decimal, exact, own, printed, show, unit_word, unit_written
from anglelib.part import Part, Taper
from anglelib.questions.fresh import FILLET, FLAT, OTHER_LEG
from anglelib.questions.question import WIDE, ChoiceQuestion, LengthQuestion, WrongAnswer
from anglelib.questions.series import Series
from anglelib.questions.wrong_answers import EXCHANGED, first_flat_mistakes, vertex_projection_mistakes
from anglelib.section import Section


# --- words ------------------------------------------------------------------------------------------
def described(part: Part) -> str:
    """The part in two sentences: its section, and its taper."""
    line = _line(part)
    section = part.section
    fillet = f"fillet {own(section.fillet)}" if section.fillet else "square inside"
    size = section.size
    if section.thickness_a != section.thickness_b:
        size = (
            f"{exact(section.leg_a)} x {exact(section.leg_b)}, leg A {exact(section.thickness_a)} thick, "
            f"leg B {exact(section.thickness_b)} thick"
        )
    left = "to the vertex" if line.to_vertex else f"width left {exact(line.width_left)}"
    run = f"run {exact(line.run)}" if line.exact else f"{line.angle:.1f} degrees from the heel"  # type: ignore[arg-type]
    return f"{part.name}, {size}, {fillet}. Leg {line.leg} is tapered at end {line.end}: {run}, {left}."


def slope_step(line: TaperLine) -> str:
    """The first step of every mark: how much run there is for each inch of height."""
    rise = about(line.width - line.width_left) if unit_written() == "mm" else show(line.width - line.width_left)
    run = about(line.run) if unit_written() == "mm" else show(line.run)
    less = "" if line.to_vertex else f" ({exact(line.width)} less the {exact(line.width_left)} left)"
    return (
        f"The line falls {rise}{less} in a run of {run}: {decimal(line.slope)} {unit_word()} along the heel for "
        f"each {unit_word(one=True)} of height."
    )


def vertex_step(line: TaperLine) -> str:
    """The step from the slope to the mark on the other leg."""
    t, s = line.other_thickness, line.width_left
    if line.to_vertex:
        height = f"The inner face of leg {line.other} is {exact(t)} from the heel"
    else:
        height = (
            f"The inner face of leg {line.other} is {exact(t)} from the heel, so {exact(t - s)} above where the line "
            "leaves the end"
        )
    return f"{height}: {exact(t - s)} times {decimal(line.slope)} is {_struck(line.vertex_projection)}."


def first_flat_step(line: TaperLine) -> str:
    """The step from the slope to the first mark on the tapered leg's inner flat."""
    t, r, s = line.other_thickness, line.section.fillet, line.width_left
    start = f"The flat of leg {line.leg} begins {exact(t + r)} from the heel (thickness {exact(t)} and fillet {exact(r)})"
    if not line.to_vertex:
        start += f", so {exact(t + r - s)} above where the line leaves the end"
    return f"{start}: {exact(t + r - s)} times {decimal(line.slope)} is {_struck(line.first_flat)}."


def _struck(x: Number | None) -> str:
    """A computed mark, and the graduation at which it is struck: the nearest."""
    if unit_written() == "mm":
        return both(x)  # type: ignore[arg-type]
    shown = printed(x)  # type: ignore[arg-type]
    return f"{decimal(x)}, struck at {shown.text}" if shown.lost else f"{decimal(x)}, which is {shown.text}"  # type: ignore[arg-type]


def _line(part: Part) -> TaperLine:
    return taper_lines(part)[0]


# --- lengths -------------------------------------------------------------------------------------------
def vertex_projection(part: Part, id: str = "vertex-projection") -> LengthQuestion:
    """Where the line crosses the other leg's inner face. The part's first taper must reach that leg."""
    line = _line(part)
    return LengthQuestion(
        id,
        f"{described(part)} How far from end {line.end} is the mark on the inner face of leg {line.other}?",
        line.vertex_projection,  # type: ignore[arg-type]
        wrong=vertex_projection_mistakes(line),
        hints=(
            f"Which leg stands between you and the vertex? Leg {line.other}: its thickness is the height you need.",
            slope_step(line),
            vertex_step(line),
        ),
        working=f"{slope_step(line)} {vertex_step(line)}",
        mark=True,
    )


def first_flat(part: Part, id: str = "first-flat-mark") -> LengthQuestion:
    """Where the line can first be marked on the tapered leg's inner flat, beside the fillet."""
    line = _line(part)
    return LengthQuestion(
        id,
        f"{described(part)} How far from end {line.end} is the mark on the inner face of leg {line.leg}, where its "
        "flat begins beside the fillet?",
        line.first_flat,  # type: ignore[arg-type]
        wrong=first_flat_mistakes(line),
        hints=(
            "How far from the heel does the flat begin? The other leg's thickness, then the fillet.",
            slope_step(line),
            first_flat_step(line),
        ),
        working=f"{slope_step(line)} {first_flat_step(line)}",
        mark=True,
    )


def last_step(part: Part, id: str = "last-step") -> LengthQuestion:
    """The mark on the other leg with the slope already worked: a worked example whose last step is left out."""
    full = vertex_projection(part, id)
    line = _line(part)
    return replace(
        full,
        prompt=f"{described(part)} First step, done: {slope_step(line)} Your step: how far from end {line.end} is the "
        f"mark on the inner face of leg {line.other}?",
        hints=(full.hints[0], full.hints[2]),
    )


def left_by_inside_corner(part: Part, id: str = "left-by-the-inside-corner") -> LengthQuestion:
    """What a line aimed at the inside corner leaves of the tapered leg at the end."""
    line = _line(part)
    t, own = line.other_thickness, line.section.thickness(line.leg)
    return LengthQuestion(
        id,
        f"{described(part)} Somebody aims the line at the inside corner where it meets end {line.end}, and saws it. "
        f"What width of leg {line.leg} is left at the end, where there should be none?",
        t,
        wrong=(
            WrongAnswer(
                "corner-as-vertex",
                Fraction(0),
                "Nothing is left only if the line runs to the vertex, and the vertex is on the heel, outside.",
                nothing=True,
            ),
            WrongAnswer(
                "own-thickness",
                own,
                f"That is the thickness of leg {line.leg}. Between the inside corner and the heel lies leg {line.other}.",
            ),
            WrongAnswer(
                "fillet-counted-in",
                t + line.section.fillet,
                "The corner meant here is where the two inner faces would meet, so the fillet adds nothing.",
            ),
        ),
        hints=("How far is it from the inside corner to the heel, measured across the tapered leg?",),
        working=f"From the heel to the inside corner it is the thickness of leg {line.other}: {both(t)}.",
        sides=WIDE,
    )


# --- choices ---------------------------------------------------------------------------------------------
def which_thickness(part: Part, id: str = "which-thickness") -> ChoiceQuestion:
    """Whose thickness sets the vertex-projection mark."""
    line = _line(part)
    return ChoiceQuestion(
        id,
        f"Leg {line.leg} is tapered to the vertex. Whose thickness sets how far from the end the mark on the inner "
        f"face of leg {line.other} lies?",
        {line.leg: f"leg {line.leg}'s", line.other: f"leg {line.other}'s", "both": "the sum of both"},
        line.other,
        wrong=(
            WrongAnswer(
                "own-thickness",
                line.leg,
                f"The saw stands square to leg {line.leg}, so it meets the inner and the outer face of leg {line.leg} "
                "in the same place: that thickness changes nothing.",
            ),
            WrongAnswer(
                "both-thicknesses",
                "both",
                f"Only one of them lies between the heel and the inner face of leg {line.other}.",
            ),
        ),
        hints=(f"What lies between the vertex and the inner face of leg {line.other}?",),
        working=f"Between the heel and the inner face of leg {line.other} lies the thickness of leg {line.other}, "
        "and nothing else.",
    )


def when_run_grows(part: Part, id: str = "when-the-run-grows") -> ChoiceQuestion:
    """What becomes of the mark when the taper is made longer and thus flatter."""
    line = _line(part)
    return ChoiceQuestion(
        id,
        f"The taper is to the vertex. Its run grows from {show(line.run)} to twice that, the section stays. What does "
        f"the mark on leg {line.other} do?",
        {"stays": "stays where it is", "away": "moves away from the end", "nearer": "moves nearer to the end"},
        "away",
        wrong=(
            WrongAnswer(
                "offset-as-thickness",
                "stays",
                "That is the rule of thumb “a thickness from the end at every angle”. It is true at 45 degrees only.",
            ),
            WrongAnswer(
                EXCHANGED,
                "nearer",
                "A flatter line needs more length along the heel for the same height, not less.",
            ),
        ),
        hints=("A flatter line needs how much length along the heel to climb one thickness?",),
        working="The mark is one thickness up the line. Twice the run for the same height puts it twice as far out.",
    )


def leaves_through(part: Part, id: str = "where-the-line-leaves") -> ChoiceQuestion:
    """On which surface of the inside the line leaves through the end."""
    line = _line(part)
    names = {OTHER_LEG: f"on leg {line.other}", FILLET: "in the fillet", FLAT: f"on the flat of leg {line.leg}"}
    right = OTHER_LEG if line.to_vertex else line.ends_in
    t, r, s = line.other_thickness, line.section.fillet, line.width_left
    working = (
        f"Leg {line.other} is {exact(t)} thick and the fillet ends {exact(t + r)} from the heel. "
        f"The line meets the end {exact(s)} from the heel: {names[right]}."
    )
    return ChoiceQuestion(
        id,
        f"{described(part)} Looking at the inside: where does the line reach end {line.end}?",
        names,
        right,
        wrong=tuple(
            WrongAnswer(
                "width-left-from-inside",
                place,
                f"Compare {exact(s)}, measured from the heel, with the thickness of leg {line.other} and the fillet.",
            )
            for place in names
            if place != right
        ),
        hints=(f"Leg {line.other} is {exact(t)} thick; with the fillet that makes {exact(t + r)}.",),
        working=working,
    )


# --- with fresh numbers ---------------------------------------------------------------------------------
EXERCISES = {
    "project": Series(
        vertex_projection,
        "07-project",
        ("offset-as-thickness", "straight-over-fillet", EXCHANGED),
        legs="AB",
    ),
    "two-thicknesses": Series(
        vertex_projection,
        "07-two-thicknesses",
        ("own-thickness", "no-width-left", "straight-over-fillet"),
        ends_in=OTHER_LEG,
        two_thicknesses=True,
        legs="AB",
    ),
    "in-the-fillet": Series(
        first_flat,
        "07-in-the-fillet",
        ("no-width-left", "offset-as-thickness"),
        ends_in="fillet",
        legs="AB",
    ),
}
"""The lesson's exercises by name, in order: ``EXERCISES["project"][3]`` is the fourth set of numbers."""
_BRACKET = Part("P1", "Practice bracket", Section("1 1/4", "1 1/4", "1/8", fillet="1/8"), "6061-T6", "4 3/4", [Taper("B", 1, run="2 1/8")])
_FAIRING = Part("P2", "Practice fairing angle", _BRACKET.section, "6061-T6", "22 5/8", [Taper("B", 1, "3/16", run="2 3/8")])

QUESTIONS = {
    "predict-the-mark": lambda: vertex_projection(_BRACKET, "predict-the-mark"),
    "predict-the-thickness": lambda: which_thickness(_BRACKET, "predict-the-thickness"),
    "predict-a-longer-run": lambda: when_run_grows(_BRACKET, "predict-a-longer-run"),
    "predict-what-is-left": lambda: left_by_inside_corner(_BRACKET, "predict-what-is-left"),
    "last-step": lambda: last_step(_BRACKET),
    "leaves-through": lambda: leaves_through(_FAIRING),
    "first-flat-mark": lambda: first_flat(_FAIRING),
    **{name: (lambda series=series: series[0]) for name, series in EXERCISES.items()},
}
"""Every question of the lesson with a practice part."""
