"""The plan that was printed, followed by the command line: every mark says what the paper in hand shows, or is refused in words."""

from __future__ import annotations

import csv
import json
import re
from collections import Counter
from fractions import Fraction as F
from pathlib import Path

import pytest

from anglelib.__main__ import main
from anglelib.files import read_both, read_record
from anglelib.files.journal import journal_path
from anglelib.lengths import read

DEMO = Path(__file__).resolve().parents[2] / "notebooks" / "demo"


@pytest.fixture
def kit(tmp_path, monkeypatch):
    monkeypatch.setattr("anglelib.terminal.command._bears", lambda now, clock: [])  # what a plan bears is tested elsewhere, and takes its time
    for module in ("command", "cuts"):
        monkeypatch.setattr(f"anglelib.terminal.{module}.still_bears", lambda *_: [])
    for name in ("job.toml", "rack.csv"):
        (tmp_path / name).write_bytes((DEMO / name).read_bytes())
    return tmp_path


class Bench:
    """A builder at the command line, with the sheets of the last print."""

    def __init__(self, folder: Path, capsys):
        self.folder, self.capsys = folder, capsys
        self.files = [str(folder / "job.toml"), str(folder / "rack.csv")]

    def run(self, command: str, *words: str, code: int = 0) -> str:
        assert main([command, *self.files, *words]) == code, self.capsys.readouterr()
        out = self.capsys.readouterr()
        assert "Traceback" not in out.out + out.err
        return re.sub(r"\s+", " ", out.out + out.err)

    def plan(self, *words: str, code: int = 0) -> str:
        return self.run("plan", *words, code=code)

    def pack(self, *words: str) -> str:
        return self.run("pack", "--out", str(self.folder / "pack"), "--sheets", "tags", *words)

    @property
    def paper(self) -> dict:
        """The plan file, read as plain JSON."""
        return json.loads((self.folder / "job.plan.json").read_text())

    def sheet(self, stick: str) -> dict:
        return next(s for section in self.paper["sections"] for s in section["sticks"] if s["stick"]["id"] == stick)

    def rows(self, stick: str) -> list[tuple[str, F]]:
        """What the rows of a sheet give: parts with their sawn lengths."""
        sheet = self.sheet(stick)
        found = [(c["blank"]["part"], read(c["blank"]["length"])) for c in sheet.get("cuts", ()) if "blank" in c]
        return found + [(p["blank"]["part"], read(p["blank"]["length"])) for p in sheet.get("placed", ()) if not p["sawn"]]

    def sticks(self) -> list[str]:
        return [s["stick"]["id"] for section in self.paper["sections"] for s in section["sticks"] if s.get("cuts") or s.get("placed")]

    def marked(self, stick: str) -> list[tuple[str, F]]:
        old = read_record(self.files[1]).cut_stick(stick)
        return [(p.part_id, p.length) for p in old.pieces for _ in range(p.number)]

    def edit(self, file: str, old: str, new: str) -> None:
        path = self.folder / file
        text = path.read_text()
        assert old in text
        path.write_text(text.replace(old, new, 1))

    def follow(self, stick: str) -> None:
        """A stick is cut as its sheet says, with the number that stands on it."""
        paper = sorted(self.rows(stick))
        self.plan("--done", stick, "--plan", self.paper["number"].lower())
        assert sorted(self.marked(stick)) == paper, stick


def metal(path: Path) -> tuple[F, F, F]:
    """The rack file read by hand: what lies on the rack, what is in pieces, what is neither (blade, ends)."""
    rows = list(csv.DictReader(path.read_text().lstrip("\ufeff").splitlines()))
    left: Counter = Counter()
    for row in rows:
        left[row.get("cut_from", "")] += read(row["length"])
    rack, pieces, lost = F(0), F(0), F(0)
    for row in rows:
        if not row["kind"].startswith("cut"):
            rack += read(row["length"])
            continue
        sawn = back = F(0)
        for text in row["cut_into"].split("; "):
            number, _, at, leaves = re.fullmatch(r"(\d+) x (\S+) at (.*? in)(?: spoiled)?(?: leaves (.*? in))?(?: as \w+)?(?: for \w+)?", text).groups()
            sawn += int(number) * read(at)
            back += int(number) * read(leaves) if leaves else 0
        pieces += sawn - back
        gone = read(row["length"]) - sawn + back - left[row["stick_id"]]
        cuts = len(re.findall("x", row["cut_into"]))
        assert 0 <= gone < 3 + F(1, 8) * 40 and cuts, row["stick_id"]
        lost += gone
    return rack, pieces, lost


