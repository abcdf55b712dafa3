"""Noise: the hours a day that the law allows at a sound level."""

from __future__ import annotations

from sympy import Integer, evaluate, log

from anglelib.geometry.formulas.quantities import L_A, T_h
from anglelib.geometry.formulas.state import formula_names, state

with evaluate(False):  # so that it prints as the regulation writes it
    _allowed = 8 / Integer(2) ** ((L_A - 90) / 5)

hours_allowed = state(
    "hours allowed at a sound level", T_h, _allowed, "29 CFR 1910.95 appendix A, table G-16a (footnote)",
    L_A=90 + 5 * log(8 / T_h) / log(2),
)  # fmt: skip

__all__ = formula_names(globals())
