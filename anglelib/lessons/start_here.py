"""Lesson 00: the places of an angle by name, what the wrong corner costs, running dimensions, safety.

What is computed, what is drawn and how they are wired are three separate things; each function below
the last heading is one cell of the notebook.

>>> draw_places({"part": demo_part("E2L"), "point_at": "vertex"}, View()).sentence.split(". ")[-1]
'Pointed at: the vertex, the one point of an end that lies on the heel.'
>>> draw_corner({"t": Fraction(1, 8), "r": Fraction(1, 8), "y": Fraction(11, 16), "place": "heel"}, View(revealed=False)).title
'Four corners'
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from anglelib.drawing.corner import CORNER_PLACE, HEEL_PLACE, PLACES, Measured, corner_sheet
from anglelib.drawing.disc import TURNS, disc_sheet
from anglelib.drawing.disc_gap import gap_sheet
from anglelib.drawing.place_names import WORDS
from anglelib.drawing.places import Naming, places_sheet
from anglelib.drawing.running import lettered, running_sheet
from anglelib.drawing.sheet import Sheet
from anglelib.lengths import both, exact
from anglelib.lessons.ask import Ask, Predict, Questions
from anglelib.lessons.ask_picture import AskPicture
from anglelib.lessons.contents import Contents
from anglelib.lessons.contents import contents as table
from anglelib.lessons.controls import ChoiceControl, FractionControl, by_id, fractions
from anglelib.lessons.demo import demo_part
from anglelib.lessons.environment import Environment, check
from anglelib.lessons.forget import ForgetAnswers
from anglelib.lessons.learned import Learned, learned_in
from anglelib.lessons.live import LivePicture, Preset, Still, View
from anglelib.lessons.openings import opening
from anglelib.lessons.words import Worked
from anglelib.part import Part
from anglelib.questions import start_here as ask
from anglelib.questions.answers import AnswerBook
from anglelib.section import Section

LESSON = "00_start_here"
LEG, OWN = Fraction(5, 4), Fraction(1, 8)
"""The angle of the corner's picture: leg A's width and thickness [in]."""
THICKNESSES = {text: Fraction(text) for text in ("1/16", "1/8", "3/16", "1/4")}
FILLETS = {text: Fraction(text) for text in ("0", "1/16", "1/8", "3/16")}
HEIGHTS = fractions("1/2", "11/16", "1/32")
POINTS = {"": "nothing", **WORDS}
BRACKETS = ("E2L", "A1L", "C1L")
SPANS = {"gap": "P to Q", "to-end-2": "the last hole to end 2", "from-end-1": "end 1 to the last hole"}
"""The distances that are shown, by id, in words."""
RUNNING = ("E2L", "C2L", "A4")


# --- computed -----------------------------------------------------------------------------------------
def corner_section(values: Mapping[str, Any]) -> Section:
    """The angle of the corner's picture with the thickness of leg B and the fillet chosen."""
    return Section(LEG, LEG, OWN, values["t"], fillet=values["r"])


def span_of(part: Part, span: str) -> tuple[Fraction, Fraction]:
    """From which x to which a span goes [in]."""
    xs = [hole.x for _, hole in lettered(part)]
    return {"gap": (xs[0], xs[1]), "to-end-2": (xs[-1], part.length), "from-end-1": (Fraction(0), xs[-1])}[span]


# --- drawn ------------------------------------------------------------------------------------------
def draw_places(values: Mapping[str, Any], view: View) -> Sheet:
    """The section and the part in space: four numbers before the prediction, all names after it."""
    if not view.revealed:
        return places_sheet(values["part"], Naming("numbers", few=view.few))
    return places_sheet(values["part"], Naming("all", values.get("point_at", ""), few=view.few))


def draw_corner(values: Mapping[str, Any], view: View) -> Sheet:
    """The four places, and the hole that comes out of measuring from one of them."""
    shown = Measured(view.revealed, view.prediction, view.few)
    return corner_sheet(corner_section(values), values["y"], values["place"], shown)


def draw_running(values: Mapping[str, Any], view: View) -> Sheet:
    """A leg with its running dimensions, and after the prediction a distance between two of them."""
    part = values["part"]
    return running_sheet(part, span=span_of(part, values["span"]) if view.revealed else None, few=view.few)


def draw_disc(values: Mapping[str, Any], view: View) -> Sheet:
    """The disc sander from the front."""
    return disc_sheet(values["turn"], view.revealed)


def figures() -> dict[str, Sheet]:
    """The lesson's ordinary pictures by file name: what lies on the bench, and every place with its name."""
    part = demo_part("E2L")
    return {f"{LESSON}.png": opening(LESSON), f"{LESSON}_names.png": places_sheet(part)}


# --- wired: a function a cell -------------------------------------------------------------------------
def _book() -> AnswerBook:
    return AnswerBook(LESSON)


def _plain() -> dict[str, Any]:
    """The angle that the corner is asked about, and the height of its hole."""
    return {"t": Fraction(1, 8), "r": Fraction(1, 8), "y": HEIGHTS[-1]}


def ready() -> Environment:
    """Whether everything that the course needs is here."""
    return check()


