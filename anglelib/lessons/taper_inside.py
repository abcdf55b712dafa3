"""Lesson 07: a taper's line on the inside of the angle, where the other leg hides the vertex.

What is computed, what is drawn and how they are wired are three separate things; each function below
the last heading is one cell of the notebook.

>>> compute(given(demo_part("C1R"))).vertex_projection
Fraction(17, 80)
>>> draw(given(demo_part("C1R")), View(revealed=False)).title
'A taper on the inside'
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from anglelib.drawing.see_through import Shown, see_through_sheet
from anglelib.drawing.sheet import Sheet
from anglelib.drawing.wrong_line import CORNER, MISTAKES, wrong_line_sheet
from anglelib.geometry.block import CLEARANCE
from anglelib.geometry.layout import witness_line
from anglelib.geometry.lazy import formulas
from anglelib.geometry.setup import inside_up, outside_up
from anglelib.geometry.taper import TaperLine, taper_lines
from anglelib.job import Shop
from anglelib.lengths import both, decimal, exact, unit_word
from anglelib.lessons.ask import Ask, Predict, Questions
from anglelib.lessons.controls import ChoiceControl, FractionControl, NumberControl, by_id, fractions
from anglelib.lessons.demo import demo_part
from anglelib.lessons.formula_card import FormulaCard, Written
from anglelib.lessons.learned import Learned, learned_in
from anglelib.lessons.live import LivePicture, Preset, Still, View
from anglelib.lessons.openings import opening
from anglelib.lessons.words import Worked, latex_length, latex_number
from anglelib.paper.stance import side_by_side
from anglelib.part import BROKEN, Part, Taper
from anglelib.questions import recall as earlier
from anglelib.questions import taper_inside as ask
from anglelib.questions.answers import AnswerBook
from anglelib.section import Section

LESSON = "07_taper_inside"
RUNS = fractions("1", "3 1/2", "1/16")
LEFTS = fractions("0", "3/4", "1/32")
THICKNESSES = {text: Fraction(text) for text in ("1/16", "1/8", "3/16", "1/4")}


# --- computed -----------------------------------------------------------------------------------------
def given(part: Part) -> dict[str, Any]:
    """What a part's first taper gives a picture: section, leg, end, run, width left."""
    line = taper_lines(part)[0]
    return {"section": part.section, "leg": line.leg, "end": line.end, "run": line.run, "left": line.width_left}


def compute(values: Mapping[str, Any]) -> TaperLine:
    """The line for some values; ``own`` and ``other`` are the thicknesses of the tapered and of the other leg."""
    section, leg = values["section"], values["leg"]
    if "own" in values:
        thick = (values["own"], values["other"]) if leg == "A" else (values["other"], values["own"])
        section = Section(section.leg_a, section.leg_b, *thick, section.fillet)
    return TaperLine.of(section, Taper(leg, values["end"], values["left"], run=values["run"]))


def reach(line: TaperLine) -> float:
    """How much of the angle is drawn [in]: the same for every line on a section."""
    return 3 * float(line.width)


# --- drawn ------------------------------------------------------------------------------------------
def draw(values: Mapping[str, Any], view: View) -> Sheet:
    """The angle seen through, and its inside unrolled."""
    line = compute(values)
    shown = Shown(
        opened=values.get("opened", 0) / 100,
        answer=view.revealed,
        prediction=view.prediction,
        reach=reach(line),
        few=view.few,
    )
    return see_through_sheet(line, shown)


def draw_mistake(values: Mapping[str, Any], view: View) -> Sheet:
    """A wrong line beside the right one; before the prediction only the question's own line."""
    line = compute(values)
    if not view.revealed:
        return see_through_sheet(line, Shown(answer=False, reach=reach(line), few=view.few))
    return wrong_line_sheet(line, values["mistake"], reach=reach(line), few=view.few)


