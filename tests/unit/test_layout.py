"""Marks, witness line and order of work: marks that a rule shows, a datum that is still there."""

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from anglelib.geometry.ends import first_end
from anglelib.geometry.layout import clear_zone, datum_lost, plan_line, round_marks, saw_line, taper_marks, witness_line
from anglelib.geometry.lazy import formulas
from anglelib.geometry.mark_words import name, written
from anglelib.geometry.taper import TaperLine, taper_lines
from anglelib.geometry.work import operations, reading_from_datum
from anglelib.geometry.work_words import said
from anglelib.job import Shop
from anglelib.lengths import MM, read
from anglelib.part import Cope, Corner, Hole, Part, Taper
from anglelib.section import Section
from anglelib.tolerances import Limits

STOCK = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
SHOP = Shop()


def _part(*tapers, length="4 3/4", **more):
    return Part("P1", "Trial", more.pop("section", STOCK), "6061-T6", length, tapers=tapers, **more)


sixteenths = st.integers(1, 64).map(lambda n: Fraction(n, 16))


@given(run=sixteenths, left=st.integers(0, 19).map(lambda n: Fraction(n, 16)))
@settings(max_examples=200)
def test_a_mark_as_it_is_printed_keeps_its_own_limits(run, left):
    """The fraction, struck exactly, is off by half of what it may be at most; else it says full or bare, and its decimal is right."""
    line = TaperLine.of(STOCK, Taper("A", 1, left, run=run))
    for limits in (Limits(), Limits("iso-m"), Limits("iso-f"), Limits.named("0.004")):
        for mark in taper_marks(line, SHOP):
            text = written(mark, limits)
            fraction, _, rest = text.partition(" (")
            off = limits.length(mark.wanted)
            plain = fraction.removesuffix(" full").removesuffix(" bare")
            lost = float(mark.wanted) - float(read(plain))
            assert abs(lost) <= 1 / 128 + 1e-9
            if plain == fraction:
                assert abs(lost) <= float(off) / 2 + 1e-9
            else:
                assert abs(lost) > float(off) / 2 and (lost > 0) == fraction.endswith("full")
            assert abs(float(rest.rstrip(")")) - float(mark.wanted)) <= 0.0005 + 1e-9


@given(run=sixteenths, left=st.integers(0, 19).map(lambda n: Fraction(n, 16)))
@settings(max_examples=100)
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
        return [name(m) for m in taper_marks(TaperLine.of(section, Taper("A", 1, left, run=2)), SHOP)]

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
@settings(max_examples=200)
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


@given(
    runs=st.tuples(st.integers(10, 60), st.integers(10, 60)),
    length=st.integers(60, 400),
    hole=st.integers(12, 90),
    unit=st.sampled_from(["in", "mm"]),
)
@settings(max_examples=200)
def test_a_witness_line_is_at_a_graduation_of_the_part_s_own_rule(runs, length, hole, unit):
    """Whole millimetres (half ones where there is hardly room), or halves down to 64ths of an inch; clear of the cuts either way."""
    step = MM if unit == "mm" else Fraction(1, 16)
    part = _part(Taper("A", 1, run=runs[0] * step), Taper("A", 2, run=runs[1] * step), length=length * step, unit=unit)
    if hole < length - 4:
        part = replace(part, holes=(Hole("B", hole * step, "5/8", "1/8"),))
    witness = witness_line(part)
    if witness is None:
        return
    first, last = clear_zone(part)
    assert first <= witness <= last
    rule = (MM, MM / 2) if unit == "mm" else (Fraction(1, 16), Fraction(1, 64))
    assert (witness / rule[1]).denominator == 1
    if last - first > Fraction(3, 4):
        assert (witness / rule[0]).denominator == 1


def test_the_witness_line_of_a_metric_part_is_the_coarsest_that_finds_room():
    """By hand: the cuts leave 54 to 90 mm; the first whole 10 mm there is 60, and a hole on it moves the line on by ten."""
    part = _part(Taper("A", 1, run=54 * MM), Taper("B", 2, run=30 * MM), length=120 * MM, unit="mm", section=Section("30 mm", "30 mm", "3 mm", fillet="2 mm"))
    assert witness_line(part) == 60 * MM
    assert witness_line(replace(part, holes=(Hole("A", 60 * MM, 15 * MM, 3 * MM),))) == 70 * MM
    # An eighth of an inch, 3.175 mm, clear of both cuts: then fives, twos and ones.
    for first, last, witness in ((50, 60, 55), (51, "58.5", 55), ("50.5", "57.7", 54), (55, "62.5", 59)):
        narrow = replace(part, tapers=(Taper("A", 1, run=Fraction(first) * MM), Taper("B", 2, run=(120 - Fraction(last)) * MM)))
        assert witness_line(narrow) == witness * MM, (first, last)


