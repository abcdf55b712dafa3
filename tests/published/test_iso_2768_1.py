"""General tolerances as ISO 2768-1 prints them.

Source: ISO 2768-1:1989, table 1, limits of linear dimensions in mm (seen, in a copy); table 3,
limits of angles by the length of the shorter leg (second-hand). Grades m (medium) and f (fine). A
range is "over ... up to and including ...".
"""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from anglelib.errors import LengthError
from anglelib.lengths import MM
from anglelib.tolerances import ANGLE_SOURCE, GRADES, SOURCE, angular, linear

STEP = F(1, 1000)  # of a millimetre

# over, up to [mm]: f, m [mm either way], as they are printed
LINEAR = """
    0.5     3   0.05  0.1
      3     6   0.05  0.1
      6    30   0.1   0.2
     30   120   0.15  0.3
    120   400   0.2   0.5
    400  1000   0.3   0.8
   1000  2000   0.5   1.2
   2000  4000   -     2.0
"""
ROWS = [row.split() for row in LINEAR.strip().splitlines()]


@pytest.mark.parametrize("low, high, fine, medium", ROWS, ids=[f"{row[0]} to {row[1]}" for row in ROWS])
def test_linear(low, high, fine, medium):
    low, high = F(low), F(high)
    first = low if low == F("0.5") else low + STEP  # the smallest range includes its lower bound
    for grade, printed in (("f", fine), ("m", medium)):
        for size in (first, (low + high) / 2, high):
            if printed == "-":
                with pytest.raises(LengthError, match=r"over 2000 mm, where ISO 2768-1 grade f ends"):
                    linear(size * MM, grade)
            else:
                found = linear(size * MM, grade)
                assert type(found) is F and found == F(printed) * MM
                assert linear(f"{float(size)} mm", grade) == found


def test_a_float_mark_gets_the_tolerance_of_its_size():
    assert linear(8.506923, "m") == linear("8.506923", "m") == F("0.5") * MM


@pytest.mark.parametrize("size, grade", [("0.499 mm", "m"), (0, "m"), ("4000.001 mm", "m"), ("2000.001 mm", "f")])
def test_outside_the_table_is_refused_with_what_to_do(size, grade):
    with pytest.raises(LengthError, match=r"ISO 2768-1.*: write its limits beside it\.$"):
        linear(size, grade)


@pytest.mark.parametrize("size", [-1, "-1", float("nan"), float("inf"), -0.5, "", "wide", None, True])
def test_what_is_no_length_is_refused(size):
    for table in (linear, angular):
        with pytest.raises(LengthError):
            table(size)


@pytest.mark.parametrize("grade", ["c", "v", "", "M", None])
def test_another_grade_is_refused(grade):
    with pytest.raises(LengthError, match="choose f .fine. or m .medium."):
        linear(1, grade)


ANGULAR = {"0.5 10": 60, "10 50": 30, "50 120": 20, "120 400": 10}


@pytest.mark.parametrize("bounds, minutes", ANGULAR.items(), ids=ANGULAR)
def test_angles_by_their_shorter_leg(bounds, minutes):
    low, high = map(F, bounds.split())
    for grade in GRADES:
        assert angular((low + STEP) * MM, grade) == angular(high * MM, grade) == F(minutes, 60)


def test_angles_outside_the_table_are_refused():
    with pytest.raises(LengthError, match="over 400 mm"):
        angular("400.001 mm")
    with pytest.raises(LengthError, match="is 0"):
        angular(0)


def test_the_source_is_named():
    assert SOURCE.startswith("ISO 2768-1") and "second-hand" in ANGLE_SOURCE
