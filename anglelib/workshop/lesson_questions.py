"""The questions of every lesson, gathered: to say what was asked, and in which lesson a mistake is recognised.

>>> lesson_names()[7]
'07_taper_inside'
>>> find_question("07_taper_inside", "07-project", 0).prompt[:25]
'Practice bracket, 1 1/4 x'
>>> find_question("07_taper_inside", "no-such-question", 0) is None
True
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache
from importlib import import_module
from types import ModuleType
from typing import Any

from anglelib.questions.question import Question

MODULES = {
    "00_start_here": "start_here",
    "01_identify_stock": "identify_stock",
    "02_read_part": "read_part",
    "03_square_end": "square_end",
    "04_mark_along_heel": "mark_along_heel",
    "05_kerf_and_allowance": "kerf_and_allowance",
    "06_taper_outside": "taper_outside",
    "07_taper_inside": "taper_inside",
    "08_order_of_work": "order_of_work",
    "09_holes_and_what_if": "holes_and_what_if",
    "10_check_and_diagnose": "check_and_diagnose",
    "11_plan_the_stock": "plan_stock",
    "12_make_part": "make_part",
}
"""Each lesson's notebook and the module of its questions."""


def lesson_names() -> tuple[str, ...]:
    """The lessons by their notebooks' names, as answer files carry them; those without a module of questions too."""
    return (*MODULES, "13_behind_the_pictures", "builders_bench")


@cache
def _module(lesson: str) -> ModuleType | None:
    try:
        return import_module(f"anglelib.questions.{MODULES[lesson]}")
    except (KeyError, ModuleNotFoundError):
        return None


def here() -> tuple[str, ...]:
    """The lessons whose questions are here."""
    return tuple(lesson for lesson in MODULES if _module(lesson) is not None)


@cache
def questions_of(lesson: str) -> Mapping[str, Question]:
    """Every question of a lesson by its name: those with things of their own, and the first of each exercise."""
    module = _module(lesson)
    found: dict[str, Question] = {name: make() for name, make in getattr(module, "QUESTIONS", {}).items()}
    for name, series in getattr(module, "EXERCISES", {}).items():
        found.setdefault(f"exercise-{name}", series[0])
    return found


@cache
def find_question(lesson: str, id: str, variant: int) -> Question | None:
    """The question that an answer file names, with those numbers; None where the lesson has no such id."""
    module = _module(lesson)
    for series in getattr(module, "EXERCISES", {}).values():
        if series.id == id and 0 <= variant < 50:
            return series[variant]
    return next((question for question in questions_of(lesson).values() if question.id == id), None)


def wrong_answers(lesson: str) -> Iterator[tuple[str, Any]]:
    """(the question's name, its wrong answer) for every wrong answer of a lesson that a mistake gives."""
    for name, question in questions_of(lesson).items():
        for wrong in question.wrong:
            yield name, wrong
