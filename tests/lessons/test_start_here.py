"""Lesson 00, without a kernel: every control moved over its range, every slip named, the words checked against the drawing."""

import math
import re
import sys
from fractions import Fraction
from functools import partial
from itertools import product

import pytest
from lesson_checks import EVERY, PROJECT, THEMES, Page, legible, some, texts

from anglelib.drawing.corner import CORNER_PLACE, HEEL_PLACE, PLACES, corner_sheet
from anglelib.drawing.disc import HALVES, TURNS, disc_sheet
from anglelib.drawing.disc_gap import COLUMNS, PIVOT, TILT, edge_of, gap_sheet
from anglelib.drawing.place_names import MEANINGS, WORDS
from anglelib.drawing.places import Naming, places_sheet
from anglelib.drawing.sheet import Circle, Hatch, Line, Polyline
from anglelib.job import Shop
from anglelib.lessons import contents, environment
from anglelib.lessons import start_here as lesson
from anglelib.lessons.live import View
from anglelib.lessons.room import ROOM
from anglelib.questions import start_here as questions
from anglelib.questions.answers import Answer, AnswerBook
from anglelib.questions.grading import grade
from anglelib.safety import ACTION_LEVEL
from anglelib.section import Section

PAGE = Page.of(lesson)
legible = partial(legible, longest=700, number=False)
PICTURES = {"places": lesson.places, "corner": lesson.corner, "cost": lesson.cost, "running": lesson.running, "disc": lesson.disc}


# --- the pictures over the range of their controls ---------------------------------------------------------
@pytest.mark.parametrize("theme", THEMES)
@pytest.mark.parametrize("id", lesson.BRACKETS)
def test_every_place_is_pointed_at_on_every_part(theme, id):
    part = lesson.demo_part(id)
    plain = len(places_sheet(part, Naming(few=theme == "projector")).items)
    for word in lesson.POINTS:
        sheet = lesson.draw_places({"part": part, "point_at": word}, View(theme))
        legible(sheet, theme)
        accents = [item for item in sheet.items if getattr(item, "accent", False)]
        assert bool(accents) is bool(word) and (not word or MEANINGS[word] in sheet.sentence)
        assert theme == "projector" or len(sheet.items) == plain + len(accents)
    legible(lesson.draw_places({"part": part}, View(theme, revealed=False)), theme)


@EVERY
@pytest.mark.parametrize("theme", THEMES)
def test_every_corner_thickness_fillet_and_height(theme, every):
    for t, r, place in product(lesson.THICKNESSES.values(), lesson.FILLETS.values(), PLACES):
        for y in some(lesson.HEIGHTS, every, 3):
            legible(lesson.draw_corner({"t": t, "r": r, "y": y, "place": place}, View(theme)), theme)


@pytest.mark.parametrize("theme", THEMES)
def test_any_prediction_of_the_hole_is_drawn(theme):
    values = {**lesson._plain(), "place": CORNER_PLACE}
    for sixteenths in (*range(0, 24), 40, 2000):
        legible(lesson.draw_corner(values, View(theme, prediction=Fraction(sixteenths, 16))), theme)
    legible(lesson.draw_corner(values, View(theme, revealed=False)), theme)


@pytest.mark.parametrize("theme", THEMES)
def test_every_span_of_every_part(theme):
    for id, span in product(lesson.RUNNING, lesson.SPANS):
        for revealed in (True, False):
            legible(lesson.draw_running({"part": lesson.demo_part(id), "span": span}, View(theme, revealed)), theme)


@pytest.mark.parametrize("theme", THEMES)
@pytest.mark.parametrize("turn", TURNS)
def test_the_disc_both_ways(theme, turn):
    legible(disc_sheet(turn), theme)
    legible(disc_sheet(turn, False), theme)


def test_the_half_that_runs_down():
    """By the cross product: a disc that turns clockwise has a velocity of (y, -x) at (x, y)."""
    for turn, way in zip(TURNS, (1, -1)):
        for half, x in zip(HALVES, (-1.0, 1.0)):
            falls = way * -x < 0
            assert (half == questions.which_half(turn).answer) is falls
        hatch = next(item for item in disc_sheet(turn).items if isinstance(item, Hatch))
        middle = math.fsum(x for x, _ in hatch.points) / len(hatch.points)
        assert (middle > 117) is (questions.which_half(turn).answer == "right")


def test_the_gap_is_the_least_where_the_table_is_level_and_a_tilt_opens_it():
    """The table's edge, carried round the pivot by hand: it keeps its distance from it, and goes away from the disc."""
    sheet = gap_sheet()
    for theme in THEMES:
        legible(sheet, theme)
    far = math.hypot(*PIVOT)
    for tilt in (2, 10, TILT, 30):
        x, y = edge_of(tilt)
        assert math.hypot(x - PIVOT[0], y - PIVOT[1]) == pytest.approx(far)
        assert x < 0
    # in the first picture the table stands off the disc, by less than in the second, and the work reaches the disc
    rights = [max(x for x, _ in item.points) for item in sheet.items if isinstance(item, Polyline) and item.closed and item.kind == "outline" and not item.accent]
    first, second = ([COLUMNS[n] - x for x in rights if COLUMNS[n] - 20 < x <= COLUMNS[n]] for n in (0, 1))
    assert 0 in first and 0 < max(first) < max(second)
    assert not re.search(r"\d", sheet.sentence)  # no source gives a number for the gap


