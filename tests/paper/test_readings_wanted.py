"""What the boxes of a card say: wanted values and limits worked out by hand from the part, general tolerances from the standard's table."""

from __future__ import annotations

from fractions import Fraction

import pytest
from printed_pages import MIDDLE, PARTS

from anglelib.inspection.made import Made, readings_of
from anglelib.inspection.reading_ids import chosen, takeable
from anglelib.inspection.reading_words import reading_words
from anglelib.inspection.wanted import all_wanted, wanted_readings
from anglelib.paper.card_check import words
from anglelib.part import Cope, Corner, Hole, Part, Taper
from anglelib.section import Section
from anglelib.tolerances import Limits

MM = Fraction(10, 254)
BROKEN = 1 / 128
"""Half of what an edge may be broken by [in]."""


def wanted(part: Part) -> dict[str, float]:
    return {want.id: want.value for want in wanted_readings(part, Limits())}


def test_a_plain_taper():
    found = wanted(PARTS["flat"])
    assert found["start.A.1"] == 5 / 4
    assert found["toe.A"] == 17 / 8 - 5 / 4
    assert found["toe.B"] == 17 / 8
    assert found["inside.A.1"] == 3 / 8 - 1 / 8
    assert found["width.A.2"] == 3 / 4
    assert len(found) == 7


def test_where_the_datum_is_lost_readings_start_at_an_edge_that_is_there():
    """The run is 2 1/8 of 4 3/4: end 1 is gone, end 2 stands; the far hole from it lies at 5/8 in leg B, 4 1/8 away."""
    part = PARTS["vertex"]
    found = wanted(part)
    assert not any(id_.startswith("start") for id_ in found)  # its toe says the same from end 2
    assert found["toe.A"] == 19 / 4 - 17 / 8
    along = next(id_ for id_ in found if id_.endswith(".x"))
    assert found[along] == max(float(part.length - hole.x) for hole in part.holes)
    assert reading_words(along, part).endswith("from end 2")
    assert not any("witness" in reading_words(id_, part) for id_ in takeable(part))


def test_only_where_nothing_else_is_left_a_length_is_read_from_ink():
    """Both ends to the vertex: from a taper's corner on the toe; where that is rounded, from the nearest hole; with one hole, from the witness line."""
    tapers = [Taper("A", 1, run="1 1/2"), Taper("A", 2, run="1 1/2")]
    holes = [Hole("B", 3, "11/16", "1/8"), Hole("B", 5, "11/16", "1/8")]
    corners = [Corner("A", 1, "1/4"), Corner("A", 2, "1/4")]

    def read_from(**more) -> str:
        part = Part("X", "Trial", MIDDLE, "6061-T6", 8, tapers, **more)
        along = next(id_ for id_ in takeable(part) if id_.endswith(".x"))
        return reading_words(along, part).partition(", from ")[2]

    assert read_from(holes=holes) == "taper start A, end 1"
    assert read_from(holes=holes, corners=corners) == "the hole at 3"
    assert read_from(holes=holes[:1], corners=corners) == "the witness line"


def test_a_broken_feather_edge_makes_the_other_toe_shorter():
    """Breaking to 1/128 takes 1/128 x run / width of leg A off the heel; twice that is the least that passes, and sharp is the most."""
    want = all_wanted(PARTS["vertex"], Limits())["toe.B"]
    slope = (17 / 8) / (5 / 4)
    assert want.value == pytest.approx(19 / 4 - BROKEN * slope)
    assert (want.low, want.high) == pytest.approx((19 / 4 - 1 / 64 - 2 * BROKEN * (17 / 8 + 1 / 64) / (5 / 4), 19 / 4 + 1 / 64))
    both = wanted(PARTS["both"])
    assert both["toe.B"] == pytest.approx(43 / 8 - 2 * BROKEN * (13 / 8) / (5 / 4))
    blunted = Part("X", "Trial", MIDDLE, "6061-T6", "4 3/4", [Taper("A", 1, run="2 1/8", blunt="1/32")])
    assert wanted(blunted)["toe.B"] == pytest.approx(19 / 4 - slope / 32)
    assert reading_words("toe.B", blunted) == "toe B, over blunted edge"


