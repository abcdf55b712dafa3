"""Squaring: an end out of square, the flip test, legs that are not at 90 degrees, stock rolled at the saw or twisted, a toe that slopes."""

from __future__ import annotations

from sympy import asin, atan, cos, pi, sin, tan

from anglelib.geometry.formulas.quantities import (
    W, b, beta, c, c_r, chi, e_A, e_B, e_q, g, g_f, h_q, kappa, n_t, omega, p, psi, r, r2, s, t, tA, tB, tau, w_k, x, x_k, x_v, y, y_i, y_t, z_w,
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
open_tangent = state(
    "where the fillet begins, legs not at 90 degrees", y_t, (tB - tA * sin(beta)) / cos(beta) + r * tan(pi / 4 - beta / 2),
    "derived: the circle that touches both inner faces", r=(y_t - (tB - tA * sin(beta)) / cos(beta)) / tan(pi / 4 - beta / 2),
    tB=(y_t - r * tan(pi / 4 - beta / 2)) * cos(beta) + tA * sin(beta),
)  # fmt: skip
inside_gap = state(
    "gap of light beside a square set in the inside", g, (y - y_t) * sin(beta), "derived: the inner face leans away from the blade",
    y=y_t + g / sin(beta), y_t=y - g / sin(beta), beta=asin(g / (y - y_t)),
)  # fmt: skip
closed_nick = state(
    "nick in the other leg's toe, legs closed", x_k, c * ((tB - r2) * cos(chi) + (b - r2) * sin(chi) + r2 - s),
    "derived: the inner toe leans over the tapered leg, and the saw is square to that",
    c=x_k / ((tB - r2) * cos(chi) + (b - r2) * sin(chi) + r2 - s), s=(tB - r2) * cos(chi) + (b - r2) * sin(chi) + r2 - x_k / c,
)  # fmt: skip
roll_error = state(
    "line on the other leg, stock rolled at the saw", e_B, atan(c * sin(psi)), psi=asin(tan(e_B) / c), c=tan(e_B) / sin(psi)
)
roll_slope = state("slope of a taper sawn in rolled stock", c_r, c * cos(psi), c=c_r / cos(psi))
roll_mark = state(
    "vertex-projection mark, stock rolled at the saw", x_v, c * (tB * cos(psi) - tA * sin(psi)),
    c=x_v / (tB * cos(psi) - tA * sin(psi)), tB=(x_v / c + tA * sin(psi)) / cos(psi), tA=(tB * cos(psi) - x_v / c) / sin(psi),
)  # fmt: skip
twist_roll = state("roll of a twisted stick between two places", psi, omega * x / 12, "definition of twist", omega=12 * psi / x, x=12 * psi / omega)
twist_rise = state(
    "how far a twisted leg's toe stands off a flat table", z_w, W * sin(omega * x / 12), "derived: the heel lies on the table, the leg turns about it",
    omega=12 * asin(z_w / W) / x, x=12 * asin(z_w / W) / omega, W=z_w / sin(omega * x / 12),
)  # fmt: skip
bevelled_toe = state(
    "how much less of a leg the inner face shows, toe bevelled or round", w_k, tA * tan(kappa) + r2 * tan(pi / 4 - kappa / 2),
    "derived: the edge slopes over the thickness, and the arc touches it and the inner face",
    tA=(w_k - r2 * tan(pi / 4 - kappa / 2)) / tan(kappa), r2=(w_k - tA * tan(kappa)) / tan(pi / 4 - kappa / 2),
)  # fmt: skip
tilt_error = state("inside edge minus outside edge of a tilted cut", n_t, t * tan(tau), t=n_t / tan(tau), tau=atan(n_t / t))

__all__ = formula_names(globals())
