"""Lesson 09: edge distance beside a taper, the region in which a hole may lie, what a longer taper saves and takes.

What is computed, what is drawn and how they are wired are three separate things; each function below
the last heading is one cell of the notebook.

>>> values = {"part": ask.CLEAT, "run": Fraction(2), "left": Fraction(3, 8), "x": Fraction(23, 16), "y": Fraction(7, 16), "D": Fraction(1, 8), "flush": False}
>>> verdict_words(edges_of(values).worst)
'EDGE SHORT by 3/64 (1.63 diameters)'
>>> draw_edges(values, View(revealed=False)).sentence.split(". ")[-1]
'How far each lies from its edges is not shown yet.'
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from typing import Any

from anglelib.drawing.along_view import Along, along_sheet
from anglelib.drawing.edge_circles import Edges, Shown, edge_sheet
from anglelib.drawing.edge_trap import Trap, trap_sheet
from anglelib.drawing.sheet import Sheet
from anglelib.geometry.fasteners import HEAD, pitches
from anglelib.geometry.hole_words import edge_name, outcome_words, verdict_words
from anglelib.geometry.holes import TAPER, edge_distances, largest_run, row_band, worst_edge
from anglelib.geometry.lazy import formulas
from anglelib.geometry.taper import taper_lines
from anglelib.lengths import both, decimal, exact
from anglelib.lessons.ask import Ask, Predict, Questions
from anglelib.lessons.ask_mark import AskMark
from anglelib.lessons.controls import ChoiceControl, FractionControl, by_id, fractions
from anglelib.lessons.demo import demo_part
from anglelib.lessons.formula_card import FormulaCard, Written
from anglelib.lessons.learned import Learned, learned_in
from anglelib.lessons.live import ROOM, LivePicture, View
from anglelib.lessons.openings import opening
from anglelib.lessons.table import Table
from anglelib.lessons.unit_switch import in_unit, with_unit
from anglelib.lessons.words import Worked, latex_length
from anglelib.part import Hole, Part, Taper
from anglelib.questions import holes_and_what_if as ask
from anglelib.questions import order_of_work as before
from anglelib.questions import recall as earlier
from anglelib.questions.answers import AnswerBook
from anglelib.questions.question import NumberQuestion

LESSON = "09_holes_and_what_if"
RUNS = fractions("1/2", "2", "1/16")
LEFTS = fractions("0", "5/8", "1/32")
PLACES = fractions("1/4", "2", "1/16")
HEIGHTS = fractions("1/4", "5/8", "1/32")
RIVETS = {exact(D): D for D in ask.RIVETS}
HEADS = {False: "protruding", True: "flush"}
TRAPS = fractions("1/8", "1/2", "1/32")
VARIANTS = tuple(Fraction(text) for text in ("5/4", "3/2", "7/4", "2"))


# --- computed -----------------------------------------------------------------------------------------
def given(part: Part) -> dict[str, Any]:
    """What a part gives the picture of its edges: its taper, and the first hole of the tapered leg."""
    taper = part.tapers[0]
    hole = part.holes_in(taper.leg)[0]
    return {"part": part, "run": taper.run, "left": taper.width_left, "x": hole.x, "y": hole.y, "D": hole.diameter, "flush": hole.flush}


def made(values: Mapping[str, Any]) -> Part:
    """The part with the controls' taper and one hole on the tapered leg."""
    part = values["part"]
    leg = part.tapers[0].leg
    taper = Taper(leg, 1, values["left"], run=values["run"])
    hole = Hole(leg, values["x"], values["y"], values["D"], values["flush"])
    return replace(part, tapers=(taper,), holes=(hole,), hand=None, mirror_of="")


def edges_of(values: Mapping[str, Any]) -> Edges:
    """The leg and its hole."""
    part = made(values)
    return Edges(part, part.tapers[0].leg)


def variants() -> list[tuple[str, ...]]:
    """The cleat with several runs: worst edge, what is left of the section at the end and at the hole, weight saved."""
    rows = []
    for run in VARIANTS:
        part = ask.longer(ask.CLEAT, run)
        edge = min((worst_edge(part, hole) for hole in part.holes), key=lambda edge: edge.distance)
        saved, _ = Along(part, Fraction(0)).saved()
        area = min(area for _, area in Along(part, Fraction(0)).curve())
        rows.append((exact(run), verdict_words(edge), edge_name(edge.to), f"{saved:.1f}", f"{area:.3f}"))
    return rows


