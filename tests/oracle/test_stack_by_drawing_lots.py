"""The stack of one sawn end thrown 200,000 times: its scatter, and the share within the expanded uncertainty."""

from __future__ import annotations

from random import Random
from statistics import pstdev

import pytest

from anglelib.geometry.allowance import sawn_end


def test_stack_by_drawing_lots():
    rng = Random("stack")
    throws = [
        rng.uniform(-1 / 128, 1 / 128) + rng.uniform(-0.010, 0.010) + rng.gauss(0, 0.0002) + rng.uniform(-0.015, 0.015)
        for _ in range(200_000)
    ]
    assert pstdev(throws) == pytest.approx(sawn_end().standard, rel=0.006)
    assert 0.95 < sum(abs(t) <= sawn_end().expanded for t in throws) / len(throws) < 0.98
