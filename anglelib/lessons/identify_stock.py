"""Lesson 01: which section and which alloy a stick is: caliper, corner, weight, and the mark.

What is computed, what is drawn and how they are wired are three separate things; each function below
the last heading is one cell of the notebook.

>>> reading({"section": PLAIN, "on": "leg-A", "kind": "fraction", "off": 1}).read
Fraction(97, 128)
>>> draw_trap({"fillet": Fraction(1, 8), "toe": Fraction(0), "mark": ""}, View(revealed=False)).title
'The same size twice'
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from typing import Any

from anglelib.drawing.caliper import Caliper, Held, caliper_sheet
from anglelib.drawing.caliper_reading import LINE, THOUSANDTH
from anglelib.drawing.look_alikes import look_alikes_sheet
from anglelib.drawing.radius_gauge import radius_gauge_sheet
from anglelib.drawing.sheet import Sheet
from anglelib.drawing.stick_ends import stick_ends_sheet
from anglelib.drawing.weights import weights_sheet
from anglelib.geometry.lazy import formulas
from anglelib.geometry.weighing import Weighing
from anglelib.lengths import decimal, exact
from anglelib.lessons.ask import Ask, Predict, Questions
from anglelib.lessons.ask_picture import AskPicture
from anglelib.lessons.controls import ChoiceControl, FractionControl, NumberControl, by_id, fractions
from anglelib.lessons.formula_card import FormulaCard, Written
from anglelib.lessons.learned import Learned, learned_in
from anglelib.lessons.live import ROOM, LivePicture, Preset, View
from anglelib.lessons.openings import opening
from anglelib.lessons.table import Table
from anglelib.lessons.words import Worked, latex_length
from anglelib.questions import identify_stock as ask
from anglelib.questions import recall as earlier
from anglelib.questions.answers import AnswerBook
from anglelib.questions.identify_stock import PLAIN, SAMPLES, SQUARE
from anglelib.section import Section

LESSON = "01_identify_stock"
FILLETS = {text: Fraction(text) for text in ("0", "1/16", "1/8", "3/16")}
TOES = {text: Fraction(text) for text in ("0", "1/32", "1/16")}
GAUGES = {text: Fraction(text) for text in ("1/16", "1/8", "3/16", "1/4")}
PRINTED = {"": "nothing", "6061-T6": "6061-T6", "6063-T5": "6063-T5"}
ON = {"leg-A": "leg A", "leg-B": "leg B", "thickness-A": "thickness of A", "thickness-B": "thickness of B"}
"""What the caliper is closed on, by id, in words."""
MEASURES = {"leg-A": ("A", True), "leg-B": ("B", True), "thickness-A": ("A", False), "thickness-B": ("B", False)}
"""The same as a leg, and whether its width or its thickness."""
KINDS = {"fraction": "fractions, vernier", "decimal": "decimals, dial"}
THICKNESS_ERRORS = {text: Fraction(text) for text in ("0", "0.001", "0.002", "0.005")}
SCALE_ERRORS = {text: Fraction(text) for text in ("0.1", "0.5", "1", "5")}
STOCK = {
    "plain": PLAIN,
    "thin": Section("3/4", "3/4", "1/16", fillet="1/16"),
    "unequal": Section("1 1/2", 1, "1/8", fillet="1/8"),
    "thick": Section("1 1/2", "1 1/2", "3/16", fillet="3/16"),
}
"""Sections by id."""
PUBLISHED = (
    ("L2 x 2 x 1/8, fillet 1/4, toes 1/8", Section(2, 2, "1/8", fillet="1/4", toe_radius="1/8"), 0.491, "Aluminum Association"),
    ("L3 x 2 x 1/4, fillet 5/16, toes 3/16", Section(2, 3, "1/4", fillet="5/16", toe_radius="3/16"), 1.19, "Aluminum Association"),
    ("L50 x 50 x 5 mm, fillet 7, toes 3.5", Section("50 mm", "50 mm", "5 mm", fillet="7 mm", toe_radius="3.5 mm"), 4.80 / 2.54**2, "EN 10056-1"),
    ("L60 x 40 x 5 mm, fillet 6, toes 3", Section("40 mm", "60 mm", "5 mm", fillet="6 mm", toe_radius="3 mm"), 4.79 / 2.54**2, "EN 10056-1"),
)
"""Printed areas [in2] to hold the sum against: name, section, area, table."""


# --- computed -----------------------------------------------------------------------------------------
def reading(values: Mapping[str, Any]) -> Caliper:
    """The caliper closed on one of the section's measures, which is off its size by so many 128ths, whatever it is read with.

    >>> leg = {"section": PLAIN, "on": "leg-A", "off": 1}
    >>> [Caliper.words.fget(reading({**leg, "kind": kind})) for kind in KINDS]
    ['3/4 and 1/128 is 97/128 (0.758)', '0.7 and 0.058 is 0.758']
    """
    section, on = values["section"], values["on"]
    leg, wide = MEASURES[on]
    size = section.leg(leg) if wide else section.thickness(leg)
    return Caliper(size + values["off"] * LINE, values["kind"])


def held(section: Section, on: str) -> Held:
    """What the jaws are closed on."""
    leg, wide = MEASURES[on]
    return Held.leg(section, leg) if wide else Held.thickness(section, leg)


def weighing(values: Mapping[str, Any]) -> Weighing:
    """The piece on the scale."""
    return Weighing(values["section"], values["length"], values["thick"], values["scale"])


# --- drawn ------------------------------------------------------------------------------------------
def draw_trap(values: Mapping[str, Any], view: View) -> Sheet:
    """Two pieces of one size: P square inside and unmarked, Q with the corner and the mark that are chosen."""
    q = replace(PLAIN, fillet=values["fillet"], toe_radius=values["toe"])
    return look_alikes_sheet(SQUARE, q, ("", values["mark"]), revealed=view.revealed, few=view.few)


def draw_caliper(values: Mapping[str, Any], view: View) -> Sheet:
    """The caliper on the section; the reading is printed once it has been predicted."""
    return caliper_sheet(
        reading(values), held(values["section"], values["on"]), revealed=view.revealed, few=view.few, prediction=view.prediction
    )


def draw_gauge(values: Mapping[str, Any], view: View) -> Sheet:
    """A shank in the corner."""
    section = replace(values["section"], fillet=values["fillet"])
    return radius_gauge_sheet(section, values["gauge"], revealed=view.revealed, few=view.few)


def draw_weights(values: Mapping[str, Any], view: View) -> Sheet:
    """The alloys' spans, and the piece on the scale."""
    weighed = Fraction(values["tenths"], 10)
    return weights_sheet(weighing(values), weighed, revealed=view.revealed, few=view.few)


