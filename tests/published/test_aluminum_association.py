"""Two of the Aluminum Association's standard angles: area, weight, centroid, second moments.

Source: The Aluminum Association, table of standard structural shapes, angles (R1 inside fillet, R2 inside toe; weight of 6061 at 0.098 lb/in3).
Status: these two rows seen; the manual is sold, and no page that may be quoted has others with their radii. :mod:`test_aluminum_angles_t402` checks further
sizes of another print.

Area and weight are the shape's to half a unit of the last figure; centroids and moments are up to two units high, as listed. The printed minor-axis values (Iz, rz, alpha) are not those of
the printed shape, but follow from the product of inertia of the sharp-cornered L; they are not used.
"""

from __future__ import annotations

from decimal import Decimal

import pytest

from anglelib.section import Section

PER_FOOT = 12 * 0.098
# Leg A short, leg B long, thickness, R1, R2 [in]: as printed, x along leg A and y along leg B [in, lb/ft, in2, in4].
ROWS = {
    ("2", "2", "1/8", "1/4", "1/8"): "W 0.58 A 0.491 x 0.531 y 0.531 Ix 0.185 Iy 0.185",
    ("2", "3", "1/4", "5/16", "3/16"): "A 1.19 x 0.485 y 0.976 Ix 1.06 Iy 0.377",
}
HIGH = {  # by how many units of the last figure, where it is more than rounding
    ("2", "2", "1/8", "1/4", "1/8"): "x 1.3 y 1.3 Ix 0.9 Iy 0.9",
    ("2", "3", "1/4", "5/16", "3/16"): "x 2.1 y 1.9 Iy 1.4",
}


def pairs(text: str) -> dict[str, str]:
    words = text.split()
    return dict(zip(words[::2], words[1::2], strict=True))


def section(size: tuple[str, ...]) -> Section:
    short, long, t, fillet, toe = size
    return Section(short, long, t, fillet=fillet, toe_radius=toe)


def computed(stock: Section) -> dict[str, float]:
    (x, y), (about_x, about_y, _) = stock.centroid, stock.second_moments
    return {"A": stock.area, "W": stock.area * PER_FOOT, "x": x, "y": y, "Ix": about_x, "Iy": about_y}


def off(printed: str, exact: float) -> float:
    """How far the printed figure is from the exact one, in units of its last figure."""
    return (float(printed) - exact) * 10 ** -Decimal(printed).as_tuple().exponent


def faults(size: tuple[str, ...], row: dict[str, str], stock: Section) -> list[str]:
    found, high = computed(stock), pairs(HIGH[size])
    units = {name: off(text, found[name]) for name, text in row.items()}
    return [f"{name} {by:+.2f}" for name, by in units.items() if abs(by - float(high.get(name, 0))) > (0.06 if name in high else 0.5)]


@pytest.mark.parametrize("size, printed", ROWS.items(), ids=lambda v: " x ".join(v[:3]) if isinstance(v, tuple) else "")
def test_every_figure_of_the_row(size, printed):
    assert faults(size, pairs(printed), section(size)) == []


def test_weight_by_the_librarys_density_is_within_the_printed_figure():
    """The library uses 0.0975 lb/in3 for 6061, half a per cent below the 0.098 of the table."""
    two = section(("2", "2", "1/8", "1/4", "1/8"))
    assert abs(two.weight_per_foot("6061-T6") - 0.58) <= 0.01
    assert two.weight_per_foot("6061-T6") == pytest.approx(two.area * PER_FOOT, rel=0.006)


def test_one_wrong_figure_and_sharp_corners_are_found():
    for size, printed in ROWS.items():
        row, short, long, t = pairs(printed), *size[:3]
        assert len(faults(size, row | {"A": f"{float(row['A']) + 0.02:.3g}"}, section(size))) == 1
        assert len(faults(size, row, Section(short, long, t))) >= 4
