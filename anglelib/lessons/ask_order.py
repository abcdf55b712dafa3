"""A question of order as a widget: operations in a list, moved earlier or later by buttons or keys.

>>> from tempfile import TemporaryDirectory
>>> from anglelib.questions.answers import AnswerBook
>>> from anglelib.questions.question import Before, OrderQuestion
>>> ask = OrderQuestion("order", "In which order?", {"length": "cut to length", "square-1": "square end 1"},
...     (Before("square-1", "length", "Without a datum there is no length."),))
>>> with TemporaryDirectory() as folder:
...     box = AskOrder(lambda number: ask, AnswerBook("08_order_of_work", folder))
...     first = box.answer().sentence
...     box.entry.listed.index = 1
...     box.entry.earlier.click()
...     print(first, box.answer().sentence)
Not yet: square end 1 comes before cut to length. Without a datum there is no length. Right.
"""

from __future__ import annotations

from collections.abc import Mapping

import ipywidgets as widgets
import traitlets

from anglelib.lessons.ask import Ask
from anglelib.lessons.controls import PressButton, in_turn
from anglelib.questions.question import OrderQuestion


class OrderEntry(widgets.VBox):
    """A list in which the chosen row is moved; ``items`` are ids with their words, ``value`` is the order of the ids."""

    value = traitlets.Tuple(())

    def __init__(self, items: Mapping[str, str]) -> None:
        self.words = dict(items)
        order = tuple(self.words)
        self.listed = widgets.Select(
            options=self._numbered(order), index=0, rows=len(order), description="Your order",
            style={"description_width": "6rem"}, layout=widgets.Layout(width="auto", max_width="46rem"),
        )  # fmt: skip
        self.items = list(order)
        self.earlier, self.later = (
            PressButton(description=words, tooltip=f"Move the chosen operation one place {words.lower()}") for words in ("Earlier", "Later")
        )
        self.earlier.on_press(lambda: self._move(-1))
        self.later.on_press(lambda: self._move(1))
        super().__init__([self.listed, widgets.HBox([self.earlier, self.later])], value=order, layout=widgets.Layout(width="100%"))
        self.observe(self._take, "value")

    def _numbered(self, order: tuple[str, ...]) -> list[str]:
        return [f"{n}  {self.words[id_]}" for n, id_ in enumerate(order, start=1)]

    @in_turn
    def _move(self, by: int) -> None:
        at = self.listed.index
        to = at + by if at is not None else -1
        if 0 <= to < len(self.items):
            self.items[at], self.items[to] = self.items[to], self.items[at]
            self.value = tuple(self.items)
            self.listed.index = to

    @in_turn
    def _take(self, change: dict) -> None:
        order = change["new"]
        if sorted(order) == sorted(self.words):
            self.items = list(order)
            at = self.listed.index
            self.listed.options = self._numbered(order)
            self.listed.index = at


class AskOrder(Ask):
    """Operations to be put in order; Check says which rule is broken."""

    def _entry(self) -> widgets.Widget:
        assert isinstance(self.question, OrderQuestion)
        entry = OrderEntry(self.question.words)
        entry.observe(self._given, "value")
        return entry

    def _given(self, change: dict) -> None:
        """A move is no answer yet: Check is."""
