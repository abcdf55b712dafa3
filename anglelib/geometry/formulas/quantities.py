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
x_s = quantity("x_s", "where the saw line leaves the other leg's inner face, from the end along the heel", "in")
d_m = quantity("d_m", "distance of the blade's middle from the finished line", "in")
d_f = quantity("d_f", "distance of the kerf's far side from the finished line", "in")
m = quantity("m", "error of a mark", "in")
n_x = quantity("n_x", "shift of the line by a mark's error along the heel", "in")
n_y = quantity("n_y", "shift of the line by a mark's error across the leg", "in")
h_u = quantity("h_u", "height of the heel above the table", "in")
h_l = quantity("h_l", "reach of the hanging leg below the block's top", "in", r"h_\ell")
c_b = quantity("c_b", "clearance of the hanging toe above the table", "in")
h_b = quantity("h_b", "height of the block under a leg", "in")
h_t = quantity("h_t", "height above the table that the guide clears", "in")
w = quantity("w", "metal that the teeth are in at once", "in")
h_o = quantity("h_o", "height of the leg that the blade goes down as a whole", "in")
L_b = quantity("L_b", "length of the blank", "in")
n_e = quantity("n_e", "ends that are sawn and sanded", "")
n_p = quantity("n_p", "number of the piece in a batch", "")
E_l = quantity("E_l", "usable length of a stick", "in", "E")
S_b = quantity("S_b", "sum of the blanks that come from a stick", "in", "S")
n_c = quantity("n_c", "cuts that part the blanks off", "")
r_l = quantity("r_l", "what is left of a usable length", "in", "R")
x_m = quantity("x_m", "saw mark of a piece in a batch, from the squared end of the stick", "in")
g_b = quantity("g_b", "thickness of the blade's back (its gauge)", "in")
s_t = quantity("s_t", "set of a tooth to its side", "in")
gamma = quantity("gamma", "slope of a leg's face on the table", "deg", r"\gamma")

# squaring
p = quantity("p", "how far the end runs out along the heel for each inch of leg A", "")
q = quantity("q", "how far the end runs out along the heel for each inch of leg B", "")
e_A = quantity("e_A", "angle by which the end is out of square on leg A", "deg", r"\varepsilon_A")
e_q = quantity("e_q", "error of the square's blade", "deg", r"\varepsilon_q")
h_q = quantity("h_q", "height over the edge at which the lines of the flip test are compared", "in")
g = quantity("g", "gap of light at the toe", "in")
g_f = quantity("g_f", "gap between the two lines of the flip test", "in")
beta = quantity("beta", "how far the legs open beyond 90 degrees", "deg", r"\beta")
psi = quantity("psi", "roll of the stock at the saw", "deg", r"\psi")
y_i = quantity("y_i", "height of the inside corner from the heel, on the leg in question", "in")
e_B = quantity("e_B", "angle by which the line on the other leg is out of square", "deg", r"\varepsilon_B")
c_r = quantity("c_r", "slope of the taper that rolled stock gets", "")
tau = quantity("tau", "tilt of the blade from upright", "deg", r"\tau")
chi = quantity("chi", "how far the legs close, short of 90 degrees", "deg", r"\chi")
y_t = quantity("y_t", "where the fillet begins on the leg in question, from the heel", "in")
x_k = quantity("x_k", "how far along from the end the saw nicks the other leg's toe", "in")
omega = quantity("omega", "twist of a stick in a foot of its length", "deg", r"\omega")
z_w = quantity("z_w", "how far a twisted leg's toe stands off a flat table", "in")
kappa = quantity("kappa", "slope of the toe's edge, from square to its faces", "deg", r"\kappa")
w_k = quantity("w_k", "how much less of the leg the inner face shows than the outer one", "in")
n_t = quantity("n_t", "inside edge minus outside edge of a tilted cut", "in")

# compound cuts
mu = quantity("mu", "miter: turn of the saw from square", "deg", r"\mu")
nu = quantity("nu", "tilt of the blade for a compound cut", "deg", r"\nu")
theta_A = quantity("theta_A", "angle of the cut's line on leg A, from the heel", "deg", r"\theta_A")
N = quantity("N", "teeth to the inch", "1/in")
z_n = quantity("z_n", "teeth that must be in the metal at once", "")
z_m = quantity("z_m", "teeth that may be in the metal at once", "")

