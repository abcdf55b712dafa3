"""Edge distance and pitch of rivets.

Source: US Army subcourse AL0992, Basic Airframe Repair (1994), "Rivet Spacing and Edge Distance": at
least 2 diameters from the edge, 2 1/2 for flush heads, never more than 4; spacing 3 to 10 diameters,
usually 6 to 8. Status: seen. NAVEDTRA 14018, ch. 13, "Spacing and Edge Distance": spacing never under 3 diameters, edge
distance from the rivet's centre. Status: seen. AC 43.13-1B 4-57b asks that its minimums be kept (seen); its numbers, in
4-57c, are second-hand. Edge distance runs from the hole's centre.
"""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from anglelib.geometry.fasteners import PITCH, close, pitches
from anglelib.geometry.hole_words import verdict_words
from anglelib.geometry.holes import FLUSH, KEPT, PLAIN, SHORT, TOE, EdgeId, least_edge, worst_edge
from anglelib.part import Hole, Part
from anglelib.section import Section

STOCK = Section("1 1/2", "1 1/2", "1/8", fillet="1/8")
SIZES = [F(3, 32), F(1, 8), F(5, 32), F(3, 16)]


def with_hole(x, y, diameter, flush=False) -> Part:
    return Part("P1", "Trial", STOCK, "6061-T6", 6, holes=[Hole("A", x, y, diameter, flush)])


def test_the_rule_in_diameters():
    assert (PLAIN, FLUSH, PITCH) == (2, F(5, 2), 3)


@pytest.mark.parametrize("diameter", SIZES, ids=str)
@pytest.mark.parametrize("flush, diameters", [(False, F(2)), (True, F(5, 2))])
def test_just_kept_and_just_short(diameter, flush, diameters):
    least = diameters * diameter
    kept = with_hole(3, F(3, 2) - least, diameter, flush)
    assert least_edge(kept.holes[0]) == least
    worst = worst_edge(kept, kept.holes[0])
    assert worst.outcome == KEPT and verdict_words(worst) == f"edge kept, {float(diameters):.2f} diameters"
    short = with_hole(3, F(3, 2) - least + F(1, 64), diameter, flush)
    worst = worst_edge(short, short.holes[0])
    assert worst.to == EdgeId(TOE) and worst.outcome == SHORT and verdict_words(worst).startswith("EDGE SHORT by 1/64")


def test_one_and_a_half_diameters_is_the_metal_beyond_the_hole():
    """A trap: measured from the hole's edge the same 2 D reads 1.5 D. The library measures from the centre."""
    part = with_hole(3, F(3, 2) - F(1, 4), F(1, 8))
    worst = worst_edge(part, part.holes[0])
    assert worst.diameters == 2.0
    assert worst.distance - 1 / 16 == 1.5 / 8


def test_edge_for_plain_heads_is_short_for_flush_ones():
    part = with_hole(3, F(3, 2) - F(1, 4), F(1, 8), flush=True)
    worst = worst_edge(part, part.holes[0])
    assert worst.margin == -1 / 16 and verdict_words(worst) == "EDGE SHORT by 1/16 (2.00 diameters)"


def test_pitch_in_diameters():
    row = Part("P1", "Row", STOCK, "6061-T6", 6, holes=[Hole("A", x, "3/4", "1/8") for x in (1, "1 3/8", "2 5/8")])
    assert [pitch for _, _, pitch in pitches(row, "A")] == [3.0, 10.0] and close(row) == ()
    nearer = Part("P1", "Row", STOCK, "6061-T6", 6, holes=[Hole("A", x, "3/4", "1/8") for x in (1, "1 23/64", "2 5/8")])
    assert [pitch for _, _, pitch in close(nearer)] == [2.875]
