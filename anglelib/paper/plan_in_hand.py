"""The plan in hand as the commands find it: beside its job, as it was printed, made anew when that is asked for."""

from __future__ import annotations

import datetime
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import TypeVar

from anglelib.errors import BenchError, StorageError
from anglelib.files.mending_words import lost_words
from anglelib.files.plan_astray import refuse_astray
from anglelib.files.plan_file import Kept, plan_path, plans_beside, read_plan, write_plan
from anglelib.files.rack_of_plan import another, name_beside, remember
from anglelib.files.rack_record import COMPLETED, NO_JOURNAL, Found, lock_of_a_spreadsheet, look_at
from anglelib.job import Job
from anglelib.lines import say, wrapped
from anglelib.stock.anew import Change, renamed
from anglelib.stock.in_hand import WELCOME, InHand, differences, in_hand, makes_what_is_wanted, marked_from, part_way, to_do
from anglelib.stock.in_hand_words import change, changes, holds_no_more
from anglelib.stock.lots import with_lots
from anglelib.stock.part_way import rows_of
from anglelib.stock.record import Record
from anglelib.stock.several_jobs import own_parts
from anglelib.stock.standing import Standing
from anglelib.stock.unused import refused
from anglelib.stock.wording import and_more, counted
from anglelib.storage import path_shown, shown, write_text

Written = TypeVar("Written")
Pick = tuple[int, ...]
"""Sections of a plan, by their numbers from 1 on, whose runner-up is to be cut."""
PRINTING = "printing"
"""What stands for the day on which a plan was printed, while its pack is being written."""
NO_JOURNAL_WORDS = "The journal of marks is not beside {0}: what was cut is as {0} has it, and the next mark begins a new one."


@dataclass(frozen=True)
class Shown:
    """The plan that is shown: how it stands, the plan in hand with its file (None: none is kept), whether it is new, what it changes."""

    standing: Standing
    hand: InHand
    kept: Kept | None
    new: bool
    changes: tuple[Change, ...] | None = None
    replaced: str = ""


def noticed(rack_file: str, refuse: bool = True) -> Found:
    """What is to be said of a rack before anything is done with it, on the error stream; RackError where it has lost marks."""
    found = look_at(rack_file)
    for id_, about in found.ids:
        if id_ == COMPLETED:
            say(f"A mark that was broken off is completed: {about}.", sys.stderr)
        if id_ == NO_JOURNAL:
            say(NO_JOURNAL_WORDS.format(shown(rack_file)), sys.stderr)
    if lock := lock_of_a_spreadsheet(rack_file):
        say(
            f"{shown(rack_file)} is open in a spreadsheet ({lock}): close it there without saving, and open it again after the mark. Saved from "
            "there it would be an older copy.",
            sys.stderr,
        )
    if found.lost and refuse:
        raise BenchError(lost_words(found.lost, shown(rack_file)))
    return found


