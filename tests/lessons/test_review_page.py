"""The page that asks again: every exercise of every lesson can stand there; one after another, with its reason; kept with its lesson."""

from datetime import UTC, datetime, timedelta

import pytest
from lesson_checks import Page, typed

from anglelib.lessons import home, review
from anglelib.questions.answers import Answer, AnswerBook
from anglelib.questions.moments import written
from anglelib.questions.question import ChoiceQuestion, OrderQuestion
from anglelib.workshop.own_questions import OWN
from anglelib.workshop.review import Item

EVENING = datetime(2027, 5, 3, 19, 0, tzinfo=UTC)
EXERCISES = [(lesson, id_) for lesson, own in OWN.items() for id_ in own.exercises]


class Clock:
    """A clock that is set by hand."""

    def __init__(self, now: datetime) -> None:
        self.now = now

    def __call__(self) -> datetime:
        return self.now


def wrong(lesson: str, question: str, at: datetime = EVENING) -> None:
    AnswerBook(lesson).add(Answer(question, 0, "1", "wrong", (), written(at)))


@pytest.fixture
def clock(monkeypatch):
    """The review's clock, and the one by which answers are kept."""
    found = Clock(EVENING)
    monkeypatch.setattr("anglelib.questions.moments.now", found)
    return found


@pytest.mark.parametrize(("lesson", "question"), EXERCISES, ids=[id_ for _, id_ in EXERCISES])
def test_every_exercise_can_come_back_with_its_numbers(lesson, question):
    box = review.asked(Item(lesson, question, 3, question, (), 0, 0))
    assert (box.question.id, box.number, box.book.lesson, box.grade) == (question, 3, lesson, None)
    assert box.question.prompt in box.prompt.value.replace("&quot;", '"').replace("&#39;", "'").replace("&#x27;", "'").replace("&amp;", "&")


def answer_rightly(box) -> None:
    ask = box.box
    right = ask.question.answer
    if isinstance(ask.question, ChoiceQuestion | OrderQuestion):
        ask.entry.value = right
    else:
        ask.entry.value = typed(right)
    if ask.grade is None:
        ask.answer()
    assert ask.grade.right


def test_one_after_another_and_the_answer_is_kept_with_its_lesson(own_folder, clock):
    for lesson, question in (("07_taper_inside", "07-project"), ("00_start_here", "00-running-dimensions"), ("09_holes_and_what_if", "09-edge")):
        wrong(lesson, question)
    box = review.Review(clock=clock)
    seen = []
    while box.item is not None:
        seen.append(box.item.question)
        assert review.NAMES[box.item.lesson] in box.why.value and "not right" in box.why.value and "questions are due" in box.words.value or len(seen) == 3
        answer_rightly(box)
        box.onward.click()
    assert seen == ["00-running-dimensions", "07-project", "09-edge"]
    assert "comes back tomorrow" in box.words.value and box.place.children == () and box.onward.layout.display == "none"
    assert [(a.variant, a.status) for a in AnswerBook("07_taper_inside").answers] == [(0, "wrong"), (1, "right")]
    clock.now += timedelta(days=1)
    box.onward.click()
    assert box.item.question == "00-running-dimensions" and "comes back 1 day after it was right" in box.why.value and box.box.number == 2


def test_what_is_left_open_comes_round_again_and_what_goes_wrong_stays(own_folder, clock):
    for lesson, question in (("07_taper_inside", "07-project"), ("09_holes_and_what_if", "09-edge")):
        wrong(lesson, question)
    box = review.Review(clock=clock)
    seen = []
    for _ in range(5):
        seen.append(box.item.question)
        box.onward.click()
    assert seen == ["07-project", "09-edge", "07-project", "09-edge", "07-project"]
    (own_folder / "answers" / "09_holes_and_what_if.json").unlink()
    box.onward.click()
    number = box.box.number
    box.onward.click()
    assert box.item.question == "07-project" and box.box.number == number  # the only one: it stands there still


def test_home_says_how_many_are_due(own_folder, clock):
    assert "Review: Nothing is due" in repr(home.ways())
    wrong("07_taper_inside", "07-project")
    assert "Review: One question is due." in repr(home.ways()) and 'href="review.ipynb"' in home.ways()._repr_html_()


def test_a_spoiled_file_is_named_and_the_rest_is_asked(own_folder, clock):
    wrong("07_taper_inside", "07-project")
    (own_folder / "answers" / "03_square_end.json").write_text("{")
    box = review.Review(clock=clock)
    assert box.item.question == "07-project" and "03_square_end.json" in box.words.value


def test_the_page_says_the_rule_as_it_is():
    from anglelib.workshop.review import DAYS

    assert f"{DAYS[0]} day later, then {DAYS[1]}, {DAYS[2]} and {DAYS[3]} days after" in Page.of(review).prose
