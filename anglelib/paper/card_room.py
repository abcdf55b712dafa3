"""What a card gives up, and in which order, when a page is full.

A drawing that finds no room makes two pages of a card; the marks and the readings are never given up.
"""

from __future__ import annotations

from dataclasses import dataclass

from anglelib.paper.page import FIGURE, SMALL


@dataclass(frozen=True)
class Room:
    """What a card gives up when its page is full, and how much air its rows have."""

    pad: float = 0.9
    brief: bool = False  # a second taper's steps in one line
    plans: bool = True  # pictures from above
    drawing: bool = True
    listed: bool = False  # the holes in a list, without figures on the drawing
    figure: float = FIGURE
    pictures: bool = True
    steps: str = "lines"  # or "columns", without the cautions
    letter: float = SMALL  # of the steps


LARGE = Room(letter=FIGURE)
"""With room to spare the steps are read from arm's length."""
ONE_SHEET = (
    Room(),
    Room(0.6),
    Room(0.6, brief=True),
    Room(0.5, brief=True, plans=False),
)
"""A card with its drawing on one page; where none of these fits it takes two."""
FIRST_SHEET = (
    Room(),
    Room(0.6),
    Room(0.6, listed=True),
    Room(0.5, drawing=False, listed=True),
    Room(0.5, drawing=False, listed=True, figure=SMALL),
)
"""The first page of two: drawing, marks, readings."""
SECOND_SHEET = (
    LARGE,
    Room(),
    Room(brief=True),
    Room(brief=True, plans=False),
    Room(brief=True, plans=False, pictures=False),
    Room(brief=True, plans=False, pictures=False, steps="columns"),
)
"""The second page of two: the saw and the steps."""
