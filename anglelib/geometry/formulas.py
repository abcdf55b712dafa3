"""Every formula of the course, each stated once.

Frame: x along the heel from the end in question, y on the leg from the heel; angles from the heel.
The letters are those of the drawings. Where no source is named, the formula is derived here from
the drawing's triangle and checked in the tests against a solid kernel.

>>> from fractions import Fraction
>>> vertex_projection(t=Fraction(1, 8), s=0, c=Fraction(17, 12))
Fraction(17, 96)
>>> print(vertex_projection.latex)
x_v = c \\left(t - s\\right)
"""

from __future__ import annotations

from sympy import Rational, asin, atan, cos, cot, elliptic_e, pi, sin, sqrt, tan

from anglelib.geometry.formula import Formula, Quantity

DERIVED = "derived from the drawing; checked against a solid"

# --- the quantities: one letter, one meaning ------------------------------------------------------
W = Quantity("W", "W", "width of the tapered leg", "in")
t = Quantity("t", "t", "thickness of the other leg", "in")
r = Quantity("r", "r", "fillet radius", "in")
r2 = Quantity("r2", "r_2", "toe radius", "in")
Rh = Quantity("Rh", "R_h", "heel radius", "in")
s = Quantity("s", "s", "width left at the end", "in")
L = Quantity("L", "L", "length of the part", "in")
X = Quantity("X", "X", "run of the taper along the toe", "in")
theta = Quantity("theta", r"\theta", "angle of the taper from the heel", "deg")
c = Quantity("c", "c", "run for each inch of height (cot of the angle)", "")
x = Quantity("x", "x", "distance from the end along the heel", "in")
y = Quantity("y", "y", "distance from the heel across the leg", "in")
u = Quantity("u", "u", "distance round the unrolled fillet, from the tapered leg's tangent", "in")
v = Quantity("v", "v", "distance round the unrolled heel, from its middle", "in")
k = Quantity("k", "k", "kerf", "in")
e_s = Quantity("e_s", "e_s", "sanding allowance", "in")
h = Quantity("h", "h", "thickness of the blunted edge", "in")
bar = Quantity("bar", "B", "length of the sine bar", "in")
A = Quantity("A", "A", "area of the section", "in2")
Q = Quantity("Q", "Q", "first moment of the section beyond y = s, about y = s", "in3")
A_s = Quantity("A_s", "A_s", "area of the section beyond y = s", "in2")
m = Quantity("m", "m", "error of a mark", "in")
s_1 = Quantity("s_1", "s_1", "width left at end 1", "in")
s_2 = Quantity("s_2", "s_2", "width left at end 2", "in")
c_1 = Quantity("c_1", "c_1", "run for each inch of height at end 1", "")
c_2 = Quantity("c_2", "c_2", "run for each inch of height at end 2", "")

_x_v = Quantity("x_v", "x_v", "vertex-projection mark, from the end along the heel", "in")
_x_f = Quantity("x_f", "x_f", "first mark on the inner flat, from the end along the heel", "in")
_x_t = Quantity("x_t", "x_t", "last mark on the inner flat, from the end along the heel", "in")
_x_u = Quantity("x_u", "x_u", "mark in the fillet, from the end along the heel", "in")
_x_h = Quantity("x_h", "x_h", "mark round the heel, from the end along the heel", "in")


def _e(*quantities: Quantity):
    return tuple(quantity.symbol for quantity in quantities)


_W, _t, _r, _r2, _Rh, _s, _L, _X, _th, _c, _x, _y, _u, _v, _k, _es, _h = _e(
    W, t, r, r2, Rh, s, L, X, theta, c, x, y, u, v, k, e_s, h
)

# --- the slope --------------------------------------------------------------------------------------
slope_from_run = Formula(
    "slope from the run",
    c,
    (X, W, s),
    _X / (_W - _s),
    DERIVED,
    {"X": _c * (_W - _s), "W": _s + _X / _c, "s": _W - _X / _c},
)
slope_from_angle = Formula(
    "slope from the angle", c, (theta,), cot(_th), DERIVED, {"theta": atan(1 / _c)}
)
angle_from_slope = Formula(
    "angle from the slope", theta, (c,), atan(1 / _c), DERIVED, {"c": cot(_th)}
)
run_from_slope = Formula(
    "run from the slope",
    X,
    (W, s, c),
    (_W - _s) * _c,
    DERIVED,
    {"c": _X / (_W - _s), "W": _s + _X / _c, "s": _W - _X / _c},
)
angle_from_run = Formula(
    "angle from run and width left",
    theta,
    (W, s, X),
    atan((_W - _s) / _X),
    DERIVED,
    {"X": (_W - _s) * cot(_th), "W": _s + _X * tan(_th), "s": _W - _X * tan(_th)},
)
protractor_from_square = Formula(
    "protractor reading from square",
    Quantity("theta_q", r"\theta_q", "angle of the taper from square", "deg"),
    (theta,),
    pi / 2 - _th,
    "definition",
    {"theta": pi / 2 - _e(Quantity("theta_q", "", "", "deg"))[0]},
)
taper_per_foot = Formula(
    "taper per foot, one side",
    Quantity("T", "T", "fall across the leg in a foot along the heel", "in/ft"),
    (c,),
    12 / _c,
    "definition; tabulated in machinists' handbooks",
    {"c": 12 / _e(Quantity("T", "", "", "in/ft"))[0]},
)
sine_bar = Formula(
    "sine-bar height",
    Quantity("H", "H", "gauge-block height under the sine bar", "in"),
    (bar, theta),
    bar.symbol * sin(_th),
    "TC 9-524 appendix C",
    {"theta": asin(_e(Quantity("H", "", "", "in"))[0] / bar.symbol)},
)

