"""What to buy, from the command line: the purchase, its sheet, what came onto the rack and back, and what cannot be meant."""

from __future__ import annotations

import csv
import io
import json
import random
import re
from fractions import Fraction as F
from pathlib import Path

import pypdfium2
import pytest

from anglelib.__main__ import main
from anglelib.files import read_both, read_record
from anglelib.files.journal import journal_path
from anglelib.files.purchase_file import purchase_path
from anglelib.lengths import read
from anglelib.stock.planner import plan
from anglelib.stock.rack import Stick

JOB = """format = 1
name = "Tail kit"
{unit}
[shop]
kerf = "1/16 in"
allowance = "1/32 in"

[section."a"]
leg_a = "3/4 in"
leg_b = "3/4 in"
thickness_a = "1/8 in"
fillet = "1/8 in"

[section."b"]
leg_a = "1 1/2 in"
leg_b = "1 in"
thickness_a = "1/8 in"
fillet = "1/8 in"

[[part]]
id = "T1L"
name = "Tail bar, left"
section = "a"
alloy = "6061-T6"
length = "45 in"
quantity = 3
hand = "left"
tapers = [{{leg = "A", end = 1, run = "2 in", width_left = "3/8 in"}}]

[[part]]
id = "T2"
name = "Spar"
section = "b"
alloy = "6061-T6"
length = "88 in"
one_piece = true
"""
HEAD = "format,stick_id,leg_a,leg_b,thickness_a,thickness_b,fillet,toe_radius,heel_radius,alloy,length,kind,trim_1,trim_2,far_end_good,hands_off,dents,note"
RACK = f"""{HEAD}
1,S-07,3/4 in,3/4 in,1/8 in,,1/8 in,,,6061-T6,50 in,new,1/4 in,1/4 in,no,no,,
1,S-08,1 1/2 in,1 in,1/8 in,,1/8 in,,,6061-T6,60 in,remnant,1/16 in,1/16 in,no,no,,"=keep, ""as is"" here"
"""
OFFERS = """format,leg_a,leg_b,thickness_a,fillet,alloy,length,price,most
1,3/4 in,3/4 in,1/8 in,1/8 in,6061-T6,4 ft,$11.00,2
1,3/4 in,3/4 in,1/8 in,1/8 in,6061-T6,8 ft,$23.50,
1,1 in,1 1/2 in,1/8 in,1/8 in,6061-T6,2440 mm,$40.10,
"""


class Builder:
    """A builder with a job, a rack and a supplier's list."""

    def __init__(self, folder: Path, capsys, unit: str = "in"):
        self.folder, self.capsys = folder, capsys
        self.files = [str(folder / "job.toml"), str(folder / "rack.csv")]
        (folder / "job.toml").write_text(JOB.format(unit=f'unit = "{unit}"'))
        (folder / "rack.csv").write_text(RACK)
        (folder / "rack.offers.csv").write_text(OFFERS)

    def run(self, command: str, *words: str, code: int = 0) -> str:
        found = main([command, *self.files, *words])
        out = self.capsys.readouterr()
        assert found == code, out
        assert "Traceback" not in out.out + out.err
        return re.sub(r"\s+", " ", out.out + out.err)

    def buy(self, *words: str, code: int = 0) -> str:
        return self.run("buy", *words, code=code)

    @property
    def rack(self) -> bytes:
        return Path(self.files[1]).read_bytes()

    @property
    def paper(self) -> dict:
        """The purchase file, read as plain JSON."""
        return json.loads(purchase_path(self.files[0]).read_text())


@pytest.fixture
def builder(tmp_path, monkeypatch, capsys):
    monkeypatch.setattr("anglelib.terminal.command._bears", lambda now, clock: [])  # what a plan bears is tested elsewhere, and takes its time
    return Builder(tmp_path, capsys)