@pytest.mark.parametrize(
    ("first", "last", "witness"),
    [
        ("2 1/64", 3, "2 1/2"),  # an eighth clear, and a half
        ("2 1/64", "2 9/16", "2 1/4"),  # no half there: a quarter
        ("2 1/64", "2 3/8", "2 1/4"), ("2 1/64", "2 23/64", "2 3/16"),  # 15/64 from the cut; a sixty-fourth less, and a sixteenth is the coarsest
        ("2 1/8", "2 3/8", "2 1/4"), ("2 1/8", "2 23/64", "2 1/4"), ("2 1/16", "2 19/64", "2 1/8"),  # an eighth from both; then a sixteenth must do
        ("2 1/64", "2 5/32", "2 3/32"),  # 2 1/16 would be 3/64 from a cut: there is no round number, and half-way it is
        ("2 1/64", "2 9/64", "2 5/64"),
    ],
)  # fmt: skip
def test_how_far_a_witness_line_keeps_from_the_cuts(first, last, witness):
    """By hand: 1/8 from both cuts, where that leaves no round number 1/16; else in the middle, to a sixty-fourth."""
    part = _part(Taper("A", 1, run=first), Taper("B", 2, run=6 - read(str(last))), length=6)
    assert clear_zone(part) == (read(first), read(str(last))) and witness_line(part) == read(witness)


def test_how_far_a_witness_line_keeps_from_a_hole():
    """A sixteenth of metal beside a rim: a hole of 1/8 at 2 3/8 lets the line stand at 2 1/2 and a hair, not on it."""
    part = _part(Taper("A", 1, run="2 1/64"), length=6)
    holes = [(Hole("B", x, "5/8", "1/8"), witness) for x, witness in (("2 3/8", 3), ("2 23/64", Fraction(5, 2)), ("2 5/8", 3), ("2 41/64", Fraction(5, 2)))]
    assert [witness_line(replace(part, holes=(hole,))) for hole, _ in holes] == [witness for _, witness in holes]


def test_readings_come_from_the_witness_line_where_the_datum_is_lost():
    part = _part(Taper("A", 1, run="2 1/8"))
    assert witness_line(part) == Fraction(5, 2)
    assert reading_from_datum(part, Fraction(17, 4)) == ("witness line", "1 3/4 (1.750) towards end 2")
    assert reading_from_datum(part, Fraction(5, 8)) == ("witness line", "1 7/8 (1.875) towards end 1")
    assert reading_from_datum(_part(), Fraction(5, 8)) == ("end 1", "5/8 (0.625)")


def test_the_harder_end_is_made_first_and_its_taper_is_sawn_before_the_length():
    part = _part(Taper("A", 1, "1/2", run=1), Taper("A", 2, run=2), length=12)
    assert first_end(part) == 2
    ids = [o.id for o in operations(part, SHOP)]
    assert ids.index("saw-taper-A-2") < ids.index("length-1") < ids.index("saw-taper-A-1")
    assert ids[0] == "square-2"


def _cut(part):
    return next(o for o in operations(part, SHOP) if o.kind == "length")


def test_the_length_is_marked_from_what_still_stands():
    plain = _cut(_part(Taper("A", 1, "3/8", run=2)))
    assert plain.marks[0].at == Fraction(19, 4) and plain.marks[0].saw == Fraction(19, 4) + Fraction(1, 32)
    part = _part(Taper("A", 1, run="2 1/8"))
    assert _cut(part).marks[0].at == Fraction(19, 4) - Fraction(5, 2) and _cut(part).marks[0].origin == "witness"
    assert "witness line" in said(_cut(part), part, SHOP).text
    turned = _cut(_part(Taper("A", 2, run="2 1/8"), length=9))
    # End 2 is made first; end 1 is then 6 1/2 beyond the witness line.
    assert turned.marks[0].end == 1 and turned.marks[0].at == witness_line(_part(Taper("A", 2, run="2 1/8"), length=9))


def test_the_plans_line_and_the_cards_line_are_one():
    """The near end loses the allowance when it is squared: the plan's number less that is the card's."""
    part = _part(Taper("A", 1, "3/8", run=2))
    assert plan_line(part, SHOP) == formulas().blank_length(L=part.length, n_e=2, e_s=SHOP.allowance)
    assert saw_line(part, SHOP) == formulas().blank_length(L=part.length, n_e=1, e_s=SHOP.allowance)
    assert _cut(part).marks[0].saw == saw_line(part, SHOP) == plan_line(part, SHOP) - SHOP.allowance


def _words(part):
    return [said(o, part, SHOP) for o in operations(part, SHOP)]