@pytest.mark.parametrize(("name", "secrets"), [("places", ("heel", "vertex", "toe of leg A")), ("cost", ("13/16", "0.813")), ("running", ("1 1/8", "1.125")), ("disc", ("down", "work here"))])
def test_the_answer_is_in_no_word_of_the_picture_before_the_prediction(name, secrets):
    live = PICTURES[name]()
    words = texts(live.sheet)
    assert not [text for text in words for secret in secrets if secret in text]
    assert not any(getattr(item, "accent", False) for item in live.sheet.items)
    if name != "places":  # who cannot see it hears where each numbered line is
        assert not [secret for secret in secrets if secret in live.sheet.sentence]


def test_the_corner_shows_no_hole_before_the_prediction():
    assert not any(getattr(item, "kind", "") == "centre" for item in lesson.corner().sheet.items)


# --- what is drawn is where the metal is -----------------------------------------------------------------
def test_a_wrong_corner_is_off_by_what_lies_between_on_the_drawing():
    """Measured on the picture: between the two centre lines lies as much as between heel and place."""
    section = Section("1 1/4", "1 1/4", "1/8", "3/16", fillet="1/8")
    scale = 140 / 1.25
    dots = [item.x for item in corner_sheet(section, Fraction(5, 8), HEEL_PLACE).items if isinstance(item, Circle)]
    for place, dot in list(zip(PLACES, dots))[1:3]:
        sheet = corner_sheet(section, Fraction(5, 8), place)
        centres = sorted(item.x1 for item in sheet.items if isinstance(item, Line) and item.kind == "centre")
        assert centres[1] - centres[0] == pytest.approx(dot - dots[0])
    assert [round((x - dots[0]) / scale, 4) for x in dots] == [0, 3 / 16, 5 / 16, 1.25]


def test_the_vertex_is_where_the_heel_ends():
    sheet = places_sheet(lesson.demo_part("E2L"), Naming(names="", point_at="vertex"))
    ends = places_sheet(lesson.demo_part("E2L"), Naming(names="", point_at="heel"))
    points = {(round(i.x, 2), round(i.y, 2)) for i in sheet.items if isinstance(i, Circle)}
    lines = {(round(x, 2), round(y, 2)) for i in ends.items if isinstance(i, Line) and i.accent for x, y in ((i.x1, i.y1), (i.x2, i.y2))}
    assert len(points) == 3 and len(points & lines) == 2  # in both pictures of the part; the section shows the heel as a point


# --- the questions -------------------------------------------------------------------------------------
def test_four_places_are_offered():
    assert all(len(questions.EXERCISES["name"][number].choices) == 4 for number in range(40))


def test_every_place_is_asked_for_sooner_or_later():
    series = questions.EXERCISES["name"]
    assert {series.thing(n).place for n in range(200)} == set(MEANINGS)


def test_the_picture_of_an_exercise_points_and_does_not_name():
    for number in range(60):
        pointed = questions.EXERCISES["name"].thing(number)
        sheet = lesson._asked_place(pointed)
        legible(sheet)
        assert texts(sheet).count("?") == 1 and not set(texts(sheet)) & set(WORDS.values())
        assert any(getattr(item, "accent", False) for item in sheet.items)
        legible(lesson.running_sheet(questions.EXERCISES["gap"].thing(number)))


def test_what_each_place_is_says_it_without_the_word():
    for place, meaning in MEANINGS.items():
        short = re.sub(r" of leg [AB]|leg [AB], ", "", WORDS[place])
        assert short in ("heel", "toe", "run") or short not in meaning, place
    assert "heel" not in MEANINGS["heel"] and " run" not in MEANINGS["run"] and "toe" not in MEANINGS["toe-A"]


def test_reading_from_the_one_inch_mark():
    question = questions.from_one_inch()
    assert grade(question, "4 3/8").right
    assert grade(question, "5 3/8").slips == grade(question, "6 3/8").slips == (questions.ONE_INCH,)


def test_the_numbers_of_the_demo_parts():
    """Read off job.toml by hand: E2L has holes at 3 3/8 and 4 1/2 of 5 3/8; D2L ends 3/4 beyond its last hole."""
    assert grade(questions.gap(lesson.demo_part("E2L")), "1 1/8").right
    assert grade(questions.last_step(lesson.demo_part("D2L")), "3/4").right
    assert grade(lesson.all_steps().children[0].question, "33 7/8").right and grade(lesson.all_steps().children[1].question, "2 1/4").right
    assert "18 7/8 (18.875)" in repr(lesson.worked()) and "make 22 5/8, the length" in repr(lesson.worked())


