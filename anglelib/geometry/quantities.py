"""The quantities of the course: one letter, one meaning, in formulas, on drawings and as argument names."""

from __future__ import annotations

from dataclasses import dataclass

QUANTITIES: dict[str, Quantity] = {}


@dataclass(frozen=True)
class Quantity:
    """A quantity of the trade: the letter that stands for it, what it is on the metal, its unit.

    ``unit`` is "in", "deg", "in2", "in3", "in/ft" or "" (a plain number).
    """

    letter: str
    latex: str
    meaning: str
    unit: str


def quantity(letter: str, meaning: str, unit: str, latex: str = "") -> None:
    """A new quantity; a letter that has a meaning already is refused.

    >>> quantity("W", "weight", "lb")
    Traceback (most recent call last):
        ...
    ValueError: W already means width of the leg in question
    """
    if letter in QUANTITIES:
        raise ValueError(f"{letter} already means {QUANTITIES[letter].meaning}")
    QUANTITIES[letter] = Quantity(letter, latex or letter, meaning, unit)


# the section
quantity("a", "width of leg A", "in")
quantity("b", "width of leg B", "in")
quantity("tA", "thickness of leg A", "in", "t_A")
quantity("tB", "thickness of leg B", "in", "t_B")
quantity("W", "width of the leg in question", "in")
quantity("t", "thickness of the other leg", "in")
quantity("r", "fillet radius", "in")
quantity("r2", "toe radius", "in", "r_2")
quantity("Rh", "heel radius", "in", "R_h")
quantity("A", "area of the section", "in2")
quantity("A_s", "area of the section beyond the width left", "in2")
quantity("Q", "first moment of the section beyond the width left, about it", "in3")

# the part and its taper
quantity("L", "length of the part", "in")
quantity("s", "width left at the end", "in")
quantity("X", "run of the taper along the toe", "in")
quantity("theta", "angle of the taper from the heel", "deg", r"\theta")
quantity("theta_q", "angle of the taper from square", "deg", r"\theta_q")
quantity("c", "run for each inch of height (cot of the angle)", "")
quantity("s_1", "width left at end 1", "in")
quantity("s_2", "width left at end 2", "in")
quantity("c_1", "run for each inch of height at end 1", "")
quantity("c_2", "run for each inch of height at end 2", "")

# places
quantity("x", "distance from the end along the heel", "in")
quantity("y", "distance from the heel across the leg", "in")
quantity("u", "distance round the unrolled fillet, from the tapered leg's tangent", "in")
quantity("v", "distance round the unrolled heel, from its middle", "in")
quantity("x_v", "vertex-projection mark, from the end along the heel", "in")
quantity("x_f", "first mark on the inner flat, from the end along the heel", "in")
quantity("x_t", "last mark on the inner flat, from the end along the heel", "in")
quantity("x_u", "mark in the fillet, from the end along the heel", "in")
quantity("x_h", "mark round the heel, from the end along the heel", "in")
quantity("x_e", "how far the straight line misses the vertex-projection mark", "in")
quantity("x_p", "distance of the peak from end 1", "in")
quantity("n", "distance from the tapered edge, at right angles to it", "in")

# what a cut leaves
quantity("u_B", "unrolled fillet from one leg's tangent to the other's", "in")
quantity("l_f", "length of the cut edge round the fillet", "in", r"\ell_f")
quantity("l_e", "length of the tapered edge", "in", r"\ell_e")
quantity("b_f", "width of the bevelled face", "in")
quantity("h", "thickness of the blunted edge", "in")
quantity("x_b", "length lost along the heel by blunting", "in")
quantity("A_c", "area of the sawn face", "in2")
quantity("V", "volume of the finished part", "in3")

