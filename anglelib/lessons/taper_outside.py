"""Lesson 06: a taper on the outside face: run, height and angle, and how to check them.

What is computed, what is drawn and how they are wired are three separate things; each function below
the last heading is one cell of the notebook.

>>> compute(given(demo_part("E2R"))).angle.__round__(2)
18.06
>>> draw_triangle(given(demo_part("E2R")), View(revealed=False)).title
"The taper's triangle"
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from anglelib.drawing.angle_views import foot_sheet, four_lines_sheet, protractor_sheet
from anglelib.drawing.sheet import Sheet
from anglelib.drawing.triangle import made_taper_sheet, swung_sheet, toe_mark_sheet, triangle_sheet
from anglelib.geometry.block import CLEARANCE
from anglelib.geometry.lazy import formulas
from anglelib.geometry.setup import inside_up, outside_up
from anglelib.geometry.taper import TaperLine, taper_lines
from anglelib.job import Shop
from anglelib.lengths import both, decimal, exact
from anglelib.lessons.ask import Ask, Predict, Questions
from anglelib.lessons.ask_mark import AskMark
from anglelib.lessons.ask_picture import AskPicture
from anglelib.lessons.controls import ChoiceControl, FractionControl, fractions
from anglelib.lessons.demo import demo_part
from anglelib.lessons.formula_card import FormulaCard, Written
from anglelib.lessons.learned import Learned, learned_in
from anglelib.lessons.live import ROOM, LivePicture, Preset, Still, View
from anglelib.lessons.openings import opening
from anglelib.lessons.words import Worked, latex_length
from anglelib.paper.stance import side_by_side
from anglelib.part import Part, Taper
from anglelib.questions import kerf_and_allowance as sawing
from anglelib.questions import recall as earlier
from anglelib.questions import taper_outside as ask
from anglelib.questions.answers import AnswerBook

LESSON = "06_taper_outside"
RUNS = fractions("1", "3 1/2", "1/16")
LEFTS = fractions("0", "11/16", "1/32")
MARKS = fractions("1/2", "4 1/2", "1/64")
FALLS = {text: Fraction(text) for text in ("1/4", "1/2", "1", "2", "3", "6")}
ANGLES = fractions("10", "60", "1/2")
"""Angles from the heel [deg], half a degree apart."""
QUARTER_TURN, NINETY = r"\frac{\pi}{2}", r"90^{\circ}"
BAR = 5
"""Length of the sine bar of the checks [in]."""


# --- computed -----------------------------------------------------------------------------------------
def given(part: Part) -> dict[str, Any]:
    """What a part's first taper gives a picture: section, leg, end, run, width left."""
    line = taper_lines(part)[0]
    return {"section": part.section, "leg": line.leg, "end": line.end, "run": line.run, "left": line.width_left}


def compute(values: Mapping[str, Any]) -> TaperLine:
    """The line for some values."""
    return TaperLine.of(values["section"], Taper(values["leg"], values["end"], values["left"], run=values["run"]))


def minutes(angle: float) -> str:
    """An angle in degrees and minutes, as a protractor with a vernier reads it.

    >>> minutes(18.0605)
    "18° 04'"
    """
    whole = round(angle * 60)
    return f"{whole // 60}° {whole % 60:02d}'"


# --- drawn ------------------------------------------------------------------------------------------
def draw_triangle(values: Mapping[str, Any], view: View) -> Sheet:
    """The leg with its line: three lengths by letter, then run, height, edge and angle."""
    return triangle_sheet(compute(values), answer=view.revealed, few=view.few)


def draw_swung(values: Mapping[str, Any], view: View) -> Sheet:
    """The run laid along the slope, beside the right line."""
    return swung_sheet(compute(values), answer=view.revealed, prediction=view.prediction, few=view.few)


def draw_protractor(values: Mapping[str, Any], view: View) -> Sheet:
    """One angle, read from the heel and from square."""
    return protractor_sheet(compute(values), answer=view.revealed, prediction=view.prediction, few=view.few)


