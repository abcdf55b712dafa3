"""Straightedge, compasses and rotation, by number: what the constructions of the formulas are made with.

A construction takes a formula's letters as numbers and returns what should come out. It places
points, rotates them, and measures distances and angles between them; it never uses the formula. Lines
meet by linear algebra, angles are measured between two directions, curves are walked in small steps.
"""

from __future__ import annotations

import cmath
from collections.abc import Callable
from math import degrees, radians

import numpy as np

CONSTRUCTIONS: dict[str, Callable[..., float]] = {}
"""By the formula's name. The modules ``constructions_*`` fill it."""


def of(*names: str):
    """Enter a construction under the names of the formulas that it checks."""

    def enter(construction):
        for name in names:
            assert name not in CONSTRUCTIONS, name
            CONSTRUCTIONS[name] = construction
        return construction

    return enter


def meet(p, q, r, s) -> tuple[float, float]:
    """Where the line through p and q meets the line through r and s."""
    (px, py), (qx, qy), (rx, ry), (sx, sy) = p, q, r, s
    step, _ = np.linalg.solve([[qx - px, rx - sx], [qy - py, ry - sy]], [rx - px, ry - py])
    return px + step * (qx - px), py + step * (qy - py)


def at_height(p, q, y: float) -> float:
    """x where the line through p and q has the height y."""
    return meet(p, q, (0.0, y), (1.0, y))[0]


def at_distance(p, q, x: float) -> float:
    """Height where the line through p and q has the distance x from the end."""
    return meet(p, q, (x, 0.0), (x, 1.0))[1]


def turned(point, angle: float) -> tuple[float, float]:
    """The point turned about the origin, anticlockwise, by degrees."""
    z = complex(*point) * cmath.exp(1j * radians(angle))
    return z.real, z.imag


def between(u, v) -> float:
    """The angle between two directions in degrees, of any number of coordinates."""
    u, v = np.array(u, dtype=float), np.array(v, dtype=float)
    # Half angles by the chord: acos of a dot product would lose digits near 0.
    u, v = u / np.linalg.norm(u), v / np.linalg.norm(v)
    return float(2 * degrees(np.arctan2(np.linalg.norm(u - v), np.linalg.norm(u + v))))


def along_heel(theta: float) -> tuple[float, float]:
    """A point one inch along a line that leaves the heel at an angle."""
    return turned((1.0, 0.0), theta)


def taper_by_slope(s: float, c: float):
    """Two points of the line that rises one inch in c inches, from the height s on the end."""
    return (0.0, s), (c, s + 1.0)


def taper_by_angle(s: float, theta: float):
    """Two points of the line that leaves the height s on the end at an angle from the heel."""
    x, y = along_heel(theta)
    return (0.0, s), (x, s + y)


def richardson(of_steps):
    """What a polygon's measure tends to: its error falls as the square of its steps."""
    return (4 * of_steps(4000) - of_steps(2000)) / 3


def fillet_point(t, r, u):
    """Height of the point that lies u round the fillet from the tapered leg's tangent."""
    centre, tangent = complex(t + r, r), complex(t + r, 0)  # (height on the leg, distance from its inner face)
    return (centre + (tangent - centre) * cmath.exp(-1j * u / r)).real
