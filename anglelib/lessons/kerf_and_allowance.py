"""Lesson 05: where the saw runs, what it takes, what is left to sand, and what a blank and a batch come to.

What is computed, what is drawn and how they are wired are three separate things; each function below
the last heading is one cell of the notebook.

>>> draw_line({"line": Fraction(19, 4), "kerf": Fraction(1, 16), "allowance": Fraction(1, 32), "way": "outside", "wander": 0}, View()).title
'The saw beside the line'
>>> print(round(sawn_end().standard, 3), round(sawn_end().expanded, 3))
0.011 0.023
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from typing import Any

from anglelib.drawing.blade_view import Blade, Teeth, blade_sheet, teeth_sheet, test_cut_sheet
from anglelib.drawing.blank_view import BatchView, BlankView, batch_sheet, blank_sheet
from anglelib.drawing.saw_line import OUTSIDE, SPLIT, WAYS, SawLine, made_sheet, saw_line_sheet
from anglelib.drawing.scatter import scatter_sheet
from anglelib.drawing.sheet import Sheet
from anglelib.geometry.allowance import INK, READING, SQUARE, WANDER, growth, sawn_end
from anglelib.geometry.chain import batch_marks
from anglelib.geometry.lazy import formulas
from anglelib.job import Shop
from anglelib.lengths import both, decimal, exact
from anglelib.lessons.ask import Ask, Predict, Questions
from anglelib.lessons.ask_picture import AskPicture
from anglelib.lessons.controls import ChoiceControl, FractionControl, by_id, fractions
from anglelib.lessons.demo import demo_part
from anglelib.lessons.formula_card import FormulaCard, Written
from anglelib.lessons.learned import Learned, learned_in
from anglelib.lessons.live import LivePicture, Preset, View
from anglelib.lessons.openings import opening
from anglelib.lessons.words import Worked, latex_length
from anglelib.questions import kerf_and_allowance as ask
from anglelib.questions import recall as earlier
from anglelib.questions.answers import AnswerBook

LESSON = "05_kerf_and_allowance"
KERFS = fractions("1/32", "5/64", "1/64")
ALLOWANCES = fractions("1/64", "3/32", "1/64")
WANDERS = fractions("0", "3/64", "1/128")
DEGREES = fractions("0", "80", "5")
SET_AT = fractions("0", "3/64", "1/128")
SCATTERS = tuple(Fraction(n, 1000) for n in range(4, 17, 2))
TURNS = {0.0: "none", 0.2: "0.2 deg", 0.4: "0.4 deg"}
GAUGES = tuple(Fraction(n, 1000) for n in range(20, 51, 5))
SETS = tuple(Fraction(n, 1000) for n in range(0, 21, 2))
ENDS = {2: "both ends", 1: "end 2 only"}
COUNTS = {"2": 2, "3": 3, "4": 4}
BLADES = {str(n): n for n in (10, 14, 18, 24)}
THICKNESSES = {text: Fraction(text) for text in ("1/16", "1/8", "3/16")}


# --- computed -----------------------------------------------------------------------------------------
# --- drawn ------------------------------------------------------------------------------------------
NONE_LEFT = "none is left: the saw does not run outside the line"


def draw_line(values: Mapping[str, Any], view: View) -> Sheet:
    """The saw beside the line, one way or another."""
    cut = SawLine(values["line"], values["kerf"], values["allowance"])
    return saw_line_sheet(cut, values["way"], wander=values["wander"], answer=view.revealed, prediction=view.prediction, few=view.few)


def draw_blade(values: Mapping[str, Any], view: View) -> Sheet:
    """The blade from in front, in the slot that it cuts."""
    return blade_sheet(Blade(values["gauge"], values["set"]), answer=view.revealed, prediction=view.prediction, few=view.few)


def draw_blank(values: Mapping[str, Any], view: View) -> Sheet:
    """The finished part inside its blank."""
    shop = Shop(kerf=values["kerf"], allowance=values["allowance"])
    shown = BlankView(values["length"], shop, values["sawn"])
    # a prediction is for the part that was asked about
    prediction = view.prediction if values["length"] == ask.BY_HAND.length else None
    return blank_sheet(shown, answer=view.revealed, prediction=prediction, few=view.few)


def draw_scatter(values: Mapping[str, Any], view: View) -> Sheet:
    """A hundred cuts beside one line."""
    saw = replace(ask.SAW, position=float(values["scatter"]), angle=values["turn"])
    return scatter_sheet(saw, values["set_at"], answer=view.revealed, prediction=view.prediction, few=view.few)


def draw_batch(values: Mapping[str, Any], view: View) -> Sheet:
    """A batch marked end to end, and one with a kerf between two blanks."""
    shown = BatchView(values["blank"], values["count"], values["kerf"])
    prediction = view.prediction if values["count"] == values["asked"] else None
    return batch_sheet(shown, answer=view.revealed, prediction=prediction, few=view.few)


def draw_teeth(values: Mapping[str, Any], view: View) -> Sheet:
    """The teeth in a leg that lies flat and in one that slopes."""
    return teeth_sheet(Teeth(values["thickness"], values["per_inch"]), answer=view.revealed, few=view.few)


def write(values: Mapping[str, Fraction]) -> Written:
    """The formulas of the blank and the batch with some numbers in them, and their results in a sentence."""
    f = formulas()
    L, e, k, n_e, n_p = (values[name] for name in ("L", "e_s", "k", "n_e", "n_p"))
    blank = f.blank_length(L=L, n_e=n_e, e_s=e)
    middle = f.blade_middle(e_s=e, k=k)
    mark = f.batch_mark(n_p=n_p, L_b=blank, k=k)
    shown = {name: latex_length(value) for name, value in (*values.items(), ("L_b", blank))}

    def line(formula: Any, result: Fraction) -> str:
        numbers = formula.latex_with({q.letter: shown[q.letter] for q in formula.quantities}, latex_length(result))
        return f"{formula.latex} {numbers.removeprefix(formula.result.latex).strip()}"

    lines = [line(f.blank_length, blank), line(f.blade_middle, middle), line(f.batch_mark, mark)]
    said = f"The blank is {both(blank)}; the middle of the blade runs {both(middle)} outside the finished line; mark {exact(n_p)} of a batch stands at {both(mark)}."
    return lines, said


def write_heat(values: Mapping[str, Fraction]) -> Written:
    """The growth of a warm part, with some numbers in it."""
    f = formulas()
    grown = growth(float(values["L"]), float(values["dT"]))
    shown = {"L": latex_length(values["L"]), "dT": exact(values["dT"]), "alpha": r"23.6 \cdot 10^{-6}"}
    numbers = f.growth.latex_with(shown, decimal(grown)).removeprefix(f.growth.result.latex).strip()
    return [f"{f.growth.latex} {numbers}"], f"{decimal(grown)} longer warm than cold: {both(grown)}."


def figures() -> dict[str, Sheet]:
    """The lesson's ordinary pictures by file name: what lies on the bench, and the saw where it belongs."""
    cut = _line()
    return {
        f"{LESSON}.png": opening(LESSON),
        f"{LESSON}_outside.png": saw_line_sheet(cut, OUTSIDE, wander=WANDERS[2]),
    }


