"""The runner-up picked on the command line: the plan file, the sheets, the marks and the next day's plan all are of the pick."""

from __future__ import annotations

import json
import re
from collections import Counter
from pathlib import Path

import pytest

from anglelib.__main__ import main
from anglelib.drawing.sheet import Label
from anglelib.files import read_job, read_rack, read_record, save_job, save_rack
from anglelib.files.plan_file import parse_plan, read_plan, render_plan
from anglelib.job import Job, Shop
from anglelib.paper.pack import make_pack
from anglelib.paper.page import A4
from anglelib.part import Part, Taper
from anglelib.section import Section
from anglelib.stock.in_hand import in_hand
from anglelib.stock.plan import Plan
from anglelib.stock.planner import plan
from anglelib.stock.rack import Rack, Stick
from anglelib.stock.runner_up import runner_ups, with_picks

STOCK, OTHER = Section("3/4", "3/4", "1/8", fillet="1/8"), Section(1, 1, "1/8", fillet="1/8")


@pytest.fixture
def kit(tmp_path, monkeypatch):
    monkeypatch.setattr("anglelib.terminal.command._bears", lambda now, clock: [])
    parts = [
        Part("A1L", "Cleat", STOCK, "6061-T6", 20, [Taper("A", 1, "3/8", run=1)], mirror_of="A1R"),
        Part("A1R", "Cleat", STOCK, "6061-T6", 20, [Taper("B", 1, "3/8", run=1)], mirror_of="A1L"),
        Part("A2", "Bar", STOCK, "6061-T6", 40),
        Part("B1", "Bar", OTHER, "6061-T6", 12, quantity=2),
    ]
    sticks = [
        Stick("S-1", STOCK, "6061-T6", 96),
        Stick("S-2", STOCK, "6061-T6", 60, remnant=True),
        Stick("S-3", STOCK, "6061-T6", 42, remnant=True),
        Stick("S-9", OTHER, "6061-T6", 30),
    ]
    save_job(Job("Pick", Shop(), parts), tmp_path / "job.toml")
    save_rack(Rack(sticks), tmp_path / "rack.csv")
    return tmp_path


def run(kit: Path, capsys, command: str, *words: str, code: int = 0) -> str:
    assert main([command, str(kit / "job.toml"), str(kit / "rack.csv"), *words]) == code, capsys.readouterr()
    out = capsys.readouterr()
    return re.sub(r"\s+", " ", out.out + out.err)


def paper(kit: Path) -> dict:
    """The plan file as plain JSON."""
    return json.loads((kit / "job.plan.json").read_text())


def gives(section: dict) -> dict[str, Counter]:
    """What each stick of a section gives, by the file."""
    return {s["stick"]["id"]: Counter(p["blank"]["part"] for p in s["placed"]) for s in section["sticks"] if s.get("placed")}


def given(made: Plan, n: int) -> dict[str, Counter]:
    return {s.stick.id: Counter(p.blank.part.id for p in s.placed) for s in made.groups[n].sticks if s.placed}


def test_what_is_picked_is_what_file_sheets_and_marks_say(kit, capsys):
    job, rack = read_job(kit / "job.toml"), read_rack(kit / "rack.csv")
    rule = plan(job, rack)
    (other,) = (one for one in runner_ups(job, rack, rule) if one.group is not None)
    n = other.number - 1
    wanted = with_picks(rule, [other])
    assert given(wanted, n) != given(rule, n)
    said = run(kit, capsys, "plan")
    assert f"{other.number}. {other.title}: {other.sentence}" in said and "--pick" in said
    by_rule = paper(kit)
    assert [section["picked"] for section in by_rule["sections"]] == [{"plan": "by-the-rule"}] * 2
    said = run(kit, capsys, "plan", "--pick", str(other.number))
    file = paper(kit)
    assert file["number"] != by_rule["number"] and file["sections"][n]["picked"]["plan"] == "runner-up"
    assert gives(file["sections"][n]) == given(wanted, n) and gives(file["sections"][1 - n]) == given(rule, 1 - n)
    trade = other.group.picked.sentence
    assert f"The runner-up is picked here: against the plan by the rule {trade}." in said
    title = f"{file['number']} (runner-up in section {other.number})"
    assert f"Plan {title}" in said and f"Plan {title}" in run(kit, capsys, "plan")  # asked again, it is still picked
    # the sheets
    hand = read_plan(kit / "job.toml", job).hand
    pack = make_pack(job, rack, A4, sheets=("plan", "tags"), plan=hand.plan, number=hand.title)
    for sheet in pack.sheets:
        assert any(isinstance(item, Label) and f"plan {title}" in item.text for item in sheet.items), sheet.title
    printed = " ".join(item.text for sheet in pack.sheets for item in sheet.items if isinstance(item, Label))
    assert "The runner-up is picked here" in re.sub(r"\s+", " ", printed)
    assert f"It is plan {title}" in run(kit, capsys, "pack", "--out", str(kit / "pack"), "--sheets", "tags")
    assert "lay its sheets away" in run(kit, capsys, "plan", "--pick", "0", code=2)
    # the marks, and the days after
    first, *rest = gives(file["sections"][n])
    run(kit, capsys, "plan", "--done", first, "--plan", file["number"])
    cut = read_record(kit / "rack.csv").cut_stick(first)
    assert Counter({p.part_id: p.number for p in cut.pieces}) == gives(file["sections"][n])[first]
    assert "The runner-up is picked here" in run(kit, capsys, "plan")
    assert "what was picked in it stays" in run(kit, capsys, "plan", "--pick", "0", code=2)
    said = run(kit, capsys, "plan", "--anew")
    assert "No stick changes against the sheets in hand" in said and "The runner-up is picked here" in said
    left = gives(paper(kit)["sections"][n])
    assert left == {name: gives(file["sections"][n])[name] for name in rest} and paper(kit)["sections"][n]["picked"]["plan"] == "runner-up"


