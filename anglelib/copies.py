"""The learner's copies of the lessons, for JupyterLab: made, renewed with the course, and never lost.

A copy is untouched while its cells say what the course's said in the version that was copied: what was run and saved, what is folded
and an empty cell at the foot are no change. An untouched copy follows the course's new version. One that was changed is kept
beside the new one, under another name. Of files that are no lessons (a rack, say) the learner's own keeps its name, because commands
name it. A record in the folder says of what version each copy is; without it everything that differs counts as changed.

>>> from tempfile import TemporaryDirectory
>>> with TemporaryDirectory() as folder:
...     project, own = Path(folder, "project"), Path(folder, "own")
...     course, mine = (place / "notebooks" / "07_taper_inside.ipynb" for place in (project, own))
...     course.parent.mkdir(parents=True)
...     _ = course.write_text("one")
...     print(follow(own, project).copied)
...     _ = mine.write_text("mine"), course.write_text("two")
...     print(follow(own, project, date(2026, 5, 4)).kept)
...     print(mine.read_text(), Path(own, "notebooks", "07_taper_inside_mine_2026-05-04.ipynb").read_text())
('notebooks/07_taper_inside.ipynb',)
(Kept(name='notebooks/07_taper_inside.ipynb', beside='notebooks/07_taper_inside_mine_2026-05-04.ipynb'),)
two mine
"""

from __future__ import annotations

import hashlib
import json
import os
from contextlib import suppress
from dataclasses import dataclass
from datetime import date
from itertools import count
from pathlib import Path
from typing import Any

from anglelib.errors import BenchError
from anglelib.near import did_you_mean

PROJECT = Path(__file__).resolve().parent.parent
"""Where the project's files are: the clone that this package is in."""

SHIPPED = ("notebooks", "figures")
"""The project's folders that a learner reads, or gets for JupyterLab; the demonstration files are in notebooks/demo."""

RECORD = ".anglelib-course.json"
"""What was copied into the learner's folder."""

LESSON = ".ipynb"

COPY, STAY, EXCHANGE, LEAVE = "copy", "stay", "exchange", "leave"


class CourseError(BenchError):
    """The course cannot use the learner's folder, or cannot be opened."""


@dataclass(frozen=True)
class Kept:
    """A file that the learner had changed, and the name beside it under which it is now; both below the learner's folder."""

    name: str
    beside: str


@dataclass(frozen=True)
class Filled:
    """What filling the learner's folder did, by names below it.

    ``copied``: the files that were absent and are there now. ``renewed``: untouched copies that are now the course's new
    version. ``kept``: lessons that were changed, and are now beside the new version. ``left``: other files that the learner has
    changed, as has the course since; they are as they were, and are named once.
    """

    copied: tuple[str, ...] = ()
    renewed: tuple[str, ...] = ()
    kept: tuple[Kept, ...] = ()
    left: tuple[str, ...] = ()


@dataclass(frozen=True)
class Fresh:
    """A file that is the course's again; ``kept`` where the learner had changed it."""

    name: str
    kept: Kept | None = None


@dataclass(frozen=True)
class Version:
    """A version of one of the course's files: digests of its bytes, and of what its cells say where it is a lesson."""

    file: str
    sources: str | None = None


