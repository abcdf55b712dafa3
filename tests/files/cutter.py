"""What the tests of the rack's record run in processes of their own, to be killed or to compete with others.

    python cutter.py kill PATH N     N times: a child marks cut after cut and says each; it is killed in the middle
    python cutter.py mark PATH NAME STICK...   mark one cut on each of the sticks; say those that were refused
"""

from __future__ import annotations

import os
import random
import signal
import sys
import time
from fractions import Fraction
from pathlib import Path

from anglelib.errors import RackError
from anglelib.files.journal import journal_path
from anglelib.files.rack_file import read_record
from anglelib.files.rack_record import change_record, mark_cuts
from anglelib.files.rack_text import save_record
from anglelib.section import Section
from anglelib.stock.rack import Rack, Stick
from anglelib.stock.record import Mark, Piece, Record
from anglelib.storage import previous_of

STOCK = Section("3/4", "3/4", "1/8", fillet="1/8")
MOST = 60
"""After so many cuts a new stick is taken, so that 500 kills do not write a book."""


def fresh(path: Path, sticks: int = 1, length: int = 144) -> None:
    """A rack of so many sticks in a new file, which knows of no marks."""
    for old in (path, journal_path(path)):
        old.unlink(missing_ok=True)
    save_record(Record(Rack([Stick(f"S-{n}", STOCK, "6061-T6", length) for n in range(1, sticks + 1)])), path)


def mark_for_ever(path: Path, pipe: int) -> None:
    """One short piece after the other from what is left of the stick; each is said once it is saved."""
    while True:
        def cut(record: Record) -> Record:
            (stick,) = record.rack.sticks
            return record.marked(Mark(stick.id, (Piece("P", 1, Fraction(1)),)), on="2024-05-01")

        os.write(pipe, f"{len(change_record(path, cut).cut)}\n".encode())


def kill(path: Path, times: int) -> None:
    dice, landed = random.Random(11), 0
    fresh(path)
    for _ in range(times):
        before = len(read_record(path).cut)
        if before > MOST:
            fresh(path)
            before = 0
        ours, theirs = os.pipe()
        child = os.fork()
        if child == 0:
            os.close(ours)
            mark_for_ever(path, theirs)
        os.close(theirs)
        with os.fdopen(ours) as pipe:
            first = pipe.readline()  # it is in full swing
            time.sleep(dice.random() * 0.03)
            os.kill(child, signal.SIGKILL)
            os.waitpid(child, 0)
            said = [first, *pipe.read().split()]
        record = read_record(path)  # raises where it cannot be read
        told = int(said[-1])
        assert len(record.cut) in (told, told + 1), f"{told} cuts were told, and {len(record.cut)} are in the file"
        (stick,) = record.rack.sticks
        assert stick.length == 144 - len(record.cut) * (1 + Fraction(1, 16)), "the metal does not add up"
        if len(record.cut) > 1:
            assert len(read_record(previous_of(path)).cut) >= len(record.cut) - 1
        landed += len(record.cut) > before
    print(landed)


def mark(path: Path, name: str, sticks: list[str]) -> None:
    for stick in sticks:
        try:
            mark_cuts(path, [Mark(stick, (Piece(name, 1, Fraction(10)),))], on="2024-05-01")
        except RackError as error:
            print(error)


if __name__ == "__main__":
    what, where, *rest = sys.argv[1:]
    if what == "kill":
        kill(Path(where), int(rest[0]))
    else:
        mark(Path(where), rest[0], rest[1:])
