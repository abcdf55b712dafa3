"""The opening picture of a lesson is a picture of its own: no exercise of the lesson, never an empty graph, and it gives nothing away."""

import importlib

import pytest
from lesson_checks import legible
from projector import asked_pictures, lesson_modules, pictures

from anglelib.drawing.checks import bounds
from anglelib.drawing.sheet import Label, Line, Sheet
from anglelib.drawing.svg import fingerprint
from anglelib.lessons.live import View
from anglelib.lessons.openings import SCENES, opening

LESSONS = {importlib.import_module(f"anglelib.lessons.{name}").LESSON: name for name in lesson_modules()}
MODULES = {lesson: name for lesson, name in LESSONS.items() if lesson in SCENES}
QUICK = ("00_start_here", "06_taper_outside", "08_order_of_work")
EMPTY = 0.3
"""The highest band of a picture without any metal or words, as a part of its height."""


def emptiest(sheet: Sheet) -> float:
    """The highest band across a sheet in which nothing is drawn but lines that lie flat, as an axis does, as a part of its height."""
    spans = [(0.0, 0.0), (sheet.height, sheet.height)]
    for item in sheet.items:
        _, low, _, high = bounds([item])
        if not (isinstance(item, Line) and item.y1 == item.y2):
            spans.append((low, high))
    top, gap = 0.0, 0.0
    for low, high in sorted(spans):
        gap, top = max(gap, low - top), max(top, high)
    return gap / sheet.height


def shown_in(module: str):
    for _, picture in pictures(module):
        for revealed in (False, True):
            yield picture.draw(picture.start, View("screen", revealed))
    for _, sheet in asked_pictures(module, 1):
        yield sheet


@pytest.mark.parametrize("lesson", [pytest.param(lesson, marks=() if lesson in QUICK else pytest.mark.slow) for lesson in MODULES])
def test_it_is_no_exercise_s_picture(lesson):
    assert fingerprint(opening(lesson)) not in {fingerprint(sheet) for sheet in shown_in(MODULES[lesson])}


@pytest.mark.parametrize("lesson", SCENES)
def test_it_shows_metal_and_not_an_empty_graph(lesson):
    sheet = opening(lesson)
    legible(sheet)
    assert emptiest(sheet) < EMPTY
    assert sum(getattr(item, "kind", "") == "outline" for item in sheet.items) >= 1


@pytest.mark.parametrize(("module", "name"), [("order_of_work", "cut_first"), ("mark_along_heel", "stepping")])
def test_a_graph_waits_out_of_sight_until_it_has_its_data(module, name):
    picture = dict(pictures(module))[name]
    before, after = (picture.draw(picture.start, View("screen", revealed)) for revealed in (False, True))
    assert emptiest(before) < EMPTY and before.height < after.height


def test_every_lesson_that_teaches_has_one():
    assert set(SCENES) == {lesson for lesson in LESSONS if lesson[:2].isdigit() and lesson[:2] != "13"}
    for lesson, name in MODULES.items():
        figures = importlib.import_module(f"anglelib.lessons.{name}").figures()
        assert fingerprint(figures[f"{lesson}.png"]) == fingerprint(opening(lesson))


def test_an_empty_graph_is_seen():
    """An axis over nothing, and the same with its bars."""
    words = Label(20, 95, "lost, inches", 3.5, "start", "top")
    assert emptiest(Sheet(200, 100, (words, Line(10, 8, 190, 8, "narrow")), "T", "S 1.")) > EMPTY
    assert emptiest(Sheet(200, 100, (words, Line(50, 8, 50, 85, "outline")), "T", "S 1.")) < EMPTY
