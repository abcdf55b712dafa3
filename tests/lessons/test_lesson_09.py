"""Lesson 09, without a kernel: every control over its range in both themes, every answer, every cell's box built.

Outside the lesson: distances and the legal region from shapely's polygons, the weight saved from the triangle's area, the
published edge distances of AL0992 and the rivet length of NAVEDTRA 14018 (as in tests/published).
"""

import math
from fractions import Fraction as F
from itertools import product

import pytest
from lesson_checks import THEMES, Page, legible, move_all, named, same_in_the_kit, texts
from shapely import LineString, Point, Polygon

from anglelib.drawing.along_view import Along
from anglelib.drawing.edge_circles import Edges, edge_sheet, foot
from anglelib.drawing.edge_trap import Trap, trap_sheet
from anglelib.drawing.sheet import Circle, Hatch, Label
from anglelib.geometry.along import section_at
from anglelib.geometry.holes import TOE, EdgeId, largest_run, legal_region, worst_edge
from anglelib.geometry.taper import taper_lines
from anglelib.lessons import holes_and_what_if as lesson
from anglelib.lessons.demo import demo_part
from anglelib.lessons.live import View
from anglelib.questions import holes_and_what_if as ask
from anglelib.questions.grading import grade
from anglelib.questions.question import NumberQuestion
from anglelib.questions.rivets import Joint

PREDICTED = {"edges": lesson.edges, "trap": lesson.trap, "region": lesson.region, "along": lesson.along}
START = lesson.given(ask.CLEAT)


# --- against something outside ------------------------------------------------------------------------------
def leg_polygon(run, left, width=0.75, length=2.125):
    if run <= length:
        return Polygon([(0, 0), (length, 0), (length, width), (run, width), (0, left)])
    return Polygon([(0, 0), (length, 0), (length, left + (width - left) * length / run), (0, left)])


def free_edges(polygon):
    """Its edges without the heel, where the metal goes on round the corner."""
    corners = list(polygon.exterior.coords)
    return [LineString(pair) for pair in zip(corners, corners[1:]) if max(pair[0][1], pair[1][1]) > 0]


def test_the_worst_distance_is_that_of_the_polygon():
    for run, left, x, y in product(lesson.RUNS[::4], lesson.LEFTS[::4], lesson.PLACES[::6], lesson.HEIGHTS[::4]):
        view = lesson.edges_of({**START, "run": run, "left": left, "x": x, "y": y})
        polygon = leg_polygon(float(run), float(left))
        point = Point(float(x), float(y))
        if not polygon.contains(point):
            continue
        near = min(edge.distance(point) for edge in free_edges(polygon))
        assert view.worst.distance == pytest.approx(near, abs=1e-9)
        there = Point(*foot(view, view.worst))  # where the picture's arrow points
        assert there.distance(point) == pytest.approx(near, abs=1e-9) and polygon.exterior.distance(there) < 1e-9


def test_the_hatched_region_is_the_polygon_drawn_in():
    for run, D, flush in product(lesson.RUNS[::6], ask.RIVETS, (False, True)):
        part = lesson.made({**START, "run": run, "D": D, "flush": flush})
        e = float(D) * (2.5 if flush else 2)
        polygon = leg_polygon(float(run), 0.375)
        below = Polygon([(0, 0), (2.125, 0), (2.125, -9), (0, -9)])
        inside = polygon.union(below).buffer(-e, join_style="mitre").intersection(Polygon([(0, 0.25 + float(D)), (9, 0.25 + float(D)), (9, 9), (0, 9)]))
        ours = Polygon(legal_region(part, "A", D, flush) or [(0, 0)] * 3)
        assert ours.area == pytest.approx(inside.area, abs=1e-9)
        hatches = [item for item in edge_sheet(Edges(part, "A")).items if isinstance(item, Hatch)]
        assert bool(hatches) == (inside.area > 1e-6)


def test_published_values():
    """AL0992: 2 D, flush 2 1/2 D, from the centre. NAVEDTRA 14018: grip and 1 1/2 D. The row of the derived example: 0.375, leg 0.625."""
    assert ask.least_of(F(5, 32), False).answer == F(5, 16) and ask.least_of(F(5, 32), True).answer == F(25, 64)
    assert ask.rivet(Joint(F(1, 8), F(1, 8), F(3, 16))).answer == F(17, 32)
    question = ask.row(ask.CLEAT.section, F(1, 8))
    assert float(question.answer) == 0.375 and "5/8 wide" in question.working and float(F(5, 8)) == 0.625
    assert ask.metal_beyond().answer == F(3, 2)


