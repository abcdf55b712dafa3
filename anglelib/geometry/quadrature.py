"""Integrals of several quantities at once, by Gauss and Legendre's rule, halved where it must be.

The live lessons run without numpy, so this is plain Python.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from math import cos, fsum, pi, sin

Vector = tuple[float, ...]


@cache
def _gauss(n: int = 10) -> tuple[tuple[float, float], ...]:
    """Nodes and weights of the Gauss-Legendre rule on (-1, 1), by Newton's method."""
    rule = []
    for i in range(n):
        x = cos(pi * (i + 0.75) / (n + 0.5))
        for _ in range(100):
            p0, p1 = 1.0, x
            for j in range(2, n + 1):
                p0, p1 = p1, ((2 * j - 1) * x * p1 - (j - 1) * p0) / j
            slope = n * (x * p1 - p0) / (x * x - 1)
            step = p1 / slope
            x -= step
            if abs(step) < 1e-16:
                break
        rule.append((x, 2 / ((1 - x * x) * slope * slope)))
    return tuple(rule)


def _rule(f: Callable[[float], Vector], low: float, high: float) -> Vector:
    middle, half = (low + high) / 2, (high - low) / 2
    terms = [[half * weight * value for value in f(middle + half * node)] for node, weight in _gauss()]
    return tuple(fsum(values) for values in zip(*terms, strict=True))


def integrate(f: Callable[[float], Vector], low: float, high: float, scale: float) -> Vector:
    """Integral of f from low to high, to about 1e-12 of ``scale`` or of itself.

    The interval is halved where the rule and its two halves differ; 24 halvings narrow a kink to
    1e-7 of the interval.

    >>> [round(value, 12) for value in integrate(lambda x: (x * x, abs(x - 0.3)), 0.0, 1.0, 1.0)]
    [0.333333333333, 0.29]
    """
    whole = _rule(f, low, high)
    # Measured against the whole integral: a short piece is not refined into the noise of an inner one.
    least = tuple(1e-12 * max(scale, abs(value)) for value in whole)
    return _halved(f, low, high, whole, least, 0)


def _halved(f: Callable[[float], Vector], low: float, high: float, whole: Vector, least: Vector, depth: int) -> Vector:
    middle = (low + high) / 2
    left, right = _rule(f, low, middle), _rule(f, middle, high)
    halves = tuple(x + y for x, y in zip(left, right, strict=True))
    if depth >= 24 or all(abs(x - y) <= most for x, y, most in zip(whole, halves, least, strict=True)):
        return halves
    left, right = _halved(f, low, middle, left, least, depth + 1), _halved(f, middle, high, right, least, depth + 1)
    return tuple(x + y for x, y in zip(left, right, strict=True))


def integrate_between_arcs(f: Callable[[float], Vector], low: float, high: float, scale: float) -> Vector:
    """The same where f may begin and end like a square root, as the height of an arc does.

    Running through middle - half cos(phi) takes the square roots off the ends.

    >>> [round(value, 12) for value in integrate_between_arcs(lambda x: ((1 - x * x) ** 0.5,), -1.0, 1.0, 1.0)]
    [1.570796326795]
    """
    middle, half = (low + high) / 2, (high - low) / 2

    def turned(phi: float) -> Vector:
        weight = half * sin(phi)
        return tuple(weight * value for value in f(middle - half * cos(phi)))

    return integrate(turned, 0.0, pi, scale)
