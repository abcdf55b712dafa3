"""Lesson 04: marks laid out from one datum; stepping off, the 1-inch start, the edge of the ink, the witness line.

What is computed, what is drawn and how they are wired are three separate things; each function below
the last heading is one cell of the notebook.

>>> draw_row({"count": 8, "error": Fraction(1, 64), "way": "same"}, View(revealed=False)).sentence.split(". ")[-1]
'Where they lie when they are stepped off, each from the last, is not shown yet.'
>>> draw_start({"start": 1, "shows": Fraction(27, 8)}, View()).sentence.split(". ")[-1]
'That is 2 3/8 (2.375) from end 1.'
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from anglelib.drawing.corner import CORNER_PLACE, EDGE_PLACE, HEEL_PLACE, Measured, corner_sheet
from anglelib.drawing.ink import PART, SIDES, Ink, ink_sheet
from anglelib.drawing.ink import Shown as Inked
from anglelib.drawing.rule import SHOWN, ruled_sheet
from anglelib.drawing.sheet import Sheet
from anglelib.drawing.stepping import MIXED, MOST, SAME, WAYS, Row, stepping_sheet
from anglelib.drawing.stepping import Shown as Stepped
from anglelib.drawing.witness import AFTER, BEFORE, STAGES, witness_sheet
from anglelib.geometry.chain import from_one, running
from anglelib.geometry.lazy import formulas
from anglelib.lengths import both, decimal, exact
from anglelib.lessons.ask import Ask, Predict, Questions
from anglelib.lessons.ask_mark import AskMark
from anglelib.lessons.controls import ChoiceControl, FractionControl, NumberControl, by_id, fractions
from anglelib.lessons.demo import demo_part
from anglelib.lessons.formula_card import FormulaCard, Written
from anglelib.lessons.learned import Learned, learned_in
from anglelib.lessons.live import ROOM, LivePicture, View
from anglelib.lessons.openings import opening
from anglelib.lessons.words import Worked, latex_length
from anglelib.questions import mark_along_heel as ask
from anglelib.questions import recall as earlier
from anglelib.questions.answers import AnswerBook
from anglelib.questions.square_end import turned_end_for_end
from anglelib.section import Section

LESSON = "04_mark_along_heel"
PITCH = Fraction(3, 2)
ERRORS = fractions("0", "1/32", "1/128")
STARTS = {0: "the rule's end", 1: "the 1-inch mark"}
SHOWS = fractions("1 1/4", "3 7/8", "1/64")
INKS = fractions("1/256", "1/32", "1/256")
END_2 = Fraction(19, 4)
"""Where the line under the glass is wanted [in]."""
BAR = ask.Gaps("Shelf bar", (Fraction(3, 4), *(Fraction(21, 16),) * 4))


# --- computed -----------------------------------------------------------------------------------------
def row_of(values: Mapping[str, Any]) -> Row:
    """The row that the controls describe."""
    return Row(PITCH, values["count"], values["error"], values["way"])


# --- drawn ------------------------------------------------------------------------------------------
def draw_row(values: Mapping[str, Any], view: View) -> Sheet:
    """Marks from the datum; once a prediction is in, those that are stepped off, and their errors."""
    return stepping_sheet(row_of(values), Stepped(view.revealed, view.prediction, view.few))


def draw_start(values: Mapping[str, Any], view: View) -> Sheet:
    """A rule that begins at its end or at its 1-inch mark, and a mark."""
    start = values["start"]
    wanted = "The rule begins at 1" if start else "The rule begins at its end"
    return ruled_sheet(wanted, values["shows"], start, view.revealed, view.prediction, view.few)


def draw_ink(values: Mapping[str, Any], view: View) -> Sheet:
    """A line under a glass."""
    return ink_sheet(Ink(END_2, values["width"], values["side"]), Inked(view.revealed, view.few))


def draw_witness(values: Mapping[str, Any], view: View) -> Sheet:
    """The bracket before its taper is cut, and after; before the prediction without the lengths that are asked for."""
    return witness_sheet(values["part"], values["stage"] if view.revealed else BEFORE, view.few, view.revealed, view.prediction)


def draw_across(values: Mapping[str, Any], view: View) -> Sheet:
    """Where a row of holes comes out that is measured across the leg from one place or another."""
    section = Section("3/4", "3/4", "1/8", fillet=values["fillet"])
    return corner_sheet(section, values["y"], values["place"], Measured(answer=view.revealed, few=view.few))


def draw_set(number: int, mark: Fraction, revealed: bool, which: str = "set") -> Sheet:
    """The rule of an exercise with the mark where it stands."""
    place = ask.EXERCISES[which].thing(number)
    return ruled_sheet(f"Wanted: {exact(place.x)} from end 1", mark, int(which == "from-one"), revealed, few=ROOM.theme == "projector")


def write(values: Mapping[str, Fraction]) -> Written:
    """The errors of stepping off with some numbers in them."""
    f = formulas()
    n, e = values["n_s"], values["e_1"]
    worst, usual = f.stepped_error(n_s=n, e_1=e), f.stepped_scatter(n_s=n, e_1=float(e))
    shown = {"n_s": exact(n), "e_1": latex_length(e)}
    lines = []
    for formula, result in ((f.stepped_error, worst), (f.stepped_scatter, usual)):
        numbers = formula.latex_with(shown, latex_length(result))
        lines.append(f"{formula.latex} {numbers.removeprefix(formula.result.latex).strip()}")
    return lines, f"{exact(n)} steps, {both(e, 128)} each: {both(worst, 128)} where all err the same way, {decimal(usual)} usual where they err independently."


def figures() -> dict[str, Sheet]:
    """The lesson's ordinary pictures by file name: what lies on the bench, the growing error, and the edge of the ink."""
    row = Row(PITCH, 8, Fraction(1, 64))
    return {
        f"{LESSON}.png": opening(LESSON),
        f"{LESSON}_errors.png": stepping_sheet(row),
        f"{LESSON}_ink.png": ink_sheet(Ink(END_2, Fraction(1, 64))),
    }


