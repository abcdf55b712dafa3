"""How far a learner is, from made-up folders of answers: none, some, all, spoiled, of the first format."""

import json
import os
import sys
from pathlib import Path

import pytest

from anglelib.questions.answer import Answer
from anglelib.questions.answers import AnswerBook
from anglelib.workshop.own_questions import OWN
from anglelib.workshop.question_ids import is_asked
from anglelib.workshop.so_far import BEGUN, DONE, NOT_BEGUN, Kept, kept, so_far
from anglelib.workshop.so_far_words import again_words, standing_words, unread_words

FIRST_FORMAT = Path(__file__).resolve().parents[1] / "data" / "answers_format_1"
LESSON = "07_taper_inside"


def given(folder: Path, lesson: str, *answers: Answer) -> None:
    book = AnswerBook(lesson, folder)
    for answer in answers:
        assert book.add(answer) == ""


def at(folder: Path, lesson: str, second: int) -> None:
    """A lesson's file as saved at that second."""
    os.utime(folder / f"{lesson}.json", (second, second))


def all_of(lesson: str, status: str = "right") -> list[Answer]:
    return [Answer(id, 0, "1", status) for id in OWN[lesson].asked]


@pytest.mark.parametrize("folder", ["absent", "empty"])
def test_without_answers_the_course_begins_at_its_first_lesson(tmp_path, folder):
    if folder == "empty":
        (tmp_path / folder).mkdir()
    found = so_far(kept(tmp_path / folder))
    assert (found.last, found.next, found.again, found.unread) == ("", "00_start_here", (), ())
    assert {standing.state for standing in found.lessons} == {NOT_BEGUN} and len(found.lessons) == 14


def test_some_answers(tmp_path):
    given(tmp_path, "00_start_here", *all_of("00_start_here"))
    wrong = Answer("07-project", 2, "1/8", "mistake", ("offset-as-thickness",))
    given(tmp_path, LESSON, Answer("07-project", 0, "13/64", "right"), wrong, Answer("predict-the-mark", 0, "1", "wrong"))
    given(tmp_path, LESSON, Answer("name-of-the-vertex", 0, "x", "right"), Answer("07-in-the-fillet", 0, "?", "unreadable"))
    at(tmp_path, "00_start_here", 2_000_000_000)
    at(tmp_path, LESSON, 1_000_000_000)
    found = so_far(kept(tmp_path))
    assert found.of("00_start_here").state == DONE and found.of("06_taper_outside").state == NOT_BEGUN
    assert (found.of(LESSON).state, found.of(LESSON).answered) == (BEGUN, 2), "what an earlier lesson asked, and what nobody can read, count"
    assert [(one.lesson, one.question, one.slips) for one in found.again] == [(LESSON, "07-project", ("offset-as-thickness",))]
    assert (found.last, found.next) == ("00_start_here", "01_identify_stock")
    at(tmp_path, LESSON, 2_000_000_001)
    found = so_far(kept(tmp_path))
    assert (found.last, found.next) == (LESSON, LESSON)
    given(tmp_path, LESSON, Answer("07-project", 2, "13/64", "right"))
    assert so_far(kept(tmp_path)).again == ()


def test_all_answers_and_a_lesson_that_was_left_out(tmp_path):
    for lesson in OWN:
        given(tmp_path, lesson, *all_of(lesson, "wrong" if lesson == LESSON else "right"))
    found = so_far(kept(tmp_path))
    assert {standing.state for standing in found.lessons} == {DONE} and found.next == ""
    assert {one.lesson for one in found.again} == {LESSON} and len(found.again) == len(OWN[LESSON].exercises)
    (tmp_path / "03_square_end.json").unlink()
    (tmp_path / "03_square_end.previous.json").unlink()
    assert so_far(kept(tmp_path)).next == "03_square_end"  # after the last lesson the first that is left


