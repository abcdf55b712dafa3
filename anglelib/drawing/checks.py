"""Checks of a sheet: labels that hide each other, leave the sheet, or are struck through by a line.

>>> from anglelib.drawing.sheet import Label, Sheet
>>> heel, toe = Label(20, 10, "heel"), Label(22, 11, "toe")
>>> [(one.text, two.text) for one, two in overlaps(Sheet(40, 30, (heel, toe), "Trial", "Two labels."))]
[('heel', 'toe')]
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from typing import NamedTuple

from anglelib.drawing.letters import box, halo
from anglelib.drawing.sheet import Arc, Circle, Hatch, Item, Label, Line, Point, Polyline, Sheet
from anglelib.drawing.style import KINDS, THEMES, Theme

Frame = tuple[float, float, float, float]
"""Left, bottom, right and top."""
Framed = tuple[tuple[Point, Point], Frame]
"""A straight piece with its frame, the width of its line counted."""
INTO = 0.05
"""So far the edge of a line may reach into a word's box, whose letters leave that much white [mm]."""
APART = 0.2
"""So far from a word's box the edge of a line stays where there is a choice of places [mm]."""
RISING = frozenset("bdfhijkl()[]{}|/?°")
RISE = 0.045
"""By how much these rise over the capitals, as a part of their height."""


