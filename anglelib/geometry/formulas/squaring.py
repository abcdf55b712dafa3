"""Squaring: an end out of square, the flip test, legs that are not at 90 degrees, rolled stock."""

from __future__ import annotations

from sympy import asin, atan, cos, sin, tan

from anglelib.geometry.formulas.quantities import (
    W, beta, c, c_r, e_A, e_B, e_q, g, g_f, h_q, n_t, p, psi, t, tA, tB, tau, x_v, y_i,
)  # fmt: skip
from anglelib.geometry.formulas.state import formula_names, state

end_slope = state("slope of an end out of square", p, tan(e_A), e_A=atan(p))
light_gap = state("gap of light at the toe", g, W * tan(e_A), e_A=atan(g / W), W=g / tan(e_A))
out_of_square = state("out of square from the gap of light", e_A, atan(g / W), g=W * tan(e_A), W=g / tan(e_A))
flip_gap = state("gap between the lines of the flip test", g_f, 2 * h_q * tan(e_q), e_q=atan(g_f / (2 * h_q)), h_q=g_f / (2 * tan(e_q)))
inside_corner = state(
    "inside corner where the legs are not at 90 degrees",
    y_i,
    (tB - tA * sin(beta)) / cos(beta),
    tB=y_i * cos(beta) + tA * sin(beta),
    tA=(tB - y_i * cos(beta)) / sin(beta),
)
angularity_error = state(
    "line on the other leg, legs not at 90 degrees", e_B, atan(c * sin(beta)), beta=asin(tan(e_B) / c), c=tan(e_B) / sin(beta)
)
roll_error = state(
    "line on the other leg, stock rolled at the saw", e_B, atan(c * sin(psi)), psi=asin(tan(e_B) / c), c=tan(e_B) / sin(psi)
)
roll_slope = state("slope of a taper sawn in rolled stock", c_r, c * cos(psi), c=c_r / cos(psi))
roll_mark = state(
    "vertex-projection mark, stock rolled at the saw", x_v, c * (tB * cos(psi) - tA * sin(psi)),
    c=x_v / (tB * cos(psi) - tA * sin(psi)), tB=(x_v / c + tA * sin(psi)) / cos(psi), tA=(tB * cos(psi) - x_v / c) / sin(psi),
)  # fmt: skip
tilt_error = state("inside edge minus outside edge of a tilted cut", n_t, t * tan(tau), t=n_t / tan(tau), tau=atan(n_t / t))

__all__ = formula_names(globals())