def test_an_exercise_with_a_picture_changes_it_with_the_numbers_and_the_room():
    box = lesson.exercise(4)
    seen = {box.picture.value}
    box.other.click()
    seen.add(box.picture.value)
    assert len(seen) == 2 and box.snapshot.startswith("<img alt=")
    ROOM.theme = "projector"
    try:
        assert box.picture.value not in seen
    finally:
        ROOM.theme = "screen"
    assert box.picture.value in seen


# --- the environment -------------------------------------------------------------------------------------
def test_all_is_here():
    assert lesson.ready().missing == () and "✓" in lesson.ready()._repr_html_()


def test_what_is_missing_is_said_with_its_remedy(tmp_path):
    nothing = environment.check(find=lambda module: None, version=(3, 9), folder=tmp_path)
    assert len(nothing.missing) == 1 + len(environment.NEEDS) and "Ctrl-C" in nothing.sentence
    assert "3.11 or later" in nothing.missing[0] and all("." in line for line in nothing.missing)
    assert "Ctrl-C" in nothing._repr_html_() and "✓" not in nothing._repr_html_()

    def broken(module):
        raise ModuleNotFoundError(module)

    assert len(environment.check(find=broken).missing) == len(environment.NEEDS)


def test_a_folder_that_cannot_be_written(tmp_path, monkeypatch):
    monkeypatch.setattr(environment.os, "access", lambda place, mode: False)
    assert "set ANGLELIB_HOME" in environment.check(folder=tmp_path / "not" / "there").sentence


def test_every_need_is_a_dependency_of_the_project():
    text = (PROJECT / "pyproject.toml").read_text(encoding="utf-8")
    listed = set(re.findall(r'^    "([a-z0-9]+)[>=]', text.split("dependencies = [")[1].split("]")[0], re.MULTILINE))
    assert set(environment.NEEDS) - {"jupyterlab_widgets"} == listed - {"jupyterlab", "numpy"}  # numpy comes with matplotlib


@pytest.mark.parametrize("missing", ["anglelib.lessons", "ipywidgets"])
def test_the_first_cell_says_in_words_what_is_missing(missing, monkeypatch):
    """In a real IPython, which prints what the error says of itself, and stops the page there."""
    from IPython.core.interactiveshell import InteractiveShell
    from traitlets.config import Config

    for name in [n for n in sys.modules if n.startswith("anglelib.lessons")]:
        monkeypatch.delitem(sys.modules, name)
    monkeypatch.setitem(sys.modules, missing, None)
    quiet = Config({"HistoryManager": {"enabled": False}})
    shell, shown = InteractiveShell(config=quiet), []
    monkeypatch.setattr(shell, "_showtraceback", lambda kind, value, lines: shown.append("\n".join(lines)))
    result = shell.run_cell(PAGE.code[0])
    assert not result.success and len(shown) == 1
    assert "is missing: stop the course with Ctrl-C" in shown[0] and "Traceback" not in shown[0] and missing in shown[0]


# --- the order of the lessons ----------------------------------------------------------------------------
def test_the_table_of_lessons_is_the_readme_s():
    readme = (PROJECT / "README.md").read_text(encoding="utf-8")
    rows = re.findall(r"^\| (\d\d) ([^|]+?) \| ([^|]+?) \|$", readme, re.MULTILINE)
    there = {path.name for path in (PROJECT / "notebooks").glob("*.ipynb")}
    assert rows == [(lesson.number, lesson.title[:1].lower() + lesson.title[1:], lesson.learns) for lesson in contents.LESSONS]
    assert {lesson.file for lesson in contents.LESSONS} <= there


KNOWN = (*contents.LESSONS, *contents.BESIDE)


def test_the_table_links_to_what_is_here_and_calls_the_rest_to_come():
    found = lesson.contents()
    here = {path.name for path in PAGE.path.parent.glob("*.ipynb")}
    html = found._repr_html_()
    assert PAGE.path.name in found.here and set(re.findall(r'href="([^"]+)"', html)) == here & {l.file for l in KNOWN}
    assert html.count("to come") == repr(found).count("to come") == len(KNOWN) - html.count("href")
    assert here <= {l.file for l in (*KNOWN, contents.HOME)}, "a notebook that the table of lessons does not know"


def test_the_table_counts_what_was_answered(own_folder):
    assert "07 Taper on the inside face: find the mark where the other leg hides the vertex (0 of 10 answered)" in repr(lesson.contents())
    AnswerBook("07_taper_inside").add(Answer("predict-the-mark", 0, "1/4", "wrong"))
    assert "(1 of 10 answered)" in repr(lesson.contents()) and "<td style=\"text-align:left\">1 of 10 answered</td>" in lesson.contents()._repr_html_()
    assert ">here<" not in lesson.contents()._repr_html_()


# --- the notebook ----------------------------------------------------------------------------------------
def test_numbers_in_the_prose_are_the_library_s():
    assert f"a mean of {ACTION_LEVEL:g} dBA" in PAGE.prose and f"less than {Shop().hand_minimum} in. in the hand" in PAGE.prose
