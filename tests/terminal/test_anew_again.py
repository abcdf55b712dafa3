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


# --- what the terminal says of it -------------------------------------------------------------------------------
def test_an_unprinted_plan_follows_the_rack_too(kit):
    """Planned on an empty rack, then the sticks are written in: nobody needs to ask for it anew."""
    rows = kit.rack.read_text()
    kit.rack.write_text(rows.splitlines()[0] + "\n")
    assert "0 of 5 pieces are planned" in kit.plan(code=3)
    kit.rack.write_text(rows)
    assert "5 of 5 pieces are planned" in kit.plan()


def test_what_was_bought_since_the_print_is_not_said_to_serve_nothing(kit):
    kit.pack()
    _buy(kit, "S-9")
    said = kit.plan()
    assert "On the rack and not thought of in it: S-9. To plan with it: --anew." in said and "no part of this job is" not in said


def test_the_first_sentence_is_whole_on_a_narrow_terminal(kit, monkeypatch):
    monkeypatch.setenv("COLUMNS", "44")
    for words in ((), ("--done", "S-1:2"), ()):
        said = kit.plan(*words)
    assert "Small kit: 4 of 4 pieces that are left are planned, from 3 sticks. Plan " in said, said


def test_what_is_wanted_and_on_no_sheet_is_named(kit):
    kit.pack()
    kit.plan("--done", "S-1")
    assert "On no sheet" not in kit.plan()
    assert "Saved in rack.csv." in kit.plan("--spoiled", "S-1: A scrap")
    assert "3 of 4 pieces that are left are planned" in (said := kit.plan()) and "On no sheet any more, and still wanted: A. To plan that too: --anew." in said
    assert "Taken back: S-1 is on the rack again, in its place; S-1-R1 is not." in kit.plan("--undo", "S-1")


def test_where_a_stick_has_stopped(kit):
    """S-1: the trim of 1/4, a blank of 20 1/16 and its cut are gone; the line of the second, 40 3/16, is 20 1/8 less from the new end."""
    kit.pack()
    said = kit.plan("--done", "S-1:2") and kit.plan()
    assert "None of its 3 sticks is cut whole; cut part-way: S-1 to row 2 of 3." in said
    assert "Rows 1 to 2 are done: the rest is S-1-R1, 23 5/8 long. Its datum end is gone: from the end that it has now each line is 20 1/8 less." in said
    assert "3 A (2 of 3) Long bar 40 3/16" in said
    assert "Row 1 is done: the rest is S-1-R1, 43 3/4 long. 2 A" in (kit.plan("--undo", "S-1") and kit.plan("--done", "S-1:1") and kit.plan())


def test_another_rack_than_the_plans_is_said(kit):
    kit.pack()
    (kit.folder / "copy.csv").write_bytes(kit.rack.read_bytes())
    said = kit.run("plan", kit.job, kit.folder / "copy.csv")
    assert "Mind: it was made from" in said and "rack.csv, and copy.csv is another file." in said
    assert "Mind" not in kit.plan()


def _buy(kit, tag: str) -> None:
    rows = kit.rack.read_text().splitlines()
    new = f"1,{tag},3/4 in,3/4 in,1/8 in,,1/8 in,,,6061-T6,144 in,new,1/4 in,1/4 in,no,no,,"
    kit.rack.write_text("\n".join([*rows, new + "," * (rows[0].count(",") - new.count(","))]) + "\n")


def test_a_stick_that_another_job_has_cut(kit):
    """Two jobs on one rack: what one has taken from the other's plan is said by its name, also where it is taken back."""
    other = kit.folder / "other.toml"
    other.write_text(kit.job.read_text().replace("Small kit", "Other kit"))
    kit.pack()
    kit.run("plan", other, kit.rack, "--done", "S-1: 2 x A")
    said = kit.plan(code=2)
    assert "was made of other things: S-1 was cut for Other kit. Put that back, or plan anew" in said
    assert "5 of 5 pieces are planned" in kit.plan("--anew")
    assert "Taken back: S-1, which was cut for Other kit, is on the rack again, in its place; S-1-R1 is not." in kit.plan("--undo", "S-1")
    assert "S-1 was cut for" not in kit.plan()
