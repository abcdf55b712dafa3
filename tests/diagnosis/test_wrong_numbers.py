"""Wrong answers to a number, worked by hand: which mistake each one names, and that the right one names none."""

from __future__ import annotations

from fractions import Fraction as F
from math import sqrt

import pytest

from anglelib.inspection.mistakes import MISTAKES
from anglelib.inspection.numbers import Asked, named, wrong_numbers

# Each: what is asked, a wrong answer worked by hand, and its mistake.
BLANK = Asked(F(69, 16), blank_of=F(17, 4), allowance=F(1, 32), kerf=F(1, 16))  # 4 1/4 + 2/32
PLACE = Asked(F(23, 16), place_on=F(17, 8))  # the hole at 1 7/16 of a part 2 1/8 long
HEIGHT = Asked(F(7, 16), height_over=(F(1, 8), F(1, 8)), measured=True)
RUN = Asked(F(5, 4), run_of=(F(5, 4), F(3, 8)), measured=True)
MARK = Asked(F(17, 80), slope_of=(F(17, 8), F(5, 4)), inside_corner=F(0))  # 1/8 x (2 1/8) / (1 1/4)
BATCH = Asked(F(3) * 4 + 2 * F(1, 16), batch=(F(4), 3), kerf=F(1, 16))  # the third line: three blanks of 4 and two kerfs
STEPPED = Asked(F(12), step=(4, F(1, 64)))
DRESSED = Asked(F(3, 2), dressed=F(1, 32))
WARM = Asked(F(24), warm=40.0)
SHORT_WARM = Asked(F(4), warm=40.0)  # 0.004 in.: within reading of the right number
RIGHT = (BLANK, PLACE, HEIGHT, RUN, MARK, BATCH, STEPPED, DRESSED, WARM, SHORT_WARM)
BY_HAND = [
    (BLANK, F(17, 4), "M04"),  # no allowance
    (BLANK, F(137, 32), "M04"),  # at one end only
    (BLANK, F(35, 8), None),  # two allowances twice, or a kerf: 4 3/8 either way, M01 or M05
    (BATCH, F(12), "M06"),
    (PLACE, F(7, 16), "M07"),
    (PLACE, F(39, 16), "M07"),
    (PLACE, F(11, 16), "M17"),  # 2 1/8 - 1 7/16
    (PLACE, F(11, 8), "M08"),  # a sixteenth less
    (PLACE, F(39, 32), "M08"),  # 7/32 for 7/16
    (PLACE, F(15, 8), "M08"),  # 7/8 for 7/16
    (HEIGHT, F(11, 16), "M11"),  # from the fillet's edge
    (MARK, F(0), "M12"),
    (RUN, sqrt(1.25**2 - 0.375**2), "M19"),
    (RUN, 0.1125, "M20"),  # 0.375 squared over 1.25
    (MARK, 0.125 * sqrt(2.125**2 - 1.25**2) / 1.25, "M19"),
    (MARK, 0.125 * 1.25 / 2.125, "M20"),
    (STEPPED, F(193, 16), "M18"),  # four steps a sixty-fourth long
    (DRESSED, F(47, 32), "M16"),
    (WARM, 24 - 24 * 23.6e-6 * 40, "M25"),
    (RUN, F(5, 4) * F(127, 5), "M27"),  # 31.75, millimetres typed as inches
    (PLACE, F(23, 16) * F(5, 127), "M27"),
    (RUN, F(100, 127), "M27"),  # twenty sixteenths taken for twenty millimetres: 0.787
]


@pytest.mark.parametrize(("asked", "answer", "id_"), BY_HAND)
def test_a_wrong_answer_names_its_mistake(asked, answer, id_):
    found = named(asked, answer)
    assert found is not None
    assert found.id == id_ if id_ else found.id in ("M01", "M05")
    assert found.value == pytest.approx(answer)
    assert found.sentence.endswith(MISTAKES[found.id].remedy) and "known slip" not in found.sentence


def test_inside_face_and_two_sixteenths_are_one_number():
    """7/16 from the inside face of 1/8 stock is 9/16: also two sixteenths misread. Either name fits."""
    ids = {w.id for w in wrong_numbers(HEIGHT) if w.value == F(9, 16)}
    assert ids == {"M08", "M11"}


@pytest.mark.parametrize("asked", RIGHT)
def test_the_right_answer_names_none(asked):
    assert named(asked, asked.right) is None
    assert all(abs(w.value - asked.right) > 1e-9 for w in wrong_numbers(asked))
    # Read to the nearest 1/128 it is still the right one, unless a mistake is nearer.
    for off in (F(1, 1000), -F(1, 1000)):
        near = named(asked, asked.right + off)
        assert near is None or abs(near.value - asked.right - off) < abs(off)


@pytest.mark.parametrize("asked", RIGHT)
def test_every_wrong_number_names_itself_or_its_like(asked):
    for wrong in wrong_numbers(asked):
        found = named(asked, wrong.value)
        assert found is not None and found.value == pytest.approx(float(wrong.value))


def test_nothing_names_an_answer_that_no_mistake_makes():
    assert named(PLACE, F(31, 10)) is None
    assert named(BLANK, F(9)) is None


def test_a_mistake_needs_its_quantities():
    bare = {w.id for w in wrong_numbers(Asked(F(3, 2)))}
    assert bare == {"M27"}
    assert "M04" not in {w.id for w in wrong_numbers(Asked(F(69, 16), blank_of=F(17, 4)))}
