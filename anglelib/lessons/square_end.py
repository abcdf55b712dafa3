"""Lesson 03: an end squared on both legs; what the light says, what it costs, and whether the square is true.

What is computed, what is drawn and how they are wired are three separate things; each function below
the last heading is one cell of the notebook.

>>> out_of({"toe_a": 0, "toe_b": -2})
(Fraction(0, 1), Fraction(-1, 32))
>>> draw_light({"section": SECTIONS["middle"], "leg": "B", "toe_a": 0, "toe_b": 2}, View(revealed=False)).title
'The square on leg A'
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from anglelib.drawing.end_trim import Shown as Trimmed
from anglelib.drawing.end_trim import trim_of, trim_sheet
from anglelib.drawing.flipped import BLADE, OVER, POSITIONS, Flip, flip_sheet
from anglelib.drawing.flipped import Shown as Turned
from anglelib.drawing.sheet import Sheet
from anglelib.drawing.try_square import Tried, degrees, light_sheet, seen
from anglelib.drawing.turned_square import Shown as Reversed
from anglelib.drawing.turned_square import Tried as Twice
from anglelib.drawing.turned_square import turned_sheet
from anglelib.geometry.lazy import formulas
from anglelib.job import Shop
from anglelib.lengths import both, decimal, exact
from anglelib.lessons.ask import Ask, Predict, Questions
from anglelib.lessons.ask_picture import AskPicture
from anglelib.lessons.controls import ChoiceControl, FractionControl, NumberControl, by_id, fractions
from anglelib.lessons.formula_card import FormulaCard, Written
from anglelib.lessons.learned import Learned, learned_in
from anglelib.lessons.live import LivePicture, Preset, View
from anglelib.lessons.openings import opening
from anglelib.lessons.words import Worked, latex_length
from anglelib.questions import recall as earlier
from anglelib.questions import square_end as ask
from anglelib.questions.answers import AnswerBook
from anglelib.section import Section
from anglelib.tolerances import angular

LESSON = "03_square_end"
MOST = 4
"""How far a toe stands out or falls back at most [1/64 in.]."""
SECTIONS = {
    "middle": Section("1 1/4", "1 1/4", "1/8", fillet="1/8"),
    "small": Section("3/4", "3/4", "1/8", fillet="1/8"),
    "unequal": Section("1 1/2", "1", "1/8", fillet="1/8"),
}
"""Sections by id."""
LEGS = ("A", "B")


# --- computed -----------------------------------------------------------------------------------------
def out_of(values: Mapping[str, Any]) -> tuple[Fraction, Fraction]:
    """By how much the toes of leg A and leg B stand out [in], from 64ths."""
    return Fraction(values["toe_a"], 64), Fraction(values["toe_b"], 64)


def square_is_out(blade: Fraction = Fraction(1, 1000), over: Fraction = Fraction(5, 4)) -> Fraction:
    """What a square that is out by so much in 6 in. adds to the light over a leg [in]."""
    return blade * over / BLADE


# --- drawn ------------------------------------------------------------------------------------------
def draw_light(values: Mapping[str, Any], view: View) -> Sheet:
    """The square on a leg; before the prediction on leg A only, and leg B not to be seen."""
    if not view.revealed:
        return light_sheet(values["section"], (Fraction(0), Fraction(0)), "A", Tried(both=False, few=view.few))
    return light_sheet(values["section"], out_of(values), values["leg"], Tried(few=view.few))


def draw_angle(values: Mapping[str, Any], view: View) -> Sheet:
    """Light on leg A; its angle, and the predicted one, once it may be seen."""
    guess = None if view.prediction is None else float(view.prediction)
    return light_sheet(values["section"], (Fraction(values["toe_a"], 64), Fraction(0)), "A", Tried(angle=view.revealed, prediction=guess, few=view.few))


def draw_trim(values: Mapping[str, Any], view: View) -> Sheet:
    """The end unfolded, and what must come off it."""
    return trim_sheet(values["section"], out_of(values), Trimmed(view.revealed, view.prediction, view.few))


def draw_flip(values: Mapping[str, Any], view: View) -> Sheet:
    """The flip test; the square is turned over once the prediction is in."""
    flip = Flip(Fraction(values["error"], 64), values["position"], values["height"])
    return flip_sheet(flip, Turned(view.revealed, view.prediction, view.few))


def draw_turned(values: Mapping[str, Any], view: View) -> Sheet:
    """A doubtful square on the end, from the heel; turned over once the prediction is in."""
    tried = Twice(values["section"].leg_a, Fraction(values["toe_a"], 64), Fraction(values["lean"], 64))
    return turned_sheet(tried, Reversed(view.revealed, view.prediction, view.few))


def draw_exercise(end: ask.Sawn) -> Sheet:
    """Light on leg A, with no word of what it says."""
    return light_sheet(end.section, end.out, "A", Tried(both=False, angle=False, silent=True, few=True))


def write(values: Mapping[str, Fraction]) -> Written:
    """The angle from the light, and the square's own error from the flip test, with some numbers in them."""
    f = formulas()
    out, flip = f.out_of_square, f.flip_gap.solved_for("e_q")
    g, W, gap, height = (float(values[name]) for name in ("g", "W", "g_f", "h_q"))
    angle, lean = out(g=g, W=W), flip(g_f=gap, h_q=height)
    lines = []
    for formula, result in ((out, angle), (flip, lean)):
        shown = {q.letter: latex_length(values[q.letter]) for q in formula.quantities}
        numbers = formula.latex_with(shown, rf"{result:.2f}^\circ")
        lines.append(f"{formula.latex} {numbers.removeprefix(formula.result.latex).strip()}")
    return lines, (
        f"Light of {exact(values['g'])} on a leg {exact(values['W'])} wide: {angle:.2f} degrees out of square. Lines {exact(values['g_f'])} apart "
        f"{exact(values['h_q'])} up: the square is out by {decimal(values['g_f'] / 2)} there, {lean:.2f} degrees."
    )


