"""What on a page waits for an answer: told when a question is answered, and when it is put back.

A page's kernel is one process, so whoever waits is told at once. What was answered before the page was opened stands in the file.

>>> from tempfile import TemporaryDirectory
>>> from anglelib.questions.answers import Answer
>>> class Prose:
...     def show(self):
...         print("look again")
>>> prose = Prose()
>>> with TemporaryDirectory() as folder:
...     book = AnswerBook("07_taper_inside", folder)
...     wait(book, "predict-the-mark", prose.show)
...     print(is_answered(book, "predict-the-mark"))
...     book.add(Answer("predict-the-mark", 0, "1/8", "wrong"))
...     tell(book, "predict-the-mark")
...     print(is_answered(book, "predict-the-mark"))
False
''
look again
True
"""

from __future__ import annotations

import weakref
from collections.abc import Callable

from anglelib.questions.answer import ANSWERED
from anglelib.questions.answers import AnswerBook

_WAITING: dict[tuple[str, str], list[weakref.WeakMethod]] = {}


def wait(book: AnswerBook, question: str, look: Callable[[], None]) -> None:
    """Calls a widget's method whenever a question of a book is answered or put back."""
    waiting = _WAITING.setdefault((book.lesson, question), [])
    waiting[:] = [one for one in waiting if one() is not None]
    waiting.append(weakref.WeakMethod(look))


def tell(book: AnswerBook, question: str) -> None:
    """A question was answered, or put back."""
    for one in tuple(_WAITING.get((book.lesson, question), ())):
        if (look := one()) is not None:
            look()


def is_answered(book: AnswerBook, question: str) -> bool:
    """Whether a question stands answered, rightly or not."""
    found = book.latest(question, 0)
    return found is not None and found.status in ANSWERED
