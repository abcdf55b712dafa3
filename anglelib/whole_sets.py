"""Many files that belong together, written whole or not at all: a pack, an export, a class's files.

Everything is written into a folder of its own inside the target first, where a full disk shows. Only then are the
names given, which takes no room; whatever goes wrong meanwhile (an error, Ctrl-C), what was there before is there
again: the files of before, their previous versions, and no folder that was not there. A program that is killed between
two names leaves whole files, old and new, and of each that was replaced the previous version.

>>> from tempfile import TemporaryDirectory
>>> with TemporaryDirectory() as top:
...     folder = Path(top, "pack")
...     print([path.relative_to(os.path.realpath(top)).as_posix() for path in write_set(folder, {"a.pdf": b"1", "A1/b.csv": b"2"})])
...     write_set(folder, {"a.pdf": b"new", "A1": b"a file in the place of a folder"})
Traceback (most recent call last):
    ...
anglelib.errors.StorageError: A1 is a folder: move it away, or choose another folder to write to. Nothing was written.
"""

from __future__ import annotations

import contextlib
import os
import shutil
import stat
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path, PurePosixPath

from anglelib.errors import StorageError
from anglelib.storage import in_bench_language, locked, path_shown, previous_of, second_name, shown, sync_folder, write_new

NOTHING = "Nothing was written."
_ELSEWHERE = f"or choose another folder to write to. {NOTHING}"
_NEW, _ASIDE, _OLD, _PREVIOUS = "new", "aside", "old", "previous"
"""What lies in the staging folder: the new file; a second name of the old one, to become the previous version; another one,
and one of the version before, both to go back."""


def write_set(folder: str | os.PathLike, files: Mapping[str, bytes]) -> tuple[Path, ...]:
    """Write all files, by their names in the folder ("A1L/A1L.dxf"), or none; returns their paths in that order.

    What was there becomes its previous version. Folders are made, but for the parent of ``folder``. Raises
    :class:`~anglelib.errors.StorageError` with everything as it was.
    """
    with in_bench_language(folder, "written", NOTHING):
        top = Path(os.path.realpath(folder))
        refuse_folder(top)
        for name in files:
            _refuse(top, name)
        with _folder(top), locked(top / "files"):
            made = _Set(top, files)
            try:
                made.stage()
                made.place()
            except BaseException:
                made.take_back()
                raise
            finally:
                _step(lambda: shutil.rmtree(made.staging, ignore_errors=True))
    return tuple(top / name for name in files)


def refuse_folder(folder: str | os.PathLike) -> None:
    """Raise StorageError for a folder that cannot be written to, before there is anything to write."""
    if not os.fspath(folder).strip():
        raise StorageError(f"No folder is named: write its path. {NOTHING}")
    with in_bench_language(folder, "written", NOTHING):
        top = Path(os.path.realpath(folder))
        try:
            found = os.stat(top)
        except FileNotFoundError:
            if not os.path.isdir(top.parent):
                raise StorageError(f"The folder {path_shown(top.parent)} is not there: make it first, or check the path. {NOTHING}") from None
            return _refuse_closed(top.parent)
        if not stat.S_ISDIR(found.st_mode):
            raise StorageError(f"{path_shown(folder)} is a file: name a folder. {NOTHING}")
        return _refuse_closed(top)


def _refuse_closed(place: Path) -> None:
    if not os.access(place, os.W_OK | os.X_OK):
        raise StorageError(f"Nothing may be written in {path_shown(place)}: allow writing to it, {_ELSEWHERE}")


def _refuse(top: Path, name: str) -> None:
    """What would stop the writing of one file, seen before it begins."""
    for inside in reversed(PurePosixPath(name).parents[:-1]):
        place = top / inside
        if os.path.lexists(place):
            if not os.path.isdir(place):
                raise StorageError(f"{path_shown(place)} is a file, and a folder has that name: move it away, {_ELSEWHERE}")
            _refuse_closed(place)
    target = top / name
    if os.path.isdir(target):
        raise StorageError(f"{shown(target)} is a folder: move it away, {_ELSEWHERE}")
    if os.path.exists(target):
        if not os.path.isfile(target):
            raise StorageError(f"{shown(target)} is not an ordinary file: move it away, {_ELSEWHERE}")
        if not os.access(target, os.W_OK):
            raise StorageError(f"{shown(target)} is read-only: allow writing to it, {_ELSEWHERE}")


@contextlib.contextmanager
def _folder(top: Path) -> Iterator[None]:
    """The folder itself: made where it is not there, and taken away again where nothing comes of it."""
    made = not os.path.isdir(top)
    try:
        if made:
            os.mkdir(top)
        yield
    except BaseException:
        if made:
            _step(lambda: os.unlink(top / ".files.lock"))  # there only where the lock itself was interrupted
            _step(lambda: os.rmdir(top))
        raise


class _Set:
    """One writing: what is staged, which folders were made, and what was there."""

    def __init__(self, top: Path, files: Mapping[str, bytes]):
        self.top, self.files = top, files
        self.targets = [Path(os.path.realpath(top / name)) for name in files]
        self.staging = top / ".files.new"
        self.folders: list[Path] = []
        self.there: list[bool] = []  # whether each target was there, and its previous version
        self.previous: list[bool] = []
        self.placing = False

    def _staged(self, kind: str, number: int) -> Path:
        return self.staging / f"{kind}-{number}"

    def stage(self) -> None:
        """All that takes room: the new files, and second names for everything whose place they take."""
        shutil.rmtree(self.staging, ignore_errors=True)  # left by a program that was killed
        os.mkdir(self.staging)
        for number, (target, content) in enumerate(zip(self.targets, self.files.values())):
            write_new(self._staged(_NEW, number), content, like=target)
            self.there.append(target.exists())
            self.previous.append(previous_of(target).exists())
            if self.there[number]:
                second_name(target, self._staged(_ASIDE, number))
                second_name(target, self._staged(_OLD, number))
            if self.there[number] and self.previous[number]:
                second_name(previous_of(target), self._staged(_PREVIOUS, number))
        for name in self.files:
            for inside in reversed(PurePosixPath(name).parents[:-1]):
                place = self.top / inside
                if not place.is_dir():
                    self.folders.append(place)
                    os.mkdir(place)

    def place(self) -> None:
        """Give every file its name; nothing here takes room on the disk."""
        self.placing = True
        for number, target in enumerate(self.targets):
            if self.there[number]:
                os.replace(self._staged(_ASIDE, number), previous_of(target))
            os.replace(self._staged(_NEW, number), target)
        for place in {target.parent for target in self.targets}:
            sync_folder(place)

    def take_back(self) -> None:
        """Everything as it was, told by what lies in the staging folder still: a step may have been stopped halfway."""
        for number, target in enumerate(self.targets if self.placing else ()):
            if not self._staged(_NEW, number).exists():
                self._back(target, self._staged(_OLD, number) if self.there[number] else None)
            if self.there[number] and not self._staged(_ASIDE, number).exists():
                self._back(previous_of(target), self._staged(_PREVIOUS, number) if self.previous[number] else None)
        for place in reversed(self.folders):
            _step(lambda place=place: os.rmdir(place))

    def _back(self, path: Path, kept: Path | None) -> None:
        _step(lambda: os.unlink(path) if kept is None else os.replace(kept, path))


def _step(do: Callable[[], None]) -> None:
    """One step of taking back: one that fails stops none of the others, and a second Ctrl-C stops none."""
    with contextlib.suppress(OSError):
        try:
            do()
        except KeyboardInterrupt:
            do()
