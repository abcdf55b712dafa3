"""Rounding a corner, and the error of marks that are stepped off."""

from __future__ import annotations

from sympy import Rational, acos, cos, pi, sin, sqrt, tan

from anglelib.geometry.formulas.quantities import A_r, E_n, E_r, W, e, e_1, l_a, n_1, n_2, n_s, phi, rho, t_r, theta, x_o, x_r
from anglelib.geometry.formulas.state import formula_names, state

corner_loss = state(
    "length lost from a rounded corner", x_r, rho * (1 / sin(phi / 2) - 1), rho=x_r / (1 / sin(phi / 2) - 1)
)
tangent_length = state("where the rounding begins", t_r, rho / tan(phi / 2), rho=t_r * tan(phi / 2))
arc_length = state("length of the arc", l_a, rho * (pi - phi), "definition of the radian", rho=l_a / (pi - phi))
area_lost = state(
    "area lost by rounding", A_r, rho**2 * (1 / tan(phi / 2) - (pi - phi) * Rational(1, 2)),
    rho=sqrt(A_r / (1 / tan(phi / 2) - (pi - phi) * Rational(1, 2))),
)  # fmt: skip
largest_radius = state(
    "largest radius that keeps a hole's edge distance", rho,
    e + (n_1 - e + n_2 - e + 2 * sin(phi / 2) * sqrt((n_1 - e) * (n_2 - e))) / (2 * cos(phi / 2) ** 2),
    "derived: the arc whose centre is a radius less the edge distance from the hole",
)  # fmt: skip
nose_loss = state(
    "length lost at the nose of a vertex taper", x_o, rho / tan(theta / 2) - rho, rho=x_o / (1 / tan(theta / 2) - 1)
)
largest_nose = state(
    "largest radius of the nose of a vertex taper", rho, W / (1 + cos(theta)),
    "derived: the arc leaves the tapered edge at the toe", W=rho * (1 + cos(theta)), theta=acos(W / rho - 1),
)  # fmt: skip
stepped_error = state("error of stepping off, all steps alike", E_n, n_s * e_1, "sum of equal errors", e_1=E_n / n_s, n_s=E_n / e_1)
stepped_scatter = state(
    "error of stepping off, steps independent", E_r, sqrt(n_s) * e_1,
    "root sum of squares, JCGM 100:2008 (GUM) 5.1.2 (clause second-hand)", e_1=E_r / sqrt(n_s),
)  # fmt: skip

__all__ = formula_names(globals())
