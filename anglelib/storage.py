"""Storage: text files that belong to a person, read with limits and saved so that nothing is lost.

A save writes a new file beside the old one, forces it to the disk, keeps the old one as the
previous version, and only then gives the new one the name: whatever interrupts it, the name holds
either all of the old text or all of the new. Whoever saves says which text was read before; where
somebody else has changed the file since, the save is refused.

>>> from tempfile import TemporaryDirectory
>>> with TemporaryDirectory() as folder:
...     first = write_text(Path(folder, "note.txt"), "first\\n")
...     second = write_text(first.path, "second\\n", read=first)
...     print(previous_of(first.path).name, previous_of(first.path).read_text().strip())
...     write_text(first.path, "third\\n", read=first)
Traceback (most recent call last):
    ...
anglelib.errors.FileChanged: note.txt has changed on the disk since it was read here: read it again, then make the change again. Nothing was written.
"""

from __future__ import annotations

import contextlib
import errno
import hashlib
import os
import stat
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from anglelib.contents import TEXT, look_at
from anglelib.contents_words import PLAIN, refusal
from anglelib.errors import FileChanged, StorageError
from anglelib.names import visible

MOST_BYTES = 1_000_000
"""The largest file that is read: 1 MB."""

PATIENCE = 5.0
"""How long a save waits for another one of the same file [s]."""


@dataclass(frozen=True)
class Source:
    """A file as it was read or written: its path, its text (without a byte-order mark), and its stamp.

    The stamp is a digest of the bytes: two writes within one tick of the clock still differ.
    """

    path: Path
    text: str
    stamp: str


def shown(path: str | os.PathLike) -> str:
    """The file's name as it appears in a sentence."""
    name = os.path.basename(os.fspath(path).rstrip("/\\")) or os.fspath(path)
    return visible(name)[:80] or "this file"


def path_typed(text: str) -> Path:
    """The path that a person types, ~ for the home folder; StorageError where it cannot be one.

    >>> path_typed("~nosuchuser/x")
    Traceback (most recent call last):
        ...
    anglelib.errors.StorageError: There is no user whose home ~nosuchuser is: write the whole path.
    """
    name = text.strip()
    if not name:
        raise StorageError("No file or folder is named: write its path.")
    if visible(name) != name:
        raise StorageError(f"{shown(name)} cannot be the name of a file: type it again.")
    try:
        return Path(name).expanduser()
    except RuntimeError:
        raise StorageError(f"There is no user whose home {visible(name.split('/')[0])[:60]} is: write the whole path.") from None


def previous_of(path: str | os.PathLike) -> Path:
    """Where the previous version of a file is kept.

    >>> previous_of("kit/rack.csv").name
    'rack.previous.csv'
    """
    path = Path(path)
    return path.with_name(f"{path.stem}.previous{path.suffix}")


def read_text(path: str | os.PathLike, most: int = MOST_BYTES, kind: str = PLAIN) -> Source:
    """The text of a UTF-8 file, with or without a byte-order mark; line ends as they stand.

    ``kind`` is what the file should be (:mod:`anglelib.contents_words`), which its refusal says. Raises :class:`~anglelib.errors.StorageError` for what is no readable text file of at most
    ``most`` bytes, with the remedy.
    """
    _refuse_nameless(path)
    with in_bench_language(path, "read"):
        target = Path(os.path.realpath(path))
        if not target.exists() and not target.parent.is_dir():
            raise StorageError(f"The folder of {shown(path)} is not there: check the path {path_shown(path)}.")
        # Asked before opening: opening a named pipe would wait for ever.
        _refuse_odd(path, os.stat(target))
        with open(target, "rb") as file:
            content = file.read(most + 1)
    if len(content) > most:
        raise StorageError(
            f"{shown(path)} is larger than {most // 1000:,} kB: no file of this kind is; check that it is the right file."
        )
    return Source(target, decoded(path, content, kind), digest(content))


