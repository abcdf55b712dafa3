"""``python -m anglelib plan JOB RACK --done STICK``: cuts marked in the rack file.

A mark changes the rack and its journal, or nothing: sticks cut are replaced by what is left of them, with tags; the record of the cut
stays in the file. What a stick gave is read from the plan in hand, never planned again, or typed.
"""

from __future__ import annotations

import argparse
import datetime
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from typing import NoReturn

from anglelib.errors import BenchError, PlanError, RackError
from anglelib.files.mending_words import each
from anglelib.files.pairing import plan_home, read_both
from anglelib.files.plan_astray import refuse_astray
from anglelib.files.plan_file import plan_path, plans_beside, read_plan
from anglelib.files.rack_file import read_record
from anglelib.files.rack_of_plan import another, rack_asked, remember
from anglelib.files.rack_record import change_record, mend, take_as_it_is
from anglelib.job import Job
from anglelib.lengths import read, show, writing
from anglelib.lines import say, wrapped
from anglelib.near import did_you_mean
from anglelib.paper.commands import other_jobs
from anglelib.paper.plan_in_hand import PRINTING, noticed
from anglelib.part import MOST_QUANTITY
from anglelib.stock.in_hand import InHand, against, differences
from anglelib.stock.in_hand_words import another_number, not_from_the_sheet, two_plans
from anglelib.stock.part_way import rows_of
from anglelib.stock.pieces import OTHER, Mark, Piece, pieces_from, row_from, stick_from
from anglelib.stock.rack import Stick
from anglelib.stock.record import CutStick, Record
from anglelib.stock.several_jobs import own_parts
from anglelib.stock.versions import as_typed
from anglelib.stock.wording import and_more
from anglelib.storage import path_shown, shown
from anglelib.terminal.bears import still_bears
from anglelib.terminal.words import made_otherwise

Change = Callable[[Record], Record]


def mark(asked: argparse.Namespace) -> int:
    """Mark what was asked for, and say what the rack holds now."""
    command = "python -m anglelib plan JOB RACK --done STICK"
    if asked.job is None:
        raise BenchError(f"Cuts are marked in your own rack file: {command}.")
    asked.rack = asked.rack if asked.rack is not None else rack_asked(plan_home(asked.job, asked.together), command)
    if asked.mend or asked.rack_is_right:
        _put_right(asked)
    hold, beside = other_jobs(asked)
    job, before = read_both(asked.job, asked.rack, hold, beside)
    if noticed(asked.rack).ids:
        before = read_record(asked.rack)  # a mark that was broken off is completed in it
    with writing(job.unit):
        return _mark(asked, job, before)


def _put_right(asked: argparse.Namespace) -> None:
    if asked.mend and asked.rack_is_right:
        raise BenchError("--mend and --rack-is-right say opposite things: give one of them.")
    noticed(asked.rack, refuse=False)
    found = mend(asked.rack) if asked.mend else take_as_it_is(asked.rack)
    if not found:
        say(f"{shown(asked.rack)} has lost nothing that its journal knows.")
    elif asked.mend:
        say(f"Put back in {shown(asked.rack)}: {each(found)}.")
    else:
        say(f"{shown(asked.rack)} is taken as it is; given up is: {each(found)}.")