def to_show(
    job_file: str, job: Job, record: Record, search, seconds: float | None, anew: bool, to_print: bool = False, share: float = 1.0, pick: Pick | None = None
) -> Shown | None:  # fmt: skip
    """The plan in hand where there is one that holds, or a new one; None where everything is made.

    ``search(make)`` makes a plan with its progress shown. A plan that was neither printed nor marked from is replaced without a word more
    than its number; another only where ``anew`` asks for it. Of the ``seconds`` given the search has this ``share``. ``pick`` are the sections, by number,
    whose runner-up is to be cut (none of them: the plan by the rule); without it what was picked before stays picked.
    """
    if record.still_wanted(own_parts(job)) is None:
        return None
    try:
        kept = read_plan(job_file, job) if job_file else None
    except BenchError:
        if not anew:
            raise
        kept = None
        _aside(job_file)
    if job_file and not anew:
        refuse_astray(job_file, job)
    followed = kept is not None and (bool(kept.hand.printed) or marked_from(kept.hand, record))
    if pick is not None and kept is not None and followed:
        if marked_from(kept.hand, record):
            raise BenchError(
                f"Cuts are marked from plan {kept.hand.number}, and what was picked in it stays: another pick can be made before the first cut is marked."
            )
        if not anew:
            raise BenchError(f"Plan {kept.hand.number} is printed: lay its sheets away, and pick with --anew --pick.")
    if kept is not None and not anew and pick is None:
        found = [one for one in differences(kept.hand, job, record) if one.id not in WELCOME or not followed]  # an unprinted plan follows the rack
        if not found and (followed or not kept.hand.plan.interrupted and makes_what_is_wanted(kept.hand, job, record)):
            return _as_it_stands(kept, job, record, to_print)
        if found and followed:
            raise BenchError(holds_no_more(kept.hand, found))
    before = kept.hand if kept is not None and followed else None
    changed, given, begun = None, None if seconds is None else seconds * share, time.monotonic()
    if before is not None and pick is None:
        from anglelib.stock.anew import plan_anew

        made = search(lambda **how: plan_anew(before, job, record, seconds=given, **how))
        now, changed = (made.standing, made.changes) if made is not None else (None, None)
    else:
        from anglelib.stock.standing import standing

        now = search(lambda **how: standing(job, record, seconds=given, **how))
    if now is None:
        return None
    picks = pick if pick is not None else _again(kept.hand, now) if kept is not None and before is None else ()
    if picks:
        now = with_runner_ups(now, job, picks, pick is not None, None if given is None else max(0.0, given - (time.monotonic() - begun)))
    hand = in_hand(now.printed, job, seconds, datetime.date.today().isoformat(), before)
    other = kept is not None and not followed and kept.hand.number != hand.number
    return Shown(now, hand, kept, True, changed, kept.hand.number if other and kept is not None else "")


def _again(hand: InHand, now: Standing) -> Pick:
    """The sections of which the runner-up was picked in a plan that is replaced."""
    was = {(group.section, group.alloy) for group in hand.plan.groups if group.picked is not None}
    return tuple(n for n, group in enumerate(now.plan.groups, 1) if (group.section, group.alloy) in was and group.picked is None)


def with_runner_ups(now: Standing, job: Job, picks: Pick, asked: bool, seconds: float | None) -> Standing:
    """How it stands once runner-ups take the place of sections; BenchError where one that is ``asked`` for is not there."""
    from anglelib.stock.runner_up import runner_ups, with_picks
    from anglelib.stock.standing import as_printed

    groups = now.plan.groups
    if strange := [n for n in picks if not 1 <= n <= len(groups)]:
        if asked:
            raise BenchError(f"There is no section {strange[0]} in this plan: it has {len(groups)}, in the order in which they stand.")
        picks = tuple(n for n in picks if n not in strange)
    found = runner_ups(now.job, now.rack, now.plan, seconds=seconds, only=picks)
    lacking = [one for one in found if one.group is None]
    if lacking and asked:
        raise BenchError(f"Section {lacking[0].number}, {lacking[0].title}, has no runner-up to pick. {lacking[0].sentence}")
    made = with_picks(now.plan, found)
    return replace(now, plan=made, printed=made if now.job == job else as_printed(job, now.job, now.printed, made))


def _aside(job_file: str) -> None:
    """A plan file that cannot be read gets another name: nothing is thrown away."""
    path = plan_path(job_file)
    path.replace(path.with_name(path.name + ".unreadable"))


def _as_it_stands(kept: Kept, job: Job, record: Record, to_print: bool) -> Shown | None:
    hand, wanted = kept.hand, record.still_wanted(job)
    if wanted is None:
        return None
    if to_print and marked_from(hand, record):
        raise BenchError(
            f"Plan {hand.number} is in hand, and cuts are marked from it: its sheets hold, and no new ones are needed. To print the rest with a number "
            "of its own, add --anew: what is started stays, and every stick that changes is named."
        )
    if to_print and not makes_what_is_wanted(hand, job, record):
        raise BenchError(
            f"Plan {hand.number} is in hand, and was made when other pieces were wanted: some were made or spoiled since. To print what is wanted now, add "
            "--anew: every stick that changes is named."
        )
    now = with_lots(hand.plan, (*record.rack.sticks, *(old.stick for old in record.cut)))
    left = {part.id: part for part in wanted.parts}
    plan = renamed(now, lambda blank: replace(blank, part=left.get(blank.part.id, blank.part)), {})  # its parts as they are wanted
    return Shown(Standing(wanted, record.rack, plan, plan), replace(hand, plan=now), kept, False)