SPOILED = {
    "cut short": b'{"format": 2, "lesson": "07_taper_inside", "answers": [',
    "empty": b"",
    "no text": bytes(range(256)),
    "another lesson's": b'{"format": 2, "lesson": "01_identify_stock", "answers": []}',
    "another kind": b"[]",
    "a later format": b'{"format": 9, "lesson": "07_taper_inside", "answers": []}',
    "deep": b"[" * 100_000,
}


@pytest.mark.parametrize("how", SPOILED)
def test_a_spoiled_file_is_named_and_the_rest_is_counted(tmp_path, how):
    given(tmp_path, "00_start_here", *all_of("00_start_here"))
    (tmp_path / f"{LESSON}.json").write_bytes(SPOILED[how])
    given(tmp_path, LESSON, Answer("predict-the-mark", 0, "1", "right"))  # goes into a file beside it
    found = so_far(kept(tmp_path))
    assert found.unread == (f"{LESSON}.json",) and found.of("00_start_here").state == DONE and found.of(LESSON).answered == 1
    assert f"{LESSON}.json" in unread_words(found.unread) and unread_words(()) == ""


@pytest.mark.skipif(sys.platform == "win32", reason="a folder's rights are told otherwise there")
def test_odd_things_in_the_folder(tmp_path):
    (tmp_path / f"{LESSON}.json").mkdir()
    (tmp_path / "notes.json").write_text("{")
    (tmp_path / "01_identify_stock.json").symlink_to(tmp_path / "nowhere")
    (tmp_path / "00_start_here.txt").write_text("mine")
    assert kept(tmp_path).unread == ("01_identify_stock.json", f"{LESSON}.json")
    assert kept(tmp_path / "notes.json") == Kept()


@pytest.mark.parametrize("who", ["a", "b"])
def test_files_of_the_first_format(who):
    folder = FIRST_FORMAT / who / "answers"
    found = so_far(kept(folder))
    assert found.unread == () and found.last
    for path in folder.glob("*.json"):  # by another path: the ids of that time that are still own ones
        rows = json.loads(path.read_text(encoding="utf-8"))["answers"]
        assert (found.of(path.stem).answered > 0) is bool(rows), path.stem
        assert found.of(path.stem).answered <= len({row["question"] for row in rows})


def test_slips_that_the_course_does_not_have_are_not_said():
    found = so_far(Kept({LESSON: (Answer("07-project", 0, "1", "mistake", ("<b>me</b>",)),)}, LESSON))
    assert found.again[0].slips == () and again_words(found.again) == "one answer that was not right"


def test_a_question_that_was_put_back_is_answered_all_the_same():
    """A lesson that was done does not become undone by a second try."""
    given = (Answer("07-project", 0, "1/8", "mistake", ("offset-as-thickness",)), Answer("07-project", 0, "", "put-back"))
    found = so_far(Kept({LESSON: given}, LESSON))
    assert found.of(LESSON).answered == 1 and found.again[0].slips == ("offset-as-thickness",)


def test_a_lesson_that_is_not_in_the_course_is_no_place_to_go_on():
    assert so_far(Kept({}, "99_other")).last == ""


def test_every_own_question_is_known_to_the_count_of_a_class():
    assert [(lesson, id) for lesson, own in OWN.items() for id in own.asked if lesson[:2] != "13" and not is_asked(lesson, id)] == []
    assert all(len(set(own.asked)) == len(own.asked) for own in OWN.values())


def test_the_words_of_every_state():
    found = so_far(Kept({LESSON: (Answer("07-project", 0, "1", "right"),), "00_start_here": tuple(all_of("00_start_here"))}, LESSON))
    assert standing_words(found.of(LESSON)) == "1 of 10 answered" and standing_words(found.of("01_identify_stock")) == "not begun"
    assert standing_words(found.of("00_start_here")) == "done: all 16 answered"
    assert unread_words(("a.json", "b.json")).startswith("a.json and b.json in the folder answers cannot be read")
