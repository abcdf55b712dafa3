"""Holes: edge distance in diameters, the band for a row of rivets, the steepest taper, grip."""

from __future__ import annotations

from sympy import Rational, acos, asin, atan, cos, sin, sqrt

from anglelib.geometry.formulas.quantities import (
    D, G, H_d, W, X, c, e, e_D, l_r, r, s, t, theta, theta_M, theta_m, w_y, x, x_n, y, y_n,
)  # fmt: skip
from anglelib.geometry.formulas.state import formula_names, state

edge_in_diameters = state("edge distance in diameters", e_D, e / D, "definition", e=e_D * D, D=e / e_D)
row_start = state(
    "nearest row of holes to the heel", y_n, t + r + H_d * Rational(1, 2), "derived: the head clears the fillet",
    r=y_n - t - H_d * Rational(1, 2), t=y_n - r - H_d * Rational(1, 2),
)  # fmt: skip
row_band = state(
    "band for a row of holes", w_y, W - e - t - r - H_d * Rational(1, 2), "derived: edge distance to the toe, head clear of the fillet",
    W=w_y + e + t + r + H_d * Rational(1, 2),
)  # fmt: skip
least_angle = state(
    "least angle that keeps the edge distance", theta_m, asin(e / sqrt(x**2 + (y - s) ** 2)) + atan((y - s) / x),
    "derived: the tangent from the line's start to the circle of radius e round the hole",
)  # fmt: skip
greatest_angle = state(
    "largest angle that keeps the edge distance, run fixed", theta_M, atan((x - X) / (W - y)) + acos(e / sqrt((x - X) ** 2 + (W - y) ** 2)),
    "derived: the tangent from the toe mark to the circle of radius e round the hole",
)  # fmt: skip
run_at_angle = state(
    "largest run that keeps the edge distance, angle fixed", X, x + ((W - y) * cos(theta) - e) / sin(theta),
    "derived: the line at that angle that touches the circle of radius e round the hole",
    e=(x - X) * sin(theta) + (W - y) * cos(theta), x=X - ((W - y) * cos(theta) - e) / sin(theta), y=W - ((X - x) * sin(theta) + e) / cos(theta),
)  # fmt: skip
run_before_bevel = state(
    "largest run whose bevel keeps the other leg's hole, slope fixed", X, x_n - e + (W - t) * c,
    "derived: the bevelled inner face governs", c=(X - x_n + e) / (W - t), x_n=X + e - (W - t) * c, e=x_n - X + (W - t) * c,
)  # fmt: skip
behind_bevel = state(
    "nearest hole to the end behind a taper of the other leg", x_n, e + (t - s) * c,
    "derived: the bevelled inner face governs", e=x_n - (t - s) * c, c=(x_n - e) / (t - s), t=s + (x_n - e) / c, s=t - (x_n - e) / c,
)  # fmt: skip
rivet_length = state(
    "length of a rivet", l_r, G + Rational(3, 2) * D, "NAVEDTRA 14018: grip plus one and a half diameters",
    G=l_r - Rational(3, 2) * D,
)  # fmt: skip

__all__ = formula_names(globals())
