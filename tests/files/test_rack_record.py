"""The rack file as it lives: no kill and no other writer loses a cut, and every cut can be taken back."""

from __future__ import annotations

import os
import subprocess
import sys
from dataclasses import replace
from fractions import Fraction as F
from pathlib import Path

import pytest
from cutter import STOCK, fresh
from hypothesis import given, settings
from hypothesis import strategies as st
from nouns import racks
from patience import PATIENCE

import anglelib
from anglelib.errors import FileProblems, RackError, StorageError
from anglelib.files import mark_cuts, mark_spoiled, read_job, read_rack, read_record, save_rack, undo_cut
from anglelib.files.rack_file import COLUMNS, RECORD_COLUMNS, WHERE_USED, open_rack
from anglelib.files.rack_record import change_record
from anglelib.files.rack_text import render_record
from anglelib.stock.rack import Rack, Stick
from anglelib.stock.record import CutStick, Mark, Piece, Record, pieces_from
from anglelib.stock.versions import part_version
from anglelib.storage import previous_of

HERE = Path(__file__).parent
DEMO = HERE.parents[1] / "notebooks" / "demo"
posix = pytest.mark.skipif(os.name != "posix", reason="needs SIGKILL, pipes and POSIX permissions")


def cutter(*arguments: object, **options) -> subprocess.Popen:
    folders = [str(Path(anglelib.__path__[0]).parent), os.environ.get("PYTHONPATH", "")]
    environment = {**os.environ, "PYTHONPATH": os.pathsep.join(folders), "PYTHONDONTWRITEBYTECODE": "1"}
    return subprocess.Popen(
        [sys.executable, str(HERE / "cutter.py"), *map(str, arguments)], env=environment,
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, **options,
    )  # fmt: skip


# --- interrupted ----------------------------------------------------------------------------------------
def kills(path: Path, number: int) -> None:
    process = cutter("kill", path, number)
    said, wrong = process.communicate(timeout=PATIENCE)
    assert process.returncode == 0, wrong
    assert int(said) >= number // 4, "too few kills came after a cut that was saved: this shows nothing"


@posix
def test_forty_kills_lose_no_cut(tmp_path):
    kills(tmp_path / "rack.csv", 40)


@posix
@pytest.mark.slow
def test_five_hundred_kills_lose_no_cut(tmp_path):
    kills(tmp_path / "rack.csv", 500)


# --- two at once ------------------------------------------------------------------------------------------
def test_three_programs_that_mark_at_once_lose_nothing(tmp_path):
    """Each marks eight sticks of its own, as fast as it can, in one file."""
    path = tmp_path / "rack.csv"
    fresh(path, sticks=24, length=48)
    shares = [[f"S-{n}" for n in range(k, 25, 3)] for k in (1, 2, 3)]
    running = [cutter("mark", path, f"P{k}", *share) for k, share in enumerate(shares, 1)]
    for process in running:
        said, wrong = process.communicate(timeout=PATIENCE)
        assert (process.returncode, said) == (0, ""), wrong
    record = read_record(path)
    assert {old.stick.id: old.pieces[0].part_id for old in record.cut} == {name: f"P{k}" for k, share in enumerate(shares, 1) for name in share}
    assert len(record.rack.sticks) == 24 and {stick.length for stick in record.rack.sticks} == {48 - 10 - F(1, 16)}
    assert len(read_record(previous_of(path)).cut) == 23


def test_of_two_programs_that_mark_the_same_sticks_one_is_told(tmp_path):
    path = tmp_path / "rack.csv"
    fresh(path, sticks=8, length=48)
    names = [f"S-{n}" for n in range(1, 9)]
    running = [cutter("mark", path, name, *names) for name in ("P1", "P2")]
    said = "".join(process.communicate(timeout=PATIENCE)[0] for process in running)
    record = read_record(path)
    assert len(record.cut) == 8 and len(record.rack.sticks) == 8
    assert said.count("is cut already (on 2024-05-01: P") == 8 and said.count("\n") == 8


def test_a_change_in_between_is_read_and_both_stand(tmp_path):
    """Without chance: another notebook saves after the file was read and before it is written."""
    path, calls = tmp_path / "rack.csv", []
    fresh(path, sticks=2)

    def change(record: Record) -> Record:
        calls.append(len(record.cut))
        if len(calls) == 1:
            mark_cuts(path, [Mark("S-1", pieces_from("P at 10"))])
        return record.marked(Mark("S-2", pieces_from("Q at 20")))

    record = change_record(path, change)
    assert calls == [0, 1] and [old.stick.id for old in record.cut] == ["S-1", "S-2"]
    assert read_record(path) == record


def test_one_mark_that_cannot_be_leaves_the_file_as_it_was(tmp_path):
    path = tmp_path / "rack.csv"
    fresh(path, sticks=2)
    before = path.read_bytes()
    with pytest.raises(RackError, match="S-2 cannot have given P at 150: with its cuts that takes 150 1/16, and of the stick 144 can be used"):
        mark_cuts(path, [Mark("S-1", pieces_from("P at 10")), Mark("S-2", pieces_from("P at 150"))])
    assert path.read_bytes() == before and not previous_of(path).exists()


def test_a_save_that_others_never_let_through_ends(tmp_path, monkeypatch):
    path = tmp_path / "rack.csv"
    fresh(path)
    monkeypatch.setattr("anglelib.files.rack_record.PATIENCE", 0.1)

    def change(record: Record) -> Record:
        path.write_text(path.read_text() + "\n")
        return record

    with pytest.raises(StorageError, match="has changed on the disk"):
        change_record(path, change)


