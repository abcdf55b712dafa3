"""Lesson 10, without a kernel: every slip by every amount in both themes, every answer graded, its made parts against another program's metal."""

import math
import sys
from fractions import Fraction as F

import pytest
from lesson_checks import EVERY, PROJECT, THEMES, Page, hides, legible, move_all, named

from anglelib.drawing.checks import struck
from anglelib.drawing.deviations import Row
from anglelib.drawing.made_view import between, made_outline
from anglelib.drawing.sheet import Label
from anglelib.inspection.by_amount import all_or_nothing, by_amount, one_way
from anglelib.inspection.diagnosis import GOOD
from anglelib.inspection.made import Made, readings_of
from anglelib.inspection.mistakes import MISTAKES
from anglelib.inspection.reading_ids import chosen
from anglelib.inspection.wanted import all_wanted, wanted_readings
from anglelib.lengths import fine
from anglelib.lessons import check_and_diagnose as lesson
from anglelib.lessons.demo import demo_job, demo_part
from anglelib.lessons.live import View
from anglelib.lessons.own_readings import OwnReadings, PartOfJob
from anglelib.paper.card_check import boxes
from anglelib.questions import check_and_diagnose as ask
from anglelib.questions import made_slips as slips
from anglelib.questions.grading import grade

PICTURES = {
    "right_length": lesson.right_length, "short": lesson.short, "to_the_vertex": lesson.to_the_vertex,
    "ranked": lesson.ranked, "at_a_glance": lesson.at_a_glance,
}  # fmt: skip
SHOP = demo_job().shop


# --- every slip, both themes ------------------------------------------------------------------------------
@EVERY
@pytest.mark.parametrize("theme", THEMES)
@pytest.mark.parametrize("slip", lesson.SHORT)
def test_every_slip_by_every_amount(slip, theme, every):
    parts = [id_ for id_ in ("E2L", "C1L") if slip == "M26" or slip == "M06" or slips.can_be_made(demo_part(id_), slip)]
    assert parts
    for part_id in parts:
        for amount in (0, 5, 50, 100, 150, 200) if every else (0, 5, 100, 200):
            values = lesson.given(part_id, slip, amount)
            legible(lesson.draw(values, View(theme)), theme)
            if amount in (0, 100):
                legible(lesson.draw(values, View(theme, revealed=False)), theme)
                if part_id == lesson.PART:  # the print is drawn of this part
                    legible(lesson.draw_print(values, View(theme)), theme)


@pytest.mark.parametrize("theme", THEMES)
def test_every_cause_with_any_number_of_readings(theme):
    for slip in lesson.CAUSES:
        for count in (1, len(lesson.ORDER)):
            legible(lesson.draw_causes({"slip": slip, "amount": 100, "count": count}, View(theme)), theme)
    legible(lesson.draw_causes({"slip": "M16", "amount": 0, "count": 2}, View(theme, revealed=False)), theme)


@pytest.mark.parametrize("theme", THEMES)
def test_pictures_of_the_exercises(theme, monkeypatch):
    monkeypatch.setattr(lesson.ROOM, "theme", theme)
    for number in range(5):
        legible(lesson.draw_slip(ask.EXERCISES["name-the-slip"].thing(number)), theme)
        thing = ask.EXERCISES["seven-readings"].thing(number)
        legible(lesson.rows_sheet(thing.rows, thing.part, lesson._few()), theme)
        legible(lesson.draw_caliper(ask.EXERCISES["off-by"].thing(number)), theme)


@pytest.mark.parametrize(("name", "answers"), [
    ("right_length", ("other hand", "M09", "OUT")), ("short", ("M16", "datum lost")), ("to_the_vertex", ("M12", "inside corner")),
    ("ranked", ("next best reading",)), ("at_a_glance", ("leaves the white",)),
])  # fmt: skip
def test_the_answer_is_in_no_word_of_the_picture_before_the_prediction(name, answers):
    hides(PICTURES[name](), *answers)


# --- the made part against other metal ---------------------------------------------------------------------
def area(points):
    return abs(sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in zip(points, [*points[1:], *points[:1]], strict=True))) / 2