def draw_ways(line: TaperLine) -> Sheet:
    """How the angle sits for the inside mark and for the block underneath, seen from the tapered end."""
    inside, outside = inside_up(line), outside_up(line)
    items = side_by_side(line, ((inside, "the inside mark"), (outside, "a block underneath")), 58)
    sentence = (
        f"How the angle sits at the saw, seen from end {line.end}; the face that carries the line is drawn thick. On the "
        f"left {inside.words}: the guide clears {exact(inside.height)}. On the right {outside.words}: the block is at least "
        f"{exact(outside.block.height)} high, and the toe hangs {exact(CLEARANCE)} clear of the table."
    )
    return Sheet(200, 66, tuple(items), "Two ways to lay the angle", sentence)


def write(values: Mapping[str, Fraction]) -> Written:
    """The formulas of the marks with some numbers in them, and their results in a sentence."""
    f = formulas()
    X, W, s, t, r = (values[name] for name in ("X", "W", "s", "t", "r"))
    if s >= W:
        return [f.slope_from_run.latex], f"The width left, {exact(s)}, is not below the width of the leg: nothing is cut."
    c = f.slope_from_run(X=X, W=W, s=s)
    shown = {**{name: latex_length(value) for name, value in values.items()}, "c": latex_number(c)}

    def line(formula: Any, result: Fraction) -> str:
        number = latex_number(result) if formula is f.slope_from_run else latex_length(result)
        numbers = formula.latex_with({q.letter: shown[q.letter] for q in formula.quantities}, number)
        return f"{formula.latex} {numbers.removeprefix(formula.result.latex).strip()}"

    lines = [line(f.slope_from_run, c)]
    said = [f"{decimal(c)} {unit_word()} of run for each {unit_word(one=True)} of height"]
    if s < t:
        mark = f.vertex_projection(t=t, s=s, c=c)
        lines.append(line(f.vertex_projection, mark))
        said.append(f"the mark on the other leg at {both(mark)}")
    if s < t + r:
        flat = f.first_flat_mark(t=t, r=r, s=s, c=c)
        lines.append(line(f.first_flat_mark, flat))
        said.append(f"the first mark on the flat at {both(flat)}")
    return lines, f"{'; '.join(said)}." + ("" if s < t else " The line does not reach the other leg.")


def figures() -> dict[str, Sheet]:
    """The lesson's ordinary pictures by file name: what lies on the bench, and the marks."""
    line = taper_lines(_plain())[0]
    return {
        f"{LESSON}.png": opening(LESSON),
        f"{LESSON}_marks.png": see_through_sheet(line, Shown(reach=reach(line))),
    }


# --- wired: a function a cell -------------------------------------------------------------------------
def _book() -> AnswerBook:
    return AnswerBook(LESSON)


def _plain() -> Part:
    """The worked part: its taper runs to the vertex. The right-hand one has end 1 at the left when its tapered leg lies flat."""
    return demo_part("C1R")


def _run(part: Part) -> FractionControl:
    return FractionControl("Run X (in.)", RUNS, part.tapers[0].run)  # type: ignore[arg-type]


def recall() -> Questions:
    """Three questions of earlier lessons."""
    part, book = _plain(), _book()
    return Questions(
        Ask(lambda n: earlier.name_of_vertex(), book),
        Ask(lambda n: earlier.blank_length(part, Shop()), book),
        Ask(lambda n: earlier.height_on_line(part), book),
    )


def project() -> LivePicture:
    """Predict the mark on the inside of leg B; then see it, and unroll the inside."""
    part = _plain()
    return LivePicture(
        draw,
        {"opened": NumberControl("Unrolled (%)", 0, 100, 40, 5)},
        fixed=given(part),
        ask=Predict(lambda n: ask.vertex_projection(part, "predict-the-mark"), _book()),
    )


def thicknesses() -> LivePicture:
    """Predict whose thickness counts; then change one and the other."""
    part = _plain()
    line = taper_lines(part)[0]
    return LivePicture(
        draw,
        {
            "own": ChoiceControl(f"Leg {line.leg} thick (in.)", THICKNESSES, part.section.thickness(line.leg)),
            "other": ChoiceControl(f"Leg {line.other} thick (in.)", THICKNESSES, line.other_thickness),
        },
        fixed=given(part),
        ask=Predict(lambda n: ask.which_thickness(part, "predict-the-thickness"), _book()),
    )


