"""The metal in an inside fillet: a spandrel, the square of the radius less a quarter circle.

Status: derived, to more figures than are printed: area 0.214602 r^2, centroid 0.223368 r from each of the straight sides.
"""

from __future__ import annotations

import pytest

from anglelib.section import Section

AREA, CENTROID = 0.214602, 0.223368


@pytest.mark.parametrize("radius", ["1/16", "1/8", "3/16", "1/4"])
def test_the_fillet_is_what_a_section_gains_by_it(radius):
    sharp, filleted = Section(2, "1 1/2", "1/8", "3/16"), Section(2, "1 1/2", "1/8", "3/16", fillet=radius)
    r = float(filleted.fillet)
    area = filleted.area - sharp.area
    assert area == pytest.approx(AREA * r**2, rel=5e-6)
    for corner, (after, before) in zip((3 / 16, 1 / 8), zip(filleted.centroid, sharp.centroid, strict=True), strict=True):
        middle = (filleted.area * after - sharp.area * before) / area
        assert middle - corner == pytest.approx(CENTROID * r, rel=5e-6)


def test_rounded_toes_and_heel_lose_the_same_spandrel():
    """Each toe and the heel lose the area of one spandrel of their radius."""
    sharp = Section(2, 2, "1/4").area
    assert sharp - Section(2, 2, "1/4", toe_radius="1/8").area == pytest.approx(2 * AREA / 64, rel=5e-6)
    assert sharp - Section(2, 2, "1/4", heel_radius="1/8").area == pytest.approx(AREA / 64, rel=5e-6)