def test_one_purchase_over_all_sections(builder):
    """Two bars of 45 come from two lengths of 48 ($22.00) or one of 96 ($23.50); the third from the rack; the spar only from 2440 mm."""
    said = builder.buy()
    assert "1 2 x 48, $11.00 each, $22.00; for 2 x T1L" in said and "2 1 x 2440 mm, $40.10 each, $40.10; for T2" in said
    assert said.count("For less money there is proven not to be enough.") == 2 and "3 lengths" in said and "$62.10." in said
    assert "plans decide section, alloy and temper" in said and "1/4 at each end" in said
    # by hand: of each 48 there is left 48 - 2 x 1/4 - (45 + 2 x 1/32) - 1/16 = 2 3/8, too short to keep; of the rack's 60 nothing is taken
    assert "of what is bought nothing" in said.split("1 1/2 x 1 x 1/8")[0] and "of what is on the rack 60." in said
    quick = builder.run("plan", "--buy", code=3)
    assert "buy two 48, $22.00; then everything can be made. For less money" in quick and "one 2440 mm, $40.10" in quick


def test_without_a_list_the_usual_lengths(builder):
    (builder.folder / "rack.offers.csv").unlink()
    said = builder.buy()
    assert "1 x 96; for 2 x T1L" in said and "no price is known" in said and "Less is proven not to be enough." in said
    number = builder.paper["number"]
    other = builder.buy("--lengths", "60, 120", "--anew")
    assert "1 x 120; for" in other and f"It takes the place of {number}, which was not printed." in other
    assert "give one of them" in builder.buy("--lengths", "60", "--offers", "x.csv", code=2)


def test_the_sheet_says_what_the_terminal_says(builder, tmp_path):
    said = builder.buy("--out", str(tmp_path / "out"), "--paper", "a4")
    number = builder.paper["number"]
    pages = pypdfium2.PdfDocument(str(tmp_path / "out" / "stock-to-buy.pdf"))
    words = re.sub(r"\s+", " ", " ".join(page.get_textpage().get_text_bounded() for page in pages))
    for what in (f"purchase {number}", "$11.00", "$22.00", "$40.10", "$62.10", "2 x T1L", "2440 mm", "3/4 x 3/4 x 1/8, fillet 1/8", "6061-T6", "For less money", "temper", "came"):
        assert what in words, what
    rows = list(csv.DictReader(io.StringIO((tmp_path / "out" / "stock-to-buy.csv").read_text())))
    assert [(row["line"], row["number"], read(row["length"]), row["sum"], row["serves"]) for row in rows] == [
        ("1", "2", 48, "$22.00", "2 x T1L"), ("2", "1", F(24400, 254), "$40.10", "T2"),
    ]  # fmt: skip
    assert number in said and builder.paper["purchase"]["sent"]


def test_what_came_is_on_the_rack_and_the_plan_in_hand_says_so(builder):
    builder.run("pack", "--out", str(builder.folder / "pack"), "--sheets", "tags", code=3)
    hand = json.loads((builder.folder / "job.plan.json").read_text())["number"]
    builder.buy()
    before = read_record(builder.files[1])
    said = builder.buy("--bought", "1", "--bought", "2: 95 7/8")
    assert "on the rack as S-09.1 and S-09.2 (48 each)" in said and "S-10 (95 7/8)" in said and "Everything can be made from the rack now." in said
    assert f"Plan {hand} is in hand and was made without S-09.1, S-09.2, S-10" in said and "--anew" in said
    after = read_record(builder.files[1])
    assert after.rack.sticks[: len(before.rack.sticks)] == before.rack.sticks and len(after.bought) == 3
    assert [(s.id, s.length, s.trim_1, s.remnant) for s in after.rack.sticks[-3:]] == [("S-09.1", 48, F(1, 4), False), ("S-09.2", 48, F(1, 4), False), ("S-10", F(767, 8), F(1, 4), False)]
    last = [json.loads(line) for line in journal_path(builder.files[1]).read_text().splitlines()][-2]
    assert last["said"].startswith("bought 1; bought 2: 95 7/8 (purchase ") and set(last["rows"]) == {"S-09.1", "S-09.2", "S-10"}
    assert "On the rack and not thought of in it: S-09.1, S-09.2, S-10. To plan with them: --anew." in builder.run("plan", code=3)
    assert "SHORT" not in builder.run("plan", "--anew")
    job, record = read_both(*builder.files)
    assert not plan(job, record.rack).shortages
    assert "nothing need be bought" in builder.buy()


