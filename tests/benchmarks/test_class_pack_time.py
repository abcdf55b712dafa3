"""How long class packs take, from the command to the files: processor time, with budgets near what is wished for."""

import pytest
from processor_time import seconds

BUDGETS = {6: 4.0, 12: 6.0, 20: 8.0}
"""The most that a class of so many may take [s]."""


@pytest.mark.parametrize("learners", BUDGETS)
def test_a_class_pack_is_made_in_its_budget(learners, tmp_path, project):
    words = ["-m", "anglelib", "class", "--learners", str(learners), "--out", str(tmp_path / "pack"), "--hours", "12"]
    assert seconds(words, project) < BUDGETS[learners]
