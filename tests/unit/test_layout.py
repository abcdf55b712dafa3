"""Marks, witness line and order of work: rounding that leaves metal, a datum that is still there."""

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from anglelib.geometry.layout import clear_zone, datum_lost, taper_marks, witness_line
from anglelib.geometry.taper import TaperLine, taper_lines
from anglelib.geometry.work import first_end, operations, reading_from_datum
from anglelib.job import Shop
from anglelib.lengths import printed
from anglelib.part import Cope, Corner, Hole, Part, Taper
from anglelib.section import Section

STOCK = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
SHOP = Shop()


def _part(*tapers, length="4 3/4", **more):
    return Part("P1", "Trial", more.pop("section", STOCK), "6061-T6", length, tapers=tapers, **more)


sixteenths = st.integers(1, 64).map(lambda n: Fraction(n, 16))


@given(run=sixteenths, left=st.integers(0, 19).map(lambda n: Fraction(n, 16)))
@settings(max_examples=200, deadline=None)
def test_a_rounded_mark_never_undercuts(run, left):
    line = TaperLine.of(STOCK, Taper("A", 1, left, run=run))
    for mark in taper_marks(line, SHOP):
        for value in (mark.y if mark.across else mark.at, mark.saw):
            if value is None:
                continue
            shown = printed(value, 64, mark.rounding)
            # The kept metal lies beyond the line along the heel, and below it across the end.
            assert shown.value >= value - 1e-9 if mark.across else shown.value <= value + 1e-9
            assert abs(shown.lost) < Fraction(1, 64)


@given(run=sixteenths, left=st.integers(0, 19).map(lambda n: Fraction(n, 16)))
@settings(max_examples=100, deadline=None)
def test_the_saw_line_is_the_allowance_away_from_the_finished_line(run, left):
    """Distance between two parallel lines, from a point on one and the direction of the other."""
    line = TaperLine.of(STOCK, Taper("A", 1, left, run=run))
    saw = line.offset(SHOP.allowance)
    dx, dy = float(line.run), float(line.width - line.width_left)
    for x, y in ((saw.toe, float(line.width)), (0.0, saw.end_height)):
        distance = (dx * (y - float(left)) - dy * x) / (dx * dx + dy * dy) ** 0.5
        assert distance == pytest.approx(float(SHOP.allowance), abs=1e-12)


def test_each_kind_of_end_has_its_own_marks():
    def names(left, section=STOCK):
        return [m.name for m in taper_marks(TaperLine.of(section, Taper("A", 1, left, run=2)), SHOP)]

    assert names("5/8") == ["run", "width left"]
    assert names("3/16") == ["run", "first flat mark", "width left"]
    assert names("1/16") == ["run", "first flat mark", "mark on the other leg"]
    assert names(0) == ["run", "first flat mark", "vertex-projection mark"]
    rounded = replace(STOCK, toe_radius=Fraction(1, 16))
    assert names(0, rounded) == ["run", "last flat mark", "first flat mark", "vertex-projection mark"]


def test_only_a_taper_to_the_vertex_takes_the_datum():
    assert witness_line(_part(Taper("A", 1, "3/8", run=2))) is None
    assert not datum_lost(_part(Taper("A", 1, "1/32", run=2)), 1)
    assert datum_lost(_part(Taper("B", 2, run=2)), 2)


@given(
    runs=st.tuples(sixteenths, sixteenths),
    length=st.integers(40, 200).map(lambda n: Fraction(n, 16)),
    hole=st.integers(8, 60).map(lambda n: Fraction(n, 16)),
)
@settings(max_examples=200, deadline=None)
def test_a_witness_line_is_clear_of_both_tapers_and_of_the_hole(runs, length, hole):
    part = _part(Taper("A", 1, run=runs[0]), Taper("A", 2, run=runs[1]), length=length)
    if hole < length - Fraction(1, 4):
        part = replace(part, holes=(Hole("B", hole, "5/8", "1/8"),))
    witness = witness_line(part)
    first, last = clear_zone(part)
    if witness is None:
        assert first >= last  # the tapers meet: no place is clear
        return
    assert first <= witness <= last
    if last - first > Fraction(5, 8):
        assert min(witness - first, last - witness) >= Fraction(1, 16)
        assert all(abs(witness - h.x) > h.diameter / 2 for h in part.holes)


