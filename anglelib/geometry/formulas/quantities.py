"""The quantities of the course: one letter, one meaning, in formulas, on drawings and as argument names.

Each name here is a sympy symbol, so that a formula reads as it is written on paper; what the letter
means is in ``QUANTITIES``.
"""

from __future__ import annotations

import sympy

from anglelib.geometry.formula import Quantity

QUANTITIES: dict[str, Quantity] = {}


def quantity(letter: str, meaning: str, unit: str, latex: str = "") -> sympy.Symbol:
    """A new quantity's symbol; a letter that has a meaning already is refused.

    >>> quantity("W", "weight", "lb")
    Traceback (most recent call last):
        ...
    ValueError: W already means width of the leg in question
    """
    if letter in QUANTITIES:
        raise ValueError(f"{letter} already means {QUANTITIES[letter].meaning}")
    QUANTITIES[letter] = Quantity(letter, latex or letter, meaning, unit)
    return QUANTITIES[letter].symbol


# the section
a = quantity("a", "width of leg A", "in")
b = quantity("b", "width of leg B", "in")
tA = quantity("tA", "thickness of leg A", "in", "t_A")
tB = quantity("tB", "thickness of leg B", "in", "t_B")
W = quantity("W", "width of the leg in question", "in")
t = quantity("t", "thickness of the other leg", "in")
r = quantity("r", "fillet radius", "in")
r2 = quantity("r2", "toe radius", "in", "r_2")
Rh = quantity("Rh", "heel radius", "in", "R_h")
A = quantity("A", "area of the section", "in2")
A_s = quantity("A_s", "area of the section beyond the width left", "in2")
Q = quantity("Q", "first moment of the section beyond the width left, about it", "in3")

# the part and its taper
L = quantity("L", "length of the part", "in")
s = quantity("s", "width left at the end", "in")
X = quantity("X", "run of the taper along the toe", "in")
theta = quantity("theta", "angle of the taper from the heel", "deg", r"\theta")
theta_q = quantity("theta_q", "angle of the taper from square", "deg", r"\theta_q")
c = quantity("c", "run for each inch of height (cot of the angle)", "")
s_1 = quantity("s_1", "width left at end 1", "in")
s_2 = quantity("s_2", "width left at end 2", "in")
c_1 = quantity("c_1", "run for each inch of height at end 1", "")
c_2 = quantity("c_2", "run for each inch of height at end 2", "")

# places
x = quantity("x", "distance from the end along the heel", "in")
y = quantity("y", "distance from the heel across the leg", "in")
u = quantity("u", "distance round the unrolled fillet, from the tapered leg's tangent", "in")
v = quantity("v", "distance round the unrolled heel, from its middle", "in")
x_v = quantity("x_v", "vertex-projection mark, from the end along the heel", "in")
x_f = quantity("x_f", "first mark on the inner flat, from the end along the heel", "in")
x_t = quantity("x_t", "last mark on the inner flat, from the end along the heel", "in")
x_u = quantity("x_u", "mark in the fillet, from the end along the heel", "in")
x_h = quantity("x_h", "mark round the heel, from the end along the heel", "in")
x_e = quantity("x_e", "how far the straight line misses the vertex-projection mark", "in")
x_p = quantity("x_p", "distance of the peak from end 1", "in")
n = quantity("n", "distance from the tapered edge, at right angles to it", "in")

# what a cut leaves
u_B = quantity("u_B", "unrolled fillet from one leg's tangent to the other's", "in")
l_f = quantity("l_f", "length of the cut edge round the fillet", "in", r"\ell_f")
l_e = quantity("l_e", "length of the tapered edge", "in", r"\ell_e")
b_f = quantity("b_f", "width of the bevelled face", "in")
h = quantity("h", "thickness of the blunted edge", "in")
x_b = quantity("x_b", "length lost along the heel by blunting", "in")
A_c = quantity("A_c", "area of the sawn face", "in2")
V = quantity("V", "volume of the finished part", "in3")

# the saw
T = quantity("T", "fall across the leg in a foot along the heel", "in/ft")
B = quantity("B", "length of the sine bar", "in")
H = quantity("H", "gauge-block height under the sine bar", "in")
k = quantity("k", "kerf", "in")
e_s = quantity("e_s", "sanding allowance", "in")
dx = quantity("dx", "how far a mark moves along the heel", "in", r"\Delta x")
dy = quantity("dy", "how far a mark moves across the end", "in", r"\Delta y")
d_m = quantity("d_m", "distance of the blade's middle from the finished line", "in")
d_f = quantity("d_f", "distance of the kerf's far side from the finished line", "in")
m = quantity("m", "error of a mark", "in")
n_x = quantity("n_x", "shift of the line by a mark's error along the heel", "in")
n_y = quantity("n_y", "shift of the line by a mark's error across the leg", "in")
h_u = quantity("h_u", "height of the heel above the table", "in")
w = quantity("w", "metal that the teeth are in at once", "in")
gamma = quantity("gamma", "slope of a leg's face on the table", "deg", r"\gamma")
