"""Allowance and its risk, against scipy's bivariate normal, against thrown cuts and against every corner of the limits."""

from __future__ import annotations

from itertools import pairwise, product
from math import exp, pi, radians, sqrt, tan
from random import Random

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.special import ndtr
from scipy.stats import multivariate_normal, norm
from shapely import LineString
from shapely.affinity import rotate, translate

from anglelib.errors import PartError
from anglelib.geometry.allowance import Saw

SAWS = [
    Saw(position=0.0114, angle=0.2, edge=2.5, pivot=0.5),
    Saw(position=0.0114, angle=0.2, edge=2.5, pivot=0.0),
    Saw(position=0.004, angle=0.5, edge=4.0, pivot=0.25),
    Saw(position=0.02, angle=0.05, edge=1.5, pivot=1.0),
    Saw(position=0.0, angle=0.4, edge=3.0, pivot=0.3),
    Saw(position=0.01, angle=0.0, edge=3.0),
]
IDS = range(len(SAWS))


def gaps_at_ends(saw: Saw) -> tuple[np.ndarray, np.ndarray]:
    """The matrix that makes the gaps at both ends from position and slope, and their covariance."""
    arms = np.array([-saw.pivot * saw.edge, (1 - saw.pivot) * saw.edge])
    makes = np.column_stack([np.ones(2), arms])
    return makes, makes @ np.diag([saw.position**2, tan(radians(saw.angle)) ** 2]) @ makes.T


@pytest.mark.parametrize("saw", SAWS, ids=IDS)
def test_deviations_at_the_ends(saw):
    _, covariance = gaps_at_ends(saw)
    assert saw.deviations() == pytest.approx(np.sqrt(np.diag(covariance)))


@pytest.mark.parametrize("saw", [s for s in SAWS if s.position and s.angle], ids=str)
@pytest.mark.parametrize("allowance", [0.0, 0.01, 1 / 32, 0.05])
def test_risk_is_that_of_the_bivariate_normal(saw, allowance):
    _, covariance = gaps_at_ends(saw)
    safe = multivariate_normal(cov=covariance, allow_singular=True).cdf([allowance, allowance])
    assert saw.risk(allowance) == pytest.approx(1 - safe, abs=2e-6)


@pytest.mark.parametrize("saw", SAWS, ids=IDS)
@pytest.mark.parametrize("allowance", [0.01, 0.025])
def test_risk_by_throwing_cuts(saw, allowance):
    """Half a million cuts, each looked at in eleven places along its edge: how many cross the line somewhere?"""
    rng = np.random.default_rng(20250)
    count = 500_000
    position = rng.normal(0, 1, count) * saw.position
    slope = rng.normal(0, 1, count) * tan(radians(saw.angle))
    nearest = np.full(count, np.inf)
    for place in np.linspace(0, saw.edge, 11):
        nearest = np.minimum(nearest, allowance + position + (place - saw.pivot * saw.edge) * slope)
    crossed = (nearest < 0).mean()
    assert saw.risk(allowance) == pytest.approx(crossed, abs=4 * np.sqrt(max(crossed, 1e-5) / count))


def risk_by_position(saw: Saw, allowance: float) -> float:
    """The same risk summed the other way round: for each position, how many turns bring an end over the line; cut up where that is steep."""
    reaches = [arm * tan(radians(saw.angle)) / saw.position for arm in (saw.pivot * saw.edge, (1 - saw.pivot) * saw.edge) if arm]
    last = allowance / saw.position  # from here on every turn crosses

    def crossed(z: float) -> float:
        return exp(-z * z / 2) / sqrt(2 * pi) * sum(ndtr((z - last) / reach) for reach in reaches)

    breaks = {last, *range(-14, 15), *(last - share * reach for reach in reaches for share in (0.05, 0.25, 1, 3, 9))}
    places = sorted(z for z in breaks if -14 <= z <= min(last, 14))
    return ndtr(-last) + sum(quad(crossed, low, high, epsabs=1e-14, epsrel=1e-12, limit=200)[0] for low, high in pairwise(places))


def random_saw(seed: int) -> tuple[Saw, float]:
    """A saw whose position strays from a hundred-thousandth to a twentieth of an inch, and an allowance about what it needs."""
    rng = Random(f"saw {seed}")
    saw = Saw(10 ** rng.uniform(-5, -1.3), rng.choice((10 ** rng.uniform(-3, 0.6), rng.uniform(0.05, 4))), rng.uniform(0.3, 14), rng.choice((0, 0.5, 1, rng.random(), rng.random())))
    return saw, rng.uniform(-0.5, 4) * max(saw.deviations())


