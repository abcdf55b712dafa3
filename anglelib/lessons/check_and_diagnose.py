"""Lesson 10: check a finished part by a few readings, and name the slip that they point to.

>>> draw(given("E2L", "M01"), View()).sentence[:78]
'Step bracket, left as made, over the wanted outline, dotted. M01 cut on the ke'
>>> draw(given("E2L", "M01"), View(revealed=False)).sentence.count("M01")
0
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from functools import cache
from typing import Any

from anglelib.drawing.caliper import Held, caliper_sheet
from anglelib.drawing.deviations import rows_sentence
from anglelib.drawing.diagnosis_sheets import causes_sheet, made_sheet
from anglelib.drawing.sheet import Sheet
from anglelib.geometry.lazy import formulas
from anglelib.inspection.by_amount import all_or_nothing, by_amount, one_way
from anglelib.inspection.diagnosis import GOOD, Diagnosis, Reading, diagnose
from anglelib.inspection.made import Made, readings_of
from anglelib.inspection.mistakes import MISTAKES
from anglelib.inspection.reading_ids import chosen
from anglelib.inspection.reading_words import short_words
from anglelib.inspection.verdict import judge
from anglelib.inspection.wanted import all_wanted
from anglelib.lengths import decimal, exact
from anglelib.lessons.ask import Ask, Predict, Questions
from anglelib.lessons.ask_picture import AskPicture
from anglelib.lessons.controls import ChoiceControl, FractionControl, NumberControl, by_id, fractions
from anglelib.lessons.demo import demo_job, demo_part
from anglelib.lessons.formula_card import FormulaCard, Written
from anglelib.lessons.laid_on_print import on_print
from anglelib.lessons.learned import Learned, learned_in
from anglelib.lessons.live import LivePicture, View
from anglelib.lessons.openings import opening
from anglelib.lessons.own_readings import OwnReadings, PartOfJob, rows_sheet
from anglelib.lessons.room import ROOM
from anglelib.lessons.table import Table
from anglelib.lessons.words import Worked, latex_length
from anglelib.questions import check_and_diagnose as ask
from anglelib.questions import made_slips as slips
from anglelib.questions import recall as earlier
from anglelib.questions.answers import AnswerBook

LESSON = "10_check_and_diagnose"
PART = "E2L"
SHORT = {
    "M01": "keep side", "M02": "line split", "M03": "kerf at both ends", "M04": "sanded past", "M05": "allowance left", "M06": "batch without kerf",
    "M09": "other hand", "M10": "other end", "M11": "from the inside face", "M12": "inside corner", "M13": "wrong side", "M14": "saw drifted",
    "M15": "saw tilted", "M16": "datum lost", "M18": "wrong pitch", "M21": "out of square", "M22": "over-filed", "M23": "wrong section",
    "M24": "wrong alloy", "M25": "measured hot", "M26": "pair of one hand",
}  # fmt: skip
"""The slips that can be seen here as made parts, in two or three words."""
RIGHT_LENGTH = ("M09", "M10", "M11", "M13", "M14", "M15", "M22", "M23", "M24")
WRONG_LENGTH = ("M01", "M02", "M03", "M04", "M05", "M06", "M16", "M21", "M25")
OF_A_PAIR = ("M12", "M13", "M14", "M18", "M26")
ORDER = ("heel", "toe.A", "hole.2.x", "start.A.1", "toe.B", "hole.3.y", "inside.A.1", "width.A.2")
"""The order in which the picture of causes takes its readings."""
UNSEEN = "of this slip the print shows nothing, however much of it there is"
NO_AMOUNT = "this slip has no amount: it was made or it was not"
CAUSES = {GOOD: "a good part", **{id_: SHORT[id_] for id_ in ("M01", "M04", "M09", "M13", "M14", "M16", "M18", "M21")}}


# --- computed -----------------------------------------------------------------------------------------
def given(part_id: str, slip: str, amount: int = 100) -> dict[str, Any]:
    """The values of a picture of one slip."""
    return {"part": part_id, "slip": slip, "amount": amount}


@cache
def made(part_id: str, slip: str, amount: int) -> Made:
    """A demo part made with so much of a slip [percent]."""
    return by_amount(one_way(slip, demo_part(part_id), demo_job().shop), amount / 100)


def way(part_id: str, slip: str, amount: int) -> str:
    """How the slip went and how much of it, in words."""
    case = one_way(slip, demo_part(part_id), demo_job().shop)
    if amount == 0:
        return "Nothing of the slip: a good part."
    much = "" if amount == 100 or all_or_nothing(case) else f"{amount} percent of that"
    words = "; ".join(filter(None, (case.words, much)))
    return f"How: {words}." if words else ""


@cache
def causes(slip: str, amount: int, count: int) -> tuple[Diagnosis, tuple]:
    """What the first few readings of the plain part made with a slip point to, and those readings."""
    part, shop = demo_part(PART), demo_job().shop
    piece = Made.as_wanted(part) if slip == GOOD else made(PART, slip, amount)
    read = readings_of(piece)
    return diagnose(part, shop, [Reading(key, read[key]) for key in ORDER[:count]]), slips.rows_of(piece, ORDER[:count])


# --- drawn ------------------------------------------------------------------------------------------
def draw(values: Mapping[str, Any], view: View) -> Sheet:
    """The made part over the wanted one; its readings too, and the slip's name once it may be told."""
    piece = made(values["part"], values["slip"], values["amount"])
    keys = chosen(piece.wanted)
    rows = slips.rows_of(piece, (*keys[:-1], "weight") if values["slip"] == "M24" and view.revealed else keys)
    slip = values["slip"]
    told = f"{slip} {SHORT[slip] if view.few else MISTAKES[slip].name}" if view.revealed else ""
    how = way(values["part"], slip, values["amount"]) if view.revealed else ""
    return made_sheet(piece, rows, told, few=view.few, note=how)


