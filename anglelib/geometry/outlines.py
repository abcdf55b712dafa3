"""Outlines of the metal as straight pieces and arcs: the section, and the faces of a finished leg.

A face's outline comes from :class:`~anglelib.geometry.leg_shape.LegShape`: at a height y from the heel
the metal runs from what the cuts at end 1 take to what those at end 2 leave. Both only take more as y
grows, so an outline is the heel, two flanks that rise towards each other, and what toe is left.
Holes are no part of it. x from end 1, heights from the heel [in].

>>> from anglelib.part import Part, Taper
>>> from anglelib.section import Section
>>> stock = Section(1, 1, "1/8")
>>> bracket = Part("P1", "Trial", stock, "6061-T6", 4, tapers=[Taper("A", 1, "1/2", run=1)])
>>> corners_of(face_edges(bracket, "A"))
[(0.0, 0.0), (4.0, 0.0), (4.0, 1.0), (1.0, 1.0), (0.0, 0.5)]
"""

from __future__ import annotations

from collections.abc import Sequence
from math import atan2, degrees, dist, sqrt
from typing import NamedTuple

from anglelib.geometry.edges import Bend, Edge, Straight, backwards, corners_of, joined_up
from anglelib.geometry.leg_shape import LegShape
from anglelib.part import Part
from anglelib.section import Section, other_leg

__all__ = ["corners_of", "face_edges", "flank", "section_edges", "top_of"]

_NEAR = 1e-7
"""Heights nearer than this are one: an arc touches its edges, and the places where it meets them only blur [in]."""


def section_edges(section: Section) -> tuple[Edge, ...]:
    """The cross-section's outline in (y, z), anticlockwise from the heel."""
    a, b = float(section.leg_a), float(section.leg_b)
    ta, tb = float(section.thickness_a), float(section.thickness("B"))
    r, toe, heel = float(section.fillet), float(section.toe_radius), float(section.heel_radius)
    corners = (
        ((heel, heel), heel, 180.0, 90.0),
        ((a, 0.0), 0.0, 0.0, 0.0),
        ((a - toe, ta - toe), toe, 0.0, 90.0),
        ((tb + r, ta + r), r, 270.0, -90.0),
        ((tb - toe, b - toe), toe, 0.0, 90.0),
        ((0.0, b), 0.0, 0.0, 0.0),
    )
    edges: list[Edge] = [Bend(*corner) if corner[1] else Straight(corner[0], corner[0]) for corner in corners]
    round_about = joined_up([*edges, Straight(edges[0].first, edges[0].first)])
    return tuple(edge for edge in round_about if edge.first != edge.last)


# --- the faces of a leg -------------------------------------------------------------------------------
def face_edges(part: Part, leg: str, inner: bool = False, to_toe: bool = False) -> tuple[Edge, ...]:
    """A finished face of a leg in (x, y), anticlockwise from end 1's lowest corner; empty where nothing of it is left.

    The outer face starts at the heel. The inner one starts beside the fillet and ends where a
    rounded toe begins (``to_toe``: goes on over it); the tapers of the other leg cut it square across.
    """
    section, shape = part.section, LegShape.of(part, leg)
    low, high, starts = 0.0, shape.width, (0.0, 0.0)
    if inner:
        low = float(section.thickness(other_leg(leg)) + section.fillet)
        high -= 0.0 if to_toe else float(section.toe_radius)
        depth, across = float(section.thickness(leg)), LegShape.of(part, other_leg(leg))
        starts = (across.start(depth), shape.length - across.stop(depth))
    return outline_between(shape, low, high, starts)


def outline_between(shape: LegShape, low: float, high: float, least: tuple[float, float] = (0.0, 0.0)) -> tuple[Edge, ...]:
    """The leg's outline between two heights, at least so far from end 1 and from end 2."""
    high = top_of(shape, low, high, least)
    if high is None:
        return ()
    one, two = flank(shape, 1, low, high, least[0]), flank(shape, 2, low, high, least[1])
    if not one or not two:
        return ()
    if dist(one[-1].last, two[-1].last) < 1e-9 and isinstance(two[-1], Straight):
        two = (*two[:-1], Straight(two[-1].first, one[-1].last))  # one peak
    heel, toe = Straight(one[0].first, two[0].first), Straight(two[-1].last, one[-1].last)
    found = [heel, *two, toe, *backwards(one)]
    return tuple(edge for edge in found if dist(edge.first, edge.last) > 1e-9)


def flank(shape: LegShape, end: int, low: float, high: float, least: float = 0.0) -> tuple[Edge, ...]:
    """The edge of the metal at an end, from a height to a higher one."""
    pieces = _pieces(shape, end, least)
    found: list[Edge] = []
    for piece, start, stop in _outermost(pieces, low, high):
        found.append(piece.edge(start, stop))
    edges = joined_up(found)
    return edges if end == 1 else tuple(edge.moved(lambda p: (shape.length - p[0], p[1]), True) for edge in edges)


