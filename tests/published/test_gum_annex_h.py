"""Combining uncertainties: the end gauge that the GUM works through.

Source: JCGM 100:2008, Evaluation of measurement data, Guide to the expression of uncertainty in measurement (GUM), annex H.1,
"End-gauge calibration", table H.1 and H.1.7, as worked again in the documentation of GTC (GUM_H1.rst, "Gauge block measurement") by a national
measurement institute: length of the standard 50 000 623 nm, u 25 nm; comparator 5.8, 3.9 and 6.7 nm; expansion 11.5e-6 a kelvin within
2e-6; difference of expansions within 1e-6; bath -0.1 K off 20 C, u 0.2, and a cycle of 0.5 K; difference of temperatures within 0.05 K;
contributions 25, 16.6, 6.7, 5.8, 3.9 and 2.9 nm, together 32 nm; with the terms of second order 34 nm. Status: seen there, not in the GUM.

What the library has of this: half-width / sqrt(3) where only limits are known, root sum of squares, growth by heat, and twice the standard uncertainty.
Effective degrees of freedom, and with them H.1's 99 % interval, it has not; H.2 (correlated inputs) and H.3 (a fitted line) it does not compute.
"""

from __future__ import annotations

from math import sqrt

import pytest

from anglelib.geometry.allowance import Budget, Contribution, growth

STANDARD = 50_000_623  # nm
EXPANSION, BATH = 11.5e-6, -0.1


def from_limits(half_width: float) -> float:
    return Contribution.from_limits("", half_width).standard


CONTRIBUTIONS = (
    Contribution("length of the standard", 25),
    Contribution("comparator, repeated", 5.8),
    Contribution("comparator, random", 3.9),
    Contribution("comparator, systematic", 6.7),
    Contribution("difference of expansions", abs(growth(STANDARD, BATH, from_limits(1e-6)))),
    Contribution("difference of temperatures", growth(STANDARD, from_limits(0.05), EXPANSION)),
)
END_GAUGE = Budget.of(CONTRIBUTIONS)


@pytest.mark.parametrize(
    "name, printed", [("difference of expansions", 2.88679), ("difference of temperatures", 16.599)], ids=str
)
def test_contributions_from_limits(name, printed):
    (found,) = (c.standard for c in CONTRIBUTIONS if c.name == name)
    assert found == pytest.approx(printed, rel=2e-5)


def test_the_comparator():
    """Table H.1 (this figure from memory): 9.7 nm for the difference that the comparator measures."""
    assert Budget.of(CONTRIBUTIONS[1:4]).standard == pytest.approx(9.7, abs=0.05)


def test_the_length_of_the_gauge():
    """32 nm, printed without decimals; the standard is what would repay most to improve; 64 nm is twice that."""
    assert round(END_GAUGE.standard) == 32
    assert END_GAUGE.largest.name == "length of the standard"
    assert END_GAUGE.expanded == 2 * END_GAUGE.standard


def test_with_the_terms_of_second_order():
    """H.1.7: products whose one factor is nought on the average add to it; 34 nm."""
    cycle = 0.5 / sqrt(2)  # a sine's scatter, as the example has it; the library knows no such limits
    bath = Budget.of([Contribution("mean", 0.2), Contribution("cycle", cycle)]).standard
    second = (
        Contribution("expansions by the bath", growth(STANDARD, bath, from_limits(1e-6))),
        Contribution("expansion by temperatures", growth(STANDARD, from_limits(0.05), from_limits(2e-6))),
    )
    assert round(Budget.of([*CONTRIBUTIONS, *second]).standard) == 34


def test_plain_addition_is_neither():
    assert sum(c.standard for c in CONTRIBUTIONS) > 1.8 * END_GAUGE.standard
    assert from_limits(0.05) != pytest.approx(0.05 / 2, rel=0.1)
