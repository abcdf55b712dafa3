"""Checks of a sheet: labels that hide each other, leave the sheet, or are struck through by a line.

>>> from anglelib.drawing.sheet import Label, Sheet
>>> heel, toe = Label(20, 10, "heel"), Label(22, 11, "toe")
>>> [(one.text, two.text) for one, two in overlaps(Sheet(40, 30, (heel, toe), "Trial", "Two labels."))]
[('heel', 'toe')]
"""

from __future__ import annotations

import math
from collections.abc import Iterable

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


def _labels(sheet: Sheet, theme: Theme) -> list[tuple[Label, tuple[Point, ...]]]:
    return [
        (item, box(item, theme.letter(item.height, sheet.height))) for item in sheet.items if isinstance(item, Label) and item.text.strip()
    ]


def overlaps(sheet: Sheet, theme: str = "screen", slack: float = 0.05) -> list[tuple[Label, Label]]:
    """Pairs of labels of which one lies on the other, or its halo does, by more than ``slack`` [mm]."""
    look = THEMES[theme]
    labels = _labels(sheet, look)
    found = []
    covers = [halo(label, look.letter(label.height, sheet.height)) if label.halo else corners for label, corners in labels]
    frames = [(_frame(corners), _frame(cover)) for (_, corners), cover in zip(labels, covers, strict=True)]
    for i, (one, first) in enumerate(labels):
        for k in range(i + 1, len(labels)):
            if not _clear(frames[i][0], frames[k][1]) and not _apart(first, covers[k], slack):
                found.append((one, labels[k][0]))
    return found


def clipped(sheet: Sheet, theme: str = "screen", margin: float = 0.0) -> list[Label]:
    """Labels that reach over the sheet's edge, or nearer to it than ``margin`` [mm]."""
    return [
        label
        for label, corners in _labels(sheet, THEMES[theme])
        if not all(margin <= x <= sheet.width - margin and margin <= y <= sheet.height - margin for x, y in corners)
    ]


def struck(sheet: Sheet, theme: str = "screen", slack: float = INTO) -> list[tuple[Label, object]]:
    """Labels into whose box a line of the drawing reaches by more than ``slack`` [mm], with the item that does; a line is as wide as it is drawn.

    A line drawn before a label with a halo is cleared by it, so it does not count.
    """
    found: list[tuple[Label, object]] = []
    items, look = sheet.items, THEMES[theme]
    labels = {id(label): _risen(label, corners) for label, corners in _labels(sheet, look)}
    pieces = [(i, item, half, *framed) for i, item in enumerate(items) if not isinstance(item, Label) if (framed := _framed(item, half := _half(item, look, sheet.height)))]
    for place, label in enumerate(items):
        if not isinstance(label, Label) or id(label) not in labels:
            continue
        corners = labels[id(label)]
        frame = _frame(corners)
        for i, item, half, segments, around in pieces:
            if (label.halo and i < place) or _clear(frame, around):
                continue
            if _crossed(corners, frame, segments, slack - half) and not _masked(items, i, corners):
                found.append((label, item))
    return found


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

    def faults(self, way: Iterable[Item], clear: float = 0.0) -> int:
        """How many words these items would hide or strike, and how many of their own would be; only a hatch may run under a halo.

        ``clear`` [mm] is kept round their own words.
        """
        labels, pieces = self._split(way)
        if clear:
            labels = [(_wider(corners, clear), _frame(_wider(corners, clear)), halo) for corners, _, halo in labels]
        found = 0
        for corners, frame, clears in labels:
            found += sum(not _clear(frame, other) and not _apart(corners, theirs, 0.05) for theirs, other in self._labels)
            for item, half, segments, around in self._pieces:
                if not (clears and isinstance(item, Hatch)) and not _clear(frame, around):
                    found += _crossed(corners, frame, segments, -APART - half)
        for _, half, segments, around in pieces:
            for corners, frame in self._labels:
                if not _clear(frame, around):
                    found += _crossed(corners, frame, segments, -APART - half)
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
    segments = [(segment, (a - by, b - by, c + by, d + by)) for segment in _pieces(item) for a, b, c, d in (_frame(segment),)]
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
