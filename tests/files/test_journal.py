"""The journal beside the rack: a mark that is broken off is completed or never was, an older copy is noticed and mended, hands may write."""

from __future__ import annotations

import hashlib
import json
import os
import re
import subprocess
import sys
from dataclasses import replace
from fractions import Fraction as F
from pathlib import Path

import pytest
from cutter import STOCK, fresh

import anglelib
from anglelib.errors import FileProblems, RackError, StorageError
from anglelib.files import mark_cuts, mark_spoiled, read_record, undo_cut
from anglelib.files.journal import append, journal_path, read_journal
from anglelib.files.rack_file import open_record
from anglelib.files.rack_record import COMPLETED, NO_JOURNAL, change_record, lock_of_a_spreadsheet, look_at, mend, take_as_it_is
from anglelib.files.rack_text import render_record, save_record
from anglelib.stock.pieces import Mark, pieces_from
from anglelib.stock.rack import Rack, Stick
from anglelib.stock.record import Record

HERE = Path(__file__).parent
posix = pytest.mark.skipif(os.name != "posix", reason="needs SIGKILL and fork")


def kills(folder: Path, number: int) -> None:
    folder.mkdir()
    environment = {**os.environ, "PYTHONPATH": str(Path(anglelib.__path__[0]).parent), "PYTHONDONTWRITEBYTECODE": "1"}
    run = subprocess.run([sys.executable, str(HERE / "marker.py"), str(folder / "rack.csv"), str(number)], env=environment, capture_output=True, text=True, timeout=1200)
    assert run.returncode == 0, run.stderr
    killed, gaps = map(int, run.stdout.split())
    assert killed >= number and gaps > 30, "a mark makes more calls to the system than it was killed at"


@posix
def test_forty_kills_between_the_writes_of_a_mark(tmp_path):
    kills(tmp_path / "rack", 40)


@posix
@pytest.mark.slow
def test_five_hundred_kills_in_every_gap_between_the_writes_of_a_mark(tmp_path):
    kills(tmp_path / "rack", 500)


@pytest.fixture
def rack(tmp_path) -> Path:
    path = tmp_path / "rack.csv"
    fresh(path, sticks=3, length=48)
    return path


def cut(path: Path, stick: str, words: str) -> None:
    mark_cuts(path, [Mark(stick, pieces_from(words))], on="2024-05-01")


# --- an older copy ------------------------------------------------------------------------------------------
def test_an_older_copy_saved_back_is_noticed_and_mended_with_what_was_written_since(rack):
    cut(rack, "S-1", "P at 10")
    older = rack.read_bytes()
    cut(rack, "S-2", "2 x P at 10")
    cut(rack, "S-1-R1", "Q at 5")
    mark_spoiled(rack, "S-1", "P", F(3))
    now = read_record(rack)
    by_hand = older.decode().replace("\n", "\r\n") + older.decode().splitlines()[-2].replace("S-3", "S-9").replace("48 in", "60 in") + "\r\n"
    rack.write_bytes(by_hand.encode())
    lost = look_at(rack).lost
    assert {one.stick_id: one.id for one in lost} == {"S-2": "cut", "S-1-R1": "cut", "S-1": "changed"}
    with pytest.raises(RackError, match="rack.csv does not know marks that are in its journal.*S-2 was cut into 2 x P at 10 in.*--mend"):
        cut(rack, "S-3", "P at 10")
    assert mend(rack) == lost and not look_at(rack).lost
    again = read_record(rack)
    assert {s.id: s.length for s in again.rack.sticks} == {s.id: s.length for s in now.rack.sticks} | {"S-9": 60}
    assert sorted(map(str, again.cut)) == sorted(map(str, now.cut)) and again.origins == now.origins


