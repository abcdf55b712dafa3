"""One order for several jobs, and one beside the metal of others: what is bought, what is said of it, what came, what a plan then makes."""

from __future__ import annotations

import csv
import io
import json
import random
import re
from collections import Counter
from pathlib import Path

import pypdfium2
import pytest

from anglelib.__main__ import main
from anglelib.files import read_both, read_record
from anglelib.files.rack_record import look_at
from anglelib.lengths import read
from anglelib.stock.planner import plan

JOB = """format = 1
name = "{name}"
id = "{name}-1"
unit = "{unit}"
limits = "1/64 in"
{more}
[section.s]
leg_a = "3/4 in"
leg_b = "3/4 in"
thickness_a = "1/8 in"
fillet = "1/8 in"
"""
PART = '[[part]]\nid = "{0}"\nname = "{1}"\nsection = "s"\nalloy = "6061-T6"\nlength = "{2} in"\nquantity = {3}\n{4}\n'
HEAD = "format,stick_id,leg_a,leg_b,thickness_a,fillet,alloy,length,quantity,trim_1,trim_2,kind,lot\n"
ROW = "1,{0},3/4 in,3/4 in,1/8 in,1/8 in,6061-T6,{1} in,{2},1/4 in,1/4 in,new,{3}\n"
LENGTHS = "48,72"
TAIL, WING = [("A3", "Bar", 45, 2, "")], [("A3", "Rib", 30, 1, ""), ("B1", "Brace", 45, 1, "")]


