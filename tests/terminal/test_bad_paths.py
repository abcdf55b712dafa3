"""Every path that a command takes, given everything that is none: one sentence, exit code 2, and nothing on the disk has changed."""

from __future__ import annotations

import os
import sys
from pathlib import Path

import pytest

from anglelib.__main__ import main
from anglelib.files import parse_job
from anglelib.workshop.readings_file import form

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "files"))
from spoiled import JOB, RACK  # noqa: E402

del sys.path[0]

READ = {  # commands that read a file there
    "plan JOB": lambda path: ["plan", path, "rack.csv"],
    "plan RACK": lambda path: ["plan", "job.toml", path],
    "plan --rack": lambda path: ["plan", "--one", "3/4 x 3/4 x 1/8", "6061-T6", "10", "--rack", path],
    "plan --done": lambda path: ["plan", "job.toml", path, "--done", "S-01: T2"],
    "pack JOB": lambda path: ["pack", path, "rack.csv", "--out", "made"],
    "pack RACK": lambda path: ["pack", "job.toml", path, "--out", "made"],
    "check READINGS": lambda path: ["check", "--job", "job.toml", path],
    "check --job": lambda path: ["check", "--job", path, "readings.csv"],
    "export JOB": lambda path: ["export", path, "--out", "made"],
}
FOLDERS = {  # commands that make a folder there
    "pack --out": lambda path: ["pack", "job.toml", "rack.csv", "--sheets", "tags", "--out", path],
    "export --out": lambda path: ["export", "job.toml", "--part", "T2", "--what", "csv", "--out", path],
    "class --out": lambda path: ["class", "--learners", "2", "--out", path],
    "hub --out": lambda path: ["hub", "--out", path],
}
FILES = {  # commands that make a file there
    "check --form": lambda path: ["check", "--job", "job.toml", "--codes", "2", "--form", path],
    "guide --out": lambda path: ["guide", "--out", path],
}
LOOKED = {"stuck FOLDER": lambda path: ["stuck", path]}

NAMES = {
    "nobody's home": "~nosuchuser/x",
    "300 characters": "n" * 300,
    "300 characters in a folder": f"{'n' * 300}/x",
    "a zero character": "a\0b",
    "a folder that is not there": "no/such/place",
    "a file as a folder": "rack.csv/x",
    "a link to nothing in a folder": "broken/x",
    "a link to itself": "loop",
}
NO_FILE = {"here": ".", "the root": "/", "above": "..", "a folder": "folder", "a folder with a slash": "folder/", "a link to nothing": "broken", "nothing": ""}
NOT_READ = {"empty": "empty", "2 MB": "large", "a file with a slash": "empty/"}
NO_FOLDER = {"a file": "empty", "a large file": "large"}

TABLE = [
    *((READ, what, how, path) for what in READ for how, path in {**NAMES, **NO_FILE, **NOT_READ}.items()),
    *((FOLDERS, what, how, path) for what in FOLDERS for how, path in {**NAMES, **NO_FOLDER, "a link to nothing": "broken", "nothing": ""}.items()),
    *((FILES, what, how, path) for what in FILES for how, path in {**NAMES, **NO_FILE}.items()),
    *((LOOKED, what, how, path) for what in LOOKED for how, path in {**NAMES, **NO_FOLDER, "a link to nothing": "broken", "nothing": ""}.items()),
]


@pytest.fixture
def here(tmp_path, monkeypatch) -> Path:
    """A folder in a folder, so that what lies above is the test's too."""
    place = tmp_path / "here"
    place.mkdir()
    (place / "job.toml").write_text(JOB)
    (place / "rack.csv").write_text(RACK)
    (place / "readings.csv").write_text(form(parse_job(JOB), ["K01"], ["T2"]))
    (place / "empty").write_text("")
    (place / "large").write_text("x" * 2_000_000)
    (place / "folder").mkdir()
    (place / "broken").symlink_to("gone/away")
    (place / "loop").symlink_to("loop")
    monkeypatch.chdir(place)
    monkeypatch.setenv("HOME", str(tmp_path))
    return tmp_path


def tree(folder: Path) -> dict[str, object]:
    return {str(path): path.read_bytes() if path.is_file() else os.readlink(path) if path.is_symlink() else None for path in sorted(folder.rglob("*"))}


def refusal(words: list[str], capsys) -> str:
    assert main(words) == 2, words
    out = capsys.readouterr()
    said = out.err.strip()
    assert said and "Traceback" not in said and "[Errno" not in said and all(line.endswith((".", "?")) for line in said.split("\n")), said
    assert len(max(said.split("\n"), key=len)) < 600
    return said


@pytest.mark.parametrize(("kind", "what", "how", "path"), TABLE, ids=[f"{what}: {how}" for _, what, how, _ in TABLE])
def test_a_path_that_is_none_is_refused_in_a_sentence(kind, what, how, path, here, capsys):
    if what == "guide --out" and not path.endswith("/"):
        path = f"{path}.pdf" if how in ("300 characters", "nobody's home", "a zero character", "a folder that is not there", "a file as a folder") else path
    before = tree(here)
    refusal(kind[what](path), capsys)
    assert tree(here) == before


@pytest.mark.skipif(os.name != "posix", reason="needs the accounts of POSIX")
@pytest.mark.parametrize(
    ("kind", "what"), [(kind, what) for kind in (READ, FOLDERS, FILES, LOOKED) for what in kind], ids=lambda value: value if isinstance(value, str) else ""
)
def test_no_permission_is_a_sentence_too(kind, what, here, capsys):
    """Somebody else's folder that nobody else may enter; root, who may do anything, becomes nobody for it."""
    locked = here / "locked"
    locked.mkdir()
    for name in ("job.toml", "rack.csv", "readings.csv"):
        (locked / name).write_bytes((here / "here" / name).read_bytes())
    name = {"JOB": "job.toml", "--job": "job.toml", "READINGS": "readings.csv"}.get(what.split()[1], "rack.csv")
    path = locked / "new.pdf" if kind is FILES else locked / "new" if kind is FOLDERS else locked if kind is LOOKED else locked / name
    root = os.geteuid() == 0
    for place in (here, *here.parents[:3]):
        os.chmod(place, os.stat(place).st_mode | 0o055)
    os.chmod(locked, 0o000)
    before = tree(here)
    if root:
        main(kind[what]("nowhere/at/all"))  # imports what it needs while the project can be read
        capsys.readouterr()
        os.seteuid(65534)
    try:
        if kind is LOOKED:
            main(kind[what](str(path)))
            assert "cannot be looked into" in capsys.readouterr().err
        else:
            refusal(kind[what](str(path)), capsys)
    finally:
        if root:
            os.seteuid(0)
        os.chmod(locked, 0o700)
    assert {name for name in tree(here)} - {str(path) for path in locked.rglob("*")} == set(before) - {str(path) for path in locked.rglob("*")}


@pytest.mark.parametrize("home", ["~nosuchuser/x", "n" * 300])
def test_the_course_folder_is_asked_for_in_a_sentence(home, here, monkeypatch, capsys):
    from anglelib import course

    with pytest.raises(course.CourseError):
        course.fill(course.home({"ANGLELIB_HOME": home}), course.PROJECT)
