"""Layout along the heel: running dimensions, stepping off, the 1-inch start, batches; against sticks cut step by step."""

from __future__ import annotations

from fractions import Fraction as F
from random import Random
from statistics import fmean, pstdev

import pytest

from anglelib.errors import PartError
from anglelib.geometry.chain import (
    batch_marks,
    chained_pieces,
    from_one,
    ganged_pieces,
    running,
    stepped_off,
    stepping_error,
    stepping_scatter,
    stopped_pieces,
)

STEPS = [F(3, 4), F(1, 2), F(1, 2), F(5, 8), F(1, 2)]
KERF = F(1, 16)


def sawn(marks: list[F], split: bool, stick: F, kerf: F) -> list[F]:
    """What comes off a stick sawn at each mark from the datum on: the kerf lies beyond the line, or half on each side."""
    pieces, begun = [], F(0)
    for mark in marks:
        near = mark - kerf / 2 if split else mark
        pieces.append(near - begun)
        begun = near + kerf
    return [*pieces, stick - begun]


def test_running_dimensions_come_from_one_datum():
    assert running(STEPS) == (F(3, 4), F(5, 4), F(7, 4), F(19, 8), F(23, 8))
    assert all(type(mark) is F for mark in running(STEPS))


def test_stepped_off_marks_drift_and_running_ones_do_not():
    """Dividers set 1/64 wide walk on and on: every step starts where the last one ended."""
    wide, at, walked = F(1, 64), F(0), []
    for step in STEPS:
        at += step + wide
        walked.append(at)
    assert list(stepped_off(STEPS, wide)) == walked
    assert walked[-1] - running(STEPS)[-1] == stepping_error(5, wide) == F(5, 64)
    assert type(stepping_error(5, wide)) is F


def test_independent_steps_scatter_by_the_root_of_their_number():
    rng = Random("dividers")
    ends = [sum(rng.gauss(0, 0.01) for _ in range(9)) for _ in range(50_000)]
    assert pstdev(ends) == pytest.approx(stepping_scatter(9, 0.01), rel=0.015)
    assert fmean(ends) == pytest.approx(0, abs=3e-4)
    # The naive sum of nine equal errors is three times as large.
    assert stepping_error(9, 0.01) > 2.9 * pstdev(ends)


def test_the_one_inch_start():
    assert from_one("1 5/8") == F(21, 8) and from_one(F(1, 2)) - 1 == F(1, 2)


@pytest.mark.parametrize("count", [1, 2, 5])
def test_batch_marks_give_whole_blanks(count):
    marks = batch_marks(F(9, 4), count, KERF)
    *blanks, rest = sawn(list(marks), split=False, stick=F(40), kerf=KERF)
    assert blanks == [F(9, 4)] * count and rest > 0


@pytest.mark.parametrize("count", [2, 3, 6])
def test_a_batch_chained_without_kerf_comes_out_short(count):
    """Marks end to end on a stick just long enough, every line split: the first and last lose half a kerf."""
    marks = list(running([F(9, 4)] * (count - 1)))
    pieces = sawn(marks, split=True, stick=count * F(9, 4), kerf=KERF)
    assert list(chained_pieces(F(9, 4), count, KERF)) == pieces
    assert pieces[0] == pieces[-1] == F(9, 4) - KERF / 2 and all(p == F(9, 4) - KERF for p in pieces[1:-1])


def test_one_piece_of_its_own_length_is_not_cut():
    assert chained_pieces(2, 1, KERF) == (2,)


@pytest.mark.parametrize("function", [batch_marks, chained_pieces])
def test_a_batch_of_none(function):
    with pytest.raises(PartError, match="give at least 1"):
        function(2, 0, KERF)


def test_a_gang_and_a_stop_make_like_pieces_and_a_chain_does_not():
    """A saw walked along: against a stop the stick moves up after each cut, so the kerf comes off the stick, not the piece."""
    kerf, stop = F(1, 16), F(129, 64)
    front, ends = F(0), []
    for _ in range(5):
        ends.append((front, front + stop))
        front += stop + kerf
    assert stopped_pieces(2, 5, F(1, 64)) == tuple(b - a for a, b in ends)
    assert len(set(ganged_pieces(2, 5, F(1, 64)))) == 1
    assert len(set(chained_pieces(2, 5, kerf))) == 2
    assert stopped_pieces(2, 3, F(0), chip=F(1, 32)) == (2, 2, F(63, 32))
    with pytest.raises(PartError, match="at least 1"):
        ganged_pieces(2, 0, F(0))
