"""What must hold for every part and every taper: turned, mirrored, rescaled, in other units."""

from __future__ import annotations

from fractions import Fraction as F

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from anglelib.errors import PartError
from anglelib.geometry.rounding import rounded_corners
from anglelib.geometry.solid import solid_of
from anglelib.geometry.taper import TaperLine
from anglelib.lengths import MM, millimetres, read
from anglelib.part import Corner, Hole, Part, Taper
from anglelib.section import Section, other_leg

counted = settings(max_examples=100)


def sixty_fourths(low: int, high: int) -> st.SearchStrategy[F]:
    return st.integers(low, high).map(lambda n: F(n, 64))


@st.composite
def sections(draw) -> Section:
    ta, tb = draw(sixty_fourths(4, 16)), draw(sixty_fourths(4, 16))
    a, b = draw(sixty_fourths(48, 160)), draw(sixty_fourths(48, 160))
    if draw(st.booleans()):
        b, tb = a, ta
    toe = draw(sixty_fourths(0, int(min(ta, tb) * 64)))
    fillet = draw(sixty_fourths(0, min(20, int((min(a - tb, b - ta) - toe) * 64))))
    return Section(a, b, ta, tb, fillet=fillet, toe_radius=toe, heel_radius=draw(sixty_fourths(0, 4)))


@st.composite
def tapers(draw, section: Section, leg: str, end: int) -> Taper:
    left = draw(sixty_fourths(0, int(section.leg(leg) * 64) - 1))
    if draw(st.booleans()):
        return Taper(leg, end, left, run=draw(sixty_fourths(8, 400)))
    return Taper(leg, end, left, angle=F(draw(st.integers(300, 8700)), 100))


@st.composite
def parts(draw) -> Part:
    section = draw(sections())
    length = draw(sixty_fourths(128, 1000))
    places = draw(st.lists(st.sampled_from([(leg, end) for leg in "AB" for end in (1, 2)]), unique=True, max_size=4))
    corners = draw(st.lists(st.sampled_from([(leg, end) for leg in "AB" for end in (1, 2)]), unique=True, max_size=2))
    holes = []
    for leg in draw(st.lists(st.sampled_from("AB"), max_size=3)):
        low = int((section.thickness(other_leg(leg)) + F(1, 16)) * 64) + 1
        high = int((section.leg(leg) - F(1, 16)) * 64)
        holes.append(Hole(leg, draw(sixty_fourths(8, int(length * 64) - 8)), draw(sixty_fourths(low, high)), "1/8"))
    return Part(
        "P1",
        "Trial",
        section,
        "6061-T6",
        length,
        tapers=[draw(tapers(section, leg, end)) for leg, end in places],
        holes=holes,
        corners=[Corner(leg, end, "1/16") for leg, end in corners],
    )


@st.composite
def lines(draw, runs: bool = True) -> TaperLine:
    section = draw(sections())
    taper = draw(tapers(section, draw(st.sampled_from("AB")), 1))
    assume(not runs or taper.run is not None)
    return TaperLine.of(section, taper)


MARKS = ("run", "vertex_projection", "first_flat", "last_flat")


def marks(line: TaperLine) -> list:
    return [getattr(line, name) for name in MARKS]


def lengths(line: TaperLine) -> dict[str, F]:
    """Everything that a drawing of a tapered stick states, by name."""
    section = {name: getattr(line.section, name) for name in Section.__dataclass_fields__}
    return {**section, "left": line.width_left, "run": line.run}


def drawn(line: TaperLine, stated: dict) -> TaperLine:
    """The line of a drawing that states other lengths for the same taper."""
    section = Section(*(stated[name] for name in Section.__dataclass_fields__))
    return TaperLine.of(section, Taper(line.leg, 1, stated["left"], run=stated["run"]))


# --- the same part described another way --------------------------------------------------------------
@counted
@given(parts())
def test_mirrored_twice_is_the_part_itself(part):
    twice = part.mirrored().mirrored()
    assert twice.same_metal_as(part) and part.same_metal_as(twice)
    for field in ("tapers", "holes", "corners"):
        assert sorted(map(repr, getattr(twice, field))) == sorted(map(repr, getattr(part, field)))


@counted
@given(parts())
def test_turned_twice_is_the_part_itself(part):
    assume(part.section.equal_legs)
    twice = part.turned().turned()
    assert sorted(map(repr, twice.holes)) == sorted(map(repr, part.holes))
    assert sorted(map(repr, twice.tapers)) == sorted(map(repr, part.tapers))
    assert part.same_metal_as(part.turned()) and part.turned().handed is part.handed


@counted
@given(parts())
def test_mirror_and_turn_may_be_done_in_either_order(part):
    assume(part.section.equal_legs)
    assert part.mirrored().turned().same_metal_as(part.turned().mirrored())


@counted
@given(parts())
def test_hand_is_a_property_of_the_metal(part):
    assert part.handed == part.mirrored().handed
    assert part.mirrors(part.mirrored()) and part.mirrors(part) is not part.handed


@settings(counted, max_examples=40)
@given(parts())
def test_mirror_images_weigh_the_same_and_balance_as_mirror_images(part):
    assume(_fits(part))
    ours, theirs = solid_of(part), solid_of(part.mirrored())
    # Holes of both legs that meet in the fillet are known to about 1e-8.
    assert theirs.volume == pytest.approx(ours.volume, rel=1e-7)
    x, y, z = ours.centroid
    expected = (x, z, y) if part.section.equal_legs else (float(part.length) - x, y, z)
    assert theirs.centroid == pytest.approx(expected, rel=1e-7)


