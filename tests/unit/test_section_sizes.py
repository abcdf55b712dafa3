"""Sizes that no stick has are refused by key and in their unit on every path; every published size is taken."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from anglelib.__main__ import main
from anglelib.errors import SectionError
from anglelib.lengths import MM, writing
from anglelib.section_sizes import section_given

# Aluminum Association, standard structural shapes: the smallest and the largest equal and unequal angles, in inches;
# EN 10056-1: the smallest and the largest of its list, in millimetres.
PUBLISHED = [(1, 1, F(1, 8)), (F(3, 4), F(3, 4), F(1, 8)), (8, 8, 1), (8, 6, F(3, 4)), (20 * MM, 20 * MM, 3 * MM), (250 * MM, 250 * MM, 35 * MM), (F(1, 2), F(1, 2), F(1, 16))]


@pytest.mark.parametrize("sizes", [*PUBLISHED, (F(1, 8), F(1, 8), F(1, 100)), (12, 12, 2), (3 * MM, 300 * MM, F(1, 4) * MM)])
def test_published_sizes_and_the_limits_themselves_are_taken(sizes):
    assert section_given(*sizes).leg_a == sizes[0]


@pytest.mark.parametrize(
    ("sizes", "unit", "field", "said"),
    [
        (("0.000002", "3/4", "0.000001"), "in", "leg_a", "leg A is 0.000002: angle is taken from 1/8 to 12 in."),
        (("3/4", 1200, "1/8"), "in", "leg_b", "leg B is 1200:"),
        (("30 mm", "1200 mm", "3 mm"), "in", "leg_b", "leg B is 1200 mm: angle is taken from 3 to 300 mm"),
        (("2.9 mm", "30 mm", "1 mm"), "mm", "leg_a", "leg A is 2.9 mm: angle is taken from 3 to 300 mm"),
        (("3/4", "3/4", "0.00001"), "in", "thickness_a", "0.00001: angle is taken from 0.010 in. up"),
        (("30 mm", "30 mm", "3 mm", "0.2 mm"), "mm", "thickness_b", "leg B is 0.2 mm: angle is taken from 0.25 mm up"),
        (("1/16", "3/4", "1/32"), "mm", "leg_a", "leg A is 1/16 in: angle is taken from 1/8 to 12 in."),
    ],
)
def test_others_are_refused_with_their_field_and_in_their_unit(sizes, unit, field, said):
    with writing(unit), pytest.raises(SectionError) as caught:
        section_given(*sizes)
    assert caught.value.size == field and said in str(caught.value)


@pytest.mark.parametrize("text", ["1200 x 1200 x 1/8 square", "0.000002 x 3/4 x 0.000001 square", "3/4 x 3/4 x 0.00001 square"])
def test_the_terminal_asks_too(text, capsys):
    assert main(["plan", "--one", text, "6061-T6", "10"]) == 2
    assert "angle is taken from" in capsys.readouterr().err


def test_the_bench_asks_too():
    from anglelib.lessons.own_values import described, first_part, values_of

    part = first_part()
    with pytest.raises(SectionError, match="leg A is 1200: angle is taken from"):
        described(values_of(part) | {"leg_a": F(1200)}, part)
