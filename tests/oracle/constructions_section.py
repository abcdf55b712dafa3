"""Constructions for the formulas of the section: strips, many-sided arcs, matrices."""

from __future__ import annotations

from math import cos, pi, sin, sqrt

import numpy as np
from scipy.integrate import quad
from scipy.optimize import brentq
from shapely import LineString
from straightedge import of


def _under_arc(r, power=0):
    """Metal between an inside corner and its arc: strips square to one leg, weighted by their distance."""
    return quad(lambda y: y**power * (r - sqrt(r * r - (r - y) ** 2)), 0, r, epsabs=1e-14)[0]


@of("area of the metal in the fillet")
def _(r):
    return _under_arc(r)


@of("centroid of the metal in the fillet")
def _(r):
    return _under_arc(r, 1) / _under_arc(r)


@of("area of the section")
def _(a, b, tA, tB, r, r2, Rh):
    """Leg A whole, leg B above it, corners filled and rounded off strip by strip."""
    legs = quad(lambda y: tA, 0, a)[0] + quad(lambda z: tB, tA, b)[0]
    return legs + _under_arc(r) - 2 * _under_arc(r2) - _under_arc(Rh)


@of("length of the section's outline")
def _(a, b, r, r2, Rh):
    """The outline walked round, with any thickness: straight pieces and arcs of very many sides."""
    t, turn = 0.2, np.linspace(0, pi / 2, 40001)

    def arc(x, y, radius, start, way):
        return [(x + radius * cos(start + way * v), y + radius * sin(start + way * v)) for v in turn]

    points = arc(Rh, Rh, Rh, pi, 1)
    points += [(a, 0), *arc(a - r2, t - r2, r2, 0, 1)]
    points += arc(t + r, t + r, r, 3 * pi / 2, -1)
    points += [*arc(t - r2, b - r2, r2, 0, 1), (0, b), points[0]]
    return LineString(points).length


@of("smallest second moment of area")
def _(I_y, I_z, I_yz):
    return np.linalg.eigvalsh([[I_y, -I_yz], [-I_yz, I_z]])[0]


@of("smallest radius of gyration")
def _(I_v, A):
    return brentq(lambda i: A * i * i - I_v, 0, 10, xtol=1e-15)


@of("covariance of the gaps at both ends of a cut")
def _(sigma_p, sigma_a, l_1, l_2):
    """Both gaps from the two errors by a matrix, and their covariance through it."""
    gaps = np.array([[1, l_1], [1, l_2]])
    return (gaps @ np.diag([sigma_p**2, sigma_a**2]) @ gaps.T)[0, 1]


@of("largest heel radius that leaves metal behind the fillet")
def _(tA, tB, r):  # noqa: N803 (the formulas' letters)
    """The outer arc grows until the thinnest metal between it and the fillet's arc, looked for all round, is gone."""
    ways = np.linspace(0, pi / 2, 20001)
    fillet = (tB + r) - r * np.cos(ways), (tA + r) - r * np.sin(ways)

    def left(radius):
        return float(np.min(radius - np.hypot(radius - fillet[0], radius - fillet[1])))

    found = brentq(left, max(tA, tB) + r, 20 * (tA + tB + r), xtol=1e-14)
    return float(found)