def test_an_undo_that_an_older_copy_forgets(rack):
    cut(rack, "S-1", "P at 10")
    older = rack.read_bytes()
    undo_cut(rack, "S-1")
    rack.write_bytes(older)
    assert [(one.stick_id, one.id) for one in look_at(rack).lost] == [("S-1", "undone")]
    mend(rack)
    assert [s.id for s in read_record(rack).rack.sticks] == ["S-1", "S-2", "S-3"] and not read_record(rack).cut


def test_the_rack_may_be_right_and_the_journal_begins_again(rack):
    older = rack.read_bytes()
    cut(rack, "S-1", "P at 10")
    rack.write_bytes(older)
    assert [one.stick_id for one in take_as_it_is(rack)] == ["S-1"]
    assert not look_at(rack).lost and not read_record(rack).cut
    cut(rack, "S-1", "P at 12")
    assert not look_at(rack).lost


def test_what_is_written_by_hand_is_never_called_old(rack):
    """New sticks, another length of a remnant, notes, another order, another separator, a day as a spreadsheet has it."""
    cut(rack, "S-1", "P at 10")
    cut(rack, "S-2", "P at 10")
    opened = open_record(rack)
    sticks = [replace(s, note="rusty", length=s.length - F(1, 8)) for s in reversed(opened.value.rack.sticks)]
    save_record(Record(Rack([*sticks, Stick("S-9", STOCK, "6061-T6", 72)]), opened.value.cut, opened.value.origins), rack, opened)
    rack.write_text(rack.read_text().replace("2024-05-01", "5/1/2024").replace(",", ";"))
    assert look_at(rack).lost == () and look_at(rack).ids == ()
    cut(rack, "S-9", "P at 10")
    assert look_at(rack).lost == () and read_record(rack).rack.stick("S-1-R1").note == "rusty"


def test_a_remnant_that_was_thrown_away_is_not_missed(rack):
    cut(rack, "S-1", "P at 10")
    rack.write_text("".join(line for line in rack.read_text().splitlines(keepends=True) if ",S-1-R1," not in line))
    assert not look_at(rack).lost
    cut(rack, "S-2", "P at 10")
    assert [s.id for s in read_record(rack).rack.sticks] == ["S-2-R1", "S-3"]


# --- broken off ---------------------------------------------------------------------------------------------
def test_a_mark_that_was_broken_off_is_completed(rack):
    cut(rack, "S-1", "P at 10")
    before = rack.read_bytes()
    cut(rack, "S-2", "P at 10")
    after = read_record(rack)
    rack.write_bytes(before)
    journal = journal_path(rack)
    journal.write_text("".join(journal.read_text().splitlines(keepends=True)[:-1]))  # not said to be saved
    assert look_at(rack).ids == ((COMPLETED, "S-2: P at 10"),) and read_record(rack) == after
    assert look_at(rack).ids == ()


def test_a_line_that_was_cut_off_counts_for_nothing(rack):
    cut(rack, "S-1", "P at 10")
    now = read_record(rack)
    append(rack, "x")
    journal = journal_path(rack)
    journal.write_bytes(journal.read_bytes()[:-1] + b'{"format": 1, "number": 9, "rows": {"S-2"')
    assert look_at(rack) == look_at(rack) and read_record(rack) == now
    cut(rack, "S-2", "P at 10")
    assert read_journal(rack).cut_off == 1 and not look_at(rack).lost


def test_a_journal_that_is_not_there_is_said_and_begun_again(rack):
    cut(rack, "S-1", "P at 10")
    journal_path(rack).unlink()
    assert look_at(rack).ids == ((NO_JOURNAL, ""),)
    cut(rack, "S-2", "P at 10")
    assert look_at(rack).ids == () and set(read_journal(rack).rows()) == {"S-1", "S-1-R1", "S-2", "S-2-R1"}


def test_a_mark_that_cannot_be_saved_comes_to_nothing(rack, monkeypatch):
    cut(rack, "S-1", "P at 10")
    now = read_record(rack)

    def full(*_, **__):
        raise StorageError("the disk is full")

    monkeypatch.setattr("anglelib.files.rack_record.save_record", full)
    with pytest.raises(StorageError):
        cut(rack, "S-2", "P at 10")
    monkeypatch.undo()
    assert look_at(rack).lost == () and look_at(rack).ids == () and read_record(rack) == now