# allowance
d = quantity("d", "distance of the saw line from the finished line", "in")
delta = quantity("delta", "angle error of the cut", "deg", r"\delta")
l_p = quantity("l_p", "distance along the cut from the point it turns about", "in", r"\ell_p")
n_d = quantity("n_d", "how far the cut strays at that point", "in")
e_p = quantity("e_p", "largest error of position of the cut", "in")
f_p = quantity("f_p", "where along the edge the cut turns, as a part of its length", "")
d_w = quantity("d_w", "least allowance that no cut crosses", "in")
sigma_p = quantity("sigma_p", "standard uncertainty of position", "in", r"\sigma_p")
sigma_a = quantity("sigma_a", "standard uncertainty of angle, as a slope", "", r"\sigma_a")
sigma_i = quantity("sigma_i", "standard uncertainty of the gap at an end of the cut", "in", r"\sigma_i")
alpha = quantity("alpha", "expansion for each degree", "1/K", r"\alpha")
dT = quantity("dT", "rise of temperature", "K", r"\Delta T")
dL = quantity("dL", "growth of a length by heat", "in", r"\Delta L")
P_w = quantity("P_w", "power that goes into the part", "W")
t_s = quantity("t_s", "seconds of sanding", "s")
m_k = quantity("m_k", "mass of the part", "kg")
c_p = quantity("c_p", "specific heat", "J/(kg K)")
a_l = quantity("a_l", "half-width of limits within which anything is equally likely", "in")
u_l = quantity("u_l", "standard uncertainty from limits alone", "in")

# holes
D = quantity("D", "diameter of the fastener", "in")
e = quantity("e", "edge distance, from the hole's centre", "in")
e_D = quantity("e_D", "edge distance in diameters", "")
H_d = quantity("H_d", "diameter of the rivet's head", "in")
y_n = quantity("y_n", "least height of a hole from the heel that lets the head clear the fillet", "in")
w_y = quantity("w_y", "width of the band in which a row of holes may lie", "in")
x_n = quantity("x_n", "nearest hole to the end, behind a taper of the other leg", "in")
theta_m = quantity("theta_m", "least angle of a taper that keeps the edge distance", "deg", r"\theta_{min}")
theta_M = quantity("theta_M", "largest angle of a taper that keeps the edge distance", "deg", r"\theta_{max}")
G = quantity("G", "grip: metal that the rivet holds together", "in")
l_r = quantity("l_r", "length of the rivet", "in", r"\ell_r")

# rounding
rho = quantity("rho", "rounding radius", "in", r"\rho")
phi = quantity("phi", "angle of the corner", "deg", r"\varphi")
x_r = quantity("x_r", "length lost from the corner to the arc", "in")
t_r = quantity("t_r", "from the corner to where the arc begins", "in")
l_a = quantity("l_a", "length of the arc", "in", r"\ell_a")
A_r = quantity("A_r", "area lost by rounding", "in2")
n_1 = quantity("n_1", "distance of the hole from one edge of the corner", "in")
n_2 = quantity("n_2", "distance of the hole from the corner's other edge", "in")
x_o = quantity("x_o", "by how much the nose of a vertex taper gets shorter", "in")

# stepping off
e_1 = quantity("e_1", "error of one step", "in")
n_s = quantity("n_s", "number of steps", "")
E_n = quantity("E_n", "error after so many steps of the same error", "in")
E_r = quantity("E_r", "standard error after so many steps of independent error", "in")

# noise
L_A = quantity("L_A", "sound level at the ear", "dBA")
T_h = quantity("T_h", "hours a day that are allowed at that level", "h")

# properties of the section
O_s = quantity("O_s", "length of the section's outline", "in")
A_f = quantity("A_f", "area of the metal in the fillet", "in2")
y_f = quantity("y_f", "centroid of the metal in the fillet, from the inside corner", "in")
I_y = quantity("I_y", "second moment of area about the axis along leg A", "in4")
I_z = quantity("I_z", "second moment of area about the axis along leg B", "in4")
I_yz = quantity("I_yz", "product of area about those axes", "in4", "I_{yz}")
I_v = quantity("I_v", "smallest second moment of area", "in4")
i_v = quantity("i_v", "smallest radius of gyration", "in")

# the gaps at both ends of a cut
l_1 = quantity("l_1", "start of the edge from the point the cut turns about", "in", r"\ell_1")
l_2 = quantity("l_2", "end of the edge from the point the cut turns about", "in", r"\ell_2")
sigma_12 = quantity("sigma_12", "covariance of the gaps at both ends of the edge", "in2", r"\sigma_{12}")