def write_text(path: str | os.PathLike, text: str, read: Source | None = None) -> Source:
    """Save the text in place of what was ``read`` before; None: there must be no such file yet.

    The version on the disk becomes :func:`previous_of`. Raises
    :class:`~anglelib.errors.StorageError`, with nothing written, where the file has changed since
    it was read, is read-only, or cannot be written.
    """
    content = text.encode("utf-8")
    _refuse_nameless(path)
    with in_bench_language(path, "saved"):
        target = Path(os.path.realpath(path))
        if not target.parent.is_dir():
            raise StorageError(f"The folder for {shown(path)} is not there: make it first, or check the path {path_shown(path)}.")
        with locked(target):
            refuse_changed(target, read)
            _replace(target, content)
    return Source(target, text, digest(content))


def write_made(path: str | os.PathLike, content: bytes) -> Path:
    """Save what this library makes afresh each time (a print, a list); what was there becomes :func:`previous_of`.

    Raises :class:`~anglelib.errors.StorageError`, with nothing written, where it cannot be saved.
    """
    with in_bench_language(path, "saved"):
        target = Path(os.path.realpath(path))
        if not target.parent.is_dir():
            raise StorageError(f"The folder for {shown(path)} is not there: make it first, or check the path {path_shown(path)}.")
        with locked(target):
            if target.exists():
                _refuse_odd(target, os.stat(target))
                if not os.access(target, os.W_OK):
                    raise StorageError(f"{shown(target)} is read-only: allow writing to it, or save somewhere else.")
            _replace(target, content)
    return target


# --- what is refused ------------------------------------------------------------------------------
def path_shown(path: str | os.PathLike) -> str:
    """The end of a path as it appears in a sentence."""
    return visible(os.fspath(path))[-200:]


def _refuse_nameless(path: str | os.PathLike) -> None:
    if not os.fspath(path).strip():
        raise StorageError("No file is named: write its path.")


def _refuse_odd(path: str | os.PathLike, found: os.stat_result) -> None:
    if stat.S_ISDIR(found.st_mode):
        raise StorageError(f"{shown(path)} is a folder: name the file in it.")
    if not stat.S_ISREG(found.st_mode):
        raise StorageError(f"{shown(path)} is not an ordinary file: name a file on the disk.")


def refuse_changed(target: str | os.PathLike, read: Source | None) -> None:
    """Raise StorageError where a file is not any more as it was read, or cannot be written."""
    target = Path(target)
    try:
        found = os.stat(target)
    except FileNotFoundError:
        if read is not None:
            raise StorageError(
                f"{shown(target)} is gone: it was moved or deleted since it was read here. Save under a new name."
            ) from None
        return
    _refuse_odd(target, found)
    if read is None:
        raise StorageError(f"There is already a file {shown(target)}: choose another name, or read that file first.")
    if not found.st_mode & 0o222 or not os.access(target, os.W_OK):
        raise StorageError(f"{shown(target)} is read-only: allow writing to it, or save under another name.")
    if digest(target.read_bytes()) != read.stamp:
        raise FileChanged(
            f"{shown(target)} has changed on the disk since it was read here: read it again, then make the change "
            "again. Nothing was written."
        )


@contextlib.contextmanager
def in_bench_language(path: str | os.PathLike, done: str, kept: str = "The old file is untouched.") -> Iterator[None]:
    """Whatever the operating system says, as a sentence with a remedy; ``kept`` is what a full disk has left as it was."""
    name = shown(path)
    try:
        yield
    except FileNotFoundError:
        raise StorageError(f"There is no file {name}: check the name and the folder, {path_shown(path)}.") from None
    except IsADirectoryError:
        raise StorageError(f"{name} is a folder: name the file in it.") from None
    except NotADirectoryError:
        raise StorageError(f"The folder of {name} is a file: check the path {path_shown(path)}.") from None
    except PermissionError:
        raise StorageError(
            f"{name} could not be {done}: this computer does not allow it. Close the program that has it open, "
            "or check the permissions of the file and its folder."
        ) from None
    except OSError as error:
        if error.errno in (errno.ENOSPC, errno.EDQUOT if hasattr(errno, "EDQUOT") else None):
            raise StorageError(f"{name} could not be {done}: the disk is full. {kept}") from None
        reason = visible(error.strerror or "no reason given").rstrip(".").lower()
        raise StorageError(f"{name} could not be {done} ({reason}): check the path and the disk.") from None
    except ValueError as error:
        if isinstance(error, StorageError):
            raise
        # A path with a zero character in it.
        raise StorageError(f"{name} cannot be the name of a file: type it again.") from None


