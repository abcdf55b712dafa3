"""``python -m anglelib pack``: what it writes, what it refuses, and that nothing is lost."""

from __future__ import annotations

import io
import re
import sys
from pathlib import Path

import pytest
from pypdf import PdfReader

from anglelib.__main__ import main
from anglelib.files import read_rack
from anglelib.paper.command import Bar

sys.path.insert(0, str(Path(__file__).parents[1] / "files"))
from spoiled import INERT_NAMES, JOB, RACK, SPOILED, changed  # noqa: E402

sys.path.pop(0)

PDF, AFTER = "shop-pack.pdf", "rack-after.csv"
# T1 and T2 come from S-01; S-03 of the table is hands-off and unmarked.
GOOD_RACK = RACK


def files(folder: Path, job: str = JOB, rack: str = GOOD_RACK) -> list[str]:
    (folder / "job.toml").write_text(job, encoding="utf-8")
    (folder / "rack.csv").write_text(rack, encoding="utf-8")
    return [str(folder / "job.toml"), str(folder / "rack.csv")]


def pages(path: Path) -> list[str]:
    return [page.extract_text() for page in PdfReader(io.BytesIO(path.read_bytes())).pages]


def test_the_demo_is_packed_without_naming_a_file(tmp_path, capsys):
    check_demo(tmp_path, capsys, "--sheets", "cover,plan")


@pytest.mark.slow
def test_the_whole_demo_is_packed(tmp_path, capsys):
    assert check_demo(tmp_path, capsys) > 40


def check_demo(tmp_path: Path, capsys, *more: str) -> int:
    """Packs the demo; how many pages there are."""
    out = tmp_path / "pack"
    assert main(["pack", "--out", str(out), "--date", "2024-05-01", *more]) == 0
    said = capsys.readouterr()
    assert "79 of 79 pieces are planned" in said.out and said.err == ""
    assert sorted(path.name for path in out.iterdir()) == [AFTER, PDF]
    after = read_rack(out / AFTER)
    assert {"S-10", "S-11", "S-12", "S-33"} <= {stick.id for stick in after.sticks}
    assert "S-01" not in {stick.id for stick in after.sticks}  # it is all cut up
    return len(pages(out / PDF))


def test_a_job_of_ones_own_on_either_paper(tmp_path, capsys):
    for paper, height in (("a4", 841.89), ("letter", 792.0)):
        assert main(["pack", *files(tmp_path), "--out", str(tmp_path / paper), "--paper", paper]) == 0
        page = PdfReader(tmp_path / paper / PDF).pages[0]
        assert float(page.mediabox.height) == pytest.approx(height, abs=0.01)
    assert "5 of 5 pieces are planned" in capsys.readouterr().out


def test_an_older_pack_is_kept(tmp_path):
    words = ["pack", *files(tmp_path), "--out", str(tmp_path / "out")]
    assert main([*words, "--date", "2024-05-01"]) == 0
    first = (tmp_path / "out" / PDF).read_bytes()
    assert main([*words, "--date", "2024-05-02"]) == 0
    kept = tmp_path / "out" / "shop-pack.previous.pdf"
    assert kept.read_bytes() == first and (tmp_path / "out" / PDF).read_bytes() != first
    assert (tmp_path / "out" / "rack-after.previous.csv").exists()


@pytest.mark.parametrize("spoiled", SPOILED, ids=lambda spoiled: spoiled.name)
def test_a_spoiled_file_is_a_sentence_a_problem_and_nothing_is_written(spoiled, tmp_path, capsys):
    job, rack = spoiled.write(tmp_path)
    before = {path.name: path.read_bytes() for path in tmp_path.iterdir() if path.is_file()}
    assert main(["pack", str(job), str(rack), "--out", str(tmp_path / "out")]) == 2
    said = capsys.readouterr()
    assert said.out == "" and "Traceback" not in said.err
    assert spoiled.wrong in said.err and spoiled.remedy in said.err
    assert all(line.strip() and len(line) < 500 for line in said.err.rstrip("\n").split("\n"))
    assert {path.name: path.read_bytes() for path in tmp_path.iterdir() if path.is_file()} == before
    assert not (tmp_path / "out").exists()


