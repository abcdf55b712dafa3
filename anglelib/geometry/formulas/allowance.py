"""Sanding allowance: how far a cut can stray, and what heat does to a length."""

from __future__ import annotations

from sympy import Max, sqrt, tan

from anglelib.geometry.formulas.quantities import (
    L, P_w, a_l, alpha, c_p, d_w, dL, dT, delta, e_p, f_p, l_e, l_1, l_2, l_p, m_k, n_d, sigma_12, sigma_a, sigma_i, sigma_p, t_s, u_l,
)  # fmt: skip
from anglelib.geometry.formulas.state import formula_names, state

stray = state("how far a turned cut strays", n_d, l_p * tan(delta), l_p=n_d / tan(delta))
least_allowance = state(
    "least allowance, worst case", d_w, e_p + Max(f_p, 1 - f_p) * l_e * tan(delta), e_p=d_w - Max(f_p, 1 - f_p) * l_e * tan(delta)
)
gap_deviation = state(
    "uncertainty of the gap at an end of the cut", sigma_i, sqrt(sigma_p**2 + (l_p * sigma_a) ** 2),
    "root sum of squares, JCGM 100:2008 (GUM) 5.1.2 (clause second-hand)",
)  # fmt: skip
gap_covariance = state(
    "covariance of the gaps at both ends of a cut", sigma_12, sigma_p**2 + l_1 * l_2 * sigma_a**2,
    "law of propagation, JCGM 100:2008 (GUM) 5.2.2 (clause second-hand)",
    l_1=(sigma_12 - sigma_p**2) / (l_2 * sigma_a**2), l_2=(sigma_12 - sigma_p**2) / (l_1 * sigma_a**2),
)  # fmt: skip
limits_deviation = state(
    "standard uncertainty from limits", u_l, a_l / sqrt(3), "JCGM 100:2008 (GUM) 4.3.7 (clause second-hand)", a_l=u_l * sqrt(3)
)
growth = state("growth by heat", dL, alpha * L * dT, "definition of the expansion coefficient", L=dL / (alpha * dT), dT=dL / (alpha * L))
heating = state(
    "temperature rise with no loss", dT, P_w * t_s / (m_k * c_p), "heat balance, nothing lost to air or table",
    t_s=dT * m_k * c_p / P_w, m_k=P_w * t_s / (dT * c_p),
)  # fmt: skip

__all__ = formula_names(globals())
