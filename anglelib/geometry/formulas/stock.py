"""The stick: what blanks and their cuts leave of it."""

from __future__ import annotations

from anglelib.geometry.formulas.quantities import E_l, S_b, k, n_c, r_l
from anglelib.geometry.formulas.state import formula_names, state

left_of_stick = state(
    "what is left of a usable length", r_l, E_l - S_b - n_c * k, "derived: each cut turns a kerf to dust",
    E_l=r_l + S_b + n_c * k, S_b=E_l - r_l - n_c * k, n_c=(E_l - S_b - r_l) / k, k=(E_l - S_b - r_l) / n_c,
)  # fmt: skip

__all__ = formula_names(globals())
