"""The questions of lesson 12: the three marks of any part, and one question of every lesson before.

>>> part = sample()
>>> [question.id for question in three_marks(part, Shop(), "own")]
['own-blank', 'own-saw-line-at-the-toe', 'own-inside-mark']
>>> saw_toe(part, Shop()).answer_text
'2 35/64 (2.552)'
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from anglelib.geometry.layout import taper_marks, witness_line
from anglelib.geometry.taper import taper_lines
from anglelib.job import Shop
from anglelib.lengths import both, exact, fine, own
from anglelib.part import Part, Taper
from anglelib.questions import check_and_diagnose, mark_along_heel, order_of_work, recall, square_end, taper_inside
from anglelib.questions import holes_and_what_if as holes
from anglelib.questions.fresh import FILLET, OTHER_LEG, VERTEX
from anglelib.questions.named import Asked, by_mistakes
from anglelib.questions.question import ChoiceQuestion, LengthQuestion, Question, WrongAnswer
from anglelib.questions.series import Series
from anglelib.section import Section


def saw_toe(part: Part, shop: Shop, id: str = "saw-line-at-the-toe") -> LengthQuestion:
    """Where the saw line, outside the sanding allowance, meets the toe; the finished line's mark is the run."""
    line = taper_lines(part)[0]
    saw = taper_marks(line, shop)[0].saw
    if saw is None:
        raise ValueError(f"the saw line of {part.id} does not reach the toe")
    along = line.shift_along(shop.allowance)
    run, d = line.run, shop.allowance
    wrong = [
        WrongAnswer("M04", run, "That is the finished line. Sawn there, nothing is left to sand: the edge comes out low."),
        WrongAnswer("M13", run + along, "That lies on the part's side of the line: the saw would run in the part."),
        WrongAnswer("allowance-along-toe", run - d, f"The allowance of {own(d)} stands square to the line. Along the toe it is longer: {fine(along)}."),
        WrongAnswer("M05", run - 2 * along, "That counts the allowance twice."),
    ]
    left = "to the vertex" if line.to_vertex else f"width left {exact(line.width_left)}"
    steps = (
        f"The finished line meets the toe at {both(run)}. The saw line lies outside it, nearer to end {line.end}.",
        f"Square to the line {own(d)}; along the toe {own(d)} over the sine of {line.angle:.1f} degrees: {fine(along)}.",
    )
    return LengthQuestion(
        id,
        f"{part.name}: leg {line.leg} tapered at end {line.end}, run {both(run)}, {left}, {line.angle:.1f} degrees from the heel. The sanding allowance is {own(d)}. "
        f"How far from end {line.end} does the saw line meet the toe?",
        saw,
        wrong=tuple(w for w in wrong if float(w.answer) >= 0),
        hints=steps,
        working=f"{steps[1]} {both(run)} less {fine(along)} is {both(saw)}.",
        mark=True,
    )


def far_hole(part: Part, shop: Shop, id: str = "far-hole") -> LengthQuestion:
    """Where the far hole is read from: end 1, or the witness line where a cut takes that end."""
    hole = max(part.holes, key=lambda h: h.x)
    witness = witness_line(part)
    origin = "end 1" if witness is None else f"the witness line, which is struck {both(witness)} from end 1"
    answer = hole.x if witness is None else abs(hole.x - witness)
    wrong = list(by_mistakes(Asked(answer, place_on=part.length), "M17", "M07"))
    if witness is not None:
        wrong.append(WrongAnswer("no-witness", hole.x, "That is from end 1, which the taper takes away."))
    return LengthQuestion(
        id,
        f"{part.name}: the far hole of leg {hole.leg} lies {both(hole.x)} from end 1. How far is it from {origin}?",
        answer,
        wrong=tuple(w for w in wrong if float(w.answer) >= 0),
        working=f"{both(hole.x)}" + (f" less {both(witness)}: {both(answer)}." if witness is not None else ", as the drawing says."),
    )


