"""The answers of a visitor's page: in the memory of its Python, by lesson, and nowhere else.

They end with the page. What a learner keeps in a folder is :mod:`anglelib.questions.answers`.
"""

from __future__ import annotations

from anglelib.questions.answer_file import Row

ROWS: dict[str, tuple[Row, ...]] = {}


def forgotten() -> int:
    """Forgets them; of how many lessons there were any."""
    count = len(ROWS)
    ROWS.clear()
    return count
