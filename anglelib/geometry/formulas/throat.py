"""What a rough cut by hacksaw takes of a stick; where a piece lies beside its cut is the formula ``taper_clearance``."""

from __future__ import annotations

from sympy import Rational

from anglelib.geometry.formulas.quantities import L, L_b, e_h, e_s, k, k_r
from anglelib.geometry.formulas.state import formula_names, state

hacksaw_strip = state(
    "what a rough cut takes between two blanks, besides their sanding allowances", k_r, 2 * (e_h - e_s) + k, "definition of the hacksaw's allowance",
    e_h=(k_r - k) * Rational(1, 2) + e_s, e_s=e_h - (k_r - k) * Rational(1, 2), k=k_r - 2 * (e_h - e_s),
)  # fmt: skip
rough_blank = state(
    "length of a blank that a hacksaw parts off", L_b, L + e_s + e_h, "definition of both allowances",
    L=L_b - e_s - e_h, e_s=L_b - L - e_h, e_h=L_b - L - e_s,
)  # fmt: skip

__all__ = formula_names(globals())