# --- wired: a function a cell -------------------------------------------------------------------------
def _book() -> AnswerBook:
    return AnswerBook(LESSON)


def _line() -> SawLine:
    """The bracket's end 2, sawn as the shop of the demo kit saws."""
    shop = Shop()
    return SawLine(demo_part("C1R").length, shop.kerf, shop.allowance)


def recall() -> Questions:
    """Three questions of earlier lessons."""
    book = _book()
    return Questions(
        Ask(lambda n: earlier.datum_end(), book), Ask(lambda n: earlier.what_weight_tells(), book), Ask(lambda n: ask.square_to_one_leg(), book)
    )


def beside_the_line() -> LivePicture:
    """Predict what comes off the saw that splits the line; then guide it otherwise."""
    cut = _line()
    return LivePicture(
        draw_line,
        {
            "way": ChoiceControl("The saw runs", by_id(WAYS), SPLIT),
            "kerf": FractionControl("Kerf k (in.)", KERFS, cut.kerf),
            "allowance": FractionControl("Allowance e (in.)", ALLOWANCES, cut.allowance),
            "wander": FractionControl("Wander, each way (in.)", WANDERS, WANDERS[2]),
        },
        fixed={"line": cut.line},
        idle=lambda values: {} if values["way"] == OUTSIDE else {"allowance": NONE_LEFT},
        ask=Predict(lambda n: ask.splits(ask.Cut(cut.line, cut.kerf, cut.allowance), "predict-the-piece"), _book()),
    )