# --- drawn ------------------------------------------------------------------------------------------
@in_unit
def draw_edges(values: Mapping[str, Any], view: View) -> Sheet:
    """The leg with its circle and the legal region; before the prediction neither."""
    guess = float(view.prediction) if view.prediction is not None and values.get("in_diameters", True) else None
    return edge_sheet(edges_of(values), Shown(view.revealed, guess, view.few))


@in_unit
def draw_bevel(values: Mapping[str, Any], view: View) -> Sheet:
    """The leg beside the tapered one: near a vertex taper the bevel of its inner face governs."""
    part = values["part"]
    changed = replace(part, tapers=(Taper("A", 1, run=values["run"]),), hand=None, mirror_of="")
    return edge_sheet(Edges(changed, "B"), Shown(view.revealed, None, view.few))


@in_unit
def draw_trap(values: Mapping[str, Any], view: View) -> Sheet:
    """One hole, counted from its centre and from its own edge."""
    return trap_sheet(Trap(values["D"], values["edge"]), view.revealed, view.few)


@in_unit
def draw_along(values: Mapping[str, Any], view: View) -> Sheet:
    """The section along the part."""
    part = ask.longer(values["part"], values["run"])
    return along_sheet(Along(part, min(values["x"], part.length)), view.revealed, view.few)


def draw_row(number: int, mark: Fraction, revealed: bool) -> Sheet:
    """The leg of an exercise with a hole at the height that is set."""
    thing = ask.EXERCISES["row"].thing(number)
    part = Part("P1", "Practice leg", thing.section, "6061-T6", 4, holes=[Hole("A", 2, mark, thing.diameter)])
    return edge_sheet(Edges(part, "A"), Shown(revealed, few=ROOM.theme == "projector"))


def write(values: Mapping[str, Fraction]) -> Written:
    """Row, edge distance and rivet length with some numbers in them."""
    f = formulas()
    t, r, D, e, G = (values[name] for name in ("t", "r", "D", "e", "G"))
    head = HEAD * D
    results = (
        (f.row_start, f.row_start(t=t, r=r, H_d=head), {"t": t, "r": r, "H_d": head}),
        (f.edge_in_diameters, f.edge_in_diameters(e=e, D=D), {"e": e, "D": D}),
        (f.rivet_length, f.rivet_length(G=G, D=D), {"G": G, "D": D}),
    )
    lines = []
    for formula, result, numbers in results:
        text = formula.latex_with({name: latex_length(value) for name, value in numbers.items()}, latex_length(result))
        lines.append(f"{formula.latex} {text.removeprefix(formula.result.latex).strip()}")
    row, edge, rivet = (result for _, result, _ in results)
    return lines, f"Lowest row {both(row)} from the heel; edge distance {decimal(edge, 2)} diameters; rivet {both(rivet)} long."


def figures() -> dict[str, Sheet]:
    """The lesson's ordinary pictures by file name: what lies on the bench, and a run that is too long."""
    long = given(ask.longer(ask.CLEAT, Fraction(2)))
    return {
        f"{LESSON}.png": opening(LESSON),
        f"{LESSON}_short.png": draw_edges(long, View()),
    }


# --- wired: a function a cell -------------------------------------------------------------------------
def _book() -> AnswerBook:
    return AnswerBook(LESSON)


def recall() -> Questions:
    """Three questions of earlier lessons."""
    book = _book()
    return Questions(
        Ask(lambda n: earlier.again(before.dressed_after(), "08"), book),
        Ask(lambda n: earlier.height_on_line(demo_part("C1R")), book),
        Ask(lambda n: earlier.what_weight_tells(), book),
    )


def _controls(start: Mapping[str, Any], *names: str) -> dict[str, Any]:
    made = {
        "run": lambda: FractionControl("Run X (in.)", RUNS, start["run"]),
        "left": lambda: FractionControl("Width left s (in.)", LEFTS, start["left"]),
        "x": lambda: FractionControl("Hole from end 1 (in.)", PLACES, start["x"]),
        "y": lambda: FractionControl("Hole from heel (in.)", HEIGHTS, start["y"]),
        "D": lambda: ChoiceControl("Rivet D (in.)", RIVETS, start["D"]),
        "flush": lambda: ChoiceControl("Head", by_id(HEADS), start["flush"]),
    }
    return with_unit({name: made[name]() for name in names})


