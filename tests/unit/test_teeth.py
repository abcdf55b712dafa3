"""Teeth in the metal, counted: a blade's teeth laid over it from many starts; and the leg that stands, sawn on a solid."""

from __future__ import annotations

from statistics import fmean

import pytest

from anglelib.geometry.setup import inside_up, outside_up, square_cut, taper_cut
from anglelib.geometry.taper import TaperLine
from anglelib.geometry.teeth import BLADES, GOOD_IN_METAL, MOST_IN_METAL, TEETH_IN_METAL, teeth_for, teeth_of
from anglelib.part import Taper
from anglelib.section import Section


def counted(metal: float, teeth: float) -> float:
    """Teeth in the metal on average: a blade's teeth laid over it from many starts, and counted."""
    counts = [sum(0 <= (i + start / 997) / teeth < metal for i in range(-1, 90)) for start in range(997)]
    return fmean(counts)


# NAVEDTRA 14119 (chapter 5) and Army PS 671: two at least, at all times; trade guides to blades: three to 24.
@pytest.mark.parametrize("standing", [0, 3 / 4, 1, 1.25, 1.5, 2, 3])
@pytest.mark.parametrize("metal", [1 / 16, 3 / 32, 1 / 8, 0.1768, 3 / 16, 1 / 4])
def test_every_blade_that_is_named_keeps_its_teeth_in_the_thin_metal_and_its_gullets_clear_in_the_high(metal, standing):
    found = teeth_for(metal, standing)
    for blade in found.sold:
        assert blade in BLADES
        assert counted(metal, blade) > TEETH_IN_METAL - 0.02
        assert counted(standing, blade) < MOST_IN_METAL + 0.02
    if not found.sold:  # then none of those that are sold does both
        for blade in BLADES:
            assert counted(metal, blade) < TEETH_IN_METAL or (standing and counted(standing, blade) > MOST_IN_METAL)
        assert "slowly" in found.words
    elif any(counted(metal, b) >= GOOD_IN_METAL and counted(standing, b) <= MOST_IN_METAL for b in BLADES):
        assert all(counted(metal, blade) > GOOD_IN_METAL - 0.02 for blade in found.sold)


def test_nothing_is_fine_enough_and_nothing_does_both():
    assert teeth_for(0.01).sold == () and teeth_for(0.01).least_sold == 32 and teeth_for(0.01).words == "32, fed slowly"
    # a 2 in. leg that stands bears 12 to the inch, a leg of 1/8 asks for 16: the floor comes first
    assert teeth_for(1 / 8, 2).sold == () and teeth_for(1 / 8, 2).words == "18, fed slowly"
    assert teeth_for(1 / 4).words == "14 or 18"


def test_a_leg_stands_in_the_cut_only_where_the_cut_reaches_it():
    """A blade at a place along the cut, as a plumb line through the section: the most metal that it ever meets."""
    shapely = pytest.importorskip("shapely", reason="shapely is an oracle of the tests: pip install -r tests/requirements.txt")
    section = Section("1 1/4", 1, "1/8", fillet="1/8")
    shape = shapely.box(0, 0, 1.25, 0.125).union(shapely.box(0, 0, 0.125, 1))
    for left, stands in ((0, True), ("1/16", True), ("1/8", False), ("3/8", False)):
        line = TaperLine.of(section, Taper("A", 1, left, run=2))
        places = [float(line.width_left) + i / 500 * (1.25 - float(line.width_left)) for i in range(500)]
        most = max(shape.intersection(shapely.LineString([(y + 1e-6, -9), (y + 1e-6, 9)])).length for y in places)
        for setup in (inside_up(line), outside_up(line)):
            assert float(setup.standing) == pytest.approx(most if stands else 0)
        assert (teeth_of(taper_cut(line)).most is not None) == stands
    assert square_cut(section).standing == 0
