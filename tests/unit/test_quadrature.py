"""The rule of Gauss and Legendre against numpy's, and integrals that are known in closed form, arcs and kinks among them."""

from __future__ import annotations

from math import asin, cos, exp, log, sin, sqrt

import numpy as np
import pytest

from anglelib.geometry.quadrature import _gauss, integrate, integrate_between_arcs


@pytest.mark.parametrize("n", [1, 2, 3, 7, 10, 16])
def test_nodes_and_weights_are_numpy_s(n):
    nodes, weights = np.polynomial.legendre.leggauss(n)
    found = sorted(_gauss(n))
    assert [x for x, _ in found] == pytest.approx(list(nodes), abs=1e-14) and [w for _, w in found] == pytest.approx(list(weights), abs=1e-13)


def test_ten_nodes_are_exact_for_polynomials_up_to_the_nineteenth_power():
    """And for no higher ones: so it is ten."""
    nodes = _gauss()
    for power in range(20):
        assert sum(w * x**power for x, w in nodes) == pytest.approx(0 if power % 2 else 2 / (power + 1), abs=1e-14)
    assert abs(sum(w * x**20 for x, w in nodes) - 2 / 21) > 1e-7


class Counted:
    """A function that counts how often it is asked."""

    def __init__(self, f) -> None:
        self.f, self.asked = f, 0

    def __call__(self, x: float):
        self.asked += 1
        return self.f(x)


SMOOTH = {
    "powers": (lambda x: (1.0, x, x**2, x**7), 0.0, 3.0, (3, 9 / 2, 9, 3**8 / 8)),
    "turned limits": (lambda x: (exp(x), cos(x)), -2.0, 1.0, (exp(1) - exp(-2), sin(1) + sin(2))),
    "a pole near by": (lambda x: (1 / (x + 0.01),), 0.0, 1.0, (log(101),)),
    "a kink": (lambda x: (abs(x - 1 / 3), max(0.0, x - 1 / 3)), 0.0, 1.0, (5 / 18, 2 / 9)),
    "a step": (lambda x: (1.0 if x > 1 / 3 else 0.0,), 0.0, 1.0, (2 / 3,)),
}


@pytest.mark.parametrize("name", SMOOTH)
def test_integrals_in_closed_form(name):
    f, low, high, wanted = SMOOTH[name]
    counted = Counted(f)
    assert integrate(counted, low, high, 1.0) == pytest.approx(wanted, abs=2e-8 if name == "a step" else 2e-12)
    # A smooth one is asked at ten places and once more in each half; a kink costs twenty for each halving, of which there are 24 at most, to either side.
    assert counted.asked == 30 if name in ("powers", "turned limits") else counted.asked <= 30 + 40 * 25


def test_a_step_is_halved_until_the_interval_is_a_sixteen_millionth():
    counted = Counted(lambda x: (1.0 if x > 1 / 3 else 0.0,))
    integrate(counted, 0.0, 1.0, 1.0)
    assert counted.asked == 10 + 20 + 24 * 40


def test_a_piece_is_not_refined_beyond_its_share_of_the_whole():
    """A kink whose own size is a billionth: beside a whole of 1000 nobody looks for it, by itself it is found."""

    def f(x: float):
        return (1e-10 * abs(x - 1 / 3),)

    beside, alone = Counted(f), Counted(f)
    integrate(beside, 0.0, 1.0, 1000.0), integrate(alone, 0.0, 1.0, 1e-10)
    assert beside.asked == 30 < alone.asked
    # Of several quantities each is measured by its own whole: a large one does not hide a small one's kink.
    assert Counted(f).asked == 0 and integrate(lambda x: (1e6, *f(x)), 0.0, 1.0, 1e-10)[1] == pytest.approx(5e-10 / 18, rel=1e-11)


@pytest.mark.parametrize(("low", "high"), [(-1.0, 1.0), (0.0, 1.0), (-0.5, 1.0), (-1.0, 0.25)])
def test_areas_under_an_arc(low, high):
    """Of the unit circle, and its first moment: square roots at the ends cost no halving."""

    def primitive(x: float) -> float:
        return (x * sqrt(1 - x * x) + asin(x)) / 2

    counted = Counted(lambda x: (sqrt(max(0.0, 1 - x * x)), x * sqrt(max(0.0, 1 - x * x))))
    moment = -((1 - high * high) ** 1.5 - (1 - low * low) ** 1.5) / 3
    assert integrate_between_arcs(counted, low, high, 1.0) == pytest.approx((primitive(high) - primitive(low), moment), abs=2e-13)
    assert counted.asked <= 70
    assert integrate_between_arcs(lambda x: (1.0,), 2.0, 5.0, 1.0) == pytest.approx((3.0,)) and integrate_between_arcs(lambda x: (sqrt(x),), 0.0, 4.0, 1.0)[0] == pytest.approx(16 / 3)
