"""Section properties of rolled angles after EN 10056-1 with legs of 20 to 100 mm, figure by figure.

Sources: the pages named in :mod:`en_10056_1_rows`, which print these properties after EN 10056-1 (dimensions). Status: seen in those pages, not in
the standard, which is sold and was not read; of 80 x 40 and 70 x 50 no more than the area was found in a page that may be quoted.

Convention of the standard: r1 inside fillet, r2 = r1/2 on the inside edge of each toe, heel and outer toe corners square. Its y axis
lies along the short leg b and its z axis along the long leg h; alpha is the angle from y to the major axis u. Here leg A is the
short leg and leg B the long one, so that Iy = integral of z squared is ``second_moments.about_y``, and cy is measured along leg B.

Every figure must be within half a unit of its last one: the third figure, or the second decimal of what is less than 1, or as many decimals as
stand there. Those of the standard's sizes that are not are listed with their difference and what shows why; two of 45 x 45 x 4.5 are not explained.

Of the sizes that the maker rolls besides, area, centroid, moment and section modulus are the shape's too, but mostly not the principal moments: they
have another product of inertia, up to 0.9 % above the shape's, so that Iv is up to 1.2 % low while Iu + Iv remains 2 I. Why is not known.
"""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from math import atan2, radians, sqrt, tan

import en_10056_1_rows as pages
import pytest

from anglelib.errors import SectionError
from anglelib.section import Section

STEEL = 0.785  # kg/m for each cm2: 7850 kg/m3, as the standard weighs
CM = 2.54
RADII = ("r1", "r2")

Size = tuple[str, str, str]


def rows(name: str) -> Iterator[tuple[str, Size, dict[str, str]]]:
    """The page, the size (long leg, short leg, thickness) and what is printed, with the radii, of each row of a table."""
    head, *lines = (line.split() for line in getattr(pages, name).strip().splitlines())
    for line in lines:
        row = {key: text for key, text in zip(head, line, strict=True) if text != "-"}
        legs = (row.pop("leg"),) * 2 if "leg" in row else (row.pop("h"), row.pop("b"))
        yield name.split("_")[0], (*legs, row.pop("t")), row


STANDARD = [row for name in ("MAKER_EQUAL", "MAKER_UNEQUAL", "AREAS", "WEB", "LIBRARY", "LISTS_EQUAL", "LISTS_UNEQUAL") for row in rows(name)]
FURTHER = [row for name in ("MAKER_FURTHER_EQUAL", "MAKER_FURTHER_UNEQUAL") for row in rows(name)]
NO_SHAPE = list(rows("MAKER_NO_SHAPE"))


def section(size: Size, row: dict[str, str], **other: float) -> Section:
    """The section of a row; ``r1`` and ``r2`` instead of the row's own."""
    long, short, t = size
    r1 = other.get("r1", float(row["r1"]))
    r2 = other.get("r2", float(row.get("r2", r1 / 2)))
    return Section(f"{short} mm", f"{long} mm", f"{t} mm", fillet=f"{r1} mm", toe_radius=f"{r2} mm")


def computed(stock: Section) -> dict[str, float]:
    """The library's values in the standard's units and letters."""
    area = stock.area * CM**2
    along_short, along_long = (c * CM for c in stock.centroid)
    about_y, about_z, _ = (moment * CM**4 for moment in stock.second_moments)
    major, minor, angle = stock.principal
    long, short = (float(leg) * CM for leg in (stock.leg_b, stock.leg_a))
    found = {
        "A": area, "mass": STEEL * area, "cy": along_long, "cz": along_short, "Iy": about_y, "Iz": about_z,
        "Iu": major * CM**4, "Iv": minor * CM**4, "iy": sqrt(about_y / area), "iz": sqrt(about_z / area),
        "iu": sqrt(major * CM**4 / area), "iv": stock.least_gyration * CM,
        "Wy": about_y / (long - along_long), "Wz": about_z / (short - along_short), "tan": tan(radians(angle)),
    }  # fmt: skip
    return found | {"c": along_long, "I": about_y, "i": found["iy"], "W": found["Wy"]}


def figures(row: dict[str, str]) -> dict[str, str]:
    return {name: text for name, text in row.items() if name not in RADII}


def unit(printed: str) -> float:
    """One in the last figure of what is printed, where trailing zeros may be dropped."""
    text = Decimal(printed)
    return 10.0 ** min(max(text.adjusted() - 2, -2), text.as_tuple().exponent)


def off(printed: str, exact: float) -> float:
    """How far the printed figure is from the exact one, in units of its last figure."""
    return (float(printed) - exact) / unit(printed)


