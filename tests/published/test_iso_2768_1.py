"""General tolerances as ISO 2768-1 prints them.

Source: ISO 2768-1:1989, General tolerances, part 1, table 1, permissible deviations of linear dimensions in mm; table 2, of external radii and
chamfer heights; table 3, of angles by the length of the shorter side. Status: the three tables seen whole, as copied by others: "General tolerances to
DIN ISO 2768" (T1), a manufacturer's sheet, and the file ``docs/iso-2768-1-1989.md`` of tolerance-identifier (commit d6bc5a5); for table 1 also
"According to DIN ISO 2768-1". They agree in classes f (fine) and m (medium), the two that the library has. (In c and v the copies differ in
several places, so neither class is offered: 0.15 or 0.2 and 0.2 or 0.3 mm up to 3 and 6 mm; 15 or 20 minutes over 120 mm.)

A range is "over ... up to and including ...". Where the standard has a dash, and outside its ranges, the library refuses.
"""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from anglelib.errors import LengthError
from anglelib.lengths import MM
from anglelib.tolerances import ANGLE_SOURCE, GRADES, RADIUS_SOURCE, SOURCE, Limits, angular, linear, radial

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
    for table in (linear, angular, radial):
        with pytest.raises(LengthError, match="choose f .fine. or m .medium."):
            table(1, grade)


# over, up to [mm]: classes f and m alike [minutes either way]; "up to 10" has no lower bound, "over 400" no upper one
ANGULAR = {"0 10": 60, "10 50": 30, "50 120": 20, "120 400": 10, "400 30000": 5}


@pytest.mark.parametrize("bounds, minutes", ANGULAR.items(), ids=ANGULAR)
def test_angles_by_their_shorter_leg(bounds, minutes):
    low, high = map(F, bounds.split())
    for grade in GRADES:
        assert angular((low + STEP) * MM, grade) == angular(high * MM, grade) == F(minutes, 60)


def test_no_angle_has_a_leg_of_nought():
    with pytest.raises(LengthError, match="is 0"):
        angular(0)


# over, up to [mm]: classes f and m alike [mm either way], as they are printed; "over 6" has no upper bound
RADII = {"0.5 3": "0.2", "3 6": "0.5", "6 10000": "1"}


@pytest.mark.parametrize("bounds, printed", RADII.items(), ids=RADII)
def test_radii(bounds, printed):
    low, high = map(F, bounds.split())
    for grade in GRADES:
        assert radial((low + STEP) * MM, grade) == radial(high * MM, grade) == F(printed) * MM


@pytest.mark.parametrize("size", ["0.499 mm", 0], ids=str)
def test_a_radius_below_the_table_is_refused(size):
    with pytest.raises(LengthError, match=r"below 0\.5 mm, where ISO 2768-1 gives no general tolerance: write its limits beside it\.$"):
        radial(size)
    assert radial("0.5 mm") == F("0.2") * MM


def test_limits_of_a_job_by_the_standard_are_the_standards():
    for rule, grade in (("iso-m", "m"), ("iso-f", "f")):
        limits = Limits(rule)
        for size in ("1 mm", "12.7 mm", "100 mm", "431.8 mm", "1524 mm"):
            assert limits.length(size) == linear(size, grade)
        assert limits.radius("6.35 mm") == F(1) * MM and limits.angle("38.1 mm") == F(1, 2)
        # 30 minutes over a leg of 38.1 mm
        assert abs(float(limits.square("38.1 mm") / MM) - 0.3325) < 0.0005


def test_limits_beyond_the_table_are_those_of_its_nearest_row():
    assert Limits("iso-m").length("0.1 mm") == F("0.1") * MM and Limits("iso-f").length("3000 mm") == F("0.5") * MM


def test_the_source_is_named():
    assert all(source.startswith("ISO 2768-1:1989, table") for source in (SOURCE, RADIUS_SOURCE, ANGLE_SOURCE))