# --- wired: a function a cell -------------------------------------------------------------------------
def _book() -> AnswerBook:
    return AnswerBook(LESSON)


def recall() -> Questions:
    """Three questions of earlier lessons."""
    book = _book()
    return Questions(
        Ask(lambda n: earlier.datum_end(), book), Ask(lambda n: turned_end_for_end(), book), Ask(lambda n: ask.twisted(), book)
    )


def _row(question, way: str, count: int) -> LivePicture:
    return LivePicture(
        draw_row,
        {
            "count": NumberControl("Steps n", 1, MOST, count),
            "error": FractionControl("Error of a step (in.)", ERRORS, Fraction(1, 64)),
            "way": ChoiceControl("The steps err", by_id(WAYS), way),
        },
        ask=Predict(lambda n: question, _book()),
    )


def stepping() -> LivePicture:
    """Predict how far off the last of eight steps is; then change their number and error."""
    return _row(ask.off_by(Row(PITCH, 8, Fraction(1, 64)), "predict-the-last-mark"), SAME, 8)


def mixed() -> LivePicture:
    """Predict what becomes of errors that are now long, now short."""
    return _row(ask.when_mixed(Row(PITCH, 9, Fraction(1, 64)), "predict-mixed-errors"), MIXED, 9)


def start() -> LivePicture:
    """Predict a length from the 1-inch start; then move the mark, and begin at the rule's end.

    The control says what the rule shows: the length from end 1 would be the answer.
    """
    return LivePicture(
        draw_start,
        {"start": ChoiceControl("Laid on end 1", by_id(STARTS), 1), "shows": FractionControl("The rule shows (in.)", SHOWS, Fraction(27, 8))},
        ask=Predict(lambda n: ask.length_from_one(from_one(Fraction(19, 8)), "predict-the-length"), _book()),
    )


def misprint() -> Ask:
    """What a printed error costs."""
    return Ask(lambda n: ask.by_misprint(), _book())


def ink() -> LivePicture:
    """Predict on which side of the line the square lies; then try both, and other pens."""
    return LivePicture(
        draw_ink,
        {"side": ChoiceControl("The square lies", by_id(SIDES), PART), "width": FractionControl("Ink wide (in.)", INKS, Fraction(1, 64))},
        ask=Predict(lambda n: ask.which_side("predict-the-side"), _book()),
        waits=("side",),
    )


