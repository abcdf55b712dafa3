"""How wide a line of text is, and what box it fills, without a renderer.

Letter height means the height of the capitals, so the font size is height / 0.729 (DejaVu Sans).

>>> round(text_width("1 5/8 (1.625)", 3.5), 2)
31.32
"""

from __future__ import annotations

import math
from functools import lru_cache

from anglelib.drawing.advances import ADVANCES, EM
from anglelib.drawing.escape import clean
from anglelib.drawing.sheet import Label, Point

CAPITAL = 0.729
"""Height of the capitals as a part of the font size."""
_DESCENT = 0.236 / CAPITAL
_DESCENDERS = frozenset("()[]{}|,;/@Qgjpqy_$§¶ç")
_COMBINING = range(0x300, 0x370)


class _Widths(dict[int, int]):
    """The advance of each letter; one that the table lacks has a full square, one that stands over another has none."""

    def __missing__(self, letter: int) -> int:
        return 0 if letter in _COMBINING else EM


_WIDTHS = _Widths({first + i: width for first, row in ADVANCES.items() for i, width in enumerate(row) if width})


def font_size(height: float) -> float:
    """Font size [mm] that gives capitals of this height [mm]."""
    return height / CAPITAL


def text_width(text: str, height: float = 3.5) -> float:
    """Width of a line of text [mm]; a letter that the table lacks counts as a full square."""
    return _units(clean(text)) * height / (CAPITAL * EM)


@lru_cache(maxsize=1024)
def _units(text: str) -> int:
    return sum(map(_WIDTHS.__getitem__, map(ord, text)))


def box(label: Label, height: float | None = None) -> tuple[Point, Point, Point, Point]:
    """Corners of the label's box [mm], anticlockwise from its lower left, tails of letters included."""
    high = height or label.height
    wide = text_width(label.text, high)
    x, y = label.baseline(high)
    left = {"start": 0.0, "middle": -wide / 2, "end": -wide}[label.anchor]
    low = -_DESCENT * high if _DESCENDERS.intersection(label.text) else 0.0
    if not label.rotation:
        return ((x + left, y + low), (x + left + wide, y + low), (x + left + wide, y + high), (x + left, y + high))
    c, s = math.cos(math.radians(label.rotation)), math.sin(math.radians(label.rotation))
    corners = ((left, low), (left + wide, low), (left + wide, high), (left, high))
    return tuple((x + u * c - v * s, y + u * s + v * c) for u, v in corners)  # type: ignore[return-value]


def halo(label: Label, height: float | None = None) -> tuple[Point, ...]:
    """The patch of paper behind a label: its box with a margin of a quarter of the letter height."""
    high = height or label.height
    a, b, c, d = box(label, high)
    wide = math.hypot(b[0] - a[0], b[1] - a[1]) or 1.0
    tall = math.hypot(d[0] - a[0], d[1] - a[1]) or 1.0
    ux, uy = (b[0] - a[0]) / wide * high / 4, (b[1] - a[1]) / wide * high / 4
    vx, vy = (d[0] - a[0]) / tall * high / 4, (d[1] - a[1]) / tall * high / 4
    return (
        (a[0] - ux - vx, a[1] - uy - vy),
        (b[0] + ux - vx, b[1] + uy - vy),
        (c[0] + ux + vx, c[1] + uy + vy),
        (d[0] - ux + vx, d[1] - uy + vy),
    )
