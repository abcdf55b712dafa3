"""A question about a picture: every set of numbers has its own drawing.

>>> from tempfile import TemporaryDirectory
>>> from anglelib.drawing.running import running_sheet
>>> from anglelib.questions.start_here import EXERCISES
>>> series = EXERCISES["gap"]
>>> with TemporaryDirectory() as folder:
...     box = AskPicture(series.__getitem__, lambda n: running_sheet(series.thing(n)), AnswerBook("00_start_here", folder), fresh=True)
>>> first = box.picture.value
>>> box.other.click()
>>> box.picture.value != first
True
"""

from __future__ import annotations

from collections.abc import Callable

import ipywidgets as widgets

from anglelib.drawing.sheet import Sheet
from anglelib.drawing.svg import image, svg
from anglelib.lessons.ask import Ask
from anglelib.lessons.controls import in_turn
from anglelib.lessons.look import BOX, PICTURE, as_
from anglelib.lessons.room import ROOM
from anglelib.questions.answers import AnswerBook
from anglelib.questions.question import Question


class AskPicture(Ask):
    """A question under its picture; ``draw(number)`` draws what the question with that number is about."""

    def __init__(
        self,
        make: Callable[[int], Question],
        draw: Callable[[int], Sheet],
        book: AnswerBook,
        *,
        fresh: bool = False,
        title: str = "",
    ) -> None:
        self.draw = draw
        self.picture = as_(PICTURE, widgets.HTML())
        super().__init__(make, book, fresh=fresh, title=title)
        self.add_class(BOX)
        self.children = [self.prompt, self.picture, self.row, self.feedback]
        ROOM.observe(self._room_changed, "theme")

    @in_turn
    def _room_changed(self, change: dict) -> None:
        self.picture.value = svg(self.draw(self.number), ROOM.theme)

    @in_turn
    def _show_question(self) -> None:
        super()._show_question()
        self.picture.value = svg(self.draw(self.number), ROOM.theme)

    @property
    def snapshot(self) -> str:
        return image(self.draw(0)) + super().snapshot