def draw_right_length(values: Mapping[str, Any], view: View) -> Sheet:
    """Before the prediction only the wanted outline and the one reading that was taken; then parts that are wrong and have it."""
    if view.revealed:
        return draw(values, view)
    wanted = Made.as_wanted(demo_part(values["part"]))
    note = f"Only the length along the heel was read: {exact(wanted.wanted.length)}, as wanted. Nothing else is known of this part."
    return made_sheet(wanted, slips.rows_of(wanted, ("heel",)), "", few=view.few, wanted_only=True, note=note)


def draw_causes(values: Mapping[str, Any], view: View) -> Sheet:
    """The readings taken so far, and the three causes that they leave; the next best reading once it may be told."""
    found, rows = causes(values["slip"], values["amount"], values["count"])
    best = short_words(found.next_reading, demo_part(PART)) if found.next_reading else ""
    return causes_sheet(found, rows, "Ranked causes", few=view.few, ask_next=view.revealed, next_name=best)


def draw_print(values: Mapping[str, Any], view: View) -> Sheet:
    """The check print with the part on it; before the prediction the bare print."""
    if not view.revealed:
        part = demo_part(values["part"])
        sheet = on_print(Made.as_wanted(part))
        bare = tuple(item for item in sheet.items if getattr(item, "kind", "") != "mark")
        sentence = f"The check print of {part.name}: two thin lines, 1/32 outside and inside the wanted outline, and bars at the heel and at end 1."
        return Sheet(sheet.width, sheet.height, bare, sheet.title, sentence)
    return on_print(made(values["part"], values["slip"], values["amount"]))