# --- figures that are not of the printed shape ----------------------------------------------------------------------------
TOE, FILLET, ROUNDED, TWICE, MISPRINT, EDGE, PRODUCT, UNKNOWN = "toe", "fillet", "rounded", "twice", "misprint", "edge", "product", "unknown"
NOT_THE_SHAPE = {
    # Two other figures of the row, as they are printed, give this one; exact values give its neighbour.
    ("MAKER", ("40", "40", "5")): {ROUNDED: "Iu +0.7"},
    ("LISTS", ("40", "40", "5")): {ROUNDED: "Iu +0.7"},
    # On the edge of rounding: 92.548 printed 92.6, 0.43350 printed 0.434.
    ("MAKER", ("90", "90", "7")): {EDGE: "I +0.5"},
    ("LISTS", ("60", "40", "5")): {EDGE: "tan +0.5"},
    # Another product of inertia, as in the sizes that the maker rolls besides.
    ("MAKER", ("65", "65", "7")): {PRODUCT: "Iu +1.0 Iv -0.7"},
    ("MAKER", ("45", "45", "4.5")): {PRODUCT: "Iu +0.8 Iv -3.3", UNKNOWN: "c -0.7 I -0.8"},
    ("WEB", ("45", "30", "4")): {PRODUCT: "Iu +1.3 Iv -1.3 tan +0.7", ROUNDED: "iv -0.5"},
    # The area of a toe of 2 mm, which the other page gives for it.
    ("AREAS", ("45", "30", "4")): {TOE: "A +0.8"},
    # Three figures, 0.935 and 0.925, rounded again to two.
    ("WEB", ("30", "20", "3")): {TWICE: "iy +0.5"},
    # And the row's own Wz, 0.38, is that of Iz = 0.55.
    ("WEB", ("30", "20", "4")): {TWICE: "iy +0.5", MISPRINT: "Iz -2.3"},
    # A fillet of 9 mm and toes of 4.5: every figure of both rows is of that shape.
    ("LIBRARY", ("100", "50", "6")): {FILLET: "A +2.1 cy -1.7 cz -0.6 Iy -2.1 Iz -0.9"},
    ("LIBRARY", ("100", "50", "8")): {FILLET: "cy -0.7 cz -0.7 Iz -1.6"},
}  # fmt: skip


def listed(page: str, size: Size) -> dict[str, tuple[str, float]]:
    """The figures of a row that are listed above: why, and how far off."""
    found = {}
    for why, text in NOT_THE_SHAPE.get((page, size), {}).items():
        words = text.split()
        found |= {name: (why, float(units)) for name, units in zip(words[::2], words[1::2], strict=True)}
    return found


def faults(page: str, size: Size, row: dict[str, str]) -> list[str]:
    """What of a printed row is neither the exact section's nor listed, and what is listed otherwise than it is."""
    found, known, said = computed(section(size, row)), listed(page, size), []
    for name, printed in figures(row).items():
        units = off(printed, found[name])
        if name in known:
            if abs(units) <= 0.5 or abs(units - known[name][1]) > 0.051:
                said.append(f"{name}: printed {printed}, computed {found[name]:.5g}, {units:+.2f} units, listed as {known[name][1]:+.1f}")
        elif abs(units) > 0.5:
            said.append(f"{name}: printed {printed}, computed {found[name]:.5g}, {units:+.2f} units")
    return said


def another_product(row: dict[str, str], exact: dict[str, float]) -> bool:
    """Whether Iu and Iv as printed have the sum of the moments about the legs, to the rounding, and Iv is up to 1.2 % low."""
    legs = ("Iy", "Iz") if "Iy" in row else ("I", "I")
    sum_off = float(row["Iu"]) + float(row["Iv"]) - sum(float(row[name]) for name in legs)
    rounding = sum(unit(row[name]) for name in ("Iu", "Iv", *legs)) / 2
    low = 1 - float(row["Iv"]) / exact["Iv"]
    return abs(sum_off) <= rounding + 1e-9 and 0 < low < 0.0125 and off(row["Iu"], exact["Iu"]) > -0.5


def name_of(value) -> str:
    return "x".join(value) if isinstance(value, tuple) else value if isinstance(value, str) else ""


@pytest.mark.parametrize("page, size, row", STANDARD, ids=name_of)
def test_every_figure_of_the_row(page, size, row):
    assert faults(page, size, row) == []
    if size[0] == size[1]:
        found = computed(section(size, row))
        assert found["Iy"] == pytest.approx(found["Iz"]) and found["tan"] == pytest.approx(1)


def test_the_tables_are_whole():
    """30 equal and 24 unequal sizes of the standard, 51 besides; nothing is listed of no row."""
    sizes = {size for _, size, _ in STANDARD}
    assert [sum((size[0] == size[1]) is equal for size in sizes) for equal in (True, False)] == [30, 24]
    assert (len(FURTHER), len(NO_SHAPE)) == (51, 4) and not sizes & {size for _, size, _ in FURTHER + NO_SHAPE}
    assert set(NOT_THE_SHAPE) <= {(page, size) for page, size, _ in STANDARD}
    count = sum(len(figures(row)) for _, _, row in STANDARD)
    known = [why for page, size, _ in STANDARD for why, _ in listed(page, size).values()]
    assert len(known) < 0.06 * count and known.count(UNKNOWN) == 2


