"""The section in closed form: what a lesson prints. ``anglelib.section`` adds the same area up from its pieces."""

from __future__ import annotations

from sympy import Rational, pi, sqrt

from anglelib.geometry.formulas.quantities import (
    A, A_f, I_v, I_y, I_yz, I_z, O_s, Rh, a, b, i_v, r, r2, tA, tB, y_f,
)  # fmt: skip
from anglelib.geometry.formulas.state import formula_names, state

fillet_area = state("area of the metal in the fillet", A_f, (1 - pi / 4) * r**2, "a square less a quarter circle", r=sqrt(A_f / (1 - pi / 4)))
fillet_centroid = state(
    "centroid of the metal in the fillet", y_f, (10 - 3 * pi) / (3 * (4 - pi)) * r, "a square less a quarter circle",
    r=y_f * 3 * (4 - pi) / (10 - 3 * pi),
)  # fmt: skip
section_area = state(
    "area of the section", A, a * tA + (b - tA) * tB + (1 - pi / 4) * (r**2 - 2 * r2**2 - Rh**2),
    a=(A - (b - tA) * tB - (1 - pi / 4) * (r**2 - 2 * r2**2 - Rh**2)) / tA,
)  # fmt: skip
section_outline = state(
    "length of the section's outline", O_s, 2 * (a + b) - (2 - pi / 2) * (r + 2 * r2 + Rh),
    a=(O_s + (2 - pi / 2) * (r + 2 * r2 + Rh)) * Rational(1, 2) - b,
)  # fmt: skip
largest_heel = state(
    "largest heel radius that leaves metal behind the fillet", Rh, r + tA + tB + sqrt(2 * tA * tB),
    "derived: the arc that touches both outer faces and the fillet's; t (2 + sqrt 2) for equal legs, square inside",
    r=Rh - tA - tB - sqrt(2 * tA * tB),
)  # fmt: skip
smallest_moment = state(
    "smallest second moment of area", I_v, (I_y + I_z) * Rational(1, 2) - sqrt(((I_y - I_z) * Rational(1, 2)) ** 2 + I_yz**2),
    "principal axes of a symmetric matrix",
)  # fmt: skip
smallest_gyration = state("smallest radius of gyration", i_v, sqrt(I_v / A), "definition", I_v=i_v**2 * A)

__all__ = formula_names(globals())