def write(values: Mapping[str, Fraction]) -> Written:
    """What a reading is unsure of when only its limits are known, and the part's limits shrunk by twice that."""
    f, (a, T) = formulas(), (values["a_l"], values["T"])
    u = f.limits_deviation(a_l=float(a))
    inner = float(T) - 2 * u
    lines = [f"{f.limits_deviation.latex} {_numbers(f.limits_deviation, {'a_l': latex_length(a)}, latex_length(u))}"]
    lines.append(rf"\text{{proven within: }} T - 2 u_l = {latex_length(T)} - 2 \times {latex_length(u)} = {latex_length(inner)}")
    if inner <= 0:
        return lines, f"Read to within {decimal(a)}, nothing can be proven within limits of {decimal(T)}: read with something finer."
    return lines, f"Read to within {decimal(a)}: unsure by {decimal(u)}, twice that is {decimal(2 * u)}. Of {decimal(T)} only {decimal(inner)} is left in which a part is proven within."


def _numbers(formula: Any, shown: Mapping[str, str], result: str) -> str:
    return formula.latex_with(shown, result).removeprefix(formula.result.latex).strip()


def figures() -> dict[str, Sheet]:
    """The lesson's ordinary pictures by file name: what lies on the bench, and the causes of another."""
    found, rows = causes("M16", 100, 3)
    return {
        f"{LESSON}.png": opening(LESSON),
        f"{LESSON}_causes.png": causes_sheet(found, rows, "Ranked causes"),
    }


# --- wired: a function a cell -------------------------------------------------------------------------
def _book() -> AnswerBook:
    return AnswerBook(LESSON)


def _slips(ids: tuple[str, ...], first: str) -> ChoiceControl:
    return ChoiceControl("Slip", by_id({id_: SHORT[id_] for id_ in ids}), first)


def _amount() -> NumberControl:
    return NumberControl("Amount (%)", 0, 200, 100, 5)


def recall() -> Questions:
    """Three questions of earlier lessons."""
    part, book = demo_part(PART), _book()
    return Questions(
        Ask(lambda n: earlier.turned_hand(), book),
        Ask(lambda n: earlier.blank_length(part, demo_job().shop), book),
        Ask(lambda n: earlier.height_on_line(demo_part("C1L")), book),
    )


@cache
def _is_whole(part_id: str, slip: str) -> bool:
    return all_or_nothing(one_way(slip, demo_part(part_id), demo_job().shop))


def _idle(values: Mapping[str, Any]) -> dict[str, str]:
    """A slip that has no amount leaves its slider nothing to do, once there is something of it."""
    return {"amount": NO_AMOUNT} if values["amount"] and _is_whole(values["part"], values["slip"]) else {}


@cache
def _is_unseen(part_id: str, slip: str) -> bool:
    return on_print(made(part_id, slip, 0)) == on_print(made(part_id, slip, 200))


def _idle_on_print(values: Mapping[str, Any]) -> dict[str, str]:
    """The same, and for a slip of which the check print shows nothing."""
    return _idle(values) or ({"amount": UNSEEN} if _is_unseen(values["part"], values["slip"]) else {})


def right_length() -> LivePicture:
    """Predict what a right length says; then see the parts that have it and are wrong."""
    return LivePicture(
        draw_right_length,
        {"slip": _slips(RIGHT_LENGTH, "M09"), "amount": _amount()},
        fixed={"part": PART},
        ask=Predict(lambda n: ask.length_alone(demo_part(PART), "predict-what-the-length-says"), _book()),
        waits=("slip",),
        idle=_idle,
    )


def short() -> LivePicture:
    """Name the slip of a part that is short; then its amount, and the other slips that change a length."""
    slip = slips.asked_slip(demo_part(PART), "M16")
    return LivePicture(
        draw,
        {"slip": _slips(WRONG_LENGTH, "M16"), "amount": _amount()},
        fixed={"part": PART},
        ask=Predict(lambda n: ask.name_slip(slip, "predict-the-short-part"), _book()),
        waits=("slip",),
        idle=_idle,
    )


