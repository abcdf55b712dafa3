"""Where the geometry ends: what is refused, each in a sentence with its remedy, and what is legal to the very edge."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from anglelib.errors import BenchError
from anglelib.geometry.allowance import Saw, warming
from anglelib.geometry.along import section_at
from anglelib.geometry.holes import END, EdgeId, legal_region, row_band, worst_edge
from anglelib.geometry.rounding import rounded_corners, tangent_length
from anglelib.geometry.sawing import CompoundCut
from anglelib.geometry.solid import solid_of
from anglelib.geometry.squaring import End
from anglelib.geometry.taper import TaperLine, warnings
from anglelib.job import Shop
from anglelib.part import Cope, Corner, Hole, Part, Taper
from anglelib.safety import hours_allowed
from anglelib.section import Section

STOCK = Section("1 1/2", "1 1/2", "1/8", fillet="3/16")
NAN, INF = float("nan"), float("inf")


def made(section=STOCK, length=6, **features) -> Part:
    return Part("P1", "Trial", section, "6061-T6", length, **features)


def shop(**changed) -> Shop:
    return Shop(**{"kerf": F(1, 16), "allowance": F(1, 32), "grain": F(1, 64), "usable_minimum": F(2), "hand_minimum": F(6), **changed})


REFUSED = {
    "leg not finite": lambda: Section(INF, 1, "1/8"),
    "length not finite": lambda: made(length=NAN),
    "end not finite": lambda: End(NAN, 0),
    "cut not finite": lambda: CompoundCut(NAN, 60),
    "saw not finite": lambda: Saw(INF, 0.1, 1),
    "noise not finite": lambda: hours_allowed(NAN),
    "leg zero": lambda: Section(0, 1, "1/8"),
    "leg negative": lambda: Section(-1, 1, "1/8"),
    "thickness zero": lambda: Section(1, 1, 0),
    "thickness negative": lambda: Section(1, 1, "-1/8"),
    "fillet negative": lambda: Section(1, 1, "1/8", fillet="-1/16"),
    "toe radius negative": lambda: Section(1, 1, "1/8", toe_radius="-1/16"),
    "heel radius negative": lambda: Section(1, 1, "1/8", heel_radius="-1/16"),
    "kerf negative": lambda: shop(kerf=F(-1, 16)),
    "allowance negative": lambda: shop(allowance=F(-1, 32)),
    "thickness as wide as the leg": lambda: Section(1, "1/8", "1/8"),
    "fillet and toe too large for the flat": lambda: Section(1, 1, "1/8", fillet="7/8", toe_radius="1/64"),
    "heel through the inside corner": lambda: Section(1, 1, "1/8", fillet="1/16", heel_radius="32/64"),
    "toe radius over the thickness": lambda: Section(1, 1, "1/8", toe_radius="9/64"),
    "angle zero": lambda: Taper("A", 1, angle=0),
    "angle of a square cut": lambda: Taper("A", 1, angle=90),
    "width left as wide as the leg": lambda: TaperLine.of(STOCK, Taper("A", 1, "3/2", run=1)),
    "width left negative": lambda: Taper("A", 1, "-1/8", run=1),
    "run zero": lambda: Taper("A", 1, run=0),
    "run negative": lambda: Taper("A", 1, run=-1),
    "angle and run": lambda: Taper("A", 1, run=1, angle="30"),
    "neither angle nor run": lambda: Taper("A", 1),
    "arc longer than its edge": lambda: rounded_corners(made(corners=[Corner("A", 1, "1 7/16")])),
    "cope into the other leg": lambda: made(copes=[Cope("A", 1, 1, "1/16", "1/16")]),
    "cope radius deeper than the cope": lambda: made(copes=[Cope("A", 1, 1, "1 7/16", "1/8")]),
    "corner that the cope took": lambda: solid_of(made(copes=[Cope("A", 1, 1, "1/2", "1/8")], corners=[Corner("A", 1, "1/8")])),
    "radius negative": lambda: tangent_length(90, -0.1),
    "radius not finite": lambda: tangent_length(90, NAN),
    "corner not finite": lambda: tangent_length(NAN, 0.1),
    "corner of 180 degrees": lambda: tangent_length(180, 0.1),
    "no weight": lambda: warming(50, 60, 0),
    "beyond the part": lambda: section_at(made(), 6.1),
}
REMEDIES = (
    "give",
    "write",
    "check",
    "measure",
    "choose",
    "leave",
    "keep",
    "drop",
    "shorten",
    "read the meter",
    "must",
    "quieten",
    "ends at",
    "say ",
)


@pytest.mark.parametrize("name", REFUSED)
def test_refused_in_a_sentence_with_its_remedy(name):
    with pytest.raises(BenchError) as refusal:
        REFUSED[name]()
    sentence = str(refusal.value)
    assert sentence[0].isupper() or sentence[0].isdigit()
    assert sentence.endswith(".") and "\n" not in sentence and len(sentence) < 240
    assert any(remedy in sentence.lower() for remedy in REMEDIES), sentence
    for machine in ("Fraction", "float", "None", "nan", "inf", "Error"):
        assert machine not in sentence, sentence


# --- legal to the edge -------------------------------------------------------------------------------------
def test_fillet_and_toe_that_leave_no_flat():
    section = Section(1, 1, "1/8", fillet="3/4", toe_radius="1/8")  # r2 = t, r + r2 = the flat exactly
    part = made(section, tapers=[Taper("A", 1, run=1), Taper("B", 2, "1/16", run=2)])
    assert 0 < solid_of(part).volume < section.area * 6
    assert section_at(part, 3).area == pytest.approx(section.area, rel=1e-12)
    line = TaperLine.of(section, part.tapers[0])
    assert line.first_flat == line.last_flat == F(7, 8)


def test_width_left_inside_the_fillet_marks_nothing_on_leg_b():
    line = TaperLine.of(STOCK, Taper("A", 1, "1/4", run=2))
    assert line.ends_in == "fillet" and line.vertex_projection is None and line.first_flat == F(1, 10)
    part = made(tapers=[Taper("A", 1, "1/4", run=2)], holes=[Hole("B", "3/8", 1, "1/8")])
    assert worst_edge(part, part.holes[0]).to == EdgeId(END, 1)  # no bevel on leg B's inner face


def test_width_left_of_exactly_the_other_legs_thickness():
    line = TaperLine.of(STOCK, Taper("A", 1, "1/8", run=2))
    assert line.vertex_projection is None and line.bevel_length == 0


def test_empty_rivet_region_is_an_answer():
    small = made(Section("3/4", "3/4", "1/8", fillet="1/8"), 2)
    assert legal_region(small, "A", F(3, 16)) == ()
    low, high = row_band(small.section, "A", F(3, 16))
    assert high < low


def test_legal_with_a_warning():
    long = made(length=2, tapers=[Taper("A", 1, "1/4", run=3)])
    crossing = made(length=4, tapers=[Taper("A", 1, run=3), Taper("A", 2, run=2)])
    flat = made(length=40, tapers=[Taper("A", 1, angle="2")])
    for part, said in ((long, "longer than the part"), (crossing, "never reaches its full width"), (flat, "only 2.0 degrees")):
        assert any(said in warning for warning in warnings(part))
        assert 0 < solid_of(part).volume < part.section.area * float(part.length)
        assert section_at(part, float(part.length) / 2).area > 0
    assert warnings(made(tapers=[Taper("A", 1, run=2)])) == ()


def test_tapers_that_cut_the_whole_leg_away_at_both_ends_still_leave_one_piece():
    """Vertex tapers on both legs at both ends of a short part: metal is left in the middle, none at the ends."""
    part = made(length=2, tapers=[Taper(leg, end, run=4) for leg in "AB" for end in (1, 2)])
    solid = solid_of(part)
    assert solid.volume > 0 and solid.centroid[0] == pytest.approx(1) and solid.centroid[1] == pytest.approx(solid.centroid[2])
    assert section_at(part, 0).area == 0 and section_at(part, 1).area > 0


def test_hole_that_touches_its_limits():
    hole = Hole("A", "1/16", "1 7/16", "1/8")
    part = made(holes=[hole])
    assert worst_edge(part, hole).distance == pytest.approx(1 / 16)
    assert solid_of(part).volume < STOCK.area * 6