class Bench:
    """A builder with two jobs on one rack, of which one stick is for sale in two lengths."""

    def __init__(self, folder: Path, capsys, unit: str = "in", tail=TAIL, wing=WING, rack=(("S-04", 46, "", ""),), more: str = ""):
        self.folder, self.capsys = folder, capsys
        for name, parts in (("tail", tail), ("wing", wing)):
            (folder / f"{name}.toml").write_text(JOB.format(name=name.title(), unit=unit, more=more) + "".join(PART.format(*part) for part in parts))
        self.rack = folder / "rack.csv"
        self.rack.write_text(HEAD + "".join(ROW.format(*row) for row in rack))

    def run(self, command: str, *words: str, rack: bool = True, code: int = 0) -> str:
        names = [str(self.folder / word) if word.endswith(".toml") else word for word in words]
        assert main([command, str(self.folder / "tail.toml"), *([str(self.rack)] if rack else []), *names]) == code, self.capsys.readouterr()
        out = self.capsys.readouterr()
        assert "Traceback" not in out.out + out.err
        return re.sub(r"\s+", " ", out.out + out.err)

    def paper(self, name: str) -> dict:
        return json.loads((self.folder / f"{name}.purchase.json").read_text())

    def lines(self, name: str) -> list[tuple]:
        """What is to be bought: (inches, how many), as the kept purchase has it."""
        return sorted((read(line["length"]), line["count"]) for section in self.paper(name)["purchase"]["sections"] for line in section["lines"])

    def said_by_plan(self, *words: str, code: int = 3) -> list[tuple]:
        """The same as plan --buy says it."""
        said = self.run("plan", "--buy", "48,72", *words, code=code).split("To buy ")[1].split("The runner-up")[0]
        found = re.search(r": buy (.*?);", said)
        numbers = {"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10}
        return sorted((read(length), numbers[word]) for word, length in re.findall(r"(\w+) (\d+(?:\.\d+ mm)?)", found[1])) if found else []


@pytest.fixture(autouse=True)
def quick(monkeypatch):
    """What a plan bears, its runner-up and what frees a part are tested elsewhere, and take their time."""
    for name in ("_bears", "_runner_up", "_freed"):
        monkeypatch.setattr(f"anglelib.terminal.command.{name}", lambda now, clock: [])


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_one_order_for_two_jobs(tmp_path, capsys, unit):
    """Three of 45 and one of 30: the stick of 46 gives a 45 (it ends unsawn: 45 1/16 of 45 1/2), 48 and 48 the others, a third 48 the 30."""
    bench = Bench(tmp_path, capsys, unit)
    said = bench.run("buy", "--together", "wing.toml", "--lengths", "48 in,72 in", "--out", str(tmp_path / "out"))
    assert bench.lines("tail+wing") == [(48, 3)] and not (tmp_path / "tail.purchase.json").exists()
    assert "Tail + Wing: to buy" in said and "wing.A3" in said and "tail.A3" in said
    pages = pypdfium2.PdfDocument(str(tmp_path / "out" / "stock-to-buy.pdf"))
    words = re.sub(r"\s+", " ", " ".join(page.get_textpage().get_text_bounded() for page in pages))
    assert "for Tail + Wing" in words and "wing.A3" in words
    (row,) = csv.DictReader(io.StringIO((tmp_path / "out" / "stock-to-buy.csv").read_text()))
    serves = Counter({name: int(number or 1) for number, name in re.findall(r"(?:(\d+) x )?((?:tail|wing)\.\w+)", row["serves"])})
    assert serves["wing.A3"] == 1 and sum(serves.values()) == 3
    # what came: the rack is that of the purchase, and need not be named
    assert "tail+wing.purchase.json is: name its jobs as they were named" in bench.run("buy", "--bought", "1", code=2)
    number = bench.paper("tail+wing")["number"]
    assert f"LOOK: purchase {number} (tail+wing.purchase.json), for Tail + Wing, is on its way too" in bench.run("buy", "--lengths", "48 in")
    said = bench.run("buy", "--together", "wing.toml", "--bought", "1", "--lot", "H4711", rack=False)
    assert "S-05.1 to S-05.3" in said and "lot H4711" in said and "Everything can be made from the rack now." in said
    record = read_record(bench.rack)
    assert [(s.id, s.length, s.lot) for s in record.rack.sticks[1:]] == [(f"S-05.{n}", 48, "H4711") for n in (1, 2, 3)]
    assert len(bench.rack.read_text().splitlines()) == 3 and len(record.bought) == 3
    assert "nothing need be bought" in bench.run("buy", "--together", "wing.toml", rack=False)


def test_a_held_job_keeps_its_metal_and_nothing_is_bought_for_it(tmp_path, capsys):
    """The stick of 46 is the brace's; the two bars come from what is bought, and the rib, for which nothing is left, is said."""
    bench = Bench(tmp_path, capsys)
    bench.run("buy", "--lengths", LENGTHS)
    assert bench.lines("tail") == [(48, 1)]
    said = bench.run("buy", "--hold", "wing.toml", "--lengths", LENGTHS, "--out", str(tmp_path / "out"))
    assert bench.lines("tail") == [(48, 2)]
    assert "Not bought for: 1 of wing.A3, which is only held; the rack has no metal for it." in said
    pages = pypdfium2.PdfDocument(str(tmp_path / "out" / "stock-to-buy.pdf"))
    assert "Not bought for: 1 of wing.A3" in re.sub(r"\s+", " ", " ".join(page.get_textpage().get_text_bounded() for page in pages))
    assert bench.said_by_plan("--hold", "wing.toml", "--anew") == [(48, 2)]
    bench.run("buy", "--hold", "wing.toml", "--bought", "1: 48")
    for _ in range(2):  # what came for the bars is not the rib's, by a new purchase neither
        bench.run("buy", "--hold", "wing.toml", "--lengths", LENGTHS, "--anew")
        assert bench.lines("tail") == bench.said_by_plan("--hold", "wing.toml", "--anew", code=0) == [(48, 1)]
    assert bench.run("buy", "--hold", "wing.toml", "--bought", "1").count("Everything can be made") == 1
    job, record = read_both(str(tmp_path / "tail.toml"), str(bench.rack), [str(tmp_path / "wing.toml")])
    assert [short.part_id for short in plan(job, record.rack).shortages] == ["wing.A3"]
    assert "nothing need be bought: everything can be made from the rack. Not bought for: 1 of wing.A3" in bench.run("buy", "--hold", "wing.toml", "--anew")


def test_what_is_left_is_left_once_what_is_held_is_made_too(tmp_path, capsys):
    """Of the two 48 one gives the second bar; in the other two of 20 are held: 48 - 1/2 - 2 x (20 1/16 + 1/16) is 7 1/4. Of the 46 nothing is left."""
    bench = Bench(tmp_path, capsys, wing=[("B1", "Rib", 20, 2, "")])
    said = bench.run("buy", "--hold", "wing.toml", "--lengths", "48")
    assert bench.lines("tail") == [(48, 2)] and "of what is bought 7 1/4; of what is on the rack nothing" in said


def test_a_held_part_that_may_not_be_spliced_is_warned_of(tmp_path, capsys):
    bench = Bench(tmp_path, capsys, wing=[("A3", "Spar", 47, 1, "one_piece = true")], rack=())
    said = bench.run("buy", "--hold", "wing.toml", "--lengths", LENGTHS)
    assert bench.lines("tail") == [(48, 2)] and "wing.A3 may not be spliced: a plan with its job held gives it metal first, what is bought too." in said


@pytest.mark.parametrize("seed", range(4))
def test_plan_and_buy_say_the_same_lengths_and_they_suffice(tmp_path, capsys, seed):
    """Jobs at random, one of them with a throat: alone, held, together; and what is bought, planned with the other held, makes all that is the job's own."""
    rng = random.Random(f"several {seed}")

    def parts(ids: str) -> list:
        return [(name, "Bar", rng.randint(9, 46), rng.randint(1, 3), "") for name in ids]

    rack = [(f"S-{n}", rng.randint(12, 60), rng.choice(["", 2]), rng.choice(["", "H1"])) for n in range(rng.randint(0, 2))]
    throat = '[shop]\nthroat = "9 in"\n' if seed % 2 else ""
    bench = Bench(tmp_path, capsys, tail=[*parts("AB"), ("Z", "Bar", 46, 4, "")], wing=parts("AC"), rack=rack, more=throat)
    for words, name in (((), "tail"), (("--hold", "wing.toml"), "tail"), (("--together", "wing.toml"), "tail+wing")):
        bench.run("buy", "--lengths", LENGTHS, "--anew", *words)
        assert bench.lines(name) == bench.said_by_plan(*words, "--anew")
        if "--hold" in words:
            bench.run("buy", *words, "--bought", "all")
            job, record = read_both(str(tmp_path / "tail.toml"), str(bench.rack), [str(tmp_path / "wing.toml")])
            assert not [short for short in plan(job, record.rack).shortages if job.held_for(short.part_id) is None]
            bench.run("buy", *words, "--undo", ",".join(sorted({str(one.line) for one in record.bought})))


def test_plan_in_hand_and_buy_say_the_same_lengths_once_some_are_cut(tmp_path, capsys):
    """The stick of 46 gives a bar of three; one 48 of two came and is cut too: a 48 is still to be bought, whoever says it."""
    bench = Bench(tmp_path, capsys, tail=[("A3", "Bar", 45, 3, "")])
    bench.run("pack", "--out", str(tmp_path / "pack"), "--sheets", "tags", code=3)
    bench.run("buy", "--lengths", LENGTHS)
    bench.run("plan", "--done", "S-04", rack=False)
    assert bench.lines("tail") == bench.said_by_plan() == [(48, 2)]
    bench.run("buy", "--bought", "1: 48", rack=False)
    bench.run("plan", "--done", "S-05: A3", rack=False)
    bench.run("buy", "--lengths", LENGTHS, "--anew")
    assert bench.lines("tail") == bench.said_by_plan() == bench.said_by_plan("--anew") == [(48, 1)]


def test_a_row_that_came_and_an_older_copy(tmp_path, capsys):
    """Six in one row: one of them back, one cut, an older copy saved over it: the journal knows each."""
    bench = Bench(tmp_path, capsys, tail=[("A3", "Bar", 45, 6, "")], rack=(("S-04", 40, 2, ""),))
    bench.run("buy", "--lengths", "48")
    old = bench.rack.read_bytes()
    assert "on the rack as S-05.1 to S-05.6 (48 each)" in bench.run("buy", "--bought", "1")
    bench.run("buy", "--undo", "S-05.6")
    assert [cells["quantity"] for cells in csv.DictReader(bench.rack.read_text().splitlines())] == ["2", "5"]
    bench.run("plan", "--done", "S-05.2: A3")
    now = read_record(bench.rack)
    bench.rack.write_bytes(old)
    assert {one.stick_id for one in look_at(bench.rack).lost} >= {f"S-05.{n}" for n in (1, 2, 3, 4, 5)}
    bench.run("plan", "--mend")
    again = read_record(bench.rack)
    assert (set(again.rack.sticks), again.cut, again.bought) == (set(now.rack.sticks), now.cut, now.bought)
    assert "S-05.2 is cut already" in bench.run("buy", "--undo", "1", code=2)
    bench.run("plan", "--undo", "S-05.2")
    assert "Taken back: S-05.1 to S-05.5 are not on the rack." in bench.run("buy", "--undo", "S-05")
    assert [s.id for s in read_record(bench.rack).rack.sticks] == ["S-04.1", "S-04.2"]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--lot", "H1"), "say what did, too, like --bought 1 --lot H4711"),
        (("--lot", "H1", "--undo", "1"), "say what did, too"),
        (("--bought", "1", "--lot", " "), "No lot or heat number is given"),
        (("--bought", "1", "--lot", "H" * 41), "lot or heat number"),
        (("--hold", "rack.csv"), "python -m anglelib buy JOB RACK --hold"),
        (("--hold", "wing.toml", "--together", "wing.toml"), "is named twice"),
    ],
)
def test_what_cannot_be_meant_is_refused(tmp_path, capsys, words, said):
    bench = Bench(tmp_path, capsys)
    bench.run("buy", "--lengths", LENGTHS)
    before = bench.rack.read_bytes()
    assert said in bench.run("buy", *words, code=2) and bench.rack.read_bytes() == before


def test_without_a_rack_and_a_purchase_it_is_asked_for(tmp_path, capsys):
    assert "Name the rack file too: python -m anglelib buy JOB RACK." in Bench(tmp_path, capsys).run("buy", rack=False, code=2)


def test_a_rack_that_was_renamed_is_named_once(tmp_path, capsys):
    bench = Bench(tmp_path, capsys)
    bench.run("buy", "--lengths", LENGTHS)
    bench.rack = bench.rack.rename(tmp_path / "shop.csv")
    assert "The rack of the purchase in hand is not at" in bench.run("buy", "--bought", "1", rack=False, code=2)
    bench.run("buy", "--lengths", LENGTHS)
    assert "on the rack as S-05 (48)" in bench.run("buy", "--bought", "1", rack=False)
