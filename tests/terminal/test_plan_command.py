"""``python -m anglelib plan``: its words are the plan's, its refusals are sentences, and it changes one file or none."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from fractions import Fraction as F
from pathlib import Path

import pytest
from patience import PATIENCE

from anglelib.__main__ import main
from anglelib.files import read_both, read_job, read_rack, read_record, save_job, save_rack
from anglelib.job import Shop
from anglelib.lengths import read
from anglelib.stock.planner import plan

HERE = Path(__file__).resolve().parent
for folder in ("files", "stock"):
    sys.path.insert(0, str(HERE.parent / folder))
from kits import kit  # noqa: E402
from spoiled import INERT_NAMES, JOB, RACK, SPOILED, changed  # noqa: E402

del sys.path[:2]

DEMO = HERE.parents[1] / "notebooks" / "demo"
BAR = ["--one", "3/4 x 3/4 x 1/8", "6061-T6", "17 1/4"]


@pytest.fixture
def demo(tmp_path):
    """The demo kit's files as somebody's own."""
    for name in ("job.toml", "rack.csv"):
        (tmp_path / name).write_bytes((DEMO / name).read_bytes())
    return [str(tmp_path / "job.toml"), str(tmp_path / "rack.csv")]


def own(folder: Path, job: str = JOB, rack: str = RACK) -> list[str]:
    (folder / "job.toml").write_text(job, encoding="utf-8")
    (folder / "rack.csv").write_text(rack, encoding="utf-8")
    return [str(folder / "job.toml"), str(folder / "rack.csv")]


def said(capsys, *words: str, code: int = 0) -> str:
    """What a command says, on one line."""
    assert main(["plan", *words]) == code
    out = capsys.readouterr()
    assert out.err == "" and "Traceback" not in out.out
    return re.sub(r"\s+", " ", out.out)


def refused(capsys, *words: str) -> str:
    assert main(["plan", *words]) == 2
    out = capsys.readouterr()
    assert out.out == "" and "Traceback" not in out.err
    return out.err


# --- the whole job --------------------------------------------------------------------------------------
def test_the_demo_is_planned_without_naming_a_file(capsys):
    words = said(capsys)
    assert words.startswith("Demo kit: 79 of 79 pieces are planned")
    for sentence in ("All 27 pieces can be made.", "What remains, longest first: 13; proven the longest there can be.", "SHORT"):
        assert (sentence in words) is (sentence != "SHORT")
    assert "S-12 has a square inside corner" in words


def test_every_line_is_counted_again_from_the_datum(capsys):
    """What is printed, read back: each line is the one before it, a kerf and the blank; every piece of the job is there once."""
    job, shop = read_job(DEMO / "job.toml"), Shop()
    assert main(["plan"]) == 0
    seen, at = [], None
    for row in capsys.readouterr().out.split("\n"):
        found = re.match(r" *\d+  (trim|clear|\w+)(?: \((\d+) of \d+\))?.*?  +(not sawn|\d[\d /]*)(?: \([\d.]+\))?(?:  |$)", row)
        if not found:
            at = None if not row.startswith("  ") else at
            continue
        name, number, line = found.groups()
        line = read(line)
        if name in ("trim", "clear"):
            at = line
            continue
        blank = job.part(name).length + 2 * shop.allowance
        assert line == (at or 0) + blank, row
        at = line + shop.kerf
        seen.append((name, int(number or 1)))
    assert sorted(seen) == sorted((part.id, n) for part in job.parts for n in range(1, part.quantity + 1))


def test_what_is_clamped_is_what_is_short_in_the_hand(capsys, demo):
    assert main(["plan", *demo]) == 0
    text = capsys.readouterr().out
    made = plan(read_job(demo[0]), read_rack(demo[1]))
    assert len(re.findall(r" CLAMP$", text, re.MULTILINE)) == sum(cut.clamp for stick in made.sticks for cut in stick.cuts) > 0
    short = [read(found) for found in re.findall(r"(?:comes off|stays)\s+is\s+([\d /]+\d)", text)]
    assert short and max(short) < 6


def test_a_shortage_has_its_exact_amount_and_the_smallest_purchase(tmp_path, capsys):
    """The bar's blank takes 17 9/16, its cut runs into the trim, and of the longer stick 14 - 2/4 = 13 1/2 can be used: 4 1/16 short."""
    rack = RACK.replace("144 in", "14 in").replace("56 1/4 in", "9 in").replace("29 1/2 in to 31 in; 50 in to 51 in", "")
    words = said(capsys, *own(tmp_path, rack=rack), "--buy", "24, 72", code=3)
    assert "SHORT: 1 of 1 x Tail bar (T2), blank 17 9/16 (17.563), 4 1/16 (4.063) short" in words
    assert "buy one 24; then everything can be made. Less is proven not to be enough." in words
    freed = words.split("What would free what is short, where the kit's plans allow it ")[1]
    assert freed.startswith(("T2 could be made if", "No part, shortened or spliced, was found that would."))
    words = said(capsys, *own(tmp_path), "--buy")
    assert "Nothing need be bought" in words


