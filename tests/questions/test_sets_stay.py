"""The fresh numbers of every exercise stay what they were: an answer is kept with the number of its set, and a printed sheet has its key.

``tests/data/sets_of_numbers.json`` was written once, and is added to where an exercise is new. Whether the answers are right is not said
here, but by the other tests: an old answer must meet the numbers that it was given to.
"""

from __future__ import annotations

import json
import re
from importlib import import_module
from pathlib import Path

import pytest

from anglelib.questions.question import ChoiceQuestion, OrderQuestion
from anglelib.workshop.lesson_questions import MODULES

KEPT = Path(__file__).resolve().parents[1] / "data" / "sets_of_numbers.json"
SETS = 5
LESSONS = {**MODULES, "13_behind_the_pictures": "behind_the_pictures"}


def told(question) -> list:
    """The numbers that a set asks with; the right answer and the wrong ones by their slips. No word of a sentence."""
    if isinstance(question, ChoiceQuestion | OrderQuestion):
        return [numbers(question.prompt), " ".join(question.words), _ids(question.answer), sorted([w.slip, _ids(w.answer)] for w in question.wrong)]
    return [numbers(question.prompt), f"{float(question.answer):.5f}", sorted([w.slip, f"{float(w.answer):.5f}"] for w in question.apart)]


def _ids(answer) -> str:
    return answer if isinstance(answer, str) else " ".join(answer)


def numbers(prompt: str) -> str:
    return " ".join(re.findall(r"\d[\d/.]*(?<!\.)", prompt))


def sets() -> dict[str, list]:
    """Every exercise by its lesson and its name there."""
    found = {}
    for lesson, name in LESSONS.items():
        for key, series in getattr(import_module(f"anglelib.questions.{name}"), "EXERCISES", {}).items():
            found[f"{lesson[:2]} {key}"] = [told(series[number]) for number in range(SETS)]
    return found


KEYS = list(json.loads(KEPT.read_text(encoding="utf-8")))


@pytest.mark.parametrize("key", KEYS)
def test_an_exercise_asks_what_it_asked(key):
    lesson, name = key.split(" ")
    module = next(module for number, module in LESSONS.items() if number.startswith(lesson))
    series = import_module(f"anglelib.questions.{module}").EXERCISES[name]
    kept = json.loads(KEPT.read_text(encoding="utf-8"))[key]
    assert [told(series[number]) for number in range(SETS)] == kept


def test_every_exercise_is_kept():
    assert set(KEYS) == {f"{lesson[:2]} {key}" for lesson, name in LESSONS.items() for key in getattr(import_module(f"anglelib.questions.{name}"), "EXERCISES", {})}
