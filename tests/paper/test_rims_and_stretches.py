"""What of a hole's rim lies on a flat face, and where a sheet has room: against points taken one by one."""

import math
from random import Random

import pytest
from shapely import LineString, Point, box

from anglelib.paper.hole_rims import arcs_between
from anglelib.paper.unrolled import _where


def length_between(centre, radius, low, high) -> float:
    """How much of a circle lies between two heights, measured on a fine polygon."""
    circle = LineString(Point(centre).buffer(radius, quad_segs=4096).exterior.coords)
    return circle.intersection(box(centre[0] - 9, low, centre[0] + 9, high)).length


HEIGHTS = {
    "all of it": (-1.0, 3.0),
    "its foot is cut off": (0.4, 3.0),
    "its top is cut off": (-1.0, 1.1),
    "more than half is cut off below": (0.9, 3.0),
    "more than half is cut off above": (-1.0, 0.6),
    "both are cut off": (0.5, 1.2),
    "a strip over its middle": (0.9, 1.2),
    "it just touches below": (0.3, 3.0),
    "it just touches above": (-1.0, 1.3),
}


@pytest.mark.parametrize("name", HEIGHTS)
def test_a_rim_between_two_heights(name):
    low, high = HEIGHTS[name]
    centre, radius = (2.0, 0.8), 0.5
    arcs = arcs_between(centre, radius, low, high)
    assert sum(math.radians(abs(arc.turn)) * radius for arc in arcs) == pytest.approx(length_between(centre, radius, low, high), abs=1e-5)
    for arc in arcs:
        assert arc.centre == centre and arc.radius == radius
        for i in range(101):
            x, y = arc.at(arc.start + arc.turn * i / 100)
            assert low - 1e-12 <= y <= high + 1e-12 and math.hypot(x - 2.0, y - 0.8) == pytest.approx(0.5)
    places = [round(x, 9) for arc in arcs for x, _ in (arc.at(arc.start + arc.turn / 3),)]
    assert len(set(places)) == len(arcs)  # two arcs are its two sides


def test_a_circle_below_or_above_has_no_arc_between():
    assert arcs_between((2.0, 0.8), 0.5, 1.4, 3.0) == arcs_between((2.0, 0.8), 0.5, -1.0, 0.2) == ()


def test_the_stretches_where_there_is_room():
    """Stretches wider than a sixteenth of what lies between two breaks are found, to a hair, and are one where they meet at a break."""
    dice = Random(5)
    for _ in range(40):
        ends = sorted(dice.sample(range(1, 160, 8), 6))
        rooms = [(a / 20, b / 20) for a, b in zip(ends[::2], ends[1::2])]

        def room(x, rooms=rooms):
            return max(min(x - a, b - x) for a, b in rooms)

        breaks = sorted({0.0, 8.0, *(dice.choice(rooms)[0] for _ in range(2))})
        assert _where(room, breaks) == [pytest.approx(one, abs=1e-9) for one in rooms]
    assert _where(lambda x: -1.0, [0.0, 1.0, 2.0]) == []
    assert _where(lambda x: 1.0, [0.0, 1.0, 2.0]) == [(0.0, 2.0)]
    assert _where(lambda x: abs(x - 1.0), [0.0, 1.0, 2.0]) == [(0.0, 2.0)]  # a touch at a break is no gap
    assert _where(lambda x: 0.0, [0.0, 1.0]) == []  # no length is no room