def figures() -> dict[str, Sheet]:
    """The lesson's ordinary pictures by file name: what lies on the bench, the twisted end, and the flip test."""
    section, twist = SECTIONS["middle"], (Fraction(1, 32), Fraction(-1, 32))
    return {
        f"{LESSON}.png": opening(LESSON),
        f"{LESSON}_trim.png": trim_sheet(section, twist),
    }


# --- wired: a function a cell -------------------------------------------------------------------------
def _book() -> AnswerBook:
    return AnswerBook(LESSON)


def _toe(leg: str, value: int) -> NumberControl:
    return NumberControl(f"Toe {leg} stands out (64ths)", -MOST, MOST, value)


def _presets() -> dict[str, Preset]:
    return {id_: Preset(f"angle {_legs(section)}", {"section": section}) for id_, section in SECTIONS.items()}


def _legs(section: Section) -> str:
    return exact(section.leg_a) + ("" if section.equal_legs else f" x {exact(section.leg_b)}")


def recall() -> Questions:
    """Three questions of earlier lessons."""
    book = _book()
    return Questions(
        Ask(lambda n: earlier.name_of_vertex(), book),
        Ask(lambda n: earlier.what_weight_tells(), book),
        Ask(lambda n: ask.turned_end_for_end(), book),
    )


def light() -> LivePicture:
    """Predict whether an end that is square on leg A is square; then lay the square on leg B."""
    return LivePicture(
        draw_light,
        {"leg": ChoiceControl("The square on leg", LEGS, "B"), "toe_a": _toe("A", 0), "toe_b": _toe("B", 2)},
        presets=_presets(),
        ask=Predict(lambda n: ask.is_it_square("predict-whether-it-is-square"), _book()),
        waits=("leg", "toe_a", "toe_b"),
    )


def angle() -> LivePicture:
    """Predict the angle that the light stands for; then try other lights and other legs."""
    lit = ask.Lit(SECTIONS["middle"].leg_a, Fraction(1, 32))
    return LivePicture(
        draw_angle,
        {"toe_a": _toe("A", -2)},
        presets=_presets(),
        ask=Predict(lambda n: ask.angle(lit, "predict-the-angle"), _book()),
    )


def trim() -> LivePicture:
    """Predict what a twisted end costs; then turn one leg's error round."""
    end = ask.Sawn(SECTIONS["middle"], (Fraction(1, 32), Fraction(-1, 32)))
    return LivePicture(
        draw_trim,
        {"toe_a": _toe("A", 2), "toe_b": _toe("B", -2)},
        presets=_presets(),
        ask=Predict(lambda n: ask.trim(end, "predict-the-trim"), _book()),
    )


