"""Compound cuts: the saw plane x = x0 + p y + q z, given by its lines on both legs, and teeth for the metal."""

from __future__ import annotations

from sympy import asin, atan, cos, cot, pi, sin, sqrt, tan

from anglelib.geometry.formulas.quantities import N, gamma, h_o, mu, nu, p, q, t, theta_A, z_m, z_n
from anglelib.geometry.formulas.state import formula_names, state

plane_slope = state("slope of the saw plane from its line on a leg", p, cot(theta_A), theta_A=atan(1 / p))
miter_flat = state("miter, the leg flat on the table", mu, atan(p), p=tan(mu))
tilt_flat = state("tilt, the leg flat on the table", nu, atan(q * cos(mu)), q=tan(nu) / cos(mu))
miter_heel_up = state(
    "miter, heel up on both toes", mu, atan(p * cos(gamma) - q * sin(gamma)),
    p=(tan(mu) + q * sin(gamma)) / cos(gamma), q=(p * cos(gamma) - tan(mu)) / sin(gamma),
)  # fmt: skip
tilt_heel_up = state(
    "tilt, heel up on both toes", nu, asin((p * sin(gamma) + q * cos(gamma)) / sqrt(1 + p**2 + q**2))
)
slope_a_heel_up = state(
    "slope of the line on leg A that heel-up settings give", p, tan(mu) * cos(gamma) + tan(nu) / cos(mu) * sin(gamma),
    nu=atan((p - tan(mu) * cos(gamma)) * cos(mu) / sin(gamma)),
)  # fmt: skip
slope_b_heel_up = state(
    "slope of the line on leg B that heel-up settings give", q, tan(nu) / cos(mu) * cos(gamma) - tan(mu) * sin(gamma),
    nu=atan((q + tan(mu) * sin(gamma)) * cos(mu) / cos(gamma)),
)  # fmt: skip
line_angle = state("angle of the cut's line on a leg, from its slope", theta_A, pi / 2 - atan(p), p=cot(theta_A))
least_teeth = state(
    "least teeth to the inch", N, z_n / t, "at least two teeth in the metal: Army PS magazine 671; NAVEDTRA 14119, chapter 5", t=z_n / N, z_n=N * t
)
most_teeth = state(
    "most teeth to the inch", N, z_m / h_o, "at most 24 teeth in the cut, or chips fill the gullets: trade guides to band saw blades",
    h_o=z_m / N, z_m=N * h_o,
)  # fmt: skip

__all__ = formula_names(globals())
