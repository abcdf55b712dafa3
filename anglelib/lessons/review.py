"""Review: what went wrong is asked again, spaced in time, with fresh numbers, and each time it is said why it comes back.

One question stands there at a time; its answer is kept with those of its lesson. What is due follows from these answers alone
(:mod:`anglelib.workshop.review`), so nothing else is kept.

>>> from tempfile import TemporaryDirectory
>>> with TemporaryDirectory() as folder:
...     box = Review(folder)
>>> box.told
'Nothing is due. An exercise that goes wrong comes back here until it has been right often enough.'
"""

from __future__ import annotations

import os
from collections.abc import Callable
from datetime import datetime
from importlib import import_module
from pathlib import Path

import ipywidgets as widgets

from anglelib.lessons.ask import Ask
from anglelib.lessons.contents import LESSONS
from anglelib.lessons.controls import PressButton, in_turn
from anglelib.lessons.look import DO
from anglelib.lessons.words import paragraph, said
from anglelib.questions import moments
from anglelib.questions.answers import home
from anglelib.workshop.lesson_questions import MODULES
from anglelib.workshop.own_questions import OWN
from anglelib.workshop.review import Item, Reviewed
from anglelib.workshop.review import review as reviewed
from anglelib.workshop.review_words import due_words, why_words
from anglelib.workshop.so_far import kept
from anglelib.workshop.so_far_words import unread_words

LESSON = "review"
NAMES = {lesson.id: lesson.name for lesson in LESSONS}


def asked(item: Item) -> Ask:
    """The exercise of its lesson, with the numbers whose turn it is; the answer is kept in the learner's folder."""
    module = import_module(f"anglelib.lessons.{MODULES.get(item.lesson, item.lesson[3:])}")
    box = module.exercise(OWN[item.lesson].exercises.index(item.question) + 1)
    box.title = ""
    box.ask_number(item.number)
    return box


class Review(widgets.VBox):
    """What is due, one question after another. ``folder`` is the folder of answers, ``clock`` says what time it is."""

    def __init__(self, folder: str | os.PathLike | None = None, clock: Callable[[], datetime] = moments.now) -> None:
        self.folder = Path(folder) if folder is not None else home() / "answers"
        self.clock = clock
        self.box: Ask | None = None
        self.item: Item | None = None
        self._shown: list[tuple[str, str]] = []
        self.words, self.why = widgets.HTML(), widgets.HTML()
        self.place = widgets.VBox()
        self.onward = PressButton(DO, description="Next question", layout=widgets.Layout(width="auto"))
        self.onward.on_press(self.go_on)
        super().__init__([self.words, self.why, self.place, self.onward])
        self.go_on()

    @property
    def found(self) -> Reviewed:
        """What comes back, as the files and the clock have it now."""
        return reviewed(kept(self.folder).answers, self.clock())

    @property
    def told(self) -> str:
        """How many are due, or when the next is."""
        return due_words(self.found, self.clock())

    @in_turn
    def go_on(self) -> None:
        """The next question that is due: first those that were not shown yet, in the order of the lessons; then those that went wrong once more."""
        found = self.found
        unread = unread_words(kept(self.folder).unread)
        self.words.value = said(f"{due_words(found, self.clock())} {unread}".strip(), lines=1)
        waiting = [item for item in found.due if (item.lesson, item.question) not in self._shown]
        if not waiting:
            self._shown = []
            waiting = [item for item in found.due if len(found.due) == 1 or self.item is None or item.question != self.item.question]
        self._put(waiting[0] if waiting else None)

    def _put(self, item: Item | None) -> None:
        self.item = item
        self.onward.layout.display = "none" if item is None else ""
        if item is None:
            self.box, self.why.value, self.place.children = None, "", ()
            return
        self._shown.append((item.lesson, item.question))
        self.box = asked(item)
        self.why.value = paragraph(NAMES[item.lesson], bold=True) + paragraph(why_words(item))
        self.place.children = (self.box,)

    def _repr_mimebundle_(self, **kwargs: object) -> dict:
        words = "Once the page has been run, the questions that are due stand here, one at a time."
        return {**super()._repr_mimebundle_(**kwargs), "text/html": paragraph(words), "text/plain": words}


def review() -> Review:
    """What is due of the learner's own answers."""
    return Review()