def test_the_demo_is_followed_to_its_last_piece(kit, capsys):
    bench = Bench(kit, capsys)
    whole = sum(read(row["length"]) for row in csv.DictReader((DEMO / "rack.csv").read_text().splitlines()))
    said = bench.pack()
    number = bench.paper["number"]
    assert f"It is plan {number}" in said and bench.paper["printed"]
    sticks = bench.sticks()
    # a stick half-way, several at once, one to its end
    paper = bench.rows("S-20")
    bench.plan("--done", "S-20:6", "--done", "S-21, S-22", "--plan", number)
    assert bench.marked("S-20") == paper[:5] and sorted(bench.marked("S-21")) == sorted(bench.rows("S-21"))
    # a purchase: the plan holds, and the sheets in hand are what is marked
    bench.edit("rack.csv", "\n1,S-20-P6", "\n1,S-90,3/4 in,3/4 in,1/8 in,,1/8 in,,,6061-T6,144 in,new,1/4 in,1/4 in,no,no,,bought,,,,,,,\n1,S-20-P6")
    whole += 144
    assert "not thought of in it: S-90" in bench.plan()
    bench.follow("S-20")
    bench.follow("S-02")
    # two spoiled pieces: the metal of one is good for something
    first = bench.rows("S-02")[0][0]
    assert "Back on the rack: S-02-S1, 80 long" in bench.plan("--spoiled", f"S-02: {first} leaves 80")
    bench.plan("--spoiled", f"S-21: {bench.rows('S-21')[0][0]} scrap")
    # a stick goes into something else
    left = [name for name in sticks if name not in ("S-20", "S-21", "S-22", "S-02")]
    other = next(name for name in left if name.startswith("S-3"))
    bench.plan("--used", other)
    refused = bench.plan("--done", other, code=2)
    assert f"{other} is cut already" in refused
    # another blade, in the middle of a stick
    half = "S-03" if "S-03" in left else left[0]
    bench.plan("--done", f"{half}:2")
    bench.edit("job.toml", 'kerf = "1/16"', 'kerf = "3/32"')
    still = next(name for name in left if name not in (other, half))
    refused = bench.plan("--done", still, code=2)
    assert "the kerf was 1/16 and is 3/32" in refused and "--as-printed" in refused
    bench.plan("--done", still, "--as-printed")  # it was sawn before the blade was changed
    assert sorted(bench.marked(still)) == sorted(bench.rows(still))
    refused = bench.plan(code=2)
    assert f"Plan {number}, which is in hand, was made of other things: the kerf was" in refused and "--anew" in refused
    started = bench.rows(half)[len(bench.marked(half)) :]
    code = 3 if main(["plan", *bench.files, "--anew"]) == 3 else 0
    said = re.sub(r"\s+", " ", capsys.readouterr().out)
    assert "against the sheets in hand" in said and bench.paper["number"] != number
    rest = next(s.id for s in read_record(bench.files[1]).rack.sticks if s.id in read_record(bench.files[1]).children(half))
    if started:
        assert not Counter(p for p, _ in started) - Counter(p for p, _ in bench.rows(rest)), "what was started has moved"
    older_number = bench.plan("--done", left[-1], "--plan", number, code=2)
    assert f"is of plan {number}, and the plan in hand is {bench.paper['number']}" in older_number
    # an older rack is saved back
    older = (kit / "rack.csv").read_bytes()
    next_one = bench.sticks()[0]
    bench.follow(next_one)
    (kit / "rack.csv").write_bytes(older)
    refused = bench.plan("--done", bench.sticks()[1], code=2)
    assert f"It has lost: {next_one} was cut into" in refused and "--mend" in refused
    assert f"Put back in rack.csv: {next_one}" in bench.plan("--mend")
    # to the last piece; what is short at the end is bought
    job, _ = read_both(*bench.files)
    for _ in range(3):
        for stick in bench.sticks():
            if stick not in {old.stick.id for old in read_record(bench.files[1]).cut}:
                bench.follow(stick)
        if read_record(bench.files[1]).still_wanted(job) is None:
            break
        lacking = read_record(bench.files[1]).still_wanted(job).parts
        rows = []
        for n, part in enumerate(lacking, 1):
            s = part.section
            rows.append(f"1,Q-{len(journal_path(bench.files[1]).read_text())}-{n},{s.leg_a} in,{s.leg_b} in,{s.thickness_a} in,,{s.fillet} in,,,{part.alloy},144 in,new,1/4 in,1/4 in,no,no,,,,,,,,,")
            whole += 144
        bench.edit("rack.csv", "\n", "\n" + "\n".join(rows) + "\n")
        assert main(["plan", *bench.files, "--anew"]) == 0
        capsys.readouterr()
    assert code in (0, 3)
    record = read_record(bench.files[1])
    assert record.made(job) == Counter({part.id: part.quantity for part in job.parts})
    assert "everything is marked as made" in bench.plan()
    rack, pieces, lost = metal(kit / "rack.csv")
    assert rack + pieces + lost == whole


def test_marks_do_not_plan(kit, capsys, monkeypatch):
    """A mark is read off the plan file: neither the planner nor the solver is asked."""
    bench = Bench(kit, capsys)
    bench.plan()

    def never(*_, **__):
        raise AssertionError("planned again")

    for name in ("anglelib.stock.planner.plan", "anglelib.stock.replan.replan", "anglelib.stock.settle.settle"):
        monkeypatch.setattr(name, never)
    bench.plan("--done", "S-05:2", "--done", "S-06")
    bench.plan("--done", "S-05")
    assert sorted(bench.marked("S-05")) == sorted(bench.rows("S-05"))


