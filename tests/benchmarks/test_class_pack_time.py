"""What class packs take of the processor, from the command to the files: as a ratio to plain Python, since machines differ."""

import pytest
from processor_time import seconds
from yardstick import yardstick

MOST = {6: 90.0, 12: 160.0, 20: 165.0}
"""Yardsticks for a class of so many: of 49 ms each 20 learners have 8 s; 138 were measured, for 12 learners 129, on a machine as busy as can be."""


@pytest.mark.parametrize("learners", MOST)
def test_a_class_pack_is_made_in_its_budget(learners, tmp_path, project):
    one = yardstick()
    words = ["-m", "anglelib", "class", "--learners", str(learners), "--out", str(tmp_path / "pack"), "--hours", "12"]
    taken = seconds(words, project)
    print(f"\n{learners} learners {taken:.2f} s, the yardstick {one * 1000:.0f} ms, ratio {taken / one:.0f}")
    assert taken < MOST[learners] * one, (taken, one)