@pytest.mark.parametrize("slip", ["M01", "M05", "M09", "M10", "M13", "M14", "M16", "M21", "M22"])
def test_the_outline_is_that_of_a_polygon_library(slip):
    """Half-planes cut from a rectangle by shapely; metal missing and too much add up to what differs."""
    shapely = pytest.importorskip("shapely")
    part = demo_part("E2L")
    made, wanted = by_amount(one_way(slip, part, SHOP), 1), Made.as_wanted(part)
    for leg in "AB":
        shapes = []
        for piece in (made, wanted):
            far, width = 40.0, piece.width(leg)
            out_1, out_2 = (ends["AB".index(leg)] for ends in (piece.out_1, piece.out_2))
            shape = shapely.Polygon([(piece.start, 0), (piece.stop, 0), (piece.stop + out_2 * width, width), (piece.start + out_1 * width, width)])
            for taper in piece.tapers:
                if taper.leg == leg:  # the waste: a triangle far beyond the line through the toe mark, at its angle
                    angle = math.atan2(1, taper.slope)
                    toe = (taper.at_toe, float(part.section.leg(leg)))
                    along = (math.cos(angle) * far, math.sin(angle) * far)
                    waste = [(toe[0] - along[0], toe[1] - along[1]), (toe[0] + along[0], toe[1] + along[1]), (toe[0] - far, toe[1] + far)]
                    if taper.end == 2:
                        waste = [(float(part.length) - x, y) for x, y in waste]
                    shape = shape.difference(shapely.Polygon(waste))
            shapes.append(shape)
            assert area(made_outline(piece, leg)) == pytest.approx(shape.area, rel=1e-6)
        missing = sum(area(piece) for piece in between(wanted, made, leg))
        too_much = sum(area(piece) for piece in between(made, wanted, leg))
        assert missing == pytest.approx(shapes[1].difference(shapes[0]).area, abs=1e-3)
        assert too_much == pytest.approx(shapes[0].difference(shapes[1]).area, abs=1e-3)


def test_amounts():
    """Half of the kerf on the keep side is a split line; all or nothing has no half; nothing of a slip is a good part."""
    part = demo_part("E2L")
    half, split = by_amount(one_way("M01", part, SHOP), 0.5), by_amount(one_way("M02", part, SHOP), 1)
    assert readings_of(half) == pytest.approx(readings_of(split))
    for slip in lesson.SHORT:
        if slip != "M12":
            case = one_way(slip, part, SHOP)
            assert by_amount(case, 0) == Made.as_wanted(part)
            assert all_or_nothing(case) == (slip in ("M09", "M10", "M23", "M24", "M26")), slip
            assert by_amount(case, 2).can_be


def test_the_pictured_slips_are_those_asked_for():
    wanted = {f"M{n:02d}" for n in (*range(1, 7), *range(9, 17), 18, *range(21, 27))}
    assert set(lesson.SHORT) == wanted
    assert set(lesson.RIGHT_LENGTH) | set(lesson.WRONG_LENGTH) | set(lesson.OF_A_PAIR) == wanted


def test_those_with_the_right_length_have_it_and_the_others_do_not():
    part = demo_part("E2L")
    wanted = float(part.length)
    for slip in lesson.RIGHT_LENGTH:
        assert readings_of(lesson.made("E2L", slip, 100))["heel"] == pytest.approx(wanted, abs=1e-9), slip
    for slip in set(lesson.WRONG_LENGTH) - {"M21"}:
        assert abs(readings_of(lesson.made("E2L", slip, 100))["heel"] - wanted) > 0.005, slip


# --- every question ---------------------------------------------------------------------------------------
def test_no_other_choice_can_make_the_readings_whatever_its_amount():
    """Each of the others, by every case that the table of mistakes has for it, misses some reading by 1.5 limits."""
    for number in range(4):
        slip = ask.EXERCISES["name-the-slip"].thing(number)
        read, wanted = readings_of(slip.made), all_wanted(slip.part, slips.LIMITS)
        for other in slip.others:
            for case in MISTAKES[other].cases(slip.part, slips.SHOP):
                theirs = readings_of(case.made)
                gaps = [abs(theirs[key] - read[key]) / wanted[key].within for key in chosen(slip.part)]
                assert max(gaps) >= slips.CLEAR - 1e-9, (slip, other, case.words)


