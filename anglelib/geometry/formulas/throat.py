"""What passes the column of a band saw, and what a rough cut by hacksaw takes of a stick."""

from __future__ import annotations

from sympy import cos, sin

from anglelib.geometry.formulas.quantities import L, L_b, d_c, e_h, e_s, f_c, k, k_h, k_r, l_c, theta_l, y_c
from anglelib.geometry.formulas.state import formula_names, state

beside_the_cut = state(
    "how far a corner of the piece lies beside the cut", d_c, l_c * sin(theta_l) - y_c * cos(theta_l), "derived: the corner turned into the feed",
    l_c=(d_c + y_c * cos(theta_l)) / sin(theta_l), y_c=(l_c * sin(theta_l) - d_c) / cos(theta_l),
)  # fmt: skip
along_the_cut = state(
    "how far it lies along the cut", f_c, l_c * cos(theta_l) + y_c * sin(theta_l), "derived: the corner turned into the feed",
    l_c=(f_c - y_c * sin(theta_l)) / cos(theta_l), y_c=(f_c - l_c * cos(theta_l)) / sin(theta_l),
)  # fmt: skip
hacksaw_strip = state(
    "what a rough cut takes between two blanks, besides their allowances", k_r, 2 * (e_h - e_s) + k_h, "definition of the hacksaw's allowance",
    e_h=(k_r - k_h) / 2 + e_s, e_s=e_h - (k_r - k_h) / 2, k_h=k_r - 2 * (e_h - e_s),
)  # fmt: skip
rough_blank = state(
    "length of a blank that a hacksaw parts off", L_b, L + e_s + e_h, "definition of both allowances",
    L=L_b - e_s - e_h, e_s=L_b - L - e_h, e_h=L_b - L - e_s,
)  # fmt: skip

__all__ = formula_names(globals())