def test_back_to_the_rule_and_no_such_section(kit, capsys):
    run(kit, capsys, "plan")
    number = paper(kit)["number"]
    picked = next(n for n in (1, 2) if main(["plan", str(kit / "job.toml"), str(kit / "rack.csv"), "--pick", str(n)]) == 0)
    assert paper(kit)["number"] != number
    assert "has no runner-up to pick" in run(kit, capsys, "plan", "--pick", str(3 - picked), code=2)
    assert "There is no section 7 in this plan: it has 2" in run(kit, capsys, "plan", "--pick", "7", code=2)
    assert paper(kit)["sections"][picked - 1]["picked"]["plan"] == "runner-up"  # what was refused has changed nothing
    run(kit, capsys, "plan", "--pick", "0")
    assert paper(kit)["number"] == number


def test_where_the_job_changes_before_the_print_the_pick_stays(kit, capsys):
    run(kit, capsys, "plan")
    n = next(n for n in (1, 2) if main(["plan", str(kit / "job.toml"), str(kit / "rack.csv"), "--pick", str(n)]) == 0)
    text = (kit / "job.toml").read_text()
    (kit / "job.toml").write_text(text.replace("quantity = 2", "quantity = 1", 1))
    run(kit, capsys, "plan")
    assert paper(kit)["sections"][n - 1]["picked"]["plan"] == "runner-up"


def test_a_stick_that_came_since_and_a_note_are_no_matter(kit, capsys):
    said = run(kit, capsys, "pack", "--out", str(kit / "pack"), "--sheets", "tags")
    first = run(kit, capsys, "plan")
    rack = read_rack(kit / "rack.csv")
    noted = [Stick(s.id, s.section, s.alloy, s.length, remnant=s.remnant, note="by the door") for s in rack.sticks]
    (kit / "rack.csv").unlink()
    save_rack(Rack([*noted, Stick("S-4", STOCK, "6061-T6", 21, remnant=True)]), kit / "rack.csv")
    again = run(kit, capsys, "plan")
    assert "not thought of in it: S-4" in again and said
    assert again.partition("The runner-up")[2] == first.partition("The runner-up")[2] != ""


def test_out_of_time_it_is_given_up_first_and_said(kit, capsys, monkeypatch):
    from anglelib.stock import runner_up
    from anglelib.terminal import clock

    monkeypatch.setattr(clock.Clock, "over", property(lambda self: self._end is not None))
    monkeypatch.setattr(runner_up, "runner_ups", lambda *_, **__: pytest.fail("looked for all the same"))
    assert "The runner-up It was not looked for: the time given is over." in run(kit, capsys, "plan", "--within", "50")


def test_a_plan_file_of_before_is_read(kit):
    """One that knows neither levels 5 and 6 nor picks has the number that it had."""
    job, rack = read_job(kit / "job.toml"), read_rack(kit / "rack.csv")
    made = plan(job, rack)
    old = Plan(made.job_name, made.shop, tuple(type(g)(g.section, g.alloy, g.sticks, g.shortages, g.left, g.proofs[:4]) for g in made.groups), False, 0.0)
    hand = in_hand(old, job, made_on="2024-05-01")
    said = json.loads(render_plan(hand))
    for section in said["sections"]:
        del section["picked"]
    again = parse_plan(json.dumps(said), job)
    assert again.number == hand.number == hand.title and again.picked == ()
    assert [g.proofs for g in again.plan.groups] == [g.proofs for g in old.groups]


def test_the_pick_comes_back_from_the_file_as_it_was(kit):
    job, rack = read_job(kit / "job.toml"), read_rack(kit / "rack.csv")
    made = plan(job, rack)
    hand = in_hand(with_picks(made, runner_ups(job, rack, made)), job, made_on="2024-05-01")
    again = parse_plan(render_plan(hand), job)
    assert hand.picked and again.number == hand.number
    assert [(g.picked, g.proofs, g.left) for g in again.plan.groups] == [(g.picked, g.proofs, g.left) for g in hand.plan.groups]