def keep(job_file: str, now: Shown, rack_file: str, printed: str = "") -> Kept | None:
    """Keep the plan that is shown beside its job; where that cannot be, say so and go on. ``printed`` is the day, or that it is being printed."""
    if not now.new and not printed:
        remember(job_file, rack_file)
        return now.kept
    hand = replace(now.hand, printed=printed or now.hand.printed, rack=name_beside(job_file, rack_file))
    unused = refused(now.standing.printed, now.standing.job, now.standing.rack)
    try:
        return write_plan(job_file, hand, unused, now.kept)
    except StorageError as error:
        if printed:
            raise
        say(f"The plan could not be kept: {error} Cuts are then marked by saying what was cut.", sys.stderr)
        return None


def printing(job_file: str, rack_file: str, now: Shown, write: Callable[[], Written]) -> Written:
    """Keep the plan as one that is being printed, write its pack, keep it as printed: no paper has a plan that nobody knows.

    Where the pack cannot be written the plan is again the one that was in hand before.
    """
    try:
        during = keep(job_file, now, rack_file, PRINTING)
    except StorageError as error:
        raise StorageError(f"{error} Nothing is printed: the plan of the sheets is kept beside the job, so copy job and rack into a folder of your own.") from None
    try:
        written = write()
    except BaseException:
        assert during is not None
        if now.kept is None:
            plan_path(job_file).unlink(missing_ok=True)
        else:
            write_text(plan_path(job_file), now.kept.source.text, during.source)
        raise
    keep(job_file, replace(now, kept=during), rack_file, datetime.date.today().isoformat())
    return written


def news(now: Shown, record: Record) -> list[str]:
    """The sticks on the rack that the plan that is shown knows nothing of."""
    return [] if now.new else [one.about for one in differences(now.hand, now.standing.job, record) if one.id in WELCOME]


def head_lines(now: Shown, record: Record, rack_file: str, job_file: str) -> list[str]:
    """The number of the plan that is shown, and what there is to say of it."""
    hand = now.hand
    if now.new:
        before = f" It takes the place of {now.replaced}, which was not printed." if now.replaced else ""
        return [*wrapped(f"Plan {hand.title}.{before}"), *change_lines(now)]
    since = f" of {hand.made_on}" if hand.made_on else ""
    lines = wrapped(f"Plan {hand.title}{since}, as it is in hand.{_done_words(hand, record)}")
    if (other := another(job_file, rack_file)) is not None:
        lines += wrapped(f"Mind: it was made from {path_shown(other)}, and {shown(rack_file)} is another file.")
    found = news(now, record)
    return lines + (wrapped(f"On the rack and not thought of in it: {and_more(found)}. To plan with {'it' if len(found) == 1 else 'them'}: --anew.") if found else [])


def beside_lines(job_file: str, hand: InHand) -> list[str]:
    """The other plans that are printed, of one of these jobs or of several together, and cut the same sticks."""
    lines: list[str] = []
    for other in plans_beside(job_file):
        same = [stick.stick.id for stick in hand.sticks if stick.stick.id in other.sticks]
        if other.printed and same:
            lines += wrapped(f"LOOK: plan {other.number} ({other.file}) is printed and cuts {and_more(same)} too: follow one of the two, and lay the sheets of the other away.")
    return lines


def change_lines(now: Shown) -> list[str]:
    """What a plan that was made anew changes against the sheets in hand, stick by stick."""
    if now.changes is None:
        return []
    return [*wrapped(changes(now.changes)), *(line for one in now.changes for line in wrapped(change(one), "  ", "    "))]


def _done_words(hand: InHand, record: Record) -> str:
    left, begun = len(to_do(hand, record)), part_way(hand, record)
    done, of = len(hand.sticks) - left, len(hand.sticks)
    if not done and not begun:
        return ""
    said = f" {done or 'None'} of its {counted(of, 'stick')} {'is' if done < 2 else 'are'} cut{'' if done else ' whole'}"
    parts = [f"{name} to row {row} of {rows_of(hand.stick(name))}" for name, row in begun.items()]  # type: ignore[arg-type]
    return f"{said}{f'; cut part-way: {and_more(parts)}' if parts else ''}."
