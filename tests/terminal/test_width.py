"""Whatever a command says fits the terminal, down to 40 columns, and no number is parted from its unit; what is piped stays as it was."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from patience import PATIENCE

import anglelib
from anglelib.__main__ import COMMANDS, main
from anglelib.files import parse_job, save_job, save_rack
from anglelib.lessons.demo import demo_job, demo_rack
from anglelib.lines import LEAST, fitted, in_lines, shortened, wrapped
from anglelib.paper.commands import Bar
from anglelib.questions.answers import Answer, AnswerBook
from anglelib.workshop.readings_file import form

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "files"))
from spoiled import JOB, RACK, changed  # noqa: E402

del sys.path[0]

WIDTHS = (40, 60, 80, 120)
OWN = ("job.toml", "rack.csv")
METRIC = ("mm.toml", "rack.csv")
RUN = [
    ["plan", *OWN], ["plan", *METRIC], ["plan", *OWN, "--buy"], ["plan", *OWN, "--one", "3/4 x 3/4 x 1/8", "6061-T6", "17 1/2"],
    ["plan", "short.toml", "rack.csv", "--buy", "72"], ["buy", "short.toml", "rack.csv", "--out", "buy"], ["buy", "short.toml", "rack.csv", "--bought", "all"], ["plan", "demo.toml", "demo.csv"],
    ["plan", *OWN, "--done", "S-01: T2"], ["plan", *OWN, "--spoiled", "S-01: T2"], ["plan", *OWN, "--undo", "S-01"],
    ["pack", *OWN, "--out", "pack", "--sheets", "cover,tags"], ["pack", "short.toml", "rack.csv", "--out", "pack", "--sheets", "tags"],
    ["check", "--job", "job.toml", "readings.csv"], ["check", "--job", "job.toml", "readings.csv", "--class-only"],
    ["check", "--job", "job.toml", "--form", "new.csv", "--codes", "3"], ["export", "job.toml", "--part", "T2", "--what", "csv", "--out", "out"],
    ["stuck", "share", "--all"], ["--help"], *([name, "--help"] for name in COMMANDS),
    # refused
    [], ["plan", "--nope"], ["plan", "nowhere.toml", "nowhere.csv"], ["plan", "rack.csv", "job.toml"], ["pack", "--paper", "foolscap"], ["stuck", "nowhere"],
    ["check", "--job", "job.toml", "wrong.csv"], ["export", "--part", "Z9"], ["class", "--learners", "many"], ["hub", "--out", "a folder with spaces"],
]  # fmt: skip


@pytest.fixture(scope="module")
def folder(tmp_path_factory) -> Path:
    place = tmp_path_factory.mktemp("w")
    job = parse_job(JOB)
    (place / "job.toml").write_text(changed(JOB, '"Tail bar"', '"Tail bar with a name of almost sixty signs, as files have"'))
    (place / "mm.toml").write_text(changed(JOB, "format = 1", 'format = 1\nunit = "mm"'))
    (place / "short.toml").write_text(changed(JOB, 'length = "17 1/2"', 'length = "143 1/2"\nquantity = 3'))
    (place / "rack.csv").write_text(RACK)
    save_job(demo_job(), place / "demo.toml")
    save_rack(demo_rack(), place / "demo.csv")
    rows = form(job, ["K01"]).replace("inside or misses,,,", "inside or misses,,,misses").splitlines()
    filled = [row if n < 2 or ",print," in row else row + "1.5 in" if ",toe.A," in row and "T1L" in row else row for n, row in enumerate(rows)]
    (place / "readings.csv").write_text("\n".join(filled))
    (place / "wrong.csv").write_text("\n".join(row + "17" if row.endswith(",") else row for row in rows))
    book = AnswerBook("07_taper_inside", place / "share" / "answers")
    for id_ in ("07-project", "predict-the-mark", "invented"):
        book.add(Answer(id_, 0, "1/8", "mistake", ("offset-as-thickness",)))
    return place


def said(words: list[str], capsys) -> str:
    try:
        main(words)
    except SystemExit:  # argparse
        pass
    out = capsys.readouterr()
    assert "Traceback" not in out.err
    return out.out + out.err


@pytest.mark.parametrize("wide", WIDTHS)
def test_every_line_of_every_command_fits(wide, folder, monkeypatch, capsys):
    monkeypatch.chdir(folder)
    monkeypatch.setenv("COLUMNS", str(wide))
    for words in RUN:
        if "demo.toml" in words and wide not in (40, 80):
            continue  # the longest plan, and the slowest
        lines = said(words, capsys).split("\n")
        assert len(lines) > 1, words
        longest = max(lines, key=len)
        assert len(longest) <= wide, (words, longest)
        for line, following in zip(lines, lines[1:]):
            assert not (re.search(r"\d$", line) and re.match(r" *(?:\d+/\d+|in\b|mm\b|ft\b)", following)), (words, line, following)


def test_what_is_piped_is_as_long_as_it_was(folder, monkeypatch, capsys):
    """100 signs a line of running text; a row of the plan, a path and a refusal stay on one line."""
    monkeypatch.chdir(folder)
    monkeypatch.delenv("COLUMNS", raising=False)
    text = said(["plan", *OWN], capsys)
    assert 90 < max(map(len, text.split("\n"))) and re.search(r"^ +\d+  T2 Tail bar with a name of almost sixty signs, as files have +\d", text, re.MULTILINE)
    assert said(["plan", "nowhere.toml", "nowhere.csv"], capsys).count("\n") == 2


@pytest.mark.skipif(os.name != "posix", reason="needs a terminal of POSIX")
def test_a_real_terminal_is_asked_how_wide_it_is(folder):
    """The progress line too, which goes to the same terminal."""
    import fcntl
    import pty
    import struct
    import termios

    ours, theirs = pty.openpty()
    fcntl.ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 44, 0, 0))
    environment = {name: value for name, value in os.environ.items() if name != "COLUMNS"} | {"PYTHONPATH": str(Path(anglelib.__path__[0]).parent)}
    process = subprocess.Popen([sys.executable, "-m", "anglelib", "plan", *OWN, "--anew"], cwd=folder, env=environment, stdin=theirs, stdout=theirs, stderr=theirs)
    os.close(theirs)
    text = b""
    while True:
        try:
            more = os.read(ours, 65536)
        except OSError:  # the other end is closed
            break
        if not more:
            break
        text += more
    os.close(ours)
    assert process.wait(PATIENCE) == 0
    pieces = re.split(r"[\r\n]+", text.decode())
    assert any(piece.startswith(("[#", "[.")) for piece in pieces) and any("T2" in piece for piece in pieces)
    assert max(map(len, pieces)) <= 44


@pytest.mark.parametrize("wide", [40, 60, 80])
def test_the_progress_line_is_one_line(wide, monkeypatch):
    import io

    class Terminal(io.StringIO):
        def isatty(self):
            return True

    monkeypatch.setenv("COLUMNS", str(wide))
    stream = Terminal()
    bar = Bar(stream)
    for share in (0.0, 0.4, 1.0):
        bar(share, "1 1/2 x 1 1/2 x 3/16, 6061-T6: Level 3: fewest full sticks opened, then fewest touched.")
    bar.close()
    assert max(map(len, stream.getvalue().split("\r"))) < wide and "..." in stream.getvalue()


def test_numbers_stay_with_their_units():
    text = "Cut 2 x A3 from S-05 at 17 5/16 in. or 439.74 mm, of 3/4 x 3/4 x 1/8 angle, 12 ft long, 2.5 D from the edge. " * 3
    for most in range(24, 100):
        lines = in_lines(text, most)
        assert " ".join(lines) == text.strip() and max(map(len, lines)) <= most
        for line in lines:
            assert not re.search(r"(?:^|\s)17$|5/16$|439\.74$|(?:2|3/4) x$|(?:2|3/4)$|12$|2\.5$", line), line
    assert shortened("a" * 50, 20) == "a" * 17 + "..."


def test_a_narrower_terminal_than_forty_is_taken_for_forty(monkeypatch):
    monkeypatch.setenv("COLUMNS", "7")
    assert max(map(len, wrapped("word " * 40))) <= LEAST and fitted("x " * 60).count("\n") == 3
