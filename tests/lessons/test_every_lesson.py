"""What holds for every page, its pictures and its questions: cells run, controls move, figures are current, every slip is named."""

import importlib
import inspect
import pkgutil
import re
from contextlib import redirect_stdout
from dataclasses import replace
from io import StringIO

import pytest
from lesson_checks import NOTEBOOKS, PAGES, asked, check_question, legible, moves, sweep
from lesson_figures import check_figures

import anglelib.questions as all_questions
from anglelib.drawing.sheet import Label, Line, Sheet
from anglelib.lessons.ask import Ask
from anglelib.lessons.controls import NumberControl
from anglelib.lessons.live import LivePicture
from anglelib.questions.question import ChoiceQuestion, WrongAnswer
from anglelib.questions.series import Series

HEAVIEST = {
    "02_read_part": 12_000, "04_mark_along_heel": 24_000, "06_taper_outside": 12_000, "07_taper_inside": 12_000,
    "08_order_of_work": 30_000, "09_holes_and_what_if": 20_000, "10_check_and_diagnose": 20_000,
}  # fmt: skip
"""Characters that a slider may send: text that a slow machine still paints at once; 16,000 elsewhere."""


WITHOUT_PICTURES = {"12_make_part", "builders_bench", "glossary", "home", "instructor", "notation", "review"}
"""Pages whose pictures are in boxes of their own, which their own tests move."""
DATA = re.compile(r"(dict|list|tuple|Part|Fraction|int|str|float|bool)\b")


def boxes_of(lesson) -> set[str]:
    """The functions of a lesson that make a box from nothing, those it has from another module among them."""
    made = set()
    for name, function in vars(lesson).items():
        if inspect.isfunction(function) and function.__module__.startswith("anglelib.lessons.") and not name.startswith("_"):
            signature = inspect.signature(function)
            free = all(p.default is not p.empty for p in signature.parameters.values())
            own = function.__module__ == lesson.__name__ and not DATA.match(str(signature.return_annotation))
            if free and (own or signature.return_annotation == "LivePicture"):
                made.add(name)
    return made


def run(page, every: bool = False) -> None:
    """Runs a page's cells; every picture is swept, every question that has fresh numbers gets others."""
    swept = 0
    with redirect_stdout(StringIO()):
        for source, box in page.boxes():
            for question in asked(box):
                check_question(question, hints=question.id not in WITHOUT_HINTS)
            if isinstance(box, LivePicture):
                swept += 1
                sweep(box, every, hides=not source.startswith("lesson.game"))
                assert len(box.picture.value) < HEAVIEST.get(page.path.stem, 16_000), source
            elif isinstance(box, Ask) or source.startswith("lesson.exercise"):
                assert box.snapshot
                if source.startswith("lesson.exercise"):
                    before = box.question.prompt, getattr(getattr(box, "picture", None), "value", None)
                    for _ in range(3):
                        box.other.click()
                    assert box.number == 3 and box.question.prompt != before[0]
                    assert before[1] is None or box.picture.value != before[1]
                box.check.click()
            elif not every:
                assert repr(box) if not hasattr(box, "_repr_mimebundle_") else box._repr_mimebundle_(), source
    assert bool(swept) is (page.path.stem not in WITHOUT_PICTURES)


def test_every_notebook_is_the_page_of_a_lesson():
    assert [page.path for page in PAGES] == NOTEBOOKS


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.path.stem)
def test_every_cell_runs_and_every_control_moves(page):
    run(page)


@pytest.mark.slow
@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.path.stem)
def test_every_place_of_every_control(page):
    run(page, every=True)


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.path.stem)
def test_every_box_and_every_exercise_of_the_lesson_is_on_the_page(page):
    assert boxes_of(page.lesson) - set(page.calls) == set()
    asked = [source for source in page.code if source.startswith("lesson.exercise(")]
    assert asked == [f"lesson.exercise({n})" for n in range(1, len(asked) + 1)]
    assert len(asked) >= 2 or not page.path.stem[:2].isdigit()


@pytest.mark.parametrize("page", [page for page in PAGES if hasattr(page.lesson, "figures")], ids=lambda page: page.path.stem)
def test_figures_are_current_and_the_page_has_their_sentences(page):
    check_figures(page.lesson, page.prose)


