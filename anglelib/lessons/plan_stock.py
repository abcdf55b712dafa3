"""Lesson 11: one part now, what blanks need, the whole list against the rack, and a game at the table.

What is computed, what is drawn and how they are wired are three separate things; each function below
the last heading is one cell of the notebook. The solver is called for the demo kit's list only; the
table game and one part now try everything.

>>> draw_one({**job_of("A3"), "alloy": "6061-T6"}, View()).sentence.split(". ")[1]
'Cut it from S-09: it is the shortest piece that serves'
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from typing import Any

from anglelib.drawing.rack_rows import Row
from anglelib.drawing.rack_view import Cut
from anglelib.drawing.sheet import Sheet
from anglelib.drawing.stock_sheets import (
    Batch,
    Side,
    batch_sheet,
    candidates_sheet,
    near,
    one_rack_sheet,
    planned_rows,
    traps_sheet,
    two_racks_sheet,
)
from anglelib.geometry.lazy import formulas
from anglelib.lengths import both, exact
from anglelib.lessons.ask import Ask, Predict, Questions
from anglelib.lessons.ask_picture import AskPicture
from anglelib.lessons.controls import ChoiceControl, FractionControl, NumberControl, by_id, fractions
from anglelib.lessons.demo import demo_job, demo_part, demo_rack
from anglelib.lessons.formula_card import FormulaCard, Written
from anglelib.lessons.kit_plan import NO_SOLVER, RULES, asked, listed, longest_left, made_by, now_besides, now_for, planned, runner_up
from anglelib.lessons.learned import Learned, learned_in
from anglelib.lessons.live import LivePicture, Preset, View
from anglelib.lessons.openings import opening
from anglelib.lessons.plan_breaks import bears, broken, buy, possible
from anglelib.lessons.table_game import TABLES, Game
from anglelib.lessons.words import Worked, latex_length
from anglelib.part import Part
from anglelib.questions import plan_stock as ask
from anglelib.questions import recall as earlier
from anglelib.questions.answers import AnswerBook
from anglelib.stock.apart import HELPER
from anglelib.stock.fit import refusals
from anglelib.stock.rack import Stick

__all__ = ["bears", "broken", "buy", "possible"]  # cells of this lesson, too
LESSON = "11_plan_the_stock"
ALLOYS = ("6061-T6", "6063-T5")
LENGTHS = fractions("1", "130", "1/4")
LISTS = {False: "nothing else", True: "the kit's whole list"}
JOBS = ("A3", "A1L", "A5L", "C2L", "D2L")
OFFERED = ("S-01", "S-09", "S-10", "S-11", "S-12")
TRAPS = (("S-10", "A3"), ("S-11", "A3"), ("S-12", "A3"), ("S-30", "C2L"), ("S-33", "C2L"))
"""The sticks to be noticed, each with the part that it might be taken for."""
KERFS = {text: Fraction(text) for text in ("1/32", "1/16", "3/32", "1/8")}
FAR_ENDS = {False: "sawn off", True: "square and sound"}
PICKS = {False: "by the rule", True: "the runner-up"}
BESIDES = {"A3": "Baggage floor bar", "A1L": "Floor cleat", "A2L": "Side stiffener", "A4": "Floor stiffener"}


# --- computed -----------------------------------------------------------------------------------------
def job_of(part_id: str) -> dict[str, Any]:
    """What one part now is asked with: section and length."""
    part = demo_part(part_id)
    return {"section": part.section, "length": part.length}


def wanted(values: Mapping[str, Any]) -> Part:
    """The part that is asked for: square, of some section, alloy and length."""
    return Part("part", "A part", values["section"], values["alloy"], values["length"])


def batch_of(values: Mapping[str, Any]) -> Batch:
    """The blanks and their stick."""
    return Batch(values["number"], values["blank"], values["usable"], values["kerf"], values["far"])


def write(values: Mapping[str, Any]) -> Written:
    """What is left, and whether it fits, with some numbers in them."""
    left = formulas().left_of_stick
    rest = left(**{name: Fraction(value) for name, value in values.items()})
    shown = {name: latex_length(Fraction(value)) for name, value in values.items()}
    sign = "-" if rest < 0 else ""
    relation = ">" if rest < 0 else r"\le"
    lines = [left.latex, left.latex_with(shown, sign + latex_length(abs(rest))), f"S + n_c k {relation} E"]
    taken = exact(values["S_b"] + values["n_c"] * values["k"])
    number = f"{values['n_c']} cut{'' if values['n_c'] == 1 else 's'} of {exact(values['k'])}"
    fits = f"TOO LONG by {exact(-rest)}" if rest < 0 else f"it fits, and {exact(rest)} is left" if rest else "it fits exactly"
    return lines, f"Blanks of {exact(values['S_b'])} together and {number} take {taken} of {exact(values['E_l'])}: {fits}."


# --- drawn ------------------------------------------------------------------------------------------
def draw_one(values: Mapping[str, Any], view: View) -> Sheet:
    """The sticks that might serve a part, and the one to cut."""
    part, rack, shop = wanted(values), demo_rack(), demo_job().shop
    sticks = [stick for stick in rack.sticks if near(stick, part)]
    now = now_for(part.section, part.alloy, part.length, values.get("list", False)) if view.revealed else None
    sheet = candidates_sheet(sticks, part, shop, now, answer=view.revealed, few=view.few)
    return replace(sheet, sentence=f"{sheet.sentence} {NO_SOLVER}") if view.revealed and now is None else sheet


def draw_traps(values: Mapping[str, Any], view: View) -> Sheet:
    """The sticks to be noticed, and every reason against them."""
    parts = {"A3": demo_part("A3"), "C2L": replace(demo_part("C2L"), tapers=(), holes=(), mirror_of="", hand="neither", length=values["length"])}
    pairs = [(demo_rack().stick(stick), parts[part]) for stick, part in TRAPS]
    return traps_sheet(pairs, demo_job().shop, answer=view.revealed, few=view.few)


def draw_batch(values: Mapping[str, Any], view: View) -> Sheet:
    """Equal blanks on their stick, kerf by kerf."""
    return batch_sheet(batch_of(values), answer=view.revealed, prediction=view.prediction, few=view.few)


def draw_rack(values: Mapping[str, Any], view: View) -> Sheet:
    """The list cut by a rule of thumb, and by the plan; before the prediction the rack as it is."""
    title, longest = "The list and the rack", max(stick.length for stick in asked().sticks)
    if not view.revealed:
        shown = tuple(Row(s.id, s.length, (), s.dents, exact(s.length)) for s in asked().sticks)
        parts = "; ".join(f"{part.quantity} x {part.id} {exact(part.length)}" for part in listed().parts)
        sentence = f"Nine sticks, to scale, nothing cut: {', '.join(f'{s.id} {exact(s.length)}' for s in asked().sticks)}. Wanted: {parts}."
        return one_rack_sheet(Side("the sticks that may be used, nothing cut yet", shown), longest, title, sentence)
    shown, missing, left = made_by(values["rule"])
    made = f"NOT MADE: {', '.join(missing)}" if missing else "all are made"
    one = Side(RULES[values["rule"]].name, shown, f"{made}\nlongest piece left: {exact(left)}")
    group = planned()
    if group is None:
        return one_rack_sheet(one, longest, title, f"{_rule_words(values['rule'], missing, left)} {NO_SOLVER}")
    best = longest_left(group)
    pieces = sum(len(stick.placed) for stick in group.sticks)
    other = runner_up() if values.get("pick", False) else None
    if other is not None and other.group is not None:
        rows = planned_rows(other.group.sticks, listed().shop.usable_minimum)
        two = Side("the runner-up", rows, f"all {pieces} made\nlongest piece left: {exact(longest_left(other.group))}")
        sentence = f"{_rule_words(values['rule'], missing, left)} The runner-up, beside the plan that leaves {exact(best)}: {other.sentence[0].lower()}{other.sentence[1:]}"
        return two_racks_sheet(one, two, longest, title, sentence, view.few)
    two = Side("the plan, proven", planned_rows(group.sticks, listed().shop.usable_minimum), f"all {pieces} made\nlongest piece left: {exact(best)}")
    sentence = f"{_rule_words(values['rule'], missing, left)} The plan makes all {pieces} pieces and leaves {exact(best)}; it is proven that no plan leaves more."
    return two_racks_sheet(one, two, longest, title, sentence, view.few)


def _rule_words(rule: str, missing: tuple[str, ...], left: Fraction) -> str:
    name = RULES[rule].name
    if not missing:
        return f"By the rule “{name}” all parts are made, and the longest piece left is {exact(left)}."
    names = ", ".join(f"{part_id} ({demo_part(part_id).name.lower()})" for part_id in missing)
    return f"By the rule “{name}” there is no metal left for {names}; the longest piece left is {exact(left)}."


def draw_besides(values: Mapping[str, Any], view: View) -> Sheet:
    """One part now while the list is still to be made: what each stick would cost."""
    now, title = now_besides(values["part_id"]), "One part now, the list later"
    part, longest = demo_part(values["part_id"]), max(stick.length for stick in asked().sticks)
    costs = {other.stick.id: other for other in now.others} if now is not None else {}
    shown = []
    for stick in asked().sticks:
        note, state, cuts, told = exact(stick.length), "", (), False
        if view.revealed and now is not None and now.stick == stick:
            note, state = f"{exact(now.left)} left: cut it here", "chosen"  # type: ignore[arg-type]
            cuts = (Cut(part.id, now.interval.start, now.interval.start + now.blank),)  # type: ignore[union-attr]
        elif view.revealed and stick.id in costs:
            other = costs[stick.id]
            told = bool(other.lost)
            note = f"NO METAL then for {', '.join(other.lost)}" if told else f"{exact(other.left)} left"
        elif view.revealed and refusals(part, stick, listed().shop):
            note, state = "too short", "refused"
        shown.append(Row(stick.id, stick.length, cuts, stick.dents, note, state))
    said = "Which stick it comes from is not shown yet."
    if view.revealed:
        said = " ".join([now.sentence, *(o.sentence for o in now.others if o.lost)]) if now is not None else NO_SOLVER
    sentence = f"One {part.name.partition(',')[0].lower()}, {exact(part.length)}, is cut now, the rest of the list later. {said}"
    return one_rack_sheet(Side("one part now, the list later", tuple(shown)), longest, title, sentence)


def figures() -> dict[str, Sheet]:
    """The lesson's ordinary pictures by file name: what lies on the bench, and the list cut by a rule and by the plan."""
    return {
        f"{LESSON}.png": opening(LESSON),
        f"{LESSON}_list.png": draw_rack({"rule": next(iter(RULES))}, View()),
    }


