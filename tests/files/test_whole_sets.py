"""Several files are written whole or not at all: whichever call to the system fails, whichever is interrupted, all is as before.

Not by chance: the writing is stopped at its first call that changes the disk, at its second, and so on to the last.
"""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from patience import PATIENCE

import anglelib
from anglelib import storage, whole_sets
from anglelib.__main__ import main
from anglelib.errors import StorageError
from anglelib.whole_sets import write_set

CHANGES = ("open", "mkdir", "link", "replace", "fsync", "unlink", "rmdir", "chmod")
FILES = {"a.pdf": b"new a" * 1000, "C1L/one.dxf": b"new one", "C1L/two.svg": b"new two", "C2R/three.csv": b"new three"}
posix = pytest.mark.skipif(os.name != "posix", reason="needs the limits of POSIX")


def tree(folder: Path) -> dict[str, bytes | None]:
    """Every file and folder, hidden ones too."""
    return {str(path.relative_to(folder)): path.read_bytes() if path.is_file() else None for path in sorted(folder.rglob("*"))}


def written_before(folder: Path, times: int) -> None:
    """No writing yet, one, or two: then there are previous versions too."""
    for n in range(times):
        write_set(folder / "out", {name: f"{n} {name}".encode() for name in [*FILES][1:]})


class Failing:
    """The n-th call that changes the disk raises; ``lasting``: every one after it that needs room does too."""

    def __init__(self, monkeypatch, at: int, error: BaseException, lasting: bool = False, after: bool = False) -> None:
        self.count, self.at, self.error, self.lasting, self.after = 0, at, error, lasting, after
        for name in CHANGES:
            monkeypatch.setattr(os, name, self.around(name, getattr(os, name)))

    def around(self, name, real):
        def call(*arguments, **options):
            if name == "open" and not arguments[1] & (os.O_CREAT | os.O_WRONLY):
                return real(*arguments, **options)
            self.count += 1
            now = self.count == self.at
            if now and self.after:  # as Ctrl-C comes: the system has done it, and nobody is told
                result = real(*arguments, **options)
                if name == "open":
                    os.close(result)
                raise self.error
            if now or (self.lasting and self.count > self.at and name in ("open", "mkdir", "link", "fsync")):
                raise self.error
            return real(*arguments, **options)

        return call


FULL = OSError(28, "No space left on device")
WAYS = {
    "an error once": (OSError(5, "Input/output error"), False, False),
    "a full disk from then on": (FULL, True, False),
    "Ctrl-C before": (KeyboardInterrupt(), False, False),
    "Ctrl-C behind": (KeyboardInterrupt(), False, True),
}


@pytest.mark.parametrize("times", [0, 1, 2])
@pytest.mark.parametrize("way", WAYS)
def test_whatever_call_fails_everything_is_as_before(way, times, tmp_path):
    error, lasting, after = WAYS[way]
    written_before(tmp_path, times)
    before = tree(tmp_path)
    stopped = 0
    for at in range(1, 400):
        with pytest.MonkeyPatch.context() as patch:
            failing = Failing(patch, at, error, lasting, after)
            try:
                write_set(tmp_path / "out", FILES)
                done = True
            except (StorageError, KeyboardInterrupt):
                done = False
        if not done:
            stopped += 1
            # a lock, which a kill would leave too, is in nobody's way
            left = {name: content for name, content in tree(tmp_path).items() if not name.endswith(".lock")}
            if isinstance(error, KeyboardInterrupt) and left != before:  # all was done when it came: whole, and the next try is the last
                assert {name: left[f"out/{name}"] for name in FILES} == FILES and "out/.files.new" not in left, (way, at)
                break
            assert left == before, (way, at)
        elif failing.count < at:
            break
        else:  # what failed is only tried: a second name where a copy does it, permissions, the folder's own sync
            after_it = tree(tmp_path)
            assert {name: after_it[f"out/{name}"] for name in FILES} == FILES
            for path in sorted(tmp_path.rglob("*"), reverse=True):
                path.unlink() if path.is_file() else path.rmdir()
            written_before(tmp_path, times)
            assert tree(tmp_path) == before
    else:
        raise AssertionError("the writing never came to its end")
    assert stopped >= 15 and {name: (tmp_path / "out" / name).read_bytes() for name in FILES} == FILES


