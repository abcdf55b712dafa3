"""Answers are never lost: two windows, spoiled files, folders that cannot be written."""

import json
import multiprocessing
from pathlib import Path

import pytest
from patience import PATIENCE

from anglelib.errors import AnswerError, StorageError
from anglelib.questions.answers import Answer, AnswerBook, home

LESSON = "07_taper_inside"


def answer(n: int) -> Answer:
    return Answer("vertex", n, f"{n}/64", "wrong")


def test_what_was_written_is_read_back(tmp_path):
    book = AnswerBook(LESSON, tmp_path)
    for n in range(3):
        assert book.add(answer(n)) == ""
    assert AnswerBook(LESSON, tmp_path).answers == tuple(answer(n) for n in range(3))
    assert book.latest("vertex", 1) == answer(1) and book.latest("vertex", 9) is None


def test_the_last_answer_counts(tmp_path):
    book = AnswerBook(LESSON, tmp_path)
    book.add(answer(0))
    book.add(Answer("vertex", 0, "13/64", "right"))
    assert book.latest("vertex", 0).typed == "13/64" and len(book.answers) == 2


def _write_many(folder: str, first: int) -> None:
    book = AnswerBook(LESSON, folder)
    for n in range(first, first + 15):
        if book.add(answer(n)):
            raise SystemExit(1)


def test_two_windows_lose_nothing(tmp_path):
    context = multiprocessing.get_context("spawn")
    writers = [context.Process(target=_write_many, args=(str(tmp_path), first)) for first in (0, 100)]
    for writer in writers:
        writer.start()
    for writer in writers:
        writer.join(PATIENCE)
    assert [writer.exitcode for writer in writers] == [0, 0]
    found = AnswerBook(LESSON, tmp_path).answers
    assert sorted(a.variant for a in found) == [*range(15), *range(100, 115)]


@pytest.mark.parametrize(
    "text", ["", "not json", "[]", '{"format": 1}', '{"format": 3, "lesson": "07_taper_inside", "answers": []}', "[" * 5000,
             '{"format": 1, "lesson": "07_taper_inside", "answers": [{"question": 3}]}', '{"format": 1, "lesson": "08", "answers": []}'],
)  # fmt: skip
def test_a_spoiled_file_is_left_and_another_begun(tmp_path, text):
    spoiled = tmp_path / f"{LESSON}.json"
    spoiled.write_text(text)
    book = AnswerBook(LESSON, tmp_path)
    assert book.answers == ()
    assert book.add(answer(1)) == ""
    assert spoiled.read_text() == text
    assert book.answers == (answer(1),) and (tmp_path / f"{LESSON}-2.json").exists()


def test_the_file_is_plain_json_a_line_an_answer(tmp_path):
    book = AnswerBook(LESSON, tmp_path)
    book.add(Answer("vertex", 0, '"><img src=x> ⅝', "unreadable"))
    text = (tmp_path / f"{LESSON}.json").read_text(encoding="utf-8")
    assert json.loads(text)["answers"][0]["typed"] == '"><img src=x> ⅝'
    assert len(text.splitlines()) == 3


def test_what_cannot_be_written_is_said(tmp_path, monkeypatch):
    def full(*_args, **_kwargs):
        raise StorageError("07_taper_inside.json could not be saved: the disk is full. The old file is untouched.")

    monkeypatch.setattr("anglelib.questions.answers.write_text", full)
    monkeypatch.setattr("anglelib.questions.answers.PATIENCE", 0.05)
    said = AnswerBook(LESSON, tmp_path).add(answer(0))
    assert said.startswith("Your answer is not kept.") and "the disk is full" in said


def test_a_file_where_the_folder_should_be(tmp_path):
    (tmp_path / "answers").write_text("in the way")
    said = AnswerBook(LESSON, tmp_path / "answers").add(answer(0))
    assert said == "Your answer is not kept: the folder answers cannot be made here."


def test_the_learner_s_folder(monkeypatch, tmp_path):
    monkeypatch.setenv("ANGLELIB_HOME", str(tmp_path))
    assert home() == tmp_path and AnswerBook(LESSON).folder == tmp_path / "answers"
    monkeypatch.delenv("ANGLELIB_HOME")
    assert AnswerBook(LESSON).folder == Path("answers")


def test_a_lesson_s_name_is_a_file_name():
    with pytest.raises(AnswerError, match="cannot be used"):
        AnswerBook("../07")
