"""Several jobs, one rack, at the command line: nothing is typed twice, every sheet says which job a piece is for, every mark finds its job."""

from __future__ import annotations

import json
import re
from collections import Counter
from pathlib import Path

import pytest

from anglelib.__main__ import main
from anglelib.files import read_both, read_record
from anglelib.paper.page import A4
from anglelib.paper.receiving import receiving_pages

JOB = """format = 1
name = "{name}"
{more}
[section.s]
leg_a = "3/4 in"
leg_b = "3/4 in"
thickness_a = "1/8 in"
fillet = "1/8 in"
"""
PART = """[[part]]
id = "{0}"
name = "{1}"
section = "s"
alloy = "6061-T6"
length = "{2}"
quantity = {3}
{4}
"""
RACK = """format,stick_id,leg_a,leg_b,thickness_a,fillet,alloy,length,quantity,trim_1,trim_2,kind,lot
1,S-04,3/4 in,3/4 in,1/8 in,1/8 in,6061-T6,96 in,2,0,0,new,H4711
1,S-03,3/4 in,3/4 in,1/8 in,1/8 in,6061-T6,40 in,,0,0,new,
1,S-05,3/4 in,3/4 in,1/8 in,1/8 in,6061-T6,50 in,,0,0,remnant,H12
"""
TAIL = [("A3", "Floor bar", "17 1/4 in", 4, 'pinned = [{stick = "S-03", quantity = 2}]\nnot_from = ["S-05"]'), ("A4", "Brace", "30 in", 2, "")]
WING = [("A3", "Longeron", "90 in", 1, "one_piece = true"), ("B1", "Clip", "3 in", 3, "")]


class Bench:
    """A builder at the command line with two kits and a rack."""

    def __init__(self, folder: Path, capsys, unit: str):
        self.folder, self.capsys = folder, capsys
        units = f'unit = "{unit}"\nlimits = "1/64 in"'
        (folder / "tail.toml").write_text(JOB.format(name="Tail repair", more=f'id = "TAIL1"\n{units}') + "".join(PART.format(*part) for part in TAIL))
        (folder / "wing.toml").write_text(JOB.format(name="Wing kit", more=f'id = "WING1"\n{units}') + "".join(PART.format(*part) for part in WING))
        (folder / "rack.csv").write_text(RACK)

    def file(self, name: str) -> str:
        return str(self.folder / name)

    def run(self, command: str, job: str, *words: str, code: int = 0) -> str:
        names = [self.file(word) if word.endswith(".toml") else word for word in words]
        assert main([command, self.file(job), self.file("rack.csv"), *names]) == code, self.capsys.readouterr()
        out = self.capsys.readouterr()
        assert "Traceback" not in out.out + out.err
        return re.sub(r"\s+", " ", out.out + out.err)

    def plan(self, job: str, *words: str, code: int = 0) -> str:
        return self.run("plan", job, *words, code=code)

    def pack(self, job: str, *words: str) -> str:
        return self.run("pack", job, "--out", self.file("pack"), "--sheets", "plan,tags,record", *words)

    def paper(self, name: str) -> dict:
        return json.loads((self.folder / f"{name}.plan.json").read_text())

    def sheets(self, name: str) -> dict[str, list[str]]:
        """What the sheet of each stick gives, row by row."""
        sticks = [stick for section in self.paper(name)["sections"] for stick in section["sticks"]]
        return {s["stick"]["id"]: [c["blank"]["part"] for c in s["cuts"] if "blank" in c] for s in sticks if s.get("cuts")}

    def made(self, job: str) -> Counter:
        found, record = read_both(self.file(job), self.file("rack.csv"))
        return record.made(found)


@pytest.fixture(params=["in", "mm"])
def bench(request, tmp_path, monkeypatch, capsys):
    monkeypatch.setattr("anglelib.terminal.command._bears", lambda now, clock: [])
    return Bench(tmp_path, capsys, request.param)


def test_a_job_is_planned_with_the_other_held_and_marked_without_naming_it_again(bench):
    said = bench.plan("tail.toml", "--hold", "wing.toml")
    assert "Tail repair: 6 of 6 pieces are planned" in said and "Held for wing (Wing kit): 4 of its 4 pieces still to be cut have their metal." in said
    assert "2 of A3 come from S-03, none of it from S-05 (by the job)." in said and "lot H4711" in said
    assert bench.sheets("tail")["S-03"].count("A3") == 2 and all("wing" not in part for parts in bench.sheets("tail").values() for part in parts)
    assert "wing.A3" in json.dumps(bench.paper("tail")), "the metal of the longeron stands in the plan"
    bench.pack("tail.toml", "--hold", "wing.toml")
    stick = next(name for name, parts in bench.sheets("tail").items() if "A4" in parts)
    bench.plan("tail.toml", "--done", stick)
    assert bench.made("wing.toml") == Counter() and bench.made("tail.toml") == Counter(bench.sheets("tail")[stick])
    assert "as it is in hand" in bench.plan("tail.toml", "--hold", "wing.toml")
    assert "it holds metal for wing (Wing kit), which is not named now (--hold)" in bench.plan("tail.toml", code=2)


