"""A box of widgets with what a saved page shows in its place.

>>> piece = Piece([], lambda: "<p>Three sticks.</p>", lambda: "Three sticks.")
>>> piece._repr_mimebundle_()["text/plain"]
'Three sticks.'
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

import ipywidgets as widgets


class Piece(widgets.VBox):
    """Widgets under one another; ``html`` and ``words`` are what is there before anything is run."""

    def __init__(self, children: Sequence[widgets.Widget], html: Callable[[], str], words: Callable[[], str]) -> None:
        # made once: a page that is run later shows what it showed at first
        self.snapshot, self.words = html(), words()
        super().__init__(children, layout=widgets.Layout(margin="0 0 1rem 0"))

    def _repr_mimebundle_(self, **kwargs: object) -> dict:
        return {**super()._repr_mimebundle_(**kwargs), "text/html": self.snapshot, "text/plain": self.words}
