"""Who is stuck: counts by hand against the program's, spoiled files of every kind, links and huge files refused, no name shown."""

import json
import os
from pathlib import Path

import pytest

from anglelib.errors import BenchError
from anglelib.lessons.contents import BESIDE, LESSONS
from anglelib.questions.answers import Answer, AnswerBook
from anglelib.workshop import stuck_command
from anglelib.workshop.lesson_questions import MODULES, find_question, lesson_names
from anglelib.workshop.who_is_stuck import MOST_FILES, look

LESSON = "07_taper_inside"


def share(folder: Path) -> Path:
    """Three learners: two with the same mistake of whom one got it right later, one right at once; another lesson beside it."""
    for name, given in {
        "anna": [("1/8", "mistake", ("offset-as-thickness",)), ("13/64", "right", ())],
        "bert": [("1/8", "mistake", ("offset-as-thickness",)), ("1", "wrong", ())],
        "cleo": [("13/64", "right", ())],
    }.items():
        book = AnswerBook(LESSON, folder / name / "answers")
        for typed, status, slips in given:
            assert book.add(Answer("predict-the-mark", 0, typed, status, slips)) == ""
    assert AnswerBook("05_kerf_and_allowance", folder / "bert" / "answers").add(Answer("blank", 0, "x", "unreadable")) == ""
    return folder


def test_counts_are_those_of_the_files(tmp_path):
    found = look([share(tmp_path)])
    assert (found.learners, len(found.questions), found.trouble) == (3, 2, ())
    mark = next(q for q in found.questions if q.question == "predict-the-mark")
    assert (mark.learners, mark.right, mark.stuck, mark.tries) == (3, 2, 1, 5)
    assert mark.slips == ((("offset-as-thickness",), 2),) and mark.mistakes == (("offset taken to be the thickness", 2),)
    assert found.most_frequent == mark and "1/8" not in found.sentence


def test_a_question_that_was_put_back_counts_as_it_was_answered(tmp_path):
    before = look([share(tmp_path)])
    AnswerBook(LESSON, tmp_path / "cleo" / "answers").add(Answer("predict-the-mark", 0, "", "put-back"))
    assert look([tmp_path]) == before


def test_a_folder_named_twice_counts_once(tmp_path):
    share(tmp_path)
    assert look([tmp_path, tmp_path / "anna", tmp_path / "bert" / "answers"]).questions == look([tmp_path]).questions


def test_nobody_is_named_and_nothing_graded(tmp_path, capsys):
    assert stuck_command.main([str(share(tmp_path))]) == 0
    out = capsys.readouterr().out
    assert not any(name in out for name in ("anna", "bert", "cleo", str(tmp_path)))
    assert "2 x offset taken to be the thickness" in out and "2 of 3 have it right" in out
    assert "grade" not in out and "%" not in out and "To say to the class" in out


def test_invented_questions_are_counted_apart_in_one_line(tmp_path, capsys):
    share(tmp_path)
    before = look([tmp_path])
    for n in range(3):
        book = AnswerBook(LESSON, tmp_path / "dora" / "answers")
        book.add(Answer(f"invented-{n}", 0, "1", "mistake", ("offset-as-thickness",)))
    AnswerBook("13_behind_the_pictures", tmp_path / "dora" / "answers").add(Answer("07-project", 0, "1", "right"))  # another lesson's
    found = look([tmp_path])
    assert found.questions == before.questions and found.strange == 4 and before.strange == 0
    assert stuck_command.main([str(tmp_path), "--all"]) == 0
    out = capsys.readouterr().out
    assert out.count("4 answers to questions that are not in the course.") == 1 and "invented" not in out
    assert look([tmp_path / "dora"]).sentence == "No answers yet."


SPOILED = {
    "no JSON": b"{", "another format": b'{"format": 9, "lesson": "07_taper_inside", "answers": []}', "a list": b"[1, 2]",
    "unknown lesson": b'{"format": 1, "lesson": "../../etc", "answers": []}', "not UTF-8": b"\xff\xfe\x00", "empty": b"",
    "answers of another kind": b'{"format": 1, "lesson": "07_taper_inside", "answers": [{"question": 3}]}',
    "very deep": b"[" * 100_000, "huge": b" " * 1_000_001, "a number": b"7", "null": b"null",
}  # fmt: skip


