"""Signs of a drawing: the datum, third-angle projection, the check bar, the saw's band, breaks, holes."""

from __future__ import annotations

import math

from anglelib.drawing.letters import text_width
from anglelib.drawing.sheet import Circle, Group, Item, Label, Line, Point, Polyline, polygon
from anglelib.drawing.style import SPACE

CENTRE_LINE_LEAST = 12.0
"""A centre line shorter than this is drawn solid: a chain would show no dashes [mm]."""


def datum_sign(x: float, y: float, text: str = "datum", *, letter: float = 3.5, side: str = "left") -> Group:
    """The datum's sign on the edge at x, y: a filled triangle standing on it, and a framed word beside it."""
    way = -1.0 if side == "left" else 1.0
    deep, half = 0.87 * letter, 0.5 * letter
    wide, high = text_width(text, letter) + letter, 1.9 * letter
    near = x + way * (deep + 0.7 * letter)
    far = near + way * wide
    return (
        polygon(((x, y), (x + way * deep, y + half), (x + way * deep, y - half)), "", "ink"),
        Line(x + way * deep, y, near, y, "dimension"),
        polygon(((near, y - high / 2), (far, y - high / 2), (far, y + high / 2), (near, y + high / 2)), "narrow", "paper"),
        Label((near + far) / 2, y, text, letter, "middle", "middle"),
    )


def third_angle(x: float, y: float, letter: float = 3.5) -> Group:
    """The sign of third-angle projection (ISO 5456-2); x, y is its middle, its width about 6 letter heights.

    The two circles are the cone seen from its small end, and stand on that side of it.
    """
    small, large, long = letter / 2, letter, 2 * letter
    cx, left = x - 1.6 * letter, x + 0.4 * letter
    over = 0.45 * letter
    return (
        Circle(cx, y, small, "outline"),
        Circle(cx, y, large, "outline"),
        polygon(((left, y - small), (left + long, y - large), (left + long, y + large), (left, y + small)), "outline"),
        Line(cx, y - large - over, cx, y + large + over, "narrow"),
        Line(cx - large - over, y, cx + large + over, y, "narrow"),
        Line(left - over, y, left + long + over, y, "narrow"),
    )


def check_bar(x: float, y: float, letter: float = 2.5, *, one_row: bool = False) -> Group:
    """Two bars, 100 mm and 4 in. long, to be measured on the print: above each other, or in one row.

    They are filled shapes without edges: end to end they are the length they say. x, y is the lower
    left corner; the group is 12.5 mm high and 102 wide, or 5.5 high and 210 wide.
    """
    items: list[Item] = []
    second = (x, y + 7.0) if not one_row else (x + 108.0, y)
    for (left, low), pieces, step, text in (((x, y), 10, 10.0, "100 mm"), (second, 4, 25.4, "4 in.")):
        high, thin = low + 2.0, 0.25
        right = left + pieces * step
        items += [
            _filled(left, low, right, low + thin),
            _filled(left, high - thin, right, high),
            _filled(left, low, left + thin, high),
            _filled(right - thin, low, right, high),
        ]
        items += [_filled(left + i * step, low, left + (i + 1) * step, high) for i in range(0, pieces, 2)]
        items.append(Label(left, high + 0.9, f"check on the print: this bar is {text} from end to end", letter, "start"))
    return tuple(items)


def _filled(x1: float, y1: float, x2: float, y2: float) -> Polyline:
    return polygon(((x1, y1), (x2, y1), (x2, y2), (x1, y2)), "", "ink")


def kerf_band(p: Point, q: Point, width: float, side: int = 1) -> Group:
    """The band that the saw removes along p-q: ``width`` [mm on the paper], on the left of p-q (side 1) or right (-1).

    Its edges are narrow lines; the edge p-q is where the band touches the metal that is kept.
    """
    long = math.hypot(q[0] - p[0], q[1] - p[1]) or 1.0
    nx, ny = -(q[1] - p[1]) / long * width * side, (q[0] - p[0]) / long * width * side
    return (polygon((p, q, (q[0] + nx, q[1] + ny), (p[0] + nx, p[1] + ny)), "cut", "paper"),)


def break_lines(x: float, low: float, high: float, gap: float) -> Group:
    """Two narrow lines with zigzags, ``gap`` apart, middle at x: a long part is drawn shorter here."""
    return (zigzag(x - gap / 2, low, high), zigzag(x + gap / 2, low, high))


def zigzag(x: float, low: float, high: float) -> Polyline:
    """One break line, reaching a little past the outline it cuts."""
    tall = high - low
    over, tooth = min(2.0, 0.25 * tall + 0.5), min(1.2, 0.2 * tall)
    middle = (low + high) / 2
    return Polyline(
        (
            (x, low - over),
            (x, middle - 1.5 * tooth),
            (x - tooth, middle - 0.5 * tooth),
            (x + tooth, middle + 0.5 * tooth),
            (x, middle + 1.5 * tooth),
            (x, high + over),
        ),
        "break",
    )


def hole(x: float, y: float, radius: float, over: float = 1.5) -> Group:
    """A hole with its centre lines, which run a little past its edge."""
    reach = radius + max(over, 2 * SPACE)
    kind = "centre" if 2 * reach >= CENTRE_LINE_LEAST else "narrow"
    return (
        Circle(x, y, radius, "outline"),
        Line(x - reach, y, x + reach, y, kind),
        Line(x, y - reach, x, y + reach, kind),
    )