# --- where the line lies ------------------------------------------------------------------------------
taper_mark = Formula(
    "mark of the taper line at a height",
    x,
    (y, s, c),
    (_y - _s) * _c,
    DERIVED,
    {"y": _s + _x / _c, "s": _y - _x / _c, "c": _x / (_y - _s)},
)
vertex_projection = Formula(
    "vertex-projection mark",
    _x_v,
    (t, s, c),
    (_t - _s) * _c,
    DERIVED,
    {"t": _s + _x_v.symbol / _c, "s": _t - _x_v.symbol / _c, "c": _x_v.symbol / (_t - _s)},
)
vertex_projection_from_run = Formula(
    "vertex-projection mark from the run",
    _x_v,
    (X, t, s, W),
    _X * (_t - _s) / (_W - _s),
    DERIVED,
    {"X": _x_v.symbol * (_W - _s) / (_t - _s), "t": _s + _x_v.symbol * (_W - _s) / _X},
)
first_flat_mark = Formula(
    "first mark on the inner flat",
    _x_f,
    (t, r, s, c),
    (_t + _r - _s) * _c,
    DERIVED,
    {"t": _s - _r + _x_f.symbol / _c, "r": _s - _t + _x_f.symbol / _c, "c": _x_f.symbol / (_t + _r - _s)},
)
last_flat_mark = Formula(
    "last mark on the inner flat",
    _x_t,
    (W, r2, s, c),
    (_W - _r2 - _s) * _c,
    DERIVED,
    {"W": _s + _r2 + _x_t.symbol / _c, "r2": _W - _s - _x_t.symbol / _c},
)
fillet_mark = Formula(
    "mark in the unrolled fillet",
    _x_u,
    (t, r, s, u, c),
    (_t + _r - _r * sin(_u / _r) - _s) * _c,
    DERIVED,
    {"c": _x_u.symbol / (_t + _r - _r * sin(_u / _r) - _s)},
)
fillet_place = Formula(
    "place in the unrolled fillet at a height",
    u,
    (t, r, y),
    _r * asin((_t + _r - _y) / _r),
    DERIVED,
    {"y": _t + _r - _r * sin(_u / _r)},
)
fillet_width = Formula(
    "width of the unrolled fillet",
    Quantity("u_B", "u_B", "unrolled fillet from one leg's tangent to the other's", "in"),
    (r,),
    pi * _r / 2,
    "a quarter of a circle",
    {"r": 2 * _e(Quantity("u_B", "", "", "in"))[0] / pi},
)
fillet_length = Formula(
    "length of the cut edge round the fillet",
    Quantity("l_f", r"\ell_f", "length of the cut edge round the fillet", "in"),
    (r, theta),
    _r / sin(_th) * elliptic_e(cos(_th) ** 2),
    "arc length of a plane cut through a cylinder (an ellipse)",
    {"r": _e(Quantity("l_f", "", "", "in"))[0] * sin(_th) / elliptic_e(cos(_th) ** 2)},
)
straight_wrap_error = Formula(
    "error of a straight line carried over the unrolled fillet",
    Quantity("x_e", "x_e", "how far the straight line misses the vertex-projection mark", "in"),
    (r, c),
    (pi / 2 - 1) * _r * _c,
    DERIVED,
    {"r": _e(Quantity("x_e", "", "", "in"))[0] / ((pi / 2 - 1) * _c)},
)
heel_mark = Formula(
    "mark round the unrolled heel",
    _x_h,
    (Rh, s, v, c),
    (_Rh - _Rh * cos(_v / _Rh + pi / 4) - _s) * _c,
    DERIVED,
    {"c": _x_h.symbol / (_Rh - _Rh * cos(_v / _Rh + pi / 4) - _s)},
)

