"""What a weighing can tell: areas by hand, densities and the pound from their definitions.

3/4 x 3/4 x 1/8 with a fillet of 1/8: 3/4 x 1/8 + 5/8 x 1/8 + (1 - pi/4)/64 square inches. The Aluminum Association's densities:
6061 0.0975 lb to the cubic inch, 6063 0.097, 2024 0.1, 7075 0.101; the pound is 453.59237 g by the agreement of 1959.
"""

from __future__ import annotations

from fractions import Fraction as F
from math import pi, sqrt

import pytest

from anglelib.geometry.weighing import Weighing
from anglelib.section import Section

STOCK = Section("3/4", "3/4", "1/8", fillet="1/8")
DENSITY = {"6061": 0.0975, "6063": 0.097, "2024": 0.1, "7075": 0.101}
POUND = 453.59237


def area(thick: float, fillet: float = 1 / 8) -> float:
    return thick * (1.5 - thick) + (1 - pi / 4) * fillet**2


@pytest.mark.parametrize("alloy", DENSITY)
def test_what_a_foot_weighs(alloy):
    assert Weighing(STOCK, F(12), F(0), F(0)).grams(alloy) == pytest.approx(area(1 / 8) * 12 * DENSITY[alloy] * POUND)
    assert Weighing(STOCK, F(7, 2), F(0), F(0)).grams(alloy) == pytest.approx(area(1 / 8) * 3.5 * DENSITY[alloy] * POUND)


@pytest.mark.parametrize("error", [0.0, 0.001, 0.005])
def test_every_error_at_its_worst(error):
    """Thicker and longer by as much as may be, and the scale too high; or the other way. The length is known to a sixty-fourth."""
    low, high = Weighing(STOCK, F(12), F(error).limit_denominator(1000), F(1, 2)).span("6061")
    assert low == pytest.approx(area(1 / 8 - error) * (12 - 1 / 64) * 0.0975 * POUND - 0.5)
    assert high == pytest.approx(area(1 / 8 + error) * (12 + 1 / 64) * 0.0975 * POUND + 0.5)


def test_alloys_are_told_apart_where_no_weight_is_both_s():
    """Two to the thousand and a half gram: 6061 from 6063 takes a long piece and a sharp caliper, from 7075 neither."""
    for length, thickness, scale in ((12, 0, 0), (12, F(1, 1000), F(1, 2)), (36, F(1, 10000), F(1, 10)), (2, F(1, 1000), 1), (12, F(1, 200), 0)):
        piece = Weighing(STOCK, F(length), F(thickness), F(scale))
        spans = {alloy: piece.span(alloy) for alloy in DENSITY}
        for one in DENSITY:
            for two in DENSITY:
                shared = max(spans[one][0], spans[two][0]) <= min(spans[one][1], spans[two][1])
                assert piece.parts(one, two) is not shared
        for grams in (v for span in spans.values() for v in (span[0], span[1], sum(span) / 2, span[0] - 1e-6, span[1] + 1e-6)):
            wanted = sorted((a for a in DENSITY if spans[a][0] <= grams <= spans[a][1]), key=DENSITY.__getitem__)
            assert [a for a in piece.can_be(grams) if a in DENSITY] == wanted
    sharp = Weighing(STOCK, F(12), F(0), F(0))
    assert sharp.can_be(sharp.grams("6061")) == ("6061",) and sharp.can_be(sharp.grams("6061") + 1) == ()


@pytest.mark.parametrize(("one", "two"), [("6061", "2024"), ("6061", "7075"), ("6063", "6061")])
def test_how_much_thicker_one_alloy_weighs_as_much_as_another(one, two):
    """The root of a quadratic: t (1.5 - t) = area wanted, with the fillet as it is."""
    wanted = area(1 / 8) * DENSITY[two] / DENSITY[one] - (1 - pi / 4) / 64
    thick = (1.5 - sqrt(1.5**2 - 4 * wanted)) / 2
    assert Weighing(STOCK, F(12), F(0), F(0)).faked_by(one, two) == pytest.approx(thick - 1 / 8, abs=1e-7)


def test_radii_give_way_where_they_no_longer_fit():
    """Toes as round as the metal is thick, and legs that are all fillet and toe: thicker or thinner, they can still be extruded."""
    full = Section(1, 1, "1/16", toe_radius="1/16")
    low, high = Weighing(full, F(12), F(1, 100), F(0)).span("6061")
    spandrel = 1 - pi / 4

    def weight(thick, toe, length):
        return (thick * (2 - thick) - 2 * spandrel * toe**2) * length * 0.0975 * POUND

    assert low == pytest.approx(weight(1 / 16 - 0.01, 1 / 16 - 0.01, 12 - 1 / 64)) and high == pytest.approx(weight(1 / 16 + 0.01, 1 / 16, 12 + 1 / 64))
    tight = Section("1/2", "1/2", "1/8", fillet="5/16", toe_radius="1/16")  # 1/8 + 5/16 + 1/16 are the whole leg
    high = Weighing(tight, F(12), F(1, 64), F(0)).span("6061")[1]
    wider = 1 / 8 + 1 / 64
    metal = wider * (1 - wider) + spandrel * ((5 / 16 - 1 / 64) ** 2 - 2 / 16**2)
    assert high == pytest.approx(metal * (12 + 1 / 64) * 0.0975 * POUND)
    uneven = Section(1, "1/2", "1/8", "1/4", fillet="5/16", toe_radius="1/16")  # leg B, the shorter, ends the fillet
    assert Weighing(uneven, F(12), F(1, 64), F(0)).span("6061")[1] > 0
    # A heel as round as it may be: through thinner metal it would break out of the inside corner.
    round_heel = Section(1, 1, "1/8", heel_radius="27/64")  # of at most 1/8 (2 + root 2) = 0.4268
    thin = 1 / 8 - 1 / 100
    low = Weighing(round_heel, F(12), F(1, 100), F(0)).span("6061")[0]
    assert low == pytest.approx((thin * (2 - thin) - spandrel * (thin * (2 + sqrt(2))) ** 2) * (12 - 1 / 64) * 0.0975 * POUND, rel=1e-5)