def test_which_part_may_not_be_spoiled(tmp_path, capsys):
    """By hand: the bar of 17 9/16 comes from the only long piece, the cleats of 2 5/16 could come again from what is left."""
    rack = RACK.replace("144 in", "24 in").replace("56 1/4 in", "12 in").replace("29 1/2 in to 31 in; 50 in to 51 in", "")
    words = said(capsys, *own(tmp_path, rack=rack)).split("Which part may not be spoiled? ")[1]
    assert words.startswith("T2 may not be spoiled: there is no metal for another.") and "one more could be made of T1L and T1R" in words


def test_what_cannot_be_proven_is_said_with_its_bound(tmp_path, capsys):
    """A plan stopped at once says how far it is proven, and that it was stopped."""
    job, rack = kit(104)
    files = [str(tmp_path / "job.toml"), str(tmp_path / "rack.csv")]
    save_job(job, files[0])
    save_rack(rack, files[1])
    assert main(["plan", *files, "--within", "0.001"]) in (0, 3)
    words = re.sub(r"\s+", " ", capsys.readouterr().out)
    assert "this is the best plan so far, and another run may end elsewhere" in words
    assert re.search(r"cannot exceed \d+|it is not proven|not ruled out", words)


def test_an_error_in_the_search_is_not_swallowed(monkeypatch):
    def broken(*_, **__):
        raise ZeroDivisionError

    monkeypatch.setattr("anglelib.stock.standing.make_plan", broken)
    with pytest.raises(ZeroDivisionError):
        main(["plan"])


@pytest.mark.parametrize("name", INERT_NAMES)
def test_any_name_is_printed_as_it_stands(name, tmp_path, capsys):
    quoted = name.replace("\\", "\\\\").replace('"', '\\"')
    words = said(capsys, *own(tmp_path, JOB.replace('"Tail repair"', f'"{quoted}"')))
    assert re.sub(r"\s+", " ", name) in words


@pytest.mark.parametrize("spoiled", SPOILED, ids=lambda spoiled: spoiled.name)
def test_a_spoiled_file_is_a_sentence_a_problem(spoiled, tmp_path, capsys):
    job, rack = spoiled.write(tmp_path)
    error = refused(capsys, str(job), str(rack))
    assert spoiled.wrong in error and spoiled.remedy in error
    assert all(line.strip() and len(line) < 500 for line in error.rstrip("\n").split("\n"))


def test_both_files_are_read_before_anything_is_said(tmp_path, capsys):
    error = refused(capsys, *own(tmp_path, changed(JOB, '"17 1/2"', '"17,5"'), changed(RACK, "144 in", "12 yd")))
    assert "job.toml, part T2, length" in error and "rack.csv, row 2, length" in error


# --- one part now -----------------------------------------------------------------------------------------
def test_one_part_from_the_demo_rack(capsys):
    words = said(capsys, *BAR)
    assert words.startswith("Cut it from S-09: it is the shortest piece that serves. Of the 32 1/2 that can be used there, 15 1/8 is left.")
    assert "Square the datum end, 1/16 from end 1. The blank is 17 5/16 (17.313) long: part it off at 17 5/16" in words
    assert "S-10 is 6063-T5" in words and "S-30" not in words and "No list" not in words.split("Other")[0]


def test_one_part_of_a_list_says_what_another_stick_would_cost(capsys, demo):
    words = said(capsys, *demo, *BAR, "--part", "A3")
    assert re.search(r"S-04 would leave 74 5/8 of 92, and A5[LR] could then not", words)
    assert "Every listed part of the section can still be made." in words and words.endswith("what is still wanted of Demo kit. ")
    assert "No list of parts was thought of" in said(capsys, *BAR, "--rack", demo[1])


def test_one_part_that_no_stick_serves(capsys):
    words = said(capsys, *BAR[:-1], "150", code=3)
    assert words.startswith("No stick on the rack serves: the longest piece is 143 1/2, and the blank takes 150 1/16.")
    assert "Too short: S-01, S-02" in words