def slopes() -> LivePicture:
    """Predict what a longer run does; then change run and width left, on the parts of the demo kit."""
    part = _plain()
    jobs = (part, demo_part("C1L"), demo_part("C2R"), demo_part("E1").turned(), demo_part("E2R"))
    return LivePicture(
        draw,
        {"run": _run(part), "left": FractionControl("Width left s (in.)", LEFTS, Fraction(0))},
        presets={job.id: Preset(job.name, given(job)) for job in jobs},
        ask=Predict(lambda n: ask.when_run_grows(part, "predict-a-longer-run"), _book()),
    )


def inside_corner() -> LivePicture:
    """Predict what a line aimed at the inside corner leaves; then see it, and the line carried over the fillet."""
    part = _plain()
    return LivePicture(
        draw_mistake,
        {"mistake": ChoiceControl("The line", by_id(MISTAKES), CORNER), "run": _run(part)},
        fixed=given(part),
        ask=Predict(lambda n: ask.left_by_inside_corner(part, "predict-what-is-left"), _book()),
    )


def formula() -> FormulaCard:
    """The formulas of the marks, with any numbers in them."""
    part = _plain()
    section, taper = part.section, part.tapers[0]
    thick = fractions("1/16", "1/4", "1/32")
    controls = {
        "X": _run(part),
        "W": FractionControl("Leg's width W (in.)", fractions("3/4", "2", "1/8"), section.leg_a),
        "s": FractionControl("Width left s (in.)", LEFTS, taper.width_left),
        "t": FractionControl("Other leg t (in.)", thick, section.thickness_b),
        "r": FractionControl("Fillet r (in.)", fractions("0", "1/4", "1/32"), section.fillet),
    }
    return FormulaCard(write, controls)


def worked() -> Worked:
    """The worked part, every step shown."""
    part = _plain()
    line = taper_lines(part)[0]
    steps = (
        f"The taper takes end 1 away. So first a witness line, square across both legs, {both(witness_line(part))} from end 1.",  # type: ignore[arg-type]
        ask.slope_step(line),
        f"Toe: {both(line.run)} from end 1, on the toe's edge, carried to the inner face, which is up.",
        f"On leg {line.other}: {_small(ask.vertex_step(line))}",
        f"On leg {line.leg}: {_small(ask.first_flat_step(line))}",
    )
    check = (
        "Check: a rule laid through the toe mark and the mark beside the fillet points at the vertex, not at the inside "
        f"corner; along the heel the two marks are {decimal(line.run - line.first_flat)} apart. Breaking the feather edge by "  # type: ignore[operator]
        f"{exact(BROKEN)} takes up to {decimal(line.blunting(BROKEN))} off the heel; to blunt it further is for the plans to say."
    )
    return Worked(f"Worked part: {ask.described(part)}", steps, check)


def _small(sentence: str) -> str:
    return sentence[0].lower() + sentence[1:]


def last_step() -> Ask:
    """The same kind of part with the last step left out."""
    part = demo_part("E1").turned()  # the same metal, end for end
    return Ask(lambda n: ask.last_step(part, "battery-foot"), _book())


def all_steps() -> Questions:
    """A part with every step left out: its taper ends inside the fillet."""
    part, book = demo_part("C2R"), _book()
    return Questions(
        Ask(lambda n: ask.leaves_through(part, "fairing-angle-where"), book),
        Ask(lambda n: ask.first_flat(part, "fairing-angle-mark"), book),
    )


def exercise(which: int) -> Ask:
    """A checked exercise with fresh numbers on demand: 1, 2 or 3."""
    series = list(ask.EXERCISES.values())[which - 1]
    return Ask(series.__getitem__, _book(), fresh=True, title=f"Exercise {which}")


def ways() -> Still:
    """The two ways to lay the angle for this cut."""
    return Still(draw_ways(taper_lines(_plain())[0]))


def learned() -> Learned:
    """What the lesson was about, and what to carry to the bench."""
    return learned_in(LESSON)