# --- questions ----------------------------------------------------------------------------------------------
MODULES = {m.name: importlib.import_module(f"anglelib.questions.{m.name}") for m in pkgutil.iter_modules(all_questions.__path__)}
QUESTIONS = {(name, id_): make for name, module in MODULES.items() for id_, make in getattr(module, "QUESTIONS", {}).items()}
EXERCISES = {(name, id_): series for name, module in MODULES.items() for id_, series in getattr(module, "EXERCISES", {}).items()}


@pytest.mark.parametrize("key", QUESTIONS, ids="-".join)
def test_every_answer_is_graded_and_every_slip_named(key):
    question = QUESTIONS[key]()
    check_question(question, hints=question.id not in WITHOUT_HINTS)


def check_series(key, many: int) -> None:
    fresh = [EXERCISES[key][number] for number in range(many)]
    for question in fresh:
        check_question(question)
    assert len({question.prompt for question in fresh}) >= min(many, FEW.get(key, many))
    assert len({str(question.answer) for question in fresh}) >= (2 if isinstance(fresh[0], ChoiceQuestion) else 4)


FEW = {("taper_outside", "line"): 4, ("square_end", "light"): 8, ("behind_the_pictures", "name-of-an-argument"): 8, ("holes_and_what_if", "row"): 11}
"""Exercises that come round again before forty, since the picture asks or the sizes are few: how many prompts there are."""
WITHOUT_HINTS = {"set-on-the-line", "predict-the-cuts", "far-hole"}
"""Predictions that are made before anything was said: by their ids."""


@pytest.mark.parametrize("key", EXERCISES, ids="-".join)
def test_fresh_questions(key):
    check_series(key, 8)


@pytest.mark.slow
@pytest.mark.parametrize("key", EXERCISES, ids="-".join)
def test_forty_fresh_questions(key):
    check_series(key, 40)


# --- the guards -----------------------------------------------------------------------------------------------
GOOD = Sheet(100, 50, (Label(50, 25, "heel"),), "T", "The heel is 1 long.")


@pytest.mark.parametrize(
    ("change", "how"),
    [
        ({"items": (Label(50, 25, "heel"), Label(51, 25, "toe"))}, {}),
        ({"items": (Label(99, 25, "heel"),)}, {}),
        ({"items": (Label(50, 25, "heel"), Line(0, 26, 99, 26))}, {}),
        ({"sentence": "The heel is long."}, {}),
        ({"sentence": "1" * 600}, {}),
        ({"items": tuple(Label(50, 3 + 6 * n, f"mark {n}") for n in range(8)), "height": 90}, {"theme": "projector"}),
    ],
)
def test_an_illegible_picture_is_seen(change, how):
    legible(GOOD)
    with pytest.raises(AssertionError):
        legible(replace(GOOD, **change), **how)


def test_a_picture_that_goes_wrong_at_one_end_of_a_control_is_seen():
    def draw(values, view):
        return GOOD.with_items(Label(50 + 50 * (values["x"] == 40), 10, "toe"))

    picture = LivePicture(draw, {"x": NumberControl("x", 0, 40, 20)})
    assert len(list(moves(picture.controls["x"]))) < 12 < len(list(moves(picture.controls["x"], every=True)))
    picture.reset.click()
    with pytest.raises(AssertionError):
        sweep(picture)


def test_a_choice_without_its_sentence_is_seen():
    said = {"hints": ("Look.",), "working": "So."}
    check_question(ChoiceQuestion("x", "Which?", ("a", "b"), "a", wrong=(WrongAnswer("M07", "b", "No."),), **said))
    for wrong, more in (((WrongAnswer("M07", "b", "No."),), {}), ((), said), ((WrongAnswer("M07", "b", "You did it."),), said)):
        with pytest.raises(AssertionError):
            check_question(ChoiceQuestion("x", "Which?", ("a", "b", "c") if not wrong else ("a", "b"), "a", wrong=wrong, **more))
    with pytest.raises(KeyError, match="nameless"):  # a slip that the table of slips does not have
        check_question(ChoiceQuestion("x", "Which?", ("a", "b"), "a", wrong=(WrongAnswer("nameless", "b", "No."),), **said))


def test_exercises_that_repeat_are_seen(monkeypatch):
    one = ChoiceQuestion("x", "Which?", ("a", "b"), "a", wrong=(WrongAnswer("M07", "b", "No."),), hints=("Look.",), working="So.")
    monkeypatch.setitem(EXERCISES, ("trial", "same"), Series(lambda thing, id: one, "same"))
    with pytest.raises(AssertionError):
        check_series(("trial", "same"), 4)