def _fits(part: Part) -> bool:
    """Whether the rounded corners have room on their edges: else there is no such solid."""
    try:
        return bool(rounded_corners(part)) or not part.corners
    except PartError:
        return False


# --- units and scale --------------------------------------------------------------------------------------
@counted
@given(lines())
def test_inch_and_millimetre_agree_exactly(line):
    """The same drawing in millimetres: every length is typed as text and read again."""
    typed = {name: f"{millimetres(value, 6)} mm" for name, value in lengths(line).items()}
    assert {name: read(text) for name, text in typed.items()} == lengths(line)  # 1/64 in. is 0.396875 mm: six places do
    again = drawn(line, typed)
    assert marks(again) == marks(line) and again.angle == line.angle


@counted
@given(lines(), st.fractions(F(1, 8), F(8), max_denominator=50))
def test_a_part_twice_the_size_has_marks_twice_as_far(line, scale):
    larger = drawn(line, {name: value * scale for name, value in lengths(line).items()})
    assert marks(larger) == [None if mark is None else mark * scale for mark in marks(line)]
    assert larger.angle == pytest.approx(line.angle, rel=1e-12)
    assert larger.edge_length == pytest.approx(float(scale) * line.edge_length, rel=1e-9)
    assert larger.straight_wrap_error == pytest.approx(float(scale) * line.straight_wrap_error, rel=1e-9, abs=1e-15)


@counted
@given(sections(), st.fractions(F(1, 8), F(8), max_denominator=50))
def test_a_section_twice_the_size(section, scale):
    larger = Section(*(scale * getattr(section, name) for name in Section.__dataclass_fields__))
    factor = float(scale)
    assert larger.area == pytest.approx(factor**2 * section.area, rel=1e-12)
    assert larger.perimeter == pytest.approx(factor * section.perimeter, rel=1e-12)
    assert larger.principal.minor == pytest.approx(factor**4 * section.principal.minor, rel=1e-9)
    assert larger.least_gyration == pytest.approx(factor * section.least_gyration, rel=1e-9)


@counted
@given(sections())
def test_a_section_with_its_legs_exchanged(section):
    other = section.swapped()
    assert other.swapped() == section and other.area == pytest.approx(section.area, rel=1e-13)
    assert other.centroid == pytest.approx(section.centroid[::-1], rel=1e-12)
    yy, zz, yz = section.second_moments
    assert other.second_moments == pytest.approx((zz, yy, yz), rel=1e-9)
    assert other.principal[:2] == pytest.approx(section.principal[:2], rel=1e-9)
    assert (other.principal.angle + section.principal.angle) % 180 == pytest.approx(90, abs=1e-6)


# --- run and angle ----------------------------------------------------------------------------------------
@counted
@given(lines(), sixty_fourths(1, 200))
def test_a_longer_run_moves_every_mark_away_from_the_end(line, more):
    longer = TaperLine.of(line.section, Taper(line.leg, 1, line.width_left, run=line.run + more))
    assert longer.angle < line.angle
    for near, far in zip(marks(line), marks(longer), strict=True):
        assert (near is None) is (far is None)
        if near is not None:
            assert far > near or far == near == 0


@counted
@given(lines(), sixty_fourths(1, 32))
def test_more_width_left_moves_every_mark_towards_the_end(line, more):
    assume(line.width_left + more < line.width)
    other = TaperLine.of(line.section, Taper(line.leg, 1, line.width_left + more, run=line.run))
    moved = {"vertex_projection", "first_flat"} | ({"last_flat"} if line.section.toe_radius else set())
    for name in moved:  # the mark on the toe is the run itself, and stays
        far, near = getattr(line, name), getattr(other, name)
        if near is not None and far is not None:
            assert near < far
    assert other.run == line.run


@counted
@given(lines())
def test_marks_from_the_run_equal_marks_from_its_angle(line):
    by_angle = TaperLine.of(line.section, Taper(line.leg, 1, line.width_left, angle=F(line.angle)))
    for exact, rounded in zip(marks(line), marks(by_angle), strict=True):
        assert (exact is None) is (rounded is None)
        if exact is not None:
            assert type(exact) is F and rounded == pytest.approx(float(exact), rel=1e-11, abs=1e-12)


@counted
@given(lines(runs=False))
def test_marks_come_in_the_order_of_their_heights(line):
    found = [mark for mark in (line.vertex_projection, line.first_flat, line.last_flat, line.run) if mark is not None]
    assert found == sorted(found) and all(mark >= 0 for mark in found)


@counted
@given(lines(runs=False), sixty_fourths(0, 16))
def test_the_saw_line_lies_outside_the_finished_line_by_the_allowance(line, allowance):
    saw = line.offset(allowance)
    assert saw.toe <= float(line.run) and saw.end_height >= float(line.width_left)
    # Straight across between the two lines, measured from two marks of the saw line.
    for x, y in ((saw.toe, line.width), (0.0, saw.end_height)):
        assert -line.clearance(x, y) == pytest.approx(float(allowance), abs=1e-9)


def test_an_inch_is_25_4_mm():
    assert F(254, 10) * MM == 1
