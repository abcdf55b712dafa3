"""Lesson 08: the order of work as cards; what is in the hand at each, where the datum is, what a slip costs.

What is computed, what is drawn and how they are wired are three separate things; each function below
the last heading is one cell of the notebook.

>>> values = {"part": ask.BRACKET, "order": ask.cut_first(ask.BRACKET, Shop()), "stick": Fraction(24)}
>>> draw(values, View(revealed=False)).sentence.split(". ")[-1]
'What is in the hand at each, and what is lost if it fails, is not shown yet.'
>>> draw(values, View()).sentence.split(". ")[-1]
'Card 6 lies wrong: The part is off the stick: 4 3/4 in the hand, and a slip costs all of it.'
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from anglelib.drawing.dressed import LAID_OUT, WAYS, Dressing, dressed_sheet
from anglelib.drawing.sheet import Sheet
from anglelib.drawing.work_cards import Laid, Shown, work_cards_sheet, worst
from anglelib.geometry.layout import witness_line
from anglelib.geometry.lazy import formulas
from anglelib.geometry.order import LENGTH, walk, whole
from anglelib.job import Shop
from anglelib.lengths import both, exact
from anglelib.lessons.ask import Ask, Predict, Questions
from anglelib.lessons.ask_order import AskOrder, OrderEntry
from anglelib.lessons.controls import ChoiceControl, FractionControl, by_id, fractions
from anglelib.lessons.demo import demo_part
from anglelib.lessons.formula_card import FormulaCard, Written
from anglelib.lessons.learned import Learned, learned_in
from anglelib.lessons.live import LivePicture, View
from anglelib.lessons.openings import opening
from anglelib.lessons.table import Table
from anglelib.lessons.words import Worked, latex_length
from anglelib.part import Part
from anglelib.questions import order_of_work as ask
from anglelib.questions import recall as earlier
from anglelib.questions import taper_inside
from anglelib.questions.answers import AnswerBook
from anglelib.questions.dressing import HINGE
from anglelib.questions.question import Question

LESSON = "08_order_of_work"
STICKS = fractions("8", "48", "1/2")
DRESSINGS = fractions("0", "3/32", "1/64")


# --- computed -----------------------------------------------------------------------------------------
def laid(values: Mapping[str, Any]) -> Laid:
    """The cards of the part as they lie."""
    return Laid(values["part"], tuple(values["order"]), values["stick"])


def compared(part: Part) -> list[tuple[str, str, str, str]]:
    """Both orders beside each other: what is in the hand at the harder taper, and what it costs if it fails."""
    rows = []
    for name, order in (("cut to length first", ask.cut_first(part, Shop())), ("the order of work", ())):
        steps = walk(part, Shop(), ask.STICK, order)
        hard = worst(steps, part)
        held = f"{exact(hard.held)}" + (", clamped" if hard.clamped else "")
        rows.append((name, held, both(hard.metal), str(hard.again)))
    return rows


# --- drawn ------------------------------------------------------------------------------------------
def draw(values: Mapping[str, Any], view: View) -> Sheet:
    """The cards in the learner's order; costs and what is in the hand once the prediction is in."""
    return work_cards_sheet(laid(values), Shown(view.revealed, view.prediction, view.few))


def draw_dressed(values: Mapping[str, Any], view: View) -> Sheet:
    """A hole and an end that is dressed after its layout, or before."""
    way = values["way"] if view.revealed else LAID_OUT
    taken = values["taken"] if view.revealed else HINGE.dressing
    return dressed_sheet(Dressing(HINGE.at, taken, way), view.revealed, view.prediction, view.few)


def write(values: Mapping[str, Fraction]) -> Written:
    """What a slip costs off the stick and on it, with some numbers in the formulas."""
    f = formulas()
    X, L, e_s, k = (values[name] for name in ("X", "L", "e_s", "k"))
    blank, side = f.blank_length(L=L, n_e=2, e_s=e_s), f.blade_far_side(e_s=e_s, k=k)
    shown = {"L": latex_length(L), "n_e": "2", "e_s": latex_length(e_s), "k": latex_length(k)}
    lines = []
    for formula, result, more, total in ((f.blank_length, blank, k, blank + k), (f.blade_far_side, side, X, side + X)):
        numbers = formula.latex_with(shown, latex_length(result))
        lines.append(f"{formula.latex} {numbers.removeprefix(formula.result.latex).strip()}")
        word = "off the stick" if formula is f.blank_length else "on the stick"
        symbol = "k" if formula is f.blank_length else "X"
        lines.append(rf"\text{{{word}: }} {formula.result.latex} + {symbol} = {latex_length(result)} + {latex_length(more)} = {latex_length(total)}")
    return lines, f"A taper of run {exact(X)} that fails costs {both(blank + k)} off the stick, {both(side + X)} on it."


def figures() -> dict[str, Sheet]:
    """The lesson's ordinary pictures by file name: what lies on the bench, and in the order of work."""
    part = ask.BRACKET
    return {
        f"{LESSON}.png": opening(LESSON),
        f"{LESSON}_costs.png": work_cards_sheet(Laid(part)),
    }


# --- wired: a function a cell -------------------------------------------------------------------------
def _book() -> AnswerBook:
    return AnswerBook(LESSON)


def recall() -> Questions:
    """Three questions of earlier lessons."""
    part, book = demo_part("C1R"), _book()
    return Questions(
        Ask(lambda n: earlier.turned_hand(), book),
        Ask(lambda n: earlier.blank_length(ask.LINK, Shop()), book),
        Ask(lambda n: earlier.again(taper_inside.vertex_projection(part), "07"), book),
    )


