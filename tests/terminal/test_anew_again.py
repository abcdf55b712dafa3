"""A plan that was made anew in the middle of a job: shown again, printed, and what happens when pieces are made or spoiled beside it."""

import json

import pytest
from small_kit import Kit


@pytest.fixture
def kit(tmp_path, capsys):
    return Kit(tmp_path / "kit", capsys, (("S-1", 44, "remnant"), ("S-2", 30, "remnant"), ("S-3", 96, "new"), ("S-4", 12, "remnant")))


def number(kit) -> str:
    return json.loads((kit.folder / "job.plan.json").read_text())["number"]


def begun(kit) -> str:
    """Two A are made, one of them spoiled; the rest is planned anew."""
    kit.pack()
    kit.plan("--done", "S-1")
    kit.plan("--spoiled", "S-1: A scrap")
    said = kit.plan("--anew")
    assert "4 of 4 pieces are planned" in said
    return number(kit)


def test_it_is_shown_again_and_printed(kit):
    """Its parts are those that are still wanted, whichever of them are made."""
    new = begun(kit)
    assert f"Plan {new} of" in kit.plan()
    assert f"It is plan {new}" in kit.pack()
    assert number(kit) == new
    for stick in [s["stick"]["id"] for section in json.loads((kit.folder / "job.plan.json").read_text())["sections"] for s in section["sticks"] if s.get("placed")]:
        kit.plan("--done", stick, "--plan", new)
    assert "everything is marked as made" in kit.plan()


def test_an_unprinted_one_follows_what_is_made_beside_it(kit):
    kit.plan()
    first = number(kit)
    idle = next(s for s in ("S-3", "S-4", "S-2", "S-1") if f'"id": "{s}"' not in _touched(kit))
    kit.plan("--done", f"{idle}: B")
    said = kit.plan()
    assert "4 of 4 pieces are planned" in said and "Plan " in said and number(kit) != first


def test_a_printed_one_is_what_the_paper_says_and_a_new_print_is_asked_for(kit):
    kit.pack()
    first = number(kit)
    idle = next(s for s in ("S-3", "S-4", "S-2", "S-1") if f'"id": "{s}"' not in _touched(kit))
    kit.plan("--done", f"{idle}: B")
    assert f"Plan {first} of" in kit.plan()
    refused = kit.pack(code=2)
    assert f"Plan {first} is in hand, and was made when other pieces were wanted" in refused and "--anew" in refused
    assert "It is plan" in kit.pack("--anew") and number(kit) != first


def _touched(kit) -> str:
    sections = json.loads((kit.folder / "job.plan.json").read_text())["sections"]
    return json.dumps([s["stick"] for section in sections for s in section["sticks"] if s.get("cuts") or s.get("placed")])
