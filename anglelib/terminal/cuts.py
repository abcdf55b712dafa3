"""``python -m anglelib plan JOB RACK --done STICK``: cuts marked in the rack file.

A mark changes one file at once, or nothing: sticks cut are replaced by what is left of them, with
tags; the record of the cut stays in the file.
"""

from __future__ import annotations

import argparse
import datetime
from collections.abc import Sequence

from anglelib.errors import BenchError, PlanError
from anglelib.files.pairing import read_both
from anglelib.files.rack_record import change_record
from anglelib.job import Job
from anglelib.lengths import show, writing
from anglelib.lines import say, wrapped
from anglelib.stock.plan import Plan
from anglelib.stock.rack import Stick
from anglelib.stock.record import CutStick, Mark, Record, mark_from, pieces_of
from anglelib.storage import shown
from anglelib.terminal.searching import planned


def mark(asked: argparse.Namespace) -> int:
    """Mark what was asked for, and say what the rack holds now."""
    if asked.job is None or asked.rack is None:
        raise BenchError("Cuts are marked in your own rack file: python -m anglelib plan JOB RACK --done STICK.")
    job, before = read_both(asked.job, asked.rack)
    with writing(job.unit):
        return _mark(asked, job, before)


def _mark(asked: argparse.Namespace, job: Job, before: Record) -> int:
    """Lengths are typed and said in the job's unit; the rack file keeps each with its unit."""
    marks = _marks([mark_from(words, job.unit) for words in asked.done or ()], job, before)
    spoiled = [_spoiled(words, job.unit) for words in asked.spoiled or ()]
    today = datetime.date.today().isoformat()

    def change(record: Record) -> Record:
        for stick_id in asked.undo or ():
            record = record.undone(stick_id)
        for stick_id, part_id in spoiled:
            record = record.spoiled(stick_id, part_id)
        for done in marks:
            record = record.marked(done, job, today)
        return record

    after = change_record(asked.rack, change)
    lines = [f"Taken back: {stick_id} is on the rack again, and what was marked as left of it is not." for stick_id in asked.undo or ()]
    lines += [f"Spoiled: {part_id} from {stick_id}; it is wanted again." for stick_id, part_id in spoiled]
    for done in marks:
        lines += _said(done.stick_id, after, job)
    lines.append(_progress(after, job))
    if marks:
        lines.append(f"Saved in {shown(asked.rack)}. Marked by mistake? The same command with --undo {marks[-1].stick_id}.")
    say("\n".join(line for sentence in lines for line in wrapped(sentence, "", "  ")))
    return 0


def _marks(words: list, job: Job, before: Record) -> list[Mark]:
    """The marks; where no piece is named, the stick was cut as planned."""
    marks, made = [], None
    for stick_id, pieces in words:
        cut = None
        if not pieces:
            if made is None:
                made = _plan(job, before)
            cut = made.stick(before.on_hand(stick_id).id)
            if cut is None or not cut.placed:
                raise PlanError(f'The plan cuts nothing from {stick_id}: say what was cut, like --done "{stick_id}: 2 x A3".')
            pieces = pieces_of(cut)
        marks.append(Mark(stick_id, pieces, cut))
    return marks


def _plan(job: Job, record: Record) -> Plan:
    now = planned(job, record)
    if now is None:
        raise PlanError(f"Everything of {job.name} is marked as made: say what was cut, or take back what was marked by mistake.")
    return now.printed


def _spoiled(words: str, unit: str) -> tuple[str, str]:
    stick_id, pieces = mark_from(words, unit)
    if len(pieces) != 1 or pieces[0].number != 1:
        raise BenchError('Name the stick and the one piece that is spoiled, like --spoiled "S-05: A3".')
    return stick_id, pieces[0].part_id


def _said(stick_id: str, after: Record, job: Job) -> list[str]:
    """What was cut and what is left, in the unit of the plan and of the tags."""
    old = next(old for old in after.cut if old.stick.id == stick_id)
    with writing(job.unit_for(old.stick.section, old.stick.alloy)):
        return _back(old, after.left_of(stick_id))


def _back(old: CutStick, left: Sequence[Stick]) -> list[str]:
    back = [f"{s.id}, {show(s.length, 64, 'down')} long; write its tag{f' and {s.alloy}' if s.alloy else ''} on it" for s in left]
    return [f"Marked: {old}.", f"Back on the rack: {'; '.join(back)}." if back else "Nothing of it is long enough to keep."]


def _progress(after: Record, job: Job) -> str:
    made = sum(number for part_id, number in after.made(job.name).items() if any(part.id == part_id for part in job.parts))
    return f"{made} of {job.pieces} pieces of {job.name} are marked as made."
