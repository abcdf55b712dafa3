"""The saw: where the kerf lies beside the line, what an error of a mark does, how the angle sits."""

from __future__ import annotations

from sympy import Rational, asin, atan, cos, cot, sin, sqrt, tan

from anglelib.geometry.formulas.quantities import (
    L, L_b, a, b, c_b, d_f, d_m, dx, dy, e_s, g_b, gamma, h_b, h_l, h_t, h_u, k, m, n_e, n_p, n_x, n_y, r2, s, s_t, t, tA, tB, theta, w, x_m, x_s,
)  # fmt: skip
from anglelib.geometry.formulas.state import formula_names, state

# --- kerf and allowance -----------------------------------------------------------------------------
shift_along = state("shift of a mark along the heel or the toe", dx, e_s / sin(theta), e_s=dx * sin(theta), theta=asin(e_s / dx))
shift_across = state("shift of a mark on the end", dy, e_s / cos(theta), e_s=dy * cos(theta))
saw_line_projection = state(
    "saw line on the other leg's inner face", x_s, (t - s) * cot(theta) - e_s / sin(theta),
    e_s=((t - s) * cot(theta) - x_s) * sin(theta), t=s + (x_s + e_s / sin(theta)) * tan(theta), s=t - (x_s + e_s / sin(theta)) * tan(theta),
)  # fmt: skip
blade_middle = state(
    "middle of the kerf, from the finished line", d_m, e_s + k * Rational(1, 2), "definition of kerf",
    k=2 * (d_m - e_s), e_s=d_m - k * Rational(1, 2),
)  # fmt: skip
blade_far_side = state(
    "far side of the kerf, from the finished line", d_f, e_s + k, "definition of kerf", k=d_f - e_s, e_s=d_f - k
)
blank_length = state(
    "length of a blank", L_b, L + n_e * e_s, "definition of the sanding allowance", L=L_b - n_e * e_s, n_e=(L_b - L) / e_s, e_s=(L_b - L) / n_e
)
batch_mark = state(
    "saw mark of a piece in a batch", x_m, n_p * L_b + (n_p - 1) * k, "one kerf between two blanks",
    L_b=(x_m - (n_p - 1) * k) / n_p, k=(x_m - n_p * L_b) / (n_p - 1), n_p=(x_m + k) / (L_b + k),
)  # fmt: skip
kerf_of_blade = state(
    "kerf of a blade whose teeth are set", k, g_b + 2 * s_t, "the blade's gauge and the set on both sides: a saw manual",
    g_b=k - 2 * s_t, s_t=(k - g_b) * Rational(1, 2),
)  # fmt: skip
error_along = state("shift of the line by an error of a mark along the heel", n_x, m * sin(theta), m=n_x / sin(theta))
error_across = state("shift of the line by an error of a mark across the leg", n_y, m * cos(theta), m=n_y / cos(theta))

# --- how the angle sits -----------------------------------------------------------------------------
heel_up_height = state(
    "height of the heel above the table, heel up on both toes",
    h_u,
    ((a - r2) * (b - r2) - (tA - r2) * (tB - r2)) / sqrt((a - tB) ** 2 + (b - tA) ** 2) + r2,
    "derived: distance from the heel to the line that touches both inner toes",
)
heel_up_slope = state(
    "slope of leg A on the table, heel up on both toes",
    gamma,
    atan((b - tA) / (a - tB)),
    "derived: the line that touches both inner toes",
)
heel_up_metal = state("metal in front of the blade in a sloping leg", w, t / cos(gamma), t=w * cos(gamma))
hanging_reach = state("how far the hanging leg reaches below the block's top", h_l, b - tA, b=h_l + tA, tA=b - h_l)
block_height = state(
    "least height of the block under a leg", h_b, b - tA + c_b,
    "derived: the reach of the hanging leg, and a clearance, which is common practice", b=h_b + tA - c_b, tA=b + c_b - h_b, c_b=h_b - b + tA,
)  # fmt: skip
block_top = state("highest metal above the table, a leg on its block", h_t, h_b + tA, h_b=h_t - tA, tA=h_t - h_b)

__all__ = formula_names(globals())
