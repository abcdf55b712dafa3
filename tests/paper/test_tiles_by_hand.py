"""Which stretches are printed at 1:1, and how they are laid over papers, by hand: what a cut and a hole reach, what is left out, the fewest tiles."""

import itertools
import math

import pytest

from anglelib.paper.tiles import FLAP, INCH, PLAIN, SIDE, Tile, _letters, cut_at, features, in_rows, marked, sides, stretches, tiles
from anglelib.part import Cope, Corner, Hole, Part, Taper
from anglelib.section import Section

STOCK = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")


def part(length, *, unit="in", **what) -> Part:
    return Part("P1", "Trial", STOCK, "6061-T6", length, unit=unit, **what)


def test_how_far_each_cut_and_hole_reaches():
    one = part(30, tapers=[Taper("A", 1, "1/2", run=3), Taper("B", 2, "1/2", run=2)], copes=[Cope("A", 2, 1, "1/2", "1/8")], corners=[Corner("B", 1, "1/4")], holes=[Hole("A", 12, "3/4", "1/4")])
    assert sorted(features(one)) == [(0, 0.5), (0, 3), (11.875, 12.125), (28, 30), (29, 30)]
    lost = part(30, tapers=[Taper("A", 1, run=3)])
    spans = sorted(features(lost))
    assert spans[0] == (0, 3) and len(spans) == 2 and spans[1][1] - spans[1][0] == pytest.approx(0.2) and spans[1][0] > 3  # the witness line, with a hair beside it
    assert features(part(2, tapers=[Taper("A", 1, angle=5, width_left="1/2")])) == [(0.0, 2.0)]  # never farther than the part


def test_what_is_worth_paper_with_three_quarters_beside_it_on_quarters_of_an_inch():
    assert stretches(part(30, tapers=[Taper("A", 1, "1/2", run="3 1/8")])) == [(0, 4)]  # 3 7/8, up to the quarter
    assert stretches(part(30, holes=[Hole("A", 12, "3/4", "1/4")])) == [(11, 13)]  # 11 1/8 and 12 7/8
    assert stretches(part(30, holes=[Hole("A", 3, "3/4", "1/4")])) == [(0, 4)]  # 2 1/8 from an end: carried on to it
    assert stretches(part(30, holes=[Hole("A", "3 3/8", "3/4", "1/4")])) == [(2.5, 4.25)]  # 2 1/2 from it: no more
    assert stretches(part(30, holes=[Hole("A", 27, "3/4", "1/4")])) == [(26, 30)] and stretches(part(30, holes=[Hole("A", "26 5/8", "3/4", "1/4")])) == [(25.75, 27.5)]
    two = [Hole("A", 12, "3/4", "1/4"), Hole("A", "15 1/2", "3/4", "1/4")]
    assert stretches(part(30, holes=two)) == [(11, 16.5)]  # from 13 to 14 1/2 there is less than 2
    assert stretches(part(30, holes=[two[0], Hole("A", 16, "3/4", "1/4")])) == [(11, 13), (15, 17)]  # just 2: left out
    assert stretches(part(30), whole=True) == [(0, 30)] and stretches(part(30)) == [] and not marked(part(30))
    metric = stretches(part("900 mm", unit="mm", holes=[Hole("A", "400 mm", "20 mm", "5 mm")]))
    assert [(round(a * 25.4, 6), round(b * 25.4, 6)) for a, b in metric] == [(375, 425)]  # 378.45 and 421.55, to 5 mm


def test_room_for_figures_is_beside_an_end_that_is_cut():
    one = part(30, tapers=[Taper("A", 2, "1/2", run=2)])
    assert sides(one, 0, 5) == (SIDE, PLAIN) and sides(one, 3, 30) == (PLAIN, SIDE) and sides(one, 3, 5) == (PLAIN, PLAIN) and sides(part(30), 0, 30) == (SIDE, PLAIN)
    assert cut_at(one, 2) and not cut_at(one, 1) and cut_at(part(9, corners=[Corner("A", 1, "1/4")]), 1) and cut_at(part(9, copes=[Cope("A", 1, 1, "1/2", "1/8")]), 1)
    for what in (one, part(9, corners=[Corner("A", 1, "1/4")]), part(9, copes=[Cope("A", 1, 1, "1/2", "1/8")]), part(9, holes=[Hole("A", 4, "3/4", "1/4")])):
        assert marked(what)


@pytest.mark.parametrize("length, room", [(8, 184.0), (12, 184.0), (25, 184.0), (26, 150.0), (12, 120.5), (6, 400)])
def test_the_fewest_tiles_that_fit_of_about_one_length(length, room):
    one = part(length, tapers=[Taper("A", 1, "1/2", run=2), Taper("A", 2, "1/2", run=2)])
    laid = tiles(one, room, whole=True)

    def wide(tile: Tile) -> float:
        beside = (SIDE if tile.low == 0 else PLAIN) + (SIDE if tile.high == length else PLAIN)
        return (tile.high - tile.low) * INCH + (FLAP if tile.joint_after else 0) + beside

    assert laid[0].low == 0 and laid[-1].high == length and all(a.high == b.low for a, b in itertools.pairwise(laid))
    assert all(wide(tile) <= room for tile in laid) and all((tile.low * 4).is_integer() for tile in laid)
    assert [tile.joint_before for tile in laid] == ["", *"ABCDEFGH"[: len(laid) - 1]] and [tile.joint_after for tile in laid] == [*"ABCDEFGH"[: len(laid) - 1], ""]
    lengths = [tile.high - tile.low for tile in laid]
    assert max(lengths) - min(lengths) <= 0.5 + 1e-9
    fewer = len(laid) - 1
    if fewer:  # cut into one less on the same grid, some tile is too wide
        edges = [0, *(math.floor(length * i / fewer * 4) / 4 for i in range(1, fewer)), length]
        assert any(wide(Tile(a, b, "", "x" if b < length else "")) > room for a, b in itertools.pairwise(edges))
    assert all(tile.shown == pytest.approx(tile.high + (FLAP / INCH if tile.joint_after else 0)) for tile in laid)


def test_letters_go_on_after_z():
    names = list(itertools.islice(_letters(), 26 + 26 * 26 + 2))
    assert names[:2] + names[25:28] + names[51:53] + names[-2:] == ["A", "B", "Z", "AA", "AB", "AZ", "BA", "AAA", "AAB"] and len(set(names)) == len(names)


def test_tiles_stand_side_by_side_where_they_fit():
    one = part(60, holes=[Hole("A", x, "3/4", "1/4") for x in (10, 20, 30, 40)])
    laid = tiles(one, 184.0)
    assert [(tile.low, tile.high) for tile in laid] == [(9, 11), (19, 21), (29, 31), (39, 41)]
    each = 2 * INCH + 2 * PLAIN
    assert [[pair[0] for pair in row] for row in in_rows(one, laid, 2 * each)] == [list(laid[:2]), list(laid[2:])]
    assert [len(row) for row in in_rows(one, laid, 3 * each + 0.01)] == [3, 1] and [len(row) for row in in_rows(one, laid, 2 * each - 0.01)] == [1, 1, 1, 1]
    assert all(wide == pytest.approx(each) for row in in_rows(one, laid, 2 * each) for _, wide in row)
