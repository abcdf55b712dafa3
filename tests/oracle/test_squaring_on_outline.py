"""Trim of an end out of square: its plane's highest less its lowest point over the section's outline."""

from __future__ import annotations

from random import Random

import numpy as np
import oracle_parts
import pytest
import solids
from straightedge import at_height, turned

from anglelib.geometry.squaring import End


def reach(outline, on_a: float, on_b: float) -> float:
    """The range of the end over a polygon's corners: a plane is highest and lowest at corners."""
    p, q = (at_height((0, 0), turned((0, 1), -angle), 1) for angle in (on_a, on_b))
    heights = np.array(outline) @ np.array([p, q])
    return float(heights.max() - heights.min())


@pytest.mark.parametrize("block", range(2))
def test_trim_of_random_ends(block):
    for seed in range(100 * block, 100 * (block + 1)):
        rng = Random(f"trim {seed}")
        section = oracle_parts.section(rng)
        on_a, on_b = rng.choice([-1, 1]) * rng.uniform(0.1, 10), rng.choice([-1, 0, 1]) * rng.uniform(0.1, 10)
        trim = End(on_a, on_b).trim(section)
        less, more = (reach(solids.outline(section, metal, 200), on_a, on_b) for metal in (solids.LESS, solids.MORE))
        assert less - 1e-12 <= trim <= more + 1e-12, (seed, section)
        assert more - less < 1e-4 * more