# --- wired: a function a cell -------------------------------------------------------------------------
def _book() -> AnswerBook:
    return AnswerBook(LESSON)


def _sticks(names: tuple[str, ...]) -> list[Stick]:
    return [demo_rack().stick(name) for name in names]


def recall() -> Questions:
    """Three questions of earlier lessons; meanwhile the solver starts, which is asked further down."""
    HELPER.begin()
    book = _book()
    return Questions(
        Ask(lambda n: earlier.datum_end(), book),
        Ask(lambda n: earlier.what_weight_tells(), book),
        Ask(lambda n: earlier.blank_length(demo_part("A3"), demo_job().shop), book),
    )


def one_part() -> LivePicture:
    """Predict which stick one bar comes from; then ask for any section, alloy and length."""
    part = demo_part("A3")
    sections = {p.section.size: p.section for p in demo_job().parts}
    return LivePicture(
        draw_one,
        {
            "section": ChoiceControl("Section", sections, part.section),
            "alloy": ChoiceControl("Alloy", ALLOYS, ALLOYS[0]),
            "length": FractionControl("Length (in.)", LENGTHS, part.length),
            "list": ChoiceControl("Besides", by_id(LISTS), False),
        },
        presets={id_: Preset(demo_part(id_).name.removesuffix(", left"), {**job_of(id_), "alloy": ALLOYS[0]}) for id_ in JOBS},
        ask=Predict(lambda n: ask.choose_stick(part, _sticks(OFFERED), demo_job().shop, "predict-the-stick"), _book()),
    )