# --- what the cut leaves --------------------------------------------------------------------------------
edge_length = Formula(
    "length of the tapered edge",
    Quantity("l", r"\ell", "length of the tapered edge", "in"),
    (W, s, theta),
    (_W - _s) / sin(_th),
    DERIVED,
    {"W": _s + _e(Quantity("l", "", "", "in"))[0] * sin(_th)},
)
bevel_face = Formula(
    "width of the bevel on the other leg's end",
    Quantity("b_f", "b_f", "width of the bevelled face", "in"),
    (t, s, theta),
    (_t - _s) / sin(_th),
    DERIVED,
    {"t": _s + _e(Quantity("b_f", "", "", "in"))[0] * sin(_th)},
)
blunting = Formula(
    "length lost by blunting the feather edge",
    Quantity("x_b", "x_b", "length lost along the heel", "in"),
    (h, c),
    _h * _c,
    DERIVED,
    {"h": _e(Quantity("x_b", "", "", "in"))[0] / _c},
)
cut_face_area = Formula(
    "area of the cut face",
    Quantity("A_c", "A_c", "area of the sawn face", "in2"),
    (A_s, theta),
    A_s.symbol / sin(_th),
    DERIVED,
    {"A_s": _e(Quantity("A_c", "", "", "in2"))[0] * sin(_th)},
)
tapered_volume = Formula(
    "volume of a part with one taper",
    Quantity("V", "V", "volume of the finished part", "in3"),
    (A, L, c, Q),
    A.symbol * _L - _c * Q.symbol,
    DERIVED,
    {"L": (_e(Quantity("V", "", "", "in3"))[0] + _c * Q.symbol) / A.symbol},
)
tapers_cross = Formula(
    "where the tapers of both ends meet",
    Quantity("x_p", "x_p", "distance of the peak from end 1", "in"),
    (s_1, s_2, L, c_1, c_2),
    c_1.symbol * (c_2.symbol * (s_2.symbol - s_1.symbol) + _L) / (c_1.symbol + c_2.symbol),
    DERIVED,
)
taper_clearance = Formula(
    "distance from a point to the taper line",
    Quantity("n", "n", "distance from the tapered edge, at right angles to it", "in"),
    (x, y, s, theta),
    _x * sin(_th) + (_s - _y) * cos(_th),
    DERIVED,
)

# --- kerf and allowance ---------------------------------------------------------------------------------
shift_along = Formula(
    "shift of a mark along the heel or the toe",
    Quantity("dx", r"\Delta x", "how far the mark moves along the heel", "in"),
    (e_s, theta),
    _es / sin(_th),
    DERIVED,
    {"e_s": _e(Quantity("dx", "", "", "in"))[0] * sin(_th)},
)
shift_across = Formula(
    "shift of a mark on the end",
    Quantity("dy", r"\Delta y", "how far the mark moves across the end", "in"),
    (e_s, theta),
    _es / cos(_th),
    DERIVED,
    {"e_s": _e(Quantity("dy", "", "", "in"))[0] * cos(_th)},
)
blade_middle = Formula(
    "middle of the kerf, from the finished line",
    Quantity("d_m", "d_m", "distance of the blade's middle from the finished line", "in"),
    (e_s, k),
    _es + _k * Rational(1, 2),
    "definition of kerf",
    {"k": 2 * (_e(Quantity("d_m", "", "", "in"))[0] - _es)},
)
blade_far_side = Formula(
    "far side of the kerf, from the finished line",
    Quantity("d_f", "d_f", "distance of the kerf's far side from the finished line", "in"),
    (e_s, k),
    _es + _k,
    "definition of kerf",
    {"k": _e(Quantity("d_f", "", "", "in"))[0] - _es},
)
error_along = Formula(
    "shift of the line by an error of a mark along the heel",
    Quantity("n_x", "n_x", "shift of the line, at right angles to it", "in"),
    (m, theta),
    m.symbol * sin(_th),
    DERIVED,
)
error_across = Formula(
    "shift of the line by an error of a mark across the leg",
    Quantity("n_y", "n_y", "shift of the line, at right angles to it", "in"),
    (m, theta),
    m.symbol * cos(_th),
    DERIVED,
)

# --- how the angle sits at the saw --------------------------------------------------------------------------
a = Quantity("a", "a", "width of leg A", "in")
b = Quantity("b", "b", "width of leg B", "in")
tA = Quantity("tA", "t_A", "thickness of leg A", "in")
tB = Quantity("tB", "t_B", "thickness of leg B", "in")
_a, _b, _tA, _tB = _e(a, b, tA, tB)
heel_up_height = Formula(
    "height of the heel above the table, heel up on both toes",
    Quantity("h_u", "h_u", "height of the heel above the table", "in"),
    (a, b, tA, tB, r2),
    ((_a - _r2) * (_b - _r2) - (_tA - _r2) * (_tB - _r2)) / sqrt((_a - _tB) ** 2 + (_b - _tA) ** 2) + _r2,
    "derived: distance from the heel to the line that touches both inner toes",
)
heel_up_metal = Formula(
    "metal in front of the blade in one leg, heel up",
    Quantity("w", "w", "metal that the teeth are in at once", "in"),
    (t, Quantity("gamma", r"\gamma", "slope of the leg's face on the table", "deg")),
    _t / cos(_e(Quantity("gamma", "", "", "deg"))[0]),
    DERIVED,
)
heel_up_slope = Formula(
    "slope of leg A on the table, heel up on both toes",
    Quantity("gamma", r"\gamma", "slope of the leg's face on the table", "deg"),
    (a, b, tA, tB),
    atan((_b - _tA) / (_a - _tB)),
    "derived: the line that touches both inner toes",
)

ALL = tuple(value for value in list(globals().values()) if isinstance(value, Formula))