def _cards(part: Part, start: tuple[str, ...], question: Question) -> LivePicture:
    words = ask.card_words(part, Shop())
    return LivePicture(
        draw,
        {"order": OrderEntry({id_: words[id_] for id_ in start}), "stick": FractionControl("Stick (in.)", STICKS, ask.STICK)},
        fixed={"part": part},
        ask=Predict(lambda n: question, _book()),
    )


def cut_first() -> LivePicture:
    """Predict what a failed taper costs on a part cut to length; then lay the cards in another order."""
    part = ask.BRACKET
    return _cards(part, ask.cut_first(part, Shop()), ask.lost_when_cut_first(part, Shop(), "predict-the-loss-cut-first"))


def on_the_stick() -> LivePicture:
    """Predict what the same slip costs on the stick; then see the order of work."""
    part = ask.BRACKET
    return _cards(part, tuple(ask.card_words(part, Shop())), ask.lost_on_the_stick(part, Shop(), "predict-the-loss-on-the-stick"))


def held() -> Ask:
    """How a short part is held."""
    return Ask(lambda n: ask.in_the_hand(ask.BRACKET, Shop()), _book())


def harder_end() -> LivePicture:
    """Predict which end is made first; then see what the harder one costs when it comes last, and bring it forward."""
    part = ask.LINK
    return _cards(part, ask.easier_first(part, Shop()), ask.which_end_first(part, "predict-the-end"))


def free_end() -> Ask:
    """Which end of a part stands at the stick's free end."""
    return Ask(lambda n: ask.which_end_is_free(ask.STRUT), _book())


def other_end() -> Ask:
    """Which slip two finished ends invite."""
    return Ask(lambda n: ask.which_end_after(), _book())


def dressed() -> LivePicture:
    """Predict where a mark ends up when its end is dressed after layout; then square first."""
    return LivePicture(
        draw_dressed,
        {"way": ChoiceControl("The end is", by_id(WAYS), LAID_OUT), "taken": FractionControl("Dressed off (in.)", DRESSINGS, HINGE.dressing)},
        ask=Predict(lambda n: ask.dressed_after(HINGE, "predict-the-dressed-end"), _book()),
    )


def comparison() -> Table:
    """The bracket's harder taper in both orders."""
    return Table(("order", "in the hand (in.)", "stick lost (in.)", "operations again"), compared(ask.BRACKET), after=("in-the-hand",))


def alloy() -> Ask:
    """When the alloy is written back."""
    return Ask(lambda n: ask.write_alloy(), _book())


def formula() -> FormulaCard:
    """What a slip costs, with any numbers in the formulas."""
    part, shop = ask.BRACKET, Shop()
    controls = {
        "X": FractionControl("Run X (in.)", fractions("1", "3 1/2", "1/16"), part.tapers[0].run),  # type: ignore[arg-type]
        "L": FractionControl("Part's length L (in.)", fractions("4", "24", "1/8"), part.length),
        "e_s": FractionControl("Allowance (in.)", fractions("0", "1/8", "1/64"), shop.allowance),
        "k": FractionControl("Kerf k (in.)", fractions("1/32", "1/8", "1/64"), shop.kerf),
    }
    return FormulaCard(write, controls)


def worked() -> Worked:
    """The worked part, every step shown."""
    part, shop = ask.BRACKET, Shop()
    steps = walk(part, shop, ask.STICK)
    hard = worst(steps, part)
    line = hard.card.line
    cut = next(step for step in steps if step.card.kind == LENGTH)
    assert line is not None
    said = (
        "Which end is harder? End 1: its taper runs to the vertex. End 2 is square. So end 1 stands at the stick's free end.",
        f"Is the datum safe? The taper takes end 1 away: first square it, then the witness line, {both(witness_line(part))} from it.",  # type: ignore[arg-type]
        f"Taper end 1 with {exact(hard.held)} in. in the hand. If it fails: the run {exact(Fraction(line.run))}, kerf {exact(shop.kerf)}, squaring {exact(shop.allowance)}: {both(hard.metal)} of the stick.",
        f"Alloy on both sides of the line, then cut to length, from the witness line, with {exact(cut.held)} of the stick in the hand.",
        f"Now the part is {exact(part.length)} long: clamped from here on. Square end 2, drill, finish. A slip now costs {both(whole(part, shop))}.",
    )
    return Worked(f"Worked part: {ask.described(part)}", said, "Check: at every card, what is it measured from, and is that still there?")


def last_step() -> Ask:
    """A part whose order is given; what its harder taper may cost is left out."""
    return Ask(lambda n: ask.lost_on_the_stick(ask.LINK, Shop(), "trim-link-cost"), _book())


def all_steps() -> Questions:
    """A part with every step left out: its order, then what the other order would cost."""
    book = _book()
    return Questions(
        AskOrder(lambda n: ask.order(ask.LINK, Shop(), "trim-link-order"), book),
        Ask(lambda n: ask.done_again(ask.LINK, Shop(), "trim-link-operations"), book),
    )


def batch() -> AskOrder:
    """From the trial part to the primer, in order."""
    return AskOrder(lambda n: ask.batch_order(), _book())


def fitting() -> Ask:
    """A part left long."""
    return Ask(lambda n: ask.trimmed_at_fitting(), _book())


def pair() -> Ask:
    """What shows that two parts are a pair."""
    return Ask(lambda n: ask.pair_check(), _book())


def exercise(which: int) -> Ask:
    """A checked exercise with fresh numbers on demand: 1 to 4."""
    name, series = list(ask.EXERCISES.items())[which - 1]
    kind = AskOrder if name == "order" else Ask
    return kind(series.__getitem__, _book(), fresh=True, title=f"Exercise {which}")


def learned() -> Learned:
    """What the lesson was about, and what to carry to the bench."""
    return learned_in(LESSON)
