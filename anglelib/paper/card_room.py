"""What a card gives up, and in which order, when its page is full.

The drawing keeps its place as long as it can; the marks and the readings are never given up.
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
    figure: float = FIGURE
    pictures: bool = True
    steps: str = "lines"  # or "columns", without the cautions


LADDER = (
    Room(),
    Room(0.6),
    Room(0.6, brief=True),
    Room(0.5, brief=True, plans=False),
    Room(0.5, brief=True, plans=False, drawing=False),
    Room(0.5, brief=True, plans=False, drawing=False, figure=SMALL),
    Room(0.5, brief=True, plans=False, drawing=False, figure=SMALL, pictures=False),
    Room(0.5, brief=True, plans=False, drawing=False, figure=SMALL, pictures=False, steps="columns"),
    Room(0.3, brief=True, plans=False, drawing=False, figure=SMALL, pictures=False, steps="none"),
)
