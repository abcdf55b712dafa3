"""What must hold for every part: what is cut off and what is left make the stick; scale, units, turning, longer runs."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from random import Random

import cutters
import oracle_parts
import pytest
import solids
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon

from anglelib.errors import PartError
from anglelib.geometry.allowance import Saw
from anglelib.geometry.along import section_at
from anglelib.geometry.holes import BEVEL, TAPER, EdgeId, edge_distances, largest_run, legal_region, worst_edge
from anglelib.geometry.solid import first_moment_beyond, metal_to_sand, solid_of
from anglelib.geometry.squaring import End
from anglelib.geometry.taper import TaperLine
from anglelib.lengths import millimetres, read
from anglelib.part import Cope, Corner, Hole, Part, Taper

counted = settings(max_examples=40)
seeds = st.integers(0, 10**9)


def part_of(seed: int) -> Part:
    return oracle_parts.part(Random(f"property {seed}"))


def rescaled(part: Part, change) -> Part:
    """The part with every length put through a function of Fractions."""
    section = replace(part.section, **{n: change(getattr(part.section, n)) for n in part.section.__dataclass_fields__})
    tapers = [Taper(t.leg, t.end, change(t.width_left), t.run and change(t.run), t.angle) for t in part.tapers]
    holes = [Hole(h.leg, change(h.x), change(h.y), change(h.diameter), h.flush) for h in part.holes]
    corners = [Corner(c.leg, c.end, change(c.radius)) for c in part.corners]
    copes = [Cope(c.leg, c.end, change(c.length), change(c.width_left), change(c.radius)) for c in part.copes]
    return Part("P1", "Trial", section, part.alloy, change(part.length), tapers, holes, corners, copes)


# --- part and waste -----------------------------------------------------------------------------------------
@counted
@given(seeds)
def test_one_taper_and_what_it_takes_make_the_stick(seed):
    """The wedge that falls off is a first moment times the slope: another integral than the part's own."""
    rng = Random(f"waste {seed}")
    section = oracle_parts.section(rng)
    taper = oracle_parts.taper(rng, section, rng.choice("AB"), rng.choice((1, 2)))
    line = TaperLine.of(section, taper)
    part = Part("P1", "Trial", section, "6061-T6", F(float(line.run)).limit_denominator(64) + 2, tapers=[taper])
    taken = float(line.slope) * first_moment_beyond(section, taper.leg, float(taper.width_left))
    stick = section.area * float(part.length)
    assert solid_of(part).volume + taken == pytest.approx(stick, rel=1e-11)


def test_part_and_everything_cut_off_make_the_stick():
    """The pieces that fall off are cut out of the stick by the kernel; with the library's part they make the stick."""
    for seed in range(40):
        part = part_of(seed)
        length = float(part.length)
        stick = solids.bar(part.section, length, steps=24)
        waste = stick - cutters.finished(part, solids.ON, 24)
        whole = solid_of(part).volume + waste.volume()
        assert whole == pytest.approx(part.section.area * length, rel=4e-3), seed
        assert solid_of(part).volume <= part.section.area * length * (1 + 1e-12)


# --- scale and units ----------------------------------------------------------------------------------------
@counted
@given(seeds, st.fractions(F(1, 4), F(6), max_denominator=12))
def test_a_part_twice_the_size(seed, scale):
    part, k = part_of(seed), float(scale)
    larger = rescaled(part, lambda length: length * scale)
    ours, theirs = solid_of(part), solid_of(larger)
    assert theirs.volume == pytest.approx(k**3 * ours.volume, rel=1e-8)
    assert theirs.centroid == pytest.approx([k * c for c in ours.centroid], rel=1e-8)
    x = 0.37 * float(part.length)
    small, large = section_at(part, x), section_at(larger, k * x)
    assert large.area == pytest.approx(k**2 * small.area, rel=1e-8, abs=1e-12)
    assert large.principal.minor == pytest.approx(k**4 * small.principal.minor, rel=1e-6, abs=1e-12)
    for hole, big in zip(part.holes, larger.holes, strict=True):
        ours, theirs = worst_edge(part, hole), worst_edge(larger, big)
        assert theirs.distance == pytest.approx(k * ours.distance, rel=1e-9, abs=1e-9)
        assert theirs.diameters == pytest.approx(ours.diameters, rel=1e-9, abs=1e-9)
    regions = [Polygon(legal_region(p, "A", d) or [(0, 0)] * 3).area for p, d in ((part, F(1, 16)), (larger, scale / 16))]
    assert regions[1] == pytest.approx(k**2 * regions[0], rel=1e-6, abs=1e-9)
    assert End(1, -2).trim(larger.section) == pytest.approx(k * End(1, -2).trim(part.section))