def write(values: Mapping[str, Fraction]) -> Written:
    """The area of a section with some numbers in it, and what a foot of it weighs."""
    f = formulas()
    a, b, t, r, r2 = (values[name] for name in ("a", "b", "t", "r", "r2"))
    if t >= min(a, b):
        return [f.section_area.latex], f"A leg {exact(t)} thick needs more width than {exact(min(a, b))}."
    if r + r2 > min(a, b) - t or r2 > t:
        return [f.section_area.latex], "The radii need more metal than there is inside: choose smaller ones."
    section = Section(a, b, t, fillet=r, toe_radius=r2)
    numbers = {"a": a, "b": b, "tA": t, "tB": t, "r": r, "r2": r2, "Rh": Fraction(0)}
    area = f.section_area(**numbers)
    shown = {name: latex_length(value) for name, value in numbers.items()}
    lines = [f.section_area.latex, f.section_area.latex_with(shown, decimal(area, 4)), f.fillet_area.latex_with({"r": shown["r"]}, decimal(f.fillet_area(r=r), 4))]
    weights = ", ".join(f"{decimal(section.weight_per_foot(alloy))} in {alloy}" for alloy in ("6061", "6063", "2024", "7075"))
    share = 100 * float(f.fillet_area(r=r)) / float(area)
    return lines, f"{decimal(area, 4)} square inches, of which the fillet is {share:.1f} percent. A foot weighs, in pounds: {weights}."


