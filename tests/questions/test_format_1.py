"""Answers of the first format, which kept words: told by ids without loss, counted like yesterday, kept where nobody knows them.

The files in ``tests/data/answers_format_1`` were written by the last code of that format: on every page, every choice, every number
that a slip gives, and some others, each with the grade that it got then.
"""

import json
import re
from pathlib import Path

import pytest

from anglelib.lessons import make_part
from anglelib.questions.answer_file import parsed
from anglelib.questions.answers import Answer, AnswerBook
from anglelib.questions.format_1 import UNKNOWN, from_format_1
from anglelib.questions.format_1_words import CHOICES, OPERATIONS, QUESTION_IDS, SLIPS
from anglelib.questions.grading import grade
from anglelib.questions.slips import NAMES
from anglelib.workshop.lesson_questions import lesson_names
from anglelib.workshop.question_ids import ON_PAGES, is_asked
from anglelib.workshop.who_is_stuck import look
from tests.questions import graded

FILES = sorted(graded.KEPT.glob("*/answers/*.json"))
LESSON = "07_taper_inside"
OTHER_CHOICES = {"predict-the-vertex-part"}
"""Asked of readings whose limits have changed since: which slips are offered beside the right one follows from them."""
NOUGHT = {("floor-stiffener-end", "0")}
"""A slip's sum that happens to be 0 was named then; a typed 0 may come from anywhere."""

RECKONED_ANEW = {
    "longest-part", "predict-the-longest-part", "how-short", "predict-how-short", "longest-further-part",
    "predict-what-is-possible", "predict-the-cost",
}
"""A last cut took room for its kerf even before a dent or a trim; now it may run into what is lost in any case, and the right number is another."""


@pytest.fixture(scope="module")
def asked() -> dict:
    """Every question by lesson, id and number."""
    found = {(lesson, question.id, number): question for lesson, number, question in graded.questions()}
    part, shop = make_part.own_first(), make_part.Shop()
    own = make_part.ask.three_marks(part, shop, "own")
    return found | {("12_make_part", question.id, 0): question for question in own}


def rows(path: Path) -> list[dict]:
    return json.loads(path.read_text(encoding="utf-8"))["answers"]


def test_every_question_of_every_page_is_known_to_the_count(asked):
    """And nothing is that neither a page nor an answer of the first format has."""
    missing = {(lesson, id_) for lesson, id_, _ in asked if lesson in lesson_names() and not is_asked(lesson, id_)}
    assert missing == set()
    kept = {(path.stem, answer.question) for path in FILES for answer in (row.answer for row in parsed(path.read_text(encoding="utf-8"))[1])}
    listed = {(lesson, id_) for lesson, ids in ON_PAGES.items() for id_ in ids}
    assert listed <= kept | {(lesson, id_) for lesson, id_, _ in asked}


@pytest.mark.parametrize("path", [path for path in FILES if path.parts[-3] == "a"], ids=lambda path: path.stem)
def test_every_answer_is_told_by_ids_and_graded_like_yesterday(path, asked):
    """Another path to the same ids: the answer, told by ids, is given to the question as it is now.

    Its status is the one that was kept. Its slips are those that were kept, less those that lay beside the right one by chance.
    """
    fewer = 0
    for row in rows(path):
        answer, whole = from_format_1(path.stem, *(row[name] for name in ("question", "variant", "typed", "status", "mistake")))
        assert whole, row
        question = asked[path.stem, re.sub(r"^own-[0-9a-f]{8}-", "own-", answer.question), answer.variant]
        found = grade(question, answer.typed)
        if question.id in RECKONED_ANEW or question.id in OTHER_CHOICES and answer.typed not in question.words:
            continue
        if (question.id, answer.typed) in NOUGHT:
            assert (found.status, found.slips) == ("wrong", ()), row
            continue
        assert found.status == answer.status and set(found.slips) <= set(answer.slips) and bool(found.slips) == bool(answer.slips), row
        fewer += found.slips != answer.slips
    assert fewer <= 8


