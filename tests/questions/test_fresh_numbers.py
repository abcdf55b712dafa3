"""Fresh numbers: the same from the same seed, never degenerate, always of a shop."""

from fractions import Fraction

import pytest

from anglelib.geometry.taper import taper_lines, warnings
from anglelib.questions.fresh import ENDINGS, Numbers, fresh_part


@pytest.mark.parametrize("ends_in", ENDINGS)
@pytest.mark.parametrize("two", [False, True])
def test_three_hundred_parts_of_each_kind(ends_in, two):
    for n in range(300):
        part = fresh_part(f"part {n}", ends_in=ends_in, two_thicknesses=two, legs="AB" if n % 2 else "A")
        line = taper_lines(part)[0]
        section = part.section
        assert line.ends_in == ends_in
        assert 18 < line.angle < 50
        assert part.length >= 4 and line.run * 2 <= part.length
        assert warnings(part) == ()
        assert part.hand is None and part.handed
        assert (section.thickness_a != section.thickness_b) is two
        lengths = (part.length, line.run, line.width_left, section.leg_a, section.leg_b, section.thickness_a, section.thickness_b)
        assert all(32 % length.denominator == 0 for length in lengths)
        assert (section.leg_a, section.leg_b, section.thickness_a) != (1, 1, Fraction(1, 8))


def test_the_same_seed_on_every_python():
    """Saved from Python 3.11: a class key printed elsewhere must fit."""
    part = fresh_part("a seed that stays")
    assert (part.section.size, str(part.tapers[0].run), str(part.length)) == ("1 1/2 x 1 1/2 x 1/8", "4", "35/4")


def test_either_hand():
    legs = {fresh_part(f"hand {n}", legs="AB").tapers[0].leg for n in range(20)}
    assert legs == {"A", "B"} and {fresh_part(f"hand {n}").tapers[0].leg for n in range(20)} == {"A"}


def test_numbers_reach_both_ends_of_their_range():
    numbers = Numbers("range")
    drawn = {numbers.length(Fraction(1, 8), Fraction(1, 2), Fraction(1, 8)) for _ in range(200)}
    assert drawn == {Fraction(n, 8) for n in (1, 2, 3, 4)}
    with pytest.raises(ValueError, match="no multiple"):
        numbers.length(Fraction(1, 10), Fraction(1, 9), Fraction(1, 8))
