"""The journal of marks, beside the rack file (rack.journal.jsonl): what was marked, in the order in which it was, never rewritten.

A mark is written here first and forced to the disk, with the rack's digest before and after and the rows that it changes; then the rack
is saved, then a line says that it was. So a mark that was broken off is completed at the next start, a line that was cut off counts for
nothing, and an older copy of the rack that a spreadsheet saves back is noticed: the marks that it has lost are here. The rack alone
stays readable, and whatever else is changed in it by hand (new sticks, lengths, notes) is nobody's business here.
"""

from __future__ import annotations

import datetime
import json
import os
from collections.abc import Mapping
from dataclasses import dataclass
from os import PathLike
from pathlib import Path
from typing import Any

from anglelib.contents_words import JOURNAL
from anglelib.errors import StorageError
from anglelib.files.report import FORMAT
from anglelib.storage import in_bench_language, read_text, shown, sync_folder

ENDING = ".journal.jsonl"
MOST_BYTES = 100_000_000
DIGEST = 16
"""So many signs of a file's digest are kept."""
Rows = Mapping[str, Mapping[str, str] | None]
"""For each stick that a mark changes its row afterwards; None where it has none any more."""


@dataclass(frozen=True)
class Entry:
    """One mark: its number, what was said, the rack's digest before and after, the rows that it changes; whether it is in the rack."""

    number: int
    said: str
    before: str
    after: str
    rows: Rows
    begins: bool = False
    saved: bool = False


@dataclass(frozen=True)
class Journal:
    """The marks, oldest first, without those that came to nothing; ``cut_off`` lines could not be read."""

    entries: tuple[Entry, ...] = ()
    next: int = 1
    cut_off: int = 0

    @property
    def unfinished(self) -> Entry | None:
        """The last mark, where nothing says that the rack was saved with it."""
        return self.entries[-1] if self.entries and not self.entries[-1].saved else None

    def rows(self) -> dict[str, Mapping[str, str] | None]:
        """For each stick that a mark ever changed, its row after the last one."""
        found: dict[str, Mapping[str, str] | None] = {}
        for entry in self.entries:
            if entry.begins:
                found = {}
            found |= entry.rows
        return found

    def lengths(self) -> dict[str, set[str]]:
        """For each stick the lengths that it ever had by a mark."""
        found: dict[str, set[str]] = {}
        for entry in self.entries:
            for name, cells in entry.rows.items():
                found.setdefault(name, set()).update([cells.get("length", "")] if cells is not None else [])
        return found


def journal_path(rack_file: str | PathLike) -> Path:
    """Where the journal of a rack is kept.

    >>> journal_path("kit/rack.csv").name
    'rack.journal.jsonl'
    """
    path = Path(os.path.realpath(rack_file))
    return path.with_name(path.stem + ENDING)


def read_journal(rack_file: str | PathLike) -> Journal | None:
    """The journal of a rack; None where there is none. StorageError for a file that cannot be read."""
    path = journal_path(rack_file)
    if not path.exists():
        return None
    entries: list[Entry] = []
    saved: set[int] = set()
    number = cut_off = 0
    for line in read_text(path, MOST_BYTES, JOURNAL).text.split("\n"):
        if not line.strip():
            continue
        try:
            said = json.loads(line)
            if said.get("format", FORMAT) != FORMAT:
                raise StorageError(f"{shown(path)} is of format {str(said['format'])[:8]}, and this library reads {FORMAT}: move it away, and it is begun again.")
            if "saved" in said:
                saved.add(said["number"])
            elif "dropped" in said:
                entries = [entry for entry in entries if entry.number != said["number"]]
            else:
                entries.append(_entry(said))
                number = max(number, entries[-1].number)
        except (ValueError, KeyError, TypeError, AttributeError) as error:
            if isinstance(error, StorageError):
                raise
            cut_off += 1  # a kill in the middle of a line: its mark was never begun in the rack
    found = tuple(entry if entry.number not in saved else _saved(entry) for entry in entries)
    return Journal(found, number + 1, cut_off)


def _entry(said: Any) -> Entry:
    rows = {str(name): None if cells is None else {str(key): str(cell) for key, cell in cells.items()} for name, cells in said["rows"].items()}
    return Entry(int(said["number"]), str(said["said"]), str(said["before"]), str(said["after"]), rows, bool(said.get("begins")), bool(said.get("begins")))


def _saved(entry: Entry) -> Entry:
    return Entry(entry.number, entry.said, entry.before, entry.after, entry.rows, entry.begins, True)


# --- writing ----------------------------------------------------------------------------------------------
def line_of(entry: Entry) -> str:
    """A mark as a line."""
    now = datetime.datetime.now().astimezone().isoformat(timespec="seconds")
    said: dict[str, Any] = {"format": FORMAT, "number": entry.number, "at": now, "said": entry.said, "before": entry.before, "after": entry.after}
    if entry.begins:
        said["begins"] = True
    rows = {name: None if cells is None else {key: cell for key, cell in cells.items() if cell} for name, cells in entry.rows.items()}
    return json.dumps(said | {"rows": rows}, ensure_ascii=False)


def saved_line(number: int) -> str:
    """That the rack was saved with a mark."""
    return json.dumps({"number": number, "saved": True})


def dropped_line(number: int) -> str:
    """That a mark came to nothing."""
    return json.dumps({"number": number, "dropped": True})


def append(rack_file: str | PathLike, *lines: str) -> None:
    """Lines at the end of the journal, on the disk when this returns; StorageError where they cannot be."""
    path = journal_path(rack_file)
    with in_bench_language(path, "written"):
        new = not path.exists()
        number = os.open(path, os.O_RDWR | os.O_CREAT | os.O_APPEND | getattr(os, "O_BINARY", 0), 0o666)
        try:
            size = os.fstat(number).st_size
            broken = size and (os.lseek(number, size - 1, os.SEEK_SET) or True) and os.read(number, 1) != b"\n"
            os.write(number, (("\n" if broken else "") + "".join(f"{line}\n" for line in lines)).encode("utf-8"))
            os.fsync(number)
        finally:
            os.close(number)
        if new:
            sync_folder(path.parent)
