"""Answers deleted and taken back, put back for another try, kept in a page's memory, joined from several windows; and moments as text."""

from __future__ import annotations

import json
from datetime import UTC, datetime, timedelta, timezone

import pytest

from anglelib.errors import StorageError
from anglelib.questions import answers, moments, on_the_page
from anglelib.questions.answer import PUT_BACK, Answer
from anglelib.questions.answer_file import joined, parsed, rendered, row_of
from anglelib.questions.answers import AnswerBook, Forgotten, forget, kept_of, take_back

ONE, OTHER = "07_taper_inside", "08_order_of_work"


def answer(n: int, lesson: str = "", status: str = "wrong") -> Answer:
    return Answer(f"{lesson}vertex", n, f"{n}/64", status, at="2026-11-30T23:30:00Z")


@pytest.fixture
def folder(tmp_path):
    """Two lessons with two answers each, so that previous versions lie there too."""
    for lesson in (ONE, OTHER):
        for n in range(2):
            assert AnswerBook(lesson, tmp_path).add(answer(n)) == ""
    (tmp_path / "note.json").write_text("{}")
    (tmp_path / "README.txt").write_text("mine")
    return tmp_path


def test_files_are_found_by_their_lesson(folder):
    (folder / f"{ONE}-2.json").write_text("spoiled")
    (folder / "UPPER.json").write_text("{}")
    found = kept_of(folder)
    assert {name: [path.name for path in paths] for name, paths in found.items()} == {
        ONE: [f"{ONE}-2.json", f"{ONE}.json", f"{ONE}.previous.json"], OTHER: [f"{OTHER}.json", f"{OTHER}.previous.json"], "note": ["note.json"],
    }  # fmt: skip


def test_one_lesson_is_forgotten_and_taken_back_before_what_came_since(folder):
    gone = forget(folder, ONE)
    assert gone.trouble == "" and set(gone.rows) == {ONE} and [row.answer for row in gone.rows[ONE]] == [answer(0), answer(1)]
    assert kept_of(folder).keys() == {OTHER, "note"} and len(AnswerBook(OTHER, folder).answers) == 2
    AnswerBook(ONE, folder).add(answer(9))
    assert take_back(folder, gone) == ""
    assert AnswerBook(ONE, folder).answers == (answer(0), answer(1), answer(9))
    assert take_back(folder, gone) == "" and len(AnswerBook(ONE, folder).answers) == 3  # nothing twice
    assert take_back(folder, Forgotten({ONE: ()})) == ""


def test_all_lessons_are_forgotten(folder):
    gone = forget(folder)
    assert {lesson: len(rows) for lesson, rows in gone.rows.items()} == {ONE: 2, OTHER: 2, "note": 0}
    assert sorted(path.name for path in folder.iterdir()) == ["README.txt"]


def test_what_cannot_be_deleted_is_said(folder, monkeypatch):
    from pathlib import Path

    real = Path.unlink
    monkeypatch.setattr(Path, "unlink", lambda self, *a: (_ for _ in ()).throw(OSError()) if self.name == f"{ONE}.json" else real(self, *a))
    gone = forget(folder, ONE)
    assert gone.trouble.startswith(f"{ONE}.json could not be deleted") and (folder / f"{ONE}.json").exists() and len(gone.rows[ONE]) == 2


def test_a_question_that_was_put_back_waits_for_an_answer(tmp_path):
    book = AnswerBook(ONE, tmp_path)
    for one in (answer(0), answer(1), answer(0, status=PUT_BACK)):
        book.add(one)
    assert book.latest("vertex", 0) is None and book.latest("vertex", 1) == answer(1) and book.latest("toe", 1) is None
    book.add(answer(0, status="right"))
    assert book.latest("vertex", 0).status == "right" and len(book.answers) == 4


def test_an_answer_is_kept_with_its_moment(tmp_path):
    book = AnswerBook(ONE, tmp_path)
    before = datetime.now(UTC).replace(microsecond=0)
    book.add(Answer("vertex", 0, "1", "wrong"))
    book.add(answer(1))
    at = [row["at"] for row in json.loads((tmp_path / f"{ONE}.json").read_text())["answers"]]
    assert before <= moments.read(at[0]) <= datetime.now(UTC) and at[1] == "2026-11-30T23:30:00Z"
    assert moments.written(datetime(2026, 12, 1, 1, 30, 5, 999999, tzinfo=timezone(timedelta(hours=2)))) == "2026-11-30T23:30:05Z"
    assert moments.read("2026-11-30T23:30:05Z") == datetime(2026, 11, 30, 23, 30, 5, tzinfo=UTC)
    assert [moments.read(text) for text in ("2026-11-30T23:30:05", "noonZ", "")] == [None] * 3 and moments.now().tzinfo is not None


