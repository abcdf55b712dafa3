"""Ctrl-C in the middle of a long search on a big rack, of the command itself: the best plan so far is shown, checked and kept. How soon: tests/benchmarks."""

import json
import os

import pytest
from big_rack import PIECES, big_rack, interrupted

from anglelib.files import read_both
from anglelib.files.plan_file import read_plan
from anglelib.stock.checker import faults

pytestmark = pytest.mark.skipif(os.name != "posix", reason="needs SIGINT")


def test_the_best_plan_so_far_is_shown_and_kept(tmp_path):
    files = big_rack(tmp_path)
    code, out, wrong, _ = interrupted("plan", *files)
    assert code in (0, 3) and "Traceback" not in wrong, wrong
    assert "Stopping; the best plan so far follows." in wrong
    assert out.startswith("Big kit: ") and f"of {PIECES} pieces are planned" in out and "Stopped before it was finished" in out
    job, record = read_both(*files)
    hand = read_plan(files[0], job).hand
    assert hand.plan.interrupted and hand.plan.made and not faults(hand.plan, job, record.rack)
    assert not all(proof.proven for group in hand.plan.groups for proof in group.proofs)  # it was not through


@pytest.mark.slow
def test_a_second_one_ends_without(tmp_path):
    files = big_rack(tmp_path)
    code, out, wrong, _ = interrupted("plan", *files, after=0.2, times=2)
    assert code in (0, 3, 130) and "Traceback" not in wrong, wrong
    assert code != 130 or not (tmp_path / "job.plan.json").exists() and not out
    assert code == 130 or json.loads((tmp_path / "job.plan.json").read_text())["number"]
