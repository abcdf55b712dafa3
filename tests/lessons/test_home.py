"""The home page: what it shows of made-up answers, and the list of own questions held to the pages."""

import re

import pytest
from lesson_checks import PAGES

from anglelib.lessons import home as lesson
from anglelib.lessons.contents import BESIDE, LESSONS, minutes
from anglelib.questions.answers import Answer, AnswerBook
from anglelib.workshop.own_questions import OWN

AGAIN = ("lesson.recall()", "lesson.before_the_saw()")
"""Cells that ask what earlier lessons taught."""


def asks(box):
    """The questions that a box asks, each with the lesson under which its answer is kept."""
    inner = getattr(box, "ask", None)
    if inner is not None:
        yield inner
    if hasattr(box, "question") and hasattr(box, "book"):
        yield box
    for child in getattr(box, "children", ()):
        if child is not inner:
            yield from asks(child)


@pytest.mark.parametrize("page", [page for page in PAGES if page.path.stem[:2].isdigit()], ids=lambda page: page.path.stem)
def test_own_questions_are_those_of_the_page(page, capsys):
    once, exercises = [], []
    for source, box in page.boxes():
        for ask in asks(box) if source not in AGAIN else ():
            assert ask.book.lesson == page.path.stem
            (exercises if source.startswith("lesson.exercise") else once).append(ask.question.id)
    own = OWN[page.path.stem]
    assert (own.page, own.exercises) == (tuple(dict.fromkeys(once)), tuple(dict.fromkeys(exercises)))


def test_every_lesson_has_its_own_questions_and_its_minutes():
    assert list(OWN) == [one.id for one in LESSONS]
    assert all(minutes(one) == "25 to 40" for one in LESSONS) and minutes(BESIDE[0]) == ""


def text(page: lesson.Ways) -> str:
    return " ".join(re.sub(r"<[^>]+>", " ", page._repr_html_()).split())


def test_nothing_yet():
    page = lesson.ways()
    assert text(page).startswith("Begin here: 00 Start here Review : Nothing is due. An exercise that goes wrong comes back") and text(page).count("not begun") == len(LESSONS)
    assert "another try" not in text(page) and repr(page).startswith("Begin here: 00 Start here.")


def test_some_answers_a_try_and_a_spoiled_file(own_folder):
    for id in OWN["00_start_here"].asked:
        AnswerBook("00_start_here").add(Answer(id, 0, "1", "right"))
    AnswerBook("07_taper_inside").add(Answer("07-project", 0, "1/8", "mistake", ("offset-as-thickness",)))
    (own_folder / "answers" / "03_square_end.json").write_text("{")
    page = lesson.ways()
    for said in (text(page), repr(page)):
        assert said.startswith("Go on where you were last: 07 Taper on the inside face")
        assert "done: all 16 answered" in said and "1 of 10 answered" in said and "25 to 40 minutes" in said
        assert "03_square_end.json in the folder answers cannot be read" in said and "offset taken to be the thickness" in said
    assert page._repr_html_().count('href="07_taper_inside.ipynb"') == 3  # where to go on, its row, its other try
    assert page._repr_html_().count('aria-current="true"') == 1


def test_a_lesson_that_was_done_leads_on_and_all_done_to_the_bench():
    for one in LESSONS:
        for id in OWN[one.id].asked:
            AnswerBook(one.id).add(Answer(id, 0, "1", "right"))
        if one.number == "00":
            assert text(lesson.ways()).startswith("You were last in 00 Start here, and it is done. Go on: 01 Identify the stock")
    assert repr(lesson.ways()).startswith("Every lesson is done. The builder's bench")


def test_letters_are_as_large_as_the_page_s_and_a_state_is_never_a_colour_alone():
    html = lesson.ways()._repr_html_()
    assert not re.search(r"font-size:(?!1\.15em|var\(--jp-content-font-size1,14px\))", html)
    assert not re.search(r"#(?!161616|9e9e9e)[0-9a-f]{3,6}\b", html)  # ink and one grey line
    assert set(re.findall(r'aria-hidden="true"><span[^>]*>(.)</span>', html)) == {"○"}


def test_a_lesson_that_is_not_there_is_not_linked():
    from anglelib.workshop.so_far import Kept, so_far

    page = lesson.Ways(so_far(Kept()), {"00_start_here.ipynb"}, "")
    assert page._repr_html_().count("href=") == 2 and "05 Kerf and sanding allowance (to come)" in page._repr_html_()
