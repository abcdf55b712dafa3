"""The questions' answers and the mistakes' numbers, constructed on the drawing with a general-purpose geometry library.

Oracle: shapely. Lines are laid through the points of the drawing and met with one another; none of
the formulas of the course is used. "1/8 on 1/8 stock at 45 degrees" is common practice.
"""

import math
from fractions import Fraction

import pytest
from shapely.geometry import LineString

from anglelib.geometry.taper import TaperLine, taper_lines
from anglelib.inspection.numbers import Asked, wrong_numbers
from anglelib.inspection.taper_mistakes import inside_corner_line, own_thickness, straight_over_fillet
from anglelib.job import Shop
from anglelib.lengths import writing
from anglelib.part import Part, Taper
from anglelib.questions import recall
from anglelib.questions import taper_inside as ask
from anglelib.questions.fresh import fresh_part
from anglelib.questions.grading import grade
from anglelib.questions.question import ChoiceQuestion
from anglelib.questions.wrong_answers import vertex_projection_mistakes
from anglelib.section import Section

FAR = 50.0
CASES = [("vertex", False), ("vertex", True), ("other-leg", False), ("other-leg", True)]


def drawn(part: Part):
    """The numbers that the drawing carries, as floats."""
    s, taper = part.section, part.tapers[0]
    mine, other = (s.leg_a, s.thickness_a), s.thickness_b
    if taper.leg == "B":
        mine, other = (s.leg_b, s.thickness_b), s.thickness_a
    return (float(v) for v in (*mine, other, s.fillet, taper.width_left, taper.run))


def crossing(line: LineString, height: float) -> float:
    """x where a line, carried on both ways, is at a height."""
    (x0, y0), (x1, y1) = line.coords[0], line.coords[-1]
    carried = LineString([(x0 - FAR * (x1 - x0), y0 - FAR * (y1 - y0)), (x1 + FAR * (x1 - x0), y1 + FAR * (y1 - y0))])
    return carried.intersection(LineString([(-1e4, height), (1e4, height)])).x


@pytest.mark.parametrize(("ends_in", "two"), CASES)
def test_answers_and_mistakes_on_the_drawing(ends_in, two):
    for n in range(60):
        part = fresh_part(f"oracle {n}", ends_in=ends_in, two_thicknesses=two, legs="AB")
        width, own, other, fillet, left, run = drawn(part)
        line = LineString([(0, left), (run, width)])
        question = ask.vertex_projection(part)
        mark, flat = crossing(line, other), crossing(line, other + fillet)
        assert float(question.answer) == pytest.approx(mark, abs=1e-9)
        assert float(ask.first_flat(part).answer) == pytest.approx(flat, abs=1e-9)
        slope = line.length / (width - left) * math.cos(math.atan2(width - left, run))
        wanted = {
            "own-thickness": crossing(line, own),
            "straight-over-fillet": flat - slope * LineString(
                [(fillet * math.sin(a), fillet * math.cos(a)) for a in (math.pi / 2 * i / 2000 for i in range(2001))]
            ).length,
            "first-flat-as-vertex": flat,
            "offset-as-thickness": other,
            "M19": crossing(LineString([(0, left), (math.sqrt(run**2 - (width - left) ** 2), width)]), other)
            if run > width - left
            else None,
            "M20": crossing(LineString([(0, left), (width - left, left + run)]), other),
        }  # fmt: skip
        for wrong in question.wrong:
            if wanted.get(wrong.slip) is not None:
                assert float(wrong.answer) == pytest.approx(wanted[wrong.slip], abs=1e-5), wrong.slip
        if left:
            forgotten = {round(float(w.answer), 6) for w in question.wrong if w.slip == "no-width-left"}
            through_vertex = crossing(LineString([(0, 0), (run, width)]), other)
            assert round(through_vertex, 6) in forgotten


def test_the_mistakes_as_lines():
    part = fresh_part("lines")
    width, _, other, _, _, run = drawn(part)
    wrong = inside_corner_line(taper_lines(part)[0])
    assert crossing(LineString([(0, float(wrong.width_left)), (run, width)]), other) == pytest.approx(0, abs=1e-12)
    assert float(wrong.run) == pytest.approx(run)


@pytest.mark.parametrize(("ends_in", "two"), CASES)
def test_the_table_s_numbers_are_those_of_the_wrong_lines(ends_in, two):
    """M12, M19 and M20 are told in two ways, as wrong lines and as wrong numbers by the table: they must agree."""
    for n in range(20):
        line = taper_lines(fresh_part(f"oracle {n}", ends_in=ends_in, two_thicknesses=two, legs="AB"))[0]
        asked = Asked(line.vertex_projection, slope_of=(line.run, line.width - line.width_left), inside_corner=Fraction(0))
        by_table = {(w.id, round(float(w.value), 9)) for w in wrong_numbers(asked)}
        for wrong in vertex_projection_mistakes(line):
            if wrong.slip in ("M12", "M19", "M20") and abs(float(wrong.answer) - float(asked.right)) > 1e-9:
                assert (wrong.slip, round(float(wrong.answer), 9)) in by_table, (wrong.slip, line)


def test_check_values():
    """tA 3/16, tB 1/8, 25 degrees: offset 0.26806, thicknesses swapped 0.40210; r 3/16 at 30 degrees: 0.1854 too near."""
    line = TaperLine.of(Section("1 1/2", "1 1/2", "3/16", "1/8", fillet="3/16"), Taper("A", 1, angle=25))
    assert float(line.vertex_projection) == pytest.approx(0.26806, abs=5e-6)
    assert float(own_thickness(line)) == pytest.approx(0.40210, abs=5e-6)
    line = TaperLine.of(Section("1 1/2", "1 1/2", "1/8", fillet="3/16"), Taper("A", 1, angle=30))
    assert float(line.vertex_projection) - straight_over_fillet(line) == pytest.approx(0.1854, abs=5e-5)