def traps() -> LivePicture:
    """Predict what a dented stick still gives; then see what speaks against each of five sticks."""
    dented = demo_rack().stick("S-30")
    return LivePicture(
        draw_traps,
        {"length": FractionControl("Fairing angle (in.)", fractions("1", "48", "1/8"), demo_part("C2L").length)},
        ask=Predict(lambda n: ask.longest_part(dented, demo_job().shop, "predict-the-longest-part"), _book()),
    )


def kerf() -> LivePicture:
    """Predict what three blanks need; then change blanks, kerf and far end."""
    batch = Batch(3, Fraction(5), Fraction(121, 8), Fraction(1, 16))
    return LivePicture(
        draw_batch,
        {
            "number": NumberControl("Blanks", 1, 6, batch.number),
            "blank": FractionControl("Each (in.)", fractions("1", "6", "1/16"), batch.blank),
            "usable": FractionControl("Usable stick (in.)", fractions("12", "20", "1/16"), batch.usable),
            "kerf": ChoiceControl("Kerf (in.)", KERFS, batch.kerf),
            "far": ChoiceControl("Far end", by_id(FAR_ENDS), batch.far_end_good),
        },
        ask=Predict(lambda n: ask.batch_needs(batch, "predict-what-blanks-need"), _book()),
    )


