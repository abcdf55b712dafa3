"""Nothing that lies in an answer file stops a page: every box of every lesson, over files of random and of unfit answers."""

import json
import os
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st
from lesson_checks import PAGES, Page, asked

from anglelib.drawing.sheet import Sheet
from anglelib.lessons.ask import Ask, Predict
from anglelib.lessons.ask_mark import AskMark
from anglelib.lessons.ask_order import AskOrder
from anglelib.lessons.controls import FractionControl, fractions
from anglelib.questions.answers import Answer, AnswerBook
from anglelib.questions.question import Before, ChoiceQuestion, LengthQuestion, NumberQuestion, OrderQuestion
from anglelib.workshop.who_is_stuck import look

LESSON = "07_taper_inside"
LENGTH = LengthQuestion("q", "How long?", Fraction(1), hints=("Look.",))
NUMBER = NumberQuestion("q", "How many?", Fraction(3), "count", Fraction(0))
CHOICE = ChoiceQuestion("q", "Which?", {"A": "leg A", "B": "leg B"}, "A")
ORDER = OrderQuestion("q", "In which order?", {"length": "cut to length", "square": "square end 1"}, (Before("square", "length", "No datum."),))


def boxes(book: AnswerBook) -> list[Ask]:
    """One of each kind."""
    mark = AskMark(
        lambda n: LENGTH, lambda n, at, shown: Sheet(60, 20, (), "A rule", "A mark."), lambda n: FractionControl("Mark", fractions("0", "1", "1/16"), LENGTH.answer), book
    )
    found = [Ask(lambda n, q=question: q, book, fresh=True) for question in (LENGTH, NUMBER, CHOICE)]
    return [*found, *(Predict(lambda n, q=question: q, book) for question in (LENGTH, NUMBER, CHOICE)), AskOrder(lambda n: ORDER, book), mark]


# --- random files ---------------------------------------------------------------------------------------------
TEXTS = st.one_of(st.text(max_size=30), st.sampled_from(["q", "A", "B", "leg A", "length", "3/8", "9" * 5000, "\ud800", "\x00", "1e999", "x" * 20_000, ""]))
VALUES = st.recursive(
    st.one_of(st.none(), st.booleans(), st.integers(), st.just(10**400), st.floats(), TEXTS),
    lambda inner: st.one_of(st.lists(inner, max_size=4), st.dictionaries(TEXTS, inner, max_size=4)),
    max_leaves=8,
)
ROW = st.one_of(
    VALUES,
    st.fixed_dictionaries(
        {"question": st.one_of(st.just("q"), VALUES), "variant": st.one_of(st.just(0), VALUES), "typed": VALUES, "status": st.one_of(st.just("right"), VALUES)},
        optional={"slips": VALUES, "mistake": VALUES, "more": VALUES},
    ),
    st.fixed_dictionaries(
        {"question": st.just("q"), "variant": st.just(0), "typed": st.one_of(TEXTS, st.lists(TEXTS, max_size=4)), "status": TEXTS, "slips": st.lists(TEXTS, max_size=3)}
    ),
)
FILE = st.one_of(
    VALUES,
    st.fixed_dictionaries({"format": st.one_of(st.sampled_from([1, 2]), VALUES), "lesson": st.one_of(st.just(LESSON), VALUES), "answers": st.one_of(st.lists(ROW, max_size=5), VALUES)}),
    st.fixed_dictionaries({"format": st.sampled_from([1, 2]), "lesson": st.just(LESSON), "answers": st.lists(ROW, max_size=5)}),
)


def written(folder: Path, content: str | bytes) -> AnswerBook:
    for path in folder.glob("*.json"):
        path.unlink()
    (folder / f"{LESSON}.json").write_bytes(content if isinstance(content, bytes) else content.encode("utf-8", "surrogatepass"))
    return AnswerBook(LESSON, folder)