@pytest.mark.parametrize("kind", SPOILED)
def test_a_spoiled_file_is_told_and_stops_nothing(kind, tmp_path, capsys):
    share(tmp_path)
    whole = look([tmp_path])
    (tmp_path / "dora" / "answers").mkdir(parents=True)
    (tmp_path / "dora" / "answers" / f"{LESSON}.json").write_bytes(SPOILED[kind])
    found = look([tmp_path])
    assert found.questions == whole.questions and len(found.trouble) == 1 and "left out" in found.trouble[0]
    assert stuck_command.main([str(tmp_path)]) == 0
    shown = capsys.readouterr()
    assert "dora" in shown.err and "dora" not in shown.out


@pytest.mark.skipif(os.name != "posix", reason="symbolic links and pipes as here")
def test_links_and_pipes_are_not_followed(tmp_path):
    inside, outside = tmp_path / "class", tmp_path / "outside"
    share(inside)
    share(outside)
    whole = look([inside])
    (inside / "dora" / "answers").mkdir(parents=True)
    (inside / "dora" / "answers" / f"{LESSON}.json").symlink_to(outside / "anna" / "answers" / f"{LESSON}.json")
    (inside / "eve").symlink_to(outside)
    (inside / "eve2" / "answers").parent.mkdir()
    (inside / "eve2" / "answers").symlink_to(outside / "bert" / "answers")
    (inside / "fred" / "answers").mkdir(parents=True)
    os.mkfifo(inside / "fred" / "answers" / f"{LESSON}.json")
    found = look([inside])
    assert found.questions == whole.questions and found.learners == 3
    assert any("symbolic link" in t for t in found.trouble) and any("not an ordinary file" in t for t in found.trouble)
    with pytest.raises(BenchError, match="symbolic link"):
        look([inside / "eve"])


def test_other_files_are_left_alone(tmp_path):
    share(tmp_path)
    whole = look([tmp_path])
    for name in ("room.json", "notes.txt", f"{LESSON}.previous.json", "package.json"):
        (tmp_path / "anna" / "answers" / name).write_text("{")
    (tmp_path / "anna" / ".git").mkdir()
    assert look([tmp_path]) == whole
    # a second file of a lesson, begun because the first could not be read, counts as the same learner's
    AnswerBook(LESSON, tmp_path / "gus" / "answers").add(Answer("predict-the-mark", 0, "1/4", "wrong"))
    first = tmp_path / "gus" / "answers" / f"{LESSON}.json"
    first.rename(first.with_name(f"{LESSON}-2.json"))
    assert look([tmp_path]).learners == 4


def test_what_a_learner_wrote_cannot_break_out(tmp_path):
    (tmp_path / "answers").mkdir()
    row = {"question": "q\n\x1b[31m" + "x" * 5000, "variant": 0, "typed": "\u202e", "status": "wrong", "mistake": "<b>"}
    (tmp_path / "answers" / f"{LESSON}.json").write_text(json.dumps({"format": 1, "lesson": LESSON, "answers": [row]}))
    said = "\n".join(stuck_command.lines(look([tmp_path])))
    assert "\x1b" not in said and len(said) < 2000


@pytest.mark.parametrize(("name", "says"), [("nowhere", "no folder"), ("file.txt", "no folder")])
def test_a_folder_that_is_none(name, says, tmp_path):
    (tmp_path / "file.txt").write_text("")
    with pytest.raises(BenchError, match=says):
        look([tmp_path / name])
    with pytest.raises(BenchError, match="Name the folder"):
        look([])


def test_an_empty_share(tmp_path):
    assert look([tmp_path]).sentence == "No answers yet." and MOST_FILES > 1000


def test_every_lesson_is_known_by_the_name_in_its_answer_files():
    here = {lesson.file.removesuffix(".ipynb") for lesson in LESSONS}
    assert here <= set(lesson_names()) and set(MODULES) <= here
    assert set(lesson_names()) <= here | {lesson.stem for lesson in BESIDE}
    assert find_question(LESSON, "07-project", 3).prompt != find_question(LESSON, "07-project", 0).prompt


def test_a_learners_file_puts_no_words_of_its_own_on_the_projector(tmp_path):
    book = AnswerBook("07_taper_inside", tmp_path / "one" / "answers")
    book.add(Answer("Somebody Else is slow", 0, "x", "mistake", ("Somebody Else made this",)))
    book.add(Answer("07-project", 0, "x", "mistake", ("offset-as-thickness", "Somebody")))
    book.add(Answer("07-project", 0, "x", "mistake", ("offset-as-thickness", "M12")))
    found = look([tmp_path])
    shown = " ".join([found.sentence, found.to_say, *(f"{q.prompt} {q.mistakes} {q.to_say}" for q in found.questions)])
    assert "Somebody" not in shown and "another slip" in shown
    assert ("offset taken to be the thickness or inside line aimed at the inside corner", 1) in [m for q in found.questions for m in q.mistakes]
