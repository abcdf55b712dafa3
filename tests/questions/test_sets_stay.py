"""The numbers of every question stay what they were: an answer is kept with the number of its set, and a printed sheet has its key.

``tests/data/sets_of_numbers.json`` was written once, and is added to where a question or an exercise is new (``written``). Whether the answers are right is not said
here, but by the other tests: an old answer must meet the numbers that it was given to.
"""

from __future__ import annotations

import json
import re
from importlib import import_module
from pathlib import Path
from zlib import crc32

import pytest

from anglelib.questions.question import ChoiceQuestion, OrderQuestion
from anglelib.workshop.lesson_questions import MODULES

KEPT = Path(__file__).resolve().parents[1] / "data" / "sets_of_numbers.json"
SETS = 8
LESSONS = {**MODULES, "13_behind_the_pictures": "behind_the_pictures"}


def told(question) -> list:
    """The numbers that a set asks with; the right answer, how near to it is right, and the wrong ones by their slips. No word of a sentence."""
    if isinstance(question, ChoiceQuestion | OrderQuestion):
        return [numbers(question.prompt), " ".join(question.words), _ids(question.answer), sorted([w.slip, _ids(w.answer)] for w in question.wrong)]
    how = [name for name in ("mark", "thousandths") if getattr(question, name, False)]
    right = [f"{float(question.answer):.5f}", f"{float(question.tolerance):.6f}", *how]
    return [numbers(question.prompt), right, sorted([w.slip, f"{float(w.answer):.5f}"] for w in question.apart)]


def _ids(answer) -> str:
    return answer if isinstance(answer, str) else " ".join(answer)


def numbers(prompt: str) -> str:
    return " ".join(re.findall(r"\d[\d/.]*(?<!\.)", prompt))


SHOWN = re.compile(r"Fraction[(][0-9, -]+[)]|leg='.'|end=[12]")


def of_thing(thing: object) -> str:
    """The numbers of what a set's picture shows, by their check sum: its lengths, legs and ends."""
    return f"{crc32(' '.join(SHOWN.findall(repr(thing))).encode()):08x}"


def of_lesson(lesson: str):
    return import_module(f"anglelib.questions.{next(module for number, module in LESSONS.items() if number.startswith(lesson))}")


def found(key: str) -> list:
    """What a question asks with, or the first sets of an exercise."""
    lesson, kind, name = key.split(" ", 2)
    if kind == "asks":
        return told(of_lesson(lesson).QUESTIONS[name]())
    series = of_lesson(lesson).EXERCISES[name]
    return [[*told(series[number]), of_thing(series.thing(number))] for number in range(SETS)]


def keys() -> list[str]:
    """Every question and every exercise by its lesson and its name there."""
    modules = {lesson[:2]: of_lesson(lesson[:2]) for lesson in LESSONS}
    asked = [f"{lesson} asks {name}" for lesson, module in modules.items() for name in module.QUESTIONS]
    return asked + [f"{lesson} sets {name}" for lesson, module in modules.items() for name in getattr(module, "EXERCISES", {})]


def written() -> str:
    """The file as it would be written today."""
    lines = [f"{json.dumps(key)}: {json.dumps(found(key))}".replace("]], [", "]],\n  [") for key in keys()]
    return "{\n" + ",\n".join(lines) + "\n}\n"


ALL = json.loads(KEPT.read_text(encoding="utf-8"))


@pytest.mark.parametrize("key", ALL)
def test_a_question_asks_what_it_asked(key):
    assert found(key) == ALL[key]


def test_every_question_and_every_exercise_is_kept():
    assert set(ALL) == set(keys())
