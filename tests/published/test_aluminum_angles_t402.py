"""Aluminium angles with unequal legs, every figure of a table that prints no radii: one pair of radii to each pair of legs gives them all.

Source: table T402, "Un-Equal Leg Channel Member Properties" (of angles, in spite of its name), an engineer's page of tables: weight of the aluminium section,
area, and about the axes 1 (along the short leg), 2 (along the long one) and 3 (the minor principal axis) moment of inertia I, radius of gyration k and section
modulus Z, with the centroid's x and y, all to two decimals. Status: seen, all ten rows. Weights of steel stand there too and are left out: they are of other
angles.

The fillet and the toe radius are sought in sixteenths. For 3 x 2 they come out as the Aluminum Association prints them for that pair of legs, 5/16 and 3/16
(:mod:`test_aluminum_association`), and unlike that print this one has the minor axis of the true shape.
"""

from __future__ import annotations

from fractions import Fraction as F
from functools import cache
from math import sqrt

import pytest

from anglelib.errors import SectionError
from anglelib.section import Section

HEAD = "wa A I1 k1 Z1 y I2 k2 Z2 x I3 k3".split()
TABLE = {  # long leg, short leg, thickness
    ("2", "1 1/2", "1/8"): "0.51 0.42  0.17 0.63 0.12 0.60 0.08 0.44 0.07 0.36 0.04 0.32",
    ("2", "1 1/2", "1/4"): "0.98 0.81  0.31 0.62 0.23 0.66 0.15 0.43 0.14 0.41 0.08 0.32",
    ("3", "2", "3/16"):    "1.10 0.91  0.82 0.95 0.40 0.94 0.29 0.56 0.19 0.46 0.17 0.43",
    ("3", "2 1/2", "1/4"): "1.58 1.31  1.12 0.92 0.53 0.89 0.70 0.73 0.38 0.64 0.35 0.52",
    ("3", "2 1/2", "3/8"): "2.32 1.92  1.60 0.91 0.78 0.94 1.00 0.72 0.55 0.69 0.51 0.51",
    ("3", "2 1/2", "1/2"): "3.02 2.49  2.03 0.90 1.01 0.99 1.26 0.71 0.72 0.74 0.65 0.51",
    ("4", "3", "1/4"):     "2.05 1.69  2.68 1.26 0.96 1.21 1.29 0.87 0.56 0.72 0.70 0.64",
    ("4", "3", "1/2"):     "3.95 3.25  4.96 1.24 1.85 1.31 2.36 0.85 1.08 0.82 1.30 0.63",
    ("6", "4", "3/8"):     "4.36 3.60 13.02 1.90 3.17 1.90 4.63 1.13 1.50 0.91 2.67 0.86",
    ("6", "4", "1/2"):     "5.74 4.74 16.95 1.89 4.19 1.96 6.01 1.13 1.98 0.97 3.47 0.86",
}  # fmt: skip
ROWS = {size: dict(zip(HEAD, text.split(), strict=True)) for size, text in TABLE.items()}
LEGS = sorted({size[:2] for size in ROWS})
SIXTEENTHS = [F(n, 16) for n in range(9)]
HALF = 0.005 + 5e-5  # half a unit of the second decimal: one figure stands 0.00504 away
WEIGHT = 12 * 0.101  # lb/ft for each in2: the density that the weights were made with


@cache
def computed(size: tuple[str, str, str], fillet: F, toe: F) -> dict[str, float] | None:
    """None where such a section cannot be."""
    long, short, t = size
    try:
        stock = Section(short, long, t, fillet=fillet, toe_radius=toe)
    except SectionError:
        return None
    area, (x, y), (about_1, about_2, _) = stock.area, stock.centroid, stock.second_moments
    return {
        "A": area, "I1": about_1, "k1": sqrt(about_1 / area), "Z1": about_1 / (float(stock.leg_b) - y), "y": y,
        "I2": about_2, "k2": sqrt(about_2 / area), "Z2": about_2 / (float(stock.leg_a) - x), "x": x,
        "I3": stock.principal.minor, "k3": stock.least_gyration,
    }  # fmt: skip


def agree(size: tuple[str, str, str], row: dict[str, str], fillet: F, toe: F) -> bool:
    found = computed(size, fillet, toe)
    return found is not None and all(abs(float(row[name]) - value) <= HALF for name, value in found.items())


def radii(legs: tuple[str, str], rows: dict[tuple[str, str, str], dict[str, str]]) -> list[tuple[F, F]]:
    """Every pair in sixteenths that gives every figure of every thickness of these legs."""
    own = {size: row for size, row in rows.items() if size[:2] == legs}
    return [(r1, r2) for r1 in SIXTEENTHS for r2 in SIXTEENTHS if all(agree(size, row, r1, r2) for size, row in own.items())]


@pytest.mark.parametrize("legs", LEGS, ids=" x ".join)
def test_one_pair_of_radii_gives_every_figure(legs):
    assert len(radii(legs, ROWS)) == 1


def test_the_pair_of_3_x_2_is_the_associations():
    assert radii(("3", "2"), ROWS) == [(F(5, 16), F(3, 16))]


@pytest.mark.parametrize("size", ROWS, ids=" x ".join)
def test_the_weight_is_that_of_the_area(size):
    row = ROWS[size]
    assert abs(float(row["wa"]) - float(row["A"]) * WEIGHT) <= 0.005 * (1 + WEIGHT)


def test_one_wrong_figure_or_the_minor_axis_of_the_sharp_shape_is_found():
    for size, row in ROWS.items():
        for name in HEAD[1:]:
            assert radii(size[:2], ROWS | {size: row | {name: f"{float(row[name]) + 0.02:.2f}"}}) == [], (size, name)
    assert radii(("6", "4"), ROWS | {("6", "4", "3/8"): ROWS["6", "4", "3/8"] | {"I3": "2.57"}}) == []