def draw_foot(values: Mapping[str, Any], view: View) -> Sheet:
    """A leg and round work with the same taper per foot."""
    return foot_sheet(values["fall"], answer=view.revealed, few=view.few)


def draw_stances(line: TaperLine) -> Sheet:
    """How the angle sits for a line on the outside, and for one that is struck on the inner flat, seen from the tapered end."""
    outside, inside = outside_up(line), inside_up(line)
    items = side_by_side(line, ((outside, "outside up, on a block"), (inside, "inside up, leg flat")), 62)
    sentence = (
        f"How the angle sits at the saw, seen from end {line.end}; the face that carries the line is drawn thick. On the left {outside.words}: the block is "
        f"at least {exact(outside.block.height)} high, so that the toe hangs {exact(CLEARANCE)} clear of the table, and the guide clears {exact(outside.height)}. On the right {inside.words}: the line is struck on the inner flat, in the same place."
    )
    return Sheet(200, 70, tuple(items), "How the angle sits", sentence)


def write(values: Mapping[str, Fraction]) -> Written:
    """The formulas of the triangle with some numbers in them, and their results in a sentence."""
    f = formulas()
    X, W, s = (values[name] for name in ("X", "W", "s"))
    if s >= W:
        return [f.angle_from_run.latex], f"The width left, {exact(s)}, is not below the width of the leg: nothing is cut."
    theta = f.angle_from_run(X=X, W=W, s=s)
    square = f.protractor_from_square(theta=theta)
    edge = f.edge_length(W=float(W), s=float(s), theta=theta)
    slope = f.slope_from_run(X=X, W=W, s=s)
    fall = f.taper_per_foot(c=slope)
    shown = {name: latex_length(value) for name, value in values.items()}
    shown |= {"theta": rf"{theta:.2f}^{{\circ}}", "c": latex_length(slope)}

    def line(formula: Any, result: str) -> str:
        numbers = formula.latex_with({q.letter: shown[q.letter] for q in formula.quantities}, result)
        return f"{formula.latex} {numbers.removeprefix(formula.result.latex).strip()}"

    lines = [
        line(f.angle_from_run, rf"{theta:.2f}^{{\circ}}"),
        # degrees at every face a person sees: a quarter of a turn is written as 90
        rf"{f.protractor_from_square.latex.replace(QUARTER_TURN, NINETY)} = {square:.2f}^{{\circ}}",
        line(f.edge_length, decimal(edge)),
        line(f.taper_per_foot, decimal(fall)),
    ]
    said = (
        f"{theta:.2f} degrees from the heel, {square:.2f} from square; the tapered edge is {both(edge)} long; {decimal(fall)} of fall in a foot."
    )
    return lines, said


def write_by_angle(values: Mapping[str, Fraction]) -> Written:
    """The run from the angle, with some numbers in it, and the same from the wrong zero."""
    f = formulas().angle_from_run.solved_for("X")
    theta, W, s = (values[name] for name in ("theta", "W", "s"))
    if s >= W:
        return [f.latex], f"The width left, {exact(s)}, is not below the width of the leg: nothing is cut."
    run, wrong = (f(theta=float(angle), W=float(W), s=float(s)) for angle in (theta, 90 - theta))
    shown = {"theta": rf"{float(theta):g}^{{\circ}}", "W": latex_length(W), "s": latex_length(s)}
    numbers = f.latex_with(shown, decimal(run)).removeprefix(f.result.latex).strip()
    said = f"At {float(theta):g} degrees from the heel the run is {both(run)}; at {float(theta):g} degrees from square it would be {both(wrong)}."
    return [f"{f.latex} {numbers}"], said


def figures() -> dict[str, Sheet]:
    """The lesson's ordinary pictures by file name: what lies on the bench, and the triangle with its figures."""
    line = taper_lines(_plain())[0]
    return {f"{LESSON}.png": opening(LESSON), f"{LESSON}_triangle.png": triangle_sheet(line)}


