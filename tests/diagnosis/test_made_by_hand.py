"""A made part's places, heights and weight, worked by hand on a bar of 1 1/2 x 1 1/2 x 1/8 without a fillet, 10 long."""

from __future__ import annotations

from dataclasses import replace
from math import hypot

import pytest

from anglelib.inspection.made import Made, MadeCope, readings_of, usual_edge
from anglelib.inspection.wanted import wanted_readings
from anglelib.part import Cope, Corner, Hole, Part, Taper
from anglelib.section import Section
from anglelib.tolerances import Limits

STOCK = Section("1 1/2", "1 1/2", "1/8")
AREA = 1.5 / 8 + 1.375 / 8


def made(*tapers, **features) -> Made:
    return Made.as_wanted(Part("P1", "Trial", STOCK, features.pop("alloy", "6061-T6"), 10, tapers=tapers, **features))


def test_a_scale_tells_length_section_and_alloy():
    """6061 weighs 0.0975 lb to the cubic inch, 2024 0.1: a piece in proportion to its length and to its section's area."""
    bar = made()
    thick = Section("1 1/2", "1 1/2", "3/16")
    for changed, area, length, density in (
        (bar, AREA, 10, 0.0975), (replace(bar, stop=9.0), AREA, 9, 0.0975), (replace(bar, start=0.5, stop=9.0), AREA, 8.5, 0.0975), (replace(bar, start=-0.25), AREA, 10.25, 0.0975),
        (replace(bar, alloy="2024"), AREA, 10, 0.1), (replace(bar, section=thick), 3 / 16 * (3 - 3 / 16), 10, 0.0975),
    ):  # fmt: skip
        assert readings_of(changed)["weight"] == pytest.approx(area * length * density)
    assert "weight" not in readings_of(made(alloy="unknown")) and "weight" in readings_of(bar)


TAPER = Taper("A", 1, "1/2", run=2)
"""2 along for 1 up."""


@pytest.mark.parametrize("end", [1, 2])
def test_where_a_sawn_face_lies(end):
    """At the toe 2 from its end, at 1/2 there; leaning by 1 in 10 it stands out at right angles by a tenth of the depth: along the heel times the root of 5."""
    of = made(Taper("A", end, "1/2", run=2))
    (line,) = of.tapers

    def x(distance: float) -> float:
        return distance if end == 1 else 10 - distance

    assert [of.line_x(line, y) for y in (1.5, 1.0, 0.5, 0.0)] == pytest.approx([x(2), x(1), x(0), x(-1)])
    leaning = replace(line, tilt=0.1)
    assert of.line_x(leaning, 1.5, 0.25) == pytest.approx(x(2 - 0.025 * hypot(2, 1))) and of.line_x(leaning, 1.5) == pytest.approx(x(2))
    assert line.shifted(0.25).at_toe == 2.25 and MadeCope("A", 1, 1.0, 0.5).shifted(-0.25).length == 0.75


@pytest.mark.parametrize("end", [1, 2])
def test_heights_at_an_end_that_leans(end):
    """An end that runs out by 1 in 10 of leg A meets the line of 2 : 1 where both are as far along: 1/2 + y / 2 ... 0.5 / (1 - 0.05) up."""
    of = made(Taper("A", end, "1/2", run=2))
    way = 1 if end == 1 else -1  # into the part
    name = f"out_{end}"
    assert of.height_at_end("A", end) == pytest.approx(0.5) and of.height_at_end("B", end) == 1.5
    assert replace(of, **{name: (way * 0.1, 0.0)}).height_at_end("A", end) == pytest.approx(1 / (2 - 0.1))
    assert replace(of, **{name: (0.0, way * 0.1)}).height_at_end("A", end) == pytest.approx(0.5)  # leg B leans: its inner face, an eighth in, is met a hair farther
    assert replace(of, **{name: (0.0, way * 0.1)}).height_at_end("A", end, inside=True) == pytest.approx(0.5 + 0.1 / 8 / 2)
    cut = replace(of, start=0.25) if end == 1 else replace(of, stop=9.75)
    assert cut.height_at_end("A", end) == pytest.approx(0.5 + 0.25 / 2)
    assert replace(of, filed=(0.25, 0.125)).height_at_end("B", end) == 1.375 and replace(of, filed=(1.125, 0.0)).height_at_end("A", end) == pytest.approx(0.375)


def test_what_toes_and_lengths_are():
    of = made(TAPER, copes=[Cope("A", 2, 1, "3/4", "1/8")])
    read = readings_of(of)
    assert (read["heel"], read["toe.A"], read["toe.B"], read["start.A.1"], read["cope.A.2"]) == pytest.approx((10, 7, 10, 2, 1))
    leaning = readings_of(replace(of, out_2=(0.0, 0.1)))
    assert (leaning["heel"], leaning["toe.B"]) == pytest.approx((10, 10.15))
    warm = readings_of(replace(of, scale=0.99))
    assert [warm[name] for name in ("heel", "toe.A", "start.A.1", "cope.A.2", "width.A.2")] == pytest.approx([9.9, 6.93, 1.98, 0.99, 0.75])
    assert (read["mid.A.1"], read["inside.A.1"], read["inside.B"], read["thickness.A"]) == pytest.approx((1.0, 0.375, 1.375, 0.125))
    short = readings_of(replace(of, tapers=(replace(of.tapers[0], at_toe=0.9),)))
    assert short["mid.A.1"] == 0.0  # half of the run lies beyond the end, from where the taper starts
    just = readings_of(replace(of, tapers=(replace(of.tapers[0], at_toe=1.01),)))
    assert just["mid.A.1"] == pytest.approx(1.0)


