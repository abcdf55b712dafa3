"""How soon Ctrl-C gives the best plan so far: within two seconds, on a rack of 500 sticks, early in the search and late."""

import os
import sys
from pathlib import Path

import pytest

sys.path.append(str(Path(__file__).parents[1] / "stock"))

from big_rack import big_rack, interrupted  # noqa: E402


@pytest.mark.skipif(os.name != "posix", reason="needs SIGINT")
@pytest.mark.parametrize("after", [0.1, 1.0, 4.0])
def test_the_best_plan_so_far_is_there_within_two_seconds(after, tmp_path):
    code, out, wrong, took = interrupted("plan", *big_rack(tmp_path), after=after)
    assert code in (0, 3) and "Stopped before it was finished" in out, wrong
    assert took < 2, took