# --- wired: a function a cell -------------------------------------------------------------------------
def _book() -> AnswerBook:
    return AnswerBook(LESSON)


def _plain() -> Part:
    """The worked part: its line stays on the flat, so the outside is where it is laid out."""
    return demo_part("E2R")


def _jobs() -> dict[str, Preset]:
    jobs = (_plain(), demo_part("E2L"), demo_part("C2R"), demo_part("A5R"))
    return {job.id: Preset(job.name, given(job)) for job in jobs}


def _controls() -> dict[str, FractionControl]:
    taper = _plain().tapers[0]
    return {
        "run": FractionControl("Run X (in.)", RUNS, taper.run),  # type: ignore[arg-type]
        "left": FractionControl("Width left s (in.)", LEFTS, taper.width_left),
    }


def recall() -> Questions:
    """Three questions of earlier lessons."""
    book = _book()
    return Questions(
        Ask(lambda n: earlier.name_of_vertex(), book),
        Ask(lambda n: sawing.square_to_one_leg(), book),
        Ask(lambda n: earlier.blank_length(_plain(), Shop()), book),
    )


def triangle() -> LivePicture:
    """Predict which of three lengths is the run; then change run and width left, on the parts of the demo kit."""
    part = _plain()
    return LivePicture(draw_triangle, _controls(), presets=_jobs(), ask=Predict(lambda n: ask.which_is_the_run(part, "predict-the-run"), _book()))


def swung() -> LivePicture:
    """Predict where a run laid along the slope strikes the toe; then see how much it costs on other tapers."""
    part = _plain()
    return LivePicture(
        draw_swung, _controls(), fixed=given(part), ask=Predict(lambda n: ask.along_slope(part, "predict-the-toe-mark"), _book())
    )


def protractor() -> LivePicture:
    """Predict what a protractor reads from square; then turn the line."""
    part = _plain()
    return LivePicture(
        draw_protractor, _controls(), fixed=given(part), ask=Predict(lambda n: ask.from_square(part, "predict-the-reading"), _book())
    )


def saw_turns() -> Ask:
    """Whether a miter saw turns so far."""
    return Ask(lambda n: ask.miter_saw(_plain()), _book())


def per_foot() -> LivePicture:
    """Predict the angle of a leg from its taper per foot; then compare it with round work."""
    return LivePicture(
        draw_foot,
        {"fall": ChoiceControl("Falls in a foot (in.)", FALLS, FALLS["6"])},
        ask=Predict(lambda n: ask.per_foot(FALLS["6"], "predict-the-angle"), _book()),
    )


def which_leg() -> AskPicture:
    """Which of four lines is the taper of a leg at an end."""
    placed = ask.Placed("B", 1)
    return AskPicture(lambda n: ask.which_line(placed, "step-bracket-which-line"), lambda n: _four(placed), _book())


def formula() -> FormulaCard:
    """The formulas of the triangle, with any numbers in them."""
    part = _plain()
    taper = part.tapers[0]
    controls = {
        "X": FractionControl("Run X (in.)", RUNS, taper.run),  # type: ignore[arg-type]
        "W": FractionControl("Leg's width W (in.)", fractions("3/4", "2", "1/8"), part.section.leg(taper.leg)),
        "s": FractionControl("Width left s (in.)", fractions("0", "3/4", "1/32"), taper.width_left),
    }
    return FormulaCard(write, controls)


def by_angle() -> FormulaCard:
    """The run of a taper that is given by its angle, with any numbers in it."""
    part = _plain()
    controls = {
        "theta": FractionControl("From the heel (deg)", ANGLES, Fraction(18)),
        "W": FractionControl("Leg's width W (in.)", fractions("3/4", "2", "1/8"), part.section.leg("B")),
        "s": FractionControl("Width left s (in.)", fractions("0", "3/4", "1/32"), part.tapers[0].width_left),
    }
    return FormulaCard(write_by_angle, controls)


