"""Every mark of a taper, measured on the sawn solid.

The plane goes through three points on the metal and the kernel does the cutting; the mark is where
the corner lines of the stock begin afterwards. The library's rule, x = (y - s) c, is not used.
"""

from __future__ import annotations

from fractions import Fraction as F
from math import atan2, dist, pi
from random import Random

import oracle_parts
import pytest
import solids

from anglelib.geometry.taper import TaperLine
from anglelib.part import Taper
from anglelib.section import Section, other_leg

STEPS = 12
EXACT = 1e-8  # what the kernel's rounding leaves, in inches

EQUAL = Section("1 1/2", "1 1/2", "1/8", fillet="3/16")
ROUND_TOES = Section("1 1/2", "1 1/2", "1/8", fillet="3/16", toe_radius="1/8")
UNEQUAL = Section(2, "1 1/4", "3/16", "1/8", fillet="1/4", toe_radius="1/16", heel_radius="1/32")
SHARP = Section("3/4", 1, "1/8", "3/32")
TIGHT = Section("3/4", "3/4", "1/8", fillet="1/2", toe_radius="1/8")  # fillet and toe leave no flat at all

LEFT = {"vertex": F(0), "other-leg": F(1, 16), "fillet": F(3, 16), "flat": F(1, 2)}


def sawn(section: Section, taper: Taper, metal: str = solids.ON, moved: float = 0.0):
    """The cut stick, its saw and its length: long enough that the line reaches the toe."""
    line = TaperLine.of(section, taper)
    length = float(line.run) + 4.0
    saw = solids.taper_saw(section, length, taper).moved_into_waste(moved)
    return saw.cut(solids.bar(section, length, metal, STEPS)), saw, length


def check_marks(section: Section, taper: Taper) -> int:
    """Compare every mark of the line with the solid; how many corner lines were compared."""
    line = TaperLine.of(section, taper)
    solid, _, length = sawn(section, taper)
    leg, other = taper.leg, other_leg(taper.leg)
    own, root = float(section.thickness(leg)), float(section.thickness(other))
    fillet, toe = float(section.fillet), float(section.toe_radius)
    width, height = float(section.leg(leg)), float(section.leg(other))

    def measured(along: float, through: float) -> float:
        _, y, z = solids.place(leg, 0.0, along, through)
        found = solids.starts_at(solid, length, taper.end, y, z)
        assert found is not None, f"no corner of the solid at {along}, {through}"
        return found

    def mark(value) -> float:
        return 0.0 if value is None else float(value)

    where = f"{section}, {taper}"
    compared = {
        "run": (line.run, measured(width, 0.0)),
        "last flat": (line.last_flat, measured(width - toe, own)),
        "first flat": (line.first_flat, measured(root + fillet, own)),
        "vertex projection": (line.vertex_projection, measured(root, own + fillet)),
        "vertex projection at the toe": (line.vertex_projection, measured(root, height - toe)),
        "bevel": (line.bevel_length, measured(root, own + fillet)),
    }
    for name, (expected, found) in compared.items():
        assert mark(expected) == pytest.approx(found, abs=EXACT), f"{name}: {where}"
    # The fillet, corner by corner: u is read off the solid with a protractor at the fillet's centre.
    for i in range(STEPS + 1) if fillet else ():
        angle = i * (pi / 2) / STEPS
        corner = next(
            (a, t)
            for a, t in _corners_on_leg(section, leg)
            if abs(atan2(root + fillet - a, own + fillet - t) - angle) < 1e-9
            and abs(dist((a, t), (root + fillet, own + fillet)) - fillet) < 1e-9
        )
        expected = max(0.0, line.in_fillet(fillet * angle))
        assert expected == pytest.approx(measured(*corner), abs=EXACT), f"fillet at {angle}: {where}"
    return len(compared) + (STEPS + 1 if fillet else 0)


def _corners_on_leg(section: Section, leg: str):
    for y, z in solids.outline(section, solids.ON, STEPS):
        yield (y, z) if leg == "A" else (z, y)


@pytest.mark.parametrize("ends_in", LEFT)
@pytest.mark.parametrize("slope", [{"run": "2 1/8"}, {"angle": "45"}, {"angle": "10"}, {"angle": "80"}], ids=str)
@pytest.mark.parametrize("end", [1, 2])
@pytest.mark.parametrize("leg", ["A", "B"])
def test_every_mark_lies_where_the_saw_leaves_the_metal(leg, end, slope, ends_in):
    for section in (EQUAL, ROUND_TOES, UNEQUAL):
        taper = Taper(leg, end, LEFT[ends_in], **slope)
        assert TaperLine.of(section, taper).ends_in == ends_in
        assert check_marks(section, taper) == 6 + STEPS + 1


def test_a_sharp_inside_corner_has_one_mark_for_both_leg_and_flat():
    line = TaperLine.of(SHARP, Taper("A", 1, run=2))
    assert line.first_flat == line.vertex_projection == line.in_fillet(0.0)
    for leg in "AB":
        assert check_marks(SHARP, Taper(leg, 1, run=2)) == 6


def test_fillet_and_toe_may_take_the_whole_flat():
    line = TaperLine.of(TIGHT, Taper("A", 1, angle="30"))
    assert line.first_flat == line.last_flat
    assert check_marks(TIGHT, Taper("A", 1, angle="30")) == 6 + STEPS + 1


