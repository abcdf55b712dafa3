"""What stands on a visitor's page in place of a box that opens, saves or prints: a sentence, and no widget that could.

>>> NotHere().words
'On a shared page nothing is opened, saved or printed: that is done on the computer that shares it.'
"""

from __future__ import annotations

import ipywidgets as widgets

from anglelib.lessons.piece import Piece
from anglelib.lessons.words import paragraph, said

WORDS = "On a shared page nothing is opened, saved or printed: that is done on the computer that shares it."


class NotHere(Piece):
    """The sentence alone."""

    def __init__(self) -> None:
        super().__init__([widgets.HTML(said(WORDS, lines=1))], lambda: paragraph(WORDS), lambda: WORDS)