def test_the_saw_beside_a_steep_step():
    """A saw that strays by its turn alone, nearly: the integral once missed the step from none to certain, and said .14035."""
    saw, allowance = Saw(1.384037e-4, 2, 10.880587, 0.32544), 0.2873956
    assert risk_by_position(saw, allowance) == pytest.approx(0.14114, abs=5e-6)
    assert saw.risk(allowance) == pytest.approx(risk_by_position(saw, allowance), abs=1e-11)


def test_risk_of_random_saws():
    for seed in range(200):
        saw, allowance = random_saw(seed)
        assert saw.risk(allowance) == pytest.approx(risk_by_position(saw, allowance), abs=2e-11), (seed, saw, allowance)


def test_looking_at_one_end_halves_the_risk_of_a_cut_set_from_its_middle():
    """The naive risk, root sum of squares at one end, is half of the true one, as soon as the turn decides."""
    saw = Saw(position=0.002, angle=0.5, edge=3.0, pivot=0.5)
    allowance = 0.03
    naive = norm.sf(allowance / saw.deviations()[1])
    assert saw.risk(allowance) / naive == pytest.approx(2, abs=0.02)
    # Set from one end only that end can stray, and the naive risk is nearly right.
    hinged = Saw(position=0.002, angle=0.5, edge=3.0, pivot=0.0)
    assert hinged.risk(allowance) / norm.sf(allowance / hinged.deviations()[1]) == pytest.approx(1, abs=0.01)


@pytest.mark.parametrize("saw", SAWS, ids=IDS)
@pytest.mark.parametrize("risk", [0.2, 0.02, 0.001])
def test_least_allowance_has_the_risk_that_was_asked_for(saw, risk):
    assert saw.risk(saw.least_allowance(risk)) == pytest.approx(risk, rel=1e-6)


def test_more_allowance_less_risk():
    for saw in SAWS:
        risks = [saw.risk(allowance) for allowance in np.linspace(-0.02, 0.08, 51)]
        assert all(one >= two for one, two in zip(risks, risks[1:], strict=False)) and risks[0] > 0.5 > risks[-1]


def test_a_saw_that_does_not_stray():
    saw = Saw(position=0, angle=0, edge=2)
    assert (saw.risk(0.001), saw.risk(-0.001)) == (0, 1) and saw.least_allowance(0.05) == pytest.approx(0, abs=1e-12)


@pytest.mark.parametrize("pivot", [0, 0.2, 0.5, 0.9, 1])
def test_worst_case_over_every_corner_of_the_limits(pivot):
    """The line off by the limit of position and turned by that of angle, either way: how far over does it come?"""
    edge, position, angle = 2.5, 0.012, 0.7
    far = 0.0
    for off, turn in product((-position, 0, position), (-angle, 0, angle)):
        line = rotate(LineString([(-50, 0), (50, 0)]), turn, origin=(pivot * edge, 0))
        line = translate(line, 0, off)
        for place in np.linspace(0, edge, 26):
            upright = LineString([(place, -9), (place, 9)])
            far = max(far, -line.intersection(upright).y)
    assert Saw(0.01, 0.2, edge, pivot).worst_case(position, angle) == pytest.approx(far, rel=1e-9)


def test_worst_case_outdoes_the_sum_of_squares():
    saw = SAWS[0]
    assert saw.worst_case(2 * saw.position, 2 * saw.angle) > 2 * max(saw.deviations())


@pytest.mark.parametrize(
    "numbers, match",
    [
        ((-1, 0, 1, 0.5), "what the saw wanders"),
        ((float("nan"), 0, 1, 0.5), "what the saw wanders"),
        ((0.01, -0.1, 1, 0.5), "what the cut turns"),
        ((0.01, 45, 1, 0.5), "what the cut turns"),
        ((0.01, 0.1, 0, 0.5), "give the length of the cut"),
        ((0.01, 0.1, float("inf"), 0.5), "give the length of the cut"),
        ((0.01, 0.1, 1, 1.2), "0 for its start, 1 for its end"),
        ((0.01, 0.1, 1, float("nan")), "0 for its start, 1 for its end"),
    ],
)
def test_refused_saws(numbers, match):
    with pytest.raises(PartError, match=match):
        Saw(*numbers)


@pytest.mark.parametrize("allowance", [float("nan"), float("inf")])
def test_refused_allowances(allowance):
    with pytest.raises(PartError, match="give what is left outside the line"):
        SAWS[0].risk(allowance)


@pytest.mark.parametrize("risk", [0, 1, -0.1, float("nan")])
def test_refused_risks(risk):
    with pytest.raises(PartError, match="between 0 and 1"):
        SAWS[0].least_allowance(risk)