def test_a_part_is_left_long_for_trimming_at_fitting(capsys):
    """17 1/4 and two allowances of 1/32 are 17 5/16; half an inch left on makes 17 13/16."""
    words = said(capsys, *BAR, "--left-long", "1/2")
    assert "The blank is 17 13/16 (17.813) long" in words


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["--one", "3/4 x 3/4", "6061-T6", "10"], "is no section: write leg x leg x thickness"),
        (["--one", "3/4 x 3/4 x 1/8", "unknown", "10"], "is there with a square inside corner and a fillet of 1/8: say which"),
        (["--one", "3/4 x 3/4 x 1/8", "6061T6", "10"], 'The alloy "6061T6" is no alloy with its temper: did you mean 6061-T6?'),
        (["--one", "7 x 7 x 1/8", "6061-T6", "10"], "Neither list nor rack has a section 7 x 7 x 1/8"),
        (["--one", "3/4 x 3/4 x 1/8", "6061-T6", "ten"], "length of the part"),
        (["--one", "3/4 x 3/4 x 1/8", "6061-T6", "0"], "length of the part"),
        ([*BAR, "--left-long", "-1"], "length left on"),
        ([*BAR, "--part", "A3"], "name the job file and the rack file too"),
        ([*BAR, "--rack", "no.csv"], "There is no file no.csv"),
        (["JOB", *BAR], "Name the rack file too"),
        (["JOB", "RACK", *BAR, "--part", "A4"], "A4 is listed as 3/4 x 3/4 x 1/8, 6061-T6, 38 3/8 long: ask for that"),
        (["JOB", "RACK", *BAR, "--part", "Z9"], 'no part "Z9"'),
        (["JOB", "RACK", *BAR, "--rack", "RACK"], "give one or the other"),
        (["--buy", "one"], "length to buy"),
        (["--buy", ","], "No length to buy is given"),
        (["JOB"], "Name the rack file too"),
        (["--done", "S-05"], "Cuts are marked in your own rack file"),
        (["JOB", "RACK", "--done", "S-99"], 'There is no stick "S-99"'),
        (["JOB", "RACK", "--done", "S-10"], "No plan is kept for job.toml (there is no job.plan.json): plan or pack it first, or say what was cut"),
        (["JOB", "RACK", "--done", "S-05: 9 x A3"], "Of A3 4 are wanted, and 0 marked as made: 9 more is too many"),
        (["JOB", "RACK", "--done", "S-05: 4 x A3"], "S-05 cannot have given 4 x A3"),
        (["JOB", "RACK", "--done", "S-05: A3", "--done", "S-06: A6L"], "S-06 cannot have given A6L"),
        (["JOB", "RACK", "--undo", "S-05"], 'No cut of a stick "S-05" is marked'),
        (["JOB", "RACK", "--spoiled", "S-05"], "Name the stick and the one piece that is spoiled"),
        (["JOB", "RACK", "--spoiled", "S-05: A3"], 'Say what is left of it: --spoiled "S-05: A3 leaves 12"'),
        (["JOB", "RACK", "--done", "S-05:0"], "No row of the sheet of S-05 is said to be done"),
        (["JOB", "RACK", "--done", ",,"], "No stick is named"),
        (["JOB", "RACK", "--used", "S-05: 99"], "S-05 cannot have given other at 99"),
        (["JOB", "RACK", "--serves", "A3"], "there is nothing to take for it"),
        (["JOB", "RACK", "--mend", "--rack-is-right"], "say opposite things"),
        (["JOB", "RACK", "--done", "s-05"], 'There is no stick "s-05": did you mean S-05?'),
        (["JOB", "RACK", "--spoiled", "S-05: 2 x A3"], "Name the stick and the one piece that is spoiled"),
    ],
)  # fmt: skip
def test_what_cannot_be_meant_is_a_sentence_and_changes_nothing(words, says, demo, capsys):
    before = Path(demo[1]).read_bytes()
    given = [{"JOB": demo[0], "RACK": demo[1]}.get(word, word) for word in words]
    error = refused(capsys, *given)
    assert says in error and error.count("\n") == 1
    assert Path(demo[1]).read_bytes() == before and sorted(p.name for p in Path(demo[1]).parent.iterdir()) == ["job.toml", "rack.csv"]


def test_options_that_argparse_refuses(capsys):
    for words in (["--within", "soon"], ["--within", "-1"], ["--one", "a", "b"], ["--bye"]):
        with pytest.raises(SystemExit) as stopped:
            main(["plan", *words])
        assert stopped.value.code == 2 and "Traceback" not in capsys.readouterr().err


# --- cuts done ------------------------------------------------------------------------------------------
def test_a_stick_cut_as_planned_is_marked_and_not_planned_again(demo, capsys):
    planned = plan(read_job(demo[0]), read_rack(demo[1])).stick("S-05")
    said(capsys, *demo)
    words = said(capsys, *demo, "--done", "S-05")
    number = len(planned.placed)
    assert "Marked: S-05, 56 1/4: cut on" in words and f"{number} of 79 pieces of Demo kit are marked as made." in words
    words = said(capsys, *demo)
    assert words.startswith(f"Demo kit: {79 - number} of {79 - number} pieces that are left are planned") and "Cut already S-05, 56 1/4: cut on" in words
    assert "SHORT" not in words


