"""``--within`` is the whole command's: the plan has most of it, each question after it a share of what is left, and what is then open is said."""

import threading
from types import SimpleNamespace

import pytest

from anglelib.__main__ import main
from anglelib.files import read_job, read_rack
from anglelib.stock import decide, purchase, robust, rules, shortage, what_if
from anglelib.stock.planner import plan
from anglelib.stock.purchase import smallest_purchase
from anglelib.stock.rack import Rack
from anglelib.stock.robust import LEFT, OPEN, robustness
from anglelib.stock.standing import standing
from anglelib.stock.what_if import still_possible
from anglelib.terminal import clock


@pytest.fixture(scope="module")
def demo(project):
    job, rack = (read(project / "notebooks/demo" / name) for read, name in ((read_job, "job.toml"), (read_rack, "rack.csv")))
    return job, rack, plan(job, rack)


@pytest.mark.parametrize("how", ["no time", "stopped"])
def test_a_question_whose_time_is_over_searches_nothing(how, demo, monkeypatch):
    """Nothing is planned or tried any more, and no answer is given that was not looked for."""
    job, rack, made = demo
    stopped = threading.Event()
    stopped.set()
    given = {"seconds": 0.0} if how == "no time" else {"stop": stopped}

    def never(*_, **__):
        raise AssertionError("searched after the time was over")

    monkeypatch.setattr(decide.Decider, "decide", never)
    monkeypatch.setattr(rules.Rule, "pack", never)
    assert {bears.replaced for bears in robustness(job, rack, made, **given).parts} == {OPEN}
    further = still_possible(job, rack, made, **given).further
    assert further and not any(one.after or one.replanned or one.proven for one in further)
    assert shortage.ways_out(job, rack, made, **given) == ()


def test_a_purchase_whose_time_is_over_is_enough_and_not_called_the_smallest(demo):
    job, _, _ = demo
    found = smallest_purchase(job, Rack(()), seconds=0.0)
    assert not plan(job, found.rack).shortages
    assert found.sticks and not any(group.smallest for group in found.groups if group.bought)


def test_with_all_the_time_it_needs_the_answer_is_the_same(demo):
    job, rack, made = demo
    assert robustness(job, rack, made, seconds=600) == robustness(job, rack, made)
    assert {LEFT} & {bears.replaced for bears in robustness(job, rack, made).parts}


def test_what_is_asked_for_shares_the_time_of_the_command(monkeypatch, capsys):
    """Each step takes 2 s of 10: the plan may take 6, since a purchase is wanted; then half of the 8, half of the 6, and the 4 that are left."""
    now, asked = [0.0], []
    monkeypatch.setattr(clock, "time", SimpleNamespace(monotonic=lambda: now[0]))

    def step(name, seconds):
        asked.append((name, seconds))
        now[0] += 2.0

    def planned(job, record, *, seconds, **how):
        step("plan", seconds)
        return standing(job, record, **how)

    def watched(name, do):
        def done(*given, seconds, **how):
            step(name, seconds)
            return do(*given, **how)

        return done

    monkeypatch.setattr("anglelib.stock.standing.standing", planned)
    monkeypatch.setattr(robust, "robustness", watched("robust", robust.robustness))
    monkeypatch.setattr(what_if, "still_possible", watched("possible", still_possible))
    monkeypatch.setattr(purchase, "smallest_purchase", watched("buy", smallest_purchase))
    assert main(["plan", "--within", "10", "--buy"]) == 0
    assert asked == [("plan", 6.0), ("robust", 4.0), ("possible", 3.0), ("buy", 4.0)]
    assert clock.LATE not in " ".join(capsys.readouterr().out.split())
    now[0] = 0.0
    assert main(["plan", "--within", "7"]) == 0 and clock.LATE not in " ".join(capsys.readouterr().out.split())
    now[0] = 0.0
    assert main(["plan", "--within", "6"]) == 0 and clock.LATE in " ".join(capsys.readouterr().out.split())