def test_both_files_are_read_before_anything_is_said(tmp_path, capsys):
    job, rack = files(tmp_path, changed(JOB, '"17 1/2"', '"17,5"'), changed(RACK, "144 in", "12 yd"))
    assert main(["pack", job, rack, "--out", str(tmp_path / "out")]) == 2
    said = capsys.readouterr().err
    assert "job.toml, part T2, length" in said and "rack.csv, row 2, length" in said


def test_what_is_short_is_said_and_the_rest_is_packed(tmp_path, capsys):
    rack = RACK.replace("144 in", "14 in").replace("56 1/4 in", "9 in").replace("29 1/2 in to 31 in; 50 in to 51 in", "")
    assert main(["pack", *files(tmp_path, rack=rack), "--out", str(tmp_path / "out")]) == 3
    said = capsys.readouterr().out
    assert "4 of 5 pieces are planned" in said and "Short: 1 of 1 x Tail bar (T2)" in said and "too short" in said
    text = "\n".join(pages(tmp_path / "out" / PDF))
    assert "SHORT: 1 of 1 x Tail bar (T2)" in text and "cannot be made from this rack" in text


@pytest.mark.parametrize("name", INERT_NAMES)
def test_any_name_is_printed_as_it_stands(name, tmp_path):
    check_name(name, tmp_path, "--sheets", "cover,plan,tags")


@pytest.mark.slow
@pytest.mark.parametrize("name", INERT_NAMES)
def test_any_name_is_printed_as_it_stands_on_every_sheet(name, tmp_path):
    check_name(name, tmp_path)


def check_name(name: str, tmp_path: Path, *more: str) -> None:
    quoted = name.replace("\\", "\\\\").replace('"', '\\"')
    job = JOB.replace('"Tail repair"', f'"{quoted}"').replace('"Tail bar"', f'"{quoted}"')
    assert main(["pack", *files(tmp_path, job), "--out", str(tmp_path / "out"), *more]) == 0
    reader = PdfReader(tmp_path / "out" / PDF)
    assert reader.metadata.title == f"Shop pack: {name}"
    printed = [c for c in name if c not in "角"]  # the font has no such letter
    text = "".join("".join(pages(tmp_path / "out" / PDF)).split())
    assert "".join("".join(printed).split()) in text.replace("\ufffd", "").replace("\x00", "")


@pytest.mark.parametrize(
    "words, said",
    [
        (["--paper", "a3"], None),
        (["--date", "May 1"], "write it like 2024-05-01"),
        (["--limits", "coarse"], "limits"),
        (["JOB"], "Name the rack file too"),
    ],
)
def test_words_that_cannot_be_meant(words, said, tmp_path, capsys):
    job, rack = files(tmp_path)
    given = [job if word == "JOB" else word for word in words]
    given = ["pack", *given] if "JOB" in words else ["pack", job, rack, *given]
    if said is None:  # argparse knows which papers there are
        with pytest.raises(SystemExit) as stopped:
            main([*given, "--out", str(tmp_path / "out")])
        assert stopped.value.code == 2
    else:
        assert main([*given, "--out", str(tmp_path / "out")]) == 2
        assert said in capsys.readouterr().err
    assert not (tmp_path / "out").exists()


def test_a_folder_that_cannot_take_the_pack_is_refused_first(tmp_path, capsys):
    job, rack = files(tmp_path)
    (tmp_path / "file").write_text("mine")
    assert main(["pack", job, rack, "--out", str(tmp_path / "file")]) == 2
    assert "is a file: name a folder" in capsys.readouterr().err
    assert main(["pack", job, rack, "--out", str(tmp_path / "not" / "there")]) == 2
    assert "make it first" in capsys.readouterr().err
    assert (tmp_path / "file").read_text() == "mine"


def test_the_rack_that_is_read_is_not_replaced(tmp_path, capsys):
    job, _ = files(tmp_path)
    (tmp_path / AFTER).write_text(RACK)
    assert main(["pack", job, str(tmp_path / AFTER), "--out", str(tmp_path)]) == 2
    assert "would take its place" in capsys.readouterr().err
    assert (tmp_path / AFTER).read_text() == RACK and not (tmp_path / PDF).exists()