def digest(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()


def sources(content: bytes) -> str | None:
    """A digest of what a notebook's cells say, whatever was run, shown or folded; None for what is no notebook.

    >>> cells = [{"cell_type": "code", "source": ["1 + ", "1"], "execution_count": 7, "outputs": []}, {"cell_type": "code", "source": " "}]
    >>> sources(json.dumps({"cells": cells}).encode()) == sources(json.dumps({"cells": [{"cell_type": "code", "source": "1 + 1"}]}).encode())
    True
    """
    try:
        cells = json.loads(content)["cells"]
        said = [[cell["cell_type"], "".join(cell["source"]), cell.get("attachments") or {}] for cell in cells]
    except (ValueError, TypeError, KeyError, AttributeError, RecursionError):
        return None
    return digest(json.dumps([cell for cell in said if cell[1].strip()], sort_keys=True).encode())


def version(content: bytes) -> Version:
    return Version(digest(content), sources(content))


def shipped(project: Path) -> dict[str, Path]:
    """The project's files for learners by name, without what Jupyter and the file manager leave behind."""
    found = {}
    for top in SHIPPED:
        for path in sorted((project / top).rglob("*")):
            parts = path.relative_to(project).parts
            if path.is_file() and not any(part.startswith((".", "__")) for part in parts):
                found["/".join(parts)] = path
    return found


# --- the folder filled, and renewed ----------------------------------------------------------------------------------------
def follow(folder: Path, project: Path, today: date | None = None) -> Filled:
    """Copy into the learner's folder what is absent there, renew what is untouched, keep what was changed. Raises OSError."""
    record = Record(folder)
    copied, renewed, kept, left = [], [], [], []
    try:
        for name, source in shipped(project).items():
            content, own = source.read_bytes(), folder / name
            new, before = version(content), record.of(name)
            deed = _deed(own, content, new, before)
            if deed == LEAVE:
                left += [name] if record.told(name) != new.file else []
                record.tell(name, new.file)
                continue
            if deed == COPY:
                _put(own, content)
                copied.append(name)
            elif deed == EXCHANGE:
                beside = _exchange(folder, name, content, (new, before), today)
                renewed += [name] if beside is None else []
                kept += [] if beside is None else [Kept(name, beside)]
            record.put(name, new)
    finally:
        record.save()
    return Filled(tuple(copied), tuple(renewed), tuple(kept), tuple(left))


def fresh(folder: Path, project: Path, asked: str, today: date | None = None) -> Fresh:
    """Make a copy the course's again, by a lesson's number or a file's name; what the learner had changed is kept beside it.

    Raises CourseError, one sentence, where there is no such file, or where the folder has the course's own (a class on one
    machine); OSError where it cannot be written.
    """
    files = shipped(project)
    name = _named(asked, files)
    content, own = files[name].read_bytes(), folder / name
    if own.exists() and own.resolve() == files[name].resolve():
        raise CourseError(f"{Path(name).name} is the course's own, and nothing in it can be changed: load the page again.")
    if os.path.lexists(own) and not own.is_file():
        raise CourseError(f"{own} is in the way: move it, then ask again.")
    record, beside, new = Record(folder), None, version(content)
    if not os.path.lexists(own):
        _put(own, content)
    elif own.read_bytes() != content:
        beside = _exchange(folder, name, content, (new, record.of(name)), today)
    record.put(name, new)
    record.save()
    return Fresh(name, None if beside is None else Kept(name, beside))


def _named(asked: str, files: dict[str, Path]) -> str:
    """The file that is meant: by its name, with or without its folder and its ending, or by a lesson's number."""
    asked = asked.strip().replace("\\", "/").removeprefix("./")
    short = {name.removeprefix("notebooks/").removesuffix(LESSON): name for name in files if name.startswith("notebooks/")}
    lessons = {key[:2]: name for key, name in short.items() if key[:2].isdigit() and key[2:3] == "_"}
    for known in (files, short, lessons):
        found = asked.removesuffix(LESSON).removeprefix("notebooks/") if known is not files else asked
        if found in known:
            return asked if known is files else known[found]
    offered = did_you_mean(asked, [*lessons, *short])
    raise CourseError(f"The course has no lesson {asked[:60]!r}. {offered or 'Give its number, as 07, or the name of its file.'}")


def _deed(own: Path, content: bytes, new: Version, before: Version | None) -> str:
    """What is to be done about one name of the learner's folder."""
    if not os.path.lexists(own):
        return COPY
    mine = own.read_bytes() if own.is_file() else None
    if mine == content or before is not None and before.file == new.file:
        return STAY
    if mine is None or own.is_symlink():
        return LEAVE
    if _untouched(mine, new, before):
        return EXCHANGE
    if own.suffix != LESSON:
        return LEAVE
    return STAY if before is not None and before.sources is not None and before.sources == new.sources else EXCHANGE


def _untouched(content: bytes, new: Version, before: Version | None) -> bool:
    """Whether nothing in it is the learner's: its bytes, or what its cells say, are of a version of the course."""
    known = [one for one in (new, before) if one is not None]
    said = sources(content)
    return digest(content) in [one.file for one in known] or said is not None and said in [one.sources for one in known]


def _exchange(folder: Path, name: str, content: bytes, known: tuple[Version, Version | None], today: date | None) -> str | None:
    """Put the course's file in the place of the learner's; the name under which the learner's is kept, None where it was untouched.

    The learner's is moved first and looked at then: whatever is saved or stopped meanwhile, none of it is lost.
    """
    own = folder / name
    beside = _free(own, today or date.today())
    os.rename(own, beside)
    try:
        _put(own, content)
    except OSError:
        if not os.path.lexists(own):
            os.rename(beside, own)
        raise
    if _untouched(beside.read_bytes(), *known):
        beside.unlink()
        return None
    return beside.relative_to(folder).as_posix()


def _free(own: Path, today: date) -> Path:
    """A name beside the file that nothing has yet."""
    for number in count(1):
        more = f"_{number}" if number > 1 else ""
        beside = own.with_name(f"{own.stem}_mine_{today.isoformat()}{more}{own.suffix}")
        if not os.path.lexists(beside):
            return beside
    raise AssertionError


def _put(own: Path, content: bytes) -> None:
    """A whole file or none: one that was cut short would be taken for the learner's and kept for ever."""
    own.parent.mkdir(parents=True, exist_ok=True)
    unfinished = own.with_name(f".{own.name}.{os.getpid()}")
    try:
        unfinished.write_bytes(content)
        if not os.path.lexists(own):
            os.rename(unfinished, own)
    finally:
        unfinished.unlink(missing_ok=True)


# --- the record ------------------------------------------------------------------------------------------------------------
class Record:
    """Of which version each copy is, and of which one the learner was told: a file in the learner's folder.

    One that cannot be read knows nothing: then too much is kept, and nothing lost.
    """

    FORMAT = 2

    def __init__(self, folder: Path) -> None:
        self._path = folder / RECORD
        self._files: dict[str, dict[str, Any]] = {}
        with suppress(OSError, ValueError):
            read = json.loads(self._path.read_text(encoding="utf-8"))
            self._files = self._taken(read) if isinstance(read, dict) else {}

    def _taken(self, read: dict) -> dict[str, dict[str, Any]]:
        if "format" not in read:  # the first format had the digests of the files alone
            return {name: {"file": of} for name, of in read.items() if isinstance(of, str)}
        files = read.get("files")
        return {name: of for name, of in files.items() if isinstance(of, dict)} if isinstance(files, dict) else {}

    def of(self, name: str) -> Version | None:
        """The version that the learner's copy was made of."""
        found = self._files.get(name, {})
        return Version(found["file"], found.get("sources")) if isinstance(found.get("file"), str) else None

    def put(self, name: str, copied: Version) -> None:
        self._files[name] = {"file": copied.file, **({"sources": copied.sources} if copied.sources else {})}

    def told(self, name: str) -> str | None:
        """The digest of the course's version that the learner was told of."""
        return self._files.get(name, {}).get("told")

    def tell(self, name: str, file: str) -> None:
        self._files.setdefault(name, {})["told"] = file

    def save(self) -> None:
        text = json.dumps({"format": self.FORMAT, "files": self._files}, indent=1, sort_keys=True)
        unfinished = self._path.with_name(f"{RECORD}.{os.getpid()}")
        try:
            unfinished.write_text(text, encoding="utf-8")
            os.replace(unfinished, self._path)
        finally:
            unfinished.unlink(missing_ok=True)