# --- what the file says -------------------------------------------------------------------------------------
def test_the_demo_kit_is_cut_stick_by_stick(tmp_path):
    """Two bars from S-05, counted by hand: 56 1/4 - 1/16 - 2 (17 5/16 + 1/16) = 21 7/16, its far end still to be trimmed by 1/16."""
    job, path = read_job(DEMO / "job.toml"), tmp_path / "rack.csv"
    path.write_bytes((DEMO / "rack.csv").read_bytes())
    mark_cuts(path, [Mark("S-05", pieces_from("2 x A3"))], job, on="2024-05-01")
    rows = path.read_text().splitlines()
    assert rows[0].split(",") == [column for column in (*COLUMNS, *RECORD_COLUMNS) if column not in WHERE_USED]
    assert [row for row in rows if row.startswith("1,S-05-R1,")] == [
        "1,S-05-R1,3/4 in,3/4 in,1/8 in,,1/8 in,,,6061-T6,21 7/16 in,remnant,0 in,1/16 in,no,no,,,S-05,,,,,,"
    ]
    assert rows[-1] == (
        "1,S-05,3/4 in,3/4 in,1/8 in,,1/8 in,,,6061-T6,56 1/4 in,cut remnant,1/16 in,1/16 in,no,no,,,,2024-05-01,Demo kit,"
        f"2 x A3 at 17 5/16 in as {part_version(job.part('A3'))},,,S-04"
    )
    assert "S-05" not in {stick.id for stick in read_rack(path).sticks}
    mark_spoiled(path, "S-05", "A3")
    assert read_record(path).made("Demo kit") == {"A3": 1}
    undo_cut(path, "S-05")
    assert read_rack(path) == read_rack(DEMO / "rack.csv") and read_record(path).cut == ()


def test_saving_the_rack_from_elsewhere_keeps_the_record(tmp_path):
    path = tmp_path / "rack.csv"
    fresh(path, sticks=2)
    mark_cuts(path, [Mark("S-1", pieces_from("P at 10"))], on="2024-05-01")
    opened = open_rack(path)
    note = Stick("S-9", STOCK, "6061-T6", 72, note="né")
    again = save_rack(Rack([*opened.value.sticks, note]), path, opened)
    save_rack(again.value, path, again)
    record = read_record(path)
    assert [old.stick.id for old in record.cut] == ["S-1"] and dict(record.origins) == {"S-1-R1": "S-1"}
    assert [stick.id for stick in record.rack.sticks] == ["S-1-R1", "S-2", "S-9"]


def test_a_date_that_a_spreadsheet_has_rewritten_is_no_problem(tmp_path):
    path = tmp_path / "rack.csv"
    fresh(path)
    mark_cuts(path, [Mark("S-1", pieces_from("P at 10"))], on="2024-05-01")
    path.write_text(path.read_text().replace("2024-05-01", "5/1/2024"))
    assert read_record(path).cut[0].on == "5/1/2024"


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("1 x P at 10 in", "", "row 3, cut_into: No part is named: write what was cut"),
        ("1 x P at 10 in", "1 x P", "row 3, cut_into: how long each piece was sawn must stand there"),
        ("1 x P at 10 in", "some of P", 'row 3, cut_into: "some of P" says of no part'),
        ("1 x P at 10 in", "0 x P at 10 in", "row 3, cut_into: 0 x P cannot be cut"),
        ("1 x P at 10 in", "1 x P at ten", "row 3, cut_into: "),
        ("S-1-R1", "s-1", "is also in row 2: rename one"),
        (",cut,", ",cutt,", "the kind \"cutt\" is unknown: did you mean cut?"),
        ("2024-05-01", "the first of May 2024, at noon", "row 3, cut_on: "),
    ],
)  # fmt: skip
def test_a_record_spoiled_by_hand_is_told_by_row(tmp_path, old, new, says):
    path = tmp_path / "rack.csv"
    fresh(path)
    mark_cuts(path, [Mark("S-1", pieces_from("P at 10"))], on="2024-05-01")
    text = path.read_text()
    assert old in text
    path.write_text(text.replace(old, new, 1))
    with pytest.raises(FileProblems) as told:
        read_record(path)
    assert says in str(told.value)


@settings(max_examples=25)
@given(racks(), st.data())
def test_any_rack_is_saved_with_any_record_of_its_cuts(tmp_path_factory, rack, data):
    """Whatever a rack can say: marked, saved, read again the same; taken back, the same rack as before."""
    path = tmp_path_factory.mktemp("rack") / "rack.csv"
    record, job = Record(rack), data.draw(st.sampled_from(["", "Tail repair", "=1+1", "a;b, c"]))
    for stick in rack.sticks:
        room = max((i.length for i in stick.intervals()), default=F(0))
        if room > 2 and data.draw(st.booleans()):
            record = record.marked(Mark(stick.id, (Piece("P-1", 1, F(1)), Piece("B", 1, room - F(5, 4)))[: data.draw(st.integers(1, 2))]), on="2024-05-01")
    record = replace(record, cut=tuple(replace(old, job=job) for old in record.cut))
    sign = data.draw(st.sampled_from([",", ";", "\t"]))
    path.write_text(render_record(record, sign), encoding="utf-8")
    again = read_record(path)
    assert again == record and read_rack(path) == record.rack
    while again.cut:
        again = again.undone(again.cut[-1].stick.id)
    assert set(again.rack.sticks) == set(rack.sticks) and again.origins == ()


def test_what_cannot_be_read_back_is_not_written():
    stick = Stick("S-1", STOCK, "6061-T6", 144)
    long = tuple(Piece(f"PART-NUMBER-{n}", 1, F(1, 64)) for n in range(160))
    with pytest.raises(RackError, match="The rack cannot be saved: rack.csv, line 2: the line is"):
        render_record(Record(Rack([]), (CutStick(stick, "", "", long),)))