# the saw
quantity("T", "fall across the leg in a foot along the heel", "in/ft")
quantity("B", "length of the sine bar", "in")
quantity("H", "gauge-block height under the sine bar", "in")
quantity("k", "kerf", "in")
quantity("e_s", "sanding allowance", "in")
quantity("dx", "how far a mark moves along the heel", "in", r"\Delta x")
quantity("dy", "how far a mark moves across the end", "in", r"\Delta y")
quantity("x_s", "where the saw line leaves the other leg's inner face, from the end along the heel", "in")
quantity("d_m", "distance of the blade's middle from the finished line", "in")
quantity("d_f", "distance of the kerf's far side from the finished line", "in")
quantity("m", "error of a mark", "in")
quantity("n_x", "shift of the line by a mark's error along the heel", "in")
quantity("n_y", "shift of the line by a mark's error across the leg", "in")
quantity("h_u", "height of the heel above the table", "in")
quantity("h_l", "reach of the hanging leg below the block's top", "in", r"h_\ell")
quantity("c_b", "clearance of the hanging toe above the table", "in")
quantity("h_b", "height of the block under a leg", "in")
quantity("h_t", "height above the table that the guide clears", "in")
quantity("w", "metal that the teeth are in at once", "in")
quantity("h_o", "height of the leg that the blade goes down as a whole", "in")
quantity("L_b", "length of the blank", "in")
quantity("n_e", "ends that are sawn and sanded", "")
quantity("n_p", "number of the piece in a batch", "")
quantity("E_l", "usable length of a stick", "in", "E")
quantity("S_b", "sum of the blanks that come from a stick", "in", "S")
quantity("n_c", "cuts that part the blanks off", "")
quantity("r_l", "what is left of a usable length", "in", "R")
quantity("x_m", "saw mark of a piece in a batch, from the squared end of the stick", "in")
quantity("g_b", "thickness of the blade's back (its gauge)", "in")
quantity("s_t", "set of a tooth to its side", "in")
quantity("gamma", "slope of a leg's face on the table", "deg", r"\gamma")

# squaring
quantity("p", "how far the end runs out along the heel for each inch of leg A", "")
quantity("q", "how far the end runs out along the heel for each inch of leg B", "")
quantity("e_A", "angle by which the end is out of square on leg A", "deg", r"\varepsilon_A")
quantity("e_q", "error of the square's blade", "deg", r"\varepsilon_q")
quantity("h_q", "height over the edge at which the lines of the flip test are compared", "in")
quantity("g", "gap of light at the toe", "in")
quantity("g_f", "gap between the two lines of the flip test", "in")
quantity("beta", "how far the legs open beyond 90 degrees", "deg", r"\beta")
quantity("psi", "roll of the stock at the saw", "deg", r"\psi")
quantity("y_i", "height of the inside corner from the heel, on the leg in question", "in")
quantity("e_B", "angle by which the line on the other leg is out of square", "deg", r"\varepsilon_B")
quantity("c_r", "slope of the taper that rolled stock gets", "")
quantity("tau", "tilt of the blade from upright", "deg", r"\tau")
quantity("chi", "how far the legs close, short of 90 degrees", "deg", r"\chi")
quantity("y_t", "where the fillet begins on the leg in question, from the heel", "in")
quantity("x_k", "how far along from the end the saw nicks the other leg's toe", "in")
quantity("omega", "twist of a stick in a foot of its length", "deg", r"\omega")
quantity("z_w", "how far a twisted leg's toe stands off a flat table", "in")
quantity("kappa", "slope of the toe's edge, from square to its faces", "deg", r"\kappa")
quantity("w_k", "how much less of the leg the inner face shows than the outer one", "in")
quantity("n_t", "inside edge minus outside edge of a tilted cut", "in")

# compound cuts
quantity("mu", "miter: turn of the saw from square", "deg", r"\mu")
quantity("nu", "tilt of the blade for a compound cut", "deg", r"\nu")
quantity("theta_A", "angle of the cut's line on leg A, from the heel", "deg", r"\theta_A")
quantity("N", "teeth to the inch", "1/in")
quantity("z_n", "teeth that must be in the metal at once", "")
quantity("z_m", "teeth that may be in the metal at once", "")