def test_undo_gives_the_same_bytes(builder):
    builder.buy()
    builder.buy("--bought", "1")  # the rack in the way in which it is saved
    builder.buy("--undo", "1")
    before = builder.rack
    assert b"bought" not in before
    builder.buy("--bought", "all")
    assert "bought_as" in builder.rack.decode() and "has come already" in builder.buy("--bought", "1", code=2) and "has come already" in builder.buy("--bought", "all", code=2)
    assert "Taken back: S-09.2 is not on the rack." in builder.buy("--undo", "S-09.2")
    assert "1 of line 1" not in builder.buy("--bought", "1")
    builder.buy("--undo", "1,2")
    assert builder.rack == before
    assert read_record(builder.files[1]).rack.sticks[-1].note == '=keep, "as is" here'


def test_what_is_cut_is_not_taken_back(builder):
    builder.buy()
    builder.buy("--bought", "1")
    builder.run("plan", "--done", "S-09.1: T1L", code=0)
    rack = builder.rack
    said = builder.buy("--undo", "1", code=2)
    assert "S-09.1 is cut already" in said and "plan --undo S-09.1" in said and builder.rack == rack
    builder.run("plan", "--undo", "S-09.1")
    assert "Taken back: S-09.1, S-09.2 are" in builder.buy("--undo", "1")


def test_what_came_otherwise_and_is_not_enough_is_said(builder):
    builder.buy()
    said = builder.buy("--bought", "1: 2 x 40, 44", "--bought", "2")
    assert "S-09.1 and S-09.2 (40 each) and S-10 (44)" in said and "What came is not enough" in said and "buy one 48; then everything can be made" not in said
    assert "buy two 48" in said and "buy JOB RACK --anew" in said
    again = builder.buy()
    assert "2 x 48" in again and "T2" not in again  # what did come is not bought again


def test_a_purchase_on_its_way_stays_until_another_is_asked_for(builder):
    first = builder.buy("--out", str(builder.folder / "out"))
    (builder.folder / "rack.offers.csv").write_text(OFFERS.replace("$23.50", "$9.00"))
    number = builder.paper["number"]
    assert number in first and f"Purchase {number} of" in builder.buy() and builder.paper["number"] == number
    builder.buy("--bought", "2")
    job = builder.folder / "job.toml"
    job.write_text(job.read_text().replace("quantity = 3", "quantity = 4"))
    said = builder.buy()
    assert "The job is another since" in said and "come: S-09" in said
    assert "is on its way" in builder.buy("--lengths", "96", code=2)
    other = builder.buy("--anew")
    assert builder.paper["number"] != number and "2 x 96, $9.00 each" in other and "T2" not in other
    assert f"It takes the place of {number}, of which line 1 had not come: tell the supplier." in other
    # what the old one still has on its way is no line of the new one's
    assert "no line 2" in builder.buy("--bought", "2", code=2)


def test_a_hand_that_edits_is_left_alone_and_an_older_copy_is_noticed(builder):
    builder.buy()
    old = builder.rack
    builder.buy("--bought", "1")
    path = Path(builder.files[1])
    path.write_text(path.read_text().replace("S-09,", "A-1,").replace("=keep", "=moved"))  # another id is written on it, another note
    builder.run("plan", code=3)
    builder.buy("--bought", "2")
    assert [s.id for s in read_record(path).rack.sticks] == ["S-07", "S-08", "A-1.1", "A-1.2", "S-10"] and "=moved" in path.read_text()
    path.write_bytes(old)
    said = builder.buy("--undo", "2", code=2)
    assert "S-09.1, 48 in long, was bought" in said and "--mend" in said
    builder.run("plan", "--mend")
    assert {s.id for s in read_record(path).rack.sticks} == {"S-07", "S-08", "S-09.1", "S-09.2", "S-10"}