def nothing_raises(folder: Path, content: str | bytes) -> None:
    """A page opens over the file, an answer is given and kept, and whoever counts the class is not stopped."""
    book = written(folder, content)
    first = boxes(book)[2]
    first.entry.value = "B" if first.entry.value != "B" else "A"
    assert "not kept" not in first.feedback.value
    assert book.latest("q", 0).typed == first.entry.value
    for box in boxes(book):
        if box.entry.value:
            box.answer()
    look([folder])


MANY = settings(max_examples=500, suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow])
"""What the slow tier tries; the quick one tries less of the same."""


@settings(MANY, max_examples=50)
@given(FILE)
@example({"format": 2, "lesson": LESSON, "answers": [{"question": "q", "variant": True, "typed": "A", "status": "right", "slips": []}]})
@example({"format": 1, "lesson": LESSON, "answers": [{"question": "q", "variant": 0, "typed": "\ud800", "status": "right", "mistake": ""}]})
def test_random_files(own_folder, data):
    nothing_raises(own_folder, json.dumps(data))


@pytest.mark.slow
@MANY
@given(FILE)
def test_many_random_files(own_folder, data):
    nothing_raises(own_folder, json.dumps(data))


@settings(MANY, max_examples=25)
@given(st.one_of(st.binary(max_size=200), st.text(max_size=200)))
@example(b"\xff\xfe\x00")
@example("[" * 100_000)
@example('{"format": 2, "lesson": "07_taper_inside", "answers": [' + "9" * 5000 + "]}")
@example(" " * 1_000_001)
def test_files_that_are_none(own_folder, content):
    nothing_raises(own_folder, content if isinstance(content, bytes) else content.encode("utf-8", "replace"))


def test_a_choice_that_is_not_offered_now_is_not_answered_yet(own_folder):
    """The page shows it as open, whether a prediction or a question; the file keeps it."""
    book = AnswerBook(LESSON, own_folder)
    for typed in ("C", ("A", "B"), "leg A"):
        book.add(Answer("q", 0, typed, "right"))
        for box in (Ask(lambda n: CHOICE, book), Predict(lambda n: CHOICE, book)):
            assert box.entry.value is None and box.grade is None and not getattr(box, "committed", False) and "✓" not in box.feedback.value
    book.add(Answer("q", 0, ("square", "square"), "right"))
    assert AskOrder(lambda n: ORDER, book).grade is None
    assert len(book.answers) == 4


# --- every page --------------------------------------------------------------------------------------------------
UNFIT = ("no-such-choice", [], ["no-such-operation"], "", " ", "-1", "9" * 300, "<b>", "1/0", "\x00", ["length", "length"], "leg A", "a choice of long ago")


@pytest.mark.parametrize("turn", [0, *(pytest.param(turn, marks=pytest.mark.slow) for turn in range(1, len(UNFIT)))])
@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.path.stem)
def test_every_page_opens_over_unfit_answers(page: Page, turn: int, own_folder):
    """To each of its questions another answer that it does not take, in today's format and in the first."""
    questions = [question for _, box in page.boxes() for question in asked(box)]
    folder = Path(os.environ["ANGLELIB_HOME"], "answers")
    folder.mkdir(exist_ok=True)
    unfit = [UNFIT[(n + turn) % len(UNFIT)] for n, _ in enumerate(questions)]
    today = [{"question": q.id, "variant": 0, "typed": typed, "status": "right", "slips": ["nobody"]} for q, typed in zip(questions, unfit)]
    first = [{"question": q.id, "variant": 0, "typed": str(typed), "status": "right", "mistake": "nobody"} for q, typed in zip(questions, unfit)]
    for format_, rows in ((2, today), (1, first)):
        (folder / f"{page.path.stem}.json").write_text(json.dumps({"format": format_, "lesson": page.path.stem, "answers": rows}))
        for _ in page.boxes():
            pass
        assert len(AnswerBook(page.path.stem, folder).answers) == len(rows)