def _mark(asked: argparse.Namespace, job: Job, before: Record) -> int:
    """Lengths are typed and said in the job's unit; the rack file keeps each with its unit."""
    hand = _Hand(asked, job)
    today = datetime.date.today().isoformat()
    steps: list[tuple[str, Change]] = []
    steps += [(f"undo {name}", lambda record, name=name: record.undone(_named(name, record))) for name in _each(asked.undo)]
    steps += [_spoiled(words, job) for words in asked.spoiled or ()]
    steps += [(f"{part} serves", lambda record, part=part: record.taken_for(part, job)) for part in _each(asked.serves)]
    marks = [(words, _reader(words, job, hand)) for words in _sticks(asked.done)]
    marks += [(words, _used(words, job.unit)) for words in _sticks(asked.used)]
    done: list[str] = []

    def change(record: Record) -> Record:
        done.clear()
        for _, step in steps:
            record = step(record)
        for _, made in marks:
            mark_ = made(record)
            done.append(mark_.stick_id)
            record = record.marked(mark_, job, today)
        return record

    said = "; ".join([*(name for name, _ in steps), *(words for words, _ in marks)])
    if not said:
        if asked.mend or asked.rack_is_right:
            return 0
        raise BenchError("No stick is named: write it like --done S-05.")
    after = change_record(asked.rack, change, said)
    remember(hand.file, asked.rack)
    lines = [_undone_words(_named(name, before), before, job) for name in _each(asked.undo)]
    lines += [line for words in asked.spoiled or () for line in _spoiled_words(words, job.unit, before, after)]
    lines += [f"{part}: the pieces that were made to another version of it count as made." for part in _each(asked.serves)]
    for stick_id in dict.fromkeys(done):
        lines += _said(stick_id, after, job, hand)
    lines += made_otherwise(after, job) + [_progress(after, job)]
    if not done:
        lines.append(f"Saved in {shown(asked.rack)}.")
    else:
        other = another(hand.file, asked.rack)
        if other is not None:
            lines.append(f"Mind: the plan in hand was made from {path_shown(other)}, where this is not marked.")
        lines.append(f"Saved in {shown(asked.rack)}. Marked by mistake? The same command with --undo {done[-1]}.")
    say("\n".join(line for sentence in lines for line in wrapped(sentence, "", "  ")))
    if bears := hand.bears(after):
        say("\n".join([f"Of what is still to be cut by plan {hand.kept.number}:", *bears]))  # type: ignore[union-attr]
    return 0


class _Hand:
    """The plan in hand, read where it is needed."""

    def __init__(self, asked: argparse.Namespace, job: Job):
        self.file, self.job = plan_home(asked.job, asked.together), job
        self.number, self.as_printed = as_typed(asked.plan), asked.as_printed
        self._read: InHand | None = None

    @property
    def kept(self) -> InHand | None:
        """The plan in hand; None where none is kept."""
        if self._read is None:
            found = read_plan(self.file, self.job)
            self._read = found.hand if found is not None else None
        return self._read

    def bears(self, after: Record) -> list[str]:
        """What the plan bears after a mark, in lines; nothing where none is kept, or where it cannot be read."""
        try:
            return still_bears(self.kept, self.job, after) if self.kept is not None and self.kept.printed != PRINTING else []
        except BenchError:
            return []

    def mark(self, typed: str, rows: int, record: Record) -> Mark:
        """The mark of a stick as its sheet says."""
        if typed not in record.order:
            _no_stick(typed, record)
        hand = self.kept
        if hand is None:
            if several := plans_beside(self.file):
                raise PlanError(f"{several[0].file} is in hand, a plan of other jobs than those that are named: name the same ones (--together OTHER-JOB).")
            refuse_astray(self.file, self.job)
            raise PlanError(
                f"No plan is kept for {shown(self.file)} (there is no {shown(plan_path(self.file))}): plan or pack it first, or say what was cut, "
                f'like --done "{typed}: 2 x A3".'
            )
        if hand.printed == PRINTING:
            raise PlanError(f"The pack of plan {hand.number} was broken off while it was written: make the pack again, then mark from its sheets.")
        stick_id = _on_sheet(hand, typed, record)
        planned = hand.stick(stick_id)
        if self.number and not hand.shows(self.number, stick_id):
            raise PlanError(another_number(hand, self.number, stick_id))
        if planned is None:
            record.on_hand(typed)  # says that it is cut
            raise PlanError(f'Plan {hand.number} cuts nothing from {typed}: say what was cut, like --done "{typed}: 2 x A3".')
        if rows > rows_of(planned):
            raise PlanError(f"The sheet of {stick_id} has {rows_of(planned)} rows, and row {rows} is said to be done: count them again.")
        made = hand.mark(stick_id, rows)
        begun = record.begun(made)
        if begun is None:
            record.on_hand(stick_id)
        other = next((one for one in plans_beside(self.file) if one.printed and stick_id in one.sticks), None)
        if other is not None and not self.number and begun is None:
            raise PlanError(two_plans(hand, stick_id, other.number, other.file))
        found = against(differences(hand, self.job, record), planned)
        if found and not self.as_printed:
            raise PlanError(not_from_the_sheet(hand, stick_id, found))
        return made


    def as_on_sheet(self, stick_id: str, pieces: Sequence[Piece], record: Record) -> Mark | None:
        """The mark of the sheet, where what is typed is what it says; None where it is not, or where there is no sheet."""
        try:
            hand = self.kept
        except BenchError:
            return None
        planned = hand.stick(stick_id) if hand is not None and hand.printed != PRINTING else None
        if hand is None or planned is None or against(differences(hand, self.job, record), planned):
            return None
        made, typed = hand.mark(stick_id), Counter[str]()
        for piece in pieces:
            same = any(piece.part_id == own.part_id and piece.length in (None, own.length) for own in made.pieces)
            typed[piece.part_id] += piece.number if same and not piece.spoiled else MOST_QUANTITY
        return made if typed == Counter({piece.part_id: piece.number for piece in made.pieces}) else None


