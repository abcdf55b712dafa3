"""The taper's worked values, and the three wrong ways of getting them.

The numbers were computed to nine figures apart from the library (cotangents by a multiple-precision
calculator; volume and centroid by a solid kernel and by sampling). Stock 1 1/2 x 1 1/2 x 1/8, fillet
3/16, cut to the vertex, unless said.
"""

from __future__ import annotations

from fractions import Fraction as F
from math import radians, tan

import pytest

from anglelib.errors import PartError
from anglelib.geometry.solid import solid_of
from anglelib.geometry.taper import TaperLine, from_end_1, taper_lines, warnings
from anglelib.part import Part, Taper
from anglelib.section import Section

TO = 1e-6
STOCK = Section("1 1/2", "1 1/2", "1/8", fillet="3/16")
TWO_THICKNESSES = Section("1 1/2", "1 1/2", "3/16", "1/8", fillet="3/16")

# angle: run, vertex-projection mark, first mark on the flat, error of a straight wrap
WORKED = {
    "45": (1.5, 0.125, 0.3125, 0.107024311),
    "30": (2.59807621, 0.216506351, 0.541265877, 0.185371545),
    "20": (4.12121613, 0.343434677, 0.858586694, 0.294046879),
    "10": (8.50692273, 0.708910227, 1.77227557, 0.606965031),
}
by_angle = pytest.mark.parametrize("angle, worked", WORKED.items(), ids=WORKED)


def line_at(angle: str, section: Section = STOCK, left="0", leg="A") -> TaperLine:
    return TaperLine.of(section, Taper(leg, 1, left, angle=angle))


def made(*tapers: Taper, length=12, section: Section = STOCK, holes=()) -> Part:
    return Part("P1", "Trial", section, "6061-T6", length, tapers=tapers, holes=holes)


# --- the worked values --------------------------------------------------------------------------------
@by_angle
def test_marks(angle, worked):
    line = line_at(angle)
    run, offset, first, wrap = worked
    assert line.run == pytest.approx(run, abs=TO)
    assert line.vertex_projection == pytest.approx(offset, abs=TO)
    assert line.first_flat == pytest.approx(first, abs=TO)
    assert line.straight_wrap_error == pytest.approx(wrap, abs=TO)


def test_volume_and_centroid_of_the_long_taper():
    solid = solid_of(made(Taper("A", 1, angle="10")))
    assert solid.volume == pytest.approx(3.537449, abs=TO)
    assert solid.centroid == pytest.approx((6.82379, 0.29051, 0.48934), abs=5e-6)
    assert solid.weight("6061-T6") == pytest.approx(3.537449 * 0.0975, abs=TO)


def test_allowance_moves_the_toe_mark_along_and_the_end_mark_across():
    line = line_at("10")
    saw = line.offset(F(1, 32))
    assert line.run - saw.toe == pytest.approx(0.179961578, abs=TO)
    assert saw.end_height == pytest.approx(0.0317320816, abs=TO)
    # Exchanged, sine for cosine, each would be off by more than 0.14.
    assert line.shift_along(F(1, 32)) - line.shift_across(F(1, 32)) > 0.14


def test_blunting_a_feather_edge():
    assert line_at("45").blunting() == pytest.approx(1 / 32, abs=TO)
    assert line_at("10").blunting() == pytest.approx(0.18, abs=0.005)


def test_offset_equals_the_thickness_only_at_45_degrees():
    """Common practice: set back 1/8 on 1/8 stock. It holds at 45 degrees and nowhere else."""
    assert line_at("45").vertex_projection == pytest.approx(0.125, abs=TO)
    for angle in ("44", "46", "30", "60"):
        assert abs(line_at(angle).vertex_projection - 0.125) > 0.004


@pytest.mark.parametrize("angle, short", [("45", 0.125), ("20", 0.34)])
def test_a_rounded_toe_ends_the_inside_line_before_the_toe_mark(angle, short):
    line = line_at(angle, Section("1 1/2", "1 1/2", "1/8", fillet="3/16", toe_radius="1/8"))
    assert line.run - line.last_flat == pytest.approx(short, abs=0.005)


# --- three wrong ways, each off by a stated amount -------------------------------------------------------
@by_angle
def test_a_straight_line_over_the_fillet_is_wrong(angle, worked):
    """The wrong way: a paper strip laid straight across flat and fillet, down to leg B."""
    line = line_at(angle)
    strip = 3.14159265358979 / 2 * 3 / 16
    wrong = line.first_flat - strip * line.slope
    assert line.vertex_projection - wrong == pytest.approx(worked[3], abs=TO)
    assert line.in_fillet(line.fillet_width) == pytest.approx(line.vertex_projection, abs=1e-12)
    # Half way round, the true line is off the straight one as well: it is a quarter sine, no chord.
    middle = line.in_fillet(line.fillet_width / 2)
    assert middle < (line.first_flat + line.vertex_projection) / 2 - 0.02