@counted
@given(seeds)
def test_the_same_drawing_in_millimetres_is_the_same_part(seed):
    """Every length typed in millimetres and read again: 1/64 in. is 0.396875 mm, so six places lose nothing."""
    part = part_of(seed)
    whole = rescaled(part, lambda length: F(round(length * 64), 64))
    typed = rescaled(whole, lambda length: read(f"{millimetres(length, 6)} mm"))
    assert typed == whole and solid_of(typed) == solid_of(whole)


def test_a_saw_measured_in_other_units():
    inch, mm = Saw(0.01, 0.2, 2.0, 0.4), Saw(0.254, 0.2, 50.8, 0.4)
    assert mm.risk(0.02 * 25.4) == pytest.approx(inch.risk(0.02), rel=1e-9)
    assert mm.least_allowance(0.01) == pytest.approx(25.4 * inch.least_allowance(0.01), rel=1e-7)


# --- the same metal, described another way ------------------------------------------------------------------
@counted
@given(seeds)
def test_turned_end_for_end_the_metal_is_the_same(seed):
    part = part_of(seed)
    if not part.section.equal_legs:
        return
    turned, length = part.turned(), float(part.length)
    ours, theirs = solid_of(part), solid_of(turned)
    x, y, z = ours.centroid
    assert theirs.volume == pytest.approx(ours.volume, rel=1e-8)
    assert theirs.centroid == pytest.approx((length - x, z, y), rel=1e-7)
    at = 0.41 * length
    here, there = section_at(part, at), section_at(turned, length - at)
    assert there.area == pytest.approx(here.area, rel=1e-8, abs=1e-12)
    assert there.least_gyration == pytest.approx(here.least_gyration, rel=1e-6, abs=1e-9)
    assert sorted(worst_edge(turned, h).distance for h in turned.holes) == pytest.approx(
        sorted(worst_edge(part, h).distance for h in part.holes), abs=1e-9
    )


# --- a longer run -------------------------------------------------------------------------------------------
@settings(counted, max_examples=20)
@given(seeds, st.integers(1, 64))
def test_a_longer_run_takes_more_metal_and_edge(seed, more):
    rng = Random(f"run {seed}")
    section = oracle_parts.section(rng)
    leg, end = rng.choice("AB"), rng.choice((1, 2))
    left = F(rng.randint(0, int(section.leg(leg) * 32)), 64)
    length = F(8)
    holes = [h for _ in range(4) if (h := oracle_parts.hole(rng, section, length, rng.choice("AB")))]
    run = F(rng.randint(16, 256), 64)
    short, long = (
        Part("P1", "Trial", section, "6061-T6", length, tapers=[Taper(leg, end, left, run=r)], holes=holes)
        for r in (run, run + F(more, 64))
    )
    assert solid_of(long).volume < solid_of(short).volume
    for x in (0.5, 2.0, 7.6):
        assert section_at(long, x).area <= section_at(short, x).area + 1e-12
    for hole in holes:
        for edge, nearer in zip(_by_name(short, hole), _by_name(long, hole), strict=True):
            assert edge[0] == nearer[0] and nearer[1] <= edge[1] + 1e-12
    lines = [TaperLine.of(section, part.tapers[0]) for part in (short, long)]
    assert metal_to_sand(lines[0], F(1, 64)) < metal_to_sand(lines[1], F(1, 64))


def _by_name(part: Part, hole: Hole) -> list[tuple[EdgeId, float]]:
    return sorted((edge.to, edge.distance) for edge in edge_distances(part, hole))


@counted
@given(seeds)
def test_the_longest_run_is_kept_and_a_longer_one_is_not(seed):
    rng = Random(f"longest {seed}")
    section = replace(oracle_parts.section(rng), heel_radius=F(0))
    leg = rng.choice("AB")
    holes = [h for _ in range(3) if (h := oracle_parts.hole(rng, section, F(8), rng.choice("AB")))]
    taper = Taper(leg, rng.choice((1, 2)), F(rng.randint(0, int(section.leg(leg) * 32)), 64), run=1)
    part = Part("P1", "Trial", section, "6061-T6", 8, tapers=[taper], holes=holes)
    try:
        run = largest_run(part, TaperLine.of(section, taper))
    except PartError:
        return
    if run is None:
        return

    def short_at(length: float) -> float:
        trial = replace(part, tapers=[replace(taper, run=F(length).limit_denominator(10**9))])
        edges = [e for hole in holes for e in edge_distances(trial, hole) if e.to.kind in (TAPER, BEVEL)]
        return max((e.short_by for e in edges), default=0.0)

    assert short_at(run * (1 - 1e-6)) <= 1e-7
    # A hole that lacks edge to the toe as well may have more left to the taper's end than the line allows.
    if all(section.leg(h.leg) - h.y >= 2 * h.diameter for h in holes):
        assert short_at(run * 1.01) > 0
