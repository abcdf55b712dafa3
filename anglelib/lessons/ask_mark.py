"""A question answered on its drawing: a mark is moved to its place, and Check measures where it stands.

>>> from fractions import Fraction
>>> from tempfile import TemporaryDirectory
>>> from anglelib.drawing.sheet import Label, Sheet
>>> from anglelib.lessons.controls import FractionControl, fractions
>>> from anglelib.questions.question import LengthQuestion
>>> def draw(number, mark, revealed):
...     return Sheet(60, 20, (Label(5, 5, str(mark)),), "A rule", f"The mark stands at {mark}.")
>>> with TemporaryDirectory() as folder:
...     box = AskMark(
...         lambda number: LengthQuestion("mark", "Set the mark to 5/8.", Fraction(5, 8)),
...         draw,
...         lambda number: FractionControl("Mark (in.)", fractions("0", "1", "1/16"), Fraction(0)),
...         AnswerBook("04_mark_along_heel", folder),
...     )
...     box.entry.slider.value = 10
...     print(box.answer().sentence)
Understood as 5/8 (0.625) inches. Right.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import ipywidgets as widgets

from anglelib.drawing.sheet import Sheet
from anglelib.drawing.svg import image, svg
from anglelib.lengths import exact
from anglelib.lessons.ask import Ask
from anglelib.lessons.controls import FractionControl, in_turn
from anglelib.lessons.look import BOX, PICTURE, as_
from anglelib.lessons.room import ROOM
from anglelib.lessons.words import said
from anglelib.questions.answers import AnswerBook
from anglelib.questions.grading import Grade, Typed, grade
from anglelib.questions.question import Question

DrawMark = Callable[[int, Fraction, bool], Sheet]
"""Draws the question with a number, the mark where it stands, and the right place once it may show."""


class AskMark(Ask):
    """A length set as a mark on a drawing: moved by its slider or typed, graded by Check."""

    def __init__(
        self,
        make: Callable[[int], Question],
        draw: DrawMark,
        control: Callable[[int], FractionControl],
        book: AnswerBook,
        *,
        fresh: bool = False,
        title: str = "",
    ) -> None:
        self.draw, self.control = draw, control
        self.picture = as_(PICTURE, widgets.HTML())
        super().__init__(make, book, fresh=fresh, title=title)
        self.add_class(BOX)
        self.children = [self.prompt, self.picture, self.row, self.feedback]
        ROOM.observe(self._redraw, "theme")

    def _entry(self) -> widgets.Widget:
        entry = self.control(self.number)
        entry.observe(self._given, "value")
        entry.observe(self._refused, "trouble")
        return entry

    @in_turn
    def _show_question(self) -> None:
        super()._show_question()
        self.row.children = [widgets.VBox([self.entry, self.buttons], layout=widgets.Layout(width="100%", max_width="40rem"))]
        self._redraw()

    @in_turn
    def _redraw(self, change: dict | None = None) -> None:
        revealed = self.grade is not None and self.grade.right
        self.picture.value = svg(self.draw(self.number, self.entry.value, revealed), ROOM.theme)

    @in_turn
    def _given(self, change: dict) -> None:
        """A moved mark is drawn; only Check makes it an answer."""
        if self.grade is not None:
            self.grade = None
            self.feedback.value = said("", lines=self.lines)
        self._redraw()

    @in_turn
    def _refused(self, change: dict) -> None:
        if change["new"]:
            self.feedback.value = said(change["new"], "unreadable", lines=self.lines)

    @in_turn
    def answer(self) -> Grade:
        return self._show(exact(self.entry.value), keep=True)

    @in_turn
    def _show(self, typed: Typed, keep: bool) -> Grade:
        found = grade(self.question, typed)
        if not keep and found.value is not None:  # an answer of before: the mark stands where it stood
            low, high = self.entry.values[0], self.entry.values[-1]
            if low <= found.value <= high:
                self.entry.value = found.value
        found = self._tell(found, typed, keep)
        self._redraw()
        return found

    @property
    def snapshot(self) -> str:
        start = self.control(0).value
        return image(self.draw(0, start, False)) + super().snapshot
