"""Fasteners beside one another and across the heel: distances by hand on small numbers, drills by the tables of number drills."""

from __future__ import annotations

from fractions import Fraction as F
from math import hypot

import pytest

from anglelib.geometry.fasteners import DRILLS, close, drill_for, facing, head_clear, near_pairs, on_fillet, pitches, rivet_length
from anglelib.part import Hole, Part
from anglelib.section import Section

STOCK = Section("1 1/2", "1 1/2", "1/8", "3/16", fillet="1/4")
"""Leg A 1/8 thick, leg B 3/16."""


def made(*holes) -> Part:
    return Part("P1", "Trial", STOCK, "6061-T6", 6, holes=[Hole(*hole) for hole in holes])


def numbers(part, found):
    place = {id(hole): n for n, hole in enumerate(part.holes, 1)}
    return [(place[id(one)], place[id(two)], round(pitch, 6)) for one, two, pitch in found]


def test_neighbours_are_those_between_whom_no_third_stands():
    """A 3-4-5 triangle of holes, 3/16 and 1/8 thick: of its three sides the longest has a third hole nearer to both ends, so it is no pitch."""
    part = made(("A", 1, "1/2", "1/8"), ("A", 4, "1/2", "3/16"), ("A", 4, "1 1/4", "1/8"), ("B", 2, 1, "1/8"))
    assert numbers(part, pitches(part, "A")) == [(1, 2, 3 / (3 / 16)), (2, 3, 0.75 / (3 / 16))]
    assert pitches(part, "B") == ()
    alike = made(("A", 1, 1, "1/8"), ("A", 2, 1, "1/8"), ("A", 3, 1, "1/8"))
    assert numbers(alike, pitches(alike, "A")) == [(1, 2, 8), (2, 3, 8)]


def test_a_pitch_of_three_diameters_is_kept_and_less_is_close():
    """Three diameters of the larger of two, 3/16: 9/16; also across the leg; of one leg alone."""
    for second, is_close in ((("A", "1 9/16", 1, "3/16"), False), (("A", "1 35/64", 1, "3/16"), True), (("A", "1 3/8", "1 13/32", "3/16"), True), (("B", "1 1/4", 1, "3/16"), False)):
        part = made(("A", 1, 1, "1/8"), second)
        assert bool(close(part)) is is_close, second
        if is_close:
            (one, two, pitch) = close(part)[0]
            assert pitch == pytest.approx(hypot(float(two.x - one.x), float(two.y - one.y)) / (3 / 16))


def test_pairs_within_reach_along_the_heel():
    """Every pair of a leg so near along x, by the largest hole of that leg; each once, the earlier number first."""
    part = made(("A", 3, 1, "1/8"), ("A", 1, 1, "3/16"), ("B", 1, 1, "1/8"), ("A", "1 3/16", "1/2", "1/8"), ("B", "1 1/8", "3/4", "1/8"))
    assert near_pairs(part, F(1)) == [(1, 3), (2, 4)]  # 3/16 apart in leg A, 1/8 in leg B: just within one diameter
    assert near_pairs(part, F(99, 100)) == [] and near_pairs(part, F(100)) == [(1, 3), (0, 1), (0, 3), (2, 4)]
    assert near_pairs(made(), F(3)) == []


def test_a_head_clears_the_fillet():
    """A universal head is two diameters wide: its edge, one diameter from the centre, at the end of the fillet."""
    assert head_clear(STOCK, "A", F(1, 8)) == F(3, 16) + F(1, 4) + F(1, 8) and head_clear(STOCK, "B", F(1, 8)) == F(1, 8) + F(1, 4) + F(1, 8)
    part = made(("A", 1, "1/2", "1/8"), ("A", 3, "9/16", "1/8"))
    assert [on_fillet(part, hole) for hole in part.holes] == [F(1, 16), 0]


HEAD, TAIL = 1 / 8, 1 / 16
"""Of a rivet of 1/8: half a head, and how high its driven tail stands."""
FACING = [  # hole in A, hole in B, the room between the head of one and the tail of the other, along each leg
    (("A", 3, 1, "1/8"), ("B", 3, 1, "1/8"), hypot(1 - HEAD - 3 / 16 - TAIL, 1 - HEAD - 1 / 8 - TAIL)),
    (("A", 3, "3/4", "1/8"), ("B", "3 15/64", 1, "1/8"), hypot(0.75 - HEAD - 3 / 16 - TAIL, 1 - HEAD - 1 / 8 - TAIL)),
    (("A", 3, "3/8", "1/8"), ("B", 3, 1, "1/8"), 1 - HEAD - 1 / 8 - TAIL),  # just no room across: what there is along leg B counts
    (("A", 3, "5/16", "1/8"), ("B", 3, "1/4", "1/8"), 0.25 - HEAD - 1 / 8 - TAIL),  # -1/16 both ways: they collide
    (("A", 3, "1/4", "1/8"), ("B", 3, "5/16", "1/8"), 0.0),
    (("A", 3, 1, "3/16"), ("B", 3, "3/4", "1/8"), hypot(1 - 3 / 16 - 3 / 16 - TAIL, 0.75 - HEAD - 1 / 8 - 3 / 32)),  # each its own head and tail
]  # fmt: skip


@pytest.mark.parametrize(("on_a", "on_b", "room"), FACING)
def test_the_room_between_heads_that_face_each_other(on_a, on_b, room):
    for part in (made(on_a, on_b), made(on_b, on_a)):
        (found,) = facing(part)
        assert found.room == pytest.approx(room) and (found.on_a.leg, found.on_b.leg) == ("A", "B")


def test_who_does_not_face_anybody():
    """Heads two diameters wide meet within 1/8 + 1/8 along the heel; two of one leg never face each other."""
    assert facing(made(("A", 3, 1, "1/8"), ("B", "3 1/4", 1, "1/8"))) == () and facing(made(("A", 3, 1, "1/8"), ("A", 3, "1/2", "1/8"))) == ()
    assert len(facing(made(("A", 3, 1, "1/8"), ("B", "2 49/64", 1, "1/8"), ("B", "3 15/64", 1, "1/8")))) == 2
    assert len(facing(made(("A", 3, 1, "1/8"), ("B", "3 17/64", 1, "3/16")))) == 1  # a larger head reaches farther


def test_number_drills():
    """ASME B94.11M: no. 40 is 0.0980, no. 30 0.1285, no. 21 0.1590, no. 11 0.1910 in.; each a little over its rivet."""
    sizes = {F(3, 32): ("no. 40", "0.0980"), F(1, 8): ("no. 30", "0.1285"), F(5, 32): ("no. 21", "0.1590"), F(3, 16): ("no. 11", "0.1910")}
    assert {d: (row.drill, f"{float(row.size):.4f}") for d, row in DRILLS.items()} == sizes
    assert all(0 < row.size - row.fastener < F(1, 200) for row in DRILLS.values())
    assert drill_for(F(1, 8)).pilot == "no. 40" and drill_for(F(1, 4)) is None
    assert rivet_length(F(1, 4), F(1, 8)) == F(7, 16)