def test_readings_come_from_the_witness_line_where_the_datum_is_lost():
    part = _part(Taper("A", 1, run="2 1/8"))
    assert witness_line(part) == Fraction(5, 2)
    assert reading_from_datum(part, Fraction(17, 4)) == ("witness line", "1 3/4 (1.750) towards end 2")
    assert reading_from_datum(part, Fraction(5, 8)) == ("witness line", "1 7/8 (1.875) towards end 1")
    assert reading_from_datum(_part(), Fraction(5, 8)) == ("end 1", "5/8 (0.625)")


def test_the_harder_end_is_made_first_and_its_taper_is_sawn_before_the_length():
    part = _part(Taper("A", 1, "1/2", run=1), Taper("A", 2, run=2), length=12)
    assert first_end(part) == 2
    titles = [o.title for o in operations(part, SHOP)]
    assert titles.index("Saw the taper of leg A at end 2") < titles.index("Cut to length")
    assert titles.index("Cut to length") < titles.index("Saw the taper of leg A at end 1")
    assert titles[0] == "Square end 2"


def test_the_length_is_marked_from_what_still_stands():
    plain = next(o for o in operations(_part(Taper("A", 1, "3/8", run=2)), SHOP) if o.title == "Cut to length")
    assert plain.marks[0].at == Fraction(19, 4) and plain.marks[0].saw == Fraction(19, 4) + Fraction(1, 32)
    vertex = next(o for o in operations(_part(Taper("A", 1, run="2 1/8")), SHOP) if o.title == "Cut to length")
    assert vertex.marks[0].at == Fraction(19, 4) - Fraction(5, 2)
    assert "witness line" in vertex.text
    turned = next(o for o in operations(_part(Taper("A", 2, run="2 1/8"), length=9), SHOP) if o.title == "Cut to length")
    # End 2 is made first; end 1 is then 6 1/2 beyond the witness line.
    assert turned.marks[0].end == 1 and turned.marks[0].at == witness_line(_part(Taper("A", 2, run="2 1/8"), length=9))


def test_short_work_is_clamped_and_a_feather_edge_is_blunted():
    short = operations(_part(Taper("A", 1, run="2 1/8"), Taper("A", 2, "1/2", run=1)), SHOP)
    said = " ".join(c for o in short for c in o.cautions)
    assert "clamp it, do not hand-hold" in said
    blunt = next(o for o in short if o.title.startswith("Blunt"))
    assert "0.053" in blunt.text  # 1/32 x (2 1/8) / (1 1/4) = 0.053125
    long = operations(_part(Taper("A", 1, "1/2", run=1), length=20), SHOP)
    assert "hand-hold" not in " ".join(c for o in long for c in o.cautions)
    assert not any(o.title.startswith("Blunt") for o in long)


def test_every_feature_has_its_step():
    part = _part(
        Taper("A", 1, "1/2", run=1),
        length=12,
        holes=[Hole("A", 3, "5/8", "1/8")],
        corners=[Corner("B", 2, "1/4")],
        copes=[Cope("B", 1, 1, "1/2", "1/8")],
        mirror_of="P2",
    )
    titles = [o.title for o in operations(part, SHOP)]
    assert {"Cope leg B at end 1", "Round the corners", "Mark and drill the holes", "Inspect, mark, tag"} <= set(titles)
    assert "P2" in operations(part, SHOP)[-1].text
    assert len(titles) == len(set(titles))


def test_lines_come_end_1_first():
    part = _part(Taper("B", 2, "1/2", run=1), Taper("A", 2, "1/2", run=1), Taper("A", 1, "1/2", run=1), length=20)
    assert [(line.end, line.leg) for line in taper_lines(part)] == [(1, "A"), (2, "A"), (2, "B")]