def tool() -> Ask:
    """What a line is struck with that stays."""
    return Ask(lambda n: ask.which_tool(), _book())


def across() -> LivePicture:
    """Predict what a rule shows that stands on the inside; then measure from there, from the heel, and beside a fillet."""
    section, y = Section("3/4", "3/4", "1/8"), Fraction(1, 2)
    return LivePicture(
        draw_across,
        {
            "place": ChoiceControl("Measured from", by_id({CORNER_PLACE: "inside", HEEL_PLACE: "heel", EDGE_PLACE: "fillet's edge"}), CORNER_PLACE),
            "fillet": ChoiceControl("Fillet (in.)", {exact(r): r for r in fractions("0", "1/8", "1/16")}, Fraction(0)),
        },
        fixed={"y": y},
        ask=Predict(lambda n: ask.hooked_inside(section, y), _book()),
    )


def witness() -> LivePicture:
    """Predict where a hole lies from the witness line; then cut the taper."""
    part = demo_part("C1L")
    return LivePicture(
        draw_witness,
        {"stage": ChoiceControl("The part", by_id(STAGES), AFTER)},
        fixed={"part": part},
        ask=Predict(lambda n: ask.from_witness(part, "predict-from-the-witness-line"), _book()),
    )


def formula() -> FormulaCard:
    """The errors of stepping off, with any numbers in them."""
    controls = {
        "n_s": FractionControl("Steps n", fractions("1", "20", "1"), Fraction(8)),
        "e_1": FractionControl("Error of a step (in.)", ERRORS, Fraction(1, 64)),
    }
    return FormulaCard(write, controls)


def worked() -> Worked:
    """The worked part, every step shown."""
    marks = running(BAR.gaps)
    read = Fraction(1, 64)
    steps = (
        f"The drawing gives gaps: from end 1 {exact(BAR.gaps[0])}, then four times {exact(BAR.gaps[1])}. Add them from end 1 on: {', '.join(exact(m) for m in marks)}.",
        f"The rule's end is worn: its 1-inch mark goes on end 1. Then the marks lie where it shows {', '.join(exact(from_one(m)) for m in marks)}.",
        "One laying of the rule for all of them. The square on the part side for the ends; for a hole a short line along and one across, the crossing is the place.",
        f"The last mark is read to {exact(read)}, like the first: {both(marks[-1])}. Stepped off, it could be {both(read * len(marks))} off.",
    )
    check = f"Check: the gap from the last but one to the last, on the metal, with the rule laid afresh: {exact(BAR.gaps[-1])}. Then one mark again, the rule begun at its own end."
    return Worked(f"Worked part: {BAR.name.lower()}, five holes in a row", steps, check)


def last_step() -> Ask:
    """Another row with the last step left out."""
    row = ask.Gaps("Tray bar", (Fraction(5, 8), Fraction(9, 8), Fraction(9, 8), Fraction(11, 16)))
    return Ask(lambda n: ask.last_step(row, "tray-bar"), _book())


def all_steps() -> Questions:
    """A row with every step left out."""
    row, book = ask.Gaps("Panel strip", (Fraction(9, 16), *(Fraction(15, 16),) * 5)), _book()
    return Questions(
        Ask(lambda n: ask.last_running(row, "panel-strip-running"), book),
        Ask(lambda n: ask.off_by(Row(Fraction(15, 16), 6, Fraction(1, 64)), "panel-strip-stepped"), book),
    )


def exercise(which: int) -> Ask:
    """A checked exercise with fresh numbers on demand: 1 to 4."""
    name, series = list(ask.EXERCISES.items())[which - 1]
    title = f"Exercise {which}"
    if name in ("set", "from-one"):
        return AskMark(
            series.__getitem__,
            lambda n, mark, revealed: draw_set(n, mark, revealed, name),
            lambda n: FractionControl("The rule shows (in.)", fractions("0", str(SHOWN), "1/64"), Fraction(1)),
            _book(),
            fresh=True,
            title=title,
        )
    return Ask(series.__getitem__, _book(), fresh=True, title=title)


def learned() -> Learned:
    """What the lesson was about, and what to carry to the bench."""
    return learned_in(LESSON)