def _no_stick(stick_id: str, record: Record) -> NoReturn:
    """There is no such stick, neither here nor cut; or it is a row of several."""
    if any(stick.one_of == stick_id for stick in record.rack.sticks):
        record.rack.stick(stick_id)
    if meant := did_you_mean(stick_id, record.order):
        raise RackError(f'There is no stick "{stick_id[:32]}": {meant}')
    record.rack.stick(stick_id)
    raise AssertionError(stick_id)


def _on_sheet(hand: InHand, typed: str, record: Record) -> str:
    """The stick that a tag means: what is left of one that is cut part-way stands on that one's sheet."""
    parent = dict(record.origins).get(typed)
    if hand.stick(typed) is None and parent is not None and hand.stick(parent) is not None:
        begun = next((old for old in record.cut if old.stick.id == parent and old.rows and old.plan == hand.number), None)
        if begun is not None and typed in {tag for _, tag in record.waiting(hand.stick(parent), begun)}:  # type: ignore[arg-type]
            return parent
    return typed


def _sticks(given: Sequence[str] | None) -> Iterator[str]:
    """What is said of each stick: several sticks of which nothing more is said may stand in one word, with commas."""
    for words in given or ():
        if ":" in words:
            yield words
        else:
            yield from filter(None, (word.strip() for word in words.replace(";", ",").split(",")))


def _each(given: Sequence[str] | None) -> list[str]:
    return [word.strip() for words in given or () for word in words.split(",") if word.strip()]


def _named(stick_id: str, record: Record) -> str:
    return record.cut_stick(stick_id).stick.id


def _reader(words: str, job: Job, hand: _Hand) -> Callable[[Record], Mark]:
    """What makes a mark of the words, once the record is read."""
    stick_id, rest = stick_from(words)
    row = row_from(rest) if rest is not None else 0
    if rest is not None and row == 0:
        raise PlanError(f"No row of the sheet of {stick_id} is said to be done: write the number of the last one, like {stick_id}:3, or {stick_id} alone for all.")
    if row is not None and not (rest is not None and any(part.id == rest.strip() for part in job.parts)):
        return lambda record: hand.mark(stick_id, row, record)
    pieces = pieces_from(rest or "", job.unit)

    def made(record: Record) -> Mark:
        if stick_id not in record.order:
            _no_stick(stick_id, record)
        stick = record.on_hand(stick_id)
        return hand.as_on_sheet(stick_id, pieces, record) or Mark(stick.id, pieces)

    return made


def _used(words: str, unit: str) -> Callable[[Record], Mark]:
    """A stick, or a length of it, that was used for something else."""
    stick_id, rest = stick_from(words)
    length = read(rest, what=f"length that was used of {stick_id}", zero=False, unit=unit) if rest is not None else None

    def made(record: Record) -> Mark:
        stick = record.on_hand(stick_id)
        return Mark(stick.id, (Piece(OTHER, 1, length if length is not None else stick.length),))

    return made