def edges() -> LivePicture:
    """Predict how many diameters a longer taper leaves; then move taper and hole."""
    start = given(ask.longer(ask.CLEAT, Fraction(2)))
    return LivePicture(
        draw_edges,
        _controls(start, "run", "left", "x", "y"),
        fixed={name: start[name] for name in ("part", "D", "flush")},
        ask=Predict(lambda n: ask.to_the_taper(ask.longer(ask.CLEAT, Fraction(2)), "predict-the-diameters"), _book()),
    )


def fits() -> Questions:
    """What fitting proves."""
    book = _book()
    return Questions(Ask(lambda n: ask.still_kept(ask.CLEAT, Fraction(7, 4)), book), Ask(lambda n: ask.it_fits(), book))


def trap() -> LivePicture:
    """Predict the metal beyond a hole's edge; then move the edge."""
    return LivePicture(
        draw_trap,
        with_unit({"edge": FractionControl("Centre to edge (in.)", TRAPS, Fraction(1, 4)), "D": ChoiceControl("Rivet D (in.)", RIVETS, Fraction(1, 8))}),
        ask=Predict(lambda n: ask.metal_beyond("predict-the-metal-beyond"), _book()),
    )


def heard() -> Ask:
    """By how much a hole marked by the wrong rule is short."""
    return Ask(lambda n: ask.by_the_trap(), _book())


def region() -> LivePicture:
    """Predict whether a rivet has a legal row; then change rivet, head and taper."""
    start = {**given(ask.CLEAT), "D": Fraction(3, 16)}
    return LivePicture(
        draw_edges,
        _controls(start, "D", "flush", "run", "y"),
        fixed={"part": ask.CLEAT, "left": start["left"], "x": start["x"], "in_diameters": False},
        ask=Predict(lambda n: ask.band(ask.CLEAT.section, Fraction(3, 16), "predict-the-band"), _book()),
    )


def bevel() -> LivePicture:
    """The leg that is not tapered: the bevel of its inner face, moved by the run."""
    part = demo_part("C1L")
    run = FractionControl("Run of leg A (in.)", fractions("1", "3 1/2", "1/16"), part.tapers[0].run)  # type: ignore[arg-type]
    return LivePicture(draw_bevel, with_unit({"run": run}), fixed={"part": part})


def along() -> LivePicture:
    """Predict where the least metal is left; then move along the part, and change the run."""
    return LivePicture(
        draw_along,
        with_unit({"x": FractionControl("Place x (in.)", fractions("0", "2 1/8", "1/16"), Fraction(1, 2)), "run": FractionControl("Run X (in.)", RUNS, ask.CLEAT.tapers[0].run)}),  # type: ignore[arg-type]
        fixed={"part": ask.CLEAT},
        ask=Predict(lambda n: ask.where_least(ask.CLEAT, "predict-the-least-section"), _book()),
    )


def compare() -> Table:
    """The cleat with four runs beside one another."""
    return Table(("run (in.)", "nearest edge of any hole", "to", "saved (g)", "least section (in2)"), variants())


def why() -> Ask:
    """Why ends are tapered."""
    return Ask(lambda n: ask.why_tapered(), _book())


def most() -> Ask:
    """What more than four diameters means."""
    return Ask(lambda n: ask.four_diameters(), _book())


def pitch() -> Table:
    """Pitches of the demo kit's hinge bracket, as information."""
    part = demo_part("C1L")
    rows = [(f"leg {leg}", f"{exact(one.x)} to {exact(two.x)}", f"{d:.1f} D") for leg in ("A", "B") for one, two, d in pitches(part, leg)]
    return Table(("hinge bracket", "x (in.)", "pitch"), rows)