def test_what_was_there_becomes_the_previous_version(tmp_path):
    written_before(tmp_path, 2)
    write_set(tmp_path / "out", FILES)
    for name in [*FILES][1:]:
        assert storage.previous_of(tmp_path / "out" / name).read_bytes() == f"1 {name}".encode()
    assert not [name for name in tree(tmp_path) if "/." in name]


def test_a_disk_without_second_names(tmp_path, monkeypatch):
    def none(*_):
        raise OSError(1, "Operation not permitted")

    monkeypatch.setattr(os, "link", none)
    written_before(tmp_path, 2)
    write_set(tmp_path / "out", FILES)
    assert (tmp_path / "out" / "C1L" / "one.previous.dxf").read_bytes() == b"1 C1L/one.dxf"


def test_what_a_kill_left_is_in_nobodys_way(tmp_path):
    (tmp_path / "out" / ".files.new").mkdir(parents=True)
    (tmp_path / "out" / ".files.new" / "new-0").write_bytes(b"half")
    write_set(tmp_path / "out", FILES)
    assert not (tmp_path / "out" / ".files.new").exists()


# --- the commands ------------------------------------------------------------------------------------------
COMMANDS = {
    "export": (["export", "--part", "C1L", "--part", "A3", "--out", "out"], 20),
    "pack": (["pack", "--sheets", "cover,tags", "--out", "out"], 2),
}
COMMAND = """
import json, os, signal, resource, sys
from anglelib import whole_sets
from anglelib.__main__ import main
limit = int(sys.argv[1])
if limit:
    real = whole_sets.write_set
    def limited(folder, files):  # only the writing is limited: nothing else of the program writes files so large
        signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))
        return real(folder, files)
    for module in list(sys.modules.values()):
        pass
    import anglelib.paper.export, anglelib.paper.pack
    anglelib.paper.export.write_set = anglelib.paper.pack.write_set = limited
sys.exit(main(json.loads(sys.argv[2])))
"""


def run(folder: Path, words: list[str], limit: int) -> subprocess.CompletedProcess:
    environment = {**os.environ, "PYTHONPATH": str(Path(anglelib.__path__[0]).parent)}
    return subprocess.run([sys.executable, "-c", COMMAND, str(limit), json.dumps(words)], cwd=folder, env=environment, capture_output=True, text=True, timeout=PATIENCE)


@posix
@pytest.mark.parametrize("command", COMMANDS)
def test_a_command_that_meets_a_full_disk_leaves_nothing(command, tmp_path):
    """The system itself refuses the bytes beyond a limit, in the first file or in a later one."""
    words, least = COMMANDS[command]
    for limit in (50, 6000):
        done = run(tmp_path, words, limit)
        assert done.returncode == 2 and "could not be written" in done.stderr and "Traceback" not in done.stderr, done.stderr
        assert tree(tmp_path) == {}
    done = run(tmp_path, words, 0)
    assert done.returncode in (0, 3) and sum(content is not None for content in tree(tmp_path).values()) >= least
    before = tree(tmp_path)
    assert run(tmp_path, words, 6000).returncode == 2 and tree(tmp_path) == before


@pytest.mark.parametrize("command", COMMANDS)
def test_a_command_that_is_stopped_leaves_nothing(command, tmp_path, monkeypatch, capsys):
    """Ctrl-C at a few of the calls of its writing."""
    words, _ = COMMANDS[command]
    monkeypatch.chdir(tmp_path)
    for at in (3, 9, 17) if command == "export" else (3,):
        with pytest.MonkeyPatch.context() as patch:
            count = 0

            def stopped(path, content, like, real=storage.write_new, at=at):
                nonlocal count
                count += 1
                if count == min(at, 2 if command == "pack" else at):
                    raise KeyboardInterrupt
                return real(path, content, like)

            patch.setattr(whole_sets, "write_new", stopped)
            assert main(words) == 130
        assert tree(tmp_path) == {} and re.search("Stopped", capsys.readouterr().err)
