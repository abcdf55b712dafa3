"""The sign beside a word of danger: a triangle with a stroke and a dot, never a colour alone.

>>> len(warning_sign(0, 0)), len(warning_sign(0, 0, 5.6))
(3, 3)
"""

from __future__ import annotations

from anglelib.drawing.sheet import Circle, Group, Line, polygon


def warning_sign(x: float, y: float, wide: float = 7.0) -> Group:
    """The sign with its lower left corner at x, y, ``wide`` [mm]."""
    s = wide / 7
    return (
        polygon(((x, y), (x + wide, y), (x + wide / 2, y + 6.2 * s)), "outline" if wide >= 7 else "narrow", "", True),
        Line(x + wide / 2, y + 4 * s, x + wide / 2, y + 2.4 * s, "narrow", True),
        Circle(x + wide / 2, y + 1.2 * s, 0.4, "", "accent", True),
    )