def test_the_count_is_that_of_yesterday():
    """Written by yesterday's count of the same files, in words."""
    yesterday = json.loads((graded.KEPT / "counted.json").read_text(encoding="utf-8"))
    found = look([graded.KEPT])
    assert found.trouble == () and found.learners == 2 and len(found.questions) == len(yesterday)

    def told(words: str) -> tuple[str, ...]:
        return from_format_1(LESSON, "07 project", 0, "1", "mistake", words)[0].slips

    def id_of(lesson: str, question: str) -> str:
        return from_format_1(lesson, question, 0, "1", "right", "")[0].question

    ours = {(q.lesson, q.question): (q.learners, q.right, q.tries, dict(q.slips)) for q in found.questions}
    for lesson, question, _, learners, right, tries, mistakes in yesterday:
        *numbers, slips = ours[lesson, id_of(lesson, question)]
        assert numbers == [learners, right, tries], question
        named = {told(words): n for words, n in mistakes if words != "another slip"}  # it knew the names of one lesson only
        assert named.items() <= slips.items() and (named == slips or len(named) < len(mistakes)), question


def test_the_table_is_of_ids_that_the_course_has():
    """Every id of yesterday's words is one of today's; where a word of the course is improved, the table stays as it is."""
    assert set(SLIPS.values()) <= set(NAMES)
    assert all(" " not in id_ for table in (QUESTION_IDS, SLIPS, OPERATIONS, *CHOICES.values()) for id_ in table.values())
    assert len(set(QUESTION_IDS.values())) == len(QUESTION_IDS)


# --- files ---------------------------------------------------------------------------------------------------
def old(*answers: dict, lesson: str = LESSON) -> str:
    """A file of the first format."""
    return json.dumps({"format": 1, "lesson": lesson, "answers": list(answers)})


ONE = {"question": "07 project", "variant": 0, "typed": "1/8", "status": "mistake", "mistake": "offset taken to be the thickness"}
TOLD = Answer("07-project", 0, "1/8", "mistake", ("offset-as-thickness",))


def saved_by_yesterdays_window(folder: Path, row: dict, lesson: str = LESSON) -> None:
    """As the code of the first format saved: added to the first file that it can read, else to a new one beside it."""
    for number in range(1, 9):
        path = folder / f"{lesson}{f'-{number}' if number > 1 else ''}.json"
        if not path.exists():
            path.write_text(old(row, lesson=lesson))
            return
        data = json.loads(path.read_text())
        if data["format"] == 1:
            path.write_text(old(*data["answers"], row, lesson=lesson))
            return


def test_a_file_is_read_as_it_is_and_written_by_ids_with_the_next_answer(tmp_path):
    path = tmp_path / f"{LESSON}.json"
    path.write_text(old(ONE))
    book = AnswerBook(LESSON, tmp_path)
    assert book.answers == (TOLD,) and json.loads(path.read_text())["format"] == 1  # to look is not to write
    assert book.add(Answer("07-project", 0, "13/64", "right")) == ""
    data = json.loads(path.read_text())
    told = {"question": "07-project", "variant": 0, "typed": "1/8", "status": "mistake", "slips": ["offset-as-thickness"]}
    assert data["format"] == 2 and data["answers"] == [told, {**told, "typed": "13/64", "status": "right", "slips": [], "at": data["answers"][-1]["at"]}]
    assert (tmp_path / f"{LESSON}.previous.json").read_text() == old(ONE)  # the file of yesterday is kept beside it
    assert AnswerBook(LESSON, tmp_path).answers == (TOLD, Answer("07-project", 0, "13/64", "right"))


