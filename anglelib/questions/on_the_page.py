"""The answers of a visitor's page: in the memory of its Python, by lesson, and nowhere else.

They end with the page. What a learner keeps in a folder is :mod:`anglelib.questions.answers`.
"""

from __future__ import annotations

from anglelib.questions.answer_file import Row

ROWS: dict[str, tuple[Row, ...]] = {}


def forgotten(lesson: str | None = None) -> dict[str, tuple[Row, ...]]:
    """Forgets those of one lesson, or of all; what they were, by lesson."""
    return {name: ROWS.pop(name) for name in tuple(ROWS) if lesson in (None, name)}