# --- a visitor's page ---------------------------------------------------------------------------------------------
@pytest.fixture
def page(monkeypatch):
    monkeypatch.setattr(answers, "visiting", lambda: True)
    monkeypatch.setattr(on_the_page, "ROWS", {})


def test_a_visitor_s_answers_are_in_no_file(page, tmp_path):
    for lesson in (ONE, OTHER):
        assert AnswerBook(lesson, tmp_path).add(answer(0)) == AnswerBook(lesson, tmp_path).add(answer(1)) == ""
    assert list(tmp_path.iterdir()) == [] and AnswerBook(ONE, tmp_path).answers == (answer(0), answer(1))
    assert kept_of(tmp_path) == {ONE: [], OTHER: []}
    gone = forget(tmp_path, ONE)
    assert [row.answer for row in gone.rows[ONE]] == [answer(0), answer(1)] and AnswerBook(ONE, tmp_path).answers == () and len(AnswerBook(OTHER, tmp_path).answers) == 2
    take_back(tmp_path, gone)
    assert AnswerBook(ONE, tmp_path).answers == (answer(0), answer(1)) and set(forget(tmp_path).rows) == {ONE, OTHER} and kept_of(tmp_path) == {}


# --- files ----------------------------------------------------------------------------------------------------------
def test_what_several_windows_saved_is_joined_and_nothing_of_it_twice():
    a, b, c = (row_of(answer(n)) for n in range(3))
    assert joined([[a, b], [b, c], [a, a, c]]) == (a, b, c, a)  # a was there once: given twice later, the second one is new
    assert joined([]) == () and joined([[a, a]]) == (a, a)


def test_a_file_is_read_up_to_so_many_rows():
    text = rendered(ONE, [row_of(answer(n)) for n in range(5)])
    assert [len(parsed(text, most)[1]) for most in (None, 0, 2, 9)] == [5, 0, 2, 5] and parsed(text)[0] == ONE
    assert [row.answer for row in parsed(text)[1]] == [answer(n) for n in range(5)] and text.endswith("]}\n") and text.count("\n") == 7


GOOD = {"question": "vertex", "variant": 0, "typed": "1", "status": "right", "slips": []}


@pytest.mark.parametrize("change", [{"variant": True}, {"variant": "0"}, {"question": 1}, {"status": None}, {"typed": 1}, {"typed": ["a", 1]}, {"slips": "M01"}, {"slips": [1]}, {"typed": "\ud800"}])
def test_a_row_that_is_none_spoils_its_file(change):
    with pytest.raises(ValueError, match="no answers to a lesson"):
        parsed(json.dumps({"format": 2, "lesson": ONE, "answers": [GOOD | change]}))


@pytest.mark.parametrize(("format_", "lesson", "rows"), [(0, ONE, []), (3, ONE, []), (2, 7, []), (2, ONE, {}), (None, ONE, [])])
def test_a_head_that_is_none_spoils_its_file(format_, lesson, rows):
    with pytest.raises(ValueError, match="no answers to a lesson"):
        parsed(json.dumps({"format": format_, "lesson": lesson, "answers": rows}))


def test_rows_as_they_may_be():
    rows = [GOOD, GOOD | {"typed": ["a", "b"], "slips": ["M01", "M02"]}, GOOD | {"at": 5}, GOOD | {"at": "then"}]
    found = [row.answer for row in parsed(json.dumps({"format": 2, "lesson": ONE, "answers": rows}))[1]]
    assert [one.typed for one in found] == ["1", ("a", "b"), "1", "1"] and [one.at for one in found] == ["", "", "", "then"] and found[1].slips == ("M01", "M02")
    old = {"question": "07 project", "variant": 0, "typed": "1/8", "status": "right"}
    assert parsed(json.dumps({"format": 1, "lesson": ONE, "answers": [old]}))[1][0].answer == Answer("07-project", 0, "1/8", "right")
    for wrong in ({"typed": 5}, {"mistake": 3}):
        with pytest.raises(ValueError):
            parsed(json.dumps({"format": 1, "lesson": ONE, "answers": [old | wrong]}))


def test_as_many_spoiled_files_as_there_may_be(tmp_path, monkeypatch):
    """All of them spoiled: nothing is written over, and it is said."""
    monkeypatch.setattr(answers, "MOST_FILES", 4)
    for name in (f"{ONE}.json", f"{ONE}-2.json"):
        (tmp_path / name).write_text("spoiled")
    book = AnswerBook(ONE, tmp_path)
    assert book.rows == () and book.unread == (f"{ONE}.json", f"{ONE}-2.json") and book.add(answer(1)) == "" and (tmp_path / f"{ONE}-3.json").exists()
    (tmp_path / f"{ONE}-3.json").write_text("spoiled")
    with pytest.raises(StorageError, match="None of the answer files"):
        assert book.rows
    monkeypatch.setattr(answers, "PATIENCE", 0.01)
    assert book.answers == () and book.add(answer(2)).startswith("Your answer is not kept. None of the answer files")
