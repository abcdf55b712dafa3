"""Constructions for the formulas of the taper: its slope, where its line lies, what the cut leaves."""

from __future__ import annotations

import cmath
from math import dist, pi

import numpy as np
from scipy.integrate import quad
from scipy.optimize import brentq
from scipy.spatial import ConvexHull
from shapely import LineString, Point, Polygon
from shapely.affinity import rotate
from straightedge import (
    along_heel,
    at_distance,
    at_height,
    between,
    fillet_point,
    meet,
    of,
    richardson,
    taper_by_angle,
    taper_by_slope,
)  # fmt: skip


# --- the slope ------------------------------------------------------------------------------------------
@of("slope from the run")
def _(X, W, s):
    return at_height((0, s), (X, W), s + 1)


@of("slope from the angle", "slope of the saw plane from its line on a leg")
def _(theta=None, theta_A=None):
    return at_height((0, 0), along_heel(theta if theta is not None else theta_A), 1)


@of("angle from the slope")
def _(c):
    return between((c, 1), (1, 0))


@of("run from the slope")
def _(W, s, c):
    return at_height(*taper_by_slope(s, c), W)


@of("angle from run and width left")
def _(W, s, X):
    return between((X, W - s), (1, 0))


@of("protractor reading from square")
def _(theta):
    return between(along_heel(theta), (0, 1))


@of("taper per foot, one side")
def _(c):
    return at_distance(*taper_by_slope(0, c), 12)


@of("sine-bar height")
def _(B, theta):
    bar = rotate(LineString([(0, 0), (B, 0)]), theta, origin=(0, 0))
    return bar.bounds[3]


# --- where the line lies --------------------------------------------------------------------------------
@of("mark of the taper line at a height")
def _(y, s, c):
    return at_height(*taper_by_slope(s, c), y)


@of("vertex-projection mark")
def _(t, s, c):
    return at_height(*taper_by_slope(s, c), t)


@of("vertex-projection mark from the run")
def _(X, t, s, W):
    return at_height((0, s), (X, W), t)


@of("first mark on the inner flat")
def _(t, r, s, c):
    return at_height(*taper_by_slope(s, c), fillet_point(t, r, 0.0))


@of("last mark on the inner flat")
def _(W, r2, s, c):
    toe = Point(W - r2, -r2).buffer(r2)  # the toe's circle touches the inner face where the flat ends
    highest = max(toe.exterior.coords, key=lambda p: p[1])
    return at_height(*taper_by_slope(s, c), highest[0])


@of("mark in the unrolled fillet")
def _(t, r, s, u, c):
    return at_height(*taper_by_slope(s, c), fillet_point(t, r, u))


@of("place in the unrolled fillet at a height")
def _(t, r, y):
    return brentq(lambda u: fillet_point(t, r, u) - y, 0, r * pi / 2, xtol=1e-14)


@of("width of the unrolled fillet")
def _(r):
    return Point(0, 0).buffer(r, quad_segs=20_000).exterior.length / 4


@of("length of the cut edge round the fillet")
def _(r, theta):
    """The polyline through points of the fillet, each moved along the heel to where the saw meets it."""

    def walked(steps):
        angles = np.linspace(0, pi / 2, steps + 1)
        across, through = -r * np.sin(angles), -r * np.cos(angles)
        slope = at_height((0, 0), along_heel(theta), 1)
        points = np.column_stack([across * slope, across, through])
        return np.linalg.norm(np.diff(points, axis=0), axis=1).sum()

    return richardson(walked)


@of("error of a straight line carried over the unrolled fillet")
def _(r, c):
    """Unroll the inside of a leg of 1/8 stock, lay a ruler along the flat's line, and look at leg B."""
    t, s = 0.125, 0.0
    line = taper_by_slope(s, c)
    strip = quad(lambda angle: r, 0, pi / 2)[0]
    # Unrolled: beyond the flat's first mark, each inch round the fillet counts as an inch of height.
    flat_low, flat_high = t + r, t + r + 1
    ruler = (at_height(*line, flat_low), flat_low), (at_height(*line, flat_high), flat_high)
    return at_height(*line, t) - at_height(*ruler, flat_low - strip)


@of("mark round the unrolled heel")
def _(Rh, s, v, c):
    centre, middle = complex(Rh, Rh), complex(Rh, Rh) * (1 - 2**-0.5)  # (height on the leg, height on the other)
    height = (centre + (middle - centre) * cmath.exp(1j * v / Rh)).real
    return at_height(*taper_by_slope(s, c), height)


# --- what the cut leaves --------------------------------------------------------------------------------
@of("length of the tapered edge")
def _(W, s, theta):
    return dist((0, s), (at_height(*taper_by_angle(s, theta), W), W))


@of("width of the bevel on the other leg's end")
def _(t, s, theta):
    return dist((0, s), (at_height(*taper_by_angle(s, theta), t), t))


@of("length lost by blunting the feather edge")
def _(h, c):
    return at_height(*taper_by_slope(0, c), h)


@of("area of the cut face")
def _(A_s, theta):
    """A strip one inch thick and A_s high, lifted on to the saw plane: a parallelogram in space."""
    x = at_height(*taper_by_angle(0, theta), A_s)
    return float(np.linalg.norm(np.cross([x, A_s, 0], [0, 0, 1])))


@of("volume of a part with one taper")
def _(A, L, c, Q):
    """A flat bar that has this area and this moment, as the hull of its eight corners."""
    width = 2 * Q / A  # one strip from the heel up, s = 0: its moment about the heel is A width / 2
    thick = A / width
    corners = [(x, y, z) for y in (0, width) for z in (0, thick) for x in (at_height(*taper_by_slope(0, c), y), L)]
    return ConvexHull(corners).volume


@of("where the tapers of both ends meet")
def _(s_1, s_2, L, c_1, c_2):
    return meet((0, s_1), (c_1, s_1 + 1), (L, s_2), (L - c_2, s_2 + 1))[0]


@of("distance from a point to the taper line")
def _(x, y, s, theta):
    near, on = taper_by_angle(s, theta)
    far = (near[0] + 100 * (on[0] - near[0]), near[1] + 100 * (on[1] - near[1]))
    back = (near[0] - 100 * (on[0] - near[0]), near[1] - 100 * (on[1] - near[1]))
    metal_side = Polygon([back, far, (far[0] + 1000, far[1]), (back[0] + 1000, back[1])]).contains(Point(x, y))
    return LineString([back, far]).distance(Point(x, y)) * (1 if metal_side else -1)