def to_the_vertex() -> LivePicture:
    """Name the slip of a taper to the vertex; then the others that a pair, a row of holes or a saw shows."""
    part = demo_part("C1L")
    slip = slips.Slip(part, "M12", slips.near_ones(part, "M12"))
    return LivePicture(
        draw,
        {"slip": _slips(OF_A_PAIR, "M12"), "amount": _amount()},
        fixed={"part": part.id},
        ask=Predict(lambda n: ask.name_slip(slip, "predict-the-vertex-part"), _book()),
        waits=("slip",),
        idle=_idle,
    )


def why_seven() -> Table:
    """The seven readings of one part: what is wanted, and which slips each of them feels."""
    part = demo_part(PART)
    wanted = all_wanted(part, slips.LIMITS)
    ids = [id_ for id_ in SHORT if slips.can_be_made(part, id_) and "P" in MISTAKES[id_].kinds]
    rows = []
    for key in chosen(part):
        want = wanted[key]
        feels = [id_ for id_ in ids if not want.keeps(readings_of(slips.made_with(part, id_))[key])]
        rows.append((short_words(key, part), decimal(want.value), f"{decimal(want.low)} to {decimal(want.high)}", " ".join(feels)))
    return Table(("reading", "wanted", "limits", "felt by"), rows)


def ranked() -> LivePicture:
    """Predict the next best reading; then take readings one by one and see which causes remain."""
    return LivePicture(
        draw_causes,
        {"slip": ChoiceControl("The part has", by_id(CAUSES), "M01"), "count": ChoiceControl("Readings taken", {str(n): n for n in range(1, len(ORDER) + 1)}, 1)},
        fixed={"amount": 100},
        ask=Predict(lambda n: ask.next_reading(demo_part(PART), "predict-the-next-reading"), _book()),
    )


def cannot_tell() -> Questions:
    """What one part cannot tell: the other hand, heat, a batch."""
    book = _book()
    return Questions(
        Ask(lambda n: ask.which_hand(demo_part(PART)), book),
        Ask(lambda n: ask.cold_length(demo_part("A2L")), book),
        Ask(lambda n: ask.batch(), book),
    )


def at_a_glance() -> LivePicture:
    """Lay a part on its check print; predict first whether a saw drift can be seen there."""
    part = demo_part(PART)
    slip = slips.Slip(part, "M14", slips.near_ones(part, "M14"))
    return LivePicture(
        draw_print,
        {"slip": _slips(("M01", "M05", "M09", "M11", "M14", "M16", "M22", "M25"), "M14"), "amount": _amount()},
        fixed={"part": part.id},
        ask=Predict(lambda n: ask.seen_on_print(slip, "predict-the-glance"), _book()),
        waits=("slip",),
        idle=_idle_on_print,
    )


def formula() -> FormulaCard:
    """What a reading proves, with any numbers in it."""
    controls = {
        "a_l": FractionControl("Read within a (in.)", fractions("1/1000", "1/32", "1/1000"), Fraction(1, 128)),
        "T": FractionControl("Limit T (in.)", fractions("1/250", "1/16", "1/1000"), Fraction(3, 250)),
    }
    return FormulaCard(write, controls)


def worked() -> Worked:
    """One part, from its readings to a verdict, every step shown."""
    part, shop = demo_part(PART), demo_job().shop
    piece = made(PART, "M13", 100)
    keys, read = chosen(part), readings_of(piece)
    rows = slips.rows_of(piece)
    off = [row for row in rows if row.state == "out"]
    found = diagnose(part, shop, [Reading(key, read[key]) for key in keys])
    verdict = judge(part, [Reading(key, read[key]) for key in keys], job=demo_job())
    first, second = found.causes[0], found.causes[1]
    steps = (
        f"Read all seven before you think: {'; '.join(f'{row.name} {decimal(row.read)}' for row in rows)}.",
        f"Off by more than the limit: {'; '.join(f'{row.name} {row.words}' for row in off)}. The others are within.",
        "The pattern: the taper's start is late, its toe short by the same, the width at the end too small; nothing else has moved. So the line was moved towards the part, and its angle kept.",
        f"Likeliest: {', '.join(f'{id_} {MISTAKES[id_].name}' for id_ in first.ids)}, {_percent(first.probability)}. Next: {_named(second)}, {_percent(second.probability)}.",
        f"Verdict: {_small(verdict.sentence)}",
    )
    return Worked(f"Worked part: {part.name}, {part.section.size}, {exact(part.length)} long", steps, "Check: a second person reads the two worst again, without seeing the first figures.")


