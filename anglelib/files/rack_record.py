"""The rack file as it lives: cuts are marked in it, and whoever else has it open loses nothing.

A change is made on the file as it stands at that moment: it is read afresh, changed, and saved only
if nobody has saved in between; else it is read again and the change made again. So two open notebooks
that mark different sticks both find their cuts in it, and the second that marks the same stick is
told by whom and when it was cut. The save is one atomic replacement of one file: a program that is
killed leaves the rack as it was before the cut, or with all of it.

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
from collections.abc import Callable, Iterable
from os import PathLike

from anglelib.errors import FileChanged
from anglelib.files.rack_file import open_record
from anglelib.files.rack_text import save_record
from anglelib.job import Job
from anglelib.stock.record import Mark, Record

PATIENCE = 20.0
"""How long a change is tried again while others save the same file [s]."""


def change_record(path: str | PathLike, change: Callable[[Record], Record]) -> Record:
    """Read the file, change what it says, and save it; again from the start where somebody else saved in between.

    ``change`` is called with the record as it stands, perhaps several times. Whatever it raises is
    raised, with nothing written. Raises StorageError where the file cannot be saved.
    """
    deadline = time.monotonic() + PATIENCE
    while True:
        opened = open_record(path)
        record = change(opened.value)
        try:
            return save_record(record, path, opened).value
        except FileChanged:
            if time.monotonic() > deadline:
                raise
            time.sleep(random.random() * 0.02)


def mark_cuts(path: str | PathLike, marks: Iterable[Mark], job: Job | None = None, on: str = "") -> Record:
    """Mark sticks as cut: all of the marks, or, where one of them cannot be, none."""
    marks = tuple(marks)

    def change(record: Record) -> Record:
        for mark in marks:
            record = record.marked(mark, job, on)
        return record

    return change_record(path, change)


def undo_cut(path: str | PathLike, stick_id: str) -> Record:
    """Take back a cut that was marked by mistake."""
    return change_record(path, lambda record: record.undone(stick_id))


def mark_spoiled(path: str | PathLike, stick_id: str, part_id: str) -> Record:
    """Mark one piece that was cut from a stick as spoiled: its part is wanted again."""
    return change_record(path, lambda record: record.spoiled(stick_id, part_id))
