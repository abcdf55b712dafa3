"""The taper: its slope, where its line lies on every face, and what the cut leaves.

Frame: x along the heel from the tapered end, y on the leg from the heel; angles from the heel.

>>> from fractions import Fraction
>>> vertex_projection(t=Fraction(1, 8), s=0, c=Fraction(17, 12))
Fraction(17, 96)
>>> print(vertex_projection.latex)
x_v = c \\left(t - s\\right)
"""

from __future__ import annotations

from sympy import asin, atan, cos, cot, elliptic_e, pi, sin, tan

from anglelib.geometry.formulas.quantities import (
    A, A_c, A_s, B, H, L, Q, Rh, T, V, W, X, b_f, c, c_1, c_2, h, l_e, l_f, n, r, r2, s, s_1, s_2,
    t, theta, theta_q, u, u_B, v, x, x_b, x_e, x_f, x_h, x_p, x_t, x_u, x_v, y,
)  # fmt: skip
from anglelib.geometry.formulas.state import formula_names, state

# --- the slope --------------------------------------------------------------------------------------
slope_from_run = state("slope from the run", c, X / (W - s), X=c * (W - s), W=s + X / c, s=W - X / c)
slope_from_angle = state("slope from the angle", c, cot(theta), theta=atan(1 / c))
angle_from_slope = state("angle from the slope", theta, atan(1 / c), c=cot(theta))
run_from_slope = state("run from the slope", X, (W - s) * c, c=X / (W - s), W=s + X / c, s=W - X / c)
angle_from_run = state(
    "angle from run and width left",
    theta,
    atan((W - s) / X),
    X=(W - s) * cot(theta),
    W=s + X * tan(theta),
    s=W - X * tan(theta),
)
protractor_from_square = state(
    "protractor reading from square", theta_q, pi / 2 - theta, "definition", theta=pi / 2 - theta_q
)
taper_per_foot = state(
    "taper per foot, one side", T, 12 / c, "definition; tabulated in machinists' handbooks", c=12 / T
)
sine_bar = state("sine-bar height", H, B * sin(theta), "TC 9-524 appendix C", theta=asin(H / B), B=H / sin(theta))

# --- where the line lies ----------------------------------------------------------------------------
taper_mark = state("mark of the taper line at a height", x, (y - s) * c, y=s + x / c, s=y - x / c, c=x / (y - s))
vertex_projection = state("vertex-projection mark", x_v, (t - s) * c, t=s + x_v / c, s=t - x_v / c, c=x_v / (t - s))
vertex_projection_from_run = state(
    "vertex-projection mark from the run",
    x_v,
    X * (t - s) / (W - s),
    X=x_v * (W - s) / (t - s),
    t=s + x_v * (W - s) / X,
)
first_flat_mark = state(
    "first mark on the inner flat",
    x_f,
    (t + r - s) * c,
    t=s - r + x_f / c,
    r=s - t + x_f / c,
    s=t + r - x_f / c,
    c=x_f / (t + r - s),
)
last_flat_mark = state(
    "last mark on the inner flat", x_t, (W - r2 - s) * c, W=s + r2 + x_t / c, r2=W - s - x_t / c, c=x_t / (W - r2 - s)
)
fillet_mark = state(
    "mark in the unrolled fillet", x_u, (t + r - r * sin(u / r) - s) * c, c=x_u / (t + r - r * sin(u / r) - s)
)
fillet_place = state("place in the unrolled fillet at a height", u, r * asin((t + r - y) / r), y=t + r - r * sin(u / r))
fillet_width = state("width of the unrolled fillet", u_B, pi * r / 2, "a quarter of a circle", r=2 * u_B / pi)
fillet_length = state(
    "length of the cut edge round the fillet",
    l_f,
    r / sin(theta) * elliptic_e(cos(theta) ** 2),
    "arc length of a plane cut through a cylinder (an ellipse)",
    r=l_f * sin(theta) / elliptic_e(cos(theta) ** 2),
)
straight_wrap_error = state(
    "error of a straight line carried over the unrolled fillet",
    x_e,
    (pi / 2 - 1) * r * c,
    r=x_e / ((pi / 2 - 1) * c),
    c=x_e / ((pi / 2 - 1) * r),
)
heel_mark = state(
    "mark round the unrolled heel",
    x_h,
    (Rh - Rh * cos(v / Rh + pi / 4) - s) * c,
    c=x_h / (Rh - Rh * cos(v / Rh + pi / 4) - s),
)

# --- what the cut leaves ----------------------------------------------------------------------------
edge_length = state("length of the tapered edge", l_e, (W - s) / sin(theta), W=s + l_e * sin(theta), s=W - l_e * sin(theta))
bevel_face = state(
    "width of the bevel on the other leg's end", b_f, (t - s) / sin(theta), t=s + b_f * sin(theta), s=t - b_f * sin(theta)
)
blunting = state("length lost by blunting the feather edge", x_b, h * c, h=x_b / c, c=x_b / h)
cut_face_area = state("area of the cut face", A_c, A_s / sin(theta), A_s=A_c * sin(theta))
tapered_volume = state("volume of a part with one taper", V, A * L - c * Q, L=(V + c * Q) / A, Q=(A * L - V) / c)
tapers_cross = state(
    "where the tapers of both ends meet", x_p, c_1 * (c_2 * (s_2 - s_1) + L) / (c_1 + c_2),
    L=x_p * (c_1 + c_2) / c_1 - c_2 * (s_2 - s_1),
)  # fmt: skip
taper_clearance = state(
    "distance from a point to the taper line",
    n,
    x * sin(theta) + (s - y) * cos(theta),
    x=(n + (y - s) * cos(theta)) / sin(theta),
    y=s + (x * sin(theta) - n) / cos(theta),
)

__all__ = formula_names(globals())
