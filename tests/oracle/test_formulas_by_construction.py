"""Every formula, at random numbers, against a construction that does not repeat it."""

from __future__ import annotations

from math import pi
from random import Random

import constructions_section  # noqa: F401 (enters its constructions)
import constructions_shop  # noqa: F401
import constructions_taper  # noqa: F401
import pytest
from straightedge import CONSTRUCTIONS

from anglelib.geometry.formula import Formula
from anglelib.geometry.formulas import ALL

TRIALS = 12


def bench(rng: Random) -> dict[str, float]:
    """A number for every letter, such as a bench might see; those that hang together fit one another."""
    fixed = {
        "W": (1, 3), "a": (1, 3), "b": (1, 3), "t": (0.06, 0.4), "tA": (0.06, 0.4), "tB": (0.06, 0.4), "r": (0.05, 0.4),
        "r2": (0.01, 0.06), "Rh": (0.05, 0.2), "s": (0, 0.05), "s_1": (0, 0.5), "s_2": (0, 0.5), "L": (10, 20),
        "X": (0.5, 6), "theta": (4, 86), "theta_A": (4, 86), "c": (0.2, 4), "c_1": (0.2, 4), "c_2": (0.2, 4),
        "x": (0.6, 4), "k": (0.03, 0.13), "e_s": (0.01, 0.1), "h": (0.01, 0.06), "m": (0.005, 0.06), "B": (2.5, 10),
        "A": (0.1, 1), "A_s": (0.1, 1), "gamma": (10, 70), "e_A": (0.1, 5), "e_q": (0.05, 2),
        "g": (0.001, 0.1), "h_q": (1, 12), "beta": (0.2, 4), "psi": (0.2, 8), "tau": (0.2, 10), "p": (0.1, 3),
        "q": (0.1, 3), "mu": (3, 70), "z_n": (2, 3), "z_m": (20, 30), "h_o": (0.5, 3), "c_b": (0.03, 0.1), "h_b": (0.5, 3), "l_p": (0.1, 6), "delta": (0.1, 3), "e_p": (0.005, 0.05), "f_p": (0, 1), "l_e": (0.5, 6),
        "sigma_p": (0.005, 0.02), "sigma_a": (0.001, 0.02), "a_l": (0.005, 0.05), "alpha": (1e-5, 3e-5), "dT": (1, 100),
        "P_w": (10, 200), "t_s": (10, 100), "m_k": (0.02, 1), "c_p": (500, 1000), "D": (0.09, 0.2), "e": (0.1, 0.4),
        "H_d": (0.15, 0.4), "G": (0.06, 0.5), "rho": (0.05, 0.5), "phi": (20, 160), "e_1": (0.005, 0.03), "L_A": (80, 115),
        "I_y": (1, 2), "I_z": (1, 2), "I_yz": (-0.8, 0.8), "I_v": (0.05, 1), "l_1": (-3, -0.1), "l_2": (0.1, 3),
        "chi": (0.2, 4), "y_t": (0.1, 0.6), "omega": (0.1, 3), "kappa": (0.5, 12), "nu": (3, 60), "x_n": (1, 4), "L_b": (1, 20), "g_b": (0.02, 0.06), "s_t": (0.005, 0.02),
    }  # fmt: skip
    found = {letter: rng.uniform(*span) for letter, span in fixed.items()}
    share = rng.random()
    found["y"] = found["t"] + share * found["r"]  # in the fillet
    found["u"] = rng.random() * found["r"] * pi / 2
    found["v"] = rng.uniform(-1, 1) * found["Rh"] * pi / 4
    found["Q"] = found["A"] * rng.uniform(0.2, 1)  # a leg of 0.4 to 2 in., so that the run stays on the part
    found["n_s"] = rng.randint(2, 9)
    found |= {"n_c": rng.randint(1, 9), "E_l": rng.uniform(40, 140), "S_b": rng.uniform(5, 35)}
    found["n_e"], found["n_p"] = rng.randint(1, 2), rng.randint(2, 9)
    found["n_1"], found["n_2"] = (found["e"] + rng.random() for _ in "12")  # a hole that keeps its edge distance
    return found | {"e_h": rng.uniform(0.05, 0.2)}


@pytest.mark.parametrize("formula", ALL, ids=lambda f: f.name)
def test_formula_gives_what_is_constructed(formula: Formula):
    construction = CONSTRUCTIONS.get(formula.name)
    assert construction is not None, (
        f'Nothing outside the library checks "{formula.name}": add a construction to tests/oracle/constructions_shop.py.'
    )
    rng = Random(formula.name)
    for _ in range(TRIALS):
        numbers = bench(rng)
        given = {quantity.letter: numbers[quantity.letter] for quantity in formula.quantities}
        assert formula(**given) == pytest.approx(construction(**given), rel=2e-8, abs=1e-11), given


def test_no_construction_has_lost_its_formula():
    assert set(CONSTRUCTIONS) <= {formula.name for formula in ALL}


def test_the_formulas_are_there():
    assert len(ALL) > 30
