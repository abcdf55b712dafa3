"""What the boxes of a card say: wanted values worked out by hand from the part, tolerances from the standard's table."""

from __future__ import annotations

from fractions import Fraction

import pytest
from printed_pages import MIDDLE, PARTS

from anglelib.errors import LengthError
from anglelib.inspection.made import Made, readings_of, seven_readings
from anglelib.paper.readings import readings, tolerance
from anglelib.part import Hole, Part, Taper

MM = Fraction(10, 254)


def wanted(part: Part) -> dict[str, object]:
    return {reading.name: reading.wanted for reading in readings(part)}


def test_a_plain_taper():
    found = wanted(PARTS["flat"])
    assert found["taper start A, from end 1"] == Fraction(5, 4)
    assert found["toe A length"] == Fraction(17, 8) - Fraction(5, 4)
    assert found["toe B length"] == Fraction(17, 8)
    assert found["leg A inside, at end 1"] == Fraction(3, 8) - Fraction(1, 8)
    assert found["leg A width, at end 2"] == Fraction(3, 4)
    assert len(found) == 7


def test_where_the_datum_is_lost_readings_start_at_the_witness_line():
    found = wanted(PARTS["vertex"])
    # the run is 2 1/8; the witness line is struck at 3: 1/8 clear of the run it would strike the hole at 2 7/16
    assert found["taper start A, from witness"] == 3 - Fraction(17, 8)
    assert found["far hole A, from witness"] == 3 - Fraction(39, 16)
    assert found["near hole B, from heel"] == Fraction(11, 16)


def test_a_blunted_feather_edge_makes_the_other_toe_shorter():
    """Blunting to 1/32 takes 1/32 x run / width of leg A: 1/32 x 2.125 / 1.25."""
    found = wanted(PARTS["vertex"])
    assert found["toe B length, blunted"] == Fraction(19, 4) - Fraction(1, 32) * Fraction(17, 8) / Fraction(5, 4)
    assert found["toe A length"] == Fraction(19, 4) - Fraction(17, 8)
    both = wanted(PARTS["both"])
    assert both["toe B length, blunted"] == Fraction(43, 8) - 2 * Fraction(1, 32) * Fraction(13, 8) / Fraction(5, 4)


def test_a_width_that_no_jaw_can_take_is_replaced_by_the_middle_of_the_taper():
    assert wanted(PARTS["vertex"])["mid-taper leg A, end 1"] == Fraction(5, 8)
    assert wanted(PARTS["fillet"])["mid-taper leg A, end 1"] == (Fraction(5, 4) + Fraction(3, 16)) / 2
    assert "leg A inside, at end 1" not in wanted(PARTS["fillet"])


def test_a_part_without_tapers_or_holes_has_widths_and_lengths():
    found = wanted(PARTS["bare"])
    assert found["length along the heel"] == 38 and found["toe A length"] == 38
    assert len(found) == 7


@pytest.mark.parametrize("name", PARTS)
def test_every_part_has_seven_readings_and_a_number_in_each(name):
    found = readings(PARTS[name])
    assert len(found) == 7 and len({reading.name for reading in found}) == 7
    assert all(float(reading.wanted) > 0 for reading in found)


@pytest.mark.parametrize("length, deviation", [("1 in", "0.2"), ("2 in", "0.3"), ("10 in", "0.5"), ("30 in", "0.8"), ("70 in", "1.2"), ("100 in", "2.0")])
def test_tolerances_are_those_of_iso_2768_1_m(length, deviation):
    """ISO 2768-1, table 1, grade m: 6-30 mm 0.2, to 120 0.3, to 400 0.5, to 1000 0.8, to 2000 1.2, to 4000 2.0."""
    value = Fraction(length.split()[0])
    assert tolerance("m").of(value) == Fraction(deviation) * MM
    assert "ISO 2768-1 m" in tolerance("m").words


def test_a_shop_may_have_a_tolerance_of_its_own():
    assert tolerance("1/32").of(Fraction(90)) == Fraction(1, 32) and "1/32" in tolerance("1/32").words
    with pytest.raises(LengthError):
        tolerance("fair")


def test_no_inside_width_where_both_legs_are_tapered_at_one_end():
    """The other leg's cut bevels the face that the jaw would rest on: the width is read outside, or half-way."""
    both = [Taper("A", 1, "1/2", run=2), Taper("B", 1, "3/8", run="1 1/2")]
    part = Part("X1", "Trial", MIDDLE, "6061-T6", 12, both, [Hole("A", 6, "11/16", "1/8")])
    found = wanted(part)
    assert found["leg A width, at end 1"] == Fraction(1, 2)
    assert not any("inside, at end" in name for name in found) and len(found) == 7
    there_are = (*seven_readings(part), *readings_of(Made.as_wanted(part)))
    assert not any(name.startswith("inside width") and "at end 1" in name for name in there_are)
    # one of the two alone is read inside, on the same section
    alone = Part("X2", "Trial", MIDDLE, "6061-T6", 12, both[:1], [Hole("A", 6, "11/16", "1/8")])
    assert wanted(alone)["leg A inside, at end 1"] == Fraction(1, 2) - Fraction(1, 8)
    assert "inside width A at end 1" in seven_readings(alone)
    gone = Part("X4", "Trial", MIDDLE, "6061-T6", 12, [Taper("A", 1, "1/2", run=2), Taper("B", 1, run="1 1/2")])  # B takes the end away
    assert wanted(gone)["mid-taper leg A, end 1"] == (Fraction(5, 4) + Fraction(1, 2)) / 2
    to_vertex = Part("X3", "Trial", MIDDLE, "6061-T6", 12, [Taper("A", 1, run=2), Taper("B", 1, run="1 1/2")])
    assert wanted(to_vertex)["mid-taper leg A, end 1"] == Fraction(5, 8) and len(wanted(to_vertex)) == 7
