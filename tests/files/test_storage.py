"""Saving loses nothing: not to a kill at any moment, not to another writer, not to a refusal."""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import threading
import time
from pathlib import Path

import pytest
from patience import PATIENCE
from saver import number_of, version

import anglelib
from anglelib import storage
from anglelib.errors import StorageError
from anglelib.storage import previous_of, read_text, write_text

HERE = Path(__file__).parent
posix = pytest.mark.skipif(os.name != "posix", reason="needs SIGKILL, pipes and POSIX permissions")


def saver(*arguments: object, **options) -> subprocess.Popen:
    folders = [str(Path(anglelib.__path__[0]).parent), os.environ.get("PYTHONPATH", "")]
    environment = {**os.environ, "PYTHONPATH": os.pathsep.join(folders), "PYTHONDONTWRITEBYTECODE": "1"}
    return subprocess.Popen(
        [sys.executable, str(HERE / "saver.py"), *map(str, arguments)], env=environment, stdout=subprocess.PIPE, **options
    )


def leftovers(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir() if path.name.startswith("."))


# --- interrupted ----------------------------------------------------------------------------------------
def kill_during_saves(path: Path, kills: int) -> None:
    dice = random.Random(41)
    for _ in range(kills):
        process = saver("loop", path)
        process.stdout.readline()  # it is in full swing
        time.sleep(dice.random() * 0.02)
        process.send_signal(signal.SIGKILL)
        said = process.stdout.read().split()
        process.wait()
        on_disk = number_of(read_text(path).text)
        if said:
            last = int(said[-1])
            assert on_disk in (last, last + 1), "a version that was reported as saved is gone"
        assert number_of(read_text(previous_of(path)).text) in (on_disk - 1, on_disk)


@posix
def test_kills_during_saves_lose_nothing(tmp_path):
    path = write_text(tmp_path / "job.toml", version(1)).path
    kill_during_saves(path, 40)


@posix
@pytest.mark.slow
def test_five_hundred_kills_lose_nothing(tmp_path):
    path = write_text(tmp_path / "job.toml", version(1)).path
    kill_during_saves(path, 500)


@posix
def test_a_kill_before_any_step_of_a_save_loses_nothing(tmp_path):
    """Not by chance: the save is killed before its first call to the system, its second, and so on to the last."""
    path = write_text(tmp_path / "rack.csv", version(1)).path
    write_text(path, version(2), read_text(path))
    outcomes = []
    for at in range(1, 100):
        before = number_of(read_text(path).text)
        process = saver("step", path, at)
        process.communicate(timeout=PATIENCE)
        after = number_of(read_text(path).text)
        assert after in (before, before + 1)
        assert number_of(read_text(previous_of(path)).text) in (after - 1, after)
        outcomes.append(after - before)
        if process.returncode == 0:
            break
        assert process.returncode == -signal.SIGKILL
        # What was left lying about is in nobody's way.
        write_text(path, version(after), read_text(path))
        write_text(path, version(after + 1), read_text(path))
    assert process.returncode == 0, "the save never came to its end"
    assert len(outcomes) >= 15
    assert outcomes == sorted(outcomes), "once the new version is there, no later kill may bring the old one back"
    assert leftovers(tmp_path) == []


