"""The rack file as it lives: cuts are marked in it, and whoever else has it open loses nothing.

A change is made on the file as it stands at that moment: it is read afresh, changed, and saved only
if nobody has saved in between; else it is read again and the change made again. So two open notebooks
that mark different sticks both find their cuts in it, and the second that marks the same stick is
told by whom and when it was cut. The save is one atomic replacement of one file: a program that is
killed leaves the rack as it was before the cut, or with all of it.

Each change is first a line of the journal (:mod:`anglelib.files.journal`). One that was broken off
between the two is completed by whoever comes next, and a rack that has lost marks which are in its
journal is changed no further until somebody says what holds.

>>> from tempfile import TemporaryDirectory
>>> from pathlib import Path
>>> from anglelib.section import Section
>>> from anglelib.stock.rack import Rack, Stick
>>> from anglelib.stock.record import pieces_from
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> with TemporaryDirectory() as folder:
...     path = Path(folder, "rack.csv")
...     _ = save_record(Record(Rack([Stick("S-1", stock, "6061-T6", 56)])), path)
...     after = mark_cuts(path, [Mark("S-1", pieces_from("A3 at 17 5/16"))], on="2024-05-01")
...     print(path.read_text().splitlines()[2].split(",")[11], after.rack.sticks[0].id)
cut S-1-R1
"""

from __future__ import annotations

import random
import time
from collections.abc import Callable, Iterable, Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from fractions import Fraction
from os import PathLike
from pathlib import Path

from anglelib.errors import FileChanged, RackError, StorageError
from anglelib.files.journal import DIGEST, Entry, Journal, append, dropped_line, journal_path, line_of, read_journal, saved_line
from anglelib.files.mending import Lost, changed_rows, lost, mended, record_rows, with_rows
from anglelib.files.mending_words import lost_words
from anglelib.files.rack_file import open_record
from anglelib.files.rack_text import save_record, saved_text
from anglelib.files.report import Opened
from anglelib.job import Job
from anglelib.stock.record import Mark, Record
from anglelib.storage import digest, in_bench_language, locked, refuse_changed, shown

PATIENCE = 20.0
"""How long a change is tried again while others save the same file [s]."""
COMPLETED, DISCARDED, NO_JOURNAL = "completed", "discarded", "no-journal"
"""What is found when a rack is looked at: a mark that was broken off was completed, or came to nothing; the journal is not there."""


@dataclass(frozen=True)
class Found:
    """What was found beside the rack when it was looked at, what it is about, and what the rack has lost."""

    ids: tuple[tuple[str, str], ...] = ()
    lost: tuple[Lost, ...] = ()


def change_record(path: str | PathLike, change: Callable[[Record], Record], said: str = "") -> Record:
    """Read the file, change what it says, and save it; again from the start where somebody else saved in between.

    ``change`` is called with the record as it stands, perhaps several times; ``said`` is what the journal says of it. Whatever it raises
    is raised, with nothing written. Raises RackError where the rack has lost marks, StorageError where the file cannot be saved.
    """
    deadline = time.monotonic() + PATIENCE
    while True:
        with _alone(path):
            opened, journal, found = _settled(path)
        if found.lost:
            raise RackError(lost_words(found.lost, shown(path)))
        record = change(opened.value)
        try:
            with _alone(path):
                return _save(path, opened, journal, record, said)
        except FileChanged:
            if time.monotonic() > deadline:
                raise
        time.sleep(random.random() * 0.02)


def look_at(path: str | PathLike) -> Found:
    """What is to be said of a rack before anything is done with it: a mark that was broken off is completed, what it has lost is named."""
    if not journal_path(path).exists():
        return Found(((NO_JOURNAL, ""),)) if open_record(path).value.cut else Found()
    with _alone(path):
        return _settled(path)[2]


def mend(path: str | PathLike) -> tuple[Lost, ...]:
    """Give a rack back the marks that it has lost, all of them or none; what they were."""
    with _alone(path):
        opened, journal, found = _settled(path)
        if journal is not None and found.lost:
            _save(path, opened, journal, mended(journal, opened.value), "mended")
        return found.lost