@pytest.mark.parametrize("page, size, row", [row for row in STANDARD if row[:2] in NOT_THE_SHAPE], ids=name_of)
def test_why_a_figure_is_not_the_shapes(page, size, row):
    number = {name: float(text) for name, text in row.items()}
    exact = computed(section(size, row))
    for name, (why, units) in listed(page, size).items():
        if why == TOE:
            assert abs(off(row[name], computed(section(size, row, r2=2))[name])) <= 0.5, name
        elif why == FILLET:
            nine = computed(section(size, row, r1=9))
            assert all(abs(off(text, nine[key])) <= 0.5 for key, text in figures(row).items())
        elif why == ROUNDED:
            again = 2 * number["I"] - number["Iv"] if name == "Iu" else sqrt(number[name.replace("i", "I")] / number["A"])
            assert abs(off(row[name], again)) <= 0.5, name
        elif why == TWICE:
            three = Decimal(exact[name]).quantize(Decimal("0.001"))
            assert three % Decimal("0.01") == Decimal("0.005") and Decimal(row[name]) - three == Decimal("0.005"), name
        elif why == MISPRINT:
            again = number["Wz"] * (float(size[1]) / 10 - number["cz"])
            assert f"{again:.2f}" == f"{exact[name]:.2f}" == "0.55" != row[name]
        elif why == EDGE:
            assert 0.5 < abs(off(row[name], exact[name])) < 0.53, name
        elif why == PRODUCT:
            assert another_product(row, exact)
            if name == "tan":
                apart = (exact["Iy"] - exact["Iz"]) / 2
                product = sqrt(((number["Iu"] - number["Iv"]) / 2) ** 2 - apart**2)
                assert abs(off(row[name], tan(atan2(product, apart) / 2))) < 0.55
        else:
            assert why == UNKNOWN and abs(units) < 1, name


@pytest.mark.parametrize("page, size, row", FURTHER, ids=name_of)
def test_sizes_that_a_maker_rolls_besides(page, size, row):
    """Iu and Iv apart, each figure is the shape's; 26 for 26.05 stands on the edge of rounding."""
    exact = computed(section(size, row))
    said = {name for name, text in figures(row).items() if abs(off(text, exact[name])) > (0.505 if name == "I" else 0.5)}
    assert said <= {"Iu", "Iv"}
    assert not said or another_product(row, exact)


def test_how_many_of_them_have_another_product():
    apart = 0
    for _, size, row in FURTHER:
        exact = computed(section(size, row))
        apart += any(abs(off(row[name], exact[name])) > 0.5 for name in ("Iu", "Iv"))
    assert apart == 46


@pytest.mark.parametrize("page, size, row", NO_SHAPE, ids=name_of)
def test_a_toe_that_cannot_be_rounded_so_far_is_refused(page, size, row):
    """The printed area is that of the toe's radius all the same, taken off by arithmetic."""
    with pytest.raises(SectionError, match="The toe radius .* mm is more than the thickness"):
        section(size, row)
    square, one = (section(size, row, r2=r2).area * CM**2 for r2 in (0, 1))
    assert abs(off(row["A"], square - (square - one) * (float(row["r1"]) / 2) ** 2)) <= 0.5


# --- the guards themselves ------------------------------------------------------------------------------------------------
def test_one_wrong_figure_is_found():
    for page in ("MAKER", "LISTS"):
        size, row = next((size, row) for found, size, row in STANDARD if (found, size) == (page, ("50", "50", "5")))
        assert faults(page, size, row | {"Iv": "4.56"}) == ["Iv: printed 4.56, computed 4.5469, +1.31 units"]
    size, row = next((size, row) for found, size, row in STANDARD if (found, size) == ("MAKER", ("65", "65", "7")))
    assert len(faults("MAKER", size, row | {"A": "8.73"})) == 1
    assert not another_product(row | {"Iv": "13.9"}, computed(section(size, row)))
    assert not another_product(row | {"Iv": "13.5"}, computed(section(size, row)))


def test_the_axes_are_not_mixed_up():
    """Leg A and leg B exchanged give the other column: the rows could not pass by chance."""
    page, size, row = next(row for row in STANDARD if row[:2] == ("LISTS", ("100", "75", "8")))
    found = computed(section(size, row).swapped())
    assert found["Iy"] == pytest.approx(float(row["Iz"]), abs=0.1) and found["Iz"] == pytest.approx(float(row["Iy"]), abs=1)
    assert found["tan"] == pytest.approx(1 / float(row["tan"]), rel=2e-3)


def test_sharp_corners_would_not_pass():
    """The radii matter at this tolerance: without them a third of the figures of every row, or more, are off."""
    for page, size, row in STANDARD:
        if len(figures(row)) > 1:
            said = faults(page, size, row | {"r1": "0", "r2": "0"})
            assert len(said) >= len(figures(row)) / 3, (page, name_of(size), said)