def bounds(items: Iterable[Item]) -> Frame:
    """Left, bottom, right and top of the items' points [mm]; labels by their box, circles whole."""
    xs: list[float] = []
    ys: list[float] = []
    for item in items:
        if isinstance(item, Line):
            points: tuple[Point, ...] = ((item.x1, item.y1), (item.x2, item.y2))
        elif isinstance(item, (Polyline, Hatch)):
            points = item.points
        elif isinstance(item, Arc):
            points = item.points()
        elif isinstance(item, Circle):
            r = item.radius
            points = ((item.x - r, item.y - r), (item.x + r, item.y + r))
        else:
            points = box(item)
        xs += [x for x, _ in points]
        ys += [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


def _apart(one: tuple[Point, ...], two: tuple[Point, ...], slack: float) -> bool:
    """Whether some line parts two rectangles or straight pieces (they may sink into each other by ``slack``)."""
    for shape in (one, two):
        for (x1, y1), (x2, y2) in zip(shape[: len(shape) // 2], shape[1:]):  # the other sides run along these
            nx, ny = y2 - y1, x1 - x2
            long = math.hypot(nx, ny)
            if not long:
                continue
            first = [(x * nx + y * ny) / long for x, y in one]
            second = [(x * nx + y * ny) / long for x, y in two]
            if max(first) <= min(second) + slack or max(second) <= min(first) + slack:
                return True
    return False


OVER = 0.05
"""How far a label may lie on another before it counts [mm]."""


def overlaps(sheet: Sheet, theme: str = "screen", slack: float = OVER) -> list[tuple[Label, Label]]:
    """Pairs of labels of which one lies on the other, or its halo does, by more than ``slack`` [mm]."""
    words = _words(sheet.items, 0, _letters(sheet, theme))
    return [(one.label, two.label) for n, one in enumerate(words) for two in words[n + 1 :] if one.hides(two, slack)]


def clipped(sheet: Sheet, theme: str = "screen", margin: float = 0.0) -> list[Label]:
    """Labels that reach over the sheet's edge, or nearer to it than ``margin`` [mm]."""
    return [
        word.label
        for word in _words(sheet.items, 0, _letters(sheet, theme))
        if not all(margin <= x <= sheet.width - margin and margin <= y <= sheet.height - margin for x, y in word.corners)
    ]


def struck(sheet: Sheet, theme: str = "screen", slack: float = INTO) -> list[tuple[Label, object]]:
    """Labels into whose box a line of the drawing reaches by more than ``slack`` [mm], with the item that does; a line is as wide as it is drawn.

    A line drawn before a label with a halo is cleared by it, so it does not count.
    """
    items, pieces = sheet.items, _ink(sheet.items, 0, THEMES[theme], sheet.height)
    words = _words(items, 0, _letters(sheet, theme))
    return [(word.label, items[piece.place]) for word in words for piece in pieces if word.struck_by(piece, items, slack)]


def _letters(sheet: Sheet, theme: str) -> Callable[[float], float]:
    """How high letters of a height [mm] come out on a sheet."""
    look = THEMES[theme]
    return lambda height: look.letter(height, sheet.height)


class Drawn:
    """A drawing on paper, kept ready to count what a way to write something on it would spoil: as :func:`overlaps` and :func:`struck` do, lines kept apart.

    >>> from anglelib.drawing.sheet import Line
    >>> drawn = Drawn((Line(0, 0, 50, 0),))
    >>> drawn.faults((Label(10, -1, "across"),)), drawn.faults((Label(10, 5, "above"),))
    (1, 0)
    """

    def __init__(self, items: Iterable[Item]) -> None:
        self.items = tuple(items)
        self._words, self._ink = _words(self.items, 0), _ink(self.items, 0)

    def faults(self, way: Iterable[Item], slack: float = -APART) -> int:
        """How many words these items would hide or strike, and how many of their own would be; a paper patch among them clears what it covers.

        A line that reaches further into a word's box than ``slack`` [mm] strikes it.
        """
        way = tuple(way)
        items = (*self.items, *way)
        if any(isinstance(item, Polyline) and item.fill == "paper" for item in way):  # it may clear what is struck without it
            return _faults(items, slack) - _faults(self.items, slack)
        words, ink = _words(way, len(self.items)), _ink(way, len(self.items))
        found = sum(one.hides(two) for one in self._words for two in words)
        found += sum(one.hides(two) for n, one in enumerate(words) for two in words[n + 1 :])
        found += sum(word.struck_by(piece, items, slack) for word in words for piece in (*self._ink, *ink))
        return found + sum(word.struck_by(piece, items, slack) for word in self._words for piece in ink)


def _faults(items: tuple[Item, ...], slack: float) -> int:
    """How many words are hidden or struck."""
    words, ink = _words(items, 0), _ink(items, 0)
    found = sum(one.hides(two) for n, one in enumerate(words) for two in words[n + 1 :])
    return found + sum(word.struck_by(piece, items, slack) for word in words for piece in ink)


class _Piece(NamedTuple):
    """What an item draws: its place among the items, half the width of its line."""

    place: int
    half: float
    segments: list[Framed]
    frame: Frame


class _Word(NamedTuple):
    """A label, its place among the items, its box, up to the tops of its letters, and what it covers: its halo where it has one; each with its frame."""

    label: Label
    place: int
    corners: tuple[Point, ...]
    frame: Frame
    risen: tuple[Point, ...]
    rises: Frame
    cover: tuple[Point, ...]
    covers: Frame

    def hides(self, later: _Word, slack: float = OVER) -> bool:
        """Whether a label that is drawn later lies on this one."""
        return not _clear(self.frame, later.covers) and not _apart(self.corners, later.cover, slack)

    def struck_by(self, piece: _Piece, items: tuple[Item, ...], slack: float = INTO) -> bool:
        """Whether a piece runs through this label, and nothing clears it."""
        if _clear(self.rises, piece.frame) or (self.label.halo and piece.place < self.place):
            return False
        return _crossed(self.risen, self.rises, piece.segments, slack - piece.half) and not _masked(items, piece.place, self.risen)


def _words(items: tuple[Item, ...], first: int, letters: Callable[[float], float] = float) -> list[_Word]:
    """The labels among some items, the first of which has this place."""
    found = []
    for place, item in enumerate(items, first):
        if isinstance(item, Label) and item.text.strip():
            high = letters(item.height)
            corners = box(item, high)
            cover = halo(item, high) if item.halo else corners
            risen = _risen(item, corners)
            frame = _frame(corners)
            found.append(_Word(item, place, corners, frame, risen, frame if risen is corners else _frame(risen), cover, _frame(cover) if item.halo else frame))
    return found


def _ink(items: tuple[Item, ...], first: int, look: Theme = THEMES["paper"], picture: float = 0.0) -> list[_Piece]:
    """What is drawn besides labels, the first item having this place."""
    drawn = [(place, item, _half(item, look, picture)) for place, item in enumerate(items, first) if not isinstance(item, Label)]
    return [_Piece(place, half, *framed) for place, item, half in drawn if (framed := _framed(item, half))]


class Taken:
    """What a drawing holds so far, kept ready so that many ways to write something on it can be tried quickly.

    >>> from anglelib.drawing.sheet import Line
    >>> taken = Taken((Line(0, 0, 50, 0),))
    >>> taken.faults((Label(10, -1, "across"),)), taken.faults((Label(10, 5, "above"),))
    (1, 0)
    """

    def __init__(self, items: Iterable[Item] = ()) -> None:
        self._labels: list[tuple[tuple[Point, ...], Frame]] = []
        self._pieces: list[tuple[Item, float, list[Framed], Frame]] = []
        self.add(items)

    def copy(self) -> Taken:
        """The same, to go on from."""
        other = Taken()
        other._labels, other._pieces = [*self._labels], [*self._pieces]
        return other

    def _split(self, items: Iterable[Item]):
        labels, pieces = [], []
        for item in items:
            if isinstance(item, Label):
                if item.text.strip():
                    corners = halo(item, item.height) if item.halo else _risen(item, box(item, item.height))
                    labels.append((corners, _frame(corners), item.halo))
            elif framed := _framed(item, half := _half(item)):
                pieces.append((item, half, *framed))
        return labels, pieces

    def add(self, items: Iterable[Item]) -> None:
        """Takes more items into the drawing."""
        labels, pieces = self._split(items)
        self._labels += [(corners, frame) for corners, frame, _ in labels]
        self._pieces += pieces

    def faults(self, way: Iterable[Item], clear: float = 0.0, slack: float = -APART) -> int:
        """How many words these items would hide or strike, and how many of their own would be; only a hatch may run under a halo.

        ``clear`` [mm] is kept round their own words. A line that reaches further into a word's box than ``slack`` [mm] strikes it.
        """
        labels, pieces = self._split(way)
        if clear:
            labels = [(_wider(corners, clear), _frame(_wider(corners, clear)), halo) for corners, _, halo in labels]
        found = 0
        for corners, frame, clears in labels:
            found += sum(not _clear(frame, other) and not _apart(corners, theirs, 0.05) for theirs, other in self._labels)
            for item, half, segments, around in self._pieces:
                if not (clears and isinstance(item, Hatch)) and not _clear(frame, around):
                    found += _crossed(corners, frame, segments, slack - half)
        for _, half, segments, around in pieces:
            for corners, frame in self._labels:
                if not _clear(frame, around):
                    found += _crossed(corners, frame, segments, slack - half)
        return found


def _risen(label: Label, corners: tuple[Point, ...]) -> tuple[Point, ...]:
    """A word's box up to the tops of those of its letters that rise over the capitals."""
    if not RISING.intersection(label.text):
        return corners
    a, b, c, d = corners
    tall = math.hypot(d[0] - a[0], d[1] - a[1]) or 1.0
    x, y = ((d[i] - a[i]) / tall * RISE * label.height for i in (0, 1))
    return a, b, (c[0] + x, c[1] + y), (d[0] + x, d[1] + y)


def _wider(corners: tuple[Point, ...], by: float) -> tuple[Point, ...]:
    """The upright box round some corners, with a margin."""
    left, bottom, right, top = _frame(corners)
    return (left - by, bottom - by), (right + by, bottom - by), (right + by, top + by), (left - by, top + by)


def _half(item: Item, look: Theme = THEMES["paper"], picture: float = 0.0) -> float:
    """Half the width of an item's line on a picture so many millimetres high [mm]; of a shape without an edge, none."""
    kind = getattr(item, "kind", "")
    return look.line(KINDS[kind].width, picture) / 2 if kind else 0.0


def _framed(item: Item, half: float) -> tuple[list[Framed], Frame] | None:
    """The straight pieces that an item draws, each with its frame, and the frame of them all, wider by half a line and what is kept apart; None where it draws none."""
    by = half + APART
    segments = [((one, two), _span(one, two, by)) for one, two in _pieces(item)]
    if not segments:
        return None
    lows, highs = [frame[:2] for _, frame in segments], [frame[2:] for _, frame in segments]
    return segments, (min(x for x, _ in lows), min(y for _, y in lows), max(x for x, _ in highs), max(y for _, y in highs))


def _crossed(corners: tuple[Point, ...], frame: Frame, segments: Iterable[Framed], slack: float) -> bool:
    """Whether a straight piece runs through a rectangle."""
    return any(not _clear(frame, around) and not _apart(corners, segment, slack) for segment, around in segments)


def _frame(points: Iterable[Point]) -> Frame:
    """Left, bottom, right and top of some points."""
    xs, ys = zip(*points)
    return min(xs), min(ys), max(xs), max(ys)


def _span(one: Point, two: Point, by: float) -> Frame:
    """The frame of a straight piece, wider by so much."""
    (a, b), (c, d) = one, two
    return (a if a < c else c) - by, (b if b < d else d) - by, (c if a < c else a) + by, (d if b < d else b) + by


def _clear(one: Frame, two: Frame) -> bool:
    """Whether two upright frames do not even touch."""
    return one[2] < two[0] or two[2] < one[0] or one[3] < two[1] or two[3] < one[1]


def _masked(items: tuple, place: int, corners: tuple[Point, ...]) -> bool:
    """Whether a paper-filled polygon drawn after item ``place`` covers the corners (a boxed label)."""
    for item in items[place + 1 :]:
        if isinstance(item, Polyline) and item.fill == "paper" and len(item.points) == 4:
            xs, ys = [p[0] for p in item.points], [p[1] for p in item.points]
            if all(min(xs) <= x <= max(xs) and min(ys) <= y <= max(ys) for x, y in corners):
                return True
    return False


def _pieces(item: object) -> Iterable[tuple[Point, Point]]:
    """The straight pieces that an item draws."""
    if isinstance(item, Line):
        yield (item.x1, item.y1), (item.x2, item.y2)
    elif isinstance(item, Polyline):
        points = item.points
        yield from zip(points, points[1:] + points[:1] if item.closed else points[1:])
    elif isinstance(item, Hatch):
        for line in item.lines():
            yield (line.x1, line.y1), (line.x2, line.y2)
    elif isinstance(item, (Arc, Circle)):
        points = (item if isinstance(item, Arc) else Arc(item.x, item.y, item.radius, 0, 360)).points()
        yield from zip(points, points[1:])
