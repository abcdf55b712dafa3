"""Dimensions: linear, running (from one datum), angular; arrows and leaders. Each returns a group.

After ISO 129-1: narrow lines, closed arrows, figures above the line and read from below or from the
right. The figures are text made elsewhere: nothing here computes a length of the part.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from anglelib.drawing.letters import text_width
from anglelib.drawing.sheet import Arc, Circle, Group, Item, Label, Line, Point, Polyline, polygon

ARROW = 3.0
GAP = 1.0
"""Clear space between a feature and the start of its extension line, and under a figure [mm]."""
_HANG = ((0.16, "/"), (0.32, "(),;gjpqy"))
"""What hangs below the line that figures stand on, as a share of their height: more room is left under it."""
BEYOND = 1.5
"""How far an extension line runs past the dimension line [mm]."""


def arrow(x: float, y: float, towards: float, size: float = ARROW, accent: bool = False) -> Polyline:
    """A filled arrowhead with its tip at x, y, pointing ``towards`` [deg]."""
    c, s = math.cos(math.radians(towards)), math.sin(math.radians(towards))
    half = size * 0.17
    points = (
        (x, y),
        (x - size * c - half * s, y - size * s + half * c),
        (x - size * c + half * s, y - size * s - half * c),
    )
    return polygon(points, "", "accent" if accent else "ink", accent)


def spread(places: Sequence[float], gaps: Sequence[float], low: float, high: float) -> list[float]:
    """Moves sorted places apart until neighbours are ``gaps[i]`` apart, each as little as can be.

    Neighbours that would collide form a block, which sits where its members are moved least. The
    result keeps the order; it stays between low and high if there is room.

    >>> spread([10, 11, 40], [6, 6], 0, 50)
    [7.5, 13.5, 40.0]
    """
    offsets = [0.0]
    for gap in gaps:
        offsets.append(offsets[-1] + gap)
    blocks: list[tuple[float, int]] = []  # sum of the wanted positions less their offsets, and how many
    for place, offset in zip(places, offsets):
        total, count = place - offset, 1
        while blocks and blocks[-1][0] / blocks[-1][1] > total / count:
            before = blocks.pop()
            total, count = total + before[0], count + before[1]
        blocks.append((total, count))
    level = [total / count for total, count in blocks for _ in range(count)]
    top = high - offsets[-1] if offsets else high
    return [max(low, min(value, max(low, top))) + offset for value, offset in zip(level, offsets)]


def _unit(x: float, y: float) -> Point:
    long = math.hypot(x, y)
    return (x / long, y / long) if long else (1.0, 0.0)


def linear_dimension(
    p: Point,
    q: Point,
    at: float,
    text: str,
    along: str = "x",
    *,
    letter: float = 3.5,
    outside: str = "end",
    bare: bool = False,
    accent: bool = False,
) -> Group:
    """The distance from p to q, ``along`` 'x', 'y' or the 'line' between them.

    ``at``: where the dimension line lies, a y for 'x', an x for 'y', an offset to the left of p-q for
    'line'. Figures that do not fit go outside, beyond q ('end') or before p ('start'). ``bare``: no
    extension lines, the dimension line meets the part itself.
    """
    if along == "x":
        a, b, turn = (p[0], at), (q[0], at), 0.0
    elif along == "y":
        a, b, turn = (at, p[1]), (at, q[1]), 90.0
    else:
        ux, uy = _unit(q[0] - p[0], q[1] - p[1])
        a, b = (p[0] - uy * at, p[1] + ux * at), (q[0] - uy * at, q[1] + ux * at)
        turn = math.degrees(math.atan2(uy, ux))
    ux, uy = _unit(b[0] - a[0], b[1] - a[1])
    heading = math.degrees(math.atan2(uy, ux))
    items: list[Item] = []
    if not bare:
        items += [line for line in (_extension(p, a, accent), _extension(q, b, accent)) if line]
    length = math.hypot(b[0] - a[0], b[1] - a[1])
    wide = text_width(text, letter)
    size = min(ARROW, 0.9 * letter)
    fits = wide + 2 * GAP <= length
    arrows_fit = length >= 2.6 * size
    if -90 < turn <= 90.001:
        reading = turn
    else:
        reading = turn - 180 if turn > 0 else turn + 180
    nx, ny = -math.sin(math.radians(reading)), math.cos(math.radians(reading))
    tail = 2 * size if not arrows_fit else 0.0
    before, after = tail, tail
    if not fits:
        reach = wide + 2 * GAP + (0 if tail else size)
        if outside == "end":
            after += reach
        else:
            before += reach
    items.append(Line(a[0] - ux * before, a[1] - uy * before, b[0] + ux * after, b[1] + uy * after, "dimension", accent))
    flip = 0 if arrows_fit else 180
    items += [
        arrow(*a, heading + 180 + flip, size, accent),
        arrow(*b, heading + flip, size, accent),
    ]
    if fits:
        middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
    elif outside == "end":
        far = after - wide / 2 - GAP / 2
        middle = (b[0] + ux * far, b[1] + uy * far)
    else:
        far = before - wide / 2 - GAP / 2
        middle = (a[0] - ux * far, a[1] - uy * far)
    hang = max((hang for hang, below in _HANG if any(c in below for c in text)), default=0.0)
    if fits and hang and wide > length - 2 * size:  # it hangs over the arrowheads
        hang += 0.04
    clear = GAP + letter * hang
    items.append(
        Label(
            middle[0] + nx * clear,
            middle[1] + ny * clear,
            text,
            letter,
            rotation=round(reading, 6) + 0.0,
            halo=not fits,
            accent=accent,
        )
    )
    return tuple(items)


def upright_dimension(p: Point, q: Point, at: float, text: str, side: int, letter: float = 3.5) -> Group:
    """A height, its figures along the line if they fit, else level beside it: on the right (1) or the left (-1)."""
    if abs(q[1] - p[1]) >= text_width(text, letter) + 2 * GAP:
        return linear_dimension(p, q, at, text, "y", letter=letter)
    lines = tuple(i for i in linear_dimension(p, q, at, "", "y", letter=letter) if not isinstance(i, Label))
    anchor = "start" if side > 0 else "end"
    return (*lines, Label(at + side * 2.5, (p[1] + q[1]) / 2, text, letter, anchor, "middle"))


def _extension(feature: Point, foot: Point, accent: bool) -> Line | None:
    """The extension line from a feature to its dimension line, with its gap."""
    long = math.hypot(foot[0] - feature[0], foot[1] - feature[1])
    if long <= GAP:
        return None
    ux, uy = (foot[0] - feature[0]) / long, (foot[1] - feature[1]) / long
    return Line(
        feature[0] + ux * GAP,
        feature[1] + uy * GAP,
        foot[0] + ux * BEYOND,
        foot[1] + uy * BEYOND,
        "dimension",
        accent,
    )


@dataclass(frozen=True, slots=True)
class Stop:
    """One figure of a running dimension: where it is on the paper, and the height its line starts from."""

    place: float
    foot: float
    text: str
    accent: bool = False


def running_dimensions(
    origin: float,
    stops: Sequence[Stop],
    at: float,
    along: str = "x",
    *,
    letter: float = 3.5,
    low: float = -1e9,
    high: float = 1e9,
    foot: float | None = None,
    origin_text: str = "",
) -> Group:
    """Dimensions that all run from the datum at ``origin``: one line, a ring at the datum, an arrow at each stop.

    ``along`` 'x': the line lies at y = ``at``; feet above it put the figures below, and the other way
    round. Figures stand in two rows, fraction over decimal, or, if they are many, along their
    extension lines. ``along`` 'y': the line lies at x = ``at`` and the figures stand beside it.
    ``low`` and ``high`` bound the figures; ``foot`` is where the datum's own extension line starts,
    and ``origin_text`` what stands beside the ring.
    """
    stops = sorted(stops, key=lambda stop: stop.place)
    if not stops:
        return ()
    side = -1.0 if stops[0].foot > at else 1.0
    size, ring = min(ARROW, 0.9 * letter), 0.3 * letter

    def place(u: float, v: float) -> Point:
        return (u, v) if along == "x" else (v, u)

    def line(u1: float, v1: float, u2: float, v2: float, accent: bool = False) -> Line:
        return Line(*place(u1, v1), *place(u2, v2), "dimension", accent)

    first, last = stops[0].place, stops[-1].place
    items: list[Item] = [Circle(*place(origin, at), ring, "dimension")]
    if last > origin:
        items.append(line(origin + ring, at, last, at))
    if first < origin:
        items.append(line(first, at, origin - ring, at))
    if foot is not None:
        items.append(line(origin, foot + side * GAP, origin, at - side * ring))
    named = [*stops, Stop(origin, at, origin_text)] if origin_text else stops
    named = sorted(named, key=lambda stop: stop.place)
    texts = [stop.text for stop in named]
    figures = _upright(texts, letter, max(low, first - 60), min(high, last + 60)) if along == "x" else None
    rows = figures or [(text,) for text in texts]
    widths = [max(text_width(row, letter) for row in stack) if figures else letter for stack in rows]
    apart = 0.8 * letter if figures else 0.45 * letter
    gaps = [(w1 + w2) / 2 + apart for w1, w2 in zip(widths, widths[1:])]
    places = spread([stop.place for stop in named], gaps, low + widths[0] / 2, high - widths[-1] / 2)
    jogged = any(abs(p - stop.place) > 0.3 for p, stop in zip(places, named))
    kink = at + side * BEYOND
    base = kink + side * (3.8 if jogged else 2.3)
    for stop, stack, where in zip(named, rows, places):
        if stop.place != origin:
            items.append(line(stop.place, stop.foot + side * GAP, stop.place, kink, stop.accent))
        if jogged and stop.place != origin:
            items.append(line(stop.place, kink, where, kink + side * 3.0, stop.accent))
        items += _figures(place, where, base, side, stack, letter, stop.accent, along, bool(figures))
    items += _arrows(place, origin, stops, at, size, ring, along)
    return tuple(items)


def _upright(texts: Sequence[str], letter: float, low: float, high: float) -> list[tuple[str, ...]] | None:
    """The figures in two rows each, None if they do not all fit side by side."""
    rows = [_two_rows(text) for text in texts]
    widths = [max(text_width(row, letter) for row in stack) + 0.8 * letter for stack in rows]
    return rows if math.fsum(widths) <= high - low else None


def _figures(
    place: Callable[[float, float], Point],
    where: float,
    base: float,
    side: float,
    stack: tuple[str, ...],
    letter: float,
    accent: bool,
    along: str,
    upright: bool,
) -> Group:
    """One stop's figures: level beside the line, in rows under it, or along the extension line."""
    if upright:
        # a bracket hangs below its baseline
        rise = 0.32 * letter if side > 0 and len(stack) > 1 else 0.0
        way = "bottom" if side > 0 else "top"
        ordered = stack if side < 0 else stack[::-1]
        return tuple(
            Label(where, base + side * (rise + 1.5 * letter * i), row, letter, "middle", way, accent=accent)
            for i, row in enumerate(ordered)
        )
    turn = 90.0 if along == "x" else 0.0
    return (Label(*place(where, base), stack[0], letter, "start" if side > 0 else "end", "middle", turn, accent=accent),)


