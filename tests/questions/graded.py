"""What the course does with answers, by ids and numbers: run once as it is and once reworded, and compared.

Each function is run in a Python of its own (``tests.rewording.outcome``), so nothing of the course is imported above.
"""

from __future__ import annotations

import json
import os
from collections.abc import Iterator
from importlib import import_module
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

KEPT = Path(__file__).resolve().parents[1] / "data" / "answers_format_1"
"""Answer files of two learners, written by the last code that kept words; all that was to be found on the pages."""
VARIANTS = 4
GARBAGE = ("", "what?", "1,5", "30°", "9" * 40, "-1", "heel", "M07")

def questions() -> Iterator[tuple[str, int, Any]]:
    """(the lesson, which of its fresh numbers, the question), for every question of every lesson and page."""
    from anglelib.workshop.lesson_questions import MODULES

    for lesson, name in {**MODULES, "13_behind_the_pictures": "behind_the_pictures"}.items():
        module = import_module(f"anglelib.questions.{name}")
        for make in module.QUESTIONS.values():
            yield lesson, 0, make()
        for series in getattr(module, "EXERCISES", {}).values():
            yield from ((lesson, number, series[number]) for number in range(VARIANTS))
    make_part = import_module("anglelib.questions.make_part")
    asked = (*make_part.of_every_lesson().values(), *make_part.three_marks(make_part.sample(), import_module("anglelib.job").Shop(), "own"))
    yield from (("12_make_part", 0, question) for question in asked)
    yield from on_pages()


def on_pages() -> Iterator[tuple[str, int, Any]]:
    """The same for what stands on the pages themselves, found by running their cells."""
    with TemporaryDirectory() as folder:
        os.environ["ANGLELIB_HOME"] = folder
        pages = import_module("tests.lessons.lesson_checks")
        for page in pages.PAGES:
            for _, box in page.boxes():
                yield from ((page.path.stem, 0, question) for question in pages.asked(box))


def gradings() -> list[Any]:
    """Every question's right answer, each wrong one and some garbage, with what the grade says in ids and numbers."""
    from anglelib.questions.grading import grade

    def graded(question: Any, typed: Any) -> list[Any]:
        found = grade(question, typed)
        return [typed, found.status, found.slips, str(found.value)]

    def given(answer: Any) -> Any:
        return answer if isinstance(answer, str | tuple) else f"{float(answer):.6f}"

    found = []
    for lesson, number, question in questions():
        typed = [given(question.answer), *(given(wrong.answer) for wrong in question.wrong), *GARBAGE]
        if hasattr(question, "graduation"):  # a length, typed without the mm behind it
            typed.append(f"{25.4 * float(question.answer):.4f}")
        offered = list(getattr(question, "words", {}))
        rows = [graded(question, text) for text in (*typed, *offered, tuple(offered))]
        found.append([lesson, question.id, number, type(question).__name__, [wrong.slip for wrong in question.wrong], rows])
    return found


def migrated() -> list[Any]:
    """Every answer in the files of the first format, by ids; and what is written when one more is added."""
    from anglelib.questions.answers import Answer, AnswerBook

    found = []
    with TemporaryDirectory() as folder:
        for path in sorted(KEPT.glob("*/answers/*.json")):
            copy = Path(folder, path.parent.parent.name, path.name)
            copy.parent.mkdir(exist_ok=True)
            copy.write_bytes(path.read_bytes())
            book = AnswerBook(path.stem, copy.parent)
            found.append([path.stem, [[a.question, a.variant, a.typed, a.status, a.slips] for a in book.answers]])
            found.append([book.add(Answer("one-more", 0, "1", "right", at="2026-12-01T00:00:00Z")), json.loads(copy.read_text(encoding="utf-8"))])
    return found


def counted() -> list[Any]:
    """The count of a class's files of the first format."""
    from anglelib.workshop.who_is_stuck import look

    found = look([KEPT])
    rows = [[q.lesson, q.question, q.variant, q.learners, q.right, q.tries, q.slips] for q in found.questions]
    return [found.learners, len(found.trouble), rows]


def recognised() -> list[Any]:
    """The table of mistakes: by lesson how each is recognised."""
    from anglelib.workshop.mistakes_gathered import gathered

    return [[id_, sorted(lessons.items())] for id_, lessons in gathered().items()]


def keys() -> list[Any]:
    """The worksheets of a class: each question's right answer."""
    from anglelib.workshop.class_plan import ClassWanted
    from anglelib.workshop.learner_parts import learners
    from anglelib.workshop.worksheet_questions import worksheets_of

    wanted = ClassWanted(3)
    return [[asked.lesson, asked.name, str(asked.question.answer)] for sheet in worksheets_of(wanted, learners(wanted)) for asked in sheet.asked]
