"""Edges of the metal: straight pieces and arcs of circles, end to end; what an outline is made of [in].

>>> quarter = Bend((0.0, 0.0), 1.0, 0.0, 90.0)
>>> [(round(x, 3), round(y, 3)) for x, y in (quarter.first, quarter.last)]
[(1.0, 0.0), (0.0, 1.0)]
>>> len(points_along((Straight((2.0, 0.0), (1.0, 0.0)), quarter), step=30))
5
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from typing import NamedTuple

Point = tuple[float, float]

ARC_STEP = 7.5
"""How finely an arc is made into straight pieces, where nothing else is asked for [deg]."""
_SAME = 1e-12


class Straight(NamedTuple):
    """A straight piece from its first point to its last."""

    first: Point
    last: Point

    def reversed(self) -> Straight:
        return Straight(self.last, self.first)

    def moved(self, move: Callable[[Point], Point], turned: bool) -> Straight:
        return Straight(move(self.first), move(self.last))

    def points(self, step: float = ARC_STEP) -> list[Point]:
        return [self.first, self.last]


class Bend(NamedTuple):
    """An arc round ``centre``, from the angle ``start`` on by ``turn`` [deg]; anticlockwise is positive."""

    centre: Point
    radius: float
    start: float
    turn: float

    def at(self, angle: float) -> Point:
        """The point of its circle at an angle [deg]."""
        turn = math.radians(angle)
        return self.centre[0] + self.radius * math.cos(turn), self.centre[1] + self.radius * math.sin(turn)

    @property
    def first(self) -> Point:
        return self.at(self.start)

    @property
    def last(self) -> Point:
        return self.at(self.start + self.turn)

    def reversed(self) -> Bend:
        return Bend(self.centre, self.radius, self.start + self.turn, -self.turn)

    def moved(self, move: Callable[[Point], Point], turned: bool) -> Bend:
        """The arc where a shift or a reflection takes it; ``turned``: it is a reflection."""
        centre, (x, y) = move(self.centre), move(self.first)
        start = math.degrees(math.atan2(y - centre[1], x - centre[0]))
        return Bend(centre, self.radius, start, -self.turn if turned else self.turn)

    def points(self, step: float = ARC_STEP) -> list[Point]:
        """Points along it, ends included, at most ``step`` [deg] apart."""
        count = max(2, math.ceil(abs(self.turn) / step))
        return [self.at(self.start + self.turn * i / count) for i in range(count + 1)]


Edge = Straight | Bend


def chain(points: Iterable[Point]) -> tuple[Edge, ...]:
    """Straight edges from point to point; points that coincide make none."""
    listed = list(points)
    return tuple(Straight(p, q) for p, q in zip(listed, listed[1:], strict=False) if math.dist(p, q) > _SAME)


def joined_up(edges: Iterable[Edge]) -> tuple[Edge, ...]:
    """The edges with a straight piece over every gap between one and the next."""
    found: list[Edge] = []
    for edge in edges:
        if found and math.dist(found[-1].last, edge.first) > 1e-9:
            found.append(Straight(found[-1].last, edge.first))
        found.append(edge)
    return tuple(found)


def backwards(edges: Iterable[Edge]) -> tuple[Edge, ...]:
    """The same way, from its last point to its first."""
    return tuple(edge.reversed() for edge in reversed(tuple(edges)))


def carried(edges: Iterable[Edge], move: Callable[[Point], Point], turned: bool = False) -> tuple[Edge, ...]:
    """The edges where a shift (``turned``: a reflection) takes them."""
    return tuple(edge.moved(move, turned) for edge in edges)


def points_along(edges: Iterable[Edge], step: float = ARC_STEP) -> list[Point]:
    """The edges as points, arcs in pieces of at most ``step`` [deg]; where one ends and the next begins there is one point."""
    found: list[Point] = []
    for edge in edges:
        points = edge.points(step)
        found += points[1:] if found and math.dist(found[-1], points[0]) < 1e-9 else points
    return found


def corners_of(edges: Iterable[Edge], step: float = ARC_STEP) -> list[Point]:
    """The corners of a closed outline: as :func:`points_along`, without the first point again at the end."""
    found = points_along(edges, step)
    return found[:-1] if len(found) > 1 and math.dist(found[0], found[-1]) < 1e-9 else found


def step_within(radius: float, error: float) -> float:
    """The longest step [deg] whose chord stays within ``error`` of an arc [in].

    >>> round(step_within(1.0, 0.001), 2)
    5.13
    """
    if radius <= error:
        return 45.0
    return min(45.0, math.degrees(2 * math.acos(1 - error / radius)))