def blade() -> LivePicture:
    """Predict the kerf from gauge and set; then look at other blades."""
    return LivePicture(
        draw_blade,
        {
            "gauge": ChoiceControl("Gauge (in.)", {decimal(gauge): gauge for gauge in GAUGES}, ask.BLADE.gauge),
            "set": FractionControl("Set, each side (in.)", SETS, ask.BLADE.set),
        },
        ask=Predict(lambda n: ask.kerf_of_blade(ask.BLADE, "predict-the-kerf"), _book()),
    )


def measured_kerf() -> AskPicture:
    """The kerf from a test cut."""
    return AskPicture(lambda n: ask.test_cut(ask.TEST), lambda n: test_cut_sheet(ask.TEST.before, ask.TEST.pieces), _book())


def blank() -> LivePicture:
    """Predict a blank sawn by hand; then other shops and other parts."""
    cut = ask.BY_HAND
    parts = [demo_part(id_) for id_ in ("C1R", "A3", "E1")]
    return LivePicture(
        draw_blank,
        {
            "sawn": ChoiceControl("Sawn", by_id(ENDS), cut.sawn),
            "allowance": FractionControl("Allowance e (in.)", ALLOWANCES, cut.allowance),
            "kerf": FractionControl("Kerf k (in.)", KERFS, cut.kerf),
        },
        presets={part.id: Preset(part.name, {"length": part.length}) for part in parts},
        ask=Predict(lambda n: ask.blank(cut, "predict-the-blank"), _book()),
    )


def scatter() -> LivePicture:
    """Predict how many of a hundred cuts cross a line that the saw is set on; then leave an allowance."""
    return LivePicture(
        draw_scatter,
        {
            "set_at": FractionControl("Allowance e (in.)", SET_AT, Fraction(0)),
            "scatter": FractionControl("Scatter u (in.)", SCATTERS, Fraction(str(ask.SAW.position))),
            "turn": ChoiceControl("Turns by", by_id(TURNS), ask.SAW.angle),
        },
        ask=Predict(lambda n: ask.crossing_at_the_line(ask.SAW, "predict-the-cuts"), _book()),
    )


def budget() -> Worked:
    """Where the scatter of the picture comes from."""
    found = sawn_end()
    shares = (
        f"Reading the rule: within {exact(READING)} either way. Limits alone, so divided by the root of 3: {found.contributions[0].standard:.4f}.",
        f"The ink is {decimal(INK)} wide, so within {decimal(INK / 2)} either way: {found.contributions[1].standard:.4f}.",
        f"The square: {SQUARE:.4f}. It hardly matters.",
        f"The saw wanders by up to {decimal(WANDER)} either way: {found.contributions[3].standard:.4f}.",
        f"Square each, add the squares, take the root: {found.standard:.3f}.",
    )
    steps = (
        "Four things scatter: the reading of the rule, the width of the ink, the square, and the saw.",
        f"Together they scatter by u = {found.standard:.3f}. Twice that, {found.expanded:.3f}, holds about 95 cuts of 100.",
    )
    largest = found.largest.name
    check = f"Check: the largest share decides most. Here it is {largest}; a finer rule would change little."
    return Worked("Worked scatter of one sawn end, inches; the limits are guesses: measure your own", steps, check, ("How the four are added up", shares))


def batch() -> LivePicture:
    """Predict the last mark of a batch; then see what marks without a kerf make of it."""
    asked = ask.Batch(Fraction(63, 16), Fraction(1, 16), 4)
    return LivePicture(
        draw_batch,
        {"count": ChoiceControl("Pieces", COUNTS, asked.piece), "kerf": FractionControl("Kerf k (in.)", KERFS, asked.kerf)},
        fixed={"blank": asked.blank, "asked": asked.piece},
        ask=Predict(lambda n: ask.batch_mark(asked, "predict-the-mark"), _book()),
    )


def in_the_middle() -> Ask:
    """What a piece in the middle of a chained batch comes out as."""
    return Ask(lambda n: ask.middle_piece(ask.Batch(Fraction(63, 16), Fraction(1, 16), 4)), _book())


def teeth() -> LivePicture:
    """Predict how much metal a blade sees heel up; then count the teeth in it."""
    start = Teeth(Fraction(1, 8), 14)
    return LivePicture(
        draw_teeth,
        {
            "per_inch": ChoiceControl("Teeth to the inch", BLADES, start.per_inch),
            "thickness": ChoiceControl("Leg thick (in.)", THICKNESSES, start.thickness),
        },
        ask=Predict(lambda n: ask.metal_heel_up(start, "predict-the-metal"), _book()),
    )