def test_all_sticks_marked_one_by_one_make_the_whole_job(tmp_path, capsys):
    """Whatever is planned after each mark: in the end everything is made, and the commands say so."""
    files = own(tmp_path, rack=RACK.replace("144 in", "9 in"))
    said(capsys, *files)
    job, record = read_both(*files)
    for planned in plan(job, record.rack).sticks:
        said(capsys, *files)  # shown again, the plan in hand is the same
        said(capsys, *files, "--done", planned.stick.id)
    assert said(capsys, *files) == "Tail repair: everything is marked as made; nothing is left to plan. "
    record = read_record(files[1])
    assert len(record.cut) > 1 and record.made("Tail repair") == {"T1L": 2, "T1R": 2, "T2": 1}
    assert main(["pack", *files, "--out", str(tmp_path / "out")]) == 2
    assert "Everything of Tail repair is marked as made in rack.csv: nothing is left to pack." in capsys.readouterr().err
    assert "say what was cut, like" in refused(capsys, *files, "--done", record.rack.sticks[0].id)


def test_a_part_that_is_all_made_is_not_asked_for_as_one_of_the_list(demo, capsys):
    said(capsys, *demo, "--done", "S-01: 4 x A3")
    error = refused(capsys, *demo, *BAR, "--part", "A3")
    assert error == "Every A3 is marked as made: leave --part out, or take back what was marked by mistake.\n"


@pytest.mark.skipif(os.name == "nt", reason="a pipe that is closed early is told otherwise there")
def test_whoever_reads_only_the_first_line_gets_no_complaint(demo):
    words = [sys.executable, "-c", "import sys; from anglelib.__main__ import main; sys.exit(main(sys.argv[1:]))", "plan", *demo, *BAR]
    near, far = os.pipe()
    os.close(near)
    run = subprocess.run(words, stdout=far, stderr=subprocess.PIPE, text=True, timeout=PATIENCE)
    os.close(far)
    assert (run.returncode, run.stderr) == (141, "")


def test_what_was_cut_otherwise_is_marked_as_it_was(demo, capsys):
    words = said(capsys, *demo, "--done", "S-09: A3", "--done", "S-07: A2L at 26 5/8, A2L spoiled")
    assert "Back on the rack: S-09-R1, 15 3/16 long; write its tag and 6061-T6 on it." in words
    assert "2 of 79 pieces of Demo kit are marked as made." in words
    record = read_record(demo[1])
    assert record.cut[1].pieces[0].length == F(213, 8) and record.made("Demo kit") == {"A3": 1, "A2L": 1}
    assert "Spoiled: A3 from S-09; it is wanted again." in said(capsys, *demo, "--spoiled", "S-09: A3 scrap")
    words = said(capsys, *demo, "--undo", "S-09", "--undo", "S-07")
    assert "Taken back: S-09 is on the rack again" in words and "0 of 79 pieces" in words
    assert set(read_rack(demo[1]).sticks) == set(read_rack(DEMO / "rack.csv").sticks)


def test_a_mistake_is_put_right_in_one_command(demo, capsys):
    said(capsys, *demo, "--done", "S-09: A3")
    words = said(capsys, *demo, "--undo", "S-09", "--done", "S-08: A3")
    assert "1 of 79 pieces of Demo kit are marked as made." in words
    assert [old.stick.id for old in read_record(demo[1]).cut] == ["S-08"]


def test_what_is_not_cut_yet_stays_as_it_was_printed(demo, capsys):
    """A stick is cut otherwise than planned: the plan made anew names the sticks that change, and the others are as before."""
    first = plan(read_job(demo[0]), read_rack(demo[1]))
    said(capsys, *demo)
    said(capsys, *demo, "--done", "S-05")
    assert "as it is in hand. 1 of its 20 sticks is cut." in said(capsys, *demo)
    words = said(capsys, *demo, "--done", "S-06: A2R")
    assert "Marked: S-06" in words
    assert "S-06 was cut otherwise than its sheet says" in refused(capsys, *demo)
    words = said(capsys, *demo, "--anew")
    changed = set(re.findall(r" ([\w-]+): [^:;]*? until now, now ", words.split("Cut already")[0]))
    assert "S-06" not in changed and changed
    words = words.split("Edge distance of the holes")[0]  # what is said after the last stick
    for stick in first.sticks:
        if stick.stick.id not in ("S-05", "S-06", *changed):
            pieces = " ".join(p.blank.part.id for p in stick.placed)
            row = re.search(rf" {stick.stick.id}, [^:]*? long(.*?)(?: S-\d\d(?:-R\d)?, | Left as they are| Not to be used|$)", words)
            assert row and re.findall(r"\b([A-E]\d[LR]?) ", row[1]) == pieces.split(), stick.stick.id