def test_the_held_job_that_changes_is_told_and_planned_anew(bench):
    bench.pack("tail.toml", "--hold", "wing.toml")
    path = bench.folder / "wing.toml"
    path.write_text(path.read_text().replace("quantity = 3", "quantity = 2"))
    assert "other parts of wing (Wing kit) are held" in bench.plan("tail.toml", "--hold", "wing.toml", code=2)
    assert "3 of its 3 pieces" in bench.plan("tail.toml", "--hold", "wing.toml", "--anew")


def test_all_together_each_mark_counts_for_its_job(bench):
    said = bench.pack("tail.toml", "--together", "wing.toml")
    number = bench.paper("tail+wing")["number"]
    assert f"It is plan {number}" in said
    every = bench.sheets("tail+wing")
    assert Counter(part for parts in every.values() for part in parts) == Counter({"tail.A3": 4, "tail.A4": 2, "wing.A3": 1, "wing.B1": 3})
    shared = next(name for name, parts in every.items() if len({part.split(".")[0] for part in parts}) == 2)
    bench.plan("tail.toml", "--together", "wing.toml", "--done", f"{shared}:1")
    for name in every:
        bench.plan("tail.toml", "--together", "wing.toml", "--done", name)
    assert bench.made("tail.toml") == Counter(A3=4, A4=2) and bench.made("wing.toml") == Counter(A3=1, B1=3)
    assert "nothing is left to plan" in bench.plan("tail.toml") and "nothing is left to plan" in bench.plan("wing.toml", "--hold", "tail.toml")
    part = next(part for part in every[shared] if part.startswith("wing."))
    bench.plan("tail.toml", "--together", "wing.toml", "--spoiled", f"{shared}: {part} scrap")
    assert bench.made("wing.toml")[part[5:]] == every[shared].count(part) - 1 + sum(parts.count(part) for name, parts in every.items() if name != shared)
    assert bench.made("tail.toml") == Counter(A3=4, A4=2)
    before = (bench.folder / "rack.csv").read_text()
    for name in every:
        bench.plan("tail.toml", "--together", "wing.toml", "--undo", name)
    assert bench.made("tail.toml") == bench.made("wing.toml") == Counter() and "S-04,3/4 in" in (bench.folder / "rack.csv").read_text() != before
    assert {stick.id for stick in read_record(bench.file("rack.csv")).rack.sticks} == {"S-04.1", "S-04.2", "S-03", "S-05"}


def test_two_plans_of_one_job_are_told_apart_by_their_number(bench):
    bench.plan("tail.toml")
    bench.pack("tail.toml", "--together", "wing.toml")
    joint = bench.paper("tail+wing")["number"]
    assert f"LOOK: plan {joint} (tail+wing.plan.json) is printed and cuts" in bench.plan("tail.toml")
    own = bench.paper("tail")["number"]
    assert "has a sheet in two plans" in bench.plan("tail.toml", "--done", "S-03", code=2)
    bench.plan("tail.toml", "--together", "wing.toml", "--done", "S-03")
    bench.plan("tail.toml")
    assert bench.paper("tail")["number"] != own and "S-03" not in bench.sheets("tail")


def test_a_plan_of_several_is_marked_by_naming_them(bench):
    bench.plan("tail.toml", "--together", "wing.toml")
    assert "tail+wing.plan.json is in hand" in bench.plan("tail.toml", "--done", "S-03", code=2)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--hold", "tail.toml"), "is named twice"),
        (("--hold", "wing.toml", "--together", "wing.toml"), "is named twice"),
        (("--hold", "gone.toml"), "gone.toml"),
        (("--hold", "rack.csv"), "is named as a job"),
    ],
)
def test_other_jobs_that_cannot_be_are_refused_in_words(bench, words, said):
    assert said in bench.plan("tail.toml", *words, code=2)


def test_faults_of_the_other_job_are_said_with_its_file(bench):
    path = bench.folder / "wing.toml"
    path.write_text(path.read_text().replace("one_piece = true", 'one_piece = true\npinned = [{stick = "S-99"}]'))
    assert "wing.toml, part A3, pinned 1: the stick S-99 is not on the rack" in bench.plan("tail.toml", "--hold", "wing.toml", code=2)


def test_one_part_now_thinks_of_the_held_job(bench):
    alone = bench.plan("tail.toml", "--one", "3/4 in x 3/4 in x 1/8 in", "6061-T6", "94 in")
    held = bench.plan("tail.toml", "--one", "3/4 in x 3/4 in x 1/8 in", "6061-T6", "94 in", "--hold", "wing.toml")
    assert "Wing kit" in held and "Wing kit" not in alone


def test_the_receiving_sheet_names_each_equal_stick_and_the_lots(bench):
    pages = receiving_pages(read_record(bench.file("rack.csv")).rack, A4)
    words = " ".join(item.text for page in pages for item in page.items if hasattr(item, "text"))
    assert "S-04.1" in words and "S-04.2" in words and "lot H4711" in words and "lot H12" in words


def test_a_plan_of_what_is_left_is_shown_again_as_it_was_printed(bench):
    """Some of a part were made before the plan: of the rest it is the plan still."""
    bench.plan("tail.toml", "--done", "S-04.2: A3")
    bench.pack("tail.toml", "--hold", "wing.toml")
    number = bench.paper("tail")["number"]
    assert f"Plan {number} of " in bench.plan("tail.toml", "--hold", "wing.toml")
    bench.plan("tail.toml", "--hold", "wing.toml", "--done", "S-03")
    assert f"Plan {number} of " in bench.plan("tail.toml", "--hold", "wing.toml")