def test_a_good_part_is_an_answer_too():
    part = demo_part("E2L")
    question = ask.name_slip(slips.Slip(part, GOOD, slips.near_ones(part, GOOD)), readings=True)
    assert question.answer == GOOD and grade(question, GOOD).right and question.answer_text == "a good part"
    assert GOOD in ask.EXERCISES["seven-readings"][0].words


def test_many_mistakes_are_recognised_here():
    found = named(ask) | {str(make().answer) for make in ask.QUESTIONS.values()}
    assert set(lesson.SHORT) - found <= {"M24"}, set(lesson.SHORT) - found


def test_shrunk_limits():
    """Numbers by hand: 12 thousandths either way, unsure by 4: proven within to 8, outside beyond 16."""
    for read, state in ((2008, ask.PROVEN), (2009, ask.OPEN), (2016, ask.OPEN), (2017, ask.OUTSIDE), (1992, ask.PROVEN), (1983, ask.OUTSIDE)):
        assert ask.Limit(F(2), F(12, 1000), F(4, 1000), F(read, 1000)).state == state
    assert [Row("heel", "x", 1 + d, 1.0, 0.988, 1.012, 0.002).state for d in (0.008, 0.0085, 0.0121)] == ["within", "doubtful", "out"]


def test_formula_with_any_numbers():
    """Half of 1/64 is 0.0078; a rectangular distribution of that half-width has a standard deviation of 0.0045 (GUM 4.3.7)."""
    card = lesson.formula()
    move_all(card)
    card.controls["a_l"].value, card.controls["T"].value = F(1, 128), F(3, 250)
    assert "unsure by 0.005" in card.words.value and "only 0.003" in card.words.value
    card.controls["a_l"].value = F(1, 64)
    assert "nothing can be proven" in card.words.value


def test_heat():
    """Handbook expansion of aluminium alloys, about 13.1 millionths for each degree F, on 26 1/2 in. and 108 F."""
    question = ask.cold_length(demo_part("A2L"))
    assert 26.5 - float(question.answer) == pytest.approx(26.5 * 13.1e-6 * 108, rel=0.01)


# --- one's own readings -------------------------------------------------------------------------------------
def own(part_id="E2L") -> OwnReadings:
    return OwnReadings(PartOfJob(part_id))


FEW = ("A1L", "A3", "A5L", "C1L", "D2R", "E1")


@pytest.mark.parametrize("part_id", [id_ if id_ in FEW else pytest.param(id_, marks=pytest.mark.slow) for id_ in (p.id for p in demo_job().parts)])
def test_a_part_as_wanted_is_accepted_or_doubtful_and_called_good(part_id):
    box = own(part_id)
    box.unsure.value = F(1, 1000)
    box.fill([f"{a.value:.4f}" for a in box.asked])
    box.judge()
    assert box.verdict.outcome in ("accept", "doubtful"), box.words.value
    assert GOOD in {id_ for cause in box.found.leaders[:1] for id_ in cause.ids}, box.found.leaders


def test_the_card_and_the_entries_ask_for_the_same():
    for part in demo_job().parts:
        box = own(part.id)
        on_card = [(name, figure, *limits) for name, figure, limits in boxes(part, demo_job().limits)]
        assert on_card == [(box.name(a), fine(a.value), fine(a.low), fine(a.high)) for a in box.asked]
        assert box.asked == wanted_readings(part, demo_job().limits)


@pytest.mark.parametrize("part_id", ["E2L", "C1L"])
def test_what_is_typed_leads_to_the_slip(part_id):
    box = own(part_id)
    box.unsure.value = F(2, 1000)
    made = by_amount(one_way("M16" if part_id == "E2L" else "M12", demo_part(part_id), SHOP), 1)
    read = readings_of(made)
    box.fill([f"{read[a.id]:.4f}" for a in box.asked])
    box.judge()
    assert ("M16" if part_id == "E2L" else "M12") in box.found.causes[0].ids, box.found.leaders
    assert "Cause 1" in box.words.value and "you did" not in box.words.value


