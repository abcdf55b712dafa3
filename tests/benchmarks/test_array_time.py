"""A million tapers through the library's formula objects, against the same sums written by hand in numpy.

Both are timed in turn in one run and compared as a ratio of their best times: at most 1.1.
"""

from __future__ import annotations

import time

import numpy as np
import pytest

from anglelib.geometry.formulas import (
    angle_from_run,
    edge_length,
    fillet_mark,
    first_flat_mark,
    slope_from_run,
    taper_clearance,
    vertex_projection,
)

COUNT = 1_000_000
MOST = 1.1


@pytest.fixture(scope="module")
def tapers() -> dict[str, np.ndarray]:
    rng = np.random.default_rng(1)
    width = rng.uniform(0.5, 3.0, COUNT)
    return {
        "W": width,
        "t": width * rng.uniform(0.05, 0.2, COUNT),
        "r": rng.uniform(0.02, 0.2, COUNT),
        "s": width * rng.uniform(0, 0.04, COUNT),
        "X": rng.uniform(0.3, 8.0, COUNT),
        "x": rng.uniform(0, 8.0, COUNT),
        "y": width * rng.uniform(0, 1, COUNT),
    }


def by_objects(W, t, r, s, X, x, y) -> tuple[np.ndarray, ...]:
    c = slope_from_run(X=X, W=W, s=s)
    theta = angle_from_run(W=W, s=s, X=X)
    return (
        c,
        theta,
        vertex_projection(t=t, s=s, c=c),
        first_flat_mark(t=t, r=r, s=s, c=c),
        fillet_mark(t=t, r=r, s=s, u=r / 2, c=c),
        edge_length(W=W, s=s, theta=theta),
        taper_clearance(x=x, y=y, s=s, theta=theta),
    )


def by_hand(W, t, r, s, X, x, y) -> tuple[np.ndarray, ...]:
    c = X / (W - s)
    theta = np.degrees(np.arctan((W - s) / X))
    turn = np.radians(theta)
    return (
        c,
        theta,
        (t - s) * c,
        (t + r - s) * c,
        (t + r - r * np.sin((r / 2) / r) - s) * c,
        (W - s) / np.sin(turn),
        x * np.sin(turn) + (s - y) * np.cos(turn),
    )


def test_both_give_the_same(tapers):
    for ours, hand in zip(by_objects(**tapers), by_hand(**tapers), strict=True):
        np.testing.assert_allclose(ours, hand, rtol=1e-11, atol=1e-12)


def test_a_million_tapers_in_hardly_more_time_than_by_hand(tapers):
    best = {by_objects: float("inf"), by_hand: float("inf")}
    for _ in range(15):  # in turn, so that a busy machine slows both
        for way in best:
            begun = time.perf_counter()
            way(**tapers)
            best[way] = min(best[way], time.perf_counter() - begun)
    ratio = best[by_objects] / best[by_hand]
    print(f"\nby objects {best[by_objects] * 1e3:.1f} ms, by hand {best[by_hand] * 1e3:.1f} ms, ratio {ratio:.3f}")
    assert ratio <= MOST