def which_blade() -> Ask:
    """The coarsest blade for a leg that lies flat."""
    return Ask(lambda n: ask.coarsest_blade(Fraction(1, 8)), _book())


def formula() -> FormulaCard:
    """The formulas of the blank and the batch, with any numbers in them."""
    shop = Shop()
    controls = {
        "L": FractionControl("Part L (in.)", fractions("1", "24", "1/8"), demo_part("C1R").length),
        "e_s": FractionControl("Allowance e (in.)", (Fraction(0), *ALLOWANCES), shop.allowance),
        "n_e": FractionControl("Sawn ends n", fractions("1", "2", "1"), Fraction(2)),
        "k": FractionControl("Kerf k (in.)", KERFS, shop.kerf),
        "n_p": FractionControl("Piece of the batch", fractions("1", "6", "1"), Fraction(3)),
    }
    return FormulaCard(write, controls)


def worked() -> Worked:
    """The worked part, every step shown."""
    part, shop = demo_part("C1R"), Shop()
    cut = ask.Cut(part.length, shop.kerf, shop.allowance)
    second = batch_marks(cut.blank, 2, shop.kerf)[-1]
    steps = (
        f"Kerf: a test cut. {ask.test_cut(ask.TEST).working} On the rule that is {exact(shop.kerf)}.",
        f"Allowance: twice the scatter, {sawn_end().expanded:.3f}, and a little: {exact(shop.allowance)} at each sawn end.",
        f"Blank: {ask.blank_step(cut)}",
        f"Saw line at end 2: {exact(shop.allowance)} outside the line, so {both(part.length + shop.allowance)} from the line of end 1.",
        f"Left and right from one stick: the first saw mark at {both(cut.blank)}, the second a kerf and a blank further, at {both(second)}.",
    )
    check = (
        f"Check: after the first cut the caliper reads {decimal(cut.blank)} on the blank. After sanding both ends, cold, it reads {decimal(part.length)}."
    )
    return Worked(f"Worked part: {part.name}, {exact(part.length)} long, by machine", steps, check)


def last_step() -> Ask:
    """Another part with the last step left out."""
    part = demo_part("E1")
    return Ask(lambda n: ask.last_step(ask.Cut(part.length, Fraction(3, 64), Fraction(1, 16)), "battery-foot-blank"), _book())


def all_steps() -> Questions:
    """A blade, a part and a batch with every step left out."""
    book, part = _book(), demo_part("A3")
    test = ask.TestCut(Fraction(5), (Fraction("2.517"), Fraction("2.436")))
    cut = ask.Cut(part.length, Fraction(3, 64), Fraction(1, 32))
    # no prompt tells the answer of the one before it
    blank = replace(
        ask.blank(cut, "floor-bar-blank"),
        prompt=f"With that saw: a bar is to be {exact(cut.length)} long, both ends are sawn, and each gets {exact(cut.allowance)} to sand. How long is its blank?",
    )
    mark = replace(
        ask.batch_mark(ask.Batch(cut.blank, cut.kerf, 3), "floor-bar-third-mark"),
        prompt=f"Three such blanks from one stick, marked from its squared end, the kerf taken as {exact(cut.kerf)}. Where is mark 3?",
    )
    return Questions(Ask(lambda n: ask.test_cut(test, "floor-bar-kerf"), book), Ask(lambda n: blank, book), Ask(lambda n: mark, book))


def warm() -> Ask:
    """How long a part is when cold that was measured warm."""
    part = demo_part("A3")
    return Ask(lambda n: ask.cold_length(part.length, 40), _book())


def heat() -> FormulaCard:
    """How much longer a warm part is, with any numbers in it."""
    controls = {
        "L": FractionControl("Part L (in.)", fractions("1", "72", "1/4"), demo_part("A3").length),
        "dT": FractionControl("Warmer by (deg C)", DEGREES, DEGREES[8]),
    }
    return FormulaCard(write_heat, controls)


def exercise(which: int) -> Ask:
    """A checked exercise with fresh numbers on demand: 1, 2 or 3."""
    series = list(ask.EXERCISES.values())[which - 1]
    title = f"Exercise {which}"
    if which == 3:
        return AskPicture(series.__getitem__, lambda n: _made(series.thing(n)), _book(), fresh=True, title=title)
    return Ask(series.__getitem__, _book(), fresh=True, title=title)


def _made(slip: ask.Slip) -> Sheet:
    return made_sheet(slip.off, slip.id == "M13")


def learned() -> Learned:
    """What the lesson was about, and what to carry to the bench."""
    return learned_in(LESSON)
