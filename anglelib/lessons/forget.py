"""A button that forgets the answers: of all lessons, and only when pressed twice.

>>> from tempfile import TemporaryDirectory
>>> from anglelib.questions.answers import Answer, AnswerBook
>>> with TemporaryDirectory() as folder:
...     AnswerBook("07_taper_inside", folder).add(Answer("vertex", 0, "7/32", "right"))
...     box = ForgetAnswers(folder)
...     box.button.click()
...     print(len(AnswerBook("07_taper_inside", folder).answers))
...     box.button.click()
...     print(len(AnswerBook("07_taper_inside", folder).answers))
''
1
0
"""

from __future__ import annotations

import os
from pathlib import Path

import ipywidgets as widgets

from anglelib.lessons.controls import PressButton, in_turn
from anglelib.lessons.words import paragraph, said
from anglelib.questions.answers import forget, home

ASKED = "Forget my answers"
SURE = "Yes, forget them all"


class ForgetAnswers(widgets.VBox):
    """Deletes the answers that are kept in ``folder`` (the learner's own, where none is given)."""

    def __init__(self, folder: str | os.PathLike | None = None) -> None:
        self.folder = Path(folder) if folder is not None else home() / "answers"
        self.button = PressButton(description=ASKED, layout=widgets.Layout(width="auto"))
        self.keep = PressButton(description="No, keep them", layout=widgets.Layout(width="auto", display="none"))
        self.words = widgets.HTML(said("", lines=2))
        self.button.on_press(self.pressed)
        self.keep.on_press(self.kept)
        super().__init__([widgets.HBox([self.button, self.keep]), self.words])

    @in_turn
    def pressed(self) -> None:
        """The first press asks, the second does it."""
        if self.button.description == ASKED:
            self.button.description, self.keep.layout.display = SURE, ""
            self.words.value = said("All answers of all lessons in your folder will be deleted. Press again to do it.", lines=2)
            return
        count, trouble = forget(self.folder)
        self._first()
        done = f"Forgotten: the answers of {count} lesson{'' if count == 1 else 's'}." if count else "There was nothing to forget."
        again = " Pages that are open still show theirs: load them again (in JupyterLab: Kernel, Restart Kernel and Run All Cells)." if count else ""
        self.words.value = said(f"{done}{again} {trouble}".strip(), lines=2)

    @in_turn
    def kept(self) -> None:
        """Nothing is deleted."""
        self._first()
        self.words.value = said("Your answers are kept.", lines=2)

    def _first(self) -> None:
        self.button.description, self.keep.layout.display = ASKED, "none"

    def _repr_mimebundle_(self, **kwargs: object) -> dict:
        words = "A button here deletes your answers, once the page has been run."
        return {**super()._repr_mimebundle_(**kwargs), "text/html": paragraph(words), "text/plain": words}