def brought() -> Questions:
    """Three questions about what the reader brings."""
    book = _book()
    return Questions(
        Ask(lambda n: ask.longest_fraction(), book),
        Ask(lambda n: ask.from_one_inch(), book),
        Ask(lambda n: ask.how_many_corners(), book),
    )


def places() -> LivePicture:
    """Predict which line is the heel; then point at every place by its name."""
    parts = [demo_part(id_) for id_ in BRACKETS]
    return LivePicture(
        draw_places,
        {"point_at": ChoiceControl("Point at", by_id(POINTS), "")},
        presets={part.id: Preset(part.name.removesuffix(", left"), {"part": part}) for part in parts},
        ask=Predict(lambda n: ask.which_is_the_heel(), _book()),
    )


def vertices() -> Ask:
    """The heel told from the vertex."""
    return Ask(lambda n: ask.how_many_vertices(), _book())


def _corner(question, place: str) -> LivePicture:
    start = _plain()
    return LivePicture(
        draw_corner,
        {
            "place": ChoiceControl("Measured from", by_id(PLACES), place),
            "y": FractionControl("Hole wanted at (in.)", HEIGHTS, start["y"]),
            "t": ChoiceControl("Leg B thick (in.)", THICKNESSES, start["t"]),
            "r": ChoiceControl("Fillet (in.)", FILLETS, start["r"]),
        },
        ask=Predict(lambda n: question, _book()),
        waits=("place",),
    )


def corner() -> LivePicture:
    """Predict from which place a dimension is measured; then try all four."""
    return _corner(ask.from_where(_plain()["y"]), HEEL_PLACE)


def cost() -> LivePicture:
    """Predict where a hole comes out that is measured from the inside corner; then try other thicknesses."""
    start = _plain()
    measure = ask.Measure(corner_section(start), start["y"], CORNER_PLACE)
    return _corner(ask.comes_out(measure, "predict-the-hole"), CORNER_PLACE)


def running() -> LivePicture:
    """Predict how far apart two holes are; then look at other distances on other parts."""
    parts = [demo_part(id_) for id_ in RUNNING]
    return LivePicture(
        draw_running,
        {"span": ChoiceControl("Show", by_id(SPANS), "gap")},
        presets={part.id: Preset(part.name.removesuffix(", left"), {"part": part}) for part in parts},
        ask=Predict(lambda n: ask.gap(parts[0], "predict-the-gap"), _book()),
    )


def worked() -> Worked:
    """The worked part, every step shown."""
    part = demo_part("C2L")
    (p, one), (q, two) = lettered(part)
    gap, rest = two.x - one.x, part.length - two.x
    steps = (
        f"Find the datum: end 1, where the ring is. All figures begin there: {p} {exact(one.x)}, {q} {exact(two.x)}, end 2 {exact(part.length)}.",
        f"From {p} to {q}: the way to {q} less the way to {p}, {exact(two.x)} less {exact(one.x)}: {both(gap)}.",
        f"From {q} to end 2: the whole length less the way to {q}, {exact(part.length)} less {exact(two.x)}: {both(rest)}.",
    )
    check = f"Check: {exact(one.x)} and {exact(gap)} and {exact(rest)} make {exact(one.x + gap + rest)}, the length."
    return Worked(f"Worked part: {part.name}", steps, check)


def last_step() -> Ask:
    """Another part with the last step left out."""
    return Ask(lambda n: ask.last_step(demo_part("D2L"), "seat-rail"), _book())


def all_steps() -> Questions:
    """A part with every step left out."""
    part, book = demo_part("A4"), _book()
    return Questions(
        Ask(lambda n: ask.gap(part, "floor-stiffener-gap"), book), Ask(lambda n: ask.to_end_2(part, "floor-stiffener-end"), book)
    )


def exercise(which: int) -> Ask:
    """A checked exercise with fresh numbers on demand: 1 to 4."""
    name, series = list(ask.EXERCISES.items())[which - 1]
    title = f"Exercise {which}"
    if name == "name":
        return AskPicture(series.__getitem__, lambda n: _asked_place(series.thing(n)), _book(), fresh=True, title=title)
    if name == "gap":
        return AskPicture(series.__getitem__, lambda n: running_sheet(series.thing(n)), _book(), fresh=True, title=title)
    return Ask(series.__getitem__, _book(), fresh=True, title=title)


def _asked_place(pointed: ask.Pointed) -> Sheet:
    return places_sheet(pointed.part, Naming("", pointed.place, asked=True))


def disc() -> LivePicture:
    """Predict on which half of a disc sander the work is held."""
    return LivePicture(
        draw_disc,
        {"turn": ChoiceControl("The disc turns", TURNS, TURNS[0])},
        ask=Predict(lambda n: ask.which_half(TURNS[0], "predict-the-half"), _book()),
    )


def gap() -> Still:
    """The gap between the disc and its table, and what must not point into it."""
    return Still(gap_sheet())


def contents() -> Contents:
    """The lessons in their order, and which of them are here."""
    return table()


def forget() -> ForgetAnswers:
    """The learner's answers, deleted when asked for twice."""
    return ForgetAnswers()


def learned() -> Learned:
    """What the lesson was about, and what to carry to the bench."""
    return learned_in(LESSON)