def _arrows(
    place: Callable[[float, float], Point],
    origin: float,
    stops: Sequence[Stop],
    at: float,
    size: float,
    ring: float,
    along: str,
) -> Group:
    """An arrowhead at each stop, pointing away from the datum; a dot where the stop before is too near."""
    items: list[Item] = []
    for way in (1, -1):
        before = origin + way * (ring + 0.3)
        for stop in stops if way > 0 else reversed(stops):
            if (stop.place - origin) * way <= 0:
                continue
            fill = "accent" if stop.accent else "ink"
            if (stop.place - before) * way > size:
                heading = (90 if along == "y" else 0) + (0 if way > 0 else 180)
                items.append(arrow(*place(stop.place, at), heading, size, stop.accent))
            else:
                items.append(Circle(*place(stop.place, at), 0.5, "", fill))
            before = stop.place
    return tuple(items)


def _two_rows(text: str) -> tuple[str, ...]:
    """'1 5/8 (1.625)' as fraction and bracketed decimal."""
    head, bracket, tail = text.partition(" (")
    return (head, f"({tail}") if bracket else (text,)


def angle_dimension(
    vertex: Point,
    radius: float,
    start: float,
    end: float,
    text: str,
    *,
    letter: float = 3.5,
    accent: bool = False,
    beside: str = "middle",
) -> Group:
    """The angle from ``start`` to ``end`` [deg, anticlockwise], its figures just outside the arc.

    ``beside`` 'end' or 'start': the figures go past that arrow instead of the middle of the arc.
    """
    size = min(ARROW, 0.9 * letter)
    lean = math.degrees(size / radius) / 2  # an arrowhead is a chord of the arc
    room = math.radians(end - start) * radius
    inside = room > 2.6 * size
    reach = 0.0 if inside else math.degrees(2 * size / radius)
    items: list[Item] = [Arc(*vertex, radius, start - reach, end + reach, "dimension", accent)]
    for at, way in ((start, -90), (end, 90)):
        a = math.radians(at)
        tip = (vertex[0] + radius * math.cos(a), vertex[1] + radius * math.sin(a))
        heading = at + way - math.copysign(lean, way) if inside else at - way + math.copysign(lean, way)
        items.append(arrow(*tip, heading, size, accent))
    along = {"middle": (start + end) / 2, "start": start - reach, "end": end + reach}[beside]
    c, s = math.cos(math.radians(along)), math.sin(math.radians(along))
    anchor = "middle" if abs(c) < 0.35 else ("start" if c > 0 else "end")
    x, y = vertex[0] + (radius + 1.5) * c, vertex[1] + (radius + 1.5) * s
    if beside != "middle":
        way = 1 if beside == "end" else -1
        x, y = x - way * s * 1.5, y + way * c * 1.5
    items.append(Label(x, y, text, letter, anchor, "middle" if abs(s) < 0.8 else "bottom", 0.0, True, accent))
    return tuple(items)


def leader(
    tip: Point,
    elbow: Point,
    text: str,
    *,
    letter: float = 3.5,
    end: str = "arrow",
    accent: bool = False,
) -> Group:
    """A note with a line to what it speaks of: an 'arrow' on an outline, a 'dot' within a surface, '' for neither."""
    right = elbow[0] >= tip[0]
    shelf = 2.0 if right else -2.0
    x = elbow[0] + shelf
    items: list[Item] = [Polyline((tip, elbow, (x, elbow[1])), "dimension", accent=accent)]
    heading = math.degrees(math.atan2(tip[1] - elbow[1], tip[0] - elbow[0]))
    if end == "arrow":
        items.append(arrow(*tip, heading, min(ARROW, 0.9 * letter), accent))
    elif end == "dot":
        items.append(Circle(*tip, 0.6, "", "accent" if accent else "ink"))
    items.append(Label(x + (0.8 if right else -0.8), elbow[1], text, letter, "start" if right else "end", "middle", 0.0, True, accent))
    return tuple(items)