def test_half_way_along_a_taper_whose_corner_is_rounded_is_read_from_the_end():
    of = made(TAPER, corners=[Corner("A", 1, "1/4")])
    assert readings_of(of)["mid.A.1"] == pytest.approx(1.0) and readings_of(of)["corner.A.1"] == 0.25
    assert readings_of(replace(of, start=0.5))["mid.A.1"] == pytest.approx(1.25) and readings_of(replace(of, tapers=(of.tapers[0].shifted(0.5),)))["mid.A.1"] == pytest.approx(0.75)
    assert readings_of(replace(of, filed=(0.75, 0.0)))["mid.A.1"] == 0.75 and readings_of(replace(of, corners=()))["corner.A.1"] == 0.0
    at_2 = made(Taper("A", 2, "1/2", run=2), corners=[Corner("A", 2, "1/4")])
    assert readings_of(at_2)["mid.A.2"] == pytest.approx(1.0) and readings_of(replace(at_2, stop=9.5))["mid.A.2"] == pytest.approx(1.25)


def test_where_cuts_of_both_ends_meet_is_the_peak():
    """Runs of 9 to 1 1/2 from either end: 6 y + 6 y = 10."""
    of = made(Taper("A", 1, run=9), Taper("A", 2, run=9))
    assert of.peak("A") == pytest.approx(10 / 12) and of.peak("B") == 1.5
    assert replace(of, filed=(1.0, 0.0)).peak("A") == 0.5
    cope = made(Taper("A", 1, run=9), copes=[Cope("A", 2, 4, "1/2", "1/8")])
    assert cope.peak("A") == pytest.approx(1.0)  # the cope's face is 6 from end 1
    both = replace(made(copes=[Cope("A", 1, 1, "1/2", "1/8"), Cope("A", 2, 1, "3/4", "1/8")]), tapers=())
    first, last = both.copes
    assert replace(both, copes=(replace(first, length=5.0), replace(last, length=6.0))).peak("A") == 0.75 and both.peak("A") == 1.5  # above that each place is in the air of one


def test_whether_there_is_metal_for_it():
    of = made(TAPER, holes=[Hole("A", 3, 1, "1/8")], copes=[Cope("B", 2, 1, "3/4", "1/8")])
    hole, cope = of.holes[0], of.copes[0]
    assert of.can_be
    for change in (
        {"stop": 3.0}, {"start": 3.0}, {"holes": (replace(hole, y=1.5),)}, {"holes": (replace(hole, y=0.0),)}, {"filed": (0.5, 0.0)}, {"copes": (replace(cope, length=0.0),)},
        {"copes": (replace(cope, length=10.0),)}, {"copes": (replace(cope, left=0.0),)}, {"copes": (replace(cope, left=1.5),)}, {"tapers": (replace(of.tapers[0], at_toe=10.0),)},
        {"holes": (), "copes": (), "tapers": (), "stop": 0.0},
    ):  # fmt: skip
        assert not replace(of, **change).can_be, change
    for change in ({"stop": 3.01}, {"start": 2.99}, {"filed": (0.49, 0.0)}, {"copes": (replace(cope, left=1.49),)}, {"tapers": (replace(of.tapers[0], at_toe=9.99),)}):
        assert replace(of, **change).can_be, change


def test_how_thick_an_edge_is_on_a_well_made_part():
    """By half of the 1/64 that it may be broken by; as the plans have it blunted; none where the taper leaves some width."""
    assert [usual_edge(t) for t in (Taper("A", 1, run=2), Taper("A", 1, run=2, blunt="1/32"), TAPER)] == [1 / 128, 1 / 32, 0.0]


def test_what_places_of_holes_are_read_from():
    """Both ends to the vertex: from where leg A's taper starts; with that rounded and B's too, from the hole nearest to end 1."""
    vertices = (Taper("A", 1, run=3), Taper("B", 2, run=3))
    holes = [Hole("A", "6 1/2", 1, "1/8"), Hole("B", 4, 1, "1/8")]
    at_toe, at_hole = made(*vertices, holes=holes), made(*vertices, holes=holes, corners=[Corner("A", 1, "1/4"), Corner("B", 2, "1/4")])
    assert (readings_of(at_toe)["hole.1.x"], readings_of(at_toe)["hole.2.x"], readings_of(at_hole)["hole.1.x"]) == pytest.approx((3.5, 1, 2.5))
    end_2 = made(Taper("A", 1, run=3), holes=holes)
    assert (readings_of(end_2)["hole.1.x"], readings_of(end_2)["hole.2.x"]) == (3.5, 6)
    line = made(*vertices, holes=holes[:1], corners=[Corner("A", 1, "1/4"), Corner("B", 2, "1/4")])
    assert readings_of(line)["hole.1.x"] == abs(6.5 - 3.5)  # the witness line stands at 3 1/2
    # From a hole a place may be off by that hole's own limits too: 1/64 up to 6 in., 1/32 above.
    (between,) = wanted_readings(at_hole.wanted, Limits(), ("hole.1.x",))
    assert between.within == pytest.approx(1 / 32 + 1 / 64)