@pytest.mark.parametrize("left", LEFT.values(), ids=LEFT)
def test_the_line_between_the_corners_is_found_by_a_probe(left):
    """A ray along the stock, at heights where the solid has no corner: outer face, flat, other leg."""
    taper = Taper("A", 1, left, run="2 1/8")
    line = TaperLine.of(EQUAL, taper)
    solid, _, length = sawn(EQUAL, taper)
    for y, z in [(0.7, 1e-9), (1.1, 1e-9), (0.9, 0.125 - 1e-9), (1.4, 0.0625), (0.03, 0.9), (0.1, 1.2)]:
        hits = solid.ray_cast((-1.0, y, z), (length + 1.0, y, z))
        found = min(hit.position[0] for hit in hits)
        assert max(0.0, float(line.at(y))) == pytest.approx(found, abs=1e-7), (y, z)


@pytest.mark.parametrize("leg", ["A", "B"])
@pytest.mark.parametrize("left", LEFT.values(), ids=LEFT)
def test_edge_and_bevel_are_as_long_as_on_the_solid(left, leg):
    for section in (EQUAL, UNEQUAL, SHARP):
        taper = Taper(leg, 1, left, angle="25")
        line = TaperLine.of(section, taper)
        solid, saw, _ = sawn(section, taper)
        corners = solids.vertices(solid)
        in_plane = corners[saw.holds(corners)]
        along, through = (1, 2) if leg == "A" else (2, 1)
        outer = in_plane[(in_plane[:, through] < 1e-9) & (in_plane[:, along] > float(section.heel_radius) - 1e-9)]
        if left > section.heel_radius:
            low, high = outer[outer[:, along].argmin()], outer[outer[:, along].argmax()]
            assert line.edge_length == pytest.approx(dist(low, high), abs=EXACT)
        elif section.heel_radius == 0:  # from the vertex itself
            assert line.edge_length == pytest.approx(dist((0, 0, 0), outer[outer[:, along].argmax()]), abs=EXACT)
        top = float(section.leg(line.other) - section.toe_radius)
        bevel = in_plane[(in_plane[:, through] > top - 1e-9) & (in_plane[:, through] < top + 1e-9)]
        if line.vertex_projection is None:
            assert line.bevel_face == 0 and not (bevel[:, 0] > EXACT).any()
        else:
            # From the end face (height s) to leg B's inner face, square across the bevel.
            inner = bevel[bevel[:, along].argmax()]
            assert line.bevel_face == pytest.approx(dist((0.0, float(left)), (inner[0], inner[along])), abs=EXACT)


@pytest.mark.parametrize("allowance", [F(1, 32), F(3, 32), F(5, 32)])
@pytest.mark.parametrize("leg", ["A", "B"])
@pytest.mark.parametrize("angle", ["10", "30", "45", "75"])
def test_the_saw_line_leaves_its_allowance_everywhere(angle, leg, allowance):
    """The plane itself is moved off the finished face; where it crosses the stock is read off the solid."""
    for section, left in ((EQUAL, F(0)), (EQUAL, F(1, 16)), (UNEQUAL, F(3, 8))):
        taper = Taper(leg, 1, left, angle=angle)
        line = TaperLine.of(section, taper).offset(allowance)
        solid, saw, length = sawn(section, taper, moved=float(allowance))
        width, own = float(section.leg(leg)), float(section.thickness(leg))
        root, fillet = float(line.line.other_thickness), float(section.fillet)

        def measured(along, through, solid=solid, length=length, leg=leg):
            _, y, z = solids.place(leg, 0.0, along, through)
            return solids.starts_at(solid, length, 1, y, z)

        assert max(0.0, line.toe) == pytest.approx(measured(width, 0.0), abs=EXACT)
        assert (line.vertex_projection or 0.0) == pytest.approx(measured(root, own + fillet), abs=EXACT)
        # On the end, the line is where the sawn face meets the end face, outside.
        corners = solids.vertices(solid)
        along, through = (1, 2) if leg == "A" else (2, 1)
        on_end = corners[saw.holds(corners) & (corners[:, 0] < 1e-9) & (corners[:, through] < 1e-9)]
        if line.end_height < width:
            assert on_end[:, along].min() == pytest.approx(line.end_height, abs=EXACT)
        else:
            assert not len(on_end)


@pytest.mark.parametrize("leg", ["A", "B"])
def test_a_hole_is_as_far_from_the_tapered_edge_as_on_the_solid(leg):
    """Clearance is the distance to the sawn face: a pin at the hole touches it when moved that far."""
    taper = Taper(leg, 1, "1/4", angle="20")
    line = TaperLine.of(UNEQUAL, taper)
    saw = solids.taper_saw(UNEQUAL, 9.0, taper)
    for x, y in ((3.0, 0.5), (2.0, 1.0), (0.5, 1.0), (4.0, 1.2)):
        from_plane = saw.normal @ solids.place(leg, x, y, 0.0) - saw.offset
        assert line.clearance(x, y) == pytest.approx(from_plane, abs=EXACT)


def _fuzz(first: int, last: int) -> None:
    for seed in range(first, last):
        rng = Random(f"marks {seed}")
        section = oracle_parts.section(rng)
        taper = oracle_parts.taper(rng, section, rng.choice("AB"), rng.choice((1, 2)))
        try:
            assert check_marks(section, taper) >= 6
        except AssertionError as error:
            raise AssertionError(f"seed {seed}: {error}") from None


@pytest.mark.parametrize("block", range(5))
def test_marks_of_random_tapers(block):
    _fuzz(100 * block, 100 * (block + 1))


@pytest.mark.slow
@pytest.mark.parametrize("block", range(45))
def test_marks_of_five_thousand_random_tapers(block):
    _fuzz(500 + 100 * block, 600 + 100 * block)