# --- spoiled --------------------------------------------------------------------------------------------------
def _spoiled_piece(words: str, unit: str) -> tuple[str, Piece]:
    stick_id, rest = stick_from(words)
    pieces = pieces_from(rest, unit) if rest is not None else ()
    if len(pieces) != 1 or pieces[0].number != 1:
        raise BenchError('Name the stick and the one piece that is spoiled, like --spoiled "S-05: A3 leaves 12", or "S-05: A3 scrap".')
    if not pieces[0].spoiled:
        raise BenchError(
            f'Say what is left of it: --spoiled "{stick_id}: {pieces[0].part_id} leaves 12" puts a length of it back on the rack, '
            f'"{stick_id}: {pieces[0].part_id} scrap" nothing.'
        )
    return stick_id, pieces[0]


def _spoiled(words: str, job: Job) -> tuple[str, Change]:
    stick_id, piece = _spoiled_piece(words, job.unit)
    return f"spoiled {words}", lambda record: record.spoiled(_named(stick_id, record), piece.part_id, piece.left, job)


def _undone_words(stick_id: str, before: Record, job: Job) -> str:
    old, left = before.cut_stick(stick_id), before.children(stick_id)
    other = f", which was cut for {old.job}," if old.job and not old.belongs(job) else ""
    gone = f"; {and_more(sorted(left))} {'is' if len(left) == 1 else 'are'} not" if left else ""
    return f"Taken back: {stick_id}{other} is on the rack again, in its place{gone}."


def _spoiled_words(words: str, unit: str, before: Record, after: Record) -> list[str]:
    stick_id, piece = _spoiled_piece(words, unit)
    stick_id = _named(stick_id, before)
    new = [s for s in after.rack.sticks if s.id in after.children(stick_id) and s.id not in before.children(stick_id) and s.length == piece.left]
    back = f" Back on the rack: {_tagged(new[0])}." if new else " Nothing of it goes back on the rack."
    return [f"Spoiled: {piece.part_id} from {stick_id}; it is wanted again.{back}"]


# --- what is said -----------------------------------------------------------------------------------------------
def _said(stick_id: str, after: Record, job: Job, hand: _Hand) -> list[str]:
    """What was cut and what is left, in the unit of the plan and of the tags."""
    old = after.cut_stick(stick_id)
    with writing(job.unit_for(old.stick.section, old.stick.alloy)):
        here = [s for s in after.rack.sticks if s.id in after.children(stick_id)]
        return _back(old, sorted(here, key=lambda s: (-s.length, s.id)), hand)


def _back(old: CutStick, left: Sequence[Stick], hand: _Hand) -> list[str]:
    if old.rows:
        rest = and_more([f"{s.id} ({show(s.length, 64, 'down')})" for s in left])
        return [f"Marked: {old}.", f"The rest of its sheet, from row {old.rows + 1} on, is in {rest}: mark it as {old.stick.id} when more of it is cut."]
    planned = hand.kept.stick(old.stick.id) if old.plan and hand.kept is not None else None
    back = [_tagged(s) for s in left]
    said = [f"Marked: {old}.", f"Back on the rack: {'; '.join(back)}." if back else "Nothing of it is long enough to keep."]
    printed = {r.stick.id: r.stick for r in planned.remnants} if planned is not None else {}
    other = [(s.id, tag) for s in left for tag, r in printed.items() if tag != s.id and r.length == s.length and s.id not in printed]
    return said + [f"Its sheet says {tag}: that tag is on other metal already, write {name}." for name, tag in other]


def _tagged(stick: Stick) -> str:
    return f"{stick.id}, {show(stick.length, 64, 'down')} long; write its tag{f' and {stick.alloy}' if stick.alloy else ''} on it"


def _progress(after: Record, job: Job) -> str:
    job = own_parts(job)
    made = sum(number for part_id, number in after.made(job).items() if any(part.id == part_id for part in job.parts))
    return f"{made} of {job.pieces} pieces of {job.name} are marked as made."
