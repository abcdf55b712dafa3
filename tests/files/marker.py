"""What the tests of the journal run in a process of its own: marks that die of SIGKILL between any two calls to the system.

    python marker.py PATH TIMES    so many kills, in every gap between the writes of a mark; how many there were, and how many gaps
"""

from __future__ import annotations

import os
import sys
from fractions import Fraction
from pathlib import Path

from dying import die_at

from anglelib.files.journal import journal_path, read_journal
from anglelib.files.rack_file import read_record
from anglelib.files.rack_record import change_record, look_at
from anglelib.files.rack_text import save_record
from anglelib.section import Section
from anglelib.stock.pieces import Mark, Piece
from anglelib.stock.rack import Rack, Stick
from anglelib.stock.record import Record

STOCK = Section("3/4", "3/4", "1/8", fillet="1/8")
CALLS = ("open", "write", "link", "unlink", "replace", "fsync", "chmod", "close", "stat", "fstat", "lseek", "read")
KERF = Fraction(1, 16)


def cut(record: Record) -> Record:
    return record.marked(Mark("S-1", (Piece("P", 2, Fraction(10)),)), on="2024-05-01")


def cut_again(record: Record) -> Record:
    return record.marked(Mark("S-1-R1", (Piece("P", 1, Fraction(10)),)), on="2024-05-02")


def come(record: Record) -> Record:
    return record.with_bought([Stick(f"S-{n}", STOCK, "6061-T6", 48) for n in (3, 4)], "2024-05-01", "K7M2PX", 1)


KINDS = {
    "first": (None, cut),  # the journal is begun
    "next": (cut, cut_again),
    "undo": (cut, lambda record: record.undone("S-1")),
    "spoiled": (cut, lambda record: record.spoiled("S-1", "P", Fraction(4))),
    "bought": (cut, come),
    "not bought": (come, lambda record: record.without_bought(["S-3", "S-4"])),
    "two": (cut, lambda record: cut_again(record.marked(Mark("S-2", (Piece("Q", 1, Fraction(7)),)), on="2024-05-02"))),
}


def fresh(path: Path, first) -> Record:
    for old in path.parent.iterdir():
        old.unlink()
    save_record(Record(Rack([Stick(f"S-{n}", STOCK, "6061-T6", 48) for n in (1, 2)])), path)
    if first is not None:
        change_record(path, first, "first")
    return read_record(path)


def metal(record: Record) -> Fraction:
    """What lies on the rack and in pieces, and what the blade took, without what was bought."""
    came = {one.stick_id for one in record.bought}
    pieces = [(piece.length - piece.left) * piece.number + KERF * piece.number for old in record.cut for piece in old.pieces]
    return sum((stick.length for stick in record.rack.sticks if stick.id not in came), Fraction(0)) + sum(pieces, Fraction(0))


def killed(path: Path, kind: str, at: int) -> bool:
    """One mark, killed at its N-th call to the system; whether it came to its end first."""
    first, change = KINDS[kind]
    before = fresh(path, first)
    after = change(before)
    ours, theirs = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(ours)
        die_at(at, CALLS)
        change_record(path, change, kind)
        _WRITE(theirs, b"told")
        os._exit(0)
    os.close(theirs)
    with os.fdopen(ours, "rb") as pipe:
        told = pipe.read()
    _, status = os.waitpid(child, 0)
    found = look_at(path)  # the next start
    now = read_record(path)
    assert now in (before, after), f"{kind}, {at}: neither before nor after"
    assert not told or now == after, f"{kind}, {at}: a mark that was told is gone"
    assert not found.lost, f"{kind}, {at}: {found.lost}"
    assert metal(now) == 96, f"{kind}, {at}: {metal(now)}"
    journal = read_journal(path)
    assert journal is None or journal.unfinished is None
    if now == before:  # whoever was told nothing marks it again: it is there once
        change_record(path, change, kind)
        assert read_record(path) == after
    assert not look_at(path).lost
    assert len(journal_path(path).read_text().splitlines()) <= 12
    return os.waitstatus_to_exitcode(status) == 0


_WRITE = os.write


def main(path: Path, times: int) -> None:
    kills, gaps, at = 0, dict.fromkeys(KINDS, 0), dict.fromkeys(KINDS, 1)
    step = 1 if times > 200 else max(1, 60 * len(KINDS) // times)
    while kills < times:
        for kind in KINDS:
            if killed(path, kind, at[kind]):
                at[kind] = 1
                continue
            gaps[kind] = max(gaps[kind], at[kind])
            kills, at[kind] = kills + 1, at[kind] + step
    print(kills, min(gaps.values()))


if __name__ == "__main__":
    main(Path(sys.argv[1]), int(sys.argv[2]))