def test_the_shop_rule_holds_at_45_degrees_and_is_then_no_mistake():
    part = Part("P", "Trial", Section("1 1/2", "1 1/2", "1/8", fillet="3/16"), "6061-T6", 6, [Taper("A", 1, run="1 1/2")])
    question = ask.vertex_projection(part)
    assert question.answer == Fraction(1, 8)
    assert "offset-as-thickness" not in {w.slip for w in question.wrong}


@pytest.mark.parametrize("which", ask.EXERCISES)
def test_forty_exercises_each_new_each_mistake_named(which):
    seen = set()
    series = ask.EXERCISES[which]
    again = ask.Series(series.make, series.id, series.needs, seed=series.seed, **series.kind)
    for number in range(40):
        question = series[number]
        assert question == again[number]
        seen.add(question.prompt)
        assert grade(question, question.answer_text.removeprefix("about ").split(" (")[0]).right  # what the drawing says counts as right
        assert grade(question, f"{float(question.answer):.4f}").right
        for wrong in question.wrong:
            found = grade(question, f"{float(wrong.answer):.6f}")
            assert found.status == "mistake" and wrong.slip in found.slips, (question.prompt, wrong)
    assert len(seen) == 40


def test_a_series_that_cannot_be():
    with pytest.raises(ValueError, match="no fresh numbers tell green-from-blue apart"):
        ask.Series(ask.vertex_projection, "nothing", ("green-from-blue",))[0]


def test_a_series_does_not_depend_on_the_order_of_asking():
    make = lambda: ask.Series(ask.vertex_projection, "order")  # noqa: E731
    one, two = make(), make()
    assert [two[n] for n in (3, 0, 0, 2, 1, 3)] == [one[n] for n in (3, 0, 0, 2, 1, 3)] == [make()[n] for n in (3, 0, 0, 2, 1, 3)]


def test_a_series_that_runs_out_begins_again():
    series = ask.Series(lambda part, id: ask.which_thickness(part, id), "short")
    assert series[0] == series[5]


@pytest.mark.parametrize("make", [ask.which_thickness, ask.when_run_grows, ask.leaves_through, recall.name_of_vertex])
def test_every_wrong_choice_has_its_sentence(make):
    question = make(fresh_part("choices")) if make is not recall.name_of_vertex else make()
    assert isinstance(question, ChoiceQuestion)
    assert {w.answer for w in question.wrong} == set(question.words) - {question.answer}


@pytest.mark.parametrize("ends_in", ["vertex", "other-leg", "fillet", "flat"])
def test_where_the_line_leaves(ends_in):
    """Compared with where the line's height at the end lies between the faces, on the drawing."""
    for n in range(20):
        part = fresh_part(f"leaves {n}", ends_in=ends_in, legs="AB")
        _, _, other, fillet, left, _ = drawn(part)
        a, b = ("A", "B") if part.tapers[0].leg == "A" else ("B", "A")
        zone = f"on leg {b}" if left <= other else "in the fillet" if left < other + fillet else f"on the flat of leg {a}"
        assert ask.leaves_through(part).answer_text == zone


def test_recall_numbers():
    part = fresh_part("recall")
    blank = recall.blank_length(part, Shop())
    assert blank.answer == part.length + Fraction(1, 16)
    assert grade(blank, str(float(part.length))).slips == ("M04",)
    question = recall.height_on_line(part)
    width, _, _, _, left, run = drawn(part)
    height = Fraction(question.prompt.split(" from the heel")[0].rsplit("is ", 1)[1])
    assert float(question.answer) == pytest.approx(crossing(LineString([(0, left), (run, width)]), float(height)))


def test_the_inside_corner_leaves_the_other_leg_s_thickness():
    part = fresh_part("corner", two_thicknesses=True)
    question = ask.left_by_inside_corner(part)
    assert question.answer == part.section.thickness_b
    assert {"own-thickness", "corner-as-vertex"} <= {w.slip for w in question.wrong}


def test_the_steps_say_what_is_struck():
    """1/8 of 1 1/4 in a run of 2 1/8 is 0.2125: struck at 7/32, the nearest sixty-fourth; in millimetres 5.4. 1/4 of it is 0.425."""
    line = TaperLine.of(Section("1 1/4", "1 1/4", "1/8", fillet="1/8"), Taper("A", 1, run="2 1/8"))
    assert ask.vertex_step(line).endswith("1/8 times 1.700 is 0.213, struck at 7/32.") and ask.first_flat_step(line).endswith("1/4 times 1.700 is 0.425, struck at 27/64.")
    even = TaperLine.of(Section("1 1/4", "1 1/4", "1/8", fillet="1/8"), Taper("A", 1, run="2 1/2"))
    assert ask.vertex_step(even).endswith("is 0.250, which is 1/4.")
    with writing("mm"):
        assert ask.vertex_step(line).endswith("is 5.4 mm (0.213 in).") and "54 mm" in ask.slope_step(line).replace("53.98 mm", "54 mm")
    assert "2 1/8" in ask.slope_step(line) and "1 1/4" in ask.slope_step(line)
    left = TaperLine.of(Section("1 1/4", "1 1/4", "1/8", fillet="1/8"), Taper("A", 1, "1/16", run="2 3/8"))
    assert "1/16 times 2.000 is 0.125, which is 1/8." in ask.vertex_step(left) and "3/16 times 2.000 is 0.375, which is 3/8." in ask.first_flat_step(left)