def test_what_is_cut_part_way_is_taken_up_by_either_tag(kit, capsys):
    bench = Bench(kit, capsys)
    bench.plan()
    assert "rows 1 to 2 of plan" in bench.plan("--done", "S-05: row 2")
    assert "is marked to row 2 already" in bench.plan("--done", "S-05:2", code=2)
    assert "has 3 rows, and row 9 is said to be done" in bench.plan("--done", "S-05:9", code=2)
    bench.plan("--done", "S-05-P2:3")  # the tag that the rest has on the rack
    assert sorted(bench.marked("S-05")) == sorted(bench.rows("S-05")) and not read_record(bench.files[1]).cut_stick("S-05").rows
    before = [s.id for s in read_record(bench.files[1]).rack.sticks]
    bench.plan("--undo", "S-05")
    after = [s.id for s in read_record(bench.files[1]).rack.sticks]
    assert after == [*before[:4], "S-05", *before[4:]]


def test_a_revised_part_is_not_made_and_it_is_asked(kit, capsys):
    bench = Bench(kit, capsys)
    bench.plan()
    bench.plan("--done", "S-05")
    record = read_record(bench.files[1])
    made = record.made("Demo kit")["A3"]
    assert made
    bench.edit("job.toml", 'length = "17 1/4"', 'length = "17 3/8"')
    bench.edit("job.toml", 'x = "16 3/4"', 'x = "16 7/8"')
    said = bench.plan("--anew", code=3)  # the old pieces took the metal of one
    assert re.search(rf"A3 is version \w{{6}} in this job, and {made} from S-05 on [\d-]+ to version \w{{6}} (was|were) made", said) and "--serves A3" in said
    job, record = read_both(*bench.files)
    assert record.made(job)["A3"] == 0 and record.still_wanted(job).part("A3").quantity == 4
    bench.plan("--serves", "A3")
    assert read_record(bench.files[1]).made(job)["A3"] == made


def test_another_job_of_the_same_name_has_made_nothing(kit, capsys):
    """A job that has an id of its own is no other; without one its parts tell."""
    bench = Bench(kit, capsys)
    bench.edit("job.toml", 'name = "Demo kit"', 'name = "Demo kit"\nid = "7KQ4M2TX"')
    bench.plan()
    bench.plan("--done", "S-05")
    bench.edit("job.toml", "7KQ4M2TX", "9WWJ22CC")
    job, record = read_both(*bench.files)
    assert not record.made(job) and record.still_wanted(job) == job


def test_a_plan_file_that_was_changed_by_hand_is_refused(kit, capsys):
    bench = Bench(kit, capsys)
    bench.plan()
    whole = (kit / "job.plan.json").read_text()
    (kit / "job.plan.json").write_text(whole.replace('"part": "A3"', '"part": "A4"', 1))
    assert "says other things than when it was written" in bench.plan("--done", "S-05", code=2)
    (kit / "job.plan.json").write_text(whole[: len(whole) // 2])
    assert "is no plan file, or only part of one" in bench.plan("--done", "S-05", code=2)
    assert "No plan is kept" not in bench.plan("--done", "S-05: A3")
    assert bench.plan("--anew").startswith("Demo kit:") and (kit / "job.plan.json.unreadable").exists()


def test_a_pack_that_was_broken_off_leaves_the_plan_of_the_paper_in_hand(kit, capsys, monkeypatch):
    bench = Bench(kit, capsys)
    bench.pack()
    number = bench.paper["number"]
    bench.edit("job.toml", "quantity = 24", "quantity = 20")

    def full(*_, **__):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("anglelib.paper.command.write_pack", full)
    assert "No space left" in bench.run("pack", "--out", str(kit / "pack"), "--sheets", "tags", "--anew", code=2)
    assert bench.paper["number"] == number


def test_an_unprinted_plan_follows_the_files_and_says_so(kit, capsys):
    bench = Bench(kit, capsys)
    bench.plan()
    number = bench.paper["number"]
    bench.edit("job.toml", "quantity = 24", "quantity = 20")
    assert f"It takes the place of {number}, which was not printed." in bench.plan()


def test_the_lock_of_a_spreadsheet_is_a_warning(kit, capsys):
    bench = Bench(kit, capsys)
    (kit / ".~lock.rack.csv#").write_text("x")
    assert "rack.csv is open in a spreadsheet (.~lock.rack.csv#)" in bench.plan("--done", "S-05: A3")


def test_more_made_than_asked_is_told_by_row(kit, capsys):
    bench = Bench(kit, capsys)
    bench.plan("--done", "S-01: 4 x A3")
    bench.edit("job.toml", 'length = "17 1/4"\nquantity = 4', 'length = "17 1/4"\nquantity = 3')
    assert re.search(r"rack.csv, row \d+, cut_into: 4 of A3 are marked as made, and 3 are wanted", bench.plan(code=2))