def test_the_readings_are_those_of_metal_worked_by_hand():
    """A bracket 4 3/4 long whose taper runs 2 1/8 to the vertex of a leg 1 1/4 wide; its feather edge may be broken by up to 1/64.

    The heel is wanted in the middle of what that takes or leaves: 1/64 of an edge 1.25 high is 1/64 x 2.125 / 1.25 of the length.
    """
    lost = 1 / 64 * 2.125 / 1.25 / 2
    wanted = {a.id: a.value for a in wanted_readings(demo_part("C1L"), demo_job().limits)}
    assert wanted["toe.A"] == 4.75 - 2.125 and wanted["heel"] == wanted["toe.B"] == pytest.approx(4.75 - lost)
    assert wanted["hole.3.x"] == 4.75 - 0.625  # the end that is left to measure from is end 2
    assert wanted["mid.A.1"] == 1.25 / 2  # half-way along the run the leg is half as wide


def test_bad_entries_are_told_and_nothing_is_lost():
    box = own()
    entries = list(box.entries.values())
    entries[0].value, entries[1].value = "2 7/8", "two and a half"
    assert entries[0].value == "2 7/8" and "reading of toe A, taper to end 2" in box.words.value
    box.judge()
    assert box.verdict is None and "reading of toe A, taper to end 2" in box.words.value
    entries[1].value = "63.5 mm"
    assert "2.5" not in box.words.value or "within" in box.words.value
    box.judge()
    assert box.verdict is not None and "Only 2 of 7 readings were taken" in box.words.value
    box.unsure.value = F(12, 1000)
    box.judge()
    assert "Within as read, not proven: at taper start A, from end 1" in box.words.value
    empty = own()
    empty.judge()
    assert "no reading" in empty.words.value
    empty.source.file.value = "not/there.toml"
    assert "not/there.toml" in empty.source.words.value or "not" in empty.source.words.value
    assert empty.part.id == "E2L"


def test_a_job_file_of_ones_own(tmp_path):
    target = tmp_path / "own.toml"
    target.write_text((PROJECT / "notebooks" / "demo" / "job.toml").read_text(encoding="utf-8"), encoding="utf-8")
    box = own()
    box.source.file.value = str(target)
    assert "Demo kit" in box.source.words.value and box.part.id == "A1L"
    box.source.which.buttons.value = "C1R"
    assert box.part.id == "C1R" and "heel" in box.entries and "start.A.1" not in box.entries
    box.source.file.value = ""
    assert box.part.id == demo_job().parts[0].id


# --- the notebook ---------------------------------------------------------------------------------------
def test_numbers_of_the_prose():
    sys.path.insert(0, str(PROJECT / "tests" / "diagnosis"))
    import diagnosis_count

    text = Page.of(lesson).prose
    sheet = diagnosis_count.figures()["10_reliability.png"]
    assert f"![{sheet.sentence}](../figures/10_reliability.png)" in text
    count = (PROJECT / "tests" / "diagnosis" / "results.md").read_text(encoding="utf-8")
    row = next(line for line in count.splitlines() if line.startswith("| normal | one slip or none"))
    cells = [cell.strip() for cell in row.split("|")]
    assert f"right in {cells[4]} of a hundred" in text and f"by the very name in {cells[8]}." in text
    rows = [line.split(",") for line in (PROJECT / "tests" / "diagnosis" / "reliability.csv").read_text(encoding="utf-8").splitlines()[1:]]
    sure = [(float(p), float(f)) for run, p, f, _ in rows if run == "other bench" and 0.4 < float(p) < 0.9]
    assert all(f < p for p, f in sure)
    _, p, f, _ = max((row for row in rows if row[0] == "other bench"), key=lambda row: float(row[1]) - float(row[2]))  # where it was the most too sure
    assert f"where it said {float(p):.2f} it was so {float(f):.2f} of the time" in text
    assert "half a kerf" in text and SHOP.allowance * 2 == SHOP.kerf


def test_the_checks_see_a_picture_gone_wrong():
    sheet = lesson.draw(lesson.given("E2L", "M01"), View())
    assert struck(sheet.with_items(Label(60, 120, "over the metal and its edge, all across it", 30)))
