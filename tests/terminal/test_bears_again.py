"""A plan that is followed says again what it bears, on ``plan`` and after each mark, and searches little for it."""

import re

import pytest
from small_kit import HEAD, ROW, Kit

from anglelib.stock import planner, replan


@pytest.fixture
def kit(tmp_path, capsys):
    return Kit(tmp_path / "kit", capsys)


def test_after_each_mark_and_on_the_plan_alike(kit, monkeypatch):
    """S-1 gives two A of 20 1/16, S-2 one and a B: 44 and 30 long, 1/4 trimmed off each end."""
    kit.plan()
    monkeypatch.setattr(planner, "plan", None)  # neither is asked again
    monkeypatch.setattr(replan, "replan", None)
    said = kit.plan("--done", "S-1")
    number = re.search(r'"number": "(\w+)"', (kit.folder / "job.plan.json").read_text())[1]
    bears = said.partition(f"Of what is still to be cut by plan {number}: ")[2]
    assert bears.startswith("Any one piece may be spoiled: what is left gives another. The plan holds with"), said
    assert f"Which part may not be spoiled? {bears}".strip() in kit.plan()
    assert "Of what is still to be cut" in kit.plan("--undo", "S-1")


def test_where_all_is_cut_nothing_is_said(kit):
    kit.plan()
    assert "Of what is still" not in kit.plan("--done", "S-1, S-2, S-3") + kit.plan()


def test_what_was_bought_counts(kit):
    """The long stick is used elsewhere: no A could be replaced; one that is bought since is metal for it."""
    kit.rack.write_text(HEAD + "".join(ROW.format(*stick) for stick in (("S-1", 44, "remnant"), ("S-2", 30, "remnant"))))
    kit.job.write_text(kit.job.read_text().replace("quantity = 2", "quantity = 1"))
    kit.plan()
    assert "A and B may not be spoiled: there is no metal for another." in kit.plan("--done", "S-1:2")
    kit.rack.write_text(kit.rack.read_text().replace("\n1,S-2,", "\n1,S-9,3/4 in,3/4 in,1/8 in,,1/8 in,,,6061-T6,96 in,new,1/4 in,1/4 in,no,no,,,,,,,,,\n1,S-2,", 1))
    assert "Any one piece may be spoiled: what is left gives another." in kit.plan("--done", "S-1")


def test_a_plan_that_holds_no_more_promises_nothing(kit):
    kit.plan()
    kit.plan("--done", "S-1:2")
    kit.job.write_text(kit.job.read_text().replace("quantity = 2", "quantity = 1"))
    assert "Of what is still" not in kit.plan("--done", "S-1")
