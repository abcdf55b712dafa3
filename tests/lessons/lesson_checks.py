"""What every lesson is held to: a page whose cells run, pictures legible at every place of their controls, every slip named."""

import ast
import html
import importlib
import json
import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

from anglelib.drawing.checks import clipped, overlaps, struck
from anglelib.drawing.sheet import Label, Sheet
from anglelib.drawing.svg import svg
from anglelib.files import read_job
from anglelib.lessons.ask import Predict
from anglelib.lessons.controls import ChoiceControl, FractionControl, NumberControl
from anglelib.lessons.live import LivePicture
from anglelib.questions.grading import grade
from anglelib.questions.question import TOLERANCE, ChoiceQuestion, LengthQuestion, OrderQuestion, Question

PROJECT = Path(__file__).resolve().parents[2]
NOTEBOOKS = sorted((PROJECT / "notebooks").glob("*.ipynb"))
THEMES = ("screen", "projector")
IMPORT = re.compile(r"from anglelib\.lessons import (\w+) as lesson")


# --- pictures ---------------------------------------------------------------------------------------------
def texts(sheet: Sheet) -> list[str]:
    """What the labels of a picture say."""
    return [item.text for item in sheet.items if isinstance(item, Label)]


def told(sheet: Sheet) -> str:
    """All that a picture says: its labels and its sentence."""
    return " ".join([*texts(sheet), sheet.sentence])


def legible(sheet: Sheet, theme: str = "screen", *, longest: int = 600, most: int = 7, number: bool = True) -> None:
    """Fails where a label hides another, leaves the sheet or is struck through; on a projector there are at most ``most``.

    The sentence, for who cannot see the picture, has under ``longest`` characters and, where ``number``, a number.
    """
    faults = overlaps(sheet, theme), clipped(sheet, theme), struck(sheet, theme)
    assert faults == ([], [], []), sheet.sentence
    svg(sheet, theme)
    assert len(sheet.sentence) < longest and (not number or re.search(r"\d", sheet.sentence)), sheet.sentence
    if theme == "projector":
        assert sum(bool(text) for text in texts(sheet)) <= most, sheet.sentence