def formula() -> FormulaCard:
    """What a stick still gives, with any numbers in it."""
    controls = {
        "E_l": FractionControl("Usable E (in.)", fractions("12", "144", "1/8"), Fraction(225, 4)),
        "S_b": FractionControl("Blanks together S (in.)", fractions("2", "140", "1/16"), Fraction(223, 4)),
        "n_c": NumberControl("Cuts n", 1, 12, 2),
        "k": FractionControl("Kerf k (in.)", fractions("1/32", "1/8", "1/64"), Fraction(1, 16)),
    }
    return FormulaCard(write, controls)


def worked() -> Worked:
    """What is left of one stick, every step shown."""
    stick, shop = demo_rack().stick("S-06"), demo_job().shop
    parts = [demo_part("A2L"), demo_part("A2R")]
    (interval,) = stick.intervals()
    blanks = [part.length + 2 * shop.allowance for part in parts]
    taken = sum(blanks) + len(blanks) * shop.kerf
    steps = (
        f"Usable: {exact(stick.length)} less the trims, {exact(stick.trim_1)} and {exact(stick.trim_2)}: {exact(interval.length)}.",
        f"Blanks: each part {exact(parts[0].length)} and twice the allowance of {exact(shop.allowance)}: {exact(blanks[0])}.",
        f"Taken: {len(blanks)} blanks and {len(blanks)} kerfs of {exact(shop.kerf)}: {both(taken)}.",
        f"Left: {exact(interval.length)} less {exact(taken)}: {both(interval.length - taken)}.",
    )
    check = f"Check: what is left is below {exact(shop.usable_minimum)}, so it counts for nothing. The stick is used up, and no longer one was opened."
    return Worked(f"Worked stick: {stick.id}, for {parts[0].id} and {parts[1].id}", steps, check)


def last_step() -> Ask:
    """Another stick with the last step left out."""
    parts = [demo_part("A4"), demo_part("A3")]
    return Ask(lambda n: ask.left_of_stick(demo_rack().stick("S-05"), parts, demo_job().shop, True, "left-of-S-05"), _book())


def all_steps() -> Ask:
    """A stick with every step left out."""
    parts = [demo_part("A3")] * 3
    return Ask(lambda n: ask.left_of_stick(demo_rack().stick("S-07"), parts, demo_job().shop, False, "left-of-S-07"), _book())


def rack() -> LivePicture:
    """Predict for which part a stick is found first; then see rules of thumb beside the plan."""
    parts = [demo_part(id_) for id_ in ("A1L", "A3", "A5L", "A6L")]
    serving = [sum(1 for stick in asked().sticks if not refusals(part, stick, listed().shop)) for part in parts]
    return LivePicture(
        draw_rack,
        {
            "rule": ChoiceControl("Rule", [(rule.name, id_) for id_, rule in RULES.items()], next(iter(RULES))),
            "pick": ChoiceControl("Plan", by_id(PICKS), False),
        },
        ask=Predict(lambda n: ask.first_to_place(parts, serving, "predict-the-first"), _book()),
    )


def spoiled() -> Ask:
    """Which part could be made again after the plan."""
    parts = [demo_part(id_) for id_ in ("A1L", "A3", "A2L", "A5L")]
    shop, group = listed().shop, planned()
    left = longest_left(group) if group is not None else Fraction(0)
    if group is None:
        parts, left = parts[:2], Fraction(12)
    blanks = [part.length + 2 * shop.allowance for part in parts]
    return Ask(lambda n: ask.made_again(parts, blanks, left, shop.kerf), _book())


def besides() -> LivePicture:
    """Predict which stick may not be touched for one bar; then see what each would cost, for other parts too."""
    now = now_besides("A3")
    question = ask.would_spoil(now, ("S-01", "S-04", "S-05", "S-09"), "predict-the-cost") if now is not None else None
    return LivePicture(
        draw_besides,
        {"part_id": ChoiceControl("Part", by_id(BESIDES), "A3")},
        ask=Predict(lambda n: question, _book()) if question is not None else None,
    )


def game(which: int) -> Game:
    """A table to be cut by hand: 1 or 2."""
    return Game(TABLES[which], _book())


def exercise(which: int) -> Ask:
    """A checked exercise with fresh numbers on demand: 1 to 4."""
    name, series = list(ask.EXERCISES.items())[which - 1]
    title = f"Exercise {which}"
    if name == "stick":
        return AskPicture(series.__getitem__, lambda n: _shelf(series.thing(n)), _book(), fresh=True, title=title)
    return Ask(series.__getitem__, _book(), fresh=True, title=title)


def _shelf(shelf: ask.Shelf) -> Sheet:
    return candidates_sheet(shelf.sticks, shelf.part, demo_job().shop, answer=False, low=True)


def learned() -> Learned:
    """What the lesson was about, and what to carry to the bench."""
    return learned_in(LESSON)