@pytest.mark.parametrize(
    "row",
    [
        {**ONE, "question": "a question of long ago"},
        {**ONE, "mistake": "a slip of long ago"},
        {**ONE, "mistake": "offset taken to be the thickness or a slip of long ago"},
        {**ONE, "question": "predict the thickness", "typed": "a choice of long ago", "mistake": ""},
        {**ONE, "question": "order of work", "typed": "Square end 1 | Polish it", "mistake": ""},
        {**ONE, "question": "01 which section", "typed": "1/0 x 1 x 1"},
        {**ONE, "mistake": "offset taken to be the thickness or " * 400},
    ],
)
def test_what_nobody_knows_is_left_as_it_stands(tmp_path, row):
    path = tmp_path / f"{LESSON}.json"
    path.write_text(old(ONE, row))
    book = AnswerBook(LESSON, tmp_path)
    for n in range(2):
        assert book.add(Answer("07-project", n, "1", "wrong")) == ""
    kept = json.loads(path.read_text())["answers"]
    assert kept[1] == row and len(kept) == 4
    assert [answer.variant for answer in book.answers] == [0, 0, 0, 1]
    assert book.answers[1].slips in ((UNKNOWN,), (), ("offset-as-thickness",))


def test_an_answer_of_a_question_that_is_gone_is_kept_in_todays_format_too(tmp_path):
    row = {"question": "long-gone", "variant": 0, "typed": "heel", "status": "right", "slips": ["no-such-slip"], "note": "of another version"}
    (tmp_path / f"{LESSON}.json").write_text(json.dumps({"format": 2, "lesson": LESSON, "answers": [row]}))
    assert AnswerBook(LESSON, tmp_path).add(TOLD) == ""
    assert json.loads((tmp_path / f"{LESSON}.json").read_text())["answers"][0] == row


def test_a_window_of_yesterday_beside_one_of_today(tmp_path):
    """Both are open over noon; on the second day everything is there, each answer once, in its order."""
    for typed in ("1", "2"):
        saved_by_yesterdays_window(tmp_path, {**ONE, "typed": typed})
    today = AnswerBook(LESSON, tmp_path)
    assert today.add(Answer("07-project", 0, "3", "wrong")) == ""
    saved_by_yesterdays_window(tmp_path, {**ONE, "typed": "4"})  # it cannot read today's file: it begins one beside it
    assert (tmp_path / f"{LESSON}-2.json").exists() and today.latest("07-project", 0).typed == "4"
    assert today.add(Answer("07-project", 0, "5", "wrong")) == ""
    saved_by_yesterdays_window(tmp_path, {**ONE, "typed": "6"})
    for _ in range(2):
        tomorrow = AnswerBook(LESSON, tmp_path)
        assert [answer.typed for answer in tomorrow.answers] == list("123456")
    assert tomorrow.add(Answer("07-project", 0, "7", "right")) == ""
    assert [answer.typed for answer in AnswerBook(LESSON, tmp_path).answers] == list("1234567")
    found = look([tmp_path])  # the same file by file, counted once
    assert found.learners == 1 and [(q.tries, q.right) for q in found.questions] == [(7, 1)]


def test_a_stale_file_saved_back_is_read_and_added_to(tmp_path):
    path = tmp_path / f"{LESSON}.json"
    path.write_text(old(ONE))
    AnswerBook(LESSON, tmp_path).add(Answer("07-project", 0, "13/64", "right"))
    path.write_text(old(ONE))  # an editor that was open since yesterday
    book = AnswerBook(LESSON, tmp_path)
    assert book.answers == (TOLD,)
    assert book.add(Answer("07-project", 1, "1", "wrong")) == "" and len(book.answers) == 2
    assert (tmp_path / f"{LESSON}.previous.json").read_text() == old(ONE)


def test_a_spoiled_file_beside_one_of_yesterday(tmp_path):
    (tmp_path / f"{LESSON}.json").write_text("spoiled")
    (tmp_path / f"{LESSON}-2.json").write_text(old(ONE))
    book = AnswerBook(LESSON, tmp_path)
    assert book.answers == (TOLD,) and book.add(Answer("07-project", 1, "1", "wrong")) == ""
    assert (tmp_path / f"{LESSON}.json").read_text() == "spoiled" and len(book.answers) == 2