def figures() -> dict[str, Sheet]:
    """The lesson's ordinary pictures by file name: what lies on the bench, and the caliper."""
    return {
        f"{LESSON}.png": opening(LESSON),
        f"{LESSON}_caliper.png": caliper_sheet(reading(_first()), held(PLAIN, "leg-A"), revealed=True),
    }


# --- wired: a function a cell -------------------------------------------------------------------------
def _book() -> AnswerBook:
    return AnswerBook(LESSON)


def _first() -> dict[str, Any]:
    """What the first caliper is closed on."""
    return {"section": PLAIN, "on": "leg-A", "kind": "fraction", "off": 1}


def _piece() -> dict[str, Any]:
    """The first piece on the scale."""
    return {"section": PLAIN, "length": Fraction(12), "thick": THOUSANDTH, "scale": Fraction(1, 2)}


def recall() -> Questions:
    """Three questions of lesson 00."""
    book = _book()
    return Questions(
        Ask(lambda n: earlier.name_of_vertex(), book), Ask(lambda n: ask.QUESTIONS["from-where"](), book), Ask(lambda n: earlier.datum_end(), book)
    )


def trap() -> LivePicture:
    """Predict which of two look-alikes may be cut; then change corner, toes and mark of one."""
    return LivePicture(
        draw_trap,
        {
            "fillet": ChoiceControl("Fillet of Q (in.)", FILLETS, PLAIN.fillet),
            "toe": ChoiceControl("Toes of Q (in.)", TOES, Fraction(0)),
            "mark": ChoiceControl("Printed on Q", by_id(PRINTED), ""),
        },
        ask=Predict(lambda n: ask.which_of_two(), _book()),
    )


def caliper() -> LivePicture:
    """Predict what a caliper reads; then close it on other measures, and move it a hair at a time."""
    first = _first()
    question = ask.read_caliper(ask.Reading("leg A", reading(first)), "predict-the-reading")
    return LivePicture(
        draw_caliper,
        {
            "on": ChoiceControl("Closed on", by_id(ON), first["on"]),
            "kind": ChoiceControl("Caliper", by_id(KINDS), first["kind"]),
            "off": NumberControl("Off its size by (1/128 in.)", -8, 8, first["off"]),
        },
        presets={id_: Preset(section.size, {"section": section}) for id_, section in STOCK.items()},
        ask=Predict(lambda n: question, _book()),
        waits=("off",),
        aside="A caliper with a vernier, closed on leg A, heel to toe. Its reading is yours to take.",
    )


def gauge() -> LivePicture:
    """Predict what light behind a shank says; then try other shanks in other corners."""
    return LivePicture(
        draw_gauge,
        {
            "gauge": ChoiceControl("Shank's radius (in.)", GAUGES, Fraction(3, 16)),
            "fillet": ChoiceControl("Fillet (in.)", FILLETS, PLAIN.fillet),
        },
        fixed={"section": PLAIN},
        ask=Predict(lambda n: ask.behind_the_shank(PLAIN, Fraction(3, 16)), _book()),
        waits=("fillet",),
    )


def scale() -> LivePicture:
    """Predict which alloys a scale tells apart; then measure better and worse, and weigh other pieces."""
    piece = _piece()
    return LivePicture(
        draw_weights,
        {
            "tenths": NumberControl("It weighs (g)", 900, 990, 954, of=10),
            "thick": ChoiceControl("Thickness to (in.)", THICKNESS_ERRORS, piece["thick"]),
            "scale": ChoiceControl("Scale to (g)", SCALE_ERRORS, piece["scale"]),
        },
        fixed=piece,
        ask=Predict(lambda n: ask.scale_tells(weighing(piece)), _book()),
    )