def test_a_failing_disk_leaves_the_old_file_and_no_rubbish(tmp_path, monkeypatch):
    source = write_text(tmp_path / "job.toml", "old")

    def full(_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(StorageError, match="the disk is full. The old file is untouched"):
        write_text(source.path, "new", source)
    assert source.path.read_text() == "old"
    assert [path.name for path in tmp_path.iterdir()] == ["job.toml"]


# --- other writers ------------------------------------------------------------------------------------
def test_two_writers_never_overwrite_each_other(tmp_path):
    """Four programs each count up the same file 10 times: with one save lost the sum would be short."""
    path = write_text(tmp_path / "job.toml", version(0)).path
    writers = [saver("count", path, 10) for _ in range(4)]
    assert [writer.wait(timeout=PATIENCE) for writer in writers] == [0, 0, 0, 0]
    assert number_of(read_text(path).text) == 40
    assert number_of(read_text(previous_of(path)).text) == 39


def test_two_threads_that_read_the_same_version_cannot_both_save(tmp_path):
    source = write_text(tmp_path / "job.toml", "0")
    outcomes = []

    def save(text):
        try:
            write_text(source.path, text, source)
            outcomes.append(text)
        except StorageError:
            outcomes.append(None)

    threads = [threading.Thread(target=save, args=(str(n),)) for n in range(1, 9)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    saved = [text for text in outcomes if text]
    assert len(saved) == 1
    assert source.path.read_text() == saved[0]


def test_a_file_changed_since_it_was_read_is_refused_and_kept(tmp_path):
    source = write_text(tmp_path / "job.toml", "mine")
    source.path.write_text("theirs")
    with pytest.raises(StorageError, match="changed on the disk since it was read here: read it again"):
        write_text(source.path, "mine, more", source)
    assert source.path.read_text() == "theirs"
    assert not previous_of(source.path).exists()


def test_a_change_within_one_tick_of_the_clock_is_seen(tmp_path):
    source = write_text(tmp_path / "job.toml", "mine")
    status = os.stat(source.path)
    source.path.write_text("them")  # as long
    os.utime(source.path, ns=(status.st_atime_ns, status.st_mtime_ns))
    with pytest.raises(StorageError, match="changed on the disk"):
        write_text(source.path, "more", source)


def test_a_file_that_was_not_read_is_not_overwritten(tmp_path):
    (tmp_path / "job.toml").write_text("theirs")
    with pytest.raises(StorageError, match="already a file job.toml: choose another name"):
        write_text(tmp_path / "job.toml", "mine")
    assert (tmp_path / "job.toml").read_text() == "theirs"


def test_a_file_that_is_gone_is_not_brought_back(tmp_path):
    source = write_text(tmp_path / "job.toml", "mine")
    source.path.unlink()
    with pytest.raises(StorageError, match="is gone: .* Save under a new name"):
        write_text(source.path, "more", source)
    assert list(tmp_path.iterdir()) == []


def test_waits_for_another_save_and_then_says_so(tmp_path, monkeypatch):
    source = write_text(tmp_path / "job.toml", "old")
    monkeypatch.setattr(storage, "PATIENCE", 0.05)
    with storage.locked(source.path):
        with pytest.raises(StorageError, match="is being saved by another program: wait for it"):
            write_text(source.path, "new", source)
    assert write_text(source.path, "new", source).text == "new"


# --- what is kept ---------------------------------------------------------------------------------------
def test_the_previous_version_is_kept(tmp_path):
    source = write_text(tmp_path / "job.toml", "1")
    for text in ("2", "3"):
        source = write_text(source.path, text, source)
    assert source.path.read_text() == "3"
    assert previous_of(source.path).read_text() == "2"
    assert leftovers(tmp_path) == []


def test_the_previous_version_is_kept_where_a_disk_knows_no_second_names(tmp_path, monkeypatch):
    def no_links(*_):
        raise OSError(1, "Operation not permitted")

    monkeypatch.setattr(os, "link", no_links)
    test_the_previous_version_is_kept(tmp_path)


def test_line_ends_and_marks_of_the_text_are_kept(tmp_path):
    source = write_text(tmp_path / "a.txt", "1\r\n2\n3\r⅝")
    assert source.path.read_bytes() == "1\r\n2\n3\r⅝".encode()
    assert read_text(source.path) == source


@posix
def test_permissions_and_links_are_kept(tmp_path):
    source = write_text(tmp_path / "real.toml", "1")
    os.chmod(source.path, 0o640)
    (tmp_path / "link.toml").symlink_to("real.toml")
    write_text(tmp_path / "link.toml", "2", read_text(tmp_path / "link.toml"))
    assert (tmp_path / "link.toml").is_symlink()
    assert source.path.read_text() == "2"
    assert source.path.stat().st_mode & 0o777 == 0o640


# --- refusals -------------------------------------------------------------------------------------------
def refusals(folder: Path):
    (folder / "a folder").mkdir()
    (folder / "old.txt").write_text("1")
    (folder / "big.txt").write_bytes(b"x" * 1_000_001)
    (folder / "latin.txt").write_bytes(b"one\ntwo \xe9\n")
    return [
        (lambda: read_text(folder / "none.txt"), "There is no file none.txt: check the name"),
        (lambda: read_text(folder / "no" / "a.txt"), "folder of a.txt is not there: check the path"),
        (lambda: read_text(folder / "a folder"), "a folder is a folder: name the file in it"),
        (lambda: read_text(folder / "old.txt" / "a.txt"), "a.txt is .*not there|The folder of a.txt is a file"),
        (lambda: read_text(folder / "big.txt"), "big.txt is larger than 1,000 kB"),
        (lambda: read_text(folder / "latin.txt"), 'latin.txt, line 2: the character "é" is stored as Latin-1'),
        (lambda: read_text("a\0b"), "cannot be the name of a file"),
        (lambda: read_text(folder / ("x" * 300)), "could not be read"),
        (lambda: read_text(""), "No file is named: write its path"),
        (lambda: write_text(folder / "no" / "a.txt", "1"), "folder for a.txt is not there: make it first"),
        (lambda: write_text(folder / "a folder", "1"), "a folder is a folder"),
        (lambda: write_text(folder / "old.txt" / "a.txt", "1"), "folder for a.txt is not there"),
        (lambda: write_text(folder / "a\0b", "1"), "cannot be the name of a file"),
    ]


@pytest.mark.parametrize("number", range(13))
def test_refusals_are_sentences(tmp_path, number):
    act, says = refusals(tmp_path)[number]
    before = sorted(tmp_path.rglob("*"))
    with pytest.raises(StorageError, match=says) as caught:
        act()
    assert "\n" not in str(caught.value) and str(caught.value).isprintable()
    assert sorted(tmp_path.rglob("*")) == before


@posix
def test_a_read_only_file_is_refused(tmp_path):
    source = write_text(tmp_path / "job.toml", "1")
    os.chmod(source.path, 0o444)
    with pytest.raises(StorageError, match="job.toml is read-only: allow writing to it"):
        write_text(source.path, "2", source)
    assert source.path.read_text() == "1"


@posix
@pytest.mark.parametrize("odd", ["pipe", "/dev/zero"])
def test_a_pipe_and_a_device_are_refused_and_not_waited_for(tmp_path, odd):
    os.mkfifo(tmp_path / "pipe")
    said = []

    def read():
        try:
            read_text(tmp_path / odd)
        except StorageError as error:
            said.append(str(error))

    reader = threading.Thread(target=read, daemon=True)  # a reader that waits for ever must not hold up the tests
    reader.start()
    reader.join(timeout=PATIENCE)
    assert said and "is not an ordinary file" in said[0]


@posix
def test_a_folder_that_is_not_ours_is_refused_in_words(tmp_path, monkeypatch):
    """Permission is asked of a stand-in: these tests may run as root, who is refused nothing."""
    source = write_text(tmp_path / "job.toml", "1")

    def denied(*_, **__):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(os, "replace", denied)
    with pytest.raises(StorageError, match="could not be saved: this computer does not allow it. Close the program"):
        write_text(source.path, "2", source)
    assert source.path.read_text() == "1"
    assert leftovers(tmp_path) == []