def take_as_it_is(path: str | PathLike) -> tuple[Lost, ...]:
    """Let the journal begin again from the rack as it is: what it has lost is given up. What that was."""
    with _alone(path):
        opened, journal, found = _settled(path)
        if found.lost and journal is not None:
            _begin(path, opened, journal)
        return found.lost


@contextmanager
def _alone(path: str | PathLike) -> Iterator[None]:
    """Only one change of a rack at a time, from the journal's line to the last one."""
    target = journal_path(path)
    if not target.parent.is_dir():
        open_record(path)  # says what is wrong with the path
    with ExitStack() as held:
        with in_bench_language(path, "changed"):
            held.enter_context(locked(target))
        yield


def _settled(path: str | PathLike) -> tuple[Opened[Record], Journal | None, Found]:
    """The rack as it is once what was broken off is completed, or given up; its journal; what is to be said."""
    opened, journal = open_record(path), read_journal(path)
    if journal is None or not journal.entries:
        missing = bool(opened.value.cut)
        return opened, None if journal is None else journal, Found(((NO_JOURNAL, ""),) if missing else ())
    last, said = journal.unfinished, ()
    if last is not None:
        now = opened.source.stamp[:DIGEST]
        if now == last.before:
            opened = save_record(with_rows(opened.value, last.rows), path, opened)
            said = ((COMPLETED, last.said),)
        elif now != last.after and any(one.stick_id in last.rows for one in lost(journal, opened.value)):
            return opened, journal, Found((), lost(journal, opened.value))
        append(path, saved_line(last.number))
        journal = read_journal(path)
        assert journal is not None
    return opened, journal, Found(said, lost(journal, opened.value))


def _begin(path: str | PathLike, opened: Opened[Record], journal: Journal | None) -> int:
    """A journal that begins with the rack as it is; the number of its next line."""
    number = journal.next if journal is not None else 1
    stamp = opened.source.stamp[:DIGEST]
    append(path, line_of(Entry(number, "the rack as it is", stamp, stamp, record_rows(opened.value), begins=True)))
    return number + 1


def _save(path: str | PathLike, opened: Opened[Record], journal: Journal | None, record: Record, said: str) -> Record:
    """A change: its line in the journal, the rack, that it is saved. The journal is begun where there is none."""
    text = saved_text(record, opened)
    rows = changed_rows(opened.value, record)
    refuse_changed(path, opened.source)
    if read_journal(path) != journal:
        raise FileChanged(f"{shown(path)} has changed on the disk since it was read here: read it again, then make the change again.")
    if not rows:
        return save_record(record, path, opened).value
    number = _begin(path, opened, journal) if journal is None or not journal.entries else journal.next
    after = digest(text.encode("utf-8"))[:DIGEST]
    append(path, line_of(Entry(number, said, opened.source.stamp[:DIGEST], after, rows)))
    try:
        saved = save_record(record, path, opened)
    except StorageError:
        append(path, dropped_line(number))
        raise
    append(path, saved_line(number))
    return saved.value


def mark_cuts(path: str | PathLike, marks: Iterable[Mark], job: Job | None = None, on: str = "") -> Record:
    """Mark sticks as cut: all of the marks, or, where one of them cannot be, none."""
    marks = tuple(marks)

    def change(record: Record) -> Record:
        for mark in marks:
            record = record.marked(mark, job, on)
        return record

    return change_record(path, change, "; ".join(f"{mark.stick_id}: {', '.join(map(str, mark.pieces))}" for mark in marks))


def undo_cut(path: str | PathLike, stick_id: str) -> Record:
    """Take back a cut that was marked by mistake."""
    return change_record(path, lambda record: record.undone(stick_id), f"undo {stick_id}")


def mark_spoiled(path: str | PathLike, stick_id: str, part_id: str, left: Fraction = Fraction(0)) -> Record:
    """Mark one piece that was cut from a stick as spoiled: its part is wanted again; what is ``left`` of it [in] is back on the rack."""
    return change_record(path, lambda record: record.spoiled(stick_id, part_id, left), f"spoiled {part_id} of {stick_id}")


def lock_of_a_spreadsheet(path: str | PathLike) -> str:
    """The file with which a spreadsheet says that it has the rack open; "" where there is none."""
    path = Path(path)
    for name in (f".~lock.{path.name}#", f"~${path.name}"):
        if path.with_name(name).exists():
            return name
    return ""