def test_short_work_is_clamped_and_a_feather_edge_is_only_broken():
    short = _part(Taper("A", 1, run="2 1/8"), Taper("A", 2, "1/2", run=1))
    assert "clamp it, do not hand-hold" in " ".join(c for words in _words(short) for c in words.cautions)
    edge = next(words for words in _words(short) if words.title.startswith("Break the feather"))
    assert "0.027" in edge.text  # 1/64 x (2 1/8) / (1 1/4) = 0.0266
    blunted = _part(Taper("A", 1, run="2 1/8", blunt="1/32"))
    edge = next(words for words in _words(blunted) if words.title.startswith("Blunt"))
    assert "0.053" in edge.text and "As the plans say" in edge.text  # 1/32 x 1.7 = 0.053125
    long = _part(Taper("A", 1, "1/2", run=1), length=20)
    assert "hand-hold" not in " ".join(c for words in _words(long) for c in words.cautions)
    assert not any(o.kind == "edge" for o in operations(long, SHOP))


def test_every_line_of_an_end_is_struck_before_its_first_cut():
    """A taper to the vertex takes the end that the other leg's taper and a cope are marked from."""
    part = _part(Taper("A", 1, run=2), Taper("B", 1, "1/2", run=1), length=12, copes=[Cope("B", 2, 1, "1/2", "1/8")])
    ids = [o.id for o in operations(part, SHOP)]
    assert max(ids.index("mark-taper-A-1"), ids.index("mark-taper-B-1")) < min(ids.index("saw-taper-A-1"), ids.index("saw-taper-B-1"))
    assert ids.index("square-2") < ids.index("mark-cope-B-2") < ids.index("cope-B-2")


def test_tapers_decide_which_end_is_first_and_copes_only_where_they_do_not():
    taper, cope = Taper("A", 1, "3/4", run=1), Cope("A", 2, 1, "1/2", "1/8")
    assert first_end(_part(taper, copes=[cope], length=5)) == 1
    assert first_end(_part(copes=[cope], length=5)) == 2
    assert first_end(_part(taper, Taper("B", 2, "3/4", run=1), copes=[cope], length=5)) == 2


def test_every_feature_has_its_step():
    part = _part(
        Taper("A", 1, "1/2", run=1),
        length=12,
        holes=[Hole("A", 3, "5/8", "1/8")],
        corners=[Corner("B", 2, "1/4")],
        copes=[Cope("B", 1, 1, "1/2", "1/8")],
        mirror_of="P2",
    )
    ids = [o.id for o in operations(part, SHOP)]
    assert {"mark-cope-B-1", "cope-B-1", "round", "drill", "inspect"} <= set(ids)
    assert "P2" in _words(part)[-1].text
    assert len(ids) == len(set(ids))
    round_ = next(o for o in operations(part, SHOP) if o.kind == "round")
    assert [(m.kind, m.leg, m.end, m.at, m.radius) for m in round_.marks] == [("round", "B", 2, Fraction(1, 4), Fraction(1, 4))]


@pytest.mark.parametrize("end", [1, 2])
def test_where_an_arc_begins_on_the_toe(end):
    """A taper of 3 : 4, its run 1: the arc begins a third of its radius behind the toe mark; at a square end a radius from it."""
    corners = [Corner("A", end, "3/8"), Corner("B", end, "1/4")]
    tapered, square = round_marks(_part(Taper("A", end, "1/2", run=1), corners=corners, length=7))
    assert (tapered.at, tapered.end, tapered.leg, tapered.y) == (pytest.approx(1.125), end, "A", Fraction(5, 4))
    assert (square.at, square.end, square.leg, square.radius) == (Fraction(1, 4), end, "B", Fraction(1, 4))


def test_lines_come_end_1_first():
    part = _part(Taper("B", 2, "1/2", run=1), Taper("A", 2, "1/2", run=1), Taper("A", 1, "1/2", run=1), length=20)
    assert [(line.end, line.leg) for line in taper_lines(part)] == [(1, "A"), (2, "A"), (2, "B")]


def test_a_saw_line_that_misses_a_face_has_no_number_there():
    """At 80 degrees the fillet's edge is marked 0.022 from the end, and the saw runs 1/32 outside: beyond the end, off the metal."""
    part = _part(Taper("A", 1, angle=80), section=Section(1, 1, "1/16", fillet="1/16"))
    first_flat, vertex = taper_marks(taper_lines(part)[0], SHOP)[1:]
    assert 0 < first_flat.at < 1 / 32 and first_flat.saw is None and vertex.saw is None
    assert all(mark.saw is None or mark.saw >= 0 for degrees in range(5, 90, 5) for mark in taper_marks(taper_lines(_part(Taper("A", 1, angle=degrees)))[0], SHOP))