def three_marks(part: Part, shop: Shop, stem: str) -> tuple[LengthQuestion, ...]:
    """Up to three lengths to predict on a part before anything of it is shown: its blank, its saw line, its inside mark or far hole."""
    found: list[LengthQuestion] = [recall.blank_length(part, shop, f"{stem}-blank", "")]
    lines = taper_lines(part)
    if lines:
        if taper_marks(lines[0], shop)[0].saw is not None:
            found.append(saw_toe(part, shop, f"{stem}-saw-line-at-the-toe"))
        if lines[0].ends_in in (VERTEX, OTHER_LEG):
            found.append(taper_inside.vertex_projection(part, f"{stem}-inside-mark"))
        elif lines[0].ends_in == FILLET:
            found.append(taper_inside.first_flat(part, f"{stem}-inside-mark"))
    if len(found) < 3 and part.holes and (witness_line(part) is not None or not lines):
        found.append(far_hole(part, shop, f"{stem}-far-hole"))
    return tuple(found)


# --- of all lessons ---------------------------------------------------------------------------------------
def sample() -> Part:
    """A bracket with a taper to the vertex, for the questions of earlier lessons."""
    return Part("P1", "Bracket", Section("1 1/4", "1 1/4", "1/8", fillet="1/8"), "6061-T6", "6 1/2", [Taper("A", 1, run="2 5/8")])


def of_every_lesson() -> dict[str, Question]:
    """One question of each lesson, by its number."""
    part, shop = sample(), Shop()
    again: dict[str, Callable[[], Question]] = {
        "00": recall.name_of_vertex,
        "01": recall.what_weight_tells,
        "02": recall.turned_hand,
        "03": lambda: recall.again(square_end.is_it_square(), "03"),
        "04": lambda: recall.again(mark_along_heel.which_side(), "04"),
        "05": lambda: recall.blank_length(part, shop),
        "06": lambda: recall.height_on_line(part),
        "07": lambda: recall.again(taper_inside.vertex_projection(part), "07"),
        "08": lambda: recall.again(order_of_work.order(part, shop), "08"),
        "09": lambda: recall.again(holes.by_the_trap(), "09"),
        "10": lambda: recall.again(check_and_diagnose.which_hand(part), "10"),
        "11": lambda: recall.again(recall_11(), "11"),
    }
    return {number: make() for number, make in again.items()}


def recall_11() -> ChoiceQuestion:
    """Lesson 11: what a part that cannot be spliced asks of the rack."""
    return ChoiceQuestion(
        "stick-for-one-short-part",
        "A short bracket is to be cut now; longer parts of the list still wait. Which piece of the rack is tried first?",
        {"shortest": "the shortest piece that serves", "longest": "the longest stick", "first": "the first stick that fits"},
        "shortest",
        wrong=(
            WrongAnswer("long-stick-opened", "longest", "Then a one-piece part that needs that length may find none."),
            WrongAnswer("first-that-fits", "first", "The first that fits may be the only one that a long part fits too."),
        ),
        hints=("Which stick would be missed least?",),
        working="A remnant that serves costs the list nothing. Where the plans name a stick, that comes before any rule.",
    )


EXERCISES = {
    "saw-line": Series(lambda part, id: saw_toe(part, Shop(), id), "12-saw-line", ("M04", "M13"), ends_in="flat", legs="AB"),
    "inside-mark": Series(taper_inside.vertex_projection, "12-inside-mark", ("M12",), ends_in="vertex", legs="AB"),
    "blank": Series(lambda part, id: recall.blank_length(part, Shop(allowance=Fraction(3, 64)), id), "12-blank", ("M04", "M05")),
}
"""The lesson's exercises by name, in order."""


def _with_holes() -> Part:
    return check_and_diagnose._plain()


QUESTIONS = {
    "saw-line": lambda: saw_toe(sample(), Shop()),
    "far-hole": lambda: far_hole(_with_holes(), Shop()),
    "stick-for-one-short-part": recall_11,
    **{name: (lambda series=series: series[0]) for name, series in EXERCISES.items()},
}
"""Every question of the lesson with a part of its own."""