# allowance
quantity("d", "distance of the saw line from the finished line", "in")
quantity("delta", "angle error of the cut", "deg", r"\delta")
quantity("l_p", "distance along the cut from the point it turns about", "in", r"\ell_p")
quantity("n_d", "how far the cut strays at that point", "in")
quantity("e_p", "largest error of position of the cut", "in")
quantity("f_p", "where along the edge the cut turns, as a part of its length", "")
quantity("d_w", "least allowance that no cut crosses", "in")
quantity("sigma_p", "standard uncertainty of position", "in", r"\sigma_p")
quantity("sigma_a", "standard uncertainty of angle, as a slope", "", r"\sigma_a")
quantity("sigma_i", "standard uncertainty of the gap at an end of the cut", "in", r"\sigma_i")
quantity("alpha", "expansion for each degree", "1/K", r"\alpha")
quantity("dT", "rise of temperature", "K", r"\Delta T")
quantity("dL", "growth of a length by heat", "in", r"\Delta L")
quantity("P_w", "power that goes into the part", "W")
quantity("t_s", "seconds of sanding", "s")
quantity("m_k", "mass of the part", "kg")
quantity("c_p", "specific heat", "J/(kg K)")
quantity("a_l", "half-width of limits within which anything is equally likely", "in")
quantity("u_l", "standard uncertainty from limits alone", "in")

# holes
quantity("D", "diameter of the fastener", "in")
quantity("e", "edge distance, from the hole's centre", "in")
quantity("e_D", "edge distance in diameters", "")
quantity("H_d", "diameter of the rivet's head", "in")
quantity("y_n", "least height of a hole from the heel that lets the head clear the fillet", "in")
quantity("w_y", "width of the band in which a row of holes may lie", "in")
quantity("x_n", "nearest hole to the end, behind a taper of the other leg", "in")
quantity("theta_m", "least angle of a taper that keeps the edge distance", "deg", r"\theta_{min}")
quantity("theta_M", "largest angle of a taper that keeps the edge distance", "deg", r"\theta_{max}")
quantity("G", "grip: metal that the rivet holds together", "in")
quantity("l_r", "length of the rivet", "in", r"\ell_r")

# rounding
quantity("rho", "rounding radius", "in", r"\rho")
quantity("phi", "angle of the corner", "deg", r"\varphi")
quantity("x_r", "length lost from the corner to the arc", "in")
quantity("t_r", "from the corner to where the arc begins", "in")
quantity("l_a", "length of the arc", "in", r"\ell_a")
quantity("A_r", "area lost by rounding", "in2")
quantity("n_1", "distance of the hole from one edge of the corner", "in")
quantity("n_2", "distance of the hole from the corner's other edge", "in")
quantity("x_o", "by how much the nose of a vertex taper gets shorter", "in")

# stepping off
quantity("e_1", "error of one step", "in")
quantity("n_s", "number of steps", "")
quantity("E_n", "error after so many steps of the same error", "in")
quantity("E_r", "standard error after so many steps of independent error", "in")

# noise
quantity("L_A", "sound level at the ear", "dBA")
quantity("T_h", "hours a day that are allowed at that level", "h")

# properties of the section
quantity("O_s", "length of the section's outline", "in")
quantity("A_f", "area of the metal in the fillet", "in2")
quantity("y_f", "centroid of the metal in the fillet, from the inside corner", "in")
quantity("I_y", "second moment of area about the axis along leg A", "in4")
quantity("I_z", "second moment of area about the axis along leg B", "in4")
quantity("I_yz", "product of area about those axes", "in4", "I_{yz}")
quantity("I_v", "smallest second moment of area", "in4")
quantity("i_v", "smallest radius of gyration", "in")

# the gaps at both ends of a cut
quantity("l_1", "start of the edge from the point the cut turns about", "in", r"\ell_1")
quantity("l_2", "end of the edge from the point the cut turns about", "in", r"\ell_2")
quantity("sigma_12", "covariance of the gaps at both ends of the edge", "in2", r"\sigma_{12}")

# a rough cut by hacksaw
quantity("e_h", "allowance of the hacksaw", "in")
quantity("k_r", "what a rough cut takes besides the sanding allowances", "in")