def _percent(probability: float) -> str:
    return "over 99 percent" if probability > 0.995 else f"{max(1, round(100 * probability))} percent"


def _named(cause: Any) -> str:
    return " and ".join(f"{id_} {MISTAKES[id_].name}" if id_ != GOOD else "a good part" for id_ in (cause.ids[0], *cause.second[:1]))


def _small(sentence: str) -> str:
    return sentence[0].lower() + sentence[1:]


def last_step() -> AskPicture:
    """The same kind of part with its readings taken: the last step, the slip, left out."""
    slip = slips.Slip(demo_part("A1L"), "M03", slips.near_ones(demo_part("A1L"), "M03"))
    return AskPicture(lambda n: ask.name_slip(slip, "cleat-which-slip", readings=True), lambda n: rows_sheet(slip.rows, slip.part, _few()), _book())


def all_steps() -> Questions:
    """A part with every step left out: read the caliper, judge the reading, name the slip."""
    book = _book()
    on = ask.fresh_on_part("lesson 10, all steps")
    limit = ask.Limit(on.wanted, demo_limit(on), 2 * ask.THOUSANDTH * 2, on.caliper.read)
    proven = ask.what_is_proven(limit, "bracket-what-is-proven", "what the picture above shows")
    return Questions(
        AskPicture(lambda n: ask.off_by(on, "bracket-off-by"), lambda n: draw_caliper(on), book),
        Ask(lambda n: proven, book),
    )


def demo_limit(on: ask.OnPart) -> Any:
    """How far off a width may be, to a thousandth."""
    return round(float(slips.LIMITS.length(on.wanted)) * 1000) * ask.THOUSANDTH


def draw_caliper(on: ask.OnPart) -> Sheet:
    """The caliper on a leg's width at its tapered end."""
    return caliper_sheet(on.caliper, Held.length(f"leg A of bracket {on.tag}, at its tapered end", on.caliper.reading, on.section.thickness("A")), few=_few())


def exercise(which: int) -> Ask:
    """A checked exercise with fresh numbers on demand: 1 to 4."""
    name, series = list(ask.EXERCISES.items())[which - 1]
    title, book = f"Exercise {which}", _book()
    draws = {
        "name-the-slip": lambda n: draw_slip(series.thing(n)),
        "seven-readings": lambda n: rows_sheet(series.thing(n).rows, series.thing(n).part, _few()),
        "off-by": lambda n: draw_caliper(series.thing(n)),
    }
    if name not in draws:
        return Ask(series.__getitem__, book, fresh=True, title=title)
    return AskPicture(series.__getitem__, draws[name], book, fresh=True, title=title)


def draw_slip(slip: slips.Slip) -> Sheet:
    """A made part over the wanted one, without a word of its slip or its readings."""
    sheet = made_sheet(slip.made, (), few=_few())
    return Sheet(sheet.width, sheet.height, sheet.items, sheet.title, f"{sheet.sentence} {rows_sentence(slip.rows, 7)}")


def own() -> OwnReadings:
    """Readings of one's own part, or of one of the demo kit's."""
    return OwnReadings(PartOfJob(PART, ("A1L", "A1R", "B1", "C1L", "C1R", "D1", "E1", "E2L", "E2R")))


def _few() -> bool:
    return ROOM.theme == "projector"


def learned() -> Learned:
    """What the lesson was about, and what to carry to the bench."""
    return learned_in(LESSON)