def flip() -> LivePicture:
    """Predict how far the lines of the flip test part; then turn the square over."""
    return LivePicture(
        draw_flip,
        {
            "position": ChoiceControl("The square lies", by_id(POSITIONS), OVER),
            "error": NumberControl("Out in 6 in. (64ths)", 0, MOST, 2),
            "height": FractionControl("Compared at (in.)", fractions("1", "6", "1/2"), BLADE),
        },
        ask=Predict(lambda n: ask.lines_part(Fraction(1, 32), "predict-the-lines"), _book()),
    )


def turned() -> LivePicture:
    """Predict what two readings say of the end; then change the end and the square."""
    section = SECTIONS["middle"]
    tried = Twice(section.leg_a, Fraction(-3, 64), Fraction(1, 64))
    return LivePicture(
        draw_turned,
        {"toe_a": _toe("A", -3), "lean": NumberControl("Square out (64ths)", -2, 2, 1)},
        fixed={"section": section},
        ask=Predict(lambda n: ask.two_readings(tried, "predict-the-end"), _book()),
        waits=("toe_a", "lean"),
    )


def formula() -> FormulaCard:
    """The formulas of the light and of the flip test, with any numbers in them."""
    controls = {
        "g": FractionControl("Light g (in.)", fractions("0", "1/8", "1/64"), Fraction(1, 32)),
        "W": FractionControl("Leg's width W (in.)", fractions("1/2", "2", "1/4"), Fraction(5, 4)),
        "g_f": FractionControl("Lines apart (in.)", fractions("0", "1/4", "1/64"), Fraction(1, 16)),
        "h_q": FractionControl("Height (in.)", fractions("1", "12", "1/2"), Fraction(6)),
    }
    return FormulaCard(write, controls)


def _worked_end() -> ask.Sawn:
    return ask.Sawn(SECTIONS["middle"], (Fraction(-1, 64), Fraction(1, 32)))


def worked() -> Worked:
    """The worked part, every step shown."""
    end, shop = _worked_end(), Shop()
    a, b = (abs(v) for v in end.out)
    whole = trim_of(end.section, end.out)
    allowed = float(angular(end.section.leg_a))
    more = "more" if whole > shop.allowance else "not more"
    steps = (
        f"Leg A. {seen(end.out[0], 'A')} That is {degrees(a, end.section.leg_a):.1f} degrees.",
        f"Leg B. {seen(end.out[1], 'B')} That is {degrees(b, end.section.leg_b):.1f} degrees.",
        f"Is it good enough? The general tolerance for such short legs is {allowed:.1f} degrees: no, on neither leg.",
        f"The trim. {ask.trim_step(end)}",
        f"Is there metal for it? The blank has {both(shop.allowance)} to sand, and the trim is {more}: "
        f"{'saw it again, at the stop, square on both legs' if whole > shop.allowance else 'sand it'}.",
    )
    check = "Check: after the cut, the square on leg A, then on leg B; no light on either. Then this end is the datum."
    return Worked(f"Worked part: the first end of a blank, angle {end.section.size}", steps, check)


def last_step() -> Ask:
    """Another end with the last step left out."""
    end = ask.Sawn(SECTIONS["unequal"], (Fraction(1, 64), Fraction(-1, 64)))
    return Ask(lambda n: ask.last_step(end, "seat-rail-trim"), _book())


def all_steps() -> Questions:
    """An end with every step left out."""
    end, book = ask.Sawn(SECTIONS["small"], (Fraction(-1, 64), Fraction(-1, 64))), _book()
    lit = ask.Lit(end.section.leg_a, Fraction(1, 64))
    return Questions(
        Ask(lambda n: ask.angle(lit, "floor-cleat-angle"), book),
        Ask(lambda n: ask.trim(end, "floor-cleat-trim"), book),
        Ask(lambda n: ask.enough(end, Shop(), "floor-cleat-enough"), book),
    )


def exercise(which: int) -> Ask:
    """A checked exercise with fresh numbers on demand: 1 to 4."""
    name, series = list(ask.EXERCISES.items())[which - 1]
    title = f"Exercise {which}"
    if name == "light":
        return AskPicture(series.__getitem__, lambda n: draw_exercise(series.thing(n)), _book(), fresh=True, title=title)
    return Ask(series.__getitem__, _book(), fresh=True, title=title)


def learned() -> Learned:
    """What the lesson was about, and what to carry to the bench."""
    return learned_in(LESSON)
