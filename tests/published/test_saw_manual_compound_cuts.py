"""Compound cuts for frames of leaning boards.

Source: the table of compound angle settings printed in the owner's manual of a miter saw: sides
turned up by a pitch, frames of 4 to 10 sides, "M" the miter and "B" the tilt, each to the nearest
0.005 degrees as it says. Status: seen. Sharing no formula with the table or with the library, the
joint's lines on a board are found in space (``leaning_frame``); a board's face and edge are the
two outer faces of an angle.
"""

from __future__ import annotations

import pytest
from leaning_frame import lines_on_board

from anglelib.geometry.sawing import CompoundCut
from anglelib.section import Section

# (sides, pitch [deg]): miter, tilt [deg].
TABLE = {
    (4, 5): (44.89, 3.53), (4, 10): (44.56, 7.05), (4, 15): (44.01, 10.55), (4, 20): (43.22, 14.00), (4, 25): (42.19, 17.39),
    (4, 30): (40.89, 20.70), (4, 35): (39.32, 23.93), (4, 40): (37.45, 27.03), (4, 45): (35.26, 30.00), (4, 50): (32.73, 32.80),
    (4, 55): (29.84, 35.40), (4, 60): (26.57, 37.76), (4, 65): (22.91, 39.86), (4, 70): (18.88, 41.64), (4, 75): (14.51, 43.08),
    (5, 20): (34.32, 11.60), (5, 30): (32.18, 17.09), (5, 45): (27.19, 24.56), (6, 15): (29.15, 7.44), (6, 30): (26.57, 14.48),
    (6, 40): (23.86, 18.75), (7, 30): (22.64, 12.53), (7, 45): (18.80, 17.87), (8, 10): (22.19, 3.81), (8, 20): (21.27, 7.52),
    (8, 45): (16.32, 15.70), (9, 45): (14.43, 14.00), (10, 45): (12.94, 12.62),
}  # fmt: skip
BOARD = Section(4, 1, "3/4")


@pytest.mark.parametrize("sides, pitch", TABLE)
def test_settings_of_the_table(sides, pitch):
    on_face, on_edge = lines_on_board(pitch, 180 - 360 / sides)
    flat, _, _ = CompoundCut(on_face, on_edge).settings(BOARD)
    # Both signs say which way the saw is turned and the blade leans; the table prints sizes.
    assert (abs(flat.miter), abs(flat.tilt)) == pytest.approx(TABLE[sides, pitch], abs=0.0101)


@pytest.mark.parametrize("sides, pitch", [place for place in TABLE if (place[0], 90 - place[1]) in TABLE])
def test_a_board_on_its_edge_is_one_turned_up_by_the_rest(sides, pitch):
    """The edge of a board at 30 degrees leans at 60: leg B down reads the other row of the same table."""
    on_face, on_edge = lines_on_board(pitch, 180 - 360 / sides)
    _, on_its_edge, _ = CompoundCut(on_face, on_edge).settings(BOARD)
    assert (abs(on_its_edge.miter), abs(on_its_edge.tilt)) == pytest.approx(TABLE[sides, 90 - pitch], abs=0.0101)


def test_adding_the_plain_angles_fails():
    """The naive setting, half the corner and the pitch as they are, is degrees off."""
    on_face, on_edge = lines_on_board(45, 90)
    flat, _, _ = CompoundCut(on_face, on_edge).settings(BOARD)
    assert abs(abs(flat.miter) - 45) > 9 and abs(abs(flat.tilt) - 45) > 14