def test_the_thickness_is_that_of_the_other_leg():
    """The wrong way: the tapered leg's own thickness, 3/16, where leg B's 1/8 belongs."""
    right = line_at("25", TWO_THICKNESSES).vertex_projection
    assert right == pytest.approx(0.268063365, abs=TO)
    own = float(TWO_THICKNESSES.thickness("A")) / tan(radians(25))
    assert own == pytest.approx(0.402095048, abs=TO)
    assert own - right == pytest.approx(0.134032, abs=TO)
    # On leg B it is the other way round.
    assert line_at("25", TWO_THICKNESSES, leg="B").vertex_projection == pytest.approx(0.402095048, abs=TO)


def test_the_taper_takes_more_than_a_triangle_of_its_leg():
    """The wrong way: length times area, less a triangular prism of leg A; leg B's root and the fillet are forgotten."""
    right = solid_of(made(Taper("A", 1, angle="10"))).volume
    stick = 12 * STOCK.area
    triangle = 0.125 * 1.5 * 8.50692273 / 2
    assert stick - triangle - right == pytest.approx(0.068062, abs=TO)
    assert (stick - right) / triangle == pytest.approx(1.085342, abs=TO)


# --- exactness ------------------------------------------------------------------------------------------
def test_marks_from_run_and_width_left_are_exact():
    line = TaperLine.of(STOCK, Taper("A", 1, "1/16", run="2 1/8"))
    assert line.exact and line.run == F(17, 8)
    for mark in (line.slope, line.run, line.vertex_projection, line.first_flat, line.last_flat, line.blunting(), line.taper_per_foot):
        assert type(mark) is F
    assert line.vertex_projection == F(17, 8) * F(1, 16) / (F(3, 2) - F(1, 16))
    assert line.at(F(3, 4)) == F(17, 8) * (F(3, 4) - F(1, 16)) / (F(3, 2) - F(1, 16))


def test_as_soon_as_an_angle_enters_marks_are_floats():
    line = line_at("45")
    assert not line.exact and type(line.run) is float and type(line.vertex_projection) is float


# --- where the line ends ----------------------------------------------------------------------------------
@pytest.mark.parametrize(
    "left, ends_in, offset, first",
    [
        ("0", "vertex", True, True),
        ("1/64", "other-leg", True, True),
        ("1/8", "fillet", False, True),
        ("19/64", "fillet", False, True),
        ("5/16", "flat", False, False),
        ("1 31/64", "flat", False, False),
    ],
)
def test_which_marks_there_are(left, ends_in, offset, first):
    line = TaperLine.of(STOCK, Taper("A", 1, left, run=1))
    assert line.ends_in == ends_in and line.to_vertex is (left == "0")
    assert (line.vertex_projection is not None) is offset
    assert (line.first_flat is not None) is first
    assert bool(line.fillet_curve()) is first
    assert (line.bevel_length > 0) is offset and (line.bevel_face > 0) is offset


def test_the_fillet_curve_runs_from_the_flat_to_leg_b_or_to_the_end():
    whole = line_at("30").fillet_curve(12)
    assert whole[0] == pytest.approx((0, 0.541265877)) and whole[-1] == pytest.approx((0.29452431, 0.216506351))
    assert all(x1 < x0 and u1 > u0 for (u0, x0), (u1, x1) in zip(whole, whole[1:], strict=False))
    stopped = line_at("30", left="1/4").fillet_curve(12)
    assert stopped[-1][1] == 0.0 and stopped[-1][0] < whole[-1][0]
    assert line_at("30", Section(1, 1, "1/8")).fillet_curve() == []


def test_nothing_to_cut_is_refused():
    for left in ("1 1/2", "2"):
        with pytest.raises(PartError, match=r"leaves .* of leg A, which is only 1 1/2 wide: nothing would be cut"):
            TaperLine.of(STOCK, Taper("A", 1, left, run=1))


def test_lines_of_a_part_come_by_end_and_leg_and_are_measured_from_end_1():
    part = made(Taper("B", 2, run=1), Taper("A", 2, run=2), Taper("B", 1, run=1))
    assert [(line.end, line.leg) for line in taper_lines(part)] == [(1, "B"), (2, "A"), (2, "B")]
    assert from_end_1(part, 1, F(1, 4)) == F(1, 4) and from_end_1(part, 2, F(1, 4)) == F(47, 4)


# --- legal, with a warning ----------------------------------------------------------------------------------
def test_warnings_are_given_where_the_metal_earns_them_and_only_there():
    assert warnings(made(Taper("A", 1, run=3))) == ()
    (said,) = warnings(made(Taper("A", 1, run=14)))
    assert "longer than the part" in said
    assert any("both ends meet" in s for s in warnings(made(Taper("A", 1, run=7), Taper("A", 2, run=7))))
    assert any("only 2.0 degrees" in s for s in warnings(made(Taper("A", 1, "1", angle="2"), length=40)))
    # Just as long as the part, just 3 degrees, just meeting: nothing is said.
    assert warnings(made(Taper("A", 1, run=12))) == warnings(made(Taper("A", 1, run=7), Taper("A", 2, run=5))) == warnings(made(Taper("A", 1, "1", angle="3"))) == ()
    assert warnings(made(Taper("A", 1, run=7), Taper("B", 2, run=7))) == ()
    assert [len(warnings(made(*tapers))) for tapers in ([Taper("A", 1, run="12 1/64")], [Taper("B", 1, run=7), Taper("B", 2, run="5 1/64")], [Taper("A", 1, "1", angle="2.99")])] == [1, 1, 1]
