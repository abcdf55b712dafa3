"""Lesson 11, when the plan breaks: what it bears, a stick or a part lost, what could still be made, what to buy.

All of it is about the demo kit's first section, which has hardly a short end to spare. What needs the
solver and finds none says so.

>>> [HAPPENED_WORDS[id_] for id_ in HAPPENED][:2]
['as planned', 'S-09 is 30']
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from fractions import Fraction
from functools import cache
from typing import Any

from anglelib.drawing.rack_rows import Row
from anglelib.drawing.sheet import Sheet
from anglelib.drawing.stock_sheets import Side, one_rack_sheet, planned_rows, two_racks_sheet
from anglelib.errors import PlanError
from anglelib.lengths import exact
from anglelib.lessons.ask import Predict
from anglelib.lessons.controls import ChoiceControl, FractionControl, NumberControl, by_id, fractions
from anglelib.lessons.demo import demo_part, demo_rack
from anglelib.lessons.kit_plan import NO_SOLVER, listed, whole_plan
from anglelib.lessons.live import LivePicture, View
from anglelib.part import Part
from anglelib.questions import plan_breaks as ask
from anglelib.questions.answers import AnswerBook
from anglelib.stock.apart import apart
from anglelib.stock.plan import StickPlan
from anglelib.stock.robust_words import blade

LESSON = "11_plan_the_stock"
HAPPENED: dict[str, tuple[str, ...]] = {
    "nothing": (),
    "S-09-short": ("stick", "S-09", "30"),
    "S-04-short": ("stick", "S-04", "91 3/4"),
    "S-01-short": ("stick", "S-01", "143"),
    "wider-kerf": ("kerf", "1/8"),
    "bar-spoiled": ("spoiled", "A3"),
}
"""What may happen, by id."""
HAPPENED_WORDS = {
    "nothing": "as planned",
    "S-09-short": "S-09 is 30",
    "S-04-short": "S-04 is 91 3/4",
    "S-01-short": "S-01 is 143",
    "wider-kerf": "kerf is 1/8",
    "bar-spoiled": "first bar spoiled",
}
"""The same in the words on its button."""
SPOILED = {"A1L": "Floor cleat", "A3": "Floor bar", "A2L": "Side stiffener", "A4": "Floor stiffener", "A5L": "Lower longeron", "A6L": "Upper longeron"}
BESIDES = fractions("2", "30", "1/4")
ALSO = {"A5L": "Lower longeron", "A6L": "Upper longeron", "A4": "Floor stiffener", "A3": "Floor bar", "A1L": "Floor cleat"}
SOLD = {lengths: ", ".join(map(str, lengths)) for lengths in ((72, 96, 144), (96, 144), (48, 72))}


# --- computed -----------------------------------------------------------------------------------------
@cache
def bears_all():
    """What the plan of the list bears; None where there is no solver."""
    from anglelib.stock.robust import robustness

    made = whole_plan()
    return _solved(lambda: apart(robustness)(listed(), demo_rack(), made)) if made is not None else None


@cache
def again(happened: str):
    """The list planned again after something has happened; None where nothing has, or there is no solver."""
    from anglelib.stock.progress import Progress
    from anglelib.stock.what_if import shorter_stick, spoiled_part, wider_kerf

    made, what = whole_plan(), HAPPENED[happened]
    if made is None or not what:
        return None
    job, rack = listed(), demo_rack()
    if what[0] == "stick":
        return _solved(lambda: apart(shorter_stick)(job, rack, made, what[1], what[2]))
    if what[0] == "kerf":
        return _solved(lambda: apart(wider_kerf)(job, rack, made, what[1]))
    planned = _first_with(what[1])
    cuts = next(n for n, cut in enumerate(planned.cuts, 1) if cut.blank is not None and cut.blank.part.id == what[1])
    return _solved(lambda: apart(spoiled_part)(job, rack, made, what[1], Progress({planned.stick.id: cuts})))


def _first_with(part_id: str) -> StickPlan:
    return next(s for s in whole_plan().sticks if any(p.blank.part.id == part_id for p in s.placed))  # type: ignore[union-attr]


@cache
def further(length: Fraction):
    """Whether one more square part of some length could be made; None where there is no solver."""
    from anglelib.stock.what_if import still_possible

    part = replace(demo_part("A3"), id="one-more", name="One more", length=length, holes=(), quantity=1)
    return _solved(lambda: apart(still_possible)(listed(), demo_rack(), whole_plan(), [part]).further[0]) if whole_plan() is not None else None  # type: ignore[arg-type]


@cache
def bought(part_id: str, number: int, sold: tuple[int, ...]):
    """The smallest purchase if so many more of a part are wanted; None where there is no solver."""
    from anglelib.stock.purchase import smallest_purchase

    job = listed()
    return _solved(lambda: apart(smallest_purchase)(replace(job, parts=(*job.parts, _more(part_id, number))), demo_rack(), sold))


@cache
def with_purchase(part_id: str, number: int, sold: tuple[int, ...]):
    """The plan on the rack with what is bought; None where there is no solver."""
    from anglelib.stock.planner import plan

    found, job = bought(part_id, number, sold), listed()
    return _solved(lambda: plan(replace(job, parts=(*job.parts, _more(part_id, number))), found.rack)) if found is not None else None


def _more(part_id: str, number: int) -> Part:
    part = demo_part(part_id)
    return replace(part, id=f"{part_id}-more", mirror_of="", quantity=number)


def _solved(do: Callable[[], Any]) -> Any:
    try:
        return do()
    except (ImportError, PlanError):
        return None


# --- drawn ------------------------------------------------------------------------------------------
def _rows(sticks, note: Callable[[StickPlan], str], chosen: Callable[[StickPlan], bool]) -> tuple[Row, ...]:
    """Sticks as planned, each with a note, those that are chosen in the accent."""
    plans = {planned.stick.id: planned for planned in sticks}
    found = []
    for row in planned_rows(sticks, listed().shop.usable_minimum):
        state = "chosen" if chosen(plans[row.id]) else ""
        found.append(replace(row, note=note(plans[row.id]), state=state))
    return tuple(found)


def _longest() -> Fraction:
    return max(stick.length for stick in demo_rack().sticks)


def _no_solver(title: str) -> Sheet:
    sticks = [stick for stick in demo_rack().sticks if stick.section == listed().parts[0].section and stick.alloy == listed().parts[0].alloy]
    shown = tuple(Row(s.id, s.length, (), s.dents, exact(s.length)) for s in sticks)
    return one_rack_sheet(Side("the sticks that may be used", shown), _longest(), title, f"{NO_SOLVER} {len(sticks)} sticks may be used.")


def draw_bears(values: Mapping[str, Any], view: View) -> Sheet:
    """The plan: how much shorter each stick may be, and whether a part of it may be spoiled."""
    title, found, made = "What the plan bears", bears_all(), whole_plan()
    if found is None or made is None:
        return _no_solver(title)
    part = demo_part(values["part_id"])
    short = {bears.stick.id: bears.short for bears in found.sticks}
    if not view.revealed:
        shown = _rows(made.sticks, lambda s: "", lambda s: False)
        words = f"The plan, {len(shown)} sticks to scale. How much shorter than its tag each may be is not shown yet."
        return one_rack_sheet(Side("the plan: how much shorter may a stick be?", shown), _longest(), title, words)
    shown = _rows(
        made.sticks, lambda s: f"may be {exact(short[s.stick.id])} shorter", lambda s: any(p.blank.part.id == part.id for p in s.placed)
    )
    bears = next(bears for bears in found.parts if bears.part.id == part.id)
    least = min(short, key=lambda name: (short[name], name))
    words = (
        f"{part.name.partition(',')[0]} ({part.id}): {bears.sentence} By the tape the plan bears least on {least}, which may be "
        f"{exact(short[least])} shorter; it holds with {blade(found.kerf)}."
    )
    foot = f"{part.id} MAY NOT BE SPOILED" if part.id in found.not_spoiled else f"one {part.id} may be spoiled"
    return one_rack_sheet(Side("the plan: how much shorter may a stick be?", shown, foot), _longest(), title, words)


def draw_broken(values: Mapping[str, Any], view: View) -> Sheet:
    """The plan, and the plan after something has happened, with the sticks that changed in the accent."""
    title, made = "When something happens", whole_plan()
    if made is None:
        return _no_solver(title)
    left = Side("the plan", _rows(made.sticks, lambda s: "", lambda s: False), f"all {made.made} are made")
    if not view.revealed:
        words = f"The plan makes all {made.made} pieces from {len(made.sticks)} sticks. What happens to it is not shown yet."
        return one_rack_sheet(left, _longest(), title, words)
    then = again(values["happened"])
    if then is None:
        said = NO_SOLVER if HAPPENED[values["happened"]] else "Nothing has happened yet."
        return one_rack_sheet(left, _longest(), title, f"The plan makes all {made.made} pieces. {said}")
    before = {s.stick.id: sorted(p.blank.part.id for p in s.placed) for s in made.sticks}
    changed = {s.stick.id for s in then.plan.groups[0].sticks if sorted(p.blank.part.id for p in s.placed) != before.get(s.stick.id)}
    short = [f"{lack.missing} of {lack.part_id}" for lack in then.plan.shortages]
    moved = sum(bool(move.was and move.now) for move in then.moves)
    foot = f"NOT MADE: {', '.join(short)}" if short else "nothing is lost"
    right = Side(HAPPENED_WORDS[values["happened"]], _rows(then.plan.groups[0].sticks, lambda s: "", lambda s: s.stick.id in changed), f"{foot}\nblanks that change sticks: {moved}")
    what = f"It happens: {HAPPENED_WORDS[values['happened']]}. " + (f"Not made: {', '.join(short)}. " if short else "Everything is still made. ")
    words = f"{what}{_counted(moved)} from another stick than before; no plan as good changes less." if then.proven else f"{what}{_counted(moved)} from another stick than before."
    return two_racks_sheet(left, right, _longest(), title, words, view.few)


def _counted(moved: int) -> str:
    return "No blank comes" if not moved else "1 blank comes" if moved == 1 else f"{moved} blanks come"


def draw_possible(values: Mapping[str, Any], view: View) -> Sheet:
    """What the plan leaves, and whether one more part of some length comes from it."""
    title, made = "What could still be made", whole_plan()
    if made is None:
        return _no_solver(title)

    def left(planned: StickPlan) -> str:
        most = max(planned.left, default=Fraction(0))
        return f"{exact(most)} left" if most >= listed().shop.usable_minimum else ""

    if not view.revealed:
        shown = _rows(made.sticks, left, lambda s: False)
        words = f"The plan, {len(shown)} sticks to scale, with what is left of each. What could still come from it is not shown yet."
        return one_rack_sheet(Side("the plan, and what it leaves", shown), _longest(), title, words)
    length, found, shop = values["length"], further(values["length"]), listed().shop
    need = length + 2 * shop.allowance  # its cut runs into the trim
    shown = _rows(made.sticks, left, lambda s: max(s.left, default=Fraction(0)) >= need)
    if found is None:
        said, foot = NO_SOLVER, "no solver"
    elif found.after:
        said = foot = f"one more of {exact(length)}: yes, from what is left"
    elif found.replanned:
        said = foot = f"one more of {exact(length)}: only if all is planned again before the first cut"
    else:
        said = foot = f"one more of {exact(length)}: NO, no plan makes it besides the list{'' if not found.proven else '; proven'}"
    return one_rack_sheet(Side("the plan, and what it leaves", shown, foot), _longest(), title, f"{said[0].upper()}{said[1:]}. It takes {exact(need)}.")


def draw_buy(values: Mapping[str, Any], view: View) -> Sheet:
    """The rack with the smallest purchase: what is bought in the accent."""
    title, part_id, number = "The smallest purchase", values["also"], values["number"]
    made = whole_plan()
    if made is None:
        return _no_solver(title)
    part = demo_part(part_id)
    name = part.name.partition(",")[0].lower()
    if not view.revealed:
        words = f"The plan, {len(made.sticks)} sticks to scale. One more {name} is wanted, {exact(part.length)}; what to buy for it is not shown yet."
        return one_rack_sheet(Side("the plan of the whole list", _rows(made.sticks, lambda s: "", lambda s: False)), _longest(), title, words)
    found, then = bought(part_id, number, values["sold"]), with_purchase(part_id, number, values["sold"])
    if found is None or then is None:
        return _no_solver(title)
    new = {stick.id for stick in found.sticks}
    shown = _rows(then.sticks, lambda s: f"BUY {exact(s.stick.length)}" if s.stick.id in new else "", lambda s: s.stick.id in new)
    group = found.groups[0]
    said = group.sentence if group.bought or group.not_for_sale else found.sentence
    foot = f"buy {', '.join(f'{n} x {exact(length)}' for length, n in group.bought)}" if group.bought else "nothing to buy"
    foot += f"; NOT FOR SALE: {', '.join(reason.part_id for reason in group.not_for_sale)}" if group.not_for_sale else ""
    words = f"Besides the list: {number} x {name}, {exact(part.length)} long; sold are {', '.join(map(str, values['sold']))}. {said[0].upper()}{said[1:]}"
    return one_rack_sheet(Side("the rack with what is bought", shown, foot), _longest(), title, words)


# --- wired: a function a cell -------------------------------------------------------------------------
def _predict(question) -> Predict | None:
    return Predict(lambda n: question, AnswerBook(LESSON)) if question is not None else None


def bears() -> LivePicture:
    """Predict how short a stick may be; then see what each stick and each part bears."""
    question = None
    if whole_plan() is not None:
        planned = whole_plan().stick("S-04")  # type: ignore[union-attr]
        question = ask.how_short(planned.stick, planned.placed[0].blank.part, listed().shop, "predict-how-short")
    return LivePicture(draw_bears, {"part_id": ChoiceControl("Part", by_id(SPOILED), "A5L")}, ask=_predict(question))


def broken() -> LivePicture:
    """Predict which part loses its metal; then let something happen, and see what changes."""
    then, question = again("S-04-short"), None
    if then is not None and {id_[:2] for id_ in then.lost} == {"A5"}:
        question = ask.without_metal(
            "S-04 is measured again: 91 3/4, not 92 1/8.",
            {"A5": "a lower longeron", "A3": "a baggage floor bar", ask.NOTHING: "nothing: another stick takes over"},
            "A5",
            {
                "A3": "Other sticks can give the bars: short parts move, long ones cannot.",
                ask.NOTHING: "Each of the three longer sticks gives a longeron already, and has no room for a second one.",
            },
            "predict-what-is-lost",
        )
    return LivePicture(draw_broken, {"happened": ChoiceControl("It happens", by_id(HAPPENED_WORDS), "S-04-short")}, ask=_predict(question))


def possible() -> LivePicture:
    """Predict how long a part could still be made; then ask for any length."""
    question = None
    if whole_plan() is not None:
        best = max(whole_plan().sticks, key=lambda s: max(s.left, default=Fraction(0)))  # type: ignore[union-attr]
        question = ask.longest_further(best.left[0], best.stick.id, listed().shop, "predict-what-is-possible")
    return LivePicture(draw_possible, {"length": FractionControl("One more part (in.)", BESIDES, Fraction(12))}, ask=_predict(question))


def buy() -> LivePicture:
    """Predict the least to buy; then want other parts, from other lengths."""
    found, question = bought("A5L", 1, (72, 96, 144)), None
    if found is not None:
        part, shop = demo_part("A5L"), listed().shop
        lengths = tuple(map(Fraction, (72, 96, 144)))
        trims = sum(found.sticks[0].length - i.length for i in found.sticks[0].intervals())
        need = part.length + 2 * shop.allowance
        question = ask.what_to_buy(part, lengths, found.inches, {length: length - trims for length in lengths}, need, "predict-what-to-buy")
    controls = {
        "also": ChoiceControl("Also wanted", by_id(ALSO), "A5L"),
        "number": NumberControl("How many", 1, 4, 1),
        "sold": ChoiceControl("Sold (in.)", by_id(SOLD), next(iter(SOLD))),
    }
    return LivePicture(draw_buy, controls, ask=_predict(question))
