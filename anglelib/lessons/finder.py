"""A list of words with their drawings, filtered by what is typed; a saved page shows all of it.

>>> finder = Finder([Entry("heel", "the outside corner line", "<p>heel</p>"), Entry("toe", "a leg's free edge", "<p>toe</p>")])
>>> finder.search.value = "corner"
>>> [entry.word for entry in finder.found], finder.told
(['heel'], '1 of 2: heel.')
>>> finder.search.value = "zzz"
>>> finder.told
'Nothing here has "zzz" in it: try fewer letters.'
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import ipywidgets as widgets

from anglelib.lessons.controls import in_turn
from anglelib.lessons.look import page_style, projector_switch
from anglelib.lessons.piece import Piece
from anglelib.lessons.words import said

MOST_NAMED = 12
"""How many words are read aloud of those that are found."""


@dataclass(frozen=True)
class Entry:
    """A word, what it means, and its row as HTML; ``also`` are further words by which it is found."""

    word: str
    meaning: str
    html: str
    also: str = ""

    def has(self, words: Sequence[str]) -> bool:
        """Whether every one of some small-letter words is in it."""
        text = f"{self.word} {self.meaning} {self.also}".lower()
        return all(word in text for word in words)


class Finder(Piece):
    """Entries under a field for what is sought; nothing typed shows all."""

    def __init__(self, entries: Sequence[Entry], label: str = "Find") -> None:
        self.entries = tuple(entries)
        self.search = widgets.Text(
            "", description=label, placeholder="a word or a part of it", continuous_update=True,
            style={"description_width": "4rem"}, layout=widgets.Layout(width="24rem", max_width="100%"),
        )  # fmt: skip
        self.status, self.list = widgets.HTML(), widgets.HTML()
        self._show()
        super().__init__([widgets.HBox([self.search, projector_switch(), page_style()], layout=widgets.Layout(flex_flow="row wrap", align_items="center")), self.status, self.list], lambda: self._rows(self.entries), lambda: self._listed())
        self.search.observe(self._sought, "value")

    @property
    def found(self) -> tuple[Entry, ...]:
        """The entries that have every word that is typed; those whose own word begins so come first."""
        words = self.search.value.lower().split()
        having = [entry for entry in self.entries if entry.has(words)]
        return tuple(sorted(having, key=lambda entry: not entry.word.lower().startswith(words[0]))) if words else tuple(having)

    @property
    def told(self) -> str:
        """What was found, in a sentence."""
        found, sought = self.found, self.search.value.strip()
        if not sought:
            return f"{len(self.entries)} entries."
        if not found:
            return f'Nothing here has "{sought[:40]}" in it: try fewer letters.'
        more = f" and {len(found) - MOST_NAMED} more" if len(found) > MOST_NAMED else ""
        return f"{len(found)} of {len(self.entries)}: {', '.join(entry.word for entry in found[:MOST_NAMED])}{more}."

    def _rows(self, entries: Sequence[Entry]) -> str:
        return "".join(entry.html for entry in entries)

    def _listed(self) -> str:
        return "\n".join(f"{entry.word}: {entry.meaning}" for entry in self.entries)

    def _show(self) -> None:
        self.status.value = said(self.told, lines=1)
        self.list.value = self._rows(self.found)

    @in_turn
    def _sought(self, change: dict) -> None:
        self._show()
