"""Where each letter of the formulas stands on a drawing: one small drawing a letter, its place in the accent.

A test holds that every letter that a formula uses has its place here.

>>> letter_sheet("s", "s", "width left at the end").sentence
'Place of s, width left at the end, on a small drawing.'
"""

from __future__ import annotations

from anglelib.drawing import letter_bases as base
from anglelib.drawing.letter_bases import Place, across, both, counted, edge, field, plain, point, slant, turn, up
from anglelib.drawing.sheet import Group, Sheet, move

_SPANDREL = ((24, 15), (30, 15), (27.5, 15.6), (25, 17.5), (24, 21))
_PATH_U = ((18.5, 19.5), (13.7, 16))

PLACES: dict[str, tuple[Group, Place]] = {
    # the section
    "a": (base.SECTION, across(18, 50, 3.5, 9)),
    "b": (base.SECTION, up(9, 33, 12, -1, 18)),
    "tA": (base.SECTION, up(9, 15, 55, 1, 50)),
    "tB": (base.SECTION, across(18, 24, 38, 33)),
    "W": (base.FACE, up(12, 34, 64, 1, 60)),
    "t": (base.PLAIN_SECTION, across(18, 24, 38, 33)),
    "r": (base.SECTION, point(25.8, 16.8, (40, 29))),
    "r2": (base.SECTION, point(49, 14, (58, 24))),
    "Rh": (base.SECTION, point(19.2, 10.2, (8, 3))),
    "A": (base.PLAIN_SECTION, field(tuple((18 + 8 * y, 9 + 8 * z) for y, z in base.section_outline(base.Section(4, 3, "3/4", fillet="3/4"))), (40, 24))),
    "A_s": (base.PLAIN_SECTION, field(((34, 9), (50, 9), (50, 15), (34, 15)), (42, 19))),
    "Q": (base.PLAIN_SECTION, both(across(34, 42, 21), field(((34, 9), (50, 9), (50, 15), (34, 15)), (42, 19)))),
    "O_s": (base.PLAIN_SECTION, edge((*base.PLAIN_SECTION[0].points, base.PLAIN_SECTION[0].points[0]), (40, 24))),  # type: ignore[union-attr]
    "A_f": (base.PLAIN_SECTION, field(_SPANDREL, (34, 24))),
    "y_f": (base.PLAIN_SECTION, both(across(24, 26, 30, 15), field(_SPANDREL, (34, 24)))),
    "I_y": (base.HALF_SECTION, edge(((6, 16.3), (64, 16.3)), (60, 21))),
    "I_z": (base.HALF_SECTION, edge(((32.3, 4), (32.3, 40)), (38, 34))),
    "I_yz": (base.HALF_SECTION, both(edge(((32.3, 4), (32.3, 40)), (44, 28)), edge(((6, 16.3), (64, 16.3)), (0, 0)))),
    "I_v": (base.HALF_SECTION, edge(((12, 32), (50, 2.4)), (42, 24))),
    "i_v": (base.HALF_SECTION, both(slant((32.3, 16.3), (37, 22.3), 5), edge(((12, 32), (50, 2.4)), (0, 0)))),
    # the part and its taper
    "L": (base.FACE, across(9, 60, 38, 34)),
    "s": (base.FACE, up(27, 34, 5, -1, 9)),
    "X": (base.FACE, across(9, 37, 7, 12)),
    "theta": (base.FACE, turn(37, 12, 14, 152, 180)),
    "theta_q": (base.FACE, turn(9, 27, 9, 270, 331)),
    "c": (base.FACE, both(across(20, 30.3, 15.6, side=-1), up(15.6, 21.1, 20))),
    "s_1": (base.TWO_TAPERS, up(26, 34, 11, 1)),
    "s_2": (base.TWO_TAPERS, up(30, 34, 68, -1, 64)),
    "c_1": (base.TWO_TAPERS, both(across(9, 21.9, 16.7, side=-1), up(16.7, 24.2, 9))),
    "c_2": (base.TWO_TAPERS, both(across(46.7, 58, 18, side=-1), up(18, 25.8, 58))),
    "x_p": (base.PEAK, across(6, 38, 15.5, side=-1)),
    "l_e": (base.FACE, slant((9, 27), (37, 12), -4)),
    "n": (base.FACE, slant((23, 19.5), (27.3, 27.4), -4)),
    "T": (base.FACE, both(up(12, 27, 5, -1, 9), across(9, 37, 7))),
    # places
    "x": (base.FACE, across(9, 23, 19.5, side=-1)),
    "y": (base.FACE, up(19.5, 34, 23)),
    "u": (base.INSIDE, up(18.6, 22, 34)),
    "v": (base.SECTION, edge(((18.6, 11), (18.2, 12.2), (18, 13)), (12, 14))),
    "x_v": (base.INSIDE, across(6, 13.7, 5, 10)),
    "x_f": (base.INSIDE, across(6, 22.9, 26, 22)),
    "x_t": (base.INSIDE, across(6, 38.3, 34, side=-1)),
    "x_u": (base.INSIDE, across(6, 18.5, 28, 19.5)),
    "x_h": (base.FACE, both(across(9, 22, 39, 34), counted(((22, 34),), (0, 0)))),
    "x_e": (base.INSIDE, across(9.2, 13.7, 5, 10)),
    "x_s": (base.INSIDE, both(across(6, 10, 5, 10), edge(((42, 40), (19, 22), (14.6, 19.5), (10, 16), (10, 10)), (34, 34)))),
    # what a cut leaves
    "u_B": (base.INSIDE, up(16, 22, 34)),
    "l_f": (base.INSIDE, edge(((22.9, 22), *_PATH_U), (28, 17))),
    "b_f": (base.PLAIN_SECTION, slant((18, 33), (24, 27), 5)),
    "h": (base.NOSE, up(31, 36, 13, 1)),
    "x_b": (base.NOSE, across(4, 14, 41, 36)),
    "A_c": (base.FACE, field(((9, 27), (37, 12), (39, 14), (11, 29)), (31, 22))),
    "V": (base.FACE, field(((9, 34), (60, 34), (60, 12), (37, 12), (9, 27)), (64, 38))),
    "B": (base.SINE, slant((11, 13.6), (58, 31), 4)),
    "H": (base.SINE, up(6, 24.5, 64.5, -1)),
    # the saw
    "k": (base.SAW, slant((23, 22), (20, 26), -5)),
    "e_s": (base.SAW, slant((26, 18), (23, 22), 5)),
    "e_h": (base.SAW, slant((26, 18), (23, 22), 5)),
    "dx": (base.SAW, across(17, 26, 18, side=-1)),
    "dy": (base.SAW, up(24, 30, 35)),
    "d_m": (base.SAW, slant((26, 18), (21.5, 24), 5)),
    "d_f": (base.SAW, slant((26, 18), (20, 26), 5)),
    "m": (base.LINE, across(26, 31, 18)),
    "n_x": (base.LINE, both(slant((31, 18), (29.5, 20.3), 11), across(26, 31, 18))),
    "n_y": (base.LINE, both(slant((32, 26), (33.85, 23.2), -10), up(22, 26, 32))),
    "h_u": (base.STANCE, up(8, 34, 65, -1, 35)),
    "h_l": (base.BLOCKED, up(8, 30, 10, -1, 16)),
    "c_b": (base.BLOCKED, up(6, 8, 11, -1, 16)),
    "h_b": (base.BLOCKED, up(6, 30, 60, 1, 54)),
    "h_t": (base.BLOCKED, up(6, 36, 61, 1, 54)),
    "h_o": (base.STANDING, up(6, 38, 10, -1, 16)),
    "w": (base.STANCE, up(19.5, 25.4, 25, -1)),
    "gamma": (base.STANCE, turn(8, 10.5, 12, 0, 41)),
    "L_b": (base.STICK, across(8, 22, 31, 26)),
    "k_r": (base.STICK, across(22, 24, 31, 26)),
    "n_e": (base.STICK, counted(((8, 21), (22, 21)), (15, 31))),
    "n_p": (base.STICK, counted(((15, 29), (31, 29)), (31, 34))),
    "E_l": (base.STICK, across(8, 65, 34, 26)),
    "S_b": (base.STICK, both(across(8, 22, 33, 26), across(24, 38, 33, 26))),
    "n_c": (base.STICK, counted(((23, 21), (39, 21)), (31, 31))),
    "r_l": (base.STICK, across(40, 65, 31, 26)),
    "x_m": (base.STICK, across(8, 38, 10, 16)),
    "g_b": (base.BLADE, across(30, 40, 42, 40)),
    "s_t": (base.BLADE, across(27, 30, 4, 8)),
    # squaring
    "p": (base.END, both(across(14, 20, 39, 36), up(8, 36, 26))),
    "q": (base.COMPOUND, both(across(24, 38, 3, 6), up(6, 22, 46))),
    "e_A": (base.END, turn(14, 8, 24, 78, 90)),
    "e_q": (base.FLIP, turn(34, 8, 26, 84, 90, 10)),
    "h_q": (base.FLIP, up(8, 34, 50, 1, 36)),
    "g": (base.END, across(14, 20, 40, 36)),
    "g_f": (base.FLIP, across(31.5, 36.5, 34)),
    "beta": (base.OPEN, turn(16, 8, 20, 90, 100)),
    "psi": (base.ROLLED, turn(12, 8, 38, 0, 8.7)),
    "y_i": (base.OPEN, both(across(16, 21.6, 30, 13), point(21.6, 13, (34, 24)))),
    "e_B": (base.INSIDE, both(turn(13.7, 10, 5, 90, 110), edge(((13.7, 10), (11.6, 16)), (8, 30)))),
    "c_r": (base.FACE, both(across(16, 33.2, 14, side=-1), up(14, 23.3, 16))),
    "chi": (base.CLOSED, turn(16, 8, 20, 80, 90)),
    "y_t": (base.OPEN_FILLET, both(across(16, 25.6, 30, 13), point(25.6, 13, (34, 24)))),
    "x_k": (base.NICKED, across(8, 26, 40, 34)),
    "omega": (base.TWISTED, turn(12, 8, 36, 0, 9.9)),
    "z_w": (base.TWISTED, up(8, 16, 61, 1)),
    "kappa": (base.BEVELLED, turn(54, 14, 16, 90, 114)),
    "w_k": (base.BEVELLED, across(45, 54, 38, 28)),
    "tau": (base.TILTED, turn(32, 19, 16, 70.3, 90)),
    "n_t": (base.TILTED, across(30.1, 33.7, 4, 14)),
    # compound cuts
    "mu": (base.MITER, turn(35, 22, 14, 55.5, 90)),
    "nu": (base.TILTED, turn(32, 19, 13, 70.3, 90, 8)),
    "theta_A": (base.COMPOUND, turn(24, 22, 9, 0, 45)),
    "N": (base.TEETH, both(across(8, 62, 39, 34), counted(tuple((13.5 + 6 * i, 12) for i in range(8)), (35, 3)))),
    "z_n": (base.TEETH, counted(((19.5, 18), (25.5, 18)), (22, 5))),
    "z_m": (base.STANDING, counted(tuple((27.4, 11.6 + 4 * i) for i in range(7)), (38, 24))),
    # allowance
    "delta": (base.STRAY, turn(35, 26, 22, 0, 8.4)),
    "l_p": (base.STRAY, across(35, 58, 34, 26)),
    "n_d": (base.STRAY, up(26, 29.4, 58, 1)),
    "e_p": (base.STRAY, up(22, 26, 35, 1)),
    "f_p": (base.STRAY, across(8, 35, 36, 26)),
    "d_w": (base.STRAY, up(14, 26, 14, 1)),
    "sigma_p": (base.SPREAD, both(across(35, 46, 20), edge(((46, 10), (46, 24.5)), (60, 30)))),
    "sigma_a": (base.STRAY, both(turn(35, 26, 14, -9, 9), edge(((21, 28.5), (49, 23.5)), (60, 34)))),
    "sigma_i": (base.STRAY, up(18, 26, 8.5, 1)),
    "alpha": (base.HEAT, both(across(56, 62, 32, 26), across(6, 56, 10, 16))),
    "dT": (base.HEAT, counted(((14, 30), (22, 30), (30, 30)), (22, 34))),
    "dL": (base.HEAT, across(56, 62, 12, 16)),
    "P_w": (base.DISC, point(40, 15, (46, 30))),
    "t_s": (base.CLOCK, turn(35, 22, 19, 0, 90)),
    "m_k": (base.DISC, point(55, 18, (60, 30))),
    "c_p": (base.DISC, point(60, 15, (56, 32))),
    "a_l": (base.FLAT_SPREAD, across(35, 54, 33, 28)),
    "u_l": (base.FLAT_SPREAD, across(35, 46, 18)),
    "l_1": (base.STRAY, across(8, 35, 36, 22)),
    "l_2": (base.STRAY, across(35, 62, 36, 26)),
    "sigma_12": (base.STRAY, both(up(14, 22, 8.5, 1), up(14, 30, 61.5, -1))),
    # holes
    "D": (base.HOLE, across(41, 47, 33, 24)),
    "e": (base.HOLE, slant((44, 24), (32.4, 38.8), -5)),
    "e_D": (base.HOLE, both(across(44, 60, 24), across(41, 47, 33, 24))),
    "H_d": (base.RIVET, across(27, 43, 41, 30)),
    "y_n": (base.HOLE, up(8, 21, 54, -1)),
    "w_y": (base.HOLE, up(19, 31, 57, -1)),
    "x_n": (base.HOLE, across(6, 44, 4, 8)),
    "theta_m": (base.HOLE, both(turn(34, 40, 12, 180, 218, 9), edge(((34, 40), (6, 18)), (0, 0)))),
    "theta_M": (base.HOLE, both(turn(34, 40, 12, 180, 240, 9), edge(((34, 40), (18.5, 13)), (0, 0)))),
    "G": (base.RIVET, up(18, 30, 61, 1, 58)),
    "l_r": (base.RIVET, up(13, 30, 10, -1, 31)),
    # rounding
    "rho": (base.CORNER, slant((26, 20), (16.1, 29.9), -4)),
    "phi": (base.ACUTE, turn(4, 10, 40, 0, 18.5)),
    "x_r": (base.CORNER, slant((12, 34), (16.1, 29.9), 10)),
    "t_r": (base.CORNER, across(12, 26, 38, 34)),
    "l_a": (base.CORNER, edge(tuple(base.Arc(26, 20, 14, 90, 180).points()), (10, 37))),
    "A_r": (base.CORNER, field(((12, 34), (12, 20), *reversed(base.Arc(26, 20, 14, 90, 180).points(8))), (30, 38))),
    "n_1": (base.CORNER, both(up(18, 34, 40), counted(((40, 18),), (40, 12)))),
    "n_2": (base.CORNER, both(across(12, 40, 14), counted(((40, 14),), (44, 10)))),
    "x_o": (base.ACUTE, across(4, 19.4, 4, 10)),
    # stepping off
    "e_1": (base.STEPS, across(18, 19, 28, 22)),
    "n_s": (base.STEPS, counted(((11, 27), (26, 27), (41, 27), (56, 27)), (34, 31))),
    "E_n": (base.STEPS, across(60, 64, 4, 12, -1)),
    "E_r": (base.SPREAD, both(across(24, 46, 18), edge(((24, 10), (24, 24)), (0, 0)))),
    # noise
    "L_A": (base.EAR, point(50, 22, (56, 32))),
    "T_h": (base.CLOCK, turn(35, 22, 19, 0, 90, 4)),
}


def letter_sheet(letter: str, latex: str, meaning: str) -> Sheet:
    """The small drawing of one letter; KeyError where it has none."""
    drawn, place = PLACES[letter]
    return Sheet(base.WIDTH, base.HEIGHT, move(drawn + place(latex), base.MARGIN, base.MARGIN), f"Place of {plain(latex)}", f"Place of {plain(latex)}, {meaning}, on a small drawing.")