def test_a_width_that_no_jaw_can_take_is_replaced_by_the_middle_of_the_taper():
    assert wanted(PARTS["vertex"])["mid.A.1"] == 5 / 8
    assert wanted(PARTS["fillet"])["mid.A.1"] == (5 / 4 + 3 / 16) / 2
    assert "inside.A.1" not in takeable(PARTS["fillet"])


def test_a_part_without_tapers_or_holes_has_widths_and_lengths():
    found = wanted(PARTS["bare"])
    assert found["heel"] == 38 and found["toe.A"] == 38
    assert len(found) == 7


@pytest.mark.parametrize("name", PARTS)
def test_every_part_has_its_readings_a_number_in_each_and_a_name_of_its_own(name):
    part = PARTS[name]
    found = wanted_readings(part, Limits())
    assert 7 <= len(found) <= 10 and len({reading_words(want.id, part) for want in found}) == len(found)
    assert all(0 < want.value and want.low < want.value <= want.high + 1e-12 for want in found)
    every = takeable(part)
    assert len({reading_words(id_, part) for id_ in every}) == len(every)


@pytest.mark.parametrize("length, deviation", [("1 in", "0.2"), ("2 in", "0.3"), ("10 in", "0.5"), ("30 in", "0.8"), ("70 in", "1.2"), ("100 in", "2.0")])
def test_limits_by_the_standard_are_those_of_iso_2768_1_m(length, deviation):
    """ISO 2768-1, table 1, grade m: 6-30 mm 0.2, to 120 0.3, to 400 0.5, to 1000 0.8, to 2000 1.2, to 4000 2.0."""
    value = Fraction(length.split()[0])
    bar = Part("X", "Bar", Section(1, 1, "1/8"), "6061-T6", value)
    want = all_wanted(bar, Limits.named("m"))["heel"]
    assert (want.high - want.low) / 2 == pytest.approx(float(Fraction(deviation) * MM))


def test_a_shop_may_have_limits_of_its_own():
    bar = Part("X", "Bar", Section(1, 1, "1/8"), "6061-T6", 90)
    want = all_wanted(bar, Limits.named("1/32"))["heel"]
    assert (want.low, want.high) == pytest.approx((90 - 1 / 32, 90 + 1 / 32))


def test_no_inside_width_where_both_legs_are_tapered_at_one_end():
    """The other leg's cut bevels the face that the jaw would rest on: the width is read outside, or half-way."""
    both = [Taper("A", 1, "1/2", run=2), Taper("B", 1, "3/8", run="1 1/2")]
    part = Part("X1", "Trial", MIDDLE, "6061-T6", 12, both, [Hole("A", 6, "11/16", "1/8")])
    found = wanted(part)
    assert found["mid.A.1"] == (5 / 4 + 1 / 2) / 2 and len(found) == 7
    assert "width.A.1" in takeable(part) and "inside.A.1" not in takeable(part)
    # one of the two alone is read inside, on the same section
    alone = Part("X2", "Trial", MIDDLE, "6061-T6", 12, both[:1], [Hole("A", 6, "11/16", "1/8")])
    assert wanted(alone)["inside.A.1"] == pytest.approx(1 / 2 - 1 / 8)
    gone = Part("X4", "Trial", MIDDLE, "6061-T6", 12, [Taper("A", 1, "1/2", run=2), Taper("B", 1, run="1 1/2")])  # B takes the end away
    assert "width.A.1" not in takeable(gone) and wanted(gone)["mid.A.1"] == (5 / 4 + 1 / 2) / 2
    to_vertex = Part("X3", "Trial", MIDDLE, "6061-T6", 12, [Taper("A", 1, run=2), Taper("B", 1, run="1 1/2")])
    assert wanted(to_vertex)["mid.A.1"] == 5 / 8 and len(wanted(to_vertex)) == 7


# --- copes, corners, crossing tapers ----------------------------------------------------------------------------
def test_a_coped_part_is_read_at_its_cope():
    """1 1/2 x 1 1/2 x 1/8, 6 long, leg A coped at end 1, 1 back, 3/8 left: toe A is 5 long, leg A 3/8 wide beside the cope."""
    part = Part("K1", "Trial", Section("1 1/2", "1 1/2", "1/8", fillet="1/8"), "6061-T6", 6, copes=[Cope("A", 1, 1, "3/8", "1/8")])
    found = wanted(part)
    assert (found["toe.A"], found["cope.A.1"], found["width.A.1"], found["toe.B"]) == (5, 1, 3 / 8, 6)
    want = all_wanted(part, Limits())["toe.A"]
    assert (want.low, want.high) == pytest.approx((5 - 1 / 32, 5 + 1 / 32))  # 1/64 of the length, 1/64 of the cope


