"""A drawing as data: frozen lines, arcs, hatches and labels, in millimetres on a sheet.

x runs right and y up from the sheet's lower left corner. An item knows what it is *for* (its kind,
see :mod:`anglelib.drawing.style`), never how it looks. A group is a plain tuple of items: add groups
with ``+``, shift them with :func:`move`, enlarge them with :func:`scale`.

>>> bar = (Line(0, 0, 100, 0, "outline"), Label(50, 2, "100 mm"))
>>> sheet = Sheet(120, 30, move(bar, 10, 10), "A bar", "A bar 100 millimetres long.")
>>> sheet.items[0]
Line(x1=10, y1=10, x2=110, y2=10, kind='outline', accent=False)
>>> Sheet(120, 30, bar, "A bar", "")
Traceback (most recent call last):
    ...
ValueError: a sheet needs its sentence: it is what a person hears who cannot see the drawing
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace

from anglelib.drawing.escape import clean
from anglelib.drawing.style import KINDS

Point = tuple[float, float]


def hundredths(value: float) -> int:
    """A coordinate in whole hundredths of a millimetre, the same on every Python.

    Inch fractions in millimetres sit on rounding ties (1/16 in. is 1.5875 mm); the small nudge takes
    a tie that floating point left just below up, like one just above.

    >>> hundredths(1.5875), hundredths(1.585), hundredths(-0.001)
    (159, 159, 0)
    """
    return math.floor(value * 100 + 0.5 + 1e-6)


def coordinate(value: float) -> float:
    """A coordinate rounded for writing or comparing [mm]; never minus nought."""
    return hundredths(value) / 100


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line."""

    x1: float
    y1: float
    x2: float
    y2: float
    kind: str = "outline"
    accent: bool = False


@dataclass(frozen=True, slots=True)
class Polyline:
    """Straight pieces end to end; closed, it is a polygon that may be filled ('ink', 'accent', 'paper').

    ``kind`` may be "" for a filled polygon without an edge, whose size is then exact.
    """

    points: tuple[Point, ...]
    kind: str = "outline"
    closed: bool = False
    fill: str = ""
    accent: bool = False


def polygon(points: Iterable[Point], kind: str = "outline", fill: str = "", accent: bool = False) -> Polyline:
    """A closed :class:`Polyline`."""
    return Polyline(tuple(points), kind, True, fill, accent)


@dataclass(frozen=True, slots=True)
class Arc:
    """Part of a circle, anticlockwise from ``start`` to ``end`` [deg]."""

    x: float
    y: float
    radius: float
    start: float
    end: float
    kind: str = "outline"
    accent: bool = False

    def points(self, pieces: int = 32) -> tuple[Point, ...]:
        """Points along the arc, ends included."""
        turn = (self.end - self.start) / pieces
        angles = [math.radians(self.start + turn * i) for i in range(pieces + 1)]
        return tuple((self.x + self.radius * math.cos(a), self.y + self.radius * math.sin(a)) for a in angles)


@dataclass(frozen=True, slots=True)
class Circle:
    """A whole circle, filled if ``fill`` names a colour ('ink', 'accent', 'paper')."""

    x: float
    y: float
    radius: float
    kind: str = "outline"
    fill: str = ""
    accent: bool = False


@dataclass(frozen=True, slots=True)
class Hatch:
    """Parallel lines over a polygon, ``spacing`` [mm] apart, at ``angle`` [deg] to the x axis."""

    points: tuple[Point, ...]
    angle: float = 45.0
    spacing: float = 2.0
    kind: str = "hatch"
    accent: bool = False

    def lines(self) -> tuple[Line, ...]:
        """The lines, cut off at the polygon's edge.

        The pattern is fixed to the polygon's first point, so that a hatch moved is the same hatch.
        """
        x0, y0 = self.points[0]
        c, s = math.cos(math.radians(self.angle)), math.sin(math.radians(self.angle))
        turned = [((x - x0) * c + (y - y0) * s, (y - y0) * c - (x - x0) * s) for x, y in self.points]
        heights = [v for _, v in turned]
        lines = []
        # a line along an edge is left out: the edge is drawn anyway
        first = math.floor(min(heights) / self.spacing + 1e-9) + 1
        for step in range(first, math.ceil(max(heights) / self.spacing - 1e-9)):
            level = step * self.spacing
            crossings = sorted(
                u1 + (level - v1) / (v2 - v1) * (u2 - u1)
                for (u1, v1), (u2, v2) in zip(turned, turned[1:] + turned[:1])
                if (v1 <= level) != (v2 <= level)  # half open: a corner on the level counts once
            )
            for u1, u2 in zip(crossings[::2], crossings[1::2]):
                if u2 - u1 > 1e-9:
                    lines.append(
                        Line(
                            x0 + u1 * c - level * s,
                            y0 + u1 * s + level * c,
                            x0 + u2 * c - level * s,
                            y0 + u2 * s + level * c,
                            self.kind,
                            self.accent,
                        )
                    )
        return tuple(lines)