def test_a_purchase_in_millimetres(tmp_path, capsys, monkeypatch):
    builder = Builder(tmp_path, capsys, "mm")
    said = builder.buy("--out", str(tmp_path / "out"))
    assert "2 x 1219.2 mm, $11.00 each" in said and "1 x 2440 mm" in said and "6.35 mm at each end" in said
    words = builder.buy("--bought", "1: 2 x 1215", "--bought", "2")
    assert "S-09.1 and S-09.2 (1215 mm each)" in words and "Everything can be made" in words
    (tmp_path / "rack.offers.csv").unlink()
    assert read_record(builder.files[1]).rack.sticks[-2].length == F(12150, 254)


def test_what_cannot_be_bought_is_said_with_what_is_near(builder):
    (builder.folder / "rack.offers.csv").write_text(OFFERS.replace("1 1/2 in,1/8 in,1/8 in,6061-T6", "1 1/2 in,1/8 in,0 in,6061-T6"))
    said = builder.buy(code=3)
    assert "No purchase helps T2: nothing of its section and alloy is on offer" in said
    assert "6061-T6, square inside (row 4): other metal" in said


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--bought", "S-52"], '"S-52" is no line of the purchase'),
        (["--bought", "7"], "has no line 7: it has 1, 2"),
        (["--bought", "1: 0"], "length above 0"),
        (["--bought", "1:"], "does not stand behind line 1"),
        (["--bought", "1: 0 x 96"], "does not stand behind line 1"),
        (["--bought", "1: long"], "long"),
        (["--bought", "1: 1/4"], "its trims of 1/4 and 1/4 leave nothing"),
        (["--bought", "one: 96"], "no line of the purchase"),
        (["--bought", ""], "no line of the purchase"),
        (["--undo", "1"], "Nothing of line 1"),
        (["--undo", "S-07"], 'No stick "S-07" came by a purchase'),
        (["--offers", "nowhere.csv"], "nowhere.csv"),
        (["--out", "job.toml/x"], "job.toml"),
    ],
)
def test_what_cannot_be_meant_is_refused_and_nothing_is_written(builder, monkeypatch, words, said):
    monkeypatch.chdir(builder.folder)
    builder.buy()
    rack = builder.rack
    assert said in builder.buy(*words, code=2)
    assert builder.rack == rack


def test_without_a_purchase_nothing_comes(builder):
    assert "No purchase is kept" in builder.buy("--bought", "1", code=2)
    builder.buy()
    path = purchase_path(builder.files[0])
    path.write_text(path.read_text().replace('"count": 2', '"count": 3'))
    assert "says other things than when it was written" in builder.buy("--bought", "1", code=2)
    path.write_text("{")
    assert "is no purchase file" in builder.buy(code=2)
    builder.buy("--anew")
    assert list(builder.folder.glob("*.unreadable"))


@pytest.mark.parametrize("seed", range(4))
def test_what_is_bought_and_then_planned_suffices(builder, seed):
    """Racks at random: the purchase is made, comes, and the plan of the rack as its file then is makes everything."""
    rng = random.Random(f"bought {seed}")
    rows = [f"1,R{n},3/4 in,3/4 in,1/8 in,,1/8 in,,,6061-T6,{rng.randint(20, 90)} in,{rng.choice(['new', 'remnant'])},{rng.choice(['0', '1/4 in'])},1/4 in,{rng.choice(['yes', 'no'])},no,," for n in range(rng.randint(0, 3))]
    Path(builder.files[1]).write_text("\n".join([HEAD, *rows]) + "\n")
    job = builder.folder / "job.toml"
    job.write_text(job.read_text().replace("quantity = 3", f"quantity = {rng.randint(2, 9)}").replace('"45 in"', f'"{rng.randint(20, 47)} in"'))
    builder.buy()
    assert "Everything can be made from the rack now." in builder.buy("--bought", "all")
    whole, record = read_both(*builder.files)
    assert not plan(whole, record.rack, budget=4).shortages
    came = [stick for stick in record.rack.sticks if stick.id in {one.stick_id for one in record.bought}]
    assert came and all(isinstance(stick, Stick) and not stick.remnant for stick in came)
