"""Orders moved by buttons, and marks set on a drawing."""

from fractions import Fraction

import pytest

from anglelib.drawing.sheet import Label, Sheet
from anglelib.lessons.ask_mark import AskMark
from anglelib.lessons.ask_order import AskOrder
from anglelib.lessons.controls import FractionControl, fractions
from anglelib.questions.answers import Answer, AnswerBook
from anglelib.questions.question import Before, LengthQuestion, OrderQuestion, WrongAnswer

ITEMS = ("cut", "taper", "square")
ORDER = OrderQuestion("order", "Which order?", ITEMS, (Before("square", "cut", "No datum, no length."),))


@pytest.fixture
def book(tmp_path):
    return AnswerBook("08_order_of_work", tmp_path)


def draw(number, mark, revealed):
    return Sheet(60, 20, (Label(5, 5, f"{mark} {revealed}"),), "A rule", f"The mark stands at {mark}; right place shown: {revealed}.")


def mark(book) -> AskMark:
    ask = LengthQuestion("mark", "Set it to 5/8.", Fraction(5, 8), wrong=(WrongAnswer("slip", Fraction(1, 2), "Half is the slip."),))
    return AskMark(lambda n: ask, draw, lambda n: FractionControl("Mark (in.)", fractions("0", "1", "1/16"), Fraction(0)), book)


def test_a_row_moves_and_the_ends_hold(book):
    box = AskOrder(lambda n: ORDER, book)
    entry = box.entry
    entry.earlier.click()
    assert entry.value == ITEMS and book.answers == ()
    entry.listed.index = 2
    entry.later.click()
    assert entry.items == list(ITEMS)
    for _ in range(5):
        entry.earlier.click()
    assert entry.items == ["square", "cut", "taper"] and entry.listed.index == 0
    assert entry.listed.options[0] == "1  square"
    assert box.answer().right and [a.status for a in book.answers] == ["right"]


def test_an_order_is_restored(book):
    box = AskOrder(lambda n: ORDER, book)
    assert box.answer().status == "wrong"
    box.entry.listed.index = 0
    box.entry.later.click()
    box.answer()
    again = AskOrder(lambda n: ORDER, book)
    assert again.entry.items == ["taper", "cut", "square"] and len(book.answers) == 2
    assert "No datum, no length." in again.feedback.value


def test_a_mark_is_drawn_where_it_stands_and_graded_by_check(book):
    box = mark(book)
    box.entry.slider.value = 8
    assert "1/2 False" in box.picture.value and book.answers == ()
    assert box.answer().slips == ("slip",) and "Half is the slip." in box.feedback.value
    box.entry.entry.value = "5/8"
    assert "Half is the slip." not in box.feedback.value  # a moved mark is not graded yet
    assert box.answer().right and "5/8 True" in box.picture.value
    box.entry.entry.value = "7"
    assert "outside 0 to 1" in box.feedback.value


def test_a_mark_is_restored(book):
    box = mark(book)
    box.entry.slider.value = 10
    box.answer()
    again = mark(book)
    assert again.entry.value == Fraction(5, 8) and again.grade.right and len(book.answers) == 1
    assert "True" not in again.snapshot  # a saved page shows the question as it first stands


def test_an_answer_file_of_other_numbers_does_no_harm(book):
    AskOrder(lambda n: ORDER, book).answer()
    other = OrderQuestion("order", "Which order?", ("b", "a"), (Before("a", "b", "So."),))
    assert AskOrder(lambda n: other, book).grade is None