def formula() -> FormulaCard:
    """Row, edge distance and rivet length, with any numbers in them."""
    section = ask.CLEAT.section
    thick = fractions("1/16", "1/4", "1/32")
    controls = {
        "t": FractionControl("Other leg t (in.)", thick, section.thickness_b),
        "r": FractionControl("Fillet r (in.)", fractions("0", "1/4", "1/32"), section.fillet),
        "D": FractionControl("Rivet D (in.)", fractions("3/32", "1/4", "1/32"), Fraction(1, 8)),
        "e": FractionControl("Centre to edge e (in.)", fractions("1/8", "1", "1/64"), Fraction(1, 4)),
        "G": FractionControl("Grip G (in.)", fractions("1/16", "1/2", "1/32"), Fraction(3, 16)),
    }
    return FormulaCard(write, controls)


def worked() -> Worked:
    """The worked part, every step shown."""
    run = Fraction(3, 2)
    part = ask.longer(ask.CLEAT, run)
    line, hole = taper_lines(part)[0], part.holes_in("A")[0]
    stands = line.width_left + hole.x / line.slope
    edge = next(e for e in edge_distances(part, hole) if e.to.kind == TAPER)
    low, high = row_band(part.section, "A", hole.diameter)
    longest = largest_run(part, line)
    steps = (
        f"The row: {exact(part.section.thickness_b)} and {exact(part.section.fillet)} and one diameter of {exact(hole.diameter)}: heads clear the fillet from {both(low)}. The hole is at {exact(hole.y)}: clear. The last row is {both(high)}.",
        f"To the toe: {exact(line.width)} less {exact(hole.y)}, {exact(line.width - hole.y)}: {float((line.width - hole.y) / hole.diameter):.2f} diameters.",
        f"To the taper: {exact(hole.x)} from the end the leg stands {decimal(stands)} high, {decimal(stands - hole.y)} above the hole. Square to an edge {line.angle:.1f} degrees from the heel: {decimal(edge.distance)}.",
        f"That is {edge.diameters:.2f} diameters: {outcome_words(edge)}. The nearest edge decides, and this is it.",
        f"How far could the run go? To {both(longest, 64, 'down')}: there the circle of 2 diameters touches the line.",  # type: ignore[arg-type]
    )
    return Worked(f"Worked part: the floor cleat with a run of {exact(run)} in place of 1 1/4", steps, "Check: every hole against every edge of its leg, the bevel of the other leg too. Then the plans: may this taper be changed at all?")


def last_step() -> Ask:
    """Another part with the last step left out: its distance to the taper."""
    return Ask(lambda n: _stepped(), _book())


def _stepped() -> NumberQuestion:
    part = ask.longer(demo_part("E2L"), Fraction(15, 4))
    question = ask.to_the_taper(part, "step-bracket-to-the-taper")
    line, hole = taper_lines(part)[0], part.holes_in("A")[0]
    stands = decimal(line.width_left + hole.x / line.slope)
    return replace(question, prompt=f"A step bracket's run is made longer. {question.prompt} Worked so far: at the hole the leg stands {stands} from the heel.")


def all_steps() -> Questions:
    """A part with every step left out."""
    book = _book()
    return Questions(
        Ask(lambda n: ask.row(demo_part("C1L").section, Fraction(3, 16), "hinge-bracket-row"), book),
        Ask(lambda n: ask.end_2_edge(demo_part("C1L"), "hinge-bracket-end-2"), book),
        Ask(lambda n: ask.least_of(Fraction(3, 16), True, "hinge-bracket-flush"), book),
    )


def _height(number: int) -> FractionControl:
    """Heights at which the exercise's hole lies on its leg, clear of the other leg."""
    thing = ask.EXERCISES["row"].thing(number)
    step, half = Fraction(1, 64), thing.diameter / 2
    low, high = -(-(thing.section.thickness_b + half) // step), (thing.section.leg_a - half) // step
    heights = tuple(n * step for n in range(low, high + 1))
    return FractionControl("Hole from heel (in.)", heights, heights[0])


def exercise(which: int) -> Ask:
    """A checked exercise with fresh numbers on demand: 1 to 3."""
    name, series = list(ask.EXERCISES.items())[which - 1]
    title = f"Exercise {which}"
    if name == "row":
        return AskMark(series.__getitem__, draw_row, _height, _book(), fresh=True, title=title)
    return Ask(series.__getitem__, _book(), fresh=True, title=title)


def learned() -> Learned:
    """What the lesson was about, and what to carry to the bench."""
    return learned_in(LESSON)
