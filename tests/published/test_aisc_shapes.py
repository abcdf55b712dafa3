"""AISC L-shapes, a loose check: the tables print no radii, so 3 % is the best that can be asked.

Source: AISC Manual of Steel Construction, dimensions and properties, L-shapes (AISC Shapes
Database). Status: seen.
"""

from __future__ import annotations

import pytest

from anglelib.section import Section

# Leg A short, leg B long, thickness [in]: A [in2], x, y [in], Ix, Iy [in4].
ROWS = {
    (2, 2, "1/8"): (0.491, 0.534, 0.534, 0.189, 0.189),
    (2, 3, "1/4"): (1.20, 0.487, 0.980, 1.09, 0.390),
}


@pytest.mark.parametrize("fillet", ["0", "1/4"])
@pytest.mark.parametrize("size, row", ROWS.items(), ids=lambda v: str(v[:3]))
def test_whatever_the_fillet_the_shape_is_near(size, row, fillet):
    stock = Section(*size, fillet=fillet, toe_radius="1/8" if fillet != "0" else 0)
    area, x, y, about_x, about_y = row
    assert stock.area == pytest.approx(area, rel=0.03)
    assert stock.centroid == pytest.approx((x, y), rel=0.03)
    assert stock.second_moments[:2] == pytest.approx((about_x, about_y), rel=0.03)