def test_forgetting_takes_two_presses_and_only_answers(book, tmp_path):
    from anglelib.lessons.forget import ASKED, ForgetAnswers

    AskOrder(lambda n: ORDER, book).answer()
    (tmp_path / "08_order_of_work-2.json").write_text("spoiled")
    (tmp_path / "room.txt").write_text("mine")
    box = ForgetAnswers(tmp_path)
    box.button.click()
    box.keep.click()
    assert len(book.answers) == 1 and box.button.description == ASKED and "kept" in box.words.value
    box.button.click()
    box.button.click()
    assert book.answers == () and [path.name for path in tmp_path.iterdir() if path.suffix != ".lock"] == ["room.txt"]
    assert "answers of 1 lesson." in box.words.value
    box.button.click()
    assert "nothing to forget" in box.words.value and box.button.description == ASKED


def forgetful(folder):
    """Three lessons with answers, and the box that forgets."""
    from anglelib.lessons.forget import ForgetAnswers

    books = {lesson: AnswerBook(lesson, folder) for lesson in ("00_start_here", "07_taper_inside", "08_order_of_work")}
    for lesson, book in books.items():
        for n in range(2):
            book.add(Answer(f"{lesson[:2]}-asked", n, "1/8", "right"))
    return books, ForgetAnswers(folder)


def test_one_lesson_is_forgotten_said_before_and_put_back_whole(tmp_path):
    books, box = forgetful(tmp_path)
    before = (tmp_path / "07_taper_inside.json").read_text()
    box.which.value = "07_taper_inside"
    box.button.click()
    assert "the answers of 1 lesson in your folder, 2 answers" in box.words.value and "other lessons keep theirs" in box.words.value
    assert len(books["07_taper_inside"].answers) == 2
    box.button.click()
    assert {lesson: len(book.answers) for lesson, book in books.items()} == {"00_start_here": 2, "07_taper_inside": 0, "08_order_of_work": 2}
    assert not list(tmp_path.glob("07*.json")) and box.back.layout.display == ""
    books["07_taper_inside"].add(Answer("since", 0, "1", "wrong"))
    box.back.click()
    assert [a.question for a in books["07_taper_inside"].answers] == ["07-asked", "07-asked", "since"] and "are back" in box.words.value
    assert before.splitlines()[1] in (tmp_path / "07_taper_inside.json").read_text()  # with the moment of each
    assert box.back.layout.display == "none"


def test_all_lessons_are_forgotten_and_put_back(tmp_path):
    books, box = forgetful(tmp_path)
    box.button.click()
    assert "the answers of 3 lessons in your folder, 6 answers" in box.words.value
    box.button.click()
    assert not any(book.answers for book in books.values())
    box.back.click()
    assert all(len(book.answers) == 2 for book in books.values())


def test_another_lesson_is_not_forgotten_by_a_press_that_was_meant_for_the_first(tmp_path):
    books, box = forgetful(tmp_path)
    box.which.value = "00_start_here"
    box.button.click()
    box.which.value = "08_order_of_work"
    box.button.click()
    assert all(len(book.answers) == 2 for book in books.values()) and "08" not in box.words.value


def test_what_cannot_be_put_back_is_said_and_offered_again(tmp_path, monkeypatch):
    from anglelib.errors import StorageError

    books, box = forgetful(tmp_path)
    box.button.click()
    box.button.click()

    def full(*_args, **_kwargs):
        raise StorageError("the disk is full.")

    with monkeypatch.context() as patch:
        patch.setattr("anglelib.questions.answers.write_text", full)
        patch.setattr("anglelib.questions.answers.PATIENCE", 0.01)
        box.back.click()
    assert "the disk is full" in box.words.value and box.back.layout.display == ""
    box.back.click()
    assert all(len(book.answers) == 2 for book in books.values())


def test_the_room_is_kept_in_the_learners_folder(tmp_path):
    from anglelib.lessons.room import NAME, Room

    Room(tmp_path).theme = "projector"
    assert Room(tmp_path).theme == "projector" and Room().theme == "screen"
    for spoiled in ("", "[]", '{"theme": "cinema"}'):
        (tmp_path / NAME).write_text(spoiled)
        assert Room(tmp_path).theme == "screen"
    Room(tmp_path / "not" / "there").theme = "projector"  # nothing to keep it in: no harm