def worked() -> Worked:
    """The worked part, every step shown."""
    part, shop = _plain(), Shop()
    line = taper_lines(part)[0]
    saw = line.offset(shop.allowance)
    steps = (
        f"Which leg, which end: leg {line.leg}, end {line.end}. Written on the metal, and the waste corner crossed.",
        f"Height: {exact(line.width)} less {exact(line.width_left)} left, {both(line.width - line.width_left)}.",
        f"Mark on the end: {both(line.width_left)} from the heel. Mark on the toe: {both(line.run)} from end {line.end}. Join them.",
        f"Angle: {ask.angle_step(line)} A protractor from square reads {line.from_square:.1f}.",
        f"Saw line, {exact(shop.allowance)} outside: on the toe {both(saw.toe)}, on the end {both(saw.end_height)} from the heel.",
    )
    check = f"Check before the saw: the rule along the line reads {both(line.edge_length)} from mark to mark; the width left, from the heel, {exact(line.width_left)}."
    return Worked(f"Worked part: {ask.described(part)}", steps, check)


def checks() -> Worked:
    """The same line checked three ways, and a fourth."""
    line = taper_lines(_plain())[0]
    steps = (
        f"Protractor, blade along the line, head on the heel: {minutes(line.angle)} from the heel; with the zero square, {minutes(line.from_square)}.",
        f"Taper per foot, one side: {decimal(line.taper_per_foot)}. On a sheet of paper 12 along and {both(line.taper_per_foot)} up give a line to set the bevel by.",
        f"Along the finished edge: {decimal(line.edge_length)} by the caliper.",
    )
    sine_bar = f"Sine bar, {BAR} in. between its rolls: {decimal(line.sine_bar(BAR), 4)} of gauge blocks under one of them."
    check = "They have to agree. Where they do not, one of them was read from the other zero."
    return Worked(f"Checked three ways: {line.angle:.2f} degrees from the heel", steps, check, ("A fourth way, with a sine bar", (sine_bar,)))


def last_step() -> Ask:
    """Another part with the last step left out."""
    return Ask(lambda n: ask.last_step(demo_part("A1R"), "floor-cleat-angle"), _book())


def all_steps() -> Questions:
    """A part with every step left out."""
    part, book = demo_part("A2R"), _book()
    return Questions(
        Ask(lambda n: ask.height(part, "side-stiffener-height"), book),
        Ask(lambda n: ask.angle(part, "side-stiffener-angle"), book),
        Ask(lambda n: ask.square_reading(part, "side-stiffener-from-square"), book),
    )


def exercise(which: int) -> Ask:
    """A checked exercise with fresh numbers on demand: 1 to 4."""
    name, series = list(ask.EXERCISES.items())[which - 1]
    title, book = f"Exercise {which}", _book()
    if name == "toe-mark":
        return AskMark(
            series.__getitem__,
            lambda n, mark, revealed: toe_mark_sheet(taper_lines(series.thing(n))[0], mark, revealed),
            lambda n: FractionControl("Toe mark (in.)", MARKS, MARKS[32]),
            book,
            fresh=True,
            title=title,
        )
    if name == "line":
        return AskPicture(series.__getitem__, lambda n: _four(series.thing(n)), book, fresh=True, title=title)
    if name == "slip":
        return AskPicture(series.__getitem__, lambda n: _made(series.thing(n)), book, fresh=True, title=title)
    return Ask(series.__getitem__, book, fresh=True, title=title)


def _four(placed: ask.Placed) -> Sheet:
    return four_lines_sheet(placed.order, few=ROOM.theme == "projector")


def _made(thing: ask.MadeWrong) -> Sheet:
    return made_taper_sheet(taper_lines(thing.part)[0], thing.made)


def stances() -> Still:
    """How the angle sits at the saw for this cut."""
    return Still(draw_stances(taper_lines(_plain())[0]))


def learned() -> Learned:
    """What the lesson was about, and what to carry to the bench."""
    return learned_in(LESSON)