def top_of(shape: LegShape, low: float, high: float, least: tuple[float, float] = (0.0, 0.0)) -> float | None:
    """How high the metal stands between two heights: lower than ``high`` where the cuts of both ends meet; None: nowhere."""

    def room(y: float) -> float:
        return shape.length - max(shape.taken(1, y), least[0]) - max(shape.taken(2, y), least[1])

    if high <= low or room(low) <= 0:
        return None
    if room(high) >= 0:
        return high
    if len(shape.tapers) == 2 and low < (peak := shape.levels()[-1]) < high and abs(room(peak)) < 1e-12:
        return peak  # exact, where the two tapers meet
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if room(middle) > 0 else (low, middle)
    return low


class _Piece(NamedTuple):
    """A cut's edge at an end, distance from the end over the height: a line, or (radius) one side of a circle."""

    low: float
    high: float
    at: float
    slope: float
    """Of a line: its distance at height ``low``, and how much it grows for an inch of height."""
    centre: tuple[float, float] = (0.0, 0.0)
    radius: float = 0.0
    side: int = 0

    def distance(self, y: float) -> float:
        if not self.radius:
            return self.at + (y - self.low) * self.slope
        return self.centre[0] + self.side * sqrt(max(0.0, self.radius**2 - (y - self.centre[1]) ** 2))

    def edge(self, start: float, stop: float) -> Edge:
        first, last = (self.distance(start), start), (self.distance(stop), stop)
        if not self.radius:
            return Straight(first, last)
        cx, cy = self.centre
        begin, end = (degrees(atan2(y - cy, x - cx)) for x, y in (first, last))
        return Bend(self.centre, self.radius, begin, (end - begin + 180) % 360 - 180)


def _pieces(shape: LegShape, end: int, least: float) -> list[_Piece]:
    pieces = [_Piece(0.0, shape.width, max(least, shape.dressed[end - 1]), 0.0)]
    for taper in shape.tapers:
        if taper.end == end:
            pieces.append(_Piece(taper.left, shape.width, 0.0, taper.slope))
    for cope in shape.copes:
        if cope.end == end:
            corner = cope.left + cope.radius
            pieces.append(_Piece(cope.left, corner, 0.0, 0.0, (cope.length - cope.radius, corner), cope.radius, 1))
            pieces.append(_Piece(corner, shape.width, cope.length, 0.0))
    for corner in shape.corners:
        if corner.end == end:
            centre = corner.from_end(shape.length), corner.centre[1]
            pieces.append(_Piece(corner.lowest, shape.width, 0.0, 0.0, centre, corner.radius, -1))
    return pieces


def _outermost(pieces: Sequence[_Piece], low: float, high: float) -> list[tuple[_Piece, float, float]]:
    """Which cut takes the most, from height to height."""
    if len(pieces) == 1:
        return [(pieces[0], low, high)]
    heights = [low, high, *(y for piece in pieces for y in (piece.low, piece.high))]
    for i, one in enumerate(pieces):
        for two in pieces[i + 1 :]:
            heights += _crossings(one, two)
    breaks: list[float] = []
    for y in [low, high, *heights]:
        if low <= y <= high and all(abs(y - found) > _NEAR for found in breaks):
            breaks.append(y)
    breaks.sort()
    found: list[tuple[_Piece, float, float]] = []
    for start, stop in zip(breaks, breaks[1:], strict=False):
        middle = (start + stop) / 2
        piece = max((p for p in pieces if p.low <= middle <= p.high), key=lambda p: p.distance(middle))
        if found and found[-1][0] is piece:
            found[-1] = (piece, found[-1][1], stop)
        else:
            found.append((piece, start, stop))
    return found


def _crossings(one: _Piece, two: _Piece) -> list[float]:
    """Heights at which the curves of two cuts cross."""
    if not one.radius and not two.radius:
        if one.slope == two.slope:
            return []
        return [(two.at - two.low * two.slope - one.at + one.low * one.slope) / (one.slope - two.slope)]
    # Two arcs never lie at one end of a leg: a cope takes away the corner that could be rounded.
    line, arc = (one, two) if two.radius else (two, one)
    # Distance from the centre along the line x = p + slope y.
    (cx, cy), k = arc.centre, line.slope
    p = line.at - line.low * k - cx
    a, b, c = 1 + k * k, k * p - cy, p * p + cy * cy - arc.radius**2
    if b * b < a * c:
        return []
    off = sqrt(b * b - a * c)
    return [(-b - off) / a, (-b + off) / a]
