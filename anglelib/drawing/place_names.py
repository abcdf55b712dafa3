"""The names of an angle's places with what each is on the metal, and the signs that point at them.

>>> called("vertex"), called("outer-A")
('the vertex', 'leg A, outer face')
"""

from __future__ import annotations

import math

from anglelib.drawing.dimensions import linear_dimension
from anglelib.drawing.sheet import Circle, Group, Label, Line, Point

LETTER = 3.5

WORDS = {
    "heel": "heel",
    "toe-A": "toe of leg A",
    "toe-B": "toe of leg B",
    "outer-A": "leg A, outer face",
    "inner-A": "leg A, inner face",
    "outer-B": "leg B, outer face",
    "inner-B": "leg B, inner face",
    "fillet": "fillet",
    "end-1": "end 1",
    "end-2": "end 2",
    "vertex": "vertex",
    "taper": "taper",
    "run": "run",
    "width-left": "width left",
}
"""What each place is called, by its id."""
MEANINGS = {
    "heel": "the outside corner line, where the two outer faces meet",
    "toe-A": "the free edge of leg A, the one furthest from the heel",
    "toe-B": "the free edge of leg B, the one furthest from the heel",
    "outer-A": "the flat outside of leg A, from the heel to the toe",
    "inner-A": "the flat inside of leg A, from the toe to where the rounding begins",
    "outer-B": "the flat outside of leg B, from the heel to the toe",
    "inner-B": "the flat inside of leg B, from the toe to where the rounding begins",
    "fillet": "the rounded inside corner, between the two inner faces",
    "end-1": "the datum: the end that all lengths of this part are measured from, x = 0",
    "end-2": "the far end of the part",
    "vertex": "the one point of an end that lies on the heel",
    "taper": "the sloping cut that narrows a leg towards an end",
    "run": "how long the taper is, measured along the toe and not along the slope",
    "width-left": "how wide the tapered leg still is at the end, measured from the heel",
}
"""What each place is on the metal, by its id; no sentence has the word that it explains."""
NUMBERED = ("toe-A", "fillet", "toe-B", "heel")
"""The four lines that run along the part, in the order of their numbers."""
FACES = {"outer-A": ("A", False), "inner-A": ("A", True), "outer-B": ("B", False), "inner-B": ("B", True)}
"""The flat faces: of which leg, and whether the inner one."""
_BY_NAME = (*FACES, "end-1", "end-2")
"""Places whose words are a name: they take no article."""


def called(place: str) -> str:
    """A place's words with their article: 'the heel', 'leg A, outer face', 'end 1'."""
    return WORDS[place] if place in _BY_NAME else f"the {WORDS[place]}"


# --- signs --------------------------------------------------------------------------------------------
def thick(points: list[Point]) -> Group:
    """A line in the accent."""
    return tuple(Line(*p, *q, "mark", True) for p, q in zip(points, points[1:]))


def marked(tip: Point, way: tuple[float, float], text: str) -> Group:
    """A sign in a ring beside a place, with a line to it."""
    x, y = tip[0] + way[0] * 8, tip[1] + way[1] * 8
    long = math.hypot(x - tip[0], y - tip[1])
    ux, uy = (x - tip[0]) / long, (y - tip[1]) / long
    return (
        Line(*tip, x - ux * 3.2, y - uy * 3.2, "dimension"),
        Circle(x, y, 3.2, "narrow", "paper"),
        Label(x, y, text, LETTER, "middle", "middle"),
    )


def beside(one: Point, two: Point, text: str) -> Group:
    """A short upright dimension with its words level at its left."""
    x = one[0] - 8
    lines = tuple(i for i in linear_dimension(one, two, x, "", "y", letter=LETTER) if not isinstance(i, Label))
    return (*lines, Label(x - 2, (one[1] + two[1]) / 2, text, LETTER, "end", "middle"))
