"""Buttons that forget answers, of one lesson or of all: what goes is said first, and can be put back while the page is open.

>>> from tempfile import TemporaryDirectory
>>> from anglelib.questions.answers import Answer, AnswerBook
>>> with TemporaryDirectory() as folder:
...     book = AnswerBook("07_taper_inside", folder)
...     book.add(Answer("vertex", 0, "7/32", "right"))
...     box = ForgetAnswers(folder)
...     box.which.value = "07_taper_inside"
...     box.button.click()
...     print(len(book.answers))
...     box.button.click()
...     print(len(book.answers))
...     box.back.click()
...     print(len(book.answers))
''
1
0
1
"""

from __future__ import annotations

import os
from pathlib import Path

import ipywidgets as widgets

from anglelib.errors import AnswerError, StorageError
from anglelib.lessons.contents import LESSONS
from anglelib.lessons.controls import PressButton, in_turn
from anglelib.lessons.words import paragraph, said
from anglelib.questions.answer import ANSWERED
from anglelib.questions.answers import AnswerBook, Forgotten, forget, home, kept_of, take_back

ALL = "all"
ASKED = "Forget my answers"
SURE = "Yes, forget them"
AGAIN = "Pages that are open still show theirs: load them again (in JupyterLab: Kernel, Restart Kernel and Run All Cells)."


class ForgetAnswers(widgets.VBox):
    """Deletes the answers that are kept in ``folder`` (the learner's own, where none is given)."""

    def __init__(self, folder: str | os.PathLike | None = None) -> None:
        self.folder = Path(folder) if folder is not None else home() / "answers"
        self.gone = Forgotten()
        wide = {"layout": widgets.Layout(width="24rem", max_width="100%"), "style": {"description_width": "initial"}}
        options = [("all lessons", ALL), *((lesson.name, lesson.id) for lesson in LESSONS)]
        self.which = widgets.Dropdown(options=options, value=ALL, description="Answers of", **wide)
        self.button = self._button(ASKED)
        self.keep = self._button("No, keep them", hidden=True)
        self.back = self._button("Put them back", hidden=True)
        self.words = widgets.HTML(said("", lines=3))
        self.which.observe(self._chosen, "value")
        self.button.on_press(self.pressed)
        self.keep.on_press(self.kept)
        self.back.on_press(self.put_back)
        super().__init__([self.which, widgets.HBox([self.button, self.keep, self.back]), self.words])

    def _button(self, words: str, hidden: bool = False) -> PressButton:
        return PressButton(description=words, layout=widgets.Layout(width="auto", display="none" if hidden else ""))

    @property
    def lesson(self) -> str | None:
        """Whose answers are to be forgotten; None for all."""
        return None if self.which.value == ALL else self.which.value

    def _counts(self) -> dict[str, int]:
        """By lesson that has files here, how many answers are in them."""
        counts = {}
        for name in kept_of(self.folder):
            if self.lesson in (None, name):
                try:
                    counts[name] = sum(row.answer.status in ANSWERED for row in AnswerBook(name, self.folder).rows)
                except (AnswerError, StorageError):
                    counts[name] = 0
        return counts

    @in_turn
    def pressed(self) -> None:
        """The first press says what goes and asks, the second does it."""
        if self.button.description == ASKED:
            self._ask()
            return
        self.gone = forget(self.folder, self.lesson)
        self._first()
        count = len(self.gone.rows)
        done = f"Forgotten: {_of_lessons(count)}. {AGAIN}" if count else "There was nothing to forget."
        if any(self.gone.rows.values()):
            self.back.layout.display = ""
            done += " As long as this page is open, they can be put back."
        self._say(f"{done} {self.gone.trouble}")

    def _ask(self) -> None:
        counts = self._counts()
        self.back.layout.display = "none"
        if not counts:
            self._say("There is nothing to forget: no answers are kept" + (" of this lesson." if self.lesson else "."))
            return
        many = sum(counts.values())
        what = f"{_of_lessons(len(counts))} in your folder, {many} answer{'' if many == 1 else 's'}"
        self.button.description, self.keep.layout.display = SURE, ""
        self._say(f"This deletes {what}. {'The other lessons keep theirs. ' if self.lesson else ''}Press again to do it.")

    @in_turn
    def kept(self) -> None:
        """Nothing is deleted."""
        self._first()
        self._say("Your answers are kept.")

    @in_turn
    def put_back(self) -> None:
        """What this page has forgotten last is kept again."""
        trouble = take_back(self.folder, self.gone)
        if not trouble:
            self.gone = Forgotten()
            self.back.layout.display = "none"
        self._say(trouble or f"Your answers are back. {AGAIN}")

    @in_turn
    def _chosen(self, change: dict) -> None:
        """Another choice is not what was asked about."""
        self._first()
        self._say("")

    def _say(self, text: str) -> None:
        self.words.value = said(text.strip(), lines=3)

    def _first(self) -> None:
        self.button.description, self.keep.layout.display = ASKED, "none"

    def _repr_mimebundle_(self, **kwargs: object) -> dict:
        words = "Buttons here delete your answers, of one lesson or of all, once the page has been run."
        return {**super()._repr_mimebundle_(**kwargs), "text/html": paragraph(words), "text/plain": words}


def _of_lessons(count: int) -> str:
    return f"the answers of {count} lesson{'' if count == 1 else 's'}"