def test_a_rounded_corner_is_read_by_its_radius_and_no_length_is_read_on_the_arc():
    """Run 5, width left 0.3, length 6 on a leg of 1 1/2, the corner on the toe rounded with 1/2: the toe's flat is no reading."""
    part = Part("K2", "Trial", Section("1 1/2", "1 1/2", "1/8", fillet="1/8"), "6061-T6", 6,
                [Taper("A", 1, "3/10", run=5)], corners=[Corner("A", 1, "1/2"), Corner("B", 2, "1/4")])  # fmt: skip
    assert "toe.A" not in takeable(part) and "start.A.1" not in takeable(part)
    found = wanted(part)
    assert found["corner.A.1"] == 1 / 2 and found["corner.B.2"] == 1 / 4
    # leg B's end is read below the arc, where the whole length stands
    assert found["toe.B"] == 6 and reading_words("toe.B", part).endswith("below the rounding")
    # half-way is read from the end, since the taper's start is rounded away: at 2 1/2, (1.5 + 0.3) / 2
    assert found["mid.A.1"] == pytest.approx(0.9) and reading_words("mid.A.1", part) == "leg A width, 2 1/2 from end 1"


def test_where_tapers_meet_the_peak_is_read_and_no_toe():
    """Length 9, both ends 0.3 left at 12 degrees: the lines meet in the middle at 0.3 + 4.5 tan 12 degrees."""
    part = Part("K3", "Trial", Section("1 1/2", "1 1/2", "1/8", fillet="1/8"), "6061-T6", 9,
                [Taper("A", 1, "3/10", angle="12"), Taper("A", 2, "3/10", angle="12")])  # fmt: skip
    found = wanted(part)
    assert found["peak.A"] == pytest.approx(0.3 + 4.5 * 0.2125566, abs=1e-6)
    assert not any(id_ in takeable(part) for id_ in ("toe.A", "start.A.1", "start.A.2", "mid.A.1"))


def test_a_perfect_part_keeps_every_limit_of_every_rule():
    for name, part in PARTS.items():
        perfect = readings_of(Made.as_wanted(part))
        for rule in (Limits(), Limits("iso-m"), Limits("iso-f"), Limits.named("0.001")):
            for id_, want in all_wanted(part, rule).items():
                assert want.keeps(perfect[id_]), (name, id_, rule)
    assert chosen(PARTS["flat"])


@pytest.mark.parametrize("said, written", [("0.005", "±0.005"), ("0.02", "±0.02"), ("1/128", "±1/128"), ("0.3 mm", "±0.3 mm"), ("1/32", "±1/32")])
def test_a_limit_of_ones_own_is_written_as_it_is(said, written):
    """No rule's graduation has 0.005: written to the nearest one it would be ±0."""
    limits = Limits.named(said)
    bar = PARTS["flat"]
    told = words(bar, limits, None)
    assert limits.words == f"{written}, this shop's own"
    assert told.startswith(f"Limits {written}, this shop's own, ends square to {written[1:]};")
    if limits.own < Fraction(1, 64):
        assert f"not {written}:" in told


def test_how_square_an_end_is_is_never_rounded_to_nothing():
    """ISO 2768-1 table 3: one degree over a leg of up to 10 mm, half a degree up to 50 mm; over 3/4 in. that is 0.0065 in."""
    told = words(Part("P1", "Bar", Section("3/4", "3/4", "1/8"), "6061-T6", 5), Limits("iso-m"), None)
    assert "ends square to 0.007;" in told and "not ±0.020" not in told


def test_half_a_run_that_no_rule_has_is_said_as_a_caliper_is_set():
    """Of a run of 1 9/64 the middle is at 0.570, and a rule's 37/64 is 0.578 from the start: the width there is another one."""
    part = Part("P1", "Trial", MIDDLE, "6061-T6", 5, [Taper("A", 1, "1/2", run="1 9/64")])
    assert reading_words("mid.A.1", part) == "leg A width, 0.570 from taper start"
    assert reading_words("mid.A.1", PARTS["flat"]) == "leg A width, 5/8 from taper start"
