"""Questions as widgets: what is said, what is kept, and that a prediction seals itself."""

import threading
import time
from fractions import Fraction

import pytest

from anglelib.lessons import ask
from anglelib.lessons.ask import Ask, Predict, Questions
from anglelib.lessons.controls import PressButton
from anglelib.questions import taper_inside as questions
from anglelib.questions.answers import Answer, AnswerBook
from anglelib.questions.fresh import fresh_part
from anglelib.questions.question import ChoiceQuestion, LengthQuestion, WrongAnswer

LESSON = "07_taper_inside"
PROJECT = questions.EXERCISES["project"]
CHOICE_AGAIN = ChoiceQuestion("again", "Which?", {"a": "this", "b": "that"}, "a", wrong=(WrongAnswer("M07", "b", "No."),))


@pytest.fixture
def book(tmp_path):
    return AnswerBook(LESSON, tmp_path)


def asked(book, **how) -> Ask:
    return Ask(PROJECT.__getitem__, book, **how)


def test_blank_is_not_answered_yet(book):
    box = asked(book)
    assert box.answer().status == "blank" and "Not answered yet." in box.feedback.value and book.answers == ()


def test_typing_is_answering(book):
    box = asked(book)
    box.entry.value = box.question.answer_text.removeprefix("about ").split(" (")[0]
    assert box.grade.right and "✓" in box.feedback.value
    assert "inches along the heel for each inch of height" in box.feedback.value  # the working follows


@pytest.mark.parametrize("number", range(3))
def test_every_mistake_is_named_on_the_page(book, number):
    box = asked(book)
    for _ in range(number):
        box.other.click()
    for wrong in box.question.wrong:
        box.entry.value = f"{float(wrong.answer):.6f}"
        assert box.grade.status == "mistake" and "✗" in box.feedback.value
        assert wrong.sentence.split(".")[0][:30] in box.feedback.value.replace("&#39;", "'")


def test_enter_and_then_check_is_one_answer(book):
    box = asked(book)
    box.entry.value = "3/16"
    box.check.click()
    box.entry.value = "1/4"
    assert [a.typed for a in book.answers] == ["3/16", "1/4"]