def test_each_line_of_the_journal_is_plain_json_with_the_rack_before_and_after(rack):
    cut(rack, "S-1", "P at 10")
    cut(rack, "S-2", "P at 10")
    lines = [json.loads(line) for line in journal_path(rack).read_text().splitlines()]
    marks = [line for line in lines if "said" in line and "begins" not in line]
    assert [line["said"] for line in marks] == ["S-1: P at 10", "S-2: P at 10"]
    assert marks[0]["after"] == marks[1]["before"] != marks[0]["before"]
    assert marks[1]["rows"]["S-2"]["cut_into"] == "1 x P at 10 in"
    # the form stays: a journal of an earlier year is compared with the rack of today
    assert marks[1]["after"] == hashlib.sha256(rack.read_bytes()).hexdigest()[:16] and [line["format"] for line in marks] == [1, 1]


def test_a_spreadsheet_that_has_it_open_is_seen(rack):
    assert lock_of_a_spreadsheet(rack) == ""
    for name in (".~lock.rack.csv#", "~$rack.csv"):
        rack.with_name(name).write_text("x")
        assert lock_of_a_spreadsheet(rack) == name
        rack.with_name(name).unlink()


# --- rows that cannot be --------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("1 x P at 10 in", "5 x P at 10 in", "row 5, cut_into: the pieces come to 50, and S-1 was 48 long"),
        ("37 15/16 in,remnant", "39 in,remnant", "row 5, length: its pieces and what is left of it (S-1-R1) come to 49, and S-1 was 48 long"),
        (",S-1,,,,", ",S-1-R1,,,,", "row 2, cut_from: S-1-R1 cannot be left of itself"),
        (",S-1,,,,", ",S-7,,,,", 'row 2, cut_from: there is no stick "S-7" in this rack'),
        (",S-1,,,,", ",S-2,,,,", "row 2, cut_from: S-2 is not marked as cut"),
        (",,2024-05-01,", ",S-1,2024-05-01,", "row 5, cut_from: S-1 cannot be left of itself"),
    ],
)  # fmt: skip
def test_rows_that_cannot_be_are_told_by_row(rack, old, new, says):
    cut(rack, "S-1", "P at 10")
    text = rack.read_text()
    assert old in text
    rack.write_text(text.replace(old, new, 1))
    with pytest.raises(FileProblems, match=re.escape(says)):
        read_record(rack)


def test_a_circle_is_told(rack):
    cut(rack, "S-1", "P at 10")
    cut(rack, "S-1-R1", "P at 10")
    rows = rack.read_text().splitlines()
    at = next(n for n, row in enumerate(rows) if row.startswith("1,S-1,"))
    rack.write_text("\n".join([*rows[:at], rows[at].replace(",,2024-05-01", ",S-1-R1,2024-05-01"), *rows[at + 1 :]]) + "\n")
    with pytest.raises(FileProblems, match="S-1 would be left of a stick that is left of it"):
        read_record(rack)


def test_an_old_rack_without_the_newer_columns_is_read(rack):
    """As it was written before plans were kept: four columns of a record."""
    cut(rack, "S-2", "P at 10")
    record = read_record(rack)
    rows = [line.split(",") for line in render_record(record).splitlines()]
    old = "\n".join(",".join(row[:-3]) for row in rows) + "\n"
    rack.write_text(old)
    assert read_record(rack) == record and [s.id for s in read_record(rack).undone("S-2").rack.sticks] == ["S-1", "S-2", "S-3"]


def test_a_change_of_nothing_writes_no_line(rack):
    cut(rack, "S-1", "P at 10")
    lines = journal_path(rack).read_text()
    change_record(rack, lambda record: record)
    assert journal_path(rack).read_text() == lines