# --- controls ---------------------------------------------------------------------------------------------
def thinned(places, most: int = 7) -> list:
    """Both ends and a stride between: at most two more than ``most``."""
    return [*places[:: max(1, len(places) // most)], places[-1]]


def some(places, every: bool = False, most: int = 7) -> list:
    """All of some places, if ``every``; else both ends and a stride between."""
    return [*places] if every else thinned(places, most)


EVERY = pytest.mark.parametrize("every", [pytest.param(False, id="some"), pytest.param(True, id="every", marks=pytest.mark.slow)])
"""A sweep over some of its places, and in the slow tier over all of them."""


def moves(control, every: bool = False) -> Iterator[Any]:
    """Moves a control over its range: a slider to its ends and by strides (to every place, if ``every``), each choice, a card to each place."""
    if hasattr(control, "slider"):
        places = range(control.slider.min, control.slider.max + 1, getattr(control.slider, "step", 1) or 1)
        for place in some(places, every, 5):
            control.slider.value = place
            yield control.value
    elif hasattr(control, "items"):  # an order of work
        control.listed.index = len(control.items) - 1
        for button in (control.earlier, control.later):
            for _ in control.items:
                button.click()
                yield control.value
    else:
        for option in control.buttons.options:
            control.buttons.value = option[1] if isinstance(option, tuple) else option
            yield control.value


def corners(control, words: tuple[str, ...] = ("", "Foot 2", "x" * 80, "a/b")) -> list:
    """The ends of a control with what lies half-way, each of its choices, or for an entry some words."""
    if isinstance(control, FractionControl):
        return [control.values[0], control.values[len(control.values) // 2], control.values[-1]]
    if isinstance(control, NumberControl):
        return [control.slider.min, control.slider.max]
    if isinstance(control, ChoiceControl):
        return [value for _, value in control.buttons._options_full]
    return [*words]


def move_all(card, every: bool = False) -> None:
    """Moves every control of a card of formulas."""
    for control in card.controls.values():
        for _ in moves(control, every):
            pass


def commit(ask: Predict) -> None:
    """Commits what stands in the entry; a wrong number without a slip is asked about once more."""
    ask.check.click()
    if not ask.committed:
        ask.check.click()


def predict(picture: LivePicture, typed: str = "1") -> None:
    """Answers a picture's question, so that it may be touched."""
    question = picture.ask.question
    picture.ask.entry.value = question.choices[0].id if isinstance(question, ChoiceQuestion) else typed
    commit(picture.ask)


def sweep(picture: LivePicture, every: bool = False, hides: bool = True) -> None:
    """Predicts, moves every control and takes every job; each time the picture is legible and its sentence stands under it. Reset goes back.

    Where the picture ``hides`` its answer, it is another one after the prediction.
    """
    if picture.ask is not None:
        before = picture.picture.value
        predict(picture)
        assert picture.picture.value != before or not hides
    assert picture.view.revealed
    for control in picture.controls.values():
        for _ in moves(control, every):
            sheet = picture.sheet
            assert sheet.sentence.split(".")[0] in html.unescape(picture.caption.value)
            legible(sheet, longest=1200, number=False)
    for job in picture.presets:
        picture.job.buttons.value = job
    if picture.presets:
        picture.job.buttons.value = next(iter(picture.presets))
    picture.reset.click()
    assert picture.values == picture.start


def hides(picture: LivePicture, *words: str) -> None:
    """Fails where a picture says one of these words before its prediction, or does not say them all afterwards."""
    before = told(picture.sheet)
    assert not [word for word in words if word in before]
    picture.ask.committed = True
    assert [word for word in words if word not in told(picture.sheet)] == []


# --- questions --------------------------------------------------------------------------------------------
def typed(answer) -> str | tuple[str, ...]:
    """An answer as a person types, chooses or orders it."""
    return answer if isinstance(answer, str | tuple) else f"{float(answer):.6f}"


def check_question(question: Question, hints: bool = True) -> None:
    """Fails where the right answer is not right, a wrong one is not named by its sentence, a choice has no reply, or hints or working lack."""
    where = question.prompt
    assert grade(question, typed(question.answer)).right, where
    if isinstance(question, LengthQuestion):  # as a drawing writes it too: the fraction, or where that is too coarse the decimal
        fraction, decimal = re.fullmatch(r"(?:about )?(.*?)(?: \((.*)\))?", question.answer_text).groups()
        assert grade(question, fraction if question.tolerance >= TOLERANCE or not decimal else decimal).right, where
    assert question.working and (question.hints or not hints), where
    for wrong in question.wrong:
        found = grade(question, typed(wrong.answer))
        assert found.status == "mistake" and wrong.slip in found.slips and wrong.name, (where, wrong, found)
        assert wrong.sentence in found.sentence and "you did" not in wrong.sentence.lower(), (where, wrong)
    if isinstance(question, ChoiceQuestion):
        assert {wrong.answer for wrong in question.wrong} == set(question.words) - {question.answer}, where
    assert question.wrong or isinstance(question, OrderQuestion), where


def asked(box) -> Iterator[Question]:
    """The questions in what a cell shows: of a picture, of an exercise, one under another."""
    question = getattr(getattr(box, "ask", None) or box, "question", None)
    if isinstance(question, Question):
        yield question
    for child in getattr(box, "children", ()):
        if child is not getattr(box, "ask", None):
            yield from asked(child)


def named(questions: ModuleType, fresh: int = 0) -> set[str]:
    """The slips that a lesson's questions know, by id, and so many fresh ones of each exercise."""
    asked = [make() for make in questions.QUESTIONS.values()]
    asked += [series[number] for series in questions.EXERCISES.values() for number in range(fresh)]
    return {wrong.slip for question in asked for wrong in question.wrong}


# --- pages ------------------------------------------------------------------------------------------------
@dataclass(frozen=True)
class Page:
    """A notebook: its lesson, its prose, its cells and what they show."""

    path: Path

    @classmethod
    def of(cls, lesson: ModuleType) -> "Page":
        """The page of a lesson's module."""
        return next(page for page in PAGES if page.lesson is lesson)

    @cached_property
    def cells(self) -> list:
        """Its cells as saved."""
        import nbformat  # reads a grammar for a second: who only runs the cells does without

        return nbformat.read(self.path, as_version=4).cells

    @cached_property
    def code(self) -> list[str]:
        """What its code cells say."""
        saved = json.loads(self.path.read_text(encoding="utf-8"))["cells"]
        return ["".join(cell["source"]) for cell in saved if cell["cell_type"] == "code"]

    @property
    def prose(self) -> str:
        """Its text, in one line."""
        return " ".join(" ".join(cell.source for cell in self.cells if cell.cell_type == "markdown").split())

    @property
    def lesson(self) -> ModuleType | None:
        """The lesson's module; None for a page that has none."""
        found = next((found for source in self.code if (found := IMPORT.search(source))), None)
        return importlib.import_module(f"anglelib.lessons.{found[1]}") if found else None

    @property
    def calls(self) -> list[str]:
        """The lesson's functions that its cells call."""
        return [found[1] for source in self.code for found in re.finditer(r"lesson\.(\w+)\(", source)]

    def boxes(self) -> Iterator[tuple[str, Any]]:
        """Each cell's source with what it shows, run one after another."""
        names: dict = {}
        for source in self.code:
            tree = ast.parse(source)
            last = tree.body.pop() if isinstance(tree.body[-1], ast.Expr) else None
            exec(compile(tree, self.path.name, "exec"), names)
            if last is not None:
                yield source, eval(compile(ast.Expression(last.value), self.path.name, "eval"), names)


PAGES = [page for path in NOTEBOOKS if (page := Page(path)).lesson is not None]


def same_in_the_kit(part, *but: str) -> None:
    """Fails where a part that a lesson writes out is not the demo kit's any more, in what is not among ``but``."""
    kept = read_job(PROJECT / "notebooks" / "demo" / "job.toml").part(part.id)
    for field in {"name", "section", "length", "tapers", "alloy", "holes", "handed"} - set(but):
        assert getattr(part, field) == getattr(kept, field), (part.id, field)