def decoded(path: str | os.PathLike, content: bytes, kind: str = PLAIN) -> str:
    """The text in a file's bytes; StorageError, which says what else they are, where they are none."""
    found = look_at(content)
    if found.id != TEXT:
        raise StorageError(refusal(shown(path), found, kind))
    return found.text


def digest(content: bytes) -> str:
    """The stamp of a file's bytes."""
    return hashlib.sha256(content).hexdigest()


# --- writing ----------------------------------------------------------------------------------------
def _replace(target: Path, content: bytes) -> None:
    """The steps of a save, each of which leaves a whole file under the target's name."""
    # One name for each is enough: the lock is ours.
    new, aside = (target.with_name(f".{target.name}.{end}") for end in ("new", "old"))
    try:
        write_new(new, content, like=target)
        if target.exists():
            _keep_previous(target, aside)
        os.replace(new, target)
    finally:
        # After a save there is no new, and an old only where it already was the previous version:
        # to replace a name by another name of the same file does nothing.
        for rubbish in (new, aside):
            with contextlib.suppress(OSError):
                os.unlink(rubbish)
    sync_folder(target.parent)


def write_new(path: Path, content: bytes, like: Path) -> None:
    """A new file, on the disk when this returns, with the permissions of ``like`` where that is there."""
    with contextlib.suppress(FileNotFoundError):
        os.unlink(path)  # left by an interrupted save
    number = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0), 0o666)
    with open(number, "wb") as file:
        file.write(content)
        file.flush()
        if like.exists():
            with contextlib.suppress(OSError):
                os.chmod(path, stat.S_IMODE(os.stat(like).st_mode))
        os.fsync(file.fileno())


def _keep_previous(target: Path, aside: Path) -> None:
    """The old file gets a second name, and that takes the place of the previous version."""
    with contextlib.suppress(FileNotFoundError):
        os.unlink(aside)  # left by an interrupted save
    second_name(target, aside)
    os.replace(aside, previous_of(target))


def second_name(path: Path, other: Path) -> None:
    """A second name for a file, which takes no room; where a disk knows no second names, a copy."""
    try:
        os.link(path, other)
    except (OSError, AttributeError, NotImplementedError):
        write_new(other, path.read_bytes(), like=path)


def sync_folder(folder: Path) -> None:
    """Have the names in a folder on the disk, where the system can."""
    if os.name != "posix":
        return  # Windows cannot open a folder
    with contextlib.suppress(OSError):
        number = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(number)
        finally:
            os.close(number)


# --- the lock ---------------------------------------------------------------------------------------
@contextlib.contextmanager
def locked(target: Path) -> Iterator[None]:
    """Only one save of a file at a time; the system lets go of the lock of a process that has died."""
    path = target.with_name(f".{target.name}.lock")
    number = _acquire(path, target)
    try:
        yield
    finally:
        # Removed while still held: whoever waits sees that its lock is on a file that is gone.
        with contextlib.suppress(OSError):
            os.unlink(path)
        os.close(number)


def _acquire(path: Path, target: Path) -> int:
    deadline = time.monotonic() + PATIENCE
    while True:
        number = os.open(path, os.O_RDWR | os.O_CREAT, 0o666)
        if _try_lock(number) and _still_named(number, path):
            return number
        os.close(number)
        if time.monotonic() > deadline:
            raise StorageError(f"{shown(target)} is being saved by another program: wait for it, then save again.")
        time.sleep(0.01)


def _still_named(number: int, path: Path) -> bool:
    try:
        return os.path.samestat(os.fstat(number), os.stat(path))
    except FileNotFoundError:
        return False


def _try_lock(number: int) -> bool:
    try:
        import fcntl
    except ImportError:
        try:
            import msvcrt
        except ImportError:
            return True  # in a browser there is one process, and no locks
        try:
            msvcrt.locking(number, msvcrt.LK_NBLCK, 1)
        except OSError:
            return False
        return True
    try:
        fcntl.flock(number, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        return False
    except OSError:
        return True  # some network disks know no locks; the stamp still tells two writers apart
    return True