@dataclass(frozen=True, slots=True)
class Label:
    """One line of text. ``height`` is that of its capitals [mm].

    ``anchor``: the point is at the text's 'start', 'middle' or 'end'. ``base``: the point is at the
    'bottom', 'middle' or 'top' of the capitals. ``halo`` clears the lines behind the text.
    """

    x: float
    y: float
    text: str
    height: float = 3.5
    anchor: str = "middle"
    base: str = "bottom"
    rotation: float = 0.0
    halo: bool = False
    accent: bool = False

    def __post_init__(self) -> None:
        object.__setattr__(self, "text", clean(self.text))

    def baseline(self, height: float | None = None) -> Point:
        """Where the text's baseline starts from its anchor [mm]."""
        drop = {"bottom": 0.0, "middle": 0.5, "top": 1.0}[self.base] * (height or self.height)
        if not drop:
            return self.x, self.y
        if not self.rotation:
            return self.x, self.y - drop
        turn = math.radians(self.rotation)
        return self.x + drop * math.sin(turn), self.y - drop * math.cos(turn)


Item = Line | Polyline | Arc | Circle | Hatch | Label
Group = tuple[Item, ...]


@dataclass(frozen=True, slots=True)
class Sheet:
    """Items on a sheet ``width`` by ``height`` [mm], with its title and its computed sentence (alt text)."""

    width: float
    height: float
    items: Group
    title: str
    sentence: str

    def __post_init__(self) -> None:
        if not self.sentence.strip():
            raise ValueError("a sheet needs its sentence: it is what a person hears who cannot see the drawing")
        if not self.title.strip():
            raise ValueError("a sheet needs its title")
        object.__setattr__(self, "items", tuple(self.items))
        object.__setattr__(self, "title", clean(self.title))
        object.__setattr__(self, "sentence", clean(self.sentence))
        for item in self.items:
            kind = getattr(item, "kind", "")
            if kind and kind not in KINDS:
                raise ValueError(f"no line kind {kind!r}; the kinds are {', '.join(KINDS)}")

    def with_items(self, *items: Item) -> Sheet:
        """The same sheet with more items on top."""
        return replace(self, items=self.items + items)


def _shifted(item: Item, f: float, dx: float, dy: float) -> Item:
    """The item with every point multiplied by f, then moved."""
    # The commonest are made anew by hand, in a third of the time that replace takes.
    if isinstance(item, Line):
        return Line(item.x1 * f + dx, item.y1 * f + dy, item.x2 * f + dx, item.y2 * f + dy, item.kind, item.accent)
    if isinstance(item, Label):
        return Label(item.x * f + dx, item.y * f + dy, item.text, item.height, item.anchor, item.base, item.rotation, item.halo, item.accent)
    if isinstance(item, Polyline):
        return Polyline(tuple([(x * f + dx, y * f + dy) for x, y in item.points]), item.kind, item.closed, item.fill, item.accent)
    if isinstance(item, Hatch):
        return replace(item, points=tuple((x * f + dx, y * f + dy) for x, y in item.points))
    return replace(item, x=item.x * f + dx, y=item.y * f + dy, radius=item.radius * f)


def move(items: Iterable[Item], dx: float, dy: float) -> Group:
    """The items shifted by dx, dy [mm]."""
    return tuple(_shifted(item, 1, dx, dy) for item in items)


def scale(items: Iterable[Item], factor: float) -> Group:
    """The items enlarged about the origin; letters, dashes and hatch spacing keep their size."""
    return tuple(_shifted(item, factor, 0, 0) for item in items)
