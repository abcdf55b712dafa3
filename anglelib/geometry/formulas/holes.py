"""Holes: edge distance in diameters, the band for a row of rivets, the steepest taper, grip."""

from __future__ import annotations

from sympy import Rational, asin, atan, sqrt

from anglelib.geometry.formulas.quantities import D, G, H_d, W, c, e, e_D, l_r, r, s, t, theta_m, w_y, x, x_n, y, y_n
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
behind_bevel = state(
    "nearest hole to the end behind a taper of the other leg", x_n, e + (t - s) * c,
    "derived: the bevelled inner face governs", e=x_n - (t - s) * c, c=(x_n - e) / (t - s), t=s + (x_n - e) / c, s=t - (x_n - e) / c,
)  # fmt: skip
rivet_length = state(
    "length of a rivet", l_r, G + Rational(3, 2) * D, "NAVEDTRA 14018: grip plus one and a half diameters",
    G=l_r - Rational(3, 2) * D,
)  # fmt: skip

__all__ = formula_names(globals())