def formula() -> FormulaCard:
    """The area of a section, with any numbers in it."""
    return FormulaCard(
        write,
        {
            "a": FractionControl("Leg A, a (in.)", fractions("1/2", "3", "1/8"), PLAIN.leg_a),
            "b": FractionControl("Leg B, b (in.)", fractions("1/2", "3", "1/8"), PLAIN.leg_b),
            "t": FractionControl("Thickness t (in.)", fractions("1/16", "3/8", "1/32"), PLAIN.thickness_a),
            "r": FractionControl("Fillet r (in.)", fractions("0", "3/8", "1/32"), PLAIN.fillet),
            "r2": FractionControl("Toes r2 (in.)", fractions("0", "1/4", "1/32"), Fraction(0)),
        },
    )


def published() -> Table:
    """Printed areas beside computed ones."""
    rows = [
        (name, source, f"{printed:.3f}", decimal(section.area), f"{100 * abs(section.area / printed - 1):.1f} percent")
        for name, section, printed, source in PUBLISHED
    ]
    return Table(("section", "table", "printed, sq in.", "computed", "apart"), rows)


def worked() -> Worked:
    """The worked stick, every step shown."""
    section = STOCK["thick"]
    foot = section.weight_per_foot("6061")
    piece = Fraction(25, 2)
    steps = (
        "Size: clear of the sawn end, both legs read 1.497 and 1.502: 1 1/2. Toe to heel, outside; never from the inner face.",
        "Thickness: 0.186 and 0.189 through the legs, at the toe, in the middle, and at the other end: 3/16 is 0.1875.",
        "Corner: a shank of radius 3/16 lies in it without light. The toes are square.",
        *ask.area_steps(section),
        f"A foot of 6061 weighs 12 times {decimal(section.area, 4)} times 0.0975: {decimal(foot)} pounds. This piece is {exact(piece)} long: "
        f"{decimal(float(piece) / 12 * foot)} pounds. The kitchen scale says 0.65: too light for 2024 or 7075; 6063 is just as likely.",
        "Mark: 6061-T6, printed along leg A. Only this step names the alloy.",
    )
    check = "Check: write size, alloy and temper on the stick at both ends, and again on every piece that is cut off."
    return Worked(f"Worked stick: S-50, angle {section.size}", steps, check)


def last_step() -> Ask:
    """Another section with the last step left out."""
    return Ask(lambda n: ask.last_step(Section("1 1/4", "1 1/4", "1/8", fillet="1/8")), _book())


def all_steps() -> Questions:
    """A stick with every step left out."""
    book = _book()
    return Questions(
        Ask(lambda n: ask.inside_reading(), book),
        AskPicture(lambda n: ask.which_stick(SAMPLES, "S-09"), lambda n: stick_ends_sheet(SAMPLES, few=_few()), book),
    )


def exercise(which: int) -> Ask:
    """A checked exercise with fresh numbers on demand: 1 to 4."""
    name, series = list(ask.EXERCISES.items())[which - 1]
    title = f"Exercise {which}"
    if name == "weight":
        return Ask(series.__getitem__, _book(), fresh=True, title=title)
    draw = _asked_stock if name == "section" else _asked_reading
    return AskPicture(series.__getitem__, lambda n: draw(series.thing(n)), _book(), fresh=True, title=title)


def _few() -> bool:
    return ROOM.theme == "projector"


def _asked_reading(thing: ask.Reading) -> Sheet:
    return caliper_sheet(thing.caliper, Held.length(thing.on, thing.caliper.reading, Fraction(3, 4)), few=_few())


def _asked_stock(thing: ask.Stock) -> Sheet:
    shape = replace(Held.thickness(thing.section, "A"), name="a stick's leg, across its thickness")
    return caliper_sheet(Caliper(thing.thickness, "decimal"), shape, few=_few())


def learned() -> Learned:
    """What the lesson was about, and what to carry to the bench."""
    return learned_in(LESSON)