@pytest.mark.parametrize("run", lesson.VARIANTS)
def test_the_weight_saved_is_that_of_a_triangle(run):
    """The taper stays on the flat: it takes a triangle of the leg, 1/8 thick, of 0.0975 lb/in3."""
    saved, heavy = Along(ask.longer(ask.CLEAT, run), F(0)).saved()
    assert saved == pytest.approx(float(run) * 0.375 / 2 * 0.125 * 0.0975 * 453.59237, rel=1e-6)
    assert heavy == pytest.approx(ask.CLEAT.section.area * 2.125 * 0.0975 * 453.59237, rel=1e-6)


def test_the_section_along_is_the_area_of_its_rectangles():
    """At end 1 both legs are flat pieces and the fillet stands: 3/8 and 3/4 high, 1/8 thick."""
    curve = dict(Along(ask.CLEAT, F(0)).curve())
    fillet = (1 - math.pi / 4) / 64
    assert curve[0.0] == pytest.approx(0.375 * 0.125 + 0.625 * 0.125 + fillet, abs=1e-9)
    assert curve[2.125] == pytest.approx(0.75 * 0.125 + 0.625 * 0.125 + fillet, abs=1e-9)
    assert curve[1.4375] == pytest.approx(0.75 * 0.125 + 0.625 * 0.125 + fillet - 0.125**2, abs=1e-9)  # less the hole's rectangle
    assert min(curve.items(), key=lambda place: place[1])[0] == 0  # as the question says; the hole of leg B comes near to it


@pytest.mark.parametrize("part", [demo_part("C1L"), demo_part("E1"), demo_part("E2L"), ask.longer(ask.CLEAT, F(7, 4))], ids=lambda part: part.id)
def test_the_curve_is_the_section_at_every_place(part):
    """What is drawn between the bends, against the integral over the section there: within a hair of the picture's 46 mm."""
    view = Along(part, F(0))
    curve = view.curve()
    for (x0, a0), (x1, a1) in zip(curve, curve[1:]):
        for share in (0.0, 0.5):
            x = x0 + (x1 - x0) * share
            exact = section_at(part, x).area
            arc = 0.01 if any(abs(x - float(hole.x)) < float(hole.diameter) / 2 for hole in part.holes) and share else 0.0  # a chord for an arc
            assert a0 + (a1 - a0) * share == pytest.approx(exact, abs=part.section.area * (0.006 + arc)), x


# --- the pictures -----------------------------------------------------------------------------------------
@pytest.mark.parametrize("theme", THEMES)
def test_every_corner_of_the_edges_picture(theme):
    ends = (lesson.RUNS[0], lesson.RUNS[11], lesson.RUNS[-1]), (lesson.LEFTS[0], F(3, 8), lesson.LEFTS[-1]), lesson.PLACES[::9], lesson.HEIGHTS[::7]
    for run, left, x, y in product(*ends):
        legible(lesson.draw_edges({**START, "run": run, "left": left, "x": x, "y": y}, View(theme)), theme)
    for D, flush, run in product(ask.RIVETS, (False, True), lesson.RUNS[::5]):
        legible(lesson.draw_edges({**START, "D": D, "flush": flush, "run": run}, View(theme)), theme)
    for guess in (F(0), F(1, 2), F(2), F(9), F(1000)):
        legible(lesson.draw_edges({**START, "run": F(2)}, View(theme, prediction=guess)), theme)
    legible(lesson.draw_edges(START, View(theme, revealed=False)), theme)


@pytest.mark.parametrize("theme", THEMES)
def test_legs_of_the_demo_kit(theme):
    for id in ("A1L", "A1R", "C1L", "C1R", "E2L", "E2R", "D1", "E1"):
        part = demo_part(id)
        for leg in "AB":
            if part.holes_in(leg):
                legible(edge_sheet(Edges(part, leg), lesson.Shown(few=theme == "projector")), theme)
    for run in fractions_of_bevel():
        legible(lesson.draw_bevel({"part": demo_part("C1L"), "run": run}, View(theme)), theme)


def fractions_of_bevel():
    return [F(n, 4) for n in range(4, 15)]


@pytest.mark.parametrize("theme", THEMES)
def test_the_trap_and_the_section_along(theme):
    for edge, D in product(lesson.TRAPS, ask.RIVETS):
        for answer in (True, False):
            legible(trap_sheet(Trap(D, edge), answer, theme == "projector"), theme)
    for x, run in product((F(0), F(1, 2), F(23, 16), F(17, 8)), lesson.RUNS[::6]):
        legible(lesson.draw_along({"part": ask.CLEAT, "x": x, "run": run}, View(theme)), theme)
    legible(lesson.draw_along({"part": ask.CLEAT, "x": F(1), "run": F(1)}, View(theme, revealed=False)), theme)


