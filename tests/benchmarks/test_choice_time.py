"""What levels 5 and 6 add to the time of a plan, and the runner-up to that of the command: as ratios, in one run."""

import sys
import time
from pathlib import Path

HERE = Path(__file__).resolve().parent
sys.path[:0] = [str(HERE.parent / "stock")]

from kits import kit  # noqa: E402

from anglelib.files import read_job, read_rack  # noqa: E402
from anglelib.stock import planner  # noqa: E402
from anglelib.stock.planner import plan  # noqa: E402
from anglelib.stock.runner_up import runner_ups  # noqa: E402

DEMO = HERE.parents[1] / "notebooks" / "demo"


def test_levels_5_and_6_are_a_small_share_of_a_plan(monkeypatch):
    """Their own processor time, measured inside the plans of ten kits."""
    own, real = [0.0], planner.arrange

    def timed(*words):
        begun = time.process_time()
        try:
            return real(*words)
        finally:
            own[0] += time.process_time() - begun

    monkeypatch.setattr(planner, "arrange", timed)
    plan(*kit(3))
    own[0], begun = 0.0, time.process_time()
    for seed in (0, 4, 6, 8, 9, 10, 13, 14, 17, 19):
        plan(*kit(seed))
    whole = time.process_time() - begun
    assert own[0] < 0.15 * (whole - own[0]), (own[0], whole)


def test_the_runner_up_of_the_demo_kit_takes_no_longer_than_its_plan():
    job, rack = read_job(DEMO / "job.toml"), read_rack(DEMO / "rack.csv")
    plan(job, rack)
    begun = time.process_time()
    made = plan(job, rack)
    middle = time.process_time()
    runner_ups(job, rack, made)
    assert time.process_time() - middle < 1.5 * (middle - begun)
