"""Straight pieces and arcs end to end, against complex numbers: their points, turned round, carried, joined."""

from __future__ import annotations

from cmath import exp
from math import cos, dist, radians

import pytest

from anglelib.geometry.edges import ARC_STEP, Bend, Straight, backwards, carried, chain, corners_of, joined_up, points_along, step_within

ARC = Bend((1.0, 2.0), 0.5, 30.0, 100.0)
LINE = Straight((0.0, 0.0), (1.0, 0.0))


def on(bend: Bend, angle: float) -> tuple[float, float]:
    """A point of the circle as a complex number turned."""
    z = complex(*bend.centre) + bend.radius * exp(1j * radians(angle))
    return z.real, z.imag


def close(one, two) -> bool:
    return all(dist(p, q) < 1e-12 for p, q in zip(one, two, strict=True))


def test_an_arc_s_ends_and_the_way_back():
    assert close([ARC.first, ARC.last, ARC.at(77)], [on(ARC, 30), on(ARC, 130), on(ARC, 77)])
    back = ARC.reversed()
    assert close([back.first, back.last], [ARC.last, ARC.first]) and close([back.at(back.start + back.turn / 2)], [on(ARC, 80)])
    assert LINE.reversed() == Straight((1.0, 0.0), (0.0, 0.0))


@pytest.mark.parametrize(("turn", "step", "pieces"), [(100, 7.5, 14), (90, 7.5, 12), (-90, 30, 3), (91, 30, 4), (1, 7.5, 2), (15, 7.5, 2), (7.4, 7.5, 2), (15.1, 7.5, 3)])
def test_an_arc_in_pieces(turn, step, pieces):
    """As few as are no longer than a step, two at least; evenly round, ends included."""
    bend = Bend((1.0, 2.0), 0.5, 30.0, turn)
    assert close(bend.points(step), [on(bend, 30 + turn * i / pieces) for i in range(pieces + 1)])
    assert LINE.points(step) == [LINE.first, LINE.last] and ARC_STEP == 7.5


def test_an_arc_where_a_shift_or_a_mirror_takes_it():
    for move, turned in ((lambda p: (p[0] + 3, p[1] - 1), False), (lambda p: (4 - p[0], p[1]), True), (lambda p: (p[1], p[0]), True)):
        (found,) = carried([ARC], move, turned)
        assert close(found.points(10), [move(p) for p in ARC.points(10)]) and found.radius == ARC.radius
        assert carried([LINE], move, turned) == (Straight(move(LINE.first), move(LINE.last)),)


def test_pieces_are_joined_over_every_gap():
    far = Straight((2.0, 0.0), (2.0, 1.0))
    assert joined_up([LINE, far]) == (LINE, Straight((1.0, 0.0), (2.0, 0.0)), far) and joined_up([LINE, Straight((1.0, 0.0), (1.0, 1.0))])[1].first == (1.0, 0.0)
    assert len(joined_up([LINE, Straight((1.0 + 1e-10, 0.0), (2.0, 0.0))])) == 2 and len(joined_up([LINE, Straight((1.0 + 1e-8, 0.0), (2.0, 0.0))])) == 3 and joined_up([]) == ()
    assert chain([(0, 0), (1, 0), (1, 0), (1, 1)]) == (Straight((0, 0), (1, 0)), Straight((1, 0), (1, 1)))
    assert backwards([LINE, far]) == (far.reversed(), LINE.reversed())


def test_points_where_one_piece_ends_and_the_next_begins_are_one():
    square = chain([(0, 0), (1, 0), (1, 1), (0, 1), (0, 0)])
    assert points_along(square) == [(0, 0), (1, 0), (1, 1), (0, 1), (0, 0)] and corners_of(square) == [(0, 0), (1, 0), (1, 1), (0, 1)]
    assert corners_of(square[:2]) == [(0, 0), (1, 0), (1, 1)] and points_along([LINE, Straight((2.0, 0.0), (3.0, 0.0))]) == [(0, 0), (1, 0), (2, 0), (3, 0)]
    assert corners_of([]) == [] and len(points_along([ARC], 100)) == 3 and corners_of([Straight((0.0, 0.0), (0.0, 0.0))]) == [(0.0, 0.0)]


@pytest.mark.parametrize(("radius", "error"), [(1.0, 0.001), (4.0, 0.001), (0.25, 0.01), (1.0, 0.5), (0.01, 0.02), (0.01, 0.01)])
def test_how_long_a_chord_may_be(radius, error):
    """Its middle lies within the error of the arc, or it spans an eighth of the circle: longer ones are never taken."""
    step = step_within(radius, error)
    sagitta = radius * (1 - cos(radians(step) / 2))
    assert sagitta <= error + 1e-12 and step <= 45 and (step == 45 or sagitta == pytest.approx(error))