def test_two_messages_at_once_are_handled_in_turn(book, monkeypatch):
    """JupyterLab delivers the entry's message and the button's on two threads of the kernel."""
    box, add = asked(book), book.add

    def slowly(answer):
        time.sleep(0.05)
        return add(answer)

    monkeypatch.setattr(book, "add", slowly)
    box.entry.unobserve_all("value")
    box.entry.value = "3/16"
    threads = [threading.Thread(target=box.answer) for _ in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert [a.typed for a in book.answers] == ["3/16"]


def test_other_numbers_are_another_question_with_an_empty_entry(book):
    box = asked(book, fresh=True)
    first, prompts = box.question, set()
    box.entry.value = "3/16"
    for _ in range(10):
        box.other.click()
        prompts.add(box.question.prompt)
        assert box.entry.value == "" and box.grade is None and "Understood" not in box.feedback.value
    assert len(prompts) == 10 and first.prompt not in prompts
    box.entry.value = "1/2"
    assert book.latest(first.id, 10).typed == "1/2"


def test_hints_go_step_by_step_to_the_answer(book):
    box = asked(book)
    said = []
    for _ in range(5):
        box.hint.click()
        said.append(box.feedback.value)
    assert ["Hint 1 of 3" in said[0], "Hint 3 of 3" in said[2], box.question.answer_text in said[3], said[3] == said[4]] == [True] * 4


def test_an_answer_of_yesterday_stands_there_today_and_is_not_kept_twice(book):
    asked(book).entry.value = "3/16"
    again = asked(AnswerBook(LESSON, book.folder))
    assert again.entry.value == "3/16" and again.grade.slips == ("offset-as-thickness",)
    assert len(book.answers) == 1


def test_an_answer_that_cannot_be_kept_is_graded_all_the_same(tmp_path):
    (tmp_path / "answers").write_text("in the way")
    box = asked(AnswerBook(LESSON, tmp_path / "answers"))
    box.entry.value = "3/16"
    assert box.grade.status == "mistake" and "Your answer is not kept" in box.feedback.value


def test_what_is_typed_is_never_markup(book):
    box = asked(book)
    box.entry.value = "<img src=x onerror=alert(1)>"
    assert "<img" not in box.feedback.value and "&lt;img" in box.feedback.value


def test_a_name_in_a_prompt_is_never_markup(book):
    question = LengthQuestion("x", '"><img src=x onerror=alert(1)>', Fraction(1), working="<b>")
    box = Ask(lambda n: question, book)
    for html in (box.prompt.value, box.snapshot):
        assert "<img" not in html and "<b>&lt;b&gt;" not in html and "&quot;&gt;&lt;img" in html


def test_changes_are_said_aloud(book):
    assert 'role="status" aria-live="polite"' in asked(book).feedback.value


def test_choices_are_graded_when_chosen(book):
    box = Ask(lambda n: questions.leaves_through(fresh_part("x", ends_in="fillet")), book)
    assert box.check not in box.buttons.children
    box.entry.value = "other-leg"
    assert box.grade.status == "mistake"
    box.entry.value = "fillet"
    assert box.grade.right


def offered(box: Ask) -> list[PressButton]:
    """The buttons that stand beside the entry."""
    return [part for part in box.buttons.children if isinstance(part, PressButton)]


# --- predictions --------------------------------------------------------------------------------------
def predicted(book) -> Predict:
    return Predict(lambda n: questions.vertex_projection(fresh_part("x"), "predict"), book)


@pytest.mark.parametrize("typed", ["", "much", "-1", "30°", "1,5"])
def test_only_a_length_seals_a_prediction(book, typed):
    box = predicted(book)
    box.entry.value = typed
    box.check.click()
    assert not box.committed and box.value is None and book.answers == ()


def test_typing_alone_does_not_seal(book):
    box = predicted(book)
    box.entry.value = "1/8"
    assert not box.committed and box.grade is None


def twice(box: Predict, typed: str) -> None:
    """A number that is wrong and names no slip, committed and kept to."""
    box.entry.value = typed
    box.check.click()
    assert not box.committed
    box.check.click()


def test_a_wrong_number_has_a_hint_and_a_second_try_before_the_solution(book):
    box = predicted(book)
    box.entry.value = "1"
    box.check.click()
    said = box.feedback.value
    assert not box.committed and box.value is None and not box.entry.disabled and book.answers == ()
    assert "That is too long." in said and box.question.hints[0].replace("'", "&#39;") in said.replace("&#x27;", "&#39;") and "commit again" in said
    assert box.question.answer_text not in said and box.question.working not in said
    box.entry.value = box.question.answer_text.removeprefix("about ").split(" (")[0]
    box.check.click()
    assert box.committed and box.grade.right and [a.status for a in book.answers] == ["right"]


def test_the_second_try_is_the_last(book):
    box = predicted(book)
    for typed in ("1", "1 1/2"):
        box.entry.value = typed
        box.check.click()
    assert box.committed and f"The metal says: {box.question.answer_text}" in box.feedback.value and [a.typed for a in book.answers] == ["1 1/2"]


def test_a_slip_that_is_named_is_told_at_once(book):
    box = predicted(book)
    box.entry.value = f"{float(box.question.wrong[-1].answer):.6f}"
    box.check.click()
    assert box.committed and box.grade.status == "mistake"


def test_a_wrong_number_is_answered_with_the_step_that_is_due(book):
    """Too long or too short alone helps nobody: the first hint, or the last that was given."""
    box = asked(book)
    hints = [hint.replace("'", "&#x27;") for hint in box.question.hints]
    box.entry.value = "1 3/8"
    assert f"Hint: {hints[0]}" in box.feedback.value.replace("&#39;", "&#x27;")
    box.hint.click()
    assert "Hint 2 of 3" in box.feedback.value
    box.entry.value = "1 7/16"
    assert f"Hint: {hints[1]}" in box.feedback.value.replace("&#39;", "&#x27;") and box.question.answer_text not in box.feedback.value
    box.entry.value = "3/16"
    assert box.grade.status == "mistake" and "Hint" not in box.feedback.value


def test_nobody_is_sent_to_a_button_that_is_not_there(book):
    for fresh in (False, True):
        box = asked(book, fresh=fresh)
        for _ in range(4):
            box.hint.click()
        assert ("Other numbers" in box.feedback.value) is fresh and (box.other in box.buttons.children) is fresh


def test_a_question_in_thousandths_says_so_in_its_entry(book):
    from anglelib.questions.blade import TestCut, test_cut

    box = Ask(lambda n: test_cut(TestCut(Fraction(6), (Fraction("2.972"), Fraction("2.962")))), book)
    assert "thousandths" in box.entry.description
    box.entry.value = "66"
    assert box.grade.right and "66 thousandths, 0.066 inches" in box.feedback.value


def test_a_committed_prediction_stays_and_is_told_the_truth(book):
    box = predicted(book)
    twice(box, "1")
    assert box.committed and box.value == 1
    assert box.entry.disabled and box.check.disabled and offered(box) == [box.check, box.again]
    assert f"The metal says: {box.question.answer_text}" in box.feedback.value
    assert [a.typed for a in book.answers] == ["1"]


def test_a_prediction_of_yesterday_is_committed_today(book):
    box = predicted(book)
    twice(box, "1")
    again = predicted(AnswerBook(LESSON, book.folder))
    assert again.committed and again.value == 1 and len(book.answers) == 1


def test_a_predicted_choice_has_no_length(book):
    question = ChoiceQuestion("c", "Which?", ("this", "that"), "this", wrong=[WrongAnswer("m", "that", "Not that.")])
    box = Predict(lambda n: question, book)
    box.check.click()
    assert not box.committed
    box.entry.value = "that"
    assert not box.committed
    box.check.click()
    assert box.committed and box.value is None and "Right is: this." in box.feedback.value


# --- where nothing runs ---------------------------------------------------------------------------------
def test_a_saved_page_has_the_question_and_its_answer_folded_away(book):
    box = asked(book)
    before = box._repr_mimebundle_()
    box.entry.value = "3/16"
    after = box._repr_mimebundle_()
    assert before["text/html"] == after["text/html"] and before["text/plain"] == box.question.prompt
    shown, _, hidden = before["text/html"].partition("<details>")
    assert box.question.answer_text not in shown and box.question.answer_text in hidden


def test_several_questions_in_one_box(book):
    both = Questions(asked(book), Ask(lambda n: questions.which_thickness(fresh_part("x")), book))
    bundle = both._repr_mimebundle_()
    assert bundle["text/html"].count("<details>") == 2 and bundle["text/plain"].count("\n") == 1


# --- asked again ------------------------------------------------------------------------------------------------
def test_an_answered_question_is_put_back_singly_and_its_history_stays(book):
    one, other = predicted(book), Ask(lambda n: CHOICE_AGAIN, book)
    twice(one, "1")
    other.entry.value = "b"
    assert one.again is not None and other.again is not None
    one.again.click()
    assert not one.committed and one.grade is None and not one.entry.value and not one.entry.disabled and not one.check.disabled
    assert "Committed" not in one.feedback.value and other.grade is not None
    assert predicted(AnswerBook(LESSON, book.folder)).grade is None and Ask(lambda n: CHOICE_AGAIN, book).grade is not None  # tomorrow too
    assert [a.status for a in book.answers] == ["wrong", "mistake", "put-back"]
    one.entry.value = "7/32"
    one.check.click()
    if not one.committed:
        one.check.click()
    assert one.committed and len([a for a in book.answers if a.question == one.question.id]) == 3


def test_nothing_is_offered_again_before_it_is_answered_or_where_there_are_other_numbers(book):
    box = predicted(book)
    box.entry.value = "soon"
    box.check.click()
    assert box.again is None and offered(box) == [box.check]
    fresh = asked(book, fresh=True)
    fresh.entry.value = "3/16"
    assert fresh.again is None and fresh.other in fresh.buttons.children


def test_putting_back_twice_is_putting_back_once_and_what_cannot_be_kept_is_said(tmp_path, monkeypatch):
    book = AnswerBook(LESSON, tmp_path)
    box = Ask(lambda n: CHOICE_AGAIN, book)
    box.entry.value = "b"
    box.again.click()
    box.again.click()
    assert [a.status for a in book.answers] == ["mistake", "put-back"]
    box.entry.value = "a"
    monkeypatch.setattr(book, "add", lambda answer: "Your answer is not kept.")
    box.put_back()
    assert "not kept" in box.feedback.value and box.grade is None


def test_an_answer_has_its_moment_in_utc(book):
    from datetime import UTC, datetime, timedelta

    from anglelib.questions import moments

    predicted(book).book.add(Answer("q", 0, "1", "right"))
    at = moments.read(book.answers[-1].at)
    assert abs(datetime.now(UTC) - at) < timedelta(minutes=1)
    assert book.answers == (Answer("q", 0, "1", "right"),)  # when does not make it another answer


def test_a_damaged_file_is_said_over_the_pages_first_question_and_a_new_one_is_begun(tmp_path, monkeypatch):
    monkeypatch.setattr(ask, "_TELLS", {})
    damaged = tmp_path / "07_taper_inside.json"
    damaged.write_text("{", encoding="utf-8")
    first, again = (asked(AnswerBook("07_taper_inside", tmp_path)) for _ in range(2))  # its cell is run twice
    other = Ask(lambda n: CHOICE_AGAIN, AnswerBook("07_taper_inside", tmp_path))
    for box in (first, again):
        assert "07_taper_inside.json in the folder answers cannot be read" in box.children[0].value and 'role="status"' in box.children[0].value
    assert "cannot be read" not in "".join(getattr(child, "value", "") for child in other.children)
    first.entry.value = "3/16"
    assert damaged.read_text(encoding="utf-8") == "{" and "3/16" in (tmp_path / "07_taper_inside-2.json").read_text(encoding="utf-8")
    damaged.unlink()
    assert "cannot be read" not in asked(AnswerBook("07_taper_inside", tmp_path)).children[0].value
