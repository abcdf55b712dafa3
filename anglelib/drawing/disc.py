"""A disc sander from the front: on which half of the table the work is held.

>>> print(disc_sheet("clockwise").sentence)
A disc sander from the front, its table across the middle. The disc turns clockwise: its right half runs down on to the table, and there the work is held. On the left half it comes up and lifts the work off.
"""

from __future__ import annotations

import math

from anglelib.drawing.dimensions import arrow, leader
from anglelib.drawing.sheet import Arc, Circle, Group, Hatch, Item, Label, Line, Point, Sheet, polygon

WIDTH, HEIGHT = 234.0, 100.0
LETTER = 3.5
MIDDLE: Point = (117.0, 50.0)
RADIUS = 40.0
TURNS = ("clockwise", "anticlockwise")
HALVES = {"left": "left half", "right": "right half"}
"""The halves of the disc, by id, in words."""
LEFT, RIGHT = HALVES


def running_down(turn: str) -> str:
    """The half of the disc that runs down, seen from the front, in words.

    >>> running_down("clockwise"), running_down("anticlockwise")
    ('right', 'left')
    """
    return RIGHT if turn == TURNS[0] else LEFT


def coming_up(turn: str) -> str:
    """The other half."""
    return LEFT if running_down(turn) == RIGHT else RIGHT


def disc_sheet(turn: str, answer: bool = True) -> Sheet:
    """The disc, how it turns, its table; with the answer also where the work is held."""
    if turn not in TURNS:
        raise ValueError(f"the disc turns {' or '.join(TURNS)}")
    way = 1 if running_down(turn) == RIGHT else -1
    x, y = MIDDLE
    items: list[Item] = [Circle(x, y, RADIUS, "outline"), Circle(x, y, 1.0, "", "ink")]
    if answer:
        items.append(Hatch(_half(way), 45, 3.0, accent=True))
    items += _turning(way)
    items.append(polygon(((x - 62, y), (x + 62, y), (x + 62, y - 5), (x - 62, y - 5)), "outline", "paper"))
    items += leader((x - 62, y - 2.5), (x - 72, y - 10), "table", letter=LETTER)
    items += leader((x - RADIUS * math.sqrt(0.5), y - RADIUS * math.sqrt(0.5)), (x - 46, y - 38), "disc", letter=LETTER)
    if answer:
        items += _work(way)
    return Sheet(WIDTH, HEIGHT, tuple(items), "Which half of the disc", disc_sentence(turn, answer))


def _half(way: int) -> tuple[Point, ...]:
    """The quarter of the disc above the table that runs down."""
    x, y = MIDDLE
    turns = [math.radians(5 * i) for i in range(19)]
    return ((x, y), *((x + way * RADIUS * math.cos(a), y + RADIUS * math.sin(a)) for a in turns))


def _turning(way: int) -> Group:
    """The arrow that says how the disc turns, over its rim."""
    x, y = MIDDLE
    far = RADIUS + 4
    end = 60.0 if way > 0 else 120.0
    tip = (x + far * math.cos(math.radians(end)), y + far * math.sin(math.radians(end)))
    return (Arc(x, y, far, 60, 120, "narrow"), arrow(*tip, end - way * 86, 4.0))


def _work(way: int) -> Group:
    """A piece of angle on the table, and what each half does."""
    x, y = MIDDLE
    left = x + way * 15
    right = x + way * 29
    items: list[Item] = [polygon(((left, y), (right, y), (right, y + 3), (left, y + 3)), "outline", "paper")]
    for side, words, accent in ((way, "runs down: work here", True), (-way, "comes up: keep off", False)):
        at = x + side * 50
        high, low = (y + 34, y + 14) if side == way else (y + 14, y + 34)
        items.append(Line(at, high, at, low, "narrow", accent))
        items.append(arrow(at, low, 270 if side == way else 90, 4.0, accent))
        items.append(Label(at + side * 3, y + 24, words, LETTER, "start" if side > 0 else "end", "middle", accent=accent))
    return tuple(items)


def disc_sentence(turn: str, answer: bool = True) -> str:
    """What the picture shows, in words."""
    words = f"A disc sander from the front, its table across the middle. The disc turns {turn}"
    if not answer:
        return f"{words}. On which half of the table the work is held is not shown yet."
    down, up = HALVES[running_down(turn)], HALVES[coming_up(turn)]
    return f"{words}: its {down} runs down on to the table, and there the work is held. On the {up} it comes up and lifts the work off."