def test_a_save_that_fails_leaves_what_was_there(tmp_path, monkeypatch, capsys):
    words = ["pack", *files(tmp_path), "--out", str(tmp_path / "out"), "--date", "2024-05-01"]
    assert main(words) == 0
    before = (tmp_path / "out" / PDF).read_bytes()
    monkeypatch.setattr("anglelib.storage.os.replace", _full)
    assert main([*words[:-1], "2024-05-02"]) == 2
    said = capsys.readouterr().err
    assert "the disk is full" in said and "Traceback" not in said
    assert (tmp_path / "out" / PDF).read_bytes() == before
    assert sorted(path.name for path in (tmp_path / "out").iterdir()) == [AFTER, PDF]


def _full(*_):
    raise OSError(28, "No space left on device")


def test_the_bar_shows_on_a_terminal_only():
    class Terminal(io.StringIO):
        def isatty(self):
            return True

    quiet, loud = io.StringIO(), Terminal()
    for stream in (quiet, loud):
        bar = Bar(stream)
        bar(0.5, "planning")
        bar(1.0, "printing")
        bar.close()
    assert quiet.getvalue() == ""
    assert "[###############...............] planning" in loud.getvalue() and loud.getvalue().endswith("\r")
    assert loud.getvalue().isascii()


PAIR = """format = 1
name = "Trial"

[section."3/4 x 3/4 x 1/8"]
leg_a = "3/4"
leg_b = "3/4"
thickness_a = "1/8"
fillet = "1/8"
"""
CLEAT = """
[[part]]
id = "{id}"
name = "Cleat"
section = "3/4 x 3/4 x 1/8"
alloy = "6061-T6"
length = "10"
quantity = {quantity}
hand = "{hand}"
mirror_of = "{other}"
tapers = [{{leg = "{leg}", end = 1, run = "1", width_left = "3/8"}}]
"""


def test_the_sheets_of_the_second_day_are_of_the_same_version_and_name_the_same_partner(tmp_path, capsys):
    """All left ones are cut, and one of the right: the job is the same, and the cards that lie at the bench hold."""
    job = PAIR + CLEAT.format(id="L", quantity=1, hand="left", other="R", leg="A") + CLEAT.format(id="R", quantity=3, hand="right", other="L", leg="B")
    head = "format,stick_id,leg_a,leg_b,thickness_a,fillet,alloy,length,kind,trim_1,trim_2"
    rows = [f"1,{name},3/4 in,3/4 in,1/8 in,1/8 in,6061-T6,{length} in,new,0 in,0 in" for name, length in (("S-1", 21), ("S-2", 22))]
    named = files(tmp_path, job, "\n".join([head, *rows]) + "\n")
    options = ["--date", "2024-05-01", "--sheets", "plan,tags,cards"]
    assert main(["pack", *named, "--out", str(tmp_path / "one"), *options]) == 0
    assert main(["plan", *named, "--done", "S-1: L, R"]) == 0
    assert main(["pack", *named, "--out", str(tmp_path / "two"), *options]) == 2
    assert "its sheets hold, and no new ones are needed" in capsys.readouterr().err
    assert main(["pack", *named, "--out", str(tmp_path / "two"), *options, "--anew"]) == 0
    assert "No stick changes against the sheets in hand." in capsys.readouterr().out
    first, second = (pages(tmp_path / day / PDF) for day in ("one", "two"))
    versions = {re.search(r"version (\w{4}-\w{4})", page)[1] for page in (*first, *second)}  # type: ignore[index]
    assert len(versions) == 1
    numbers = [{re.search(r"plan (\w{6})\b", page)[1] for page in day} for day in (first, second)]  # type: ignore[index]
    assert [len(found) for found in numbers] == [1, 1] and numbers[0] != numbers[1]
    assert not any("of 4 made" in page for page in first) and all("2 of 4 made" in page for page in second)
    card = next(page for page in second if "3 required" in page or "2 required" in page)
    assert "partner L" in card and "lay it against L" in card
    plan, tags = (next(page for page in second if page.startswith(title)) for title in ("Plan", "Tags"))
    said = set(re.findall(r"R \((\d of 3)\)", plan))
    assert len(said) == 2 and all(number in tags for number in said) and tags.count("partner L") == 2
