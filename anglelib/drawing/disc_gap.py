"""A disc sander from the side: the gap between its table and the disc, and what must not point into it.

>>> print(gap_sheet().sentence)
A disc sander from the side. On the left the table stands as close to the disc as runs clear; the work lies flat on it, pressed down by the disc. In the middle the table is tilted: its edge has moved off, the gap is wide, and it is set again, with the power off. On the right a thin edge points into the gap, is drawn in, and jams: never.
"""

from __future__ import annotations

import math

from anglelib.drawing.dimensions import arrow, leader
from anglelib.drawing.sheet import Group, Hatch, Item, Label, Line, Point, Sheet, polygon

WIDTH, HEIGHT = 234.0, 78.0
LETTER = 3.5
TABLE = 30.0
"""Height of the table's top on the sheet [mm]."""
CLOSE, TILT = 1.2, 16.0
"""The gap that runs clear, and the tilt of the second picture [mm, deg]; the drawing is not to scale."""
LONG, THICK = 40.0, 5.0
PIVOT: Point = (-30.0, -12.0)
"""What the table tilts about, from its edge at the disc."""
COLUMNS = (56.0, 132.0, 208.0)
"""Where the faces of the three discs stand [mm]."""


def gap_sheet() -> Sheet:
    """The three tables beside their discs."""
    items: list[Item] = []
    for face, draw, title in zip(COLUMNS, (_close, _tilted, _thin), ("as close as runs clear", "tilted: set it again", "no thin edge into the gap"), strict=True):
        items += _disc(face)
        items += draw(face)
        items.append(Label(face - 44, 6, title, LETTER, "start", accent=draw is _thin))
    return Sheet(WIDTH, HEIGHT, tuple(items), "The gap beside the table", SENTENCE)


SENTENCE = (
    "A disc sander from the side. On the left the table stands as close to the disc as runs clear; the work lies flat on it, pressed down by the "
    "disc. In the middle the table is tilted: its edge has moved off, the gap is wide, and it is set again, with the power off. On the right a thin "
    "edge points into the gap, is drawn in, and jams: never."
)


def edge_of(tilt: float) -> Point:
    """Where the table's edge at the disc is after a tilt [deg], from where it was: it turns about the pivot.

    >>> edge_of(0)
    (0.0, 0.0)
    >>> x, y = edge_of(16)
    >>> round(x, 2), round(y, 2)
    (-4.47, 7.8)
    """
    a, (px, py) = math.radians(tilt), PIVOT
    return px - px * math.cos(a) + py * math.sin(a), py - px * math.sin(a) - py * math.cos(a)


def _disc(face: float) -> Group:
    """The disc seen edge on, its sheet to the left, and the way that it runs before the table."""
    rim = polygon(((face, 14), (face + 3.4, 14), (face + 3.4, 72), (face, 72)), "outline", "paper")
    grit = Hatch(((face, 14), (face + 3.4, 14), (face + 3.4, 72), (face, 72)), 60, 1.5)
    return (rim, grit, Line(face + 8, 66, face + 8, 52, "narrow"), arrow(face + 8, 51, 270, 3.0))


def _board(face: float, tilt: float) -> tuple[Point, ...]:
    a = math.radians(tilt)
    dx, dy = edge_of(tilt)
    x, y = face - CLOSE + dx, TABLE + dy

    def at(along: float, down: float) -> Point:
        return x - along * math.cos(a) + down * math.sin(a), y - along * math.sin(a) - down * math.cos(a)

    return at(0, 0), at(LONG, 0), at(LONG, THICK), at(0, THICK)


def _close(face: float) -> Group:
    y = TABLE
    work = polygon(((face - 26, y), (face, y), (face, y + 3.2), (face - 26, y + 3.2)), "outline", "paper")
    return (
        polygon(_board(face, 0), "outline", "paper"),
        work,
        Label(face - 13, y + 5.2, "work, flat", LETTER, "middle"),
        *leader((face - CLOSE / 2, y - 2.5), (face - 9, y - 11), "gap", letter=LETTER),
        Label(face - 24, y - THICK - 3.4, "table", LETTER, "end", "middle"),
    )


def _tilted(face: float) -> Group:
    board = _board(face, TILT)
    edge = board[0]
    high = edge[1] + 7
    px, py = face - CLOSE + PIVOT[0], TABLE + PIVOT[1]
    return (
        polygon(_board(face, 0), "hidden"),
        polygon(board, "outline", "paper"),
        Line(px - 1.6, py, px + 1.6, py, "narrow"),
        Line(px, py - 1.6, px, py + 1.6, "narrow"),
        Line(edge[0], edge[1] + 1.2, edge[0], edge[1] + 9, "dimension"),
        Line(edge[0] - 7, high, edge[0], high, "dimension"),
        arrow(edge[0], high, 0, 2.2),
        Label(edge[0] - 8, high, "wide", LETTER, "end", "middle"),
    )


def _thin(face: float) -> Group:
    y = TABLE
    gap = CLOSE * 3.4
    board = ((face - gap, y), (face - gap - LONG, y), (face - gap - LONG, y - THICK), (face - gap, y - THICK))
    # the thin end of a taper, flat on the table, towards the disc
    wedge = ((face - 32, y), (face - 0.6, y), (face - 32, y + 8))
    x, low = face - 24, y + 16
    return (
        polygon(board, "outline", "paper"),
        polygon(wedge, "outline", "paper", accent=True),
        Line(face - gap / 2, y - 1.5, face - gap / 2, y - 9, "narrow", True),
        arrow(face - gap / 2, y - 10, 270, 3.0, True),
        Line(x - 4, low - 4, x + 4, low + 4, "outline", True),
        Line(x - 4, low + 4, x + 4, low - 4, "outline", True),
    )
