"""What is not made on a visitor's page, in this Python: boxes for paths, Open, Save and Pack; and where its answers go."""

import pytest

from anglelib.lessons import environment
from anglelib.lessons.contents import Contents
from anglelib.lessons.forget import ForgetAnswers
from anglelib.lessons.not_here import WORDS
from anglelib.questions.answers import Answer, AnswerBook
from anglelib.questions.on_the_page import ROWS


@pytest.fixture
def as_visitor(monkeypatch, tmp_path):
    monkeypatch.setenv("ANGLELIB_VISITOR", "1")
    monkeypatch.setenv("ANGLELIB_HOME", str(tmp_path))
    yield tmp_path
    ROWS.clear()


def every(widget):
    yield widget
    for one in getattr(widget, "children", ()):
        yield from every(one)


def entries(*boxes) -> set[str]:
    """What can be typed or pressed in boxes, by its label."""
    return {getattr(one, "description", "") for box in boxes for one in every(box) if hasattr(one, "value") or hasattr(one, "presses")} - {""}


FILES = {"Job file", "Rack file", "Open", "Or a job file", "Your rack", "Save to", "Folder", "Save this variant", "Save this part", "Make the shop pack", "Replace a part of the same id"}


def boxes():
    from anglelib.lessons import builders_bench, check_and_diagnose, make_part

    bench, work = builders_bench.Bench(), make_part.Work()
    return (bench.source, bench.what_if, bench.compare, bench.saving, bench.packing, work.describe, work.everything, work.saving, work.packing,
            check_and_diagnose.own())  # fmt: skip


def test_no_box_for_a_path_is_made(as_visitor):
    made = boxes()
    assert not entries(*made) & FILES and len(entries(*made)) > 30
    assert sum(WORDS in one.value for box in made for one in every(box) if type(getattr(one, "value", None)) is str) == 4


def test_the_owner_has_them_all():
    assert entries(*boxes()) >= FILES


def test_answers_stay_in_memory_and_are_forgotten(as_visitor):
    book = AnswerBook("07_taper_inside")
    assert book.add(Answer("vertex", 0, "7/32", "right")) == "" and AnswerBook("07_taper_inside").latest("vertex", 0).typed == "7/32"
    assert AnswerBook("06_taper_outside").answers == () and list(as_visitor.iterdir()) == []
    box = ForgetAnswers()
    box.button.click()
    box.button.click()
    assert AnswerBook("07_taper_inside").latest("vertex", 0) is None and "1 lesson" in box.words.value
    assert list(as_visitor.iterdir()) == []


def test_the_page_says_that_they_stay_there(as_visitor, monkeypatch):
    assert "stay on this page" in environment.check(find=lambda module: module).sentence
    monkeypatch.delenv("ANGLELIB_VISITOR")
    assert "can be kept" in environment.check(find=lambda module: module).sentence


def test_the_instructors_page_is_not_listed(as_visitor, monkeypatch):
    assert "instructor" not in repr(Contents((), {})).lower()
    monkeypatch.delenv("ANGLELIB_VISITOR")
    assert "instructor" in repr(Contents((), {})).lower()