def test_danger_is_a_word_and_a_sign():
    """EDGE SHORT stands in words beside its triangle; where the edge is kept there is no such thing."""
    short = edge_sheet(lesson.edges_of({**START, "run": F(2)}))
    kept = edge_sheet(lesson.edges_of(START))
    text = {item.text for item in short.items if isinstance(item, Label)}
    assert any(t.startswith("EDGE SHORT by 3/64") for t in text) and "EDGE SHORT by 3/64" in short.sentence
    assert not any("SHORT" in item.text for item in kept.items if isinstance(item, Label))
    thick = [item for item in short.items if isinstance(item, Circle) and item.kind == "mark"]
    assert thick and not [item for item in kept.items if isinstance(item, Circle) and item.kind == "mark"]


def test_a_head_on_the_fillet_is_said():
    sheet = edge_sheet(lesson.edges_of({**START, "y": F(5, 16)}))
    assert "HEAD SITS ON THE FILLET" in sheet.sentence


def test_more_than_four_diameters_is_information():
    sheet = edge_sheet(Edges(demo_part("E2L"), "A"))
    assert "For information" not in sheet.sentence  # 2 1/2 diameters to the toe
    wide = lesson.edges_of({**START, "D": F(3, 32), "run": F(1, 2), "left": F(5, 8), "x": F(1), "y": F(3, 8)})
    assert ("For information" in edge_sheet(wide).sentence) == (wide.worst.diameters > 4) and "SHORT" not in edge_sheet(wide).sentence


@pytest.mark.parametrize("name", PREDICTED)
def test_the_answer_is_in_no_word_of_the_picture_before_the_prediction(name):
    live = PREDICTED[name]()
    words = [*texts(live.sheet), live.sheet.sentence]
    assert not any(hint in text for text in words for hint in ("SHORT", "kept", "1.63", "1.50 diameters of metal", "legal", "no place", "in2 is left", "saves"))
    assert not any(isinstance(item, (Hatch,)) for item in live.sheet.items)


def test_formulas_with_any_numbers():
    card = lesson.formula()
    move_all(card)
    for name, value in {"t": F(1, 8), "r": F(1, 8), "D": F(1, 8), "e": F(1, 4), "G": F(3, 16)}.items():
        card.controls[name].value = value
    assert card.write(card.values)[1] == "Lowest row 3/8 (0.375) from the heel; edge distance 2.00 diameters; rivet 3/8 (0.375) long."


# --- the questions ------------------------------------------------------------------------------------------
def test_answers_in_diameters_are_read_with_their_unit():
    question = ask.to_the_taper(ask.longer(ask.CLEAT, F(2)))
    assert isinstance(question, NumberQuestion) and question.unit == "D"
    assert grade(question, "1.63 D").right and grade(question, "1.6 diameters").right
    assert grade(question, "0.2 in").status in ("unit", "unreadable") and "length" in grade(question, "0.2 in").sentence


def test_mistakes_by_their_names():
    assert {"M11", "M17", "M08", "fits-so-fine"} <= named(ask)


def test_the_part_is_that_of_the_demo_kit():
    same_in_the_kit(ask.CLEAT)


def test_the_longest_run_of_the_worked_part_touches_the_circle():
    part = ask.longer(ask.CLEAT, F(3, 2))
    run = largest_run(part, taper_lines(part)[0])
    assert min(edge.distance(Point(1.4375, 0.4375)) for edge in free_edges(leg_polygon(run, 0.375))) == pytest.approx(0.25, abs=1e-9)
    assert "1 11/16 (1.692)" in repr(lesson.worked())


# --- the notebook -------------------------------------------------------------------------------------------
def test_the_hole_of_the_second_exercise_is_moved_to_its_row():
    box = lesson.exercise(2)
    for place in (0, 20, box.entry.slider.max):
        box.entry.slider.value = place
        legible(box.draw(box.number, box.entry.value, True), "screen")
    box.entry.value = box.question.answer
    assert box.answer().right


def test_numbers_of_the_prose():
    text = Page.of(lesson).prose
    assert ask.CLEAT.tapers[0].run == F(5, 4) and "a run of 1 1/4" in text and "has made it 2 long" in text
    low, high = (Along(ask.longer(ask.CLEAT, run), F(0)).saved()[0] for run in (lesson.VARIANTS[0], lesson.VARIANTS[-1]))
    assert f"lie {high - low:.1f} grams a cleat" in text
    heights = {D: [y for _, y in legal_region(ask.CLEAT, "A", D)] for D in ask.RIVETS[1:]}
    assert max(heights[F(1, 8)]) - min(heights[F(1, 8)]) == 0.125 and "For 1/8 rivets on this leg the region is a band of 1/8" in text
    assert heights[F(5, 32)] and not heights[F(3, 16)] and "For 5/32 it is a strip; for 3/16 there is none" in text
    assert not legal_region(ask.CLEAT, "A", F(5, 32), True) and worst_edge(ask.CLEAT, ask.CLEAT.holes[0]).to == EdgeId(TOE)
